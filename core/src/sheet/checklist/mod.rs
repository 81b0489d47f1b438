//! The printed checklist of a case: every page from the worksheet to the last signature line.
//!
//! Pages follow the work: the plan at a glance with its limits, the tray, the team's questions, the
//! true-scale strip, the order of use and what changes between its steps, one site after the other. Each page bears the case, the jaw
//! in words, revision, fingerprint and state, so that a single sheet cannot be taken for another.
//!
//! **Deliberately absent:** any clinical figure of its own, and any sentence: words come from
//! [`Formatter`] and the texts.

mod actionable;
mod arrange;
mod beside_tray;
mod counts;
mod every_page;
mod findings;
mod instruments;
mod judged;
mod limits;
mod loading;
mod order;
mod overview;
mod parts;
mod pieces;
mod places;
mod run;
mod safety;
mod second;
mod set_anew;
mod signatures;
mod signed;
mod site;
mod strip;
#[cfg(test)]
mod tests;

pub use signed::{ApprovalState, Signed};

use super::error::SheetError;
use super::flow::Flow;
use super::page::{Page, Paper};
use super::pdf::{self, PdfMetadata};
use crate::case::ValidCase;
use crate::dentition::Notation;
use crate::plan::Worksheet;
use crate::run::BestOrder;
use crate::wording::Formatter;
use arrange::{PartPages, arranged};
use every_page::EveryPage;
use jiff::Timestamp;
use parts::Part;

/// Everything that the pages are made from.
struct Source<'a> {
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    signed: &'a Signed,
    best: Option<&'a BestOrder>,
    formatter: Formatter<'a>,
    paper: Paper,
    printed_at: Timestamp,
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
    paper: Paper,
    notation: Notation,
    printed_at: Timestamp,
) -> Result<Vec<Page>, SheetError> {
    let source = Source {
        case,
        worksheet,
        signed,
        best,
        formatter: Formatter::english(case, notation),
        paper,
        printed_at,
    };
    let parts = Part::all(&source);
    let headings: Vec<_> = parts.iter().map(|part| part.heading(&source)).collect();
    let every = EveryPage::new(&source, &headings)?;
    let mut printed = Vec::new();
    for (part, heading) in parts.into_iter().zip(headings) {
        let first = if printed.is_empty() {
            every.first_frame()
        } else {
            every.frame()
        };
        let mut flow = Flow::beginning(first, every.frame());
        for block in part.blocks(&source, first) {
            flow.add(&block)?;
        }
        printed.push(PartPages {
            part,
            heading,
            pages: flow.finish()?,
        });
    }
    let left_free = || -> Result<Vec<Page>, SheetError> {
        let mut flow = Flow::new(every.frame());
        flow.add(&pieces::note(source.formatter.word("sheet-left-free")))?;
        flow.finish()
    };
    let mut pages = Vec::new();
    // The first page of each part, counted from 0.
    let (mut starts, mut headings) = (Vec::new(), Vec::new());
    for one in arranged(printed, left_free)? {
        starts.push(pages.len());
        headings.push(one.heading);
        pages.extend(one.pages);
    }
    every.finish(&mut pages, &starts, &headings);
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
    paper: Paper,
    notation: Notation,
    printed_at: Timestamp,
) -> Result<Vec<u8>, SheetError> {
    let pages = checklist(case, worksheet, signed, best, paper, notation, printed_at)?;
    pdf_of(
        &pages,
        &Formatter::english(case, notation),
        worksheet,
        printed_at,
    )
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
