//! Each system call of a writer failed in turn, by `strace -e inject=`: what it says of its end is true, and what was
//! saved before is there or what it was to write, never anything else. Where `strace` is missing that is said, and
//! nothing is shown.

use super::Done;
use super::child::{self, ONCE, case_file, case_in, number_in, unsaved};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{Event, EventKind, Who, WriterId};
use traywright_core::store::{LeftJournal, mend_torn, read_events, unpack};

/// What a call fails with: a fault of the disk, a full one, a right that lacks, and what is to be tried again.
const ERRORS: [&str; 4] = ["EIO", "ENOSPC", "EACCES", "EINTR"];

/// Calls of the program's own memory and of its end: without them no program goes on.
const NOT_FAILED: [&str; 4] = ["mmap", "munmap", "mprotect", "close"];

/// Fails all calls of the kinds of writers that are named, or of all.
pub(super) fn all(named: &[String]) -> Done<()> {
    if Command::new("strace")
        .arg("-V")
        .stdout(Stdio::null())
        .status()
        .is_err()
    {
        println!(
            "strace is not installed: no system call was failed, and nothing is shown of that"
        );
        return Ok(());
    }
    let mut wrong = 0;
    let is_named = |kind: &str| named.iter().any(|one| one == kind);
    let any = ONCE.into_iter().any(is_named);
    for kind in ONCE.into_iter().filter(|kind| !any || is_named(kind)) {
        wrong += of(kind)?;
    }
    if wrong > 0 {
        return Err(format!("{wrong} failed calls ended otherwise than was said").into());
    }
    Ok(())
}

fn of(kind: &str) -> Done<usize> {
    let (calls, _) = traced(kind, None)?;
    let (mut wrong, mut ends) = (0, BTreeMap::new());
    for (call, n) in &calls {
        for error in ERRORS {
            let inject = format!("{call}:error={error}:when={n}");
            let (_, ended) = traced(kind, Some(&inject))?;
            *ends.entry(ended.how).or_insert(0) += 1;
            if let Some(why) = ended.wrong {
                wrong += 1;
                println!("{kind}, {call} no. {n}, {error}: {why}");
            }
        }
    }
    println!(
        "{kind}: {} calls, each failed with {}: {ends:?}; {wrong} ended otherwise than was said",
        calls.len(),
        ERRORS.join(", ")
    );
    Ok(wrong)
}

/// The end of a writer, and what of it is not true.
pub(super) struct Ended {
    pub(super) how: &'static str,
    pub(super) wrong: Option<String>,
}

/// A call by its name, and the how manieth of that name it is.
type Call = (String, usize);

/// Runs a writer once, one call of it failed; gives its calls, and how it ended.
fn traced(kind: &str, inject: Option<&str>) -> Done<(Vec<Call>, Ended)> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let within = folder.path().join("case");
    fs::create_dir(&within)?;
    child::prepare(&within)?;
    child::before_once(kind, &within)?;
    let before = fs::read(case_file(&within))?;
    let log = folder.path().join("calls");
    let mut command = Command::new("strace");
    command
        .args(["-f", "-qq", "-e", "trace=%file,%desc", "-o"])
        .arg(&log);
    if let Some(inject) = inject {
        command.args(["-e", &format!("inject={inject}")]);
    }
    command
        .arg(std::env::current_exe()?)
        .args(["once", kind])
        .arg(&within);
    let ran = run(&mut command)?;
    let calls = calls_in(&fs::read_to_string(&log)?);
    Ok((calls, judged(kind, &within, &before, &ran)))
}

/// A writer that ended, by what it says.
pub(super) struct Ran {
    pub(super) how: &'static str,
    said: String,
}

/// Runs a writer.
pub(super) fn run(command: &mut Command) -> Done<Ran> {
    let ran = command.output()?;
    let said = String::from_utf8_lossy(&ran.stdout).trim().to_owned();
    let (how, said) = match ran.status.code() {
        Some(0) => ("done", said),
        Some(2) if said.contains("unsure") => ("unsure", said),
        Some(2) => ("refused", said),
        _ => {
            let erred = String::from_utf8_lossy(&ran.stderr);
            ("died", format!("{}: {said}{erred}", ran.status))
        }
    };
    Ok(Ran { how, said })
}

