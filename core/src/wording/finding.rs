//! Findings in words.

use super::Formatter;
use crate::case::{DecisionKind, Rule};
use crate::measure::{Angle, Length};
use crate::number::{
    at_most, at_most_angle, available_beside, beside, bound_beside, degrees, from_model, mm, side,
};
use crate::plan::{
    AppliedDecision, Argument, Basis, Finding, Known, LapsedDecision, Loosened, Quantity, Reason,
    RoundedTo, Severity, Subject, WhyLapsed,
};

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingText {
    /// Its severity; it is shown by word, shape and colour together.
    pub severity: Severity,
    /// The word for that: "short".
    pub word: String,
    /// The site; nothing for what concerns the whole case.
    pub place: Option<String>,
    /// The finding itself, with value and limit, or what is missing.
    pub headline: String,
    /// The derivation of the value, where it is known.
    pub detail: Option<String>,
    /// The remedy; nothing where all is clear.
    pub remedy: Option<String>,
    /// The basis of the value: "basis: measured".
    pub basis: Option<String>,
    /// The source of the limit.
    pub source: Option<String>,
    /// The surgeon's decision that still holds: accepted or intended, by whom and why.
    pub decision: Option<String>,
    /// The surgeon's decision that no longer holds.
    pub lapsed: Option<String>,
}

impl Severity {
    /// The text id of its word.
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::Short => "severity-short",
            Self::Unknown => "severity-unknown",
            Self::Tight => "severity-tight",
            Self::Accepted => "severity-accepted",
            Self::Intended => "severity-intended",
            Self::Note => "severity-note",
            Self::Clear => "severity-clear",
        }
    }
}

