//! Figures of the kit that no instrument has: a slip of a digit turns a drill too fast, an implant too hard, or
//! takes a bore too deep.

use crate::case::{Case, Place, Rule};
use crate::kit::{Datum, Drill, DrillKind, Implant};
use crate::measure::{Length, Speed, Torque};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};
use std::collections::BTreeMap;

/// Greatest speed of a drill and of a tap, at most. Common practice, no source: drills run to some 2,000, taps to
/// some 50 turns a minute.
const MOST_SPEED: [Speed; 2] = [Speed::from_rpm(3_000), Speed::from_rpm(100)];

/// Greatest torque of an implant or an instrument, at least and at most. Common practice, no source: implants are
/// turned in to some 35, and to hardly any more than 70 N·cm.
const TORQUE: [Torque; 2] = [Torque::from_ncm(5), Torque::from_ncm(80)];

/// Depth beyond the apex that a maker asks for, at most. Common practice, no source: half a millimetre or one.
const MOST_ALLOWANCE: Length = Length::from_um(1_500);

/// Of the drills and implants that the case uses, each told once.
pub(in crate::plan) fn check(case: &Case, cuts: &[SiteCuts<'_>], out: &mut Vec<Finding>) {
    let steps = cuts.iter().flat_map(|cut| cut.site.steps());
    let of_pins = case.guide.pins.iter();
    let of_pins = of_pins.filter_map(|pin| case.kit.drill(&case.kit.pin(&pin.pin)?.drill));
    let drills = steps.map(|step| step.drill).chain(of_pins);
    let drills: BTreeMap<_, &Drill> = drills.map(|drill| (&drill.id, drill)).collect();
    for drill in drills.values() {
        out.extend(speed(drill));
        out.extend(flat_point(drill));
        out.extend(torque(
            "drills",
            (drill.id.as_str(), drill.name.as_str()),
            drill.torque_limit_ncm,
        ));
    }
    let implants = cuts.iter().map(|cut| cut.site.implant);
    let implants: BTreeMap<_, &Implant> = implants.map(|one| (&one.id, one)).collect();
    for implant in implants.values() {
        out.extend(torque(
            "implants",
            (implant.id.as_str(), implant.name.as_str()),
            implant.torque_limit_ncm,
        ));
        out.extend(allowance(implant));
    }
}

fn finding(rule: Rule, list: &'static str, (id, name): (&str, &str)) -> Finding {
    let entry = id.to_owned();
    let finding = Finding::new(rule, Place::KitEntry { list, entry });
    finding.verdict(Verdict::Unknown).arg("name", name)
}

fn of_drill(rule: Rule, drill: &Drill) -> Finding {
    finding(rule, "drills", (drill.id.as_str(), drill.name.as_str()))
}

fn speed(drill: &Drill) -> Option<Finding> {
    let most = MOST_SPEED[usize::from(drill.kind == DrillKind::Tap)];
    let entered = drill.greatest_speed_rpm.filter(|speed| *speed > most)?;
    let finding = of_drill(Rule::SpeedFarOff, drill).arg("is", entered.rpm());
    Some(finding.arg("usual", most.rpm()))
}

fn torque(list: &'static str, named: (&str, &str), entered: Option<Torque>) -> Option<Finding> {
    let entered = entered?;
    let [least, most] = TORQUE;
    let usual = if entered < least {
        least
    } else if entered > most {
        most
    } else {
        return None;
    };
    let finding = finding(Rule::TorqueFarOff, list, named)
        .arg("is", entered)
        .arg("usual", usual);
    Some(finding.arg("side", if entered < least { "less" } else { "more" }))
}

fn allowance(implant: &Implant) -> Option<Finding> {
    let entered = implant.apical_allowance_mm;
    (entered > MOST_ALLOWANCE).then(|| {
        let named = (implant.id.as_str(), implant.name.as_str());
        let finding = finding(Rule::AllowanceFarOff, "implants", named);
        finding.length(entered).limit(MOST_ALLOWANCE)
    })
}

/// A drill whose depth is counted where its full diameter begins, though it has no point: then that is its tip, and
/// nobody would count it otherwise.
fn flat_point(drill: &Drill) -> Option<Finding> {
    let is_flat = drill.point_length() <= Length::ZERO;
    let counted = matches!(drill.datum, Datum::FullDiameter {});
    (is_flat && counted).then(|| of_drill(Rule::FlatPointCounted, drill))
}
