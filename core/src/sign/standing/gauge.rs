//! The check of the gauge that a reading was taken on.

use super::Purposes;
use super::items::Objection;
use super::judge::{Mistyped, is_on_graduation};
use super::plan::{PlanView, PlannedItem, Policy};
use super::void::void_of;
use crate::kit::Gauge;
use crate::measure::Length;
use crate::sign::Purpose;
use crate::sign::event::{EventKind, Piece};
use crate::sign::heads::TimedEvent;
use crate::sign::merge::Merged;

/// The moment of a reading.
pub(super) enum Moment<'a> {
    /// That of one that is recorded.
    Of(&'a TimedEvent<'a>),
    /// That of one which would be taken now, after everything that is recorded.
    Now(jiff::Timestamp),
}

impl Moment<'_> {
    /// True if an event happened before it beyond doubt.
    fn is_after(&self, other: &TimedEvent<'_>) -> bool {
        match self {
            Self::Of(this) => other.clearly_before(this),
            Self::Now(_) => true,
        }
    }

    /// True if it was before an event beyond doubt.
    fn is_before(&self, other: &TimedEvent<'_>) -> bool {
        match self {
            Self::Of(this) => this.clearly_before(other),
            Self::Now(_) => false,
        }
    }

    /// Its time, by its own clock.
    const fn at(&self) -> jiff::Timestamp {
        match self {
            Self::Of(this) => this.event.at,
            Self::Now(at) => *at,
        }
    }
}

