//! A step that could not be recorded, in few words. They bear no setting and no reading: they also stand where no
//! figure is in sight of anyone.

use super::Formatter;
use crate::kit::{DrillId, GaugeId};
use crate::sign::{EventKind, HandStep, Turn};

impl Formatter<'_> {
    /// The step of which this would have been the record: "Tip drill 2.57, its stop set".
    #[must_use]
    pub fn unrecorded(&self, kind: &EventKind) -> String {
        let drill = |id: &str, drill: &str| {
            let name = self.drill(&DrillId::from(drill));
            self.text(id, &[("what", &name)])
        };
        match kind {
            EventKind::Approval(_) => self.word("unrecorded-approval"),
            EventKind::ApprovalWithdrawn { .. } => self.word("unrecorded-withdrawal"),
            EventKind::Reading(reading) => match reading.turn {
                Turn::First => drill("unrecorded-first", &reading.item.drill),
                Turn::Second => drill("unrecorded-second", &reading.item.drill),
            },
            EventKind::Handled { item, step, .. } => match step {
                HandStep::Set => drill("unrecorded-set", &item.drill),
                HandStep::Locked => drill("unrecorded-locked", &item.drill),
                HandStep::Tugged => drill("unrecorded-tugged", &item.drill),
            },
            EventKind::Reset { drill: of, .. } => drill("unrecorded-reset", &of.drill),
            EventKind::Dropped { piece, .. } => {
                self.text("unrecorded-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::FallTakenBack { piece, .. } => {
                self.text("unrecorded-not-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::Landed { drill: of, .. } => drill("unrecorded-landed", &of.drill),
            EventKind::Placed { item, slot, .. } => {
                let name = self.drill(&DrillId::from(item.drill.as_str()));
                self.text("unrecorded-placed", &[("what", &name), ("slot", slot)])
            }
            EventKind::ThingPlaced { thing, slot, .. } => match slot {
                Some(slot) => {
                    let args = [("what", &*self.thing(thing)), ("slot", slot)];
                    self.text("unrecorded-placed", &args)
                }
                None => self.text("unrecorded-off", &[("what", &self.thing(thing))]),
            },
            EventKind::Told { thing, .. } => {
                self.text("unrecorded-told", &[("what", &self.thing(thing))])
            }
            EventKind::Opened { thing, .. } => {
                self.text("unrecorded-opened", &[("what", &self.thing(thing))])
            }
            EventKind::Beside { what, .. } => self.text("unrecorded-beside", &[("what", what)]),
            EventKind::PassBegun { .. } => self.word("unrecorded-begun"),
            EventKind::PassEnded { .. } => self.word("unrecorded-ended"),
            EventKind::GaugeChecked { gauge, .. } | EventKind::GaugeAskedBack { gauge, .. } => {
                let name = self.gauge(&GaugeId::from(gauge.as_str()));
                self.text("unrecorded-gauge", &[("what", &name)])
            }
            EventKind::SetAside { .. } => self.word("unrecorded-aside"),
            EventKind::Note { .. } => self.word("unrecorded-note"),
        }
    }
}
