//! A barrier: it takes the whole screen, and nobody goes on past it by the way.

use super::keys::Pressed;
use super::scene::Scene;
use super::step::{done_otherwise, not_ready, told};
use crate::view::loading::reading::{figure_box, keypad};
use crate::view::loading::scale::{line, strong};
use egui::Ui;
use traywright_core::drawing::Ink;
use traywright_core::plan::Operation;
use traywright_core::sign::{EventKind, Piece};
use traywright_core::surgery::{CountWanted, DayStep, GuidedStop, NotReady, Sounding, State, Work};
use traywright_core::wording::{begin, mm};

/// The columns in which guided stops are listed as the guide comes off.
const STOP_COLUMNS: usize = 2;
/// So many in each may be larger.
const FEW_STOPS: usize = 6;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, step: &DayStep<'_>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    // What has much beneath it, all of it to be in sight, has a smaller title.
    let of_title = match step.work {
        Work::GuideOff { .. } => 56.0,
        _ => 80.0,
    };
    strong(ui, title(scene, step), scale.px(of_title), scene.ink());
    if !scene.is_due() {
        let due = scene.day.next().and_then(|at| scene.day.steps.get(at));
        let words = match due {
            Some(due) => {
                let due = scene.formatter.day_step(&due.key);
                scene.text("surgery-looked-at", &[("due", &due)])
            }
            None => scene.word("surgery-looked-at-over"),
        };
        strong(ui, words, scale.px(40.0), theme.fault());
    }
    told(ui, scene, step);
    done_otherwise(ui, scene, step);
    // Nothing is said of how to do what is not to be done now.
    if step.not_ready.contains(&NotReady::GuideFell) && !step.state.is_over() {
        not_ready(ui, scene, step);
        return;
    }
    match &step.work {
        Work::Sound(sounding) => sound(ui, scene, (step, sounding), out),
        Work::Count(wanted) => count(ui, scene, (step, wanted), out),
        Work::GuideOff { stops } => guide_off(ui, scene, stops),
        Work::Look { site, .. } => {
            let words = begin(&scene.formatter.site(&site.id));
            strong(ui, words, scale.big(), scene.ink());
            line(
                ui,
                scene.word("surgery-look-how"),
                scale.px(44.0),
                scene.ink(),
            );
        }
        Work::Punch(_) | Work::Reseat | Work::Seat => {
            for words in how(scene, step) {
                strong(ui, words, scale.px(54.0), scene.ink());
            }
        }
        _ => {}
    }
}

fn title(scene: &Scene<'_>, step: &DayStep<'_>) -> String {
    match &step.work {
        Work::Look { what, .. } => begin(what.as_str()),
        Work::Sound(sounding) => {
            let site = begin(&scene.formatter.site(&sounding.site.id));
            scene.text("surgery-title-sound", &[("site", &site)])
        }
        _ => begin(&scene.formatter.day_step(&step.key)),
    }
}

