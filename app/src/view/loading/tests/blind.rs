//! The pass in which drills are read with no figure in sight.

use super::world::{World, case, mm};
use crate::view::loading::State;
use crate::view::loading::blind::{BlindPass, BlindPhase, BlindState, unlaid};
use crate::view::loading::entry::Entry;
use crate::view::loading::session::{GaugeFell, Input, Now, Refused, Step, moved, must_set_anew};
use crate::view::loading::task::{ReadingState, Task, Verified};
use traywright_core::measure::Length;
use traywright_core::sign::{
    EventKind, FiguresSeen, HandStep, PassEnd, Piece, Purpose, Stage, Turn, Who, WriterId,
};

/// Everything set, read once and laid at this stage by MK.
fn laid(stage: Stage) -> World {
    let mut world = World::loading(case("two-molars", |_| {}), stage);
    world.load_all();
    world
}

fn initials(world: &mut World, who: &str) -> Option<Refused> {
    world.name(who);
    world.blind.as_ref().unwrap().entry.refused.clone()
}

fn figure(task: &Task) -> Length {
    task.planned.as_ref().unwrap().gauge_figure_mm.unwrap()
}

/// The drill in hand as the record has it now.
fn now(world: &World, task: &Task) -> Task {
    let board = world.board();
    let same = board.tasks.iter().find(|one| one.index == task.index);
    same.unwrap().clone()
}

#[test]
fn another_person_reads_every_drill_in_another_order() {
    let mut world = laid(Stage::Bench);
    let first: Vec<String> = readings(&world, Turn::First);
    world.begin_blind("JH");
    let pass = world.blind.clone().unwrap();
    assert_eq!(
        (pass.phase, pass.reads(&world.board())),
        (BlindPhase::Read, true)
    );
    while let Some(task) = world.blind_task() {
        world.type_in(&figure(&task).to_string());
    }
    world.take(Input::End);
    let mut second = readings(&world, Turn::Second);
    assert!(second.len() > 2);
    assert_ne!(first, second, "another order");
    second.sort();
    let mut sorted = first.clone();
    sorted.sort();
    assert_eq!(sorted, second, "the same drills");
    let last = world.log.events().last().unwrap();
    let (stage, end) = (Stage::Bench, PassEnd::Unseen);
    assert_eq!(last.kind, EventKind::PassEnded { stage, end });
}

fn readings(world: &World, turn: Turn) -> Vec<String> {
    let events = world.log.events().iter();
    let read = events.filter_map(|event| match &event.kind {
        EventKind::Reading(reading) if reading.turn == turn => Some(&reading.item),
        _ => None,
    });
    read.map(|item| format!("{} {}", item.drill_key(), item.setting_mm))
        .collect()
}

/// MK set, OW took over and read one: neither of them can begin. JH can, and once JH went to where
/// figures stand, no more.
#[test]
fn whoever_saw_a_figure_in_this_session_cannot_begin() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.set();
    world.take(Input::OtherPerson);
    world.name("OW");
    let shown = world.figure().to_string();
    world.type_in(&shown);
    world.take(Input::Done);
    world.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    for (who, want) in [
        ("MK", FiguresSeen::Set),
        ("m. k.", FiguresSeen::Set),
        ("Maria Krone", FiguresSeen::Set),
        ("OW", FiguresSeen::Read),
    ] {
        let Some(Refused::Saw(_, sight)) = initials(&mut world, who) else {
            panic!("{who}")
        };
        assert_eq!(sight, want, "{who}");
        assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Reader);
    }
    assert_eq!(initials(&mut world, "JH"), None);
    let left = world.blind.as_mut().unwrap().end(PassEnd::Left);
    assert!(
        matches!(&left[..], [one] if matches!(one.kind, EventKind::PassEnded { end: PassEnd::Left, .. }))
    );
    for effect in left {
        let at = world.log.events().last().unwrap().at;
        world.log.append(at, effect.who, effect.kind).unwrap();
    }
    world.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    let Some(Refused::Saw(_, FiguresSeen::Left)) = initials(&mut world, "JH") else {
        panic!("JH went to the figures")
    };
}

