//! The cases of the folder that was worked in last: looked for by words, opened by a press.

use super::State;
use crate::action::Action;
use crate::context::ViewContext;
use crate::desk::listed;
use crate::look::{Font, Theme, aside, heading, row};
use egui::{Align2, Id, Key, Modifiers, ScrollArea, Sense, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::store::{ListedCase, shown};

/// Height of a row, points.
const ROW: f32 = 40.0;
/// Rows that are seen at once.
const SEEN: f32 = 9.0;
/// Least number of cases among which one is looked for by words.
const MANY: usize = 6;

/// Shows the folder; nothing where no case was open yet.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, own: &mut State) {
    let desk = cx.desk;
    let Some(folder) = desk.beside.folder() else {
        return;
    };
    let folder = shown(folder);
    ui.add_space(12.0);
    let cases = match desk.beside.found() {
        None => return aside(ui, cx.word("start-beside-reading")),
        Some(Err(error)) => return aside(ui, crate::desk::refused_by_disk(error).0),
        Some(Ok(cases)) => cases,
    };
    heading(ui, cx.text("start-beside", &[("folder", &folder)]));
    if cases.is_empty() {
        return aside(ui, cx.text("listed-none", &[("folder", &folder)]));
    }
    if cases.len() >= MANY {
        ui.horizontal(|ui| {
            let named = ui.label(cx.word("start-find")).id;
            ui.text_edit_singleline(&mut own.find).labelled_by(named);
        });
        ui.add_space(4.0);
    } else {
        own.find.clear();
    }
    let notation = desk.settings.notation;
    let find = own.find.to_lowercase();
    let told = cases
        .iter()
        .map(|case| (case, listed(case, notation, desk.texts)));
    let shown: Vec<(&ListedCase, (String, String))> = told
        .filter(|(_, (name, told))| {
            let all = format!("{name} {told}").to_lowercase();
            find.split_whitespace().all(|word| all.contains(word))
        })
        .collect();
    if shown.is_empty() {
        let count = [("count", cases.len())];
        return aside(ui, cx.counted("start-beside-none-found", &count, &[]));
    }
    list(ui, cx, own, &shown);
}

/// The rows: those that are in sight are drawn.
fn list(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    own: &mut State,
    shown: &[(&ListedCase, (String, String))],
) {
    // One row is always reached by Tab.
    let at = shown
        .iter()
        .position(|(case, _)| own.chosen.as_ref() == Some(&case.file));
    let mut at = at.unwrap_or_default();
    let focused = ui.memory(|memory| memory.has_focus(id_of(shown[at].0)));
    if focused && let Some(to) = row::arrows(ui, Some(at), shown.len()) {
        row::stay(ui);
        (at, own.to_row) = (to, true);
        own.chosen = Some(shown[to].0.file.clone());
    }
    let opens = focused && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
    let area = ScrollArea::vertical()
        .id_salt("cases beside")
        .max_height(ROW * SEEN)
        .auto_shrink([false, true]);
    area.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (index, (case, (name, told))) in shown.iter().enumerate() {
            let is_chosen = index == at;
            let said = format!("{name}: {told}");
            let to_it = (is_chosen, is_chosen && own.to_row);
            let (rect, response) = row::row(ui, (ROW, id_of(case)), Sense::CLICK, to_it, &said);
            if response.clicked() || (is_chosen && opens) {
                let action = cx.state.guarded(cx.desk, Action::Open(case.file.clone()));
                cx.act(action);
            }
            if !ui.is_rect_visible(rect) {
                continue;
            }
            row::ground(ui, rect, 3.0, is_chosen && response.has_focus(), &response);
            let theme = Theme::of(ui);
            let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
            let strong = theme.fill(Ink::Strong);
            let at = rect.min + vec2(8.0, 4.0);
            painter.text(at, Align2::LEFT_TOP, name, Font::StrongLine.id(), strong);
            let at = rect.min + vec2(8.0, 22.0);
            let soft = theme.fill(Ink::Soft);
            painter.text(at, Align2::LEFT_TOP, told, Font::Caption.id(), soft);
        }
    });
    own.to_row = false;
}

fn id_of(case: &ListedCase) -> Id {
    Id::unique(("case beside", &case.file))
}
