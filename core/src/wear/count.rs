//! What the events of a case say of the wear of its drills.
//!
//! One osteotomy is one use: a drill that comes twice to a site, such as before and after a radiograph, is used once there.
//! A drill is sterilised once for each sitting that it was set, laid or used for; one that took the place of a fallen one by
//! itself.
//!
//! What does not count for the plan since a damaged file was put aside was done all the same, and is counted; what the
//! damaged file held nobody knows: uses, or whole sittings.

use super::{CaseWear, ClosedBy, LogEnds, Sitting, Tally, WornPiece};
use crate::kit::{SlotKind, mark_key};
use crate::sign::{
    DrillKey, EventId, EventKind, Merged, Piece, PieceNamed, Purpose, Purposes, Stage, StepKey,
    TimedEvent, WriterId, is_practised,
};
use jiff::{SignedDuration, Timestamp};
use std::collections::{BTreeMap, BTreeSet};

/// What the sittings of a case took out of drills; none where its record is broken: what is missing may be a use, or say
/// that another was recorded by mistake.
///
/// `purpose` is that of the case: what was practised wears no drill of a patient's kit.
#[must_use]
pub fn wear_of(events: &Merged, purpose: Purpose) -> Option<CaseWear> {
    if events.is_broken() {
        return None;
    }
    let timed = events.timed();
    let day = Day::of(&timed, purpose);
    let sittings = (0..day.begins.len()).map(|n| day.sitting(n)).collect();
    // A line that was lost alone (`LineLost`) was no use.
    let is_put_aside = |one: &&TimedEvent<'_>| matches!(one.event.kind, EventKind::SetAside { .. });
    let put_aside = timed.iter().find(is_put_aside);
    Some(CaseWear {
        case: events.case_jaw().clone(),
        sittings,
        put_aside: put_aside.map(|one| (one.event.hash, one.event.at)),
        logs: log_ends(&timed),
        events: timed.iter().map(|one| one.event.hash).collect(),
    })
}

