//! The surgeon's decisions on findings: when they lapse, and what nobody can accept.

use super::neighbours::implants::{beside_a_second, upright_at};
use super::sample::{all, case, mm, one, site, tooth, work, worked};
use traywright_core::case::{
    Case, Decision, DecisionKind, Direction, Height, HeightDatum, Heights, NeighbourKind,
    Placement, StepThrough, Structure, StructureExtent, StructureKind, Support, ToothState,
    WithoutGuide,
};
use traywright_core::dentition::Jaw;
use traywright_core::kit::{Density, DepthRule};
use traywright_core::plan::{
    Finding, Rule, Severity, Verdict, WhyLapsed, Worksheet, may_be_accepted, may_be_intended,
};

fn word(finding: &str, judged: DecisionKind, shown: &str) -> Decision {
    Decision {
        finding: finding.to_owned(),
        judged,
        shown: shown.to_owned(),
        reason: "seen on the cross-section".to_owned(),
        by: "S".into(),
    }
}

const WALL: &str = "wall sites[one].walls[buccal least]";
const CANAL: &str = "deep-structure sites[one].structures[mandibular_canal]";

/// The value that the finding of this key shows in the case so changed, while nobody judged it.
fn shown_by(key: &str, change: impl FnOnce(&mut Case)) -> String {
    let sheet = worked(change);
    let found = sheet.findings.iter().find(|f| f.key() == key);
    found
        .unwrap_or_else(|| panic!("no {key}: {:#?}", sheet.findings))
        .digest()
}

/// The severity after a finding was accepted in the first case and the case became the second.
/// What was accepted of a site with its guide is not accepted of it without, and the guide that was left is told by itself.
#[test]
fn an_acceptance_is_of_a_site_with_its_guide_or_without() {
    fn near(case: &mut Case) {
        case.sites[0].walls[0].from_axis_mm = mm("3.5");
    }
    // All drills went through it, the implant alone goes in by hand: no figure is another.
    fn left(case: &mut Case) {
        near(case);
        let through = case.sites[0].steps.iter().map(StepThrough::of);
        let through = through.collect();
        let left = WithoutGuide::of(&case.sites[0], through, false);
        case.sites[0].without_guide = Some(left);
    }
    assert_eq!(accepted_then(WALL, near, near), Severity::Accepted);
    assert_eq!(accepted_then(WALL, near, left), Severity::Short);
    assert!(all(&worked(near), "guide-left").is_empty());
    assert_eq!(one(&worked(left), "guide-left").verdict, Verdict::Unknown);
}

fn accepted_then(key: &str, then: fn(&mut Case), now: fn(&mut Case)) -> Severity {
    let shown = shown_by(key, then);
    let sheet = worked(|case| {
        now(case);
        case.judgements = vec![word(key, DecisionKind::Accepted, &shown)];
    });
    let found = sheet.findings.iter().find(|f| f.key() == key);
    found.map_or(Severity::Clear, Finding::severity)
}

fn wall_shown(from_axis: &str) -> String {
    shown_by(WALL, |case| {
        case.sites[0].walls[0].from_axis_mm = mm(from_axis);
    })
}

fn wall_at(from_axis: &str, judgement: Decision) -> Worksheet {
    worked(|case| {
        case.sites[0].walls[0].from_axis_mm = mm(from_axis);
        case.judgements = vec![judgement];
    })
}

/// An accepted shortage stays accepted as long as it shows the accepted figure, to the micrometre,
/// and is open again with any other.
#[test]
fn an_acceptance_lapses_with_the_figure() {
    let shown = wall_shown("3.5");
    assert!(shown.starts_with("short 1.2/1.5 "), "{shown}");
    let accepted = || word(WALL, DecisionKind::Accepted, &shown);
    let finding = |sheet: &Worksheet| {
        let found = sheet.findings.iter().find(|f| f.key() == WALL).unwrap();
        (
            found.severity(),
            found.decision.is_some(),
            found.lapsed.is_some(),
        )
    };
    // 3.5 − 2.3 = 1.2
    assert_eq!(
        finding(&wall_at("3.5", accepted())),
        (Severity::Accepted, true, false)
    );
    for from_axis in ["3.499", "3.501", "2.9"] {
        let sheet = wall_at(from_axis, accepted());
        assert_eq!(
            finding(&sheet),
            (Severity::Short, false, true),
            "{from_axis}"
        );
        assert_eq!(sheet.sites[0].worst, Severity::Short);
    }
    // A word on something else does not cover it.
    let blank = wall_at("3.5", word(WALL, DecisionKind::Accepted, "short"));
    assert_eq!(finding(&blank), (Severity::Short, false, true));
    // What is clear needs no word and does not become "accepted".
    let clear = wall_at("4", word(WALL, DecisionKind::Accepted, &wall_shown("4")));
    assert_eq!(finding(&clear).0, Severity::Clear);
}

