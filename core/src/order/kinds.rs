//! Tools as the search has to distinguish them.

use super::ValidProblem;
use std::collections::{BTreeMap, BTreeSet};

/// A tool as the search sees it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    /// Place of its copies in a state and their number; none where their settings never matter.
    pub(super) copies: Option<(usize, usize)>,
    /// Its first setting among the bits for settings, and how many it has.
    pub(super) settings: (usize, usize),
}

/// A tool with a setting, and what the search takes it for.
pub(super) type KindOf = BTreeMap<(usize, usize), (usize, usize)>;

/// Tools as the search has to distinguish them.
///
/// - Where a re-set costs nothing, or there is one setting, copies and settings do not matter.
/// - Where each setting can have a copy of its own and a re-set is not cheaper than taking another
///   copy, each setting is a tool of its own.
/// - Else the copies with their settings are part of the state. More copies than uses are never of use;
///   where a re-set is not cheaper than a change there are fewer copies than settings.
pub(super) fn kinds(problem: &ValidProblem) -> (Vec<Kind>, KindOf) {
    let rates = &problem.rates;
    let mut kinds = Vec::new();
    let mut kind_of = BTreeMap::new();
    let (mut copies_from, mut settings_from) = (0, 0);
    for (tool, stock) in problem.tools.iter().enumerate() {
        let uses = || problem.ops.iter().flatten().filter_map(|op| op.tool);
        let uses: Vec<usize> = uses().filter(|u| u.0 == tool).map(|u| u.1).collect();
        let settings: BTreeSet<usize> = uses.iter().copied().collect();
        let stock = stock.copies as usize;
        let mut add = |copies: Option<usize>, settings: usize| {
            kinds.push(Kind {
                copies: copies.map(|count| (copies_from, count)),
                settings: (settings_from, settings),
            });
            copies_from += copies.unwrap_or_default();
            settings_from += settings;
            kinds.len() - 1
        };
        if settings.is_empty() {
            continue;
        }
        if settings.len() == 1 || rates.reset == 0 {
            let kind = add(None, 1);
            kind_of.extend(settings.iter().map(|s| ((tool, *s), (kind, 0))));
        } else if stock >= settings.len() && rates.reset >= rates.mount {
            for setting in settings {
                let kind = add(None, 1);
                kind_of.insert((tool, setting), (kind, 0));
            }
        } else {
            let kind = add(Some(stock.min(uses.len())), settings.len());
            let ranks = settings.iter().enumerate();
            kind_of.extend(ranks.map(|(rank, s)| ((tool, *s), (kind, rank))));
        }
    }
    (kinds, kind_of)
}
