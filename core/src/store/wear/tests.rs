//! The ledger on the disk: what it holds is what the cases say, whenever it was brought up to date.

use super::*;
use crate::samples::demo_kit;
use crate::sign::{EventKind, Log, StepTakenBack};
use crate::store::events_folder;
use crate::wear::properties::{acts, happen};
use crate::wear::tests::*;
use crate::wear::wear_of;
use proptest::prelude::*;
use serde_json::json;
use tempfile::TempDir;

struct Practice {
    folder: TempDir,
    kit: Kit,
}

impl Practice {
    fn new() -> Self {
        let mut kit = demo_kit();
        kit.demonstration = false;
        Self {
            folder: tempfile::tempdir().unwrap(),
            kit,
        }
    }

    fn kit_file(&self) -> PathBuf {
        self.folder.path().join("kit.json")
    }

    fn ledger(&self) -> PathBuf {
        self.folder.path().join("kit.wear")
    }

    fn cases(&self) -> PathBuf {
        self.folder.path().join("cases")
    }

    fn case(&self, name: &str) -> PathBuf {
        self.cases().join(format!("{name}.json"))
    }

    /// Writes a case and what was recorded of it.
    fn write<'a>(&self, name: &str, logs: impl Iterator<Item = &'a Log>) -> PathBuf {
        self.write_as(name, name, logs)
    }

    fn write_as<'a>(
        &self,
        name: &str,
        reference: &str,
        logs: impl Iterator<Item = &'a Log>,
    ) -> PathBuf {
        let case = self.case(name);
        let signed = events_folder(&case);
        fs::create_dir_all(&signed).unwrap();
        let of = json!({
            "traywright_case": 1,
            "reference": reference,
            "jaw": "lower",
            "kit": { "id": self.kit.id },
        });
        fs::write(&case, of.to_string()).unwrap();
        for log in logs {
            let file = signed.join(format!("{}.events.jsonl", log.writer()));
            fs::write(file, log.text()).unwrap();
        }
        case
    }

    fn rebuild(&self, forget: bool) -> Result<Rebuilt, WearFault> {
        rebuild_wear(&self.kit_file(), &self.kit, &[self.cases()], forget)
    }

    fn count(&self, case: &Path) -> Result<CaseCounted, WearFault> {
        count_case(&self.kit_file(), &self.kit, case)
    }

    fn read(&self) -> Result<Counted, WearFault> {
        read_wear(&self.kit_file(), &self.kit)
    }
}

/// A case with one sitting that used this piece at so many sites.
fn day(case: &str, mark: &str, sites: usize) -> Desks {
    let one = key("wren", 1);
    let mut desks = Desks::new(case);
    desks.all([
        EventKind::PieceNamed(named(&one, Some(mark), None)),
        begun(false),
    ]);
    desks.all(
        ["a", "b", "c"][..sites]
            .iter()
            .map(|site| drilled(&one, site, "s")),
    );
    desks.all([counted_out()]);
    desks
}

fn uses(counted: &Counted, mark: &str) -> u64 {
    counted.worn(&piece("wren", Some(mark))).uses
}

#[test]
fn without_a_ledger_nothing_is_counted_and_nothing_is_left() {
    let practice = Practice::new();
    let case = practice.write("T-1", day("T-1", "A3", 2).logs());
    assert!(matches!(practice.read(), Err(WearFault::NotThere(_))));
    assert!(matches!(practice.count(&case), Err(WearFault::NotThere(_))));
    let left = fs::read_dir(practice.folder.path()).unwrap().count();
    assert_eq!(left, 1, "the cases alone");
}

#[test]
fn a_case_counts_once_however_often_it_is_counted() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    let rebuilt = practice.rebuild(false).unwrap();
    assert_eq!((rebuilt.cases, rebuilt.others), (1, 0));
    assert_eq!(uses(&practice.read().unwrap(), "a3"), 2);
    let other = practice.write("T-2", day("T-2", "A3", 3).logs());
    assert_eq!(practice.count(&other).unwrap(), CaseCounted::Counted);
    assert_eq!(practice.count(&other).unwrap(), CaseCounted::AsBefore);
    let counted = practice.read().unwrap();
    assert_eq!((uses(&counted, "A3"), counted.closings), (5, 2));
    practice.rebuild(false).unwrap();
    assert_eq!(practice.read().unwrap(), counted);
}

