//! Validity of measured values for the site as it is now.

use crate::case::{
    Distance, DistanceTo, Height, HeightDatum, MeasuredAt, Obstacle, Place, Placement, Site,
    SitePlace, Structure, StructureExtent, ValidCase, Wall, site_as_confirmed,
};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;
use crate::plan::depth::moved::{Moved, curvature};
use crate::plan::figure::{Basis, Change, Known, Reason, Since, Term};
use crate::plan::finding::at_most;
use crate::plan::term_name::TermName;

/// Measured values of a site that were measured before it, or the other site that they lead to, was
/// changed in something that they depend on; each list in the order of the case. The worksheet
/// counts these as unknown, or by what is left of them at least.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StaleValues {
    /// Any of its heights; `false` where there are none.
    pub heights: bool,
    /// The rim of its socket, by the depth of the platform alone; `false` where there is none.
    pub rim: bool,
    /// The gap of its socket; `false` where there is none.
    pub gap: bool,
    /// Of its walls.
    pub walls: Vec<bool>,
    /// Of its distances to neighbours.
    pub distances: Vec<bool>,
    /// Of its deep structures.
    pub structures: Vec<bool>,
    /// Of its obstacles.
    pub obstacles: Vec<bool>,
}

/// Measured values of a site that no longer belong to the site as it is.
#[must_use]
pub fn stale_values(case: &ValidCase, site: &Site) -> StaleValues {
    let site = &*site_as_confirmed(case, site);
    let of = |site| SiteContext::new(case, site);
    let here = of(site);
    let other = |distance: &Distance| match &distance.to {
        DistanceTo::Tooth { .. } => None,
        DistanceTo::Site { site } => case.site(site.as_str()).map(of),
    };
    StaleValues {
        heights: site
            .heights_elsewhere(case.guide.scan_date)
            .next()
            .is_some(),
        rim: site.heights.platform_below_socket_rim_mm.is_some() && site.heights.rim_is_old(),
        gap: stale_gap(&here),
        walls: list(&site.walls, |w| stale_wall(&here, w).is_some()),
        distances: list(&site.distances, |d| {
            stale_distance(&here, other(d).as_ref(), d).is_some()
        }),
        structures: list(&site.structures, |s| stale_structure(&here, s).is_some()),
        obstacles: list(&site.obstacles, |o| {
            stale_obstacle(&here, o).is_some() || is_without_rim(&here, o)
        }),
    }
}

fn list<T>(measured: &[T], is_stale: impl Fn(&T) -> bool) -> Vec<bool> {
    measured.iter().map(is_stale).collect()
}

/// Height of the master sleeve's coronal rim above the platform, which an obstacle measured now
/// remembers besides the site. Nothing where the distance is unknown.
#[must_use]
pub fn rim_now(case: &ValidCase, site: &Site) -> Option<Length> {
    SiteContext::new(case, site).rim()
}

/// A measured value that was measured before its site, or another, was changed in something that it
/// depends on.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Stale {
    /// The change.
    pub(in crate::plan) since: Since,
    /// The move of each site concerned, where that is all that changed.
    moves: Option<Vec<Moved>>,
}

/// A point of a site's body by its distance along the axis from the platform, and aside of it.
pub(in crate::plan) type Reach = (Length, Length);

impl Stale {
    /// The most that the moves since then can take from what was measured, or give back, up to these points of the
    /// bodies, one of each site; nothing where nobody can say.
    pub(in crate::plan) fn takes(&self, reaches: &[Reach]) -> Option<Length> {
        let moves = self.moves.as_ref()?.iter().zip(reaches);
        moves
            .map(|(moved, &(along, aside))| moved.takes(along, aside))
            .sum()
    }

    /// What a margin leaves since then: at least what the moves cannot take of it, where that keeps the
    /// limit, with the term that says how much they take; else what is left at worst and at best, with the
    /// term that says how much they give back, if nobody moved it so far that nobody can say.
    pub(in crate::plan) fn leaves(
        self,
        at: Place,
        margin: &Known<Length>,
        reaches: &[Reach],
        limit: Option<Length>,
    ) -> (Known<Length>, Option<Term>) {
        let Some((taken, limit)) = self.takes(reaches).zip(limit) else {
            return (self.unknown(at), None);
        };
        let Known::Is(margin) = *margin else {
            let Some(most) = at_most(margin) else {
                return (self.unknown(at), None);
            };
            let given = self.given_back(taken);
            let most = Reason::AtMost(most + taken);
            return (self.leaving(at, Some(most)), Some(given));
        };
        let (least, most) = (margin - taken, margin + taken);
        if least < limit {
            let given = self.given_back(taken);
            let between = Reason::Between { least, most };
            return (self.leaving(at, Some(between)), Some(given));
        }
        let term = self.by_move(TermName::TakenByMove, taken);
        (Known::Is(least), Some(term.minus()))
    }

