use super::*;
use crate::dentition::Jaw;
use crate::sign::{Fingerprint, Heads, Who};
use crate::store::{append_event, put_record_aside};

fn case_jaw() -> CaseJaw {
    CaseJaw {
        case: "T-1".to_owned(),
        jaw: Jaw::Lower,
    }
}

fn desk(name: &str) -> WriterId {
    WriterId::new(name).unwrap()
}

fn at(seconds: i64) -> jiff::Timestamp {
    jiff::Timestamp::from_second(1_900_000_000 + seconds).unwrap()
}

fn who() -> Who {
    Who::new("R. T.").unwrap()
}

fn note(text: &str) -> EventKind {
    EventKind::Note {
        text: text.to_owned(),
    }
}

/// A folder with a case and the events of two desks that know of each other.
struct Folder {
    folder: tempfile::TempDir,
}

impl Folder {
    fn new() -> Self {
        let folder = Self {
            folder: tempfile::tempdir().unwrap(),
        };
        folder.append("desk", note("one"));
        folder.append("room", note("two"));
        folder.append(
            "desk",
            EventKind::ApprovalWithdrawn {
                fingerprint: Fingerprint::of_bytes(b"plan"),
                reason: "seen again".to_owned(),
            },
        );
        folder
    }

    fn case(&self) -> PathBuf {
        self.folder.path().join("case.json")
    }

    fn of(&self, name: &str) -> PathBuf {
        events_folder(&self.case()).join(name)
    }

    fn append(&self, writer: &str, kind: EventKind) {
        append_event(&self.case(), &case_jaw(), &desk(writer), at(0), who(), kind).unwrap();
    }

    fn read(&self) -> EventsBeside {
        read_events(&self.case(), &case_jaw()).unwrap()
    }

    /// Names of the problems, without their common beginning.
    fn told(&self) -> Vec<String> {
        let problems = self.read().problems;
        let told = problems.iter().map(|one| {
            let id = one.message().id;
            format!("{} {}", one.file, id.trim_start_matches("sign-file-"))
        });
        told.collect()
    }

    fn is_broken(&self) -> bool {
        self.read().events.is_broken()
    }
}

#[test]
fn each_desk_names_what_it_had_read_of_the_other() {
    let folder = Folder::new();
    let read = folder.read();
    assert!(!read.events.is_broken(), "{:?}", read.problems);
    let seen: Vec<Vec<(&str, u64)>> = read
        .events
        .in_order()
        .into_iter()
        .map(|event| {
            let heads = event.seen.iter();
            heads
                .map(|(writer, head)| (writer.as_str(), head.seq))
                .collect()
        })
        .collect();
    assert_eq!(seen, [vec![], vec![("desk", 1)], vec![("room", 1)]]);
}

#[test]
fn every_byte_of_a_record_that_is_changed_breaks_it_or_is_noted_as_harmless() {
    let folder = Folder::new();
    for name in ["desk.events.jsonl", "room.events.jsonl"] {
        let file = folder.of(name);
        let whole = fs::read(&file).unwrap();
        let events = folder.read().events;
        for at in 0..whole.len() {
            for change in [1_u8, 0x20, 0x80, whole[at]] {
                let mut bytes = whole.clone();
                bytes[at] ^= change;
                fs::write(&file, &bytes).unwrap();
                let read = folder.read();
                let same = read.events.in_order() == events.in_order();
                assert!(read.events.is_broken() || same, "{name} {at} {change}");
            }
        }
        fs::write(&file, &whole).unwrap();
    }
}

/// What was cut off at its end, to the line or within it, was read by the other desk.
#[test]
fn lines_and_files_that_are_gone_are_told_where_another_desk_had_read_them() {
    let folder = Folder::new();
    folder.append("room", note("knows of the withdrawal"));
    let file = folder.of("desk.events.jsonl");
    let whole = fs::read_to_string(&file).unwrap();
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    fs::write(&file, lines[..2].concat()).unwrap();
    assert_eq!(folder.told(), ["desk.events.jsonl lost"]);
    assert!(folder.is_broken());
    fs::remove_file(&file).unwrap();
    assert_eq!(folder.told(), ["desk.events.jsonl lost"; 2]);
    fs::write(&file, whole).unwrap();
    assert!(!folder.is_broken());
}

