//! A tooth or an implant placed earlier, beside a site.

use super::beside_implant::bounded;
use super::beside_model::beside_model;
use super::disagree::ALIKE;
use super::least::least_measured;
use super::points::crest_at;
use super::{PlacedSite, entered_to, model_term, neighbour_path, of_model};
use crate::case::{Distance, Field, Height, LimitId, NeighbourKind, Rule, Tooth};
use crate::dentition::{ArchModel, ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::clearance::space;
use crate::plan::clearance::walls::HeightCoverage;
use crate::plan::depth::stale::stale_distance;
use crate::plan::figure::{Basis, Figure, Known, Reason};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Verdict};

/// The margin to one, as it was measured; by the arch model where nothing was, or where that is
/// short and what was measured no longer holds.
pub(super) fn tooth_finding(
    one: &PlacedSite<'_>,
    tooth: Tooth,
    arch: Option<&ArchModel>,
) -> Finding {
    let position = tooth.position;
    let path = neighbour_path(one, position);
    let id = path.clone().field("margin_mm");
    let measured = entered_to(one, position);
    let (rule, limit) = match tooth.kind {
        Some(NeighbourKind::Implant) => (Rule::NeighbourOldImplant, LimitId::NeighbourImplant),
        _ => (Rule::NeighbourRoot, LimitId::NeighbourRoot),
    };
    let model = || tooth_from_model(one, tooth, arch, id.clone());
    let margin = if measured.is_empty() {
        model()
    } else {
        let given = one.cut.limit(limit);
        let extent =
            HeightCoverage::of_measured(measured.iter().map(|one| (one.at, one.from_axis_mm)));
        let least = least_measured(one, &measured, &path, None, extent, given);
        let margin = least.figure(&path, id.clone());
        let margin = match tooth.kind {
            Some(NeighbourKind::Implant) => bounded(margin, one, &measured, given),
            _ => margin,
        };
        beside_model(margin, model, given, &[one])
    };
    // Between the heights that were measured an implant may be nearer than at them.
    let as_implant = || {
        let given = one.cut.limit(LimitId::NeighbourImplant);
        bounded(margin.clone(), one, &measured, given)
    };
    let between_heights = match tooth.kind {
        None if !measured.is_empty() => as_implant().value.reasons().to_vec(),
        _ => Vec::new(),
    };
    let finding = one.cut.margin(rule, path, limit, margin);
    let finding = finding.arg("position", position);
    match tooth.kind {
        None => of_unknown_kind(one, position, finding, between_heights),
        Some(_) => finding,
    }
}

/// What was held against the limit of a root, and may be an implant: clear only where it keeps that of an implant too, and
/// where only one less strict than the program's own lets it, by that; and nowhere between the heights that were measured an implant
/// could break it.
fn of_unknown_kind(
    one: &PlacedSite<'_>,
    tooth: ToothPosition,
    finding: Finding,
    between_heights: Vec<Reason>,
) -> Finding {
    let needed = one.cut.limit(LimitId::NeighbourImplant);
    let left = finding.length_value().zip(needed);
    let is_kept = left.is_some_and(|(left, needed)| left >= needed);
    if finding.verdict != Verdict::Clear {
        return finding;
    }
    if is_kept && !between_heights.is_empty() {
        let kind = Reason::KindNotEntered { tooth, left: None };
        let reasons = std::iter::once(kind).chain(between_heights);
        let value = Known::Unknown(reasons.collect());
        let finding = finding.verdict(Verdict::Unknown);
        return Finding { value, ..finding };
    }
    if is_kept {
        let limits = &one.cut.site.case.limits;
        let own = limits.own_if_stricter(LimitId::NeighbourImplant);
        let is_loosened = left.is_some_and(|(left, _)| own.is_some_and(|own| left < own));
        return if is_loosened {
            finding.held_to(limits, LimitId::NeighbourImplant)
        } else {
            finding
        };
    }
    let value = Known::Unknown(vec![Reason::KindNotEntered { tooth, left }]);
    let finding = finding.verdict(Verdict::Unknown);
    Finding { value, ..finding }
}

/// Two distances to one root that cannot both be true: entered for one height, or one that is less than the
/// one at its closest. Only those that count still are held against each other.
pub(super) fn disagreement(one: &PlacedSite<'_>, position: ToothPosition) -> Option<Finding> {
    let all = entered_to(one, position).into_iter();
    let all = all.filter(|distance| stale_distance(&one.cut.site, None, distance).is_none());
    let all: Vec<&Distance> = all.collect();
    let pairs = all
        .iter()
        .flat_map(|least| all.iter().map(move |most| (*least, *most)));
    let beyond = |(least, most): &(&Distance, &Distance)| {
        most.from_axis_mm - least.from_axis_mm - may_be_less(one, least, most)
    };
    let worst = pairs
        .filter(|(least, most)| least.at == most.at || most.at == Height::Least)
        .filter(|pair| beyond(pair) > Length::ZERO)
        .max_by_key(beyond)?;
    let (least, most) = (worst.0.from_axis_mm, worst.1.from_axis_mm);
    let finding = Finding::new(Rule::RootDistancesDisagree, neighbour_path(one, position));
    let finding = finding
        .verdict(Verdict::Unknown)
        .arg("position", position)
        .arg("least", least)
        .arg("most", most);
    Some(finding)
}

/// What one distance to a root may be less than another that is no less for certain. The crest is read where the axis passes it, coronal
/// of a platform below it: from there to the platform nothing comes farther off than one goes.
fn may_be_less(one: &PlacedSite<'_>, less: &Distance, more: &Distance) -> Length {
    let is_coronal = less.at == Height::Crest && more.at == Height::Least;
    let up = crest_at(one).into_iter().filter(|_| is_coronal);
    ALIKE + Length::ceil_mm(up.map(|depth| -depth).fold(0.0, f64::max))
}

/// By the arch model: the least level distance between the axis, over its whole length, and the
/// middle of the tooth's place, less half its mean mesiodistal width at the neck and the site's
/// radius.
fn tooth_from_model(
    one: &PlacedSite<'_>,
    tooth: Tooth,
    arch: Option<&ArchModel>,
    id: Field,
) -> Figure {
    let rule = FigureRule::NeighbourArchModel;
    let missing = || Known::missing(neighbour_path(one, tooth.position));
    let (Some(axis), Some(arch)) = (one.axis.filter(|axis| !axis.measured), arch) else {
        return Figure::of_length(id, rule, missing(), Vec::new());
    };
    let Some(outline) = arch.tooth(tooth.position) else {
        return Figure::of_length(id, rule, missing(), Vec::new());
    };
    let neck = tooth_size(tooth.position).cervix_md.mm() * arch.scale();
    let inputs = one.cut.deepest().and(one.cut.widest_radius());
    let centre = [outline.centre.x_mm, outline.centre.y_mm];
    let value = inputs.map(|(deepest, radius)| {
        let least = space::level_distance(&axis, deepest.mm(), centre);
        Length::floor_mm(least - neck / 2.0 - radius.mm())
    });
    let value = of_model(value.margin());
    let mut figure = Figure::of_length(id, rule, value, vec![model_term(one)]);
    figure.basis = Basis::ArchModel;
    figure
}
