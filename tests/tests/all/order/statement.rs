//! The statement of the run order once more, written apart from the library: what a schedule costs,
//! and the least cost of a small problem by looking at everything (Dijkstra).

use std::collections::{BTreeMap, BTreeSet};
use traywright_core::order::{Entry, Group, Objective, Problem, SleeveUse};

/// Re-sets and tenths of a second.
pub type Price = (u64, u64);

/// One operation of the statement.
#[derive(Debug, Clone)]
struct Op {
    /// Tool by name, and setting by name; none is BARE.
    tool: Option<(String, Option<String>)>,
    sleeve: SleeveUse,
    speed: Option<u32>,
    diameter_um: Option<i64>,
}

/// A problem as the statement has it.
pub struct Statement {
    chain: Vec<Vec<Op>>,
    k: BTreeMap<String, usize>,
    v: BTreeMap<String, usize>,
    /// Of each pair the first has to be done before the second.
    arcs: Vec<((usize, usize), (usize, usize))>,
    site_by_site: bool,
    by_diameter: bool,
    w: [u64; 5],
    resets_first: bool,
}

/// Everything that the cost of what is left depends on.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Now {
    pos: Vec<usize>,
    hand: Option<(String, usize)>,
    site: Option<usize>,
    speed: Option<u32>,
    carried: BTreeMap<(String, usize), Option<String>>,
    holds: Vec<Option<String>>,
}

impl Statement {
    pub fn of(problem: &Problem) -> Self {
        let diameter = |tool: &str| {
            let tool = problem.tools.iter().find(|t| t.id.as_str() == tool);
            tool.unwrap().diameter_mm.map(|d| d.um())
        };
        let chain: Vec<Vec<Op>> = problem
            .sites
            .iter()
            .map(|site| {
                let op = |step: &traywright_core::order::Operation| Op {
                    tool: step.instrument.as_ref().map(|i| {
                        let setting = i.setting.as_ref().map(ToString::to_string);
                        (i.tool.to_string(), setting)
                    }),
                    sleeve: step.sleeve.clone(),
                    speed: step.speed_rpm,
                    diameter_um: step
                        .instrument
                        .as_ref()
                        .and_then(|i| diameter(i.tool.as_str())),
                };
                site.steps.iter().map(op).collect()
            })
            .collect();
        let site = |id: &str| {
            problem
                .sites
                .iter()
                .position(|s| s.id.as_str() == id)
                .unwrap()
        };
        let arcs = problem.rules.before.iter().map(|rule| {
            let (a, b) = (site(rule.first.as_str()), site(rule.then.as_str()));
            let last = u32::try_from(chain[a].len()).unwrap();
            let a_step = rule.first_step.unwrap_or(last) as usize - 1;
            ((a, a_step), (b, rule.then_step.unwrap_or(1) as usize - 1))
        });
        let w = &problem.weights;
        let w = [w.mount_ds, w.reset_ds, w.move_ds, w.sleeve_ds, w.speed_ds];
        Self {
            arcs: arcs.collect(),
            k: problem
                .tools
                .iter()
                .map(|t| (t.id.to_string(), t.copies as usize))
                .collect(),
            v: problem
                .sleeves
                .iter()
                .map(|s| (s.id.to_string(), s.pieces as usize))
                .collect(),
            site_by_site: problem.rules.groups.contains(&Group::SiteBySite),
            by_diameter: problem.rules.groups.contains(&Group::ByDiameter),
            w: w.map(u64::from),
            resets_first: problem.objective == Objective::FewestResets,
            chain,
        }
    }

    fn start(&self) -> Now {
        Now {
            pos: vec![0; self.chain.len()],
            hand: None,
            site: None,
            speed: None,
            carried: BTreeMap::new(),
            holds: vec![None; self.chain.len()],
        }
    }

    fn is_finished(&self, now: &Now) -> bool {
        self.chain
            .iter()
            .zip(&now.pos)
            .all(|(chain, pos)| *pos == chain.len())
    }