/// An unknown can be accepted; once a figure is there, the word no longer holds.
#[test]
fn an_accepted_unknown_lapses_when_it_becomes_known() {
    let known = |case: &mut Case| {
        case.sites[0].structures[0].extent = StructureExtent::Beside {
            from_axis_mm: mm("4"),
            anterior_loop_mm: None,
        };
    };
    let unknown = |case: &mut Case| {
        case.sites[0].structures[0].extent = StructureExtent::Beside {
            from_axis_mm: mm("4"),
            anterior_loop_mm: None,
        };
        case.limits.mandibular_canal = None;
    };
    assert_eq!(accepted_then(CANAL, unknown, unknown), Severity::Accepted);
    assert_eq!(accepted_then(CANAL, unknown, known), Severity::Short);
}

/// A finding without a length lapses just as well: an angle, a count, a changed limit, an unknown
/// that is unknown for another reason.
#[test]
fn an_acceptance_lapses_with_whatever_was_shown() {
    let stock = "stock-short kit.implants[long]";
    let none_left: fn(&mut Case) = |case| case.kit.implants[0].quantity = 0;
    let found = worked(none_left);
    let stock = found
        .findings
        .iter()
        .find(|f| f.rule == Rule::StockShort)
        .map_or(stock.to_owned(), Finding::key);
    assert_eq!(
        accepted_then(&stock, none_left, none_left),
        Severity::Accepted
    );
    // Two sites in need of one that is not there are more than one site.
    let two: fn(&mut Case) = |case| {
        case.kit.implants[0].quantity = 0;
        case.sites.push(site("two", "34", &["35"]));
    };
    assert_eq!(accepted_then(&stock, none_left, two), Severity::Short);

    let wall: fn(&mut Case) = |case| case.sites[0].walls[0].from_axis_mm = mm("3.5");
    let other_limit: fn(&mut Case) = |case| {
        case.sites[0].walls[0].from_axis_mm = mm("3.5");
        case.limits.buccal_wall.as_mut().unwrap().limit_mm = mm("2");
    };
    assert_eq!(accepted_then(WALL, wall, wall), Severity::Accepted);
    assert_eq!(accepted_then(WALL, wall, other_limit), Severity::Short);

    // Not entered, then entered but measured before the implant was changed, which nobody can accept.
    let missing: fn(&mut Case) = |case| case.limits.mandibular_canal = None;
    let stale: fn(&mut Case) = |case| {
        let then = &mut case.sites[0].structures[0].measured_at;
        then.platform_below_crest.as_mut().unwrap().highest_mm = mm("3");
    };
    assert_eq!(accepted_then(CANAL, missing, missing), Severity::Accepted);
    assert_eq!(accepted_then(CANAL, stale, stale), Severity::Unknown);
    assert_eq!(accepted_then(CANAL, missing, stale), Severity::Unknown);
    assert_eq!(accepted_then(CANAL, stale, missing), Severity::Unknown);
}

/// A margin known only from a height along a tilted axis is accepted with that figure.
#[test]
fn what_a_tilted_height_leaves_is_accepted_with_its_figure() {
    let along = |height: &str, case: &mut Case| {
        super::deep_structure::tilt(case, "11", "0");
        case.sites[0].structures[0].extent = StructureExtent::Below {
            height_mm: mm(height),
            from: HeightDatum::Platform,
            direction: Direction::AlongAxis,
        };
    };
    let shown = shown_by(CANAL, |case| along("14", case));
    assert!(shown.starts_with("unknown 4/"), "{shown}");
    for (height, severity) in [("14", Severity::Accepted), ("15", Severity::Unknown)] {
        let sheet = worked(|case| {
            along(height, case);
            case.judgements = vec![word(CANAL, DecisionKind::Accepted, &shown)];
        });
        assert_eq!(
            one(&sheet, "deep-structure").severity(),
            severity,
            "{height}"
        );
    }
}

