//! Findings: what was checked and what came of it.

mod allowed;
pub(super) mod argument;
mod cause;
mod confirmed;
mod decision;
mod digest;

pub(super) use allowed::Allowed;
pub use cause::{CommonCause, FindingLine, by_cause};
pub(super) use confirmed::attach_confirmations;
pub(crate) use confirmed::confirmed_by;
pub use decision::{AppliedDecision, LapsedDecision, WhyLapsed, may_be_accepted, may_be_intended};
pub(super) use decision::{attach_decisions, least_left};
pub use digest::parse_acceptance;

use crate::case::{DecisionKind, LimitId, Limits, Place, Rule, SitePlace, Subject};
use crate::kit::{SiteId, StepId};
use crate::measure::{Angle, Length};
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::term_name::TermName;
use argument::Argument;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// Verdict of a value against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The nominal value breaks the limit.
    Short,
    /// An input is missing or stale, or only the arch model says something.
    Unknown,
    /// Not short, but too probable to fall below the floor.
    Tight,
    /// Worth knowing; no limit is broken.
    Note,
    /// None of these.
    Clear,
}

/// A verdict together with the surgeon's decision on it, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The nominal value breaks the limit.
    Short,
    /// Not known.
    Unknown,
    /// Not short, but too probable to fall below the floor.
    Tight,
    /// Short, unknown or tight, and accepted with a reason.
    Accepted,
    /// A planned contact.
    Intended,
    /// Worth knowing.
    Note,
    /// None of these.
    Clear,
}

impl Severity {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Unknown => "unknown",
            Self::Tight => "tight",
            Self::Accepted => "accepted",
            Self::Intended => "intended",
            Self::Note => "note",
            Self::Clear => "clear",
        }
    }

    /// True if it must be settled or accepted before surgery: short or unknown.
    #[must_use]
    pub const fn is_open(self) -> bool {
        matches!(self, Self::Short | Self::Unknown)
    }
}

/// The side to which a length is rounded for reading, where it is worked out finer than anybody
/// measures: no side on which it would seem safer than it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RoundedTo {
    /// Each digit is shown.
    Exact,
    /// What is there, or is worth knowing as such.
    Less,
    /// What a cut lacks.
    More,
}

/// A limit of the case, or an allowance of its kit, that is less strict than the program's own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Loosened {
    /// Its key in the case, or among the kit's allowances.
    pub limit: &'static str,
    /// The program's own limit.
    pub own: Quantity,
}

impl Loosened {
    pub(super) fn of(limits: &Limits, id: LimitId) -> Option<Self> {
        let own = limits.own_if_stricter(id).map(Quantity::Length)?;
        let limit = id.key();
        Some(Self { limit, own })
    }
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule that was checked: the id of its sentence.
    pub rule: Rule,
    /// Its place.
    pub place: Place,
    /// The site at which it is told: that of its place, the other one in [`Self::seen_from`].
    pub site: Option<SiteId>,
    /// The step, where its place is one.
    pub step: Option<StepId>,
    /// Verdict of the value against the limit.
    pub verdict: Verdict,
    /// The value; unknown without a reason where the rule has none.
    pub value: Known<Quantity>,
    /// The side to which a value that is a length is rounded for reading; a margin, which has a
    /// figure and a limit, goes to less without it.
    pub rounded_to: RoundedTo,
    /// The limit.
    pub limit: Option<Quantity>,
    /// The source of the limit.
    pub limit_source: Option<String>,
    /// A limit of the case, or an allowance of its kit, that counts here and is less strict than the program's own.
    pub loosened: Option<Loosened>,
    /// Bore of the master sleeve as it was measured, where what it is about runs in that.
    pub measured_bore: Option<Length>,
    /// The basis of the value.
    pub basis: Basis,
    /// Further arguments of the sentence.
    pub args: BTreeMap<&'static str, Argument>,
    /// The cause on which it hangs, where neither its value nor its place says so.
    pub(crate) hangs_on: Option<CommonCause>,
    /// What it is judged of besides its value: the bodies of its sites, what of the kit lacks, practice; each
    /// as text, for its digest alone.
    pub(crate) bodies: Vec<String>,
    /// The derivation of the value.
    pub figure: Option<Box<Figure>>,
    /// The surgeon's decision, where it still holds.
    pub decision: Option<AppliedDecision>,
    /// A decision that does not count, and why.
    pub lapsed: Option<LapsedDecision>,
}

