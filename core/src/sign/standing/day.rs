//! What was recorded of the day of surgery, and what of it was recorded by mistake.

use super::Purposes;
use super::falls::Fall;
use crate::sign::Names;
use crate::sign::Who;
use crate::sign::event::{Event, EventId, EventKind, Piece};
use crate::sign::heads::TimedEvent;
use crate::sign::surgery::StepKey;
use std::collections::BTreeSet;

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
    /// True if it is a count of which both persons may be one, by a name that the team or the record has at the latest.
    pub by_one_person: bool,
    /// Its place in the order of the record.
    pub place: usize,
    /// The person who said that it was recorded by mistake; none where nobody did.
    pub taken_back: Option<Who>,
    /// When and why that was said.
    pub back: Option<TakenBack>,
    /// True if another sitting was begun since.
    pub of_earlier_sitting: bool,
    /// The places of everything of the day and of what fell that its writer had read. What is earlier by a clock alone is not among
    /// them.
    pub known: BTreeSet<usize>,
    /// The report that the drill fell whose number it bears, in the same sitting: it was done with what took its place. None where it
    /// was done with that drill itself, or with none.
    pub spare_since: Option<EventId>,
}

/// The word that something was recorded by mistake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TakenBack {
    /// The time.
    pub at: jiff::Timestamp,
    /// How it came about; none where nothing was said.
    pub reason: Option<String>,
    /// Its place in the order of the record.
    pub place: usize,
}

impl DayEvent {
    /// True if it was not taken back, and is of this sitting.
    #[must_use]
    pub const fn counts(&self) -> bool {
        self.taken_back.is_none() && !self.of_earlier_sitting
    }

    /// True if it was not taken back, in whatever sitting it was.
    #[must_use]
    pub const fn stands(&self) -> bool {
        self.taken_back.is_none()
    }

    /// True if it was before another beyond doubt.
    #[must_use]
    pub fn is_clearly_before(&self, other: &Self) -> bool {
        other.known.contains(&self.place)
    }

