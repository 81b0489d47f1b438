//! The loading list: things for the tray in the order in which they are loaded, each with its slot,
//! and the settings set anew in surgery.

use crate::case::Case;
use crate::kit::{
    Accessory, AccessoryKind, DrillId, Label, Marking, Pin, SiteId, SlotKind, StepId, StopId,
};
use crate::measure::Length;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::fits::Fits;
use crate::plan::depth::setting::MarkEdge;
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Known};
use crate::plan::fit::pins::{self, PinSheet};
use crate::plan::order::holding::holding_by_default;
use crate::plan::order::operations::{Operation, to_punch};
use crate::plan::stock::pieces::{Piece, PieceSetting};
use std::collections::BTreeMap;

/// One physical thing to be laid in the tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadItem {
    /// The kind of thing.
    pub kind: SlotKind,
    /// Its id in the kit.
    pub entry: String,
    /// Ordinal among the equal items of this list, from 1. It is no piece: which one carries which
    /// setting is not planned.
    pub copy: u32,
    /// Name for people.
    pub name: Label,
    /// Its marking.
    pub marking: Marking,
    /// The setting on it, where it is a drill with a stop or mark.
    pub set: Option<DrillSetup>,
    /// The steps or sites that it serves.
    pub serves: Vec<ServedPlace>,
    /// Names in the case of the fixation pins that it drills for.
    pub pins: Vec<Label>,
    /// Stays unopened until it is called for: implants and single-use drills.
    pub unopened: bool,
    /// Name of its slot; nothing where the tray has none left.
    pub slot: Option<Label>,
    /// The program's own slot for it: another one where places were chosen by hand.
    pub own_slot: Option<Label>,
}

impl LoadItem {
    /// True for a drill without a stop: it is used by its marks, or by nothing that is known.
    #[must_use]
    pub fn is_by_mark(&self) -> bool {
        self.set.as_ref().is_some_and(|on| on.stop.is_none())
    }
}

/// A stop on a drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrillSetup {
    /// The drill.
    pub drill: DrillId,
    /// The stop; absent where a mark is read.
    pub stop: Option<StopId>,
    /// From tip to landing face.
    pub set: Known<Length>,
    /// The gauge's figure; unknown without a reason where a mark is read.
    pub gauge: Known<Length>,
    /// The mark to read, where no stop is used.
    pub mark: Option<MarkEdge>,
    /// With the stop landed, the tip below the master sleeve's apical face, for each step served.
    pub bench: Vec<Known<Length>>,
    /// It may be used so, or not.
    pub fits: Fits,
}

/// The steps or sites that an item serves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ServedPlace {
    /// The site; absent for what serves the whole case.
    pub site: Option<SiteId>,
    /// The step, where it is a drill's.
    pub step: Option<StepId>,
}

/// A stop that is set anew in surgery, because there are fewer drills or stops than settings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reset {
    /// The drill: its place in the loading list, from 0.
    pub item: usize,
    /// The drill as it is afterwards: in the same slot, with its new setting and the steps that this
    /// serves.
    pub to: LoadItem,
    /// The setting before.
    pub from: DrillSetup,
    /// The last thing that is done with the former setting: its place in the order of use, from 0.
    pub after: usize,
    /// The first thing that is done with the new one.
    pub before: usize,
}

/// The items to be laid, and the settings set anew in surgery.
pub(in crate::plan) struct Loading {
    pub(in crate::plan) items: Vec<LoadItem>,
    /// In the order of use.
    pub(in crate::plan) resets: Vec<Reset>,
}

