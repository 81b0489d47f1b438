//! The number of each thing needed, and the number there is.

use crate::case::{Case, Place, Rule};
use crate::kit::{DrillId, Kit, Label, SlotKind, StopId};
use crate::plan::figure::{Known, Quantity, Reason};
use crate::plan::finding::argument::Argument;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::stock::loading::{DrillSetup, LoadItem};
use crate::plan::stock::pieces::{Piece, Pieces};
use std::collections::BTreeSet;

/// The number of something needed and the number there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockLine {
    /// List of the kit that it is in.
    pub list: &'static str,
    /// Its id in the kit.
    pub entry: String,
    /// Name for people.
    pub name: Label,
    /// Number that the case needs at one time, so that nothing is set anew in surgery.
    pub needed: u32,
    /// Number that there is.
    pub have: u32,
    /// With so many re-sets in surgery what there is does, along the order that is followed; nothing
    /// where it does anyway, or never.
    pub with_resets: Option<u32>,
    /// Number that it needs if the settings that nobody knows turn out to be equal to others.
    pub at_least: u32,
    /// Why those are not known.
    pub unknown: Vec<Reason>,
    /// The settings that need one each, as text; none for what is not set.
    pub(crate) settings: Vec<String>,
}

impl StockLine {
    /// Its place in the kit.
    #[must_use]
    pub fn place(&self) -> Place {
        Place::KitEntry {
            list: self.list,
            entry: self.entry.clone(),
        }
    }
}

/// An entry of the kit: its list, name and quantity.
type Stocked = (&'static str, Label, u32);

/// A line for each thing that is on the tray, in the order of loading; a drill's stop after the drill.
pub(in crate::plan) fn stock(
    case: &Case,
    items: &[LoadItem],
    pieces: &Pieces<'_>,
) -> Vec<StockLine> {
    let mut lines: Vec<StockLine> = Vec::new();
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for item in items {
        let Some(set) = &item.set else {
            if let Some(found) = stocked(&case.kit, item.kind, &item.entry) {
                count(&mut lines, &item.entry, found);
            }
            continue;
        };
        // As many as there are settings, whether or not each has a drill.
        let of_drill = seen.insert(set.drill.as_str());
        let settings = pieces.settings.iter();
        let settings: Vec<_> = settings
            .filter(|one| of_drill && one.drill == set.drill)
            .collect();
        for one in &settings {
            let unknown = may_be_another(one, &settings);
            if let Some(found) = stocked(&case.kit, SlotKind::Drill, one.drill.as_str()) {
                count(&mut lines, one.drill.as_str(), found).shared(unknown, one);
            }
            if let Some(stop) = one.stop.as_ref().and_then(|id| case.kit.stop(id)) {
                let found = ("stops", stop.name.clone(), stop.quantity);
                count(&mut lines, stop.id.as_str(), found).shared(unknown, one);
            }
        }
    }
    for line in &mut lines {
        line.with_resets = with_resets(line, &pieces.pieces);
    }
    lines
}

/// Counts one more of it, as one that no other setting shares.
fn count<'a>(
    lines: &'a mut Vec<StockLine>,
    entry: &str,
    (list, name, have): Stocked,
) -> &'a mut StockLine {
    let same = |line: &StockLine| line.list == list && line.entry == entry;
    let place = lines.iter().position(same).unwrap_or_else(|| {
        lines.push(StockLine {
            list,
            entry: entry.to_owned(),
            name,
            needed: 0,
            have,
            with_resets: None,
            at_least: 0,
            unknown: Vec::new(),
            settings: Vec::new(),
        });
        lines.len() - 1
    });
    let line = &mut lines[place];
    line.needed += 1;
    line.at_least += 1;
    line
}

