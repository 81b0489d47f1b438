//! The canonical JSON of a value, so that equal values hash alike.
//!
//! Keys sorted, no whitespace, numbers in their shortest decimal form (6.0, 6 and 6.00 are all `6`),
//! texts in Unicode normalisation form C. Values that differ in anything else have different bytes:
//! reading the bytes back gives the value.
//!
//! Written straight from the fields of the types, without building a [`serde_json::Value`] first: a
//! case holds its whole copy of a kit, and its fingerprint is taken with every worksheet.

use serde::ser::{self, Impossible, Serialize, SerializeStruct as _};
use serde_json::Value;
use std::borrow::Cow;
use std::fmt::Display;
use std::io::Write as _;
use unicode_normalization::UnicodeNormalization as _;

/// A choice of keys of a type to be left out: by the keys on the way to its object, lists not
/// counted, and itself. The keys of a map are data: they are kept, and stand on the way as `*`.
pub type LeftOut = fn(&[&'static str], &str) -> bool;

/// Fifteen digits come back from any double unchanged (IEEE 754; `DBL_DIG` of C); more might not
/// be the shortest that do.
const FIFTEEN_DIGITS: u64 = 1_000_000_000_000_000;

/// The canonical bytes of a value without the keys that are left out.
///
/// # Errors
///
/// A value that JSON cannot hold: a number that is not finite, a map whose keys are no texts.
pub(super) fn canonical<T: Serialize>(value: &T, left_out: LeftOut) -> Result<Vec<u8>, NotJson> {
    let mut writer = Writer {
        out: Vec::with_capacity(64 * 1024),
        above: Vec::new(),
        members: Vec::new(),
        scratch: Vec::new(),
        left_out,
    };
    value.serialize(&mut writer)?;
    Ok(writer.out)
}

/// The reason why a value has no canonical form.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub(super) struct NotJson(String);

impl ser::Error for NotJson {
    fn custom<T: Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// A member of an object that is being written: its key in form C, and where its value begins and
/// ends in the output.
#[derive(Debug)]
struct Member {
    key: Cow<'static, str>,
    from: usize,
    to: usize,
}

struct Writer {
    out: Vec<u8>,
    /// Keys on the way from the top.
    above: Vec<&'static str>,
    /// Members of all objects that are not finished, the outermost first.
    members: Vec<Member>,
    scratch: Vec<u8>,
    left_out: LeftOut,
}

impl Writer {
    fn display(&mut self, value: impl Display) {
        // Writing to memory cannot fail.
        let _ = write!(self.out, "{value}");
    }

    /// A number of thousandths, which is what every quantity is kept in: `14.25` for 14250.
    fn thousandths(&mut self, n: i64) {
        if n < 0 {
            self.out.push(b'-');
        }
        let size = n.unsigned_abs();
        self.display(size / 1000);
        let mut fraction = size % 1000;
        if fraction > 0 {
            self.out.push(b'.');
        }
        let mut unit = 100;
        while fraction > 0 {
            self.out
                .push(b'0' + u8::try_from(fraction / unit).unwrap_or(0));
            fraction %= unit;
            unit /= 10;
        }
    }

    fn object(&mut self) -> Object<'_> {
        Object {
            start: self.out.len(),
            first: self.members.len(),
            key: None,
            writer: self,
        }
    }

    fn member<T: Serialize + ?Sized>(
        &mut self,
        step: &'static str,
        key: Cow<'static, str>,
        value: &T,
    ) -> Result<(), NotJson> {
        let from = self.out.len();
        self.above.push(step);
        value.serialize(&mut *self)?;
        self.above.pop();
        let to = self.out.len();
        self.members.push(Member { key, from, to });
        Ok(())
    }

    /// Puts the members from `first` on, which stand in the output from `start` on, in the order of
    /// their keys and between braces.
    fn finish_object(&mut self, first: usize, start: usize) {
        let Self {
            out,
            members,
            scratch,
            ..
        } = self;
        let own = &mut members[first..];
        own.sort_by(|a, b| a.key.cmp(&b.key));
        scratch.clear();
        scratch.push(b'{');
        for (n, member) in own.iter().enumerate() {
            if n > 0 {
                scratch.push(b',');
            }
            text(&member.key, scratch);
            scratch.push(b':');
            scratch.extend_from_slice(&out[member.from..member.to]);
        }
        scratch.push(b'}');
        members.truncate(first);
        out.truncate(start);
        out.extend_from_slice(scratch);
    }
}

/// A text between quotes, in form C, escaped where JSON asks for it.
fn text(text: &str, out: &mut Vec<u8>) {
    let plain = |byte: &u8| matches!(byte, b' '..=b'~') && !matches!(byte, b'"' | b'\\');
    if text.as_bytes().iter().all(plain) {
        out.push(b'"');
        out.extend_from_slice(text.as_bytes());
        out.push(b'"');
    } else {
        let text = Value::String(text.nfc().collect()).to_string();
        out.extend_from_slice(text.as_bytes());
    }
}

/// A list that is being written.
struct List<'a> {
    writer: &'a mut Writer,
    is_begun: bool,
}

impl List<'_> {
    fn item<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), NotJson> {
        if std::mem::replace(&mut self.is_begun, true) {
            self.writer.out.push(b',');
        }
        value.serialize(&mut *self.writer)
    }
}

/// An object that is being written: where it begins in the output and among the members, and the
/// key of a map that waits for its value.
struct Object<'a> {
    writer: &'a mut Writer,
    start: usize,
    first: usize,
    key: Option<String>,
}

/// A refusal of something that no type of this program has.
fn refused<T>(what: &str) -> Result<T, NotJson> {
    Err(NotJson(format!("{what} in a value to be hashed")))
}

