//! Cuts that end so far above their planned depth that the implant does not seat.

use super::sample::{all, mm, one, received, worked};
use traywright_core::case::LimitId;
use traywright_core::case::{Case, GuideState, GuidedExtent, ReceiptOf, Setting};
use traywright_core::kit::{Datum, DepthRule, DrillKind, DrillMark};
use traywright_core::plan::Place;
use traywright_core::plan::{Finding, Fits, Quantity, Reason, Verdict, Worksheet};

/// Drill `n` with one mark, read instead of a stop.
fn marked(case: &mut Case, n: usize, at: &str) {
    case.sites[0].steps[n].stop = None;
    case.kit.drills[n].marks = vec![DrillMark {
        name: "L".into(),
        lower_edge_mm: mm(at),
        upper_edge_mm: None,
    }];
}

fn short(sheet: &Worksheet) -> Vec<(String, String)> {
    let found = all(sheet, "ends-short");
    let told = |f: &&Finding| {
        assert_eq!(f.verdict, Verdict::Short);
        let value = f.length_value().unwrap().to_string();
        (f.step.clone().unwrap().to_string(), value)
    };
    found.iter().map(told).collect()
}

/// The last drill's mark is at 20.2 of 20.7: 0.5 is just allowed (common practice, no source); a
/// micrometre more is not.
#[test]
fn the_last_drill_must_come_near_its_depth() {
    let at = |mark: &'static str| short(&worked(|case| marked(case, 2, mark)));
    assert_eq!(at("20.2"), []);
    assert_eq!(at("20.199"), [("c".into(), "0.501".into())]);
}

/// A drill that ends shallow fits: its setting is what the shortage is judged by.
#[test]
fn a_drill_that_ends_shallow_keeps_its_setting() {
    let sheet = worked(|case| marked(case, 2, "20.1"));
    assert_eq!(short(&sheet).len(), 1);
    let step = super::sample::step_of(&sheet, 2);
    assert_eq!(step.fits, Fits::AsFarAsKnown);
}

/// A wider drill afterwards takes what a narrower one leaves. Not so the other way round, nor where
/// the wider one is to stay shallow itself.
#[test]
fn a_wider_drill_makes_a_narrower_one_good() {
    assert_eq!(short(&worked(|case| marked(case, 0, "19"))), []);
    let shaped = worked(|case| {
        marked(case, 1, "19");
        case.sites[0].steps[2].depth = DepthRule::BelowPlatform { depth_mm: mm("4") };
    });
    assert_eq!(short(&shaped), [("b".into(), "1.7".into())]);
    // A second pass with the same drill.
    let twice = worked(|case| {
        let mut again = case.sites[0].steps[2].clone();
        again.id = "again".into();
        marked(case, 2, "19");
        case.sites[0].steps.push(again);
    });
    assert_eq!(short(&twice), []);
}

/// The widest drill is planned 1 short of full: what it loses of its own depth, 19.7, is told like any other's. Not where a
/// drill as wide, or a wider one, goes on as deep.
#[test]
fn a_partial_pass_comes_near_its_own_depth() {
    let short_by = |by: &str| DepthRule::ShortOfFull { by_mm: mm(by) };
    let pass = |at: &str| {
        short(&worked(|case| {
            marked(case, 2, at);
            case.sites[0].steps[2].depth = short_by("1");
        }))
    };
    assert_eq!(pass("19.2"), []);
    assert_eq!(pass("19.199"), [("c".into(), "0.501".into())]);
    assert_eq!(pass("14"), [("c".into(), "5.7".into())]);
    // The first pass of a drill, then a second one.
    let twice = |at: &str, then: DepthRule| {
        short(&worked(|case| {
            let mut again = case.sites[0].steps[2].clone();
            (again.id, again.depth) = ("again".into(), then);
            let stop = again.stop.clone();
            marked(case, 2, at);
            again.stop = stop;
            case.sites[0].steps[2].depth = short_by("3");
            case.sites[0].steps.push(again);
        }))
    };
    assert_eq!(twice("14", DepthRule::Full {}), []);
    assert_eq!(twice("14", short_by("3")), []);
    assert_eq!(twice("14", short_by("3.1")), [("c".into(), "3.7".into())]);
    // A wider drill that is to stay above it takes nothing of what it leaves.
    let above = |by: &str| {
        short(&worked(|case| {
            marked(case, 1, "15");
            case.sites[0].steps[1].depth = short_by("2");
            case.sites[0].steps[2].depth = short_by(by);
        }))
    };
    assert_eq!(above("2"), []);
    assert_eq!(above("2.1"), [("b".into(), "3.7".into())]);
    // A tap that is to end above the bore loses its own depth too.
    let tap = short(&worked(|case| {
        case.kit.drills[2].kind = DrillKind::Tap;
        case.sites[0].steps[2].depth = short_by("1.2");
        marked(case, 2, "15");
    }));
    assert_eq!(tap, [("c".into(), "4.5".into())]);
}

