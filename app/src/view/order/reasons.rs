//! The reasons for this order: the cost of each rule and each kind of change.

use super::heading;
use crate::desk::Work;
use crate::look::{aside, words};
use crate::view::order::Context;
use egui::Ui;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let Some(run) = cx.desk.run.order() else {
        return;
    };
    let formatter = cx.formatter();
    heading(ui, cx.word("order-why"));
    match cx.desk.run.reasons() {
        Work::Done(reasons) if reasons.is_empty() => aside(ui, cx.word("order-why-none")),
        Work::Done(reasons) => {
            for why in reasons {
                words(ui, formatter.run_why(why, run));
            }
        }
        Work::Going(_) => aside(ui, cx.word("order-why-going")),
        Work::Open | Work::Failed => aside(ui, cx.word("order-why-none")),
    }
}
