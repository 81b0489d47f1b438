//! The drills with their settings as they were loaded by the record: what was read of each, or what became of it.

use super::Source;
use super::loading::{
    BOX, do_not_use, first_cells, in_sections, is_laid_unset, is_to_use, lay_unset, setting_columns,
};
use super::pieces::{SMALL, column};
use super::recorded::{Away, IsSet, RecordedItem, RecordedReading, beside};
use crate::drawing::{Across, TextStyle};
use crate::kit::DrillId;
use crate::plan::{self, Actionable, ActionableFigure, Known, LoadItem};
use crate::sheet::{Block, Cell, Row, Table, Width, short_line};
use crate::sign::{Objection, Stage};

/// The same with what was read, by whom and when, and one line for who closes the record.
pub(super) fn blocks(source: &Source<'_>, items: &[&LoadItem], room_mm: f64) -> Vec<Block> {
    let formatter = &source.formatter;
    let head = |id: &str, width, align| column(formatter.word(id), width, align);
    let mut columns = setting_columns(source);
    columns.extend([
        head("sheet-col-first-read", Width::Mm(36.0), Across::Start),
        head("sheet-col-second-read", Width::Mm(36.0), Across::Start),
    ]);
    let all = lines(source, items);
    let each = items.iter().zip(&all.lines);
    let each = each.map(|(item, line)| (*item, vec![read_row(source, item, line)]));
    let rows = in_sections(source, each, "sheet-open-read");
    let mut blocks = vec![Block::Table(Table {
        columns,
        rows,
        padding_mm: room_mm * 0.6,
        gap_mm: 1.6,
    })];
    blocks.extend(not_planned(source, &all.others));
    blocks.extend([
        Block::Space(2.0),
        Block::Picture(short_line(80.0, &formatter.word("sheet-closed-by"))),
        Block::Space(2.0),
    ]);
    blocks
}

/// What the record has of each line of the table, and what is in none.
struct Lines<'a> {
    lines: Vec<Line<'a>>,
    others: Vec<&'a (DrillId, Option<String>)>,
}

/// What the record has of a line.
struct Line<'a> {
    found: Option<&'a RecordedItem>,
    /// What lies there or is set of a drill whose setting is not known.
    unknown: Option<&'a (DrillId, Option<String>)>,
    /// Of what fell nothing is left to take.
    none_left: bool,
}

fn lines<'a>(source: &Source<'a>, items: &[&LoadItem]) -> Lines<'a> {
    let found = beside(&source.signed.readings, items);
    let mut others: Vec<&(DrillId, Option<String>)> = source.signed.not_planned.iter().collect();
    let is_known = |item: &LoadItem| item.set.as_ref().is_some_and(|on| on.set.get().is_some());
    let unknown = items.iter().map(|item| {
        let is_it = |(drill, _): &&(DrillId, Option<String>)| drill.as_str() == item.entry;
        let at = others.iter().position(is_it).filter(|_| !is_known(item))?;
        Some(others.remove(at))
    });
    let unknown: Vec<_> = unknown.collect();
    let used = |entry: &str| {
        let there = |one: &RecordedItem| one.is_there || one.lies.is_some();
        let here = items.iter().zip(&found).zip(&unknown);
        let here = here.filter(|((item, found), unknown)| {
            item.entry == entry && (unknown.is_some() || found.is_some_and(there))
        });
        u32::try_from(here.count()).unwrap_or(u32::MAX)
    };
    let none_left = |item: &LoadItem| {
        let left = plan::left_of(item, source.worksheet, &source.signed.fallen);
        left.is_some_and(|left| used(&item.entry) >= left)
    };
    let each = items.iter().zip(&found).zip(&unknown);
    let lines = each.map(|((item, found), unknown)| Line {
        found: *found,
        unknown: *unknown,
        none_left: none_left(item),
    });
    Lines {
        lines: lines.collect(),
        others,
    }
}

/// What by the record lies there or is set, and is in no line of the table.
fn not_planned(source: &Source<'_>, others: &[&(DrillId, Option<String>)]) -> Option<Block> {
    let formatter = &source.formatter;
    let others = others.iter().map(|(drill, slot)| {
        let name = formatter.drill(drill);
        match slot {
            Some(slot) => {
                let args = [("name", name.as_str()), ("slot", slot.as_str())];
                formatter.text("loading-wrong-in", &args)
            }
            None => name,
        }
    });
    let drills = formatter.joined("load-list", others)?;
    let words = formatter.text("sheet-recorded-not-planned", &[("drills", &drills)]);
    Some(Block::Paragraph(words, TextStyle::STRONG))
}

