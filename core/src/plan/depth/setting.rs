//! From an exact length to one that can be set: on a gauge, by a fixed stop, by a mark.

use crate::case::{Field, Place};
use crate::kit::{Drill, FixedLength, Gauge, GaugeFace, Label, Stop, StopKind};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepContext};
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::term_name::TermName;

/// The means that gives a step its depth.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) enum DepthControl<'a> {
    /// A stop that is set on a gauge.
    Adjustable {
        stop: &'a Stop,
        gauge: Option<&'a Gauge>,
    },
    /// A stop that gives one or more lengths on this drill.
    Fixed {
        stop: &'a Stop,
        drill: &'a Drill,
        lengths: &'a [FixedLength],
        gauge: Option<&'a Gauge>,
    },
    /// The drill's own marks.
    Marks { drill: &'a Drill },
}

/// The mark that gives a step its depth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MarkEdge {
    /// Name of the mark.
    pub name: Label,
    /// The edge of it to read.
    pub edge: Edge,
}

/// An edge of a depth mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// The mark is a thin line.
    Line,
    /// The edge nearer the tip.
    Lower,
    /// The edge nearer the shank.
    Upper,
}

/// A setting as it can be made.
pub(in crate::plan) struct SettingChoice {
    pub(in crate::plan) set: Figure,
    pub(in crate::plan) gauge: Option<Figure>,
    pub(in crate::plan) mark: Option<MarkEdge>,
}

impl<'a> DepthControl<'a> {
    pub(in crate::plan) fn of(site: &SiteContext<'a>, step: &StepContext<'a>) -> Self {
        Self::on(step.drill, step.stop, site.gauge)
    }

    /// The means that gives a drill its depth: this stop, set on this gauge, or its own marks.
    pub(in crate::plan) fn on(
        drill: &'a Drill,
        stop: Option<&'a Stop>,
        gauge: Option<&'a Gauge>,
    ) -> Self {
        match stop {
            None => Self::Marks { drill },
            Some(stop) => match &stop.depth {
                StopKind::Adjustable {} => Self::Adjustable { stop, gauge },
                StopKind::Fixed { lengths } => Self::Fixed {
                    stop,
                    drill,
                    lengths,
                    gauge,
                },
            },
        }
    }

    pub(in crate::plan) const fn is_adjustable(&self) -> bool {
        matches!(self, Self::Adjustable { .. })
    }

