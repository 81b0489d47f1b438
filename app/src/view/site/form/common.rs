//! The common parts of the form.

use crate::canvas::mark;
use crate::field::{self, Bounds, New};
use crate::look::{Theme, bold, size};
use crate::view::site::here::Here;
use crate::window::ViewContext;
use egui::{FontId, Rect, RichText, Sense, Ui, WidgetInfo, vec2};
use traywright_core::case::MeasuredAt;
use traywright_core::measure::Length;
use traywright_core::plan::Severity;

/// The title of a part.
pub(super) fn title(ui: &mut Ui, text: &str) {
    ui.add_space(8.0);
    ui.label(RichText::new(text).font(FontId::new(size::BODY, bold())));
}

/// A row with a length that may be unknown, or must not be; the new one when one was taken.
pub(super) fn length(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    (label, field): (&str, &str),
    value: Option<Length>,
    bounds: Bounds<Length>,
) -> Option<New<Option<Length>>> {
    let key = here.key(field);
    field::row(ui, label, |ui, named| {
        field::length(ui, &mut cx.state.drafts, &key, named, value, bounds)
    })
}

/// The same for one of several things that have such a field: `of` is the thing in words, which the
/// field's name begins with.
pub(super) fn length_of(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    of: &str,
    (label, field): (&str, &str),
    value: Option<Length>,
    bounds: Bounds<Length>,
) -> Option<New<Option<Length>>> {
    let key = here.key(field);
    let name = field_of(cx, of, label);
    field::row(ui, label, |ui, _| {
        let named = field::unseen_name(ui, &key, &name);
        field::length(ui, &mut cx.state.drafts, &key, named, value, bounds)
    })
}

/// The name of a field of one of several things.
pub(super) fn field_of(cx: &ViewContext<'_>, of: &str, label: &str) -> String {
    cx.text("site-field-of", &[("what", of), ("field", label)])
}

/// A row with a choice that is always made, for one of several things; the new one when one was
/// made.
pub(super) fn pick_of<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    here: &Here<'_>,
    of: &str,
    (label, field): (&str, &str),
    value: &T,
    offered: &[(T, String)],
) -> Option<T> {
    let label = cx.word(label);
    let name = field_of(cx, of, &label);
    field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, &here.key(field), &name, value, offered)
    })
}

/// A row with a choice that is always made; the new one when one was made.
pub(super) fn pick<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    here: &Here<'_>,
    (label, field): (&str, &str),
    value: &T,
    offered: &[(T, String)],
) -> Option<T> {
    let label = cx.word(label);
    field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, &here.key(field), &label, value, offered)
    })
}

/// A row with a choice that may be open; `texts` are its label, its field and what open is called.
pub(in crate::view::site) fn pick_open<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    here: &Here<'_>,
    (label, field, open): (&str, &str, &str),
    value: Option<&T>,
    offered: &[(T, String)],
) -> Option<New<Option<T>>> {
    let (label, open) = (cx.word(label), cx.word(open));
    field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice(ui, drafts, &here.key(field), &label, &open, value, offered)
    })
}

/// Says that a value was measured before the site was moved; whether it was confirmed as still
/// true. `what` is the value in words.
pub(super) fn stale(ui: &mut Ui, cx: &ViewContext<'_>, what: &str) -> bool {
    let colour = Theme::of(ui).fault();
    ui.horizontal_wrapped(|ui| {
        let (square, _) = ui.allocate_exact_size(vec2(14.0, 16.0), Sense::hover());
        let square = Rect::from_center_size(square.center(), vec2(13.0, 13.0));
        mark(ui, square, Severity::Unknown);
        let text = RichText::new(cx.word("site-stale"));
        ui.label(text.size(size::CAPTION).color(colour));
        let confirm = ui.small_button(cx.word("site-stale-confirm"));
        let name = cx.text("site-stale-confirm-what", &[("what", what)]);
        confirm.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, name.clone()));
        confirm.on_hover_text(&name).clicked()
    })
    .inner
}

/// A row with how far below the platform a value was measured, for those that depend on it; what it
/// was then measured at, when that was changed. `what` is the value in words.
pub(super) fn down_to(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    (what, field): (&str, &str),
    then: MeasuredAt,
) -> Option<MeasuredAt> {
    let label = cx.text("site-down-to", &[("what", what)]);
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(80));
    let new = length(ui, cx, here, (&label, field), then.down_to_mm, bounds);
    new.map(|New(down_to_mm)| MeasuredAt { down_to_mm, ..then })
}

/// A button that takes something away; `what` is it in words.
pub(super) fn remove(ui: &mut Ui, cx: &ViewContext<'_>, what: &str) -> bool {
    let button = ui.small_button(cx.word("site-remove"));
    let name = cx.text("site-remove-what", &[("what", what)]);
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, name.clone()));
    button.on_hover_text(&name).clicked()
}

/// Words about what is still to be entered.
pub(super) fn hint(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).size(size::CAPTION).weak());
}
