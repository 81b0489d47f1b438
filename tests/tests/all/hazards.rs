//! `tests/hazards.md` names for each hazard the tests that show its control: each of them is there.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The sources by the path that a test's name begins with: `core/plan/depth`, `tests/all/cli/paths`.
pub(crate) fn sources() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for (folder, name) in [
        ("core/src", "core"),
        ("app/src", "app"),
        ("app/tests", "app/tests"),
        ("tests/tests", "tests"),
    ] {
        walk(&root().join(folder), name, &mut found);
    }
    found
}

fn walk(folder: &Path, name: &str, found: &mut BTreeMap<String, String>) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries {
        let path = entry.unwrap().path();
        let stem = path.file_stem().unwrap().to_str().unwrap();
        let here = format!("{name}/{stem}");
        if path.is_dir() {
            walk(&path, &here, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.insert(here, fs::read_to_string(&path).unwrap());
        }
    }
}

/// A hazard: its heading and the text below it.
struct Hazard {
    heading: String,
    text: String,
}

fn hazards() -> Vec<Hazard> {
    let text = fs::read_to_string(root().join("tests/hazards.md")).unwrap();
    let sections = text.split("\n### ").skip(1);
    sections
        .map(|section| {
            let (heading, text) = section.split_once('\n').unwrap();
            let text = text.split("\n## ").next().unwrap();
            Hazard {
                heading: heading.to_owned(),
                text: text.to_owned(),
            }
        })
        .collect()
}

/// The tests that a hazard names: `` `file::name` `` with a file's path.
fn tests_named(text: &str) -> Vec<(String, String)> {
    let quoted = text.split('`').skip(1).step_by(2);
    quoted
        .filter_map(|quoted| quoted.split_once("::"))
        .map(|(file, test)| (file.to_owned(), test.to_owned()))
        .collect()
}

/// True if a source has a test of this name: the attribute is above the function, or the function
/// is in a `proptest!` block.
fn has_test(source: &str, name: &str) -> bool {
    let Some(at) = source.find(&format!("fn {name}(")) else {
        return false;
    };
    let above: Vec<&str> = source[..at].lines().rev().take(6).collect();
    above.iter().any(|line| line.trim() == "#[test]")
}

#[test]
fn every_test_that_a_hazard_names_exists() {
    let sources = sources();
    let mut lost = Vec::new();
    for hazard in hazards() {
        for (file, test) in tests_named(&hazard.text) {
            let found = sources
                .get(&file)
                .is_some_and(|source| has_test(source, &test));
            if !found {
                lost.push(format!("{}: {file}::{test}", hazard.heading));
            }
        }
    }
    assert!(lost.is_empty(), "no such test:\n{}", lost.join("\n"));
}

/// Each hazard says what is done in the order of ISO 14971, or that it is open.
#[test]
fn every_hazard_is_controlled_and_shown_or_said_to_be_open() {
    let hazards = hazards();
    assert!(hazards.len() >= 25, "{}", hazards.len());
    for hazard in &hazards {
        let Hazard { heading, text } = hazard;
        if text.contains("**Open.**") {
            continue;
        }
        let order = ["**Inherent.**", "**Protective.**", "**Information.**"];
        let at: Vec<usize> = order.iter().filter_map(|word| text.find(word)).collect();
        assert!(!at.is_empty(), "{heading}: nothing is done");
        assert!(at.is_sorted(), "{heading}: not in the order of ISO 14971");
        assert!(text.contains("**Harm.**"), "{heading}: no harm is named");
        assert!(!tests_named(text).is_empty(), "{heading}: no test is named");
    }
}

/// The check itself can fail.
#[test]
fn a_test_that_does_not_exist_is_found_out() {
    let source = "#[test]\nfn one() {}\n\nfn helper() {}\n";
    assert!(has_test(source, "one"));
    assert!(!has_test("fn helper() {}", "helper"));
    assert!(!has_test(source, "two"));
}
