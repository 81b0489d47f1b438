//! Every instrument check at its exact boundary: equal passes, one micrometre beyond does not.

use super::sample::{all, each_drill, mm, one, shown, worked};
use traywright_core::case::Case;
use traywright_core::kit::{Clearance, Point, StopKind};
use traywright_core::measure::Length;
use traywright_core::plan::{Quantity, Subject, Verdict};

/// At this value the rule is silent, one micrometre on it is short with this value and limit.
struct Edge {
    rule: &'static str,
    at: &'static str,
    step_um: i64,
    set: fn(&mut Case, Length),
    /// The finding's value and limit one micrometre beyond, in mm.
    beyond: (&'static str, &'static str),
}

const EDGES: &[Edge] = &[
    // Setting 20.7, body 3.5: the clamping length must reach from 20.7 to 24.2.
    Edge {
        rule: "off-clamping-length",
        at: "20.7",
        step_um: 1,
        set: |case, at| each_drill(case, |d| d.clamp.as_mut().unwrap().from_mm = at),
        beyond: ("20.7", "20.701"),
    },
    Edge {
        rule: "off-clamping-length",
        at: "24.2",
        step_um: -1,
        set: |case, at| each_drill(case, |d| d.clamp.as_mut().unwrap().to_mm = at),
        beyond: ("24.2", "24.199"),
    },
    // Landing face over the master sleeve's bore of 4.95: (5.95 − 4.95) / 2 = 0.5.
    Edge {
        rule: "landing-on-master-sleeve",
        at: "5.95",
        step_um: -1,
        set: |case, at| case.kit.stops[0].landing_diameter_mm = at,
        beyond: ("0.499", "0.5"),
    },
    // Bore 2.5 less the seat of 2.4 is the greatest stop clearance, 0.1.
    Edge {
        rule: "stop-bore",
        at: "2.5",
        step_um: 1,
        set: |case, at| case.kit.stops[0].bore_mm = at,
        beyond: ("0.101", "0.1"),
    },
    Edge {
        rule: "stop-bore",
        at: "2.4",
        step_um: -1,
        set: |case, at| case.kit.stops[0].bore_mm = at,
        beyond: ("-0.001", "0"),
    },
    // Cut 10.0, crest 1.0, reserve 2.0: 13.0 of flute.
    Edge {
        rule: "flute-short",
        at: "13",
        step_um: -1,
        set: |case, at| each_drill(case, |d| d.flute_to_mm = at),
        beyond: ("12.999", "13"),
    },
    // Setting 20.7 and body 3.5.
    Edge {
        rule: "free-length-short",
        at: "24.2",
        step_um: -1,
        set: |case, at| each_drill(case, |d| d.free_length_mm = at),
        beyond: ("24.199", "24.2"),
    },
    // Without a stop nothing is added; the mark at 20.7 is read.
    Edge {
        rule: "free-length-short",
        at: "20.7",
        step_um: -1,
        set: |case, at| {
            for step in &mut case.sites[0].steps {
                step.stop = None;
            }
            each_drill(case, |d| {
                d.free_length_mm = at;
                d.marks = vec![traywright_core::kit::DrillMark {
                    name: "mark".into(),
                    lower_edge_mm: mm("20.7"),
                    upper_edge_mm: None,
                }];
            });
        },
        beyond: ("20.699", "20.7"),
    },
];

#[test]
fn what_clamps_lands_and_reaches() {
    for edge in EDGES {
        let at = mm(edge.at);
        let equal = worked(|case| (edge.set)(case, at));
        assert!(
            all(&equal, edge.rule).is_empty(),
            "{} {}",
            edge.rule,
            edge.at
        );
        let beyond = worked(|case| (edge.set)(case, at + Length::from_um(edge.step_um)));
        let found = all(&beyond, edge.rule);
        assert_eq!(found.len(), 3, "{} {}", edge.rule, edge.at);
        for finding in found {
            let value = finding.length_value().unwrap();
            let limit = finding.limit.and_then(Quantity::length).unwrap();
            let want = (edge.beyond.0.to_owned(), edge.beyond.1.to_owned());
            assert_eq!(
                (value.to_string(), limit.to_string()),
                want,
                "{}",
                edge.rule
            );
            assert_eq!(finding.verdict, Verdict::Short);
            assert_eq!(finding.subject, Subject::Instrument);
        }
    }
}