/// Holds what a writer said against what is there.
pub(super) fn judged(kind: &str, within: &Path, before: &[u8], ran: &Ran) -> Ended {
    let looked = |is_written| looked(kind, within, is_written, before);
    let is_true = match ran.how {
        "done" => looked(true),
        "unsure" => looked(true).or_else(|_| looked(false)),
        "refused" => looked(false),
        _ => Err("a writer always says how it ended".into()),
    };
    let wrong = is_true.err();
    let wrong = wrong.map(|why| format!("{}, but {why}; it said: {}", ran.how, ran.said));
    Ended {
        how: ran.how,
        wrong,
    }
}

/// The calls between the two marks.
fn calls_in(log: &str) -> Vec<Call> {
    let mut counted: BTreeMap<&str, usize> = BTreeMap::new();
    let (mut calls, mut is_within) = (Vec::new(), false);
    for line in log.lines() {
        let after = line
            .split_once(' ')
            .map_or(line, |(_, after)| after.trim_start());
        let Some((call, rest)) = after.split_once('(') else {
            continue;
        };
        let count = counted.entry(call).or_default();
        *count += 1;
        if rest.contains(child::MARK) {
            is_within = !is_within;
        } else if is_within && !NOT_FAILED.contains(&call) {
            calls.push((call.to_owned(), *count));
        }
    }
    calls
}

/// Looks whether what was to be written is there, or nothing of it, with all that was there before.
fn looked(kind: &str, folder: &Path, is_written: bool, before: &[u8]) -> Done<()> {
    let is = |holds: bool, what: &str| if holds { Ok(()) } else { Err(what.to_owned()) };
    let now = fs::read(case_file(folder))?;
    match kind {
        "save" => {
            let number = number_in(&case_in(folder)?.0);
            is(number == usize::from(is_written), "another case is there")?;
            is(is_written || now == before, "the case was touched")?;
        }
        // Whether all is read or that is refused says the reader itself.
        "read" => is(now == before, "the case was touched")?,
        "event" => {
            let jaw = case_jaw(&case_in(folder)?.0);
            // What was torn was never said to be recorded, and is told as the desk mends it.
            let (desk, who) = (WriterId::new("desk")?, Who::signing("Ida Hale")?);
            let now = jiff::Timestamp::now();
            mend_torn(&case_file(folder), &jaw, &desk, now, &who)?;
            let beside = read_events(&case_file(folder), &jaw)?;
            is(beside.problems.is_empty(), "the record has a break")?;
            let events = beside.events.in_order().into_iter();
            let is_note = |event: &&Event| matches!(event.kind, EventKind::Note { .. });
            let there = events.filter(is_note).count();
            is(
                there == 1 + usize::from(is_written),
                "another number of events",
            )?;
        }
        "journal" => {
            let left = LeftJournal::of(&unsaved(folder), Some(&case_file(folder)));
            let texts: Vec<String> = left
                .into_iter()
                .map(|one| Ok(String::from_utf8(one.bytes?)?))
                .collect::<Done<_>>()?;
            let whole = texts.iter().any(|text| text == "first\nsecond\n");
            let begun = texts.iter().all(|text| "first\nsecond\n".starts_with(text));
            is(begun && (whole || !is_written), "another journal")?;
        }
        _ => {
            let pack = folder.join("new.pack");
            is(pack.exists() == is_written, "a pack is there or not")?;
            if is_written {
                let to = tempfile::tempdir()?;
                let case = unpack(&pack, &to.path().join("to"), None)?;
                let logs = |case: &Path| read(&case.with_extension("signed"), "jsonl");
                is(
                    logs(&case)? == logs(&case_file(folder))?,
                    "another record is in it",
                )?;
                is(fs::read(case)? == before, "another case is in it")?;
            }
            is(now == before, "the case was touched")?;
        }
    }
    let left = fs::read_dir(folder)?.flatten().map(|entry| entry.path());
    let halves: Vec<PathBuf> = left
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    is(halves == [case_file(folder)], "another case lies beside it")?;
    Ok(())
}

/// The files of a folder with this ending, by name, with their bytes.
fn read(folder: &Path, ending: &str) -> Done<BTreeMap<PathBuf, Vec<u8>>> {
    let paths = fs::read_dir(folder)?.flatten().map(|entry| entry.path());
    let paths = paths.filter(|path| path.extension().is_some_and(|one| one == ending));
    let named = |path: PathBuf| {
        let name = path.file_name().unwrap_or_default().into();
        Ok((name, fs::read(path)?))
    };
    paths.map(named).collect()
}
