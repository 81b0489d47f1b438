//! The look of everything: the theme, the only place with colours in it, and the fonts.

mod fonts;
pub mod pane;
pub mod row;
mod text;
mod theme;

pub use fonts::{bold, install as install_fonts};
pub use text::{aside, caption, fault, heading, part_heading, remark, words};
pub use theme::{Mode, Theme};

/// Sizes of type on the desk, points.
pub mod size {
    /// Labels of fields and columns.
    pub const CAPTION: f32 = 11.5;
    /// Running text.
    pub const BODY: f32 = 14.0;
    /// Headings within a view.
    pub const HEADING: f32 = 15.0;
    /// The title of a view.
    pub const TITLE: f32 = 19.0;
}
