//! The number of each thing needed, and the number there is.

use crate::case::{Case, Place, Rule};
use crate::kit::{DrillId, Kit, Label, SlotKind, StopId};
use crate::plan::figure::{Known, Quantity};
use crate::plan::finding::argument::Argument;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::stock::loading::LoadItem;
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
        for (drill, stop) in settings.filter(|(drill, _)| of_drill && *drill == set.drill) {
            if let Some(found) = stocked(&case.kit, SlotKind::Drill, drill.as_str()) {
                count(&mut lines, drill.as_str(), found);
            }
            if let Some(stop) = stop.as_ref().and_then(|id| case.kit.stop(id)) {
                let found = ("stops", stop.name.clone(), stop.quantity);
                count(&mut lines, stop.id.as_str(), found);
            }
        }
    }
    for line in &mut lines {
        line.with_resets = with_resets(line, &pieces.pieces);
    }
    lines
}

fn count(lines: &mut Vec<StockLine>, entry: &str, (list, name, have): Stocked) {
    let same = |line: &&mut StockLine| line.list == list && line.entry == entry;
    match lines.iter_mut().find(same) {
        Some(line) => line.needed += 1,
        None => lines.push(StockLine {
            list,
            entry: entry.to_owned(),
            name,
            needed: 1,
            have,
            with_resets: None,
        }),
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
        let mut finding = Finding::new(Rule::StockShort, line.place())
            .verdict(Verdict::Short)
            .arg("name", &line.name)
            .arg("needed", line.needed)
            .arg("have", line.have)
            .arg("short", line.needed - line.have)
            .arg(
                "resets",
                line.with_resets
                    .map_or_else(|| Argument::from("none"), Argument::from),
            );
        finding.value = Known::Is(Quantity::Count(line.have));
        finding.limit = Some(Quantity::Count(line.needed));
        findings.push(finding);
    }
    if case.setup.tray.is_none() {
        findings.push(Finding::new(Rule::NoTray, Place::Tray).verdict(Verdict::Unknown));
        return;
    }
    for item in loading.iter().filter(|item| item.slot.is_none()) {
        findings.push(
            Finding::new(
                Rule::NoSlot,
                Place::Loading {
                    entry: item.entry.clone(),
                    copy: item.copy,
                },
            )
            .verdict(Verdict::Short)
            .arg("name", &item.name),
        );
    }
}
