//! What a hand could take for the drill of a step.

use crate::kit::{Kit, SlotKind};
use crate::measure::Length;
use crate::plan::{
    Actionable, LoadItem, Mistake, MixUp, SiteSheet, StepSheet, Worksheet, with_planned,
};
use crate::sign::{DrillKey, PlanView, Standing, StopSince};
use std::num::NonZeroU32;

/// Something that a hand could take by mistake.
#[derive(Debug, Clone, PartialEq)]
pub enum LookAlike<'a> {
    /// The same drill at another setting, or one of which that is not known.
    OtherSetting(OtherSetting),
    /// A mistake of the plan's list at this step: it breaks a limit, or cuts too wide.
    MixUp(&'a MixUp),
}

/// The same drill at another setting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OtherSetting {
    /// Its setting, by the record where it is set, else by the plan; none where that is not known.
    pub set: Option<Length>,
    /// Its slot; none where it lies in none.
    pub slot: Option<String>,
    /// Excess of its setting over the step's; negative: less; none where one of them is not known.
    pub by: Option<Length>,
}

/// What could be taken for the drill of a step: the same drill at other settings, the most harmful first, and what else
/// of the plan's mix-ups happens in this very step.
pub(super) fn look_alikes<'a>(
    (worksheet, view, kit): (&'a Worksheet, &PlanView, &Kit),
    standing: &Standing,
    (site, step): (&SiteSheet, &StepSheet),
    own: Option<&LoadItem>,
) -> Vec<LookAlike<'a>> {
    let others = others((worksheet, view, kit), standing, step, own);
    let is_here = |one: &&MixUp| one.site == site.id && one.step == step.id;
    // A setting at which none is any more is no mix-up.
    let is_there = |one: &&MixUp| match &one.mistake {
        Mistake::OtherSetting { drill, set, .. } if *drill == step.drill => {
            others.iter().any(|other| other.set == Some(*set))
        }
        _ => true,
    };
    let mix_ups = worksheet.mix_ups.iter().filter(is_here);
    let mut mix_ups: Vec<&MixUp> = mix_ups.filter(is_there).collect();
    mix_ups.sort_by_key(|one| std::cmp::Reverse((one.only_setting, one.cut)));
    let told = |other: &OtherSetting| {
        mix_ups.iter().any(|one| match &one.mistake {
            Mistake::OtherSetting { drill, set, .. } => {
                *drill == step.drill && other.set == Some(*set)
            }
            _ => false,
        })
    };
    let others: Vec<LookAlike<'a>> = others
        .iter()
        .filter(|other| !told(other))
        .cloned()
        .map(LookAlike::OtherSetting)
        .collect();
    let mut all: Vec<LookAlike<'a>> = mix_ups.into_iter().map(LookAlike::MixUp).collect();
    let first = all
        .iter()
        .take_while(|one| matches!(one, LookAlike::MixUp(mix_up) if mix_up.only_setting))
        .count();
    all.splice(first..first, others);
    all
}

/// The other drills of the step's sort that are at another setting, or of which nobody knows at which.
fn others(
    (worksheet, view, kit): (&Worksheet, &PlanView, &Kit),
    standing: &Standing,
    step: &StepSheet,
    own: Option<&LoadItem>,
) -> Vec<OtherSetting> {
    // What does not fit is set to nothing.
    let is_set = |item: &LoadItem| {
        let figure = Actionable::of_item(item).map(|one| one.figure(kit));
        figure.is_some_and(|figure| figure.large().is_some())
    };
    let set_of = |item: &LoadItem| {
        let set = item.set.as_ref().and_then(|on| on.set.get());
        set.filter(|_| is_set(item))
    };
    let here = own.and_then(set_of);
    let of_sort =
        |item: &LoadItem| item.kind == SlotKind::Drill && item.entry == step.drill.as_str();
    let planned: Vec<(DrillKey, &LoadItem)> = with_planned(worksheet, view)
        .filter(|(item, _)| of_sort(item))
        .map(|(item, planned)| {
            let copy = NonZeroU32::new(item.copy).unwrap_or(NonZeroU32::MIN);
            let drill = item.entry.clone();
            let free = DrillKey { drill, copy };
            let drill = planned.map_or(free, |planned| planned.key.drill_key());
            (drill, item)
        })
        .collect();
    let place = |item: &LoadItem| {
        own.is_some_and(|own| {
            std::ptr::eq(own, item) || own.slot.is_some() && own.slot == item.slot
        })
    };
    let own_key = planned.iter().find(|(_, item)| place(item));
    let own_key = own_key.map(|(drill, _)| drill);
    let recorded = |drill: &DrillKey| {
        let now = standing
            .drills
            .get(drill)
            .filter(|now| now.is_somewhere())?;
        let set = (now.stop == StopSince::AsSet).then_some(now.item.setting_mm);
        Some((set, now.slot.clone()))
    };
    let by_plan = planned.iter().map(|(drill, item)| {
        let slot = item.slot.as_ref().map(ToString::to_string);
        (drill, recorded(drill).unwrap_or((set_of(item), slot)))
    });
    let of_record = standing.drills.keys().filter(|drill| {
        let mut planned = planned.iter();
        drill.drill == step.drill.as_str() && !planned.any(|(one, _)| one == *drill)
    });
    let of_record = of_record.filter_map(|drill| Some((drill, recorded(drill)?)));
    let all = by_plan.chain(of_record);
    let all = all.filter(|(drill, (set, _))| {
        Some(*drill) != own_key && (set.is_none() || here.is_none() || *set != here)
    });
    all.map(|(_, (set, slot))| OtherSetting {
        set,
        slot,
        by: set.zip(here).map(|(other, here)| other - here),
    })
    .collect()
}
