//! Fixed stops: the lengths that they give, what they fall short of, the distances that fit.

use super::sample::{all, mm, settings, shown, step_of, worked};
use traywright_core::case::{Case, GuideState, PlatformToSleeve, SleeveFace};
use traywright_core::kit::{FixedLength, StopKind};
use traywright_core::plan::{Reason, Verdict};

/// Stop `u` gives these lengths on these drills, in mm.
fn fixed(case: &mut Case, lengths: &[(&str, &str)]) {
    let lengths = lengths.iter().map(|(drill, length)| FixedLength {
        drill: (*drill).into(),
        tip_to_landing_mm: mm(length),
    });
    case.kit.stops[0].depth = StopKind::Fixed {
        lengths: lengths.collect(),
    };
}

/// Exact 20.7. On `a` 20.0 is the largest not above it and falls 0.7 short; on `b` 20.7 fits
/// exactly; on `c` 20.701 is above by one micrometre, so 19.0, 1.7 short.
#[test]
fn the_largest_fixed_length_not_above_exact() {
    let sheet = worked(|case| {
        fixed(
            case,
            &[
                ("a", "18"),
                ("a", "20"),
                ("a", "22"),
                ("b", "20.7"),
                ("c", "19"),
                ("c", "20.701"),
            ],
        );
    });
    assert_eq!(settings(&sheet), ["20", "20.7", "19"]);
    let site = &sheet.sites[0];
    let short: Vec<_> = site.steps.iter().map(|s| shown(&s.shortfall)).collect();
    assert_eq!(short, ["0.7", "0", "1.7"]);
    let cut: Vec<_> = site.steps.iter().map(|s| shown(&s.cut)).collect();
    assert_eq!(cut, ["9.3", "10", "8.3"]);
    // The gauge checks what the stop gives.
    assert_eq!(shown(step_of(&sheet, 0).gauge.as_ref().unwrap()), "20");
}

/// Lengths of another drill do not serve, and none short enough is no setting.
#[test]
fn a_stop_that_gives_nothing_short_enough_gives_nothing() {
    let sheet = worked(|case| fixed(case, &[("a", "20.8"), ("b", "20.7")]));
    assert_eq!(settings(&sheet), ["unknown", "20.7", "unknown"]);
    assert_eq!(
        step_of(&sheet, 0).set.value.reasons(),
        [Reason::NothingFits]
    );
    let found = all(&sheet, "no-fixed-length-fits");
    assert_eq!(found.len(), 2);
    assert!(found.iter().all(|f| f.verdict == Verdict::Short));
}

