//! Fewer drills than settings: what is set anew in surgery is nothing to do before, and then it is set
//! and read as any stop is.

use super::world::{World, all_taken, case, lying_wrong, mm};
use crate::desk::policy;
use crate::view::loading::changed::{Why, Wrong, changed};
use crate::view::loading::session::{GaugeFell, Input, Now, Step};
use crate::view::loading::task::{Key, ReadingState, Task, Verified};
use crate::view::loading::warning::others;
use traywright_core::case::{Case, ValidCase};
use traywright_core::plan::{Operation, work_out};
use traywright_core::sign::{EventKind, SettingState, Stage};

/// One tip drill 2.57 for two settings: 20.7 at the first molar, then 19.1 at the second.
fn short() -> ValidCase {
    case("two-molars", one_drill)
}

fn one_drill(case: &mut Case) {
    let mut drills = case.kit.drills.iter_mut();
    let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
    drill.unwrap().quantity = 1;
}

/// The same with the drill's first setting wanted once more at the end.
fn there_and_back() -> ValidCase {
    let twice = |case: &mut Case| {
        one_drill(case);
        let mut again = case.sites[0].steps[2].clone();
        again.id = "again".into();
        case.sites[0].steps.insert(3, again);
    };
    let order = work_out(&case("two-molars", twice)).order;
    case("two-molars", |case| {
        twice(case);
        // The step of the other site comes between the two.
        let is = |one: &Operation, id: &str| matches!(one, Operation::Drill { step, .. } if step.as_str() == id);
        let mut order: Vec<Operation> = order;
        let again = order.iter().position(|one| is(one, "again")).unwrap();
        let again = order.remove(again);
        let other = order.iter().rposition(|one| is(one, "s2")).unwrap();
        order.insert(other + 1, again);
        case.accepted_order = order.iter().filter_map(Operation::ordered).collect();
    })
}

/// The case of [`short`] with the drill's two steps in the other order: 19.1, then 20.7.
fn other_way_round() -> ValidCase {
    let sheet = work_out(&short());
    let is_tip = |one: &Operation| {
        let Operation::Drill { site, step } = one else {
            return false;
        };
        let drill = sheet.drill_of(site, step);
        drill.is_some_and(|drill| drill.entry == "tip-257")
    };
    let mut order = sheet.order.clone();
    let first = order.iter().position(is_tip).unwrap();
    let last = order.iter().rposition(is_tip).unwrap();
    order.swap(first, last);
    case("two-molars", |case| {
        one_drill(case);
        case.accepted_order = order.iter().filter_map(Operation::ordered).collect();
    })
}

impl World {
    /// The tasks of the drill that is set anew, one setting after the other.
    fn turns(&self) -> Vec<Task> {
        let board = self.board();
        let anew = board.tasks.iter().find(|task| task.is_anew()).unwrap();
        board.of_item(anew.item).cloned().collect()
    }

    fn go(&mut self, turn: usize) -> Now {
        let index = self.turns()[turn].index;
        self.take(Input::Go(index));
        self.now()
    }

    /// Sets a turn, reads it twice and lays it.
    fn load(&mut self, turn: usize) {
        self.go(turn);
        self.set_and_read();
        assert_eq!(self.now(), Now::Do(Step::Place));
        self.take(Input::Done);
        self.read_again();
        let task = &self.turns()[turn];
        assert!(task.lies_right() && task.record.verified == Verified::Yes);
        assert_eq!(self.session.now(task), Now::Done);
    }
}

#[test]
fn on_the_bench_nothing_is_asked_of_what_is_set_anew_in_surgery() {
    let mut world = World::loading(short(), Stage::Bench);
    for _ in 0..400 {
        let Now::Do(step) = world.now() else { break };
        let task = world.task();
        assert!(!task.is_anew(), "{task:?}");
        if step == Step::Take && world.session.way(&task).contains(&Step::Read) {
            world.set_and_read();
        } else {
            world.take(Input::Done);
        }
    }
    world.read_again();
    let board = world.board();
    let (done, all) = world.session.progress(&board);
    assert_eq!(done, all);
    let things = board.tasks.iter().filter(|task| !task.is_anew()).count();
    assert_eq!((all, board.tasks.len()), (things, things + 1));
    let before = world.log.events().len();
    assert_eq!(world.go(1), Now::Later);
    for input in [Input::Open, Input::Done, Input::Reset, Input::Enter] {
        world.go(1);
        world.take(input);
    }
    assert_eq!(world.go(1), Now::Later);
    assert_eq!(
        world.log.events().len(),
        before,
        "nothing is recorded of it"
    );
}

