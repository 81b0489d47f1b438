//! What is drawn and said of a jaw, its teeth and its sites.

use super::properties::overlaps;
use super::*;

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
    assert!(site.name.contains("site: unknown, nothing checked"));
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

#[test]
fn a_site_in_the_middle_belongs_to_the_side_of_its_tooth() {
    let at = tooth("31");
    assert_eq!(place::side_of(crate::drawing::at(0.0, 4.0), at), Side::Left);
    assert_eq!(
        place::side_of(crate::drawing::at(0.0, 4.0), at.mirrored()),
        Side::Right
    );
}
