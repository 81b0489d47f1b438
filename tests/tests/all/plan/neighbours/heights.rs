//! Two implants by what was measured between them at some heights: how near they may be between those and beside the end of the
//! shorter one. All figures of expectation are elementary geometry.

use super::super::kit::outline;
use super::super::sample::{each_drill, measure_anew, mm, one, worked};
use super::implants::{beside_a_second, disagree, lean, to_other};
use traywright_core::case::{Case, Height, Placement, Site};
use traywright_core::kit::Implant;
use traywright_core::plan::{Quantity, TermName, Verdict, Worksheet};

use Height::{Apex, Crest, Least, Mid};

/// The sample beside a second site, changed, with these distances measured from the first.
pub(super) fn measured(heights: &[(Height, &str)], change: impl FnOnce(&mut Case)) -> Worksheet {
    measured_and_then(heights, change, |_| ())
}

/// The same, changed once more since.
fn measured_and_then(
    heights: &[(Height, &str)],
    change: impl FnOnce(&mut Case),
    then: impl FnOnce(&mut Case),
) -> Worksheet {
    let from_first: Vec<(usize, Height, &str)> = heights
        .iter()
        .map(|(at, from_axis)| (0, *at, *from_axis))
        .collect();
    measured_from(&from_first, change, then)
}

/// The sample beside a second site, changed, with these distances measured from the first or the second, changed once more since.
pub(super) fn measured_from(
    distances: &[(usize, Height, &str)],
    change: impl FnOnce(&mut Case),
    then: impl FnOnce(&mut Case),
) -> Worksheet {
    worked(|case| {
        beside_a_second(case);
        change(case);
        measure_anew(case);
        let now = |n: usize| {
            let site = &case.sites[n];
            let implants = &case.kit.implants;
            let implant = implants.iter().find(|one| one.id == site.implant);
            site.measured_now(implant.unwrap().platform_to_apex_mm)
        };
        let now = [now(0), now(1)];
        for (from, at, from_axis) in distances {
            let other = ["two", "one"][*from];
            let mut distance = to_other(case, *from, other, from_axis, *at);
            distance.measured_at = now[*from].clone();
            distance.other_measured_at = Some(now[1 - *from].clone());
            case.sites[*from].distances.push(distance);
        }
        then(case);
    })
}

pub(super) fn bodies(sheet: &Worksheet) -> Verdict {
    one(sheet, "neighbour-implant-body").verdict
}

pub(super) fn limit_of_bodies(case: &mut Case, limit: &str) {
    let limits = case.limits.neighbour_implant_body.as_mut();
    limits.unwrap().limit_mm = mm(limit);
}

/// Another implant at a site, otherwise as the first of the kit.
pub(super) fn implant(case: &mut Case, n: usize, id: &str, change: impl FnOnce(&mut Implant)) {
    let mut other = case.kit.implants[0].clone();
    other.id = id.into();
    change(&mut other);
    case.kit.implants.push(other);
    case.sites[n].implant = id.into();
}

/// The platforms at the crest, this far below it.
fn below_crest(case: &mut Case, below: &str) {
    case.sites
        .iter_mut()
        .for_each(|site| below_crest_at(site, below));
}

pub(super) fn below_crest_at(site: &mut Site, below: &str) {
    let crest = site.heights.platform_below_crest.as_mut().unwrap();
    (crest.highest_mm, crest.lowest_mm) = (mm(below), mm(below));
}

