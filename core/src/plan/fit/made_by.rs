//! A guide that was made, against what it was made by: what changed since it does not know.

use crate::case::{
    Case, CasePin, GuideState, MadeBy, Place, Placement, Receipt, ReceiptOf, Rule, Site,
    SiteHeight, SiteMadeBy, SitePlace, SleeveMadeBy, Support,
};
use crate::dentition::ToothPosition;
use crate::plan::finding::{CommonCause, Finding, Verdict};
use serde_json::json;

/// What of the plan is otherwise than when the guide was made. While it stays made, distance, axis and sleeve of its sites
/// cannot be ([`crate::case::apply`]) but where a site was taken out and planned anew; while it is set back, all may.
pub(in crate::plan) fn check(case: &Case, out: &mut Vec<Finding>) {
    if case.guide.state != GuideState::Made {
        return;
    }
    let Some(made) = &case.guide.made_by else {
        let sites = case.sites.iter();
        let offsets: Vec<_> = sites
            .map(|site| (&site.id, site.platform_to_sleeve))
            .collect();
        // Nobody can say what of it changed: it is accepted of the plan as it is, by who compared the two.
        let mut unrecorded = finding(Place::Sites, "unrecorded", 0, Verdict::Unknown);
        unrecorded
            .bodies
            .push(json!([case.made_by_now(), offsets]).to_string());
        out.push(unrecorded);
        out.extend(case.sites.iter().filter_map(|site| depth(site, None)));
        return;
    };
    out.extend(arch(case, made));
    out.extend(held(case, made));
    out.extend(teeth_lost(case, made));
    for site in &case.sites {
        let then = made.site(&site.id);
        out.extend(depth(site, then));
        match then {
            None => out.push(added(site)),
            Some(then) => changed(case, site, then, out),
        }
    }
    let is_gone = |id: &_| case.sites.iter().all(|site| site.id != *id);
    let gone = made.sites.iter().filter(|one| is_gone(&one.site));
    let gone = u32::try_from(gone.count()).unwrap_or(u32::MAX);
    if gone > 0 {
        out.push(finding(Place::Sites, "removed", gone, Verdict::Note));
    }
}

fn at(site: &Site, place: SitePlace) -> Place {
    Place::Site(site.id.clone(), place)
}

/// A site that was planned since. Whether the guide has a sleeve there, and on this axis, only a look at it tells.
fn added(site: &Site) -> Finding {
    finding(at(site, SitePlace::Whole), "added", 0, Verdict::Unknown)
}

/// A site that the guide was made for, otherwise than it was.
fn changed(case: &Case, site: &Site, then: &SiteMadeBy, out: &mut Vec<Finding>) {
    if (then.tooth, then.placement) != (site.tooth, site.placement) {
        let moved = at(site, SitePlace::Placement);
        let moved = finding(moved, "moved", 0, Verdict::Unknown);
        out.push(moved.hanging_on(of_other_plan(case, site, None)));
    }
    out.extend(sleeve(case, site, then));
    let implant = case.kit.implant(&site.implant);
    let implant = implant.map(|one| (&one.id, one.platform_to_apex_mm, one.apical_allowance_mm));
    let was = (
        &then.implant,
        then.platform_to_apex_mm,
        then.apical_allowance_mm,
    );
    if implant != Some(was) || then.guided_extent != site.guided_extent {
        let place = at(site, SitePlace::Whole);
        out.push(finding(place, "implant", 0, Verdict::Note));
    }
}

/// A sleeve or an offset that the guide was not made with, or nobody knows whether it was. An offset that was entered since
/// says nothing against the guide; its measure on receipt does.
fn sleeve(case: &Case, site: &Site, then: &SiteMadeBy) -> Option<Finding> {
    let (what, cause) = if then.sleeve.is_some() {
        let is_other = is_other_sleeve(case, site, then);
        let cause = || of_other_plan(case, site, None);
        is_other.then(|| ("sleeve", cause()))
    } else {
        // It may have been set back and planned otherwise.
        case.sleeve_now(site)?;
        let measured = case.received(site, ReceiptOf::PlatformToSleeve);
        // What was measured on it may be known, but of the plan by which it was made.
        let mut latest = case.guide.receipt.iter().rev();
        let is_it = |one: &&Receipt| one.site == site.id && one.of == ReceiptOf::PlatformToSleeve;
        let mut cause = || {
            latest
                .find(is_it)
                .and_then(|one| of_other_plan(case, site, Some(one)))
        };
        measured.is_none().then(|| ("sleeve_unrecorded", cause()))
    }?;
    let place = at(site, SitePlace::PlatformToSleeve);
    Some(finding(place, what, 0, Verdict::Unknown).hanging_on(cause))
}