/// Items for the tray, in order of loading. `pieces` are the drills in the order of their first
/// use.
pub(in crate::plan) fn loading(
    case: &Case,
    cuts: &[SiteCuts<'_>],
    pieces: &[Piece<'_>],
    order: &[Operation],
) -> Loading {
    let is_for_pins = |piece: &&Piece<'_>| piece.settings[0].serves.contains(&WHOLE_CASE);
    let (for_pins, others): (Vec<_>, Vec<_>) = pieces.iter().partition(is_for_pins);
    // Pins hold the guide before anything is drilled through it.
    let mut items: Vec<LoadItem> = for_pins.iter().map(|piece| item_of(piece)).collect();
    let pin = |pin: &Pin| plain(SlotKind::Pin, &pin.id, &pin.name, vec![WHOLE_CASE]);
    items.extend(pins::pins_of(case).map(pin));
    let first_other = items.len();
    items.extend(others.iter().map(|piece| item_of(piece)));
    items.extend(sleeves(cuts, order));
    items.extend(implants_and_carriers(case, cuts));
    items.extend(drivers_and_accessories(case, cuts));
    number_copies(&mut items);
    let places = (0..for_pins.len()).chain(first_other..);
    let mut resets: Vec<Reset> = for_pins
        .into_iter()
        .chain(others)
        .zip(places)
        .flat_map(|(piece, item)| resets(piece, item, &items))
        .collect();
    resets.sort_by_key(|reset| reset.before);
    Loading { items, resets }
}

/// The drill of a step as it is set for it, on the tray or by then set anew in surgery.
pub(in crate::plan) fn drill_of<'a>(
    loading: &'a [LoadItem],
    resets: &'a [Reset],
    site: &SiteId,
    step: &StepId,
) -> Option<&'a LoadItem> {
    let mut all = loading.iter().chain(resets.iter().map(|one| &one.to));
    all.find(|item| item.set.is_some() && item.serves.iter().any(|one| one.is_step(site, step)))
}

/// A drill as it is laid on the tray.
fn item_of(piece: &Piece<'_>) -> LoadItem {
    let drill = piece.drill;
    let first = &piece.settings[0];
    LoadItem {
        marking: drill.marking.clone(),
        set: Some(first.set.clone()),
        unopened: drill.single_use,
        pins: first.pins.clone(),
        ..plain(
            SlotKind::Drill,
            &drill.id,
            &drill.name,
            first.serves.clone(),
        )
    }
}

/// The settings set anew on a piece in surgery.
fn resets(piece: &Piece<'_>, item: usize, items: &[LoadItem]) -> Vec<Reset> {
    let pairs = piece.settings.iter().zip(piece.settings.iter().skip(1));
    let reset = |(was, is): (&PieceSetting, &PieceSetting)| Reset {
        item,
        to: LoadItem {
            set: Some(is.set.clone()),
            serves: is.serves.clone(),
            pins: is.pins.clone(),
            ..items[item].clone()
        },
        from: was.set.clone(),
        after: was.last,
        before: is.first,
    };
    pairs.map(reset).collect()
}

impl DrillSetup {
    /// As a step wants it.
    pub(super) fn of_step(sheet: &StepSheet) -> Self {
        let bench = sheet.bench.as_ref().map(Figure::known_length);
        Self {
            drill: sheet.drill.clone(),
            stop: sheet.stop.clone(),
            set: sheet.set.known_length(),
            gauge: known(sheet.gauge.as_ref()),
            mark: sheet.mark.clone(),
            bench: bench.into_iter().collect(),
            fits: sheet.fits,
        }
    }

    /// As a pin wants it.
    pub(super) fn of_pin(sheet: &PinSheet) -> Self {
        Self {
            drill: sheet.drill.clone(),
            stop: sheet.stop.clone(),
            set: sheet.set.known_length(),
            gauge: known(sheet.gauge.as_ref()),
            mark: sheet.mark.clone(),
            bench: Vec::new(),
            fits: sheet.fits,
        }
    }
}

fn known(figure: Option<&Figure>) -> Known<Length> {
    figure.map_or_else(|| Known::Unknown(Vec::new()), Figure::known_length)
}

impl ServedPlace {
    /// True if it is this step.
    #[must_use]
    pub fn is_step(&self, site: &SiteId, step: &StepId) -> bool {
        (self.site.as_ref(), self.step.as_ref()) == (Some(site), Some(step))
    }
}

pub(in crate::plan) fn plain(
    kind: SlotKind,
    entry: &impl ToString,
    name: &Label,
    serves: Vec<ServedPlace>,
) -> LoadItem {
    LoadItem {
        kind,
        entry: entry.to_string(),
        copy: 1,
        name: name.clone(),
        marking: Marking::default(),
        set: None,
        serves,
        unopened: false,
        pins: Vec::new(),
        slot: None,
        own_slot: None,
    }
}

pub(in crate::plan) const WHOLE_CASE: ServedPlace = ServedPlace {
    site: None,
    step: None,
};

