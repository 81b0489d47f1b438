//! `traywright figures`: the worksheet as JSON.

use super::open::open;
use super::{Outcome, Ran, Refusal};
use std::io::Write;
use std::path::Path;
use traywright_core::document::print;
use traywright_core::figures::{Detail, figures as as_data};

pub(super) fn figures(file: &Path, explain: bool, out: &mut dyn Write) -> Ran {
    let opened = open(file)?;
    let detail = if explain {
        Detail::Explained
    } else {
        Detail::Values
    };
    let data = as_data(&opened.speaker(), &opened.worksheet, detail);
    let text = print(&data).map_err(|error| Refusal(error.to_string()))?;
    out.write_all(text.as_bytes())?;
    Ok(Outcome::Done)
}
