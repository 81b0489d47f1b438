//! Reasons why values are unknown.

use super::{Formatter, place::PlaceMeaning};
use crate::measure::Length;
use crate::number::{
    at_most_angle, available, available_beside, bound_beside, degrees, from_model, mm,
};
use crate::plan::{Change, Finding, Place, Reason, Since};

/// The reasons that are put into words. What is left at most, or at worst and at best, is no reason of
/// its own: beside an unknown its figure would be taken for the margin.
pub(super) fn in_words(reasons: &[Reason]) -> impl Iterator<Item = &Reason> {
    let several = reasons.len() > 1;
    reasons.iter().filter(move |reason| {
        !(several && matches!(reason, Reason::AtMost(_) | Reason::Between { .. }))
    })
}

impl Formatter<'_> {
    /// Several reasons in one line; nothing where there are none.
    #[must_use]
    pub fn reasons(&self, reasons: &[Reason]) -> Option<String> {
        self.reasons_from(reasons, None)
    }

    /// Several reasons in the words of a finding: its own subject need not be named again.
    pub(super) fn reasons_from(
        &self,
        reasons: &[Reason],
        here: Option<&Finding>,
    ) -> Option<String> {
        let mut said: Vec<String> = Vec::new();
        for reason in in_words(reasons) {
            let one = self.reason_from(reason, here);
            if !said.contains(&one) {
                said.push(one);
            }
        }
        self.joined("reasons-joined", said)
    }

    fn reason_from(&self, reason: &Reason, here: Option<&Finding>) -> String {
        if let Some(said) = here.and_then(|finding| self.of_itself(reason, finding)) {
            return said;
        }
        match reason {
            Reason::Missing(place) => {
                let meant = self.meant(place);
                let said = self.of_place("missing", place, &meant);
                self.at_site(said, place, here)
            }
            Reason::Stale(place, since) => {
                let meant = self.meant(place);
                let what = self.of_place("stale", place, &meant);
                let since = self.stale_since(since, place);
                let said = self.text("reason-stale", &[("what", &what), ("since", &since)]);
                self.at_site(said, place, here)
            }
            Reason::BeforeGraft(place) => {
                let what = self.of_place("stale", place, &self.meant(place));
                let said = self.text("reason-before-graft", &[("what", &what)]);
                self.at_site(said, place, here)
            }
            Reason::ScanUndated(place) => {
                let what = self.of_place("stale", place, &self.meant(place));
                let said = self.text("reason-scan-undated", &[("what", &what)]);
                self.at_site(said, place, here)
            }
            Reason::ArchModelOnly(value) => self.text(
                "reason-arch-model",
                &[("value", &self.model_margin(*value))],
            ),
            Reason::AgainstModel { measured, model } => self.text(
                "reason-against-model",
                &[
                    ("measured", &self.margin(*measured)),
                    ("model", &self.model_margin(*model)),
                ],
            ),
            Reason::MeasuredLessDeep(value, _) => {
                self.text("reason-less-deep", &[("value", &self.margin(*value))])
            }
            Reason::AtMost(value) => {
                let value = self.overlap_or_left(bound_beside(*value, None));
                self.text("reason-at-most", &[("value", &value)])
            }
            Reason::Between { least, most } => {
                let most = self.overlap_or_left(bound_beside(*most, None));
                let args = [("least", &*self.margin(*least)), ("most", &most)];
                self.text("reason-between", &args)
            }
            Reason::BetweenHeights { least, measured } => {
                let args = [
                    ("least", self.margin(*least)),
                    ("measured", self.margin(*measured)),
                ];
                let args = args.each_ref().map(|(name, value)| (*name, value.as_str()));
                self.text("reason-between-heights", &args)
            }
            Reason::SomeHeightsOnly(value) => {
                self.text("reason-some-heights", &[("value", &self.margin(*value))])
            }
            Reason::NotTheLeast(value) => {
                self.text("reason-not-the-least", &[("value", &self.margin(*value))])
            }
            Reason::ArchAngleOnly(angle) => self.text(
                "reason-arch-angle",
                &[("value", &degrees(at_most_angle(*angle)))],
            ),
            Reason::AlongTiltedAxis(value) => {
                self.text("reason-along-axis", &[("value", &self.margin(*value))])
            }
            Reason::CrestOfSocket(value) => {
                self.text("reason-crest-of-socket", &[("value", &self.margin(*value))])
            }
            Reason::OutsideGauge(shown) => self.outside_gauge(&mm(*shown)),
            Reason::BetweenGraduations(shown) => {
                self.text("reason-between-graduations", &[("value", &mm(*shown))])
            }
            Reason::KindNotEntered { tooth, left: None } => {
                self.text("reason-kind", &[("tooth", &self.tooth(*tooth))])
            }
            Reason::KindNotEntered {
                left: Some((left, needed)),
                ..
            } => {
                let value = self.overlap_or_left(available_beside(*left, Some(*needed)));
                let args = [("value", &*value), ("needed", &mm(*needed))];
                self.text("reason-kind-beside", &args)
            }
            Reason::CutThroughGuide(_) => self.word("reason-cut-through-guide"),
            Reason::CutBefore(_) => self.word("reason-cut-before"),
            Reason::NothingFits => self.word("reason-nothing-fits"),
            Reason::Unfit => self.word("reason-unfit"),
            Reason::Pending(_) => self.word("reason-pending"),
            Reason::NoAccuracy => self.word("reason-no-accuracy"),
        }
    }

    /// The text of a family for a place, its path where the family has none for its kind.
    /// What was measured at a place: "distance to the lower right second molar (47)".
    pub(super) fn measured_thing(&self, place: &Place) -> String {
        let thing = self.of_place("stale", place, &self.meant(place));
        // At its closest a distance has no height.
        thing.trim_end().to_owned()
    }

    fn of_place(&self, family: &str, place: &Place, meant: &PlaceMeaning) -> String {
        let id = format!("{family}-{}", meant.key);
        if self.texts.has(&id) {
            let args = meant.args.iter();
            let args: Vec<(&str, &str)> = args.map(|(name, text)| (*name, text.as_str())).collect();
            self.text(&id, &args)
        } else {
            self.text(&format!("{family}-other"), &[("path", &place.key())])
        }
    }

    fn outside_gauge(&self, shown: &str) -> String {
        match self.case.gauge() {
            None => self.text("reason-outside-gauge-bare", &[("value", shown)]),
            Some(gauge) => self.text(
                "reason-outside-gauge",
                &[
                    ("value", shown),
                    ("gauge", gauge.name.as_str()),
                    ("from", &mm(gauge.from_mm)),
                    ("to", &mm(gauge.to_mm)),
                ],
            ),
        }
    }

    /// The text of a reason that concerns the very thing that a finding is about.
    fn of_itself(&self, reason: &Reason, finding: &Finding) -> Option<String> {
        match reason {
            Reason::Missing(place) if finding.place.holds(place) => {
                let id = format!("missing-here-{}", self.meant(place).key);
                self.texts.has(&id).then(|| self.word(&id))
            }
            Reason::Stale(place, since) if finding.place.holds(place) => {
                Some(self.stale_since(since, place))
            }
            _ => None,
        }
    }

    /// That a value was measured before a change, which is named with its site where that is another
    /// than the one that it was measured at.
    pub(super) fn stale_since(&self, since: &Since, at: &Place) -> String {
        let whose = if at.told_at() == Some(&since.site) {
            "own"
        } else {
            "other"
        };
        let args = [("whose", whose), ("site", &*self.site(&since.site))];
        self.text(&format!("stale-since-{}", since.change.key()), &args)
    }

    fn at_site(&self, said: String, place: &Place, here: Option<&Finding>) -> String {
        match place.site() {
            Some(site) if here.and_then(|finding| finding.site.as_ref()) != Some(site) => {
                let site = self.site(site);
                self.text("reason-at-site", &[("reason", &said), ("site", &site)])
            }
            _ => said,
        }
    }

    /// The action that makes the value known.
    #[must_use]
    pub fn supply(&self, reason: &Reason) -> String {
        match reason {
            Reason::Missing(place) => self.of_place("supply", place, &self.meant(place)),
            Reason::Stale(_, since) => self.supply_since(since),
            Reason::Between { .. } => self.word("supply-stale"),
            Reason::BeforeGraft(_) => self.word("supply-before-graft"),
            Reason::ScanUndated(_) => self.word("supply-scan-undated"),
            Reason::ArchModelOnly(_) => self.word("supply-arch-model"),
            Reason::AgainstModel { .. } => self.word("supply-against-model"),
            Reason::MeasuredLessDeep(..) => self.word("supply-less-deep"),
            Reason::AtMost(_) => self.word("supply-at-most"),
            Reason::BetweenHeights { .. } => self.word("supply-between-heights"),
            Reason::SomeHeightsOnly(_) => self.word("supply-some-heights"),
            Reason::NotTheLeast(_) => self.word("supply-not-the-least"),
            Reason::ArchAngleOnly(_) => self.word("supply-arch-angle"),
            Reason::AlongTiltedAxis(_) => self.word("supply-along-axis"),
            Reason::CrestOfSocket(_) => self.word("supply-crest-of-socket"),
            Reason::OutsideGauge(_) => self.word("supply-outside-gauge"),
            Reason::BetweenGraduations(_) => self.word("supply-between-graduations"),
            Reason::KindNotEntered { tooth, .. } => {
                self.text("supply-kind", &[("tooth", &self.tooth(*tooth))])
            }
            Reason::CutThroughGuide(_) => self.word("supply-cut-through-guide"),
            Reason::CutBefore(_) => self.word("supply-cut-before"),
            Reason::NothingFits => self.word("supply-nothing-fits"),
            Reason::Unfit => self.word("supply-unfit"),
            Reason::Pending(_) => self.word("supply-pending"),
            Reason::NoAccuracy => self.word("supply-no-accuracy"),
        }
    }

    /// The action that makes a value known that was measured before a change.
    pub(super) fn supply_since(&self, since: &Since) -> String {
        self.word(match since.change {
            Change::DepthMissing => "supply-depth-missing",
            Change::OffGuide => "supply-off-guide",
            change if change.is_of_guide() => "supply-stale-guide",
            _ => "supply-stale",
        })
    }

    /// A margin: "1.93 mm", or as an overlap where it is negative.
    pub(super) fn margin(&self, value: Length) -> String {
        self.overlap_or_left(available(value))
    }

    /// A margin by the arch model, which is a schematic and shown no finer than to a tenth.
    pub(super) fn model_margin(&self, value: Length) -> String {
        self.overlap_or_left(from_model(value))
    }

    pub(super) fn overlap_or_left(&self, value: Length) -> String {
        if value.um() < 0 {
            self.text("margin-overlap", &[("size", &mm(value.abs()))])
        } else {
            mm(value)
        }
    }
}
