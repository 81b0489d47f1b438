//! Properties that hold for every case.

use super::generated::{any_case, any_length};
use super::sample::{case, mm, work};
use proptest::prelude::*;
use traywright_core::case::{Case, Setting};
use traywright_core::kit::{GaugeFace, StopKind};
use traywright_core::measure::{Angle, Length};
use traywright_core::plan::{Figure, Finding, Known, Quantity, Rule, StepPath, StepSheet, Verdict};

/// True if the step's stop is set on a gauge.
fn is_adjustable(case: &Case, step: &StepSheet) -> bool {
    let stop = step.stop.as_ref().and_then(|id| case.kit.stop(id));
    stop.is_some_and(|stop| stop.depth == StopKind::Adjustable {})
}

fn length(figure: &Figure) -> Option<i64> {
    figure.length().map(Length::um)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    /// A decision names one finding by its key, and so no two have the same.
    #[test]
    fn no_two_findings_have_one_key(case in any_case()) {
        let sheet = work(case);
        let mut keys: Vec<String> = sheet.findings.iter().map(Finding::key).collect();
        keys.sort();
        let twice = keys.windows(2).find(|two| two[0] == two[1]);
        prop_assert!(twice.is_none(), "{:?}", twice);
    }

    /// No setting is deeper than exact; an adjustable one with a figure of its own gives away less
    /// than a graduation; a gauge shows whole graduations within its range; cut and shortfall
    /// agree with what they come from.
    #[test]
    fn a_setting_is_never_deeper_than_exact(case in any_case()) {
        let sheet = work(case.clone());
        for (site, entered) in sheet.sites.iter().zip(&case.sites) {
            let mut deepest = None;
            for step in &site.steps {
                let (Some(exact), Some(set)) = (length(&step.exact), length(&step.set)) else {
                    prop_assert_eq!(length(&step.cut), None);
                    continue;
                };
                prop_assert!(set <= exact, "{:?}", step);
                let seat = length(&step.seat).unwrap();
                prop_assert_eq!(length(&step.cut), Some(set - seat));
                prop_assert_eq!(length(&step.shortfall), Some(exact - set));
                deepest = deepest.max(Some(set - seat));
                if is_adjustable(&case, step) {
                    let gauge = &case.kit.gauges[0];
                    let graduation = gauge.graduation_mm.um();
                    if entered.setting == Setting::EachStep {
                        prop_assert!(exact - set < graduation, "{:?}", step);
                    }
                    match length(step.gauge.as_ref().unwrap()) {
                        Some(shown) => {
                            prop_assert_eq!(shown.rem_euclid(graduation), 0);
                            prop_assert!(gauge.from_mm.um() <= shown && shown <= gauge.to_mm.um());
                        }
                        None => prop_assert!(gauge.reads.is_none()),
                    }
                }
            }
            if let Some(cut) = length(&site.deepest_cut) {
                prop_assert_eq!(Some(cut), deepest);
            }
        }
    }

    /// Raised by a number of graduations, the distance raises each setting by as much, wherever
    /// both are on the gauge's scale; the cut stays.
    #[test]
    fn a_distance_raised_by_graduations_raises_each_setting(case in any_case(), times in 1_i64..20) {
        let low = work(case.clone());
        let raise = times * case.kit.gauges[0].graduation_mm.um();
        let mut raised = case.clone();
        for site in &mut raised.sites {
            if let Some(distance) = &mut site.platform_to_sleeve {
                distance.entered_mm += Length::from_um(raise);
            }
        }
        let high = work(raised);
        for (low, (high, entered)) in low.sites.iter().zip(high.sites.iter().zip(&case.sites)) {
            // With one figure a step that leaves the scale changes the figure of all.
            let on_scale = |step: &StepSheet| step.set.length().is_some();
            let all = low.steps.iter().chain(&high.steps).all(on_scale);
            if entered.setting == Setting::OneFigure && !all {
                continue;
            }
            for (low, high) in low.steps.iter().zip(&high.steps) {
                let guided = low.path != StepPath::Freehand;
                let (Some(before), Some(after)) = (length(&low.set), length(&high.set)) else {
                    continue;
                };
                if guided && is_adjustable(&case, low) {
                    prop_assert_eq!(after - before, raise);
                    prop_assert_eq!(length(&low.cut), length(&high.cut));
                } else if !guided {
                    prop_assert_eq!(after, before);
                }
            }
        }
    }

    /// An unknown figure says why, and whatever is clear has a value and, where it is a clearance,
    /// a limit that it keeps.
    #[test]
    fn nothing_unknown_is_clear(case in any_case()) {
        let sheet = work(case);
        for site in &sheet.sites {
            for step in &site.steps {
                let figures = [&step.seat, &step.prep, &step.exact, &step.set, &step.cut];
                for figure in figures.into_iter().chain(&step.gauge).chain(&step.bench) {
                    if let Known::Unknown(reasons) = &figure.value {
                        prop_assert!(!reasons.is_empty(), "{}", figure.id);
                    }
                }
            }
        }
        for finding in &sheet.findings {
            if finding.verdict == Verdict::Clear {
                prop_assert!(finding.value.value().is_some(), "{:?}", finding);
                prop_assert!(finding.limit.is_some(), "{:?}", finding);
            }
            if let (Verdict::Clear, Some(Quantity::Length(limit)), Some(value)) =
                (finding.verdict, finding.limit, finding.length_value())
                && finding.rule != Rule::Receipt
            {
                prop_assert!(value >= limit, "{:?}", finding);
            }
        }
    }
}

