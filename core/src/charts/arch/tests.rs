//! Properties that hold for every arch chart, and its geometry by hand.

use super::*;
use crate::case::{DecisionKind, NeighbourKind, Tooth, ToothState};
use crate::charts::arch_samples::{
    any_case, bare, measured, mirrored, on_arch, present, site, tooth, with_arch,
};
use crate::dentition::{Jaw, ToothPosition};
use crate::drawing::{Dash, Group, Text};
use crate::measure::Length;
use crate::plan::{AppliedDecision, Severity, Verdict, work_out};
use crate::samples::valid;
use proptest::prelude::*;

fn say(finding: &Finding) -> String {
    format!("{} below the limit of this clearance", finding.rule)
}

fn options(width_mm: f64) -> ArchOptions<'static> {
    ArchOptions {
        width_mm,
        height_mm: None,
        notation: Notation::Iso,
        texts: Texts::english(),
        headline: &say,
        arches: Arches::Own,
        chosen: None,
    }
}

fn chart(case: &Case, options: &ArchOptions<'_>) -> Drawing {
    let case = valid(case.clone());
    arch(&case, &work_out(&case), options)
}

fn groups(drawing: &Drawing) -> Vec<&Group> {
    let each = drawing.items().iter().filter_map(|item| match item {
        Item::Group(group) => Some(group),
        _ => None,
    });
    each.collect()
}

fn group<'a>(drawing: &'a Drawing, id: &str) -> &'a Group {
    let found = groups(drawing).into_iter().find(|group| group.id == id);
    found.unwrap_or_else(|| panic!("no group {id}"))
}

fn bounds(group: &Group) -> Rect {
    Item::Group(group.clone()).bounds().unwrap()
}

/// The outline of a tooth.
fn outline_of(drawing: &Drawing, position: ToothPosition) -> (Rect, Paint) {
    let group = group(drawing, &format!("tooth:{position}"));
    match &group.items[0] {
        Item::Polygon { rings, paint } => (Rect::around(rings[0].iter().copied()).unwrap(), *paint),
        other => panic!("{other:?}"),
    }
}

/// Circles of a group: centre, radius, paint.
fn circles(group: &Group) -> Vec<(Point, f64, Paint)> {
    let each = group.items.iter().filter_map(|item| match item {
        Item::Circle {
            centre,
            radius,
            paint,
        } => Some((*centre, *radius, *paint)),
        _ => None,
    });
    each.collect()
}

/// Centre of a site's implant circle.
fn platform(drawing: &Drawing, id: &str) -> Point {
    let circles = circles(group(drawing, &format!("site:{id}")));
    let implant = circles
        .iter()
        .find(|(.., paint)| paint.fill == Some(Ink::Implant));
    implant.unwrap().0
}

fn scale_of(drawing: &Drawing) -> f64 {
    bounds(group(drawing, "scale-bar")).width() / 10.0
}

fn all_present(jaw: Jaw) -> Case {
    let mut case = with_arch(bare(jaw));
    case.teeth = ToothPosition::all_of(jaw).map(present).collect();
    case
}

#[test]
fn both_arches_lie_open_like_a_book_with_the_patients_right_on_the_left() {
    let upper = chart(&all_present(Jaw::Upper), &options(120.0));
    let lower = chart(&all_present(Jaw::Lower), &options(120.0));
    let middle = |drawing: &Drawing, iso: &str| outline_of(drawing, tooth(iso)).0.centre();
    // The upper incisors at the top, the lower ones at the bottom.
    assert!(middle(&upper, "11").y < middle(&upper, "18").y);
    assert!(middle(&lower, "41").y > middle(&lower, "48").y);
    for drawing in [&upper, &lower] {
        let letter = |which: &str| {
            let texts = drawing.texts();
            let found = texts.iter().find(|text| text.content == which);
            found.unwrap().bounds().centre().x
        };
        assert!(letter("R") < letter("L"));
    }
    assert!(middle(&upper, "18").x < middle(&upper, "28").x);
    assert!(middle(&lower, "48").x < middle(&lower, "38").x);
}

