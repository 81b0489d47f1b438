//! Problems made from numbers that look random and are the same everywhere.

use std::collections::BTreeSet;
use traywright_core::measure::Length;
use traywright_core::order::{
    Before, Chain, Group, Id, Instrument, Objective, Operation, Problem, Rules, Sleeve, SleeveUse,
    Tool, Weights,
};

/// Numbers in a row (`SplitMix64`: Steele, Lea, Flood, OOPSLA 2014).
pub(super) struct Numbers(u64);

impl Numbers {
    pub(super) fn from(seed: u64) -> Self {
        Self(seed)
    }

    /// A number below `limit`.
    pub(super) fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % limit
    }

    pub(super) fn one_in(&mut self, count: u64) -> bool {
        self.below(count) == 0
    }

    pub(super) fn index(&mut self, limit: usize) -> usize {
        usize::try_from(self.below(limit as u64)).expect("it is small")
    }

    pub(super) fn small(&mut self, limit: u32) -> u32 {
        u32::try_from(self.below(u64::from(limit))).expect("it is small")
    }
}

pub(super) fn id(letter: &str, number: usize) -> Id {
    Id::from(format!("{letter}{number}").as_str())
}

/// A small problem with every sort of cost and rule in it somewhere.
pub(super) fn small(seed: u64) -> Problem {
    let n = &mut Numbers::from(seed);
    let tools = 1 + n.index(3);
    let sleeves = 1 + n.index(2);
    let one_sleeve = n.one_in(4);
    let settings = 1 + n.index(3);
    let sites = 2 + n.index(3);
    let most = [0, 0, 4, 3, 2][sites];
    let op = |n: &mut Numbers| Operation {
        instrument: (!n.one_in(7)).then(|| Instrument {
            tool: id("t", n.index(tools)),
            setting: (!n.one_in(4)).then(|| id("s", n.index(settings))),
        }),
        sleeve: match (one_sleeve, n.below(6)) {
            (true, _) => SleeveUse::Place(id("v", 0)),
            (_, 0) => SleeveUse::Keep,
            (_, 1) => SleeveUse::Out,
            _ => SleeveUse::Place(id("v", n.index(sleeves))),
        },
        speed_rpm: (!n.one_in(4)).then(|| 500 * (1 + n.small(3))),
    };
    let mut chains: Vec<Chain> = (0..sites)
        .map(|site| {
            let steps = 1 + n.index(most);
            Chain {
                continues: None,
                id: id("p", site),
                steps: (0..steps).map(|_| op(n)).collect(),
            }
        })
        .collect();
    // Sites that are alike.
    if n.one_in(3) {
        let like = chains[0].steps.clone();
        chains[1].steps = like;
    }
    let before = (0..if n.one_in(3) { 1 + n.index(2) } else { 0 })
        .map(|_| arc(n, &chains))
        .collect();
    let mut groups = BTreeSet::new();
    if n.one_in(6) {
        groups.insert(Group::SiteBySite);
    }
    if n.one_in(6) {
        groups.insert(Group::ByDiameter);
    }
    let mut problem = Problem {
        traywright_order: 1,
        objective: if n.one_in(2) {
            Objective::FewestResets
        } else {
            Objective::LeastTime
        },
        weights: weights(n),
        tools: (0..tools)
            .map(|tool| Tool {
                id: id("t", tool),
                copies: 1 + n.small(3),
                diameter_mm: (!n.one_in(5))
                    .then(|| Length::from_um(1100 + 700 * i64::from(n.small(3)))),
            })
            .collect(),
        sleeves: (0..sleeves)
            .map(|sleeve| Sleeve {
                id: id("v", sleeve),
                pieces: 1 + n.small(2),
            })
            .collect(),
        sites: chains,
        rules: Rules { before, groups },
    };
    // A site that goes on with another one, and sometimes a third with that.
    if n.one_in(3) {
        for site in 1..sites {
            if site == 1 || n.one_in(2) {
                problem.sites[site].continues = Some(id("p", site - 1));
            }
        }
    }
    problem
}

