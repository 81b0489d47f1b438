//! Mean sizes of the permanent teeth, from `assets/tooth-sizes.json`.

use super::jaw::Jaw;
use super::position::ToothPosition;
use crate::measure::Length;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Mean sizes of one tooth, the same on both sides.
///
/// They serve the arch model and drawings. No one person's tooth has them.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ToothSize {
    jaw: Jaw,
    number: u8,
    /// Length of the crown.
    #[serde(rename = "crown_length_mm")]
    pub crown_length: Length,
    /// Length of the root.
    #[serde(rename = "root_length_mm")]
    pub root_length: Length,
    /// Mesiodistal width of the crown.
    #[serde(rename = "crown_md_mm")]
    pub crown_md: Length,
    /// Mesiodistal width of the neck.
    #[serde(rename = "cervix_md_mm")]
    pub cervix_md: Length,
    /// Faciolingual width of the crown.
    #[serde(rename = "crown_fl_mm")]
    pub crown_fl: Length,
    /// The source of the row.
    pub source: String,
    grade: Grade,
    #[serde(default)]
    otherwise: BTreeMap<SizeField, Grade>,
}

/// Certainty of a value's source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Read in the publication.
    Published,
    /// Written down from memory.
    FromMemory,
}

/// One of the sizes in a row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SizeField {
    /// Length of the crown.
    CrownLength,
    /// Length of the root.
    RootLength,
    /// Mesiodistal width of the crown.
    CrownMd,
    /// Mesiodistal width of the neck.
    CervixMd,
    /// Faciolingual width of the crown.
    CrownFl,
}

impl ToothSize {
    /// Certainty of the source of one of the sizes.
    #[must_use]
    pub fn grade(&self, field: SizeField) -> Grade {
        self.otherwise.get(&field).copied().unwrap_or(self.grade)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    #[serde(rename = "about")]
    _about: String,
    /// Upper 1 to 8, then lower 1 to 8.
    teeth: [ToothSize; 16],
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    serde_json::from_str(include_str!("../../../assets/tooth-sizes.json"))
        .expect("a test reads the table that is compiled in")
});

/// The mean sizes of the tooth at a position.
#[must_use]
pub fn tooth_size(position: ToothPosition) -> &'static ToothSize {
    let row = match position.jaw() {
        Jaw::Upper => 0,
        Jaw::Lower => 8,
    };
    &TABLE.teeth[row + usize::from(position.number()) - 1]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_row_stands_in_its_place() {
        for position in ToothPosition::all() {
            let size = tooth_size(position);
            assert_eq!((size.jaw, size.number), (position.jaw(), position.number()));
            assert!(size.cervix_md > Length::ZERO && size.cervix_md < size.crown_md);
            assert!(!size.source.is_empty());
        }
    }

    /// Exact sums over the rows, so that a slip in a row shows.
    #[test]
    fn crown_widths_add_up_over_the_arch() {
        for (jaw, last, want_mm) in [
            (Jaw::Upper, 8, 128),
            (Jaw::Lower, 8, 126),
            (Jaw::Upper, 7, 111),
            (Jaw::Lower, 7, 106),
            (Jaw::Upper, 6, 93),
            (Jaw::Lower, 6, 85),
        ] {
            let sum: Length = ToothPosition::all_of(jaw)
                .filter(|p| p.number() <= last)
                .map(|p| tooth_size(p).crown_md)
                .sum();
            assert_eq!(sum, Length::from_mm(want_mm), "{jaw:?} to {last}");
        }
    }

    #[test]
    fn grades_are_kept_by_size_where_a_row_is_mixed() {
        let at = |iso: &str| tooth_size(iso.parse().unwrap());
        for (iso, field, want) in [
            ("11", SizeField::RootLength, Grade::Published),
            ("23", SizeField::CrownMd, Grade::FromMemory),
            ("35", SizeField::CrownLength, Grade::FromMemory),
            ("35", SizeField::CrownMd, Grade::Published),
            ("46", SizeField::CrownMd, Grade::Published),
            ("46", SizeField::CrownFl, Grade::FromMemory),
        ] {
            assert_eq!(at(iso).grade(field), want, "{iso} {field:?}");
        }
    }
}
