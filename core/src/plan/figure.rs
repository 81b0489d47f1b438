//! Figures: values that can say how they came about.

use crate::case::Confirmed;
use crate::case::{Field, Place};
use crate::dentition::ToothPosition;
use crate::kit::SiteId;
use crate::measure::{Angle, Length};
use crate::plan::figure_rule::FigureRule;
use crate::plan::term_name::TermName;

/// A value, or the reasons why there is none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Known<T> {
    /// The value.
    Is(T),
    /// The reasons why there is none; empty only where there is nothing to know, as for a finding
    /// without a value and the gauge of a drill whose marks are read.
    Unknown(Vec<Reason>),
}

/// A reason why a value is not known.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// Something was not entered or is not in the kit: its place.
    Missing(Place),
    /// Something was measured before a change that it depends on: its place.
    Stale(Place, Since),
    /// Measured on a scan that is older than the graft at the site: its place.
    BeforeGraft(Place),
    /// It was measured on a scan of which no date is entered: nobody knows whether that shows the graft.
    ScanUndated(Place),
    /// Only the schematic arch model says something, namely this much.
    ArchModelOnly(Length),
    /// The measured distance leaves this much, and the schematic arch model so much less that one
    /// of distance and placement is wrong.
    AgainstModel {
        /// Margin by the measured distance.
        measured: Length,
        /// Margin by the arch model.
        model: Length,
    },
    /// Part of what is needed is not known; what is known leaves this much at most.
    AtMost(Length),
    /// Known before a change that may have taken as much from it as it may have given back.
    Between {
        /// What is left at worst.
        least: Length,
        /// What is left at best.
        most: Length,
    },
    /// Measured at some heights only, where this much is left; nothing says what is left elsewhere.
    SomeHeightsOnly(Length),
    /// So much where it was measured; between those heights two leaning implants may be as near as the least.
    BetweenHeights {
        /// The least that it can be.
        least: Length,
        /// Where it was measured.
        measured: Length,
    },
    /// Entered as the least over the length, where this much is left, though less was measured elsewhere.
    NotTheLeast(Length),
    /// Measured less deep than the deepest cut of this site now reaches; down to there this much is left.
    MeasuredLessDeep(Length, SiteId),
    /// Only the schematic arch model gives the angle between two axes, namely this one.
    ArchAngleOnly(Angle),
    /// A height along the axis of a tilted site, which leaves this much along the axis but says
    /// nothing about what is beside it.
    AlongTiltedAxis(Length),
    /// Counted from the crest of a socket or of an implant's bed, where there is none; from wherever it was counted, this
    /// much is left at most.
    CrestOfSocket(Length),
    /// The gauge does not reach this figure.
    OutsideGauge(Length),
    /// The gauge would have to show this figure, which is between two of its graduations.
    BetweenGraduations(Length),
    /// What stands there was entered without its kind, and one kind needs more than another.
    KindNotEntered {
        /// Its position.
        tooth: ToothPosition,
        /// What is left beside it, and what would be needed if it were an implant.
        left: Option<(Length, Length)>,
    },
    /// Something was drilled through the guide there before it was left that the sequence does not have so any more.
    CutThroughGuide(SiteId),
    /// Something was drilled there by a plan that was changed since, and nobody knows how deep it is below the platform as it is
    /// planned now.
    CutBefore(SiteId),
    /// Nothing on the tray gives a depth: no fixed stop and no mark is short enough.
    NothingFits,
    /// The instruments do not fit there.
    Unfit,
    /// A slow answer is still being worked out.
    Pending(&'static str),
    /// No accuracy figure applies.
    NoAccuracy,
}

/// What was changed since something was measured.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Since {
    /// The site of which it was changed.
    pub site: SiteId,
    /// The change.
    pub change: Change,
}

