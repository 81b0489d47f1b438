//! `traywright list`: the cases of a folder.

use super::{Outcome, Ran};
use crate::desk::{listed, refused_by_disk};
use std::io::Write;
use std::path::Path;
use traywright_core::dentition::Notation;
use traywright_core::store::{cases_in, shown};
use traywright_core::text::Texts;

pub(super) fn list(folder: &Path, out: &mut dyn Write) -> Ran {
    let texts = Texts::english();
    let cases = cases_in(folder).map_err(|error| refused_by_disk(&error))?;
    for case in &cases {
        let (name, told) = listed(case, Notation::Iso, texts);
        writeln!(out, "{name:<20} {told}")?;
    }
    if cases.is_empty() {
        let folder = shown(folder);
        writeln!(out, "{}", texts.get("listed-none", &[("folder", &folder)]))?;
    }
    // Why a file is not known is told in its line; the others are listed all the same.
    let unread = cases.iter().any(|case| case.head.is_err());
    Ok(if unread {
        Outcome::Failed
    } else {
        Outcome::Done
    })
}
