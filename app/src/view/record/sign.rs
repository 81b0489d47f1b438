//! The signature under the record, and the record on paper.

use super::Context;
use crate::action::{Action, Ask};
use crate::field::kept_text;
use crate::look::{aside, part_heading};
use crate::platform::Purpose;
use egui::{Button, Ui};
use traywright_core::record::CaseRecord;
use traywright_core::sign::{EventKind, RecordSigned, Who};

/// The field for the name of who signs.
const SIGNER: &str = "record.signer";

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, record: &CaseRecord<'_>, may: bool) {
    part_heading(ui, cx.word("view-record-sign"));
    aside(ui, cx.word("view-record-sign-what"));
    let label = cx.word("view-record-signer");
    let typed = kept_text(ui, &mut cx.shared.state.drafts, SIGNER, label, "", 240.0);
    let open = record.open();
    let text = cx.counted("view-record-sign-now", &[("open", open)], &[]);
    ui.horizontal_wrapped(|ui| {
        let may = may && Who::signing(typed.trim()).is_ok();
        if ui.add_enabled(may, Button::new(text)).clicked() {
            cx.act(Action::Sign {
                who: typed.trim().to_owned(),
                kind: EventKind::RecordSigned(RecordSigned {
                    fingerprint: record.fingerprint,
                    open,
                    purpose: record.purpose,
                }),
            });
        }
        if ui.button(cx.word("view-record-write")).clicked() {
            let file = cx
                .document
                .file()
                .map(|file| file.with_extension("record.pdf"));
            let path = file.map_or_else(String::new, |file| file.display().to_string());
            cx.act(Action::Ask(Ask::file(Purpose::SaveRecord, path)));
        }
    });
}
