//! What fell: what to do about it, and what of a thing is left.

use super::session::off_the_tray;
use super::task::{Board, Task, Unasked};
use crate::desk::Document;
use traywright_core::kit::SlotKind;
use traywright_core::plan::{LoadItem, Worksheet, fallen, is_same, left_of, stock_of};
use traywright_core::sign::{EventKind, Fall, ThingKey};
use traywright_core::text::Texts;

/// The action after something fell: how many spares there are and which lies on the tray, and what
/// becomes of its stop.
pub(in crate::view) fn fell(
    texts: &Texts,
    document: &Document,
    (board, task): (&Board, &Task),
) -> Option<String> {
    let worksheet = document.worksheet();
    let item: &LoadItem = worksheet.loading.get(task.item)?;
    // What fell before is set aside already, and this is one more.
    let line = stock_of(item, worksheet);
    let spare = line.map_or(0, |line| line.have.saturating_sub(line.needed));
    let spare = spare.saturating_sub(fallen(item, &document.record.standing.fallen));
    let id = if spare == 0 {
        "loading-fell-no-spare"
    } else {
        "loading-fell-spare"
    };
    let name = &[("name", item.name.as_str())];
    let mut said = vec![texts.counted(id, &[("count", spare)], name)];
    if item.kind == SlotKind::Drill {
        let lies = board.spare_of(task).and_then(|spare| {
            let slot = texts.get("load-slot", &[("slot", spare.lies()?)]);
            let name = worksheet.loading.get(spare.item)?.name.as_str();
            Some(texts.get("load-one-of", &[("name", name), ("slot", &slot)]))
        });
        said.extend(lies.map(|spare| texts.get("loading-fell-spares", &[("spares", &spare)])));
        let stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
        let stop = stop.filter(|_| spare > 0);
        said.extend(stop.map(|_| texts.get("loading-fell-stop", &[])));
    }
    Some(said.join(" "))
}

/// What is recorded where a thing falls: that it did and lies nowhere, nor does the spare that takes its place.
pub(in crate::view) fn effects_of(task: &Task, board: &Board) -> Vec<EventKind> {
    let piece = task.thing.piece();
    let purpose = Some(board.purpose);
    let off = |task: &Task| off_the_tray(task, board.purpose);
    let taken = [off(task), board.spare_of(task).and_then(off)];
    let fell = std::iter::once(EventKind::Dropped { piece, purpose });
    fell.chain(taken.into_iter().flatten()).collect()
}

/// The last fall of a thing that was not taken back.
pub(super) fn last_fall<'a>(thing: &ThingKey, falls: &'a [Fall]) -> Option<&'a Fall> {
    let counting = falls.iter().filter(|fall| fall.counts());
    counting.rev().find(|fall| fall.may_be(thing))
}

/// Marks the spares of the tray that took the place of what fell: as many as fell, of those that lie nowhere.
pub(super) fn mark_used_spares(tasks: &mut [Task], falls: &[Fall]) {
    let is_spare_for = |item: usize, fall: &Fall| {
        let mut of = tasks.iter().filter(|task| task.spares.contains(&item));
        of.any(|task| fall.piece == task.thing.piece())
    };
    let items: Vec<usize> = tasks.iter().map(|task| task.item).collect();
    let mut used: Vec<usize> = Vec::new();
    let mut left: Vec<&Fall> = falls.iter().filter(|fall| fall.counts()).collect();
    for (index, item) in items.into_iter().enumerate() {
        if tasks[index].lies().is_some() {
            continue;
        }
        if let Some(at) = left.iter().position(|fall| is_spare_for(item, fall)) {
            left.remove(at);
            used.push(index);
        }
    }
    for index in used {
        tasks[index].unasked = Some(Unasked::TookAPlace);
    }
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
