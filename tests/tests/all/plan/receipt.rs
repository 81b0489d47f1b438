//! The guide as it came: what was measured on it counts.

use super::sample::{all, judged, mm, one, received, shown, worked};
use traywright_core::case::{Access, Case, GuideState, GuidedExtent, ReceiptOf};
use traywright_core::plan::{Quantity, Reason, TermName, Verdict, Worksheet, may_be_accepted};

/// Planned: distance 6.0, sleeve 4.0; limit of each 0.1. The canal is 13 below the platform, the
/// deepest cut is 10.
fn put_together(distance: &str, height: &str) -> Worksheet {
    worked(|case| put(case, distance, height))
}

fn put(case: &mut Case, distance: &str, height: &str) {
    case.guide.state = GuideState::Made;
    case.guide.receipt = vec![
        received(case, ReceiptOf::PlatformToSleeve, distance),
        received(case, ReceiptOf::MasterSleeveHeight, height),
    ];
}

/// Each is 0.09 too little and within its limit; together they are 0.18 and are not.
#[test]
fn two_small_deficits_are_one_large_one() {
    let sheet = put_together("5.91", "3.91");
    let each: Vec<Verdict> = all(&sheet, "receipt").iter().map(|f| f.verdict).collect();
    assert_eq!(each, [Verdict::Clear, Verdict::Clear]);
    assert_eq!(
        judged(&sheet, "receipt-seat"),
        (Verdict::Short, "-0.18".into())
    );
    // What one lacks the other may have.
    let even = put_together("5.91", "4.09");
    assert_eq!(judged(&even, "receipt-seat"), (Verdict::Clear, "0".into()));
}

/// 13 − (10 + 0.18) = 2.82, along the axis and tilted; a higher seat takes nothing off nor adds.
#[test]
fn a_lower_seat_takes_its_deficit_off_the_margin_to_a_deep_structure() {
    let margin = |sheet: &Worksheet| judged(sheet, "deep-structure").1;
    assert_eq!(margin(&worked(|_| {})), "3");
    assert_eq!(margin(&put_together("5.91", "3.91")), "2.82");
    assert_eq!(margin(&put_together("6.09", "4.09")), "3");
    let sheet = put_together("5.91", "3.91");
    let figure = one(&sheet, "deep-structure").figure.as_ref().unwrap();
    let names: Vec<_> = figure.terms.iter().map(|term| term.name).collect();
    assert!(names.contains(&TermName::ReceiptDeficit), "{names:?}");
    assert_eq!(sheet.sites[0].deepest_cut.length(), Some(mm("10.18")));
}

/// The guide that leads the drill 0.18 deeper leads the implant as much: its full diameter, 0.991 above the
/// tip of 3.3 at 118°, stays as far from the implant's end. One that goes in by hand stays where it was planned.
#[test]
fn the_implants_end_is_one_and_the_same_in_all_that_is_counted_from_it() {
    let above = |extent: GuidedExtent| {
        let sheet = worked(|case| {
            case.sites[0].guided_extent = extent;
            put(case, "5.91", "3.91");
        });
        one(&sheet, "full-diameter-above-apex").length_value()
    };
    assert_eq!(above(GuidedExtent::DrillingAndImplant), Some(mm("0.991")));
    assert_eq!(above(GuidedExtent::AllDrilling), Some(mm("0.811")));
}

/// Within the limit a lower seat is reported all the same: the setting of 20.7 stays and cuts 0.08
/// deeper than the 10.0 planned. A higher one, or one that is too low anyway, is not reported so.
#[test]
fn a_seat_that_is_a_little_lower_is_told_with_what_it_costs() {
    let sheet = put_together("5.92", "4.0");
    let found = one(&sheet, "guide-seats-lower");
    assert_eq!(found.verdict, Verdict::Note);
    assert_eq!(found.length_value(), Some(mm("0.08")));
    for step in &sheet.sites[0].steps {
        assert_eq!(
            (shown(&step.set), shown(&step.cut)),
            ("20.7".into(), "10.08".into())
        );
        assert_eq!(step.deeper_by_guide(), mm("0.08"));
    }
    for (distance, height) in [("6.0", "4.0"), ("6.05", "4.0"), ("5.91", "3.91")] {
        assert!(all(&put_together(distance, height), "guide-seats-lower").is_empty());
    }
}