/// A pass that has no end in the record was broken off: its reader may have seen anything since.
#[test]
fn the_reader_of_a_pass_that_was_broken_off_cannot_begin_again() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    world.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    assert!(matches!(
        initials(&mut world, "JH"),
        Some(Refused::Saw(_, FiguresSeen::Left))
    ));
    assert_eq!(initials(&mut world, "AB"), None);
}

/// One that ended with no figure shown can be followed by another, where a stop was set anew.
#[test]
fn the_same_reader_reads_what_was_set_anew_since() {
    let mut world = laid(Stage::Bench);
    world.read_again();
    world.go_to_first_set();
    world.take(Input::Reset);
    assert_eq!(world.task().record.verified, Verified::No);
    world.take(Input::Done);
    world.take(Input::Done);
    world.take(Input::Done);
    let shown = world.figure().to_string();
    world.type_in(&shown);
    world.read_again();
    assert_eq!(world.task().record.verified, Verified::Yes);
}

#[test]
fn what_is_refused_cannot_be_found_by_trying() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let task = world.blind_task().unwrap();
    let off = |um: i64| (figure(&task) + Length::from_um(um)).to_string();
    let times = |world: &World| match now(world, &task).record.second {
        ReadingState::Refused { times, .. } => times,
        _ => panic!(),
    };
    world.type_in(&off(100));
    assert_eq!(times(&world), 1);
    // What the gauge cannot show is no try, whatever the setting is, and what no gauge shows is not even recorded.
    let recorded = world.log.events().len();
    for wrong in ["19", "9", "1911", "19.15", &off(50)] {
        world.type_in(wrong);
        let refused = world.blind.as_ref().unwrap().entry.refused.clone();
        assert!(matches!(refused, Some(Refused::Mistyped(_))), "{wrong}");
    }
    assert_eq!(world.log.events().len(), recorded);
    world.type_in("99.9");
    assert_eq!(times(&world), 1);
    assert_eq!(world.blind_task().unwrap().index, task.index);
    // What is only far off is one: else the distance would tell the figure.
    world.type_in(&off(2_100));
    assert_eq!(times(&world), 2);
    let (key, board) = (task.key(), world.board());
    assert_eq!(BlindPass::state(&key, &board), BlindState::SetAnew);
    // Nor is it taken as set in the sterile field.
    let mut field = World::loading(world.case.clone(), Stage::SterileField);
    field.log = world.log.clone();
    field.take(Input::Go(task.index));
    assert_eq!(field.now(), Now::Do(Step::Take));
    assert!(must_set_anew(&now(&world, &task)));
    // The pass goes on with the others, and there is no third try.
    let next = world.blind_task().unwrap();
    assert_ne!(next.index, task.index);
    world.take(Input::Previous);
    assert_ne!(world.blind_task().unwrap().index, task.index);
    world.back_to_setting();
    world.take(Input::Go(task.index));
    assert_eq!(world.now(), Now::Do(Step::Take));
    world.set_and_read();
    assert_eq!(world.task().record.second, ReadingState::Open);
    assert!(world.session.awaits_second(&world.task()));
}

/// Nothing that bears a figure is reached by a key of the other pass.
#[test]
fn the_keys_of_the_other_pass_do_nothing_in_it() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    world.blind_task();
    let before = (world.blind.clone(), world.log.events().len());
    for input in [
        Input::Done,
        Input::Reset,
        Input::Open,
        Input::OtherPerson,
        Input::OtherStage,
        Input::Go(1),
        Input::Initials("AB".to_owned()),
    ] {
        assert!(world.take(input.clone()).is_empty(), "{input:?}");
        let after = (world.blind.clone(), world.log.events().len());
        assert_eq!(after, before, "{input:?}");
    }
}

