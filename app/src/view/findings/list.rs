//! The list: one row a finding, grouped by severity, worked by the arrow keys.

use super::cached::{CachedFindings, Row};
use super::filter::SEVERITIES;
use super::{ClearFindings, Focus, lead};
use crate::canvas::mark;
use crate::look::{Font, Theme, part_heading, row};
use crate::view::findings::Context;
use egui::{Event, Id, Key, Modifiers, Rect, Sense, Ui, pos2, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::{Finding, Severity};

/// Room on the left of a row's words, for its mark, points.
const INDENT: f32 = 30.0;

/// Shows the rows.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedFindings, rows: &[usize]) {
    let document = cx.document;
    if rows.is_empty() {
        ui.label(cx.word("findings-none"));
        return;
    }
    let findings = &document.worksheet().findings;
    let groups = SEVERITIES.map(|severity| {
        let of = |n: &&usize| findings[**n].severity() == severity;
        let of_it: Vec<usize> = rows.iter().filter(of).copied().collect();
        (severity, of_it)
    });
    let counted = |severity| severity == Severity::Clear && cx.own.clear == ClearFindings::Counted;
    let listed: Vec<usize> = groups
        .iter()
        .filter(|(severity, _)| !counted(*severity))
        .flat_map(|(_, of_it)| of_it.iter().copied())
        .collect();
    keys(ui, cx, told, &listed, findings);
    for (severity, of_it) in &groups {
        if of_it.is_empty() {
            continue;
        }
        group_heading(ui, cx, *severity, of_it.len());
        if counted_now(cx, *severity) {
            continue;
        }
        for n in of_it {
            row_ui(ui, cx, &findings[*n], &told.rows[*n]);
        }
    }
}

fn counted_now(cx: &Context<'_>, severity: Severity) -> bool {
    severity == Severity::Clear && cx.own.clear == ClearFindings::Counted
}

fn group_heading(ui: &mut Ui, cx: &mut Context<'_>, severity: Severity, count: usize) {
    let word = cx.word(severity.text_id());
    let text = cx.counted("findings-group", &[("count", count)], &[("word", &word)]);
    if severity != Severity::Clear {
        part_heading(ui, traywright_core::wording::begin(&text));
        return;
    }
    ui.horizontal(|ui| {
        part_heading(ui, traywright_core::wording::begin(&text));
        let (id, then) = match cx.own.clear {
            ClearFindings::Counted => ("findings-list-clear", ClearFindings::Listed),
            ClearFindings::Listed => ("findings-count-clear", ClearFindings::Counted),
        };
        if ui.button(cx.word(id)).clicked() {
            cx.own.clear = then;
        }
    });
}

/// Arrows go through the rows, Enter to the place, A to the reason; not while words are typed.
fn keys(
    ui: &Ui,
    cx: &mut Context<'_>,
    told: &CachedFindings,
    listed: &[usize],
    findings: &[Finding],
) {
    if ui.ctx().text_edit_focused() || cx.state.ask.is_some() {
        return;
    }
    let on_row = |key: &String| ui.memory(|memory| memory.has_focus(id_of(key)));
    let state = &cx.own;
    let at = listed
        .iter()
        .position(|n| state.chosen.as_ref() == Some(&told.rows[*n].key));
    let here = state.chosen.as_ref().is_some_and(on_row);
    let nowhere = ui.memory(|memory| memory.focused().is_none());
    if !here && !nowhere {
        return;
    }
    if let Some(to) = row::arrows(ui, at, listed.len()) {
        cx.own.chosen = Some(told.rows[listed[to]].key.clone());
        cx.own.focus = Some(Focus::Row);
        row::stay(ui);
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let Some(finding) = at.map(|at| &findings[listed[at]]) else {
        return;
    };
    if pressed(Key::Enter) {
        lead::go(cx, finding);
    } else if pressed(Key::A) {
        // The letter itself is not to be typed into the reason.
        ui.input_mut(|input| {
            input
                .events
                .retain(|event| !matches!(event, Event::Text(_)));
        });
        cx.own.focus = Some(Focus::Reason);
        // The pane with the reason was drawn before this.
        ui.ctx().request_repaint();
    }
}

fn id_of(key: &str) -> Id {
    Id::unique(("finding", key))
}

fn row_ui(ui: &mut Ui, cx: &mut Context<'_>, finding: &Finding, row: &Row) {
    let theme = Theme::of(ui);
    let chosen = cx.own.chosen.as_ref() == Some(&row.key);
    let width = ui.available_width();
    let words = (width - INDENT - 10.0).max(80.0);
    let (strong, soft) = (theme.fill(Ink::Strong), theme.fill(Ink::Soft));
    let lay = |text: String, font, colour| ui.painter().layout(text, font, colour, words);
    let title = traywright_core::wording::begin(&row.line);
    let title = lay(title, Font::Body.id(), strong);
    let word = ui.painter().layout_no_wrap(
        traywright_core::wording::begin(&row.said.word),
        Font::StrongCaption.id(),
        strong,
    );
    let beside = row.beside();
    let first = word.rect.width() + 10.0;
    let caption = Font::Caption.id();
    let below = {
        let mut job = egui::text::LayoutJob::default();
        job.wrap.max_width = words;
        let format = egui::TextFormat::simple(caption, soft);
        job.append(&beside, first, format);
        ui.painter().layout_job(job)
    };
    let height = 8.0 + title.rect.height() + below.rect.height().max(word.rect.height()) + 10.0;
    let said = format!("{}: {}; {beside}", row.said.word, row.line);
    let to_it = cx.own.focus == Some(Focus::Row);
    let id = id_of(&row.key);
    let (rect, response) = row::row(ui, (height, id), Sense::CLICK, (chosen, to_it), &said);
    if chosen && to_it {
        cx.own.focus = None;
    }
    if response.clicked() {
        cx.own.chosen = Some(row.key.clone());
        cx.own.focus = Some(Focus::Row);
    }
    if response.double_clicked() {
        lead::go(cx, finding);
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    row::ground(ui, rect, 3.0, chosen, &response);
    let square = Rect::from_min_size(rect.min + vec2(8.0, 9.0), vec2(15.0, 15.0));
    mark(ui, square, finding.severity());
    let painter = ui.painter();
    let at = rect.min + vec2(INDENT, 7.0);
    let low = pos2(at.x, at.y + title.rect.height() + 2.0);
    painter.galley(at, title, strong);
    painter.galley(low, word, strong);
    painter.galley(low, below, soft);
}
