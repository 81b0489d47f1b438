use super::*;
use crate::sign::{EventKind, Who, WriterId};
use crate::store::append_event;
use std::io::Cursor;

/// The time and the desk of packing.
const NOW: (Timestamp, Option<&str>) = (Timestamp::UNIX_EPOCH, Some("desk-1"));

/// A case with a record of three files, a lock among them, and a kit.
fn case() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let bytes = traywright_samples::nothing_open().to_string();
    let case = at("fall ä.json");
    fs::write(&case, &bytes).unwrap();
    fs::write(at("kit.json"), b"{ \"kit\": 1 }").unwrap();
    let jaw = case_jaw(&read_case(bytes.as_bytes()).unwrap());
    for desk in ["desk", &"d".repeat(40)] {
        let (desk, who) = (WriterId::new(desk).unwrap(), Who::new("KE").unwrap());
        let text = "told".to_owned();
        let now = jiff::Timestamp::UNIX_EPOCH;
        append_event(&case, &jaw, &desk, now, who, EventKind::Note { text }).unwrap();
    }
    for (name, bytes) in [
        ("desk.events.jsonl.torn-1", &b"\0\xff"[..]),
        ("desk.lock", b""),
        (".DS_Store", b"of the system"),
    ] {
        fs::write(at("fall ä.signed").join(name), bytes).unwrap();
    }
    (folder, case)
}

