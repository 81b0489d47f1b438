//! Validity of measured values for the site as it is now.

use crate::case::{
    Distance, DistanceTo, Height, HeightDatum, Heights, MeasuredAt, Obstacle, Site, Structure,
    StructureExtent, ValidCase, Wall,
};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;

/// Measured values of a site that were measured before it, or the other site that they lead to, was
/// changed in something that they depend on; each list in the order of the case. The worksheet
/// counts these as unknown.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StaleValues {
    /// Of its heights, which were all measured at one placement; `false` where there are none.
    pub heights: bool,
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
    let of = |site| SiteContext::new(case, site);
    let here = of(site);
    let other = |distance: &Distance| match &distance.to {
        DistanceTo::Tooth { .. } => None,
        DistanceTo::Site { site } => case.site(site.as_str()).map(of),
    };
    StaleValues {
        heights: site.heights != Heights::default() && site.heights_now() != site.heights,
        walls: site.walls.iter().map(|w| stale_wall(&here, w)).collect(),
        distances: site
            .distances
            .iter()
            .map(|d| stale_distance(&here, other(d).as_ref(), d))
            .collect(),
        structures: site
            .structures
            .iter()
            .map(|s| stale_structure(&here, s))
            .collect(),
        obstacles: site
            .obstacles
            .iter()
            .map(|o| stale_obstacle(&here, o) || is_without_rim(&here, o))
            .collect(),
    }
}

/// Height of the master sleeve's coronal rim above the platform, which an obstacle measured now
/// remembers besides the site. Nothing where the distance is unknown.
#[must_use]
pub fn rim_now(case: &ValidCase, site: &Site) -> Option<Length> {
    SiteContext::new(case, site).rim()
}

/// True if a wall was measured before the site was changed.
pub(in crate::plan) fn stale_wall(site: &SiteContext<'_>, wall: &Wall) -> bool {
    is_stale(site, &wall.measured_at, wall.at.into())
}

/// True if a distance was measured before this site or the other one was changed.
pub(in crate::plan) fn stale_distance(
    site: &SiteContext<'_>,
    other: Option<&SiteContext<'_>>,
    distance: &Distance,
) -> bool {
    let on = distance.at.into();
    let then = distance.other_measured_at.as_ref();
    let other = other.is_some_and(|other| then.is_none_or(|then| is_stale(other, then, on)));
    other || is_stale(site, &distance.measured_at, on)
}

/// True if a structure was measured before the site was changed.
pub(in crate::plan) fn stale_structure(site: &SiteContext<'_>, structure: &Structure) -> bool {
    let on = match structure.extent {
        StructureExtent::Below { from, .. } => from.into(),
        StructureExtent::Beside { .. } => DependsOn::ImplantWithin,
    };
    is_stale(site, &structure.measured_at, on)
}

/// True if an obstacle was measured before the site was changed or the rim moved, from which its
/// height counts.
pub(in crate::plan) fn stale_obstacle(site: &SiteContext<'_>, obstacle: &Obstacle) -> bool {
    let rim = site.rim();
    let moved = rim.is_some()
        && obstacle.rim_above_platform_mm.is_some()
        && rim != obstacle.rim_above_platform_mm;
    moved || is_stale(site, &obstacle.measured_at, DependsOn::PlatformDepth)
}

/// True if an obstacle was measured before there was a sleeve, and there is one now: nobody knows
/// from where its height counts, until it is measured anew or confirmed.
fn is_without_rim(site: &SiteContext<'_>, obstacle: &Obstacle) -> bool {
    obstacle.rim_above_platform_mm.is_none() && site.rim().is_some()
}

/// The part of the site that a measured value depends on, besides its placement.
#[derive(Debug, Clone, Copy)]
enum DependsOn {
    /// On nothing else.
    PlacementOnly,
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
            Height::Crest => Self::PlacementOnly,
            Height::Mid | Height::Apex => Self::ImplantEnds,
            Height::Least => Self::ImplantWithin,
        }
    }
}

impl From<HeightDatum> for DependsOn {
    fn from(datum: HeightDatum) -> Self {
        match datum {
            HeightDatum::Crest => Self::PlacementOnly,
            HeightDatum::Platform => Self::PlatformDepth,
        }
    }
}

/// True if the site was changed since, in something that the measured value depends on.
fn is_stale(site: &SiteContext<'_>, then: &MeasuredAt, on: DependsOn) -> bool {
    let now = site.site.measured_now(site.implant.platform_to_apex_mm);
    let moved = now.placement != then.placement;
    let sunk = now.platform_below_crest != then.platform_below_crest;
    let (now_long, then_long) = (now.platform_to_apex_mm, then.platform_to_apex_mm);
    moved
        || match on {
            DependsOn::PlacementOnly => false,
            DependsOn::PlatformDepth => sunk,
            DependsOn::ImplantEnds => sunk || now_long != then_long,
            DependsOn::ImplantWithin => sunk || now_long > then_long,
        }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Placement, read_case};

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
