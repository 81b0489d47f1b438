//! A guide that is made leads to one platform: what is read of the crest moves nothing else.

use super::sample::{all, case, mm, one, received, shown, valid, work};
use traywright_core::case::{
    Case, CrestDepth, Edit, GuideState, ReceiptOf, Site, StructureExtent, ValidCase, apply,
};
use traywright_core::dentition::Notation;
use traywright_core::plan::{Verdict, stale_values, work_out};
use traywright_core::sign::Purpose;
use traywright_core::wording::Formatter;

/// The sample with a guide that was made and measured, and a canal 12 below the platform: 0 short of 2.
fn made() -> ValidCase {
    let mut case = case();
    case.guide.state = GuideState::Made;
    for (of, measured) in [
        (ReceiptOf::PlatformToSleeve, "6"),
        (ReceiptOf::MasterSleeveHeight, "4"),
        (ReceiptOf::MasterSleeveBore, "4.95"),
    ] {
        let receipt = received(&case, of, measured);
        case.guide.receipt.push(receipt);
    }
    let StructureExtent::Below { height_mm, .. } = &mut case.sites[0].structures[0].extent else {
        panic!()
    };
    *height_mm = mm("11.9");
    valid(case)
}

fn deeper(depth: CrestDepth, by: &str) -> CrestDepth {
    CrestDepth {
        highest_mm: depth.highest_mm + mm(by),
        lowest_mm: depth.lowest_mm + mm(by),
    }
}

fn changed(case: &ValidCase, change: impl FnOnce(&mut Site)) -> ValidCase {
    let mut site = case.sites[0].clone();
    change(&mut site);
    apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
}

fn planned(case: &ValidCase) -> ValidCase {
    let mut guide = case.guide.clone();
    guide.state = GuideState::Planned;
    guide.receipt.clear();
    apply(case, &[Edit::SetGuide(Box::new(guide))]).unwrap()
}

/// Over a made guide another depth is another reading of the crest: the platform is where the guide leads it, so
/// that nothing measured from it is asked for anew, the sounding is another, and what was measured on the guide holds.
#[test]
fn another_depth_over_a_made_guide_is_another_reading_of_the_crest() {
    let before = made();
    let depth = before.sites[0].heights.platform_below_crest.unwrap();
    for to in [Some(deeper(depth, "-0.8")), None] {
        let mut after = changed(&before, |site| site.heights.platform_below_crest = to);
        if to.is_none() {
            // Taken away and entered anew.
            let to = Some(deeper(depth, "-0.8"));
            after = changed(&after, |site| {
                site.heights.platform_below_crest = to;
                site.heights.enter(
                    traywright_core::plan::SiteHeight::PlatformBelowCrest,
                    site.placement,
                );
            });
        }
        let stale = stale_values(&after, &after.sites[0]);
        assert_eq!(stale.structures, [false]);
        assert_eq!(stale.distances, [false, false]);
        assert_eq!(stale.walls, [false, false]);
        let (then, now) = (work_out(&before), work_out(&after));
        let canal = |sheet| {
            let found = one(sheet, "deep-structure");
            (found.verdict, found.value.clone())
        };
        assert_eq!(canal(&now), canal(&then));
        assert_eq!(canal(&now).0, Verdict::Short);
        let sounding = |sheet: &traywright_core::plan::Worksheet| {
            shown(sheet.sites[0].sounding.as_ref().unwrap())
        };
        assert_eq!(
            (sounding(&then), sounding(&now)),
            ("9.7".into(), "10.5".into())
        );
        for sheet in [&then, &now] {
            assert!(
                all(sheet, "receipt")
                    .iter()
                    .all(|f| f.verdict == Verdict::Clear)
            );
        }
    }
}

/// With a guide still to be made the implant goes elsewhere, and what was measured is asked for anew.
#[test]
fn another_depth_of_a_planned_guide_is_another_plan() {
    let before = planned(&made());
    let depth = before.sites[0].heights.platform_below_crest.unwrap();
    let after = changed(&before, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "-0.8"));
    });
    let stale = stale_values(&after, &after.sites[0]);
    assert_eq!(stale.structures, [true]);
}

/// A guide that was measured when its platform stood at another depth, as in a file written by hand, is another one.
#[test]
fn a_guide_measured_for_another_depth_is_another_guide() {
    let mut case: Case = made().into_case();
    let depth = deeper(case.sites[0].heights.platform_below_crest.unwrap(), "-0.8");
    case.sites[0].heights.platform_below_crest = Some(depth);
    super::sample::measure_anew(&mut case);
    let sheet = work(case);
    let found = all(&sheet, "receipt");
    assert_eq!(found.len(), 3);
    assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
}

