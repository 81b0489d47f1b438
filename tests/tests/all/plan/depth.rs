//! Seat, preparation, exact length and cut, worked by hand.
//!
//! seat = platform to sleeve + master sleeve + seat above rim; exact = seat + preparation + datum.

use super::kit::drill;
use super::sample::{
    all, deg, distance, each_drill, judged, mm, one, received, settings, shown, step_of, worked,
};
use traywright_core::case::{GuideState, GuidedExtent, PlatformToSleeve, ReceiptOf, SleeveFace};
use traywright_core::kit::{Datum, DepthRule, DrillKind, FixedLength, Point, StopKind};
use traywright_core::plan::{StepPath, Verdict};

/// A case with this distance, master sleeve, seat above the rim and implant, in mm; the exact
/// length and the setting of its first step.
fn through(entered: &str, master: &str, above_rim: &str, length: &str) -> (String, String) {
    let sheet = worked(|case| {
        distance(case, entered);
        case.kit.master_sleeves[0].height_mm = mm(master);
        case.kit.drill_sleeves[0].seat_above_rim_mm = mm(above_rim);
        case.kit.implants[0].platform_to_apex_mm = mm(length);
    });
    let step = step_of(&sheet, 0);
    (shown(&step.exact), shown(&step.set))
}

#[test]
fn sums_of_tenths_are_exact() {
    for (distance, master, above_rim, length, want) in [
        // 6.1 + 3.5 + 0.7 + 14.0 = 24.3. In doubles the sum is 24.299…97 and gives 24.2.
        ("6.1", "3.5", "0.7", "14.0", "24.3"),
        // 6.0 + 4.0 + 0.7 + 6.0 = 16.7
        ("6.0", "4.0", "0.7", "6.0", "16.7"),
        // 6.1 + 4.0 + 0.7 + 6.0 = 16.8
        ("6.1", "4.0", "0.7", "6.0", "16.8"),
    ] {
        let want = want.to_owned();
        assert_eq!(
            through(distance, master, above_rim, length),
            (want.clone(), want)
        );
    }
}

/// Counted at the tip, with equal seats and one depth rule, every drill has one setting, whatever
/// its diameter: 6.0 + 4.0 + 0.7 + 10.0 = 20.7; cut 20.7 − 10.7 = 10.0.
#[test]
fn counted_at_the_tip_a_sequence_has_one_setting() {
    let sheet = worked(|_| {});
    for step in &sheet.sites[0].steps {
        assert_eq!(step.path, StepPath::DrillSleeve);
        let figures = [&step.seat, &step.prep, &step.exact, &step.set, &step.cut];
        assert_eq!(figures.map(shown), ["10.7", "10", "20.7", "20.7", "10"]);
        assert_eq!(shown(&step.shortfall), "0");
    }
    assert_eq!(shown(&sheet.sites[0].deepest_cut), "10");
}

/// Counted at the full diameter, each drill goes one point length further, floored to 0.1:
///
/// point h = d / (2·tan(A/2)), floored to the micrometre
/// 118°: 1.9 · 0.300430 = 0.570(8); 2.7: 0.811(2); 3.3: 0.991(4)
/// exact 20.7 + h = 21.270, 21.511, 21.691; set 21.2, 21.5, 21.6
/// 120°: 1.9 · 0.288675 = 0.548(5); 2.7: 0.779(4); 3.3: 0.952(6)
/// exact 21.248, 21.479, 21.652; set 21.2, 21.4, 21.6
#[test]
fn counted_at_the_full_diameter_each_drill_goes_its_point_further() {
    for (angle, exact, set, deepest) in [
        (
            "118",
            ["21.27", "21.511", "21.691"],
            ["21.2", "21.5", "21.6"],
            "10.9",
        ),
        (
            "120",
            ["21.248", "21.479", "21.652"],
            ["21.2", "21.4", "21.6"],
            "10.9",
        ),
    ] {
        let sheet = worked(|case| {
            each_drill(case, |drill| {
                drill.datum = Datum::FullDiameter {};
                drill.point = Point::Angle {
                    point_deg: deg(angle),
                };
            });
        });
        let exacts: Vec<_> = sheet.sites[0]
            .steps
            .iter()
            .map(|s| shown(&s.exact))
            .collect();
        assert_eq!(exacts, exact, "{angle}°");
        assert_eq!(settings(&sheet), set, "{angle}°");
        // The deepest of all: 21.6 − 10.7 = 10.9.
        assert_eq!(shown(&sheet.sites[0].deepest_cut), deepest, "{angle}°");
    }
}

