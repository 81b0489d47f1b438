//! Nothing hangs over the left or right edge of the window, at the smallest size and at twice the
//! scale. Downwards a view may be scrolled, so that is no fault.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright::action::View;

/// Height of a site's card in the strip, points: no other control is so high. The strip is scrolled
/// sideways, so its cards may be beyond the edge.
const CARD: f32 = 84.0;

/// The controls that are not wholly between the left and right edge.
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

/// The views by name, the commands and what would be undone are side by side.
#[test]
fn nothing_in_the_bar_at_the_top_lies_over_something_else() {
    for scale in [1.0, 1.4, 1.5, 2.0] {
        let mut hand = Hand::at(DESK / scale, scale).with_demo("two-molars");
        hand.go(View::Case);
        hand.enter("Surgeon", "QP");
        assert!(hand.sees("Undo: "), "something to undo, by name");
        let all = hand.harness.query_all_by_role(Role::Button);
        let bar: Vec<(String, egui::Rect)> = all
            .map(|node| {
                (
                    node.accesskit_node().label().unwrap_or_default(),
                    node.rect(),
                )
            })
            .filter(|(_, rect)| rect.bottom() < 90.0)
            .collect();
        for (n, (one, rect)) in bar.iter().enumerate() {
            for (other, beside) in &bar[n + 1..] {
                let over = rect.intersect(*beside);
                let apart = over.width() <= 0.5 || over.height() <= 0.5;
                assert!(apart, "at {scale}: {one} over {other}");
            }
        }
    }
}