/// What a made guide no longer lets happen is not offered as a remedy.
#[test]
fn no_shallower_platform_is_offered_over_a_made_guide() {
    let remedy = |case: &ValidCase| {
        let sheet = work_out(case);
        let canal = one(&sheet, "deep-structure");
        Formatter::english(case, Notation::Iso)
            .finding(canal)
            .remedy
            .unwrap()
    };
    let made = made();
    assert!(!remedy(&made).contains("platform"), "{}", remedy(&made));
    assert!(!remedy(&made).contains("position"), "{}", remedy(&made));
    assert!(remedy(&planned(&made)).contains("a shallower platform"));
}

/// What was read for a platform less deep, before the guide was made: another reading of the crest over the guide leaves
/// it as much too shallow as it was, even if the figures then are alike, and so for a word, the rim and a receipt.
#[test]
fn a_value_that_was_old_before_the_guide_was_made_stays_old() {
    let mut case: Case = made().into_case();
    let first = case.sites[0].heights.platform_below_crest.unwrap();
    let planned_deeper = deeper(first, "1");
    let site = &mut case.sites[0];
    site.heights.platform_below_crest = Some(planned_deeper);
    let case = valid(case);
    assert_eq!(stale_values(&case, &case.sites[0]).structures, [true]);
    assert!(case.guide.receipt.iter().all(|one| {
        let then = one.taken_on.as_ref().unwrap();
        then.platform_below_crest == Some(first)
    }));
    // As shallow as it was when it was measured, by another reading alone.
    let after = changed(&case, |site| {
        site.heights.platform_below_crest = Some(first);
    });
    let stale = stale_values(&after, &after.sites[0]);
    assert_eq!(stale.structures, [true]);
    assert!(
        all(&work_out(&after), "receipt")
            .iter()
            .all(|f| f.verdict == Verdict::Unknown)
    );
    let recorded = |case: &ValidCase| {
        let then = &case.sites[0].structures[0].measured_at;
        then.platform_below_crest.unwrap()
    };
    assert_eq!(recorded(&after), deeper(first, "-1"));
    // Taken away and entered, field by field, it is the same.
    let none = changed(&case, |site| site.heights.platform_below_crest = None);
    assert_eq!(stale_values(&none, &none.sites[0]).structures, [true]);
    let again = changed(&none, |site| {
        site.heights.platform_below_crest = Some(first);
    });
    assert_eq!(recorded(&again), recorded(&after));
    assert_eq!(again.guide.receipt, after.guide.receipt);
}

/// Taken away over a made guide, a depth is not forgotten: for a guide that is planned anew a deeper platform is another
/// plan, of which nothing was measured.
#[test]
fn a_depth_taken_away_over_a_made_guide_is_not_forgotten() {
    let before = made();
    let depth = before.sites[0].heights.platform_below_crest.unwrap();
    let taken = changed(&before, |site| site.heights.platform_below_crest = None);
    assert_eq!(stale_values(&taken, &taken.sites[0]).structures, [false]);
    let anew = planned(&taken);
    let after = changed(&anew, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "2"));
    });
    assert_eq!(stale_values(&after, &after.sites[0]).structures, [true]);
}

/// The depth that a word tells of follows as well when it is taken away and entered again.
#[test]
fn the_depth_of_a_word_follows_a_reading_taken_away_and_entered_again() {
    let mut case: Case = made().into_case();
    let depth = case.sites[0].heights.platform_below_crest.unwrap();
    let purpose = case.purpose();
    let site = &mut case.sites[0];
    let mut now = site.measured_now(mm("10"));
    let then = &mut site.structures[0].measured_at;
    then.platform_below_crest = Some(deeper(depth, "-1"));
    now.platform_below_crest = Some(depth);
    *then = then.confirmed(&now, "N. Quill".into(), purpose);
    let case = valid(case);
    let to = Some(deeper(depth, "-1"));
    let direct = changed(&case, |site| site.heights.platform_below_crest = to);
    let taken = changed(&case, |site| site.heights.platform_below_crest = None);
    let again = changed(&taken, |site| site.heights.platform_below_crest = to);
    let word = |case: &ValidCase| {
        let at = &case.sites[0].structures[0].measured_at;
        at.confirmed.clone().unwrap().platform_below_crest
    };
    assert_eq!(word(&direct), Some(deeper(depth, "-2")));
    assert_eq!(word(&again), word(&direct));
    for case in [&case, &direct, &again] {
        assert!(!all(&work_out(case), "confirmed-disagree").is_empty());
    }
}