/// Diameter 5.6, point 60°: 5.6 / (2·tan 30°) = 4.849742 mm, floored 4.849. With a reach of 10.05
/// the exact length is 14.899 and the setting 14.8; rounding the point to the nearest micrometre,
/// 4.850, would set 14.9, deeper than true.
#[test]
fn a_point_length_is_floored_before_it_is_added() {
    let sheet = worked(|case| {
        case.kit.drills[0].cutting_diameter_mm = mm("5.6");
        case.kit.drills[0].point = Point::Angle {
            point_deg: deg("60"),
        };
        case.kit.drills[0].datum = Datum::FullDiameter {};
        // 2.0 + 2.0 + 0.0 + 6.05 = 10.05
        distance(case, "2.0");
        case.kit.master_sleeves[0].height_mm = mm("2.0");
        case.kit.drill_sleeves[0].seat_above_rim_mm = mm("0");
        case.kit.implants[0].platform_to_apex_mm = mm("6.05");
    });
    let step = step_of(&sheet, 0);
    assert_eq!(step.point, mm("4.849"));
    assert_eq!(shown(&step.exact), "14.899");
    assert_eq!(shown(&step.set), "14.8");
    // 14.8 − 4.0 = 10.8; 14.899 − 14.8 = 0.099
    assert_eq!(shown(&step.cut), "10.8");
    assert_eq!(shown(&step.shortfall), "0.099");
}

/// Sleeves at different heights above the rim: seats 10.7, 11.0 and, in a counterbore, 9.6;
/// settings 20.7, 21.0, 19.6; the cut is 10.0 for all.
#[test]
fn unequal_seats_give_unequal_settings_and_one_cut() {
    let sheet = worked(|case| {
        case.kit.drill_sleeves[1].seat_above_rim_mm = mm("1.0");
        case.kit.drill_sleeves[2].seat_above_rim_mm = mm("-0.4");
    });
    assert_eq!(settings(&sheet), ["20.7", "21", "19.6"]);
    for step in &sheet.sites[0].steps {
        assert_eq!(shown(&step.cut), "10");
    }
}

/// Straight through the master sleeve the stop lands on its rim: 6.0 + 4.0 + 10.0 = 20.0.
#[test]
fn without_a_drill_sleeve_the_stop_lands_on_the_rim() {
    let sheet = worked(|case| case.sites[0].steps[1].sleeve = None);
    let step = step_of(&sheet, 1);
    assert_eq!(step.path, StepPath::MasterSleeve);
    assert_eq!(
        [&step.seat, &step.set, &step.cut].map(shown),
        ["10", "20", "10"]
    );
}

/// A profile drill whose shoulder, 5.35 above its tip, is to be 0.25 below the platform:
/// exact 10.7 + 0.25 + 5.35 = 16.3; cut 16.3 − 10.7 = 5.6, tip included.
#[test]
fn a_profile_drill_is_counted_at_its_own_line() {
    let sheet = worked(|case| {
        let mut profile = drill("p", DrillKind::Profile, "3.3");
        profile.datum = Datum::Line {
            from_tip_mm: mm("5.35"),
        };
        case.kit.drills.push(profile);
        case.sites[0].steps[2].drill = "p".into();
        case.sites[0].steps[2].depth = DepthRule::BelowPlatform {
            depth_mm: mm("0.25"),
        };
    });
    let step = step_of(&sheet, 2);
    assert_eq!(shown(&step.prep), "0.25");
    assert_eq!(
        [&step.exact, &step.set, &step.cut].map(shown),
        ["16.3", "16.3", "5.6"]
    );
    // The full steps stay the deepest.
    assert_eq!(shown(&sheet.sites[0].deepest_cut), "10");
}

