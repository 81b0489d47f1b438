//! The arch: sites placed, moved and tilted by pointer, keys and numbers; teeth and pins.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;
use traywright_core::case::{Case, GuideState, Placement, ToothState, ValidCase, read_case};
use traywright_core::measure::{Angle, Length};

fn at_two_molars() -> Hand {
    let mut hand = Hand::at(vec2(1280.0, 1400.0), 1.0).with_demo("two-molars");
    hand.go(View::Arch);
    hand
}

/// Along, buccal and the two tilts of a site.
fn placed(hand: &Hand, index: usize) -> (Length, Length, Angle, Angle) {
    let document = hand.program().document().expect("a case");
    match document.case().sites[index].placement {
        Placement::OnArch {
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } => (along_mm, buccal_mm, apex_to_distal_deg, apex_to_buccal_deg),
        Placement::Measured { .. } => panic!("a measured site"),
    }
}

fn steps(hand: &Hand) -> usize {
    hand.program().document().expect("a case").steps()
}

/// Gives the chart the keyboard.
fn onto_the_chart(hand: &mut Hand) {
    hand.harness
        .get_by_role_and_label(Role::Image, "Arch chart")
        .focus();
    hand.harness.run();
}

fn tooth(hand: &Hand, iso: &str) -> Option<ToothState> {
    let case = hand.program().document().expect("a case").case();
    let position = iso.parse().expect("a tooth");
    let mut teeth = case.teeth.iter();
    Some(teeth.find(|tooth| tooth.position == position)?.state)
}

#[test]
fn an_implant_is_placed_with_everything_chosen_and_one_undo_takes_it_away() {
    let mut hand = at_two_molars();
    hand.choose("Selected", "lower left first molar (36): present, natural");
    assert!(hand.find("Place it").accesskit_node().is_disabled());
    hand.choose("Bone", "healed");
    hand.choose("Implant", "Reed 4.37 × 11.3, 12.6 mm measured");
    hand.choose("Guided", "all drilling guided, the implant freehand");
    // The one master sleeve that fits the implant's protocols was offered as chosen.
    hand.click("Place it");
    let case = hand.program().document().expect("a case").case();
    assert_eq!(case.sites.len(), 3);
    assert_eq!(case.sites[2].implant.as_str(), "reed-437-113");
    // What was entered as present stays so, and is asked about.
    assert_eq!(tooth(&hand, "36"), Some(ToothState::Present));
    let document = hand.program().document().expect("a case");
    let mut findings = document.worksheet().findings.iter();
    assert!(findings.any(|finding| finding.rule.key() == "tooth-at-site"));
    assert_eq!(steps(&hand), 1);
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(
        hand.program()
            .document()
            .expect("a case")
            .case()
            .sites
            .len(),
        2
    );
    assert_eq!(tooth(&hand, "36"), Some(ToothState::Present));
}

