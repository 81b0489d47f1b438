//! The middle of a section: the picture with its dimensions and names, at one scale.

use super::Room;
use super::column::Column;
use super::facts::{Facts, Levels, ShownStep};
use super::frame::{Frame, Scale};
use super::structures::Place;
use super::{deep, dimensions, hard, names, setting, soft};
use crate::charts::lines::Lines;
use crate::drawing::{Across, Drawing, Rect, TextStyle, at};

/// Radius that round structures are drawn with, mm: nobody entered one.
pub(super) const CANAL_RADIUS: f64 = 1.2;
/// Depth beyond the deepest point down to which a structure is still drawn, mm.
const DEPTH_SHOWN: f64 = 7.0;
/// Distance from the axis up to which a structure beside it is still drawn, mm.
const BESIDE_SHOWN: f64 = 10.0;
/// Length of drill above its stop, or above the seat where there is none, mm.
pub(super) const STUB: f64 = 2.6;
/// Room around what is drawn, mm of the case.
const AROUND: f64 = 1.4;
/// Guide or bone beside the widest part of the metal, mm of the case.
const ASIDE: f64 = 2.2;
/// Around the names of the sides, mm.
const SIDES_GAP: f64 = 1.3;
/// Widths of the column of names that are tried, mm: wider ones where many words make it too high,
/// narrower ones where the room is narrow.
const COLUMNS: [f64; 7] = [34.0, 46.0, 60.0, 30.0, 24.0, 19.0, 16.0];

/// Least room between picture and column, and for the dimension beyond it, mm.
const TIES: f64 = super::column::TIES + super::setting::LANE;

/// A section's picture, its extents known.
pub(super) struct Picture<'a, 'c> {
    pub(super) facts: &'a Facts<'c>,
    pub(super) frame: Frame,
    pub(super) levels: Levels,
    /// Its reach to the left and right of the axis, mm of the case, both positive.
    pub(super) left: f64,
    pub(super) right: f64,
    /// Its coronal and apical end above the platform, mm of the case.
    pub(super) coronal: f64,
    pub(super) apical: f64,
}

impl<'a, 'c> Picture<'a, 'c> {
    /// The picture at a scale, with the widest column that lets it fit into a room.
    pub(super) fn fitting(facts: &'a Facts<'c>, scale: Scale, room: Room) -> Option<Drawing> {
        let picture = Self::new(facts, scale);
        let body = picture.body();
        if body.height() > room.height || body.width() > room.width {
            return None;
        }
        // A column that cannot fit is not worth drawing.
        let mut columns = COLUMNS
            .into_iter()
            .filter(|column| body.width() + TIES + column <= room.width);
        columns.find_map(|column| {
            let drawing = picture.draw(column);
            let bounds = drawing.bounds()?;
            let fits = bounds.width() <= room.width && bounds.height() <= room.height;
            fits.then_some(drawing)
        })
    }

    fn new(facts: &'a Facts<'c>, scale: Scale) -> Self {
        let levels = facts.levels();
        let mut picture = Self {
            facts,
            frame: Frame::new(scale, facts.section.case.jaw),
            levels,
            left: 0.0,
            right: 0.0,
            coronal: coronal_end(facts, &levels),
            apical: levels.deepest.unwrap_or(levels.apex).min(levels.apex),
        };
        picture.apical = picture.apical.min(levels.tip.unwrap_or(0.0));
        let holes = facts.holes();
        picture.apical = picture
            .apical
            .min(holes.first().map_or(0.0, |(_, tip)| -tip));
        picture.left = widest(facts) + ASIDE;
        picture.right = picture.left;
        let mut apical = picture.apical;
        for structure in &facts.structures {
            if !picture.shows(structure.place) {
                continue;
            }
            match structure.place {
                Place::Canal(near) => {
                    apical = apical.min(near.on_axis - 2.0 * CANAL_RADIUS / near.cos);
                    picture.coronal = picture.coronal.max(near.on_axis);
                }
                Place::Floor(near) => {
                    apical = apical.min(near.on_axis - AROUND);
                    picture.coronal = picture.coronal.max(near.on_axis);
                }
                Place::Beside { from_axis, .. } => {
                    picture.right = picture.right.max(from_axis + 2.0 * CANAL_RADIUS + AROUND);
                }
                Place::Nowhere => {}
            }
        }
        picture.apical = apical - AROUND;
        picture.coronal += AROUND;
        picture
    }

