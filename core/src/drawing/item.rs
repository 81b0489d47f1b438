//! The shapes that a drawing is made of.

use super::fonts::{self, MissingGlyph};
use super::geometry::{Point, Rect, at};
use super::style::{Paint, Stroke};
use super::text::{Anchor, Text, TextStyle};
use std::borrow::Cow;

/// One shape, or several that belong together.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// An open line through two or more points.
    Line {
        /// Its points, in order.
        points: Vec<Point>,
        /// Its style.
        stroke: Stroke,
    },
    /// A closed shape. Where rings overlap an even number of times there is a hole.
    Polygon {
        /// Its rings; each is closed by itself.
        rings: Vec<Vec<Point>>,
        /// Its style.
        paint: Paint,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius, mm.
        radius: f64,
        /// Its style.
        paint: Paint,
    },
    /// Part of a circle's line.
    Arc {
        /// The circle's centre.
        centre: Point,
        /// The circle's radius, mm.
        radius: f64,
        /// Its beginning, degrees clockwise from the right.
        start_deg: f64,
        /// Its extent from there, degrees clockwise.
        sweep_deg: f64,
        /// Its style.
        stroke: Stroke,
    },
    /// A line of text.
    Text(Text),
    /// Items of which only the part in a rectangle is shown.
    Clip {
        /// The rectangle.
        region: Rect,
        /// The items.
        items: Vec<Item>,
    },
    /// Items that show one thing of the case.
    Group(Group),
}

/// Items that show one thing of the case.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The thing's id, as the caller names it, such as a site's id. Not shown.
    pub id: String,
    /// Description of the group for a screen reader.
    pub name: String,
    /// The items.
    pub items: Vec<Item>,
}

/// A drawing: items in the order in which they are laid over each other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    items: Vec<Item>,
}

impl Drawing {
    /// An empty drawing.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Its items, the lowest first.
    #[must_use]
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// True if there is nothing on it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.items.is_empty()
    }

    /// Lays an item on top.
    pub fn push(&mut self, item: Item) {
        self.items.push(item);
    }

    /// Lays another drawing on top, in the same frame.
    pub fn add(&mut self, other: Self) {
        self.items.extend(other.items);
    }

    /// Lays another drawing on top, its origin at `place`.
    pub fn add_at(&mut self, place: Point, other: Self) {
        self.add(other.moved(place));
    }

    /// Lays another drawing on top as the picture of one thing of the case.
    pub fn add_group(&mut self, id: impl Into<String>, name: impl Into<String>, other: Self) {
        self.push(Item::Group(Group {
            id: id.into(),
            name: name.into(),
            items: other.items,
        }));
    }

    /// Adds on top the part of another drawing that is in `region`.
    pub fn add_clipped(&mut self, region: Rect, other: Self) {
        self.push(Item::Clip {
            region,
            items: other.items,
        });
    }

    /// Draws a straight line.
    pub fn line(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.polyline([from, to], stroke);
    }

    /// Draws an open line through points.
    pub fn polyline(&mut self, points: impl IntoIterator<Item = Point>, stroke: Stroke) {
        self.push(Item::Line {
            points: points.into_iter().collect(),
            stroke,
        });
    }

    /// Draws a closed shape.
    pub fn polygon(&mut self, points: impl IntoIterator<Item = Point>, paint: Paint) {
        self.push(Item::Polygon {
            rings: vec![points.into_iter().collect()],
            paint,
        });
    }

    /// Draws a rectangle.
    pub fn rect(&mut self, rect: Rect, paint: Paint) {
        self.polygon(rect.corners(), paint);
    }

    /// Draws a circle.
    pub fn circle(&mut self, centre: Point, radius: f64, paint: Paint) {
        self.push(Item::Circle {
            centre,
            radius,
            paint,
        });
    }

    /// Draws part of a circle's line, from `start_deg` over `sweep_deg`, degrees clockwise from
    /// the right.
    pub fn arc(
        &mut self,
        centre: Point,
        radius: f64,
        start_deg: f64,
        sweep_deg: f64,
        stroke: Stroke,
    ) {
        self.push(Item::Arc {
            centre,
            radius,
            start_deg,
            sweep_deg,
            stroke,
        });
    }

    /// Writes one line of text.
    pub fn text(
        &mut self,
        place: Point,
        anchor: Anchor,
        style: TextStyle,
        content: impl Into<String>,
    ) {
        self.text_turned(place, anchor, style, content, 0.0);
    }

    /// Writes one line of text, turned clockwise about its place.
    pub fn text_turned(
        &mut self,
        place: Point,
        anchor: Anchor,
        style: TextStyle,
        content: impl Into<String>,
        turn_deg: f64,
    ) {
        self.push(Item::Text(Text {
            place,
            anchor,
            content: content.into(),
            style,
            turn_deg,
        }));
    }

    /// The drawing moved by `way`.
    #[must_use]
    pub fn moved(self, way: Point) -> Self {
        self.mapped(&|point| point + way, 1.0)
    }

    /// The drawing with its geometry scaled about the origin; text keeps its size.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        self.mapped(&|point| point * factor, factor)
    }

    fn mapped(self, to: &impl Fn(Point) -> Point, factor: f64) -> Self {
        Self {
            items: self
                .items
                .into_iter()
                .map(|item| item.mapped(to, factor))
                .collect(),
        }
    }

    /// The rectangle around everything, without the thickness of lines; nothing when empty.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        bounds(&self.items)
    }

    /// Calls `look` with every shape and text, those in groups and clips too, and with the
    /// rectangle that clips it, if any.
    pub fn visit<'a>(&'a self, look: &mut impl FnMut(&'a Item, Option<Rect>)) {
        visit(&self.items, None, look);
    }

    /// Every line of text, in drawing order.
    #[must_use]
    pub fn texts(&self) -> Vec<&Text> {
        let mut texts = Vec::new();
        self.visit(&mut |item, _| {
            if let Item::Text(text) = item {
                texts.push(text);
            }
        });
        texts
    }

    /// Puts the replacement character in the place of whatever no bundled font can show, as it is measured.
    pub fn stand_in(&mut self) {
        stand_in(&mut self.items);
    }

    /// True if the bundled fonts can show all its text.
    ///
    /// # Errors
    ///
    /// The first character that cannot be shown.
    pub fn coverage(&self) -> Result<(), MissingGlyph> {
        self.texts()
            .into_iter()
            .try_for_each(|text| fonts::shape(&text.content, text.style.face).map(drop))
    }
}

