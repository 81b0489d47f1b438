//! The piece for each use of interchangeable pieces, for an order that is given: an exact dynamic
//! programme, which the solver, whoever prices an order and the worksheet share, so that they never
//! tell of different pieces.
//!
//! Pieces differ only in how they are set, so a state is the settings of all pieces, those nobody asks
//! for any more being alike, and which one was used last. Where several ways cost the same, a use takes
//! the piece that is at its setting, else one that was not used yet, else the one whose setting is needed
//! again last, and of these the one that was used longest ago: there is the most time to set it anew.

use super::valid::Rates;
use super::{Objective, Weights};
use std::collections::BTreeMap;

/// One use of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct PieceUse {
    /// The setting that is asked for, as a number.
    pub(crate) setting: usize,
    /// No other instrument was taken since the use before.
    pub(crate) in_hand: bool,
}

/// What it costs to take a piece into the hand and to set one anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct PieceRates {
    mount: i64,
    reset: i64,
}

impl PieceRates {
    /// More than all mounts of an order cost, where each counts one.
    const RESET_FIRST: i64 = 1 << 32;

    /// With fewest re-sets first the weights do not matter: then come the fewest mounts.
    pub(crate) fn of(objective: Objective, weights: &Weights) -> Self {
        match objective {
            Objective::FewestResets => Self {
                mount: 1,
                reset: Self::RESET_FIRST,
            },
            Objective::LeastTime => Self {
                mount: weights.mount_ds.into(),
                reset: weights.reset_ds.into(),
            },
        }
    }

    /// Those of a problem, or of a part of one.
    pub(super) const fn of_rates(rates: &Rates) -> Self {
        if rates.ahead > 0 {
            Self {
                mount: 1,
                reset: Self::RESET_FIRST,
            }
        } else {
            Self {
                mount: rates.mount,
                reset: rates.reset,
            }
        }
    }
}

/// The work that goes into the pieces, counted in pieces of states looked at. Beyond it the dearest
/// states are left out, and the pieces are good rather than best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Effort {
    /// Enough to be exact for every tray that there is.
    Exact,
    /// So little that an order of the largest problem is there at once.
    Quick,
}

impl Effort {
    /// So many states are followed at a time.
    fn states(self, uses: usize, pieces: usize) -> usize {
        let work = match self {
            Self::Exact => 1_000_000,
            Self::Quick => 20_000,
        };
        (work / (uses * pieces).max(1)).max(16)
    }
}

/// The piece for each use, from 0 by their first use, so that all together cost least.
pub(crate) fn lay(uses: &[PieceUse], pieces: usize, rates: PieceRates) -> Vec<usize> {
    lay_with(uses, pieces, rates, Effort::Exact)
}

pub(super) fn lay_with(
    uses: &[PieceUse],
    pieces: usize,
    rates: PieceRates,
    effort: Effort,
) -> Vec<usize> {
    let pieces = pieces.min(uses.len()).max(1);
    let most = effort.states(uses.len(), pieces);
    let layers = layers(uses, pieces, rates, most);
    name(&layers, uses)
}

/// A piece that is set to something nobody asks for any more.
const SPENT: usize = usize::MAX - 1;
/// A piece that was not used yet.
const FRESH: usize = usize::MAX;
/// The piece used last, as a choice.
const LAST: usize = usize::MAX;

/// The setting of the piece used last, and of the others in order.
type State = (usize, Vec<usize>);

/// A way out of a state.
#[derive(Debug, Clone, Copy)]
struct Way {
    /// Which of the pieces is taken, and its setting.
    choice: usize,
    taken: usize,
    price: i64,
    /// The place of the state that it leads to in the next layer.
    to: usize,
}

/// For each use, the ways out of each state before it that are as cheap to the end as any.
type Layers = Vec<Vec<Vec<Way>>>;

