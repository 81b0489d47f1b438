//! The bar at the top: the views by name, and what would be undone.

use super::{Stage, View};
use crate::action::{Action, Command};
use crate::look::{Theme, bold, size};
use egui::{Button, FontId, Frame, Margin, Panel, RichText, Stroke, Ui, vec2};
use traywright_core::drawing::Ink;

/// Shows the bar.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let theme = Theme::of(ui);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(Margin::symmetric(20, 6));
    Panel::top("top").frame(frame).show(ui, |ui| {
        let two_rows = ui.available_width() < ONE_ROW;
        ui.horizontal(|ui| {
            let name =
                RichText::new(stage.word("window-name")).font(FontId::new(size::HEADING, bold()));
            let start = ui.add(Button::new(name).frame(false).min_size(vec2(0.0, 32.0)));
            if start.clicked() {
                stage.act(Action::Do(Command::Show(View::Start)));
            }
            ui.add_space(12.0);
            if !two_rows {
                tabs(ui, stage);
            }
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                command_button(ui, stage, Command::Help);
                command_button(ui, stage, Command::Mode);
                command_button(ui, stage, Command::Save);
                history(ui, stage);
            });
        });
        if two_rows {
            ui.horizontal(|ui| tabs(ui, stage));
        }
    });
}

/// With less room than this the views stand in a row of their own, points: all of them, the commands
/// and what would be undone, so short that it can still be read.
const ONE_ROW: f32 = 860.0;

fn tabs(ui: &mut Ui, stage: &mut Stage<'_>) {
    for view in View::ALL.into_iter().skip(1) {
        tab(ui, stage, view);
    }
}

fn tab(ui: &mut Ui, stage: &mut Stage<'_>, view: View) {
    let command = Command::Show(view);
    let theme = Theme::of(ui);
    let here = stage.sight.view == view && stage.document().is_some();
    let why_not = command.why_not(stage.desk);
    let ink = if here { Ink::Strong } else { Ink::Soft };
    let mut text = RichText::new(stage.word(view.text_id())).color(theme.fill(ink));
    if here {
        text = text.font(FontId::new(size::BODY, bold()));
    }
    let button = Button::new(text).frame(false).min_size(vec2(0.0, 32.0));
    let response = ui.add_enabled(why_not.is_none(), button);
    if here {
        let rect = response.rect;
        let accent = Stroke::new(2.5, theme.fill(Ink::Accent));
        ui.painter()
            .hline(rect.x_range(), rect.bottom() - 1.0, accent);
    }
    let key = ui.ctx().format_shortcut(&command.key());
    let told = why_not.map_or(key, |why| stage.word(why));
    if response
        .on_hover_text(&told)
        .on_disabled_hover_text(told)
        .clicked()
    {
        stage.act(Action::Do(command));
    }
}

/// A button for a command, with its key, or why it cannot be done.
pub(super) fn command_button(ui: &mut Ui, stage: &mut Stage<'_>, command: Command) {
    let why_not = command.why_not(stage.desk);
    let button = Button::new(stage.word(command.text_id())).frame(false);
    let response = ui.add_enabled(why_not.is_none(), button);
    let key = ui.ctx().format_shortcut(&command.key());
    let told = why_not.map_or(key, |why| stage.word(why));
    if response
        .on_hover_text(&told)
        .on_disabled_hover_text(told)
        .clicked()
    {
        stage.act(Action::Do(command));
    }
}

/// What would be undone and done again, by name.
fn history(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    for (command, id, name) in [
        (Command::Redo, "window-redo", document.redo_name()),
        (Command::Undo, "window-undo", document.undo_name()),
    ] {
        let Some(name) = name else { continue };
        let key = ui.ctx().format_shortcut(&command.key());
        let text = stage.text(id, &[("name", name), ("key", &key)]);
        let soft = Theme::of(ui).fill(Ink::Soft);
        let short = RichText::new(&text).color(soft).size(size::CAPTION);
        let button = Button::new(short).frame(false).truncate();
        let width = (ui.available_width() * 0.5).min(280.0);
        let response = ui.add_sized(vec2(width, 26.0), button).on_hover_text(&text);
        if response.clicked() {
            stage.act(Action::Do(command));
        }
    }
}
