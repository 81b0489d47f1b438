//! Signatures that are alike to nobody who holds them side by side, and that one person may have given all the same: both
//! may be short for a name that the team or the record has.

use super::items::{Check, ItemStanding, Objection};
use super::plan::PlanView;
use super::readings::ReadingStanding;
use crate::sign::heads::TimedEvent;
use crate::sign::{EventId, EventKind, Who};
use std::collections::BTreeSet;

/// Everybody whom the team or the record names, each once.
pub(super) fn named<'a>(plan: &'a PlanView, timed: &'a [TimedEvent<'_>]) -> BTreeSet<&'a Who> {
    let recorded = timed.iter().map(|one| one.event);
    let recorded = recorded.flat_map(|event| {
        let entered_by = match &event.kind {
            EventKind::Reading(reading) => reading.entered_by.as_ref(),
            _ => None,
        };
        std::iter::once(&event.who).chain(entered_by)
    });
    plan.people.iter().chain(recorded).collect()
}

/// Adds what speaks against the persons of two readings that may be one by a name that is known.
pub(super) fn held_apart(
    items: &mut [ItemStanding],
    readings: &[ReadingStanding],
    names: &BTreeSet<&Who>,
) {
    for item in items {
        let hands = item.handling.as_ref().map_or(&[][..], |one| &one.by);
        for check in item.checks.values_mut() {
            let added = objections(check, hands, readings, names);
            let added: Vec<Objection> = added
                .into_iter()
                .filter(|one| !check.objections.contains(one))
                .collect();
            // Who read first, or set it, saw its figure: once is enough.
            if !added.is_empty() {
                let saw = |one: &Objection| matches!(one, Objection::Saw { .. });
                check.objections.retain(|one| !saw(one));
            }
            check.objections.extend(added);
        }
    }
}

fn objections(
    check: &Check,
    hands: &[Who],
    readings: &[ReadingStanding],
    names: &BTreeSet<&Who>,
) -> Vec<Objection> {
    let of = |id: &Option<EventId>| {
        let id = id.as_ref()?;
        readings.iter().find(|one| one.id == *id)
    };
    let Some(second) = of(&check.second) else {
        return Vec::new();
    };
    let first = of(&check.first).map(|one| &one.who);
    let may_be = |one: &Who, other: &Who| one.may_be_same_among(other, names.iter().copied());
    let mut told = Vec::new();
    let entered_by = second.reading.entered_by.as_ref();
    let is_second = |one: &Who| may_be(one, &second.who);
    if first.is_some_and(is_second) || entered_by.is_some_and(is_second) {
        let who = second.who.clone();
        told.push(Objection::SamePerson { who });
    }
    let Some(first) = first else { return told };
    if hands.iter().any(is_second) {
        let who = second.who.clone();
        told.push(Objection::SetIt { who });
    }
    if let Some(enterer) = entered_by
        && hands.iter().chain([first]).any(|one| may_be(one, enterer))
    {
        let who = enterer.clone();
        told.push(Objection::SetIt { who });
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::samples::*;
    use crate::sign::standing::recorded::by_each;
    use crate::sign::standing::tables::{first, k1, objections, plan, policy, second};
    use crate::sign::{EventKind, FiguresSeen, HandStep, Merged, Stage, figures_seen_by, standing};

    fn told(events: &Merged, team: &[&str]) -> Vec<&'static str> {
        let plan = PlanView {
            people: team.iter().copied().map(who).collect(),
            ..plan()
        };
        objections(&standing(events, &plan, &policy()).unwrap(), Stage::Bench)
    }

    fn note() -> EventKind {
        EventKind::Note {
            text: "seen".to_owned(),
        }
    }

    #[test]
    fn one_person_who_signs_in_two_ways_verifies_nothing() {
        let read = || {
            [
                ("Berg", checked("20", "20")),
                ("Berg", first("24.3")),
                ("AB", checked("20", "20")),
                ("AB", second("24.3")),
            ]
        };
        let events = by_each(read());
        assert_eq!(told(&events, &[]), [""; 0]);
        assert_eq!(told(&events, &["Anna Berg"]), ["same-person"]);
        assert_eq!(told(&events, &["Berta Berg", "OW"]), [""; 0]);
        // Known by the record alone.
        let recorded = by_each(read().into_iter().chain([("Anna Berg", note())]));
        assert_eq!(told(&recorded, &[]), ["same-person"]);
    }

    #[test]
    fn who_set_a_stop_reads_it_second_under_no_other_short_name() {
        let events = by_each([
            ("Berg", handled(k1(), HandStep::Set)),
            ("Berg", handled(k1(), HandStep::Locked)),
            ("Berg", handled(k1(), HandStep::Tugged)),
            ("KE", checked("20", "20")),
            ("KE", first("24.3")),
            ("AB", checked("20", "20")),
            ("AB", second("24.3")),
        ]);
        assert_eq!(told(&events, &[]), [""; 0]);
        assert_eq!(told(&events, &["Anna Berg"]), ["set-it"]);
    }

    /// Nor does who saw a figure under one of them come to a pass without figures under the other.
    #[test]
    fn who_saw_a_figure_saw_it_under_any_short_name() {
        let seen =
            |events: &Merged| figures_seen_by(&who("AB"), events, (at(3600), None), &policy());
        let read = [("Berg", first("24.3"))];
        assert_eq!(seen(&by_each(read.clone())), None);
        let known = read.into_iter().chain([("Anna Berg", note())]);
        let read = Some((who("Berg"), FiguresSeen::Read));
        assert_eq!(seen(&by_each(known)), read);
    }
}