/// 46 is on the patient's right near the straight part of the arch: up is distal, left buccal.
#[test]
fn arrows_move_and_tilt_the_chosen_site() {
    let mut hand = at_two_molars();
    onto_the_chart(&mut hand);
    let before = placed(&hand, 0);
    let um = |length: Length, more: i64| length + Length::from_um(more);
    hand.press(Modifiers::NONE, Key::ArrowUp);
    let after = placed(&hand, 0);
    assert_eq!(after, (um(before.0, 100), before.1, before.2, before.3));
    hand.press(Modifiers::SHIFT, Key::ArrowLeft);
    let after = placed(&hand, 0);
    assert_eq!(after.1, um(before.1, 1_000));
    hand.press(Modifiers::ALT, Key::ArrowDown);
    assert_eq!(placed(&hand, 0).2, Angle::from_deg(-1));
    assert_eq!(steps(&hand), 3);
    for _ in 0..3 {
        hand.press(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(placed(&hand, 0), before);
}

#[test]
fn a_held_arrow_and_a_drag_are_one_step_each() {
    let mut hand = at_two_molars();
    onto_the_chart(&mut hand);
    hand.harness.key_down(Key::ArrowUp);
    hand.harness.run();
    hand.harness.key_down(Key::ArrowUp);
    hand.harness.run();
    hand.harness.key_up(Key::ArrowUp);
    hand.harness.run();
    assert_eq!(steps(&hand), 1);

    let before = placed(&hand, 0);
    let id = hand.program().document().expect("a case").case().sites[0]
        .id
        .clone();
    let from = hand
        .program()
        .views()
        .arch
        .on_screen(&id)
        .expect("on the chart");
    hand.harness.drag_at(from);
    hand.harness.run();
    for step in [6.0, 12.0, 18.0] {
        hand.harness.hover_at(from + vec2(0.0, -step));
        hand.harness.run();
    }
    hand.harness.drop_at(from + vec2(0.0, -18.0));
    hand.harness.run();
    let after = placed(&hand, 0);
    assert!(after.0 > before.0, "{before:?} {after:?}");
    assert_eq!((after.2, after.3), (before.2, before.3));
    assert_eq!(steps(&hand), 2);
    // What it was dropped at is where it stands, to a tenth of a millimetre.
    let to = hand
        .program()
        .views()
        .arch
        .on_screen(&id)
        .expect("on the chart");
    assert!(
        (to - (from + vec2(0.0, -18.0))).length() < 1.0,
        "{from:?} {to:?}"
    );
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(placed(&hand, 0), before);
}

#[test]
fn a_tilt_by_number_needs_its_side() {
    let mut hand = at_two_molars();
    hand.enter("Apex, along, to", "4");
    assert_eq!(placed(&hand, 0).2, Angle::ZERO);
    assert!(hand.sees("choose the side first"));
    hand.click("Apex, along, to: mesial");
    hand.enter("Apex, along, to", "4");
    assert_eq!(placed(&hand, 0).2, Angle::from_deg(-4));
    assert!(hand.sees("4° to mesial"));
}

#[test]
fn of_a_made_guide_nothing_is_moved() {
    let mut hand = at_two_molars();
    hand.go(View::Case);
    hand.choose("State", "made");
    let state = |hand: &Hand| {
        hand.program()
            .document()
            .expect("a case")
            .case()
            .guide
            .state
    };
    assert_eq!(state(&hand), GuideState::Made);
    hand.go(View::Arch);
    let before = placed(&hand, 0);
    onto_the_chart(&mut hand);
    hand.press(Modifiers::NONE, Key::ArrowUp);
    assert_eq!(placed(&hand, 0), before);
    assert!(
        hand.refused()
            .is_some_and(|told| told.contains("guide is made"))
    );
    let field = hand
        .harness
        .get_by_role_and_label(Role::TextInput, "Along the arch, to");
    assert!(field.accesskit_node().is_disabled());
}

#[test]
fn teeth_are_said_by_keys_from_one_to_the_next() {
    let mut hand = at_two_molars();
    onto_the_chart(&mut hand);
    hand.press(Modifiers::NONE, Key::Escape);
    hand.press(Modifiers::NONE, Key::ArrowRight);
    hand.press(Modifiers::NONE, Key::X);
    assert_eq!(tooth(&hand, "48"), Some(ToothState::ToExtract));
    hand.press(Modifiers::NONE, Key::Delete);
    assert_eq!(tooth(&hand, "48"), None);
    hand.press(Modifiers::NONE, Key::ArrowRight);
    hand.press(Modifiers::NONE, Key::P);
    assert_eq!(tooth(&hand, "47"), Some(ToothState::Present));
}

#[test]
fn a_site_taken_away_comes_back_with_undo() {
    let mut hand = at_two_molars();
    onto_the_chart(&mut hand);
    hand.press(Modifiers::NONE, Key::Delete);
    assert_eq!(
        hand.program()
            .document()
            .expect("a case")
            .case()
            .sites
            .len(),
        1
    );
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(
        hand.program()
            .document()
            .expect("a case")
            .case()
            .sites
            .len(),
        2
    );
}

#[test]
fn a_pin_is_put_moved_and_taken_away() {
    let mut hand = Hand::at(vec2(1280.0, 1400.0), 1.0).with_demo("full-arch-upper");
    hand.go(View::Arch);
    let pins = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        document.case().guide.pins.clone()
    };
    let before = pins(&hand);
    let kind = hand.program().document().expect("a case").case().kit.pins[0]
        .name
        .clone();
    hand.choose("Selected", "upper right first molar (16): missing");
    hand.click(&format!("Place {kind} here"));
    // What two pins have is told apart by the pin's name.
    let name = pins(&hand)[before.len()].name.to_string();
    hand.click(&format!("{name}: Across the arch, to: buccal"));
    hand.enter(&format!("{name}: Across the arch, to"), "6");
    assert_eq!(pins(&hand).len(), before.len() + 1);
    assert_eq!(pins(&hand)[before.len()].buccal_mm, Length::from_mm(6));
    assert!(hand.sees("upper right first molar (16), 6.0 mm to buccal"));
    hand.click("Remove it");
    assert_eq!(pins(&hand), before);
}

#[test]
fn an_implant_taken_away_by_key_is_told_with_the_way_back() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Arch);
    let count = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        document.case().sites.len()
    };
    let before = count(&hand);
    hand.find("Arch chart").focus();
    hand.harness.run();
    hand.press(Modifiers::NONE, Key::Delete);
    assert_eq!(count(&hand), before - 1);
    assert!(hand.sees("lower right first molar (46) removed"));
    assert!(hand.sees("Ctrl+Z brings it back"));
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(count(&hand), before);
}

