//! Bone to the walls.

use super::kit::outline;
use super::sample::{all, case, judged, measure_anew, mm, one, received, work, worked};
use jiff::civil::Date;
use traywright_core::case::{
    Case, GapMeasuredAt, GuideState, Height, Placement, ReceiptOf, SiteState, Socket, Wall,
    WallSide,
};
use traywright_core::dentition::Jaw;
use traywright_core::kit::{Datum, DepthRule, Point};
use traywright_core::plan::{
    Basis, Change, CommonCause, Finding, FindingLine, Place, Reason, Since, SitePlace, Verdict,
    Worksheet, by_cause, may_be_accepted, not_assessed,
};
use traywright_core::sign::Purpose;

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
        case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, "5")];
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
    // Of the two the one says that it is not the least, the other that it is not the whole length.
    let sheet = worked(|case| {
        let wall = case.sites[0].walls[0].clone();
        let from = |at, from_axis| Wall {
            at,
            from_axis_mm: mm(from_axis),
            ..wall.clone()
        };
        case.sites[0].walls = vec![from(crest, "3.9"), from(least, "6")];
    });
    let reasons = |key: &str| {
        let mut walls = all(&sheet, "wall").into_iter();
        let wall = walls.find(|f| f.place.key().contains(key)).unwrap();
        wall.value.reasons().to_vec()
    };
    let at_crest = reasons("crest");
    assert!(matches!(at_crest[..], [Reason::SomeHeightsOnly(_)]));
    let closest = reasons("least");
    assert!(matches!(closest[..], [Reason::NotTheLeast(_)]));
    for closest in ["3.9", "3.8"] {
        let clear = vec![Verdict::Clear; 2];
        assert_eq!(verdicts(&[(crest, "3.9"), (least, closest)]), clear);
    }
    let (mid, apex) = (Height::Mid, Height::Apex);
    let each = [(crest, "3.9"), (mid, "4"), (apex, "5"), (least, "6")];
    assert_eq!(verdicts(&each), vec![Verdict::Clear; 4]);
}

/// Grafted on the day of the scan or after it, a wall measured on it is not the wall that is there. Scanned
/// the day after, it is. With crest and walls it is one cause, told once.
#[test]
fn a_wall_measured_before_the_graft_is_unknown() {
    let scanned = |day: i8| {
        worked(|case| {
            let on = Date::constant(2026, 5, 2);
            case.sites[0].state = SiteState::Grafted { on };
            case.guide.scan_date = Some(Date::constant(2026, 5, day));
        })
    };
    for day in [1, 2] {
        let sheet = scanned(day);
        let walls = all(&sheet, "wall");
        assert!(!walls.is_empty());
        for wall in walls {
            assert_eq!(wall.verdict, Verdict::Unknown, "{wall:?}");
            assert!(matches!(wall.value.reasons(), [Reason::BeforeGraft(_)]));
            assert!(!may_be_accepted(wall));
        }
        let unknown = sheet.findings.iter().filter(|f| f.severity().is_open());
        let told = by_cause(unknown.collect(), |finding: &&Finding| finding);
        let [FindingLine::Cause(cause, on_it)] = &told[..] else {
            panic!("{told:#?}");
        };
        assert_eq!(*cause, CommonCause::Grafted("one".into()));
        let scan = |f: &&&Finding| f.rule.key() == "scan-before-graft";
        assert_eq!(on_it.iter().filter(scan).count(), 1);
    }
    let after = scanned(3);
    assert!(
        all(&after, "wall")
            .iter()
            .all(|f| f.verdict == Verdict::Clear)
    );
}

/// A fresh socket whose buccal wall is 5.8 from the axis at the crest, farther below, with a gap of 2 beside
/// the implant's 4.6 (common practice, no source, for all of them).
fn socket(case: &mut Case) {
    let site = &mut case.sites[0];
    let wall = site.walls[0].clone();
    site.walls.retain(|wall| wall.side == WallSide::Oral);
    let heights = [
        (Height::Crest, "5.8"),
        (Height::Mid, "6"),
        (Height::Apex, "6"),
    ];
    site.walls.extend(heights.map(|(at, from_axis)| Wall {
        side: WallSide::Buccal,
        at,
        from_axis_mm: mm(from_axis),
        ..wall.clone()
    }));
    site.state = SiteState::FreshSocket(Socket {
        gap_mm: Some(mm("2")),
        gap_measured_at: Some(GapMeasuredAt {
            site: wall.measured_at.clone(),
            implant_diameter_mm: mm("4.6"),
        }),
        slope_deg: None,
    });
}

