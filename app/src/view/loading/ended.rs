//! The words on a thing with which nothing more is to be done here: it is in its place, has no
//! slot, or is not to be set.

use super::scale::{line, strong};
use super::scene::Scene;
use super::session::Now;
use super::short;
use super::task::{Block, ReadingState, Task, Unasked, Verified, Work};
use egui::Ui;
use traywright_core::drawing::Ink;
use traywright_core::plan::{Known, LoadItem, misfit};
use traywright_core::sign::{ItemKey, Purpose, Stage};
use traywright_core::wording::begin;

pub(super) fn done_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let ink = theme.fill(Ink::Strong);
    let slot = task.record.lies.as_deref().unwrap_or_default();
    let name = scene.item(task).map_or("", |item| item.name.as_str());
    strong(
        ui,
        scene.text("loading-lies", &[("name", name), ("slot", slot)]),
        scale.big(),
        ink,
    );
    verified_ui(ui, scene, task);
    let (done, all) = scene.session.progress(scene.board);
    let open = |task: &&Task| matches!(scene.session.now(task), Now::Do(_));
    if scene.board.tasks.iter().any(|task| open(&task))
        || scene.session.beside(scene.board).is_some()
    {
        return;
    }
    let mut since = scene.session.set_anew_since(scene.board).peekable();
    if since.peek().is_some() {
        for task in since {
            for words in anew_since(scene, task, "loading-set-back") {
                strong(ui, words, scale.px(50.0), theme.fault());
            }
        }
    } else if done == all && !short::lacks(scene) {
        for words in all_done(scene) {
            strong(ui, words, scale.px(58.0), ink);
        }
        for words in scene.not_approved() {
            strong(ui, words, scale.px(50.0), theme.fault());
        }
    } else {
        strong(
            ui,
            scene.word("loading-rest-short"),
            scale.big(),
            theme.fault(),
        );
        for words in short::all(scene) {
            line(ui, words, scale.text(), ink);
        }
    }
}

/// The words on a drill at a later setting than that of its first use, and the way to set it back.
pub(super) fn anew_since(scene: &Scene<'_>, task: &Task, back: &str) -> Vec<String> {
    let (Some(item), Some(planned)) = (scene.item(task), &task.planned) else {
        return Vec::new();
    };
    let set = |length| scene.formatter.set_length_with_unit(&Known::Is(length));
    let stands = scene.board.stands_now(task.item);
    let stands = stands.and_then(|task| task.planned.as_ref());
    let now = stands.map(|one| set(one.key.setting_mm));
    let now = now.unwrap_or_else(|| scene.word("setting-none"));
    let args = [
        ("name", item.name.as_str()),
        ("slot", &scene.formatter.slot(item)),
        ("now", &now),
        ("first", &set(planned.key.setting_mm)),
        ("number", &(task.item + 1).to_string()),
    ];
    vec![
        scene.text("loading-stands-later", &args),
        scene.text(back, &args),
    ]
}

/// The words that everything is there, and what still comes.
fn all_done(scene: &Scene<'_>) -> Vec<String> {
    let tasks = &scene.board.tasks;
    let sealed = tasks.iter().filter(|task| {
        let is_drill = task.planned.is_some();
        is_drill && task.is_sealed()
    });
    let sealed = sealed.count();
    let on_bench = scene.session.stage == Stage::Bench;
    let second = scene.session.waiting_for_second(scene.board);
    if second > 0 {
        let id = if on_bench {
            "loading-laid-once"
        } else {
            "loading-laid-aloud"
        };
        return vec![scene.counted(id, &[("count", second)], &[])];
    }
    let unread = tasks.iter().filter(|task| task.work == Work::SetOnly);
    let unread = unread.count();
    let mut said = vec![scene.word(match (scene.is_approved(), on_bench) {
        (_, true) if scene.worksheet().demonstration => "loading-all-laid-practice-bench",
        (_, false) if scene.worksheet().demonstration => "loading-all-laid-practice",
        (true, true) => "loading-all-done-bench",
        (true, false) => "loading-all-done",
        (false, true) => "loading-all-laid-bench",
        (false, false) => "loading-all-laid",
    })];
    if on_bench {
        said.push(scene.word("loading-read-again"));
    }
    if unread > 0 {
        let count = &[("count", unread)];
        said.push(scene.counted("loading-all-done-unread", count, &[]));
    }
    if sealed > 0 {
        let count = &[("count", sealed)];
        said.push(scene.counted("loading-all-done-sealed", count, &[]));
    }
    let later = tasks
        .iter()
        .filter(|task| scene.session.now(task) == Now::Later);
    let later = later.count();
    if later > 0 {
        let count = &[("count", later)];
        said.push(scene.counted("loading-all-done-anew", count, &[]));
    }
    said
}