/// A limit of 0.1 is kept by 0.1 off, to either side and by distance and sleeve together, and not by
/// a micrometre more. As long as it is kept, what the lower seat costs is told.
#[test]
fn as_far_off_as_the_limit_is_within_it() {
    let told = |distance, height| {
        let sheet = put_together(distance, height);
        let worst = all(&sheet, "receipt").iter().map(|f| f.verdict).min();
        let lower = all(&sheet, "guide-seats-lower").len();
        (worst.unwrap(), one(&sheet, "receipt-seat").verdict, lower)
    };
    let (clear, short) = (Verdict::Clear, Verdict::Short);
    for (distance, height, want) in [
        // 5.9 − 6.0 = −0.1, the sleeve as planned: the seat is 0.1 lower.
        ("5.9", "4.0", (clear, clear, 1)),
        ("5.899", "4.0", (short, short, 0)),
        ("6.1", "4.0", (clear, clear, 0)),
        ("6.101", "4.0", (short, short, 0)),
        // (5.95 − 6.0) + (3.95 − 4.0) = −0.1
        ("5.95", "3.95", (clear, clear, 1)),
        ("5.95", "3.949", (clear, short, 0)),
        ("6.05", "4.051", (clear, short, 0)),
    ] {
        assert_eq!(told(distance, height), want, "{distance} {height}");
    }
}

/// A guide that is there and was not measured is reported; one still to be made is not.
#[test]
fn a_guide_made_but_not_measured_is_told() {
    let made = worked(|case| case.guide.state = GuideState::Made);
    assert_eq!(one(&made, "no-receipt").verdict, Verdict::Unknown);
    assert!(all(&worked(|_| {}), "no-receipt").is_empty());
}

/// Of the three measures what was not taken is unknown, by name, and told once; all three leave
/// nothing. What is there is held against the plan all the same.
#[test]
fn what_was_not_measured_on_the_guide_is_told() {
    use ReceiptOf::{
        MasterSleeveBore as Bore, MasterSleeveHeight as Height, PlatformToSleeve as To,
    };
    for (measured, missing) in [
        (&[][..], Some("all")),
        (&[Bore], Some("distance_height")),
        (&[Height], Some("distance_bore")),
        (&[To], Some("height_bore")),
        (&[Height, Bore], Some("distance")),
        (&[To, Bore], Some("height")),
        (&[To, Height], Some("bore")),
        (&[To, Height, Bore], None),
    ] {
        for state in [GuideState::Made, GuideState::Planned] {
            let sheet = worked(|case| {
                case.guide.state = state;
                let receipt = |of: &ReceiptOf| match of {
                    Height => received(case, Height, "4"),
                    Bore => received(case, Bore, "4.95"),
                    To => received(case, To, "6"),
                };
                case.guide.receipt = measured.iter().map(receipt).collect();
            });
            let missing = missing.filter(|_| state == GuideState::Made);
            let found = all(&sheet, "no-receipt");
            let told: Vec<_> = found
                .iter()
                .map(|f| f.args["missing"].to_string())
                .collect();
            assert_eq!(told, Vec::from_iter(missing), "{measured:?} {state:?}");
            assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
            assert_eq!(all(&sheet, "receipt").len(), measured.len());
        }
    }
}

