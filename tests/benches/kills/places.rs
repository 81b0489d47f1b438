//! Each writer where it cannot write: a full disk, one for reading only, a folder that is gone, and paths that are too
//! long. What it says of its end is true, what was there before is there, and once there is room again it goes on.
//!
//! A disk of a few pages is mounted for that, in a name space of its own (`unshare`, `mount`). Where the system does not let
//! that be done it is said, and nothing is shown.

use super::Done;
use super::calls::{Ended, Ran, judged, run};
use super::child::{ONCE, before_once, case_file, case_in, prepare};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, Who, WriterId};
use traywright_core::store::{append_event, events_folder};

const PAGE: u64 = 4096;
/// Pages of the disk.
const PAGES: u64 = 512;
/// The most bytes of a path that Linux takes (`PATH_MAX` of limits.h, the ending zero left out).
const LONGEST_PATH: usize = 4095;

/// All places.
pub(super) fn all() -> Done<()> {
    let mut wrong = gone()? + too_long()?;
    let within = Command::new("unshare")
        .args(["--map-root-user", "--mount"])
        .arg(std::env::current_exe()?)
        .arg("within")
        .status();
    match within.map(|status| status.code()) {
        Ok(Some(0)) => {}
        Ok(Some(1)) => wrong += 1,
        other => println!(
            "no disk could be mounted ({other:?}): nothing is shown of full and protected ones"
        ),
    }
    if wrong > 0 {
        return Err("a writer ended otherwise than it said".into());
    }
    Ok(())
}

/// The ends of a kind of writer at a kind of place.
#[derive(Default)]
struct Ends {
    how: BTreeMap<&'static str, usize>,
    wrong: Vec<String>,
}

impl Ends {
    fn take(&mut self, at: &str, ended: Ended) {
        *self.how.entry(ended.how).or_default() += 1;
        self.wrong
            .extend(ended.wrong.map(|why| format!("{at}: {why}")));
    }

    /// Tells them; gives the number of those that were not as they said.
    fn tell(self, place: &str, kind: &str) -> usize {
        println!(
            "{place}, {kind}: {:?}; {} otherwise than was said",
            self.how,
            self.wrong.len()
        );
        for why in &self.wrong {
            println!("  {why}");
        }
        self.wrong.len()
    }
}

/// A folder laid out for a writer, with the bytes of its case.
fn laid_out(kind: &str, folder: &Path) -> Done<Vec<u8>> {
    fs::create_dir_all(folder)?;
    prepare(folder)?;
    let before = before_once(kind, folder);
    // A save needs no record, which has the longest path.
    if kind != "save" {
        before?;
    }
    Ok(fs::read(case_file(folder))?)
}

fn once(kind: &str, folder: &Path, happens: &[&str]) -> Done<Ran> {
    let mut command = Command::new(std::env::current_exe()?);
    run(command.args(["once", kind]).arg(folder).args(happens))
}

fn moved(folder: &Path) -> PathBuf {
    folder.with_extension("gone")
}

/// Takes a folder away.
pub(super) fn vanish(folder: &Path) -> Done<()> {
    Ok(fs::rename(folder, moved(folder))?)
}

/// The folder is gone before the writer begins; nothing is made in its place. That of journals is the program's own and
/// made anew, and who reads is told by the window that the case is gone.
fn gone() -> Done<usize> {
    let mut wrong = 0;
    for kind in ["save", "event", "pack"] {
        let above = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
        let folder = above.path().join("case");
        let before = laid_out(kind, &folder)?;
        let ran = once(kind, &folder, &["vanishes"])?;
        let mut ends = Ends::default();
        if fs::rename(moved(&folder), &folder).is_err() {
            ends.wrong.push("a folder was made in its place".to_owned());
        }
        ends.take("", judged(kind, &folder, &before, &ran));
        wrong += ends.tell("folder gone", kind);
    }
    Ok(wrong)
}

/// Folders so deep that one path after the other is too long.
fn too_long() -> Done<usize> {
    let mut wrong = 0;
    for kind in ONCE {
        let mut ends = Ends::default();
        let mut not_laid_out = 0;
        for left in (0..100).step_by(4) {
            let above = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
            let length = LONGEST_PATH - "/case.json".len() - left;
            let Some(folder) = deep(above.path(), length) else {
                return Err("no such folder".into());
            };
            let Ok(before) = laid_out(kind, &folder) else {
                not_laid_out += 1;
                continue;
            };
            let ran = once(kind, &folder, &[])?;
            ends.take(
                &format!("{left} bytes left"),
                judged(kind, &folder, &before, &ran),
            );
        }
        wrong += ends.tell(
            &format!("long paths ({not_laid_out} have no room for what comes before)"),
            kind,
        );
    }
    Ok(wrong)
}

