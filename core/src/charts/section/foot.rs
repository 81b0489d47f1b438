//! The foot below the picture: scale bar, tilt and remarks.

use super::facts::Facts;
use super::frame::{Frame, Scale};
use super::tilt::Tilt;
use crate::case::SiteState;
use crate::charts::lines::Lines;
use crate::drawing::{
    Across, Along, Dash, Drawing, Ink, LineWeight, Point, Rect, Stroke, TextStyle, at,
};
use crate::measure::Length;
use crate::number::shortest_mm;

/// Lengths that a scale bar may show, mm of the case.
const BARS: [i64; 3] = [10, 5, 2];
/// Greatest length of the bar on the page, mm.
const LONGEST: f64 = 42.0;
/// Side of the tilt's picture, mm.
const TILT: f64 = 9.0;
const TICK: f64 = 0.9;

/// The words and the bar below the picture, from the origin down.
pub(super) fn foot(facts: &Facts<'_>, scale: Scale, width: f64) -> Drawing {
    let mut drawing = Drawing::new();
    let mut down = bar(&mut drawing, facts, scale, width) + 2.2;
    if let Some(tilt) = &facts.tilt {
        let frame = Frame::new(scale, facts.section.case.jaw);
        let lines = Lines::new().text(&tilt.words, TextStyle::BODY, width - TILT - 3.0);
        let height = lines.height().max(TILT);
        let top = down + (height - lines.height()) / 2.0;
        let mut shape = tilt_picture(tilt, frame.apical(), down);
        shape.add(lines.draw(TILT + 3.0, top, Across::Start));
        drawing.add_group(facts.path("placement"), tilt.words.clone(), shape);
        down += height + 2.2;
    }
    let mut lines = Lines::new();
    let socket = match facts.site.state {
        SiteState::FreshSocket { .. } => Some("section-fresh-socket"),
        SiteState::ImplantToRemove { .. } => Some("section-implant-bed"),
        SiteState::Healed {} | SiteState::Grafted { .. } => None,
    };
    if let Some(id) = socket {
        lines = lines.text(&facts.word(id), TextStyle::NOTE, width);
    }
    let remark = facts.word("section-schematic");
    lines = lines.text(&remark, TextStyle::CAPTION, width);
    drawing.add(lines.draw(0.0, down, Across::Start));
    drawing
}

/// The scale bar with its length and the scale in figures; gives its bottom.
fn bar(drawing: &mut Drawing, facts: &Facts<'_>, scale: Scale, width: f64) -> f64 {
    let style = TextStyle::CAPTION;
    let longest = LONGEST.min(width / 2.0);
    let length = BARS
        .into_iter()
        .map(Length::from_mm)
        .find(|length| length.mm() * scale.factor <= longest)
        .unwrap_or(Length::from_mm(1));
    let end = length.mm() * scale.factor;
    let texts = facts.texts();
    let label = shortest_mm(length);
    let ratio = texts.get("section-scale", &[("ratio", scale.ratio)]);
    let line = style.cap_height() + 1.6 + TICK;
    drawing.text(
        at(0.0, style.cap_height()),
        (Across::Start, Along::Baseline),
        style,
        label,
    );
    let stroke = Stroke::new(Ink::Strong, LineWeight::Medium);
    drawing.line(at(0.0, line), at(end, line), stroke);
    for x in [0.0, end] {
        drawing.line(at(x, line - TICK), at(x, line + TICK), stroke);
    }
    drawing.text(
        at(end + 2.5, line),
        (Across::Start, Along::Middle),
        style,
        ratio,
    );
    line + TICK
}

/// The vertical, dotted, and the axis leaning away from it: a cylinder with its apex.
fn tilt_picture(tilt: &Tilt, apical: f64, top: f64) -> Drawing {
    let mut drawing = Drawing::new();
    let square = Rect::new(at(0.0, top), TILT, TILT);
    // The platform's end, and from it the way to the apex.
    let start = if apical > 0.0 {
        at(TILT * 0.3, square.top)
    } else {
        at(TILT * 0.3, square.bottom)
    };
    let vertical = at(0.0, apical * TILT);
    let (sin, cos) = libm::sincos(tilt.radians);
    let axis = at(sin, apical * cos);
    drawing.line(
        start,
        start + vertical,
        Stroke::new(Ink::Soft, LineWeight::Thin).dashed(Dash::Dotted),
    );
    // As long as the square lets it be.
    let reach = f64::min(TILT / cos.max(0.1), TILT * 0.7 / sin.max(0.1)).min(TILT);
    let end = start + axis * reach;
    drawing.line(start, end, Stroke::new(Ink::Strong, LineWeight::Medium));
    arrow(&mut drawing, end, axis);
    let degrees = tilt.radians.to_degrees();
    if degrees > 2.0 {
        let (from, sweep) = if apical > 0.0 {
            (90.0 - degrees, degrees)
        } else {
            (270.0, degrees)
        };
        drawing.arc(start, TILT * 0.5, from, sweep, Stroke::THIN);
    }
    drawing
}

fn arrow(drawing: &mut Drawing, end: Point, way: Point) {
    let side = way.quarter_turn() * 0.6;
    let back = end - way * 1.7;
    drawing.polygon(
        [end, back + side, back - side],
        crate::drawing::Paint::fill(Ink::Strong),
    );
}
