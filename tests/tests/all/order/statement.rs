//! The statement of the run order once more, written apart from the library: what a schedule costs,
//! and the least cost of a small problem by looking at everything (Dijkstra).

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};
use traywright_core::measure::Length;
use traywright_core::order::{Chain, Entry, Group, Id, Objective, Operation, Problem, SleeveUse};

/// Re-sets and tenths of a second.
pub(super) type Price = (u64, u64);

/// The place of a thing that a site or a copy does not have.
const NONE: usize = usize::MAX;

/// One operation of the statement, names replaced by their places in the lists.
struct Op {
    /// Tool, and setting among all that there are; BARE is one of them.
    tool: Option<(usize, usize)>,
    sleeve: Sleeve,
    speed: Option<u32>,
    diameter_um: Option<i64>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Sleeve {
    Keep,
    Out,
    Place(usize),
}

/// A step and one that waits for it, each by site and place.
type Arc = ((usize, usize), (usize, usize));

/// A problem as the statement has it.
pub(super) struct Statement {
    chain: Vec<Vec<Op>>,
    k: Vec<usize>,
    v: Vec<usize>,
    /// For each site the one that it goes on with.
    goes_on: Vec<Option<usize>>,
    /// Of each pair the first has to be done before the second.
    arcs: Vec<Arc>,
    site_by_site: bool,
    by_diameter: bool,
    w: [u64; 5],
    resets_first: bool,
}

/// Everything that the cost of what is left depends on.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Now {
    pos: Vec<usize>,
    hand: Option<(usize, usize)>,
    site: Option<usize>,
    speed: Option<u32>,
    /// For each tool and copy the setting that it carries.
    carried: Vec<Vec<usize>>,
    holds: Vec<usize>,
}

/// A rule that names a step by a number from 1, or does not.
fn step_at(given: Option<u32>, otherwise: usize) -> usize {
    given.map_or(otherwise, |step| usize::try_from(step).unwrap() - 1)
}

impl Statement {
    pub(super) fn of(problem: &Problem) -> Self {
        let tool = |id: &Id| problem.tools.iter().position(|t| t.id == *id).unwrap();
        let site = |id: &Id| problem.sites.iter().position(|s| s.id == *id).unwrap();
        let sleeve = |id: &Id| problem.sleeves.iter().position(|s| s.id == *id).unwrap();
        let steps = || problem.sites.iter().flat_map(|site| &site.steps);
        let settings: BTreeSet<Option<&Id>> = steps()
            .filter_map(|step| step.instrument.as_ref().map(|i| i.setting.as_ref()))
            .collect();
        let settings: Vec<Option<&Id>> = settings.into_iter().collect();
        let op = |step: &Operation| {
            let used = step.instrument.as_ref().map(|i| {
                let setting = settings.iter().position(|s| *s == i.setting.as_ref());
                (tool(&i.tool), setting.unwrap())
            });
            Op {
                tool: used,
                sleeve: match &step.sleeve {
                    SleeveUse::Keep => Sleeve::Keep,
                    SleeveUse::Out => Sleeve::Out,
                    SleeveUse::Place(id) => Sleeve::Place(sleeve(id)),
                },
                speed: step.speed_rpm,
                diameter_um: used.and_then(|(t, _)| problem.tools[t].diameter_mm.map(Length::um)),
            }
        };
        let chain: Vec<Vec<Op>> = problem
            .sites
            .iter()
            .map(|site| site.steps.iter().map(op).collect())
            .collect();
        let goes_on = |(b, chain): (usize, &Chain)| {
            let a = site(chain.continues.as_ref()?);
            Some(((a, problem.sites[a].steps.len() - 1), (b, 0)))
        };
        let goes_on = problem.sites.iter().enumerate().map(goes_on);
        let goes_on: Vec<Option<Arc>> = goes_on.collect();
        let arcs = problem.rules.before.iter().map(|rule| {
            let (a, b) = (site(&rule.first), site(&rule.then));
            let first = (a, step_at(rule.first_step, chain[a].len() - 1));
            (first, (b, step_at(rule.then_step, 0)))
        });
        let w = &problem.weights;
        let w = [w.mount_ds, w.reset_ds, w.move_ds, w.sleeve_ds, w.speed_ds];
        let count = |n: u32| usize::try_from(n).unwrap();
        Self {
            arcs: arcs.chain(goes_on.iter().copied().flatten()).collect(),
            goes_on: goes_on.iter().map(|arc| arc.map(|arc| arc.0.0)).collect(),
            k: problem.tools.iter().map(|t| count(t.copies)).collect(),
            v: problem.sleeves.iter().map(|s| count(s.pieces)).collect(),
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
            carried: self.k.iter().map(|k| vec![NONE; *k]).collect(),
            holds: vec![NONE; self.chain.len()],
        }
    }

