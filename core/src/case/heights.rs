//! Heights at a site, and where each of them was measured.

use super::confirmed::{Confirmed, Standing};
use super::{BoneThen, Placement, Site, SiteHeight, is_name};
use crate::kit::Label;
use crate::measure::Length;
use crate::sign::Purpose;
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Heights at a site, each with its own datum. Absent is unknown, and so is one once the site stands or
/// points otherwise than it did when it was measured.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Heights {
    /// Depth of the platform below the crest, along the axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// The last reading of it, where that was taken away over a guide that is made, or one was entered that cannot be of
    /// the same crest, or another depth was planned before the same guide was back: the platform is where it was, and what was measured stays recorded by it. Absent: none was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crest_taken_away: Option<CrestDepth>,
    /// The last reading of it over a guide that was made and is set back to planned, where that is not the one that it
    /// was made by: there it leads the platform, whatever is planned meanwhile. Absent: as it was made, or none is there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guide_leads_to: Option<CrestDepth>,
    /// A person's word that a depth entered over a guide that was made is a reading of the crest, though it lies too far from
    /// the one before to be taken for that by itself. Absent: nobody gave one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crest_read: Option<CrestRead>,
    /// Depth of the platform below the most apical point of a fresh socket's rim, along the axis:
    /// freehand depth there counts from it, for within the socket there is no crest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -20, max = 30))]
    pub platform_below_socket_rim_mm: Option<Length>,
    /// Depth of the platform below the crest when that was measured: set to another one, it is another below the rim
    /// too. Absent: as it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rim_measured_at: Option<CrestDepth>,
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
    /// The bone that they were measured in; absent: as it is.
    #[serde(default, skip_serializing_if = "BoneThen::is_unsaid")]
    pub bone_then: BoneThen,
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

/// A person's word that the platform stands where the guide leads it, and that its depth is another reading of the crest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CrestRead {
    /// Name or initials of the person.
    pub by: Label,
    /// What the case was for when the word was given: none is taken in practice, since what follows it would stay when the
    /// case turned to a patient.
    pub purpose: Purpose,
    /// The depth that was read.
    pub read: CrestDepth,
    /// The reading before it.
    pub before: CrestDepth,
}

impl CrestRead {
    /// True if it is somebody's word, and not given in practice.
    pub(crate) fn counts(&self) -> bool {
        is_name(self.by.as_str()) && self.purpose == Purpose::Patient
    }
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
    /// The bone that it was measured in; absent: as it is.
    #[serde(default, skip_serializing_if = "BoneThen::is_unsaid")]
    pub bone_then: BoneThen,
}

impl CrestDepth {
    /// The same place of the platform, by another reading of the crest: as much deeper as the one after is than the one
    /// before.
    pub(super) fn read_anew(&mut self, before: Self, now: Self) {
        self.highest_mm += now.highest_mm - before.highest_mm;
        self.lowest_mm += now.lowest_mm - before.lowest_mm;
    }
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

    /// The bone that a height was measured in, or last said to hold in.
    #[must_use]
    pub fn bone_then(&self, height: SiteHeight) -> BoneThen {
        let apart = self.apart(height);
        apart.map_or(self.bone_then, |apart| apart.bone_then)
    }

    /// The word that a height was confirmed with.
    #[must_use]
    pub fn word_on(&self, height: SiteHeight) -> Option<&Confirmed> {
        let apart = self.apart(height);
        apart.map_or(self.confirmed.as_ref(), |apart| apart.confirmed.as_ref())
    }

    /// The depth of the platform below the crest by which what is measured is recorded: as it is, or as it was last read
    /// over a guide that leads there still.
    #[must_use]
    pub fn recorded_depth(&self) -> Option<CrestDepth> {
        self.platform_below_crest.or(self.crest_taken_away)
    }

    /// The depths of the platform below the crest for which what is measured has to hold: as it is recorded, and as a guide
    /// that was made leads there, which is another where the plan is not that of the guide.
    #[must_use]
    pub fn depths(&self) -> [Option<CrestDepth>; 2] {
        let led = self.crest_taken_away.or(self.platform_below_crest);
        [self.recorded_depth(), led]
    }

