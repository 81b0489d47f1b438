//! The setting: its dimension line and its figure, large.

use super::column::{Column, Entry};
use super::picture::Picture;
use crate::charts::lines::Lines;
use crate::charts::mark_of;
use crate::charts::words;
use crate::drawing::{Across, Drawing, Ink, LineWeight, Mark, Stroke, TextStyle, at, pt};
use crate::number;
use crate::plan::{Edge, Fits, Known, StepSheet};

const CAPTION: TextStyle = TextStyle::CAPTION;
const VERDICT: TextStyle = TextStyle::NOTE.bold().inked(Ink::Strong);
/// Style of the figure on the gauge, which is set by hand, too.
const GAUGE: TextStyle = TextStyle::STRONG;
/// From the column to the dimension line, mm.
pub(super) const LANE: f64 = 1.8;
/// Half the length of the ticks, mm.
const TICK: f64 = 1.1;

/// The figure with what belongs to it, or why there is none.
pub(super) fn entry(picture: &Picture<'_, '_>, width: f64) -> Entry {
    let facts = picture.facts;
    let levels = &picture.levels;
    let texts = facts.texts();
    let middle = match levels.seat.zip(levels.tip) {
        Some((seat, tip)) => f64::midpoint(seat, tip),
        None => f64::midpoint(levels.seat.unwrap_or(picture.coronal), 0.0),
    };
    let mut lines = Lines::new();
    let mut side = Across::Start;
    let mut name = facts.step_words();
    if let Some(step) = facts.step {
        match step.sheet.set.known_length() {
            Known::Is(_) if step.sheet.fits == Fits::No => {
                name = facts.word("section-does-not-fit");
                lines = lines.marked(Mark::Short, &name, VERDICT, width);
            }
            Known::Is(set) => {
                let figure = number::setting(set, facts.section.case.graduation());
                side = Across::End;
                let gauge = gauge(picture, step.sheet);
                // A hand would set a large figure on the gauge, whatever the gauge must show.
                let style = match gauge {
                    None => figure_style(&figure, width),
                    Some(_) => TextStyle::HEADING,
                };
                lines = lines.text(&figure, style, width);
                let caption = caption(picture, step.sheet);
                name = format!("{figure} {caption}");
                lines = lines.text(&caption, CAPTION, width);
                if let Some(gauge) = gauge {
                    lines = lines.text(&gauge, GAUGE, width);
                }
            }
            Known::Unknown(reasons) => {
                let why = words::reason(&reasons, texts);
                name = format!("{}: {why}", facts.word("section-set-unknown"));
                let below = facts.word("section-drill-unknown");
                lines = lines
                    .marked(Mark::Unknown, &name, VERDICT, width)
                    .text(&below, CAPTION, width);
            }
        }
    } else {
        lines = lines.marked(Mark::Unknown, &name, VERDICT, width);
    }
    let worst = facts.section.site.worst;
    let verdict = words::severity(worst, texts);
    let words = texts.get("severity-of-site", &[("verdict", &verdict)]);
    Entry {
        wanted: picture.frame.y(middle),
        from: None,
        lines: lines.marked(mark_of(worst), &words, VERDICT, width),
        side,
        id: facts.step_path("set_mm"),
        name,
    }
}

/// As large as the column lets it be.
fn figure_style(figure: &str, width: f64) -> TextStyle {
    let styles = [20.0, 16.0, 13.0].map(|size| TextStyle::FIGURE.sized(pt(size)));
    let fitting = styles
        .into_iter()
        .find(|style| style.width(figure) <= width);
    fitting.unwrap_or(styles[2])
}

fn caption(picture: &Picture<'_, '_>, sheet: &StepSheet) -> String {
    let texts = picture.facts.texts();
    let Some(mark) = &sheet.mark else {
        return picture.facts.word("section-set");
    };
    let id = match mark.edge {
        Edge::Line => "section-mark-line",
        Edge::Lower => "section-mark-lower",
        Edge::Upper => "section-mark-upper",
    };
    let mark = texts.get(id, &[("name", mark.name.as_str())]);
    texts.get("section-set-mark", &[("mark", &mark)])
}

/// The figure on the gauge, where it is another one or not known.
fn gauge(picture: &Picture<'_, '_>, sheet: &StepSheet) -> Option<String> {
    let texts = picture.facts.texts();
    match sheet.gauge.as_ref()?.known_length() {
        Known::Is(shown) if sheet.set.length() == Some(shown) => None,
        Known::Is(shown) => {
            let figure = number::setting(shown, picture.facts.section.case.graduation());
            Some(texts.get("section-gauge", &[("figure", &figure)]))
        }
        Known::Unknown(reasons) => {
            let reason = words::reason(&reasons, texts);
            Some(texts.get("section-gauge-unknown", &[("reason", &reason)]))
        }
    }
}

/// The dimension line from tip to seat, beyond the column.
pub(super) fn lane(picture: &Picture<'_, '_>, column: &Column) -> Drawing {
    let mut drawing = Drawing::new();
    let Some((step, seat, tip)) = picture.drill() else {
        return drawing;
    };
    let frame = picture.frame;
    let x = column.right() + LANE;
    let line = Stroke::new(Ink::Strong, LineWeight::Medium);
    let landing = step.stop.map_or(0.0, |stop| {
        stop.landing_diameter_mm
            .mm()
            .max(stop.body_diameter_mm.mm())
            / 2.0
    });
    let flange = step.sleeve.map_or(landing, |sleeve| {
        (sleeve.flange_diameter_mm.mm() / 2.0).max(landing)
    });
    for (above, from) in [(seat, frame.x(flange)), (tip, 0.0)] {
        let y = frame.y(above);
        column.level(&mut drawing, y, from, x, Stroke::HAIRLINE);
        drawing.line(at(x - TICK, y), at(x + TICK, y), line);
    }
    drawing.line(at(x, frame.y(seat)), at(x, frame.y(tip)), line);
    drawing
}