#[test]
fn what_the_record_says_otherwise_afterwards_takes_its_place() {
    let practice = Practice::new();
    let mut desks = day("T-1", "A3", 2);
    let case = practice.write("T-1", desks.logs());
    practice.rebuild(false).unwrap();
    let drilled = desks.events.in_order()[2].clone();
    let EventKind::StepDone(done) = &drilled.kind else {
        panic!("{drilled:?}");
    };
    desks.all([EventKind::StepTakenBack(StepTakenBack {
        reason: None,
        event: drilled.id(),
        step: done.step.clone(),
        purpose: PATIENT,
    })]);
    practice.write("T-1", desks.logs());
    assert_eq!(practice.count(&case).unwrap(), CaseCounted::Counted);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 1);
    // Nothing of it is closed any more.
    let count = desks.events.in_order()[4].clone();
    let EventKind::Counted(counted) = &count.kind else {
        panic!("{count:?}");
    };
    desks.all([EventKind::StepTakenBack(StepTakenBack {
        reason: None,
        event: count.id(),
        step: counted.step.clone(),
        purpose: PATIENT,
    })]);
    practice.write("T-1", desks.logs());
    assert_eq!(practice.count(&case).unwrap(), CaseCounted::NotClosed);
    let open = practice.read().unwrap();
    assert_eq!((open.closings, open.worn.len()), (0, 0));
    assert_eq!(open.open_uses(&piece("wren", Some("A3"))), 1);
    let rebuilt = practice.rebuild(false).unwrap();
    assert_eq!(
        rebuilt.open,
        [case_jaw("T-1")],
        "it is told that it does not count"
    );
}

#[test]
fn a_copy_that_lags_behind_takes_nothing_back() {
    let practice = Practice::new();
    let before = day("T-1", "A3", 2);
    let mut after = day("T-1", "A3", 2);
    after.all([drilled(&key("wren", 1), "c", "s")]);
    practice.write("T-1", after.logs());
    practice.rebuild(false).unwrap();
    let copy = practice.write_as("copy", "T-1", before.logs());
    assert_eq!(practice.count(&copy).unwrap(), CaseCounted::Behind);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 3);
    let rebuilt = practice.rebuild(false).unwrap();
    assert_eq!(rebuilt.cases, 1, "both are one case");
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 3);
}

#[test]
fn copies_that_went_on_apart_are_told_and_nothing_is_counted() {
    let practice = Practice::new();
    practice.write("T-0", day("T-0", "A3", 1).logs());
    practice.rebuild(false).unwrap();
    let [mut one, mut other] = [day("T-1", "A3", 2), day("T-1", "A3", 2)];
    one.all([drilled(&key("wren", 1), "c", "s")]);
    other.all([signed()]);
    practice.write("T-1", one.logs());
    practice.write_as("copy", "T-1", other.logs());
    let Err(WearFault::Cases(cases)) = practice.rebuild(false) else {
        panic!("they are one case");
    };
    assert!(matches!(cases[0].why, Uncounted::Apart(_)), "{cases:?}");
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 1, "it is as it was");
}

/// Copies that were counted one by one: the other desk's day is not taken for the first one's, however many events it has.
#[test]
fn a_copy_that_went_on_apart_takes_nothing_of_what_it_lacks() {
    let practice = Practice::new();
    let mut one = day("T-1", "A3", 1);
    let mut other = day("T-1", "A3", 1);
    one.all([drilled(&key("wren", 1), "b", "s")]);
    other.at("room", begun(true));
    for site in ["a", "b", "c"] {
        other.at("room", drilled(&key("wren", 2), site, "s"));
    }
    other.at("room", signed());
    practice.write("T-1", one.logs());
    practice.rebuild(false).unwrap();
    let before = practice.read().unwrap();
    assert_eq!(uses(&before, "A3"), 2);
    let copy = practice.write_as("copy", "T-1", other.logs());
    assert_eq!(practice.count(&copy).unwrap(), CaseCounted::Apart);
    assert_eq!(practice.read().unwrap(), before);
    practice.rebuild(false).unwrap();
    let both = practice.read().unwrap();
    assert_eq!((both.closings, uses(&both, "A3")), (2, 2));
    assert_eq!(both.worn(&piece("wren", None)).uses, 3);
    for file in [&copy, &practice.case("T-1")] {
        assert_eq!(practice.count(file).unwrap(), CaseCounted::Behind);
    }
    assert_eq!(practice.read().unwrap(), both);
}

