//! The support of the guide.

use crate::case::{Access, Case, CasePin, Place, Rule, Support, Tooth};
use crate::dentition::{ArchModel, Side, ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::finding::{Finding, Verdict};

/// Fewest pins that hold a guide on mucosa: three or more and not in line (common practice, from
/// memory).
const FEWEST_PINS: usize = 3;

/// What pins must at least stand out of one line for the guide not to tip about it. Common practice,
/// no source: on a mean arch the middle one of three from canine to canine stands 4.7 mm out of it in
/// the lower jaw and 7.5 mm in the upper, one of three across the incisors 3.0 mm at most.
const LEAST_OUT_OF_LINE: Length = Length::from_mm(4);

/// What does not hold the guide: no tooth where teeth are to, no pin, or too few and too close.
pub(in crate::plan) fn check(case: &Case, arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    out.extend(punched(case));
    match case.guide.support {
        Support::Teeth | Support::TeethAndMucosa => out.extend(no_tooth(case)),
        Support::Mucosa if !case.guide.pins.is_empty() => pins(case, arch, out),
        Support::Mucosa => out.push(no_pin("mucosa", Verdict::Short)),
        // Something else may hold it, but nobody said so. About one spot it turns.
        Support::Bone => {
            let held = match apart(&case.guide.pins) {
                0 => Some("bone"),
                1 => Some("bone_spot"),
                _ => None,
            };
            out.extend(held.map(|support| no_pin(support, Verdict::Unknown)));
        }
    }
}

/// A guide that rests on bone rests where a flap lays it bare: nothing is left there to be punched. Which of
/// the two was meant nobody knows, and the room under the sleeve hangs on it.
fn punched(case: &Case) -> Option<Finding> {
    let guide = &case.guide;
    let is_contradiction = guide.support == Support::Bone && guide.access == Access::Punch;
    is_contradiction.then(|| Finding::new(Rule::PunchOnBone, Place::Pins).verdict(Verdict::Unknown))
}

/// A guide that no tooth holds, nor fixation pins that stand apart.
fn no_pin(support: &'static str, verdict: Verdict) -> Finding {
    Finding::new(Rule::GuideNotHeld, Place::Pins)
        .verdict(verdict)
        .arg("support", support)
}

/// Teeth are to hold the guide, and none is entered that stays: short where every position of the
/// jaw was entered, else unknown. Third molars alone are at the end of the guide, short and often not
/// fully erupted, and about one tooth a guide tips (common practice, no source): unknown whether they hold it. One of which
/// nobody entered what kind it is may hold none: unknown where without such ones too few do.
fn no_tooth(case: &Case) -> Option<Finding> {
    let holding: Vec<&Tooth> = case.teeth_that_hold().collect();
    let is_third = |tooth: &Tooth| tooth.position.number() == 8;
    let others = holding.iter().filter(|tooth| !is_third(tooth)).count();
    let of_kind = holding
        .iter()
        .filter(|tooth| !is_third(tooth) && tooth.kind.is_some());
    let of_kind = of_kind.count();
    let enough = match case.guide.support {
        Support::TeethAndMucosa => 1,
        _ => 2,
    };
    if of_kind >= enough {
        return None;
    }
    let all = ToothPosition::all_of(case.jaw)
        .all(|position| case.teeth.iter().any(|tooth| tooth.position == position));
    let (verdict, entered) = if others >= enough {
        (Verdict::Unknown, "kind")
    } else if others == 1 {
        (Verdict::Unknown, "one")
    } else if !holding.is_empty() {
        (Verdict::Unknown, "third")
    } else if all {
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

/// The pins of a guide on mucosa: too few, too many of them in one spot, all on one side or in line.
fn pins(case: &Case, arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    let pins = &case.guide.pins;
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
    let apart = apart(pins);
    let are_enough = pins.len() >= FEWEST_PINS;
    let spread = if apart < 2 {
        "spot"
    } else if *last <= Length::ZERO || *first >= Length::ZERO {
        "side"
    } else if are_enough && apart < FEWEST_PINS {
        "near"
    } else if are_enough && out_of_line(case, arch).is_some_and(|width| width < LEAST_OUT_OF_LINE) {
        "line"
    } else {
        return;
    };
    out.push(
        Finding::new(Rule::PinsNotSpread, Place::Pins)
            .verdict(Verdict::Short)
            .arg("spread", spread),
    );
}

/// How many of the pins stand apart: each a crown's width or more from the others. Neighbouring
/// positions are never nearer than the narrower of their crowns is wide.
fn apart(pins: &[CasePin]) -> usize {
    let mut by_place: Vec<&CasePin> = pins.iter().collect();
    by_place.sort_by_key(|pin| along_arch(pin));
    let width = |pin: &CasePin| tooth_size(pin.at).crown_md;
    let between = |a: &CasePin, b: &CasePin| {
        let along = along_arch(a) - along_arch(b);
        Length::floor_mm(libm::hypot(along.mm(), (a.buccal_mm - b.buccal_mm).mm()))
    };
    let mut apart: Vec<&CasePin> = Vec::new();
    for pin in by_place {
        let is_apart = |other: &&CasePin| between(pin, other) >= width(pin).min(width(other));
        if apart.iter().all(is_apart) {
            apart.push(pin);
        }
    }
    apart.len()
}

/// Width of the narrowest strip that holds all pins, on the case's arch or else the mean one; nothing
/// where one is of the other jaw.
fn out_of_line(case: &Case, arch: Option<&ArchModel>) -> Option<Length> {
    let pins = &case.guide.pins;
    let arch = arch.unwrap_or_else(|| ArchModel::mean(case.jaw));
    let place = |pin: &CasePin| arch.point_at(pin.at, pin.along_mm, pin.buccal_mm);
    let places: Vec<[f64; 2]> = pins
        .iter()
        .map(|pin| place(pin).map(|at| [at.x_mm, at.y_mm]))
        .collect::<Option<_>>()?;
    // The narrowest strip lies along a side of their hull, so along a line through two of them.
    let pairs = places
        .iter()
        .enumerate()
        .flat_map(|(n, a)| places[..n].iter().map(move |b| (a, b)));
    let strips = pairs.filter_map(|(a, b)| {
        let (x, y) = (b[0] - a[0], b[1] - a[1]);
        let length = libm::hypot(x, y);
        let aside = |p: &[f64; 2]| (x * (p[1] - a[1]) - y * (p[0] - a[0])) / length;
        let most = places.iter().map(aside).fold(f64::MIN, f64::max);
        let least = places.iter().map(aside).fold(f64::MAX, f64::min);
        (length > 0.0).then_some(most - least)
    });
    Some(Length::floor_mm(strips.fold(f64::MAX, f64::min).min(1e3)))
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
