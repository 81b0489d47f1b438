//! What the order costs that is followed, how good it is, and the best one.

use super::told::Told;
use super::{aside, hand, heading, words};
use crate::action::{Action, Change, Command};
use crate::desk::{HowFar, Work};
use crate::look::{bold, size};
use crate::window::Stage;
use egui::{Button, FontId, Label, RichText, Ui};
use traywright_core::case::Edit;
use traywright_core::plan::{OrderBy, Use};
use traywright_core::run::RunOrder;
use traywright_core::say::begin;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, told: &Told) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let worksheet = document.worksheet();
    ui.heading(stage.word("order-title"));
    let by = speaker.order_by(worksheet.order_by);
    aside(ui, stage.text("order-by", &[("by", &by)]));
    let cost = RichText::new(begin(&speaker.run_cost(told.priced.cost)));
    let cost = cost.font(FontId::new(size::TITLE, bold()));
    ui.add(Label::new(cost).wrap());
    let run = stage.desk.run.order();
    match (run, stage.desk.run.best()) {
        (Some(run), _) => {
            let verdict = RichText::new(speaker.run_verdict(run));
            ui.add(Label::new(verdict.font(FontId::new(size::BODY, bold()))).wrap());
            if let Some(wish) = told.breaks {
                let wish = speaker.run_wish(wish);
                aside(ui, stage.text("order-breaks", &[("wish", &wish)]));
            }
            best_ui(ui, stage, run);
        }
        (None, Work::Going(job)) => going_ui(ui, stage, job.told()),
        (None, _) => {
            words(ui, stage.word("run-not-computed"));
            again_ui(ui, stage);
        }
    }
    if worksheet.order_by != OrderBy::Rule {
        let rule = speaker.use_order(document.case().setup.use_order);
        if ui
            .button(stage.text("order-follow-rule", &[("rule", &rule)]))
            .clicked()
        {
            let name = stage.text("order-undo-rule", &[("rule", &rule)]);
            stage.edit(Change::new(name, Edit::AcceptOrder(Vec::new())));
        }
    }
    let mut approvals = document.record.standing.approvals.iter();
    if approvals.any(|one| one.is_valid() || one.is_practised()) {
        aside(ui, stage.word("order-approval"));
    }
}

/// How far the search is, and how to end it.
fn going_ui(ui: &mut Ui, stage: &mut Stage<'_>, how_far: Option<HowFar>) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    words(ui, stage.word("run-pending"));
    if let Some(HowFar {
        states,
        best,
        bound,
    }) = how_far
    {
        let (states, best) = (states.to_string(), speaker.run_cost(best));
        let args = [("states", states.as_str()), ("best", &best)];
        aside(ui, stage.text("order-how-far", &args));
        if bound.time_ds > 0 {
            let above = speaker.run_cost(bound);
            aside(ui, stage.text("order-not-below", &[("bound", &above)]));
        }
    }
    stop_ui(ui, stage);
}

fn stop_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let stop = Command::StopLooking;
    let key = ui.ctx().format_shortcut(&stop.key());
    let name = stage.text("order-stop", &[("key", &key)]);
    let can = stop.why_not(stage.desk).is_none();
    if ui.add_enabled(can, Button::new(name)).clicked() {
        stage.act(Action::Do(stop));
    }
}

fn again_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    if ui.button(stage.word("order-again")).clicked() {
        stage.act(Action::LookAgain);
    }
}

/// The best order found, and following it.
fn best_ui(ui: &mut Ui, stage: &mut Stage<'_>, run: &RunOrder) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    if !run.followed_is_least {
        heading(ui, stage.word("order-best"));
        words(ui, begin(&speaker.run_cost(run.best.cost)));
        aside(ui, speaker.run_best_verdict(run));
    }
    if run.cancelled && !run.proved {
        again_ui(ui, stage);
    }
    let order: Vec<Use> = run
        .best
        .steps
        .iter()
        .map(|step| step.what.clone())
        .collect();
    let other = order != document.worksheet().order;
    if other && ui.button(stage.word("order-follow-best")).clicked() {
        let name = stage.word("order-undo-best");
        hand::accept(stage, name, &order, None);
        stage.sight.order.said = None;
    }
}
