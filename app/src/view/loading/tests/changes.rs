//! The plan changes while the tray is loaded.

use super::world::{World, all_taken, case, lying_wrong, mm};
use crate::desk::policy;
use crate::view::loading::changed::{Changed, Why, Wrong, changed, differ};
use crate::view::loading::session::{GaugeFell, Input, Now, Step};
use crate::view::loading::task::{Block, Key, ReadingState, Task, Verified, Work};
use traywright_core::case::{Case, ValidCase};
use traywright_core::kit::{Drill, Stop};
use traywright_core::measure::Length;
use traywright_core::plan::{Rule, misfit, work_out};
use traywright_core::sign::{EventKind, Purpose, Stage, ToldWork};

/// The same case with the implants of every site half a millimetre deeper.
fn edited(case: &ValidCase, change: impl FnOnce(&mut Case)) -> ValidCase {
    let mut other: Case = (**case).clone();
    change(&mut other);
    ValidCase::checked(&other).unwrap()
}

fn closer(case: &mut Case) {
    for site in &mut case.sites {
        if let Some(distance) = &mut site.platform_to_sleeve {
            distance.entered_mm = distance.entered_mm - Length::from_um(500);
        }
    }
}

fn told(world: &World, after: &ValidCase) -> Changed {
    let worksheet = work_out(after);
    changed(
        (&world.case, &work_out(&world.case)),
        (after, &worksheet),
        &world.events(),
        &policy(),
    )
}

#[test]
fn a_new_setting_makes_a_loaded_drill_wrong_and_undo_makes_it_right() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    let (index, slot) = (world.session.at, world.task().slot.unwrap().to_string());
    let key = world.task().key();
    world.set_and_read();
    world.take(Input::Done);
    let after = edited(&world.case, closer);
    assert!(differ(&work_out(&world.case), &work_out(&after)));
    let found = told(&world, &after);
    let wrong: Vec<_> = found
        .wrong
        .iter()
        .map(|one| (&one.key, &one.lies))
        .collect();
    assert_eq!(wrong, [(&key, &Some(slot.clone()))]);
    let Why::Setting { was, now } = found.wrong[0].why else {
        panic!("{found:?}")
    };
    assert_eq!(was - now, Length::from_um(500));
    // Under the new plan it is to be taken again; under the old one it is done.
    let before = std::mem::replace(&mut world.case, after);
    world.session.keep_only(&world.board());
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
    let otherwise = world.task().record.set_otherwise.unwrap();
    assert_eq!(
        (otherwise.slot, otherwise.item.setting_mm),
        (Some(slot), was)
    );
    // Whoever opens the case only now is told the same.
    let late = lying_wrong(&world.case, &work_out(&world.case), &world.events());
    assert_eq!(late, found.wrong);
    world.case = before;
    let none = lying_wrong(&world.case, &work_out(&world.case), &world.events());
    assert_eq!(none, []);
    assert_eq!(world.task().record.set_otherwise, None);
    assert_eq!(world.now(), Now::Done);
}

/// What was read and placed to practise counts for no patient: the plan wants the drill still.
#[test]
fn a_drill_laid_to_practise_is_set_and_read_again_for_a_patient() {
    let practice = case("two-molars", |case| case.demonstration = true);
    let mut world = World::loading(practice, Stage::Bench);
    world.go_to_first_set();
    let key = world.task().key();
    world.set_and_read();
    let patient = edited(&world.case, |case| case.demonstration = false);
    let only = |found: Changed| -> Vec<(Key, Why)> {
        let wrong = found.wrong.into_iter();
        wrong.map(|one| (one.key, one.why)).collect()
    };
    assert_eq!(only(told(&world, &patient)), [(key.clone(), Why::Again)]);
    world.take(Input::Done);
    assert_eq!(only(told(&world, &patient)), [(key, Why::Again)]);
}

#[test]
fn a_drill_that_is_set_and_not_yet_read_is_wrong_too() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    let key = world.task().key();
    world.set();
    let after = edited(&world.case, closer);
    let found = told(&world, &after);
    let keys: Vec<_> = found.wrong.iter().map(|one| &one.key).collect();
    assert_eq!(keys, [&key]);
    world.case = after;
    world.session.keep_only(&world.board());
    assert_eq!(
        world.now(),
        Now::Do(Step::Take),
        "nothing of the old way is left"
    );
}

