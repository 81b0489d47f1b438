//! The effect of a press: on what the person is about, and what is recorded of it.

mod change;
mod count;
mod fell;
mod insertion;
mod person;
mod reason;
mod step;

pub(super) use fell::{GUIDE, IN_HAND, in_hand, on_the_tray, typed_number};

use super::change::Kind;
use super::doing::{Asked, Doing, For, Listed};
use super::keys::Pressed;
use super::scene::Scene;
use super::why::{Changed, Stop};
use crate::action::Change;
use crate::view::loading::task::Board;
use change::{change, choose_change, confirmed};
use count::second;
use fell::{ask_fell, choose, fell, fell_of_all, pick, which_guide};
use insertion::{depth, depth_off, torque, torque_off};
use person::{person, sitting};
use reason::{may_despite, reason};
use step::{aimed, at_a_step, recorded};
use traywright_core::kit::SlotKind;
use traywright_core::sign::{EventKind, ThingKey};
use traywright_core::surgery::{NotReady, Work};

/// What comes of a press.
#[derive(Default)]
pub(super) struct Outcome {
    /// What is recorded, by the person who records.
    pub(super) kinds: Vec<EventKind>,
    /// What is told, in words.
    pub(super) told: Option<String>,
    /// What the window is asked for.
    pub(super) wanted: Wanted,
}

/// What the window is asked for.
#[derive(Default)]
pub(super) enum Wanted {
    /// Nothing.
    #[default]
    Nothing,
    /// The desk.
    Leave,
    /// This change of the case.
    Edit(Change),
    /// What is open in the plan.
    Findings,
    /// The passes in the sterile field, with this thing first where there is one.
    Passes(Option<ThingKey>),
}

impl Outcome {
    fn record(kind: EventKind) -> Self {
        Self {
            kinds: vec![kind],
            ..Self::default()
        }
    }

    fn tell(words: String) -> Self {
        Self {
            told: Some(words),
            ..Self::default()
        }
    }
}

/// Takes a press. `again` says that it is pressed for the second time.
pub(super) fn take(
    scene: &Scene<'_>,
    (board, stop): (&Board, Option<&Stop>),
    doing: &mut Doing,
    (pressed, again): (&Pressed, bool),
) -> Outcome {
    if doing.asked == Asked::Nothing {
        doing.entry.refused = None;
    }
    match (&doing.asked, pressed) {
        (_, Pressed::Leave) => leave(scene, doing, again),
        (_, Pressed::Scanned) => {
            doing.entry.typed.clear();
            Outcome::tell(scene.word("surgery-scanned"))
        }
        (Asked::Person, Pressed::Given) => person(scene, board, doing),
        (Asked::Reason(of), Pressed::Given) => {
            let of = *of;
            reason(scene, stop, doing, of)
        }
        (Asked::Second, Pressed::Given) => second(scene, board, doing),
        (Asked::Nothing, Pressed::Given) if !scene.records() => person(scene, board, doing),
        (Asked::Sitting, Pressed::Digit(n)) => sitting(scene, doing, *n),
        (Asked::Sitting, _) => Outcome::default(),
        (Asked::Change, Pressed::Digit(n)) => change(scene, doing, *n),
        (Asked::WhichGuide, Pressed::Digit(n)) => which_guide(scene, doing, *n),
        (Asked::Confirm(kind), Pressed::Enter) => {
            let kind = *kind;
            confirmed(scene, doing, kind)
        }
        (Asked::Fell, Pressed::Digit(n)) => choose(doing, *n),
        (Asked::Fell, Pressed::Enter) => fell(scene, board, doing),
        (Asked::Fell | Asked::FellOfAll, Pressed::Pick(n)) => pick(doing, *n),
        (Asked::FellOfAll, Pressed::Enter) => {
            let number = typed_number(doing);
            fell_of_all(scene, board, doing, number)
        }
        // What has no figure in sight takes none: nothing behind it does.
        (_, Pressed::Digit(_) | Pressed::Mark | Pressed::Rub)
            if !takes_figures(scene, stop, doing) =>
        {
            Outcome::default()
        }
        (_, Pressed::Digit(digit)) => {
            doing.entry.typed.digit(*digit);
            Outcome::default()
        }
        (_, Pressed::Mark) => {
            doing.entry.typed.mark();
            Outcome::default()
        }
        (_, Pressed::Rub) => {
            if doing.entry.typed.as_str().is_empty() && doing.asked == Asked::Nothing {
                // The line before was mistyped.
                doing.counted.pop();
            }
            doing.entry.typed.back();
            Outcome::default()
        }
        (Asked::Torque(way), Pressed::Enter) => {
            let way = *way;
            torque(scene, doing, way, again)
        }
        (Asked::Depth(way, torque), Pressed::Enter | Pressed::Apical | Pressed::Done) => {
            let (way, torque) = (*way, *torque);
            depth(scene, doing, (way, torque), (pressed, again))
        }
        (Asked::Aimed, Pressed::Enter) => aimed(scene, doing),
        (Asked::Nothing, _) if !scene.records() => Outcome::default(),
        // What is not on the screen is not acted on.
        (Asked::Nothing, pressed)
            if stop.is_none() && doing.list == Listed::All && !moves(pressed) =>
        {
            Outcome::default()
        }
        (Asked::Nothing, Pressed::Person) => {
            doing.ask(Asked::Person);
            Outcome::default()
        }
        (Asked::Nothing, Pressed::SetAnew) => passes(scene),
        (Asked::Nothing, Pressed::Fell) if stop.is_none() && doing.list == Listed::Step => {
            ask_fell(scene, doing)
        }
        (Asked::Nothing, _) if stop.is_some() => at_a_stop(scene, stop, doing, pressed),
        (Asked::Nothing, pressed) => at_a_step(scene, doing, (pressed, again)),
        _ => Outcome::default(),
    }
}

