//! The guide.

use super::{ArchSize, Case, CrestDepth, GuidedExtent, Placement, PlatformToSleeve, Site};
use crate::dentition::ToothPosition;
use crate::kit::{ImplantId, Label, MasterSleeveId, PinId, SiteId};
use crate::measure::Length;
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The surgical guide of a case.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Guide {
    /// Its support in the mouth.
    pub support: Support,
    /// The way through the soft tissue to the bone.
    pub access: Access,
    /// Planned or made; once it is made, distance, axis and sleeve are locked.
    pub state: GuideState,
    /// Date of the scan that the plan is made on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub scan_date: Option<Date>,
    /// Code engraved on the guide.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<Label>,
    /// Fixation pins.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<CasePin>,
    /// Measurements taken on the guide when it came.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub receipt: Vec<Receipt>,
    /// The plan that it was made by, of what it does not show by itself; of one that is set back to planned the plan of
    /// the guide that is there, until somebody says that another is made. Absent: it is to be made, or nobody recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_by: Option<Box<MadeBy>>,
    /// True if the guide that was set back to planned is there and nobody recorded what it was made by, until somebody
    /// says that another is made.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_made_unrecorded: bool,
}

impl Guide {
    /// True if a guide that was made is there though it is planned again.
    #[must_use]
    pub fn is_there_still(&self) -> bool {
        let is_there = self.made_by.is_some() || self.is_made_unrecorded;
        self.state == GuideState::Planned && is_there
    }

    /// Forgets the guide that is there: another is made.
    pub fn another_is_made(&mut self) {
        self.made_by = None;
        self.is_made_unrecorded = false;
    }
}

/// What a guide was made by, also once it is set back to planned and its sites are planned otherwise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MadeBy {
    /// The size of the arch that its sites stood on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub arch: Option<ArchSize>,
    /// Its support.
    pub support: Support,
    /// The way through the soft tissue.
    pub access: Access,
    /// Its fixation pins.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<CasePin>,
    /// The teeth that it was made to rest on; of one that rests on teeth none are there where nobody recorded them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 32))]
    pub teeth: Vec<ToothPosition>,
    /// Its sites.
    pub sites: Vec<SiteMadeBy>,
}

impl MadeBy {
    /// True if it rests on teeth, and nobody recorded on which.
    #[must_use]
    pub const fn rests_on_unrecorded_teeth(&self) -> bool {
        let on_teeth = matches!(self.support, Support::Teeth | Support::TeethAndMucosa);
        on_teeth && self.teeth.is_empty()
    }

    /// A site as it was made for it; nothing where it was made for none such.
    #[must_use]
    pub fn site(&self, id: &SiteId) -> Option<&SiteMadeBy> {
        self.sites.iter().find(|one| one.site == *id)
    }
}

/// The parts of a site that a guide holds as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeldByGuide {
    /// The sleeve offset.
    pub distance: bool,
    /// Place, axis and master sleeve.
    pub axis: bool,
}

/// A site as a guide was made for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SiteMadeBy {
    /// The site.
    pub site: SiteId,
    /// Its tooth.
    pub tooth: ToothPosition,
    /// Where its axis was.
    pub placement: Placement,
    /// Depth of its platform below the crest; absent: unknown then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// Its implant.
    pub implant: ImplantId,
    /// Length of that.
    #[schemars(range(min = 1, max = 60))]
    pub platform_to_apex_mm: Length,
    /// Depth beyond its apex to which drills were to go.
    #[schemars(range(min = 0, max = 5))]
    pub apical_allowance_mm: Length,
    /// How far the guide was to lead.
    pub guided_extent: GuidedExtent,
    /// Its sleeve as it was planned; absent: not recorded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve: Option<SleeveMadeBy>,
}

/// The sleeve of a site as a guide was made with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SleeveMadeBy {
    /// The master sleeve.
    pub master_sleeve: MasterSleeveId,
    /// Its height.
    #[schemars(range(min = 0, max = 60))]
    pub height_mm: Length,
    /// Its bore.
    #[schemars(range(min = 0, max = 60))]
    pub bore_mm: Length,
    /// The offset; absent: it was not entered then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offset: Option<PlatformToSleeve>,
}

impl Case {
    /// What a guide that is made now is made by.
    #[must_use]
    pub fn made_by_now(&self) -> MadeBy {
        MadeBy {
            arch: self.arch,
            support: self.guide.support,
            access: self.guide.access,
            pins: self.guide.pins.clone(),
            teeth: self.teeth_under_guide(),
            sites: self.sites.iter().filter_map(|s| self.site_now(s)).collect(),
        }
    }

    /// The parts of a site that the guide holds as they are: nothing of one that it was not made for, and an offset that was
    /// entered since only once it was measured.
    #[must_use]
    pub fn held_by_guide(&self, site: &Site) -> HeldByGuide {
        let is_for = |made: &MadeBy| made.sites.iter().any(|one| one.site == site.id);
        let holds = self.guide.state == GuideState::Made
            && self.guide.made_by.as_deref().is_none_or(is_for);
        let made = self.guide.made_by.iter().flat_map(|made| &made.sites);
        let had_none = |made: &SleeveMadeBy| made.offset.is_none();
        let had_none = |one: &&SiteMadeBy| one.sleeve.as_ref().is_some_and(had_none);
        let mut entered_since = made.filter(|one| one.site == site.id).filter(had_none);
        let measured = |one: &Receipt| one.site == site.id && one.of == ReceiptOf::PlatformToSleeve;
        let is_free = entered_since.next().is_some() && !self.guide.receipt.iter().any(measured);
        HeldByGuide {
            distance: holds && site.platform_to_sleeve.is_some() && !is_free,
            axis: holds,
        }
    }