/// Worked by hand from the kit and from the two measured places, 24 mm apart to the side and 10 mm
/// in depth.
#[test]
fn sleeves_implants_and_measured_places_are_to_the_scale_of_the_bar() {
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![
        site(
            "a",
            tooth("44"),
            measured(Jaw::Lower, -14_000, 18_000, (0, 0)),
        ),
        site(
            "b",
            tooth("33"),
            measured(Jaw::Lower, 10_000, 8_000, (0, 0)),
        ),
    ];
    let drawing = chart(&case, &options(174.0));
    let scale = scale_of(&drawing);
    let way = platform(&drawing, "b") - platform(&drawing, "a");
    assert!((way.x / scale - 24.0).abs() < 1e-9, "{way:?}");
    // Farther forward is lower on the page in the lower jaw.
    assert!((way.y / scale - 10.0).abs() < 1e-9, "{way:?}");
    let radii: Vec<f64> = circles(group(&drawing, "site:a"))
        .iter()
        .filter(|(centre, ..)| (*centre - platform(&drawing, "a")).length() < 1e-9)
        .map(|(_, radius, _)| radius / scale)
        .collect();
    assert!(
        radii.iter().any(|r| (2.0 * r - 6.1).abs() < 1e-9),
        "{radii:?}"
    );
    assert!(
        radii.iter().any(|r| (2.0 * r - 4.1).abs() < 1e-9),
        "{radii:?}"
    );
    // Crown of 46: 11.0 mesiodistal by 10.5 faciolingual, 85 mm of crowns on this arch's curve.
    let outline = outline_of(&drawing, tooth("46")).0;
    let largest = libm::hypot(11.0, 10.5) * 1.1 * scale;
    assert!(outline.width() < largest && outline.height() < largest);
    assert!(outline.width() > 9.0 * scale && outline.height() > 9.0 * scale);
}

/// 11.3 mm at 32° lie 11.3·sin 32° = 5.988 mm aside, towards the midline of the arch.
#[test]
fn an_apex_lies_where_its_tilt_puts_it_and_words_say_where() {
    let mut case = all_present(Jaw::Upper);
    case.sites = vec![site("a", tooth("26"), on_arch(tooth("26"), -32, 0))];
    let drawing = chart(&case, &options(174.0));
    let scale = scale_of(&drawing);
    let site = group(&drawing, "site:a");
    let apex = circles(site)
        .into_iter()
        .find(|(.., paint)| paint.fill == Some(Ink::Ground))
        .unwrap()
        .0;
    let way = apex - platform(&drawing, "a");
    assert!((way.length() / scale - 5.988).abs() < 1e-3, "{way:?}");
    // Mesial of an upper left molar is up and to the left on the page.
    assert!(way.y < 0.0 && way.x < 0.0, "{way:?}");
    assert!(site.name.contains("apex 32° to mesial"), "{}", site.name);
    assert!(!site.name.contains("buccal") && !site.name.contains("distal"));
}

#[test]
fn directions_are_told_in_the_words_of_the_jaw() {
    for (jaw, iso, placement, want) in [
        (
            Jaw::Upper,
            "15",
            on_arch(tooth("15"), 8, -3),
            "apex 8° to distal, 3° to palatal",
        ),
        (
            Jaw::Lower,
            "45",
            on_arch(tooth("45"), 0, -3),
            "apex 3° to lingual",
        ),
        (
            Jaw::Lower,
            "35",
            on_arch(tooth("35"), 0, 4),
            "apex 4° to buccal",
        ),
        // tan 45°: forward by as much as down. Forward is mesial of a molar on the straight part.
        (
            Jaw::Lower,
            "47",
            measured(Jaw::Lower, -27_000, 36_000, (0, -10_000)),
            "apex 45° off vertical, to mesial",
        ),
        // To the patient's right and down: buccal of a right molar.
        (
            Jaw::Lower,
            "47",
            measured(Jaw::Lower, -27_000, 36_000, (-1_000, 0)),
            "apex 6° off vertical, to buccal",
        ),
        (
            Jaw::Upper,
            "27",
            measured(Jaw::Upper, 27_000, 36_000, (-3_000, 3_000)),
            "apex 23° off vertical, to distal and palatal",
        ),
    ] {
        let mut case = all_present(jaw);
        case.sites = vec![site("a", tooth(iso), placement)];
        let drawing = chart(&case, &options(174.0));
        let name = &group(&drawing, "site:a").name;
        assert!(name.ends_with(want), "{name:?} should end in {want:?}");
    }
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![site("a", tooth("36"), on_arch(tooth("36"), 0, 0))];
    let drawing = chart(&case, &options(174.0));
    assert!(!group(&drawing, "site:a").name.contains("apex"));
}

