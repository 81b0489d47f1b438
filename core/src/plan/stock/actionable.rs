//! The figure that a person acts on: to which a stop is set or a drill goes.
//!
//! A stop that is set on a gauge is set to what the gauge shows, which may be another figure than
//! the length from tip to stop. Where nobody knows what the gauge shows there is no such figure:
//! it would be set on the gauge. Paper and screen both ask here.

use crate::kit::{DrillId, Kit, StopId, StopKind};
use crate::measure::Length;
use crate::plan::depth::fits::Fits;
use crate::plan::depth::setting::MarkEdge;
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Known};
use crate::plan::fit::pins::PinSheet;
use crate::plan::stock::loading::LoadItem;

/// A setting to make, or a length to drill to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Actionable<'a> {
    drill: &'a DrillId,
    stop: Option<&'a StopId>,
    /// The mark to read, where no stop is used.
    mark: Option<&'a MarkEdge>,
    /// From tip to stop, or to the mark.
    set: Known<Length>,
    /// The figure that the gauge then shows.
    gauge: Known<Length>,
    fits: Fits,
}

/// The figure to act on, and the one that belongs beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ActionableFigure {
    /// No setting is known: nothing is set and nothing drilled.
    Nothing,
    /// Stop, drill or sleeve do not fit each other at this setting: nothing is set and nothing drilled.
    DoesNotFit,
    /// The setting is known, but not what the gauge would show of it: it is not to be set.
    NotOnGauge {
        /// From tip to stop.
        set: Length,
    },
    /// Set to what the gauge shows, which is not the length from tip to stop.
    GaugeFigure {
        /// The gauge's figure: the large one.
        gauge: Length,
        /// From tip to stop.
        set: Length,
    },
    /// The length from tip to stop or mark itself.
    SetLength {
        /// From tip to stop or mark: the large figure.
        set: Length,
        /// The gauge's figure for it, where that is another one.
        gauge: Option<Length>,
    },
}

impl<'a> Actionable<'a> {
    /// Of a step.
    #[must_use]
    pub fn of_step(step: &'a StepSheet) -> Self {
        let gauge = step.gauge.as_ref();
        Self {
            drill: &step.drill,
            stop: step.stop.as_ref(),
            mark: step.mark.as_ref(),
            set: step.set.known_length(),
            gauge: gauge.map_or_else(|| Known::Unknown(Vec::new()), Figure::known_length),
            fits: step.fits,
        }
    }

    /// Of a pin's drill.
    #[must_use]
    pub fn of_pin(pin: &'a PinSheet) -> Self {
        let gauge = pin.gauge.as_ref();
        Self {
            drill: &pin.drill,
            stop: pin.stop.as_ref(),
            mark: pin.mark.as_ref(),
            set: pin.set.known_length(),
            gauge: gauge.map_or_else(|| Known::Unknown(Vec::new()), Figure::known_length),
            fits: pin.fits,
        }
    }

    /// Of a thing on the tray; nothing for what carries neither stop nor mark.
    #[must_use]
    pub fn of_item(item: &'a LoadItem) -> Option<Self> {
        let on = item.set.as_ref()?;
        Some(Self {
            drill: &on.drill,
            stop: on.stop.as_ref(),
            mark: on.mark.as_ref(),
            set: on.set.clone(),
            gauge: on.gauge.clone(),
            fits: on.fits,
        })
    }

