//! A day of surgery by two people, worked by keys: every step, what stops it, and a program that is killed in the middle.

use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};
use traywright::action::View;
use traywright_core::case::{Case, ValidCase, read_case};
use traywright_core::kit::SlotKind;
use traywright_core::plan::{case_jaw, plan_view, with_planned, work_out};
use traywright_core::sign::{
    Approval, EventKind, HandStep, Inserted, InsertionWay, Merged, Piece, Purpose, Reading,
    Sounded, Stage, StepDone, StepKey, ThingKey, ThingKind, Turn, Who, WriterId,
};
use traywright_core::store::{append_event, read_events};
use traywright_core::surgery::{State, Work, day};

const WHO: &str = "Who records? Initials";
const SECOND: &str = "Who counted with you? Initials";

fn now() -> jiff::Timestamp {
    "2026-11-25T08:00:00Z".parse().expect("a time")
}

/// An invented case as a file of its own, changed before it is written.
fn case_in(folder: &Path, demo: &str, change: impl FnOnce(&mut Case)) -> PathBuf {
    let demos = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
    let bytes = std::fs::read(demos.join(format!("{demo}.json"))).expect("a demo");
    let mut case: Case = (*read_case(&bytes).expect("a case")).clone();
    change(&mut case);
    let case = ValidCase::try_from(case).expect("no fault");
    let file = folder.join("case.json");
    let text = serde_json::to_string_pretty(&*case).expect("plain data");
    std::fs::write(&file, text).expect("a file");
    file
}

fn read(file: &Path) -> ValidCase {
    read_case(&std::fs::read(file).expect("a file")).expect("a case")
}

fn record(file: &Path, case: &ValidCase, who: &str, kind: EventKind) {
    let writer = WriterId::new("tray").expect("a name");
    let who = Who::new(who).expect("a name");
    append_event(file, &case_jaw(case), &writer, now(), who, kind).expect("recorded");
}

/// Records every drill of the tray as set, read twice in the sterile field and laid.
fn load(file: &Path) {
    let case = read(file);
    let purpose = case.purpose();
    let worksheet = work_out(&case);
    let none = Merged::of(case_jaw(&case), []).expect("no logs");
    let view = plan_view(&case, &worksheet, &none);
    let gauge = case.gauge().expect("a gauge");
    let piece_mm = gauge.check_piece_mm.expect("a check piece");
    let checked = EventKind::GaugeChecked {
        gauge: gauge.id.to_string(),
        piece_mm,
        value_mm: gauge.shows_of(piece_mm).expect("a figure"),
        asked_back_mm: Vec::new(),
        purpose: Some(purpose),
    };
    record(file, &case, "MK", checked);
    for (item, planned) in with_planned(&worksheet, &view) {
        let Some(planned) = planned else {
            let thing = ThingKey {
                of: item.kind,
                entry: item.entry.clone(),
                copy: NonZeroU32::new(item.copy).expect("from 1"),
            };
            let placed = EventKind::ThingPlaced {
                thing,
                slot: item.slot.as_ref().map(ToString::to_string),
                purpose: Some(purpose),
            };
            record(file, &case, "MK", placed);
            continue;
        };
        let key = || planned.key.clone();
        for step in [HandStep::Set, HandStep::Locked, HandStep::Tugged] {
            let handled = EventKind::Handled {
                item: key(),
                step,
                purpose,
            };
            record(file, &case, "MK", handled);
        }
        if let Some(value_mm) = planned.gauge_figure_mm {
            for (turn, who) in [(Turn::First, "MK"), (Turn::Second, "JH")] {
                let reading = Reading {
                    item: key(),
                    gauge: planned.gauge.clone(),
                    value_mm,
                    stage: Stage::SterileField,
                    turn,
                    purpose,
                    entered_by: None,
                };
                record(file, &case, who, EventKind::Reading(reading));
            }
        }
        let slot = item.slot.as_ref().expect("a slot").to_string();
        let placed = EventKind::Placed {
            item: key(),
            slot,
            purpose: Some(purpose),
        };
        record(file, &case, "MK", placed);
    }
}

/// Approves the case for a patient.
fn approve(file: &Path) {
    let case = read(file);
    let worksheet = work_out(&case);
    let none = Merged::of(case_jaw(&case), []).expect("no logs");
    let view = plan_view(&case, &worksheet, &none);
    let approval = Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: case.revision,
        accepted: view.accepted,
        purpose: Purpose::Patient,
    };
    record(file, &case, "RT", EventKind::Approval(approval));
}

/// At the surgery view of a case.
struct Room {
    hand: Hand,
    file: PathBuf,
}

impl Room {
    fn of(demo: &str) -> Self {
        Self::with(demo, DESK, |_| {}, load)
    }

