//! Parts of the sample's kit, in which everything fits.

use super::sample::{case, mm};
use traywright_core::kit::{Drill, DrillKind, DrillSleeve, Kit, ProfilePoint, Stop};

/// Implants `long` and `short`; drills `a`, `b`, `c` with the sleeves `sa`, `sb`, `sc`; master
/// sleeve `m`, stop `u`, gauge `g`, carrier `k`, head `h`, tray `t`.
pub(crate) fn kit() -> Kit {
    case().kit
}

/// A drill counted at its tip, with a point of 118°.
pub(crate) fn drill(id: &str, kind: DrillKind, diameter: &str) -> Drill {
    Drill {
        id: id.into(),
        name: id.into(),
        code: None,
        kind,
        cutting_diameter_mm: mm(diameter),
        guided_diameter_mm: mm(diameter),
        ..kit().drills.remove(0)
    }
}

/// An implant's outline: how far below the platform, and how wide there.
pub(crate) fn outline<const N: usize>(points: [(&str, &str); N]) -> Vec<ProfilePoint> {
    points
        .map(|(below, diameter)| ProfilePoint {
            below_platform_mm: mm(below),
            diameter_mm: mm(diameter),
        })
        .into()
}

pub(crate) fn sleeve(id: &str, bore: &str) -> DrillSleeve {
    DrillSleeve {
        id: id.into(),
        name: id.into(),
        code: None,
        bore_mm: mm(bore),
        ..kit().drill_sleeves.remove(0)
    }
}

pub(crate) fn stop(id: &str) -> Stop {
    Stop {
        id: id.into(),
        name: id.into(),
        ..kit().stops.remove(0)
    }
}
