//! What to do, in order, with the barriers that guide and pins make.

use super::Source;
use super::hand::{WIDTH, cell};
use super::instruments::led;
use super::pieces::{body, column};
use crate::drawing::{Across, TextStyle};
use crate::kit::{SiteId, StepId};
use crate::plan::{Hand, StepPath, StepSheet, Use};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// The order of use as a table.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    if source.worksheet.sites.is_empty() {
        return vec![body(say.word("sheet-no-sites"))];
    }
    let head = |id: &str, width, align| column(say.word(id), width, align);
    let columns = vec![
        head("sheet-col-number", Width::Mm(8.0), Across::End),
        head("sheet-col-done", Width::Mm(9.0), Across::Middle),
        head("sheet-col-site", Width::Share(0.8), Across::Start),
        head("sheet-col-do", Width::Share(1.2), Across::Start),
        head("sheet-col-sleeve", Width::Mm(30.0), Across::Start),
        head("sheet-col-set", Width::Mm(WIDTH), Across::End),
    ];
    let mut rows = vec![Row::Section(say.word("sheet-guide-on"))];
    for (index, one) in source.worksheet.order.iter().enumerate() {
        rows.push(row(source, index + 1, one));
        if matches!(one, Use::GuideOff) && index + 1 < source.worksheet.order.len() {
            rows.push(Row::Section(say.word("sheet-guide-off")));
        }
    }
    vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.6,
    })]
}

fn row(source: &Source<'_>, number: usize, one: &Use) -> Row {
    let say = &source.say;
    let mut cells = vec![
        Cell::Text(number.to_string(), TextStyle::NOTE),
        Cell::TickBox,
    ];
    let site_cell = |site: &SiteId| Cell::body(crate::say::begin(&say.site(site)));
    match one {
        Use::Drill { site, step } => {
            cells.push(site_cell(site));
            if let Some(sheet) = step_sheet(source, site, step) {
                cells.extend(drill(source, site, sheet));
            }
        }
        Use::Insert { site } | Use::Punch { site } => {
            cells.push(site_cell(site));
            let words = match one {
                Use::Insert { .. } => insert(source, site),
                _ => say.use_line(one, source.worksheet),
            };
            cells.push(Cell::Text(words, TextStyle::STRONG));
        }
        Use::Pin { .. } | Use::GuideOff => {
            cells.push(Cell::Text(say.word("sheet-whole-jaw"), TextStyle::NOTE));
            let words = say.use_line(one, source.worksheet);
            cells.push(Cell::Text(words, TextStyle::STRONG));
        }
    }
    Row::Cells(cells)
}

/// The implant to turn in, and how.
fn insert(source: &Source<'_>, site: &SiteId) -> String {
    let say = &source.say;
    let sheet = source.worksheet.sites.iter().find(|one| one.id == *site);
    sheet.map_or_else(String::new, |sheet| {
        let id = if sheet.insertion.is_some() {
            "sheet-insert-guided"
        } else {
            "sheet-insert-freehand"
        };
        say.text(id, &[("implant", &say.implant(&sheet.implant))])
    })
}

fn drill(source: &Source<'_>, site: &SiteId, sheet: &StepSheet) -> [Cell; 3] {
    let say = &source.say;
    let mut what = vec![
        Cell::Text(say.drill(&sheet.drill), TextStyle::STRONG),
        Cell::Text(say.depth(site, sheet), TextStyle::NOTE),
    ];
    if let Some(mark) = say.mark(sheet) {
        what.push(Cell::body(mark));
    }
    if sheet.set.length().is_none() {
        what.push(Cell::Text(
            say.word("sheet-do-not-drill"),
            TextStyle::STRONG,
        ));
    }
    let mut set = vec![cell(&Hand::of_step(sheet), source)];
    if sheet.path == StepPath::Freehand && sheet.set.length().is_some() {
        set.push(Cell::Text(say.word("sheet-from-crest"), TextStyle::CAPTION));
    }
    [Cell::Stack(what), led(source, sheet), Cell::Stack(set)]
}

fn step_sheet<'a>(source: &Source<'a>, site: &SiteId, step: &StepId) -> Option<&'a StepSheet> {
    let sites = &source.worksheet.sites;
    let site = sites.iter().find(|one| one.id == *site)?;
    site.steps.iter().find(|one| one.id == *step)
}