/// Two leaning axes may be nearer between the heights at which they were measured. 7.2, 7.2 and 9.0 at 0, 5.0 and 10.0 below
/// the platform, which is at the crest: what was read level there is 7.2 · cos 20° = 6.766 straight to the other axis. Along
/// the first axis the square of the distance is a parabola, sin² 40° steep while its foot is on the other one, and as steep as that
/// of a point where it is beyond an end: 7.2 aside, up to 7.2 · sin 20° = 2.46 of each end may be. As of a point all along, it
/// falls by up to x · (5 − x) below the line from 45.78 to 51.84, to 42.19 at 1.89, so that the axes may be 6.495 apart there. Both
/// radii are 4.4 together: 2.8 measured at mid-length, 2.095 by that.
#[test]
fn leaning_axes_may_be_nearer_between_the_heights_that_were_measured() {
    let told = |tilt: &str, limit: &str, heights: &[(Height, &str)]| {
        bodies(&measured(heights, |case| {
            below_crest(case, "0");
            case.sites.iter_mut().for_each(|site| lean(site, tilt));
            limit_of_bodies(case, limit);
        }))
    };
    let each = [(Crest, "7.2"), (Mid, "7.2"), (Apex, "9")];
    assert_eq!(told("20", "2.09", &each), Verdict::Clear);
    assert_eq!(told("20", "2.1", &each), Verdict::Unknown);
    // Upright, the necks are the nearest, 2.3 wide each: 7.2 less 4.6.
    assert_eq!(told("0", "2.6", &each), Verdict::Clear);
    assert_eq!(told("0", "2.61", &each), Verdict::Short);
    assert_eq!(told("20", "2.61", &each), Verdict::Short);
    // The least over the length is that.
    assert_eq!(told("20", "2.6", &[(Least, "7.2")]), Verdict::Clear);
    // Without the crest: by the line through the other two no less than √(2 · 7.2² − 9.6²) = 3.4 there.
    let wide_below = [(Mid, "7.2"), (Apex, "9.6")];
    assert_eq!(told("20", "2", &wide_below), Verdict::Unknown);
    let alike = [(Mid, "7.2"), (Apex, "7.2")];
    assert_eq!(told("0", "2", &alike), Verdict::Clear);
}

/// 12.6 long beside 8.7 long: at the apex of the longer one what was read to the end of the other, which lies above it, says
/// nothing of how near that end is to the axis between. From 6.9 at 12.6 and 6.4 at 6.3, as of a point, the square may fall by
/// 3.15² − 3.32 below 44.3: to 6.1 apart.
#[test]
fn between_heights_a_neighbour_that_ends_is_a_point() {
    let told = |other_long: &str| {
        let heights = [(Crest, "7.9"), (Mid, "6.4"), (Apex, "6.9")];
        bodies(&measured(&heights, |case| {
            implant(case, 0, "longer", |one| {
                one.platform_to_apex_mm = mm("12.6");
            });
            implant(case, 1, "other", |one| {
                one.platform_to_apex_mm = mm(other_long);
            });
            limit_of_bodies(case, "1.8");
        }))
    };
    assert_eq!(told("8.7"), Verdict::Unknown);
    assert_eq!(told("12.6"), Verdict::Clear);
}

/// Two that converge evenly are nearest at their apices, where they were measured: equal lengths, 8° between them.
#[test]
fn two_that_converge_to_their_apices_are_known() {
    let told = |limit: &str| {
        let heights = [(Crest, "7.9"), (Mid, "7.2"), (Apex, "6.5")];
        bodies(&measured(&heights, |case| {
            lean(&mut case.sites[1], "8");
            limit_of_bodies(case, limit);
        }))
    };
    // 6.5 − 4.4 = 2.1.
    assert_eq!(told("2"), Verdict::Clear);
    assert_eq!(told("2.11"), Verdict::Short);
}

/// A body is wider above its rounded apex than there: 6.0 apart at the apices, where both are 3.4 wide, and hardly
/// farther apart 0.7 above them, where both are 4.4 wide.
#[test]
fn above_a_rounded_apex_the_body_counts() {
    let told = |wide: &str| {
        let heights = [(Crest, "8"), (Mid, "7"), (Apex, "6")];
        bodies(&measured(&heights, |case| {
            implant(case, 0, "round", |one| {
                one.profile = outline([("0", wide), ("9.3", wide), ("9.7", "3.4"), ("10", "2.4")]);
                (one.diameter_mm, one.largest_diameter_mm) = (mm(wide), mm(wide));
            });
            case.sites[1].implant = "round".into();
            each_drill(case, |drill| drill.cutting_diameter_mm = mm("2"));
            limit_of_bodies(case, "2.5");
        }))
    };
    assert_eq!(told("4.4"), Verdict::Unknown);
    assert_eq!(told("3.4"), Verdict::Clear);
}

