//! Deep structures under upright and tilted sites, by hand and against sampled bodies.

use super::kit::{drill, sleeve};
use super::sample::{
    all, case, deg, judged, measure_anew, mm, one, received, step, tooth, work, worked,
};
use serde_json::Value;
use traywright_core::case::{
    Case, Direction, GuideState, GuidedExtent, HeightDatum, Placement, PointMm, ReceiptOf,
    SiteState, StructureExtent, StructureKind, Vector,
};
use traywright_core::kit::{Datum, DepthRule, DrillKind, Point, ProfilePoint};
use traywright_core::measure::{Angle, Length};
use traywright_core::plan::{
    Finding, Known, Quantity, Reason, Sign, Term, TermName, Verdict, Worksheet,
};

pub(super) fn tilt(case: &mut Case, distal: &str, buccal: &str) {
    case.sites[0].placement = Placement::OnArch {
        at: tooth("36"),
        along_mm: Length::ZERO,
        buccal_mm: Length::ZERO,
        apex_to_distal_deg: deg(distal),
        apex_to_buccal_deg: deg(buccal),
    };
    measure_anew(case);
}

fn below(case: &mut Case, height: Length, from: HeightDatum, direction: Direction) {
    case.sites[0].structures[0].extent = StructureExtent::Below {
        height_mm: height,
        from,
        direction,
    };
}

fn margin(change: impl FnOnce(&mut Case)) -> (Verdict, String) {
    judged(&worked(change), "deep-structure")
}

/// Within a socket, or the bed of an implant that comes out, there is no crest: what is counted from one
/// there may be counted from its rim as well as from its floor, and is never enough; from the platform it is.
#[test]
fn a_height_from_the_crest_of_a_bed_is_never_clear() {
    for (state, is_bed) in [
        (SiteState::Healed {}, false),
        (SiteState::FRESH_SOCKET, true),
        (SiteState::IMPLANT_TO_REMOVE, true),
    ] {
        let found = |height: &str, from| {
            let sheet = worked(|case| {
                case.sites[0].state = state.clone();
                below(case, mm(height), from, Direction::Vertical);
            });
            one(&sheet, "deep-structure").clone()
        };
        let (crest, platform) = (HeightDatum::Crest, HeightDatum::Platform);
        let enough = found("13", crest);
        let want = if is_bed {
            Verdict::Unknown
        } else {
            Verdict::Clear
        };
        assert_eq!(enough.verdict, want, "{state:?}");
        assert_eq!(found("12.999", crest).verdict, Verdict::Short);
        assert_eq!(found("13", platform).verdict, Verdict::Clear, "{state:?}");
    }
}

/// Upright, 13.0 below the platform, deepest cut 10.0: 3.0 left; 13.0 below the crest, which is 1.0
/// above the platform: 2.0, just the limit. Full-diameter counting cuts 10.9: 2.1 left.
#[test]
fn upright_the_deepest_point_counts() {
    let crest = HeightDatum::Crest;
    for direction in [Direction::Vertical, Direction::AlongAxis] {
        assert_eq!(
            margin(|case| below(case, mm("13"), HeightDatum::Platform, direction)),
            (Verdict::Clear, "3".into())
        );
        assert_eq!(
            margin(|case| below(case, mm("13"), crest, direction)),
            (Verdict::Clear, "2".into())
        );
        assert_eq!(
            margin(|case| below(case, mm("12.999"), crest, direction)),
            (Verdict::Short, "1.999".into())
        );
    }
    let full = margin(|case| {
        super::sample::each_drill(case, |d| d.datum = Datum::FullDiameter {});
    });
    assert_eq!(full, (Verdict::Clear, "2.1".into()));
}

/// Cuts that end above the apex do not hide the implant: a sequence of 6.0 under an implant of
/// 10.0 leaves 13.0 − 10.0.
#[test]
fn the_implant_counts_where_it_is_deepest() {
    let shallow = margin(|case| {
        for step in &mut case.sites[0].steps {
            step.depth = DepthRule::BelowPlatform { depth_mm: mm("6") };
        }
    });
    assert_eq!(shallow, (Verdict::Clear, "3".into()));
}

/// One step without a setting: what it will cut is unknown, so is the margin.
#[test]
fn one_unknown_cut_makes_the_margin_unknown() {
    let unknown = margin(|case| {
        case.sites[0].steps[0].stop = None;
    });
    assert_eq!(unknown, (Verdict::Unknown, "unknown".into()));
}

