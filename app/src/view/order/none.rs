//! The view where there is no run order: the reason, and the order as far as it goes.

use super::heading;
use crate::look::{aside, words};
use crate::view::order::Context;
use egui::Ui;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let Some(Err(none)) = cx.desk.run.problem() else {
        return;
    };
    heading(ui, cx.word("order-none"));
    for sentence in formatter.no_run(none) {
        words(ui, sentence);
    }
    let worksheet = document.worksheet();
    if document.case().sites.is_empty() && worksheet.pins.is_empty() {
        return;
    }
    heading(ui, cx.word("order-list"));
    aside(ui, cx.word("order-list-without-cost"));
    for (n, one) in worksheet.order.iter().enumerate() {
        let line = formatter.use_line(one, worksheet);
        let number = &[("number", n + 1)];
        words(ui, cx.counted("order-row", number, &[("line", &line)]));
    }
}
