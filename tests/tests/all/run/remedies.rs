//! A remedy of a shortage is tried whole: applied, it settles it and nothing becomes open.

use super::{changed, go_on};
use crate::demo::{self, CASES};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use traywright_core::case::{GuideState, ValidCase, apply};
use traywright_core::plan::{Severity, Worksheet, work_out};
use traywright_core::run::{StockChange, StockRemedy, stock_remedies};

/// A case with one piece less of an entry than it needs. Nothing obstructs a stop, and of each stop
/// there is another sort that is like it.
fn one_less(name: &str, list: &str, entry: &str, needed: u32) -> (ValidCase, Worksheet) {
    changed(name, |case| {
        for site in &mut case.sites {
            site.obstacles.clear();
        }
        for drill in &mut case.kit.drills {
            if list == "drills" && drill.id.as_str() == entry {
                drill.quantity = needed - 1;
            }
        }
        let mut others = case.kit.stops.clone();
        for stop in &mut others {
            stop.id = format!("{}-like", stop.id).as_str().into();
        }
        for stop in &mut case.kit.stops {
            if list == "stops" && stop.id.as_str() == entry {
                stop.quantity = needed - 1;
            }
        }
        case.kit.stops.extend(others);
    })
}

fn open(sheet: &Worksheet) -> BTreeMap<String, Severity> {
    let open = sheet.findings.iter().filter(|f| f.severity().is_open());
    open.map(|f| (f.key(), f.severity())).collect()
}

fn kind(remedy: &StockRemedy) -> &'static str {
    match remedy.change {
        StockChange::OtherStop { .. } => "other stop",
        StockChange::OneFigure { .. } => "one figure",
        StockChange::Distance { .. } => "distance",
        StockChange::FixedStop { .. } => "fixed stop",
    }
}

#[test]
fn every_change_that_is_offered_settles_the_shortage_and_opens_nothing() {
    let live = traywright_core::case::read_kit(&demo::bytes("kit")).unwrap();
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for name in CASES {
        for line in work_out(&demo::valid(name)).stock {
            if !matches!(line.list, "drills" | "stops") || line.needed < 2 {
                continue;
            }
            let (case, sheet) = one_less(name, line.list, &line.entry, line.needed);
            let key = format!("stock-short kit.{}[{}]", line.list, line.entry);
            assert!(open(&sheet).contains_key(&key), "{name} {key}");
            for remedy in stock_remedies(&case, &sheet, &live, &mut go_on) {
                let after = work_out(&apply(&case, &remedy.edits).unwrap());
                let now = open(&after);
                assert!(!now.contains_key(&key), "{name} {remedy:?}");
                let before = open(&sheet);
                let worse = now.iter().find(|(key, _)| !before.contains_key(*key));
                assert_eq!(worse, None, "{name} {remedy:?}");
                *seen.entry(kind(&remedy)).or_default() += 1;
            }
        }
    }
    for kind in ["other stop", "distance"] {
        assert!(seen.get(kind).is_some_and(|count| *count > 1), "{seen:?}");
    }
}

#[test]
fn no_distance_is_offered_once_the_guide_is_made() {
    let offered = |state: GuideState| {
        let line = |sheet: &Worksheet| {
            let mut lines = sheet.stock.iter();
            let found = lines.find(|line| line.entry == "pilot-213");
            found.map_or(0, |line| line.needed)
        };
        let needed = line(&work_out(&demo::valid("two-molars")));
        let (case, _) = one_less("two-molars", "drills", "pilot-213", needed);
        let mut case = case.into_case();
        case.guide.state = state;
        let case = ValidCase::try_from(case).unwrap();
        let remedies = stock_remedies(&case, &work_out(&case), &case.kit, &mut go_on);
        remedies.iter().filter(|r| kind(r) == "distance").count()
    };
    assert!(offered(GuideState::Planned) > 0);
    assert_eq!(offered(GuideState::Made), 0);
}

#[test]
fn the_search_ends_before_the_next_change_is_tried() {
    let (case, sheet) = one_less("two-molars", "drills", "pilot-213", 3);
    let mut asked = 0;
    let all = stock_remedies(&case, &sheet, &case.kit, &mut || {
        asked += 1;
        ControlFlow::Continue(())
    });
    assert!(asked > 3 && !all.is_empty(), "{asked}");
    let mut left = 2;
    let some = stock_remedies(&case, &sheet, &case.kit, &mut || {
        assert!(left >= 0, "asked again after it ended");
        left -= 1;
        if left < 0 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    });
    assert!(left == -1 && some.len() <= 2);
    let none = stock_remedies(&case, &sheet, &case.kit, &mut || ControlFlow::Break(()));
    assert_eq!(none, []);
}
