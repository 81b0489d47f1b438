//! From the start of a session to a loaded tray.

use super::world::{World, case, mm};
use crate::view::loading::session::{GaugeFell, Input, Now, Phase, Refused, Step};
use crate::view::loading::task::{Block, Seen, Task, Verified, Work};
use traywright_core::kit::SlotKind;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Pass, Piece, Purpose, Stage, Turn};

#[test]
fn a_session_opens_with_stage_person_and_check_piece() {
    let mut world = World::new(case("two-molars", |_| {}));
    assert_eq!(world.session.phase, Phase::Stage);
    assert!(world.take(Input::Digit(1)).is_empty() && world.take(Input::Done).is_empty());
    world.take(Input::Begin(Stage::SterileField, Pass::Setting));
    // The stage is chosen once.
    world.take(Input::Begin(Stage::Bench, Pass::Setting));
    assert_eq!(world.session.stage, Stage::SterileField);
    world.take(Input::Initials(" . ".to_owned()));
    assert!(matches!(
        world.session.entry.refused,
        Some(Refused::Name(_))
    ));
    // No figure is shown before the gauge is sound.
    assert_eq!(world.name("MK"), []);
    assert_eq!(world.session.phase, Phase::Gauge);
    // Two graduations too much: asked back, then recorded, and nothing is loaded before it is right.
    let asked = world.type_in("21.9");
    assert!(matches!(asked[..], [EventKind::GaugeAskedBack { .. }]));
    assert_eq!(
        world.session.entry.refused,
        Some(Refused::GaugeDoubted(mm("21.9")))
    );
    let off = world.type_in("21.9");
    let [EventKind::GaugeChecked { asked_back_mm, .. }] = &off[..] else {
        panic!("{off:?}")
    };
    assert_eq!(*asked_back_mm, [mm("21.9")]);
    assert_eq!(
        world.session.entry.refused,
        Some(Refused::GaugeOff(mm("0.2")))
    );
    assert_eq!(world.session.phase, Phase::Gauge);
    let sound = world.type_in("21.7");
    let (stage, pass) = (Stage::SterileField, Pass::Setting);
    assert_eq!(sound[1..], [EventKind::PassBegun { stage, pass }]);
    assert_eq!(world.session.phase, Phase::Load);
    assert_eq!(world.log.events().len(), 4);
}

/// What drills are locked with and dropped through, open drills, sealed ones, everything else.
#[test]
fn drills_are_set_after_what_they_are_tested_with_and_before_the_sealed_ones() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.guide_is_there();
    let lock_key = |task: &Task| task.thing.entry == "lock-key";
    let mut laid = Vec::new();
    for _ in 0..400 {
        let Now::Do(step) = world.now() else { break };
        let task = world.task();
        if step == Step::Take {
            let part = match task.thing.of {
                SlotKind::Sleeve => 0,
                _ if lock_key(&task) => 0,
                SlotKind::Drill if task.is_sealed() => 2,
                SlotKind::Drill => 1,
                _ => 3,
            };
            laid.push((part, task.item));
        }
        if world.session.way(&task).contains(&Step::Read) && step == Step::Take {
            world.set_and_read();
        } else {
            world.take(Input::Done);
        }
    }
    assert!(laid.is_sorted(), "{laid:?}");
    let parts: Vec<u8> = laid.iter().map(|(part, _)| *part).collect();
    assert!([0, 1, 2, 3].iter().all(|part| parts.contains(part)));
}

/// The guide is asked for on the bench before anything else, and only then the things for the tray; who looks at another
/// thing is asked for it at the end.
#[test]
fn the_guide_is_there_before_the_first_drill_is_dropped_through_it() {
    let begun = |stage| World::loading_at_once(case("two-molars", |_| {}), stage);
    let mut world = begun(Stage::Bench);
    let asked = world.session.asks_first(&world.board()).cloned().unwrap();
    assert!(asked.what.contains("uide"), "{asked:?}");
    assert_eq!(world.session.step(&world.board()), None);
    // The thing behind it is not acted on.
    for input in [Input::Fell, Input::Open, Input::Reset, Input::Enter] {
        assert_eq!(world.take(input), []);
    }
    let said = world.take(Input::Done);
    assert!(matches!(&said[..], [EventKind::Beside { what, .. }] if *what == asked.what));
    assert!(world.session.asks_first(&world.board()).is_none());
    assert!(world.session.step(&world.board()).is_some());
    let mut world = begun(Stage::Bench);
    world.take(Input::Next);
    assert!(world.session.asks_first(&world.board()).is_none());
    let world = begun(Stage::SterileField);
    assert!(world.session.asks_first(&world.board()).is_none());
}

