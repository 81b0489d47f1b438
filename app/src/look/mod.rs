//! The look of everything: the theme, the only place with colours in it, and the fonts.

mod font;
mod fonts;
pub mod pane;
pub mod row;
mod text;
mod theme;

pub use font::Font;
pub use fonts::{bold, install as install_fonts};
pub use text::{
    aside, caption, fault, heading, part_heading, part_title, remark, reserved, reserved_rows,
    words,
};
pub use theme::{Mode, Theme};