/// A drill with what was read of it. What stays sealed and was not read has boxes for when it is opened.
fn read_row(source: &Source<'_>, item: &LoadItem, line: &Line<'_>) -> Row {
    let actionable = Actionable::of_item(item);
    let mut cells = first_cells(source, item, actionable.as_ref());
    let found = line.found;
    if is_laid_unset(source, item) {
        cells.push(Cell::Across(2, Box::new(unset_words(source, item, line))));
        return Row::Cells(cells);
    }
    if !is_to_use(actionable.as_ref(), source) {
        let mut words = vec![do_not_use(source)];
        let is_there = found.is_some_and(|found| found.is_there) || line.unknown.is_some();
        let lies = found.is_some_and(|found| found.lies.is_some());
        // In its wrapping it may lie, and is set once the gauge's figure is known.
        let figure = actionable.map(|one| one.figure(&source.case.kit));
        let waits = item.unopened && matches!(figure, Some(ActionableFigure::NotOnGauge { .. }));
        if is_there || lies && !waits {
            words.push(take_off(source, line));
        }
        cells.push(Cell::Across(2, Box::new(Cell::Stack(words))));
        return Row::Cells(cells);
    }
    if !actionable.as_ref().is_some_and(Actionable::is_read) {
        let fell = found.and_then(|found| found.away(item));
        if let Some(away @ Away::Fell) = fell {
            let words = away_words(source, item, (away, true), line.none_left);
            cells.push(Cell::Across(2, Box::new(Cell::Text(words, SMALL.bold()))));
        }
        return Row::Cells(cells);
    }
    let first = found.and_then(|found| found.first.as_ref());
    let second = found.and_then(|found| found.second.as_ref());
    let away = found.and_then(|found| found.away(item));
    let again = found.is_some_and(|found| found.is_to_read(item));
    let away = away.map(|away| away_words(source, item, (away, again), line.none_left));
    let away = away.map(|words| Cell::Text(words, SMALL.bold()));
    match (away, [first, second]) {
        // In its wrapping it is still to be read when it is opened.
        (Some(words), [None, None]) if item.unopened => {
            let first = Cell::Stack(vec![words, Cell::WriteBox(BOX)]);
            cells.extend([first, Cell::WriteBox(BOX)]);
        }
        (Some(words), _) => cells.push(Cell::Across(2, Box::new(words))),
        (None, both) => {
            let not_verified = found.is_some_and(|found| !found.verified);
            cells.extend(both.map(|reading| match reading {
                None if item.unopened => Cell::WriteBox(BOX),
                _ => reading_cell(source, reading),
            }));
            if let Some(aloud) = found.and_then(|found| found.aloud.as_ref())
                && let Some(Cell::Stack(last)) = cells.last_mut()
            {
                last.extend(aloud_cells(source, aloud));
            }
            let accepted = |one: Option<&RecordedReading>| {
                one.is_some_and(|reading| reading.against.is_empty())
            };
            // Each by itself is right, and together they are not what is asked for.
            let aloud = found.and_then(|found| found.aloud.as_ref());
            if not_verified
                && both.into_iter().all(accepted)
                && aloud.is_none_or(|aloud| aloud.against.is_empty())
                && let Some(Cell::Stack(last)) = cells.last_mut()
            {
                let words = source.formatter.word("sheet-recorded-not-verified");
                last.push(Cell::Text(words, SMALL.bold()));
            }
        }
    }
    Row::Cells(cells)
}

/// The words on a drill that is to be laid unset: what it is otherwise by the record goes before.
fn unset_words(source: &Source<'_>, item: &LoadItem, line: &Line<'_>) -> Cell {
    let formatter = &source.formatter;
    let away = line.found.and_then(|found| found.away(item));
    let is_there = line.found.is_some_and(|found| found.is_there);
    let words = match away {
        Some(away @ (Away::Fell | Away::Set(IsSet::Anew))) => {
            away_words(source, item, (away, false), line.none_left)
        }
        _ if is_there => return take_off(source, line),
        Some(Away::Set(IsSet::Told)) => formatter.word("sheet-recorded-told-unset"),
        Some(away @ Away::Elsewhere(_)) => away_words(source, item, (away, false), false),
        _ => return lay_unset(source),
    };
    Cell::Text(words, SMALL.bold())
}

