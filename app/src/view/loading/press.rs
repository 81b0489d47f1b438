//! What a press does: the effect on the session or the pass, what is recorded, what waits to be pressed
//! twice.

use super::blind::{BlindPass, BlindPhase, WhoSaw};
use super::changed::{Changed, Said, Wrong};
use super::falls::fell;
use super::keys::{Choosing, Pressed};
use super::piece::{Naming, WearAtHand, can_name, name, scanned};
use super::rolled::ShownToEnd;
use super::scale::Scale;
use super::scene::Scene;
use super::session::{Effect, GaugeFell, Input, Now, Phase, Refused, effects};
use super::task::{Board, ReadingState, does_not_fit};
use super::twice::Press;
use super::{Face, State, gate, stop, stopped};
use crate::action::{Action, Command};
use crate::context::ViewContext;
use crate::desk::{Document, OnDisk};
use crate::look::Theme;
use std::rc::Rc;
use traywright_core::sign::{EventKind, Pass, PassEnd, Stage, WriterId};

/// Carries out what was pressed.
pub(super) fn take(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    (pressed, now_s): (Pressed, f64),
) {
    if state.doing.blind.is_some() {
        take_blind(cx, document, board, state, (pressed, now_s));
        return;
    }
    if !matches!(pressed, Pressed::Input(_)) {
        state.disarm();
    }
    // List and record stand beside what is loaded: before that there is no other face, and none is kept for later.
    // Nor is either shown over what a STOP tells to take.
    let tells = state.doing.stop.is_some() || document.on_disk() != OnDisk::AsSaved;
    if tells {
        state.face = Face::Hand;
    }
    let other = state.doing.session.entry.other.is_some();
    let loads = state.doing.session.phase == Phase::Load && !tells && !other;
    let wear = WearAtHand::of(cx.desk, document);
    let is_entered = pressed == Pressed::Input(Input::Enter) && state.face == Face::Hand;
    if is_entered
        && loads
        && let Some(mark) = scanned(wear, board, &state.doing.session)
    {
        state.disarm();
        state.doing.session.entry.typed.clear();
        state.doing.session.entry.refused = None;
        state.told = named(cx, document, board, state, &mark);
        return;
    }
    match pressed {
        Pressed::List | Pressed::Record | Pressed::Piece | Pressed::Marked(_) if !loads => {}
        Pressed::Piece => {
            if can_name(wear, board, &state.doing.session) && state.face == Face::Hand {
                state.face = Face::Piece;
                state.naming = Naming::default();
            }
        }
        Pressed::Marked(mark) => {
            if state.face == Face::Piece {
                state.naming.refused = named(cx, document, board, state, &mark);
                if state.naming.refused.is_none() {
                    state.face = Face::Hand;
                }
            }
        }
        Pressed::Leave => match if loads { state.face } else { Face::Hand } {
            Face::List | Face::Record | Face::Piece => state.face = Face::Hand,
            // A wrong key costs nothing.
            Face::Hand if state.doing.session.is_only_chosen() => {
                state.doing.session.to_the_start();
                state.doing.session.entry.refused = None;
                state.initials.clear();
            }
            Face::Hand => cx.act(Action::Do(Command::Show(state.back.view()))),
        },
        Pressed::List => {
            state.face = match state.face {
                Face::Hand | Face::Record | Face::Piece => Face::List,
                Face::List => Face::Hand,
            };
        }
        Pressed::Record => {
            state.face = match state.face {
                Face::Hand | Face::List | Face::Piece => Face::Record,
                Face::Record => Face::Hand,
            };
        }
        Pressed::Understood if !tells && state.doing.session.entry.other.take().is_some() => {}
        // Nothing is done while the case's file is not there, or what is wrong was not read.
        Pressed::Understood | Pressed::Taken | Pressed::Stays | Pressed::Input(_)
            if document.on_disk() != OnDisk::AsSaved => {}
        Pressed::Understood | Pressed::Taken | Pressed::Stays if document.is_changed() => {}
        Pressed::Taken => said(cx, board, state, Said::Taken),
        Pressed::Stays => said(cx, board, state, Said::Stays),
        Pressed::Understood => understood(cx, document, board, state),
        Pressed::Input(_) if state.doing.stop.is_some() => {}
        // What is not on the screen is not acted on: the first press brings it back.
        Pressed::Input(_) if loads && is_hidden(state, &pressed) => state.face = Face::Hand,
        Pressed::Input(Input::Begin(..)) if gate(document).is_some() => {}
        Pressed::Input(Input::Begin(stage, Pass::Blind)) if state.choosing() == Choosing::Pass => {
            let mut pass = BlindPass::new(stage, &state.doing.session.entry);
            let desk = WriterId::new(&cx.desk.settings.desk).ok();
            let undone = state.doing.undone.take_if(|undone| undone.is_running());
            pass.cut_off = undone.and_then(|undone| undone.begun_by(desk.as_ref()));
            state.doing.blind = Some(pass);
        }
        Pressed::Input(input) if waits(cx, board, state, (&input, now_s)) == Press::First => {}
        Pressed::Input(input) => carry_out(cx, document, board, state, &input),
    }
}

