//! Surgery: the whole window, one step at a time, read from two metres and worked by one key a step.
//!
//! What is to be done and how far it is says the day ([`traywright_core::surgery`]), which follows from the plan and its record alone; here is only what
//! the person at the desk is about ([`doing`]). A step counts once it is written, and after whatever ended the program the day
//! goes on where its last event left it. Stops are set and read in the passes of the loading view.

mod ask;
mod barrier;
mod change;
mod doing;
mod foot;
mod head;
mod keys;
mod list;
mod next;
mod scan;
mod scene;
mod start;
mod step;
mod stop;
mod take;
mod why;

use crate::action::{Action, Command, View};
use crate::context::{CaseContext, ViewContext};
use crate::desk::{Document, OnDisk};
use crate::look::Theme;
use crate::view::loading::fresh::{Fresh, is_held};
use crate::view::loading::rolled::by_keys;
use crate::view::loading::scale::{Scale, strong};
use crate::view::loading::start::Gate;
use crate::view::loading::twice::{Press, Twice};
use crate::view::loading::{board, lies_wrong, untold};
use change::Kind;
use doing::{Asked, Doing, For, Listed, OfStep};
use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, Stroke, Ui, vec2};
use keys::Pressed;
use scan::Scan;
use scene::Scene;
use std::time::Duration;
use take::{Outcome, Wanted};
use traywright_core::drawing::Ink;
use traywright_core::sign::{EventKind, Stage, StepKey, Who, WriterId};
use traywright_core::surgery::{Day, State as Progress, day};
use why::Stop;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    doing: Doing,
    /// The words on the last press.
    told: Option<String>,
    /// The request that is carried out when it is pressed once more.
    twice: Twice<Pressed>,
    /// The time at which a step was last reported done.
    fresh: Fresh,
    /// What a scanner types.
    scan: Scan,
    /// The step that the frame before showed.
    shown: Option<OfStep>,
    /// The screen that the frame before showed: another one begins at its top.
    screen: Option<Screen>,
    /// What the press of this frame found that has something recorded.
    before: Option<Doing>,
    /// What the STOP that is shown told somebody to take.
    told_to_take: Vec<EventKind>,
    /// Something could not be recorded in this frame.
    halted: bool,
    /// The words on the last step, which could not be recorded, until one is or the view is left.
    unwritten: Option<String>,
}

impl State {
    /// The view is not looked at: what was asked and typed goes, the day stays in its record.
    pub fn look_away(&mut self) {
        (self.before, self.halted, self.unwritten, self.told) = (None, false, None, None);
        self.twice.forget();
        (self.shown, self.screen) = (None, None);
        self.doing.look_at(None);
        self.doing.list = Listed::Step;
    }

    /// The person who records; none until initials were given.
    #[must_use]
    pub const fn who(&self) -> Option<&Who> {
        self.doing.who.as_ref()
    }

    /// Another case is looked at: nobody of this one records there.
    pub fn forget(&mut self) {
        *self = Self::default();
    }

    /// True if something that was to be recorded in this frame was not: then nothing after it is either, nor is the case changed for
    /// it.
    #[must_use]
    pub const fn is_halted(&self) -> bool {
        self.halted
    }

    /// Takes back what a press did that could not be recorded, and says so in these words.
    pub fn not_written(&mut self, words: &str) {
        self.unwritten = Some(words.to_owned());
        if let Some(before) = self.before.take() {
            self.halted = true;
            self.doing = before;
            self.told = None;
        }
    }

    /// Something was recorded: the reason why the step before was not is of the past.
    pub fn written(&mut self) {
        self.unwritten = None;
    }
}