#[test]
fn in_the_sterile_field_it_is_set_anew_and_read_twice_and_the_first_setting_counts_no_more() {
    let mut world = World::loading(short(), Stage::SterileField);
    world.load(0);
    let slot = world.turns()[0].record.lies.clone();
    assert_eq!(world.turns()[1].record.first, ReadingState::Open);
    assert_eq!(world.go(1), Now::Later);
    let [
        EventKind::Reset {
            drill,
            to: Some(1),
            passed_over: None,
            ..
        },
    ] = &world.take(Input::Open)[..]
    else {
        panic!("it is recorded that the stop is moved")
    };
    let first = world.turns()[0].planned.clone().unwrap().key;
    assert!(first.is_drill(drill));
    // The first setting is not asked for again, and nothing of it counts.
    assert_eq!(world.session.now(&world.turns()[0]), Now::Passed);
    assert_eq!(world.turns()[0].record.first, ReadingState::Open);
    assert_eq!(world.now(), Now::Do(Step::Take));
    world.load(1);
    let [was, is] = &world.turns()[..] else {
        panic!()
    };
    assert_eq!(
        (was.state(), is.state()),
        (SettingState::NoMore, SettingState::Now)
    );
    let (was_key, is_key) = (
        was.planned.clone().unwrap().key,
        is.planned.clone().unwrap().key,
    );
    assert_eq!(
        was_key.drill_key(),
        is_key.drill_key(),
        "it is the same drill"
    );
    assert!(was_key.setting_mm != is_key.setting_mm);
    assert_eq!(is.record.lies, slot);
    // For its first use the tray is not loaded: the drill is open again.
    let since: Vec<usize> = world
        .session
        .set_anew_since(&world.board())
        .map(|one| one.index)
        .collect();
    assert_eq!(since, [was.index]);
    assert_eq!(world.session.progress(&world.board()).0, 0);
    // What lies on the tray is as it should be, also for a session that is opened later.
    let sheet = work_out(&world.case);
    let wrong = lying_wrong(&world.case, &sheet, &world.events());
    assert_eq!(wrong, []);
}

#[test]
fn readings_of_the_first_setting_on_the_bench_say_nothing_of_the_later_one() {
    let mut world = World::loading(short(), Stage::Bench);
    world.load(0);
    let later = &world.turns()[1];
    assert_eq!(
        (&later.record.first, later.record.verified),
        (&ReadingState::Open, Verified::No)
    );
    assert_eq!(later.record.lies, None);
}

/// 20.7, then 19.1, then 20.7 again: what was read of the first is not taken for the third.
#[test]
fn a_setting_that_comes_back_is_read_anew() {
    let mut world = World::loading(there_and_back(), Stage::SterileField);
    assert_eq!(world.turns().len(), 3);
    world.load(0);
    for turn in [1, 2] {
        let task = &world.turns()[turn];
        assert_eq!(
            (task.state(), &task.record.first),
            (SettingState::Later, &ReadingState::Open)
        );
        assert_eq!(task.record.verified, Verified::No);
    }
    // One after the other.
    world.go(2);
    assert!(world.take(Input::Open).is_empty());
    world.go(1);
    world.take(Input::Open);
    world.load(1);
    let third = &world.turns()[2];
    assert_eq!(
        (&third.record.first, third.record.verified),
        (&ReadingState::Open, Verified::No)
    );
    world.go(2);
    assert_eq!(world.take(Input::Open).len(), 1);
    world.load(2);
    let states: Vec<SettingState> = world.turns().iter().map(Task::state).collect();
    assert_eq!(
        states,
        [
            SettingState::NoMore,
            SettingState::NoMore,
            SettingState::Now
        ]
    );
    assert_eq!(world.turns()[0].record.first, ReadingState::Open);
}