/// Carries out an input of a session that nothing holds back.
fn carry_out(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    input: &Input,
) {
    let task = state.doing.session.task(board);
    let mut told = None;
    let mut begun = false;
    let named = matches!(input, Input::Initials(_));
    for effect in state.doing.session.take(input.clone(), board) {
        if matches!(effect.kind, EventKind::PassBegun { .. }) {
            begun = true;
            // Whoever goes on from here sees figures as who sets.
            let undone = state.doing.undone.take();
            let ended = undone.map(|mut undone| undone.end(PassEnd::Unseen));
            ended.into_iter().flatten().for_each(|end| sign(cx, end));
        }
        if matches!(effect.kind, EventKind::Dropped { .. }) && *input == Input::Fell {
            told = task.and_then(|task| fell(cx.desk.texts, document, (board, task)));
        }
        sign(cx, effect);
    }
    state.told = told;
    if named && !is_asked_back(state.doing.session.entry.refused.as_ref()) {
        state.initials.clear();
    }
    if state.doing.session.phase == Phase::Stage {
        state.doing.agreed = None;
    }
    if begun && state.doing.agreed.is_none() {
        agree(document, state);
        let wrong = board.lies_wrong.clone();
        state.doing.stop = (!wrong.is_empty()).then(|| Changed {
            wrong,
            ..Changed::default()
        });
    }
}

/// True if the thing in hand is behind the list or the record, and the press does not look at one.
fn is_hidden(state: &mut State, pressed: &Pressed) -> bool {
    let looks = matches!(pressed, Pressed::Input(Input::Go(_)));
    if looks {
        state.face = Face::Hand;
    }
    state.face != Face::Hand
}

