//! Pages into the bytes of a PDF: real text in embedded fonts, vector drawings, nothing else.

mod curve;
mod fonts;
mod ink;
mod text;

use super::error::SheetError;
use super::page::Page;
use flate2::{Compression, write::ZlibEncoder};
use fonts::UsedFonts;
use printpdf::{
    Mm, OffsetDateTime, PdfConformance, PdfDocument, PdfPage, PdfSaveOptions, PdfWarnMsg,
};
use std::io::Write as _;

/// Level of compression of streams, of 9.
const LEVEL: u32 = 6;

/// Metadata of a PDF.
#[derive(Debug, Clone, PartialEq)]
pub struct PdfMetadata {
    /// Its title.
    pub title: String,
    /// The time of making. Passed in, so that the same pages give the same bytes.
    pub made: jiff::Timestamp,
}

/// The PDF of `pages`.
///
/// The same pages and the same [`PdfMetadata`] give the same bytes. Each line of text is one text object, so
/// that it can be found and copied whole; each font holds only the glyphs that are used.
///
/// # Errors
///
/// A character that no bundled font can show, and anything the writer warns of.
pub fn write(pages: &[Page], about: &PdfMetadata) -> Result<Vec<u8>, SheetError> {
    let mut used = UsedFonts::default();
    let mut document = PdfDocument::new(&about.title);
    for page in pages {
        let sheet = page.paper.rect();
        let mut pen = ink::Pen::new(sheet.height(), &mut used);
        pen.draw(page.under.items())?;
        pen.draw(page.over.items())?;
        let ops = pen.finish();
        document
            .pages
            .push(PdfPage::new(mm(sheet.width()), mm(sheet.height()), ops));
    }
    for (id, font) in used.subsets()? {
        document.resources.fonts.map.insert(id, font);
    }
    let made = OffsetDateTime::from_unix_timestamp(about.made.as_second())
        .map_err(|_| SheetError::Time)?;
    let info = &mut document.metadata.info;
    info.creation_date = made;
    info.modification_date = made;
    info.metadata_date = made;
    "Traywright".clone_into(&mut info.creator);
    info.producer = format!("Traywright {}", env!("CARGO_PKG_VERSION"));
    // No claim to a standard that nobody has checked.
    info.conformance = PdfConformance::Custom(printpdf::CustomPdfConformance {
        requires_icc_profile: false,
        requires_xmp_metadata: false,
        ..Default::default()
    });
    to_bytes(&document)
}

fn to_bytes(document: &PdfDocument) -> Result<Vec<u8>, SheetError> {
    let mut warnings: Vec<PdfWarnMsg> = Vec::new();
    let mut file = document.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    if !warnings.is_empty() {
        return Err(SheetError::Writer(
            warnings.into_iter().map(|warning| warning.msg).collect(),
        ));
    }
    // The writer's own additions that would make two runs differ, or claim what is not so.
    file.trailer.remove(b"ID");
    for object in file.objects.values_mut() {
        if let Ok(dictionary) = object.as_dict_mut() {
            dictionary.remove(b"GTS_PDFXVersion");
            dictionary.remove(b"Identifier");
        }
        if let Ok(stream) = object.as_stream_mut()
            && stream.allows_compression
            && !stream.dict.has(b"Filter")
        {
            let short = deflated(&stream.content)
                .map_err(|error| SheetError::Writer(vec![error.to_string()]))?;
            if short.len() < stream.content.len() {
                stream.dict.set("Filter", "FlateDecode");
                stream.set_content(short);
            }
        }
    }
    let mut bytes = Vec::new();
    file.save_to(&mut bytes)
        .map_err(|error| SheetError::Writer(vec![error.to_string()]))?;
    Ok(bytes)
}

/// The content compressed. The writer's own way tries hardest, which takes far longer for hardly
/// less.
fn deflated(content: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(LEVEL));
    encoder.write_all(content)?;
    encoder.finish()
}

/// Millimetres as the writer takes them.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a PDF holds single precision"
)]
const fn mm(length: f64) -> Mm {
    Mm(length as f32)
}

/// Points, to a thousandth: 0.35 µm, and short to write.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a PDF holds single precision"
)]
fn points(mm: f64) -> f32 {
    (libm::round(mm * 72.0 / 25.4 * 1000.0) / 1000.0) as f32
}

#[cfg(test)]
mod tests {
    use super::super::page::Paper;
    use super::*;
    use crate::drawing::{Across, Along, TextStyle, at};

    fn about() -> PdfMetadata {
        PdfMetadata {
            title: "a title".to_owned(),
            made: jiff::Timestamp::from_second(1_700_000_000).unwrap(),
        }
    }

    fn page(words: &str) -> Page {
        let mut page = Page::new(Paper::A4);
        page.over.text(
            at(20.0, 20.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            words,
        );
        page
    }

    #[test]
    fn the_same_pages_give_the_same_bytes() {
        let pages = [page("setting 21.4 mm ✔"), page("second")];
        let first = write(&pages, &about()).unwrap();
        assert!(first.starts_with(b"%PDF-"));
        assert_eq!(first, write(&pages, &about()).unwrap());
    }

    #[test]
    fn a_character_that_no_font_has_keeps_the_sheet_from_being_written() {
        let refused = write(&[page("Dr. 李")], &about()).unwrap_err();
        assert!(matches!(refused, SheetError::MissingGlyph(missing) if missing.character == '李'));
    }

    #[test]
    fn points_are_short_and_exact_enough() {
        assert!((f64::from(points(100.0)) * 25.4 / 72.0 - 100.0).abs() < 0.001);
    }
}