/// Set anew too early, or the surgery put off: the drill can be set back, and all comes again.
#[test]
fn a_drill_can_be_set_back_to_its_first_setting() {
    let mut world = World::loading(short(), Stage::SterileField);
    world.load(0);
    world.go(1);
    world.take(Input::Open);
    world.load(1);
    assert_eq!(world.go(0), Now::Passed);
    assert!(matches!(
        world.take(Input::Reset)[..],
        [EventKind::Reset { to: Some(0), .. }]
    ));
    assert_eq!(world.now(), Now::Do(Step::Set));
    for _ in 0..3 {
        world.take(Input::Done);
    }
    let figure = world.figure().to_string();
    world.type_in(&figure);
    world.take(Input::Done);
    world.read_again();
    let [first, later] = &world.turns()[..] else {
        panic!()
    };
    assert_eq!(
        (first.state(), later.state()),
        (SettingState::Now, SettingState::Later)
    );
    assert_eq!(first.record.verified, Verified::Yes);
    assert_eq!(later.record.first, ReadingState::Open);
    assert_eq!(world.session.now(later), Now::Later);
}

/// A drill that fell while it was set anew is not taken back to its first setting.
#[test]
fn a_drill_that_fell_stays_at_the_setting_where_it_was() {
    let mut world = World::loading(short(), Stage::SterileField);
    world.load(0);
    world.go(1);
    world.take(Input::Open);
    world.load(1);
    world.go(1);
    world.take(Input::Fell);
    assert_eq!(world.now(), Now::NoneLeft, "it was the only one");
    assert_eq!(world.turns()[1].record.first, ReadingState::Open);
    assert_eq!(world.session.now(&world.turns()[0]), Now::Passed);
}

/// The effects of another order of the same steps on what was done so far, in words at the change
/// of the plan.
fn told(world: &World, after: &ValidCase) -> Vec<Wrong> {
    let found = changed(
        (&world.case, &work_out(&world.case)),
        (after, &work_out(after)),
        &world.events(),
        &policy(),
    );
    found.wrong
}

/// Loaded at 20.7 for its first step, and then its other step, at 19.1, comes first: as it is set
/// the drill would go 1.6 mm too deep there.
#[test]
fn a_drill_that_lies_at_a_later_setting_is_wrong() {
    let mut world = World::loading(short(), Stage::Bench);
    world.load(0);
    let lies = world.turns()[0].planned.clone().unwrap().key;
    assert_eq!(lies.setting_mm, mm("20.7"));
    let wrong = [Wrong {
        key: Key::Set(lies),
        lies: world.turns()[0].record.lies.clone(),
        why: Why::Setting {
            was: mm("20.7"),
            now: mm("19.1"),
        },
    }];
    assert!(wrong[0].lies.is_some());
    let after = other_way_round();
    assert_eq!(told(&world, &after), wrong);
    // Also to whoever opens the case only then.
    let before = std::mem::replace(&mut world.case, after);
    let late = |world: &World| {
        let sheet = work_out(&world.case);
        lying_wrong(&world.case, &sheet, &world.events())
    };
    assert_eq!(late(&world), wrong);
    let settings: Vec<_> = world.turns().into_iter().map(|task| task.state()).collect();
    assert_eq!(settings, [SettingState::Now, SettingState::Later]);
    // Its readings are none of the setting that comes now, and count again with the former order.
    assert_eq!(world.turns()[0].record.verified, Verified::No);
    world.case = before;
    assert_eq!(late(&world), []);
    assert_eq!(world.turns()[0].record.verified, Verified::Yes);
}

