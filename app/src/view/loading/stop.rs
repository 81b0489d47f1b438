//! STOP: the plan changed while the tray is loaded. What is wrong now is shown here until somebody
//! confirms having read it.

use super::changed::{Changed, Resets, Why, Wrong};
use super::keys::{self, Pressed};
use super::rolled::{ShownToEnd, by_keys};
use super::scale::{Weight, line, strong, target};
use super::scene::{Scene, sites};
use super::start::WindowRequest;
use super::task::{Block, Key, Task, thing_of_drill};
use crate::action::Command;
use crate::desk::OnDisk;
use egui::{ScrollArea, Stroke, StrokeKind, Ui};
use traywright_core::drawing::Ink;
use traywright_core::kit::DrillId;
use traywright_core::measure::Length;
use traywright_core::plan::{Known, Rule, misfit};
use traywright_core::sign::{SettingState, ToldWork};

/// Shows it in full view.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (changed, shown): (&Changed, &mut ShownToEnd),
    out: &mut Vec<Pressed>,
) -> WindowRequest {
    let sentences = sentences(scene, changed);
    let (scale, theme) = (scene.scale, scene.theme);
    let edge = Stroke::new(scale.px(14.0), theme.fill(Ink::Short));
    let rect = ui.max_rect().expand(scale.px(20.0));
    ui.painter()
        .rect_stroke(rect, 0.0, edge, StrokeKind::Inside);
    let mut wanted = WindowRequest::Nothing;
    strong(
        ui,
        scene.word("loading-stop"),
        scale.px(150.0),
        theme.fault(),
    );
    let why = if changed.wrong.is_empty() {
        "loading-stop-changed"
    } else {
        "loading-stop-why"
    };
    strong(ui, scene.word(why), scale.big(), theme.fill(Ink::Strong));
    // As high with the target as with the words in its place, so that nothing below it moves.
    let height = scale.target();
    ui.horizontal_wrapped(|ui| {
        ui.set_min_height(height);
        // What only this window's memory holds is no plan to load by.
        if scene.document.is_changed() {
            let verb = scene.word("command-save");
            let key = ui.ctx().format_shortcut(&Command::Save.key());
            if target(ui, scale, (&verb, &key), Weight::Main, scale.px(520.0)).clicked() {
                wanted = WindowRequest::Do(Command::Save);
            }
            leave(ui, scene, out);
            line(
                ui,
                scene.word("loading-stop-unsaved"),
                scale.text(),
                theme.fault(),
            );
        } else if !shown.is_shown(&sentences) {
            let count = &[("count", sentences.len())];
            let words = scene.counted("loading-stop-more", count, &[]);
            strong(ui, words, scale.text(), theme.fault());
        } else {
            let verb = scene.word("loading-understood");
            let words = (verb.as_str(), keys::shown(&Pressed::Understood));
            if target(ui, scale, words, Weight::Main, scale.px(520.0)).clicked() {
                out.push(Pressed::Understood);
            }
        }
    });
    // Not saved yet, nothing is said of a hand.
    if !scene.document.is_changed() {
        asked_ui(ui, scene, changed, out);
    }
    ui.add_space(scale.px(12.0));
    let mut area = ScrollArea::vertical().id_salt("loading stop");
    if shown.is_new(&sentences) {
        area = area.vertical_scroll_offset(0.0);
    }
    let area = area.show(ui, |ui| {
        by_keys(ui, ui.clip_rect().height());
        for words in &sentences {
            line(ui, words, scale.px(50.0), theme.fill(Ink::Strong));
        }
    });
    shown.look(sentences, &area);
    wanted
}

/// Asks of one thing after the other what a hand did with it. The room is there without a question too.
fn asked_ui(ui: &mut Ui, scene: &Scene<'_>, changed: &Changed, out: &mut Vec<Pressed>) {
    if changed.wrong.is_empty() {
        return;
    }
    let (scale, theme) = (scene.scale, scene.theme);
    let Some(asked) = changed.asked() else {
        if changed.left().next().is_some() {
            let words = scene.word("loading-stop-some-stay");
            line(ui, words, scale.px(44.0), theme.fill(Ink::Strong));
        }
        return;
    };
    let id = match asked.set_anew() {
        Some(_) => "loading-stop-asks-stop",
        None => "loading-stop-asks",
    };
    let words = scene.text(id, &[("what", &what(scene, asked))]);
    strong(ui, words, scale.px(44.0), theme.fill(Ink::Accent));
    ui.horizontal_wrapped(|ui| {
        for (id, pressed) in [
            ("loading-stop-taken", Pressed::Taken),
            ("loading-stop-stays", Pressed::Stays),
        ] {
            let verb = scene.word(id);
            let words = (verb.as_str(), keys::shown(&pressed));
            if target(ui, scale, words, Weight::Other, scale.px(420.0)).clicked() {
                out.push(pressed);
            }
        }
    });
}

