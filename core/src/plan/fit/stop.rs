//! The fit of a stop with the drill that it is set on, and of the drill with the bore that leads
//! it: the same for the drills of a site and those of a pin.

use crate::case::Rule;
use crate::kit::{Allowances, Clearance, Drill, Gauge, Stop, StopKind, usual_allowances};
use crate::measure::Length;
use crate::plan::finding::{Allowed, Finding, Verdict};

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
    let (kit, usual) = (allowances.stop_clearance, usual_allowances().stop_clearance);
    let allowed = Allowed::clearance("stop_clearance", kit, usual, is);
    let finding = || {
        let finding = finding(Rule::StopBore).arg("stop", &stop.name);
        of_clearance(kit, is, finding)
    };
    allowed.told(finding, Verdict::Short)
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
    let (kit, is) = (allowances.guided_clearance, bore - leads);
    let finding = || of_clearance(kit, is, finding(Rule::GuidedClearance));
    Allowed::guided(kit, is).told(finding, Verdict::Short)
}

/// Overlap, on each side, of a stop's landing face over a bore.
pub(super) fn landing(
    allowances: &Allowances,
    overlap: Length,
    finding: impl FnOnce() -> Finding,
) -> Option<Finding> {
    let (least, usual) = (
        allowances.least_landing_mm,
        usual_allowances().least_landing_mm,
    );
    let allowed = Allowed::least("least_landing_mm", least, usual, overlap);
    let finding = || finding().length(overlap).limit(least);
    allowed.told(finding, Verdict::Short)
}

/// A finding about a clearance, with what the kit allows.
pub(super) fn of_clearance(allowed: Clearance, is: Length, finding: Finding) -> Finding {
    finding
        .length(is)
        .limit(allowed.nearest(is))
        .arg("least", allowed.least_mm)
        .arg("most", allowed.most_mm)
}
