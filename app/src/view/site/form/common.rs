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

/// Says that a value was measured before the site was moved; the person in whose name it was confirmed
/// as still true, once it was. `what` is the value in words. Nobody confirms without a name, nor what
/// was measured nobody knows where (`is_recorded`).
pub(super) fn stale(ui: &mut Ui, cx: &Context<'_>, what: &str, is_recorded: bool) -> Option<Label> {
    let colour = Theme::of(ui).fault();
    let say = |ui: &mut Ui, id| ui.label(Font::Caption.text(cx.word(id)).color(colour));
    let by = cx.whose_word();
    let clicked = ui.horizontal_wrapped(|ui| {
        mark_in(ui, vec2(14.0, 16.0), 13.0, Severity::Unknown);
        if !is_recorded {
            say(ui, "site-stale-unrecorded");
            return false;
        }
        say(ui, "site-stale");
        let Some(by) = &by else {
            say(ui, "site-stale-nobody");
            return false;
        };
        let args = [("what", what), ("by", by.as_str())];
        let text = cx.text("site-stale-confirm", &args[1..]);
        small_button(ui, text, &cx.text("site-stale-confirm-what", &args))
    });
    by.filter(|_| clicked.inner)
}

/// A small button that does something to one of several things; `name` is what it is called with that
/// thing.
pub(super) fn small_button(ui: &mut Ui, text: String, name: &str) -> bool {
    let button = ui.small_button(text);
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, name));
    button.on_hover_text(name).clicked()
}
