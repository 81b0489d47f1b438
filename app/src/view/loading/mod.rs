//! Loading the tray: the whole window, read standing from two metres.
//!
//! Two passes: in a [`session`] one person sets and reads with the figures in sight, in a [`blind`] one
//! the drills are read again with none in sight of anyone. [`task`] is what is to be done, [`recorded`]
//! what the record says of it, [`changed`] what a change of the plan made wrong; all of them are pure.
//! The rest shows it.

mod at_once;
mod beside;
pub mod blind;
pub mod changed;
mod ended;
pub mod entry;
pub(in crate::view) mod falls;
mod foot;
pub(in crate::view) mod fresh;
mod head;
pub(in crate::view) mod instrument;
pub(in crate::view) mod keys;
mod list;
mod lying;
mod piece;
mod press;
pub(in crate::view) mod reading;
mod record;
pub mod recorded;
pub(in crate::view) mod refusal;
pub(in crate::view) mod rolled;
pub(in crate::view) mod scale;
pub(in crate::view) mod scene;
pub mod session;
mod short;
pub(in crate::view) mod start;
mod steps;
mod stop;
pub mod task;
mod tray;
pub(in crate::view) mod twice;
pub mod typed;
mod warning;
pub(in crate::view) mod wedge;
mod written;

#[cfg(test)]
mod tests;

use crate::action::{Action, View};
use crate::context::{CaseContext, ViewContext};
use crate::desk::{Document, OnDisk, policy};
use crate::look::Theme;
use blind::{BlindPass, Facts};
use changed::{Changed, Why, Wrong, changed, differ};
use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, Ui, vec2};
use fresh::Fresh;
use keys::{Choosing, Pressed};
use piece::{Naming, WearAtHand};
use rolled::{ShownToEnd, by_keys};
use scale::{Scale, Weight, strong, target};
use scene::Scene;
use session::{Effect, Input, Phase, Session, Step, effects};
use start::{Gate, WindowRequest};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::time::Duration;
use task::{Board, GaugeFacts};
use traywright_core::case::ValidCase;
use traywright_core::drawing::Ink;
use traywright_core::plan::Worksheet;
use traywright_core::sign::{EventKind, PassEnd, Stage, ThingKey, ToldWork, Who, WriterId};
use traywright_core::surgery::day;
use twice::Twice;
use wedge::Wedge;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    doing: Doing,
    /// Initials as they are typed.
    initials: String,
    /// The words on the last input: what to do about something that fell, or that a key that takes
    /// something away has to be pressed twice.
    told: Option<String>,
    /// What of the STOP was shown to its end.
    stop_shown: ShownToEnd,
    /// The request that is carried out when it is pressed once more.
    twice: Twice<Pressed>,
    wedge: Wedge,
    /// What is typed to say which piece the drill in hand is.
    naming: Naming,
    face: Face,
    /// Where it leads back to.
    back: Back,
    /// The time at which a step was last reported done.
    fresh: Fresh,
    /// What the press of this frame found that has something recorded.
    before: Option<Doing>,
    /// Something could not be recorded in this frame.
    halted: bool,
    /// The words on the last step, which could not be recorded, until one is or the view is left.
    unwritten: Option<String>,
}

/// What is being done, and the plan that it was begun with: what a press that cannot be recorded changed is put
/// back to.
#[derive(Debug, Clone, Default)]
struct Doing {
    session: Session,
    /// The pass without figures, while there is one.
    blind: Option<BlindPass>,
    /// The pass without figures that was put down with something left undone: by the record it goes on until
    /// another begins here, or this desk goes to figures. Where the program is ended it was cut off.
    undone: Option<BlindPass>,
    /// The plan as somebody last agreed to load it.
    agreed: Option<Rc<Agreed>>,
    /// The generation of the document that was last held against it.
    looked_at: u64,
    /// The effects of a change, until they were read.
    stop: Option<Changed>,
    /// The things of which it is recorded that the STOP which is shown told them, with the work.
    told: BTreeMap<ThingKey, ToldWork>,
}

