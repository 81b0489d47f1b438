//! The steps in order, with the barriers that guide and pins make.

use super::actionable::{in_form, is_known};
use super::instruments::{engraved_small, running_short, sleeve_from};
use super::pieces::{SMALL, body, column};
use super::site::bench_figure;
use super::{Source, implants, judged, places, set_anew, sounded};
use crate::charts::mark_of;
use crate::drawing::{Across, TextStyle};
use crate::kit::{AccessoryKind, DepthRule, Label, SiteId, SlotKind, StepId};
use crate::plan::{
    Actionable, InsertionSheet, LoadItem, Operation, SiteSheet, StepPath, StepSheet,
};
use crate::sheet::{Block, Cell, Row, Table, Width};

/// Width of the column of settings, mm.
pub(super) const SET: f64 = 18.0;
/// Room above and below what is in a row, mm.
const PADDING: f64 = 1.0;

/// The order of use as a table: everything that a hand needs for a step is in its row. Then the boxes for
/// what was placed.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    if source.worksheet.sites.is_empty() {
        return vec![body(formatter.word("sheet-no-sites"))];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-done", Width::Mm(8.5), Across::Start),
        head("sheet-col-site", Width::Mm(30.0), Across::Start),
        head("sheet-col-do", Width::Share(1.0), Across::Start),
        head("sheet-col-sleeve", Width::Mm(20.0), Across::Start),
        head("sheet-col-set", Width::Mm(SET), Across::End),
        head("sheet-col-running-short", Width::Mm(24.0), Across::Start),
        head("sheet-col-bench-short", Width::Mm(24.0), Across::Start),
    ];
    let mut rows: Vec<Row> = same_irrigation(source)
        .map(|words| {
            let words = formatter.text("sheet-irrigation-all", &[("value", words)]);
            Row::Barrier(vec![Cell::Empty, Cell::Text(words, SMALL)])
        })
        .into_iter()
        .collect();
    rows.push(Row::Section(formatter.word("sheet-guide-on")));
    for (index, one) in source.worksheet.order.iter().enumerate() {
        let set_anew = source.worksheet.resets_before(index);
        rows.extend(set_anew.flat_map(|reset| set_anew::in_order(source, reset)));
        rows.extend(rows_of(source, index + 1, one));
        if matches!(one, Operation::GuideOff) && index + 1 < source.worksheet.order.len() {
            rows.push(Row::Section(formatter.word("sheet-guide-off")));
        }
    }
    let mut blocks = vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: PADDING,
    })];
    blocks.extend(implants::blocks(source));
    blocks
}

fn rows_of(source: &Source<'_>, number: usize, one: &Operation) -> Vec<Row> {
    let formatter = &source.formatter;
    let begun = |place: Cell, what: Cell| vec![numbered(number, true), place, what];
    let whole_jaw = || Cell::Text(formatter.word("sheet-whole-jaw"), SMALL);
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
        Operation::Sound { sites } => {
            let mut rows = vec![Row::Barrier(begun(whole_jaw(), line()))];
            rows.extend(sounded::row(source, sites));
            rows
        }
        Operation::Reseat | Operation::GuideOff => {
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
        numbered(number, is_known),
        Cell::Text(formatter.word("sheet-whole-jaw"), SMALL),
        Cell::Across(2, Box::new(Cell::Stack(what))),
        actionable.map_or(Cell::Empty, |actionable| {
            Cell::Stack(in_form(&actionable, source, SET))
        }),
        Cell::Empty,
        Cell::Empty,
    ]
}

/// A step's number, after a box to tick where it can be done.
fn numbered(number: usize, can_be_done: bool) -> Cell {
    let number = Cell::Text(number.to_string(), SMALL);
    if can_be_done {
        Cell::Beside(vec![Cell::TickBox, number])
    } else {
        number
    }
}

/// Things with their slots, on one line.
fn lying(source: &Source<'_>, items: Vec<&LoadItem>) -> Option<Cell> {
    let named = items.into_iter().map(|item| places::named(source, item));
    let all = source.formatter.joined("load-list", named)?;
    Some(Cell::Text(all, SMALL))
}

fn site_cell(source: &Source<'_>, site: &SiteId) -> Cell {
    Cell::body(crate::wording::begin(&source.formatter.site(site)))
}

