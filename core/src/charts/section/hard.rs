//! Guide, sleeves, drill, stop and implant.

use super::facts::ShownStep;
use super::frame::Frame;
use super::picture::{Picture, STUB};
use crate::charts::instrument::{self, break_line, outline};
use crate::drawing::{
    Across, Along, Dash, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, TextStyle, at, pt,
};
use crate::kit::{DrillSleeve, Implant};

const HATCH: Stroke = Stroke::new(Ink::Soft, LineWeight::Hair);
/// Between the lines of a hatch, mm on the page.
const HATCH_SPACING: f64 = 0.8;
/// The guide's body is schematic: it covers this share of the master sleeve's height.
const GUIDE_SHARE: f64 = 0.74;

/// The guide with its sleeves, where it is in the mouth and its height known.
pub(super) fn guide_and_sleeves(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let Some((low, rim)) = picture.levels.sleeve.zip(picture.levels.rim) else {
        return drawing;
    };
    let frame = picture.frame;
    let outer = facts.master.outer_diameter_mm.mm() / 2.0;
    let bore = facts.master_bore().mm() / 2.0;
    let inset = (rim - low) * (1.0 - GUIDE_SHARE) / 2.0;
    for (from, to) in [(-picture.left, -outer), (outer, picture.right)] {
        let body = Rect::between(frame.place(from, low + inset), frame.place(to, rim - inset));
        drawing.rect(body, Paint::fill(Ink::Guide));
        let edge = Stroke::new(Ink::Guide, LineWeight::Thin);
        for y in [body.top, body.bottom] {
            drawing.line(at(body.left, y), at(body.right, y), edge);
        }
    }
    // Where the flange sinks in, the master sleeve has a counterbore.
    let sleeve = facts.step.and_then(|step| step.sleeve);
    let seat = sleeve.map(|sleeve| rim + sleeve.seat_above_rim_mm.mm());
    let sunk = sleeve.zip(seat).and_then(|(sleeve, seat)| {
        let flange = seat - sleeve.flange_height_mm.mm();
        let half = (sleeve.flange_diameter_mm.mm() / 2.0).min(outer);
        (flange < rim && half > bore).then_some((flange.max(low), half))
    });
    let wall = match sunk {
        Some((flange, half)) => vec![
            (bore, low),
            (outer, low),
            (outer, rim),
            (half, rim),
            (half, flange),
            (bore, flange),
        ],
        None => vec![(bore, low), (outer, low), (outer, rim), (bore, rim)],
    };
    let name = facts.texts().get(
        "section-master-sleeve",
        &[("name", facts.master.name.as_str())],
    );
    drawing.add_group(facts.path("master_sleeve"), name, walls(frame, &wall, 45.0));
    if let Some((sleeve, seat)) = sleeve.zip(seat) {
        let name = facts
            .texts()
            .get("section-drill-sleeve", &[("name", sleeve.name.as_str())]);
        drawing.add_group(
            facts.step_path("sleeve"),
            name,
            walls(frame, &sleeve_wall(sleeve, seat), -45.0),
        );
    }
    drawing
}

fn sleeve_wall(sleeve: &DrillSleeve, seat: f64) -> Vec<(f64, f64)> {
    let bore = sleeve.bore_mm.mm() / 2.0;
    let barrel = sleeve.barrel_diameter_mm.mm() / 2.0;
    let flange = sleeve.flange_diameter_mm.mm() / 2.0;
    let low = seat - sleeve.length_mm.mm();
    let under = seat - sleeve.flange_height_mm.mm();
    vec![
        (bore, low),
        (barrel, low),
        (barrel, under),
        (flange, under),
        (flange, seat),
        (bore, seat),
    ]
}

/// The two walls of something turned, cut open along its axis.
fn walls(frame: Frame, wall: &[(f64, f64)], hatch_deg: f64) -> Drawing {
    let mut drawing = Drawing::new();
    for side in [-1.0, 1.0] {
        let ring: Vec<Point> = wall
            .iter()
            .map(|&(aside, above)| frame.place(side * aside, above))
            .collect();
        drawing.polygon(ring.iter().copied(), Paint::fill(Ink::Metal));
        drawing.hatch(std::slice::from_ref(&ring), HATCH_SPACING, hatch_deg, HATCH);
        drawing.polygon(ring, Paint::outline(Stroke::THIN));
    }
    drawing
}

/// What was cut before the plan was changed, as empty bone.
pub(super) fn holes(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let frame = picture.frame;
    let top = picture.levels.lowest_crest.unwrap_or(0.0);
    for (one, tip) in facts.holes() {
        let half = one.diameter_mm.mm() / 2.0;
        let full = (tip - one.point_mm.mm()).max(-top);
        let ring = [
            frame.place(-half, top),
            frame.place(-half, -full),
            frame.place(0.0, -tip),
            frame.place(half, -full),
            frame.place(half, top),
        ];
        let mut shape = Drawing::new();
        shape.polygon(ring, Paint::both(Ink::Ground, Stroke::THIN));
        let name = facts
            .texts()
            .get("section-cut-before", &[("name", one.name.as_str())]);
        drawing.add_group(facts.path("cut_before"), name, shape);
    }
    drawing
}

