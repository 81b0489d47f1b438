//! The depth arithmetic of one step: seat, preparation, exact length, setting, gauge, cut.
//!
//! ```text
//! seat  = platform to sleeve + master sleeve height + seat above rim   (guided)
//!       = lowest crest, or rim of a fresh socket, above the platform   (freehand)
//! exact = seat + preparation + datum from tip
//! set   = the largest graduation, fixed length or mark not above exact
//! cut   = set − seat                 deepest point below the platform; deeper by as much as
//!                                    the guide was measured to seat lower than planned
//! ```

use crate::case::{Field, Place, Setting, SitePlace};
use crate::kit::{Datum, DepthRule, Drill, DrillId, DrillSleeveId, StepId, StopId};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepContext, StepPath};
use crate::plan::depth::fits::Fits;
use crate::plan::depth::setting::{DepthControl, MarkEdge};
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::term_name::TermName;

/// One step with its figures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepSheet {
    /// The step.
    pub id: StepId,
    /// Its drill.
    pub drill: DrillId,
    /// Its drill sleeve.
    pub sleeve: Option<DrillSleeveId>,
    /// Its stop.
    pub stop: Option<StopId>,
    /// The guidance of the drill.
    pub path: StepPath,
    /// The depth to which it is to go.
    pub depth: DepthRule,
    /// From the platform up to the face that the stop lands on.
    pub seat: Figure,
    /// Depth below the platform, at the drill's datum.
    pub prep: Figure,
    /// From tip to landing face, before any graduation.
    pub exact: Figure,
    /// From tip to landing face, as it can be set.
    pub set: Figure,
    /// The gauge's figure; nothing where the drill's marks are read.
    pub gauge: Option<Figure>,
    /// Deepest point below the platform, tip included; by the guide as it was measured, where its
    /// seat is lower than planned.
    pub cut: Figure,
    /// Depth lost to rounding, a fixed stop or one common figure.
    pub shortfall: Figure,
    /// With the stop landed in its sleeve, the distance of the tip below the master sleeve's lower
    /// face; nothing for a freehand step.
    pub bench: Option<Figure>,
    /// The mark to read, where no stop is used.
    pub mark: Option<MarkEdge>,
    /// Length of the drill's cone.
    pub point: Length,
    /// Cutting diameter of its drill.
    pub diameter: Length,
    /// Its drill with stop and sleeves may be used so, or not.
    pub fits: Fits,
}

impl StepSheet {
    /// True if the step goes to full depth.
    #[must_use]
    pub const fn is_full_depth(&self) -> bool {
        matches!(self.depth, DepthRule::Full {})
    }

    /// Excess of its cut in depth since the guide at hand seats lower than planned.
    #[must_use]
    pub fn deeper_by_guide(&self) -> Length {
        let terms = self.cut.terms.iter();
        terms
            .filter(|term| term.name == TermName::ReceiptDeficit)
            .filter_map(|term| term.value.get().and_then(Quantity::length))
            .sum()
    }
}

