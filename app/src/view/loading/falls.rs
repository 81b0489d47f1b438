//! What fell: what to do about it, and what of a thing is left.

use super::session::off_the_tray;
use super::task::{Board, Task};
use crate::context::ViewContext;
use crate::desk::Document;
use traywright_core::kit::SlotKind;
use traywright_core::plan::{LoadItem, StockLine, Worksheet};
use traywright_core::sign::{EventKind, Fall, Piece, ThingKey};

/// The action after something fell: how many spares there are and which lies on the tray, and what
/// becomes of its stop.
pub(super) fn fell(
    cx: &ViewContext<'_>,
    document: &Document,
    (board, task): (&Board, &Task),
) -> Option<String> {
    let worksheet = document.worksheet();
    let item: &LoadItem = worksheet.loading.get(task.item)?;
    // What fell before is set aside already, and this is one more.
    let line = stock_of(item, worksheet);
    let spare = line.map_or(0, |line| line.have.saturating_sub(line.needed));
    let spare = spare.saturating_sub(fallen(&document.record.standing.fallen, item));
    let id = if spare == 0 {
        "loading-fell-no-spare"
    } else {
        "loading-fell-spare"
    };
    let name = &[("name", item.name.as_str())];
    let mut said = vec![cx.counted(id, &[("count", spare)], name)];
    if item.kind == SlotKind::Drill {
        let lies = board.spare_of(task).and_then(|spare| {
            let slot = cx.text("load-slot", &[("slot", spare.lies()?)]);
            let name = worksheet.loading.get(spare.item)?.name.as_str();
            Some(cx.text("load-one-of", &[("name", name), ("slot", &slot)]))
        });
        said.extend(lies.map(|spare| cx.text("loading-fell-spares", &[("spares", &spare)])));
        let stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
        let stop = stop.filter(|_| spare > 0);
        said.extend(stop.map(|_| cx.word("loading-fell-stop")));
    }
    Some(said.join(" "))
}

/// What is recorded where a thing falls: that it did and lies nowhere, nor does the spare that takes its place.
pub(super) fn effects_of(task: &Task, board: &Board) -> Vec<EventKind> {
    let piece = task.thing.piece();
    let purpose = Some(board.purpose);
    let off = |task: &Task| off_the_tray(task, board.purpose);
    let taken = [off(task), board.spare_of(task).and_then(off)];
    let fell = std::iter::once(EventKind::Dropped { piece, purpose });
    fell.chain(taken.into_iter().flatten()).collect()
}

/// Number of pieces of a thing that fell by the record. Of a drill without a known setting older programs recorded
/// the name alone.
fn fallen(falls: &[Fall], item: &LoadItem) -> u32 {
    let fallen = falls.iter().filter(|fall| match &fall.piece {
        Piece::Drill(drill) => item.kind == SlotKind::Drill && drill.drill == item.entry,
        Piece::Thing(fallen) => (fallen.of, &fallen.entry) == (item.kind, &item.entry),
        Piece::Other(name) => *name == item.entry,
        Piece::Gauge(_) => false,
    });
    u32::try_from(fallen.filter(|fall| fall.counts()).count()).unwrap_or(u32::MAX)
}

/// The last fall of a thing that was not taken back.
pub(super) fn last_fall<'a>(thing: &ThingKey, falls: &'a [Fall]) -> Option<&'a Fall> {
    let of_thing = |fall: &&Fall| match &fall.piece {
        Piece::Drill(drill) => {
            thing.of == SlotKind::Drill && (&drill.drill, drill.copy) == (&thing.entry, thing.copy)
        }
        Piece::Thing(fallen) => (fallen.of, &fallen.entry) == (thing.of, &thing.entry),
        Piece::Other(name) => *name == thing.entry,
        Piece::Gauge(_) => false,
    };
    falls.iter().filter(|fall| fall.counts()).rfind(of_thing)
}

/// Number of pieces of a thing that are left where some fell; nothing where none did.
fn left_of(item: &LoadItem, worksheet: &Worksheet, falls: &[Fall]) -> Option<u32> {
    let fallen = fallen(falls, item);
    let have = stock_of(item, worksheet).map_or(0, |line| line.have);
    (fallen > 0).then(|| have.saturating_sub(fallen))
}

fn stock_of<'a>(item: &LoadItem, worksheet: &'a Worksheet) -> Option<&'a StockLine> {
    let list = item.kind.list();
    let mut stock = worksheet.stock.iter();
    stock.find(|line| line.entry == item.entry && line.list == list)
}

/// True if two things are alike, so that one does for the other.
fn is_same(one: &LoadItem, other: &LoadItem) -> bool {
    (one.kind, &one.entry) == (other.kind, &other.entry)
}

/// Marks what fell and cannot be replaced: of what is left of its kind each piece is there already, in
/// a hand or on the tray.
pub(super) fn mark_what_lacks(tasks: &mut [Task], worksheet: &Worksheet, falls: &[Fall]) {
    let there = |item: usize| {
        let mut turns = tasks.iter().filter(|task| task.item == item);
        turns.any(Task::is_there)
    };
    let there: Vec<bool> = (0..worksheet.loading.len()).map(there).collect();
    let lacks = |item: usize| {
        let of = &worksheet.loading[item];
        let same = worksheet.loading.iter().zip(&there);
        let same = same.filter(|(one, there)| **there && is_same(one, of));
        let used = u32::try_from(same.count()).unwrap_or(u32::MAX);
        !there[item] && left_of(of, worksheet, falls).is_some_and(|left| used >= left)
    };
    let lacks: Vec<bool> = (0..there.len()).map(lacks).collect();
    for task in tasks {
        task.none_left = lacks[task.item];
    }
}

/// Things of which fewer are left than the tray wants, because some fell; each kind once, with how many are lacking.
pub(super) fn none_left<'a>(worksheet: &'a Worksheet, falls: &[Fall]) -> Vec<(&'a LoadItem, u32)> {
    let mut found: Vec<(&LoadItem, u32)> = Vec::new();
    for item in &worksheet.loading {
        let wanted = worksheet.loading.iter().filter(|one| is_same(one, item));
        let wanted = u32::try_from(wanted.count()).unwrap_or(u32::MAX);
        let left = left_of(item, worksheet, falls);
        let lacking = left.map_or(0, |left| wanted.saturating_sub(left));
        if lacking > 0 && !found.iter().any(|(one, _)| is_same(one, item)) {
            found.push((item, lacking));
        }
    }
    found
}
