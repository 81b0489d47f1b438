//! The copy of a tool that each step takes, for an order that is given: an exact dynamic programme
//! for each tool by itself.
//!
//! Copies differ only in how they are set, so a state is the settings of all copies, those nobody asks
//! for any more being alike, and which one was used last.

use super::ValidProblem;
use super::valid::{Op, Rates};
use std::collections::BTreeMap;

/// The work that goes into the copies, counted in copies of states looked at. Beyond it the dearest
/// states are left out, and the copies are good rather than best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Effort {
    /// Enough to be exact for every tray that there is.
    Exact,
    /// So little that an order of the largest problem is there at once.
    Quick,
}

impl Effort {
    /// So many states of one tool are followed at a time.
    fn states(self, steps: usize, copies: usize) -> usize {
        let work = match self {
            Self::Exact => 5_000_000,
            Self::Quick => 100_000,
        };
        (work / (steps * copies).max(1)).max(16)
    }
}

/// A copy that is set to something nobody asks for any more.
const SPENT: usize = usize::MAX - 1;
/// A copy that was not used yet.
const FRESH: usize = usize::MAX;

/// The copy for each step; none where the step has no instrument.
pub(super) fn best(
    problem: &ValidProblem,
    steps: &[Option<Op>],
    effort: Effort,
) -> Vec<Option<usize>> {
    let mut chosen = vec![None; steps.len()];
    for (tool, stock) in problem.tools.iter().enumerate() {
        let uses = uses(steps, tool);
        let count = (stock.copies as usize).min(uses.len());
        let most = effort.states(steps.len(), count);
        for (used, copy) in uses
            .iter()
            .zip(for_tool(&uses, count, &problem.rates, most))
        {
            chosen[used.at] = Some(copy);
        }
    }
    chosen
}

/// One use of a tool.
struct ToolUse {
    at: usize,
    setting: usize,
    /// No other instrument was taken since the use before.
    in_hand: bool,
}

fn uses(steps: &[Option<Op>], tool: usize) -> Vec<ToolUse> {
    let mut uses = Vec::new();
    let mut in_hand = false;
    for (at, step) in steps.iter().enumerate() {
        match step.and_then(|op| op.tool) {
            Some((used, setting)) if used == tool => {
                uses.push(ToolUse {
                    at,
                    setting,
                    in_hand,
                });
                in_hand = true;
            }
            Some(_) => in_hand = false,
            None => {}
        }
    }
    uses
}

/// The setting of the copy used last, and of the others in order.
type State = (usize, Vec<usize>);

/// The cost of coming here, and by which state and which of its copies.
type Arrival = (i64, usize, usize);

fn for_tool(uses: &[ToolUse], count: usize, rates: &Rates, most: usize) -> Vec<usize> {
    let last_use = last_use(uses);
    let mut layers: Vec<Vec<(State, Arrival)>> = Vec::new();
    // Before the first use no copy was used last: one stands for it that is as fresh as all others.
    let mut layer: Vec<(State, Arrival)> =
        vec![((FRESH, vec![FRESH; count.saturating_sub(1)]), (0, 0, FRESH))];
    for (n, used) in uses.iter().enumerate() {
        let mut next: BTreeMap<State, Arrival> = BTreeMap::new();
        for (from, ((last, others), (cost, _, _))) in layer.iter().enumerate() {
            for (choice, taken) in choices(*last, others, used) {
                let held = choice == LAST && used.in_hand;
                let set = taken != FRESH && taken != used.setting;
                let price = if held { 0 } else { rates.mount } + if set { rates.reset } else { 0 };
                let mut rest = others.clone();
                if choice != LAST {
                    rest[choice] = *last;
                }
                let state = settled((used.setting, rest), n, &last_use);
                let arrival = (cost + price, from, choice);
                let known = next.entry(state).or_insert(arrival);
                *known = (*known).min(arrival);
            }
        }
        layers.push(std::mem::take(&mut layer));
        layer = next.into_iter().collect();
        if layer.len() > most {
            layer.sort_by_key(|(_, (cost, _, _))| *cost);
            layer.truncate(most);
        }
    }
    layers.push(layer);
    let picks = picks(&layers);
    name(&picks, uses, count, &last_use)
}

/// The copy used last, as a choice.
const LAST: usize = usize::MAX;

/// Copies worth taking, with their settings: one of each setting. One that is set as asked for is
/// as good as any, one in the hand so set better.
fn choices(last: usize, others: &[usize], used: &ToolUse) -> Vec<(usize, usize)> {
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
        // To set the copy in the hand anew may still be cheaper than to take another one.
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
fn last_use(uses: &[ToolUse]) -> Vec<usize> {
    let settings = uses.iter().map(|used| used.setting + 1).max();
    let mut last = vec![0; settings.unwrap_or_default()];
    for (n, used) in uses.iter().enumerate() {
        last[used.setting] = n;
    }
    last
}

/// True if a use after the one with this number asks for a setting.
fn is_asked(setting: usize, after: usize, last_use: &[usize]) -> bool {
    last_use.get(setting).is_some_and(|last| *last > after)
}

/// A state after a use, with settings that nobody asks for any more made alike, the others in order.
fn settled((last, mut others): State, used: usize, last_use: &[usize]) -> State {
    let settle = |setting: usize| {
        let counts = setting == FRESH || is_asked(setting, used, last_use);
        if counts { setting } else { SPENT }
    };
    for other in &mut others {
        *other = settle(*other);
    }
    others.sort_unstable();
    (settle(last), others)
}

/// Of each layer the state before the use, and which of its copies was taken, on the cheapest way.
fn picks(layers: &[Vec<(State, Arrival)>]) -> Vec<(State, usize)> {
    let mut picks = Vec::new();
    let Some(end) = layers.last() else {
        return picks;
    };
    let best = end
        .iter()
        .enumerate()
        .min_by_key(|(_, (_, arrival))| arrival.0);
    let Some((mut at, _)) = best else {
        return picks;
    };
    for n in (1..layers.len()).rev() {
        let (_, from, choice) = layers[n][at].1;
        picks.push((layers[n - 1][from].0.clone(), choice));
        at = from;
    }
    picks.reverse();
    picks
}

/// Real copies for the choices: one that is set as the chosen one was.
fn name(
    picks: &[(State, usize)],
    uses: &[ToolUse],
    count: usize,
    last_use: &[usize],
) -> Vec<usize> {
    let mut settings = vec![FRESH; count];
    let mut last = 0;
    let mut named = Vec::with_capacity(uses.len());
    for (n, ((state, choice), used)) in picks.iter().zip(uses).enumerate() {
        // Before this use; the first finds only copies that are fresh.
        let asked = |setting: usize| n > 0 && is_asked(setting, n - 1, last_use);
        let alike = |setting: usize, wanted: usize| {
            setting == wanted || (wanted == SPENT && setting != FRESH && !asked(setting))
        };
        if *choice != LAST {
            let wanted = state.1[*choice];
            let other = (0..count).find(|k| *k != last && alike(settings[*k], wanted));
            // There is one: the state was made from these copies.
            last = other.unwrap_or(last);
        }
        settings[last] = used.setting;
        named.push(last);
    }
    named
}