    fn with(
        demo: &str,
        size: Vec2,
        change: impl FnOnce(&mut Case),
        before: impl FnOnce(&Path),
    ) -> Self {
        let mut hand = Hand::at(size, 1.0);
        let file = case_in(hand.folder.path(), demo, change);
        before(&file);
        hand.harness.state_mut().open(&file);
        hand.wait();
        hand.go(View::Surgery);
        Self { hand, file }
    }

    /// The program died, and is begun anew.
    fn killed(self) -> Self {
        let Self { hand, file } = self;
        let mut hand = hand.again(Some(&file));
        hand.go(View::Surgery);
        Self { hand, file }
    }

    fn told(&self) -> Vec<String> {
        let all = self.hand.harness.query_all_by(|_| true);
        all.flat_map(|node| {
            let node = node.accesskit_node();
            [node.label(), node.value()]
        })
        .flatten()
        .collect()
    }

    fn tells(&self, words: &str) -> bool {
        self.told().iter().any(|text| text.contains(words))
    }

    #[track_caller]
    fn expect(&self, words: &str) {
        assert!(self.tells(words), "no “{words}” among {:#?}", self.told());
    }

    fn key(&mut self, key: Key) {
        self.hand.press(Modifiers::NONE, key);
    }

    fn figure(&mut self, figure: &str) {
        for letter in figure.chars() {
            self.hand.harness.event(Event::Text(letter.to_string()));
            self.hand.harness.run();
        }
    }

    /// Gives a text in the field that is asked for.
    fn give(&mut self, field: &str, text: &str) {
        self.hand.enter(field, text);
        self.hand.click("Enter");
        if self.tells("New here: ") {
            self.hand.click("Enter");
        }
    }

    fn begin(&mut self, who: &str) {
        self.give(WHO, who);
    }

    /// What was recorded of the day.
    fn kinds(&self) -> Vec<EventKind> {
        let case = read(&self.file);
        let beside = read_events(&self.file, &case_jaw(&case)).expect("a record");
        let events = beside.events.in_order().into_iter();
        events.map(|event| event.kind.clone()).collect()
    }

    fn last(&self) -> EventKind {
        self.kinds().pop().expect("an event")
    }

    /// The place of the step that is due, of all.
    fn due(&self) -> (Option<usize>, usize) {
        let document = self.hand.program().document().expect("a case");
        let record = &document.record;
        let day = day(
            document.case(),
            document.worksheet(),
            (&record.view, &record.standing),
        );
        (day.next(), day.steps.len())
    }

    /// What the step that is due is, by its title or its site.
    fn is_due(&self, words: &str) -> bool {
        self.tells(words)
    }

    /// What is due, by its key and what is counted there.
    fn step(&self) -> (StepKey, Vec<u32>) {
        let document = self.hand.program().document().expect("a case");
        let record = &document.record;
        let day = day(
            document.case(),
            document.worksheet(),
            (&record.view, &record.standing),
        );
        let step = &day.steps[day.next().expect("a step is due")];
        let wanted = match &step.work {
            Work::Count(list) => list.iter().map(|line| line.wanted).collect(),
            _ => Vec::new(),
        };
        (step.key.clone(), wanted)
    }

    /// Counts everything as it should be, with JH; the first line otherwise, where that is said.
    fn count(&mut self, first: Option<u32>) {
        let (_, mut wanted) = self.step();
        if let Some(first) = first {
            wanted[0] = first;
        }
        for found in wanted {
            self.figure(&found.to_string());
            self.key(Key::Enter);
        }
    }

    /// Another desk records something, and this one looks at the disk.
    fn elsewhere(&mut self, kind: EventKind) {
        let case = read(&self.file);
        record(&self.file, &case, "RT", kind);
        self.hand.press(Modifiers::COMMAND, View::Surgery.key());
        self.hand.harness.run();
    }

    /// The planned figure of the sounding that is shown.
    fn planned(&self) -> String {
        let document = self.hand.program().document().expect("a case");
        let record = &document.record;
        let day = day(
            document.case(),
            document.worksheet(),
            (&record.view, &record.standing),
        );
        let step = &day.steps[day.next().expect("a step is due")];
        match &step.work {
            traywright_core::surgery::Work::Sound(sounding) => {
                sounding.planned.expect("a figure").to_string()
            }
            work => panic!("{work:?}"),
        }
    }

