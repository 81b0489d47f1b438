//! The passphrase of a pack.

use super::file::is_entered;
use crate::action::Seal;
use crate::context::ViewContext;
use crate::look::aside;
use egui::{TextEdit, Ui};

/// The passphrase that was given, nothing for none; or what it lacks: the id of a text.
pub(super) type Wanted = Result<Option<String>, &'static str>;

/// Asks whether a new pack is to be encrypted, and for its passphrase, twice.
pub(super) fn new_ui(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    seal: &mut Seal,
    entered: &mut bool,
) -> Wanted {
    aside(ui, cx.word("ask-pack-what"));
    ui.checkbox(&mut seal.wanted, cx.word("ask-pack-encrypt"));
    if !seal.wanted {
        return Ok(None);
    }
    let fields = [
        unseen(ui, cx, "pack-ask", &mut seal.passphrase),
        unseen(ui, cx, "pack-ask-again", &mut seal.again),
    ];
    *entered |= fields.iter().any(|field| is_entered(ui, field));
    aside(ui, cx.word("ask-pack-lost"));
    if seal.passphrase.is_empty() {
        Err("ask-pack-empty")
    } else if seal.passphrase != seal.again {
        Err("ask-pack-differ")
    } else {
        Ok(Some(seal.passphrase.clone()))
    }
}

/// Asks for the passphrase of a pack, which one that is not encrypted does not need.
pub(super) fn known_ui(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    seal: &mut Seal,
    entered: &mut bool,
) -> Option<String> {
    aside(ui, cx.word("ask-unpack-what"));
    let field = unseen(ui, cx, "ask-unpack-passphrase", &mut seal.passphrase);
    if std::mem::take(&mut seal.to_field) {
        field.request_focus();
    }
    *entered |= is_entered(ui, &field);
    (!seal.passphrase.is_empty()).then(|| seal.passphrase.clone())
}

/// A field whose text is not shown.
fn unseen(ui: &mut Ui, cx: &ViewContext<'_>, label: &str, text: &mut String) -> egui::Response {
    let named = ui.label(cx.word(label)).id;
    let field = TextEdit::singleline(text).password(true);
    ui.add(field.desired_width(f32::INFINITY))
        .labelled_by(named)
}
