//! What a depth below the crest says of the values that were measured before it was entered.
//!
//! The first one says where the platform was all the time, so that what was measured before is of that depth, and is old
//! once it changes. Another one is another place of the platform, save over a guide that is made: that leads to one
//! platform, so that another depth is another reading of the crest, and what was measured from the platform follows by as
//! much: what was old stays so. Taken away there, the last reading is kept for the next; so it is where one lies too far
//! from it to be of the same crest, which nothing follows. Set back to planned, such a guide is there still: what it leads
//! to by the last reading is kept until it is back, under whatever depth was planned meanwhile. A person's word that a depth
//! is a reading of the crest ([`CrestRead`]) has all follow it, however far it lies.

use super::{
    Case, CrestDepth, CrestRead, Distance, DistanceTo, GuideState, Height, HeightDatum, Heights,
    MeasuredAt, Site, StructureExtent,
};
use crate::kit::SiteId;
use crate::measure::Length;
use crate::sign::Purpose;

/// The most by which two readings of one crest lie apart. What is farther is a slip, another crest or another depth, and
/// nothing that was measured follows it until somebody says that it is a reading. Common practice, no source.
const MOST_READ_ANEW: Length = Length::from_mm(2);

impl MeasuredAt {
    fn was_at(&mut self, depth: CrestDepth) {
        self.platform_below_crest.get_or_insert(depth);
        if let Some(word) = &mut self.confirmed {
            word.platform_below_crest.get_or_insert(depth);
        }
    }

