//! The number of each tooth, beside it where nothing else is.

use super::place::ToothPlace;
use super::space::Occupied;
use crate::drawing::{Across, Along, Ink, Point, Rect, Text, TextStyle};

/// Style of numbers.
pub(super) const NUMBER: TextStyle = TextStyle::CAPTION.inked(Ink::Faint);

/// From a tooth's outline to its number, mm.
const GAP: f64 = 0.9;

/// Margin that a number may take beyond the outlines, mm, for the longest of these numbers:
/// sideways and up or down.
pub(super) fn margin<'a>(numbers: impl Iterator<Item = &'a str>) -> (f64, f64) {
    let width = numbers
        .map(|number| NUMBER.width(number))
        .fold(0.0, f64::max);
    (width + 2.0 * GAP, NUMBER.cap_height() + 2.0 * GAP)
}

/// Place of a tooth's number: outside the arch, a little aside of that, or inside the arch; nothing
/// where everything is taken. `centre` and `scale` are the tooth's on the page.
pub(super) fn place(
    tooth: &ToothPlace,
    number: &str,
    centre: Point,
    scale: f64,
    room: Rect,
    taken: &Occupied,
) -> Option<Text> {
    let (half_width, half_height) = (NUMBER.width(number) / 2.0, NUMBER.cap_height() / 2.0);
    let along = tooth.buccal.quarter_turn() * (tooth.md_width * scale / 4.0);
    // So far that an upright rectangle of this size clears a straight edge.
    let reach = tooth.buccal.x.abs() * half_width + tooth.buccal.y.abs() * half_height;
    let out = tooth.buccal * (tooth.fl_width * scale / 2.0 + GAP + reach);
    let text = |way: Point| Text {
        place: centre + way,
        anchor: (Across::Middle, Along::Middle),
        content: number.to_owned(),
        style: NUMBER,
        turn_deg: 0.0,
    };
    [
        out,
        out + along,
        out + along * -1.0,
        out * -1.0,
        out * -1.0 + along,
        out * -1.0 + along * -1.0,
    ]
    .into_iter()
    .map(text)
    .find(|text| {
        let bounds = text.bounds();
        room.holds(bounds) && taken.leaves_free(bounds.grown(0.2))
    })
}