/// A sleeve of this bore for drill `a` of 1.9, allowed 0.02 to 0.2.
#[test]
fn the_guided_diameter_in_the_bore() {
    for (bore, fits) in [
        ("1.92", true),
        ("1.919", false),
        ("2.1", true),
        ("2.101", false),
    ] {
        let sheet = worked(|case| case.kit.drill_sleeves[0].bore_mm = mm(bore));
        let found = all(&sheet, "guided-clearance");
        assert_eq!(found.is_empty(), fits, "{bore}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
    }
    // A cutting part wider than the guided one must pass too: equal passes.
    for (cutting, fits) in [("1.95", true), ("1.951", false)] {
        let sheet = worked(|case| case.kit.drills[0].cutting_diameter_mm = mm(cutting));
        let found = all(&sheet, "guided-clearance");
        assert_eq!(found.is_empty(), fits, "{cutting}");
    }
    // Straight through the master sleeve it is that bore's: 4.95 − 1.9 = 3.05.
    let straight = worked(|case| case.sites[0].steps[0].sleeve = None);
    assert_eq!(
        one(&straight, "guided-clearance").length_value(),
        Some(mm("3.05"))
    );
}

/// The stop over the drill sleeve's bore of 3.35: (4.35 − 3.35) / 2 = 0.5; and always over the
/// empty master sleeve's, since a drill sleeve can be forgotten.
#[test]
fn the_landing_face_over_the_drill_sleeves_bore() {
    for (landing, fits) in [("4.35", true), ("4.349", false)] {
        let sheet = worked(|case| case.kit.stops[0].landing_diameter_mm = mm(landing));
        let found = all(&sheet, "landing-on-drill-sleeve");
        assert_eq!(found.is_empty(), fits, "{landing}");
        assert_eq!(all(&sheet, "landing-on-master-sleeve").len(), 3);
    }
    // An odd micrometre is not rounded up into a landing: (4.351 − 3.35) / 2 = 0.5005 → 0.5 fits
    // a least of 0.5 and not one of 0.501.
    for (least, fits) in [("0.5", true), ("0.501", false)] {
        let sheet = worked(|case| {
            case.kit.stops[0].landing_diameter_mm = mm("4.351");
            case.kit.allowances.least_landing_mm = mm(least);
        });
        assert_eq!(
            all(&sheet, "landing-on-drill-sleeve").is_empty(),
            fits,
            "{least}"
        );
    }
}

/// Master bore 4.95, allowed 0.02 to 0.1 for a barrel.
#[test]
fn the_drill_sleeve_in_the_master_sleeve() {
    for (barrel, fits) in [
        ("4.93", true),
        ("4.931", false),
        ("4.85", true),
        ("4.849", false),
    ] {
        let sheet = worked(|case| case.kit.drill_sleeves[0].barrel_diameter_mm = mm(barrel));
        assert_eq!(all(&sheet, "sleeve-clearance").is_empty(), fits, "{barrel}");
    }
    let other = worked(|case| {
        let mut master = case.kit.master_sleeves[0].clone();
        master.id = "n".into();
        case.kit.master_sleeves.push(master);
        case.kit.drill_sleeves[0].fits = vec!["n".into()];
    });
    assert_eq!(one(&other, "sleeve-not-for-master").verdict, Verdict::Short);
}

/// A value that is not in the kit is unknown, not passed.
#[test]
fn a_drill_that_says_nothing_of_its_shaft_is_unknown() {
    let no_clamp = worked(|case| case.kit.drills[0].clamp = None);
    assert_eq!(one(&no_clamp, "clamp-unknown").verdict, Verdict::Unknown);
    let no_seat = worked(|case| case.kit.drills[0].stop_seat_diameter_mm = None);
    assert_eq!(one(&no_seat, "stop-seat-unknown").verdict, Verdict::Unknown);
    // A fixed stop sits where it sits: no clamping length is asked for.
    let fixed = worked(|case| {
        case.kit.drills[0].clamp = None;
        case.kit.stops[0].depth = StopKind::Fixed {
            lengths: vec![traywright_core::kit::FixedLength {
                drill: "a".into(),
                tip_to_landing_mm: mm("20"),
            }],
        };
    });
    assert!(all(&fixed, "clamp-unknown").is_empty());
}

/// One more than the kit has is short, as many as it has is not.
#[test]
fn as_many_as_are_needed() {
    for (quantity, short) in [(3, false), (2, true)] {
        let sheet = worked(|case| case.kit.stops[0].quantity = quantity);
        let found = all(&sheet, "stock-short");
        assert_eq!(!found.is_empty(), short, "{quantity}");
    }
    let sheet = worked(|case| case.kit.stops[0].quantity = 1);
    let finding = one(&sheet, "stock-short");
    assert_eq!(finding.verdict, Verdict::Short);
    assert_eq!(finding.value.get(), Some(Quantity::Count(1)));
    assert_eq!(finding.limit, Some(Quantity::Count(3)));
}

/// The allowed bounds themselves: both included.
#[test]
fn a_clearance_includes_both_its_bounds() {
    let clearance = Clearance {
        least_mm: mm("0.02"),
        most_mm: mm("0.1"),
    };
    for (difference, allowed) in [
        ("0.019", false),
        ("0.02", true),
        ("0.1", true),
        ("0.101", false),
    ] {
        assert_eq!(clearance.allows(mm(difference)), allowed, "{difference}");
    }
}

/// The step in diameter that the kit allows, 0.8, is allowed; beyond it is short where no protocol says so.
#[test]
fn a_step_in_diameter() {
    for (diameter, told) in [("2.7", false), ("2.701", true)] {
        let sheet = worked(|case| {
            case.kit.drills[1].cutting_diameter_mm = mm(diameter);
            case.kit.drills[1].point = Point::Length {
                point_mm: mm("0.8"),
            };
        });
        let found = all(&sheet, "step-too-large");
        assert_eq!(!found.is_empty(), told, "{diameter}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
        assert_eq!(shown(&sheet.sites[0].steps[1].cut), "10");
    }
}

/// A drill as wide as the implant is not too wide for it; beyond it the implant would not hold
/// (common practice, no source).
#[test]
fn a_drill_as_wide_as_the_implant() {
    let implant = worked(|_| {}).sites[0].implant.clone();
    for (wider, short) in [("0", false), ("0.001", true)] {
        let sheet = worked(|case| {
            let entry = case.kit.implant(&implant).unwrap().diameter_mm;
            case.kit.drills[2].cutting_diameter_mm = entry + mm(wider);
        });
        let found = all(&sheet, "wider-than-implant");
        assert_eq!(!found.is_empty(), short, "{wider}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
    }
}
