//! Places of things on the tray, so that they can be called out by their slots.

use super::Source;
use crate::kit::{AccessoryKind, Label, SiteId, SlotKind, StepId};
use crate::plan::{LoadItem, StepSheet};

/// The first thing of the loading list for which this is so.
fn first<'a>(source: &Source<'a>, wanted: impl Fn(&LoadItem) -> bool) -> Option<&'a LoadItem> {
    source.worksheet.loading.iter().find(|item| wanted(item))
}

/// The drill of a step at its setting.
pub(super) fn of_step<'a>(
    source: &Source<'a>,
    site: &SiteId,
    step: &StepId,
) -> Option<&'a LoadItem> {
    source.worksheet.drill_of(site, step)
}

/// The entry of the kit, the first of several pieces.
pub(super) fn of_entry<'a>(
    source: &Source<'a>,
    kind: SlotKind,
    entry: &str,
) -> Option<&'a LoadItem> {
    first(source, |item| item.kind == kind && item.entry == entry)
}

/// The item of this kind that serves a site.
pub(super) fn of_site<'a>(
    source: &Source<'a>,
    kind: SlotKind,
    site: &SiteId,
) -> Option<&'a LoadItem> {
    first(source, |item| {
        let mut served = item.serves.iter();
        item.kind == kind && served.any(|one| one.site.as_ref() == Some(site))
    })
}

/// The accessories of a kind.
pub(super) fn accessories<'a>(
    source: &Source<'a>,
    kind: AccessoryKind,
) -> impl Iterator<Item = &'a LoadItem> {
    let kit = &source.case.kit;
    source.worksheet.loading.iter().filter(move |item| {
        let entry = kit
            .accessories
            .iter()
            .find(|one| one.id.as_str() == item.entry);
        item.kind == SlotKind::Accessory && entry.is_some_and(|entry| entry.kind == kind)
    })
}

/// The pin of this name in the case and the drill that prepares it. Equal pins are taken in the
/// order of the case, which is that of the loading list.
pub(super) fn of_pin<'a>(source: &Source<'a>, name: &Label) -> Vec<&'a LoadItem> {
    let pins = &source.case.guide.pins;
    let Some(placed) = pins.iter().find(|pin| pin.name == *name) else {
        return Vec::new();
    };
    let equal = pins.iter().filter(|pin| pin.pin == placed.pin);
    let before = equal.take_while(|pin| pin.name != placed.name).count();
    let sheet = source.worksheet.pins.iter().find(|pin| pin.name == *name);
    let drill = sheet.and_then(|sheet| {
        let set = sheet.set.known_length();
        let set_anew = source.worksheet.resets.iter().map(|one| &one.to);
        let mut all = source.worksheet.loading.iter().chain(set_anew);
        all.find(|item| {
            let whole_case = item.serves.iter().any(|one| one.site.is_none());
            let on = item.set.as_ref().filter(|_| whole_case);
            on.is_some_and(|on| (&on.drill, &on.stop, &on.set) == (&sheet.drill, &sheet.stop, &set))
        })
    });
    let loading = source.worksheet.loading.iter();
    let mut same =
        loading.filter(|item| item.kind == SlotKind::Pin && item.entry == placed.pin.as_str());
    drill.into_iter().chain(same.nth(before)).collect()
}

/// "twist 3.1, slot A2", or that it has no slot.
pub(super) fn named(source: &Source<'_>, item: &LoadItem) -> String {
    let formatter = &source.formatter;
    let slot = slot(source, item);
    formatter.text(
        "sheet-lies-in",
        &[("name", &formatter.item(item)), ("slot", &slot)],
    )
}

/// The slot's name alone, or that there is none.
pub(super) fn slot(source: &Source<'_>, item: &LoadItem) -> String {
    match &item.slot {
        Some(slot) => slot.to_string(),
        None => source.formatter.without_slot(),
    }
}

/// The sheet of a step.
pub(super) fn sheet<'a>(
    source: &Source<'a>,
    site: &SiteId,
    step: &StepId,
) -> Option<&'a StepSheet> {
    let sites = &source.worksheet.sites;
    let site = sites.iter().find(|one| one.id == *site)?;
    site.steps.iter().find(|one| one.id == *step)
}
