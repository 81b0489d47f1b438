//! The optimum of small problems equals that of a search through everything.

use super::random::{Lie, Numbers, large, small, weights};
use super::statement::Statement;
use super::{price, solved};
use std::collections::BTreeMap;
use traywright_core::order::{Group, Objective, Problem, Refused, SleeveUse, ValidProblem};

/// Number of problems tried.
const COUNT: u64 = 700;

#[test]
fn the_least_cost_is_that_of_looking_at_everything() {
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for seed in 0..COUNT {
        let problem = small(seed);
        let statement = Statement::of(&problem);
        let least = statement.least(None);
        let Ok(_) = ValidProblem::try_from(problem.clone()) else {
            assert_eq!(least, None, "seed {seed} was refused");
            *seen.entry("refused").or_default() += 1;
            continue;
        };
        let outcome = solved(&problem);
        let least = least.unwrap_or_else(|| panic!("seed {seed} was let pass"));
        assert!(outcome.proved, "seed {seed}");
        assert_eq!(
            statement.key(price(&outcome)),
            statement.key(least),
            "seed {seed}"
        );
        for sort in sorts(&problem) {
            *seen.entry(sort).or_default() += 1;
        }
    }
    // The table is worth something only where every sort of cost and rule was in it often.
    let few: Vec<_> = SORTS
        .iter()
        .filter(|sort| seen.get(*sort).is_none_or(|n| *n < 20))
        .collect();
    assert!(few.is_empty(), "too few of {few:?} in {seen:?}");
}

/// Problems shaped like real protocols, in which the bounds for sleeves that stay and for tools with a
/// speed of their own say more than among problems without any shape.
#[test]
fn the_least_cost_of_shaped_problems_is_that_of_looking_at_everything() {
    for seed in 0..40 {
        for lie in [Lie::Shared, Lie::Rising, Lie::Unordered] {
            let n = &mut Numbers::from(seed + 3000);
            let (sites, steps) = [(2, 4), (3, 2), (2, 3)][n.index(3)];
            let mut problem = large(seed, sites, steps, lie, weights(n));
            for tool in &mut problem.tools {
                tool.copies = tool.copies.min(2);
            }
            if n.one_in(2) {
                problem.objective = Objective::LeastTime;
            }
            let statement = Statement::of(&problem);
            let least = statement.least(None).expect("nothing forbids it");
            let outcome = solved(&problem);
            assert!(outcome.proved, "{lie:?} {seed}");
            assert_eq!(
                statement.key(price(&outcome)),
                statement.key(least),
                "{lie:?} {seed}"
            );
        }
    }
}

const SORTS: &[&str] = &[
    "refused",
    "fewest re-sets",
    "least time",
    "no weight on mounts",
    "no weight on re-sets",
    "no weight on moves",
    "no weight on sleeves",
    "no weight on speeds",
    "all weights",
    "re-set cheaper than mount",
    "move dearer than mount",
    "bare",
    "no instrument",
    "keep",
    "out",
    "one sleeve for all",
    "before",
    "a site that goes on with another",
    "site by site",
    "by diameter",
    "alike",
];

fn sorts(problem: &Problem) -> Vec<&'static str> {
    let w = &problem.weights;
    let steps = || problem.sites.iter().flat_map(|site| &site.steps);
    let first = steps().next().map(|step| &step.sleeve);
    let place = |step: &SleeveUse| matches!(step, SleeveUse::Place(_));
    let groups = &problem.rules.groups;
    let held = [
        problem.objective == Objective::FewestResets,
        problem.objective == Objective::LeastTime,
        w.mount_ds == 0,
        w.reset_ds == 0,
        w.move_ds == 0,
        w.sleeve_ds == 0,
        w.speed_ds == 0,
        [w.mount_ds, w.reset_ds, w.move_ds, w.sleeve_ds, w.speed_ds]
            .iter()
            .all(|w| *w > 0),
        w.reset_ds < w.mount_ds,
        w.move_ds > w.mount_ds,
        steps().any(|s| s.instrument.as_ref().is_some_and(|i| i.setting.is_none())),
        steps().any(|s| s.instrument.is_none()),
        steps().any(|s| s.sleeve == SleeveUse::Keep),
        steps().any(|s| s.sleeve == SleeveUse::Out),
        first.is_some_and(place) && steps().all(|s| Some(&s.sleeve) == first),
        !problem.rules.before.is_empty(),
        problem.sites.iter().any(|site| site.continues.is_some()),
        groups.contains(&Group::SiteBySite),
        groups.contains(&Group::ByDiameter),
        problem.sites[0].steps == problem.sites[1].steps,
    ];
    let named = SORTS.iter().skip(1).zip(held);
    named
        .filter(|(_, held)| *held)
        .map(|(sort, _)| *sort)
        .collect()
}

#[test]
fn what_is_refused_is_refused_for_rules_or_faults_never_by_chance() {
    for seed in 0..COUNT {
        if let Err(Refused::Faults(faults)) = ValidProblem::try_from(small(seed)) {
            panic!("seed {seed}: {faults}");
        }
    }
}
