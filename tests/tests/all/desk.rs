//! A desk in the practice: the program as it is run there, on files in a folder of its own.

use crate::demo;
use std::ffi::{OsStr, OsString};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;
use traywright::{Outcome, run};
use traywright_core::case::{Case, Edit, ValidCase, apply, read_case, to_save};
use traywright_core::document::print;

/// Output and outcome of the program.
pub(crate) struct Said {
    pub(crate) outcome: Outcome,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// Runs the program with these arguments behind its name.
pub(crate) fn said(arguments: &[&dyn AsRef<OsStr>]) -> Said {
    let name = OsString::from("traywright");
    let given = arguments
        .iter()
        .map(|argument| (*argument).as_ref().to_owned());
    let arguments = std::iter::once(name).chain(given);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let outcome = run(arguments, &mut out, &mut err);
    Said {
        outcome,
        out: String::from_utf8(out).unwrap(),
        err: String::from_utf8(err).unwrap(),
    }
}

/// A text without the name of a folder that is another one each time.
pub(crate) fn without_folder(text: &str, folder: &Path) -> String {
    let folder = format!("{}{}", folder.display(), std::path::MAIN_SEPARATOR);
    text.replace(&folder, "")
}

/// A case in a folder of its own.
pub(crate) struct Beside {
    pub(crate) folder: TempDir,
    pub(crate) case: PathBuf,
}

/// A case of a patient, made from the demonstration's premolar: nothing in it is open.
pub(crate) fn patient() -> ValidCase {
    let mut case: Case = read_case(&demo::bytes("one-premolar")).unwrap().into_case();
    case.demonstration = false;
    case.kit.demonstration = false;
    case.reference = "KX-17".into();
    ValidCase::try_from(case).unwrap()
}

impl Beside {
    pub(crate) fn new() -> Self {
        Self::of(&patient())
    }

    pub(crate) fn of(valid: &ValidCase) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let case = folder.path().join("case.json");
        fs::write(&case, print(&**valid).unwrap()).unwrap();
        fs::create_dir(folder.path().join("case.signed")).unwrap();
        Self { folder, case }
    }

    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.folder.path().join("case.signed").join(name)
    }

    /// Output of the program on opening the case.
    pub(crate) fn opened(&self) -> Said {
        self.clean(&said(&[&self.case]))
    }

    /// An approval by this desk.
    pub(crate) fn approve(&self, desk: &str) -> Said {
        let (case, by) = (&self.case, "Ines Roth");
        self.clean(&said(&[&"approve", case, &"--by", &by, &"--desk", &desk]))
    }

    /// Puts what is damaged aside at this desk.
    pub(crate) fn put_aside(&self, desk: &str) -> Said {
        let (case, by) = (&self.case, "Ines Roth");
        self.clean(&said(&[&"put-aside", case, &"--by", &by, &"--desk", &desk]))
    }

    /// Output of the program for a command on the case.
    pub(crate) fn says(&self, command: &str) -> Said {
        self.clean(&said(&[&command, &self.case]))
    }

    /// The case as it is in its file.
    pub(crate) fn read(&self) -> ValidCase {
        read_case(&fs::read(&self.case).unwrap()).unwrap()
    }

    /// The case changed and saved as the program saves it.
    pub(crate) fn save(&self, edits: &[Edit]) -> ValidCase {
        let before = self.read();
        let after = to_save(&apply(&before, edits).unwrap(), Some(&before));
        fs::write(&self.case, print(&*after).unwrap()).unwrap();
        after
    }

    fn clean(&self, said: &Said) -> Said {
        Said {
            outcome: said.outcome,
            out: without_folder(&said.out, self.folder.path()),
            err: without_folder(&said.err, self.folder.path()),
        }
    }
}
