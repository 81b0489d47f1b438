//! Cost of the order that is followed, its verdict, and the best one.

use super::cached::CachedOrder;
use super::{heading, pointer};
use crate::action::{Action, Change, Command};
use crate::desk::{RunProgress, Work};
use crate::look::{aside, part_title, words};
use crate::view::order::Context;
use egui::{Button, Ui};
use traywright_core::case::Edit;
use traywright_core::plan::{Operation, OrderBy};
use traywright_core::run::RunOrder;
use traywright_core::wording::begin;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, told: &CachedOrder) {
    let (document, formatter) = (cx.document, cx.formatter());
    let worksheet = document.worksheet();
    ui.heading(cx.word("order-title"));
    let by = formatter.order_by(worksheet.order_by);
    aside(ui, cx.text("order-by", &[("by", &by)]));
    ui.heading(begin(&formatter.run_cost(told.priced.cost)));
    let run = cx.desk.run.order();
    match (run, cx.desk.run.best()) {
        (Some(run), _) => {
            part_title(ui, formatter.run_verdict(run));
            if let Some(wish) = told.breaks {
                let wish = formatter.run_wish(wish);
                aside(ui, cx.text("order-breaks", &[("wish", &wish)]));
            }
            best_ui(ui, cx, run);
        }
        (None, Work::Going(job)) => going_ui(ui, cx, job.last_report()),
        (None, _) => {
            words(ui, cx.word("run-not-computed"));
            again_ui(ui, cx);
        }
    }
    if worksheet.order_by != OrderBy::Rule {
        let rule = formatter.use_order(document.case().setup.use_order);
        if ui
            .button(cx.text("order-follow-rule", &[("rule", &rule)]))
            .clicked()
        {
            let name = cx.text("order-undo-rule", &[("rule", &rule)]);
            cx.edit(Change::new(name, Edit::AcceptOrder(Vec::new())));
        }
    }
    let mut approvals = document.record.standing.approvals.iter();
    if approvals.any(|one| one.is_valid() || one.is_practised()) {
        aside(ui, cx.word("order-approval"));
    }
}

/// Progress of the search, and the button that ends it.
fn going_ui(ui: &mut Ui, cx: &mut Context<'_>, how_far: Option<RunProgress>) {
    let formatter = cx.formatter();
    words(ui, cx.word("run-pending"));
    if let Some(RunProgress {
        states,
        best,
        bound,
    }) = how_far
    {
        aside(ui, formatter.costs().how_far(states, best, bound));
    }
    stop_ui(ui, cx);
}

fn stop_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let stop = Command::StopLooking;
    let key = ui.ctx().format_shortcut(&stop.key());
    let name = cx.text("order-stop", &[("key", &key)]);
    let can = stop.why_not(cx.desk).is_none();
    if ui.add_enabled(can, Button::new(name)).clicked() {
        cx.act(Action::Do(stop));
    }
}

fn again_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    if ui.button(cx.word("order-again")).clicked() {
        cx.act(Action::LookAgain);
    }
}

/// The best order found, and following it.
fn best_ui(ui: &mut Ui, cx: &mut Context<'_>, run: &RunOrder) {
    let (document, formatter) = (cx.document, cx.formatter());
    if !run.followed_is_least {
        heading(ui, cx.word("order-best"));
        words(ui, begin(&formatter.run_cost(run.best.cost)));
        aside(ui, formatter.run_best_verdict(run));
        if !run.proved {
            aside(ui, formatter.costs().bound(run.bound));
        }
    }
    if run.cancelled && !run.proved {
        again_ui(ui, cx);
    }
    let order: Vec<Operation> = run
        .best
        .steps
        .iter()
        .map(|step| step.what.clone())
        .collect();
    let other = order != document.worksheet().order;
    if other && ui.button(cx.word("order-follow-best")).clicked() {
        let name = cx.word("order-undo-best");
        pointer::accept(cx, name, &order, None);
        cx.own.said = None;
    }
}
