//! A QR code as a drawing.

use super::geometry::{Point, Rect, at};
use super::item::{Drawing, Item};
use super::style::{Ink, Paint};
use std::collections::{BTreeMap, BTreeSet};

/// White modules that a reader needs on every side (ISO/IEC 18004, from memory).
const QUIET: usize = 4;

/// A text is too long for a QR code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{length} bytes are too many for a QR code")]
pub struct QrError {
    /// Length of the text, bytes.
    pub length: usize,
}

/// The QR code of `content` with modules of `module_mm`, quiet zone included; its top left corner
/// is the origin. Error correction is of level M: 15 % of it may be lost.
///
/// # Errors
///
/// A text that is too long.
pub fn qr(content: &str, module_mm: f64) -> Result<Drawing, QrError> {
    let code =
        qrcode::QrCode::with_error_correction_level(content, qrcode::EcLevel::M).map_err(|_| {
            QrError {
                length: content.len(),
            }
        })?;
    let width = code.width();
    #[expect(
        clippy::cast_precision_loss,
        reason = "a QR code has at most 177 modules a side"
    )]
    let corner = |column: usize, row: usize| -> Point {
        at(
            (column + QUIET) as f64 * module_mm,
            (row + QUIET) as f64 * module_mm,
        )
    };
    let mut drawing = Drawing::new();
    let end = corner(width + QUIET, width + QUIET);
    drawing.rect(Rect::between(at(0.0, 0.0), end), Paint::fill(Ink::Ground));
    // Dark modules side by side are one box, and so are equal runs in rows below each other.
    let mut rings = Vec::new();
    let mut open: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let colours = code.to_colors();
    for row in 0..=width {
        let modules = colours.chunks(width).nth(row).unwrap_or_default();
        let here = runs(modules);
        open.retain(|&(from, to), first| {
            let goes_on = here.contains(&(from, to));
            if !goes_on {
                let whole = Rect::between(corner(from, *first), corner(to, row));
                rings.push(whole.corners().to_vec());
            }
            goes_on
        });
        for run in here {
            open.entry(run).or_insert(row);
        }
    }
    // One shape, so that no hair of white shows between its rows.
    drawing.push(Item::Polygon {
        rings,
        paint: Paint::fill(Ink::Strong),
    });
    Ok(drawing)
}

/// The runs of dark modules in a row: the first column of each and the one behind its last.
fn runs(modules: &[qrcode::Color]) -> BTreeSet<(usize, usize)> {
    let mut runs = BTreeSet::new();
    let mut column = 0;
    while column < modules.len() {
        let dark = modules[column..]
            .iter()
            .take_while(|module| **module == qrcode::Color::Dark)
            .count();
        if dark > 0 {
            runs.insert((column, column + dark));
        }
        column += dark.max(1);
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quiet_zone_is_part_of_the_drawing() {
        let drawing = qr("8RWD 5JTC 0N4K", 0.5).unwrap();
        let all = drawing.bounds().unwrap();
        let dark = drawing.items()[1].bounds().unwrap();
        // Version 1 has 21 modules a side.
        assert!((dark.width() - 10.5).abs() < 1e-9);
        assert!((all.width() - 14.5).abs() < 1e-9);
        assert!((dark.left - all.left - 2.0).abs() < 1e-9);
    }

    #[test]
    fn a_text_that_is_too_long_is_refused() {
        assert_eq!(qr(&"x".repeat(4000), 0.5), Err(QrError { length: 4000 }));
    }
}
