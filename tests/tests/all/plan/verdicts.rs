//! The verdicts: what a limit or its absence makes of a value.

use super::sample::{all, case, deg, mm, one, received, site, tooth, work, worked};
use traywright_core::case::{
    Access, Case, Direction, HeightDatum, LimitId, Limits, Placement, PointMm, ReceiptOf,
    Structure, StructureExtent, StructureKind, Vector,
};
use traywright_core::dentition::Jaw;
use traywright_core::measure::Length;
use traywright_core::plan::{
    Finding, Loosened, NOT_ASSESSED, Quantity, Reason, Severity, Verdict, margin_verdict,
};

#[test]
fn equal_to_the_limit_is_not_short() {
    let um = Length::from_um;
    for (margin, verdict) in [
        (1999, Verdict::Short),
        (2000, Verdict::Clear),
        (2001, Verdict::Clear),
    ] {
        assert_eq!(margin_verdict(um(margin), um(2000), None), verdict);
    }
    // Tight: as probable as allowed is not tight, more is; short stays short.
    for (margin, probability, verdict) in [
        (2000, 50_000, Verdict::Clear),
        (2000, 50_001, Verdict::Tight),
        (1999, 0, Verdict::Short),
    ] {
        let below = Some((probability, 50_000));
        assert_eq!(margin_verdict(um(margin), um(2000), below), verdict);
    }
}

#[test]
fn accuracy_is_said_to_be_not_assessed() {
    assert!(NOT_ASSESSED.contains(&"accuracy"));
    assert!(NOT_ASSESSED.contains(&"slope"));
    assert!(
        worked(|_| {})
            .findings
            .iter()
            .all(|f| f.verdict != Verdict::Tight)
    );
}

/// Without its limit every clearance is unknown and names the limit; none reads clear by default.
#[test]
fn a_missing_limit_is_unknown() {
    type Change = fn(&mut Limits);
    let sheet = |change: Change| worked(|case| change(&mut case.limits));
    let cases: [(Change, &str, &str); 5] = [
        (|l| l.buccal_wall = None, "wall", "limits.buccal_wall"),
        (|l| l.oral_wall = None, "wall", "limits.oral_wall"),
        (
            |l| l.mandibular_canal = None,
            "deep-structure",
            "limits.mandibular_canal",
        ),
        (
            |l| l.neighbour_root = None,
            "neighbour-root",
            "limits.neighbour_root",
        ),
        (
            |l| l.tissue_room = None,
            "tissue-room",
            "limits.tissue_room",
        ),
    ];
    for (change, rule, path) in cases {
        let sheet = sheet(change);
        let found = all(&sheet, rule);
        let unknown: Vec<_> = found
            .iter()
            .filter(|f| f.verdict == Verdict::Unknown)
            .collect();
        let wanted = if rule == "neighbour-root" { 2 } else { 1 };
        assert_eq!(unknown.len(), wanted, "{path}");
        for finding in unknown {
            let [Reason::Missing(place)] = finding.value.reasons() else {
                panic!("{path}: {:?}", finding.value);
            };
            assert_eq!(place.key(), path);
        }
    }
    // All at once: whatever has a limit is unknown, nothing of it clear.
    let none = sheet(|limits| *limits = Limits::default());
    let clear = none.findings.iter().filter(|f| f.verdict == Verdict::Clear);
    let clear: Vec<_> = clear.map(|f| f.rule.key()).collect();
    assert_eq!(clear, ["crowns-beside-seat"]);
}

/// Every shipped limit has a figure and a source.
#[test]
fn every_limit_that_ships_names_its_source() {
    let limits = traywright_core::case::default_limits();
    for id in LimitId::ALL {
        let limit = limits.get(*id).unwrap_or_else(|| panic!("{}", id.key()));
        assert!(!limit.source.is_empty());
        assert!(limit.floor_mm <= limit.limit_mm);
    }
}

