//! A step at a site: everything that a hand needs for it, the setting largest.

use super::scene::{Scene, implant_of};
use crate::canvas::mark;
use crate::desk::{Desk, Document, worn as worn_of};
use crate::view::loading::instrument::marking_ui;
use crate::view::loading::scale::{line, strong};
use egui::{Sense, Stroke, Ui, vec2};
use std::collections::BTreeSet;
use traywright_core::charts::marking;
use traywright_core::drawing::{Ink, TextStyle};
use traywright_core::kit::{DrillSleeveId, ImplantId, Label, SiteId, SlotKind};
use traywright_core::plan::{
    Actionable, ActionableFigure, Known, Severity, SiteSheet, StepPath, final_depth_by_hand,
};
use traywright_core::sign::{EventKind, InsertionWay, Stage};
use traywright_core::surgery::{Day, DayStep, Drilling, NotReady, SetDrill, State, Work, piece};
use traywright_core::wear::NamedFor;
use traywright_core::wording::begin;

/// The size of why a step is not ready, px of the large window.
const WHY: f32 = 46.0;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    title(ui, scene, step);
    match &step.work {
        Work::Drill(drilling) => drill(ui, scene, step, drilling),
        Work::Pin { sheet, drill } => {
            let words = scene.text("surgery-pin", &[("name", sheet.name.as_str())]);
            strong(ui, words, scene.scale.big(), scene.ink());
            if let Some(drill) = drill {
                instrument(ui, scene, step, drill);
            }
            not_ready(ui, scene, step);
        }
        Work::SetAnew { reset, drill } => {
            let words = scene.formatter.reset_line(reset, scene.worksheet());
            strong(ui, words, scene.scale.px(50.0), scene.ink());
            instrument(ui, scene, step, drill);
            let words = scene.word("surgery-set-anew-how");
            line(ui, words, scene.scale.text(), scene.ink());
        }
        Work::Insert { site, item, out } => {
            for (_, sleeve) in out {
                let name = scene.formatter.drill_sleeve(sleeve);
                let words = scene.text("surgery-sleeve-out", &[("sleeve", &name)]);
                strong(ui, words, scene.scale.px(42.0), scene.ink());
            }
            let implant = item.map_or_else(
                || scene.formatter.implant(&site.implant),
                |item| {
                    let args = [
                        ("name", &*scene.formatter.item(item)),
                        ("slot", &*scene.formatter.slot(item)),
                    ];
                    scene.text("load-one-of", &args)
                },
            );
            strong(ui, implant, scene.scale.px(52.0), scene.ink());
            insertion(ui, scene, step, site);
        }
        Work::Finish { site } => {
            // As it was begun, whatever the plan has now.
            let begun = implant_of(step).unwrap_or_else(|| site.implant.clone());
            let implant = scene.formatter.implant(&begun);
            strong(ui, implant, scene.scale.big(), scene.ink());
            let words = scene.word("surgery-finish-how");
            strong(ui, words, scene.scale.px(44.0), scene.ink());
            by_hand(ui, scene, (site, &begun));
        }
        _ => {}
    }
    told(ui, scene, step);
}

/// The site in words, or what is done for the whole jaw.
pub(super) fn title(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    let words = match step.site() {
        Some(site) => begin(&scene.formatter.site(site)),
        None => scene.word("surgery-whole-jaw"),
    };
    let size = match (&step.work, stands(step)) {
        (Work::Drill(_), Stands::Told | Stands::NotReady) => 54.0,
        _ => 70.0,
    };
    strong(ui, words, scene.scale.px(size), scene.ink());
    if !scene.is_due() {
        let words = match scene.day.next().and_then(|at| scene.day.steps.get(at)) {
            Some(due) => {
                let due = scene.formatter.day_step(&due.key);
                scene.text("surgery-looked-at", &[("due", &due)])
            }
            None => scene.word("surgery-looked-at-over"),
        };
        strong(ui, words, scene.scale.px(40.0), scene.theme.fault());
    }
    done_otherwise(ui, scene, step);
}

/// What was done of this step by another plan, before anything is done anew: it is in the bone.
pub(super) fn done_otherwise(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    if let Some(one) = step.otherwise {
        let then = scene.formatter.recorded_then(&one.kind);
        let args = [("who", one.who.as_str()), ("step", &*then)];
        let words = if step.state.is_over() {
            scene.text("surgery-done-before", &args)
        } else {
            scene.text("surgery-done-otherwise", &args)
        };
        strong(ui, words, scene.scale.px(40.0), scene.theme.fault());
    }
}

