//! Wording of accepted findings, so that none reads as if all were well.

use super::Formatter;
use crate::kit::SiteId;
use crate::plan::{Finding, Severity, Verdict};

impl Finding {
    /// The text id of the word of its verdict with the surgeon's: what was accepted says of what.
    #[must_use]
    pub fn word_id(&self) -> &'static str {
        match (self.severity(), self.verdict) {
            (Severity::Accepted, Verdict::Short) => "severity-accepted-short",
            (Severity::Accepted, Verdict::Unknown) => "severity-accepted-unknown",
            (Severity::Accepted, Verdict::Tight) => "severity-accepted-tight",
            (severity, _) => severity.text_id(),
        }
    }
}

impl Formatter<'_> {
    /// Number of findings that were accepted although short, unknown or tight, and that are
    /// intended, as a sentence of those that there are; nothing where none is.
    #[must_use]
    pub fn accepted_count(&self, findings: &[Finding]) -> Option<String> {
        let part = |id: &str, is_one: &dyn Fn(&Finding) -> bool| {
            let count = findings.iter().filter(|f| is_one(f)).count();
            (count > 0).then(|| self.counted(id, &[("count", count)], &[]))
        };
        let accepted = |id: &str, verdict: Verdict| {
            part(id, &|f| {
                f.severity() == Severity::Accepted && f.verdict == verdict
            })
        };
        let parts = [
            accepted("accepted-count-short", Verdict::Short),
            accepted("accepted-count-unknown", Verdict::Unknown),
            accepted("accepted-count-tight", Verdict::Tight),
            part("accepted-count-intended", &|f| {
                f.severity() == Severity::Intended
            }),
        ];
        let list = self.joined("load-list", parts.into_iter().flatten())?;
        Some(format!("{}.", super::begin(&list)))
    }

    /// The word of the worst of some sites' findings, which is this: where that was accepted, also
    /// the worst that was.
    #[must_use]
    pub fn worst_word(&self, worst: Severity, sites: &[&SiteId], findings: &[Finding]) -> String {
        let here = |f: &&Finding| sites.iter().any(|site| f.is_of(site));
        let alike = findings
            .iter()
            .filter(here)
            .filter(|f| f.severity() == worst);
        alike
            .min_by_key(|f| f.verdict)
            .map_or_else(|| self.severity(worst), |f| self.word(f.word_id()))
    }

    /// The same beside a setting, for which it is not to be taken: "site: unknown".
    #[must_use]
    pub fn worst_beside(&self, worst: Severity, sites: &[&SiteId], findings: &[Finding]) -> String {
        let word = self.worst_word(worst, sites, findings);
        self.text("severity-of-site", &[("verdict", &word)])
    }
}
