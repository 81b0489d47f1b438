//! The arch model: the places of a jaw's teeth, drawn from two measures of the arch.
//!
//! A schematic for layout. What is read from it is *from the arch model* and never makes a
//! verdict clear by itself.

mod curve;
mod model;
mod place;
#[cfg(test)]
mod tests;

pub use model::{ArchError, ArchLandmark, ArchModel};
pub use place::{ArchPoint, ToothOutline};
