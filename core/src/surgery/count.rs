//! What is counted in and out.

use crate::case::ValidCase;
use crate::kit::{AccessoryKind, Label, SlotKind};
use crate::plan::Worksheet;

/// A sort of things that are counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CountKind {
    /// The guide.
    Guide,
    /// The gauge.
    Gauge,
    /// Stops on drills.
    Stops,
    /// Drills, in a wrapping or not.
    Drills,
    /// Drill sleeves.
    Sleeves,
    /// Fixation pins.
    Pins,
    /// Carriers.
    Carriers,
    /// Drivers.
    Drivers,
    /// Keys that lock a stop.
    LockKeys,
    /// Tethers.
    Tethers,
    /// Throat packs.
    ThroatPacks,
    /// Another thing of the kit, by its name.
    Other(Label),
}

/// A sort of things with the number that there should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountWanted {
    /// The sort.
    pub kind: CountKind,
    /// The number.
    pub wanted: u32,
}

/// Everything that is counted, with its number by the plan. What is lost most easily is asked for even where the kit has
/// none.
pub(super) fn wanted(case: &ValidCase, worksheet: &Worksheet) -> Vec<CountWanted> {
    let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let of_kind = |kind: SlotKind| {
        let items = worksheet.loading.iter().filter(|item| item.kind == kind);
        number(items.count())
    };
    let on_drills = worksheet
        .loading
        .iter()
        .filter_map(|item| item.set.as_ref());
    let stops = number(on_drills.filter(|on| on.stop.is_some()).count());
    let accessories = |kind: AccessoryKind| {
        let all = case.kit.accessories.iter().filter(|one| one.kind == kind);
        all.map(|one| one.wanted).sum::<u32>()
    };
    let guided = worksheet
        .sites
        .iter()
        .any(|site| site.sounding.is_some() || site.insertion.is_some());
    let always = [
        (CountKind::Guide, u32::from(guided)),
        (CountKind::Gauge, u32::from(case.setup.gauge.is_some())),
        (CountKind::Stops, stops),
        (CountKind::Drills, of_kind(SlotKind::Drill)),
        (CountKind::Sleeves, of_kind(SlotKind::Sleeve)),
        (CountKind::Pins, of_kind(SlotKind::Pin)),
        (CountKind::Carriers, of_kind(SlotKind::Carrier)),
        (CountKind::Drivers, of_kind(SlotKind::Driver)),
        (CountKind::LockKeys, accessories(AccessoryKind::LockKey)),
        (CountKind::Tethers, accessories(AccessoryKind::Tether)),
        (
            CountKind::ThroatPacks,
            accessories(AccessoryKind::ThroatPack),
        ),
    ];
    let lost_easily = |kind: &CountKind| {
        matches!(
            kind,
            CountKind::LockKeys | CountKind::Tethers | CountKind::ThroatPacks
        )
    };
    let always = always
        .into_iter()
        .filter(|(kind, wanted)| *wanted > 0 || lost_easily(kind));
    let others = case.kit.accessories.iter().filter(|one| {
        let is_counted = matches!(
            one.kind,
            AccessoryKind::TorqueWrench | AccessoryKind::Punch | AccessoryKind::Other
        );
        let mut loaded = worksheet.loading.iter();
        let entry = one.id.as_str();
        is_counted && loaded.any(|item| item.kind == SlotKind::Accessory && item.entry == entry)
    });
    let others = others.map(|one| (CountKind::Other(one.name.clone()), one.wanted));
    always
        .chain(others)
        .map(|(kind, wanted)| CountWanted { kind, wanted })
        .collect()
}
