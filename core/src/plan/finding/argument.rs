//! The arguments of a finding's sentence, each as what it is.

use crate::case::{Height, StructureKind, WallSide};
use crate::dentition::ToothPosition;
use crate::kit::{Label, SiteId};
use crate::measure::{Angle, Length, Torque};
use std::fmt;

/// An argument of a finding's sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Argument {
    /// A name, or a key by which the sentence chooses its words.
    Text(String),
    Count(u32),
    Length(Length),
    Angle(Angle),
    Torque(Torque),
    /// A length that a drill is set to.
    Setting(Length),
    Structure(StructureKind),
    Wall(WallSide),
    Height(Height),
    Tooth(ToothPosition),
    Site(SiteId),
    /// Persons who confirmed a value, each with how far the site had moved by then, where that can be told.
    Confirmed(Vec<(Label, Option<Length>)>),
}

/// As files write it.
impl fmt::Display for Argument {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Count(count) => count.fmt(f),
            Self::Length(length) | Self::Setting(length) => length.fmt(f),
            Self::Angle(angle) => angle.fmt(f),
            Self::Torque(torque) => torque.fmt(f),
            Self::Structure(kind) => f.write_str(kind.key()),
            Self::Wall(side) => f.write_str(side.key()),
            Self::Height(height) => f.write_str(height.key()),
            Self::Tooth(position) => position.fmt(f),
            Self::Site(site) => site.fmt(f),
            Self::Confirmed(words) => {
                for (n, (by, moved)) in words.iter().enumerate() {
                    f.write_str(if n == 0 { "" } else { "; " })?;
                    by.fmt(f)?;
                    if let Some(moved) = moved {
                        write!(f, " {moved}")?;
                    }
                }
                Ok(())
            }
        }
    }
}

macro_rules! arguments {
    ($($variant:ident $of:ty,)*) => {$(
        impl From<$of> for Argument {
            fn from(value: $of) -> Self {
                Self::$variant(value)
            }
        }
    )*};
}

arguments! {
    Text String,
    Count u32,
    Length Length,
    Angle Angle,
    Torque Torque,
    Structure StructureKind,
    Wall WallSide,
    Height Height,
    Tooth ToothPosition,
}

impl From<&str> for Argument {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<&Label> for Argument {
    fn from(name: &Label) -> Self {
        name.as_str().into()
    }
}

impl From<&SiteId> for Argument {
    fn from(site: &SiteId) -> Self {
        Self::Site(site.clone())
    }
}
