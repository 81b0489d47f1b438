//! Invented cases for the tests of every crate, as JSON: it knows no type of the program, so that
//! the program's own tests can use it.

pub mod demo;
mod edit;
pub mod inputs;

pub use edit::{apply, measure_anew, measure_missing};
use serde_json::Value;

/// One lower molar of which something can be said by every rule; measured as it is.
#[must_use]
pub fn lower_molar() -> Value {
    let mut case = parsed(include_str!("../cases/lower_molar.json"));
    measure_anew(&mut case, Some(11.0));
    case
}

/// One site at 36 between two teeth, over the canal: upright, three drills, the guide still to be
/// made. Every finding is clear or a note.
///
/// Its figures: 6.0 to the master sleeve, 4.0 master sleeve, 0.7 drill sleeve above the rim, so
/// seat 10.7; implant 10.0, so each setting 20.7. Measured deep enough for every drill that a test
/// tries.
#[must_use]
pub fn nothing_open() -> Value {
    let mut case = parsed(include_str!("../cases/nothing_open.json"));
    measure_anew(&mut case, Some(20.0));
    case
}

/// One site over a canal with four drills and a profile drill, nothing measured yet.
#[must_use]
pub fn over_canal() -> Value {
    parsed(include_str!("../cases/over_canal.json"))
}

/// A lower jaw without sites, teeth, pins and arch.
#[must_use]
pub fn bare() -> Value {
    parsed(include_str!("../cases/bare.json"))
}

/// A case with the limits that ship with the program.
fn parsed(case: &str) -> Value {
    let mut case: Value = serde_json::from_str(case).expect("the samples can be read");
    case["limits"] = serde_json::from_str(include_str!("../../../assets/limits.json"))
        .expect("the limits can be read");
    case
}