/// Shows in full view that the case's file is not what is loaded here.
pub(super) fn disk_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    on_disk: OnDisk,
    out: &mut Vec<Pressed>,
) -> WindowRequest {
    let (scale, theme) = (scene.scale, scene.theme);
    let why = match on_disk {
        OnDisk::Gone => "loading-file-gone",
        OnDisk::Other | OnDisk::AsSaved => "loading-file-other",
    };
    let stop = scene.word("loading-stop");
    strong(ui, stop, scale.px(150.0), theme.fault());
    strong(ui, scene.word(why), scale.big(), theme.fill(Ink::Strong));
    let mut wanted = WindowRequest::Nothing;
    ui.horizontal_wrapped(|ui| {
        let verb = scene.word("command-save");
        let key = ui.ctx().format_shortcut(&Command::Save.key());
        if target(ui, scale, (&verb, &key), Weight::Main, scale.px(420.0)).clicked() {
            wanted = WindowRequest::Do(Command::Save);
        }
        leave(ui, scene, out);
    });
    wanted
}

/// The way to the desk.
fn leave(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let words = ["loading-leave", "loading-key-escape"].map(|id| scene.word(id));
    let words = (words[0].as_str(), words[1].as_str());
    if target(ui, scene.scale, words, Weight::Other, 0.0).clicked() {
        out.push(Pressed::Leave);
    }
}

/// The faults, a sentence each.
pub(super) fn sentences(scene: &Scene<'_>, changed: &Changed) -> Vec<String> {
    let left = changed.left().map(|one| wrong(scene, one));
    let mut said: Vec<String> = left.collect();
    if changed.wrong.is_empty() {
        said.push(scene.word("loading-stop-nothing-wrong"));
    }
    if changed.approvals > 0 {
        said.push(scene.word("loading-stop-approval"));
    }
    if !changed.added.is_empty() {
        let names: Vec<&str> = changed
            .added
            .iter()
            .map(|item| item.name.as_str())
            .collect();
        said.push(scene.text("loading-stop-added", &[("names", &names.join(", "))]));
    }
    if changed.resets == Resets::Otherwise {
        said.push(scene.word("loading-stop-resets"));
    }
    if said.is_empty() {
        said.push(scene.word("loading-stop-all-taken"));
    }
    said
}

/// A fault where no STOP records what was told: no setting, and nothing for a hand to do but to fetch who sets.
pub(super) fn for_who_sets(scene: &Scene<'_>, one: &Wrong) -> String {
    let id = match &one.why {
        Why::Setting { .. } | Why::Mark { .. } => "loading-wrong-otherwise",
        _ => "loading-wrong-who-sets",
    };
    scene.text(id, &[("what", &what(scene, one))])
}

/// A thing and where it lies.
fn what(scene: &Scene<'_>, one: &Wrong) -> String {
    let name = name(scene, &one.key);
    match &one.lies {
        Some(slot) => scene.text("loading-wrong-in", &[("name", &name), ("slot", slot)]),
        None => name,
    }
}

pub(super) fn wrong(scene: &Scene<'_>, one: &Wrong) -> String {
    let what = what(scene, one);
    let shown = |length: Length| scene.formatter.set_length_with_unit(&Known::Is(length));
    let set = |length: Length| scene.thing_set_to(&one.thing(), length);
    match &one.why {
        Why::Setting { was, now } => {
            let args = [("what", &*what), ("was", &*set(*was)), ("now", &*set(*now))];
            scene.text("loading-wrong-setting", &args)
        }
        Why::Mark { was, now } => {
            let args = [
                ("what", &*what),
                ("was", &*shown(*was)),
                ("now", &*shown(*now)),
            ];
            scene.text("loading-wrong-mark", &args)
        }
        Why::EitherOfTwo => scene.text("loading-wrong-either", &[("what", &what)]),
        Why::Instrument => scene.text("loading-wrong-instrument", &[("what", &what)]),
        Why::Stop => scene.text("loading-wrong-stop", &[("what", &what)]),
        Why::Gauge => scene.text("loading-wrong-gauge", &[("what", &what)]),
        Why::Again => scene.text("loading-wrong-again", &[("what", &what)]),
        Why::Blocked(block) => {
            let why = why_blocked(scene, one, *block);
            scene.text("loading-wrong-off", &[("why", &why)])
        }
        Why::NotNeeded => scene.text("loading-wrong-not-needed", &[("what", &what)]),
        Why::Slot { now: Some(slot) } => {
            scene.text("loading-wrong-slot", &[("what", &what), ("slot", slot)])
        }
        Why::Told(ToldWork::Take) => scene.text("loading-wrong-told-off", &[("what", &what)]),
        Why::Told(ToldWork::SetAnew) => scene.text("loading-wrong-told", &[("what", &what)]),
        Why::SlotOfAlike { now: Some(slot) } => {
            let args = [("what", &*what), ("slot", slot.as_str())];
            scene.text("loading-wrong-slot-alike", &args)
        }
        Why::SlotOfAlike { now: None } => {
            scene.text("loading-wrong-no-slot-alike", &[("what", &what)])
        }
        Why::Slot { now: None } => scene.text("loading-wrong-no-slot", &[("what", &what)]),
    }
}