/// The sleeve's lower face is 0.3 lower than planned: under it 6.0 − 1.0 − 2.5 = 2.5 is 2.2 left.
/// The sleeve's height changes nothing there, and a sleeve that is higher gives no room.
#[test]
fn a_lower_sleeve_takes_room_from_the_tissue() {
    let room = |distance, height| {
        let sheet = worked(|case| {
            case.guide.access = Access::Punch;
            put(case, distance, height);
        });
        judged(&sheet, "tissue-room").1
    };
    assert_eq!(room("6.0", "4.0"), "2.5");
    assert_eq!(room("5.7", "4.0"), "2.2");
    assert_eq!(room("5.7", "4.3"), "2.2");
    assert_eq!(room("6.0", "3.7"), "2.5");
    assert_eq!(room("6.3", "4.0"), "2.5");
}

/// Every guided cut is given as the guide at hand leads it, 10.18; set and seat stay as planned.
#[test]
fn a_cut_is_told_as_the_guide_at_hand_leads_it() {
    let sheet = put_together("5.91", "3.91");
    for step in &sheet.sites[0].steps {
        assert_eq!(
            [&step.seat, &step.set, &step.cut].map(shown),
            ["10.7", "20.7", "10.18"]
        );
    }
    let free = worked(|case| {
        case.sites[0].guided_extent = GuidedExtent::PilotOnly;
        put(case, "5.91", "3.91");
    });
    let cuts: Vec<_> = free.sites[0].steps.iter().map(|s| shown(&s.cut)).collect();
    assert_eq!(cuts, ["10.18", "10", "10"]);
}

fn bore(case: &mut Case, measured: &str) {
    case.guide.receipt = vec![received(case, ReceiptOf::MasterSleeveBore, measured)];
}

/// Planned 4.95; barrels of 4.9 may have 0.1 around them: 5.0 still holds them, a micrometre more
/// does not. What passes the sleeve without a drill sleeve, the carrier of 4.85, may have 0.2.
#[test]
fn a_bore_measured_wider_is_the_one_that_sleeve_and_carrier_run_in() {
    for (measured, sleeves, carrier) in [
        ("4.95", 0, true),
        ("5", 0, true),
        ("5.001", 3, true),
        ("4.92", 0, true),
        ("4.919", 3, true),
    ] {
        let sheet = worked(|case| {
            bore(case, measured);
            case.kit.carriers[0].guided_diameter_mm = mm("4.85");
        });
        let found = all(&sheet, "sleeve-clearance");
        assert_eq!(found.len(), sleeves, "{measured}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert_eq!(all(&sheet, "carrier-clearance").is_empty(), carrier);
    }
    for (measured, fits) in [("5.05", true), ("5.051", false), ("4.869", false)] {
        let sheet = worked(|case| {
            bore(case, measured);
            case.kit.carriers[0].guided_diameter_mm = mm("4.85");
        });
        assert_eq!(all(&sheet, "carrier-clearance").is_empty(), fits);
    }
    // An implant 4.9 wide passes the planned bore and not one of 4.85.
    for (measured, passes) in [("4.95", true), ("4.85", false)] {
        let sheet = worked(|case| {
            bore(case, measured);
            case.kit.implants[0].largest_diameter_mm = mm("4.9");
        });
        let found = all(&sheet, "implant-does-not-pass");
        assert_eq!(found.is_empty(), passes, "{measured}");
    }
}

/// A stop 6.5 wide must overlap the empty master sleeve by the kit's 0.5 on each side: a bore of
/// 5.5 leaves that, one of 5.502 leaves 0.499.
#[test]
fn a_stop_lands_around_the_bore_as_it_was_measured() {
    for (measured, lands) in [("5.5", true), ("5.502", false)] {
        let sheet = worked(|case| {
            bore(case, measured);
            case.kit.stops[0].landing_diameter_mm = mm("6.5");
        });
        let found = all(&sheet, "landing-on-master-sleeve");
        assert_eq!(found.is_empty(), lands, "{measured}");
    }
}

/// A bore 0.1 wider than planned. Through a drill sleeve its barrel of 4.9 leans in 5.05:
/// atan(0.05 / 6) + atan(0.15 / 4) = 0.47746° + 2.14759° = 2.62505°, and at the tip
/// 0.025 + 14.7 · 0.05 / 6 + 0.075 + 16.0 · 0.15 / 4 = 0.8225. Led by the master sleeve alone a drill
/// of 4.9, set to 20.0: atan(0.15 / 4) = 2.14759°, and 0.075 + 16.0 · 0.15 / 4 = 0.675.
#[test]
fn a_wider_bore_lets_the_drill_lean_more() {
    for (alone, tilt, at_tip) in [(false, 2626, "0.823"), (true, 2148, "0.675")] {
        let sheet = worked(|case| {
            bore(case, "5.05");
            if alone {
                case.sites[0].steps.truncate(1);
                case.sites[0].steps[0].sleeve = None;
                case.kit.drills[0].guided_diameter_mm = mm("4.9");
                case.kit.drills[0].guided_from_mm = Some(mm("2"));
            }
        });
        let play = sheet.sites[0].play[0].as_ref().unwrap();
        let Some(Quantity::Angle(angle)) = play.tilt.value.get() else {
            panic!("{play:?}")
        };
        assert_eq!(
            (angle.millideg(), shown(&play.at_tip)),
            (tilt, at_tip.into())
        );
        let names: Vec<_> = play.tilt.terms.iter().map(|term| term.name).collect();
        assert!(names.contains(&TermName::ReceiptMasterBore), "{names:?}");
    }
    // 0.1 is around the drill as well, which may have 0.2: 4.9 in 5.1, and no more.
    for (measured, fits) in [("5.1", true), ("5.101", false)] {
        let sheet = worked(|case| {
            bore(case, measured);
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].sleeve = None;
            case.kit.drills[0].guided_diameter_mm = mm("4.9");
            case.kit.drills[0].guided_from_mm = Some(mm("2"));
        });
        assert_eq!(
            all(&sheet, "guided-clearance").is_empty(),
            fits,
            "{measured}"
        );
    }
}

