//! How a drill is run: greatest speed and irrigation, of a tap the torque limit; how firmly an implant is
//! turned in; what the gauge adds.

use crate::case::{Case, Place, Rule};
use crate::kit::{Drill, DrillKind};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::fit::pins::PinSheet;
use std::collections::BTreeSet;

/// What the kit does not say of that, told once for the case and only where every step has its setting:
/// before that, more is open than this.
pub(in crate::plan) fn check(
    case: &Case,
    cuts: &[SiteCuts<'_>],
    pins: &[PinSheet],
    out: &mut Vec<Finding>,
) {
    let is_set = |cut: &SiteCuts<'_>| {
        let mut steps = cut.steps.iter();
        !cut.steps.is_empty() && steps.all(|step| step.set.length().is_some())
    };
    if cuts.iter().all(is_set) {
        out.extend(drilling(cuts));
        out.extend(of_pins(case, pins));
        out.extend(insertion(cuts));
    }
}

/// The same of the drills of pins that have their depth, each told once.
fn of_pins(case: &Case, pins: &[PinSheet]) -> Vec<Finding> {
    let set = pins.iter().filter(|pin| pin.set.length().is_some());
    let drills: BTreeSet<_> = set.map(|pin| &pin.drill).collect();
    let drills = drills.into_iter().filter_map(|id| case.kit.drill(id));
    let lacking = drills.filter(|drill| lacks_speed(drill) || lacks_irrigation(drill));
    let told = lacking.map(|drill| {
        let place = Place::KitEntry {
            list: "drills",
            entry: drill.id.to_string(),
        };
        let yes_no = |lacks: bool| if lacks { "yes" } else { "no" };
        Finding::new(Rule::PinDrillingDataMissing, place)
            .verdict(Verdict::Unknown)
            .arg("drill", &drill.name)
            .arg("speed", yes_no(lacks_speed(drill)))
            .arg("irrigation", yes_no(lacks_irrigation(drill)))
    });
    told.collect()
}

/// A gauge whose constant nobody entered: nobody knows what it shows of any length.
pub(in crate::plan) fn gauge(case: &Case) -> Option<Finding> {
    let gauge = case.gauge()?;
    gauge.constant_mm.is_none().then(|| {
        let place = Place::KitEntry {
            list: "gauges",
            entry: gauge.id.to_string(),
        };
        Finding::new(Rule::GaugeConstantMissing, place)
            .verdict(Verdict::Unknown)
            .arg("gauge", &gauge.name)
    })
}

/// Steps of whose drill the kit does not say all of this.
///
/// Makers limit the torque of taps; of a drill it is the speed that harms.
fn drilling(cuts: &[SiteCuts<'_>]) -> Option<Finding> {
    let steps = || cuts.iter().flat_map(|cut| cut.site.steps());
    let lacking = |lacks: fn(&Drill) -> bool| -> u32 {
        steps().map(|step| u32::from(lacks(step.drill))).sum()
    };
    let any = lacking(|drill| lacks_speed(drill) || lacks_torque(drill) || lacks_irrigation(drill));
    (any > 0).then(|| {
        let mut finding = Finding::new(Rule::DrillingDataMissing, Place::Kit)
            .verdict(Verdict::Unknown)
            .arg("steps", any)
            .arg("speed", lacking(lacks_speed))
            .arg("torque", lacking(lacks_torque))
            .arg("irrigation", lacking(lacks_irrigation));
        // Which they are is judged too: as many others lack as much.
        let drills = steps().map(|step| step.drill);
        let any =
            |drill: &&Drill| lacks_speed(drill) || lacks_torque(drill) || lacks_irrigation(drill);
        finding.bodies = drills
            .filter(any)
            .map(|drill| {
                let lacks = [lacks_speed, lacks_torque, lacks_irrigation].map(|lacks| lacks(drill));
                format!("{} {lacks:?}", drill.id)
            })
            .collect();
        finding
    })
}

/// Sites of whose implant the kit gives no greatest torque: turned in beyond it bone or implant gives way.
fn insertion(cuts: &[SiteCuts<'_>]) -> Option<Finding> {
    let without = cuts
        .iter()
        .map(|cut| cut.site.implant.torque_limit_ncm.is_none());
    let sites: u32 = without.map(u32::from).sum();
    (sites > 0).then(|| {
        let mut finding = Finding::new(Rule::InsertionTorqueMissing, Place::Kit)
            .verdict(Verdict::Unknown)
            .arg("sites", sites);
        let implants = cuts.iter().map(|cut| cut.site.implant);
        let without = implants.filter(|implant| implant.torque_limit_ncm.is_none());
        finding.bodies = without.map(|implant| implant.id.to_string()).collect();
        finding
    })
}

const fn lacks_speed(drill: &Drill) -> bool {
    drill.greatest_speed_rpm.is_none()
}

const fn lacks_torque(drill: &Drill) -> bool {
    matches!(drill.kind, DrillKind::Tap) && drill.torque_limit_ncm.is_none()
}

const fn lacks_irrigation(drill: &Drill) -> bool {
    drill.irrigation.is_none()
}
