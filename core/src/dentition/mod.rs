//! Teeth: how a place in the mouth is named, how large a mean tooth is, and where the arch model
//! puts it.
//!
//! Inside the program a place is a [`ToothPosition`] by ISO 3950. A bare number means different
//! teeth in different notations, so whatever people read comes from [`label()`], with words.

mod arch;
mod class;
mod jaw;
mod label;
mod notation;
mod position;
mod sizes;

pub use arch::{ArchError, ArchLandmark, ArchModel, ArchPoint, ToothOutline};
pub use class::{ToothClass, ToothGroup};
pub use jaw::{Jaw, Side};
pub use label::{label, words};
pub use notation::Notation;
pub use position::{ToothError, ToothPosition};
pub use sizes::{Grade, SizeField, ToothSize, tooth_size};
