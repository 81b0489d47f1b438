//! What a schema cannot say of a kit: ids given once, references that lead somewhere, values that
//! agree with each other.

use super::{Datum, DepthRule, Drill, Kit, Pin, StopKind, TraySlot};
use crate::document::{Checks, Fault, Path, Rule};
use crate::measure::Length;

/// Checks a kit that lies at `root` in its document.
#[must_use]
pub fn check_kit(kit: &Kit, root: &Path) -> Vec<Fault> {
    let mut checks = Checks::default();
    unique_ids(kit, root, &mut checks);
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
    checks.into_faults()
}

fn implants(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, implant) in kit.implants.iter().enumerate() {
        let at = root.key("implants").item(n);
        checks.at_least(
            at.key("largest_diameter_mm"),
            &implant.largest_diameter_mm,
            &implant.diameter_mm,
            "diameter_mm",
        );
        let mut above = Length::ZERO;
        for (k, point) in implant.profile.iter().enumerate() {
            let at = at.key("profile").item(k);
            let depth = at.key("below_platform_mm");
            checks.at_least(
                depth.clone(),
                &point.below_platform_mm,
                &above,
                "the profile point before",
            );
            checks.at_most(
                depth,
                &point.below_platform_mm,
                &implant.platform_to_apex_mm,
                "platform_to_apex_mm",
            );
            checks.at_most(
                at.key("diameter_mm"),
                &point.diameter_mm,
                &implant.largest_diameter_mm,
                "largest_diameter_mm",
            );
            above = point.below_platform_mm;
        }
    }
}

fn sleeves_stops_gauges(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, sleeve) in kit.drill_sleeves.iter().enumerate() {
        let at = root.key("drill_sleeves").item(n);
        let wall = sleeve.barrel_diameter_mm;
        checks.at_most(
            at.key("bore_mm"),
            &sleeve.bore_mm,
            &wall,
            "barrel_diameter_mm",
        );
        checks.at_most(
            at.key("flange_height_mm"),
            &sleeve.flange_height_mm,
            &sleeve.length_mm,
            "length_mm",
        );
        checks.at_most(
            at.key("seat_above_rim_mm"),
            &sleeve.seat_above_rim_mm,
            &sleeve.length_mm,
            "length_mm",
        );
        // In a counterbore the landing face may lie below the rim, never below the whole sleeve:
        // the seat would then stand under the platform.
        for id in &sleeve.fits {
            if let Some(master) = kit.master_sleeve(id) {
                checks.at_least(
                    at.key("seat_above_rim_mm"),
                    &sleeve.seat_above_rim_mm,
                    &-master.height_mm,
                    "the lower face of a master sleeve that it fits",
                );
            }
        }
    }
    for (n, sleeve) in kit.master_sleeves.iter().enumerate() {
        let at = root.key("master_sleeves").item(n);
        if let Some(recess) = sleeve.recess {
            let at = at.key("recess");
            checks.at_most(
                at.key("depth_mm"),
                &recess.depth_mm,
                &sleeve.height_mm,
                "height_mm",
            );
            let across = at.key("diameter_mm");
            checks.at_least(
                across.clone(),
                &recess.diameter_mm,
                &sleeve.bore_mm,
                "bore_mm",
            );
            checks.at_most(
                across,
                &recess.diameter_mm,
                &sleeve.outer_diameter_mm,
                "outer_diameter_mm",
            );
        }
        checks.at_most(
            at.key("bore_mm"),
            &sleeve.bore_mm,
            &sleeve.outer_diameter_mm,
            "outer_diameter_mm",
        );
    }
    for (n, stop) in kit.stops.iter().enumerate() {
        let at = root.key("stops").item(n);
        checks.at_least(
            at.key("landing_diameter_mm"),
            &stop.landing_diameter_mm,
            &stop.bore_mm,
            "bore_mm",
        );
        checks.at_least(
            at.key("body_diameter_mm"),
            &stop.body_diameter_mm,
            &stop.bore_mm,
            "bore_mm",
        );
    }
    for (n, gauge) in kit.gauges.iter().enumerate() {
        let at = root.key("gauges").item(n);
        checks.at_least(at.key("to_mm"), &gauge.to_mm, &gauge.from_mm, "from_mm");
    }
}

/// A fixed stop sits on its drill, not beyond its end.
fn fixed_lengths(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, stop) in kit.stops.iter().enumerate() {
        let StopKind::Fixed { lengths } = &stop.depth else {
            continue;
        };
        let at = root.key("stops").item(n).key("depth").key("lengths");
        for (k, length) in lengths.iter().enumerate() {
            if let Some(drill) = kit.drill(&length.drill) {
                checks.at_most(
                    at.item(k).key("tip_to_landing_mm"),
                    &length.tip_to_landing_mm,
                    &drill.overall_length_mm,
                    "overall_length_mm of its drill",
                );
            }
        }
    }
}

/// A pin and its drill pass the pin's sleeve, and the pin reaches through it.
fn check_pin(kit: &Kit, pin: &Pin, at: &Path, checks: &mut Checks) {
    let bore = pin.sleeve.bore_mm;
    checks.at_most(
        at.key("diameter_mm"),
        &pin.diameter_mm,
        &bore,
        "its sleeve's bore_mm",
    );
    checks.at_least(
        at.key("length_mm"),
        &pin.length_mm,
        &pin.sleeve.height_mm,
        "its sleeve's height_mm",
    );
    if let Some(drill) = kit.drill(&pin.drill) {
        let widest = drill.guided_diameter_mm.max(drill.cutting_diameter_mm);
        checks.at_least(
            at.key("sleeve").key("bore_mm"),
            &bore,
            &widest,
            "its drill's diameter",
        );
    }
}

