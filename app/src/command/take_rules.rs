//! `traywright take-rules`: says what the newer rules change of a case, and takes them.

use super::Changed;
use super::kit::write;
use super::open::open;
use crate::desk::{Refusal, refused_edit};
use std::path::Path;
use traywright_core::case::{Edit, RULES_VERSION, apply};
use traywright_core::plan::older_rules;
use traywright_core::text::Texts;

pub(super) fn take(file: &Path) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let formatter = opened.formatter();
    let Some(older) = older_rules(&opened.case, &opened.worksheet) else {
        return Ok(texts.get("cli-rules-same", &[]));
    };
    let mut told = formatter.older_rules(&older, &opened.worksheet);
    let changed = apply(&opened.case, &[Edit::TakeRules])
        .map_err(|refused| Refusal(refused_edit(&formatter, &refused)))?;
    let (saved, replaced) = write(&opened, file, &changed)?;
    let fingerprint = saved.fingerprint().to_string();
    let numbers = [("now", RULES_VERSION), ("revision", saved.revision)];
    let args = [("fingerprint", fingerprint.as_str())];
    told.push(texts.counted("cli-rules-taken", &numbers, &args));
    told.extend(replaced.parted.then(|| texts.get("window-parted", &[])));
    Ok(told.join("\n"))
}
