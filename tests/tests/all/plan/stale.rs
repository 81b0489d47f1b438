//! A measured value belongs to the site as it was; after a change it is unknown until confirmed.

use super::sample::{case, deg, mm, shown, site, work};
use traywright_core::case::{
    Access, Case, CrestDepth, Direction, Distance, DistanceTo, Edit, GuidedExtent, Height,
    HeightDatum, MeasuredAt, Obstacle, Placement, StructureExtent, StructureKind, ValidCase, Wall,
    WallSide, apply,
};
use traywright_core::plan::{Finding, Reason, Verdict, Worksheet, stale_values, work_out};

/// A change of the site that was measured at.
type Change = fn(&mut Case);

const MOVED: Change = |case| {
    let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *along_mm = mm("2");
};
const TILTED: Change = |case| {
    let Placement::OnArch {
        apex_to_buccal_deg, ..
    } = &mut case.sites[0].placement
    else {
        panic!()
    };
    *apex_to_buccal_deg = deg("20");
};
const SUNK: Change = |case| {
    let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
    crest.highest_mm = mm("2.001");
};
const SUNK_UNKNOWN: Change = |case| case.sites[0].heights.platform_below_crest = None;
const LONGER: Change = |case| case.kit.implants[0].platform_to_apex_mm = mm("10.001");
/// Moves so small that what they can take is said.
const NUDGED: Change = |case| {
    let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *along_mm = mm("0.1");
};
const SUNK_A_LITTLE: Change = |case| {
    let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
    crest.highest_mm = mm("1.1");
};
const SHORTER: Change = |case| case.kit.implants[0].platform_to_apex_mm = mm("9.999");
/// Changes on which no measured value depends.
const OTHERWISE: Change = |case| {
    case.kit.implants[0].diameter_mm = mm("4.3");
    case.sites[0].steps.remove(1);
};
/// The sleeve is lower: only what is counted from its rim depends on it.
const LOWER: Change = |case| super::sample::distance(case, "6.2");

/// A measured value, and the changes after which it is stale.
struct Row {
    what: &'static str,
    measure: Change,
    /// The path of its finding.
    path: &'static str,
    /// Moved and tilted are always among them.
    stale_after: &'static [Change],
    holds_after: &'static [Change],
}

fn wall(case: &mut Case, at: Height) {
    let measured_at = MeasuredAt {
        down_to_mm: Some(mm("20")),
        ..case.sites[0].measured_now(mm("10"))
    };
    case.sites[0].walls = vec![Wall {
        side: WallSide::Buccal,
        at,
        from_axis_mm: mm("5"),
        measured_at,
    }];
}

fn structure(case: &mut Case, extent: StructureExtent) {
    case.sites[0].structures[0].extent = extent;
}

fn canal(from: HeightDatum) -> StructureExtent {
    StructureExtent::Below {
        height_mm: mm("15"),
        from,
        direction: Direction::Vertical,
    }
}

fn root(case: &mut Case, at: Height) {
    case.sites[0].distances[0].at = at;
}

