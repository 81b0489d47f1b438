//! Room under the sleeve, and for stop and head above the seat.

use super::sample::{all, judged, mm, one, received, tooth, worked};
use traywright_core::case::{
    Access, Case, GuideState, GuidedExtent, NeighbourKind, Obstacle, PlatformToSleeve, ReceiptOf,
    SiteState, SleeveFace, Tooth, ToothState,
};
use traywright_core::plan::Place;
use traywright_core::plan::SitePlace;
use traywright_core::plan::{Reason, Verdict, may_be_accepted};

fn punch(case: &mut Case) {
    case.guide.access = Access::Punch;
}

/// Where tissue is to be punched, hardly any is what nobody measured: less than 0.5 asks (common practice, no source), 0.5 does not, nor do a flap
/// and the open socket of a tooth.
#[test]
fn no_tissue_where_it_is_to_be_punched_is_asked_about() {
    let asked = |tissue: &'static str, change: fn(&mut Case)| {
        let sheet = worked(|case| {
            punch(case);
            case.sites[0].heights.tissue_thickness_mm = Some(mm(tissue));
            change(case);
        });
        let found = all(&sheet, "nothing-to-punch");
        found.first().map(|finding| finding.verdict)
    };
    assert_eq!(asked("0", |_| {}), Some(Verdict::Unknown));
    assert_eq!(asked("0.499", |_| {}), Some(Verdict::Unknown));
    assert_eq!(asked("0.5", |_| {}), None);
    assert_eq!(asked("0", |case| case.guide.access = Access::Flap), None);
    let socket: fn(&mut Case) = |case| case.sites[0].state = SiteState::FRESH_SOCKET;
    assert_eq!(asked("0", socket), None);
}

/// Punch: distance 6.0 − crest 1.0 − tissue 2.5 = 2.5; flap: 6.0 − 1.0 − 1.5 = 3.5. Nothing left
/// is enough, a micrometre less and the guide cannot seat.
#[test]
fn the_guide_seats_on_what_lies_under_its_sleeve() {
    let judge = |change: fn(&mut Case)| judged(&worked(change), "tissue-room");
    assert_eq!(judge(|_| {}), (Verdict::Clear, "3.5".into()));
    assert_eq!(judge(punch), (Verdict::Clear, "2.5".into()));
    let tissue = |text: &'static str| {
        let sheet = worked(|case| {
            punch(case);
            case.sites[0].heights.tissue_thickness_mm = Some(mm(text));
        });
        judged(&sheet, "tissue-room")
    };
    assert_eq!(tissue("5"), (Verdict::Clear, "0".into()));
    assert_eq!(tissue("5.001"), (Verdict::Short, "-0.001".into()));
    let bulge = |text: &'static str| {
        let sheet = worked(|case| {
            case.limits.flap_bulge.as_mut().unwrap().limit_mm = mm(text);
        });
        judged(&sheet, "tissue-room")
    };
    assert_eq!(bulge("5"), (Verdict::Clear, "0".into()));
    assert_eq!(bulge("5.001"), (Verdict::Short, "-0.001".into()));
}

/// The sleeve is 4.0 high. Under a flap 6.0 leaves 3.5, which it would not leave once lower by that:
/// no doubt. More is asked about by itself, and where the guide would seat either way what is more
/// than 3.0 (both common practice, no source). The same with the tissue as measured.
#[test]
fn more_room_than_usual_asks_to_which_face_the_distance_was_measured() {
    let doubt = |change: &dyn Fn(&mut Case)| {
        let sheet = worked(change);
        let found = all(&sheet, "sleeve-face-doubtful");
        let found = found.first().map(|f| {
            assert_eq!(f.place.key(), "sites[one].platform_to_sleeve");
            (f.verdict, f.length_value().unwrap().to_string())
        });
        found.map(|(verdict, left)| {
            assert_eq!(verdict, Verdict::Unknown);
            left
        })
    };
    let at = |entered: &'static str| move |case: &mut Case| super::sample::distance(case, entered);
    assert_eq!(doubt(&at("6")), None);
    assert_eq!(doubt(&at("6.001")), Some("3.501".into()));
    // As tried: 3.8 of room, which the other face would leave none of.
    assert_eq!(doubt(&at("6.3")), Some("3.8".into()));
    assert_eq!(doubt(&at("6.5")), Some("4".into()));
    // 3.9 too deep, as of a distance to the rim of a plan with 1.2 of room.
    assert_eq!(doubt(&at("7.7")), Some("5.2".into()));
    let punched = |entered: &'static str| {
        move |case: &mut Case| {
            punch(case);
            super::sample::distance(case, entered);
        }
    };
    assert_eq!(doubt(&punched("7")), None);
    assert_eq!(doubt(&punched("7.001")), Some("3.501".into()));
    // Entered to the rim, the other face would only be farther.
    let to_rim = |case: &mut Case| {
        case.sites[0].platform_to_sleeve = Some(PlatformToSleeve {
            entered_mm: mm("10.5"),
            to: SleeveFace::Coronal,
        });
    };
    assert_eq!(doubt(&to_rim), None);
    // Under a low sleeve no more is asked than where the room is unusual.
    let low = |entered: &'static str| {
        move |case: &mut Case| {
            case.kit.master_sleeves[0].height_mm = mm("2");
            super::sample::distance(case, entered);
        }
    };
    assert_eq!(doubt(&low("5.5")), None);
    assert_eq!(doubt(&low("5.501")), Some("3.001".into()));
}