    /// True if a depth is planned that is not the one to which a guide that was made leads.
    #[must_use]
    pub fn is_off_guide(&self) -> bool {
        let [planned, led] = self.depths();
        planned != led
    }

    /// A height was entered, as measured at that placement, or taken away: of the others that says
    /// nothing.
    pub fn enter(&mut self, height: SiteHeight, now: Placement) {
        self.apart.retain(|one| one.height != height);
        let is_entered = self.is_entered(height);
        if height == SiteHeight::SocketRim {
            self.rim_measured_at = self.recorded_depth().filter(|_| is_entered);
        }
        if !is_entered {
            return;
        }
        let with_others = self
            .entered()
            .any(|o| o != height && self.apart(o).is_none());
        if !with_others {
            (self.measured_at, self.confirmed) = (Some(now), None);
            self.bone_then = BoneThen::default();
        } else if self.measured_at != Some(now)
            || self.confirmed.is_some()
            || !self.bone_then.is_unsaid()
        {
            self.apart.push(MeasuredApart {
                height,
                measured_at: now,
                confirmed: None,
                bone_then: BoneThen::default(),
            });
            self.apart.sort_by_key(|one| one.height);
        }
    }

    /// True if the rim of the socket was measured while the platform was at another depth.
    #[must_use]
    pub fn rim_is_old(&self) -> bool {
        let then = self.rim_measured_at;
        then.is_some() && self.depths().iter().any(|now| then != *now)
    }

    /// Takes back words that were given for a site that stood otherwise than now, by nobody or, in a case for a
    /// patient, in practice.
    pub(super) fn lapse(&mut self, now: &Standing<'_>) {
        let lapses =
            |at| move |word: &mut Confirmed| at != Some(now.placement) || !word.counts_at(now);
        if let Some(word) = self.confirmed.take_if(lapses(self.measured_at)) {
            (self.measured_at, self.bone_then) = (Some(word.placement), word.bone_then);
        }
        for one in &mut self.apart {
            if let Some(word) = one.confirmed.take_if(lapses(Some(one.measured_at))) {
                (one.measured_at, one.bone_then) = (word.placement, word.bone_then);
            }
        }
    }

    /// What says no bone was measured in the first of these, if it is as it was before an edit, else in the second.
    /// What was measured apart in the bone of the others is apart no longer.
    pub(super) fn remember(&mut self, old: &Self, [before, now]: [BoneThen; 2]) {
        let is_as_before = self.measured_at == old.measured_at
            && self.confirmed == old.confirmed
            && self.bone_then == old.bone_then;
        let bone = if is_as_before { before } else { now };
        was_in(&mut self.bone_then, &mut self.confirmed, bone);
        for one in &mut self.apart {
            let bone = if old.apart.contains(one) { before } else { now };
            was_in(&mut one.bone_then, &mut one.confirmed, bone);
        }
        let (at, confirmed, bone) = (self.measured_at, &self.confirmed, self.bone_then);
        self.apart.retain(|one| {
            (Some(one.measured_at), &one.confirmed, one.bone_then) != (at, confirmed, bone)
        });
    }

    /// True if a person's word counts for any of them.
    pub(super) fn are_confirmed(&self) -> bool {
        let mut apart = self.apart.iter();
        self.confirmed.is_some() || apart.any(|one| one.confirmed.is_some())
    }
}

fn was_in(bone_then: &mut BoneThen, word: &mut Option<Confirmed>, bone: BoneThen) {
    *bone_then = bone_then.or(bone);
    if let Some(word) = word {
        word.bone_then = word.bone_then.or(bone);
    }
}

