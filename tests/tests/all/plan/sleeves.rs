//! Sleeves in each other: clearance, flange and recess, what of them engages.

use super::sample::{all, judged, mm, one, open, shown, step_of, worked};
use traywright_core::case::Case;
use traywright_core::kit::{Density, FinalDiameter, Recess};
use traywright_core::plan::Place;
use traywright_core::plan::{Reason, Verdict, may_be_accepted};

/// The implant passes drill sleeve `sc`, its bore wide enough for the carrier.
fn through_sleeve(case: &mut Case) {
    case.sites[0].insertion.sleeve = Some("sc".into());
    case.sites[0].steps.truncate(2);
    case.kit.drill_sleeves[2].bore_mm = mm("4.7");
    case.kit.carriers[0].guided_diameter_mm = mm("4.65");
}

/// Master bore 4.95, allowed 0.02 to 0.1: the sleeve that the implant passes as any other. Its own
/// bore of 4.7 leads the carrier, allowed 0.02 to 0.2.
#[test]
fn the_sleeve_and_the_carrier_that_the_implant_passes() {
    for (barrel, fits) in [
        ("4.93", true),
        ("4.931", false),
        ("4.85", true),
        ("4.849", false),
    ] {
        let sheet = worked(|case| {
            through_sleeve(case);
            case.kit.drill_sleeves[2].barrel_diameter_mm = mm(barrel);
        });
        let found = all(&sheet, "sleeve-clearance");
        assert_eq!(found.is_empty(), fits, "{barrel}");
        assert!(
            found
                .iter()
                .all(|f| f.place.key() == "sites[one].insertion")
        );
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
    }
    for (guided, fits) in [
        ("4.68", true),
        ("4.681", false),
        ("4.5", true),
        ("4.499", false),
    ] {
        let sheet = worked(|case| {
            through_sleeve(case);
            case.kit.carriers[0].guided_diameter_mm = mm(guided);
        });
        let found = all(&sheet, "carrier-clearance");
        assert_eq!(found.is_empty(), fits, "{guided}");
    }
}

fn recess(case: &mut Case, depth: &str, across: &str) {
    case.kit.master_sleeves[0].recess = Some(Recess {
        depth_mm: mm(depth),
        diameter_mm: mm(across),
    });
}

/// Sleeve `sa` with this seat and a flange 0.7 high and 5.4 wide; the stop passes into a recess.
fn seated(case: &mut Case, seat: &str) {
    let sleeve = &mut case.kit.drill_sleeves[0];
    sleeve.seat_above_rim_mm = mm(seat);
    sleeve.flange_diameter_mm = mm("5.4");
    case.sites[0].steps.truncate(1);
    // A pilot of 1.9 alone is a last drill for an implant of 4.4 only where the kit says so.
    case.sites[0].density = Some(Density::D3);
    case.kit.allowances.final_diameter = vec![FinalDiameter {
        density: Density::D3,
        below_implant_mm: mm("2.5"),
    }];
}

