//! The field for a path, with what lies in its folder offered beneath: it needs no dialog of the system.

use super::file::is_entered;
use crate::action::{CaretTo, PathField};
use crate::context::ViewContext;
use crate::look::{Font, Theme, aside, row};
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Align2, Id, Key, Modifiers, ScrollArea, Sense, TextEdit, Ui, vec2};
use std::path::MAIN_SEPARATOR;
use traywright_core::document::clipped;
use traywright_core::drawing::Ink;
use traywright_core::store::FolderEntry;

/// Height of an offered name, points.
const ROW: f32 = 24.0;
/// Offered names that are seen at once.
const SEEN: f32 = 6.0;

/// Shows the field and the names that go on from what is typed. Gives back whether the path was entered.
pub(super) fn ui(ui: &mut Ui, cx: &ViewContext<'_>, ending: &str, path: &mut PathField) -> bool {
    let named = ui.label(cx.word("ask-path")).id;
    let id = Id::unique("ask path");
    let offered = offered(cx, ending, path);
    let down = |ui: &Ui| {
        ui.memory(|memory| memory.has_focus(id))
            && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::ArrowDown))
    };
    if !offered.is_empty() && down(ui) {
        (path.row, path.to_row) = (0, true);
    }
    let before = path.text.clone();
    let field = TextEdit::singleline(&mut path.text).id(id);
    let field = ui
        .add(field.desired_width(f32::INFINITY))
        .labelled_by(named);
    if path.text != before {
        (path.row, path.to_row) = (0, false);
    }
    match path.caret {
        Some(caret) if field.has_focus() => {
            put_caret(ui, id, path, caret);
            path.caret = None;
        }
        Some(_) => field.request_focus(),
        None => {}
    }
    list(ui, cx, &offered, path);
    is_entered(ui, &field)
}

/// What lies in the folder and goes on from the name that was begun: folders, and files of this ending. What is
/// hidden is offered once its dot is typed.
fn offered(cx: &ViewContext<'_>, ending: &str, path: &PathField) -> Vec<FolderEntry> {
    let names = &cx.desk.names;
    let is_there = names.folder() == Some(&*path.folder());
    let Some(Ok(all)) = names.found().filter(|_| is_there) else {
        return Vec::new();
    };
    let begun = path.parts().1.to_lowercase();
    let mut offered: Vec<FolderEntry> = all
        .iter()
        .filter(|entry| {
            let file = std::path::Path::new(&entry.name);
            let fits = file
                .extension()
                .is_some_and(|of| of.eq_ignore_ascii_case(ending));
            let hidden = entry.name.starts_with('.') && !begun.starts_with('.');
            (entry.is_folder || fits) && !hidden && entry.name.to_lowercase().starts_with(&begun)
        })
        .cloned()
        .collect();
    if let [only] = &*offered
        && only.name == path.parts().1
        && !only.is_folder
    {
        offered.clear();
    }
    offered
}

fn list(ui: &mut Ui, cx: &ViewContext<'_>, offered: &[FolderEntry], path: &mut PathField) {
    if let Some(Err(error)) = cx.desk.names.found() {
        return aside(ui, crate::desk::refused_by_disk(error).0);
    }
    if offered.is_empty() {
        return;
    }
    let id_of = |entry: &FolderEntry| Id::unique(("offered", &entry.name));
    let mut at = path.row.min(offered.len() - 1);
    let focused = ui.memory(|memory| memory.has_focus(id_of(&offered[at])));
    if focused && let Some(to) = row::arrows(ui, Some(at), offered.len()) {
        row::stay(ui);
        at = to;
        (path.row, path.to_row) = (to, true);
    }
    let takes = focused && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
    let mut taken = takes.then_some(at);
    let area = ScrollArea::vertical()
        .id_salt("offered")
        .max_height(ROW * SEEN)
        .auto_shrink([false, true]);
    area.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (index, entry) in offered.iter().enumerate() {
            let name = clipped(&entry.name);
            let said = if entry.is_folder {
                format!("{name}{MAIN_SEPARATOR}")
            } else {
                name
            };
            let is_chosen = index == at;
            let to_it = (is_chosen, is_chosen && path.to_row);
            let (rect, response) = row::row(ui, (ROW, id_of(entry)), Sense::CLICK, to_it, &said);
            if response.clicked() {
                taken = Some(index);
            }
            if !ui.is_rect_visible(rect) {
                continue;
            }
            row::ground(ui, rect, 3.0, is_chosen && response.has_focus(), &response);
            let ink = Theme::of(ui).fill(Ink::Strong);
            let place = rect.left_center() + vec2(8.0, 0.0);
            let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
            painter.text(place, Align2::LEFT_CENTER, said, Font::Body.id(), ink);
        }
    });
    path.to_row = false;
    if let Some(entry) = taken.and_then(|index| offered.get(index)) {
        let end = if entry.is_folder {
            MAIN_SEPARATOR.to_string()
        } else {
            String::new()
        };
        let text = format!("{}{}{end}", path.parts().0, entry.name);
        path.put(text);
    }
}

/// Puts the caret at the end of the text, or selects the name behind its folder.
fn put_caret(ui: &Ui, id: Id, path: &PathField, caret: CaretTo) {
    let (folder, _) = path.parts();
    let [folder, all] = [folder, &path.text].map(|part| CCursor::new(part.chars().count()));
    let from = match caret {
        CaretTo::Name => folder,
        CaretTo::End => all,
    };
    let mut state = TextEditState::default();
    state
        .cursor
        .set_char_range(Some(CCursorRange::two(from, all)));
    state.store(ui.ctx(), id);
}