/// Weights of all sorts: none, equal, re-sets cheaper than mounts, moves dearer.
pub(super) fn weights(n: &mut Numbers) -> Weights {
    let one = |n: &mut Numbers| {
        let most = [1, 2, 4, 10, 40][n.index(5)];
        n.small(most)
    };
    Weights {
        mount_ds: one(n),
        reset_ds: one(n),
        move_ds: one(n),
        sleeve_ds: one(n),
        speed_ds: one(n),
    }
}

fn arc(n: &mut Numbers, chains: &[Chain]) -> Before {
    let first = n.index(chains.len());
    let then = (first + 1 + n.index(chains.len() - 1)) % chains.len();
    let step = |n: &mut Numbers, site: usize| {
        let count = u32::try_from(chains[site].steps.len()).expect("it is small");
        n.one_in(2).then(|| 1 + n.small(count))
    };
    Before {
        first: chains[first].id.clone(),
        first_step: step(n, first),
        then: chains[then].id.clone(),
        then_step: step(n, then),
    }
}

/// Relation of the protocols of a larger problem to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lie {
    /// All sites have the same tools in the same order.
    Shared,
    /// Each site has some of the tools, in one order for all.
    Rising,
    /// Each site has its tools in an order of its own.
    Unordered,
}

/// A larger problem: so many sites with so many steps, all sorts of cost in it.
pub(super) fn large(seed: u64, sites: usize, steps: usize, lie: Lie, weights: Weights) -> Problem {
    let n = &mut Numbers::from(seed);
    let tools = if lie == Lie::Shared { steps } else { steps + 2 };
    let chains: Vec<Chain> = (0..sites)
        .map(|site| {
            let mut own: Vec<usize> = (0..tools).collect();
            while own.len() > steps {
                own.remove(n.index(own.len()));
            }
            if lie == Lie::Unordered {
                for at in (1..own.len()).rev() {
                    own.swap(at, n.index(at + 1));
                }
            }
            let depth = n.index(4);
            let step = |tool: &usize| Operation {
                instrument: Some(Instrument {
                    tool: id("t", *tool),
                    setting: (*tool > 0).then(|| id("s", depth)),
                }),
                sleeve: match *tool {
                    0 => SleeveUse::Keep,
                    tool if tool + 1 == tools => SleeveUse::Out,
                    tool => SleeveUse::Place(id("v", tool / 2)),
                },
                speed_rpm: Some(if tool + 1 == tools {
                    30
                } else {
                    800 + 100 * (u32::try_from(tool / 3).expect("it is small"))
                }),
            };
            Chain {
                continues: None,
                id: id("p", site),
                steps: own.iter().map(step).collect(),
            }
        })
        .collect();
    Problem {
        traywright_order: 1,
        objective: Objective::FewestResets,
        weights,
        tools: (0..tools)
            .map(|tool| Tool {
                id: id("t", tool),
                copies: 1 + n.small(3),
                diameter_mm: Some(Length::from_um(
                    1900 + 350 * i64::try_from(tool).expect("it is small"),
                )),
            })
            .collect(),
        sleeves: (0..=tools / 2)
            .map(|sleeve| Sleeve {
                id: id("v", sleeve),
                pieces: 1 + n.small(2),
            })
            .collect(),
        sites: chains,
        rules: Rules::default(),
    }
}

/// As many sites and steps as there can be, few copies for many settings.
pub(super) fn largest() -> Problem {
    let n = &mut Numbers::from(5);
    let mut problem = large(1, 14, 6, Lie::Unordered, Weights::default());
    problem.tools = (0..20)
        .map(|tool| Tool {
            id: id("t", tool),
            copies: 6,
            diameter_mm: None,
        })
        .collect();
    let mut step = problem.sites[0].steps[0].clone();
    let mut next = || {
        step.instrument = Some(Instrument {
            tool: id("t", n.index(20)),
            setting: Some(id("s", n.index(40))),
        });
        step.sleeve = SleeveUse::Place(id("v", n.index(3)));
        step.speed_rpm = Some(100 + n.small(5));
        step.clone()
    };
    problem.sites = (0..64)
        .map(|site| Chain {
            continues: None,
            id: id("p", site),
            steps: (0..24).map(|_| next()).collect(),
        })
        .collect();
    problem
}
