//! The rows of the order of use: what they say, and that they stay apart on a hard copy.

use super::at_the_tray::{TICK, boxes, texts_under, under_title};
use super::parts::{PAPERS, READINGS, form, of_many_sites, part};
use super::samples::{CASES, changed};
use super::*;
use crate::drawing::{Ink, Item, Text, pt};
use serde_json::{Value, json};

/// What a text blackens on its page from top to bottom, mm.
fn ink(text: &Text) -> (f64, f64) {
    let bounds = text.bounds();
    (bounds.top, bounds.bottom)
}

/// The order of use of a case, its words as one line.
fn order(case: &ValidCase) -> String {
    let form = part(case, SheetPart::Form, Paper::A4);
    under_title(&form, "Order of use").join(" ")
}

/// The place of these words in that line.
fn place(order: &str, words: &str) -> usize {
    let at = order.find(words);
    at.unwrap_or_else(|| panic!("{words:?} is not in {order}"))
}

/// Settings one below the other have 0.8 mm of white between them at least, and from what is written to a rule across the
/// page there are 0.25 mm at least (both as a copier leaves them apart; looked at, no source).
#[test]
fn neighbouring_rows_stay_apart_on_a_hard_copy() {
    let shipped = CASES.iter().map(|(name, _)| (*name, changed(name, |_| {})));
    let many = of_many_sites().into_iter();
    let many = many.map(|(name, _, case)| (name, case));
    let (mut pairs, mut rules) = (0, 0);
    let mut faults = std::collections::BTreeSet::new();
    for (name, case) in shipped.chain(many) {
        for paper in PAPERS {
            for page in READINGS
                .into_iter()
                .flat_map(|readings| form(&case, paper, readings))
            {
                let texts = page.over.texts();
                let mut large: Vec<&Text> = texts
                    .iter()
                    .copied()
                    .filter(|text| text.style.size_mm >= pt(14.0))
                    .filter(|text| !text.content.contains(char::is_alphabetic))
                    .collect();
                large.sort_by(|one, other| one.place.y.total_cmp(&other.place.y));
                for two in large.windows(2) {
                    let white = ink(two[1]).0 - ink(two[0]).1;
                    if white < 0.8 {
                        faults.insert(format!(
                            "{name}, {}: {white:.2} between settings",
                            page.title
                        ));
                    }
                    pairs += 1;
                }
                page.over.visit(&mut |item, _| {
                    let Item::Line { points, .. } = item else {
                        return;
                    };
                    let [from, to] = points[..] else { return };
                    if (from.y - to.y).abs() > 1e-6 || (from.x - to.x).abs() < 50.0 {
                        return;
                    }
                    let (left, right) = (from.x.min(to.x), from.x.max(to.x));
                    for text in &texts {
                        let bounds = text.bounds();
                        if bounds.right < left || bounds.left > right {
                            continue;
                        }
                        let (top, bottom) = ink(text);
                        let off = f64::max(top - from.y, from.y - bottom);
                        rules += 1;
                        if off < 0.25 {
                            faults.insert(format!(
                                "{name}, {}: {off:.2} from a rule to {:?}",
                                page.title, text.content
                            ));
                        }
                    }
                });
            }
        }
    }
    assert!(pairs > 100 && rules > 1000, "{pairs}, {rules}");
    let some: Vec<&String> = faults.iter().take(12).collect();
    assert_eq!(faults.len(), 0, "{some:#?}");
}

/// The lower jaw's case, these steps of its first site with a stop that does not go over their drills.
fn without_fit(steps: &[usize]) -> ValidCase {
    changed("two-molars", |case| {
        let mut narrow = case["kit"]["stops"][0].clone();
        narrow["id"] = json!("narrow");
        narrow["name"] = json!("Narrow stop");
        narrow["bore_mm"] = json!(1.0);
        case["kit"]["stops"].as_array_mut().unwrap().push(narrow);
        for step in steps {
            case["sites"][0]["steps"][*step]["stop"] = json!("narrow");
        }
    })
}