/// All steps of a site.
pub(in crate::plan) fn work_out_steps(site: &SiteContext<'_>) -> Vec<StepSheet> {
    let mut sheets: Vec<(DepthControl<'_>, StepSheet)> = site
        .steps()
        .map(|step| {
            let setter = DepthControl::of(site, &step);
            let sheet = work_out_step(site, &step, &setter);
            (setter, sheet)
        })
        .collect();
    if site.site.setting == Setting::OneFigure {
        share_one_figure(site, &mut sheets);
    }
    sheets.into_iter().map(|(_, sheet)| sheet).collect()
}

/// The same as deep as any gauge could let them cut; nothing where none lacks a gauge alone. A setting
/// is never above the exact length, whatever its graduations (`setting.rs`), so no cut is deeper than
/// that less the seat.
pub(in crate::plan) fn without_gauge(
    site: &SiteContext<'_>,
    sheets: &[StepSheet],
) -> Option<Vec<StepSheet>> {
    let no_gauge = [Reason::Missing(Place::Gauge)];
    let lacks_it = |sheet: &StepSheet| sheet.set.value.reasons() == no_gauge;
    let deepest = |sheet: &StepSheet| {
        let mut sheet = sheet.clone();
        if lacks_it(&sheet) {
            sheet.set.value = sheet.exact.value.clone();
            let id = sheet.cut.id.clone();
            sheet.cut = cut(site, sheet.path, [&sheet.set, &sheet.seat], id);
        }
        sheet
    };
    let any = sheets.iter().any(lacks_it);
    any.then(|| sheets.iter().map(deepest).collect())
}

fn work_out_step(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    setter: &DepthControl<'_>,
) -> StepSheet {
    let at = |name| site.at(SitePlace::Step(step.step.id.clone())).field(name);
    let seat = seat(site, step, at("seat_mm"));
    let prep = preparation(site, step, at("prep_mm"));
    let mut terms = vec![
        seat.as_term(TermName::Seat, Sign::Plus),
        prep.as_term(TermName::Preparation, Sign::Plus),
    ];
    terms.extend(datum(step.drill));
    let exact = sum(at("exact_mm"), FigureRule::Exact, terms);
    let chosen = setter.choose(&exact, &at);
    let bench = (step.path != StepPath::Freehand).then(|| {
        let mut terms = vec![
            chosen.set.as_term(TermName::Set, Sign::Plus),
            site.master_height_at_hand().minus(),
        ];
        terms.extend(step.seat_above_rim().map(Term::minus));
        sum(at("bench_mm"), FigureRule::Bench, terms)
    });
    StepSheet {
        id: step.step.id.clone(),
        drill: step.drill.id.clone(),
        sleeve: step.sleeve.map(|sleeve| sleeve.id.clone()),
        stop: step.stop.map(|stop| stop.id.clone()),
        path: step.path,
        depth: step.step.depth,
        cut: cut(site, step.path, [&chosen.set, &seat], at("cut_mm")),
        shortfall: shortfall(&exact, &chosen.set, at("shortfall_mm")),
        bench,
        mark: chosen.mark,
        gauge: chosen.gauge,
        set: chosen.set,
        seat,
        prep,
        exact,
        point: step.drill.point_length(),
        diameter: step.drill.cutting_diameter_mm,
        fits: Fits::AsFarAsKnown,
    }
}

fn cut(site: &SiteContext<'_>, path: StepPath, [set, seat]: [&Figure; 2], id: Field) -> Figure {
    let mut terms = vec![
        set.as_term(TermName::Set, Sign::Plus),
        seat.as_term(TermName::Seat, Sign::Minus),
    ];
    if path != StepPath::Freehand {
        terms.extend(site.receipt_deficit_term());
    }
    sum(id, FigureRule::Cut, terms)
}

fn shortfall(exact: &Figure, set: &Figure, id: Field) -> Figure {
    let terms = vec![
        exact.as_term(TermName::Exact, Sign::Plus),
        set.as_term(TermName::Set, Sign::Minus),
    ];
    sum(id, FigureRule::Shortfall, terms)
}

/// From the platform up to the face that the stop lands on.
fn seat(site: &SiteContext<'_>, step: &StepContext<'_>, id: Field) -> Figure {
    if step.path == StepPath::Freehand {
        // A mark is read, or a stop lands, somewhere on the crest. Counted from its lowest point,
        // no other makes the cut deeper.
        return sum(id, FigureRule::SeatCrest, vec![site.freehand_datum_term()]);
    }
    seat_through(site, step.seat_above_rim(), id)
}

/// From the platform up to the coronal face of the sleeves: the master sleeve's rim, or the landing
/// face of a drill sleeve in it.
pub(in crate::plan) fn seat_through(
    site: &SiteContext<'_>,
    seat_above_rim: Option<Term>,
    id: Field,
) -> Figure {
    let mut terms = site.distance_terms();
    terms.push(site.master_height());
    let rule = match seat_above_rim {
        Some(_) => FigureRule::SeatDrillSleeve,
        None => FigureRule::SeatMasterSleeve,
    };
    terms.extend(seat_above_rim);
    sum(id, rule, terms)
}

/// Depth below the platform by the step's depth rule.
fn preparation(site: &SiteContext<'_>, step: &StepContext<'_>, id: Field) -> Figure {
    let implant = site.implant;
    let full = || {
        vec![
            Term::kit(
                TermName::PlatformToApex,
                "implants",
                &implant.id,
                "platform_to_apex_mm",
                implant.platform_to_apex_mm,
            ),
            Term::kit(
                TermName::ApicalAllowance,
                "implants",
                &implant.id,
                "apical_allowance_mm",
                implant.apical_allowance_mm,
            ),
        ]
    };
    let entered = |name, field, value| {
        let place = site.at(SitePlace::Step(step.step.id.clone()));
        Term::case(name, place.field(field), Some(value), Basis::Entered)
    };
    match step.step.depth {
        DepthRule::Full {} => sum(id, FigureRule::DepthFull, full()),
        DepthRule::BelowPlatform { depth_mm } => sum(
            id,
            FigureRule::DepthBelowPlatform,
            vec![entered(TermName::Depth, "depth.depth_mm", depth_mm)],
        ),
        DepthRule::ShortOfFull { by_mm } => {
            let mut terms = full();
            terms.push(entered(TermName::ShortOfFull, "depth.by_mm", by_mm).minus());
            let mut figure = sum(id, FigureRule::DepthShort, terms);
            // Only with another implant than the site's, which is checked on reading.
            if figure.length().is_some_and(|depth| depth < Length::ZERO) {
                figure.value = Known::Unknown(vec![Reason::NothingFits]);
            }
            figure
        }
    }
}

/// The length between the tip and the place where the drill's depth is counted.
pub(in crate::plan) fn datum(drill: &Drill) -> Option<Term> {
    let value = drill.datum_from_tip();
    match drill.datum {
        Datum::Tip {} => None,
        Datum::FullDiameter {} => Some(Term::kit(
            TermName::PointLength,
            "drills",
            &drill.id,
            "point",
            value,
        )),
        Datum::Line { .. } => Some(Term::kit(
            TermName::LineFromTip,
            "drills",
            &drill.id,
            "datum.from_tip_mm",
            value,
        )),
    }
}

/// Gives all full-depth guided steps with an adjustable stop the least of their settings.
///
/// One that has no setting stays without.
fn share_one_figure(site: &SiteContext<'_>, sheets: &mut [(DepthControl<'_>, StepSheet)]) {
    let takes_part = |setter: &DepthControl<'_>, sheet: &StepSheet| {
        setter.is_adjustable() && sheet.is_full_depth() && sheet.path != StepPath::Freehand
    };
    let Some((id, least)) = sheets
        .iter()
        .filter(|(setter, sheet)| takes_part(setter, sheet))
        .filter_map(|(_, sheet)| Some((sheet.set.id.clone(), sheet.set.length()?)))
        .min_by_key(|(_, set)| *set)
    else {
        return;
    };
    for (setter, sheet) in sheets.iter_mut() {
        if !takes_part(setter, sheet) || sheet.set.length().is_none_or(|set| set == least) {
            continue;
        }
        let own = sheet.set.clone();
        let shared = Term {
            name: TermName::LeastOfSequence,
            sign: Sign::With,
            from: Origin::Figure(id.clone()),
            value: Known::Is(Quantity::Length(least)),
            basis: Basis::Measured,
        };
        let lowered = setter.lower_to(&own, least);
        sheet.set = Figure::of_length(
            own.id.clone(),
            FigureRule::SetOneFigure,
            lowered,
            vec![own.as_term(TermName::OwnSetting, Sign::With), shared],
        );
        if let Some(gauge) = &mut sheet.gauge
            && let Some(shown) = setter.shown(&sheet.set, gauge.id.clone())
        {
            *gauge = shown;
        }
        let (set, seat) = (&sheet.set, &sheet.seat);
        sheet.cut = cut(site, sheet.path, [set, seat], sheet.cut.id.clone());
        sheet.shortfall = shortfall(&sheet.exact, &sheet.set, sheet.shortfall.id.clone());
        if let Some(bench) = &mut sheet.bench {
            let mut terms = std::mem::take(&mut bench.terms);
            terms[0] = sheet.set.as_term(TermName::Set, Sign::Plus);
            *bench = sum(bench.id.clone(), FigureRule::Bench, terms);
        }
    }
}
