use super::*;
use crate::case::{CutBefore, Edit, GuideState, PlatformThen, SleeveFace, TrayPlace, apply};
use crate::measure::Length;
use crate::samples::{demo, demo_case, tooth, valid};
use proptest::prelude::*;

fn base() -> ValidCase {
    demo_case(demo::FULL_ARCH_UPPER)
}

fn changed(case: &ValidCase, change: impl FnOnce(&mut Case)) -> ValidCase {
    let mut other: Case = (**case).clone();
    change(&mut other);
    valid(other)
}

fn together(base: &ValidCase, here: &ValidCase, there: &ValidCase) -> Together {
    bring_together(base, here, there, &BTreeMap::new())
}

fn merged(told: Together) -> ValidCase {
    match told {
        Together::Merged { case, .. } => *case,
        Together::Undecided(apart) => panic!("{apart:?}"),
    }
}

fn undecided(told: Together) -> Vec<Apart> {
    match told {
        Together::Undecided(apart) => apart,
        Together::Merged { .. } => panic!("nobody was asked"),
    }
}

fn parts(apart: &[Apart]) -> Vec<String> {
    apart.iter().map(|one| one.part.keys().join(" ")).collect()
}

fn deeper(case: &mut Case, site: usize, um: i64) {
    let distance = case.sites[site].platform_to_sleeve.as_mut().unwrap();
    distance.entered_mm += Length::from_um(um);
}

#[test]
fn what_was_changed_at_two_sites_is_there_from_both() {
    let base = base();
    let here = changed(&base, |case| deeper(case, 0, 100));
    let there = changed(&base, |case| deeper(case, 1, 200));
    let both = changed(&here, |case| deeper(case, 1, 200));
    assert_eq!(merged(together(&base, &here, &there)), both);
    assert_eq!(merged(together(&base, &there, &here)), both);
    let Together::Merged { taken, .. } = together(&base, &here, &there) else {
        panic!()
    };
    assert_eq!(parts(&taken), [format!("sites {}", base.sites[1].id)]);
    assert_eq!(
        taken[0].values[0].keys,
        ["platform_to_sleeve", "entered_mm"]
    );
}

#[test]
fn one_site_changed_on_both_sides_is_a_question_whatever_was_changed_of_it() {
    let base = base();
    let here = changed(&base, |case| deeper(case, 0, 100));
    let there = changed(&base, |case| case.sites[0].note = Some("look".to_owned()));
    let apart = undecided(together(&base, &here, &there));
    let site = format!("sites {}", base.sites[0].id);
    assert_eq!(parts(&apart), [site]);
    let keys: Vec<&str> = apart[0].values.iter().map(|v| v.keys[0].as_str()).collect();
    assert_eq!(keys, ["platform_to_sleeve", "note"]);
    for (side, one) in [(Side::Here, &here), (Side::There, &there)] {
        let chosen = BTreeMap::from([(apart[0].part.clone(), side)]);
        let told = bring_together(&base, &here, &there, &chosen);
        assert_eq!(merged(told).sites, one.sites);
    }
}

/// Each for itself would be no question: one side makes the guide, the other moves what is in it.
#[test]
fn a_guide_made_there_is_never_one_of_another_depth() {
    let base = base();
    let moved = changed(&base, |case| deeper(case, 0, 100));
    let made = changed(&base, |case| case.guide.state = GuideState::Made);
    let site = format!("sites {}", base.sites[0].id);
    for (here, there) in [(&moved, &made), (&made, &moved)] {
        let apart = undecided(together(&base, here, there));
        assert_eq!(parts(&apart), ["guide".to_owned(), site.clone()]);
        // With both as they were entered it stays a question.
        let both: BTreeMap<Part, Side> = apart
            .iter()
            .map(|one| {
                let of_made = if *here == made {
                    Side::Here
                } else {
                    Side::There
                };
                let of_moved = if *here == made {
                    Side::There
                } else {
                    Side::Here
                };
                let is_guide = one.part.is_of_guide();
                (one.part.clone(), if is_guide { of_made } else { of_moved })
            })
            .collect();
        undecided(bring_together(&base, here, there, &both));
        for side in [Side::Here, Side::There] {
            let chosen = apart.iter().map(|one| (one.part.clone(), side)).collect();
            let one = if side == Side::Here { here } else { there };
            assert_eq!(merged(bring_together(&base, here, there, &chosen)), *one);
        }
    }
}

