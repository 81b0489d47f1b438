//! The paper machinery, held against readers that had no part in writing.

#[cfg(test)]
mod checklist;
#[cfg(test)]
mod read;
#[cfg(test)]
mod record;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod text;

#[cfg(test)]
mod tests {
    use super::read::{self, Picture};
    use super::sample;
    use traywright_core::drawing::fonts::composed;
    use traywright_core::drawing::{Across, Along, TextStyle, at};
    use traywright_core::sheet::{Page, Paper, SheetError, check, pdf};
    use traywright_core::text::Texts;

    fn sample() -> Vec<u8> {
        pdf::write(&sample::pages(Paper::A4), &sample::about()).unwrap()
    }

    fn written(text: &str) -> Vec<u8> {
        let mut page = Page::new(Paper::A4);
        page.over.text(
            at(20.0, 20.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            text,
        );
        pdf::write(&[page], &sample::about()).unwrap()
    }

    /// Leaves the sample where a person can open it.
    #[test]
    fn the_sample_can_be_looked_at() {
        let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
        for (paper, name) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
            let bytes = pdf::write(&sample::pages(paper), &sample::about()).unwrap();
            std::fs::write(folder.join(format!("paper-sample-{name}.pdf")), bytes).unwrap();
        }
    }

    #[test]
    fn no_text_leaves_its_page_or_lies_on_another() {
        for paper in [Paper::A4, Paper::Letter] {
            assert_eq!(check(&sample::pages(paper), sample::MARGIN), []);
        }
    }

    #[test]
    fn every_line_can_be_read_back_whole() {
        let bytes = sample();
        for (index, page) in sample::pages(Paper::A4).iter().enumerate() {
            let drawn: Vec<String> = page
                .under
                .texts()
                .into_iter()
                .chain(page.over.texts())
                .map(|text| composed(&text.content).into_owned())
                .collect();
            let number = u32::try_from(index).unwrap() + 1;
            assert_eq!(read::lines(&bytes, number), drawn);
        }
    }

    #[test]
    fn signs_scripts_and_placed_marks_can_be_read_back() {
        let signs = "✔ ⌀ ☐ ☑ Ł Ж λ ▲ ◆ ≤ µ ½ → 0123456789 −0.5 ’ʼ Δ∆ Ω";
        assert_eq!(read::lines(&written(signs), 1), [signs]);
        for name in sample::NAMES {
            assert_eq!(read::lines(&written(name), 1), [composed(name)]);
        }
    }

    #[test]
    fn decomposed_text_is_written_composed() {
        let decomposed = "Z\u{307}o\u{301}łc\u{301} И\u{306}";
        assert_ne!(decomposed, "Żółć Й");
        assert_eq!(read::lines(&written(decomposed), 1), ["Żółć Й"]);
    }

    #[test]
    fn a_missing_glyph_is_an_error_not_a_blank() {
        let mut page = Page::new(Paper::A4);
        page.over.text(
            at(20.0, 20.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            "山田",
        );
        let refused = pdf::write(&[page], &sample::about()).unwrap_err();
        assert!(matches!(refused, SheetError::MissingGlyph(_)));
        assert_eq!(
            refused.words(Texts::english()),
            "no bundled font can show U+5C71 in “山田”"
        );
    }

    #[test]
    fn fonts_are_embedded_and_hold_only_what_is_used() {
        let fonts = read::fonts(&written("set 21.4"));
        let names: Vec<&str> = fonts.keys().map(String::as_str).collect();
        assert!(matches!(names[..], [name] if name.ends_with("+TraywrightInterRegular")));
        assert!(fonts.values().all(|size| *size < 6_000), "{fonts:?}");
    }

    #[test]
    fn the_code_says_the_fingerprint() {
        let picture = Picture::of(&sample(), 1, 8.0);
        assert_eq!(picture.codes(), [sample::FINGERPRINT]);
    }

    #[test]
    fn a_millimetre_is_a_millimetre() {
        let picture = Picture::of(&sample(), 1, 20.0);
        let (left, top) = sample::RULER;
        // The ruler's marks without its label: the label begins 2 mm behind its end.
        let band = picture.dark_extent(top + 2.6, top + 3.2).unwrap();
        assert!((band.0 - left).abs() < 0.3, "{band:?}");
        assert!((band.1 - left - 50.0).abs() < 0.3, "{band:?}");
        let (width, height) = picture.size_mm();
        assert!((width - 210.0).abs() < 0.3 && (height - 297.0).abs() < 0.3);
    }

    #[test]
    fn the_document_says_its_title_and_time_and_claims_no_standard() {
        let bytes = sample();
        let document = lopdf::Document::load_mem(&bytes).unwrap();
        let info = document
            .trailer
            .get(b"Info")
            .unwrap()
            .as_reference()
            .unwrap();
        let info = document.get_dictionary(info).unwrap();
        let text = |key: &[u8]| {
            let object = info.get(key).unwrap();
            lopdf::decode_text_string(object).unwrap()
        };
        assert_eq!(text(b"Title"), sample::about().title);
        assert_eq!(text(b"CreationDate"), "D:20310506070809+00'00'");
        assert!(text(b"Producer").starts_with("Traywright "));
        assert!(info.get(b"GTS_PDFXVersion").is_err());
    }
}
