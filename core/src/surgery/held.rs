//! What is in the guide: a sleeve or a carrier that was left in.

use super::{DayStep, Work};
use crate::case::ValidCase;
use crate::kit::{DrillSleeveId, SiteId};
use crate::plan::{SiteSheet, StepPath, Worksheet, holding_by_default};
use crate::sign::{DayEvent, EventKind, InsertionWay, StepKey};
use std::collections::BTreeMap;

/// What is in the guide.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Held {
    /// The drill sleeve in each site's master sleeve.
    pub sleeves: BTreeMap<SiteId, DrillSleeveId>,
    /// The sites whose implant holds the guide by its carrier, in the order in which they went in.
    pub carriers: Vec<SiteId>,
}

impl Held {
    /// By what was recorded.
    pub(super) fn of(day: &[DayEvent], case: &ValidCase) -> Self {
        let holding = holding_by_default(case);
        let mut held = Self::default();
        for one in day.iter().filter(|one| one.counts()) {
            match (&one.kind, one.step()) {
                (EventKind::StepDone(_), Some(StepKey::Drill { site, sleeve, .. })) => {
                    let site = SiteId::from(site.site.as_str());
                    match sleeve {
                        Some(sleeve) => held.put_in(site, DrillSleeveId::from(sleeve.as_str())),
                        None => drop(held.sleeves.remove(&site)),
                    }
                }
                (EventKind::StepDone(_), Some(StepKey::GuideOff {} | StepKey::Reseat {})) => {
                    held = Self::default();
                }
                (EventKind::Inserted(inserted), Some(StepKey::Insert { site, .. })) => {
                    let site = SiteId::from(site.site.as_str());
                    held.sleeves.remove(&site);
                    if inserted.way == InsertionWay::Guided && holding.contains(&site) {
                        held.carriers.push(site);
                    }
                }
                _ => {}
            }
        }
        held
    }

    /// A sleeve goes in. Of each there is one: it leaves where it was.
    fn put_in(&mut self, site: SiteId, sleeve: DrillSleeveId) {
        self.sleeves.retain(|_, other| *other != sleeve);
        self.sleeves.insert(site, sleeve);
    }
}

/// Puts for each step that is not over which sleeves come out and which goes in, from what is in the guide now on.
pub(super) fn sleeves<'a>(steps: &mut [DayStep<'a>], worksheet: &'a Worksheet, mut held: Held) {
    let sheet = |id: &SiteId| worksheet.sites.iter().find(|site| site.id == *id);
    for step in steps.iter_mut().filter(|step| !step.state.is_over()) {
        match &mut step.work {
            Work::Drill(drilling) if drilling.step.path != StepPath::Freehand => {
                let wanted = drilling.step.sleeve.clone();
                let here = held.sleeves.get(&drilling.site.id).cloned();
                if here == wanted {
                    continue;
                }
                let elsewhere = held.sleeves.iter().find(|(site, sleeve)| {
                    Some(*sleeve) == wanted.as_ref() && **site != drilling.site.id
                });
                let elsewhere = elsewhere.map(|(site, sleeve)| (site.clone(), sleeve.clone()));
                let out = here.map(|sleeve| (drilling.site.id.clone(), sleeve));
                let out = out.into_iter().chain(elsewhere);
                let out: Vec<(&'a SiteSheet, DrillSleeveId)> = out
                    .filter_map(|(site, sleeve)| Some((sheet(&site)?, sleeve)))
                    .collect();
                drilling.out = out;
                drilling.in_.clone_from(&wanted);
                match wanted {
                    Some(sleeve) => held.put_in(drilling.site.id.clone(), sleeve),
                    None => drop(held.sleeves.remove(&drilling.site.id)),
                }
            }
            Work::GuideOff { .. } | Work::Reseat => held = Held::default(),
            _ => {}
        }
    }
}