/// On an axis tilted by more than 10° a height along it says nothing about what is beside it: it is
/// short where it breaks the limit, and never clear however much it leaves.
#[test]
fn a_height_along_a_tilted_axis_is_never_clear() {
    for (height, verdict, value) in [
        ("11.999", Verdict::Short, "1.999"),
        ("12", Verdict::Unknown, "unknown"),
        ("60", Verdict::Unknown, "unknown"),
    ] {
        let sheet = worked(|case| {
            tilt(case, "10.001", "0");
            below(
                case,
                mm(height),
                HeightDatum::Platform,
                Direction::AlongAxis,
            );
        });
        assert_eq!(judged(&sheet, "deep-structure"), (verdict, value.into()));
        if verdict == Verdict::Unknown {
            let left = mm(height) - mm("10");
            let reasons = one(&sheet, "deep-structure").value.reasons().to_vec();
            assert_eq!(reasons, [Reason::AlongTiltedAxis(left)]);
        }
    }
    // From the crest, 1.0 above the platform: 12.999 − 1.0 − 10.0 = 1.999.
    for (height, verdict) in [("12.999", Verdict::Short), ("13", Verdict::Unknown)] {
        let (from, along) = (HeightDatum::Crest, Direction::AlongAxis);
        let found = margin(|case| {
            tilt(case, "10.001", "0");
            below(case, mm(height), from, along);
        });
        assert_eq!(found.0, verdict, "{height}");
    }
}

/// At a small tilt a level structure that the axis meets at a height lies at that height times the
/// cosine; with the crest, which is along the axis too, both times the cosine.
#[test]
fn along_a_little_tilted_axis_the_cosine_counts() {
    for tilted in ["0.001", "4", "10"] {
        let cos = tilted.parse::<f64>().unwrap().to_radians().cos();
        for (from, crest) in [(HeightDatum::Platform, 0.0), (HeightDatum::Crest, 1.0)] {
            let left = |height, from, direction| {
                let sheet = worked(|case| {
                    tilt(case, "0", tilted);
                    below(case, height, from, direction);
                });
                one(&sheet, "deep-structure").length_value().unwrap()
            };
            let along = left(mm("14"), from, Direction::AlongAxis);
            let vertical = Length::floor_mm((14.0 - crest) * cos);
            let vertical = left(vertical, HeightDatum::Platform, Direction::Vertical);
            let apart = (along - vertical).um();
            assert!(
                (0..=1).contains(&apart),
                "{tilted} {crest}: {along} {vertical}"
            );
        }
    }
}

/// What a tilted margin names adds up to it: the height, less the crest, the depth and half the width
/// of the nearest point by cosine and sine of the tilt; after a move less what that can take, where it is at least so
/// much, or more by what it can give back, where it is at most so much.
#[test]
fn the_terms_of_a_tilted_margin_add_up_to_it() {
    let mut seen = std::collections::BTreeSet::new();
    for ((tilted, point, low, from, direction), moved) in [
        ("25", "0.9", "12", HeightDatum::Crest, Direction::Vertical),
        ("25", "5", "11", HeightDatum::Platform, Direction::Vertical),
        (
            "4",
            "0.9",
            "11.5",
            HeightDatum::Platform,
            Direction::Vertical,
        ),
        ("9", "5", "12.5", HeightDatum::Crest, Direction::AlongAxis),
    ]
    .into_iter()
    .flat_map(|row| [None, Some("20"), Some(row.2)].map(|height| (row, height)))
    {
        let height = moved.unwrap_or("20");
        let sheet = worked(|case| {
            super::sample::each_drill(case, |drill| {
                drill.point = Point::Length {
                    point_mm: mm(point),
                }
            });
            super::sample::each_drill(case, |drill| drill.datum = Datum::FullDiameter {});
            tilt(case, tilted, "0");
            below(case, mm(height), from, direction);
            if moved.is_some()
                && let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement
            {
                *along_mm += mm("0.1");
            }
        });
        let finding = one(&sheet, "deep-structure");
        let is_low = height == low;
        let verdict = if is_low {
            Verdict::Short
        } else {
            Verdict::Clear
        };
        assert_eq!(finding.verdict, verdict, "{tilted} {height}");
        let figure = finding.figure.clone().unwrap();
        let value = |term: &Term| match term.value {
            Known::Is(Quantity::Length(length)) => length.mm(),
            Known::Is(Quantity::Angle(angle)) => angle.radians(),
            _ => panic!("{term:?}"),
        };
        let term = |name: TermName| {
            let found = figure.terms.iter().find(|term| term.name == name);
            found.map_or(0.0, value)
        };
        let (sin, cos) = term(TermName::Tilt).sin_cos();
        let height = term(TermName::StructureHeight);
        let height = match direction {
            Direction::Vertical => height,
            Direction::AlongAxis => height * cos,
        };
        let along = term(TermName::CrestAbovePlatform) + term(TermName::NearestDepth);
        let across = term(TermName::NearestAcross);
        seen.insert(across > 0.0);
        let by_move = figure
            .terms
            .iter()
            .filter(|t| t.name.key().contains("move"));
        let by_move: Vec<f64> = by_move
            .map(|term| match term.sign {
                Sign::Plus => value(term),
                Sign::Minus => -value(term),
                Sign::With => panic!("{term:?}"),
            })
            .collect();
        assert_eq!(
            by_move.len(),
            usize::from(moved.is_some()),
            "{tilted} {low}"
        );
        assert!(
            by_move
                .iter()
                .all(|by| (*by > 0.1) == is_low && by.abs() > 0.1)
        );
        let want = height - along * cos - across / 2.0 * sin + by_move.iter().sum::<f64>();
        let apart = finding.length_value().unwrap().mm() - want;
        assert!(apart.abs() < 0.002, "{tilted} {point}: {want} {apart}");
    }
    assert_eq!(seen.len(), 2, "a tip and a shoulder");
}

