//! The steps in order, with the barriers that guide and pins make.

use super::actionable::{figure_in_form, is_alone, is_known, limited_by};
use super::done::{self, Tick, tick_cell};
use super::instruments::{engraved_small, running_short, sleeve_from};
use super::pieces::{SMALL, body, column, verdict_in_form, verdict_width};
use super::site::bench_figure;
use super::{Source, implants, judged, legend, places, set_anew, sounded, then};
use crate::drawing::{Across, TextStyle};
use crate::kit::{AccessoryKind, DepthRule, Label, SiteId, StepId};
use crate::plan::{
    Actionable, LoadItem, Operation, PinSheet, SiteSheet, StepPath, StepSheet, misfit_elsewhere,
};
use crate::sheet::{Block, Cell, Row, Table, Width};
use crate::surgery::sounding_limit;
use crate::wording::begin;

/// Width of the column of settings where each is one figure, mm: six characters of 14 points.
const SET: f64 = 14.5;
/// The same where the gauge shows another figure, which stands beside its name.
const SET_WITH_GAUGE: f64 = 25.0;
/// Between two columns, mm.
const GAP: f64 = 1.8;

/// The order of use as a table: everything that a hand needs for a step is in its row. `padding_mm` is the
/// room above and below what is in a row.
pub(super) fn blocks(source: &Source<'_>, padding_mm: f64) -> Vec<Block> {
    let formatter = &source.formatter;
    if source.worksheet.sites.is_empty() {
        return vec![body(formatter.word("sheet-no-sites"))];
    }
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let columns = vec![
        head("sheet-col-done", Width::Mm(9.5), Across::Start),
        head("sheet-col-site", Width::Mm(46.0), Across::Start),
        head("sheet-col-do", Width::Share(1.0), Across::Start),
        head("sheet-col-slot", Width::Mm(13.5), Across::Start),
        head("sheet-col-sleeve", Width::Mm(19.2), Across::Start),
        head("sheet-col-set", Width::Mm(set_width(source)), Across::End),
        column(
            String::new(),
            Width::Mm(verdict_width(source)),
            Across::Start,
        ),
        head("sheet-col-running-short", Width::Mm(13.4), Across::Start),
        head("sheet-col-bench-short", Width::Mm(9.4), Across::Start),
    ];
    let mut rows = vec![Row::Section(formatter.word("sheet-guide-on"))];
    for (index, one) in source.worksheet.order.iter().enumerate() {
        let set_anew = source.worksheet.resets_before(index);
        rows.extend(set_anew.flat_map(|reset| set_anew::in_order(source, reset)));
        rows.extend(rows_of(source, index + 1, one));
        rows.extend(done::otherwise(source, one));
        if matches!(one, Operation::GuideOff) && index + 1 < source.worksheet.order.len() {
            rows.push(Row::Section(formatter.word("sheet-guide-off")));
        }
    }
    let mut blocks = legend::blocks(source);
    blocks.push(Block::Table(Table {
        columns,
        rows,
        padding_mm,
        gap_mm: GAP,
    }));
    if let Some(times) = done::times(source) {
        blocks.extend([Block::Space(1.0), times]);
    }
    blocks
}

/// Width of the column of settings, mm.
pub(super) fn set_width(source: &Source<'_>) -> f64 {
    let steps = source.worksheet.sites.iter().flat_map(|site| &site.steps);
    let steps = steps.map(Actionable::of_step);
    let mut all = steps.chain(source.worksheet.pins.iter().map(Actionable::of_pin));
    if all.all(|one| is_alone(&one, source)) {
        SET
    } else {
        SET_WITH_GAUGE
    }
}

fn rows_of(source: &Source<'_>, number: usize, one: &Operation) -> Vec<Row> {
    let formatter = &source.formatter;
    let tick = done::tick(source, one);
    let begun = |what: Cell| vec![numbered(number, true, tick), what];
    let line = || Cell::Text(formatter.use_line(one, source.worksheet), SMALL.bold());
    match one {
        Operation::Drill { site, step } => places::sheet(source, site, step)
            .map(|sheet| drill(source, (number, tick), (site, step), sheet))
            .unwrap_or_default(),
        Operation::Insert { site } => implants::row(source, (number, tick), site)
            .into_iter()
            .collect(),
        Operation::Punch { .. } => {
            let punches = places::accessories(source, AccessoryKind::Punch).collect();
            let line = formatter.use_line(one, source.worksheet);
            let words = [Some(line), lying(source, punches)];
            let words = formatter.joined("use-then", words.into_iter().flatten());
            let words = words.unwrap_or_default();
            vec![Row::Cells(begun(Cell::Text(words, SMALL.bold())))]
        }
        Operation::Pin { name } => vec![Row::Cells(pin(source, number, one, name))],
        Operation::Sound { sites } => {
            let limit = sounding_limit(source.case);
            let line = formatter.sound_below_line(sites, source.worksheet, limit);
            let line = Cell::Text(line, SMALL.bold());
            let mut rows = vec![Row::Barrier(begun(line))];
            rows.extend(sounded::row(source, sites));
            rows
        }
        Operation::Reseat | Operation::GuideOff => vec![Row::Barrier(begun(line()))],
    }
}

