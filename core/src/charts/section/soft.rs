//! Bone and soft tissue, and the levels that belong to them.

use super::column::Column;
use super::picture::Picture;
use crate::case::Access;
use crate::drawing::{Dash, Drawing, Ink, LineWeight, Mark, Paint, Rect, Stroke};

const CREST: Stroke = Stroke::new(Ink::Strong, LineWeight::Medium);
const LOWEST: Stroke = Stroke::new(Ink::Bone, LineWeight::Thin).dashed(Dash::Dashed);
const TISSUE: Stroke = Stroke::new(Ink::Tissue, LineWeight::Thin);
const UNKNOWN: Stroke = Stroke::new(Ink::Faint, LineWeight::Thin).dashed(Dash::Dashed);
/// Between the lines of a hatch, mm on the page.
const HATCH: f64 = 1.1;

/// Bone and soft tissue.
pub(super) fn soft(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let path = facts.path("heights.platform_below_crest");
    let levels = &picture.levels;
    match levels.highest_crest.zip(levels.lowest_crest) {
        Some((highest, lowest)) => {
            drawing.add(tissue(picture, highest));
            let name = facts.word("section-crest");
            drawing.add_group(path, name, bone(picture, highest, lowest));
        }
        None => {
            let name = facts.word("section-crest-unknown");
            drawing.add_group(path, name, unknown_bone(picture));
        }
    }
    drawing
}

/// What lies between two heights, over the whole width.
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

/// Where bone would be, of which nobody knows how far up it reaches: no line across.
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

/// The lines across the picture: crest, platform, apex, deepest cut.
pub(super) fn lines(picture: &Picture<'_, '_>, column: &Column) -> Drawing {
    let mut drawing = Drawing::new();
    let levels = &picture.levels;
    let frame = picture.frame;
    let body = picture.body();
    let mut across = |above: f64, from: f64, stroke: Stroke| {
        drawing.line(
            crate::drawing::at(from, frame.y(above)),
            crate::drawing::at(body.right, frame.y(above)),
            stroke,
        );
    };
    let radius = picture.facts.implant.diameter_mm.mm() / 2.0;
    let chain = Stroke::new(Ink::Strong, LineWeight::Hair).dashed(Dash::Chain);
    across(0.0, body.left, chain);
    across(levels.apex, frame.x(radius), chain);
    if let Some(cut) = levels.deepest_cut
        && names_deepest(picture)
    {
        let dotted = Stroke::new(Ink::Strong, LineWeight::Thin).dashed(Dash::Dotted);
        across(cut, 0.0, dotted);
    }
    if let Some((highest, lowest)) = levels.highest_crest.zip(levels.lowest_crest) {
        if lowest < highest {
            across(lowest, body.left, LOWEST);
        }
        across(highest, body.left, CREST);
    }
    let _ = column;
    drawing
}

/// Whether another step or pass goes deeper than the one that is shown.
pub(super) fn names_deepest(picture: &Picture<'_, '_>) -> bool {
    match (picture.levels.deepest_cut, picture.levels.tip) {
        (Some(cut), Some(tip)) => cut < tip,
        (Some(_), None) => true,
        (None, _) => false,
    }
}