    /// The sleeve of a site as it is planned; nothing where the kit has no such one.
    pub(crate) fn sleeve_now(&self, site: &Site) -> Option<SleeveMadeBy> {
        let sleeve = self.kit.master_sleeve(&site.master_sleeve)?;
        Some(SleeveMadeBy {
            master_sleeve: sleeve.id.clone(),
            height_mm: sleeve.height_mm,
            bore_mm: sleeve.bore_mm,
            offset: site.platform_to_sleeve,
        })
    }

    /// A site as a guide that is made now is made for it; nothing where the kit has no such implant.
    pub(crate) fn site_now(&self, site: &Site) -> Option<SiteMadeBy> {
        let implant = self.kit.implant(&site.implant)?;
        Some(SiteMadeBy {
            site: site.id.clone(),
            tooth: site.tooth,
            placement: site.placement,
            platform_below_crest: site.heights.platform_below_crest,
            implant: implant.id.clone(),
            platform_to_apex_mm: implant.platform_to_apex_mm,
            apical_allowance_mm: implant.apical_allowance_mm,
            guided_extent: site.guided_extent,
            sleeve: self.sleeve_now(site),
        })
    }

    /// The last measurement of this at a site, where it was taken on the guide as it is planned now.
    #[must_use]
    pub fn received(&self, site: &Site, of: ReceiptOf) -> Option<Length> {
        let mut latest = self.guide.receipt.iter().rev();
        let receipt = latest.find(|receipt| receipt.site == site.id && receipt.of == of)?;
        let (then, now) = (receipt.taken_on.as_ref()?, self.guide_at(site)?);
        then.is(&now).then_some(receipt.measured_mm)
    }

    /// What was just measured on the guide at a site.
    #[must_use]
    pub fn receipt(&self, site: &Site, of: ReceiptOf, measured_mm: Length) -> Receipt {
        Receipt {
            site: site.id.clone(),
            of,
            measured_mm,
            taken_on: self.guide_at(site),
        }
    }

    /// The guide at a site as it is planned now; nothing where the kit has no such sleeve.
    pub(crate) fn guide_at(&self, site: &Site) -> Option<GuideThen> {
        let master = self.kit.master_sleeve(&site.master_sleeve)?;
        Some(GuideThen {
            code: self.guide.code.clone(),
            placement: site.placement,
            platform_to_sleeve: site.platform_to_sleeve,
            platform_below_crest: site.heights.depths()[1],
            master_sleeve: master.id.clone(),
            master_height_mm: master.height_mm,
            master_bore_mm: master.bore_mm,
        })
    }
}

/// The support of a guide in the mouth.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum Support {
    Teeth,
    TeethAndMucosa,
    Mucosa,
    Bone,
}

/// The way through the soft tissue to the bone.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Access {
    /// A full-thickness flap.
    Flap,
    /// A tissue punch through the guide.
    Punch,
}

/// The state of the guide, before or after it is made.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum GuideState {
    /// Still to be made: the plan may change it.
    Planned,
    /// Made: it does not change any more.
    Made,
}

/// A fixation pin in its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CasePin {
    /// Name in this case.
    pub name: Label,
    /// The pin.
    pub pin: PinId,
    /// The tooth position that it stands at.
    pub at: ToothPosition,
    /// From that position's middle along the arch towards distal.
    #[serde(default)]
    #[schemars(range(min = -20, max = 20))]
    pub along_mm: Length,
    /// From the arch's curve towards buccal.
    #[serde(default)]
    #[schemars(range(min = -30, max = 30))]
    pub buccal_mm: Length,
}

/// Something measured on the guide when it came, to be compared with what was planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Receipt {
    /// The site.
    pub site: SiteId,
    /// The measure.
    pub of: ReceiptOf,
    /// The measured value.
    #[schemars(range(min = 0, max = 100))]
    pub measured_mm: Length,
    /// The guide that it was measured on. Absent: nobody recorded which, and the value does not count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken_on: Option<GuideThen>,
}

/// A guide at one site, by what was planned of it when something was measured on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GuideThen {
    /// Code engraved on the guide.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<Label>,
    /// Placement of the site.
    pub placement: Placement,
    /// From its platform to its sleeve, as entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_to_sleeve: Option<PlatformToSleeve>,
    /// Depth of its platform below the crest, by the last reading of that; absent: as it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// Its master sleeve.
    pub master_sleeve: MasterSleeveId,
    /// Height of that sleeve by the kit.
    #[schemars(range(min = 0, max = 100))]
    pub master_height_mm: Length,
    /// Bore of that sleeve by the kit.
    #[schemars(range(min = 0, max = 100))]
    pub master_bore_mm: Length,
}

impl GuideThen {
    /// True if this is that guide: the depth of a platform counts where it was recorded.
    #[must_use]
    pub fn is(&self, now: &Self) -> bool {
        let depth = self.platform_below_crest.or(now.platform_below_crest);
        let then = Self {
            platform_below_crest: depth,
            ..self.clone()
        };
        then == *now
    }
}

/// A measure that can be taken on a guide when it comes.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ReceiptOf {
    /// Height of the master sleeve.
    MasterSleeveHeight,
    /// Bore of the master sleeve.
    MasterSleeveBore,
    /// From the platform of the printed or milled analogue to the sleeve's apical face.
    PlatformToSleeve,
}