const ROWS: &[Row] = &[
    Row {
        what: "wall at the crest",
        measure: |case| wall(case, Height::Crest),
        path: "sites[one].walls[buccal crest]",
        stale_after: &[],
        holds_after: &[SUNK, SUNK_UNKNOWN, LONGER, SHORTER, LOWER],
    },
    Row {
        what: "wall at mid-length",
        measure: |case| wall(case, Height::Mid),
        path: "sites[one].walls[buccal mid]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER, SHORTER],
        holds_after: &[LOWER],
    },
    Row {
        what: "wall at the apex",
        measure: |case| wall(case, Height::Apex),
        path: "sites[one].walls[buccal apex]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER, SHORTER],
        holds_after: &[LOWER],
    },
    Row {
        what: "wall, the least over the length",
        measure: |case| wall(case, Height::Least),
        path: "sites[one].walls[buccal least]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER],
        holds_after: &[SHORTER, LOWER],
    },
    Row {
        what: "canal below the crest",
        measure: |case| structure(case, canal(HeightDatum::Crest)),
        path: "sites[one].structures[mandibular_canal]",
        stale_after: &[],
        holds_after: &[SUNK, LONGER, SHORTER, LOWER],
    },
    Row {
        what: "canal below the platform",
        measure: |case| structure(case, canal(HeightDatum::Platform)),
        path: "sites[one].structures[mandibular_canal]",
        stale_after: &[SUNK, SUNK_UNKNOWN],
        holds_after: &[LONGER, SHORTER, LOWER],
    },
    Row {
        what: "foramen beside the implant",
        measure: |case| {
            case.sites[0].structures[0].kind = StructureKind::MentalForamen;
            structure(
                case,
                StructureExtent::Beside {
                    from_axis_mm: mm("9"),
                    anterior_loop_mm: Some(mm("2")),
                },
            );
        },
        path: "sites[one].structures[mental_foramen]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER],
        holds_after: &[SHORTER, LOWER],
    },
    Row {
        what: "crown beside the seat",
        measure: |case| {
            let measured_at = case.sites[0].measured_now(mm("10"));
            case.sites[0].obstacles = vec![Obstacle {
                name: "crown".into(),
                tooth: None,
                rim_above_platform_mm: Some(mm("10")),
                above_rim_mm: mm("2"),
                from_axis_mm: mm("6"),
                measured_at,
            }];
        },
        path: "sites[one].obstacles[0]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LOWER],
        holds_after: &[LONGER, SHORTER],
    },
    Row {
        what: "root at the crest",
        measure: |case| root(case, Height::Crest),
        path: "sites[one].distances[35]",
        stale_after: &[],
        holds_after: &[SUNK, SUNK_UNKNOWN, LONGER, SHORTER, LOWER],
    },
    Row {
        what: "root at the apex",
        measure: |case| root(case, Height::Apex),
        path: "sites[one].distances[35]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER, SHORTER],
        holds_after: &[LOWER],
    },
    Row {
        what: "root, the least over the length",
        measure: |case| root(case, Height::Least),
        path: "sites[one].distances[35]",
        stale_after: &[SUNK, SUNK_UNKNOWN, LONGER],
        holds_after: &[SHORTER, LOWER],
    },
];

fn found<'a>(sheet: &'a Worksheet, path: &str) -> &'a Finding {
    let mut there = sheet.findings.iter().filter(|f| f.place.key() == path);
    there
        .next()
        .unwrap_or_else(|| panic!("no finding at {path}"))
}

fn is_stale(finding: &Finding) -> bool {
    let reasons = finding.value.reasons();
    reasons.iter().any(|r| matches!(r, Reason::Stale(..)))
}

#[test]
fn a_measured_value_is_stale_after_what_it_depends_on_changed() {
    for row in ROWS {
        let mut before = case();
        (row.measure)(&mut before);
        let fresh = work(before.clone());
        let now = found(&fresh, row.path);
        assert!(!is_stale(now), "{}: {now:?}", row.what);

        let stale = [MOVED, TILTED];
        for (n, change) in stale.iter().chain(row.stale_after).enumerate() {
            let mut after = before.clone();
            change(&mut after);
            let sheet = work(after);
            let finding = found(&sheet, row.path);
            assert!(is_stale(finding), "{} {n}: {finding:?}", row.what);
            assert_eq!(finding.verdict, Verdict::Unknown, "{} {n}", row.what);
            assert_eq!(finding.length_value(), None);
        }
        let holds = [OTHERWISE];
        for (n, change) in holds.iter().chain(row.holds_after).enumerate() {
            let mut after = before.clone();
            change(&mut after);
            let sheet = work(after);
            assert!(!is_stale(found(&sheet, row.path)), "{} {n}", row.what);
        }
    }
}

