//! The worksheet worked by hand, held against outside oracles, and its rules as properties.

mod bench;
mod carrier;
mod depth;
mod freehand;
mod gauge;
mod kit;
mod marks;
mod one_figure;
mod sample;
mod stops;
