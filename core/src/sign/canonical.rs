//! One spelling for each JSON value, so that equal values hash alike.

use serde_json::{Map, Number, Value};
use unicode_normalization::UnicodeNormalization as _;

/// The one spelling of a JSON value: keys sorted, no whitespace, numbers in their shortest decimal
/// form (6.0, 6 and 6.00 are all `6`), texts in Unicode normalisation form C.
///
/// Values that differ in anything else have different bytes: reading the bytes back gives the
/// value.
#[must_use]
pub fn canonical_bytes(value: &Value) -> Vec<u8> {
    let mut out = String::new();
    write_value(value, &mut out);
    out.into_bytes()
}

fn write_value(value: &Value, out: &mut String) {
    match value {
        Value::Null => out.push_str("null"),
        Value::Bool(true) => out.push_str("true"),
        Value::Bool(false) => out.push_str("false"),
        Value::Number(number) => out.push_str(&shortest(number)),
        Value::String(text) => write_text(text, out),
        Value::Array(values) => {
            out.push('[');
            for (i, value) in values.iter().enumerate() {
                if i > 0 {
                    out.push(',');
                }
                write_value(value, out);
            }
            out.push(']');
        }
        Value::Object(map) => write_object(map, out),
    }
}

fn write_object(map: &Map<String, Value>, out: &mut String) {
    // Sorted here and not left to the map: another crate of the build may ask `serde_json` to keep
    // keys in the order of the file.
    let mut entries: Vec<(String, &Value)> =
        map.iter().map(|(k, v)| (k.nfc().collect(), v)).collect();
    entries.sort_by(|a, b| a.0.cmp(&b.0));
    out.push('{');
    for (i, (key, value)) in entries.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        write_text(key, out);
        out.push(':');
        write_value(value, out);
    }
    out.push('}');
}

fn write_text(text: &str, out: &mut String) {
    out.push_str(&Value::String(text.nfc().collect()).to_string());
}

/// Digits without an exponent and without a trailing `.0`; minus zero is zero.
fn shortest(number: &Number) -> String {
    match number.as_f64() {
        Some(f) if number.is_f64() && f == 0.0 => "0".to_owned(),
        Some(f) if number.is_f64() => f.to_string(),
        _ => number.to_string(),
    }
}

/// A copy of `value` without the named parts.
///
/// A name is removed wherever it occurs as a key. A name that begins with `/` is a path from the
/// top in the manner of RFC 6901, where the step `*` stands for every key or index:
/// `/sites/*/note`. A name that matches nothing removes nothing.
#[must_use]
pub fn without(value: &Value, names: &[&str]) -> Value {
    let (paths, keys): (Vec<&str>, Vec<&str>) = names.iter().partition(|n| n.starts_with('/'));
    let paths: Vec<Vec<String>> = paths.iter().map(|p| steps(p)).collect();
    let paths: Vec<&[String]> = paths.iter().map(Vec::as_slice).collect();
    prune(value, &keys, &paths)
}

fn steps(path: &str) -> Vec<String> {
    path.split('/')
        .skip(1)
        .map(|step| step.replace("~1", "/").replace("~0", "~"))
        .collect()
}

