//! What was drilled through a guide before it was left is in the bone, whatever is planned there afterwards.

use super::sample::{all, mm, one, shown, worked};
use traywright_core::case::{
    Case, CutBefore, GuideState, GuidedExtent, PlatformThen, StepThrough, WithoutGuide,
};
use traywright_core::kit::DepthRule;
use traywright_core::plan::{CommonCause, FindingLine, StepSheet, Verdict, Worksheet, by_cause};

/// The sample, where all its steps went through the guide and the implant did not, changed since.
fn left_and_then(change: impl FnOnce(&mut Case)) -> Worksheet {
    let planned = worked(|_| ());
    worked(|case| {
        let steps = planned.sites[0].steps.iter();
        let cut = steps.map(|step| cut_before(case, step)).collect();
        let site = &mut case.sites[0];
        let through = site.steps.iter().map(StepThrough::of).collect();
        site.without_guide = Some(WithoutGuide::of(site, through, false));
        site.cut_before = cut;
        change(case);
    })
}

/// What a step of the first site cut by its plan.
fn cut_before(case: &Case, step: &StepSheet) -> CutBefore {
    let drill = case.kit.drill(&step.drill).unwrap();
    CutBefore {
        name: drill.name.clone(),
        event: None,
        at: None,
        out: false,
        step: Some(step.id.clone()),
        kind: Some(drill.kind),
        tip_mm: step.cut.length(),
        point_mm: step.point,
        tip_to_datum_mm: drill.datum_from_tip(),
        diameter_mm: step.diameter,
        from: PlatformThen::of(&case.sites[0], case, true),
        purpose: case.purpose(),
    }
}

fn canal(sheet: &Worksheet) -> (Verdict, String) {
    let found = one(sheet, "deep-structure");
    (found.verdict, shown(found.figure.as_ref().unwrap()))
}

fn shorter(case: &mut Case) {
    let mut other = case.kit.implants[0].clone();
    other.id = "shorter".into();
    other.platform_to_apex_mm = mm("8");
    case.kit.implants.push(other);
    case.sites[0].implant = "shorter".into();
    super::sample::measure_anew(case);
}

/// A shorter implant, drills that stop coronal of the apex, one figure for all, another extent, less allowance, a coarser gauge: each
/// would leave more above a canal; what was drilled through the guide is as deep as it was.
#[test]
fn what_went_through_a_guide_that_was_left_is_cut_whatever_is_planned_since() {
    let before = canal(&left_and_then(|_| ()));
    assert_eq!(before, canal(&worked(|_| ())));
    assert_eq!(before.0, Verdict::Clear);
    let coronal = |case: &mut Case| {
        case.sites[0].steps[0].depth = DepthRule::ShortOfFull { by_mm: mm("0.8") };
        for step in &mut case.sites[0].steps {
            step.depth = DepthRule::ShortOfFull { by_mm: mm("0.8") };
        }
    };
    let pilot = |case: &mut Case| case.sites[0].guided_extent = GuidedExtent::PilotOnly;
    let allowance = |case: &mut Case| {
        for implant in &mut case.kit.implants {
            implant.apical_allowance_mm = mm("0");
        }
    };
    let none = |case: &mut Case| case.sites[0].steps.truncate(1);
    let changes: [fn(&mut Case); 5] = [shorter, coronal, pilot, allowance, none];
    for (n, change) in changes.into_iter().enumerate() {
        let (verdict, left) = canal(&left_and_then(change));
        assert!(
            verdict != Verdict::Clear || mm(&left) <= mm(&before.1),
            "{n}: {left}"
        );
    }
    // Without what was cut kept, a shorter implant leaves more.
    let (verdict, left) = canal(&worked(shorter));
    assert_eq!(verdict, Verdict::Clear);
    assert!(mm(&left) > mm(&before.1));
    // A step more was cut by nobody yet.
    let more = left_and_then(|case| {
        let mut step = case.sites[0].steps[0].clone();
        step.id = "more".into();
        case.sites[0].steps.push(step);
    });
    assert_eq!(canal(&more).0, Verdict::Clear);
}

