//! Paper, the part of it that is used, and a page.

use crate::drawing::{Drawing, Rect, at};

/// A size of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    A4,
    /// US letter, 8.5 × 11 inches.
    Letter,
}

impl Paper {
    /// The whole sheet, its top left corner at the origin, mm.
    #[must_use]
    pub const fn rect(self) -> Rect {
        let (width, height) = match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        };
        Rect::new(at(0.0, 0.0), width, height)
    }
}

/// The part of every page into which blocks flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// The paper.
    pub paper: Paper,
    /// Area in which blocks flow, on the paper, mm.
    pub area: Rect,
}

impl Frame {
    /// The paper with so much left free at the sides, at the top and at the bottom, mm.
    #[must_use]
    pub const fn inset(paper: Paper, sides_mm: f64, top_mm: f64, bottom_mm: f64) -> Self {
        let sheet = paper.rect();
        Self {
            paper,
            area: Rect {
                left: sides_mm,
                top: top_mm,
                right: sheet.right - sides_mm,
                bottom: sheet.bottom - bottom_mm,
            },
        }
    }
}

/// One page. Drawings are in the frame of the paper: origin at its top left corner, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// The paper.
    pub paper: Paper,
    /// The title of the part that it belongs to; not drawn from here.
    pub title: String,
    /// The drawing under everything, such as words across the page.
    pub under: Drawing,
    /// The drawing that is read.
    pub over: Drawing,
}

impl Page {
    /// An empty page.
    #[must_use]
    pub fn new(paper: Paper) -> Self {
        Self {
            paper,
            title: String::new(),
            under: Drawing::new(),
            over: Drawing::new(),
        }
    }

    /// The whole page as one drawing, as it is printed.
    #[must_use]
    pub fn drawing(&self) -> Drawing {
        let mut whole = self.under.clone();
        whole.add(self.over.clone());
        whole
    }
}
