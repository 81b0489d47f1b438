//! A line that says what was done or why not, for a while, until the next action or until it is closed. It has a
//! place of its own, which is there without it too, save in the loading view: it covers nothing, and no view of the desk
//! changes its size for it.

use crate::action::View;
use crate::context::{Notice, ViewContext};
use crate::desk::{Document, refused_by_disk};
use crate::look::Theme;
use egui::{Frame, Id, Margin, Panel, RichText, Ui};
use std::time::Duration;
use traywright_core::drawing::Ink;

/// How long it stays, seconds: what was done, and what was refused and why.
const DONE: f64 = 8.0;
const REFUSED: f64 = 30.0;

/// Height of its place, points: a line with its button. What is told on more lines takes more.
const PLACE: f32 = 28.0;

/// Shows the place of the notice, and the notice if there is one.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    // These views need all of the window's height for its figure.
    if matches!(cx.state.view, View::Loading | View::Surgery) && cx.state.notice.is_none() {
        return;
    }
    let theme = Theme::of(ui);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(Margin::symmetric(20, 2));
    Panel::bottom("notice")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| {
            ui.set_min_height(PLACE);
            told(ui, cx);
        });
}

fn told(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let theme = Theme::of(ui);
    let Some(notice) = cx.state.notice.clone() else {
        // It holds as long as it is so.
        let document = cx.desk.document.as_ref();
        if let Some(fault) = document.and_then(Document::journal_fault) {
            let reason = refused_by_disk(fault).0;
            let text = cx.text("window-no-journal", &[("reason", &reason)]);
            ui.add(egui::Label::new(RichText::new(text).color(theme.fault())).wrap());
        }
        return;
    };
    let (text, colour) = match &notice {
        Notice::Done(text) => (text, theme.fill(Ink::Strong)),
        Notice::Refused(text) => (text, theme.fault()),
    };
    let close = cx.word("notice-close");
    let lasts = match &notice {
        Notice::Done(_) => DONE,
        Notice::Refused(_) => REFUSED,
    };
    // Since when it is shown: another one begins anew.
    let (now, since) = (ui.input(|input| input.time), Id::unique("notice since"));
    let shown = ui.data(|data| data.get_temp::<(String, f64)>(since));
    let began = shown.filter(|(of, _)| of == text).map_or(now, |(_, at)| at);
    ui.data_mut(|data| data.insert_temp(since, (text.clone(), began)));
    let mut closed = false;
    ui.horizontal_top(|ui| {
        closed = ui.button(&close).clicked();
        ui.add(egui::Label::new(RichText::new(text).color(colour)).wrap());
    });
    if closed || now - began >= lasts {
        cx.state.notice = None;
        ui.data_mut(|data| data.remove::<(String, f64)>(since));
        // This frame still shows it.
        ui.ctx().request_repaint();
    } else {
        let left = Duration::from_secs_f64(lasts - (now - began));
        ui.ctx().request_repaint_after(left);
    }
}
