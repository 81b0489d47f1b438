//! A case planned from nothing: two lower molars, everything entered by name.

use crate::hand::Hand;
use crate::text::lines;
use egui::{Key, Modifiers};
use traywright::action::View;

/// A site as it is entered.
pub(crate) struct Entered {
    tooth: &'static str,
    implant: &'static str,
    distance: &'static str,
    density: &'static str,
    crest: (&'static str, &'static str),
    walls: [(&'static str, &'static str); 6],
}

/// The two sites, with comma and point.
pub(crate) const SITES: [Entered; 2] = [
    Entered {
        tooth: "lower right first molar (46)",
        implant: "Reed 4.37 × 9.1, 10.4 mm measured",
        distance: "4,45",
        density: "D1, dense cortical bone",
        crest: ("0.9", "0.5"),
        walls: [
            ("buccal, at the crest", "4.2"),
            ("buccal, at mid-length", "4,9"),
            ("buccal, at the apex", "5.6"),
            ("lingual, at the crest", "3.9"),
            ("lingual, at mid-length", "4.4"),
            ("lingual, at the apex", "4.1"),
        ],
    },
    Entered {
        tooth: "lower right second molar (47)",
        implant: "Reed 4.37 × 7.4, 8.7 mm measured",
        distance: "4.55",
        density: "D1, dense cortical bone",
        crest: ("0.8", "0.4"),
        walls: [
            ("buccal, at the crest", "4.4"),
            ("buccal, at mid-length", "5"),
            ("buccal, at the apex", "5.2"),
            ("lingual, at the crest", "4"),
            ("lingual, at mid-length", "4.1"),
            ("lingual, at the apex", "3.8"),
        ],
    },
];

/// A case without anything in it but what it begins with.
pub(crate) fn begin(hand: &mut Hand) {
    hand.enter("Case reference, not a name", "QX-7");
    hand.choose("Jaw", "lower jaw");
    hand.choose("Guide support", "teeth");
    hand.choose("Access to the bone", "a full-thickness flap");
    hand.click("Begin");
    assert_eq!(hand.program().view_state().view, View::Arch);
}

/// Everything of the case that is no site, and the two sites.
pub(crate) fn plan(hand: &mut Hand) {
    hand.go(View::Case);
    hand.choose("Measured at", "distal contacts of the second molars");
    hand.enter("Arch width there", "61.5");
    hand.enter("Arch depth to there", "44");
    hand.choose("Gauge", "Bench gauge, reads the landing face");
    hand.choose("Tray", "Plain tray");
    hand.go(View::Arch);
    hand.click("All of them natural teeth");
    for site in &SITES {
        place(hand, site);
        fill(hand, site);
    }
}

/// The first site as it is placed, before anything of it is entered.
pub(crate) fn place_first(hand: &mut Hand) {
    place_at(hand, &SITES[0], "not entered");
    hand.click("Go to the site");
}

fn place(hand: &mut Hand, site: &Entered) {
    place_at(hand, site, "present, natural");
}

fn place_at(hand: &mut Hand, site: &Entered, state: &str) {
    hand.go(View::Arch);
    hand.choose("Selected", &format!("{}: {state}", site.tooth));
    hand.choose("Bone", "healed");
    hand.choose("Implant", site.implant);
    hand.choose("Guided", "all drilling guided, the implant freehand");
    hand.click("Place it");
}

fn fill(hand: &mut Hand, site: &Entered) {
    hand.click("Go to the site");
    assert_eq!(hand.program().view_state().view, View::Site);
    hand.pick("apical face");
    hand.enter("To the apical face", site.distance);
    hand.choose("Density", site.density);
    hand.enter("Platform below the most coronal crest", site.crest.0);
    hand.enter("Platform below the most apical crest", site.crest.1);
    hand.enter("Tissue thickness", "2.5");
    for (wall, measured) in site.walls {
        hand.enter(wall, measured);
    }
    hand.click("Change it");
    hand.click("Propose one");
}

/// Writes the checklist by the typed path.
pub(crate) fn write_sheet(hand: &mut Hand) -> Vec<u8> {
    hand.go(View::Sheet);
    hand.click("Write PDF…");
    let file = hand.folder.path().join("checklist.pdf");
    hand.enter("File, with its folder", &file.display().to_string());
    hand.click("Save");
    std::fs::read(&file).expect("the checklist was written")
}

/// Every line of text of a PDF.
pub(crate) fn printed_lines(pdf: &[u8]) -> Vec<String> {
    let pages = lopdf::Document::load_mem(pdf).expect("a PDF").get_pages();
    pages.keys().flat_map(|page| lines(pdf, *page)).collect()
}

/// Takes back everything that can be taken back.
pub(crate) fn undo_all(hand: &mut Hand) -> usize {
    let mut times = 0;
    while hand
        .program()
        .document()
        .is_some_and(|document| document.undo_name().is_some())
    {
        hand.press(Modifiers::COMMAND, Key::Z);
        times += 1;
    }
    times
}

/// Does it all again.
pub(crate) fn redo_all(hand: &mut Hand) -> usize {
    let mut times = 0;
    while hand
        .program()
        .document()
        .is_some_and(|document| document.redo_name().is_some())
    {
        hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
        times += 1;
    }
    times
}

/// Without a gauge no mix-up can be tried: nothing says that none would do harm.
#[test]
fn what_was_not_tried_is_not_said_to_do_no_harm() {
    let mut hand = Hand::new().with_demo("two-molars");
    let file = hand.folder.path().join("no-gauge.json");
    let mut case: serde_json::Value =
        serde_json::from_slice(&std::fs::read(hand.folder.path().join("two-molars.json")).unwrap())
            .unwrap();
    case["setup"].as_object_mut().unwrap().remove("gauge");
    std::fs::write(&file, case.to_string()).unwrap();
    hand.harness.state_mut().open(&file);
    hand.harness.run();
    hand.go(View::Findings);
    assert!(
        hand.program()
            .document()
            .unwrap()
            .worksheet()
            .mix_ups
            .is_empty()
    );
    assert!(!hand.sees(&crate::forms::word("findings-look-alikes-none")));
    assert!(hand.sees(&crate::forms::word("findings-look-alikes-what")));
}

/// What was recorded is looked at in a view of its own, and an empty one says so.
#[test]
fn the_history_tells_what_was_recorded_and_what_counts() {
    let mut hand = Hand::new().with_demo("one-premolar");
    hand.go(View::History);
    assert!(hand.sees("Nothing is recorded for this case yet"));
    crate::hands::approved(&mut hand);
    hand.go(View::History);
    assert!(hand.sees("Approved revision"));
    assert!(hand.sees("for practice only"));
    hand.click("Copy as text");
}
