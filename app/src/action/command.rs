//! Commands: everything that has a label, a key and perhaps a reason why it cannot be done now.

use super::View;
use crate::desk::Desk;
use egui::{Key, KeyboardShortcut, Modifiers};

/// A command.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Command {
    /// Starts a new case.
    New,
    /// Opens a case file.
    Open,
    /// Saves the case.
    Save,
    /// Saves the case under another name.
    SaveAs,
    /// Packs the case with its record into one file.
    Pack,
    /// Opens a pack.
    Unpack,
    /// Puts the case away.
    Close,
    /// Takes back the last step.
    Undo,
    /// Does the last undone step again.
    Redo,
    /// Looks at a view.
    Show(View),
    /// Stops looking for the best run order.
    StopLooking,
    /// Looks at the next site.
    NextSite,
    /// Looks at the site before.
    PreviousSite,
    /// Changes between light and dark.
    Mode,
    /// Shows the keys and the cautions.
    Help,
    /// Ends the program.
    Quit,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

impl Command {
    /// All of them, in the order in which they are listed.
    pub fn all() -> impl Iterator<Item = Self> {
        [
            Self::New,
            Self::Open,
            Self::Save,
            Self::SaveAs,
            Self::Pack,
            Self::Unpack,
            Self::Close,
            Self::Undo,
            Self::Redo,
        ]
        .into_iter()
        .chain(View::ALL.into_iter().map(Self::Show))
        .chain([
            Self::NextSite,
            Self::PreviousSite,
            Self::StopLooking,
            Self::Mode,
            Self::Help,
            Self::Quit,
        ])
    }

    /// The id of its label.
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::New => "command-new",
            Self::Open => "command-open",
            Self::Save => "command-save",
            Self::SaveAs => "command-save-as",
            Self::Pack => "command-pack",
            Self::Unpack => "command-unpack",
            Self::Close => "command-close",
            Self::Undo => "command-undo",
            Self::Redo => "command-redo",
            Self::Show(view) => view.text_id(),
            Self::StopLooking => "command-stop-looking",
            Self::NextSite => "command-next-site",
            Self::PreviousSite => "command-previous-site",
            Self::Mode => "command-mode",
            Self::Help => "command-help",
            Self::Quit => "command-quit",
        }
    }

    /// Its key.
    #[must_use]
    pub const fn key(self) -> KeyboardShortcut {
        let (modifiers, key) = match self {
            Self::New => (CTRL, Key::N),
            Self::Open => (CTRL, Key::O),
            Self::Save => (CTRL, Key::S),
            Self::SaveAs => (CTRL_SHIFT, Key::S),
            Self::Pack => (CTRL_SHIFT, Key::P),
            Self::Unpack => (CTRL_SHIFT, Key::O),
            Self::Close => (CTRL, Key::W),
            Self::Undo => (CTRL, Key::Z),
            Self::Redo => (CTRL_SHIFT, Key::Z),
            Self::Show(view) => (CTRL, view.key()),
            Self::StopLooking => (CTRL, Key::Period),
            Self::NextSite => (CTRL, Key::PageDown),
            Self::PreviousSite => (CTRL, Key::PageUp),
            Self::Mode => (CTRL_SHIFT, Key::D),
            Self::Help => (Modifiers::NONE, Key::F1),
            Self::Quit => (CTRL, Key::Q),
        };
        KeyboardShortcut::new(modifiers, key)
    }

    /// Another key that hands know for it.
    #[must_use]
    pub const fn other_key(self) -> Option<KeyboardShortcut> {
        match self {
            Self::Redo => Some(KeyboardShortcut::new(CTRL, Key::Y)),
            _ => None,
        }
    }

    /// The reason why it cannot be done now: the id of a text.
    #[must_use]
    pub fn why_not(self, desk: &Desk) -> Option<&'static str> {
        let document = desk.document.as_ref();
        let no_case = document.is_none().then_some("command-no-case");
        match self {
            Self::New
            | Self::Open
            | Self::Unpack
            | Self::Mode
            | Self::Help
            | Self::Quit
            | Self::Show(View::Start) => None,
            Self::Save => no_case.or_else(|| {
                let saved = document.is_some_and(|d| !d.is_changed() && d.file().is_some());
                saved.then_some("command-nothing-to-save")
            }),
            Self::Pack => no_case.or_else(|| {
                let unsaved = document.is_some_and(|d| d.is_changed() || d.file().is_none());
                unsaved.then_some("command-pack-unsaved")
            }),
            Self::SaveAs | Self::Close | Self::Show(_) => no_case,
            Self::Undo => no_case.or_else(|| {
                let nothing = document.is_some_and(|d| d.undo_name().is_none());
                nothing.then_some("command-nothing-to-undo")
            }),
            Self::Redo => no_case.or_else(|| {
                let nothing = document.is_some_and(|d| d.redo_name().is_none());
                nothing.then_some("command-nothing-to-redo")
            }),
            Self::StopLooking => {
                let nothing = !desk.run.can_be_stopped();
                nothing.then_some("command-nothing-to-stop")
            }
            Self::NextSite | Self::PreviousSite => no_case.or_else(|| {
                let none = document.is_some_and(|d| d.case().sites.is_empty());
                none.then_some("command-no-sites")
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;
    use traywright_core::text::Texts;

    #[test]
    fn no_two_commands_share_a_key_and_each_has_a_label() {
        let mut taken: BTreeMap<String, Command> = BTreeMap::new();
        for command in Command::all() {
            let key = format!("{:?}", command.key());
            assert_eq!(taken.insert(key, command), None, "{command:?}");
            assert!(Texts::english().has(command.text_id()), "{command:?}");
        }
    }
}
