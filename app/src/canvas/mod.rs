//! From a drawing in millimetres to the screen.
//!
//! Screen and paper draw the same [`Drawing`]; here it only gets colours and pixels. A
//! [`CachedDrawing`] keeps the shapes of a drawing for as long as nothing that it depends on changes.

mod cached;
mod camera;
mod mark;
mod shapes;

pub use cached::{CachedDrawing, DrawingCache, Part};
pub use camera::Camera;
pub use mark::{mark, mark_in};
pub use shapes::shapes;

/// Pixels for a millimetre of a drawing on the desk, in points of egui: running text of a drawing
/// (9 pt) is then about as large as that of the window.
pub const PER_MM: f32 = 4.2;