impl Item {
    fn mapped(self, to: &impl Fn(Point) -> Point, factor: f64) -> Self {
        let all = |items: Vec<Self>| {
            items
                .into_iter()
                .map(|item| item.mapped(to, factor))
                .collect()
        };
        match self {
            Self::Line { points, stroke } => Self::Line {
                points: points.into_iter().map(to).collect(),
                stroke,
            },
            Self::Polygon { rings, paint } => Self::Polygon {
                rings: rings
                    .into_iter()
                    .map(|ring| ring.into_iter().map(to).collect())
                    .collect(),
                paint,
            },
            Self::Circle {
                centre,
                radius,
                paint,
            } => Self::Circle {
                centre: to(centre),
                radius: radius * factor,
                paint,
            },
            Self::Arc {
                centre,
                radius,
                start_deg,
                sweep_deg,
                stroke,
            } => Self::Arc {
                centre: to(centre),
                radius: radius * factor,
                start_deg,
                sweep_deg,
                stroke,
            },
            Self::Text(text) => Self::Text(Text {
                place: to(text.place),
                ..text
            }),
            Self::Clip { region, items } => {
                let [corner, _, opposite, _] = region.corners();
                Self::Clip {
                    region: Rect::between(to(corner), to(opposite)),
                    items: all(items),
                }
            }
            Self::Group(group) => Self::Group(Group {
                items: all(group.items),
                ..group
            }),
        }
    }

    /// The rectangle around it, without the thickness of lines; nothing when it shows nothing.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        match self {
            Self::Line { points, .. } => Rect::around(points.iter().copied()),
            Self::Polygon { rings, .. } => Rect::around(rings.iter().flatten().copied()),
            Self::Circle { centre, radius, .. } => {
                Some(Rect::between(*centre, *centre).grown(*radius))
            }
            Self::Arc {
                centre,
                radius,
                start_deg,
                sweep_deg,
                ..
            } => Rect::around(
                arc_extremes(*start_deg, *sweep_deg)
                    .into_iter()
                    .map(|deg| *centre + at(*radius, 0.0).turned(deg)),
            ),
            Self::Text(text) => Some(text.bounds()),
            Self::Clip { region, items } => bounds(items)?.intersection(*region),
            Self::Group(group) => bounds(&group.items),
        }
    }
}

/// The directions in which an arc reaches farthest: its ends and the quarters that it passes.
fn arc_extremes(start_deg: f64, sweep_deg: f64) -> Vec<f64> {
    let (low, high) = if sweep_deg < 0.0 {
        (start_deg + sweep_deg, start_deg)
    } else {
        (start_deg, start_deg + sweep_deg)
    };
    let mut degrees = vec![low, high];
    let mut quarter = libm::ceil(low / 90.0) * 90.0;
    while quarter < high && degrees.len() < 8 {
        degrees.push(quarter);
        quarter += 90.0;
    }
    degrees
}

fn bounds(items: &[Item]) -> Option<Rect> {
    items.iter().filter_map(Item::bounds).reduce(Rect::union)
}

