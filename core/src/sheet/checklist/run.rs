//! The changes between the steps of the order of use, their cost, and the verdict on the order.

use super::Source;
use super::pieces::{SMALL, body, column, heading, note};
use crate::drawing::{Across, TextStyle};
use crate::order::{Change, Weights};
use crate::run::{
    Adherence, BestOrder, NoRun, PricedOrder, RunProblem, RunStep, broken, run_problem,
};
use crate::sheet::{Block, Cell, Row, Table, Width};
use crate::wording::begin;

/// True if there is anything that has an order.
pub(super) fn is_needed(source: &Source<'_>) -> bool {
    !matches!(
        run_problem(source.case, source.worksheet),
        Err(NoRun::Nothing)
    )
}

/// The order's cost and verdict, then a line for each step with the changes before it.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let run = run_problem(source.case, source.worksheet);
    let priced = run.and_then(|run| {
        let priced = run.price(&source.worksheet.order)?;
        Ok((run, priced))
    });
    match priced {
        Ok((run, priced)) => {
            let mut blocks = summary(source, &run, &priced);
            blocks.push(Block::Space(2.0));
            blocks.push(steps(source, &priced));
            blocks.extend(weights(source));
            blocks
        }
        Err(none) => source
            .formatter
            .no_run(&none)
            .into_iter()
            .map(body)
            .collect(),
    }
}

fn summary(source: &Source<'_>, run: &RunProblem, priced: &PricedOrder) -> Vec<Block> {
    let formatter = &source.formatter;
    let by = formatter.order_by(source.worksheet.order_by);
    let cost = formatter.run_cost(priced.cost);
    let verdict = verdict(source, run);
    let verdict = verdict.unwrap_or_else(|| formatter.word("run-not-computed"));
    let line = formatter.text("sheet-run-cost", &[("by", &by), ("cost", &cost)]);
    let style = TextStyle::STRONG;
    let mut blocks = vec![
        Block::Paragraph(line, style),
        Block::Space(1.0),
        Block::Paragraph(verdict, style),
    ];
    let order = &source.worksheet.order;
    if run.adherence(order) == Adherence::Partial {
        let wish = broken(source.case, source.worksheet, order);
        let words =
            wish.map(|wish| formatter.text("order-breaks", &[("wish", &formatter.run_wish(wish))]));
        blocks.extend(words.map(body));
    }
    if priced.cost.resets > 0 {
        blocks.push(Block::Space(1.0));
        blocks.push(body(formatter.word("sheet-run-resets")));
    }
    blocks
}

/// Verdict on the order, where the best one was looked for.
fn verdict(source: &Source<'_>, run: &RunProblem) -> Option<String> {
    let best: &BestOrder = source.best?;
    let against = run.against(source.worksheet, best).ok()?;
    Some(source.formatter.run_verdict(&against))
}

/// Numbered as in the order of use. What changes is dark, what stays soft.
fn steps(source: &Source<'_>, priced: &PricedOrder) -> Block {
    let formatter = &source.formatter;
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-number", Width::Mm(6.0), Across::End),
        head("sheet-col-with", Width::Mm(31.0), Across::Start),
        head("sheet-col-set", Width::Mm(11.0), Across::End),
        head("sheet-col-site", Width::Mm(36.0), Across::Start),
        head("sheet-col-changes", Width::Share(1.0), Across::Start),
    ];
    let steps = priced.steps.iter().enumerate();
    Block::Table(Table {
        columns,
        rows: steps.map(|(n, step)| row(source, n + 1, step)).collect(),
        padding_mm: 1.2,
        gap_mm: Table::GAP,
    })
}

fn row(source: &Source<'_>, number: usize, step: &RunStep) -> Row {
    let formatter = &source.formatter;
    let said = formatter.run_step(step, source.worksheet);
    let number = Cell::Text(number.to_string(), TextStyle::NOTE);
    let Some(place) = said.place else {
        let what = Cell::Text(begin(&said.instrument), TextStyle::STRONG);
        return Row::Barrier(vec![number, Cell::Across(4, Box::new(what))]);
    };
    let changed = |change: Change| {
        if step.changes.of(change) > 0 {
            TextStyle::STRONG
        } else {
            TextStyle::NOTE
        }
    };
    let instrument = match said.slot {
        Some(slot) => format!("{} · {slot}", said.instrument),
        None => said.instrument,
    };
    // Instrument and site have columns of their own.
    let others = said.changes.into_iter();
    let others = others.filter(|(change, _)| !matches!(change, Change::Mount | Change::Move));
    let others = formatter.joined("load-list", others.map(|(_, words)| words));
    let dark = if step.changes.resets > 0 {
        TextStyle::STRONG
    } else {
        SMALL
    };
    Row::Cells(vec![
        number,
        Cell::Text(instrument, changed(Change::Mount)),
        said.set.map_or(Cell::Empty, Cell::body),
        Cell::Text(begin(&place), changed(Change::Move)),
        others.map_or(Cell::Empty, |words| Cell::Text(begin(&words), dark)),
    ])
}

/// The weight of each change.
fn weights(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut weights = source.case.run.weights;
    let told = Change::ALL.into_iter().map(|change| {
        let time_ds = u64::from(*change.weight_in(&mut weights));
        let time = formatter.run_time(time_ds);
        let what = formatter.run_change_in_full(change);
        formatter.text("sheet-run-weight", &[("what", &what), ("time", &time)])
    });
    let told = formatter.joined("load-list", told).unwrap_or_default();
    let owner = if source.case.run.weights == Weights::default() {
        "run-invented"
    } else {
        "run-own-times"
    };
    let mut blocks: Vec<Block> = heading(formatter.word("sheet-run-reckoned")).into();
    blocks.push(note(begin(&told)));
    blocks.push(note(formatter.word(owner)));
    blocks.push(note(formatter.word("sheet-run-only-changes")));
    blocks
}
