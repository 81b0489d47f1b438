//! What is in the guide: a sleeve or a carrier that was left in.

use super::{DayStep, Work};
use crate::case::ValidCase;
use crate::kit::{DrillSleeveId, SiteId, SlotKind};
use crate::plan::{SiteSheet, StepPath, Worksheet, holding_by_default};
use crate::sign::{DayEvent, EventKind, Fall, InsertionWay, Piece, StepKey};
use std::collections::{BTreeMap, BTreeSet};

/// What is in the guide.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Held {
    /// The drill sleeve in each site's master sleeve.
    pub sleeves: BTreeMap<SiteId, DrillSleeveId>,
    /// The fixation pins that are in, by their names.
    pub pins: BTreeSet<String>,
    /// The sites whose implant holds the guide by its carrier, in the order in which they went in.
    pub carriers: Vec<SiteId>,
}

impl Held {
    /// By what was recorded: what was done, and what fell out of it.
    pub(super) fn of((day, fallen): (&[DayEvent], &[Fall]), case: &ValidCase) -> Self {
        let holding = holding_by_default(case);
        let mut held = Self::default();
        let mut falls = fallen.iter().filter(|fall| fall.counts()).peekable();
        for one in day.iter().filter(|one| one.counts()) {
            while let Some(fall) = falls.next_if(|fall| fall.place < one.place) {
                held.fell(fall);
            }
            match (&one.kind, one.step()) {
                (EventKind::StepDone(_), Some(StepKey::Drill { site, sleeve, .. })) => {
                    let site = SiteId::from(site.site.as_str());
                    match sleeve {
                        Some(sleeve) => held.put_in(site, DrillSleeveId::from(sleeve.as_str())),
                        None => drop(held.sleeves.remove(&site)),
                    }
                }
                (EventKind::StepDone(_), Some(StepKey::Pin { pin, .. })) => {
                    held.pins.insert(pin.clone());
                }
                (EventKind::StepDone(_), Some(StepKey::GuideOff {})) => held = Self::default(),
                // With the guide seated again its pins are in again.
                (EventKind::StepDone(_), Some(StepKey::Reseat {} | StepKey::Lifted {})) => {
                    let pins = held.pins;
                    held = Self {
                        pins,
                        ..Self::default()
                    };
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
        for fall in falls {
            held.fell(fall);
        }
        held
    }

    /// A sleeve that fell is in no guide any more, and nothing is in a guide that fell; its pins go in again with it.
    fn fell(&mut self, fall: &Fall) {
        if matches!(fall.piece, Piece::Guide(_)) {
            self.sleeves.clear();
            self.carriers.clear();
        }
        let stays = |sleeve: &DrillSleeveId| !fall.is_of(SlotKind::Sleeve, sleeve.as_str());
        self.sleeves.retain(|_, sleeve| stays(sleeve));
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
            Work::Insert { site, out, .. } => {
                let led = site.insertion.as_ref();
                let wanted = led.and_then(|one| one.sleeve.clone());
                let here = held.sleeves.remove(&site.id);
                let here = here.filter(|sleeve| Some(sleeve) != wanted.as_ref());
                out.extend(here.map(|sleeve| (*site, sleeve)));
            }
            Work::GuideOff { .. } | Work::Reseat => held = Held::default(),
            _ => {}
        }
    }
}
