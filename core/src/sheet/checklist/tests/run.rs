//! The page of what changes between the steps.

use super::samples::{CASES, changed, printed_at};
use super::*;
use crate::order::{Budget, Progress};
use crate::run::{BestOrder, run_problem};
use std::ops::ControlFlow;

const TITLE: &str = "Changes between the steps";

fn best(case: &ValidCase, work: u64) -> BestOrder {
    let worksheet = work_out(case);
    let budget = Budget {
        work,
        ..Budget::default()
    };
    let run = run_problem(case, &worksheet).unwrap();
    let on = &mut |_: &Progress<'_>| ControlFlow::Continue(());
    run.best(&worksheet.order, &budget, on)
}

fn its_pages(case: &ValidCase, best: Option<&BestOrder>) -> Vec<Page> {
    let (signed, at) = (Signed::nothing(), printed_at());
    let worksheet = work_out(case);
    let (a4, iso) = (Printing::all(Paper::A4), Notation::Iso);
    let pages = checklist(case, &worksheet, &signed, best, a4, iso, at).unwrap();
    holds_together(&pages, case.reference.as_str());
    let own = pages.into_iter().filter(|page| page.title == TITLE);
    own.collect()
}

/// Its steps have the numbers of the order of use, and are there in that order.
#[test]
fn the_steps_are_those_of_the_order_of_use() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let Ok(run) = run_problem(&case, &worksheet) else {
            continue;
        };
        let priced = run.price(&worksheet.order).unwrap();
        let done: Vec<_> = priced.steps.iter().map(|step| &step.what).collect();
        assert_eq!(done, worksheet.order.iter().collect::<Vec<_>>(), "{name}");
        let pages = its_pages(&case, None);
        // Between two pages stands the block with the revision.
        let mut read = pages.iter().flat_map(lines);
        for n in 1..=worksheet.order.len() {
            let wanted = n.to_string();
            assert!(read.any(|line| line == wanted), "{name}: no step {n}");
        }
    }
}

#[test]
fn how_good_the_order_is_stands_there_only_where_the_best_was_looked_for() {
    let case = changed("two-molars", |_| {});
    let without = read(&its_pages(&case, None));
    assert!(without.contains("Not calculated"), "{without}");
    assert!(!without.contains("above the minimum."), "{without}");
    let found = best(&case, 200_000);
    let with = read(&its_pages(&case, Some(&found)));
    assert!(with.contains("above the minimum."), "{with}");
    assert!(!with.contains("Not calculated"), "{with}");
}

/// An order that is accepted as the best one is shown as such.
#[test]
fn the_best_order_once_accepted_is_the_least_possible() {
    let mut case = changed("two-molars", |_| {}).into_case();
    let found = best(&ValidCase::try_from(case.clone()).unwrap(), 200_000);
    let steps = found.order.steps.iter();
    case.accepted_order = steps.filter_map(|step| step.what.ordered()).collect();
    let case = ValidCase::try_from(case).unwrap();
    let with = read(&its_pages(&case, Some(&found)));
    assert!(with.contains("The minimum possible."), "{with}");
    assert!(with.contains("as accepted"), "{with}");
}
