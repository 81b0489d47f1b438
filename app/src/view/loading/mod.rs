//! Loading the tray: the whole window, read standing from two metres.
//!
//! Two passes: in a [`session`] one person sets and reads with the figures in sight, in a [`blind`] one
//! the drills are read again with none in sight of anyone. [`task`] is what the record says,
//! [`changed`] what a change of the plan made wrong; all four are pure. The rest shows it.

mod beside;
pub mod blind;
pub mod changed;
mod ended;
mod falls;
mod foot;
mod fresh;
mod head;
mod instrument;
mod keys;
mod list;
mod reading;
mod record;
mod refusal;
mod scale;
mod scene;
pub mod session;
mod short;
mod start;
mod steps;
mod stop;
pub mod task;
mod tray;
pub mod typed;
mod warning;

#[cfg(test)]
mod tests;

use crate::action::View;
use crate::action::{Action, Command};
use crate::context::{CaseContext, ViewContext};
use crate::desk::Document;
use crate::desk::policy;
use crate::look::Theme;
use blind::{BlindPass, BlindPhase, Facts};
use changed::{Changed, changed, differ, lying_wrong};
use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, Ui, vec2};
use falls::fell;
use fresh::Fresh;
use keys::{Choosing, Pressed};
use scale::{Scale, Weight, target};
use scene::Scene;
use session::{Effect, GaugeFell, Input, Phase, Session, Step};
use start::{Gate, WindowRequest};
use task::{Board, GaugeFacts, ReadingState};
use traywright_core::case::ValidCase;
use traywright_core::drawing::Ink;
use traywright_core::plan::Worksheet;
use traywright_core::sign::{EventKind, Pass, PassEnd, Stage};

/// State of the view: the session, and the plan that it was begun with.
#[derive(Debug, Default)]
pub struct State {
    session: Session,
    /// The pass without figures, while there is one.
    blind: Option<BlindPass>,
    /// What is recorded if this desk goes to figures after a pass without them ended unread.
    unread: Option<Effect>,
    /// The plan as somebody last agreed to load it.
    agreed: Option<(ValidCase, Worksheet)>,
    /// The generation of the document that was last held against it.
    looked_at: u64,
    /// The effects of a change, until they were read.
    stop: Option<Changed>,
    /// Initials as they are typed.
    initials: String,
    /// The words on the last input: what to do about something that fell, or that a key that takes
    /// something away has to be pressed twice.
    told: Option<String>,
    /// The request that is carried out when it is pressed once more.
    armed: Option<Pressed>,
    face: Face,
    /// The time at which a step was last reported done.
    fresh: Fresh,
}

/// The face of the view that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Face {
    /// The thing in hand.
    #[default]
    Hand,
    /// The list of everything.
    List,
    /// The record of what was set and read, with its figures.
    Record,
}

impl State {
    /// Drops the input that waits to be pressed twice.
    fn disarm(&mut self) {
        if self.armed.take().is_some() {
            self.told = None;
        }
    }

    /// The view is not looked at. The session stays; a pass without figures is
    /// over, since figures are looked at, and so is one that ended with drills unread: what is to be
    /// recorded of that.
    pub fn look_away(&mut self) -> Vec<Effect> {
        self.disarm();
        self.initials.clear();
        let unread = self.unread.take();
        match self.blind.take() {
            Some(mut pass) => pass.end(PassEnd::Left),
            None => unread.into_iter().collect(),
        }
    }

    fn choosing(&self) -> Choosing {
        if self.blind.is_none() && self.session.phase == Phase::Stage {
            Choosing::Pass
        } else {
            Choosing::Nothing
        }
    }
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut CaseContext<'_, State>) {
    let CaseContext {
        document,
        own: state,
        shared: cx,
    } = cx;
    let case = document.case();
    let record = &document.record;
    let stage = state
        .blind
        .as_ref()
        .map_or(state.session.stage, |pass| pass.stage);
    let board = Board::of(
        document.worksheet(),
        &case.kit,
        (&record.view, &record.standing, &record.events),
        GaugeFacts::of(case),
        stage,
    );
    let names = document.formatter(cx.desk.settings.notation);
    let names = names.beside_tray(document.worksheet());
    let board = board.with_beside(names, (&record.standing, &policy()), cx.now);
    hold_against(document, &board, state);
    if let Some(pass) = &mut state.blind {
        pass.move_on(&board);
    }
    let other = |armed: &Pressed| ui.input(|input| keys::any_but(&input.raw.events, armed));
    if state.armed.as_ref().is_some_and(other) {
        state.disarm();
    }
    let mut pressed = Vec::new();
    if cx.state.ask.is_none() {
        pressed = keys::pressed(ui, state.choosing());
    }
    let wanted = shown(ui, cx, document, &board, state, &mut pressed);
    if let WindowRequest::Do(command) = wanted {
        cx.act(Action::Do(command));
    }
    for one in state.fresh.only(ui, pressed) {
        take(cx, document, &board, state, one);
    }
}

