//! Loading sessions played through without a window or a disk.

mod anew;
mod blind;
mod changes;
mod flow;
mod refusals;
mod world;
