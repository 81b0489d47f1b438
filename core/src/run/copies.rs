//! The copies of each tool, each with a stop where it is used with one.

use super::chains::{ChainDraft, DRIVER, MOST_PIECES, carrier_id, is_in_row};
use crate::case::Case;
use crate::kit::{Drill, DrillId, StopId};
use crate::measure::Length;
use crate::order::{Id, Instrument, Tool};
use crate::plan::{AskedSetting, Pools, Worksheet};
use std::collections::BTreeSet;

/// The drills of a case as tools. A pool whose drills are set anew is one; of every other pool each setting
/// is one, with the drill that the worksheet lays for it, so that both tell of the same drills.
pub(super) struct DrillTools {
    pools: Pools,
    /// Every setting with its pool and the tool that it is.
    settings: Vec<(AskedSetting, usize, Id)>,
}

impl DrillTools {
    /// With every setting of the worksheet, on the tray or set anew in surgery.
    pub(super) fn of(case: &Case, worksheet: &Worksheet) -> Self {
        let set_anew = worksheet.resets.iter().map(|one| &one.to);
        let all = worksheet.loading.iter().chain(set_anew);
        let sets = all.filter_map(|item| item.set.as_ref());
        let settings: BTreeSet<AskedSetting> = sets
            .map(|on| (on.drill.clone(), on.stop.clone(), on.set.get()))
            .collect();
        let settings: Vec<AskedSetting> = settings.into_iter().collect();
        let pools = Pools::of(&case.kit, &settings);
        let settings = settings.into_iter().filter_map(|one| {
            let pool = pools.of_drill(&one.0, one.1.as_ref())?;
            let id = tool_id(&pools, pool, &one);
            Some((one, pool, id))
        });
        Self {
            settings: settings.collect(),
            pools,
        }
    }

    /// The tool that a drill with a setting is.
    pub(super) fn tool(&self, drill: &DrillId, stop: Option<&StopId>, set: Length) -> Id {
        let is =
            |one: &AskedSetting| one.0 == *drill && one.1.as_ref() == stop && one.2 == Some(set);
        let found = self.settings.iter().find(|(one, _, _)| is(one));
        // What is done is laid.
        found.map_or_else(|| plain_id(drill), |(_, _, id)| id.clone())
    }

    /// The tools that the chains use, in the order of the kit.
    pub(super) fn tools(&self, case: &Case, drafts: &[ChainDraft]) -> Vec<Tool> {
        let kit = &case.kit;
        let used: BTreeSet<&Id> = instruments(drafts).map(|one| &one.tool).collect();
        let mut known: BTreeSet<&Id> = BTreeSet::new();
        let own = self.settings.iter().filter(|(_, _, id)| known.insert(id));
        let own: Vec<_> = own.collect();
        let drills = own.into_iter().map(|((drill, _, _), pool, id)| {
            let pieces = self.pools.all[*pool].pieces;
            let most = if self.pools.has_resets(*pool) {
                MOST_PIECES
            } else {
                1
            };
            Tool {
                id: id.clone(),
                copies: pieces.min(most),
                diameter_mm: kit.drill(drill).and_then(diameter),
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
}

/// The drill by itself where it is one tool; else with its stop, and with the setting, as far as they
/// distinguish it.
fn tool_id(pools: &Pools, pool: usize, (drill, stop, set): &AskedSetting) -> Id {
    let stop = stop.as_ref().map_or("", StopId::as_str);
    let own = pools.all.iter().filter(|other| other.drill == *drill);
    if pools.has_resets(pool) || pools.all[pool].pieces == 0 {
        let first = pools.all[pool].stops.iter().flatten().next();
        let first = first.map_or("", StopId::as_str);
        return match own.count() {
            1 => plain_id(drill),
            _ => Id::from(format!("drill.{drill}.{first}").as_str()),
        };
    }
    let set = set.map_or_else(String::new, |set| set.um().to_string());
    Id::from(format!("drill.{drill}.{stop}.{set}").as_str())
}

fn plain_id(drill: &DrillId) -> Id {
    Id::from(format!("drill.{drill}").as_str())
}

fn diameter(drill: &Drill) -> Option<Length> {
    is_in_row(drill.kind).then_some(drill.cutting_diameter_mm)
}

fn instruments(drafts: &[ChainDraft]) -> impl Iterator<Item = &Instrument> {
    let steps = drafts.iter().flat_map(|one| &one.steps);
    steps.filter_map(|(_, step)| step.instrument.as_ref())
}