#[test]
fn a_log_under_another_name_is_never_passed_over() {
    for other in [
        "desk (conflicted copy).events.jsonl",
        "desk.events.jsonl.bak",
        "DESK.EVENTS.JSONL",
        "desk.events.jsonl.part",
        "desk.events.jsonl.torn-1",
        "desk.events.jsonl.damaged-1",
        ".desk.events.jsonl",
        "old",
    ] {
        let folder = Folder::new();
        let file = folder.of("desk.events.jsonl");
        fs::rename(&file, folder.of(other)).unwrap();
        assert!(folder.is_broken(), "{other}");
        fs::rename(folder.of(other), &file).unwrap();
        assert!(!folder.is_broken(), "{other}");
    }
}

/// Packed, evicted by a share, written in other letters, or laid into a folder: what may have been a withdrawal.
#[test]
fn what_has_the_name_of_a_log_and_is_none_breaks_the_record_by_name() {
    let utf16 = |bytes: &[u8]| {
        let text = String::from_utf8_lossy(bytes).into_owned();
        let units = text.encode_utf16().flat_map(u16::to_le_bytes);
        [vec![0xff, 0xfe], units.collect()].concat()
    };
    let empty = |_: &[u8]| Vec::new();
    let as_is = |bytes: &[u8]| bytes.to_vec();
    let of = |bytes: &'static [u8]| move |_: &[u8]| bytes.to_vec();
    let (placeholder, packed) = (of(b"bplist00\xd3xxxx"), of(b"\x1f\x8b\x08\x00zzz"));
    let cases: [(&str, &dyn Fn(&[u8]) -> Vec<u8>); 11] = [
        (".room.events.jsonl.icloud", &placeholder),
        ("room.events.jsonl.gz", &packed),
        ("room.events.jsonl.zip", &packed),
        ("Room.Events.JSONL.zip", &packed),
        ("room.events.jsonl.part", &empty),
        ("room.events.jsonl.txt", &utf16),
        ("._room.events.jsonl", &placeholder),
        ("room.events.jsonl.torn-x", &packed),
        ("old/room.events.jsonl", &as_is),
        ("old/room.events.jsonl.gz", &packed),
        ("old/ROOM.events.jsonl~", &packed),
    ];
    for (name, change) in cases {
        // As it was never read by the other desk, nothing else tells that it is gone.
        let folder = Folder::new();
        let room = folder.of("room.events.jsonl");
        let bytes = fs::read(&room).unwrap();
        fs::remove_file(&room).unwrap();
        fs::remove_file(folder.of("desk.events.jsonl")).unwrap();
        folder.append("desk", note("alone"));
        assert!(!folder.is_broken());
        if let Some((within, _)) = name.split_once('/') {
            fs::create_dir(folder.of(within)).unwrap();
        }
        fs::write(folder.of(name), change(&bytes)).unwrap();
        assert!(folder.is_broken(), "{name}");
        let told = folder.told();
        assert!(told.iter().any(|one| one.starts_with(name)), "{told:?}");
        put_record_aside(
            &folder.case(),
            &case_jaw(),
            &desk("desk"),
            at(9),
            &who(),
            &mut Heads::new(),
        )
        .unwrap();
        assert!(!folder.is_broken(), "{name}: {:?}", folder.told());
        assert!(folder.of(&format!("{name}.damaged-1")).exists(), "{name}");
    }
}

/// What a desk leaves that is ended while it writes, and what was put aside before, is no log.
#[test]
fn what_a_desk_writes_beside_its_log_breaks_nothing() {
    let folder = Folder::new();
    let whole = fs::read(folder.of("desk.events.jsonl")).unwrap();
    for (name, bytes) in [
        (".desk.events.jsonl.4711-0.part", &b""[..]),
        (".desk.events.jsonl.4711-1.part", &whole[..40]),
        (".desk.events.jsonl.4711-2.part", &whole[..whole.len() - 9]),
        (".third.events.jsonl.4711-0.part", b""),
        ("desk.events.jsonl.torn-7", b"{\"writer\""),
    ] {
        fs::write(folder.of(name), bytes).unwrap();
        assert_eq!(folder.told(), Vec::<String>::new(), "{name}");
    }
    fs::create_dir(folder.of("old")).unwrap();
    fs::write(folder.of("old").join("notes.txt"), "x").unwrap();
    assert_eq!(folder.told(), Vec::<String>::new());
}