/// Holds the plan against the one that the session was begun with.
fn hold_against(document: &Document, board: &Board, state: &mut State) {
    let Some((case, worksheet)) = &state.agreed else {
        return;
    };
    if state.looked_at == document.generation() {
        return;
    }
    state.looked_at = document.generation();
    // Once it is told it stays told, also where the plan is again as it was.
    if differ(worksheet, document.worksheet()) || state.stop.is_some() {
        let after = (document.case(), document.worksheet());
        let events = &document.record.events;
        state.stop = Some(changed((case, worksheet), after, events, &policy()));
    } else {
        state.session.keep_only(board);
    }
}

/// The reason why no session can begin.
fn gate(document: &Document) -> Option<Gate> {
    match document.file() {
        None => Some(Gate::NoFile),
        Some(_) if document.is_changed() => Some(Gate::Unsaved),
        Some(_) if document.record.standing.broken => Some(Gate::RecordBroken),
        Some(_) => None,
    }
}

/// Shows what is looked at; the keys that were pressed are joined by the targets that were.
fn shown(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    out: &mut Vec<Pressed>,
) -> WindowRequest {
    let theme = Theme::of(ui);
    let scale = Scale::of(ui.max_rect().size());
    let session = state.session.clone();
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        board,
        session: &session,
        scale,
        theme,
    };
    ui.spacing_mut().item_spacing = vec2(scale.px(14.0), scale.px(8.0));
    #[expect(clippy::cast_possible_truncation, reason = "some points")]
    let margin = Margin::symmetric(scale.px(40.0) as i8, scale.px(12.0) as i8);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(margin);
    if let Some(pass) = &state.blind {
        let facts = Facts::of(&scene, pass, state.stop.is_some());
        let shown = (&facts, state.told.as_deref());
        blind::ui(ui, (scene.brush(), frame), shown, &mut state.initials, out);
        return WindowRequest::Nothing;
    }
    if let Some(changed) = &state.stop {
        let mut wanted = WindowRequest::Nothing;
        CentralPanel::default().frame(frame).show(ui, |ui| {
            wanted = stop::ui(ui, &scene, changed, out);
        });
        return wanted;
    }
    Panel::top("loading head")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| head::ui(ui, &scene));
    let gate = gate(document);
    if session.phase != Phase::Load || gate == Some(Gate::RecordBroken) {
        let mut wanted = WindowRequest::Nothing;
        CentralPanel::default().frame(frame).show(ui, |ui| {
            ScrollArea::vertical()
                .id_salt("loading start")
                .show(ui, |ui| {
                    wanted = start::ui(ui, &scene, gate, &mut state.initials, out);
                });
        });
        return wanted;
    }
    Panel::bottom("loading foot")
        .frame(frame)
        .show(ui, |ui| foot::ui(ui, &scene, state.told.as_deref(), out));
    if state.face == Face::Record {
        CentralPanel::default()
            .frame(frame)
            .show(ui, |ui| record::ui(ui, &scene));
        return WindowRequest::Nothing;
    }
    if state.face == Face::List {
        CentralPanel::default()
            .frame(frame)
            .show(ui, |ui| list::ui(ui, &scene, out));
        return WindowRequest::Nothing;
    }
    Panel::right("loading right")
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(scale.px(720.0))
        .show(ui, |ui| right(ui, cx, &scene, out));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if refusal::is_due(&scene) {
            instrument::refused_ui(ui, &scene, out);
            return;
        }
        ScrollArea::vertical()
            .id_salt("loading hand")
            .show(ui, |ui| {
                // Clear of the bar that it is scrolled by.
                ui.set_max_width(ui.available_width() - scale.px(14.0));
                instrument::ui(ui, &scene, &mut state.initials, out);
            });
    });
    WindowRequest::Nothing
}