    /// One step of the statement; none where it is forbidden.
    fn step(&self, now: &Now, entry: &Entry) -> Option<(Now, Price)> {
        let Entry {
            site: i,
            copy: q,
            victim,
        } = *entry;
        let op = self.chain.get(i)?.get(now.pos[i])?;
        for ((a, a_step), then) in &self.arcs {
            if *then == (i, now.pos[i]) && now.pos[*a] <= *a_step {
                return None;
            }
        }
        if let (true, Some(own)) = (self.by_diameter, op.diameter_um) {
            for (chain, pos) in self.chain.iter().zip(&now.pos) {
                if chain[*pos..]
                    .iter()
                    .any(|op| op.diameter_um.is_some_and(|d| d < own))
                {
                    return None;
                }
            }
        }
        let mut next = now.clone();
        next.pos[i] += 1;
        let (mut resets, mut c) = (0, 0);
        if let Some((tool, setting)) = &op.tool {
            let q = q.filter(|q| *q < self.k[tool])?;
            let p = (tool.clone(), q);
            if now.hand.as_ref() != Some(&p) {
                c += self.w[0];
            }
            next.hand = Some(p.clone());
            if now.carried.get(&p).is_some_and(|before| before != setting) {
                c += self.w[1];
                resets += 1;
            }
            next.carried.insert(p, setting.clone());
        } else if q.is_some() {
            return None;
        }
        if let Some(before) = now.site.filter(|before| *before != i) {
            c += self.w[2];
            if self.site_by_site && now.pos[before] < self.chain[before].len() {
                return None;
            }
        }
        next.site = Some(i);
        match &op.sleeve {
            SleeveUse::Place(s) if now.holds[i].as_deref() != Some(s.as_str()) => {
                let out: BTreeSet<usize> = (0..self.chain.len())
                    .filter(|k| now.holds[*k].as_deref() == Some(s.as_str()))
                    .collect();
                if out.len() == self.v[s.as_str()] {
                    let from = victim.filter(|from| out.contains(from))?;
                    next.holds[from] = None;
                } else if victim.is_some() {
                    return None;
                }
                next.holds[i] = Some(s.to_string());
                c += self.w[3];
            }
            other => {
                if victim.is_some() {
                    return None;
                }
                if *other == SleeveUse::Out {
                    next.holds[i] = None;
                }
            }
        }
        if let Some(speed) = op.speed {
            if now.speed.is_some_and(|before| before != speed) {
                c += self.w[4];
            }
            next.speed = Some(speed);
        }
        Some((next, (resets, c)))
    }

    /// What a schedule costs; none where it is no schedule.
    pub fn cost(&self, schedule: &[Entry]) -> Option<Price> {
        let mut now = self.start();
        let mut total = (0, 0);
        for entry in schedule {
            let (next, price) = self.step(&now, entry)?;
            now = next;
            total = (total.0 + price.0, total.1 + price.1);
        }
        self.is_finished(&now).then_some(total)
    }

    /// Prices are compared by this.
    pub fn key(&self, price: Price) -> Price {
        if self.resets_first {
            price
        } else {
            (0, price.1)
        }
    }

    /// All that may be tried next at one site.
    fn tries(&self, now: &Now, i: usize) -> Vec<Entry> {
        let Some(op) = self.chain[i].get(now.pos[i]) else {
            return Vec::new();
        };
        let copies: Vec<Option<usize>> = match &op.tool {
            Some((tool, _)) => (0..self.k[tool]).map(Some).collect(),
            None => vec![None],
        };
        let victims = std::iter::once(None).chain((0..self.chain.len()).map(Some));
        victims
            .flat_map(|victim| {
                copies.iter().map(move |copy| Entry {
                    site: i,
                    copy: *copy,
                    victim,
                })
            })
            .collect()
    }

    /// The least cost by looking at everything, cheapest first; `sites` may name the order of sites,
    /// else all are looked at. None where nothing is allowed.
    pub fn least(&self, sites: Option<&[usize]>) -> Option<Price> {
        let mut open: BTreeMap<(Price, Now), Price> = BTreeMap::new();
        let mut done: BTreeSet<Now> = BTreeSet::new();
        open.insert(((0, 0), self.start()), (0, 0));
        while let Some(((_, now), price)) = open.pop_first() {
            if !done.insert(now.clone()) {
                continue;
            }
            if self.is_finished(&now) {
                return Some(price);
            }
            let step = now.pos.iter().sum::<usize>();
            for i in 0..self.chain.len() {
                if sites.is_some_and(|sites| sites[step] != i) {
                    continue;
                }
                for entry in self.tries(&now, i) {
                    if let Some((next, more)) = self.step(&now, &entry) {
                        let sum = (price.0 + more.0, price.1 + more.1);
                        if !done.contains(&next) {
                            open.insert((self.key(sum), next), sum);
                        }
                    }
                }
            }
        }
        None
    }
}
