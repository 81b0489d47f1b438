//! Bone to the walls.

use super::kit::outline;
use super::sample::{all, case, judged, mm, one, work, worked};
use traywright_core::case::{Case, GuideState, Height, Receipt, ReceiptOf, Wall, WallSide};
use traywright_core::dentition::Jaw;
use traywright_core::kit::{Datum, DepthRule, Point};
use traywright_core::plan::{Finding, Reason, Verdict, Worksheet};

/// The only wall: buccal, at this height and this far from the axis.
fn buccal(case: &mut Case, at: Height, from_axis: &str) {
    let walls = &mut case.sites[0].walls;
    walls.truncate(1);
    walls[0].at = at;
    walls[0].from_axis_mm = mm(from_axis);
}

fn margin(at: Height, change: impl FnOnce(&mut Case)) -> (Verdict, String) {
    let sheet = worked(|case| {
        buccal(case, at, "4");
        change(case);
    });
    let finding = one(&sheet, "wall");
    let left = finding.judged_length().unwrap();
    (finding.verdict, left.to_string())
}

/// From the axis less the widest radius: 3.8 − 4.6 / 2 = 1.5, just the limit.
#[test]
fn equal_to_the_limit_is_not_short() {
    for (from_axis, verdict, value) in [
        ("3.8", Verdict::Clear, "1.5"),
        ("3.799", Verdict::Short, "1.499"),
    ] {
        let sheet = worked(|case| buccal(case, Height::Least, from_axis));
        assert_eq!(judged(&sheet, "wall"), (verdict, value.into()));
    }
    // A radius takes its odd micrometre: 4.601 / 2 → 2.301.
    let odd = worked(|case| {
        buccal(case, Height::Least, "3.8");
        case.kit.implants[0].largest_diameter_mm = mm("4.601");
    });
    assert_eq!(judged(&odd, "wall"), (Verdict::Short, "1.499".into()));
    // 4.401 / 2 → 2.201 at mid-length: 3.7 − 2.201.
    let odd_at_mid = worked(|case| {
        buccal(case, Height::Mid, "3.7");
        case.kit.implants[0].diameter_mm = mm("4.401");
    });
    assert_eq!(
        judged(&odd_at_mid, "wall"),
        (Verdict::Short, "1.499".into())
    );
}

/// A cut wider than the implant counts at its own heights. A profile drill of 4.9 that ends 3.0
/// below the platform: 4.0 − 2.45 = 1.55 at the crest; at mid-length, 5.0 below, the implant's 4.4
/// counts: 4.0 − 2.2 = 1.8.
#[test]
fn a_cut_counts_down_to_where_it_ends() {
    let wide = |case: &mut Case| {
        case.kit.drills[2].cutting_diameter_mm = mm("4.9");
        case.sites[0].steps[2].depth = DepthRule::BelowPlatform { depth_mm: mm("3") };
    };
    assert_eq!(margin(Height::Crest, wide).1, "1.55");
    assert_eq!(margin(Height::Least, wide).1, "1.55");
    assert_eq!(margin(Height::Mid, wide).1, "1.8");
    // With a flat end just at mid-length it still counts there.
    let to_mid = |case: &mut Case| {
        wide(case);
        case.kit.drills[2].point = Point::Length { point_mm: mm("0") };
        case.sites[0].steps[2].depth = DepthRule::BelowPlatform { depth_mm: mm("5") };
    };
    assert_eq!(margin(Height::Mid, to_mid).1, "1.55");
    assert_eq!(margin(Height::Apex, to_mid).1, "1.8");
}

/// An outline from 4.4 at the platform over 4.0 at 6.0 to 2.0 at the apex; the drills end above
/// the apex and are no wider than 1.9 below mid-length. At mid-length, 5.0, the larger end of that
/// stretch counts: 4.0 − 2.2; at the apex 4.0 of the last stretch.
#[test]
fn an_outline_counts_with_the_larger_end_of_each_stretch() {
    let tapered = |case: &mut Case| {
        case.kit.implants[0].profile = outline([("0", "4.4"), ("6", "4.0"), ("10", "2.0")]);
        for step in &mut case.sites[0].steps {
            step.depth = DepthRule::BelowPlatform { depth_mm: mm("2") };
        }
    };
    assert_eq!(margin(Height::Mid, tapered).1, "1.8");
    assert_eq!(margin(Height::Apex, tapered).1, "2");
    // The outline ends early: its last diameter goes on.
    let early = |case: &mut Case| {
        tapered(case);
        case.kit.implants[0].profile.truncate(2);
    };
    assert_eq!(margin(Height::Apex, early).1, "2");
}

