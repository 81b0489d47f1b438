//! The guide is abandoned by the record while the plan still leads through it: what stops says what to do, and does it.

use super::room::{Room, practised};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use traywright_core::sign::{EventKind, StepKey};

const ON: &str = "Going on as it is now, why? Who decided?";
const FOLLOW: &str = "Plan all that is open without the guide";

/// Another desk abandoned the guide, and something lies elsewhere than the plan has it.
fn stopped() -> Room {
    let mut room = Room::at("two-molars", "read: ");
    room.elsewhere(practised(StepKey::Abandoned {}));
    let (thing, purpose) = {
        let document = room.hand.program().document().expect("a case");
        let mut things = document.record.standing.thing_slots.keys();
        (
            things.next().expect("a thing").clone(),
            document.case().purpose(),
        )
    };
    room.elsewhere(EventKind::ThingPlaced {
        thing,
        slot: Some("Elsewhere 1".to_owned()),
        purpose: Some(purpose),
    });
    room.expect("STOP");
    room
}

/// The STOP says that the plan is to follow and by which key; that is its first way on, and it does it.
#[test]
fn the_stop_has_the_plan_follow() {
    let mut room = stopped();
    room.expect("The guide is abandoned by the record, and the plan still leads through it");
    room.expect("Set nothing for the guide now. First have the plan follow (T)");
    // Nothing names keys that do nothing here.
    assert!(!room.tells("Change (T), 0"), "{:#?}", room.told());
    let buttons = room.hand.names(Role::Button);
    assert!(buttons.iter().any(|one| one == FOLLOW), "{buttons:?}");
    room.records_nothing(&[Key::T]);
    room.expect("Nothing more is drilled or turned in through it");
    let document = room.hand.program().document().expect("a case");
    assert!(!document.is_changed());
    // Left by Esc nothing is changed; the STOP stays.
    room.key(Key::Escape);
    room.expect("STOP");
    room.key(Key::T);
    room.key(Key::Enter);
    room.hand.harness.run();
    let document = room.hand.program().document().expect("a case");
    assert!(document.is_changed());
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    assert!(!room.tells(FOLLOW), "{:#?}", room.told());
    room.key(Key::U);
    room.give(ON, "RT: it rocks");
    room.of_day(|day| {
        for (_, step) in day.open_from(0) {
            assert!(!step.is_led(), "{:?}", step.key);
        }
    });
}

/// Going on as it is stays possible, so that it can be said that the guide is not abandoned; nothing is done through it by that.
#[test]
fn gone_on_with_the_plan_as_it_is_nothing_is_done_through_the_guide() {
    let mut room = stopped();
    room.key(Key::F);
    room.expect("What was dropped?");
    room.key(Key::Escape);
    room.key(Key::U);
    room.give(ON, "RT: another case");
    room.expect("Change (T), 0");
    room.expect("STOP. The guide is abandoned");
    room.records_nothing(&[Key::Space, Key::A, Key::H]);
    room.key(Key::T);
    room.figure("9");
    room.expect("Recorded by mistake, why? Who says so?");
}

/// Without another STOP it is the first thing at the head, by the keys that do it there.
#[test]
fn at_a_step_the_head_names_the_keys_that_have_the_plan_follow() {
    let mut room = Room::at("two-molars", "read: ");
    room.elsewhere(practised(StepKey::Abandoned {}));
    room.expect("Change (T), 0");
    room.key(Key::T);
    room.figure("0");
    room.expect("Nothing more is drilled or turned in through it");
}

/// What a STOP has taken off the tray as it is set, and can be used by hand, is told with that: nothing says only to take it off.
#[test]
fn a_stop_tells_what_may_still_be_used_by_hand_at_its_line() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::T);
    room.figure("8");
    room.give("The guide is abandoned, why? Who decided?", "RT: it rocks");
    let one_says = |room: &Room| {
        let told = room.told();
        let off = told.iter().find_map(|line| {
            let (what, _) = line.split_once(": its ")?;
            (line.contains(" no longer ") && !what.contains(". ")).then_some(what)
        });
        let what = off.expect("something is void");
        let lines = told.iter().filter(|line| line.starts_with(what));
        let whole = lines.max_by_key(|line| line.len()).expect("told");
        assert!(whole.contains("by its mark or by hand"), "{whole}");
        assert!(!whole.contains("Take it off the tray."), "{whole}");
    };
    // Before it is saved, and after.
    one_says(&room);
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    one_says(&room);
}
