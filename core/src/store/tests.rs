use super::write::{Content, write_with};
use super::{Private, StoreError, StoreFault, read_file, write_safely};
use std::fs;
use std::io::Write as _;
use std::path::Path;

const USUAL: Content<'static> = Content {
    bytes: b"",
    private: Private::USUAL,
    over_protection: false,
};

fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_file_is_written_replaced_and_read_and_nothing_is_left_beside_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("case ä.json");
    for bytes in [&b"first"[..], b"", b"a second one that is longer"] {
        write_safely(&path, bytes, Private::USUAL).unwrap();
        assert_eq!(read_file(&path, 100).unwrap(), bytes);
        assert_eq!(names_in(folder.path()), ["case ä.json"]);
    }
}

#[test]
fn the_limit_is_the_most_that_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("file");
    fs::write(&path, b"12345").unwrap();
    assert_eq!(read_file(&path, 5).unwrap(), b"12345");
    let fault = StoreFault::TooLarge { bytes: 5, limit: 3 };
    assert_eq!(read_file(&path, 3), Err(StoreError::new(&path, fault)));
}

#[test]
fn what_cannot_be_read_says_why() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, b"x").unwrap();
    let missing = folder.path().join("missing");
    for (path, fault) in [
        (folder.path(), StoreFault::IsFolder),
        (&missing, StoreFault::NotFound),
        (&file.join("below a file"), StoreFault::NoFolder),
        (Path::new(""), StoreFault::NotFound),
    ] {
        assert_eq!(read_file(path, 9), Err(StoreError::new(path, fault)));
    }
    let nul = Path::new("a\0b");
    assert_eq!(read_file(nul, 9).unwrap_err().fault, StoreFault::BadName);
}

#[test]
fn what_cannot_be_written_says_why_and_leaves_the_old_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, b"old").unwrap();
    let lost = folder.path().join("missing");
    for (path, named, fault) in [
        (folder.path(), folder.path(), StoreFault::IsFolder),
        (&lost.join("new"), &lost, StoreFault::NoFolder),
        (&file.join("new"), &file.join("new"), StoreFault::NoFolder),
        (Path::new(""), Path::new(""), StoreFault::NoName),
        (Path::new("/"), Path::new("/"), StoreFault::IsFolder),
    ] {
        assert_eq!(
            write_safely(path, b"new", Private::USUAL),
            Err(StoreError::new(named, fault))
        );
    }
    // A name so long that no file system takes it.
    for length in [255, 5000] {
        let long = folder.path().join("n".repeat(length));
        let refused = write_safely(&long, b"new", Private::USUAL).unwrap_err();
        assert_eq!(refused.fault, StoreFault::BadName);
    }
    assert_eq!(names_in(folder.path()), ["file"]);
    assert_eq!(fs::read(&file).unwrap(), b"old");
}

#[test]
fn a_disk_that_is_full_halfway_is_told_and_leaves_the_old_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, b"old").unwrap();
    let written = write_with(&file, USUAL, |file| {
        file.write_all(b"ha")?;
        Err(std::io::ErrorKind::StorageFull.into())
    });
    assert_eq!(written, Err(StoreError::new(&file, StoreFault::DiskFull)));
    assert_eq!(names_in(folder.path()), ["file"]);
    assert_eq!(fs::read(&file).unwrap(), b"old");
}

#[test]
fn what_another_program_left_beside_the_file_is_not_touched() {
    let folder = tempfile::tempdir().unwrap();
    let left = format!(".file.{}-0.part", std::process::id());
    fs::write(folder.path().join(&left), b"someone's").unwrap();
    write_safely(&folder.path().join("file"), b"new", Private::USUAL).unwrap();
    assert_eq!(names_in(folder.path()), [left.clone(), "file".to_owned()]);
    assert_eq!(fs::read(folder.path().join(left)).unwrap(), b"someone's");
}

#[cfg(unix)]
mod unix {
    use super::*;
    use crate::dentition::Jaw;
    use crate::sign::{CaseJaw, EventKind, Who, WriterId};
    use crate::store::{Held, append_event, events_folder, keep_aside, write_pdf};
    use std::os::unix::fs::{PermissionsExt as _, symlink};