#[test]
fn each_state_of_a_tooth_is_drawn_and_said() {
    let mut case = with_arch(bare(Jaw::Lower));
    let with = |iso: &str, state, kind| Tooth {
        position: tooth(iso),
        state,
        kind,
    };
    case.teeth = vec![
        with("31", ToothState::Present, None),
        with("32", ToothState::Missing, None),
        with("33", ToothState::ToExtract, None),
        with("34", ToothState::Present, Some(NeighbourKind::Pontic)),
        with("35", ToothState::Present, Some(NeighbourKind::Implant)),
        with("36", ToothState::Missing, Some(NeighbourKind::Remnant)),
    ];
    let drawing = chart(&case, &options(150.0));
    for (iso, dash, items, words) in [
        ("31", Dash::Solid, 1, "present"),
        ("32", Dash::Dashed, 1, "missing"),
        ("33", Dash::Solid, 3, "to extract"),
        ("34", Dash::Solid, 3, "pontic"),
        ("35", Dash::Solid, 3, "existing implant"),
        ("36", Dash::Dashed, 2, "missing, root remnant"),
        ("37", Dash::Dotted, 1, "not entered"),
        ("48", Dash::Dotted, 1, "not entered"),
    ] {
        let (_, paint) = outline_of(&drawing, tooth(iso));
        assert_eq!(paint.stroke.unwrap().dash, dash, "{iso}");
        let group = group(&drawing, &format!("tooth:{iso}"));
        let shapes = group.items.iter().filter(|i| !matches!(i, Item::Text(_)));
        assert!(shapes.count() >= items, "{iso}");
        assert!(
            group.name.ends_with(&format!("({iso}): {words}")),
            "{}",
            group.name
        );
        // Every way of drawing but the plain one stands in the key.
        for word in words.split(", ").filter(|word| *word != "present") {
            assert!(
                drawing.texts().iter().any(|text| text.content == word),
                "{word}"
            );
        }
    }
}

#[test]
fn without_a_size_of_the_arch_the_chart_says_so_and_bears_no_scale() {
    let mut case = all_present(Jaw::Upper);
    let warning = "schematic: arch size not entered, not to scale";
    let says = |drawing: &Drawing| drawing.texts().iter().any(|t| t.content == warning);
    let entered = chart(&case, &options(150.0));
    assert!(!says(&entered) && entered.texts().iter().any(|t| t.content == "10 mm"));
    case.arch = None;
    let schematic = chart(&case, &options(150.0));
    assert!(says(&schematic));
    assert!(
        groups(&schematic)
            .iter()
            .all(|group| group.id != "scale-bar")
    );
    assert!(schematic.texts().iter().all(|t| t.content != "10 mm"));
    // It is still a whole arch.
    let teeth = groups(&schematic)
        .into_iter()
        .filter(|g| g.id.starts_with("tooth:"));
    assert_eq!(teeth.count(), 16);
}

fn has_mark(group: &Group, ink: Ink) -> bool {
    let mut found = false;
    let mut drawing = Drawing::new();
    drawing.push(Item::Group(group.clone()));
    drawing.visit(&mut |item, _| {
        let paint = match item {
            Item::Circle { paint, .. } | Item::Polygon { paint, .. } => Some(paint),
            _ => None,
        };
        found |= paint.is_some_and(|paint| paint.fill == Some(ink));
    });
    found
}

#[test]
fn a_site_of_which_nothing_was_looked_at_is_unknown() {
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![site("a", tooth("36"), on_arch(tooth("36"), 0, 0))];
    let case = valid(case);
    let mut worksheet = work_out(&case);
    worksheet.findings.clear();
    worksheet.sites[0].worst = Severity::Clear;
    let drawing = arch(&case, &worksheet, &options(150.0));
    let site = group(&drawing, "site:a");
    assert!(has_mark(site, Ink::Unknown) && !has_mark(site, Ink::Clear));
    assert!(site.name.contains("unknown: nothing checked"));
}

