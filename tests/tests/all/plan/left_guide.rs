//! What was drilled through a guide before it was left is in the bone, whatever is planned there afterwards.

use super::sample::{all, mm, one, worked};
use traywright_core::case::{Case, GuidedExtent, StepThrough, WithoutGuide};
use traywright_core::kit::DepthRule;
use traywright_core::plan::{CommonCause, FindingLine, Verdict, Worksheet, by_cause};

/// The sample, where all its steps went through the guide and the implant did not, changed since.
fn left_and_then(change: impl FnOnce(&mut Case)) -> Worksheet {
    worked(|case| {
        let site = &mut case.sites[0];
        let through = site.steps.iter().map(StepThrough::of).collect();
        site.without_guide = Some(WithoutGuide::of(site, through, false));
        change(case);
    })
}

fn canal(sheet: &Worksheet) -> Verdict {
    one(sheet, "deep-structure").verdict
}

/// A shorter implant, or drills that stop coronal of the apex, leave more above a canal; what was drilled through the
/// guide is as deep as it was. All of it is one line, of the guide.
#[test]
fn what_went_through_a_guide_that_was_left_is_cut_whatever_is_planned_since() {
    assert_eq!(canal(&left_and_then(|_| ())), Verdict::Clear);
    let shorter = |case: &mut Case| {
        let mut other = case.kit.implants[0].clone();
        other.id = "shorter".into();
        other.platform_to_apex_mm = mm("8");
        case.kit.implants.push(other);
        case.sites[0].implant = "shorter".into();
        super::sample::measure_anew(case);
    };
    let coronal = |case: &mut Case| {
        case.sites[0].steps[0].depth = DepthRule::ShortOfFull { by_mm: mm("0.8") };
    };
    for change in [shorter as fn(&mut Case), coronal] {
        assert_eq!(
            canal(&worked(change)),
            Verdict::Clear,
            "the guide was not left"
        );
        let sheet = left_and_then(change);
        assert_eq!(canal(&sheet), Verdict::Unknown);
        let lines = by_cause(sheet.findings.iter().collect(), |one| one);
        let of_guide = lines.iter().filter_map(|line| match line {
            FindingLine::Cause(CommonCause::GuideLeft(_), folded) => Some(folded.len()),
            _ => None,
        });
        assert!(of_guide.sum::<usize>() > 1);
    }
    // A step more was cut by nobody yet.
    let more = left_and_then(|case| {
        let mut step = case.sites[0].steps[0].clone();
        step.id = "more".into();
        case.sites[0].steps.push(step);
    });
    assert_eq!(canal(&more), Verdict::Clear);
}

/// The guide was to lead the implant too: that it did not is no less so for an extent that is entered afterwards.
#[test]
fn another_guided_extent_leaves_a_guide_left() {
    assert_eq!(all(&left_and_then(|_| ()), "guide-left").len(), 1);
    for extent in [GuidedExtent::AllDrilling, GuidedExtent::PilotOnly] {
        let sheet = left_and_then(|case| case.sites[0].guided_extent = extent);
        assert!(!all(&sheet, "guide-left").is_empty(), "{extent:?}");
    }
}