/// A measured direction is tilted or upright by itself, whatever its length.
#[test]
fn a_measured_direction_is_tilted_by_its_parts() {
    for (x, z, verdict) in [
        ("0", "-1", Verdict::Clear),
        ("0", "-7.5", Verdict::Clear),
        ("0.1", "-1", Verdict::Clear),
        ("0.2", "-1", Verdict::Unknown),
    ] {
        let sheet = worked(|case| {
            case.sites[0].placement = Placement::Measured {
                platform: PointMm {
                    x_mm: mm("22"),
                    y_mm: mm("25"),
                    z_mm: mm("-9"),
                },
                direction: Vector {
                    x: mm(x),
                    y: Length::ZERO,
                    z: mm(z),
                },
            };
            measure_anew(case);
            let far = mm("40");
            below(case, far, HeightDatum::Platform, Direction::AlongAxis);
        });
        assert_eq!(one(&sheet, "deep-structure").verdict, verdict, "{x} {z}");
    }
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap()
}

fn length(value: &Value, key: &str) -> Length {
    serde_json::from_value(value[key].clone()).unwrap()
}

/// A site with the outline and the cuts of one line of the data.
fn from_data(data: &Value) -> Worksheet {
    work(case_from_data(data))
}

fn case_from_data(data: &Value) -> Case {
    let mut case = case();
    case.kit.gauges[0].graduation_mm = mm("0.001");
    case.kit.gauges[0].to_mm = mm("60");
    let outline = data["outline"].as_array().unwrap();
    let implant = &mut case.kit.implants[0];
    implant.profile = outline
        .iter()
        .map(|point| ProfilePoint {
            below_platform_mm: length(point, "below_platform_mm"),
            diameter_mm: length(point, "diameter_mm"),
        })
        .collect();
    implant.platform_to_apex_mm = implant.profile.last().unwrap().below_platform_mm;
    implant.diameter_mm = implant.profile[0].diameter_mm;
    if outline.len() == 2 && outline[0]["diameter_mm"] == outline[1]["diameter_mm"] {
        implant.profile.clear();
    }
    case.sites[0].steps.clear();
    for (n, cut) in data["cuts"].as_array().unwrap().iter().enumerate() {
        let name = format!("d{n}");
        let mut one = drill(&name, DrillKind::Twist, "3");
        one.cutting_diameter_mm = length(cut, "diameter_mm");
        one.point = Point::Length {
            point_mm: length(cut, "point_mm"),
        };
        case.kit.drills.push(one);
        case.kit
            .drill_sleeves
            .push(sleeve(&format!("s{name}"), "4.8"));
        let mut step = step(&name);
        step.depth = DepthRule::BelowPlatform {
            depth_mm: length(cut, "depth_mm"),
        };
        case.sites[0].steps.push(step);
    }
    let from = if data["from"] == "crest" {
        let crest = length(data, "crest_mm");
        let heights = &mut case.sites[0].heights;
        let depth = heights.platform_below_crest.as_mut().unwrap();
        (depth.highest_mm, depth.lowest_mm) = (crest, crest);
        HeightDatum::Crest
    } else {
        HeightDatum::Platform
    };
    let angle = |key: &str| -> Angle { serde_json::from_value(data[key].clone()).unwrap() };
    case.sites[0].placement = Placement::OnArch {
        at: tooth("36"),
        along_mm: Length::ZERO,
        buccal_mm: Length::ZERO,
        apex_to_distal_deg: angle("apex_to_distal_deg"),
        apex_to_buccal_deg: angle("apex_to_buccal_deg"),
    };
    let height = length(data, "height_mm");
    below(&mut case, height, from, Direction::Vertical);
    measure_anew(&mut case);
    case
}

