//! The case as a whole: what it is called, guide, arch, teeth, team, set-up, limits.

mod about;
mod arch;
mod guide;
mod limits;
mod receipt;
mod rules;
mod setup;
mod teeth;

use crate::action::Change;
use crate::context::CaseContext;
use crate::look;
use crate::view::form::FormSubject;
use crate::view::offer::edit_with_kit;
use egui::{Align, Layout, ScrollArea, Ui, vec2};
use traywright_core::case::Edit;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// Least width of a column, points.
const COLUMN: f32 = 370.0;
/// Between two columns, points.
const GUTTER: f32 = 24.0;

/// A part of the form.
type Part = fn(&mut Ui, &mut Context<'_>);

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// A size of the arch that is not whole yet.
    arch: arch::Draft,
}

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    ScrollArea::vertical()
        .id_salt("case")
        .auto_shrink(false)
        .show(ui, |ui| {
            let columns = columns(ui.available_width());
            let count = columns.len();
            let between = ui.spacing().item_spacing.x;
            ui.spacing_mut().item_spacing.x = GUTTER;
            let width = ui.available_width() - GUTTER * (f32_of(count) - 1.0);
            ui.horizontal_top(|ui| {
                for (share, parts) in columns {
                    let layout = Layout::top_down(Align::Min);
                    ui.allocate_ui_with_layout(vec2(width * share, 0.0), layout, |ui| {
                        ui.set_width(width * share);
                        ui.spacing_mut().item_spacing.x = between;
                        for part in *parts {
                            part(ui, cx);
                        }
                    });
                }
            });
            ui.spacing_mut().item_spacing.x = between;
            ui.add_space(10.0);
            limits::ui(ui, cx);
            ui.add_space(12.0);
        });
}

/// A column: its share of the width, and its content.
type Column = (f32, &'static [Part]);

/// The columns that a width has room for.
fn columns(width: f32) -> &'static [Column] {
    if width >= 3.0 * COLUMN {
        &[
            (0.29, &[rules::ui, about::ui, setup::ui]),
            (0.33, &[guide::ui]),
            (0.38, &[arch::ui, teeth::ui]),
        ]
    } else if width >= 2.0 * COLUMN {
        &[
            (0.46, &[rules::ui, about::ui, setup::ui, guide::ui]),
            (0.54, &[arch::ui, teeth::ui]),
        ]
    } else {
        &[(
            1.0,
            &[
                rules::ui,
                about::ui,
                setup::ui,
                guide::ui,
                arch::ui,
                teeth::ui,
            ],
        )]
    }
}

#[expect(clippy::cast_precision_loss, reason = "at most three columns")]
fn f32_of(count: usize) -> f32 {
    count as f32
}

/// The heading of a part.
fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(8.0);
    look::heading(ui, text);
}

/// An edit from a field, named by a text without arguments.
fn edit(cx: &mut Context<'_>, name: &str, edit: Edit, field: &str) {
    let name = cx.word(name);
    cx.edit(Change::new(name, edit).at(field));
}

/// A part of the case as a form changes it.
struct CasePart<'p, T> {
    value: &'p T,
    /// The edit that sets it.
    edit: fn(T) -> Edit,
}

impl<T: Clone> FormSubject for CasePart<'_, T> {
    type Value = T;
    type State = State;

    fn value(&self) -> &T {
        self.value
    }

    fn key(&self, field: &str) -> String {
        format!("case.{field}")
    }

    fn change(&self, cx: &mut Context<'_>, what: &str, field: &str, change: impl FnOnce(&mut T)) {
        let mut new = self.value.clone();
        change(&mut new);
        let name = cx.word(what);
        edit_with_kit(cx, name, vec![(self.edit)(new)], Some(self.key(field)));
    }
}
