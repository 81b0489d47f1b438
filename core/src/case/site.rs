//! A planned implant.

use super::bone_then::BoneThen;
use super::confirmed::Confirmed;
use super::cut_before::CutBefore;
use super::heights::Heights;
use super::measured::{Distance, MeasuredAt, Obstacle, Structure, Wall};
use crate::dentition::ToothPosition;
use crate::kit::{
    CarrierId, Density, DepthRule, DrillId, DrillKind, DrillSleeveId, ImplantId, Label,
    MasterSleeveId, ProtocolId, SiteId, StepId, StopId,
};
use crate::measure::{Angle, Length};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A planned implant with everything that was entered for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Identity of the site; it stays when the tooth number is corrected.
    pub id: SiteId,
    /// The tooth that it replaces.
    pub tooth: ToothPosition,
    /// Position and axis of the implant.
    pub placement: Placement,
    /// State of the bone.
    pub state: SiteState,
    /// The implant.
    pub implant: ImplantId,
    /// The master sleeve in the guide.
    pub master_sleeve: MasterSleeveId,
    /// The extent to which the guide leads.
    pub guided_extent: GuidedExtent,
    /// The guide was left at this site during surgery: what is not named here is done without it; absent: it leads as far as
    /// the extent says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub without_guide: Option<WithoutGuide>,
    /// What is in the bone here already, by a plan that was changed since.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 1000))]
    pub cut_before: Vec<CutBefore>,
    /// From the platform to the master sleeve, with the face that it was given to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_to_sleeve: Option<PlatformToSleeve>,
    /// Bone density; absent: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub density: Option<Density>,
    /// Heights.
    #[serde(default)]
    pub heights: Heights,
    /// Bone from the axis to the buccal and oral wall.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub walls: Vec<Wall>,
    /// Measured distances to neighbours.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub distances: Vec<Distance>,
    /// Deep structures near the site.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub structures: Vec<Structure>,
    /// Obstacles in the way of stop and head.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub obstacles: Vec<Obstacle>,
    /// The way in which the implant goes in.
    #[serde(default)]
    pub insertion: Insertion,
    /// One setting for the whole sequence or one for each step.
    pub setting: Setting,
    /// The maker's protocol that the sequence was taken from; absent: proposed or made by hand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protocol: Option<ProtocolId>,
    /// The sequence.
    #[serde(default)]
    #[schemars(length(max = 40))]
    pub steps: Vec<Step>,
    /// Anything worth saying; no figure depends on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A point in the patient frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PointMm {
    /// To the patient's left.
    #[schemars(range(min = -200, max = 200))]
    pub x_mm: Length,
    /// Posterior.
    #[schemars(range(min = -200, max = 200))]
    pub y_mm: Length,
    /// Superior.
    #[schemars(range(min = -200, max = 200))]
    pub z_mm: Length,
}

/// A direction; only the proportion of its three parts counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Vector {
    /// To the patient's left.
    #[schemars(range(min = -1000, max = 1000))]
    pub x: Length,
    /// Posterior.
    #[schemars(range(min = -1000, max = 1000))]
    pub y: Length,
    /// Superior.
    #[schemars(range(min = -1000, max = 1000))]
    pub z: Length,
}

/// Position and axis of an implant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "by", rename_all = "snake_case", deny_unknown_fields)]
pub enum Placement {
    /// On the arch model. The axis is apical + tan(mesiodistal)·distal + tan(buccolingual)·buccal.
    OnArch {
        /// The tooth position that it is counted from.
        at: ToothPosition,
        /// From that position's middle along the arch towards distal.
        #[schemars(range(min = -20, max = 20))]
        along_mm: Length,
        /// From the arch's curve towards buccal.
        #[schemars(range(min = -20, max = 20))]
        buccal_mm: Length,
        /// Tilt of the apex towards distal; negative: towards mesial.
        #[schemars(range(min = -60, max = 60))]
        apex_to_distal_deg: Angle,
        /// Tilt of the apex towards buccal; negative: towards oral.
        #[schemars(range(min = -60, max = 60))]
        apex_to_buccal_deg: Angle,
    },
    /// Measured in the patient frame.
    Measured {
        /// The platform's middle.
        platform: PointMm,
        /// From platform to apex.
        direction: Vector,
    },
}

impl Placement {
    /// The angle between its axis and the vertical, in radians; nothing for a direction of no length.
    #[must_use]
    pub fn tilt(&self) -> Option<f64> {
        match *self {
            Self::OnArch {
                apex_to_distal_deg,
                apex_to_buccal_deg,
                ..
            } => Some(crate::measure::trig::tilt_radians(
                apex_to_distal_deg,
                apex_to_buccal_deg,
            )),
            Self::Measured { direction, .. } => {
                let [x, y, z] = [direction.x.mm(), direction.y.mm(), direction.z.mm()];
                (x != 0.0 || y != 0.0 || z != 0.0)
                    .then(|| libm::atan2(libm::hypot(x, y), libm::fabs(z)))
            }
        }
    }
}