/// The radiograph after a first pass is asked for also where that pass is not to be drilled, with words on it and a box.
#[test]
fn the_check_after_a_forbidden_step_still_has_its_line() {
    let whole = changed("two-molars", |_| {});
    let one = without_fit(&[0]);
    let text = order(&one);
    let told = "Check radiograph: the drill before it is not to be used. The surgeon decides on it \
                before the next drill of this site.";
    assert!(text.contains("Do not use this drill."), "{text}");
    assert!(text.contains(told), "{text}");
    let ticks = |case: &ValidCase| {
        boxes(
            &part(case, SheetPart::Form, Paper::A4),
            "Order of use",
            TICK,
        )
    };
    assert_eq!(ticks(&whole) - ticks(&one), 1, "that of the drill");
    let steps = one.sites[0].steps.len();
    let none = without_fit(&(0..steps).collect::<Vec<_>>());
    let text = order(&none);
    let told = "Check radiograph: not possible, neither the drill before it nor any after it at this \
                site is to be used.";
    assert!(text.contains(told), "{text}");
    // On the page of the site it is the same.
    for (case, told) in [
        (&one, "the drill before it is not"),
        (&none, "not possible, neither"),
    ] {
        let annex = part(case, SheetPart::Annex, Paper::A4);
        let site = under_title(&annex, "Lower right first molar (46)").join(" ");
        assert!(site.contains(told), "{site}");
    }
}

/// Where no drill of a site can be used, its implant says so, and has nothing to tick or to write in; where some cannot be,
/// it says that.
#[test]
fn an_implant_without_a_drill_that_can_be_used_says_so_and_has_no_box() {
    const LABEL: &str = "label, or lot and expiry";
    let whole = changed("two-molars", |_| {});
    let steps = whole.sites[0].steps.len();
    let none = without_fit(&(0..steps).collect::<Vec<_>>());
    let form_of = |case: &ValidCase| part(case, SheetPart::Form, Paper::A4);
    let labels = |case: &ValidCase| order(case).matches(LABEL).count();
    assert_eq!(labels(&whole), 2);
    assert_eq!(labels(&none), 1);
    let told = "No drill of this site can be used: do not place this implant.";
    assert_eq!(order(&none).matches(told).count(), 1);
    assert!(!order(&whole).contains(told));
    let ticks = |case: &ValidCase| boxes(&form_of(case), "Order of use", TICK);
    // Those of its drills, of the check between them and of the implant.
    assert_eq!(ticks(&whole) - ticks(&none), steps + 2);
    let some = without_fit(&[0]);
    let told = "Not every drill of this site can be used: the surgeon decides before this implant is \
                placed.";
    assert!(order(&some).contains(told), "{}", order(&some));
    assert_eq!(labels(&some), 2);
    assert!(!order(&whole).contains("Not every drill"));
}

/// What most drills have is said once; one that differs says so across its row, which stays as high as the others.
#[test]
fn one_drill_of_another_irrigation_leaves_the_other_rows_as_they_are() {
    let with = |drill: &'static str, irrigation: Value| {
        changed("two-molars", move |case| {
            let drills = case["kit"]["drills"].as_array_mut().unwrap();
            let drill = drills.iter_mut().find(|one| one["id"] == drill).unwrap();
            if irrigation.is_null() {
                drill.as_object_mut().unwrap().remove("irrigation");
            } else {
                drill["irrigation"] = irrigation;
            }
        })
    };
    let whole = order(&changed("two-molars", |_| {}));
    assert_eq!(whole.matches("steady, aimed at").count(), 1);
    assert!(whole.contains("Irrigation for every drill: steady"));
    for (irrigation, told) in [
        (json!("none, turned dry"), "Irrigation: none, turned dry"),
        (Value::Null, "Irrigation: not in the kit"),
    ] {
        let text = order(&with("tap-432", irrigation));
        assert_eq!(text.matches("steady, aimed at").count(), 1, "{text}");
        assert!(
            text.contains("Irrigation where a row says no other: steady"),
            "{text}"
        );
        assert_eq!(text.matches(told).count(), 1, "{text}");
    }
    // Where the kit gives none for any, that is said once too.
    let none = changed("two-molars", |case| {
        for drill in case["kit"]["drills"].as_array_mut().unwrap() {
            drill.as_object_mut().unwrap().remove("irrigation");
        }
    });
    let text = order(&none);
    assert_eq!(text.matches("not in the kit").count(), 1, "{text}");
    assert!(
        text.contains("Irrigation for every drill: not in the kit."),
        "{text}"
    );
}

/// How far off a probe may be stands where it is read, and that nobody knows where there is no limit.
#[test]
fn the_sounding_says_how_far_off_it_may_be() {
    let text = order(&changed("two-molars", |_| {}));
    let told = "Bone sounding, more than 1.0 mm off: stop. The probe shows";
    assert!(text.contains(told), "{text}");
    let none = order(&changed("two-molars", |case| {
        case["limits"].as_object_mut().unwrap().remove("sounding");
    }));
    let told = "Bone sounding, no limit is set: how far off it may be is unknown. The probe shows";
    assert!(none.contains(told), "{none}");
}

