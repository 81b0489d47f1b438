//! Numbers of pieces of each drill that can be used at a time, each with a stop where it is used
//! with one.
//!
//! How many there are depends on what is asked for, not on the order in which it is; which of them each
//! use takes says [`lay`](crate::order::lay).

use crate::kit::{DrillId, Kit, StopId};
use std::collections::{BTreeMap, BTreeSet};

/// For each drill, and each sort of stop on it, how many settings are asked for; without a stop a
/// mark is read.
pub(crate) type Demand = BTreeMap<(DrillId, Option<StopId>), u32>;

/// Pieces of a drill that are interchangeable: a stop of one of these sorts is on each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Pool {
    /// The drill.
    pub(crate) drill: DrillId,
    /// The sorts of stops, in the order of the kit; nothing, at the end, for a mark that is read.
    pub(crate) stops: BTreeSet<Option<StopId>>,
    /// Number of pieces.
    pub(crate) pieces: u32,
}

/// A sort of stop on a drill.
struct Sort<'a> {
    stop: Option<&'a StopId>,
    settings: u32,
    /// Number of them for this drill.
    given: u32,
}

/// The pieces of each drill that is asked for, in the order of the kit.
///
/// - A stop is on one drill at a time. Drills that take one sort share what there is: each has one,
///   in the order of the kit, and what is left goes round among those with more settings than stops
///   and a piece to put one on.
/// - A drill that takes several sorts has pieces for each, so that none needs more stops of a sort
///   than there are. Where there are fewer pieces than sorts the last piece takes what is left of
///   them, one stop after the other.
pub(crate) fn shares(kit: &Kit, wanted: &Demand) -> Vec<Pool> {
    let mut most = wanted.clone();
    loop {
        let given = given(kit, &most);
        let shares = with_given(kit, wanted, &given);
        // A stop that no piece of its drill takes is for another drill. Each turn leaves fewer of them,
        // and no drill with less than it had.
        let mut all_taken = true;
        for share in &shares {
            for stop in share.stops.iter().filter(|stop| stop.is_some()) {
                let key = (share.drill.clone(), stop.clone());
                if given.get(&key).is_some_and(|given| *given > share.pieces) {
                    most.insert(key, share.pieces);
                    all_taken = false;
                }
            }
        }
        if all_taken {
            return shares;
        }
    }
}

/// The pieces of each drill where each has so many stops of each sort.
fn with_given(kit: &Kit, wanted: &Demand, given: &Demand) -> Vec<Pool> {
    let mut shares = Vec::new();
    for drill in &kit.drills {
        let stops = kit.stops.iter().map(|stop| Some(&stop.id)).chain([None]);
        let sorts: Vec<Sort<'_>> = stops
            .filter_map(|stop| {
                let key = (drill.id.clone(), stop.cloned());
                Some(Sort {
                    stop,
                    settings: *wanted.get(&key)?,
                    given: given.get(&key).copied().unwrap_or_default(),
                })
            })
            .collect();
        let share = |sorts: &[Sort<'_>], pieces| Pool {
            drill: drill.id.clone(),
            stops: sorts.iter().map(|sort| sort.stop.cloned()).collect(),
            pieces,
        };
        match &sorts[..] {
            [] => {}
            [one] => shares.push(share(&sorts, one.given.min(drill.quantity))),
            several if several.len() <= drill.quantity as usize => {
                let pieces = each(several, drill.quantity);
                let each = several.chunks(1).zip(pieces);
                shares.extend(each.map(|(sort, pieces)| share(sort, pieces)));
            }
            several => {
                let alone = (drill.quantity as usize).saturating_sub(1);
                let (alone, rest) = several.split_at(alone);
                let of_own = alone.chunks(1);
                shares.extend(of_own.map(|sort| share(sort, sort[0].given.min(1))));
                let there = rest.iter().all(|sort| sort.given > 0) && drill.quantity > 0;
                shares.push(share(rest, u32::from(there)));
            }
        }
    }
    shares
}