/// Carries out what was pressed in a pass without figures.
fn take_blind(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &mut State,
    (pressed, now_s): (Pressed, f64),
) {
    let Some(pass) = &mut state.doing.blind else {
        return;
    };
    let all_read = pass.phase == BlindPhase::AllRead;
    let pressed = if pressed == Pressed::Leave && pass.is_only_chosen() {
        // A wrong key costs nothing: back to the choice, where no figure stands either.
        Pressed::Input(Input::End)
    } else {
        pressed
    };
    let again = match &pressed {
        Pressed::Leave if pass.is_running() || all_read => Some(match pass.stage {
            Stage::Bench => "loading-again-leave",
            _ => "loading-again-leave-aloud",
        }),
        Pressed::Input(Input::Fell) if pass.in_hand(board).is_some() => Some("loading-again-fell"),
        Pressed::Input(Input::Gauge(GaugeFell::Yes)) if pass.in_hand(board).is_some() => {
            Some("loading-again-gauge")
        }
        _ => None,
    };
    state.told = None;
    if asked_twice(cx, state, again, (&pressed, now_s)) == Press::First {
        return;
    }
    let Some(pass) = &mut state.doing.blind else {
        return;
    };
    let effects = match pressed {
        Pressed::Input(Input::End) => {
            let undone = (pass.is_running() || all_read) && pass.leaves_undone(board);
            state.doing.undone = undone.then(|| pass.clone());
            let ended = pass.end(PassEnd::Unseen);
            if undone { Vec::new() } else { ended }
        }
        // The pass ends as the view is left.
        Pressed::Leave => {
            cx.act(Action::Do(Command::Show(state.back.view())));
            Vec::new()
        }
        Pressed::Input(_) if stopped(document, board, state.doing.stop.as_ref()).is_some() => {
            Vec::new()
        }
        Pressed::Input(input) => {
            if input == Input::Fell {
                let task = pass.in_hand(board);
                state.told = task.and_then(|task| fell(cx.desk.texts, document, (board, task)));
            }
            let named = matches!(input, Input::Initials(_));
            let desk = WriterId::new(&cx.desk.settings.desk).ok();
            let asked = WhoSaw {
                events: &document.record.events,
                team: &board.people,
                now: cx.now,
                desk: desk.as_ref(),
            };
            let effects = pass.take(input, board, asked);
            if named && !is_asked_back(pass.entry.refused.as_ref()) {
                state.initials.clear();
            }
            effects
        }
        Pressed::Understood => {
            pass.entry.other = None;
            Vec::new()
        }
        Pressed::List
        | Pressed::Record
        | Pressed::Piece
        | Pressed::Marked(_)
        | Pressed::Taken
        | Pressed::Stays => Vec::new(),
    };
    let begun = |effect: &Effect| matches!(effect.kind, EventKind::PassBegun { .. });
    if effects.iter().any(begun) {
        state.doing.undone = None;
        agree(document, state);
    }
    for effect in effects {
        sign(cx, effect);
    }
    if let Some(pass) = state
        .doing
        .blind
        .take_if(|pass| pass.phase == BlindPhase::Over)
    {
        // What a change of the plan made wrong is told to who sets next.
        state.doing.session.entry = pass.entry.of_next_pass();
        state.doing.session.to_the_start();
        (state.doing.agreed, state.doing.stop) = (None, None);
        state.initials.clear();
    }
}

/// True if initials stay in their field, to be given once more.
fn is_asked_back(refused: Option<&Refused>) -> bool {
    matches!(refused, Some(Refused::New { .. }))
}

/// Has it recorded that the drill in hand is the piece with this mark; why that is not taken.
fn named(
    cx: &mut ViewContext<'_>,
    document: &Document,
    board: &Board,
    state: &State,
    mark: &str,
) -> Option<String> {
    let wear = WearAtHand::of(cx.desk, document);
    let with = (cx.desk.texts, cx.now);
    let of = (board, &state.doing.session);
    match name(with, (wear, document), of, mark) {
        Ok(effect) => {
            if let Some(effect) = effect {
                sign(cx, effect);
            }
            None
        }
        Err(words) => Some(words),
    }
}

/// Has it recorded.
pub(super) fn sign(cx: &mut ViewContext<'_>, effect: Effect) {
    cx.act(Action::Sign {
        who: effect.who.to_string(),
        kind: effect.kind,
    });
}

/// Inputs that take readings away for good are pressed twice; any other counts as pressed twice at once.
fn waits(
    cx: &ViewContext<'_>,
    board: &Board,
    state: &mut State,
    (input, now_s): (&Input, f64),
) -> Press {
    let takes_away = match input {
        _ if state.doing.session.entry.is_held_from(input) => None,
        // No thing is on the screen.
        Input::Reset | Input::Open | Input::Fell | Input::DidNotFall
            if state.doing.session.asks_first(board).is_some() =>
        {
            None
        }
        Input::Reset => {
            let refused = |turned: &ReadingState| matches!(turned, ReadingState::Refused { .. });
            let task = state
                .doing
                .session
                .task(board)
                .filter(|task| state.doing.session.can_reset(task));
            task.filter(|task| !refused(&task.record.first) && !refused(&task.record.second))
                .filter(|task| task.was_read())
                .map(|_| "loading-again-reset")
        }
        Input::Open => {
            let task = state.doing.session.task(board);
            let session = &state.doing.session;
            task.and_then(|task| {
                let anew = session.may_set_anew(task, board);
                match session.passed_over_by(task, board) {
                    Some(over) if anew && does_not_fit(over) => Some("loading-again-misfit"),
                    Some(_) if anew => Some("loading-again-passed-over"),
                    None if anew => Some("loading-again-anew"),
                    _ => task.is_sealed().then_some("loading-again-open"),
                }
            })
        }
        Input::Fell => {
            let task = state.doing.session.task(board);
            let there = task.is_none_or(|task| state.doing.session.now(task) != Now::NoneLeft);
            there.then_some("loading-again-fell")
        }
        Input::DidNotFall => {
            let task = state.doing.session.task(board);
            task.and_then(|task| task.fall.as_ref())
                .map(|_| "loading-again-not-fell")
        }
        Input::OtherStage if state.doing.session.phase == Phase::Load => {
            let work = state.doing.session.has_work(board);
            work.then_some("loading-again-stage")
        }
        Input::Gauge(GaugeFell::Yes) => Some("loading-again-gauge"),
        _ => None,
    };
    let pressed = Pressed::Input(input.clone());
    asked_twice(cx, state, takes_away, (&pressed, now_s))
}

