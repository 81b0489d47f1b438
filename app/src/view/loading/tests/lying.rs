//! What lies on the tray against the plan as it is, whenever that changed.

use super::world::{World, all_taken, case, lying_wrong, mm};
use crate::view::loading::changed::{Changed, Why, Wrong};
use crate::view::loading::session::Input;
use crate::view::loading::task::{Key, Task, thing_of_drill};
use std::collections::BTreeSet;
use traywright_core::case::{Case, ValidCase};
use traywright_core::kit::{SlotKind, StepId};
use traywright_core::measure::Length;
use traywright_core::plan::work_out;
use traywright_core::sign::{EventKind, ItemKey, SettingState, Stage};

fn edited(case: &ValidCase, change: impl FnOnce(&mut Case)) -> ValidCase {
    let mut other: Case = (**case).clone();
    change(&mut other);
    ValidCase::checked(&other).unwrap()
}

/// The slots in which something lies.
fn slots(world: &World) -> BTreeSet<String> {
    let board = world.board();
    let lie = board.tasks.iter().filter_map(Task::lies);
    lie.map(ToOwned::to_owned).collect()
}

fn without_first_site(case: &mut Case) {
    case.sites.remove(0);
    for site in &mut case.sites {
        site.distances.clear();
    }
}

fn without_step(case: &mut Case, site: usize, step: &str) {
    let steps = &mut case.sites[site].steps;
    let before = steps.len();
    steps.retain(|one| one.id != StepId::from(step));
    assert_eq!(steps.len() + 1, before, "{step}");
}

/// All is read twice and laid; then the plan is changed while nobody is at the tray. Whatever lies is either what
/// the plan wants there or told, and once it was told nothing of it is left.
#[test]
fn whatever_lies_is_wanted_there_or_told_however_the_plan_changed() {
    let by_mark = |case: &mut Case| {
        let drills = case.kit.drills.iter();
        let marked = drills.filter(|drill| !drill.marks.is_empty());
        let marked: BTreeSet<_> = marked.map(|drill| drill.id.clone()).collect();
        assert!(!marked.is_empty());
        for step in case.sites.iter_mut().flat_map(|site| &mut site.steps) {
            step.stop = step.stop.take().filter(|_| !marked.contains(&step.drill));
        }
    };
    let keep = |_: &mut Case| {};
    let changes: [(&str, fn(&mut Case), fn(&mut Case)); 4] = [
        ("a site is gone", keep, without_first_site),
        ("a tap is gone", keep, |case| without_step(case, 0, "s7")),
        ("a tip drill is gone", keep, |case| {
            without_step(case, 1, "s3");
        }),
        ("a site by marks is gone", by_mark, without_first_site),
    ];
    for (what, before, change) in changes {
        let mut world = World::loading(case("two-molars", before), Stage::Bench);
        world.load_all();
        world.read_again();
        let lay = slots(&world);
        assert!(lay.len() > 9, "{what}: {lay:?}");
        world.case = edited(&world.case, change);
        let sheet = work_out(&world.case);
        let late = |world: &World| Changed {
            wrong: lying_wrong(&world.case, &sheet, &world.events()),
            ..Changed::default()
        };
        let found = late(&world);
        let board = world.board();
        for slot in &lay {
            let right = |task: &&Task| task.lies_right() && task.lies() == Some(slot);
            let told = |one: &&Wrong| one.lies.as_ref() == Some(slot);
            let (right, told) = (
                board.tasks.iter().filter(right).count(),
                found.wrong.iter().filter(told).count(),
            );
            assert_eq!(right + told, 1, "{what}, {slot}: {:?}", found.wrong);
        }
        world.record(all_taken(&found));
        assert_eq!(late(&world).wrong, [], "{what}");
    }
}

/// One of two equal drills has no figure any more: by the record the other one is the piece of that number, and is
/// not told to be taken off.
#[test]
fn a_task_without_a_figure_is_about_a_piece_of_its_own() {
    let mut world = World::loading(case("two-molars", without_first_site), Stage::Bench);
    world.load_all();
    world.read_again();
    world.case = case("two-molars", |case| case.sites[0].platform_to_sleeve = None);
    let board = world.board();
    let drills = board.tasks.iter();
    let drills = drills.filter(|task| !task.is_anew() && task.thing.of == SlotKind::Drill);
    let drills: Vec<&Task> = drills.collect();
    assert!(drills.iter().any(|task| task.planned.is_none()));
    let pieces: BTreeSet<_> = drills.iter().map(|task| &task.thing).collect();
    assert_eq!(pieces.len(), drills.len(), "two tasks are about one piece");
    let off = board.lies_wrong.iter();
    let off = off.filter(|one| matches!(one.why, Why::Blocked(_)));
    assert_eq!(off.collect::<Vec<_>>(), Vec::<&Wrong>::new());
}

