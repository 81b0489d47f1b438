//! The effect of a press: on what the person is about, and what is recorded of it.

use super::change::{What, offered};
use super::doing::{Asked, Doing, For, Listed};
use super::keys::Pressed;
use super::scene::Scene;
use super::why::{Changed, Stop};
use crate::action::Change;
use crate::view::loading::session::Refused;
use crate::view::loading::task::Board;
use traywright_core::kit::SlotKind;
use traywright_core::measure::{Length, Torque};
use traywright_core::sign::{
    Approved, CountLine, Counted, EventKind, Inserted, InsertionWay, Piece, Sounded, StepDone,
    StepKey, StepSkipped, StepTakenBack, SurgeryBegun, ThingKey, ThingKind, Who,
};
use traywright_core::surgery::{
    CountWanted, DayStep, NotReady, State, TorqueAgainst, Work, torque_against,
};

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

/// Something in a hand at a step: it can fall.
pub(super) struct InHand {
    pub(super) name: String,
    pub(super) thing: ThingKey,
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
        (_, Pressed::Leave) => leave(doing),
        (Asked::Person, Pressed::Given) => person(scene, board, doing),
        (Asked::Reason(of), Pressed::Given) => {
            let of = *of;
            reason(scene, stop, doing, of)
        }
        (Asked::Second, Pressed::Given) => second(scene, board, doing),
        (Asked::Nothing, Pressed::Given) if doing.who.is_none() => person(scene, board, doing),
        (Asked::Change, Pressed::Digit(n)) => change(scene, doing, *n),
        (Asked::Fell, Pressed::Digit(n)) => fell(scene, board, doing, *n),
        (Asked::Nothing, Pressed::Digit(_) | Pressed::Mark) if stop.is_some() => Outcome::default(),
        (_, Pressed::Digit(digit)) => {
            doing.entry.typed.digit(*digit);
            Outcome::default()
        }
        (_, Pressed::Mark) => {
            doing.entry.typed.mark();
            Outcome::default()
        }
        (_, Pressed::Rub) => {
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
        (Asked::Nothing, _) if doing.who.is_none() => Outcome::default(),
        (Asked::Nothing, Pressed::Person) => {
            doing.ask(Asked::Person);
            Outcome::default()
        }
        (Asked::Nothing, Pressed::SetAnew) => passes(scene),
        (Asked::Nothing, _) if stop.is_some() => at_a_stop(stop, doing, pressed),
        (Asked::Nothing, pressed) => at_a_step(scene, doing, (pressed, again)),
        _ => Outcome::default(),
    }
}

/// True if a press is asked for twice: what it does is not what anybody would do by the way.
pub(super) fn is_asked_twice(scene: &Scene<'_>, stop: Option<&Stop>, pressed: &Pressed) -> bool {
    if stop.is_some() || scene.doing.who.is_none() {
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

/// The event that says that a step is over, or stops it.
fn recorded<'a>(step: &DayStep<'a>) -> Option<&'a traywright_core::sign::DayEvent> {
    match step.state {
        State::Done(one) | State::Skipped(one) | State::Off(one, _) | State::Amiss(one) => {
            Some(one)
        }
        State::Open | State::Set => None,
    }
}

fn leave(doing: &mut Doing) -> Outcome {
    if doing.asked != Asked::Nothing {
        doing.ask_nothing();
        return Outcome::default();
    }
    if doing.list == Listed::All {
        doing.list = Listed::Step;
        return Outcome::default();
    }
    Outcome {
        wanted: Wanted::Leave,
        ..Outcome::default()
    }
}

/// The person who records from now on. With the first one surgery begins.
fn person(scene: &Scene<'_>, board: &Board, doing: &mut Doing) -> Outcome {
    doing.entry.refused = None;
    let Some(who) = doing.entry.person(&doing.field.clone(), board) else {
        return Outcome::default();
    };
    doing.ask_nothing();
    doing.who = Some(who);
    if scene.day.begun.is_some() {
        return Outcome::default();
    }
    if !scene.lies_wrong.is_empty() {
        doing.ask(Asked::Reason(For::GoOn));
        return Outcome::default();
    }
    Outcome::record(begun(scene, None))
}