/// The objection to the gauge that a reading was taken on.
///
/// The last sound check of the gauge before the reading stands for it: it shows the gauge's nearest
/// graduation to the length of the check piece with its constant, since a gauge that shows too little lets every
/// drill be set too long. A figure between two graduations was not read of the gauge. A check that found the gauge off, or a fall, that is not clearly before that
/// check takes the reading, whatever the clock says, unless a sound check lies surely between the
/// reading and it: nobody knows since when the gauge was off.
pub(super) fn objection(
    this: &Moment<'_>,
    read_on: &str,
    item: &PlannedItem,
    (timed, purposes): (&[TimedEvent<'_>], &Purposes<'_>),
    policy: &Policy,
) -> Option<Objection> {
    let gauge = || read_on.to_owned();
    let checks: Vec<(&TimedEvent<'_>, Length)> = timed
        .iter()
        .filter_map(|other| match &other.event.kind {
            EventKind::GaugeChecked {
                gauge,
                piece_mm,
                value_mm,
                ..
            } if *gauge == read_on => {
                let should = *piece_mm + item.gauge_constant_mm?;
                Some((other, *value_mm - should))
            }
            _ => None,
        })
        .collect();
    let is_off = |off_mm: Length| is_off(off_mm, item.graduation_mm);
    let before = |(check, _): &&(&TimedEvent<'_>, Length)| this.is_after(check);
    // What was practised makes no gauge sound, but may have found it off.
    // Nor does a length that its check piece has not.
    let is_sound = |(one, by): &(&TimedEvent<'_>, Length)| {
        let may_count = purposes.counts(one) && is_on_the_piece(one, item.check_piece_mm);
        !is_off(*by) && may_count && no_figure(one, item.graduation_mm).is_none()
    };
    let sound = checks.iter().filter(before).rfind(|check| is_sound(check));
    let failed = checks.iter().filter(|(_, by)| is_off(*by));
    let last_failed = || failed.clone().rfind(before);
    let Some((check, _)) = sound else {
        let gauge = gauge();
        let mut mistyped = checks.iter().filter(before).rev();
        let mistyped = mistyped.find_map(|(one, _)| no_figure(one, item.graduation_mm));
        return Some(match (last_failed(), mistyped) {
            (Some((_, off_mm)), _) => Objection::GaugeOff {
                gauge,
                off_mm: *off_mm,
            },
            (None, Some(value_mm)) => Objection::GaugeNoFigure { gauge, value_mm },
            (None, None) => Objection::GaugeNotChecked { gauge },
        });
    };
    let since = |other: &TimedEvent<'_>| !other.clearly_before(check);
    let sound_between = |other: &TimedEvent<'_>| {
        let between = |one: &TimedEvent<'_>| this.is_before(one) && one.clearly_before(other);
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
        .at()
        .as_second()
        .saturating_sub(check.event.at.as_second());
    if age_s > policy.gauge_check_lasts_s || age_s < -policy.clocks_apart_s {
        return Some(Objection::GaugeCheckOld { gauge: gauge() });
    }
    let fall = timed.iter().find(|other| {
        matches!(&other.event.kind, EventKind::Dropped { piece: Piece::Gauge(name), .. } if *name == read_on)
            && since(other)
            && !this.is_before(other)
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

/// The objection to the gauge of a plan's setting if it were read now: none where it is sound.
#[must_use]
pub fn gauge_now(
    item: &PlannedItem,
    events: &Merged,
    plan: &PlanView,
    (policy, now): (&Policy, jiff::Timestamp),
) -> Option<Objection> {
    let timed = events.timed();
    let void = void_of(events, &timed);
    let live = timed.iter().filter(|one| void(one).is_none()).cloned();
    let live: Vec<TimedEvent<'_>> = live.collect();
    let purposes = Purposes::new(&timed, plan.purpose);
    objection(
        &Moment::Now(now),
        &item.gauge,
        item,
        (&live, &purposes),
        policy,
    )
}

/// A figure of a gauge's check piece that was asked back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AskedBack {
    /// The length marked on the check piece.
    pub piece_mm: Length,
    /// The figure.
    pub value_mm: Length,
}

/// The excess that a gauge showed at its last check of the record, where that found it off; nothing where a sound
/// check came surely after it.
#[must_use]
pub fn gauge_found_off(gauge: &Gauge, events: &Merged, purpose: Purpose) -> Option<Length> {
    let timed = events.timed();
    let void = void_of(events, &timed);
    let purposes = Purposes::new(&timed, purpose);
    let checks = timed.iter().filter(|one| void(one).is_none());
    let checks = checks.filter_map(|one| match &one.event.kind {
        EventKind::GaugeChecked {
            gauge: of,
            piece_mm,
            value_mm,
            ..
        } if *of == *gauge.id.as_str() => {
            let should = gauge.shows_of(*piece_mm)?;
            Some((one, gauge_off(should, *value_mm, Some(gauge.graduation_mm))))
        }
        _ => None,
    });
    let checks: Vec<(&TimedEvent<'_>, Option<Length>)> = checks.collect();
    let (failed, off) = checks.iter().rfind(|(_, off)| off.is_some())?;
    // What was practised makes no gauge sound, but may have found it off.
    let sound = |(one, off): &(&TimedEvent<'_>, Option<Length>)| {
        let counts = purposes.counts(one) && is_on_the_piece(one, gauge.check_piece_mm);
        let is_shown = no_figure(one, Some(gauge.graduation_mm)).is_none();
        off.is_none() && counts && is_shown && failed.clearly_before(one)
    };
    off.filter(|_| !checks.iter().any(sound))
}

/// True if the record speaks against a gauge of which nobody knows what it adds, so that no check finds it sound: a figure
/// of its check piece was asked back, or it showed two of one piece that are more than half a graduation apart.
#[must_use]
pub fn gauge_contradicted(gauge: &Gauge, events: &Merged) -> bool {
    if gauge.constant_mm.is_some() {
        return false;
    }
    let timed = events.timed();
    let void = void_of(events, &timed);
    let live = timed.iter().filter(|one| void(one).is_none());
    let mut shown: Vec<(Length, Length)> = Vec::new();
    for one in live {
        match &one.event.kind {
            EventKind::GaugeAskedBack { gauge: of, .. } if *of == *gauge.id.as_str() => {
                return true;
            }
            EventKind::GaugeChecked {
                gauge: of,
                piece_mm,
                value_mm,
                asked_back_mm,
                ..
            } if *of == *gauge.id.as_str() => {
                let differs = |(piece, value): &(Length, Length)| {
                    piece == piece_mm && is_off(*value_mm - *value, Some(gauge.graduation_mm))
                };
                if !asked_back_mm.is_empty() || shown.iter().any(differs) {
                    return true;
                }
                shown.push((*piece_mm, *value_mm));
            }
            _ => {}
        }
    }
    false
}

/// The figures of a gauge that were asked back since its last check, in the order of the record. A check in practice
/// settles for a patient only what was asked back in practice; what is void says nothing.
#[must_use]
pub fn gauge_asked_back(events: &Merged, plan: &PlanView, of: &str) -> Vec<AskedBack> {
    let timed = events.timed();
    let void = void_of(events, &timed);
    let purposes = Purposes::new(&timed, plan.purpose);
    let mut asked = Vec::new();
    for this in timed.iter().filter(|one| void(one).is_none()) {
        let counts = purposes.counts(this);
        match &this.event.kind {
            EventKind::GaugeChecked { gauge, .. } if gauge == of => {
                asked.retain(|(for_plan, _)| *for_plan && !counts);
            }
            EventKind::GaugeAskedBack {
                gauge,
                piece_mm,
                value_mm,
                ..
            } if gauge == of => {
                let (piece_mm, value_mm) = (*piece_mm, *value_mm);
                asked.push((counts, AskedBack { piece_mm, value_mm }));
            }
            _ => {}
        }
    }
    asked.into_iter().map(|(_, one)| one).collect()
}

/// True if a check was made on the check piece that the kit names, as long as it has it.
fn is_on_the_piece(check: &TimedEvent<'_>, piece: Option<Length>) -> bool {
    match &check.event.kind {
        EventKind::GaugeChecked { piece_mm, .. } => piece.is_none_or(|now| now == *piece_mm),
        _ => false,
    }
}

/// The figure of a check that is on no graduation of the gauge, so that nobody read it there; nothing where it is on one.
fn no_figure(check: &TimedEvent<'_>, graduation: Option<Length>) -> Option<Length> {
    match &check.event.kind {
        EventKind::GaugeChecked { value_mm, .. } => {
            graduation.and_then(|one| (!is_on_graduation(*value_mm, one)).then_some(*value_mm))
        }
        _ => None,
    }
}

/// The excess of what a gauge shows of its check piece over what it should ([`Gauge::shows_of`](crate::kit::Gauge::shows_of)),
/// negative: too little; nothing where that is the nearest graduation. It may then be used if it shows such a figure at all
/// ([`is_on_graduation`]).
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