/// | seat | flange under the rim | recess, depth and width | |
/// | 0.7  | 0                    | none                    | rests on the rim |
/// | 0.2  | 0.5                  | none                    | unknown what it rests on |
/// | 0.2  | 0.5                  | 0.5, 5.4                | rests on the floor |
/// | 0.2  | 0.5                  | 0.5, 5.399              | does not go in |
/// | 0.2  | 0.5                  | 0.499, 5.4              | would sit 0.001 higher |
/// | 0.2  | 0.5                  | 0.8, 5.4                | would sit 0.3 lower |
/// | 0.7  | 0                    | 0.4, 5.4                | would sit 0.4 lower: it falls in |
/// | 0.7  | 0                    | 0.4, 5.3                | spans the recess |
/// | 0.9  | −0.2                 | none                    | would sit 0.2 lower: it hangs in the air |
#[test]
fn the_flange_rests_where_the_seat_says() {
    for (seat, given, rule, value) in [
        ("0.7", None, "", ""),
        ("0.2", None, "recess-unknown", "0.5"),
        ("0.2", Some(("0.5", "5.4")), "", ""),
        (
            "0.2",
            Some(("0.5", "5.399")),
            "flange-not-in-recess",
            "5.399",
        ),
        (
            "0.2",
            Some(("0.499", "5.4")),
            "seat-against-flange",
            "0.001",
        ),
        ("0.2", Some(("0.8", "5.4")), "seat-against-flange", "-0.3"),
        ("0.7", Some(("0.4", "5.4")), "seat-against-flange", "-0.4"),
        ("0.7", Some(("0.4", "5.3")), "", ""),
        ("0.9", None, "seat-against-flange", "-0.2"),
    ] {
        let sheet = worked(|case| {
            seated(case, seat);
            if let Some((depth, across)) = given {
                recess(case, depth, across);
            }
        });
        // Every depth counts from there: nobody can say that it is fine.
        let unknown = all(&sheet, "recess-unknown");
        assert!(unknown.iter().all(|f| !may_be_accepted(f)));
        let told: Vec<&str> = [
            "recess-unknown",
            "flange-not-in-recess",
            "seat-against-flange",
        ]
        .into_iter()
        .filter(|rule| !all(&sheet, rule).is_empty())
        .collect();
        let wanted: Vec<&str> = [rule].into_iter().filter(|rule| !rule.is_empty()).collect();
        assert_eq!(told, wanted, "{seat} {given:?}");
        if rule.is_empty() {
            assert_eq!(open(&sheet), Vec::<String>::new(), "{seat} {given:?}");
            continue;
        }
        let verdict = match rule {
            "flange-not-in-recess" => Verdict::Short,
            _ => Verdict::Unknown,
        };
        let (found, length) = judged(&sheet, rule);
        assert_eq!(
            (found, length.as_str()),
            (verdict, value),
            "{seat} {given:?}"
        );
    }
}

/// The barrel engages from the flange's underside, or the rim, down to its end. Length 6, seat 5.99
/// above the rim: 0.01 long in the bore. At 6.0 nothing is; with the flange 4 below the rim of a
/// master sleeve 4 high neither.
#[test]
fn a_sleeve_that_leads_over_no_length_is_told() {
    let engaged = |seat: &str, flange: &str| {
        worked(|case| {
            seated(case, seat);
            case.kit.drill_sleeves[0].flange_height_mm = mm(flange);
        })
    };
    assert!(all(&engaged("5.99", "5.99"), "sleeve-not-in-master").is_empty());
    assert!(all(&engaged("-3.3", "0.6"), "sleeve-not-in-master").is_empty());
    for (seat, flange) in [("6", "6"), ("-3.3", "0.7")] {
        let sheet = engaged(seat, flange);
        assert_eq!(
            judged(&sheet, "sleeve-not-in-master"),
            (Verdict::Short, "0".into()),
            "{seat}"
        );
        assert!(sheet.sites[0].play[0].is_none(), "{seat}");
    }
}

