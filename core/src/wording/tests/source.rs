//! The ids that occur in the source of the worksheet, found as texts in quotes.

use std::collections::BTreeSet;
use std::path::Path;

/// Texts in quotes that look like an id: small words with hyphens between them.
fn ids_in(source: &str) -> BTreeSet<String> {
    let small = |c: char| c.is_ascii_lowercase() || c == '-';
    let quoted = source.split('"').skip(1).step_by(2);
    quoted
        .filter(|text| text.contains('-') && text.chars().all(small))
        .map(str::to_owned)
        .collect()
}

/// Every id in the worksheet's source without its tests, file by file.
fn ids() -> BTreeSet<String> {
    let mut ids = BTreeSet::new();
    let plan = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/plan");
    add_ids_under(&plan, &mut ids);
    ids
}

fn add_ids_under(folder: &Path, ids: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() && !path.ends_with("tests") {
            add_ids_under(&path, ids);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let source = std::fs::read_to_string(path).unwrap();
            let code = source.split("#[cfg(test)]").next().unwrap();
            // Comments may hold a lone quote.
            let lines = code
                .lines()
                .filter(|line| !line.trim_start().starts_with("//"));
            ids.extend(ids_in(&lines.collect::<Vec<_>>().join("\n")));
        }
    }
}

/// Every id that begins so: `rule-` of a figure, `term-` of a term.
pub(super) fn ids_of(family: &str) -> BTreeSet<String> {
    let mut ids = ids();
    ids.retain(|id| id.starts_with(family));
    ids
}

#[test]
fn ids_are_told_from_other_texts() {
    let source =
        r#"f("no-tray", "setup.tray"); g("sites[{}]", "wall-not-measured", "least", "a b-c")"#;
    let want = ["no-tray", "wall-not-measured"].map(str::to_owned);
    assert_eq!(ids_in(source), BTreeSet::from(want));
}
