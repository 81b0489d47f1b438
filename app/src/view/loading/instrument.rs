//! The thing in hand: what it is, for which site, and what to do with it now.

use super::keys::Pressed;
use super::reading::typed_box;
use super::refusal::refused;
use super::scale::{line, strong};
use super::scene::{Brush, Scene, sites};
use super::session::{Now, Step, must_set_anew};
use super::start::initials_ui;
use super::task::{Seal, Task, Work, does_not_fit};
use super::{at_once, beside, ended, piece, refusal, steps, warning};
use crate::canvas::{Camera, mark, shapes};
use crate::desk::policy;
use crate::look::bold;
use egui::{FontId, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};
use traywright_core::charts::marking;
use traywright_core::drawing::{Drawing, Ink, TextStyle};
use traywright_core::kit::{SiteId, SlotKind, StopId, StopKind};
use traywright_core::plan::{Actionable, ActionableFigure, Known, LoadItem};
use traywright_core::sign::{Stage, accepted};
use traywright_core::wording::{begin, mm};

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, initials: &mut String, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    if scene.session.asks_first(scene.board).is_some() {
        if scene.session.asks_who(scene.board) {
            let ask = scene.word("loading-ask-first");
            initials_ui(ui, scene.brush(), &ask, refused(scene), initials, out);
        } else {
            beside::ui(ui, scene);
        }
        return;
    }
    let Some((task, item)) = scene.in_hand() else {
        strong(
            ui,
            scene.word("loading-nothing"),
            scale.big(),
            theme.fill(Ink::Strong),
        );
        return;
    };
    name_ui(ui, scene, task, item);
    if scene.session.entry.scanned.as_ref() == Some(&task.key()) {
        let words = scene.text("loading-code-right", &[("name", item.name.as_str())]);
        line(ui, words, scale.text(), theme.fill(Ink::Accent));
    }
    if !scene.session.asks_who(scene.board) {
        piece::ui(ui, scene, task, out);
    }
    let step = scene.session.step(scene.board);
    if step == Some(Step::SetAndRead) && !scene.session.asks_who(scene.board) {
        at_once::ui(ui, scene, (task, item));
        for words in details(scene, task, item, Step::Set) {
            line(ui, words, scale.text(), theme.fill(Ink::Soft));
        }
        ahead_ui(ui, scene, item);
        facts_ui(ui, scene, task, item);
        return;
    }
    ui.add_space(scale.px(6.0));
    if step != Some(Step::Lay) {
        steps::ui(ui, scene, task);
        ui.add_space(scale.px(6.0));
    }
    // Where a figure stands it comes before all that could put it out of sight.
    let figure = |step: Step| {
        let anew = step == Step::Take && task.is_anew();
        is_with_figure(step, task) || anew || step == Step::Lay
    };
    if let Some(step) = step.filter(|step| figure(*step) && !scene.session.asks_who(scene.board)) {
        step_ui(ui, scene, (task, item), step);
        about_ui(ui, scene, task, item);
        ahead_ui(ui, scene, item);
        if step != Step::Set {
            warning::ui(ui, scene, item, scale.px(44.0));
        }
        return;
    }
    about_ui(ui, scene, task, item);
    ui.add_space(scale.px(14.0));
    if scene.session.asks_who(scene.board) {
        let ask = scene.word("loading-ask-first");
        initials_ui(ui, scene.brush(), &ask, refused(scene), initials, out);
        return;
    }
    // What is asked for stands before what is done.
    beside::ui(ui, scene);
    match scene.session.now(task) {
        Now::Do(step) => step_ui(ui, scene, (task, item), step),
        Now::Done => ended::done_ui(ui, scene, task),
        Now::NoSlot => ended::no_slot_ui(ui, scene, task),
        Now::NoneLeft => ended::none_left_ui(ui, scene, item),
        Now::Unasked(why) => ended::unasked_ui(ui, scene, (task, item), why),
        Now::Blocked => ended::blocked_ui(ui, scene, task),
        Now::Later => later_ui(ui, scene, task),
        Now::Passed => {
            let words = scene.word("loading-passed");
            strong(ui, words, scale.big(), theme.fill(Ink::Strong));
            if does_not_fit(task) {
                let words = scene.word("loading-passed-misfit");
                strong(ui, words, scale.px(44.0), theme.fault());
            } else if let Some(over) = &task.record.passed_over {
                let words = scene.text("loading-passed-over", &[("who", over.who.as_str())]);
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            let back = ended::anew_since(scene, task, "loading-set-back-here");
            for words in back.into_iter().filter(|_| !does_not_fit(task)) {
                strong(ui, words, scale.px(44.0), theme.fault());
            }
        }
    }
    if !task.is_sealed() {
        ahead_ui(ui, scene, item);
        warning::ui(ui, scene, item, scale.px(44.0));
    }
}