/// A planned contact can be one with a deep structure; a thin wall cannot be intended.
#[test]
fn only_some_contacts_can_be_intended() {
    let wall = wall_at(
        "3.5",
        word(WALL, DecisionKind::Intended, &wall_shown("3.5")),
    );
    let found = wall.findings.iter().find(|f| f.key() == WALL).unwrap();
    assert_eq!(
        (found.severity(), found.lapsed.is_some()),
        (Severity::Short, true)
    );

    let over_sinus = |case: &mut Case| {
        case.jaw = Jaw::Upper;
        case.teeth.clear();
        case.sites = vec![site("one", "16", &[])];
        let structure = &mut case.sites[0].structures[0];
        structure.kind = StructureKind::SinusFloor;
        structure.extent = StructureExtent::Below {
            height_mm: mm("8"),
            from: HeightDatum::Platform,
            direction: Direction::Vertical,
        };
    };
    let key = "deep-structure sites[one].structures[sinus_floor]";
    let shown = shown_by(key, over_sinus);
    assert!(shown.starts_with("short -2/"), "{shown}");
    let sinus = worked(|case| {
        over_sinus(case);
        case.judgements = vec![word(key, DecisionKind::Intended, &shown)];
    });
    assert_eq!(one(&sinus, "deep-structure").severity(), Severity::Intended);
}

/// What a file says of a finding: accepted with this reason by this person, as it shows now.
fn accepted(case: Case, rule: Rule, reason: &str, by: &str) -> Finding {
    let now = work(case.clone()).findings.into_iter();
    let now = (now.filter(|f| f.rule == rule).min_by_key(Finding::severity)).unwrap();
    let mut case = case;
    case.judgements = vec![Decision {
        finding: now.key(),
        judged: DecisionKind::Accepted,
        shown: now.digest(),
        reason: reason.to_owned(),
        by: by.into(),
    }];
    let mut found = work(case).findings.into_iter();
    found.find(|f| f.key() == now.key()).unwrap()
}

fn why(finding: &Finding) -> Option<WhyLapsed> {
    assert_eq!(finding.decision.is_none(), finding.lapsed.is_some());
    finding.lapsed.as_ref().map(|lapsed| lapsed.why)
}

const REASON: &str = "the surgeon saw it on the scan";

