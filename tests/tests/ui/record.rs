//! The record of the day, entered by keys alone as a scanner and a hand type it, corrected and signed.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::path::{Path, PathBuf};
use traywright::action::View;
use traywright_core::case::{Case, ValidCase, read_case};
use traywright_core::measure::{Length, Torque};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{
    Entry, EventKind, Given, Inserted, InsertionWay, Led, Purpose, Recorded, SiteKey,
    StabilityMethod, StepKey, Who, WriterId,
};
use traywright_core::store::{append_event, read_events};

const WHO: &str = "Who records? Name or initials";
const LABEL: &str = "Code on its label, scanned or typed";
const SITE: &str = "lower right first molar (46)";
/// Article, last day of use and lot as the label of a package has them.
const SCAN: &str = "01040123456789011799053110L7-A";

fn read(file: &Path) -> ValidCase {
    read_case(&std::fs::read(file).expect("a file")).expect("a case")
}

/// An invented case as a file of its own, changed before it is written.
fn case_in(folder: &Path, demo: &str, change: impl FnOnce(&mut Case)) -> PathBuf {
    let demos = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
    let mut case: Case = (*read(&demos.join(format!("{demo}.json")))).clone();
    change(&mut case);
    let case = ValidCase::try_from(case).expect("no fault");
    let file = folder.join("case.json");
    let text = serde_json::to_string_pretty(&*case).expect("plain data");
    std::fs::write(&file, text).expect("a file");
    file
}

/// A hand without a pointer at the record of a case.
struct Desk {
    hand: Hand,
    file: PathBuf,
}

impl Desk {
    fn of(change: impl FnOnce(&mut Case)) -> Self {
        let mut hand = Hand::at(DESK, 1.0).by_keys();
        let file = case_in(hand.folder.path(), "two-molars", |case| {
            // The kit knows the label of the first site's implant.
            let id = case.sites[0].implant.clone();
            let mut implants = case.kit.implants.iter_mut();
            let implant = implants.find(|one| one.id == id).expect("an implant");
            implant.code = Some("04012345678901".into());
            change(case);
        });
        hand.harness.state_mut().open(&file);
        hand.wait();
        hand.go(View::Record);
        Self { hand, file }
    }

    fn told(&self) -> Vec<String> {
        let all = self.hand.harness.query_all_by(|_| true);
        all.flat_map(|node| {
            let node = node.accesskit_node();
            [node.label(), node.value()]
        })
        .flatten()
        .collect()
    }

    fn tells(&self, words: &str) -> bool {
        self.told().iter().any(|text| text.contains(words))
    }

    #[track_caller]
    fn expect(&self, words: &str) {
        assert!(self.tells(words), "no “{words}” among {:#?}", self.told());
    }

    /// The field that has the keyboard.
    fn field(&self) -> String {
        let found = self
            .hand
            .harness
            .query_all_by(|node| node.role() == Role::TextInput && node.is_focused());
        let names = found.map(|node| node.accesskit_node().label().unwrap_or_default());
        names.collect::<Vec<_>>().join(", ")
    }

    /// Types into the field that has the keyboard, all at once as a scanner does, and Enter.
    fn wedge(&mut self, text: &str) {
        self.hand.harness.event(Event::Text(text.to_owned()));
        self.hand.press(Modifiers::NONE, Key::Enter);
        self.hand.harness.run();
        self.hand.harness.run();
    }

    #[track_caller]
    fn at(&mut self, field: &str, text: &str) {
        assert_eq!(self.field(), field, "{:#?}", self.told());
        if text.is_empty() {
            self.hand.press(Modifiers::NONE, Key::Enter);
            self.hand.harness.run();
        } else {
            self.wedge(text);
        }
    }

    fn begin(&mut self) {
        self.hand.reach(Role::TextInput, WHO);
        self.wedge("MK");
    }