fn drill(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>, drilling: &Drilling<'_>) {
    // With the guide off no sleeve goes anywhere.
    let gone = |why: &NotReady| {
        matches!(
            why,
            NotReady::GuideOff | NotReady::GuideLeft | NotReady::GuideAbandoned
        )
    };
    let off = step.not_ready.iter().any(gone);
    for words in sleeves(scene, drilling).into_iter().filter(|_| !off) {
        strong(ui, words, scene.scale.px(42.0), scene.ink());
    }
    if let Some(drill) = &drilling.drill {
        instrument(ui, scene, step, drill);
    } else {
        let name = scene.formatter.drill(&drilling.step.drill);
        strong(ui, name, scene.scale.big(), scene.ink());
    }
    // What could be taken for it is seen with the first of what speaks against it; what else does stands below.
    let (first, others) = whys(scene, step);
    why_first(ui, scene, (step, first));
    alike(ui, scene, (step, drilling));
    if step.may_be_by_hand() {
        let words = scene.word("surgery-may-by-hand");
        strong(ui, words, scene.scale.px(34.0), scene.ink());
    }
    for words in others {
        line(ui, words, scene.scale.px(34.0), scene.ink());
    }
}

/// Sleeves out and in, and what the drill is led by: two lines at most, so that the figure below keeps its room.
fn sleeves(scene: &Scene<'_>, drilling: &Drilling<'_>) -> Vec<String> {
    let here = |site: &SiteSheet| site.id == drilling.site.id;
    let name = |id: &DrillSleeveId| scene.formatter.drill_sleeve(id);
    let own = drilling.out.iter().find(|(site, _)| here(site));
    let own = own.map(|(_, sleeve)| scene.text("surgery-sleeve-out", &[("sleeve", &name(sleeve))]));
    let elsewhere = drilling.out.iter().find(|(site, _)| !here(site));
    let led = match (drilling.step.path, &drilling.in_, &drilling.step.sleeve) {
        (StepPath::Freehand, ..) => scene.word("surgery-freehand"),
        (_, Some(sleeve), _) => match elsewhere {
            // It lies in no slot: it is where it was used last.
            Some((site, _)) => {
                let site = scene.formatter.site(&site.id);
                let args = [("sleeve", &*name(sleeve)), ("site", &*site)];
                scene.text("surgery-sleeve-from", &args)
            }
            None => scene.text("surgery-sleeve-in", &[("sleeve", &lying(scene, sleeve))]),
        },
        (_, None, Some(sleeve)) => scene.text("surgery-sleeve-stays", &[("sleeve", &name(sleeve))]),
        (_, None, None) => scene.word("surgery-no-sleeve"),
    };
    own.into_iter().chain([led]).collect()
}

/// A sleeve with its slot.
fn lying(scene: &Scene<'_>, id: &DrillSleeveId) -> String {
    let name = scene.formatter.drill_sleeve(id);
    let mut loading = scene.worksheet().loading.iter();
    let item = loading.find(|one| one.kind == SlotKind::Sleeve && one.entry == id.as_str());
    item.map_or(name.clone(), |item| {
        let args = [("name", &*name), ("slot", &*scene.formatter.slot(item))];
        scene.text("load-one-of", &args)
    })
}