/// Sound, and signed for another case: from here it is not put aside, whatever its file is called.
#[test]
fn events_of_another_case_stay_where_they_lie() {
    for (name, torn) in [
        ("x.events.jsonl", false),
        ("desk.events.jsonl", false),
        ("desk.events.jsonl", true),
    ] {
        let folder = Folder::new();
        let of = CaseJaw {
            case: "T-2".to_owned(),
            jaw: Jaw::Lower,
        };
        let mut log = Log::new(&of, desk(name.split('.').next().unwrap()));
        log.append(at(0), who(), note("one")).unwrap();
        log.append(at(1), who(), note("two")).unwrap();
        let mut bytes = log.text().into_bytes();
        bytes.truncate(bytes.len() - if torn { 9 } else { 0 });
        fs::write(folder.of(name), &bytes).unwrap();
        let aside = put_record_aside(
            &folder.case(),
            &case_jaw(),
            &desk("room"),
            at(9),
            &who(),
            &mut Heads::new(),
        );
        assert!(aside.is_err(), "{name}");
        assert_eq!(fs::read(folder.of(name)).unwrap(), bytes);
        assert!(folder.is_broken());
    }
}

/// What other systems put beside a file has its name behind a sign of their own, and is told by what it holds: a log
/// under such a name is a log.
#[test]
fn what_other_systems_put_beside_a_log_is_none_of_the_record() {
    let double: &[u8] = b"\x00\x05\x16\x07\x00\x02\x00\x00Mac OS X        \x00\x02com.apple";
    let folder = Folder::new();
    for (name, bytes) in [
        ("._desk.events.jsonl", double),
        ("._room.events.jsonl", double),
        ("._desk.lock", double),
        (".DS_Store", b"\0\0\0\x01Bud1"),
        ("Thumbs.db", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"),
        ("desktop.ini", b"[.ShellClassInfo]\r\n"),
    ] {
        fs::write(folder.of(name), bytes).unwrap();
        assert!(!folder.is_broken(), "{name}: {:?}", folder.told());
        assert_eq!(folder.told(), Vec::<String>::new(), "{name}");
    }
    let log = fs::read(folder.of("desk.events.jsonl")).unwrap();
    for name in [
        "._desk.events.jsonl",
        ".DS_Store",
        "Thumbs.db",
        "desktop.ini",
    ] {
        let folder = Folder::new();
        fs::rename(folder.of("desk.events.jsonl"), folder.of(name)).unwrap();
        assert!(folder.is_broken(), "{name} is a log");
        let folder = Folder::new();
        fs::remove_file(folder.of("desk.events.jsonl")).unwrap();
        fs::write(folder.of(name), [double, &log].concat()).unwrap();
        assert!(folder.is_broken(), "{name} holds one");
    }
}

/// What is named like a log and cannot be read as one may have been a withdrawal.
#[cfg(unix)]
#[test]
fn a_log_whose_name_is_of_no_plain_file_breaks_the_record_by_name_and_can_be_put_aside() {
    use std::os::unix::fs::symlink;
    let link = |to: &'static str| move |file: &Path| symlink(to, file).unwrap();
    let as_folder = |file: &Path| fs::create_dir(file).unwrap();
    let as_socket = |file: &Path| drop(std::os::unix::net::UnixListener::bind(file).unwrap());
    let (dangling, device) = (link("nowhere"), link("/dev/null"));
    // Its end is behind a file: the system does not say that there is none, but that it cannot tell.
    let unanswered = link("../case.signed/room.events.jsonl/x");
    let kinds: [(&str, &dyn Fn(&Path)); 5] = [
        ("dangling", &dangling),
        ("unanswered", &unanswered),
        ("device", &device),
        ("folder", &as_folder),
        ("socket", &as_socket),
    ];
    for name in [
        "desk.events.jsonl",
        "desk.events.jsonl.bak",
        "x.Events.JSONL",
    ] {
        for (kind, make) in kinds {
            let folder = Folder::new();
            let file = folder.of(name);
            let _ = fs::remove_file(&file);
            make(&file);
            let told = folder.told();
            assert!(folder.is_broken(), "{kind} {name}");
            assert!(told.contains(&format!("{name} no-file")), "{told:?}");
            let case = folder.case();
            put_record_aside(
                &case,
                &case_jaw(),
                &desk("desk"),
                at(9),
                &who(),
                &mut Heads::new(),
            )
            .unwrap();
            assert!(!folder.is_broken(), "{kind} {name}: {:?}", folder.told());
            assert!(fs::symlink_metadata(folder.of(&format!("{name}.damaged-1"))).is_ok());
        }
    }
}

/// Nobody knows whether it is a log under another name: that is told and is not "no events".
#[cfg(unix)]
#[test]
fn where_the_system_does_not_answer_what_lies_there_nothing_is_read() {
    for name in ["old", "room.events.jsonl.torn-1", "desk.lock"] {
        let folder = Folder::new();
        let _ = fs::remove_file(folder.of(name));
        let to = folder.of("room.events.jsonl").join("x");
        std::os::unix::fs::symlink(to, folder.of(name)).unwrap();
        let read = read_events(&folder.case(), &case_jaw());
        let told = read.unwrap_err().to_string();
        assert!(told.contains(name), "{told}");
    }
}

#[cfg(unix)]
#[test]
fn a_record_behind_a_link_that_leads_nowhere_is_none_that_is_empty() {
    let folder = tempfile::tempdir().unwrap();
    let case = folder.path().join("case.json");
    assert!(read_events(&case, &case_jaw()).is_ok());
    std::os::unix::fs::symlink("nowhere", events_folder(&case)).unwrap();
    assert!(read_events(&case, &case_jaw()).is_err());
}

/// Each with what it had read of the other: a reader that is between two files has read the one before.
#[test]
fn desks_that_sign_meanwhile_never_look_like_a_break() {
    use std::sync::atomic::{AtomicBool, Ordering::Relaxed};
    let folder = Folder::new();
    // So that the second desk's file is read some time after the first one's.
    for n in 0..100 {
        fs::write(folder.of(&format!("m{n}.txt")), b"between").unwrap();
    }
    let is_over = AtomicBool::new(false);
    let broken = std::thread::scope(|scope| {
        scope.spawn(|| {
            while !is_over.load(Relaxed) {
                folder.append("a", note("told"));
                folder.append("z", note("told"));
            }
        });
        let broken = (0..100).filter(|_| folder.is_broken()).count();
        is_over.store(true, Relaxed);
        broken
    });
    assert_eq!(broken, 0, "of 100");
}

#[test]
fn a_copy_is_noted_as_long_as_it_says_nothing_new() {
    let folder = Folder::new();
    let (file, copy) = (
        folder.of("desk.events.jsonl"),
        folder.of("desk.events.jsonl.bak"),
    );
    fs::copy(&file, &copy).unwrap();
    folder.append("desk", note("more"));
    assert_eq!(folder.told(), ["desk.events.jsonl.bak copy"]);
    assert!(!folder.is_broken());
    // The copy is put in the place of the file and written on: the two part.
    let newer = fs::read(&file).unwrap();
    fs::copy(&copy, &file).unwrap();
    folder.append("desk", note("something else"));
    fs::write(&copy, newer).unwrap();
    assert!(folder.is_broken());
    let told = folder.told();
    assert!(
        told.contains(&"desk.events.jsonl.bak forked".to_owned()),
        "{told:?}"
    );
}

#[test]
fn what_is_no_record_is_left_alone() {
    let folder = Folder::new();
    for (name, bytes) in [
        ("notes.txt", &b"a text"[..]),
        ("desk.lock", b""),
        (
            "desk.events.jsonl.torn-1",
            b"{\"writer\":\"desk\",\"seq\":3,",
        ),
        ("settings.json", b"{}"),
    ] {
        fs::write(folder.of(name), bytes).unwrap();
    }
    fs::create_dir(folder.of("old")).unwrap();
    assert_eq!(folder.told(), Vec::<String>::new());
}

#[test]
fn a_damaged_record_can_be_put_aside_and_everything_has_to_be_signed_anew() {
    for damaged in ["desk", "room"] {
        let folder = Folder::new();
        let file = folder.of(&format!("{damaged}.events.jsonl"));
        let mut bytes = fs::read(&file).unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
        fs::write(&file, &bytes).unwrap();
        assert!(folder.is_broken());
        let aside = || {
            let case = folder.case();
            put_record_aside(
                &case,
                &case_jaw(),
                &desk("desk"),
                at(9),
                &who(),
                &mut Heads::new(),
            )
            .unwrap()
        };
        let kept = aside();
        assert!(!folder.is_broken(), "{:?}", folder.told());
        let kept = kept.files;
        assert_eq!(kept, [format!("{damaged}.events.jsonl.damaged-1")]);
        assert_eq!(fs::read(folder.of(&kept[0])).unwrap(), bytes);
        assert!(aside().is_nothing(), "nothing is left to be put aside");
        folder.append("room", note("again"));
        folder.append("desk", note("again"));
        assert!(!folder.is_broken(), "{:?}", folder.told());
        // What is kept has to stay as it is.
        fs::write(folder.of(&kept[0]), b"x").unwrap();
        assert!(folder.is_broken());
    }
}

/// A code on paper stands for all that its desk had read, not for its own lines alone.
#[test]
fn a_code_on_paper_holds_only_while_all_that_it_stands_for_does() {
    use crate::sign::Holds;
    let folder = Folder::new();
    let code = |name: &str| {
        let codes = folder.read().events.head_codes();
        codes
            .into_iter()
            .find(|one| one.writer == desk(name))
            .unwrap()
    };
    let (own, room) = (code("desk"), code("room"));
    let holds = |code| folder.read().events.holds(code);
    assert_eq!((holds(&own), holds(&room)), (Holds::Yes, Holds::Yes));
    let file = folder.of("desk.events.jsonl");
    let whole = fs::read(&file).unwrap();
    // Removed: what the other desk had read is gone.
    fs::remove_file(&file).unwrap();
    assert_eq!(
        (holds(&own), holds(&room)),
        (Holds::Unread(0), Holds::Apart)
    );
    // Damaged: it lies there, and was not removed.
    let mut bytes = whole.clone();
    let middle = bytes.len() / 3;
    bytes[middle] ^= 1;
    fs::write(&file, &bytes).unwrap();
    assert!(matches!(holds(&own), Holds::Unread(_)));
    assert_eq!(holds(&room), Holds::Apart);
    // Put aside, it is said, and does not come back as what it was.
    let case = folder.case();
    put_record_aside(
        &case,
        &case_jaw(),
        &desk("third"),
        at(9),
        &who(),
        &mut Heads::new(),
    )
    .unwrap();
    assert!(!folder.is_broken());
    assert_eq!((holds(&own), holds(&room)), (Holds::PutAside, Holds::Apart));
    folder.append("desk", note("anew"));
    folder.append("desk", note("anew"));
    assert_eq!(holds(&own), Holds::PutAside);
}

#[test]
fn a_record_that_is_gone_can_be_given_up() {
    let folder = Folder::new();
    fs::remove_file(folder.of("desk.events.jsonl")).unwrap();
    assert!(folder.is_broken());
    let case = folder.case();
    put_record_aside(
        &case,
        &case_jaw(),
        &desk("room"),
        at(9),
        &who(),
        &mut Heads::new(),
    )
    .unwrap();
    assert!(!folder.is_broken(), "{:?}", folder.told());
    folder.append("desk", note("begins anew"));
    assert!(!folder.is_broken(), "{:?}", folder.told());
}

#[test]
fn an_entry_that_cannot_be_read_is_an_error() {
    let entries = [Ok("a.events.jsonl".into()), Err(std::io::Error::other("x"))];
    assert!(all_of(entries.into_iter()).is_err());
}

/// Whatever it is called: nobody looked into it. Sparse, so that it takes no room.
#[test]
fn a_file_too_large_to_be_read_breaks_the_record_and_stops_nothing_else() {
    for name in ["room.events.jsonl", "scan.img"] {
        let folder = Folder::new();
        let file = fs::File::create(folder.of(name)).unwrap();
        file.set_len(MOST_BYTES + 1).unwrap();
        let read = read_events(&folder.case(), &case_jaw()).unwrap();
        assert!(read.events.is_broken(), "{name}");
        let told = read.problems.iter().find(|problem| problem.file == name);
        let kind = &told.unwrap().kind;
        assert!(matches!(kind, ProblemKind::FileTooLarge { .. }), "{kind:?}");
    }
}