/// A change of a site on which a measured value depends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// The site was moved or tilted.
    Moved,
    /// Its platform was set to another depth below the crest.
    Depth,
    /// The depth of its platform below the crest is not entered any more.
    DepthMissing,
    /// Its platform is planned at another depth than the guide that was made leads it to.
    OffGuide,
    /// It got an implant of another length.
    Implant,
    /// Its sleeve was set to another distance.
    Sleeve,
    /// Its bone is in another state, or was grafted since the scan.
    Bone,
    /// The guide that was measured had another code, or none was entered.
    GuideCode,
    /// In the guide that was measured the site's axis, sleeve or sleeve offset was another.
    GuidePlan,
    /// None that is known of: how the site was then was not recorded.
    Unrecorded,
    /// None that is known of: which guide was measured was not recorded.
    UnrecordedGuide,
}

impl Change {
    /// True if it makes the guide another one than was measured.
    pub(crate) const fn is_of_guide(self) -> bool {
        match self {
            Self::GuideCode | Self::GuidePlan | Self::UnrecordedGuide => true,
            Self::Moved
            | Self::Depth
            | Self::DepthMissing
            | Self::OffGuide
            | Self::Implant
            | Self::Sleeve
            | Self::Bone
            | Self::Unrecorded => false,
        }
    }

    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Moved => "moved",
            Self::Depth => "depth",
            Self::DepthMissing => "depth-missing",
            Self::OffGuide => "off-guide",
            Self::Implant => "implant",
            Self::Sleeve => "sleeve",
            Self::Bone => "bone",
            Self::GuideCode => "guide-code",
            Self::GuidePlan => "guide-plan",
            Self::Unrecorded => "unrecorded",
            Self::UnrecordedGuide => "unrecorded-guide",
        }
    }
}

impl Reason {
    /// The most that can be left, where the reason gives it: enough to be short, never to be clear.
    #[must_use]
    pub const fn at_most(&self) -> Option<Length> {
        match self {
            Self::AtMost(left)
            | Self::Between { most: left, .. }
            | Self::ArchModelOnly(left)
            | Self::SomeHeightsOnly(left)
            | Self::BetweenHeights { measured: left, .. }
            | Self::NotTheLeast(left)
            | Self::MeasuredLessDeep(left, _)
            | Self::AlongTiltedAxis(left)
            | Self::CrestOfSocket(left) => Some(*left),
            Self::Missing(_)
            | Self::Stale(..)
            | Self::BeforeGraft(_)
            | Self::ScanUndated(_)
            | Self::AgainstModel { .. }
            | Self::ArchAngleOnly(_)
            | Self::OutsideGauge(_)
            | Self::BetweenGraduations(_)
            | Self::KindNotEntered { .. }
            | Self::CutThroughGuide(_)
            | Self::CutBefore(_)
            | Self::NothingFits
            | Self::Unfit
            | Self::Pending(_)
            | Self::NoAccuracy => None,
        }
    }
}

impl Reason {
    /// What is left at worst and at best, where the reason gives both.
    pub(in crate::plan) const fn between(&self) -> Option<(Length, Length)> {
        match self {
            Self::Between { least, most } => Some((*least, *most)),
            _ => None,
        }
    }
}

impl<T> Known<T> {
    /// Unknown because something at a place is missing.
    pub(crate) fn missing(place: Place) -> Self {
        Self::Unknown(vec![Reason::Missing(place)])
    }

    /// The value, where there is one.
    pub const fn value(&self) -> Option<&T> {
        match self {
            Self::Is(value) => Some(value),
            Self::Unknown(_) => None,
        }
    }

    /// The reasons why there is no value; empty where there is one.
    #[must_use]
    pub fn reasons(&self) -> &[Reason] {
        match self {
            Self::Is(_) => &[],
            Self::Unknown(reasons) => reasons,
        }
    }

    /// The same with another value.
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Known<U> {
        match self {
            Self::Is(value) => Known::Is(f(value)),
            Self::Unknown(reasons) => Known::Unknown(reasons),
        }
    }