/// Every sleeve that a drill is dropped through is at hand before it, in every invented case, and so is the lock key.
#[test]
fn no_drop_test_comes_before_its_sleeve() {
    for demo in [
        "two-molars",
        "one-premolar",
        "full-arch-upper",
        "fixed-stops",
    ] {
        let world = World::new(case(demo, |_| {}));
        let board = world.board();
        let worksheet = traywright_core::plan::work_out(&world.case);
        let mut seen = Vec::new();
        let mut tested = 0;
        for task in board.tasks.iter().filter(|task| !task.is_anew()) {
            let item = &worksheet.loading[task.item];
            for serves in item.serves.iter().filter(|_| item.kind == SlotKind::Drill) {
                let site = worksheet
                    .sites
                    .iter()
                    .find(|one| Some(&one.id) == serves.site.as_ref());
                let mut steps = site.into_iter().flat_map(|site| &site.steps);
                let step = steps.find(|step| Some(&step.id) == serves.step.as_ref());
                if let Some(sleeve) = step.and_then(|step| step.sleeve.as_ref()) {
                    assert!(
                        seen.contains(&sleeve.to_string()),
                        "{demo} {sleeve} {item:?}"
                    );
                    tested += 1;
                }
            }
            seen.push(task.thing.entry.clone());
        }
        assert!(tested > 0 || demo != "two-molars");
    }
}

/// Things beside the tray are asked for one by one, once the tray is loaded, and recorded.
#[test]
fn what_lies_beside_the_tray_is_asked_for_one_by_one() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.guide_is_there();
    assert!(
        world.session.beside(&world.board()).is_none(),
        "first the tray"
    );
    world.load_all();
    let beside = world.board().beside.into_iter();
    let open = beside.filter(|one| one.seen == Seen::NotYet);
    let wanted: Vec<String> = open.map(|one| one.what).collect();
    // Gauge, head, and the next shorter implants of both sites.
    assert!(wanted.len() > 2, "{wanted:?}");
    for what in &wanted {
        let asked = world.session.beside(&world.board()).cloned().unwrap();
        assert_eq!(&asked.what, what);
        let noted = world.take(Input::Done);
        let there = EventKind::Beside {
            what: asked.what,
            stage: Stage::Bench,
            purpose: traywright_core::sign::Purpose::Patient,
        };
        assert_eq!(noted, [there]);
    }
    assert!(world.session.beside(&world.board()).is_none());
    assert!(world.take(Input::Done).is_empty());
    // A session that is opened later knows it; at another stage it is asked for again.
    let mut again = World::loading(world.case.clone(), Stage::Bench);
    again.log = world.log.clone();
    again.minute = world.minute;
    let all = |world: &World, seen: Seen| world.board().beside.iter().all(|one| one.seen == seen);
    assert!(all(&again, Seen::There));
    again.session.stage = Stage::SterileField;
    assert!(all(&again, Seen::NotYet));
    // The next day nobody knows.
    again.session.stage = Stage::Bench;
    again.minute += 24 * 60;
    assert!(all(&again, Seen::NotYet));
}

#[test]
fn a_whole_tray_is_loaded_by_two_people_and_every_setting_is_verified() {
    for stage in [Stage::Bench, Stage::SterileField] {
        let mut world = World::loading(case("two-molars", |_| {}), stage);
        world.load_all();
        let once = world.board();
        let open = |task: &&Task| world.session.awaits_second(task);
        let waiting = once.tasks.iter().filter(open).count();
        assert!(waiting > 2);
        assert_eq!(waiting, world.session.waiting_for_second(&once));
        world.read_again();
        assert_eq!(world.session.waiting_for_second(&world.board()), 0);
        let board = world.board();
        let (done, all) = world.session.progress(&board);
        assert_eq!(done, all, "{:?}", world.task());
        assert!(all > 10);
        for task in &board.tasks {
            assert!(task.lies_right(), "{task:?}");
            let sealed = task.is_sealed();
            let read = task.work == Work::SetAndRead && !sealed;
            assert_eq!(task.record.verified == Verified::Yes, read, "{task:?}");
        }
        let second =
            world.log.events().iter().filter(
                |event| matches!(&event.kind, EventKind::Reading(r) if r.turn == Turn::Second),
            );
        assert!(second.clone().count() > 2);
        for event in second {
            assert_eq!(event.who.as_str(), "JH");
        }
    }
}

