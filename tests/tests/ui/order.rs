//! The order of use: its verdict, a step moved by hand, and the best order followed.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;
use traywright::desk::{RunWork, Work};
use traywright_core::order::Cost;
use traywright_core::plan::{Operation, OrderBy, Worksheet};
use traywright_core::run::{Adherence, RunOrder};

/// At the order of a demonstration case, once everything slow is there.
fn at(demo: &str) -> Hand {
    let mut hand = Hand::new().with_demo(demo);
    hand.go(View::Order);
    hand.wait();
    hand
}

fn worksheet(hand: &Hand) -> &Worksheet {
    hand.program().document().expect("a case").worksheet()
}

fn work(hand: &Hand) -> &RunWork {
    &hand.program().desk().run
}

fn run(hand: &Hand) -> &RunOrder {
    work(hand).order().expect("it was waited for")
}

/// True if the view shows the cost of the order that is followed.
fn told(hand: &Hand, cost: Cost) -> bool {
    let document = hand.program().document().expect("a case");
    let formatter = document.formatter(hand.program().desk().settings.notation);
    let told = traywright_core::wording::begin(&formatter.run_cost(cost));
    hand.harness.query_all_by_label(&told).next().is_some()
}

/// The steps as in the list.
fn rows(hand: &Hand) -> Vec<String> {
    hand.names(Role::ListItem)
}

/// Puts the keyboard on the row of a step.
fn on_row(hand: &mut Hand, n: usize) {
    let name = rows(hand)[n].clone();
    let row = hand.find(&name);
    row.scroll_to_me();
    hand.harness.run();
    hand.find(&name).click();
    hand.harness.run();
}

#[test]
fn the_verdict_stands_there_and_the_best_order_can_be_followed_and_left_again() {
    let mut hand = at("two-molars");
    let before = run(&hand).clone();
    assert!(before.proved && !before.followed_is_least);
    assert!(hand.sees("above the minimum"));
    assert!(told(&hand, before.followed.cost) && told(&hand, before.best.cost));
    let plan = worksheet(&hand).fingerprint;
    hand.click("Follow the best order");
    hand.wait();
    assert_eq!(worksheet(&hand).order_by, OrderBy::Accepted);
    assert_eq!(run(&hand).followed.cost, before.best.cost);
    assert!(run(&hand).followed_is_least && hand.sees("The minimum possible."));
    assert!(!hand.sees("Follow the best order"));
    // The fingerprint holds the order, so that an approval of the other one lapses.
    assert_ne!(worksheet(&hand).fingerprint, plan);
    hand.click("Follow the default rule again: each diameter at all sites in turn");
    assert_eq!(worksheet(&hand).order_by, OrderBy::Rule);
    assert_eq!(worksheet(&hand).fingerprint, plan);
}

#[test]
fn a_step_is_moved_by_keys_costs_something_else_at_once_and_goes_back_in_one_undo() {
    let mut hand = at("two-molars");
    let (order, plan) = (worksheet(&hand).order.clone(), worksheet(&hand).fingerprint);
    let before = run(&hand).followed.cost;
    let steps = hand.program().document().expect("a case").steps();
    // The first step at the other site, past two of the first.
    let first = order
        .iter()
        .position(|one| matches!(one, Operation::Drill { .. }));
    let first = first.expect("a step");
    let site = |n: usize| match &order[n] {
        Operation::Drill { site, .. } => site.clone(),
        _ => panic!("a step"),
    };
    let other = (first..order.len()).find(|n| site(*n) != site(first));
    let other = other.expect("another site");
    on_row(&mut hand, other);
    for _ in first..other {
        // Held: the key goes down again and again before it comes up.
        hand.harness
            .key_down_modifiers(Modifiers::ALT, Key::ArrowUp);
        hand.harness.run();
    }
    hand.harness.key_up_modifiers(Modifiers::ALT, Key::ArrowUp);
    hand.harness.run();
    let moved = worksheet(&hand);
    assert_eq!(moved.order_by, OrderBy::Accepted);
    assert_eq!(moved.order[first], order[other]);
    assert_eq!(moved.order[first + 1..=other], order[first..other]);
    let now = run(&hand).followed.cost;
    assert_ne!(now, before);
    assert!(told(&hand, now), "its cost stands there at once");
    assert!(hand.sees("Moved: "));
    // Nothing was looked for anew: the best order is the same.
    assert!(matches!(work(&hand).best(), Work::Done(_)));
    assert_eq!(
        hand.program().document().expect("a case").steps(),
        steps + 1
    );
    hand.press(Modifiers::COMMAND, Key::Z);
    assert_eq!(worksheet(&hand).fingerprint, plan);
    assert_eq!(worksheet(&hand).order, order);
}