/// Bodies sampled at many angles: `oracles-data/deep_structure.py` made the data.
#[test]
fn tilted_margins_as_sampled() {
    let data: Value =
        serde_json::from_str(include_str!("../../../oracles-data/deep_structure.json")).unwrap();
    let cases = data["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 14);
    for (n, one_case) in cases.iter().enumerate() {
        let sheet = from_data(one_case);
        // Where the apex leans below the next tooth, its structures are asked for as well.
        let canal = all(&sheet, "deep-structure").into_iter();
        let canal = canal.filter_map(Finding::length_value).min();
        let got = canal.unwrap().mm();
        let want = number(one_case, "margin_mm");
        // Floored to the micrometre, never above what is left.
        let given_away = want - got;
        assert!(
            (-1e-9..0.001 + 1e-9).contains(&given_away),
            "case {n}: {got}, sampled {want}"
        );
    }
}

/// Closed form by hand, tilt 30°, cylinder 4.4 × 10, tip-counted 3.3 with a flat end at 10.4, 13
/// below: tip and shoulder 13 − 10.4·cos 30° − 1.65·sin 30° = 3.168; implant
/// 13 − 10·cos 30° − 2.2·sin 30° = 3.239. The least counts.
#[test]
fn the_least_of_tip_shoulder_and_corner() {
    let data = serde_json::json!({
        "apex_to_distal_deg": 30, "apex_to_buccal_deg": 0, "height_mm": 13, "from": "platform",
        "outline": [{"below_platform_mm": 0, "diameter_mm": 4.4},
                    {"below_platform_mm": 10, "diameter_mm": 4.4}],
        "cuts": [{"depth_mm": 10.4, "point_mm": 0, "diameter_mm": 3.3}],
    });
    let sheet = from_data(&data);
    assert_eq!(
        judged(&sheet, "deep-structure"),
        (Verdict::Clear, "3.168".into())
    );
}

/// A guide that seats 0.3 lower lets the implant down along the tilted axis, 4.4 wide and deeper
/// than every cut: 13 − 10·cos 30° − 2.2·sin 30° = 3.2397, 13 − 10.3·cos 30° − 2.2·sin 30° = 2.9799.
/// An implant that goes in freehand stays where it was planned.
#[test]
fn a_guide_that_seats_lower_lets_a_tilted_implant_down() {
    let left = |extent: GuidedExtent, distance: &'static str| {
        margin(|case| {
            tilt(case, "30", "0");
            for step in &mut case.sites[0].steps {
                step.depth = DepthRule::BelowPlatform { depth_mm: mm("2") };
            }
            case.sites[0].guided_extent = extent;
            case.guide.state = GuideState::Made;
            case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, distance)];
        })
        .1
    };
    assert_eq!(left(GuidedExtent::DrillingAndImplant, "6"), "3.239");
    assert_eq!(left(GuidedExtent::DrillingAndImplant, "5.7"), "2.979");
    assert_eq!(left(GuidedExtent::AllDrilling, "5.7"), "3.239");
}

