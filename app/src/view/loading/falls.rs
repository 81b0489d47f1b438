//! What fell: what to do about it, and what of a thing is left.

use crate::context::ViewContext;
use crate::desk::Document;
use traywright_core::kit::SlotKind;
use traywright_core::plan::LoadItem;
use traywright_core::sign::{EventKind, Piece};

/// The action after something fell: how many spares there are and which are on the tray, and what
/// becomes of its stop.
pub(super) fn fell(cx: &ViewContext<'_>, document: &Document, index: usize) -> Option<String> {
    let worksheet = document.worksheet();
    let item: &LoadItem = worksheet.loading.get(index)?;
    let stock = worksheet.stock.iter();
    let mut same = stock.filter(|line| line.entry == item.entry && list_of(item.kind) == line.list);
    // What fell before is set aside already.
    let fallen = fallen(document, item);
    let spare = same.next().map_or(0, |line| {
        let left = line.have.saturating_sub(line.needed);
        left.saturating_sub(fallen)
    });
    let id = if spare == 0 {
        "loading-fell-no-spare"
    } else {
        "loading-fell-spare"
    };
    let name = &[("name", item.name.as_str())];
    let mut said = vec![cx.counted(id, &[("count", spare)], name)];
    if item.kind == SlotKind::Drill {
        let formatter = document.formatter(cx.desk.settings.notation);
        let spares = formatter.spares_of(item, worksheet);
        said.extend(spares.map(|spares| cx.text("loading-fell-spares", &[("spares", &spares)])));
        let stop = item.set.as_ref().and_then(|on| on.stop.as_ref());
        let stop = stop.filter(|_| spare > 0);
        said.extend(stop.map(|_| cx.word("loading-fell-stop")));
    }
    Some(said.join(" "))
}

/// Number of pieces of a thing that fell by the record.
fn fallen(document: &Document, item: &LoadItem) -> u32 {
    let events = document.record.events.in_order().into_iter();
    let fallen = events.filter(|event| match &event.kind {
        EventKind::Dropped {
            piece: Piece::Drill(drill),
        } => item.kind == SlotKind::Drill && drill.drill == item.entry,
        EventKind::Dropped {
            piece: Piece::Other(name),
        } => item.kind != SlotKind::Drill && *name == item.entry,
        _ => false,
    });
    u32::try_from(fallen.count()).unwrap_or(u32::MAX)
}

/// Things of which more fell than there are spares, each once.
pub(super) fn none_left(document: &Document) -> Vec<&LoadItem> {
    let worksheet = document.worksheet();
    let mut found: Vec<&LoadItem> = Vec::new();
    for item in &worksheet.loading {
        let mut stock = worksheet.stock.iter();
        let line = stock.find(|line| line.entry == item.entry && list_of(item.kind) == line.list);
        let spare = line.map_or(0, |line| line.have.saturating_sub(line.needed));
        let same = |one: &&LoadItem| (one.kind, &one.entry) == (item.kind, &item.entry);
        if fallen(document, item) > spare && !found.iter().any(same) {
            found.push(item);
        }
    }
    found
}

/// The kit's list of a kind of thing.
const fn list_of(kind: SlotKind) -> &'static str {
    match kind {
        SlotKind::Drill => "drills",
        SlotKind::Sleeve => "drill_sleeves",
        SlotKind::Implant => "implants",
        SlotKind::Carrier => "carriers",
        SlotKind::Driver => "drivers",
        SlotKind::Pin => "pins",
        SlotKind::Accessory => "accessories",
    }
}
