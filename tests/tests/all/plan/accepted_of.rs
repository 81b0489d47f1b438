//! What a finding was accepted of: with another guide, another crown or another depth it is open again.

use super::sample::{case, missing, mm, present, received, valid, work};
use traywright_core::case::{
    Case, Decision, DecisionKind, Edit, GuideState, GuidedExtent, Insertion, ReceiptOf, Rule,
    StructureExtent, ValidCase, apply,
};
use traywright_core::kit::{Density, DepthRule, DrillKind};
use traywright_core::measure::Length;
use traywright_core::plan::{Severity, work_out};

/// The case with the worst finding of a rule accepted.
fn accepted(case: &ValidCase, rule: Rule) -> ValidCase {
    let sheet = work_out(case);
    let of_rule = sheet.findings.iter().filter(|found| found.rule == rule);
    let found = of_rule.min_by_key(|found| found.severity()).unwrap();
    assert!(found.severity().is_open(), "{found:#?}");
    let decision = Decision {
        finding: found.key(),
        judged: DecisionKind::Accepted,
        shown: found.digest(),
        reason: "held against the plan on the bench".to_owned(),
        by: "S".into(),
    };
    apply(case, &[Edit::Judge(decision)]).unwrap()
}

fn worst(case: &ValidCase, rule: Rule) -> Severity {
    let sheet = work_out(case);
    let of_rule = sheet.findings.iter().filter(|found| found.rule == rule);
    let worst = of_rule.map(|found| found.severity()).min();
    worst.unwrap_or(Severity::Clear)
}

fn guided(case: &ValidCase, state: GuideState, code: Option<&str>) -> ValidCase {
    let mut guide = case.guide.clone();
    guide.state = state;
    guide.code = code.map(Into::into);
    apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
}

/// The sample with a guide that was made and not measured.
fn made() -> ValidCase {
    guided(&valid(case()), GuideState::Made, Some("G1"))
}

#[test]
fn what_was_accepted_of_a_made_guide_is_not_accepted_of_another() {
    let not_measured = accepted(&made(), Rule::NoReceipt);
    assert_eq!(worst(&not_measured, Rule::NoReceipt), Severity::Accepted);
    let other = guided(&not_measured, GuideState::Made, Some("G2"));
    assert_eq!(worst(&other, Rule::NoReceipt), Severity::Unknown);
    let with_arch = {
        let mut arch = made().arch.unwrap();
        arch.width_mm += mm("1");
        apply(&made(), &[Edit::SetArch(Some(arch))]).unwrap()
    };
    let compared = accepted(&with_arch, Rule::GuideMadeByOther);
    let other = guided(&compared, GuideState::Made, Some("G2"));
    assert_eq!(worst(&other, Rule::GuideMadeByOther), Severity::Unknown);
}

