//! The tray: what lies in which slot, drawn and listed.

use crate::canvas::Camera;
use crate::window::Stage;
use egui::{Label, RichText, ScrollArea, Sense, Ui, vec2};
use traywright_core::charts::{SlotLook, TrayOptions, tray};
use traywright_core::plan::{Hand, Known, LoadItem};

/// Points of the screen for a millimetre of the drawing.
const PER_MM: f32 = 4.2;

/// Shows the view.
pub fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    if stage.document().is_none() {
        return;
    }
    ui.heading(stage.word("tray-title"));
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        drawing_ui(ui, stage);
        list_ui(ui, stage);
    });
}

/// The drawing, as wide as there is room for.
fn drawing_ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let (case, worksheet) = (document.case(), document.worksheet());
    let template = case.setup.tray.as_ref().and_then(|id| case.kit.tray(id));
    let Some(template) = template else {
        ui.label(stage.word("tray-none"));
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let setting = |item: &LoadItem| {
        let figure = Hand::of_item(item)?.acts_on(&case.kit).figure()?;
        Some(speaker.set_length(&Known::Is(figure)))
    };
    let width = ui.available_width().min(1000.0);
    let width_mm = f64::from(width / PER_MM);
    let look = |_: &LoadItem| SlotLook::Filled;
    let options = TrayOptions {
        width_mm,
        texts: stage.desk.texts,
        setting: Some(&setting),
        look: &look,
    };
    let draw = || tray(case, worksheet, &options).unwrap_or_default();
    let state = (document.generation(), width_mm.to_bits());
    let name = stage.word("view-tray");
    let plate = stage.sight.plates.plate("tray", state, draw);
    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    let height = width * (template.depth_mm.mm() / template.width_mm.mm()) as f32;
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
    let camera = Camera::fitting(plate.bounds, rect, PER_MM);
    plate.paint(ui, camera);
    plate.describe(ui, response.id, rect, &name);
}

/// The same as a list.
fn list_ui(ui: &mut Ui, stage: &Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let worksheet = document.worksheet();
    for (n, item) in worksheet.loading.iter().enumerate() {
        let said = speaker.load(item, worksheet);
        let number = (n + 1).to_string();
        let args = [
            ("number", number.as_str()),
            ("slot", &said.slot),
            ("name", &said.take),
            ("setting", said.setting.as_deref().unwrap_or_default()),
        ];
        let id = if said.setting.is_some() {
            "tray-row-set"
        } else {
            "tray-row"
        };
        let args = if said.setting.is_some() {
            &args[..]
        } else {
            &args[..3]
        };
        ui.add(Label::new(RichText::new(stage.text(id, args))).wrap());
    }
}
