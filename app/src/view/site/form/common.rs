//! The common parts of the form.

use super::SiteForm;
use crate::canvas::mark_in;
use crate::field::New;
use crate::look::{self, Font, Theme};
use crate::view::site::Context;
use crate::view::site::state::State;
use egui::{Ui, WidgetInfo, vec2};
use traywright_core::kit::Label;
use traywright_core::plan::Severity;

/// The title of a part.
pub(super) fn title(ui: &mut Ui, text: &str) {
    ui.add_space(8.0);
    look::part_title(ui, text);
}

/// A row with a choice that belongs to what was begun and is not in the case yet; what was chosen
/// before. `texts` are its label, its field and what open is called.
pub(super) fn begun<V: PartialEq + Clone>(
    form: &mut SiteForm<'_, '_, '_>,
    texts: (&str, &str, &str),
    of: fn(&mut State) -> &mut Option<V>,
    offered: &[(V, String)],
) -> Option<V> {
    let value = of(form.cx.own);
    let now = value.clone();
    if let Some(New(new)) = form.open_choice(texts, now.as_ref(), offered) {
        *of(form.cx.own) = new;
    }
    now
}

/// Says that a value was measured before the site was moved; the person who confirmed it as still
/// true, once one did. `what` is the value in words. Nobody confirms without a name.
pub(super) fn stale(ui: &mut Ui, cx: &Context<'_>, what: &str) -> Option<Label> {
    let colour = Theme::of(ui).fault();
    let by = person(cx);
    let clicked = ui.horizontal_wrapped(|ui| {
        mark_in(ui, vec2(14.0, 16.0), 13.0, Severity::Unknown);
        ui.label(Font::Caption.text(cx.word("site-stale")).color(colour));
        let ids = ("site-stale-confirm", "site-stale-confirm-what");
        let button = ui.add_enabled_ui(by.is_some(), |ui| small_button(ui, cx, ids, what));
        if by.is_none() {
            ui.label(
                Font::Caption
                    .text(cx.word("site-stale-nobody"))
                    .color(colour),
            );
        }
        button.inner
    });
    by.filter(|_| clicked.inner)
}

/// Who is at the desk, or else the surgeon of the team; nothing where neither is named.
fn person(cx: &Context<'_>) -> Option<Label> {
    let at_desk = Some(cx.desk.settings.person.trim()).filter(|name| !name.is_empty());
    let team = cx.document.case().team.surgeon.as_ref();
    at_desk.map(Label::from).or_else(|| team.cloned())
}

/// A small button that does something to one of several things; `ids` are its text and what it is
/// called with the thing, `what` is the thing in words.
pub(super) fn small_button(
    ui: &mut Ui,
    cx: &Context<'_>,
    (id, named): (&str, &str),
    what: &str,
) -> bool {
    let button = ui.small_button(cx.word(id));
    let name = cx.text(named, &[("what", what)]);
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, name.clone()));
    button.on_hover_text(&name).clicked()
}
