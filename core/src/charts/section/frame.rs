//! From lengths of the case to places on the drawing.

use crate::dentition::Jaw;
use crate::drawing::{Point, at};

/// A scale: millimetres drawn for each millimetre of the case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    /// Drawn for one.
    pub(super) factor: f64,
    /// As it is written.
    pub(super) ratio: &'static str,
}

const fn scale(factor: f64, ratio: &'static str) -> Scale {
    Scale { factor, ratio }
}

/// The scales that are used, the largest first.
pub(super) const SCALES: [Scale; 14] = [
    scale(10.0, "10 : 1"),
    scale(8.0, "8 : 1"),
    scale(6.0, "6 : 1"),
    scale(5.0, "5 : 1"),
    scale(4.0, "4 : 1"),
    scale(3.0, "3 : 1"),
    scale(2.5, "2.5 : 1"),
    scale(2.0, "2 : 1"),
    scale(1.5, "1.5 : 1"),
    scale(1.25, "1.25 : 1"),
    scale(1.0, "1 : 1"),
    scale(0.75, "0.75 : 1"),
    scale(0.5, "1 : 2"),
    scale(0.25, "1 : 4"),
];

/// Places points of the case on the drawing: the platform's middle is the origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frame {
    /// Drawn for one millimetre.
    pub(super) scale: f64,
    /// Direction of coronal on the page: up (−1) or down (+1).
    coronal: f64,
}

impl Frame {
    /// The frame of a jaw: apical is down in the lower and up in the upper one.
    pub(super) const fn new(scale: Scale, jaw: Jaw) -> Self {
        Self {
            scale: scale.factor,
            coronal: match jaw {
                Jaw::Lower => -1.0,
                Jaw::Upper => 1.0,
            },
        }
    }

    /// The x of a place so far to the right of the axis.
    pub(super) const fn x(self, aside: f64) -> f64 {
        aside * self.scale
    }

    /// The y of a place so far above the platform, along the axis.
    pub(super) const fn y(self, above: f64) -> f64 {
        self.coronal * above * self.scale
    }

    /// The place so far to the right of the axis and so far above the platform.
    pub(super) const fn place(self, aside: f64, above: f64) -> Point {
        at(self.x(aside), self.y(above))
    }

    /// The page's direction towards the apex: down (+1) or up (−1).
    pub(super) const fn apical(self) -> f64 {
        -self.coronal
    }
}
