//! A stop that is set anew in surgery: a shaded line with boxes of its own, before the first step with
//! the new setting.

use super::actionable::{cell, in_form, is_known};
use super::done::{self, Tick, tick_cell};
use super::pieces::SMALL;
use super::{Source, order};
use crate::drawing::TextStyle;
use crate::kit::{SiteId, StepId};
use crate::plan::{Actionable, Operation, Reset};
use crate::sheet::{Cell, Row};
use crate::wording::begin;

/// Height of a box for a reading, mm.
const BOX: f64 = 7.6;

/// Its row in the order of use, with the boxes for it.
pub(super) fn in_order(source: &Source<'_>, reset: &Reset) -> Vec<Row> {
    let formatter = &source.formatter;
    let is_known = can_be_set(source, reset);
    let site = match source.worksheet.order.get(reset.before) {
        Some(Operation::Drill { site, .. }) => Cell::Text(begin(&formatter.site(site)), SMALL),
        _ => Cell::Text(formatter.word("sheet-whole-jaw"), SMALL),
    };
    let mut what = words(source, reset);
    let tick = match done::tick_reset(source, reset) {
        Tick::Blank if !is_known => Cell::Empty,
        tick => tick_cell(tick),
    };
    let mut row = vec![tick, site];
    if is_known {
        what.push(Cell::Beside(ticks(source)));
    }
    row.push(Cell::Across(3, Box::new(Cell::Stack(what))));
    let actionable = Actionable::of_item(&reset.to);
    row.push(actionable.map_or(Cell::Empty, |actionable| {
        Cell::Stack(in_form(&actionable, source, order::set_width(source)))
    }));
    if is_known {
        let written = |id: &str| {
            let word = Cell::Text(formatter.word(id), SMALL);
            Cell::Stack(vec![word, Cell::WriteBox(BOX)])
        };
        let reading = Cell::Across(2, Box::new(written("sheet-reset-read")));
        row.extend([reading, written("sheet-col-initials")]);
    }
    vec![Row::Barrier(row)]
}

/// Its row among the steps of a site: the last columns are those for readings and initials.
pub(super) fn at_site(source: &Source<'_>, reset: &Reset) -> Row {
    let mut what = words(source, reset);
    let mut cells = Vec::new();
    if can_be_set(source, reset) {
        // The second reading has its box on its own leaf.
        what.extend(ticks(source).into_iter().take(2));
        let boxes = || Cell::WriteBox(BOX);
        cells.extend([Cell::Empty, Cell::Empty, boxes(), boxes()]);
    }
    let mut row = vec![
        Cell::Across(2, Box::new(Cell::Stack(what))),
        figure(source, reset),
    ];
    row.extend(cells);
    Row::Barrier(row)
}

/// The items set anew before a step of the site.
pub(super) fn before<'a>(
    source: &Source<'a>,
    site: &SiteId,
    step: &StepId,
) -> impl Iterator<Item = &'a Reset> {
    let (site, step) = (site.clone(), step.clone());
    let one = Operation::Drill { site, step };
    let place = source
        .worksheet
        .order
        .iter()
        .position(|other| *other == one);
    let worksheet = source.worksheet;
    place
        .into_iter()
        .flat_map(|place| worksheet.resets_before(place))
}

/// True if there is a figure to set.
pub(super) fn can_be_set(source: &Source<'_>, reset: &Reset) -> bool {
    Actionable::of_item(&reset.to).is_some_and(|actionable| is_known(&actionable, source))
}

fn words(source: &Source<'_>, reset: &Reset) -> Vec<Cell> {
    let formatter = &source.formatter;
    let line = formatter.reset_line(reset, source.worksheet);
    let when = begin(&formatter.reset(reset, source.worksheet).when);
    let mut cells = vec![
        Cell::Text(line, TextStyle::STRONG),
        Cell::Text(when, TextStyle::NOTE),
    ];
    if !can_be_set(source, reset) {
        let banner = formatter.word("sheet-do-not-use");
        cells.push(Cell::Text(banner, TextStyle::STRONG));
    }
    cells
}

fn ticks(source: &Source<'_>) -> Vec<Cell> {
    let words = [
        "sheet-reset-set",
        "sheet-reset-locked",
        "sheet-reset-second",
    ];
    let tick = |id| {
        let word = Cell::Text(source.formatter.word(id), TextStyle::NOTE);
        Cell::Beside(vec![Cell::TickBox, word])
    };
    words.map(tick).into()
}

fn figure(source: &Source<'_>, reset: &Reset) -> Cell {
    let actionable = Actionable::of_item(&reset.to);
    actionable.map_or(Cell::Empty, |actionable| cell(&actionable, source))
}