/// A drill with its marking and slot, its setting as the largest thing, who read it and how it runs.
fn instrument(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>, drill: &SetDrill<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let item = drill.item;
    ui.horizontal_wrapped(|ui| {
        if let Some(drawn) = marking(&item.marking, TextStyle::STRONG) {
            let words = scene.formatter.marking(&item.marking).unwrap_or_default();
            marking_ui(ui, scene.brush(), &drawn, &words);
        }
        strong(ui, scene.formatter.item(item), scale.px(64.0), scene.ink());
        ui.add_space(scale.px(20.0));
        // Where it lies tells the record; where it is to lie, the plan.
        let lies = drill
            .standing
            .and_then(|standing| standing.placed.as_deref());
        if let Some(slot) = lies.or(item.slot.as_ref().map(Label::as_str)) {
            let words = scene.text("loading-to-slot", &[("slot", slot)]);
            strong(ui, words, scale.px(64.0), theme.fill(Ink::Accent));
        } else {
            let words = begin(&scene.formatter.without_slot());
            strong(ui, words, scale.px(50.0), theme.fault());
        }
    });
    ui.horizontal_top(|ui| {
        if let Some(first) = waits(scene, step) {
            not_yet(ui, scene, (drill, first));
        } else {
            figure(ui, scene, drill, stands(step));
        }
        ui.add_space(scale.px(30.0));
        ui.vertical(|ui| {
            if stands(step) == Stands::Clear {
                ui.add_space(scale.px(46.0));
            }
            if let Some(words) = read_by(scene, drill) {
                line(ui, words, scale.px(36.0), scene.ink());
            }
            let kit = &scene.document.case().kit;
            let of_kit = item.set.as_ref().and_then(|on| kit.drill(&on.drill));
            if let Some(drill) = of_kit {
                let words = scene.formatter.running(drill).join(" · ");
                line(ui, words, scale.px(36.0), scene.ink());
            }
            if let Work::Drill(drilling) = &step.work {
                let depth = scene.formatter.depth_rule(&drilling.step.depth);
                line(ui, begin(&depth), scale.px(36.0), scene.soft());
            }
            if let Some(words) = scene.worn {
                let words = scene.text("surgery-worn", &[("wear", words)]);
                line(ui, words, scale.px(32.0), scene.ink());
            }
        });
    });
    if let Work::Drill(drilling) = &step.work
        && let Some(until) = scene.formatter.until_level(drilling.step)
    {
        line(ui, begin(&until), scale.px(44.0), scene.ink());
    }
}

/// What is to be seen of the wear of a step's drill, by the places that the day has it drill; nothing of a step that is over, nor within
/// its limit.
pub(super) fn worn(
    of: (&Desk, &Document),
    (day, step): (&Day<'_>, &DayStep<'_>),
    now: jiff::Timestamp,
) -> Option<String> {
    if step.state.is_over() {
        return None;
    }
    let standing = &of.1.record.standing;
    let with = |step: &DayStep<'_>| step.drill().and_then(|drill| piece(&drill, standing));
    let key = with(step)?;
    let steps = day
        .steps
        .iter()
        .filter(|one| with(one).as_ref() == Some(&key));
    let places: BTreeSet<(Option<&SiteId>, Option<&str>)> = steps
        .filter_map(|one| match &one.work {
            Work::Drill(drilling) => Some((Some(&drilling.site.id), None)),
            Work::Pin { sheet, .. } => Some((None, Some(sheet.name.as_str()))),
            _ => None,
        })
        .collect();
    let uses = places.len() as u64;
    worn_of(of, (&key, uses), NamedFor::Now(now))
}

/// The barrier that a step waits for.
fn waits<'a>(scene: &Scene<'a>, step: &DayStep<'_>) -> Option<&'a DayStep<'a>> {
    let (at, _) = scene.step().filter(|_| !step.state.is_over())?;
    scene.day.waits_for(at)
}

/// Instead of the setting of a step that waits for a barrier: that, and the figure no larger than any word.
fn not_yet(ui: &mut Ui, scene: &Scene<'_>, (drill, first): (&SetDrill<'_>, &DayStep<'_>)) {
    let (scale, theme) = (scene.scale, scene.theme);
    let kit = &scene.document.case().kit;
    let known = Actionable::of_item(drill.item).map(|one| one.figure(kit));
    let large = known.and_then(ActionableFigure::large);
    ui.vertical(|ui| {
        ui.set_max_width(scale.px(640.0));
        strong(
            ui,
            scene.word("surgery-not-yet"),
            scale.px(90.0),
            theme.fault(),
        );
        let first = scene.formatter.day_step(&first.key);
        let words = scene.text("surgery-not-yet-first", &[("step", &first)]);
        line(ui, words, scale.px(40.0), scene.ink());
        line(
            ui,
            scene.formatter.length_or_none(large),
            scale.px(36.0),
            scene.soft(),
        );
    });
}

/// How a step stands, for the room that its setting takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    /// Nothing is to be said.
    Clear,
    /// It is ready, with something to know.
    Told,
    /// It is not.
    NotReady,
}

fn stands(step: &DayStep<'_>) -> Stands {
    if step.state.is_over() || step.not_ready.is_empty() {
        Stands::Clear
    } else if step.is_ready() {
        Stands::Told
    } else {
        Stands::NotReady
    }
}

