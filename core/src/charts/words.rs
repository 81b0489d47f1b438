//! Reasons and names as these charts write them.

use crate::case::StructureKind;
use crate::plan::{Place, Reason, Severity, SiteHeight, SitePlace};
use crate::text::Texts;

/// The text id of a structure's name.
pub(super) const fn structure_id(kind: StructureKind) -> &'static str {
    match kind {
        StructureKind::MandibularCanal => "chart-structure-mandibular-canal",
        StructureKind::MentalForamen => "chart-structure-mental-foramen",
        StructureKind::IncisiveCanal => "chart-structure-incisive-canal",
        StructureKind::NasopalatineCanal => "chart-structure-nasopalatine-canal",
        StructureKind::SinusFloor => "chart-structure-sinus-floor",
        StructureKind::SinusAnteriorWall => "chart-structure-sinus-anterior-wall",
        StructureKind::NasalFloor => "chart-structure-nasal-floor",
    }
}

/// A verdict in one word.
pub(super) fn severity(severity: Severity, texts: &Texts) -> String {
    texts.get(severity.text_id(), &[])
}

/// The first reason why something is not known, without any figure: one is enough to stop.
pub(super) fn reason(reasons: &[Reason], texts: &Texts) -> String {
    let id = match reasons.first() {
        None => "chart-reason-none",
        Some(Reason::Missing(place)) => missing_id(place),
        Some(Reason::Stale(_)) => "chart-reason-stale",
        Some(Reason::ArchModelOnly(_) | Reason::ArchAngleOnly(_)) => "chart-reason-arch-model",
        Some(Reason::AgainstModel { .. }) => "chart-reason-against-model",
        Some(Reason::MeasuredLessDeep(_)) => "chart-reason-less-deep",
        Some(Reason::AtMost(_)) => "chart-reason-at-most",
        Some(Reason::SomeHeightsOnly(_)) => "chart-reason-some-heights",
        Some(Reason::AlongTiltedAxis(_)) => "chart-reason-along-tilted-axis",
        Some(Reason::OutsideGauge(_)) => "chart-reason-outside-gauge",
        Some(Reason::BetweenGraduations(_)) => "chart-reason-between-graduations",
        Some(Reason::NothingFits) => "chart-reason-nothing-fits",
        Some(Reason::Unfit) => "chart-reason-unfit",
        Some(Reason::Pending(_)) => "chart-reason-pending",
        Some(Reason::NoAccuracy) => "chart-reason-no-accuracy",
    };
    texts.get(id, &[])
}

/// Id of the text that names what is missing at a place.
const fn missing_id(place: &Place) -> &'static str {
    match place {
        Place::Limit(_) | Place::Convergence => "chart-missing-limit",
        Place::Gauge => "chart-missing-gauge",
        Place::GaugeFace(_) => "chart-missing-gauge-face",
        Place::Site(_, place) => missing_at_site(place),
        Place::Tooth(_)
        | Place::Pin(_)
        | Place::Receipt(_)
        | Place::ReceiptOf(..)
        | Place::KitEntry { .. }
        | Place::Loading { .. }
        | Place::SideBySide(..)
        | Place::TrayPlace(_) => "chart-missing-position",
        Place::Sites
        | Place::Arch
        | Place::AcceptedOrder
        | Place::Head
        | Place::Tray
        | Place::Pins
        | Place::Receipts
        | Place::Kit
        | Place::GuidedFrom(_) => "chart-missing-entry",
    }
}

const fn missing_at_site(place: &SitePlace) -> &'static str {
    match place {
        SitePlace::PlatformToSleeve => "chart-missing-distance",
        SitePlace::Height(SiteHeight::PlatformBelowCrest) => "chart-missing-crest",
        SitePlace::AnteriorLoop(_) => "chart-missing-loop",
        SitePlace::Steps => "chart-missing-steps",
        SitePlace::Whole
        | SitePlace::WallSide(_)
        | SitePlace::Wall(..)
        | SitePlace::ToTooth(..)
        | SitePlace::ToSite(..)
        | SitePlace::Structure(_)
        | SitePlace::Obstacle(_)
        | SitePlace::Crown(_)
        | SitePlace::Step(_) => "chart-missing-position",
        SitePlace::Height(
            SiteHeight::TissueThickness | SiteHeight::CrestBelowOcclusal | SiteHeight::MeasuredAt,
        )
        | SitePlace::Placement
        | SitePlace::Heights
        | SitePlace::Obstacles
        | SitePlace::ObstacleRim(_)
        | SitePlace::Insertion
        | SitePlace::Carrier => "chart-missing-entry",
    }
}