    /// Both values, or the reasons of either.
    pub fn and<U>(self, other: Known<U>) -> Known<(T, U)> {
        match (self, other) {
            (Self::Is(a), Known::Is(b)) => Known::Is((a, b)),
            (Self::Is(_), Known::Unknown(reasons)) | (Self::Unknown(reasons), Known::Is(_)) => {
                Known::Unknown(reasons)
            }
            (Self::Unknown(mut reasons), Known::Unknown(others)) => {
                for reason in others {
                    if !reasons.contains(&reason) {
                        reasons.push(reason);
                    }
                }
                Known::Unknown(reasons)
            }
        }
    }
}

impl<T: Copy> Known<T> {
    /// The value by copy, where there is one.
    pub fn get(&self) -> Option<T> {
        self.value().copied()
    }
}

/// A value of some kind of quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A number of pieces.
    Count(u32),
}

impl Quantity {
    /// The length, where it is one.
    #[must_use]
    pub const fn length(self) -> Option<Length> {
        match self {
            Self::Length(length) => Some(length),
            Self::Angle(_) | Self::Count(_) => None,
        }
    }

    /// The angle, where it is one.
    #[must_use]
    pub const fn angle(self) -> Option<Angle> {
        match self {
            Self::Angle(angle) => Some(angle),
            Self::Length(_) | Self::Count(_) => None,
        }
    }
}

/// The basis of a value: the weakest of its terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// Measured on the patient, the guide or the instrument.
    Measured,
    /// Measured before the site moved, and said by a person to hold still.
    Confirmed,
    /// Entered from the plan.
    Entered,
    /// Estimated by a rule.
    Estimated,
    /// Taken from the schematic arch model.
    ArchModel,
}

impl Basis {
    /// That of a value, by the word that it was confirmed with, if any.
    pub(super) const fn of(confirmed: Option<&Confirmed>) -> Self {
        match confirmed {
            Some(_) => Self::Confirmed,
            None => Self::Measured,
        }
    }

    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Confirmed => "confirmed",
            Self::Entered => "entered",
            Self::Estimated => "estimated",
            Self::ArchModel => "arch_model",
        }
    }
}

/// The origin of a term.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origin {
    /// A field of the case file.
    Case(Field),
    /// A field of an entry of the kit.
    Kit {
        /// The list.
        list: &'static str,
        /// The entry.
        entry: String,
        /// The field.
        field: &'static str,
    },
    /// Another figure.
    Figure(Field),
    /// A rule of the program.
    Rule(FigureRule),
}

/// The use of a term: added, taken away or otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Added.
    Plus,
    /// Taken away.
    Minus,
    /// Used otherwise, as its name says: a graduation, an angle.
    With,
}

/// One term of a figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// Its name.
    pub name: TermName,
    /// Its use in the sum.
    pub sign: Sign,
    /// Its origin.
    pub from: Origin,
    /// Its value.
    pub value: Known<Quantity>,
    /// Its basis.
    pub basis: Basis,
}

/// A value with all that it came from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// Its place in the worksheet.
    pub id: Field,
    /// The value.
    pub value: Known<Quantity>,
    /// Its basis.
    pub basis: Basis,
    /// The rule that it was worked out by: a text id.
    pub rule: FigureRule,
    /// The terms that it was worked out from.
    pub terms: Vec<Term>,
}

impl Figure {
    /// The length, where it is known and one.
    #[must_use]
    pub fn length(&self) -> Option<Length> {
        self.value.get().and_then(Quantity::length)
    }

    /// All that moves since something was measured take from it at most, where there were any: it is
    /// then the least that its value can be.
    #[must_use]
    pub fn taken_by_moves(&self) -> Option<Length> {
        let terms = self.terms.iter();
        let mut taken = terms
            .filter(|term| term.name == TermName::TakenByMove)
            .filter_map(|term| term.value.get().and_then(Quantity::length))
            .peekable();
        taken.peek()?;
        Some(taken.sum())
    }

    /// The length, or why it is not known.
    #[must_use]
    pub fn known_length(&self) -> Known<Length> {
        match &self.value {
            Known::Is(quantity) => quantity
                .length()
                .map_or_else(|| Known::missing(self.id.at.clone()), Known::Is),
            Known::Unknown(reasons) => Known::Unknown(reasons.clone()),
        }
    }