/// The drill; nothing where the setting or the seat is not known.
pub(super) fn drill(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let Some((step, seat, tip)) = picture.drill() else {
        return drawing;
    };
    let facts = picture.facts;
    let name = facts
        .texts()
        .get("section-drill", &[("name", step.drill.name.as_str())]);
    let shape = drill_shape(picture, &step, seat, tip);
    drawing.add_group(facts.step_path("drill"), name, shape);
    drawing
}

/// The stop, landed on the seat; nothing where the drill is not drawn.
pub(super) fn stop(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let Some((step, seat, _)) = picture.drill() else {
        return drawing;
    };
    let facts = picture.facts;
    if let Some(stop) = step.stop {
        let frame = picture.frame;
        let mut shape = Drawing::new();
        let place = |along: f64, across: f64| frame.place(across, seat + along);
        let ring = outline(&instrument::stop(stop), place);
        shape.polygon(ring, Paint::both(Ink::Strong, Stroke::OUTLINE));
        let style = TextStyle::new(pt(8.0), TextStyle::STRONG.face, Ink::Ground);
        let word = facts.word("section-on-stop");
        let height = stop.body_height_mm.mm() * frame.scale;
        let width = stop.body_diameter_mm.mm() * frame.scale;
        // Below the sleeve's rim the edges of guide and tissue run behind the stop: no word there.
        let free = picture.levels.rim.is_some_and(|rim| seat >= rim);
        if free && style.width(&word) + 2.0 < width && style.line_height() + 0.8 < height {
            let middle = frame.place(0.0, seat + stop.body_height_mm.mm() / 2.0);
            shape.text(middle, (Across::Middle, Along::Middle), style, word);
        }
        let name = facts
            .texts()
            .get("section-stop", &[("name", stop.name.as_str())]);
        drawing.add_group(facts.step_path("stop"), name, shape);
    }
    drawing
}

fn drill_shape(picture: &Picture<'_, '_>, step: &ShownStep<'_>, seat: f64, tip: f64) -> Drawing {
    let frame = picture.frame;
    let stop = step.stop.map_or(STUB, |stop| stop.body_height_mm.mm());
    let to = seat + stop + STUB - tip;
    let lower_end = match step.sleeve {
        Some(sleeve) => Some(seat - sleeve.length_mm.mm()),
        None => picture.levels.sleeve,
    };
    let profile = instrument::drill(step.drill, lower_end.map(|low| low - tip), to);
    let place = |along: f64, across: f64| frame.place(across, tip + along);
    let mut drawing = Drawing::new();
    let ring = outline(&profile, place);
    let ends = (ring.first().copied(), ring.last().copied());
    drawing.polygon(ring.iter().copied(), Paint::fill(Ink::Metal));
    // Its upper end is broken off: no line across but the wave.
    drawing.polyline(ring, Stroke::OUTLINE);
    if let (Some(from), Some(to)) = ends {
        drawing.polyline(break_line(from, to), Stroke::THIN);
    }
    let half = step.drill.guided_diameter_mm.mm() / 2.0;
    for mark in &step.drill.marks {
        let low = mark.lower_edge_mm.mm();
        let high = mark.upper_edge_mm.map_or(low, crate::measure::Length::mm);
        if step.stop.is_none() && high < to {
            drawing.rect(
                Rect::between(place(low, -half), place(high, half)),
                Paint::both(Ink::Strong, Stroke::OUTLINE),
            );
        }
    }
    drawing
}

/// The implant as planned, and the axis.
pub(super) fn implant_and_axis(picture: &Picture<'_, '_>) -> Drawing {
    let mut drawing = Drawing::new();
    let facts = picture.facts;
    let frame = picture.frame;
    let planned = Stroke::new(Ink::Implant, LineWeight::Medium).dashed(Dash::Dashed);
    let profile = implant_profile(facts.implant);
    let mut shape = Drawing::new();
    let ring = outline(&profile, |along, across| frame.place(across, -along));
    shape.polygon(ring, Paint::outline(planned));
    let name = facts.implant_named();
    drawing.add_group(facts.path("implant"), name, shape);
    let chain = Stroke::new(Ink::Strong, LineWeight::Hair).dashed(Dash::Chain);
    drawing.line(
        frame.place(0.0, picture.coronal),
        frame.place(0.0, picture.apical),
        chain,
    );
    drawing
}

/// Distances below the platform with the half width there, from the platform to the apex.
fn implant_profile(implant: &Implant) -> Vec<(f64, f64)> {
    let length = implant.platform_to_apex_mm.mm();
    let given = implant
        .profile
        .iter()
        .map(|point| (point.below_platform_mm.mm(), point.diameter_mm.mm() / 2.0));
    let mut profile: Vec<(f64, f64)> = given.collect();
    let straight = implant.diameter_mm.mm() / 2.0;
    let first = profile.first().map_or(straight, |point| point.1);
    let last = profile.last().map_or(straight, |point| point.1);
    if profile.first().is_none_or(|point| point.0 > 0.0) {
        profile.insert(0, (0.0, first));
    }
    if profile.last().is_none_or(|point| point.0 < length) {
        profile.push((length, last));
    }
    profile
}
