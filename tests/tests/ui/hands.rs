//! What hands expect: a drag goes with the pointer, a finding leads to its field, a notice covers nothing.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::time::Duration;
use traywright::action::{Command, View};
use traywright_core::case::Placement;
use traywright_core::kit::SiteId;

fn site(hand: &Hand, n: usize) -> SiteId {
    let document = hand.program().document().expect("a case");
    document.case().sites[n].id.clone()
}

fn placement(hand: &Hand) -> Placement {
    let document = hand.program().document().expect("a case");
    document.case().sites[0].placement
}

/// A name that takes lines of the title block.
const WHO: &str = "Rosalind Quillfeather Tamworth of the Long Name";

/// Approves for practice.
pub(crate) fn approved(hand: &mut Hand) {
    hand.go(View::Sheet);
    hand.enter("Name of the person who approves", WHO);
    let worksheet = hand.program().document().expect("a case").worksheet();
    let approve = format!("Approve {} for practice", worksheet.fingerprint);
    hand.click(&approve);
    assert!(hand.sees(&format!("practice approval by {WHO}")));
}

/// The first drag after an approval withdraws it, and the title block shrinks meanwhile.
#[test]
fn the_chart_stays_where_it_is_while_a_drag_withdraws_an_approval() {
    for first_approved in [false, true] {
        let mut hand = Hand::at(DESK, 1.0).with_demo("full-arch-upper");
        if first_approved {
            approved(&mut hand);
        }
        hand.go(View::Arch);
        let (own, other) = (site(&hand, 0), site(&hand, 1));
        let place = |hand: &Hand, id| hand.program().views().arch.on_screen(id).expect("seen");
        let (from, before) = (place(&hand, &own), placement(&hand));
        let stays = place(&hand, &other);
        hand.harness.drag_at(from);
        hand.harness.run();
        for step in [8.0, 16.0, 24.0] {
            let at = from + vec2(step, 0.0);
            hand.harness.hover_at(at);
            hand.harness.run();
            // To a tenth of a millimetre, that is less than 2 points.
            let off = place(&hand, &own) - at;
            assert!(off.length() < 2.0, "{first_approved} {step} {off:?}");
            let moved = place(&hand, &other) - stays;
            assert!(moved.length() < 0.1, "{first_approved} {step} {moved:?}");
        }
        hand.harness.drop_at(from + vec2(24.0, 0.0));
        hand.harness.run();
        assert_ne!(placement(&hand), before);
    }
}

#[test]
fn a_finding_leads_to_its_field_with_the_keyboard() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
    hand.go(View::Findings);
    let ways = hand.names(Role::Button);
    let to_gauge = |name: &&String| name.starts_with("No gauge") && name.contains("Go to");
    let way = ways.iter().find(to_gauge).cloned();
    let way = way.unwrap_or_else(|| panic!("{ways:#?}"));
    hand.click(&way);
    hand.harness.run();
    assert_eq!(hand.program().view_state().view, View::Case);
    let gauge = hand.harness.get_by_role_and_label(Role::ComboBox, "Gauge");
    assert!(gauge.is_focused());
}

/// In the site's view too one cause is one line, beneath which the rest is listed once it is asked for.
#[test]
fn the_view_of_a_site_tells_each_cause_once() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
    hand.go(View::Site);
    let told = "No gauge chosen: ";
    let ways = hand.names(Role::Button);
    let all = ways.iter().filter(|name| name.starts_with(told));
    let [way] = all.collect::<Vec<_>>()[..] else {
        panic!("{ways:#?}");
    };
    let (way, setting) = (way.clone(), "no gauge chosen");
    let lines = |hand: &Hand| {
        let lines = hand.harness.query_all_by(|node| node.role() == Role::Label);
        let lines = lines.filter_map(|node| node.value());
        lines
            .filter(|line| line.starts_with("Unknown: ") && line.contains(setting))
            .count()
    };
    assert_eq!(lines(&hand), 0);
    hand.click(&way);
    assert!(lines(&hand) > 2);
}

#[test]
fn ctrl_y_does_again_what_was_undone() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Case);
    hand.choose("Gauge", "not chosen");
    let gauge = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        document.case().setup.gauge.is_some()
    };
    hand.press(Modifiers::COMMAND, Key::Z);
    assert!(gauge(&hand));
    hand.press(Modifiers::COMMAND, Key::Y);
    assert!(!gauge(&hand));
}

#[test]
fn a_built_in_case_that_was_not_changed_asks_nothing() {
    let mut hand = Hand::new();
    hand.follow("Two lower molars over the canal");
    hand.press(Modifiers::COMMAND, Key::W);
    assert!(hand.program().document().is_none());
}

/// The own tooth is none, and the nearest come first.
#[test]
fn neighbours_are_offered_from_the_nearest() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Site);
    let before = hand.names(Role::Button);
    hand.press_on(Role::ComboBox, "Add a distance to");
    let offered = hand.names(Role::Button);
    let offered: Vec<&String> = offered.iter().filter(|one| !before.contains(one)).collect();
    let teeth = offered
        .iter()
        .filter(|one| one.contains('('))
        .collect::<Vec<_>>();
    assert!(teeth.len() > 2, "{offered:#?}");
    assert!(
        teeth[..2]
            .iter()
            .all(|one| one.contains("(47)") || one.contains("(45)")),
        "{teeth:#?}"
    );
    assert!(teeth.iter().all(|one| !one.contains("(46)")), "{teeth:#?}");
}