fn layers(uses: &[PieceUse], pieces: usize, rates: PieceRates, most: usize) -> Layers {
    let last_use = last_use(uses);
    // Before the first use no piece was used last: one stands for it that is as fresh as all others.
    let mut states: Vec<(State, i64)> = vec![((FRESH, vec![FRESH; pieces - 1]), 0)];
    let mut layers: Layers = Vec::with_capacity(uses.len());
    for (n, used) in uses.iter().enumerate() {
        let mut places: BTreeMap<State, usize> = BTreeMap::new();
        let mut costs: Vec<i64> = Vec::new();
        let mut ways: Vec<Vec<Way>> = Vec::with_capacity(states.len());
        for ((last, others), cost) in &states {
            let way = |(choice, taken): (usize, usize)| {
                let held = choice == LAST && used.in_hand;
                let set = taken != FRESH && taken != used.setting;
                let price = if held { 0 } else { rates.mount } + if set { rates.reset } else { 0 };
                let mut rest = others.clone();
                if choice != LAST {
                    rest[choice] = *last;
                }
                let state = settled((used.setting, rest), n, &last_use);
                let fresh = places.len();
                let to = *places.entry(state).or_insert(fresh);
                if to == costs.len() {
                    costs.push(i64::MAX);
                }
                costs[to] = costs[to].min(cost + price);
                Way {
                    choice,
                    taken,
                    price,
                    to,
                }
            };
            ways.push(choices(*last, others, used).into_iter().map(way).collect());
        }
        let mut next: Vec<(State, usize)> = places.into_iter().collect();
        if next.len() > most {
            next.sort_by_key(|(_, at)| costs[*at]);
            next.truncate(most);
        }
        let mut kept = vec![None; costs.len()];
        for (place, (_, at)) in next.iter().enumerate() {
            kept[*at] = Some(place);
        }
        for ways in &mut ways {
            ways.retain_mut(|way| kept[way.to].map(|to| way.to = to).is_some());
        }
        states = next
            .into_iter()
            .map(|(state, at)| (state, costs[at]))
            .collect();
        layers.push(ways);
    }
    keep_cheapest(&mut layers, states.len());
    layers
}

/// Leaves of each state the ways that are as cheap to the end as any.
fn keep_cheapest(layers: &mut Layers, ends: usize) {
    let mut rest = vec![0; ends];
    for layer in layers.iter_mut().rev() {
        let total = |way: &Way| way.price.saturating_add(rest[way.to]);
        let least = |ways: &Vec<Way>| ways.iter().map(total).min().unwrap_or(i64::MAX / 2);
        let own: Vec<i64> = layer.iter().map(least).collect();
        for (ways, least) in layer.iter_mut().zip(&own) {
            ways.retain(|way| total(way) == *least);
        }
        rest = own;
    }
}

/// Pieces worth taking, with their settings: one of each setting. One that is set as asked for is
/// as good as any, one in the hand so set better.
fn choices(last: usize, others: &[usize], used: &PieceUse) -> Vec<(usize, usize)> {
    if last == used.setting && used.in_hand {
        return vec![(LAST, last)];
    }
    let one_of = |wanted: usize| Some((others.iter().position(|s| *s == wanted)?, wanted));
    let as_asked = if last == used.setting {
        Some((LAST, last))
    } else {
        one_of(used.setting)
    };
    match (as_asked, used.in_hand) {
        // To set the piece in the hand anew may still be cheaper than to take another one.
        (Some(one), true) => return vec![(LAST, last), one],
        (Some(one), false) => return vec![one],
        (None, _) => {}
    }
    let mut worth = vec![(LAST, last)];
    if let Some(one) = one_of(FRESH).or_else(|| one_of(SPENT)) {
        worth.push(one);
    } else {
        let firsts = (0..others.len()).filter(|n| *n == 0 || others[n - 1] != others[*n]);
        worth.extend(firsts.map(|n| (n, others[n])));
    }
    worth
}

/// For each setting the last use that asks for it.
fn last_use(uses: &[PieceUse]) -> Vec<usize> {
    let settings = uses.iter().map(|used| used.setting + 1).max();
    let mut last = vec![0; settings.unwrap_or_default()];
    for (n, used) in uses.iter().enumerate() {
        last[used.setting] = n;
    }
    last
}

/// A setting after a use: those that nobody asks for any more are alike.
fn settle(setting: usize, used: usize, last_use: &[usize]) -> usize {
    let is_asked = last_use.get(setting).is_some_and(|last| *last > used);
    if setting == FRESH || is_asked {
        setting
    } else {
        SPENT
    }
}

/// A state after a use, the others in order.
fn settled((last, mut others): State, used: usize, last_use: &[usize]) -> State {
    for other in &mut others {
        *other = settle(*other, used, last_use);
    }
    others.sort_unstable();
    (settle(last, used, last_use), others)
}

