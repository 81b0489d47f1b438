//! Two planned implants beside each other.

use super::super::sample::{all, judged, mm, one, present, site, tooth, work, worked};
use super::at;
use traywright_core::case::{
    Case, Distance, DistanceTo, Height, MeasuredAt, NeighbourKind, Placement, PointMm, StepThrough,
    Vector, WithoutGuide,
};
use traywright_core::measure::{Angle, Length};
use traywright_core::plan::{
    Argument, CommonCause, Figure, FindingLine, Quantity, Reason, Rule, Severity, Sign, TermName,
    Verdict, Worksheet, by_cause,
};

pub(in crate::plan) fn beside_a_second(case: &mut Case) {
    case.sites[0].distances.clear();
    case.sites.push(site("two", "35", &[]));
    case.sites[1].tooth = tooth("35");
    case.teeth = vec![present("34"), present("37")];
}

pub(in crate::plan) fn upright_at(case: &mut Case, n: usize, x: &str) {
    case.sites[n].placement = Placement::Measured {
        platform: PointMm {
            x_mm: mm(x),
            y_mm: mm("25"),
            z_mm: mm("-9"),
        },
        direction: Vector {
            x: Length::ZERO,
            y: Length::ZERO,
            z: mm("-1"),
        },
    };
}

const PAIR: &str = "sites[one].distances[two]";

/// Two measured upright axes 7.6 apart: 7.6 − 2.3 − 2.3 = 3.0, just the limit at the platform.
#[test]
fn two_measured_axes_give_a_measured_distance() {
    for (x, verdict, value) in [
        ("27.6", Verdict::Clear, "3"),
        ("27.599", Verdict::Short, "2.999"),
    ] {
        let sheet = worked(|case| {
            beside_a_second(case);
            upright_at(case, 0, "20");
            upright_at(case, 1, x);
        });
        assert_eq!(judged(&sheet, "neighbour-implant"), (verdict, value.into()));
        assert_eq!(one(&sheet, "neighbour-implant").place.key(), PAIR);
    }
}

/// As long as one of the two is placed by the arch model, so does the distance: never clear.
#[test]
fn one_axis_on_the_arch_is_never_clear() {
    for measured in [None, Some(0), Some(1)] {
        let mut shorts = 0;
        for x in ["10", "18", "21", "24", "30", "60"] {
            let sheet = worked(|case| {
                beside_a_second(case);
                if let Some(n) = measured {
                    upright_at(case, n, x);
                }
            });
            for rule in ["neighbour-implant", "neighbour-implant-body"] {
                let finding = one(&sheet, rule);
                assert!(
                    matches!(finding.verdict, Verdict::Short | Verdict::Unknown),
                    "{measured:?} {x} {finding:?}"
                );
                shorts += usize::from(finding.verdict == Verdict::Short);
            }
        }
        assert!(measured.is_none() || shorts < 12);
    }
}

pub(super) fn to_other(
    case: &Case,
    from: usize,
    other: &str,
    from_axis: &str,
    at: Height,
) -> Distance {
    let now = |n: usize| -> MeasuredAt { case.sites[n].measured_now(mm("10")) };
    Distance {
        to: DistanceTo::Site { site: other.into() },
        at,
        from_axis_mm: mm(from_axis),
        measured_at: now(from),
        other_measured_at: Some(now(1 - from)),
    }
}

/// A measured distance between the axes takes both radii: 7.6 − 2.3 − 2.3 = 3.0. It comes before
/// the arch model from whichever of the two sites it was entered.
#[test]
fn a_measured_distance_to_another_site() {
    for from in [0, 1] {
        let sheet = worked(|case| {
            beside_a_second(case);
            let other = ["two", "one"][from];
            let distance = to_other(case, from, other, "7.6", Height::Crest);
            case.sites[from].distances.push(distance);
        });
        assert_eq!(
            judged(&sheet, "neighbour-implant"),
            (Verdict::Clear, "3".into()),
            "{from}"
        );
        // At the crest alone nothing was measured along the bodies.
        assert_ne!(
            one(&sheet, "neighbour-implant-body").verdict,
            Verdict::Clear
        );
    }
}

