//! How many of each tool there are, each with a stop where it is used with one.

use super::chains::{DRIVER, MOST_PIECES, Made, carrier_id, drill_id, is_in_row};
use crate::case::Case;
use crate::kit::{Drill, Kit};
use crate::order::{Id, Instrument, Tool};
use std::collections::{BTreeMap, BTreeSet};

/// The tools that the chains use, in the order of the kit.
pub(super) fn tools(case: &Case, made: &[Made]) -> Vec<Tool> {
    let kit = &case.kit;
    let used: BTreeSet<&Id> = instruments(made).map(|one| &one.tool).collect();
    let stops = shared_stops(kit, made);
    let drills = kit.drills.iter().map(|drill| {
        let id = drill_id(drill.id.as_str());
        let with_stop = stops.get(&id).copied();
        Tool {
            copies: drill
                .quantity
                .min(with_stop.unwrap_or(u32::MAX))
                .min(MOST_PIECES),
            diameter_mm: diameter(drill),
            id,
        }
    });
    let carriers = kit.carriers.iter().map(|carrier| Tool {
        id: carrier_id(carrier.id.as_str()),
        copies: carrier.quantity.min(MOST_PIECES),
        diameter_mm: None,
    });
    let driver = std::iter::once(Tool {
        id: Id::from(DRIVER),
        copies: 1,
        diameter_mm: None,
    });
    let all = drills.chain(carriers).chain(driver);
    all.filter(|tool| used.contains(&tool.id)).collect()
}

fn diameter(drill: &Drill) -> Option<crate::measure::Length> {
    is_in_row(drill.kind).then_some(drill.cutting_diameter_mm)
}

fn instruments(made: &[Made]) -> impl Iterator<Item = &Instrument> {
    let steps = made.iter().flat_map(|one| &one.steps);
    steps.filter_map(|(_, step)| step.instrument.as_ref())
}

/// For each drill that takes a stop, how many stops it can have at a time.
///
/// A stop is on one drill at a time, so that drills which take the same one share them: each has one
/// in the order of the chains, and what is left goes round among those with more settings than stops.
fn shared_stops(kit: &Kit, made: &[Made]) -> BTreeMap<Id, u32> {
    // For each stop the drills with their settings on it, in order.
    let mut wanted: BTreeMap<&str, Vec<(Id, BTreeSet<&Id>)>> = BTreeMap::new();
    for one in instruments(made) {
        let Some(setting) = &one.setting else {
            continue;
        };
        let Some((stop, _)) = setting.as_str().rsplit_once('.') else {
            continue;
        };
        let drills = wanted.entry(stop).or_default();
        match drills.iter_mut().find(|(drill, _)| *drill == one.tool) {
            Some((_, settings)) => {
                settings.insert(setting);
            }
            None => drills.push((one.tool.clone(), BTreeSet::from([setting]))),
        }
    }
    let mut given: BTreeMap<Id, u32> = BTreeMap::new();
    for (stop, drills) in wanted {
        let stop = kit.stops.iter().find(|one| one.id.as_str() == stop);
        let mut left = stop.map_or(0, |one| one.quantity);
        for round in 0.. {
            let open = drills.iter().filter(|(_, settings)| settings.len() > round);
            let open: Vec<&Id> = open.map(|(drill, _)| drill).collect();
            for drill in &open {
                let own = given.entry((*drill).clone()).or_default();
                *own += u32::from(left > 0);
                left = left.saturating_sub(1);
            }
            if open.is_empty() || left == 0 {
                break;
            }
        }
    }
    given
}