/// What was measured on one guide says nothing of another: with another code, sleeve offset, axis or sleeve
/// it is unknown, nobody accepts it, and nothing is worked out with it. As it was, it counts again.
#[test]
fn what_was_measured_on_another_guide_does_not_count() {
    let other: [(&str, fn(&mut Case)); 7] = [
        ("code", |case| case.guide.code = Some("G-2".into())),
        ("no code", |case| case.guide.code = None),
        ("distance", |case| {
            let distance = case.sites[0].platform_to_sleeve.as_mut().unwrap();
            distance.entered_mm = mm("5.9");
        }),
        ("axis", |case| super::deep_structure::tilt(case, "3", "0")),
        ("height", |case| {
            case.kit.master_sleeves[0].height_mm = mm("3.9");
        }),
        ("bore", |case| case.kit.master_sleeves[0].bore_mm = mm("5")),
        ("no record", |case| {
            case.guide
                .receipt
                .iter_mut()
                .for_each(|this| this.taken_on = None);
        }),
    ];
    let first = |case: &mut Case| {
        case.guide.code = Some("G-1".into());
        put(case, "5.91", "3.91");
    };
    assert_eq!(shown(&worked(first).sites[0].steps[0].cut), "10.18");
    for (name, change) in other {
        let sheet = worked(|case| {
            first(case);
            change(case);
        });
        let found = all(&sheet, "receipt");
        assert_eq!(found.len(), 2, "{name}");
        for finding in found {
            assert_eq!(finding.verdict, Verdict::Unknown, "{name}");
            let reasons = finding.value.reasons();
            assert!(
                matches!(reasons, [Reason::Stale(..)]),
                "{name}: {reasons:?}"
            );
            assert!(!may_be_accepted(finding), "{name}");
        }
        // Each drill goes as deep as planned by what is not measured; that the bore lacks is told alone.
        assert_eq!(shown(&sheet.sites[0].steps[0].cut), "10", "{name}");
        assert_eq!(
            one(&sheet, "no-receipt").args["missing"].to_string(),
            "bore"
        );
    }
}
