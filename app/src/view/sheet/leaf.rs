//! The pages as drawings, laid out once for each state of the case.

use super::thumb::thumb;
use crate::canvas::CachedDrawing;
use crate::desk::Document;
use crate::desk::policy;
use traywright_core::dentition::Notation;
use traywright_core::run::BestOrder;
use traywright_core::sheet::checklist::{Signed, checklist};
use traywright_core::sheet::{Page, Paper};
use traywright_core::text::Texts;

/// The pages of the checklist.
#[derive(Debug)]
pub(super) struct Pages {
    of: State,
    /// The pages, or why there are none.
    pub(super) leaves: Result<Vec<Leaf>, String>,
}

/// The state that the pages depend on. The time of printing is not among it: the pages show the
/// time at which they are laid out.
type State = (u64, Paper, Notation, Signed, Option<BestOrder>);

/// One page.
#[derive(Debug)]
pub(super) struct Leaf {
    /// The title of the part that it belongs to.
    pub(super) title: String,
    /// All its words, for those who cannot see it.
    pub(super) text: String,
    /// The page.
    pub(super) cached: CachedDrawing,
    /// The page from afar.
    pub(super) thumb: CachedDrawing,
}

impl Pages {
    /// The pages of a case as it is, laid out anew only where `kept` are of another state.
    pub(super) fn of(
        kept: Option<Self>,
        document: &Document,
        best: Option<&BestOrder>,
        paper: Paper,
        notation: Notation,
        now: jiff::Timestamp,
    ) -> Self {
        let signed = Signed::of(
            &document.record.events,
            &document.record.standing,
            &policy(),
        );
        let state = (
            document.generation(),
            paper,
            notation,
            signed,
            best.cloned(),
        );
        match kept {
            Some(kept) if kept.of == state => kept,
            _ => {
                let (case, worksheet) = (document.case(), document.worksheet());
                let pages = checklist(case, worksheet, &state.3, best, paper, notation, now);
                let leaves = pages
                    .map(|pages| pages.iter().map(Leaf::of).collect())
                    .map_err(|error| error.words(Texts::english()));
                Self { of: state, leaves }
            }
        }
    }
}

impl Leaf {
    fn of(page: &Page) -> Self {
        let drawing = page.drawing();
        let texts = page.over.texts();
        let texts: Vec<&str> = texts.iter().map(|text| text.content.as_str()).collect();
        Self {
            title: page.title.clone(),
            text: texts.join("; "),
            thumb: CachedDrawing::new(thumb(&drawing)),
            cached: CachedDrawing::new(drawing),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use traywright_core::case::Edit;

    fn pages(kept: Option<Pages>, document: &Document, paper: Paper, second: i64) -> Pages {
        let now = jiff::Timestamp::from_second(second).unwrap();
        Pages::of(kept, document, None, paper, Notation::Iso, now)
    }

    fn printed(pages: &Pages) -> Vec<String> {
        let leaves = pages.leaves.as_ref().unwrap();
        leaves.iter().map(|leaf| leaf.text.clone()).collect()
    }

    #[test]
    fn pages_are_laid_out_anew_when_the_case_or_the_paper_changed_and_not_as_time_goes_by() {
        let (_, bytes) = DEMOS[0];
        let mut document = Document::unsaved(demo_case(bytes));
        let first = pages(None, &document, Paper::A4, 1_000_000);
        let before = printed(&first);
        let later = pages(Some(first), &document, Paper::A4, 2_000_000);
        assert_eq!(printed(&later), before);
        let letter = pages(Some(later), &document, Paper::Letter, 2_000_000);
        assert_ne!(printed(&letter), before);
        let note = Edit::SetNote(Some("bring the long driver".to_owned()));
        document.edit("note".to_owned(), &[note], None).unwrap();
        let noted = pages(Some(letter), &document, Paper::Letter, 2_000_000);
        let all = printed(&noted).join(" ");
        assert!(all.contains("bring the long driver"));
    }
}
