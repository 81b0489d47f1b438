//! What was typed and is not in the case yet: a saved file says what it lacks, undo takes the typing back
//! first, the keyboard goes where one goes on typing.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;
use traywright_core::case::{Case, LimitId};
use traywright_core::measure::Length;

const OCCLUSAL: &str = "Crest below the occlusal plane";
const TISSUE: &str = "Tissue thickness";

fn at(view: View) -> Hand {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(view);
    hand
}

fn case(hand: &Hand) -> &Case {
    hand.program().document().expect("a case").case()
}

/// The last field of this name that can be typed into.
fn field<'h>(hand: &'h Hand, name: &'h str) -> egui_kittest::Node<'h> {
    let fields = hand.harness.query_all_by(move |node| {
        node.role() == Role::TextInput && node.label().as_deref() == Some(name)
    });
    fields.last().expect("the field")
}

fn rect(hand: &Hand, name: &str) -> Rect {
    field(hand, name).rect()
}

fn shown(hand: &Hand, name: &str) -> String {
    let node = field(hand, name);
    node.accesskit_node().value().unwrap_or_default()
}

/// Types into a field and stays there.
fn type_into(hand: &mut Hand, name: &str, text: &str) {
    field(hand, name).focus();
    hand.harness.run();
    hand.press(Modifiers::COMMAND, Key::A);
    hand.harness.event(egui::Event::Text(text.to_owned()));
    hand.harness.run();
}

fn save(hand: &mut Hand) {
    hand.press(Modifiers::COMMAND, Key::S);
}

fn on_disk(hand: &Hand) -> String {
    let file = hand.folder.path().join("two-molars.json");
    std::fs::read_to_string(file).expect("the file")
}

/// What is being typed is taken by the key that saves, and the keyboard stays.
#[test]
fn saving_takes_what_is_being_typed() {
    let mut hand = at(View::Site);
    type_into(&mut hand, OCCLUSAL, "9.3");
    save(&mut hand);
    let height = case(&hand).sites[0].heights.crest_below_occlusal_mm;
    assert_eq!(height, Some(Length::from_um(9_300)));
    assert!(on_disk(&hand).contains("\"crest_below_occlusal_mm\": 9.3"));
    assert!(field(&hand, OCCLUSAL).is_focused());
    assert!(!hand.program().document().expect("a case").is_changed());
}

/// A refused text is not in the file, and whoever saves is told of which field; where nothing else was to be
/// saved as well, and at every form.
#[test]
fn what_was_refused_is_told_when_the_case_is_saved() {
    for (view, name) in [
        (View::Site, OCCLUSAL),
        (View::Case, "mandibular canal, floor"),
        (View::Case, "Arch width there"),
        (View::Case, "Sleeve bore, lower right first molar (46)"),
        (View::Case, "Date of the scan"),
        (View::Order, "Another instrument in the handpiece"),
        (View::Arch, "Along the arch, to"),
    ] {
        for other_change in [false, true] {
            let mut hand = at(View::Case);
            if other_change {
                hand.enter("Surgeon", "QP");
            }
            hand.go(view);
            let there = hand
                .names(Role::TextInput)
                .iter()
                .any(|field| field == name);
            assert!(there, "{name}: {:?}", hand.names(Role::TextInput));
            hand.enter(name, "much");
            save(&mut hand);
            let told = hand
                .refused()
                .unwrap_or_else(|| panic!("{name}: nothing is told"));
            assert!(told.contains(name) && told.contains("much"), "{told}");
            assert_eq!(told.contains("Saved: "), other_change, "{told}");
            assert_eq!(on_disk(&hand).contains("\"QP\""), other_change);
            assert_eq!(shown(&hand, name), "much");
        }
    }
}

/// Whoever saves before leaving stays where something was refused.
#[test]
fn a_case_with_a_refused_text_is_not_left_by_saving_first() {
    let mut hand = at(View::Case);
    hand.enter("Surgeon", "QP");
    hand.enter("Arch width there", "wide");
    hand.press(Modifiers::COMMAND, Key::W);
    hand.click("Save first");
    assert!(hand.program().document().is_some());
    assert!(
        hand.refused()
            .is_some_and(|told| told.contains("Arch width there"))
    );
}

/// A text left behind in another view was taken or refused there; it does not wait unseen.
#[test]
fn going_to_another_view_by_its_key_takes_what_is_being_typed() {
    let mut hand = at(View::Site);
    type_into(&mut hand, TISSUE, "2.6");
    hand.go(View::Findings);
    let height = case(&hand).sites[0].heights.tissue_thickness_mm;
    assert_eq!(height, Some(Length::from_um(2_600)));
}