/// A program before these rules kept nothing of what was cut: nobody knows, and all of it is one line, of the guide.
#[test]
fn what_an_older_program_did_not_keep_nobody_knows() {
    let sheet = left_and_then(|case| {
        let site = &mut case.sites[0];
        site.cut_before.clear();
        site.without_guide.as_mut().unwrap().cuts_kept = false;
    });
    assert_eq!(canal(&sheet).0, Verdict::Unknown);
    let lines = by_cause(sheet.findings.iter().collect(), |one| one);
    let of_guide = lines.iter().filter_map(|line| match line {
        FindingLine::Cause(CommonCause::GuideLeft(_), folded) => Some(folded.len()),
        _ => None,
    });
    assert!(of_guide.sum::<usize>() > 1);
}

/// The hole beneath a shorter implant stays empty, a hole wider than the implant holds none; a hole that the plan makes is told of
/// by its step alone; from another platform nobody knows how deep one is.
#[test]
fn what_was_cut_is_held_against_the_implant() {
    let told = |change: fn(&mut Case)| {
        let sheet = left_and_then(change);
        let mut found = all(&sheet, "cut-before");
        found.extend(all(&sheet, "cut-before-unknown"));
        found.first().map(|one| {
            let how = one.args.get("how").map(ToString::to_string);
            (one.verdict, how.unwrap_or_default())
        })
    };
    let is = |verdict, how: &str| Some((verdict, how.to_owned()));
    assert_eq!(told(|_| ()), None);
    assert_eq!(told(shorter), is(Verdict::Short, "deeper"));
    let thin = |case: &mut Case| {
        for implant in &mut case.kit.implants {
            implant.diameter_mm = mm("2");
            implant.profile.clear();
        }
    };
    assert_eq!(told(thin), is(Verdict::Short, "wider"));
    assert_eq!(
        told(|case| case.sites[0].steps.truncate(1)),
        is(Verdict::Note, "within")
    );
    let moved = |case: &mut Case| super::sample::distance(case, "7.7");
    assert_eq!(told(moved), is(Verdict::Unknown, "unknown"));
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

/// Guided or not, what was cut is elsewhere below a platform that is planned at another depth; in the guide that led it, which is
/// made, another depth is another reading of the crest.
#[test]
fn another_depth_below_the_crest_moves_the_platform() {
    let deeper = |case: &mut Case| {
        let crest = &mut case.sites[0].heights.platform_below_crest;
        let crest = crest.as_mut().unwrap();
        crest.highest_mm += mm("0.3");
        crest.lowest_mm += mm("0.3");
        super::sample::measure_anew(case);
    };
    let told = |change: &dyn Fn(&mut Case)| {
        let sheet = left_and_then(|case| change(case));
        all(&sheet, "cut-before-unknown").len()
    };
    assert_eq!(told(&|_| ()), 0);
    assert_eq!(told(&deeper), 1);
    let held = |case: &mut Case| {
        case.sites[0].without_guide = None;
        case.guide.state = GuideState::Made;
        case.guide.code = Some("G-1".into());
        for one in &mut case.sites[0].cut_before {
            one.from.guide = Some("G-1".into());
        }
        deeper(case);
    };
    assert_eq!(told(&held), 0);
    let another = |case: &mut Case| {
        held(case);
        case.guide.code = Some("G-2".into());
    };
    assert_eq!(told(&another), 1);
}

/// What nobody knows hides nothing of what is known, nor the other way round; what a person said is out counts in nothing.
#[test]
fn nothing_of_what_was_cut_hides_another() {
    let told = |change: &dyn Fn(&mut CutBefore)| {
        let sheet = left_and_then(|case| {
            shorter(case);
            let mut other = case.sites[0].cut_before[0].clone();
            other.tip_mm = None;
            case.sites[0].cut_before.push(other);
            case.sites[0].cut_before.iter_mut().for_each(change);
        });
        ["cut-before", "cut-before-unknown"].map(|rule| all(&sheet, rule).len())
    };
    assert_eq!(told(&|_| ()), [1, 1]);
    assert_eq!(told(&|one| one.diameter_mm = mm("9")), [2, 1]);
    assert_eq!(told(&|one| one.out = true), [0, 0]);
}