fn begun(scene: &Scene<'_>, despite: Option<String>) -> EventKind {
    EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: scene.worksheet().fingerprint,
        approval: if scene.is_approved() {
            Approved::Approved
        } else {
            Approved::Open
        },
        lies_wrong: scene
            .lies_wrong
            .iter()
            .map(|(thing, _)| thing.clone())
            .collect(),
        despite,
        purpose: scene.purpose(),
    })
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

/// Nothing is done at a stop but to go on with what there is now, where somebody says why.
fn at_a_stop(stop: Option<&Stop>, doing: &mut Doing, pressed: &Pressed) -> Outcome {
    let Some(Stop::Other(changed)) = stop else {
        return Outcome::default();
    };
    match pressed {
        // Who decided is always told.
        Pressed::GoOn if *changed != Changed::default() => {
            doing.ask(Asked::Reason(For::GoOn));
            Outcome::default()
        }
        _ => Outcome::default(),
    }
}

fn at_a_step(scene: &Scene<'_>, doing: &mut Doing, (pressed, again): (&Pressed, bool)) -> Outcome {
    match pressed {
        Pressed::List => {
            doing.list = match doing.list {
                Listed::Step => Listed::All,
                Listed::All => Listed::Step,
            };
            return Outcome::default();
        }
        Pressed::Due => {
            doing.list = Listed::Step;
            doing.look_at(None);
            return Outcome::default();
        }
        Pressed::Back | Pressed::Forward => return look(scene, doing, pressed),
        // What is not on the screen is not acted on.
        _ if doing.list == Listed::All => return Outcome::default(),
        _ => {}
    }
    let Some((at, step)) = scene.step() else {
        return Outcome::default();
    };
    match pressed {
        Pressed::NotDone => not_done(scene, doing, (step, again)),
        Pressed::Skip if !step.state.is_over() => {
            doing.ask(Asked::Reason(For::Skip));
            Outcome::default()
        }
        Pressed::Fell if !in_hand(scene, step).is_empty() => {
            doing.ask(Asked::Fell);
            Outcome::default()
        }
        Pressed::Change if !offered(scene, step).is_empty() => {
            doing.ask(Asked::Change);
            Outcome::default()
        }
        Pressed::Despite if may_despite(step) && !scene.is_due() && !again => {
            Outcome::tell(out_of_turn(scene, at))
        }
        Pressed::Despite => despite(doing, step),
        Pressed::Done | Pressed::Enter if step.state.is_over() && scene.is_due() => {
            Outcome::default()
        }
        Pressed::Done if step.state.is_over() => {
            doing.look_at(None);
            Outcome::default()
        }
        Pressed::Done | Pressed::Enter | Pressed::Guided | Pressed::Begun | Pressed::Freehand => {
            if !scene.is_due() && !again {
                return Outcome::tell(out_of_turn(scene, at));
            }
            act(scene, doing, (step, pressed))
        }
        _ => Outcome::default(),
    }
}

/// What it means to do a step now that is not due.
fn out_of_turn(scene: &Scene<'_>, at: usize) -> String {
    let over: Vec<String> = scene
        .day
        .passed_over(at)
        .map(|step| scene.formatter.day_step(&step.key))
        .collect();
    let count = over.len();
    let first = over.into_iter().take(3).collect::<Vec<_>>().join("; ");
    let args = [("first", first.as_str())];
    scene.counted("surgery-again-out-of-turn", &[("count", count)], &args)
}

fn look(scene: &Scene<'_>, doing: &mut Doing, pressed: &Pressed) -> Outcome {
    let steps = &scene.day.steps;
    let at = doing.at(scene.day).unwrap_or(steps.len());
    let to = match pressed {
        Pressed::Back => at.checked_sub(1),
        _ => at.checked_add(1).filter(|to| *to < steps.len()),
    };
    let Some(to) = to else {
        return Outcome::default();
    };
    doing.list = Listed::Step;
    let key = (scene.day.next() != Some(to)).then(|| steps[to].key.clone());
    doing.look_at(key);
    Outcome::default()
}