    /// A figure of this length, from what was already gathered.
    pub(super) fn of_length(
        id: Field,
        rule: FigureRule,
        value: Known<Length>,
        terms: Vec<Term>,
    ) -> Self {
        let basis = weakest(&terms);
        Self {
            id,
            value: value.map(Quantity::Length),
            basis,
            rule,
            terms,
        }
    }

    /// A term that refers to this figure.
    pub(super) fn as_term(&self, name: TermName, sign: Sign) -> Term {
        Term {
            name,
            sign,
            from: Origin::Figure(self.id.clone()),
            value: self.value.clone(),
            basis: self.basis,
        }
    }
}

/// The weakest basis of some terms; measured where there are none. What a move may have given back makes
/// nothing weaker: what is short even with it is so by what was measured.
pub(super) fn weakest(terms: &[Term]) -> Basis {
    terms
        .iter()
        .filter(|term| term.name != TermName::GivenByMove)
        .map(|term| term.basis)
        .max()
        .unwrap_or(Basis::Measured)
}

impl Term {
    /// A length from the kit.
    pub(super) fn kit(
        name: TermName,
        list: &'static str,
        id: impl std::fmt::Display,
        field: &'static str,
        value: Length,
    ) -> Self {
        Self {
            name,
            sign: Sign::Plus,
            from: Origin::Kit {
                list,
                entry: id.to_string(),
                field,
            },
            value: Known::Is(Quantity::Length(value)),
            basis: Basis::Measured,
        }
    }

    /// A length from the case.
    pub(super) fn case(name: TermName, field: Field, value: Option<Length>, basis: Basis) -> Self {
        let known = match value {
            Some(value) => Known::Is(Quantity::Length(value)),
            None => Known::missing(field.at.clone()),
        };
        Self {
            name,
            sign: Sign::Plus,
            from: Origin::Case(field),
            value: known,
            basis,
        }
    }

    /// The same term, taken away.
    pub(super) fn minus(mut self) -> Self {
        self.sign = Sign::Minus;
        self
    }

    /// The same term, used otherwise.
    pub(super) fn with(mut self) -> Self {
        self.sign = Sign::With;
        self
    }
}

/// The sum of all terms that are added less those that are taken away.
pub(super) fn sum(id: Field, rule: FigureRule, terms: Vec<Term>) -> Figure {
    let mut total = Known::Is(Length::ZERO);
    for term in &terms {
        let part = match (&term.value, term.sign) {
            (Known::Unknown(reasons), _) => Known::Unknown(reasons.clone()),
            (Known::Is(Quantity::Length(length)), Sign::Plus) => Known::Is(*length),
            (Known::Is(Quantity::Length(length)), Sign::Minus) => Known::Is(-*length),
            (Known::Is(_), _) => continue,
        };
        total = total.and(part).map(|(a, b)| a + b);
    }
    Figure::of_length(id, rule, total, terms)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entered(place: Place, value: Option<i64>) -> Term {
        Term::case(
            TermName::Depth,
            place.into(),
            value.map(Length::from_um),
            Basis::Entered,
        )
    }

    #[test]
    fn a_sum_with_an_unknown_term_is_unknown_and_names_each_of_them() {
        let figure = sum(
            Place::Kit.into(),
            FigureRule::Exact,
            vec![
                entered(Place::Arch, Some(1)),
                entered(Place::Head, None),
                entered(Place::Gauge, None),
            ],
        );
        assert_eq!(
            figure.value.reasons(),
            [Reason::Missing(Place::Head), Reason::Missing(Place::Gauge)]
        );
    }

    #[test]
    fn the_weakest_term_decides_the_basis() {
        let mut model = entered(Place::Arch, Some(1));
        model.basis = Basis::ArchModel;
        let figure = sum(
            Place::Kit.into(),
            FigureRule::Exact,
            vec![entered(Place::Head, Some(2)), model.minus()],
        );
        assert_eq!(figure.basis, Basis::ArchModel);
        assert_eq!(figure.length(), Some(Length::from_um(1)));
    }
}
