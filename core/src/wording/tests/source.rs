//! Texts in quotes in the source of the library: the ids in the checks of documents, and numbers and names that
//! were to be written elsewhere.

use crate::text::Texts;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Texts in quotes that look like an id: small words with hyphens between them.
fn ids_in(source: &str) -> BTreeSet<String> {
    let small = |c: char| c.is_ascii_lowercase() || c == '-';
    let quoted = source.split('"').skip(1).step_by(2);
    quoted
        .filter(|text| text.contains('-') && text.chars().all(small))
        .map(str::to_owned)
        .collect()
}

/// The code of a file or of every file of a folder, each by its path, without tests and comments.
fn code_of(part: &str) -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut sources = Vec::new();
    read_all(&root, &mut sources);
    let tests: Vec<PathBuf> = sources.iter().flat_map(modules_of_tests).collect();
    sources.retain(|(path, _)| {
        let module = path.with_extension("");
        path.starts_with(root.join(part)) && !tests.iter().any(|test| module.starts_with(test))
    });
    for (_, source) in &mut sources {
        let code = source.split("#[cfg(test)]\nmod tests {").next().unwrap();
        // Comments may hold a lone quote.
        let lines = code
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"));
        *source = lines.collect::<Vec<_>>().join("\n");
    }
    sources
}

fn read_all(folder: &Path, found: &mut Vec<(PathBuf, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            read_all(&path, found);
        } else {
            let source = std::fs::read_to_string(&path).unwrap();
            found.push((path, source));
        }
    }
}

/// The modules declared in a file that only tests have, each by its path without `.rs`.
fn modules_of_tests((path, source): &(PathBuf, String)) -> Vec<PathBuf> {
    let folder = match path.file_stem().unwrap().to_str().unwrap() {
        "mod" | "lib" => path.parent().unwrap().to_owned(),
        _ => path.with_extension(""),
    };
    let after = source.split("#[cfg(test)]\n").skip(1);
    let declared = after.filter_map(|after| {
        let line = after.lines().next()?.trim_start_matches("pub(crate) ");
        Some(folder.join(line.strip_prefix("mod ")?.strip_suffix(';')?))
    });
    declared.collect()
}

#[test]
fn ids_are_told_from_other_texts() {
    let source =
        r#"f("no-tray", "setup.tray"); g("sites[{}]", "wall-not-measured", "least", "a b-c")"#;
    let want = ["no-tray", "wall-not-measured"].map(str::to_owned);
    assert_eq!(ids_in(source), BTreeSet::from(want));
}

/// Where a text in quotes writes digits after a decimal mark: `{length:.1}`, `{x:.places$}`.
fn writes_digits(text: &str) -> bool {
    let mut parts = text.split('{').skip(1);
    parts.any(|part| {
        let inside = part.split('}').next().unwrap_or_default();
        inside.contains(":.")
    })
}

/// Where a text in quotes has the unit of a length or an angle.
fn has_unit(text: &str) -> bool {
    text.contains('°') || text.split([' ', '}']).any(|word| word == "mm")
}

#[test]
fn digits_and_units_are_written_in_one_room_alone() {
    for (text, digits, unit) in [
        ("{degrees:.0}", true, false),
        ("a {} b {x:.places$}", true, false),
        ("{}.{tenths}: {x}", false, false),
        ("{x} mm", false, true),
        ("{}mm", false, true),
        ("{}°", false, true),
        ("lowest_mm", false, false),
    ] {
        assert_eq!(
            (writes_digits(text), has_unit(text)),
            (digits, unit),
            "{text}"
        );
    }
    for (path, code) in code_of("") {
        let found = |is: fn(&str) -> bool| code.split('"').skip(1).step_by(2).any(is);
        let is_own = path.ends_with("src/number.rs");
        assert_eq!(found(writes_digits), is_own, "{path:?}");
        let for_people = ["wording", "charts", "sheet"];
        if path
            .components()
            .any(|part| for_people.iter().any(|room| part.as_os_str() == *room))
        {
            assert!(!found(has_unit), "{path:?}");
        }
    }
}

#[test]
fn what_the_checks_of_a_document_name_has_words() {
    let texts = Texts::english();
    let files = [
        "case/check.rs",
        "kit/check.rs",
        "kit/check_instruments.rs",
        "kit/check_tray.rs",
        "order/read.rs",
    ];
    let named = files
        .iter()
        .flat_map(|file| code_of(file))
        .flat_map(|(_, code)| ids_in(&code));
    let named: BTreeSet<String> = named.collect();
    for id in &named {
        let said = ["noun", "other", "kind"]
            .map(|what| texts.get(&format!("fault-{what}"), &[(what, id)]));
        assert_eq!(said.iter().filter(|said| *said != id).count(), 1, "{id}");
    }
    assert!(named.len() > 12, "{named:?}");
}
