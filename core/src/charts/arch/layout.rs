//! Shares of the page that the parts of the chart take.

use super::label::{self, Label};
use super::place::Scene;
use super::{ArchOptions, column, number};
use crate::dentition::Side;
use crate::drawing::{Point, Rect, at};

/// Width that a column may always take, mm: a number of eight characters, which is never broken.
pub(super) const LEAST_COLUMN: f64 = 22.5;

/// From the arch to the columns and to what is above and below, mm.
pub(super) const AROUND: f64 = 2.0;

/// The labels by the side they stand on, and how wide each column is; 0 where there is none.
pub(super) struct Columns {
    pub(super) labels: Vec<Label>,
    /// Of the patient's right: on the left.
    pub(super) right_mm: f64,
    /// Of the patient's left: on the right.
    pub(super) left_mm: f64,
}

impl Columns {
    /// Columns as wide as their words, as far as that leaves the arch its part of the width.
    pub(super) fn of(labels: Vec<Label>, width: f64) -> Self {
        let natural = |side| {
            let here = labels.iter().filter(|label| label.side == side);
            here.map(Label::natural_width).reduce(f64::max)
        };
        let (right, left) = (natural(Side::Right), natural(Side::Left));
        // A column takes no more of the width than leaves the arch the larger part.
        let share = if right.is_some() && left.is_some() {
            0.24
        } else {
            0.33
        };
        let most = (width * share).max(LEAST_COLUMN);
        let column = |words: Option<f64>| {
            words.map_or(0.0, |words| (words + label::BESIDE + 0.01).min(most))
        };
        Self::wide(labels, column(right), column(left))
    }

    pub(super) fn wide(labels: Vec<Label>, right_mm: f64, left_mm: f64) -> Self {
        let labels = labels
            .into_iter()
            .map(|label| {
                let column = match label.side {
                    Side::Right => right_mm,
                    Side::Left => left_mm,
                };
                label.wrapped(column - label::BESIDE)
            })
            .collect();
        Self {
            labels,
            right_mm,
            left_mm,
        }
    }

    /// The height of the higher column, mm.
    fn height(&self) -> f64 {
        self.stacked(Side::Right).max(self.stacked(Side::Left))
    }

    /// The height of a column, mm.
    pub(super) fn stacked(&self, side: Side) -> f64 {
        let here = self.labels.iter().filter(|label| label.side == side);
        column::stacked(here.map(|label| label.block(at(0.0, 0.0)).height))
    }
}

/// The range of heights in which words may be placed in a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lane {
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// The mapping of the mouth's millimetres to the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    pub(super) scale: f64,
    /// The incisal midpoint on the page.
    pub(super) origin: Point,
    /// Room that the arch, its columns aside, may take.
    pub(super) room: Rect,
    /// Lanes for words on the patient's right and on the left.
    pub(super) lanes: [Lane; 2],
}

impl View {
    /// As large as the width allows.
    pub(super) fn fit(
        scene: &Scene,
        options: &ArchOptions<'_>,
        columns: &Columns,
        width: f64,
        top: f64,
    ) -> Self {
        let (left, right) = (columns.right_mm, width - columns.left_mm);
        let margin = margin(scene, options);
        let bounds = scene.bounds();
        let scale = (right - left - 2.0 * margin.x) / bounds.width();
        let height = (bounds.height() * scale + 2.0 * margin.y).max(columns.height());
        let room = Rect::new(at(left, top), right - left, height);
        let lane = Lane {
            top: room.top,
            bottom: room.bottom,
        };
        Self::centred(bounds, scale, room, [lane; 2])
    }

    pub(super) fn centred(bounds: Rect, scale: f64, room: Rect, lanes: [Lane; 2]) -> Self {
        Self {
            scale,
            origin: room.centre() - bounds.centre() * scale,
            room,
            lanes,
        }
    }

    pub(super) fn point(&self, point: Point) -> Point {
        self.origin + point * self.scale
    }

    pub(super) fn ring(&self, ring: &[Point]) -> Vec<Point> {
        ring.iter().map(|&point| self.point(point)).collect()
    }

    /// The place of the mouth that lies at a point of the page.
    pub(super) fn mouth_from_page(&self, point: Point) -> Point {
        (point - self.origin) * (1.0 / self.scale)
    }
}

/// Margin that numbers take around the teeth, mm.
pub(super) fn margin(scene: &Scene, options: &ArchOptions<'_>) -> Point {
    let numbers: Vec<String> = scene
        .teeth
        .iter()
        .map(|tooth| options.notation.show(tooth.position))
        .collect();
    let (aside, above) = number::margin(numbers.iter().map(String::as_str));
    at(aside + AROUND, above + AROUND)
}
