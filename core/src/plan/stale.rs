//! Whether a measured value still belongs to the site as it is now.

use super::context::SiteContext;
use crate::case::{Height, HeightDatum, MeasuredAt};

/// What part of the site a measured value depends on, besides its placement.
#[derive(Debug, Clone, Copy)]
pub(super) enum DependsOn {
    /// On nothing else.
    PlacementOnly,
    /// On how deep the platform lies.
    PlatformDepth,
    /// On how deep the platform lies and exactly how long the implant is.
    ImplantEnds,
    /// On how deep the platform lies, and that the implant is no longer than it was.
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

/// Whether the site was changed since, in something that the measured value depends on.
pub(super) fn is_stale(site: &SiteContext<'_>, then: &MeasuredAt, on: DependsOn) -> bool {
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