/// True for a step at which the hand acts on the figure, or what it places can be held against it.
fn is_with_figure(step: Step, task: &Task) -> bool {
    match step {
        Step::Set | Step::Lock | Step::Tug | Step::Read | Step::SetAndRead => true,
        Step::Place | Step::Lay => {
            let is_set = matches!(task.work, Work::SetAndRead | Work::SetOnly);
            is_set && !task.is_sealed()
        }
        Step::Take => false,
    }
}

/// Shows the words on a refused reading, whole: no more of the thing than identifies it.
pub(super) fn refused_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let Some((task, item)) = scene.in_hand() else {
        return;
    };
    let slot = task.slot.as_ref().map(|slot| slot.as_str());
    let to = slot.map(|slot| scene.text("loading-to-slot", &[("slot", slot)]));
    let name = [Some(scene.formatter.item(item)), to];
    let name: Vec<String> = name.into_iter().flatten().collect();
    strong(ui, name.join("  "), scale.big(), theme.fill(Ink::Strong));
    let sites: Vec<String> = sites(item)
        .iter()
        .map(|one| scene.formatter.site(one))
        .collect();
    if !sites.is_empty() {
        let words = scene.text("loading-for", &[("site", &sites.join(", "))]);
        line(ui, words, scale.text(), theme.fill(Ink::Strong));
    }
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| figure_ui(ui, scene, item));
        ui.add_space(scale.px(40.0));
        if scene.session.reads(scene.board) {
            ui.vertical(|ui| reading_ui(ui, scene, task));
        } else if scene.session.step(scene.board) == Some(Step::Set) {
            let words = action(scene, task, item, Step::Set);
            ui.vertical(|ui| strong(ui, words, scale.big(), theme.fill(Ink::Strong)));
        }
    });
    refusal::ui(ui, scene, task, out);
}

/// The later settings of the thing in surgery.
fn ahead_ui(ui: &mut Ui, scene: &Scene<'_>, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    for words in scene.formatter.load(item, scene.worksheet()).set_anew {
        line(ui, words, scale.px(30.0), theme.fill(Ink::Strong));
    }
}

/// The setting that is set anew in surgery, and is not to be now.
fn later_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let Some(reset) = scene.reset(task) else {
        return;
    };
    let ink = theme.fill(Ink::Strong);
    strong(ui, scene.word("loading-later"), scale.big(), theme.fault());
    let words = scene.formatter.reset_line(reset, scene.worksheet());
    strong(ui, words, scale.px(36.0), ink);
    // Said before it is begun: half-way there is nobody to ask.
    strong(ui, scene.word("loading-later-two"), scale.px(36.0), ink);
    let may = scene.session.may_set_anew(task, scene.board);
    let over = scene.session.passed_over_by(task, scene.board);
    if over.is_some_and(does_not_fit) && may {
        let words = scene.word("loading-later-misfit");
        strong(ui, words, scale.px(36.0), theme.fault());
        return;
    }
    if let Some(set) = over.filter(|_| may).map(|over| scene.setting(over)) {
        let words = scene.text("loading-later-unread", &[("set", &set)]);
        strong(ui, words, scale.px(36.0), theme.fault());
        return;
    }
    let id = if may {
        "loading-later-open"
    } else if scene.session.stage == Stage::SterileField {
        "loading-later-first"
    } else {
        "loading-later-bench"
    };
    line(ui, scene.word(id), scale.text(), ink);
}

