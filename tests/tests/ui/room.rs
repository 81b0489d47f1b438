//! Nothing hangs over the left or right edge of the window, at the smallest size and at twice the
//! scale. Downwards a view may be scrolled, so that is no fault.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::window::View;

/// Height of a site's card in the strip, points: no other control is so high. The strip is
/// scrolled sideways, so its cards may lie beyond the edge.
const CARD: f32 = 84.0;

/// The controls that do not lie whole between the left and right edge.
fn over_the_edge(hand: &Hand) -> Vec<String> {
    let room = hand.harness.ctx.content_rect().expand(1.0);
    let all = hand.harness.query_all_by(|node| {
        matches!(node.role(), Role::Button | Role::TextInput | Role::ComboBox)
    });
    all.filter(|node| node.accesskit_node().bounding_box().is_some())
        .filter(|node| (node.rect().height() - CARD).abs() > 0.5)
        .filter(|node| node.rect().left() < room.left() || node.rect().right() > room.right())
        .filter_map(|node| node.accesskit_node().label())
        .collect()
}

#[test]
fn every_control_lies_within_the_window() {
    for scale in [1.0, 2.0] {
        for demo in ["two-molars", "full-arch-upper"] {
            let mut hand = Hand::at(DESK / scale, scale).with_demo(demo);
            for view in View::ALL {
                hand.go(view);
                assert_eq!(
                    over_the_edge(&hand),
                    Vec::<String>::new(),
                    "{view:?} at {scale}"
                );
            }
        }
    }
}
