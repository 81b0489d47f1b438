//! The bundled fonts cut down to the glyphs that a document uses.

use super::SheetError;
use crate::drawing::fonts::{FontFile, Glyph};
use allsorts::binary::read::ReadScope;
use allsorts::font_data::FontData;
use allsorts::subset::{CmapTarget, SubsetProfile};
use allsorts::tag;
use printpdf::{FontId, ParsedFont, PdfFont};
use std::collections::{BTreeMap, BTreeSet};

/// The glyphs that the pages use, by file.
#[derive(Debug, Default)]
pub(super) struct UsedFonts(BTreeMap<FontFile, BTreeSet<u16>>);

impl UsedFonts {
    /// Notes a glyph.
    pub(super) fn add(&mut self, glyph: &Glyph) {
        self.0.entry(glyph.file).or_default().insert(glyph.id);
    }

    /// The fonts to embed, by the id under which pages name them.
    pub(super) fn subsets(&self) -> Result<Vec<(FontId, PdfFont)>, SheetError> {
        self.0
            .iter()
            .map(|(file, glyphs)| Ok((font_id(*file), PdfFont::new(subset(*file, glyphs)?))))
            .collect()
    }
}

/// The id under which pages name a file.
pub(super) fn font_id(file: FontFile) -> FontId {
    FontId(file.name().to_owned())
}

/// The tables that a viewer needs to draw glyphs by number, and the writer to measure them.
fn profile() -> SubsetProfile {
    SubsetProfile::Custom(vec![
        tag::CMAP,
        tag::HEAD,
        tag::HHEA,
        tag::HMTX,
        tag::MAXP,
        tag::OS_2,
        tag::POST,
    ])
}

fn subset(file: FontFile, glyphs: &BTreeSet<u16>) -> Result<ParsedFont, SheetError> {
    let fault = |problem: String| SheetError::Font {
        font: file.name(),
        problem,
    };
    let font = ReadScope::new(file.bytes())
        .read::<FontData<'_>>()
        .map_err(|error| fault(error.to_string()))?;
    let tables = font
        .table_provider(0)
        .map_err(|error| fault(error.to_string()))?;
    // Glyph 0, which stands for a missing one, comes first by the format's rule.
    let mut ids = vec![0];
    ids.extend(glyphs.iter().copied().filter(|id| *id != 0));
    let bytes = allsorts::subset::subset(&tables, &ids, &profile(), CmapTarget::Unicode)
        .map_err(|error| fault(error.to_string()))?;
    let mut warnings = Vec::new();
    let mut parsed = ParsedFont::from_bytes(&bytes, 0, &mut warnings)
        .ok_or_else(|| fault("the cut-down font cannot be read".to_owned()))?;
    if let Some(warning) = warnings.first() {
        return Err(fault(warning.message.clone()));
    }
    parsed.font_name = Some(format!("{}+{}", tag_of(glyphs), file.name()));
    Ok(parsed)
}

/// Six capitals that distinguish cut-down fonts (ISO 32000-1, 9.6.4), from the glyphs in them.
fn tag_of(glyphs: &BTreeSet<u16>) -> String {
    let mut hash = glyphs.iter().fold(2_166_136_261_u32, |hash, glyph| {
        (hash ^ u32::from(*glyph)).wrapping_mul(16_777_619)
    });
    (0..6)
        .map(|_| {
            let letter = char::from(b'A' + u8::try_from(hash % 26).unwrap_or(0));
            hash /= 26;
            letter
        })
        .collect()
}
