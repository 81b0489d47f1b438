//! A step that could not be recorded, in few words. They bear no setting and no reading: they also stand where no
//! figure is in sight of anyone.

use super::Formatter;
use crate::kit::GaugeId;
use crate::sign::{DrillKey, EventKind, HandStep, Turn};

impl Formatter<'_> {
    /// The step of which this would have been the record: "Tip drill 2.57 no. 1, its stop set".
    #[must_use]
    pub fn unrecorded(&self, kind: &EventKind) -> String {
        // Which of several equal ones it was, too.
        let named = |drill: &DrillKey| self.of_drill("history-drill", drill, &[]);
        let drill = |id: &str, drill: &DrillKey| self.text(id, &[("what", &named(drill))]);
        match kind {
            EventKind::Approval(_) => self.word("unrecorded-approval"),
            EventKind::ApprovalWithdrawn { .. } => self.word("unrecorded-withdrawal"),
            EventKind::Reading(reading) => match reading.turn {
                Turn::First => drill("unrecorded-first", &reading.item.drill_key()),
                Turn::Second => drill("unrecorded-second", &reading.item.drill_key()),
            },
            EventKind::Handled { item, step, .. } => match step {
                HandStep::Set => drill("unrecorded-set", &item.drill_key()),
                HandStep::Locked => drill("unrecorded-locked", &item.drill_key()),
                HandStep::Tugged => drill("unrecorded-tugged", &item.drill_key()),
            },
            EventKind::Reset { drill: of, .. } => drill("unrecorded-reset", of),
            EventKind::Dropped { piece, .. } => {
                self.text("unrecorded-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::FallTakenBack { piece, .. } => {
                self.text("unrecorded-not-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::Landed { drill: of, .. } => drill("unrecorded-landed", of),
            EventKind::Placed { item, slot, .. } => {
                let name = named(&item.drill_key());
                self.text("unrecorded-placed", &[("what", &name), ("slot", slot)])
            }
            EventKind::ThingPlaced { thing, slot, .. } => match slot {
                Some(slot) => {
                    let args = [("what", &*self.piece(&thing.piece())), ("slot", slot)];
                    self.text("unrecorded-placed", &args)
                }
                None => self.text("unrecorded-off", &[("what", &self.piece(&thing.piece()))]),
            },
            EventKind::Told { thing, .. } => {
                self.text("unrecorded-told", &[("what", &self.piece(&thing.piece()))])
            }
            EventKind::Opened { thing, .. } => self.text(
                "unrecorded-opened",
                &[("what", &self.piece(&thing.piece()))],
            ),
            EventKind::Beside { what, .. } => self.text("unrecorded-beside", &[("what", what)]),
            EventKind::PassBegun { .. } => self.word("unrecorded-begun"),
            EventKind::PassEnded { .. } => self.word("unrecorded-ended"),
            EventKind::GaugeChecked { gauge, .. } | EventKind::GaugeAskedBack { gauge, .. } => {
                let name = self.gauge(&GaugeId::from(gauge.as_str()));
                self.text("unrecorded-gauge", &[("what", &name)])
            }
            EventKind::SurgeryBegun(_) => self.word("unrecorded-surgery"),
            EventKind::StepDone(_)
            | EventKind::StepSkipped(_)
            | EventKind::StepTakenBack(_)
            | EventKind::Sounded(_)
            | EventKind::Inserted(_)
            | EventKind::Counted(_) => kind
                .step_of_day()
                .map_or_else(String::new, |step| self.day_step(step)),
            EventKind::Recorded(recorded) => self.entry_kind(recorded.entry.kind()),
            EventKind::RecordCorrected(corrected) => {
                let what = self.entry_kind(corrected.field);
                self.text("unrecorded-correction", &[("what", &what)])
            }
            EventKind::RecordSigned(_) => self.word("unrecorded-record-signed"),
            EventKind::PieceNamed(named) => drill("unrecorded-piece", &named.drill),
            EventKind::SetAside { .. } | EventKind::LineLost { .. } => {
                self.word("unrecorded-aside")
            }
            EventKind::Note { .. } => self.word("unrecorded-note"),
        }
    }
}