/// The persons who confirmed the setting, or that nobody did.
fn verified_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let words = match (
        &task.record.first,
        &task.record.second,
        task.record.verified,
    ) {
        (
            ReadingState::Confirmed { who: first, .. },
            ReadingState::Confirmed { who: second, .. },
            Verified::Yes,
        ) => {
            let id = match scene.board.purpose {
                Purpose::Patient if !scene.is_approved() => "loading-read-unapproved",
                Purpose::Patient => "loading-verified",
                Purpose::Practice => "loading-practised",
            };
            let args = [("first", first.as_str()), ("second", second.as_str())];
            scene.text(id, &args)
        }
        (_, ReadingState::Confirmed { who: second, .. }, Verified::Yes) => {
            let id = match scene.board.purpose {
                Purpose::Patient if !scene.is_approved() => "loading-aloud-unapproved",
                Purpose::Patient => "loading-read-aloud",
                Purpose::Practice => "loading-aloud-practised",
            };
            scene.text(id, &[("who", second.as_str())])
        }
        (ReadingState::Confirmed { who, .. }, ..) => {
            scene.text("loading-read-once", &[("who", who.as_str())])
        }
        _ if task.is_sealed() => scene.word("loading-sealed"),
        _ if task.work == Work::SetOnly => scene.word("loading-not-readable"),
        _ => return,
    };
    line(ui, words, scale.px(44.0), theme.fill(Ink::Strong));
}

/// The words on a thing that nobody asks for, and how it is set by the record, where it is.
pub(super) fn unasked_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (task, item): (&Task, &LoadItem),
    why: Unasked,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    let id = match why {
        Unasked::TookAPlace => "loading-took-a-place",
        Unasked::StepsOver => "loading-over",
    };
    let words = scene.text(id, &[("name", &*scene.formatter.item(item))]);
    strong(ui, words, scale.big(), theme.fill(Ink::Strong));
    if let Some(was) = &task.record.set_otherwise {
        still_set_ui(ui, scene, task, &was.item);
    }
}

/// How a drill is set still, which is not as it is planned.
pub(super) fn still_set_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, was: &ItemKey) {
    let set = scene.set_to(task, was.setting_mm);
    let id = match was.stop {
        Some(_) => "loading-still-set",
        None => "loading-still-mark",
    };
    let words = scene.text(id, &[("set", &set)]);
    strong(ui, words, scene.scale.big(), scene.theme.fault());
}

/// The words on a thing that fell and has no other of its kind.
pub(super) fn none_left_ui(ui: &mut Ui, scene: &Scene<'_>, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    let words = scene.word("loading-none-left");
    strong(ui, words, scale.px(110.0), theme.fault());
    let args = [("name", &*scene.formatter.item(item))];
    let words = scene.text("loading-none-left-what", &args);
    strong(ui, words, scale.px(50.0), theme.fill(Ink::Strong));
    let words = scene.word("loading-none-left-remedy");
    line(ui, words, scale.text(), theme.fill(Ink::Soft));
}

pub(super) fn no_slot_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    strong(
        ui,
        begin(&scene.formatter.without_slot()),
        scale.big(),
        theme.fault(),
    );
    verified_ui(ui, scene, task);
    line(
        ui,
        scene.word(match scene.document.case().setup.tray {
            Some(_) => "loading-no-slot-remedy",
            None => "remedy-no-tray",
        }),
        scale.text(),
        theme.fill(Ink::Soft),
    );
}

pub(super) fn blocked_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let item = scene.item(task);
    let by_mark = item.is_some_and(LoadItem::is_by_mark);
    let misfit = item.and_then(|item| misfit(item, scene.worksheet()));
    let gauge = scene.document.case().gauge();
    let lacks_constant = gauge.is_some_and(|gauge| gauge.constant_mm.is_none());
    let (why, remedy) = match (task.work, misfit) {
        (Work::Blocked(Block::DoesNotFit), Some(finding)) => {
            let said = scene.formatter.finding(finding);
            (begin(&said.headline), "loading-does-not-fit-remedy")
        }
        (Work::Blocked(Block::NoGaugeFigure), _) if lacks_constant => (
            scene.word("loading-no-gauge-constant"),
            "loading-no-gauge-constant-remedy",
        ),
        (Work::Blocked(Block::NoGaugeFigure), _) => (
            scene.word("loading-no-gauge-figure"),
            "loading-no-gauge-remedy",
        ),
        _ if by_mark => (scene.word("loading-no-mark"), "loading-no-figure-remedy"),
        _ => (scene.word("loading-no-figure"), "loading-no-figure-remedy"),
    };
    strong(
        ui,
        scene.word(if by_mark {
            "loading-do-not-use"
        } else {
            "loading-do-not-set"
        }),
        scale.px(110.0),
        theme.fault(),
    );
    strong(ui, why, scale.px(50.0), theme.fill(Ink::Strong));
    line(ui, scene.word(remedy), scale.text(), theme.fill(Ink::Soft));
}