/// A plan that somebody agreed to load.
type Agreed = (ValidCase, Worksheet);

/// The view that it leads back to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Back {
    /// The desk.
    #[default]
    Desk,
    /// Surgery, which sent somebody here.
    Surgery,
}

impl Back {
    const fn view(self) -> View {
        match self {
            Self::Desk => View::Arch,
            Self::Surgery => View::Surgery,
        }
    }
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
    /// The question which piece the drill in hand is.
    Piece,
}

impl State {
    /// Drops the input that waits to be pressed twice.
    fn disarm(&mut self) {
        if self.twice.forget() {
            self.told = None;
        }
    }

    /// The view is not looked at. The session stays; a pass without figures is
    /// over, since figures are looked at, and so is one that ended with drills unread: what is to be
    /// recorded of that.
    pub fn look_away(&mut self) -> Vec<Effect> {
        (self.before, self.halted, self.unwritten) = (None, false, None);
        self.back = Back::Desk;
        if self.face == Face::Piece {
            self.face = Face::Hand;
        }
        self.wedge.clear();
        self.disarm();
        self.initials.clear();
        self.doing.session.entry.typed.clear();
        let passes = [self.doing.undone.take(), self.doing.blind.take()];
        let passes = passes.into_iter().flatten();
        passes
            .flat_map(|mut pass| pass.end(PassEnd::Left))
            .collect()
    }

    /// True if somebody reads without figures.
    #[must_use]
    pub fn reads_blind(&self) -> bool {
        self.doing.blind.as_ref().is_some_and(BlindPass::is_running)
    }

    /// Begins with a pass without figures that was cut off at this desk: nothing else is shown before it
    /// is taken up or ended.
    pub fn take_up(&mut self, stage: Stage, cut_off: (Who, WriterId)) {
        self.doing.blind = Some(BlindPass::taking_up(stage, cut_off));
    }

    /// Begins to set and read in the sterile field, with this thing first where there is one; the view then leads back to
    /// surgery.
    pub fn begin_in_field(&mut self, first: Option<ThingKey>, who: Option<Who>) {
        self.back = Back::Surgery;
        if self.doing.blind.is_none() {
            self.doing.session.begin_in_field(first, who);
        }
    }