/// State of the bone at a site.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "bone", rename_all = "snake_case", deny_unknown_fields)]
pub enum SiteState {
    /// Healed.
    Healed {},
    /// A fresh socket: no crest to sound against, a slope that a drill may slip on.
    FreshSocket(Socket),
    /// Grafted.
    Grafted {
        /// Date of the graft.
        #[schemars(with = "String", extend("format" = "date"))]
        on: Date,
    },
    /// An implant stands there that is to be removed right before: its bed is as a tooth's socket.
    ImplantToRemove(Socket),
}

impl SiteState {
    /// A socket of which nothing was measured yet.
    pub const FRESH_SOCKET: Self = Self::FreshSocket(Socket::UNMEASURED);

    /// The bed of an implant of which nothing was measured yet.
    pub const IMPLANT_TO_REMOVE: Self = Self::ImplantToRemove(Socket::UNMEASURED);

    /// What was measured of a socket, or of the bed of an implant that comes out; nothing for other bone. Within
    /// either there is no crest.
    #[must_use]
    pub const fn socket(&self) -> Option<&Socket> {
        match self {
            Self::FreshSocket(socket) | Self::ImplantToRemove(socket) => Some(socket),
            Self::Healed {} | Self::Grafted { .. } => None,
        }
    }

    /// The same, to be changed.
    pub const fn socket_mut(&mut self) -> Option<&mut Socket> {
        match self {
            Self::FreshSocket(socket) | Self::ImplantToRemove(socket) => Some(socket),
            Self::Healed {} | Self::Grafted { .. } => None,
        }
    }

    /// The word that the gap of a socket was confirmed with.
    pub(crate) fn gap_confirmed(&self) -> Option<&Confirmed> {
        let then = self.socket()?.gap_measured_at.as_ref()?;
        then.site.confirmed.as_ref()
    }
}

/// What was measured of a socket, a tooth's or that of an implant which comes out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Socket {
    /// Gap between the implant and the buccal wall of the socket, at the crest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 20))]
    pub gap_mm: Option<Length>,
    /// The site and its implant as they were when the gap was measured; absent: nobody knows, so
    /// the gap does not count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gap_measured_at: Option<GapMeasuredAt>,
    /// Slope of the socket wall that the first drill meets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 90))]
    pub slope_deg: Option<Angle>,
}

impl Socket {
    /// Nothing yet.
    pub const UNMEASURED: Self = Self {
        gap_mm: None,
        gap_measured_at: None,
        slope_deg: None,
    };
}

/// A site and its implant when the gap of its socket was measured.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapMeasuredAt {
    /// The site.
    pub site: MeasuredAt,
    /// Largest diameter of the implant that the gap was measured to.
    #[schemars(range(min = 0.5, max = 20))]
    pub implant_diameter_mm: Length,
}

/// The extent to which the guide leads at a site.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum GuidedExtent {
    /// The pilot drill alone; the rest is drilled freehand.
    PilotOnly,
    /// All drilling; the implant goes in freehand.
    AllDrilling,
    /// All drilling and the implant.
    DrillingAndImplant,
}

/// What went through the guide at a site before it was left there.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WithoutGuide {
    /// The steps that were over by then, as far as the guide led them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 40))]
    pub through: Vec<StepThrough>,
    /// True if the guide led the implant, too.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub implant: bool,
    /// What the guide led it all by; without it, or where the plan has another, nothing of the plan went through it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub led_by: Option<LedBy>,
    /// True if what was cut until then stands at the site.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub cuts_kept: bool,
}

/// What the depths to which a guide leads at a site follow from, besides the drills.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LedBy {
    /// The implant.
    pub implant: ImplantId,
    /// The master sleeve.
    pub master_sleeve: MasterSleeveId,
    /// From the platform to it, as entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_to_sleeve: Option<PlatformToSleeve>,
    /// To what extent; programs before rules 10 did not say, and nobody knows whether it is the one that the plan has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guided_extent: Option<GuidedExtent>,
    /// To what place and axis; the same of those programs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub placement: Option<Placement>,
}

impl LedBy {
    /// What the guide leads a site by as it is planned.
    #[must_use]
    pub fn of(site: &Site) -> Self {
        Self {
            implant: site.implant.clone(),
            master_sleeve: site.master_sleeve.clone(),
            platform_to_sleeve: site.platform_to_sleeve,
            guided_extent: Some(site.guided_extent),
            placement: Some(site.placement),
        }
    }
}

