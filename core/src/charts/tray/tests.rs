//! Properties that hold for every tray drawing.

use super::*;
use crate::case::Case;
use crate::charts::arch_samples::{any_case, bare, on_arch, site, tooth, with_arch, with_slots};
use crate::dentition::Jaw;
use crate::drawing::{Group, Item, pt};
use crate::plan::work_out;
use crate::samples::demo::CASES;
use crate::samples::{valid, valid_json};
use proptest::prelude::*;

fn setting(item: &LoadItem) -> Option<String> {
    let gauge = item.set.as_ref()?.gauge.get()?;
    Some(format!("{:.1}", gauge.mm()))
}

fn options(width_mm: f64) -> TrayOptions<'static> {
    TrayOptions {
        width_mm,
        texts: Texts::english(),
        setting: Some(&setting),
        look: &|_| SlotLook::Filled,
    }
}

fn drawn(case: &Case, options: &TrayOptions<'_>) -> Drawing {
    let case = valid(case.clone());
    tray(&case, &work_out(&case), options).unwrap()
}

fn two_sites() -> Case {
    let mut case = with_arch(bare(Jaw::Lower));
    case.sites = ["36", "46"]
        .map(|iso| site(iso, tooth(iso), on_arch(tooth(iso), 0, 0)))
        .into();
    case
}

fn slots(drawing: &Drawing) -> Vec<&Group> {
    let each = drawing.items().iter().filter_map(|item| match item {
        Item::Group(group) if group.id.starts_with("slot:") => Some(group),
        _ => None,
    });
    each.collect()
}

fn words(group: &Group) -> Vec<String> {
    let each = group.items.iter().filter_map(|item| match item {
        Item::Text(text) => Some(text.content.clone()),
        _ => None,
    });
    each.collect()
}

/// Seat 6.2 + 4.4 + 0.7 = 11.3 in the first drill sleeve, 10.6 in the flush one; implant 11.3: 22.6
/// and 21.9.
#[test]
fn a_slot_says_what_lies_in_it_and_how_it_is_set() {
    let drawing = drawn(&two_sites(), &options(200.0));
    let slots = slots(&drawing);
    assert_eq!(slots.len(), 8);
    assert_eq!(slots[0].id, "slot:D 0");
    assert_eq!(words(slots[0]).join(" "), "D 0 1 P pilot 2.13 set, mm 22.6");
    // The cutting diameter is added where the name does not hold it.
    assert_eq!(
        words(slots[1]).join(" "),
        "D 1 2 L full ⌀ 3.36 set, mm 21.9"
    );
    assert_eq!(slots[1].name, "D 1: number 2, full ⌀ 3.36, L, set 21.9 mm");
    assert_eq!(words(slots[7]), ["D 7"]);
    assert_eq!(slots[7].name, "D 7: empty");
}

#[test]
fn a_name_that_fits_when_it_breaks_at_its_hyphen_is_not_left_out() {
    let mut case = with_slots(two_sites(), 14, 46, 12);
    case.kit.drills[1].name = "full-diameter".into();
    let drawing = drawn(&case, &options(170.0));
    let said = words(slots(&drawing)[1]).join(" ");
    assert!(said.contains("L full- diameter ⌀ 3.36 set, mm"), "{said}");
}

#[test]
fn a_setting_that_is_not_known_is_said_to_be_unknown() {
    let mut case = two_sites();
    case.sites[0].platform_to_sleeve = None;
    let drawing = drawn(&case, &options(200.0));
    let unknown: Vec<_> = slots(&drawing)
        .into_iter()
        .filter(|slot| slot.name.contains("setting unknown"))
        .collect();
    assert_eq!(unknown.len(), 2);
    assert!(words(unknown[0]).contains(&"no figure".to_owned()));
    assert!(words(unknown[0]).iter().all(|word| !word.contains("22")));
}

#[test]
fn a_blind_tray_neither_shows_nor_says_a_setting() {
    let blind = TrayOptions {
        setting: None,
        ..options(200.0)
    };
    let drawing = drawn(&two_sites(), &blind);
    let slots = slots(&drawing);
    assert_eq!(words(slots[0]).join(" "), "D 0 1 P pilot 2.13");
    assert_eq!(slots[1].name, "D 1: number 2, full ⌀ 3.36, L");
}

