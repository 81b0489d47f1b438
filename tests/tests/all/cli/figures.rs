//! `figures`: JSON of the shipped form, for every case of the demonstration.

use crate::demo;
use crate::desk::said;
use serde_json::Value;
use std::collections::BTreeSet;
use traywright::Outcome;

/// Output of the command for a case of the demonstration.
pub(super) fn printed(name: &str, explain: &[&str]) -> Value {
    let path = demo::path(name);
    let said = match explain {
        [flag] => said(&[&"figures", &path, flag]),
        _ => said(&[&"figures", &path]),
    };
    assert_eq!((said.outcome, said.err.as_str()), (Outcome::Done, ""));
    serde_json::from_str(&said.out).unwrap()
}

fn shipped_schema() -> Value {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../assets/schema/figures.schema.json"
    );
    serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap()
}

#[test]
fn every_case_is_printed_in_the_form_of_the_shipped_schema() {
    let schema = jsonschema::validator_for(&shipped_schema()).unwrap();
    for name in demo::CASES {
        for explain in [&[][..], &["--explain"]] {
            let figures = printed(name, explain);
            let faults: Vec<String> = schema
                .iter_errors(&figures)
                .map(|error| format!("{}: {error}", error.instance_path()))
                .collect();
            assert!(faults.is_empty(), "{name} {explain:?}: {faults:?}");
        }
    }
}

/// The schema is no rubber stamp.
#[test]
fn figures_that_were_tampered_with_do_not_fit_the_schema() {
    let schema = jsonschema::validator_for(&shipped_schema()).unwrap();
    let good = printed("one-premolar", &[]);
    for (place, bad) in [
        ("/sites/0/steps/0/set_mm", Value::from("19.2")),
        ("/sites/0/deepest_cut_mm", Value::from(true)),
        ("/findings/0/severity", Value::from(3)),
        ("/fingerprint", Value::Null),
        ("/loading", serde_json::json!({})),
    ] {
        let mut figures = good.clone();
        *figures.pointer_mut(place).unwrap() = bad;
        assert!(!schema.is_valid(&figures), "{place}");
    }
    let mut more = good;
    more["sites"][0]["steps"][0]["colour"] = Value::from("red");
    assert!(!schema.is_valid(&more));
}

/// The keys that other programs were promised.
#[test]
fn the_promised_keys_are_there_in_every_case() {
    for name in demo::CASES {
        let figures = printed(name, &[]);
        let has = |value: &Value, keys: &[&str]| {
            for key in keys {
                assert!(value.get(key).is_some(), "{name}: no {key} in {value}");
            }
        };
        has(&figures, &["sites", "findings", "loading", "fingerprint"]);
        let list = |value: &Value, key: &str| value[key].as_array().unwrap().clone();
        for site in list(&figures, "sites") {
            has(&site, &["deepest_cut_mm", "steps"]);
            let keys = ["seat_mm", "exact_mm", "set_mm", "gauge_mm", "cut_mm"];
            assert!(!list(&site, "steps").is_empty(), "{name}");
            for step in list(&site, "steps") {
                has(&step, &keys);
            }
        }
        assert!(!list(&figures, "findings").is_empty(), "{name}");
        for finding in list(&figures, "findings") {
            has(
                &finding,
                &["severity", "path", "rule", "value_mm", "limit_mm"],
            );
        }
        assert!(!list(&figures, "loading").is_empty(), "{name}");
        assert_eq!(
            figures["fingerprint"],
            demo::valid(name).fingerprint().to_string()
        );
    }
}

/// A value that is not known is null and its reason is beside it; one that is known has none.
#[test]
fn what_is_not_known_is_null_with_its_reason() {
    let mut nulls = BTreeSet::new();
    for name in demo::CASES {
        let figures = printed(name, &[]);
        for site in figures["sites"].as_array().unwrap() {
            for step in site["steps"].as_array().unwrap() {
                for key in ["seat_mm", "exact_mm", "set_mm", "cut_mm"] {
                    let unknown = step["unknown"].get(key);
                    assert_eq!(step[key].is_null(), unknown.is_some(), "{name} {key}");
                    nulls.extend(unknown.map(|_| format!("{name} {key}")));
                }
            }
        }
        for finding in figures["findings"].as_array().unwrap() {
            let unknown = !finding["unknown"].as_array().unwrap().is_empty();
            let severity = finding["severity"].as_str().unwrap();
            assert!(unknown || severity != "unknown", "{name}: {finding}");
        }
    }
}

/// The same case gives the same bytes.
#[test]
fn the_same_case_is_printed_the_same_twice() {
    for name in demo::CASES {
        let path = demo::path(name);
        let twice = [0, 1].map(|_| said(&[&"figures", &path, &"--explain"]).out);
        assert_eq!(twice[0], twice[1], "{name}");
    }
}