/// A neck that only a loosened limit between the platforms lets pass is short of the limit of the bodies: 5.8 − 4.6 = 1.2.
#[test]
fn a_loosened_limit_between_the_platforms_loosens_none_of_the_bodies() {
    let told = |platforms: &str| {
        let heights = [(Crest, "5.8"), (Mid, "9"), (Apex, "9")];
        let sheet = measured(&heights, |case| {
            let limit = case.limits.neighbour_implant.as_mut();
            limit.unwrap().limit_mm = mm(platforms);
            limit_of_bodies(case, "2");
        });
        ["neighbour-implant", "neighbour-implant-body"].map(|rule| one(&sheet, rule).verdict)
    };
    assert_eq!(told("1"), [Verdict::Clear, Verdict::Short]);
    assert_eq!(told("3"), [Verdict::Short, Verdict::Short]);
}

/// What lies 10.0 down beside a longer implant is as wide as that one is there, not at its own narrow apex: 9.0 − 2.2 − 2.0.
#[test]
fn a_longer_neighbour_is_as_wide_as_it_is_there() {
    let heights = [(Crest, "9"), (Mid, "9"), (Apex, "9")];
    let sheet = measured(&heights, |case| {
        implant(case, 1, "longer", |one| {
            one.platform_to_apex_mm = mm("14");
            (one.diameter_mm, one.largest_diameter_mm) = (mm("4"), mm("4"));
            one.profile = outline([("0", "4"), ("12", "4"), ("13", "2"), ("14", "1")]);
        });
        each_drill(case, |drill| drill.cutting_diameter_mm = mm("0.9"));
    });
    let found = one(&sheet, "neighbour-implant-body");
    let figure = found.figure.as_ref().unwrap();
    let radii = figure
        .terms
        .iter()
        .filter(|term| term.name == TermName::Radius);
    let radii: Vec<_> = radii.filter_map(|term| term.value.get()).collect();
    // Of the apex, which rules or not: its own, and the other's 10.0 down.
    let [.., own, other] = radii[..] else {
        panic!("{radii:?}");
    };
    assert_eq!(
        (own, other),
        (Quantity::Length(mm("2.2")), Quantity::Length(mm("2")))
    );
}

/// 7.8 apart and upright, 10.0 long beside 5.0: at the apex of the longer one what was read to the end of the other is the long
/// side of a triangle. The least over the bodies is no witness against what was read below the end of one.
#[test]
fn what_was_read_below_a_shorter_neighbour_is_no_contradiction() {
    let told = |heights: &[(Height, &str)]| {
        let sheet = measured(heights, |case| {
            implant(case, 1, "other", |one| one.platform_to_apex_mm = mm("5"));
        });
        disagree(&sheet).is_some()
    };
    // √(7.8² + 5.0²) = 9.27.
    assert!(!told(&[(Crest, "7.8"), (Mid, "7.8"), (Apex, "9.27")]));
    assert!(told(&[(Crest, "7.8"), (Mid, "9.27"), (Apex, "7.8")]));
    assert!(!told(&[(Least, "7.8"), (Apex, "5")]));
    assert!(told(&[(Least, "7.8"), (Mid, "5")]));
}

/// What is said to be the least over the length, though less was measured elsewhere, is none: beside leaning implants it ends no
/// bound, and where nothing was measured at the platforms it is nothing of these. 6.8 at mid and apex: between them √(6.8² − 6.25 ·
/// sin² 60°) = 6.45, less 4.4 for both radii, and 6.8 less 4.6 for both necks where that is the least.
#[test]
fn a_least_that_is_more_than_another_distance_is_none() {
    let told = |heights: &[(Height, &str)]| {
        let sheet = measured(heights, |case| {
            case.sites.iter_mut().for_each(|site| lean(site, "30"));
            limit_of_bodies(case, "2.2");
        });
        ["neighbour-implant", "neighbour-implant-body"].map(|rule| one(&sheet, rule).verdict)
    };
    let three = [(Crest, "9"), (Mid, "6.8"), (Apex, "6.8")];
    assert_eq!(told(&three), [Verdict::Clear, Verdict::Unknown]);
    let [a, b, c] = three;
    assert_eq!(
        told(&[a, b, c, (Least, "7.4")]),
        [Verdict::Clear, Verdict::Unknown]
    );
    assert_eq!(told(&[a, b, c, (Least, "6.8")]), [Verdict::Clear; 2]);
    let two = [(Mid, "7.7"), (Apex, "9")];
    let [a, b] = two;
    assert_eq!(told(&[a, b, (Least, "7.9")]), [Verdict::Unknown; 2]);
    assert_eq!(told(&[a, b, (Least, "7.7")]), [Verdict::Clear; 2]);
}