    fn kinds(&self) -> Vec<EventKind> {
        let beside = read_events(&self.file, &case_jaw(&read(&self.file))).expect("a record");
        assert!(!beside.events.is_broken());
        let events = beside.events.in_order().into_iter();
        events.map(|event| event.kind.clone()).collect()
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |kind| match kind {
            EventKind::Recorded(Recorded { entry, .. }) => Some(entry),
            _ => None,
        };
        self.kinds().into_iter().filter_map(entry).collect()
    }

    /// Another desk records something, and this one looks at the disk.
    fn elsewhere(&mut self, kind: EventKind) {
        let case = read(&self.file);
        let (writer, who) = (WriterId::new("tray").unwrap(), Who::new("RT").unwrap());
        let at = "2026-11-25T08:00:00Z".parse().unwrap();
        append_event(&self.file, &case_jaw(&case), &writer, at, who, kind).expect("recorded");
        self.hand.go(View::Record);
        self.hand.harness.run();
    }

    fn site(&self, index: usize) -> SiteKey {
        let case = read(&self.file);
        SiteKey {
            site: case.sites[index].id.to_string(),
            tooth: case.sites[index].tooth,
        }
    }
}

/// One implant from the label to what was done otherwise, by what a scanner and a hand type; then it is corrected and signed.
#[test]
fn an_implant_is_recorded_by_keys_alone() {
    let mut desk = Desk::of(|_| {});
    desk.expect("FOR PRACTICE ONLY");
    desk.expect("not recorded: implant placed");
    // The first scan of all goes where the keyboard is, and is nobody's name.
    desk.at(WHO, SCAN);
    assert!(desk.entries().is_empty());
    desk.expect("a name needs letters");
    desk.wedge("MK");
    desk.at(LABEL, SCAN);
    // The label was taken apart; it is recorded once somebody held it against the label.
    assert!(desk.entries().is_empty());
    desk.expect("04012345678901");
    desk.expect("L7-A");
    desk.at("Expiry, such as 2031-05-31 or 2031-05", "");
    desk.at("Torque, N·cm", "35");
    desk.at(
        "How far from its planned depth, mm; 0 for as planned",
        "0.4",
    );
    desk.at(
        "To which side: c for coronal of the plan, a for apical of it",
        "c",
    );
    desk.at("Figure as the device shows it, whole", "71");
    desk.at(
        "How it was measured: r for resonance, d for damping of a tap",
        "r",
    );
    desk.at("Material", "none");
    desk.at("How it was closed", "single stitches");
    desk.at("Part", "healing part 4.5");
    desk.at("Lot", "H 1");
    desk.at("Its torque, N·cm", "15");
    desk.at("What was done otherwise than planned", "none");
    let site = desk.site(0);
    let entries = desk.entries();
    let Entry::Implant(placed) = &entries[0] else {
        panic!("{entries:?}");
    };
    assert_eq!(placed.code, "04012345678901");
    assert_eq!(placed.lot.as_deref(), Some("L7-A"));
    assert_eq!(
        placed.expiry.map(|day| day.to_string()).as_deref(),
        Some("2099-05-31")
    );
    assert_eq!((placed.given, &placed.because), (Given::Scanned, &None));
    assert_eq!(placed.implant, placed.planned);
    let rest = [
        Entry::Torque {
            site: site.clone(),
            torque_ncm: Torque::from_ncm(35),
        },
        Entry::Depth {
            site: site.clone(),
            coronal_of_plan_mm: Length::from_um(400),
        },
        Entry::Stability {
            site: site.clone(),
            method: StabilityMethod::Resonance,
            value: 71,
        },
        Entry::Graft {
            site: site.clone(),
            material: None,
        },
    ];
    assert_eq!(entries[1..5], rest);
    assert_eq!(entries.len(), 8, "{entries:?}");
    desk.expect("0.4 mm coronal of its planned depth");
    // The next site is asked for.
    assert_eq!(desk.field(), LABEL);
    // The torque was read wrongly.
    desk.hand
        .click(&format!("Correct insertion torque, {SITE}"));
    desk.at("Torque, N·cm", "45");
    desk.at("Why is it corrected?", "");
    desk.expect("This is needed.");
    desk.at("Why is it corrected?", "read wrongly");
    desk.expect("Before: 35 N·cm (MK");
    desk.expect("45 N·cm (MK");
    // Signed with what is open told, and afterwards something is added.
    desk.hand.reach(Role::TextInput, "Who signs? Name");
    desk.hand.harness.event(Event::Text("R. Thorn".to_owned()));
    desk.hand.harness.run();
    let buttons = desk.hand.names(Role::Button);
    let mut buttons = buttons
        .iter()
        .filter(|name| name.starts_with("Sign the record"));
    let sign = buttons.next().expect("a button").clone();
    assert!(sign.contains(" things open"), "{sign}");
    desk.hand.click(&sign);
    desk.expect("Signed by R. Thorn");
    assert!(!desk.tells("was added since") && !desk.tells("were added since"));
    let closure = Entry::Closure {
        site: desk.site(1),
        how: "left open".to_owned(),
    };
    desk.elsewhere(EventKind::Recorded(Recorded {
        entry: closure,
        purpose: Purpose::Practice,
    }));
    desk.expect("One thing was added since");
    desk.expect("ADDED SINCE THE RECORD WAS SIGNED");
}

