//! `traywright history`: all that was recorded of a case, and what of it counts now.

use super::open::open;
use super::{Outcome, Ran};
use std::io::Write;
use std::path::Path;

pub(super) fn history(file: &Path, out: &mut dyn Write) -> Ran {
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
    Ok(Outcome::Done)
}