/// 1.0 above the highest crest is not remarked (common practice, no source), a micrometre more is,
/// and so is a depth of 3.0 entered with the wrong sign. One spot of crest above the platform is
/// enough for it to be usual, and heights of another placement say nothing.
#[test]
fn a_platform_above_the_whole_crest_is_asked_about() {
    let above = |highest: &str, lowest: &str| {
        let sheet = worked(|case| {
            let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
            (crest.highest_mm, crest.lowest_mm) = (mm(highest), mm(lowest));
            super::sample::measure_anew(case);
        });
        let found = all(&sheet, "platform-above-crest");
        // A spot of crest far below the platform is a note of its own.
        let mut asked = found.iter().filter(|f| f.verdict != Verdict::Note);
        asked.next().map(|f| {
            let key = "sites[one].heights.platform_below_crest";
            assert_eq!((f.verdict, f.place.key()), (Verdict::Unknown, key.into()));
            f.length_value().unwrap().to_string()
        })
    };
    assert_eq!(above("-1", "-2"), None);
    assert_eq!(above("-1.001", "-2.5"), Some("1.001".into()));
    assert_eq!(above("-3", "-3"), Some("3".into()));
    assert_eq!(above("0.1", "-2"), None);
    // On one side 2.0 is a note (common practice, no source).
    assert_eq!(above("0.1", "-2.001"), Some("2.001".into()));
}

/// The highest crest counts, not the lowest.
#[test]
fn the_highest_crest_takes_the_room() {
    let sheet = worked(|case| {
        let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
        (crest.highest_mm, crest.lowest_mm) = (mm("4.6"), mm("-2"));
    });
    assert_eq!(
        judged(&sheet, "tissue-room"),
        (Verdict::Short, "-0.1".into())
    );
}

#[test]
fn unknown_crest_tissue_or_bulge_is_unknown_room() {
    let changes: [fn(&mut Case); 4] = [
        |case| case.sites[0].heights.platform_below_crest = None,
        |case| {
            punch(case);
            case.sites[0].heights.tissue_thickness_mm = None;
        },
        |case| case.limits.flap_bulge = None,
        |case| case.limits.tissue_room = None,
    ];
    for (n, change) in changes.into_iter().enumerate() {
        let sheet = worked(change);
        assert_eq!(
            judged(&sheet, "tissue-room"),
            (Verdict::Unknown, "unknown".into()),
            "{n}"
        );
        assert!(!one(&sheet, "tissue-room").value.reasons().is_empty());
    }
    // The tissue is not asked for under a flap.
    let flap = worked(|case| case.sites[0].heights.tissue_thickness_mm = None);
    assert_eq!(judged(&flap, "tissue-room").0, Verdict::Clear);
}

fn beside(case: &mut Case, above_rim: &str, from_axis: &str) {
    let measured_at = case.sites[0].walls[0].measured_at.clone();
    case.sites[0].obstacles = vec![Obstacle {
        name: "crown".into(),
        tooth: None,
        rim_above_platform_mm: Some(mm("10")),
        above_rim_mm: mm(above_rim),
        from_axis_mm: mm(from_axis),
        measured_at,
    }];
}