/// The thing's name and marking, and where it goes.
fn name_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    let said = scene.formatter.load(item, scene.worksheet());
    ui.horizontal_wrapped(|ui| {
        if let Some(drawn) = marking(&item.marking, TextStyle::STRONG) {
            let words = said.marking.as_deref().unwrap_or_default();
            marking_ui(ui, scene.brush(), &drawn, words);
        }
        let ink = theme.fill(Ink::Strong);
        strong(ui, scene.formatter.item(item), scale.px(70.0), ink);
        if scene.session.asks_who(scene.board) {
            // Initials need the room.
            return;
        }
        ui.add_space(scale.px(20.0));
        // Where it goes is seen from the start.
        if let Some(slot) = &task.slot {
            let words = scene.text("loading-to-slot", &[("slot", slot.as_str())]);
            strong(ui, words, scale.big(), theme.fill(Ink::Accent));
        } else {
            let words = begin(&scene.formatter.without_slot());
            strong(ui, words, scale.big(), theme.fault());
        }
    });
}

/// What else there is to know of it: the sites that it is for first.
fn about_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    let sites = sites(item);
    let ink = theme.fill(Ink::Strong);
    match &sites[..] {
        [] => {
            line(ui, scene.word("load-whole-case"), scale.big(), ink);
        }
        few if few.len() <= 2 => {
            for site in few {
                site_ui(ui, scene, site, scale.big());
            }
        }
        many => {
            line(
                ui,
                scene.counted("loading-for-many", &[("count", many.len())], &[]),
                scale.big(),
                ink,
            );
            // Where a figure stands the room is for that; the list has the names too.
            if scene
                .session
                .step(scene.board)
                .is_none_or(|step| matches!(step, Step::Take | Step::Lay))
            {
                let names = many.iter().map(|site| scene.formatter.site(site));
                let names: Vec<String> = names.collect();
                line(ui, names.join(", "), scale.text(), theme.fill(Ink::Soft));
            }
        }
    }
    if !scene.session.asks_who(scene.board) {
        facts_ui(ui, scene, task, item);
    }
    if let Some(reset) = scene.reset(task) {
        let when = scene.formatter.reset(reset, scene.worksheet()).when;
        let words = scene.text("loading-anew-when", &[("when", &when)]);
        strong(ui, words, scale.px(36.0), theme.fill(Ink::Strong));
    }
}

/// What kind of thing it is, how it is marked, and its stop, in one line.
fn facts_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    let said = scene.formatter.load(item, scene.worksheet());
    let mut facts = vec![said.kind];
    facts.extend(said.marking);
    facts.extend(stop(item).map(|stop| scene.formatter.stop(stop)));
    if task.is_sealed() {
        facts.extend(said.unopened);
    }
    line(ui, facts.join(" · "), scale.px(30.0), theme.fill(Ink::Soft));
}

