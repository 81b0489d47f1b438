//! A measured value belongs to the site as it was; after a change it is unknown until confirmed.

use super::sample::{case, deg, mm, shown, site, work};
use traywright_core::case::{
    Access, Case, CrestDepth, Direction, Distance, DistanceTo, Edit, GuidedExtent, Height,
    HeightDatum, Obstacle, Placement, StructureExtent, StructureKind, ValidCase, Wall, WallSide,
    apply,
};
use traywright_core::measure::Length;
use traywright_core::plan::{Finding, Reason, Verdict, Worksheet, stale_values, work_out};

/// A change of the site that was measured at.
type Change = fn(&mut Case);

const MOVED: Change = |case| {
    let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *along_mm = Length::from_um(1);
};
const TILTED: Change = |case| {
    let Placement::OnArch {
        apex_to_buccal_deg, ..
    } = &mut case.sites[0].placement
    else {
        panic!()
    };
    *apex_to_buccal_deg = deg("0.001");
};
const SUNK: Change = |case| {
    let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
    crest.highest_mm = mm("1.001");
};
const SUNK_UNKNOWN: Change = |case| case.sites[0].heights.platform_below_crest = None;
const LONGER: Change = |case| case.kit.implants[0].platform_to_apex_mm = mm("10.001");
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
    let measured_at = case.sites[0].measured_now(mm("10"));
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
    !reasons.is_empty() && reasons.iter().all(|r| matches!(r, Reason::Stale(_)))
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
        lowest_mm: mm("0.5"),
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
        *buccal_mm = mm("0.001");
        assert!(is_stale(found(&work(after), path)), "site {n}");
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
            assert!(!sheet.sites[0].mix_ups_not_tried.is_empty());
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
