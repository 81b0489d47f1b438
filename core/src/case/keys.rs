//! Keys, as files and text ids write them.

use super::{Height, ReceiptOf, StructureKind, WallSide};

/// An enum whose keys stand in files and text ids.
macro_rules! keyed {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $key:literal,)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $(#[doc = concat!("`", $key, "`")] $variant,)*
        }

        impl $name {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Its name in files and text ids.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$variant => $key,)*
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.key())
            }
        }
    };
}

pub(crate) use keyed;

macro_rules! keys {
    ($($name:ident { $($variant:ident = $key:literal,)* })*) => {$(
        impl $name {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Its name in files and text ids.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$variant => $key,)*
                }
            }

            /// The one of a key.
            #[must_use]
            pub fn of_key(key: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.key() == key)
            }
        }
    )*};
}

keys! {
    Height {
        Crest = "crest",
        Mid = "mid",
        Apex = "apex",
        Least = "least",
    }
    WallSide {
        Buccal = "buccal",
        Oral = "oral",
    }
    StructureKind {
        MandibularCanal = "mandibular_canal",
        MentalForamen = "mental_foramen",
        IncisiveCanal = "incisive_canal",
        NasopalatineCanal = "nasopalatine_canal",
        SinusFloor = "sinus_floor",
        SinusAnteriorWall = "sinus_anterior_wall",
        NasalFloor = "nasal_floor",
    }
    ReceiptOf {
        MasterSleeveHeight = "master_sleeve_height",
        MasterSleeveBore = "master_sleeve_bore",
        PlatformToSleeve = "platform_to_sleeve",
    }
}
