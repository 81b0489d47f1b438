//! Errors that keep a sheet from being made.

use crate::drawing::QrError;
use crate::drawing::fonts::MissingGlyph;

/// A reason why a sheet cannot be laid out or written.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SheetError {
    /// Something that must stay together is higher than a page.
    #[error(
        "{what:?} is {height_mm:.0} mm high and must stay together: a page has {room_mm:.0} mm"
    )]
    TooTall {
        /// The first words in it, empty when it has none.
        what: String,
        /// Its height, mm.
        height_mm: f64,
        /// The height that a page has, mm.
        room_mm: f64,
    },
    /// A character cannot be shown.
    #[error(transparent)]
    MissingGlyph(#[from] MissingGlyph),
    /// A text is too long for a code.
    #[error(transparent)]
    Code(#[from] QrError),
    /// The fonts could not be cut down to what the pages use.
    #[error("font {font}: {problem}")]
    Font {
        /// The font's name.
        font: &'static str,
        /// The fault.
        problem: String,
    },
    /// The PDF writer had something to say, and a checklist is not printed over that.
    #[error("writing the PDF: {}", .0.join("; "))]
    Writer(Vec<String>),
    /// The time of making is outside what a PDF can say.
    #[error("the time of making is outside what a PDF can say")]
    Time,
}