fn not_done(scene: &Scene<'_>, doing: &mut Doing, (step, again): (&DayStep<'_>, bool)) -> Outcome {
    if recorded(step).is_none() {
        return Outcome::default();
    }
    if !again {
        return Outcome::tell(scene.word("surgery-again-not-done"));
    }
    doing.look_at(None);
    // All that was recorded of it: two desks may have recorded it, and a step that is taken back is open.
    let kinds = step.recorded.iter().map(|event| {
        EventKind::StepTakenBack(StepTakenBack {
            event: event.id.clone(),
            step: step.key.clone(),
            purpose: scene.purpose(),
        })
    });
    Outcome {
        kinds: kinds.collect(),
        ..Outcome::default()
    }
}

/// It is done although it is not ready: the reason is asked, where it can be done at all.
fn despite(doing: &mut Doing, step: &DayStep<'_>) -> Outcome {
    if may_despite(step) {
        doing.ask(Asked::Reason(For::Despite));
    }
    Outcome::default()
}

/// True if it may be done although it is not ready, or gone on with although a count does not agree.
fn may_despite(step: &DayStep<'_>) -> bool {
    let forbidden = step.not_ready.iter().any(NotReady::forbids);
    let sounded = matches!(step.work, Work::Sound(_));
    let amiss = matches!(step.state, State::Amiss(_));
    let open = !step.not_ready.is_empty() && !step.state.is_over();
    amiss || open && !forbidden && !sounded && !matches!(step.work, Work::Insert { .. })
}

/// Does the step that is shown.
fn act(scene: &Scene<'_>, doing: &mut Doing, (step, pressed): (&DayStep<'_>, &Pressed)) -> Outcome {
    match (&step.work, pressed) {
        (Work::Sound(_), Pressed::Enter) => sound(scene, doing, step),
        (Work::Sound(_), _) | (Work::Insert { .. }, Pressed::Done) => Outcome::default(),
        (Work::Count(wanted), Pressed::Done | Pressed::Enter) => {
            count(scene, doing, (step, wanted), pressed)
        }
        (Work::Insert { site, .. }, Pressed::Guided | Pressed::Begun | Pressed::Freehand) => {
            let way = match pressed {
                Pressed::Guided => InsertionWay::Guided,
                Pressed::Begun => InsertionWay::Begun,
                _ => InsertionWay::Freehand,
            };
            if way != InsertionWay::Freehand && site.insertion.is_none() {
                return Outcome::default();
            }
            let by_hand = way == InsertionWay::Freehand;
            let speaks = |why: &&NotReady| !by_hand || why.is_of_freehand();
            let mut open = step.not_ready.iter().filter(speaks);
            if open.clone().any(NotReady::forbids) {
                return Outcome::tell(scene.word("surgery-not-guide-off"));
            }
            if open.next().is_some() {
                doing.ask(Asked::Reason(For::Insertion(way)));
                return Outcome::default();
            }
            turned_in(scene, doing, way)
        }
        (Work::Finish { .. }, Pressed::Done) => turned_in(scene, doing, InsertionWay::Ended),
        (Work::SetAnew { .. }, Pressed::Done) => passes(scene),
        (_, Pressed::Done) if step.not_ready.is_empty() => {
            doing.look_at(None);
            Outcome::record(done(scene, step, None))
        }
        (_, Pressed::Done) => {
            let forbidden = step.not_ready.iter().any(NotReady::forbids);
            let id = if step.not_ready.contains(&NotReady::GuideOff) {
                "surgery-not-guide-off"
            } else if forbidden {
                "surgery-forbidden"
            } else {
                "surgery-not-ready"
            };
            Outcome::tell(scene.word(id))
        }
        _ => Outcome::default(),
    }
}

/// The step that was due, where another one is recorded.
fn due(scene: &Scene<'_>, step: &DayStep<'_>) -> Option<Box<StepKey>> {
    let due = scene.day.steps.get(scene.day.next()?)?;
    let before = scene.day.place_of(&step.key)? > scene.day.next()?;
    before.then(|| Box::new(due.key.clone()))
}

fn done(scene: &Scene<'_>, step: &DayStep<'_>, despite: Option<String>) -> EventKind {
    let planned = step.drill().and_then(|drill| drill.planned);
    EventKind::StepDone(StepDone {
        step: step.key.clone(),
        piece: planned.map(|planned| planned.key.drill_key()),
        due: due(scene, step),
        despite,
        purpose: scene.purpose(),
    })
}