/// What a screen is about.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Screen {
    stop: Option<Stop>,
    asked: Asked,
    list: Listed,
    records: bool,
    step: Option<StepKey>,
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut CaseContext<'_, State>) {
    let kits = (cx.offered_kit(), cx.kit_at_hand());
    let CaseContext {
        document,
        own: state,
        shared: cx,
    } = cx;
    let document: &Document = document;
    (state.before, state.halted) = (None, false);
    let record = &document.record;
    let day = day(
        document.case(),
        document.worksheet(),
        (&record.view, &record.standing),
    );
    let board = board(cx, document, Stage::SterileField);
    let lies_wrong = lies_wrong(cx, document, &board);
    let desk = WriterId::new(&cx.desk.settings.desk).ok();
    let untold = untold(document, &board);
    let doing = state.doing.clone();
    let names = board.names();
    let at = doing.at(&day).and_then(|at| day.steps.get(at));
    let worn = at.and_then(|step| step::worn((cx.desk, document), (&day, step), cx.now));
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        day: &day,
        doing: &doing,
        lies_wrong: &lies_wrong,
        worn: worn.as_deref(),
        untold: &untold,
        desk: desk.as_ref(),
        gauge_off: board.gauge.as_ref().and_then(|gauge| gauge.off),
        people: &board.people,
        names: &names,
        kits,
        scale: Scale::of(ui.max_rect().size()),
        theme: Theme::of(ui),
        now: cx.now,
    };
    let stop = why::stop(&scene);
    tell(cx, &scene, stop.as_ref(), state);
    // What was asked at the step is asked no more once something stops: nothing of it is recorded over that.
    // Nor is it once the step is another one, or another desk was there: the answer would be written for that.
    let here = scene.step().map(|(_, step)| OfStep::of(step));
    let other_step = doing.of.is_some() && doing.of != here;
    let other_shown = state.shown.is_some() && state.shown != here;
    let gone = other_step || stop.as_ref().is_some_and(|stop| is_gone(&doing, stop));
    if gone {
        state.doing.let_go();
        state.twice.forget();
        state.told = Some(scene.word("surgery-gone"));
        ui.ctx().request_repaint();
    }
    state.shown.clone_from(&here);
    // What is pressed as the step changes was meant for the one before.
    let unseen = gone || other_shown;
    let now_s = ui.input(|input| input.time);
    let answers = is_escape_answer(ui, state, now_s);
    let mut pressed = Vec::new();
    if cx.state.ask.is_none() {
        pressed = state.scan.by_hand(keys::pressed(ui), now_s);
        if state.scan.waits() {
            ui.ctx().request_repaint();
        }
    }
    shown(ui, cx, &scene, (stop.as_ref(), state), &mut pressed);
    let held = ui.input(|input| input.events.iter().any(is_held));
    for one in keys::up_to_one_act(pressed).into_iter().filter(|_| !unseen) {
        if one == Pressed::Leave && answers {
            ui.ctx().request_repaint();
            continue;
        }
        // Enter with nothing typed says something by itself, as Space does.
        let empty = state.doing.entry.typed.as_str().is_empty();
        let says = one == Pressed::Done || one == Pressed::Enter && empty;
        let presses = matches!(one, Pressed::Done | Pressed::Enter);
        let fresh = !presses || state.fresh.is_fresh(now_s);
        if says && (!fresh || held) {
            continue;
        }
        let again = if take::is_asked_twice(&scene, stop.as_ref(), &one) {
            state.twice.press(&one, now_s) == Press::Second
        } else {
            state.twice.forget();
            true
        };
        let before = state.doing.clone();
        let outcome = take::take(
            &scene,
            (&board, stop.as_ref()),
            &mut state.doing,
            (&one, again),
        );
        state.doing.bind(scene.step().map(|(_, step)| step));
        carry_out(cx, (state, before), outcome);
        ui.ctx().request_repaint();
    }
    wake(ui, state.twice.waits_s(now_s), &day);
}

/// Lets go of what is asked twice once it is too late, or something else is pressed. True if Escape answers what is asked at the
/// foot, and leaves nothing behind it.
fn is_escape_answer(ui: &Ui, state: &mut State, now_s: f64) -> bool {
    let other = |waiting: &Pressed| ui.input(|input| keys::any_but(&input.raw.events, waiting));
    let over = state.twice.waits_s(now_s).is_some_and(|left| left <= 0.0);
    let waits = state.twice.waiting().filter(|_| !over);
    let answers = waits.is_some_and(|waiting| *waiting != Pressed::Leave);
    if over || state.twice.waiting().is_some_and(other) {
        state.twice.forget();
        state.told = None;
    }
    answers
}