/// The seat is 0.7 above the rim, the stop's body 6.5 wide, the head 9 wide and
/// 34.0 − 20.7 = 13.3 above the seat; 0.2 must remain.
#[test]
fn stop_and_head_pass_what_stands_beside_the_seat() {
    for (above_rim, from_axis, verdict, value) in [
        // Not above the seat: nothing is in the way, the whole distance remains.
        ("0.7", "1", Verdict::Clear, "1"),
        // Above it: 3.45 − 3.25 = 0.2; a micrometre nearer is short.
        ("0.701", "3.45", Verdict::Clear, "0.2"),
        ("0.701", "3.449", Verdict::Short, "0.199"),
        // As high as the head, 0.7 + 13.3 = 14.0 above the rim: the stop alone counts.
        ("14", "3.45", Verdict::Clear, "0.2"),
        // Higher: 4.7 − 4.5 = 0.2.
        ("14.001", "4.7", Verdict::Clear, "0.2"),
        ("14.001", "4.699", Verdict::Short, "0.199"),
    ] {
        let sheet = worked(|case| beside(case, above_rim, from_axis));
        let want = (verdict, value.to_owned());
        assert_eq!(judged(&sheet, "stop-room"), want, "{above_rim} {from_axis}");
    }
    // The wider of its body and its landing face: 3.7 − 3.5.
    for (body, landing) in [("7", "6.5"), ("6.5", "7")] {
        let sheet = worked(|case| {
            beside(case, "0.701", "3.7");
            case.kit.stops[0].body_diameter_mm = mm(body);
            case.kit.stops[0].landing_diameter_mm = mm(landing);
        });
        let want = (Verdict::Clear, "0.2".to_owned());
        assert_eq!(judged(&sheet, "stop-room"), want, "{body} {landing}");
    }
}

/// Without the guide the stop, 6.5 wide, lands on the crest, 0.6 above the platform, and the head, 9 wide,
/// stands where the drill's free length ends: 25 − 10 = 15.0 above the platform, 5.0 above where the rim
/// was. A crown stands there still, what belongs to the guide does not.
#[test]
fn stop_and_head_pass_a_crown_without_the_guide_too() {
    for (above_rim, from_axis, crown, verdict, value) in [
        ("-9.4", "1", true, Verdict::Clear, "1"),
        ("-9.399", "3.45", true, Verdict::Clear, "0.2"),
        ("-9.399", "3.449", true, Verdict::Short, "0.199"),
        ("5", "3.45", true, Verdict::Clear, "0.2"),
        ("5.001", "4.7", true, Verdict::Clear, "0.2"),
        ("5.001", "4.699", true, Verdict::Short, "0.199"),
        ("5.001", "4.699", false, Verdict::Clear, "1.449"),
        ("-9.399", "1", false, Verdict::Clear, "1"),
    ] {
        let sheet = worked(|case| {
            case.sites[0].guided_extent = GuidedExtent::PilotOnly;
            case.kit.drills[1].free_length_mm = mm("25");
            beside(case, above_rim, from_axis);
            case.sites[0].obstacles[0].tooth = crown.then(|| tooth("35"));
        });
        let want = (verdict, value.to_owned());
        assert_eq!(
            judged(&sheet, "stop-room"),
            want,
            "{above_rim} {from_axis} {crown}"
        );
    }
}

/// Its height counts from the rim: a rim that is elsewhere now, for whatever cause, makes it stale,
/// and one whose height was not entered leaves it unknown.
#[test]
fn an_obstacle_holds_for_the_rim_that_it_was_measured_from() {
    type Change = fn(&mut Case);
    let changes: [Change; 3] = [
        |case| super::sample::distance(case, "6.1"),
        |case| case.kit.master_sleeves[0].height_mm = mm("4.1"),
        |case| {
            let crest = case.sites[0].heights.platform_below_crest.as_mut();
            crest.unwrap().highest_mm = mm("2.1");
        },
    ];
    for (n, change) in changes.into_iter().enumerate() {
        let sheet = worked(|case| {
            beside(case, "2", "6");
            change(case);
        });
        let reasons = one(&sheet, "stop-room").value.reasons().to_vec();
        assert!(
            matches!(reasons[..], [Reason::Stale(..)]),
            "{n}: {reasons:?}"
        );
    }
    let unsaid = worked(|case| {
        beside(case, "2", "6");
        case.sites[0].obstacles[0].rim_above_platform_mm = None;
    });
    assert_eq!(
        one(&unsaid, "stop-room").value.reasons(),
        [Reason::Missing(Place::Site(
            "one".into(),
            SitePlace::ObstacleRim(0)
        ))]
    );
}

