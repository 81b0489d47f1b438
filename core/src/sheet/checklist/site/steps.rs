//! The sequence: one row a step, its setting in large figures.

use super::super::Source;
use super::super::instruments::led;
use super::super::pieces::{column, fitted, mark, note};
use crate::drawing::{Across, TextStyle, pt};
use crate::plan::{Known, SiteSheet, StepPath, StepSheet};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// A setting, large enough to be read at arm's length.
pub(in super::super) const SETTING: TextStyle = TextStyle::FIGURE;
/// What the gauge shows, where that is another figure: a hand acts on it too.
const GAUGE: TextStyle = TextStyle::FIGURE.sized(pt(15.0));
/// Width of the column of settings, mm.
const SET_WIDTH: f64 = 25.0;
/// Height of a box for a reading, mm.
const BOX: f64 = 9.0;

/// The sequence with the notes that belong to it.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let say = &source.say;
    if sheet.steps.is_empty() {
        return vec![Block::Paragraph(
            say.word("sheet-no-steps"),
            TextStyle::STRONG,
        )];
    }
    let head = |id: &str, width, align| column(say.word(id), width, align);
    let columns = vec![
        head("sheet-col-step", Width::Share(1.0), Across::Start),
        head("sheet-col-sleeve", Width::Mm(30.0), Across::Start),
        head("sheet-col-set", Width::Mm(SET_WIDTH), Across::End),
        head("sheet-col-site-verdict", Width::Mm(13.0), Across::Middle),
        head("sheet-col-bench", Width::Mm(15.0), Across::End),
        head("sheet-col-read-1", Width::Mm(14.0), Across::Start),
        head("sheet-col-read-2", Width::Mm(14.0), Across::Start),
        head("sheet-col-initials", Width::Mm(14.0), Across::Start),
    ];
    let rows = sheet
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| row(source, sheet, index + 1, step));
    vec![
        Block::Table(Table {
            columns,
            rows: rows.collect(),
            padding_mm: 1.8,
        }),
        Block::Space(1.4),
        note(say.word("sheet-steps-note")),
    ]
}

fn row(source: &Source<'_>, sheet: &SiteSheet, number: usize, step: &StepSheet) -> Row {
    let say = &source.say;
    let set = step.set.known_length();
    let is_known = set.value().is_some();
    let bench = match &step.bench {
        None => Cell::Empty,
        Some(bench) => Cell::Text(bench_figure(source, &bench.known_length()), TextStyle::BODY),
    };
    let reading = || {
        if is_known && step.stop.is_some() {
            Cell::WriteBox(BOX)
        } else {
            Cell::Empty
        }
    };
    Row::Cells(vec![
        what(source, sheet, number, step),
        led(source, step),
        setting(source, step),
        Cell::Stack(vec![
            Cell::Mark(mark(sheet.worst)),
            Cell::Text(say.severity(sheet.worst), TextStyle::CAPTION),
        ]),
        bench,
        reading(),
        reading(),
        if is_known {
            Cell::WriteBox(BOX)
        } else {
            Cell::Empty
        },
    ])
}

/// The step's drill, how deep it goes, its stop or mark, and what follows.
fn what(source: &Source<'_>, sheet: &SiteSheet, number: usize, step: &StepSheet) -> Cell {
    let say = &source.say;
    let numbered = say.text(
        "sheet-step-numbered",
        &[
            ("number", &number.to_string()),
            ("drill", &say.drill(&step.drill)),
        ],
    );
    let mut cells = vec![
        Cell::Text(numbered, TextStyle::STRONG),
        Cell::Text(say.depth(&sheet.id, step), TextStyle::NOTE),
    ];
    if let Some(stop) = &step.stop {
        cells.push(Cell::Text(say.stop(stop), TextStyle::NOTE));
    }
    if let Some(mark) = say.mark(step) {
        cells.push(Cell::body(mark));
    }
    if let Some(reasons) = say.setting_reasons(step) {
        let words = say.text("sheet-no-figure", &[("reasons", &reasons)]);
        cells.push(Cell::body(words));
    }
    Cell::Stack(cells)
}

/// The setting in large figures, with what the gauge shows where that differs.
pub(in super::super) fn setting(source: &Source<'_>, step: &StepSheet) -> Cell {
    let say = &source.say;
    let gauge = step.gauge.as_ref().map(crate::plan::Figure::known_length);
    let mut cells = vec![large(source, &step.set.known_length())];
    cells.extend(gauge_differs(
        source,
        &step.set.known_length(),
        gauge.as_ref(),
    ));
    if step.path == StepPath::Freehand && step.set.length().is_some() {
        cells.push(Cell::Text(say.word("sheet-from-crest"), TextStyle::CAPTION));
    }
    Cell::Stack(cells)
}

/// A setting in large figures; "no figure" in words that cannot be taken for one.
pub(in super::super) fn large(source: &Source<'_>, set: &Known<crate::measure::Length>) -> Cell {
    let shown = source.say.set_length(set);
    match set {
        Known::Is(_) => {
            let style = fitted(SETTING, &shown, SET_WIDTH);
            Cell::Text(shown, style)
        }
        Known::Unknown(_) => Cell::Text(shown, TextStyle::STRONG.sized(pt(10.0))),
    }
}

/// What the gauge shows, where that is not the setting itself or not known.
pub(in super::super) fn gauge_differs(
    source: &Source<'_>,
    set: &Known<crate::measure::Length>,
    gauge: Option<&Known<crate::measure::Length>>,
) -> Option<Cell> {
    let gauge = gauge?;
    let set = set.value()?;
    if gauge.value() == Some(set) {
        return None;
    }
    let words = |id: &str| Cell::Text(source.say.word(id), TextStyle::CAPTION);
    Some(match gauge {
        Known::Is(_) => {
            let shown = source.say.set_length(gauge);
            let style = fitted(GAUGE, &shown, SET_WIDTH);
            Cell::Stack(vec![words("sheet-gauge-shows"), Cell::Text(shown, style)])
        }
        Known::Unknown(_) => words("sheet-gauge-unknown"),
    })
}

/// How far the tip stands below the sleeve's lower face.
fn bench_figure(source: &Source<'_>, bench: &Known<crate::measure::Length>) -> String {
    let say = &source.say;
    match bench.get() {
        None => say.word("setting-none"),
        Some(bench) if bench < crate::measure::Length::ZERO => {
            let size = say.set_length(&Known::Is(bench.abs()));
            say.text("sheet-bench-above", &[("size", &size)])
        }
        Some(_) => say.set_length(bench),
    }
}