/// A cut into the canal, a root or another implant is nobody's to accept, nor is a kit that is
/// invented in a case that is not; a limit that is broken short of that, and what is no nerve, is.
#[test]
fn what_must_stay_whole_is_accepted_by_nobody() {
    use StructureKind::{IncisiveCanal, MandibularCanal, MentalForamen};
    let canal = |kind: StructureKind, below: &str| {
        let mut case = case();
        case.sites[0].structures[0].kind = kind;
        case.sites[0].structures[0].extent = StructureExtent::Below {
            height_mm: mm(below),
            from: HeightDatum::Platform,
            direction: Direction::AlongAxis,
        };
        case
    };
    // The deepest cut ends 10.0 below the platform.
    for kind in [MandibularCanal, MentalForamen, IncisiveCanal] {
        let of = |below| accepted(canal(kind, below), Rule::DeepStructure, REASON, "N. Quill");
        assert_eq!(why(&of("10.1")), None, "{kind:?}");
        // Less than a tenth of a millimetre is within what reading a scan can tell from contact: the step in
        // which all is read and set here. Common practice, no source.
        for below in ["10.099", "10.05", "10.003", "10"] {
            let why = why(&of(below));
            assert_eq!(why, Some(WhyLapsed::NotAcceptable), "{kind:?} {below}");
        }
        assert_eq!(of("10").severity(), Severity::Short, "{kind:?}");
    }
    let mut sinus = canal(StructureKind::SinusFloor, "9");
    let structure = sinus.sites[0].structures[0].clone();
    sinus.jaw = Jaw::Upper;
    sinus.teeth.clear();
    sinus.sites = vec![site("one", "16", &[])];
    sinus.sites[0].structures[0] = Structure {
        measured_at: sinus.sites[0].structures[0].measured_at.clone(),
        ..structure
    };
    let sinus = accepted(sinus, Rule::DeepStructure, REASON, "N. Quill");
    assert_eq!(why(&sinus), None);

    // The widest radius is 2.3.
    let root = |from_axis: &str| {
        let mut case = case();
        case.sites[0].distances[0].from_axis_mm = mm(from_axis);
        accepted(case, Rule::NeighbourRoot, REASON, "N. Quill")
    };
    assert_eq!(why(&root("2.4")), None);
    assert_eq!(why(&root("2.399")), Some(WhyLapsed::NotAcceptable));
    assert_eq!(why(&root("2.3")), Some(WhyLapsed::NotAcceptable));

    // Without a limit what overlaps still does, and what does not can be told from what leaves less.
    let without = |below: &str| {
        let mut case = canal(MandibularCanal, below);
        case.limits.mandibular_canal = None;
        accepted(case, Rule::DeepStructure, REASON, "N. Quill")
    };
    assert_eq!(why(&without("10")), Some(WhyLapsed::NotAcceptable));
    assert_eq!(why(&without("10.099")), Some(WhyLapsed::NotAcceptable));
    assert_eq!(why(&without("10.101")), None);
    assert_ne!(without("10.101").digest(), without("10.102").digest());

    // Measured before the site was moved: measured again or confirmed, and nobody's to accept.
    let mut moved = case();
    if let Placement::OnArch { along_mm, .. } = &mut moved.sites[0].placement {
        *along_mm += mm("1.1");
    }
    for rule in [Rule::DeepStructure, Rule::NeighbourRoot, Rule::Wall] {
        let stale = accepted(moved.clone(), rule, REASON, "N. Quill");
        assert_eq!(why(&stale), Some(WhyLapsed::NotAcceptable), "{rule}");
    }

    // What was entered contradicts itself.
    let mut own = case();
    own.teeth.retain(|entered| entered.position != tooth("36"));
    own.teeth.push(super::sample::present("36"));
    let own = accepted(own, Rule::ToothAtSite, REASON, "N. Quill");
    assert_eq!(why(&own), Some(WhyLapsed::NotAcceptable));
    let mut gone = case();
    gone.teeth[0].state = ToothState::Missing;
    let gone = accepted(gone, Rule::DistanceToNoRoot, REASON, "N. Quill");
    assert_eq!(why(&gone), Some(WhyLapsed::NotAcceptable));

    let mut invented = case();
    invented.demonstration = false;
    invented.kit.demonstration = true;
    let kit = accepted(invented, Rule::KitIsInvented, REASON, "N. Quill");
    assert_eq!(why(&kit), Some(WhyLapsed::NotAcceptable));

    let mut older = case();
    older.rules_version = 1;
    let older = accepted(older, Rule::RulesOlder, REASON, "N. Quill");
    assert_eq!(why(&older), Some(WhyLapsed::NotAcceptable));
}

/// Two implants of 4.6 whose upright axes lie 4.6 or less apart are within each other, and a hand-written acceptance of that
/// counts for nobody; what is apart and only breaks the limit is the surgeon's.
#[test]
fn an_overlap_of_two_planned_implants_is_accepted_by_nobody() {
    let pair = |x: &str| {
        let mut case = case();
        beside_a_second(&mut case);
        upright_at(&mut case, 0, "20");
        upright_at(&mut case, 1, x);
        case
    };
    for rule in [Rule::NeighbourImplant, Rule::NeighbourImplantBody] {
        for x in ["22", "24.6", "24.699"] {
            let finding = accepted(pair(x), rule, REASON, "N. Quill");
            assert_eq!(why(&finding), Some(WhyLapsed::NotAcceptable), "{rule} {x}");
            assert_eq!(finding.severity(), Severity::Short, "{rule} {x}");
        }
        let finding = accepted(pair("24.701"), rule, REASON, "N. Quill");
        assert_eq!(why(&finding), None, "{rule}");
        assert_eq!(finding.severity(), Severity::Accepted, "{rule}");
    }
}