#[test]
fn a_step_that_cannot_go_there_stays_and_says_why() {
    let mut hand = at("two-molars");
    let order = worksheet(&hand).order.clone();
    let first = order
        .iter()
        .position(|one| matches!(one, Operation::Drill { .. }));
    let first = first.expect("a step");
    on_row(&mut hand, first);
    hand.press(Modifiers::COMMAND, Key::ArrowUp);
    assert!(hand.sees("everything before that is completed first"));
    assert_eq!(worksheet(&hand).order, order);
    on_row(&mut hand, 0);
    hand.press(Modifiers::ALT, Key::ArrowDown);
    assert!(hand.sees("done for the whole jaw"));
    assert_eq!(worksheet(&hand).order, order);
}

/// The strip by pointer: a box is taken and let go over another column.
#[test]
fn a_step_is_dragged_along_the_strip() {
    let mut hand = at("two-molars");
    let order = worksheet(&hand).order.clone();
    let name =
        "The order as a strip: a column for each step, a lane for each site, the changes below";
    let rect = hand.find(name).rect();
    // 20 mm wide columns after the first of 8.4 mm, at 4.2 points for a millimetre.
    let column = |n: f32| rect.left_top() + egui::vec2(8.0 + (8.4 + 20.0 * (n - 0.5)) * 4.2, 80.0);
    let (from, to) = (3, 2);
    hand.harness.drag_at(column(3.0));
    hand.harness.run();
    hand.harness.hover_at(column(2.0));
    hand.harness.run();
    assert!(
        hand.sees("There: "),
        "what it would cost stands there before it is let go"
    );
    assert_eq!(worksheet(&hand).order, order);
    hand.harness.drop_at(column(2.0));
    hand.harness.run();
    assert_eq!(worksheet(&hand).order[to], order[from]);
    assert_eq!(worksheet(&hand).order[from], order[to]);
    let undo = hand.program().document().expect("a case").undo_name();
    assert!(undo.expect("a step").contains("moved in the order"));
}

#[test]
fn wishes_are_edits_that_look_anew_and_faults_stand_at_the_field() {
    let mut hand = at("two-molars");
    let field = "Another instrument in the handpiece";
    hand.enter(field, "1,25");
    assert!(hand.sees("not a number of seconds"));
    hand.enter(field, "20.5");
    hand.wait();
    let weights = |hand: &Hand| {
        hand.program()
            .document()
            .expect("a case")
            .case()
            .run
            .weights
    };
    assert_eq!(weights(&hand).mount_ds, 205);
    assert!(hand.sees("Calculated with your own times."));
    let before = run(&hand).clone();
    hand.press_on(Role::CheckBox, "Each site finished before the next");
    hand.wait();
    assert_eq!(run(&hand).adherence, Adherence::Partial);
    assert!(hand.sees("The rule that it breaks: each site finished before the next."));
    assert!(run(&hand).best.cost.time_ds >= before.best.cost.time_ds);
    assert!(hand.sees("Each site finished before the next: without this rule"));
    // Whenever an answer comes, what stands beneath it moves: it is waited for before the next click.
    hand.wait();
    let (first, then) = ("This site first", "Then this one");
    hand.choose(first, "lower right first molar (46)");
    hand.choose(then, "lower right first molar (46)");
    hand.click("Add this rule");
    let rules = |hand: &Hand| {
        hand.program()
            .document()
            .expect("a case")
            .case()
            .run
            .before
            .len()
    };
    assert_eq!(rules(&hand), 0);
    assert!(hand.refused().is_none(), "it is told at the field");
    hand.choose(then, "lower right second molar (47)");
    hand.click("Add this rule");
    hand.wait();
    assert_eq!(rules(&hand), 1);
    hand.choose(first, "lower right second molar (47)");
    hand.choose(then, "lower right first molar (46)");
    hand.click("Add this rule");
    hand.wait();
    assert!(hand.sees("No run order") && hand.sees("in a circle"));
    hand.click("Remove: lower right second molar (47) before lower right first molar (46)");
    hand.wait();
    assert!(run(&hand).proved);
}

