//! How long each change takes: the team's own times.

use super::super::aside;
use super::set;
use crate::field::{self, Bounds, New};
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::RunWishes;
use traywright_core::order::{Change, Weights};
use traywright_core::say::begin;

/// What a time may be, tenths of a second: an hour at the most, as the file has it.
const TIMES: Bounds<u32> = Bounds::needed(0, 36_000);

/// Shows them.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, run: &RunWishes) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    ui.add_space(6.0);
    let own = run.weights != Weights::default();
    let whose = if own { "run-own-times" } else { "run-invented" };
    aside(ui, stage.word(whose));
    for change in Change::ALL {
        let mut weights = run.weights;
        let now = *change.weight_in(&mut weights);
        let name = begin(&speaker.run_change_in_full(change));
        let key = format!("order.weight.{}", change.key());
        let taken = field::row(ui, &name, |ui, named| {
            field::seconds(ui, &mut stage.sight.drafts, &key, named, now, TIMES)
        });
        if let Some(New(time)) = taken {
            *change.weight_in(&mut weights) = time;
            let new = RunWishes {
                weights,
                ..run.clone()
            };
            set(stage, name, new, Some(key));
        }
    }
    if own && ui.button(stage.word("order-times-back")).clicked() {
        let new = RunWishes {
            weights: Weights::default(),
            ..run.clone()
        };
        set(stage, stage.word("order-times-back"), new, None);
    }
}