/// Looked at closer, a chart of both jaws is still said to be of both.
#[test]
fn closer_too_the_chart_says_whose_jaws_it_shows() {
    let mut hand = at_two_molars();
    hand.click("Zoom in");
    let shapes = hand.harness.output().shapes.iter();
    let words = shapes.filter_map(|clipped| match &clipped.shape {
        egui::Shape::Text(text) => Some(text.galley.text().to_owned()),
        _ => None,
    });
    let said: Vec<String> = words
        .filter(|words| words.ends_with(", as you face the patient"))
        .collect();
    assert!(!said.is_empty());
    for words in said {
        assert_eq!(words, "Both jaws, as you face the patient");
    }
}

/// Every text that is painted, with its place on the screen, the later over the earlier.
fn painted(hand: &Hand) -> Vec<(String, Rect, Rect)> {
    let shapes = hand.harness.output().shapes.iter();
    shapes
        .filter_map(|clipped| match &clipped.shape {
            egui::Shape::Text(text) => {
                let rect = text.visual_bounding_rect();
                let seen = rect.intersect(clipped.clip_rect);
                let words = text.galley.text().to_owned();
                seen.is_positive().then_some((words, rect, seen))
            }
            _ => None,
        })
        .collect()
}

/// The room of the chart.
fn chart(hand: &Hand) -> Rect {
    let chart = hand
        .harness
        .get_by_role_and_label(Role::Image, "Arch chart");
    chart.rect()
}

/// The chart of a full arch, so much closer and moved by so much, and what is painted in its room.
fn seen_of(zoom: usize, by: Vec2) -> (Rect, Vec<(String, Rect, Rect)>) {
    let mut hand = Hand::at(DESK, 1.0).with_demo("full-arch-upper");
    hand.go(View::Arch);
    for _ in 0..zoom {
        hand.click("Zoom in");
    }
    let room = chart(&hand);
    if by != Vec2::ZERO {
        let from = room.center();
        hand.harness.key_down(Key::Space);
        hand.harness.drag_at(from);
        hand.harness.run();
        hand.harness.hover_at(from + by);
        hand.harness.run();
        hand.harness.drop_at(from + by);
        hand.harness.key_up(Key::Space);
        hand.harness.run();
    }
    let painted = painted(&hand).into_iter();
    (room, painted.filter(|one| room.intersects(one.2)).collect())
}

/// What stands around the chart: the sides, the jaw, the ruler.
const AROUND: [fn(&str) -> bool; 4] = [
    |words| words == "R",
    |words| words == "L",
    |words| words.ends_with(", as you face the patient"),
    |words| words.starts_with("10") && words.ends_with("mm"),
];

/// Closer, and moved to each side.
const PARTS: [(usize, Vec2); 7] = [
    (1, Vec2::ZERO),
    (3, Vec2::ZERO),
    (0, vec2(60.0, 0.0)),
    (0, vec2(-60.0, 0.0)),
    (0, vec2(120.0, 40.0)),
    (0, vec2(-140.0, -60.0)),
    (2, vec2(200.0, -120.0)),
];