/// One crown entered says nothing about the other: each neighbouring crown that may be above the
/// seat needs its own entry.
#[test]
fn one_obstacle_does_not_silence_the_other_neighbour() {
    let left = |named: &[&str], occlusal: &str| {
        let sheet = worked(|case| {
            case.sites[0].heights.crest_below_occlusal_mm = Some(mm(occlusal));
            beside(case, "2", "6");
            let first = case.sites[0].obstacles.remove(0);
            for iso in named {
                let mut obstacle = first.clone();
                obstacle.tooth = Some(super::sample::tooth(iso));
                case.sites[0].obstacles.push(obstacle);
            }
        });
        let found = all(&sheet, "crown-not-measured");
        assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
        found.iter().map(|f| f.place.key()).collect::<Vec<_>>()
    };
    assert_eq!(left(&["35"], "12"), ["sites[one].obstacles[37]"]);
    assert_eq!(left(&["37"], "12"), ["sites[one].obstacles[35]"]);
    assert!(left(&["35", "37"], "12").is_empty());
    // Below the seat, no crown is in the way.
    assert!(left(&["35"], "9").is_empty());
}

/// A crown that was entered beside the seat, of a tooth that was changed since to one without: one of the
/// two is wrong. Of one that will be extracted that is worth knowing; whose bears one, nothing is said.
#[test]
fn a_crown_of_a_tooth_without_one_is_a_contradiction() {
    use traywright_core::case::NeighbourKind::{Impacted, Pontic, Remnant};
    use traywright_core::case::ToothState::{Missing, Present, ToExtract};
    let found = |state, kind| {
        let sheet = worked(|case| {
            beside(case, "2", "6");
            case.sites[0].obstacles[0].tooth = Some(super::sample::tooth("35"));
            let tooth = case.teeth.iter_mut();
            let tooth = tooth
                .filter(|t| t.position == super::sample::tooth("35"))
                .last()
                .unwrap();
            (tooth.state, tooth.kind) = (state, kind);
        });
        let found = all(&sheet, "crown-of-no-tooth");
        found.first().map(|f| (f.place.key(), f.verdict))
    };
    let at = |verdict| Some(("sites[one].obstacles[35]".to_owned(), verdict));
    for kind in [None, Some(Pontic)] {
        assert_eq!(found(Present, kind), None);
    }
    assert_eq!(found(Missing, None), at(Verdict::Unknown));
    for kind in [Impacted, Remnant] {
        assert_eq!(found(Missing, Some(kind)), at(Verdict::Unknown));
    }
    assert_eq!(found(ToExtract, None), at(Verdict::Note));
}

/// A crown stands beside the sleeve and reaches about to the occlusal plane. The crest is 2.5 above the platform and 6.5 below
/// that plane, the rim 10 above it: the plane passes 2.5 + 6.5 − 10 = −1.0 over the rim, and a crown that ends
/// 2 below that still may be worn so.
#[test]
fn a_crown_within_the_sleeve_or_far_too_low_is_doubtful() {
    let found = |tooth: Option<&str>, above_rim: &str, from_axis: &str| {
        let sheet = worked(|case| {
            beside(case, above_rim, from_axis);
            case.sites[0].obstacles[0].tooth = tooth.map(super::sample::tooth);
            let heights = &mut case.sites[0].heights;
            heights.platform_below_crest.as_mut().unwrap().highest_mm = mm("2.5");
            heights.crest_below_occlusal_mm = Some(mm("6.5"));
        });
        let found = all(&sheet, "crown-doubtful");
        for finding in &found {
            // Where an implant or a sleeve stands no crown is, so that nobody accepts it.
            let is_short = finding.args["how"].to_string() == "below_occlusal";
            assert_eq!(may_be_accepted(finding), is_short);
        }
        let how = found.iter().map(|f| (f.verdict, f.args["how"].to_string()));
        how.collect::<Vec<_>>()
    };
    let doubted = |how: &str| vec![(Verdict::Unknown, how.to_owned())];
    let crown = Some("37");
    assert_eq!(found(crown, "-3", "6"), []);
    assert_eq!(found(crown, "-3.001", "6"), doubted("below_occlusal"));
    assert_eq!(found(None, "-3.001", "6"), []);
    assert_eq!(found(crown, "2", "0.58"), doubted("within_sleeve"));
    assert_eq!(found(crown, "-9", "0.58"), doubted("within_implant"));
}