/// Let down 1.0 deeper by a guide that seats lower, the implant's 4.4 above a step at 4.2 is beside
/// the wall at mid-length, 5.0 below where the platform was planned: 4.0 − 2.2, not 4.0 − 1.7.
#[test]
fn a_guide_that_seats_lower_lets_the_wider_part_down() {
    let stepped = |case: &mut Case| {
        case.kit.implants[0].profile =
            outline([("0", "4.4"), ("4.2", "4.4"), ("4.3", "3.4"), ("10", "3.4")]);
        for step in &mut case.sites[0].steps {
            step.depth = DepthRule::BelowPlatform { depth_mm: mm("2") };
        }
    };
    let planned = margin(Height::Mid, stepped).1;
    let lower = margin(Height::Mid, |case| {
        stepped(case);
        case.guide.state = GuideState::Made;
        case.guide.receipt = vec![Receipt {
            site: "one".into(),
            of: ReceiptOf::PlatformToSleeve,
            measured_mm: mm("5"),
        }];
    });
    assert_eq!((planned.as_str(), lower.1.as_str()), ("2.3", "1.8"));
}

/// Not measured at all is unknown; a posterior lower site needs more than the crest on the oral
/// side.
#[test]
fn what_was_not_measured_is_unknown() {
    let none = worked(|case| case.sites[0].walls.clear());
    assert_eq!(all(&none, "wall-not-measured").len(), 2);
    assert!(
        all(&none, "wall-not-measured")
            .iter()
            .all(|f| f.verdict == Verdict::Unknown)
    );

    let at_crest = |case: &mut Case| case.sites[0].walls[1].at = Height::Crest;
    let posterior = worked(at_crest);
    assert_eq!(
        one(&posterior, "oral-profile-not-measured").verdict,
        Verdict::Unknown
    );
    let also_mid = worked(|case| {
        at_crest(case);
        let mid = Wall {
            at: Height::Mid,
            ..case.sites[0].walls[1].clone()
        };
        case.sites[0].walls.push(mid);
    });
    assert!(all(&also_mid, "oral-profile-not-measured").is_empty());
}

/// The sites for which the oral profile is asked for: lower premolars and molars.
#[test]
fn the_oral_profile_is_asked_for_in_the_posterior_lower_jaw() {
    let asked = |jaw: Jaw, iso: &str| {
        let mut case = case();
        let mut site = super::sample::site("one", iso, &[]);
        site.walls.retain(|wall| wall.side == WallSide::Oral);
        site.walls[0].at = Height::Crest;
        case.jaw = jaw;
        case.teeth.clear();
        case.sites = vec![site];
        case.sites[0].structures.clear();
        let sheet: Worksheet = work(case);
        !all(&sheet, "oral-profile-not-measured").is_empty()
    };
    for (jaw, iso, want) in [
        (Jaw::Lower, "33", false),
        (Jaw::Lower, "34", true),
        (Jaw::Lower, "44", true),
        (Jaw::Lower, "47", true),
        (Jaw::Upper, "14", false),
        (Jaw::Upper, "26", false),
    ] {
        assert_eq!(asked(jaw, iso), want, "{iso}");
    }
}