/// A move takes something of each distance, and with it of what lies between the heights: 7.2, 7.2 and 9.0 leave
/// 2.095 (above), and after 0.1 mm aside, which takes up to √2 · 0.1 · 1.1 and more, no less than that less. Nor does a distance
/// that does not count any more bound anything.
#[test]
fn between_heights_a_distance_from_before_a_move_is_what_is_left_of_it() {
    let each = [(Crest, "7.2"), (Mid, "7.2"), (Apex, "9")];
    let told = |limit: &str, heights: &[(Height, &str)], then: fn(&mut Case)| {
        let tilted = |case: &mut Case| {
            below_crest(case, "0");
            case.sites.iter_mut().for_each(|site| lean(site, "20"));
            limit_of_bodies(case, limit);
        };
        bodies(&measured_and_then(heights, tilted, then))
    };
    let aside = |case: &mut Case| {
        if let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement {
            *along_mm += mm("0.1");
        }
        for one in &mut case.sites[0].distances {
            one.measured_at.down_to_mm = Some(mm("14"));
        }
    };
    assert_eq!(told("2", &each, |_| ()), Verdict::Clear);
    // 7.2 less 0.16 at least leaves 2.64 at most where it was measured, and less than 2 between.
    assert_eq!(told("2", &each, aside), Verdict::Unknown);
    assert_eq!(told("1.7", &each, aside), Verdict::Clear);
    let two = [(Mid, "6.95"), (Apex, "8.5")];
    let three = [(Crest, "9"), (Mid, "6.95"), (Apex, "8.5")];
    let crest_of_old = |case: &mut Case| {
        let crest = case.sites[0].distances.iter_mut();
        for one in crest.filter(|one| one.at == Crest) {
            if let Placement::OnArch { along_mm, .. } = &mut one.measured_at.placement {
                *along_mm = mm("-3");
            }
        }
    };
    assert_eq!(told("2", &two, |_| ()), Verdict::Unknown);
    assert_eq!(told("2", &three, |_| ()), Verdict::Clear);
    assert_eq!(told("2", &three, crest_of_old), Verdict::Unknown);
}

/// What is read at the crest is read coronal of platforms that lie below it: 8.5 · cos 20° = 7.99, 6.9 and 8.4. With the platform at
/// the crest the square, as of a point, falls to 46.84 at 4.1 down: 6.844 less 4.4 are left. 4.0 below it, it was read 4.26 up the
/// axis, and falls to 33.5 at 1.2 down: 5.788 less 4.4.
#[test]
fn the_crest_is_coronal_of_a_platform_below_it() {
    let told = |below: &str, limit: &str| {
        let heights = [(Crest, "8.5"), (Mid, "6.9"), (Apex, "8.4")];
        bodies(&measured(&heights, |case| {
            below_crest(case, below);
            case.sites.iter_mut().for_each(|site| lean(site, "20"));
            limit_of_bodies(case, limit);
        }))
    };
    assert_eq!(told("0", "2.44"), Verdict::Clear);
    assert_eq!(told("0", "2.45"), Verdict::Unknown);
    assert_eq!(told("4", "1.38"), Verdict::Clear);
    assert_eq!(told("4", "1.39"), Verdict::Unknown);
}

