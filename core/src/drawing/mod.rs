//! Drawings in millimetres, shown alike on screen and paper.
//!
//! A [`Drawing`] is a list of plain shapes whose styles say what they *mean* ([`Ink`]), never which
//! colour they have. x runs to the right and y down; lengths are on paper, so a drawing made at a
//! scale has its geometry multiplied already and its text not. What belongs to one thing of the
//! case is a group with that thing's id and a name for those who cannot see it.
//!
//! Nothing here measures anything clinical: figures arrive as finished text.

mod dimension_stack;
pub mod fonts;
mod geometry;
mod hatch;
mod item;
mod mark;
mod qr;
mod ruler;
mod style;
mod text;

pub use dimension_stack::{DimensionStack, Side, Span};
pub use geometry::{Point, Rect, at};
pub use item::{Drawing, Group, Item};
pub use mark::Mark;
pub use qr::{QrError, qr};
pub use ruler::ruler;
pub use style::{Dash, Ink, LineWeight, Paint, Stroke};
pub use text::{Across, Along, Anchor, Text, TextStyle, pt};
