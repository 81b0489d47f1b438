//! The same fonts as on paper.

use egui::{FontData, FontDefinitions, FontFamily};
use std::sync::Arc;
use traywright_core::drawing::fonts::{Face, FontFile};

/// The family of bold text.
const BOLD: &str = "bold";

/// The family of bold text.
#[must_use]
pub fn bold() -> FontFamily {
    FontFamily::Name(BOLD.into())
}

/// Puts the bundled fonts in place of egui's own; the system's are never asked, so that text looks
/// the same everywhere.
pub fn install(ctx: &egui::Context) {
    let mut fonts = FontDefinitions::empty();
    for file in FontFile::ALL {
        let data = FontData::from_static(file.bytes());
        fonts
            .font_data
            .insert(file.name().to_owned(), Arc::new(data));
    }
    let names = |face| {
        FontFile::of(face)
            .map(|file| file.name().to_owned())
            .to_vec()
    };
    for (family, face) in [
        (FontFamily::Proportional, Face::Regular),
        (FontFamily::Monospace, Face::Regular),
        (bold(), Face::Bold),
    ] {
        fonts.families.insert(family, names(face));
    }
    ctx.set_fonts(fonts);
}
