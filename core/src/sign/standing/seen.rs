//! The persons who saw a figure of a case, and so cannot read it blind.

use super::plan::Policy;
use crate::sign::event::{EventKind, Reading, Stage, Turn};
use crate::sign::hand::{Pass, PassEnd};
use crate::sign::heads::TimedEvent;
use crate::sign::merge::Merged;
use crate::sign::{Event, LostKind, Names, Who, WriterId};
use std::collections::BTreeMap;

/// The occasion on which a person saw a figure of a case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FiguresSeen {
    /// The person approved the plan, or took an approval back.
    Approved,
    /// The person began to set and read, or had a stop in hand.
    Set,
    /// The person read first, with the figure in sight.
    Read,
    /// The person worked through surgery, where each step shows its setting.
    Worked,
    /// The person went from a pass without figures to where they stand, or that pass has no end in
    /// the record.
    Left,
}

/// The occasion on which a person saw a figure of the case in this session, the last one, and the signature under which the
/// record has it; none where it has none. A session is what lies within the policy's time before `now`; what bears a
/// later time counts too. A pass that was cut off at the desk `taken_up` and is taken up there is no
/// occasion: nothing was shown since. Whom two signatures stand for is known by the team and the record.
#[must_use]
pub fn figures_seen_by(
    (who, team): (&Who, &[Who]),
    events: &Merged,
    (now, taken_up): (jiff::Timestamp, Option<&WriterId>),
    policy: &Policy,
) -> Option<(Who, FiguresSeen)> {
    let since = now.as_second().saturating_sub(policy.session_s);
    let all = events.in_order();
    let as_who = Names::of(team, all.iter().copied().flat_map(Event::people)).of_person(who);
    let mut seen = None;
    // A pass is over when its desk says so for its reader.
    let mut begun: BTreeMap<&WriterId, &Who> = BTreeMap::new();
    let mut broken_off: Vec<&Who> = Vec::new();
    let of_session = |event: &&Event| event.at.as_second() >= since;
    for event in all.into_iter().filter(of_session) {
        match &event.kind {
            EventKind::PassBegun {
                pass: Pass::Blind, ..
            } => {
                // One that has no end where another person's begins was broken off; the same person's
                // was taken up.
                let before = begun.insert(&event.writer, &event.who);
                broken_off.extend(before.filter(|before| !before.is_same(&event.who)));
            }
            EventKind::PassEnded { .. } => {
                let own = begun
                    .get(&event.writer)
                    .is_some_and(|one| one.is_same(&event.who));
                if own {
                    begun.remove(&event.writer);
                }
            }
            _ => {}
        }
        if let Some((one, sight)) = sight_of(event)
            && as_who.contains(one)
        {
            seen = Some((one, sight));
        }
    }
    begun.retain(|writer, _| taken_up != Some(*writer));
    let mut not_ended = begun.into_values().chain(broken_off);
    let not_ended = not_ended.find(|reader| as_who.contains(reader));
    let seen = not_ended.map(|reader| (reader, FiguresSeen::Left)).or(seen);
    seen.map(|(one, sight)| (one.clone(), sight))
}

/// The occasion that an event is, and for whom: who gave an approval that was lost saw the figures all the same.
fn sight_of(event: &Event) -> Option<(&Who, FiguresSeen)> {
    let sight = match &event.kind {
        EventKind::LineLost {
            lost: LostKind::Approval,
            by,
            ..
        } => return Some((by, FiguresSeen::Approved)),
        EventKind::Approval(_) | EventKind::ApprovalWithdrawn { .. } => Some(FiguresSeen::Approved),
        EventKind::Handled { .. }
        | EventKind::PassBegun {
            pass: Pass::Setting,
            ..
        } => Some(FiguresSeen::Set),
        EventKind::Reading(reading) if reading.turn == Turn::First => Some(FiguresSeen::Read),
        EventKind::PassEnded {
            end: PassEnd::Left, ..
        } => Some(FiguresSeen::Left),
        EventKind::SurgeryBegun(_) => Some(FiguresSeen::Worked),
        kind if kind.step_of_day().is_some() || kind.is_of_record() => Some(FiguresSeen::Worked),
        _ => None,
    };
    sight.map(|sight| (&event.who, sight))
}

/// The occasion on which the reader of a second reading on the bench had seen a figure before it, the last
/// one, in the session that the policy's time tells. What nobody knows to be after the reading counts as
/// before it, whatever its clock says.
pub(super) fn reader_saw(
    this: &TimedEvent<'_>,
    reading: &Reading,
    (timed, names): (&[TimedEvent<'_>], &Names<'_>),
    policy: &Policy,
) -> Option<FiguresSeen> {
    if (reading.stage, reading.turn) != (Stage::Bench, Turn::Second) {
        return None;
    }
    let since = this.at.as_second().saturating_sub(policy.session_s);
    let before = |other: &&TimedEvent<'_>| {
        let old = other.clearly_before(this) && other.at.as_second() < since;
        !old && !this.clearly_before(other)
    };
    let as_reader = names.of_person(&this.event.who);
    let mut before = timed.iter().rev().filter(before);
    before.find_map(|other| {
        let (one, sight) = sight_of(other.event)?;
        as_reader.contains(one).then_some(sight)
    })
}

/// The pass without figures that was cut off at a desk in this session: its reader and stage. None where
/// it was ended, or that desk recorded anything of figures in sight since.
#[must_use]
pub fn pass_cut_off(
    writer: &WriterId,
    events: &Merged,
    now: jiff::Timestamp,
    policy: &Policy,
) -> Option<(Who, Stage)> {
    let since = now.as_second().saturating_sub(policy.session_s);
    let mut own = events.in_order().into_iter().rev();
    let last = own.find(|event| event.writer == *writer && !is_of_pass(&event.kind))?;
    match last.kind {
        EventKind::PassBegun {
            stage,
            pass: Pass::Blind,
        } if last.at.as_second() >= since => Some((last.who.clone(), stage)),
        _ => None,
    }
}

/// True for what is recorded while no figure is in sight of anyone.
fn is_of_pass(kind: &EventKind) -> bool {
    match kind {
        EventKind::Reading(reading) => reading.turn == Turn::Second,
        EventKind::GaugeChecked { .. }
        | EventKind::GaugeAskedBack { .. }
        | EventKind::Dropped { .. }
        | EventKind::ThingPlaced { .. } => true,
        _ => false,
    }
}
