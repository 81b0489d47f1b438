//! The steps of the day, as they follow from the worksheet.

use super::alike::look_alikes;
use super::count::{Room, digest, wanted_in, wanted_out};
use super::{DayStep, Drilling, GuidedStop, SetDrill, Sounding, State, Work, sounding_limit};
use crate::case::{Case, ValidCase};
use crate::kit::{SiteId, SlotKind, StepId};
use crate::plan::{
    Actionable, LoadItem, Operation, PinSheet, Reset, SiteSheet, StepPath, StepSheet, Worksheet,
    with_planned, with_planned_resets,
};
use crate::sign::{
    DrillKey, DrillUse, ItemKey, ItemStanding, Led, PlanView, PlannedItem, SiteKey, Standing,
    StepKey,
};
use std::num::NonZeroU32;

/// The plan and its record, as the steps look things up in them.
struct Plan<'a> {
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    view: &'a PlanView,
    standing: &'a Standing,
}

/// All steps, none of them looked up in the record yet.
pub(super) fn steps<'a>(
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    (view, standing): (&'a PlanView, &'a Standing),
) -> Vec<DayStep<'a>> {
    let plan = Plan {
        case,
        worksheet,
        view,
        standing,
    };
    if worksheet.sites.is_empty() {
        return Vec::new();
    }
    let room = Room {
        worksheet,
        view,
        standing,
    };
    let list = wanted_in(case, room);
    let key = StepKey::CountIn {
        list: Some(digest(&list)),
    };
    let mut out = vec![step(key, Work::Count(list))];
    for (place, one) in worksheet.order.iter().enumerate() {
        for (turn, reset) in worksheet.resets.iter().enumerate() {
            if reset.before == place {
                out.extend(plan.set_anew(turn, reset));
            }
        }
        plan.push(one, &mut out);
    }
    let list = wanted_out(case, room);
    let key = StepKey::CountOut {
        list: Some(digest(&list)),
    };
    out.push(step(key, Work::Count(list)));
    out
}

/// Adds the implants that were begun through their sleeve: each is turned to its depth once the guide is off.
pub(super) fn finish_by_hand<'a>(
    steps: &mut Vec<DayStep<'a>>,
    worksheet: &'a Worksheet,
    begun: &[(SiteKey, String)],
) {
    let off = steps
        .iter()
        .position(|step| matches!(step.work, Work::GuideOff { .. }));
    // Without a guide that comes off it is before the count.
    let mut at = off.map_or(steps.len().saturating_sub(1), |off| off + 1);
    for (key, implant) in begun {
        let Some(site) = worksheet
            .sites
            .iter()
            .find(|one| one.id.as_str() == key.site)
        else {
            continue;
        };
        let key = StepKey::Finish {
            site: key.clone(),
            implant: implant.clone(),
        };
        if steps.iter().all(|step| step.key != key) {
            steps.insert(at, step(key, Work::Finish { site }));
            at += 1;
        }
    }
}