    fn choosing(&self) -> Choosing {
        if self.doing.blind.is_none() && self.doing.session.phase == Phase::Stage {
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
    (state.before, state.halted) = (None, false);
    if document.record.standing.broken {
        // Nothing that is read would count; what is to be done is shown instead, with its figures.
        state.doing.blind = None;
    }
    let stage = state
        .doing
        .blind
        .as_ref()
        .map_or(state.doing.session.stage, |pass| pass.stage);
    let board = board(cx, document, stage);
    hold_against(document, &board, state);
    let acted = act_on_the_record(cx, document, &board, state);
    let now_s = ui.input(|input| input.time);
    let other = |waiting: &Pressed| ui.input(|input| keys::any_but(&input.raw.events, waiting));
    let over = state.twice.waits_s(now_s).is_some_and(|left| left <= 0.0);
    if over || state.twice.waiting().is_some_and(other) {
        state.disarm();
    }
    if state.doing.stop.is_none() {
        state.stop_shown = ShownToEnd::default();
    }
    let mut pressed = Vec::new();
    // Nothing counts after a step that is not written yet.
    if cx.state.ask.is_none() && !acted {
        let choosing = state.choosing();
        pressed = keys::pressed(ui, choosing, &mut state.wedge);
    } else {
        state.wedge.clear();
    }
    let wanted = shown(ui, cx, document, &board, state, &mut pressed);
    if let WindowRequest::Do(command) = wanted {
        cx.act(Action::Do(command));
    }
    for one in keys::up_to_one_act(state.fresh.only(ui, pressed)) {
        let before = state.doing.clone();
        let acted = cx.actions.len();
        press::take(cx, document, &board, state, (one, now_s));
        let mut actions = cx.actions[acted..].iter();
        if actions.any(|action| matches!(action, Action::Sign { .. })) {
            state.before.get_or_insert(before);
            // The next frame looks at what the record says of it now.
            ui.ctx().request_repaint();
        }
    }
    // What waits to be pressed twice is gone from the screen once it is over.
    if let Some(left) = state.twice.waits_s(now_s) {
        let left = Duration::from_secs_f64(left.max(0.0));
        ui.ctx().request_repaint_after(left);
    }
}

/// What is to be done at the tray by the plan and its record, at a stage.
pub(in crate::view) fn board(cx: &ViewContext<'_>, document: &Document, stage: Stage) -> Board {
    let case = document.case();
    let record = &document.record;
    let board = Board::of(
        document.worksheet(),
        &case.kit,
        (&record.view, &record.standing, &record.events),
        GaugeFacts::of(case),
        stage,
    );
    let recorded = (&record.view, &record.standing);
    let board = board.with_day(&day(case, document.worksheet(), recorded));
    let names = document.formatter(cx.desk.settings.notation);
    let beside = names.beside_tray(document.worksheet());
    let beside = (&*names.guide_to_take(), beside);
    board
        .with_team(&case.team)
        .with_beside(beside, (&record.standing, &policy()), cx.now)
}

/// Something that lies or is set otherwise than the plan wants it, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::view) struct LiesWrong {
    pub(in crate::view) thing: ThingKey,
    /// The fault, and what to do.
    pub(in crate::view) words: String,
    /// The fault alone, where it is a drill that is not to be used as it is set.
    pub(in crate::view) void: Option<String>,
}

/// What lies on the tray, or is set, otherwise than the plan wants it: each thing with the words of the STOP on it.
pub(in crate::view) fn lies_wrong(
    cx: &ViewContext<'_>,
    document: &Document,
    board: &Board,
) -> Vec<LiesWrong> {
    let session = Session::default();
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        board,
        session: &session,
        scale: Scale::of(egui::Vec2::ZERO),
        theme: Theme::default(),
        now: cx.now,
        wear: WearAtHand::of(cx.desk, document),
    };
    let wrong = board.lies_wrong.iter();
    wrong
        .map(|one| LiesWrong {
            thing: one.thing(),
            words: stop::wrong(&scene, one),
            void: stop::void(&scene, one),
        })
        .collect()
}

/// What of it nobody was told to take yet, by the record: the events that record it.
pub(in crate::view) fn untold(document: &Document, board: &Board) -> Vec<EventKind> {
    let told = &document.record.standing.told;
    let open = board.lies_wrong.iter();
    let open = open.filter(|one| told.get(&one.thing()).copied() < Some(one.work()));
    open.map(|one| one.told(board.purpose)).collect()
}

/// Does what follows from the record without a hand, one thing in a frame, and says whether it did: a reader who
/// saw figures elsewhere is asked for anew, what was refused twice is set aside unless a STOP waits to be read, and
/// a pass in which all is read has ended, whatever becomes of the window after that. Where that cannot be recorded
/// the pass goes on as it was.
fn act_on_the_record(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
) -> bool {
    let waits = stopped(document, board, state.doing.stop.as_ref()).is_some();
    if state.doing.blind.is_none() {
        stop_over_either(board, state);
        tell(cx, document, board, state);
        state.doing.session.look(board);
        return false;
    }
    let before = state.doing.clone();
    let Some(pass) = &mut state.doing.blind else {
        return false;
    };
    let desk = WriterId::new(&cx.desk.settings.desk).ok();
    let asked = blind::WhoSaw {
        events: &document.record.events,
        team: &board.people,
        now: cx.now,
        desk: desk.as_ref(),
    };
    let mut effects = pass.ask_again(asked);
    pass.move_on(board);
    if effects.is_empty() && !waits {
        effects = pass.set_aside(board);
    }
    if effects.is_empty() {
        effects = pass.end_if_all_is_read(board);
    }
    let acted = !effects.is_empty();
    for effect in effects {
        press::sign(cx, effect);
    }
    if acted {
        state.before = Some(before);
    }
    acted
}

