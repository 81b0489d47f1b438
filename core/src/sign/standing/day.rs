//! What was recorded of the day of surgery, and what of it was recorded by mistake.

use super::Purposes;
use crate::sign::Who;
use crate::sign::event::{EventId, EventKind};
use crate::sign::heads::TimedEvent;
use crate::sign::surgery::StepKey;

/// Something that was recorded of the day of surgery.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayEvent {
    /// The event.
    pub id: EventId,
    /// The person who recorded it.
    pub who: Who,
    /// The time.
    pub at: jiff::Timestamp,
    /// What happened.
    pub kind: EventKind,
    /// The person who said that it was recorded by mistake; none where nobody did.
    pub taken_back: Option<Who>,
}

impl DayEvent {
    /// True if it was not taken back.
    #[must_use]
    pub const fn counts(&self) -> bool {
        self.taken_back.is_none()
    }

    /// The step that it is of; none for the beginning.
    #[must_use]
    pub const fn step(&self) -> Option<&StepKey> {
        self.kind.step_of_day()
    }
}

impl EventKind {
    /// The step of surgery that it is of; none for all else.
    #[must_use]
    pub const fn step_of_day(&self) -> Option<&StepKey> {
        match self {
            Self::StepDone(done) => Some(&done.step),
            Self::StepSkipped(skipped) => Some(&skipped.step),
            Self::StepTakenBack(back) => Some(&back.step),
            Self::Sounded(sounded) => Some(&sounded.step),
            Self::Inserted(inserted) => Some(&inserted.step),
            Self::Counted(counted) => Some(&counted.step),
            _ => None,
        }
    }
}

/// Everything that counts of the day for the purpose of the plan, in its order.
pub(super) fn day(live: &[TimedEvent<'_>], purposes: &Purposes<'_>) -> Vec<DayEvent> {
    let counting = || live.iter().filter(|this| purposes.counts(this));
    let taken_back = |id: &EventId| {
        counting().find_map(|this| match &this.event.kind {
            EventKind::StepTakenBack(back) if back.event == *id => Some(this.event.who.clone()),
            _ => None,
        })
    };
    let is_of_day = |kind: &EventKind| match kind {
        EventKind::SurgeryBegun(_) => true,
        EventKind::StepTakenBack(_) => false,
        kind => kind.step_of_day().is_some(),
    };
    let here = counting().filter(|this| is_of_day(&this.event.kind));
    here.map(|this| {
        let id = this.event.id();
        DayEvent {
            taken_back: taken_back(&id),
            id,
            who: this.event.who.clone(),
            at: this.event.at,
            kind: this.event.kind.clone(),
        }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use crate::sign::samples::{at, case_jaw, of_surgery, who, writer};
    use crate::sign::standing::tables::{merged, policy};
    use crate::sign::{FiguresSeen, Log, figures_seen_by};

    #[test]
    fn whoever_recorded_a_step_of_surgery_saw_figures() {
        for kind in of_surgery() {
            let mut log = Log::new(&case_jaw(), writer("desk"));
            log.append(at(0), who("KE"), kind.clone()).unwrap();
            let events = merged([log]);
            let seen = |name| figures_seen_by(&who(name), &events, (at(60), None), &policy());
            let worked = Some((who("KE"), FiguresSeen::Worked));
            assert_eq!(seen("k. e."), worked, "{kind:?}");
            assert_eq!(seen("JH"), None);
        }
    }
}