/// Entered from both sites and not alike: the nearer counts.
#[test]
fn of_two_measured_distances_the_nearer_counts() {
    for (first, second) in [("8.6", "7.5"), ("7.5", "8.6")] {
        let sheet = worked(|case| {
            beside_a_second(case);
            for (from, other, text) in [(0, "two", first), (1, "one", second)] {
                let distance = to_other(case, from, other, text, Height::Least);
                case.sites[from].distances.push(distance);
            }
        });
        assert_eq!(
            judged(&sheet, "neighbour-implant"),
            (Verdict::Short, "2.9".into())
        );
        assert_eq!(
            judged(&sheet, "neighbour-implant-body"),
            (Verdict::Clear, "2.9".into())
        );
    }
}

/// Without the other site's state of then, nobody knows whether that has moved since.
#[test]
fn a_distance_that_does_not_know_the_other_site_is_stale() {
    let sheet = worked(|case| {
        beside_a_second(case);
        let mut distance = to_other(case, 0, "two", "9", Height::Least);
        distance.other_measured_at = None;
        case.sites[0].distances.push(distance);
    });
    let finding = one(&sheet, "neighbour-implant");
    assert_eq!(finding.verdict, Verdict::Unknown);
    assert!(matches!(finding.value.reasons(), [Reason::Stale(..)]));
}

/// Between the bodies one height alone is never clear either; mid and apex together may be.
#[test]
fn bodies_measured_at_one_height_are_not_clear() {
    use Height::{Apex, Mid};
    for (heights, verdict) in [
        (&[Mid][..], Verdict::Unknown),
        (&[Apex], Verdict::Unknown),
        (&[Mid, Apex], Verdict::Clear),
    ] {
        let sheet = worked(|case| {
            beside_a_second(case);
            for at in heights {
                let distance = to_other(case, 0, "two", "9", *at);
                case.sites[0].distances.push(distance);
            }
        });
        let found = one(&sheet, "neighbour-implant-body").verdict;
        assert_eq!(found, verdict, "{heights:?}");
    }
}

/// Where the guide was left at one of two sites, what lies between them is led by nothing at the other as well, in one line with
/// the rest; where all went through it that it was to lead, it was left nowhere.
#[test]
fn a_guide_that_was_left_is_told_between_two_sites_at_both() {
    let left = |through: bool| {
        worked(|case| {
            beside_a_second(case);
            let site = &mut case.sites[0];
            let steps: Vec<StepThrough> = site.steps.iter().map(StepThrough::of).collect();
            let through = if through { steps } else { Vec::new() };
            let implant = !through.is_empty();
            site.without_guide = Some(WithoutGuide::of(site, through, implant));
        })
    };
    let sheet = left(false);
    let told = |sheet: &Worksheet, at: &str| {
        let id = at.into();
        let all = sheet.findings.iter();
        let here = all.filter(|one| one.rule == Rule::GuideLeft && one.is_of(&id));
        here.map(|one| (one.place.key(), one.verdict))
            .collect::<Vec<_>>()
    };
    let between = ("sites[one].distances[two]".to_owned(), Verdict::Unknown);
    assert_eq!(told(&sheet, "two"), std::slice::from_ref(&between));
    assert!(told(&sheet, "one").contains(&between));
    let lines = by_cause(sheet.findings.iter().collect(), |one| one);
    let of_it = |line: &FindingLine<&traywright_core::plan::Finding>| match line {
        FindingLine::One(one) => one.rule == Rule::GuideLeft,
        FindingLine::Cause(cause, _) => matches!(cause, CommonCause::GuideLeft(_)),
    };
    assert_eq!(lines.iter().filter(|line| of_it(line)).count(), 1);
    assert!(all(&left(true), "guide-left").is_empty());
    // What went through it led to another implant: of the one that is planned now nothing did.
    let sheet = worked(|case| {
        beside_a_second(case);
        let site = &mut case.sites[0];
        let steps = site.steps.iter().map(StepThrough::of).collect();
        let mut other = site.clone();
        other.implant = "other".into();
        site.without_guide = Some(WithoutGuide::of(&other, steps, true));
    });
    assert_eq!(told(&sheet, "two"), [between]);
}

