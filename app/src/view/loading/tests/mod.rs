//! Loading sessions played through without a window or a disk.

mod anew;
mod at_once;
mod blind;
mod changes;
mod falls;
mod flow;
mod lying;
mod people;
mod refusals;
mod world;
