//! The strip of a run order: a column for each step, a lane for each site, and below, a row for each
//! kind of change with a mark wherever it happens.

mod marks;

#[cfg(test)]
mod tests;

use crate::case::Case;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke, TextStyle, at, fonts, pt,
};
use crate::order::Change;
use crate::plan::Operation;
use crate::run::RunStep;
use crate::wording::RunStepText;
use marks::change_mark;
use std::collections::BTreeMap;

/// The content of a strip and the words beside it.
#[derive(Clone, Copy)]
pub struct RunStripOptions<'a> {
    /// The case, for the order of the lanes.
    pub case: &'a Case,
    /// The steps in words, in their order.
    pub said: &'a [RunStepText],
    /// Number of the first step shown.
    pub first: usize,
    /// A kind of change in a word.
    pub word: &'a dyn Fn(Change) -> String,
    /// The total of all changes of a kind, in a few words.
    pub sum: &'a dyn Fn(Change) -> String,
    /// The word over the numbers of the steps.
    pub step: &'a str,
    /// Width of the names of lanes and rows, mm.
    pub names_mm: f64,
}

/// A strip in two drawings with one origin for height, so that the names stay where the steps are
/// scrolled.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunStrip {
    /// Names of lanes and rows; as wide as was asked for.
    pub names: Drawing,
    /// The steps, the first at x = 0. The groups have the ids `step:N`, from 0.
    pub steps: Drawing,
    /// From where to where each step's column reaches, mm.
    pub columns: Vec<(f64, f64)>,
    /// Height of both, mm.
    pub height_mm: f64,
}

/// Width of a step's column, mm, and the least width of the steps done with one instrument
/// together: its name is above them.
const COLUMN: f64 = 11.6;
const GROUP: f64 = 20.0;
/// Width of the column of what is done for the whole jaw, mm.
const JAW: f64 = 8.4;
/// Height of the names of instruments, of a lane, of the row of numbers and of a row of changes, mm.
const HEAD: f64 = 12.6;
const LANE: f64 = 8.4;
const NUMBERS: f64 = 5.6;
const ROW: f64 = 6.0;
/// Size of a step's box, mm.
const BOX: (f64, f64) = (9.8, 6.0);
const SMALL: TextStyle = TextStyle::CAPTION.sized(pt(7.5));

/// Draws the strip of some steps that follow each other.
#[must_use]
pub fn run_strip(steps: &[RunStep], options: &RunStripOptions<'_>) -> RunStrip {
    let lanes = lanes(steps, options);
    let table = HEAD + LANE * count(lanes.len());
    let height_mm = table + NUMBERS + ROW * count(Change::ALL.len());
    let columns = columns(steps);
    let width = columns.last().map_or(0.0, |(_, to)| *to);
    let mut strip = RunStrip {
        names: names(&lanes, table, options),
        columns,
        height_mm,
        ..RunStrip::default()
    };
    rules(&mut strip.names, options.names_mm, lanes.len(), table);
    rules(&mut strip.steps, width, lanes.len(), table);
    let node = |(n, step): (usize, &RunStep)| {
        let (from, to) = strip.columns[n];
        let lane = lane(options.case, &step.what)?;
        let place = lanes.keys().position(|other| *other == lane)?;
        let middle = HEAD + LANE * (count(place) + 0.5);
        Some(at(f64::midpoint(from, to), middle))
    };
    let nodes: Vec<Option<Point>> = steps.iter().enumerate().map(node).collect();
    // From step to step, as far as nothing is done for the whole jaw between them.
    let way = Stroke::new(Ink::Soft, LineWeight::Medium);
    for part in nodes.split(Option::is_none).filter(|part| part.len() > 1) {
        strip.steps.polyline(part.iter().flatten().copied(), way);
    }
    instruments(&mut strip, steps, options);
    for (n, step) in steps.iter().enumerate() {
        let Some(said) = options.said.get(n) else {
            break;
        };
        let column = column(
            step,
            said,
            strip.columns[n],
            nodes[n],
            options.first + n,
            table,
        );
        let id = format!("step:{n}");
        strip
            .steps
            .add_group(id, step_in_words(options.first + n, said), column);
    }
    strip
}

#[expect(clippy::cast_precision_loss, reason = "there are few")]
const fn count(n: usize) -> f64 {
    n as f64
}

/// The place where a step is done: pins first, in the order of the case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Lane {
    Pin(usize),
    Site(usize),
}

