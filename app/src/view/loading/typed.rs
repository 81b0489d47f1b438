//! A figure as it is typed on the keypad.

use traywright_core::measure::Length;

/// The most figures before the decimal mark: no gauge shows a length of more.
const BEFORE: usize = 3;
/// The most decimals: a length is whole micrometres.
const AFTER: usize = 3;

/// A figure as it is typed, in millimetres.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Typed(String);

impl Typed {
    /// The text typed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Adds a digit; one too many is not taken.
    pub fn digit(&mut self, digit: u8) {
        let room = match self.0.split_once('.') {
            Some((_, decimals)) => decimals.len() < AFTER,
            None => self.0.len() < BEFORE,
        };
        if room && digit < 10 {
            self.0.push(char::from(b'0' + digit));
        }
    }

    /// Adds the decimal mark, once.
    pub fn mark(&mut self) {
        if self.0.is_empty() {
            self.0.push('0');
        }
        if !self.0.contains('.') {
            self.0.push('.');
        }
    }

    /// Takes the last sign away.
    pub fn back(&mut self) {
        self.0.pop();
    }

    /// Takes all away.
    pub fn clear(&mut self) {
        self.0.clear();
    }

    /// The length; nothing where it is none, or none that can be recorded.
    #[must_use]
    pub fn value(&self) -> Option<Length> {
        let digits = self.0.trim_end_matches('.');
        let length = Length::parse_mm(digits).ok()?;
        (length > Length::ZERO).then_some(length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(keys: &str) -> Typed {
        let mut typed = Typed::default();
        for key in keys.chars() {
            match key {
                '.' => typed.mark(),
                '<' => typed.back(),
                digit => typed.digit(u8::try_from(digit.to_digit(10).unwrap()).unwrap()),
            }
        }
        typed
    }

    #[test]
    fn what_is_typed_stands_there_and_is_a_length() {
        for (keys, stands, value) in [
            ("24.3", "24.3", Some(24_300)),
            ("243", "243", Some(243_000)),
            ("24..3", "24.3", Some(24_300)),
            ("24.", "24.", Some(24_000)),
            ("24.3<4", "24.4", Some(24_400)),
            (".5", "0.5", Some(500)),
            ("1234", "123", Some(123_000)),
            ("1.2345", "1.234", Some(1_234)),
            ("", "", None),
            ("<", "", None),
            ("0", "0", None),
            ("0.0", "0.0", None),
            (".", "0.", None),
        ] {
            let typed = typed(keys);
            assert_eq!(typed.as_str(), stands, "{keys}");
            assert_eq!(typed.value(), value.map(Length::from_um), "{keys}");
        }
    }
}