/// Undo takes back the text first and says so; the case goes back with the next.
#[test]
fn undo_takes_back_a_refused_text_first() {
    let mut hand = at(View::Site);
    hand.enter(TISSUE, "2.9");
    hand.enter(OCCLUSAL, "much");
    let before = shown(&at(View::Site), OCCLUSAL);
    hand.press(Modifiers::COMMAND, Key::Z);
    let tissue = |hand: &Hand| case(hand).sites[0].heights.tissue_thickness_mm;
    assert_eq!(tissue(&hand), Some(Length::from_um(2_900)));
    assert_eq!(shown(&hand, OCCLUSAL), before);
    assert!(hand.sees(&format!("Taken back: “much” at {OCCLUSAL}")));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_ne!(tissue(&hand), Some(Length::from_um(2_900)));
}

/// The last first, and what is still being typed as well.
#[test]
fn undo_takes_back_one_text_after_the_other() {
    let mut hand = at(View::Site);
    let steps = hand.program().document().expect("a case").steps();
    hand.enter(TISSUE, "thick");
    type_into(&mut hand, OCCLUSAL, "7");
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(
        (shown(&hand, OCCLUSAL), shown(&hand, TISSUE)),
        ("8.8".into(), "thick".into())
    );
    assert!(hand.sees("Undo: “thick”"));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(shown(&hand, TISSUE), "");
    assert_eq!(hand.program().document().expect("a case").steps(), steps);
}

/// A refused limit is told in its own cell, and no other cell moves to another column for it.
#[test]
fn an_emptied_limit_leaves_its_row_in_its_columns() {
    let mut hand = Hand::at(egui::vec2(1280.0, 2000.0), 1.0).with_demo("two-molars");
    hand.go(View::Case);
    let places = |hand: &Hand| {
        ["limit", "floor", "source"].map(|part| {
            let left = rect(hand, &format!("mandibular canal, {part}")).left();
            egui::vec2(left, 0.0)
        })
    };
    let before = places(&hand);
    field(&hand, "mandibular canal, limit").focus();
    hand.harness.run();
    hand.press(Modifiers::COMMAND, Key::A);
    hand.press(Modifiers::NONE, Key::Backspace);
    hand.press(Modifiers::NONE, Key::Tab);
    assert!(hand.sees("a value is needed here"));
    assert_eq!(places(&hand), before);
}

#[test]
fn a_floor_above_its_limit_is_refused_at_its_field() {
    let mut hand = Hand::at(egui::vec2(1280.0, 2000.0), 1.0).with_demo("two-molars");
    hand.go(View::Case);
    // 2.0 mm is the limit that ships (assets/limits.json names its source).
    hand.enter("mandibular canal, floor", "2.1");
    let floor = |hand: &Hand| {
        case(hand)
            .limits
            .get(LimitId::MandibularCanal)
            .map(|limit| limit.floor_mm)
    };
    assert_eq!(floor(&hand), Some(Length::ZERO));
    assert!(hand.sees("2.1 mm is above the limit of 2.0 mm"));
    hand.enter("mandibular canal, floor", "2.0");
    assert_eq!(floor(&hand), Some(Length::from_mm(2)));
    // It follows a limit that is lowered.
    hand.enter("mandibular canal, limit", "1.5");
    assert_eq!(floor(&hand), Some(Length::from_um(1_500)));
}

/// Where something was added one goes on with what was added.
#[test]
fn the_keyboard_goes_into_what_was_added() {
    let mut hand = at(View::Site);
    hand.enter("Add: what it is", "edge of the guide");
    hand.enter("Above the sleeve's rim", "1.5");
    hand.enter("Axis to near surface", "5");
    let first = "edge of the guide: Above the sleeve's rim";
    assert!(
        field(&hand, first).is_focused(),
        "{:?}",
        hand.names(Role::TextInput)
    );
    hand.choose("Add a structure", "mental foramen");
    hand.choose("Where it is", "beside the site");
    hand.enter("Axis to near surface", "6.4");
    let first = "mental foramen: Axis to near surface";
    assert!(
        field(&hand, first).is_focused(),
        "{:?}",
        hand.names(Role::TextInput)
    );
}

#[test]
fn a_new_case_begins_at_its_reference() {
    let mut hand = at(View::Site);
    hand.press(Modifiers::COMMAND, Key::N);
    assert!(field(&hand, "Case reference, not a name").is_focused());
    hand.harness.event(egui::Event::Text("QX-7".to_owned()));
    hand.harness.run();
    assert_eq!(shown(&hand, "Case reference, not a name"), "QX-7");
}

