//! The question for a file, answered without any dialog of the system; packs, made and opened by a hand.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use std::fs;
use traywright::action::View;

const FIELD: &str = "File, with its folder";

fn typed(hand: &Hand) -> String {
    let field = hand.find(FIELD);
    field.accesskit_node().value().unwrap_or_default()
}

/// The names that are offered beneath the field.
fn offered(hand: &mut Hand) -> Vec<String> {
    hand.wait();
    hand.names(Role::ListItem)
}

/// A case is found through two folders by keys alone.
#[test]
fn what_lies_in_the_folder_is_offered_and_taken_by_keys() {
    let mut hand = Hand::new();
    let root = hand.folder.path().join("shared");
    fs::create_dir_all(root.join("Cases")).expect("a folder");
    fs::create_dir(root.join(".hidden")).expect("a folder");
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/two-molars.json");
    fs::copy(demo, root.join("Cases/two.json")).expect("a copy");
    fs::write(root.join("Cases/two.pdf"), "").expect("a file");
    hand.press(Modifiers::COMMAND, Key::O);
    hand.wait();
    for character in format!("{}/", root.display()).chars() {
        hand.harness.event(egui::Event::Text(character.to_string()));
    }
    hand.harness.run();
    assert_eq!(offered(&mut hand), ["Cases/"]);
    hand.harness.event(egui::Event::Text("ca".to_owned()));
    hand.harness.run();
    assert_eq!(offered(&mut hand), ["Cases/"], "whatever its capitals");
    hand.press(Modifiers::NONE, Key::ArrowDown);
    hand.press(Modifiers::NONE, Key::Enter);
    assert_eq!(typed(&hand), format!("{}/Cases/", root.display()));
    assert_eq!(offered(&mut hand), ["two.json"], "no file of another kind");
    hand.press(Modifiers::NONE, Key::ArrowDown);
    hand.press(Modifiers::NONE, Key::Enter);
    assert!(typed(&hand).ends_with("/Cases/two.json"));
    assert!(
        hand.program().document().is_none(),
        "taking a name opens nothing"
    );
    assert!(offered(&mut hand).is_empty());
    hand.press(Modifiers::NONE, Key::Enter);
    assert!(hand.program().document().is_some());
}

/// A folder that is not there is told as one types, and no file can be meant by a folder.
#[test]
fn a_folder_that_is_not_there_is_told_beneath_the_field() {
    let mut hand = Hand::new();
    hand.press(Modifiers::COMMAND, Key::O);
    let path = hand.folder.path().join("none/such.json");
    hand.enter(FIELD, &path.display().to_string());
    hand.wait();
    assert!(hand.sees(&path.parent().expect("a folder").display().to_string()));
    hand.enter(FIELD, &format!("{}/", hand.folder.path().display()));
    assert!(hand.find("Open").accesskit_node().is_disabled());
}

/// A case goes into a pack with a passphrase and comes out of it whole, by the window alone.
#[test]
fn a_case_is_packed_and_comes_back() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand.program().document().and_then(|d| d.file());
    let file = file.expect("a file").to_owned();
    let before = fs::read(&file).expect("a case");
    hand.go(View::History);
    hand.click("Pack the case…");
    let pack = hand.folder.path().join("sent.pack");
    hand.enter(FIELD, &pack.display().to_string());
    hand.press_on(Role::CheckBox, "Encrypt it with a passphrase");
    assert!(hand.find("Pack").accesskit_node().is_disabled());
    hand.enter("Passphrase", "nine tall herons");
    hand.enter("The same again", "nine tall heron");
    assert!(hand.sees("The two passphrases differ"));
    assert!(hand.find("Pack").accesskit_node().is_disabled());
    hand.enter("The same again", "nine tall herons");
    hand.click("Pack");
    assert!(hand.sees("packed and encrypted"));

    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Open a pack…");
    hand.enter(FIELD, &pack.display().to_string());
    hand.click("Unpack and open");
    assert!(hand.sees("Enter the passphrase of this pack"));
    hand.enter("Passphrase, if it is encrypted", "nine tall heron");
    hand.click("Unpack and open");
    assert!(hand.sees("this passphrase does not open it"));
    assert_eq!(
        typed(&hand),
        pack.display().to_string(),
        "and the file stays"
    );
    hand.enter("Passphrase, if it is encrypted", "nine tall herons");
    hand.click("Unpack and open");
    for told in ["still lies there", &file.display().to_string()] {
        assert!(hand.sees(told), "{told}");
    }
    assert!(
        hand.program().document().is_none(),
        "told before it is opened"
    );
    hand.click("Open this copy");
    let document = hand.program().document().expect("the case");
    let unpacked = document.file().expect("a file");
    assert!(
        unpacked
            .parent()
            .is_some_and(|folder| folder.ends_with("sent"))
    );
    assert_eq!(fs::read(unpacked).expect("a case"), before);
    for view in [View::History, View::Sheet] {
        hand.go(view);
        assert!(hand.sees("came out of a pack"), "{view:?}");
    }
    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Open a pack…");
    hand.enter(FIELD, &pack.display().to_string());
    hand.enter("Passphrase, if it is encrypted", "nine tall herons");
    hand.click("Unpack and open");
    hand.click("Open this copy");
    let again = hand.program().document().and_then(|d| d.file());
    let again = again.expect("another copy").parent();
    assert!(
        again.is_some_and(|folder| folder.ends_with("sent-2")),
        "what was unpacked before stays"
    );
}

