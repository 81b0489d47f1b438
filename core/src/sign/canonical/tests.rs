//! The canonical form against its definition.

use super::*;
use proptest::prelude::*;
use serde::Serialize;
use serde_json::{Map, Number};

fn written<T: Serialize>(value: &T) -> String {
    String::from_utf8(canonical(value, |_, _| false).unwrap()).unwrap()
}

fn written_json(json: &str) -> String {
    written(&serde_json::from_str::<Value>(json).unwrap())
}

/// The canonical form by its definition, from a JSON value that is there as a whole.
fn by_definition(value: &Value) -> String {
    let quoted = |text: &str| Value::from(text.nfc().collect::<String>()).to_string();
    match value {
        Value::Null | Value::Bool(_) => value.to_string(),
        Value::Number(number) => shortest(number),
        Value::String(text) => quoted(text),
        Value::Array(values) => {
            let values: Vec<String> = values.iter().map(by_definition).collect();
            format!("[{}]", values.join(","))
        }
        Value::Object(map) => {
            let mut members: Vec<(String, &Value)> = map
                .iter()
                .map(|(key, value)| (key.nfc().collect(), value))
                .collect();
            members.sort_by(|a, b| a.0.cmp(&b.0));
            let members: Vec<String> = members
                .iter()
                .map(|(key, value)| format!("{}:{}", quoted(key), by_definition(value)))
                .collect();
            format!("{{{}}}", members.join(","))
        }
    }
}

/// Digits without an exponent and without a trailing `.0`; minus zero is zero.
fn shortest(number: &Number) -> String {
    match number.as_f64() {
        Some(f) if number.is_f64() && f == 0.0 => "0".to_owned(),
        Some(f) if number.is_f64() => f.to_string(),
        _ => number.to_string(),
    }
}

#[test]
fn equal_values_have_one_spelling() {
    for (text, want) in [
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
        assert_eq!(written_json(text), want, "{text}");
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

/// Texts, numbers and lists of all kinds, in an order that is not that of the keys.
#[derive(Debug, Clone, Serialize)]
struct Sample {
    zone: Vec<Inner>,
    a: f64,
    text: String,
    pair: (u64, i64),
    kind: Kind,
}

#[derive(Debug, Clone, Serialize)]
struct Inner {
    b: Option<f64>,
    a_b: f64,
    a: bool,
    #[serde(skip_serializing_if = "String::is_empty")]
    text: String,
}

#[derive(Debug, Clone, Serialize)]
#[serde(tag = "by", rename_all = "snake_case")]
enum Kind {
    Plain {},
    Given { z: u8, length: f64 },
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        (-3_000_000..3_000_000).prop_map(|n| f64::from(n) / 1000.0),
        Just(-0.0),
        any::<i32>().prop_map(f64::from),
        (-1e19..1e19).prop_map(|f: f64| f.round() / 1000.0),
        any::<f64>().prop_filter("finite", |f| f.is_finite()),
    ]
}

prop_compose! {
    fn any_sample()(
        zone in prop::collection::vec(
            (prop::option::of(any_number()), any_number(), any::<bool>(), ".{0,4}"),
            0..4,
        ),
        a in any_number(),
        text in "[ -~é\u{301}e\n]{0,6}",
        pair in any::<(u64, i64)>(),
        given in prop::option::of((any::<u8>(), any_number())),
    ) -> Sample {
        let inner = |(b, a_b, a, text)| Inner { b, a_b, a, text };
        Sample {
            zone: zone.into_iter().map(inner).collect(),
            a,
            text,
            pair,
            kind: given.map_or(Kind::Plain {}, |(z, length)| Kind::Given { z, length }),
        }
    }
}

proptest! {
    #[test]
    fn the_bytes_are_those_of_the_value_as_json(sample in any_sample()) {
        let json = serde_json::to_value(&sample).unwrap();
        prop_assert_eq!(written(&sample), by_definition(&json));
        prop_assert_eq!(written(&json), by_definition(&json));
    }

    #[test]
    fn any_value_is_written_by_the_definition(value in any_value()) {
        prop_assert_eq!(written(&value), by_definition(&value));
    }

    #[test]
    fn the_bytes_read_back_as_the_value_so_different_values_differ(value in any_value()) {
        let back: Value = serde_json::from_str(&written(&value)).unwrap();
        prop_assert_eq!(back, plain(&value));
    }

    #[test]
    fn key_order_and_blanks_do_not_matter(value in any_value()) {
        prop_assert_eq!(written_json(&sprawling(&value)), written(&value));
    }
}

#[test]
fn what_is_left_out_goes_by_the_keys_above_it() {
    let sample = Sample {
        zone: vec![Inner {
            b: None,
            a_b: 0.5,
            a: true,
            text: "in".into(),
        }],
        a: 2.0,
        text: "out".into(),
        pair: (1, -1),
        kind: Kind::Given {
            z: 1,
            length: 14.25,
        },
    };
    let bytes = canonical(&sample, |above, key| match above {
        [] => key == "text" || key == "pair",
        ["kind"] => key == "z",
        _ => false,
    });
    let want = r#"{"a":2,"kind":{"by":"given","length":14.25},"zone":[{"a":true,"a_b":0.5,"b":null,"text":"in"}]}"#;
    assert_eq!(String::from_utf8(bytes.unwrap()).unwrap(), want);
}

#[test]
fn what_is_no_json_is_refused() {
    let map = std::collections::BTreeMap::from([(1, "a")]);
    assert!(canonical(&map, |_, _| false).is_err());
    assert!(canonical(&f64::NAN, |_, _| false).is_err());
}
