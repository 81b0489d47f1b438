//! Slips of a digit or a decimal that make a plan look safe, or an instrument run as none does.

use super::sample::{all, judged, mm, worked};
use traywright_core::case::Case;
use traywright_core::kit::{Datum, Point};
use traywright_core::measure::{Speed, Torque};
use traywright_core::plan::{Verdict, Worksheet, may_be_accepted};

fn asked(sheet: &Worksheet, rule: &str) -> Vec<String> {
    let found = all(sheet, rule);
    for finding in &found {
        assert_eq!(finding.verdict, Verdict::Unknown, "{rule}");
        assert!(may_be_accepted(finding), "{rule}");
    }
    found.iter().map(|found| found.place.key()).collect()
}

/// 3000 turns a minute are the most of a drill, 100 of a tap (common practice, no source).
#[test]
fn a_speed_that_no_drill_runs_at_is_asked_about() {
    for (rpm, is_asked) in [(800, false), (3_000, false), (3_001, true), (8_000, true)] {
        let sheet = worked(|case| {
            case.kit.drills[1].greatest_speed_rpm = Some(Speed::from_rpm(rpm));
        });
        let places = asked(&sheet, "speed-far-off");
        let expected = if is_asked {
            vec!["kit.drills[b]"]
        } else {
            vec![]
        };
        assert_eq!(places, expected, "{rpm}");
    }
}

/// 5 to 80 N·cm (common practice, no source): 35 three times over are 105.
#[test]
fn a_torque_that_no_implant_takes_is_asked_about() {
    for (ncm, is_asked) in [
        (4, true),
        (5, false),
        (35, false),
        (80, false),
        (81, true),
        (105, true),
    ] {
        let sheet = worked(|case| {
            case.kit.implants[0].torque_limit_ncm = Some(Torque::from_ncm(ncm));
        });
        let places = asked(&sheet, "torque-far-off");
        let expected = if is_asked {
            vec!["kit.implants[long]"]
        } else {
            vec![]
        };
        assert_eq!(places, expected, "{ncm}");
    }
}

/// Half a millimetre or one is what makers ask for; 1.5 the most (common practice, no source).
#[test]
fn drills_that_are_to_go_far_beyond_the_apex_are_asked_about() {
    for (allowance, is_asked) in [("0", false), ("1.5", false), ("1.501", true), ("5", true)] {
        let sheet = worked(|case| case.kit.implants[0].apical_allowance_mm = mm(allowance));
        let places = asked(&sheet, "allowance-far-off");
        let expected = if is_asked {
            vec!["kit.implants[long]"]
        } else {
            vec![]
        };
        assert_eq!(places, expected, "{allowance}");
    }
}

/// A flat end has no beginning of its full diameter but its tip: the point was not entered, or the datum is wrong.
#[test]
fn a_flat_point_that_is_counted_at_full_diameter_is_told() {
    let flat = |datum: Datum, point: &'static str| {
        worked(|case| {
            case.kit.drills[2].point = Point::Length {
                point_mm: mm(point),
            };
            case.kit.drills[2].datum = datum;
        })
    };
    let counted = |sheet: &Worksheet| asked(sheet, "flat-point-counted");
    assert_eq!(
        counted(&flat(Datum::FullDiameter {}, "0")),
        ["kit.drills[c]"]
    );
    assert!(counted(&flat(Datum::FullDiameter {}, "0.5")).is_empty());
    assert!(counted(&flat(Datum::Tip {}, "0")).is_empty());
}

/// The implant is 10 long: hardly anybody measures more than 15 mm beyond it (common practice, no source).
#[test]
fn what_is_said_to_be_measured_deeper_than_anything_reaches_is_asked_about() {
    let down = |to: &'static str| {
        worked(|case| {
            let site = &mut case.sites[0];
            site.walls[0].measured_at.down_to_mm = Some(mm(to));
            site.distances[0].measured_at.down_to_mm = Some(mm(to));
            site.structures[0].measured_at.down_to_mm = Some(mm(to));
        })
    };
    assert!(asked(&down("25"), "measured-down-too-far").is_empty());
    for to in ["25.001", "55"] {
        assert_eq!(
            asked(&down(to), "measured-down-too-far"),
            [
                "sites[one].walls[buccal least]",
                "sites[one].distances[35]",
                "sites[one].structures[mandibular_canal]",
            ]
        );
    }
}