/// The site that a thing is for, with its worst verdict where that is open.
pub(super) fn site_ui(ui: &mut Ui, scene: &Scene<'_>, site: &SiteId, size: f32) {
    let (scale, theme) = (scene.scale, scene.theme);
    let words = scene.text("loading-for", &[("site", &scene.formatter.site(site))]);
    let mut sheets = scene.worksheet().sites.iter();
    let worst = sheets.find(|sheet| sheet.id == *site).map(|one| one.worst);
    let ink = theme.fill(Ink::Strong);
    let Some(worst) = worst.filter(|worst| worst.is_open()) else {
        line(ui, words, size, ink);
        return;
    };
    let side = scale.px(44.0).min(size);
    let findings = &scene.worksheet().findings;
    let word = scene.formatter.worst_beside(worst, &[site], findings);
    let verdict = |ui: &mut Ui| {
        let (square, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
        mark(ui, square, worst);
        strong(ui, word.as_str(), side, theme.fault());
    };
    // Mark and word stay together.
    let width = |text: &str, font: FontId| {
        let painter = ui.painter();
        painter.layout_no_wrap(text.to_owned(), font, ink).size().x
    };
    let site = width(&words, FontId::proportional(size));
    let all = site + side + width(&word, FontId::new(side, bold()));
    if all + 2.0 * ui.spacing().item_spacing.x <= ui.available_width() {
        ui.horizontal(|ui| {
            line(ui, words, size, ink);
            verdict(ui);
        });
    } else {
        line(ui, words, size, ink);
        ui.horizontal(verdict);
    }
}

/// The letter and the shape that a thing bears, as on the tray's drawing, as high as the name beside
/// them: so it is found among others. `said` is the marking in words.
pub(in crate::view) fn marking_ui(ui: &mut Ui, brush: Brush, drawn: &(Drawing, f64), said: &str) {
    let (scale, theme) = (brush.scale, brush.theme);
    let (drawing, width) = drawn;
    #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
    let (width, capital) = (*width as f32, TextStyle::STRONG.cap_height() as f32);
    let per_mm = scale.px(62.0) / capital;
    let edge = scale.px(12.0);
    let size = vec2(width * per_mm + 2.0 * edge, scale.px(86.0));
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let line = Stroke::new(scale.px(3.0), theme.fill(Ink::Strong));
    ui.painter()
        .rect_stroke(rect, scale.px(8.0), line, StrokeKind::Inside);
    let camera = Camera {
        origin: rect.left_center() + vec2(edge, 0.0),
        per_mm,
    };
    let shapes = shapes(drawing, camera, theme, ui.painter());
    ui.painter().extend(shapes);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, said));
}

fn stop(item: &LoadItem) -> Option<&StopId> {
    item.set.as_ref()?.stop.as_ref()
}

fn step_ui(ui: &mut Ui, scene: &Scene<'_>, (task, item): (&Task, &LoadItem), step: Step) {
    let (scale, theme) = (scene.scale, scene.theme);
    let ink = theme.fill(Ink::Strong);
    strong(ui, action(scene, task, item, step), scale.big(), ink);
    let size = scale.told();
    if let (Step::Take, Some(reset)) = (step, scene.reset(task)) {
        let words = scene.formatter.reset_line(reset, scene.worksheet());
        strong(ui, words, scale.px(44.0), ink);
    } else if let (Step::Take, Some(was)) = (step, &task.record.set_otherwise) {
        ended::still_set_ui(ui, scene, task, &was.item);
    }
    let anew = |ui: &mut Ui| {
        if matches!(step, Step::Take | Step::Set) && must_set_anew(task) {
            let words = scene.word("loading-second-set-anew");
            strong(ui, words, scale.px(44.0), theme.fault());
        }
    };
    let helps = |ui: &mut Ui| {
        for words in details(scene, task, item, step) {
            line(ui, words, size, theme.fill(Ink::Soft));
        }
    };
    // The figure stands before what helps, so that it is whole in every window.
    let to_set = is_with_figure(step, task);
    if !to_set {
        anew(ui);
        helps(ui);
    }
    ui.horizontal_top(|ui| {
        if to_set {
            ui.vertical(|ui| figure_ui(ui, scene, item));
            ui.add_space(scale.px(40.0));
        }
        if step.is_reading() {
            ui.vertical(|ui| reading_ui(ui, scene, task));
        } else if step == Step::Set {
            // Where it is set to one of its figures, the other one is in sight.
            ui.vertical(|ui| warning::ui(ui, scene, item, scale.px(36.0)));
        }
    });
    if to_set {
        anew(ui);
        helps(ui);
    }
}

