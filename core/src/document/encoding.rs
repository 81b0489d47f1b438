//! From bytes to text: size and encoding.

use super::fault::Position;
use super::{Fault, Path, Rule};

/// The largest document in bytes: 16 MiB, far above any case with its events.
pub const MOST_BYTES: usize = 16 * 1024 * 1024;

/// The text of a document.
///
/// A UTF-8 byte order mark is let pass, since some editors add it unasked; it means nothing.
pub(super) fn text(bytes: &[u8]) -> Result<&str, Fault> {
    let fault = |rule| Fault::new(Path::root(), rule);
    if bytes.len() > MOST_BYTES {
        return Err(fault(Rule::TooLarge)
            .with("bytes", bytes.len())
            .with("limit", MOST_BYTES));
    }
    if let Some(name) = other_encoding(bytes) {
        return Err(fault(Rule::OtherEncoding).with("encoding", name));
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        let byte = bytes.get(at).copied().unwrap_or_default();
        let before = String::from_utf8_lossy(&bytes[..at]);
        let mut fault = fault(Rule::NotUtf8).with("byte", format!("{byte:02X}"));
        fault.position = Some(position(&before, before.len()));
        fault
    })?;
    if let Some(at) = text.find('\0') {
        let mut fault = fault(Rule::NulByte);
        fault.position = Some(position(text, at));
        return Err(fault);
    }
    if text.trim().is_empty() {
        return Err(fault(Rule::Empty));
    }
    Ok(text)
}

/// The name of an encoding that is not UTF-8, by its mark or by the places of its NUL bytes.
fn other_encoding(bytes: &[u8]) -> Option<&'static str> {
    match bytes {
        [0xFF, 0xFE, 0, 0, ..] | [1..=0xFF, 0, 0, 0, ..] => Some("UTF-32 LE"),
        [0, 0, 0xFE, 0xFF, ..] | [0, 0, 0, 1..=0xFF, ..] => Some("UTF-32 BE"),
        [0xFF, 0xFE, ..] | [1..=0xFF, 0, 1..=0xFF, 0, ..] => Some("UTF-16 LE"),
        [0xFE, 0xFF, ..] | [0, 1..=0xFF, 0, 1..=0xFF, ..] => Some("UTF-16 BE"),
        _ => None,
    }
}

/// Line and column of a byte offset.
pub(super) fn position(text: &str, offset: usize) -> Position {
    let before = text.get(..offset).unwrap_or(text);
    let line = before.matches('\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    let column = before[start..].chars().count() + 1;
    Position { line, column }
}