    /// Goes on through everything that is due, as it should be done, until these words are there.
    fn until(&mut self, words: &str) {
        for _ in 0..200 {
            if self.is_due(words) {
                return;
            }
            let buttons = self.hand.names(Role::Button);
            let has = |name: &str| buttons.iter().any(|one| one == name);
            if self.tells("Count together, aloud.") {
                self.count(None);
                self.give(SECOND, "JH");
            } else if self.tells("What the probe shows") {
                let planned = self.planned();
                self.figure(&planned);
                self.key(Key::Enter);
            } else if has("By its carrier, to its line") {
                self.key(Key::G);
                self.reached("35");
            } else if has("By hand") {
                self.key(Key::H);
                self.reached("30");
            } else {
                assert!(has("Done"), "{words}: {:#?}", self.told());
                self.key(Key::Space);
            }
        }
        panic!("never “{words}”");
    }

    /// Torque and where it stopped: at its depth.
    fn reached(&mut self, torque: &str) {
        self.expect("Torque reached");
        self.figure(torque);
        self.key(Key::Enter);
        self.expect("How far from its planned depth did it stop?");
        self.key(Key::Space);
    }
}

fn drilled(kinds: &[EventKind]) -> usize {
    let drilled = kinds.iter().filter(|kind| {
        let step = kind.step_of_day();
        matches!(kind, EventKind::StepDone(_))
            && matches!(step, Some(traywright_core::sign::StepKey::Drill { .. }))
    });
    drilled.count()
}

/// The whole day on a loaded tray: each step by one key, each written down once; at the end everything is over.
#[test]
fn a_whole_day_is_led_through_and_recorded_step_by_step() {
    let mut room = Room::of("two-molars");
    room.expect("DEMONSTRATION, practice only");
    // All of it lies there: that nothing was sounded yet is no fault of the tray.
    assert!(!room.tells("not ready: "), "{:#?}", room.told());
    room.begin("KE");
    assert!(matches!(room.last(), EventKind::SurgeryBegun(_)));
    room.expect("Count before the first cut");
    room.until("Probe through the seated guide");
    room.until("All steps are over, for practice.");
    room.expect("Every step was done as planned, in its turn.");
    let (due, all) = room.due();
    assert_eq!(due, None);
    let kinds = room.kinds();
    let of_day = kinds.iter().filter(|kind| kind.step_of_day().is_some());
    assert_eq!(of_day.count(), all, "each step is recorded once");
    let document = room.hand.program().document().expect("a case");
    let planned: usize = document
        .worksheet()
        .sites
        .iter()
        .map(|site| site.steps.len())
        .sum();
    assert_eq!(drilled(&kinds), planned);
    // All of it is practice, and says so.
    for kind in kinds.iter().filter(|kind| kind.step_of_day().is_some()) {
        let json = serde_json::to_value(kind).expect("plain data");
        assert_eq!(json["purpose"], "practice");
    }
}

/// Before each drill the screen has all that a hand needs for it.
#[test]
fn a_step_shows_everything_that_a_hand_needs() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    for words in ["In: ", "→ ", "MK ", "JH ", "rpm", "Then: ", "step 5 of "] {
        room.expect(words);
    }
    // What could be taken for it is named.
    room.expect("Look-alike: ");
}

/// The program is killed in the middle: it goes on where it was, with nothing lost and nothing doubled.
#[test]
fn a_killed_program_goes_on_where_it_was() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    room.key(Key::Space);
    let before = (room.due(), room.kinds());
    let mut room = room.killed();
    room.expect("It goes on at step 6 of ");
    assert_eq!((room.due(), room.kinds()), before);
    room.begin("KE");
    // Nothing is begun anew, and nothing recorded by looking.
    assert_eq!(room.kinds(), before.1);
    room.key(Key::Space);
    assert_eq!(room.kinds().len(), before.1.len() + 1);
    room.until("All steps are over, for practice.");
}

/// A probe that shows more than the limit off stops: what is guided there is not ready, whatever is pressed.
#[test]
fn a_sounding_that_is_off_stops() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("Probe through the seated guide");
    let planned: f64 = room.planned().parse().expect("a figure");
    room.figure(&format!("{:.2}", planned + 1.1));
    room.key(Key::Enter);
    room.expect("STOP");
    room.expect("1.1 mm off the plan");
    let at = room.due();
    let kinds = room.kinds().len();
    for key in [Key::Space, Key::A, Key::G, Key::Enter] {
        room.key(key);
    }
    assert_eq!((room.due(), room.kinds().len()), (at, kinds));
    // Sounded again within the limit it goes on.
    room.figure(&format!("{planned:.2}"));
    room.key(Key::Enter);
    assert!(!room.tells("off the plan"));
    assert_eq!(room.due().0, at.0.map(|at| at + 1));
}

