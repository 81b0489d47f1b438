//! Places of combining marks on their bases, from the font's own anchor points.

use super::FontFile;
use ttf_parser::GlyphId;
use ttf_parser::gpos::{AnchorMatrix, MarkArray, PositioningSubtable};
use ttf_parser::opentype_layout::Coverage;

/// Shift of `mark` that seats it on `base`, font units (y up), if the font has one. `base` may
/// itself be a mark that already sits.
pub(super) fn attach(file: FontFile, base: GlyphId, mark: GlyphId) -> Option<(i32, i32)> {
    let table = file.parsed().tables().gpos?;
    for lookup in table.lookups {
        for index in 0..lookup.subtables.len() {
            let found = match lookup.subtables.get::<PositioningSubtable>(index)? {
                PositioningSubtable::MarkToBase(to) => way(
                    base,
                    to.base_coverage,
                    to.anchors,
                    mark,
                    to.mark_coverage,
                    to.marks,
                ),
                PositioningSubtable::MarkToMark(to) => way(
                    base,
                    to.mark2_coverage,
                    to.mark2_matrix,
                    mark,
                    to.mark1_coverage,
                    to.marks,
                ),
                _ => None,
            };
            if found.is_some() {
                return found;
            }
        }
    }
    None
}

fn way(
    base: GlyphId,
    bases: Coverage,
    anchors: AnchorMatrix,
    mark: GlyphId,
    marks: Coverage,
    points: MarkArray,
) -> Option<(i32, i32)> {
    let (class, own) = points.get(marks.get(mark)?)?;
    let there = anchors.get(bases.get(base)?, class)?;
    Some((
        i32::from(there.x) - i32::from(own.x),
        i32::from(there.y) - i32::from(own.y),
    ))
}