/// A piece by its number: the last use that it had.
type Last = usize;

/// Real pieces along the cheapest ways.
fn name(layers: &Layers, uses: &[PieceUse]) -> Vec<usize> {
    let last_use = last_use(uses);
    let mut pieces: Vec<Last> = Vec::new();
    let mut named: Vec<usize> = Vec::with_capacity(uses.len());
    let mut at = 0;
    for (n, used) in uses.iter().enumerate() {
        let in_hand = named.last().copied();
        let found = layers[n].get(at).into_iter().flatten().flat_map(|way| {
            let is_it = |piece: &usize| {
                let setting = uses[pieces[*piece]].setting;
                let is_last = Some(*piece) == in_hand;
                is_last == (way.choice == LAST)
                    && (is_last || settle(setting, n - 1, &last_use) == way.taken)
            };
            let fresh = (way.taken == FRESH).then_some(pieces.len());
            let known = (0..pieces.len()).filter(is_it).collect::<Vec<_>>();
            let all = known
                .into_iter()
                .filter(|_| way.taken != FRESH)
                .chain(fresh);
            all.map(|piece| (piece, way.to))
        });
        let best = found.max_by_key(|(piece, _)| {
            let Some(last) = pieces.get(*piece) else {
                return (1, 0, std::cmp::Reverse(0));
            };
            let setting = uses[*last].setting;
            let next = uses[n..].iter().position(|ahead| ahead.setting == setting);
            let as_asked = if next == Some(0) { 2 } else { 0 };
            let needed = next.unwrap_or(usize::MAX);
            (as_asked, needed, std::cmp::Reverse(*last))
        });
        // There is one: the states were made from these pieces.
        let (piece, to) = best.unwrap_or_default();
        debug_assert!(best.is_some(), "use {n} of {used:?}");
        at = to;
        if piece == pieces.len() {
            pieces.push(n);
        } else if let Some(last) = pieces.get_mut(piece) {
            *last = n;
        }
        named.push(piece);
    }
    named
}

#[cfg(test)]
mod tests {
    use super::*;

    fn laid(settings: &[usize], in_hand: bool, pieces: usize, rates: PieceRates) -> Vec<usize> {
        let uses: Vec<PieceUse> = settings
            .iter()
            .map(|setting| PieceUse {
                setting: *setting,
                in_hand,
            })
            .collect();
        lay(&uses, pieces, rates)
    }

    fn fewest() -> PieceRates {
        PieceRates::of(Objective::FewestResets, &Weights::default())
    }

    #[test]
    fn what_is_needed_last_gives_way_and_of_equals_what_was_used_longest_ago() {
        let laid = |settings: &[usize], pieces| laid(settings, false, pieces, fewest());
        assert_eq!(laid(&[1, 2, 1, 3], 9), [0, 1, 0, 2]);
        // 1 is needed again, 2 is not.
        assert_eq!(laid(&[1, 2, 3, 1], 2), [0, 1, 1, 0]);
        // 2 is needed before 1.
        assert_eq!(laid(&[1, 2, 3, 2, 1], 2), [0, 1, 0, 1, 0]);
        // Neither is needed again, and 1 was used last.
        assert_eq!(laid(&[1, 2, 1, 3], 2), [0, 1, 0, 1]);
        assert_eq!(laid(&[1, 2, 1], 1), [0, 0, 0]);
    }

    #[test]
    fn the_one_in_the_hand_is_set_anew_where_that_is_as_few_re_sets_and_a_mount_less() {
        assert_eq!(laid(&[1, 2, 3], true, 2, fewest()), [0, 1, 1]);
        // Two drills for three settings: one re-set either way, here in the hand.
        assert_eq!(laid(&[1, 2, 3, 2], true, 2, fewest()), [0, 0, 1, 0]);
    }

    /// A mount and two re-sets are 130 tenths of a second, two mounts and a re-set 140.
    #[test]
    fn where_a_re_set_costs_less_than_a_mount_an_unused_piece_stays_unused() {
        let weights = Weights {
            mount_ds: 50,
            reset_ds: 40,
            ..Weights::default()
        };
        let rates = PieceRates::of(Objective::LeastTime, &weights);
        assert_eq!(laid(&[1, 2, 3], true, 2, rates), [0, 0, 0]);
        assert_eq!(laid(&[1, 2, 3], false, 2, rates), [0, 1, 0]);
    }
}