/// What the surgeon decided on a step is read before the step is done.
#[test]
fn what_was_decided_on_a_step_stands_above_it() {
    let text = order(&changed("full-arch-upper", |_| {}));
    let decided = place(&text, "Intended by RT: The floor is to be lifted");
    let drill = decided + place(&text[decided..], "Full-diameter drill 3.72");
    let before = text[..decided].rfind("Full-diameter drill").unwrap();
    assert!(!text[before..decided].contains("Full-diameter drill 3.72"));
    let number = &text[decided..drill];
    assert!(!number.contains("Heron"), "{number}");
}

/// Pins come out when the guide comes off for good, and only where there are pins.
#[test]
fn pins_come_out_before_the_guide_comes_off_for_good() {
    let text = order(&changed("full-arch-upper", |_| {}));
    let out = "Remove the carriers that held the guide from their implants. Take the pins out: front, \
               right, left. Take the guide off.";
    assert_eq!(text.matches(out).count(), 1, "{text}");
    assert_eq!(text.to_lowercase().matches("take the pins out").count(), 2);
    let without = order(&changed("two-molars", |_| {}));
    assert!(without.contains("Take the guide off."));
    assert!(!without.to_lowercase().contains("pins"), "{without}");
}

#[test]
fn the_box_for_the_depth_reached_has_its_unit() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let form = part(&case, SheetPart::Form, Paper::A4);
        let words = texts_under(&form, "Order of use");
        let count = |wanted: &str| words.iter().filter(|(_, one)| one == wanted).count();
        assert_eq!(count("depth, mm"), case.sites.len(), "{name}");
        assert_eq!(count("depth"), 0, "{name}");
    }
}

/// What is written in the boxes of an implant stays within them.
#[test]
fn the_words_in_the_boxes_of_an_implant_have_room() {
    for paper in PAPERS {
        let case = changed("two-molars", |_| {});
        for page in part(&case, SheetPart::Form, paper) {
            let mut seen = Vec::new();
            page.over.visit(&mut |item, _| {
                if let (Item::Polygon { .. }, Some(bounds)) = (item, item.bounds()) {
                    seen.push(bounds);
                }
            });
            for text in page.over.texts() {
                let words = ["label, or lot and expiry", "N·cm", "stability", "depth, mm"];
                if !words.contains(&text.content.as_str()) {
                    continue;
                }
                let place = text.bounds();
                let boxed = seen.iter().find(|one| {
                    let across = one.left < place.left && place.left < one.right;
                    across && one.top < place.top && place.bottom < one.bottom && one.height() > 9.0
                });
                let room = boxed.map(|one| one.right - place.right);
                assert!(
                    room.is_some_and(|room| room > 0.5),
                    "{}: {room:?}",
                    text.content
                );
            }
        }
    }
}

/// The verdict *short* is a word as well wherever its mark stands in the form.
#[test]
fn short_is_a_word_beside_its_mark() {
    let case = changed("two-molars", |_| {});
    let (mut marks, mut words, mut of_sites) = (0, 0, 0);
    for page in part(&case, SheetPart::Form, Paper::A4) {
        let texts = page.over.texts();
        page.over.visit(&mut |item, _| {
            let is_short =
                matches!(item, Item::Polygon { paint, .. } if paint.fill == Some(Ink::Short));
            if let (true, Some(mark)) = (is_short, item.bounds()) {
                // Beside a setting it is told as the site's; in the legend and on the first page it is said what it is.
                let mut told = |words: &str| {
                    of_sites += usize::from(words == "site: short");
                    words.contains("short")
                };
                let beside = texts.iter().any(|text| {
                    let bounds = text.bounds();
                    let near = bounds.left > mark.right && bounds.left < mark.right + 3.0;
                    near && mark.top < bounds.bottom
                        && bounds.top < mark.bottom
                        && told(&text.content)
                });
                marks += 1;
                words += usize::from(beside);
            }
        });
    }
    assert!(marks > 12, "{marks}");
    assert_eq!(words, marks);
    let steps = case.sites[0].steps.len();
    assert_eq!(
        of_sites,
        2 * steps,
        "in the loading list and the order of use"
    );
}