/// What is typed at once takes the place of the name, and the folder stays.
#[test]
fn the_question_for_a_file_begins_with_its_name_selected() {
    let mut hand = at(View::Site);
    hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    hand.harness.event(egui::Event::Text("other".to_owned()));
    hand.harness.run();
    let path = hand.folder.path().join("other").display().to_string();
    assert_eq!(shown(&hand, "File, with its folder"), path);
    hand.click("Save");
    assert!(hand.folder.path().join("other.json").exists());
}

/// The way from the folder that the program was started in to a file.
fn relative(file: &std::path::Path) -> std::path::PathBuf {
    let here = std::env::current_dir().expect("a folder");
    let up = here.components().count() - 1;
    let up = std::iter::repeat_n("..", up).collect::<std::path::PathBuf>();
    up.join(file.strip_prefix("/").expect("a whole path"))
}

/// Which folder the program was started in says nothing later.
#[test]
fn files_are_remembered_by_their_whole_paths() {
    let mut hand = at(View::Site);
    let kept = relative(&hand.folder.path().join("kept.json"));
    hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    hand.enter("File, with its folder", &kept.display().to_string());
    hand.click("Save");
    let kit = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/kit.json");
    let kit = std::fs::canonicalize(kit).expect("the kit");
    hand.go(View::Kit);
    hand.click("Compare with…");
    hand.enter(
        "File, with its folder",
        &relative(&kit).display().to_string(),
    );
    hand.click("Open");
    let settings = &hand.program().desk().settings;
    let whole = std::fs::canonicalize(hand.folder.path().join("kept.json"));
    assert_eq!(settings.recent.first(), Some(&whole.expect("the file")));
    assert_eq!(settings.kit.as_ref(), Some(&kit));
    let document = hand.program().document().expect("a case");
    assert!(document.file().is_some_and(std::path::Path::is_absolute));
}

/// A desk without a kit offers what the case holds and nothing else; it says so where one chooses, with
/// the way to a kit.
#[test]
fn a_desk_without_a_kit_says_so_where_something_of_it_is_chosen() {
    const TOLD: &str = "This desk has no kit";
    let mut hand = Hand::new().with_demo("two-molars");
    let kit = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/kit.json");
    assert!(hand.program().desk().live_kit.is_none());
    hand.go(View::Case);
    assert!(hand.sees(TOLD));
    hand.go(View::Site);
    assert!(hand.sees(TOLD));
    hand.go(View::Case);
    hand.click("Choose this desk's kit…");
    hand.enter("File, with its folder", kit);
    hand.click("Open");
    assert!(hand.program().desk().live_kit.is_some() && !hand.sees(TOLD));
}

/// Whoever leaves with a refused text in a field is asked first, though nothing else is to be saved.
#[test]
fn leaving_asks_where_a_refused_text_would_be_lost() {
    for key in [Key::W, Key::Q] {
        let mut hand = at(View::Site);
        hand.enter(OCCLUSAL, "93x");
        assert!(!hand.program().document().expect("a case").is_changed());
        hand.press(Modifiers::COMMAND, key);
        assert!(hand.sees("A text that was typed is not in the case"));
        let told = hand.harness.query_all_by(|node| {
            let texts = [node.label(), node.value()];
            let mut texts = texts.into_iter().flatten();
            texts.any(|text| text.contains("“93x”"))
        });
        assert!(told.count() > 0, "which text is told");
        hand.click("Cancel");
        assert_eq!(shown(&hand, OCCLUSAL), "93x");
        hand.press(Modifiers::COMMAND, key);
        hand.click("Discard changes");
        assert!(hand.program().document().is_none());
    }
}

/// U+202E shows what follows it from right to left: a name with it can be taken for another one.
#[test]
fn what_turns_a_text_is_refused_at_its_field() {
    let mut hand = at(View::Case);
    let before = case(&hand).team.surgeon.clone();
    type_into(&mut hand, "Surgeon", "Q\u{202e}P");
    hand.press(Modifiers::NONE, Key::Tab);
    assert_eq!(case(&hand).team.surgeon, before);
    assert!(hand.sees("the text holds the character U+202E"));
    type_into(&mut hand, "Surgeon", "QP");
    hand.press(Modifiers::NONE, Key::Tab);
    assert_ne!(case(&hand).team.surgeon, before);
    assert!(!hand.sees("U+202E"));
}