/// Of tilted axes on the arch the sum of their tilts counts, however the arch turns: clear up to the
/// limit of 40°, and beyond it unknown, or short where the model says so.
#[test]
fn two_tilts_are_no_more_than_their_sum() {
    for (own, other, width, verdict) in [
        ("20", "20", true, Verdict::Clear),
        ("20", "20.001", true, Verdict::Unknown),
        ("-30", "20", true, Verdict::Short),
        ("20", "20", false, Verdict::Clear),
        ("20", "20.001", false, Verdict::Unknown),
    ] {
        let sheet = worked(|case| {
            beside_a_second(case);
            if !width {
                case.arch = None;
            }
            for (site, apex) in case.sites.iter_mut().zip([own, other]) {
                let Placement::OnArch {
                    apex_to_distal_deg, ..
                } = &mut site.placement
                else {
                    panic!()
                };
                *apex_to_distal_deg = super::super::sample::deg(apex);
            }
        });
        let found = one(&sheet, "convergence");
        assert_eq!(found.verdict, verdict, "{own} {other} {width}");
    }
}

/// The arch model's angle between tilted axes is short beyond the limit.
#[test]
fn the_angle_between_tilted_axes_on_the_arch() {
    let tilted = |apex: &'static str| {
        worked(|case| {
            beside_a_second(case);
            let Placement::OnArch {
                apex_to_distal_deg, ..
            } = &mut case.sites[0].placement
            else {
                panic!()
            };
            *apex_to_distal_deg = super::super::sample::deg(apex);
        })
    };
    let found = |apex| one(&tilted(apex), "convergence").verdict;
    assert_eq!(found("0"), Verdict::Clear);
    assert_eq!(found("20"), Verdict::Clear);
    assert_eq!(found("41"), Verdict::Short);
}

/// Axes that lean towards each other by atan 0.364 = 20.0016° each converge by 40.0031°, rounded
/// up to 40.004°.
#[test]
fn convergence_against_its_limit() {
    for (limit, verdict) in [("40.004", Verdict::Clear), ("40.003", Verdict::Short)] {
        let sheet = worked(|case| {
            beside_a_second(case);
            for (n, x, lean) in [(0, "20", "0.364"), (1, "30", "-0.364")] {
                upright_at(case, n, x);
                let Placement::Measured { direction, .. } = &mut case.sites[n].placement else {
                    panic!()
                };
                direction.x = mm(lean);
            }
            case.limits.convergence.as_mut().unwrap().limit_deg = super::super::sample::deg(limit);
        });
        assert_eq!(one(&sheet, "convergence").verdict, verdict, "{limit}");
    }
    let no_limit = worked(|case| {
        beside_a_second(case);
        case.limits.convergence = None;
    });
    assert_eq!(one(&no_limit, "convergence").verdict, Verdict::Unknown);
}

/// Three sites: each is held against the next along the arch, not against the one beyond.
#[test]
fn pairs_run_along_the_arch() {
    let mut case = super::super::sample::case();
    case.sites = ["36", "34", "35"]
        .map(|iso| site(&format!("s{iso}"), iso, &[]))
        .into();
    let sheet = work(case);
    let mut pairs: Vec<_> = all(&sheet, "convergence")
        .iter()
        .map(|f| f.place.key())
        .collect();
    pairs.sort();
    assert_eq!(
        pairs,
        ["sites[s34].distances[s35]", "sites[s36].distances[s35]"]
    );
}

/// Sites that are not next to each other: what was entered between them is in both tables, and so
/// is what comes too near; else nothing.
#[test]
fn every_pair_is_looked_at() {
    let far = "sites[s34].distances[s36]";
    let sheet = |change: fn(&mut Case)| {
        let mut case = super::super::sample::case();
        case.sites = ["34", "35", "36"]
            .map(|iso| site(&format!("s{iso}"), iso, &[]))
            .into();
        change(&mut case);
        let sheet = work(case);
        let found = sheet.findings.iter().filter(|f| f.place.key() == far);
        found.map(|f| (f.rule.key(), f.verdict)).collect::<Vec<_>>()
    };
    assert_eq!(sheet(|_| {}), []);
    let entered = sheet(|case| {
        let now = case.sites[2].measured_now(mm("10"));
        let mut distance = to_other(case, 0, "s36", "6", Height::Least);
        distance.other_measured_at = Some(now);
        case.sites[0].distances.push(distance);
    });
    assert_eq!(
        entered,
        [
            ("neighbour-implant", Verdict::Short),
            ("neighbour-implant-body", Verdict::Short)
        ]
    );
    // The last stands where the first does.
    let near = sheet(|case| {
        upright_at(case, 0, "20");
        upright_at(case, 1, "40");
        upright_at(case, 2, "21");
    });
    assert!(
        near.contains(&("neighbour-implant-body", Verdict::Short)),
        "{near:?}"
    );
}

