//! Enough, short, or enough only with stops set anew in surgery.

use super::{changed, solved};
use traywright_core::plan::Quantity;

/// An entry's stock line for so many of a drill and of a stop: needed, there, with re-sets.
fn line(drills: u32, stops: u32, list: &str, entry: &str) -> (u32, u32, Option<u32>) {
    let (_, sheet) = changed("two-molars", |case| {
        for drill in &mut case.kit.drills {
            if drill.id.as_str() == "pilot-213" {
                drill.quantity = drills;
            }
        }
        for stop in &mut case.kit.stops {
            if stop.id.as_str() == "stop-213" {
                stop.quantity = stops;
            }
        }
    });
    let line = sheet
        .stock
        .iter()
        .find(|l| (l.list, l.entry.as_str()) == (list, entry));
    let line = line.unwrap();
    (line.needed, line.have, line.with_resets)
}

#[test]
fn one_drill_does_for_several_settings_with_resets_and_none_never_does() {
    let (needed, ..) = line(9, 9, "drills", "pilot-213");
    assert!(needed > 1, "{needed}");
    let drill = |have| line(have, 9, "drills", "pilot-213");
    assert_eq!(drill(needed), (needed, needed, None));
    assert_eq!(drill(needed - 1), (needed, needed - 1, Some(1)));
    assert_eq!(drill(1), (needed, 1, Some(needed - 1)));
    assert_eq!(drill(0), (needed, 0, None));
    let stop = |have| line(9, have, "stops", "stop-213");
    assert_eq!(stop(1), (needed, 1, Some(needed - 1)));
    assert_eq!(stop(0), (needed, 0, None));
}

#[test]
fn the_finding_tells_it_and_the_run_order_counts_as_many_at_the_least() {
    let (case, sheet) = changed("two-molars", |case| {
        for drill in &mut case.kit.drills {
            if drill.id.as_str() == "pilot-213" {
                drill.quantity = 1;
            }
        }
    });
    let finding = sheet
        .findings
        .iter()
        .find(|f| f.rule == "stock-short")
        .unwrap();
    assert_eq!(finding.value.get(), Some(Quantity::Count(1)));
    let line = sheet.stock.iter().find(|l| l.entry == "pilot-213").unwrap();
    let resets = line.with_resets.unwrap();
    let run = solved(&case, &sheet).unwrap();
    assert!(run.proved && run.best.cost.resets >= resets);
}