fn visit<'a>(items: &'a [Item], clip: Option<Rect>, look: &mut impl FnMut(&'a Item, Option<Rect>)) {
    for item in items {
        match item {
            Item::Group(group) => visit(&group.items, clip, look),
            Item::Clip { region, items } => {
                // Two clips that do not meet show nothing.
                let both = clip.map_or(Some(*region), |outer| outer.intersection(*region));
                if both.is_some() {
                    visit(items, both, look);
                }
            }
            shape => look(shape, clip),
        }
    }
}

fn stand_in(items: &mut [Item]) {
    for item in items {
        match item {
            Item::Group(group) => stand_in(&mut group.items),
            Item::Clip { items, .. } => stand_in(items),
            Item::Text(text) => {
                if let Cow::Owned(shown) = fonts::shown(&text.content, text.style.face) {
                    text.content = shown;
                }
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::style::Ink;
    use super::super::text::{Across, Along};
    use super::*;

    fn close(a: Rect, b: Rect) -> bool {
        [
            a.left - b.left,
            a.top - b.top,
            a.right - b.right,
            a.bottom - b.bottom,
        ]
        .iter()
        .all(|d| d.abs() < 1e-9)
    }

    #[test]
    fn bounds_hold_every_kind_of_shape() {
        let mut drawing = Drawing::new();
        assert_eq!(drawing.bounds(), None);
        drawing.arc(at(0.0, 0.0), 2.0, 45.0, 90.0, Stroke::THIN);
        // An arc from 45° to 135° clockwise passes straight down.
        let half = libm::sqrt(2.0);
        let arc = Rect {
            left: -half,
            top: half,
            right: half,
            bottom: 2.0,
        };
        assert!(close(drawing.bounds().unwrap(), arc));
        drawing.circle(at(5.0, 0.0), 1.0, Paint::fill(Ink::Bone));
        let mut hidden = Drawing::new();
        hidden.line(at(-100.0, -3.0), at(100.0, -3.0), Stroke::THIN);
        drawing.add_clipped(Rect::new(at(-4.0, -4.0), 8.0, 2.0), hidden);
        let all = Rect {
            left: -4.0,
            top: -3.0,
            right: 6.0,
            bottom: 2.0,
        };
        assert!(close(drawing.bounds().unwrap(), all));
    }

    #[test]
    fn moving_and_scaling_change_the_bounds_alike_and_leave_text_its_size() {
        let mut drawing = Drawing::new();
        drawing.circle(at(1.0, 2.0), 1.0, Paint::fill(Ink::Bone));
        drawing.text(
            at(0.0, 0.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            "stop",
        );
        let width = drawing.texts()[0].width();
        let scaled = drawing.scaled(3.0).moved(at(10.0, 0.0));
        assert!((scaled.texts()[0].width() - width).abs() < 1e-12);
        let expected = Rect::new(at(10.0, 3.0), 6.0, 6.0);
        assert!(close(scaled.items()[0].bounds().unwrap(), expected));
    }

    #[test]
    fn a_turned_text_has_turned_bounds() {
        let text = Text {
            place: at(0.0, 0.0),
            anchor: (Across::Start, Along::Baseline),
            content: "HHHH".to_owned(),
            style: TextStyle::BODY,
            turn_deg: 90.0,
        };
        let bounds = text.bounds();
        assert!((bounds.height() - text.width()).abs() < 1e-9);
        assert!((bounds.width() - text.style.cap_height()).abs() < 1e-9);
        assert!(bounds.top.abs() < 1e-9 && bounds.bottom > 0.0);
    }

    #[test]
    fn visiting_reaches_into_groups_and_gives_the_clip() {
        let mut inner = Drawing::new();
        inner.text(
            at(0.0, 0.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            "within",
        );
        let mut drawing = Drawing::new();
        let region = Rect::new(at(0.0, 0.0), 5.0, 5.0);
        let mut clipped = Drawing::new();
        clipped.add_group("site-1", "lower right first molar", inner);
        drawing.add_clipped(region, clipped);
        let mut seen = Vec::new();
        drawing.visit(&mut |_, clip| seen.push(clip));
        assert_eq!(seen, [Some(region)]);
        assert_eq!(drawing.texts()[0].content, "within");
    }

    #[test]
    fn a_drawing_with_a_character_that_no_font_has_is_refused() {
        let mut drawing = Drawing::new();
        drawing.text(
            at(0.0, 0.0),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            "山",
        );
        assert_eq!(drawing.coverage().unwrap_err().character, '山');
        drawing.stand_in();
        drawing.coverage().unwrap();
        let texts = drawing.texts();
        assert!(texts.iter().any(|text| text.content.contains('\u{FFFD}')));
    }
}