fn sound(scene: &Scene<'_>, doing: &mut Doing, step: &DayStep<'_>) -> Outcome {
    let Some(found_mm) = doing.entry.figure() else {
        return Outcome::default();
    };
    doing.look_at(None);
    Outcome::record(EventKind::Sounded(Sounded {
        step: step.key.clone(),
        found_mm,
        due: due(scene, step),
        purpose: scene.purpose(),
    }))
}

/// One line of a count after the other, by the number that was counted: nobody sees before what it should be.
fn count(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (step, wanted): (&DayStep<'_>, &[CountWanted]),
    pressed: &Pressed,
) -> Outcome {
    if doing.counted.len() >= wanted.len() {
        return Outcome::default();
    }
    let typed = doing.entry.typed.as_str().parse();
    let found = match (pressed, typed) {
        (Pressed::Enter, Ok(found)) => found,
        (Pressed::Enter, Err(_)) => return Outcome::tell(scene.word("surgery-count-no-number")),
        _ => return Outcome::tell(scene.word("surgery-count-enter")),
    };
    if !matches!(step.state, State::Open | State::Amiss(_)) {
        return Outcome::default();
    }
    doing.entry.typed.clear();
    doing.counted.push(found);
    if doing.counted.len() == wanted.len() {
        doing.ask(Asked::Second);
    }
    Outcome::default()
}

/// The other person who counted.
fn second(scene: &Scene<'_>, board: &Board, doing: &mut Doing) -> Outcome {
    doing.entry.refused = None;
    let Some(other) = doing.entry.person(&doing.field.clone(), board) else {
        return Outcome::default();
    };
    if doing
        .who
        .as_ref()
        .is_some_and(|who| who.may_be_same(&other))
    {
        doing.entry.refused = Some(Refused::SamePerson(other));
        return Outcome::default();
    }
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let Work::Count(wanted) = &step.work else {
        return Outcome::default();
    };
    let lines = wanted
        .iter()
        .zip(&doing.counted)
        .map(|(line, found)| CountLine {
            what: scene.formatter.counted_kind(&line.kind),
            wanted: line.wanted,
            found: *found,
        });
    let counted = Counted {
        step: step.key.clone(),
        second: other,
        lines: lines.collect(),
        due: due(scene, step),
        despite: None,
        purpose: scene.purpose(),
    };
    let at = doing.looked_at.clone();
    doing.look_at(at);
    Outcome::record(EventKind::Counted(counted))
}

fn turned_in(scene: &Scene<'_>, doing: &mut Doing, way: InsertionWay) -> Outcome {
    if way == InsertionWay::Begun {
        return inserted(scene, doing, (way, None, None), None);
    }
    doing.ask(Asked::Torque(way));
    Outcome::default()
}

/// The torque that is typed, where it is one.
fn typed_torque(doing: &Doing) -> Option<Torque> {
    let whole: Option<i32> = doing.entry.typed.as_str().parse().ok();
    let whole = whole.filter(|torque| (1..=200).contains(torque));
    whole.map(Torque::from_ncm)
}

/// What is told of the torque that is typed before it is taken: it is above its limit.
fn torque_off(scene: &Scene<'_>) -> Option<String> {
    let (_, step) = scene.step()?;
    let (Work::Insert { site, .. } | Work::Finish { site }) = &step.work else {
        return None;
    };
    let torque = typed_torque(scene.doing)?;
    let kit = &scene.document.case().kit;
    match torque_against(kit, &site.implant, torque) {
        TorqueAgainst::Above(_) => scene.formatter.torque_off(&step.key, torque),
        TorqueAgainst::Within | TorqueAgainst::NoLimit => None,
    }
}

/// Where it stopped by what is typed.
fn typed_depth(doing: &Doing, pressed: &Pressed) -> Option<Length> {
    let by = doing.entry.typed.value()?;
    match pressed {
        Pressed::Enter => Some(by),
        Pressed::Apical => Some(Length::ZERO - by),
        _ => None,
    }
}

/// What is told of the depth that is typed before it is taken: it is far off the plan.
fn depth_off(scene: &Scene<'_>, pressed: &Pressed) -> Option<String> {
    let coronal = typed_depth(scene.doing, pressed)?;
    scene.formatter.depth_off(coronal)
}

/// A figure off its limit is asked again.
fn off_limit(scene: &Scene<'_>, off: &str) -> Outcome {
    Outcome::tell(scene.text("surgery-again-off", &[("off", off)]))
}

/// Torque as it is typed; nothing typed is not recorded.
fn torque(scene: &Scene<'_>, doing: &mut Doing, way: InsertionWay, again: bool) -> Outcome {
    if let Some(off) = torque_off(scene).filter(|_| !again) {
        return off_limit(scene, &off);
    }
    let typed = doing.entry.typed.as_str().to_owned();
    // A reason that was given before stays in the field.
    if typed.is_empty() {
        doing.asked = Asked::Depth(way, None);
        return Outcome::default();
    }
    match typed_torque(doing) {
        Some(torque) => {
            doing.asked = Asked::Depth(way, Some(torque));
            doing.entry.typed.clear();
            Outcome::default()
        }
        None => Outcome::tell(scene.word("surgery-torque-no-number")),
    }
}

/// Where it stopped: at its depth, so much coronal or apical of it, or not recorded.
fn depth(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (way, torque): (InsertionWay, Option<Torque>),
    (pressed, again): (&Pressed, bool),
) -> Outcome {
    if let Some(off) = depth_off(scene, pressed).filter(|_| !again) {
        return off_limit(scene, &off);
    }
    let typed = typed_depth(doing, pressed);
    let empty = doing.entry.typed.as_str().is_empty();
    let coronal = match (pressed, typed) {
        (Pressed::Done, _) if empty => Some(Length::ZERO),
        (Pressed::Enter, None) if empty => None,
        (Pressed::Enter | Pressed::Apical, Some(coronal)) => Some(coronal),
        _ => return Outcome::tell(scene.word("surgery-depth-how")),
    };
    let despite = Some(doing.field.trim().to_owned()).filter(|reason| !reason.is_empty());
    inserted(scene, doing, (way, torque, coronal), despite)
}

fn inserted(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (way, torque_ncm, coronal_of_plan_mm): (InsertionWay, Option<Torque>, Option<Length>),
    despite: Option<String>,
) -> Outcome {
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    doing.look_at(None);
    Outcome::record(EventKind::Inserted(Inserted {
        step: step.key.clone(),
        way,
        torque_ncm,
        coronal_of_plan_mm,
        due: due(scene, step),
        despite,
        purpose: scene.purpose(),
    }))
}

/// A reason was given.
fn reason(scene: &Scene<'_>, stop: Option<&Stop>, doing: &mut Doing, of: For) -> Outcome {
    let reason = doing.field.trim().to_owned();
    if !reason.chars().any(char::is_alphabetic) {
        return Outcome::tell(scene.word("surgery-reason-empty"));
    }
    let open = Changed::default();
    if of == For::GoOn {
        let changed = match stop {
            Some(Stop::Other(changed)) => changed,
            _ => &open,
        };
        doing.ask_nothing();
        let first = scene.day.begun.is_none();
        let any = first || *changed != Changed::default();
        return if any {
            Outcome::record(begun(scene, Some(reason)))
        } else {
            Outcome::default()
        };
    }
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let kind = match (of, &step.state) {
        (For::StopHere, _) => {
            let site = step.site();
            let open = scene.day.open_from(0).map(|(_, step)| step);
            let here = open.filter(|open| open.site() == site);
            let kinds = here.map(|step| {
                EventKind::StepSkipped(StepSkipped {
                    step: step.key.clone(),
                    reason: reason.clone(),
                    purpose: scene.purpose(),
                })
            });
            let kinds = kinds.collect();
            doing.look_at(None);
            return Outcome {
                kinds,
                ..Outcome::default()
            };
        }
        (For::Skip, _) => EventKind::StepSkipped(StepSkipped {
            step: step.key.clone(),
            reason,
            purpose: scene.purpose(),
        }),
        (For::Despite, State::Amiss(one)) => match &one.kind {
            EventKind::Counted(counted) => EventKind::Counted(Counted {
                despite: Some(reason),
                ..counted.clone()
            }),
            _ => return Outcome::default(),
        },
        (For::Insertion(InsertionWay::Begun), _) => {
            doing.ask_nothing();
            let way = (InsertionWay::Begun, None, None);
            return inserted(scene, doing, way, Some(reason));
        }
        (For::Insertion(way), _) => {
            // The reason stays in the field until it is recorded with what was reached.
            doing.asked = Asked::Torque(way);
            doing.entry.typed.clear();
            return Outcome::default();
        }
        (For::Despite | For::GoOn, _) => done(scene, step, Some(reason)),
    };
    doing.look_at(None);
    Outcome::record(kind)
}

/// A change on the table, by its number among those that are offered.
fn change(scene: &Scene<'_>, doing: &mut Doing, number: u8) -> Outcome {
    let offers = scene.step().map(|(_, step)| offered(scene, step));
    let at = usize::from(number).checked_sub(1);
    let one = at.and_then(|at| offers?.into_iter().nth(at));
    match one.map(|one| one.what) {
        None => Outcome::default(),
        Some(What::StopHere) => {
            doing.ask(Asked::Reason(For::StopHere));
            Outcome::default()
        }
        Some(What::Edit(change)) => {
            doing.look_at(None);
            Outcome {
                wanted: Wanted::Edit(change),
                ..Outcome::default()
            }
        }
    }
}

/// What is in a hand at a step.
pub(super) fn in_hand(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<InHand> {
    let mut found = Vec::new();
    let planned = step.drill().and_then(|drill| drill.planned);
    if let Some(planned) = planned {
        let thing = ThingKey {
            of: SlotKind::Drill,
            entry: planned.key.drill.clone(),
            copy: planned.key.copy,
        };
        let name = scene.formatter.piece(&thing.piece());
        found.push(InHand { name, thing });
    }
    let of = |of: SlotKind, entry: &str| ThingKey {
        of,
        entry: entry.to_owned(),
        copy: std::num::NonZeroU32::MIN,
    };
    let mut more = Vec::new();
    match &step.work {
        Work::Drill(drilling) => {
            let sleeve = drilling.step.sleeve.as_ref();
            more.extend(sleeve.map(|sleeve| of(SlotKind::Sleeve, sleeve.as_str())));
        }
        Work::Insert { site, .. } | Work::Finish { site } => {
            more.push(of(SlotKind::Implant, site.implant.as_str()));
            let insertion = site.insertion.as_ref();
            let carrier = insertion.and_then(|one| one.carrier.as_ref());
            more.extend(carrier.map(|carrier| of(SlotKind::Carrier, carrier.as_str())));
            let sleeve = insertion.and_then(|one| one.sleeve.as_ref());
            more.extend(sleeve.map(|sleeve| of(SlotKind::Sleeve, sleeve.as_str())));
        }
        Work::Pin { sheet, .. } => more.push(of(SlotKind::Pin, sheet.pin.as_str())),
        _ => {}
    }
    found.extend(more.into_iter().map(|thing| InHand {
        name: scene.formatter.thing(&thing),
        thing,
    }));
    found
}

/// Something fell, by its number among what is in a hand.
fn fell(scene: &Scene<'_>, board: &Board, doing: &mut Doing, number: u8) -> Outcome {
    let Some((_, step)) = scene.step() else {
        return Outcome::default();
    };
    let all = in_hand(scene, step);
    let at = usize::from(number).checked_sub(1);
    let Some(one) = at.and_then(|at| all.get(at)) else {
        return Outcome::default();
    };
    doing.ask_nothing();
    let task = board.tasks.iter().find(|task| task.thing == one.thing);
    let kinds = match task {
        Some(task) => crate::view::loading::falls::effects_of(task, board),
        None => vec![EventKind::Dropped {
            piece: match one.thing.piece() {
                Piece::Thing(_) => Piece::Thing(ThingKind {
                    of: one.thing.of,
                    entry: one.thing.entry.clone(),
                }),
                piece => piece,
            },
            purpose: Some(scene.purpose()),
        }],
    };
    Outcome {
        kinds,
        told: task.and_then(|task| scene.fell(board, task)),
        ..Outcome::default()
    }
}

/// The person whose name a record bears.
pub(super) fn signs(doing: &Doing) -> Option<&Who> {
    doing.who.as_ref()
}
