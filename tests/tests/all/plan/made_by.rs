//! What was changed under a guide that was made: it does not know of that, and the plan says so.

use super::sample::{all, case, mm, site, valid};
use traywright_core::case::{
    Access, ArchSize, CrestDepth, Edit, GuideState, GuidedExtent, Placement, PlatformToSleeve,
    ReceiptOf, Site, SleeveFace, Support, ValidCase, apply,
};
use traywright_core::plan::{FindingKey, Verdict, work_out};

/// The sample with its guide made.
fn made() -> ValidCase {
    let case = valid(case());
    let mut guide = case.guide.clone();
    guide.state = GuideState::Made;
    apply(&case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
}

/// Place and verdict of what the guide does not know.
fn told(case: &ValidCase) -> Vec<(String, Verdict)> {
    let sheet = work_out(case);
    let rules = ["guide-made-by-other", "depth-over-made-guide"];
    let found = rules.map(|rule| all(&sheet, rule)).concat();
    for finding in &found {
        let key = FindingKey::parse(&finding.key());
        assert_eq!(key.map(|key| key.place), Some(finding.place.clone()));
    }
    let found = found.iter();
    found
        .map(|found| (found.place.key(), found.verdict))
        .collect()
}

fn after(case: &ValidCase, edits: &[Edit]) -> Vec<(String, Verdict)> {
    let changed = apply(case, edits).unwrap_or_else(|refused| panic!("{refused}"));
    told(&changed)
}

fn second() -> Site {
    site("two", "46", &[])
}

#[test]
fn nothing_is_told_of_a_guide_that_is_as_it_was_made_or_to_be_made() {
    assert_eq!(told(&made()), []);
    assert_eq!(told(&valid(case())), []);
}

#[test]
fn another_arch_under_a_made_guide_is_told() {
    let case = made();
    let arch = case.arch.unwrap();
    let width_mm = arch.width_mm + mm("0.1");
    let wider = Edit::SetArch(Some(ArchSize { width_mm, ..arch }));
    let unknown = [("arch".to_owned(), Verdict::Unknown)];
    assert_eq!(after(&case, std::slice::from_ref(&wider)), unknown);
    assert_eq!(after(&case, &[Edit::SetArch(None)]), unknown);
    // Back again, or before it is made, it is none.
    let back = Edit::SetArch(Some(arch));
    assert_eq!(after(&case, &[wider.clone(), back]), []);
    assert_eq!(after(&valid(super::sample::case()), &[wider]), []);
}

#[test]
fn a_site_more_or_less_than_the_guide_was_made_for_is_told() {
    let case = made();
    let add = Edit::AddSite(Box::new(second()));
    let added = ("sites[two]".to_owned(), Verdict::Unknown);
    assert_eq!(after(&case, std::slice::from_ref(&add)), [added]);
    // Its sleeve was measured on the guide: it has one, but nobody knows on which axis.
    let two = apply(&case, std::slice::from_ref(&add)).unwrap();
    let mut guide = two.guide.clone();
    let receipt = two.receipt(&two.sites[1], ReceiptOf::PlatformToSleeve, mm("6"));
    guide.receipt.push(receipt);
    let measured = after(&two, &[Edit::SetGuide(Box::new(guide))]);
    assert_eq!(measured, [("sites[two]".to_owned(), Verdict::Unknown)]);
    let remove = Edit::RemoveSite("one".into());
    let both = after(&case, &[add, remove]);
    assert_eq!(
        both,
        [
            ("sites[two]".to_owned(), Verdict::Unknown),
            ("sites".to_owned(), Verdict::Note)
        ]
    );
}

#[test]
fn another_implant_allowance_or_extent_under_a_made_guide_is_told() {
    let case = made();
    let note = [("sites[one]".to_owned(), Verdict::Note)];
    let mut site = case.sites[0].clone();
    site.implant = "short".into();
    assert_eq!(after(&case, &[Edit::ChangeSite(Box::new(site))]), note);
    let mut site = case.sites[0].clone();
    site.guided_extent = GuidedExtent::AllDrilling;
    site.insertion.sleeve = None;
    assert_eq!(after(&case, &[Edit::ChangeSite(Box::new(site))]), note);
    let mut kit = case.kit.clone();
    kit.implants[0].apical_allowance_mm = mm("0.5");
    assert_eq!(after(&case, &[Edit::TakeKit(Box::new(kit))]), note);
}

#[test]
fn another_access_under_a_made_guide_is_told() {
    let case = made();
    let mut guide = case.guide.clone();
    guide.access = match guide.access {
        Access::Flap => Access::Punch,
        Access::Punch => Access::Flap,
    };
    let held = [("guide.pins".to_owned(), Verdict::Unknown)];
    assert_eq!(after(&case, &[Edit::SetGuide(Box::new(guide))]), held);
}

/// What a form gives back of a guide that stays made changes nothing of what it was made by, and one that is made anew
/// is made by the plan as it is then.
#[test]
fn what_a_guide_was_made_by_stays_until_it_is_made_anew() {
    let case = made();
    let arch = case.arch.unwrap();
    let width_mm = arch.width_mm + mm("2");
    let wider = Edit::SetArch(Some(ArchSize { width_mm, ..arch }));
    let guide = |state| {
        let mut guide = valid(super::sample::case()).guide.clone();
        guide.state = state;
        Edit::SetGuide(Box::new(guide))
    };
    let as_made = guide(GuideState::Made);
    assert_eq!(after(&case, &[wider.clone(), as_made.clone()]).len(), 1);
    let anew = [wider, guide(GuideState::Planned), as_made];
    assert_eq!(after(&case, &anew), []);
    assert!(matches!(case.sites[0].placement, Placement::OnArch { .. }));
}

/// Over a made guide another depth below the crest is another reading of the crest, or a wish that no guide follows: freehand
/// drills go by it, and heights from the crest. Only a person knows which.
#[test]
fn another_depth_over_a_made_guide_is_asked_about() {
    let case = made();
    let deeper = |by: &str| {
        let mut site = case.sites[0].clone();
        let depth = site.heights.platform_below_crest.as_mut().unwrap();
        (depth.highest_mm, depth.lowest_mm) = (depth.highest_mm + mm(by), depth.lowest_mm + mm(by));
        Edit::ChangeSite(Box::new(site))
    };
    let unknown = [(
        "sites[one].heights.platform_below_crest".to_owned(),
        Verdict::Unknown,
    )];
    for by in ["0.1", "-0.8"] {
        assert_eq!(after(&case, &[deeper(by)]), unknown);
    }
    assert_eq!(after(&case, &[deeper("0.1"), deeper("0")]), []);
    // What was said of one reading is not said of another.
    let digest = |by: &str| {
        let changed = apply(&case, &[deeper(by)]).unwrap();
        all(&work_out(&changed), "depth-over-made-guide")[0].digest()
    };
    assert_ne!(digest("0.1"), digest("0.2"));
}

/// A site that was taken out and planned anew is no other's namesake, and under its own name it has its old axis.
#[test]
fn a_site_planned_anew_under_a_made_guide_is_not_the_one_before() {
    let case = made();
    let mut anew = case.sites[0].clone();
    let Placement::OnArch { along_mm, .. } = &mut anew.placement else {
        panic!("the sample stands on the arch");
    };
    *along_mm += mm("0.6");
    let without = apply(&case, &[Edit::RemoveSite("one".into())]).unwrap();
    let told = after(&without, &[Edit::AddSite(Box::new(anew))]);
    let moved = ("sites[one].placement".to_owned(), Verdict::Unknown);
    assert!(told.contains(&moved), "{told:?}");
}

/// That the guide is held was accepted of what it was made by and of what is planned: of another access or support it
/// was not.
#[test]
fn that_the_guide_is_held_is_accepted_of_both_sides() {
    let case = made();
    let guide = |access, support| {
        let mut guide = case.guide.clone();
        (guide.access, guide.support) = (access, support);
        apply(&case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let held = |case: &ValidCase| {
        let sheet = work_out(case);
        let found = all(&sheet, "guide-made-by-other");
        let held = found.iter().find(|f| f.place.key() == "guide.pins");
        held.unwrap().digest()
    };
    let made = case.guide.made_by.as_ref().unwrap();
    let other = [Support::Mucosa, Support::TeethAndMucosa]
        .into_iter()
        .find(|support| *support != made.support)
        .unwrap();
    let accesses = [Access::Flap, Access::Punch].map(|access| guide(access, other));
    assert_ne!(held(&accesses[0]), held(&accesses[1]));
    let mut made_otherwise = accesses[0].clone().into_case();
    made_otherwise.guide.made_by.as_mut().unwrap().support = Support::Bone;
    assert_ne!(held(&valid(made_otherwise)), held(&accesses[0]));
}

/// The teeth that a guide was made to rest on: where one is lost, it is held by what is left, and only a look at it in the mouth
/// tells how. On mucosa alone none holds it, and before it is made none is lost.
#[test]
fn a_tooth_lost_under_a_made_guide_is_told() {
    use traywright_core::case::{NeighbourKind, Tooth, ToothState};
    let lost = |case: &ValidCase| {
        let sheet = work_out(case);
        let found = all(&sheet, "guide-teeth-lost");
        found
            .iter()
            .map(|f| (f.place.key(), f.verdict))
            .collect::<Vec<_>>()
    };
    let on = |support, state| {
        let mut case = case();
        let teeth = ["37", "35", "34", "44", "45"];
        case.teeth
            .retain(|one| !teeth.contains(&one.position.to_string().as_str()));
        case.teeth.extend(teeth.map(super::sample::present));
        case.teeth.sort_by_key(|one| one.position);
        let case = valid(case);
        let mut guide = case.guide.clone();
        (guide.support, guide.state) = (support, state);
        apply(&case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let tooth = |iso: &str, state, kind| {
        let position = iso.parse().unwrap();
        Edit::SetTooth(Tooth {
            position,
            state,
            kind,
        })
    };
    let natural = Some(NeighbourKind::Natural);
    let gone = [
        tooth("44", ToothState::Missing, None),
        tooth("44", ToothState::ToExtract, natural),
        tooth("44", ToothState::Present, Some(NeighbourKind::Remnant)),
        Edit::ForgetTooth("44".parse().unwrap()),
    ];
    let unknown = [("guide.pins".to_owned(), Verdict::Unknown)];
    for support in [Support::Teeth, Support::TeethAndMucosa] {
        let made = on(support, GuideState::Made);
        assert_eq!(lost(&made), []);
        for edit in &gone {
            let after = apply(&made, std::slice::from_ref(edit)).unwrap();
            assert_eq!(lost(&after), unknown, "{edit:?}");
            let back = apply(&after, &[tooth("44", ToothState::Present, natural)]).unwrap();
            assert_eq!(lost(&back), []);
        }
        let planned = on(support, GuideState::Planned);
        assert_eq!(lost(&apply(&planned, &gone[..1]).unwrap()), []);
    }
    let mucosa = on(Support::Mucosa, GuideState::Made);
    assert_eq!(lost(&apply(&mucosa, &gone[..1]).unwrap()), []);
    // What was accepted of one is not accepted of two.
    let made = on(Support::Teeth, GuideState::Made);
    let one = apply(&made, &gone[..1]).unwrap();
    let two = apply(&one, &[tooth("45", ToothState::Missing, None)]).unwrap();
    let digest = |case: &ValidCase| all(&work_out(case), "guide-teeth-lost")[0].digest();
    assert_ne!(digest(&one), digest(&two));
}

/// A guide that was made and is set back to “not made yet” and made again is the one that was made, whatever was changed
/// in between, until somebody says that another is made.
#[test]
fn a_guide_that_is_made_again_is_the_one_that_was_made() {
    let case = made();
    let guide = |case: &ValidCase, state| {
        let mut guide = case.guide.clone();
        guide.state = state;
        apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let deeper = |case: &ValidCase| {
        let mut site = case.sites[0].clone();
        let depth = site.heights.platform_below_crest.as_mut().unwrap();
        (depth.highest_mm, depth.lowest_mm) =
            (depth.highest_mm + mm("0.5"), depth.lowest_mm + mm("0.5"));
        apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
    };
    let planned = guide(&case, GuideState::Planned);
    assert_eq!(told(&planned), []);
    let again = guide(&planned, GuideState::Made);
    assert_eq!(told(&again), []);
    assert_eq!(again.guide.made_by, case.guide.made_by);
    let changed = guide(&deeper(&planned), GuideState::Made);
    let unknown = [(
        "sites[one].heights.platform_below_crest".to_owned(),
        Verdict::Unknown,
    )];
    assert_eq!(told(&changed), unknown);
    // Round and round it stays the same.
    let round = guide(&guide(&changed, GuideState::Planned), GuideState::Made);
    assert_eq!(told(&round), unknown);
    // Somebody said that another is made.
    let mut other = deeper(&planned).guide.clone();
    other.made_by = None;
    let other = apply(&deeper(&planned), &[Edit::SetGuide(Box::new(other))]).unwrap();
    assert_eq!(told(&guide(&other, GuideState::Made)), []);
}

/// An offset that is told from the other face of the sleeve and comes to the same is none that the guide was not made with.
#[test]
fn the_same_offset_to_the_other_face_is_no_other_sleeve() {
    let in_state = |case: &ValidCase, state| {
        let mut guide = case.guide.clone();
        guide.state = state;
        apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let again = |entered: &str, to| {
        let planned = in_state(&made(), GuideState::Planned);
        let mut site = planned.sites[0].clone();
        site.platform_to_sleeve = Some(PlatformToSleeve {
            entered_mm: mm(entered),
            to,
        });
        let planned = apply(&planned, &[Edit::ChangeSite(Box::new(site))]).unwrap();
        told(&in_state(&planned, GuideState::Made))
    };
    // 6 to the apical face of a sleeve 4 high.
    assert_eq!(again("10", SleeveFace::Coronal), []);
    let other = ("sites[one].platform_to_sleeve".to_owned(), Verdict::Unknown);
    assert_eq!(
        again("10", SleeveFace::Apical),
        std::slice::from_ref(&other)
    );
    assert_eq!(again("6", SleeveFace::Coronal), [other]);
}

/// A guide leads no site that it was not made for, also where that was planned while it was set back.
#[test]
fn a_site_that_the_guide_was_not_made_for_is_not_led_by_it() {
    let in_state = |case: &ValidCase, state| {
        let mut guide = case.guide.clone();
        guide.state = state;
        apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let with_depth = |case: &ValidCase, depth: Option<CrestDepth>| {
        let mut site = case.sites[1].clone();
        site.heights.platform_below_crest = depth;
        apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
    };
    let add = Edit::AddSite(Box::new(second()));
    let first = second().heights.platform_below_crest.unwrap();
    let shallower = CrestDepth {
        highest_mm: first.highest_mm - mm("0.5"),
        lowest_mm: first.lowest_mm - mm("0.5"),
    };
    let added = [("sites[two]".to_owned(), Verdict::Unknown)];
    // Planned while it is set back.
    let back = in_state(&made(), GuideState::Planned);
    let two = apply(&back, std::slice::from_ref(&add)).unwrap();
    let two = with_depth(&two, None);
    let two = with_depth(&with_depth(&two, Some(first)), Some(shallower));
    assert_eq!(told(&in_state(&two, GuideState::Made)), added);
    // Planned over it, and once more while it is set back.
    let two = apply(&made(), &[add]).unwrap();
    let two = with_depth(&in_state(&two, GuideState::Planned), Some(shallower));
    assert_eq!(told(&in_state(&two, GuideState::Made)), added);
}

/// A guide of which nobody recorded the teeth that it rests on rests on some all the same: whether they are still there nobody
/// can say, unless every tooth is there on which it could. A person compares, and accepts it of the teeth as they are.
#[test]
fn a_guide_whose_teeth_nobody_recorded_is_not_one_that_rests_on_none() {
    use traywright_core::case::ToothState;
    use traywright_core::dentition::ToothPosition;
    let unrecorded = |support, gone: &[&str]| {
        let mut case = made().into_case();
        case.guide.support = support;
        let own = case.sites[0].tooth;
        let all_of = ToothPosition::all_of(case.jaw).filter(|position| *position != own);
        case.teeth = all_of
            .map(|position| super::sample::present(&position.to_string()))
            .collect();
        case.teeth.push(super::sample::missing(&own.to_string()));
        for tooth in &mut case.teeth {
            if gone.contains(&tooth.position.to_string().as_str()) {
                tooth.state = ToothState::Missing;
            }
        }
        case.teeth.sort_by_key(|tooth| tooth.position);
        let made = case.guide.made_by.as_mut().unwrap();
        made.support = support;
        made.teeth.clear();
        valid(case)
    };
    let lost = |case: &ValidCase| {
        let sheet = work_out(case);
        let found = all(&sheet, "guide-teeth-lost");
        let told = found
            .iter()
            .map(|f| (f.place.key(), f.verdict, f.args["rest"].to_string()));
        told.collect::<Vec<_>>()
    };
    let unknown = [(
        "guide.pins".to_owned(),
        Verdict::Unknown,
        "unrecorded".to_owned(),
    )];
    for support in [Support::Teeth, Support::TeethAndMucosa] {
        assert_eq!(lost(&unrecorded(support, &[])), []);
        assert_eq!(lost(&unrecorded(support, &["34"])), unknown);
    }
    for support in [Support::Mucosa, Support::Bone] {
        assert_eq!(lost(&unrecorded(support, &["34"])), []);
    }
    // What was accepted with one tooth missing is not accepted with another missing too.
    let digest = |gone: &[&str]| {
        let sheet = work_out(&unrecorded(Support::Teeth, gone));
        all(&sheet, "guide-teeth-lost")[0].digest()
    };
    assert_ne!(digest(&["34"]), digest(&["34", "35"]));
    // To be made still, it rests on the teeth as they are then.
    let mut planned = unrecorded(Support::Teeth, &["34"]).into_case();
    planned.guide.state = GuideState::Planned;
    assert_eq!(lost(&valid(planned)), []);
}
