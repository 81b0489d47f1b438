//! `traywright history`: all that was recorded of a case, and what of it counts now.

use super::open::open;
use super::{Outcome, Ran};
use crate::desk::Refusal;
use std::io::Write;
use std::path::Path;
use traywright_core::sign::{HeadCode, Holds};
use traywright_core::text::Texts;

pub(super) fn history(file: &Path, paper: &[String], out: &mut dyn Write) -> Ran {
    let texts = Texts::english();
    let code = |text: &str| {
        let refused = |_| Refusal(texts.get("history-paper-no-code", &[("text", text)]));
        text.parse::<HeadCode>().map_err(refused)
    };
    // As a line on paper has them: one behind the other.
    let lines = paper
        .iter()
        .map(|line| line.trim().trim_end_matches(['.', ';']));
    let codes = lines.flat_map(|line| line.split(';'));
    let paper = codes.map(code).collect::<Result<Vec<_>, _>>()?;
    let opened = open(file)?;
    let signed = opened.signed()?;
    for problem in &signed.problems {
        writeln!(out, "{problem}")?;
    }
    let of = (&signed.view, &signed.standing);
    let formatter = opened.formatter();
    let history = formatter.history(&opened.worksheet, &signed.events, of);
    for line in history.lines() {
        writeln!(out, "{line}")?;
    }
    let mut outcome = Outcome::Done;
    for head in &paper {
        let holds = signed.events.holds(head);
        writeln!(out, "{}", formatter.on_paper(head, holds))?;
        if holds != Holds::Yes {
            outcome = Outcome::Open;
        }
    }
    if !paper.is_empty() {
        writeln!(out, "{}", texts.get("history-paper-means", &[]))?;
    }
    Ok(outcome)
}
