//! What is derived from types.

use super::*;
use crate::document::schema_for;

#[test]
fn look() {
    println!("{}", schema_for::<Sample>());
    println!("{:#?}", read_sample(GOOD));
}