/// Read twice on the bench, the drills are read aloud in the sterile field without being set, locked or
/// tugged again: also by the one who set them.
#[test]
fn in_the_sterile_field_what_was_verified_on_the_bench_is_only_read_aloud() {
    let mut bench = laid(Stage::Bench);
    bench.read_again();
    let mut world = World::loading(bench.case.clone(), Stage::SterileField);
    world.log = bench.log.clone();
    world.minute = bench.minute;
    let waiting = world.session.waiting_for_second(&world.board());
    assert!(waiting > 2);
    world.go_to_first_set();
    assert_eq!(world.now(), Now::Done, "nothing is set again");
    world.blind = Some(BlindPass::new(Stage::SterileField, &world.session.entry));
    assert_eq!(initials(&mut world, "MK"), None);
    assert!(matches!(
        initials(&mut world, "m.k."),
        Some(Refused::SamePerson(_))
    ));
    assert_eq!(initials(&mut world, "JH"), None);
    let mut read = 0;
    while let Some(task) = world.blind_task() {
        world.type_in(&figure(&task).to_string());
        assert_eq!(now(&world, &task).record.verified, Verified::Yes);
        read += 1;
    }
    assert_eq!(read, waiting);
    let entered = world
        .log
        .events()
        .iter()
        .rev()
        .find_map(|event| match &event.kind {
            EventKind::Reading(reading) => reading.entered_by.clone(),
            _ => None,
        });
    assert_eq!(entered.unwrap().as_str(), "JH");
}

/// What was set in the sterile field is not read aloud by who set it there.
#[test]
fn what_was_set_in_the_sterile_field_is_read_aloud_by_another() {
    let mut world = laid(Stage::SterileField);
    world.begin_blind("MK");
    assert_eq!(world.blind_task(), None);
    let left = world.blind.as_ref().unwrap().left_to_others(&world.board());
    assert!(left > 2);
    world.take(Input::End);
    world.begin_blind("JH");
    assert!(world.blind_task().is_some());
    // Nor entered by who set it.
    world.take(Input::End);
    world.blind = Some(BlindPass::new(Stage::SterileField, &world.session.entry));
    assert_eq!(initials(&mut world, "JH"), None);
    assert_eq!(initials(&mut world, "MK"), None);
    assert_eq!(world.blind_task(), None);
}

#[test]
fn a_drill_that_falls_leaves_the_pass_and_a_gauge_that_falls_is_checked() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let task = world.blind_task().unwrap();
    let fell = world.take(Input::Fell);
    assert!(matches!(
        &fell[0],
        EventKind::Dropped {
            piece: Piece::Drill(_),
            ..
        }
    ));
    assert_eq!(
        BlindPass::state(&task.key(), &world.board()),
        BlindState::Gone
    );
    assert_ne!(world.blind_task().unwrap().index, task.index);
    world.take(Input::Gauge(GaugeFell::Yes));
    assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Gauge);
    world.type_in("21.7");
    assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Read);
}

/// The gauge is found off at the second reader's check: what the first one read is in doubt.
#[test]
fn a_gauge_found_off_takes_what_was_read_on_it() {
    let mut world = laid(Stage::Bench);
    world.begin_blind_as_far_as_the_gauge("JH");
    let asked = world.type_in("31.7");
    assert!(matches!(asked[..], [EventKind::GaugeAskedBack { .. }]));
    let pass = world.blind.as_ref().unwrap();
    assert!(matches!(
        pass.entry.refused,
        Some(Refused::GaugeMistyped(_))
    ));
    let recorded = world.type_in("21.9");
    let [EventKind::GaugeChecked { asked_back_mm, .. }] = &recorded[..] else {
        panic!("{recorded:?}")
    };
    assert_eq!(*asked_back_mm, [mm("31.7")]);
    let board = world.board();
    let doubted = board.tasks.iter().filter(|task| task.record.in_doubt);
    assert!(doubted.count() > 2);
    let unsound = |task: &&Task| matches!(task.record.first, ReadingState::Unsound { .. });
    assert!(board.tasks.iter().filter(unsound).count() > 2);
    world.type_in("21.7");
    assert_eq!(
        world.blind_task(),
        None,
        "the first readings are taken again"
    );
}

/// One wrong digit at the check piece takes no reading: it is asked back, and what was entered stands in the
/// record.
#[test]
fn one_wrong_digit_at_the_check_piece_takes_no_reading() {
    let mut world = laid(Stage::Bench);
    let read = |world: &World| {
        let board = world.board();
        board
            .tasks
            .iter()
            .filter(|task| task.is_read_first())
            .count()
    };
    let before = read(&world);
    world.begin_blind_as_far_as_the_gauge("JH");
    world.type_in("21.9");
    assert_eq!(read(&world), before);
    let sound = world.type_in("21.7");
    assert_eq!(read(&world), before);
    let [
        EventKind::GaugeChecked {
            value_mm,
            asked_back_mm,
            ..
        },
    ] = &sound[..]
    else {
        panic!("{sound:?}")
    };
    assert_eq!(*value_mm, Length::from_um(21_700));
    assert_eq!(*asked_back_mm, [Length::from_um(21_900)]);
    assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Read);
}

