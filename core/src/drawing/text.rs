//! A line of text on a drawing.

use super::fonts::{self, Face};
use super::geometry::{Point, Rect, at};
use super::style::Ink;

/// Size, face and meaning of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextStyle {
    /// Size of the type (its em), mm.
    pub size_mm: f64,
    /// Regular or bold.
    pub face: Face,
    /// Its meaning.
    pub ink: Ink,
}

/// Millimetres in so many typographic points of 1/72 inch.
#[must_use]
pub const fn pt(points: f64) -> f64 {
    points * 25.4 / 72.0
}

impl TextStyle {
    /// Labels of fields and columns.
    pub const CAPTION: Self = Self::new(pt(7.0), Face::Regular, Ink::Soft);
    /// Remarks.
    pub const NOTE: Self = Self::new(pt(8.0), Face::Regular, Ink::Soft);
    /// Running text.
    pub const BODY: Self = Self::new(pt(9.0), Face::Regular, Ink::Strong);
    /// Running text that matters.
    pub const STRONG: Self = Self::new(pt(9.0), Face::Bold, Ink::Strong);
    /// A heading within a page.
    pub const HEADING: Self = Self::new(pt(11.0), Face::Bold, Ink::Strong);
    /// The title of a page.
    pub const TITLE: Self = Self::new(pt(18.0), Face::Bold, Ink::Strong);
    /// A figure to act on.
    pub const FIGURE: Self = Self::new(pt(20.0), Face::Bold, Ink::Strong);

    /// A style from its parts.
    #[must_use]
    pub const fn new(size_mm: f64, face: Face, ink: Ink) -> Self {
        Self { size_mm, face, ink }
    }

    /// The same style in another size, mm.
    #[must_use]
    pub const fn sized(self, size_mm: f64) -> Self {
        Self { size_mm, ..self }
    }

    /// The same style in another meaning.
    #[must_use]
    pub const fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same style in bold.
    #[must_use]
    pub const fn bold(self) -> Self {
        Self {
            face: Face::Bold,
            ..self
        }
    }

    /// Height of a capital or a figure, mm.
    #[must_use]
    pub const fn cap_height(self) -> f64 {
        self.size_mm * fonts::CAP_HEIGHT
    }

    /// From one baseline to the next in running text, mm: the highest accented capital (1.11 of
    /// the size) clears the deepest letter (0.26) of the line above.
    #[must_use]
    pub const fn line_height(self) -> f64 {
        self.size_mm * 1.4
    }

    /// From the top of a line to its baseline, mm.
    #[must_use]
    pub const fn ascent(self) -> f64 {
        self.size_mm * 1.12
    }

    /// Width of one line, mm.
    #[must_use]
    pub fn width(self, text: &str) -> f64 {
        fonts::width(text, self.face, self.size_mm)
    }
}

/// The point of a line of text that its place names, from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Across {
    /// The text begins at the place.
    Start,
    /// The text is centred on the place.
    Middle,
    /// The text ends at the place.
    End,
}

/// The point of a line of text that its place names, from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// The line under the letters.
    Baseline,
    /// Half the height of a capital.
    Middle,
    /// The top of a capital.
    Top,
}

/// The point of a line of text that its place names.
pub type Anchor = (Across, Along);

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Its anchor point.
    pub place: Point,
    /// The point of the text that is at `place`.
    pub anchor: Anchor,
    /// The text.
    pub content: String,
    /// Its style.
    pub style: TextStyle,
    /// Turned clockwise about its place, degrees.
    pub turn_deg: f64,
}

impl Text {
    /// Width, mm, along its own direction.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.style.width(&self.content)
    }

    /// The beginning of its baseline.
    #[must_use]
    pub fn origin(&self) -> Point {
        self.place + self.offset().turned(self.turn_deg)
    }

    /// From its place to the start of its baseline, before turning.
    fn offset(&self) -> Point {
        let x = match self.anchor.0 {
            Across::Start => 0.0,
            Across::Middle => -self.width() / 2.0,
            Across::End => -self.width(),
        };
        let y = match self.anchor.1 {
            Along::Baseline => 0.0,
            Along::Middle => self.style.cap_height() / 2.0,
            Along::Top => self.style.cap_height(),
        };
        at(x, y)
    }

    /// The four corners of what it blackens: as wide as the line, as high as its glyphs.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let (above, below) = fonts::ink_extent(&self.content, self.style.face, self.style.size_mm);
        let origin = self.offset();
        Rect {
            left: origin.x,
            top: origin.y - above,
            right: origin.x + self.width(),
            bottom: origin.y + below,
        }
        .corners()
        .map(|corner| self.place + corner.turned(self.turn_deg))
    }

    /// The upright rectangle around it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        Rect::around(self.corners()).unwrap_or(Rect::between(self.place, self.place))
    }
}
