//! The fit of a stop with the drill that it is set on, and of the drill with the bore that leads
//! it: the same for the drills of a site and those of a pin.

use crate::case::Rule;
use crate::kit::{Allowances, Clearance, Drill, Gauge, Stop, StopKind};
use crate::measure::Length;
use crate::plan::finding::{Finding, Verdict};

/// A gauge that shows settings of stops, but nobody knows from which face.
pub(in crate::plan) fn gauge_face(
    gauge: &Gauge,
    finding: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    gauge.reads.is_none().then(|| {
        finding(Rule::GaugeFaceUnknown)
            .verdict(Verdict::Unknown)
            .arg("gauge", &gauge.name)
    })
}

/// Landing face and body of an adjustable stop on the drill's clamping length.
pub(in crate::plan) fn clamp(
    drill: &Drill,
    stop: &Stop,
    set: Option<Length>,
    finding: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    if !matches!(stop.depth, StopKind::Adjustable {}) {
        return None;
    }
    let Some(span) = drill.clamp else {
        return Some(finding(Rule::ClampUnknown).verdict(Verdict::Unknown));
    };
    let set = set?;
    let (value, limit) = if set < span.from_mm {
        (set, span.from_mm)
    } else if set + stop.body_height_mm > span.to_mm {
        (set + stop.body_height_mm, span.to_mm)
    } else {
        return None;
    };
    Some(
        finding(Rule::OffClampingLength)
            .verdict(Verdict::Short)
            .length(value)
            .limit(limit)
            .arg("stop", &stop.name)
            .arg("from", span.from_mm)
            .arg("to", span.to_mm),
    )
}

/// The stop's bore on the drill's seat for stops.
pub(in crate::plan) fn stop_bore(
    drill: &Drill,
    stop: &Stop,
    allowances: &Allowances,
    finding: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    let Some(seat) = drill.stop_seat_diameter_mm else {
        return Some(
            finding(Rule::StopSeatUnknown)
                .verdict(Verdict::Unknown)
                .arg("stop", &stop.name),
        );
    };
    let is = stop.bore_mm - seat;
    clearance(allowances.stop_clearance, is, || finding(Rule::StopBore))
        .map(|finding| finding.arg("stop", &stop.name))
}

/// The drill in the bore that leads it; a wider cutting part has to pass that bore as well.
pub(in crate::plan) fn guided(
    drill: &Drill,
    bore: Length,
    allowances: &Allowances,
    finding: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    let leads = if drill.cutting_diameter_mm > bore {
        drill.cutting_diameter_mm
    } else {
        drill.guided_diameter_mm
    };
    clearance(allowances.guided_clearance, bore - leads, || {
        finding(Rule::GuidedClearance)
    })
}

/// A clearance that is less or more than the kit allows.
fn clearance(allowed: Clearance, is: Length, finding: impl FnOnce() -> Finding) -> Option<Finding> {
    (!allowed.allows(is)).then(|| {
        finding()
            .verdict(Verdict::Short)
            .length(is)
            .limit(allowed.nearest(is))
            .arg("least", allowed.least_mm)
            .arg("most", allowed.most_mm)
    })
}
