//! The plan changed on the table.

use super::room::Room;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use traywright_core::sign::{EventKind, Led, StepKey};

/// What asks who decided on a change of the plan, and why.
const CHANGED: &str = "Changed so, why? Who decided?";

/// The first that was recorded since is the change, with its reason.
fn decided(room: &Room, since: usize, reason: &str) {
    let new = room.kinds().split_off(since);
    let Some(EventKind::StepDone(done)) = new.first() else {
        panic!("{new:?}")
    };
    assert_eq!(done.despite.as_deref(), Some(reason));
    assert!(done.step.site().is_some(), "{done:?}");
}

/// The next shorter implant on the table: worked out at once, told before it is saved, and gone on with by who decided.
#[test]
fn a_shorter_implant_on_the_table_is_worked_out_at_once() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::Space);
    room.until("step 9 of ");
    let before = room
        .hand
        .program()
        .document()
        .expect("a case")
        .case()
        .clone();
    room.key(Key::T);
    room.expect("What is to be done otherwise here?");
    room.expect("Take Reed");
    room.figure("1");
    room.expect("It is worked out at once");
    let recorded = room.kinds().len();
    room.records_nothing(&[Key::Enter, Key::Space]);
    room.give(CHANGED, "RT: too little bone");
    decided(&room, recorded, "RT: too little bone");
    room.hand.harness.run();
    room.expect("The plan has changes that are not saved.");
    // What lies wrong by it is told before it is saved.
    room.expect("The plan is another one");
    room.expect("now planned at");
    room.records_nothing(&[Key::Space]);
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    let after = room
        .hand
        .program()
        .document()
        .expect("a case")
        .case()
        .clone();
    assert_ne!(before.sites[0].implant, after.sites[0].implant);
    // What was drilled for the longer one is as deep as it was, and beneath the other one the hole stays empty.
    let cut = &after.sites[0].cut_before;
    assert!(!cut.is_empty());
    let drilled = cut.iter().filter_map(|one| one.tip_mm).max();
    let sheet = &room
        .hand
        .program()
        .document()
        .expect("a case")
        .worksheet()
        .sites[0];
    assert!(sheet.deepest_cut.length() >= drilled);
    assert!(drilled > Some(sheet.implant_end));
    room.key(Key::U);
    room.give(
        "Going on as it is now, why? Who decided?",
        "RT: too little bone",
    );
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(begun.fingerprint, after.fingerprint());
    assert!(!begun.lies_wrong.is_empty());
    // No drill that is set for the other implant is ready.
    room.expect("STOP. ");
}

/// Stopped at a site, all that is open there is left out for one reason, and nothing anywhere else.
#[test]
fn stopping_at_a_site_leaves_out_what_is_open_there_alone() {
    let mut room = Room::at("two-molars", "read: ");
    let before = room.kinds().len();
    room.key(Key::T);
    let offers = room.hand.names(Role::Button);
    let stop = "Stop here: leave out all that is open at this site";
    assert!(offers.iter().any(|name| name == stop), "{offers:?}");
    room.hand.click(stop);
    room.give("Stopped here, why? Who decided?", "RT: no primary hold");
    let new = room.kinds().split_off(before);
    assert!(new.len() > 1);
    for kind in &new {
        assert!(matches!(kind, EventKind::StepSkipped(_)), "{kind:?}");
        let site = kind.step_of_day().and_then(StepKey::site);
        assert_eq!(
            site.map(|site| site.tooth.to_string()).as_deref(),
            Some("46")
        );
    }
    room.until("All steps are over, for practice.");
    room.expect("Left out: ");
}

/// Without the guide from here: the step that is due is freehand, too, and nothing of it is done by what was set for the guide.
#[test]
fn without_the_guide_from_here_begins_with_the_step_that_is_due() {
    let mut room = Room::at("two-molars", "read: ");
    let (due, _) = room.step();
    assert!(
        matches!(
            due,
            StepKey::Drill {
                led: Led::Guide,
                ..
            }
        ),
        "{due:?}"
    );
    let slots = |room: &Room| {
        let document = room.hand.program().document().expect("a case");
        let site = due.site().expect("a site").site.clone();
        let all = document.worksheet().loading.iter();
        let others = all.filter(|item| {
            let mut serves = item.serves.iter();
            serves.any(|one| one.site.as_ref().is_some_and(|at| at.as_str() != site))
        });
        others
            .map(|item| (item.entry.clone(), item.serves.clone(), item.slot.clone()))
            .collect::<Vec<_>>()
    };
    let before = slots(&room);
    room.key(Key::T);
    room.hand.click("Without the guide from here");
    let recorded = room.kinds().len();
    room.give(CHANGED, "RT: it rocks here");
    decided(&room, recorded, "RT: it rocks here");
    room.hand.harness.run();
    room.expect("The plan has changes that are not saved.");
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    for (entry, serves, slot) in &before {
        let after = slots(&room);
        let mut after = after.iter();
        let here = after
            .find(|(other, of, _)| entry == other && of.iter().any(|one| serves.contains(one)));
        assert_eq!(here.map(|(_, _, slot)| slot), Some(slot), "{entry}");
    }
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT: it rocks");
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(!begun.lies_wrong.is_empty());
    room.of_day(|day| {
        let here = day.steps.iter().filter(|step| {
            let at = step.key.site();
            at.is_some_and(|at| Some(at) == due.site()) && !step.state.is_over()
        });
        for step in here {
            assert!(!step.is_led(), "{:?}", step.key);
        }
    });
}