/// Bore, sleeve length and distance of the first step, whose drill is 1.9.
fn play_of(bore: Length, sleeve: Length, distance: Length) -> (Angle, Length) {
    let mut case = case();
    case.kit.drill_sleeves[0].bore_mm = bore;
    case.kit.drill_sleeves[0].length_mm = sleeve;
    case.kit.gauges[0].to_mm = mm("90");
    case.sites[0]
        .platform_to_sleeve
        .as_mut()
        .unwrap()
        .entered_mm = distance;
    case.sites[0].steps.truncate(1);
    let sheet = work(case);
    let play = sheet.sites[0].play[0].as_ref().unwrap();
    let Some(Quantity::Angle(tilt)) = play.tilt.value.get() else {
        panic!("{play:?}")
    };
    (tilt, play.at_tip.length().unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// A longer guided length, a smaller clearance, a shorter reach: none of them plays more.
    #[test]
    fn what_guides_better_never_plays_more(
        bore in any_length("1.91", "2.4"),
        sleeve in any_length("1", "9"),
        distance in any_length("0", "20"),
        less in any_length("0", "0.01"),
        longer in any_length("0", "6"),
        shorter in any_length("0", "20"),
    ) {
        let (tilt, lateral) = play_of(bore, sleeve, distance);
        let mut better = vec![
            play_of(bore - less, sleeve, distance),
            play_of(bore, sleeve + longer, distance),
        ];
        if shorter <= distance {
            better.push(play_of(bore, sleeve, distance - shorter));
        }
        for (n, (other_tilt, other_lateral)) in better.into_iter().enumerate() {
            prop_assert!(other_tilt <= tilt && other_lateral <= lateral, "{}", n);
        }
        // And strictly less where something clearly changed.
        let (better_tilt, better_lateral) = play_of(bore, sleeve + mm("1"), distance);
        prop_assert!(better_tilt < tilt && better_lateral < lateral);
    }

    /// Whatever the offset between set length and gauge, also one between two graduations: never
    /// deeper, less than a graduation given away, and the gauge shows set length and offset.
    #[test]
    fn an_offset_never_deepens(
        constant in any_length("-2", "3"),
        body in any_length("1", "5"),
        graduation in any_length("0.001", "0.7"),
        distance in any_length("0", "9"),
        upper in any::<bool>(),
    ) {
        let mut case = case();
        let gauge = &mut case.kit.gauges[0];
        gauge.to_mm = mm("60");
        gauge.constant_mm = Some(constant);
        gauge.graduation_mm = graduation;
        gauge.reads = Some(if upper { GaugeFace::Upper } else { GaugeFace::Landing });
        case.kit.stops[0].body_height_mm = body;
        case.sites[0].platform_to_sleeve.as_mut().unwrap().entered_mm = distance;
        let offset = constant + if upper { body } else { Length::ZERO };
        for step in &work(case).sites[0].steps {
            let (exact, set) = (step.exact.length().unwrap(), step.set.length().unwrap());
            let shown = step.gauge.as_ref().unwrap().length().unwrap();
            prop_assert!(set <= exact && exact - set < graduation);
            prop_assert_eq!(shown, set + offset);
            prop_assert_eq!(shown.floor_to(graduation), shown);
        }
    }
}
