//! The step that is looked at, to be changed: drill, sleeve, stop, how deep, what follows it.

use super::edit::{add_step, drop_step, move_step};
use crate::action::key_names;
use crate::field::{InCase, New};
use crate::look::{Theme, caption};
use crate::view::form::{Form, entry};
use crate::view::site::Context;
use crate::view::site::here::Here;
use crate::view::site::keys::{EARLIER, LATER};
use crate::view::site::state::RuleKind;
use egui::{Button, Frame, KeyboardShortcut, Margin, Stroke, Ui};
use traywright_core::case::Step;
use traywright_core::drawing::Ink;
use traywright_core::kit::{DepthRule, DrillId, DrillKind};
use traywright_core::plan::step_with;

/// Shows the step's fields and what can be done with it.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    if let Some((at, step)) = here.step() {
        let theme = Theme::of(ui);
        let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
        Frame::NONE
            .stroke(hair)
            .inner_margin(Margin::same(8))
            .show(ui, |ui| {
                let drill = here.formatter.step(&here.site.id, &step.id);
                let number = &[("number", at + 1)];
                let title = cx.counted("site-step-title", number, &[("drill", &drill)]);
                caption(ui, title);
                fields(&mut Form { ui, cx, on: here }, at, step);
                buttons(ui, cx, here, at);
            });
    }
    add_ui(ui, cx, here);
}

fn fields(form: &mut Form<'_, '_, Here<'_>>, at: usize, step: &Step) {
    let here = form.on;
    let key = |field: &str| format!("step.{}.{field}", step.id);
    let field = key("drill");
    let new = form.choice("site-drill", &field, &step.drill, &drills(here));
    if let Some(new) = new
        && let Some(drill) = here.kit.drill(&new)
    {
        // Sleeve and stop have to fit the new drill; how deep it goes stays as it was.
        let fitting = step_with(here.kit, here.master, step.id.clone(), drill);
        form.change("site-what-drill", &field, |site| {
            let step = &mut site.steps[at];
            (step.drill, step.sleeve, step.stop) = (fitting.drill, fitting.sleeve, fitting.stop);
        });
    }
    let (field, now) = (key("sleeve"), step.sleeve.as_ref());
    let (asked, sleeves) = (
        entry("site-sleeve", &field, "site-what-sleeve"),
        here.fitting_sleeves(now),
    );
    form.pick_open(asked, "site-sleeve-none", now, &sleeves, |site, new| {
        site.steps[at].sleeve = new;
    });
    let stops = here.kit.stops.iter();
    let stops: Vec<_> = stops
        .map(|stop| {
            let name = here.formatter.named(&stop.name, &stop.marking);
            (stop.id.clone(), name)
        })
        .collect();
    let (field, now) = (key("stop"), step.stop.as_ref());
    let asked = entry("site-stop", &field, "site-what-stop");
    form.pick_open(asked, "site-stop-none", now, &stops, |site, new| {
        site.steps[at].stop = new;
    });
    depth_ui(form, at, step);
    let field = key("then");
    let asked = entry("site-then", &field, "site-what-then");
    form.label(asked, step.then.as_ref(), |site, new| {
        site.steps[at].then = new;
    });
}

/// The drills that can be chosen, those for fixation pins left out.
fn drills(here: &Here<'_>) -> Vec<(DrillId, String)> {
    let drills = here.kit.drills.iter();
    let drills = drills.filter(|drill| drill.kind != DrillKind::Pin);
    drills
        .map(|drill| {
            let name = here.formatter.named(&drill.name, &drill.marking);
            (drill.id.clone(), name)
        })
        .collect()
}

/// The id of a change of the depth.
const CHANGED: &str = "site-what-depth";

/// Depth of the step. A rule with a figure is taken once the figure is there.
fn depth_ui(form: &mut Form<'_, '_, Here<'_>>, at: usize, step: &Step) {
    let now = match step.depth {
        DepthRule::Full {} => RuleKind::Full,
        DepthRule::BelowPlatform { .. } => RuleKind::BelowPlatform,
        DepthRule::ShortOfFull { .. } => RuleKind::ShortOfFull,
    };
    let begun = form.cx.own.rule.as_ref();
    let begun = begun
        .filter(|(of, _)| *of == step.id)
        .map(|(_, kind)| *kind);
    let kind = begun.unwrap_or(now);
    let offered = [
        (RuleKind::Full, "site-depth-full"),
        (RuleKind::BelowPlatform, "site-depth-below"),
        (RuleKind::ShortOfFull, "site-depth-short"),
    ]
    .map(|(kind, id)| (kind, form.word(id)));
    let field = format!("step.{}.depth", step.id);
    match form.choice("site-depth", &field, &kind, &offered) {
        Some(RuleKind::Full) => {
            form.cx.own.rule = None;
            form.change(CHANGED, &field, |site| {
                site.steps[at].depth = DepthRule::Full {};
            });
        }
        Some(kind) => {
            let waits = (kind != now).then(|| (step.id.clone(), kind));
            form.cx.own.rule = waits;
        }
        None => {}
    }
    form.reserved(1, |form| figure_ui(form, at, step, (kind, now), &field));
}

/// The figure of a rule that has one.
fn figure_ui(
    form: &mut Form<'_, '_, Here<'_>>,
    at: usize,
    step: &Step,
    (kind, now): (RuleKind, RuleKind),
    field: &str,
) {
    let (label, place) = match kind {
        RuleKind::Full => return,
        RuleKind::BelowPlatform => (
            "site-depth-below-by",
            InCase("sites[].steps[].depth.depth_mm"),
        ),
        RuleKind::ShortOfFull => ("site-depth-short-by", InCase("sites[].steps[].depth.by_mm")),
    };
    let value = match step.depth {
        DepthRule::BelowPlatform { depth_mm } => Some(depth_mm),
        DepthRule::ShortOfFull { by_mm } => Some(by_mm),
        DepthRule::Full {} => None,
    };
    let value = value.filter(|_| kind == now);
    let (label, field) = (form.word(label), format!("{field}_mm"));
    if let Some(length) = form.needed(&label, &field, value, place) {
        let depth = match kind {
            RuleKind::BelowPlatform => DepthRule::BelowPlatform { depth_mm: length },
            _ => DepthRule::ShortOfFull { by_mm: length },
        };
        form.cx.own.rule = None;
        form.change(CHANGED, &field, |site| {
            site.steps[at].depth = depth;
        });
    }
}

fn buttons(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, at: usize) {
    let last = here.site.steps.len() - 1;
    ui.horizontal_wrapped(|ui| {
        let mut button = |id: &str, able: bool, keys: &[KeyboardShortcut]| {
            let text = cx.word(id);
            ui.add_enabled(able, Button::new(text))
                .on_hover_text(key_names(keys))
                .clicked()
        };
        let earlier = button("site-step-earlier", at > 0, &EARLIER);
        let later = button("site-step-later", at < last, &LATER);
        let dropped = button("site-step-drop", true, &[]);
        if earlier {
            move_step(cx, here, -1);
        } else if later {
            move_step(cx, here, 1);
        } else if dropped {
            drop_step(cx, here);
        }
    });
}

/// Adds a step after the one that is looked at.
fn add_ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let texts = ("site-step-add", "step-add", "site-step-add-drill");
    let new = Form { ui, cx, on: here }.open_choice(texts, None, &drills(here));
    if let Some(New(Some(drill))) = new {
        add_step(cx, here, &drill);
    }
}
