//! The content of one slot: as much as fits, in the largest type that does.

use super::super::marking::marking;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Rect, Stroke, TextStyle, at, fonts, pt,
};
use crate::kit::Marking;

/// The content of one slot.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SlotContent {
    /// The slot's call-out name.
    pub(super) slot: String,
    /// In the order of loading, from 1.
    pub(super) number: String,
    /// The thing in it.
    pub(super) thing: String,
    /// Its marking.
    pub(super) marking: Marking,
    /// Its setting, or the words that it is not known; nothing for what is not set.
    pub(super) setting: Option<SlotSetting>,
}

/// A setting as it is written in a slot.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SlotSetting {
    /// Its name and its unit.
    pub(super) label: String,
    /// Its figure, or the word that it is not known.
    pub(super) shown: String,
    /// The setting is known, or it is not.
    pub(super) known: Known,
}

/// Known or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Known {
    Yes,
    No,
}

/// The part of a slot's content that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Level {
    /// All of it.
    Whole,
    /// All but the thing's name.
    Unnamed,
    /// The slot's name and the number.
    Head,
    /// The number alone.
    Number,
}

impl Level {
    const ALL: [Self; 4] = [Self::Whole, Self::Unnamed, Self::Head, Self::Number];
}

/// Sizes of type that are tried, the largest first.
const SIZES: [f64; 5] = [pt(9.0), pt(8.0), pt(7.0), pt(6.0), pt(5.5)];

/// From the slot's edge to its words, mm.
const EDGE: f64 = 0.5;

/// A drawing from y = 0 down, with its height.
struct Stack {
    drawing: Drawing,
    width: f64,
    height: f64,
    fits: bool,
}

impl Stack {
    fn new(width: f64) -> Self {
        Self {
            drawing: Drawing::new(),
            width,
            height: 0.0,
            fits: true,
        }
    }

    /// Adds wrapped words. A word that would have to be broken within its parts does not fit.
    fn words(&mut self, text: &str, style: TextStyle) {
        for line in fonts::wrap(text, style.face, style.size_mm, self.width) {
            let place = at(0.0, self.height + style.ascent());
            self.drawing
                .text(place, (Across::Start, Along::Baseline), style, line);
            self.height += style.line_height();
        }
        let mut parts = fonts::pieces(text).into_iter();
        self.fits &= parts.all(|part| style.width(part.trim_end()) <= self.width);
    }

    /// The slot's name and the number in a ring, as parts are numbered on a drawing, on one line
    /// where both fit, else one below the other; the marking beside the ring, or below it.
    fn head(&mut self, content: &SlotContent, which: Option<&Marking>, size: f64) {
        let name = NAME.sized(size * 0.85);
        let ring = ring_radius(&content.number, size);
        let marking = which.and_then(|which| marking(which, MARKING.sized(size)));
        if name.width(&content.slot) + 2.0 * ring + size * 0.4 <= self.width {
            let place = at(0.0, self.height + ring);
            let anchor = (Across::Start, Along::Middle);
            self.drawing.text(place, anchor, name, &content.slot);
            self.ringed(&content.number, size, self.width - ring);
            self.row(marking, size);
        } else {
            self.words(&content.slot, name);
            self.height += size * 0.15;
            let middle = self.height + ring;
            let beside = 2.0 * ring + 0.5;
            self.ringed(&content.number, size, ring);
            match marking {
                Some((drawing, width)) if beside + width <= self.width => {
                    self.drawing.add_at(at(beside, middle), drawing);
                }
                other => self.row(other, size),
            }
        }
    }

    /// A marking on a row of its own.
    fn row(&mut self, marking: Option<(Drawing, f64)>, size: f64) {
        if let Some((drawing, width)) = marking {
            let row = MARKING.sized(size).line_height().max(2.0 + size * 0.3);
            self.fits &= width <= self.width;
            self.drawing
                .add_at(at(0.0, self.height + row / 2.0), drawing);
            self.height += row;
        }
    }

    /// A number in a ring about x = `middle`.
    fn ringed(&mut self, number: &str, size: f64, middle: f64) {
        let ring = ring_radius(number, size);
        let centre = at(middle, self.height + ring);
        self.fits &= 2.0 * ring <= self.width;
        let line = Stroke::new(Ink::Strong, LineWeight::Thin);
        self.drawing.circle(centre, ring, Paint::outline(line));
        let anchor = (Across::Middle, Along::Middle);
        self.drawing
            .text(centre, anchor, NUMBER.sized(size), number);
        self.height += 2.0 * ring + size * 0.3;
    }

    fn setting(&mut self, set: &SlotSetting, size: f64) {
        self.words(&set.label, NAME.sized(size * 0.85));
        match set.known {
            Known::Yes => self.words(&set.shown, TextStyle::STRONG.sized(size * 1.35)),
            Known::No => self.words(&set.shown, TextStyle::BODY.sized(size)),
        }
    }