    /// The drill.
    #[must_use]
    pub const fn drill(&self) -> &'a DrillId {
        self.drill
    }

    /// The stop on it; nothing where a mark is read.
    #[must_use]
    pub const fn stop(&self) -> Option<&'a StopId> {
        self.stop
    }

    /// The mark to read; nothing where a stop is used, or no mark fits.
    #[must_use]
    pub const fn mark(&self) -> Option<&'a MarkEdge> {
        self.mark
    }

    /// From tip to stop, or to the mark.
    #[must_use]
    pub const fn set(&self) -> &Known<Length> {
        &self.set
    }

    /// True if there is a stop with a figure that the gauge shows, and it is to be set.
    #[must_use]
    pub const fn is_read(&self) -> bool {
        let known = self.set.value().is_some() && self.gauge.value().is_some();
        self.stop.is_some() && known && matches!(self.fits, Fits::AsFarAsKnown)
    }

    /// True if it is set on the gauge, not by a groove or a mark.
    fn is_set_on_gauge(&self, kit: &Kit) -> bool {
        let stop = self.stop.and_then(|id| kit.stop(id));
        stop.is_some_and(|stop| matches!(stop.depth, StopKind::Adjustable {}))
    }

    /// The figure to act on, with the instruments of this kit.
    #[must_use]
    pub fn figure(&self, kit: &Kit) -> ActionableFigure {
        let Some(set) = self.set.get() else {
            return ActionableFigure::Nothing;
        };
        if self.fits == Fits::No {
            return ActionableFigure::DoesNotFit;
        }
        let gauge = self.gauge.get();
        match (self.is_set_on_gauge(kit), gauge) {
            (true, None) => ActionableFigure::NotOnGauge { set },
            (true, Some(gauge)) if gauge != set => ActionableFigure::GaugeFigure { gauge, set },
            _ => ActionableFigure::SetLength {
                set,
                gauge: gauge.filter(|gauge| *gauge != set),
            },
        }
    }
}

impl ActionableFigure {
    /// The large figure; nothing where it is not known.
    #[must_use]
    pub const fn large(self) -> Option<Length> {
        match self {
            Self::Nothing | Self::DoesNotFit | Self::NotOnGauge { .. } => None,
            Self::GaugeFigure { gauge: figure, .. } | Self::SetLength { set: figure, .. } => {
                Some(figure)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::read_case;
    use crate::plan::{Worksheet, work_out};
    use crate::samples::demo;

    fn worksheet(demo: &[u8], change: impl FnOnce(&mut crate::case::Case)) -> (Kit, Worksheet) {
        let mut case: crate::case::Case = (*read_case(demo).unwrap()).clone();
        change(&mut case);
        let case = crate::case::ValidCase::checked(&case).unwrap();
        (case.kit.clone(), work_out(&case))
    }

    fn acts(kit: &Kit, worksheet: &Worksheet) -> Vec<ActionableFigure> {
        let actionables = worksheet.loading.iter().filter_map(Actionable::of_item);
        actionables
            .map(|actionable| actionable.figure(kit))
            .collect()
    }

    const UPPER: &[u8] = demo::UPPER_FACE_GAUGE;
    const GROOVES: &[u8] = demo::FIXED_STOPS;

    #[test]
    fn a_gauge_that_reads_the_upper_face_gives_its_own_figure_or_none() {
        let (kit, known) = worksheet(UPPER, |_| {});
        let figures = acts(&kit, &known);
        assert!(!figures.is_empty());
        for one in figures {
            let ActionableFigure::GaugeFigure { gauge, set } = one else {
                panic!("{one:?}")
            };
            assert!(gauge > set && one.large() == Some(gauge));
        }
        let (kit, unknown) = worksheet(UPPER, |case| {
            for gauge in &mut case.kit.gauges {
                gauge.reads = None;
            }
        });
        let figures = acts(&kit, &unknown);
        assert!(!figures.is_empty());
        for one in figures {
            assert!(one.large().is_none(), "{one:?}");
        }
    }

    #[test]
    fn a_stop_in_a_groove_is_set_by_the_groove_whatever_the_gauge_shows() {
        let (kit, known) = worksheet(GROOVES, |_| {});
        let fixed = known.loading.iter().filter_map(|item| {
            let stop = item.set.as_ref()?.stop.as_ref()?;
            matches!(kit.stop(stop)?.depth, StopKind::Fixed { .. }).then_some(item)
        });
        let actionables: Vec<Actionable<'_>> = fixed.filter_map(Actionable::of_item).collect();
        assert!(!actionables.is_empty());
        for actionable in actionables {
            assert_eq!(actionable.figure(&kit).large(), actionable.set().get());
        }
    }
}
