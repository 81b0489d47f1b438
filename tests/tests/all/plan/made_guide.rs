//! A guide that is made leads to one platform: what is read of the crest moves nothing else.

use super::sample::{all, case, mm, one, received, shown, valid, work};
use traywright_core::case::{
    Case, CrestDepth, Edit, GuideState, ReceiptOf, Site, StructureExtent, ValidCase, apply,
};
use traywright_core::dentition::Notation;
use traywright_core::plan::{Verdict, stale_values, work_out};
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
