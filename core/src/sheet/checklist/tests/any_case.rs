//! Cases of every size and shape, on both papers.

use super::samples::{CASES, at_teeth, changed, forget, json_of, rename};
use super::{Paper, holds_together, pages};
use crate::samples::checked;
use serde_json::{Value, json};

const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];

const GREEK: &str = "Παπαδοπούλου-Κωνσταντινοπούλου, η πολύ μακριά ονομασία ενός εργαλείου που δεν τελειώνει και συνεχίζεται ως το τέλος της γραμμής";
const CYRILLIC: &str = "Сверхпротяжённонаименованныйинструментбезединогопробелавсвоёмназванииидлиннеелюбойстрокинабумагеисновапродолжается";
const LATIN: &str = "Größenverstellbarer Żółć-Anschlag für überlange Äquatorialführungen, Ắ mit Tiefenmarkierung und zweitem Namen";

#[test]
fn every_shipped_case_holds_together_on_both_papers() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        for paper in PAPERS {
            holds_together(&pages(&case, paper), &format!("{name} on {paper:?}"));
        }
    }
}

#[test]
fn long_names_of_any_script_hold_together() {
    for (name, words, paper) in [
        ("two-molars", GREEK, Paper::A4),
        ("fixed-stops", CYRILLIC, Paper::Letter),
        ("full-arch-upper", LATIN, Paper::A4),
    ] {
        let case = changed(name, |case| {
            rename(case, words);
            case["reference"] = json!(words.chars().take(110).collect::<String>());
            for role in ["surgeon", "nurse", "second_checker"] {
                case["team"][role] = json!(words.chars().take(100).collect::<String>());
            }
        });
        holds_together(&pages(&case, paper), name);
    }
}

#[test]
fn ten_sites_hold_together() {
    let teeth = ["46", "45", "44", "43", "42", "32", "33", "34", "35", "36"];
    let case = changed("two-molars", |case| at_teeth(case, &teeth));
    let pages = pages(&case, Paper::A4);
    holds_together(&pages, "ten sites");
    let headed = |tooth: &str| {
        let all = super::read(&pages);
        all.contains(&format!("({tooth}) "))
    };
    assert!(teeth.into_iter().all(headed));
}

#[test]
fn forty_steps_break_between_rows() {
    let case = changed("one-premolar", |case| {
        let step = case["sites"][0]["steps"][1].clone();
        let steps = (0..40).map(|n| {
            let mut step = step.clone();
            step["id"] = json!(format!("n{n}"));
            step
        });
        case["sites"][0]["steps"] = steps.collect();
    });
    holds_together(&pages(&case, Paper::Letter), "forty steps");
}

#[test]
fn an_empty_case_holds_together() {
    let case = changed("one-premolar", |case| {
        case["sites"] = json!([]);
        case["judgements"] = json!([]);
        case["guide"]["receipt"] = json!([]);
        case["kit"]["accessories"] = json!([]);
        case["kit"]["drivers"] = json!([]);
    });
    for paper in PAPERS {
        holds_together(&pages(&case, paper), "no sites");
    }
}

#[test]
fn a_case_of_which_nothing_is_known_holds_together() {
    for (name, _) in CASES {
        let case = changed(name, forget);
        holds_together(&pages(&case, Paper::A4), name);
    }
}

/// Takes away one entered thing after the other: the pages hold together whatever is missing.
#[test]
fn the_pages_hold_together_without_any_one_entry() {
    let whole = json_of("one-premolar");
    let mut looked_at = 0;
    for place in [
        "",
        "/guide",
        "/setup",
        "/sites/0",
        "/sites/0/heights",
        "/sites/0/steps/0",
    ] {
        let Some(Value::Object(map)) = whole.pointer(place) else {
            panic!("no {place}");
        };
        for key in map.keys() {
            let mut case = whole.clone();
            case.pointer_mut(place)
                .and_then(Value::as_object_mut)
                .unwrap()
                .remove(key);
            // Without some entries there is no case.
            if let Ok(case) = checked(case) {
                holds_together(&pages(&case, Paper::A4), &format!("without {place}/{key}"));
                looked_at += 1;
            }
        }
    }
    assert!(looked_at > 20, "{looked_at}");
}