#[test]
fn a_demonstration_is_practised_and_counts_for_nothing() {
    let mut world = World::loading(
        case("two-molars", |case| case.demonstration = true),
        Stage::Bench,
    );
    world.go_to_first_set();
    world.set_and_read();
    world.read_again();
    let task = world.task();
    assert_eq!(task.record.verified, Verified::Yes);
    assert_eq!(world.now(), Now::Do(Step::Place));
    world.take(Input::Done);
    let mut said = [0; 3];
    for event in world.log.events() {
        let (kind, purpose) = match &event.kind {
            EventKind::Reading(reading) => (0, Some(reading.purpose)),
            EventKind::Placed { purpose, .. } | EventKind::ThingPlaced { purpose, .. } => {
                (1, *purpose)
            }
            EventKind::GaugeChecked { purpose, .. } => (2, *purpose),
            _ => continue,
        };
        said[kind] += 1;
        assert_eq!(purpose, Some(Purpose::Practice), "{event:?}");
    }
    assert!(said.iter().all(|n| *n > 0), "{said:?}");
}

#[test]
fn a_session_taken_up_again_goes_on_where_the_record_is() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.set();
    let index = world.session.at;
    let later = |world: &World| {
        let mut again = World::loading(world.case.clone(), Stage::Bench);
        again.log = world.log.clone();
        again.take(Input::Go(index));
        again
    };
    // It was set, locked and tugged: at the bench and in the sterile field it is only read.
    let mut again = later(&world);
    assert_eq!(again.now(), Now::Do(Step::Read));
    again.session.stage = Stage::SterileField;
    assert_eq!(again.now(), Now::Do(Step::Read));
    let figure = world.figure().to_string();
    world.type_in(&figure);
    assert_eq!(later(&world).now(), Now::Do(Step::Place));
}

#[test]
fn a_sealed_drill_is_laid_as_it_is_until_it_is_opened() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let board = world.board();
    let sealed = board
        .tasks
        .iter()
        .find(|task| task.thing.of == SlotKind::Drill && task.is_sealed());
    let index = sealed.unwrap().index;
    world.take(Input::Go(index));
    world.take(Input::Done);
    let laid = world.take(Input::Done);
    assert!(
        matches!(&laid[..], [EventKind::ThingPlaced { slot: Some(_), .. }]),
        "{laid:?}"
    );
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Done);
    let off = world.take(Input::Open);
    assert!(
        matches!(
            &off[..],
            [
                EventKind::Opened { .. },
                EventKind::ThingPlaced { slot: None, .. }
            ]
        ),
        "{off:?}"
    );
    // Whoever goes on later finds it opened.
    let mut again = World::loading(world.case.clone(), Stage::Bench);
    again.log = world.log.clone();
    again.take(Input::Go(index));
    assert!(!again.task().is_sealed());
    world.set_and_read();
    let placed = world.take(Input::Done);
    assert!(
        matches!(&placed[..], [EventKind::Placed { .. }]),
        "{placed:?}"
    );
}

#[test]
fn a_fall_takes_it_off_the_tray_and_everything_is_done_again() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    let index = world.session.at;
    world.set_and_read();
    world.take(Input::Done);
    world.take(Input::Go(index));
    assert_eq!(world.now(), Now::Done);
    let fell = world.take(Input::Fell);
    assert!(matches!(
        &fell[0],
        EventKind::Dropped {
            piece: Piece::Drill(_),
            purpose: Some(Purpose::Patient),
        }
    ));
    assert_eq!(world.now(), Now::Do(Step::Take));
    assert_eq!(world.task().record.lies, None);
}

#[test]
fn a_gauge_that_fell_is_checked_before_a_reading_counts() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.set();
    world.take(Input::Gauge(GaugeFell::Yes));
    assert_eq!(world.session.phase, Phase::Gauge);
    world.type_in("21.7");
    assert_eq!(world.now(), Now::Do(Step::Read));
    let figure = world.figure().to_string();
    world.type_in(&figure);
    assert_eq!(world.now(), Now::Do(Step::Place));
}

#[test]
fn where_the_gauge_face_is_not_known_nothing_is_set() {
    let without_face = case("upper-face-gauge", |case| {
        for gauge in &mut case.kit.gauges {
            gauge.reads = None;
        }
    });
    let world = World::loading(without_face, Stage::Bench);
    let board = world.board();
    let blocked: Vec<_> = board
        .tasks
        .iter()
        .filter(|task| task.work == Work::Blocked(Block::NoGaugeFigure))
        .collect();
    assert!(!blocked.is_empty());
    for task in blocked {
        // A sealed one may be laid as it is.
        let sealed = task.is_sealed();
        assert_eq!(world.session.now(task) == Now::Blocked, !sealed);
    }
}

#[test]
fn without_a_tray_a_drill_is_set_and_read_but_lies_nowhere() {
    let mut world = World::loading(
        case("two-molars", |case| case.setup.tray = None),
        Stage::Bench,
    );
    world.go_to_first_set();
    world.set_and_read();
    assert_eq!(world.now(), Now::NoSlot);
    assert!(world.take(Input::Done).is_empty());
}

