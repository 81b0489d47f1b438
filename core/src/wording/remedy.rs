//! Remedies of findings.

use super::Formatter;
use super::finding::counts;
use super::reason::in_words;
use crate::case::GuideState;
use crate::plan::{Basis, Finding, Reason, Verdict, may_be_accepted, may_be_intended};

impl Formatter<'_> {
    /// The remedy, as one or more sentences: what would make an unknown known, else the remedy of
    /// the rule. Nothing for what is clear.
    ///
    /// A rule that is unknown by its nature says in `remedy-unknown-…` more than what is missing.
    pub(super) fn remedy(&self, finding: &Finding, args: &[(&str, &str)]) -> Option<String> {
        let reasons = finding.value.reasons();
        let accept = if may_be_accepted(finding) {
            "yes"
        } else {
            "no"
        };
        let guide = match self.case.guide.state {
            GuideState::Planned => "planned",
            GuideState::Made => "made",
        };
        let of_case = [("accept", accept), ("guide", guide)];
        let args: Vec<_> = args.iter().copied().chain(of_case).collect();
        let told = |id: &str| {
            let remedy = self.counted(id, &counts(finding), &args);
            if !may_be_accepted(finding) {
                format!("{remedy} {}", self.word("supply-not-acceptable"))
            } else if may_be_intended(finding) {
                format!("{remedy} {}", self.word("supply-may-be-intended"))
            } else {
                remedy
            }
        };
        let by_rule = || told(&format!("remedy-{}", finding.rule));
        match finding.verdict {
            Verdict::Clear => None,
            Verdict::Unknown if !reasons.is_empty() => {
                let own = format!("remedy-unknown-{}", finding.rule);
                Some(if self.texts.has(&own) {
                    told(&own)
                } else {
                    self.supplies(reasons)
                })
            }
            Verdict::Short if finding.basis == Basis::ArchModel => {
                let measure = self.word("supply-arch-model");
                Some(format!("{measure} {}", by_rule()))
            }
            _ => Some(by_rule()),
        }
    }

    fn supplies(&self, reasons: &[Reason]) -> String {
        let mut said: Vec<String> = Vec::new();
        for reason in in_words(reasons) {
            let one = self.supply(reason);
            if !said.contains(&one) {
                said.push(one);
            }
        }
        said.join(" ")
    }
}