/// A first pass 4.0 short of full: preparation 10.0 − 4.0 = 6.0, setting 10.7 + 6.0 = 16.7; the
/// same drill once more to full depth: 20.7.
#[test]
fn a_short_first_pass_before_the_full_one() {
    let sheet = worked(|case| {
        let mut first = case.sites[0].steps[0].clone();
        first.id = "first".into();
        first.depth = DepthRule::ShortOfFull { by_mm: mm("4") };
        case.sites[0].steps.insert(0, first);
    });
    assert_eq!(settings(&sheet), ["16.7", "20.7", "20.7", "20.7"]);
    assert_eq!(shown(&step_of(&sheet, 0).cut), "6");
    // Two settings on one drill are two pieces on the tray.
    let pieces: Vec<_> = sheet.loading.iter().filter(|i| i.entry == "a").collect();
    assert_eq!(pieces.len(), 2);
}

/// An apical allowance of 0.5 deepens full steps and no others: 10.7 + 10.0 + 0.5 = 21.2; first
/// pass 4.0 short of that: 17.2.
#[test]
fn the_apical_allowance_belongs_to_full_depth() {
    let sheet = worked(|case| {
        case.kit.implants[0].apical_allowance_mm = mm("0.5");
        case.sites[0].steps[0].depth = DepthRule::ShortOfFull { by_mm: mm("4") };
        case.sites[0].steps[1].depth = DepthRule::BelowPlatform { depth_mm: mm("3") };
    });
    assert_eq!(settings(&sheet), ["17.2", "13.7", "21.2"]);
    assert_eq!(shown(&sheet.sites[0].deepest_cut), "10.5");
}

/// 10.0 given to the coronal rim, less the master sleeve's 4.0, is 6.0 to the lower face; given to
/// the lower face it is 10.0: the mix-up costs the whole sleeve.
#[test]
fn a_distance_given_to_the_coronal_rim_loses_the_sleeve() {
    for (face, apical, set) in [
        (SleeveFace::Coronal, "6", "20.7"),
        (SleeveFace::Apical, "10", "24.7"),
    ] {
        let sheet = worked(|case| {
            case.sites[0].platform_to_sleeve = Some(PlatformToSleeve {
                entered_mm: mm("10.0"),
                to: face,
            });
        });
        assert_eq!(shown(&sheet.sites[0].distance), apical);
        assert_eq!(shown(&step_of(&sheet, 0).set), set);
    }
}

/// No distance: no setting, no bench figure, no cut, no clearance.
#[test]
fn without_a_distance_nothing_below_is_known() {
    let sheet = worked(|case| case.sites[0].platform_to_sleeve = None);
    let site = &sheet.sites[0];
    for step in &site.steps {
        let bench = step.bench.as_ref().unwrap();
        let gauge = step.gauge.as_ref().unwrap();
        for figure in [&step.seat, &step.exact, &step.set, &step.cut, bench, gauge] {
            assert_eq!(shown(figure), "unknown", "{}", figure.id);
            assert!(!figure.value.reasons().is_empty());
        }
    }
    assert_eq!(shown(&site.deepest_cut), "unknown");
    for rule in ["deep-structure", "tissue-room"] {
        assert_eq!(judged(&sheet, rule), (Verdict::Unknown, "unknown".into()));
    }
}

