//! Beginning: a new case, a file, an invented case; what cannot be done and why.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use std::io::Write as _;
use std::time::{Duration, SystemTime};
use traywright::action::View;

#[test]
fn a_case_is_begun_from_nothing_and_saved() {
    let mut hand = Hand::new();
    hand.enter("Case reference, not a name", "QX-7");
    hand.choose("Jaw", "lower jaw");
    hand.choose("Guide support", "teeth");
    hand.choose("Access to the bone", "a tissue punch");
    hand.click("Begin");
    let document = hand.program().document().expect("a case");
    assert_eq!(document.case().reference.as_str(), "QX-7");
    assert!(document.case().demonstration && document.is_changed());
    assert_eq!(hand.program().view_state().view, View::Arch);

    hand.press(Modifiers::COMMAND, Key::S);
    let file = hand.folder.path().join("case.json");
    hand.enter("File, with its folder", &file.display().to_string());
    hand.click("Save");
    assert!(file.exists());
    let document = hand.program().document().expect("a case");
    assert!(!document.is_changed());
}

/// Opens a built-in case and changes it, so that there is something to lose.
fn follow_and_change(hand: &mut Hand) {
    hand.follow("Two lower molars over the canal");
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
}

/// A case that has no file yet is asked for one, and what was wanted follows once it is written.
#[test]
fn a_case_without_a_file_is_saved_first_and_then_closed() {
    let mut hand = Hand::new();
    follow_and_change(&mut hand);
    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Save first");
    let file = hand.folder.path().join("kept.json");
    hand.enter("File, with its folder", &file.display().to_string());
    hand.click("Save");
    assert!(file.exists());
    assert!(hand.program().document().is_none());
}

/// Whoever gives no name for the file after all does not leave the case at some later save.
#[test]
fn what_was_to_follow_a_save_does_not_follow_a_later_one() {
    for way in ["Cancel", "Escape", "no such folder", "close the window"] {
        let mut hand = Hand::new();
        follow_and_change(&mut hand);
        hand.press(Modifiers::COMMAND, Key::W);
        hand.click("Save first");
        match way {
            "Cancel" => hand.click("Cancel"),
            "Escape" => hand.press(Modifiers::NONE, Key::Escape),
            "no such folder" => {
                let path = hand.folder.path().join("no/such.json");
                hand.enter("File, with its folder", &path.display().to_string());
                hand.click("Save");
            }
            _ => {
                // Another question takes the place of the one for the file.
                let input = hand.harness.input_mut();
                let root = input.viewports.entry(egui::ViewportId::ROOT).or_default();
                root.events.push(egui::ViewportEvent::Close);
                hand.harness.run();
                assert!(hand.sees("Save first"), "{way}");
                hand.click("Cancel");
            }
        }
        assert!(hand.program().document().is_some(), "{way}");
        hand.press(Modifiers::COMMAND, Key::S);
        let path = hand.folder.path().join("later.json");
        hand.enter("File, with its folder", &path.display().to_string());
        hand.click("Save");
        assert!(path.exists(), "{way}");
        assert!(hand.program().document().is_some(), "{way}");
    }
}

#[test]
fn nothing_is_begun_before_everything_is_chosen() {
    let mut hand = Hand::new();
    hand.enter("Case reference, not a name", "QX-7");
    assert!(hand.find("Begin").accesskit_node().is_disabled());
    assert!(hand.sees("Still needed to begin: the jaw; the guide support; the access to the bone"));
    hand.choose("Jaw", "lower jaw");
    assert!(hand.sees("Still needed to begin: the guide support; the access to the bone"));
}

#[test]
fn recent_files_of_one_name_are_told_apart_by_their_folders() {
    let mut hand = Hand::new().with_demo("one-premolar");
    let first = hand.folder.path().join("one-premolar.json");
    let folder = hand.folder.path().join("second");
    std::fs::create_dir(&folder).expect("a folder");
    let second = folder.join("one-premolar.json");
    std::fs::copy(&first, &second).expect("a copy");
    hand.harness.state_mut().open(&second);
    hand.harness.run();
    hand.go(View::Start);
    assert_eq!(hand.names(Role::Link)[..2], ["one-premolar.json"; 2]);
    assert!(hand.sees("second"));
}

