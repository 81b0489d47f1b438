//! `traywright order`: the answer as JSON for whoever checks it from outside.

use crate::desk::said;
use serde_json::Value;
use std::path::PathBuf;
use traywright::Outcome;

/// Two sites, one copy of each tool, one piece of the sleeve: by hand, each tool is mounted once
/// (2 · 100), the site changes once (20), the sleeve goes from one site to the other and is put in
/// twice (2 · 5), the speed changes once (3).
const PROBLEM: &str = r#"{
  "traywright_order": 1,
  "weights": { "mount_ds": 100, "reset_ds": 900, "move_ds": 20, "sleeve_ds": 5, "speed_ds": 3 },
  "tools": [{ "id": "a", "copies": 1 }, { "id": "b", "copies": 1 }],
  "sleeves": [{ "id": "s", "pieces": 1 }],
  "sites": [
    { "id": "36", "steps": [
      { "instrument": { "tool": "a", "setting": "9" }, "sleeve": { "place": "s" }, "speed_rpm": 800 }
    ] },
    { "id": "46", "steps": [
      { "instrument": { "tool": "a", "setting": "9" }, "sleeve": { "place": "s" }, "speed_rpm": 800 },
      { "instrument": { "tool": "b" }, "sleeve": "out", "speed_rpm": 50 }
    ] }
  ]
}"#;

fn file(text: &str) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("problem.json");
    std::fs::write(&path, text).unwrap();
    (folder, path)
}

#[test]
fn a_small_problem_is_solved_and_proved() {
    let (_folder, path) = file(PROBLEM);
    let said = said(&[&"order", &path]);
    assert_eq!(said.outcome, Outcome::Done, "{}", said.err);
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let cost = serde_json::json!({ "resets": 0, "time_ds": 233 });
    assert_eq!(answer["cost"], cost);
    assert_eq!(answer["bound"], cost);
    assert_eq!(answer["proved"], true);
    assert!(answer["states_expanded"].is_u64());
    let sites: Vec<&str> = answer["schedule"]
        .as_array()
        .unwrap()
        .iter()
        .map(|done| done["site"].as_str().unwrap())
        .collect();
    assert_eq!(sites, ["36", "46", "46"]);
    assert_eq!(answer["schedule"][1]["victim"], "36");
}

#[test]
fn the_answer_is_as_its_schema_says() {
    let (_folder, path) = file(PROBLEM);
    let file = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../assets/schema/order-answer.schema.json"
    );
    let schema: Value = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
    let answer: Value = serde_json::from_str(&said(&[&"order", &path]).out).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    assert!(validator.is_valid(&answer), "{answer:#}");
}

#[test]
fn the_work_is_limited() {
    let (_folder, path) = file(PROBLEM);
    let said = said(&[&"order", &path, &"--work", &"0"]);
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(answer["states_expanded"], 0);
    assert_eq!(answer["schedule"].as_array().unwrap().len(), 3);
}

#[test]
fn what_no_order_can_obey_is_refused_with_names_and_a_remedy() {
    let no_sleeve = PROBLEM.replace("\"pieces\": 1", "\"pieces\": 0");
    let no_copy = no_sleeve.replace("\"b\", \"copies\": 1", "\"b\", \"copies\": 0");
    let (_folder, path) = file(&no_copy);
    let refused = said(&[&"order", &path]);
    assert_eq!(refused.outcome, Outcome::Failed);
    assert_eq!(refused.out, "");
    for part in [
        "no sleeve s, which step",
        "there is no b, which step 2 at 46 needs",
        "Provide at least one copy",
    ] {
        assert!(refused.err.contains(part), "{part}: {}", refused.err);
    }
    let rules = r#""rules": { "before": [
        { "first": "36", "then": "46" }, { "first": "46", "then": "36" } ] }, "sites""#;
    let (_folder, path) = file(&PROBLEM.replace("\"sites\"", rules));
    let refused = said(&[&"order", &path]);
    assert_eq!(refused.outcome, Outcome::Failed);
    for part in [
        "contradict",
        "36#1 → 46#1 (before[0])",
        "46#2 → 36#1 (before[1])",
    ] {
        assert!(refused.err.contains(part), "{part}: {}", refused.err);
    }
}

#[test]
fn another_file_is_called_by_its_name() {
    let (_folder, path) = file("{ \"traywright_case\": 1 }");
    let refused = said(&[&"order", &path]);
    assert_eq!(refused.outcome, Outcome::Failed);
    assert!(
        refused.err.contains("not a Traywright run order"),
        "{}",
        refused.err
    );
}
