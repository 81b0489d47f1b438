//! Nothing hangs over the edge of the window or over another text, at the smallest size and at
//! twice the scale.

use crate::hand::{DESK, Hand};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::window::View;

fn over_the_edge(hand: &Hand) -> Vec<String> {
    let room = hand.harness.ctx.content_rect().expand(1.0);
    let all = hand.harness.query_all_by(|node| {
        use egui::accesskit::Role;
        matches!(node.role(), Role::Button | Role::TextInput | Role::ComboBox)
    });
    all.filter(|node| node.accesskit_node().bounding_box().is_some())
        .filter(|node| !in_scroll(node) && !room.contains_rect(node.rect()))
        .filter_map(|node| node.accesskit_node().label())
        .collect()
}

/// Whether it lies in something that can be scrolled to it.
fn in_scroll(node: &egui_kittest::Node<'_>) -> bool {
    let mut above = node.accesskit_node().parent();
    while let Some(one) = above {
        if one.role() == egui::accesskit::Role::ScrollView {
            return true;
        }
        above = one.parent();
    }
    false
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
