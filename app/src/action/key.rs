//! The names of keys, as targets and hints show them.

use egui::{Key, KeyboardShortcut, ModifierNames, Modifiers};

/// The key that takes away what is picked.
pub const REMOVE: Key = Key::Delete;

/// The name of a key.
#[must_use]
pub fn key_name(key: Key) -> &'static str {
    match key {
        Key::ArrowLeft | Key::Backspace => "←",
        Key::ArrowRight => "→",
        Key::ArrowUp => "↑",
        Key::ArrowDown => "↓",
        Key::Delete => "Del",
        Key::OpenBracket => "[",
        Key::CloseBracket => "]",
        key => key.name(),
    }
}

/// The names of keys that do the same, each with what is held with it: "Ctrl ↑   [".
#[must_use]
pub fn key_names(keys: &[KeyboardShortcut]) -> String {
    let name = |shortcut: &KeyboardShortcut| {
        let key = key_name(shortcut.logical_key);
        match shortcut.modifiers {
            Modifiers::NONE => key.to_owned(),
            held => format!("{} {key}", ModifierNames::NAMES.format(&held, false)),
        }
    };
    keys.iter().map(name).collect::<Vec<_>>().join("   ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_named_with_what_is_held() {
        let up = KeyboardShortcut::new(Modifiers::COMMAND, Key::ArrowUp);
        let bracket = KeyboardShortcut::new(Modifiers::NONE, Key::OpenBracket);
        let moved = KeyboardShortcut::new(Modifiers::ALT, Key::ArrowDown);
        for (keys, want) in [
            (&[up, bracket][..], "Ctrl ↑   ["),
            (&[moved], "Alt ↓"),
            (&[], ""),
        ] {
            assert_eq!(key_names(keys), want);
        }
        assert_eq!([REMOVE, Key::P].map(key_name), ["Del", "P"]);
    }
}
