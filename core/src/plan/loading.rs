//! What goes on the tray, in the order in which it is loaded, each with its slot.

use super::clearance::Cut;
use super::depth::StepSheet;
use super::figure::Known;
use super::order::{Use, to_punch};
use super::pins::{self, PinSheet};
use super::setting::MarkEdge;
use super::tray;
use crate::case::Case;
use crate::kit::{
    Accessory, AccessoryKind, DrillId, Label, Marking, SiteId, SlotKind, StepId, StopId,
};
use crate::measure::Length;
use std::collections::{BTreeMap, BTreeSet};

/// One physical thing to be laid in the tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadItem {
    /// What kind of thing it is.
    pub kind: SlotKind,
    /// Its id in the kit.
    pub entry: String,
    /// Ordinal among the equal items of this list, from 1. It is no piece: which one carries which
    /// setting is not planned.
    pub copy: u32,
    /// Name for people.
    pub name: Label,
    /// How it is marked.
    pub marking: Marking,
    /// What is set on it, where it is a drill with a stop or mark.
    pub set: Option<SetOn>,
    /// The steps or sites that it serves.
    pub serves: Vec<Serves>,
    /// Names in the case of the fixation pins that it drills for.
    pub pins: Vec<Label>,
    /// Stays unopened until it is called for: implants and single-use drills.
    pub unopened: bool,
    /// Name of its slot; nothing where the tray has none left.
    pub slot: Option<Label>,
    /// Where the program lays it by itself: another slot where places were chosen by hand.
    pub own_slot: Option<Label>,
}

/// A stop on a drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetOn {
    /// The drill.
    pub drill: DrillId,
    /// The stop; absent where a mark is read.
    pub stop: Option<StopId>,
    /// From tip to landing face.
    pub set: Known<Length>,
    /// What the gauge shows; unknown without a reason where a mark is read.
    pub gauge: Known<Length>,
    /// The mark to read, where no stop is used.
    pub mark: Option<MarkEdge>,
    /// With the stop landed, the tip below the master sleeve's lower face, for each step served.
    pub bench: Vec<Known<Length>>,
}

/// What an item serves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Serves {
    /// The site; absent for what serves the whole case.
    pub site: Option<SiteId>,
    /// The step, where it is a drill's.
    pub step: Option<StepId>,
}

/// How many of something are needed and how many there are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockLine {
    /// List of the kit that it is in.
    pub list: &'static str,
    /// Its id in the kit.
    pub entry: String,
    /// Name for people.
    pub name: Label,
    /// How many the case needs at one time.
    pub needed: u32,
    /// How many there are.
    pub have: u32,
    /// With at least so many re-sets in surgery what there is does; nothing where it does anyway, or
    /// never.
    pub with_resets: Option<u32>,
}

