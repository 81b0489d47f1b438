//! Closed forms for problems in which moves, sleeves and speeds cost nothing.

use super::random::{Numbers, id};
use super::solved;
use traywright_core::order::{
    Chain, Instrument, Objective, Operation, Problem, Rules, SleeveUse, Tool, Weights,
};

fn problem(sites: Vec<Vec<(usize, usize)>>, copies: &[u32], mount: u32, reset: u32) -> Problem {
    let step = |(tool, setting): (usize, usize)| Operation {
        instrument: Some(Instrument {
            tool: id("t", tool),
            setting: Some(id("s", setting)),
        }),
        sleeve: SleeveUse::default(),
        speed_rpm: Some(800),
    };
    let chains = sites.into_iter().enumerate();
    let tools = copies.iter().enumerate();
    Problem {
        traywright_order: 1,
        objective: Objective::LeastTime,
        weights: Weights {
            mount_ds: mount,
            reset_ds: reset,
            move_ds: 0,
            sleeve_ds: 0,
            speed_ds: 0,
        },
        tools: tools
            .map(|(n, copies)| Tool {
                id: id("t", n),
                copies: *copies,
                diameter_mm: None,
            })
            .collect(),
        sleeves: Vec::new(),
        sites: chains
            .map(|(n, steps)| Chain {
                continues: None,
                id: id("p", n),
                steps: steps.into_iter().map(step).collect(),
            })
            .collect(),
        rules: Rules::default(),
    }
}

/// A single tool with S settings and K copies: each copy that is used is mounted once and set once for
/// nothing; every other setting is a re-set.
fn single(settings: u32, copies: u32, mount: u32, reset: u32) -> u32 {
    let most = settings.min(copies);
    let of = |c: u32| mount * c + reset * (settings - c);
    (1..=most).map(of).min().unwrap()
}

#[test]
fn one_tool_costs_what_the_closed_form_says() {
    for settings in 1..=5_u32 {
        for copies in 1..=4 {
            for (mount, reset) in [(7, 3), (3, 7), (5, 5), (0, 4), (4, 0), (1, 30)] {
                let sites = (0..settings as usize * 2)
                    .map(|n| vec![(0, n / 2)])
                    .collect();
                let outcome = solved(&problem(sites, &[copies], mount, reset));
                let wanted = u64::from(single(settings, copies, mount, reset));
                assert!(outcome.proved);
                assert_eq!(
                    outcome.cost.time_ds, wanted,
                    "S {settings} K {copies} {mount} {reset}"
                );
            }
        }
    }
}

#[test]
fn tools_in_one_order_for_all_sites_cost_what_each_costs_alone() {
    for seed in 0..60 {
        let n = &mut Numbers::from(seed);
        let tools = 2 + n.index(4);
        let copies: Vec<u32> = (0..tools).map(|_| 1 + n.small(3)).collect();
        let sites: Vec<Vec<(usize, usize)>> = (0..3 + n.index(6))
            .map(|_| {
                let mut own: Vec<usize> = (0..tools).filter(|_| !n.one_in(3)).collect();
                own.push(tools);
                own.iter().map(|tool| (*tool, n.index(4))).collect()
            })
            .collect();
        let (mount, reset) = (n.small(20), n.small(20));
        let stock: Vec<u32> = copies.iter().copied().chain([2]).collect();
        let alone = (0..=tools).map(|tool| {
            let uses = sites.iter().flatten().filter(|step| step.0 == tool);
            let settings: std::collections::BTreeSet<usize> = uses.map(|step| step.1).collect();
            match u32::try_from(settings.len()).unwrap() {
                0 => 0,
                count => single(count, stock[tool], mount, reset),
            }
        });
        let wanted: u32 = alone.sum();
        let outcome = solved(&problem(sites, &stock, mount, reset));
        assert!(outcome.proved);
        assert_eq!(outcome.cost.time_ds, u64::from(wanted), "seed {seed}");
    }
}

/// Sites with tools in an order of their own that fall into two halves: what each half costs alone.
#[test]
fn halves_that_do_not_touch_cost_what_each_costs_alone() {
    for seed in 0..40 {
        let n = &mut Numbers::from(seed);
        let sites = 3 + n.index(2);
        let half = |n: &mut Numbers, from: usize| -> Vec<(usize, usize)> {
            let mut own: Vec<usize> = (from..from + 3).collect();
            for at in (1..own.len()).rev() {
                own.swap(at, n.index(at + 1));
            }
            own.into_iter().map(|tool| (tool, n.index(2))).collect()
        };
        let first: Vec<_> = (0..sites).map(|_| half(n, 0)).collect();
        let second: Vec<_> = (0..sites).map(|_| half(n, 3)).collect();
        let both = first
            .iter()
            .zip(&second)
            .map(|(a, b)| [a.clone(), b.clone()].concat());
        let copies: Vec<u32> = (0..6).map(|_| 1 + n.small(2)).collect();
        let (mount, reset) = (1 + n.small(9), n.small(20));
        let costs = [first.clone(), second.clone(), both.collect()]
            .map(|sites| solved(&problem(sites, &copies, mount, reset)))
            .map(|outcome| {
                assert!(outcome.proved);
                outcome.cost.time_ds
            });
        assert_eq!(costs[0] + costs[1], costs[2], "seed {seed}");
    }
}
