//! A cause on which several findings hang.

use super::Formatter;
use crate::kit::SiteId;
use crate::plan::{CommonCause, Finding, Place, Reason};

/// A cause in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CauseText {
    /// The cause, how many findings hang on it, and at which sites.
    pub headline: String,
    /// What would make them known.
    pub remedy: String,
}

impl Formatter<'_> {
    /// A cause on which these findings hang, in words.
    #[must_use]
    pub fn cause<'f>(
        &self,
        cause: &CommonCause,
        findings: impl IntoIterator<Item = &'f Finding>,
    ) -> CauseText {
        let (mut sites, mut count) = (Vec::<&SiteId>::new(), 0_usize);
        for finding in findings {
            count += 1;
            let new = finding.site.as_ref().filter(|site| !sites.contains(site));
            sites.extend(new);
        }
        let (why, remedy) = match cause {
            CommonCause::Missing(place) => {
                let missing = Reason::Missing(place.clone());
                let why = self.reasons(std::slice::from_ref(&missing));
                (why.unwrap_or_default(), self.supply(&missing))
            }
            CommonCause::Changed(since) => {
                // Named with its site, wherever it is told.
                (
                    self.stale_since(since, &Place::Sites),
                    self.supply_since(since),
                )
            }
            CommonCause::GuideOfOtherPlan(site) => (
                self.text("cause-guide-of-other-plan", &[("site", &self.site(site))]),
                self.word("supply-guide-of-other-plan"),
            ),
            CommonCause::GuideLeft(site) => (
                self.text("cause-guide-left", &[("site", &self.site(site))]),
                self.word("remedy-guide-left"),
            ),
            CommonCause::CutBefore(site) => (
                self.text("cause-cut-before", &[("site", &self.site(site))]),
                self.word("supply-cut-before"),
            ),
            CommonCause::Grafted(site) => (
                self.text("cause-grafted", &[("site", &self.site(site))]),
                self.word("supply-before-graft"),
            ),
            CommonCause::GoesDeeper(site) => (
                self.text("cause-goes-deeper", &[("site", &self.site(site))]),
                self.word("supply-less-deep"),
            ),
            CommonCause::OutsideGauge => (
                self.word("cause-outside-gauge"),
                self.word("supply-outside-gauge"),
            ),
            CommonCause::ArchModelOnly => (
                self.word("cause-arch-model"),
                self.word("supply-arch-model"),
            ),
            CommonCause::Sockets => (
                self.word("cause-sockets"),
                self.word("remedy-bone-towards-socket"),
            ),
            CommonCause::Kinds => (self.word("cause-kinds"), self.word("supply-kinds")),
            CommonCause::ScanUndated => (
                self.word("cause-scan-undated"),
                self.word("supply-scan-undated"),
            ),
        };
        // What happened at a site, or lacks there, names it.
        let named = match cause {
            CommonCause::Missing(place) => place.site(),
            CommonCause::OutsideGauge
            | CommonCause::ArchModelOnly
            | CommonCause::Sockets
            | CommonCause::Kinds
            | CommonCause::ScanUndated => None,
            CommonCause::Changed(since) => Some(&since.site),
            CommonCause::GuideOfOtherPlan(site)
            | CommonCause::GuideLeft(site)
            | CommonCause::CutBefore(site)
            | CommonCause::Grafted(site)
            | CommonCause::GoesDeeper(site) => Some(site),
        };
        let count = [("findings", count)];
        sites.retain(|site| Some(*site) != named);
        let headline = if sites.is_empty() {
            self.counted("cause-told", &count, &[("why", &why)])
        } else {
            let id = match named {
                None => "cause-told-at",
                Some(_) => "cause-told-also-at",
            };
            let sites: Vec<String> = sites.into_iter().map(|site| self.site(site)).collect();
            let args = [("why", why.as_str()), ("sites", &sites.join(", "))];
            self.counted(id, &count, &args)
        };
        CauseText { headline, remedy }
    }
}