fn at_site(site: &SiteId) -> ServedPlace {
    ServedPlace {
        site: Some(site.clone()),
        step: None,
    }
}

/// Each drill sleeve once: it is moved from site to site.
fn sleeves(cuts: &[SiteCuts<'_>], order: &[Operation]) -> Vec<LoadItem> {
    let mut items: Vec<LoadItem> = Vec::new();
    for one in order {
        let (site, step) = match one {
            Operation::Drill { site, step } => (site, Some(step)),
            Operation::Insert { site } => (site, None),
            _ => continue,
        };
        let Some(cut) = cuts.iter().find(|cut| cut.site.site.id == *site) else {
            continue;
        };
        let id = match step {
            Some(step) => cut
                .site
                .site
                .steps
                .iter()
                .find(|s| s.id == *step)
                .and_then(|s| s.sleeve.as_ref()),
            None => cut.site.site.insertion.sleeve.as_ref(),
        };
        let Some(sleeve) = id.and_then(|id| cut.site.kit.drill_sleeve(id)) else {
            continue;
        };
        let serves = ServedPlace {
            site: Some(site.clone()),
            step: step.cloned(),
        };
        match items
            .iter_mut()
            .find(|item| item.entry == sleeve.id.as_str())
        {
            Some(item) => item.serves.push(serves),
            None => items.push(LoadItem {
                marking: sleeve.marking.clone(),
                ..plain(SlotKind::Sleeve, &sleeve.id, &sleeve.name, vec![serves])
            }),
        }
    }
    items
}

/// A carrier goes from site to site, but where the implant holds the guide its carrier stays in.
fn implants_and_carriers(case: &Case, cuts: &[SiteCuts<'_>]) -> Vec<LoadItem> {
    let held = holding_by_default(case);
    let mut carriers: Vec<LoadItem> = Vec::new();
    let mut implants: Vec<LoadItem> = Vec::new();
    for cut in cuts {
        let site = &cut.site;
        implants.push(LoadItem {
            unopened: true,
            ..plain(
                SlotKind::Implant,
                &site.implant.id,
                &site.implant.name,
                vec![at_site(&site.site.id)],
            )
        });
        let carrier = site.site.insertion.carrier.as_ref();
        let Some(carrier) = carrier.and_then(|id| site.kit.carrier(id)) else {
            continue;
        };
        let serves = at_site(&site.site.id);
        let stays = held.contains(&site.site.id);
        let shared = |item: &&mut LoadItem| {
            let mut served = item.serves.iter().filter_map(|one| one.site.as_ref());
            item.entry == carrier.id.as_str() && !served.any(|id| held.contains(id))
        };
        match carriers.iter_mut().find(shared).filter(|_| !stays) {
            Some(item) => item.serves.push(serves),
            None => carriers.push(LoadItem {
                marking: carrier.marking.clone(),
                ..plain(SlotKind::Carrier, &carrier.id, &carrier.name, vec![serves])
            }),
        }
    }
    carriers.append(&mut implants);
    carriers
}

fn drivers_and_accessories(case: &Case, cuts: &[SiteCuts<'_>]) -> Vec<LoadItem> {
    let serves_some = |families: &[Label]| {
        families.is_empty()
            || cuts
                .iter()
                .any(|cut| families.contains(&cut.site.implant.family))
    };
    let drivers = case
        .kit
        .drivers
        .iter()
        .filter(|driver| serves_some(&driver.families))
        .map(|d| plain(SlotKind::Driver, &d.id, &d.name, vec![WHOLE_CASE]));
    let punches = !to_punch(case).is_empty();
    let wanted = |a: &&Accessory| a.kind != AccessoryKind::Punch || punches;
    let accessories = case.kit.accessories.iter().filter(wanted).flat_map(|a| {
        (0..a.wanted).map(|_| plain(SlotKind::Accessory, &a.id, &a.name, vec![WHOLE_CASE]))
    });
    drivers.chain(accessories).collect()
}

fn number_copies(items: &mut [LoadItem]) {
    let mut seen: BTreeMap<(SlotKind, String), u32> = BTreeMap::new();
    for item in items {
        let n = seen.entry((item.kind, item.entry.clone())).or_default();
        *n += 1;
        item.copy = *n;
    }
}
