//! The tray as it fills, the slot that is next in the accent.

use super::scene::Scene;
use super::session::{Now, Step};
use super::task::Task;
use crate::canvas::{Camera, Plates};
use egui::{Rect, Sense, Ui, Vec2, vec2};
use traywright_core::charts::{SlotLook, TrayOptions, tray};
use traywright_core::drawing::Drawing;
use traywright_core::plan::{Hand, Known, LoadItem};

/// Points of the screen for a millimetre of the drawing: the type in a slot is then as large as
/// small type elsewhere.
const PER_MM: f32 = 4.6;

/// A tray drawn so wide says all that a common one has to say, mm.
const ENOUGH: f64 = 140.0;

/// So much smaller the type may be where the drawing is then wide enough.
const SMALLER: f64 = 1.1;

/// Shows the tray in a room of this size.
pub(super) fn ui(ui: &mut Ui, plates: &mut Plates, scene: &Scene<'_>, size: Vec2) {
    let blind = scene.session.is_blind(scene.board);
    let looks: Vec<SlotLook> = scene
        .board
        .tasks
        .iter()
        .map(|task| look(scene, task))
        .collect();
    let keys: Vec<u8> = looks.iter().map(|look| *look as u8).collect();
    let per_mm = scene.scale.per_mm(PER_MM);
    let template = scene.document.case().setup.tray.as_ref();
    let template = template.and_then(|id| scene.document.case().kit.tray(id));
    let Some(template) = template else { return };
    let shape = template.width_mm.mm() / template.depth_mm.mm();
    let room = vec2(size.x / per_mm, size.y / per_mm);
    let width_mm = f64::from(room.x).min(f64::from(room.y) * shape).max(1.0);
    let width_mm = width_mm.max((width_mm * SMALLER).min(ENOUGH));
    let state = (scene.document.generation(), width_mm.to_bits(), keys, blind);
    let plate = plates.plate("loading tray", state, || draw(scene, width_mm, &looks));
    let side = vec2(size.x, size.y);
    let (rect, response) = ui.allocate_exact_size(side, Sense::hover());
    let fits = Rect::from_min_size(rect.min, side);
    let camera = Camera::fitting(plate.bounds, fits, per_mm);
    plate.paint(ui, camera);
    plate.describe(ui, response.id, rect, &scene.word("loading-tray"));
}

fn draw(scene: &Scene<'_>, width_mm: f64, looks: &[SlotLook]) -> Drawing {
    let kit = &scene.document.case().kit;
    let setting = |item: &LoadItem| {
        let figure = Hand::of_item(item)?.acts_on(kit).figure()?;
        Some(scene.speaker.set_length(&Known::Is(figure)))
    };
    let loading = &scene.worksheet().loading;
    let look = |item: &LoadItem| {
        let index = loading.iter().position(|other| std::ptr::eq(other, item));
        index
            .and_then(|index| looks.get(index).copied())
            .unwrap_or(SlotLook::Waiting)
    };
    let blind = scene.session.is_blind(scene.board);
    let options = TrayOptions {
        width_mm,
        texts: scene.speaker.texts,
        setting: if blind { None } else { Some(&setting) },
        look: &look,
    };
    tray(scene.document.case(), scene.worksheet(), &options).unwrap_or_default()
}

fn look(scene: &Scene<'_>, task: &Task) -> SlotLook {
    if task.index == scene.session.at {
        return SlotLook::Next;
    }
    match scene.session.now(task) {
        Now::Done | Now::Do(Step::Place) if task.lies_right() => SlotLook::Filled,
        _ => SlotLook::Waiting,
    }
}