/// A finding held to a limit of the case that is less strict than the one that ships says so; one
/// that is as strict or stricter says nothing.
#[test]
fn a_limit_less_strict_than_the_programs_own_is_told() {
    let wall = |limit: &'static str| {
        let sheet = worked(|case| case.limits.buccal_wall.as_mut().unwrap().limit_mm = mm(limit));
        let found = all(&sheet, "wall");
        let found = found
            .iter()
            .find(|f| f.place.key().contains("buccal"))
            .unwrap();
        (found.verdict, found.loosened)
    };
    let told = |limit: &'static str, own: &str| {
        let own = Quantity::Length(mm(own));
        Some(Loosened { limit, own })
    };
    assert_eq!(wall("0"), (Verdict::Clear, told("buccal_wall", "1.5")));
    assert_eq!(wall("1.499"), (Verdict::Clear, told("buccal_wall", "1.5")));
    assert_eq!(wall("1.5"), (Verdict::Clear, None));
    assert_eq!(wall("1.7"), (Verdict::Clear, None));
    // Of what is allowed at most more is less strict.
    let receipt = |limit: &'static str| {
        let sheet = worked(|case| {
            case.limits.receipt.as_mut().unwrap().limit_mm = mm(limit);
            case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, "6")];
        });
        one(&sheet, "receipt").loosened
    };
    assert_eq!(receipt("0.2"), told("receipt", "0.1"));
    assert_eq!(receipt("0.05"), None);
    // The flap's room is within another margin.
    let flap = worked(|case| case.limits.flap_bulge.as_mut().unwrap().limit_mm = mm("0"));
    assert_eq!(
        one(&flap, "tissue-room").loosened,
        told("flap_bulge", "1.5")
    );
    let punch = worked(|case| {
        case.limits.flap_bulge.as_mut().unwrap().limit_mm = mm("0");
        case.guide.access = Access::Punch;
    });
    assert_eq!(one(&punch, "tissue-room").loosened, None);
    // As the case starts, nothing is less strict, but that its kit lets the last drill end 1.1 below the implant.
    let start = worked(|_| {});
    let mut loosened = start.findings.iter().filter(|f| f.loosened.is_some());
    assert!(loosened.all(|f| f.rule.key() == "last-drill-thin"));
}

/// The structures that must be known of a site, by its place; one structure of a group suffices.
#[test]
fn a_structure_that_was_not_entered_is_unknown() {
    let asked = |jaw: Jaw, iso: &str| {
        let mut case = case();
        case.jaw = jaw;
        case.teeth.clear();
        case.sites = vec![site("one", iso, &[])];
        case.sites[0].structures.clear();
        let sheet = work(case);
        let mut kinds: Vec<String> = all(&sheet, "deep-structure")
            .iter()
            .map(|finding| {
                assert_eq!(finding.verdict, Verdict::Unknown);
                finding.args["structure"].to_string()
            })
            .collect();
        kinds.sort();
        kinds.join(" ")
    };
    for (jaw, iso, kinds) in [
        (Jaw::Lower, "31", "incisive_canal"),
        (Jaw::Lower, "42", "incisive_canal"),
        (Jaw::Lower, "33", "incisive_canal mental_foramen"),
        (Jaw::Lower, "43", "incisive_canal mental_foramen"),
        (Jaw::Lower, "34", "mandibular_canal mental_foramen"),
        (Jaw::Lower, "45", "mandibular_canal mental_foramen"),
        (Jaw::Lower, "46", "mandibular_canal"),
        (Jaw::Lower, "38", "mandibular_canal"),
        (Jaw::Upper, "11", "nasal_floor nasopalatine_canal"),
        (Jaw::Upper, "22", "nasal_floor"),
        (Jaw::Upper, "13", "nasal_floor sinus_anterior_wall"),
        (Jaw::Upper, "14", "sinus_floor"),
        (Jaw::Upper, "27", "sinus_floor"),
    ] {
        assert_eq!(asked(jaw, iso), kinds, "{iso}");
    }
    // The foramen does not stand for the canal, neither at a lower premolar nor at a molar.
    for iso in ["35", "36"] {
        let sheet = worked(|case| {
            case.sites[0].tooth = tooth(iso);
            case.teeth.clear();
            case.sites[0].distances.clear();
            foramen(case, Some("1"));
        });
        let canal = all(&sheet, "deep-structure")
            .iter()
            .any(|f| f.args["structure"].to_string() == "mandibular_canal");
        assert!(canal, "{iso}");
    }
}

/// An implant that leans to mesial at an upper premolar passes in front of the sinus: its floor says nothing of the wall
/// there. From 10° on (common practice, no source).
#[test]
fn an_implant_that_leans_past_the_sinus_needs_its_anterior_wall() {
    let asked = |iso: &'static str, to_distal: &'static str| {
        let sheet = worked(|case| {
            case.jaw = Jaw::Upper;
            case.teeth.clear();
            case.sites = vec![site("one", iso, &[])];
            let site = &mut case.sites[0];
            if let Placement::OnArch {
                apex_to_distal_deg, ..
            } = &mut site.placement
            {
                *apex_to_distal_deg = deg(to_distal);
            }
            // Its floor alone was measured.
            site.structures[0].kind = StructureKind::SinusFloor;
        });
        let found = all(&sheet, "deep-structure");
        let mut found = found.iter();
        found.any(|found| found.args["structure"].to_string() == "sinus_anterior_wall")
    };
    assert!(!asked("15", "-10"));
    assert!(asked("15", "-10.1"));
    assert!(asked("14", "-28"));
    assert!(!asked("15", "30"));
    assert!(!asked("17", "-30"));
    // In front of the sinus an implant that leans to distal goes towards it: where it comes as far as the canine.
    assert!(!asked("13", "10"));
    assert!(asked("13", "10.1"));
    assert!(asked("13", "40"));
    assert!(!asked("13", "-30"));
    assert!(asked("12", "30"));
    assert!(!asked("12", "11"));
    assert!(!asked("11", "30"));
}

