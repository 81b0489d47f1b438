//! Cost of a rule or a weight.

use super::random::small;
use super::statement::Statement;
use super::{price, solved, sound};
use std::ops::ControlFlow;
use traywright_core::order::{Budget, Change, Omission, ValidProblem, Weights, solve_without};

#[test]
fn without_a_rule_or_a_weight_the_cost_is_that_of_the_problem_without_it() {
    let (mut rules, mut weights) = (0, 0);
    for seed in 0..250 {
        let problem = small(seed);
        let Ok(with) = ValidProblem::try_from(problem.clone()) else {
            continue;
        };
        let own = solved(&problem);
        let known: Vec<usize> = own.schedule.iter().map(|entry| entry.site).collect();
        for without in Omission::all_of(&problem) {
            let mut other = problem.clone();
            match without {
                Omission::Before(n) => drop(other.rules.before.remove(n)),
                Omission::Group(group) => drop(other.rules.groups.remove(&group)),
                Omission::Weight(Change::Mount) => other.weights.mount_ds = 0,
                Omission::Weight(Change::Reset) => other.weights.reset_ds = 0,
                Omission::Weight(Change::Move) => other.weights.move_ds = 0,
                Omission::Weight(Change::Sleeve) => other.weights.sleeve_ds = 0,
                Omission::Weight(Change::Speed) => other.weights.speed_ds = 0,
            }
            let outcome = solve_without(
                &with,
                without,
                &Budget::default(),
                std::slice::from_ref(&known),
                &mut |_| ControlFlow::Continue(()),
            )
            .expect("it is in the problem");
            let statement = Statement::of(&other);
            assert_eq!(
                statement.cost(&outcome.schedule),
                Some(price(&outcome)),
                "seed {seed}"
            );
            let least = statement.least(None).map(|least| statement.key(least));
            assert_eq!(
                Some(statement.key(price(&outcome))),
                least,
                "seed {seed} {without:?}"
            );
            if matches!(without, Omission::Weight(_)) {
                weights += 1;
            } else {
                rules += 1;
                assert!(sound(&other).value(outcome.cost) <= with.value(own.cost));
            }
        }
    }
    assert!(rules > 40 && weights > 300, "{rules} {weights}");
}

#[test]
fn what_is_not_there_cannot_be_left_out() {
    let with = sound(&super::random::large(
        1,
        3,
        3,
        super::random::Lie::Shared,
        Weights::default(),
    ));
    let none = solve_without(
        &with,
        Omission::Before(0),
        &Budget::default(),
        &[],
        &mut |_| ControlFlow::Continue(()),
    );
    assert_eq!(none, None);
}