fn at_crest(change: impl FnOnce(&mut Case)) -> Finding {
    let sheet = worked(|case| {
        socket(case);
        change(case);
    });
    let key = "sites[one].walls[buccal crest]";
    let walls = all(&sheet, "wall").into_iter();
    let mut walls = walls.filter(|f| f.place.key() == key);
    walls.next().unwrap().clone()
}

/// The gap of a socket is no bone: 5.8 − (2.3 + 2) = 1.5 is just the limit, a micrometre more of gap is
/// short, and so it stays beside a narrower implant, for the socket is where it was. Towards the apex
/// nothing is taken off: 6 − 4.4 / 2 = 3.8.
#[test]
fn the_gap_of_a_socket_is_no_bone() {
    let gap = |gap: Option<&'static str>| {
        move |case: &mut Case| {
            if let SiteState::FreshSocket(Socket { gap_mm, .. }) = &mut case.sites[0].state {
                *gap_mm = gap.map(mm);
            }
        }
    };
    let left = |finding: &Finding| (finding.verdict, finding.length_value());
    assert_eq!(left(&at_crest(|_| {})), (Verdict::Clear, Some(mm("1.5"))));
    let wide = at_crest(gap(Some("2.001")));
    assert_eq!(left(&wide), (Verdict::Short, Some(mm("1.499"))));
    let narrow = at_crest(|case| {
        gap(Some("2.001"))(case);
        case.kit.implants[0].diameter_mm = mm("4.2");
        case.kit.implants[0].largest_diameter_mm = mm("4.2");
    });
    assert_eq!(left(&narrow), (Verdict::Short, Some(mm("1.499"))));
    let none = at_crest(gap(Some("0")));
    assert_eq!(left(&none), (Verdict::Clear, Some(mm("3.5"))));

    let sheet = worked(socket);
    let walls = all(&sheet, "wall").into_iter();
    let below =
        walls.filter(|f| f.place.key().contains("buccal") && f.length_value() == Some(mm("3.8")));
    assert_eq!(below.count(), 2);
}

/// A gap that was confirmed after a move is told as confirmed with the wall beside it, though that was
/// measured anew; by nobody it was not.
#[test]
fn who_confirmed_the_gap_of_a_socket_is_told() {
    for (by, told) in [("N. Quill", Some("N. Quill after 0.3")), ("-", None)] {
        let finding = at_crest(|case| {
            let site = &mut case.sites[0];
            if let Placement::OnArch { along_mm, .. } = &mut site.placement {
                *along_mm += mm("0.3");
            }
            let now = site.measured_now(mm("10"));
            for wall in &mut site.walls {
                wall.measured_at = now.clone();
            }
            if let SiteState::FreshSocket(Socket {
                gap_measured_at: Some(then),
                ..
            }) = &mut site.state
            {
                then.site = then.site.confirmed(&now, by.into(), Purpose::Practice);
            }
        });
        let arg = |name| finding.args.get(name).map(ToString::to_string);
        let said = arg("confirmed_by").zip(arg("moved_by"));
        let said = said.map(|(by, moved)| format!("{by} after {moved}"));
        assert_eq!(said.as_deref(), told);
        let verdict = [Verdict::Unknown, Verdict::Clear][usize::from(told.is_some())];
        assert_eq!(finding.verdict, verdict);
        if told.is_some() {
            assert_eq!(finding.basis, Basis::Confirmed);
        }
    }
}

