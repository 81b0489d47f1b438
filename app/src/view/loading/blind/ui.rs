//! The screen of a pass without figures. It is given words alone.

use super::facts::{Asked, Drill, Facts, Taken};
use crate::view::loading::instrument::marking_ui;
use crate::view::loading::keys::{self, Pressed};
use crate::view::loading::reading::{keypad, typed_box};
use crate::view::loading::scale::{Weight, line, strong, target};
use crate::view::loading::scene::Brush;
use crate::view::loading::session::{GaugeFell, Input};
use crate::view::loading::start::initials_ui;
use egui::{Align, CentralPanel, Frame, Layout, Panel, ScrollArea, Ui, vec2};
use traywright_core::drawing::Ink;

/// Shows it.
pub(in crate::view::loading) fn ui(
    ui: &mut Ui,
    (brush, frame): (Brush, Frame),
    (facts, told): (&Facts, Option<&str>),
    initials: &mut String,
    out: &mut Vec<Pressed>,
) {
    Panel::top("blind head")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| head(ui, brush, facts));
    Panel::bottom("blind foot")
        .frame(frame)
        .show(ui, |ui| foot(ui, brush, facts, told, out));
    Panel::right("blind right")
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(brush.scale.px(720.0))
        .show(ui, |ui| right(ui, brush, facts, out));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ScrollArea::vertical()
            .id_salt("blind hand")
            .show(ui, |ui| asked(ui, brush, facts, initials, out));
    });
}

fn head(ui: &mut Ui, brush: Brush, facts: &Facts) {
    let (scale, theme) = (brush.scale, brush.theme);
    ui.horizontal(|ui| {
        ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Extend);
        let ink = theme.fill(Ink::Strong);
        strong(ui, facts.title.as_str(), scale.px(44.0), ink);
        ui.add_space(scale.px(16.0));
        line(
            ui,
            facts.case.as_str(),
            scale.px(26.0),
            theme.fill(Ink::Soft),
        );
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            for words in &facts.warnings {
                strong(ui, words.as_str(), scale.px(36.0), theme.fault());
            }
        });
    });
}

fn asked(ui: &mut Ui, brush: Brush, facts: &Facts, initials: &mut String, out: &mut Vec<Pressed>) {
    let (scale, theme) = (brush.scale, brush.theme);
    let ink = theme.fill(Ink::Strong);
    match &facts.asked {
        Asked::Initials(ask) => {
            initials_ui(ui, brush, ask, None, initials, out);
        }
        Asked::Gauge(words) => {
            strong(ui, brush.word("loading-gauge-title"), scale.big(), ink);
            for words in words {
                strong(ui, words.as_str(), scale.px(50.0), ink);
            }
            typed_box(ui, brush, &facts.typed);
        }
        Asked::Drill(drill) => {
            drill_ui(ui, brush, drill);
            typed_box(ui, brush, &facts.typed);
        }
        Asked::Nothing(words) => {
            for words in words {
                strong(ui, words.as_str(), scale.px(58.0), ink);
            }
        }
        Asked::Stopped(why) => {
            strong(
                ui,
                brush.word("loading-stop"),
                scale.px(150.0),
                theme.fault(),
            );
            strong(ui, why.as_str(), scale.big(), ink);
        }
    }
    let (taken, words) = &facts.last;
    let last = match taken {
        Taken::Yes => ink,
        Taken::No => theme.fault(),
    };
    for words in words {
        strong(ui, words.as_str(), scale.px(50.0), last);
    }
    for who in &facts.people {
        line(ui, who.as_str(), scale.text(), ink);
    }
    if let Some(words) = &facts.left_out {
        line(ui, words.as_str(), scale.text(), ink);
    }
}

fn drill_ui(ui: &mut Ui, brush: Brush, drill: &Drill) {
    let (scale, theme) = (brush.scale, brush.theme);
    let ink = theme.fill(Ink::Strong);
    ui.horizontal_wrapped(|ui| {
        if let Some(drawn) = &drill.marking {
            marking_ui(ui, brush, drawn, &drill.marked);
        }
        strong(ui, drill.name.as_str(), scale.px(70.0), ink);
    });
    for site in &drill.sites {
        let words = brush.text("loading-for", &[("site", site)]);
        line(ui, words, scale.px(44.0), ink);
    }
    strong(
        ui,
        drill.action.as_str(),
        scale.big(),
        theme.fill(Ink::Accent),
    );
    strong(ui, brush.word("loading-typed"), scale.told(), ink);
}

/// The drills of the pass, and the keypad below them or the one thing to do next.
fn right(ui: &mut Ui, brush: Brush, facts: &Facts, out: &mut Vec<Pressed>) {
    let (scale, theme) = (brush.scale, brush.theme);
    let width = ui.available_width();
    let keypad_here = matches!(facts.asked, Asked::Gauge(_) | Asked::Drill(_));
    let below = if keypad_here { 4.0 * 118.0 } else { 96.0 };
    let height = (ui.available_height() - scale.px(below + 36.0)).max(scale.px(120.0));
    ScrollArea::vertical()
        .id_salt("blind drills")
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, false])
        .show(ui, |ui| {
            for words in &facts.progress {
                strong(ui, words.as_str(), scale.px(36.0), theme.fill(Ink::Strong));
            }
            for words in &facts.drills {
                line(ui, words.as_str(), scale.px(30.0), theme.fill(Ink::Strong));
            }
        });
    ui.add_space(scale.px(16.0));
    if keypad_here {
        keypad(ui, brush, width, out);
    } else if matches!(facts.asked, Asked::Nothing(_) | Asked::Stopped(_)) {
        let (word, key) = (brush.word("loading-blind-end"), keys::shown(&end()));
        if target(ui, scale, (&word, key), Weight::Main, width).clicked() {
            out.push(end());
        }
    }
}

const fn end() -> Pressed {
    Pressed::Input(Input::End)
}

fn foot(ui: &mut Ui, brush: Brush, facts: &Facts, told: Option<&str>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (brush.scale, brush.theme);
    if let Some(told) = told {
        strong(ui, told, scale.px(44.0), theme.fault());
    }
    line(
        ui,
        brush.word("loading-blind-why"),
        scale.px(26.0),
        theme.fill(Ink::Soft),
    );
    let mut targets = Vec::new();
    if matches!(facts.asked, Asked::Drill(_)) {
        targets.extend([
            ("loading-previous", Pressed::Input(Input::Previous)),
            ("loading-next", Pressed::Input(Input::Next)),
            ("loading-fell", Pressed::Input(Input::Fell)),
            (
                "loading-check-gauge",
                Pressed::Input(Input::Gauge(GaugeFell::No)),
            ),
            (
                "loading-gauge-fell",
                Pressed::Input(Input::Gauge(GaugeFell::Yes)),
            ),
        ]);
    }
    // Where initials are typed, its key would be a letter of them.
    if !matches!(facts.asked, Asked::Initials(_)) {
        targets.push(("loading-blind-end", end()));
    }
    targets.push(("loading-leave", Pressed::Leave));
    let escape = brush.word("loading-key-escape");
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(scale.px(10.0), scale.px(8.0));
        for (id, pressed) in targets {
            let key = match pressed {
                Pressed::Leave => escape.as_str(),
                _ => keys::shown(&pressed),
            };
            if target(ui, scale, (&brush.word(id), key), Weight::Small, 0.0).clicked() {
                out.push(pressed);
            }
        }
    });
}
