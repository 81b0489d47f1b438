//! The cost of one kind of tool's uses beyond their cheapest ways.

use super::super::kinds::Kind;
use super::super::model::has;
use super::super::state::{EMPTY, FRESH, SPENT};
use super::Bound;
use super::stays::End;

/// The uses left of one kind of tool.
pub(super) struct Uses<'a> {
    pub(super) kind: usize,
    /// The least that a mount costs more than to come with the tool in the hand.
    pub(super) dearer: i64,
    /// For each sleeve that could stay how often it could.
    pub(super) staying: &'a [i64],
    /// It is in the hand and may be used next.
    pub(super) at_hand: bool,
}

impl Bound<'_> {
    /// The cost of one kind's uses beyond their cheapest ways: a mount where it is not at hand, and
    /// mounts of more copies, re-sets, or sleeves put in again, whichever is cheaper.
    pub(super) fn for_kind(&self, row: &[u16], ahead: &[u64], uses: &Uses<'_>) -> i64 {
        let Uses {
            kind,
            dearer,
            staying,
            at_hand,
        } = *uses;
        let least = i64::from(!at_hand);
        let (needed, set) = self.settings(row, ahead, uses);
        let own = || {
            self.stays
                .iter()
                .zip(staying)
                .filter(|(stay, _)| stay.kind == kind)
        };
        let cost = |mounts: i64| {
            let again = own().map(|(stay, count)| {
                let pieces = self.model.pieces[stay.sleeve];
                let now = i64::from(at_hand && stay.end == End::Earlier);
                (count - pieces * (mounts + now)).max(0)
            });
            mounts * dearer
                + self.model.rates.sleeve * again.sum::<i64>()
                + self.model.rates.reset * (needed - mounts.min(set))
        };
        // Each mount more saves less than the one before.
        let (mut mounts, mut least_cost) = (least, cost(least));
        loop {
            mounts += 1;
            let more = cost(mounts);
            if more >= least_cost {
                return least_cost;
            }
            least_cost = more;
        }
    }

    /// The number of settings of a kind that are asked for beyond that in the hand, and for how
    /// many of them there is a copy that needs no re-set.
    fn settings(&self, row: &[u16], ahead: &[u64], uses: &Uses<'_>) -> (i64, i64) {
        let l = &self.layout;
        let Kind { copies, settings } = self.model.kinds[uses.kind];
        let Some((from, count)) = copies else {
            return (0, 0);
        };
        let asked =
            |setting: usize| has(ahead, self.model.ahead.settings_from + settings.0 + setting);
        let needed = (0..settings.1).map(|s| i64::from(asked(s))).sum::<i64>();
        let in_hand = row[l.hand_setting()];
        let set_in_hand = uses.at_hand && in_hand < SPENT;
        let mut set = 0;
        let mut before = EMPTY;
        for copy in &row[l.copies() + from..l.copies() + from + count] {
            let other = *copy < SPENT && *copy != before && !(set_in_hand && *copy == in_hand);
            set += i64::from(*copy == FRESH || other);
            before = *copy;
        }
        let needed = needed - i64::from(set_in_hand);
        (needed, set.min(needed))
    }
}
