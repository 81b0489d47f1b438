//! Paths that lead nowhere, and what cannot be typed: exit 2 with a sentence, never half a file.

use crate::demo;
use crate::desk::{Beside, said, without_folder};
use std::ffi::OsStr;
use std::fs;
use std::path::Path;
use traywright::Outcome;

/// The commands that open a case, each with this path.
fn refusals(path: &Path) -> Vec<String> {
    let kit = demo::path("kit");
    let pdf = path.with_file_name("never.pdf");
    let commands: [&[&dyn AsRef<OsStr>]; 6] = [
        &[&path],
        &[&"check", &path],
        &[&"figures", &path],
        &[&"approve", &path, &"--by", &"Ines Roth", &"--desk", &"desk"],
        &[&"take-kit", &path, &"--kit", &kit],
        &[&"sheet", &path, &"--to", &pdf],
    ];
    commands
        .iter()
        .map(|command| {
            let said = said(command);
            assert_eq!((said.outcome, said.out.as_str()), (Outcome::Failed, ""));
            assert!(!pdf.exists());
            without_folder(&said.err, path.parent().unwrap())
        })
        .collect()
}

#[test]
fn a_path_without_a_case_is_refused_by_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("cases")).unwrap();
    fs::write(at("file"), b"x").unwrap();
    for (path, wanted) in [
        (
            at("lost.json"),
            "lost.json does not exist. Check folder and name\n",
        ),
        (at("cases"), "cases is a folder. Choose a file\n"),
    ] {
        for refusal in refusals(&path) {
            assert_eq!(refusal, wanted);
        }
    }
    let below = at("file").join("case.json");
    for refusal in refusals(&below) {
        assert!(
            refusal.contains("does not exist. Choose another folder"),
            "{refusal}"
        );
    }
    let names = fs::read_dir(folder.path()).unwrap().count();
    assert_eq!(names, 2, "something was written");
}

#[cfg(unix)]
#[test]
fn a_device_is_no_case() {
    let said = said(&[&"check", &"/dev/null"]);
    assert_eq!(said.outcome, Outcome::Failed);
    assert_eq!(
        said.err,
        "/dev/null is neither a file nor a folder. Choose a file\n"
    );
}

#[test]
fn a_lost_kit_is_told_and_the_case_stays() {
    let beside = Beside::new();
    let bytes = fs::read(&beside.case).unwrap();
    let lost = beside.folder.path().join("kit.json");
    let said = said(&[&"take-kit", &beside.case, &"--kit", &lost]);
    assert_eq!(said.outcome, Outcome::Failed);
    assert!(
        said.err
            .ends_with("kit.json does not exist. Check folder and name\n"),
        "{}",
        said.err
    );
    assert_eq!(fs::read(&beside.case).unwrap(), bytes);
}

/// A sheet that cannot be put where it is asked for leaves nothing.
#[test]
fn a_sheet_into_no_folder_is_refused() {
    let beside = Beside::new();
    let to = beside.folder.path().join("lost").join("sheet.pdf");
    let said = said(&[&"sheet", &beside.case, &"--to", &to]);
    assert_eq!(said.outcome, Outcome::Failed);
    assert!(
        said.err
            .contains("Choose another folder, or create it first"),
        "{}",
        said.err
    );
}

/// A part alone has fewer pages than all, and several are named with commas.
#[test]
fn a_sheet_may_be_of_some_parts_alone() {
    let beside = Beside::new();
    let to = beside.folder.path().join("sheet.pdf");
    let pages = |parts: &[&str]| {
        let mut command: Vec<&dyn AsRef<OsStr>> = vec![&"sheet", &beside.case, &"--to", &to];
        command.extend(parts.iter().map(|part| part as &dyn AsRef<OsStr>));
        let said = said(&command);
        assert_eq!(said.outcome, Outcome::Done, "{}", said.err);
        let count = said.out.split_whitespace().next().unwrap();
        count.parse::<usize>().unwrap()
    };
    let each: Vec<usize> = ["form", "strip", "annex"]
        .iter()
        .map(|part| pages(&["--parts", part]))
        .collect();
    assert_eq!(pages(&[]), each.iter().sum::<usize>());
    assert_eq!(pages(&["--parts", "form,annex"]), each[0] + each[2]);
    let wrong = said(&[&"sheet", &beside.case, &"--to", &to, &"--parts", &"poster"]);
    assert_eq!(wrong.outcome, Outcome::Failed);
}

#[test]
fn help_names_every_command_and_the_exit_status() {
    let (by_flag, bare) = (said(&[&"--help"]), said(&[]));
    for said in [by_flag, bare] {
        assert_eq!((said.outcome, said.err.as_str()), (Outcome::Done, ""));
        for wanted in [
            "figures",
            "check",
            "sheet",
            "approve",
            "take-kit",
            "A planning aid",
            "Exit status",
            "0 done",
            "1 something is short or unknown",
            "2 something could not be",
            "3 it was done",
        ] {
            assert!(said.out.contains(wanted), "no {wanted} in\n{}", said.out);
        }
    }
    for command in ["figures", "check", "sheet", "approve", "take-kit"] {
        let help = said(&[&command, &"--help"]);
        assert_eq!(help.outcome, Outcome::Done);
        assert!(help.out.contains("Usage: traywright"), "{}", help.out);
    }
}

#[test]
fn what_cannot_be_typed_is_refused_with_a_hint() {
    let case = demo::path("one-premolar");
    let commands: [(&[&dyn AsRef<OsStr>], &str); 6] = [
        (
            &[&"chek", &case],
            "the first word is not a command. Use figures, check,",
        ),
        (&[&"figures"], "<CASE>"),
        (&[&"figures", &case, &"--explane"], "--explain"),
        (&[&"approve", &case], "--by <BY>"),
        (&[&"sheet", &case], "--to <FILE.pdf>"),
        (
            &[&"sheet", &case, &"--to", &"x.pdf", &"--paper", &"foolscap"],
            "a4, letter",
        ),
    ];
    for (command, wanted) in commands {
        let said = said(command);
        assert_eq!((said.outcome, said.out.as_str()), (Outcome::Failed, ""));
        assert!(said.err.contains(wanted), "{}", said.err);
    }
}
