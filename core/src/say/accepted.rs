//! What was accepted, so that it never reads as if all were well.

use super::Speaker;
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

impl Speaker<'_> {
    /// How many findings were accepted although short, although unknown, and are intended, as a
    /// sentence; nothing where none is.
    #[must_use]
    pub fn accepted_count(&self, findings: &[Finding]) -> Option<String> {
        let count = |severity: Severity, verdict: Option<Verdict>| {
            let of = findings.iter().filter(|f| f.severity() == severity);
            of.filter(|f| verdict.is_none_or(|verdict| f.verdict == verdict))
                .count()
        };
        let intended = count(Severity::Intended, None);
        (count(Severity::Accepted, None) + intended > 0).then(|| {
            let short = count(Severity::Accepted, Some(Verdict::Short)).to_string();
            let unknown = count(Severity::Accepted, Some(Verdict::Unknown)).to_string();
            self.text(
                "accepted-count",
                &[
                    ("short", &short),
                    ("unknown", &unknown),
                    ("intended", &intended.to_string()),
                ],
            )
        })
    }

    /// The word of the worst of some sites' findings, which is this: where that was accepted, also
    /// the worst that was.
    #[must_use]
    pub fn worst_word(&self, worst: Severity, sites: &[&SiteId], findings: &[Finding]) -> String {
        let here = |f: &&Finding| f.site.as_ref().is_some_and(|site| sites.contains(&site));
        let alike = findings
            .iter()
            .filter(here)
            .filter(|f| f.severity() == worst);
        alike
            .min_by_key(|f| f.verdict)
            .map_or_else(|| self.severity(worst), |f| self.word(f.word_id()))
    }
}
