//! The check of the gauge that a reading was taken on.

use super::items::Objection;
use super::plan::{PlannedItem, Policy};
use crate::measure::Length;
use crate::sign::event::{EventKind, Piece, Reading};
use crate::sign::merge::TimedEvent;

/// The objection to the gauge that a reading was taken on.
///
/// The last reading of the check piece before it decides. It has to be the gauge's nearest
/// graduation to the length marked on the piece: a gauge that shows too little lets every drill be
/// set too long.
pub(super) fn objection(
    this: &TimedEvent<'_>,
    reading: &Reading,
    item: &PlannedItem,
    timed: &[TimedEvent<'_>],
    policy: &Policy,
) -> Option<Objection> {
    let gauge = || reading.gauge.clone();
    let mut checks = timed.iter().filter_map(|other| match &other.event.kind {
        EventKind::GaugeChecked {
            gauge,
            piece_mm,
            value_mm,
        } if *gauge == reading.gauge && not_after(other, this) => {
            Some((other, *value_mm - *piece_mm))
        }
        _ => None,
    });
    let Some((check, off_mm)) = checks.next_back() else {
        return Some(Objection::GaugeNotChecked { gauge: gauge() });
    };
    let age_s = this.at.as_second().saturating_sub(check.at.as_second());
    if age_s > policy.gauge_check_lasts_s {
        return Some(Objection::GaugeCheckOld { gauge: gauge() });
    }
    let fall = timed.iter().find(|other| {
        matches!(&other.event.kind, EventKind::Dropped { piece: Piece::Gauge(name) } if *name == reading.gauge)
            && !other.clearly_before(check, policy)
            && !this.clearly_before(other, policy)
    });
    if let Some(fall) = fall {
        let by = fall.event.id();
        return Some(Objection::GaugeFell { gauge: gauge(), by });
    }
    is_off(off_mm, item.graduation_mm).then(|| Objection::GaugeOff {
        gauge: gauge(),
        off_mm,
    })
}

/// The excess that a gauge shows of its check piece, negative: too little; nothing where it shows
/// the nearest graduation, so that it may be used.
#[must_use]
pub fn gauge_off(piece: Length, shown: Length, graduation: Option<Length>) -> Option<Length> {
    let off = shown - piece;
    is_off(off, graduation).then_some(off)
}

/// Without a graduation nothing says how much is too much.
fn is_off(off: Length, graduation: Option<Length>) -> bool {
    let twice = Length::from_um(off.um().saturating_mul(2)).abs();
    twice > graduation.unwrap_or_default()
}

/// True if the check is before the reading. Two desks with clocks a little apart are given the
/// benefit here: an old or missing check is reported, a check a minute too late harms nobody.
fn not_after(check: &TimedEvent<'_>, reading: &TimedEvent<'_>) -> bool {
    if check.event.writer == reading.event.writer {
        check.event.seq < reading.event.seq
    } else {
        check.at <= reading.at
    }
}