/// True if the site had another sleeve, or another offset of it, when the guide was made, as far as it is recorded.
fn is_other_sleeve(case: &Case, site: &Site, then: &SiteMadeBy) -> bool {
    let Some((made, now)) = then.sleeve.as_ref().zip(case.sleeve_now(site)) else {
        return false;
    };
    let measures = |one: &SleeveMadeBy| {
        let offset = one.offset.or(now.offset);
        let to_apical = offset.map(|offset| offset.to_apical_face(one.height_mm));
        (one.height_mm, one.bore_mm, to_apical)
    };
    made.master_sleeve != now.master_sleeve || measures(made) != measures(&now)
}

/// That the guide is of another plan of the site, as a cause on which others hang: what was measured on it, where it was planned
/// there then as it was made.
pub(super) fn of_other_plan(
    case: &Case,
    site: &Site,
    measured: Option<&Receipt>,
) -> Option<CommonCause> {
    let made = case.guide.made_by.as_deref();
    let made = made.filter(|_| case.guide.state == GuideState::Made)?;
    let then = made.site(&site.id)?;
    let is_other = (then.tooth, then.placement) != (site.tooth, site.placement)
        || is_other_sleeve(case, site, then);
    let is_of_it = measured.is_none_or(|receipt| {
        let taken_on = receipt.taken_on.as_ref();
        taken_on.is_some_and(|on| {
            let sleeve = then.sleeve.as_ref();
            let is_sleeve = sleeve.is_none_or(|made| {
                let offset = made.offset.or(on.platform_to_sleeve);
                made.master_sleeve == on.master_sleeve && offset == on.platform_to_sleeve
            });
            on.code == case.guide.code && on.placement == then.placement && is_sleeve
        })
    });
    (is_other && is_of_it).then(|| CommonCause::GuideOfOtherPlan(site.id.clone()))
}

/// Another depth below the crest than by the last reading over the guide, or than it was made by. Nobody but a person knows
/// whether the crest was read anew or another depth is meant: the guide leads the implant where it did.
fn depth(site: &Site, made: Option<&SiteMadeBy>) -> Option<Finding> {
    let heights = &site.heights;
    let now = heights.platform_below_crest?;
    let made = made.map(|made| made.platform_below_crest);
    let led = heights.crest_taken_away.filter(|_| heights.is_off_guide());
    let word = heights.crest_read.as_ref();
    let word = word.filter(|word| word.counts());
    let (how, then) = match (led, made, word) {
        (Some(led), ..) => ("led", led),
        (None, Some(Some(made)), _) if made == now => return None,
        (None, None, None) => return None,
        (None, _, Some(word)) => ("word", word.before),
        (None, Some(Some(made)), None) => ("read", made),
        (None, Some(None), None) => ("none", now),
    };
    let place = at(site, SitePlace::Height(SiteHeight::PlatformBelowCrest));
    let finding = Finding::new(Rule::DepthOverMadeGuide, place).verdict(Verdict::Unknown);
    let by = word.map_or("", |word| word.by.as_str());
    Some(
        finding
            .arg("then", how)
            .arg("by", by)
            .arg("highest_then", then.highest_mm)
            .arg("lowest_then", then.lowest_mm)
            .arg("highest", now.highest_mm)
            .arg("lowest", now.lowest_mm),
    )
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

/// Teeth that the guide was made to rest on and that hold it no longer, or of which that is not entered any more. As long
/// as it is to rest on teeth, those that are left hold it: how, only a try in the mouth tells. Where nobody recorded which
/// those were, each that does not hold it now may be one of them, but where it was made for a site.
fn teeth_lost(case: &Case, made: &MadeBy) -> Option<Finding> {
    if matches!(case.guide.support, Support::Mucosa | Support::Bone) {
        return None;
    }
    let holds = |position| {
        case.teeth_that_hold()
            .any(|tooth| tooth.position == position)
    };
    if made.rests_on_unrecorded_teeth() {
        let is_site = |position| made.sites.iter().any(|site| site.tooth == position);
        let mut jaw = ToothPosition::all_of(case.jaw);
        let first = jaw.find(|position| !holds(*position) && !is_site(*position))?;
        let finding = Finding::new(Rule::GuideTeethLost, Place::Pins).verdict(Verdict::Unknown);
        let finding = finding.arg("position", first).arg("count", 0);
        return Some(finding.arg("rest", "unrecorded"));
    }
    let lost: Vec<_> = made.teeth.iter().filter(|one| !holds(**one)).collect();
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let first = *lost.first()?;
    let all_lost = lost.len() == made.teeth.len();
    let rest = if all_lost { "none" } else { "some" };
    let finding = Finding::new(Rule::GuideTeethLost, Place::Pins).verdict(Verdict::Unknown);
    let mut finding = finding
        .arg("position", *first)
        .arg("count", count(lost.len()))
        .arg("rest", rest);
    finding.bodies.push(json!(lost).to_string());
    Some(finding)
}

fn finding(place: Place, what: &'static str, count: u32, verdict: Verdict) -> Finding {
    let finding = Finding::new(Rule::GuideMadeByOther, place).verdict(verdict);
    finding.arg("what", what).arg("count", count)
}