/// Nobody drills to a depth that nobody knows: without a gauge a step has no setting, and so it is
/// beyond the gauge and where no stop or mark fits.
#[test]
fn a_step_without_a_setting_is_accepted_by_nobody() {
    type Row = (Rule, fn(&mut Case));
    let rows: [Row; 3] = [
        (Rule::SettingUnknown, |case| {
            case.setup.gauge = None;
            case.sites[0].steps.truncate(1);
        }),
        (Rule::OutsideGauge, |case| {
            case.kit.gauges[0].to_mm = mm("20");
            case.sites[0].steps.truncate(1);
        }),
        (Rule::NoMarkFits, |case| {
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].stop = None;
            case.kit.drills[0].marks.clear();
            let drill = case.kit.drills[0].id.clone();
            case.sites[0].steps[0].drill = drill;
        }),
    ];
    for (rule, change) in rows {
        let mut case = case();
        change(&mut case);
        let found = accepted(case, rule, REASON, "N. Quill");
        assert_eq!(why(&found), Some(WhyLapsed::NotAcceptable), "{rule}");
        assert!(found.severity().is_open());
    }
}

/// A decision in a file that was written by hand is held to what the window asks of one.
#[test]
fn a_decision_without_reason_or_name_does_not_count_wherever_it_was_written() {
    let of = |reason, by| {
        let mut case = case();
        case.sites[0].distances[0].from_axis_mm = mm("3.7");
        accepted(case, Rule::NeighbourRoot, reason, by)
    };
    assert_eq!(why(&of(REASON, "N. Quill")), None);
    for reason in ["x", "ok", "accepted", "- - -", "a b c d"] {
        let why = why(&of(reason, "N. Quill"));
        assert_eq!(why, Some(WhyLapsed::NoReason), "{reason}");
    }
    for by in [" ", ".", "\u{200b}", "\u{202e}"] {
        assert_eq!(why(&of(REASON, by)), Some(WhyLapsed::NoName), "{by:?}");
    }
}

/// What was not entered has no value that could change: an acceptance is of the body that was judged,
/// and lapses with another placement, depth, implant or sleeve position.
#[test]
fn an_acceptance_of_what_was_not_entered_lapses_with_the_body() {
    let bare = |case: &mut Case| case.sites[0].structures.clear();
    assert!(shown_by(CANAL, bare).starts_with("unknown none/"));
    assert_eq!(accepted_then(CANAL, bare, bare), Severity::Accepted);
    let changes: [fn(&mut Case); 4] = [
        |case| {
            let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
                panic!()
            };
            *along_mm += mm("1");
        },
        |case| case.kit.implants[0].platform_to_apex_mm = mm("13.9"),
        |case| super::sample::distance(case, "8"),
        |case| {
            let crest = case.sites[0].heights.platform_below_crest.as_mut();
            crest.unwrap().lowest_mm = mm("0.9");
        },
    ];
    for (n, change) in changes.into_iter().enumerate() {
        let shown = shown_by(CANAL, bare);
        let sheet = worked(|case| {
            bare(case);
            change(case);
            case.judgements = vec![word(CANAL, DecisionKind::Accepted, &shown)];
        });
        let found = sheet.findings.iter().find(|f| f.key() == CANAL).unwrap();
        assert_eq!(found.severity(), Severity::Unknown, "{n}");
        let why = found.lapsed.as_ref().map(|lapsed| lapsed.why);
        assert_eq!(why, Some(WhyLapsed::Changed), "{n}");
    }
}