/// With a site gone the plan numbers its drills anew, and each task is still about the piece that carries its setting:
/// what falls or is set aside is that piece.
#[test]
fn a_task_is_about_the_piece_that_carries_its_setting() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    world.read_again();
    world.case = edited(&world.case, without_first_site);
    let board = world.board();
    let now = |task: &&Task| task.planned.is_some() && task.state() == SettingState::Now;
    let mut renumbered = 0;
    for task in board.tasks.iter().filter(now) {
        let piece = thing_of_drill(&task.planned.as_ref().unwrap().key);
        assert_eq!(task.thing, piece);
        renumbered += usize::from(piece.copy.get() > 1);
    }
    assert!(renumbered > 0);
    let task = board
        .tasks
        .iter()
        .filter(now)
        .find(|task| task.thing.copy.get() > 1);
    let (index, piece) = task.map(|task| (task.index, task.thing.clone())).unwrap();
    world.take(Input::Go(index));
    let slot = world.task().lies().unwrap().to_owned();
    let fell = world.take(Input::Fell);
    let dropped = |kind: &EventKind| matches!(kind, EventKind::Dropped { piece: of, .. } if *of == piece.piece());
    assert!(fell.iter().any(dropped), "{fell:?}");
    assert!(!slots(&world).contains(&slot));
}

/// The plan wants one of two drills that look alike, and in another slot; the other one lies there still. Which is which
/// tells its setting alone, so that the one which is wanted is set and read again, with its figure in sight to the end.
#[test]
fn a_drill_beside_a_look_alike_that_is_not_needed_is_read_again() {
    let closer = |case: &mut Case| {
        let distance = case.sites[1].platform_to_sleeve.as_mut().unwrap();
        distance.entered_mm += Length::from_um(1_600);
    };
    let changes: [(&str, fn(&mut Case)); 3] = [
        ("a step is gone", |case| without_step(case, 0, "s3")),
        ("a site is gone", without_first_site),
        ("the settings are equal now", closer),
    ];
    for (what, change) in changes {
        let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
        world.load_all();
        world.read_again();
        let board = world.board();
        let lay = board.tasks.iter().filter_map(|task| task.planned.clone());
        let lay: Vec<ItemKey> = lay.map(|planned| planned.key).collect();
        world.case = edited(&world.case, change);
        let found = world.board().lies_wrong;
        let mut alike = 0;
        for one in &found {
            let Key::Set(key) = &one.key else { continue };
            let is_alike = |other: &&ItemKey| {
                let same = other.drill == key.drill && other.copy != key.copy;
                same && other.setting_mm != key.setting_mm
            };
            if lay.iter().any(|other| is_alike(&other)) {
                assert!(!matches!(one.why, Why::Slot { .. }), "{what}: {one:?}");
                alike += usize::from(matches!(one.why, Why::SlotOfAlike { .. }));
            }
        }
        assert!(
            alike > 0 || what == "the settings are equal now",
            "{what}: {found:?}"
        );
        let found = Changed {
            wrong: found,
            ..Changed::default()
        };
        world.record(all_taken(&found));
        // Whatever is to be placed now was read since.
        let taken = |task: &&Task| {
            task.thing.of == SlotKind::Drill && !task.is_sealed() && task.lies().is_none()
        };
        for task in world.board().tasks.iter().filter(taken) {
            let tip = task.thing.entry == "tip-257";
            assert!(!tip || !task.was_read(), "{what}: {task:?}");
        }
    }
}

/// It was reported to have fallen, and that was taken back; then the plan has no use for it, or it lies where it does not
/// belong: it is told, since it may lie there still.
#[test]
fn a_drill_whose_fall_was_taken_back_is_told_where_the_plan_does_not_want_it() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    let board = world.board();
    let is_tip = |task: &&Task| {
        let planned = task.planned.as_ref();
        let first = planned.is_some_and(|planned| planned.key.setting_mm == mm("20.7"));
        task.thing.entry == "tip-257" && first
    };
    let task = board.tasks.iter().find(is_tip).unwrap();
    let (index, thing) = (task.index, task.thing.clone());
    world.take(Input::Go(index));
    world.take(Input::Fell);
    world.take(Input::Go(index));
    world.take(Input::DidNotFall);
    // Wanted as before it is taken and set like any.
    assert_eq!(world.board().lies_wrong, []);
    world.case = edited(&world.case, |case| without_step(case, 0, "s3"));
    let wrong = world.board().lies_wrong;
    let told = wrong.iter().find(|one| one.thing() == thing);
    let told = told.unwrap_or_else(|| panic!("{wrong:?}"));
    assert_eq!(told.why, Why::NotNeeded);
    let found = Changed {
        wrong,
        ..Changed::default()
    };
    world.record(all_taken(&found));
    assert_eq!(world.board().lies_wrong, []);
}