/// The other site's end of a distance vouches too, each neighbour is asked about by itself, and of one thing all that
/// is too far.
#[test]
fn each_end_of_what_is_measured_too_far_down_is_asked_about() {
    use super::sample::{case, site, work};
    use traywright_core::case::{Distance, DistanceTo};
    let down = |[own, theirs, second]: [Option<&'static str>; 3]| {
        let mut case = case();
        let first = case.sites[0].clone();
        let others = [site("two", "34", &[]), site("three", "38", &[])];
        let [two, three] = others;
        super::generated_site::sites_of(&mut case, vec![first, two, three]);
        let then = case.sites[0].measured_now(mm("10"));
        for n in [1, 2, 2] {
            let other = &case.sites[n];
            let distance = Distance {
                to: DistanceTo::Site {
                    site: other.id.clone(),
                },
                at: traywright_core::case::Height::Crest,
                from_axis_mm: mm("9"),
                measured_at: then.clone(),
                other_measured_at: Some(other.measured_now(mm("10"))),
            };
            case.sites[0].distances.push(distance);
        }
        let [.., two, three, three_again] = &mut case.sites[0].distances[..] else {
            panic!()
        };
        three_again.at = traywright_core::case::Height::Apex;
        two.measured_at.down_to_mm = own.map(mm);
        two.other_measured_at.as_mut().unwrap().down_to_mm = theirs.map(mm);
        three.measured_at.down_to_mm = own.map(mm);
        three_again.measured_at.down_to_mm = second.map(mm);
        work(case)
    };
    let places = |values| asked(&down(values), "measured-down-too-far");
    let to = |site: &str| format!("sites[one].distances[{site}]");
    assert!(places([None, Some("25"), None]).is_empty());
    assert_eq!(places([None, Some("60"), None]), [to("two")]);
    assert_eq!(places([Some("45"), None, None]), [to("two"), to("three")]);
    let digest = |values| {
        let sheet = down(values);
        let found = all(&sheet, "measured-down-too-far");
        let three = found.iter().find(|f| f.place.key() == to("three"));
        (three.unwrap().digest(), three.unwrap().length_value())
    };
    let alone = digest([Some("45"), None, None]);
    let deeper = digest([Some("45"), None, Some("80")]);
    let less = digest([Some("45"), None, Some("40")]);
    assert_eq!(deeper.1, Some(mm("80")));
    assert_eq!(less.1, Some(mm("45")));
    assert_ne!(deeper.0, alone.0);
    assert_ne!(less.0, alone.0);
}

/// A flange narrower than the bore of its own sleeve is none.
#[test]
fn a_flange_narrower_than_its_bore_is_refused() {
    let with = |flange: &'static str| {
        let mut case = super::sample::case();
        case.kit.drill_sleeves[0].flange_diameter_mm = mm(flange);
        let read = traywright_core::case::ValidCase::try_from(case);
        read.map(|_| ()).map_err(|faults| faults.to_string())
    };
    // The bore of the first is 1.95.
    assert_eq!(with("1.95"), Ok(()));
    let refused = with("1.949").unwrap_err();
    assert!(refused.contains("flange_diameter_mm"), "{refused}");
}

/// Bone of more than 10 mm from side to side at the crest is worth a second look, more than 15 is asked about (common
/// practice, no source). Elsewhere than at the crest it is as wide.
#[test]
fn a_crest_wider_than_usual_is_told() {
    use traywright_core::case::Height;
    let wide = |at: Height, each: &'static str| {
        worked(|case: &mut Case| {
            for wall in &mut case.sites[0].walls {
                (wall.at, wall.from_axis_mm) = (at, mm(each));
            }
        })
    };
    let told = |at, each| {
        let sheet = wide(at, each);
        let across = all(&sheet, "measured-too-far");
        let across = across.iter();
        across.map(|found| found.verdict).collect::<Vec<_>>()
    };
    assert_eq!(told(Height::Crest, "5"), []);
    assert_eq!(told(Height::Crest, "5.5"), [Verdict::Note]);
    assert_eq!(told(Height::Crest, "7.501"), [Verdict::Unknown]);
    assert_eq!(told(Height::Apex, "5.5"), []);
    let (verdict, across) = judged(&wide(Height::Crest, "5.5"), "measured-too-far");
    assert_eq!((verdict, across.as_str()), (Verdict::Note, "11"));
}

