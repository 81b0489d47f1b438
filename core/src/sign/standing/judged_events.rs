//! Everything that was recorded, in the order of the record, with what it is worth now.

use super::approvals::ApprovalStanding;
use super::items::Objection;
use super::plan::PlanView;
use super::readings::ReadingStanding;
use super::void::{Void, void_of};
use super::{Purposes, Standing};
use crate::sign::Message;
use crate::sign::event::{Event, EventKind, Purpose};
use crate::sign::heads::TimedEvent;
use crate::sign::merge::Merged;

/// One event and what it is worth now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JudgedEvent<'a> {
    /// What was recorded.
    pub event: &'a Event,
    /// What it is worth.
    pub standing: EventStanding<'a>,
}

/// What an event is worth now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EventStanding<'a> {
    /// Nothing of the record counts, or nothing before something else.
    Void(Void),
    /// Done for practice, or in a demonstration case.
    Practice,
    /// It does not say whether it was for a patient, and nothing else shows that.
    Unsaid,
    /// As an approval stands.
    Approval(&'a ApprovalStanding),
    /// As a reading stands, with what speaks against the reading itself.
    Reading(&'a ReadingStanding, Vec<Objection>),
    /// It happened; there is nothing to hold it against.
    Happened,
}

/// All events in the order in which desks knew of each other, each with what it is worth under a plan.
#[must_use]
pub fn judged_events<'a>(
    events: &'a Merged,
    plan: &PlanView,
    standing: &'a Standing,
) -> Vec<JudgedEvent<'a>> {
    let timed = events.timed();
    let void = void_of(events, &timed);
    let purposes = Purposes::new(&timed, plan.purpose);
    let standing_of = |this: &TimedEvent<'a>| {
        let event = this.event;
        let approval = || standing.approvals.iter().find(|one| one.id == event.id());
        let reading = || standing.readings.iter().find(|one| one.id == event.id());
        match (void(this), &event.kind) {
            (Some(void), _) => EventStanding::Void(void),
            (None, EventKind::Approval(_)) => {
                approval().map_or(EventStanding::Happened, EventStanding::Approval)
            }
            (None, EventKind::Reading(_)) => reading().map_or(EventStanding::Happened, |reading| {
                let to_persons: Vec<Objection> = to_persons(standing, reading).collect();
                let mut against = reading.objections();
                // Who set or read it saw its figure: once is enough.
                against
                    .retain(|one| to_persons.is_empty() || !matches!(one, Objection::Saw { .. }));
                against.extend(to_persons);
                EventStanding::Reading(reading, against)
            }),
            (None, kind) if !kind.is_for_somebody() => EventStanding::Happened,
            (None, _) if plan.purpose == Purpose::Practice => EventStanding::Practice,
            (None, _) if purposes.counts(this) => EventStanding::Happened,
            (None, kind) => match kind.purpose() {
                Some(_) => EventStanding::Practice,
                None => EventStanding::Unsaid,
            },
        }
    };
    timed
        .iter()
        .map(|this| JudgedEvent {
            event: this.event,
            standing: standing_of(this),
        })
        .collect()
}

/// What speaks against the persons of a second reading where it stands beside a first.
fn to_persons<'a>(
    standing: &'a Standing,
    second: &'a ReadingStanding,
) -> impl Iterator<Item = Objection> + 'a {
    let checks = standing.items.iter().flat_map(|item| item.checks.values());
    let of_it = checks.filter(|check| check.second.as_ref() == Some(&second.id));
    let objections = of_it.flat_map(|check| &check.objections);
    let to_persons = objections
        .filter(|one| matches!(one, Objection::SamePerson { .. } | Objection::SetIt { .. }));
    to_persons.cloned()
}

