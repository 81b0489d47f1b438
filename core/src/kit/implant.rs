//! Implants.

use super::{DepthRule, ImplantId, Label, ScanCode};
use crate::measure::{Length, Torque};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// An implant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Implant {
    /// Short name for references.
    pub id: ImplantId,
    /// Name for people.
    pub name: Label,
    /// The code on it or on its wrapping, which a scanner types, the number of its article for one: by it a scanned or typed
    /// label is known as of this implant. Without it nobody can say so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<ScanCode>,
    /// The line it belongs to: the next shorter, longer or narrower implant is looked for here.
    pub family: Label,
    /// Largest diameter of the part that lies in bone.
    #[schemars(range(min = 0.5, max = 20))]
    pub diameter_mm: Length,
    /// Largest diameter of the whole, collar included: what must pass a bore.
    #[schemars(range(min = 0.5, max = 20))]
    pub largest_diameter_mm: Length,
    /// Length as printed on its label. No depth is computed from it.
    #[schemars(range(min = 1, max = 60))]
    pub nominal_length_mm: Length,
    /// Measured from platform to apex, a smooth collar included.
    #[schemars(range(min = 1, max = 60))]
    pub platform_to_apex_mm: Length,
    /// Depth beyond the apex to which the maker asks the full-depth drills to go.
    #[schemars(range(min = 0, max = 5))]
    pub apical_allowance_mm: Length,
    /// Outline along the axis, from the platform down; absent for a cylinder.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub profile: Vec<ProfilePoint>,
    /// Greatest torque while turning it in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 200))]
    pub torque_limit_ncm: Option<Torque>,
    /// Number of pieces in stock.
    #[schemars(range(min = 0, max = 999))]
    pub quantity: u32,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// One point of an implant's outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfilePoint {
    /// Distance below the platform.
    #[schemars(range(min = 0, max = 60))]
    pub below_platform_mm: Length,
    /// Diameter there.
    #[schemars(range(min = 0, max = 20))]
    pub diameter_mm: Length,
}

impl Implant {
    /// From the platform to the bottom of a preparation to full depth.
    #[must_use]
    pub fn full_depth(&self) -> Length {
        self.platform_to_apex_mm + self.apical_allowance_mm
    }

    /// Depth below the platform that a rule asks for.
    #[must_use]
    pub fn depth_by(&self, rule: DepthRule) -> Length {
        match rule {
            DepthRule::Full {} => self.full_depth(),
            DepthRule::BelowPlatform { depth_mm } => depth_mm,
            DepthRule::ShortOfFull { by_mm } => self.full_depth() - by_mm,
        }
    }

    /// The outline as rings, from the platform down to the flat end at the apex: depth below the
    /// platform and diameter. Between two rings it runs straight; below the last given point it
    /// keeps that diameter.
    pub fn rings(&self) -> impl Iterator<Item = (Length, Length)> {
        let most = self.largest_diameter_mm;
        let end = self
            .profile
            .last()
            .map_or(self.diameter_mm, |last| last.diameter_mm.min(most));
        self.profile
            .iter()
            .map(move |point| (point.below_platform_mm, point.diameter_mm.min(most)))
            .chain([(self.platform_to_apex_mm, end)])
    }

    /// The greatest diameter at or below a depth under the platform.
    ///
    /// Between two points of the outline the larger of both counts.
    #[must_use]
    pub fn widest_from(&self, below_platform: Length) -> Length {
        let mut widest = Length::ZERO;
        let mut before = Length::ZERO;
        for (depth, diameter) in self.rings() {
            if depth >= below_platform {
                widest = widest.max(diameter).max(before);
            }
            // Of the rings above the depth only the last reaches down to it.
            before = if depth < below_platform {
                diameter
            } else {
                Length::ZERO
            };
        }
        widest
    }
}