/// A guide is made for its sites: one that was put in place of another, added or taken out meanwhile is not in it.
#[test]
fn a_guide_made_there_is_never_one_of_other_sites() {
    let base = changed(&base(), |case| {
        case.accepted_order.clear();
        case.tray_places = Vec::<TrayPlace>::new();
        case.guide.state = GuideState::Planned;
        case.guide.receipt.clear();
        case.judgements.clear();
    });
    let made = changed(&base, |case| case.guide.state = GuideState::Made);
    let first = base.sites[0].id.clone();
    let without = |case: &mut Case| {
        case.sites.remove(0);
        for site in &mut case.sites {
            let is_to = |distance: &crate::case::Distance| matches!(&distance.to, crate::case::DistanceTo::Site { site } if *site == first);
            site.distances.retain(|distance| !is_to(distance));
        }
        case.run
            .before
            .retain(|one| one.first != first && one.then != first);
    };
    let other = |case: &mut Case| {
        let mut site = base.sites[0].clone();
        site.id = "other".into();
        site.tooth = tooth("11");
        site.distances.clear();
        case.sites.push(site);
        let last = case.sites.len() - 1;
        deeper(case, last, 500);
    };
    let replaced = changed(&base, |case| {
        without(case);
        other(case);
    });
    let added = changed(&base, other);
    let removed = changed(&base, without);
    for (name, apart) in [
        ("replaced", &replaced),
        ("added", &added),
        ("removed", &removed),
    ] {
        for (here, there) in [(apart, &made), (&made, apart)] {
            let told = together(&base, here, there);
            let Together::Undecided(asked) = told else {
                panic!("{name}: nobody was asked")
            };
            assert!(parts(&asked).contains(&"guide".to_owned()), "{name}");
            for side in [Side::Here, Side::There] {
                let chosen = asked.iter().map(|one| (one.part.clone(), side)).collect();
                let one = if side == Side::Here { here } else { there };
                let both = merged(bring_together(&base, here, there, &chosen));
                let ids = |case: &Case| -> Vec<String> {
                    let ids = case.sites.iter().map(|site| site.id.to_string());
                    let mut ids: Vec<String> = ids.collect();
                    ids.sort();
                    ids
                };
                assert_eq!(
                    (ids(&both), both.guide.state),
                    (ids(one), one.guide.state),
                    "{name}"
                );
            }
        }
    }
    // A site added to a guide that was made before is as it would be without the other side.
    let added = changed(&made, other);
    let noted = changed(&made, |case| case.note = Some("note".to_owned()));
    assert_eq!(merged(together(&made, &added, &noted)).sites, added.sites);
}

/// Set back here after the crest was read anew over it, while the site was changed there and is taken from there: where the
/// guide leads it is kept.
#[test]
fn a_guide_set_back_here_leads_where_it_did_also_to_a_site_of_the_other_side() {
    let planned = changed(&base(), |case| {
        case.guide.receipt.clear();
        case.guide.state = GuideState::Planned;
        case.guide.made_by = Some(Box::new(case.made_by_now()));
    });
    let id = planned.sites[0].id.clone();
    let led = crate::case::CrestDepth {
        highest_mm: Length::from_um(1_600),
        lowest_mm: Length::from_um(1_200),
    };
    let here = changed(&planned, |case| {
        case.sites[0].heights.guide_leads_to = Some(led);
        deeper(case, 0, 100);
    });
    let there = changed(&planned, |case| deeper(case, 0, 200));
    let part = Part(vec!["sites".to_owned(), id.to_string()]);
    let chosen = BTreeMap::from([(part, Side::There)]);
    let both = merged(bring_together(&planned, &here, &there, &chosen));
    assert_eq!(
        both.sites[0].platform_to_sleeve,
        there.sites[0].platform_to_sleeve
    );
    assert_eq!(both.sites[0].heights.guide_leads_to, Some(led));
}

/// In another state, as the form sets it.
fn guided(case: &ValidCase, state: GuideState) -> ValidCase {
    let mut guide = case.guide.clone();
    guide.state = state;
    apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
}

fn at_depth(case: &ValidCase, highest: i64) -> ValidCase {
    let mut site = case.sites[0].clone();
    site.heights.platform_below_crest = Some(crate::case::CrestDepth {
        highest_mm: Length::from_um(highest),
        lowest_mm: Length::from_um(highest - 400),
    });
    apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
}