    #[test]
    fn a_link_stays_a_link_and_its_file_is_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let (link, file) = (folder.path().join("link"), folder.path().join("file"));
        symlink("file", &link).unwrap();
        for bytes in [b"first", b"other"] {
            write_safely(&link, bytes, Private::USUAL).unwrap();
            assert!(link.symlink_metadata().unwrap().is_symlink());
            assert_eq!(fs::read(&file).unwrap(), bytes);
        }
    }

    #[test]
    fn permissions_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("file");
        fs::write(&file, b"old").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
        write_safely(&file, b"new", Private::USUAL).unwrap();
        let mode = fs::metadata(&file).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o640);
    }

    /// From the first byte: what is beside it while it is written is as private.
    #[test]
    fn a_new_file_is_as_private_as_it_is_to_be_from_its_first_byte() {
        let folder = tempfile::tempdir().unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        let modes = |private| {
            let content = Content { private, ..USUAL };
            let mut beside = 0;
            write_with(&folder.path().join("file"), content, |file| {
                beside = file.metadata()?.permissions().mode() & 0o777;
                Ok(())
            })
            .unwrap();
            (beside, mode(&folder.path().join("file")))
        };
        assert_eq!(modes(Private::OWN), (0o600, 0o600));
        // What is there is replaced with its own permissions.
        assert_eq!(modes(Private::USUAL), (0o600, 0o600));
    }

    /// The folder of events, the events, what is put aside, the lock and the PDF of a case that is private.
    #[test]
    fn what_lies_beside_a_private_case_is_as_private() {
        let folder = tempfile::tempdir().unwrap();
        let case = folder.path().join("case.json");
        fs::write(&case, b"{}").unwrap();
        fs::set_permissions(&case, fs::Permissions::from_mode(0o600)).unwrap();
        let writer = WriterId::new("desk").unwrap();
        let of = CaseJaw {
            case: "T-1".to_owned(),
            jaw: Jaw::Lower,
        };
        let text = "seen".to_owned();
        let who = Who::new("R. T.").unwrap();
        let at = "2026-03-04T05:06:07Z".parse().unwrap();
        append_event(&case, &of, &writer, at, who, EventKind::Note { text }).unwrap();
        keep_aside(&case, b"{").unwrap();
        let pdf = folder.path().join("case.pdf");
        write_pdf(&pdf, Some(&case), b"%PDF-").unwrap();
        let _held = Held::hold(&case, Private::USUAL).unwrap();
        let mut modes = Vec::new();
        for within in [folder.path().to_owned(), events_folder(&case)] {
            for name in names_in(&within) {
                let mode = fs::metadata(within.join(&name))
                    .unwrap()
                    .permissions()
                    .mode();
                modes.push(format!("{name} {:o}", mode & 0o777));
            }
        }
        let want = [
            ".case.json.lock 600",
            "case.json 600",
            "case.json.damaged-1 600",
            "case.pdf 600",
            "case.signed 700",
            "desk.events.jsonl 600",
            "desk.lock 600",
        ];
        assert_eq!(modes, want);
    }

    /// A folder that is renamed while its case is open is not made anew for an event.
    #[test]
    fn an_event_makes_no_folder_where_no_case_is() {
        let folder = tempfile::tempdir().unwrap();
        let case = folder.path().join("renamed").join("case.json");
        let writer = WriterId::new("desk").unwrap();
        let of = CaseJaw {
            case: "T-1".to_owned(),
            jaw: Jaw::Lower,
        };
        let text = "seen".to_owned();
        let who = Who::new("R. T.").unwrap();
        let at = "2026-03-04T05:06:07Z".parse().unwrap();
        append_event(&case, &of, &writer, at, who, EventKind::Note { text }).unwrap_err();
        assert_eq!(names_in(folder.path()), [""; 0]);
    }

    #[test]
    fn a_device_is_no_file() {
        let null = Path::new("/dev/null");
        let error = Err(StoreError::new(null, StoreFault::NoFile));
        assert_eq!(read_file(null, 9), error);
        assert_eq!(
            write_safely(null, b"x", Private::USUAL).map(|()| vec![]),
            error
        );
    }

    /// A folder that no user can write, not even the administrator, who may run the tests.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_folder_that_cannot_be_written_is_told() {
        let path = Path::new("/sys/file");
        let error = StoreError::new(Path::new("/sys"), StoreFault::FolderReadOnly);
        let written = write_safely(path, b"new", Private::USUAL);
        assert_eq!(written, Err(error.clone()));
        let held = Held::hold(path, Private::USUAL);
        assert_eq!(held.map(drop), Err(error));
    }
}

#[test]
fn every_fault_has_a_text_with_the_file_and_a_remedy() {
    let source = include_str!("../../../assets/text/en/store.ftl");
    let too_large = StoreFault::TooLarge { bytes: 9, limit: 8 };
    for fault in [
        StoreFault::NotFound,
        StoreFault::IsFolder,
        StoreFault::NoFile,
        StoreFault::NoFolder,
        StoreFault::NoName,
        StoreFault::Protected,
        StoreFault::Exists,
        StoreFault::NotPdf,
        StoreFault::OfCase,
        StoreFault::MayNotRead,
        StoreFault::MayNotWrite,
        StoreFault::FolderReadOnly,
        too_large,
        StoreFault::DiskFull,
        StoreFault::Unsure("why".to_owned()),
        StoreFault::Doubt("why".to_owned()),
        StoreFault::BadName,
        StoreFault::Other("why".to_owned()),
    ] {
        let text = source.lines().find_map(|line| {
            let (id, text) = line.split_once(" = ")?;
            (id == fault.id()).then_some(text)
        });
        let text = text.unwrap_or_else(|| panic!("{} has no text", fault.id()));
        assert!(text.contains("{ $path }") && text.contains(". "), "{text}");
        let error = StoreError::new(Path::new("p"), fault.clone());
        let said = error.sentence(|_, args| {
            let fill = |text: String, (name, value): &(&str, &str)| {
                text.replace(&format!("{{ ${name} }}"), value)
            };
            args.iter().fold(text.to_owned(), fill)
        });
        assert!(!said.contains('$'), "{said}");
    }
}