/// A gauge of 0.1 from 5 to 30 shows neither 20.65 nor, with a constant of 15, 35.2: there is no
/// gauge figure and a finding says so; the stop gives its length all the same. One that it can show
/// has no such finding.
#[test]
fn a_length_that_the_gauge_cannot_show_is_no_gauge_figure() {
    for (length, constant, shown_as, reason) in [
        (
            "20.65",
            "0",
            "unknown",
            Some(Reason::BetweenGraduations(mm("20.65"))),
        ),
        (
            "20.2",
            "15",
            "unknown",
            Some(Reason::OutsideGauge(mm("35.2"))),
        ),
        ("4.9", "0", "unknown", Some(Reason::OutsideGauge(mm("4.9")))),
        ("20.6", "0", "20.6", None),
        ("20.65", "0.05", "20.7", None),
    ] {
        let sheet = worked(|case| {
            fixed(case, &[("a", length)]);
            case.kit.gauges[0].constant_mm = Some(mm(constant));
            case.sites[0].steps.truncate(1);
        });
        let step = step_of(&sheet, 0);
        assert_eq!(shown(&step.set), length);
        let gauge = step.gauge.as_ref().unwrap();
        assert_eq!(shown(gauge), shown_as, "{length} {constant}");
        let reasons: Vec<Reason> = reason.into_iter().collect();
        assert_eq!(gauge.value.reasons(), reasons);
        let found = all(&sheet, "fixed-stop-off-gauge");
        assert_eq!(found.len(), reasons.len(), "{length} {constant}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
        assert_eq!(
            sheet.loading[0].set.as_ref().unwrap().gauge,
            gauge.known_length()
        );
    }
}

/// Exact 20.7 at a distance of 6.0; stops of 18.0, 20.0, 22.0 on `a` and 20.3, 21.0 on `b`.
///
/// | distance | exact | a       | b        | fits exactly | shortfall |
/// | 5.3      | 20.0  | 20.0    | none     | not offered  |           |
/// | 5.6      | 20.3  | 20.0    | 20.3     | 1            | 0.3       |
/// | 6.3      | 21.0  | 20.0    | 21.0     | 1            | 1.0       |
/// | 7.3      | 22.0  | 22.0    | 21.0     | 1            | 1.0       |
///
/// 18.0 would need a distance of 3.3, where `b` has nothing. Of the last two, 6.3 is nearer.
#[test]
fn offers_the_distances_at_which_a_stop_fits() {
    let change = |case: &mut Case| {
        fixed(
            case,
            &[
                ("a", "18"),
                ("a", "20"),
                ("a", "22"),
                ("b", "20.3"),
                ("b", "21"),
            ],
        );
        case.sites[0].steps.truncate(2);
    };
    let offered =
        |sheet: traywright_core::plan::Worksheet| -> Vec<(String, String, usize, String)> {
            let offers = sheet.sites[0].fitting_distances.iter();
            offers
                .map(|o| {
                    let texts = (o.apical_mm.to_string(), o.as_entered_mm.to_string());
                    (texts.0, texts.1, o.exact_steps, o.shortfall.to_string())
                })
                .collect()
        };
    let line = |apical: &str, entered: &str, exact, short: &str| {
        (
            apical.to_owned(),
            entered.to_owned(),
            exact,
            short.to_owned(),
        )
    };
    assert_eq!(
        offered(worked(change)),
        [
            line("5.6", "5.6", 1, "0.3"),
            line("6.3", "6.3", 1, "1"),
            line("7.3", "7.3", 1, "1"),
        ]
    );
    // Entered to the coronal rim, the offers are too: 4.0 more.
    let coronal = worked(|case| {
        change(case);
        case.sites[0].platform_to_sleeve = Some(PlatformToSleeve {
            entered_mm: mm("10"),
            to: SleeveFace::Coronal,
        });
    });
    assert_eq!(offered(coronal)[0], line("5.6", "9.6", 1, "0.3"));
    // Tissue: at 6.0 the room is 6.0 − 1.0 − 1.5 = 3.5 (flap); with a crest of 4.2 it is 0.3, so
    // nothing below 5.7 is offered; with 4.1 it is 0.4, and 5.6 has just its room.
    for (crest, first) in [("4.2", "6.3"), ("4.1", "5.6")] {
        let sheet = worked(|case| {
            change(case);
            let heights = &mut case.sites[0].heights;
            heights.platform_below_crest.as_mut().unwrap().highest_mm = mm(crest);
        });
        assert_eq!(offered(sheet)[0].0, first, "{crest}");
    }
    // A guide that is made does not change; unknown room offers nothing.
    let made = worked(|case| {
        change(case);
        case.guide.state = GuideState::Made;
    });
    assert_eq!(offered(made), []);
    let unknown = worked(|case| {
        change(case);
        case.sites[0].heights.platform_below_crest = None;
    });
    assert_eq!(offered(unknown), []);
}

/// Two steps that fit at one distance come before one that falls less short.
#[test]
fn the_distance_that_serves_most_steps_comes_first() {
    let sheet = worked(|case| {
        // At 6.3 (exact 21.0) both fit; at 6.0 (20.7) only `a` fits and `b` falls 0.1 short.
        fixed(
            case,
            &[("a", "20.7"), ("a", "21"), ("b", "20.6"), ("b", "21")],
        );
        case.sites[0].steps.truncate(2);
    });
    let first = &sheet.sites[0].fitting_distances[0];
    assert_eq!((first.apical_mm, first.exact_steps), (mm("6.3"), 2));
    assert_eq!(first.shortfall, mm("0"));
}
