//! Derivation of a figure, shown below the table: of the one pointed at, or that has the keyboard.

use super::here::Here;
use crate::look::row::focus_frame;
use crate::look::{Font, Theme};
use crate::view::site::Context;
use egui::{Response, ScrollArea, Sense, Stroke, Ui, WidgetInfo, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::{Figure, Fits, StepSheet};
use traywright_core::wording::TermText;

/// Height of the derivation's place, points.
pub(super) const HEIGHT: f32 = 78.0;

/// Derivation of a figure, in words.
pub(super) struct Derivation {
    what: String,
    line: String,
    rule: String,
    terms: Vec<TermText>,
}

impl Derivation {
    /// Of a step's setting.
    pub(super) fn setting(here: &Here<'_>, what: String, step: &StepSheet) -> Self {
        Self {
            what,
            line: here.formatter.setting_line(step),
            rule: here.formatter.rule(&step.set),
            terms: here.formatter.setting_terms(step),
        }
    }

    /// Of a figure that counts on a step's setting: where that is not to be used, as of the setting itself.
    pub(super) fn of_step(
        here: &Here<'_>,
        what: String,
        (step, figure): (&StepSheet, &Figure),
    ) -> Self {
        if step.fits == Fits::No {
            Self::setting(here, what, step)
        } else {
            Self::figure(here, what, figure)
        }
    }

    /// Of any other figure.
    pub(super) fn figure(here: &Here<'_>, what: String, figure: &Figure) -> Self {
        Self {
            what,
            line: here.formatter.figure_line(figure),
            rule: here.formatter.rule(figure),
            terms: here.formatter.figure_terms(figure),
        }
    }
}

/// A figure that shows its derivation when it is pointed at or has the keyboard. `name` says what
/// it is, without the figure.
pub(super) fn figure(
    ui: &mut Ui,
    width: f32,
    text: &str,
    font: Font,
    name: &str,
    told: &mut Option<Derivation>,
    tell: impl FnOnce(String) -> Derivation,
) -> Response {
    let theme = Theme::of(ui);
    let galley = ui
        .painter()
        .layout_no_wrap(text.to_owned(), font.id(), theme.fill(Ink::Strong));
    let height = galley.rect.height().max(22.0);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
    let place = egui::pos2(
        rect.right() - galley.rect.width() - 4.0,
        rect.center().y - galley.rect.height() / 2.0,
    );
    ui.painter().galley(place, galley, theme.fill(Ink::Strong));
    response
        .widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, format!("{name}: {text}")));
    if response.has_focus() {
        focus_frame(ui, rect);
    }
    if response.hovered() || (response.has_focus() && told.is_none()) {
        *told = Some(tell(name.to_owned()));
    }
    response
}

/// Shows it; without any pointed at, that of the chosen step's setting.
pub(super) fn ui(ui: &mut Ui, cx: &Context<'_>, here: &Here<'_>, told: Option<Derivation>) {
    let chosen = || {
        let step = here.step_sheet()?;
        let drill = here.formatter.step(&here.site.id, &step.id);
        let what = cx.text("site-setting-of", &[("step", &drill)]);
        Some(Derivation::setting(here, what, step))
    };
    let Some(told) = told.or_else(chosen) else {
        return;
    };
    let theme = Theme::of(ui);
    let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
    let top = ui.max_rect();
    ui.painter().hline(top.x_range(), top.top(), hair);
    ui.add_space(5.0);
    ScrollArea::vertical().id_salt("told").show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let soft = theme.fill(Ink::Soft);
        let line = cx.text("site-told", &[("what", &told.what), ("line", &told.line)]);
        let line = Font::StrongLine.text(line).color(theme.fill(Ink::Accent));
        ui.label(line);
        let list = |id: &str| {
            let terms = told.terms.iter().map(|term| {
                let id = match id {
                    "site-term" if term.is_confirmed => "site-term-confirmed",
                    id => id,
                };
                let args = [
                    ("name", term.name.as_str()),
                    ("value", &term.value),
                    ("origin", &term.origin),
                    ("basis", &term.basis),
                ];
                cx.text(id, &args)
            });
            terms.collect::<Vec<_>>()
        };
        let below = |text: String| Font::Caption.text(text).color(soft);
        ui.label(below(list("site-term").join(" · ")))
            .on_hover_text(list("site-term-origin").join("\n"));
        ui.label(below(told.rule));
    });
}