#[test]
fn every_severity_has_its_own_mark_and_word() {
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![site("a", tooth("36"), on_arch(tooth("36"), 0, 0))];
    let case = valid(case);
    let whole = work_out(&case);
    let finding = whole.findings.iter().find(|f| f.site.is_some()).unwrap();
    let word = |judged| {
        Some(AppliedDecision {
            judged,
            reason: "seen".to_owned(),
            by: "RT".to_owned(),
        })
    };
    for (verdict, word, ink, said) in [
        (Verdict::Short, None, Ink::Short, "short: "),
        (Verdict::Unknown, None, Ink::Unknown, "unknown: "),
        (Verdict::Tight, None, Ink::Tight, "tight: "),
        (
            Verdict::Unknown,
            word(DecisionKind::Accepted),
            Ink::Accepted,
            "accepted, unknown: ",
        ),
        (
            Verdict::Short,
            word(DecisionKind::Intended),
            Ink::Intended,
            "intended: ",
        ),
        (Verdict::Note, None, Ink::Clear, "note: "),
        (Verdict::Clear, None, Ink::Clear, "clear: "),
    ] {
        let worksheet = Worksheet {
            findings: vec![Finding {
                verdict,
                decision: word,
                ..finding.clone()
            }],
            ..whole.clone()
        };
        let drawing = arch(&case, &worksheet, &options(150.0));
        let site = group(&drawing, "site:a");
        let want = format!("lower left first molar (36): {said}");
        assert!(site.name.starts_with(&want), "{}", site.name);
        let marks = [
            Ink::Short,
            Ink::Unknown,
            Ink::Tight,
            Ink::Accepted,
            Ink::Intended,
            Ink::Clear,
        ];
        for mark in marks {
            assert_eq!(has_mark(site, mark), mark == ink, "{mark:?} at {said}");
        }
    }
}

#[test]
fn the_worst_finding_is_shown_and_the_others_to_settle_are_counted() {
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![site("a", tooth("36"), on_arch(tooth("36"), 0, 0))];
    let case = valid(case);
    let worksheet = work_out(&case);
    let found = worksheet.findings.iter().find(|f| f.site.is_some());
    let finding = found.unwrap().clone();
    let found = |verdicts: &[Verdict]| -> String {
        let each = verdicts.iter().map(|&verdict| Finding {
            verdict,
            decision: None,
            ..finding.clone()
        });
        let worksheet = Worksheet {
            findings: each.collect(),
            ..worksheet.clone()
        };
        let drawing = arch(&case, &worksheet, &options(150.0));
        group(&drawing, "site:a").name.clone()
    };
    let (clear, unknown, short) = (Verdict::Clear, Verdict::Unknown, Verdict::Short);
    let name = found(&[clear, unknown, short]);
    assert!(
        name.contains("short: ") && name.contains("and 1 more to resolve"),
        "{name}"
    );
    let name = found(&[clear, unknown, short, unknown]);
    assert!(
        name.contains("short: ") && name.contains("and 2 more to resolve"),
        "{name}"
    );
    let name = found(&[clear, unknown, clear]);
    assert!(
        name.contains("unknown: ") && !name.contains("more"),
        "{name}"
    );
}

#[test]
fn both_jaws_face_each_other_and_only_one_is_named_as_planned() {
    let mut case = all_present(Jaw::Lower);
    case.sites = vec![site("a", tooth("46"), on_arch(tooth("46"), 0, 0))];
    let both = ArchOptions {
        arches: Arches::Both,
        ..options(150.0)
    };
    let drawing = chart(&case, &both);
    let other = bounds(group(&drawing, "other-jaw"));
    let own = outline_of(&drawing, tooth("48")).0;
    assert!(other.bottom < own.top);
    let says = |words: &str| drawing.texts().iter().any(|t| t.content == words);
    assert!(says("upper jaw") && says("lower jaw") && says("Both jaws, as you face the patient"));
    assert_eq!(overlaps(&drawing), Vec::<(String, String)>::new());
}