/// The window is drawn again once a second press comes too late, and each second of a day: the clock goes on.
fn wake(ui: &Ui, waits_s: Option<f64>, day: &Day<'_>) {
    if let Some(left) = waits_s {
        let left = Duration::from_secs_f64(left.max(0.0));
        ui.ctx().request_repaint_after(left);
    }
    if day.begun.is_some() {
        ui.ctx().request_repaint_after(Duration::from_secs(1));
    }
}

/// What the STOP that is shown tells somebody to take is recorded with its first frame: a hand may do it at once, whatever
/// becomes of the plan then.
fn tell(cx: &mut ViewContext<'_>, scene: &Scene<'_>, stop: Option<&Stop>, state: &mut State) {
    let tells = match stop {
        Some(Stop::Other(changed)) => !changed.lies_wrong.is_empty(),
        Some(Stop::Gate(Gate::Unsaved)) => scene.day.begun.is_some(),
        _ => state.doing.asked == Asked::Reason(For::GoOn),
    };
    let on_disk = scene.document.on_disk() == OnDisk::AsSaved;
    let sound = !scene.document.record.standing.broken;
    let who = state.doing.who.as_ref().or(state.doing.comes.as_ref());
    let Some(who) = who.filter(|_| tells && on_disk && sound) else {
        state.told_to_take.clear();
        return;
    };
    let new = scene
        .untold
        .iter()
        .filter(|one| !state.told_to_take.contains(one));
    let new: Vec<EventKind> = new.cloned().collect();
    let who = who.to_string();
    if !new.is_empty() {
        state.before = Some(state.doing.clone());
    }
    for kind in new {
        state.told_to_take.push(kind.clone());
        let who = who.clone();
        cx.act(Action::Sign { who, kind });
    }
}

/// True if what is asked has no place beside a stop.
fn is_gone(doing: &Doing, stop: &Stop) -> bool {
    match (stop, doing.asked) {
        (_, Asked::Nothing) => doing.has_in_hand(),
        (Stop::Other(_), Asked::Person | Asked::Sitting) => false,
        (Stop::Other(_), Asked::Reason(For::GoOn)) if doing.anew => false,
        (
            Stop::Other(changed),
            Asked::Reason(For::GoOn) | Asked::FellOfAll | Asked::Confirm(Kind::PlanAbandoned),
        ) => doing.going_on.as_ref() != Some(changed),
        _ => true,
    }
}

fn carry_out(cx: &mut ViewContext<'_>, (state, before): (&mut State, Doing), outcome: Outcome) {
    state.told = outcome.told;
    if !outcome.kinds.is_empty() {
        // What nobody records is not done, nor what would follow from it.
        let Some(who) = state.doing.who.as_ref().map(ToString::to_string) else {
            return;
        };
        state.before = Some(before);
        for kind in outcome.kinds {
            let who = who.clone();
            cx.act(Action::Sign { who, kind });
        }
    }
    match outcome.wanted {
        Wanted::Nothing => {}
        Wanted::Findings => cx.act(Action::LookAtOpen),
        Wanted::Leave => cx.act(Action::Do(Command::Show(View::Arch))),
        Wanted::Edit(change) => cx.edit(change),
        Wanted::Passes(thing) => cx.act(Action::ReadInField(thing)),
    }
}

