//! A sentence to be told, without its words.

use super::{EventId, Fingerprint, Who, WriterId};
use crate::dentition::Jaw;
use crate::measure::Length;
use std::collections::BTreeMap;
use std::fmt;
use std::num::NonZeroU32;

/// The id of a text in `assets/text` and what goes into it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// Id of the text, beginning with `sign-`.
    pub id: &'static str,
    /// The values of the text's variables.
    pub args: BTreeMap<&'static str, Argument>,
}

/// An argument of a message, as what it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Argument {
    /// A name or words from elsewhere, shown as they are, or a key by which the text chooses its own.
    Text(String),
    /// A count of things or a place in a row, such as a line.
    Count(u64),
    /// A number that a file gives: every digit, however many.
    Given(u64),
    /// A length, shown with its unit.
    Length(Length),
    /// A length without its unit, which the length after it bears: "8" in "8 to 35 mm".
    BareLength(Length),
    /// Another message, told within this one.
    Message(Box<Message>),
}

/// A value that a message can hold.
pub(super) trait ToArgument {
    fn to_argument(&self) -> Argument;
}

impl ToArgument for Argument {
    fn to_argument(&self) -> Argument {
        self.clone()
    }
}

macro_rules! arguments {
    ($($of:ty => |$it:ident| $argument:expr,)*) => {$(
        impl ToArgument for $of {
            fn to_argument(&self) -> Argument {
                let $it = self;
                $argument
            }
        }
    )*};
}

arguments! {
    &str => |text| Argument::Text((*text).to_owned()),
    String => |text| Argument::Text(text.clone()),
    Jaw => |jaw| Argument::Text(jaw.to_string()),
    Who => |who| Argument::Text(who.to_string()),
    WriterId => |writer| Argument::Text(writer.to_string()),
    EventId => |event| Argument::Text(event.to_string()),
    Fingerprint => |plan| Argument::Text(plan.to_string()),
    jiff::Timestamp => |time| Argument::Text(time.to_string()),
    usize => |count| Argument::Count(u64::try_from(*count).unwrap_or(u64::MAX)),
    u32 => |count| Argument::Count((*count).into()),
    NonZeroU32 => |copy| Argument::Count(copy.get().into()),
    u64 => |number| Argument::Given(*number),
    Length => |length| Argument::Length(*length),
    Message => |message| Argument::Message(Box::new(message.clone())),
}

impl Message {
    pub(super) fn new<const N: usize>(
        id: &'static str,
        args: [(&'static str, &dyn ToArgument); N],
    ) -> Self {
        Self {
            id,
            args: args.map(|(name, value)| (name, value.to_argument())).into(),
        }
    }
}

/// As files write it.
impl fmt::Display for Argument {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Count(number) | Self::Given(number) => number.fmt(f),
            Self::Length(length) | Self::BareLength(length) => length.fmt(f),
            Self::Message(message) => message.fmt(f),
        }
    }
}

impl fmt::Display for Message {
    /// For logs and tests: the id and the arguments.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)?;
        for (name, value) in &self.args {
            write!(f, " {name}={:?}", value.to_string())?;
        }
        Ok(())
    }
}