/// An order without sites says what to do.
#[test]
fn an_empty_plan_says_what_is_missing() {
    let mut hand = Hand::new();
    crate::plan::begin(&mut hand);
    hand.go(View::Order);
    hand.wait();
    assert!(hand.sees("Nothing is planned that needs an order"));
}

/// The search is stopped by its key; what was found so far stays and says so.
#[test]
fn a_search_that_is_not_waited_for_can_be_stopped() {
    let mut hand = Hand::new().with_demo("full-arch-upper");
    hand.go(View::Order);
    hand.press(Modifiers::COMMAND, Key::Period);
    hand.wait();
    let found = run(&hand);
    assert!(found.proved || hand.sees("Search again"));
    assert!(work(&hand).best().done().is_some());
}

#[test]
fn the_strip_is_told_in_words_and_no_frame_is_asked_for_once_it_is_there() {
    let mut hand = at("full-arch-upper");
    let images = hand.harness.query_all_by(|node| node.role() == Role::Image);
    let told: Vec<String> = images
        .filter_map(|node| node.accesskit_node().description())
        .collect();
    assert!(
        told.iter()
            .any(|told| told.contains("upper right canine (13)")),
        "{told:?}"
    );
    assert_eq!(rows(&hand).len(), worksheet(&hand).order.len());
    let soonest = crate::idle::soonest(&mut hand);
    assert!(soonest >= crate::idle::LONG, "{soonest:?}");
}

/// A stop of which there is one too few, and another sort that is like it: taken with one press, in
/// either view, and given back.
#[test]
fn a_shortage_is_settled_by_a_button_in_both_views() {
    for view in [View::Order, View::Findings] {
        let mut hand = Hand::new();
        let file = hand.folder.path().join("short.json");
        std::fs::write(&file, short_of_a_stop()).expect("a file");
        hand.harness.state_mut().open(&file);
        hand.go(view);
        hand.wait();
        let is_short = |hand: &Hand| {
            let mut stock = worksheet(hand).stock.iter();
            stock.any(|line| line.entry == "stop-257" && line.needed > line.have)
        };
        assert!(is_short(&hand));
        if view == View::Findings {
            let row = rows(&hand)
                .into_iter()
                .find(|row| row.contains("Stop for 2.57"));
            hand.find(&row.expect("the finding")).click();
            hand.harness.run();
        }
        let offers = hand.names(Role::Button).into_iter();
        let mut offers = offers.filter(|name| name.starts_with("Use "));
        let offer = offers.next().expect("something that settles it");
        hand.click(&offer);
        assert!(!is_short(&hand), "{offer}");
        hand.press(Modifiers::COMMAND, Key::Z);
        assert!(is_short(&hand));
    }
}

fn short_of_a_stop() -> String {
    let case = include_str!("../../../demo/two-molars.json");
    let mut case: serde_json::Value = serde_json::from_str(case).expect("a case");
    for site in case["sites"].as_array_mut().expect("sites") {
        site["obstacles"] = serde_json::json!([]);
    }
    let stops = case["kit"]["stops"].as_array_mut().expect("stops");
    let of = |stop: &&mut serde_json::Value| stop["id"] == "stop-257";
    let stop = stops.iter_mut().find(of).expect("the stop");
    let mut like = stop.clone();
    stop["quantity"] = serde_json::json!(1);
    like["id"] = serde_json::json!("stop-257-like");
    stops.push(like);
    case.to_string()
}
