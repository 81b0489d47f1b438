//! What is in the bone of a site already, by a plan that was changed since: held against the implant that is planned now.
//!
//! | what is there | verdict |
//! | --- | --- |
//! | deeper than the implant with its allowance, or wider than the implant where it cuts | short: what is drilled stays empty, or gives no hold |
//! | another implant, or what nobody knows the depth of | unknown |
//! | anything else that no step of the plan cuts so | note |
//!
//! What it leaves to nerve, wall and neighbours is judged with all other cuts.

use crate::case::{CutBefore, Rule, SitePlace};
use crate::kit::DrillKind;
use crate::measure::Length;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::steps::StepSheet;
use crate::plan::finding::{Finding, Verdict};

/// The worst of what is there by depth, by width, and of what nobody knows: none of them hides another.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let all = || cut.site.cut_before();
    let steps = || cut.site.at(SitePlace::Steps);
    let finding = |rule, place, how: &str, one: &CutBefore| {
        let finding = Finding::new(rule, place);
        finding.arg("how", how).arg("name", &one.name)
    };
    let depth = cut.site.implant.full_depth() + cut.site.implant_deficit();
    let known = || all().filter_map(|one| Some((one, tip(cut, one)?, one.kind?)));
    let deepest = known().map(|(one, tip, _)| (one, tip - one.tip_to_datum_mm));
    let not_planned = |one: &CutBefore| !cut.steps.iter().any(|step| is_as_planned(step, one));
    let deepest = deepest.filter(|(one, tip)| *tip > depth || not_planned(one));
    let wide = known().map(|(one, tip, kind)| (one, widest(cut, kind, tip - one.point_mm)));
    let wide = wide.filter(|(one, limit)| one.diameter_mm > *limit);
    let widest = wide.max_by_key(|(one, limit)| one.diameter_mm - *limit);
    let is_wide = widest.is_some();
    if let Some((one, limit)) = widest {
        let finding = finding(Rule::CutBefore, cut.site.at(SitePlace::Whole), "wider", one);
        let finding = finding.verdict(Verdict::Short);
        out.push(finding.length(one.diameter_mm).limit(limit));
    }
    if let Some((one, tip)) = deepest.max_by_key(|(_, tip)| *tip) {
        let (how, verdict) = if tip > depth {
            ("deeper", Verdict::Short)
        } else {
            ("within", Verdict::Note)
        };
        let finding = finding(Rule::CutBefore, steps(), how, one);
        if verdict == Verdict::Short || !is_wide {
            out.push(finding.verdict(verdict).length(tip).limit(depth));
        }
    }
    let unknown = Rule::CutBeforeUnknown;
    if let Some(one) = all().find(|one| one.kind.is_some() && tip(cut, one).is_none()) {
        out.push(finding(unknown, steps(), "unknown", one).verdict(Verdict::Unknown));
    }
    if let Some(one) = all().find(|one| one.kind.is_none() && !is_planned_implant(cut, one)) {
        let place = cut.site.at(SitePlace::Whole);
        out.push(finding(unknown, place, "implant", one).verdict(Verdict::Unknown));
    }
}

fn tip(cut: &SiteCuts<'_>, one: &CutBefore) -> Option<Length> {
    one.tip(cut.site.site, cut.site.case)
}

fn is_planned_implant(cut: &SiteCuts<'_>, one: &CutBefore) -> bool {
    let implant = cut.site.implant;
    let is_it = one.name == implant.name && one.diameter_mm == implant.largest_diameter_mm;
    is_it && tip(cut, one) == Some(cut.site.implant_end())
}

/// The widest that a drill of a kind may be that is as wide down to a depth: with its collar an implant is wider there.
fn widest(cut: &SiteCuts<'_>, kind: DrillKind, down_to: Length) -> Length {
    let implant = cut.site.implant;
    match kind {
        DrillKind::Profile if implant.profile.is_empty() => implant.largest_diameter_mm,
        DrillKind::Profile => implant
            .widest_from(down_to.max(Length::ZERO))
            .max(implant.diameter_mm),
        _ => implant.diameter_mm,
    }
}

fn is_as_planned(step: &StepSheet, one: &CutBefore) -> bool {
    one.step.as_ref() == Some(&step.id)
        && one.diameter_mm == step.diameter
        && one.point_mm == step.point
        && one.tip_mm == step.cut.length()
}
