//! `traywright take-rules`: says what the newer rules change of a case, and takes them.

use super::kit::write;
use super::open::open;
use super::{Outcome, Ran};
use crate::desk::{Refusal, refused_edit};
use std::io::Write;
use std::path::Path;
use traywright_core::case::{Edit, RULES_VERSION, apply};
use traywright_core::plan::older_rules;
use traywright_core::text::Texts;

pub(super) fn take(file: &Path, out: &mut dyn Write) -> Ran {
    let texts = Texts::english();
    let opened = open(file)?;
    let formatter = opened.formatter();
    let Some(older) = older_rules(&opened.case, &opened.worksheet) else {
        writeln!(out, "{}", texts.get("cli-rules-same", &[]))?;
        return Ok(Outcome::Done);
    };
    for line in formatter.older_rules(&older, &opened.worksheet) {
        writeln!(out, "{line}")?;
    }
    let changed = apply(&opened.case, &[Edit::TakeRules])
        .map_err(|refused| Refusal(refused_edit(&formatter, &refused)))?;
    let saved = write(&opened, file, &changed)?;
    let fingerprint = saved.fingerprint().to_string();
    let numbers = [("now", RULES_VERSION), ("revision", saved.revision)];
    let args = [("fingerprint", fingerprint.as_str())];
    writeln!(out, "{}", texts.counted("cli-rules-taken", &numbers, &args))?;
    Ok(Outcome::Done)
}