/// Set, locked and tugged, but not read: nothing is recorded of it yet.
#[test]
fn a_drill_in_hand_at_a_later_setting_is_wrong() {
    let mut world = World::loading(short(), Stage::Bench);
    world.go(0);
    world.set();
    let key = world.task().key();
    let wrong = [Wrong {
        key,
        lies: None,
        why: Why::Setting {
            was: mm("20.7"),
            now: mm("19.1"),
        },
    }];
    assert_eq!(told(&world, &other_way_round()), wrong);
    assert_eq!(told(&world, &short()), []);
}

/// The same drill wanted twice at one setting and once between at another: back from the second to
/// the first, it is not taken to be at the third, which is the same setting.
#[test]
fn set_back_to_its_first_setting_a_drill_does_not_skip_the_second() {
    let mut world = World::loading(there_and_back(), Stage::SterileField);
    world.load(0);
    world.go(1);
    world.take(Input::Open);
    world.load(1);
    world.go(0);
    assert_eq!(world.take(Input::Reset).len(), 1);
    for _ in 0..3 {
        world.take(Input::Done);
    }
    let figure = world.figure().to_string();
    world.type_in(&figure);
    world.read_again();
    let states = |world: &World| {
        let turns = world.turns();
        turns.iter().map(Task::state).collect::<Vec<_>>()
    };
    let first = [SettingState::Now, SettingState::Later, SettingState::Later];
    assert_eq!(states(&world), first);
    assert_eq!(world.turns()[0].record.verified, Verified::Yes);
    assert_eq!(world.turns()[2].record.verified, Verified::No);
    // Nor where it slips and is set there once more, before that is read and after.
    world.go(0);
    world.take(Input::Reset);
    assert_eq!(states(&world), first);
    assert_eq!(world.turns()[0].record.first, ReadingState::Open);
    for _ in 0..3 {
        world.take(Input::Done);
    }
    world.type_in(&figure);
    assert_eq!(states(&world), first);
    world.read_again();
    world.go(0);
    world.take(Input::Done);
    // From there it goes on as before.
    world.go(1);
    assert_eq!(world.take(Input::Open).len(), 1);
    world.load(1);
    world.go(2);
    assert_eq!(world.take(Input::Open).len(), 1);
    world.load(2);
    let last = [
        SettingState::NoMore,
        SettingState::NoMore,
        SettingState::Now,
    ];
    assert_eq!(states(&world), last);
}

/// In surgery nobody goes back to read what is over: the drill goes on, with the setting that it is set
/// anew to read twice, and the first is not taken for read.
#[test]
fn a_drill_whose_first_setting_nobody_read_can_be_set_anew_and_read() {
    let mut world = World::loading(short(), Stage::SterileField);
    world.go(1);
    assert_eq!(world.take(Input::Open).len(), 1);
    world.load(1);
    let [first, later] = &world.turns()[..] else {
        panic!()
    };
    let states = (first.state(), later.state());
    assert_eq!(states, (SettingState::NoMore, SettingState::Now));
    let over = first.record.passed_over.as_ref();
    assert_eq!(over.map(|over| over.who.as_str()), Some("MK"));
    assert_eq!(later.record.passed_over, None);
    assert_eq!(first.record.verified, Verified::No);
    assert_eq!(first.record.first, ReadingState::Open);
    assert_eq!(world.session.now(first), Now::Passed);
}

/// Three settings of one drill: at the third the second was set and not read, or read once. That it is
/// gone on from is told, in the event that begins the third; set back and read, it is passed over no more.
#[test]
fn a_setting_that_nobody_read_twice_is_passed_over_only_as_one_that_is_told() {
    let mut world = World::loading(there_and_back(), Stage::SterileField);
    world.load(0);
    world.go(1);
    world.take(Input::Open);
    world.set();
    let over = |world: &World| {
        let board = world.board();
        let task = board.of_item(world.task().item).nth(2).unwrap();
        let over = world.session.passed_over_by(task, &board);
        over.map(|task| task.planned.clone().unwrap().key)
    };
    let second = world.turns()[1].planned.clone().unwrap().key;
    assert_eq!(over(&world), Some(second.clone()), "set and not read");
    let figure = world.figure().to_string();
    world.type_in(&figure);
    assert_eq!(over(&world), Some(second.clone()), "read once");
    world.go(2);
    let [EventKind::Reset { passed_over, .. }] = &world.take(Input::Open)[..] else {
        panic!("it is begun")
    };
    assert_eq!(*passed_over, Some(second));
    world.load(2);
    let told = |world: &World| {
        let turns = world.turns();
        let told = turns.iter().map(|task| task.record.passed_over.is_some());
        told.collect::<Vec<bool>>()
    };
    assert_eq!(told(&world), [false, true, false]);
    world.go(1);
    world.take(Input::Reset);
    for _ in 0..3 {
        world.take(Input::Done);
    }
    world.type_in(&figure);
    world.read_again();
    assert_eq!(told(&world), [false, false, false]);
    assert_eq!(over(&world), None, "read twice");
}

