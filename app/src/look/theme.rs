//! Colours by meaning, in two modes.
//!
//! Verdict colours are from the palette that Okabe and Ito made for all kinds of colour vision;
//! they are fills under shapes and words that say the same.

use super::Font;
use egui::{Color32, CornerRadius, Stroke, TextStyle, Visuals};
use serde::{Deserialize, Serialize};
use traywright_core::drawing::Ink;

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mode {
    /// Dark ink on paper.
    #[default]
    Light,
    /// Light ink on a dark ground.
    Dark,
}

/// Colours by meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Theme {
    /// Light or dark.
    pub mode: Mode,
}

const fn rgb(code: u32) -> Color32 {
    let [_, r, g, b] = code.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

impl Theme {
    /// The theme of a mode.
    #[must_use]
    pub const fn new(mode: Mode) -> Self {
        Self { mode }
    }

    /// The theme that a context was given.
    #[must_use]
    pub fn of(ui: &egui::Ui) -> Self {
        Self::new(if ui.visuals().dark_mode {
            Mode::Dark
        } else {
            Mode::Light
        })
    }

    const fn pick(self, light: u32, dark: u32) -> Color32 {
        rgb(match self.mode {
            Mode::Light => light,
            Mode::Dark => dark,
        })
    }

    /// The colour of a surface of this meaning.
    #[must_use]
    pub const fn fill(self, ink: Ink) -> Color32 {
        match ink {
            Ink::Strong => self.pick(0x1a_1a1a, 0xec_eae4),
            Ink::Soft => self.pick(0x55_544f, 0xb9_b6ad),
            Ink::Faint => self.pick(0x6e_6d67, 0x99_968e),
            Ink::Hairline => self.pick(0xcf_cdc4, 0x45_4644),
            Ink::Accent => self.pick(0x00_6aa6, 0x56_b4e9),
            Ink::Ground | Ink::Clear | Ink::Unknown | Ink::Accepted | Ink::Danger => {
                self.pick(0xfc_fbf7, 0x19_1a1b)
            }
            Ink::Shade => self.pick(0xf1_efe7, 0x26_2728),
            Ink::Tooth => self.pick(0xff_ffff, 0x22_2324),
            Ink::Bone => self.pick(0xea_e0cb, 0x3a_3428),
            Ink::Tissue => self.pick(0xf3_dfdb, 0x43_2e2b),
            Ink::Guide => self.pick(0xec_ebe3, 0x2e_3031),
            Ink::Metal => self.pick(0xfa_faf8, 0x3a_3c3e),
            Ink::Cut => self.pick(0xff_fdf8, 0x14_1414),
            Ink::Implant => self.pick(0xdd_eaf3, 0x24_3d4e),
            Ink::Tight => self.pick(0xe6_9f00, 0x7d_5600),
            Ink::Short => self.pick(0xd5_5e00, 0xa8_4a00),
            Ink::Intended => self.pick(0x56_b4e9, 0x1f_5d82),
            Ink::Watermark => self.pick(0xe9_e7df, 0x2b_2c2d),
        }
    }

    /// The colour of a line or text of this meaning.
    #[must_use]
    pub const fn line(self, ink: Ink) -> Color32 {
        match ink {
            Ink::Metal
            | Ink::Danger
            | Ink::Clear
            | Ink::Tight
            | Ink::Short
            | Ink::Unknown
            | Ink::Accepted
            | Ink::Intended => self.fill(Ink::Strong),
            Ink::Tooth => self.pick(0x8f_8c80, 0x8d_8a81),
            Ink::Bone => self.pick(0x6f_5f3c, 0xb5_a37c),
            Ink::Tissue => self.pick(0x8a_4a43, 0xd0_938b),
            Ink::Guide | Ink::Shade => self.pick(0x80_7f74, 0x8b_8d8f),
            Ink::Cut => self.pick(0x40_403e, 0xc4_c2bb),
            Ink::Implant => self.pick(0x00_5a8c, 0x7c_c3ee),
            other => self.fill(other),
        }
    }

    /// The colour of words about something that is wrong with what was typed.
    #[must_use]
    pub const fn fault(self) -> Color32 {
        self.pick(0x9c_3d00, 0xff_a75e)
    }

    /// Gives a context this look.
    pub fn install(self, ctx: &egui::Context) {
        let theme = match self.mode {
            Mode::Light => egui::Theme::Light,
            Mode::Dark => egui::Theme::Dark,
        };
        ctx.set_theme(theme);
        ctx.all_styles_mut(|style| {
            style.visuals = self.visuals();
            style.text_styles = [
                (TextStyle::Small, Font::Caption.id()),
                (TextStyle::Body, Font::Body.id()),
                (TextStyle::Button, Font::Body.id()),
                (TextStyle::Monospace, Font::Body.id()),
                (TextStyle::Heading, Font::Title.id()),
            ]
            .into();
            style.spacing.item_spacing = egui::vec2(8.0, 6.0);
            style.spacing.button_padding = egui::vec2(10.0, 5.0);
            style.spacing.interact_size = egui::vec2(40.0, 26.0);
            style.animation_time = 0.0;
        });
    }

    fn visuals(self) -> Visuals {
        let mut visuals = match self.mode {
            Mode::Light => Visuals::light(),
            Mode::Dark => Visuals::dark(),
        };
        let ground = self.fill(Ink::Ground);
        let ink = self.fill(Ink::Strong);
        let hair = Stroke::new(1.0, self.fill(Ink::Hairline));
        let edge = Stroke::new(1.0, self.line(Ink::Guide));
        let accent = self.fill(Ink::Accent);
        visuals.panel_fill = ground;
        visuals.window_fill = ground;
        visuals.extreme_bg_color = self.fill(Ink::Tooth);
        visuals.faint_bg_color = self.fill(Ink::Shade);
        visuals.window_stroke = edge;
        visuals.window_shadow = egui::Shadow::NONE;
        visuals.popup_shadow = egui::Shadow::NONE;
        visuals.weak_text_color = Some(self.fill(Ink::Soft));
        visuals.selection.bg_fill = self.pick(0xcf_e4f2, 0x1d_4663);
        visuals.selection.stroke = Stroke::new(1.5, accent);
        visuals.hyperlink_color = accent;
        visuals.error_fg_color = self.fault();
        visuals.warn_fg_color = self.fault();
        visuals.text_cursor.blink = false;
        let corner = CornerRadius::same(3);
        let widgets = &mut visuals.widgets;
        for (state, fill, stroke, text) in [
            (&mut widgets.noninteractive, ground, hair, ink),
            (&mut widgets.inactive, self.fill(Ink::Tooth), edge, ink),
            (
                &mut widgets.hovered,
                self.fill(Ink::Shade),
                Stroke::new(1.0, ink),
                ink,
            ),
            (
                &mut widgets.active,
                self.fill(Ink::Shade),
                Stroke::new(2.0, accent),
                ink,
            ),
            (&mut widgets.open, self.fill(Ink::Shade), edge, ink),
        ] {
            state.bg_fill = fill;
            state.weak_bg_fill = fill;
            state.bg_stroke = stroke;
            state.fg_stroke = Stroke::new(1.0, text);
            state.corner_radius = corner;
            state.expansion = 0.0;
        }
        visuals
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast as WCAG 2 defines them (formula from memory).
    fn luminance(colour: Color32) -> f64 {
        let channel = |value: u8| {
            let share = f64::from(value) / 255.0;
            if share <= 0.040_45 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(colour.r()) + 0.7152 * channel(colour.g()) + 0.0722 * channel(colour.b())
    }

    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    const MODES: [Mode; 2] = [Mode::Light, Mode::Dark];

    #[test]
    fn text_stands_out_from_every_ground_that_it_is_set_on() {
        for mode in MODES {
            let theme = Theme::new(mode);
            for ground in [Ink::Ground, Ink::Shade, Ink::Tooth] {
                for ink in [Ink::Strong, Ink::Soft, Ink::Faint, Ink::Accent] {
                    let found = contrast(theme.line(ink), theme.fill(ground));
                    assert!(found >= 4.5, "{mode:?} {ink:?} on {ground:?}: {found:.2}");
                }
                let found = contrast(theme.fault(), theme.fill(ground));
                assert!(found >= 4.5, "{mode:?} fault on {ground:?}: {found:.2}");
            }
            let chosen = theme.visuals().selection.bg_fill;
            assert!(contrast(theme.fill(Ink::Strong), chosen) >= 4.5, "{mode:?}");
        }
    }

    #[test]
    fn marks_and_outlines_stand_out_from_what_they_lie_on() {
        for mode in MODES {
            let theme = Theme::new(mode);
            for ink in [
                Ink::Clear,
                Ink::Tight,
                Ink::Short,
                Ink::Unknown,
                Ink::Accepted,
                Ink::Intended,
            ] {
                let found = contrast(theme.line(ink), theme.fill(ink));
                assert!(found >= 3.0, "{mode:?} {ink:?}: {found:.2}");
            }
            for ink in [
                Ink::Tooth,
                Ink::Bone,
                Ink::Tissue,
                Ink::Guide,
                Ink::Cut,
                Ink::Implant,
                Ink::Metal,
            ] {
                for ground in [Ink::Ground, ink] {
                    let found = contrast(theme.line(ink), theme.fill(ground));
                    assert!(found >= 3.0, "{mode:?} {ink:?} on {ground:?}: {found:.2}");
                }
            }
        }
    }
}