/// By coordinates an implant that leans to mesial is one, and one that leans across the arch is none. At an upper
/// second premolar mesial is forward, and buccal is aside.
#[test]
fn by_coordinates_only_what_leans_to_mesial_passes_the_sinus() {
    let asked = |back: &'static str, left: &'static str| {
        let sheet = worked(|case| {
            case.jaw = Jaw::Upper;
            case.teeth.clear();
            case.sites = vec![site("one", "15", &[])];
            let site = &mut case.sites[0];
            site.placement = Placement::Measured {
                platform: PointMm {
                    x_mm: mm("-22"),
                    y_mm: mm("18"),
                    z_mm: mm("0"),
                },
                direction: Vector {
                    x: mm(left),
                    y: mm(back),
                    z: mm("1"),
                },
            };
            site.distances.clear();
            site.structures.clear();
        });
        let found = all(&sheet, "deep-structure");
        let mut found = found.iter();
        found.any(|found| found.args["structure"].to_string() == "sinus_anterior_wall")
    };
    assert!(asked("-0.5", "0"));
    assert!(!asked("0.5", "0"));
    assert!(!asked("0", "0.3"));
    assert!(!asked("0", "-0.3"));
}

fn foramen(case: &mut Case, anterior_loop: Option<&str>) {
    case.sites[0].structures[0] = Structure {
        kind: StructureKind::MentalForamen,
        extent: StructureExtent::Beside {
            from_axis_mm: mm("6"),
            anterior_loop_mm: anterior_loop.map(mm),
        },
        ..case.sites[0].structures[0].clone()
    };
}

/// 6.0 from the axis less the radius 2.3 and the loop: 3.7 without one, 2.0 with 1.7, just the
/// limit. Not measured is unknown, not 0.
#[test]
fn an_unmeasured_anterior_loop_is_unknown_and_not_nothing() {
    for (anterior_loop, verdict, value) in [
        (Some("0"), Verdict::Clear, "3.7"),
        (Some("1.7"), Verdict::Clear, "2"),
        (Some("1.701"), Verdict::Short, "1.999"),
        (None, Verdict::Unknown, "unknown"),
    ] {
        let sheet = worked(|case| {
            case.sites[0].tooth = tooth("34");
            case.teeth.clear();
            case.sites[0].distances.clear();
            foramen(case, anterior_loop);
        });
        let path = "sites[one].structures[mental_foramen]";
        let found = all(&sheet, "deep-structure");
        let found = found.iter().find(|f| f.place.key() == path).unwrap();
        let shown = found
            .length_value()
            .map_or_else(|| "unknown".to_owned(), |length| length.to_string());
        assert_eq!((found.verdict, shown), (verdict, value.to_owned()));
    }
}

/// Below the site no loop was measured: 13.0 less the implant's 10.0 is 3.0 at most, over the limit of
/// 2.0 and not clear; 11.9 leaves 1.9, which no loop makes more.
#[test]
fn a_foramen_below_the_site_is_unknown_for_want_of_its_loop() {
    for (height, verdict) in [("13", Verdict::Unknown), ("11.9", Verdict::Short)] {
        for kind in [StructureKind::MentalForamen, StructureKind::MandibularCanal] {
            let sheet = worked(|case| {
                case.sites[0].structures[0].kind = kind;
                case.sites[0].structures[0].extent = StructureExtent::Below {
                    height_mm: mm(height),
                    from: HeightDatum::Platform,
                    direction: Direction::AlongAxis,
                };
            });
            let path = format!("sites[one].structures[{}]", kind.key());
            let found = all(&sheet, "deep-structure");
            let found = found.iter().find(|f| f.place.key() == path).unwrap();
            let canal = kind == StructureKind::MandibularCanal && height == "13";
            let want = if canal { Verdict::Clear } else { verdict };
            assert_eq!(found.verdict, want, "{kind:?} {height}");
        }
    }
}

/// Findings come worst first, and a site's worst is that of its findings.
#[test]
fn findings_come_worst_first() {
    let sheet = worked(|case| {
        case.sites[0].walls[0].from_axis_mm = mm("3");
        case.sites[0].heights.tissue_thickness_mm = None;
        case.sites[0].structures.clear();
    });
    let severities: Vec<_> = sheet.findings.iter().map(Finding::severity).collect();
    assert!(severities.is_sorted());
    assert_eq!(severities[0], Severity::Short);
    assert_eq!(sheet.sites[0].worst, Severity::Short);
    assert!(severities.contains(&Severity::Unknown));
}

/// A case without sites, a site without steps: nothing is known, nothing is fine.
#[test]
fn what_is_empty_is_unknown() {
    let empty = worked(|case| case.sites.clear());
    assert_eq!(one(&empty, "no-sites").severity(), Severity::Unknown);
    let no_steps = worked(|case| case.sites[0].steps.clear());
    assert_eq!(one(&no_steps, "no-sequence").severity(), Severity::Unknown);
    assert_eq!(no_steps.sites[0].worst, Severity::Unknown);
    assert!(no_steps.sites[0].deepest_cut.value.value().is_none());
}
