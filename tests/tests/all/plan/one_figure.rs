//! One figure for all full-depth steps of a sequence.

use super::kit::stop;
use super::sample::{all, each_drill, mm, settings, shown, step_of, worked};
use traywright_core::case::{Case, Setting};
use traywright_core::kit::{Datum, DepthRule, GaugeFace};
use traywright_core::plan::Reason;

/// Full-diameter counting at 118° alone gives 21.2, 21.5 and 21.6 (exact 21.270, 21.511, 21.691).
fn full_diameter(case: &mut Case) {
    each_drill(case, |drill| drill.datum = Datum::FullDiameter {});
    case.sites[0].setting = Setting::OneFigure;
}

/// The least of the three serves all; each shortfall is shown: 0.070, 0.311, 0.491.
#[test]
fn the_least_setting_serves_the_sequence() {
    let sheet = worked(full_diameter);
    assert_eq!(settings(&sheet), ["21.2", "21.2", "21.2"]);
    let steps = &sheet.sites[0].steps;
    let short: Vec<_> = steps.iter().map(|s| shown(&s.shortfall)).collect();
    assert_eq!(short, ["0.07", "0.311", "0.491"]);
    for step in steps {
        // 21.2 − 10.7 = 10.5; bench 21.2 − 4.0 − 0.7 = 16.5; the gauge shows the setting.
        assert_eq!(shown(&step.cut), "10.5");
        assert_eq!(shown(step.bench.as_ref().unwrap()), "16.5");
        assert_eq!(shown(step.gauge.as_ref().unwrap()), "21.2");
    }
    assert_eq!(shown(&sheet.sites[0].deepest_cut), "10.5");
}

/// Short passes keep their own: 10.7 + 6.0 + 0.570 = 17.270, set 17.2. Their lower setting does
/// not drag the others down.
#[test]
fn short_passes_keep_their_own_setting() {
    let sheet = worked(|case| {
        full_diameter(case);
        case.sites[0].steps[0].depth = DepthRule::ShortOfFull { by_mm: mm("4") };
    });
    assert_eq!(settings(&sheet), ["17.2", "21.5", "21.5"]);
}

/// One that is outside the gauge stays without a setting and gives the others none.
#[test]
fn a_step_outside_the_gauge_stays_without() {
    let sheet = worked(|case| {
        full_diameter(case);
        case.kit.gauges[0].from_mm = mm("21.5");
    });
    assert_eq!(settings(&sheet), ["unknown", "21.5", "21.5"]);
}

/// Upper face, bodies of 3.5, 3.46 and 3.5. `b` can be set to n·0.1 − 3.46; the least of all is
/// 21.2, shown 24.7 and for `b` 24.66, floored 24.6: set 21.14.
#[test]
fn each_stop_takes_the_figure_in_its_own_graduations() {
    let sheet = worked(|case| {
        full_diameter(case);
        case.kit.gauges[0].reads = Some(GaugeFace::Upper);
        let mut other = stop("v");
        other.body_height_mm = mm("3.46");
        case.kit.stops.push(other);
        case.sites[0].steps[1].stop = Some("v".into());
    });
    assert_eq!(settings(&sheet), ["21.2", "21.14", "21.2"]);
    let gauge = |n| shown(step_of(&sheet, n).gauge.as_ref().unwrap());
    assert_eq!([gauge(0), gauge(1), gauge(2)], ["24.7", "24.6", "24.7"]);
}

/// A stop whose body is low takes the common figure below the gauge's scale: no setting, and the
/// gauge does not go on showing the one it would have had alone.
#[test]
fn lowered_below_the_scale_there_is_no_gauge_figure_left() {
    let sheet = worked(|case| {
        full_diameter(case);
        case.kit.gauges[0].reads = Some(GaugeFace::Upper);
        // `a` shows 21.2 + 3.5 = 24.7; `c` alone 21.6 + 2.9 = 24.5, lowered 21.2 + 2.9 = 24.1.
        case.kit.gauges[0].from_mm = mm("24.3");
        let mut other = stop("v");
        other.body_height_mm = mm("2.9");
        case.kit.stops.push(other);
        case.sites[0].steps[2].stop = Some("v".into());
    });
    assert_eq!(settings(&sheet), ["21.2", "21.2", "unknown"]);
    let step = step_of(&sheet, 2);
    assert_eq!(step.set.value.reasons(), [Reason::OutsideGauge(mm("24.1"))]);
    assert_eq!(shown(step.gauge.as_ref().unwrap()), "unknown");
    assert_eq!(shown(&step.cut), "unknown");
    assert_eq!(all(&sheet, "outside-gauge").len(), 1);
}
