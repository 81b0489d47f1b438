//! Malformed files on the real types: each a clear report that names the place and what to do, from
//! the program as it is run.
//!
//! The files are the demonstration's own, changed as a hand in an editor, another program or a bad
//! disk would change them.

mod case_rows;
mod edit;
mod event_rows;
mod events;
mod json_rows;
mod kit_rows;
mod locate;
mod many;
mod reports;
mod torn;
mod value_rows;

use crate::demo;
use crate::desk::{said, without_folder};
use edit::{Edit, edited};
use traywright::Outcome;

/// The file that a row damages.
#[derive(Clone, Copy)]
enum Of {
    /// A case of the demonstration, opened by `check`.
    Case(&'static str),
    /// The demonstration's kit, opened by `take-kit`.
    Kit,
}

/// One malformed document and what its report has to say.
struct Row {
    name: &'static str,
    of: Of,
    edits: Vec<Edit>,
    wants: &'static [&'static str],
}

/// The case that most rows are about: one site, all measured.
const PREMOLAR: Of = Of::Case("one-premolar");
const MOLARS: Of = Of::Case("two-molars");
const ARCH: Of = Of::Case("full-arch-upper");

fn row<const N: usize>(
    name: &'static str,
    of: Of,
    edits: [Edit; N],
    wants: &'static [&'static str],
) -> Row {
    Row {
        name,
        of,
        edits: edits.into(),
        wants,
    }
}

/// All rows about documents.
fn rows() -> Vec<Row> {
    let mut rows = json_rows::rows();
    rows.extend(value_rows::rows());
    rows.extend(case_rows::rows());
    rows.extend(kit_rows::rows());
    rows
}

/// Gives the bytes to the program as a file of this sort, in a folder of its own; the report
/// without the folder's name.
fn report(of: Of, bytes: &[u8]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let (case, kit) = (
        folder.path().join("case.json"),
        folder.path().join("kit.json"),
    );
    let said = match of {
        Of::Case(_) => {
            std::fs::write(&case, bytes).unwrap();
            said(&[&"check", &case])
        }
        Of::Kit => {
            let sound = demo::bytes("one-premolar");
            std::fs::write(&case, &sound).unwrap();
            std::fs::write(&kit, bytes).unwrap();
            let said = said(&[&"take-kit", &case, &"--kit", &kit]);
            assert_eq!(std::fs::read(&case).unwrap(), sound, "the case was touched");
            said
        }
    };
    assert_eq!(said.outcome, Outcome::Failed, "{}{}", said.out, said.err);
    assert_eq!(said.out, "");
    without_folder(&said.err, folder.path())
}

fn source(of: Of) -> String {
    let name = match of {
        Of::Case(name) => name,
        Of::Kit => "kit",
    };
    String::from_utf8(demo::bytes(name)).unwrap()
}

#[test]
fn every_malformed_document_is_told_by_place_and_remedy() {
    let (mut wrong, mut all) = (Vec::new(), Vec::new());
    for row in rows() {
        let edited = edited(&source(row.of), &row.edits);
        let report = report(row.of, &edited.bytes);
        let name = row.name;
        assert!(row.wants.len() >= 2, "{name}: ask for place and remedy");
        for wanted in row.wants {
            if !report.contains(wanted) {
                wrong.push(format!("{name}: no “{wanted}” in\n{report}"));
            }
        }
        for line in edited.lines {
            if !report.contains(&format!("line {line}, ")) {
                wrong.push(format!("{name}: not on line {line}:\n{report}"));
            }
        }
        wrong.extend(reports::hard_to_read(&report).map(|why| format!("{name}: {why}:\n{report}")));
        all.push((name, report));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    reports::hold("documents.txt", &all);
}

#[test]
fn there_are_at_least_150_malformed_files_each_with_a_name_of_its_own() {
    let mut names: Vec<String> = rows().iter().map(|row| row.name.to_owned()).collect();
    names.extend(many::names());
    names.extend(event_rows::rows().iter().map(|row| row.name.to_owned()));
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count, "two rows have one name");
    assert!(count >= 150, "{count}");
}