/// The lane of a step; none for what is done for the whole jaw.
fn lane(case: &Case, what: &Operation) -> Option<Lane> {
    match what {
        Operation::Pin { name } => {
            let pins = case.guide.pins.iter();
            Some(Lane::Pin(pins.take_while(|pin| pin.name != *name).count()))
        }
        Operation::Drill { site, .. } | Operation::Insert { site } => {
            let sites = case.sites.iter();
            Some(Lane::Site(
                sites.take_while(|other| other.id != *site).count(),
            ))
        }
        Operation::Punch { .. }
        | Operation::Reseat
        | Operation::Sound { .. }
        | Operation::GuideOff => None,
    }
}

/// The lanes with their names.
fn lanes(steps: &[RunStep], options: &RunStripOptions<'_>) -> BTreeMap<Lane, String> {
    let named = steps.iter().zip(options.said).filter_map(|(step, said)| {
        let lane = lane(options.case, &step.what)?;
        Some((lane, said.place.clone().unwrap_or_default()))
    });
    named.collect()
}

/// True if something is done for the whole jaw.
const fn is_for_jaw(step: &RunStep) -> bool {
    !matches!(
        step.what,
        Operation::Pin { .. } | Operation::Drill { .. } | Operation::Insert { .. }
    )
}

/// True if a step is done with what is in the handpiece.
fn goes_on(step: &RunStep) -> bool {
    step.changes.mounts == 0 && !is_for_jaw(step)
}

/// The steps that are done one after the other with one instrument, each as first and last.
fn groups(steps: &[RunStep]) -> Vec<(usize, usize)> {
    let mut groups: Vec<(usize, usize)> = Vec::new();
    for (n, step) in steps.iter().enumerate() {
        match groups
            .last_mut()
            .filter(|(_, last)| goes_on(step) && last + 1 == n)
        {
            Some((first, last)) if !is_for_jaw(&steps[*first]) => *last = n,
            _ => groups.push((n, n)),
        }
    }
    groups
}

fn columns(steps: &[RunStep]) -> Vec<(f64, f64)> {
    let mut columns = Vec::with_capacity(steps.len());
    let mut x = 0.0;
    for (first, last) in groups(steps) {
        let many = count(last - first + 1);
        let width = if is_for_jaw(&steps[first]) {
            JAW
        } else {
            COLUMN.max(GROUP / many)
        };
        for _ in first..=last {
            columns.push((x, x + width));
            x += width;
        }
    }
    columns
}

/// The names of the lanes, of the numbers and of the changes.
fn names(lanes: &BTreeMap<Lane, String>, table: f64, options: &RunStripOptions<'_>) -> Drawing {
    let mut drawing = Drawing::new();
    let width = options.names_mm - 2.0;
    for (n, name) in lanes.values().enumerate() {
        let middle = HEAD + LANE * (count(n) + 0.5);
        let style = TextStyle::BODY.sized(pt(8.0));
        let lines = fonts::wrap(name, style.face, style.size_mm, width);
        let top = middle - style.line_height() * count(lines.len()) / 2.0;
        for (k, line) in lines.into_iter().enumerate() {
            let base = top + style.line_height() * count(k) + style.ascent();
            drawing.text(at(0.0, base), (Across::Start, Along::Baseline), style, line);
        }
    }
    let left = (Across::Start, Along::Middle);
    let right = (Across::End, Along::Middle);
    drawing.text(at(0.0, table + NUMBERS / 2.0), left, SMALL, options.step);
    for (n, change) in Change::ALL.into_iter().enumerate() {
        let middle = row(table, n);
        change_mark(&mut drawing, at(1.6, middle), change);
        let word = (options.word)(change);
        drawing.text(at(5.0, middle), left, TextStyle::BODY.sized(pt(8.0)), word);
        let sum = (options.sum)(change);
        drawing.text(at(options.names_mm - 1.5, middle), right, SMALL, sum);
    }
    drawing
}

/// The middle of a row of changes.
fn row(table: f64, n: usize) -> f64 {
    table + NUMBERS + ROW * (count(n) + 0.5)
}

/// The fine rules of lanes and rows.
fn rules(drawing: &mut Drawing, width: f64, lanes: usize, table: f64) {
    for n in 0..=lanes {
        let y = HEAD + LANE * count(n);
        drawing.line(at(0.0, y), at(width, y), Stroke::HAIRLINE);
    }
    for n in 0..=Change::ALL.len() {
        let y = table + NUMBERS + ROW * count(n);
        drawing.line(at(0.0, y), at(width, y), Stroke::HAIRLINE);
    }
}

