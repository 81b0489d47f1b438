//! Distances measured to a neighbour, held against those of measured axes and of the arch model.
//!
//! A stored distance must not hide what would be found if none were stored, nor may one that was
//! measured elsewhere, and is said to hold still, make clear what the model shows to overlap. Nor may
//! the model hide that a move may have taken more of it than the model shows.

use super::PlacedSite;
use crate::measure::Length;
use crate::plan::figure::{Figure, Known, Quantity, Reason};
use crate::plan::finding::at_most;

/// The most by which a measured margin may exceed the arch model's, where only the model's breaks
/// the limit. Source: common practice, no source; a bound of plausibility, wider than the model
/// errs beside a place that it was fitted to.
const PLAUSIBLE: Length = Length::from_um(2000);

/// The figure that counts: the measured one, or what the model says in its stead.
///
/// `model` is the finding if nothing had been measured. It is looked at only where it breaks the
/// limit, and never makes anything clear.
pub(super) fn beside_model(
    mut measured: Figure,
    model: impl FnOnce() -> Figure,
    limit: Option<Length>,
    sites: &[&PlacedSite<'_>],
) -> Figure {
    let Some(limit) = limit else { return measured };
    let left = most(&measured);
    if left.is_some_and(|left| left < limit) {
        return measured; // Short as it was measured.
    }
    let model = model();
    let Some(modelled) = most(&model).filter(|modelled| *modelled < limit) else {
        return measured;
    };
    let reasons = measured.value.reasons();
    if reasons.iter().any(|r| matches!(r, Reason::Stale(..))) {
        let least = reasons.iter().find_map(Reason::between);
        return match least {
            Some((least, _)) if least < modelled => measured,
            _ => model,
        };
    }
    // A place that was measured does not come from the model, which is then no witness against it.
    let on_arch = |one: &&PlacedSite<'_>| one.axis.is_some_and(|axis| !axis.measured);
    // Held against the model as it was measured, whatever a move since may have taken.
    let left = left.map(|left| left + measured.taken_by_moves().unwrap_or_default());
    if let Some(left) = left.filter(|left| *left - modelled > PLAUSIBLE)
        && sites.iter().all(on_arch)
    {
        let against = Reason::AgainstModel {
            measured: left,
            model: modelled,
        };
        measured.value = Known::Unknown([&[against], reasons].concat());
    }
    measured
}

/// The figure that counts where both axes were measured as well: the one that leaves less.
pub(super) fn beside_axes(measured: Figure, axes: Figure) -> Figure {
    match (most(&measured), most(&axes)) {
        (Some(measured_left), Some(axes_left)) if axes_left < measured_left => axes,
        (None, Some(_)) => axes,
        _ => measured,
    }
}

/// The margin that a figure leaves, or leaves at most.
fn most(figure: &Figure) -> Option<Length> {
    match figure.value {
        Known::Is(Quantity::Length(left)) => Some(left),
        _ => at_most(&figure.value),
    }
}