    /// The same place of the platform by another reading of the crest: how much deeper or less deep it stood when this
    /// was measured stays.
    fn read_anew(&mut self, before: CrestDepth, now: CrestDepth) {
        let word = self.confirmed.as_mut();
        let word = word.and_then(|word| word.platform_below_crest.as_mut());
        let own = self.platform_below_crest.as_mut();
        for then in own.into_iter().chain(word) {
            then.read_anew(before, now);
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
        let is_made = self.guide.state == GuideState::Made && self.is_led(of);
        let kept = self
            .heights_of(of)
            .and_then(|heights| heights.crest_taken_away.take());
        // The reading by which all that was measured is recorded.
        let recorded = kept.or(before);
        let stays = match (recorded, now) {
            (None, Some(first)) => {
                self.each_measure(of, |one, _| one.was_at(first));
                self.rim_was_at(of, first);
                // So it is where a guide leads it that is set back, of which nothing else is known.
                let is_there = self.guide.is_there_still() && self.is_led(of);
                let is_unknown = is_there && self.made_at(of).is_none();
                if let Some(heights) = self.heights_of(of).filter(|_| is_unknown) {
                    heights.guide_leads_to.get_or_insert(first);
                }
                None
            }
            (Some(then), Some(now)) if is_made && self.is_of_one_crest(of, then, now) => {
                self.crest_read_anew(of, then, now);
                if let Some(heights) = self.heights_of(of) {
                    // By the reading of before again.
                    heights.crest_read.take_if(|word| !is_near(word.read, now));
                }
                None
            }
            (Some(then), _) => {
                self.rim_was_at(of, then);
                for one in self.guide.receipt.iter_mut().filter(|r| r.site == *of) {
                    if let Some(guide) = &mut one.taken_on {
                        guide.platform_below_crest.get_or_insert(then);
                    }
                }
                Some(then)
            }
            (None, None) => None,
        };
        if let Some(heights) = self.heights_of(of) {
            heights.crest_taken_away = stays.filter(|_| is_made);
        }
    }

    /// The guide is set back: each site keeps the reading by which it leads the platform, which is that by which all that
    /// was measured is recorded.
    pub(super) fn keep_readings(&mut self) {
        for n in 0..self.sites.len() {
            self.keep_reading(n);
        }
    }

    fn keep_reading(&mut self, n: usize) {
        let of = &self.sites[n].id;
        let (by, is_led) = (self.made_at(of), self.is_led(of));
        let heights = &mut self.sites[n].heights;
        let kept = heights.crest_taken_away.take();
        let led = kept.or(heights.platform_below_crest);
        heights.guide_leads_to = led.filter(|led| is_led && by != Some(*led));
    }

    /// The guide is back, and leads where it did. Where another depth was planned meanwhile what was measured stays recorded
    /// by the reading that was kept, and what was measured for the other plan is old.
    pub(super) fn count_kept_readings(&mut self) {
        for n in 0..self.sites.len() {
            self.count_kept_reading(n);
        }
    }

    fn count_kept_reading(&mut self, n: usize) {
        let of = &self.sites[n].id;
        let (by, is_led) = (self.made_at(of), self.is_led(of));
        let heights = &mut self.sites[n].heights;
        let led = heights.guide_leads_to.take().or(by);
        let is_other = |led: &CrestDepth| is_led && heights.platform_below_crest != Some(*led);
        heights.crest_taken_away = led.filter(is_other);
    }

    /// Two changes were brought together: the guide leads each platform by the reading that the side of that site kept of
    /// it, also where the guide itself is of the other side, which set it back or made it again; and by the one that either
    /// side kept where it is set back on both.
    pub(super) fn keep_readings_of(&mut self, sides: [&Self; 2]) {
        let (is_made, is_back) = (
            self.guide.state == GuideState::Made,
            self.guide.is_there_still(),
        );
        for n in 0..self.sites.len() {
            let site = &self.sites[n];
            let id = site.id.clone();
            let of_guide = |side: &&&Self| side.is_same_guide(self, &id);
            let of_guide: Vec<&Self> = sides.iter().filter(of_guide).copied().collect();
            let is_of = |side: &&&Self| side.site(id.as_str()) == Some(site);
            let mut from = of_guide.iter().filter(is_of).peekable();
            let is_there = from.peek().is_some();
            let turned = is_there && from.all(|side| side.guide.state != self.guide.state);
            if !is_there {
                // What the site brings of a guide is of another one.
                let heights = &mut self.sites[n].heights;
                (heights.guide_leads_to, heights.crest_taken_away) = (None, None);
                // What followed a word over that one is not where this one leads.
                if heights.crest_read.take().is_some() && is_made {
                    self.count_kept_reading(n);
                }
            }
            if turned && is_made {
                self.count_kept_reading(n);
            } else if turned && is_back {
                self.keep_reading(n);
            } else if is_back {
                let mut kept = of_guide.iter().filter_map(|side| {
                    let there = side.guide.is_there_still().then(|| side.site(id.as_str()));
                    there.flatten()?.heights.guide_leads_to
                });
                let own = self.sites[n].heights.guide_leads_to;
                self.sites[n].heights.guide_leads_to = own.or_else(|| kept.next());
            }
            let heights = &mut self.sites[n].heights;
            // Where none is made nothing is taken away, and where one is nothing is kept.
            heights.guide_leads_to.take_if(|_| !is_back);
            heights.crest_taken_away.take_if(|_| !is_made);
        }
    }

    /// A guide leads nothing where it was not made for: what an older program kept there of where it leads goes. What was
    /// measured stays recorded by it.
    pub(super) fn forget_readings_not_led(&mut self) {
        for n in 0..self.sites.len() {
            let id = self.sites[n].id.clone();
            if self.is_led(&id) {
                continue;
            }
            if let Some(then) = self.sites[n].heights.crest_taken_away.take() {
                self.rim_was_at(&id, then);
            }
        }
    }

    /// True if both have the same guide, made or set back, as far as it leads a site.
    fn is_same_guide(&self, other: &Self, of: &SiteId) -> bool {
        let is_there =
            |case: &Self| case.guide.state == GuideState::Made || case.guide.is_there_still();
        let leads = |case: &Self| {
            let made = case.guide.made_by.as_deref();
            made.map(|made| {
                let one = made.site(of);
                one.map(|one| (one.tooth, one.placement, one.platform_below_crest))
            })
        };
        is_there(self) && is_there(other) && leads(self) == leads(other)
    }

    /// True if a guide that was made may lead a site: that was made for it, or of which nobody recorded for what.
    fn is_led(&self, of: &SiteId) -> bool {
        let made = self.guide.made_by.as_deref();
        made.is_none_or(|made| made.site(of).is_some())
    }

    /// Depth of a site's platform when the guide was made for it.
    fn made_at(&self, of: &SiteId) -> Option<CrestDepth> {
        let made = self.guide.made_by.as_ref()?;
        made.site(of)?.platform_below_crest
    }

    /// True if another reading may be one of the crest of which the platform stood at this depth: by that when the guide
    /// was made, where it was recorded, or by what somebody said to be one.
    fn is_of_one_crest(&self, of: &SiteId, then: CrestDepth, now: CrestDepth) -> bool {
        let made = self.made_at(of).unwrap_or(then);
        let said = self.site(of.as_str()).and_then(|site| {
            let word = site.heights.crest_read.as_ref();
            word.filter(|word| word.counts())
        });
        let mut readings = [Some(made), said.map(|word| word.read)].into_iter();
        readings.any(|then| then.is_some_and(|then| is_near(then, now)))
    }

    /// Somebody says that the depth as it is entered is a reading of the crest: the guide leads the platform there, and what
    /// was measured from it follows. Not in a demonstration: that may turn to a patient's case, and all would stay so.
    pub(super) fn crest_is_read(&mut self, of: &SiteId, word: CrestRead) {
        let is_made = self.guide.state == GuideState::Made && self.is_led(of);
        let counts = is_made && word.counts() && self.purpose() == Purpose::Patient;
        let (read, before) = (word.read, word.before);
        let Some(heights) = self.heights_of(of) else {
            return;
        };
        let is_new = heights.crest_read.as_ref() != Some(&word);
        let is_of_it = heights.depths() == [Some(read), Some(before)] && read != before;
        if counts && is_new && is_of_it {
            (heights.crest_taken_away, heights.crest_read) = (None, Some(word));
            self.crest_read_anew(of, before, read);
        }
    }

    /// Has everything that was measured from a platform, and on the guide, follow another reading of the crest.
    fn crest_read_anew(&mut self, of: &SiteId, before: CrestDepth, now: CrestDepth) {
        self.each_measure(of, |one, is_from_platform| {
            if is_from_platform {
                one.read_anew(before, now);
            }
        });
        let receipts = self.guide.receipt.iter_mut().filter(|r| r.site == *of);
        let guides = receipts.filter_map(|one| one.taken_on.as_mut());
        for guide in guides {
            if let Some(then) = &mut guide.platform_below_crest {
                then.read_anew(before, now);
            }
        }
        let heights = self.heights_of(of);
        if let Some(rim) = heights.and_then(|heights| heights.rim_measured_at.as_mut()) {
            rim.read_anew(before, now);
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
    fn each_measure(&mut self, of: &SiteId, mut each: impl FnMut(&mut MeasuredAt, bool)) {
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

fn is_near(then: CrestDepth, now: CrestDepth) -> bool {
    let apart = [
        now.highest_mm - then.highest_mm,
        now.lowest_mm - then.lowest_mm,
    ];
    apart.iter().all(|by| by.abs() <= MOST_READ_ANEW)
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