impl Formatter<'_> {
    /// The word of a severity: "short", "unknown", "clear" and so on.
    #[must_use]
    pub fn severity(&self, severity: Severity) -> String {
        self.word(severity.text_id())
    }

    /// Meaning of a severity, for a legend.
    #[must_use]
    pub fn severity_meaning(&self, severity: Severity) -> String {
        self.word(&format!("severity-meaning-{}", severity.key()))
    }

    /// A finding in words.
    #[must_use]
    pub fn finding(&self, finding: &Finding) -> FindingText {
        let args = self.args(finding);
        let args: Vec<(&str, &str)> = args.iter().map(|(k, v)| (*k, v.as_str())).collect();
        let figure = finding.figure.as_ref();
        let figure = figure.filter(|figure| figure.value.value().is_some());
        let counts = counts(finding);
        let mut headline = self.counted(&format!("finding-{}", finding.rule), &counts, &args);
        if let Some(bore) = finding.measured_bore {
            let args = [("headline", headline.as_str()), ("bore", &mm(bore))];
            headline = self.text("said-measured-bore", &args);
        }
        if let Some(Loosened { limit, own }) = finding.loosened {
            let (limit, own) = (self.limit_name(limit), self.limit(own));
            let args = [
                ("headline", headline.as_str()),
                ("limit", &limit),
                ("own", &own),
            ];
            headline = self.text("said-loosened", &args);
        }
        FindingText {
            severity: finding.severity(),
            word: self.word(finding.word_id()),
            place: finding.site.as_ref().map(|site| self.site(site)),
            headline,
            detail: figure.map(|figure| self.figure_line(figure)),
            remedy: self.remedy(finding, &args),
            basis: self.finding_basis(finding),
            source: finding
                .limit_source
                .as_ref()
                .map(|source| self.text("said-source", &[("source", source)])),
            decision: finding
                .decision
                .as_ref()
                .map(|word| self.decision(word, ["said-accepted", "said-intended"])),
            lapsed: finding.lapsed.as_ref().map(|word| self.lapsed(word)),
        }
    }

    /// That accuracy was not assessed, which is said once wherever there are clearances among the
    /// findings.
    #[must_use]
    pub fn accuracy<'f>(&self, findings: impl IntoIterator<Item = &'f Finding>) -> Option<String> {
        let mut findings = findings.into_iter();
        let any = findings.any(|finding| finding.subject() == Subject::Clearance);
        any.then(|| self.word("said-accuracy"))
    }

    /// A finding in one line: its place, then its headline.
    #[must_use]
    pub fn line(&self, said: &FindingText) -> String {
        match &said.place {
            None => said.headline.clone(),
            Some(place) => self.text(
                "said-at-place",
                &[("place", place), ("what", &said.headline)],
            ),
        }
    }

    fn decision(&self, word: &AppliedDecision, [accepted, intended]: [&str; 2]) -> String {
        let id = match word.judged {
            DecisionKind::Accepted => accepted,
            DecisionKind::Intended => intended,
        };
        self.text(id, &[("by", &word.by), ("reason", &word.reason)])
    }

    fn lapsed(&self, lapsed: &LapsedDecision) -> String {
        let ids = match lapsed.why {
            WhyLapsed::Changed => ["said-lapsed-accepted", "said-lapsed-intended"],
            WhyLapsed::NotAcceptable => ["said-void-not-acceptable"; 2],
            WhyLapsed::NoReason => ["said-void-no-reason"; 2],
            WhyLapsed::NoName => ["said-void-no-name"; 2],
        };
        self.decision(&lapsed.decision, ids)
    }

    /// Only where there is a value that was not taken from the kit alone.
    fn finding_basis(&self, finding: &Finding) -> Option<String> {
        let has_value = finding.judged_length().is_some() || finding.value.value().is_some();
        let kit_alone = finding.figure.is_none()
            && !matches!(finding.subject(), Subject::Clearance | Subject::Guide);
        (has_value && !kit_alone).then(|| {
            let basis = match finding.args.get("confirmed_by") {
                Some(Argument::Text(by)) => self.confirmed(finding, by),
                _ => self.basis(finding.basis),
            };
            self.text("said-basis", &[("basis", &basis)])
        })
    }

    /// Who confirmed what it was worked out from, and after how much of a move: all of them.
    fn confirmed(&self, finding: &Finding, by: &str) -> String {
        let moved = match finding.args.get("moved_by") {
            Some(Argument::Length(moved)) => Some(*moved),
            _ => None,
        };
        let others = match finding.args.get("confirmed_also") {
            Some(Argument::Confirmed(words)) => words.as_slice(),
            _ => &[],
        };
        let basis = match finding.basis {
            Basis::Measured | Basis::Confirmed => None,
            other => Some(self.basis(other)),
        };
        let others = others
            .iter()
            .map(|(by, moved)| self.confirmation(by.as_str(), *moved));
        let first = std::iter::once(self.confirmation(by, moved));
        let all = basis.into_iter().chain(first).chain(others);
        self.joined("reasons-joined", all).unwrap_or_default()
    }

    fn confirmation(&self, by: &str, moved: Option<Length>) -> String {
        match moved {
            None => self.text("basis-confirmed-elsewhere", &[("by", by)]),
            Some(Length::ZERO) => self.text("basis-confirmed-otherwise", &[("by", by)]),
            Some(moved) => {
                let args = [("by", by), ("moved", &*mm(moved))];
                self.text("basis-confirmed-moved", &args)
            }
        }
    }

    /// All that a finding's texts may use: its own arguments in words, and what every finding has.
    pub(super) fn args(&self, finding: &Finding) -> Vec<(&'static str, String)> {
        let own = finding.args.iter();
        let mut args: Vec<(&'static str, String)> = own
            .map(|(name, value)| (*name, self.argument(value)))
            .collect();
        // Two passes of one drill are told apart by their depth.
        if let (Some(site), Some(step)) = (&finding.site, &finding.step) {
            let drill = args.iter_mut().find(|(name, _)| *name == "drill");
            if let Some((_, drill)) = drill {
                *drill = self.step(site, step);
            }
        }
        if finding.rule == Rule::ConfirmedDisagree {
            args.push(("thing", self.measured_thing(&finding.place)));
        }
        let value = finding.value.value();
        args.push(("state", self.state(finding)));
        args.push(("value", self.shown(finding, value.copied())));
        args.push(("size", self.shown_size(finding, value.copied())));
        args.push(("sign", sign(finding, value).to_owned()));
        args.push(("limit", self.shown_exactly(finding.limit)));
        args
    }

    fn argument(&self, value: &Argument) -> String {
        match value {
            Argument::Text(text) => text.clone(),
            Argument::Count(count) => count.to_string(),
            Argument::Length(length) => mm(*length),
            Argument::Angle(angle) => degrees(at_most_angle(*angle)),
            Argument::Torque(torque) => self.text("sheet-ncm", &[("torque", &torque.to_string())]),
            Argument::Setting(set) => self.set_length_with_unit(&Known::Is(*set)),
            Argument::Structure(kind) => self.structure(*kind),
            Argument::Wall(side) => self.wall_side(*side),
            Argument::Height(height) => self.height(*height),
            Argument::Tooth(position) => self.tooth(*position),
            Argument::Site(site) => self.site(site),
            Argument::Confirmed(words) => {
                let words = words
                    .iter()
                    .map(|(by, moved)| self.confirmation(by.as_str(), *moved));
                self.joined("reasons-joined", words).unwrap_or_default()
            }
        }
    }

    /// A value as it is shown: a margin rounded down, a greatest angle rounded up.
    fn shown(&self, finding: &Finding, value: Option<Quantity>) -> String {
        match value {
            Some(Quantity::Length(length)) => mm(readable(finding, length)),
            Some(Quantity::Angle(angle)) => degrees(greatest_angle(finding, angle)),
            other => self.shown_exactly(other),
        }
    }

    /// The same without its sign. A negative margin rounds away from zero: what is lacking is never
    /// shown as less.
    fn shown_size(&self, finding: &Finding, value: Option<Quantity>) -> String {
        match value {
            Some(Quantity::Length(length)) => mm(readable(finding, length).abs()),
            other => self.shown(finding, other),
        }
    }

    fn shown_exactly(&self, value: Option<Quantity>) -> String {
        value.map_or_else(|| self.word("state-unknown-bare"), |q| self.quantity(q))
    }

    /// The value with its verdict against the limit.
    fn state(&self, finding: &Finding) -> String {
        let value = match &finding.value {
            Known::Is(Quantity::Length(length)) => self.margin_or_length(finding, *length),
            Known::Is(other) => self.shown(finding, Some(*other)),
            Known::Unknown(reasons) => return self.state_unknown(finding, reasons),
        };
        let value = ("value", value.as_str());
        let Some(limit) = finding.limit else {
            return self.text("state-no-limit", &[value]);
        };
        let figure = finding.figure.as_ref();
        let reasons = figure.map_or(&[][..], |figure| figure.value.reasons());
        let id = match finding.basis {
            Basis::ArchModel => "state-arch-model",
            Basis::Estimated if matches!(finding.value, Known::Is(Quantity::Angle(_))) => {
                "state-at-most-angle"
            }
            _ if finding.is_at_least() => match figure.and_then(|f| f.taken_by_moves()) {
                Some(_) => "state-at-least",
                None => "state-at-least-gauge",
            },
            _ if finding.is_at_most() => {
                let overlaps = finding
                    .length_value()
                    .is_some_and(|left| left < Length::ZERO);
                let changed = reasons.iter().any(|r| matches!(r, Reason::Stale(..)));
                match (overlaps, changed) {
                    (true, true) => "state-at-least-overlap-changed",
                    (true, false) => "state-at-least-overlap",
                    (false, true) => "state-at-most-changed",
                    (false, false) => "state-at-most",
                }
            }
            _ => "state-limit",
        };
        self.text(id, &[value, ("limit", &self.limit(limit))])
    }

    fn state_unknown(&self, finding: &Finding, reasons: &[Reason]) -> String {
        let bound = match reasons {
            [Reason::ArchModelOnly(value)] => {
                let shown = beside(from_model(*value), *value, limit_of(finding));
                Some(("state-arch-model-only", self.overlap_or_left(shown)))
            }
            [Reason::ArchAngleOnly(angle)] => {
                Some(("state-arch-model", degrees(greatest_angle(finding, *angle))))
            }
            [Reason::AlongTiltedAxis(value)] => {
                let shown = available_beside(*value, limit_of(finding));
                Some(("state-along-axis", self.overlap_or_left(shown)))
            }
            _ => None,
        };
        if let (Some((least, most)), Some(given)) = (finding.between(), finding.limit) {
            let limit = given.length();
            let least = self.overlap_or_left(available_beside(least, limit));
            let most = self.overlap_or_left(bound_beside(most, limit));
            let reasons = self.reasons_from(reasons, Some(finding));
            let args = [
                ("least", least.as_str()),
                ("most", &most),
                ("limit", &self.limit(given)),
                ("reasons", &reasons.unwrap_or_default()),
            ];
            return self.text("state-between", &args);
        }
        if let (Some((id, value)), Some(limit)) = (bound, finding.limit) {
            let limit = self.limit(limit);
            return self.text(id, &[("value", &value), ("limit", &limit)]);
        }
        match self.reasons_from(reasons, Some(finding)) {
            None => self.word("state-unknown-bare"),
            Some(reasons) => self.text("state-unknown", &[("reasons", &reasons)]),
        }
    }

    fn margin_or_length(&self, finding: &Finding, length: Length) -> String {
        if finding.subject() == Subject::Guide {
            mm(length)
        } else if finding.basis == Basis::ArchModel {
            let shown = beside(from_model(length), length, limit_of(finding));
            self.overlap_or_left(shown)
        } else {
            self.overlap_or_left(readable(finding, length))
        }
    }

    /// Source of a limit, and the program's own value where that is stricter.
    #[must_use]
    pub fn limit_source(&self, source: &str, own: Option<Quantity>) -> String {
        match own {
            None => source.to_owned(),
            Some(own) => {
                let own = self.limit(own);
                self.text("limit-loosened", &[("source", source), ("own", &own)])
            }
        }
    }

    /// A limit; a negative one allows an overlap.
    fn limit(&self, limit: Quantity) -> String {
        match limit {
            Quantity::Length(length) if length < Length::ZERO => {
                self.text("margin-overlap", &[("size", &mm(length.abs()))])
            }
            other => self.quantity(other),
        }
    }
}