/// A fall that was taken back over its spare is a STOP at once: there are two now, and one of them lies there.
fn stop_over_either(board: &Board, state: &mut State) {
    if state.doing.session.phase != Phase::Load || state.doing.stop.is_some() {
        return;
    }
    let wrong = board.lies_wrong.iter();
    let either = wrong.filter(|one| one.why == Why::EitherOfTwo);
    let wrong: Vec<Wrong> = either.cloned().collect();
    if !wrong.is_empty() {
        state.doing.stop = Some(Changed {
            wrong,
            ..Changed::default()
        });
    }
}

/// Holds the plan against the one that the session was begun with.
fn hold_against(document: &Document, board: &Board, state: &mut State) {
    let Some(agreed) = &state.doing.agreed else {
        // Nothing is begun by a plan that no other desk can open.
        if state.doing.session.is_only_chosen() && gate(document) == Some(Gate::Unsaved) {
            state.doing.session.to_the_start();
        }
        return;
    };
    let (case, worksheet) = &**agreed;
    if state.doing.looked_at == document.generation() {
        return;
    }
    state.doing.looked_at = document.generation();
    // Once it is told it stays told, also where the plan is again as it was.
    if differ(worksheet, document.worksheet()) || state.doing.stop.is_some() {
        let after = (document.case(), document.worksheet());
        let events = &document.record.events;
        let found = changed((case, worksheet), after, events, &policy());
        let told = state.doing.stop.take().unwrap_or_default();
        state.doing.stop = Some(found.with_told(told));
    } else {
        state.doing.session.keep_only(board);
    }
}

/// The reason why no session can begin.
pub(in crate::view) fn gate(document: &Document) -> Option<Gate> {
    match document.file() {
        None => Some(Gate::NoFile),
        Some(_) if document.on_disk() == OnDisk::Gone => Some(Gate::Gone),
        Some(_) if document.on_disk() == OnDisk::Other => Some(Gate::Other),
        Some(_) if document.is_changed() => Some(Gate::Unsaved),
        Some(_) if document.record.standing.broken => Some(Gate::RecordBroken),
        Some(_) => None,
    }
}

/// The words on what ends a pass without figures where it stands, or keeps it from being begun, by id: what was agreed
/// to be loaded is not what lies on the disk, or the tray does not lie as the plan has it.
fn stopped(document: &Document, board: &Board, changed: Option<&Changed>) -> Option<&'static str> {
    let lies_wrong = !board.lies_wrong.is_empty();
    match document.on_disk() {
        OnDisk::Gone => Some("loading-blind-file-gone"),
        OnDisk::Other => Some("loading-blind-file-other"),
        OnDisk::AsSaved if changed.is_some() => Some("loading-blind-changed"),
        OnDisk::AsSaved => lies_wrong.then_some("loading-blind-lies"),
    }
}

