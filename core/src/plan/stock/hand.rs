//! The figure that a hand acts on.
//!
//! A stop that is set on a gauge is set to what the gauge shows, which may be another figure than
//! the length from tip to stop. Where nobody knows what the gauge shows there is no such figure:
//! it would be set on the gauge. Paper and screen both ask here.

use crate::kit::{DrillId, Kit, StopId, StopKind};
use crate::measure::Length;
use crate::plan::depth::pins::PinSheet;
use crate::plan::depth::setting::MarkEdge;
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Known};
use crate::plan::stock::loading::LoadItem;

/// The setting for a hand, or the length to drill to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hand<'a> {
    drill: &'a DrillId,
    stop: Option<&'a StopId>,
    /// The mark to read, where no stop is used.
    mark: Option<&'a MarkEdge>,
    /// From tip to stop, or to the mark.
    set: Known<Length>,
    /// The figure that the gauge then shows.
    gauge: Known<Length>,
}

/// The figure that a hand acts on, and the one that belongs beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ActsOn {
    /// No setting is known: nothing is set and nothing drilled.
    Nothing,
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

impl<'a> Hand<'a> {
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

    /// Is there a stop with a figure that the gauge shows?
    #[must_use]
    pub const fn is_read(&self) -> bool {
        self.stop.is_some() && self.set.value().is_some() && self.gauge.value().is_some()
    }

    /// Is it set on the gauge, not by a groove or a mark?
    fn is_set_on_gauge(&self, kit: &Kit) -> bool {
        let stop = self.stop.and_then(|id| kit.stop(id));
        stop.is_some_and(|stop| matches!(stop.depth, StopKind::Adjustable {}))
    }

    /// The figure that a hand acts on, with the instruments of this kit.
    #[must_use]
    pub fn acts_on(&self, kit: &Kit) -> ActsOn {
        let Some(set) = self.set.get() else {
            return ActsOn::Nothing;
        };
        let gauge = self.gauge.get();
        match (self.is_set_on_gauge(kit), gauge) {
            (true, None) => ActsOn::NotOnGauge { set },
            (true, Some(gauge)) if gauge != set => ActsOn::GaugeFigure { gauge, set },
            _ => ActsOn::SetLength {
                set,
                gauge: gauge.filter(|gauge| *gauge != set),
            },
        }
    }
}

impl ActsOn {
    /// The large figure; nothing where it is not known.
    #[must_use]
    pub const fn figure(self) -> Option<Length> {
        match self {
            Self::Nothing | Self::NotOnGauge { .. } => None,
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

    fn acts(kit: &Kit, worksheet: &Worksheet) -> Vec<ActsOn> {
        let hands = worksheet.loading.iter().filter_map(Hand::of_item);
        hands.map(|hand| hand.acts_on(kit)).collect()
    }

    const UPPER: &[u8] = demo::UPPER_FACE_GAUGE;
    const GROOVES: &[u8] = demo::FIXED_STOPS;

    #[test]
    fn a_gauge_that_reads_the_upper_face_gives_its_own_figure_or_none() {
        let (kit, known) = worksheet(UPPER, |_| {});
        let acts_on = acts(&kit, &known);
        assert!(!acts_on.is_empty());
        for one in acts_on {
            let ActsOn::GaugeFigure { gauge, set } = one else {
                panic!("{one:?}")
            };
            assert!(gauge > set && one.figure() == Some(gauge));
        }
        let (kit, unknown) = worksheet(UPPER, |case| {
            for gauge in &mut case.kit.gauges {
                gauge.reads = None;
            }
        });
        let acts_on = acts(&kit, &unknown);
        assert!(!acts_on.is_empty());
        for one in acts_on {
            assert!(one.figure().is_none(), "{one:?}");
        }
    }

    #[test]
    fn a_stop_in_a_groove_is_set_by_the_groove_whatever_the_gauge_shows() {
        let (kit, known) = worksheet(GROOVES, |_| {});
        let fixed = known.loading.iter().filter_map(|item| {
            let stop = item.set.as_ref()?.stop.as_ref()?;
            matches!(kit.stop(stop)?.depth, StopKind::Fixed { .. }).then_some(item)
        });
        let hands: Vec<Hand<'_>> = fixed.filter_map(Hand::of_item).collect();
        assert!(!hands.is_empty());
        for hand in hands {
            assert_eq!(hand.acts_on(&kit).figure(), hand.set().get());
        }
    }
}