    /// The most that moves since then can give back, as a term of the most that is left.
    pub(in crate::plan) fn given_back(&self, by: Length) -> Term {
        self.by_move(TermName::GivenByMove, by)
    }

    fn by_move(&self, name: TermName, by: Length) -> Term {
        let place = Place::Site(self.since.site.clone(), SitePlace::Placement);
        Term::case(name, place.into(), Some(by), Basis::Estimated)
    }

    /// That it is not known, and since what; with what is left all the same.
    pub(in crate::plan) fn leaving(self, at: Place, left: Option<Reason>) -> Known<Length> {
        let stale = Reason::Stale(at, self.since);
        Known::Unknown(std::iter::once(stale).chain(left).collect())
    }

    /// That it is not known, and since what.
    pub(in crate::plan) fn unknown<T>(self, at: Place) -> Known<T> {
        Known::Unknown(vec![Reason::Stale(at, self.since)])
    }
}

/// What changed since a wall was measured, if anything that it depends on did.
pub(in crate::plan) fn stale_wall(site: &SiteContext<'_>, wall: &Wall) -> Option<Stale> {
    stale_bone(site, &wall.measured_at).or_else(|| stale_at(site, &wall.measured_at, wall.at))
}

/// That the bone is another since; nobody can say what that takes.
fn stale_bone(site: &SiteContext<'_>, then: &MeasuredAt) -> Option<Stale> {
    site.is_other_bone(then.bone_then).then(|| Stale {
        since: site.since(Change::Bone),
        moves: None,
    })
}

/// True if the gap of the site's socket was measured before a change, or nobody knows when.
fn stale_gap(site: &SiteContext<'_>) -> bool {
    let Some(socket) = site
        .site
        .state
        .socket()
        .filter(|socket| socket.gap_mm.is_some())
    else {
        return false;
    };
    let then = socket.gap_measured_at.as_ref();
    then.is_none_or(|then| {
        stale_bone(site, &then.site).is_some()
            || stale_at(site, &then.site, Height::Crest).is_some()
    })
}

/// The same of a distance, which depends on the other site too, where it leads to one.
pub(in crate::plan) fn stale_distance(
    site: &SiteContext<'_>,
    other: Option<&SiteContext<'_>>,
    distance: &Distance,
) -> Option<Stale> {
    let own = stale_at(site, &distance.measured_at, distance.at);
    let Some(other) = other else { return own };
    let Some(then) = &distance.other_measured_at else {
        let unrecorded = || other.since(Change::Unrecorded);
        return Some(Stale {
            since: own.map_or_else(unrecorded, |own| own.since),
            moves: None,
        });
    };
    match (own, stale_at(other, then, distance.at)) {
        (own, None) => own,
        (None, Some(theirs)) => {
            let moves = theirs
                .moves
                .map(|moves| [vec![Moved::NOWHERE], moves].concat());
            Some(Stale { moves, ..theirs })
        }
        (Some(own), Some(theirs)) => {
            let moves = own.moves.zip(theirs.moves);
            let moves = moves.map(|(own, theirs)| [own, theirs].concat());
            Some(Stale { moves, ..own })
        }
    }
}

/// The same of a structure.
pub(in crate::plan) fn stale_structure(
    site: &SiteContext<'_>,
    structure: &Structure,
) -> Option<Stale> {
    let on = match structure.extent {
        StructureExtent::Below { from, .. } => from.into(),
        StructureExtent::Beside { .. } => DependsOn::ImplantWithin,
    };
    let from_crest = matches!(on, DependsOn::AxisAtCrest);
    let bone = from_crest.then(|| stale_bone(site, &structure.measured_at));
    bone.flatten()
        .or_else(|| stale(site, &structure.measured_at, on))
}

