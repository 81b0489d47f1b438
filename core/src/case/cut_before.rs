//! What is in the bone of a site already, by a plan that was changed since.

use super::heights::CrestDepth;
use super::site::{Placement, Site};
use super::{Case, GuideState};
use crate::kit::{DrillKind, Label, StepId};
use crate::measure::Length;
use crate::sign::{EventId, Purpose};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What was cut at a site, or went in there, before its plan was changed. It is where it is, whatever is planned since: nothing of
/// it is worked out again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CutBefore {
    /// The drill, or the implant, as the kit named it.
    #[schemars(length(min = 1, max = 200))]
    pub name: Label,
    /// What recorded it; absent: nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub event: Option<EventId>,
    /// When that was: in a record begun anew another event has its place. Absent: nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date-time"))]
    pub at: Option<jiff::Timestamp>,
    /// True if a person said that it is not in the bone, or not any more: it counts in nothing.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub out: bool,
    /// The step, as the plan had it; absent: an implant.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<StepId>,
    /// The kind of the drill; absent: an implant.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<DrillKind>,
    /// Its deepest point below the platform, as it was worked out; absent: nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -60, max = 80))]
    pub tip_mm: Option<Length>,
    /// Length of the drill's cone.
    #[schemars(range(min = 0, max = 20))]
    pub point_mm: Length,
    /// From its tip to the face that its depth is planned for.
    #[schemars(range(min = 0, max = 20))]
    pub tip_to_datum_mm: Length,
    /// Its widest diameter.
    #[schemars(range(min = 0.3, max = 20))]
    pub diameter_mm: Length,
    /// The platform that it is counted from.
    pub from: PlatformThen,
    /// For a patient or for practice: what was practised is in nobody's bone.
    pub purpose: Purpose,
}

/// Where the platform was planned as something was cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlatformThen {
    /// Place and axis.
    pub placement: Placement,
    /// From the platform to the master sleeve's apical face; absent where the guide led nothing, or it was not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -60, max = 60))]
    pub to_sleeve_mm: Option<Length>,
    /// Below the crest; absent: it was not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub below_crest: Option<CrestDepth>,
    /// Code of the guide that led it, which was made; absent where none led it, or none was engraved.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 200))]
    pub guide: Option<Label>,
}

impl PlatformThen {
    /// Where the platform of a site is, for what the guide leads or not.
    #[must_use]
    pub fn of(site: &Site, case: &Case, led: bool) -> Self {
        let master = case.kit.master_sleeve(&site.master_sleeve);
        let entered = site.platform_to_sleeve.zip(master).filter(|_| led);
        let made = led && case.guide.state == GuideState::Made;
        Self {
            placement: site.placement,
            to_sleeve_mm: entered.map(|(entered, master)| entered.to_apical_face(master.height_mm)),
            below_crest: site.heights.platform_below_crest,
            guide: case.guide.code.clone().filter(|_| made),
        }
    }

    /// True if the platform is there still. In the guide that led it it is where its sleeve is, whatever is read of the crest; else
    /// another depth below the crest may be another place, or another reading.
    fn is_of(&self, site: &Site, case: &Case) -> bool {
        let now = Self::of(site, case, self.to_sleeve_mm.is_some());
        let is_held = self.guide.is_some() && site.without_guide.is_none();
        let by_crest = self.below_crest.is_some() && self.below_crest == now.below_crest;
        let is_there = (self.placement, self.to_sleeve_mm, &self.guide)
            == (now.placement, now.to_sleeve_mm, &now.guide);
        is_there && (is_held || by_crest)
    }
}

impl CutBefore {
    /// True if it was recorded by this event of that time.
    #[must_use]
    pub fn is_by(&self, event: &EventId, at: jiff::Timestamp) -> bool {
        self.event.as_ref() == Some(event) && self.at == Some(at)
    }

    /// True if both are one thing, whatever a person said of either; of what nobody recorded only what is alike.
    fn is_same(&self, other: &Self) -> bool {
        let is_one = self.event.is_some() && (&self.event, self.at) == (&other.event, other.at);
        is_one || self == other
    }

    /// Its deepest point below the platform as it is planned now; nothing where nobody knows.
    #[must_use]
    pub fn tip(&self, site: &Site, case: &Case) -> Option<Length> {
        self.tip_mm.filter(|_| self.from.is_of(site, case))
    }
}

impl Case {
    /// Keeps at each site what either of two sides has as cut there, of one event once, and as the side has it that a person changed;
    /// but what one of them has no more of what both had.
    pub(super) fn keep_cuts_of(&mut self, base: &Self, sides: [&Self; 2]) {
        for site in &mut self.sites {
            let at = |case: &Self| {
                let there = case.site(site.id.as_str());
                there.map_or_else(Vec::new, |site| site.cut_before.clone())
            };
            let (before, [here, there]) = (at(base), sides.map(at));
            let all = here.iter().chain(&there);
            let stays = |one: &&CutBefore| {
                let has = |side: &[CutBefore]| {
                    let mut side = side.iter();
                    side.any(|other| other.is_same(one))
                };
                has(&here) && has(&there) || !before.contains(*one)
            };
            let mut kept: Vec<CutBefore> = Vec::new();
            for one in all.filter(stays) {
                match kept.iter_mut().find(|other| other.is_same(one)) {
                    Some(other) if before.contains(other) => *other = one.clone(),
                    Some(_) => {}
                    None => kept.push(one.clone()),
                }
            }
            site.cut_before = kept;
        }
    }
}
