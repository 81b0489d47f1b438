//! The list: one row a finding, grouped by severity, worked by the arrow keys.

use super::filter::SEVERITIES;
use super::told::{Row, Told};
use super::{Focus, Shown, heading, lead};
use crate::canvas::mark;
use crate::look::{Theme, bold, size};
use crate::window::ViewContext;
use egui::{
    Event, FocusDirection, FontId, Id, Key, Modifiers, Rect, Sense, Stroke, Ui, WidgetInfo, pos2,
    vec2,
};
use traywright_core::drawing::Ink;
use traywright_core::plan::{Finding, Severity};

/// Room on the left of a row's words, for its mark, points.
const INDENT: f32 = 30.0;

/// Shows the rows.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, told: &Told, rows: &[usize]) {
    let Some(document) = cx.document() else {
        return;
    };
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
    let counted =
        |severity| severity == Severity::Clear && cx.state.findings.clear == Shown::Counted;
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

fn counted_now(cx: &ViewContext<'_>, severity: Severity) -> bool {
    severity == Severity::Clear && cx.state.findings.clear == Shown::Counted
}

fn group_heading(ui: &mut Ui, cx: &mut ViewContext<'_>, severity: Severity, count: usize) {
    let count = count.to_string();
    let word = cx.word(severity.text_id());
    let text = cx.text("findings-group", &[("word", &word), ("count", &count)]);
    if severity != Severity::Clear {
        heading(ui, traywright_core::wording::begin(&text));
        return;
    }
    ui.horizontal(|ui| {
        heading(ui, traywright_core::wording::begin(&text));
        let (id, then) = match cx.state.findings.clear {
            Shown::Counted => ("findings-list-clear", Shown::Listed),
            Shown::Listed => ("findings-count-clear", Shown::Counted),
        };
        if ui.button(cx.word(id)).clicked() {
            cx.state.findings.clear = then;
        }
    });
}

/// Arrows go through the rows, Enter to the place, A to the reason; not while words are typed.
fn keys(ui: &Ui, cx: &mut ViewContext<'_>, told: &Told, listed: &[usize], findings: &[Finding]) {
    if ui.ctx().text_edit_focused() || cx.state.ask.is_some() {
        return;
    }
    let on_row = |key: &String| ui.memory(|memory| memory.has_focus(id_of(key)));
    let state = &cx.state.findings;
    let at = listed
        .iter()
        .position(|n| state.chosen.as_ref() == Some(&told.rows[*n].key));
    let here = state.chosen.as_ref().is_some_and(on_row);
    let nowhere = ui.memory(|memory| memory.focused().is_none());
    if !here && !nowhere {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let last = listed.len().saturating_sub(1);
    let next = at.map_or(0, |at| (at + 1).min(last));
    let before = at.map_or(0, |at| at.saturating_sub(1));
    let to = [
        (Key::ArrowDown, next),
        (Key::ArrowUp, before),
        (Key::Home, 0),
        (Key::End, last),
    ]
    .into_iter()
    .find(|(key, _)| pressed(*key));
    if let Some((_, to)) = to
        && let Some(n) = listed.get(to)
    {
        cx.state.findings.chosen = Some(told.rows[*n].key.clone());
        cx.state.findings.focus = Some(Focus::Row);
        // Whoever goes through the rows does not leave them by the arrow.
        ui.memory_mut(|memory| memory.move_focus(FocusDirection::None));
    }
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
        cx.state.findings.focus = Some(Focus::Reason);
        // The pane with the reason was drawn before this.
        ui.ctx().request_repaint();
    }
}

fn id_of(key: &str) -> Id {
    Id::unique(("finding", key))
}

fn row_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, finding: &Finding, row: &Row) {
    let theme = Theme::of(ui);
    let chosen = cx.state.findings.chosen.as_ref() == Some(&row.key);
    let width = ui.available_width();
    let words = (width - INDENT - 10.0).max(80.0);
    let (strong, soft) = (theme.fill(Ink::Strong), theme.fill(Ink::Soft));
    let lay = |text: String, font, colour| ui.painter().layout(text, font, colour, words);
    let title = traywright_core::wording::begin(&row.line);
    let title = lay(title, FontId::proportional(size::BODY), strong);
    let word = ui.painter().layout_no_wrap(
        traywright_core::wording::begin(&row.said.word),
        FontId::new(size::CAPTION, bold()),
        strong,
    );
    let beside = row.beside();
    let first = word.rect.width() + 10.0;
    let caption = FontId::proportional(size::CAPTION);
    let below = {
        let mut job = egui::text::LayoutJob::default();
        job.wrap.max_width = words;
        let format = egui::TextFormat::simple(caption, soft);
        job.append(&beside, first, format);
        ui.painter().layout_job(job)
    };
    let height = 8.0 + title.rect.height() + below.rect.height().max(word.rect.height()) + 10.0;
    // Only the row that is looked at can be reached by Tab; arrows lead on from there.
    let sense = if chosen { Sense::click() } else { Sense::CLICK };
    let (_, rect) = ui.allocate_space(vec2(width, height));
    let id = id_of(&row.key);
    let response = ui.interact(rect, id, sense);
    let said = format!("{}: {}; {beside}", row.said.word, row.line);
    response.widget_info(|| WidgetInfo::selected(egui::Role::ListItem, true, chosen, &said));
    if chosen && cx.state.findings.focus == Some(Focus::Row) {
        cx.state.findings.focus = None;
        response.request_focus();
        response.scroll_to_me(None);
    }
    if response.clicked() {
        cx.state.findings.chosen = Some(row.key.clone());
        cx.state.findings.focus = Some(Focus::Row);
    }
    if response.double_clicked() {
        lead::go(cx, finding);
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    ground(ui, rect, chosen, &response);
    let square = Rect::from_min_size(rect.min + vec2(8.0, 9.0), vec2(15.0, 15.0));
    mark(ui, square, finding.severity());
    let painter = ui.painter();
    let at = rect.min + vec2(INDENT, 7.0);
    let low = pos2(at.x, at.y + title.rect.height() + 2.0);
    painter.galley(at, title, strong);
    painter.galley(low, word, strong);
    painter.galley(low, below, soft);
}

/// The ground of a row: nothing, unless it is looked at or pointed at.
fn ground(ui: &Ui, rect: Rect, chosen: bool, response: &egui::Response) {
    let theme = Theme::of(ui);
    let painter = ui.painter();
    if chosen {
        painter.rect_filled(rect, 3.0, ui.visuals().selection.bg_fill);
    } else if response.hovered() {
        painter.rect_filled(rect, 3.0, theme.fill(Ink::Shade));
    }
    if response.has_focus() {
        let accent = Stroke::new(2.0, theme.fill(Ink::Accent));
        painter.rect_stroke(rect, 3.0, accent, egui::StrokeKind::Inside);
    } else {
        let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
        painter.hline(rect.x_range(), rect.bottom(), hair);
    }
}
