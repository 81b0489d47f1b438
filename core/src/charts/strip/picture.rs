//! A drill with its stop, lying with its tip to the left, 1 : 1.

use crate::charts::instrument::{self, Profile, break_line, outline};
use crate::drawing::{Dash, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, at};
use crate::kit::{Drill, Stop};
use crate::measure::Length;

/// A drill is not broken off nearer to its stop than this, mm.
const BEYOND_STOP: f64 = 2.0;
/// Style of what the kit does not describe: the part that sits in the handpiece.
const ASSUMED: Stroke = Stroke::new(Ink::Soft, LineWeight::Thin).dashed(Dash::Dashed);

/// A drill of which so much is drawn.
pub(super) struct Picture<'a> {
    drill: &'a Drill,
    stop: Option<&'a Stop>,
    /// From the tip to the stop's landing face or the mark, mm.
    set: f64,
    /// From the tip to where the picture ends, mm.
    to: f64,
}

/// The picture of a drill in so much room; nothing where the stop would not be on it.
pub(super) fn picture<'a>(
    drill: &'a Drill,
    stop: Option<&'a Stop>,
    set: f64,
    room: f64,
) -> Option<Picture<'a>> {
    let body = stop.map_or(0.0, |stop| stop.body_height_mm.mm());
    let overall = drill.overall_length_mm.mm();
    let to = overall.min(room);
    (set + body + BEYOND_STOP <= to || set + body <= overall && overall <= room).then_some(
        Picture {
            drill,
            stop,
            set,
            to,
        },
    )
}

impl Picture<'_> {
    /// Its thickness, mm.
    pub(super) fn thickness(&self) -> f64 {
        let drill = self
            .drill
            .cutting_diameter_mm
            .max(self.drill.guided_diameter_mm);
        let stop = self.stop.map_or(Length::ZERO, |stop| {
            stop.body_diameter_mm.max(stop.landing_diameter_mm)
        });
        drill.max(stop).mm()
    }

    /// The picture with its tip at a place.
    pub(super) fn draw(&self, tip: Point) -> Drawing {
        let mut drawing = Drawing::new();
        let place = |along: f64, across: f64| tip + at(along, across);
        let free = self.drill.free_length_mm.mm().min(self.to);
        let profile = instrument::drill(self.drill, None, free);
        self.shank(&mut drawing, &profile, free, &place);
        let ring = outline(&profile, place);
        drawing.polygon(
            ring.iter().copied(),
            Paint::both(Ink::Metal, Stroke::OUTLINE),
        );
        if free < self.to || free >= self.drill.overall_length_mm.mm() {
            // Its end, or where it enters the handpiece: a line across, already drawn.
        } else if let (Some(from), Some(to)) = (ring.first(), ring.last()) {
            drawing.polyline(break_line(*from, *to), Stroke::THIN);
        }
        self.marks(&mut drawing, &place);
        if let Some(stop) = self.stop {
            let landed = |along: f64, across: f64| tip + at(self.set + along, across);
            let ring = outline(&instrument::stop(stop), landed);
            drawing.polygon(ring, Paint::both(Ink::Strong, Stroke::OUTLINE));
        }
        drawing
    }

    /// The part that sits in the handpiece, as thick as what comes before it.
    fn shank(
        &self,
        drawing: &mut Drawing,
        profile: &Profile,
        free: f64,
        place: &impl Fn(f64, f64) -> Point,
    ) {
        let half = profile.last().map_or(0.0, |end| end.1);
        if free >= self.to {
            return;
        }
        for side in [-half, half] {
            drawing.line(place(free, side), place(self.to, side), ASSUMED);
        }
        let (from, to) = (place(self.to, -half), place(self.to, half));
        if self.to < self.drill.overall_length_mm.mm() {
            drawing.polyline(break_line(from, to), Stroke::THIN);
        } else {
            drawing.line(from, to, ASSUMED);
        }
    }

    /// The drill's marks, where one of them gives the depth.
    fn marks(&self, drawing: &mut Drawing, place: &impl Fn(f64, f64) -> Point) {
        if self.stop.is_some() {
            return;
        }
        let half = self.drill.guided_diameter_mm.mm() / 2.0;
        for mark in &self.drill.marks {
            let low = mark.lower_edge_mm.mm();
            let high = mark.upper_edge_mm.map_or(low, Length::mm);
            if high <= self.to {
                drawing.rect(
                    Rect::between(place(low, -half), place(high, half)),
                    Paint::both(Ink::Strong, Stroke::THIN),
                );
            }
        }
        // Where the depth is read: a line that stands out beyond the drill.
        let reach = half + 1.6;
        drawing.line(
            place(self.set, -reach),
            place(self.set, reach),
            Stroke::new(Ink::Strong, LineWeight::Medium),
        );
    }
}
