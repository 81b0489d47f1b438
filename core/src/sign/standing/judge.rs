//! A figure read on the gauge against the figure that it should show.

use super::plan::{PlannedItem, Tolerance};
use crate::measure::Length;
use crate::sign::{Argument, Message};

/// The verdict on a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadingVerdict {
    /// Against the tolerance.
    pub deviation: Deviation,
    /// The reasons why it looks mistyped; empty when it does not.
    pub mistyped: Vec<Mistyped>,
}

/// The deviation of a reading from the figure, held against the tolerance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Deviation {
    /// As planned, or short of it by no more than the tolerance.
    InTolerance {
        /// The shortfall of the planned depth; negative: deeper, within the allowance.
        shallower_mm: Length,
    },
    /// The drill would go deeper than planned.
    TooDeep {
        /// By how much.
        by_mm: Length,
    },
    /// The drill would stop short of the tolerance.
    TooShallow {
        /// By how much less than planned.
        by_mm: Length,
    },
    /// The plan has no figure to compare with.
    NoFigure,
}

/// A reason why a reading looks mistyped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mistyped {
    /// The gauge cannot show it.
    OutsideGauge {
        /// Least figure of the gauge.
        least_mm: Length,
        /// Greatest figure of the gauge.
        greatest_mm: Length,
    },
    /// It is between two graduations of a gauge that shows the figure on one.
    OffGraduation {
        /// The gauge's graduation.
        graduation_mm: Length,
    },
    /// Too far from the figure to be a stop that slipped.
    FarOff {
        /// The distance, without sign.
        by_mm: Length,
    },
    /// The digits of the figure with the decimal mark elsewhere or missing.
    DecimalMark {
        /// The figure.
        figure_mm: Length,
    },
}

impl ReadingVerdict {
    /// True if the reading confirms the setting.
    #[must_use]
    pub fn confirms(&self) -> bool {
        matches!(self.deviation, Deviation::InTolerance { .. }) && self.mistyped.is_empty()
    }

    /// True if the gauge has such a figure. One that it has not was mistyped, and says nothing of the setting; one
    /// that is only far off may have been read.
    #[must_use]
    pub fn is_shown_by_gauge(&self) -> bool {
        let no_figure = |why: &Mistyped| {
            matches!(
                why,
                Mistyped::OutsideGauge { .. } | Mistyped::OffGraduation { .. }
            )
        };
        !self.mistyped.iter().any(no_figure)
    }
}

/// Judges a figure read on the gauge, also before it is recorded.
///
/// A greater figure means that the tip is further from the stop: deeper.
#[must_use]
pub fn judge(value: Length, item: &PlannedItem, tolerance: &Tolerance) -> ReadingVerdict {
    let mut mistyped = Vec::new();
    if let Some((least_mm, greatest_mm)) = item.gauge_range_mm
        && !(least_mm..=greatest_mm).contains(&value)
    {
        mistyped.push(Mistyped::OutsideGauge {
            least_mm,
            greatest_mm,
        });
    }
    let (Some(figure_mm), Some(graduation_mm)) = (item.gauge_figure_mm, item.graduation_mm) else {
        let deviation = Deviation::NoFigure;
        return ReadingVerdict {
            deviation,
            mistyped,
        };
    };
    if is_on_graduation(figure_mm, graduation_mm) && !is_on_graduation(value, graduation_mm) {
        mistyped.push(Mistyped::OffGraduation { graduation_mm });
    }
    let deeper = value - figure_mm;
    if deeper.abs() > tolerance.mistyped_beyond_mm {
        let by_mm = deeper.abs();
        mistyped.push(Mistyped::FarOff { by_mm });
    }
    if value.is_shifted(figure_mm) {
        mistyped.push(Mistyped::DecimalMark { figure_mm });
    }
    let (least, most) = within(figure_mm, graduation_mm, tolerance);
    let deviation = if value > most {
        Deviation::TooDeep { by_mm: deeper }
    } else if value < least {
        Deviation::TooShallow { by_mm: -deeper }
    } else {
        Deviation::InTolerance {
            shallower_mm: -deeper,
        }
    };
    ReadingVerdict {
        deviation,
        mistyped,
    }
}

/// Least and greatest figure that confirm a setting; nothing where the plan has no figure.
#[must_use]
pub fn accepted(item: &PlannedItem, tolerance: &Tolerance) -> Option<(Length, Length)> {
    Some(within(
        item.gauge_figure_mm?,
        item.graduation_mm?,
        tolerance,
    ))
}

fn within(figure: Length, graduation: Length, tolerance: &Tolerance) -> (Length, Length) {
    let shallow = i64::from(tolerance.shallow_graduations) * graduation.um();
    (
        figure - Length::from_um(shallow),
        figure + tolerance.deep_mm,
    )
}

/// True if a gauge of this graduation can show a figure.
#[must_use]
pub fn is_on_graduation(figure: Length, graduation: Length) -> bool {
    let rest = figure.um().checked_rem(graduation.um());
    rest.is_none_or(|rest| rest == 0)
}

impl Deviation {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::InTolerance { shallower_mm } => {
                Message::new("sign-judged-in-tolerance", [("shallower", shallower_mm)])
            }
            Self::TooDeep { by_mm } => Message::new("sign-judged-too-deep", [("by", by_mm)]),
            Self::TooShallow { by_mm } => Message::new("sign-judged-too-shallow", [("by", by_mm)]),
            Self::NoFigure => Message::new("sign-judged-no-figure", []),
        }
    }
}

impl Mistyped {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::OutsideGauge {
                least_mm,
                greatest_mm,
            } => Message::new(
                "sign-mistyped-outside-gauge",
                [
                    ("least", &Argument::BareLength(*least_mm)),
                    ("greatest", greatest_mm),
                ],
            ),
            Self::OffGraduation { graduation_mm } => Message::new(
                "sign-mistyped-off-graduation",
                [("graduation", graduation_mm)],
            ),
            Self::FarOff { by_mm } => Message::new("sign-mistyped-far-off", [("by", by_mm)]),
            Self::DecimalMark { figure_mm } => {
                Message::new("sign-mistyped-decimal-mark", [("figure", figure_mm)])
            }
        }
    }
}
