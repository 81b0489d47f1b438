//! After the guide was left: what can still be done, what that is told as, and a program that was ended in between.

use super::room::{Room, practised};
use crate::hand::DESK;
use egui::{Key, Modifiers};
use traywright_core::sign::{EventKind, Led, StepKey};

const ABANDONED: &str = "The guide is abandoned, why? Who decided?";
const ON: &str = "Going on as it is now, why? Who decided?";

/// The guide is abandoned in the record and in the plan, and surgery went on with that.
pub(super) fn abandoned(room: &mut Room) {
    room.key(Key::T);
    room.figure("8");
    room.give(ABANDONED, "RT: it rocks");
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.key(Key::U);
    room.give(ON, "RT: it rocks");
}

/// Looks forward until these words are there.
pub(super) fn forward_to(room: &mut Room, words: &str) {
    for _ in 0..80 {
        if room.tells(words) {
            return;
        }
        room.key(Key::ArrowRight);
    }
    panic!("never “{words}”: {:#?}", room.told());
}

/// Before the guide is abandoned, or left at a site, it is told what is possible afterwards.
#[test]
fn what_leaving_the_guide_makes_possible_is_told_before() {
    for number in ["4", "8"] {
        let mut room = Room::at("two-molars", "read: ");
        room.key(Key::T);
        room.figure(number);
        room.expect("Nothing more is drilled or turned in through it");
        room.expect("by hand");
        room.expect("no guide and no stop");
        let document = room.hand.program().document().expect("a case");
        assert!(!document.is_changed());
        room.key(Key::Escape);
    }
}

/// Without the guide a drill whose stop is set for it goes by its mark or by hand: with a reason, the depth that was aimed at, and
/// nothing of a stop.
#[test]
fn a_step_without_the_guide_is_done_by_hand_and_recorded_as_such() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    forward_to(&mut room, "Possible with its stop off (H)");
    room.expect("No guide and no stop holds it");
    room.expect("Not with ");
    assert!(!room.tells("Do not drill with it"), "{:#?}", room.told());
    // Out of its turn that is pressed twice, as all else.
    room.key(Key::H);
    if !room.tells("Depth that is aimed at") {
        room.key(Key::H);
    }
    room.expect("Depth that is aimed at");
    room.expect("No guide and no stop holds it");
    room.figure("9.5");
    room.records_nothing(&[Key::Space]);
    room.key(Key::Enter);
    room.give("By hand, why? Who decided?", "RT: guide left");
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    let StepKey::Drill { led, .. } = &done.step else {
        panic!("{:?}", done.step)
    };
    assert_eq!(*led, Led::Freehand);
    assert_eq!(done.despite.as_deref(), Some("RT: guide left"));
    let by_hand = done.by_hand.as_ref().expect("by hand");
    assert_eq!(
        by_hand.aimed_mm.map(|one| one.to_string()).as_deref(),
        Some("9.5")
    );
    // It names no setting of a stop that was not used.
    room.key(Key::L);
    let rows: Vec<String> = room
        .told()
        .into_iter()
        .filter(|row| row.contains("BY HAND"))
        .collect();
    assert!(!rows.is_empty());
    for row in &rows {
        assert!(!row.contains("set to") && row.contains("9.5 mm"), "{row}");
    }
}

/// A depth that was not told is recorded as such, a figure without meaning is not taken.
#[test]
fn the_depth_that_was_aimed_at_may_be_left_open() {
    let mut room = Room::at("two-molars", "read: ");
    abandoned(&mut room);
    forward_to(&mut room, "Possible with its stop off (H)");
    room.key(Key::H);
    if !room.tells("Depth that is aimed at") {
        room.key(Key::H);
    }
    room.figure("0");
    room.records_nothing(&[Key::Enter]);
    room.expect("Depth that is aimed at");
    room.key(Key::Backspace);
    room.key(Key::Enter);
    room.give("By hand, why? Who decided?", "RT: guide left");
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(done.by_hand.expect("by hand").aimed_mm, None);
}

/// With the guide in, nothing is done by hand.
#[test]
fn with_the_guide_nothing_is_done_by_hand() {
    let mut room = Room::with("two-molars", DESK, |_| {}, |_| {});
    room.begin("KE");
    room.until("STOP. It is not verified in the sterile field.");
    assert!(!room.tells("Possible with its stop off (H)"));
    room.records_nothing(&[Key::H]);
    assert!(!room.tells("Depth that is aimed at"));
}