/// Misread or mistyped once in the sterile field, a drill stays in the pass and what the bench verified
/// stands; refused twice it is to be set anew.
#[test]
fn a_figure_misread_aloud_takes_nothing_from_the_bench() {
    let mut bench = laid(Stage::Bench);
    bench.read_again();
    let mut world = World::loading(bench.case.clone(), Stage::SterileField);
    world.log = bench.log.clone();
    world.minute = bench.minute;
    world.begin_blind("MK");
    let task = world.blind_task().unwrap();
    let off = |um: i64| (figure(&task) + Length::from_um(um)).to_string();
    for wrong in ["99.9".to_owned(), "19".to_owned(), off(100)] {
        world.type_in(&wrong);
        assert_eq!(world.blind_task().unwrap().index, task.index, "{wrong}");
        assert!(now(&world, &task).record.on_bench, "{wrong}");
    }
    world.type_in(&off(0));
    assert_eq!(now(&world, &task).record.verified, Verified::Yes);
    let next = world.blind_task().unwrap();
    let deep = (figure(&next) + Length::from_um(200)).to_string();
    world.type_in(&deep);
    world.type_in(&deep);
    let state = BlindPass::state(&next.key(), &world.board());
    assert_eq!(state, BlindState::SetAnew);
}

/// What was practised is nothing that was done for the patient.
#[test]
fn what_hands_did_to_practise_is_not_done_for_a_patient() {
    let mut world = World::loading(
        case("two-molars", |case| case.demonstration = true),
        Stage::Bench,
    );
    world.go_to_first_set();
    world.set();
    let index = world.session.at;
    assert_eq!(world.now(), Now::Do(Step::Read));
    world.case = case("two-molars", |_| {});
    world.take(Input::Go(index));
    assert_eq!(world.task().record.handling, None);
    assert!(matches!(world.now(), Now::Do(Step::Take | Step::Set)));
}

/// A drill that stays in its wrapping was never at its first setting.
#[test]
fn a_sealed_drill_is_not_set_anew_for_its_next_step() {
    let one = |case: &mut traywright_core::case::Case| {
        let mut drills = case.kit.drills.iter_mut();
        drills
            .find(|one| one.id.as_str() == "pilot-213")
            .unwrap()
            .quantity = 1;
    };
    let mut world = World::loading(case("two-molars", one), Stage::SterileField);
    let board = world.board();
    let anew = board.tasks.iter().find(|task| task.is_anew()).unwrap();
    let first = board.of_item(anew.item).next().unwrap();
    assert!(first.is_sealed(), "{first:?}");
    assert!(!world.session.may_set_anew(anew, &board));
    let (first, anew) = (first.index, anew.index);
    world.take(Input::Go(first));
    world.take(Input::Open);
    let board = world.board();
    assert!(world.session.may_set_anew(&board.tasks[anew], &board));
}

/// JH reads too deep and ends; AB then reads as planned. That does not agree with JH: the stop is set anew, and
/// then both readings of it are new.
#[test]
fn what_one_second_reader_refused_another_does_not_confirm() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let task = world.blind_task().unwrap();
    world.type_in(&(figure(&task) + mm("0.3")).to_string());
    assert!(!must_set_anew(&now(&world, &task)), "JH may have mistyped");
    world.take(Input::End);
    world.begin_blind("AB");
    while let Some(one) = world.blind_task() {
        world.type_in(&figure(&one).to_string());
    }
    let read = now(&world, &task);
    assert_eq!(read.record.verified, Verified::No, "{:?}", read.record);
    assert!(must_set_anew(&read));
    let state = BlindPass::state(&task.key(), &world.board());
    assert_eq!(state, BlindState::SetAnew);
    world.back_to_setting();
    world.take(Input::Go(task.index));
    world.set_and_read();
    world.take(Input::Done);
    world.begin_blind("AB");
    let again = world.blind_task().unwrap();
    assert_eq!(again.key(), task.key());
    world.type_in(&figure(&again).to_string());
    assert_eq!(now(&world, &task).record.verified, Verified::Yes);
}