#[test]
fn a_chosen_site_has_the_accent_and_no_other() {
    let mut case = all_present(Jaw::Lower);
    case.sites = ["36", "46"]
        .map(|iso| site(iso, tooth(iso), on_arch(tooth(iso), 0, 0)))
        .into();
    let id = "46".into();
    let chosen = ArchOptions {
        chosen: Some(ArchSelection::Site(&id)),
        ..options(150.0)
    };
    let drawing = chart(&case, &chosen);
    let accented = |id: &str| {
        circles(group(&drawing, id))
            .iter()
            .any(|(.., paint)| paint.stroke.is_some_and(|stroke| stroke.ink == Ink::Accent))
    };
    assert!(accented("site:46") && !accented("site:36"));
}

/// Pairs of texts that overlap.
fn overlaps(drawing: &Drawing) -> Vec<(String, String)> {
    let texts: Vec<(&Text, Rect)> = drawing
        .texts()
        .into_iter()
        .map(|t| (t, t.bounds()))
        .collect();
    let mut pairs = Vec::new();
    for (n, (a, upper)) in texts.iter().enumerate() {
        for (b, lower) in &texts[..n] {
            if upper.grown(-0.01).overlaps(*lower) {
                pairs.push((a.content.clone(), b.content.clone()));
            }
        }
    }
    pairs
}

/// Texts that a line or shape runs through or covers.
fn struck(drawing: &Drawing) -> Vec<String> {
    let mut taken = Occupied::default();
    drawing.visit(&mut |item, _| match item {
        Item::Line { points, .. } => {
            let ends = points.iter().copied().skip(1);
            taken.lines.extend(points.iter().copied().zip(ends));
        }
        Item::Circle { centre, radius, .. } => taken.discs.push((*centre, *radius)),
        Item::Polygon { rings, .. } => taken.rings.extend(rings.iter().cloned()),
        _ => {}
    });
    let texts = drawing.texts().into_iter();
    let hit = texts.filter(|text| !taken.leaves_free(text.bounds().grown(-0.05)));
    hit.map(|text| text.content.clone()).collect()
}

/// The lines from sites and pins to their words.
fn leaders(drawing: &Drawing) -> Vec<(Point, Point)> {
    groups(drawing)
        .into_iter()
        .filter(|group| group.id.starts_with("site:") || group.id.starts_with("pin:"))
        .map(|group| match &group.items[0] {
            Item::Line { points, .. } => (points[0], points[1]),
            other => panic!("{other:?}"),
        })
        .collect()
}

fn holds_together(drawing: &Drawing, width: f64) {
    assert_eq!(overlaps(drawing), Vec::<(String, String)>::new());
    assert_eq!(struck(drawing), Vec::<String>::new());
    let all = drawing.bounds().unwrap();
    assert!(
        all.left >= -1e-9 && all.top >= -1e-9 && all.right <= width + 1e-9,
        "{all:?}"
    );
    let leaders = leaders(drawing);
    for (n, one) in leaders.iter().enumerate() {
        for other in &leaders[..n] {
            assert!(!space::cross(*one, *other), "{one:?} and {other:?}");
        }
    }
    drawing.coverage().unwrap();
}