/// What is packed is what the file holds: a case with changes is saved first.
#[test]
fn a_changed_case_is_not_packed() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
    hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    assert!(!hand.sees(FIELD));
    hand.go(View::History);
    let button = hand.find("Pack the case…");
    assert!(button.accesskit_node().is_disabled());
}

/// The history tells at which desk and when the case was saved.
#[test]
fn the_history_tells_of_saves() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::History);
    assert!(!hand.sees("Saved, by the file itself"));
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
    hand.press(Modifiers::COMMAND, Key::S);
    hand.go(View::History);
    assert!(hand.sees("Saved, by the file itself"));
    let desk = &hand.program().desk().settings.desk;
    assert!(hand.sees(&format!("UTC, {desk}: revision")));
}

/// However long what differs is, the answers stay in sight.
#[test]
fn the_answers_about_two_versions_stay_in_sight() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand.program().document().and_then(|d| d.file());
    let file = file.expect("a file").to_owned();
    let text = fs::read_to_string(&file).expect("a case");
    let mut there: serde_json::Value = serde_json::from_str(&text).expect("a case");
    there["team"]["surgeon"] = "Ann of the other desk, ".repeat(5).trim().into();
    hand.go(View::Case);
    hand.enter("Surgeon", "Bo of this desk, ".repeat(6).trim());
    fs::write(&file, there.to_string()).expect("the other desk");
    hand.press(Modifiers::COMMAND, Key::S);
    let room = hand.harness.ctx.content_rect();
    for name in ["Save what is chosen", "Cancel"] {
        assert!(room.contains_rect(hand.find(name).rect()), "{name}");
    }
}

/// The field takes any path; what is no PDF stays as it is, the case and its record above all.
#[test]
fn a_sheet_is_never_written_over_a_case_or_its_record() {
    let mut hand = Hand::new().with_demo("one-premolar");
    crate::hands::approved(&mut hand);
    let case = hand.folder.path().join("one-premolar.json");
    let signed = traywright_core::store::events_folder(&case);
    let mut logs = fs::read_dir(signed)
        .expect("it is there")
        .flatten()
        .map(|entry| entry.path());
    let log = logs.find(|path| path.extension().is_some_and(|ending| ending == "jsonl"));
    let other = hand.folder.path().join("other.json");
    fs::copy(&case, &other).expect("a copy");
    let link = hand.folder.path().join("link.pdf");
    #[cfg(unix)]
    std::os::unix::fs::symlink(&case, &link).expect("a link");
    #[cfg(not(unix))]
    fs::copy(&case, &link).expect("a copy");
    for file in [case, other, link, log.expect("an event")] {
        let before = fs::read(&file).expect("it is there");
        hand.go(View::Sheet);
        hand.click("Write PDF…");
        hand.enter(FIELD, &file.display().to_string());
        hand.click("Save");
        if hand.sees("Replace") {
            hand.click("Replace");
        }
        assert!(
            fs::read(&file).expect("it is there") == before,
            "{}",
            file.display()
        );
        hand.press(Modifiers::NONE, Key::Escape);
    }
}