/// Verified at one setting, set at another under a plan that came and went: nothing of before counts, and
/// whoever comes to it is told how it is set.
#[test]
fn a_stop_set_under_a_plan_that_came_and_went_is_not_verified() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    let (index, was) = (world.session.at, world.task().key());
    world.set_and_read();
    world.take(Input::Done);
    world.read_again();
    world.take(Input::Go(index));
    assert_eq!(world.task().record.verified, Verified::Yes);
    let after = edited(&world.case, closer);
    let before = std::mem::replace(&mut world.case, after);
    world.session.keep_only(&world.board());
    world.take(Input::Go(index));
    for _ in 0..2 {
        world.take(Input::Done);
    }
    let set = world.task().planned.unwrap().key;
    assert_eq!(world.now(), Now::Do(Step::Lock));
    // The plan goes back: what the change makes wrong is the stop as it is set now.
    let wrong = [Wrong {
        key: Key::Set(set.clone()),
        lies: None,
        why: Why::Setting {
            was: set.setting_mm,
            now: set.setting_mm + Length::from_um(500),
        },
    }];
    assert_eq!(told(&world, &before).wrong, wrong);
    world.case = before;
    world.session.keep_only(&world.board());
    world.take(Input::Go(index));
    let task = world.task();
    assert_eq!(task.key(), was);
    assert_eq!(task.record.verified, Verified::No);
    assert_eq!(task.record.lies, None);
    let otherwise = task.record.set_otherwise.unwrap();
    assert_eq!((otherwise.slot, otherwise.item), (None, set));
    assert_eq!(world.now(), Now::Do(Step::Take));
    let sheet = work_out(&world.case);
    let late = lying_wrong(&world.case, &sheet, &world.events());
    assert_eq!(late, wrong);
}

#[test]
fn what_does_not_concern_the_instruments_stops_nobody() {
    let world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let noted = edited(&world.case, |case| case.note = Some("seen".to_owned()));
    assert!(!differ(&work_out(&world.case), &work_out(&noted)));
    let found = told(&world, &noted);
    assert_eq!(found, Changed::default());
}

#[test]
fn a_site_that_is_left_out_leaves_its_things_without_use() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    let after = edited(&world.case, |case| {
        case.sites.pop();
        case.sites[0].distances.clear();
    });
    let found = told(&world, &after);
    assert!(
        found.wrong.iter().any(|one| one.why == Why::NotNeeded),
        "{found:?}"
    );
    assert!(found.wrong.iter().all(|one| one.lies.is_some()));
    assert!(found.added.is_empty());
    let back = changed(
        (&after, &work_out(&after)),
        (&world.case, &work_out(&world.case)),
        &world.events(),
        &policy(),
    );
    assert!(back.wrong.is_empty(), "{back:?}");
    assert!(!back.added.is_empty());
}

/// A stop that would sit beside the clamping length of its drill is not to be set at all.
#[test]
fn what_does_not_fit_is_not_set() {
    let world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let blocked = |world: &World| {
        let board = world.board();
        let tasks = board.tasks.iter();
        let blocked = tasks.filter(|task| task.work == Work::Blocked(Block::DoesNotFit));
        blocked.map(|task| task.item).collect::<Vec<_>>()
    };
    assert_eq!(blocked(&world), Vec::<usize>::new());
    let mut nearer = World::loading(case("two-molars", |_| {}), Stage::Bench);
    // 17.8 less 0.4 is below the 17.6 at which the pilot's clamping length begins.
    nearer.case = edited(&world.case, |case| {
        let distance = case.sites[0].platform_to_sleeve.as_mut().unwrap();
        distance.entered_mm = distance.entered_mm - Length::from_um(400);
    });
    let found = blocked(&nearer);
    assert_eq!(found.len(), 1);
    let worksheet = work_out(&nearer.case);
    let why = misfit(&worksheet.loading[found[0]], &worksheet).unwrap();
    assert_eq!(why.rule, Rule::OffClampingLength);
}

