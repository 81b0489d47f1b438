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

/// The worst of what is there, if anything is told of it: one finding, which names it.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let told = cut.site.cut_before().filter_map(|one| told(cut, one));
    let worst = told.max_by_key(|(_, rank, by, _)| (*rank, *by));
    let Some((one, _, by, told)) = worst else {
        return;
    };
    let finding = Finding::new(Rule::CutBefore, cut.site.at(SitePlace::Steps));
    let finding = finding
        .arg("how", told.how)
        .arg("name", &one.name)
        .verdict(told.verdict);
    out.push(match told.limit {
        Some(limit) => finding.length(by).limit(limit),
        None => finding,
    });
}

struct Told {
    how: &'static str,
    verdict: Verdict,
    limit: Option<Length>,
}

/// How it is told of one, with its rank and its figure.
fn told<'a>(cut: &SiteCuts<'_>, one: &'a CutBefore) -> Option<(&'a CutBefore, u8, Length, Told)> {
    let site = &cut.site;
    let implant = site.implant;
    let told = |rank, by, how, verdict, limit| {
        let told = Told {
            how,
            verdict,
            limit,
        };
        Some((one, rank, by, told))
    };
    let Some(kind) = one.kind else {
        let another = one.name != implant.name || one.diameter_mm != implant.largest_diameter_mm;
        let another = another || one.tip(site.site, site.kit) != Some(site.implant_end());
        return another
            .then(|| told(4, Length::ZERO, "implant", Verdict::Unknown, None))
            .flatten();
    };
    let Some(tip) = one.tip(site.site, site.kit) else {
        return told(3, Length::ZERO, "unknown", Verdict::Unknown, None);
    };
    let depth = tip - one.tip_to_datum_mm;
    let deepest = implant.full_depth() + site.implant_deficit();
    if depth > deepest {
        return told(2, depth, "deeper", Verdict::Short, Some(deepest));
    }
    let widest = widest(cut, kind, tip - one.point_mm);
    if one.diameter_mm > widest {
        return told(1, one.diameter_mm, "wider", Verdict::Short, Some(widest));
    }
    if cut.steps.iter().any(|step| is_as_planned(step, one)) {
        return None;
    }
    told(0, depth, "within", Verdict::Note, Some(deepest))
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
