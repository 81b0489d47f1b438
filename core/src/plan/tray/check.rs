//! Findings on the tray: look-alikes side by side, and places that are not followed.

use super::alike::are_alike;
use super::beside::are_beside;
use super::by_hand::followed;
use crate::case::{Case, Place, Rule};
use crate::kit::TraySlot;
use crate::plan::finding::argument::Argument;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::stock::actionable::Actionable;
use crate::plan::stock::loading::LoadItem;

/// Two look-alikes that are side by side, by their places in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SideBySide {
    /// The one that is loaded first.
    pub one: usize,
    /// The other.
    pub other: usize,
}

/// The look-alikes that are side by side, in the order of loading.
#[must_use]
pub fn side_by_side(case: &Case, items: &[LoadItem]) -> Vec<SideBySide> {
    let slots = case.tray_slots();
    let laid: Vec<Option<&TraySlot>> = items
        .iter()
        .map(|item| {
            slots
                .iter()
                .find(|slot| item.slot.as_ref() == Some(&slot.name))
        })
        .collect();
    let pairs = (0..items.len()).flat_map(|one| (one + 1..items.len()).map(move |n| (one, n)));
    let found = pairs.filter(|&(one, other)| {
        are_alike(&items[one], &items[other])
            && matches!((laid[one], laid[other]), (Some(a), Some(b)) if are_beside(a, b))
    });
    found
        .map(|(one, other)| SideBySide { one, other })
        .collect()
}

/// Reports look-alikes side by side, and chosen places that are not followed.
pub(in crate::plan) fn check(case: &Case, items: &[LoadItem], findings: &mut Vec<Finding>) {
    if case.setup.tray.is_none() {
        return;
    }
    let name = |item: &LoadItem| {
        item.slot
            .as_ref()
            .map(ToString::to_string)
            .unwrap_or_default()
    };
    for SideBySide { one, other } in side_by_side(case, items) {
        let (one, other) = (&items[one], &items[other]);
        let slot = |item: &LoadItem| item.slot.clone().unwrap_or_else(|| "".into());
        let path = Place::SideBySide(slot(one), slot(other));
        findings.push(
            Finding::new(Rule::LookAlikesSideBySide, path)
                .verdict(Verdict::Note)
                .arg("name", &one.name)
                .arg("slot", name(one))
                .arg("set", figure(case, one))
                .arg("beside", &other.name)
                .arg("beside_slot", name(other))
                .arg("beside_set", figure(case, other)),
        );
    }
    let things = followed(&case.tray_places, items);
    for (place, thing) in case.tray_places.iter().zip(things) {
        if thing.is_some() {
            continue;
        }
        let now = items.iter().find(|item| item.is_held(&place.holds));
        findings.push(
            Finding::new(
                Rule::TrayPlaceDoesNotFit,
                Place::TrayPlace(place.slot.clone()),
            )
            .verdict(Verdict::Note)
            .arg("slot", &place.slot)
            .arg("name", now.map_or("none", |item| item.name.as_str()))
            .arg("now", now.map_or_else(|| "none".to_owned(), name)),
        );
    }
}

/// The figure to act on; `unknown` where nobody knows it, `none` for what is not set.
fn figure(case: &Case, item: &LoadItem) -> Argument {
    match Actionable::of_item(item) {
        None => "none".into(),
        Some(actionable) => match actionable.figure(&case.kit).large() {
            None => "unknown".into(),
            Some(figure) => Argument::Setting(figure),
        },
    }
}
