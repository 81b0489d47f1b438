//! `traywright sheet`: the checklist as PDF.

use super::arguments::PaperSize;
use super::{Outcome, Ran, Refusal};
use std::io::Write;
use std::path::Path;

pub(super) fn sheet(_file: &Path, _to: &Path, _paper: PaperSize, _out: &mut dyn Write) -> Ran {
    let _ = Outcome::Done;
    Err(Refusal("the checklist is being built".to_owned()))
}