/// Who mistyped a second reading reads it again alone.
#[test]
fn a_second_reader_who_was_refused_once_reads_again() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let task = world.blind_task().unwrap();
    world.type_in(&(figure(&task) + mm("0.3")).to_string());
    world.type_in(&figure(&task).to_string());
    assert_eq!(now(&world, &task).record.verified, Verified::Yes);
}

/// A pass that was cut off is taken up by its reader, however the initials are written then.
#[test]
fn a_pass_that_was_cut_off_is_taken_up_in_other_letters() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let desk = WriterId::new("desk").unwrap();
    let cut_off = (Who::new("JH").unwrap(), desk);
    world.blind = Some(BlindPass::taking_up(Stage::Bench, cut_off));
    assert_eq!(initials(&mut world, "jh"), None);
    let gauge = world.board().gauge.unwrap();
    world.type_in(&(gauge.piece.unwrap() + gauge.constant).to_string());
    let pass = world.blind.as_ref().unwrap();
    assert_eq!(pass.phase, BlindPhase::Read, "{:?}", pass.entry.refused);
    let task = world.blind_task().unwrap();
    world.type_in(&figure(&task).to_string());
    assert_eq!(now(&world, &task).record.verified, Verified::Yes);
}

/// What MK was asked back at the check piece, JH's check of the gauge starts from.
#[test]
fn what_was_asked_back_of_the_gauge_goes_on_into_the_next_pass() {
    for (shown, off) in [("21.7", false), ("21.4", true)] {
        let mut world = laid(Stage::Bench);
        world.take(Input::Gauge(GaugeFell::No));
        let asked = world.type_in("21.4");
        assert!(matches!(asked[..], [EventKind::GaugeAskedBack { .. }]));
        world.take(Input::OtherStage);
        world.begin_blind_as_far_as_the_gauge("JH");
        let checked = world.type_in(shown);
        let [EventKind::GaugeChecked { asked_back_mm, .. }] = &checked[..] else {
            panic!("{checked:?}")
        };
        assert_eq!(*asked_back_mm, [mm("21.4")]);
        let refused = world.blind.as_ref().unwrap().entry.refused.as_ref();
        assert_eq!(matches!(refused, Some(Refused::GaugeOff(_))), off);
    }
}

/// What was typed and not entered is of the drill that it was typed for: another desk sets that anew, and the pass
/// goes on to the next.
#[test]
fn a_figure_typed_for_one_drill_is_not_read_of_another() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let drill = world.blind_task().unwrap();
    let typed = figure(&drill).to_string();
    for digit in typed.chars().filter_map(|sign| sign.to_digit(10)) {
        world.take(Input::Digit(u8::try_from(digit).unwrap()));
    }
    let text = |world: &World| {
        world
            .blind
            .as_ref()
            .unwrap()
            .entry
            .typed
            .as_str()
            .to_owned()
    };
    assert!(!text(&world).is_empty());
    world.record([moved(
        drill.planned.unwrap().key.drill_key(),
        Purpose::Patient,
    )]);
    let next = world.blind_task().unwrap();
    assert_ne!(next.index, drill.index);
    assert_eq!(text(&world), "");
    let refused = world.blind.as_ref().unwrap().entry.refused.clone();
    assert_eq!(refused, Some(Refused::MovedOn));
    assert_eq!(world.take(Input::Enter), []);
}

/// Set anew, locked and tugged at another desk between two looks: the same step of the same drill, but another
/// stop.
#[test]
fn a_figure_typed_before_a_drill_was_set_anew_is_not_read_after_it() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.set();
    world.take(Input::Digit(1));
    let item = world.task().planned.unwrap().key;
    let steps = [HandStep::Set, HandStep::Locked, HandStep::Tugged];
    let purpose = Purpose::Patient;
    let handled = steps.map(|step| EventKind::Handled {
        item: item.clone(),
        step,
        purpose,
    });
    world.record(
        [moved(item.drill_key(), purpose)]
            .into_iter()
            .chain(handled),
    );
    assert_eq!(world.now(), Now::Do(Step::Read));
    assert_eq!(world.take(Input::Enter), []);
    assert_eq!(world.session.entry.typed.as_str(), "");
}

