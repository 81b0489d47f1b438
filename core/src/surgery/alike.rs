//! What a hand could take for the drill of a step.

use crate::kit::SlotKind;
use crate::measure::Length;
use crate::plan::{LoadItem, Mistake, MixUp, SiteSheet, StepSheet, Worksheet};

/// Something that a hand could take by mistake.
#[derive(Debug, Clone, PartialEq)]
pub enum LookAlike<'a> {
    /// The same drill at another setting, or one of which that is not known.
    OtherSetting {
        /// The other.
        item: &'a LoadItem,
        /// Excess of its setting over the step's; negative: less; none where one of them is not known.
        by: Option<Length>,
    },
    /// A mistake of the plan's list at this step: it breaks a limit, or cuts too wide.
    MixUp(&'a MixUp),
}

/// What could be taken for the drill of a step: the same drill at other settings, the most harmful first, and what else
/// of the plan's mix-ups happens in this very step.
pub(super) fn look_alikes<'a>(
    worksheet: &'a Worksheet,
    (site, step): (&SiteSheet, &StepSheet),
    own: Option<&LoadItem>,
) -> Vec<LookAlike<'a>> {
    let is_here = |one: &&MixUp| one.site == site.id && one.step == step.id;
    let mut mix_ups: Vec<&MixUp> = worksheet.mix_ups.iter().filter(is_here).collect();
    mix_ups.sort_by_key(|one| std::cmp::Reverse((one.only_setting, one.cut)));
    let told = |item: &LoadItem| {
        let set = item.set.as_ref().and_then(|on| on.set.get());
        mix_ups.iter().any(|one| match &one.mistake {
            Mistake::OtherSetting { drill, set: of, .. } => {
                drill.as_str() == item.entry && set == Some(*of)
            }
            _ => false,
        })
    };
    let set_of = |item: &LoadItem| item.set.as_ref().and_then(|on| on.set.get());
    let here = own.and_then(set_of);
    let same = worksheet.loading.iter().filter(|item| {
        let is_drill = item.kind == SlotKind::Drill && item.entry == step.drill.as_str();
        let is_own = own.is_some_and(|own| std::ptr::eq(own, *item) || own.slot == item.slot);
        is_drill && !is_own && set_of(item) != here
    });
    let others: Vec<LookAlike<'a>> = same
        .filter(|item| !told(item))
        .map(|item| LookAlike::OtherSetting {
            item,
            by: set_of(item).zip(here).map(|(other, here)| other - here),
        })
        .collect();
    let mut all: Vec<LookAlike<'a>> = mix_ups.into_iter().map(LookAlike::MixUp).collect();
    let first = all
        .iter()
        .take_while(|one| matches!(one, LookAlike::MixUp(mix_up) if mix_up.only_setting))
        .count();
    all.splice(first..first, others);
    all
}
