//! The check of the gauge that a reading was taken on.

use super::items::Objection;
use super::judge::Mistyped;
use super::plan::{PlannedItem, Policy};
use crate::measure::Length;
use crate::sign::event::{EventId, EventKind, Piece, Reading};
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
    if is_off(off_mm, item.graduation_mm) {
        let gauge = gauge();
        return Some(Objection::GaugeOff { gauge, off_mm });
    }
    let (by, off_mm) = found_off(this, reading, item, timed, policy)?;
    let gauge = gauge();
    Some(Objection::GaugeFoundOff { gauge, by, off_mm })
}

/// The check after a reading that found its gauge off, with the excess that it showed, where no sound
/// check lies between: nobody knows since when the gauge was off. A check that is not clearly before
/// the reading counts as after it, and one that is not clearly between lies elsewhere.
fn found_off(
    this: &TimedEvent<'_>,
    reading: &Reading,
    item: &PlannedItem,
    timed: &[TimedEvent<'_>],
    policy: &Policy,
) -> Option<(EventId, Length)> {
    let checks: Vec<(&TimedEvent<'_>, Length)> = timed
        .iter()
        .filter_map(|other| match &other.event.kind {
            EventKind::GaugeChecked {
                gauge,
                piece_mm,
                value_mm,
            } if *gauge == reading.gauge && !other.clearly_before(this, policy) => {
                Some((other, *value_mm - *piece_mm))
            }
            _ => None,
        })
        .collect();
    let off = |(_, by): &&(&TimedEvent<'_>, Length)| is_off(*by, item.graduation_mm);
    let sound_between = |failed: &TimedEvent<'_>| {
        checks.iter().any(|one| {
            let (check, _) = one;
            let after = this.clearly_before(check, policy);
            !off(&one) && after && check.clearly_before(failed, policy)
        })
    };
    let mut failed = checks.iter().filter(off);
    let (check, off_mm) = failed.find(|(check, _)| !sound_between(check))?;
    Some((check.event.id(), *off_mm))
}

/// The excess that a gauge shows of its check piece, negative: too little; nothing where it shows
/// the nearest graduation, so that it may be used.
#[must_use]
pub fn gauge_off(piece: Length, shown: Length, graduation: Option<Length>) -> Option<Length> {
    let off = shown - piece;
    is_off(off, graduation).then_some(off)
}

/// The reason why a figure read of a check piece looks mistyped rather than read of a gauge that is
/// off; nothing where it does not.
#[must_use]
pub fn gauge_mistyped(
    piece: Length,
    shown: Length,
    range: Option<(Length, Length)>,
    policy: &Policy,
) -> Option<Mistyped> {
    if shown.is_shifted(piece) {
        let figure_mm = piece;
        return Some(Mistyped::DecimalMark { figure_mm });
    }
    if let Some((least_mm, greatest_mm)) =
        range.filter(|(least, most)| !(*least..=*most).contains(&shown))
    {
        return Some(Mistyped::OutsideGauge {
            least_mm,
            greatest_mm,
        });
    }
    let by_mm = (shown - piece).abs();
    (by_mm > policy.tolerance.mistyped_beyond_mm).then_some(Mistyped::FarOff { by_mm })
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