/// True for what leads about the steps and does nothing there.
const fn moves(pressed: &Pressed) -> bool {
    matches!(
        pressed,
        Pressed::List | Pressed::Due | Pressed::Back | Pressed::Forward
    )
}

/// True if what is shown has a figure that is typed.
fn takes_figures(scene: &Scene<'_>, stop: Option<&Stop>, doing: &Doing) -> bool {
    match doing.asked {
        Asked::Torque(_) | Asked::Depth(..) | Asked::Aimed | Asked::FellOfAll => true,
        Asked::Nothing => {
            let here = stop.is_none() && scene.records() && doing.list == Listed::Step;
            let step = scene.step().filter(|_| here);
            step.is_some_and(|(_, step)| {
                let fell = step.not_ready.contains(&NotReady::GuideFell);
                let takes = matches!(step.work, Work::Sound(_) | Work::Count(_));
                takes && !fell && !step.state.is_over()
            })
        }
        _ => false,
    }
}

/// True if a press is asked for twice: what it does is not what anybody would do by the way.
pub(super) fn is_asked_twice(scene: &Scene<'_>, stop: Option<&Stop>, pressed: &Pressed) -> bool {
    if *pressed == Pressed::Leave {
        return leaves_a_count(scene.doing);
    }
    if stop.is_some() || !scene.records() {
        return false;
    }
    let Some((_, step)) = scene.step() else {
        return false;
    };
    match (&scene.doing.asked, pressed) {
        (Asked::Nothing, _) => {}
        (Asked::Torque(_), Pressed::Enter) => return torque_off(scene).is_some(),
        (Asked::Depth(..), Pressed::Enter | Pressed::Apical) => {
            return depth_off(scene, pressed).is_some();
        }
        _ => return false,
    }
    let begins = scene.doing.counted.is_empty();
    match pressed {
        Pressed::NotDone => recorded(step).is_some(),
        Pressed::Enter => {
            let takes = matches!(step.work, Work::Sound(_) | Work::Count(_)) && begins;
            takes && !scene.is_due() && !step.state.is_over()
        }
        Pressed::Despite => !scene.is_due() && may_despite(step),
        Pressed::Done | Pressed::Guided | Pressed::Begun | Pressed::Freehand => {
            !scene.is_due() && !step.state.is_over()
        }
        _ => false,
    }
}

/// True if lines of a count are lost where the view is left now.
fn leaves_a_count(doing: &Doing) -> bool {
    let typed = !doing.entry.typed.as_str().is_empty();
    let only_typed = typed || doing.asked != Asked::Nothing || doing.list == Listed::All;
    !only_typed && !doing.counted.is_empty()
}

/// The last that was begun is left first: a question, the list, a figure that is typed; then the view.
fn leave(scene: &Scene<'_>, doing: &mut Doing, again: bool) -> Outcome {
    if doing.asked != Asked::Nothing {
        if doing.asked == Asked::Second {
            // The last line can be counted again.
            doing.counted.pop();
        }
        doing.ask_nothing();
        return Outcome::default();
    }
    if doing.list == Listed::All {
        doing.list = Listed::Step;
        return Outcome::default();
    }
    if !doing.entry.typed.as_str().is_empty() {
        doing.entry.typed.clear();
        return Outcome::default();
    }
    if leaves_a_count(doing) && !again {
        return Outcome::tell(scene.word("surgery-again-leave"));
    }
    Outcome {
        wanted: Wanted::Leave,
        ..Outcome::default()
    }
}

/// The step's drill is set or read in the sterile field: that is a pass of the loading view.
fn passes(scene: &Scene<'_>) -> Outcome {
    let drill = scene.step().and_then(|(_, step)| step.drill());
    let planned = drill.and_then(|drill| drill.planned);
    let thing = planned.map(|planned| ThingKey {
        of: SlotKind::Drill,
        entry: planned.key.drill.clone(),
        copy: planned.key.copy,
    });
    Outcome {
        wanted: Wanted::Passes(thing),
        ..Outcome::default()
    }
}

/// True if anything in the plan is to be settled or accepted.
fn has_open(scene: &Scene<'_>) -> bool {
    let mut findings = scene.worksheet().findings.iter();
    findings.any(|one| one.severity().is_open())
}

/// Nothing is done at a stop but to go on with what there is now, where somebody says why, or to have the plan follow the record.
fn at_a_stop(
    scene: &Scene<'_>,
    stop: Option<&Stop>,
    doing: &mut Doing,
    pressed: &Pressed,
) -> Outcome {
    let Some(Stop::Other(changed)) = stop else {
        return Outcome::default();
    };
    match pressed {
        // Who decided is always told.
        Pressed::GoOn if *changed != Changed::default() => {
            doing.ask(Asked::Reason(For::GoOn));
            doing.going_on = Some(changed.clone());
            Outcome::default()
        }
        // By the record the guide is abandoned: the plan can follow at once, and at the next step too.
        Pressed::Change if scene.day.abandoned_while_led().is_some() => {
            let outcome = choose_change(scene, doing, Kind::PlanAbandoned);
            doing.going_on = Some(changed.clone());
            outcome
        }
        Pressed::Findings if has_open(scene) => Outcome {
            wanted: Wanted::Findings,
            ..Outcome::default()
        },
        // What falls does not wait for an answer.
        Pressed::Fell => {
            doing.ask(Asked::FellOfAll);
            doing.going_on = Some(changed.clone());
            Outcome::default()
        }
        _ => Outcome::default(),
    }
}