#[test]
fn without_a_gauge_no_reading_is_asked_for() {
    let mut world = World::new(case("two-molars", |case| case.setup.gauge = None));
    world.take(Input::Begin(Stage::Bench, Pass::Setting));
    world.name("MK");
    assert_eq!(world.session.phase, Phase::Load);
    let board = world.board();
    for task in &board.tasks {
        assert!(!world.session.way(task).contains(&Step::Read), "{task:?}");
    }
}

/// What has no known setting does not lie on the tray in its wrapping either, as if it were ready.
#[test]
fn a_sealed_drill_without_a_figure_is_not_laid() {
    let unknown = |case: &mut traywright_core::case::Case| case.sites[1].platform_to_sleeve = None;
    let mut world = World::loading(case("two-molars", unknown), Stage::Bench);
    let board = world.board();
    let sealed = board.tasks.iter().filter(|task| task.is_sealed());
    let blocked = sealed.filter(|task| matches!(task.work, Work::Blocked(Block::NoFigure)));
    let blocked: Vec<&Task> = blocked.collect();
    assert!(!blocked.is_empty());
    for task in blocked {
        assert_eq!(world.session.now(task), Now::Blocked, "{task:?}");
    }
    world.load_all();
    let (done, all) = world.session.progress(&world.board());
    assert!(done < all, "{done} of {all}");
}

/// Found sound in the sterile field, then off by another: whoever goes on checks it again, and what stands of it is
/// by the record, also after a restart.
#[test]
fn a_gauge_that_was_found_off_is_checked_before_anything_else() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::SterileField);
    world.go_to_first_set();
    world.set_and_read();
    world.take(Input::OtherStage);
    world.take(Input::Begin(Stage::SterileField, Pass::Setting));
    world.name("MK");
    assert_eq!(world.session.phase, Phase::Load, "found sound before");
    world.take(Input::OtherStage);
    world.take(Input::Begin(Stage::Bench, Pass::Setting));
    world.name("OW");
    world.type_in("21.4");
    world.type_in("21.4");
    let off = |world: &World| world.board().gauge.unwrap().off;
    assert_eq!(off(&world), Some(Length::from_um(-300)));
    world.session.to_the_start();
    world.take(Input::Begin(Stage::SterileField, Pass::Setting));
    world.name("MK");
    assert_eq!(world.session.phase, Phase::Gauge);
    world.type_in("21.7");
    assert_eq!(off(&world), None);
    assert_eq!(world.session.phase, Phase::Load);
}

/// Found off, and then what the gauge adds is taken out of the kit: that it was contradicted is told all the same.
#[test]
fn a_gauge_that_was_found_off_is_told_without_its_constant() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.take(Input::OtherStage);
    world.take(Input::Begin(Stage::Bench, Pass::Setting));
    world.name("OW");
    world.type_in("21.4");
    world.type_in("21.4");
    assert!(world.board().gauge.unwrap().off.is_some());
    assert_eq!(world.board().contradicted, None);
    world.case = case("two-molars", |case| {
        for gauge in &mut case.kit.gauges {
            gauge.constant_mm = None;
        }
    });
    let board = world.board();
    assert!(board.gauge.is_none());
    assert!(board.contradicted.is_some());
}

/// A figure asked back of a patient's gauge: what is practised on it takes no doubt away, a patient's check does.
#[test]
fn a_check_in_practice_leaves_the_doubt_of_a_patient() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    let piece_mm = mm("21.7");
    let open = |world: &World| world.board().gauge.unwrap().asked_back.len();
    let asked = |value: &str, purpose: Purpose| EventKind::GaugeAskedBack {
        gauge: "gauge".to_owned(),
        piece_mm,
        value_mm: mm(value),
        purpose,
    };
    let checked = |purpose: Purpose| EventKind::GaugeChecked {
        gauge: "gauge".to_owned(),
        piece_mm,
        value_mm: piece_mm,
        asked_back_mm: Vec::new(),
        purpose: Some(purpose),
    };
    let gauge = world.board().gauge.unwrap().id;
    let named = |mut kind: EventKind| {
        match &mut kind {
            EventKind::GaugeAskedBack { gauge: of, .. }
            | EventKind::GaugeChecked { gauge: of, .. } => {
                of.clone_from(&gauge);
            }
            _ => {}
        }
        kind
    };
    world.record([named(asked("21.4", Purpose::Patient))]);
    world.record([named(checked(Purpose::Practice))]);
    assert_eq!(open(&world), 1);
    // What was asked back in practice is settled there.
    world.record([named(asked("21.5", Purpose::Practice))]);
    assert_eq!(open(&world), 2);
    world.record([named(checked(Purpose::Practice))]);
    assert_eq!(open(&world), 1);
    world.record([named(checked(Purpose::Patient))]);
    assert_eq!(open(&world), 0);
}
