//! Orders made by hand: costed with their best copies and victims, and never better than the answer.

use super::random::{Numbers, small};
use super::statement::Statement;
use super::{price, solved, valid};
use std::ops::ControlFlow;
use traywright_core::order::{
    Breach, Budget, PlainRule, Problem, ValidProblem, cost_of_order, evaluate, plain_order, solve,
};

/// Some order of sites with the right count of each; it may break a rule.
fn some_order(n: &mut Numbers, problem: &Problem) -> Vec<usize> {
    let sites = problem.sites.iter().enumerate();
    let mut order: Vec<usize> = sites
        .flat_map(|(site, c)| vec![site; c.steps.len()])
        .collect();
    for at in (1..order.len()).rev() {
        order.swap(at, n.index(at + 1));
    }
    order
}

#[test]
fn an_order_costs_the_least_over_all_its_copies_and_victims() {
    let (mut costed, mut broken) = (0, 0);
    for seed in 0..700 {
        let problem = small(seed);
        let Ok(valid) = ValidProblem::try_from(problem.clone()) else {
            continue;
        };
        let statement = Statement::of(&problem);
        let n = &mut Numbers::from(seed + 9000);
        for _ in 0..3 {
            let order = some_order(n, &problem);
            let least = statement.least(Some(&order));
            match cost_of_order(&valid, &order) {
                Ok(own) => {
                    let price = (own.cost.resets.into(), own.cost.time_ds);
                    assert_eq!(statement.cost(&own.schedule), Some(price), "seed {seed}");
                    assert_eq!(
                        Some(statement.key(price)),
                        least.map(|l| statement.key(l)),
                        "seed {seed} {order:?}"
                    );
                    costed += 1;
                }
                Err(error) => {
                    assert!(
                        matches!(error.why, Breach::TooEarly | Breach::Interrupts),
                        "{error}"
                    );
                    assert_eq!(least, None, "seed {seed}: {error}");
                    broken += 1;
                }
            }
        }
    }
    assert!(costed > 800 && broken > 100, "{costed} {broken}");
}

#[test]
fn the_answer_is_never_worse_than_a_plain_order_or_one_by_hand() {
    for seed in 0..300 {
        let problem = small(seed);
        let Ok(valid) = ValidProblem::try_from(problem.clone()) else {
            continue;
        };
        let value = valid.value(solved(&problem).cost);
        let n = &mut Numbers::from(seed + 5000);
        let plain =
            [PlainRule::SiteBySite, PlainRule::ByDiameter].map(|rule| plain_order(&valid, rule));
        for order in &plain {
            cost_of_order(&valid, order).expect("a plain order breaks no rule");
        }
        let by_hand: Vec<Vec<usize>> = (0..20).map(|_| some_order(n, &problem)).collect();
        for order in plain.iter().chain(&by_hand) {
            if let Ok(other) = cost_of_order(&valid, order) {
                assert!(value <= valid.value(other.cost), "seed {seed}: {order:?}");
            }
        }
    }
}

#[test]
fn an_order_that_is_known_is_never_lost_however_little_work_is_allowed() {
    let none = Budget { work: 0, bytes: 0 };
    for seed in 0..200 {
        let problem = small(seed);
        let Ok(valid) = ValidProblem::try_from(problem.clone()) else {
            continue;
        };
        let best = solved(&problem);
        let known: Vec<usize> = best.schedule.iter().map(|entry| entry.site).collect();
        let again = solve(&valid, &none, &[known], &mut |_| ControlFlow::Continue(()));
        assert_eq!(
            valid.value(again.cost),
            valid.value(best.cost),
            "seed {seed}"
        );
    }
}

#[test]
fn what_is_no_schedule_is_told_as_such() {
    let (mut good, mut bad) = (0, 0);
    for seed in 0..400 {
        let problem = small(seed);
        if ValidProblem::try_from(problem.clone()).is_err() {
            continue;
        }
        let statement = Statement::of(&problem);
        let outcome = solved(&problem);
        let n = &mut Numbers::from(seed + 700);
        for _ in 0..10 {
            let mut schedule = outcome.schedule.clone();
            let at = n.index(schedule.len());
            match n.below(5) {
                0 => schedule[at].site = n.index(problem.sites.len() + 1),
                1 => schedule[at].copy = Some(n.index(4)),
                2 => schedule[at].victim = Some(n.index(problem.sites.len() + 1)),
                3 => (schedule[at].copy, schedule[at].victim) = (None, None),
                _ => drop(schedule.remove(at)),
            }
            let own = evaluate(&valid(&problem), &schedule).ok();
            let own = own.map(|cost| (u64::from(cost.resets), cost.time_ds));
            assert_eq!(own, statement.cost(&schedule), "seed {seed}: {schedule:?}");
            if own.is_some() { good += 1 } else { bad += 1 }
        }
        assert_eq!(statement.cost(&outcome.schedule), Some(price(&outcome)));
    }
    assert!(good > 100 && bad > 500, "{good} {bad}");
}
