//! `traywright put-aside`: puts the damaged part of a case's record aside, so that one can sign anew.

use super::Changed;
use super::approve::{refused_name, writer};
use super::open::open;
use crate::desk::{refused_events, said_aside};
use std::path::Path;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{Heads, Who};
use traywright_core::store::put_record_aside;
use traywright_core::text::Texts;

pub(super) fn put_aside(file: &Path, by: &str, desk: Option<&str>) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let writer = writer(desk)?;
    let who = Who::signing(by).map_err(|fault| refused_name("cli-by", &fault))?;
    let now = crate::platform::now();
    let aside = put_record_aside(
        &opened.file,
        &case_jaw(&opened.case),
        &writer,
        now,
        &who,
        &mut Heads::new(),
    )
    .map_err(|error| refused_events(&error))?;
    let told = said_aside(&aside);
    Ok(told.unwrap_or_else(|| texts.get("cli-nothing-aside", &[])))
}