/// The tray, and below it the keypad or the one thing to do next.
fn right(ui: &mut Ui, cx: &mut ViewContext<'_>, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let scale = scene.scale;
    let width = ui.available_width();
    let keypad = scene.session.reads(scene.board);
    let below = if keypad { 4.0 * 118.0 } else { 96.0 };
    let gap = scale.px(16.0);
    let height = (ui.available_height() - scale.px(below + 20.0) - gap).max(scale.px(120.0));
    tray::ui(ui, &mut cx.state.drawings, scene, vec2(width, height));
    ui.add_space(gap);
    if keypad {
        reading::keypad(ui, scene.brush(), width, out);
        return;
    }
    let id = match scene.session.step(scene.board) {
        Some(Step::Read) => return,
        Some(Step::Place) => "loading-placed",
        Some(_) => "loading-done",
        None if scene.session.beside(scene.board).is_some() => "loading-done",
        None if scene.session.has_work(scene.board) => "loading-go-on",
        None => {
            // All is done here: what comes next is another pass.
            let (word, next) = (scene.word("loading-other-stage"), Input::OtherStage);
            let next = Pressed::Input(next);
            let words = (word.as_str(), keys::shown(&next));
            if target(ui, scale, words, Weight::Main, width).clicked() {
                out.push(next);
            }
            return;
        }
    };
    let (word, key) = (scene.word(id), scene.word("loading-key-space"));
    if target(ui, scale, (&word, &key), Weight::Main, width).clicked() {
        out.push(Pressed::Input(Input::Done));
    }
}

/// Carries out what was pressed.
fn take(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    pressed: Pressed,
) {
    if state.blind.is_some() {
        take_blind(cx, document, board, state, pressed);
        return;
    }
    if !matches!(pressed, Pressed::Input(_)) {
        state.disarm();
    }
    match pressed {
        Pressed::Leave => match state.face {
            Face::List | Face::Record => state.face = Face::Hand,
            Face::Hand => cx.act(Action::Do(Command::Show(View::Arch))),
        },
        Pressed::List => {
            state.face = match state.face {
                Face::Hand | Face::Record => Face::List,
                Face::List => Face::Hand,
            };
        }
        Pressed::Record => {
            state.face = match state.face {
                Face::Hand | Face::List => Face::Record,
                Face::Record => Face::Hand,
            };
        }
        Pressed::Understood => understood(cx, document, board, state),
        // Nothing is done while what is wrong was not read.
        Pressed::Input(_) if state.stop.is_some() => {}
        Pressed::Input(Input::Begin(..)) if gate(document).is_some() => {}
        Pressed::Input(Input::Begin(stage, Pass::Blind)) if state.choosing() == Choosing::Pass => {
            state.blind = Some(BlindPass::new(stage, state.session.checked.clone()));
        }
        Pressed::Input(input) if arm(cx, board, state, &input) == Armed::First => {}
        Pressed::Input(input) => {
            state.told = (input == Input::Fell)
                .then(|| fell(cx, document, state.session.task(board)?.item))
                .flatten();
            if matches!(input, Input::Initials(_)) {
                state.initials.clear();
            }
            let mut begun = false;
            for effect in state.session.take(input, board) {
                begun |= matches!(effect.kind, EventKind::PassBegun { .. });
                sign(cx, effect);
            }
            if state.session.phase == Phase::Stage {
                state.agreed = None;
            }
            if begun && state.agreed.is_none() {
                // Whoever goes on from here sees figures as who sets.
                state.unread = None;
                agree(document, state);
                let events = &document.record.events;
                let (case, worksheet) = (document.case(), document.worksheet());
                let lying = lying_wrong(case, worksheet, events, &policy());
                state.stop = (!lying.wrong.is_empty()).then_some(lying);
            }
        }
    }
}

