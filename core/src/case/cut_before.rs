//! What is in the bone of a site already, by a plan that was changed since.

use super::Case;
use super::heights::CrestDepth;
use super::site::{Placement, Site};
use crate::kit::{DrillKind, Kit, Label, StepId};
use crate::measure::Length;
use crate::sign::Purpose;
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlatformThen {
    /// Place and axis.
    pub placement: Placement,
    /// From the platform to the master sleeve's apical face; absent where the guide led nothing, or it was not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -60, max = 60))]
    pub to_sleeve_mm: Option<Length>,
    /// Below the crest; absent where the guide led it, or it was not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub below_crest: Option<CrestDepth>,
}

impl PlatformThen {
    /// Where the platform of a site is: from its sleeve for what the guide led, else from the crest. Nothing of a sleeve that
    /// the kit has not.
    #[must_use]
    pub fn of(site: &Site, kit: &Kit, led: bool) -> Self {
        let master = kit.master_sleeve(&site.master_sleeve).filter(|_| led);
        let entered = site.platform_to_sleeve.zip(master);
        let to_sleeve = entered.map(|(entered, master)| entered.to_apical_face(master.height_mm));
        let crest = site.heights.platform_below_crest;
        Self {
            placement: site.placement,
            to_sleeve_mm: to_sleeve,
            below_crest: crest.filter(|_| !led),
        }
    }

    /// True if the platform is there still.
    fn is_of(&self, site: &Site, kit: &Kit) -> bool {
        let led = self.to_sleeve_mm.is_some();
        (led || self.below_crest.is_some()) && *self == Self::of(site, kit, led)
    }
}

impl CutBefore {
    /// Its deepest point below the platform as it is planned now; nothing where nobody knows.
    #[must_use]
    pub fn tip(&self, site: &Site, kit: &Kit) -> Option<Length> {
        self.tip_mm.filter(|_| self.from.is_of(site, kit))
    }
}

impl Case {
    /// Keeps at each site what either of two sides has as cut there, but what one of them took out that both had.
    pub(super) fn keep_cuts_of(&mut self, base: &Self, sides: [&Self; 2]) {
        for site in &mut self.sites {
            let at = |case: &Self| {
                let there = case.site(site.id.as_str());
                there.map_or_else(Vec::new, |site| site.cut_before.clone())
            };
            let (before, [here, there]) = (at(base), sides.map(at));
            let all = here.iter().chain(&there);
            let stays = |one: &&CutBefore| {
                let on_both = here.contains(*one) && there.contains(*one);
                on_both || !before.contains(*one)
            };
            let mut kept: Vec<CutBefore> = Vec::new();
            for one in all.filter(stays) {
                if !kept.contains(one) {
                    kept.push(one.clone());
                }
            }
            site.cut_before = kept;
        }
    }
}
