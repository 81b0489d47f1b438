//! `traywright sheet`: the checklist as PDF, with the run order, for which it waits.

use super::Changed;
use super::arguments::{PaperSize, PartName, ReadingBoxes};
use super::best::best_order;
use super::open::open;
use crate::desk::{Refusal, policy, refused_by_disk};
use std::path::Path;
use traywright_core::dentition::Notation;
use traywright_core::sheet::SheetError;
use traywright_core::sheet::checklist::{
    Parts, Printing, Readings, SheetPart, Signed, checklist, pdf_of,
};
use traywright_core::store::{shown, write_pdf};
use traywright_core::text::Texts;

pub(super) fn sheet(
    file: &Path,
    to: &Path,
    paper: PaperSize,
    parts: &[PartName],
    readings: ReadingBoxes,
) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let signed = opened.signed()?;
    let paper = paper.into();
    let parts = if parts.is_empty() {
        Parts::ALL
    } else {
        Parts::of(parts.iter().map(|part| match part {
            PartName::Form => SheetPart::Form,
            PartName::Strip => SheetPart::Strip,
            PartName::Annex => SheetPart::Annex,
        }))
    };
    let printing = Printing {
        paper,
        parts,
        readings: match readings {
            ReadingBoxes::Blank => Readings::Blank,
            ReadingBoxes::Filled => Readings::Filled,
        },
    };
    let now = crate::platform::now();
    let record = (&signed.events, &signed.standing);
    let (case, worksheet) = (&opened.case, &opened.worksheet);
    let on_paper = Signed::of(case, record, &policy())
        .with_day((case, worksheet), (&signed.view, &signed.standing));
    let refused = |error: SheetError| Refusal(error.words(texts));
    let (best, iso) = (best_order(case, worksheet), Notation::Iso);
    let pages = checklist(
        case,
        worksheet,
        &on_paper,
        best.as_ref(),
        printing,
        iso,
        now,
    )
    .map_err(refused)?;
    let bytes = pdf_of(&pages, &opened.formatter(), worksheet, now).map_err(refused)?;
    write_pdf(to, Some(&opened.file), &bytes).map_err(|error| refused_by_disk(&error))?;
    let file = shown(to);
    let count = &[("pages", pages.len())];
    let mut told = signed.problems;
    told.push(texts.counted("cli-sheet-written", count, &[("file", &file)]));
    Ok(told.join("\n"))
}