/// Read twice on one gauge, then refused on another as too deep: back on the first nothing of what was read
/// before that stands, and both read it again. A change that nobody read anything under takes nothing away.
#[test]
fn a_stop_that_another_gauge_refused_is_read_again_on_the_gauge_that_the_plan_goes_back_to() {
    let towers = case("upper-face-gauge", |_| {}).kit.gauges.clone();
    let with_both = |case: &mut Case| case.kit.gauges.extend(towers.clone());
    let mut world = World::loading(case("two-molars", with_both), Stage::Bench);
    world.load_all();
    world.read_again();
    let bench = world.case.clone();
    let tower = edited(&bench, |case| case.setup.gauge = Some(towers[0].id.clone()));
    let twice = |task: &&Task| task.record.verified == Verified::Yes;
    let all = world.board().tasks;
    let keys: Vec<Key> = all.iter().filter(twice).map(Task::key).collect();
    world.case = tower.clone();
    // A drill whose setting both gauges have.
    let same = |task: &&Task| task.work == Work::SetAndRead && keys.contains(&task.key());
    let index = world.board().tasks.iter().find(same).unwrap().index;
    let change_to = |world: &mut World, case: &ValidCase| {
        world.case = case.clone();
        world.session.keep_only(&world.board());
        world.take(Input::Go(index));
    };
    change_to(&mut world, &bench);
    assert_eq!((world.now(), twice(&&world.task())), (Now::Done, true));
    change_to(&mut world, &tower);
    world.take(Input::Gauge(GaugeFell::No));
    let piece = towers[0].check_piece_mm.unwrap() + towers[0].constant_mm.unwrap();
    world.type_in(&piece.to_string());
    assert_eq!(world.now(), Now::Do(Step::Read));
    let deeper = world.figure() + Length::from_um(400);
    world.type_in(&deeper.to_string());
    assert!(matches!(
        world.task().record.first,
        ReadingState::Refused { .. }
    ));
    change_to(&mut world, &bench);
    assert_eq!(world.now(), Now::Do(Step::Read));
    assert!(!twice(&&world.task()));
    assert_eq!(world.task().record.second, ReadingState::Open);
}

/// Somebody read the STOP and did by hand what it says; then the plan is again as it was.
#[test]
fn what_was_told_to_be_taken_lies_nowhere_and_counts_no_more() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    world.read_again();
    world.go_to_first_set();
    let (index, key) = (world.session.at, world.task().key());
    assert_eq!(world.now(), Now::Done);
    assert_eq!(world.task().record.verified, Verified::Yes);
    let after = edited(&world.case, closer);
    let stop = told(&world, &after);
    let wrong: Vec<Key> = stop.wrong.iter().map(|one| one.key.clone()).collect();
    assert!(wrong.contains(&key));
    let before = std::mem::replace(&mut world.case, after.clone());
    world.record(all_taken(&stop));
    // Whoever begins anew is told nothing twice.
    let late = lying_wrong(&after, &work_out(&after), &world.events());
    assert_eq!(late, []);
    world.case = before;
    let board = world.board();
    let told_off: Vec<_> = board
        .tasks
        .iter()
        // One lies in its wrapping, as a thing.
        .filter(|task| {
            let thing = Key::Thing(task.thing.clone());
            wrong.contains(&task.key()) || !task.is_anew() && wrong.contains(&thing)
        })
        .collect();
    assert_eq!(told_off.len(), wrong.len());
    for task in told_off {
        assert_eq!(task.lies(), None, "{task:?}");
        assert_eq!(task.record.verified, Verified::No, "{task:?}");
        assert!(!task.was_read(), "{task:?}");
    }
    world.session.keep_only(&board);
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
}

/// A thing that the plan has no use for any more is told to be taken off, and wanted again later.
#[test]
fn a_thing_told_to_be_taken_off_is_laid_anew() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    let after = edited(&world.case, |case| {
        case.sites.pop();
        case.sites[0].distances.clear();
    });
    let stop = told(&world, &after);
    world.record(all_taken(&stop));
    let things = |one: &&Wrong| matches!(one.key, Key::Thing(_)) && one.why == Why::NotNeeded;
    let things: Vec<&Wrong> = stop.wrong.iter().filter(things).collect();
    assert!(!things.is_empty());
    let board = world.board();
    for thing in things {
        let mut tasks = board.tasks.iter();
        let task = tasks.find(|task| Key::Thing(task.thing.clone()) == thing.key);
        assert_eq!(task.unwrap().lies(), None, "{thing:?}");
    }
}