/// Two readings of one crest do not lie more than 2 mm apart (common practice, no source): what is farther is followed by
/// nothing that was measured, in one step or in several, and back again it is as it was.
#[test]
fn a_reading_of_the_crest_that_is_too_far_off_is_not_followed() {
    let mut case: Case = made().into_case();
    case.guide.made_by = Some(Box::new(case.made_by_now()));
    let case = valid(case);
    let depth = case.sites[0].heights.platform_below_crest.unwrap();
    let to = |case: &ValidCase, by: &str| {
        let to = Some(deeper(depth, by));
        changed(case, |site| site.heights.platform_below_crest = to)
    };
    let is_old = |case: &ValidCase| {
        let stale = stale_values(case, &case.sites[0]);
        assert!(
            stale
                .distances
                .iter()
                .all(|one| *one == stale.structures[0])
        );
        let sheet = work_out(case);
        let receipts = all(&sheet, "receipt").into_iter();
        // What was measured on the guide is of it, wherever it leads.
        let receipts: Vec<_> = receipts.map(|f| f.verdict == Verdict::Unknown).collect();
        assert_eq!(receipts, [false; 3]);
        stale.structures[0]
    };
    for by in ["2", "-2"] {
        assert!(!is_old(&to(&case, by)), "{by}");
    }
    for by in ["2.001", "-2.001", "6"] {
        let far = to(&case, by);
        assert!(is_old(&far), "{by}");
        assert!(!is_old(&to(&far, "0.3")), "{by}");
        assert_eq!(to(&far, "0.3").sites, to(&case, "0.3").sites);
    }
    assert!(is_old(&to(&to(&case, "1.5"), "3")));
    // Taken away and entered again.
    let none = changed(&case, |site| site.heights.platform_below_crest = None);
    assert!(is_old(&to(&none, "2.5")));
    assert!(!is_old(&to(&none, "1.5")));
    // Where nobody recorded what the guide was made by, each reading is held against the one before.
    let unrecorded = made();
    assert!(is_old(&to(&unrecorded, "2.001")));
    assert!(!is_old(&to(&unrecorded, "2")));
    assert!(!is_old(&to(&to(&unrecorded, "2.5"), "1")));
}

/// Over a made guide no site moves: no remedy asks for it without saying that another guide is needed.
#[test]
fn no_move_is_offered_over_a_made_guide() {
    let mut planned: Case = planned(&made()).into_case();
    let site = &mut planned.sites[0];
    for wall in &mut site.walls {
        wall.from_axis_mm = mm("2.3");
    }
    for distance in &mut site.distances {
        distance.from_axis_mm = mm("2.5");
    }
    let said = |case: &Case| -> Vec<String> {
        let case = valid(case.clone());
        let sheet = work_out(&case);
        let rules = ["wall", "neighbour-root"];
        let found = rules.iter().map(|rule| all(&sheet, rule)[0].clone());
        let say = Formatter::english(&case, Notation::Iso);
        found.map(|one| say.finding(&one).remedy.unwrap()).collect()
    };
    let before = said(&planned);
    assert!(
        before.iter().all(|one| one.contains("Move or tilt")),
        "{before:?}"
    );
    planned.guide.state = GuideState::Made;
    planned.guide.is_made_unrecorded = false;
    let after = said(&planned);
    assert!(
        after.iter().all(|one| !one.contains("Move or tilt")),
        "{after:?}"
    );
    assert!(
        after.iter().all(|one| one.contains("another guide")),
        "{after:?}"
    );
}

/// Read more than 2 mm otherwise, nothing follows and nothing that is measured anew counts, until somebody says that it is a
/// reading of the crest: then all follows, and what is asked for is measured and accepted.
#[test]
fn a_reading_of_the_crest_that_is_far_off_counts_by_a_persons_word() {
    let mut before: Case = made().into_case();
    before.demonstration = false;
    before.guide.made_by = Some(Box::new(before.made_by_now()));
    let before = valid(before);
    let depth = before.sites[0].heights.platform_below_crest.unwrap();
    let far = changed(&before, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "3"));
    });
    let anew = |case: &ValidCase| {
        let mut anew: Case = case.clone().into_case();
        super::sample::measure_anew(&mut anew);
        valid(anew)
    };
    let stale = |case: &ValidCase| {
        let stale = stale_values(case, &case.sites[0]);
        [stale.structures, stale.distances, stale.walls].concat()
    };
    let none = |stale: Vec<bool>| stale.iter().all(|one| !one);
    assert!(stale(&far).iter().any(|one| *one));
    assert!(!none(stale(&anew(&far))));
    let sheet = work_out(&far);
    let told = one(&sheet, "depth-over-made-guide");
    let formatter = Formatter::english(&far, Notation::Iso);
    let remedy = formatter.finding(told).remedy.unwrap();
    assert!(remedy.contains("enter 1.0 mm and 0.6 mm"), "{remedy}");
    // To measure it again is no way out.
    let canal_again = one(&sheet, "deep-structure");
    let remedy = formatter.finding(canal_again).remedy.unwrap();
    assert!(remedy.contains("to which the guide leads"), "{remedy}");
    // What nobody says by name says nothing.
    let said = |case: &ValidCase, by: &str| {
        let purpose = case.purpose();
        changed(case, |site| site.say_crest_is_read(&by.into(), purpose))
    };
    assert_eq!(said(&far, "-"), far);
    let read = said(&far, "R. Thorn");
    assert!(none(stale(&read)));
    assert_eq!(all(&work_out(&read), "no-receipt").len(), 0);
    let sheet = work_out(&read);
    let canal = |sheet| one(sheet, "deep-structure").value.clone();
    assert_eq!(canal(&sheet), canal(&work_out(&before)));
    let found = one(&sheet, "depth-over-made-guide");
    assert_eq!(found.verdict, Verdict::Unknown);
    let sounding = |case: &ValidCase| {
        let sheet = work_out(case);
        mm(&shown(sheet.sites[0].sounding.as_ref().unwrap()))
    };
    assert_eq!(sounding(&before) - sounding(&read), mm("3"));
    // A little otherwise it is that one read once more; by the one before again, nothing is said.
    let once_more = changed(&read, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "3.6"));
    });
    assert!(none(stale(&once_more)));
    let back = changed(&once_more, |site| {
        site.heights.platform_below_crest = Some(depth);
    });
    assert!(none(stale(&back)));
    assert_eq!(back, before);
}

