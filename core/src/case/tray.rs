//! Places on the tray that a person chose.

use super::Case;
use crate::document::{Checks, Fault, Path, Rule};
use crate::kit::{Label, SiteId, SlotKind, StepId, TraySlot};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A slot of the case's tray and what is to lie in it, whatever the program would lay there.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TrayPlace {
    /// Name of the slot.
    pub slot: Label,
    /// The thing to lie in it.
    pub holds: Held,
}

/// A thing on the tray, told by what stays the same when a setting changes: not by its place in the
/// list or by its figure.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "of", rename_all = "snake_case", deny_unknown_fields)]
pub enum Held {
    /// The drill of a step. Where one drill serves several steps, any of them names it.
    Step {
        /// The site.
        site: SiteId,
        /// The step.
        step: StepId,
    },
    /// The drill of a fixation pin.
    Pin {
        /// The pin's name in the case.
        pin: Label,
    },
    /// The implant of a site.
    Implant {
        /// The site.
        site: SiteId,
    },
    /// A drill sleeve, carrier, driver, pin or accessory.
    Entry {
        /// The kind of thing.
        kind: SlotKind,
        /// Its id in the kit.
        #[schemars(length(min = 1, max = 60))]
        entry: String,
        /// Ordinal among several equal ones, from 1.
        #[schemars(range(min = 1, max = 500))]
        copy: u32,
    },
}

impl Held {
    /// The kind of its slot.
    #[must_use]
    pub const fn kind(&self) -> SlotKind {
        match self {
            Self::Step { .. } | Self::Pin { .. } => SlotKind::Drill,
            Self::Implant { .. } => SlotKind::Implant,
            Self::Entry { kind, .. } => *kind,
        }
    }

    /// True if it is a site's.
    #[must_use]
    pub fn is_of_site(&self, id: &SiteId) -> bool {
        match self {
            Self::Step { site, .. } | Self::Implant { site } => site == id,
            Self::Pin { .. } | Self::Entry { .. } => false,
        }
    }
}

impl Case {
    /// The slots of the tray that was chosen, in the order in which they are filled; none without a
    /// tray.
    #[must_use]
    pub fn tray_slots(&self) -> &[TraySlot] {
        let tray = self.setup.tray.as_ref().and_then(|id| self.kit.tray(id));
        tray.map_or(&[], |tray| &tray.slots)
    }
}

/// Each place is in a slot of the tray that is for this kind of thing, no slot holds two things, and
/// no thing is in two slots. Whether the plan has the thing is not asked: where it has it no more the
/// worksheet says so, and an edit elsewhere is not refused for it.
pub(super) fn check(case: &Case, root: &Path, checks: &mut Checks) {
    let at = root.key("tray_places");
    let places = &case.tray_places;
    checks.unique(&at, "slot", places.iter().map(|place| place.slot.as_str()));
    let slots = case.tray_slots();
    for (n, place) in places.iter().enumerate() {
        let here = at.item(n);
        let known = slots.iter().map(|slot| slot.name.as_str());
        checks.reference(here.key("slot"), "slot", place.slot.as_str(), known);
        let slot = slots.iter().find(|slot| slot.name == place.slot);
        if let Some(slot) = slot.filter(|slot| slot.kind != place.holds.kind()) {
            checks.push(
                Fault::new(here.key("slot"), Rule::OtherSlotKind)
                    .with("slot", slot.name.as_str())
                    .with("kind", slot.kind.key())
                    .with("other", place.holds.kind().key()),
            );
        }
        let before = places[..n]
            .iter()
            .find(|other| other.holds == place.holds && other.slot != place.slot);
        if let Some(before) = before {
            checks.push(
                Fault::new(here.key("holds"), Rule::InTwoSlots)
                    .with("slot", place.slot.as_str())
                    .with("first", before.slot.as_str()),
            );
        }
    }
}