/// The name of each instrument over the steps that it is used for one after the other.
fn instruments(strip: &mut RunStrip, steps: &[RunStep], options: &RunStripOptions<'_>) {
    let base = HEAD - 1.4;
    for (first, last) in groups(steps) {
        let (Some(said), false) = (options.said.get(first), is_for_jaw(&steps[first])) else {
            continue;
        };
        let (from, to) = (strip.columns[first].0 + 0.7, strip.columns[last].1 - 0.7);
        strip.steps.line(at(from, base), at(to, base), Stroke::THIN);
        for x in [from, to] {
            strip
                .steps
                .line(at(x, base), at(x, base + 1.0), Stroke::THIN);
        }
        let style = SMALL.inked(Ink::Strong);
        let lines = fonts::wrap(&said.instrument, style.face, style.size_mm, to - from);
        let top = base - 0.6 - style.line_height() * count(lines.len());
        for (k, line) in lines.into_iter().enumerate() {
            let y = top + style.line_height() * count(k) + style.ascent();
            let anchor = (Across::Start, Along::Baseline);
            strip.steps.text(at(from, y), anchor, style, line);
        }
    }
}

/// A step's box, its number and the marks of its changes.
fn column(
    step: &RunStep,
    said: &RunStepText,
    (from, to): (f64, f64),
    node: Option<Point>,
    number: usize,
    table: f64,
) -> Drawing {
    let mut drawing = Drawing::new();
    let middle = f64::midpoint(from, to);
    let anchor = (Across::Middle, Along::Middle);
    let shown = number.to_string();
    drawing.text(at(middle, table + NUMBERS / 2.0), anchor, SMALL, shown);
    let Some(node) = node else {
        barrier(&mut drawing, (from, to), table, &said.instrument);
        return drawing;
    };
    let frame = Rect::new(at(node.x - BOX.0 / 2.0, node.y - BOX.1 / 2.0), BOX.0, BOX.1);
    match &said.set {
        Some(set) => {
            drawing.rect(frame, Paint::both(Ink::Tooth, Stroke::THIN));
            drawing.text(node, anchor, TextStyle::STRONG, set);
        }
        None => implant(&mut drawing, node),
    }
    for (n, change) in Change::ALL.into_iter().enumerate() {
        if step.changes.of(change) > 0 {
            change_mark(&mut drawing, at(from, row(table, n)), change);
            if change == Change::Reset {
                let dotted = Stroke::THIN.dashed(crate::drawing::Dash::Dotted);
                drawing.line(at(from, HEAD), at(from, row(table, n) - 1.6), dotted);
            }
        }
    }
    drawing
}

/// A step for the whole jaw: a bar across all lanes with its word along it.
fn barrier(drawing: &mut Drawing, (from, to): (f64, f64), table: f64, word: &str) {
    let bar = Rect::between(at(from + 1.0, 0.4), at(to - 1.0, table));
    drawing.rect(
        bar,
        Paint::both(Ink::Shade, Stroke::new(Ink::Soft, LineWeight::Hair)),
    );
    let anchor = (Across::Middle, Along::Middle);
    let style = SMALL.inked(Ink::Strong);
    drawing.text_turned(bar.centre(), anchor, style, word, -90.0);
}

/// An implant in outline.
fn implant(drawing: &mut Drawing, node: Point) {
    let (wide, narrow, half) = (2.0, 1.0, 2.6);
    let outline = [
        at(node.x - wide, node.y - half),
        at(node.x + wide, node.y - half),
        at(node.x + narrow, node.y + half),
        at(node.x - narrow, node.y + half),
    ];
    let line = Stroke::new(Ink::Implant, LineWeight::Medium);
    drawing.polygon(outline, Paint::both(Ink::Implant, line));
}

/// A step for whoever cannot see it.
fn step_in_words(number: usize, said: &RunStepText) -> String {
    let changes = said.changes.iter().map(|(_, words)| words.clone());
    let parts = said.place.iter().cloned();
    let parts = parts
        .chain([said.instrument.clone()])
        .chain(said.set.clone());
    let parts: Vec<String> = parts.chain(changes).collect();
    format!("{number}: {}", parts.join(", "))
}