/// What goes on the tray, in order of loading.
pub(super) fn loading(
    case: &Case,
    cuts: &[Cut<'_>],
    pins: &[PinSheet],
    order: &[Use],
) -> Vec<LoadItem> {
    // Pins hold the guide before anything is drilled through it.
    let mut items = pins::loading(case, pins);
    items.extend(drills(cuts, order));
    items.extend(sleeves(cuts, order));
    items.extend(implants_and_carriers(cuts));
    items.extend(drivers_and_accessories(case, cuts));
    number_copies(&mut items);
    tray::lay(case, &mut items);
    items
}

impl SetOn {
    /// Whether one drill serves both. Two settings that nobody knows are never the same.
    fn is_the_same_as(&self, other: &Self) -> bool {
        self.set.value().is_some()
            && (&self.drill, &self.stop, &self.set) == (&other.drill, &other.stop, &other.set)
    }
}

/// Each drill at each of its settings, in order of first use. Steps with the same drill, stop and
/// known setting share one.
fn drills(cuts: &[Cut<'_>], order: &[Use]) -> Vec<LoadItem> {
    let mut items: Vec<LoadItem> = Vec::new();
    for one in order {
        let Use::Drill { site, step } = one else {
            continue;
        };
        let found = cuts.iter().find(|cut| cut.site.site.id == *site);
        let Some((context, sheet)) = found.and_then(|cut| {
            let mut both = cut.site.steps().zip(cut.steps);
            both.find(|(context, _)| context.step.id == *step)
        }) else {
            continue;
        };
        let serves = Serves {
            site: Some(site.clone()),
            step: Some(step.clone()),
        };
        let set = set_on(sheet);
        let bench = sheet
            .bench
            .as_ref()
            .map(super::figure::Figure::known_length);
        let same = items.iter_mut().find(|item| {
            let other = item.set.as_ref();
            other.is_some_and(|other| other.is_the_same_as(&set))
        });
        if let Some(item) = same {
            item.serves.push(serves);
            if let Some(on) = &mut item.set {
                on.bench.extend(bench);
            }
            continue;
        }
        items.push(LoadItem {
            kind: SlotKind::Drill,
            entry: context.drill.id.to_string(),
            copy: 1,
            name: context.drill.name.clone(),
            marking: context.drill.marking.clone(),
            set: Some(SetOn {
                bench: bench.into_iter().collect(),
                ..set
            }),
            serves: vec![serves],
            unopened: context.drill.single_use,
            pins: Vec::new(),
            slot: None,
            own_slot: None,
        });
    }
    items
}

fn set_on(sheet: &StepSheet) -> SetOn {
    SetOn {
        drill: sheet.drill.clone(),
        stop: sheet.stop.clone(),
        set: sheet.set.known_length(),
        gauge: sheet.gauge.as_ref().map_or_else(
            || Known::Unknown(Vec::new()),
            super::figure::Figure::known_length,
        ),
        mark: sheet.mark.clone(),
        bench: Vec::new(),
    }
}

pub(super) fn plain(
    kind: SlotKind,
    entry: &impl ToString,
    name: &Label,
    serves: Vec<Serves>,
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

pub(super) const WHOLE_CASE: Serves = Serves {
    site: None,
    step: None,
};

fn at_site(site: &SiteId) -> Serves {
    Serves {
        site: Some(site.clone()),
        step: None,
    }
}

/// Each drill sleeve once: it is moved from site to site.
fn sleeves(cuts: &[Cut<'_>], order: &[Use]) -> Vec<LoadItem> {
    let mut items: Vec<LoadItem> = Vec::new();
    for one in order {
        let (site, step) = match one {
            Use::Drill { site, step } => (site, Some(step)),
            Use::Insert { site } => (site, None),
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
        let serves = Serves {
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

fn implants_and_carriers(cuts: &[Cut<'_>]) -> Vec<LoadItem> {
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
        match carriers
            .iter_mut()
            .find(|item| item.entry == carrier.id.as_str())
        {
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

fn drivers_and_accessories(case: &Case, cuts: &[Cut<'_>]) -> Vec<LoadItem> {
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

/// How many of each thing are needed, and how many there are.
pub(super) fn stock(case: &Case, items: &[LoadItem]) -> Vec<StockLine> {
    let kit = &case.kit;
    let mut lines: Vec<StockLine> = Vec::new();
    let mut count = |list: &'static str, entry: &str, name: &Label, have: u32| match lines
        .iter_mut()
        .find(|line| line.list == list && line.entry == entry)
    {
        Some(line) => line.needed += 1,
        None => lines.push(StockLine {
            list,
            entry: entry.to_owned(),
            name: name.clone(),
            needed: 1,
            have,
            with_resets: None,
        }),
    };
    macro_rules! count_in {
        ($list:ident, $item:expr) => {
            if let Some(entry) = kit.$list.iter().find(|e| e.id.as_str() == $item) {
                count(
                    stringify!($list),
                    entry.id.as_str(),
                    &entry.name,
                    entry.quantity,
                );
            }
        };
    }
    for item in items {
        match item.kind {
            SlotKind::Drill => count_in!(drills, item.entry),
            SlotKind::Sleeve => count_in!(drill_sleeves, item.entry),
            SlotKind::Implant => count_in!(implants, item.entry),
            SlotKind::Carrier => count_in!(carriers, item.entry),
            SlotKind::Driver => count_in!(drivers, item.entry),
            SlotKind::Pin => count_in!(pins, item.entry),
            SlotKind::Accessory => count_in!(accessories, item.entry),
        }
        if let Some(stop) = item.set.as_ref().and_then(|set| set.stop.as_ref()) {
            count_in!(stops, stop.as_str());
        }
    }
    for line in &mut lines {
        line.with_resets = with_resets(line, items);
    }
    lines
}

/// A drill whose stop is set anew in surgery stands for several. A stop stays on its drill, so that
/// there has to be one for each drill that takes it.
fn with_resets(line: &StockLine, items: &[LoadItem]) -> Option<u32> {
    let least = match line.list {
        "drills" => {
            let sets = items.iter().filter_map(|item| item.set.as_ref());
            let mut own = sets.filter(|set| set.drill.as_str() == line.entry);
            // What has no stop has nothing to set anew.
            own.all(|set| set.stop.is_some()).then_some(1)?
        }
        "stops" => {
            let sets = items.iter().filter_map(|item| item.set.as_ref());
            let own = sets.filter(|set| {
                let stop = set.stop.as_ref();
                stop.is_some_and(|stop| stop.as_str() == line.entry)
            });
            let drills: BTreeSet<&DrillId> = own.map(|set| &set.drill).collect();
            u32::try_from(drills.len()).unwrap_or(u32::MAX)
        }
        _ => return None,
    };
    (line.have < line.needed && line.have >= least).then(|| line.needed - line.have)
}
