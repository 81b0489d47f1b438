//! The sequence: one row a step, its setting in large figures.

use super::super::actionable::{WIDTH, cell, is_known};
use super::super::instruments::guidance;
use super::super::pieces::{column, note, worst_of};
use super::super::{Source, set_anew, then};
use crate::drawing::{Across, TextStyle};
use crate::plan::{Actionable, Fits, Known, SiteSheet, StepPath, StepSheet};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// Height of a box for a reading, mm.
const BOX: f64 = 8.4;

/// The sequence with the notes that belong to it.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    if sheet.steps.is_empty() {
        return vec![Block::Paragraph(
            formatter.word("sheet-no-steps"),
            TextStyle::STRONG,
        )];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-step", Width::Share(1.0), Across::Start),
        head("sheet-col-sleeve", Width::Mm(29.0), Across::Start),
        head("sheet-col-set", Width::Mm(WIDTH), Across::End),
        head("sheet-col-site-verdict", Width::Mm(12.0), Across::Middle),
        head("sheet-col-bench", Width::Mm(11.5), Across::End),
        // The second reading has a leaf of its own: what stands beside a setting is not read blind.
        head("sheet-col-read", Width::Mm(14.0), Across::Start),
        head("sheet-col-initials", Width::Mm(12.0), Across::Start),
    ];
    let rows = sheet
        .steps
        .iter()
        .enumerate()
        .flat_map(|(index, step)| rows_of(source, sheet, index + 1, step));
    vec![
        Block::Table(Table {
            columns,
            rows: rows.collect(),
            padding_mm: 1.1,
            gap_mm: Table::GAP,
        }),
        Block::Space(1.4),
        note(notes(source, sheet)),
    ]
}

/// The meaning of the figures, of stops and of marks where there are such.
fn notes(source: &Source<'_>, sheet: &SiteSheet) -> String {
    let is_used = |wanted: fn(&StepSheet) -> bool| sheet.steps.iter().any(wanted);
    let by_stop = is_used(|step| step.stop.is_some()).then_some("sheet-steps-note-stop");
    let by_mark = is_used(|step| step.mark.is_some()).then_some("sheet-steps-note-mark");
    let is_checked = is_used(|step| step.mark.is_some() && step.bench.is_some());
    let checked = is_checked.then_some("sheet-steps-note-mark-bench");
    let ids = [by_stop, by_mark, checked, Some("sheet-steps-note-verdict")];
    let words = ids
        .into_iter()
        .flatten()
        .map(|id| source.formatter.word(id));
    words.collect::<Vec<_>>().join(" ")
}

/// A step, how far a mark goes in, and a row to tick for what follows it before the next.
fn rows_of(
    source: &Source<'_>,
    sheet: &SiteSheet,
    number: usize,
    step: &StepSheet,
) -> impl Iterator<Item = Row> {
    let then = then::after(source, &sheet.id, &step.id).map(|then| {
        let tick = then.tick();
        Row::After(vec![Cell::Beside(vec![
            tick,
            Cell::Text(then.words, TextStyle::STRONG),
        ])])
    });
    // A drill that must not be used goes nowhere.
    let is_known = is_known(&Actionable::of_step(step), source);
    let level = source.formatter.until_level(step).filter(|_| is_known);
    let level = level.map(|words| {
        let words = crate::wording::begin(&words);
        Row::After(vec![Cell::Text(words, TextStyle::NOTE)])
    });
    let set_anew = set_anew::before(source, &sheet.id, &step.id);
    let set_anew: Vec<Row> = set_anew
        .map(|reset| set_anew::at_site(source, reset))
        .collect();
    set_anew
        .into_iter()
        .chain([row(source, sheet, number, step)])
        .chain(level)
        .chain(then)
}

fn row(source: &Source<'_>, sheet: &SiteSheet, number: usize, step: &StepSheet) -> Row {
    let formatter = &source.formatter;
    let is_known = is_known(&Actionable::of_step(step), source);
    let bench = match &step.bench {
        None => Cell::Empty,
        Some(bench) => Cell::Text(bench_figure(source, &bench.known_length()), TextStyle::BODY),
    };
    let reading = if Actionable::of_step(step).is_read() {
        Cell::WriteBox(BOX)
    } else {
        Cell::Empty
    };
    let mut first = vec![
        drill_and_depth(source, number, step),
        guidance(source, step),
        setting(source, step),
        worst_of(source, sheet),
    ];
    if !is_known {
        // No boxes: nothing is read or signed for a drill that must not be used.
        let style = TextStyle::STRONG;
        first.push(Cell::Text(formatter.word("sheet-do-not-use"), style));
        return Row::Cells(first);
    }
    first.push(bench);
    if is_set_anew(source, sheet, step) {
        // Its boxes stand where it is set anew.
        let words = Cell::Text(
            formatter.word("sheet-read-when-set-anew"),
            TextStyle::CAPTION,
        );
        first.push(Cell::Across(2, Box::new(words)));
    } else {
        first.extend([reading, Cell::WriteBox(BOX)]);
    }
    Row::Cells(first)
}

/// True if the drill is set for a step only in surgery.
fn is_set_anew(source: &Source<'_>, sheet: &SiteSheet, step: &StepSheet) -> bool {
    let mut resets = source.worksheet.resets.iter();
    resets.any(|one| {
        let mut serves = one.to.serves.iter();
        serves.any(|serves| serves.is_step(&sheet.id, &step.id))
    })
}

/// The step's drill, how deep it goes, and its stop.
fn drill_and_depth(source: &Source<'_>, number: usize, step: &StepSheet) -> Cell {
    let formatter = &source.formatter;
    let numbered = formatter.counted(
        "sheet-step-numbered",
        &[("number", number)],
        &[("drill", &formatter.drill(&step.drill))],
    );
    let mut cells = vec![
        Cell::Text(numbered, TextStyle::STRONG),
        Cell::Text(formatter.depth_rule(&step.depth), TextStyle::NOTE),
    ];
    if let Some(stop) = &step.stop {
        cells.push(Cell::Text(formatter.stop(stop), TextStyle::NOTE));
    }
    if let Some(reasons) = formatter.setting_reasons(step) {
        let words = formatter.text("sheet-no-figure", &[("reasons", &reasons)]);
        cells.push(Cell::body(words));
    }
    Cell::Stack(cells)
}

/// The figure to act on.
fn setting(source: &Source<'_>, step: &StepSheet) -> Cell {
    let mut cells = vec![cell(&Actionable::of_step(step), source)];
    // Of a mark it stands below.
    let by_stop = step.path == StepPath::Freehand && step.mark.is_none();
    if by_stop && step.set.length().is_some() && step.fits == Fits::AsFarAsKnown {
        cells.push(Cell::Text(
            source.formatter.word("sheet-from-crest"),
            TextStyle::CAPTION,
        ));
    }
    Cell::Stack(cells)
}

/// Reach of the tip beyond the sleeve's apical face.
pub(in super::super) fn bench_figure(
    source: &Source<'_>,
    bench: &Known<crate::measure::Length>,
) -> String {
    let formatter = &source.formatter;
    match bench.get() {
        None => formatter.word("setting-none"),
        Some(bench) if bench < crate::measure::Length::ZERO => {
            let size = formatter.set_length(&Known::Is(bench.abs()));
            formatter.text("sheet-bench-above", &[("size", &size)])
        }
        Some(_) => formatter.set_length(bench),
    }
}
