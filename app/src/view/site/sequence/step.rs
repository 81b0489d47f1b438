//! The step that is looked at, to be changed: drill, sleeve, stop, how deep, what follows it.

use super::edit::{add_step, drop_step, move_step};
use crate::field::{self, Bounds, New};
use crate::look::{Theme, size};
use crate::view::site::form::pick_open;
use crate::view::site::here::Here;
use crate::view::site::state::RuleKind;
use crate::window::ViewContext;
use egui::{Button, Frame, Margin, RichText, Stroke, Ui};
use traywright_core::case::Step;
use traywright_core::drawing::Ink;
use traywright_core::kit::{DepthRule, DrillId, DrillKind};
use traywright_core::measure::Length;
use traywright_core::plan::step_with;

/// The most that a step can go below the platform or stop short, mm, as the case file allows.
const MOST_MM: i64 = 60;

/// Shows the step's fields and what can be done with it.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    if let Some((at, step)) = here.step() {
        let theme = Theme::of(ui);
        let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
        Frame::NONE
            .stroke(hair)
            .inner_margin(Margin::same(8))
            .show(ui, |ui| {
                let drill = here.formatter.step(&here.site.id, &step.id);
                let number = (at + 1).to_string();
                let args = [("number", number.as_str()), ("drill", &drill)];
                let title = cx.text("site-step-title", &args);
                ui.label(RichText::new(title).size(size::CAPTION).weak());
                fields(ui, cx, here, at, step);
                buttons(ui, cx, here, at);
            });
    }
    add_ui(ui, cx, here);
}

fn fields(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, at: usize, step: &Step) {
    let drills = drills(here);
    let field = format!("step.{}.drill", step.id);
    let label = cx.word("site-drill");
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, &here.key(&field), &label, &step.drill, &drills)
    });
    if let Some(new) = new
        && let Some(drill) = here.kit.drill(&new)
    {
        // Sleeve and stop have to fit the new drill; how deep it goes stays as it was.
        let fitting = step_with(here.kit, here.master, step.id.clone(), drill);
        here.change(cx, "site-what-drill", &field, |site| {
            let step = &mut site.steps[at];
            (step.drill, step.sleeve, step.stop) = (fitting.drill, fitting.sleeve, fitting.stop);
        });
    }
    let sleeves: Vec<_> = here
        .kit
        .drill_sleeves
        .iter()
        .filter(|sleeve| {
            sleeve.fits.contains(&here.master.id) || step.sleeve.as_ref() == Some(&sleeve.id)
        })
        .map(|sleeve| {
            let name = here.formatter.named(&sleeve.name, &sleeve.marking);
            (sleeve.id.clone(), name)
        })
        .collect();
    let field = format!("step.{}.sleeve", step.id);
    if let Some(New(new)) = pick_open(
        ui,
        cx,
        here,
        ("site-sleeve", &field, "site-sleeve-none"),
        step.sleeve.as_ref(),
        &sleeves,
    ) {
        here.change(cx, "site-what-sleeve", &field, |site| {
            site.steps[at].sleeve = new;
        });
    }
    let stops: Vec<_> = here
        .kit
        .stops
        .iter()
        .map(|stop| {
            let name = here.formatter.named(&stop.name, &stop.marking);
            (stop.id.clone(), name)
        })
        .collect();
    let field = format!("step.{}.stop", step.id);
    if let Some(New(new)) = pick_open(
        ui,
        cx,
        here,
        ("site-stop", &field, "site-stop-none"),
        step.stop.as_ref(),
        &stops,
    ) {
        here.change(cx, "site-what-stop", &field, |site| {
            site.steps[at].stop = new;
        });
    }
    depth_ui(ui, cx, here, at, step);
    let field = format!("step.{}.then", step.id);
    let label = cx.word("site-then");
    let new = field::row(ui, &label, |ui, named| {
        let drafts = &mut cx.state.drafts;
        field::label(ui, drafts, &here.key(&field), named, step.then.as_ref())
    });
    if let Some(New(new)) = new {
        here.change(cx, "site-what-then", &field, |site| {
            site.steps[at].then = new;
        });
    }
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