#[test]
fn three_copies_of_a_case_are_one_whichever_comes_first() {
    for name in ["0", "between", "z"] {
        let practice = Practice::new();
        let mut both = Desks::new("T-1");
        let one = key("wren", 1);
        both.all([
            EventKind::PieceNamed(named(&one, Some("A3"), None)),
            begun(false),
            drilled(&one, "a", "s"),
            counted_out(),
        ]);
        // A desk that had read nothing of the other.
        let mut room = Desks::new("T-1");
        room.at("room", begun(false));
        room.at("room", drilled(&key("wren", 2), "b", "s"));
        practice.write_as("a", "T-1", both.logs());
        practice.write_as("p", "T-1", room.logs());
        practice.write_as(name, "T-1", both.logs().chain(room.logs()));
        assert_eq!(practice.rebuild(false).unwrap().cases, 1, "{name}");
        let counted = practice.read().unwrap();
        assert_eq!(counted.closings, 1, "{name}");
        assert_eq!(uses(&counted, "A3"), 1);
        for copy in ["a", "p"] {
            let file = practice.case(copy);
            assert_eq!(practice.count(&file).unwrap(), CaseCounted::Behind);
        }
        assert_eq!(practice.read().unwrap(), counted);
    }
}

#[test]
fn a_rebuild_from_a_copy_that_lags_loses_nothing_by_itself() {
    let practice = Practice::new();
    let before = day("T-1", "A3", 1);
    let mut after = day("T-1", "A3", 1);
    after.all([drilled(&key("wren", 1), "b", "s")]);
    practice.write("T-1", after.logs());
    practice.rebuild(false).unwrap();
    practice.write("T-1", before.logs());
    let Err(WearFault::Gone(gone)) = practice.rebuild(false) else {
        panic!("a use would be lost");
    };
    assert_eq!(gone, [case_jaw("T-1")]);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 2);
    assert_eq!(practice.rebuild(true).unwrap().gone, gone);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 1);
}

#[test]
fn a_day_that_is_open_is_known_as_that() {
    let practice = Practice::new();
    fs::create_dir_all(practice.cases()).unwrap();
    practice.rebuild(false).unwrap();
    let mut desks = Desks::new("T-1");
    let case = practice.write("T-1", desks.logs());
    assert_eq!(practice.count(&case).unwrap(), CaseCounted::NotClosed);
    let one = key("wren", 1);
    let naming = EventKind::PieceNamed(named(&one, Some("A3"), None));
    desks.all([naming, begun(false), drilled(&one, "a", "s")]);
    practice.write("T-1", desks.logs());
    for _ in 0..2 {
        assert_eq!(practice.count(&case).unwrap(), CaseCounted::NotClosed);
        let open = practice.read().unwrap();
        assert_eq!((open.closings, open.open.len()), (0, 1));
        assert!(open.is_in_open_day("wren", "a3"));
    }
    desks.all([counted_out()]);
    practice.write("T-1", desks.logs());
    assert_eq!(practice.count(&case).unwrap(), CaseCounted::Counted);
    let closed = practice.read().unwrap();
    assert!(closed.open.is_empty());
    assert_eq!(uses(&closed, "A3"), 1);
}

/// A record of which a log was put aside, and that says so.
fn put_aside() -> EventKind {
    EventKind::SetAside {
        of: desk("desk"),
        file: "desk.events.jsonl.damaged-1".to_owned(),
        content: crate::sign::EventHash::of_file(b"x"),
    }
}

#[test]
fn what_was_put_aside_takes_no_use_back_and_leaves_every_count_unknown() {
    let practice = Practice::new();
    fs::create_dir_all(practice.cases()).unwrap();
    let mut whole = day("T-1", "A3", 2);
    whole.at("room", begun(true));
    whole.at("room", drilled(&key("wren", 2), "c", "s"));
    whole.at("room", signed());
    let case = practice.write("T-1", whole.logs());
    practice.rebuild(false).unwrap();
    let room = || whole.logs().filter(|log| log.writer().as_str() == "room");
    let mut left = Desks::of("T-1", room().cloned());
    left.at("room", put_aside());
    let alone = {
        let mut desks = Desks::new("T-1");
        desks.at("front", put_aside());
        desks
    };
    for desks in [&left, &alone] {
        fs::remove_dir_all(events_folder(&case)).unwrap();
        practice.write("T-1", desks.logs());
        for _ in 0..2 {
            practice.count(&case).unwrap();
            let counted = practice.read().unwrap();
            assert_eq!((uses(&counted, "A3"), counted.closings), (2, 2));
            assert_eq!(counted.worn(&piece("wren", None)).uses, 1);
            assert_eq!(counted.partial, [case_jaw("T-1")]);
        }
    }
    let fault = practice.rebuild(false);
    assert!(matches!(fault, Err(WearFault::Gone(_))), "{fault:?}");
    practice.rebuild(true).unwrap();
    let anew = practice.read().unwrap();
    assert_eq!((anew.closings, uses(&anew, "A3")), (0, 0));
    assert_eq!(
        anew.partial,
        [case_jaw("T-1")],
        "nothing is left, and that is told"
    );
}

