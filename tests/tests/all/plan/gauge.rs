//! From an exact length to a figure on a gauge.

use super::sample::{all, distance, judged, mm, one, shown, step_of, worked};
use traywright_core::kit::GaugeFace;
use traywright_core::plan::Place;
use traywright_core::plan::{Reason, Verdict};

/// A gauge that reads the upper face shows the stop's body too: 20.7 + 1.2 + 3.5 = 25.4.
#[test]
fn a_gauge_shows_its_constant_and_the_body_it_reads_over() {
    for (face, constant, gauge) in [
        (GaugeFace::Landing, "0", "20.7"),
        (GaugeFace::Landing, "1.2", "21.9"),
        (GaugeFace::Landing, "-1.2", "19.5"),
        (GaugeFace::Upper, "0", "24.2"),
        (GaugeFace::Upper, "1.2", "25.4"),
    ] {
        let sheet = worked(|case| {
            case.kit.gauges[0].reads = Some(face);
            case.kit.gauges[0].constant_mm = Some(mm(constant));
        });
        let step = step_of(&sheet, 0);
        assert_eq!(shown(&step.set), "20.7");
        assert_eq!(
            shown(step.gauge.as_ref().unwrap()),
            gauge,
            "{face:?} {constant}"
        );
    }
}

/// The graduations belong to what the gauge shows. Exact 20.7, body 3.46, constant 1.2, graduated
/// in 0.1: 25.36 is shown as 25.3, so 25.3 − 4.66 = 20.64 is set.
#[test]
fn an_offset_between_two_graduations_rounds_what_is_shown() {
    let sheet = worked(|case| {
        case.kit.gauges[0].reads = Some(GaugeFace::Upper);
        case.kit.gauges[0].constant_mm = Some(mm("1.2"));
        case.kit.stops[0].body_height_mm = mm("3.46");
    });
    let step = step_of(&sheet, 0);
    assert_eq!(shown(step.gauge.as_ref().unwrap()), "25.3");
    assert_eq!(shown(&step.set), "20.64");
    assert_eq!(shown(&step.cut), "9.94");
    assert_eq!(shown(&step.shortfall), "0.06");
}

/// Graduated in 0.5: 20.7 becomes 20.5, 0.2 is given away; 20.5 itself stays.
#[test]
fn a_coarse_graduation_gives_more_away() {
    for (entered, exact, set, shortfall) in [
        ("6.0", "20.7", "20.5", "0.2"),
        ("5.8", "20.5", "20.5", "0"),
        ("5.799", "20.499", "20", "0.499"),
    ] {
        let sheet = worked(|case| {
            case.kit.gauges[0].graduation_mm = mm("0.5");
            distance(case, entered);
        });
        let step = step_of(&sheet, 0);
        assert_eq!(
            [&step.exact, &step.set, &step.shortfall].map(shown),
            [exact, set, shortfall]
        );
    }
}

/// Nobody knows which face the gauge reads: it gives no figure, and a finding says so.
#[test]
fn an_unknown_face_gives_no_gauge_figure() {
    let sheet = worked(|case| case.kit.gauges[0].reads = None);
    let step = step_of(&sheet, 0);
    let gauge = step.gauge.as_ref().unwrap();
    assert_eq!(shown(gauge), "unknown");
    assert_eq!(
        gauge.value.reasons(),
        [Reason::Missing(Place::GaugeFace("g".into()))]
    );
    assert_eq!(all(&sheet, "gauge-face-unknown").len(), 3);
    assert!(
        all(&sheet, "gauge-face-unknown")
            .iter()
            .all(|f| f.verdict == Verdict::Unknown)
    );
    let items = sheet.loading.iter().filter_map(|item| item.set.as_ref());
    assert!(items.clone().count() > 0);
    assert!(items.clone().all(|on| on.gauge.value().is_none()));
}

/// Nobody knows what the gauge adds: it gives no figure for a stop that is set, nor for one that is fixed.
#[test]
fn an_unknown_constant_gives_no_gauge_figure() {
    let missing = Reason::Missing(Place::GaugeConstant("g".into()));
    let face = Reason::Missing(Place::GaugeFace("g".into()));
    for (reads, reasons) in [
        (Some(GaugeFace::Landing), vec![missing.clone()]),
        (Some(GaugeFace::Upper), vec![missing.clone()]),
        (None, vec![face, missing]),
    ] {
        let sheet = worked(|case| {
            case.kit.gauges[0].constant_mm = None;
            case.kit.gauges[0].reads = reads;
        });
        for n in 0..3 {
            let step = step_of(&sheet, n);
            assert_eq!(shown(&step.set), "20.7");
            assert_eq!(step.gauge.as_ref().unwrap().value.reasons(), reasons);
        }
        let items = sheet.loading.iter().filter_map(|item| item.set.as_ref());
        assert!(items.clone().count() > 0);
        assert!(items.clone().all(|on| on.gauge.value().is_none()));
    }
}

/// The last graduation is in range, one beyond is not; what is outside is never moved to the end
/// of the scale.
#[test]
fn outside_the_gauge_is_no_setting() {
    for (from, to, set) in [
        ("5", "20.7", "20.7"),
        ("5", "20.6", "unknown"),
        ("20.7", "30", "20.7"),
        ("20.8", "30", "unknown"),
    ] {
        let sheet = worked(|case| {
            case.kit.gauges[0].from_mm = mm(from);
            case.kit.gauges[0].to_mm = mm(to);
            case.sites[0].steps.truncate(1);
        });
        let step = step_of(&sheet, 0);
        assert_eq!(shown(&step.set), set, "{from} to {to}");
        if set == "unknown" {
            for figure in [&step.cut, step.gauge.as_ref().unwrap()] {
                assert_eq!(shown(figure), "unknown", "{}", figure.id);
            }
            assert_eq!(step.set.value.reasons(), [Reason::OutsideGauge(mm("20.7"))]);
            assert_eq!(
                judged(&sheet, "outside-gauge"),
                (Verdict::Short, "20.7".into())
            );
            assert_eq!(one(&sheet, "deep-structure").verdict, Verdict::Unknown);
        }
    }
}

/// The range is that of the figures on the gauge, not of set lengths: 20.7 + 3.5 = 24.2 is shown.
#[test]
fn the_range_holds_for_what_the_gauge_shows() {
    for (to, set) in [("24.2", "20.7"), ("24.1", "unknown")] {
        let sheet = worked(|case| {
            case.kit.gauges[0].reads = Some(GaugeFace::Upper);
            case.kit.gauges[0].to_mm = mm(to);
        });
        assert_eq!(shown(&step_of(&sheet, 0).set), set);
    }
}

#[test]
fn without_a_gauge_there_is_no_setting() {
    let sheet = worked(|case| case.setup.gauge = None);
    let step = step_of(&sheet, 0);
    assert_eq!(step.set.value.reasons(), [Reason::Missing(Place::Gauge)]);
    assert_eq!(shown(step.gauge.as_ref().unwrap()), "unknown");
    assert_eq!(all(&sheet, "setting-unknown").len(), 3);
}
