//! The least of several measured distances.

use super::PlacedSite;
use super::disagree::level_apart;
use crate::case::{Distance, Field, Height, Place, SitePlace};
use crate::measure::Length;
use crate::plan::clearance::walls::{HeightCoverage, radius_term};
use crate::plan::depth::partial::PartlyKnown;
use crate::plan::depth::stale::{Reach, reach, stale_distance};
use crate::plan::figure::{Basis, Figure, Known, Reason, Sign, Term};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::at_most;
use crate::plan::term_name::TermName;

/// The least margin over the measured distances to one neighbour, with its terms.
pub(super) struct LeastMargin {
    /// The least that is known, none where none is, lacking what the others need.
    margin: PartlyKnown<Option<Length>>,
    /// What each of them leaves at worst; nothing once nobody knows of one.
    worst: Option<Length>,
    measures: Vec<Measure>,
}

/// One distance with what it leaves at most, and the terms that add up to that.
struct Measure {
    most: Option<Length>,
    terms: Vec<Term>,
}

impl Measure {
    /// Its terms, where another one leaves less: they are no part of the sum.
    fn besides(self) -> impl Iterator<Item = Term> {
        self.terms.into_iter().map(|mut term| {
            if term.name == TermName::AxisToNeighbour {
                term.name = TermName::AxisToNeighbourBesides;
            }
            term.with()
        })
    }
}

impl LeastMargin {
    /// Takes one more margin, at once known or bounded, into account, with its terms.
    fn take(&mut self, margin: &Known<Length>, terms: Vec<Term>) {
        let most = margin.get().or_else(|| at_most(margin));
        let mut reasons = margin.reasons().to_vec();
        let between = reasons.iter().find_map(Reason::between);
        let worst = margin.get().or(between.map(|(least, _)| least));
        self.worst = self.worst.zip(worst).map(|(a, b)| a.min(b));
        reasons.retain(|reason| reason.between().is_none());
        self.measures.push(Measure { most, terms });
        let least = std::mem::replace(&mut self.margin, PartlyKnown::whole(None));
        self.margin = least.lacking(&reasons).map(|least| match most {
            Some(most) => Some(least.map_or(most, |least: Length| least.min(most))),
            None => least,
        });
    }

    /// The lesser of two between the same two sites.
    pub(super) fn and(self, other: Self) -> Self {
        let both = self.margin.and(other.margin);
        Self {
            margin: both.map(|(a, b)| a.into_iter().chain(b).min()),
            worst: self.worst.zip(other.worst).map(|(a, b)| a.min(b)),
            measures: self.measures.into_iter().chain(other.measures).collect(),
        }
    }

    /// The figure; of several distances the one that leaves least adds up to it.
    pub(super) fn figure(self, path: &Place, id: Field) -> Figure {
        let mut margin = self.margin.least_margin(path);
        if let (Known::Unknown(reasons), Some(least)) = (&mut margin, self.worst)
            && let Some(Reason::AtMost(most)) = reasons.pop()
        {
            reasons.push(Reason::Between { least, most });
        }
        let measures = self.measures.iter().enumerate();
        let known = measures.filter_map(|(n, one)| Some((one.most?, n)));
        let ruling = known.min().map_or(0, |(_, n)| n);
        let terms = self.measures.into_iter().enumerate();
        let terms = terms.flat_map(|(n, one)| {
            if n == ruling {
                one.terms
            } else {
                one.besides().collect()
            }
        });
        let terms = terms.collect();
        Figure::of_length(id, FigureRule::NeighbourMeasured, margin, terms)
    }
}

/// The least over what was measured from a site, to a root or to another site.
pub(super) fn least_measured(
    one: &PlacedSite<'_>,
    measured: &[&Distance],
    path: &Place,
    other: Option<&PlacedSite<'_>>,
    extent: HeightCoverage,
    limit: Option<Length>,
) -> LeastMargin {
    let mut least = LeastMargin {
        margin: PartlyKnown::whole(None),
        worst: Some(Length::from_um(i64::MAX)),
        measures: Vec::new(),
    };
    for distance in measured {
        let below = height_of(one, distance.at);
        let at = at_height(path, distance.at);
        let mut terms = vec![Term::case(
            TermName::AxisToNeighbour,
            at.clone().field("from_axis_mm"),
            Some(distance.from_axis_mm),
            Basis::of(distance.confirmed()),
        )];
        let radius = radius_at(one, distance.at, below);
        let other_radius = match other {
            Some(other) => radius_at(other, distance.at, meets(one, other, distance.at)),
            None => PartlyKnown::whole(Length::ZERO),
        };
        let term = |radius: &PartlyKnown<Length>| radius_term(radius.clone().known(), Sign::Minus);
        terms.push(term(&radius));
        terms.extend(other.map(|_| term(&other_radius)));
        let mut margin = radius
            .and(other_radius)
            .map(|(own, other)| distance.from_axis_mm - own - other)
            .margin();
        margin = extent.bound(&one.cut, &distance.measured_at, distance.at, margin);
        if let (Some(other), Some(then)) = (other, &distance.other_measured_at) {
            margin = extent.bound(&other.cut, then, distance.at, margin);
        }
        let other_site = other.map(|other| &other.cut.site);
        if let Some(stale) = stale_distance(&one.cut.site, other_site, distance) {
            let reaches = reaches(one, other, distance);
            let (left, taken) = stale.leaves(at, &margin, &reaches, limit);
            terms.extend(taken);
            margin = left;
        }
        least.take(&margin, terms);
    }
    least
}

/// The farthest points that a distance vouches for, of the one body and of the other.
pub(super) fn reaches(
    one: &PlacedSite<'_>,
    other: Option<&PlacedSite<'_>>,
    distance: &Distance,
) -> Vec<Reach> {
    let of = |one: &PlacedSite<'_>, then| one.cut.reach(reach(&one.cut.site, then, distance.at));
    let theirs = other.zip(distance.other_measured_at.as_ref());
    let theirs = theirs.map(|(other, then)| of(other, then));
    let own = of(one, &distance.measured_at);
    [own].into_iter().chain(theirs).collect()
}

/// The place of the distance measured to a neighbour at one height.
fn at_height(neighbour: &Place, at: Height) -> Place {
    match neighbour.clone() {
        Place::Site(site, SitePlace::ToTooth(to, _)) => {
            Place::Site(site, SitePlace::ToTooth(to, Some(at)))
        }
        Place::Site(site, SitePlace::ToSite(to, _)) => {
            Place::Site(site, SitePlace::ToSite(to, Some(at)))
        }
        other => other,
    }
}

/// Depth of a height below the platform.
pub(super) fn height_of(one: &PlacedSite<'_>, at: Height) -> Length {
    let length = one.cut.site.implant.platform_to_apex_mm;
    match at {
        Height::Crest | Height::Least => Length::ZERO,
        Height::Mid => length.half_floor(),
        Height::Apex => length,
    }
}

/// Depth below the other platform from which on a distance may have been measured to the other implant: that of a level
/// slice, or its own at the same height, whichever is less deep, less what the platforms may lie above each other.
fn meets(one: &PlacedSite<'_>, other: &PlacedSite<'_>, at: Height) -> Length {
    let depth = height_of(one, at).min(height_of(other, at)) - level_apart(one, other);
    depth.max(Length::ZERO)
}

fn radius_at(one: &PlacedSite<'_>, at: Height, below: Length) -> PartlyKnown<Length> {
    match at {
        Height::Crest | Height::Least => one.cut.widest_radius(),
        Height::Mid | Height::Apex => one.cut.radius_from(below),
    }
}
