//! Coordinates that cannot well be those of their tooth. Frame: x to the patient's left, y posterior,
//! z superior; the bounds are common practice, no source.

use super::super::sample::{all, mm, one, worked};
use super::implants::{beside_a_second, upright_at};
use traywright_core::case::{Case, Placement};
use traywright_core::measure::Angle;
use traywright_core::plan::{Argument, Verdict, Worksheet};

fn placed(case: &mut Case, n: usize, at: [&str; 3]) {
    upright_at(case, n, at[0]);
    let Placement::Measured { platform, .. } = &mut case.sites[n].placement else {
        panic!()
    };
    [platform.y_mm, platform.z_mm] = [mm(at[1]), mm(at[2])];
}

fn asked(sheet: &Worksheet, rule: &str) -> Option<(String, String)> {
    let finding = *all(sheet, rule).first()?;
    assert_eq!(finding.verdict, Verdict::Unknown);
    let said = |name| finding.args.get(name).map(Argument::to_string);
    said("how").zip(said("by"))
}

fn alone(at: [&str; 3], change: impl FnOnce(&mut Case)) -> Option<(String, String)> {
    let sheet = worked(|case| {
        placed(case, 0, at);
        change(case);
        super::super::sample::measure_anew(case);
    });
    asked(&sheet, "site-away-from-its-tooth")
}

fn told(how: &str, by: &str) -> (String, String) {
    (how.into(), by.into())
}

/// 36 is on the patient's left, so its x is positive; 1 mm across the midline is not yet asked about.
/// A lower implant lies inferior of the occlusal plane.
#[test]
fn a_sign_that_cannot_be_of_the_tooth_is_asked_about() {
    let no_arch = |case: &mut Case| case.arch = None;
    for (at, want) in [
        (["24", "25", "-9"], None),
        (["-1", "25", "-9"], Some(told("arch", "26.5"))),
        (["-1.001", "25", "-9"], Some(told("side", "1.001"))),
        (["-24", "25", "-9"], Some(told("side", "24"))),
        (["24", "25", "0"], None),
        (["24", "25", "0.001"], Some(told("coronal", "0.001"))),
        (["24", "25", "9.3"], Some(told("coronal", "9.3"))),
    ] {
        let bare = |case: &mut Case| {
            no_arch(case);
            case.sites[0].heights.crest_below_occlusal_mm = None;
        };
        assert_eq!(alone(at, bare), want, "{at:?}");
    }
    let mirrored = alone(["24", "25", "-9"], |case| {
        no_arch(case);
        case.sites[0].tooth = super::super::sample::tooth("46");
    });
    assert_eq!(mirrored, Some(told("side", "24")));
}

/// Crest 8 below the occlusal plane, platform 1 below the crest: z −9. 5 mm more or less may be.
#[test]
fn a_height_that_is_not_the_crests_is_asked_about() {
    for (z, want) in [
        ("-9", None),
        ("-4", None),
        ("-14", None),
        ("-3.999", Some(told("height", "5.001"))),
        ("-14.001", Some(told("height", "5.001"))),
        ("-30", Some(told("height", "21"))),
    ] {
        let found = alone(["24", "25", z], |case| {
            case.arch = None;
            let heights = &mut case.sites[0].heights;
            heights.crest_below_occlusal_mm = Some(mm("8"));
            let depth = heights.platform_below_crest.as_mut().unwrap();
            (depth.highest_mm, depth.lowest_mm) = (mm("1"), mm("1"));
        });
        assert_eq!(found, want, "{z}");
    }
}

/// The sample's arch has 36 within a tooth of x 24, y 25; 40 mm behind no arch has it.
#[test]
fn a_place_far_from_the_tooth_on_the_arch_model_is_asked_about() {
    let bare = |case: &mut Case| case.sites[0].heights.crest_below_occlusal_mm = None;
    assert!(super::super::sample::case().arch.is_some());
    assert_eq!(alone(["24", "25", "-9"], bare), None);
    let far = alone(["24", "65", "-9"], bare);
    assert_eq!(far.map(|far| far.0), Some("arch".to_owned()));
}

