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

/// A member of an object that is being written: its key in form C, and where it begins with that key
/// and ends with its value in the output.
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

    fn whole(&mut self, n: impl itoa::Integer) {
        let mut digits = itoa::Buffer::new();
        self.out.extend_from_slice(digits.format(n).as_bytes());
    }

    /// A number of thousandths, which is what every quantity is kept in: `14.25` for 14250.
    fn thousandths(&mut self, n: i64) {
        if n < 0 {
            self.out.push(b'-');
        }
        let size = n.unsigned_abs();
        self.whole(size / 1000);
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
        text(&key, &mut self.out);
        self.out.push(b':');
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
    let is_plain = |byte: &u8| matches!(byte, b' '..=b'~') && !matches!(byte, b'"' | b'\\');
    if text.as_bytes().iter().all(is_plain) {
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

macro_rules! whole_numbers {
    ($($method:ident: $type:ty;)*) => {
        $(fn $method(self, value: $type) -> Result<(), NotJson> {
            self.whole(value);
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

    fn serialize_bool(self, value: bool) -> Result<(), NotJson> {
        self.display(value);
        Ok(())
    }

    whole_numbers! {
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
mod tests;