/// The plan went back before anybody confirmed having read what was told: a hand may have done it.
#[test]
fn what_was_told_stays_told_until_it_is_read() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    let after = edited(&world.case, closer);
    let stop = told(&world, &after);
    let back = told(&world, &world.case).with_told(stop.clone());
    let keys = |of: &Changed| -> Vec<Key> { of.wrong.iter().map(|one| one.key.clone()).collect() };
    assert_eq!(keys(&back), keys(&stop));
    assert!(back.wrong.iter().all(|one| matches!(one.why, Why::Told(_))));
    world.record(all_taken(&back));
    world.go_to_first_set();
    assert_eq!(world.now(), Now::Do(Step::Take));
    assert_eq!(world.task().lies(), None);
}

/// Told off its slot alone, in this window or by the record, it stays as it is set once that was read; told to be set
/// anew as well, it does not.
#[test]
fn what_was_only_told_off_its_slot_stays_as_it_is_set() {
    let resets = |kinds: &[EventKind]| {
        let mut kinds = kinds.iter();
        kinds.any(|kind| matches!(kind, EventKind::Reset { .. }))
    };
    for work in [ToldWork::Take, ToldWork::SetAnew] {
        let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
        world.load_all();
        world.read_again();
        world.go_to_first_set();
        let (index, task) = (world.session.at, world.task());
        let wrong = |why| Wrong {
            key: task.key(),
            lies: task.lies().map(ToOwned::to_owned),
            why,
        };
        let told_first = wrong(match work {
            ToldWork::Take => Why::Slot { now: None },
            ToldWork::SetAnew => Why::Again,
        });
        let of = |wrong: &Wrong| Changed {
            wrong: vec![wrong.clone()],
            ..Changed::default()
        };
        let anew = work == ToldWork::SetAnew;
        // Wanted as before, or belonging elsewhere: a hand may have done what was told first.
        for then in [Changed::default(), of(&wrong(Why::Slot { now: None }))] {
            let both = then.clone().with_told(of(&told_first));
            let read = all_taken(&both);
            assert!(!read.is_empty());
            assert_eq!(resets(&read), anew, "{work:?}: {both:?}");
        }
        world.record([told_first.told(Purpose::Patient)]);
        let sheet = work_out(&world.case);
        let late = lying_wrong(&world.case, &sheet, &world.events());
        assert_eq!(late.len(), 1, "{late:?}");
        let read: Vec<EventKind> = late[0].taken(Purpose::Patient).collect();
        assert_eq!(resets(&read), anew, "{late:?}");
        world.record(read);
        let task = &world.board().tasks[index];
        assert_eq!(task.lies(), None);
        assert_eq!(task.record.verified == Verified::Yes, !anew, "{work:?}");
        let late = lying_wrong(&world.case, &sheet, &world.events());
        assert_eq!(late, []);
    }
}

/// What is to be set anew is recorded so, though it was told before to be taken off its slot.
#[test]
fn what_is_told_to_be_set_anew_is_recorded_though_it_was_told_to_be_taken() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    let key = world.task().key();
    let stop = |why| Changed {
        wrong: vec![Wrong {
            key: key.clone(),
            lies: None,
            why,
        }],
        ..Changed::default()
    };
    let is = |told: Option<ToldWork>, why| stop(why).untold(|_| told).len();
    assert_eq!(is(None, Why::Slot { now: None }), 1);
    assert_eq!(is(Some(ToldWork::Take), Why::Slot { now: None }), 0);
    assert_eq!(is(Some(ToldWork::Take), Why::Again), 1);
    assert_eq!(is(Some(ToldWork::SetAnew), Why::Again), 0);
    assert_eq!(is(Some(ToldWork::SetAnew), Why::Slot { now: None }), 0);
}

