//! What a STOP told somebody to take, and nobody recorded having taken.

use super::{Purposes, is_practised};
use crate::kit::SlotKind;
use crate::sign::event::{DrillKey, EventKind, Piece, Purpose, ThingKey, ToldWork};
use crate::sign::hand::HandStep;
use crate::sign::heads::TimedEvent;
use std::collections::BTreeMap;

/// Things that a STOP told somebody to take, and of which nothing is clearly recorded since: neither that they were taken,
/// nor set, laid or fallen. A hand may have done it; of several works told of one thing, the one that takes most.
pub(super) fn told(
    timed: &[TimedEvent<'_>],
    purposes: &Purposes<'_>,
) -> BTreeMap<ThingKey, ToldWork> {
    let told = timed.iter().filter_map(|this| match &this.event.kind {
        EventKind::Told { thing, work, .. } if purposes.counts(this) => Some((this, thing, *work)),
        _ => None,
    });
    let open = told.filter(|(this, thing, _)| {
        let mut all = timed.iter();
        !all.any(|other| this.clearly_before(other) && settles(&other.event.kind, thing))
    });
    let mut most: BTreeMap<ThingKey, ToldWork> = BTreeMap::new();
    for (_, thing, work) in open {
        let kept = most.entry(thing.clone()).or_insert(work);
        *kept = work.max(*kept);
    }
    most
}

/// True if after this it is known again where a thing is.
fn settles(kind: &EventKind, thing: &ThingKey) -> bool {
    let is = |drill: &DrillKey| thing.piece() == Piece::Drill(drill.clone());
    match kind {
        EventKind::ThingPlaced { thing: other, .. } => other == thing,
        EventKind::Placed { item, .. }
        | EventKind::Handled {
            item,
            step: HandStep::Set,
            ..
        } => is(&item.drill_key()),
        EventKind::Reset {
            drill, to: None, ..
        } => is(drill),
        kind => match kind.fallen() {
            Some(Piece::Drill(drill)) => is(drill),
            Some(Piece::Thing(fallen)) => fallen.may_be(thing),
            Some(Piece::Other(name)) => thing.of != SlotKind::Drill && thing.entry == *name,
            Some(Piece::Gauge(_) | Piece::Guide(_)) | None => false,
        },
    }
}

/// True if it told somebody to set this drill anew.
pub(super) fn is_told(kind: &EventKind, drill: &DrillKey, plan: Purpose) -> bool {
    match kind {
        EventKind::Told {
            thing,
            work: ToldWork::SetAnew,
            purpose,
        } => thing.piece() == Piece::Drill(drill.clone()) && !is_practised(Some(*purpose), plan),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::samples::*;
    use crate::sign::standing::tables::{first, k1, lapses, of_desk};

    /// What was told stands, and takes what was read before, until something is recorded of the thing itself.
    #[test]
    fn what_a_stop_told_stands_until_something_is_recorded_of_the_thing() {
        let other = || item("plover", 1, None, "18");
        let one = k1;
        let read = || [checked("20", "20"), first("24.3")];
        let with = |work, then: Vec<EventKind>| {
            let stop = [told_to_take(work)];
            of_desk(read().into_iter().chain(stop).chain(then))
        };
        let taken = with(ToldWork::SetAnew, Vec::new());
        assert_eq!(taken.told.len(), 1);
        assert!(
            lapses(&taken).concat().contains("told"),
            "{:?}",
            lapses(&taken)
        );
        let only_taken = with(ToldWork::Take, Vec::new());
        assert_eq!(only_taken.told.len(), 1);
        assert_eq!(
            lapses(&only_taken).concat(),
            lapses(&of_desk(read())).concat()
        );
        let reset = EventKind::Reset {
            drill: drill("kestrel", 1),
            to: None,
            passed_over: None,
            purpose: Some(Purpose::Patient),
        };
        let placed = |item| EventKind::Placed {
            item,
            slot: "A1".to_owned(),
            purpose: Some(Purpose::Patient),
        };
        let dropped = EventKind::Dropped {
            piece: Piece::Drill(drill("kestrel", 1)),
            purpose: Some(Purpose::Patient),
        };
        let settling = [
            thing_placed(SlotKind::Drill, "kestrel", 1, None),
            handled(one(), HandStep::Set),
            placed(one()),
            reset,
            dropped,
        ];
        for kind in settling {
            let after = with(ToldWork::SetAnew, vec![kind.clone()]);
            assert!(after.told.is_empty(), "{kind:?}");
            // What was done before it was told settles nothing.
            let before = read()
                .into_iter()
                .chain([kind, told_to_take(ToldWork::Take)]);
            assert_eq!(of_desk(before).told.len(), 1);
        }
        let others = [placed(other()), handled(other(), HandStep::Set)];
        assert_eq!(with(ToldWork::SetAnew, others.into()).told.len(), 1);
    }
}
