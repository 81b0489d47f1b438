//! Fields for a choice among a few or many.

use super::{Drafts, New, fault_ui};
use egui::{ComboBox, FocusDirection, Id, Key, Modifiers, Response, Ui, WidgetInfo};

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
    let found = value.and_then(|value| offered.iter().position(|(other, _)| other == value));
    let names = std::iter::once(open).chain(offered.iter().map(|(_, name)| name.as_str()));
    let at = match (value, found) {
        (None, _) => Some(0),
        (Some(_), found) => found.map(|found| found + 1),
    };
    let shown = found.map_or(open, |found| offered[found].1.as_str());
    let picked = list(ui, drafts, key, (label, shown), at, names)?;
    let picked = picked
        .checked_sub(1)
        .map(|picked| offered[picked].0.clone());
    (picked.as_ref() != value).then_some(New(picked))
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
    let at = offered.iter().position(|(other, _)| other == value);
    let shown = at.map_or("", |at| offered[at].1.as_str());
    let names = offered.iter().map(|(_, name)| name.as_str());
    let picked = list(ui, drafts, key, (label, shown), at, names)?;
    let picked = offered[picked].0.clone();
    (picked != *value).then_some(picked)
}

/// The box with its list; the place of the entry that was chosen, when one was. With the keyboard
/// the list begins at the current entry, and choosing an entry closes it.
fn list<'n>(
    ui: &mut Ui,
    drafts: &Drafts,
    key: &str,
    (label, shown): (&str, &str),
    at: Option<usize>,
    names: impl Iterator<Item = &'n str>,
) -> Option<usize> {
    let salt = Id::unique(("field", key));
    let was_open = Id::unique(("field open", key));
    let cursor = Id::unique(("field cursor", key));
    let opened = !ui.data(|data| data.get_temp(was_open).unwrap_or(false));
    let mut is_open = false;
    let mut picked = None;
    let width = ui.available_width().min(260.0);
    let response = ComboBox::from_id_salt(salt)
        .selected_text(shown)
        .width(width)
        .wrap()
        .show_ui(ui, |ui| {
            is_open = true;
            let entries: Vec<Response> = names
                .enumerate()
                .map(|(n, name)| ui.selectable_label(at == Some(n), name))
                .collect();
            if opened && let Some(entry) = entries.get(at.unwrap_or(0)) {
                ui.data_mut(|data| data.insert_temp(cursor, at.unwrap_or(0)));
                look_at(entry);
            } else {
                by_arrows(ui, &entries, cursor);
            }
            picked = entries.iter().position(Response::clicked);
            if picked.is_some() {
                ui.close();
            }
        })
        .response;
    drafts.follow_lead(key, &response);
    name_it(&response, label, shown);
    let escaped = is_open && pressed(ui, Key::Escape);
    ui.data_mut(|data| data.insert_temp(was_open, is_open && picked.is_none() && !escaped));
    if picked.is_some() || escaped {
        // The list is gone; the keyboard goes on from here.
        response.request_focus();
    }
    fault_ui(ui, drafts, key);
    picked
}

/// Moves within the list, which the arrows do not leave, from where they left it: a list that was opened by the
/// pointer loses the keyboard's focus as the button goes up.
fn by_arrows(ui: &Ui, entries: &[Response], cursor: Id) {
    let keep = |at: usize| ui.data_mut(|data| data.insert_temp(cursor, at));
    let now = ui.data(|data| data.get_temp::<usize>(cursor)).unwrap_or(0);
    let next = if pressed(ui, Key::ArrowDown) {
        now + 1
    } else if pressed(ui, Key::ArrowUp) {
        now.saturating_sub(1)
    } else {
        if let Some(focused) = entries.iter().position(Response::has_focus) {
            keep(focused);
        }
        return;
    };
    let Some(entry) = entries.get(next.min(entries.len().saturating_sub(1))) else {
        return;
    };
    keep(next.min(entries.len() - 1));
    // What lies behind the list may be nearer than its next entry.
    ui.memory_mut(|memory| memory.move_focus(FocusDirection::None));
    look_at(entry);
}

fn look_at(entry: &Response) {
    entry.request_focus();
    entry.scroll_to_me(None);
}

fn pressed(ui: &Ui, key: Key) -> bool {
    ui.input_mut(|input| input.consume_key(Modifiers::NONE, key))
}

/// Names a combo box for the screen reader: its label, and what is chosen.
fn name_it(response: &egui::Response, label: &str, shown: &str) {
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(egui::Role::ComboBox, true, label);
        info.current_text_value = Some(shown.to_owned());
        info
    });
}