/// What is short, or unknown of the whole case, without a number lapses with what it was of: drill, depth,
/// bone, implant, pins.
#[test]
fn an_acceptance_of_what_has_no_number_lapses_with_what_it_was_of() {
    type Change = fn(&mut Case);
    let rows: [(&str, Change, Change); 5] = [
        (
            "no-full-depth",
            |case| short_of(case, "1"),
            |case| short_of(case, "7.5"),
        ),
        (
            "widest-not-to-full-depth",
            |case| case.sites[0].steps[2].depth = DepthRule::ShortOfFull { by_mm: mm("1") },
            |case| case.sites[0].steps[2].depth = DepthRule::ShortOfFull { by_mm: mm("8") },
        ),
        (
            "protocol-for-another-density",
            |case| {
                super::sequences::as_written(case);
                case.sites[0].density = Some(Density::D1);
            },
            |case| case.sites[0].density = Some(Density::D4),
        ),
        (
            "drilling-data-missing",
            |case| case.kit.drills[1].irrigation = None,
            |case| {
                case.kit.drills[1].irrigation = case.kit.drills[0].irrigation.clone();
                case.kit.drills[0].irrigation = None;
            },
        ),
        (
            "few-pins",
            |case| {
                case.guide.support = Support::Mucosa;
                super::support::pinned(case, &[("33", "0")]);
            },
            |case| case.guide.pins[0].at = tooth("43"),
        ),
    ];
    for (rule, first, then) in rows {
        let sheet = worked(first);
        let shown = one(&sheet, rule);
        let (key, shown) = (shown.key(), shown.digest());
        let accepted = |then: Option<Change>| {
            let sheet = worked(|case| {
                first(case);
                if let Some(then) = then {
                    then(case);
                }
                case.judgements = vec![word(&key, DecisionKind::Accepted, &shown)];
            });
            let found = one(&sheet, rule);
            (
                found.severity() == Severity::Accepted,
                found.lapsed.is_some(),
            )
        };
        assert_eq!(accepted(None), (true, false), "{rule}");
        assert_eq!(accepted(Some(then)), (false, true), "{rule}");
    }
}

fn short_of(case: &mut Case, by: &str) {
    for step in &mut case.sites[0].steps {
        step.depth = DepthRule::ShortOfFull { by_mm: mm(by) };
    }
}

/// A limit of nothing makes no touched nerve clear: less than 0.1 is not told from contact (common practice,
/// no source), and equal to it is not short.
#[test]
fn no_limit_makes_contact_with_what_must_stay_whole_clear() {
    let canal = |limit: &str, left: &str| {
        let sheet = worked(|case| {
            case.limits.mandibular_canal.as_mut().unwrap().limit_mm = mm(limit);
            let StructureExtent::Below { height_mm, .. } = &mut case.sites[0].structures[0].extent
            else {
                panic!()
            };
            *height_mm = mm(left);
        });
        let found = sheet.findings.iter().find(|f| f.key() == CANAL).unwrap();
        (found.verdict, found.length_value())
    };
    let (_, before) = canal("0", "14");
    // What is left falls with the height; so much of it is the cut.
    let cut = mm("14") - before.unwrap();
    let at = |left: &str| canal("0", &(cut + mm(left)).to_string());
    assert_eq!(at("0.099"), (Verdict::Short, Some(mm("0.099"))));
    assert_eq!(at("0.1"), (Verdict::Clear, Some(mm("0.1"))));
    assert_eq!(at("0"), (Verdict::Short, Some(mm("0"))));
}

/// What was accepted to practise with is not accepted for a patient.
#[test]
fn an_acceptance_for_practice_does_not_count_for_a_patient() {
    let open = |case: &mut Case| case.sites[0].structures.clear();
    let shown = shown_by(CANAL, |case| {
        open(case);
        case.demonstration = true;
    });
    let severity = |demonstration: bool| {
        let sheet = worked(|case| {
            open(case);
            case.demonstration = demonstration;
            case.judgements = vec![word(CANAL, DecisionKind::Accepted, &shown)];
        });
        let found = sheet.findings.iter().find(|f| f.key() == CANAL);
        found.unwrap().severity()
    };
    assert_eq!(severity(true), Severity::Accepted);
    assert_eq!(severity(false), Severity::Unknown);
}

