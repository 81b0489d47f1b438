//! A line of text into the operations of a PDF page: one text object each, whole.

use super::fonts::font_id;
use super::{SheetError, points};
use crate::drawing::Text;
use crate::drawing::fonts::{self, Glyph, Shaped};
use printpdf::{DictItem, Op, PdfFontHandle, Pt, TextItem, TextMatrix};
use std::collections::BTreeMap;

/// The glyphs of a line.
pub(super) fn shaped(line: &Text) -> Result<Shaped, SheetError> {
    Ok(fonts::shape(&line.content, line.style.face)?)
}

/// The operations that show a line whose baseline begins at `origin`.
///
/// A line with placed marks also says what it reads as (ISO 32000-1, 14.9.4): a reader that goes by
/// places alone would take a raised mark for a line of its own.
pub(super) fn ops(line: &Text, shaped: &Shaped, origin: printpdf::Point) -> Vec<Op> {
    let ops = shown(line, shaped, origin);
    if shaped.glyphs.iter().all(|glyph| !differ(glyph.y, 0.0)) {
        return ops;
    }
    let mut marked = vec![Op::BeginMarkedContentWithProperties {
        tag: "Span".to_owned(),
        properties: actual_text(&fonts::composed(&line.content)),
    }];
    marked.extend(ops);
    marked.push(Op::EndMarkedContentWithProperties);
    marked
}

/// A text as a PDF's strings hold any script: UTF-16 with its byte order mark.
fn actual_text(text: &str) -> DictItem {
    let mut data = vec![0xFE, 0xFF];
    data.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    let text = DictItem::String {
        data,
        literal: false,
    };
    DictItem::Dict {
        map: BTreeMap::from([("ActualText".to_owned(), text)]),
    }
}

fn shown(line: &Text, shaped: &Shaped, origin: printpdf::Point) -> Vec<Op> {
    let size = points(line.style.size_mm);
    let mut ops = vec![Op::StartTextSection];
    let mut pen = 0.0;
    let mut begun = false;
    let mut raised = 0.0;
    for run in runs(&shaped.glyphs) {
        ops.push(Op::SetFont {
            font: PdfFontHandle::External(font_id(run[0].file)),
            size: Pt(size),
        });
        if !begun {
            ops.push(Op::SetTextMatrix {
                matrix: matrix(line.turn_deg, origin),
            });
            begun = true;
        }
        let raise = run[0].y * line.style.size_mm;
        if differ(raise, raised) {
            ops.push(Op::SetLineOffset {
                multiplier: points(raise),
            });
            raised = raise;
        }
        ops.push(Op::ShowText {
            items: items(run, &mut pen),
        });
    }
    if differ(raised, 0.0) {
        ops.push(Op::SetLineOffset { multiplier: 0.0 });
    }
    ops.push(Op::EndTextSection);
    ops
}

/// Glyphs that follow each other in the same font at the same height.
fn runs(glyphs: &[Glyph]) -> impl Iterator<Item = &[Glyph]> {
    glyphs.chunk_by(|a, b| a.file == b.file && !differ(a.y, b.y))
}

/// Text of a run, with a shift wherever a glyph does not begin where the last one ended.
fn items(run: &[Glyph], pen: &mut f64) -> Vec<TextItem> {
    let mut items = Vec::new();
    let mut text = String::new();
    for glyph in run {
        if differ(glyph.x, *pen) {
            if !text.is_empty() {
                items.push(TextItem::Text(std::mem::take(&mut text)));
            }
            // A positive number moves back, in thousandths of the size.
            items.push(TextItem::Offset(thousandths(*pen - glyph.x)));
        }
        text.push(glyph.character);
        *pen = glyph.x + glyph.advance;
    }
    items.push(TextItem::Text(text));
    items
}

fn differ(a: f64, b: f64) -> bool {
    (a - b).abs() > 1e-4
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a PDF holds single precision"
)]
fn thousandths(share: f64) -> f32 {
    libm::round(share * 1000.0) as f32
}

/// The text matrix for a line that begins at a place and is turned clockwise.
fn matrix(turn_deg: f64, origin: printpdf::Point) -> TextMatrix {
    let (sin, cos) = libm::sincos(turn_deg.to_radians());
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a PDF holds single precision"
    )]
    let [sin, cos] = [sin, cos].map(|part| (libm::round(part * 1e6) / 1e6) as f32);
    // A PDF counts y upwards, so a clockwise turn is a negative one there.
    TextMatrix::Raw([cos, -sin, sin, cos, origin.x.0, origin.y.0])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Across, Along, TextStyle, at};

    fn line(content: &str) -> Vec<Op> {
        let line = Text {
            place: at(0.0, 0.0),
            anchor: (Across::Start, Along::Baseline),
            content: content.to_owned(),
            style: TextStyle::BODY,
            turn_deg: 0.0,
        };
        let origin = printpdf::Point {
            x: Pt(0.0),
            y: Pt(0.0),
        };
        ops(&line, &shaped(&line).unwrap(), origin)
    }

    fn shows(ops: &[Op]) -> Vec<Vec<TextItem>> {
        ops.iter()
            .filter_map(|op| match op {
                Op::ShowText { items } => Some(items.clone()),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn a_line_in_one_font_is_one_string() {
        let shown = shows(&line("set 21.4 mm"));
        assert_eq!(shown, [[TextItem::Text("set 21.4 mm".to_owned())]]);
    }

    #[test]
    fn digits_stay_together_where_the_font_changes() {
        let shown = shows(&line("⌀ 4.7 ✔ 21.4"));
        let texts: Vec<_> = shown.iter().flatten().cloned().collect();
        let expected = ["⌀", " 4.7 ", "✔", " 21.4"].map(|text| TextItem::Text(text.to_owned()));
        assert_eq!(texts, expected);
    }

    #[test]
    fn a_mark_is_raised_shifted_and_the_line_goes_on_where_it_was() {
        let ops = line("Ọ\u{301}a");
        let offsets: Vec<f32> = ops
            .iter()
            .filter_map(|op| match op {
                Op::SetLineOffset { multiplier } => Some(*multiplier),
                _ => None,
            })
            .collect();
        assert!(offsets[0] > 0.5, "{offsets:?}");
        assert!(offsets[1].abs() < 1e-6 && offsets.len() == 2);
        let items: Vec<_> = shows(&ops).into_iter().flatten().collect();
        assert!(
            matches!(items[1], TextItem::Offset(back) if back > 0.0),
            "{items:?}"
        );
    }
}
