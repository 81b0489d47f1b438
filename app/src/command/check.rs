//! `traywright check`: the findings for people.

use super::open::{Opened, open};
use super::{Outcome, Ran};
use std::io::Write;
use std::path::Path;
use traywright_core::plan::{CommonCause, Finding, FindingLine, Severity, by_cause, older_rules};
use traywright_core::wording::Formatter;

pub(super) fn check(file: &Path, out: &mut dyn Write) -> Ran {
    let opened = open(file)?;
    let signed = opened.signed()?;
    for problem in &signed.problems {
        writeln!(out, "{problem}")?;
    }
    older(&opened, out)?;
    let outcome = findings(&opened, out)?;
    let to_come = opened.days_to_come(crate::platform::now());
    if to_come.is_empty() && !signed.leads_by_abandoned {
        return Ok(outcome);
    }
    Ok(Outcome::Open)
}

/// Writes what the rules of this program change of a case of older ones.
pub(super) fn older(opened: &Opened, out: &mut dyn Write) -> std::io::Result<()> {
    if let Some(older) = older_rules(&opened.case, &opened.worksheet) {
        for line in opened.formatter().older_rules(&older, &opened.worksheet) {
            writeln!(out, "{line}")?;
        }
        writeln!(out)?;
    }
    Ok(())
}

/// Writes all findings, worst first, with what is not looked at and the count of open ones.
pub(super) fn findings(opened: &Opened, out: &mut dyn Write) -> Ran {
    let formatter = opened.formatter();
    let texts = formatter.texts;
    let all: Vec<&Finding> = opened.worksheet.findings.iter().collect();
    let mut causes = 0;
    let mut on_causes = 0;
    for told in by_cause(all, |finding| finding) {
        match told {
            FindingLine::One(finding) => one(&formatter, finding, out)?,
            FindingLine::Cause(cause, findings) => {
                causes += 1;
                on_causes += findings.len();
                together(&formatter, &cause, &findings, out)?;
            }
        }
    }
    let list = formatter.not_assessed().join("; ");
    writeln!(out)?;
    writeln!(out, "{}", texts.get("cli-not-assessed", &[("list", &list)]))?;
    let count = |severity: Severity| {
        let all = opened.worksheet.findings.iter();
        all.filter(|finding| finding.severity() == severity).count()
    };
    let (short, unknown) = (count(Severity::Short), count(Severity::Unknown));
    let accepted = formatter.accepted_count(&opened.worksheet.findings);
    if short + unknown == 0 {
        let said = match accepted {
            None => texts.get("cli-nothing-open", &[]),
            Some(accepted) => texts.get("cli-nothing-else-open", &[("accepted", &accepted)]),
        };
        writeln!(out, "{said}")?;
        return Ok(Outcome::Done);
    }
    if let Some(accepted) = accepted {
        writeln!(out, "{accepted}")?;
    }
    let lines = unknown - on_causes + causes;
    let counts = [("short", short), ("unknown", unknown), ("lines", lines)];
    let said = if causes == 0 {
        texts.counted("cli-open", &counts[..2], &[])
    } else {
        texts.counted("cli-open-causes", &counts, &[])
    };
    writeln!(out, "{said}")?;
    Ok(Outcome::Open)
}

/// A cause, what to do, and each finding that hangs on it.
fn together(
    formatter: &Formatter<'_>,
    cause: &CommonCause,
    findings: &[&Finding],
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let said = formatter.cause(cause, findings.iter().copied());
    let word = formatter.severity(Severity::Unknown);
    writeln!(out, "{word:<9} {}", said.headline)?;
    writeln!(out, "          {}", said.remedy)?;
    for finding in findings {
        let said = formatter.finding(finding);
        let line = formatter.line(&said);
        let said: Vec<String> = [Some(line), said.lapsed].into_iter().flatten().collect();
        writeln!(out, "            {}", said.join("; "))?;
    }
    Ok(())
}

/// One finding: a clear one in a line, any other with how it came about and what to do.
fn one(formatter: &Formatter<'_>, finding: &Finding, out: &mut dyn Write) -> std::io::Result<()> {
    let said = formatter.finding(finding);
    let line = formatter.line(&said);
    if finding.severity() == Severity::Clear {
        let line: Vec<String> = [Some(line), said.basis].into_iter().flatten().collect();
        return writeln!(out, "{:<9} {}", said.word, line.join("; "));
    }
    writeln!(out, "{:<9} {line}", said.word)?;
    let below = [
        said.detail,
        said.basis,
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