/// The same of an obstacle, whose height counts from the rim.
pub(in crate::plan) fn stale_obstacle(
    site: &SiteContext<'_>,
    obstacle: &Obstacle,
) -> Option<Stale> {
    let (now, then) = (site.rim(), obstacle.rim_above_platform_mm);
    let moved = now.is_some() && then.is_some() && now != then;
    if moved {
        return Some(Stale {
            since: site.since(Change::Sleeve),
            moves: None,
        });
    }
    stale(site, &obstacle.measured_at, DependsOn::PlatformDepth)
}

/// True if an obstacle was measured before there was a sleeve, and there is one now: nobody knows
/// from where its height counts, until it is measured anew or confirmed.
fn is_without_rim(site: &SiteContext<'_>, obstacle: &Obstacle) -> bool {
    obstacle.rim_above_platform_mm.is_none() && site.rim().is_some()
}

/// The part of the site that a measured value depends on, besides its placement.
#[derive(Debug, Clone, Copy)]
enum DependsOn {
    /// On where the axis passes the crest: once it is tilted, on the depth of the platform too.
    AxisAtCrest,
    /// On the depth of the platform.
    PlatformDepth,
    /// On the depth of the platform and the exact length of the implant.
    ImplantEnds,
    /// On the depth of the platform, and on the implant being no longer than it was.
    ImplantWithin,
}

impl From<Height> for DependsOn {
    fn from(height: Height) -> Self {
        match height {
            Height::Crest => Self::AxisAtCrest,
            Height::Mid | Height::Apex => Self::ImplantEnds,
            Height::Least => Self::ImplantWithin,
        }
    }
}

impl From<HeightDatum> for DependsOn {
    fn from(datum: HeightDatum) -> Self {
        match datum {
            HeightDatum::Crest => Self::AxisAtCrest,
            HeightDatum::Platform => Self::PlatformDepth,
        }
    }
}

/// What was measured at a height along the implant.
fn stale_at(site: &SiteContext<'_>, then: &MeasuredAt, at: Height) -> Option<Stale> {
    stale(site, then, at.into())
}

/// The length from the platform to the farthest point of the axis that a height along it vouches for.
/// Where nobody knows how far the crest is, it is taken to be no farther than the implant is long; as
/// far as a tilted axis passes a level one.
pub(in crate::plan) fn reach(site: &SiteContext<'_>, then: &MeasuredAt, at: Height) -> Length {
    let length = then.platform_to_apex_mm;
    match at {
        Height::Crest => {
            let [now, led] = site.site.heights.depths();
            let crest = [then.platform_below_crest, now, led].map(|crest| {
                crest.map_or(length, |crest| {
                    crest.highest_mm.abs().max(crest.lowest_mm.abs())
                })
            });
            let upright = libm::cos(lean(site, then));
            let farthest = crest.into_iter().fold(Length::ZERO, Length::max);
            Length::ceil_mm(farthest.mm() / (upright * upright))
        }
        Height::Mid => length.half_ceil(),
        Height::Apex | Height::Least => then.depth(),
    }
}

/// The most by which a body of the site reaches deeper, that far aside of its axis, than the same one
/// did then, along the axis as it was; nothing where nobody knows.
pub(in crate::plan) fn deeper_since(
    site: &SiteContext<'_>,
    then: &MeasuredAt,
    aside: Length,
) -> Option<Length> {
    let moved = moved_since(site, then, DependsOn::PlatformDepth)?;
    Some(moved.carries_deeper(aside))
}

/// The greater lean of the axis, then and now, in radians; 0 where it is none.
fn lean(site: &SiteContext<'_>, then: &MeasuredAt) -> f64 {
    let lean = |placement: &Placement| placement.tilt().unwrap_or_default();
    lean(&then.placement).max(lean(&site.site.placement))
}

/// True if the place of its axis was measured, then or now.
fn is_measured(site: &SiteContext<'_>, then: &MeasuredAt) -> bool {
    let both = [&then.placement, &site.site.placement];
    both.iter()
        .any(|one| matches!(one, Placement::Measured { .. }))
}

