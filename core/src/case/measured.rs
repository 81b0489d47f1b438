//! Measured values around a site. Each remembers the placement that it was measured at.

use super::bone_then::BoneThen;
use super::confirmed::Confirmed;
use super::heights::CrestDepth;
use super::site::Placement;
use crate::dentition::{Jaw, ToothPosition};
use crate::kit::{Label, SiteId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The state of a site when something was measured at it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuredAt {
    /// Its placement.
    pub placement: Placement,
    /// Depth of its platform below the crest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// Length of its implant.
    #[schemars(range(min = 1, max = 60))]
    pub platform_to_apex_mm: Length,
    /// Depth below the platform down to which it was measured, for what is the least over the
    /// length or lies at the apex: the tip of the deepest drill, say. Absent: down to the implant's
    /// end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 80))]
    pub down_to_mm: Option<Length>,
    /// That the value was not measured there, but only said to hold there still; absent: it was
    /// measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub confirmed: Option<Confirmed>,
    /// The bone that it was measured in; absent: as it is.
    #[serde(default, skip_serializing_if = "BoneThen::is_unsaid")]
    pub bone_then: BoneThen,
}

impl MeasuredAt {
    /// Depth below the platform down to which it was measured.
    #[must_use]
    pub fn depth(&self) -> Length {
        self.down_to_mm.unwrap_or(self.platform_to_apex_mm)
    }
}

/// A height along the implant.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Height {
    /// At the crest.
    Crest,
    /// At mid-length.
    Mid,
    /// At the apex.
    Apex,
    /// The least over the whole length.
    Least,
}

/// Bone from the site's axis to a wall.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// The wall.
    pub side: WallSide,
    /// The height on the implant at which it was measured.
    pub at: Height,
    /// From the axis to the wall's outer surface.
    #[schemars(range(min = 0, max = 40))]
    pub from_axis_mm: Length,
    /// The site as it was then.
    pub measured_at: MeasuredAt,
}

/// A wall of the alveolar process.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum WallSide {
    Buccal,
    Oral,
}

/// A measured distance to a neighbour.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Distance {
    /// The neighbour.
    pub to: DistanceTo,
    /// The height on the implant at which it was measured.
    pub at: Height,
    /// From this site's axis to the neighbour's surface, or to its axis where it is a site.
    #[schemars(range(min = 0, max = 100))]
    pub from_axis_mm: Length,
    /// This site as it was then.
    pub measured_at: MeasuredAt,
    /// The other site as it was then, where the neighbour is a site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_measured_at: Option<MeasuredAt>,
}

/// The neighbour to which a distance was measured.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "neighbour", rename_all = "snake_case", deny_unknown_fields)]
pub enum DistanceTo {
    /// The surface of a tooth, root or existing implant at this position.
    Tooth {
        /// Its position.
        position: ToothPosition,
    },
    /// The axis of another planned implant.
    Site {
        /// Its id.
        site: SiteId,
    },
}

/// A deep structure near a site.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Structure {
    /// The kind of structure.
    pub kind: StructureKind,
    /// Its position relative to the site.
    pub extent: StructureExtent,
    /// The site as it was then.
    pub measured_at: MeasuredAt,
    /// The way in which it was measured, such as a scan.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<Label>,
}

/// Kinds of deep structure.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum StructureKind {
    MandibularCanal,
    MentalForamen,
    IncisiveCanal,
    NasopalatineCanal,
    SinusFloor,
    SinusAnteriorWall,
    NasalFloor,
}

impl StructureKind {
    /// The structures of a jaw.
    #[must_use]
    pub const fn of_jaw(jaw: Jaw) -> &'static [Self] {
        match jaw {
            Jaw::Lower => &[
                Self::MandibularCanal,
                Self::MentalForamen,
                Self::IncisiveCanal,
            ],
            Jaw::Upper => &[
                Self::SinusFloor,
                Self::SinusAnteriorWall,
                Self::NasalFloor,
                Self::NasopalatineCanal,
            ],
        }
    }
}

/// The position of a deep structure relative to a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "measured", rename_all = "snake_case", deny_unknown_fields)]
pub enum StructureExtent {
    /// Below the site.
    Below {
        /// From the datum to the structure's near surface.
        #[schemars(range(min = -10, max = 60))]
        height_mm: Length,
        /// The point from which the height is measured.
        from: HeightDatum,
        /// The direction in which it was measured.
        direction: Direction,
    },
    /// Beside the site.
    Beside {
        /// From the site's axis to the structure's near surface, the least over the length.
        #[schemars(range(min = 0, max = 60))]
        from_axis_mm: Length,
        /// For the mental foramen, how far the canal loops forward of it; absent: not measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[schemars(range(min = 0, max = 20))]
        anterior_loop_mm: Option<Length>,
    },
}

/// The point from which a height is measured.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum HeightDatum {
    Platform,
    Crest,
}

/// The direction in which a height was measured.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum Direction {
    AlongAxis,
    Vertical,
}

/// Something that stands beside the seat and might stop the stop or the head from landing: a
/// crown, a wall of the guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// Its name.
    pub name: Label,
    /// The tooth whose crown it is; absent: it is no crown, or nobody said whose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tooth: Option<ToothPosition>,
    /// Its height above the master sleeve's coronal rim, along the axis.
    #[schemars(range(min = -40, max = 40))]
    pub above_rim_mm: Length,
    /// Height of that rim above the platform then, along the axis; absent: unknown, and so is the
    /// height of the obstacle now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 120))]
    pub rim_above_platform_mm: Option<Length>,
    /// From the site's axis to its near surface.
    #[schemars(range(min = 0, max = 60))]
    pub from_axis_mm: Length,
    /// The site as it was then.
    pub measured_at: MeasuredAt,
}
