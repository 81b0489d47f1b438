//! The range of a number in a document, read from the schema of the document's type.

use super::branch::resolve;
use super::schema::checker_for;
use crate::measure::parse_thousandths;
use schemars::JsonSchema;
use serde_json::Value;
use std::ops::RangeInclusive;

/// The range of the number at `place` in a document of type `T`, in thousandths; nothing where the
/// schema has no number there, bounds it on one side alone, or has several that differ.
///
/// Any item of a list is `[]`, as in `sites[].heights.tissue_thickness_mm`. Of alternatives, those
/// that have the key count.
#[must_use]
pub fn range_at<T: JsonSchema + 'static>(place: &str) -> Option<RangeInclusive<i64>> {
    let root = &checker_for::<T>().schema;
    let mut here = vec![root];
    for key in place.replace("[]", ".[]").split('.') {
        let mut next = Vec::new();
        for schema in here {
            members(schema, root, key, &mut next);
        }
        here = next;
    }
    let bound = |schema: &Value, key| parse_thousandths(&schema.get(key)?.to_string()).ok();
    let range = |schema| Some(bound(schema, "minimum")?..=bound(schema, "maximum")?);
    let mut ranges = here.into_iter().map(range);
    let first = ranges.next()??;
    ranges
        .all(|other| other.as_ref() == Some(&first))
        .then_some(first)
}

/// The schemas of a member, or with `[]` of the items, in each alternative that has it.
fn members<'s>(schema: &'s Value, root: &'s Value, key: &str, found: &mut Vec<&'s Value>) {
    let schema = resolve(schema, root);
    let member = match key {
        "[]" => schema.get("items"),
        key => schema
            .get("properties")
            .and_then(|properties| properties.get(key)),
    };
    found.extend(member.map(|member| resolve(member, root)));
    for group in ["allOf", "anyOf", "oneOf"] {
        let parts = schema.get(group).and_then(Value::as_array);
        for part in parts.into_iter().flatten() {
            members(part, root, key, found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Case;

    #[test]
    fn a_range_is_found_behind_references_lists_and_alternatives() {
        for (place, want) in [
            ("arch.width_mm", Some(20_000..=100_000)),
            ("sites[].heights.tissue_thickness_mm", Some(0..=20_000)),
            (
                "sites[].structures[].extent.height_mm",
                Some(-10_000..=60_000),
            ),
            ("sites[].steps[].depth.by_mm", Some(1..=60_000)),
            (
                "sites[].placement.apex_to_buccal_deg",
                Some(-60_000..=60_000),
            ),
            // No number, no such key, no list, nothing.
            ("sites[].heights", None),
            ("sites[].heights.tissue", None),
            ("sites.heights.tissue_thickness_mm", None),
            ("", None),
        ] {
            assert_eq!(range_at::<Case>(place), want, "{place}");
        }
    }
}
