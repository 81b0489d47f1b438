//! A guide that was made, against what it was made by: what changed since it does not know.

use crate::case::{
    Case, CasePin, GuideState, MadeBy, Place, Placement, ReceiptOf, Rule, SitePlace,
};
use crate::plan::finding::{Finding, Verdict};
use serde_json::json;

/// What of the plan is otherwise than when the guide was made. Distance, axis and sleeve of its sites cannot be
/// ([`crate::case::apply`]).
pub(in crate::plan) fn check(case: &Case, out: &mut Vec<Finding>) {
    if case.guide.state != GuideState::Made {
        return;
    }
    let Some(made) = &case.guide.made_by else {
        out.push(finding(Place::Sites, "unrecorded", 0, Verdict::Note));
        return;
    };
    out.extend(arch(case, made));
    out.extend(held(case, made));
    for site in &case.sites {
        let place = || Place::Site(site.id.clone(), SitePlace::Whole);
        let then = made.sites.iter().find(|one| one.site == site.id);
        match then {
            // What was measured on the guide at a site it has.
            None if case.received(site, ReceiptOf::PlatformToSleeve).is_some() => {}
            None => out.push(finding(place(), "added", 0, Verdict::Unknown)),
            Some(then) if case.site_now(site).as_ref() == Some(then) => {}
            Some(_) => out.push(finding(place(), "implant", 0, Verdict::Note)),
        }
    }
    let is_gone = |id: &_| case.sites.iter().all(|site| site.id != *id);
    let gone = made.sites.iter().filter(|one| is_gone(&one.site));
    let gone = u32::try_from(gone.count()).unwrap_or(u32::MAX);
    if gone > 0 {
        out.push(finding(Place::Sites, "removed", gone, Verdict::Note));
    }
}

/// The arch under a guide whose sites stand on it: where they are in the mouth the guide says alone.
fn arch(case: &Case, made: &MadeBy) -> Option<Finding> {
    let mut sites = case.sites.iter();
    let on_arch = sites.any(|site| matches!(site.placement, Placement::OnArch { .. }));
    (on_arch && made.arch != case.arch).then(|| {
        let mut finding = finding(Place::Arch, "arch", 0, Verdict::Unknown);
        finding
            .bodies
            .push(json!([made.arch, case.arch]).to_string());
        finding
    })
}

/// What holds the guide and how the bone is reached; what a pin is called is neither.
fn held(case: &Case, made: &MadeBy) -> Option<Finding> {
    let pins = |pins: &[CasePin]| -> Vec<_> {
        let places = pins.iter();
        let places = places.map(|pin| json!([pin.pin, pin.at, pin.along_mm, pin.buccal_mm]));
        places.collect()
    };
    let now = &case.guide;
    let now = json!([now.support, now.access, pins(&now.pins)]);
    let then = json!([made.support, made.access, pins(&made.pins)]);
    (then != now).then(|| {
        let mut finding = finding(Place::Pins, "held", 0, Verdict::Unknown);
        finding.bodies.push(json!([then, now]).to_string());
        finding
    })
}

fn finding(place: Place, what: &'static str, count: u32, verdict: Verdict) -> Finding {
    let finding = Finding::new(Rule::GuideMadeByOther, place).verdict(verdict);
    finding.arg("what", what).arg("count", count)
}