#[test]
fn a_notice_covers_no_button_and_goes_by_itself() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("one-premolar");
    let bad = hand.folder.path().join("bad.json");
    std::fs::write(&bad, "{").expect("a file");
    hand.press(Modifiers::COMMAND, Key::O);
    hand.enter("File, with its folder", &bad.display().to_string());
    hand.click("Open");
    assert!(hand.refused().is_some());
    let close = hand.find("Close").rect();
    let others = hand.harness.query_all_by(|node| {
        node.role() == Role::Button && node.label().as_deref() != Some("Close")
    });
    for other in others {
        let rect = other.rect().intersect(close);
        assert!(!rect.is_positive(), "{:?}", other.accesskit_node().label());
    }
    for _ in 0..200 {
        hand.harness.step();
    }
    assert_eq!(hand.refused(), None);
}

/// Draws only the frames that the program itself asks for, each as late as it asks: nobody is at the window. Gives back
/// the time that passes until it asks for none.
fn left_alone(hand: &mut Hand) -> f64 {
    let asleep = Duration::from_hours(1);
    let begin = hand.harness.ctx.input(|input| input.time);
    let mut now = begin;
    for _ in 0..1000 {
        let outputs = hand.harness.output().viewport_output.values();
        let delays = outputs.map(|viewport| viewport.repaint_delay);
        let delay = delays.min().expect("a window");
        if delay > asleep {
            return now - begin;
        }
        now += delay.as_secs_f64().max(1.0 / 60.0);
        hand.harness.input_mut().time = Some(now);
        hand.harness.step();
    }
    panic!("it never sleeps");
}

/// The last frame that shows a notice asks for the one without it.
#[test]
fn a_notice_goes_from_the_screen_while_nobody_is_at_the_window() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Arch);
    hand.find("Arch chart").focus();
    hand.harness.run();
    hand.press(Modifiers::NONE, Key::ArrowRight);
    hand.press(Modifiers::COMMAND, Key::S);
    assert!(hand.sees("Saved: "));
    let passed = left_alone(&mut hand);
    assert!(!hand.sees("Saved: "), "after {passed} s");
    assert!((5.0..20.0).contains(&passed), "{passed}");
}

/// The key that hands know from elsewhere stands in the list too.
#[test]
fn the_list_of_keys_names_every_key_of_a_command() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.press(Modifiers::NONE, Key::F1);
    for command in Command::all() {
        for key in std::iter::once(command.key()).chain(command.other_key()) {
            let key = hand.harness.ctx.format_shortcut(&key);
            assert!(hand.sees(&key), "{key} of {command:?}");
        }
    }
    assert!(hand.sees("Ctrl+Y"));
}

/// Held off its middle, a site moves by what the pointer moves, and does not jump under it.
#[test]
fn a_drag_goes_by_difference() {
    for off in [vec2(0.0, 0.0), vec2(3.0, -2.0), vec2(-4.0, 3.0)] {
        let mut hand = Hand::at(DESK, 1.0).with_demo("full-arch-upper");
        hand.go(View::Arch);
        let id = site(&hand, 0);
        let place = |hand: &Hand| hand.program().views().arch.on_screen(&id).expect("seen");
        let before = place(&hand);
        let from = before + off;
        hand.harness.drag_at(from);
        hand.harness.run();
        for by in [vec2(9.0, 0.0), vec2(18.0, 0.0), vec2(18.0, -18.0)] {
            hand.harness.hover_at(from + by);
            hand.harness.run();
            let moved = place(&hand) - before;
            // To a tenth of a millimetre: half of one each way is less than a point.
            assert!((moved - by).length() < 1.0, "{off:?} {by:?} {moved:?}");
        }
        hand.harness.drop_at(from + vec2(18.0, -18.0));
        hand.harness.run();
        let moved = place(&hand) - before;
        assert!((moved - vec2(18.0, -18.0)).length() < 1.0, "{moved:?}");
    }
}

/// The site's name stays, and another site's form begins at its top.
#[test]
fn the_name_of_the_site_stays_and_another_site_begins_at_the_top() {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Site);
    let top = |hand: &Hand| {
        hand.harness
            .get_by_role_and_label(Role::ComboBox, "Tooth")
            .rect()
            .top()
    };
    let before = top(&hand);
    let heading = |hand: &Hand| {
        let mut all = hand
            .harness
            .query_all_by_label("Lower right first molar (46)");
        all.next().expect("the name").rect()
    };
    let name = heading(&hand);
    hand.harness
        .get_by_role_and_label(Role::ComboBox, "Add a structure")
        .scroll_to_me();
    hand.harness.run();
    assert!(top(&hand) < before - 20.0);
    assert_eq!(heading(&hand), name);
    hand.press(Modifiers::COMMAND, Key::PageDown);
    hand.harness.run();
    assert!((top(&hand) - before).abs() < 1.0, "{} {before}", top(&hand));
}
