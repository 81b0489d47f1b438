//! Properties that hold for every arch chart, a full one first.

use super::*;

/// Pairs of texts that overlap.
pub(super) fn overlaps(drawing: &Drawing) -> Vec<(String, String)> {
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
