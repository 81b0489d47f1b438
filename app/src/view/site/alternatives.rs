//! The next shorter, longer and narrower implant, each tried on a copy: what it would settle and
//! what it would open, before it is taken.

use super::concerns::{Detail, row};
use super::here::Here;
use crate::look::{Theme, aside, caption, fault, heading};
use crate::view::site::Context;
use egui::{Frame, Margin, Stroke, Ui};
use traywright_core::case::Edit;
use traywright_core::dentition::Notation;
use traywright_core::drawing::Ink;
use traywright_core::kit::{Implant, Kit, SiteId};
use traywright_core::plan::{TrialResult, edits_for_implant, next_implants, try_edits};
use traywright_core::wording::Formatter;

/// The neighbour of the implant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Shorter,
    Longer,
    Narrower,
}

/// The trials of a site in one state of the case.
pub(super) struct Trials {
    of: (u64, SiteId, usize),
    trials: Vec<Trial>,
}

/// One implant as it was tried.
struct Trial {
    way: Way,
    implant: String,
    edits: Vec<Edit>,
    outcome: Result<TrialResult, String>,
}

/// Shows the neighbours of the implant.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    ui.add_space(8.0);
    heading(ui, cx.word("site-other-implants"));
    list(ui, cx, here);
}

/// The neighbours without a heading.
pub(super) fn list(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let of = (
        here.document.generation(),
        here.site.id.clone(),
        here.kit.implants.len(),
    );
    // Taken out while it is shown, so that the view's state can be changed meanwhile.
    let trials = cx.own.trials.take();
    let trials = match trials.filter(|trials| trials.of == of) {
        Some(trials) => trials,
        None => Trials {
            of,
            trials: try_all(here, cx.kit_at_hand()),
        },
    };
    for way in [Way::Shorter, Way::Longer, Way::Narrower] {
        if let Some(trial) = trials.trials.iter().find(|trial| trial.way == way) {
            trial_ui(ui, cx, here, trial);
        } else {
            caption(ui, cx.word(none_id(way)));
        }
    }
    cx.own.trials = Some(trials);
}

fn try_all(here: &Here<'_>, live: &Kit) -> Vec<Trial> {
    let case = here.document.case();
    let next = next_implants(here.kit, here.implant);
    let one = |(way, implant): (Way, Option<&Implant>)| {
        let implant = implant?;
        let edits = edits_for_implant(case, here.site, &implant.id, live);
        let outcome = try_edits(case, here.document.worksheet(), &edits);
        let outcome =
            outcome.map_err(|refused| crate::desk::refused_change(&here.formatter, &refused));
        Some(Trial {
            way,
            implant: here.formatter.implant_measured(implant),
            edits,
            outcome,
        })
    };
    let ways = [
        (Way::Shorter, next.shorter),
        (Way::Longer, next.longer),
        (Way::Narrower, next.narrower),
    ];
    ways.into_iter().filter_map(one).collect()
}

const fn text_id(way: Way) -> &'static str {
    match way {
        Way::Shorter => "site-next-shorter",
        Way::Longer => "site-next-longer",
        Way::Narrower => "site-next-narrower",
    }
}

const fn none_id(way: Way) -> &'static str {
    match way {
        Way::Shorter => "site-no-shorter",
        Way::Longer => "site-no-longer",
        Way::Narrower => "site-no-narrower",
    }
}

fn trial_ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>, trial: &Trial) {
    let open = cx.own.trial == Some(trial.way);
    let text = cx.text(text_id(trial.way), &[("implant", &trial.implant)]);
    let summary = match &trial.outcome {
        Ok(tried) => {
            let counts = &[
                ("worsened", tried.worsened.len()),
                ("settled", tried.settled.len()),
                ("opened", tried.opened.len()),
            ];
            cx.counted("site-trial-summary", counts, &[])
        }
        Err(_) => cx.word("site-trial-refused"),
    };
    ui.horizontal_wrapped(|ui| {
        if ui.selectable_label(open, text).clicked() {
            cx.own.trial = (!open).then_some(trial.way);
        }
        caption(ui, summary);
    });
    if !open {
        return;
    }
    let hair = Stroke::new(1.0, Theme::of(ui).fill(Ink::Accent));
    Frame::NONE
        .stroke(hair)
        .inner_margin(Margin::same(8))
        .show(ui, |ui| match &trial.outcome {
            Ok(tried) => tried_ui(ui, cx, here, trial, tried),
            Err(refused) => {
                fault(ui, refused);
            }
        });
}

fn tried_ui(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    trial: &Trial,
    tried: &TrialResult,
) {
    let notation = cx.desk.settings.notation;
    let after = Formatter::english(&tried.case, notation);
    for line in settings(cx, here, tried, notation) {
        ui.label(line);
    }
    for (id, formatter, list) in [
        ("site-trial-worsens", &after, &tried.worsened),
        ("site-trial-opens", &after, &tried.opened),
        ("site-trial-settles", &here.formatter, &tried.settled),
        ("site-trial-changes", &after, &tried.changed),
        ("site-trial-notes", &after, &tried.noted),
    ] {
        if list.is_empty() {
            continue;
        }
        caption(ui, cx.word(id));
        for finding in list {
            row(ui, formatter, finding, Detail::Line);
        }
    }
    let lists = [
        &tried.worsened,
        &tried.settled,
        &tried.opened,
        &tried.changed,
    ];
    let nothing = lists.iter().all(|list| list.is_empty());
    if nothing {
        aside(ui, cx.word("site-trial-nothing"));
    }
    let take = cx.text("site-trial-take", &[("implant", &trial.implant)]);
    if ui.button(take).clicked() {
        here.edit(cx, "site-what-implant", None, trial.edits.clone());
        cx.own.trial = None;
    }
}

/// The settings that the tried implant would have, each with its drill, and the sequence that it
/// would bring.
fn settings(
    cx: &Context<'_>,
    here: &Here<'_>,
    tried: &TrialResult,
    notation: Notation,
) -> Vec<String> {
    let after = Formatter::english(&tried.case, notation);
    let id = &here.site.id;
    let mut lines = Vec::new();
    if let Some(site) = tried.case.site(id.as_str())
        && site.protocol != here.site.protocol
        && let Some(protocol) = site
            .protocol
            .as_ref()
            .and_then(|id| tried.case.kit.protocol(id))
    {
        let name = protocol.name.as_str();
        lines.push(cx.text("site-trial-protocol", &[("protocol", name)]));
    }
    let sheet = tried.worksheet.sites.iter().find(|sheet| sheet.id == *id);
    let steps = sheet.map_or(&[][..], |sheet| &sheet.steps);
    let list: Vec<String> = steps
        .iter()
        .map(|step| {
            let (drill, set) = (after.step(id, &step.id), after.setting_in_full(step));
            cx.text("site-trial-setting", &[("drill", &drill), ("set", &set)])
        })
        .collect();
    if !list.is_empty() {
        let list = list.join(" · ");
        lines.push(cx.text("site-trial-settings", &[("list", &list)]));
    }
    lines
}
