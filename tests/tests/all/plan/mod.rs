//! The worksheet worked by hand, held against outside oracles, and its rules as properties.

mod axes;
mod bench;
mod boundaries;
mod carrier;
mod deep_structure;
mod depth;
mod documents;
mod drill_point;
mod fingerprint;
mod freehand;
mod gauge;
mod generated;
mod generated_site;
mod kit;
mod marks;
mod mirror;
mod neighbours;
mod one_figure;
mod play;
mod properties;
mod room;
mod sample;
mod stale;
mod stops;
mod verdicts;
mod walls;