/// A length as it is shown: rounded down where it is a margin worked out in space, up where it is the
/// most that this can be, else to its side.
pub(crate) fn readable(finding: &Finding, length: Length) -> Length {
    let is_margin = finding.figure.is_some() && finding.limit.is_some();
    let limit = limit_of(finding);
    match finding.rounded_to {
        RoundedTo::More => beside(at_most(length), length, limit),
        RoundedTo::Less => available_beside(length, limit),
        RoundedTo::Exact if finding.is_at_most() => bound_beside(length, limit),
        RoundedTo::Exact if is_margin => available_beside(length, limit),
        RoundedTo::Exact => length,
    }
}

/// The limit that a length is shown beside.
fn limit_of(finding: &Finding) -> Option<Length> {
    finding.limit.and_then(Quantity::length)
}

/// An angle as it is shown: a greatest one, rounded up.
fn greatest_angle(finding: &Finding, angle: Angle) -> Angle {
    let limit = finding.limit.and_then(|limit| match limit {
        Quantity::Angle(limit) => Some(limit),
        Quantity::Length(_) | Quantity::Count(_) => None,
    });
    beside(at_most_angle(angle), angle, limit)
}

/// The numbers among a finding's own arguments.
pub(super) fn counts(finding: &Finding) -> Vec<(&'static str, u32)> {
    let numbers = finding.args.iter().filter_map(|(name, value)| match value {
        Argument::Count(count) => Some((*name, *count)),
        _ => None,
    });
    numbers.collect()
}

/// The side of 0 on which a value lies as it is shown.
fn sign(finding: &Finding, value: Option<&Quantity>) -> &'static str {
    match value {
        None => "none",
        Some(Quantity::Length(length)) => side(readable(finding, *length)),
        Some(_) => "positive",
    }
}