/// An outline that ends above the apex keeps its last diameter down to it. Tilt 30°, 4.4 wide all
/// the way: 13 − 10·cos 30° − 2.2·sin 30° = 3.239, as for a cylinder.
#[test]
fn an_outline_that_ends_early_goes_on_to_the_apex() {
    let data = serde_json::json!({
        "apex_to_distal_deg": 30, "apex_to_buccal_deg": 0, "height_mm": 13, "from": "platform",
        "outline": [{"below_platform_mm": 0, "diameter_mm": 4.4},
                    {"below_platform_mm": 10, "diameter_mm": 4.4}],
        "cuts": [{"depth_mm": 2, "point_mm": 0, "diameter_mm": 3.3}],
    });
    let mut early = case_from_data(&data);
    let margin = |case: &Case| judged(&work(case.clone()), "deep-structure").1;
    assert_eq!(margin(&early), "3.239");
    early.kit.implants[0].profile = vec![ProfilePoint {
        below_platform_mm: mm("1"),
        diameter_mm: mm("4.4"),
    }];
    assert_eq!(margin(&early), "3.239");
}

/// The implant alone comes too near: 11.9 − 10.0 = 1.9. That one cut is not known takes nothing
/// away from that; where what is known leaves enough, nobody knows what is left.
#[test]
fn an_unknown_cut_does_not_hide_what_is_short_without_it() {
    let unknown = |height: &'static str, tilted: bool| {
        worked(|case| {
            if tilted {
                tilt(case, "0", "20");
            }
            below(case, mm(height), HeightDatum::Platform, Direction::Vertical);
            case.sites[0].steps[0].stop = None;
        })
    };
    assert_eq!(
        judged(&unknown("11.9", false), "deep-structure"),
        (Verdict::Short, "1.9".into())
    );
    let enough = unknown("12", false);
    assert_eq!(judged(&enough, "deep-structure").0, Verdict::Unknown);
    let reasons = one(&enough, "deep-structure").value.reasons().to_vec();
    assert_eq!(reasons, [Reason::NothingFits, Reason::AtMost(mm("2"))]);
    // Tilted by 20°: corner 10·cos + 2.2·sin = 10.149; 12.1 leaves 1.951, 12.2 leaves 2.05.
    assert_eq!(
        one(&unknown("12.1", true), "deep-structure").verdict,
        Verdict::Short
    );
    assert_eq!(
        one(&unknown("12.2", true), "deep-structure").verdict,
        Verdict::Unknown
    );
    // Without any step the implant still stands where it is planned.
    let bare = worked(|case| {
        below(case, mm("11.9"), HeightDatum::Platform, Direction::Vertical);
        case.sites[0].steps.clear();
    });
    assert_eq!(one(&bare, "deep-structure").verdict, Verdict::Short);
}

/// A foramen 4.2 from the axis: 4.2 − 2.3 = 1.9 without its loop, which can only take more.
#[test]
fn an_unmeasured_loop_does_not_hide_what_is_short_without_it() {
    let at = |from_axis: &'static str| {
        let sheet = worked(|case| {
            case.sites[0].structures[0].kind = StructureKind::MentalForamen;
            case.sites[0].structures[0].extent = StructureExtent::Beside {
                from_axis_mm: mm(from_axis),
                anterior_loop_mm: None,
            };
        });
        let foramen = |f: &&Finding| f.place.key() == "sites[one].structures[mental_foramen]";
        sheet.findings.iter().find(foramen).unwrap().verdict
    };
    assert_eq!(at("4.2"), Verdict::Short);
    assert_eq!(at("4.3"), Verdict::Unknown);
}

/// Beside the axis the least distance was measured down to the implant's end, 10.0. A drill counted
/// at its full diameter goes 0.9 deeper, where nobody looked.
#[test]
fn beside_a_structure_no_deeper_than_it_was_measured() {
    let at = |from_axis: &'static str, down_to: Option<&'static str>| {
        let sheet = worked(|case| {
            super::sample::each_drill(case, |d| d.datum = Datum::FullDiameter {});
            case.sites[0].structures[0].extent = StructureExtent::Beside {
                from_axis_mm: mm(from_axis),
                anterior_loop_mm: None,
            };
            case.sites[0].structures[0].measured_at.down_to_mm = down_to.map(mm);
        });
        let finding = one(&sheet, "deep-structure");
        (finding.verdict, finding.value.reasons().to_vec())
    };
    assert_eq!(at("9", Some("10.9")), (Verdict::Clear, vec![]));
    for down_to in [None, Some("10.899"), Some("3")] {
        let less = vec![Reason::MeasuredLessDeep(mm("6.7"), "one".into())];
        assert_eq!(at("9", down_to), (Verdict::Unknown, less), "{down_to:?}");
        assert_eq!(at("4.2", down_to).0, Verdict::Short, "{down_to:?}");
    }
}
