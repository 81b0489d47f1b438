//! Every reader of files by the name of its corpus, with what holds of it whatever a file holds: its reader says so and
//! nothing else happens, and what is read is written and read the same.

use std::path::{Path, PathBuf};
use traywright::desk::{LeftBehind, Settings};
use traywright_core::case::{ValidCase, read_case, read_kit};
use traywright_core::dentition::Jaw;
use traywright_core::document::print;
use traywright_core::order::read_problem;
use traywright_core::plan::work_out;
use traywright_core::sign::{CaseJaw, HeadCode, Merged, read_log};
use traywright_core::store::{read_pack, unpack};
use traywright_core::text::Texts;
use traywright_core::wording::{faults, message};

/// A reader of files: it panics where an input makes it do anything but read or refuse.
pub struct Reader {
    /// The name of its corpus.
    pub name: &'static str,
    read: fn(&Path, &[u8]),
    /// A folder for those that read from the disk.
    folder: tempfile::TempDir,
}

impl Reader {
    /// All of them.
    ///
    /// # Panics
    ///
    /// There is no room for a temporary folder.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let readers: [(&str, fn(&Path, &[u8])); 7] = [
            ("case", case),
            ("kit", kit),
            ("order", order),
            ("events", events),
            ("journal", journal),
            ("settings", settings),
            ("pack", pack),
        ];
        let reader = |(name, read)| Self {
            name,
            read,
            folder: folder().expect("there is room"),
        };
        readers.into_iter().map(reader).collect()
    }

    /// Has it read this.
    pub fn read(&self, bytes: &[u8]) {
        (self.read)(self.folder.path(), bytes);
    }
}

/// A folder in memory where the system has one: on a disk each input waits for it.
fn folder() -> std::io::Result<tempfile::TempDir> {
    tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir())
}

/// A case is refused in words or worked out.
fn case(_: &Path, bytes: &[u8]) {
    match read_case(bytes) {
        Ok(case) => {
            let text = print(&*case).expect("a case is text");
            assert_eq!(read_case(text.as_bytes()).as_ref(), Ok(&case));
            let worksheet = work_out(&case);
            assert_eq!(worksheet.fingerprint, case.fingerprint());
        }
        Err(found) => assert!(!faults(&found, Texts::english()).is_empty()),
    }
}

/// A kit is refused in words or read.
fn kit(_: &Path, bytes: &[u8]) {
    match read_kit(bytes) {
        Ok(kit) => {
            let text = print(&kit).expect("a kit is text");
            assert_eq!(read_kit(text.as_bytes()), Ok(kit));
        }
        Err(found) => assert!(!faults(&found, Texts::english()).is_empty()),
    }
}

/// A problem of the order is refused or read; whether it can be solved is another matter.
fn order(_: &Path, bytes: &[u8]) {
    drop(read_problem(bytes));
}

/// Events are told line by line, and what is sound of them is as it was written.
fn events(_: &Path, bytes: &[u8]) {
    let case_jaw = CaseJaw {
        case: "INV-7".to_owned(),
        jaw: Jaw::Lower,
    };
    let read = read_log("desk.events.jsonl", bytes, &case_jaw);
    for problem in &read.problems {
        assert!(!message(&problem.message(), Texts::english()).is_empty());
    }
    assert!(read.sound_bytes <= bytes.len());
    let Some(log) = read.log else { return };
    let again = read_log("desk.events.jsonl", log.text().as_bytes(), &case_jaw);
    assert_eq!(again.log.as_ref(), Some(&log));
    let merged = Merged::of(case_jaw, [log]).expect("one log is of one case");
    for code in merged.head_codes() {
        assert_eq!(code.to_string().parse::<HeadCode>(), Ok(code));
    }
}

/// What comes back of a journal is a sound case, or its file is named.
fn journal(folder: &Path, bytes: &[u8]) {
    put(&folder.join("unsaved-1.journal"), bytes);
    let left = LeftBehind::of(folder, None);
    assert!(left.unsaved.len() + left.unread.len() <= 1);
    for one in left.unsaved {
        assert_eq!(ValidCase::checked(&one.case).as_ref(), Ok(&one.case));
        drop(one.beside(one.base()));
    }
}

/// Settings are read and written the same, or stay as they are.
fn settings(folder: &Path, bytes: &[u8]) {
    let file = folder.join("settings.json");
    put(&file, bytes);
    let (read, _) = Settings::read(&file, "desk-new".to_owned());
    read.write(&file).expect("there is room");
    if read.are_unread() {
        assert_eq!(std::fs::read(&file).expect("it is there"), bytes);
    } else {
        let (again, _) = Settings::read(&file, "desk-new".to_owned());
        assert_eq!(again.person, read.person);
        assert_eq!((&again.desk, &again.recent), (&read.desk, &read.recent));
    }
}

/// A pack is refused and leaves nothing, or comes out whole.
fn pack(folder: &Path, bytes: &[u8]) {
    let (file, to) = (folder.join("case.pack"), folder.join("to"));
    put(&file, bytes);
    let read = read_pack(&file, None);
    let out: Option<PathBuf> = unpack(&file, &to, None).ok();
    if let (Ok(read), Some(out)) = (&read, &out) {
        assert_eq!(std::fs::read(out).expect("it is there"), read.case());
    }
    assert!(read.is_ok() || out.is_none(), "it came out and is none");
    assert_eq!(to.exists(), out.is_some(), "half of it is there");
    if out.is_some() {
        std::fs::remove_dir_all(&to).expect("it is ours");
    }
}

fn put(file: &Path, bytes: &[u8]) {
    std::fs::write(file, bytes).expect("there is room");
}
