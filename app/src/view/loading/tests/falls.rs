//! What fell, and what is left of it.

use super::world::{World, case};
use crate::desk::policy;
use crate::view::loading::changed::Why;
use crate::view::loading::session::{Input, Now, Step};
use traywright_core::case::Case;
use traywright_core::plan::none_left;
use traywright_core::plan::{plan_view, work_out};
use traywright_core::sign::{EventKind, Piece, Purpose, Stage, standing};

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

/// The only tip drill, verified and laid, was reported fallen by mistake: whoever says so stands in the record,
/// the drill is there again, and nothing read of it before counts.
#[test]
fn a_fall_reported_by_mistake_is_taken_back_by_name_and_the_drill_is_read_anew() {
    let mut world = World::loading(
        case("two-molars", |case| {
            let mut drills = case.kit.drills.iter_mut();
            let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
            drill.unwrap().quantity = 1;
        }),
        Stage::Bench,
    );
    let board = world.board();
    let mut tasks = board.tasks.iter();
    let tip = tasks.find(|task| task.thing.entry == "tip-257").unwrap();
    let index = tip.index;
    world.take(Input::Go(index));
    world.set_and_read();
    world.take(Input::Done);
    world.take(Input::Go(index));
    assert_eq!(world.take(Input::DidNotFall), [], "nothing fell");
    world.take(Input::Fell);
    assert_eq!(world.now(), Now::NoneLeft);
    let told = world.take(Input::DidNotFall);
    assert!(matches!(&told[..], [EventKind::FallTakenBack { .. }]));
    assert_eq!(world.log.events().last().unwrap().who.as_str(), "MK");
    assert_eq!(world.now(), Now::Do(Step::Take));
    assert!(!world.task().was_read() && world.task().record.lies.is_none());
    assert_eq!(world.take(Input::DidNotFall), [], "it was taken back");
    world.set_and_read();
    assert!(world.task().is_read_first());
}

/// What was in a slot and is taken is in no slot any more, also for who opens the case anew.
#[test]
fn what_was_taken_out_of_its_slot_lies_in_none() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.load_all();
    let board = world.board();
    let pin = board
        .tasks
        .iter()
        .find(|task| task.planned.is_none() && task.lies_right());
    let (index, thing) = pin.map(|pin| (pin.index, pin.thing.clone())).unwrap();
    let elsewhere = EventKind::ThingPlaced {
        thing,
        slot: Some("elsewhere".to_owned()),
        purpose: Some(Purpose::Patient),
    };
    let who = world.session.first.clone().unwrap();
    let at = world.log.events().last().unwrap().at;
    world.log.append(at, who, elsewhere).unwrap();
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
    world.take(Input::Done);
    assert_eq!(world.task().record.lies, None);
    assert_eq!(world.now(), Now::Do(Step::Place));
}

