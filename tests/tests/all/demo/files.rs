//! The files themselves: read without fault, printed as they are written, kits taken over whole.

use super::{CASES, bytes, path, valid};
use std::collections::BTreeSet;
use traywright_core::case::{kit_differences, read_case, read_kit};
use traywright_core::document::{Path, print};
use traywright_core::kit::{Kit, check_kit};

/// Set `UPDATE_DEMO=1` to print the files anew, each case with a fresh copy of its kit entries;
/// look through the difference before it is kept.
fn updating() -> bool {
    std::env::var_os("UPDATE_DEMO").is_some()
}

fn kit() -> Kit {
    read_kit(&bytes("kit")).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn holds(name: &str, text: &str) {
    if updating() {
        std::fs::write(path(name), text).unwrap();
    }
    let is = String::from_utf8(bytes(name)).unwrap();
    let line = is.lines().zip(text.lines()).position(|(a, b)| a != b);
    assert!(
        is == text,
        "demo/{name}.json is not printed this way, first at line {:?}; UPDATE_DEMO=1 prints it",
        line.map(|n| n + 1)
    );
}

#[test]
fn each_file_stands_as_it_is_printed_with_a_fresh_copy_of_its_kit_entries() {
    let kit = kit();
    holds("kit", &print(&kit).unwrap());
    for name in CASES {
        let mut case = valid(name).into_case();
        if updating() {
            case.kit = kit.for_case(&case);
        }
        holds(name, &print(&case).unwrap());
        assert_eq!(case.kit, kit.for_case(&case), "{name}");
        assert_eq!(kit_differences(&case, &kit), [], "{name}");
        assert_eq!(check_kit(&case.kit, &Path::root()), [], "{name}");
    }
}

#[test]
fn every_case_in_the_folder_is_looked_at_here_and_told_of_in_its_readme() {
    let readme = std::fs::read_to_string(path("kit").with_file_name("README.md")).unwrap();
    let mut found = BTreeSet::new();
    for entry in std::fs::read_dir(path("kit").parent().unwrap()).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_some_and(|ending| ending == "json") {
            found.insert(file.file_stem().unwrap().to_str().unwrap().to_owned());
        }
    }
    assert!(found.remove("kit"));
    let known: BTreeSet<String> = CASES.iter().map(|name| (*name).to_owned()).collect();
    assert_eq!(found, known);
    for name in CASES {
        assert!(readme.contains(&format!("`{name}.json`")), "{name}");
    }
}

#[test]
fn every_case_is_marked_as_a_demonstration_with_a_code_of_its_own() {
    let mut references = BTreeSet::new();
    for name in CASES {
        let case = valid(name);
        assert!(case.demonstration, "{name}");
        assert!(case.reference.as_str().starts_with("DEMO-"), "{name}");
        assert!(references.insert(case.reference.clone()), "{name}");
    }
}

#[test]
fn every_measure_of_the_kit_says_that_it_is_invented() {
    const INVENTED: &str = "invented for demonstration";
    let kit = kit();
    let sources = [
        kit.implants.iter().map(|e| &e.source).collect::<Vec<_>>(),
        kit.drills.iter().map(|e| &e.source).collect(),
        kit.drill_sleeves.iter().map(|e| &e.source).collect(),
        kit.master_sleeves.iter().map(|e| &e.source).collect(),
        kit.stops.iter().map(|e| &e.source).collect(),
        kit.gauges.iter().map(|e| &e.source).collect(),
        kit.carriers.iter().map(|e| &e.source).collect(),
        kit.protocols.iter().map(|e| &e.source).collect(),
        vec![&kit.allowances.source],
    ];
    for source in sources.iter().flatten() {
        assert_eq!(source.as_deref(), Some(INVENTED));
    }
}

#[test]
fn a_case_with_a_reference_that_leads_nowhere_is_refused() {
    let text = String::from_utf8(bytes("one-premolar")).unwrap();
    let text = text.replacen("\"drill\": \"tip-257\"", "\"drill\": \"tip-258\"", 1);
    let faults = read_case(text.as_bytes()).unwrap_err();
    assert!(format!("{faults:?}").contains("tip-258"), "{faults:?}");
}

#[test]
fn the_program_offers_every_case_that_ships() {
    let names = |cases: &[(&'static str, &'static [u8])]| -> BTreeSet<_> {
        cases.iter().copied().collect()
    };
    assert_eq!(
        names(traywright::desk::DEMOS),
        names(traywright_samples::demo::CASES)
    );
}