/// What the STOP that is shown tells is recorded with its first frame, by who sets: a hand may do it at once, whatever
/// becomes of the program and the plan then.
fn tell(cx: &mut ViewContext<'_>, document: &Document, board: &Board, state: &mut State) {
    let standing = &document.record.standing;
    let shown = document.on_disk() == OnDisk::AsSaved && !standing.broken;
    let (Some(stop), Some(who)) = (&state.doing.stop, &state.doing.session.first) else {
        state.doing.told.clear();
        return;
    };
    let is_told = |thing: &ThingKey| {
        let all = [&standing.told, &state.doing.told];
        all.into_iter()
            .filter_map(|told| told.get(thing))
            .max()
            .copied()
    };
    let open = stop.untold(is_told);
    if open.is_empty() || !shown {
        return;
    }
    let told = effects(who, open.values().map(|one| one.told(board.purpose)));
    let things: Vec<(ThingKey, ToldWork)> = open
        .into_iter()
        .map(|(thing, one)| (thing, one.work()))
        .collect();
    state.before = Some(state.doing.clone());
    state.doing.told.extend(things);
    for effect in told {
        press::sign(cx, effect);
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
    let session = state.doing.session.clone();
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        board,
        session: &session,
        scale,
        theme,
        now: cx.now,
        wear: WearAtHand::of(cx.desk, document),
    };
    ui.spacing_mut().item_spacing = vec2(scale.px(14.0), scale.px(8.0));
    #[expect(clippy::cast_possible_truncation, reason = "some points")]
    let margin = Margin::symmetric(scale.px(40.0) as i8, scale.px(12.0) as i8);
    let frame = Frame::NONE
        .fill(theme.fill(Ink::Ground))
        .inner_margin(margin);
    if let Some(words) = &state.unwritten {
        Panel::top("loading unwritten")
            .frame(frame)
            .show_separator_line(false)
            .show(ui, |ui| {
                strong(ui, words, scale.px(44.0), theme.fault());
            });
    }
    if let Some(pass) = &state.doing.blind {
        let stopped = stopped(document, board, state.doing.stop.as_ref());
        let facts = Facts::of(&scene, pass, stopped);
        let shown = (&facts, state.told.as_deref());
        blind::ui(ui, (scene.brush(), frame), shown, &mut state.initials, out);
        return WindowRequest::Nothing;
    }
    if session.phase != Phase::Stage && document.on_disk() != OnDisk::AsSaved {
        let mut wanted = WindowRequest::Nothing;
        CentralPanel::default().frame(frame).show(ui, |ui| {
            wanted = stop::disk_ui(ui, &scene, document.on_disk(), out);
        });
        return wanted;
    }
    if let Some(changed) = &state.doing.stop {
        let mut wanted = WindowRequest::Nothing;
        CentralPanel::default().frame(frame).show(ui, |ui| {
            wanted = stop::ui(ui, &scene, (changed, &mut state.stop_shown), out);
        });
        return wanted;
    }
    let in_hand = session.task(board);
    if let Some(words) = refusal::other_code(&scene, &session.entry, in_hand) {
        CentralPanel::default().frame(frame).show(ui, |ui| {
            stop::code_ui(ui, &scene, &words, out);
        });
        return WindowRequest::Nothing;
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
                    by_keys(ui, ui.clip_rect().height());
                    wanted = start::ui(ui, &scene, gate, &mut state.initials, out);
                });
        });
        return wanted;
    }
    loaded(ui, cx, (&scene, frame), state, out);
    WindowRequest::Nothing
}

/// The thing in hand, the list or the record, with the foot.
fn loaded(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    (scene, frame): (&Scene<'_>, Frame),
    state: &mut State,
    out: &mut Vec<Pressed>,
) {
    Panel::bottom("loading foot").frame(frame).show(ui, |ui| {
        foot::ui(ui, scene, (state.told.as_deref(), state.face), out);
    });
    if state.face == Face::Record {
        CentralPanel::default()
            .frame(frame)
            .show(ui, |ui| record::ui(ui, scene));
        return;
    }
    if state.face == Face::Piece {
        CentralPanel::default()
            .frame(frame)
            .show(ui, |ui| piece::naming_ui(ui, scene, &mut state.naming, out));
        return;
    }
    if state.face == Face::List {
        CentralPanel::default()
            .frame(frame)
            .show(ui, |ui| list::ui(ui, scene, out));
        return;
    }
    Panel::right("loading right")
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(scene.scale.px(720.0))
        .show(ui, |ui| right(ui, cx, scene, out));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if refusal::is_due(scene) {
            instrument::refused_ui(ui, scene, out);
            return;
        }
        ScrollArea::vertical()
            .id_salt("loading hand")
            .show(ui, |ui| {
                // Clear of the bar that it is scrolled by.
                ui.set_max_width(ui.available_width() - scene.scale.px(14.0));
                instrument::ui(ui, scene, &mut state.initials, out);
            });
    });
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
        Some(_) if scene.session.asks_who(scene.board) => return,
        Some(Step::Read | Step::SetAndRead) => return,
        Some(Step::Place | Step::Lay) => "loading-placed",
        Some(_) => "loading-done",
        None if scene.session.beside(scene.board).is_some() => "loading-is-there",
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