impl Finding {
    /// A finding of this rule at this place, clear and without a value.
    pub(super) fn new(rule: Rule, place: Place) -> Self {
        let step = match place.site_place() {
            Some(SitePlace::Step(step)) => Some(step.clone()),
            _ => None,
        };
        Self {
            rule,
            site: place.told_at().cloned(),
            step,
            place,
            verdict: Verdict::Clear,
            value: Known::Unknown(Vec::new()),
            rounded_to: RoundedTo::Exact,
            limit: None,
            limit_source: None,
            loosened: None,
            measured_bore: None,
            basis: Basis::Measured,
            args: BTreeMap::new(),
            bodies: Vec::new(),
            hangs_on: None,
            figure: None,
            decision: None,
            lapsed: None,
        }
    }

    /// The same with this verdict.
    pub(super) fn verdict(mut self, verdict: Verdict) -> Self {
        self.verdict = verdict;
        self
    }

    /// The same with another argument for its sentence.
    pub(super) fn arg(mut self, name: &'static str, value: impl Into<Argument>) -> Self {
        self.args.insert(name, value.into());
        self
    }

    /// The same, hanging on this cause.
    pub(super) fn hanging_on(mut self, cause: Option<CommonCause>) -> Self {
        self.hangs_on = cause;
        self
    }

    /// The same with a value and the figure that it comes from.
    pub(super) fn figure(mut self, figure: Figure) -> Self {
        self.value = figure.value.clone();
        self.basis = figure.basis;
        self.figure = Some(Box::new(figure));
        self
    }

    /// The same with a length as value.
    pub(super) fn length(mut self, value: Length) -> Self {
        self.value = Known::Is(Quantity::Length(value));
        self
    }

    /// The same with a value that is rounded to this side for reading.
    pub(super) fn rounded_to(mut self, side: RoundedTo) -> Self {
        self.rounded_to = side;
        self
    }

    /// The same with a length as limit.
    pub(super) fn limit(mut self, limit: Length) -> Self {
        self.limit = Some(Quantity::Length(limit));
        self
    }

    /// The same with a limit of the case, where there is one: its figure, its source, and whether it
    /// is less strict than the program's own.
    pub(super) fn held_to(mut self, limits: &Limits, id: LimitId) -> Self {
        let Some(limit) = limits.get(id) else {
            return self;
        };
        self.limit_source = Some(limit.source.clone());
        self.loosened = Loosened::of(limits, id);
        self.limit(limit.limit_mm)
    }

    /// The same, judged by what of a value is more than a limit of the case allows; nothing where it is
    /// no more than that. Without a limit nothing is allowed, and more is unknown. What only a limit less
    /// strict than the program's own allows is worth knowing.
    pub(super) fn above(self, limits: &Limits, id: LimitId, value: Length) -> Option<Self> {
        let Some(limit) = limits.get(id) else {
            return (value > Length::ZERO).then(|| {
                let mut finding = self.verdict(Verdict::Unknown);
                finding.value = Known::missing(Place::Limit(id));
                finding
            });
        };
        let own = limits.own_if_stricter(id);
        let verdict = if value > limit.limit_mm {
            Verdict::Short
        } else if own.is_some_and(|own| value > own) {
            Verdict::Note
        } else {
            return None;
        };
        Some(self.verdict(verdict).held_to(limits, id))
    }

    /// The same with an angle as limit.
    pub(super) fn limit_angle(mut self, limit: Angle) -> Self {
        self.limit = Some(Quantity::Angle(limit));
        self
    }

    /// True if a value that it was worked out from was confirmed after a change, and not measured anew.
    #[must_use]
    pub fn is_confirmed(&self) -> bool {
        self.args.contains_key("confirmed_by")
    }

    /// The other site of a finding between two.
    #[must_use]
    pub fn other_site(&self) -> Option<&SiteId> {
        match self.place.site_place() {
            Some(SitePlace::ToSite(other, _)) => Some(other),
            _ => None,
        }
    }

    /// True if it belongs to this site: what lies between two belongs to both.
    #[must_use]
    pub fn is_of(&self, site: &SiteId) -> bool {
        self.site.as_ref() == Some(site) || self.other_site() == Some(site)
    }