/// A folder whose path has so many bytes.
fn deep(above: &Path, length: usize) -> Option<PathBuf> {
    let mut folder = above.to_owned();
    loop {
        let left = length.checked_sub(folder.as_os_str().len())?;
        match left {
            0 => return Some(folder),
            1 => return None,
            // No name is longer than 255, and none of what is left is a separator alone.
            _ => folder = folder.join("d".repeat((left - 1).min(200) - usize::from(left == 202))),
        }
    }
}

/// Mounts a disk and has each writer meet it full and protected. In a name space of its own.
pub(super) fn within() -> Done<()> {
    let disk = tempfile::tempdir()?;
    let disk = disk.path();
    let mount = |options: &str| -> Done<bool> {
        let mut command = Command::new("mount");
        command
            .args(["-t", "tmpfs", "-o", options, "none"])
            .arg(disk);
        Ok(command.status()?.success())
    };
    let size = PAGES * PAGE;
    if !mount(&format!("size={size}"))? {
        std::process::exit(3);
    }
    let mut wrong = 0;
    for kind in ONCE {
        wrong += full(kind, disk)?;
        wrong += read_only(kind, disk, |options| {
            mount(&format!("{options},size={size}"))
        })?;
    }
    if wrong > 0 {
        std::process::exit(1);
    }
    Ok(())
}

/// Disks with ever more room, until the writer ends as it was to. Then each that did not is tried once more with room.
fn full(kind: &str, disk: &Path) -> Done<usize> {
    let mut ends = Ends::default();
    let mut pages = 0;
    loop {
        let folder = disk.join("case");
        let before = laid_out(kind, &folder)?;
        if kind == "event" {
            fill_page(&folder)?;
        }
        let filler = disk.join("filler");
        fill(&filler, pages)?;
        let ran = once(kind, &folder, &[])?;
        fs::remove_file(&filler)?;
        let is_done = ran.how == "done";
        let ended = judged(kind, &folder, &before, &ran);
        let is_true = ended.wrong.is_none();
        ends.take(&format!("{pages} pages left"), ended);
        if !is_done && is_true {
            // Of what is unsure nobody knows whether it is there already.
            drop(fs::remove_file(folder.join("new.pack")));
            let again = once(kind, &folder, &[])?;
            if again.how != "done" {
                ends.wrong.push(format!(
                    "{pages} pages left: it does not go on: {}",
                    again.how
                ));
            }
        }
        fs::remove_dir_all(&folder)?;
        if is_done || pages == PAGES {
            break;
        }
        pages += 1;
    }
    Ok(ends.tell("full disk", kind))
}

/// Puts one event into the record that leaves no room for another in its page.
fn fill_page(folder: &Path) -> Done<()> {
    let file = case_file(folder);
    let jaw = case_jaw(&case_in(folder)?.0);
    let signed = events_folder(&file);
    let record = |length: usize| -> Done<u64> {
        fs::remove_dir_all(&signed)?;
        let text = "x".repeat(length);
        let (desk, who) = (WriterId::new("desk")?, Who::signing("Ida Hale")?);
        let now = jiff::Timestamp::UNIX_EPOCH;
        append_event(&file, &jaw, &desk, now, who, EventKind::Note { text })?;
        Ok(fs::metadata(signed.join("desk.events.jsonl"))?.len())
    };
    let beside = record(1)? - 1;
    let is = record(usize::try_from(PAGE - beside)?)?;
    assert_eq!(is, PAGE, "the page is full");
    Ok(())
}

/// Fills the disk but for so many pages.
fn fill(file: &Path, but_for: u64) -> Done<()> {
    let mut open = File::create(file)?;
    let page = vec![0; usize::try_from(PAGE)?];
    let mut pages = 0_u64;
    while open.write_all(&page).is_ok() {
        pages += 1;
    }
    open.set_len(pages.saturating_sub(but_for) * PAGE)?;
    Ok(())
}

/// A disk that is protected while the writer is at work.
fn read_only(kind: &str, disk: &Path, mount: impl Fn(&str) -> Done<bool>) -> Done<usize> {
    let mut ends = Ends::default();
    let folder = disk.join("case");
    let before = laid_out(kind, &folder)?;
    if !mount("remount,ro")? {
        return Err("it cannot be protected".into());
    }
    let ran = once(kind, &folder, &[])?;
    mount("remount,rw")?;
    ends.take("", judged(kind, &folder, &before, &ran));
    fs::remove_dir_all(&folder)?;
    Ok(ends.tell("for reading only", kind))
}
