//! A row of a form: the label on the left, the field on the right, what is wrong below it.

use super::Drafts;
use crate::look::{Font, Theme};
use egui::{Align, Id, Layout, Rect, RichText, Role, Sense, Ui, Vec2, WidgetInfo, vec2};

/// Width of the column of labels, points.
const LABELS: f32 = 150.0;

/// What names a field: the label for a screen reader, and its text.
#[derive(Debug, Clone)]
pub struct Named {
    /// The label.
    pub id: Id,
    /// Its text.
    pub text: String,
}

/// A row of a form. The field is given its label, so that a screen reader names it.
pub fn row<R>(ui: &mut Ui, label: &str, add: impl FnOnce(&mut Ui, Named) -> R) -> R {
    ui.horizontal(|ui| {
        let height = ui.spacing().interact_size.y;
        let theme = Theme::of(ui);
        let width = LABELS.min(ui.available_width() * 0.45);
        let named = ui.allocate_ui_with_layout(
            vec2(width, height),
            Layout::left_to_right(Align::Center).with_main_wrap(true),
            |ui| {
                ui.set_min_width(width);
                let soft = theme.fill(traywright_core::drawing::Ink::Soft);
                ui.label(RichText::new(label).color(soft)).id
            },
        );
        let named = Named {
            id: named.inner,
            text: label.to_owned(),
        };
        ui.vertical(|ui| add(ui, named)).inner
    })
    .inner
}

/// A name that only a screen reader needs: of a field in a table, say, whose row and column name it
/// together. It takes no room.
#[must_use]
pub fn unseen_name(ui: &Ui, key: &str, name: &str) -> Named {
    let nowhere = Rect::from_min_size(ui.cursor().min, Vec2::ZERO);
    let id = Id::unique(("name", key));
    let response = ui.interact(nowhere, id, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
    Named {
        id,
        text: name.to_owned(),
    }
}

/// Shows the fault of a field, where there is one.
pub fn fault_ui(ui: &mut Ui, drafts: &Drafts, key: &str) {
    if let Some(fault) = drafts.fault(key) {
        let colour = Theme::of(ui).fault();
        ui.label(Font::Caption.text(fault).color(colour));
    }
}
