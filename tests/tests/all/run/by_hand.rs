//! A step put elsewhere by hand: what may go where, and what it costs at once.

use super::{changed, solved};
use std::ops::ControlFlow;
use traywright_core::case::{Edit, SiteBefore, UseOrder, apply};
use traywright_core::order::{Budget, Group, Progress};
use traywright_core::plan::{Operation, OrderBy, work_out};
use traywright_core::run::{
    Adherence, MoveRefused, RunInputs, Wish, moved, run_order, run_problem,
};

/// The place in the order of two molars of the n-th step at a site.
fn at(order: &[Operation], site: &str, n: usize) -> usize {
    let own = order.iter().enumerate();
    let mut own = own
        .filter(|(_, one)| matches!(one, Operation::Drill { site: s, .. } if s.as_str() == site));
    own.nth(n).expect("a step").0
}

#[test]
fn a_moved_step_is_followed_once_it_is_accepted_and_costs_what_was_told_before() {
    let (case, sheet) = changed("two-molars", |_| {});
    let run = run_problem(&case, &sheet).unwrap();
    let (first, second) = (case.sites[0].id.to_string(), case.sites[1].id.to_string());
    let (from, to) = (at(&sheet.order, &second, 0), at(&sheet.order, &first, 0));
    let order = moved(&case, &sheet, &run, from, to).unwrap();
    assert_eq!(order[to], sheet.order[from]);
    let told = run.price(&order).unwrap();
    let accepted = order.iter().filter_map(Operation::ordered).collect();
    let after = apply(&case, &[Edit::AcceptOrder(accepted)]).unwrap();
    let after_sheet = work_out(&after);
    assert_eq!(after_sheet.order_by, OrderBy::Accepted);
    assert_eq!(after_sheet.order, order);
    assert_eq!(solved(&after, &after_sheet).unwrap().followed, told);
    // And the best order is the same: it does not depend on the one that is followed.
    assert_eq!(
        RunInputs::of(&case, &sheet),
        RunInputs::of(&after, &after_sheet)
    );
}

#[test]
fn a_step_passes_neither_its_own_site_nor_what_is_done_for_the_whole_jaw() {
    let (case, sheet) = changed("two-molars", |_| {});
    let run = run_problem(&case, &sheet).unwrap();
    let order = &sheet.order;
    let first = case.sites[0].id.to_string();
    let stays = |from, to| moved(&case, &sheet, &run, from, to).unwrap_err();
    let (one, two) = (at(order, &first, 0), at(order, &first, 1));
    assert_eq!(stays(two, one), MoveRefused::Sequence(order[one].clone()));
    assert_eq!(stays(one, two), MoveRefused::Sequence(order[two].clone()));
    let jaw = order
        .iter()
        .position(|one| one.ordered().is_none())
        .unwrap();
    assert_eq!(stays(jaw, jaw + 1), MoveRefused::WholeJaw);
    assert_eq!(
        stays(jaw + 1, jaw),
        MoveRefused::Barrier(order[jaw].clone())
    );
    let off = order
        .iter()
        .position(|one| *one == Operation::GuideOff)
        .unwrap();
    assert_eq!(
        stays(off - 1, off),
        MoveRefused::Barrier(Operation::GuideOff)
    );
    assert_eq!(stays(one, order.len()), MoveRefused::End);
}

#[test]
fn a_rule_that_is_kept_holds_a_step_and_is_named() {
    for rule in [Wish::Group(Group::SiteBySite), Wish::Before(0)] {
        let (case, sheet) = changed("two-molars", |case| {
            case.setup.use_order = UseOrder::SiteBySite;
            match rule {
                Wish::Group(group) => drop(case.run.groups.insert(group)),
                _ => case.run.before.push(SiteBefore {
                    first: case.sites[0].id.clone(),
                    then: case.sites[1].id.clone(),
                }),
            }
        });
        let run = run_problem(&case, &sheet).unwrap();
        let second = case.sites[1].id.to_string();
        let from = at(&sheet.order, &second, 0);
        let stays = moved(&case, &sheet, &run, from, from - 1).unwrap_err();
        assert_eq!(stays, MoveRefused::Wish(rule));
    }
}

#[test]
fn a_rule_that_the_order_breaks_already_holds_no_step() {
    let (case, sheet) = changed("two-molars", |case| {
        case.setup.use_order = UseOrder::ByDiameter;
        case.run.groups.insert(Group::SiteBySite);
    });
    let run = run_problem(&case, &sheet).unwrap();
    assert_eq!(run.adherence(&sheet.order), Adherence::Partial);
    let (first, second) = (case.sites[0].id.to_string(), case.sites[1].id.to_string());
    let (to, from) = (at(&sheet.order, &first, 0), at(&sheet.order, &second, 0));
    assert!(moved(&case, &sheet, &run, from, to).is_ok());
}

/// An order made by hand that is better than what was found becomes the best one known.
#[test]
fn a_hand_order_better_than_what_was_found_is_the_best_known() {
    let (case, sheet) = changed("full-arch-upper", |_| {});
    let run = run_problem(&case, &sheet).unwrap();
    let keep = &mut |_: &Progress<'_>| ControlFlow::Continue(());
    let none = Budget {
        work: 0,
        ..Budget::default()
    };
    let poor = run.best(&[], &none, keep);
    let good = run.best(
        &[],
        &Budget {
            work: 20_000,
            ..none
        },
        keep,
    );
    assert!(run.problem.value(good.order.cost) < run.problem.value(poor.order.cost));
    let order: Vec<Operation> = good
        .order
        .steps
        .iter()
        .map(|step| step.what.clone())
        .collect();
    let accepted = order.iter().filter_map(Operation::ordered).collect();
    let after = apply(&case, &[Edit::AcceptOrder(accepted)]).unwrap();
    let after_sheet = work_out(&after);
    assert_eq!(after_sheet.order_by, OrderBy::Accepted);
    let against = run.against(&after_sheet, &poor).unwrap();
    assert_eq!(against.best, against.followed);
    assert_eq!(against.best.cost, good.order.cost);
    // Waited for, it is the same.
    let waited = run_order(&after, &after_sheet, &none, keep).unwrap();
    assert_eq!(waited.followed, against.followed);
}