/// Depth of the step. A rule with a figure is taken once the figure is there.
fn depth_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, at: usize, step: &Step) {
    let now = match step.depth {
        DepthRule::Full {} => RuleKind::Full,
        DepthRule::BelowPlatform { .. } => RuleKind::BelowPlatform,
        DepthRule::ShortOfFull { .. } => RuleKind::ShortOfFull,
    };
    let begun = cx.state.site_view.rule.as_ref();
    let begun = begun
        .filter(|(of, _)| *of == step.id)
        .map(|(_, kind)| *kind);
    let kind = begun.unwrap_or(now);
    let label = cx.word("site-depth");
    let offered = [
        (RuleKind::Full, "site-depth-full"),
        (RuleKind::BelowPlatform, "site-depth-below"),
        (RuleKind::ShortOfFull, "site-depth-short"),
    ]
    .map(|(kind, id)| (kind, cx.word(id)));
    let field = format!("step.{}.depth", step.id);
    let key = here.key(&field);
    let new = field::row(ui, &label, |ui, _| {
        field::choice_known(ui, &cx.state.drafts, &key, &label, &kind, &offered)
    });
    match new {
        Some(RuleKind::Full) => {
            cx.state.site_view.rule = None;
            here.change(cx, "site-what-depth", &field, |site| {
                site.steps[at].depth = DepthRule::Full {};
            });
        }
        Some(kind) => {
            let waits = (kind != now).then(|| (step.id.clone(), kind));
            cx.state.site_view.rule = waits;
        }
        None => {}
    }
    if kind == RuleKind::Full {
        return;
    }
    let (label, least, value) = match (kind, step.depth) {
        (RuleKind::BelowPlatform, DepthRule::BelowPlatform { depth_mm }) => {
            ("site-depth-below-by", Length::ZERO, Some(depth_mm))
        }
        (RuleKind::ShortOfFull, DepthRule::ShortOfFull { by_mm }) => {
            ("site-depth-short-by", Length::from_um(1), Some(by_mm))
        }
        (RuleKind::BelowPlatform, _) => ("site-depth-below-by", Length::ZERO, None),
        _ => ("site-depth-short-by", Length::from_um(1), None),
    };
    let field = format!("step.{}.depth_mm", step.id);
    let key = here.key(&field);
    let bounds = Bounds::needed(least, Length::from_mm(MOST_MM));
    let new = field::row(ui, &cx.word(label), |ui, named| {
        field::length(ui, &mut cx.state.drafts, &key, named, value, bounds)
    });
    if let Some(New(Some(length))) = new {
        let depth = match kind {
            RuleKind::BelowPlatform => DepthRule::BelowPlatform { depth_mm: length },
            _ => DepthRule::ShortOfFull { by_mm: length },
        };
        cx.state.site_view.rule = None;
        here.change(cx, "site-what-depth", &field, |site| {
            site.steps[at].depth = depth;
        });
    }
}

fn buttons(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, at: usize) {
    let last = here.site.steps.len() - 1;
    ui.horizontal_wrapped(|ui| {
        let mut button = |id: &str, able: bool, key: &str| {
            let text = cx.word(id);
            ui.add_enabled(able, Button::new(text))
                .on_hover_text(key)
                .clicked()
        };
        let earlier = button("site-step-earlier", at > 0, "Alt ↑");
        let later = button("site-step-later", at < last, "Alt ↓");
        let dropped = button("site-step-drop", true, "");
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
fn add_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let (label, open) = (cx.word("site-step-add"), cx.word("site-step-add-drill"));
    let key = here.key("step-add");
    let drills = drills(here);
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice(ui, drafts, &key, &label, &open, None, &drills)
    });
    if let Some(New(Some(drill))) = new {
        add_step(cx, here, &drill);
    }
}