/// The logs of a record by their ends.
fn log_ends(timed: &[TimedEvent<'_>]) -> Vec<LogEnds> {
    let mut logs: BTreeMap<WriterId, LogEnds> = BTreeMap::new();
    for one in timed {
        let (seq, hash) = (one.event.seq, one.event.hash);
        let new = || LogEnds {
            writer: one.event.writer.clone(),
            first: hash,
            length: seq,
            last: hash,
        };
        // Of one writer they stand in the order of their numbers.
        let log = logs.entry(one.event.writer.clone()).or_insert_with(new);
        (log.length, log.last) = (seq, hash);
    }
    logs.into_values().collect()
}

/// The events of a case by sittings.
pub(super) struct Day<'a, 'e> {
    /// Those that count for its purpose, in order.
    live: Vec<&'a TimedEvent<'e>>,
    /// The first of each sitting, in order.
    begins: Vec<&'a TimedEvent<'e>>,
    /// Falls of drills that were not taken back, in order.
    falls: Vec<(&'a TimedEvent<'e>, &'a DrillKey)>,
    /// What was said of pieces, in order.
    named: Vec<(&'a TimedEvent<'e>, &'a PieceNamed)>,
    /// Steps that were recorded by mistake.
    taken_back: BTreeSet<(EventId, StepKey)>,
}

/// A drill in its place on the tray as long as the same piece is there: until it falls.
type Stay = (DrillKey, Option<EventId>);

/// Something that was drilled.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    Site(String),
    Pin(String),
}

impl<'a, 'e> Day<'a, 'e> {
    pub(super) fn of(timed: &'a [TimedEvent<'e>], purpose: Purpose) -> Self {
        let purposes = Purposes::new(timed, purpose);
        let live: Vec<&TimedEvent<'e>> = timed.iter().filter(|one| purposes.counts(one)).collect();
        let mut begins: Vec<&TimedEvent<'e>> = Vec::new();
        for one in &live {
            let begins_one = match &one.event.kind {
                EventKind::SurgeryBegun(begun) => begins.is_empty() || begun.anew,
                EventKind::StepDone(_) => begins.is_empty(),
                _ => false,
            };
            if begins_one {
                begins.push(one);
            }
        }
        let named = live.iter().filter_map(|one| match &one.event.kind {
            EventKind::PieceNamed(named) => Some((*one, named)),
            _ => None,
        });
        let taken_back = live.iter().filter_map(|one| match &one.event.kind {
            EventKind::StepTakenBack(back) => Some((back.event.clone(), back.step.clone())),
            _ => None,
        });
        Self {
            named: named.collect(),
            taken_back: taken_back.collect(),
            falls: falls(timed, purpose),
            live,
            begins,
        }
    }

    /// The sitting that something of the day is of: the last whose beginning its desk had read.
    fn sitting_of(&self, one: &TimedEvent<'_>) -> usize {
        let is_begin = |begin: &TimedEvent<'_>| begin.event.id() == one.event.id();
        let before = self
            .begins
            .iter()
            .rposition(|begin| is_begin(begin) || begin.clearly_before(one));
        before.unwrap_or(0)
    }

    /// The sitting that something laid, set or read was for: the first of which a step came after it.
    fn sitting_for(&self, one: &TimedEvent<'_>) -> Option<usize> {
        let steps = self.live.iter().filter(|step| {
            let is_step = matches!(step.event.kind, EventKind::SurgeryBegun(_))
                || step.event.kind.step_of_day().is_some();
            is_step && one.clearly_before(step)
        });
        steps.map(|step| self.sitting_of(step)).min()
    }

    /// The sitting that a piece was named for; the number of sittings where it is the one to come.
    fn named_for(&self, one: &TimedEvent<'_>, named: &PieceNamed) -> Option<usize> {
        let Some(id) = &named.sitting else {
            let mut begins = self.begins.iter();
            let next = begins.position(|begin| !begin.clearly_before(one));
            return Some(next.unwrap_or(self.begins.len()));
        };
        let mut live = self.live.iter();
        let begun = live.find(|begun| begun.event.id() == *id)?;
        Some(self.sitting_of(begun))
    }

    /// The last fall of a drill of this number that its desk had read.
    fn stay(&self, key: &DrillKey, one: &TimedEvent<'_>) -> Stay {
        let mut falls = self.falls.iter().rev();
        let last = falls.find(|(fall, fell)| *fell == key && fall.clearly_before(one));
        (key.clone(), last.map(|(fall, _)| fall.event.id()))
    }

    /// The mark of the piece that was there; none where nobody named it, or desks that had not read each other named it otherwise.
    fn mark(&self, sitting: usize, (key, after): &Stay) -> Option<String> {
        let here: Vec<_> = self
            .named
            .iter()
            .filter(|(one, named)| {
                (&named.drill, &named.after) == (key, after)
                    && self.named_for(one, named) == Some(sitting)
            })
            .collect();
        let is_last = |(one, _): &&&(&TimedEvent<'_>, &PieceNamed)| {
            !here.iter().any(|(other, _)| one.clearly_before(other))
        };
        let marks = here.iter().filter(is_last);
        let marks: BTreeSet<Option<String>> = marks
            .map(|(_, named)| named.mark.as_deref().map(mark_key))
            .collect();
        let mut marks = marks.into_iter();
        match (marks.next(), marks.next()) {
            (Some(mark), None) => mark,
            _ => None,
        }
    }

    fn sitting(&self, n: usize) -> Sitting {
        let begin = self.begins[n];
        Sitting {
            id: begin.event.hash,
            at: begin.event.at,
            closed: self.closed(n),
            worn: self.worn(n),
        }
    }

    fn closed(&self, n: usize) -> Option<ClosedBy> {
        let begin = self.begins[n];
        let here = |one: &&&TimedEvent<'_>| self.sitting_of(one) == n && !one.clearly_before(begin);
        let is_count = |one: &TimedEvent<'_>| match &one.event.kind {
            EventKind::Counted(counted) => {
                matches!(counted.step, StepKey::CountOut { .. }) && self.stands(one)
            }
            _ => false,
        };
        let is_signature =
            |one: &TimedEvent<'_>| matches!(one.event.kind, EventKind::RecordSigned(_));
        let is_left_out = |one: &TimedEvent<'_>| match &one.event.kind {
            EventKind::StepSkipped(skipped) => {
                matches!(skipped.step, StepKey::CountOut { .. }) && self.stands(one)
            }
            _ => false,
        };
        let any =
            |is: &dyn Fn(&TimedEvent<'_>) -> bool| self.live.iter().filter(here).any(|one| is(one));
        if any(&is_count) {
            Some(ClosedBy::Count)
        } else if any(&is_signature) {
            Some(ClosedBy::Signature)
        } else if any(&is_left_out) {
            Some(ClosedBy::LeftOut)
        } else {
            (n + 1 < self.begins.len()).then_some(ClosedBy::NextSitting)
        }
    }

    /// True if a step was not recorded by mistake.
    fn stands(&self, one: &TimedEvent<'_>) -> bool {
        let step = one.event.kind.step_of_day();
        step.is_none_or(|step| !self.taken_back.contains(&(one.event.id(), step.clone())))
    }

    fn worn(&self, n: usize) -> Tally {
        let mut uses: BTreeMap<WornPiece, BTreeSet<(Option<Stay>, Place)>> = BTreeMap::new();
        let mut stays: BTreeMap<WornPiece, BTreeSet<Stay>> = BTreeMap::new();
        let mut named: BTreeMap<Stay, WornPiece> = BTreeMap::new();
        let mut piece = |stay: &Stay| {
            let known = named.entry(stay.clone());
            let new = || WornPiece {
                drill: stay.0.drill.clone(),
                mark: self.mark(n, stay),
            };
            known.or_insert_with(new).clone()
        };
        for one in &self.live {
            if let Some((key, place, drill)) = used(one)
                && self.stands(one)
                && self.sitting_of(one) == n
            {
                let stay = key.map(|key| self.stay(key, one));
                let of = match &stay {
                    Some(stay) => piece(stay),
                    None => WornPiece {
                        drill: drill.to_owned(),
                        mark: None,
                    },
                };
                if let Some(stay) = &stay {
                    stays.entry(of.clone()).or_default().insert(stay.clone());
                }
                // A piece that is known has drilled a site once, whatever fell in between.
                let stay = stay.filter(|_| of.mark.is_none());
                uses.entry(of).or_default().insert((stay, place));
            }
            if let Some(key) = loaded(&one.event.kind)
                && self.sitting_for(one) == Some(n)
            {
                let stay = self.stay(&key, one);
                stays.entry(piece(&stay)).or_default().insert(stay);
            }
        }
        let mut worn = Tally::new();
        for (of, places) in uses {
            worn.entry(of).or_default().uses = places.len() as u64;
        }
        for (of, stays) in stays {
            worn.entry(of).or_default().sterilisations = stays.len() as u64;
        }
        worn
    }
}