/// Shows what is looked at; the keys that were pressed are joined by the targets that were.
fn shown(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    scene: &Scene<'_>,
    (stop, state): (Option<&Stop>, &mut State),
    out: &mut Vec<Pressed>,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    let screen = Screen {
        stop: stop.cloned(),
        asked: scene.doing.asked,
        list: scene.doing.list,
        records: scene.records(),
        step: scene.step().map(|(_, step)| step.key.clone()),
    };
    let is_new = state.screen.as_ref() != Some(&screen);
    state.screen = Some(screen);
    ui.spacing_mut().item_spacing = vec2(scale.px(14.0), scale.px(8.0));
    #[expect(clippy::cast_possible_truncation, reason = "some points")]
    let margin = Margin::symmetric(scale.px(40.0) as i8, scale.px(10.0) as i8);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(margin);
    if let Some(words) = &state.unwritten {
        Panel::top("surgery unwritten")
            .frame(frame)
            .show_separator_line(false)
            .show(ui, |ui| {
                strong(ui, words, scale.px(44.0), theme.fault());
            });
    }
    Panel::top("surgery head")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| head::ui(ui, scene, stop));
    let asked = scene.doing.asked;
    let needs_who = !scene.records();
    // What takes the whole screen has an edge all around it.
    let edged = |ink| frame.stroke(Stroke::new(scale.px(14.0), theme.fill(ink)));
    if let Some(Stop::Gate(gate)) = stop {
        let frame = if scene.day.begun.is_some() {
            edged(Ink::Short)
        } else {
            frame
        };
        let command = whole(ui, (frame, is_new), |ui| {
            stop::gate_ui(ui, scene, *gate, out)
        });
        if let Some(command) = command {
            cx.act(Action::Do(command));
        }
        return;
    }
    if asked != Asked::Nothing || needs_who {
        let told = state.told.as_deref();
        question(
            ui,
            scene,
            (told, &mut state.doing.field),
            (frame, is_new),
            out,
        );
        return;
    }
    if let Some(Stop::Other(changed)) = stop {
        Panel::bottom("surgery foot").frame(frame).show(ui, |ui| {
            stop::foot_ui(ui, scene, state.told.as_deref(), out);
        });
        whole(ui, (edged(Ink::Short), is_new), |ui| {
            stop::ui(ui, scene, changed);
        });
        return;
    }
    Panel::bottom("surgery foot").frame(frame).show(ui, |ui| {
        if scene.doing.list == Listed::Step {
            next::ui(ui, scene);
        }
        foot::ui(ui, scene, state.told.as_deref(), out);
    });
    if scene.doing.list == Listed::All {
        whole(ui, (frame, is_new), |ui| list::ui(ui, scene));
        return;
    }
    let Some((_, step)) = scene.step() else {
        whole(ui, (frame, is_new), |ui| start::over_ui(ui, scene));
        return;
    };
    if step.is_barrier() {
        let stops = matches!(step.state, Progress::Off(..) | Progress::Amiss(_));
        let ink = if stops { Ink::Short } else { Ink::Accent };
        whole(ui, (edged(ink), is_new), |ui| {
            barrier::ui(ui, scene, step, out);
        });
        return;
    }
    Panel::right("surgery arch")
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(scale.px(560.0))
        .show(ui, |ui| next::arch_ui(ui, cx, scene, step));
    whole(ui, (frame, is_new), |ui| step::ui(ui, scene, step));
}

/// What is asked; where nothing is, whose initials are to be given.
fn question(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (told, field): (Option<&str>, &mut String),
    (frame, is_new): (Frame, bool),
    out: &mut Vec<Pressed>,
) {
    let is_asked = scene.doing.asked != Asked::Nothing;
    Panel::bottom("surgery foot").frame(frame).show(ui, |ui| {
        foot::ui(ui, scene, told, out);
    });
    if !is_asked {
        // In sight whatever there is to be told: what has the keyboard is never scrolled to.
        Panel::bottom("surgery who")
            .frame(frame)
            .show_separator_line(false)
            .show(ui, |ui| start::who_ui(ui, scene, field, out));
    }
    whole(ui, (frame, is_new), |ui| {
        if is_asked {
            ask::ui(ui, scene, field, out);
        } else {
            start::ui(ui, scene);
        }
    });
}

/// All that the panels leave; it scrolls where it has to, a new screen from its top.
fn whole<R>(ui: &mut Ui, (frame, is_new): (Frame, bool), add: impl FnOnce(&mut Ui) -> R) -> R {
    let shown = CentralPanel::default().frame(frame).show(ui, |ui| {
        let mut area = ScrollArea::vertical()
            .id_salt("surgery body")
            .auto_shrink(false);
        if is_new {
            area = area.vertical_scroll_offset(0.0);
        }
        area.show(ui, |ui| {
            by_keys(ui, ui.clip_rect().height());
            add(ui)
        })
        .inner
    });
    shown.inner
}