impl EventStanding<'_> {
    /// True if it counts for what it says, by itself.
    #[must_use]
    pub fn counts(&self) -> bool {
        match self {
            Self::Void(_) | Self::Practice | Self::Unsaid => false,
            Self::Approval(approval) => approval.is_valid(),
            Self::Reading(reading, objections) => reading.counts() && objections.is_empty(),
            Self::Happened => true,
        }
    }

    /// Why it does not count, an approval left out: its reasons name findings.
    #[must_use]
    pub fn why_not(&self) -> Vec<Message> {
        match self {
            Self::Void(void) => vec![void.message()],
            Self::Unsaid => vec![Message::new("sign-purpose-unsaid", [])],
            Self::Reading(reading, objections) => {
                let lapses = reading.lapses.iter().map(super::Lapse::message);
                lapses
                    .chain(objections.iter().map(Objection::message))
                    .collect()
            }
            Self::Practice | Self::Approval(_) | Self::Happened => Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::Log;
    use crate::sign::samples::*;
    use crate::sign::standing::standing;
    use crate::sign::standing::tables::{first, merged, plan, policy, second};

    /// Each event by its kind, `+` where it counts for what it says, and the ids of why not.
    fn told(events: &Merged, purpose: Purpose) -> Vec<String> {
        let plan = PlanView { purpose, ..plan() };
        let standing = standing(events, &plan, &policy()).unwrap();
        let one = |past: &JudgedEvent<'_>| {
            let value = serde_json::to_value(&past.event.kind).unwrap();
            let kind = value["kind"].as_str().unwrap().to_owned();
            let mark = if past.standing.counts() { "+" } else { "-" };
            let why = past.standing.why_not();
            let why: Vec<&str> = why.iter().map(|why| why.id).collect();
            format!("{mark}{kind} {}", why.join(" "))
                .trim_end()
                .to_owned()
        };
        judged_events(events, &plan, &standing)
            .iter()
            .map(one)
            .collect()
    }

    #[test]
    fn each_event_is_told_with_what_it_is_worth() {
        let kinds = || {
            let note = EventKind::Note {
                text: "n".to_owned(),
            };
            let plan = approval(b"plan", &["a"], Purpose::Patient);
            [
                checked("20", "20"),
                first("24.3"),
                first("24.9"),
                plan,
                note,
            ]
        };
        let log = || log_of("desk", kinds());
        let patient = [
            "+gauge_checked",
            "-reading sign-reading-superseded",
            "-reading sign-judged-too-deep",
        ];
        let found = told(&merged([log()]), Purpose::Patient);
        assert_eq!(found[..3], patient);
        assert_eq!(found[4], "+note");
        let practised = told(&merged([log()]), Purpose::Practice);
        assert_eq!(practised[0], "-gauge_checked");
        assert!(
            practised[1].starts_with("-reading sign-reading-practice"),
            "{practised:?}"
        );
        let mut broken = merged([log()]);
        broken.set_broken();
        let void = "sign-void-broken";
        for line in told(&broken, Purpose::Patient) {
            assert!(line.starts_with('-') && line.ends_with(void), "{line}");
        }
    }

    /// The second reading of who read first by itself is right, and verifies nothing.
    #[test]
    fn a_second_reading_by_the_first_reader_is_told_so() {
        let mut log = log_of("desk", [checked("20", "20")]);
        for (seconds, kind) in [(100, first("24.3")), (200, second("24.3"))] {
            log.append(at(seconds), who("AB"), kind).unwrap();
        }
        let found = told(&merged([log]), Purpose::Patient);
        let want = [
            "+gauge_checked",
            "+reading",
            "-reading sign-check-same-person",
        ];
        assert_eq!(found, want);
    }

    /// What a desk had read stands before, whatever the clocks say.
    #[test]
    fn the_order_is_that_of_the_record_and_not_of_clocks() {
        let mut one = log_of("one", [first("24.3")]);
        let withdrawn = EventKind::Note {
            text: "after".to_owned(),
        };
        let mut other = Log::new(&case_jaw(), writer("other"));
        let seen = [(writer("one"), one.head().unwrap())].into();
        // An hour behind.
        other
            .append_knowing(seen, at(-3600), who("AB"), withdrawn)
            .unwrap();
        let seen = [(writer("other"), other.head().unwrap())].into();
        one.append_knowing(seen, at(10), who("AB"), first("24.2"))
            .unwrap();
        let events = merged([one, other]);
        let plan = plan();
        let standing = standing(&events, &plan, &policy()).unwrap();
        let order: Vec<String> = judged_events(&events, &plan, &standing)
            .iter()
            .map(|one| one.event.id().to_string())
            .collect();
        assert_eq!(order, ["one 1", "other 1", "one 2"]);
    }
}
