//! The pages as drawings, laid out once for each state of the case.

use super::thumb::thumb;
use crate::canvas::CachedDrawing;
use crate::desk::Document;
use crate::desk::policy;
use traywright_core::dentition::Notation;
use traywright_core::run::BestOrder;
use traywright_core::sheet::Page;
use traywright_core::sheet::checklist::{Printing, SheetPart, Signed, checklist, page_counts};
use traywright_core::text::Texts;

/// The pages of the checklist.
#[derive(Debug)]
pub(super) struct Pages {
    of: State,
    /// The pages, or why there are none.
    pub(super) leaves: Result<Vec<Leaf>, String>,
    /// The number of pages that each part takes by itself, also of those that are not chosen.
    pub(super) counts: [(SheetPart, usize); 3],
}

/// The state that the pages depend on. The time of printing is not among it: the pages show the
/// time at which they are laid out.
type State = (u64, Printing, Notation, Signed, Option<BestOrder>);

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
        printing: Printing,
        notation: Notation,
        now: jiff::Timestamp,
    ) -> Self {
        let record = (&document.record.events, &document.record.standing);
        let signed = Signed::of(document.case(), record, &policy());
        let state = (
            document.generation(),
            printing,
            notation,
            signed,
            best.cloned(),
        );
        match kept {
            Some(kept) if kept.of == state => kept,
            _ => {
                let (case, worksheet) = (document.case(), document.worksheet());
                let of = &document.record;
                let signed = state.3.clone();
                let signed = &signed.with_day((case, worksheet), (&of.view, &of.standing));
                let pages = checklist(case, worksheet, signed, best, printing, notation, now);
                let counts = page_counts(case, worksheet, signed, best, printing, notation, now);
                let leaves = pages
                    .map(|pages| pages.iter().map(Leaf::of).collect())
                    .map_err(|error| error.words(Texts::english()));
                Self {
                    of: state,
                    leaves,
                    // Where there are no pages, why not is told instead.
                    counts: counts.unwrap_or(SheetPart::ALL.map(|part| (part, 0))),
                }
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
    use traywright_core::sheet::Paper;
    use traywright_core::sheet::checklist::Parts;

    fn pages(kept: Option<Pages>, document: &Document, paper: Paper, second: i64) -> Pages {
        let now = jiff::Timestamp::from_second(second).unwrap();
        let printing = Printing::all(paper);
        Pages::of(kept, document, None, printing, Notation::Iso, now)
    }

    fn printed(pages: &Pages) -> Vec<String> {
        let leaves = pages.leaves.as_ref().unwrap();
        leaves.iter().map(|leaf| leaf.text.clone()).collect()
    }

    /// The counts beside the parts are those of the pages that are then written, whatever is chosen.
    #[test]
    fn each_part_has_as_many_pages_as_is_told() {
        let (_, bytes) = DEMOS[0];
        let document = Document::unsaved(demo_case(bytes));
        let now = jiff::Timestamp::from_second(1_000_000).unwrap();
        let all = pages(None, &document, Paper::A4, 1_000_000);
        for (part, count) in all.counts {
            let printing = Printing {
                parts: Parts::of([part]),
                ..Printing::all(Paper::A4)
            };
            let one = Pages::of(None, &document, None, printing, Notation::Iso, now);
            assert_eq!(one.leaves.as_ref().unwrap().len(), count, "{part:?}");
            assert_eq!(one.counts, all.counts);
            assert!(count > 0);
        }
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