/// It lies set otherwise, is taken to be set anew, and the plan is again as it was before a step was confirmed.
#[test]
fn a_drill_taken_to_be_set_anew_counts_no_more() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    world.read_again();
    world.go_to_first_set();
    let index = world.session.at;
    let after = edited(&world.case, closer);
    let before = std::mem::replace(&mut world.case, after);
    world.session.keep_only(&world.board());
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
    world.take(Input::Done);
    assert_eq!(world.now(), Now::Do(Step::Set));
    world.case = before;
    world.session.keep_only(&world.board());
    world.take(Input::Go(index));
    let task = world.task();
    assert_eq!(task.lies(), None);
    assert_eq!(task.record.verified, Verified::No);
    assert_eq!(world.now(), Now::Do(Step::Take));
}

/// Verified and laid, or laid sealed; then nothing of it is to be set any more, each kind of why.
#[test]
fn what_is_not_to_be_set_any_more_is_told_to_be_taken_off() {
    let misfits = |case: &mut Case| {
        for drill in &mut case.kit.drills {
            if let Some(clamp) = drill
                .clamp
                .as_mut()
                .filter(|_| drill.id.as_str() == "tip-257")
            {
                clamp.from_mm = clamp.to_mm - Length::from_um(100);
            }
        }
    };
    let unknown = |case: &mut Case| {
        for site in &mut case.sites {
            site.platform_to_sleeve = None;
        }
    };
    let no_face = |case: &mut Case| {
        for gauge in &mut case.kit.gauges {
            gauge.reads = None;
        }
    };
    let no_constant = |case: &mut Case| {
        for gauge in &mut case.kit.gauges {
            gauge.constant_mm = None;
        }
    };
    let all: [(&str, fn(&mut Case), Block); 4] = [
        ("two-molars", misfits, Block::DoesNotFit),
        ("two-molars", unknown, Block::NoFigure),
        ("upper-face-gauge", no_face, Block::NoGaugeFigure),
        ("upper-face-gauge", no_constant, Block::NoGaugeFigure),
    ];
    for (name, change, block) in all {
        let mut world = World::loading(case(name, |_| {}), Stage::Bench);
        world.load_all();
        world.read_again();
        let lay: Vec<_> = world
            .board()
            .tasks
            .iter()
            .filter(|task| task.lies().is_some())
            .cloned()
            .collect();
        let after = edited(&world.case, change);
        let stop = told(&world, &after);
        world.case = after;
        let board = world.board();
        let blocked: Vec<_> = lay
            .iter()
            .filter(|was| {
                let mut tasks = board.tasks.iter().filter(|task| !task.is_anew());
                tasks.any(|task| {
                    task.thing == was.thing
                        && task.work == Work::Blocked(block)
                        && world.session.way(task).is_empty()
                })
            })
            .collect();
        assert!(!blocked.is_empty(), "{name} {block:?}");
        let sheet = work_out(&world.case);
        let late = lying_wrong(&world.case, &sheet, &world.events());
        for task in &blocked {
            for found in [&stop.wrong, &late] {
                let of = |one: &&Wrong| one.lies.as_deref() == task.lies();
                let wrong: Vec<&Why> = found.iter().filter(of).map(|one| &one.why).collect();
                assert_eq!(
                    wrong,
                    [&Why::Blocked(block)],
                    "{name} {:?} {:?}",
                    task.thing,
                    task.lies()
                );
            }
        }
        if block == Block::DoesNotFit {
            assert_eq!(late.len(), blocked.len(), "nothing else: {late:?}");
        }
        world.record(all_taken(&stop));
        let late = lying_wrong(&world.case, &sheet, &world.events());
        assert!(late.is_empty(), "told once: {late:?}");
    }
}

/// Cut off between any two of what is recorded once a STOP was read, the drill is told still or is set anew.
#[test]
fn a_stop_that_was_read_and_half_recorded_leaves_no_step_done() {
    let before = case("two-molars", |_| {});
    let after = edited(&before, closer);
    for half in 0..3 {
        let mut world = World::loading(before.clone(), Stage::Bench);
        world.go_to_first_set();
        let index = world.session.at;
        world.set_and_read();
        world.take(Input::Done);
        let stop = told(&world, &after);
        let purpose = Purpose::Patient;
        world.record(stop.wrong.iter().map(|one| one.told(purpose)));
        world.record(all_taken(&stop).into_iter().take(half));
        world.session.keep_only(&world.board());
        world.take(Input::Go(index));
        let sheet = work_out(&world.case);
        let told = lying_wrong(&world.case, &sheet, &world.events());
        let anew = world.now() == Now::Do(Step::Take) && world.task().hand().is_none();
        assert!(!told.is_empty() || anew, "{half}: {:?}", world.now());
    }
}

