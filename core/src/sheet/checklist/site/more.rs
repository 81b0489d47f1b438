//! Each step in small print: how deep it cuts, how it came about, how it leans and runs, and what
//! the next shorter implant would need.

use super::super::Source;
use super::super::instruments::running;
use super::super::pieces::{SMALL, column, heading, note};
use crate::drawing::{Across, Ink, TextStyle};
use crate::plan::{Play, Shorter, SiteSheet, StepSheet};
use crate::sheet::{Block, Cell, Column, Row, Table, Width};

/// Smaller still, for what is looked up and not acted on.
const FINE: TextStyle = TextStyle::CAPTION.inked(Ink::Strong);

/// The small print of a site's steps.
pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    if sheet.steps.is_empty() {
        return Vec::new();
    }
    let say = &source.say;
    let mut blocks: Vec<Block> = heading(say.word("sheet-more")).into();
    let head = |id: &str, width| column(say.word(id), width, Across::Start);
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
    let say = &source.say;
    let mut about = Vec::new();
    let from = if let Some(reasons) = say.setting_reasons(step) {
        say.text("sheet-no-figure", &[("reasons", &reasons)])
    } else {
        say.text("sheet-set-from", &[("line", &say.setting_line(step))])
    };
    about.push(from);
    if step.set.length().is_some() {
        about.push(say.cut(step));
        about.push(say.shortfall(step));
    }
    if let Some(play) = play {
        about.push(say.play(play));
    }
    let runs = source
        .case
        .kit
        .drill(&step.drill)
        .map(|drill| running(source, drill));
    Row::Cells(vec![
        Cell::Text(say.step(&sheet.id, &step.id), SMALL.bold()),
        Cell::Text(crate::say::begin(&about.join("; ")), FINE),
        Cell::Text(runs.unwrap_or_default(), FINE),
    ])
}

/// The settings that the next shorter implant would need, beside the plan's.
fn shorter(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let say = &source.say;
    let Some(shorter) = &sheet.shorter else {
        return vec![Block::Space(2.0), note(say.word("sheet-no-shorter"))];
    };
    let mut blocks: Vec<Block> = heading(crate::say::begin(&say.shorter(shorter))).into();
    blocks.push(note(say.word("sheet-shorter-note")));
    blocks.push(Block::Space(1.2));
    blocks.push(shorter_table(source, sheet, shorter));
    for finding in &shorter.findings {
        blocks.push(note(crate::say::begin(&say.finding(finding).headline)));
    }
    blocks
}

fn shorter_table(source: &Source<'_>, sheet: &SiteSheet, shorter: &Shorter) -> Block {
    let say = &source.say;
    let columns = vec![
        column(say.word("sheet-col-step"), Width::Share(1.4), Across::Start),
        column(
            say.text(
                "sheet-col-set-planned",
                &[("implant", &say.implant(&sheet.implant))],
            ),
            Width::Share(1.0),
            Across::End,
        ),
        column(
            say.text(
                "sheet-col-set-shorter",
                &[("implant", &say.implant(&shorter.implant))],
            ),
            Width::Share(1.0),
            Across::End,
        ),
    ];
    let rows = sheet.steps.iter().zip(&shorter.steps).map(|(step, other)| {
        Row::Cells(vec![
            Cell::Text(say.step(&sheet.id, &step.id), SMALL),
            Cell::Text(with_gauge(source, step), SMALL),
            Cell::Text(with_gauge(source, other), SMALL.bold()),
        ])
    });
    close(columns, rows.collect())
}

/// A table whose rows stand close together.
fn close(columns: Vec<Column>, rows: Vec<Row>) -> Block {
    Block::Table(Table {
        columns,
        rows,
        padding_mm: 0.75,
    })
}

/// A setting with its unit, and the mark it ends at or what the gauge shows where that differs.
fn with_gauge(source: &Source<'_>, step: &StepSheet) -> String {
    let say = &source.say;
    let set = step.set.known_length();
    let shown = say.set_length_with_unit(&set);
    if let (Some(mark), Some(_)) = (say.mark(step), step.set.length()) {
        return say.text("sheet-set-and-mark", &[("set", &shown), ("mark", &mark)]);
    }
    match step.gauge.as_ref().map(|gauge| (gauge, gauge.length())) {
        Some((gauge, Some(length))) if Some(&length) != set.value() => {
            let gauge = say.set_length_with_unit(&gauge.known_length());
            say.text("sheet-set-and-gauge", &[("set", &shown), ("gauge", &gauge)])
        }
        _ => shown,
    }
}