#[test]
fn a_full_arch_with_six_sites_and_three_pins_holds_together() {
    for jaw in Jaw::ALL {
        let mut case = with_arch(bare(jaw));
        let quadrants = match jaw {
            Jaw::Upper => [1, 2],
            Jaw::Lower => [4, 3],
        };
        for quadrant in quadrants {
            for (number, tilt) in [(2, 0), (4, 0), (6, -32)] {
                let at = ToothPosition::new(quadrant, number).unwrap();
                case.sites
                    .push(site(&at.to_string(), at, on_arch(at, tilt, 0)));
            }
        }
        case.teeth = ToothPosition::all_of(jaw)
            .map(|position| Tooth {
                position,
                state: ToothState::Missing,
                kind: None,
            })
            .collect();
        for (name, quadrant, number) in [("front", 0, 1), ("right", 0, 5), ("left", 1, 5)] {
            case.guide.pins.push(crate::case::CasePin {
                name: name.into(),
                pin: "pin".into(),
                at: ToothPosition::new(quadrants[quadrant], number).unwrap(),
                along_mm: Length::ZERO,
                buccal_mm: Length::from_mm(6),
            });
        }
        for width in [120.0, 174.0, 260.0] {
            let drawing = chart(&case, &options(width));
            holds_together(&drawing, width);
            // On a page of this width nothing has to be left out.
            let numbers = ToothPosition::all_of(jaw).map(|position| position.to_string());
            for number in numbers.filter(|_| width > 150.0) {
                assert!(
                    drawing.texts().iter().any(|t| t.content == number),
                    "{number}"
                );
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn nothing_overlaps_crosses_or_leaves_the_chart(
        case in any_case(),
        width in 60.0..280.0_f64,
        notation in prop::sample::select(Notation::ALL.to_vec()),
        words in "[a-z]{0,14}( [a-z0-9.]{1,9}){0,9}",
        both in any::<bool>(),
    ) {
        let formatter = |_: &Finding| words.clone();
        let options = ArchOptions {
            width_mm: width,
            height_mm: None,
            notation,
            texts: Texts::english(),
            headline: &formatter,
            arches: if both { Arches::Both } else { Arches::Own },
            chosen: None,
        };
        let drawing = chart(&case, &options);
        holds_together(&drawing, width.max(ArchOptions::LEAST_WIDTH_MM));
        // Whatever has to be left out, it is never a site or a pin.
        for site in &case.sites {
            let group = group(&drawing, &format!("site:{}", site.id));
            prop_assert!(group.items.iter().any(|item| matches!(item, Item::Text(_))));
        }
        prop_assert_eq!(leaders(&drawing).len(), case.sites.len() + case.guide.pins.len());
    }

    #[test]
    fn the_patients_right_is_on_the_left(case in any_case()) {
        let drawing = chart(&case, &options(174.0));
        for position in ToothPosition::all_of(case.jaw).filter(|p| p.side() == Side::Right) {
            let right = outline_of(&drawing, position).0.centre();
            let left = outline_of(&drawing, position.mirrored()).0.centre();
            prop_assert!(right.x < left.x);
            prop_assert!((right.y - left.y).abs() < 1e-9);
        }
    }

    #[test]
    fn the_mirrored_case_gives_the_mirrored_chart(case in any_case()) {
        let formatter = |_: &Finding| "some words on it".to_owned();
        let options = ArchOptions { headline: &formatter, ..options(174.0) };
        let drawing = chart(&case, &options);
        let mirror = chart(&mirrored(&case), &options);
        let same = |a: Rect, b: Rect| {
            let across = Rect { left: 174.0 - b.right, right: 174.0 - b.left, ..b };
            [a.left - across.left, a.right - across.right, a.top - b.top, a.bottom - b.bottom]
                .iter()
                .all(|off| off.abs() < 1e-6)
        };
        for one in groups(&drawing) {
            let Some((kind, id)) = one.id.split_once(':') else { continue };
            let other = if kind == "tooth" {
                format!("tooth:{}", tooth(id).mirrored())
            } else {
                one.id.clone()
            };
            if kind == "tooth" {
                // Hatching hangs on one grid on the page, so outlines are compared.
                let a = outline_of(&drawing, tooth(id)).0;
                let b = outline_of(&mirror, tooth(id).mirrored()).0;
                prop_assert!(same(a, b), "{}", one.id);
            } else {
                let b = bounds(group(&mirror, &other));
                prop_assert!(same(bounds(one), b), "{}: {:?} {:?}", one.id, bounds(one), b);
            }
        }
    }

    #[test]
    fn what_is_unknown_is_never_drawn_as_clear(case in any_case()) {
        let case = valid(case);
        let worksheet = work_out(&case);
        let drawing = arch(&case, &worksheet, &options(174.0));
        for sheet in &worksheet.sites {
            let group = group(&drawing, &format!("site:{}", sheet.id));
            let clear = matches!(sheet.worst, Severity::Clear | Severity::Note);
            prop_assert_eq!(has_mark(group, Ink::Clear), clear);
            prop_assert_eq!(has_mark(group, Ink::Unknown), sheet.worst == Severity::Unknown);
            prop_assert!(group.name.contains(sheet.worst.key()) || sheet.worst == Severity::Note);
        }
        for position in ToothPosition::all_of(case.jaw) {
            let entered = case.teeth.iter().any(|tooth| tooth.position == position);
            let (_, paint) = outline_of(&drawing, position);
            let dotted = paint.stroke.is_some_and(|stroke| stroke.dash == Dash::Dotted);
            prop_assert_eq!(dotted, !entered);
        }
    }
}

fn on_screen(case: &Case, arches: Arches, chosen: Option<ArchSelection<'_>>) -> ArchFrame {
    let case = valid(case.clone());
    let options = ArchOptions {
        height_mm: Some(128.0),
        arches,
        chosen,
        ..options(174.0)
    };
    arch_frame(&case, &work_out(&case), &options)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Else the arch would run away under the hand that moves a site.
    #[test]
    fn on_a_screen_the_arch_stands_still_whatever_is_planned(
        case in any_case(),
        both in any::<bool>(),
    ) {
        let arches = if both { Arches::Both } else { Arches::Own };
        let mut without = case.clone();
        without.sites.clear();
        without.guide.pins.clear();
        without.teeth.clear();
        let (with, without) = (on_screen(&case, arches, None), on_screen(&without, arches, None));
        prop_assert_eq!(&with.teeth, &without.teeth);
        prop_assert!((with.scale() - without.scale()).abs() < 1e-12);
        let room = Rect::new(at(0.0, 0.0), 174.0, 128.0);
        for tooth in &with.teeth {
            prop_assert!(tooth.ring.iter().all(|&point| room.holds(Rect::between(point, point))));
        }
    }
}

#[test]
fn a_hand_finds_what_is_drawn_where_it_is_drawn() {
    let mut case = all_present(Jaw::Upper);
    case.sites = vec![site("a", tooth("26"), on_arch(tooth("26"), -32, 0))];
    let id: SiteId = "a".into();
    let frame = on_screen(&case, Arches::Both, Some(ArchSelection::Site(&id)));
    let found = frame.site_at(platform(&frame.drawing, "a"), 0.0).unwrap();
    assert_eq!(found.id, id);
    assert!((found.platform - platform(&frame.drawing, "a")).length() < 1e-9);
    for position in ToothPosition::all_of(Jaw::Upper) {
        let centre = outline_of(&frame.drawing, position).0.centre();
        assert_eq!(frame.tooth_at(centre), Some(position));
        assert_eq!(frame.spot(position, centre).unwrap().at, position);
    }
    assert_eq!(frame.tooth_at(at(-5.0, -5.0)), None);
    assert!(frame.site_at(at(-5.0, -5.0), 0.0).is_none());
}

/// The ring that tilts is as far from the apex as before when both are moved alike, so a hand that
/// leaves it where it is leaves the tilts as they are.
#[test]
fn the_ring_of_the_chosen_site_stands_for_its_apex() {
    let mut case = all_present(Jaw::Lower);
    let placement = on_arch(tooth("46"), 4, -3);
    case.sites = vec![site("a", tooth("46"), placement)];
    let id: SiteId = "a".into();
    let plain = on_screen(&case, Arches::Own, None);
    assert_eq!(plain.sites[0].handle, None);
    let frame = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    let chosen = &frame.sites[0];
    assert!((chosen.handle.unwrap() - chosen.platform).length() > chosen.radius);
    assert_eq!(frame.tilted(&case.sites[0], chosen.apex), Some(placement));
    assert_eq!(frame.moved(placement, chosen.platform), Some(placement));
    case.guide.state = crate::case::GuideState::Made;
    let made = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    assert_eq!(made.sites[0].handle, None);
    case.guide.state = crate::case::GuideState::Planned;
    case.sites[0].placement = measured(Jaw::Lower, -14_000, 18_000, (0, 0));
    let measured = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    assert_eq!(measured.sites[0].handle, None);
    assert_eq!(measured.moved(case.sites[0].placement, at(0.0, 0.0)), None);
}

/// A number of so many characters is never broken, so the narrowest column must hold it.
#[test]
fn the_narrowest_column_holds_a_number_of_eight_characters() {
    let style = TextStyle::NOTE.bold();
    for number in ["88888888", "−8888.88"] {
        assert!(
            style.width(number) <= layout::LEAST_COLUMN - label::BESIDE,
            "{number}"
        );
    }
}

#[test]
fn a_site_in_the_middle_belongs_to_the_side_of_its_tooth() {
    let at = tooth("31");
    assert_eq!(place::side_of(crate::drawing::at(0.0, 4.0), at), Side::Left);
    assert_eq!(
        place::side_of(crate::drawing::at(0.0, 4.0), at.mirrored()),
        Side::Right
    );
}