/// The setting, which leaves its room to why it is not to be acted on, and to what could be taken for its drill. With something to
/// know it is still read from two metres.
fn figure(ui: &mut Ui, scene: &Scene<'_>, drill: &SetDrill<'_>, stands: Stands) {
    let (scale, theme) = (scene.scale, scene.theme);
    let kit = &scene.document.case().kit;
    let known = Actionable::of_item(drill.item).map(|one| one.figure(kit));
    let large = known.and_then(ActionableFigure::large);
    let Some(large) = large else {
        strong(
            ui,
            scene.word("setting-none"),
            scale.px(100.0),
            theme.fault(),
        );
        return;
    };
    let (size, ink) = match stands {
        Stands::Clear => (scale.figure(), scene.ink()),
        Stands::Told => (scale.px(150.0), scene.ink()),
        Stands::NotReady => (scale.px(110.0), theme.fill(Ink::Faint)),
    };
    let shown = scene.formatter.set_length(&Known::Is(large));
    strong(ui, shown, size, ink);
    ui.vertical(|ui| {
        if stands == Stands::Clear {
            ui.add_space(scale.px(72.0));
        }
        line(ui, scene.word("loading-mm"), scale.big(), ink);
        if let Some(ActionableFigure::GaugeFigure { set, .. }) = known {
            let set = scene.formatter.set_length(&Known::Is(set));
            let words = scene.text("surgery-tip-to-stop", &[("set", &set)]);
            line(ui, words, scale.text(), scene.soft());
        }
    });
}

/// Who read it, with what the gauge showed: those readings that count for the sterile field.
fn read_by(scene: &Scene<'_>, drill: &SetDrill<'_>) -> Option<String> {
    let checks = &drill.standing?.checks;
    let check = checks.get(&Stage::SterileField)?;
    let bench = checks.get(&Stage::Bench)?;
    let shown = if check.first.is_none() && check.aloud {
        [&bench.first, &bench.second, &check.second]
    } else {
        [&check.first, &check.second, &None]
    };
    let readings = &scene.document.record.standing.readings;
    let said = shown.into_iter().flatten().filter_map(|id| {
        let one = readings.iter().find(|one| one.id == *id)?;
        let value = scene.formatter.set_length(&Known::Is(one.reading.value_mm));
        let args = [("who", one.who.as_str()), ("value", &*value)];
        Some(scene.text("surgery-reading", &args))
    });
    let said: Vec<String> = said.collect();
    let read = said.join(", ");
    (!said.is_empty()).then(|| scene.text("surgery-read", &[("readings", &read)]))
}

/// Why the step is not ready, in full view.
pub(super) fn not_ready(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    let (first, others) = whys(scene, step);
    why_first(ui, scene, (step, first));
    for words in others {
        line(ui, words, scene.scale.px(34.0), scene.ink());
    }
}

/// Why the step is not ready, sentences: the worst, and the others.
fn whys(scene: &Scene<'_>, step: &DayStep<'_>) -> (Option<String>, Vec<String>) {
    let whys = step.not_ready.iter().filter(|_| !step.state.is_over());
    let by_hand = step.may_be_by_hand();
    let mut said = whys.flat_map(|why| scene.formatter.not_ready(why, by_hand));
    (said.next(), said.collect())
}

/// The worst reason, as a STOP where it is one.
fn why_first(ui: &mut Ui, scene: &Scene<'_>, (step, first): (&DayStep<'_>, Option<String>)) {
    let (scale, theme) = (scene.scale, scene.theme);
    let Some(first) = first else { return };
    if step.is_ready() {
        strong(ui, first, scale.px(44.0), theme.fault());
    } else {
        let words = scene.text("surgery-stop-not-ready", &[("why", &first)]);
        strong(ui, words, scale.px(WHY), theme.fault());
    }
}