/// At the check of the gauge the thing in hand is not on the screen.
#[test]
fn nothing_is_set_anew_while_the_gauge_is_checked() {
    let mut world = World::loading(short(), Stage::SterileField);
    world.load(0);
    world.go(1);
    world.take(Input::Gauge(GaugeFell::No));
    let events = world.log.events().len();
    assert_eq!(world.take(Input::Open), []);
    assert_eq!(world.log.events().len(), events);
    let piece = world.board().gauge.and_then(|gauge| gauge.piece).unwrap();
    world.type_in(&piece.to_string());
    assert_eq!(world.now(), Now::Later);
}

/// Two pilot drills for three settings: what the warning at the other one names is what is drawn in the
/// slot.
#[test]
fn a_look_alike_is_named_as_it_stands_now() {
    let two = |case: &mut Case| {
        let mut drills = case.kit.drills.iter_mut();
        let pilot = drills.find(|drill| drill.id.as_str() == "pilot-213");
        let pilot = pilot.unwrap();
        pilot.quantity = 2;
        pilot.single_use = false;
    };
    let mut world = World::loading(case("two-molars", two), Stage::SterileField);
    let sheet = work_out(&world.case);
    let [reset] = &sheet.resets[..] else { panic!() };
    let same = |n: &usize| sheet.loading[*n].entry == reset.to.entry && *n != reset.item;
    let other = (0..sheet.loading.len()).find(|n| same(n) && sheet.loading[*n].set.is_some());
    let other = &sheet.loading[other.unwrap()];
    let named = |world: &World| {
        let board = world.board();
        let items = others(&sheet, &board, other);
        let settings = items
            .iter()
            .map(|item| item.set.as_ref().unwrap().set.get());
        settings.collect::<Vec<_>>()
    };
    world.load(0);
    assert_eq!(named(&world), [reset.from.set.get()]);
    world.go(1);
    world.take(Input::Open);
    world.load(1);
    assert_ne!(reset.from.set, reset.to.set.as_ref().unwrap().set);
    assert_eq!(named(&world), [reset.to.set.as_ref().unwrap().set.get()]);
}

/// Begun to be set anew, and ended or left before it is set: whoever comes to it then is led on to the setting that
/// was begun, not back to the one that is over; and back, where it was being set back.
#[test]
fn what_was_begun_to_be_set_anew_is_due_also_after_a_restart() {
    let again = |world: &World| {
        let mut again = World::loading(short(), Stage::SterileField);
        again.log = world.log.clone();
        again.minute = world.minute;
        again.session.keep_only(&again.board());
        again
    };
    let due = |world: &World| -> Vec<Now> {
        let turns = world.turns();
        turns.iter().map(|task| world.session.now(task)).collect()
    };
    let states =
        |world: &World| -> Vec<SettingState> { world.turns().iter().map(Task::state).collect() };
    for first_read in [true, false] {
        let mut world = World::loading(short(), Stage::SterileField);
        if first_read {
            world.load(0);
        }
        world.go(1);
        assert_eq!(world.take(Input::Open).len(), 1);
        let mut world = again(&world);
        assert_eq!(states(&world), [SettingState::NoMore, SettingState::Now]);
        assert_eq!(due(&world), [Now::Passed, Now::Do(Step::Take)]);
        assert_eq!(
            world.turns()[1].lies().is_some(),
            first_read,
            "from where it lies"
        );
        assert!(
            !world
                .session
                .may_set_anew(&world.turns()[1], &world.board())
        );
        world.load(1);
        world.go(0);
        assert_eq!(world.take(Input::Reset).len(), 1);
        let mut world = again(&world);
        assert_eq!(states(&world), [SettingState::Now, SettingState::Later]);
        assert_eq!(due(&world), [Now::Do(Step::Take), Now::Later]);
        world.load(0);
    }
}