impl WithoutGuide {
    /// The guide left at a site with these steps, and the implant or not, behind it.
    #[must_use]
    pub fn of(site: &Site, through: Vec<StepThrough>, implant: bool) -> Self {
        Self {
            through,
            implant,
            led_by: Some(LedBy::of(site)),
            cuts_kept: true,
        }
    }

    /// True if nobody knows what went through it: the site keeps what was cut ([`Site::cut_before`]) only since rules 11.
    #[must_use]
    pub const fn is_cut_unknown(&self) -> bool {
        !self.cuts_kept && (!self.through.is_empty() || self.implant)
    }

    /// True if what went through it led the site to where it is planned.
    fn is_of(&self, site: &Site) -> bool {
        self.led_by.as_ref() == Some(&LedBy::of(site))
    }
}

/// A step that went through the guide. One of another sequence may have its identity, even its drill: it is the same only
/// with all that the guide led it by.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepThrough {
    /// The step.
    pub step: StepId,
    /// Its drill.
    pub drill: DrillId,
    /// Its drill sleeve, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve: Option<DrillSleeveId>,
    /// Its depth stop, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<StopId>,
    /// The depth to which it was to go; without it nobody can say which step it was, and it is none of the plan.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<DepthRule>,
}

impl StepThrough {
    /// That a step went through the guide.
    #[must_use]
    pub fn of(step: &Step) -> Self {
        Self {
            step: step.id.clone(),
            drill: step.drill.clone(),
            sleeve: step.sleeve.clone(),
            stop: step.stop.clone(),
            depth: Some(step.depth),
        }
    }
}

/// From the platform to the master sleeve along the axis, as entered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlatformToSleeve {
    /// The figure as it was given.
    #[schemars(range(min = 0, max = 60))]
    pub entered_mm: Length,
    /// The face that it was given to.
    pub to: SleeveFace,
}

impl PlatformToSleeve {
    /// From the platform to the apical face of a master sleeve of this height.
    #[must_use]
    pub fn to_apical_face(self, height: Length) -> Length {
        match self.to {
            SleeveFace::Apical => self.entered_mm,
            SleeveFace::Coronal => self.entered_mm - height,
        }
    }
}

/// A face of the master sleeve.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SleeveFace {
    /// The apical face, towards the bone.
    Apical,
    /// The coronal rim.
    Coronal,
}

/// The way in which the implant goes in.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Insertion {
    /// The carrier.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carrier: Option<CarrierId>,
    /// The drill sleeve that it passes; absent: the master sleeve itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve: Option<DrillSleeveId>,
}

/// One setting for the whole sequence or one for each step.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Setting {
    /// Each step as deep as its gauge allows.
    EachStep,
    /// One figure for all full-depth steps: the least of theirs.
    OneFigure,
}

/// One step of a site's sequence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Identity of the step.
    pub id: StepId,
    /// The drill.
    pub drill: DrillId,
    /// The drill sleeve; absent: directly through the master sleeve, or freehand where the guided
    /// extent says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve: Option<DrillSleeveId>,
    /// The depth stop; absent: the drill's marks are read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<StopId>,
    /// The depth to go to.
    pub depth: DepthRule,
    /// Anything to do after it, such as a check radiograph.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub then: Option<Label>,
}

impl Site {
    /// True if the guide leads the implant.
    #[must_use]
    pub fn leads_implant(&self) -> bool {
        let left = self.without_guide.as_ref();
        self.guided_extent == GuidedExtent::DrillingAndImplant
            && left.is_none_or(|left| left.implant && left.is_of(self))
    }

    /// True if the guide leads a step with a drill of this kind.
    #[must_use]
    pub fn leads_step(&self, step: &Step, kind: DrillKind) -> bool {
        let by_extent = match self.guided_extent {
            GuidedExtent::PilotOnly => kind == DrillKind::Pilot,
            GuidedExtent::AllDrilling | GuidedExtent::DrillingAndImplant => true,
        };
        let is_it = |one: &StepThrough| *one == StepThrough::of(step);
        let left = self.without_guide.as_ref();
        by_extent && left.is_none_or(|left| left.is_of(self) && left.through.iter().any(is_it))
    }

    /// The state of the site that a distance measured now would remember; the bone it remembers with the edit that
    /// enters it.
    #[must_use]
    pub fn measured_now(&self, platform_to_apex: Length) -> MeasuredAt {
        MeasuredAt {
            placement: self.placement,
            platform_below_crest: self.heights.recorded_depth(),
            platform_to_apex_mm: platform_to_apex,
            down_to_mm: None,
            confirmed: None,
            bone_then: BoneThen::default(),
        }
    }
}
