//! Without a gauge no setting is known, but none is above the exact length: what the deepest cut that
//! any gauge could give leaves is left at least.

use super::sample::{case, each_drill, mm, one, work};
use traywright_core::case::{Case, Direction, HeightDatum, StructureExtent};
use traywright_core::kit::Datum;
use traywright_core::plan::{Finding, Place, Reason, Rule, Verdict};

fn canal(height: &str, change: impl FnOnce(&mut Case)) -> Finding {
    let mut case = case();
    case.sites[0].structures[0].extent = StructureExtent::Below {
        height_mm: mm(height),
        from: HeightDatum::Platform,
        direction: Direction::Vertical,
    };
    each_drill(&mut case, |drill| drill.datum = Datum::FullDiameter {});
    case.setup.gauge = None;
    change(&mut case);
    one(&work(case), "deep-structure").clone()
}

/// Counted at the full diameter the drills are to go 10.0 below the platform and their longest point
/// beyond, 0.928 mm: a canal at 13.0 keeps 2.072 of the 2.0 that it is to have. With a gauge of 0.1 the
/// cut is 10.9, and it keeps 2.1.
#[test]
fn what_the_exact_depth_leaves_is_left_at_least() {
    let with = canal("13", |case| case.setup.gauge = self::case().setup.gauge);
    assert_eq!(
        (with.length_value(), with.is_at_least()),
        (Some(mm("2.1")), false)
    );
    let found = canal("13", |_| ());
    assert_eq!(found.verdict, Verdict::Clear);
    assert!(found.is_at_least());
    let left = found.length_value().unwrap();
    assert!(left <= mm("2.1") && left > mm("2"), "{left}");
}

/// A limit that the exact depth breaks is not said to be broken, for less may be cut: that is unknown.
/// What the implant breaks by itself is.
#[test]
fn a_limit_that_only_the_exact_depth_breaks_is_unknown() {
    for (height, verdict) in [
        ("12.9", Verdict::Unknown),
        ("12", Verdict::Unknown),
        ("11.999", Verdict::Short),
    ] {
        let found = canal(height, |_| ());
        assert_eq!(found.verdict, verdict, "{height}");
        assert!(!found.is_at_least());
        if verdict == Verdict::Unknown {
            let no_gauge = Reason::Missing(Place::Gauge);
            assert!(found.value.reasons().contains(&no_gauge), "{height}");
        }
    }
}

/// Nothing is bounded where more than the gauge is missing.
#[test]
fn without_the_exact_depth_nothing_is_bounded() {
    let found = canal("30", |case| case.sites[0].platform_to_sleeve = None);
    assert_eq!(found.verdict, Verdict::Unknown);
    let found = canal("30", |case| case.sites[0].steps[1].stop = None);
    assert_eq!(found.verdict, Verdict::Unknown);
}

/// No setting, no cut and no drawing is made of the bound: only the margin counts by it.
#[test]
fn the_settings_stay_unknown() {
    let mut case = case();
    case.setup.gauge = None;
    let sheet = work(case);
    for step in &sheet.sites[0].steps {
        assert_eq!((step.set.length(), step.cut.length()), (None, None));
    }
    assert_eq!(sheet.sites[0].deepest_cut.length(), None);
}

/// Settings that nobody knows may be equal, so that one drill does for several: with the gauge everything
/// is there and has its place, so without it nothing is missing. Two that differ need two for certain.
#[test]
fn what_may_be_shared_is_not_missing_without_a_gauge() {
    let told = |name: &str, change: &dyn Fn(&mut Case)| {
        let mut case = crate::demo::valid(name).into_case();
        change(&mut case);
        let sheet = work(case);
        let all = sheet.findings.iter();
        let found: Vec<Finding> = all
            .filter(|f| matches!(f.rule, Rule::StockShort | Rule::NoSlot))
            .cloned()
            .collect();
        found
    };
    let no_gauge = |case: &mut Case| case.setup.gauge = None;
    let mut seen = 0;
    for name in crate::demo::CASES {
        assert!(told(name, &|_| ()).is_empty(), "{name}");
        for found in told(name, &no_gauge) {
            assert_eq!(found.verdict, Verdict::Unknown, "{name}: {found:?}");
            let no_gauge = Reason::Missing(Place::Gauge);
            assert!(
                found.value.reasons().contains(&no_gauge),
                "{name}: {found:?}"
            );
            seen += 1;
        }
    }
    assert!(seen > 3, "{seen}");
    // What no setting could share is missing all the same.
    let none = |case: &mut Case| {
        no_gauge(case);
        case.kit
            .drills
            .iter_mut()
            .for_each(|drill| drill.quantity = 0);
    };
    let found = told("full-arch-upper", &none);
    let drills = found
        .iter()
        .filter(|f| f.place.key().starts_with("kit.drills"));
    assert!(drills.clone().count() > 3);
    assert!(drills.clone().all(|f| f.verdict == Verdict::Short));
}