/// An unknown is accepted with a scan in sight, and what was entered of the thing that it is about: on another scan, by
/// another measure of it or of another neighbour it was not accepted.
#[test]
fn an_unknown_is_accepted_of_what_was_entered() {
    const BELOW: &str = "structure-below-not-measured sites[one].structures[mandibular_canal]";
    const SOCKET: &str = "bone-towards-socket sites[one].distances[35]";
    fn canal(case: &mut Case, from_axis: &str) {
        case.sites[0].structures[0].extent = StructureExtent::Beside {
            from_axis_mm: mm(from_axis),
            anterior_loop_mm: None,
        };
    }
    fn socket(case: &mut Case, from_axis: &str, kind: NeighbourKind) {
        case.teeth[0].state = ToothState::ToExtract;
        case.teeth[0].kind = Some(kind);
        case.sites[0].distances[0].from_axis_mm = mm(from_axis);
    }
    let severity = |now| accepted_then(BELOW, |case| canal(case, "8"), now);
    assert_eq!(severity(|case| canal(case, "8")), Severity::Accepted);
    assert_eq!(severity(|case| canal(case, "5")), Severity::Unknown);
    assert_eq!(
        severity(|case| {
            canal(case, "8");
            case.guide.scan_date = Some(jiff::civil::date(2026, 11, 2));
        }),
        Severity::Unknown
    );
    // What was entered of another thing changes nothing.
    assert_eq!(
        severity(|case| {
            canal(case, "8");
            case.sites[0].walls[0].from_axis_mm = mm("5.5");
        }),
        Severity::Accepted
    );
    let natural = |case: &mut Case| socket(case, "5.4", NeighbourKind::Natural);
    let severity = |now| accepted_then(SOCKET, natural, now);
    assert_eq!(severity(natural), Severity::Accepted);
    assert_eq!(
        severity(|case| socket(case, "4", NeighbourKind::Natural)),
        Severity::Unknown
    );
    assert_eq!(
        severity(|case| socket(case, "5.4", NeighbourKind::Impacted)),
        Severity::Unknown
    );
}

/// A floor that is told only beside the site is not known below it, and one that was not entered is no
/// contact that anybody planned.
#[test]
fn a_floor_is_known_by_its_height_alone() {
    let of = |change: fn(&mut Case)| {
        worked(|case| {
            upper(case);
            change(case);
        })
    };
    let floor = |sheet: &Worksheet| {
        let found = sheet.findings.iter().find(|f| {
            ["deep-structure", "structure-below-not-measured"].contains(&f.rule.key())
                && f.value.get().is_none()
                && f.args.contains_key("structure")
        });
        found.map(|f| (f.verdict, may_be_intended(f)))
    };
    assert_eq!(floor(&of(|_| {})), Some((Verdict::Unknown, false)));
    assert_eq!(
        floor(&of(|case| structure(
            case,
            StructureExtent::Beside {
                from_axis_mm: mm("6"),
                anterior_loop_mm: None,
            }
        ))),
        Some((Verdict::Unknown, false))
    );
    assert_eq!(
        floor(&of(|case| structure(
            case,
            StructureExtent::Below {
                height_mm: mm("20"),
                from: HeightDatum::Platform,
                direction: Direction::Vertical,
            }
        ))),
        None
    );
}

fn upper(case: &mut Case) {
    case.jaw = Jaw::Upper;
    case.arch = None;
    case.teeth.clear();
    let site = &mut case.sites[0];
    (site.tooth, site.walls) = (tooth("26"), Vec::new());
    site.heights = Heights::default();
    if let Placement::OnArch { at, .. } = &mut site.placement {
        *at = tooth("26");
    }
    site.distances.clear();
    site.obstacles.clear();
    site.structures.clear();
    case.guide.pins.clear();
}

fn structure(case: &mut Case, extent: StructureExtent) {
    let site = &mut case.sites[0];
    site.structures = vec![Structure {
        kind: StructureKind::SinusFloor,
        extent,
        measured_at: site.measured_now(mm("10")),
        source: None,
    }];
}

/// A bound of what is unknown stays what it is while the body grows past it: what was accepted of one body is
/// not accepted of another.
#[test]
fn an_acceptance_of_a_bound_lapses_with_the_body() {
    let crest_alone = |case: &mut Case| {
        case.sites[0].walls.truncate(1);
        case.sites[0].walls[0].at = Height::Crest;
    };
    let key = "wall sites[one].walls[buccal crest]";
    let shown = shown_by(key, crest_alone);
    assert!(shown.starts_with("unknown 1.7/"), "{shown}");
    let severity = |change: fn(&mut Case)| {
        let sheet = worked(|case| {
            crest_alone(case);
            change(case);
            case.judgements = vec![word(key, DecisionKind::Accepted, &shown)];
        });
        let found = sheet.findings.iter().find(|f| f.key() == key);
        found.unwrap().severity()
    };
    assert_eq!(severity(|_| {}), Severity::Accepted);
    assert_eq!(
        severity(|case| case.kit.implants[0].platform_to_apex_mm = mm("14")),
        Severity::Unknown
    );
}