/// Who goes to the desk and comes back begins the figure anew.
#[test]
fn what_was_typed_is_gone_once_the_view_is_left() {
    let mut state = State::default();
    state.doing.session.entry.typed.digit(1);
    assert_eq!(state.look_away(), []);
    assert_eq!(state.doing.session.entry.typed.as_str(), "");
}

/// Refused twice in the sterile field it is to be set anew at whatever stage it is looked at: nobody is told to lay it.
#[test]
fn what_was_refused_twice_in_the_field_is_not_laid_at_the_choice_of_passes() {
    let mut world = laid(Stage::SterileField);
    world.begin_blind("JH");
    let drill = world.blind_task().unwrap();
    let deeper = (figure(&drill) + Length::from_um(300)).to_string();
    for _ in 0..2 {
        world.type_in(&deeper);
    }
    let aside = world.blind.as_ref().unwrap().set_aside(&world.board());
    world.record(aside.into_iter().map(|effect| effect.kind));
    world.blind = None;
    for stage in [Stage::Bench, Stage::SterileField] {
        world.session.stage = stage;
        assert!(must_set_anew(&now(&world, &drill)), "{stage:?}");
        assert_eq!(unlaid(&world.board()), 0, "{stage:?}");
    }
}

/// Refused twice it is set aside: it does not lie in its slot any more, and whoever sets it anew takes it from none.
#[test]
fn what_is_set_aside_lies_nowhere() {
    let mut world = laid(Stage::Bench);
    world.begin_blind("JH");
    let drill = world.blind_task().unwrap();
    assert!(drill.lies().is_some());
    let deeper = (figure(&drill) + Length::from_um(300)).to_string();
    world.type_in(&deeper);
    assert_eq!(world.blind.as_ref().unwrap().set_aside(&world.board()), []);
    world.type_in(&deeper);
    assert!(must_set_anew(&now(&world, &drill)));
    assert_eq!(unlaid(&world.board()), 0);
    let aside = world.blind.as_ref().unwrap().set_aside(&world.board());
    world.record(aside.into_iter().map(|effect| effect.kind));
    assert_eq!(now(&world, &drill).lies(), None);
    assert_eq!(unlaid(&world.board()), 0, "it is not laid as it is set");
    assert!(
        must_set_anew(&now(&world, &drill)),
        "that it was refused stays"
    );
    assert_eq!(
        world.blind.as_ref().unwrap().set_aside(&world.board()),
        [],
        "once"
    );
}

/// The gauge was found off and all that was read on it is in doubt: whoever reads aloud begins with its check, although
/// nothing is left to be read, and whatever it was checked as before.
#[test]
fn a_gauge_found_off_is_checked_first_also_where_nothing_is_to_be_read() {
    let mut world = laid(Stage::Bench);
    world.begin_blind_as_far_as_the_gauge("JH");
    for _ in 0..2 {
        world.type_in("21.4");
    }
    assert!(world.board().gauge.unwrap().off.is_some());
    world.take(Input::End);
    world.blind = None;
    world.session.to_the_start();
    world.session.stage = Stage::SterileField;
    world.begin_blind_as_far_as_the_gauge("KE");
    assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Gauge);
    world.type_in("21.7");
    assert_eq!(world.blind.as_ref().unwrap().phase, BlindPhase::Read);
}

/// Read in the sterile field and placed nowhere: the choice of passes knows it whatever stage it looks at.
#[test]
fn what_was_read_and_lies_nowhere_is_counted_at_every_stage() {
    for stage in [Stage::Bench, Stage::SterileField] {
        let mut world = World::loading(case("two-molars", |_| {}), stage);
        world.go_to_first_set();
        world.set_and_read();
        assert_eq!(world.now(), Now::Do(Step::Place));
        for looked_at in [Stage::Bench, Stage::SterileField] {
            world.session.stage = looked_at;
            assert_eq!(unlaid(&world.board()), 1, "{stage:?} {looked_at:?}");
        }
    }
}
