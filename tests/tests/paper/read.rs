//! Reading a PDF back with libraries that had no part in writing it: lopdf for what is in it, hayro for
//! pictures, rqrr for codes.

pub(crate) use super::text::lines;
use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings};
use lopdf::{Document, Object};
use std::collections::BTreeMap;

/// The names of the fonts in a PDF, and how many bytes are embedded for each.
pub(crate) fn fonts(bytes: &[u8]) -> BTreeMap<String, usize> {
    let document = Document::load_mem(bytes).unwrap();
    let mut fonts = BTreeMap::new();
    for object in document.objects.values() {
        let Ok(descriptor) = object.as_dict() else {
            continue;
        };
        let Ok(name) = descriptor.get(b"FontName").and_then(Object::as_name) else {
            continue;
        };
        let program = descriptor
            .get(b"FontFile2")
            .and_then(Object::as_reference)
            .and_then(|id| document.get_object(id))
            .and_then(Object::as_stream)
            .unwrap();
        fonts.insert(
            String::from_utf8(name.to_vec()).unwrap(),
            program.content.len(),
        );
    }
    fonts
}

/// Pixels to numbers and back.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a picture has some thousands of pixels a side, counted from 0"
)]
mod pixels {
    pub(super) fn count(length: f64) -> usize {
        length as usize
    }

    pub(super) fn length(count: usize) -> f64 {
        count as f64
    }

    pub(super) fn scale(per_mm: f64) -> f32 {
        (per_mm * 25.4 / 72.0) as f32
    }

    pub(super) fn grey(rgba: &[u8]) -> u8 {
        (rgba
            .iter()
            .take(3)
            .map(|part| u16::from(*part))
            .sum::<u16>()
            / 3) as u8
    }
}

/// A page as a picture in grey, 0 black to 255 white.
pub(crate) struct Picture {
    width: usize,
    height: usize,
    /// Pixels in a millimetre.
    per_mm: f64,
    grey: Vec<u8>,
}

impl Picture {
    /// Draws a page, counted from 1.
    pub(crate) fn of(bytes: &[u8], page: usize, per_mm: f64) -> Self {
        let pdf = Pdf::new(bytes.to_vec()).unwrap();
        let scale = pixels::scale(per_mm);
        let pixmap = hayro::render(
            &pdf.pages()[page - 1],
            &RenderCache::new(),
            &InterpreterSettings::default(),
            &RenderSettings::default(),
            &PixmapSettings {
                x_scale: scale,
                y_scale: scale,
                bg_color: WHITE,
            },
        );
        let grey = pixmap
            .data_as_u8_slice()
            .chunks_exact(4)
            .map(pixels::grey)
            .collect();
        Self {
            width: pixmap.width().into(),
            height: pixmap.height().into(),
            per_mm,
            grey,
        }
    }

    /// Width and height, mm.
    pub(crate) fn size_mm(&self) -> (f64, f64) {
        (
            pixels::length(self.width) / self.per_mm,
            pixels::length(self.height) / self.per_mm,
        )
    }

    /// Brightness of the pixel.
    fn at(&self, column: usize, row: usize) -> u8 {
        self.grey[row * self.width + column]
    }

    /// The leftmost and rightmost dark places, mm, in a level band of the page.
    pub(crate) fn dark_extent(&self, top_mm: f64, bottom_mm: f64) -> Option<(f64, f64)> {
        let row = |mm: f64| pixels::count(mm * self.per_mm).min(self.height - 1);
        let dark =
            |column: &usize| (row(top_mm)..=row(bottom_mm)).any(|row| self.at(*column, row) < 128);
        let left = (0..self.width).find(dark)?;
        let right = (0..self.width).rev().find(dark)?;
        let mm = |edge: usize| pixels::length(edge) / self.per_mm;
        Some((mm(left), mm(right + 1)))
    }

    /// The first dark place, mm, on a level line between two places.
    pub(crate) fn first_dark(&self, y_mm: f64, from_mm: f64, to_mm: f64) -> Option<f64> {
        let pixel = |mm: f64| pixels::count(mm * self.per_mm);
        let row = pixel(y_mm);
        let found = (pixel(from_mm)..pixel(to_mm)).find(|column| self.at(*column, row) < 128)?;
        Some(pixels::length(found) / self.per_mm)
    }

    /// The texts of the QR codes on the page. A shape that only looks like one, such as a tray's
    /// slots, gives none.
    pub(crate) fn codes(&self) -> Vec<String> {
        let mut image =
            rqrr::PreparedImage::prepare_from_greyscale(self.width, self.height, |x, y| {
                self.at(x, y)
            });
        image
            .detect_grids()
            .iter()
            .filter_map(|grid| Some(grid.decode().ok()?.1))
            .collect()
    }
}
