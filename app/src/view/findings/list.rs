//! The list: one row a finding, grouped by severity, worked by the arrow keys.

use super::cached::{CachedFindings, Row};
use super::filter::SEVERITIES;
use super::{ClearFindings, Focus, lead};
use crate::canvas::{mark, mark_in};
use crate::look::{Font, Theme, aside, part_heading, row, words};
use crate::view::findings::Context;
use egui::{Event, Id, Key, Modifiers, Rect, Sense, Ui, pos2, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::{CommonCause, Finding, FindingLine, Severity, by_cause};

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
    let groups = groups.map(|(severity, of_it)| {
        let count = of_it.len();
        (severity, count, by_cause(of_it, |n| &findings[*n]))
    });
    look_beneath(cx, told, groups.iter().flat_map(|(.., lines)| lines));
    let listed: Vec<usize> = groups
        .iter()
        .filter(|(severity, ..)| !counted_now(cx, *severity))
        .flat_map(|(.., lines)| lines)
        .flat_map(|line| match line {
            FindingLine::One(n) => std::slice::from_ref(n),
            FindingLine::Cause(cause, on_it) if cx.own.unfolded.contains(cause) => on_it,
            FindingLine::Cause(..) => &[],
        })
        .copied()
        .collect();
    keys(ui, cx, told, &listed, findings);
    for (severity, count, lines) in &groups {
        if lines.is_empty() {
            continue;
        }
        group_heading(ui, cx, *severity, *count);
        if counted_now(cx, *severity) {
            continue;
        }
        for line in lines {
            match line {
                FindingLine::One(n) => row_ui(ui, cx, &findings[*n], &told.rows[*n]),
                FindingLine::Cause(cause, on_it) => {
                    let hanging: Vec<&Finding> = on_it.iter().map(|n| &findings[*n]).collect();
                    cause_ui(ui, cx, cause, &hanging);
                    if cx.own.unfolded.contains(cause) {
                        ui.indent(("findings-cause", on_it), |ui| {
                            for n in on_it {
                                row_ui(ui, cx, &findings[*n], &told.rows[*n]);
                            }
                        });
                    }
                }
            }
        }
    }
}

/// Unfolds the cause on which the finding hangs that is to be looked at.
fn look_beneath<'a>(
    cx: &mut Context<'_>,
    told: &CachedFindings,
    lines: impl Iterator<Item = &'a FindingLine<usize>>,
) {
    if cx.own.focus != Some(Focus::Row) {
        return;
    }
    for line in lines {
        let FindingLine::Cause(cause, on_it) = line else {
            continue;
        };
        let is_chosen = |n: &usize| cx.own.chosen.as_ref() == Some(&told.rows[*n].key);
        if on_it.iter().any(is_chosen) {
            cx.own.unfolded.insert(cause.clone());
        }
    }
}

/// A cause and what to do: a button leads to where it is entered, another lists what hangs on it beneath.
fn cause_ui(ui: &mut Ui, cx: &mut Context<'_>, cause: &CommonCause, on_it: &[&Finding]) {
    let said = cx.formatter().cause(cause, on_it.iter().copied());
    let headline = traywright_core::wording::begin(&said.headline);
    let is_unfolded = cx.own.unfolded.contains(cause);
    let id = if is_unfolded {
        "findings-fold"
    } else {
        "findings-unfold"
    };
    ui.horizontal_top(|ui| {
        mark_in(ui, vec2(22.0, 20.0), 15.0, Severity::Unknown);
        ui.vertical(|ui| {
            words(ui, &headline);
            aside(ui, &said.remedy);
            let view = cx.word(lead::view(on_it[0]).text_id());
            let go = cx.text("findings-go", &[("view", &view)]);
            let button = ui.small_button(&go);
            let name = format!("{headline}: {go}");
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
            if button.clicked() {
                lead::go(cx, on_it[0]);
            }
            let button = ui.small_button(cx.word(id));
            let name = format!("{headline}: {}", cx.word(id));
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
            if button.clicked() && !cx.own.unfolded.remove(cause) {
                cx.own.unfolded.insert(cause.clone());
            }
        });
    });
    ui.add_space(6.0);
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
