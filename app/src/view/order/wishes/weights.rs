//! The time that each change takes: the team's own.

use super::set;
use crate::field::{self, InCase, Tenths};
use crate::look::aside;
use crate::view::order::Context;
use egui::Ui;
use traywright_core::case::RunWishes;
use traywright_core::order::{Change, Weights};
use traywright_core::wording::begin;

/// A time in the case; all have one range.
const PLACE: InCase = InCase("run.weights.mount_ds");

/// Shows them.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, run: &RunWishes) {
    let formatter = cx.formatter();
    ui.add_space(6.0);
    let own = run.weights != Weights::default();
    let whose = if own { "run-own-times" } else { "run-invented" };
    aside(ui, cx.word(whose));
    for change in Change::ALL {
        let mut weights = run.weights;
        let now = *change.weight_in(&mut weights);
        let name = begin(&formatter.run_change_in_full(change));
        let key = format!("order.weight.{}", change.key());
        let taken = field::row(ui, &name, |ui, named| {
            let drafts = &mut cx.state.drafts;
            field::needed(ui, drafts, &key, &named, Some(Tenths(now)), PLACE)
        });
        if let Some(Tenths(time)) = taken {
            set(cx, &name, Some(key), |run| {
                *change.weight_in(&mut run.weights) = time;
            });
        }
    }
    if own && ui.button(cx.word("order-times-back")).clicked() {
        let what = cx.word("order-times-back");
        set(cx, &what, None, |run| run.weights = Weights::default());
    }
}

#[cfg(test)]
mod tests {
    use traywright_core::case::Case;
    use traywright_core::document::range_at;

    #[test]
    fn all_times_have_the_range_of_the_one_that_is_named() {
        for time in ["mount", "reset", "move", "sleeve", "speed"] {
            let range = range_at::<Case>(&format!("run.weights.{time}_ds"));
            assert_eq!(range, Some(0..=36_000_000), "{time}");
        }
    }
}
