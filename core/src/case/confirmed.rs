//! A person's word that a measured value still holds, and when that word lapses.

use super::measured::{Distance, DistanceTo, MeasuredAt};
use super::{BoneThen, Case, CrestDepth, Placement, Site, SiteState, is_name};
use crate::kit::Label;
use crate::measure::Length;
use crate::sign::Purpose;
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A person's word that a value holds at the site as it stands, and where it was measured indeed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Confirmed {
    /// Name or initials of the person.
    pub by: Label,
    /// What the case was for when the word was given. Absent, as in older files: nobody knows, so that it does not
    /// count for a patient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub purpose: Option<Purpose>,
    /// The site's placement when the value was measured.
    pub placement: Placement,
    /// Depth of its platform below the crest then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// Length of its implant then; absent for heights, which do not depend on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 60))]
    pub platform_to_apex_mm: Option<Length>,
    /// The bone that it was measured in; absent: as it is.
    #[serde(default, skip_serializing_if = "BoneThen::is_unsaid")]
    pub bone_then: BoneThen,
    /// True if it was given of a value that was told to be of other bone. Absent: of that nobody was asked, so that
    /// it does not count once the bone is another.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub of_bone: bool,
}

/// A site as a word on it is held against: where it stands, its bone, the scan, and what the case is for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Standing<'a> {
    pub(super) placement: Placement,
    pub(super) state: &'a SiteState,
    pub(super) scan_date: Option<Date>,
    pub(super) purpose: Purpose,
}

impl Confirmed {
    /// The word on a height that was measured at that placement, of the bone too where that is another.
    pub(super) fn of_height(
        placement: Placement,
        (bone_then, of_bone): (BoneThen, bool),
        by: Label,
        purpose: Purpose,
    ) -> Self {
        Self {
            by,
            purpose: Some(purpose),
            placement,
            platform_below_crest: None,
            platform_to_apex_mm: None,
            of_bone,
            bone_then,
        }
    }

    /// True if it is somebody's word.
    pub(super) fn is_named(&self) -> bool {
        is_name(self.by.as_str())
    }

    /// True if a word is somebody's, not given in practice for a patient, of a place that can be compared with
    /// the one now, and of the bone too where that is another: of coordinates that were exchanged for a place on the
    /// arch, or of another tooth's place, nobody can say what holds still.
    pub(super) fn counts_at(&self, now: &Standing<'_>) -> bool {
        let is_for_it = now.purpose == Purpose::Practice || self.purpose == Some(Purpose::Patient);
        let is_of_bone = self.of_bone || !self.bone_then.is_other(now.state, now.scan_date);
        self.is_named() && is_for_it && is_of_bone && self.moved(&now.placement).is_some()
    }

    /// How far the platform went aside since the value was measured, rounded up; nothing where the two
    /// placements cannot be compared.
    #[must_use]
    pub fn moved(&self, now: &Placement) -> Option<Length> {
        match (self.placement, *now) {
            (
                Placement::OnArch {
                    at: from,
                    along_mm: a,
                    buccal_mm: out,
                    ..
                },
                Placement::OnArch {
                    at,
                    along_mm: b,
                    buccal_mm,
                    ..
                },
            ) if from == at => {
                let (along, aside) = ((b - a).mm(), (buccal_mm - out).mm());
                Some(Length::ceil_mm(libm::hypot(along, aside) - 1e-9))
            }
            (Placement::Measured { platform: a, .. }, Placement::Measured { platform: b, .. }) => {
                let [x, y, z] = [b.x_mm - a.x_mm, b.y_mm - a.y_mm, b.z_mm - a.z_mm].map(Length::mm);
                let by = libm::hypot(libm::hypot(x, y), z);
                Some(Length::ceil_mm(by - 1e-9))
            }
            _ => None,
        }
    }
}

impl MeasuredAt {
    /// The same value, said by a person to hold at the site as it now stands, in a case for this purpose. Where it
    /// was measured stays what it was however often it is confirmed. Of the bone where that it was measured in is said;
    /// the edit that enters the word leaves it so only where it is another.
    #[must_use]
    pub fn confirmed(&self, now: &Self, by: Label, purpose: Purpose) -> Self {
        let then = self.clone().where_measured();
        Self {
            down_to_mm: self.down_to_mm,
            confirmed: Some(Confirmed {
                by,
                purpose: Some(purpose),
                placement: then.placement,
                platform_below_crest: then.platform_below_crest,
                platform_to_apex_mm: Some(then.platform_to_apex_mm),
                of_bone: !then.bone_then.is_unsaid(),
                bone_then: then.bone_then,
            }),
            ..now.clone()
        }
    }

