//! The steps in order, with the barriers that guide and pins make.

use super::actionable::{WIDTH, cell, is_known};
use super::instruments::led_from;
use super::pieces::{body, column, worst_of};
use super::{Source, judged, places, set_anew};
use crate::drawing::{Across, TextStyle};
use crate::kit::{AccessoryKind, Label, SiteId, SlotKind, StepId};
use crate::plan::{
    Actionable, InsertionSheet, LoadItem, Operation, SiteSheet, StepPath, StepSheet,
};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// The order of use as a table.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    if source.worksheet.sites.is_empty() {
        return vec![body(formatter.word("sheet-no-sites"))];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-number", Width::Mm(6.0), Across::End),
        head("sheet-col-done", Width::Mm(8.0), Across::Middle),
        head("sheet-col-site", Width::Mm(34.0), Across::Start),
        head("sheet-col-do", Width::Share(1.0), Across::Start),
        head("sheet-col-sleeve", Width::Mm(37.0), Across::Start),
        head("sheet-col-site-verdict", Width::Mm(12.0), Across::Middle),
        head("sheet-col-set", Width::Mm(WIDTH - 2.0), Across::End),
    ];
    let mut rows = vec![Row::Section(formatter.word("sheet-guide-on"))];
    for (index, one) in source.worksheet.order.iter().enumerate() {
        let set_anew = source.worksheet.resets_before(index);
        rows.extend(set_anew.flat_map(|reset| set_anew::in_order(source, reset)));
        rows.extend(rows_of(source, index + 1, one));
        if matches!(one, Operation::GuideOff) && index + 1 < source.worksheet.order.len() {
            rows.push(Row::Section(formatter.word("sheet-guide-off")));
        }
    }
    vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: 1.3,
    })]
}

fn rows_of(source: &Source<'_>, number: usize, one: &Operation) -> Vec<Row> {
    let formatter = &source.formatter;
    let begun = |place: Cell, what: Cell| {
        vec![
            Cell::Text(number.to_string(), TextStyle::NOTE),
            Cell::TickBox,
            place,
            what,
        ]
    };
    let whole_jaw = || Cell::Text(formatter.word("sheet-whole-jaw"), TextStyle::NOTE);
    let line = || Cell::Text(formatter.use_line(one, source.worksheet), TextStyle::STRONG);
    let with = |items: Vec<&LoadItem>| {
        let mut cells = vec![line()];
        cells.extend(lying(source, items));
        Cell::Stack(cells)
    };
    match one {
        Operation::Drill { site, step } => places::sheet(source, site, step)
            .map(|sheet| drill(source, number, (site, step), sheet))
            .unwrap_or_default(),
        Operation::Insert { site } => vec![Row::Cells(begun(
            site_cell(source, site),
            insert(source, site),
        ))],
        Operation::Punch { .. } => {
            let punches = places::accessories(source, AccessoryKind::Punch).collect();
            vec![Row::Cells(begun(whole_jaw(), with(punches)))]
        }
        Operation::Pin { name } => vec![Row::Cells(pin(source, number, one, name))],
        Operation::Reseat | Operation::Sound { .. } | Operation::GuideOff => {
            vec![Row::Barrier(begun(whole_jaw(), line()))]
        }
    }
}

/// A pin's drill and the pin, their places, and the depth of the drill.
fn pin(source: &Source<'_>, number: usize, one: &Operation, name: &Label) -> Vec<Cell> {
    let formatter = &source.formatter;
    let items = places::of_pin(source, name);
    let sheet = source.worksheet.pins.iter().find(|pin| pin.name == *name);
    let actionable = sheet.map(Actionable::of_pin);
    let is_known = actionable
        .as_ref()
        .is_some_and(|actionable| is_known(actionable, source));
    let words = formatter.use_line(one, source.worksheet);
    let mut what = vec![Cell::Text(words, TextStyle::STRONG)];
    what.extend(lying(source, items));
    if !is_known {
        let banner = formatter.word("sheet-do-not-use");
        what.push(Cell::Text(banner, TextStyle::STRONG));
    }
    vec![
        Cell::Text(number.to_string(), TextStyle::NOTE),
        if is_known { Cell::TickBox } else { Cell::Empty },
        Cell::Text(formatter.word("sheet-whole-jaw"), TextStyle::NOTE),
        Cell::Across(3, Box::new(Cell::Stack(what))),
        actionable.map_or(Cell::Empty, |actionable| cell(&actionable, source)),
    ]
}

/// Things with their slots, on one line.
fn lying(source: &Source<'_>, items: Vec<&LoadItem>) -> Option<Cell> {
    let named = items.into_iter().map(|item| places::named(source, item));
    let all = source.formatter.joined("load-list", named)?;
    Some(Cell::Text(all, TextStyle::NOTE))
}

fn site_cell(source: &Source<'_>, site: &SiteId) -> Cell {
    Cell::body(crate::wording::begin(&source.formatter.site(site)))
}

/// The worst verdict of a site, as shown beside each of its settings.
fn worst(source: &Source<'_>, site: &SiteId) -> Cell {
    site_sheet(source, site).map_or(Cell::Empty, |sheet| worst_of(source, sheet))
}

fn site_sheet<'a>(source: &Source<'a>, site: &SiteId) -> Option<&'a SiteSheet> {
    let sites = &source.worksheet.sites;
    sites.iter().find(|one| one.id == *site)
}

