//! The words of JSON: texts, numbers and the three names, and what people write in their place.

use super::fault::clipped;
use super::numbers::Decimal;
use super::{Fault, Path, Rule};

/// A text and how far it was read.
pub(super) struct Cursor<'a> {
    pub(super) text: &'a str,
    pub(super) at: usize,
}

impl<'a> Cursor<'a> {
    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    pub(super) fn take(&mut self, c: char) -> bool {
        let there = self.peek() == Some(c);
        if there {
            self.at += c.len_utf8();
        }
        there
    }

    pub(super) fn skip_blanks(&mut self) {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start_matches([' ', '\t', '\n', '\r']).len();
    }

    /// A fault at a byte offset. Path and text are added by the parser.
    pub(super) fn fault_at(&self, at: usize, rule: Rule) -> Fault {
        let mut fault = Fault::new(Path::root(), rule);
        fault.position = Some(super::encoding::position(self.text, at));
        fault
    }

    /// A fault here, with what was found.
    pub(super) fn found_here(&self, rule: Rule) -> Fault {
        let found = self.rest();
        let word = word_length(found).max(found.chars().next().map_or(0, char::len_utf8));
        let found = found.get(..word).unwrap_or_default();
        self.fault_at(self.at, rule).with("found", clipped(found))
    }

    /// The fault that the text stops inside of something that began at `start`.
    pub(super) fn unfinished(&self, open: &'static str, start: usize) -> Fault {
        let line = super::encoding::position(self.text, start).line;
        let fault = self.fault_at(self.text.len(), Rule::Unfinished);
        fault.with("open", open).with("line", line)
    }

    /// A text in double quotes, which begins here.
    pub(super) fn quoted_text(&mut self) -> Result<String, Fault> {
        let start = self.at;
        let mut value = String::new();
        self.take('"');
        loop {
            let at = self.at;
            match self.peek() {
                None => return Err(self.unfinished("text", start)),
                Some('"') => {
                    self.take('"');
                    return Ok(value);
                }
                Some('\\') => value.push(self.escape(start)?),
                Some(c) if c < ' ' => {
                    let code = format!("U+{:04X}", u32::from(c));
                    return Err(self.fault_at(at, Rule::ControlCharacter).with("code", code));
                }
                Some(c) => {
                    self.take(c);
                    value.push(c);
                }
            }
        }
    }

    /// A character after a backslash, which is here.
    fn escape(&mut self, start: usize) -> Result<char, Fault> {
        let at = self.at;
        self.take('\\');
        let Some(c) = self.peek() else {
            return Err(self.unfinished("text", start));
        };
        self.take(c);
        Ok(match c {
            '"' | '\\' | '/' => c,
            'b' => '\u{8}',
            'f' => '\u{C}',
            'n' => '\n',
            'r' => '\r',
            't' => '\t',
            'u' => return self.unicode_escape(at, start),
            _ => return Err(self.bad_escape(at, start)),
        })
    }

    fn bad_escape(&self, at: usize, start: usize) -> Fault {
        let rest = &self.text[at..];
        let begun = |c: char| c == '\\' || c == 'u' || c.is_ascii_hexdigit();
        if rest.chars().all(begun) {
            return self.unfinished("text", start);
        }
        let found: String = rest.chars().take(6).collect();
        self.fault_at(at, Rule::BadEscape)
            .with("found", clipped(&found))
    }

    /// The four digits behind `\u`, and a second escape where the first is half a character.
    fn unicode_escape(&mut self, at: usize, start: usize) -> Result<char, Fault> {
        let first = self
            .four_digits()
            .ok_or_else(|| self.bad_escape(at, start))?;
        let code = if (0xD800..0xDC00).contains(&first) {
            let low = (self.take('\\') && self.take('u'))
                .then(|| self.four_digits())
                .flatten()
                .filter(|low| (0xDC00..0xE000).contains(low))
                .ok_or_else(|| self.bad_escape(at, start))?;
            0x1_0000 + ((first - 0xD800) << 10) + (low - 0xDC00)
        } else {
            first
        };
        char::from_u32(code).ok_or_else(|| self.bad_escape(at, start))
    }

    fn four_digits(&mut self) -> Option<u32> {
        let digits = self.rest().get(..4)?;
        if !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
            return None;
        }
        self.at += 4;
        u32::from_str_radix(digits, 16).ok()
    }

    /// A number, which begins here with a digit, a sign or a decimal point.
    pub(super) fn number(&mut self) -> Result<Decimal, Fault> {
        let rest = self.rest();
        let end = rest
            .find(|c: char| !c.is_ascii_alphanumeric() && !matches!(c, '+' | '-' | '.'))
            .unwrap_or(rest.len());
        let word = &rest[..end];
        if is_number(word) {
            self.at += end;
            return Ok(Decimal::new(word));
        }
        let name = word.trim_start_matches(['+', '-']).to_ascii_lowercase();
        Err(self.found_here(match name.as_str() {
            "infinity" | "inf" | "nan" => Rule::NotFinite,
            _ if end == rest.len() && is_number_begun(word) => {
                return Err(self.unfinished("value", self.at));
            }
            _ => Rule::NumberForm,
        }))
    }

    /// The fault of something that begins no value, or a word that is none.
    pub(super) fn no_value(&self) -> Fault {
        let rest = self.rest();
        let word = &rest[..word_length(rest)];
        let lower = word.to_ascii_lowercase();
        self.found_here(match rest.chars().next() {
            None => return self.unfinished("value", self.at),
            Some('/' | '#') => Rule::Comment,
            Some('\'' | '`' | '“' | '”' | '„' | '‘' | '’' | '«' | '»') => {
                Rule::OtherQuotes
            }
            Some(',' | ']' | '}') => Rule::MissingValue,
            Some('∞') => Rule::NotFinite,
            _ if matches!(lower.as_str(), "nan" | "infinity" | "inf") => Rule::NotFinite,
            // A name of JSON cut off by the end of the text.
            _ if word.len() == rest.len()
                && !word.is_empty()
                && ["true", "false", "null"]
                    .iter()
                    .any(|name| name.starts_with(word)) =>
            {
                return self.unfinished("value", self.at);
            }
            _ if !word.is_empty() => Rule::BareWord,
            _ => Rule::ExpectedValue,
        })
    }
}

/// The length of a text's first word in bytes.
fn word_length(text: &str) -> usize {
    text.find(|c: char| !c.is_alphanumeric() && !matches!(c, '_' | '+' | '-' | '.'))
        .unwrap_or(text.len())
}

/// True if a word is a number by the grammar of JSON.
fn is_number(word: &str) -> bool {
    let unsigned = word.strip_prefix('-').unwrap_or(word);
    let (mantissa, exponent) = match unsigned.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, Some(exponent)),
        None => (unsigned, None),
    };
    let (whole, fraction) = match mantissa.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (mantissa, None),
    };
    let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    digits(whole)
        && (whole == "0" || !whole.starts_with('0'))
        && fraction.is_none_or(digits)
        && exponent.is_none_or(|e| digits(e.strip_prefix(['+', '-']).unwrap_or(e)))
}

/// True if a word becomes a number with one more digit.
fn is_number_begun(word: &str) -> bool {
    is_number(&format!("{word}1"))
}