/// The worst verdict of a site, as shown beside each of its settings.
fn judged_site(source: &Source<'_>, site: &SiteId) -> Option<Cell> {
    let sheet = site_sheet(source, site)?;
    let findings = &source.worksheet.findings;
    let formatter = &source.formatter;
    let word = formatter.worst_beside(sheet.worst, &[&sheet.id], findings);
    Some(Cell::Beside(vec![
        Cell::Mark(mark_of(sheet.worst)),
        Cell::Text(word, SMALL),
    ]))
}

/// The irrigation, where it is the same for every drill that is used: then it is said once.
fn same_irrigation<'a>(source: &Source<'a>) -> Option<&'a str> {
    let steps = source.worksheet.sites.iter().flat_map(|site| &site.steps);
    let mut all = steps.map(|step| {
        let mut drills = source.case.kit.drills.iter();
        let drill = drills.find(|drill| drill.id == step.drill)?;
        drill.irrigation.as_ref().map(Label::as_str)
    });
    let first = all.next()??;
    all.all(|other| other == Some(first)).then_some(first)
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
    let named = formatter.text(
        "sheet-lies-in",
        &[
            ("name", &formatter.drill(&sheet.drill)),
            ("slot", &slot.unwrap_or_default()),
        ],
    );
    // To full depth goes what says nothing else.
    let named = if matches!(sheet.depth, DepthRule::Full {}) {
        named
    } else {
        let depth = formatter.depth_rule(&sheet.depth);
        formatter.text("sheet-named-depth", &[("named", &named), ("depth", &depth)])
    };
    let name = Cell::Text(named, TextStyle::STRONG);
    let marking = item.and_then(|item| engraved_small(&item.marking));
    let mut what = vec![Cell::Beside(marking.into_iter().chain([name]).collect())];
    let actionable = Actionable::of_step(sheet);
    let is_known = is_known(&actionable, source);
    let mut set = in_form(&actionable, source, SET);
    // Of a mark it stands below.
    let by_stop = sheet.path == StepPath::Freehand && sheet.mark.is_none();
    if is_known && by_stop {
        set.push(Cell::Text(formatter.word("sheet-from-crest"), SMALL));
    }
    if !is_known {
        let banner = formatter.word("sheet-do-not-use");
        what.push(Cell::Text(banner, TextStyle::STRONG));
    }
    let kit = &source.case.kit;
    let drill = kit.drills.iter().find(|drill| drill.id == sheet.drill);
    let running =
        drill.map(|drill| running_short(source, drill, same_irrigation(source).is_some()));
    let bench = sheet.bench.as_ref().filter(|_| is_known);
    let bench = bench.map(|bench| bench_figure(source, &bench.known_length()));
    let mut rows = vec![Row::Cells(vec![
        // Nothing to tick: it cannot be done.
        numbered(number, is_known),
        site_cell(source, site),
        Cell::Stack(what),
        sleeve_from(source, sheet),
        Cell::Stack(set),
        running.map_or(Cell::Empty, |words| Cell::Text(words, SMALL)),
        Cell::Stack(
            bench
                .map(Cell::body)
                .into_iter()
                .chain(judged_site(source, site))
                .collect(),
        ),
    ])];
    let judged = judged::at_step(source, site, step);
    if !is_known {
        rows.extend(beneath(judged));
        return rows;
    }
    let level = formatter.until_level(sheet);
    let level = level.map(|words| Cell::Text(crate::wording::begin(&words), SMALL));
    rows.extend(beneath(level.into_iter().chain(judged).collect()));
    rows.extend(then(source, site, step).map(|then| {
        Row::After(vec![
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
    let before = [Cell::Empty, Cell::Empty];
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
        SMALL.bold(),
    )];
    if let Some(insertion) = &sheet.insertion {
        let words = formatter.insertion(Some(insertion));
        cells.push(Cell::Text(words, SMALL.bold()));
        cells.extend(lying(source, carried(source, insertion)));
    }
    if let Some(depth) = &sheet.final_depth {
        let words = crate::wording::begin(&formatter.final_depth(depth));
        cells.push(Cell::Text(words, SMALL.bold()));
    }
    let stays = formatter.carrier_stays(id);
    cells.extend(stays.map(|words| Cell::Text(words, SMALL.bold())));
    cells.extend(judged::at_insertion(source, id));
    cells.extend(implant_torque(source, sheet).map(|words| Cell::Text(words, SMALL)));
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
