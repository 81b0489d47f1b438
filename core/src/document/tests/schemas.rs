//! Schemas derived from the types.

use super::*;
use crate::document::{ShippedSchema, schema_for};
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

#[test]
fn a_shipped_file_is_compared_line_by_line() {
    let shipped = ShippedSchema::of::<Neighbour>("neighbour.json");
    assert_eq!(shipped.first_difference(&shipped.text), None);
    let old = shipped.text.replace("A neighbour.", "A friend.");
    let difference = shipped.first_difference(&old).unwrap();
    assert!(difference.contains("A friend."), "{difference}");
    assert!(shipped.first_difference("").is_some());
    assert!(
        shipped
            .first_difference(&format!("{}\n", shipped.text))
            .is_some()
    );
}

/// An object that lets unknown keys pass.
#[derive(Debug, Deserialize, JsonSchema)]
#[expect(dead_code, reason = "only its schema is looked at")]
struct Open {
    /// Externally tagged without `deny_unknown_fields`.
    rule: OpenRule,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[expect(dead_code, reason = "only its schema is looked at")]
enum OpenRule {
    By { amount_mm: Length },
}

#[test]
fn an_object_that_lets_unknown_keys_pass_is_found() {
    assert_eq!(
        ShippedSchema::of::<Sample>("s.json").open_objects(),
        [""; 0]
    );
    let open = ShippedSchema::of::<Open>("o.json").open_objects();
    let wanted = ["", "/$defs/OpenRule/oneOf/0/properties/By"];
    assert_eq!(open, wanted);
}
