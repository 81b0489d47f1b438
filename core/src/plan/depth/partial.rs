//! Statements that hold while part of what they need is not known.
//!
//! A cut that is not known can only take more. So whatever the implant and the known cuts leave is
//! the most that can be left: enough to say that a limit is broken, never that it holds.

use crate::case::Place;
use crate::measure::Length;
use crate::plan::figure::{Known, Reason};

/// A value worked out from what is known, and what it lacks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::plan) struct PartlyKnown<T> {
    value: T,
    lacks: Vec<Reason>,
}

impl<T> PartlyKnown<T> {
    /// A value that lacks nothing.
    pub(in crate::plan) const fn whole(value: T) -> Self {
        Self {
            value,
            lacks: Vec::new(),
        }
    }

    /// The same, lacking this as well.
    pub(in crate::plan) fn lacking(mut self, reasons: &[Reason]) -> Self {
        for reason in reasons {
            if !self.lacks.contains(reason) {
                self.lacks.push(reason.clone());
            }
        }
        self
    }

    /// The same with another value.
    pub(in crate::plan) fn map<U>(self, f: impl FnOnce(T) -> U) -> PartlyKnown<U> {
        PartlyKnown {
            value: f(self.value),
            lacks: self.lacks,
        }
    }

    /// Both values, with what either lacks.
    pub(in crate::plan) fn and<U>(self, other: PartlyKnown<U>) -> PartlyKnown<(T, U)> {
        PartlyKnown {
            value: (self.value, other.value),
            lacks: self.lacks,
        }
        .lacking(&other.lacks)
    }

    /// These reasons, and what the value lacks.
    pub(in crate::plan) fn lacks_beside(self, reasons: &[Reason]) -> Vec<Reason> {
        let beside = PartlyKnown::whole(()).lacking(reasons);
        beside.lacking(&self.lacks).lacks
    }

    /// The value where it lacks nothing, else what it lacks.
    pub(in crate::plan) fn known(self) -> Known<T> {
        if self.lacks.is_empty() {
            Known::Is(self.value)
        } else {
            Known::Unknown(self.lacks)
        }
    }
}

impl PartlyKnown<Length> {
    /// A margin: known where it lacks nothing, else unknown with what it lacks and the most that
    /// can be left.
    pub(in crate::plan) fn margin(self) -> Known<Length> {
        let most = self.value;
        self.known().lacking(Reason::AtMost(most))
    }
}

impl PartlyKnown<Option<Length>> {
    /// The same for the least of several margins, of which perhaps none is known.
    pub(in crate::plan) fn least_margin(self, place: &Place) -> Known<Length> {
        match self.value {
            Some(most) => self.map(|_| most).margin(),
            None if self.lacks.is_empty() => Known::missing(place.clone()),
            None => Known::Unknown(self.lacks),
        }
    }
}

impl<T> Known<T> {
    /// The same; where it is unknown, with one more reason at the end.
    fn lacking(self, reason: Reason) -> Self {
        match self {
            Self::Is(value) => Self::Is(value),
            Self::Unknown(mut reasons) => {
                reasons.push(reason);
                Self::Unknown(reasons)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lacks(place: Place) -> Vec<Reason> {
        vec![Reason::Missing(place)]
    }

    #[test]
    fn what_lacks_something_bounds_a_margin_and_is_not_one() {
        let margin = PartlyKnown::whole(Length::from_um(5));
        assert_eq!(margin.clone().margin(), Known::Is(Length::from_um(5)));
        let known = margin.lacking(&lacks(Place::Head)).margin();
        let most = Reason::AtMost(Length::from_um(5));
        assert_eq!(known.reasons(), [lacks(Place::Head), vec![most]].concat());
    }

    #[test]
    fn of_no_margin_at_all_nothing_is_bounded() {
        let none: PartlyKnown<Option<Length>> = PartlyKnown::whole(None);
        assert_eq!(
            none.clone().least_margin(&Place::Arch),
            Known::missing(Place::Arch)
        );
        let known = none.lacking(&lacks(Place::Head)).least_margin(&Place::Arch);
        assert_eq!(known.reasons(), lacks(Place::Head));
    }
}