/// Every file below a folder with its bytes, but locks and what is the system's.
fn all(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(here) = folders.pop() {
        for path in within(&here).unwrap() {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending != "lock") {
                let name = path.strip_prefix(folder).unwrap().display().to_string();
                found.push((name, fs::read(&path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn what_is_packed_comes_back_byte_for_byte_with_and_without_a_passphrase() {
    for passphrase in [None, Some("seven plain words")] {
        let (folder, case) = case();
        let before = all(folder.path());
        let kit = folder.path().join("kit.json");
        let out = tempfile::tempdir().unwrap();
        let file = out.path().join("case.pack");
        assert_eq!(pack(&case, Some(&kit), &file, passphrase, NOW), Ok(5));
        assert_eq!(all(folder.path()), before, "nothing of the case is touched");
        assert_eq!(is_sealed(&fs::read(&file).unwrap()), passphrase.is_some());
        let to = out.path().join("again");
        let unpacked = unpack(&file, &to, passphrase).unwrap();
        assert_eq!(unpacked, to.join("fall ä.json"));
        let mut came = all(&to);
        let listed = came.iter().position(|(name, _)| name == CONTENTS).unwrap();
        came.remove(listed);
        assert_eq!(came, before);
        let packed = from_pack(&unpacked).unwrap().packed.unwrap();
        assert_eq!((packed.at, packed.desk.as_deref()), NOW);
        let place = fs::canonicalize(&case).unwrap();
        assert_eq!(packed.file, place.display().to_string());
        assert_eq!(from_pack(&case), None);
        assert_eq!(within(out.path()).unwrap().len(), 2, "and nothing else");
    }
}

/// A copy is one under whatever name, and beside a list that this program cannot read.
#[test]
fn a_copy_is_told_as_long_as_the_list_of_its_pack_lies_beside_it() {
    let (folder, case) = case();
    let file = folder.path().join("case.pack");
    pack(&case, None, &file, None, NOW).unwrap();
    let to = folder.path().join("again");
    let unpacked = unpack(&file, &to, None).unwrap();
    let renamed = to.join("smith.json");
    fs::rename(&unpacked, &renamed).unwrap();
    // Another case that was saved there has a name of its own too.
    let pack = from_pack(&renamed).unwrap();
    assert!(pack.packed.is_some() && !pack.is_named);
    assert!(!crate::store::cases_in(&to).unwrap()[0].is_unpacked);
    let list = fs::read(to.join(CONTENTS)).unwrap();
    for cut in [&list[..list.len() - 5], b"{}", b""] {
        fs::write(to.join(CONTENTS), cut).unwrap();
        let (packed, is_named) = (None, true);
        assert_eq!(from_pack(&renamed), Some(FromPack { packed, is_named }));
        assert!(crate::store::cases_in(&to).unwrap()[0].is_unpacked);
    }
    fs::remove_file(to.join(CONTENTS)).unwrap();
    assert_eq!(from_pack(&renamed), None);
    assert!(!crate::store::cases_in(&to).unwrap()[0].is_unpacked);
}

#[test]
fn nothing_that_is_there_is_replaced() {
    let (folder, case) = case();
    let file = folder.path().join("case.pack");
    fs::write(&file, b"something").unwrap();
    let exists = |path: &Path| PackFault::Store(StoreError::new(path, StoreFault::Exists));
    assert_eq!(pack(&case, None, &file, None, NOW), Err(exists(&file)));
    assert_eq!(fs::read(&file).unwrap(), b"something");
    let file = folder.path().join("other.pack");
    pack(&case, None, &file, None, NOW).unwrap();
    let before = all(folder.path());
    for to in [folder.path().to_owned(), case.clone()] {
        assert_eq!(unpack(&file, &to, None), Err(exists(&to)));
    }
    let of_case = |path: &Path| PackFault::Store(StoreError::new(path, StoreFault::OfCase));
    let record = folder.path().join("fall ä.signed");
    let within = record.join("in");
    assert_eq!(unpack(&file, &record, None), Err(of_case(&record)));
    assert_eq!(unpack(&file, &within, None), Err(of_case(&within)));
    assert_eq!(pack(&case, None, &within, None, NOW), Err(of_case(&within)));
    assert_eq!(all(folder.path()), before);
}

/// A log that is there and cannot be read may hold a withdrawal: packed without it, what it withdrew would count.
#[cfg(unix)]
#[test]
fn a_record_with_a_break_is_not_packed() {
    let ways: [fn(&Path); 3] = [
        |record| std::os::unix::fs::symlink("/nowhere", record.join("e.events.jsonl")).unwrap(),
        |record| fs::create_dir(record.join("e.events.jsonl")).unwrap(),
        |record| fs::write(record.join("e.events.jsonl"), "cut").unwrap(),
    ];
    for way in ways {
        let (folder, case) = case();
        way(&folder.path().join("fall ä.signed"));
        let to = folder.path().join("case.pack");
        assert_eq!(pack(&case, None, &to, None, NOW), Err(PackFault::Broken));
        assert!(!to.exists());
    }
    // A record that is itself a link to nowhere is none that is empty.
    let (folder, case) = case();
    let record = folder.path().join("fall ä.signed");
    fs::remove_dir_all(&record).unwrap();
    std::os::unix::fs::symlink("/nowhere", &record).unwrap();
    let to = folder.path().join("case.pack");
    assert!(pack(&case, None, &to, None, NOW).is_err() && !to.exists());
}

#[test]
fn another_passphrase_opens_nothing() {
    let (folder, case) = case();
    let file = folder.path().join("case.pack");
    pack(&case, None, &file, Some("right"), NOW).unwrap();
    let to = folder.path().join("to");
    for wrong in [None, Some("wrong"), Some("")] {
        assert_eq!(unpack(&file, &to, wrong), Err(PackFault::Passphrase));
    }
    assert!(!to.exists());
}

/// Each byte of a pack, sealed or not: what comes out is what went in, or nothing.
#[test]
fn a_pack_with_a_flipped_byte_gives_nothing_else_than_went_in() {
    let regular = tar::EntryType::Regular;
    let good = made(
        "c.json",
        &[
            ("c.json", regular, b"{ \"case\": 1 }"),
            ("c.signed/d.events.jsonl", regular, b"one\ntwo\n"),
            ("c.signed/d.events.jsonl.torn-1", regular, b"\0\xff"),
        ],
        None,
    );
    let want = read::taken_out(&good).unwrap();
    let mut refused = 0;
    for at in 0..good.len() {
        let mut bad = good.clone();
        bad[at] ^= 1;
        match read::taken_out(&bad) {
            Ok(got) => assert_eq!(got, want, "byte {at}"),
            Err(_) => refused += 1,
        }
    }
    assert!(refused > 2000, "{refused} of {}", good.len());
    for length in [0, 1, 511, 512, 1024, good.len() / 2] {
        assert!(read::taken_out(&good[..length]).is_err(), "{length}");
    }
}

/// An archive of these entries, its contents first, as somebody made it who means harm.
fn made(
    case: &str,
    entries: &[(&str, tar::EntryType, &[u8])],
    listed_bytes: Option<u64>,
) -> Vec<u8> {
    let mut parts: Vec<Part> = entries
        .iter()
        .map(|(name, _, bytes)| Part::of(name, bytes))
        .collect();
    if let (Some(bytes), Some(part)) = (listed_bytes, parts.last_mut()) {
        part.bytes = bytes;
    }
    let contents = Contents {
        traywright_pack: 1,
        case: case.to_owned(),
        kit: None,
        packed: None,
        parts,
    };
    let mut archive = tar::Builder::new(Cursor::new(Vec::new()));
    let contents = serde_json::to_vec(&contents).unwrap();
    let all = std::iter::once((CONTENTS, tar::EntryType::Regular, &contents[..]));
    for (name, kind, bytes) in all.chain(entries.iter().copied()) {
        let mut header = tar::Header::new_ustar();
        header.as_mut_bytes()[..name.len()].copy_from_slice(name.as_bytes());
        header.set_entry_type(kind);
        header.set_size(bytes.len() as u64);
        if matches!(kind, tar::EntryType::Symlink | tar::EntryType::Link) {
            header.set_link_name("/etc/passwd").unwrap();
        }
        header.set_cksum();
        archive.append(&header, bytes).unwrap();
    }
    archive.into_inner().unwrap().into_inner()
}

#[test]
fn a_pack_that_means_harm_is_refused_and_writes_nothing() {
    use tar::EntryType::{Char, Directory, Fifo, Link, Regular, Symlink};
    let whole = ("c.json", Regular, &b"{}"[..]);
    let good = made(
        "c.json",
        &[whole, ("c.signed/d.events.jsonl", Regular, b"x")],
        None,
    );
    let (old, ..) = read::taken_out(&good).unwrap();
    assert_eq!(
        old.packed, None,
        "one that does not say is taken all the same"
    );
    let mut bad = vec![
        made("../c.json", &[("../c.json", Regular, b"{}")], None),
        made("/c.json", &[("/c.json", Regular, b"{}")], None),
        made("a/c.json", &[("a/c.json", Regular, b"{}")], None),
        made("..", &[("..", Regular, b"{}")], None),
        made("", &[], None),
        made("c:x.json", &[("c:x.json", Regular, b"{}")], None),
        made("c.json", &[("d.json", Regular, b"{}")], None),
        made("c.json", &[whole], Some(u64::MAX)),
        made("c.json", &[whole], Some(1 << 40)),
        made("c.json", &[whole], Some(1)),
        made("c.json", &[whole, whole], None),
        made("c.json", &[whole, ("C.JSON", Regular, b"{}")], None),
        made("c.signed", &[("c.signed", Regular, b"{}")], None),
        made(CONTENTS, &[(CONTENTS, Regular, b"{}")], None),
    ];
    for name in [
        "c.signed/../x",
        "c.signed/a/b",
        "../x",
        "/etc/x",
        "x",
        "c.signed/",
        "c.signed/..",
        "c.signed/.x",
        "c.signed\\x",
        "c.signed/a\\b",
        "c.signed/a\u{202e}b",
        "c.signed/C:",
        "c.signed/a.",
    ] {
        bad.push(made("c.json", &[whole, (name, Regular, b"x")], None));
    }
    for kind in [Symlink, Link, Directory, Fifo, Char] {
        bad.push(made("c.json", &[whole, ("c.signed/d", kind, b"")], None));
        bad.push(made("c.json", &[("c.json", kind, b"")], None));
    }
    // A header that says far more than there is.
    let mut huge = good.clone();
    let header = tar::Header::from_byte_slice(&huge[..512]).clone();
    let mut header = header;
    header.set_size(u64::MAX >> 2);
    header.set_cksum();
    huge[..512].copy_from_slice(header.as_bytes());
    bad.push(huge);
    bad.push(b"PK\x03\x04 another sort of archive".repeat(100));
    let folder = tempfile::tempdir().unwrap();
    let (file, to) = (folder.path().join("bad.pack"), folder.path().join("to"));
    for (n, bytes) in bad.iter().enumerate() {
        fs::write(&file, bytes).unwrap();
        assert!(unpack(&file, &to, None).is_err(), "{n}");
        let left = within(folder.path()).unwrap();
        assert_eq!(left, std::slice::from_ref(&file), "{n}");
    }
}

#[test]
fn a_pack_of_a_newer_program_says_so() {
    let newer = br#"{"traywright_pack":3,"boxes":[]}"#;
    let mut archive = tar::Builder::new(Vec::new());
    let mut header = tar::Header::new_ustar();
    header.set_size(newer.len() as u64);
    archive
        .append_data(&mut header, CONTENTS, &newer[..])
        .unwrap();
    let bytes = archive.into_inner().unwrap();
    assert_eq!(
        read::taken_out(&bytes).map(|_| ()),
        Err(PackFault::Newer(3))
    );
}

#[cfg(unix)]
#[test]
fn a_pack_and_what_comes_out_of_it_are_as_private_as_the_case() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, case) = case();
    fs::set_permissions(&case, fs::Permissions::from_mode(0o600)).unwrap();
    let (file, to) = (folder.path().join("case.pack"), folder.path().join("to"));
    pack(&case, None, &file, None, NOW).unwrap();
    unpack(&file, &to, None).unwrap();
    let record = to.join("fall ä.signed");
    for path in [
        &file,
        &to,
        &record,
        &to.join("fall ä.json"),
        &record.join("desk.events.jsonl"),
    ] {
        let mode = fs::metadata(path).unwrap().permissions().mode();
        assert_eq!(mode & 0o077, 0, "{}", path.display());
    }
}

/// A kill in the middle leaves a folder beside: the next of the name clears it once it is old, and nothing that is not
/// surely of that.
#[cfg(target_os = "linux")]
#[test]
fn what_a_killed_unpack_left_is_cleared_by_the_next_of_its_name() {
    let (folder, case) = case();
    let at = |name: &str| folder.path().join(name);
    pack(&case, None, &at("case.pack"), None, NOW).unwrap();
    let old = std::time::SystemTime::now() - std::time::Duration::from_hours(2);
    let left = |name: &str, is_old: bool| {
        let record = at(name).join("fall ä.signed");
        fs::create_dir_all(&record).unwrap();
        fs::write(at(name).join("fall ä.json"), "{").unwrap();
        fs::write(record.join("desk.events.jsonl"), "").unwrap();
        let open = fs::File::open(at(name)).unwrap();
        if is_old {
            open.set_modified(old).unwrap();
        }
        open
    };
    drop(left(".to.4711-0.part", true));
    drop(left(".to.4712.part", true));
    let held = left(".to.4713-0.part", true);
    held.lock().unwrap();
    let kept = [
        ".to.4714-0.part",
        ".to.4715-0.part",
        ".to.4716-0.part",
        ".other.4711-0.part",
        ".to.x-0.part",
    ];
    drop(left(kept[0], false));
    // What no unpacking makes is somebody's own.
    drop(left(kept[1], true));
    fs::create_dir(at(kept[1]).join("own")).unwrap();
    drop(left(kept[2], true));
    std::os::unix::fs::symlink(&case, at(kept[2]).join("link")).unwrap();
    for name in &kept[1..3] {
        fs::File::open(at(name)).unwrap().set_modified(old).unwrap();
    }
    drop(left(kept[3], true));
    drop(left(kept[4], true));
    unpack(&at("case.pack"), &at("to"), None).unwrap();
    for gone in [".to.4711-0.part", ".to.4712.part"] {
        assert!(!at(gone).exists(), "{gone}");
    }
    for name in kept.iter().chain(&[".to.4713-0.part"]) {
        assert!(
            at(name).join("fall ä.signed/desk.events.jsonl").exists(),
            "{name}"
        );
    }
}

/// Where nothing can be made in its folder nobody can be kept from writing the case: it is read twice instead.
#[cfg(target_os = "linux")]
#[test]
fn a_case_in_a_folder_for_reading_only_is_packed_without_holding_it() {
    let held = held_if_it_can_be(Path::new("/sys/kernel/case.json"));
    assert!(matches!(held, Ok(None)), "{held:?}");
    let lost = held_if_it_can_be(Path::new("/nowhere/at/all/case.json"));
    assert!(lost.is_err(), "{lost:?}");
}

/// Two desks sign while the files are read, the second with what it had read of the first, whose file was read before: that
/// is no record of any moment.
#[test]
fn what_is_packed_while_desks_sign_has_no_break() {
    let (folder, case) = case();
    let jaw = case_jaw(&read_case(&fs::read(&case).unwrap()).unwrap());
    let sign = |desk: &str| {
        let (desk, who) = (WriterId::new(desk).unwrap(), Who::new("KE").unwrap());
        let text = "told".to_owned();
        let now = jiff::Timestamp::UNIX_EPOCH;
        append_event(&case, &jaw, &desk, now, who, EventKind::Note { text }).unwrap();
    };
    for (often, is_packed) in [(1, true), (3, true), (usize::MAX, false)] {
        let mut left = often;
        let settled = settled(&case, || {
            let mut read = files(&case, None)?;
            if left > 0 {
                left -= 1;
                sign("desk");
                sign("desk-z");
                let later = files(&case, None)?.into_iter();
                read.retain(|(name, _)| !name.contains("desk-z"));
                read.extend(later.filter(|(name, _)| name.contains("desk-z")));
            }
            Ok(read)
        });
        if !is_packed {
            assert_eq!(settled, Err(PackFault::Meanwhile));
            continue;
        }
        let out = folder.path().join(format!("out-{often}"));
        fs::create_dir_all(out.join("fall ä.signed")).unwrap();
        for (name, bytes) in settled.unwrap() {
            fs::write(out.join(name), bytes).unwrap();
        }
        let read = read_events(&out.join("fall ä.json"), &jaw).unwrap();
        assert!(!read.events.is_broken(), "{:?}", read.problems);
        assert!(read.events.in_order().len() >= 2 + 2 * often);
    }
}

/// Packs of both versions, changed in some places.
#[test]
fn whatever_a_pack_holds_nothing_comes_out_but_what_it_lists() {
    for version in ["version-1", "version-2"] {
        let corpus = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/corpus/pack");
        let bytes = fs::read(format!("{corpus}/{version}.pack")).unwrap();
        let (contents, _, files) = read::taken_out(&bytes).unwrap();
        assert_eq!((contents.parts.len(), files.len()), (3, 3));
        assert_eq!(contents.packed.is_some(), version == "version-2");
    }
    traywright_samples::inputs::read_all("pack", |bytes| {
        if let Ok((contents, _, files)) = read::taken_out(bytes) {
            let parts = files.iter().map(|(name, bytes)| Part::of(name, bytes));
            assert_eq!(contents.parts, parts.collect::<Vec<_>>());
            assert_eq!(contents.first_unsafe(), None);
        }
    });
}