/// The cases beside the last one: told by reference, teeth and file, looked for by words, opened by keys.
#[test]
fn the_cases_beside_the_last_one_are_listed_looked_for_and_opened() {
    let mut hand = Hand::new().with_demo("one-premolar").by_keys();
    let folder = hand.folder.path().to_owned();
    let text = std::fs::read_to_string(folder.join("one-premolar.json")).expect("it is there");
    for number in 0..5 {
        let other = text.replace("DEMO-A1", &format!("OTHER-{number}"));
        let mut file = std::fs::File::create(folder.join(format!("{number}.json"))).expect("room");
        file.write_all(other.as_bytes()).expect("room");
        let at = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + number * 60);
        file.set_modified(at).expect("a time");
    }
    std::fs::write(folder.join("half.json"), "{\"traywright_case\": 1").expect("a file");
    hand.go(View::Start);
    hand.wait();
    assert_eq!(hand.names(Role::ListItem).len(), 7);
    assert!(hand.sees("half.json: not to be read as a case"));
    hand.enter("Find by reference, tooth or file", "other LEFT second");
    let names = hand.names(Role::ListItem);
    assert_eq!(names.len(), 5, "{names:?}");
    assert!(
        names
            .iter()
            .all(|name| name.contains("lower left second premolar (35)"))
    );
    let last = names.iter().find(|name| name.starts_with("OTHER-4: "));
    hand.reach(Role::ListItem, last.expect("the last changed comes first"));
    hand.press(Modifiers::NONE, Key::ArrowDown);
    hand.press(Modifiers::NONE, Key::End);
    hand.press(Modifiers::NONE, Key::Enter);
    let document = hand.program().document().expect("a case");
    assert_eq!(document.case().reference.as_str(), "OTHER-0");
    // What lies there is read anew each time.
    std::fs::remove_file(folder.join("half.json")).expect("it is there");
    hand.go(View::Start);
    hand.wait();
    assert!(!hand.sees("half.json: "));
}

#[test]
fn an_invented_case_says_that_it_is_one() {
    let mut hand = Hand::new();
    hand.follow("Two lower molars over the canal");
    assert!(hand.sees("DEMONSTRATION"));
}

#[test]
fn a_file_that_cannot_be_read_is_told_with_its_faults_and_nothing_is_lost() {
    let mut hand = Hand::new().with_demo("one-premolar");
    let bad = hand.folder.path().join("bad.json");
    std::fs::write(&bad, "{\"traywright_case\": 1,").expect("a file");
    hand.press(Modifiers::COMMAND, Key::O);
    hand.enter("File, with its folder", &bad.display().to_string());
    hand.click("Open");
    assert!(hand.refused().is_some_and(|told| told.contains("bad.json")));
    let document = hand.program().document().expect("the case from before");
    assert_eq!(document.case().reference.as_str(), "DEMO-A1");
}

/// What cannot be opened takes nothing away, though one said that the case may go.
#[test]
fn the_case_goes_only_once_another_is_there() {
    let mut hand = Hand::new();
    follow_and_change(&mut hand);
    let bad = hand.folder.path().join("bad.json");
    std::fs::write(&bad, "{\"traywright_case\": 1,").expect("a file");
    let there = |hand: &Hand| hand.program().document().is_some_and(|d| d.is_changed());
    assert!(there(&hand));

    // Nobody names a file after all.
    hand.press(Modifiers::COMMAND, Key::O);
    hand.press(Modifiers::NONE, Key::Escape);
    assert!(there(&hand));
    // Nor is there one.
    hand.press(Modifiers::COMMAND, Key::O);
    hand.enter("File, with its folder", &bad.display().to_string());
    hand.click("Open");
    hand.click("Discard changes");
    assert!(hand.refused().is_some_and(|told| told.contains("bad.json")));
    assert!(there(&hand));
    // Beginning is looked at and left.
    hand.press(Modifiers::COMMAND, Key::N);
    assert!(there(&hand));

    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Discard changes");
    assert!(hand.program().document().is_none());
}

/// The kit says whether it is invented, however it came to the desk.
#[test]
fn a_case_begun_with_an_invented_kit_is_for_practice_and_says_so() {
    let mut hand = Hand::new();
    let kit = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/kit.json");
    hand.click("Use instruments from another kit…");
    hand.enter("File, with its folder", kit);
    hand.click("Open");
    hand.enter("Case reference, not a name", "QX-7");
    hand.choose("Jaw", "lower jaw");
    hand.choose("Guide support", "teeth");
    hand.choose("Access to the bone", "a tissue punch");
    hand.click("Begin");
    let demonstration = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        document.case().demonstration
    };
    assert!(demonstration(&hand));

    hand.go(View::Case);
    hand.choose("The case is for", "surgery");
    assert!(!demonstration(&hand));
    hand.go(View::Findings);
    let all = hand.names(Role::ListBoxOption).into_iter();
    let row = all.chain(hand.names(Role::ListItem));
    let mut row = row.filter(|name| name.contains("is invented for practice"));
    hand.find(&row.next().expect("the finding")).click();
    hand.harness.run();
    assert!(hand.sees("Nobody can accept this"));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert!(demonstration(&hand));
}

#[test]
fn settings_that_cannot_be_read_stay_told_though_a_case_is_opened() {
    let hand = Hand::new().with_demo("two-molars");
    let (file, settings) = (
        hand.folder.path().join("two-molars.json"),
        hand.folder.path().join("settings.json"),
    );
    std::fs::write(settings, "{").expect("a folder");
    let hand = hand.again(Some(&file));
    assert!(hand.program().document().is_some());
    let told = hand.refused().expect("a notice");
    assert!(told.contains("settings.json"), "{told}");
}
