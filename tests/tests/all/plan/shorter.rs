//! The next shorter implant's settings: shown only where the instruments fit there too.

use super::sample::{mm, shown, worked};
use traywright_core::case::Case;
use traywright_core::kit::{Datum, DepthRule, Span};
use traywright_core::plan::{Known, Reason, Rule, ShorterImplant};

/// The implant of 8.2 in place of 10.0: 10.7 + 8.2 = 18.9.
fn shorter(change: impl FnOnce(&mut Case)) -> ShorterImplant {
    let sheet = worked(change);
    sheet.sites[0].shorter.clone().unwrap()
}

fn settings(shorter: &ShorterImplant) -> Vec<String> {
    shorter.steps.iter().map(|step| shown(&step.set)).collect()
}

#[test]
fn what_fits_is_shown() {
    let shorter = shorter(|_| {});
    assert_eq!(shorter.implant.as_str(), "short");
    assert_eq!(settings(&shorter), ["18.9"; 3]);
    assert!(shorter.findings.is_empty());
}

/// At 20.7 the stop of the plan sits on the clamping length, at 18.9 it would not: no setting there
/// that a hand could take for a good one, nor a gauge figure, cut or bench check.
#[test]
fn what_does_not_fit_has_no_setting() {
    let clamped = |case: &mut Case, from: &str| {
        case.kit.drills[1].clamp = Some(Span {
            from_mm: mm(from),
            to_mm: mm("32"),
        });
    };
    let off = shorter(|case| clamped(case, "19"));
    assert_eq!(settings(&off), ["18.9", "unknown", "18.9"]);
    let step = &off.steps[1];
    let rest = [&step.set, &step.cut, &step.shortfall];
    let shown = step.gauge.iter().chain(&step.bench);
    for figure in rest.into_iter().chain(shown) {
        assert_eq!(
            figure.value,
            Known::Unknown(vec![Reason::Unfit]),
            "{}",
            figure.id
        );
    }
    let rules: Vec<_> = off.findings.iter().map(|f| f.rule.key()).collect();
    assert_eq!(rules, ["off-clamping-length"]);
    assert_eq!(
        settings(&shorter(|case| clamped(case, "18.9"))),
        ["18.9"; 3]
    );
}

/// Nor one outside the gauge, which has none, nor one that leaves the implant too high.
#[test]
fn every_instrument_check_counts() {
    let gauge = shorter(|case| case.kit.gauges[0].from_mm = mm("19"));
    assert_eq!(settings(&gauge), ["unknown"; 3]);
    assert_eq!(gauge.findings.len(), 3);
    assert!(gauge.findings.iter().all(|f| f.rule == Rule::OutsideGauge));
    // One figure leaves the last drill shallow by its point: 0.991.
    let high = shorter(|case| {
        case.kit.drills[2].datum = Datum::FullDiameter {};
        case.sites[0].setting = traywright_core::case::Setting::OneFigure;
    });
    assert_eq!(settings(&high), ["18.9", "18.9", "unknown"]);
}

/// A step to 10.0 below the platform is within the implant of 10.0 and deeper than the one of 8.2.
#[test]
fn what_goes_deeper_than_the_shorter_one_has_no_setting() {
    let deep = shorter(|case| {
        case.sites[0].steps[1].depth = DepthRule::BelowPlatform { depth_mm: mm("10") };
    });
    assert_eq!(settings(&deep), ["18.9", "unknown", "18.9"]);
    let rules: Vec<_> = deep.findings.iter().map(|f| f.rule.key()).collect();
    assert_eq!(rules, ["deeper-than-implant"]);
    let within = shorter(|case| {
        case.sites[0].steps[1].depth = DepthRule::BelowPlatform {
            depth_mm: mm("8.2"),
        };
    });
    assert_eq!(settings(&within), ["18.9"; 3]);
}
