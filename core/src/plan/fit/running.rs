//! How a drill is run: greatest speed and irrigation, of a tap the torque limit; how firmly an implant is
//! turned in; what the gauge adds.

use crate::case::{Case, Place, Rule};
use crate::kit::{Drill, DrillKind};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};

/// What the kit does not say of that, told once for the case and only where every step has its setting:
/// before that, more is open than this.
pub(in crate::plan) fn check(cuts: &[SiteCuts<'_>], out: &mut Vec<Finding>) {
    let is_set = |cut: &SiteCuts<'_>| {
        let mut steps = cut.steps.iter();
        !cut.steps.is_empty() && steps.all(|step| step.set.length().is_some())
    };
    if cuts.iter().all(is_set) {
        out.extend(drilling(cuts));
        out.extend(insertion(cuts));
    }
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
