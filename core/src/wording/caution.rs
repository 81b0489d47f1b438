//! Cautions that are always shown.

use crate::text::Texts;

/// The text ids of the cautions, in the order in which they are shown.
pub const CAUTIONS: [&str; 5] = [
    "caution-aid",
    "caution-first",
    "caution-cooling",
    "caution-fit",
    "caution-reading",
];

/// The cautions, one sentence or two each.
#[must_use]
pub fn cautions(texts: &Texts) -> Vec<String> {
    CAUTIONS.iter().map(|id| texts.get(id, &[])).collect()
}
