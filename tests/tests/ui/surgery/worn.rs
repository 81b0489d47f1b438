//! The wear of the drill in hand, as loading tells it, and what is to be discarded or sent back after the day.

use super::room::Room;
use super::tray::load;
use crate::wear::{DRILL, limited, named, with_wear};
use egui::Key;
use traywright::action::View;
use traywright_core::surgery::Work;

/// A day on a loaded tray, every piece of the worn drill named or none, beside a kit with these limits.
fn begun(uses: u32, before: u32, mark: Option<&str>) -> Room {
    let mut hand = with_wear(&limited(uses, before), true);
    let file = {
        let document = hand.program().document().expect("a case");
        document.file().expect("a file").to_owned()
    };
    load(&file);
    if let Some(mark) = mark {
        for copy in 1..4 {
            named(&hand, mark, copy);
        }
    }
    hand.harness.state_mut().open(&file);
    hand.wait();
    hand.go(View::Surgery);
    hand.wait();
    let mut room = Room { hand, file };
    room.begin("KE");
    room.until("read: ");
    room
}

/// At a step with the worn drill.
fn at_the_drill(room: &mut Room) {
    for _ in 0..60 {
        let shown = room.shown();
        let is_it = room.of_day(|day| {
            let place = shown.as_ref().and_then(|key| day.place_of(key));
            place.is_some_and(|place| match &day.steps[place].work {
                Work::Drill(drilling) => drilling.step.drill.as_str() == DRILL,
                _ => false,
            })
        });
        if is_it {
            return;
        }
        room.key(Key::ArrowRight);
    }
    panic!("no step with {DRILL}");
}

/// Near its limit, at it, beyond it by this day, or not known: the step says so, as loading does. Within it, it says nothing.
#[test]
fn the_wear_of_the_drill_in_hand_is_told_at_its_step() {
    for (uses, before, mark, told) in [
        (
            10,
            7,
            Some("A3"),
            Some("Wear: piece A3: 7 uses, limit 10 uses; NEAR its limit"),
        ),
        (
            10,
            10,
            Some("A3"),
            Some("LIMIT REACHED: not to be used again"),
        ),
        (
            10,
            2,
            None,
            Some("Wear: which piece it is nobody said: its uses are not known"),
        ),
        (10, 2, Some("A4"), Some("Wear: piece A4: at least 0 uses")),
        (90, 2, Some("A3"), None),
    ] {
        let mut room = begun(uses, before, mark);
        at_the_drill(&mut room);
        match told {
            Some(told) => room.expect(told),
            None => assert!(!room.tells("Wear: "), "{:#?}", room.told()),
        }
    }
}

/// What reached its limit by the day is told in the record, as what to discard or send back.
#[test]
fn what_reached_its_limit_is_to_be_discarded_or_sent_back() {
    let list = "To discard or send back by its wear";
    let mut room = begun(9, 7, Some("A3"));
    room.hand.go(View::Record);
    room.hand.wait();
    // Nothing was drilled with it yet.
    assert!(!room.tells(list), "{:#?}", room.told());
    room.hand.go(View::Surgery);
    room.begin_again();
    room.until("All steps are over, for practice.");
    room.hand.go(View::Record);
    room.hand.wait();
    room.expect(list);
    room.expect("A3");
    let mut room = begun(90, 7, Some("A3"));
    room.until("All steps are over, for practice.");
    room.hand.go(View::Record);
    room.hand.wait();
    assert!(!room.tells(list), "{:#?}", room.told());
}
