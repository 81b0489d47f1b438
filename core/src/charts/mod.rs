//! Charts of a case: what a person looks at, as [`Drawing`](crate::drawing::Drawing)s.
//!
//! A chart takes entered lengths and finished figures, puts them to scale and names them. It works
//! out no clinical number; what is unknown is drawn as unknown.

mod instrument;
mod lines;
#[cfg(test)]
mod samples;
mod section;
mod strip;
mod words;

pub use section::{NoSection, Room, Section};
pub use strip::{TrueScale, true_scale};
