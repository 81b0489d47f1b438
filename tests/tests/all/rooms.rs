//! The rooms of both crates stand in a line: what lies in one may use those before it, and none
//! after it, so that no two ever need each other. Tests of a room may look at any.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Rooms in the order of the line. Rooms of one step of it do not use each other.
type Line = [&'static [&'static str]];

const CORE: &Line = &[
    &["measure"],
    &["number", "text", "drawing"],
    &["dentition", "document"],
    &["kit"],
    &["sign", "order"],
    &["wear"],
    &["case"],
    &["plan::figure_rule", "plan::term_name", "plan::kit_codes"],
    &["plan::figure"],
    &["plan::finding"],
    &["plan::depth"],
    &["plan::fit", "plan::clearance"],
    &["plan::order"],
    &["plan::stock"],
    &["plan::tray"],
    &["plan::what_if"],
    &["plan::site"],
    &["plan::worksheet"],
    &[
        "plan::view",
        "plan::changed",
        "plan::fallen",
        "plan::rules",
        "plan::trial",
    ],
    // What the others see of it.
    &["plan"],
    &["run", "surgery"],
    &["record"],
    &["wording"],
    &["figures", "charts"],
    &["sheet"],
    &["store"],
];

const APP: &Line = &[
    &["platform", "look"],
    &["canvas", "field"],
    &["desk"],
    &["action"],
    &["context"],
    &["view::form", "view::offer", "view::shortage"],
    &[
        "view::start",
        "view::case",
        "view::arch",
        "view::site",
        "view::findings",
        "view::order",
        "view::record",
        "view::tray",
        "view::loading",
        "view::sheet",
        "view::history",
        "view::kit",
    ],
    // It leads to loading and back, and shows what lies wrong as loading does.
    &["view::surgery"],
    &["window"],
    &["command"],
];

/// A use of one room by another that the line does not allow: file and path.
type Breach = (String, String);

/// The room of a path, of which the line names as many parts as it needs.
fn room(path: &[&str], line: &Line) -> Option<(usize, &'static str)> {
    line.iter().enumerate().find_map(|(step, rooms)| {
        let room = rooms
            .iter()
            .find(|room| room.split("::").zip(path).all(|(a, b)| a == *b));
        Some((step, *room?)).filter(|(_, room)| room.split("::").count() <= path.len())
    })
}

/// All paths that begin with `crate` or `super` in a module of this path, from the root of the crate.
fn paths<'s>(source: &'s str, module: &[&'s str]) -> Vec<Vec<&'s str>> {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let mut found = Vec::new();
    for root in ["crate::", "super::"] {
        for (at, _) in source.match_indices(root) {
            let before = &source[..at];
            if before.ends_with(is_word) || before.ends_with("super::") {
                continue;
            }
            let (mut rest, mut base) = (&source[at..], module.to_vec());
            if let Some(after) = rest.strip_prefix("crate::") {
                (rest, base) = (after, Vec::new());
            }
            while let Some(after) = rest.strip_prefix("super::") {
                rest = after;
                base.pop();
            }
            branches(rest, &base, &mut found);
        }
    }
    found
}

/// The paths below `base` at the beginning of a source, where a group opens each of its branches.
/// Gives back what follows.
fn branches<'s>(source: &'s str, base: &[&'s str], found: &mut Vec<Vec<&'s str>>) -> &'s str {
    let (mut rest, mut path) = (source.trim_start(), base.to_vec());
    loop {
        if let Some(mut inner) = rest.strip_prefix('{') {
            loop {
                inner = branches(inner, &path, found).trim_start();
                match inner.strip_prefix(',') {
                    Some(next) if !next.trim_start().starts_with('}') => inner = next,
                    next => return next.unwrap_or(inner).trim_start().trim_start_matches('}'),
                }
            }
        }
        let word = rest.find(|c: char| !c.is_alphanumeric() && c != '_');
        let (word, after) = rest.split_at(word.unwrap_or(rest.len()));
        match word {
            "" => {}
            "super" => drop(path.pop()),
            word => path.push(word),
        }
        let Some(next) = after.strip_prefix("::") else {
            found.push(path);
            return after.trim_start_matches('*');
        };
        rest = next;
    }
}

/// The source without comments, and without the tests at its end.
fn code(source: &str) -> String {
    let source = source.split("#[cfg(test)]\nmod tests {").next();
    let lines = source.unwrap_or_default().lines();
    let lines = lines.map(|line| line.split("//").next().unwrap_or_default());
    // To whom something is shown is no use of it.
    let lines = lines.collect::<Vec<_>>().join("\n");
    let lines = lines.replace("(in crate::plan)", "");
    lines.replace("(in crate::view)", "")
}

/// The path of the module in a file of this path below `src`.
fn module_of(file: &str) -> Vec<&str> {
    let module = file.trim_end_matches(".rs").trim_end_matches("/mod");
    module.split('/').collect()
}

/// What a file of this path below `src` uses against the line.
fn breaches_of(file: &str, source: &str, line: &Line) -> Vec<Breach> {
    let module = module_of(file);
    let source = code(source);
    if source.contains("crate as ") {
        return vec![(file.to_owned(), "the crate by another name".to_owned())];
    }
    let Some((here, own)) = room(&module, line) else {
        return vec![(file.to_owned(), "stands in no room of the line".to_owned())];
    };
    let used = paths(&source, &module).into_iter().filter(|path| {
        room(path, line).is_none_or(|(step, name)| step > here || step == here && name != own)
    });
    used.map(|path| (file.to_owned(), path.join("::")))
        .collect()
}

