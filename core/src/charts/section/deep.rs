//! The structures that must not be touched.

use super::picture::{CANAL_RADIUS, Picture};
use super::structures::{NearSurface, Place, Structure};
use crate::case::StructureKind;
use crate::drawing::{Dash, Drawing, Ink, LineWeight, Mark, Paint, Point, Stroke, at};
use crate::plan::SitePlace;

/// Overrun of a hollow beyond the edge of the bone, mm on the page.
const FRINGE: f64 = 0.2;
const EDGE: Stroke = Stroke::new(Ink::Danger, LineWeight::Medium);
/// The style of what nobody measured: the far side of a canal, the level of what is beside.
const ASSUMED: Stroke = Stroke::new(Ink::Danger, LineWeight::Thin).dashed(Dash::Dotted);

/// All structures within the picture, each as a group under its own path.
pub(super) fn structures(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    for structure in &picture.facts.structures {
        if !picture.shows(structure.place) {
            continue;
        }
        let mut shape = Drawing::new();
        match structure.place {
            Place::Floor(near) => {
                // A little beyond the bone, so that no edge of it shines through.
                let region = picture.body().grown(FRINGE);
                shape.add_clipped(region, floor(picture, near));
            }
            Place::Canal(near) => shape.add_clipped(picture.body(), canal(picture, near)),
            Place::Beside { from_axis, loop_mm } => {
                shape.add(beside(picture, structure, from_axis, loop_mm));
            }
            Place::Nowhere => {}
        }
        drawing.add_group(structure.finding.place.key(), structure.name.clone(), shape);
    }
    drawing
}

/// A floor with the hollow beyond it.
fn floor(picture: &Picture<'_, '_>, near: NearSurface) -> Drawing {
    let frame = picture.frame;
    let more = FRINGE / frame.scale;
    let edge = [-picture.left - more, picture.right + more]
        .map(|aside| frame.place(aside, near.at(aside)));
    let beyond = near.at(picture.right).min(picture.apical) - 2.0;
    let mut drawing = Drawing::new();
    drawing.polygon(
        [
            edge[0],
            edge[1],
            at(edge[1].x, frame.y(beyond)),
            at(edge[0].x, frame.y(beyond)),
        ],
        Paint::fill(Ink::Danger),
    );
    drawing.line(edge[0], edge[1], EDGE);
    drawing
}

/// Middle of a drawn canal on the axis: its near side touches the level that was measured.
pub(super) fn canal_centre(near: NearSurface) -> f64 {
    near.on_axis - CANAL_RADIUS / near.cos
}

/// A canal: its near side as measured, the rest as assumed.
fn canal(picture: &Picture<'_, '_>, near: NearSurface) -> Drawing {
    let frame = picture.frame;
    let centre = frame.place(0.0, canal_centre(near));
    let radius = CANAL_RADIUS * frame.scale;
    let mut drawing = Drawing::new();
    drawing.circle(centre, radius, Paint::both(Ink::Danger, ASSUMED));
    // The half that looks to the platform.
    let start = if frame.apical() > 0.0 { 180.0 } else { 0.0 };
    drawing.arc(centre, radius, start, 180.0, EDGE);
    if near.slope != 0.0 {
        let level = [-picture.left, picture.right].map(|aside| frame.place(aside, near.at(aside)));
        drawing.line(level[0], level[1], ASSUMED);
    }
    drawing
}

/// The place of a structure beside, at half the implant's length: its level is not known.
pub(super) fn beside_centre(picture: &Picture<'_, '_>, from_axis: f64) -> Point {
    picture
        .frame
        .place(from_axis + CANAL_RADIUS, picture.levels.apex / 2.0)
}

fn beside(
    picture: &Picture<'_, '_>,
    structure: &Structure<'_>,
    from_axis: f64,
    loop_mm: Option<f64>,
) -> Drawing {
    let frame = picture.frame;
    let centre = beside_centre(picture, from_axis);
    let radius = CANAL_RADIUS * frame.scale;
    let mut drawing = Drawing::new();
    let line = [0.0, picture.levels.apex].map(|above| frame.place(from_axis, above));
    drawing.line(line[0], line[1], ASSUMED);
    drawing.circle(centre, radius, Paint::both(Ink::Danger, ASSUMED));
    drawing.arc(centre, radius, 90.0, 180.0, EDGE);
    let near = centre - at(radius, 0.0);
    let foramen = SitePlace::Structure(StructureKind::MentalForamen);
    let is_foramen = structure.finding.place.site_place() == Some(&foramen);
    match loop_mm {
        Some(loop_mm) if loop_mm > 0.0 => {
            let tip = near - at(loop_mm * frame.scale, 0.0);
            let half = at(0.0, radius * 0.5);
            for side in [half, half * -1.0] {
                drawing.line(near + side, tip + side, ASSUMED);
            }
            drawing.line(tip + half, tip - half, EDGE);
        }
        None if is_foramen => {
            // How far the canal loops forward was not measured.
            drawing.mark(near - at(2.4, 0.0), 3.0, Mark::Unknown);
        }
        _ => {}
    }
    drawing
}
