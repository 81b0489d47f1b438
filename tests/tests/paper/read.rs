//! Reading a PDF back with libraries that had no part in writing it: lopdf for text, hayro for
//! pictures, rqrr for codes.

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings};
use lopdf::content::Content;
use lopdf::{Document, Object};
use std::collections::BTreeMap;

/// The text of each text object of a page, in drawing order.
pub(crate) fn lines(bytes: &[u8], page: u32) -> Vec<String> {
    let document = Document::load_mem(bytes).unwrap();
    let page_id = document.get_pages()[&page];
    let encodings: BTreeMap<Vec<u8>, _> = document
        .get_page_fonts(page_id)
        .unwrap()
        .into_iter()
        .map(|(name, font)| (name, font.get_font_encoding(&document).unwrap()))
        .collect();
    let content = Content::decode(&document.get_page_content(page_id)).unwrap();
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut font = None;
    for operation in &content.operations {
        match operation.operator.as_str() {
            "BT" => line.clear(),
            "ET" => lines.push(line.clone()),
            "Tf" => font = encodings.get(operation.operands[0].as_name().unwrap()),
            "Tj" | "TJ" => {
                for bytes in strings(&operation.operands) {
                    line += &Document::decode_text(font.unwrap(), bytes).unwrap();
                }
            }
            _ => {}
        }
    }
    lines
}

fn strings(operands: &[Object]) -> Vec<&[u8]> {
    operands
        .iter()
        .flat_map(|operand| match operand {
            Object::Array(items) => strings(items),
            Object::String(bytes, _) => vec![bytes.as_slice()],
            _ => Vec::new(),
        })
        .collect()
}

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

/// A page as a picture in grey, 0 black to 255 white.
pub(crate) struct Picture {
    /// Pixels in a row.
    pub(crate) width: usize,
    /// Rows.
    pub(crate) height: usize,
    /// Pixels in a millimetre.
    pub(crate) per_mm: f64,
    grey: Vec<u8>,
}

impl Picture {
    /// Draws a page, counted from 1.
    pub(crate) fn of(bytes: &[u8], page: usize, per_mm: f64) -> Self {
        let pdf = Pdf::new(bytes.to_vec()).unwrap();
        let scale = (per_mm * 25.4 / 72.0) as f32;
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
            .map(|rgba| ((u16::from(rgba[0]) + u16::from(rgba[1]) + u16::from(rgba[2])) / 3) as u8)
            .collect();
        Self {
            width: pixmap.width().into(),
            height: pixmap.height().into(),
            per_mm,
            grey,
        }
    }

    /// How bright the pixel is.
    pub(crate) fn at(&self, column: usize, row: usize) -> u8 {
        self.grey[row * self.width + column]
    }

    /// The leftmost and rightmost dark places, mm, in a level band of the page.
    pub(crate) fn dark_extent(&self, top_mm: f64, bottom_mm: f64) -> Option<(f64, f64)> {
        let row = |mm: f64| ((mm * self.per_mm) as usize).min(self.height - 1);
        let dark =
            |column: &usize| (row(top_mm)..=row(bottom_mm)).any(|row| self.at(*column, row) < 128);
        let left = (0..self.width).find(dark)?;
        let right = (0..self.width).rev().find(dark)?;
        let mm = |edge: usize| edge as f64 / self.per_mm;
        Some((mm(left), mm(right + 1)))
    }

    /// What the QR codes on the page say.
    pub(crate) fn codes(&self) -> Vec<String> {
        let mut image =
            rqrr::PreparedImage::prepare_from_greyscale(self.width, self.height, |x, y| {
                self.at(x, y)
            });
        image
            .detect_grids()
            .iter()
            .map(|grid| grid.decode().unwrap().1)
            .collect()
    }
}
