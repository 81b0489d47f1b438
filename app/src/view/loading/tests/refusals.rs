//! Readings that are not taken for granted.

use super::world::{World, case};
use crate::view::loading::session::{Input, Now, Refused, Step};
use crate::view::loading::task::ReadingState;
use traywright_core::measure::Length;
use traywright_core::sign::{Deviation, EventKind, HandStep, Pass, Stage};

fn at_first_reading() -> World {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.set();
    world
}

fn with(world: &World, um: i64) -> String {
    (world.figure() + Length::from_um(um)).to_string()
}

#[test]
fn a_first_reading_out_of_tolerance_is_recorded_and_refused() {
    for (off, want) in [(100, "deep"), (-200, "shallow"), (9_000, "mistyped")] {
        let mut world = at_first_reading();
        let figure = with(&world, off);
        let recorded = world.type_in(&figure);
        assert!(matches!(&recorded[..], [EventKind::Reading(_)]), "{want}");
        let ReadingState::Refused {
            value,
            verdict,
            times,
            ..
        } = world.task().record.first
        else {
            panic!("{want}")
        };
        assert_eq!(times, 1);
        assert_eq!(value.to_string(), figure);
        let told = match verdict.deviation {
            _ if !verdict.mistyped.is_empty() => "mistyped",
            Deviation::TooDeep { .. } => "deep",
            Deviation::TooShallow { .. } => "shallow",
            _ => "fine",
        };
        assert_eq!(told, want);
        let figure = with(&world, 0);
        if want == "mistyped" {
            assert_eq!(world.now(), Now::Do(Step::Read));
        } else {
            // The stop sits wrong: no figure is taken before it was set, locked and tugged anew.
            assert_eq!(world.now(), Now::Do(Step::Set), "{want}");
            assert!(world.type_in(&figure).is_empty(), "{want}");
            let anew = world.take(Input::Done);
            let set = HandStep::Set;
            assert!(
                matches!(&anew[..], [EventKind::Handled { step, .. }] if *step == set),
                "{want}"
            );
            for step in [Step::Lock, Step::Tug] {
                assert_eq!(world.now(), Now::Do(step), "{want}");
                assert_eq!(world.take(Input::Done).len(), 1);
            }
        }
        // Read again, it stands in the other's place.
        world.type_in(&figure);
        assert_eq!(world.now(), Now::Do(Step::Place));
    }
}

#[test]
fn one_graduation_shallow_is_accepted_and_nothing_deeper() {
    for (off, step) in [
        (-100, Step::Place),
        (0, Step::Place),
        (100, Step::Set),
        // What the gauge cannot show is mistyped.
        (1, Step::Read),
        (-50, Step::Read),
    ] {
        let mut world = at_first_reading();
        let figure = with(&world, off);
        world.type_in(&figure);
        assert_eq!(world.now(), Now::Do(step), "{off}");
    }
}

/// Half a graduation off is within what may be used, and on no graduation: it is asked back as mistyped, however often it is
/// typed.
#[test]
fn a_figure_of_the_check_piece_that_the_gauge_cannot_show_is_asked_back() {
    use crate::view::loading::session::{Phase, Refused};
    for typed in ["21.65", "21.75", "21.701"] {
        let mut world = World::new(case("two-molars", |_| {}));
        world.take(Input::Begin(Stage::Bench, Pass::Setting));
        world.name("MK");
        let kinds = world.type_in(typed);
        assert!(matches!(&kinds[..], [EventKind::GaugeAskedBack { .. }]));
        let refused = &world.session.entry.refused;
        assert!(
            matches!(refused, Some(Refused::GaugeNoFigure(_))),
            "{refused:?}"
        );
        world.type_in(typed);
        assert_eq!(world.session.phase, Phase::Gauge, "{typed} again");
        world.type_in("21.7");
        assert_eq!(world.session.phase, Phase::Load);
    }
}

#[test]
fn setting_anew_is_recorded_and_both_readings_are_due_again() {
    let mut world = at_first_reading();
    let figure = with(&world, 100);
    world.type_in(&figure);
    let reset = world.take(Input::Reset);
    assert!(matches!(&reset[..], [EventKind::Reset { .. }]));
    assert_eq!(world.now(), Now::Do(Step::Set));
    assert_eq!(world.task().record.first, ReadingState::Open);
}

#[test]
fn what_is_no_length_is_not_recorded() {
    let mut world = at_first_reading();
    for typed in ["", "0", "0.0"] {
        assert!(world.type_in(typed).is_empty());
        assert_eq!(world.session.entry.refused, Some(Refused::NoLength));
        world.session.entry.typed.clear();
    }
}

#[test]
fn keys_that_mean_nothing_now_do_nothing() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    for input in [
        Input::Digit(3),
        Input::Mark,
        Input::Back,
        Input::Enter,
        Input::Reset,
        Input::Open,
        Input::Begin(Stage::SterileField, Pass::Setting),
        Input::Begin(Stage::SterileField, Pass::Blind),
        Input::End,
        Input::Initials("XY".to_owned()),
        Input::Go(9999),
    ] {
        let before = world.session.clone();
        assert!(world.take(input.clone()).is_empty(), "{input:?}");
        assert_eq!(world.session, before, "{input:?}");
    }
}
