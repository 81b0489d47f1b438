//! Implants that were chosen where no kit was at hand: what the kit has for them nobody knows.

use crate::case::Case;
use crate::kit::ImplantId;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// What a case's copy of the kit has whole, once something was chosen where it was all there was.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KitNotAtHand {
    /// Implants of sites that were chosen so.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 16))]
    pub chosen: Vec<ImplantId>,
    /// Implants for which the copy has all that the kit had, though no site may have them any more.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 100))]
    pub complete_for: Vec<ImplantId>,
}

impl KitNotAtHand {
    /// True if nothing was chosen so.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.chosen.is_empty()
    }

    /// None at all where nothing is left that was chosen so.
    fn of(chosen: BTreeSet<ImplantId>, mut complete_for: BTreeSet<ImplantId>) -> Self {
        if chosen.is_empty() {
            return Self::default();
        }
        complete_for.retain(|id| !chosen.contains(id));
        Self {
            complete_for: complete_for.into_iter().collect(),
            chosen: chosen.into_iter().collect(),
        }
    }
}

impl Case {
    /// The implants of its sites.
    pub(super) fn implants(&self) -> impl Iterator<Item = &ImplantId> {
        self.sites.iter().map(|site| &site.implant)
    }

    /// True if the copy has all that the kit had for an implant: it was chosen with the kit at hand.
    pub(super) fn has_whole_kit_for(&self, implant: &ImplantId) -> bool {
        let known = &self.kit_not_at_hand;
        !known.chosen.contains(implant)
            && (known.complete_for.contains(implant) || self.implants().any(|own| own == implant))
    }

    /// Remembers the implants for which the copy of the case before was not whole as chosen without a kit at hand, as
    /// long as a site has them.
    pub(in crate::case) fn implants_chosen_since(&mut self, before: &Self) {
        let own = self.implants();
        let chosen = own.filter(|id| !before.has_whole_kit_for(id)).cloned();
        let complete = before
            .implants()
            .chain(&before.kit_not_at_hand.complete_for);
        let complete = complete.filter(|id| before.has_whole_kit_for(id)).cloned();
        self.kit_not_at_hand = KitNotAtHand::of(chosen.collect(), complete.collect());
    }

    /// Remembers what one of two sides chose so, as long as a site has it.
    pub(in crate::case) fn chosen_on_either(&mut self, sides: [&Self; 2]) {
        let of = |list: fn(&KitNotAtHand) -> &Vec<ImplantId>| {
            let sides = sides.iter();
            sides.flat_map(move |side| list(&side.kit_not_at_hand).iter().cloned())
        };
        let chosen = of(|known| &known.chosen);
        let chosen = chosen.filter(|id| self.implants().any(|own| own == id));
        let complete = of(|known| &known.complete_for);
        self.kit_not_at_hand = KitNotAtHand::of(chosen.collect(), complete.collect());
    }
}