/// Left out with a reason, a site that was not sounded says so before each of its drills.
#[test]
fn a_sounding_that_is_left_out_is_told_at_every_drill_of_its_site() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("Probe through the seated guide");
    room.key(Key::S);
    // A reason is words.
    room.give("Left out, why?", " ");
    room.expect("Say why, in words.");
    room.give("Left out, why?", "probe broken, RT decided");
    assert!(matches!(room.last(), EventKind::StepSkipped(_)));
    room.until("STOP. This site was not sounded within its limit.");
    let kinds = room.kinds().len();
    room.key(Key::Space);
    room.expect("It is not ready.");
    assert_eq!(
        room.kinds().len(),
        kinds,
        "a step that is not ready is not done by the way"
    );
    room.key(Key::A);
    room.give(
        "Gone on with all the same, why? Who decided?",
        "RT saw the bone",
    );
    let EventKind::StepDone(done) = room.last() else {
        panic!()
    };
    assert_eq!(done.despite.as_deref(), Some("RT saw the bone"));
}

/// A drill that nobody read is not ready, and its step is not done by one key.
#[test]
fn a_drill_that_was_not_read_is_a_stop() {
    let mut room = Room::with("two-molars", DESK, |_| {}, |_| {});
    room.expect("Nothing is on the tray by the record.");
    room.begin("KE");
    room.until("STOP. It is not verified in the sterile field.");
    let kinds = room.kinds();
    room.key(Key::Space);
    assert_eq!(room.kinds(), kinds);
    // Nothing to do it by stands among the targets.
    assert!(
        !room
            .hand
            .names(Role::Button)
            .iter()
            .any(|name| name == "Done")
    );
}

/// What fell is not ready any more; R leads to the passes of loading, and Esc back.
#[test]
fn a_drill_that_fell_is_read_again_before_it_is_used() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    room.key(Key::F);
    room.expect("What was dropped?");
    room.figure("1");
    let dropped = |kind: &EventKind| matches!(kind, EventKind::Dropped { piece: Piece::Drill(drill), .. } if drill.copy == NonZeroU32::MIN);
    assert!(room.kinds().iter().any(dropped), "{:?}", room.last());
    room.expect("STOP. It is not verified in the sterile field.");
    room.key(Key::R);
    assert_eq!(room.hand.program().view_state().view, View::Loading);
    room.expect("Who sets and reads? Initials");
    room.key(Key::Escape);
    room.key(Key::Escape);
    assert_eq!(room.hand.program().view_state().view, View::Surgery);
}

/// A step ahead is done only by a second press, and is recorded with the one that was due.
#[test]
fn a_step_out_of_turn_is_told_and_recorded() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    let at = room.due().0.expect("due");
    room.key(Key::ArrowRight);
    room.expect("Only looked at. Due is: ");
    let kinds = room.kinds().len();
    room.key(Key::Space);
    room.expect("OUT OF TURN: 1 step before it is open");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::Space);
    let EventKind::StepDone(done) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(done.due.is_some());
    assert_eq!(room.due().0, Some(at), "what was due is due");
    // By mistake: pressed twice, and recorded.
    room.key(Key::ArrowRight);
    room.key(Key::N);
    room.expect("Press N again");
    room.key(Key::N);
    assert!(matches!(room.last(), EventKind::StepTakenBack(_)));
}

