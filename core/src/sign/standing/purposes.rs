//! What was done for a patient, also of events that do not say it.

use crate::sign::event::{EventKind, Purpose};
use crate::sign::heads::TimedEvent;

/// The purposes of the events of a record, held against that of a plan.
#[derive(Clone, Copy)]
pub(crate) struct Purposes<'a> {
    plan: Purpose,
    timed: &'a [TimedEvent<'a>],
    practised: bool,
}

impl<'a> Purposes<'a> {
    /// Of a record in its order, under a plan of this purpose.
    pub(crate) fn new(timed: &'a [TimedEvent<'a>], plan: Purpose) -> Self {
        let says = |this: &TimedEvent<'_>| this.event.kind.purpose() == Some(Purpose::Practice);
        Self {
            plan,
            timed,
            practised: timed.iter().any(says),
        }
    }

    /// True if what an event says was done counts for the plan: for practice everything, for a patient
    /// what was done for one. Laying and the check of the gauge said no purpose once. That is a
    /// patient's only where nothing in the whole record was practised and something before it says
    /// that it was for a patient.
    pub(crate) fn counts(&self, this: &TimedEvent<'_>) -> bool {
        match (self.plan, this.event.kind.purpose()) {
            (Purpose::Practice, _) | (_, Some(Purpose::Patient)) => true,
            (_, Some(Purpose::Practice)) => false,
            (_, None) => !self.practised && self.timed.iter().any(|one| is_before(one, this)),
        }
    }
}

fn is_before(patient: &TimedEvent<'_>, this: &TimedEvent<'_>) -> bool {
    patient.event.kind.purpose() == Some(Purpose::Patient) && patient.clearly_before(this)
}

impl EventKind {
    /// True if it is done for a patient or for practice, whether it says so or not.
    pub(crate) const fn is_for_somebody(&self) -> bool {
        let may_say = matches!(
            self,
            Self::Placed { .. } | Self::ThingPlaced { .. } | Self::GaugeChecked { .. }
        );
        may_say || self.purpose().is_some()
    }

    /// The purpose that it says; none where it says none.
    pub(crate) const fn purpose(&self) -> Option<Purpose> {
        match self {
            Self::Approval(approval) => Some(approval.purpose),
            Self::Reading(reading) => Some(reading.purpose),
            Self::Handled { purpose, .. }
            | Self::FallTakenBack { purpose, .. }
            | Self::GaugeAskedBack { purpose, .. }
            | Self::Opened { purpose, .. }
            | Self::Told { purpose, .. }
            | Self::Beside { purpose, .. } => Some(*purpose),
            Self::Reset { purpose, .. }
            | Self::Dropped { purpose, .. }
            | Self::Landed { purpose, .. }
            | Self::Placed { purpose, .. }
            | Self::ThingPlaced { purpose, .. }
            | Self::GaugeChecked { purpose, .. } => *purpose,
            Self::SurgeryBegun(begun) => Some(begun.purpose),
            Self::StepDone(done) => Some(done.purpose),
            Self::StepSkipped(skipped) => Some(skipped.purpose),
            Self::StepTakenBack(back) => Some(back.purpose),
            Self::Sounded(sounded) => Some(sounded.purpose),
            Self::Inserted(inserted) => Some(inserted.purpose),
            Self::Counted(counted) => Some(counted.purpose),
            Self::Recorded(recorded) => Some(recorded.purpose),
            Self::RecordCorrected(corrected) => Some(corrected.purpose),
            Self::RecordSigned(signed) => Some(signed.purpose),
            Self::PieceNamed(named) => Some(named.purpose),
            Self::ApprovalWithdrawn { .. }
            | Self::PassBegun { .. }
            | Self::PassEnded { .. }
            | Self::SetAside { .. }
            | Self::Note { .. }
            | Self::LineLost { .. } => None,
        }
    }
}