    fn is_finished(&self, now: &Now) -> bool {
        let mut sites = self.chain.iter().zip(&now.pos);
        sites.all(|(chain, pos)| *pos == chain.len())
    }

    /// True if the rules let the next step of a site be done.
    fn is_let(&self, now: &Now, i: usize, op: &Op) -> bool {
        let after = self.arcs.iter().filter(|arc| arc.1 == (i, now.pos[i]));
        let mut after = after.map(|arc| arc.0);
        let waits = after.any(|(a, step)| now.pos[a] <= step);
        let begun = now
            .site
            .filter(|s| *s != i && now.pos[*s] < self.chain[*s].len());
        let interrupts = self.site_by_site && begun.is_some();
        let mut left = self
            .chain
            .iter()
            .zip(&now.pos)
            .flat_map(|(c, pos)| &c[*pos..]);
        let narrower = |own: i64| left.any(|op| op.diameter_um.is_some_and(|d| d < own));
        let falls = self.by_diameter && op.diameter_um.is_some_and(narrower);
        !(waits || interrupts || falls)
    }

    /// One step of the statement; none where it is forbidden.
    fn step(&self, now: &Now, entry: &Entry) -> Option<(Now, Price)> {
        let Entry {
            site: i,
            copy: q,
            victim,
        } = *entry;
        let op = self.chain.get(i)?.get(now.pos[i])?;
        if !self.is_let(now, i, op) {
            return None;
        }
        let mut next = now.clone();
        next.pos[i] += 1;
        let (mut resets, mut c) = (0, 0);
        if let Some((tool, setting)) = op.tool {
            let q = q.filter(|q| *q < self.k[tool])?;
            let p = (tool, q);
            if now.hand != Some(p) {
                c += self.w[0];
            }
            next.hand = Some(p);
            let before = now.carried[tool][q];
            if before != NONE && before != setting {
                c += self.w[1];
                resets += 1;
            }
            next.carried[tool][q] = setting;
        } else if q.is_some() {
            return None;
        }
        let stays = now.pos[i] == 0 && self.goes_on[i] == now.site;
        if now.site.is_some_and(|before| before != i) && !stays {
            c += self.w[2];
        }
        next.site = Some(i);
        match op.sleeve {
            Sleeve::Place(s) if now.holds[i] != s => {
                let out = now.holds.iter().filter(|held| **held == s).count();
                if out == self.v[s] {
                    let from = victim.filter(|from| now.holds.get(*from) == Some(&s))?;
                    next.holds[from] = NONE;
                } else if victim.is_some() {
                    return None;
                }
                next.holds[i] = s;
                c += self.w[3];
            }
            other => {
                if victim.is_some() {
                    return None;
                }
                if other == Sleeve::Out {
                    next.holds[i] = NONE;
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

    /// Cost of a schedule; none where it is no schedule.
    pub(super) fn cost(&self, schedule: &[Entry]) -> Option<Price> {
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
    pub(super) fn key(&self, price: Price) -> Price {
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
        let copies: Vec<Option<usize>> = match op.tool {
            Some((tool, _)) => (0..self.k[tool]).map(Some).collect(),
            None => vec![None],
        };
        let victims = std::iter::once(None).chain((0..self.chain.len()).map(Some));
        let entry = |copy: &Option<usize>, victim| Entry {
            site: i,
            copy: *copy,
            victim,
        };
        victims
            .flat_map(|victim| copies.iter().map(move |copy| entry(copy, victim)))
            .collect()
    }

    /// The least cost by looking at everything, cheapest first; `sites` may name the order of sites,
    /// else all are looked at. None where nothing is allowed.
    pub(super) fn least(&self, sites: Option<&[usize]>) -> Option<Price> {
        let mut open: BinaryHeap<Reverse<(Price, Price, Now)>> = BinaryHeap::new();
        let mut done: BTreeSet<Now> = BTreeSet::new();
        open.push(Reverse(((0, 0), (0, 0), self.start())));
        while let Some(Reverse((_, price, now))) = open.pop() {
            if self.is_finished(&now) {
                return Some(price);
            }
            if done.contains(&now) {
                continue;
            }
            let step = now.pos.iter().sum::<usize>();
            for i in 0..self.chain.len() {
                if sites.is_some_and(|sites| sites[step] != i) {
                    continue;
                }
                for entry in self.tries(&now, i) {
                    if let Some((next, more)) = self.step(&now, &entry)
                        && !done.contains(&next)
                    {
                        let sum = (price.0 + more.0, price.1 + more.1);
                        open.push(Reverse((self.key(sum), sum, next)));
                    }
                }
            }
            done.insert(now);
        }
        None
    }
}
