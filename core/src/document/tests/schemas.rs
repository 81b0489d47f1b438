//! Schemas that are derived from the types.

use super::*;
use crate::document::schema_for;
use serde_json::Value;

#[test]
fn a_range_reaches_the_schema_also_of_a_length_that_may_be_missing() {
    let schema: Value = serde_json::from_str(&schema_for::<Sample>()).unwrap();
    let site = schema.pointer("/$defs/Site/properties").unwrap();
    let length = &site["length_mm"];
    assert_eq!(length["exclusiveMinimum"], 0);
    assert_eq!(length["maximum"], 40);
    assert_eq!(site["below_crest_mm"]["minimum"], -5);
    assert_eq!(site["tilt_deg"]["maximum"], 60);
    assert_eq!(length["description"], "A number above 0.");
    assert_eq!(
        schema["$schema"],
        "https://json-schema.org/draft/2020-12/schema"
    );
}

#[test]
fn the_schema_is_stable_and_good_by_the_rules_of_schemas() {
    let text = schema_for::<Sample>();
    assert_eq!(text, schema_for::<Sample>());
    assert!(text.ends_with("}\n"));
    let schema: Value = serde_json::from_str(&text).unwrap();
    assert!(jsonschema::meta::is_valid(&schema));
}
