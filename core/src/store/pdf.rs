//! A PDF written where it may be.

use super::events::events_folder;
use super::write::{is_free, target_of};
use super::{Private, StoreError, StoreFault, write_safely};
use std::fs::File;
use std::io::Read as _;
use std::path::Path;

/// What every PDF begins with. Source: ISO 32000-2, 7.5.2, which has it as the first line of the file.
const BEGINNING: &[u8] = b"%PDF-";

/// Writes a PDF about a case as [`write_safely`] does: into a new file, as private as the
/// case, or in place of a PDF.
///
/// # Errors
///
/// [`StoreFault::NotPdf`] where something else has the name, and [`StoreFault::OfCase`] where the name is the
/// case's own, has the ending of one or of events, or lies among what was signed for one, whatever is there; else the error of the disk. Nothing was
/// written.
pub fn write_pdf(path: &Path, case_file: Option<&Path>, bytes: &[u8]) -> Result<(), StoreError> {
    let target = target_of(path)?;
    let failed = |fault| Err(StoreError::new(path, fault));
    if is_of_case(&target, case_file) || is_of_data(&target) {
        return failed(StoreFault::OfCase);
    }
    if !is_free(&target).map_err(|error| StoreError::writing(path, &error))? {
        let mut first = [0; BEGINNING.len()];
        let read = File::open(&target).and_then(|mut file| file.read_exact(&mut first));
        match read {
            Ok(()) if first == BEGINNING => {}
            Err(error) if error.kind() != std::io::ErrorKind::UnexpectedEof => {
                return Err(StoreError::reading(path, &error));
            }
            _ => return failed(StoreFault::NotPdf),
        }
    }
    write_safely(path, bytes, case_file.map_or(Private::USUAL, Private::like))
}

/// True if a path is a case's own or lies among what was signed for one, wherever links lead.
pub(super) fn is_of_case(target: &Path, case_file: Option<&Path>) -> bool {
    // What is not there yet lies in its folder, wherever links lead to that.
    let whole = |file: &Path| {
        let beside = || {
            let folder = match file.parent()? {
                none if none.as_os_str().is_empty() => Path::new("."),
                folder => folder,
            };
            Some(std::fs::canonicalize(folder).ok()?.join(file.file_name()?))
        };
        std::fs::canonicalize(file)
            .ok()
            .or_else(beside)
            .unwrap_or_else(|| file.to_owned())
    };
    let in_record = |file: &Path| file.ancestors().any(is_of_record);
    let of_case = case_file.is_some_and(|case| {
        let folder = events_folder(&whole(case));
        whole(case) == whole(target) || whole(target) == folder
    });
    of_case || in_record(target) || in_record(&whole(target))
}

/// True if a path has the ending of a case or of events, in whatever letters.
fn is_of_data(path: &Path) -> bool {
    let is = |ending: &std::ffi::OsStr| {
        let mut data = ["json", "jsonl"].into_iter();
        data.any(|one| ending.eq_ignore_ascii_case(one))
    };
    path.extension().is_some_and(is)
}

/// True if a path has the name of a folder of events, in whatever letters.
fn is_of_record(path: &Path) -> bool {
    let ending = path.extension();
    ending.is_some_and(|ending| ending.eq_ignore_ascii_case("signed"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    const PDF: &[u8] = b"%PDF-1.7 new";

    #[test]
    fn a_pdf_takes_the_place_of_a_pdf_and_of_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let case = at("case.json");
        for (name, before) in [
            ("case.json", &b"{}"[..]),
            ("other.json", b"{}"),
            ("short.pdf", b"%PD"),
            ("empty.pdf", b""),
            ("text.pdf", b"a text"),
        ] {
            fs::write(at(name), before).unwrap();
            assert!(write_pdf(&at(name), Some(&case), PDF).is_err(), "{name}");
            assert_eq!(fs::read(at(name)).unwrap(), before, "{name}");
        }
        fs::write(at("old.pdf"), b"%PDF-1.4 old").unwrap();
        for name in ["old.pdf", "new.pdf", "new"] {
            write_pdf(&at(name), Some(&case), PDF).unwrap();
            assert_eq!(fs::read(at(name)).unwrap(), PDF);
        }
    }

    #[test]
    fn no_pdf_takes_a_name_of_a_case_even_where_nothing_has_it() {
        let folder = tempfile::tempdir().unwrap();
        let case = folder.path().join("case.json");
        let signed = folder.path().join("case.signed");
        fs::create_dir(&signed).unwrap();
        let events = signed.join("desk.events.jsonl");
        let refused = |path: &Path| {
            let fault = write_pdf(path, Some(&case), PDF).unwrap_err().fault;
            assert_eq!(fault, StoreFault::OfCase, "{}", path.display());
            assert!(!path.exists());
        };
        refused(&case);
        refused(&events);
        refused(&folder.path().join("case.signed/../case.json"));
        // The folder that another case's record will lie in, and one in other letters.
        fs::write(folder.path().join("other.json"), b"{}").unwrap();
        refused(&folder.path().join("other.signed"));
        fs::create_dir(folder.path().join("third.Signed")).unwrap();
        refused(&folder.path().join("third.Signed/new.pdf"));
        #[cfg(unix)]
        {
            let link = folder.path().join("s.pdf");
            std::os::unix::fs::symlink(&signed, &link).unwrap();
            refused(&link.join("new.pdf"));
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_a_case_is_the_case() {
        let folder = tempfile::tempdir().unwrap();
        let (case, link) = (
            folder.path().join("case.json"),
            folder.path().join("link.pdf"),
        );
        fs::write(&case, b"{}").unwrap();
        std::os::unix::fs::symlink(&case, &link).unwrap();
        assert!(write_pdf(&link, Some(&case), PDF).is_err());
        let hard = folder.path().join("hard.pdf");
        fs::hard_link(&case, &hard).unwrap();
        assert!(write_pdf(&hard, None, PDF).is_err());
        fs::remove_file(&case).unwrap();
        // A link that leads nowhere, to where the case was.
        assert!(write_pdf(&link, Some(&case), PDF).is_err());
        assert!(!case.exists());
        assert_eq!(fs::read(&hard).unwrap(), b"{}");
    }
}
