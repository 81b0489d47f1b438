//! Bone and soft tissue, and the levels that belong to them.

use super::picture::Picture;
use crate::case::Access;
use crate::drawing::{Dash, Drawing, Ink, LineWeight, Mark, Paint, Rect, Stroke};

const CREST: Stroke = Stroke::new(Ink::Strong, LineWeight::Medium);
const LOWEST: Stroke = Stroke::new(Ink::Bone, LineWeight::Thin).dashed(Dash::Dashed);
const TISSUE: Stroke = Stroke::new(Ink::Tissue, LineWeight::Thin);
const UNKNOWN: Stroke = Stroke::new(Ink::Faint, LineWeight::Thin).dashed(Dash::Dashed);
const LEVEL: Stroke = Stroke::new(Ink::Soft, LineWeight::Hair).dashed(Dash::Chain);
/// Between the lines of a hatch, mm on the page.
const HATCH: f64 = 1.1;

/// Bone and soft tissue.
pub(super) fn soft(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let path = facts.path("heights.platform_below_crest");
    let levels = &picture.levels;
    let (name, shape) =
        if let Some((highest, lowest)) = levels.highest_crest.zip(levels.lowest_crest) {
            drawing.add(tissue(picture, highest));
            ("section-crest", bone(picture, highest, lowest))
        } else {
            ("section-crest-unknown", unknown_bone(picture))
        };
    drawing.add_group(path, facts.word(name), shape);
    drawing
}

/// The band between two heights, over the whole width.
fn band(picture: &Picture<'_, '_>, from: f64, to: f64) -> Rect {
    Rect::between(
        picture.frame.place(-picture.left, from),
        picture.frame.place(picture.right, to),
    )
}

fn bone(picture: &Picture<'_, '_>, highest: f64, lowest: f64) -> Drawing {
    let mut drawing = Drawing::new();
    drawing.rect(
        band(picture, lowest, picture.apical),
        Paint::fill(Ink::Bone),
    );
    if highest > lowest {
        // Bone on some side only.
        let between = band(picture, highest, lowest);
        let hatch = Stroke::new(Ink::Bone, LineWeight::Hair);
        drawing.hatch(&[between.corners().to_vec()], HATCH, -45.0, hatch);
    }
    drawing
}

/// Bone whose upper end nobody knows: no line across.
fn unknown_bone(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let top = picture.levels.sleeve.unwrap_or(1.0).min(picture.coronal);
    let frame = picture.frame;
    for aside in [-picture.left, picture.right] {
        drawing.line(
            frame.place(aside, top),
            frame.place(aside, picture.apical),
            UNKNOWN,
        );
    }
    let aside = -picture.left * 0.72;
    let middle = frame.place(aside, f64::midpoint(0.0, picture.apical));
    drawing.mark(middle, 4.0, Mark::Unknown);
    drawing
}

/// Soft tissue as it lies under a punch; under a flap only its outline, since it is folded away.
fn tissue(picture: &Picture<'_, '_>, crest: f64) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let path = facts.path("heights.tissue_thickness_mm");
    let flap = facts.section.case.guide.access == Access::Flap;
    let mut shape = Drawing::new();
    let name = match (picture.levels.tissue, flap) {
        (Some(thickness), false) => {
            let over = band(picture, crest, crest + thickness);
            shape.rect(over, Paint::fill(Ink::Tissue));
            shape.line(
                picture.frame.place(-picture.left, crest + thickness),
                picture.frame.place(picture.right, crest + thickness),
                TISSUE,
            );
            "section-tissue"
        }
        (Some(thickness), true) => {
            shape.line(
                picture.frame.place(-picture.left, crest + thickness),
                picture.frame.place(picture.right, crest + thickness),
                TISSUE.dashed(Dash::Dashed),
            );
            "section-tissue-reflected"
        }
        (None, false) => "section-tissue-unknown",
        (None, true) => return drawing,
    };
    drawing.add_group(path, facts.word(name), shape);
    drawing
}

/// The crest: its highest line, and its lowest where that is another.
pub(super) fn crest(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let levels = &picture.levels;
    if let Some((highest, lowest)) = levels.highest_crest.zip(levels.lowest_crest) {
        let left = -picture.left;
        if lowest < highest {
            across(&mut drawing, picture, lowest, left, LOWEST);
        }
        across(&mut drawing, picture, highest, left, CREST);
    }
    drawing
}

/// The levels of platform, apex and deepest cut.
pub(super) fn levels(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let radius = picture.facts.implant.diameter_mm.mm() / 2.0;
    across(&mut drawing, picture, 0.0, -picture.left, LEVEL);
    across(&mut drawing, picture, picture.levels.apex, radius, LEVEL);
    if let Some(cut) = picture.levels.deepest_cut
        && names_deepest(picture)
    {
        let dotted = Stroke::new(Ink::Strong, LineWeight::Thin).dashed(Dash::Dotted);
        across(&mut drawing, picture, cut, 0.0, dotted);
    }
    drawing
}

/// A level line from a place beside the axis to the right edge.
fn across(drawing: &mut Drawing, picture: &Picture<'_, '_>, above: f64, from: f64, stroke: Stroke) {
    drawing.line(
        picture.frame.place(from, above),
        picture.frame.place(picture.right, above),
        stroke,
    );
}

/// True if another step goes deeper than the one that is shown, or none is shown.
pub(super) fn names_deepest(picture: &Picture<'_, '_>) -> bool {
    let facts = picture.facts;
    let shown = facts.step.and_then(|step| step.sheet.cut.length());
    match (facts.section.site.deepest_cut.length(), shown) {
        (Some(deepest), Some(shown)) => shown < deepest,
        (Some(_), None) => true,
        (None, _) => false,
    }
}
