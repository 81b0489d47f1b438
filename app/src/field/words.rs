//! Fields for words.

use super::{Drafts, Named, New, fault_ui, field_id};
use egui::{Key, TextEdit, Ui};
use traywright_core::kit::Label;

/// A field for a name or code that may be left out. Gives the new value when one was taken.
pub fn label(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: Option<&Label>,
) -> Option<New<Option<Label>>> {
    let taken = text(ui, drafts, key, named, value.map_or("", Label::as_str))?;
    let trimmed = taken.trim();
    Some(New((!trimmed.is_empty()).then(|| Label::from(trimmed))))
}

/// A field for words on one line. Gives them when they were taken.
pub fn text(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: &str,
) -> Option<String> {
    let width = ui.available_width().min(260.0);
    wide_text(ui, drafts, key, named, value, width)
}

/// The same, as wide as is asked for.
pub fn wide_text(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: &str,
    width: f32,
) -> Option<String> {
    let mut words = drafts.draft(key).unwrap_or(value).to_owned();
    let edit = TextEdit::singleline(&mut words)
        .id(field_id(key))
        .desired_width(width);
    let response = ui.add(edit).labelled_by(named.id);
    drafts.follow_lead(key, &response);
    if response.changed() {
        drafts.keep_value(key, named, words.clone());
    }
    let mut taken = None;
    if response.lost_focus() {
        if ui.input(|input| input.key_pressed(Key::Escape)) || words == value {
            drafts.settle(key);
        } else {
            taken = Some(words);
        }
    }
    fault_ui(ui, drafts, key);
    taken
}

/// A label and below it a field for words on one line that are kept as they are typed, `first` to
/// begin with. Gives them.
pub fn kept_text(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    label: String,
    first: &str,
    width: f32,
) -> String {
    let named = ui.label(label).id;
    let mut words = drafts.draft(key).unwrap_or(first).to_owned();
    let edit = TextEdit::singleline(&mut words)
        .id(field_id(key))
        .desired_width(width);
    if ui.add(edit).labelled_by(named).changed() {
        drafts.keep(key, words.clone());
    }
    words
}