/// Two necks 7.5 apart seen from above, one 4.0 deeper: in space 8.5 apart, 3.9 less both radii, to
/// the side 7.5 − 4.6 = 2.9, and that is what the bone between them has.
#[test]
fn platforms_are_apart_by_what_lies_to_the_side() {
    let sheet = worked(|case| {
        beside_a_second(case);
        upright_at(case, 0, "20");
        upright_at(case, 1, "27.5");
        let Placement::Measured { platform, .. } = &mut case.sites[1].placement else {
            panic!()
        };
        platform.z_mm = mm("-13");
    });
    assert_eq!(
        judged(&sheet, "neighbour-implant"),
        (Verdict::Short, "2.9".into())
    );
    // Tilted by 45° towards each other the necks stand nearer, along the axis: 8.0·cos 45° = 5.656.
    let tilted = worked(|case| {
        beside_a_second(case);
        upright_at(case, 0, "20");
        upright_at(case, 1, "28");
        let Placement::Measured { direction, .. } = &mut case.sites[1].placement else {
            panic!()
        };
        direction.x = mm("1");
    });
    assert_eq!(
        judged(&tilted, "neighbour-implant"),
        (Verdict::Short, "1.056".into())
    );
}

/// A root was measured down to the implant's end; a drill goes 0.9 deeper. So of two sites either.
#[test]
fn no_deeper_than_the_neighbour_was_measured() {
    let deeper = |case: &mut Case| {
        super::super::sample::each_drill(case, |d| {
            d.datum = traywright_core::kit::Datum::FullDiameter {};
        });
    };
    let root = |from_axis: &'static str, down_to: Option<&'static str>| {
        let sheet = worked(|case| {
            deeper(case);
            case.sites[0].distances[0].from_axis_mm = mm(from_axis);
            case.sites[0].distances[0].measured_at.down_to_mm = down_to.map(mm);
        });
        at(&sheet, "sites[one].distances[35]").unwrap().verdict
    };
    assert_eq!(root("4.5", Some("10.9")), Verdict::Clear);
    assert_eq!(root("4.5", None), Verdict::Unknown);
    assert_eq!(root("3.7", None), Verdict::Short);
    for reaches in [[true, true], [true, false], [false, true]] {
        let sheet = worked(|case| {
            beside_a_second(case);
            deeper(case);
            let mut distance = to_other(case, 0, "two", "9", Height::Least);
            let [here, there] = reaches.map(|reaches| reaches.then(|| mm("10.9")));
            distance.measured_at.down_to_mm = here;
            distance.other_measured_at.as_mut().unwrap().down_to_mm = there;
            case.sites[0].distances.push(distance);
        });
        let clear = reaches == [true, true];
        let wanted = if clear {
            Verdict::Clear
        } else {
            Verdict::Unknown
        };
        assert_eq!(
            one(&sheet, "neighbour-implant-body").verdict,
            wanted,
            "{reaches:?}"
        );
        // At the platform no depth matters.
        assert_eq!(one(&sheet, "neighbour-implant").verdict, Verdict::Clear);
    }
}

/// What lies between two sites is told at both, at each with the other one's name: 5.0 − 2.3 − 2.3
/// = 0.4 is short of 3.0 at either.
#[test]
fn a_finding_between_two_sites_belongs_to_both() {
    let sheet = worked(|case| {
        beside_a_second(case);
        upright_at(case, 0, "20");
        upright_at(case, 1, "25");
    });
    for (n, other) in ["two", "one"].into_iter().enumerate() {
        let site = &sheet.sites[n];
        assert_eq!(site.worst, Severity::Short, "{other}");
        let here: Vec<_> = sheet.findings_of(&site.id).collect();
        for rule in [
            Rule::NeighbourImplant,
            Rule::NeighbourImplantBody,
            Rule::Convergence,
        ] {
            let found = here.iter().find(|finding| finding.rule == rule).unwrap();
            assert_eq!(found.args["other"], Argument::Site(other.into()));
            assert_eq!(
                (&found.site, found.place.key().as_str()),
                (&Some(site.id.clone()), PAIR)
            );
        }
    }
}