/// The action, in large words.
pub(super) fn action(scene: &Scene<'_>, task: &Task, item: &LoadItem, step: Step) -> String {
    let slot = task.slot.as_ref().map_or("", |slot| slot.as_str());
    match step {
        Step::Take if scene.session.opens(task) => scene.word("loading-do-open"),
        Step::Take => match task.lies() {
            Some(slot) => scene.text("loading-do-take-from", &[("slot", slot)]),
            None => scene.word("loading-do-take"),
        },
        Step::SetAndRead => {
            let set = set_how(
                scene,
                item,
                [
                    "loading-all-set",
                    "loading-all-grooves",
                    "loading-all-groove",
                ],
            );
            scene.text("loading-do-all", &[("set", &set)])
        }
        Step::Lay if task.work == Work::SetOnly && !task.is_sealed() => {
            let set = set_how(
                scene,
                item,
                [
                    "loading-all-set",
                    "loading-all-grooves",
                    "loading-all-groove",
                ],
            );
            scene.text("loading-do-all-place", &[("set", &set), ("slot", slot)])
        }
        Step::Lay if task.is_sealed() => scene.text("loading-do-leave-sealed", &[("slot", slot)]),
        Step::Set => set_how(
            scene,
            item,
            ["loading-do-set", "loading-do-grooves", "loading-do-groove"],
        ),
        Step::Lock => scene.word("loading-do-lock"),
        Step::Tug => scene.word("loading-do-tug"),
        Step::Read => scene.word("loading-do-read"),
        Step::Lay | Step::Place => scene.text("loading-do-place", &[("slot", slot)]),
    }
}

/// How a stop is set, by these ids: on the gauge, in one of the grooves that its drill has for it, in its only one.
fn set_how(scene: &Scene<'_>, item: &LoadItem, [on_gauge, grooves, groove]: [&str; 3]) -> String {
    let kit = &scene.document.case().kit;
    let fixed = stop(item)
        .and_then(|id| kit.stop(id))
        .filter(|stop| matches!(stop.depth, StopKind::Fixed { .. }));
    let Some(stop) = fixed else {
        return scene.word(on_gauge);
    };
    let on = item.set.as_ref();
    let place = on.and_then(|on| {
        let set = on.set.get()?;
        scene.formatter.fixed_place_of(&stop.id, &on.drill, set)
    });
    match place.filter(|(_, count)| *count > 1) {
        Some((place, count)) => scene.counted(grooves, &[("place", place), ("count", count)], &[]),
        None => scene.word(groove),
    }
}

/// Help with the action.
fn details(scene: &Scene<'_>, task: &Task, item: &LoadItem, step: Step) -> Vec<String> {
    let kit = &scene.document.case().kit;
    let mut found = Vec::new();
    match step {
        Step::Lay => {
            found.extend(details(scene, task, item, Step::Take));
            if task.work == Work::SetOnly && !task.is_sealed() {
                found.extend(details(scene, task, item, Step::Set));
                found.extend(details(scene, task, item, Step::Place));
            }
        }
        Step::Take => {
            let drill = kit
                .drills
                .iter()
                .find(|drill| drill.id.as_str() == item.entry);
            let sealed = task.is_sealed();
            if scene.session.opens(task) {
                return found;
            }
            if let Some(drill) = drill.filter(|_| item.kind == SlotKind::Drill && !sealed) {
                let length = mm(drill.overall_length_mm);
                found.push(scene.text("loading-take-length", &[("length", &length)]));
                let bores = scene.formatter.bores(item, scene.worksheet());
                if !bores.is_empty() {
                    let bores = bores.join("; ");
                    found.push(scene.text("loading-take-drop", &[("bores", &bores)]));
                }
            }
            if task.work == Work::LayUnset {
                found.push(scene.word("loading-lay-unset"));
            }
            if task.work == Work::Lay && !sealed {
                let said = scene.formatter.load(item, scene.worksheet());
                found.extend(said.setting.map(|words| begin(&words)));
            }
            if task.seal == Seal::UntilCalledFor && task.planned.is_some() && sealed {
                found.push(scene.word("loading-may-open"));
            }
            found.extend(stop_beside(scene, task, item));
            if !sealed || item.kind == SlotKind::Implant {
                found.extend(scene.formatter.goes_in(item, scene.worksheet()));
            }
        }
        Step::Set => {
            if let Some(stop) = stop(item).and_then(|id| kit.stop(id)) {
                let bore = mm(stop.bore_mm);
                let name = scene.formatter.stop(&stop.id);
                let args = [("stop", name.as_str()), ("bore", &bore)];
                found.push(scene.text("loading-set-stop", &args));
            }
        }
        Step::Place if task.is_sealed() => {
            found.extend(stop_beside(scene, task, item));
        }
        Step::Place if task.work == Work::SetOnly => {
            found.push(scene.word("loading-not-readable"));
        }
        _ => {}
    }
    found
}

