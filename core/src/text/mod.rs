//! Every sentence that people read, by id, one folder per language under `assets/text`.
//!
//! The rest of the library speaks in ids and arguments; only this room knows words. An argument is a
//! text or a whole number. Lengths and angles come as texts from [`crate::number`], which knows their
//! unit and how they round; a choice by a text (`{ $kind -> [tooth] … }`) is by word. A whole number
//! stays one ([`Texts::counted`]), so that a choice by it is by the language's plural rules.

mod arguments;
mod english;
mod texts;

pub use texts::{TextError, TextFault, Texts, Whole};
