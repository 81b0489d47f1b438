//! The canonical bytes of a typed value, written straight from its fields.
//!
//! The same bytes as [`canonical_bytes`](super::canonical_bytes) of the value as JSON, without
//! building that JSON: a case holds its whole copy of a kit, and its fingerprint is taken with every
//! worksheet.

use serde::ser::{self, Impossible, Serialize};
use std::fmt::Display;
use std::io::Write as _;
use unicode_normalization::UnicodeNormalization as _;

/// Test for leaving a key out: by the keys on the way to its object, lists not counted, and itself.
pub type LeftOut = fn(&[&'static str], &str) -> bool;

/// Fifteen digits come back from any double unchanged (IEEE 754; `DBL_DIG` of C); more might not
/// be the shortest that do.
const FIFTEEN_DIGITS: u64 = 1_000_000_000_000_000;

/// The canonical bytes of a value without the keys that are left out.
///
/// # Errors
///
/// A value that JSON cannot hold: a number that is not finite, a map whose keys are no texts.
pub fn spelled<T: Serialize>(value: &T, left_out: LeftOut) -> Result<Vec<u8>, NoSpelling> {
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

/// The reason why a value has no canonical bytes.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NoSpelling(String);

impl ser::Error for NoSpelling {
    fn custom<T: Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// A member of the object that is being written: where its key begins and ends in the output, and
/// where its value ends. Key and value are there without quotes, colon and comma.
#[derive(Debug, Clone, Copy)]
struct Member {
    from: usize,
    key_to: usize,
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
    fn text(&mut self, text: &str) {
        self.out.push(b'"');
        self.bare_text(text);
        self.out.push(b'"');
    }

    /// A text as written between quotes: in normalisation form C, escaped where JSON asks for it.
    fn bare_text(&mut self, text: &str) {
        let plain = |byte: &u8| matches!(byte, b' '..=b'~') && !matches!(byte, b'"' | b'\\');
        if text.as_bytes().iter().all(plain) {
            self.out.extend_from_slice(text.as_bytes());
        } else {
            let quoted = serde_json::Value::String(text.nfc().collect()).to_string();
            let inside = &quoted.as_bytes()[1..quoted.len() - 1];
            self.out.extend_from_slice(inside);
        }
    }

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

    fn member<T: Serialize + ?Sized>(
        &mut self,
        key: &'static str,
        value: &T,
    ) -> Result<(), NoSpelling> {
        if (self.left_out)(&self.above, key) {
            return Ok(());
        }
        let from = self.out.len();
        self.bare_text(key);
        let key_to = self.out.len();
        self.above.push(key);
        value.serialize(&mut *self)?;
        self.above.pop();
        let to = self.out.len();
        self.members.push(Member { from, key_to, to });
        Ok(())
    }

    /// Puts the members from `first` on, which are in the output from `start` on, in the order of
    /// their keys and between braces.
    fn finish_object(&mut self, first: usize, start: usize) {
        let Self {
            out,
            members,
            scratch,
            ..
        } = self;
        let own = &mut members[first..];
        own.sort_by(|a, b| out[a.from..a.key_to].cmp(&out[b.from..b.key_to]));
        scratch.clear();
        scratch.push(b'{');
        for (n, member) in own.iter().enumerate() {
            scratch.extend_from_slice(if n == 0 { b"\"" } else { b",\"" });
            scratch.extend_from_slice(&out[member.from..member.key_to]);
            scratch.extend_from_slice(b"\":");
            scratch.extend_from_slice(&out[member.key_to..member.to]);
        }
        scratch.push(b'}');
        members.truncate(first);
        out.truncate(start);
        out.extend_from_slice(scratch);
    }
}

/// A list that is being written.
struct List<'a> {
    writer: &'a mut Writer,
    is_begun: bool,
}

impl List<'_> {
    fn item<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), NoSpelling> {
        if std::mem::replace(&mut self.is_begun, true) {
            self.writer.out.push(b',');
        }
        value.serialize(&mut *self.writer)
    }
}

/// An object that is being written: where it begins in the output and among the members.
struct Object<'a> {
    writer: &'a mut Writer,
    start: usize,
    first: usize,
}

/// Refuses what no type of this program has: its keys would not be known before they are written.
fn refused<T>(what: &str) -> Result<T, NoSpelling> {
    Err(NoSpelling(format!("{what} in a value to be hashed")))
}

macro_rules! displayed {
    ($($method:ident: $type:ty;)*) => {
        $(fn $method(self, value: $type) -> Result<(), NoSpelling> {
            self.display(value);
            Ok(())
        })*
    };
}