/// Distribution of a drill's pieces among several sorts of stops: one for each, then to those with
/// more settings than pieces, as far as there are stops.
fn each(sorts: &[Sort<'_>], quantity: u32) -> Vec<u32> {
    let most = |sort: &Sort<'_>| sort.given.min(sort.settings);
    let mut pieces: Vec<u32> = sorts.iter().map(|sort| most(sort).min(1)).collect();
    let mut left = quantity.saturating_sub(pieces.iter().sum());
    while left > 0 {
        let open = |(n, sort): (usize, &Sort<'_>)| (pieces[n] < most(sort)).then_some(n);
        // The one with the fewest so far.
        let open = sorts.iter().enumerate().filter_map(open);
        let Some(next) = open.min_by_key(|n| pieces[*n]) else {
            break;
        };
        pieces[next] += 1;
        left -= 1;
    }
    pieces
}

/// Numbers of stops of each sort that each drill can have at a time. Nothing limits marks that are
/// read.
fn given(kit: &Kit, wanted: &Demand) -> Demand {
    let mut given = Demand::new();
    for stop in &kit.stops {
        let takers: Vec<((DrillId, Option<StopId>), u32)> = kit
            .drills
            .iter()
            .filter_map(|drill| {
                let key = (drill.id.clone(), Some(stop.id.clone()));
                let settings = *wanted.get(&key)?;
                Some((key, settings))
            })
            .collect();
        let mut left = stop.quantity;
        for round in 0.. {
            let open: Vec<_> = takers.iter().filter(|(_, all)| *all > round).collect();
            for (key, _) in &open {
                *given.entry(key.clone()).or_default() += u32::from(left > 0);
                left = left.saturating_sub(1);
            }
            if open.is_empty() || left == 0 {
                break;
            }
        }
    }
    let bare = wanted.keys().filter(|(_, stop)| stop.is_none());
    given.extend(bare.map(|key| (key.clone(), u32::MAX)));
    given
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::{demo, demo_case};

    /// The kit of the two molars with so many of two drills and of two stops.
    fn kit(drills: [u32; 2], stops: [u32; 2]) -> Kit {
        let case = demo_case(demo::TWO_MOLARS);
        let mut kit = case.kit.clone();
        for (n, (drill, stop)) in drills.into_iter().zip(stops).enumerate() {
            kit.drills[n].quantity = drill;
            kit.stops[n].quantity = stop;
        }
        kit
    }

    /// Shares as drill, sorts of stops by their place in the kit (9: none), pieces.
    fn shared(kit: &Kit, wanted: &[(usize, usize, u32)]) -> Vec<(usize, Vec<usize>, u32)> {
        let stop = |n: usize| kit.stops.get(n).map(|stop| stop.id.clone());
        let wanted = wanted
            .iter()
            .map(|(drill, sort, all)| ((kit.drills[*drill].id.clone(), stop(*sort)), *all));
        let found = shares(kit, &wanted.collect());
        let place = |id: &Option<StopId>| {
            let all = id.as_ref();
            all.map_or(9, |id| kit.stops.iter().position(|s| s.id == *id).unwrap())
        };
        let share = |share: Pool| {
            let mut sorts: Vec<usize> = share.stops.iter().map(place).collect();
            sorts.sort_unstable();
            let drill = kit.drills.iter().position(|d| d.id == share.drill);
            (drill.unwrap(), sorts, share.pieces)
        };
        found.into_iter().map(share).collect()
    }

    #[test]
    fn the_fewer_of_drills_and_stops_count() {
        for (drills, stops, pieces) in [(3, 2, 2), (1, 4, 1), (0, 4, 0), (4, 0, 0), (4, 9, 3)] {
            let kit = kit([drills, 1], [stops, 1]);
            assert_eq!(shared(&kit, &[(0, 0, 3)]), [(0, vec![0], pieces)]);
        }
        // Marks are read on every piece.
        assert_eq!(
            shared(&kit([2, 1], [0, 0]), &[(0, 9, 5)]),
            [(0, vec![9], 2)]
        );
    }

    #[test]
    fn drills_that_take_one_sort_of_stop_share_it_evenly() {
        let share = |stops, wanted: [u32; 2]| {
            let kit = kit([9, 9], [stops, 9]);
            let found = shared(&kit, &[(0, 0, wanted[0]), (1, 0, wanted[1])]);
            [found[0].2, found[1].2]
        };
        assert_eq!(share(1, [2, 2]), [1, 0]);
        assert_eq!(share(2, [2, 2]), [1, 1]);
        assert_eq!(share(3, [2, 2]), [2, 1]);
        assert_eq!(share(3, [1, 4]), [1, 2]);
        assert_eq!(share(9, [1, 4]), [1, 4]);
    }

    #[test]
    fn a_stop_that_no_piece_takes_goes_to_another_drill() {
        // One of the first drill and three of the other: four stops do, whatever is asked for.
        let found = |drills, wanted: &[_]| {
            let found = shared(&kit(drills, [4, 9]), wanted);
            found.iter().map(|share| share.2).collect::<Vec<u32>>()
        };
        assert_eq!(found([1, 3], &[(0, 0, 3), (1, 0, 3)]), [1, 3]);
        assert_eq!(found([3, 1], &[(0, 0, 3), (1, 0, 3)]), [3, 1]);
        assert_eq!(found([0, 9], &[(0, 0, 3), (1, 0, 5)]), [0, 4]);
        // The first drill has a piece for each of two sorts.
        let two = [(0, 0, 3), (0, 1, 3), (1, 0, 3)];
        assert_eq!(found([2, 3], &two), [1, 1, 3]);
    }

    #[test]
    fn no_sort_of_stop_is_on_more_pieces_than_there_are_stops() {
        let two = |drills, stops| shared(&kit([drills, 1], stops), &[(0, 0, 2), (0, 1, 1)]);
        assert_eq!(two(3, [2, 2]), [(0, vec![0], 2), (0, vec![1], 1)]);
        assert_eq!(two(3, [1, 2]), [(0, vec![0], 1), (0, vec![1], 1)]);
        assert_eq!(two(1, [2, 2]), [(0, vec![0, 1], 1)]);
        assert_eq!(two(1, [2, 0]), [(0, vec![0, 1], 0)]);
        assert_eq!(two(0, [2, 2]), [(0, vec![0, 1], 0)]);
    }
}