/// The press of a request, which is asked for once more in the words of this id where it has one.
fn asked_twice(
    cx: &ViewContext<'_>,
    state: &mut State,
    id: Option<&str>,
    (pressed, now_s): (&Pressed, f64),
) -> Press {
    let Some(id) = id else {
        state.twice.forget();
        return Press::Second;
    };
    let press = state.twice.press(pressed, now_s);
    if press == Press::First {
        state.told = Some(cx.word(id));
    }
    press
}

/// The plan as it is now is the one that is loaded.
fn agree(document: &Document, state: &mut State) {
    let plan = (document.case().clone(), document.worksheet().clone());
    state.doing.agreed = Some(Rc::new(plan));
    state.doing.looked_at = document.generation();
}

/// Somebody says of what the STOP asks about that a hand took it, which is recorded, or that it stands as it did.
fn said(cx: &mut ViewContext<'_>, board: &Board, state: &mut State, said: Said) {
    let (Some(stop), Some(who)) = (&mut state.doing.stop, &state.doing.session.first) else {
        return;
    };
    let Some(asked) = stop.asked().cloned() else {
        return;
    };
    stop.said.insert(asked.thing(), said);
    if said == Said::Taken {
        // Of one thing there may be two faults: what takes most is done with both.
        let thing = asked.thing();
        let of = stop.wrong.iter().filter(|one| one.thing() == thing);
        let most = of.max_by_key(|one| one.work()).unwrap_or(&asked);
        for effect in effects(who, most.taken(board.purpose)) {
            sign(cx, effect);
        }
    }
}

/// Somebody read what a change made wrong; that is recorded, and nothing that a hand may have done.
fn understood(cx: &mut ViewContext<'_>, document: &Document, board: &Board, state: &mut State) {
    let Some(told) = state.doing.stop.take() else {
        return;
    };
    let scene = Scene {
        document,
        formatter: document.formatter(cx.desk.settings.notation),
        board,
        session: &state.doing.session,
        scale: Scale::of(egui::Vec2::ZERO),
        theme: Theme::default(),
        now: cx.now,
        wear: WearAtHand::of(cx.desk, document),
    };
    let sentences = stop::sentences(&scene, &told);
    // Nobody read what was not shown yet.
    if !state.stop_shown.is_shown(&sentences) {
        state.doing.stop = Some(told);
        return;
    }
    let left = told.left().next().is_some();
    let id = if left {
        "loading-note-left"
    } else {
        "loading-note-changed"
    };
    let wrong = sentences.join(" ");
    let text = scene.text(id, &[("wrong", &wrong)]);
    let text: String = text.chars().take(4000).collect();
    if let Some(who) = &state.doing.session.first {
        for effect in effects(who, [EventKind::Note { text }]) {
            sign(cx, effect);
        }
    }
    state.doing.session.keep_only(board);
    let things = told.wrong.iter().map(Wrong::thing).collect();
    state.doing.session.go_on_with(things, board);
    // The next STOP is read from its beginning, also where it says the same.
    state.stop_shown = ShownToEnd::default();
    agree(document, state);
}