/// A pin's drill and the pin, their places, the depth of the drill and how it is run.
fn pin(source: &Source<'_>, number: usize, one: &Operation, name: &Label) -> Vec<Cell> {
    let formatter = &source.formatter;
    let items = places::of_pin(source, name);
    let sheet = source.worksheet.pins.iter().find(|pin| pin.name == *name);
    let actionable = sheet.map(Actionable::of_pin);
    let drill = sheet.and_then(|sheet| source.case.kit.drill(&sheet.drill));
    let is_known = actionable
        .as_ref()
        .is_some_and(|actionable| is_known(actionable, source));
    let named = pin_words(source, &items, name, sheet.filter(|_| is_known));
    let mut what = if let Some(words) = named {
        vec![Cell::Text(words, SMALL.bold())]
    } else {
        let words = formatter.use_line(one, source.worksheet);
        let line = Cell::Text(words, SMALL.bold());
        let lying = lying(source, items).map(|words| Cell::Text(words, SMALL));
        [line].into_iter().chain(lying).collect()
    };
    if !is_known {
        let banner = formatter.word("sheet-do-not-use");
        what.push(Cell::Text(banner, TextStyle::STRONG));
    }
    let limited = actionable
        .as_ref()
        .and_then(|actionable| limited_by(actionable, source));
    let running = drill.map(|drill| running_short(source, drill));
    let irrigation = drill.and_then(|drill| legend::other_irrigation(source, drill));
    what.extend(irrigation.map(|words| Cell::Text(words, SMALL.bold())));
    let beside: Vec<String> = [limited, running].into_iter().flatten().collect();
    vec![
        numbered(number, is_known, done::tick(source, one)),
        Cell::Across(4, Box::new(Cell::Stack(what))),
        actionable.as_ref().map_or(Cell::Empty, |actionable| {
            figure_in_form(actionable, source, set_width(source))
        }),
        // The last of the row has what is left of its width.
        Cell::Text(beside.join("\n"), SMALL),
    ]
}

/// How a pin is set in one sentence, its drill and the pin named with their slots; nothing where either is not there.
fn pin_words(
    source: &Source<'_>,
    items: &[&LoadItem],
    name: &Label,
    sheet: Option<&PinSheet>,
) -> Option<String> {
    let formatter = &source.formatter;
    let [drill, pin] = items[..] else {
        return None;
    };
    let until = match sheet?.mark {
        Some(_) => "sheet-pin-until-mark",
        None => "sheet-pin-until-stop",
    };
    let (drill, pin) = (places::named(source, drill), places::named(source, pin));
    let until = formatter.word(until);
    let args = [
        ("name", name.as_str()),
        ("drill", &drill),
        ("until", &until),
        ("pin", &pin),
    ];
    Some(formatter.text("sheet-pin-row", &args))
}

/// A step's number, after a box to tick where it can be done.
pub(super) fn numbered(number: usize, can_be_done: bool, tick: Tick) -> Cell {
    let number = Cell::Text(number.to_string(), SMALL);
    match tick {
        // By hand also what cannot be done as planned.
        Tick::Ticked => Cell::Beside(vec![tick_cell(tick), number]),
        Tick::Blank if can_be_done => Cell::Beside(vec![tick_cell(tick), number]),
        Tick::Blank | Tick::LeftOut => number,
    }
}

/// Things with their slots, on one line.
fn lying(source: &Source<'_>, items: Vec<&LoadItem>) -> Option<String> {
    let named = items.into_iter().map(|item| places::named(source, item));
    source.formatter.joined("load-list", named)
}

fn site_cell(source: &Source<'_>, site: &SiteId) -> Cell {
    Cell::Text(begin(&source.formatter.site(site)), SMALL)
}

