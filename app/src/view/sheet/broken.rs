//! A record with a break: what that means, and the way to begin anew.

use crate::action::Action;
use crate::desk::{Document, said_ahead};
use crate::field::kept_text;
use crate::look::{aside, fault};
use crate::view::sheet::Context;
use egui::Ui;
use traywright_core::sign::Who;

/// The place in which the name of the person who puts it aside is typed.
const BY: &str = "sheet.aside.by";

/// Shows the problems of the record, and where nothing counts for them what to do.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, document: &Document) {
    for problem in &document.record.problems {
        fault(ui, problem);
    }
    for ahead in said_ahead(&document.record.events, cx.now) {
        fault(ui, ahead);
    }
    if !document.record.standing.broken || document.record.has_others {
        return;
    }
    aside(ui, cx.word("sheet-view-broken"));
    let label = cx.word("sheet-view-broken-by");
    let by = kept_text(ui, &mut cx.state.drafts, BY, label, "", 240.0);
    let button = egui::Button::new(cx.word("sheet-view-broken-now"));
    if ui.add_enabled(Who::signing(&by).is_ok(), button).clicked() {
        cx.act(Action::PutRecordAside(by.trim().to_owned()));
    }
    ui.add_space(12.0);
}