/// Not entered, or measured where the site or its platform does not stand any more when the wall is measured
/// anew, nobody knows what is left; what the body leaves is the most.
#[test]
fn a_gap_that_was_not_measured_with_the_wall_is_unknown() {
    let place = Place::Site("one".into(), SitePlace::SocketGap);
    let reason = |finding: &Finding| {
        assert_eq!(finding.verdict, Verdict::Unknown);
        assert_eq!(finding.value.reasons()[1..], [Reason::AtMost(mm("3.5"))]);
        finding.value.reasons()[0].clone()
    };
    let missing = at_crest(|case| {
        if let SiteState::FreshSocket(Socket { gap_mm, .. }) = &mut case.sites[0].state {
            *gap_mm = None;
        }
    });
    assert_eq!(reason(&missing), Reason::Missing(place.clone()));
    // The bed of an implant that is removed is no bone either.
    let bed = at_crest(|case| case.sites[0].state = SiteState::IMPLANT_TO_REMOVE);
    assert_eq!(reason(&bed), Reason::Missing(place.clone()));
    let stale = |change| {
        let site = "one".into();
        Reason::Stale(place.clone(), Since { site, change })
    };
    let unrecorded = at_crest(|case| {
        if let SiteState::FreshSocket(Socket {
            gap_measured_at, ..
        }) = &mut case.sites[0].state
        {
            *gap_measured_at = None;
        }
    });
    assert_eq!(reason(&unrecorded), stale(Change::Unrecorded));
    let moved = at_crest(|case| {
        if let Placement::OnArch { buccal_mm, .. } = &mut case.sites[0].placement {
            *buccal_mm += mm("-1");
        }
        measure_anew(case);
    });
    assert_eq!(reason(&moved), stale(Change::Moved));
    let sunk = at_crest(|case| {
        let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
        crest.highest_mm += mm("0.5");
        measure_anew(case);
    });
    assert_eq!(reason(&sunk), stale(Change::Depth));
    // With less than the limit beside the body the gap does not matter.
    let short = at_crest(|case| {
        for wall in &mut case.sites[0].walls {
            wall.from_axis_mm = mm("3.799");
        }
        if let SiteState::FreshSocket(Socket { gap_mm, .. }) = &mut case.sites[0].state {
            *gap_mm = None;
        }
    });
    assert_eq!(short.verdict, Verdict::Short);
}

/// At its closest alone a wall says nothing of the crest of a socket; measured there too, each says its own.
#[test]
fn the_closest_wall_of_a_socket_says_nothing_of_its_crest() {
    let verdicts = |heights: &[(Height, &str)]| -> Vec<Verdict> {
        let sheet = worked(|case| {
            socket(case);
            let wall = case.sites[0].walls.last().unwrap().clone();
            case.sites[0]
                .walls
                .retain(|wall| wall.side == WallSide::Oral);
            let walls = heights.iter().map(|(at, from_axis)| Wall {
                at: *at,
                from_axis_mm: mm(from_axis),
                ..wall.clone()
            });
            case.sites[0].walls.extend(walls);
        });
        let walls = all(&sheet, "wall").into_iter();
        let walls = walls.filter(|f| f.place.key().contains("buccal"));
        walls.map(|f| f.verdict).collect()
    };
    let (crest, least) = (Height::Crest, Height::Least);
    assert_eq!(verdicts(&[(least, "5.8")]), [Verdict::Unknown]);
    assert_eq!(verdicts(&[(least, "3.799")]), [Verdict::Short]);
    let both = verdicts(&[(crest, "5.8"), (least, "5.8")]);
    assert_eq!(both, [Verdict::Clear; 2]);
}

/// What nothing reads of a fresh socket, its slope and a gap elsewhere, is said where there is one.
#[test]
fn what_is_not_assessed_of_a_socket_is_said_where_there_is_one() {
    let mut fresh = case();
    assert!(!not_assessed(&fresh).contains(&"socket"));
    socket(&mut fresh);
    assert!(not_assessed(&fresh).contains(&"socket"));
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

/// Measured down to less than the implant's end, a wall says nothing of the rest.
#[test]
fn no_deeper_than_the_wall_was_measured_along_the_implant() {
    let at = |down_to: Option<&'static str>| {
        let sheet = worked(|case| {
            case.sites[0].walls.truncate(1);
            case.sites[0].walls[0].measured_at.down_to_mm = down_to.map(mm);
        });
        one(&sheet, "wall").verdict
    };
    assert_eq!(at(None), Verdict::Clear);
    assert_eq!(at(Some("10")), Verdict::Clear);
    assert_eq!(at(Some("9.999")), Verdict::Unknown);
    assert_eq!(at(Some("1")), Verdict::Unknown);
}
