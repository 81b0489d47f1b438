//! Rotational speed and torque.

use super::decimal::thousandths_in_json;
use super::length::Length;
use serde::{Deserialize, Serialize};

/// A rotational speed in whole revolutions per minute.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(transparent)]
#[schemars(inline)]
pub struct Speed(u32);

impl Speed {
    /// A speed of so many revolutions per minute.
    #[must_use]
    pub const fn from_rpm(rpm: u32) -> Self {
        Self(rpm)
    }

    /// Revolutions per minute.
    #[must_use]
    pub const fn rpm(self) -> u32 {
        self.0
    }

    /// Speed of the drill's surface in metres per minute, v = π·d·n / 1000.
    #[must_use]
    pub fn surface_m_per_min(self, diameter: Length) -> f64 {
        std::f64::consts::PI * diameter.mm() * f64::from(self.0) / 1000.0
    }
}

impl std::fmt::Display for Speed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

/// A torque in N·cm, kept in thousandths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Torque(i32);

thousandths_in_json!(Torque, i32, "a torque");

impl Torque {
    /// A torque of so many whole N·cm.
    #[must_use]
    pub const fn from_ncm(ncm: i32) -> Self {
        Self(ncm * 1000)
    }
}