#[test]
fn two_cases_of_one_reference_are_two() {
    let practice = Practice::new();
    practice.write_as("one", "T-1", day("T-1", "A3", 2).logs());
    let mut other = Desks::new("T-1");
    other.at("room", begun(false));
    other.at("room", drilled(&key("wren", 1), "a", "s"));
    other.at("room", signed());
    let other = practice.write_as("other", "T-1", other.logs());
    practice.rebuild(false).unwrap();
    let counted = practice.read().unwrap();
    assert_eq!(counted.closings, 2);
    assert_eq!(practice.count(&other).unwrap(), CaseCounted::AsBefore);
    assert_eq!(
        practice.count(&practice.case("one")).unwrap(),
        CaseCounted::AsBefore
    );
    assert_eq!(practice.read().unwrap(), counted);
}

#[test]
fn a_case_that_is_gone_is_not_forgotten_by_itself() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.write("T-2", day("T-2", "A3", 1).logs());
    practice.rebuild(false).unwrap();
    fs::remove_file(practice.case("T-1")).unwrap();
    let Err(WearFault::Gone(gone)) = practice.rebuild(false) else {
        panic!("its uses would be lost");
    };
    assert_eq!(gone, [case_jaw("T-1")]);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 3);
    assert_eq!(practice.rebuild(true).unwrap().gone, gone);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 1);
}

#[test]
fn of_a_broken_record_nothing_is_counted_and_nothing_lost() {
    let practice = Practice::new();
    let case = practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.rebuild(false).unwrap();
    let log = events_folder(&case).join("desk.events.jsonl");
    let text = fs::read_to_string(&log).unwrap();
    fs::write(&log, text.replacen("wren", "gull", 1)).unwrap();
    for fault in [practice.count(&case).err(), practice.rebuild(true).err()] {
        let Some(WearFault::Cases(cases)) = fault else {
            panic!("{fault:?}");
        };
        assert!(matches!(cases[0].why, Uncounted::Broken), "{cases:?}");
    }
    let counted = practice.read().unwrap();
    assert_eq!(uses(&counted, "A3"), 2);
    assert_eq!(counted.partial, [case_jaw("T-1")], "there may be more");
    fs::write(&log, text).unwrap();
    assert_eq!(practice.count(&case).unwrap(), CaseCounted::AsBefore);
    assert_eq!(practice.read().unwrap().partial, []);
}

#[test]
fn what_is_no_case_of_the_kit_wears_no_drill_of_it() {
    let practice = Practice::new();
    let case = practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.rebuild(false).unwrap();
    let text = fs::read_to_string(&case).unwrap();
    for other in [
        text.replace(practice.kit.id.as_str(), "elsewhere"),
        text.replace("\"jaw\"", "\"demonstration\": true, \"jaw\""),
    ] {
        assert_ne!(other, text);
        let file = practice.case("other");
        fs::write(&file, other).unwrap();
        assert_eq!(practice.count(&file).unwrap(), CaseCounted::OfAnother);
    }
    fs::write(
        practice.case("other"),
        text.replace("_case\":1", "_case\":99"),
    )
    .unwrap();
    let newer = practice.count(&practice.case("other"));
    let Err(WearFault::Cases(cases)) = newer else {
        panic!("{newer:?}");
    };
    assert!(matches!(cases[0].why, Uncounted::Newer));
}

