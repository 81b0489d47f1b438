//! Two windows on one case.

use crate::hand::Hand;
use crate::hands::approved;
use crate::plan::{printed_lines, write_sheet};
use egui::{Key, Modifiers};
use traywright::action::View;
use traywright_core::case::{ValidCase, read_case};

fn on_disk(hand: &Hand) -> ValidCase {
    let file = hand.program().document().unwrap().file().unwrap();
    read_case(&std::fs::read(file).unwrap()).unwrap()
}

/// Two windows with one case open.
fn two(demo: &str) -> (Hand, Hand) {
    let one = Hand::new().with_demo(demo);
    let file = one.program().document().unwrap().file().unwrap().to_owned();
    let mut other = Hand::new();
    other.harness.state_mut().open(&file);
    other.harness.run();
    (one, other)
}

/// Lets a window look at the disk until it sees this.
fn look(hand: &mut Hand, sees: impl Fn(&Hand) -> bool) {
    for _ in 0..60 {
        std::thread::sleep(std::time::Duration::from_millis(100));
        hand.harness.run();
        if sees(hand) {
            return;
        }
    }
    panic!("the disk is not followed");
}

#[test]
fn what_two_windows_changed_is_saved_from_both() {
    let (mut one, mut other) = two("two-molars");
    one.go(View::Case);
    one.enter("Surgeon", "QP");
    other.go(View::Case);
    other.enter("mandibular canal, limit", "2.5");
    one.press(Modifiers::COMMAND, Key::S);
    other.press(Modifiers::COMMAND, Key::S);
    assert!(other.sees("with what another desk had saved meanwhile: team"));
    let disk = on_disk(&other);
    assert_eq!(
        disk.team.surgeon.as_ref().map(|one| one.as_str()),
        Some("QP")
    );
    assert_eq!(
        disk.limits.mandibular_canal.as_ref().unwrap().limit_mm.um(),
        2_500
    );
    // The first window takes it over by itself, whatever it shows.
    look(&mut one, |one| {
        *one.program().document().unwrap().case() == disk
    });
}

#[test]
fn where_both_changed_the_same_both_are_shown_and_a_person_chooses() {
    let (mut one, mut other) = two("two-molars");
    for (hand, surgeon) in [(&mut one, "QP"), (&mut other, "RS")] {
        hand.go(View::Case);
        hand.enter("Surgeon", surgeon);
    }
    one.press(Modifiers::COMMAND, Key::S);
    other.press(Modifiers::COMMAND, Key::S);
    assert_eq!(
        on_disk(&other)
            .team
            .surgeon
            .as_ref()
            .map(|one| one.as_str()),
        Some("QP")
    );
    for shown in ["Another desk changed the same", "QP", "RS"] {
        assert!(other.sees(shown), "{shown}");
    }
    other.pick("Team: On the disk");
    other.click("Save what is chosen");
    assert!(!other.program().document().unwrap().is_changed());
    assert_eq!(
        other
            .program()
            .document()
            .unwrap()
            .case()
            .team
            .surgeon
            .as_ref()
            .map(|one| one.as_str()),
        Some("QP")
    );
}

/// Approved in one window, withdrawn in the other, printed in the first at once.
#[test]
fn what_another_window_withdrew_is_not_printed_as_given() {
    let (mut one, mut other) = two("one-premolar");
    approved(&mut one);
    let names_it = |pdf: &[u8]| {
        printed_lines(pdf)
            .iter()
            .any(|line| line.contains("Quillfeather"))
    };
    assert!(names_it(&write_sheet(&mut one)));
    other.go(View::Sheet);
    look(&mut other, |other| other.sees("Withdraw…"));
    // Nothing is waited for: the other window withdraws, and the first prints at once.
    other.click("Withdraw…");
    other.enter("Reason", "seen again on the scan");
    other.enter("Name of the person who withdraws it", "RS");
    other.click("Withdraw");
    assert!(!names_it(&write_sheet(&mut one)));
}

#[test]
fn a_case_whose_file_was_deleted_is_asked_for_and_saved_anew() {
    let (mut one, _other) = two("two-molars");
    let file = one.program().document().unwrap().file().unwrap().to_owned();
    std::fs::remove_file(&file).unwrap();
    look(&mut one, |one| one.sees("The file of this case is gone"));
    one.press(Modifiers::COMMAND, Key::W);
    assert!(one.sees("The case has unsaved changes"));
    one.click("Save first");
    assert!(file.exists());
}

