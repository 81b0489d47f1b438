//! All of a drill recorded with the figure that is read, all of any other thing with one press.

use super::world::{World, case};
use crate::view::loading::session::{Input, Now, Step, is_off};
use crate::view::loading::task::{Block, ReadingState, Task, Work};
use traywright_core::kit::SlotKind;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, HandStep, Pass, Stage, Turn};

fn at_first_drill() -> World {
    let mut world = World::loading_at_once(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    assert_eq!(world.now(), Now::Do(Step::SetAndRead));
    world
}

fn steps(kinds: &[EventKind]) -> Vec<HandStep> {
    let steps = kinds.iter().filter_map(|kind| match kind {
        EventKind::Handled { step, .. } => Some(*step),
        _ => None,
    });
    steps.collect()
}

const HANDS: [HandStep; 3] = [HandStep::Set, HandStep::Locked, HandStep::Tugged];

#[test]
fn one_figure_records_that_a_drill_was_set_locked_tugged_and_read() {
    let mut world = at_first_drill();
    // Nothing of it is done before the figure is there.
    assert_eq!(world.take(Input::Done), []);
    assert_eq!(world.now(), Now::Do(Step::SetAndRead));
    let figure = world.figure();
    let recorded = world.type_in(&figure.to_string());
    assert_eq!(steps(&recorded), HANDS);
    let [_, _, _, EventKind::Reading(reading)] = &recorded[..] else {
        panic!("{recorded:?}")
    };
    assert_eq!((reading.turn, reading.value_mm), (Turn::First, figure));
    assert!(world.task().is_read_first());
    assert_eq!(world.now(), Now::Do(Step::Place));
    let laid = world.take(Input::Done);
    assert!(matches!(&laid[..], [EventKind::Placed { .. }]));
}

/// A figure that nobody could have read records nothing of what hands did either.
#[test]
fn what_is_mistyped_records_no_step_of_a_drill() {
    let mut world = at_first_drill();
    for keys in ["", "19", "1911", "0.0"] {
        assert_eq!(world.type_in(keys), [], "{keys}");
        assert_eq!(world.now(), Now::Do(Step::SetAndRead), "{keys}");
        world.session.entry.typed.clear();
    }
}

/// Refused, it goes on with the steps one by one: no figure is taken of a stop that was not set anew.
#[test]
fn a_drill_whose_reading_was_refused_is_set_step_by_step() {
    let mut world = at_first_drill();
    let deeper = (world.figure() + Length::from_um(100)).to_string();
    assert_eq!(steps(&world.type_in(&deeper)), HANDS);
    assert!(is_off(&world.task().record.first));
    let figure = world.figure().to_string();
    for step in [Step::Set, Step::Lock, Step::Tug] {
        assert_eq!(world.now(), Now::Do(step));
        assert_eq!(world.type_in(&figure), [], "{step:?}");
        world.take(Input::Done);
    }
    assert_eq!(world.now(), Now::Do(Step::Read));
    // What was far off was mistyped: it is read again, and nothing is set.
    let mut world = at_first_drill();
    world.type_in("31.2");
    assert_eq!(world.now(), Now::Do(Step::Read));
}

/// Whatever is recorded of a drill is not passed over: it is worked on step by step from there.
#[test]
fn a_drill_on_which_somebody_worked_is_set_step_by_step() {
    let begun = |step| {
        let mut world = at_first_drill();
        let planned = world.task().planned.unwrap();
        let purpose = world.board().purpose;
        let item = planned.key;
        world.record([EventKind::Handled {
            item,
            step,
            purpose,
        }]);
        world
    };
    assert_eq!(begun(HandStep::Set).now(), Now::Do(Step::Lock));
    // What was not set before is not locked: it is taken and set.
    for step in [HandStep::Locked, HandStep::Tugged] {
        assert_eq!(begun(step).now(), Now::Do(Step::Take));
    }
    // Set anew, fallen, read and lapsed: what was read of it before does not come back with one figure.
    for (input, due) in [(Input::Reset, Step::Set), (Input::Fell, Step::Take)] {
        let mut world = at_first_drill();
        let figure = world.figure().to_string();
        world.type_in(&figure);
        world.take(input);
        assert_eq!(world.task().record.first, ReadingState::Open);
        assert_eq!(world.now(), Now::Do(due));
        assert_eq!(world.type_in(&figure), []);
    }
    let mut world = at_first_drill();
    world.take(Input::Fell);
    assert_eq!(world.now(), Now::Do(Step::Take));
    world.take(Input::DidNotFall);
    assert_eq!(world.now(), Now::Do(Step::Take));
}

/// By one key, and by the same back; what is in a hand is gone on with as it was begun.
#[test]
fn the_steps_are_taken_one_by_one_by_who_wants_that() {
    let mut world = at_first_drill();
    world.take(Input::Digit(1));
    world.take(Input::Singly);
    assert_eq!(world.now(), Now::Do(Step::Take));
    assert_eq!(world.session.entry.typed.as_str(), "");
    world.take(Input::Singly);
    assert_eq!(world.now(), Now::Do(Step::SetAndRead));
    world.take(Input::Singly);
    world.take(Input::Done);
    world.take(Input::Singly);
    assert_eq!(world.now(), Now::Do(Step::Set));
}

/// A step at another desk while the figure is typed: it was typed of another state of the drill.
#[test]
fn a_figure_typed_before_somebody_else_set_the_drill_records_nothing() {
    let mut world = at_first_drill();
    world.take(Input::Digit(1));
    let item = world.task().planned.unwrap().key;
    let purpose = world.board().purpose;
    world.record([EventKind::Handled {
        item,
        step: HandStep::Set,
        purpose,
    }]);
    assert_eq!(world.take(Input::Enter), []);
    assert_eq!(world.session.entry.typed.as_str(), "");
}

/// What is laid takes one press, whatever comes before it: what is sealed, what no gauge reads, what does not fit yet.
#[test]
fn everything_else_is_laid_by_one_press() {
    let unread = case("two-molars", |case| case.setup.gauge = None);
    for case in [
        case("two-molars", |_| {}),
        unread,
        case("fixed-stops", |_| {}),
    ] {
        let mut world = World::new(case);
        world.take(Input::Begin(Stage::Bench, Pass::Setting));
        world.name("MK");
        if let Some(gauge) = world.board().gauge {
            world.type_in(&(gauge.piece.unwrap() + gauge.constant).to_string());
        }
        let things: Vec<Task> = world.board().tasks;
        for thing in things {
            let reads = world.session.way(&thing).contains(&Step::Read);
            let laid = !reads && !thing.is_anew() && thing.slot.is_some();
            if !laid
                || matches!(thing.work, Work::Blocked(Block::NoGaugeFigure)) && !thing.is_sealed()
            {
                continue;
            }
            world.take(Input::Go(thing.index));
            if world.now() == Now::Blocked {
                continue;
            }
            assert_eq!(world.now(), Now::Do(Step::Lay), "{thing:?}");
            let recorded = world.take(Input::Done);
            let sets = thing.work == Work::SetOnly && !thing.is_sealed();
            let expected: &[HandStep] = if sets { &HANDS } else { &[] };
            assert_eq!(steps(&recorded), expected, "{thing:?}");
            assert_eq!(recorded.len(), expected.len() + 1);
            let board = world.board();
            assert!(board.tasks[thing.index].lies_right(), "{thing:?}");
        }
    }
}

/// Lying elsewhere it is taken from there first, by a press of its own.
#[test]
fn what_lies_elsewhere_is_taken_before_it_is_laid() {
    let mut world = World::loading_at_once(case("two-molars", |_| {}), Stage::Bench);
    let board = world.board();
    let sleeve = board
        .tasks
        .iter()
        .find(|task| task.thing.of == SlotKind::Sleeve);
    let sleeve = sleeve.unwrap();
    let purpose = Some(board.purpose);
    world.take(Input::Go(sleeve.index));
    assert_eq!(world.now(), Now::Do(Step::Lay));
    world.record([EventKind::ThingPlaced {
        thing: sleeve.thing.clone(),
        slot: Some("Nowhere 1".to_owned()),
        purpose,
    }]);
    assert_eq!(world.now(), Now::Do(Step::Take));
}

/// A drill that stays sealed on the bench and is opened in the sterile field was set by nobody: one figure does.
#[test]
fn what_is_opened_in_the_field_is_set_and_read_at_once() {
    let mut world = World::loading_at_once(case("two-molars", |_| {}), Stage::SterileField);
    let board = world.board();
    let sealed = board
        .tasks
        .iter()
        .find(|task| task.thing.of == SlotKind::Drill && task.is_sealed());
    let index = sealed.unwrap().index;
    world.take(Input::Go(index));
    world.take(Input::Done);
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Done);
    world.take(Input::Open);
    assert_eq!(world.now(), Now::Do(Step::SetAndRead));
    let figure = world.figure().to_string();
    assert_eq!(steps(&world.type_in(&figure)), HANDS);
}