fn prune(value: &Value, keys: &[&str], paths: &[&[String]]) -> Value {
    // The rest of every path that goes through `step`, or nothing when one of them ends there.
    let below = |step: &str| -> Option<Vec<&[String]>> {
        let through = paths.iter().filter_map(|path| {
            let (head, rest) = path.split_first()?;
            (head == "*" || head == step).then_some(rest)
        });
        let rests: Vec<&[String]> = through.collect();
        rests.iter().all(|rest| !rest.is_empty()).then_some(rests)
    };
    match value {
        Value::Object(map) => map
            .iter()
            .filter(|(key, _)| !keys.contains(&key.as_str()))
            .filter_map(|(key, v)| Some((key.clone(), prune(v, keys, &below(key)?))))
            .collect::<Map<_, _>>()
            .into(),
        Value::Array(values) => values
            .iter()
            .enumerate()
            .filter_map(|(i, v)| Some(prune(v, keys, &below(&i.to_string())?)))
            .collect::<Vec<_>>()
            .into(),
        other => other.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use serde_json::json;

    fn spelled(json: &str) -> String {
        let value: Value = serde_json::from_str(json).unwrap();
        String::from_utf8(canonical_bytes(&value)).unwrap()
    }

    #[test]
    fn equal_values_have_one_spelling() {
        for (written, want) in [
            ("6.0", "6"),
            ("6", "6"),
            ("6.00", "6"),
            ("60e-1", "6"),
            ("-0", "0"),
            ("-0.0", "0"),
            ("24.30", "24.3"),
            ("0.001", "0.001"),
            ("1e-7", "0.0000001"),
            ("1e21", "1000000000000000000000"),
            ("18446744073709551615", "18446744073709551615"),
            ("-9223372036854775808", "-9223372036854775808"),
            (
                r#"{ "b" : 1 , "a" : [ true , null ] }"#,
                r#"{"a":[true,null],"b":1}"#,
            ),
            // e and a combining acute accent become the one letter é, also in a key.
            ("{\"e\u{301}\":\"e\u{301}\"}", "{\"\u{e9}\":\"\u{e9}\"}"),
            (r#""\u00e9\n""#, "\"\u{e9}\\n\""),
        ] {
            assert_eq!(spelled(written), want, "{written}");
        }
    }

    #[test]
    fn keys_and_paths_are_removed_and_nothing_else() {
        let value = json!({
            "note": "n", "reference": "r", "a/b": 1,
            "sites": [{"note": 1, "at": {"x": 1, "y": 2}}, {"at": {"x": 3, "y": 4}}],
            "log": {"at": {"x": 5}},
        });
        for (names, want) in [
            (vec![], value.clone()),
            (vec!["absent", "/absent/at", "/sites/9"], value.clone()),
            (
                vec!["note", "/sites/*/at/x", "/log"],
                json!({"reference": "r", "a/b": 1, "sites": [{"at": {"y": 2}}, {"at": {"y": 4}}]}),
            ),
            (
                vec!["/sites/0", "/a~1b", "/note", "/log/at"],
                json!({"reference": "r", "sites": [{"at": {"x": 3, "y": 4}}], "log": {}}),
            ),
            (vec!["/*"], json!({})),
        ] {
            assert_eq!(without(&value, &names), want, "{names:?}");
        }
    }

    /// Any JSON value, its texts in form C and its whole numbers written as such.
    fn any_value() -> impl Strategy<Value = Value> {
        let text = || ".{0,6}".prop_map(|s| s.nfc().collect::<String>());
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            (-100_000_i32..100_000).prop_map(|n| Value::from(f64::from(n) / 1000.0)),
            (-1e12..1e12).prop_map(Value::from),
            text().prop_map(Value::from),
        ];
        leaf.prop_recursive(3, 24, 4, move |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
                prop::collection::btree_map(text(), inner, 0..4)
                    .prop_map(|m| m.into_iter().collect::<Map<_, _>>().into()),
            ]
        })
    }

    /// The same value with every whole binary fraction written as a whole number, as it reads back.
    fn plain(value: &Value) -> Value {
        match value {
            Value::Number(n) => serde_json::from_str(&shortest(n)).unwrap(),
            Value::Array(v) => v.iter().map(plain).collect::<Vec<_>>().into(),
            Value::Object(m) => m
                .iter()
                .map(|(k, v)| (k.clone(), plain(v)))
                .collect::<Map<_, _>>()
                .into(),
            other => other.clone(),
        }
    }

    /// A JSON text of the value with keys in reverse order and blanks everywhere.
    fn sprawling(value: &Value) -> String {
        match value {
            Value::Array(v) => {
                let items: Vec<String> = v.iter().map(sprawling).collect();
                format!("[ {} ]", items.join(" , "))
            }
            Value::Object(m) => {
                let items: Vec<String> = m
                    .iter()
                    .rev()
                    .map(|(k, v)| format!("{} :\n{}", Value::from(k.as_str()), sprawling(v)))
                    .collect();
                format!("{{ {} }}", items.join(" ,\t"))
            }
            other => other.to_string(),
        }
    }

    proptest! {
        #[test]
        fn the_bytes_read_back_as_the_value_so_different_values_differ(value in any_value()) {
            let back: Value = serde_json::from_slice(&canonical_bytes(&value)).unwrap();
            prop_assert_eq!(back, plain(&value));
        }

        #[test]
        fn key_order_and_blanks_do_not_matter(value in any_value()) {
            prop_assert_eq!(spelled(&sprawling(&value)).into_bytes(), canonical_bytes(&value));
        }

        #[test]
        fn removing_nothing_changes_nothing(value in any_value()) {
            prop_assert_eq!(without(&value, &[]), value);
        }
    }
}