/// Set to 20.7, the bore of a sleeve 6 long runs from 14.7 to 20.7 above the tip. A guided part from
/// 14.7 fills it; from 20.6 it is led over 0.1; from 20.7 over nothing. Directly in the master
/// sleeve, 4 high, the setting is 20.0 and the limit there.
#[test]
fn a_drill_whose_guided_part_does_not_reach_the_bore_is_told() {
    for (from, sleeve, led) in [
        ("14.7", true, true),
        ("20.6", true, true),
        ("20.7", true, false),
        ("19.9", false, true),
        ("20", false, false),
    ] {
        let sheet = worked(|case| {
            case.sites[0].steps.truncate(1);
            case.kit.drills[0].guided_from_mm = Some(mm(from));
            if !sleeve {
                case.sites[0].steps[0].sleeve = None;
                case.kit.drills[0].guided_diameter_mm = mm("4.9");
            }
        });
        let found = all(&sheet, "drill-not-led");
        assert_eq!(found.is_empty(), led, "{from}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert_eq!(sheet.sites[0].play[0].is_some(), led, "{from}");
    }
}

/// Led over less, it leans more: from 17.7 only 3.0 of the bore's 6.0 hold the drill, the tip 17.7
/// below. Tilt atan(0.05 / 3) + atan(0.05 / 4) = 0.95484° + 0.71616° = 1.67100°.
#[test]
fn a_guided_part_that_begins_in_the_bore_holds_from_there() {
    let sheet = worked(|case| case.kit.drills[0].guided_from_mm = Some(mm("17.7")));
    let play = sheet.sites[0].play[0].as_ref().unwrap();
    let Some(traywright_core::plan::Quantity::Angle(tilt)) = play.tilt.value.get() else {
        panic!("{play:?}")
    };
    assert_eq!(tilt.millideg(), 1672);
    // 0.025 + 17.7 · 0.05 / 3 + 0.025 + 16.0 · 0.05 / 4 = 0.545.
    assert_eq!(shown(&play.at_tip), "0.545");
}

/// Guided on another diameter than it cuts, and nobody says from where: unknown, also its play.
#[test]
fn a_guided_part_that_nobody_measured_is_unknown() {
    let sheet = worked(|case| case.kit.drills[0].cutting_diameter_mm = mm("1.8"));
    assert_eq!(one(&sheet, "guided-part-unknown").verdict, Verdict::Unknown);
    let play = sheet.sites[0].play[0].as_ref().unwrap();
    let missing = [Reason::Missing(Place::GuidedFrom("a".into()))];
    assert_eq!(play.tilt.value.reasons(), missing);
    assert_eq!(play.at_tip.value.reasons(), missing);
}

/// Without a drill sleeve a stop 6.5 wide lands on what is left of the rim around a recess: 0.5 on
/// each side, the least that is allowed, where the recess is 5.5 wide.
#[test]
fn a_recess_leaves_only_what_stands_beyond_it_to_land_on() {
    for (across, enough) in [("5.5", true), ("5.502", false)] {
        let sheet = worked(|case| {
            case.kit.master_sleeves[0].outer_diameter_mm = mm("8");
            recess(case, "0.4", across);
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].sleeve = None;
            case.kit.drills[0].guided_diameter_mm = mm("4.9");
            case.kit.drills[0].guided_from_mm = Some(mm("2"));
        });
        let found = all(&sheet, "landing-on-master-sleeve");
        assert_eq!(found.is_empty(), enough, "{across}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert!(found.iter().all(|f| f.length_value() == Some(mm("0.499"))));
    }
}

/// A stop 6.5 wide. Directly on the master sleeve it lands on the rim of a recess 6.499 wide and
/// sinks into one of 6.5. In a sleeve seated below the rim it needs a recess as wide as itself.
#[test]
fn a_stop_lands_on_the_face_that_its_depth_is_counted_to() {
    let outer = |case: &mut Case| case.kit.master_sleeves[0].outer_diameter_mm = mm("8");
    for (across, lands) in [("6.499", true), ("6.5", false)] {
        let sheet = worked(|case| {
            outer(case);
            recess(case, "0.4", across);
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].sleeve = None;
            case.kit.drills[0].guided_diameter_mm = mm("4.9");
            case.kit.drills[0].guided_from_mm = Some(mm("2"));
        });
        let found = all(&sheet, "stop-sinks-into-recess");
        assert_eq!(found.is_empty(), lands, "{across}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert!(found.iter().all(|f| f.length_value() == Some(mm("0.4"))));
    }
    for (seat, across, lands) in [
        ("-0.2", "6.5", true),
        ("-0.2", "6.499", false),
        ("0", "6.499", true),
    ] {
        let sheet = worked(|case| {
            outer(case);
            seated(case, seat);
            recess(case, "0.9", across);
            case.kit.drill_sleeves[0].flange_height_mm = mm("0.9") + mm(seat);
        });
        let found = all(&sheet, "stop-held-by-rim");
        assert_eq!(found.is_empty(), lands, "{seat} {across}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert!(all(&sheet, "seat-against-flange").is_empty(), "{seat}");
        assert_eq!(
            shown(&step_of(&sheet, 0).seat),
            if seat == "0" { "10" } else { "9.8" }
        );
    }
}
