//! Verdicts, reasons and tilts as these charts write them.

use crate::dentition::Jaw;
use crate::measure::Angle;
use crate::number::degrees;
use crate::plan::{Place, Reason, Severity, SiteHeight, SitePlace};
use crate::text::Texts;

/// A tilt of an apex.
pub(super) struct Lean {
    angle: String,
    /// The side to which it leans.
    pub(super) towards: String,
    /// The side from which it leans.
    pub(super) away: String,
}

/// The tilts of an apex, each with its side, as a bare sign means different things to different
/// people; nothing for an upright one.
pub(super) fn leans(distal: Angle, buccal: Angle, jaw: Jaw, texts: &Texts) -> Vec<Lean> {
    let both = [(distal, DISTAL, MESIAL), (buccal, BUCCAL, oral(jaw))];
    let leans = both.into_iter().filter(|(angle, ..)| *angle != Angle::ZERO);
    let lean = |(angle, plus, minus): (Angle, &str, &str)| {
        let word = |when| texts.get(if when { plus } else { minus }, &[]);
        Lean {
            angle: degrees(angle.abs()),
            towards: word(angle > Angle::ZERO),
            away: word(angle < Angle::ZERO),
        }
    };
    leans.map(lean).collect()
}

/// Tilts in words: "apex 32° to mesial, 5° to buccal".
pub(super) fn apex(leans: &[Lean], texts: &Texts) -> String {
    let part = |lean: &Lean| {
        let args = [("angle", &*lean.angle), ("towards", &*lean.towards)];
        texts.get("chart-apex-part", &args)
    };
    let parts: Vec<String> = leans.iter().map(part).collect();
    texts.get("chart-apex", &[("tilt", &parts.join(", "))])
}

pub(super) const MESIAL: &str = "chart-towards-mesial";
pub(super) const DISTAL: &str = "chart-towards-distal";
pub(super) const BUCCAL: &str = "chart-towards-buccal";

pub(super) const fn oral(jaw: Jaw) -> &'static str {
    match jaw {
        Jaw::Upper => "chart-towards-palatal",
        Jaw::Lower => "chart-towards-lingual",
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
        Some(Reason::Stale(..)) => "chart-reason-stale",
        Some(Reason::BeforeGraft(_)) => "chart-reason-before-graft",
        Some(Reason::ScanUndated(_)) => "chart-reason-scan-undated",
        Some(Reason::ArchModelOnly(_) | Reason::ArchAngleOnly(_)) => "chart-reason-arch-model",
        Some(Reason::AgainstModel { .. }) => "chart-reason-against-model",
        Some(Reason::MeasuredLessDeep(..)) => "chart-reason-less-deep",
        Some(Reason::AtMost(_) | Reason::Between { .. }) => "chart-reason-at-most",
        Some(Reason::SomeHeightsOnly(_) | Reason::BetweenHeights { .. }) => {
            "chart-reason-some-heights"
        }
        Some(Reason::NotTheLeast(_)) => "chart-reason-not-the-least",
        Some(Reason::AlongTiltedAxis(_)) => "chart-reason-along-tilted-axis",
        Some(Reason::CrestOfSocket(_)) => "chart-reason-crest-of-socket",
        Some(Reason::OutsideGauge(_)) => "chart-reason-outside-gauge",
        Some(Reason::BetweenGraduations(_)) => "chart-reason-between-graduations",
        Some(Reason::KindNotEntered { .. }) => "chart-reason-kind-not-entered",
        Some(Reason::CutThroughGuide(_)) => "chart-reason-cut-through-guide",
        Some(Reason::CutBefore(_)) => "chart-reason-cut-before",
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
        Place::GaugeConstant(_) => "chart-missing-gauge-constant",
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
        SitePlace::Height(SiteHeight::SocketRim) => "chart-missing-socket-rim",
        SitePlace::AnteriorLoop(_) => "chart-missing-loop",
        SitePlace::Steps => "chart-missing-steps",
        SitePlace::SocketGap => "chart-missing-socket-gap",
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
        | SitePlace::Density
        | SitePlace::Heights
        | SitePlace::Obstacles
        | SitePlace::ObstacleRim(_)
        | SitePlace::Insertion
        | SitePlace::Carrier => "chart-missing-entry",
    }
}