impl<'a> ser::Serializer for &'a mut Writer {
    type Ok = ();
    type Error = NoSpelling;
    type SerializeSeq = List<'a>;
    type SerializeTuple = List<'a>;
    type SerializeTupleStruct = List<'a>;
    type SerializeTupleVariant = Impossible<(), NoSpelling>;
    type SerializeMap = Impossible<(), NoSpelling>;
    type SerializeStruct = Object<'a>;
    type SerializeStructVariant = Impossible<(), NoSpelling>;

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

    fn serialize_f32(self, value: f32) -> Result<(), NoSpelling> {
        self.serialize_f64(f64::from(value))
    }

    fn serialize_f64(self, value: f64) -> Result<(), NoSpelling> {
        if !value.is_finite() {
            return Err(NoSpelling("a number that is not finite".to_owned()));
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

    fn serialize_char(self, value: char) -> Result<(), NoSpelling> {
        self.serialize_str(value.encode_utf8(&mut [0; 4]))
    }

    fn serialize_str(self, value: &str) -> Result<(), NoSpelling> {
        self.text(value);
        Ok(())
    }

    fn collect_str<T: Display + ?Sized>(self, value: &T) -> Result<(), NoSpelling> {
        self.serialize_str(&value.to_string())
    }

    fn serialize_bytes(self, value: &[u8]) -> Result<(), NoSpelling> {
        value.serialize(self)
    }

    fn serialize_none(self) -> Result<(), NoSpelling> {
        self.serialize_unit()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), NoSpelling> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<(), NoSpelling> {
        self.out.extend_from_slice(b"null");
        Ok(())
    }

    fn serialize_unit_struct(self, _: &'static str) -> Result<(), NoSpelling> {
        self.serialize_unit()
    }

    fn serialize_unit_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
    ) -> Result<(), NoSpelling> {
        self.serialize_str(variant)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<(), NoSpelling> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: &T,
    ) -> Result<(), NoSpelling> {
        refused(variant)
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<List<'a>, NoSpelling> {
        self.out.push(b'[');
        Ok(List {
            writer: self,
            is_begun: false,
        })
    }

    fn serialize_tuple(self, length: usize) -> Result<List<'a>, NoSpelling> {
        self.serialize_seq(Some(length))
    }

    fn serialize_tuple_struct(
        self,
        _: &'static str,
        length: usize,
    ) -> Result<List<'a>, NoSpelling> {
        self.serialize_seq(Some(length))
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Self::SerializeTupleVariant, NoSpelling> {
        refused(variant)
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Self::SerializeMap, NoSpelling> {
        refused("a map")
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Object<'a>, NoSpelling> {
        let (start, first) = (self.out.len(), self.members.len());
        Ok(Object {
            writer: self,
            start,
            first,
        })
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Self::SerializeStructVariant, NoSpelling> {
        refused(variant)
    }
}

macro_rules! lists {
    ($($of:ident: $method:ident;)*) => {
        $(impl ser::$of for List<'_> {
            type Ok = ();
            type Error = NoSpelling;

            fn $method<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), NoSpelling> {
                self.item(value)
            }

            fn end(self) -> Result<(), NoSpelling> {
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
    type Error = NoSpelling;

    fn serialize_field<T: Serialize + ?Sized>(
        &mut self,
        key: &'static str,
        value: &T,
    ) -> Result<(), NoSpelling> {
        self.writer.member(key, value)
    }

    fn end(self) -> Result<(), NoSpelling> {
        self.writer.finish_object(self.first, self.start);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::canonical_bytes;
    use super::*;
    use proptest::prelude::*;
    use serde::Serialize;

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
            let own = spelled(&sample, |_, _| false).unwrap();
            prop_assert_eq!(String::from_utf8(own), String::from_utf8(canonical_bytes(&json)));
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
        let bytes = spelled(&sample, |above, key| match above {
            [] => key == "text" || key == "pair",
            ["kind"] => key == "z",
            _ => false,
        });
        let want = r#"{"a":2,"kind":{"by":"given","length":14.25},"zone":[{"a":true,"a_b":0.5,"b":null,"text":"in"}]}"#;
        assert_eq!(String::from_utf8(bytes.unwrap()).unwrap(), want);
    }

    #[test]
    fn what_has_no_spelling_is_refused() {
        let map = std::collections::BTreeMap::from([("a", 1)]);
        assert!(spelled(&map, |_, _| false).is_err());
        assert!(spelled(&f64::NAN, |_, _| false).is_err());
    }
}