#[test]
fn the_next_slot_alone_has_the_accent() {
    let look = |item: &LoadItem| match item.entry.as_str() {
        "f" => SlotLook::Next,
        "pd" => SlotLook::Filled,
        _ => SlotLook::Waiting,
    };
    let options = TrayOptions {
        look: &look,
        ..options(200.0)
    };
    let drawing = drawn(&two_sites(), &options);
    let accented: Vec<bool> = slots(&drawing)
        .iter()
        .map(|slot| match &slot.items[0] {
            Item::Polygon { paint, .. } => paint.stroke.unwrap().ink == Ink::Accent,
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(accented[..3], [false, true, false]);
    assert!(slots(&drawing)[1].name.starts_with("D 1: next, number 2"));
}

#[test]
fn what_has_no_slot_is_counted_and_a_case_without_a_tray_has_no_drawing() {
    let mut case = two_sites();
    let counted = |case: &Case| {
        let drawing = drawn(case, &options(200.0));
        let texts = drawing.texts();
        let note = texts.iter().find(|t| t.content.contains("Without a slot"));
        note.map(|note| note.content.clone())
    };
    let case_sound = valid(case.clone());
    let without = work_out(&case_sound)
        .loading
        .iter()
        .filter(|item| item.slot.is_none())
        .count();
    // Two implants and two sleeves, for which this tray has no place.
    assert_eq!(without, 4);
    assert_eq!(
        counted(&case).as_deref(),
        Some("Without a slot: 4; see the list.")
    );
    case = with_slots(case, 16, 30, 9);
    assert_eq!(counted(&case), None);
    case.setup.tray = None;
    let case = valid(case);
    assert!(tray(&case, &work_out(&case), &options(200.0)).is_none());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn words_stay_in_their_slot_and_never_overlap(
        case in any_case(),
        cell in (1..60_i64, 1..60_i64, 1..14_i64),
        width in 20.0..240.0_f64,
    ) {
        let case = with_slots(case, cell.0, cell.1, cell.2);
        let drawing = drawn(&case, &options(width));
        for slot in slots(&drawing) {
            let area = slot.items[0].bounds().unwrap();
            for item in &slot.items {
                prop_assert!(area.grown(1e-9).holds(item.bounds().unwrap()), "{:?}", item);
            }
            let texts: Vec<Rect> = slot
                .items
                .iter()
                .filter(|item| matches!(item, Item::Text(_)))
                .filter_map(Item::bounds)
                .collect();
            for (n, one) in texts.iter().enumerate() {
                prop_assert!(!texts[..n].iter().any(|other| one.grown(-0.01).overlaps(*other)));
            }
        }
        let plate = Rect::new(at(0.0, 0.0), width, f64::INFINITY).grown(1e-9);
        prop_assert!(plate.holds(drawing.bounds().unwrap()));
    }

    /// A slot shows either all that its level says or less of it, but never a part of a figure.
    #[test]
    fn a_figure_is_whole_or_not_there(
        case in any_case(),
        cell in (1..40_i64, 1..60_i64),
        width in 60.0..240.0_f64,
    ) {
        let case = valid(with_slots(case, cell.0, cell.1, 12));
        let worksheet = work_out(&case);
        let drawing = tray(&case, &worksheet, &options(width)).unwrap();
        let slots = slots(&drawing);
        for (index, item) in worksheet.loading.iter().enumerate() {
            let Some(name) = &item.slot else { continue };
            let slot = slots.iter().find(|slot| slot.id == format!("slot:{name}")).unwrap();
            let words = words(slot);
            let number = (index + 1).to_string();
            prop_assert!(words.is_empty() || words.contains(&number), "{words:?}");
            let set = words.iter().position(|word| word == "set, mm");
            if let (Some(at), Some(want)) = (set, setting(item)) {
                prop_assert_eq!(&words[at + 1], &want);
            }
        }
    }

    /// Of whatever a slot says nothing is lost when the tray is drawn larger.
    #[test]
    fn a_larger_drawing_never_shows_less(
        case in any_case(),
        cell in (1..60_i64, 1..60_i64, 1..14_i64),
        width in 20.0..240.0_f64,
        factor in 1.0..3.0_f64,
    ) {
        let case = with_slots(case, cell.0, cell.1, cell.2);
        let case = valid(case);
        let worksheet = work_out(&case);
        let shown = |width| {
            let drawing = tray(&case, &worksheet, &options(width)).unwrap();
            let each = slots(&drawing).into_iter().map(|slot| {
                let words = words(slot).join(" ");
                words.split_whitespace().map(str::to_owned).collect()
            });
            each.collect::<Vec<Vec<String>>>()
        };
        for (small, large) in shown(width).iter().zip(shown(width * factor)) {
            for word in small {
                prop_assert!(large.contains(word), "{small:?} at {width}, {large:?} larger");
            }
        }
    }
}

/// Every letter and shape that a thing in a slot bears is drawn within that slot of the map, for each demonstration, in 8
/// points at least.
#[test]
fn the_map_leaves_no_marking_out() {
    let mut seen = 0;
    for (name, file) in CASES {
        let case = valid_json(serde_json::from_slice(file).unwrap());
        let worksheet = work_out(&case);
        for width in [92.0, 110.0] {
            let map = tray_map(&case, &worksheet, Texts::english(), width).unwrap();
            for item in &worksheet.loading {
                let Some(slot) = &item.slot else { continue };
                let groups = slots(&map);
                let id = format!("slot:{slot}");
                let group = groups.iter().find(|group| group.id == id).unwrap();
                let area = group.items[0].bounds().unwrap();
                for item in &group.items {
                    assert!(
                        area.grown(1e-6).holds(item.bounds().unwrap()),
                        "{name}, {slot}"
                    );
                }
                let texts = group.items.iter().filter_map(|item| match item {
                    Item::Text(text) => Some(text),
                    _ => None,
                });
                let texts: Vec<_> = texts.collect();
                for (n, text) in texts.iter().enumerate() {
                    assert!(text.style.size_mm >= pt(8.0) - 1e-9);
                    let bounds = text.bounds();
                    let mut others = texts[..n].iter();
                    assert!(
                        !others.any(|other| other.bounds().overlaps(bounds)),
                        "{name}, {slot}"
                    );
                }
                if let Some(letter) = &item.marking.letter {
                    let there = texts.iter().any(|text| text.content == *letter);
                    assert!(there, "{name}, {slot} at {width}: {letter}");
                    seen += 1;
                }
                // The slot's own outline is the first.
                let drawn =
                    |item: &&Item| matches!(item, Item::Polygon { .. } | Item::Circle { .. });
                let shapes = group.items[1..].iter().filter(drawn).count();
                let there = shapes > 0;
                assert_eq!(
                    there,
                    item.marking.shape.is_some(),
                    "{name}, {slot} at {width}"
                );
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

/// A sign that fits on one line in no size goes on below, each letter of it.
#[test]
fn a_long_sign_goes_on_below_on_the_map() {
    let (_, file) = CASES
        .iter()
        .find(|(name, _)| *name == "two-molars")
        .unwrap();
    let mut json: serde_json::Value = serde_json::from_slice(file).unwrap();
    for drill in json["kit"]["drills"].as_array_mut().unwrap() {
        drill["marking"]["letter"] = serde_json::json!("MWQAMW");
    }
    let case = valid_json(json);
    let worksheet = work_out(&case);
    let map = tray_map(&case, &worksheet, Texts::english(), 92.0).unwrap();
    let drills = worksheet.loading.iter();
    let drills = drills.filter(|item| item.kind == crate::kit::SlotKind::Drill);
    let mut seen = 0;
    for slot in drills.filter_map(|item| item.slot.as_ref()) {
        let id = format!("slot:{slot}");
        let groups = slots(&map);
        let group = groups.iter().find(|group| group.id == id).unwrap();
        let said = words(group).concat();
        assert!(said.ends_with("MWQAMW"), "{slot}: {said}");
        let area = group.items[0].bounds().unwrap();
        let mut items = group.items.iter();
        assert!(
            items.all(|item| area.grown(1e-6).holds(item.bounds().unwrap())),
            "{slot}"
        );
        seen += 1;
    }
    assert!(seen > 5);
}

/// Where the map is to scale and a marking has no room in its slot, that is told.
#[test]
fn a_map_that_has_no_room_for_markings_says_so() {
    let (_, file) = CASES
        .iter()
        .find(|(name, _)| *name == "two-molars")
        .unwrap();
    let case = valid_json(serde_json::from_slice(file).unwrap());
    let told = |width| {
        let map = tray_map(&case, &work_out(&case), Texts::english(), width).unwrap();
        let texts = map.texts().into_iter();
        let said: Vec<String> = texts.map(|text| text.content.clone()).collect();
        said.join(" ").contains("Drawn without their markings")
    };
    assert!(told(40.0));
    assert!(!told(92.0));
}