/// Carries out what was pressed in a pass without figures.
fn take_blind(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    pressed: Pressed,
) {
    let Some(pass) = &mut state.blind else { return };
    let again = match &pressed {
        Pressed::Leave if pass.is_running() => Some(match pass.stage {
            Stage::Bench => "loading-again-leave",
            _ => "loading-again-leave-aloud",
        }),
        Pressed::Input(Input::Fell) if pass.in_hand(board).is_some() => Some("loading-again-fell"),
        Pressed::Input(Input::Gauge(GaugeFell::Yes)) if pass.in_hand(board).is_some() => {
            Some("loading-again-gauge")
        }
        _ => None,
    };
    let armed = state.armed.take();
    state.told = None;
    if let Some(id) = again.filter(|_| armed.as_ref() != Some(&pressed)) {
        state.armed = Some(pressed);
        state.told = Some(cx.word(id));
        return;
    }
    let effects = match pressed {
        Pressed::Input(Input::End) => {
            let unread = pass.is_running() && pass.still_open(board) > 0;
            let left = pass.clone().end(PassEnd::Left).into_iter().next();
            state.unread = left.filter(|_| unread);
            pass.end(PassEnd::Unseen)
        }
        Pressed::Leave => {
            let effects = pass.end(PassEnd::Left);
            cx.act(Action::Do(Command::Show(View::Arch)));
            effects
        }
        Pressed::Input(_) if state.stop.is_some() => Vec::new(),
        Pressed::Input(input) => {
            if matches!(input, Input::Initials(_)) {
                state.initials.clear();
            }
            if input == Input::Fell {
                let item = pass.in_hand(board).map(|task| task.item);
                state.told = item.and_then(|item| fell(cx, document, item));
            }
            pass.take(input, board, (&document.record.events, cx.now))
        }
        Pressed::List | Pressed::Record | Pressed::Understood => Vec::new(),
    };
    let begun = |effect: &Effect| matches!(effect.kind, EventKind::PassBegun { .. });
    if effects.iter().any(begun) {
        state.unread = None;
        agree(document, state);
    }
    for effect in effects {
        sign(cx, effect);
    }
    if let Some(pass) = state.blind.take_if(|pass| pass.phase == BlindPhase::Over) {
        // What a change of the plan made wrong is told to who sets next.
        state.session.checked = pass.checked;
        state.session.to_the_start();
        (state.agreed, state.stop) = (None, None);
        state.initials.clear();
    }
}

/// Has it recorded.
fn sign(cx: &mut ViewContext<'_>, effect: Effect) {
    cx.act(Action::Sign {
        who: effect.who.to_string(),
        kind: effect.kind,
    });
}

/// The state of an input that has to be given twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Armed {
    /// Once more, and it is done.
    First,
    /// It is done.
    Now,
}

/// Inputs that take readings away for good are pressed twice: nothing undoes them.
fn arm(cx: &ViewContext<'_>, board: &Board, state: &mut State, input: &Input) -> Armed {
    let takes_away = match input {
        Input::Reset => {
            let refused = |turned: &ReadingState| matches!(turned, ReadingState::Refused { .. });
            let task = state
                .session
                .task(board)
                .filter(|task| state.session.can_reset(task));
            task.filter(|task| !refused(&task.record.first) && !refused(&task.record.second))
                .filter(|task| task.was_read())
                .map(|_| "loading-again-reset")
        }
        Input::Open => {
            let task = state.session.task(board);
            let anew = task.is_some_and(|task| state.session.may_set_anew(task, board));
            anew.then_some("loading-again-anew")
        }
        Input::Fell => Some("loading-again-fell"),
        Input::OtherStage if state.session.phase == Phase::Load => {
            let work = state.session.has_work(board);
            work.then_some("loading-again-stage")
        }
        Input::Gauge(GaugeFell::Yes) => Some("loading-again-gauge"),
        _ => None,
    };
    let (armed, pressed) = (state.armed.take(), Pressed::Input(input.clone()));
    match takes_away {
        Some(id) if armed.as_ref() != Some(&pressed) => {
            state.armed = Some(pressed);
            state.told = Some(cx.word(id));
            Armed::First
        }
        _ => Armed::Now,
    }
}

/// The plan as it is now is the one that is loaded.
fn agree(document: &Document, state: &mut State) {
    state.agreed = Some((document.case().clone(), document.worksheet().clone()));
    state.looked_at = document.generation();
}

/// Somebody read what a change made wrong; that is recorded.
fn understood(cx: &mut ViewContext<'_>, document: &Document, board: &Board, state: &mut State) {
    let Some(changed) = state.stop.take() else {
        return;
    };
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        board,
        session: &state.session,
        scale: Scale::of(egui::Vec2::ZERO),
        theme: Theme::default(),
    };
    let wrong = stop::sentences(&scene, &changed).join(" ");
    let text = scene.text("loading-note-changed", &[("wrong", &wrong)]);
    let text: String = text.chars().take(4000).collect();
    if let Some(who) = &state.session.first {
        cx.act(Action::Sign {
            who: who.to_string(),
            kind: EventKind::Note { text },
        });
    }
    state.session.keep_only(board);
    agree(document, state);
}