#[test]
fn what_was_not_saved_when_the_program_died_is_offered_and_never_taken_by_itself() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    hand.enter("mandibular canal, limit", "2.5");
    let case = hand.program().document().unwrap().case().clone();
    let mut hand = hand.again(Some(&file));
    for shown in [
        "Changes that were never saved",
        "Team",
        "QP",
        "Limits",
        "2.5",
    ] {
        assert!(hand.sees(shown), "{shown}");
    }
    assert!(!hand.program().document().unwrap().is_changed());
    hand.click("Ask again later");
    let mut hand = hand.again(Some(&file));
    hand.click("Take them over");
    assert!(hand.program().document().unwrap().case() == &case);
    assert!(hand.program().document().unwrap().is_changed());
    hand.press(Modifiers::COMMAND, Key::Z);
    assert!(!hand.program().document().unwrap().is_changed());
    hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    hand.press(Modifiers::COMMAND, Key::S);
    let hand = hand.again(Some(&file));
    assert!(!hand.sees("Changes that were never saved"));
    assert!(
        on_disk(&hand)
            .team
            .surgeon
            .as_ref()
            .is_some_and(|one| one.as_str() == "QP")
    );
}

/// A case of the invented one open, with the surgeon changed and not saved; and its file.
fn left(demo: &str) -> (Hand, std::path::PathBuf) {
    let mut hand = Hand::new().with_demo(demo);
    let file = hand.program().document().unwrap().file().unwrap();
    let file = file.to_owned();
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    (hand, file)
}

fn surgeon(hand: &Hand) -> Option<String> {
    let open = hand.program().document()?;
    Some(open.case().team.surgeon.as_ref()?.to_string())
}

const LEFT: &str = "Changes that were never saved";

#[test]
fn what_was_left_of_a_case_that_was_renamed_is_offered_with_it() {
    let (hand, file) = left("two-molars");
    let moved = hand.folder.path().join("elsewhere/renamed.json");
    std::fs::create_dir(moved.parent().unwrap()).unwrap();
    std::fs::rename(&file, &moved).unwrap();
    let mut hand = hand.again(Some(&moved));
    for told in [LEFT, "QP", "two-molars.json, and the case is not there now"] {
        assert!(hand.sees(told), "{told}");
    }
    assert_ne!(surgeon(&hand).as_deref(), Some("QP"), "nothing by itself");
    hand.click("Ask again later");
    let mut hand = hand.again(Some(&moved));
    hand.click("Take them over");
    assert_eq!(surgeon(&hand).as_deref(), Some("QP"));
    assert_eq!(hand.program().document().unwrap().file(), Some(&*moved));
    hand.press(Modifiers::COMMAND, Key::S);
    let hand = hand.again(Some(&moved));
    assert!(!hand.sees(LEFT));
    assert_eq!(surgeon(&hand).as_deref(), Some("QP"));
}

/// As long as the case is where it was, a copy of it has nothing to do with what was left; nor has any other case of
/// the same code.
#[test]
fn what_was_left_of_one_case_is_not_offered_with_another() {
    let (hand, file) = left("two-molars");
    let copy = file.with_file_name("copy.json");
    std::fs::copy(&file, &copy).unwrap();
    let hand = hand.again(Some(&copy));
    assert!(!hand.sees(LEFT), "the case itself is where it was");
    let case = on_disk(&hand);
    let one = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/fixed-stops.json");
    let one = std::fs::read(one).unwrap();
    let mut one = traywright_core::case::read_case(&one).unwrap().into_case();
    assert_eq!(one.jaw, case.jaw);
    one.reference = case.reference.clone();
    let other = file.with_file_name("other.json");
    std::fs::write(&other, traywright_core::document::print(&one).unwrap()).unwrap();
    std::fs::remove_file(&file).unwrap();
    let hand = hand.again(Some(&other));
    assert!(!hand.sees(LEFT), "another case of the same code");
}

/// Two copies of one case, each of which went on by itself: what was left of the one is not told as of the other.
#[test]
fn what_was_left_of_a_copy_that_went_on_by_itself_is_told_so() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand.program().document().unwrap().file().unwrap();
    let file = file.to_owned();
    hand.go(View::Case);
    let save = |hand: &mut Hand, limit: &str| {
        hand.enter("mandibular canal, limit", limit);
        hand.press(Modifiers::COMMAND, Key::S);
    };
    save(&mut hand, "2.5");
    let copy = file.with_file_name("copy.json");
    std::fs::copy(&file, &copy).unwrap();
    save(&mut hand, "2.6");
    hand.enter("Surgeon", "QP");
    std::fs::remove_file(&file).unwrap();
    let hand = hand.again(Some(&copy));
    for told in [LEFT, "QP", "both were saved from one case"] {
        assert!(hand.sees(told), "{told}");
    }
    assert!(!hand.sees("or was saved from it"));
}