/// Whether guide and plan agree has nothing to do with the density of the bone, nor with a word on what follows a step.
#[test]
fn what_was_accepted_of_a_made_guide_stays_with_what_does_not_touch_it() {
    let accepted = accepted(&made(), Rule::NoReceipt);
    let mut site = accepted.sites[0].clone();
    site.density = Some(Density::D3);
    site.protocol = None;
    site.steps[2].then = Some("rinse".into());
    let changed = apply(&accepted, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert_eq!(worst(&changed, Rule::NoReceipt), Severity::Accepted);
}

/// A guide that is made anew is another one, though nobody entered a code.
#[test]
fn what_was_accepted_of_a_made_guide_goes_when_it_is_to_be_made_anew() {
    let before = guided(&valid(case()), GuideState::Made, None);
    let before = accepted(&before, Rule::NoReceipt);
    let planned = guided(&before, GuideState::Planned, None);
    let anew = guided(&planned, GuideState::Made, None);
    assert_eq!(worst(&anew, Rule::NoReceipt), Severity::Unknown);
}

/// Of a guide made before that was recorded nobody can say what changed: it is accepted of the plan as it is.
#[test]
fn a_guide_of_an_unknown_plan_is_accepted_of_one_plan_alone() {
    let mut unrecorded: Case = made().into_case();
    unrecorded.guide.made_by = None;
    let unrecorded = accepted(&valid(unrecorded), Rule::GuideMadeByOther);
    let mut deeper = unrecorded.sites[0].clone();
    let crest = deeper.heights.platform_below_crest.as_mut().unwrap();
    crest.lowest_mm = crest.lowest_mm - mm("0.5");
    let deeper = apply(&unrecorded, &[Edit::ChangeSite(Box::new(deeper))]).unwrap();
    assert_eq!(
        worst(&unrecorded, Rule::GuideMadeByOther),
        Severity::Accepted
    );
    assert_eq!(worst(&deeper, Rule::GuideMadeByOther), Severity::Unknown);
}

/// Set back by mistake and forth again, it is the same guide of which nobody knows; another is made by the plan as it is.
#[test]
fn a_guide_of_an_unknown_plan_that_is_back_is_unknown_still() {
    let mut unrecorded: Case = made().into_case();
    unrecorded.guide.made_by = None;
    let planned = guided_as_it_was(&valid(unrecorded), GuideState::Planned);
    let back = guided_as_it_was(&planned, GuideState::Made);
    assert_eq!(worst(&back, Rule::GuideMadeByOther), Severity::Unknown);
    let mut guide = planned.guide.clone();
    guide.another_is_made();
    let another = apply(&planned, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let another = guided_as_it_was(&another, GuideState::Made);
    assert_eq!(worst(&another, Rule::GuideMadeByOther), Severity::Clear);
}

/// A depth that was entered after the guide was made is none that the guide was made by.
#[test]
fn a_depth_first_entered_over_a_made_guide_is_unknown() {
    let mut without: Case = valid(case()).into_case();
    let crest = without.sites[0].heights.platform_below_crest.take();
    let made = guided(&valid(without), GuideState::Made, Some("G1"));
    let mut site = made.sites[0].clone();
    site.heights.platform_below_crest = crest;
    let entered = apply(&made, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert_eq!(worst(&entered, Rule::DepthOverMadeGuide), Severity::Unknown);
}

/// The case with all findings of a rule accepted.
fn all_accepted(case: &ValidCase, rule: Rule) -> ValidCase {
    let open = work_out(case).findings.into_iter();
    let open = open.filter(|found| found.rule == rule && found.severity().is_open());
    let edits: Vec<Edit> = open
        .map(|found| {
            Edit::Judge(Decision {
                finding: found.key(),
                judged: DecisionKind::Accepted,
                shown: found.digest(),
                reason: "held against the maker's instructions".to_owned(),
                by: "S".into(),
            })
        })
        .collect();
    assert!(!edits.is_empty(), "{rule:?}");
    apply(case, &edits).unwrap()
}

/// A change of a case.
type Change = fn(&mut Case);

/// What was accepted of a sequence was of these drills, to these depths, in this bone and for this implant: the number
/// that a finding names, a diameter, says nothing of the rest.
#[test]
#[expect(clippy::too_many_lines, reason = "a table")]
fn what_was_accepted_of_a_sequence_is_of_that_sequence_in_that_bone() {
    let less = |case: &mut Case, n: usize, by: &str| {
        case.sites[0].steps[n].depth = DepthRule::ShortOfFull { by_mm: mm(by) };
    };
    let narrow = |case: &mut Case| {
        let implant = &mut case.kit.implants[0];
        (implant.diameter_mm, implant.largest_diameter_mm) = (mm("3.2"), mm("3.2"));
    };
    let with_tap = |case: &mut Case| {
        let mut tap = super::kit::drill("t", DrillKind::Tap, "4.5");
        tap.stop_seat_diameter_mm = Some(mm("2.4"));
        case.kit.drills.push(tap);
        let mut step = case.sites[0].steps[2].clone();
        (step.id, step.drill, step.sleeve) = ("t".into(), "t".into(), None);
        case.sites[0].steps.push(step);
    };
    let thin = |case: &mut Case| {
        case.kit.allowances.final_diameter.clear();
        case.kit.allowances.largest_step_mm = Some(mm("2"));
        case.sites[0].steps.remove(2);
    };
    // Without the guide after the first; the stop of the second lands on a crest that is uneven by as much.
    let freehand = |case: &mut Case, highest: &str| {
        let site = &mut case.sites[0];
        site.protocol = None;
        site.guided_extent = GuidedExtent::PilotOnly;
        site.insertion = Insertion::default();
        for step in &mut site.steps[1..] {
            step.sleeve = None;
        }
        let crest = site.heights.platform_below_crest.as_mut().unwrap();
        (crest.highest_mm, crest.lowest_mm) = (mm(highest), mm("0.2"));
        super::sample::measure_anew(case);
        case.kit.allowances.largest_step_mm = Some(mm("0.7"));
        for drill in &mut case.kit.drills {
            drill.clamp.as_mut().unwrap().from_mm = mm("1");
        }
    };
    let received = |case: &mut Case, offset: &str| {
        case.guide.state = GuideState::Made;
        case.kit.allowances.largest_step_mm = Some(mm("0.7"));
        let receipt = received(case, ReceiptOf::PlatformToSleeve, offset);
        case.guide.receipt = vec![receipt];
    };
    let table: [(Rule, &str, &dyn Fn(&mut Case), &dyn Fn(&mut Case)); 9] = [
        (
            Rule::StepTooLarge,
            "on a crest that is less even",
            &|case| freehand(case, "2"),
            &|case| freehand(case, "2.8"),
        ),
        (
            Rule::StepTooLarge,
            "in a guide that seats higher",
            &|case| received(case, "6.2"),
            &|case| received(case, "7.2"),
        ),
        (
            Rule::WiderThanImplant,
            "to full depth",
            &|case| {
                narrow(case);
                less(case, 2, "9");
            },
            &|case| case.sites[0].steps[2].depth = DepthRule::Full {},
        ),
        (
            Rule::StepTooLarge,
            "kept shallow",
            &|case| {
                case.kit.allowances.largest_step_mm = Some(mm("0.7"));
                less(case, 1, "0.1");
            },
            &|case| less(case, 1, "8"),
        ),
        (
            Rule::LastDrillThin,
            "a step less",
            &|case| {
                case.kit.allowances.final_diameter.clear();
                less(case, 2, "0.1");
            },
            &|case| drop(case.sites[0].steps.remove(2)),
        ),
        (Rule::LastDrillThin, "denser", &thin, &|case| {
            case.sites[0].density = Some(Density::D1);
        }),
        (Rule::LastDrillThin, "longer", &thin, &|case| {
            case.kit.implants[0].platform_to_apex_mm += mm("0.5");
        }),
        (
            Rule::WiderThanImplant,
            "a deeper tap",
            &|case| {
                with_tap(case);
                less(case, 3, "9");
            },
            &|case| less(case, 3, "1.2"),
        ),
        // Set to another length by its stop, to the same depth.
        (
            Rule::WiderThanImplant,
            "otherwise set",
            &|case| {
                with_tap(case);
                less(case, 3, "1.2");
            },
            &|case| case.kit.gauges[0].graduation_mm = mm("0.5"),
        ),
    ];
    for (rule, what, before, then) in table {
        let mut sample = case();
        before(&mut sample);
        let judged = all_accepted(&valid(sample), rule);
        let still = |case: &ValidCase| {
            let sheet = work_out(case);
            let mut of_rule = sheet.findings.iter().filter(|found| found.rule == rule);
            of_rule.any(|found| found.severity() == Severity::Accepted)
        };
        assert!(still(&judged), "{rule:?}, {what}");
        let mut other: Case = judged.clone().into_case();
        then(&mut other);
        assert!(!still(&valid(other)), "{rule:?}, {what}");
        // What is no matter of the sequence takes nothing.
        let untouched: [Change; 2] = [
            |case| case.sites[0].steps[0].then = Some("rinse".into()),
            |case| case.note = Some("seen".to_owned()),
        ];
        for change in untouched {
            let mut same: Case = judged.clone().into_case();
            change(&mut same);
            assert!(still(&valid(same)), "{rule:?}, {what}");
        }
    }
}

/// That nothing was measured of the crowns was judged with these teeth, this head and these stops in sight.
#[test]
fn crowns_beside_the_seat_are_accepted_of_the_teeth_that_are_there() {
    let with = |change: &dyn Fn(&mut Case)| {
        let mut case = case();
        case.teeth
            .retain(|tooth| tooth.position != super::sample::tooth("37"));
        case.teeth.push(missing("37"));
        case.sites[0].obstacles.clear();
        case.sites[0].heights.crest_below_occlusal_mm = None;
        change(&mut case);
        valid(case)
    };
    let then = with(&|_| {});
    let then = accepted(&then, Rule::CrownsBesideSeat);
    let worst_after = |change: &dyn Fn(&mut Case)| {
        let mut case: Case = then.clone().into_case();
        change(&mut case);
        let sheet = work(case);
        let found = sheet.findings.iter();
        let found = found.filter(|found| found.rule == Rule::CrownsBesideSeat);
        found.map(|found| found.severity()).min().unwrap()
    };
    assert_eq!(worst_after(&|_| {}), Severity::Accepted);
    let crown = |case: &mut Case| {
        case.teeth
            .retain(|tooth| tooth.position != super::sample::tooth("37"));
        case.teeth.push(present("37"));
    };
    assert_eq!(worst_after(&crown), Severity::Unknown);
    let wider_stop = |case: &mut Case| {
        let stop = &mut case.kit.stops[0];
        stop.body_diameter_mm += mm("1");
    };
    assert_eq!(worst_after(&wider_stop), Severity::Unknown);
    let shorter_drill = |case: &mut Case| {
        let drill = &mut case.kit.drills[2];
        drill.free_length_mm = drill.free_length_mm - mm("1");
    };
    assert_eq!(worst_after(&shorter_drill), Severity::Unknown);
}

/// Set back to “not made”, planned otherwise and made again, as it is the same guide: what was measured for the other plan
/// is not of the depth to which the guide leads, whichever way the depth goes then.
#[test]
fn what_was_measured_for_another_plan_is_not_of_the_guide_that_was_made() {
    let made = made();
    let planned = guided_as_it_was(&made, GuideState::Planned);
    let length = planned.kit.implant(&planned.sites[0].implant);
    let length = length.unwrap().platform_to_apex_mm;
    let depth = planned.sites[0].heights.platform_below_crest.unwrap();
    let mut site = planned.sites[0].clone();
    let shallower = site.heights.platform_below_crest.as_mut().unwrap();
    shallower.highest_mm = shallower.highest_mm - mm("0.5");
    shallower.lowest_mm = shallower.lowest_mm - mm("0.5");
    // From the shallower platform the canal is as much farther.
    let now = site.measured_now(length);
    let canal = &mut site.structures[0];
    canal.measured_at = now;
    let StructureExtent::Below { height_mm, .. } = &mut canal.extent else {
        panic!("{canal:?}")
    };
    *height_mm += mm("0.5");
    let other = apply(&planned, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    let again = guided_as_it_was(&other, GuideState::Made);
    assert_eq!(worst(&again, Rule::DepthOverMadeGuide), Severity::Unknown);
    let mut site = again.sites[0].clone();
    site.heights.platform_below_crest = Some(depth);
    let back = apply(&again, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert_eq!(worst(&back, Rule::DepthOverMadeGuide), Severity::Clear);
    assert!(left_of_canal(&back) <= left_of_canal(&made));
}

fn left_of_canal(case: &ValidCase) -> Length {
    let sheet = work_out(case);
    let mut found = sheet.findings.iter();
    let found = found.find(|found| found.rule == Rule::DeepStructure);
    found.and_then(|found| found.length_value()).unwrap()
}

/// In another state, as the form changes it.
fn guided_as_it_was(case: &ValidCase, state: GuideState) -> ValidCase {
    let mut guide = case.guide.clone();
    guide.state = state;
    apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
}

/// The same guide has the offset and the sleeve that it was made with, whatever was planned meanwhile.
#[test]
fn another_offset_than_the_guide_was_made_with_is_told() {
    let planned = guided_as_it_was(&made(), GuideState::Planned);
    let mut site = planned.sites[0].clone();
    let offset = site.platform_to_sleeve.as_mut().unwrap();
    offset.entered_mm += mm("1");
    let other = apply(&planned, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    let again = guided_as_it_was(&other, GuideState::Made);
    assert_eq!(worst(&again, Rule::GuideMadeByOther), Severity::Unknown);
    // A kit of other sleeves under the same id.
    let mut kit = planned.kit.clone();
    kit.master_sleeves[0].height_mm += mm("0.8");
    let higher = apply(&planned, &[Edit::TakeKit(Box::new(kit))]).unwrap();
    let again = guided_as_it_was(&higher, GuideState::Made);
    assert_eq!(worst(&again, Rule::GuideMadeByOther), Severity::Unknown);
    let same = guided_as_it_was(&planned, GuideState::Made);
    assert_eq!(worst(&same, Rule::GuideMadeByOther), Severity::Clear);
}

/// That a drill ends above its depth was accepted of the sequence in which it does: a tap that comes after it goes on where it
/// ended.
#[test]
fn what_was_accepted_of_a_drill_that_ends_short_is_not_accepted_of_another_sequence() {
    let mut shallow = case();
    shallow.sites[0].steps[2].stop = None;
    shallow.kit.drills[2].marks = vec![traywright_core::kit::DrillMark {
        name: "L".into(),
        lower_edge_mm: mm("18.1"),
        upper_edge_mm: None,
    }];
    let mut tap = super::kit::drill("t", DrillKind::Tap, "4.3");
    tap.name = "t".into();
    shallow.kit.drills.push(tap);
    let ends_short = accepted(&valid(shallow), Rule::EndsShort);
    assert_eq!(worst(&ends_short, Rule::EndsShort), Severity::Accepted);
    let mut site = ends_short.sites[0].clone();
    let mut step = site.steps[2].clone();
    (step.id, step.drill, step.sleeve) = ("t".into(), "t".into(), None);
    step.stop = Some("u".into());
    site.steps.push(step);
    let with_tap = apply(&ends_short, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert_eq!(worst(&with_tap, Rule::EndsShort), Severity::Short);
}
