//! The copies of each tool, each with a stop where it is used with one.

use super::chains::{ChainDraft, DRIVER, MOST_PIECES, carrier_id, is_in_row};
use crate::case::Case;
use crate::kit::{Drill, DrillId, StopId};
use crate::order::{Id, Instrument, Tool};
use crate::plan::{Demand, Pool, Worksheet, shares};
use std::collections::BTreeSet;

/// The drills of a case as tools: a drill that takes several sorts of stops is several, if there are
/// pieces for each.
pub(super) struct DrillTools(Vec<Pool>);

impl DrillTools {
    /// With every setting of the worksheet, on the tray or set anew in surgery.
    pub(super) fn of(case: &Case, worksheet: &Worksheet) -> Self {
        let set_anew = worksheet.resets.iter().map(|one| &one.to);
        let all = worksheet.loading.iter().chain(set_anew);
        let sets = all.filter_map(|item| item.set.as_ref());
        let settings: BTreeSet<_> = sets
            .map(|on| (on.drill.clone(), on.stop.clone(), on.set.get()))
            .collect();
        let mut wanted = Demand::new();
        for (drill, stop, _) in settings {
            *wanted.entry((drill, stop)).or_default() += 1;
        }
        Self(shares(&case.kit, &wanted))
    }

    /// The tool that a drill with a stop is.
    pub(super) fn tool(&self, drill: &DrillId, stop: Option<&StopId>) -> Id {
        let mut shares = self.0.iter();
        let found = shares.find(|share| {
            let mut stops = share.stops.iter();
            share.drill == *drill && stops.any(|one| one.as_ref() == stop)
        });
        found.map_or_else(|| plain_id(drill), |share| self.id(share))
    }

    fn id(&self, share: &Pool) -> Id {
        let drill = &share.drill;
        let own = self.0.iter().filter(|other| other.drill == *drill);
        if own.count() == 1 {
            return plain_id(drill);
        }
        let stop = share.stops.iter().flatten().next();
        Id::from(
            match stop {
                Some(stop) => format!("drill.{drill}.{stop}"),
                None => format!("drill.{drill}."),
            }
            .as_str(),
        )
    }

    /// The tools that the chains use, in the order of the kit.
    pub(super) fn tools(&self, case: &Case, drafts: &[ChainDraft]) -> Vec<Tool> {
        let kit = &case.kit;
        let used: BTreeSet<&Id> = instruments(drafts).map(|one| &one.tool).collect();
        let drills = self.0.iter().map(|share| Tool {
            id: self.id(share),
            copies: share.pieces.min(MOST_PIECES),
            diameter_mm: kit.drill(&share.drill).and_then(diameter),
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

fn plain_id(drill: &DrillId) -> Id {
    Id::from(format!("drill.{drill}").as_str())
}

fn diameter(drill: &Drill) -> Option<crate::measure::Length> {
    is_in_row(drill.kind).then_some(drill.cutting_diameter_mm)
}

fn instruments(drafts: &[ChainDraft]) -> impl Iterator<Item = &Instrument> {
    let steps = drafts.iter().flat_map(|one| &one.steps);
    steps.filter_map(|(_, step)| step.instrument.as_ref())
}
