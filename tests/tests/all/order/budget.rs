//! Little work, an end on request, and the same answer every time.

use super::random::{Lie, large, largest};
use super::{solved_within, valid};
use std::ops::ControlFlow;
use traywright_core::order::{Budget, Weights, cost_of_order, evaluate, first_order, solve};

fn hard() -> traywright_core::order::Problem {
    large(3, 9, 6, Lie::Unordered, Weights::default())
}

#[test]
fn with_little_work_the_answer_is_an_order_and_a_true_bound() {
    let problem = hard();
    let valid = valid(&problem);
    let mut before = None;
    for work in [0, 1, 60, 500, 4000, 20_000] {
        let budget = Budget {
            work,
            ..Budget::default()
        };
        let outcome = solved_within(&problem, &budget);
        // One state more may have been begun.
        assert!(outcome.work <= work + 100, "{} {work}", outcome.work);
        assert!(!outcome.proved);
        // More work never makes the answer worse, nor the bound lower.
        let now = (valid.value(outcome.cost), valid.value(outcome.bound));
        if let Some((cost, bound)) = before {
            assert!(
                now.0 <= cost && now.1 >= bound,
                "{now:?} after {cost} {bound}"
            );
        }
        before = Some(now);
    }
}

#[test]
fn little_memory_is_enough_for_an_order() {
    let budget = Budget {
        work: 3000,
        bytes: 20_000,
    };
    let outcome = solved_within(&hard(), &budget);
    assert!(!outcome.proved);
}

/// The last pass has no width but the memory that is given: with as much work, 2 MiB leave out what 10 MiB prove. The
/// passes before it are the same for both.
#[test]
fn the_last_pass_uses_the_memory_that_it_was_given() {
    let problem = large(2, 7, 5, Lie::Unordered, Weights::default());
    let valid = valid(&problem);
    let [narrow, wide] = [2, 10].map(|mib: usize| {
        let budget = Budget {
            work: 150_000,
            bytes: mib << 20,
        };
        solved_within(&problem, &budget)
    });
    assert!(wide.proved && !narrow.proved, "{narrow:?} {wide:?}");
    assert!(valid.value(narrow.bound) < valid.value(wide.bound));
    assert!(valid.value(narrow.cost) >= valid.value(wide.cost));
}

#[test]
fn whoever_waits_can_end_it_and_has_the_best_so_far() {
    let problem = hard();
    let valid = valid(&problem);
    let mut told = Vec::new();
    let outcome = solve(&valid, &Budget::default(), &[], &mut |progress| {
        told.push((progress.states_expanded, valid.value(progress.best.cost)));
        if told.len() > 3 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    });
    assert!(outcome.cancelled && !outcome.proved);
    assert_eq!(told.len(), 4);
    assert!(
        told.windows(2)
            .all(|pair| pair[0].0 <= pair[1].0 && pair[0].1 >= pair[1].1)
    );
    assert!(
        told.iter()
            .all(|(_, best)| *best >= valid.value(outcome.cost))
    );
}

#[test]
fn the_answer_is_the_same_every_time_and_on_every_thread() {
    let problem = large(1, 6, 5, Lie::Unordered, Weights::default());
    let budget = Budget {
        work: 6000,
        ..Budget::default()
    };
    let here = solved_within(&problem, &budget);
    let there: Vec<_> = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..2)
            .map(|_| scope.spawn(|| solved_within(&problem, &budget)))
            .collect();
        threads
            .into_iter()
            .map(|thread| thread.join().unwrap())
            .collect()
    });
    assert_eq!(there, [here.clone(), here]);
}

/// The promise is an order within 50 ms; `benches/order.rs` measures it. Here the order is only looked
/// at, also for the largest problem that there can be.
#[test]
fn there_is_an_order_at_once_even_for_the_largest_problem() {
    let full = [Lie::Shared, Lie::Rising, Lie::Unordered]
        .map(|lie| large(5, 14, 6, lie, Weights::default()));
    for problem in full.into_iter().chain([largest()]) {
        let problem = valid(&problem);
        let first = first_order(&problem);
        assert_eq!(first.schedule.len(), problem.step_count());
        assert_eq!(evaluate(&problem, &first.schedule), Ok(first.cost));
        let order: Vec<usize> = first.schedule.iter().map(|entry| entry.site).collect();
        let best = cost_of_order(&problem, &order).unwrap().cost;
        assert!(problem.value(best) <= problem.value(first.cost));
    }
}

#[test]
fn whoever_ends_it_is_not_asked_again_for_another_part() {
    // Nothing but mounts and re-sets: each tool is a part of its own.
    let mut problem = large(5, 14, 6, Lie::Shared, Weights::default());
    problem.weights.move_ds = 0;
    problem.weights.sleeve_ds = 0;
    problem.weights.speed_ds = 0;
    for tool in &mut problem.tools {
        tool.copies = 1;
    }
    let mut asked = 0;
    let problem = valid(&problem);
    let outcome = solve(&problem, &Budget::default(), &[], &mut |_| {
        asked += 1;
        ControlFlow::Break(())
    });
    assert!(outcome.cancelled);
    assert_eq!(asked, 1);
    assert_eq!(evaluate(&problem, &outcome.schedule), Ok(outcome.cost));
}
