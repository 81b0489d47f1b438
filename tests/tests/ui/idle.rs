//! Idle means idle: in no view is a frame asked for without input.

use crate::hand::Hand;
use std::time::Duration;
use traywright::window::View;

#[test]
fn no_view_asks_for_a_frame_within_ten_seconds() {
    let mut hand = Hand::new().with_demo("two-molars");
    for view in View::ALL {
        hand.go(view);
        hand.harness.step();
        let outputs = hand.harness.output().viewport_output.values();
        let soonest = outputs.map(|viewport| viewport.repaint_delay).min();
        let soonest = soonest.expect("a window");
        // The loading view looks every two seconds whether another desk wrote something.
        let least = Duration::from_secs(if view == View::Loading { 2 } else { 10 });
        assert!(soonest >= least, "{view:?}: asks again after {soonest:?}");
    }
}