/// A word that is given in a demonstration would move what was measured, and the case may turn to a patient: none is taken.
#[test]
fn in_a_demonstration_no_word_on_the_crest_is_taken() {
    let mut before: Case = made().into_case();
    before.guide.made_by = Some(Box::new(before.made_by_now()));
    let before = valid(before);
    let shown = |is| [Edit::SetDemonstration(is)];
    let depth = before.sites[0].heights.platform_below_crest.unwrap();
    let practised = apply(&before, &shown(true)).unwrap();
    let far = changed(&practised, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "3"));
    });
    let said = changed(&far, |site| {
        site.say_crest_is_read(&"R. Thorn".into(), Purpose::Practice);
    });
    assert_eq!(said, far);
    // Nor one that says that it was given for a patient.
    let said = changed(&far, |site| {
        site.say_crest_is_read(&"R. Thorn".into(), Purpose::Patient);
    });
    assert_eq!(said, far);
    let real = apply(&said, &shown(false)).unwrap();
    assert!(real.sites[0].heights.is_off_guide());
    let of_it = changed(&real, |site| {
        site.say_crest_is_read(&"R. Thorn".into(), Purpose::Patient);
    });
    assert!(!of_it.sites[0].heights.is_off_guide());
}

/// An older program kept what a guide leads to also at a site that it was not made for: it leads nothing there.
#[test]
fn a_guide_leads_no_site_that_it_was_not_made_for() {
    let mut case: Case = made().into_case();
    let mut by = case.made_by_now();
    by.sites.clear();
    case.guide.made_by = Some(Box::new(by));
    let depth = case.sites[0].heights.platform_below_crest.unwrap();
    case.sites[0].heights.crest_taken_away = Some(deeper(depth, "-3"));
    let case = valid(case);
    assert!(!case.sites[0].heights.is_off_guide());
    // As an edit brings it.
    let mut site = case.sites[0].clone();
    site.heights.crest_taken_away = Some(deeper(depth, "-3"));
    let edits = [
        Edit::RemoveSite(site.id.clone()),
        Edit::AddSite(Box::new(site)),
    ];
    let again = apply(&case, &edits).unwrap();
    assert!(!again.sites[0].heights.is_off_guide());
}

/// Measured on the guide while another depth is planned than it leads to: that is of the guide, and holds once the right one
/// is entered.
#[test]
fn what_was_measured_on_the_guide_is_of_the_depth_to_which_it_leads() {
    let case = made();
    let depth = case.sites[0].heights.platform_below_crest.unwrap();
    let back = changed(&planned(&case), |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "-1"));
    });
    let mut guide = back.guide.clone();
    guide.state = GuideState::Made;
    let back = apply(&back, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let mut guide = back.guide.clone();
    guide.receipt = [
        (ReceiptOf::PlatformToSleeve, "6"),
        (ReceiptOf::MasterSleeveHeight, "4"),
        (ReceiptOf::MasterSleeveBore, "4.95"),
    ]
    .map(|(of, measured)| received(&back, of, measured))
    .into();
    let measured = apply(&back, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    assert_eq!(all(&work_out(&measured), "no-receipt").len(), 0);
    let right = changed(&measured, |site| {
        site.heights.platform_below_crest = Some(deeper(depth, "0.5"));
    });
    assert_eq!(all(&work_out(&right), "no-receipt").len(), 0);
}