/// The place for the stop of a drill that stays sealed.
fn stop_beside(scene: &Scene<'_>, task: &Task, item: &LoadItem) -> Option<String> {
    let stop = stop(item).filter(|_| task.is_sealed())?;
    let stop = scene.formatter.stop(stop);
    Some(scene.text("loading-stop-beside", &[("stop", &stop)]))
}

/// The figure that a hand acts on, with the other one beside it in small type.
pub(super) fn figure_ui(ui: &mut Ui, scene: &Scene<'_>, item: &LoadItem) {
    let (scale, theme) = (scene.scale, scene.theme);
    let kit = &scene.document.case().kit;
    let Some(actionable) = Actionable::of_item(item).filter(|_| stop(item).is_some()) else {
        return;
    };
    let known = actionable.figure(kit);
    let Some(figure) = known.large() else {
        return;
    };
    let shown = |length| scene.formatter.set_length(&Known::Is(length));
    let (caption, beside) = match known {
        ActionableFigure::GaugeFigure { set, .. } => {
            ("sheet-gauge-shows", Some(("sheet-tip-to-stop", set)))
        }
        ActionableFigure::SetLength { gauge, .. } => {
            let beside = gauge.map(|gauge| ("sheet-gauge-shows", gauge));
            ("loading-tip-to-face", beside)
        }
        ActionableFigure::Nothing
        | ActionableFigure::DoesNotFit
        | ActionableFigure::NotOnGauge { .. } => return,
    };
    let soft = theme.fill(Ink::Soft);
    line(ui, scene.word(caption), scale.text(), soft);
    ui.horizontal(|ui| {
        strong(ui, shown(figure), scale.figure(), theme.fill(Ink::Strong));
        ui.vertical(|ui| {
            ui.add_space(scale.px(72.0));
            line(
                ui,
                scene.word("loading-mm"),
                scale.big(),
                theme.fill(Ink::Strong),
            );
            if let Some((id, length)) = beside {
                let words = format!("{} {}", scene.word(id), shown(length));
                line(ui, words, scale.text(), soft);
            }
        });
    });
}

/// The field for a reading, its reader and the figures that are accepted.
pub(super) fn reading_ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task) {
    let (scale, theme) = (scene.scale, scene.theme);
    let at_once = scene.session.step(scene.board) == Some(Step::SetAndRead);
    if let Some(who) = scene.session.first.as_ref().filter(|_| !at_once) {
        let words = scene.text("loading-reads", &[("who", who.as_str())]);
        line(ui, words, scale.text(), theme.fill(Ink::Strong));
    }
    typed_box(ui, scene.brush(), scene.session.entry.typed.as_str());
    if let Some(planned) = &task.planned
        && let Some((least, most)) = accepted(planned, &policy().tolerance)
    {
        let shown = |length| scene.formatter.set_length(&Known::Is(length));
        let args = [("least", &*shown(least)), ("most", &*shown(most))];
        let words = scene.text("loading-accepted", &args);
        line(ui, words, scale.text(), theme.fill(Ink::Soft));
    }
    if let Some(words) = refused(scene) {
        strong(ui, words, scale.px(44.0), theme.fault());
    }
}
