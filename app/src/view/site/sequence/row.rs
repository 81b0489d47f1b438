//! One row of the table: a step with its figures.

use crate::action::Action;
use crate::look::{Font, Theme};
use crate::view::site::Context;
use crate::view::site::derivation::{self, Derivation};
use crate::view::site::here::Here;
use egui::{Frame, Margin, Stroke, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::{Figure, FigureRule, Fits, Known, StepPath, StepSheet};

/// Width of the step's number, points.
pub(super) const NUMBER: i8 = 26;
/// Width of the setting, points.
pub(super) const LARGE: f32 = 84.0;
/// Width of each other figure, points.
pub(super) const SMALL: f32 = 56.0;

/// Shows a step.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    at: usize,
    step: &StepSheet,
    told: &mut Option<Derivation>,
) {
    let chosen = here.step.as_ref() == Some(&step.id);
    let theme = Theme::of(ui);
    let mut frame = Frame::NONE.inner_margin(Margin::symmetric(0, 2));
    if chosen {
        frame = frame.fill(theme.fill(Ink::Shade));
    }
    let row = frame.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.spacing_mut().interact_size.y = 0.0;
        figures(ui, cx, here, at, step, told);
        let margin = Margin {
            left: NUMBER,
            bottom: 2,
            ..Margin::ZERO
        };
        Frame::NONE.inner_margin(margin).show(ui, |ui| {
            let caption = Font::Caption.text(caption(cx, here, step)).weak();
            ui.add(egui::Label::new(caption).wrap());
        });
    });
    let rect = row.response.rect;
    let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
    ui.painter()
        .hline(rect.x_range(), rect.bottom() - 0.5, hair);
    if chosen {
        let accent = Stroke::new(3.0, theme.fill(Ink::Accent));
        ui.painter()
            .vline(rect.left() + 1.5, rect.y_range(), accent);
        let shown = &mut cx.own.shown;
        if *shown != here.step {
            row.response.scroll_to_me(None);
            shown.clone_from(&here.step);
        }
    }
}

fn figures(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    here: &Here<'_>,
    at: usize,
    step: &StepSheet,
    told: &mut Option<Derivation>,
) {
    let formatter = &here.formatter;
    let chosen = here.step.as_ref() == Some(&step.id);
    let drill = formatter.step(&here.site.id, &step.id);
    let mut picked = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.add_space(8.0);
        let width = ui.available_width() - LARGE - 3.0 * SMALL;
        let text = format!("{}  {drill}", at + 1);
        let text = Font::StrongBody.text(text);
        let button = egui::Button::selectable(chosen, text)
            .frame(false)
            .truncate();
        ui.allocate_ui_with_layout(
            vec2(width, 28.0),
            egui::Layout::left_to_right(egui::Align::Center),
            |ui| {
                ui.set_min_width(width);
                picked = ui.add(button).clicked();
            },
        );
        let set = formatter.setting(step);
        let fits = step.fits == Fits::AsFarAsKnown;
        let large = match step.set.length() {
            Some(_) if fits => Font::LargeSetting,
            _ => Font::StrongBody,
        };
        let name = cx.text("site-setting-of", &[("step", &drill)]);
        let response = derivation::figure(ui, LARGE, &set, large, &name, told, |name| {
            Derivation::setting(here, name, step)
        });
        picked |= response.clicked();
        let mut small = |ui: &mut Ui, id: &str, figure: Option<&Figure>, text: Option<String>| {
            let name = cx.text(id, &[("step", &drill)]);
            let Some((figure, text)) = figure.zip(text) else {
                ui.add_space(SMALL);
                return;
            };
            let known = matches!(figure.value, Known::Is(_));
            let (font, text) = if known {
                (Font::Line, text)
            } else {
                (Font::Caption, cx.word("site-no-figure"))
            };
            let response = derivation::figure(ui, SMALL, &text, font, &name, told, |name| {
                Derivation::of_step(here, name, (step, figure))
            });
            picked |= response.clicked();
        };
        let length = |figure: &Figure| formatter.set_length(&figure.known_length());
        let (gauge, bench) = (step.gauge.as_ref(), step.bench.as_ref().filter(|_| fits));
        small(ui, "site-gauge-of", gauge, formatter.gauge_figure(step));
        small(ui, "site-cut-of", Some(&step.cut), Some(length(&step.cut)));
        small(ui, "site-bench-of", bench, bench.map(length));
    });
    if picked {
        cx.act(Action::ChooseStep(Some(step.id.clone())));
    }
}

/// Guidance of the drill, its limit and its depth: the instruments by their markings, since those
/// are what a hand looks for. Their names are where the step is changed; a tip here would open over
/// the next step.
fn caption(cx: &Context<'_>, here: &Here<'_>, step: &StepSheet) -> String {
    let formatter = &here.formatter;
    let kit = &here.document.case().kit;
    let sleeve = step.sleeve.as_ref().and_then(|id| kit.drill_sleeve(id));
    let sleeve = sleeve.filter(|_| step.path == StepPath::DrillSleeve);
    let led = match sleeve.and_then(|sleeve| formatter.marking(&sleeve.marking)) {
        Some(marking) => cx.text("site-by-sleeve", &[("marking", &marking)]),
        None => formatter.guidance(step),
    };
    let stop = step.stop.as_ref().and_then(|id| kit.stop(id));
    let stop = match stop.and_then(|stop| formatter.marking(&stop.marking)) {
        Some(marking) => cx.text("site-by-stop", &[("marking", &marking)]),
        None => stop_named(cx, here, step),
    };
    let depth = formatter.depth(&here.site.id, step);
    let mut said = format!("{led} · {stop} · {depth}");
    // What rounding to the gauge gave away stands below the table.
    let gave_away = step.shortfall.length().is_some_and(|short| short.um() > 0);
    if gave_away && step.set.rule != FigureRule::SetGauge {
        said = format!("{said} · {}", formatter.shortfall(step));
    }
    if let Some(reasons) = formatter.setting_reasons(step) {
        said = format!("{said} · {reasons}");
    }
    said
}

fn stop_named(cx: &Context<'_>, here: &Here<'_>, step: &StepSheet) -> String {
    match (&step.stop, here.formatter.mark(step)) {
        (Some(stop), _) => here.formatter.stop(stop),
        (None, Some(mark)) => mark,
        (None, None) => cx.word("site-no-stop"),
    }
}
