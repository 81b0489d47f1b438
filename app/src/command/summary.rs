//! `traywright CASE`: settings and findings as text, where there is no window.

use super::check::{findings, older};
use super::open::open;
use super::{Outcome, Ran};
use std::io::Write;
use std::path::Path;
use traywright_core::wording::cautions;

pub(super) fn summary(file: &Path, out: &mut dyn Write) -> Ran {
    let opened = open(file)?;
    let formatter = opened.formatter();
    let texts = formatter.texts;
    let worksheet = &opened.worksheet;
    let signed = opened.signed()?;
    let revision = worksheet.revision.to_string();
    let fingerprint = worksheet.fingerprint.to_string();
    let jaw = formatter.jaw();
    let state = signed.state(texts);
    let args = [
        ("reference", worksheet.reference.as_str()),
        ("jaw", jaw.as_str()),
        ("revision", revision.as_str()),
        ("fingerprint", fingerprint.as_str()),
        ("state", state.as_str()),
    ];
    if worksheet.demonstration {
        writeln!(out, "{}", texts.get("cli-demonstration", &[]))?;
    }
    writeln!(out, "{}", texts.get("cli-case", &args))?;
    for problem in &signed.problems {
        writeln!(out, "{problem}")?;
    }
    older(&opened, out)?;
    writeln!(out, "\n{}", texts.get("cli-settings", &[]))?;
    for site in &worksheet.sites {
        writeln!(out, "\n{}", formatter.site(&site.id))?;
        for step in &site.steps {
            let name = formatter.step(&site.id, &step.id);
            let setting = formatter.setting_in_full(step);
            writeln!(
                out,
                "  {name:<24} {setting:<10} {}",
                formatter.guidance(step)
            )?;
        }
    }
    writeln!(out, "\n{}", texts.get("cli-findings", &[]))?;
    writeln!(out)?;
    findings(&opened, out)?;
    writeln!(out)?;
    for caution in cautions(texts) {
        writeln!(out, "{caution}")?;
    }
    Ok(Outcome::Done)
}
