//! The check of the gauge that a reading was taken on.

use super::Purposes;
use super::items::Objection;
use super::judge::Mistyped;
use super::plan::{PlannedItem, Policy};
use crate::measure::Length;
use crate::sign::event::{EventKind, Piece, Reading};
use crate::sign::heads::TimedEvent;

/// The objection to the gauge that a reading was taken on.
///
/// The last sound check of the gauge before the reading stands for it: it shows the gauge's nearest
/// graduation to the length of the check piece with its constant, since a gauge that shows too little lets every
/// drill be set too long. A check that found the gauge off, or a fall, that is not clearly before that
/// check takes the reading, whatever the clock says, unless a sound check lies surely between the
/// reading and it: nobody knows since when the gauge was off.
pub(super) fn objection(
    this: &TimedEvent<'_>,
    reading: &Reading,
    item: &PlannedItem,
    (timed, purposes): (&[TimedEvent<'_>], &Purposes<'_>),
    policy: &Policy,
) -> Option<Objection> {
    let gauge = || reading.gauge.clone();
    let checks: Vec<(&TimedEvent<'_>, Length)> = timed
        .iter()
        .filter_map(|other| match &other.event.kind {
            EventKind::GaugeChecked {
                gauge,
                piece_mm,
                value_mm,
                ..
            } if *gauge == reading.gauge => {
                Some((other, *value_mm - *piece_mm - item.gauge_constant_mm))
            }
            _ => None,
        })
        .collect();
    let is_off = |off_mm: Length| is_off(off_mm, item.graduation_mm);
    let before = |(check, _): &&(&TimedEvent<'_>, Length)| check.clearly_before(this);
    // What was practised makes no gauge sound, but may have found it off.
    // Nor does a length that its check piece has not.
    let is_sound = |(one, by): &(&TimedEvent<'_>, Length)| {
        !is_off(*by) && purposes.counts(one) && is_on_the_piece(one, item)
    };
    let sound = checks.iter().filter(before).rfind(|check| is_sound(check));
    let failed = checks.iter().filter(|(_, by)| is_off(*by));
    let last_failed = || failed.clone().rfind(before);
    let Some((check, _)) = sound else {
        let gauge = gauge();
        return Some(match last_failed() {
            Some((_, off_mm)) => Objection::GaugeOff {
                gauge,
                off_mm: *off_mm,
            },
            None => Objection::GaugeNotChecked { gauge },
        });
    };
    let since = |other: &TimedEvent<'_>| !other.clearly_before(check);
    let sound_between = |other: &TimedEvent<'_>| {
        let between = |one: &TimedEvent<'_>| this.clearly_before(one) && one.clearly_before(other);
        checks
            .iter()
            .any(|check| is_sound(check) && between(check.0))
    };
    if let Some((_, off_mm)) = last_failed().filter(|(failed, _)| since(failed)) {
        let (gauge, off_mm) = (gauge(), *off_mm);
        return Some(Objection::GaugeOff { gauge, off_mm });
    }
    // By the clocks as they were: one that was once ahead would keep a check fresh.
    let age_s = this
        .event
        .at
        .as_second()
        .saturating_sub(check.event.at.as_second());
    if age_s > policy.gauge_check_lasts_s || age_s < -policy.clocks_apart_s {
        return Some(Objection::GaugeCheckOld { gauge: gauge() });
    }
    let fall = timed.iter().find(|other| {
        matches!(&other.event.kind, EventKind::Dropped { piece: Piece::Gauge(name), .. } if *name == reading.gauge)
            && since(other)
            && !this.clearly_before(other)
    });
    if let Some(fall) = fall {
        let by = fall.event.id();
        return Some(Objection::GaugeFell { gauge: gauge(), by });
    }
    let mut later = failed.filter(|(other, _)| since(other) && !sound_between(other));
    let (found, off_mm) = later.next()?;
    Some(Objection::GaugeFoundOff {
        gauge: gauge(),
        by: found.event.id(),
        off_mm: *off_mm,
    })
}

/// True if a check was made on the check piece that the kit names, as long as it has it.
fn is_on_the_piece(check: &TimedEvent<'_>, item: &PlannedItem) -> bool {
    match &check.event.kind {
        EventKind::GaugeChecked { piece_mm, .. } => {
            item.check_piece_mm.is_none_or(|now| now == *piece_mm)
        }
        _ => false,
    }
}

/// The excess of what a gauge shows of its check piece over what it should ([`Gauge::shows_of`](crate::kit::Gauge::shows_of)),
/// negative: too little; nothing where that is the nearest graduation, so that it may be used.
#[must_use]
pub fn gauge_off(should: Length, shown: Length, graduation: Option<Length>) -> Option<Length> {
    let off = shown - should;
    is_off(off, graduation).then_some(off)
}

/// The reason why a figure read of a check piece looks mistyped rather than read of a gauge that is
/// off; nothing where it does not.
#[must_use]
pub fn gauge_mistyped(
    should: Length,
    shown: Length,
    range: Option<(Length, Length)>,
    policy: &Policy,
) -> Option<Mistyped> {
    if shown.is_shifted(should) {
        let figure_mm = should;
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
    let by_mm = (shown - should).abs();
    (by_mm > policy.tolerance.mistyped_beyond_mm).then_some(Mistyped::FarOff { by_mm })
}

/// Without a graduation nothing says how much is too much.
fn is_off(off: Length, graduation: Option<Length>) -> bool {
    let twice = Length::from_um(off.um().saturating_mul(2)).abs();
    twice > graduation.unwrap_or_default()
}