/// A move of 0.1 mm takes no more than 0.1·√2 of anything, 0.142 mm, and less than the limits leave
/// here; where a limit is nearer than that nobody knows, and it is never said to be broken.
#[test]
fn after_a_small_move_it_counts_by_what_is_left_at_least() {
    let mut seen = 0;
    for row in ROWS {
        let mut before = case();
        (row.measure)(&mut before);
        let fresh = work(before.clone());
        // One height alone never says what is left.
        let Some(margin) = found(&fresh, row.path).length_value() else {
            continue;
        };
        seen += 1;
        let sinks = row.stale_after.contains(&SUNK);
        for change in [NUDGED].into_iter().chain(sinks.then_some(SUNK_A_LITTLE)) {
            let mut after = before.clone();
            change(&mut after);
            let sheet = work(after.clone());
            let finding = found(&sheet, row.path);
            assert_eq!(finding.verdict, Verdict::Clear, "{}: {finding:?}", row.what);
            assert!(finding.is_at_least(), "{}", row.what);
            let taken = margin - finding.length_value().unwrap();
            assert!(
                (mm("0.1")..=mm("0.143")).contains(&taken),
                "{}: {taken}",
                row.what
            );

            let limits = serde_json::to_value(&after.limits).unwrap();
            for one in limits.as_object().unwrap().keys() {
                let mut json = serde_json::to_value(&after).unwrap();
                let at = json["limits"][one].get_mut("limit_mm");
                if let Some(at) = at {
                    *at = (margin - mm("0.05")).mm().into();
                }
                let after: Case = serde_json::from_value(json).unwrap();
                let sheet = work(after);
                let near = found(&sheet, row.path);
                let changed = near.limit != finding.limit;
                assert_eq!(is_stale(near), changed, "{} {one}: {near:?}", row.what);
                assert_ne!(near.verdict, Verdict::Short, "{} {one}", row.what);
            }
        }
    }
    assert!(seen > 5, "{seen}");
}

/// What was measured at three heights: a tilt by two slopes of 1° takes 2·ℓ·sin(φ/2) at each, worked
/// out here with the platform 1 mm below the crest, the implant 10 long and the widest drill 4.3 wide.
#[test]
fn a_tilt_takes_more_the_farther_from_the_platform() {
    let mut case = case();
    let measured_at = case.sites[0].measured_now(mm("10"));
    let deepest = MeasuredAt {
        down_to_mm: Some(mm("20")),
        ..measured_at
    };
    let wall = |at| Wall {
        side: WallSide::Buccal,
        at,
        from_axis_mm: mm("5"),
        measured_at: deepest.clone(),
    };
    case.sites[0].walls = [Height::Crest, Height::Mid, Height::Apex]
        .map(wall)
        .to_vec();
    let left = |case: &Case| {
        let sheet = work(case.clone());
        ["crest", "mid", "apex"].map(|at| {
            let finding = found(&sheet, &format!("sites[one].walls[buccal {at}]")).clone();
            (finding.length_value().unwrap(), finding.is_at_least())
        })
    };
    let before = left(&case);
    let radius = before.map(|(left, _)| mm("5") - left);
    if let Placement::OnArch {
        apex_to_buccal_deg,
        apex_to_distal_deg,
        ..
    } = &mut case.sites[0].placement
    {
        *apex_to_buccal_deg = deg("1");
        *apex_to_distal_deg = deg("1");
    }
    let slope = 1.0_f64.to_radians().tan();
    let turn = (slope * 2.0_f64.sqrt()).atan();
    let widest = *radius.iter().max().unwrap();
    // At the apex it counts down to where it was measured.
    for ((before, after), along) in before
        .into_iter()
        .zip(left(&case))
        .zip([1.0, 5.0, 20.0_f64])
    {
        let want = 2.0 * along.hypot(widest.mm()) * (turn / 2.0).sin();
        let taken = (before.0 - after.0).mm();
        assert!(
            taken >= want && taken < want + 0.002,
            "{along}: {taken} for {want}"
        );
        assert_eq!((before.1, after.1), (false, true));
    }
}

/// The platform is let down by so much, all around.
fn sink(case: &mut Case, by: &str) {
    let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
    crest.highest_mm += mm(by);
    crest.lowest_mm += mm(by);
}

fn tilt(case: &mut Case, buccal: &str) {
    let Placement::OnArch {
        apex_to_buccal_deg, ..
    } = &mut case.sites[0].placement
    else {
        panic!()
    };
    *apex_to_buccal_deg = deg(buccal);
}