/// What was left out with the guide is told as left out, not as done.
#[test]
fn what_was_left_out_with_the_guide_is_not_told_as_done() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    let (sounding, _) = room.step();
    room.elsewhere(practised(StepKey::Abandoned {}));
    let at = room.of_day(|day| day.place_of(&sounding).expect("a step"));
    for _ in 0..60 {
        let due = room.due().0.expect("due");
        assert!(due > at);
        if room.tells("Sound: ") && room.tells("Only looked at") {
            break;
        }
        room.key(Key::ArrowLeft);
    }
    room.expect("Left out, RT");
    assert!(
        !room.told().iter().any(|text| text.starts_with("Done, ")),
        "{:#?}",
        room.told()
    );
}

/// Ended between the record and the plan, the program says that the guide is abandoned, that the plan does not have it, and what to do.
#[test]
fn a_program_that_ended_before_the_plan_was_saved_says_what_to_do() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.elsewhere(practised(StepKey::Abandoned {}));
    let mut room = room.killed();
    let words = "The guide is abandoned by the record, and the plan still leads through it";
    room.expect(words);
    room.expect("Change (T), 0");
    room.begin("KE");
    room.expect(words);
    forward_to(&mut room, "STOP. The guide is abandoned");
    assert!(!room.tells("say in the plan that it was not left"));
    room.key(Key::T);
    room.figure("0");
    room.key(Key::Enter);
    room.hand.harness.run();
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.key(Key::U);
    room.give(ON, "RT: it rocks");
    assert!(!room.tells(words));
    room.of_day(|day| {
        for (_, step) in day.open_from(0) {
            assert!(!step.is_led(), "{:?}", step.key);
        }
    });
}

/// The same after a kill while the plan is changed and not saved: whatever becomes of what was not saved.
#[test]
fn a_kill_with_the_plan_changed_and_not_saved_leaves_no_doubt() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.key(Key::T);
    room.figure("8");
    room.give(ABANDONED, "RT: it rocks");
    room.expect("The plan has changes that are not saved.");
    for answer in ["Take them over", "Throw them away"] {
        let Room { hand, file } = room;
        let mut hand = hand.again(Some(&file));
        assert!(
            hand.names(egui::accesskit::Role::Button)
                .iter()
                .any(|name| name == answer)
        );
        if answer == "Take them over" {
            // It is asked again as long as nobody answers.
            room = Room { hand, file };
            continue;
        }
        hand.click(answer);
        hand.wait();
        hand.go(traywright::action::View::Surgery);
        room = Room { hand, file };
    }
    room.expect("The guide is abandoned by the record, and the plan still leads through it");
    // What was told to be taken stops: there the same key does it at once.
    room.expect("Give your initials; then T: plan all that is open without it");
    room.expect("RT: it rocks");
}

/// A pin drill that is not ready says why.
#[test]
fn a_pin_drill_that_is_not_ready_says_why() {
    let mut room = Room::with("full-arch-upper", DESK, |_| {}, |_| {});
    room.begin("KE");
    let at_pin = |room: &Room| room.told().iter().any(|text| text.starts_with("Pin “"));
    for _ in 0..80 {
        if at_pin(&room) {
            break;
        }
        room.key(Key::ArrowRight);
    }
    assert!(at_pin(&room));
    room.expect("STOP. It is in no slot by the record");
}

/// A drill that lies in its wrapping is told as there, and sealed.
#[test]
fn a_sealed_drill_that_lies_is_told_with_its_slot() {
    let mut room = Room::with(
        "two-molars",
        DESK,
        |case| {
            for drill in &mut case.kit.drills {
                drill.single_use = true;
            }
        },
        load_sealed,
    );
    room.begin("KE");
    for _ in 0..80 {
        if room.tells("Pilot drill 2.13") && room.tells("STOP. ") {
            break;
        }
        room.key(Key::ArrowRight);
    }
    room.expect("sealed");
    assert!(
        !room.tells("It is in no slot by the record"),
        "{:#?}",
        room.told()
    );
}

fn load_sealed(file: &std::path::Path) {
    use super::tray::{read, record};
    use std::num::NonZeroU32;
    use traywright_core::kit::SlotKind;
    use traywright_core::plan::work_out;
    use traywright_core::sign::ThingKey;
    let case = read(file);
    for item in &work_out(&case).loading {
        if item.kind != SlotKind::Drill {
            continue;
        }
        let thing = ThingKey {
            of: item.kind,
            entry: item.entry.clone(),
            copy: NonZeroU32::new(item.copy).expect("from 1"),
        };
        let placed = EventKind::ThingPlaced {
            thing,
            slot: item.slot.as_ref().map(ToString::to_string),
            purpose: Some(case.purpose()),
        };
        record(file, &case, "MK", placed);
    }
}