/// Three settings of one drill, of which the second does not fit: the third passes over the first, which nobody read, and
/// not the one at which it never stands.
#[test]
fn a_setting_gone_on_from_is_the_one_that_the_drill_is_at() {
    let mut misfit: Case = (*there_and_back()).clone();
    let mut drills = misfit.kit.drills.iter_mut();
    let drill = drills.find(|drill| drill.id.as_str() == "tip-257").unwrap();
    drill.clamp.as_mut().unwrap().from_mm = mm("20");
    for read in [false, true] {
        let mut world = World::loading(ValidCase::checked(&misfit).unwrap(), Stage::SterileField);
        if read {
            world.load(0);
        }
        let turns = world.turns();
        let [first, second, third] = &turns[..] else {
            panic!("{turns:?}")
        };
        assert!(world.session.way(second).is_empty());
        world.go(2);
        assert!(world.session.may_set_anew(third, &world.board()));
        let first = first.planned.clone().unwrap().key;
        let [EventKind::Reset { passed_over, .. }] = &world.take(Input::Open)[..] else {
            panic!("it is begun")
        };
        assert_eq!(*passed_over, (!read).then_some(first));
        // It is due at once, and the first alone is told.
        let told = |world: &World| {
            let turns = world.turns();
            let told = turns.iter().map(|task| task.record.passed_over.is_some());
            told.collect::<Vec<bool>>()
        };
        assert_eq!(world.turns()[2].state(), SettingState::Now);
        assert_eq!(told(&world), [!read, false, false]);
        world.load(2);
    }
}

/// Its first setting does not fit, the later one does: it is taken and laid and not set, and in surgery set anew.
#[test]
fn what_fits_only_at_a_later_setting_is_laid_without_being_set() {
    let misfit = |case: &mut Case| {
        one_drill(case);
        let mut drills = case.kit.drills.iter_mut();
        let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
        drill.unwrap().clamp.as_mut().unwrap().to_mm = mm("24");
    };
    let mut world = World::loading(case("two-molars", misfit), Stage::SterileField);
    assert_eq!(world.go(0), Now::Do(Step::Take));
    assert_eq!(world.session.way(&world.task()), [Step::Take, Step::Place]);
    world.take(Input::Done);
    assert_eq!(world.now(), Now::Do(Step::Place));
    let laid = world.take(Input::Done);
    assert!(
        matches!(laid[..], [EventKind::ThingPlaced { .. }]),
        "{laid:?}"
    );
    assert_eq!(world.go(0), Now::Done);
    assert_eq!(world.board().lies_wrong, []);
    assert_eq!(world.go(1), Now::Later);
    world.take(Input::Open);
    world.load(1);
    assert_eq!(world.board().lies_wrong, []);
    // What was set for the first while that fitted is told to be taken.
    let mut world = World::loading(short(), Stage::Bench);
    world.go(0);
    world.set_and_read();
    world.take(Input::Done);
    world.case = case("two-molars", misfit);
    let wrong = world.board().lies_wrong;
    let blocked = |one: &Wrong| matches!(one.why, Why::Blocked(_));
    assert!(wrong.len() == 1 && blocked(&wrong[0]), "{wrong:?}");
    let found = crate::view::loading::changed::Changed {
        wrong,
        ..Default::default()
    };
    world.record(all_taken(&found));
    assert_eq!(world.board().lies_wrong, []);
    world.session.keep_only(&world.board());
    assert_eq!(world.go(0), Now::Do(Step::Take));
}
