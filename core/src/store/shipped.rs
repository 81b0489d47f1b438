//! Files of `assets/` that are made from the types.

use super::{read_file, write_safely};
use crate::document::{MOST_BYTES, ShippedSchema};
use std::path::Path;

/// Action on a shipped file that is not as it should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shipping {
    /// Report the difference.
    Compare,
    /// Write it anew.
    Rewrite,
}

/// Compares or rewrites the shipped file of a schema, by the schema that the types give.
///
/// # Errors
///
/// The first difference, or why the file cannot be read or written.
pub fn ship(schema: &ShippedSchema, assets: &Path, how: Shipping) -> Result<(), String> {
    let path = schema.path(assets);
    if how == Shipping::Rewrite {
        return write_safely(&path, schema.text.as_bytes()).map_err(|error| error.to_string());
    }
    let limit = u64::try_from(MOST_BYTES).unwrap_or(u64::MAX);
    let bytes = read_file(&path, limit).map_err(|error| error.to_string())?;
    match schema.first_difference(&String::from_utf8_lossy(&bytes)) {
        Some(difference) => Err(difference),
        None => Ok(()),
    }
}
