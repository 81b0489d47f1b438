//! Every sentence that people read, by id, one folder per language under `assets/text`.
//!
//! The rest of the library speaks in ids and arguments; only this room knows words. Arguments are
//! texts: a number is formatted by whoever knows its unit and how it rounds, before it comes here.
//! A choice inside a text (`{ $kind -> [tooth] … }`) is therefore by word, never by plural rule.

mod arguments;
mod english;
mod texts;

pub use texts::{TextError, TextFault, Texts, Whole};