    /// The fall since which what bears this drill's number is its spare, before an event; none where the drill itself bears it.
    fn fell_before(&self, falls: &[Fall], anew: &[usize]) -> Option<EventId> {
        let EventKind::StepDone(done) = &self.kind else {
            return None;
        };
        let piece = Piece::Drill(done.piece.clone()?);
        let between = |fall: &Fall| fall.place..self.place;
        let is_before = |fall: &&Fall| {
            let sitting = !anew.iter().any(|begun| between(fall).contains(begun));
            fall.counts() && fall.piece == piece && fall.place < self.place && sitting
        };
        falls.iter().rfind(is_before).map(|fall| fall.id.clone())
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

    /// True if something was done by it that is no measure and no count.
    #[must_use]
    pub const fn is_done(&self) -> bool {
        matches!(self, Self::StepDone(_) | Self::Inserted(_))
    }
}

/// True for the beginning of another sitting: nothing that was done, read or laid before counts in it.
pub(super) const fn begins_anew(kind: &EventKind) -> bool {
    matches!(kind, EventKind::SurgeryBegun(begun) if begun.anew)
}

fn is_by_one_person(event: &Event, names: &Names<'_>) -> bool {
    match &event.kind {
        EventKind::Counted(counted) => names.may_be_same(&event.who, &counted.second),
        _ => false,
    }
}

/// True if `other` begins another sitting, and `this` is of the one before: what was set, read or laid after the last step of that
/// was for the one that comes.
pub(super) fn ends_sitting_of(
    other: &TimedEvent<'_>,
    this: &TimedEvent<'_>,
    timed: &[TimedEvent<'_>],
) -> bool {
    let is_step =
        |one: &&TimedEvent<'_>| one.event.kind.step_of_day().is_some() && one.clearly_before(other);
    begins_anew(&other.event.kind)
        && !other.clearly_before(this)
        && timed
            .iter()
            .filter(is_step)
            .any(|step| !step.clearly_before(this))
}

/// Everything that counts of the day for the purpose of the plan, in its order.
pub(super) fn day(
    (timed, live): (&[TimedEvent<'_>], &[TimedEvent<'_>]),
    (purposes, falls): (&Purposes<'_>, &[Fall]),
    names: &Names<'_>,
) -> Vec<DayEvent> {
    let place = |this: &TimedEvent<'_>| {
        let mut all = timed.iter();
        all.position(|one| std::ptr::eq(one.event, this.event))
    };
    let counting = || live.iter().filter(|this| purposes.counts(this));
    let taken_back = |id: &EventId, step: Option<&StepKey>| {
        counting().find_map(|this| match &this.event.kind {
            EventKind::StepTakenBack(said) if said.event == *id && step == Some(&said.step) => {
                let back = TakenBack {
                    at: this.event.at,
                    reason: said.reason.clone(),
                    place: place(this).unwrap_or(usize::MAX),
                };
                Some((this.event.who.clone(), back))
            }
            _ => None,
        })
    };
    let is_of_day = |kind: &EventKind| match kind {
        EventKind::SurgeryBegun(_) => true,
        EventKind::StepTakenBack(_) => false,
        kind => kind.step_of_day().is_some(),
    };
    let here = counting().filter(|this| is_of_day(&this.event.kind));
    let mut found: Vec<(&TimedEvent<'_>, DayEvent)> = here
        .map(|this| {
            let id = this.event.id();
            let since = |other: &TimedEvent<'_>| {
                begins_anew(&other.event.kind)
                    && other.event.id() != id
                    && !other.clearly_before(this)
            };
            let (by, back) = taken_back(&id, this.event.kind.step_of_day()).unzip();
            let event = DayEvent {
                taken_back: by,
                back,
                of_earlier_sitting: counting().any(since),
                known: BTreeSet::new(),
                spare_since: None,
                id,
                by_one_person: is_by_one_person(this.event, names),
                who: this.event.who.clone(),
                at: this.event.at,
                place: place(this).unwrap_or(usize::MAX),
                kind: this.event.kind.clone(),
            };
            (this, event)
        })
        .collect();
    let fell = timed.iter().enumerate();
    let fell = fell.filter(|(_, that)| matches!(that.event.kind, EventKind::Dropped { .. }));
    let fell: Vec<(usize, &TimedEvent<'_>)> = fell.collect();
    let known: Vec<BTreeSet<usize>> = found
        .iter()
        .map(|(this, _)| {
            let before = found.iter().filter(|(that, _)| that.clearly_before(this));
            let before = before.map(|(_, one)| one.place);
            let fell = fell.iter().filter(|(_, that)| that.clearly_before(this));
            before.chain(fell.map(|(place, _)| *place)).collect()
        })
        .collect();
    let anew = found.iter().filter(|(_, one)| begins_anew(&one.kind));
    let anew: Vec<usize> = anew.map(|(_, one)| one.place).collect();
    for ((_, one), known) in found.iter_mut().zip(known) {
        one.known = known;
        one.spare_since = one.fell_before(falls, &anew);
    }
    found.into_iter().map(|(_, one)| one).collect()
}

#[cfg(test)]
mod tests {
    use crate::sign::samples::{at, case_jaw, of_record, of_surgery, who, writer};
    use crate::sign::standing::tables::{merged, policy};
    use crate::sign::{FiguresSeen, Log, figures_seen_by};

    #[test]
    fn whoever_recorded_a_step_of_surgery_saw_figures() {
        for kind in of_surgery().into_iter().chain(of_record()) {
            let mut log = Log::new(&case_jaw(), writer("desk"));
            log.append(at(0), who("KE"), kind.clone()).unwrap();
            let events = merged([log]);
            let seen =
                |name| figures_seen_by((&who(name), &[]), &events, (at(60), None), &policy());
            let worked = Some((who("KE"), FiguresSeen::Worked));
            assert_eq!(seen("k. e."), worked, "{kind:?}");
            assert_eq!(seen("JH"), None);
        }
    }
}