/// The order's own words on it.
fn how(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<String> {
    let order = scene.worksheet().order.iter();
    let words = |one: &Operation| scene.formatter.use_line(one, scene.worksheet());
    match &step.work {
        Work::Punch(_) => {
            let one = order
                .clone()
                .find(|one| matches!(one, Operation::Punch { .. }));
            one.map(words).into_iter().collect()
        }
        Work::Reseat => {
            let one = order.clone().find(|one| matches!(one, Operation::Reseat));
            one.map(words).into_iter().collect()
        }
        _ => vec![scene.word("use-seat")],
    }
}

fn sound(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (step, sounding): (&DayStep<'_>, &Sounding<'_>),
    out: &mut Vec<Pressed>,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    not_ready(ui, scene, step);
    if step.state.is_over() {
        return;
    }
    ui.horizontal_top(|ui| {
        let width = ui.available_width() - scale.px(700.0);
        ui.vertical(|ui| {
            ui.set_width(width);
            if let State::Off(one, by) = step.state {
                strong(
                    ui,
                    scene.word("loading-stop"),
                    scale.px(120.0),
                    theme.fault(),
                );
                let found = match &one.kind {
                    EventKind::Sounded(sounded) => mm(sounded.found_mm),
                    _ => String::new(),
                };
                let by = mm(by.abs());
                let args = [("found", &*found), ("by", &*by), ("who", one.who.as_str())];
                strong(
                    ui,
                    scene.text("surgery-sound-off", &args),
                    scale.px(50.0),
                    theme.fault(),
                );
                probe_ui(ui, scene);
                for id in ["surgery-sound-why", "surgery-sound-again"] {
                    line(ui, scene.word(id), scale.px(40.0), scene.ink());
                }
            } else {
                strong(
                    ui,
                    scene.word("surgery-sound-how"),
                    scale.px(54.0),
                    scene.ink(),
                );
            }
            let planned = scene.formatter.length_or_none(sounding.planned);
            strong(ui, planned, scale.px(110.0), scene.ink());
            if let Some(limit) = sounding.limit {
                let words = scene.text("surgery-sound-limit", &[("limit", &mm(limit))]);
                line(ui, words, scale.px(40.0), scene.soft());
            }
            if !matches!(step.state, State::Off(..)) {
                probe_ui(ui, scene);
            }
        });
        ui.vertical(|ui| keys_ui(ui, scene, out));
    });
}

/// What the probe shows, as it is typed.
fn probe_ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    ui.add_space(scale.px(12.0));
    let names = [scene.word("surgery-probe-shows"), scene.word("loading-mm")];
    let typed = scene.doing.entry.typed.as_str();
    line(ui, &names[0], scale.px(40.0), scene.ink());
    figure_box(ui, scene.brush(), (&names[0], &names[1]), typed);
    if scene.doing.entry.refused.is_some() {
        strong(
            ui,
            scene.word("surgery-no-length"),
            scale.px(40.0),
            theme.fault(),
        );
    }
}

/// The keypad.
pub(super) fn keys_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    use crate::view::loading::keys::Pressed as Key;
    use crate::view::loading::session::Input;
    let mut pressed = Vec::new();
    keypad(ui, scene.brush(), scene.scale.px(640.0), &mut pressed);
    out.extend(pressed.into_iter().filter_map(|one| match one {
        Key::Input(Input::Digit(digit)) => Some(Pressed::Digit(digit)),
        Key::Input(Input::Mark) => Some(Pressed::Mark),
        Key::Input(Input::Back) => Some(Pressed::Rub),
        Key::Input(Input::Enter) => Some(Pressed::Enter),
        _ => None,
    }));
}

