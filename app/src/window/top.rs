//! The bar at the top: the views by name, and what would be undone.

use crate::action::View;
use crate::action::{Action, Command};
use crate::context::ViewContext;
use crate::look::{Font, Theme};
use egui::{Button, Frame, Margin, Panel, Response, RichText, Stroke, Ui, vec2};
use traywright_core::drawing::Ink;

/// Shows the bar.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let theme = Theme::of(ui);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(Margin::symmetric(20, 6));
    Panel::top("top").frame(frame).show(ui, |ui| {
        let two_rows = ui.available_width() < ONE_ROW;
        ui.horizontal(|ui| {
            let name = Font::Heading.text(cx.word("window-name"));
            let start = ui.add(Button::new(name).frame(false).min_size(vec2(0.0, 32.0)));
            if start.clicked() {
                cx.act(Action::Do(Command::Show(View::Start)));
            }
            ui.add_space(12.0);
            if !two_rows {
                tabs(ui, cx);
            }
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                command_button(ui, cx, Command::Help);
                command_button(ui, cx, Command::Mode);
                command_button(ui, cx, Command::Save);
                history(ui, cx);
            });
        });
        if two_rows {
            ui.horizontal(|ui| tabs(ui, cx));
        }
    });
}

/// With less room than this the views have a row of their own, points: all of them, the commands
/// and what would be undone, so short that it can still be read.
const ONE_ROW: f32 = 920.0;

fn tabs(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    for view in View::ALL.into_iter().skip(1) {
        tab(ui, cx, view);
    }
}

fn tab(ui: &mut Ui, cx: &mut ViewContext<'_>, view: View) {
    let command = Command::Show(view);
    let theme = Theme::of(ui);
    let here = cx.state.view == view && cx.document().is_some();
    let why_not = command.why_not(cx.desk);
    let ink = if here { Ink::Strong } else { Ink::Soft };
    let mut text = RichText::new(cx.word(view.text_id())).color(theme.fill(ink));
    if here {
        text = text.font(Font::StrongBody.id());
    }
    let button = Button::new(text).frame(false).min_size(vec2(0.0, 32.0));
    let response = ui.add_enabled(why_not.is_none(), button);
    if here {
        let rect = response.rect;
        let accent = Stroke::new(2.5, theme.fill(Ink::Accent));
        ui.painter()
            .hline(rect.x_range(), rect.bottom() - 1.0, accent);
    }
    act_on(ui, cx, command, response);
}

/// A button for a command, with its key, or why it cannot be done.
pub(super) fn command_button(ui: &mut Ui, cx: &mut ViewContext<'_>, command: Command) {
    let why_not = command.why_not(cx.desk);
    let button = Button::new(cx.word(command.text_id())).frame(false);
    let response = ui.add_enabled(why_not.is_none(), button);
    act_on(ui, cx, command, response);
}

/// Does a command whose button was clicked, and tells its key there, or why it cannot be done.
fn act_on(ui: &Ui, cx: &mut ViewContext<'_>, command: Command, button: Response) {
    let key = ui.ctx().format_shortcut(&command.key());
    let told = command.why_not(cx.desk).map_or(key, |why| cx.word(why));
    if button
        .on_hover_text(&told)
        .on_disabled_hover_text(told)
        .clicked()
    {
        cx.act(Action::Do(command));
    }
}

/// The commands to undo and redo, by the names of their steps.
fn history(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    // What was typed and is not in the case is taken back first.
    let typed = cx.state.drafts.not_taken().pop();
    let typed = typed.map(|last| cx.text("window-typed", &[("text", &last.text)]));
    let redone = document.redo_name().filter(|_| typed.is_none());
    for (command, id, name) in [
        (Command::Redo, "window-redo", redone),
        (
            Command::Undo,
            "window-undo",
            typed.as_deref().or(document.undo_name()),
        ),
    ] {
        let Some(name) = name else { continue };
        let key = ui.ctx().format_shortcut(&command.key());
        let text = cx.text(id, &[("name", name), ("key", &key)]);
        let soft = Theme::of(ui).fill(Ink::Soft);
        let short = Font::Caption.text(&text).color(soft);
        let button = Button::new(short).frame(false).truncate();
        let width = (ui.available_width() * 0.5).min(280.0);
        let response = ui.add_sized(vec2(width, 26.0), button).on_hover_text(&text);
        if response.clicked() {
            cx.act(Action::Do(command));
        }
    }
}
