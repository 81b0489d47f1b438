//! Pages of drawings, text and tables, and the PDF they become.
//!
//! Layout is done in millimetres with the same measured text as on screen and knows nothing of PDF:
//! blocks are laid out as strips, strips flow onto pages, and [`check`] proves that no text leaves
//! its page or overlaps another. Only [`pdf`] knows how a page is written.

mod block;
mod check;
pub mod checklist;
mod error;
mod flow;
mod furniture;
mod page;
pub mod pdf;
mod table;
mod theme;

pub use block::{Block, Keep, Lane, Strip, Width};
pub use check::{Fault, check};
pub use error::SheetError;
pub use flow::{Flow, flowed};
pub use furniture::{
    Field, line_after, short_line, signature_line, stamp, tick_box, title_block,
    title_block_height, write_box,
};
pub use page::{Frame, Page, Paper};
pub use table::{Cell, Column, Row, Table};
