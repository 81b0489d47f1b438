//! Points and rectangles on paper.

use std::ops::{Add, Mul, Sub};

/// A place, or the way from one place to another: millimetres, x to the right, y down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Millimetres to the right.
    pub x: f64,
    /// Millimetres down.
    pub y: f64,
}

/// The place `x` mm to the right and `y` mm down.
#[must_use]
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Point {
    /// Length of the way from the origin, mm.
    #[must_use]
    pub fn length(self) -> f64 {
        libm::hypot(self.x, self.y)
    }

    /// The same direction with length 1; straight down for no direction at all.
    #[must_use]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 {
            self * (1.0 / length)
        } else {
            at(0.0, 1.0)
        }
    }

    /// A quarter turn clockwise, as seen on the page.
    #[must_use]
    pub fn quarter_turn(self) -> Self {
        at(-self.y, self.x)
    }

    /// Turned clockwise, as seen on the page, by so many degrees about the origin.
    #[must_use]
    pub fn turned(self, degrees: f64) -> Self {
        let (sin, cos) = libm::sincos(degrees.to_radians());
        at(self.x * cos - self.y * sin, self.x * sin + self.y * cos)
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        at(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        at(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        at(self.x * factor, self.y * factor)
    }
}

/// An upright rectangle, mm. `left <= right` and `top <= bottom`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Least x.
    pub left: f64,
    /// Least y.
    pub top: f64,
    /// Greatest x.
    pub right: f64,
    /// Greatest y.
    pub bottom: f64,
}

impl Rect {
    /// The rectangle with its top left corner at `corner`.
    #[must_use]
    pub const fn new(corner: Point, width: f64, height: f64) -> Self {
        Self {
            left: corner.x,
            top: corner.y,
            right: corner.x + width,
            bottom: corner.y + height,
        }
    }

    /// The smallest rectangle with both points in it.
    #[must_use]
    pub const fn between(a: Point, b: Point) -> Self {
        Self {
            left: a.x.min(b.x),
            top: a.y.min(b.y),
            right: a.x.max(b.x),
            bottom: a.y.max(b.y),
        }
    }

    /// The smallest rectangle around all the points, or nothing without points.
    #[must_use]
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points
            .into_iter()
            .map(|point| Self::between(point, point))
            .reduce(Self::union)
    }

    /// Extent from left to right, mm.
    #[must_use]
    pub const fn width(self) -> f64 {
        self.right - self.left
    }

    /// Extent from top to bottom, mm.
    #[must_use]
    pub const fn height(self) -> f64 {
        self.bottom - self.top
    }

    /// The place in the middle.
    #[must_use]
    pub const fn centre(self) -> Point {
        at(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }

    /// The corners: top left, top right, bottom right, bottom left.
    #[must_use]
    pub const fn corners(self) -> [Point; 4] {
        [
            at(self.left, self.top),
            at(self.right, self.top),
            at(self.right, self.bottom),
            at(self.left, self.bottom),
        ]
    }

    /// The smallest rectangle around both.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The rectangle common to both, or nothing where they do not meet.
    #[must_use]
    pub fn intersection(self, other: Self) -> Option<Self> {
        let both = Self {
            left: self.left.max(other.left),
            top: self.top.max(other.top),
            right: self.right.min(other.right),
            bottom: self.bottom.min(other.bottom),
        };
        (both.left <= both.right && both.top <= both.bottom).then_some(both)
    }

    /// Larger by `margin` on every side; a negative margin makes it smaller.
    #[must_use]
    pub const fn grown(self, margin: f64) -> Self {
        Self {
            left: self.left - margin,
            top: self.top - margin,
            right: self.right + margin,
            bottom: self.bottom + margin,
        }
    }

    /// True if all of `inner` is in it. Touching the edge counts as inside.
    #[must_use]
    pub fn holds(self, inner: Self) -> bool {
        inner.left >= self.left
            && inner.right <= self.right
            && inner.top >= self.top
            && inner.bottom <= self.bottom
    }

    /// True if the two share more than an edge.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}
