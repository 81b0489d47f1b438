//! Words by their weight: headings, asides, captions.

use super::{Theme, bold, size};
use egui::{FontId, Label, RichText, Ui};
use traywright_core::drawing::Ink;

/// A heading within a view.
pub fn heading(ui: &mut Ui, text: impl Into<String>) {
    ui.label(RichText::new(text).font(FontId::new(size::HEADING, bold())));
}

/// The same over a part that stands below another.
pub fn part_heading(ui: &mut Ui, text: impl Into<String>) {
    ui.add_space(6.0);
    heading(ui, text);
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
    ui.add(Label::new(RichText::new(text).color(soft).size(12.5)).wrap());
}

/// Small words of lesser weight.
pub fn caption(ui: &mut Ui, text: impl Into<String>) {
    ui.label(RichText::new(text).size(size::CAPTION).weak());
}

/// Words about something that is wrong.
pub fn fault(ui: &mut Ui, text: impl Into<String>) {
    let colour = Theme::of(ui).fault();
    ui.add(Label::new(RichText::new(text).color(colour)).wrap());
}
