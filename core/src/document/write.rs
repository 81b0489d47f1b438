//! Documents as text: stable, and good to compare line by line.

use serde::Serialize;

/// A document as JSON: two spaces, keys in the order of the type, shortest decimals, a line break
/// at the end. Reading it gives the same document.
///
/// # Errors
///
/// Fails if the type cannot be written as JSON, such as a map whose keys are no texts.
pub fn print<T: Serialize>(document: &T) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(document)?;
    text.push('\n');
    Ok(text)
}
