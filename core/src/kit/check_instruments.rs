//! Checks of the values of one instrument, or of two that belong together, against each other.

use super::{Datum, Drill, Kit, Pin, StopKind};
use crate::document::{Checks, Path};
use crate::measure::Length;

/// The most by which an implant that was measured may be thinner than its name says. Common practice, no source.
const OUTLINE_BELOW_NAME: Length = Length::from_um(100);

pub(super) fn implants(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, implant) in kit.implants.iter().enumerate() {
        let at = root.key("implants").item(n);
        checks.at_least(
            at.key("largest_diameter_mm"),
            &implant.largest_diameter_mm,
            &implant.diameter_mm,
            "diameter_mm",
        );
        // An outline that is nowhere nearly as wide as the implant is of another one; a piece that was measured may
        // be a little thinner than its name says.
        let widest = implant.profile.iter().map(|p| p.diameter_mm).max();
        let widest = widest.map(|widest| widest + OUTLINE_BELOW_NAME);
        if let Some(widest) = widest.filter(|widest| *widest < implant.diameter_mm) {
            checks.at_least(
                at.key("profile"),
                &widest,
                &implant.diameter_mm,
                "diameter_mm",
            );
        }
        let mut above = Length::ZERO;
        for (k, point) in implant.profile.iter().enumerate() {
            let at = at.key("profile").item(k);
            let depth = at.key("below_platform_mm");
            checks.at_least(
                depth.clone(),
                &point.below_platform_mm,
                &above,
                "point-before",
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

pub(super) fn sleeves_stops_gauges(kit: &Kit, root: &Path, checks: &mut Checks) {
    for (n, sleeve) in kit.drill_sleeves.iter().enumerate() {
        let at = root.key("drill_sleeves").item(n);
        let wall = sleeve.barrel_diameter_mm;
        checks.at_most(
            at.key("bore_mm"),
            &sleeve.bore_mm,
            &wall,
            "barrel_diameter_mm",
        );
        checks.at_least(
            at.key("flange_diameter_mm"),
            &sleeve.flange_diameter_mm,
            &sleeve.bore_mm,
            "bore_mm",
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
                    "face-of-its-master",
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
pub(super) fn fixed_lengths(kit: &Kit, root: &Path, checks: &mut Checks) {
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
                    "length-of-its-drill",
                );
            }
        }
    }
}

/// A pin and its drill pass the pin's sleeve, and the pin reaches through it.
pub(super) fn check_pin(kit: &Kit, pin: &Pin, at: &Path, checks: &mut Checks) {
    let bore = pin.sleeve.bore_mm;
    checks.at_most(
        at.key("diameter_mm"),
        &pin.diameter_mm,
        &bore,
        "bore-of-its-sleeve",
    );
    checks.at_least(
        at.key("length_mm"),
        &pin.length_mm,
        &pin.sleeve.height_mm,
        "height-of-its-sleeve",
    );
    if let Some(drill) = kit.drill(&pin.drill) {
        let widest = drill.guided_diameter_mm.max(drill.cutting_diameter_mm);
        checks.at_least(
            at.key("sleeve").key("bore_mm"),
            &bore,
            &widest,
            "diameter-of-its-drill",
        );
    }
}

pub(super) fn check_drill(drill: &Drill, at: &Path, checks: &mut Checks) {
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