/// 0 is a field that was passed over, or an implant at the wall; more than 5 mm no socket leaves (common practice, no
/// source).
#[test]
fn a_gap_of_a_socket_that_is_none_or_wider_than_any_is_asked_about() {
    use traywright_core::case::{SiteState, Socket};
    for (gap, is_asked) in [
        (None, false),
        (Some("0"), true),
        (Some("0.1"), false),
        (Some("5"), false),
        (Some("5.001"), true),
    ] {
        let sheet = worked(|case| {
            case.sites[0].state = SiteState::FreshSocket(Socket {
                gap_mm: gap.map(mm),
                gap_measured_at: None,
                slope_deg: None,
            });
        });
        let places = asked(&sheet, "socket-gap-unusual");
        let expected = if is_asked {
            vec!["sites[one].state.gap_mm"]
        } else {
            vec![]
        };
        assert_eq!(places, expected, "{gap:?}");
    }
}

/// The distances to both neighbours together are the gap, wherever in it the site stands: 10.5 for 6.5 on one side is no
/// gap of a molar, though each by itself might be. Within 3 mm of the arch model (common practice, no source).
#[test]
fn a_gap_wider_than_the_arch_has_room_for_is_asked_about() {
    let beside = |mesial: &'static str, distal: &'static str| {
        let sheet = worked(|case| {
            case.sites[0].distances[0].from_axis_mm = mm(mesial);
            case.sites[0].distances[1].from_axis_mm = mm(distal);
        });
        asked(&sheet, "measured-too-far")
    };
    assert!(beside("4.5", "4.5").is_empty());
    assert!(beside("6.5", "6.5").is_empty());
    assert_eq!(beside("6.5", "11"), ["sites[one].distances[35]"]);
    assert_eq!(beside("10.5", "6.5"), ["sites[one].distances[35]"]);
}

/// What was measured nearer deeper down, where a root tapers or an axis leans, takes nothing from the gap at the crest.
#[test]
fn a_gap_is_asked_about_whatever_was_measured_deeper() {
    use traywright_core::case::Height;
    let deeper = |at: Height, far: &'static str| {
        let sheet = worked(|case| {
            for n in 0..2 {
                let mut distance = case.sites[0].distances[n].clone();
                distance.at = at;
                distance.from_axis_mm = mm(far);
                case.sites[0].distances[n].at = Height::Crest;
                case.sites[0].distances[n].from_axis_mm = mm("8.6");
                case.sites[0].distances.push(distance);
            }
        });
        asked(&sheet, "measured-too-far")
    };
    assert_eq!(deeper(Height::Apex, "8.7"), ["sites[one].distances[35]"]);
    assert_eq!(deeper(Height::Apex, "8.4"), ["sites[one].distances[35]"]);
    assert_eq!(deeper(Height::Mid, "8.4"), ["sites[one].distances[35]"]);
}

/// What lacks is the same whichever site the case lists first, and so is what was decided on it.
#[test]
fn the_order_of_the_sites_changes_no_digest_of_what_lacks() {
    use super::sample::{case, distance, site, work};
    let digests = |swap: bool| {
        let mut case = case();
        for drill in &mut case.kit.drills {
            drill.quantity = 0;
        }
        let two = site("two", "46", &[]);
        case.sites.push(two);
        distance(&mut case, "5.5");
        if swap {
            case.sites.reverse();
        }
        let sheet = work(case);
        let lacking = all(&sheet, "stock-short");
        let mut lacking: Vec<String> = lacking
            .iter()
            .map(|found| format!("{} {}", found.key(), found.digest()))
            .collect();
        lacking.sort();
        lacking
    };
    assert!(digests(false).len() >= 3);
    assert_eq!(digests(false), digests(true));
}
