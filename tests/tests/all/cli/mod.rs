//! The program as it is typed: what it prints, how it ends, what it leaves on the disk.

mod abandoned;
mod approve;
mod exits;
mod explain;
mod figures;
mod history;
mod order;
mod paths;
mod record;
mod rules;
mod take_kit;
mod wear;