/// That the guide came off is taken back by who says why; what was done in between is shown before and told after.
#[test]
fn a_guide_that_did_not_come_off_is_taken_back() {
    let mut room = Room::at("two-molars", "read: ");
    let (due, _) = room.step();
    room.key(Key::T);
    room.hand
        .click("The guide came off: seat it and sound each site again");
    room.give("The guide came off, why? Who says so?", "RT: it was lifted");
    let (seat, _) = room.step();
    assert!(matches!(seat, StepKey::Seat { .. }), "{seat:?}");
    room.key(Key::Space);
    room.key(Key::T);
    let offers = room.hand.names(Role::Button);
    let back = offers
        .iter()
        .find(|name| name.starts_with("The guide did not come off"));
    let back = back.expect("it is offered").clone();
    room.hand.click(&back);
    room.expect("Recorded since then");
    room.expect("guide seated");
    room.give("Recorded by mistake, why? Who says so?", "MK: wrong key");
    let EventKind::StepTakenBack(said) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(said.reason.as_deref(), Some("MK: wrong key"));
    assert_eq!(said.step, StepKey::Lifted {});
    // Seated anew in between it is sounded anew; then it goes on where it was.
    assert!(matches!(room.step().0, StepKey::Sound { .. }));
    room.until("read: ");
    assert_eq!(room.step().0, due);
    room.until("All steps are over, for practice.");
    room.expect("RECORDED BY MISTAKE, said KE");
    room.expect("Recorded in between: ");
}

/// The guide is abandoned for a reason: recorded at once, worked out at once, and nothing of any site is done through it.
#[test]
fn an_abandoned_guide_is_recorded_and_worked_out_at_once() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.key(Key::T);
    room.hand
        .click("Abandon the guide: from here everything of all sites is without it");
    let before = room.kinds().len();
    room.give("The guide is abandoned, why? Who decided?", "RT: it rocks");
    let new = room.kinds().split_off(before);
    // What the plan makes of the tray is told behind it.
    let Some(EventKind::StepDone(done)) = new.first() else {
        panic!("{new:?}")
    };
    assert_eq!(done.step, StepKey::Abandoned {});
    assert_eq!(done.despite.as_deref(), Some("RT: it rocks"));
    room.expect("The plan has changes that are not saved.");
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    room.expect("THE GUIDE IS ABANDONED");
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT: it rocks");
    room.of_day(|day| {
        assert!(day.abandoned.is_some());
        for (_, step) in day.open_from(0) {
            assert!(!step.is_led(), "{:?}", step.key);
            assert!(!matches!(
                step.key,
                StepKey::Sound { .. } | StepKey::Seat { .. }
            ));
        }
    });
    // Before the first cut other things are counted in anew; then the guide comes off.
    let due = room.of_day(|day| {
        let mut open = day.open_from(0).map(|(_, step)| step.key.clone());
        open.find(|key| !matches!(key, StepKey::CountIn { .. }))
    });
    let due = due.expect("a step");
    assert!(
        matches!(due, StepKey::GuideOff {} | StepKey::SetAnew { .. }),
        "{due:?}"
    );
}

/// Where the word that the guide is abandoned cannot be written, the plan keeps the guide: nothing of it went through.
#[test]
fn a_guide_that_could_not_be_abandoned_stays_in_the_plan() {
    let mut room = Room::at("two-molars", "Probe through the seated guide");
    room.key(Key::T);
    room.hand
        .click("Abandon the guide: from here everything of all sites is without it");
    let plan = |room: &Room| {
        let document = room.hand.program().document().expect("a case");
        (document.worksheet().fingerprint, document.is_changed())
    };
    let before = plan(&room);
    let ask = "The guide is abandoned, why? Who decided?";
    room.hand.enter(ask, "RT: it rocks");
    // A folder in the place of the file by which the desk holds its record. The record stays as it is: one that went would be a break,
    // which the window sees by itself, sooner or later than the press.
    let desk = room.hand.program().desk().settings.desk.clone();
    let beside = traywright_core::store::events_folder(&room.file);
    let lock = beside.join(format!("{desk}.lock"));
    let _ = std::fs::remove_file(&lock);
    std::fs::create_dir(&lock).expect("a folder");
    room.hand.click("Enter");
    room.expect("does not count as done");
    assert_eq!(plan(&room), before);
    std::fs::remove_dir(&lock).expect("removed");
    assert!(!room.kinds().iter().any(
        |kind| matches!(kind, EventKind::StepDone(done) if done.step == StepKey::Abandoned {})
    ));
}

/// After a change on the table a key leads to what is open in the plan, and one back to the same step.
#[test]
fn what_is_open_after_a_change_is_one_key_away_and_one_back() {
    let mut room = Room::at("two-molars", "read: ");
    room.key(Key::T);
    room.figure("1");
    room.give(CHANGED, "RT: too little bone");
    room.hand.harness.run();
    room.hand.press(Modifiers::COMMAND, Key::S);
    room.hand.wait();
    room.expect("STOP");
    let is_open = |room: &Room| {
        let document = room.hand.program().document().expect("a case");
        let mut all = document.worksheet().findings.iter();
        all.any(|one| one.severity().is_open())
    };
    assert!(is_open(&room));
    room.expect("Open in the plan, each to be settled or accepted there");
    let due = room.step().0;
    let before = room.kinds();
    room.key(Key::O);
    room.hand.wait();
    room.expect("Back to surgery, to the same step");
    room.hand
        .press(Modifiers::COMMAND, traywright::action::View::Surgery.key());
    room.hand.wait();
    room.expect("STOP");
    assert_eq!((room.step().0, room.kinds()), (due, before));
}