pub(super) fn site_sheet<'a>(source: &Source<'a>, site: &SiteId) -> Option<&'a SiteSheet> {
    let sites = &source.worksheet.sites;
    sites.iter().find(|one| one.id == *site)
}

/// A step, and a row of its own for what follows it before the next.
fn drill(
    source: &Source<'_>,
    (number, tick): (usize, Tick),
    (site, step): (&SiteId, &StepId),
    sheet: &StepSheet,
) -> Vec<Row> {
    let formatter = &source.formatter;
    let item = places::of_step(source, site, step);
    let slot = item.map(|item| places::slot(source, item));
    let name = Cell::Text(formatter.drill(&sheet.drill), SMALL.bold());
    let marking = item.and_then(|item| engraved_small(&item.marking));
    let actionable = Actionable::of_step(sheet);
    let is_known = is_known(&actionable, source);
    let kit = &source.case.kit;
    let drill = kit.drills.iter().find(|drill| drill.id == sheet.drill);
    let running = drill.map(|drill| running_short(source, drill));
    let irrigation = drill.and_then(|drill| legend::other_irrigation(source, drill));
    let bench = sheet.bench.as_ref().filter(|_| is_known);
    let bench = bench.map(|bench| bench_figure(source, &bench.known_length()));
    let or_empty =
        |words: Option<String>, style| words.map_or(Cell::Empty, |words| Cell::Text(words, style));
    // What was decided on a step is read before it is done.
    let judged = judged::at_step(source, site, step);
    let mut rows = Vec::new();
    if !judged.is_empty() {
        rows.push(Row::Before(vec![Cell::Empty, Cell::Stack(judged)]));
    }
    rows.push(Row::Cells(vec![
        // Nothing to tick: it cannot be done.
        numbered(number, is_known, tick),
        site_cell(source, site),
        Cell::Beside(marking.into_iter().chain([name]).collect()),
        or_empty(slot, SMALL.bold()),
        sleeve_from(source, sheet),
        figure_in_form(&actionable, source, set_width(source)),
        site_sheet(source, site).map_or(Cell::Empty, |sheet| verdict_in_form(source, sheet)),
        or_empty(running, SMALL),
        or_empty(bench, SMALL.bold()),
    ]));
    if is_known {
        let irrigation = irrigation.map(|words| Cell::Text(words, SMALL.bold()));
        let words = how_deep(source, &actionable, sheet);
        let words = words.map(|words| Cell::Text(words, SMALL));
        rows.extend(beneath(irrigation.into_iter().chain(words).collect()));
    } else {
        let banner = formatter.word("sheet-do-not-use");
        let banner = Cell::Text(banner, TextStyle::STRONG);
        let elsewhere = misfit_elsewhere((site, step), source.worksheet).map(|finding| {
            let other = finding.site.as_ref();
            let other = other.map_or_else(String::new, |site| formatter.site(site));
            let what = formatter.finding(finding).headline;
            let args = [("site", other.as_str()), ("what", &what)];
            Cell::Text(formatter.text("sheet-misfit-elsewhere", &args), SMALL)
        });
        let words = [banner].into_iter().chain(elsewhere);
        rows.extend(beneath(words.collect()));
    }
    rows.extend(then::after(source, site, step).map(|then| {
        Row::After(vec![
            then.tick_by(done::tick_then(source, site, step)),
            site_cell(source, site),
            Cell::Text(then.words, SMALL.bold()),
        ])
    }));
    rows
}

/// How deep a step goes, what limits it and from where it counts, where its figure alone does not say so.
fn how_deep(source: &Source<'_>, actionable: &Actionable<'_>, sheet: &StepSheet) -> Option<String> {
    let formatter = &source.formatter;
    // To full depth goes what says nothing else.
    let depth = !matches!(sheet.depth, DepthRule::Full {});
    let depth = depth.then(|| formatter.depth_rule(&sheet.depth));
    // Of a mark it is in the words on its level.
    let by_stop = sheet.path == StepPath::Freehand && sheet.mark.is_none();
    let from = by_stop.then(|| formatter.word("sheet-from-crest"));
    let parts = [
        limited_by(actionable, source),
        depth,
        from,
        formatter.until_level(sheet),
    ];
    let all = formatter.joined("load-list", parts.into_iter().flatten())?;
    Some(begin(&all))
}

/// Words on a step, over the width that they need.
fn beneath(words: Vec<Cell>) -> Option<Row> {
    if words.is_empty() {
        return None;
    }
    Some(Row::After(vec![Cell::Empty, Cell::Stack(words)]))
}
