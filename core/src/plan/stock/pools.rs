//! The pools of a case's drills, and those of them in which a drill goes through several settings.
//!
//! Worksheet and run order both ask here, so that they never tell of different drills.

use crate::kit::{DrillId, Kit, StopId};
use crate::measure::Length;
use crate::plan::stock::share::{Demand, Pool, shares};
use std::collections::BTreeSet;

/// A setting that is asked for; nothing where it is not known.
pub(crate) type AskedSetting = (DrillId, Option<StopId>, Option<Length>);

/// The pools of all drills that are asked for.
pub(crate) struct Pools {
    pub(crate) all: Vec<Pool>,
    with_resets: BTreeSet<usize>,
}

impl Pools {
    /// Each setting is asked for once.
    ///
    /// Drills of a pool are set anew in surgery where there are fewer of them than settings, and re-sets
    /// do: every setting of the drill is known and on a stop, there is a piece for each of its pools, and
    /// a stop for each drill that takes one. In every other pool each setting is laid as if it had a drill.
    pub(crate) fn of(kit: &Kit, asked: &[AskedSetting]) -> Self {
        let mut wanted = Demand::new();
        for (drill, stop, _) in asked {
            *wanted.entry((drill.clone(), stop.clone())).or_default() += 1;
        }
        let all = shares(kit, &wanted);
        let settable = |drill: &DrillId| {
            let mut own = asked.iter().filter(|one| one.0 == *drill);
            own.all(|(_, stop, set)| stop.is_some() && set.is_some())
        };
        let goes_round = |stop: &Option<StopId>| {
            let takers = wanted.keys().filter(|(_, other)| other == stop).count();
            let entry = stop.as_ref().and_then(|id| kit.stop(id));
            entry.is_some_and(|entry| entry.quantity as usize >= takers)
        };
        let does = |drill: &DrillId| {
            let mut own = all.iter().filter(|pool| pool.drill == *drill);
            own.all(|pool| pool.pieces > 0 && pool.stops.iter().all(goes_round)) && settable(drill)
        };
        let is_short = |pool: &Pool| {
            let of_stop = |stop: &Option<StopId>| wanted.get(&(pool.drill.clone(), stop.clone()));
            pool.stops.iter().filter_map(of_stop).sum::<u32>() > pool.pieces
        };
        let with_resets = (0..all.len()).filter(|n| is_short(&all[*n]) && does(&all[*n].drill));
        Self {
            with_resets: with_resets.collect(),
            all,
        }
    }

    /// The place of the pool that a drill with a stop is from.
    pub(crate) fn of_drill(&self, drill: &DrillId, stop: Option<&StopId>) -> Option<usize> {
        let is_own = |pool: &Pool| {
            let mut stops = pool.stops.iter();
            pool.drill == *drill && stops.any(|one| one.as_ref() == stop)
        };
        self.all.iter().position(is_own)
    }

    /// True if the drills of a pool are set anew in surgery.
    pub(crate) fn has_resets(&self, pool: usize) -> bool {
        self.with_resets.contains(&pool)
    }
}
