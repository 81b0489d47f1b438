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

/// Half a graduation off is within what may be used, and on no graduation: it is mistyped, however often it is typed. What has
/// more decimals than the gauge is no figure at all.
#[test]
fn a_figure_of_the_check_piece_that_the_gauge_cannot_show_is_asked_back() {
    use crate::view::loading::session::{Phase, Refused};
    // The second shows every other tenth.
    for (demo, sound, typed, asked_back) in [
        ("two-molars", "21.7", "21.65", false),
        ("two-molars", "21.7", "21.75", false),
        ("upper-face-gauge", "25.4", "25.3", true),
    ] {
        let mut world = World::new(case(demo, |_| {}));
        world.take(Input::Begin(Stage::Bench, Pass::Setting));
        world.name("MK");
        let kinds = world.type_in(typed);
        let refused = &world.session.entry.refused;
        if asked_back {
            assert!(matches!(&kinds[..], [EventKind::GaugeAskedBack { .. }]));
            assert!(
                matches!(refused, Some(Refused::GaugeNoFigure(_))),
                "{refused:?}"
            );
        } else {
            assert_eq!(kinds, []);
            assert_eq!(*refused, Some(Refused::Mistyped(typed.to_owned())));
        }
        world.type_in(typed);
        assert_eq!(world.session.phase, Phase::Gauge, "{typed} again");
        world.type_in(sound);
        assert_eq!(world.session.phase, Phase::Load);
    }
}

/// Too few figures, too many, or more decimals than the gauge has: no reading, and echoed as it stood.
#[test]
fn figures_that_no_gauge_shows_are_no_reading() {
    for (keys, stood) in [
        ("19", "19"),
        ("9", "9"),
        ("1911", "19.11"),
        ("19.15", "19.15"),
    ] {
        let mut world = at_first_reading();
        assert_eq!(world.type_in(keys), [], "{keys}");
        let refused = Refused::Mistyped(stood.to_owned());
        assert_eq!(world.session.entry.refused, Some(refused), "{keys}");
        assert_eq!(world.session.entry.typed.as_str(), "", "{keys}");
        assert_eq!(world.now(), Now::Do(Step::Read));
    }
}

/// The mark stands where the gauge has it, whoever types it and whoever does not.
#[test]
fn a_reading_is_typed_with_or_without_its_mark() {
    for keys in ["207", "20.7", "20,7"] {
        let mut world = at_first_reading();
        assert_eq!(world.figure().to_string(), "20.7");
        let read = world.type_in(keys);
        let [EventKind::Reading(reading)] = &read[..] else {
            panic!("{keys} {read:?}")
        };
        assert_eq!(reading.value_mm, world.figure(), "{keys}");
        assert_eq!(world.now(), Now::Do(Step::Place));
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
    for typed in ["", "0.0", "000"] {
        assert!(world.type_in(typed).is_empty());
        assert_eq!(world.session.entry.refused, Some(Refused::NoLength));
        world.session.entry.typed.clear();
    }
}

#[test]
fn keys_that_mean_nothing_now_do_nothing() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    // A code may be typed, and is of nothing.
    for input in [Input::Digit(3), Input::Mark, Input::Back, Input::Enter] {
        assert!(world.take(input.clone()).is_empty(), "{input:?}");
        assert_eq!(world.now(), Now::Do(Step::Take), "{input:?}");
    }
    world.take(Input::Go(world.session.at));
    for input in [
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