/// One height, or two, say nothing about the rest of the wall: short where they break the limit,
/// never clear. The least over the length does, and so do crest, middle and apex together.
#[test]
fn one_height_alone_never_makes_a_side_clear() {
    let (crest, mid, apex) = (Height::Crest, Height::Mid, Height::Apex);
    for (heights, suffice) in [
        (&[crest][..], false),
        (&[mid], false),
        (&[apex], false),
        (&[crest, mid], false),
        (&[crest, apex], false),
        (&[mid, apex], false),
        (&[crest, mid, apex], true),
        (&[Height::Least], true),
        (&[crest, Height::Least], true),
    ] {
        let at = |from_axis: &'static str| -> Vec<(Verdict, Vec<Reason>)> {
            let sheet = worked(|case| {
                let wall = case.sites[0].walls[0].clone();
                case.sites[0]
                    .walls
                    .retain(|wall| wall.side == WallSide::Oral);
                case.sites[0].walls.extend(heights.iter().map(|at| Wall {
                    at: *at,
                    from_axis_mm: mm(from_axis),
                    ..wall.clone()
                }));
            });
            let buccal = |f: &&&Finding| f.place.key().contains("buccal");
            let found = all(&sheet, "wall");
            let found = found.iter().filter(buccal);
            found
                .map(|f| (f.verdict, f.value.reasons().to_vec()))
                .collect()
        };
        for (verdict, reasons) in at("5") {
            if suffice {
                assert_eq!(
                    (verdict, &reasons[..]),
                    (Verdict::Clear, &[][..]),
                    "{heights:?}"
                );
            } else {
                assert_eq!(verdict, Verdict::Unknown, "{heights:?}");
                assert!(matches!(reasons[..], [Reason::SomeHeightsOnly(_)]));
            }
        }
        for (verdict, _) in at("3") {
            assert_eq!(verdict, Verdict::Short, "{heights:?}");
        }
    }
}

/// A wall "at its closest" 6.0 from the axis that is 3.9 from it at the crest was not measured at its
/// closest: neither says what is left elsewhere. Crest, middle and apex need no such measure.
#[test]
fn a_closest_wall_that_is_not_the_least_covers_nothing() {
    let verdicts = |measured: &[(Height, &str)]| -> Vec<Verdict> {
        let sheet = worked(|case| {
            let walls = &mut case.sites[0].walls;
            let wall = walls[0].clone();
            walls.retain(|wall| wall.side == WallSide::Oral);
            walls.extend(measured.iter().map(|(at, from_axis)| Wall {
                at: *at,
                from_axis_mm: mm(from_axis),
                ..wall.clone()
            }));
        });
        let found = all(&sheet, "wall");
        let found = found.iter().filter(|f| f.place.key().contains("buccal"));
        found.map(|f| f.verdict).collect()
    };
    let (crest, least) = (Height::Crest, Height::Least);
    let unknown = vec![Verdict::Unknown; 2];
    assert_eq!(verdicts(&[(crest, "3.9"), (least, "6")]), unknown);
    assert_eq!(verdicts(&[(crest, "3.9"), (least, "3.901")]), unknown);
    for closest in ["3.9", "3.8"] {
        let clear = vec![Verdict::Clear; 2];
        assert_eq!(verdicts(&[(crest, "3.9"), (least, closest)]), clear);
    }
    let (mid, apex) = (Height::Mid, Height::Apex);
    let each = [(crest, "3.9"), (mid, "4"), (apex, "5"), (least, "6")];
    assert_eq!(verdicts(&each), vec![Verdict::Clear; 4]);
}

/// The wall was measured down to the implant's end; a drill goes 0.9 deeper.
#[test]
fn no_deeper_than_the_wall_was_measured() {
    let at = |at: Height, down_to: Option<&'static str>| {
        let sheet = worked(|case| {
            super::sample::each_drill(case, |d| d.datum = Datum::FullDiameter {});
            let wall = case.sites[0].walls[0].clone();
            let heights = match at {
                Height::Least => vec![Height::Least],
                _ => vec![Height::Crest, Height::Mid, Height::Apex],
            };
            case.sites[0].walls = heights
                .into_iter()
                .map(|at| Wall { at, ..wall.clone() })
                .collect();
            for wall in &mut case.sites[0].walls {
                wall.measured_at.down_to_mm = down_to.map(mm);
            }
        });
        let verdicts = all(&sheet, "wall").into_iter().map(|f| f.verdict);
        verdicts.collect::<Vec<_>>()
    };
    let clear = Verdict::Clear;
    assert_eq!(at(Height::Least, Some("10.9")), [clear]);
    assert_eq!(at(Height::Least, Some("10.899")), [Verdict::Unknown]);
    assert_eq!(at(Height::Least, None), [Verdict::Unknown]);
    // What lies below the apex concerns the lowest of three heights.
    assert_eq!(at(Height::Apex, Some("10.9")), [clear; 3]);
    assert_eq!(at(Height::Apex, None), [Verdict::Unknown, clear, clear]);
}
