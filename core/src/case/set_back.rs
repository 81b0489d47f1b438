//! A guide that was made is there, also while its state says “not made yet”: set back and made again it is the same, until
//! a person says that another is made. It leads the platform of each site to one place, and has one offset and one sleeve,
//! whatever is planned meanwhile.
//!
//! What it was made by ([`MadeBy`]) stays as it was recorded: a plan that is otherwise is no news of the guide. While it is
//! made two things are learned of it, which count from then on:
//!
//! - an offset that nobody recorded, once it was measured on the guide to be as planned;
//! - the last reading of the crest by which each platform stands where the guide leads it. All that is measured is
//!   recorded by that one ([`super::depth_then`]).

use super::{Case, FindingKey, Guide, GuideState, LimitId, MadeBy, ReceiptOf, Site};

/// A guide that was made.
enum There {
    /// By this plan.
    By(Box<MadeBy>),
    /// By one that nobody recorded.
    Unrecorded,
}

impl Case {
    /// Sets the guide: made, set back or made again.
    pub(super) fn set_guide(&mut self, guide: Guide) {
        let was_made = self.guide.state == GuideState::Made;
        let is_made = guide.state == GuideState::Made;
        let mut there = self.there_with(&guide);
        if was_made && !is_made {
            if let Some(There::By(made)) = &mut there {
                self.learn_offsets(made);
            }
            self.keep_readings();
        }
        self.guide = guide;
        if was_made && !is_made {
            self.guide.receipt.clear();
            self.judgements.retain(|decision| {
                let key = FindingKey::parse(&decision.finding);
                key.is_none_or(|key| !key.rule.is_of_made_guide())
            });
        }
        let is_back = !was_made && is_made && there.is_some();
        let is_none = there.is_none();
        self.guide.is_made_unrecorded = !is_made && matches!(there, Some(There::Unrecorded));
        self.guide.made_by = match there {
            Some(There::By(made)) => Some(made),
            Some(There::Unrecorded) => None,
            None => is_made.then(|| Box::new(self.made_by_now())),
        };
        if is_back {
            self.count_kept_readings();
        } else if is_none {
            let sites = self.sites.iter_mut();
            sites.for_each(|site| {
                (site.heights.guide_leads_to, site.heights.crest_read) = (None, None);
            });
        }
    }

    /// The guide that is there once this edit is done; nothing where none was made, or the edit says that another is.
    fn there_with(&self, edit: &Guide) -> Option<There> {
        let is_made = self.guide.state == GuideState::Made;
        if let Some(made) = &self.guide.made_by {
            let stays = is_made || edit.made_by.is_some();
            return stays.then(|| There::By(made.clone()));
        }
        let is_there = self.guide.is_made_unrecorded && edit.is_made_unrecorded;
        (is_made || is_there).then_some(There::Unrecorded)
    }

    /// Adds the offsets that were measured on the guide to what it was made by, where none was recorded.
    fn learn_offsets(&self, made: &mut MadeBy) {
        for one in &mut made.sites {
            let sleeve = one.sleeve.as_ref();
            if sleeve.is_some_and(|sleeve| sleeve.offset.is_some()) {
                continue;
            }
            let site = self.sites.iter().find(|site| site.id == one.site);
            let Some(site) = site.filter(|site| self.offset_is_as_measured(site)) else {
                continue;
            };
            match &mut one.sleeve {
                Some(sleeve) => sleeve.offset = site.platform_to_sleeve,
                none => *none = self.sleeve_now(site),
            }
        }
    }

    /// True if the offset was measured on the guide and is as planned, within the limit of that.
    fn offset_is_as_measured(&self, site: &Site) -> bool {
        let off = || {
            let measured = self.received(site, ReceiptOf::PlatformToSleeve)?;
            let (offset, sleeve) = (site.platform_to_sleeve?, self.sleeve_now(site)?);
            Some((measured - offset.to_apical_face(sleeve.height_mm)).abs())
        };
        let limit = self.limits.get(LimitId::Receipt);
        limit.is_some_and(|limit| off().is_some_and(|off| off <= limit.limit_mm))
    }
}
