//! The printed checklist of a case: every page from the worksheet to the last signature line.
//!
//! It has parts that are printed together or each by itself ([`SheetPart`]). The form is for the room: the
//! team's questions, the second reading and the counts, the tray, the order of use. The strip is the true-scale one. The
//! annex is the surgeon's: the plan at a glance with its limits, what changes between the steps, one site after the
//! other. Each page bears the case, the jaw in words, revision, fingerprint and state, so that a single sheet cannot be
//! taken for another; the first of each part has the box for the patient's label.
//!
//! **Deliberately absent:** any clinical figure of its own, and any sentence: words come from
//! [`Formatter`] and the texts.

mod actionable;
mod arrange;
mod as_recorded;
mod beside_tray;
mod chosen;
mod counts;
mod day_record;
mod done;
mod every_page;
mod findings;
mod form;
mod glance;
mod implants;
mod instruments;
mod judged;
mod legend;
mod limits;
mod loading;
mod order;
mod overview;
mod parts;
mod pieces;
mod places;
mod recorded;
mod run;
mod safety;
mod second;
mod set_anew;
mod signatures;
mod signed;
mod site;
mod sounded;
mod strip;
#[cfg(test)]
mod tests;
mod then;
mod tray;

pub use chosen::{Parts, Readings, SheetPart};
pub use day_record::{record_pages, record_pdf};
pub use done::DayOnPaper;
pub use recorded::{IsSet, Out, RecordedItem, RecordedReading};
pub use signed::{ApprovalState, Signed};

use super::error::SheetError;
use super::flow::{Flow, flowed};
use super::page::{Page, Paper};
use super::pdf::{self, PdfMetadata};
use crate::case::ValidCase;
use crate::dentition::Notation;
use crate::plan::Worksheet;
use crate::run::BestOrder;
use crate::wording::Formatter;
use arrange::{PartPages, arranged};
use done::ToldOfDay;
use every_page::{EveryPage, Heading};
use jiff::Timestamp;
use parts::Part;

/// Everything that the pages are made from.
#[derive(Clone, Copy)]
struct Source<'a> {
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    signed: &'a Signed,
    best: Option<&'a BestOrder>,
    formatter: Formatter<'a>,
    paper: Paper,
    readings: Readings,
    told: ToldOfDay,
    printed_at: Timestamp,
}

/// The paper and the parts to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Printing {
    /// The size of paper.
    pub paper: Paper,
    /// The parts.
    pub parts: Parts,
    /// The boxes for readings.
    pub readings: Readings,
}

impl Printing {
    /// All parts on this paper.
    #[must_use]
    pub const fn all(paper: Paper) -> Self {
        Self {
            paper,
            parts: Parts::ALL,
            readings: Readings::Blank,
        }
    }
}

/// The pages of a case's checklist.
///
/// `worksheet` is the one worked out from `case`, `best` the best order that was found for it, where one
/// was looked for. The same arguments give the same pages.
///
/// # Errors
///
/// Something that must stay together is higher than a page.
pub fn checklist(
    case: &ValidCase,
    worksheet: &Worksheet,
    signed: &Signed,
    best: Option<&BestOrder>,
    printing: Printing,
    notation: Notation,
    printed_at: Timestamp,
) -> Result<Vec<Page>, SheetError> {
    let source = Source {
        case,
        worksheet,
        signed,
        best,
        formatter: Formatter::english(case, notation),
        paper: printing.paper,
        readings: printing.readings,
        told: ToldOfDay::Nothing,
        printed_at,
    };
    let every = EveryPage::new(&source)?;
    let mut printed = Vec::new();
    if printing.parts.holds(SheetPart::Form) {
        printed.extend(form::pages(&source, &every)?);
    }
    for (part, labelled) in chosen(&source, printing.parts) {
        let heading = part.heading(&source);
        let first = every.first_frame(&heading, labelled);
        let further = every.frame(&heading);
        printed.push(PartPages {
            bears_no_setting: false,
            is_reading: false,
            pages: flowed(&part.blocks(&source, first), first, further)?,
            heading,
            further: None,
            labelled,
        });
    }
    let left_free = |heading: &Heading| -> Result<Vec<Page>, SheetError> {
        let mut flow = Flow::new(every.frame(heading));
        flow.add(&pieces::note(source.formatter.word("sheet-left-free")))?;
        flow.finish()
    };
    let parts = arranged(printed, left_free)?;
    let mut pages = every.finish(parts);
    // What was recorded stays recorded: a name that no font has makes no case unprintable.
    for page in &mut pages {
        page.under.stand_in();
        page.over.stand_in();
    }
    Ok(pages)
}

/// The checklist as the bytes of a PDF.
///
/// # Errors
///
/// As [`checklist`], and anything that the PDF writer warns of.
pub fn checklist_pdf(
    case: &ValidCase,
    worksheet: &Worksheet,
    signed: &Signed,
    best: Option<&BestOrder>,
    printing: Printing,
    notation: Notation,
    printed_at: Timestamp,
) -> Result<Vec<u8>, SheetError> {
    let pages = checklist(
        case, worksheet, signed, best, printing, notation, printed_at,
    )?;
    pdf_of(
        &pages,
        &Formatter::english(case, notation),
        worksheet,
        printed_at,
    )
}

/// What is printed of these parts but the form, each with whether it begins one: its first page then has the box for
/// the label.
fn chosen<'a>(source: &Source<'a>, parts: Parts) -> Vec<(Part<'a>, bool)> {
    let all = parts.iter().flat_map(|of| {
        let parts = Part::all(of, source).into_iter().enumerate();
        parts.map(|(index, part)| (part, index == 0))
    });
    let mut all: Vec<_> = all.collect();
    if all.is_empty() && !parts.holds(SheetPart::Form) {
        // Only the strip can lack: its page says that there is none.
        all.push((Part::Strip, true));
    }
    all
}

/// The number of pages that each part takes by itself, with this paper and these boxes.
///
/// # Errors
///
/// As [`checklist`].
pub fn page_counts(
    case: &ValidCase,
    worksheet: &Worksheet,
    signed: &Signed,
    best: Option<&BestOrder>,
    printing: Printing,
    notation: Notation,
    printed_at: Timestamp,
) -> Result<[(SheetPart, usize); 3], SheetError> {
    let mut counts = SheetPart::ALL.map(|part| (part, 0));
    for (part, count) in &mut counts {
        let printing = Printing {
            parts: Parts::of([*part]),
            ..printing
        };
        let pages = checklist(
            case, worksheet, signed, best, printing, notation, printed_at,
        )?;
        *count = pages.len();
    }
    Ok(counts)
}

/// The pages of a checklist as the bytes of a PDF.
///
/// # Errors
///
/// Anything that the PDF writer warns of.
pub fn pdf_of(
    pages: &[Page],
    formatter: &Formatter<'_>,
    worksheet: &Worksheet,
    printed_at: Timestamp,
) -> Result<Vec<u8>, SheetError> {
    let title = formatter.counted(
        "sheet-pdf-title",
        &[("revision", worksheet.revision)],
        &[("case", &worksheet.reference), ("jaw", &formatter.jaw())],
    );
    pdf::write(
        pages,
        &PdfMetadata {
            title,
            made: printed_at,
        },
    )
}
