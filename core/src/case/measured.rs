//! Measured values around a site. Each remembers the placement that it was measured at.

use super::site::{CrestDepth, Placement};
use crate::dentition::ToothPosition;
use crate::kit::{Label, SiteId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the site was like when something was measured at it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuredAt {
    /// Its placement.
    pub placement: Placement,
    /// How deep its platform lay.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub platform_below_crest: Option<CrestDepth>,
    /// How long its implant was.
    #[schemars(range(min = 1, max = 60))]
    pub platform_to_apex_mm: Length,
    /// How far below the platform it was measured, for what is the least over the length or lies at
    /// the apex: the tip of the deepest drill, say. Absent: as far as the implant's end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 80))]
    pub down_to_mm: Option<Length>,
}

impl MeasuredAt {
    /// Depth below the platform down to which it was measured.
    #[must_use]
    pub fn depth(&self) -> Length {
        let end = self.platform_to_apex_mm;
        self.down_to_mm.map_or(end, |down_to| down_to.max(end))
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// Which wall.
    pub side: WallSide,
    /// At which height.
    pub at: Height,
    /// From the axis to the wall's outer surface.
    #[schemars(range(min = 0, max = 40))]
    pub from_axis_mm: Length,
    /// What the site was like then.
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
    /// At which height.
    pub at: Height,
    /// From this site's axis to the neighbour's surface, or to its axis where it is a site.
    #[schemars(range(min = 0, max = 100))]
    pub from_axis_mm: Length,
    /// What this site was like then.
    pub measured_at: MeasuredAt,
    /// What the other site was like then, where the neighbour is a site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_measured_at: Option<MeasuredAt>,
}

/// What a distance was measured to.
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
    /// What it is.
    pub kind: StructureKind,
    /// Where it lies.
    pub extent: StructureExtent,
    /// What the site was like then.
    pub measured_at: MeasuredAt,
    /// How it was measured.
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

/// Where a deep structure lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "measured", rename_all = "snake_case", deny_unknown_fields)]
pub enum StructureExtent {
    /// Below the site.
    Below {
        /// From the datum to the structure's near surface.
        #[schemars(range(min = -10, max = 60))]
        height_mm: Length,
        /// Where the height starts.
        from: HeightDatum,
        /// Along which direction it was measured.
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

/// Where a height starts.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum HeightDatum {
    Platform,
    Crest,
}

/// Along which direction a height was measured.
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
    /// What it is.
    pub name: Label,
    /// The tooth whose crown it is; absent: it is no crown, or nobody said whose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tooth: Option<ToothPosition>,
    /// How high it stands above the master sleeve's upper rim, along the axis.
    #[schemars(range(min = -40, max = 40))]
    pub above_rim_mm: Length,
    /// How high that rim stood above the platform then, along the axis; absent: unknown, and so is
    /// how high the obstacle stands now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 120))]
    pub rim_above_platform_mm: Option<Length>,
    /// From the site's axis to its near surface.
    #[schemars(range(min = 0, max = 60))]
    pub from_axis_mm: Length,
    /// What the site was like then.
    pub measured_at: MeasuredAt,
}