/// Begun through its sleeve, an implant is turned to its depth by hand once the guide is off.
#[test]
fn an_insertion_begun_through_the_sleeve_ends_by_hand_after_the_guide_is_off() {
    let mut room = Room::of("one-premolar");
    room.begin("KE");
    room.until("Begun through its sleeve");
    room.expect("By hand: ");
    room.expect("Maximum insertion torque");
    room.key(Key::B);
    let EventKind::Inserted(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!((begun.way, begun.torque_ncm), (InsertionWay::Begun, None));
    room.until("Take the guide off");
    room.key(Key::Space);
    room.expect("Turn it to its depth by hand.");
    room.key(Key::Space);
    room.figure("32");
    room.key(Key::Enter);
    // Half a millimetre coronal of its plan.
    room.figure("0.5");
    room.key(Key::Enter);
    let EventKind::Inserted(ended) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(ended.way, InsertionWay::Ended);
    assert_eq!(
        ended.torque_ncm.map(|one| one.to_string()).as_deref(),
        Some("32")
    );
    assert_eq!(
        ended
            .coronal_of_plan_mm
            .map(|one| one.to_string())
            .as_deref(),
        Some("0.5")
    );
    room.until("All steps are over, for practice.");
}

/// Two people count, and what lacks is a stop until somebody says what became of it.
#[test]
fn a_count_needs_two_people_and_agrees() {
    let mut room = Room::of("one-premolar");
    room.begin("KE");
    room.expect("Count before the first cut");
    // Both count without a figure in sight.
    let (_, wanted) = room.step();
    assert!(wanted.iter().any(|wanted| *wanted > 1));
    for number in wanted {
        assert!(
            !room
                .told()
                .iter()
                .any(|text| text.ends_with(&format!(": {number}")))
        );
    }
    let kinds = room.kinds().len();
    room.key(Key::Space);
    room.expect("Type the number that was counted");
    room.count(Some(0));
    assert_eq!(room.kinds().len(), kinds);
    room.give(SECOND, "K. E.");
    room.expect("Another person counts too");
    room.give(SECOND, "JH");
    room.expect("STOP");
    room.expect("0 instead of 1");
    let at = room.due();
    room.key(Key::A);
    room.give(
        "Gone on with all the same, why? Who decided?",
        "lies on the table",
    );
    assert_ne!(room.due(), at);
}

/// An approval that is withdrawn while surgery goes on stops it, until somebody says why it goes on.
#[test]
fn a_withdrawn_approval_stops() {
    let patient = |case: &mut Case| {
        case.demonstration = false;
        case.kit.demonstration = false;
    };
    let loaded = |file: &Path| {
        approve(file);
        load(file);
    };
    let mut room = Room::with("two-molars", DESK, patient, loaded);
    assert!(!room.tells("No approval of this plan holds."));
    room.begin("KE");
    let case = read(&room.file);
    let withdrawn = EventKind::ApprovalWithdrawn {
        fingerprint: case.fingerprint(),
        reason: "new scan".to_owned(),
    };
    record(&room.file, &case, "RT", withdrawn);
    let mut room = room.killed();
    room.begin("KE");
    room.expect("STOP");
    room.expect("The approval no longer holds.");
    let kinds = room.kinds().len();
    room.key(Key::Space);
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::U);
    room.give("Going on as it is now, why? Who decided?", "RT stands here");
    let EventKind::SurgeryBegun(begun) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert_eq!(begun.despite.as_deref(), Some("RT stands here"));
    room.expect("Count before the first cut");
    room.expect("NOT APPROVED");
}

/// A change of the plan elsewhere stops, says what was done by the other one, and leaves that open in this one.
#[test]
fn a_changed_plan_stops_and_says_what_was_done_by_the_other() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    room.key(Key::Space);
    let mut case: Case = (*read(&room.file)).clone();
    for site in &mut case.sites {
        let distance = site.platform_to_sleeve.as_mut().expect("a distance");
        distance.entered_mm += traywright_core::measure::Length::from_um(500);
    }
    let case = ValidCase::try_from(case).expect("no fault");
    std::fs::write(
        &room.file,
        serde_json::to_string_pretty(&*case).expect("data"),
    )
    .expect("a file");
    let mut room = room.killed();
    room.begin("KE");
    room.expect("STOP");
    room.expect("The plan is another one");
    room.expect("Done: ");
    room.key(Key::Space);
    room.expect("The plan is another one");
}

/// Nothing of what is asked is out of a small window, and every target of a large one is as high as a hand needs.
#[test]
fn every_face_fits_both_windows() {
    for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
        let mut room = Room::with("two-molars", size, |_| {}, load);
        room.begin("KE");
        for words in [
            "Count together, aloud.",
            "Probe through the seated guide",
            "read: ",
            "Take the guide off",
        ] {
            room.until(words);
            let window = room.hand.harness.ctx.content_rect();
            for node in room
                .hand
                .harness
                .query_all_by(|node| node.role() == Role::Button)
            {
                let rect = node.rect();
                assert!(
                    window.expand(1.0).contains_rect(rect),
                    "{words}: {rect:?} at {size:?}"
                );
            }
        }
    }
}

/// A re-set is set, read and read aloud in passes of its own; only then its step is over and the next one ready.
#[test]
fn a_re_set_has_readings_of_its_own() {
    let one_drill = |case: &mut Case| {
        for drill in &mut case.kit.drills {
            if drill.id.as_str() == "tip-257" {
                drill.quantity = 1;
            }
        }
    };
    let mut room = Room::with("two-molars", DESK, one_drill, load);
    room.begin("KE");
    room.until("Re-set it");
    let at = room.due();
    room.key(Key::Space);
    assert_eq!(room.hand.program().view_state().view, View::Loading);
    room.give("Who sets and reads? Initials", "MK");
    room.figure("21,7");
    room.key(Key::Enter);
    // It is led to the drill that is set anew.
    room.expect("Not now: in surgery");
    room.key(Key::O);
    room.key(Key::O);
    for _ in 0..4 {
        room.key(Key::Space);
    }
    room.figure("19.1");
    room.key(Key::Enter);
    room.key(Key::Space);
    // Read once it is not verified: surgery does not go on with it.
    let back = |room: &mut Room| {
        for _ in 0..4 {
            if room.hand.program().view_state().view == View::Surgery {
                return;
            }
            room.key(Key::Escape);
        }
        panic!("no way back: {:#?}", room.told());
    };
    back(&mut room);
    assert_eq!(room.due(), at);
    room.key(Key::R);
    room.key(Key::Escape);
    room.key(Key::C);
    room.give("Who reads the gauge aloud? Initials", "JH");
    room.give("Who enters what is read aloud? Initials", "KE");
    room.figure("19.1");
    room.key(Key::Enter);
    back(&mut room);
    assert_eq!(room.due().0, at.0.map(|at| at + 1));
    room.expect("read: MK 19.1, JH 19.1");
    room.until("All steps are over, for practice.");
}

