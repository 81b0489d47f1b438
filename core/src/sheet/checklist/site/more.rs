//! Each step in small print: how deep it cuts, how it came about, how it leans and runs, and what
//! the next shorter implant would need.

use super::super::Source;
use super::super::instruments::running;
use super::super::pieces::{SMALL, column, heading, note};
use crate::drawing::{Across, Ink, TextStyle};
use crate::plan::{Fits, Play, ShorterImplant, SiteSheet, StepSheet};
use crate::sheet::{Block, Cell, Column, Row, Table, Width};

/// Smaller still, for what is looked up and not acted on.
const FINE: TextStyle = TextStyle::CAPTION.inked(Ink::Strong);

/// The small print of a site's steps.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    if sheet.steps.is_empty() {
        return Vec::new();
    }
    let formatter = &source.formatter;
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-more")).into();
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let columns = vec![
        head("sheet-col-step", Width::Mm(30.0)),
        head("sheet-col-came-about", Width::Share(1.35)),
        head("sheet-col-running", Width::Share(1.0)),
    ];
    let rows = sheet
        .steps
        .iter()
        .zip(&sheet.play)
        .map(|(step, play)| row(source, sheet, step, play.as_ref()));
    blocks.push(close(columns, rows.collect()));
    blocks.extend(shorter(source, sheet));
    blocks
}

fn row(source: &Source<'_>, sheet: &SiteSheet, step: &StepSheet, play: Option<&Play>) -> Row {
    let formatter = &source.formatter;
    let mut about = Vec::new();
    let fits = step.fits == Fits::AsFarAsKnown;
    let from = if !fits && step.set.length().is_some() {
        formatter.setting(step)
    } else if let Some(reasons) = formatter.setting_reasons(step) {
        formatter.text("sheet-no-figure", &[("reasons", &reasons)])
    } else {
        formatter.text("sheet-set-from", &[("line", &formatter.setting_line(step))])
    };
    about.push(from);
    if fits && step.set.length().is_some() {
        about.push(formatter.cut(step));
        about.push(formatter.shortfall(step));
    }
    if let Some(play) = play {
        about.push(formatter.play(play));
    }
    let runs = source
        .case
        .kit
        .drill(&step.drill)
        .map(|drill| running(source, drill));
    Row::Cells(vec![
        Cell::Text(formatter.step(&sheet.id, &step.id), SMALL.bold()),
        Cell::Text(crate::wording::begin(&about.join("; ")), FINE),
        Cell::Text(runs.unwrap_or_default(), FINE),
    ])
}

/// The settings that the next shorter implant would need, beside the plan's.
fn shorter(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let Some(shorter) = &sheet.shorter else {
        return vec![Block::Space(2.0), note(formatter.word("sheet-no-shorter"))];
    };
    let mut blocks: Vec<Block> = heading(crate::wording::begin(&formatter.shorter(shorter))).into();
    blocks.push(note(formatter.word("sheet-shorter-note")));
    blocks.push(Block::Space(1.2));
    blocks.push(shorter_table(source, sheet, shorter));
    for finding in &shorter.findings {
        blocks.push(note(crate::wording::begin(
            &formatter.finding(finding).headline,
        )));
    }
    blocks
}

fn shorter_table(source: &Source<'_>, sheet: &SiteSheet, shorter: &ShorterImplant) -> Block {
    let formatter = &source.formatter;
    let columns = vec![
        column(
            formatter.word("sheet-col-step"),
            Width::Share(1.4),
            Across::Start,
        ),
        column(
            formatter.text(
                "sheet-col-set-planned",
                &[("implant", &formatter.implant(&sheet.implant))],
            ),
            Width::Share(1.0),
            Across::End,
        ),
        column(
            formatter.text(
                "sheet-col-set-shorter",
                &[("implant", &formatter.implant(&shorter.implant))],
            ),
            Width::Share(1.0),
            Across::End,
        ),
    ];
    let rows = sheet.steps.iter().zip(&shorter.steps).map(|(step, other)| {
        Row::Cells(vec![
            Cell::Text(formatter.step(&sheet.id, &step.id), SMALL),
            Cell::Text(with_gauge(source, step), SMALL),
            Cell::Text(with_gauge(source, other), SMALL.bold()),
        ])
    });
    close(columns, rows.collect())
}

/// A table whose rows are close together.
fn close(columns: Vec<Column>, rows: Vec<Row>) -> Block {
    Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.1,
        gap_mm: Table::GAP,
    })
}

/// A setting with its unit, and the mark it ends at or what the gauge shows where that differs.
fn with_gauge(source: &Source<'_>, step: &StepSheet) -> String {
    let formatter = &source.formatter;
    let set = step.set.known_length();
    let shown = formatter.set_to_use_with_unit(&set, step.fits);
    if step.fits == Fits::No {
        return shown;
    }
    if let (Some(mark), Some(_)) = (formatter.mark(step), step.set.length()) {
        return formatter.text("sheet-set-and-mark", &[("set", &shown), ("mark", &mark)]);
    }
    match step.gauge.as_ref().map(|gauge| (gauge, gauge.length())) {
        Some((gauge, Some(length))) if Some(&length) != set.value() => {
            let gauge = formatter.set_length_with_unit(&gauge.known_length());
            formatter.text("sheet-set-and-gauge", &[("set", &shown), ("gauge", &gauge)])
        }
        _ => shown,
    }
}