/// The lowest seat of the guided steps counts: one straight through the master sleeve lands on
/// the rim itself.
#[test]
fn the_lowest_seat_meets_the_crown() {
    let sheet = worked(|case| {
        beside(case, "0.5", "3.4");
        case.sites[0].steps[2].sleeve = None;
    });
    assert_eq!(judged(&sheet, "stop-room"), (Verdict::Short, "0.15".into()));
}

#[test]
fn without_head_or_setting_the_room_is_unknown() {
    let no_head = worked(|case| {
        beside(case, "-5", "10");
        case.setup.head = None;
    });
    assert_eq!(
        one(&no_head, "stop-room").value.reasons(),
        [Reason::Missing(Place::Head)]
    );
    let no_setting = worked(|case| {
        beside(case, "-5", "10");
        case.sites[0].platform_to_sleeve = None;
    });
    assert_eq!(judged(&no_setting, "stop-room").0, Verdict::Unknown);
}

/// With nothing entered beside the seat, crowns are taken to reach the occlusal plane: crest 1.0
/// and 9.0 up to it, 10.0 above the platform. A seat at 10.0 is level with them, one below it has
/// to be looked at.
#[test]
fn crowns_end_at_the_occlusal_plane() {
    for (distance, verdict, value) in [
        ("5.3", Verdict::Clear, "0"),
        ("5.299", Verdict::Unknown, "-0.001"),
    ] {
        let sheet = worked(|case| super::sample::distance(case, distance));
        assert_eq!(
            judged(&sheet, "crowns-beside-seat"),
            (verdict, value.into())
        );
    }
    let unknown = worked(|case| case.sites[0].heights.crest_below_occlusal_mm = None);
    assert_eq!(
        judged(&unknown, "crowns-beside-seat"),
        (Verdict::Unknown, "unknown".into())
    );
    // What was entered takes its place.
    let entered = worked(|case| beside(case, "0", "8"));
    assert!(all(&entered, "crowns-beside-seat").is_empty());
}

/// The guide at hand seats 0.3 lower than planned, so what is beside it reaches 0.3 higher above
/// the seat: a crown 0.5 above the rim, 0.2 below the planned seat, is then beside the stop, and of
/// those on the occlusal plane 0.3 more is above it.
#[test]
fn a_guide_that_seats_lower_meets_what_stands_beside_it() {
    let lower = |case: &mut Case| {
        case.guide.state = GuideState::Made;
        case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, "5.7")];
    };
    let planned = worked(|case| beside(case, "0.5", "3.4"));
    assert_eq!(
        judged(&planned, "stop-room"),
        (Verdict::Clear, "3.4".into())
    );
    let at_hand = worked(|case| {
        beside(case, "0.5", "3.4");
        lower(case);
    });
    assert_eq!(
        judged(&at_hand, "stop-room"),
        (Verdict::Short, "0.15".into())
    );
    let crowns = |lower: fn(&mut Case)| judged(&worked(lower), "crowns-beside-seat").1;
    assert_eq!(crowns(|_| {}), "0.7");
    assert_eq!(judged(&worked(lower), "crowns-beside-seat").1, "0.4");
}

/// A pontic is a crown although its tooth is missing: it is asked for as any.
#[test]
fn a_pontic_beside_the_seat_is_asked_for() {
    let asked = |kind: Option<NeighbourKind>| {
        let sheet = worked(|case| {
            case.sites[0].heights.crest_below_occlusal_mm = Some(mm("12"));
            beside(case, "2", "6");
            case.sites[0].obstacles[0].tooth = Some(super::sample::tooth("35"));
            let beyond = super::sample::tooth("37");
            case.teeth.retain(|tooth| tooth.position != beyond);
            case.teeth.push(Tooth {
                position: beyond,
                state: ToothState::Missing,
                kind,
            });
        });
        all(&sheet, "crown-not-measured").len()
    };
    assert_eq!(asked(Some(NeighbourKind::Pontic)), 1);
    assert_eq!(asked(None), 0);
}

/// On a tilted axis the seat is lower than its distance along the axis says: that alone is never
/// clear.
#[test]
fn a_tilted_seat_is_never_clear_of_the_crowns_by_its_height_along_the_axis() {
    let sheet = worked(|case| super::deep_structure::tilt(case, "32", "0"));
    assert_eq!(one(&sheet, "crowns-beside-seat").verdict, Verdict::Unknown);
    assert_eq!(
        one(&sheet, "crowns-beside-seat").value.reasons(),
        [Reason::AlongTiltedAxis(mm("0.7"))]
    );
}