impl Site {
    /// A person says that the depth as it is entered over the guide is a reading of the crest; where it is the one by which
    /// the guide leads there is nothing to say. The edit that brings the word has what was measured follow it, in a case for
    /// a patient alone.
    pub fn say_crest_is_read(&mut self, by: &Label, purpose: Purpose) {
        let [planned, led] = self.heights.depths();
        let off = planned.zip(led).filter(|(planned, led)| planned != led);
        if let Some((read, before)) = off {
            let by = by.clone();
            self.heights.crest_read = Some(CrestRead {
                by,
                purpose,
                read,
                before,
            });
        }
    }

    /// The heights measured elsewhere or in other bone are said by a person to hold at the site as it now stands, with
    /// the case's scan and in a case for this purpose. Where nobody knows at which placement they were measured, there is nothing to confirm.
    pub fn confirm_heights(&mut self, scan_date: Option<Date>, by: &Label, purpose: Purpose) {
        let mut lapsed = self.heights.clone();
        lapsed.lapse(&self.standing(scan_date, purpose));
        self.heights = lapsed;
        let (now, state, heights) = (self.placement, &self.state, &mut self.heights);
        let is_old = |at, bone: BoneThen| at != now || bone.is_other(state, scan_date);
        let word = |at, bone: BoneThen| {
            let bone = (bone, bone.is_other(state, scan_date));
            Some(Confirmed::of_height(at, bone, by.clone(), purpose))
        };
        let bone = BoneThen::default();
        let then = heights.bone_then;
        if let Some(at) = heights.measured_at.filter(|at| is_old(*at, then)) {
            (heights.measured_at, heights.confirmed) = (Some(now), word(at, then));
            heights.bone_then = bone;
        }
        for one in &mut heights.apart {
            if is_old(one.measured_at, one.bone_then) {
                one.confirmed = word(one.measured_at, one.bone_then);
                (one.measured_at, one.bone_then) = (now, bone);
            }
        }
    }

    /// True if some of its heights do not belong to the site as it is, and of one it is known where it was measured:
    /// that a person may say to hold still.
    #[must_use]
    pub fn may_confirm_heights(&self, scan_date: Option<Date>, purpose: Purpose) -> bool {
        let mut site = self.clone();
        site.heights.lapse(&self.standing(scan_date, purpose));
        let mut stale = site.heights_elsewhere(scan_date);
        stale.any(|height| site.heights.measured_at(height).is_some())
    }

    /// Takes away the heights that do not belong to the site as it is, so that they are measured anew.
    pub fn forget_stale_heights(&mut self, purpose: Purpose) {
        let mut heights = self.heights.clone();
        heights.lapse(&self.standing(None, purpose));
        self.heights = heights;
        self.heights = self.heights_now();
    }

    /// The heights that belong to the site as it is: without those that were measured before it was
    /// moved or tilted.
    #[must_use]
    pub fn heights_now(&self) -> Heights {
        let mut now = self.heights.clone();
        for height in self.stale_heights(None) {
            now.apart.retain(|one| one.height != height);
            match height {
                SiteHeight::PlatformBelowCrest => now.platform_below_crest = None,
                SiteHeight::SocketRim => {
                    (now.platform_below_socket_rim_mm, now.rim_measured_at) = (None, None);
                }
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

    /// Those that do not belong to the site as it is, and the rim of a socket that was measured while the platform was
    /// at another depth.
    fn stale_heights(&self, scan_date: Option<Date>) -> BTreeSet<SiteHeight> {
        let rim = Some(SiteHeight::SocketRim).filter(|_| self.heights.rim_is_old());
        let entered = rim.filter(|rim| self.heights.is_entered(*rim));
        self.heights_elsewhere(scan_date).chain(entered).collect()
    }

    /// Those that were measured before the site was moved or tilted, or in other bone than on a
    /// scan of that date.
    pub(crate) fn heights_elsewhere(
        &self,
        scan_date: Option<Date>,
    ) -> impl Iterator<Item = SiteHeight> {
        let stale = move |height: &SiteHeight| {
            let bone = self.heights.bone_then(*height);
            self.heights.measured_at(*height) != Some(self.placement)
                || bone.is_other(&self.state, scan_date)
        };
        self.heights.entered().filter(stale)
    }
}
