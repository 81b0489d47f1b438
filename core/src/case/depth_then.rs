//! What a depth below the crest says of the values that were measured before it was entered.
//!
//! The first one says where the platform was all the time, so that what was measured before is of that depth, and is old
//! once it changes. Another one is another place of the platform, save over a guide that is made: that leads to one
//! platform, so that another depth is another reading of the crest, and what was measured from the platform is of it.

use super::{
    Case, CrestDepth, Distance, DistanceTo, GuideState, Height, HeightDatum, Heights, MeasuredAt,
    Site, StructureExtent,
};
use crate::kit::SiteId;

impl MeasuredAt {
    fn was_at(&mut self, depth: CrestDepth) {
        self.platform_below_crest.get_or_insert(depth);
        if let Some(word) = &mut self.confirmed {
            word.platform_below_crest.get_or_insert(depth);
        }
    }

    /// The same place of the platform by another reading of the crest.
    fn read_anew(&mut self, before: Option<CrestDepth>, now: Option<CrestDepth>) {
        if self.platform_below_crest != before {
            return;
        }
        self.platform_below_crest = now;
        if let Some(word) = &mut self.confirmed
            && let Some(then) = &mut word.platform_below_crest
            && let Some((before, now)) = before.zip(now)
        {
            then.highest_mm += now.highest_mm - before.highest_mm;
            then.lowest_mm += now.lowest_mm - before.lowest_mm;
        }
    }
}

impl Case {
    /// The depth of a site's platform below the crest was entered, changed or taken away.
    pub(super) fn depth_entered(
        &mut self,
        of: &SiteId,
        before: Option<CrestDepth>,
        now: Option<CrestDepth>,
    ) {
        if before == now {
            return;
        }
        match (before, now) {
            (None, Some(first)) => {
                self.to_site(of, |one, _| one.was_at(first));
                self.rim_was_at(of, first);
            }
            _ if self.guide.state == GuideState::Made => self.crest_read_anew(of, before, now),
            (Some(before), _) => {
                self.rim_was_at(of, before);
                for one in self.guide.receipt.iter_mut().filter(|r| r.site == *of) {
                    if let Some(guide) = &mut one.taken_on {
                        guide.platform_below_crest.get_or_insert(before);
                    }
                }
            }
            (None, None) => {}
        }
    }

    /// Has everything that was measured from a platform, and on the guide, follow another reading of the crest.
    fn crest_read_anew(
        &mut self,
        of: &SiteId,
        before: Option<CrestDepth>,
        now: Option<CrestDepth>,
    ) {
        self.to_site(of, |one, is_from_platform| {
            if is_from_platform {
                one.read_anew(before, now);
            }
        });
        for one in self.guide.receipt.iter_mut().filter(|r| r.site == *of) {
            if let Some(guide) = &mut one.taken_on
                && guide.platform_below_crest == before
            {
                guide.platform_below_crest = now;
            }
        }
        if let Some(heights) = self.heights_of(of)
            && heights.rim_measured_at == before
        {
            heights.rim_measured_at = now;
        }
    }

    fn rim_was_at(&mut self, of: &SiteId, depth: CrestDepth) {
        if let Some(heights) = self.heights_of(of)
            && heights.platform_below_socket_rim_mm.is_some()
        {
            heights.rim_measured_at.get_or_insert(depth);
        }
    }

    fn heights_of(&mut self, of: &SiteId) -> Option<&mut Heights> {
        let site = self.sites.iter_mut().find(|site| site.id == *of);
        site.map(|site| &mut site.heights)
    }

    /// Everything that was measured at a site, or to it, and whether that depends on where along the axis its platform is.
    fn to_site(&mut self, of: &SiteId, mut each: impl FnMut(&mut MeasuredAt, bool)) {
        for site in &mut self.sites {
            if site.id == *of {
                at_site(site, &mut each);
                continue;
            }
            let to_it = site
                .distances
                .iter_mut()
                .filter(|distance| matches!(&distance.to, DistanceTo::Site { site } if site == of));
            for Distance {
                at,
                other_measured_at,
                ..
            } in to_it
            {
                if let Some(theirs) = other_measured_at {
                    each(theirs, *at != Height::Crest);
                }
            }
        }
    }
}

fn at_site(site: &mut Site, each: &mut impl FnMut(&mut MeasuredAt, bool)) {
    if let Some(gap) = site
        .state
        .socket_mut()
        .and_then(|s| s.gap_measured_at.as_mut())
    {
        each(&mut gap.site, false);
    }
    for one in &mut site.walls {
        each(&mut one.measured_at, one.at != Height::Crest);
    }
    for one in &mut site.distances {
        each(&mut one.measured_at, one.at != Height::Crest);
    }
    for one in &mut site.structures {
        let is_from_crest = matches!(
            one.extent,
            StructureExtent::Below {
                from: HeightDatum::Crest,
                ..
            }
        );
        each(&mut one.measured_at, !is_from_crest);
    }
    for one in &mut site.obstacles {
        each(&mut one.measured_at, true);
    }
}
