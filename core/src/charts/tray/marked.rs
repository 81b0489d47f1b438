//! The marking of a thing in a slot of the map: beside the slot's number or below it, smaller or on several lines where it
//! has no room, and never left out.

use super::super::marking::shape;
use super::map::{EDGE, NAME};
use crate::drawing::{Across, Along, Drawing, Point, TextStyle, at, pt};
use crate::kit::Marking;

/// Types of a letter and the gap from it to a shape, mm, that are tried: the best first. None is below 8 points.
const TRIED: [(TextStyle, f64); 3] = [
    (NAME, 0.6),
    (NAME.sized(pt(8.0)), 0.6),
    (NAME.sized(pt(8.0)), 0.3),
];
/// Side of a shape, mm: below it shapes begin to look alike (as in [`marking`](super::super::marking::marking)).
const SHAPE: f64 = 2.0;

/// A marking with its place in a slot of which the far left corner is at the origin.
pub(super) struct Marked {
    pub(super) drawing: Drawing,
    /// How deep the slot is at least, mm.
    pub(super) depth: f64,
}

/// A marking in a slot with this number and width; nothing where not even one letter of it has room.
pub(super) fn marked(marking: &Marking, number: &str, width: f64) -> Option<Marked> {
    let line = line();
    let right = EDGE + NAME.width(number) + EDGE;
    let (letter, which) = (marking.letter.as_deref(), marking.shape);
    if letter.is_none() && which.is_none() {
        return Some(Marked {
            drawing: Drawing::new(),
            depth: line,
        });
    }
    let wide = |(style, gap): (TextStyle, f64)| {
        let letter = letter.map(|letter| style.width(letter));
        let between = if letter.is_some() && which.is_some() {
            gap
        } else {
            0.0
        };
        letter.unwrap_or(0.0) + between + which.map_or(0.0, |_| side(style))
    };
    // On one line: beside the number, then below it.
    let beside = TRIED.iter().take(1).map(|one| (one, right, line / 2.0));
    let below = TRIED.iter().map(|one| {
        let middle = line + side(one.0) / 2.0;
        (one, EDGE, middle)
    });
    for (&(style, gap), left, middle) in beside.chain(below) {
        if left + wide((style, gap)) + EDGE > width {
            continue;
        }
        let mut drawing = Drawing::new();
        let mut left = left;
        if let Some(letter) = letter {
            lettered(&mut drawing, at(left, middle), style, letter);
            left += style.width(letter) + gap;
        }
        if let Some(which) = which {
            let side = side(style);
            drawing.add(shape(at(left + side / 2.0, middle), side, which));
        }
        let depth = f64::max(line, middle + side(style) / 2.0 + EDGE);
        return Some(Marked { drawing, depth });
    }
    // Below each other.
    let (style, _) = TRIED[TRIED.len() - 1];
    let lines = match letter {
        None => Vec::new(),
        Some(letter) => broken(letter, style, width - 2.0 * EDGE)?,
    };
    let mut drawing = Drawing::new();
    let mut depth = line;
    for letter in lines {
        let middle = at(EDGE, depth + style.cap_height() / 2.0);
        lettered(&mut drawing, middle, style, &letter);
        depth += style.cap_height() + EDGE;
    }
    if let Some(which) = which {
        let side = side(style);
        if side + 2.0 * EDGE > width {
            return None;
        }
        drawing.add(shape(
            at(EDGE + side / 2.0, depth + side / 2.0),
            side,
            which,
        ));
        depth += side + EDGE;
    }
    Some(Marked { drawing, depth })
}

/// Depth of the line with a slot's number, mm.
pub(super) fn line() -> f64 {
    2.0 * EDGE + NAME.cap_height()
}

/// Side of a shape beside a letter, mm; a line of both is as high.
fn side(style: TextStyle) -> f64 {
    f64::max(style.cap_height(), SHAPE)
}

fn lettered(drawing: &mut Drawing, place: Point, style: TextStyle, letter: &str) {
    drawing.text(place, (Across::Start, Along::Middle), style, letter);
}

/// A sign of several letters on as many lines as it needs.
fn broken(letter: &str, style: TextStyle, room: f64) -> Option<Vec<String>> {
    let mut lines: Vec<String> = Vec::new();
    for one in letter.chars() {
        if style.width(&one.to_string()) > room {
            return None;
        }
        match lines.last_mut() {
            Some(line) if style.width(&format!("{line}{one}")) <= room => line.push(one),
            _ => lines.push(one.to_string()),
        }
    }
    Some(lines)
}
