//! `traywright put-aside`: puts the damaged part of a case's record aside, so that one can sign anew.

use super::approve::refused_name;
use super::open::open;
use super::{Outcome, Ran};
use crate::desk::refused_events;
use std::io::Write;
use std::path::Path;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{Who, WriterId};
use traywright_core::store::put_record_aside;
use traywright_core::text::Texts;

pub(super) fn put_aside(file: &Path, by: &str, desk: &str, out: &mut dyn Write) -> Ran {
    let texts = Texts::english();
    let opened = open(file)?;
    let writer = WriterId::new(desk).map_err(|fault| refused_name("cli-desk", &fault))?;
    let who = Who::new(by).map_err(|fault| refused_name("cli-by", &fault))?;
    let now = crate::platform::now();
    let names = put_record_aside(&opened.file, &case_jaw(&opened.case), &writer, now, &who)
        .map_err(|error| refused_events(&error))?;
    if names.is_empty() {
        writeln!(out, "{}", texts.get("cli-nothing-aside", &[]))?;
    } else {
        let files = names.join(", ");
        writeln!(out, "{}", texts.get("cli-put-aside", &[("files", &files)]))?;
    }
    Ok(Outcome::Done)
}