    /// It as it is told at a site that it belongs to: there the other one is named. Its key stays.
    #[must_use]
    pub fn seen_from(&self, site: &SiteId) -> Cow<'_, Self> {
        let (Some(own), Some(other)) = (&self.site, self.other_site()) else {
            return Cow::Borrowed(self);
        };
        if other != site || !self.args.contains_key("other") {
            return Cow::Borrowed(self);
        }
        let mut seen = self.clone();
        seen.args.insert("other", own.into());
        seen.site = Some(other.clone());
        Cow::Owned(seen)
    }

    /// Its subject.
    #[must_use]
    pub const fn subject(&self) -> Subject {
        self.rule.subject()
    }

    /// Its key, by which a decision refers to it.
    #[must_use]
    pub fn key(&self) -> String {
        format!("{} {}", self.rule, self.place)
    }

    /// True if that is its key; the place is only written out for its rule's.
    pub(in crate::plan) fn has_key(&self, key: &str) -> bool {
        let place = key.strip_prefix(self.rule.key());
        let place = place.and_then(|rest| rest.strip_prefix(' '));
        place.is_some_and(|place| self.place.key() == place)
    }

    /// The verdict together with the surgeon's decision.
    #[must_use]
    pub fn severity(&self) -> Severity {
        match (self.verdict, &self.decision) {
            (Verdict::Clear, _) => Severity::Clear,
            (Verdict::Note, _) => Severity::Note,
            (_, Some(word)) => match word.judged {
                DecisionKind::Accepted => Severity::Accepted,
                DecisionKind::Intended => Severity::Intended,
            },
            (Verdict::Short, None) => Severity::Short,
            (Verdict::Unknown, None) => Severity::Unknown,
            (Verdict::Tight, None) => Severity::Tight,
        }
    }

    /// The length of its value, where it is known and one.
    #[must_use]
    pub fn length_value(&self) -> Option<Length> {
        self.value.get().and_then(Quantity::length)
    }

    /// True if its value is the least that it can be: of what was measured before a move, what the
    /// move cannot take; without a gauge, what the deepest cut leaves that any could give.
    #[must_use]
    pub fn is_at_least(&self) -> bool {
        let figure = self.figure.as_ref();
        let by_gauge = |figure: &Figure| figure.terms.iter().any(|t| t.name == TermName::Gauge);
        self.verdict == Verdict::Clear
            && figure.is_some_and(|f| f.taken_by_moves().is_some() || by_gauge(f))
    }

    /// True if its value is the most that it can be: part of what it needs is not known, or only as it was
    /// before a change.
    #[must_use]
    pub fn is_at_most(&self) -> bool {
        // What the arch model gives has words of its own.
        let is_most = |r: &Reason| r.at_most().is_some() && !matches!(r, Reason::ArchModelOnly(_));
        let figure = self.figure.as_ref();
        let is_bound = figure.is_some_and(|figure| figure.value.reasons().iter().any(is_most));
        self.length_value().is_some() && is_bound
    }

    /// What an unknown leaves at worst and at best, where a change since it was measured is all that
    /// makes it unknown.
    #[must_use]
    pub fn between(&self) -> Option<(Length, Length)> {
        self.value.reasons().iter().find_map(Reason::between)
    }

    /// It, or where it is unknown for want of a gauge the same by cuts as deep as any gauge could let
    /// them be, if that is clear.
    pub(super) fn or_with_any_gauge(self, deepest: Option<&Self>) -> Self {
        let no_gauge = Reason::Missing(Place::Gauge);
        let lacks_it = self.verdict == Verdict::Unknown && self.value.reasons().contains(&no_gauge);
        let Some(deepest) = deepest.filter(|one| lacks_it && one.verdict == Verdict::Clear) else {
            return self;
        };
        let mut by_bound = deepest.clone();
        if let Some(figure) = &mut by_bound.figure {
            figure.terms.push(Term {
                name: TermName::Gauge,
                sign: Sign::With,
                from: Origin::Case(Place::Gauge.into()),
                value: Known::missing(Place::Gauge),
                basis: Basis::Estimated,
            });
            by_bound.basis = by_bound.basis.max(Basis::Estimated);
            figure.basis = by_bound.basis;
        }
        by_bound
    }

    /// The length that it shows: its value, or the most that an unknown can leave; nothing where
    /// there is none.
    #[must_use]
    pub fn judged_length(&self) -> Option<Length> {
        self.length_value().or_else(|| at_most(&self.value))
    }
}

/// Sorts findings worst first; within one severity by subject, then in the order they were found.
pub(super) fn sort_worst_first(findings: &mut [Finding]) {
    findings.sort_by_key(|f| (f.severity(), f.rule.subject()));
}

/// The most that an unknown margin can leave, where a reason gives it.
pub(super) fn at_most<T>(margin: &Known<T>) -> Option<Length> {
    let reasons = margin.reasons().iter();
    reasons
        .filter_map(crate::plan::figure::Reason::at_most)
        .min()
}

/// Verdict of a nominal margin against a limit: equal to the limit is not short.
///
/// `below_floor` is the probability of falling below the floor and the greatest one allowed, both
/// in millionths; absent while accuracy is not assessed.
#[must_use]
pub fn margin_verdict(margin: Length, limit: Length, below_floor: Option<(u32, u32)>) -> Verdict {
    if margin < limit {
        Verdict::Short
    } else if below_floor.is_some_and(|(probability, allowed)| probability > allowed) {
        Verdict::Tight
    } else {
        Verdict::Clear
    }
}
