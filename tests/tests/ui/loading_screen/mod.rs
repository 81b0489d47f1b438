//! The view in the whole window, without a display.

mod keys;
mod legible;
mod screen;
mod told;
mod written;