/// What is asked at a step when something stops is asked no more, and nothing of it is recorded.
#[test]
fn a_stop_takes_what_is_being_asked() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    room.key(Key::F);
    room.expect("What was dropped?");
    let kinds = room.kinds().len();
    let gone = room.file.with_extension("gone");
    std::fs::rename(&room.file, &gone).expect("moved");
    // The window looks at the disk as a view is asked for.
    room.hand.press(Modifiers::COMMAND, View::Surgery.key());
    room.expect("STOP");
    room.figure("1");
    std::fs::rename(&gone, &room.file).expect("moved back");
    assert_eq!(room.kinds().len(), kinds);
    room.hand.press(Modifiers::COMMAND, View::Surgery.key());
    assert!(!room.tells("What was dropped?"));
    room.expect("read: ");
}

/// The next shorter implant on the table: worked out at once, told before it is saved, and gone on with by who decided.
#[test]
fn a_shorter_implant_on_the_table_is_worked_out_at_once() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
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
    room.hand.harness.run();
    room.expect("The plan has changes that are not saved.");
    // What lies wrong by it is told before it is saved.
    room.expect("The plan is another one");
    room.expect("now planned at");
    let kinds = room.kinds();
    room.key(Key::Space);
    assert_eq!(room.kinds(), kinds);
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
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
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
        let site = kind
            .step_of_day()
            .and_then(traywright_core::sign::StepKey::site);
        assert_eq!(
            site.map(|site| site.tooth.to_string()).as_deref(),
            Some("46")
        );
    }
    room.until("All steps are over, for practice.");
    room.expect("Left out: ");
}

/// The setting of each drill, and the words of each sounding, are whole in sight without scrolling, in both windows and in
/// every invented case.
#[test]
fn the_setting_is_whole_in_sight_at_every_step() {
    for (demo, size) in [
        ("two-molars", vec2(1280.0, 800.0)),
        ("full-arch-upper", vec2(1920.0, 1080.0)),
    ] {
        let mut room = Room::with(demo, size, |_| {}, load);
        room.begin("KE");
        let mut looked = 0;
        let all = room.due().1;
        for _ in 0..all {
            let shown = room.hand.program().document().and_then(|document| {
                let record = &document.record;
                let day = day(
                    document.case(),
                    document.worksheet(),
                    (&record.view, &record.standing),
                );
                let step = &day.steps[day.next()?];
                let drill = step.drill()?;
                let set = drill.planned?.gauge_figure_mm?;
                Some((format!("{:?}", step.key), set.to_string()))
            });
            if let Some((key, set)) = shown {
                let sites = room.hand.harness.query_all_by_label(&set);
                let window = room.hand.harness.ctx.content_rect();
                let foot = room
                    .hand
                    .harness
                    .query_all_by(|node| node.role() == Role::Button);
                let foot = foot
                    .map(|node| node.rect().top())
                    .fold(window.bottom(), f32::min);
                let seen = sites
                    .map(|node| node.rect())
                    .any(|rect| window.contains_rect(rect) && rect.bottom() <= foot);
                assert!(seen, "{demo} at {size:?}: {set} of {key}");
                looked += 1;
            }
            // On to the next, whatever it is.
            room.key(Key::S);
            room.give("Left out, why?", "only looked at");
        }
        assert!(looked > 3, "{demo}");
    }
}

/// The figure that a hand acts on has figures of 0.0064 of two metres: 12.8 mm, 48 points of capital height at 96 dpi
/// (design notes, section 5; common practice, no source).
#[test]
fn the_setting_is_read_from_two_metres() {
    let mut room = Room::with("two-molars", vec2(1920.0, 1080.0), |_| {}, load);
    room.begin("KE");
    room.until("read: ");
    let document = room.hand.program().document().expect("a case");
    let record = &document.record;
    let day = day(
        document.case(),
        document.worksheet(),
        (&record.view, &record.standing),
    );
    let step = &day.steps[day.next().expect("due")];
    let set = step
        .drill()
        .and_then(|drill| drill.planned)
        .expect("a setting");
    let set = set.key.setting_mm.to_string();
    let shown = room.hand.harness.get_by_label(&set).rect();
    // Inter's capitals are 0.727 of its size, a line about 1.21 of it.
    assert!(shown.height() / 1.21 * 0.727 >= 100.0, "{shown:?}");
    assert!(matches!(step.state, State::Open));
}

