//! `traywright check`: the findings for people.

use super::open::{Opened, open};
use super::{Outcome, Ran};
use std::io::Write;
use std::path::Path;
use traywright_core::plan::{Finding, Severity};
use traywright_core::wording::Formatter;

pub(super) fn check(file: &Path, out: &mut dyn Write) -> Ran {
    let opened = open(file)?;
    findings(&opened, out)
}

/// Writes all findings, worst first, with what is not looked at and the count of open ones.
pub(super) fn findings(opened: &Opened, out: &mut dyn Write) -> Ran {
    let formatter = opened.formatter();
    let texts = formatter.texts;
    for finding in &opened.worksheet.findings {
        one(&formatter, finding, out)?;
    }
    let list = formatter.not_assessed().join("; ");
    writeln!(out)?;
    writeln!(out, "{}", texts.get("cli-not-assessed", &[("list", &list)]))?;
    let count = |severity: Severity| {
        let all = opened.worksheet.findings.iter();
        all.filter(|finding| finding.severity() == severity).count()
    };
    let (short, unknown) = (count(Severity::Short), count(Severity::Unknown));
    if let Some(accepted) = formatter.accepted_count(&opened.worksheet.findings) {
        writeln!(out, "{accepted}")?;
    }
    if short + unknown == 0 {
        writeln!(out, "{}", texts.get("cli-nothing-open", &[]))?;
        return Ok(Outcome::Done);
    }
    let counts = [("short", short), ("unknown", unknown)];
    writeln!(out, "{}", texts.counted("cli-open", &counts, &[]))?;
    Ok(Outcome::Open)
}

/// One finding: a clear one in a line, any other with how it came about and what to do.
fn one(formatter: &Formatter<'_>, finding: &Finding, out: &mut dyn Write) -> std::io::Result<()> {
    let said = formatter.finding(finding);
    let line = formatter.line(&said);
    if finding.severity() == Severity::Clear {
        let beside: Vec<String> = [said.basis, said.accuracy].into_iter().flatten().collect();
        return writeln!(out, "{:<9} {line}; {}", said.word, beside.join("; "));
    }
    writeln!(out, "{:<9} {line}", said.word)?;
    let below = [
        said.detail,
        said.basis,
        said.accuracy,
        said.source,
        said.decision,
        said.lapsed,
    ];
    let below: Vec<String> = below.into_iter().flatten().collect();
    if !below.is_empty() {
        writeln!(out, "          {}", below.join("; "))?;
    }
    if let Some(remedy) = said.remedy.filter(|_| finding.severity().is_open()) {
        writeln!(out, "          {remedy}")?;
    }
    Ok(())
}