/// A step, and a row of its own for what follows it before the next.
fn drill(
    source: &Source<'_>,
    number: usize,
    (site, step): (&SiteId, &StepId),
    sheet: &StepSheet,
) -> Vec<Row> {
    let formatter = &source.formatter;
    let item = places::of_step(source, site, step);
    let slot = item.map(|item| places::slot(source, item));
    let mut what = vec![
        Cell::Text(
            formatter.text(
                "sheet-lies-in",
                &[
                    ("name", &formatter.drill(&sheet.drill)),
                    ("slot", &slot.unwrap_or_default()),
                ],
            ),
            TextStyle::STRONG,
        ),
        Cell::Text(formatter.depth_rule(&sheet.depth), TextStyle::NOTE),
    ];
    let actionable = Actionable::of_step(sheet);
    let is_known = is_known(&actionable, source);
    let mut set = vec![cell(&actionable, source)];
    // Of a mark it stands below.
    let by_stop = sheet.path == StepPath::Freehand && sheet.mark.is_none();
    if is_known && by_stop {
        set.push(Cell::Text(
            formatter.word("sheet-from-crest"),
            TextStyle::CAPTION,
        ));
    }
    if !is_known {
        let banner = formatter.word("sheet-do-not-use");
        what.push(Cell::Text(banner, TextStyle::STRONG));
    }
    let mut rows = vec![Row::Cells(vec![
        Cell::Text(number.to_string(), TextStyle::NOTE),
        // Nothing to tick: it cannot be done.
        if is_known { Cell::TickBox } else { Cell::Empty },
        site_cell(source, site),
        Cell::Stack(what),
        led_from(source, sheet),
        worst(source, site),
        Cell::Stack(set),
    ])];
    let judged = judged::at_step(source, site, step);
    if !is_known {
        rows.extend(beneath(judged));
        return rows;
    }
    let level = formatter.until_level(sheet);
    let level = level.map(|words| Cell::Text(crate::wording::begin(&words), TextStyle::NOTE));
    rows.extend(beneath(level.into_iter().chain(judged).collect()));
    rows.extend(then(source, site, step).map(|then| {
        Row::After(vec![
            Cell::Empty,
            Cell::TickBox,
            site_cell(source, site),
            Cell::Text(crate::wording::begin(then.as_str()), TextStyle::STRONG),
        ])
    }));
    rows
}

/// Words on a step, over the width that they need.
fn beneath(words: Vec<Cell>) -> Option<Row> {
    if words.is_empty() {
        return None;
    }
    let before = [Cell::Empty, Cell::Empty, Cell::Empty];
    let cells = before.into_iter().chain([Cell::Stack(words)]);
    Some(Row::After(cells.collect()))
}

/// The action between a step and the next, such as a radiograph.
pub(super) fn then<'a>(source: &Source<'a>, site: &SiteId, step: &StepId) -> Option<&'a Label> {
    let site = source.case.site(site.as_str())?;
    let step = site.steps.iter().find(|one| one.id == *step)?;
    step.then.as_ref()
}

/// The implant to turn in, how deep and how hard.
fn insert(source: &Source<'_>, id: &SiteId) -> Cell {
    let formatter = &source.formatter;
    let Some(sheet) = site_sheet(source, id) else {
        return Cell::Empty;
    };
    let line = if sheet.insertion.is_some() {
        "sheet-insert-guided"
    } else {
        "sheet-insert-freehand"
    };
    let item = places::of_site(source, SlotKind::Implant, id);
    let named = item.map_or_else(
        || formatter.implant(&sheet.implant),
        |item| places::named(source, item),
    );
    let mut cells = vec![Cell::Text(
        formatter.text(line, &[("implant", &named)]),
        TextStyle::STRONG,
    )];
    if let Some(insertion) = &sheet.insertion {
        let words = formatter.insertion(Some(insertion));
        cells.push(Cell::Text(words, TextStyle::STRONG));
        cells.extend(lying(source, carried(source, insertion)));
    }
    if let Some(depth) = &sheet.final_depth {
        let words = crate::wording::begin(&formatter.final_depth(depth));
        cells.push(Cell::Text(words, TextStyle::STRONG));
    }
    let stays = formatter.carrier_stays(id);
    cells.extend(stays.map(|words| Cell::Text(words, TextStyle::STRONG)));
    cells.extend(judged::at_insertion(source, id));
    cells.extend(implant_torque(source, sheet).map(Cell::body));
    Cell::Stack(cells)
}

/// The carrier and the sleeve that it passes.
fn carried<'a>(source: &Source<'a>, insertion: &InsertionSheet) -> Vec<&'a LoadItem> {
    let carrier = insertion.carrier.as_ref();
    let carrier = carrier.and_then(|id| places::of_entry(source, SlotKind::Carrier, id.as_str()));
    let sleeve = insertion.sleeve.as_ref();
    let sleeve = sleeve.and_then(|id| places::of_entry(source, SlotKind::Sleeve, id.as_str()));
    carrier.into_iter().chain(sleeve).collect()
}

/// The implant's greatest torque, or that the kit does not give one.
pub(super) fn implant_torque(source: &Source<'_>, sheet: &SiteSheet) -> Option<String> {
    let formatter = &source.formatter;
    let implant = source.case.kit.implant(&sheet.implant)?;
    let torque = implant.torque_limit_ncm.map_or_else(
        || formatter.word("sheet-not-in-kit"),
        |torque| formatter.text("sheet-ncm", &[("torque", &torque.to_string())]),
    );
    Some(formatter.text("sheet-implant-torque", &[("value", &torque)]))
}
