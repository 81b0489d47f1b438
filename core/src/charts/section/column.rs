//! The column beside the picture: names, verdicts and the setting, none on another, each tied to
//! what it names.

use crate::charts::lines::Lines;
use crate::drawing::{Across, Drawing, Point, Rect, Stroke, at};

/// From the picture to the words, mm: room for the ties.
const TIE: f64 = 4.2;
/// From the end of a tie to its words, mm.
const TIE_GAP: f64 = 0.7;
/// From the picture to the words with their gap, mm.
pub(super) const TIES: f64 = TIE + TIE_GAP;
/// Least room between two entries, mm.
const ENTRY_GAP: f64 = 1.5;

/// An entry of the column.
pub(super) struct Entry {
    /// Wanted place of its first line, y on the page.
    pub(super) wanted: f64,
    /// Beginning of its tie; nothing for what needs none.
    pub(super) from: Option<Point>,
    /// The text.
    pub(super) lines: Lines,
    /// Its alignment.
    pub(super) side: Across,
    /// Id of what it belongs to.
    pub(super) id: String,
    /// The text in one sentence.
    pub(super) name: String,
}

/// Entries in their places.
pub(super) struct Column {
    entries: Vec<(Entry, f64)>,
    left: f64,
    right: f64,
    picture: f64,
}

impl Column {
    /// Places entries beside a picture whose right edge is given.
    pub(super) fn place(mut entries: Vec<Entry>, picture: f64, width: f64) -> Self {
        entries.retain(|entry| !entry.lines.is_empty());
        entries.sort_by(|a, b| a.wanted.total_cmp(&b.wanted));
        let wanted: Vec<(f64, f64)> = entries
            .iter()
            .map(|entry| (entry.wanted, entry.lines.height() + ENTRY_GAP))
            .collect();
        let left = picture + TIES;
        Self {
            entries: entries.into_iter().zip(apart(&wanted)).collect(),
            left,
            right: left + width,
            picture,
        }
    }

    /// Its right edge, x on the page.
    pub(super) const fn right(&self) -> f64 {
        self.right
    }

    fn x(&self, side: Across) -> f64 {
        match side {
            Across::Start => self.left,
            Across::Middle => f64::midpoint(self.left, self.right),
            Across::End => self.right,
        }
    }

    fn rect(&self, entry: &Entry, middle: f64) -> Rect {
        let top = middle - entry.lines.height() / 2.0;
        entry.lines.rect(self.x(entry.side), top, entry.side)
    }

    /// A level line from one x to another, broken where words are.
    pub(super) fn level(&self, drawing: &mut Drawing, y: f64, from: f64, to: f64, stroke: Stroke) {
        let mut breaks: Vec<(f64, f64)> = self
            .entries
            .iter()
            .map(|(entry, middle)| self.rect(entry, *middle).grown(0.8))
            .filter(|rect| rect.top < y && y < rect.bottom)
            .map(|rect| (rect.left, rect.right))
            .collect();
        breaks.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut x = from;
        for (near, far) in breaks {
            if near > x {
                drawing.line(at(x, y), at(near.min(to), y), stroke);
            }
            x = x.max(far);
        }
        if x < to {
            drawing.line(at(x, y), at(to, y), stroke);
        }
    }

    /// The words with their ties.
    pub(super) fn draw(&self) -> Drawing {
        let mut drawing = Drawing::new();
        for (entry, middle) in &self.entries {
            let rect = self.rect(entry, *middle);
            let mut shape = Drawing::new();
            if let Some(from) = entry.from {
                let foot = self.left - TIE_GAP;
                let y = rect.centre().y;
                let bend = at(self.picture.max(from.x), from.y);
                shape.polyline([from, bend, at(foot, y)], Stroke::HAIRLINE);
            }
            shape.add(entry.lines.draw(self.x(entry.side), rect.top, entry.side));
            drawing.add_group(entry.id.clone(), entry.name.clone(), shape);
        }
        drawing
    }
}

/// Moves intervals, given by wanted middle and length in ascending order, apart as little as
/// needed; those that push each other are centred on the mean of what they wanted.
fn apart(wanted: &[(f64, f64)]) -> Vec<f64> {
    // Each cluster: where it begins, how long it is, and how many it holds.
    let mut clusters: Vec<(f64, f64, Vec<f64>)> = Vec::new();
    for &(middle, length) in wanted {
        let mut next = (middle - length / 2.0, length, vec![length]);
        while let Some(last) = clusters.pop() {
            if last.0 + last.1 <= next.0 {
                clusters.push(last);
                break;
            }
            let length = last.1 + next.1;
            let centre =
                ((last.0 + last.1 / 2.0) * last.1 + (next.0 + next.1 / 2.0) * next.1) / length;
            let members = last.2.into_iter().chain(next.2).collect();
            next = (centre - length / 2.0, length, members);
        }
        clusters.push(next);
    }
    let mut middles = Vec::new();
    for (mut start, _, members) in clusters {
        for length in members {
            middles.push(start + length / 2.0);
            start += length;
        }
    }
    middles
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn intervals_keep_their_order_and_never_overlap(
            mut wanted in prop::collection::vec((0.0..60.0_f64, 0.5..15.0_f64), 1..9),
        ) {
            wanted.sort_by(|a, b| a.0.total_cmp(&b.0));
            let placed = apart(&wanted);
            prop_assert_eq!(placed.len(), wanted.len());
            for index in 1..placed.len() {
                let room = f64::midpoint(wanted[index - 1].1, wanted[index].1);
                prop_assert!(placed[index] - placed[index - 1] >= room - 1e-9);
            }
        }
    }

    #[test]
    fn what_has_room_stays_where_it_wants_to_be() {
        let placed = apart(&[(0.0, 2.0), (10.0, 4.0), (11.0, 4.0), (30.0, 1.0)]);
        assert_eq!(placed, [0.0, 8.5, 12.5, 30.0]);
    }
}