/// Planned otherwise while it is set back, the guide is back here, while the site was changed there and is taken from
/// there; or the other way round. Where the guide leads it is kept.
#[test]
fn a_guide_that_is_back_leads_where_it_did_also_to_a_site_of_the_other_side() {
    let made = at_depth(&guided(&base(), GuideState::Planned), 600);
    let mut guide = made.guide.clone();
    guide.another_is_made();
    let made = apply(&made, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let made = guided(&made, GuideState::Made);
    let depths = |case: &ValidCase| case.sites[0].heights.depths();
    let led = depths(&made)[0];
    // As it was made, and as the crest was read anew over it since.
    for read in [None, Some(900)] {
        let over = read.map_or_else(|| made.clone(), |read| at_depth(&made, read));
        let led = read.map_or(led, |_| depths(&over)[0]);
        let planned = at_depth(&guided(&over, GuideState::Planned), -1_200);
        let other = depths(&planned)[0];
        let id = planned.sites[0].id.clone();
        let part = Part(vec!["sites".to_owned(), id.to_string()]);
        let is_back = guided(&planned, GuideState::Made);
        assert_eq!(depths(&is_back), [other, led]);
        let changed_there = |case: &ValidCase| {
            let mut site = case.sites[0].clone();
            site.guided_extent = crate::case::GuidedExtent::PilotOnly;
            apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
        };
        let there = changed_there(&planned);
        for (here, there, side) in [
            (&is_back, &there, Side::There),
            (&there, &is_back, Side::Here),
        ] {
            let chosen = BTreeMap::from([(part.clone(), side)]);
            let both = merged(bring_together(&planned, here, there, &chosen));
            assert_eq!(both.guide.state, GuideState::Made);
            assert_eq!(
                both.sites[0].guided_extent,
                crate::case::GuidedExtent::PilotOnly
            );
            assert_eq!(depths(&both), [other, led], "{read:?}");
            assert_eq!(both.sites[0].heights.guide_leads_to, None);
        }
        // Set back there, while the site was changed here over the guide.
        let here = changed_there(&is_back);
        let there = guided(&is_back, GuideState::Planned);
        let chosen = BTreeMap::from([(part, Side::Here)]);
        let both = merged(bring_together(&is_back, &here, &there, &chosen));
        assert_eq!(both.guide.state, GuideState::Planned);
        assert_eq!(depths(&both), [other, other]);
        let again = guided(&both, GuideState::Made);
        assert_eq!(depths(&again), [other, led], "{read:?}");
    }
}

/// A word on the crest is one on the guide over which it was given: over another, which was made there, it says nothing.
#[test]
fn a_word_on_the_crest_over_another_guide_says_nothing() {
    let real = apply(&base(), &[Edit::SetDemonstration(false)]).unwrap();
    let made = at_depth(&guided(&real, GuideState::Planned), 600);
    let mut guide = made.guide.clone();
    guide.another_is_made();
    let made = apply(&made, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let made = guided(&made, GuideState::Made);
    let far = at_depth(&made, 4_600);
    let mut site = far.sites[0].clone();
    site.say_crest_is_read(&"R. Thorn".into(), crate::sign::Purpose::Patient);
    let here = apply(&far, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert!(here.sites[0].heights.crest_read.is_some());
    // The other guide was made there at another depth, which was planned as it is again since.
    let back = guided(&made, GuideState::Planned);
    let mut guide = back.guide.clone();
    guide.another_is_made();
    let there = apply(&back, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let other = guided(&at_depth(&there, 900), GuideState::Made);
    let chosen = BTreeMap::from([(
        Part(vec!["sites".to_owned(), made.sites[0].id.to_string()]),
        Side::Here,
    )]);
    for there in [other, there] {
        let both = merged(bring_together(&made, &here, &there, &chosen));
        let heights = &both.sites[0].heights;
        assert_eq!(heights.crest_read, None, "{:?}", both.guide.state);
        let is_made = both.guide.state == GuideState::Made;
        assert_eq!(heights.is_off_guide(), is_made);
    }
    // Over the one that it was given over it stays.
    let mut team = made.team.clone();
    team.nurse = Some("OW".into());
    let there = apply(&made, &[Edit::SetTeam(team)]).unwrap();
    let both = merged(bring_together(&made, &here, &there, &BTreeMap::new()));
    assert_eq!(both.sites[0].heights, here.sites[0].heights);
}

/// A guide was set back over another reading of the crest, and a site is planned on here, while there somebody says that
/// another guide is made: nothing is left of where the first one led, also where the other one is there by then.
#[test]
fn where_a_guide_led_that_is_no_longer_there_is_forgotten() {
    let another = |case: &ValidCase| {
        let mut guide = case.guide.clone();
        guide.another_is_made();
        apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
    };
    let made = at_depth(&another(&guided(&base(), GuideState::Planned)), 600);
    let over = at_depth(&guided(&made, GuideState::Made), 900);
    let back = guided(&over, GuideState::Planned);
    assert!(back.sites[0].heights.guide_leads_to.is_some());
    let here = changed(&back, |case| deeper(case, 0, 100));
    let gone = another(&back);
    let made_again = guided(&at_depth(&gone, 1_200), GuideState::Made);
    let there = [gone, guided(&made_again, GuideState::Planned), made_again];
    let part = Part(vec!["sites".to_owned(), back.sites[0].id.to_string()]);
    for there in there {
        for (here, there, side) in [(&here, &there, Side::Here), (&there, &here, Side::There)] {
            let chosen = BTreeMap::from([(part.clone(), side)]);
            let Together::Merged { case, .. } = bring_together(&back, here, there, &chosen) else {
                // Over a made guide a person chooses.
                assert!(
                    [here, there]
                        .iter()
                        .any(|one| one.guide.state == GuideState::Made)
                );
                continue;
            };
            let heights = &case.sites[0].heights;
            assert_eq!(heights.guide_leads_to, None, "{:?}", case.guide);
            assert_eq!(
                (heights.crest_taken_away, &heights.crest_read),
                (None, &None)
            );
        }
    }
}

/// One side took a real kit, the other added an instrument of the invented one: with that the copy is invented.
#[test]
fn an_invented_entry_makes_the_merged_copy_invented() {
    let base = base();
    assert!(base.kit.demonstration);
    let real = changed(&base, |case| case.kit.demonstration = false);
    let invented = changed(&base, |case| {
        let mut other = case.kit.drills[0].clone();
        other.id = "other".into();
        case.kit.drills.push(other);
    });
    let changed_one = changed(&base, |case| case.kit.drills[0].quantity += 1);
    let allowances = changed(&base, |case| {
        case.kit.allowances.least_landing_mm += Length::from_um(10);
    });
    for there in [&invented, &changed_one, &allowances] {
        for (here, there) in [(&real, there), (there, &real)] {
            let both = merged(together(&base, here, there));
            assert!(both.kit.demonstration);
            // Nor by a choice.
            let part = Part(vec!["kit".to_owned(), "demonstration".to_owned()]);
            let side = if *here == real {
                Side::Here
            } else {
                Side::There
            };
            let chosen = BTreeMap::from([(part, side)]);
            let both = merged(bring_together(&base, here, there, &chosen));
            assert!(both.kit.demonstration);
        }
    }
    // What is not of the kit makes none of it invented.
    let noted = changed(&base, |case| case.note = Some("note".to_owned()));
    assert!(!merged(together(&base, &real, &noted)).kit.demonstration);
}

#[test]
fn an_instrument_that_only_the_other_side_still_uses_is_kept() {
    let base = changed(&base(), |case| {
        let mut other = case.kit.drills[0].clone();
        other.id = "other".into();
        case.kit.drills.push(other);
    });
    let here = changed(&base, |case| {
        case.kit.drills.retain(|drill| drill.id.as_str() != "other");
    });
    let first = base.kit.drills[0].id.clone();
    let there = changed(&base, |case| {
        let mut steps = case.sites.iter_mut().flat_map(|site| &mut site.steps);
        steps.find(|step| step.drill == first).unwrap().drill = "other".into();
    });
    assert_eq!(merged(together(&base, &here, &there)), there);
    assert_eq!(merged(together(&base, &there, &here)), there);
    // Where nobody uses it, it goes.
    let noted = changed(&base, |case| case.note = Some("seen there".to_owned()));
    assert_eq!(merged(together(&base, &here, &noted)).kit, here.kit);
}

#[test]
fn two_jaws_are_never_one_case() {
    let (upper, lower) = (base(), demo_case(demo::TWO_MOLARS));
    undecided(together(&upper, &upper, &lower));
}

#[test]
fn a_site_added_on_each_side_is_there_from_both_in_the_order_of_the_one_here() {
    let base = changed(&base(), |case| {
        case.accepted_order.clear();
        case.tray_places = Vec::<TrayPlace>::new();
    });
    let with = |id: &str, at: &str| {
        changed(&base, |case| {
            let mut site = case.sites[0].clone();
            site.id = id.into();
            site.tooth = tooth(at);
            site.distances.clear();
            case.sites.push(site);
        })
    };
    let (here, there) = (with("one", "11"), with("other", "21"));
    let Together::Merged { case, .. } = together(&base, &here, &there) else {
        panic!()
    };
    let ids: Vec<&str> = case.sites.iter().map(|s| s.id.as_str()).collect();
    assert_eq!(ids[ids.len() - 2..], ["one", "other"]);
}

/// A few changes of parts that have nothing to do with each other.
fn change(case: &mut Case, which: u8) {
    match which {
        0..=5 => deeper(case, which.into(), 100),
        6 => case.note = Some("note".to_owned()),
        7 => case.team.surgeon = Some("R. T.".into()),
        8 => case.limits.sinus = None,
        9 => case.guide.code = Some("G-9".into()),
        10 => case.kit.name = "other".into(),
        _ => {
            let distance = case.sites[0].platform_to_sleeve.as_mut().unwrap();
            distance.to = SleeveFace::Coronal;
            distance.entered_mm += Length::from_mm(5);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn each_part_is_from_the_side_that_changed_it_and_none_is_lost(
        here in prop::collection::btree_set(0_u8..12, 0..5),
        there in prop::collection::btree_set(0_u8..12, 0..5),
    ) {
        let base = base();
        let made = |set: &BTreeSet<u8>| changed(&base, |case| set.iter().for_each(|n| change(case, *n)));
        let (h, t) = (made(&here), made(&there));
        let is_alone = |set: &BTreeSet<u8>| set.contains(&0) || set.contains(&11);
        match together(&base, &h, &t) {
            Together::Merged { case, .. } => {
                let both: BTreeSet<u8> = here.union(&there).copied().collect();
                prop_assert_eq!(*case, made(&both));
            }
            Together::Undecided(apart) => {
                prop_assert_eq!(parts(&apart), [format!("sites {}", base.sites[0].id)]);
                prop_assert!(is_alone(&here) && is_alone(&there));
            }
        }
        // Whoever changed nothing takes over all of the other.
        prop_assert_eq!(merged(together(&base, &base, &t)), t.clone());
        prop_assert_eq!(merged(together(&base, &h, &base)), h.clone());
        prop_assert_eq!(merged(together(&base, &h, &h)), h);
    }
}

/// Of a guide that was left before anything went through it, that it was left is what differs.
#[test]
fn what_is_there_and_holds_nothing_differs_from_what_is_not_there() {
    let here = base();
    let there = changed(&here, |case| {
        case.sites[0].without_guide = Some(crate::case::WithoutGuide::default());
    });
    let all = differing(&here, &there);
    assert_eq!(all.len(), 1);
    let value = ValueApart {
        keys: vec!["without_guide".to_owned()],
        here: None,
        there: Some("true".to_owned()),
    };
    assert_eq!(all[0].values, [value]);
    assert!(differing(&here, &here).is_empty());
}

/// What is in the bone is there, whichever side a site is taken from; what one side took out is out.
#[test]
fn what_was_cut_on_either_side_is_kept() {
    let cut = |case: &Case, name: &str| CutBefore {
        name: name.into(),
        event: None,
        at: None,
        out: false,
        step: Some(name.into()),
        kind: Some(crate::kit::DrillKind::Twist),
        tip_mm: Some(Length::from_mm(9)),
        point_mm: Length::ZERO,
        tip_to_datum_mm: Length::ZERO,
        diameter_mm: Length::from_mm(2),
        from: PlatformThen::of(&case.sites[0], case, true),
        purpose: case.purpose(),
    };
    let base = changed(&base(), |case| {
        let was = cut(case, "was");
        case.sites[0].cut_before.push(was);
    });
    let with = |name: &str| {
        changed(&base, |case| {
            let one = cut(case, name);
            case.sites[0].cut_before.push(one);
        })
    };
    let names = |case: &ValidCase| {
        let cuts = case.sites[0].cut_before.iter();
        cuts.map(|one| one.name.to_string()).collect::<Vec<_>>()
    };
    let (here, there) = (with("here"), with("there"));
    for side in [Side::Here, Side::There] {
        let Together::Undecided(apart) = together(&base, &here, &there) else {
            panic!()
        };
        let chosen = apart.into_iter().map(|one| (one.part, side)).collect();
        let both = merged(bring_together(&base, &here, &there, &chosen));
        assert_eq!(names(&both), ["was", "here", "there"], "{side:?}");
    }
    let without = changed(&base, |case| case.sites[0].cut_before.clear());
    assert_eq!(names(&merged(together(&base, &without, &base))), [""; 0]);
    assert_eq!(
        names(&merged(together(&base, &base, &with("there")))),
        ["was", "there"]
    );
}