/// A pass short of full depth still goes below the platform.
fn protocol_depths(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, protocol) in kit.protocols.iter().enumerate() {
        let implants = protocol.implants.iter().filter_map(|id| kit.implant(id));
        // The shortest implant is the one that the pass is short of first.
        let Some(full) = implants.map(super::Implant::full_depth).min() else {
            continue;
        };
        let at = root.key("protocols").item(n).key("steps");
        for (k, step) in protocol.steps.iter().enumerate() {
            if let DepthRule::ShortOfFull { by_mm } = step.depth {
                let at = at.item(k).key("depth").key("by_mm");
                checks.at_most(at, &by_mm, &full, "the full depth of its shortest implant");
            }
        }
    }
}

fn trays(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, tray) in kit.trays.iter().enumerate() {
        let at = root.key("trays").item(n).key("slots");
        checks.unique(&at, "name", tray.slots.iter().map(|slot| &slot.name));
        for (k, slot) in tray.slots.iter().enumerate() {
            let right = slot.left_mm + slot.width_mm;
            let near = slot.far_mm + slot.depth_mm;
            checks.at_most(
                at.item(k).key("width_mm"),
                &right,
                &tray.width_mm,
                "the tray with left_mm counted in",
            );
            checks.at_most(
                at.item(k).key("depth_mm"),
                &near,
                &tray.depth_mm,
                "the tray with far_mm counted in",
            );
            if let Some(other) = tray.slots[..k].iter().find(|other| overlap(other, slot)) {
                checks.push(
                    Fault::new(at.item(k), Rule::SlotsOverlap)
                        .with("slot", &slot.name)
                        .with("other", &other.name),
                );
            }
        }
    }
}

/// Whether two slots take some of the same room; those that touch do not.
fn overlap(one: &TraySlot, other: &TraySlot) -> bool {
    let across =
        one.left_mm < other.left_mm + other.width_mm && other.left_mm < one.left_mm + one.width_mm;
    let along =
        one.far_mm < other.far_mm + other.depth_mm && other.far_mm < one.far_mm + one.depth_mm;
    across && along
}

fn check_drill(drill: &Drill, at: &Path, checks: &mut Checks) {
    checks.at_most(
        at.key("free_length_mm"),
        &drill.free_length_mm,
        &drill.overall_length_mm,
        "overall_length_mm",
    );
    checks.at_most(
        at.key("flute_to_mm"),
        &drill.flute_to_mm,
        &drill.overall_length_mm,
        "overall_length_mm",
    );
    checks.at_most(
        at.key("point"),
        &drill.point_length(),
        &drill.overall_length_mm,
        "overall_length_mm",
    );
    if let Datum::Line { from_tip_mm } = drill.datum {
        let at = at.key("datum").key("from_tip_mm");
        checks.at_most(
            at,
            &from_tip_mm,
            &drill.overall_length_mm,
            "overall_length_mm",
        );
    }
    if let Some(span) = drill.clamp {
        let at = at.key("clamp").key("to_mm");
        checks.at_least(at.clone(), &span.to_mm, &span.from_mm, "from_mm");
        checks.at_most(
            at,
            &span.to_mm,
            &drill.overall_length_mm,
            "overall_length_mm",
        );
    }
    if let Some(from) = drill.guided_from_mm {
        checks.at_most(
            at.key("guided_from_mm"),
            &from,
            &drill.overall_length_mm,
            "overall_length_mm",
        );
    }
    checks.unique(
        &at.key("marks"),
        "name",
        drill.marks.iter().map(|m| &m.name),
    );
    for (n, mark) in drill.marks.iter().enumerate() {
        let highest = mark.upper_edge_mm.unwrap_or(mark.lower_edge_mm);
        let edge = match mark.upper_edge_mm {
            Some(_) => "upper_edge_mm",
            None => "lower_edge_mm",
        };
        checks.at_most(
            at.key("marks").item(n).key(edge),
            &highest,
            &drill.overall_length_mm,
            "overall_length_mm",
        );
        if let Some(upper) = mark.upper_edge_mm {
            let at = at.key("marks").item(n).key("upper_edge_mm");
            checks.at_least(at, &upper, &mark.lower_edge_mm, "lower_edge_mm");
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
    unique!(
        implants,
        drills,
        drill_sleeves,
        master_sleeves,
        stops,
        gauges,
        carriers,
        heads,
        drivers,
        pins,
        accessories,
        protocols,
        trays
    );
}

fn references(kit: &Kit, root: &Path, checks: &mut Checks) {
    let drills = || kit.drills.iter().map(|e| e.id.as_str());
    let sleeves = || kit.drill_sleeves.iter().map(|e| e.id.as_str());
    let masters = || kit.master_sleeves.iter().map(|e| e.id.as_str());
    let implants = || kit.implants.iter().map(|e| e.id.as_str());
    for (n, sleeve) in kit.drill_sleeves.iter().enumerate() {
        for (k, id) in sleeve.fits.iter().enumerate() {
            let at = root.key("drill_sleeves").item(n).key("fits").item(k);
            checks.reference(at, "master sleeve", id.as_str(), masters());
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
                checks.reference(at.key("sleeve"), "drill sleeve", id.as_str(), sleeves());
            }
        }
        if let Some(id) = &protocol.insertion_sleeve {
            let at = at.key("insertion_sleeve");
            checks.reference(at, "drill sleeve", id.as_str(), sleeves());
        }
    }
}