    /// True if a structure lies within what is drawn.
    pub(super) fn shows(&self, place: Place) -> bool {
        let lowest = self.levels.deepest.unwrap_or(self.levels.apex);
        match place {
            Place::Canal(near) | Place::Floor(near) => near.on_axis > lowest - DEPTH_SHOWN,
            Place::Beside { from_axis, .. } => from_axis <= BESIDE_SHOWN,
            Place::Nowhere => false,
        }
    }

    /// The rectangle of the picture on the page.
    pub(super) fn body(&self) -> Rect {
        Rect::between(
            self.frame.place(-self.left, self.coronal),
            self.frame.place(self.right, self.apical),
        )
    }

    /// The shown step, where its drill has a place.
    pub(super) fn drill(&self) -> Option<(ShownStep<'c>, f64, f64)> {
        let step = self.facts.step?;
        Some((step, self.levels.seat?, self.levels.tip?))
    }

    /// The sides of a tilted section, beyond its apical end.
    fn sides(&self) -> Drawing {
        let mut drawing = Drawing::new();
        let sides = self
            .facts
            .tilt
            .as_ref()
            .and_then(|tilt| tilt.sides.as_ref());
        let Some((towards, away)) = sides else {
            return drawing;
        };
        let body = self.body();
        let block = |words: &str, width| Lines::new().text(words, TextStyle::CAPTION, width);
        // Beside each other where there is room, else below each other.
        let half = body.width() / 2.0 - 1.0;
        let mut blocks = (block(away, half), block(towards, half));
        let is_level = blocks.0.rows() == 1 && blocks.1.rows() == 1;
        if !is_level {
            blocks = (block(away, body.width()), block(towards, body.width()));
        }
        let (first, second) = (blocks.0.height(), blocks.1.height());
        let below = if is_level { 0.0 } else { first + SIDES_GAP };
        let top = if self.frame.apical() > 0.0 {
            body.bottom + SIDES_GAP
        } else {
            body.top - SIDES_GAP - (below + second).max(first)
        };
        drawing.add(blocks.0.draw(body.left, top, Across::Start));
        drawing.add(blocks.1.draw(body.right, top + below, Across::End));
        drawing
    }

    fn draw(&self, column_width: f64) -> Drawing {
        let mut drawing = Drawing::new();
        drawing.add(soft::soft(self));
        drawing.add(soft::crest(self));
        drawing.add(hard::holes(self));
        drawing.add(deep::structures(self));
        drawing.add(hard::guide_and_sleeves(self));
        drawing.add(hard::drill(self));
        drawing.add(hard::implant_and_axis(self));
        drawing.add(soft::levels(self));
        drawing.add(hard::stop(self));
        let mut entries = names::names(self, column_width);
        entries.push(setting::entry(self, column_width));
        let column = Column::place(entries, self.body().right, column_width);
        drawing.add(dimensions::dimensions(self));
        drawing.add(setting::lane(self, &column));
        drawing.add(column.draw());
        drawing.add(self.sides());
        // The picture keeps its extents also where nothing stands in its corners.
        let corner = crate::drawing::Stroke::HAIRLINE;
        let body = self.body();
        for x in [body.left, body.right] {
            drawing.line(at(x, body.top), at(x, body.top), corner);
        }
        drawing
    }
}

fn coronal_end(facts: &Facts<'_>, levels: &Levels) -> f64 {
    let drill = facts.step.zip(levels.seat).zip(levels.tip);
    let drill = drill.map(|((step, seat), _)| {
        let stop = step.stop.map_or(STUB, |stop| stop.body_height_mm.mm());
        seat + stop + STUB - AROUND
    });
    let tissue = levels
        .highest_crest
        .map(|crest| crest + levels.tissue.unwrap_or(0.0));
    let all = [drill, levels.rim, levels.seat, tissue, Some(AROUND)];
    all.into_iter().flatten().fold(0.0, f64::max)
}

/// Half the diameter of the widest thing of metal.
fn widest(facts: &Facts<'_>) -> f64 {
    let mut widest = facts.implant.largest_diameter_mm.mm();
    if facts.is_guided() {
        widest = widest.max(facts.master.outer_diameter_mm.mm());
    }
    if let Some(step) = facts.step {
        widest = widest.max(step.drill.cutting_diameter_mm.mm());
        if let Some(sleeve) = step.sleeve {
            widest = widest.max(sleeve.flange_diameter_mm.mm());
        }
        if let Some(stop) = step.stop {
            let stop = stop.body_diameter_mm.max(stop.landing_diameter_mm);
            widest = widest.max(stop.mm());
        }
    }
    widest / 2.0
}
