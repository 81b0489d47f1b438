//! Problems of the size of real plans: proved, and replayed by the checker.

use super::random::{Lie, large};
use super::{solved, solved_within};
use traywright_core::order::{Budget, Objective, Weights};

#[test]
fn six_sites_with_five_steps_are_proved() {
    for lie in [Lie::Shared, Lie::Rising] {
        for seed in 0..3 {
            let outcome = solved(&large(seed, 6, 5, lie, Weights::default()));
            assert!(outcome.proved, "{lie:?} {seed}: {outcome:?}");
        }
    }
}

#[test]
fn alike_sites_are_proved_at_any_count() {
    // Fourteen times the same site: which is which does not matter, so that few states are left.
    let mut problem = large(2, 14, 6, Lie::Shared, Weights::default());
    for n in 1..problem.sites.len() {
        problem.sites[n].steps = problem.sites[0].steps.clone();
    }
    for objective in [Objective::FewestResets, Objective::LeastTime] {
        problem.objective = objective;
        let outcome = solved(&problem);
        assert!(outcome.proved, "{outcome:?}");
        assert_eq!(outcome.cost.resets, 0);
    }
}

#[test]
fn a_full_arch_within_little_work_is_near_its_bound() {
    for lie in [Lie::Shared, Lie::Rising] {
        let budget = Budget {
            work: 15_000,
            ..Budget::default()
        };
        let outcome = solved_within(&large(1, 14, 6, lie, Weights::default()), &budget);
        assert_eq!(outcome.cost.resets, outcome.bound.resets);
        let (cost, bound) = (outcome.cost.time_ds, outcome.bound.time_ds);
        assert!(
            (cost - bound) * 100 <= cost * 6,
            "{lie:?}: {cost} above {bound}"
        );
    }
}