/// A tap follows the bore and makes none: as wide as it is, it takes nothing of what the last drill
/// leaves, here 20.7 − 19.0 = 1.7.
#[test]
fn a_tap_does_not_make_a_drill_good() {
    let with = |kind: DrillKind| {
        short(&worked(|case| {
            let mut wider = case.kit.drills[2].clone();
            wider.id = "t".into();
            wider.kind = kind;
            wider.cutting_diameter_mm = mm("4");
            case.kit.drills.push(wider);
            let mut last = case.sites[0].steps[2].clone();
            (last.id, last.drill) = ("t".into(), "t".into());
            case.sites[0].steps.push(last);
            marked(case, 2, "19");
        }))
    };
    assert_eq!(with(DrillKind::Tap), [("c".into(), "1.7".into())]);
    assert_eq!(with(DrillKind::Twist), []);
}

/// One figure for a sequence of which only the last drill counts at its full diameter leaves that
/// one shallow by its point, 0.9 of 0.991 on the gauge.
#[test]
fn one_figure_may_leave_too_much() {
    let sheet = worked(|case| {
        case.kit.drills[2].datum = Datum::FullDiameter {};
        case.sites[0].setting = Setting::OneFigure;
    });
    assert_eq!(short(&sheet), [("c".into(), "0.991".into())]);
}

/// A guide that seats 0.6 higher leaves every guided cut as much too shallow.
#[test]
fn a_guide_that_seats_high_counts() {
    let sheet = worked(|case| {
        case.guide.state = GuideState::Made;
        case.guide.receipt = vec![received(case, ReceiptOf::PlatformToSleeve, "6.6")];
    });
    assert_eq!(short(&sheet), [("c".into(), "0.6".into())]);
}

/// Freehand a stop lands on the highest crest, 1.2 above the lowest that the depth is counted from;
/// a mark is read where it is to be.
#[test]
fn freehand_a_stop_lands_on_what_stands_highest() {
    let between = |case: &mut Case, highest: &str, lowest: &str| {
        case.sites[0].guided_extent = GuidedExtent::PilotOnly;
        let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
        (crest.highest_mm, crest.lowest_mm) = (mm(highest), mm(lowest));
    };
    let uneven = |case: &mut Case| between(case, "1.2", "0");
    assert_eq!(short(&worked(uneven)), [("c".into(), "1.2".into())]);
    // Above the platform on one side and below it on the other: 0.3 + 0.4.
    let across = worked(|case| between(case, "0.3", "-0.4"));
    assert_eq!(short(&across), [("c".into(), "0.7".into())]);
    let raised = worked(|case| between(case, "1.2", "0.7"));
    assert_eq!(short(&raised), []);
    let read = worked(|case| {
        uneven(case);
        marked(case, 1, "10");
        marked(case, 2, "10");
    });
    assert_eq!(short(&read), []);
}

#[test]
fn without_a_limit_it_is_unknown() {
    let sheet = worked(|case| {
        marked(case, 2, "20.6");
        case.limits.shortfall = None;
    });
    let finding = one(&sheet, "ends-short");
    assert_eq!(finding.verdict, Verdict::Unknown);
    let missing = Reason::Missing(Place::Limit(LimitId::Shortfall));
    assert_eq!(finding.value.reasons(), [missing]);
    let exact = worked(|case| case.limits.shortfall = None);
    assert!(all(&exact, "ends-short").is_empty());
}

/// The program's own limit is 0.5: what only a looser one allows is told, and what both allow is not.
#[test]
fn what_only_a_looser_limit_allows_is_told() {
    let at = |mark: &str| {
        let sheet = worked(|case| {
            marked(case, 2, mark);
            case.limits.shortfall.as_mut().unwrap().limit_mm = mm("4");
        });
        let found = all(&sheet, "ends-short");
        let own = |f: &&Finding| (f.verdict, f.loosened.map(|loosened| loosened.own));
        found.iter().map(own).collect::<Vec<_>>()
    };
    assert_eq!(at("20.2"), []);
    let own = Some(Quantity::Length(mm("0.5")));
    assert_eq!(at("20.1"), [(Verdict::Note, own)]);
    assert_eq!(at("16"), [(Verdict::Short, own)]);
}
