//! Dominance: the states that another one makes needless.
//!
//! If the same is left to do, whatever can be done from one state can be done from the other too,
//! after at most a mount, a move, a turn of speed, and a re-set or a sleeve for each that is in
//! another place. A state that is dearer by all this is never needed.

use super::model::Model;
use super::state::{FIRST, FRESH, Layout, SPENT};
use super::valid::Contiguity;

/// The most that the way from `better` can cost more than that from `other`; none where a rule makes
/// the difference. Both have the same nodes at the same places.
pub(super) fn catch_up(
    model: &Model,
    layout: &Layout,
    better: &[u16],
    other: &[u16],
) -> Option<i64> {
    let rates = &model.rates;
    let differs = |at: usize| better[at] != other[at];
    let mut price = 0;
    if differs(layout.place()) {
        if model.contiguity == Contiguity::SiteBySite {
            return None;
        }
        if better[layout.place()] != FIRST {
            price += rates.go;
        }
    }
    if differs(layout.hand()) || differs(layout.hand_setting()) {
        price += rates.mount;
    }
    if differs(layout.speed()) && better[layout.speed()] != FIRST {
        price += rates.speed;
    }
    for site in 0..layout.sites {
        if other[site] % 2 == 1 && better[site].is_multiple_of(2) {
            price += rates.sleeve;
        }
    }
    for (from, count) in model.kinds.iter().filter_map(|kind| kind.copies) {
        let copies = layout.copies() + from..layout.copies() + from + count;
        let unlike = unlike(&better[copies.clone()], &other[copies]);
        price += rates.reset * unlike;
    }
    Some(price)
}

/// The number of copies of `other` without an equal among `better`: one set alike, a fresh one for
/// any, any for one that is set to what nobody asks for. Both are in order.
fn unlike(better: &[u16], other: &[u16]) -> i64 {
    let (mut a, mut b) = (0, 0);
    let mut equal = 0_usize;
    while a < better.len() && b < other.len() {
        match better[a].cmp(&other[b]) {
            std::cmp::Ordering::Equal => {
                equal += 1;
                a += 1;
                b += 1;
            }
            std::cmp::Ordering::Less => a += 1,
            std::cmp::Ordering::Greater => b += 1,
        }
    }
    let count = |row: &[u16], wanted: u16| row.iter().filter(|copy| **copy == wanted).count();
    let spare = |row: &[u16], other: &[u16], wanted: u16| {
        count(row, wanted).saturating_sub(count(other, wanted))
    };
    let helped = spare(better, other, FRESH) + spare(other, better, SPENT);
    let left = better.len().saturating_sub(equal).saturating_sub(helped);
    i64::try_from(left).unwrap_or(i64::MAX)
}