/// A drill that fell in practice is not missing for the patient, and a setting that was gone on to in practice
/// is none of the patient's.
#[test]
fn a_fall_in_practice_is_none_for_the_patient() {
    for (purpose, want) in [
        (Some(Purpose::Practice), Now::Do(Step::Take)),
        (Some(Purpose::Patient), Now::NoneLeft),
        (None, Now::NoneLeft),
    ] {
        let mut world = World::loading(
            case("two-molars", |case| {
                let mut drills = case.kit.drills.iter_mut();
                let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
                drill.unwrap().quantity = 1;
            }),
            Stage::Bench,
        );
        let board = world.board();
        let mut tasks = board.tasks.iter();
        let tip = tasks.find(|task| task.thing.entry == "tip-257").unwrap();
        let piece = Piece::Drill(tip.planned.as_ref().unwrap().key.drill_key());
        let who = world.session.first.clone().unwrap();
        let at = world.log.events().last().unwrap().at;
        let fell = EventKind::Dropped { piece, purpose };
        world.log.append(at, who, fell).unwrap();
        world.take(Input::Go(tip.index));
        assert_eq!(world.now(), want, "{purpose:?}");
    }
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

/// A drill whose setting is not known falls all the same: it is the drill that is missing, also where an older
/// program named it as a thing without a setting.
#[test]
fn a_drill_without_a_known_setting_falls_as_a_drill() {
    let one = |case: &mut Case| {
        let mut drills = case.kit.drills.iter_mut();
        let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
        drill.unwrap().quantity = 1;
    };
    let unset = |case: &mut Case| {
        one(case);
        for site in &mut case.sites {
            site.platform_to_sleeve = None;
        }
    };
    let tip = |world: &World| {
        let board = world.board();
        let mut tasks = board.tasks.iter();
        let tip = tasks.find(|task| task.thing.entry == "tip-257");
        tip.unwrap().clone()
    };
    for by_older in [false, true] {
        let mut world = World::loading(case("two-molars", unset), Stage::Bench);
        assert_eq!(tip(&world).planned, None);
        world.take(Input::Go(tip(&world).index));
        if by_older {
            let who = world.session.first.clone().unwrap();
            let at = world.log.events().last().unwrap().at;
            let piece = Piece::Other("tip-257".to_owned());
            let purpose = Some(Purpose::Patient);
            let fell = EventKind::Dropped { piece, purpose };
            world.log.append(at, who, fell).unwrap();
        } else {
            let told = world.take(Input::Fell);
            let Some(EventKind::Dropped {
                piece: Piece::Drill(drill),
                ..
            }) = told.first()
            else {
                panic!("{told:?}")
            };
            assert_eq!((drill.drill.as_str(), drill.copy.get()), ("tip-257", 1));
        }
        assert!(tip(&world).none_left && tip(&world).fall.is_some());
        // The setting is known again: there is none to set.
        world.case = case("two-molars", one);
        world.take(Input::Go(tip(&world).index));
        assert_eq!(world.now(), Now::NoneLeft);
        assert!(!world.take(Input::DidNotFall).is_empty());
        assert_eq!(world.now(), Now::Do(Step::Take));
    }
}

/// The one spare on the tray is taken with the fall that it makes good: it lies nowhere, and no later fall finds it.
#[test]
fn a_spare_that_was_taken_lies_nowhere() {
    let mut world = World::loading(case("one-premolar", |_| {}), Stage::Bench);
    world.load_all();
    let board = world.board();
    let spare = board
        .tasks
        .iter()
        .find(|task| task.thing.entry == "spare-pilot")
        .unwrap();
    let of = board
        .tasks
        .iter()
        .find(|task| !task.spares.is_empty())
        .unwrap();
    assert_eq!(board.spare_of(of).map(|task| task.index), Some(spare.index));
    let slot = spare.lies().map(ToOwned::to_owned);
    assert!(slot.is_some());
    world.take(Input::Go(of.index));
    let fell = world.take(Input::Fell);
    let off = |kind: &EventKind| matches!(kind, EventKind::ThingPlaced { thing, slot: None, .. } if *thing == spare.thing);
    assert!(fell.iter().any(off), "{fell:?}");
    assert_eq!(world.board().tasks[spare.index].lies(), None);
    assert_eq!(world.board().spare_of(&world.task()), None);
    assert!(!world.take(Input::Fell).iter().any(off));
}

/// Both pilot drills fell and stock has no more: two are lacking, not one.
#[test]
fn what_lacks_is_counted() {
    let two = |case: &mut Case| {
        let mut drills = case.kit.drills.iter_mut();
        let drill = drills.find(|drill| drill.id.as_str() == "tip-257");
        drill.unwrap().quantity = 2;
    };
    let mut world = World::loading(case("two-molars", two), Stage::Bench);
    let tips = |world: &World| -> Vec<usize> {
        let board = world.board();
        let tips = board.tasks.iter();
        let tips = tips.filter(|task| task.thing.entry == "tip-257" && !task.is_anew());
        tips.map(|task| task.index).collect()
    };
    let sheet = work_out(&world.case);
    for (fallen, index) in (0..).zip(tips(&world)) {
        world.take(Input::Go(index));
        world.take(Input::Fell);
        let view = plan_view(&world.case, &sheet, &world.events());
        let now = standing(&world.events(), &view, &policy()).unwrap();
        let lacking = none_left(&sheet, &now.fallen);
        let lacking: Vec<(&str, u32)> = lacking
            .into_iter()
            .map(|(item, count)| (item.entry.as_str(), count))
            .collect();
        assert_eq!(lacking, [("tip-257", fallen + 1)]);
    }
}

/// The spare lies in the slot and the fall is taken back: two drills are at hand, and nobody knows which is which.
#[test]
fn a_fall_taken_back_over_its_spare_is_a_stop() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let board = world.board();
    let mut tasks = board.tasks.iter();
    let tip = tasks.find(|task| task.thing.entry == "tip-257").unwrap();
    let index = tip.index;
    world.take(Input::Go(index));
    world.set_and_read();
    world.take(Input::Done);
    world.take(Input::Go(index));
    world.take(Input::Fell);
    world.take(Input::Go(index));
    world.set_and_read();
    world.take(Input::Done);
    world.take(Input::Go(index));
    assert!(world.board().lies_wrong.is_empty());
    let slot = world.task().lies().map(ToOwned::to_owned);
    assert!(slot.is_some());
    world.take(Input::DidNotFall);
    let wrong = world.board().lies_wrong;
    assert_eq!(wrong.len(), 1, "{wrong:?}");
    assert_eq!((&wrong[0].lies, &wrong[0].why), (&slot, &Why::EitherOfTwo));
    // Taken, it lies nowhere, and one is set and read from the first step on.
    world.record(wrong[0].taken(Purpose::Patient));
    assert!(world.board().lies_wrong.is_empty());
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Do(Step::Take));
    assert!(!world.task().was_read());
}

/// In surgery the spare of the tray took the place of what fell: there is none to be placed again.
#[test]
fn a_spare_that_took_a_place_is_not_asked_for_again_in_the_sterile_field() {
    let mut world = World::loading(case("one-premolar", |_| {}), Stage::SterileField);
    world.load_all();
    let board = world.board();
    let is_spare = |task: &&crate::view::loading::task::Task| task.thing.entry == "spare-pilot";
    let spare = board.tasks.iter().find(is_spare).unwrap().index;
    let of = board
        .tasks
        .iter()
        .find(|task| !task.spares.is_empty())
        .unwrap()
        .index;
    assert_eq!(world.session.now(&board.tasks[spare]), Now::Done);
    world.take(Input::Go(of));
    world.take(Input::Fell);
    let board = world.board();
    assert!(!world.session.now(&board.tasks[spare]).is_due());
    // The fall was reported by mistake: the spare lies nowhere by the record, and is placed.
    world.take(Input::Go(of));
    world.take(Input::DidNotFall);
    let board = world.board();
    assert!(world.session.now(&board.tasks[spare]).is_due());
}