macro_rules! displayed {
    ($($method:ident: $type:ty;)*) => {
        $(fn $method(self, value: $type) -> Result<(), NotJson> {
            self.display(value);
            Ok(())
        })*
    };
}

impl<'a> ser::Serializer for &'a mut Writer {
    type Ok = ();
    type Error = NotJson;
    type SerializeSeq = List<'a>;
    type SerializeTuple = List<'a>;
    type SerializeTupleStruct = List<'a>;
    type SerializeTupleVariant = Impossible<(), NotJson>;
    type SerializeMap = Object<'a>;
    type SerializeStruct = Object<'a>;
    type SerializeStructVariant = Impossible<(), NotJson>;

    displayed! {
        serialize_bool: bool;
        serialize_i8: i8;
        serialize_i16: i16;
        serialize_i32: i32;
        serialize_i64: i64;
        serialize_u8: u8;
        serialize_u16: u16;
        serialize_u32: u32;
        serialize_u64: u64;
    }

    fn serialize_f32(self, value: f32) -> Result<(), NotJson> {
        self.serialize_f64(f64::from(value))
    }

    fn serialize_f64(self, value: f64) -> Result<(), NotJson> {
        if !value.is_finite() {
            return Err(NotJson("a number that is not finite".to_owned()));
        }
        // Both roundings are undone where they changed anything, so this only saves time.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_precision_loss,
            reason = "compared with what it came from"
        )]
        let (n, back) = {
            let n = libm::round(value * 1000.0) as i64;
            (n, n as f64 / 1000.0)
        };
        if n.unsigned_abs() < FIFTEEN_DIGITS && back.to_bits() == value.to_bits() {
            self.thousandths(n);
        } else if value == 0.0 {
            self.out.push(b'0');
        } else {
            self.display(value);
        }
        Ok(())
    }

    fn serialize_char(self, value: char) -> Result<(), NotJson> {
        self.serialize_str(value.encode_utf8(&mut [0; 4]))
    }

    fn serialize_str(self, value: &str) -> Result<(), NotJson> {
        text(value, &mut self.out);
        Ok(())
    }

    fn collect_str<T: Display + ?Sized>(self, value: &T) -> Result<(), NotJson> {
        self.serialize_str(&value.to_string())
    }

    fn serialize_bytes(self, value: &[u8]) -> Result<(), NotJson> {
        value.serialize(self)
    }

    fn serialize_none(self) -> Result<(), NotJson> {
        self.serialize_unit()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), NotJson> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<(), NotJson> {
        self.out.extend_from_slice(b"null");
        Ok(())
    }

    fn serialize_unit_struct(self, _: &'static str) -> Result<(), NotJson> {
        self.serialize_unit()
    }

    fn serialize_unit_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
    ) -> Result<(), NotJson> {
        self.serialize_str(variant)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<(), NotJson> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<(), NotJson> {
        let mut object = self.object();
        object.serialize_field(variant, value)?;
        ser::SerializeStruct::end(object)
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<List<'a>, NotJson> {
        self.out.push(b'[');
        Ok(List {
            writer: self,
            is_begun: false,
        })
    }

    fn serialize_tuple(self, length: usize) -> Result<List<'a>, NotJson> {
        self.serialize_seq(Some(length))
    }

    fn serialize_tuple_struct(self, _: &'static str, length: usize) -> Result<List<'a>, NotJson> {
        self.serialize_seq(Some(length))
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Self::SerializeTupleVariant, NotJson> {
        refused(variant)
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Object<'a>, NotJson> {
        Ok(self.object())
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Object<'a>, NotJson> {
        Ok(self.object())
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Self::SerializeStructVariant, NotJson> {
        refused(variant)
    }
}

macro_rules! lists {
    ($($of:ident: $method:ident;)*) => {
        $(impl ser::$of for List<'_> {
            type Ok = ();
            type Error = NotJson;

            fn $method<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), NotJson> {
                self.item(value)
            }

            fn end(self) -> Result<(), NotJson> {
                self.writer.out.push(b']');
                Ok(())
            }
        })*
    };
}

lists! {
    SerializeSeq: serialize_element;
    SerializeTuple: serialize_element;
    SerializeTupleStruct: serialize_field;
}

impl ser::SerializeStruct for Object<'_> {
    type Ok = ();
    type Error = NotJson;

    fn serialize_field<T: Serialize + ?Sized>(
        &mut self,
        key: &'static str,
        value: &T,
    ) -> Result<(), NotJson> {
        if (self.writer.left_out)(&self.writer.above, key) {
            return Ok(());
        }
        self.writer.member(key, normal(key), value)
    }

    fn end(self) -> Result<(), NotJson> {
        self.writer.finish_object(self.first, self.start);
        Ok(())
    }
}

impl ser::SerializeMap for Object<'_> {
    type Ok = ();
    type Error = NotJson;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Result<(), NotJson> {
        match serde_json::to_value(key) {
            Ok(Value::String(text)) => self.key = Some(text.nfc().collect()),
            _ => return refused("a key that is no text"),
        }
        Ok(())
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), NotJson> {
        let key = self.key.take().unwrap_or_default();
        self.writer.member("*", key.into(), value)
    }

    fn end(self) -> Result<(), NotJson> {
        ser::SerializeStruct::end(self)
    }
}

/// The key of a type in form C.
fn normal(key: &'static str) -> Cow<'static, str> {
    if key.is_ascii() {
        key.into()
    } else {
        key.nfc().collect::<String>().into()
    }
}

#[cfg(test)]
mod tests {
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
}