    /// The largest length that can be set and is not above the exact one.
    pub(in crate::plan) fn choose(
        &self,
        exact: &Figure,
        at: &impl Fn(&'static str) -> Field,
    ) -> SettingChoice {
        match *self {
            Self::Adjustable { stop, gauge } => on_gauge(exact, stop, gauge, at),
            Self::Fixed {
                stop,
                drill,
                lengths,
                ..
            } => {
                let set = by_fixed_stop(exact, stop, drill, lengths, at("set_mm"));
                SettingChoice {
                    gauge: self.shown(&set, at("gauge_mm")),
                    set,
                    mark: None,
                }
            }
            Self::Marks { drill } => by_mark(exact, drill, at("set_mm")),
        }
    }

    /// This setting lowered to another one.
    pub(in crate::plan) fn lower_to(&self, own: &Figure, least: Length) -> Known<Length> {
        let &Self::Adjustable {
            stop,
            gauge: Some(gauge),
        } = self
        else {
            return own.known_length();
        };
        let above = gauge.shows_above(stop);
        let offset = above.unwrap_or(Length::ZERO);
        let shown = (least + offset).floor_to(gauge.graduation_mm);
        if (above.is_some() && shown < gauge.from_mm) || shown <= offset {
            return Known::Unknown(vec![Reason::OutsideGauge(shown)]);
        }
        Known::Is(shown - offset)
    }

    /// The gauge's figure for a set length; nothing where there is no gauge or no stop.
    pub(in crate::plan) fn shown(&self, set: &Figure, id: Field) -> Option<Figure> {
        match *self {
            Self::Adjustable { stop, gauge } | Self::Fixed { stop, gauge, .. } => {
                gauge.map(|gauge| gauge_figure(set, stop, gauge, id))
            }
            Self::Marks { .. } => None,
        }
    }
}

/// The graduation of a gauge as a term.
fn graduation(gauge: &Gauge) -> Term {
    Term::kit(
        TermName::Graduation,
        "gauges",
        &gauge.id,
        "graduation_mm",
        gauge.graduation_mm,
    )
    .with()
}

fn on_gauge(
    exact: &Figure,
    stop: &Stop,
    gauge: Option<&Gauge>,
    at: &impl Fn(&'static str) -> Field,
) -> SettingChoice {
    let exact_term = exact.as_term(TermName::Exact, Sign::With);
    let Some(gauge) = gauge else {
        let missing = Known::missing(Place::Gauge);
        let set = Figure::of_length(
            at("set_mm"),
            FigureRule::SetGauge,
            missing,
            vec![exact_term],
        );
        let shown = Known::missing(Place::Gauge);
        return SettingChoice {
            gauge: Some(Figure::of_length(
                at("gauge_mm"),
                FigureRule::GaugeLanding,
                shown,
                vec![set.as_term(TermName::Set, Sign::Plus)],
            )),
            set,
            mark: None,
        };
    };
    // The graduations belong to what the gauge shows, so the rounding happens there. Where its
    // face or its constant is unknown the length itself is rounded, and the gauge gives no figure.
    let is_known = gauge.shows_above(stop).is_some();
    let above = gauge.shows_above(stop).unwrap_or(Length::ZERO);
    let reach = gauge.from_mm..=gauge.to_mm;
    let value = match exact.known_length() {
        Known::Unknown(reasons) => Known::Unknown(reasons),
        Known::Is(exact) => {
            let shown = (exact + above).floor_to(gauge.graduation_mm);
            let within = !is_known || reach.contains(&shown);
            // No stop sits at the tip or below it.
            if within && shown > above {
                Known::Is(shown - above)
            } else {
                Known::Unknown(vec![Reason::OutsideGauge(shown)])
            }
        }
    };
    let set = Figure::of_length(
        at("set_mm"),
        FigureRule::SetGauge,
        value,
        vec![exact_term, graduation(gauge)],
    );
    SettingChoice {
        gauge: Some(gauge_figure(&set, stop, gauge, at("gauge_mm"))),
        set,
        mark: None,
    }
}

/// The gauge's figure for a set length: never rounded. A length that was chosen on the gauge fits
/// it; one that a fixed stop gives need not, and then the gauge gives no figure.
fn gauge_figure(set: &Figure, stop: &Stop, gauge: &Gauge, id: Field) -> Figure {
    let mut figure = exact_gauge_figure(set, stop, gauge, id);
    if let Some(shown) = figure.length() {
        if !(gauge.from_mm..=gauge.to_mm).contains(&shown) {
            figure.value = Known::Unknown(vec![Reason::OutsideGauge(shown)]);
        } else if shown != shown.floor_to(gauge.graduation_mm) {
            figure.value = Known::Unknown(vec![Reason::BetweenGraduations(shown)]);
        }
    }
    figure
}

/// The figure for a set length on a gauge without end and between its graduations.
fn exact_gauge_figure(set: &Figure, stop: &Stop, gauge: &Gauge, id: Field) -> Figure {
    let mut terms = vec![set.as_term(TermName::Set, Sign::Plus)];
    let Some(adds) = gauge.constant_mm else {
        let path = Place::GaugeConstant(gauge.id.clone());
        let missing = gauge
            .reads
            .is_none()
            .then(|| Place::GaugeFace(gauge.id.clone()));
        let missing = missing.into_iter().chain([path]);
        let value = Known::Unknown(missing.map(Reason::Missing).collect());
        return Figure::of_length(id, FigureRule::GaugeLanding, value, terms);
    };
    let constant = Term::kit(
        TermName::GaugeConstant,
        "gauges",
        &gauge.id,
        "constant_mm",
        adds,
    );
    match gauge.reads {
        None => {
            let path = Place::GaugeFace(gauge.id.clone());
            Figure::of_length(id, FigureRule::GaugeLanding, Known::missing(path), terms)
        }
        Some(GaugeFace::Landing) => {
            terms.push(constant);
            sum(id, FigureRule::GaugeLanding, terms)
        }
        Some(GaugeFace::Upper) => {
            terms.push(constant);
            terms.push(Term::kit(
                TermName::StopBody,
                "stops",
                &stop.id,
                "body_height_mm",
                stop.body_height_mm,
            ));
            sum(id, FigureRule::GaugeUpper, terms)
        }
    }
}

fn by_fixed_stop(
    exact: &Figure,
    stop: &Stop,
    drill: &Drill,
    lengths: &[FixedLength],
    id: Field,
) -> Figure {
    let value = match exact.known_length() {
        Known::Unknown(reasons) => Known::Unknown(reasons),
        Known::Is(exact) => lengths
            .iter()
            .filter(|length| length.drill == drill.id)
            .map(|length| length.tip_to_landing_mm)
            .filter(|length| *length <= exact)
            .max()
            .map_or_else(|| Known::Unknown(vec![Reason::NothingFits]), Known::Is),
    };
    let mut terms = vec![exact.as_term(TermName::Exact, Sign::With)];
    if let Known::Is(length) = value {
        terms.push(
            Term::kit(
                TermName::FixedStop,
                "stops",
                &stop.id,
                "depth.lengths",
                length,
            )
            .with(),
        );
    }
    Figure::of_length(id, FigureRule::SetFixed, value, terms)
}

/// All edges of a drill's marks, as lengths from the tip.
fn edges(drill: &Drill) -> impl Iterator<Item = (Length, MarkEdge)> {
    drill.marks.iter().flat_map(|mark| {
        let edge = |edge| MarkEdge {
            name: mark.name.clone(),
            edge,
        };
        match mark.upper_edge_mm {
            None => vec![(mark.lower_edge_mm, edge(Edge::Line))],
            Some(upper) => vec![
                (mark.lower_edge_mm, edge(Edge::Lower)),
                (upper, edge(Edge::Upper)),
            ],
        }
    })
}

fn by_mark(exact: &Figure, drill: &Drill, id: Field) -> SettingChoice {
    let chosen = match exact.known_length() {
        Known::Unknown(reasons) => Known::Unknown(reasons),
        Known::Is(exact) => edges(drill)
            .filter(|(length, _)| *length <= exact)
            .max_by_key(|(length, _)| *length)
            .map_or_else(|| Known::Unknown(vec![Reason::NothingFits]), Known::Is),
    };
    let mut terms = vec![exact.as_term(TermName::Exact, Sign::With)];
    if let Known::Is((length, _)) = &chosen {
        terms.push(Term {
            name: TermName::Mark,
            sign: Sign::With,
            from: Origin::Kit {
                list: "drills",
                entry: drill.id.to_string(),
                field: "marks",
            },
            value: Known::Is(Quantity::Length(*length)),
            basis: Basis::Measured,
        });
    }
    let mark = chosen.value().map(|(_, edge)| edge.clone());
    SettingChoice {
        set: Figure::of_length(
            id,
            FigureRule::SetMark,
            chosen.map(|(length, _)| length),
            terms,
        ),
        gauge: None,
        mark,
    }
}