fn sleeves(case: &mut Case, length: &str) {
    for one in &mut case.kit.drill_sleeves {
        one.length_mm = mm(length);
    }
}

/// A drill sleeve 6.0 long seats 0.7 above the rim of a master sleeve 4.0 high and reaches 1.3 out of
/// it: of 3.5 under that with a flap it leaves 2.2, of 2.5 with a punch 1.2. At 8.2 it just touches,
/// at 4.7 it ends with the master sleeve and there is nothing to tell.
#[test]
fn the_drill_sleeve_has_room_where_it_is_longer_than_the_master_sleeve() {
    for (length, flap, left) in [
        ("6", true, Some((Verdict::Clear, "2.2"))),
        ("6", false, Some((Verdict::Clear, "1.2"))),
        ("8.2", true, Some((Verdict::Clear, "0"))),
        ("8.201", true, Some((Verdict::Short, "-0.001"))),
        ("7.2", false, Some((Verdict::Clear, "0"))),
        ("7.201", false, Some((Verdict::Short, "-0.001"))),
        ("4.701", true, Some((Verdict::Clear, "3.499"))),
        ("4.7", true, None),
        ("4", true, None),
    ] {
        let sheet = worked(|case| {
            sleeves(case, length);
            if !flap {
                punch(case);
            }
        });
        let found = all(&sheet, "drill-sleeve-room");
        assert_eq!(found.len(), usize::from(left.is_some()), "{length}");
        if let Some((verdict, left)) = left {
            let want = (verdict, left.to_owned());
            assert_eq!(judged(&sheet, "drill-sleeve-room"), want, "{length}");
        }
    }
}

/// What is not known there is unknown, but only of a sleeve that reaches out.
#[test]
fn unknown_room_under_a_drill_sleeve_is_told_of_one_that_reaches_there() {
    let changes: [fn(&mut Case); 4] = [
        |case| case.sites[0].platform_to_sleeve = None,
        |case| case.sites[0].heights.platform_below_crest = None,
        |case| case.limits.flap_bulge = None,
        |case| case.limits.tissue_room = None,
    ];
    for change in changes {
        let told = |length: &str| {
            let sheet = worked(|case| {
                sleeves(case, length);
                change(case);
            });
            let found = all(&sheet, "drill-sleeve-room");
            found.first().map(|f| f.verdict)
        };
        assert_eq!(told("4.701"), Some(Verdict::Unknown));
        assert_eq!(told("4.7"), None);
    }
}

/// The one that reaches farthest counts, at the guide at hand, and only one that is used there: the
/// master sleeve measured 0.2 lower lets 0.2 more out, the offset measured 0.1 less takes 0.1.
#[test]
fn the_drill_sleeve_that_reaches_farthest_counts() {
    let left = |change: &dyn Fn(&mut Case)| {
        let sheet = worked(|case| {
            sleeves(case, "4.7");
            case.kit.drill_sleeves[1].length_mm = mm("6");
            change(case);
        });
        let found = all(&sheet, "drill-sleeve-room");
        let value = found.first().and_then(|f| f.length_value());
        value.map(|left| left.to_string())
    };
    let some = |text: &str| Some(text.to_owned());
    assert_eq!(left(&|_| {}), some("2.2"));
    assert_eq!(
        left(&|case| case.kit.drill_sleeves[2].length_mm = mm("6.5")),
        some("1.7")
    );
    for (of, measured, want) in [
        (ReceiptOf::MasterSleeveHeight, "3.8", "2"),
        (ReceiptOf::PlatformToSleeve, "5.9", "2.1"),
    ] {
        let received = left(&|case| {
            case.guide.receipt = vec![received(case, of, measured)];
        });
        assert_eq!(received, some(want));
    }
    // Freehand it is not used; for the implant it is.
    let pilot = GuidedExtent::PilotOnly;
    assert_eq!(left(&|case| case.sites[0].guided_extent = pilot), None);
    let inserts = |extent| {
        left(&|case| {
            case.sites[0].steps.truncate(1);
            case.sites[0].insertion.sleeve = Some("sb".into());
            case.sites[0].guided_extent = extent;
        })
    };
    assert_eq!(inserts(GuidedExtent::DrillingAndImplant), some("2.2"));
    assert_eq!(inserts(GuidedExtent::AllDrilling), None);
}
