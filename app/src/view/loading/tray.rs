//! The tray as it fills, the slot that is next in the accent.

use super::scene::Scene;
use super::session::{Now, Step};
use super::task::Task;
use crate::canvas::{Camera, DrawingCache};
use egui::{Rect, Sense, Ui, Vec2, vec2};
use traywright_core::charts::{SlotLook, TrayOptions, tray};
use traywright_core::drawing::Drawing;
use traywright_core::plan::{Actionable, Known, LoadItem};

/// Points of the screen for a millimetre of the drawing: the type in a slot is then as large as
/// small type elsewhere.
const PER_MM: f32 = 4.6;

/// A tray drawn so wide says all that a common one has to say, mm.
const ENOUGH: f64 = 140.0;

/// So much smaller the type may be where the drawing is then wide enough.
const SMALLER: f64 = 1.1;

/// Shows the tray in a room of this size.
pub(super) fn ui(ui: &mut Ui, drawings: &mut DrawingCache, scene: &Scene<'_>, size: Vec2) {
    let things = scene.worksheet().loading.len();
    let shown: Vec<SlotState> = (0..things).map(|item| shown(scene, item)).collect();
    let keys = shown.clone();
    let per_mm = scene.scale.per_mm(PER_MM);
    let template = scene.document.case().setup.tray.as_ref();
    let template = template.and_then(|id| scene.document.case().kit.tray(id));
    let Some(template) = template else { return };
    let shape = template.width_mm.mm() / template.depth_mm.mm();
    let room = vec2(size.x / per_mm, size.y / per_mm);
    let width_mm = f64::from(room.x).min(f64::from(room.y) * shape).max(1.0);
    let width_mm = width_mm.max((width_mm * SMALLER).min(ENOUGH));
    let state = (scene.document.generation(), width_mm.to_bits(), keys);
    let cached = drawings.drawing("loading tray", state, || draw(scene, width_mm, &shown));
    let side = vec2(size.x, size.y);
    let (rect, response) = ui.allocate_exact_size(side, Sense::hover());
    let fits = Rect::from_min_size(rect.min, side);
    let camera = Camera::fitting(cached.bounds, fits, per_mm);
    cached.paint(ui, camera);
    cached.describe(ui, response.id, rect, &scene.word("loading-tray"));
}

fn draw(scene: &Scene<'_>, width_mm: f64, shown: &[SlotState]) -> Drawing {
    let kit = &scene.document.case().kit;
    let loading = &scene.worksheet().loading;
    let of = |item: &LoadItem| {
        let index = loading.iter().position(|other| std::ptr::eq(other, item));
        index.and_then(|index| shown.get(index).copied())
    };
    let setting = |item: &LoadItem| {
        // As it stands now: in surgery it may have been set anew.
        let task = of(item).and_then(|shown| scene.board.tasks.get(shown.task?));
        let item = task.and_then(|task| scene.item(task)).unwrap_or(item);
        let figure = Actionable::of_item(item)?.figure(kit).large()?;
        Some(scene.formatter.set_length(&Known::Is(figure)))
    };
    let look = |item: &LoadItem| of(item).map_or(SlotLook::Waiting, |shown| shown.look);
    let options = TrayOptions {
        width_mm,
        texts: scene.formatter.texts,
        setting: Some(&setting),
        look: &look,
    };
    tray(scene.document.case(), scene.worksheet(), &options).unwrap_or_default()
}

/// The look of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct SlotState {
    look: SlotLook,
    /// The task whose setting it is at, or is being set to.
    task: Option<usize>,
}

fn shown(scene: &Scene<'_>, item: usize) -> SlotState {
    let in_hand = scene.session.task(scene.board);
    let in_hand = in_hand.filter(|task| task.item == item);
    let works = |task: &&Task| matches!(scene.session.now(task), Now::Do(_));
    let now = scene.board.stands_now(item);
    let task = in_hand.filter(works).or(now);
    SlotState {
        look: match (in_hand, task) {
            (Some(_), _) => SlotLook::Next,
            (None, Some(task)) => look(scene, task),
            (None, None) => SlotLook::Waiting,
        },
        task: task.map(|task| task.index),
    }
}

fn look(scene: &Scene<'_>, task: &Task) -> SlotLook {
    match scene.session.now(task) {
        Now::Done | Now::Do(Step::Place) if task.lies_right() => SlotLook::Filled,
        _ => SlotLook::Waiting,
    }
}