/// What is not the planned implant by its code, or what nobody can say to be, is a question with a reason.
#[test]
fn another_implant_is_a_stop_that_a_reason_answers() {
    let mut desk = Desk::of(|_| {});
    let case = read(&desk.file);
    let planned = &case.sites[0].implant;
    let others = case.kit.implants.iter();
    let mut others = others.filter(|one| one.id != *planned);
    let other = others.next().expect("another one").clone();
    desk.begin();
    let unknown = "What does its label say it is, and why was it placed?";
    for (code, told, why) in [
        (
            other.name.as_str(),
            "STOP. By its code",
            "Why was it placed?",
        ),
        ("4711", "STOP. The kit has no implant", unknown),
    ] {
        desk.at(LABEL, code);
        desk.at("Lot", "L1");
        desk.at("Expiry, such as 2031-05-31 or 2031-05", "2031-13");
        desk.expect("No day: write it as");
        // What was typed is there to be mended.
        desk.hand.press(Modifiers::COMMAND, Key::A);
        desk.at("Expiry, such as 2031-05-31 or 2031-05", "2099-05");
        desk.expect(told);
        assert!(desk.entries().is_empty());
        desk.at(why, "");
        desk.expect("This is needed.");
        assert!(desk.entries().is_empty());
        if code == other.name.as_str() {
            desk.hand.click("Back to the label");
            assert!(!desk.tells("STOP."));
            desk.hand.press(Modifiers::COMMAND, Key::A);
            desk.hand.press(Modifiers::NONE, Key::Backspace);
            desk.hand.reach(Role::Button, "Enter nothing now");
            desk.hand.press(Modifiers::NONE, Key::Space);
            desk.hand.click(&format!("Enter implant placed, {SITE}"));
        }
    }
    desk.at(unknown, "the planned one fell");
    let entries = desk.entries();
    let [Entry::Implant(placed)] = &entries[..] else {
        panic!("{entries:?}");
    };
    assert_eq!((placed.code.as_str(), &placed.implant), ("4711", &None));
    assert_eq!(placed.given, Given::Typed);
    assert_eq!(placed.because.as_deref(), Some("the planned one fell"));
    desk.expect("Nobody can say whether it is the planned one");
}

/// A lot that was not to be used any more is told at the head.
#[test]
fn an_expired_lot_is_told_plainly() {
    let mut desk = Desk::of(|_| {});
    desk.begin();
    desk.at(LABEL, "01040123456789011720013110L7-A");
    desk.at("Expiry, such as 2031-05-31 or 2031-05", "");
    desk.expect("EXPIRED. To be used by 2020-01-31");
    let placed = desk.entries();
    assert!(matches!(&placed[..], [Entry::Implant(_)]), "{placed:?}");
}

