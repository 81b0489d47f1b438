//! Figures and reasons as these charts write them.

use crate::case::{Case, StructureKind};
use crate::measure::{Angle, Length};
use crate::plan::{Place, Reason, Severity, SiteHeight, SitePlace};
use crate::text::Texts;

/// Margins are shown to this, rounded down: finer digits come from trigonometry, not from a person.
const MARGIN_GRAIN: Length = Length::from_um(10);

/// A length to its last digit, in millimetres, with at least so many decimals and without unit.
///
/// A minus is the true minus sign.
pub(super) fn exact_to(length: Length, places: usize) -> String {
    let um = length.um().unsigned_abs();
    let mut decimals = format!("{:03}", um % 1000);
    while decimals.len() > places && decimals.ends_with('0') {
        decimals.pop();
    }
    let sign = if length < Length::ZERO {
        "\u{2212}"
    } else {
        ""
    };
    let point = if decimals.is_empty() { "" } else { "." };
    format!("{sign}{}{point}{decimals}", um / 1000)
}

/// A length to its last digit, with at least one decimal: "5.8".
pub(super) fn exact(length: Length) -> String {
    exact_to(length, 1)
}

/// A length that is available, never shown as more than it is, nor on the other side of its limit.
pub(super) fn available(length: Length, limit: Option<Length>) -> String {
    let fine = limit.is_some_and(|limit| limit.floor_to(MARGIN_GRAIN) != limit);
    exact(if fine {
        length
    } else {
        length.floor_to(MARGIN_GRAIN)
    })
}

/// A setting, with as many decimals as the case's gauge has: "22.1".
pub(super) fn setting(case: &Case, set: Length) -> String {
    let gauge = case.setup.gauge.as_ref();
    let places = gauge
        .and_then(|id| case.kit.gauge(id))
        .map_or(1, |gauge| places(gauge.graduation_mm));
    exact_to(set, places.max(1))
}

/// How many decimals it takes to write a length exactly.
fn places(length: Length) -> usize {
    exact_to(length, 0)
        .split_once('.')
        .map_or(0, |(_, d)| d.len())
}

/// An angle to its last digit: "32°".
pub(super) fn degrees(angle: Angle) -> String {
    let length = Length::from_um(i64::from(angle.millideg()));
    format!("{}°", exact_to(length, 0))
}

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

/// Why something is not known, without any figure: the first reason, since one is enough to stop.
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

/// What is missing at a place.
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

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> Length {
        Length::parse_mm(text).unwrap()
    }

    #[test]
    fn lengths_keep_their_digits() {
        for (given, places, want) in [
            ("5", 1, "5.0"),
            ("5.85", 1, "5.85"),
            ("22.1", 2, "22.10"),
            ("-0.35", 1, "\u{2212}0.35"),
            ("-0.05", 0, "\u{2212}0.05"),
            ("32", 0, "32"),
            ("0.001", 1, "0.001"),
        ] {
            assert_eq!(exact_to(mm(given), places), want);
        }
        assert_eq!(degrees(Angle::parse_deg("3.5").unwrap()), "3.5°");
        assert_eq!(degrees(Angle::from_deg(30)), "30°");
    }

    #[test]
    fn a_margin_is_never_shown_as_more_than_it_is() {
        for (value, limit, want) in [
            ("1.999", "2", "1.99"),
            ("2", "2", "2.0"),
            ("-0.301", "2", "\u{2212}0.31"),
            // On the same digits as its limit, it would seem to break it.
            ("1.996", "1.995", "1.996"),
        ] {
            assert_eq!(available(mm(value), Some(mm(limit))), want);
        }
    }
}
