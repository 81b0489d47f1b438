//! What lies on the tray against the plan as it is, whenever that changed.

use super::world::{World, case, lying_wrong};
use crate::view::loading::changed::{Changed, Why, Wrong};
use crate::view::loading::session::Input;
use crate::view::loading::task::{Task, thing_of_drill};
use std::collections::BTreeSet;
use traywright_core::case::{Case, ValidCase};
use traywright_core::kit::{SlotKind, StepId};
use traywright_core::plan::work_out;
use traywright_core::sign::{EventKind, Purpose, SettingState, Stage};

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
        world.record(found.understood(&found, Purpose::Patient));
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