    /// The state of the site when it was measured indeed.
    fn where_measured(self) -> Self {
        match self.confirmed {
            None => self,
            Some(word) => Self {
                placement: word.placement,
                platform_below_crest: word.platform_below_crest,
                platform_to_apex_mm: word.platform_to_apex_mm.unwrap_or(self.platform_to_apex_mm),
                down_to_mm: self.down_to_mm,
                confirmed: None,
                bone_then: word.bone_then,
            },
        }
    }

    /// Takes back a word that was given for a site that stood otherwise than now, by nobody or, in a case for a
    /// patient, in practice.
    fn lapse(&mut self, now: &Self, at: &Standing<'_>) {
        let stands = self.placement == now.placement
            && self.platform_below_crest == now.platform_below_crest
            && self.platform_to_apex_mm == now.platform_to_apex_mm;
        if self
            .confirmed
            .as_ref()
            .is_some_and(|word| !(stands && word.counts_at(at)))
        {
            *self = self.clone().where_measured();
        }
    }
}

impl Distance {
    /// The word that it was confirmed with, at its own site or the other.
    pub(crate) fn confirmed(&self) -> Option<&Confirmed> {
        let theirs = self.other_measured_at.as_ref();
        let own = self.measured_at.confirmed.as_ref();
        own.or_else(|| theirs.and_then(|theirs| theirs.confirmed.as_ref()))
    }
}

impl Site {
    /// It as a word on it is held against.
    pub(super) const fn standing(&self, scan_date: Option<Date>, purpose: Purpose) -> Standing<'_> {
        Standing {
            placement: self.placement,
            state: &self.state,
            scan_date,
            purpose,
        }
    }
}

/// A site without the words that lapsed with a move, or that nobody gave: its values are as old as they were measured.
pub(crate) fn site_as_confirmed<'a>(case: &Case, site: &'a Site) -> Cow<'a, Site> {
    let distances = site.distances.iter();
    let theirs = distances.filter_map(|distance| distance.other_measured_at.as_ref());
    let mut all = theirs.chain(measured(site));
    if !site.heights.are_confirmed() && all.all(|one| one.confirmed.is_none()) {
        return Cow::Borrowed(site);
    }
    let now = |site: &Site| {
        let implant = case.kit.implant(&site.implant)?;
        Some(site.measured_now(implant.platform_to_apex_mm))
    };
    let mut standing = site.clone();
    let (scan_date, purpose) = (case.guide.scan_date, case.purpose());
    let at = site.standing(scan_date, purpose);
    standing.heights.lapse(&at);
    if let Some(now) = now(site) {
        measured_mut(&mut standing).for_each(|one| one.lapse(&now, &at));
    }
    for distance in &mut standing.distances {
        let DistanceTo::Site { site } = &distance.to else {
            continue;
        };
        let other = case.sites.iter().find(|one| one.id == *site);
        let Some(other) = other else { continue };
        if let Some((then, now)) = distance.other_measured_at.as_mut().zip(now(other)) {
            then.lapse(&now, &other.standing(scan_date, purpose));
        }
    }
    Cow::Owned(standing)
}

/// A case without them.
pub(crate) fn as_confirmed(case: &Case) -> Cow<'_, Case> {
    let sites: Vec<_> = case
        .sites
        .iter()
        .map(|s| site_as_confirmed(case, s))
        .collect();
    if sites.iter().all(|site| matches!(site, Cow::Borrowed(_))) {
        return Cow::Borrowed(case);
    }
    let sites = sites.into_iter().map(Cow::into_owned).collect();
    Cow::Owned(Case {
        sites,
        ..case.clone()
    })
}

pub(super) fn measured(site: &Site) -> impl Iterator<Item = &MeasuredAt> {
    let socket = site.state.socket();
    let gap = socket.and_then(|socket| Some(&socket.gap_measured_at.as_ref()?.site));
    let walls = site.walls.iter().map(|one| &one.measured_at);
    let distances = site.distances.iter().map(|one| &one.measured_at);
    let structures = site.structures.iter().map(|one| &one.measured_at);
    let obstacles = site.obstacles.iter().map(|one| &one.measured_at);
    let all = walls.chain(distances).chain(structures).chain(obstacles);
    all.chain(gap)
}

pub(super) fn measured_mut(site: &mut Site) -> impl Iterator<Item = &mut MeasuredAt> {
    let socket = site.state.socket_mut();
    let gap = socket.and_then(|socket| Some(&mut socket.gap_measured_at.as_mut()?.site));
    let walls = site.walls.iter_mut().map(|one| &mut one.measured_at);
    let distances = site.distances.iter_mut().map(|one| &mut one.measured_at);
    let structures = site.structures.iter_mut().map(|one| &mut one.measured_at);
    let obstacles = site.obstacles.iter_mut().map(|one| &mut one.measured_at);
    let all = walls.chain(distances).chain(structures).chain(obstacles);
    all.chain(gap)
}
