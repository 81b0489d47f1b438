//! The time that each change takes: the team's own.

use super::super::aside;
use super::set;
use crate::field::{self, Bounds, New};
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::RunWishes;
use traywright_core::order::{Change, Weights};
use traywright_core::wording::begin;

/// The range of a time, tenths of a second: an hour at the most, as the file has it.
const TIMES: Bounds<u32> = Bounds::needed(0, 36_000);

/// Shows them.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, run: &RunWishes) {
    let Some(document) = cx.document() else {
        return;
    };
    let formatter = document.formatter(cx.desk.settings.notation());
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
            field::seconds(ui, &mut cx.state.drafts, &key, named, now, TIMES)
        });
        if let Some(New(time)) = taken {
            *change.weight_in(&mut weights) = time;
            let new = RunWishes {
                weights,
                ..run.clone()
            };
            set(cx, name, new, Some(key));
        }
    }
    if own && ui.button(cx.word("order-times-back")).clicked() {
        let new = RunWishes {
            weights: Weights::default(),
            ..run.clone()
        };
        set(cx, cx.word("order-times-back"), new, None);
    }
}