/// The words on a drill that lies there or is set by the record and is not to be.
fn take_off(source: &Source<'_>, line: &Line<'_>) -> Cell {
    let lies = line.found.and_then(|found| found.lies.as_deref());
    let lies = lies.or_else(|| line.unknown?.1.as_deref());
    let words = match lies {
        Some(lies) => source
            .formatter
            .text("sheet-recorded-off", &[("lies", lies)]),
        None => source.formatter.word("sheet-recorded-off-nowhere"),
    };
    Cell::Text(words, SMALL.bold())
}

/// What was read aloud in the sterile field after two readings on the bench.
fn aloud_cells(source: &Source<'_>, aloud: &RecordedReading) -> Vec<Cell> {
    let value = source.formatter.set_length(&Known::Is(aloud.value));
    let words = source
        .formatter
        .text("sheet-recorded-aloud", &[("value", &value)]);
    let mut cells = vec![Cell::Text(words, SMALL)];
    cells.extend(who_and_against(source, aloud));
    cells
}

/// The words on a drill that by the record is not where, or not set as, the plan has it, and whether it is to be read.
fn away_words(
    source: &Source<'_>,
    item: &LoadItem,
    (away, again): (Away<'_>, bool),
    none_left: bool,
) -> String {
    let formatter = &source.formatter;
    match away {
        Away::Fell if none_left => formatter.word("sheet-recorded-fell-none"),
        Away::Fell => formatter.word("sheet-recorded-fell"),
        Away::NotLaid => formatter.word("sheet-recorded-not-laid"),
        Away::Elsewhere(lies) => {
            let slot = item.slot.as_ref().map(|slot| slot.as_str());
            let args = [("lies", lies), ("slot", slot.unwrap_or_default())];
            match slot {
                Some(_) if again => formatter.text("sheet-recorded-elsewhere-read", &args),
                Some(_) => formatter.text("sheet-recorded-elsewhere", &args),
                None => formatter.text("sheet-recorded-in", &[args[0]]),
            }
        }
        Away::Nowhere if again => formatter.word("sheet-recorded-nowhere-read"),
        Away::Nowhere => formatter.word("sheet-recorded-nowhere"),
        Away::Set(IsSet::Anew) => formatter.word("sheet-recorded-anew"),
        Away::Set(IsSet::Told) => formatter.word("sheet-recorded-told"),
        Away::Set(IsSet::Instrument) => formatter.word("sheet-recorded-instrument"),
        Away::Set(IsSet::Unknown) => formatter.word("sheet-recorded-fall-taken-back"),
        Away::Set(IsSet::Otherwise | IsSet::AsPlanned) => {
            formatter.word("sheet-recorded-otherwise")
        }
    }
}

/// A reading with stage, name and time, or that there is none.
fn reading_cell(source: &Source<'_>, reading: Option<&RecordedReading>) -> Cell {
    let formatter = &source.formatter;
    let Some(reading) = reading else {
        return Cell::Text(formatter.word("sheet-not-recorded"), SMALL.bold());
    };
    let value = formatter.set_length(&Known::Is(reading.value));
    let figure = if reading.against.is_empty() {
        TextStyle::STRONG
    } else {
        SMALL
    };
    let mut cells = vec![Cell::Text(value, figure)];
    cells.extend(who_and_against(source, reading));
    Cell::Stack(cells)
}

/// Who took a reading and when, and what speaks against it.
fn who_and_against(source: &Source<'_>, reading: &RecordedReading) -> Vec<Cell> {
    let formatter = &source.formatter;
    let at = reading.at.strftime("%Y-%m-%d %H:%M").to_string();
    let id = match reading.stage {
        Stage::Bench => "sheet-read-on-bench",
        Stage::SterileField => "sheet-read-in-field",
        Stage::AfterUse => "sheet-read-after-use",
    };
    let args = [("who", reading.who.as_str()), ("at", at.as_str())];
    let mut cells = vec![Cell::Text(formatter.text(id, &args), SMALL)];
    cells.extend(reading.against.iter().map(|one| {
        let id = match one {
            Objection::GaugeFoundOff { .. } => "sheet-recorded-doubt",
            _ => "sheet-recorded-refused",
        };
        let why = formatter.message(&one.message());
        Cell::Text(formatter.text(id, &[("why", &why)]), SMALL.bold())
    }));
    cells
}
