//! What fell, and what is left of it.

use super::world::{World, case};
use crate::view::loading::session::{Input, Now, Step};
use traywright_core::case::Case;
use traywright_core::sign::Stage;

/// One tip drill in stock: it fell, and there is no other to take.
#[test]
fn what_fell_without_a_spare_is_neither_taken_nor_laid_until_there_is_another() {
    let stock = |quantity: u32| {
        move |case: &mut Case| {
            let mut drills = case.kit.drills.iter_mut();
            let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
            drill.unwrap().quantity = quantity;
        }
    };
    let mut world = World::loading(case("two-molars", stock(1)), Stage::Bench);
    let board = world.board();
    let mut tasks = board.tasks.iter();
    let tip = tasks.find(|task| task.thing.entry == "tip-257").unwrap();
    let index = tip.index;
    world.take(Input::Go(index));
    world.set_and_read();
    world.take(Input::Done);
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Done);
    world.take(Input::Fell);
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::NoneLeft);
    for input in [Input::Fell, Input::Reset, Input::Open, Input::Enter] {
        assert_eq!(world.take(input), []);
    }
    // Gone on with, everything else is laid, and this is missing at the end.
    world.take(Input::Done);
    world.load_all();
    let board = world.board();
    let (done, all) = world.session.progress(&board);
    let lacking = board.tasks.iter().filter(|task| !task.is_anew());
    let lacking = lacking.filter(|task| world.session.now(task) == Now::NoneLeft);
    assert_eq!((done, lacking.count()), (all - 1, 1));
    // There is another: it goes on.
    world.case = case("two-molars", |case| {
        stock(2)(case);
    });
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
}

/// Of two pilot drills one fell: the other is set for whatever comes first, and then nothing is left.
#[test]
fn what_is_left_after_a_fall_is_used_once() {
    let two = |case: &mut Case| {
        let mut drills = case.kit.drills.iter_mut();
        let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
        drill.unwrap().quantity = 2;
    };
    let mut world = World::loading(case("two-molars", two), Stage::Bench);
    let board = world.board();
    let tips = board.tasks.iter();
    let tips = tips.filter(|task| task.thing.entry == "tip-257" && !task.is_anew());
    let tips: Vec<usize> = tips.map(|task| task.index).collect();
    let [first, second] = tips[..] else {
        panic!("{tips:?}")
    };
    let now = |world: &mut World, index: usize| {
        world.take(Input::Go(index));
        world.now()
    };
    now(&mut world, first);
    world.set();
    world.take(Input::Fell);
    for index in [first, second] {
        assert_eq!(now(&mut world, index), Now::Do(Step::Take));
    }
    world.set();
    assert_eq!(now(&mut world, first), Now::NoneLeft);
    assert_eq!(now(&mut world, second), Now::Do(Step::Read));
}
