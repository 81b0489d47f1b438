//! A depth below the crest that is entered once something was measured: it says where the platform was all the time,
//! so that what was measured before is of that depth, and is old once it changes.

use super::confirmed::measured_mut;
use super::{Case, CrestDepth, DistanceTo, MeasuredAt};
use crate::kit::SiteId;

impl MeasuredAt {
    fn was_at(&mut self, depth: CrestDepth) {
        self.platform_below_crest.get_or_insert(depth);
        if let Some(word) = &mut self.confirmed {
            word.platform_below_crest.get_or_insert(depth);
        }
    }
}

impl Case {
    /// Has everything that was measured at a site, or to it, without a depth of its platform remember the first one
    /// that was entered.
    pub(super) fn remember_first_depth(&mut self, of: &SiteId, depth: CrestDepth) {
        for site in &mut self.sites {
            if site.id == *of {
                measured_mut(site).for_each(|one| one.was_at(depth));
                continue;
            }
            let to_it = site
                .distances
                .iter_mut()
                .filter(|distance| matches!(&distance.to, DistanceTo::Site { site } if site == of));
            let theirs = to_it.filter_map(|distance| distance.other_measured_at.as_mut());
            theirs.for_each(|one| one.was_at(depth));
        }
    }
}
