//! Little work, an end on request, and the same answer every time.

use super::random::{Lie, large};
use super::{solved_within, sound};
use std::ops::ControlFlow;
use traywright_core::order::{Budget, Weights, cost_of_order, first_order, solve};

fn hard() -> traywright_core::order::Problem {
    large(3, 9, 6, Lie::Unordered, Weights::default())
}

#[test]
fn with_little_work_the_answer_is_an_order_and_a_true_bound() {
    let problem = hard();
    let sound = sound(&problem);
    let mut before = None;
    for states in [0, 1, 60, 500, 4000, 20_000] {
        let budget = Budget {
            states,
            ..Budget::default()
        };
        let outcome = solved_within(&problem, &budget);
        assert!(outcome.states_expanded <= states);
        assert!(!outcome.proved);
        // More work never makes the answer worse, nor the bound lower.
        let now = (sound.value(outcome.cost), sound.value(outcome.bound));
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
        states: 3000,
        bytes: 20_000,
    };
    let outcome = solved_within(&hard(), &budget);
    assert!(!outcome.proved);
}

#[test]
fn whoever_waits_can_end_it_and_has_the_best_so_far() {
    let problem = hard();
    let sound = sound(&problem);
    let mut told = Vec::new();
    let outcome = solve(&sound, &Budget::default(), &[], &mut |progress| {
        told.push((progress.states_expanded, sound.value(progress.best.cost)));
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
            .all(|(_, best)| *best >= sound.value(outcome.cost))
    );
}

#[test]
fn the_answer_is_the_same_every_time_and_on_every_thread() {
    let problem = large(1, 6, 5, Lie::Unordered, Weights::default());
    let budget = Budget {
        states: 6000,
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

/// The promise is an order within 50 ms. Built without optimisation and beside other tests it is given
/// ten times that.
#[test]
fn there_is_an_order_at_once_even_for_a_full_arch() {
    for lie in [Lie::Shared, Lie::Rising, Lie::Unordered] {
        let problem = sound(&large(5, 14, 6, lie, Weights::default()));
        let start = std::time::Instant::now();
        let first = first_order(&problem);
        let took = start.elapsed();
        assert!(took.as_millis() < 500, "{took:?}");
        let order: Vec<usize> = first.schedule.iter().map(|entry| entry.site).collect();
        assert_eq!(cost_of_order(&problem, &order).unwrap().cost, first.cost);
    }
}
