//! An invented case for one lower molar, and edits of it.

use crate::case::{Case, ValidCase, default_limits};
use crate::dentition::Notation;
use crate::plan::{Worksheet, work_out};
use crate::wording::Formatter;
use serde_json::{Value, json};

/// The sample with its measured values taken at the site as it is.
fn sample() -> Value {
    let mut case: Value = serde_json::from_str(include_str!("sample.json")).unwrap();
    case["limits"] = serde_json::to_value(default_limits()).unwrap();
    measure_now(&mut case["sites"][0]);
    case
}

/// Lets all that was measured at a site be measured at the site as it is.
fn measure_now(site: &mut Value) {
    let mut now =
        json!({ "placement": site["placement"], "platform_to_apex_mm": 9.5, "down_to_mm": 11 });
    if let Some(crest) = site["heights"].get("platform_below_crest") {
        now["platform_below_crest"] = crest.clone();
    }
    site["heights"]["measured_at"] = site["placement"].clone();
    for list in ["walls", "distances", "structures", "obstacles"] {
        for one in site[list].as_array_mut().unwrap() {
            one["measured_at"] = now.clone();
        }
    }
}

/// Plans a second site in front of the first, with nothing measured between the two.
fn two_sites(case: &mut Value) {
    let mut other = case["sites"][0].clone();
    other["id"] = json!("b");
    other["tooth"] = json!("44");
    other["placement"]["at"] = json!("44");
    other["distances"] = json!([]);
    other["structures"] = json!([]);
    case["sites"].as_array_mut().unwrap().push(other);
    case["teeth"][0]["state"] = json!("missing");
    case["sites"][0]["distances"] = json!([]);
}

/// Makes one edit, written as in `findings.txt`.
fn edit(case: &mut Value, edit: &str) {
    let mut words = edit.splitn(3, ' ');
    let (what, at) = (words.next().unwrap(), words.next());
    match (what, at.and_then(|at| at.rsplit_once('/')), words.next()) {
        ("measured-now", None, None) => measure_now(&mut case["sites"][0]),
        ("two-sites", None, None) => two_sites(case),
        ("set", Some((above, key)), Some(value)) => {
            let value = serde_json::from_str(value).unwrap_or_else(|e| panic!("{edit}: {e}"));
            match case.pointer_mut(above).unwrap_or_else(|| panic!("{edit}")) {
                Value::Array(list) => list[key.parse::<usize>().unwrap()] = value,
                object => object[key] = value,
            }
        }
        ("remove", Some((above, key)), None) => {
            let object = case.pointer_mut(above).and_then(Value::as_object_mut);
            let gone = object.and_then(|object| object.remove(key));
            assert!(gone.is_some(), "{edit}");
        }
        _ => panic!("{edit}"),
    }
}

/// The sample after these edits.
pub(in crate::wording) fn sound(edits: &[&str]) -> ValidCase {
    let mut case = sample();
    for one in edits {
        edit(&mut case, one);
    }
    let case: Case = serde_json::from_value(case).unwrap();
    ValidCase::try_from(case).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Works out the edited sample and looks at it with a speaker.
pub(in crate::wording) fn with<T>(
    edits: &[&str],
    look: impl FnOnce(Formatter<'_>, &Worksheet) -> T,
) -> T {
    let case = sound(edits);
    look(Formatter::english(&case, Notation::Iso), &work_out(&case))
}
