//! The bounds that a search uses together, their prices chosen for its start.

use super::bound::{Bound, Speeds};
use super::model::Model;
use super::state::Layout;

/// So often all prices are gone through.
const ROUNDS: usize = 3;
/// Prices are looked for tool by tool where the tables for all tries have no more numbers than this;
/// else one price is taken for all.
const MOST_NUMBERS: usize = 2_000_000;

/// Several bounds, of which the highest holds.
pub(super) struct Bounds<'m> {
    all: Vec<Bound<'m>>,
    room: Vec<i64>,
}

impl<'m> Bounds<'m> {
    /// Quick ones without any prices: for a first order.
    pub(super) fn quick(model: &'m Model) -> Self {
        Self {
            all: vec![Bound::new(model, Speeds::Apart, vec![0; model.kinds.len()])],
            room: Vec::new(),
        }
    }

    /// With good prices, once for each way to count speeds; of bounds that say the same at the start
    /// the simpler one.
    pub(super) fn good(model: &'m Model) -> Self {
        let ways = if model.rates.speed > 0 && model.speeds > 1 {
            vec![Speeds::Apart, Speeds::WithSteps]
        } else {
            vec![Speeds::Apart]
        };
        let mut all = Vec::new();
        for speeds in ways {
            let plain = Bound::new(model, speeds, vec![0; model.kinds.len()]);
            let priced = priced(model, speeds);
            if at_start(model, &priced) > at_start(model, &plain) {
                all.push(priced);
            }
            all.push(plain);
        }
        Self {
            all,
            room: Vec::new(),
        }
    }

    /// A lower bound for what is left in a state. Once one says `enough` the others are not asked.
    pub(super) fn of(&mut self, row: &[u16], ahead: &[u64], enough: i64) -> i64 {
        let mut highest = 0;
        for bound in &self.all {
            highest = highest.max(bound.of(row, ahead, &mut self.room));
            if highest >= enough {
                break;
            }
        }
        highest
    }

    /// Numbers looked at for a bound.
    pub(super) fn numbers(&self) -> u64 {
        self.all.iter().map(Bound::numbers).sum()
    }

    /// A lower bound for the whole problem.
    pub(super) fn start(&self, model: &Model) -> i64 {
        let all = self.all.iter().map(|bound| at_start(model, bound));
        all.max().unwrap_or_default()
    }
}

fn at_start(model: &Model, bound: &Bound<'_>) -> i64 {
    let layout = Layout::of(model);
    let (row, _) = layout.start(model);
    let mut ahead = Vec::new();
    layout.ahead(model, &row, &mut ahead);
    bound.of(&row, &ahead, &mut Vec::new())
}

/// Prices that lift the bound at the start, found by trying a few for one tool after another.
fn priced(model: &Model, speeds: Speeds) -> Bound<'_> {
    let none = vec![0; model.kinds.len()];
    let rates = &model.rates;
    // Without a weight on moves a state does not tell where one is, so nobody could be made to pay.
    if rates.go == 0 {
        return Bound::new(model, speeds, none);
    }
    let tried = [
        0,
        rates.mount,
        rates.mount / 2,
        (rates.go - rates.mount).max(0),
        rates.go,
        rates.mount + rates.speed,
    ];
    let mut best = Bound::new(model, speeds, none.clone());
    let mut height = at_start(model, &best);
    let mut prices = none;
    for price in tried {
        let all = vec![price; model.kinds.len()];
        let bound = Bound::new(model, speeds, all.clone());
        if at_start(model, &bound) > height {
            height = at_start(model, &bound);
            (best, prices) = (bound, all);
        }
    }
    let numbers = prices.len() * prices.len() * model.nodes.len();
    let rounds = if numbers > MOST_NUMBERS { 0 } else { ROUNDS };
    for _ in 0..rounds {
        let before = height;
        for kind in 0..prices.len() {
            for price in tried {
                let mut other = prices.clone();
                other[kind] = price;
                let bound = Bound::new(model, speeds, other.clone());
                if at_start(model, &bound) > height {
                    height = at_start(model, &bound);
                    (best, prices) = (bound, other);
                }
            }
        }
        if height == before {
            break;
        }
    }
    best
}
