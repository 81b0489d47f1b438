//! Heights at a site, and where each of them was measured.

use super::confirmed::Confirmed;
use super::{Placement, Site, SiteHeight};
use crate::kit::Label;
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Heights at a site, each with its own datum. Absent is unknown, and so is one once the site stands or
/// points otherwise than it did when it was measured.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Heights {
    /// Depth of the platform below the crest, along the axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// Depth of the platform below the most apical point of a fresh socket's rim, along the axis:
    /// freehand depth there counts from it, for within the socket there is no crest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -20, max = 30))]
    pub platform_below_socket_rim_mm: Option<Length>,
    /// Thickness of the soft tissue over the crest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 20))]
    pub tissue_thickness_mm: Option<Length>,
    /// Depth of the crest below the occlusal plane.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 60))]
    pub crest_below_occlusal_mm: Option<Length>,
    /// Placement of the site when they were measured; absent: nobody knows, so the heights do not
    /// count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_at: Option<Placement>,
    /// That they were not measured there, but only said to hold there still; absent: they were
    /// measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub confirmed: Option<Confirmed>,
    /// Those that were measured apart from the others: entered once those were confirmed after a move,
    /// say.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub apart: Vec<MeasuredApart>,
}

/// Depth of the platform below the crest; negative where it stands above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CrestDepth {
    /// Below the most coronal crest within the sleeve's radius: counts for room.
    #[schemars(range(min = -20, max = 30))]
    pub highest_mm: Length,
    /// Below the most apical crest around the site: counts for walls and, but in a fresh socket,
    /// freehand depth.
    #[schemars(range(min = -20, max = 30))]
    pub lowest_mm: Length,
}

/// A height that was measured apart from the others.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuredApart {
    /// The height.
    pub height: SiteHeight,
    /// Placement of the site when it was measured.
    pub measured_at: Placement,
    /// That it was not measured there, but only said to hold there still; absent: it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub confirmed: Option<Confirmed>,
}

impl Heights {
    /// The heights that were entered.
    fn entered(&self) -> impl Iterator<Item = SiteHeight> {
        SiteHeight::MEASURED
            .into_iter()
            .filter(|height| self.is_entered(*height))
    }

    fn apart(&self, height: SiteHeight) -> Option<&MeasuredApart> {
        self.apart.iter().find(|one| one.height == height)
    }

    const fn is_entered(&self, height: SiteHeight) -> bool {
        match height {
            SiteHeight::PlatformBelowCrest => self.platform_below_crest.is_some(),
            SiteHeight::SocketRim => self.platform_below_socket_rim_mm.is_some(),
            SiteHeight::TissueThickness => self.tissue_thickness_mm.is_some(),
            SiteHeight::CrestBelowOcclusal => self.crest_below_occlusal_mm.is_some(),
            SiteHeight::MeasuredAt => false,
        }
    }

    /// Placement of the site when a height was measured, or last said to hold still.
    #[must_use]
    pub fn measured_at(&self, height: SiteHeight) -> Option<Placement> {
        let apart = self.apart(height);
        apart.map_or(self.measured_at, |apart| Some(apart.measured_at))
    }

    /// The word that a height was confirmed with.
    #[must_use]
    pub fn word_on(&self, height: SiteHeight) -> Option<&Confirmed> {
        let apart = self.apart(height);
        apart.map_or(self.confirmed.as_ref(), |apart| apart.confirmed.as_ref())
    }

    /// A height was entered, as measured at that placement, or taken away: of the others that says
    /// nothing.
    pub fn enter(&mut self, height: SiteHeight, now: Placement) {
        self.apart.retain(|one| one.height != height);
        if !self.is_entered(height) {
            return;
        }
        let with_others = self
            .entered()
            .any(|o| o != height && self.apart(o).is_none());
        if !with_others {
            (self.measured_at, self.confirmed) = (Some(now), None);
        } else if self.measured_at != Some(now) || self.confirmed.is_some() {
            self.apart.push(MeasuredApart {
                height,
                measured_at: now,
                confirmed: None,
            });
            self.apart.sort_by_key(|one| one.height);
        }
    }

    /// Those measured elsewhere are said by a person to hold at the site as it now stands. Where nobody
    /// knows at which placement they were measured, there is nothing to confirm.
    pub fn confirm(&mut self, now: Placement, by: &Label) {
        self.lapse(now);
        let word = |placement| Some(Confirmed::of_height(placement, by.clone()));
        if let Some(then) = self.measured_at.filter(|then| *then != now) {
            (self.measured_at, self.confirmed) = (Some(now), word(then));
        }
        for one in self.apart.iter_mut().filter(|one| one.measured_at != now) {
            one.confirmed = word(one.measured_at);
            one.measured_at = now;
        }
    }

    /// Takes back words that were given for a site that stood otherwise than now, or by nobody.
    pub(super) fn lapse(&mut self, now: Placement) {
        let lapses = |at| move |word: &mut Confirmed| at != Some(now) || !word.is_named();
        if let Some(word) = self.confirmed.take_if(lapses(self.measured_at)) {
            self.measured_at = Some(word.placement);
        }
        for one in &mut self.apart {
            if let Some(word) = one.confirmed.take_if(lapses(Some(one.measured_at))) {
                one.measured_at = word.placement;
            }
        }
    }

    /// True if a person's word counts for any of them.
    pub(super) fn are_confirmed(&self) -> bool {
        let mut apart = self.apart.iter();
        self.confirmed.is_some() || apart.any(|one| one.confirmed.is_some())
    }
}

impl Site {
    /// The heights that belong to the site as it is: without those that were measured before it was
    /// moved or tilted.
    #[must_use]
    pub fn heights_now(&self) -> Heights {
        let mut now = self.heights.clone();
        for height in self.stale_heights() {
            now.apart.retain(|one| one.height != height);
            match height {
                SiteHeight::PlatformBelowCrest => now.platform_below_crest = None,
                SiteHeight::SocketRim => now.platform_below_socket_rim_mm = None,
                SiteHeight::TissueThickness => now.tissue_thickness_mm = None,
                SiteHeight::CrestBelowOcclusal => now.crest_below_occlusal_mm = None,
                SiteHeight::MeasuredAt => {}
            }
        }
        if now.entered().next().is_none() {
            return Heights::default();
        }
        now
    }

    /// Those that were measured before the site was moved or tilted.
    pub(crate) fn stale_heights(&self) -> impl Iterator<Item = SiteHeight> {
        let stale = |height: &SiteHeight| self.heights.measured_at(*height) != Some(self.placement);
        self.heights.entered().filter(stale)
    }
}