/// The sitting that a piece is named for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NamedFor {
    /// The one that was begun last, closed or not: what was used in it. Where none was begun, the one to come.
    Last,
    /// The one to come.
    Next,
    /// The one that goes on at this time; where it is closed, or nothing was recorded for half a day, the one to come.
    Now(Timestamp),
}

/// Nothing that was recorded so long before is of the day any more: as long as after which another sitting is asked for.
const LONG_AGO: SignedDuration = SignedDuration::from_hours(12);

impl Day<'_, '_> {
    /// The sitting that is meant; the number of sittings for the one to come.
    fn meant(&self, of: NamedFor) -> usize {
        let Some(last) = self.begins.len().checked_sub(1) else {
            return 0;
        };
        let goes_on = |now: Timestamp| {
            let of_it = |one: &&&TimedEvent<'_>| {
                let is_step = matches!(one.event.kind, EventKind::SurgeryBegun(_))
                    || one.event.kind.step_of_day().is_some();
                is_step && self.sitting_of(one) == last
            };
            let latest = self.live.iter().filter(of_it).map(|one| one.event.at).max();
            self.closed(last).is_none()
                && latest.is_some_and(|at| now.duration_since(at) < LONG_AGO)
        };
        let is_last = match of {
            NamedFor::Last => true,
            NamedFor::Next => false,
            NamedFor::Now(now) => goes_on(now),
        };
        if is_last { last } else { last + 1 }
    }

    /// Another drill of this kind that is the piece of this mark in the sitting that is meant.
    pub(super) fn other_with(
        &self,
        drill: &DrillKey,
        mark: &str,
        of: NamedFor,
    ) -> Option<DrillKey> {
        let meant = self.meant(of);
        let others = self.named.iter().map(|(_, named)| &named.drill);
        let mut others = others.filter(|other| other.drill == drill.drill && *other != drill);
        let is_it =
            |other: &&DrillKey| self.mark(meant, &self.stay_now(other)).as_deref() == Some(mark);
        others.find(is_it).cloned()
    }

    /// The drill that is in a place now: behind the last fall there.
    fn stay_now(&self, key: &DrillKey) -> Stay {
        let last = self.falls.iter().rev().find(|(_, fell)| *fell == key);
        (key.clone(), last.map(|(fall, _)| fall.event.id()))
    }
}