#[test]
fn sides_jaw_and_ruler_stay_on_a_chart_that_is_zoomed_or_moved() {
    for (zoom, by) in PARTS {
        let (room, here) = seen_of(zoom, by);
        let places = AROUND.map(|is| {
            let whole = |one: &&(String, Rect, Rect)| {
                is(&one.0) && one.1 == one.2 && room.contains_rect(one.1)
            };
            here.iter().rev().find(whole).map(|one| one.1)
        });
        let [Some(right), Some(left), Some(_), Some(_)] = places else {
            panic!("{zoom} {by:?}: {places:?}");
        };
        // As one faces the patient.
        assert!(right.center().x < left.center().x, "{zoom} {by:?}");
    }
}

/// Whatever part of the chart is seen, none of its words lies under what stands around it.
#[test]
fn no_words_of_the_chart_lie_under_what_stands_around_it() {
    for (zoom, by) in PARTS {
        let (_, here) = seen_of(zoom, by);
        for is in AROUND {
            let Some(own) = here.iter().rposition(|one| is(&one.0)) else {
                continue;
            };
            for (n, (words, _, seen)) in here.iter().enumerate() {
                assert!(
                    n == own || !seen.intersect(here[own].1).is_positive(),
                    "{zoom} {by:?}: {words} lies under {}",
                    here[own].0
                );
            }
        }
    }
}

/// Wherever an implant is named its measured length stands beside the label's: in the window's panel, on the section and
/// in the order of use.
#[test]
fn the_measured_length_stands_beside_the_label_wherever_an_implant_is_named() {
    const NAMED: &str = "Reed 4.37 × 9.1, 10.4 mm measured";
    let mut hand = at_two_molars();
    let case = hand.program().document().expect("a case").case();
    let implant = case.kit.implant(&case.sites[0].implant).expect("it");
    let (name, length) = (implant.name.to_string(), implant.platform_to_apex_mm);
    assert_eq!(format!("{name}, {length} mm measured"), NAMED);
    let told = |hand: &Hand| -> Vec<String> {
        let nodes = hand.harness.query_all_by(|_| true);
        let said = nodes.flat_map(|node| {
            let node = node.accesskit_node();
            [node.label(), node.value()]
        });
        let painted = painted(hand).into_iter().map(|one| one.0);
        painted.chain(said.flatten()).collect()
    };
    let mut bare = Vec::new();
    for view in [View::Arch, View::Site, View::Order] {
        hand.go(view);
        hand.wait();
        let told = told(&hand).into_iter();
        let told: Vec<String> = told.map(|words| words.replace('\n', " ")).collect();
        if !told.iter().any(|words| words.contains(NAMED)) {
            bare.push((view, "not named at all".to_owned()));
        }
        let named = |words: &String, by: &str| words.matches(by).count();
        let without = told.into_iter();
        let without = without.filter(|words| named(words, &name) != named(words, NAMED));
        bare.extend(without.map(|words| (view, words)));
    }
    assert_eq!(bare, []);
}

/// A drill that does not fit says so whole in the panel of its site, where others have their setting.
#[test]
fn what_does_not_fit_is_told_whole_beside_the_settings() {
    let mut hand = Hand::at(egui::vec2(1280.0, 800.0), 1.0);
    let demos = std::path::Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
    let bytes = std::fs::read(demos.join("two-molars.json")).expect("a demo");
    let mut case: Case = (*read_case(&bytes).expect("a case")).clone();
    for drill in &mut case.kit.drills {
        if drill.name.as_str() == "Tip drill 2.57" {
            let clamp = drill.clamp.as_mut().expect("it takes stops");
            clamp.from_mm = clamp.to_mm - Length::from_um(1000);
        }
    }
    let case = ValidCase::try_from(case).expect("no fault");
    let file = hand.folder.path().join("misfit.json");
    let text = serde_json::to_string_pretty(&*case).expect("plain data");
    std::fs::write(&file, text).expect("a file");
    hand.harness.state_mut().open(&file);
    hand.wait();
    hand.go(View::Arch);
    hand.choose("Selected", "implant: lower right first molar (46)");
    hand.harness.run();
    let told = painted(&hand);
    let told: Vec<_> = told.iter().filter(|one| one.0 == "does not fit").collect();
    assert!(!told.is_empty());
    for (words, rect, seen) in told {
        assert!(
            seen.width() >= rect.width() - 0.5,
            "{words}: {rect:?} {seen:?}"
        );
    }
}
