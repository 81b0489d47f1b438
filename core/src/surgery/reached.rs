//! What an implant reached, held against its limits.

use crate::kit::{ImplantId, Kit};
use crate::measure::{Length, Torque};
use crate::sign::{Inserted, InsertionWay, StepKey};

/// The greatest that an implant may stop apical of its plan before that is asked again, since everything that was planned
/// to stay clear of it came nearer. Common practice, no source.
const APICAL: Length = Length::from_um(500);
/// The greatest that it may stop coronal of it. Common practice, no source.
const CORONAL: Length = Length::from_um(1000);

/// A torque against the kit's limit for its implant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TorqueAgainst {
    /// Not above it.
    Within,
    /// Above it; the limit.
    Above(Torque),
    /// The kit has none.
    NoLimit,
}

/// An implant far off its planned depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DepthOff {
    /// Apical of it by more than this.
    Apical(Length),
    /// Coronal of it by more than this.
    Coronal(Length),
}

/// A torque against the kit's limit for an implant.
#[must_use]
pub fn torque_against(kit: &Kit, implant: &ImplantId, torque: Torque) -> TorqueAgainst {
    let limit = kit.implant(implant).and_then(|one| one.torque_limit_ncm);
    match limit {
        None => TorqueAgainst::NoLimit,
        Some(limit) if torque > limit => TorqueAgainst::Above(limit),
        Some(_) => TorqueAgainst::Within,
    }
}

/// How an implant is far off, where it stopped this much coronal of its plan (negative: apical); none where it is not.
#[must_use]
pub fn depth_off(coronal: Length) -> Option<DepthOff> {
    if Length::ZERO - coronal > APICAL {
        Some(DepthOff::Apical(APICAL))
    } else if coronal > CORONAL {
        Some(DepthOff::Coronal(CORONAL))
    } else {
        None
    }
}

/// True if what was reached is off a limit, cannot be held against one, or was not recorded. Of an implant that was only
/// begun nothing was reached yet.
pub(super) fn stands_out(kit: &Kit, inserted: &Inserted) -> bool {
    if inserted.way == InsertionWay::Begun {
        return false;
    }
    let within = |torque| match &inserted.step {
        StepKey::Insert { implant, .. } | StepKey::Finish { implant, .. } => {
            let implant = ImplantId::from(implant.as_str());
            torque_against(kit, &implant, torque) == TorqueAgainst::Within
        }
        _ => false,
    };
    let at_depth = |coronal| depth_off(coronal).is_none();
    !inserted.torque_ncm.is_some_and(within) || !inserted.coronal_of_plan_mm.is_some_and(at_depth)
}