/// Upright axes 7.0 apart leave 7.0 − 4.6 = 2.4, whatever distance was entered besides: 11.0 does not
/// hide it, 6.5 leaves less and counts. What differs by more than a millimetre is told, at both.
#[test]
fn an_entered_distance_does_not_hide_what_measured_axes_say() {
    let with = |entered: &str| {
        worked(|case| {
            beside_a_second(case);
            upright_at(case, 0, "20");
            upright_at(case, 1, "27");
            let distance = to_other(case, 0, "two", entered, Height::Least);
            case.sites[0].distances.push(distance);
        })
    };
    let short = |left: &str| (Verdict::Short, left.to_owned());
    for (entered, left, told) in [
        ("11", "2.4", true),
        ("8.001", "2.4", true),
        ("8", "2.4", false),
        ("6.5", "1.9", false),
        ("5.9", "1.3", true),
    ] {
        let sheet = with(entered);
        assert_eq!(
            judged(&sheet, "neighbour-implant"),
            short(left),
            "{entered}"
        );
        let found = all(&sheet, "distances-disagree");
        assert_eq!(found.len(), usize::from(told), "{entered}");
        for finding in found {
            assert_eq!(finding.verdict, Verdict::Unknown);
            for site in ["one", "two"] {
                assert!(finding.is_of(&site.into()), "{site}");
            }
        }
    }
}

/// The least and the most of the distances that disagree, where any do.
pub(super) fn disagree(sheet: &Worksheet) -> Option<String> {
    let found = all(sheet, "distances-disagree");
    found.first().map(|f| {
        let of = |key| match &f.args[key] {
            Argument::Length(length) => length.to_string(),
            other => panic!("{other:?}"),
        };
        format!("{} {}", of("least"), of("most"))
    })
}

/// Upright axes 9.0 apart are so at every height, whichever site it was entered at: more than a millimetre off is told.
#[test]
fn measured_axes_say_what_lies_between_them_at_each_height() {
    use Height::{Apex, Crest, Least, Mid};
    for at in [Crest, Mid, Apex, Least] {
        for from in [0, 1] {
            let with = |entered: &str| {
                disagree(&worked(|case| {
                    beside_a_second(case);
                    upright_at(case, 0, "20");
                    upright_at(case, 1, "29");
                    let distance = to_other(case, from, ["two", "one"][from], entered, at);
                    case.sites[from].distances.push(distance);
                }))
            };
            assert_eq!(with("15"), Some("9 15".into()), "{at:?} {from}");
            assert_eq!(with("10.001"), Some("9 10.001".into()), "{at:?} {from}");
            assert_eq!(with("10"), None, "{at:?} {from}");
            assert_eq!(with("8"), None, "{at:?} {from}");
            assert_eq!(with("7.999"), Some("7.999 9".into()), "{at:?} {from}");
        }
    }
}

/// One axis is upright at 20, 10.0 long, the other leans by atan 0.5 from 28 on. On the first one's apex 13.0 lie level, and
/// 13.0 · cos = 11.627 to the line: each of them, and what lies between, may have been measured. From the other's apex, which
/// is at 32.472, 12.472 lie level, and across the leaning axis 12.472 / cos = 13.944.
#[test]
fn beside_a_leaning_axis_no_way_of_measuring_is_told() {
    let with = |from: usize, entered: &str| {
        let sheet = worked(|case| {
            beside_a_second(case);
            upright_at(case, 0, "20");
            upright_at(case, 1, "28");
            let Placement::Measured { direction, .. } = &mut case.sites[1].placement else {
                panic!()
            };
            direction.x = mm("0.5");
            let distance = to_other(case, from, ["two", "one"][from], entered, Height::Apex);
            case.sites[from].distances.push(distance);
        });
        disagree(&sheet).is_some()
    };
    for (from, entered, told) in [
        (0, "10.626", true),
        (0, "10.63", false),
        (0, "14", false),
        (0, "14.001", true),
        (1, "11.471", true),
        (1, "11.48", false),
        (1, "14.94", false),
        (1, "14.95", true),
    ] {
        assert_eq!(with(from, entered), told, "{from} {entered}");
    }
}

