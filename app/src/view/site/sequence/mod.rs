//! The sequence: a table of its steps with their figures, and what can be done with them.

mod edit;
mod row;
mod source;
mod step;

pub(super) use edit::move_step;

use super::derivation::Derivation;
use super::here::Here;
use crate::look::{Font, Theme, aside, caption, heading};
use crate::view::form::{Form, entry};
use crate::view::site::Context;
use egui::{RichText, Stroke, Ui, vec2};
use traywright_core::case::Setting;
use traywright_core::drawing::Ink;
use traywright_core::wording::begin;

/// Shows where the sequence comes from, and its steps.
pub(super) fn table(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    told: &mut Option<Derivation>,
) {
    ui.horizontal(|ui| {
        let steps = &[("steps", here.sheet.steps.len())];
        heading(ui, cx.counted("site-sequence", steps, &[]));
        source::said_ui(ui, cx, here);
    });
    if here.sheet.steps.is_empty() {
        aside(ui, cx.word("site-no-steps"));
        source::ui(ui, cx, here);
        return;
    }
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        heads(ui, cx);
        for (at, step) in here.sheet.steps.iter().enumerate() {
            row::ui(ui, cx, here, at, step, told);
        }
    });
}

/// Shows what the sequence can be taken from, the step that is looked at, to be changed, and whether
/// one setting serves all.
pub(super) fn chosen(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    // Without a step they stand in the room of the table.
    if !here.sheet.steps.is_empty() {
        source::ui(ui, cx, here);
    }
    step::ui(ui, cx, here);
    setting_ui(ui, cx, here);
}

/// The heads of the table.
fn heads(ui: &mut Ui, cx: &Context<'_>) {
    let theme = Theme::of(ui);
    let soft = theme.fill(Ink::Soft);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), egui::Sense::hover());
    let caption = Font::Caption.id();
    let mut right = rect.right();
    for (id, width) in [
        ("site-head-bench", row::SMALL),
        ("site-head-cut", row::SMALL),
        ("site-head-gauge", row::SMALL),
        ("site-head-set", row::LARGE),
    ] {
        let place = egui::pos2(right - 4.0, rect.bottom() - 2.0);
        ui.painter().text(
            place,
            egui::Align2::RIGHT_BOTTOM,
            cx.word(id),
            caption.clone(),
            soft,
        );
        right -= width;
    }
    ui.painter().text(
        egui::pos2(rect.left() + f32::from(row::NUMBER), rect.bottom() - 2.0),
        egui::Align2::LEFT_BOTTOM,
        cx.word("site-head-step"),
        caption,
        soft,
    );
    let line = Stroke::new(1.0, theme.fill(Ink::Strong));
    ui.painter().hline(rect.x_range(), rect.bottom(), line);
}

/// The choice of one figure for the whole sequence, or of one for each step.
fn setting_ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let offered = [
        (Setting::EachStep, cx.word("site-setting-each")),
        (Setting::OneFigure, cx.word("site-setting-one")),
    ];
    let asked = entry("site-setting", "setting", "site-what-setting");
    Form { ui, cx, on: here }.pick(asked, &here.site.setting, &offered, |site, new| {
        site.setting = new;
    });
}

/// The figures of the site as a whole: the deepest cut, the sounding, the carrier.
pub(super) fn others(
    ui: &mut Ui,
    cx: &Context<'_>,
    here: &Here<'_>,
    told: &mut Option<Derivation>,
) {
    let formatter = &here.formatter;
    let sheet = here.sheet;
    ui.add_space(4.0);
    let mut line = |ui: &mut Ui, name: String, figure, text: String| {
        ui.horizontal(|ui| {
            let width = (ui.available_width() - 90.0).max(60.0);
            ui.add_sized(
                vec2(width, 20.0),
                egui::Label::new(RichText::new(&name).weak()).halign(egui::Align::LEFT),
            );
            super::derivation::figure(ui, 78.0, &text, Font::StrongLine, &name, told, |name| {
                Derivation::figure(here, name, figure)
            });
        });
    };
    let deepest = &sheet.deepest_cut;
    let text = formatter.set_length_with_unit(&deepest.known_length());
    line(ui, cx.word("site-deepest-cut"), deepest, text);
    if let Some(sounding) = &sheet.sounding {
        let text = formatter.set_length_with_unit(&sounding.known_length());
        line(ui, cx.word("site-sounding"), sounding, text);
    }
    if sheet.insertion.is_some() || !sheet.steps.is_empty() {
        let said = formatter.insertion(sheet.insertion.as_ref());
        caption(ui, said);
    }
    if let Some(depth) = &sheet.final_depth {
        let said = begin(&formatter.final_depth(depth));
        caption(ui, said);
    }
    for step in &sheet.steps {
        let Some(level) = formatter.until_level(step) else {
            continue;
        };
        let drill = formatter.step(&sheet.id, &step.id);
        let said = cx.text("site-until-level", &[("step", &drill), ("level", &level)]);
        caption(ui, said);
    }
    for offer in sheet.fitting_distances.iter().take(3) {
        let said = formatter.fitting_distance(&sheet.id, offer);
        caption(ui, said);
    }
}