/// So does what is short by a bound alone, and says that it is one.
#[test]
fn an_acceptance_of_a_short_bound_lapses_with_the_body() {
    let short = |case: &mut Case| {
        case.sites[0].walls.truncate(1);
        case.sites[0].walls[0].at = Height::Crest;
        case.sites[0].walls[0].from_axis_mm = mm("3");
    };
    let key = "wall sites[one].walls[buccal crest]";
    let shown = shown_by(key, short);
    assert!(shown.starts_with("short 0.7/"), "{shown}");
    let severity = |change: fn(&mut Case)| {
        let sheet = worked(|case| {
            short(case);
            change(case);
            case.judgements = vec![word(key, DecisionKind::Accepted, &shown)];
        });
        let found = sheet.findings.iter().find(|f| f.key() == key).unwrap();
        assert!(found.is_at_most());
        found.severity()
    };
    assert_eq!(severity(|_| {}), Severity::Accepted);
    assert_eq!(
        severity(|case| case.kit.implants[0].platform_to_apex_mm = mm("14")),
        Severity::Short
    );
}

/// On the arch the other side of the mouth is a slip that nobody accepts; the tooth across the midline may be
/// the next one.
#[test]
fn a_place_on_the_other_side_is_accepted_by_nobody() {
    let may = |at: &str, along: &str| {
        let sheet = worked(|case| {
            case.teeth.clear();
            let site = &mut case.sites[0];
            site.tooth = tooth("32");
            (site.distances, site.obstacles) = (Vec::new(), Vec::new());
            if let Placement::OnArch {
                at: place,
                along_mm,
                ..
            } = &mut site.placement
            {
                (*place, *along_mm) = (tooth(at), mm(along));
            }
        });
        may_be_accepted(one(&sheet, "site-away-from-its-tooth"))
    };
    assert!(!may("42", "0"));
    assert!(!may("32", "-16"));
    assert!(may("31", "0"));
    assert!(may("32", "4"));
}

/// Who said that a gap holds changes nothing of what was accepted of the site; the gap does.
#[test]
fn a_confirmed_gap_lapses_no_acceptance() {
    use traywright_core::case::{GapMeasuredAt, SiteState, Socket};
    use traywright_core::measure::Length;
    use traywright_core::sign::Purpose;
    fn socket(case: &mut Case, gap: &str, confirmed: bool) {
        let site = &mut case.sites[0];
        site.density = None;
        let now = site.measured_now(mm("10"));
        let then = if confirmed {
            now.confirmed(&now, "N. Quill".into(), Purpose::Practice)
        } else {
            now
        };
        site.state = SiteState::FreshSocket(Socket {
            gap_mm: Some(mm(gap)),
            gap_measured_at: Some(GapMeasuredAt {
                site: then,
                implant_diameter_mm: Length::from_mm(4),
            }),
            ..Socket::UNMEASURED
        });
        site.steps.clear();
    }
    const NONE: &str = "no-sequence sites[one].steps";
    let severity = |now| accepted_then(NONE, |case| socket(case, "1", false), now);
    assert_eq!(
        severity(|case| socket(case, "1", false)),
        Severity::Accepted
    );
    assert_eq!(severity(|case| socket(case, "1", true)), Severity::Accepted);
    assert_eq!(severity(|case| socket(case, "2", false)), Severity::Unknown);
}

/// Nor where the case had no site when it was accepted: its guide is another's as well.
#[test]
fn an_acceptance_for_practice_counts_for_no_patient_with_its_sites_gone() {
    const NOT_HELD: &str = "guide-not-held guide.pins";
    let bare = |case: &mut Case| {
        case.guide.support = traywright_core::case::Support::Mucosa;
        case.sites.clear();
        case.guide.receipt.clear();
    };
    let shown = shown_by(NOT_HELD, |case| {
        bare(case);
        case.demonstration = true;
    });
    let severity = |demonstration: bool| {
        let sheet = worked(|case| {
            bare(case);
            case.demonstration = demonstration;
            case.judgements = vec![word(NOT_HELD, DecisionKind::Accepted, &shown)];
        });
        let found = sheet.findings.iter().find(|f| f.key() == NOT_HELD);
        found.unwrap().severity()
    };
    assert_eq!(severity(true), Severity::Accepted);
    assert_eq!(severity(false), Severity::Short);
}