/// What was entered at one site is held against what was entered at the other, at whatever heights, as if all of it had
/// been entered at one.
#[test]
fn what_was_entered_at_either_site_counts_together() {
    use Height::{Apex, Crest, Mid};
    let with = |entered: &[(usize, Height, &str)]| {
        disagree(&worked(|case| {
            beside_a_second(case);
            for (from, at, from_axis) in entered {
                let distance = to_other(case, *from, ["two", "one"][*from], from_axis, *at);
                case.sites[*from].distances.push(distance);
            }
        }))
    };
    for sites in [[0, 0, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [1, 1, 0]] {
        let [crest, mid, apex] = sites;
        let told =
            |a: &str, b: &str, c: &str| with(&[(crest, Crest, a), (mid, Mid, b), (apex, Apex, c)]);
        assert_eq!(told("11.3", "11", "7"), Some("7 11.3".into()), "{sites:?}");
        assert_eq!(told("8", "11", "10.6"), Some("8 11".into()), "{sites:?}");
        assert_eq!(told("11.3", "11", "10.3"), None, "{sites:?}");
    }
}

/// Leans a site by so many degrees, its apex to distal.
pub(super) fn lean(site: &mut traywright_core::case::Site, degrees: &str) {
    if let Placement::OnArch {
        apex_to_distal_deg, ..
    } = &mut site.placement
    {
        *apex_to_distal_deg = Angle::parse_deg(degrees).unwrap();
    }
}

/// Mid-length and apex are those of the implant at which they were measured: 10.0 long here, 14.0 there, which leans by 20°.
/// So mid-lengths are 2.0 from each other, and may be 2.0 · tan 20° = 0.728 farther apart than a millimetre; platforms
/// that are 2.0 deeper below the crest the same again. A distance d read across the leaning axis is d ∕ cos 20° of the level
/// one, and lies 7.0 · (1 − cos 20°) · tan 20° = 0.154 wider at its mid-length, 0.307 at its apex.
#[test]
fn heights_of_two_sites_are_each_of_its_own_implant() {
    use Height::{Apex, Mid};
    let told = |deeper: bool, here: (Height, &str), there: (Height, &str)| {
        let sheet = worked(|case| {
            beside_a_second(case);
            let mut long = case.kit.implants[0].clone();
            long.id = "longer".into();
            long.platform_to_apex_mm = mm("14");
            case.kit.implants.push(long);
            let two = &mut case.sites[1];
            two.implant = "longer".into();
            lean(two, "20");
            if deeper {
                let depth = two.heights.platform_below_crest.as_mut().unwrap();
                depth.highest_mm += mm("2");
                depth.lowest_mm += mm("2");
            }
            super::super::sample::measure_anew(case);
            let now = [("one", "10"), ("two", "14")].map(|(_, long)| mm(long));
            for (from, (at, from_axis)) in [(0, here), (1, there)] {
                let mut distance = to_other(case, from, ["two", "one"][from], from_axis, at);
                distance.measured_at = case.sites[from].measured_now(now[from]);
                let other = case.sites[1 - from].measured_now(now[1 - from]);
                distance.other_measured_at = Some(other);
                case.sites[from].distances.push(distance);
            }
        });
        disagree(&sheet).is_some()
    };
    assert!(!told(false, (Mid, "11.3"), (Mid, "14.08")));
    assert!(told(false, (Mid, "11.3"), (Mid, "14.09")));
    // 9.0 from each other: 9.0 · tan 20° = 3.275. 4.0 below the end of the other implant it may have been read to that end:
    // 17.48 is the long side over 17.016.
    assert!(!told(false, (Mid, "11.3"), (Apex, "17.47")));
    assert!(told(false, (Mid, "11.3"), (Apex, "17.48")));
    assert!(!told(true, (Mid, "11.3"), (Mid, "14.86")));
    assert!(told(true, (Mid, "11.3"), (Mid, "14.87")));
}

/// Read level or across the axis that leans by 28°, one crest and one apex are two honest figures: 10.0 and 10.0 ∕ cos 28° = 11.33.
#[test]
fn two_ways_to_read_one_distance_are_no_contradiction() {
    let told = |one: &str, other: &str, at: Height| {
        let sheet = worked(|case| {
            beside_a_second(case);
            lean(&mut case.sites[1], "28");
            super::super::sample::measure_anew(case);
            for (from, from_axis) in [(0, one), (1, other)] {
                let distance = to_other(case, from, ["two", "one"][from], from_axis, at);
                case.sites[from].distances.push(distance);
            }
        });
        disagree(&sheet).is_some()
    };
    assert!(!told("13", "14.7", Height::Crest));
    assert!(!told("18", "19.2", Height::Crest));
    assert!(!told("7.5", "10.1", Height::Apex));
    assert!(told("13", "16.5", Height::Crest));
    assert!(told("5", "11", Height::Crest));
}

/// The terms of a figure that are added or taken away, as they add up.
fn sum(figure: &Figure) -> Length {
    let signed = figure.terms.iter().map(|term| {
        let value = term.value.get().and_then(Quantity::length);
        match term.sign {
            Sign::Plus => value.unwrap(),
            Sign::Minus => Length::ZERO - value.unwrap(),
            Sign::With => Length::ZERO,
        }
    });
    signed.sum()
}

/// What a margin between two sites names adds up to it: by coordinates the distance between the axes, of several that were
/// entered the one that rules, after a move with what that takes or gives back.
#[test]
fn the_terms_of_a_margin_between_two_sites_add_up_to_it() {
    use Height::{Apex, Crest, Least, Mid};
    let check = |what: &str, sheet: &Worksheet, rules: &[&str]| {
        for rule in rules {
            let found = one(sheet, rule);
            let figure = found.figure.as_ref().unwrap();
            assert!(
                figure.terms.iter().any(|term| term.sign == Sign::Plus),
                "{what} {rule}"
            );
            assert_eq!(Some(sum(figure)), found.judged_length(), "{what} {rule}");
        }
    };
    let both = ["neighbour-implant", "neighbour-implant-body"];
    for x in ["24", "27.6", "40"] {
        let axes = worked(|case| {
            beside_a_second(case);
            upright_at(case, 0, "20");
            upright_at(case, 1, x);
        });
        check("axes", &axes, &both);
    }
    // Three entered, the second nearest; where the first was moved since by 0.1, short and not.
    for (moved, nearest) in [(false, "8.5"), (false, "5"), (true, "8.5"), (true, "5")] {
        let sheet = worked(|case| {
            beside_a_second(case);
            for (at, from_axis) in [(Crest, "9"), (Mid, nearest), (Apex, "9")] {
                let distance = to_other(case, 0, "two", from_axis, at);
                case.sites[0].distances.push(distance);
            }
            let distance = to_other(case, 1, "one", "9.2", Least);
            case.sites[1].distances.push(distance);
            if moved && let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement {
                *along_mm += mm("0.1");
            }
        });
        let what = format!("{moved} {nearest}");
        check(&what, &sheet, &both[1..]);
        let found = one(&sheet, "neighbour-implant-body");
        let figure = found.figure.as_ref().unwrap();
        let ruling: Vec<_> = figure
            .terms
            .iter()
            .filter(|term| term.name == TermName::AxisToNeighbour)
            .map(|term| (term.sign, term.value.get().and_then(Quantity::length)))
            .collect();
        assert_eq!(ruling, [(Sign::Plus, Some(mm(nearest)))], "{what}");
    }
}

/// 9.0 entered at one site and 5.0 at the other: 5.0 − 4.6 = 0.4 counts, and the two are told.
#[test]
fn two_entered_distances_that_differ_are_told_and_the_least_counts() {
    let with = |here: &str, there: &str, at| {
        worked(|case| {
            beside_a_second(case);
            let (one, two) = (
                to_other(case, 0, "two", here, at),
                to_other(case, 1, "one", there, Height::Least),
            );
            case.sites[0].distances.push(one);
            case.sites[1].distances.push(two);
        })
    };
    for (here, there) in [("9", "5"), ("5", "9")] {
        let sheet = with(here, there, Height::Least);
        let least = judged(&sheet, "neighbour-implant");
        assert_eq!(least, (Verdict::Short, "0.4".into()));
        let found = one(&sheet, "distances-disagree");
        assert_eq!(found.args["least"], Argument::Length(mm("5")));
        assert_eq!(found.args["most"], Argument::Length(mm("9")));
    }
    assert!(all(&with("9", "8", Height::Least), "distances-disagree").is_empty());
    // The least is less than at the apex; the other way round it is not the least.
    assert!(all(&with("9", "5", Height::Apex), "distances-disagree").is_empty());
    let not_least = with("5", "9", Height::Apex);
    let found = one(&not_least, "distances-disagree");
    assert_eq!(found.args["least"], Argument::Length(mm("5")));
    assert_eq!(found.args["most"], Argument::Length(mm("9")));
    assert!(all(&with("5", "6", Height::Apex), "distances-disagree").is_empty());
}

/// Upright implants, 10.0 long, are as far apart at the apex as at the crest; one tilted by 20° may be
/// 11 · tan 20° = 4.004 farther or nearer there than at the crest, 1.0 coronal of the platform, and 6 · tan 20° = 2.184 at mid-length; measuring
/// adds 1.0, and across the leaning axis 1 ∕ cos 20° and 0.219 at the apex, half that at mid-length. What is read may lie, off the same
/// level, its own tan 20° along the leaning axis, from the apex 10 ∕ cos 20° + 19.358 · tan 20° − 10 = 7.687 below its end: 19.358 is then the long side
/// over 17.766, and from mid-length 15.63 that over 15.597.
#[test]
fn heights_of_one_pair_differ_by_no_more_than_the_tilts_allow() {
    let told = |tilt: &str, crest: &str, mid: &str, apex: &str| {
        let sheet = worked(|case| {
            beside_a_second(case);
            lean(&mut case.sites[1], tilt);
            super::super::sample::measure_anew(case);
            for (at, from_axis) in [
                (Height::Crest, crest),
                (Height::Mid, mid),
                (Height::Apex, apex),
            ] {
                let distance = to_other(case, 0, "two", from_axis, at);
                case.sites[0].distances.push(distance);
            }
        });
        disagree(&sheet)
    };
    assert_eq!(told("0", "11.3", "25", "25"), Some("11.3 25".into()));
    assert_eq!(told("0", "11.3", "11.3", "12.3"), None);
    assert_eq!(told("0", "12.3", "12.3", "11.3"), None);
    assert_eq!(
        told("0", "11.3", "11.3", "12.301"),
        Some("11.3 12.301".into())
    );
    assert_eq!(told("20", "11.3", "15.63", "19.358"), None);
    assert_eq!(
        told("20", "11.3", "15.63", "19.359"),
        Some("11.3 19.359".into())
    );
    assert_eq!(
        told("-20", "11.3", "15.631", "15"),
        Some("11.3 15.631".into())
    );
    assert_eq!(told("-20", "11.3", "15.63", "15"), None);
}

/// A tooth of unknown kind between two sites may be buried, or a pontic, and part nothing: what would be short or unknown
/// between the two without it is unknown, for want of its kind.
#[test]
fn a_tooth_of_unknown_kind_between_two_sites_hides_nothing() {
    let told = |kind, apex: &'static str| {
        let sheet = worked(|case| {
            beside_a_second(case);
            let Placement::OnArch {
                apex_to_distal_deg, ..
            } = &mut case.sites[0].placement
            else {
                panic!("the sample stands on the arch");
            };
            *apex_to_distal_deg = super::super::sample::deg(apex);
            case.sites[1].tooth = tooth("34");
            if let Placement::OnArch { at, .. } = &mut case.sites[1].placement {
                *at = tooth("34");
            }
            case.teeth = ["33", "35", "37"].map(present).to_vec();
            case.teeth[1].kind = kind;
        });
        let found = ["convergence", "neighbour-implant", "neighbour-implant-body"];
        let found = found.map(|rule| all(&sheet, rule)).concat();
        let found = found.iter().filter(|found| found.severity().is_open());
        found
            .map(|found| {
                let mut reasons = found.value.reasons().iter();
                let kind = reasons.any(|reason| matches!(reason, Reason::KindNotEntered { tooth: of, .. } if *of == tooth("35")));
                (found.rule.key(), found.verdict, kind)
            })
            .collect::<Vec<_>>()
    };
    let natural = Some(NeighbourKind::Natural);
    assert_eq!(told(natural, "0"), []);
    assert_eq!(told(natural, "60"), []);
    let [between, along] =
        ["neighbour-implant", "neighbour-implant-body"].map(|rule| (rule, Verdict::Unknown, true));
    assert_eq!(told(None, "0"), [between, along]);
    let angle = ("convergence", Verdict::Unknown, true);
    assert_eq!(told(None, "60"), [angle, between, along]);
    for kind in [NeighbourKind::Remnant, NeighbourKind::Pontic] {
        let rules = |kind, apex| {
            told(kind, apex)
                .into_iter()
                .map(|one| one.0)
                .collect::<Vec<_>>()
        };
        for apex in ["0", "60"] {
            assert_eq!(
                rules(None, apex),
                rules(Some(kind), apex),
                "{kind:?} {apex}"
            );
        }
        assert!(told(Some(kind), "60").contains(&("convergence", Verdict::Short, false)));
    }
}
