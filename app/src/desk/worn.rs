//! What the wear of the drills of the open case is to their limits, by the kit at hand and its ledger.

use super::{Desk, Document};
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::kit::DrillId;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{DrillKey, EventKind, StepKey};
use traywright_core::wear::{NamedFor, named_piece, piece_wear, wear_of};
use traywright_core::wording::KitFormatter;

/// What is to be seen of a drill that has so many uses on the open day of the case, done and to come; nothing within its limit, where the
/// kit gives none, or where the kit at hand is not the case's, whose copy has none.
pub(crate) fn worn(
    (desk, document): (&Desk, &Document),
    (key, uses): (&DrillKey, u64),
    of: NamedFor,
) -> Option<String> {
    let case = document.case();
    let kit = desk.live_kit.as_ref().filter(|kit| kit.id == case.kit.id)?;
    let record = &document.record;
    let named = named_piece(&record.events, record.view.purpose, key, of);
    let ledger = desk.wear.ledger.found();
    let counted = ledger.counted();
    let counted = counted.map(|all| all.without_day_of(&case_jaw(case)));
    let drill = DrillId::from(key.drill.as_str());
    let piece = piece_wear(kit, counted.as_ref(), (&drill, named.as_deref()));
    let texts = desk.texts;
    KitFormatter { texts, kit }.wear_warning(&piece, uses, ledger.source())
}

/// Each drill that was used in this sitting and is not within its limit: what to discard, to send back or to look at, a line each.
pub(crate) fn worn_out(desk: &Desk, document: &Document) -> Vec<String> {
    let record = &document.record;
    let mut used: BTreeMap<&DrillKey, BTreeSet<&str>> = BTreeMap::new();
    for one in record.standing.day.iter().filter(|one| one.counts()) {
        let EventKind::StepDone(done) = &one.kind else {
            continue;
        };
        let place = match &done.step {
            StepKey::Drill { site, .. } => site.site.as_str(),
            StepKey::Pin { pin, .. } => pin.as_str(),
            _ => continue,
        };
        if let Some(piece) = &done.piece {
            used.entry(piece).or_default().insert(place);
        }
    }
    let counts = is_counted(desk, document);
    let case = document.formatter(desk.settings.notation);
    let lines = used.into_iter().filter_map(|(key, places)| {
        let uses = if counts { 0 } else { places.len() as u64 };
        let words = worn((desk, document), (key, uses), NamedFor::Last)?;
        let copy = key.copy.to_string();
        let drill = case.drill(&DrillId::from(key.drill.as_str()));
        let args = [("drill", drill.as_str()), ("copy", &copy), ("wear", &words)];
        Some(desk.texts.get("wear-after-line", &args))
    });
    lines.collect()
}

/// True once the ledger holds this sitting of the case as closed: what it used is to be added no more. A day that is closed by its
/// record and not in the ledger, whatever kept it from there, is counted here.
fn is_counted(desk: &Desk, document: &Document) -> bool {
    let record = &document.record;
    let Some(case) = wear_of(&record.events, record.view.purpose) else {
        return false;
    };
    let counted = desk.wear.ledger.found().counted();
    counted.is_some_and(|all| all.has_last_of(&case))
}