/// The modules declared in this file that only tests have, as it stands right before each.
fn of_tests(file: &str, source: &str) -> Vec<String> {
    let mut module = module_of(file);
    if ["lib", "main"].contains(&module[0]) {
        module.clear();
    }
    let after = source.split("#[cfg(test)]\n").skip(1);
    let declared = after.filter_map(|after| {
        let line = after.lines().next()?.trim_start_matches("pub(crate) ");
        let name = line.strip_prefix("mod ")?.strip_suffix(';')?;
        Some([&module[..], &[name]].concat().join("::"))
    });
    declared.collect()
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

fn breaches(of: &str, line: &Line) -> BTreeSet<Breach> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../{of}/src"));
    let mut all = Vec::new();
    files(&root, &mut all);
    assert!(all.len() > 100, "{} files of {of}", all.len());
    let sources = all.iter().map(|path| {
        let file = path.strip_prefix(&root).unwrap().to_str().unwrap();
        (file, fs::read_to_string(path).unwrap())
    });
    let sources: Vec<_> = sources.collect();
    let tests = sources
        .iter()
        .flat_map(|(file, source)| of_tests(file, source));
    let tests: BTreeSet<String> = tests.collect();
    let uses = sources.iter().filter(|(file, _)| {
        let module = module_of(file);
        let within = (1..=module.len()).map(|length| module[..length].join("::"));
        // The roots name every room.
        !["lib.rs", "main.rs", "view/mod.rs"].contains(file)
            && !within.into_iter().any(|module| tests.contains(&module))
    });
    uses.flat_map(|(file, source)| breaches_of(file, source, line))
        .collect()
}

#[test]
fn no_room_of_core_uses_one_that_comes_after_it() {
    assert_eq!(breaches("core", CORE), BTreeSet::new());
}

#[test]
fn no_room_of_the_program_uses_one_that_comes_after_it() {
    assert_eq!(breaches("app", APP), BTreeSet::new());
}

#[test]
fn a_use_against_the_line_is_found_however_it_is_written() {
    let found = |file, source: &str| {
        let found = breaches_of(file, source, APP).into_iter();
        found.map(|(_, path)| path).collect::<Vec<_>>()
    };
    for (file, source, path) in [
        (
            "desk/run.rs",
            "use crate::window::Program;",
            "window::Program",
        ),
        (
            "desk/run.rs",
            "fn f() { super::super::window::show() }",
            "window::show",
        ),
        (
            "desk/mod.rs",
            "use super::window::Program;",
            "window::Program",
        ),
        (
            "desk/run.rs",
            "use crate::{look::Mode, window::{self, Program}};",
            "window::self",
        ),
        (
            "look/row.rs",
            "use crate::platform::Purpose;",
            "platform::Purpose",
        ),
        (
            "view/arch/pointer.rs",
            "use crate::view::site;",
            "view::site",
        ),
        (
            "view/arch/pointer.rs",
            "use super::super::site::State;",
            "view::site::State",
        ),
        (
            "view/form.rs",
            "use crate::view::arch::State;",
            "view::arch::State",
        ),
        (
            "view/arch/pointer.rs",
            "use crate::elsewhere::Thing;",
            "elsewhere::Thing",
        ),
        (
            "desk/run.rs",
            "use super::{super::window::Program, record};",
            "window::Program",
        ),
        ("desk/run.rs", "use super::super as root;", ""),
        (
            "desk/run.rs",
            "use crate as root;",
            "the crate by another name",
        ),
    ] {
        assert_eq!(
            found(file, source).first().map(String::as_str),
            Some(path),
            "{source}"
        );
    }
    for (file, source) in [
        ("desk/run.rs", "use crate::look::{Mode, Theme};"),
        ("desk/run.rs", "use super::{job::{Job, Wake}, record};"),
        (
            "desk/run.rs",
            "// crate::window does it\nuse crate::look::Mode;",
        ),
        (
            "view/arch/pointer.rs",
            "use super::State; use crate::view::form::{Form, entry};",
        ),
        (
            "window/mod.rs",
            "use crate::{view::arch, context::*, look::Mode};",
        ),
        (
            "desk/run.rs",
            "\n#[cfg(test)]\nmod tests {\n    use crate::window::Program;\n}",
        ),
    ] {
        assert_eq!(found(file, source), Vec::<String>::new(), "{source}");
    }
    assert_eq!(breaches_of("attic/old.rs", "", APP).len(), 1);
}

#[test]
fn a_file_is_of_tests_by_its_declaration_not_by_its_name() {
    for (source, modules) in [
        ("#[cfg(test)]\nmod tests;\nmod run;\n", vec!["desk::tests"]),
        ("#[cfg(test)]\nmod samples;", vec!["desk::samples"]),
        ("mod tests;\npub mod samples;\n", vec![]),
        ("#[cfg(test)]\nmod tests {\n    mod inner;\n}\n", vec![]),
    ] {
        assert_eq!(of_tests("desk/mod.rs", source), modules, "{source}");
    }
    assert_eq!(
        of_tests("lib.rs", "#[cfg(test)]\nmod samples;"),
        ["samples"]
    );
}
