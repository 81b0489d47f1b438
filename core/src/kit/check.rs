//! Checks of a kit beyond its schema: ids given once, references that lead somewhere, values that
//! agree with each other.

use super::check_instruments::{
    check_drill, check_pin, fixed_lengths, implants, sleeves_stops_gauges,
};
use super::check_tray::trays;
use super::codes;
use super::wear;
use super::{DepthRule, Kit, StopKind, in_every_list};
use crate::document::{Checks, Fault, Path};
use crate::measure::Length;

/// Checks a kit at `root` in its document.
#[must_use]
pub fn check_kit(kit: &Kit, root: &Path) -> Vec<Fault> {
    let mut checks = Checks::default();
    unique_ids(kit, root, &mut checks);
    codes::check(kit, root, &mut checks);
    references(kit, root, &mut checks);
    allowances(kit, root, &mut checks);
    for (n, drill) in kit.drills.iter().enumerate() {
        check_drill(drill, &root.key("drills").item(n), &mut checks);
    }
    implants(kit, root, &mut checks);
    sleeves_stops_gauges(kit, root, &mut checks);
    fixed_lengths(kit, root, &mut checks);
    for (n, pin) in kit.pins.iter().enumerate() {
        check_pin(kit, pin, &root.key("pins").item(n), &mut checks);
    }
    protocol_depths(kit, root, &mut checks);
    for (n, carrier) in kit.carriers.iter().enumerate() {
        let at = root.key("carriers").item(n).key("lines");
        checks.unique(&at, "name", carrier.lines.iter().map(|line| &line.name));
    }
    trays(kit, root, &mut checks);
    wear::check(kit, root, &mut checks);
    checks.into_faults()
}

/// A pass short of full depth still goes below the platform.
fn protocol_depths(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, protocol) in kit.protocols.iter().enumerate() {
        let implants = protocol.implants.iter().filter_map(|id| kit.implant(id));
        // The shortest implant is the one that the pass is short of first.
        let full = implants.map(super::Implant::full_depth).min();
        // An implant without length is a fault of its own.
        let Some(full) = full.filter(|full| *full > Length::ZERO) else {
            continue;
        };
        let at = root.key("protocols").item(n).key("steps");
        for (k, step) in protocol.steps.iter().enumerate() {
            if let DepthRule::ShortOfFull { by_mm } = step.depth {
                let at = at.item(k).key("depth").key("by_mm");
                checks.at_most(at, &by_mm, &full, "shortest-full-depth");
            }
        }
    }
}

fn allowances(kit: &Kit, root: &Path, checks: &mut Checks) {
    let at = root.key("allowances");
    let rules = &kit.allowances;
    for (key, clearance) in [
        ("guided_clearance", rules.guided_clearance),
        ("sleeve_clearance", rules.sleeve_clearance),
        ("stop_clearance", rules.stop_clearance),
    ] {
        let at = at.key(key).key("most_mm");
        checks.at_least(at, &clearance.most_mm, &clearance.least_mm, "least_mm");
    }
    let densities = rules.final_diameter.iter().map(|rule| rule.density.key());
    checks.unique(&at.key("final_diameter"), "density", densities);
}

fn unique_ids(kit: &Kit, root: &Path, checks: &mut Checks) {
    macro_rules! unique {
        ($($list:ident),*) => {
            $(checks.unique(&root.key(stringify!($list)), "id", kit.$list.iter().map(|e| &e.id));)*
        };
    }
    in_every_list!(unique);
}

fn references(kit: &Kit, root: &Path, checks: &mut Checks) {
    let drills = || kit.drills.iter().map(|e| e.id.as_str());
    let sleeves = || kit.drill_sleeves.iter().map(|e| e.id.as_str());
    let masters = || kit.master_sleeves.iter().map(|e| e.id.as_str());
    let implants = || kit.implants.iter().map(|e| e.id.as_str());
    for (n, sleeve) in kit.drill_sleeves.iter().enumerate() {
        for (k, id) in sleeve.fits.iter().enumerate() {
            let at = root.key("drill_sleeves").item(n).key("fits").item(k);
            checks.reference(at, "master-sleeve", id.as_str(), masters());
        }
    }
    for (n, stop) in kit.stops.iter().enumerate() {
        if let StopKind::Fixed { lengths } = &stop.depth {
            let at = root.key("stops").item(n).key("depth").key("lengths");
            for (k, length) in lengths.iter().enumerate() {
                let at = at.item(k).key("drill");
                checks.reference(at, "drill", length.drill.as_str(), drills());
            }
        }
    }
    for (n, pin) in kit.pins.iter().enumerate() {
        let at = root.key("pins").item(n);
        checks.reference(at.key("drill"), "drill", pin.drill.as_str(), drills());
        if let Some(id) = &pin.stop {
            let stops = kit.stops.iter().map(|e| e.id.as_str());
            checks.reference(at.key("stop"), "stop", id.as_str(), stops);
        }
    }
    for (n, protocol) in kit.protocols.iter().enumerate() {
        let at = root.key("protocols").item(n);
        for (k, id) in protocol.implants.iter().enumerate() {
            let at = at.key("implants").item(k);
            checks.reference(at, "implant", id.as_str(), implants());
        }
        for (k, step) in protocol.steps.iter().enumerate() {
            let at = at.key("steps").item(k);
            checks.reference(at.key("drill"), "drill", step.drill.as_str(), drills());
            if let Some(id) = &step.sleeve {
                checks.reference(at.key("sleeve"), "drill-sleeve", id.as_str(), sleeves());
            }
        }
        if let Some(id) = &protocol.insertion_sleeve {
            let at = at.key("insertion_sleeve");
            checks.reference(at, "drill-sleeve", id.as_str(), sleeves());
        }
    }
}