/// From the middle of 35 to that of 36 are half of 7 and half of 11 mm of crown (Wheeler): 9 mm, and
/// 8 mm more may be. 46 and 47 with one x of the wrong sign are 48 mm apart, which no two teeth are.
#[test]
fn two_sites_farther_apart_than_teeth_or_the_wrong_way_round_are_asked_about() {
    let pair = |first: [&str; 3], second: [&str; 3]| {
        let sheet = worked(|case| {
            beside_a_second(case);
            case.arch = None;
            placed(case, 0, first);
            placed(case, 1, second);
        });
        let found = asked(&sheet, "places-disagree");
        if found.is_some() {
            let place = &one(&sheet, "places-disagree").place;
            assert_eq!(place.key(), "sites[one].distances[two]");
        }
        found
    };
    for (first, second, want) in [
        (["24", "25", "-9"], ["22", "17", "-9"], None),
        (["24", "25", "-9"], ["24", "8", "-9"], None),
        (
            ["24", "25", "-9"],
            ["24", "7.999", "-9"],
            Some(told("apart", "17")),
        ),
        (
            ["24", "25", "-9"],
            ["-24", "25", "-9"],
            Some(told("apart", "48")),
        ),
        // 36 stands behind 35, or at most 2 mm before it.
        (["22", "17", "-9"], ["22", "19", "-9"], None),
        (
            ["22", "17", "-9"],
            ["22", "19.001", "-9"],
            Some(told("order", "2")),
        ),
        (
            ["22", "17", "-9"],
            ["24", "25", "-9"],
            Some(told("order", "10")),
        ),
    ] {
        assert_eq!(pair(first, second), want, "{first:?} {second:?}");
    }
}

/// Wheeler's mean crown of a lower first molar is 11 mm wide along the arch and 10.5 across it: at half
/// of it the site stands at the next tooth, where the mental foramen must be known of too. Across,
/// 2 mm beside the crown are not asked about.
#[test]
fn a_place_on_the_arch_is_held_against_its_tooth() {
    let at = |along: &str, buccal: &str| {
        let sheet = worked(|case| {
            let Placement::OnArch {
                along_mm,
                buccal_mm,
                ..
            } = &mut case.sites[0].placement
            else {
                panic!()
            };
            (*along_mm, *buccal_mm) = (mm(along), mm(buccal));
            super::super::sample::measure_anew(case);
        });
        let foramen = "deep-structure sites[one].structures[mental_foramen]";
        let foramen = sheet.findings.iter().any(|f| f.key() == foramen);
        (asked(&sheet, "site-away-from-its-tooth"), foramen)
    };
    for (along, buccal, how, foramen) in [
        ("-5.5", "0", None, false),
        ("-5.501", "0", Some(told("along", "5.501")), true),
        ("-10", "0", Some(told("along", "10")), true),
        ("5.5", "0", None, false),
        ("5.501", "0", Some(told("along", "5.501")), false),
        ("0", "7.25", None, false),
        ("0", "7.251", Some(told("buccal", "7.251")), false),
        ("0", "-7.25", None, false),
        ("0", "-7.251", Some(told("oral", "7.251")), false),
    ] {
        assert_eq!(at(along, buccal), (how, foramen), "{along} {buccal}");
    }
}

/// 46 tilted 35° to mesial: 10 · tan 35° = 7.0 beside its own middle, the apex is in the place of 45, and the
/// foramen must be known.
#[test]
fn the_structures_where_the_apex_is_must_be_known() {
    let foramen = |degrees: i32| {
        let sheet = worked(|case| {
            let Placement::OnArch {
                apex_to_distal_deg, ..
            } = &mut case.sites[0].placement
            else {
                panic!()
            };
            *apex_to_distal_deg = Angle::from_deg(degrees);
            super::super::sample::measure_anew(case);
        });
        let foramen = "deep-structure sites[one].structures[mental_foramen]";
        sheet.findings.iter().any(|f| f.key() == foramen)
    };
    // 10 · tan 28° = 5.317, and half the crown 5.5.
    assert!(!foramen(-28));
    assert!(foramen(-35));
    assert!(!foramen(35));
}
