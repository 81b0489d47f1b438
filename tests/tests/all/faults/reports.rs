//! Style of a report, whatever it reports: sentences for people, each with a remedy; and all of
//! them in a file each, to be looked through by a person.

use std::fs;
use std::path::Path;

/// Lines of a report that are recorded; the rest of a long one is counted.
const RECORDED: usize = 6;

/// The recorded reports of one sort. `UPDATE_REPORTS=1` writes them anew; look through the
/// difference before it is kept. What each of them must contain is in its row all the same.
pub(super) fn hold(file: &str, reports: &[(&str, String)]) {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/all/faults/recorded");
    let path = Path::new(folder).join(file);
    let text: String = reports.iter().map(recorded).collect();
    if std::env::var_os("UPDATE_REPORTS").is_some() {
        fs::create_dir_all(folder).unwrap();
        fs::write(&path, &text).unwrap();
    }
    let is = fs::read_to_string(&path).unwrap();
    let line = is.lines().zip(text.lines()).find(|(a, b)| a != b);
    assert!(is == text, "{file} is not so any more, first at {line:?}");
}

fn recorded((name, report): &(&str, String)) -> String {
    let mut lines: Vec<&str> = report.lines().collect();
    let more = lines.len().saturating_sub(RECORDED);
    lines.truncate(RECORDED);
    let more = if more > 0 {
        format!("({more} more lines)\n")
    } else {
        String::new()
    };
    format!("== {name}\n{}\n{more}\n", lines.join("\n"))
}

/// The reasons why the report would not help the person who reads it; nothing where it would.
pub(super) fn hard_to_read(report: &str) -> impl Iterator<Item = &'static str> {
    // Ids of texts and pieces of code, which say nothing to a nurse or a secretary.
    let code = [
        "fault-", "sign-", "store-", "{ $", "Some(", "Err(", "::", "serde",
    ];
    let shows_code = code.iter().any(|piece| report.contains(piece));
    let without_remedy = report.lines().any(|line| {
        let fault = line.starts_with("line ");
        let (_, remedy) = line.split_once(". ").unwrap_or_default();
        fault
            && !remedy.starts_with(|c: char| c.is_uppercase())
            && !line
                .rsplit(". ")
                .next()
                .is_some_and(|last| last.starts_with(|c: char| c.is_uppercase()))
    });
    let too_long = report.lines().any(|line| line.chars().count() > 600);
    [
        shows_code.then_some("shows the inside of the program"),
        without_remedy.then_some("a fault without a remedy"),
        too_long.then_some("a line that nobody reads to its end"),
        report.is_empty().then_some("nothing is said"),
    ]
    .into_iter()
    .flatten()
}