/// Why a thing is not to be set any more, where that is its fault, without what to do.
pub(super) fn void(scene: &Scene<'_>, one: &Wrong) -> Option<String> {
    match one.why {
        Why::Blocked(block) => Some(why_blocked(scene, one, block)),
        _ => None,
    }
}

fn why_blocked(scene: &Scene<'_>, one: &Wrong, block: Block) -> String {
    let what = what(scene, one);
    scene.text(blocked(scene, &one.key, block), &[("what", &what)])
}

/// The words on what is not to be set any more, by id.
fn blocked(scene: &Scene<'_>, key: &Key, block: Block) -> &'static str {
    let by_mark = matches!(key, Key::Set(key) | Key::Anew(key, _) if key.stop.is_none());
    match block {
        Block::NoFigure if by_mark => "loading-wrong-no-mark",
        Block::NoFigure => "loading-wrong-no-figure",
        Block::NoGaugeFigure => "loading-wrong-no-gauge-figure",
        Block::DoesNotFit if by_mark => "loading-wrong-does-not-fit",
        Block::DoesNotFit => {
            let tasks = scene.board.tasks.iter();
            let mut here = tasks.filter(|task| is_of(task, key));
            let item = here.find_map(|task| scene.item(task));
            match item.and_then(|item| misfit(item, scene.worksheet())) {
                Some(finding) if is_of_stop(finding.rule) => "loading-wrong-stop-does-not-fit",
                _ => "loading-wrong-does-not-fit",
            }
        }
    }
}

/// True if the task is of this drill.
/// Shows that the code of another thing was given than that of the one in hand, until somebody has read that.
pub(super) fn code_ui(ui: &mut Ui, scene: &Scene<'_>, words: &str, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let stop = scene.word("loading-stop");
    strong(ui, stop, scale.px(150.0), theme.fault());
    strong(ui, words, scale.big(), theme.fill(Ink::Strong));
    ui.add_space(scale.px(20.0));
    let verb = scene.word("loading-code-go-on");
    let words = (verb.as_str(), keys::shown(&Pressed::Understood));
    if target(ui, scale, words, Weight::Main, scale.px(760.0)).clicked() {
        out.push(Pressed::Understood);
    }
}

fn is_of(task: &Task, key: &Key) -> bool {
    match key {
        Key::Set(key) | Key::Anew(key, _) => task.thing == thing_of_drill(key),
        Key::Thing(thing) => task.thing == *thing,
    }
}

/// True for a rule that finds a stop where it cannot sit, whatever the sleeves are.
const fn is_of_stop(rule: Rule) -> bool {
    matches!(rule, Rule::OffClampingLength)
}

/// The name of a thing, which the plan may no longer have.
fn name(scene: &Scene<'_>, key: &Key) -> String {
    match key {
        Key::Set(key) | Key::Anew(key, _) => {
            let drill = scene.formatter.drill(&DrillId::from(key.drill.as_str()));
            let tasks = scene.board.tasks.iter();
            let mut now = tasks.filter(|task| task.state() == SettingState::Now);
            let same = now.find(|task| task.thing == thing_of_drill(key));
            let sites: Vec<String> = same
                .and_then(|task| scene.item(task))
                .map(|item| {
                    sites(item)
                        .into_iter()
                        .map(|site| scene.formatter.site(site))
                })
                .into_iter()
                .flatten()
                .collect();
            if sites.is_empty() {
                return drill;
            }
            let args = [("name", &*drill), ("sites", &*sites.join(", "))];
            scene.text("loading-wrong-for", &args)
        }
        Key::Thing(thing) => scene.formatter.thing(thing),
    }
}
