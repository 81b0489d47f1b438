//! Idle means idle: in no view is a frame asked for without input.

use crate::hand::Hand;
use crate::loading::to_a_reading;
use egui::{Key, Modifiers};
use std::time::Duration;
use traywright::action::View;

/// Time until the window wants to be drawn again, with nothing done.
pub(crate) fn soonest(hand: &mut Hand) -> Duration {
    hand.harness.step();
    let outputs = hand.harness.output().viewport_output.values();
    let soonest = outputs.map(|viewport| viewport.repaint_delay).min();
    soonest.expect("a window")
}

pub(crate) const LONG: Duration = Duration::from_secs(10);

#[test]
fn no_view_asks_for_a_frame_within_ten_seconds() {
    let mut hand = Hand::new();
    assert!(soonest(&mut hand) >= LONG, "without a case");
    hand = hand.with_demo("two-molars");
    for view in View::ALL {
        hand.go(view);
        hand.wait();
        let soonest = soonest(&mut hand);
        assert!(soonest >= LONG, "{view:?}: asks again after {soonest:?}");
    }
}

/// The files are watched by a thread, so that the window sleeps while the tray is loaded.
#[test]
fn nor_does_the_loading_view_in_the_middle_of_a_session() {
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(View::Loading);
    to_a_reading(&mut hand);
    assert!(soonest(&mut hand) >= LONG, "at a reading");
    hand.press(Modifiers::NONE, Key::L);
    assert!(soonest(&mut hand) >= LONG, "at the list");
}