/// Nothing is recorded without a person, over a plan that is not in its file, or over a broken record.
#[test]
fn nothing_is_recorded_without_a_person_or_over_a_case_that_is_not_saved() {
    let mut desk = Desk::of(|_| {});
    desk.hand.reach(Role::TextInput, LABEL);
    desk.at(LABEL, SCAN);
    desk.at("Expiry, such as 2031-05-31 or 2031-05", "");
    desk.expect("Who records is entered first.");
    assert!(desk.kinds().is_empty());
    desk.at(WHO, "MK");
    assert!(desk.kinds().is_empty());
    // What was scanned is there still.
    desk.at(LABEL, "");
    desk.at("Lot", "");
    desk.at("Expiry, such as 2031-05-31 or 2031-05", "");
    assert_eq!(desk.entries().len(), 1);
}

/// What the day brought stands without being entered, and is corrected like all else.
#[test]
fn what_the_day_brought_is_there_and_another_desk_is_not_written_over() {
    let mut desk = Desk::of(|_| {});
    let case = read(&desk.file);
    let inserted = EventKind::Inserted(Inserted {
        step: StepKey::Insert {
            site: desk.site(0),
            implant: case.sites[0].implant.to_string(),
            led: Led::Freehand,
        },
        way: InsertionWay::Freehand,
        torque_ncm: Some(Torque::from_ncm(38)),
        coronal_of_plan_mm: Some(Length::ZERO),
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    });
    desk.begin();
    desk.elsewhere(inserted);
    desk.expect("insertion torque: 38 N·cm (RT");
    desk.expect("final depth: at its planned depth (RT");
    // What is being entered here is entered elsewhere: this one lets go.
    desk.hand.click(&format!("Enter closure, {SITE}"));
    assert_eq!(desk.field(), "How it was closed");
    desk.hand.harness.event(Event::Text("stitch".to_owned()));
    desk.hand.harness.run();
    let closure = Entry::Closure {
        site: desk.site(0),
        how: "left open".to_owned(),
    };
    desk.elsewhere(EventKind::Recorded(Recorded {
        entry: closure,
        purpose: Purpose::Practice,
    }));
    assert!(!desk.tells("How it was closed"));
    desk.expect("closure: left open (RT");
    // Entered by mistake: nothing stands, and what stood is there to be read.
    desk.hand.click(&format!("Correct closure, {SITE}"));
    desk.hand.reach(Role::TextInput, "Why is it corrected?");
    desk.hand
        .harness
        .event(Event::Text("another patient".to_owned()));
    desk.hand.harness.run();
    desk.hand.click("Entered by mistake: nothing stands");
    desk.expect("closure: not recorded");
    desk.expect("Before: left open (RT");
}

/// Where the kit has no code its label is held against the kit by somebody else, and the record says what was compared.
#[test]
fn an_implant_without_a_code_is_known_by_its_label_and_a_second_person() {
    let mut desk = Desk::of(|case| {
        for implant in &mut case.kit.implants {
            implant.code = None;
        }
    });
    let case = read(&desk.file);
    let planned = case.sites[0].implant.clone();
    desk.begin();
    desk.at(LABEL, "4711");
    desk.at("Lot", "L1");
    desk.at("Expiry, such as 2031-05-31 or 2031-05", "2099-05");
    desk.expect("The kit has no code for the planned one.");
    let second = "Initials of who held it against this";
    desk.at(second, "");
    desk.expect("Somebody else than who records");
    assert!(desk.entries().is_empty());
    desk.at(second, "ZQ");
    let entries = desk.entries();
    let [Entry::Implant(placed)] = &entries[..] else {
        panic!("{entries:?}");
    };
    assert_eq!(placed.implant.as_deref(), Some(planned.as_str()));
    assert_eq!((placed.code.as_str(), &placed.because), ("4711", &None));
    let compared = placed.compared.as_ref().expect("compared");
    assert_eq!(compared.second.as_str(), "ZQ");
    desk.expect("read aloud and held against the kit by ZQ");
    assert!(!desk.tells("Nobody can say whether it is the planned one"));
}
