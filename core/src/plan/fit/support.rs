//! The support of the guide.

use crate::case::{Case, CasePin, Place, Rule, Support, Tooth};
use crate::dentition::{Side, ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::finding::{Finding, Verdict};

/// Fewest pins that hold a guide on mucosa: three or more and not in line (common practice, from
/// memory).
const FEWEST_PINS: usize = 3;

/// What does not hold the guide: no tooth where teeth are to, no pin, or too few and too close.
pub(in crate::plan) fn check(case: &Case, out: &mut Vec<Finding>) {
    match case.guide.support {
        Support::Teeth | Support::TeethAndMucosa => out.extend(no_tooth(case)),
        Support::Mucosa if !case.guide.pins.is_empty() => pins(&case.guide.pins, out),
        Support::Mucosa => out.push(no_pin("mucosa", Verdict::Short)),
        // Something else may hold it, but nobody said so.
        Support::Bone if case.guide.pins.is_empty() => out.push(no_pin("bone", Verdict::Unknown)),
        Support::Bone => {}
    }
}

/// A guide that no tooth holds and no fixation pin either.
fn no_pin(support: &'static str, verdict: Verdict) -> Finding {
    Finding::new(Rule::GuideNotHeld, Place::Pins)
        .verdict(verdict)
        .arg("support", support)
}

/// Teeth are to hold the guide, and none is entered that stays: short where every position of the
/// jaw was entered, else unknown.
fn no_tooth(case: &Case) -> Option<Finding> {
    if case.teeth.iter().any(Tooth::has_crown) {
        return None;
    }
    let all = ToothPosition::all_of(case.jaw)
        .all(|position| case.teeth.iter().any(|tooth| tooth.position == position));
    let (verdict, entered) = if all {
        (Verdict::Short, "all")
    } else {
        (Verdict::Unknown, "some")
    };
    Some(
        Finding::new(Rule::NoToothHolds, Place::Pins)
            .verdict(verdict)
            .arg("entered", entered),
    )
}

/// The pins of a guide on mucosa: too few, or all in one spot or on one side.
fn pins(pins: &[CasePin], out: &mut Vec<Finding>) {
    if pins.len() < FEWEST_PINS {
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        out.push(
            Finding::new(Rule::FewPins, Place::Pins)
                .verdict(Verdict::Short)
                .arg("count", count(pins.len()))
                .arg("fewest", count(FEWEST_PINS)),
        );
    }
    // One alone is told above.
    if pins.len() < 2 {
        return;
    }
    let at: Vec<Length> = pins.iter().map(along_arch).collect();
    let (Some(first), Some(last)) = (at.iter().min(), at.iter().max()) else {
        return;
    };
    // Neighbouring positions are never nearer than the narrower of their crowns is wide.
    let widths = pins.iter().map(|pin| tooth_size(pin.at).crown_md);
    let spread = if widths.min().is_some_and(|width| *last - *first < width) {
        "spot"
    } else if *last <= Length::ZERO || *first >= Length::ZERO {
        "side"
    } else {
        return;
    };
    out.push(
        Finding::new(Rule::PinsNotSpread, Place::Pins)
            .verdict(Verdict::Short)
            .arg("spread", spread),
    );
}

/// Place of a pin along the arch by mean crown widths, from the midline towards the left.
fn along_arch(pin: &CasePin) -> Length {
    let width = |position: ToothPosition| tooth_size(position).crown_md;
    let before = (1..pin.at.number())
        .filter_map(|number| ToothPosition::new(pin.at.quadrant(), number))
        .map(width)
        .fold(Length::ZERO, |sum, width| sum + width);
    let distal = before + width(pin.at).half_floor() + pin.along_mm;
    match pin.at.side() {
        Side::Right => -distal,
        Side::Left => distal,
    }
}
