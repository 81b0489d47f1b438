//! Documents: kit, case and events as JSON, read so that **all** their faults are reported at once.
//!
//! Reading goes through these steps; a file that fails one of the first three is not looked at any
//! further, because what followed would be guesswork:
//!
//! 1. size and encoding (`encoding`);
//! 2. strict JSON with a place for every value (`parse`);
//! 3. kind and version (`kind`);
//! 4. numbers: at most three decimals, no absurd sizes, no minus zero (`numbers`);
//! 5. structure, by the JSON Schema that is derived from the type (`schema`, `structure`);
//! 6. what can be healed is healed, so that the caller's own checks (references, duplicate ids)
//!    can add their faults to the same report (`read`).
//!
//! A [`Fault`] has a place, a [`Rule`] and arguments; its sentence is made from the text of the
//! rule's id. Nothing here panics on any input.

mod argument;
mod branch;
mod encoding;
mod fault;
mod kind;
mod leaves;
mod lex;
mod node;
mod numbers;
mod parse;
mod path;
mod range;
mod read;
mod recover;
mod refs;
mod rule;
mod schema;
mod structure;
mod unseen;
mod write;

#[cfg(test)]
mod tests;

pub use argument::Argument;
pub use encoding::MOST_BYTES;
pub use fault::{Coverage, Fault, Faults, Position, clipped, legible};
pub use kind::{Kind, Kinds};
pub use leaves::{Leaf, leaves};
pub use numbers::{Bound, MOST_DECIMALS, bound_at};
pub use parse::{DEEPEST, MOST_VALUES};
pub use path::{Path, Step};
pub use range::range_at;
pub use read::read;
pub use refs::Checks;
pub use rule::Rule;
pub use schema::schema_for;
pub use unseen::is_unseen;
pub use write::print;