/// Measured down to the tip of the deepest drill, the end of the cut is beyond that as soon as the
/// platform is deeper, or the crest may have fallen beside.
#[test]
fn what_was_measured_down_to_the_tip_says_nothing_of_a_tip_that_is_deeper_now() {
    for what in [
        "root, the least over the length",
        "foramen beside the implant",
    ] {
        let row = ROWS.iter().find(|row| row.what == what).unwrap();
        let verdict = |slack: &str, change: &dyn Fn(&mut Case)| {
            let mut case = case();
            (row.measure)(&mut case);
            let sheet = work(case.clone());
            let tips = sheet.sites[0]
                .steps
                .iter()
                .map(|step| step.cut.length().unwrap());
            let down_to = tips.max().unwrap() + mm(slack);
            let at = &mut case.sites[0];
            let distances = at.distances.iter_mut().map(|d| &mut d.measured_at);
            for then in distances.chain(at.structures.iter_mut().map(|s| &mut s.measured_at)) {
                then.down_to_mm = Some(down_to);
            }
            change(&mut case);
            found(&work(case), row.path).verdict
        };
        assert_eq!(verdict("0", &|_| {}), Verdict::Clear, "{what}");
        assert_eq!(
            verdict("0", &|c| sink(c, "0.3")),
            Verdict::Unknown,
            "{what}"
        );
        assert_eq!(
            verdict("0.299", &|c| sink(c, "0.3")),
            Verdict::Unknown,
            "{what}"
        );
        assert_eq!(
            verdict("0.3", &|c| sink(c, "0.3")),
            Verdict::Clear,
            "{what}"
        );
        assert_eq!(verdict("0", &|c| sink(c, "-0.3")), Verdict::Clear, "{what}");
        assert_eq!(verdict("0.09", &NUDGED), Verdict::Unknown, "{what}");
        assert_eq!(verdict("0.15", &NUDGED), Verdict::Clear, "{what}");
    }
}

/// The axis passes the crest elsewhere once it is tilted and deeper, by the rules of the right angle:
/// 5 mm below it, 5° are 0.437 mm there; on an axis of 10°, half a millimetre deeper is 0.088 mm.
#[test]
fn a_tilted_axis_passes_the_crest_elsewhere_once_its_platform_is_deeper() {
    let taken = |then: &str, now: &str, deeper: &str| {
        let mut case = case();
        tilt(&mut case, then);
        super::sample::measure_anew(&mut case);
        let measured_at = case.sites[0].measured_now(mm("10"));
        let wall = |at| Wall {
            side: WallSide::Buccal,
            at,
            from_axis_mm: mm("6"),
            measured_at: MeasuredAt {
                down_to_mm: Some(mm("20")),
                ..measured_at.clone()
            },
        };
        case.sites[0].walls = [Height::Crest, Height::Mid, Height::Apex]
            .map(wall)
            .to_vec();
        let left = |case: &Case| {
            let sheet = work(case.clone());
            let finding = found(&sheet, "sites[one].walls[buccal crest]").clone();
            finding.length_value().unwrap()
        };
        let before = left(&case);
        tilt(&mut case, now);
        sink(&mut case, deeper);
        (before - left(&case)).mm()
    };
    assert!(taken("0", "5", "4") >= 5.0 * 5.0_f64.to_radians().tan());
    assert!(taken("10", "10", "0.5") >= 0.5 * 10.0_f64.to_radians().tan());
    assert_eq!(taken("0", "0", "0.5").to_bits(), 0.0_f64.to_bits());
}

