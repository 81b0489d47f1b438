//! The sample of one lower molar, and edits of it.

use crate::case::ValidCase;
use crate::dentition::Notation;
use crate::plan::{Worksheet, work_out};
use crate::samples;
use crate::wording::Formatter;
use serde_json::{Value, json};

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

/// Puts the whole sample into the upper jaw.
fn upper(case: &mut Value) {
    let mut text = case.to_string();
    for tooth in 1..=8 {
        text = text.replace(&format!("\"4{tooth}\""), &format!("\"1{tooth}\""));
    }
    *case = serde_json::from_str(&text).unwrap();
    case["jaw"] = json!("upper");
    case["sites"][0]["structures"][0]["kind"] = json!("nasopalatine_canal");
}

/// The sample after these edits, written as in `findings.txt`.
pub(in crate::wording) fn valid(edits: &[&str]) -> ValidCase {
    let mut case = samples::lower_molar();
    for edit in edits {
        match *edit {
            "measured-now" => samples::measure_anew(&mut case, Some(11.0)),
            "received-now" => samples::receive(&mut case),
            "two-sites" => two_sites(&mut case),
            "upper" => upper(&mut case),
            edit => samples::apply(&mut case, edit),
        }
    }
    samples::valid_json(case)
}

/// Works out the edited sample and looks at it with a formatter.
pub(in crate::wording) fn with<T>(
    edits: &[&str],
    look: impl FnOnce(Formatter<'_>, &Worksheet) -> T,
) -> T {
    let case = valid(edits);
    look(Formatter::english(&case, Notation::Iso), &work_out(&case))
}
