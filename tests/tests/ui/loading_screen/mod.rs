//! The view in the whole window, without a display.

mod at_once;
mod beside_the_way;
mod disk;
mod doubt;
mod elsewhere;
mod keys;
mod legible;
mod lies;
mod screen;
mod told;
mod written;