/// A canal measured from the crest, with the crest entered anew and nothing else: at an upright place on
/// the arch the platform is deeper and the canal where it was. On a tilted axis the crest is met elsewhere,
/// as much as Δ·tan(tilt) higher or lower on a ridge of 45°, by the rules of the right angle. At measured
/// coordinates the platform is where it was, so the canal is nearer or farther by the whole change.
#[test]
fn a_canal_measured_from_the_crest_counts_from_where_the_axis_meets_it() {
    let measured = Placement::Measured {
        platform: traywright_core::case::PointMm {
            x_mm: mm("0"),
            y_mm: mm("0"),
            z_mm: mm("0"),
        },
        direction: traywright_core::case::Vector {
            x: mm("0"),
            y: mm("0"),
            z: mm("-1"),
        },
    };
    let upright = case().sites[0].placement;
    let tilted = {
        let mut case = case();
        tilt(&mut case, "10");
        case.sites[0].placement
    };
    let shown = |placement: Placement, direction: Direction, deeper: &str| {
        let mut case = case();
        case.sites[0].placement = placement;
        super::sample::measure_anew(&mut case);
        structure(
            &mut case,
            StructureExtent::Below {
                height_mm: mm("18"),
                from: HeightDatum::Crest,
                direction,
            },
        );
        sink(&mut case, deeper);
        let sheet = work(case);
        let finding = found(&sheet, "sites[one].structures[mandibular_canal]").clone();
        (finding.verdict, finding.length_value())
    };
    for direction in [Direction::Vertical, Direction::AlongAxis] {
        let left = |placement, deeper| shown(placement, direction, deeper).1.unwrap().mm();
        for deeper in ["0.5", "-0.5"] {
            let by: f64 = deeper.parse().unwrap();
            let then = left(upright, "0");
            assert!((then - left(upright, deeper) - by).abs() < 0.0015);
            let most = 0.5 * 10.0_f64.to_radians().tan();
            let level = left(tilted, "0") - by * 10.0_f64.to_radians().cos();
            assert!(left(tilted, deeper) <= level - most + 0.002, "{deeper}");
            // Where the platform and the canal are, nothing changed.
            let kept = left(measured, "0");
            assert!(left(measured, deeper) <= kept + 0.001, "{deeper}");
        }
        for placement in [tilted, measured] {
            assert_eq!(shown(placement, direction, "-5.7").0, Verdict::Unknown);
        }
        assert_eq!(shown(measured, direction, "-1.001").0, Verdict::Unknown);
    }
}

/// Turned about its platform, the axis meets the crest h·2·sin(φ/2) elsewhere, and on a ridge of 45° as
/// much lower; from there the platform is h along the new axis. What a canal measured from the crest
/// keeps is what this leaves of the tip.
#[test]
fn a_turn_carries_the_crest_that_a_canal_was_measured_from() {
    let mut case = case();
    let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
    (crest.highest_mm, crest.lowest_mm) = (mm("3"), mm("3"));
    super::sample::measure_anew(&mut case);
    structure(
        &mut case,
        StructureExtent::Below {
            height_mm: mm("20"),
            from: HeightDatum::Crest,
            direction: Direction::Vertical,
        },
    );
    let left = |case: &Case| {
        let sheet = work(case.clone());
        let finding = found(&sheet, "sites[one].structures[mandibular_canal]").clone();
        finding.length_value().unwrap()
    };
    let before = left(&case);
    tilt(&mut case, "2");
    let swung = 3.0 * 2.0 * 1.0_f64.to_radians().sin();
    let tip = 10.0 * 2.0 * 1.0_f64.to_radians().sin();
    assert!((before - left(&case)).mm() >= tip + 2.0 * swung);
}

