//! What is seen, how large, in both windows.

use super::room::Room;
use super::tray::load;
use egui::accesskit::Role;
use egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use traywright_core::surgery::{State, Work, day};

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

/// Every guided stop that comes off with the guide is whole in sight, on one line, in both windows.
#[test]
fn every_stop_that_comes_off_with_the_guide_is_in_sight() {
    for demo in ["two-molars", "full-arch-upper"] {
        for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
            let mut room = Room::with(demo, size, |_| {}, load);
            room.begin("KE");
            room.until("Take the guide off");
            let stops = room.of_due(|step| match &step.work {
                Work::GuideOff { stops } => stops.clone(),
                work => panic!("{work:?}"),
            });
            assert!(stops.len() > 5, "{demo}: {}", stops.len());
            let window = room.hand.harness.ctx.content_rect();
            let foot = room
                .hand
                .harness
                .query_all_by(|node| node.role() == Role::Button);
            let foot = foot
                .map(|node| node.rect().top())
                .fold(window.bottom(), f32::min);
            for stop in stops {
                let slot = format!("slot {}", stop.slot.expect("a slot"));
                let told = |node: &egui_kittest::Node<'_>| {
                    let node = node.accesskit_node();
                    let text = node.value().or_else(|| node.label());
                    text.is_some_and(|text| text.ends_with(&slot))
                };
                let mut lines = room.hand.harness.query_all_by(|_| true).filter(told);
                let is_seen = lines.any(|node| {
                    let rect = node.rect();
                    window.contains_rect(rect) && rect.bottom() <= foot
                });
                assert!(is_seen, "{demo} at {size:?}: {slot}");
            }
        }
    }
}

/// What an insertion needs is whole in sight down to its torque, in both windows.
#[test]
fn an_insertion_is_in_sight_down_to_its_torque() {
    for demo in ["one-premolar", "two-molars"] {
        for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
            let mut room = Room::with(demo, size, |_| {}, load);
            room.begin("KE");
            room.until("By its carrier, to its line");
            let foot = room
                .hand
                .harness
                .query_all_by(|node| node.role() == Role::Button);
            let foot = foot.map(|node| node.rect().top()).fold(size.y, f32::min);
            let told = |node: &egui_kittest::Node<'_>| {
                let node = node.accesskit_node();
                let text = node.value().or_else(|| node.label());
                text.is_some_and(|text| text.starts_with("Maximum insertion torque"))
            };
            // What follows stands between it and the keys.
            let then = |node: &egui_kittest::Node<'_>| {
                let node = node.accesskit_node();
                let text = node.value().or_else(|| node.label());
                text.is_some_and(|text| text.starts_with("Then: "))
            };
            let all = || room.hand.harness.query_all_by(|_| true);
            let then = all().find(then).map_or(foot, |node| node.rect().top());
            let torque = all().find(told).expect("its torque").rect();
            assert!(
                torque.bottom() <= then,
                "{demo} at {size:?}: {torque:?} {then}"
            );
        }
    }
}

/// The screen on which surgery is begun opens at its top, its field in sight, however much is to be told on it.
#[test]
fn the_begin_screen_opens_at_its_top() {
    let size = vec2(1280.0, 800.0);
    for demo in ["two-molars", "full-arch-upper"] {
        for loaded in [true, false] {
            let before = |file: &std::path::Path| {
                if loaded {
                    load(file);
                    super::tray::replan(file);
                }
            };
            let mut room = Room::with(demo, size, |_| {}, before);
            for _ in 0..4 {
                room.hand.harness.run();
            }
            let window = room.hand.harness.ctx.content_rect();
            let title = room.hand.harness.get_by_label("Begin surgery").rect();
            assert!(
                title.top() > 20.0 && window.contains_rect(title),
                "{demo}: {title:?}"
            );
            let field = room
                .hand
                .harness
                .get_by(|node| {
                    node.role() == Role::TextInput
                        && node.label().is_some_and(|name| name == super::room::WHO)
                })
                .rect();
            assert!(window.contains_rect(field), "{demo}: {field:?}");
        }
    }
}

/// What a hand could take for the drill of a step is whole in sight with it, also where the step is not ready and says why, in both
/// windows.
#[test]
fn a_look_alike_is_in_sight_with_its_step() {
    let mut out = Vec::new();
    for (demo, loaded) in [
        ("two-molars", true),
        ("two-molars", false),
        ("full-arch-upper", false),
    ] {
        for size in [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)] {
            let before = |file: &std::path::Path| {
                if loaded {
                    load(file);
                }
            };
            let mut room = Room::with(demo, size, |_| {}, before);
            room.begin("KE");
            if room.tells("why? Who decided?") {
                room.give("Going on as it is now, why? Who decided?", "only looked at");
            }
            let mut looked = 0;
            for _ in 0..room.due().1 {
                let key = room.step().0;
                let text = |node: &egui_kittest::Node<'_>| {
                    let node = node.accesskit_node();
                    node.value().or_else(|| node.label())
                };
                let foot = room
                    .hand
                    .harness
                    .query_all_by(|node| node.role() == Role::Button);
                let foot = foot.map(|node| node.rect().top()).fold(size.y, f32::min);
                let starts = |node: &egui_kittest::Node<'_>, words: &str| {
                    text(node).is_some_and(|text| text.starts_with(words))
                };
                let all = || room.hand.harness.query_all_by(|_| true);
                let then =
                    all().find(|node| starts(node, "Then: ") || starts(node, "This is the last"));
                let then = then.map_or(foot, |node| node.rect().top());
                let alike = room.of_due(|step| match &step.work {
                    Work::Drill(drilling) => drilling.alike.len().min(2),
                    _ => 0,
                });
                let seen = all().filter(|node| starts(node, "Look-alike: "));
                let mut seen: Vec<_> = seen.map(|node| node.rect()).collect();
                // With why the step is not ready, which is a STOP.
                let stops = all().filter(|node| starts(node, "STOP. "));
                let stops: Vec<_> = stops.map(|node| node.rect()).collect();
                assert_eq!(
                    seen.is_empty(),
                    alike == 0,
                    "{demo} {loaded} at {size:?}: {key:?}"
                );
                if alike > 0 {
                    seen.extend(stops);
                }
                let document = room.hand.program().document().expect("a case");
                let formatter = document.formatter(traywright_core::dentition::Notation::Iso);
                let harms: Vec<String> = room.of_due(|step| match &step.work {
                    Work::Drill(drilling) => {
                        let told = drilling.alike.iter().take(2);
                        let told = told.map(|one| formatter.look_alike(one).harm);
                        told.map(|harm| traywright_core::wording::begin(&harm))
                            .collect()
                    }
                    _ => Vec::new(),
                });
                for harm in harms {
                    let shown = all().filter(|node| text(node).as_ref() == Some(&harm));
                    let shown: Vec<_> = shown.map(|node| node.rect()).collect();
                    assert!(!shown.is_empty(), "{harm}");
                    seen.extend(shown);
                }
                for rect in seen {
                    if rect.bottom() > then {
                        out.push(format!(
                            "{demo} {loaded} at {size:?}: {key:?} {rect:?} {then}"
                        ));
                    }
                    looked += 1;
                }
                room.key(Key::S);
                room.give("Left out, why?", "only looked at");
            }
            assert!(looked > 3, "{demo} {loaded}: {looked}");
        }
    }
    assert!(out.is_empty(), "{out:#?}");
}