/// A link that leads in a circle stands for a share that does not answer.
#[cfg(unix)]
#[test]
fn where_nobody_knows_what_lies_there_a_case_is_not_told_to_be_gone() {
    let (hand, file) = left("two-molars");
    let copy = file.with_file_name("copy.json");
    std::fs::rename(&file, &copy).unwrap();
    std::os::unix::fs::symlink(&file, &file).unwrap();
    let hand = hand.again(Some(&copy));
    let told = "Changes that were never saved may be of this case";
    assert!(
        hand.sees(told) && hand.sees("two-molars.json"),
        "in silence"
    );
    assert!(
        !hand.sees("Take them over"),
        "the case itself may be where it was"
    );
    let hand = hand.again(None);
    assert!(hand.sees("Whether it is there still cannot be told"));
}

/// The journals, and the cases that they name, may lie on a share that is slow.
#[test]
fn what_was_left_is_looked_for_beside_the_window() {
    let (hand, file) = left("two-molars");
    let mut hand = hand.again(None);
    hand.harness.state_mut().open(&file);
    let asked = |hand: &Hand| hand.program().view_state().ask.is_some();
    assert!(!asked(&hand), "the window read it itself");
    hand.wait();
    assert!(asked(&hand) && hand.sees(LEFT));
}

/// What is offered with no case is on the page that one begins with, until a person does something with it.
#[test]
fn what_was_left_of_a_case_that_is_gone_can_be_opened_or_set_aside() {
    let (hand, file) = left("two-molars");
    let mut hand = hand.again(None);
    hand.wait();
    let gone = "Unsaved changes of cases that are not where they were";
    assert!(!hand.sees(gone), "the case is where it was");
    std::fs::remove_file(&file).unwrap();
    let mut hand = hand.again(None);
    hand.wait();
    for told in [gone, "two-molars.json", ": team"] {
        assert!(hand.sees(told), "{told}");
    }
    hand.click("Open them as a case of their own");
    assert_eq!(surgeon(&hand).as_deref(), Some("QP"));
    let open = hand.program().document().unwrap();
    assert!(open.file().is_none() && open.is_changed());
    let mut hand = hand.again(None);
    hand.wait();
    assert!(hand.sees(gone), "what was opened and not saved stays");
    hand.click("Set them aside");
    hand.wait();
    assert!(!hand.sees(gone));
    let mut hand = hand.again(None);
    hand.wait();
    assert!(!hand.sees(gone));
    let unsaved = std::fs::read_dir(hand.folder.path().join("unsaved")).unwrap();
    let kept = unsaved.flatten().filter(|one| {
        let text = std::fs::read_to_string(one.path()).unwrap();
        text.contains("QP") && text.contains("two-molars.json")
    });
    assert_eq!(kept.count(), 1, "and nothing is thrown away");
}

/// The later session goes on from the earlier one: both are offered, one after the other.
#[test]
fn what_two_sessions_left_is_offered_one_after_the_other() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    let mut hand = hand.again(Some(&file));
    hand.click("Take them over");
    hand.wait();
    assert!(
        !hand.sees("Changes that were never saved"),
        "its own is not offered"
    );
    hand.go(View::Case);
    hand.enter("mandibular canal, limit", "2.5");
    let case = hand.program().document().unwrap().case().clone();
    let mut hand = hand.again(Some(&file));
    hand.click("Take them over");
    hand.wait();
    assert!(hand.sees("Changes that were never saved") && hand.sees("2.5"));
    hand.click("Take them over");
    assert!(hand.program().document().unwrap().case() == &case);
}

/// A journal of whose steps none can be read differs in nothing from the file, and is kept all the same.
#[test]
fn a_damaged_journal_is_told_and_stays() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    let mut hand = hand.again(Some(&file));
    hand.click("Ask again later");
    let unsaved = hand.folder.path().join("unsaved");
    let journal = std::fs::read_dir(unsaved)
        .unwrap()
        .next()
        .unwrap()
        .unwrap()
        .path();
    let text = std::fs::read_to_string(&journal).unwrap();
    std::fs::write(&journal, text.replace("{\"edits\"", "{\"edjts\"")).unwrap();
    let hand = hand.again(Some(&file));
    assert!(hand.sees("A line of them is damaged"));
    assert!(journal.exists());
}

#[test]
fn a_case_that_was_never_saved_is_offered_when_the_program_begins() {
    let mut hand = Hand::new();
    let name = traywright_core::text::Texts::english().get("demo-two-molars", &[]);
    hand.follow(&name);
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    let mut hand = hand.again(None);
    hand.wait();
    assert!(hand.sees("Changes that were never saved") && hand.sees("QP"));
    hand.click("Take them over");
    let document = hand.program().document().unwrap();
    assert!(document.file().is_none() && document.is_changed());
    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Discard changes");
    let mut hand = hand.again(None);
    hand.wait();
    assert!(!hand.sees("Changes that were never saved"));
}