/// Radius of the curve at the midline is W²/(6.4·D), from y = D·(1 − (2x/W)²)^0.8 of Braun et al.:
/// 7.91 mm for 45 and 40.
#[test]
fn on_a_sharper_arch_a_move_takes_more_outside_it() {
    let mut case = case();
    let arch = case.arch.as_mut().unwrap();
    (arch.width_mm, arch.depth_mm) = (mm("45"), mm("40"));
    let Placement::OnArch { buccal_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *buccal_mm = mm("3");
    super::sample::measure_anew(&mut case);
    wall(&mut case, Height::Least);
    let left = |case: &Case| {
        let sheet = work(case.clone());
        found(&sheet, "sites[one].walls[buccal least]").length_value()
    };
    let before = left(&case).unwrap();
    let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *along_mm = mm("0.2");
    let taken = (before - left(&case).unwrap()).mm();
    let radius = 45.0 * 45.0 / (6.4 * 40.0);
    assert!(
        taken >= 2.0_f64.sqrt() * 0.2 * (1.0 + 3.0 / radius),
        "{taken}"
    );
}

/// A limit that is broken by more than a small move could have given back is broken.
#[test]
fn what_a_small_move_certainly_keeps_short_stays_short() {
    for what in [
        "canal below the platform",
        "root, the least over the length",
    ] {
        let row = ROWS.iter().find(|row| row.what == what).unwrap();
        let mut case = case();
        (row.measure)(&mut case);
        match &mut case.sites[0].structures[0].extent {
            StructureExtent::Below { height_mm, .. } => *height_mm = mm("8"),
            StructureExtent::Beside { .. } => panic!(),
        }
        case.sites[0].distances[0].from_axis_mm = mm("1");
        let short = work(case.clone());
        let left = found(&short, row.path).length_value().unwrap();
        NUDGED(&mut case);
        let sheet = work(case);
        let finding = found(&sheet, row.path);
        assert_eq!(finding.verdict, Verdict::Short, "{what}");
        let most = finding.judged_length().unwrap();
        assert!(most > left && most < mm("0"), "{what}: {most} of {left}");
    }
}

/// Two distances between the same sites, told from either, that no measuring could differ by: neither
/// becomes true by a nudge of one site.
#[test]
fn distances_that_disagree_still_do_after_a_small_move() {
    let told = |theirs: &str, nudged: bool| {
        let mut case = case();
        case.sites[0].distances.clear();
        case.sites.push(site("two", "35", &[]));
        let distance = |from: usize, to: usize, apart: &str| Distance {
            to: DistanceTo::Site {
                site: case.sites[to].id.clone(),
            },
            at: Height::Least,
            from_axis_mm: mm(apart),
            measured_at: case.sites[from].measured_now(mm("10")),
            other_measured_at: Some(case.sites[to].measured_now(mm("10"))),
        };
        let both = [distance(0, 1, "9"), distance(1, 0, theirs)];
        for (site, distance) in case.sites.iter_mut().zip(both) {
            site.distances.push(distance);
        }
        if nudged {
            NUDGED(&mut case);
        }
        super::sample::all(&work(case), "distances-disagree").len()
    };
    for (theirs, now, nudged) in [("9", 0, 0), ("7.9", 1, 0), ("7.7", 1, 1), ("6.8", 1, 1)] {
        assert_eq!(told(theirs, false), now, "{theirs}");
        assert_eq!(told(theirs, true), nudged, "{theirs}");
    }
}

/// The change that is named is the one that was made.
#[test]
fn the_reason_names_what_was_changed() {
    use traywright_core::plan::Change as C;
    let named = |row: &Row, change: Change| {
        let mut case = case();
        (row.measure)(&mut case);
        change(&mut case);
        let sheet = work(case);
        let [Reason::Stale(_, since)] = found(&sheet, row.path).value.reasons() else {
            panic!("{}", row.what)
        };
        assert_eq!(since.site.as_str(), "one");
        since.change
    };
    let row = |what: &str| ROWS.iter().find(|row| row.what == what).unwrap();
    let (apex, crown) = (row("wall at the apex"), row("crown beside the seat"));
    for (row, change, want) in [
        (apex, MOVED, C::Moved),
        (apex, TILTED, C::Moved),
        (apex, SUNK, C::Depth),
        (apex, SHORTER, C::Implant),
        (crown, LOWER, C::Sleeve),
    ] {
        assert_eq!(named(row, change), want, "{}", row.what);
    }
}

/// A depth that is not entered was set to no other.
#[test]
fn a_depth_that_is_gone_is_no_other_depth() {
    let mut case = case();
    let row = ROWS
        .iter()
        .find(|row| row.what == "wall at the apex")
        .unwrap();
    (row.measure)(&mut case);
    case.sites[0].heights.platform_below_crest = None;
    let sheet = work(case);
    let [Reason::Stale(_, since)] = found(&sheet, row.path).value.reasons() else {
        panic!("{:?}", found(&sheet, row.path))
    };
    assert_eq!(since.change, traywright_core::plan::Change::DepthMissing);
}

/// Staleness is derived, so an undone change leaves nothing behind; and measuring anew confirms.
#[test]
fn undone_or_measured_anew_it_holds_again() {
    let before = case();
    let fresh = work(before.clone());
    let mut moved = before.clone();
    MOVED(&mut moved);
    assert!(work(moved.clone()).findings.iter().any(is_stale));
    moved.sites[0].placement = before.sites[0].placement;
    assert_eq!(work(moved.clone()), fresh);

    MOVED(&mut moved);
    super::sample::measure_anew(&mut moved);
    let anew = work(moved);
    assert!(!anew.findings.iter().any(is_stale));
    assert_eq!(anew.sites[0].worst, fresh.sites[0].worst);
}

/// The crest moved only on its lower side: the platform is not where it was.
#[test]
fn the_lowest_crest_counts_too() {
    let mut case = case();
    wall(&mut case, Height::Least);
    case.sites[0].heights.platform_below_crest = Some(CrestDepth {
        highest_mm: mm("1.0"),
        lowest_mm: mm("-1.5"),
    });
    assert!(is_stale(found(
        &work(case),
        "sites[one].walls[buccal least]"
    )));
}

/// A distance between two sites goes stale with either of them.
#[test]
fn either_of_two_sites_makes_their_distance_stale() {
    let mut before = case();
    before.sites[0].distances.clear();
    before.sites.push(site("two", "35", &[]));
    let now = |n: usize| before.sites[n].measured_now(mm("10"));
    let distance = Distance {
        to: DistanceTo::Site { site: "two".into() },
        at: Height::Least,
        from_axis_mm: mm("9"),
        measured_at: now(0),
        other_measured_at: Some(now(1)),
    };
    before.sites[0].distances.push(distance);
    let path = "sites[one].distances[two]";
    assert_eq!(found(&work(before.clone()), path).verdict, Verdict::Clear);
    for n in [0, 1] {
        let mut after = before.clone();
        let Placement::OnArch { buccal_mm, .. } = &mut after.sites[n].placement else {
            panic!()
        };
        *buccal_mm = mm("1.5");
        let sheet = work(after);
        let [Reason::Stale(_, since)] = found(&sheet, path).value.reasons() else {
            panic!("site {n}")
        };
        assert_eq!(since.site, before.sites[n].id);
    }
}

/// Crest, tissue and occlusal heights belong to the place where they were measured: once the site is
/// moved or tilted whatever rests on them is unknown, and so it is where nobody said where that was.
#[test]
fn heights_are_stale_after_the_site_moved() {
    let forgotten: Change = |case| case.sites[0].heights.measured_at = None;
    for (access, rules) in [
        (Access::Punch, ["tissue-room", "crowns-beside-seat"]),
        (Access::Flap, ["tissue-room", "crowns-beside-seat"]),
    ] {
        let mut before = case();
        before.guide.access = access;
        before.sites[0].guided_extent = GuidedExtent::PilotOnly;
        structure(&mut before, canal(HeightDatum::Crest));
        let fresh = work(before.clone());
        assert_eq!(shown(&fresh.sites[0].steps[1].set), "10.6");
        for (n, change) in [MOVED, TILTED, forgotten].into_iter().enumerate() {
            let mut after = before.clone();
            change(&mut after);
            // What was measured around the site is confirmed, its heights are not.
            let then = after.sites[0].heights.measured_at;
            super::sample::measure_anew(&mut after);
            after.sites[0].heights.measured_at = then;
            let sheet = work(after.clone());
            for rule in rules.into_iter().chain(["deep-structure"]) {
                let finding = super::sample::one(&sheet, rule);
                assert_eq!(finding.verdict, Verdict::Unknown, "{rule} {n}");
                assert!(!finding.value.reasons().is_empty(), "{rule} {n}");
                if n < 2 {
                    assert!(is_stale(finding), "{rule} {n} {finding:?}");
                }
            }
            // Freehand the crest is the seat: no figure.
            assert_eq!(shown(&sheet.sites[0].steps[1].set), "unknown");
            let sounding = sheet.sites[0].sounding.as_ref().unwrap();
            assert_eq!(shown(sounding), "unknown");
            assert!(!sheet.sites[0].mix_ups_not_tried.is_none());
            // Confirmed they count again.
            super::sample::measure_anew(&mut after);
            assert_eq!(shown(&work(after).sites[0].steps[1].set), "10.6");
        }
    }
}

/// An edit that moves a site leaves its heights as they were entered, and undone they hold again.
#[test]
fn an_edit_that_moves_the_site_leaves_its_heights() {
    let before = super::sample::valid(case());
    let mut moved = case();
    MOVED(&mut moved);
    let edit = |site: &traywright_core::case::Site| Edit::ChangeSite(Box::new(site.clone()));
    let after = apply(&before, &[edit(&moved.sites[0])]).unwrap();
    assert_eq!(after.sites[0].heights, before.sites[0].heights);
    let room = |case: &ValidCase| super::sample::one(&work_out(case), "tissue-room").verdict;
    assert_eq!(room(&before), Verdict::Clear);
    assert_eq!(room(&after), Verdict::Unknown);
    let undone = apply(&after, &[edit(&before.sites[0])]).unwrap();
    assert_eq!(work_out(&undone), work_out(&before));
    let mut confirmed = after.sites[0].clone();
    confirmed.heights.measured_at = Some(confirmed.placement);
    let confirmed = apply(&after, &[edit(&confirmed)]).unwrap();
    assert_eq!(room(&confirmed), Verdict::Clear);
}

/// What was measured before there was a sleeve asks to be measured anew or confirmed as soon as
/// there is one.
#[test]
fn an_obstacle_measured_before_the_sleeve_is_asked_for_once_there_is_one() {
    let is_asked_for = |rim: Option<&str>, with_sleeve: bool| {
        let mut case = case();
        let measured_at = case.sites[0].measured_now(mm("10"));
        case.sites[0].obstacles = vec![Obstacle {
            name: "crown".into(),
            tooth: None,
            rim_above_platform_mm: rim.map(mm),
            above_rim_mm: mm("2"),
            from_axis_mm: mm("6"),
            measured_at,
        }];
        if !with_sleeve {
            case.sites[0].platform_to_sleeve = None;
        }
        let case = ValidCase::try_from(case).unwrap();
        stale_values(&case, &case.sites[0]).obstacles
    };
    assert_eq!(is_asked_for(Some("10"), true), [false]);
    assert_eq!(is_asked_for(None, true), [true]);
    assert_eq!(is_asked_for(None, false), [false]);
}

/// A depth below the crest that is entered for the first time moves no platform: what was measured before it was
/// entered is of that depth, and is told once it changes.
#[test]
fn a_depth_entered_later_than_a_value_moves_nothing_and_the_next_one_does() {
    for row in ROWS {
        let mut case = case();
        (row.measure)(&mut case);
        let entered = case.sites[0].heights.platform_below_crest.take();
        super::sample::measure_anew(&mut case);
        let case = super::sample::valid(case);
        let with = |case: &ValidCase, depth| {
            let mut site = case.sites[0].clone();
            site.heights.platform_below_crest = depth;
            apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
        };
        let is_stale = |case: &ValidCase| {
            let stale = stale_values(case, &case.sites[0]);
            let lists = [
                stale.walls,
                stale.distances,
                stale.structures,
                stale.obstacles,
            ];
            lists.concat().contains(&true)
        };
        let first = with(&case, entered);
        assert!(!is_stale(&first), "{}", row.what);
        let deeper = entered.map(|depth| CrestDepth {
            highest_mm: depth.highest_mm + mm("2"),
            lowest_mm: depth.lowest_mm + mm("2"),
        });
        let at_once = with(
            &super::sample::valid(case_measured_at(row, entered)),
            deeper,
        );
        assert_eq!(
            is_stale(&with(&first, deeper)),
            is_stale(&at_once),
            "{}",
            row.what
        );
    }
}

/// The case of a row, measured where the depth was known already.
fn case_measured_at(row: &Row, depth: Option<CrestDepth>) -> Case {
    let mut case = case();
    (row.measure)(&mut case);
    case.sites[0].heights.platform_below_crest = depth;
    super::sample::measure_anew(&mut case);
    case
}