/// Why a setting is not known, where it may be equal to another one of its drill and stop: the known
/// ones are the others, or the first that is not known.
fn may_be_another<'a>(one: &'a DrillSetup, settings: &[&'a DrillSetup]) -> &'a [Reason] {
    let alike = settings.iter().filter(|other| other.stop == one.stop);
    let stands = alike.clone().find(|other| other.set.get().is_some());
    let stands = stands.or_else(|| alike.clone().next());
    match stands {
        Some(stands) if !std::ptr::eq(*stands, one) => one.set.reasons(),
        _ => &[],
    }
}

impl StockLine {
    /// What was counted last is for this setting, and may be one that is there already.
    fn shared(&mut self, unknown: &[Reason], setting: &DrillSetup) {
        let set = setting.set.get().map(|set| set.to_string());
        let set = set.unwrap_or_else(|| "unknown".to_owned());
        self.settings.push(format!("{} {set}", setting.drill));
        self.at_least -= u32::from(!unknown.is_empty());
        for reason in unknown {
            if !self.unknown.contains(reason) {
                self.unknown.push(reason.clone());
            }
        }
    }

    /// True if nobody knows whether there is enough.
    #[must_use]
    pub fn is_unknown(&self) -> bool {
        self.at_least <= self.have && self.have < self.needed
    }
}

fn stocked(kit: &Kit, kind: SlotKind, entry: &str) -> Option<Stocked> {
    macro_rules! look_in {
        ($list:ident) => {{
            let found = kit.$list.iter().find(|one| one.id.as_str() == entry);
            found.map(|one| (stringify!($list), one.name.clone(), one.quantity))
        }};
    }
    match kind {
        SlotKind::Drill => look_in!(drills),
        SlotKind::Sleeve => look_in!(drill_sleeves),
        SlotKind::Implant => look_in!(implants),
        SlotKind::Carrier => look_in!(carriers),
        SlotKind::Driver => look_in!(drivers),
        SlotKind::Pin => look_in!(pins),
        SlotKind::Accessory => look_in!(accessories),
    }
}

/// Number of re-sets of a stop in surgery, where what there is does only so.
fn with_resets(line: &StockLine, pieces: &[Piece<'_>]) -> Option<u32> {
    let entry = line.entry.as_str();
    let on: Box<dyn Fn(&&Piece<'_>) -> bool> = match line.list {
        "drills" => {
            let id = DrillId::from(entry);
            Box::new(move |piece| piece.drill.id == id)
        }
        "stops" => {
            let id = StopId::from(entry);
            Box::new(move |piece| piece.takes(&id))
        }
        _ => return None,
    };
    let assigned: Vec<&Piece<'_>> = pieces.iter().filter(on).collect();
    let resets: usize = assigned.iter().map(|piece| piece.resets()).sum();
    let does = line.have < line.needed && assigned.len() <= line.have as usize && resets > 0;
    does.then(|| u32::try_from(resets).unwrap_or(u32::MAX))
}

/// Checks that there is enough of everything and a place for it on the tray.
pub(in crate::plan) fn check(
    case: &Case,
    loading: &[LoadItem],
    stock: &[StockLine],
    findings: &mut Vec<Finding>,
) {
    for line in stock.iter().filter(|line| line.needed > line.have) {
        let unknown = line.is_unknown();
        let mut finding = Finding::new(Rule::StockShort, line.place())
            .verdict(if unknown {
                Verdict::Unknown
            } else {
                Verdict::Short
            })
            .arg("name", &line.name)
            .arg("needed", line.needed)
            .arg("have", line.have)
            .arg("short", line.needed - line.have)
            .arg(
                "resets",
                match line.with_resets {
                    _ if unknown => Argument::from("unknown"),
                    None => Argument::from("none"),
                    Some(resets) => Argument::from(resets),
                },
            );
        finding.value = if unknown {
            Known::Unknown(line.unknown.clone())
        } else {
            Known::Is(Quantity::Count(line.have))
        };
        finding.limit = Some(Quantity::Count(line.needed));
        // As many others that lack are others.
        finding.bodies.clone_from(&line.settings);
        findings.push(finding);
    }
    if case.setup.tray.is_none() {
        findings.push(Finding::new(Rule::NoTray, Place::Tray).verdict(Verdict::Unknown));
        return;
    }
    let unknown = slots_that_may_be_left(loading);
    for item in loading.iter().filter(|item| item.slot.is_none()) {
        let may_fit = item.kind == SlotKind::Drill && !unknown.is_empty();
        let place = Place::Loading {
            entry: item.entry.clone(),
            copy: item.copy,
        };
        let mut finding = Finding::new(Rule::NoSlot, place)
            .verdict(if may_fit {
                Verdict::Unknown
            } else {
                Verdict::Short
            })
            .arg("name", &item.name)
            .arg("fits", if may_fit { "unknown" } else { "no" });
        if may_fit {
            finding.value = Known::Unknown(unknown.clone());
        }
        findings.push(finding);
    }
}

/// Why nobody knows whether the drills without a slot need one: settings that are not known may be
/// equal to others, and one drill then does. Nothing where too many would be left even so.
fn slots_that_may_be_left(loading: &[LoadItem]) -> Vec<Reason> {
    let sets: Vec<&DrillSetup> = loading
        .iter()
        .filter_map(|item| item.set.as_ref())
        .collect();
    let may_be_another = sets.iter().map(|one| {
        let of_drill: Vec<_> = sets
            .iter()
            .copied()
            .filter(|s| s.drill == one.drill)
            .collect();
        may_be_another(one, &of_drill)
    });
    let unknown: Vec<&[Reason]> = may_be_another.filter(|one| !one.is_empty()).collect();
    let is_drill = |item: &&LoadItem| item.kind == SlotKind::Drill && item.slot.is_none();
    if loading.iter().filter(is_drill).count() > unknown.len() {
        return Vec::new();
    }
    let mut reasons: Vec<Reason> = Vec::new();
    for reason in unknown.into_iter().flatten() {
        if !reasons.contains(reason) {
            reasons.push(reason.clone());
        }
    }
    reasons
}