/// Two drills that look the same change places: each is set and read again before it is laid.
#[test]
fn drills_that_look_the_same_and_belong_in_other_slots_are_read_again() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    world.read_again();
    let mut sheet = work_out(&world.case);
    let tips: Vec<usize> = (0..sheet.loading.len())
        .filter(|at| sheet.loading[*at].entry == "tip-257" && sheet.loading[*at].set.is_some())
        .collect();
    let [one, other] = tips[..] else {
        panic!("{tips:?}")
    };
    let slot = sheet.loading[one].slot.clone();
    sheet.loading[one].slot = sheet.loading[other].slot.clone();
    sheet.loading[other].slot = slot;
    let wrong = lying_wrong(&world.case, &sheet, &world.events());
    assert_eq!(wrong.len(), 2, "{wrong:?}");
    for one in &wrong {
        assert!(matches!(one.why, Why::SlotOfAlike { .. }), "{one:?}");
        let taken: Vec<_> = one.taken(Purpose::Patient).collect();
        let reset = |kind: &EventKind| matches!(kind, EventKind::Reset { to: None, .. });
        assert!(taken.iter().any(reset), "{taken:?}");
    }
}

/// Of two faults of one thing the one that takes most is what is recorded as told, whichever comes first.
#[test]
fn of_two_faults_of_a_thing_the_gravest_is_told() {
    let world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let board = world.board();
    let mut drills = board.tasks.iter().filter_map(|task| task.planned.clone());
    let key = drills
        .find(|planned| planned.key.stop.is_some())
        .unwrap()
        .key;
    let other = traywright_core::sign::ItemKey {
        setting_mm: key.setting_mm + Length::from_um(100),
        ..key.clone()
    };
    let one = |key, why| Wrong {
        key: Key::Set(key),
        lies: None,
        why,
    };
    let slot = || Why::Slot { now: None };
    let both = [(slot(), Why::Again), (Why::Again, slot())];
    for (first, second) in both {
        let found = Changed {
            wrong: vec![one(key.clone(), first), one(other.clone(), second)],
            ..Changed::default()
        };
        let told = found.untold(|_| None);
        let work: Vec<ToldWork> = told.values().map(|one| one.work()).collect();
        assert_eq!(work, [ToldWork::SetAnew]);
    }
}

/// The kit has another drill, or another stop, under the same id: what was read was read of the one before.
#[test]
fn another_drill_or_stop_under_the_same_id_is_none_that_was_read() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    assert_eq!(world.board().lies_wrong, []);
    let laid = |case: &ValidCase| {
        let sheet = work_out(case);
        lying_wrong(case, &sheet, &world.events())
    };
    let drill_of = |change: fn(&mut Drill)| {
        case("two-molars", |case| {
            let mut drills = case.kit.drills.iter_mut();
            change(drills.find(|one| one.id.as_str() == "tip-257").unwrap());
        })
    };
    let stop_of = |change: fn(&mut Stop)| {
        case("two-molars", |case| {
            case.kit.stops.iter_mut().for_each(change);
        })
    };
    let counted = drill_of(|drill| drill.quantity += 1);
    assert_eq!(laid(&counted), [], "one more of them is no other");
    // Marked, they are told by that and not by their names.
    let renamed = [
        drill_of(|drill| drill.name = "Other drill".into()),
        stop_of(|stop| stop.name = format!("{} b", stop.name).as_str().into()),
    ];
    for renamed in renamed {
        assert_eq!(laid(&renamed), []);
    }
    let others = [
        drill_of(|drill| drill.overall_length_mm += mm("1")),
        drill_of(|drill| drill.marking.letter = Some("Z".into())),
        stop_of(|stop| stop.body_height_mm += mm("0.1")),
    ];
    for other in others {
        let wrong = laid(&other);
        assert!(!wrong.is_empty());
        assert!(
            wrong.iter().all(|one| one.why == Why::Instrument),
            "{wrong:?}"
        );
    }
}