/// What is asked at a step is of that step alone: once another desk recorded it, the answer is written for no other one.
#[test]
fn a_question_does_not_outlive_its_step() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("By its carrier, to its line");
    let (step, _) = room.step();
    room.key(Key::G);
    room.figure("35");
    room.key(Key::Enter);
    room.expect("How far from its planned depth did it stop?");
    room.elsewhere(EventKind::Inserted(Inserted {
        step: step.clone(),
        way: InsertionWay::Guided,
        torque_ncm: None,
        coronal_of_plan_mm: None,
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    }));
    assert!(!room.tells("How far from its planned depth did it stop?"));
    room.expect("The step changed meanwhile");
    let others = |room: &Room| {
        let kinds = room.kinds().into_iter();
        kinds
            .filter(|kind| matches!(kind, EventKind::Inserted(one) if one.step != step))
            .count()
    };
    assert_eq!(others(&room), 0);
    room.key(Key::Space);
    assert_eq!(others(&room), 0, "{:?}", room.last());
}

/// Nor does a reason, nor a figure that is typed.
#[test]
fn a_reason_and_a_typed_figure_do_not_outlive_their_step() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("Probe through the seated guide");
    let (step, _) = room.step();
    let StepKey::Sound { planned_mm, .. } = &step else {
        panic!("{step:?}")
    };
    room.figure("7.4");
    room.elsewhere(EventKind::Sounded(Sounded {
        step: step.clone(),
        found_mm: planned_mm.expect("a figure"),
        due: None,
        purpose: Purpose::Practice,
    }));
    room.expect("The step changed meanwhile");
    let kinds = room.kinds().len();
    room.key(Key::Enter);
    assert_eq!(room.kinds().len(), kinds, "{:?}", room.last());
    room.until("read: ");
    let (step, _) = room.step();
    room.key(Key::S);
    room.expect("Left out, why?");
    room.elsewhere(EventKind::StepDone(StepDone {
        step,
        piece: None,
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    }));
    assert!(!room.tells("Left out, why?"));
    room.expect("The step changed meanwhile");
}

/// Two desks recorded the same step: that is told, and taken back as a whole.
#[test]
fn a_step_that_two_desks_recorded_is_taken_back_as_a_whole() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    let (step, _) = room.step();
    room.key(Key::Space);
    room.elsewhere(EventKind::StepDone(StepDone {
        step: step.clone(),
        piece: None,
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    }));
    room.key(Key::ArrowLeft);
    room.expect("Recorded 2 times: ");
    room.key(Key::N);
    room.key(Key::N);
    assert_eq!(room.step().0, step);
}

/// After guide off a guided drill is a stop: no sleeve goes in, and nothing records it.
#[test]
fn after_guide_off_a_guided_drill_is_a_stop() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    room.expect("In: ");
    room.elsewhere(EventKind::StepDone(StepDone {
        step: StepKey::GuideOff {},
        piece: None,
        due: None,
        despite: None,
        purpose: Purpose::Practice,
    }));
    room.expect("STOP. The guide is off: a guided stop would go deeper without it.");
    assert!(!room.tells("In: "), "{:#?}", room.told());
    let kinds = room.kinds().len();
    for key in [Key::Space, Key::A, Key::Space] {
        room.key(key);
    }
    assert_eq!(room.kinds().len(), kinds);
    assert!(!room.tells("why? Who decided?"));
}

/// A sleeve that fell is a stop as a drill is, and is named before surgery.
#[test]
fn a_sleeve_that_fell_is_a_stop() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("read: ");
    let (StepKey::Drill { sleeve, .. }, _) = room.step() else {
        panic!()
    };
    room.elsewhere(EventKind::Dropped {
        piece: Piece::Thing(ThingKind {
            of: SlotKind::Sleeve,
            entry: sleeve.expect("through a drill sleeve"),
        }),
        purpose: Some(Purpose::Practice),
    });
    room.expect("it was dropped, and none was placed since");
    let kinds = room.kinds().len();
    room.key(Key::Space);
    assert_eq!(room.kinds().len(), kinds);
    let room = room.killed();
    room.expect("a drill or thing that is not ready: ");
}