    fn fits(&self, room: Rect) -> bool {
        self.fits && self.height <= room.height()
    }
}

const NAME: TextStyle = TextStyle::CAPTION;
const NUMBER: TextStyle = TextStyle::STRONG;
const MARKING: TextStyle = TextStyle::STRONG;

/// Radius of the ring around a number, mm: the same for all of one or two figures.
fn ring_radius(number: &str, size: f64) -> f64 {
    let style = NUMBER.sized(size);
    let width = style.width(number).max(style.width("00"));
    libm::hypot(width, style.cap_height()) / 2.0 + size * 0.1
}

/// The part of a slot that words may take.
fn room_of(area: Rect) -> Rect {
    // A narrow slot, as for a pin, needs its width for its name.
    let edge = EDGE.min(area.width() / 12.0).min(area.height() / 12.0);
    area.grown(-edge)
}

/// A slot's content at a level, in type of a size, in a column of a width.
fn stack(content: &SlotContent, level: Level, size: f64, width: f64) -> Stack {
    let mut stack = Stack::new(width);
    match level {
        Level::Number => {
            let ring = ring_radius(&content.number, size);
            stack.ringed(&content.number, size, ring.max(width / 2.0));
            return stack;
        }
        Level::Head => stack.head(content, None, size),
        Level::Whole | Level::Unnamed => stack.head(content, Some(&content.marking), size),
    }
    if level == Level::Whole {
        stack.words(&content.thing, TextStyle::BODY.sized(size));
    }
    if let Some(set) = content.setting.as_ref().filter(|_| level != Level::Head) {
        stack.setting(set, size);
    }
    stack
}

/// The most that fits in a slot, and the largest type in which it does; nothing where not even the
/// number fits.
pub(super) fn best(content: &SlotContent, area: Rect) -> Option<(Level, f64)> {
    let room = room_of(area);
    let fits = |&(level, size): &(Level, f64)| stack(content, level, size, room.width()).fits(room);
    let tries = Level::ALL
        .into_iter()
        .flat_map(|level| SIZES.into_iter().map(move |size| (level, size)));
    tries.into_iter().find(fits)
}

/// Writes a filled slot's content at a level, in type of a size.
pub(super) fn draw(
    drawing: &mut Drawing,
    content: &SlotContent,
    (level, size): (Level, f64),
    area: Rect,
) {
    let room = room_of(area);
    let stack = stack(content, level, size, room.width());
    debug_assert!(stack.fits(room), "smaller type than the best fits too");
    drawing.add_at(at(room.left, room.top), stack.drawing);
}

/// The largest type in which the name of an empty slot fits, if any.
pub(super) fn best_name(name: &str, area: Rect) -> Option<f64> {
    let room = room_of(area);
    SIZES
        .into_iter()
        .find(|&size| name_alone(name, size, room.width()).fits(room))
}

/// Writes the name of an empty slot.
pub(super) fn draw_name(drawing: &mut Drawing, name: &str, size: f64, area: Rect) {
    let room = room_of(area);
    let stack = name_alone(name, size, room.width());
    drawing.add_at(at(room.left, room.top), stack.drawing);
}

fn name_alone(name: &str, size: f64, width: f64) -> Stack {
    let mut stack = Stack::new(width);
    stack.words(name, NAME.sized(size * 0.85).inked(Ink::Faint));
    stack
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::Shape;
    use proptest::prelude::*;

    prop_compose! {
        fn any_content()(
            slot in "[A-Z][a-z]{0,5}( [1-9])?",
            number in 1..60_u32,
            thing in "[a-z]{2,8}( [a-z]{2,8}){0,2}",
            letter in prop::option::of("[A-Z]{1,2}"),
            shape in prop::option::of(Just(Shape::Ring)),
            set in prop::option::of(10..300_u32),
        ) -> SlotContent {
            SlotContent {
                slot,
                number: number.to_string(),
                thing,
                marking: Marking { colour: None, letter, shape },
                setting: set.map(|tenths| SlotSetting {
                    label: "set, mm".to_owned(),
                    shown: format!("{}.{}", tenths / 10, tenths % 10),
                    known: Known::Yes,
                }),
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        /// Room is never lost on words that would fit otherwise.
        #[test]
        fn a_larger_slot_never_shows_less(
            content in any_content(),
            (width, height) in (3.0..20.0_f64, 3.0..30.0_f64),
            factor in 1.0..1.2_f64,
        ) {
            let area = |factor: f64| Rect::new(at(0.0, 0.0), width * factor, height * factor);
            let level = |area| best(&content, area).map(|(level, _)| level);
            if let Some(small) = level(area(1.0)) {
                let large = level(area(factor));
                prop_assert!(large.is_some_and(|large| large <= small), "{small:?}, {large:?}");
            }
        }
    }
}