/// The move since then, of what depends on that; nothing where nobody knows.
fn moved_since(site: &SiteContext<'_>, then: &MeasuredAt, on: DependsOn) -> Option<Moved> {
    let placement = site.site.placement;
    let moved = Moved::between(&then.placement, &placement, curvature(site.case.arch))?;
    let sunk = |crest| match on {
        // Measured coordinates stay while the crest is set elsewhere along the axis.
        DependsOn::AxisAtCrest if is_measured(site, then) => {
            moved.sunk(then.platform_below_crest, crest)
        }
        DependsOn::AxisAtCrest => match lean(site, then) {
            upright if upright <= 0.0 => Some(moved),
            lean => moved.sunk_at_crest(lean, then.platform_below_crest, crest),
        },
        DependsOn::PlatformDepth | DependsOn::ImplantEnds | DependsOn::ImplantWithin => {
            moved.sunk(then.platform_below_crest, crest)
        }
    };
    let [planned, led] = site.site.heights.depths().map(sunk);
    Some(planned?.or_farther(led?))
}

/// What changed since then, in something that the measured value depends on.
fn stale(site: &SiteContext<'_>, then: &MeasuredAt, on: DependsOn) -> Option<Stale> {
    let now = site.site.measured_now(site.implant.platform_to_apex_mm);
    let moved = now.placement != then.placement;
    let depths = site.site.heights.depths();
    let sunk = depths.iter().any(|now| then.platform_below_crest != *now);
    let (now_long, then_long) = (now.platform_to_apex_mm, then.platform_to_apex_mm);
    let (sunk, other_implant) = match on {
        DependsOn::AxisAtCrest => {
            let passes_elsewhere = lean(site, then) > 0.0 || is_measured(site, then);
            (sunk && passes_elsewhere, false)
        }
        DependsOn::PlatformDepth => (sunk, false),
        DependsOn::ImplantEnds => (sunk, now_long != then_long),
        DependsOn::ImplantWithin => (sunk, now_long > then_long),
    };
    let change = match (moved, sunk, other_implant) {
        (true, ..) => Change::Moved,
        (_, true, _) if site.site.heights.platform_below_crest.is_none() => Change::DepthMissing,
        (_, true, _) => Change::Depth,
        (.., true) => Change::Implant,
        (false, false, false) => return None,
    };
    let by = (!other_implant).then(|| moved_since(site, then, on));
    Some(Stale {
        since: site.since(change),
        moves: by.flatten().map(|moved| vec![moved]),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Heights, Placement, read_case};

    fn cases() -> Vec<ValidCase> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo");
        let mut files: Vec<_> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| path.extension().is_some_and(|e| e == "json"))
            .filter(|path| !path.ends_with("kit.json"))
            .collect();
        files.sort();
        files
            .iter()
            .map(|file| read_case(&std::fs::read(file).unwrap()).unwrap())
            .collect()
    }

    #[test]
    fn all_that_was_measured_is_stale_once_its_site_moves_and_nothing_before() {
        let mut seen = [0; 5];
        for case in cases() {
            for site in &case.sites {
                let now = stale_values(&case, site);
                let lists = |stale: StaleValues| {
                    [
                        stale.walls,
                        stale.distances,
                        stale.structures,
                        stale.obstacles,
                        vec![stale.heights],
                    ]
                };
                assert!(lists(now).iter().flatten().all(|stale| !stale));
                let Placement::OnArch { .. } = site.placement else {
                    continue;
                };
                let mut moved = site.clone();
                if let Placement::OnArch { along_mm, .. } = &mut moved.placement {
                    *along_mm += Length::from_um(100);
                }
                for (n, list) in lists(stale_values(&case, &moved)).iter().enumerate() {
                    assert!(list.iter().all(|stale| *stale), "{:?}", site.id);
                    seen[n] += list.len();
                }
                assert!(site.heights != Heights::default(), "{:?}", site.id);
            }
        }
        assert!(seen[0] > 0 && seen[1] > 0 && seen[2] > 0, "{seen:?}");
    }

    #[test]
    fn an_obstacle_counts_from_the_rim() {
        let case = cases().remove(0);
        let mut site = case.sites[0].clone();
        let implant = case.kit.implant(&site.implant).unwrap();
        let rim = rim_now(&case, &site);
        site.obstacles = vec![Obstacle {
            name: "crown".into(),
            tooth: None,
            above_rim_mm: Length::from_mm(1),
            rim_above_platform_mm: rim,
            from_axis_mm: Length::from_mm(5),
            measured_at: site.measured_now(implant.platform_to_apex_mm),
        }];
        assert!(rim.is_some());
        assert_eq!(stale_values(&case, &site).obstacles, [false]);
        site.obstacles[0].rim_above_platform_mm = rim.map(|rim| rim + Length::from_um(1));
        assert_eq!(stale_values(&case, &site).obstacles, [true]);
    }
}