/// A torque above the kit's limit and a depth far off the plan are asked again, recorded as such and told at the end.
#[test]
fn what_an_implant_reached_off_its_limits_is_asked_again() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    room.until("By its carrier, to its line");
    room.key(Key::G);
    room.figure("150");
    room.key(Key::Enter);
    room.expect("STOP. ABOVE ITS LIMIT: 150 N·cm");
    room.expect("Torque reached");
    room.key(Key::Enter);
    room.expect("How far from its planned depth did it stop?");
    let kinds = room.kinds().len();
    room.figure("4");
    room.key(Key::D);
    room.expect("STOP. OFF ITS PLAN: 4.0 mm apical");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::D);
    assert!(matches!(room.last(), EventKind::Inserted(_)));
    room.key(Key::ArrowLeft);
    room.expect("ABOVE ITS LIMIT: 150 N·cm");
    room.expect("OFF ITS PLAN: 4.0 mm apical");
    room.key(Key::Home);
    room.until("All steps are over, for practice.");
    room.expect("ABOVE ITS LIMIT: 150 N·cm");
    assert!(!room.tells("Every step was done as planned"));
}

/// At the stop of a sounding what is typed next is in sight, in both windows.
#[test]
fn what_is_typed_at_the_stop_of_a_sounding_is_in_sight() {
    for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
        let mut room = Room::with("two-molars", size, |_| {}, load);
        room.begin("KE");
        room.until("Probe through the seated guide");
        room.figure("15");
        room.key(Key::Enter);
        room.expect("off the plan");
        room.figure("7");
        let buttons = room
            .hand
            .harness
            .query_all_by(|node| node.role() == Role::Button);
        let done =
            buttons.filter(|node| node.accesskit_node().label().as_deref() == Some("Leave out"));
        let foot = done.map(|node| node.rect().top()).fold(size.y, f32::min);
        let typed = room.hand.harness.query_all_by(|node| {
            node.role() == Role::TextInput && node.value().as_deref() == Some("7")
        });
        let rects: Vec<_> = typed.map(|node| node.rect()).collect();
        assert_eq!(rects.len(), 1);
        assert!(rects[0].bottom() <= foot, "{rects:?} {foot} at {size:?}");
    }
}

/// A sounding out of turn is asked twice too, and a step ahead of an open barrier says that it waits.
#[test]
fn a_sounding_out_of_turn_is_asked_twice_and_steps_ahead_wait() {
    let mut room = Room::of("two-molars");
    room.begin("KE");
    for _ in 0..4 {
        room.key(Key::ArrowRight);
    }
    room.expect("Not yet");
    room.expect("First: count before the first cut");
    room.key(Key::Home);
    room.until("Probe through the seated guide");
    room.key(Key::ArrowRight);
    let kinds = room.kinds().len();
    room.figure("3");
    room.key(Key::Enter);
    room.expect("OUT OF TURN: 1 step before it is open");
    assert_eq!(room.kinds().len(), kinds);
    room.key(Key::Enter);
    let EventKind::Sounded(sounded) = room.last() else {
        panic!("{:?}", room.last())
    };
    assert!(sounded.due.is_some());
}

/// Nor is a step ahead done for a reason by one press.
#[test]
fn a_reason_out_of_turn_is_asked_twice() {
    let mut room = Room::with("two-molars", DESK, |_| {}, |_| {});
    room.begin("KE");
    for _ in 0..4 {
        room.key(Key::ArrowRight);
    }
    room.expect("STOP. ");
    room.key(Key::A);
    room.expect("OUT OF TURN: 4 steps before it are open");
    assert!(!room.tells("Gone on with all the same, why? Who decided?"));
    room.key(Key::A);
    room.expect("Gone on with all the same, why? Who decided?");
}

/// A gauge that was found off is named before surgery, with what it makes not ready.
#[test]
fn a_gauge_that_was_found_off_is_told_before_surgery() {
    let room = Room::with(
        "two-molars",
        DESK,
        |_| {},
        |file| {
            load(file);
            let case = read(file);
            let gauge = case.gauge().expect("a gauge");
            let piece_mm = gauge.check_piece_mm.expect("a check piece");
            let shows = gauge.shows_of(piece_mm).expect("a figure");
            let value_mm = shows + traywright_core::measure::Length::from_um(500);
            let off = EventKind::GaugeChecked {
                gauge: gauge.id.to_string(),
                piece_mm,
                value_mm,
                asked_back_mm: vec![value_mm],
                purpose: Some(case.purpose()),
            };
            record(file, &case, "MK", off);
        },
    );
    room.expect("The gauge was found off by 0.5 mm");
    room.expect("steps have a drill or thing that is not ready: ");
}
