//! What the wear of the drills of the open case is to their limits, by the kit at hand and its ledger.

use super::{Desk, Document};
use std::collections::BTreeSet;
use traywright_core::kit::DrillId;
use traywright_core::sign::{DrillKey, EventKind};
use traywright_core::wear::{NamedFor, WearVerdict, named_piece, piece_wear};
use traywright_core::wording::KitFormatter;

/// What is to be seen of a drill that is used so often on the day, and what its limit says; nothing within its limit, where the kit
/// gives none, or where the kit at hand is not the case's, whose copy has none.
pub(crate) fn worn(
    (desk, document): (&Desk, &Document),
    (key, uses): (&DrillKey, u64),
    of: NamedFor,
) -> Option<(String, WearVerdict)> {
    let own = &document.case().kit.id;
    let kit = desk.live_kit.as_ref().filter(|kit| kit.id == *own)?;
    let record = &document.record;
    let purpose = record.view.purpose;
    let named = named_piece(&record.events, purpose, key, of);
    let ledger = desk.wear.ledger.found();
    let drill = DrillId::from(key.drill.as_str());
    let piece = piece_wear(kit, ledger.counted(), (&drill, named.as_deref()));
    let texts = desk.texts;
    let say = KitFormatter { texts, kit };
    let words = say.wear_warning(&piece, uses, ledger.source())?;
    Some((words, piece.verdict(uses)))
}

/// Each drill that was used in this sitting and is not within its limit: what to discard, to send back or to look at, a line each. What
/// was used is in the count by then, or that is not known.
pub(crate) fn worn_out(desk: &Desk, document: &Document) -> Vec<String> {
    let day = document.record.standing.day.iter();
    let done = day
        .filter(|one| one.counts())
        .filter_map(|one| match &one.kind {
            EventKind::StepDone(done) => done.piece.as_ref(),
            _ => None,
        });
    let used: BTreeSet<&DrillKey> = done.collect();
    let lines = used.into_iter().filter_map(|key| {
        let (words, _) = worn((desk, document), (key, 0), NamedFor::Last)?;
        let case = document.formatter(desk.settings.notation);
        let copy = key.copy.to_string();
        let drill = case.drill(&DrillId::from(key.drill.as_str()));
        let args = [("drill", drill.as_str()), ("copy", &copy), ("wear", &words)];
        Some(desk.texts.get("wear-after-line", &args))
    });
    lines.collect()
}