/// What is to be recorded where somebody says now which piece a drill is.
#[must_use]
pub fn name_piece(
    events: &Merged,
    purpose: Purpose,
    (drill, mark): (DrillKey, Option<String>),
    of: NamedFor,
) -> PieceNamed {
    let timed = events.timed();
    let day = Day::of(&timed, purpose);
    let begun = day.begins.get(day.meant(of));
    let (_, after) = day.stay_now(&drill);
    PieceNamed {
        drill,
        mark,
        sitting: begun.map(|begun| begun.event.id()),
        after,
        purpose,
    }
}

/// The mark of the piece that a drill is, by what was said of it; none where nobody said it, or desks differ.
#[must_use]
pub fn named_piece(
    events: &Merged,
    purpose: Purpose,
    drill: &DrillKey,
    of: NamedFor,
) -> Option<String> {
    let timed = events.timed();
    let day = Day::of(&timed, purpose);
    day.mark(day.meant(of), &day.stay_now(drill))
}

/// What a step drilled and with which drill, where that is recorded.
fn used<'a>(one: &'a TimedEvent<'_>) -> Option<(Option<&'a DrillKey>, Place, &'a str)> {
    let EventKind::StepDone(done) = &one.event.kind else {
        return None;
    };
    let (place, with) = match &done.step {
        StepKey::Drill { site, with, .. } => (Place::Site(site.site.clone()), with),
        StepKey::Pin { pin, with } => (Place::Pin(pin.clone()), with),
        _ => return None,
    };
    Some((done.piece.as_ref(), place, &with.drill))
}

/// The drill that was made ready for use.
fn loaded(kind: &EventKind) -> Option<DrillKey> {
    match kind {
        EventKind::Handled { item, .. } | EventKind::Placed { item, .. } => Some(item.drill_key()),
        EventKind::Reading(reading) if reading.stage != Stage::AfterUse => {
            Some(reading.item.drill_key())
        }
        EventKind::ThingPlaced {
            thing,
            slot: Some(_),
            ..
        } if thing.of == SlotKind::Drill => Some(DrillKey {
            drill: thing.entry.clone(),
            copy: thing.copy,
        }),
        _ => None,
    }
}

/// Every fall of a drill that nobody took back. What fell in practice is there for a patient.
fn falls<'a, 'e>(
    timed: &'a [TimedEvent<'e>],
    purpose: Purpose,
) -> Vec<(&'a TimedEvent<'e>, &'a DrillKey)> {
    let taken_back = |id: &EventId, fell: &Piece| {
        timed.iter().any(|one| match &one.event.kind {
            EventKind::FallTakenBack {
                fall,
                piece,
                purpose: of,
            } => fall == id && piece == fell && !is_practised(Some(*of), purpose),
            _ => false,
        })
    };
    let fell = timed.iter().filter_map(|one| match &one.event.kind {
        EventKind::Dropped { piece, purpose: of } => match piece {
            Piece::Drill(drill)
                if !is_practised(*of, purpose) && !taken_back(&one.event.id(), piece) =>
            {
                Some((one, drill))
            }
            _ => None,
        },
        _ => None,
    });
    fell.collect()
}