/// A world whose clock fails, once asked to.
struct Failing(traywright_tests::Still, std::rc::Rc<std::cell::Cell<bool>>);

impl traywright::platform::Platform for Failing {
    fn now(&self) -> jiff::Timestamp {
        assert!(!self.1.get(), "the clock fails, as it is asked to");
        self.0.now()
    }
    fn choose(&mut self, _: traywright::platform::Purpose, _: &str, _: Box<dyn Fn() + Send>) {}
    fn chosen(&mut self) -> Option<(traywright::platform::Purpose, Option<std::path::PathBuf>)> {
        None
    }
    fn view(&mut self, _: &std::path::Path) -> Result<(), String> {
        Ok(())
    }
    fn settings_file(&self) -> Option<std::path::PathBuf> {
        self.0.settings_file()
    }
}

#[test]
fn a_fault_of_the_program_itself_is_told_in_plain_words_and_loses_nothing() {
    let fails = std::rc::Rc::new(std::cell::Cell::new(false));
    let still = |folder: &std::path::Path| {
        traywright_tests::Still::stopped().with_settings(folder.join("settings.json"))
    };
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand
        .program()
        .document()
        .unwrap()
        .file()
        .unwrap()
        .to_owned();
    let world = Failing(still(hand.folder.path()), fails.clone());
    *hand.harness.state_mut() = traywright::window::Program::new(Box::new(world));
    hand.harness.state_mut().open(&file);
    hand.wait();
    hand.go(View::Case);
    hand.enter("Surgeon", "QP");
    fails.set(true);
    hand.harness.run();
    assert!(hand.sees("The program met a fault of its own"));
    let hand = hand.again(Some(&file));
    assert!(hand.sees("Changes that were never saved") && hand.sees("QP"));
}

/// One byte of what was signed is another: nothing of it is printed as given, and window and pages say why.
#[test]
fn a_record_with_a_break_is_told_in_the_window_and_on_every_page() {
    let mut hand = Hand::new().with_demo("one-premolar");
    approved(&mut hand);
    let file = hand.program().document().unwrap().file().unwrap();
    let signed = traywright_core::store::events_folder(file);
    let mut logs = std::fs::read_dir(signed)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let log = logs.find(|path| path.extension().is_some_and(|ending| ending == "jsonl"));
    let log = log.unwrap();
    let mut bytes = std::fs::read(&log).unwrap();
    let name = bytes.windows(12).position(|part| part == b"Quillfeather");
    bytes[name.unwrap()] ^= 1;
    std::fs::write(&log, bytes).unwrap();
    let printed = write_sheet(&mut hand);
    let pages = lopdf::Document::load_mem(&printed)
        .unwrap()
        .get_pages()
        .len();
    let text = printed_lines(&printed).join(" ");
    let told = text.matches("nothing signed counts").count();
    assert!(told >= pages, "{told} of {pages} pages");
    assert!(!text.contains("uillfeather"), "{text}");
    assert!(hand.sees("record broken"));
}

/// A power cut tore the last line of this desk. It is told as the case opens, and mended as somebody says who does it.
#[test]
fn a_torn_line_is_told_as_the_case_opens_and_stays_until_a_person_puts_it_aside() {
    let mut hand = Hand::new().with_demo("one-premolar");
    approved(&mut hand);
    let file = hand.program().document().unwrap().file().unwrap();
    let (file, folder) = (file.to_owned(), file.with_extension("signed"));
    let mut entries = std::fs::read_dir(&folder).unwrap().flatten();
    let is_log = |name: &str| name.ends_with(".events.jsonl");
    let log = entries.find(|entry| is_log(&entry.file_name().to_string_lossy()));
    let log = log.unwrap().path();
    let whole = std::fs::read(&log).unwrap();
    let torn = &whole[..whole.len() - 3];
    std::fs::write(&log, torn).unwrap();
    let mut hand = hand.again(Some(&file));
    assert_eq!(std::fs::read(&log).unwrap(), torn, "opening mends nothing");
    let refused = hand.refused().map(str::to_owned);
    assert!(refused.is_some_and(|told| told.contains("ends within the line")));
    hand.go(View::Sheet);
    hand.enter("Name of the person who puts it aside", "RT");
    hand.click("Put the damaged part aside");
    assert!(hand.sees(".torn-1"), "the notice names it");
    assert!(std::fs::read(&log).unwrap().len() > torn.len());
    assert!(!hand.sees("Put the damaged part aside"));
    hand.go(View::History);
    assert!(hand.sees(".torn-1"), "the history stays telling it");
}
