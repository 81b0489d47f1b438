//! The cases that ship with the program, and changes of them.

use crate::case::ValidCase;
pub(super) use crate::samples::{checked, demo::CASES};
use jiff::Timestamp;
use serde_json::{Value, json};

pub(super) fn printed_at() -> Timestamp {
    Timestamp::from_second(1_935_817_689).unwrap()
}

/// A shipped case as JSON.
pub(super) fn json_of(name: &str) -> Value {
    let (_, file) = CASES.iter().find(|(known, _)| *known == name).unwrap();
    serde_json::from_slice(file).unwrap()
}

/// A shipped case after a change.
pub(super) fn changed(name: &str, change: impl FnOnce(&mut Value)) -> ValidCase {
    let mut case = json_of(name);
    change(&mut case);
    checked(case).unwrap_or_else(|faults| panic!("{name}: {faults}"))
}

/// Gives every named thing a name that ends in the one it had, so that names stay different.
pub(super) fn rename(value: &mut Value, words: &str) {
    match value {
        Value::Object(map) => {
            for (key, inner) in map.iter_mut() {
                match inner {
                    Value::String(name) if matches!(key.as_str(), "name" | "code" | "then") => {
                        let room = 120 - name.chars().count();
                        let cut: String = words.chars().take(room - 1).collect();
                        *name = format!("{} {name}", cut.trim_end());
                    }
                    _ => rename(inner, words),
                }
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|inner| rename(inner, words)),
        _ => {}
    }
}

/// Everything that was entered about anatomy and guide taken away.
pub(super) fn forget(case: &mut Value) {
    for key in ["arch", "teeth", "judgements"] {
        case.as_object_mut().unwrap().remove(key);
    }
    case["guide"].as_object_mut().unwrap().remove("scan_date");
    case["limits"] = json!({});
    case["team"] = json!({});
    case["setup"] = json!({"use_order": "site_by_site"});
    for site in case["sites"].as_array_mut().unwrap() {
        let site = site.as_object_mut().unwrap();
        for key in [
            "platform_to_sleeve",
            "density",
            "heights",
            "walls",
            "distances",
            "structures",
            "obstacles",
            "insertion",
            "protocol",
        ] {
            site.remove(key);
        }
    }
}

/// The lower jaw's case of two sites with its first site at each of these teeth.
pub(super) fn at_teeth(case: &mut Value, teeth: &[&str]) {
    let first = case["sites"][0].clone();
    let sites = teeth.iter().map(|tooth| {
        let mut site = first.clone();
        site["id"] = json!(format!("s{tooth}"));
        site["tooth"] = json!(tooth);
        site["placement"]["at"] = json!(tooth);
        site["distances"] = json!([]);
        site
    });
    case["sites"] = sites.collect();
    case["teeth"] = json!([]);
    case["judgements"] = json!([]);
    case["guide"]["receipt"] = json!([]);
}
