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

/// Small words of lesser weight.
pub fn caption(ui: &mut Ui, text: impl Into<String>) {
    ui.label(Font::Caption.text(text).weak());
}

/// Words about something that is wrong.
pub fn fault(ui: &mut Ui, text: impl Into<String>) {
    let colour = Theme::of(ui).fault();
    ui.add(Label::new(RichText::new(text).color(colour)).wrap());
}
