//! Figures and reasons as these charts write them.

use crate::case::{Case, StructureKind};
use crate::measure::Length;
use crate::number;
use crate::plan::{Reason, Severity};
use crate::text::Texts;

/// A setting, with as many decimals as the case's gauge has: "22.1".
pub(super) fn setting(case: &Case, set: Length) -> String {
    let gauge = case.setup.gauge.as_ref();
    let gauge = gauge.and_then(|id| case.kit.gauge(id));
    number::setting(set, gauge.map(|gauge| gauge.graduation_mm))
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

/// The first reason why something is not known, without any figure: one is enough to stop.
pub(super) fn reason(reasons: &[Reason], texts: &Texts) -> String {
    let id = match reasons.first() {
        None => "chart-reason-none",
        Some(Reason::Missing(path)) => missing_id(path),
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

/// Id of the text that names what is missing at a path.
fn missing_id(path: &str) -> &'static str {
    const ENDS: &[(&str, &str)] = &[
        ("platform_to_sleeve", "chart-missing-distance"),
        ("platform_below_crest", "chart-missing-crest"),
        ("setup.gauge", "chart-missing-gauge"),
        (".reads", "chart-missing-gauge-face"),
        ("anterior_loop_mm", "chart-missing-loop"),
        (".steps", "chart-missing-steps"),
        ("]", "chart-missing-position"),
    ];
    if path.starts_with("limits.") {
        return "chart-missing-limit";
    }
    ENDS.iter()
        .find(|(end, _)| path.ends_with(end))
        .map_or("chart-missing-entry", |(_, id)| *id)
}