/// A count: what did not agree, the list, and the keypad.
fn count(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (step, wanted): (&DayStep<'_>, &[CountWanted]),
    out: &mut Vec<Pressed>,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    if step.state.is_over() {
        return;
    }
    if let State::Amiss(one) = step.state
        && !scene.counts()
    {
        strong(
            ui,
            scene.word("loading-stop"),
            scale.px(120.0),
            theme.fault(),
        );
        if let EventKind::Counted(counted) = &one.kind {
            for line in counted.amiss() {
                let words = begin(&scene.formatter.amiss(line));
                strong(ui, words, scale.px(54.0), theme.fault());
            }
        }
        line(
            ui,
            scene.word("surgery-count-search"),
            scale.px(44.0),
            scene.ink(),
        );
        return;
    }
    if step.fell_since {
        let words = scene.word("surgery-count-fell-since");
        strong(ui, words, scale.px(44.0), theme.fault());
    }
    ui.horizontal_top(|ui| {
        let width = ui.available_width() - scale.px(700.0);
        ui.vertical(|ui| {
            ui.set_width(width);
            let words = scene.word("surgery-count-how");
            line(ui, words, scale.px(36.0), scene.ink());
            ui.add_space(scale.px(6.0));
            lines(ui, scene, wanted);
        });
        ui.vertical(|ui| keys_ui(ui, scene, out));
    });
}

/// The lines of a count, the one that is due marked; what was counted so far, and nothing of what it should be.
fn lines(ui: &mut Ui, scene: &Scene<'_>, wanted: &[CountWanted]) {
    let (scale, theme) = (scene.scale, scene.theme);
    let counted = &scene.doing.counted;
    let half = wanted.len().div_ceil(2);
    ui.columns(2, |columns| {
        for (column, lines) in columns.iter_mut().zip(wanted.chunks(half.max(1))) {
            let first = if std::ptr::eq(lines.as_ptr(), wanted.as_ptr()) {
                0
            } else {
                half
            };
            unjustified(column, |column| {
                for (at, one) in lines.iter().enumerate() {
                    let at = first + at;
                    let name = scene.formatter.counted_kind(&one.kind);
                    let words = if let Some(found) = counted.get(at) {
                        let counts = &[("found", *found)];
                        scene.counted("surgery-count-found", counts, &[("what", &name)])
                    } else {
                        name
                    };
                    let (size, ink) = if at == counted.len() {
                        (scale.px(54.0), theme.fill(Ink::Accent))
                    } else {
                        (scale.px(40.0), scene.ink())
                    };
                    strong(column, begin(&words), size, ink);
                }
            });
        }
    });
    let typed = scene.doing.entry.typed.as_str();
    if !typed.is_empty() {
        let words = scene.text("surgery-count-typed", &[("typed", typed)]);
        strong(ui, words, scale.px(60.0), theme.fill(Ink::Accent));
    }
}

/// The lines of a column as wide as their words: a column alone would draw their letters apart to its whole width.
fn unjustified(column: &mut Ui, lines: impl FnOnce(&mut Ui)) {
    column.vertical(lines);
}

/// Guide off: what is still in the guide, and every guided stop.
fn guide_off(ui: &mut Ui, scene: &Scene<'_>, stops: &[GuidedStop]) {
    let (scale, theme) = (scene.scale, scene.theme);
    let held = &scene.day.held;
    if !held.carriers.is_empty() {
        let sites = held.carriers.iter().map(|site| scene.formatter.site(site));
        let sites = sites.collect::<Vec<_>>().join("; ");
        let words = scene.text("surgery-carrier-in", &[("site", &sites)]);
        strong(ui, words, scale.px(42.0), theme.fault());
    }
    if !held.pins.is_empty() {
        let pins: Vec<&str> = held.pins.iter().map(String::as_str).collect();
        let words = scene.text("surgery-pins-in", &[("pins", &pins.join(", "))]);
        strong(ui, words, scale.px(42.0), theme.fault());
    }
    if !held.sleeves.is_empty() {
        let sleeves = held.sleeves.iter().map(|(site, sleeve)| {
            let args = [
                ("site", &*scene.formatter.site(site)),
                ("sleeve", &*scene.formatter.drill_sleeve(sleeve)),
            ];
            scene.text("surgery-sleeve-held", &args)
        });
        let words = sleeves.collect::<Vec<_>>().join("; ");
        strong(ui, words, scale.px(38.0), scene.ink());
    }
    strong(ui, scene.word("use-guide-off"), scale.px(40.0), scene.ink());
    line(
        ui,
        scene.word("surgery-guide-off-why"),
        scale.px(34.0),
        scene.ink(),
    );
    // All of them in sight, each on a line of its own: none is overlooked by not being scrolled to.
    let each = stops.len().div_ceil(STOP_COLUMNS).max(1);
    let size = scale.px(if each > FEW_STOPS { 30.0 } else { 36.0 });
    ui.columns(STOP_COLUMNS, |columns| {
        for (column, items) in columns.iter_mut().zip(stops.chunks(each)) {
            unjustified(column, |column| {
                column.spacing_mut().item_spacing.y = scale.px(4.0);
                for one in items {
                    let piece = Piece::Drill(one.drill.clone());
                    let args = [
                        ("name", &*scene.formatter.piece(&piece)),
                        ("slot", &*scene.formatter.in_slot(one.slot.as_deref())),
                    ];
                    let words = scene.text("load-one-of", &args);
                    strong(column, words, size, scene.ink());
                }
            });
        }
    });
}