/// Counted at the tip, the full diameter of the widest drill ends one point above the apex: 0.991
/// for 3.3 at 118°. It is reported for that drill alone, and for none that is counted at its full
/// diameter or has a flat end. Counted at a line 0.5 up its cone, what is left of the cone ends
/// above the apex, 0.491, but for what an allowance adds; at a line above the cone, nothing.
#[test]
fn says_where_the_full_diameter_ends() {
    let rule = "full-diameter-above-apex";
    let tip = worked(|_| {});
    let finding = one(&tip, rule);
    assert_eq!(finding.length_value(), Some(mm("0.991")));
    assert_eq!(finding.step, Some("c".into()));
    let full = worked(|case| each_drill(case, |d| d.datum = Datum::FullDiameter {}));
    assert!(all(&full, rule).is_empty());
    let flat = worked(|case| {
        each_drill(case, |d| d.point = Point::Length { point_mm: mm("0") });
    });
    assert!(all(&flat, rule).is_empty());
    let at_line = |from_tip: &str, allowance: &str| {
        let sheet = worked(|case| {
            let from_tip_mm = mm(from_tip);
            case.kit.drills[2].datum = Datum::Line { from_tip_mm };
            case.kit.implants[0].apical_allowance_mm = mm(allowance);
        });
        let found = all(&sheet, rule);
        found.first().map(|f| f.length_value().unwrap().to_string())
    };
    assert_eq!(at_line("0.5", "0"), Some("0.491".into()));
    assert_eq!(at_line("0.5", "0.4"), Some("0.091".into()));
    assert_eq!(at_line("0.5", "0.5"), None);
    assert_eq!(at_line("0.991", "0"), None);
    assert_eq!(at_line("2", "0"), None);
}

/// However its depth is counted: a fixed stop of 20.2 for the exact 21.691, 10.7 + 10 + 0.991, ends the full diameter
/// 1.491 above the apex. What the gauge's graduation alone takes, 0.091 of it, is no news.
#[test]
fn says_where_a_full_diameter_ends_that_a_stop_holds_back() {
    let ends = |length: Option<&str>| {
        let sheet = worked(|case| {
            each_drill(case, |d| d.datum = Datum::FullDiameter {});
            if let Some(length) = length {
                let lengths = ["a", "b", "c"].map(|drill| FixedLength {
                    drill: drill.into(),
                    tip_to_landing_mm: mm(length),
                });
                case.kit.stops[0].depth = StopKind::Fixed {
                    lengths: lengths.to_vec(),
                };
            }
        });
        let found = all(&sheet, "full-diameter-above-apex");
        found.first().map(|f| f.length_value().unwrap().to_string())
    };
    assert_eq!(ends(None), None);
    assert_eq!(ends(Some("20.2")), Some("1.491".into()));
    assert_eq!(ends(Some("21.6")), None);
    assert_eq!(ends(Some("21.59")), Some("0.101".into()));
}

/// An allowance and full-diameter counting on one drill both deepen, here by 0.5 + 0.570 = 1.07,
/// of which the setting loses 0.07: the cut ends 1.0 below the apex. Either alone is not flagged.
#[test]
fn flags_what_deepens_twice() {
    for (allowance, datum, want) in [
        ("0.5", Datum::FullDiameter {}, Some("1")),
        ("0", Datum::FullDiameter {}, None),
        ("0.5", Datum::Tip {}, None),
    ] {
        let sheet = worked(|case| {
            case.kit.implants[0].apical_allowance_mm = mm(allowance);
            case.kit.drills[0].datum = datum;
        });
        let flagged = all(&sheet, "both-deepen");
        let value = flagged.first().and_then(|f| f.length_value());
        assert_eq!(value, want.map(mm));
        assert!(flagged.iter().all(|f| f.step == Some("a".into())));
    }
}

/// It is counted from the apex as planned, as the cut is: a guide that seats 0.08 lower ends it 1.08 below, one that seats
/// higher takes nothing off, whether it leads the implant too or not.
#[test]
fn what_deepens_twice_is_counted_from_the_planned_apex() {
    for extent in [GuidedExtent::DrillingAndImplant, GuidedExtent::AllDrilling] {
        for (distance, want) in [("5.92", "1.08"), ("6.05", "1")] {
            let sheet = worked(|case| {
                case.sites[0].guided_extent = extent;
                case.kit.implants[0].apical_allowance_mm = mm("0.5");
                case.kit.drills[0].datum = Datum::FullDiameter {};
                case.guide.state = GuideState::Made;
                case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, distance)];
            });
            let found = one(&sheet, "both-deepen");
            assert_eq!(
                found.length_value(),
                Some(mm(want)),
                "{extent:?} {distance}"
            );
        }
    }
}
