//! Words by their weight: headings, asides, captions.

use super::{Font, Theme};
use egui::{Label, RichText, Ui};
use traywright_core::drawing::Ink;

/// A heading within a view.
pub fn heading(ui: &mut Ui, text: impl Into<String>) {
    ui.label(Font::Heading.text(text));
}

/// The same over a part that stands below another.
pub fn part_heading(ui: &mut Ui, text: impl Into<String>) {
    ui.add_space(6.0);
    heading(ui, text);
}

/// The title of a part that stands within running text.
pub fn part_title(ui: &mut Ui, text: impl Into<String>) {
    ui.label(Font::StrongBody.text(text));
}

/// Running text.
pub fn words(ui: &mut Ui, text: impl Into<String>) {
    ui.add(Label::new(RichText::new(text)).wrap());
}

/// Words of lesser weight.
pub fn aside(ui: &mut Ui, text: impl Into<String>) {
    let soft = Theme::of(ui).fill(Ink::Soft);
    ui.add(Label::new(RichText::new(text).color(soft)).wrap());
}

/// Words that explain.
pub fn remark(ui: &mut Ui, text: impl Into<String>) {
    let soft = Theme::of(ui).fill(Ink::Soft);
    ui.add(Label::new(Font::Remark.text(text).color(soft)).wrap());
}

/// Room for so many lines of explaining words, taken whether they are there or not: what stands below does not
/// move under the pointer when they come.
pub fn reserved<R>(ui: &mut Ui, lines: u8, add: impl FnOnce(&mut Ui) -> R) -> R {
    let height = Font::Remark.id().size * 1.3;
    kept(ui, f32::from(lines) * height, add)
}

/// The same for rows of a form.
pub fn reserved_rows<R>(ui: &mut Ui, rows: u8, add: impl FnOnce(&mut Ui) -> R) -> R {
    let (text, gap) = (
        ui.text_style_height(&egui::TextStyle::Body),
        ui.spacing().item_spacing.y,
    );
    let field = (text + 2.0 * ui.spacing().button_padding.y).max(ui.spacing().interact_size.y);
    kept(ui, f32::from(rows) * (field.ceil() + gap) - gap, add)
}

fn kept<R>(ui: &mut Ui, height: f32, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.vertical(|ui| {
        ui.set_min_height(height);
        add(ui)
    })
    .inner
}

/// Small words of lesser weight.
pub fn caption(ui: &mut Ui, text: impl Into<String>) {
    ui.label(Font::Caption.text(text).weak());
}

/// Words about something that is wrong.
pub fn fault(ui: &mut Ui, text: impl Into<String>) {
    let colour = Theme::of(ui).fault();
    ui.add(Label::new(RichText::new(text).color(colour)).wrap());
}