/// Two that lean by 20° each towards each other's crest are 2 · 4.0 · tan 20° = 2.91 nearer there than at their platforms, 4.0 below it: 5.8 and
/// 8.71, which is the least over both where they lie apart below. With platforms at the crest one of the two is wrong, and so it is
/// where they are upright. 40° between them, 5.8 may be 5.8 ∕ cos 40° = 7.571 where it was read across the one: 1.771 and 4.0 · tan 40° = 3.356 and a
/// millimetre more at most.
#[test]
fn the_least_may_be_more_than_what_was_read_coronal_of_both_platforms() {
    let told = |below: &str, tilt: &str, least: &str| {
        let sheet = measured(&[(Crest, "5.8"), (Least, least)], |case| {
            below_crest(case, below);
            case.sites.iter_mut().for_each(|site| lean(site, tilt));
        });
        disagree(&sheet).is_some()
    };
    assert!(!told("4", "20", "8.71"));
    assert!(!told("4", "20", "11.92"));
    assert!(told("4", "20", "11.93"));
    assert!(told("0", "20", "8.71"));
    assert!(told("4", "0", "8.71"));
}

fn platforms(sheet: &Worksheet) -> Verdict {
    one(sheet, "neighbour-implant").verdict
}

fn limit_of_platforms(case: &mut Case, limit: &str) {
    let limits = case.limits.neighbour_implant.as_mut();
    limits.unwrap().limit_mm = mm(limit);
}

/// 8.5 at the crest, level, leave 3.9 beside necks of 4.6. Axes that lean by 20° each may come 2 · 4.0 · tan 20° = 2.912 nearer down
/// to platforms 4.0 below the crest: 0.988. Upright, or with the platforms at the crest, it is what was read.
#[test]
fn axes_that_lean_may_be_nearer_at_platforms_below_the_crest() {
    let told = |below: &str, tilt: &str, limit: &str| {
        platforms(&measured(&[(Crest, "8.5")], |case| {
            below_crest(case, below);
            case.sites.iter_mut().for_each(|site| lean(site, tilt));
            limit_of_platforms(case, limit);
        }))
    };
    assert_eq!(told("4", "20", "0.98"), Verdict::Clear);
    assert_eq!(told("4", "20", "0.99"), Verdict::Unknown);
    assert_eq!(told("4", "20", "3.9"), Verdict::Unknown);
    assert_eq!(told("4", "20", "3.91"), Verdict::Short);
    assert_eq!(told("4", "0", "3.9"), Verdict::Clear);
    assert_eq!(told("0", "20", "3.9"), Verdict::Clear);
}

/// The least over both bodies is no level distance: of platforms 4.0 deeper than each other it is √(6.4² − 4.0²) = 4.996, less 4.6 for
/// both necks. After 0.1 mm aside, which takes 0.16 of it at least, no more than √(6.24² − 4.0²) = 4.789 is certain.
#[test]
fn the_least_is_level_between_platforms_that_lie_off_each_other_only_where_both_are_upright() {
    let told = |deeper: &str, tilt: &str, limit: &str, is_moved: bool| {
        let change = |case: &mut Case| {
            below_crest(case, "0");
            below_crest_at(&mut case.sites[1], deeper);
            lean(&mut case.sites[0], tilt);
            limit_of_platforms(case, limit);
        };
        let aside = |case: &mut Case| {
            if let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement
                && is_moved
            {
                *along_mm += mm("0.1");
            }
            for one in &mut case.sites[0].distances {
                one.measured_at.down_to_mm = Some(mm("14"));
            }
        };
        platforms(&measured_and_then(&[(Least, "6.4")], change, aside))
    };
    assert_eq!(told("4", "10", "0.39", false), Verdict::Clear);
    assert_eq!(told("4", "10", "0.4", false), Verdict::Unknown);
    assert_eq!(told("4", "0", "1.8", false), Verdict::Clear);
    assert_eq!(told("0", "10", "1.8", false), Verdict::Clear);
    assert_eq!(told("4", "10", "1.81", false), Verdict::Short);
    // Upright, and 12.0 deeper, the one begins below the end of the other, 10.0 long.
    assert_eq!(told("12", "0", "1.8", false), Verdict::Unknown);
    assert_eq!(told("4", "10", "0.21", true), Verdict::Unknown);
    assert_eq!(told("4", "10", "0.1", true), Verdict::Clear);
}
