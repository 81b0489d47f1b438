//! Fields for a choice among a few or many.

use super::{Drafts, New, fault_ui};
use egui::{ComboBox, Id, Ui, WidgetInfo};

/// A field for a choice that may be left open, which is then shown as `open`. Gives the new choice
/// when one was made.
pub fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    drafts: &Drafts,
    key: &str,
    label: &str,
    open: &str,
    value: Option<&T>,
    offered: &[(T, String)],
) -> Option<New<Option<T>>> {
    let shown = value.map_or(open, |value| {
        let found = offered.iter().find(|(other, _)| other == value);
        found.map_or(open, |(_, name)| name.as_str())
    });
    let mut picked = None;
    let width = ui.available_width().min(260.0);
    let response = ComboBox::from_id_salt(Id::unique(("field", key)))
        .selected_text(shown)
        .width(width)
        .truncate()
        .show_ui(ui, |ui| {
            if ui.selectable_label(value.is_none(), open).clicked() {
                picked = Some(None);
            }
            for (one, name) in offered {
                if ui.selectable_label(value == Some(one), name).clicked() {
                    picked = Some(Some(one.clone()));
                }
            }
        })
        .response;
    name_it(&response, label, shown);
    if picked.is_some() {
        // The list is gone; the keyboard goes on from here.
        response.request_focus();
    }
    fault_ui(ui, drafts, key);
    picked
        .filter(|picked: &Option<T>| picked.as_ref() != value)
        .map(New)
}

/// A field for a choice that is always made. Gives the new choice.
pub fn choice_known<T: PartialEq + Clone>(
    ui: &mut Ui,
    drafts: &Drafts,
    key: &str,
    label: &str,
    value: &T,
    offered: &[(T, String)],
) -> Option<T> {
    let found = offered.iter().find(|(other, _)| other == value);
    let shown = found.map_or("", |(_, name)| name.as_str());
    let mut picked = None;
    let width = ui.available_width().min(260.0);
    let response = ComboBox::from_id_salt(Id::unique(("field", key)))
        .selected_text(shown)
        .width(width)
        .truncate()
        .show_ui(ui, |ui| {
            for (one, name) in offered {
                if ui.selectable_label(value == one, name).clicked() {
                    picked = Some(one.clone());
                }
            }
        })
        .response;
    name_it(&response, label, shown);
    if picked.is_some() {
        response.request_focus();
    }
    fault_ui(ui, drafts, key);
    picked.filter(|picked| picked != value)
}

/// Names a combo box for the screen reader: its label, and what is chosen.
fn name_it(response: &egui::Response, label: &str, shown: &str) {
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(egui::Role::ComboBox, true, label);
        info.current_text_value = Some(shown.to_owned());
        info
    });
}