fn step(key: StepKey, work: Work<'_>) -> DayStep<'_> {
    DayStep {
        key,
        work,
        state: State::Open,
        otherwise: None,
        not_ready: Vec::new(),
        recorded: Vec::new(),
        fell_since: false,
    }
}

impl<'a> Plan<'a> {
    fn push(&self, one: &'a Operation, out: &mut Vec<DayStep<'a>>) {
        match one {
            Operation::Pin { name } => {
                let mut pins = self.worksheet.pins.iter();
                let sheet = pins.find(|pin| pin.name == *name);
                out.extend(sheet.map(|sheet| self.pin(sheet)));
            }
            Operation::Punch { sites } => {
                let sheets: Vec<&SiteSheet> = sites.iter().filter_map(|id| self.site(id)).collect();
                let key = StepKey::Punch {
                    sites: sheets.iter().map(|sheet| site_key(sheet)).collect(),
                };
                out.push(step(key, Work::Punch(sheets)));
            }
            Operation::Reseat => out.push(step(StepKey::Reseat {}, Work::Reseat)),
            Operation::Sound { sites } => {
                out.push(step(
                    StepKey::Seat {
                        guide: self.guide(),
                    },
                    Work::Seat,
                ));
                let sheets = sites.iter().filter_map(|id| self.site(id));
                out.extend(sheets.map(|sheet| self.sound(sheet)));
            }
            Operation::Drill { site, step } => self.drill(site, step, out),
            Operation::Insert { site } => {
                out.extend(self.site(site).map(|sheet| self.insert(sheet)));
            }
            Operation::GuideOff => {
                let stops = self.guided_stops();
                out.push(step(StepKey::GuideOff {}, Work::GuideOff { stops }));
            }
        }
    }

    /// The code of the guide.
    fn guide(&self) -> Option<String> {
        self.case.guide.code.as_ref().map(ToString::to_string)
    }

    fn site(&self, id: &SiteId) -> Option<&'a SiteSheet> {
        self.worksheet.sites.iter().find(|site| site.id == *id)
    }

    fn pin(&self, sheet: &'a PinSheet) -> DayStep<'a> {
        let serves = |item: &&LoadItem| item.set.is_some() && item.pins.contains(&sheet.name);
        let resets = self.worksheet.resets.iter().map(|reset| &reset.to);
        let item = self.worksheet.loading.iter().chain(resets).find(serves);
        let key = StepKey::Pin {
            pin: sheet.name.to_string(),
            with: DrillUse {
                drill: sheet.drill.to_string(),
                stop: sheet.stop.as_ref().map(ToString::to_string),
                set_mm: sheet.set.length(),
            },
        };
        let drill = item.map(|item| self.set_drill(item));
        step(key, Work::Pin { sheet, drill })
    }

    fn sound(&self, site: &'a SiteSheet) -> DayStep<'a> {
        let planned = site.sounding.as_ref().and_then(|figure| figure.length());
        let key = StepKey::Sound {
            site: site_key(site),
            planned_mm: planned,
            guide: self.guide(),
        };
        let sounding = Sounding {
            site,
            planned,
            limit: sounding_limit(self.case),
        };
        step(key, Work::Sound(sounding))
    }

    fn set_anew(&self, turn: usize, reset: &'a Reset) -> Option<DayStep<'a>> {
        let on = reset.to.set.as_ref()?;
        let before = self.worksheet.resets[..turn].iter();
        let before = before.filter(|one| one.item == reset.item).count();
        let key = StepKey::SetAnew {
            with: DrillUse {
                drill: on.drill.to_string(),
                stop: on.stop.as_ref().map(ToString::to_string),
                set_mm: on.set.get(),
            },
            to: u32::try_from(before + 1).unwrap_or(u32::MAX),
        };
        let drill = self.set_drill(&reset.to);
        Some(step(key, Work::SetAnew { reset, drill }))
    }

    fn drill(&self, site: &'a SiteId, id: &'a StepId, out: &mut Vec<DayStep<'a>>) {
        let Some(sheet) = self.site(site) else { return };
        let Some(here) = sheet.steps.iter().find(|one| one.id == *id) else {
            return;
        };
        let item = self.worksheet.drill_of(site, id);
        let drill = item.map(|item| self.set_drill(item));
        // Beside no figure another one would be taken for it.
        let figure = item.and_then(Actionable::of_item);
        let figure = figure.and_then(|one| one.figure(&self.case.kit).large());
        let alike = figure.map(|_| {
            let plan = (self.worksheet, self.view, &self.case.kit);
            look_alikes(plan, self.standing, (sheet, here), item)
        });
        let drilling = Drilling {
            site: sheet,
            step: here,
            alike: alike.unwrap_or_default(),
            drill,
            out: Vec::new(),
            in_: None,
        };
        out.push(step(
            drill_key(sheet, here),
            Work::Drill(Box::new(drilling)),
        ));
        out.extend(self.look(sheet, here));
    }

    /// What the plan asks for after a step, before the next.
    fn look(&self, site: &'a SiteSheet, here: &StepSheet) -> Option<DayStep<'a>> {
        let case: &'a Case = self.case;
        let planned = case.site(site.id.as_str())?;
        let of_plan = planned.steps.iter().find(|one| one.id == here.id)?;
        let what = of_plan.then.as_ref()?;
        let key = StepKey::Look {
            site: site_key(site),
            id: here.id.to_string(),
            what: what.to_string(),
        };
        Some(step(key, Work::Look { site, what }))
    }

    fn insert(&self, site: &'a SiteSheet) -> DayStep<'a> {
        let serves = |item: &&LoadItem| {
            let mut serves = item.serves.iter();
            item.kind == SlotKind::Implant && serves.any(|one| one.site.as_ref() == Some(&site.id))
        };
        let item = self.worksheet.loading.iter().find(serves);
        let led = if site.insertion.is_some() {
            Led::Guide
        } else {
            Led::Freehand
        };
        let key = StepKey::Insert {
            site: site_key(site),
            implant: site.implant.to_string(),
            led,
        };
        let out = Vec::new();
        step(key, Work::Insert { site, item, out })
    }

    /// The drills that carry a stop which counts from a sleeve in the guide, by the plan or by how the record has them: what
    /// a change of the plan made freehand lies there with its guided stop until it is set anew.
    fn guided_stops(&self) -> Vec<GuidedStop> {
        let is_guided = |item: &LoadItem| {
            let mut serves = item.serves.iter();
            serves.any(|one| {
                let sheet = one.site.as_ref().and_then(|site| self.site(site));
                let id = one.step.as_ref();
                let here = sheet.zip(id);
                let here = here.and_then(|(sheet, id)| sheet.steps.iter().find(|s| s.id == *id));
                here.is_some_and(|here| here.path != StepPath::Freehand)
            })
        };
        let has_stop = |item: &LoadItem| item.set.as_ref().is_some_and(|on| on.stop.is_some());
        let by_hand: Vec<&ItemKey> = with_planned(self.worksheet, self.view)
            .filter(|(item, _)| !is_guided(item))
            .filter_map(|(_, planned)| Some(&planned?.key))
            .collect();
        let mut found: Vec<GuidedStop> = Vec::new();
        for (place, (item, planned)) in with_planned(self.worksheet, self.view).enumerate() {
            let mut turns = vec![item];
            turns.extend(self.worksheet.resets_of(place).map(|reset| &reset.to));
            if turns.into_iter().any(|one| has_stop(one) && is_guided(one)) {
                let copy = NonZeroU32::new(item.copy).unwrap_or(NonZeroU32::MIN);
                let drill = planned.map_or_else(
                    || DrillKey {
                        drill: item.entry.clone(),
                        copy,
                    },
                    |planned| planned.key.drill_key(),
                );
                let slot = item.slot.as_ref().map(ToString::to_string);
                found.push(GuidedStop { drill, slot });
            }
        }
        for (drill, now) in &self.standing.drills {
            let is_guided = now.item.stop.is_some() && !by_hand.contains(&&now.item);
            if !now.is_somewhere() || !is_guided {
                continue;
            }
            let slot = now.slot.clone();
            match found.iter_mut().find(|one| one.drill == *drill) {
                Some(one) => one.slot = slot.or_else(|| one.slot.take()),
                None => found.push(GuidedStop {
                    drill: drill.clone(),
                    slot,
                }),
            }
        }
        found
    }

    /// A drill of the loading list or of the re-sets, with what readings of it are held against and what counts.
    fn set_drill(&self, item: &'a LoadItem) -> SetDrill<'a> {
        let laid = with_planned(self.worksheet, self.view);
        let laid = laid.filter(|(one, _)| std::ptr::eq(*one, item));
        let anew = with_planned_resets(self.worksheet, self.view);
        let anew = anew.filter(|(one, _)| std::ptr::eq(&raw const one.to, item));
        let mut found = laid
            .map(|(_, planned)| planned)
            .chain(anew.map(|(_, planned)| planned));
        let planned = found.next().flatten();
        SetDrill {
            item,
            planned,
            standing: planned.and_then(|planned| self.standing_of(planned)),
        }
    }

    /// What counts for a setting: the standing has them in the order of the view.
    fn standing_of(&self, planned: &PlannedItem) -> Option<&'a ItemStanding> {
        let mut items = self.view.items.iter();
        let at = items.position(|one| std::ptr::eq(one, planned))?;
        let found = self.standing.items.get(at)?;
        (found.item == planned.key).then_some(found)
    }
}

/// A site as its steps name it.
pub(super) fn site_key(site: &SiteSheet) -> SiteKey {
    SiteKey {
        site: site.id.to_string(),
        tooth: site.tooth,
    }
}

fn drill_key(site: &SiteSheet, here: &StepSheet) -> StepKey {
    StepKey::Drill {
        site: site_key(site),
        id: here.id.to_string(),
        with: DrillUse {
            drill: here.drill.to_string(),
            stop: here.stop.as_ref().map(ToString::to_string),
            set_mm: here.set.length(),
        },
        sleeve: here
            .sleeve
            .as_ref()
            .filter(|_| here.path != StepPath::Freehand)
            .map(ToString::to_string),
        led: match here.path {
            StepPath::Freehand => Led::Freehand,
            StepPath::DrillSleeve | StepPath::MasterSleeve => Led::Guide,
        },
    }
}