#[test]
fn a_damaged_ledger_is_told_and_put_aside() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.rebuild(false).unwrap();
    let sound = fs::read(practice.ledger()).unwrap();
    let want = practice.read().unwrap();
    let mut noticed = 0;
    for at in (0..sound.len()).step_by(61) {
        let mut bytes = sound.clone();
        bytes[at] ^= 0x04;
        fs::write(practice.ledger(), &bytes).unwrap();
        match practice.read() {
            // A byte that nothing stands in.
            Ok(counted) => assert_eq!(counted, want, "byte {at}"),
            Err(_) => noticed += 1,
        }
    }
    assert!(noticed > 0);
    fs::write(practice.ledger(), b"no ledger").unwrap();
    assert!(matches!(practice.read(), Err(WearFault::Damaged(_))));
    let rebuilt = practice.rebuild(false).unwrap();
    assert_eq!(fs::read(rebuilt.aside.unwrap()).unwrap(), b"no ledger");
    assert_eq!(practice.read().unwrap(), want);
}

#[test]
fn a_digit_that_changed_within_is_noticed() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.rebuild(false).unwrap();
    let database = rusqlite::Connection::open(practice.ledger()).unwrap();
    database.execute("UPDATE worn SET uses = 1", []).unwrap();
    drop(database);
    let damaged = fs::read(practice.ledger()).unwrap();
    assert!(matches!(practice.read(), Err(WearFault::Damaged(_))));
    let rebuilt = practice.rebuild(false).unwrap();
    assert_eq!(fs::read(rebuilt.aside.unwrap()).unwrap(), damaged);
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 2);
}

#[test]
fn the_ledger_of_another_kit_or_a_newer_program_is_left_alone() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    practice.rebuild(false).unwrap();
    let bytes = fs::read(practice.ledger()).unwrap();
    let mut other = practice.kit.clone();
    other.id = "other".into();
    for fault in [
        read_wear(&practice.kit_file(), &other).err(),
        rebuild_wear(&practice.kit_file(), &other, &[practice.cases()], true).err(),
    ] {
        assert!(
            matches!(fault, Some(WearFault::OtherKit { .. })),
            "{fault:?}"
        );
    }
    assert_eq!(fs::read(practice.ledger()).unwrap(), bytes);
    let database = rusqlite::Connection::open(practice.ledger()).unwrap();
    database.pragma_update(None, "user_version", 3).unwrap();
    drop(database);
    assert!(matches!(practice.rebuild(true), Err(WearFault::Newer(_))));
}

#[test]
fn what_an_older_ledger_left_half_done_is_not_done_in_a_new_one() {
    let practice = Practice::new();
    practice.write("T-1", day("T-1", "A3", 2).logs());
    let journal = practice.folder.path().join("kit.wear-journal");
    fs::write(&journal, [0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7]).unwrap();
    practice.rebuild(false).unwrap();
    assert!(!journal.exists());
    assert_eq!(uses(&practice.read().unwrap(), "A3"), 2);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    /// Whenever it was brought up to date meanwhile, and however often: once each case was counted as it ended, the ledger
    /// says what one that is counted anew says.
    #[test]
    fn the_running_count_is_the_one_that_is_counted_anew(
        days in prop::collection::vec(acts(), 1..4),
        looks in prop::collection::vec((0..3usize, 0..40usize), 0..12),
    ) {
        let practice = Practice::new();
        fs::create_dir_all(practice.cases()).unwrap();
        practice.rebuild(false).unwrap();
        let name = |n: usize| format!("T-{n}");
        let mut looks = looks;
        looks.sort_by_key(|(_, up_to)| *up_to);
        for (n, up_to) in looks.iter().filter(|(n, _)| *n < days.len()) {
            let acts = &days[*n][..(*up_to).min(days[*n].len())];
            // As far as it went by then.
            let (desks, _) = happen(acts, &name(*n));
            let case = practice.write(&name(*n), desks.logs());
            practice.count(&case).unwrap();
        }
        let mut wear = Vec::new();
        for (n, acts) in days.iter().enumerate() {
            let (desks, _) = happen(acts, &name(n));
            wear.push(wear_of(&desks.events, PATIENT).unwrap());
            let case = practice.write(&name(n), desks.logs());
            practice.count(&case).unwrap();
        }
        let running = practice.read().unwrap();
        prop_assert_eq!(&running, &Counted::of(&wear));
        practice.rebuild(false).unwrap();
        prop_assert_eq!(&practice.read().unwrap(), &running);
        fs::remove_file(practice.ledger()).unwrap();
        practice.rebuild(false).unwrap();
        prop_assert_eq!(&practice.read().unwrap(), &running);
    }
}