/// What could be taken for it: the likeliest two, each with what it would do. They leave room for what speaks against the step.
fn alike(ui: &mut Ui, scene: &Scene<'_>, (step, drilling): (&DayStep<'_>, &Drilling<'_>)) {
    const TOLD: usize = 2;
    let (scale, theme) = (scene.scale, scene.theme);
    let (side, what, harm) = match stands(step) {
        Stands::Clear => (50.0, 38.0, 30.0),
        Stands::Told | Stands::NotReady => (36.0, 26.0, 26.0),
    };
    for one in drilling.alike.iter().take(TOLD) {
        let said = scene.formatter.look_alike(one);
        ui.add_space(scale.px(8.0));
        let edge = Stroke::new(scale.px(2.0), theme.fill(Ink::Strong));
        let frame = egui::Frame::NONE.stroke(edge).inner_margin(scale.px(10.0));
        frame.show(ui, |ui| {
            ui.horizontal_top(|ui| {
                let side = scale.px(side);
                let (square, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
                mark(ui, square, Severity::Tight);
                ui.vertical(|ui| {
                    let words = scene.text("surgery-look-alike", &[("what", &said.what)]);
                    strong(ui, words, scale.px(what), scene.ink());
                    line(ui, begin(&said.harm), scale.px(harm), scene.soft());
                });
            });
        });
    }
}

/// The ways in which an implant goes in, and what ends each.
fn insertion(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>, site: &SiteSheet) {
    let scale = scene.scale;
    not_ready(ui, scene, step);
    if let Some(sheet) = &site.insertion {
        let guided = scene.formatter.insertion(Some(sheet));
        let words = scene.text("surgery-guided-how", &[("how", &guided)]);
        // Down to the torque all of it is in sight.
        strong(ui, words, scale.px(35.0), scene.ink());
        if let Some(stays) = scene.formatter.carrier_stays(&site.id) {
            strong(ui, stays, scale.px(35.0), scene.theme.fault());
        } else {
            line(
                ui,
                scene.word("surgery-carrier-out"),
                scale.px(32.0),
                scene.ink(),
            );
        }
        line(
            ui,
            scene.word("surgery-begun-how"),
            scale.px(32.0),
            scene.ink(),
        );
    }
    by_hand(ui, scene, (site, &site.implant));
}

/// How deep by hand: from the crest and the gingiva, with the torque limit.
fn by_hand(ui: &mut Ui, scene: &Scene<'_>, (site, implant): (&SiteSheet, &ImplantId)) {
    let scale = scene.scale;
    if let Some(depth) = final_depth_by_hand(scene.document.case(), &site.id) {
        let words = begin(&scene.formatter.final_depth(&depth));
        let words = scene.text("surgery-by-hand", &[("depth", &words)]);
        line(ui, words, scale.px(34.0), scene.ink());
    }
    let torque = scene.formatter.implant_torque(implant);
    line(ui, torque, scale.px(34.0), scene.ink());
}

/// What is recorded of the step: that it was done or left out.
pub(super) fn told(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let event = match step.state {
        State::Done(one) | State::Skipped(one) => Some(one),
        _ => None,
    };
    if let Some(one) = event {
        let at = one.at.strftime("%H:%M").to_string();
        let args = [("who", one.who.as_str()), ("at", at.as_str())];
        match &one.kind {
            EventKind::StepSkipped(skipped) => {
                let args = [args[0], args[1], ("reason", &*skipped.reason)];
                let words = if step.done_before().is_some() {
                    scene.text("surgery-is-not-again", &args)
                } else {
                    scene.text("surgery-is-left-out", &args)
                };
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            EventKind::Inserted(inserted) if inserted.way == InsertionWay::Begun => {
                let words = scene.text("surgery-is-begun", &args);
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            EventKind::Inserted(inserted) => {
                let torque = scene.formatter.torque_reached(inserted.torque_ncm);
                let depth = scene.formatter.depth_reached(inserted.coronal_of_plan_mm);
                let args = [args[0], args[1], ("torque", &*torque), ("depth", &*depth)];
                let words = scene.text("surgery-is-turned-in", &args);
                strong(ui, words, scale.px(44.0), scene.ink());
                for words in scene.formatter.reached(inserted) {
                    strong(ui, begin(&words), scale.px(44.0), theme.fault());
                }
            }
            kind if matches!(step.state, State::Skipped(_)) => {
                let reason = scene.formatter.happened_in_surgery(kind);
                let args = [args[0], args[1], ("reason", &*reason)];
                let words = scene.text("surgery-is-left-out", &args);
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            EventKind::StepDone(done) if done.by_hand.is_some() => {
                let words = scene.text("surgery-is-done", &args);
                strong(ui, words, scale.px(44.0), scene.ink());
                let words = begin(&scene.formatter.step_done(done));
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            _ => {
                let words = scene.text("surgery-is-done", &args);
                strong(ui, words, scale.px(44.0), scene.ink());
            }
        }
    }
    if let Some(words) = scene.doubled(step) {
        strong(ui, words, scale.px(44.0), theme.fault());
    }
}
