//! `traywright record`: what was placed and what became of it, as JSON; with `--pdf` on paper as well.

use super::open::{Opened, Signed, open};
use super::{Outcome, Ran};
use crate::desk::{Refusal, policy, refused_by_disk};
use std::io::Write;
use std::path::Path;
use traywright_core::dentition::Notation;
use traywright_core::document::print;
use traywright_core::figures::record_figures;
use traywright_core::record::{CaseRecord, record as record_of};
use traywright_core::sheet::checklist::{Signed as OnPaper, record_pdf};
use traywright_core::sheet::{Paper, SheetError};
use traywright_core::store::write_pdf;
use traywright_core::text::Texts;

pub(super) fn record(
    file: &Path,
    (pdf, paper): (Option<&Path>, Paper),
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Ran {
    let opened = open(file)?;
    let signed = opened.signed()?;
    // Beside the answer, which is read by programs.
    for problem in &signed.problems {
        writeln!(err, "{problem}")?;
    }
    let record = record_of(
        &opened.case,
        &opened.worksheet,
        (&signed.view, &signed.standing),
    );
    if let Some(to) = pdf {
        let bytes = on_paper(&opened, &signed, &record, paper)?;
        write_pdf(to, Some(&opened.file), &bytes).map_err(|error| refused_by_disk(&error))?;
    }
    let data = record_figures(&opened.formatter(), &opened.worksheet, &record);
    let text = print(&data).map_err(|error| Refusal(error.to_string()))?;
    out.write_all(text.as_bytes())?;
    Ok(Outcome::Done)
}

fn on_paper(
    opened: &Opened,
    signed: &Signed,
    record: &CaseRecord<'_>,
    paper: Paper,
) -> Result<Vec<u8>, Refusal> {
    let texts = Texts::english();
    let (case, worksheet) = (&opened.case, &opened.worksheet);
    let on_paper = OnPaper::of(case, (&signed.events, &signed.standing), &policy());
    let now = crate::platform::now();
    record_pdf(
        (case, worksheet),
        &on_paper,
        record,
        (paper, Notation::Iso),
        now,
    )
    .map_err(|error: SheetError| Refusal(error.words(texts)))
}
