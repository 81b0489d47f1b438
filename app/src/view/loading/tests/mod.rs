//! Loading sessions played through without a window or a disk.

mod changes;
mod flow;
mod refusals;
mod screen;
mod world;
