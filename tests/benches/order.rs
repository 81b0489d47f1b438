//! Time to prove the least cost of a run order, by the count of sites, and the bounds known of a
//! full arch within a fixed amount of work.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::ops::ControlFlow;
use traywright_core::order::{Budget, Outcome, ValidProblem, Weights, first_order, solve};

#[path = "../tests/all/order/random.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod random;

use random::{Lie, large, largest};

fn solved(problem: &ValidProblem, work: u64) -> Outcome {
    let budget = Budget {
        work,
        ..Budget::default()
    };
    solve(problem, &budget, &[], &mut |_| ControlFlow::Continue(()))
}

fn problem(sites: usize, steps: usize, lie: Lie) -> ValidProblem {
    let problem = large(1, sites, steps, lie, Weights::default());
    ValidProblem::try_from(problem).expect("some order obeys it")
}

fn order(c: &mut Criterion) {
    let mut group = c.benchmark_group("run order");
    group.sample_size(10);
    for lie in [Lie::Shared, Lie::Rising] {
        for sites in [4, 6, 8] {
            let problem = problem(sites, 5, lie);
            assert!(solved(&problem, 2_000_000).proved);
            group.bench_function(format!("{sites} sites x 5, {lie:?}, proved"), |b| {
                b.iter(|| solved(black_box(&problem), 2_000_000));
            });
        }
        let problem = problem(14, 6, lie);
        group.bench_function(format!("14 sites x 6, {lie:?}, 20000 states"), |b| {
            b.iter(|| solved(black_box(&problem), 20_000));
        });
        group.bench_function(format!("14 sites x 6, {lie:?}, an order at once"), |b| {
            b.iter(|| first_order(black_box(&problem)));
        });
    }
    let problem = ValidProblem::try_from(largest()).expect("some order obeys it");
    group.bench_function("64 sites x 24, an order at once", |b| {
        b.iter(|| first_order(black_box(&problem)));
    });
    group.finish();
}

criterion_group!(benches, order);
criterion_main!(benches);
