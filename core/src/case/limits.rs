//! Limits of the clearances.

use crate::measure::{Angle, Length};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// A distance that must remain somewhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// Below this the nominal margin is short.
    #[schemars(range(min = 0, max = 50))]
    pub limit_mm: Length,
    /// Least margin at the chosen confidence: 0 where the limit already holds an allowance for
    /// inaccuracy, else the limit itself.
    #[schemars(range(min = 0, max = 50))]
    pub floor_mm: Length,
    /// Source of the limit.
    #[schemars(length(min = 1, max = 400))]
    pub source: String,
}

/// The greatest angle allowed somewhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AngleLimit {
    /// Above this it is short.
    #[schemars(range(min = 0, max = 90))]
    pub limit_deg: Angle,
    /// Source of the limit.
    #[schemars(length(min = 1, max = 400))]
    pub source: String,
}

macro_rules! limits {
    ($($(#[$doc:meta])* $field:ident: $id:ident;)*) => {
        /// Limits of a case. An absent one makes every clearance that needs it unknown.
        #[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
        #[serde(deny_unknown_fields)]
        pub struct Limits {
            $($(#[$doc])*
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub $field: Option<Limit>,)*
            /// Greatest angle between the axes of two implants that share a restoration.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub convergence: Option<AngleLimit>,
        }

        /// Names of the limits in millimetres.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum LimitId {
            $($(#[$doc])* $id,)*
        }

        impl LimitId {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$id,)*];

            /// Its key in the case file.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $(Self::$id => stringify!($field),)* }
            }
        }

        impl Limits {
            /// The limit of this name.
            #[must_use]
            pub fn get(&self, id: LimitId) -> Option<&Limit> {
                match id { $(LimitId::$id => self.$field.as_ref(),)* }
            }

            /// The same limits with another one of this name.
            #[must_use]
            pub fn with(mut self, id: LimitId, limit: Option<Limit>) -> Self {
                match id { $(LimitId::$id => self.$field = limit,)* }
                self
            }
        }
    };
}

limits! {
    /// From an implant or a cut to a natural root.
    neighbour_root: NeighbourRoot;
    /// Between two implants at the platform.
    neighbour_implant: NeighbourImplant;
    /// Between two implants along their bodies.
    neighbour_implant_body: NeighbourImplantBody;
    /// Bone left on the buccal side.
    buccal_wall: BuccalWall;
    /// Bone left on the oral side.
    oral_wall: OralWall;
    /// To the mandibular canal.
    mandibular_canal: MandibularCanal;
    /// To the mental foramen and the canal's anterior loop.
    mental_foramen: MentalForamen;
    /// To the incisive canal.
    incisive_canal: IncisiveCanal;
    /// To the nasopalatine canal.
    nasopalatine_canal: NasopalatineCanal;
    /// To the sinus: floor and anterior wall.
    sinus: Sinus;
    /// To the nasal floor.
    nasal_floor: NasalFloor;
    /// Between the guide's sleeve and the soft tissue under it.
    tissue_room: TissueRoom;
    /// Room that a reflected flap takes under the sleeve.
    flap_bulge: FlapBulge;
    /// Between the landed stop or the head and what stands beside it.
    stop_room: StopRoom;
    /// Greatest height that the carrier's line may leave the implant above its planned depth.
    carrier_depth: CarrierDepth;
    /// Greatest height that a cut may end above its planned depth and the implant still seat.
    shortfall: Shortfall;
    /// Greatest lateral error that the play of its sleeves may leave at a drill's tip.
    play: Play;
    /// Greatest difference between a guide as measured and as planned.
    receipt: Receipt;
    /// Greatest difference between sounding and plan before one stops.
    sounding: Sounding;
}

impl LimitId {
    /// True if it is the most that is allowed, not the least that must be left.
    #[must_use]
    pub const fn is_greatest(self) -> bool {
        matches!(
            self,
            Self::CarrierDepth | Self::Shortfall | Self::Play | Self::Receipt | Self::Sounding
        )
    }
}

impl Limits {
    /// The program's own limit, where this one is less strict.
    #[must_use]
    pub fn own_if_stricter(&self, id: LimitId) -> Option<Length> {
        let (set, own) = (self.get(id)?.limit_mm, OWN.get(id)?.limit_mm);
        let loosened = if id.is_greatest() {
            set > own
        } else {
            set < own
        };
        loosened.then_some(own)
    }

    /// The same for the angle between two implants.
    #[must_use]
    pub fn own_angle_if_stricter(&self) -> Option<Angle> {
        let (set, own) = (self.convergence.as_ref()?, OWN.convergence.as_ref()?);
        (set.limit_deg > own.limit_deg).then_some(own.limit_deg)
    }
}

/// The limits that ship with the program, read once.
static OWN: LazyLock<Limits> = LazyLock::new(default_limits);

/// The limits that a new case starts with, from `assets/limits.json`.
///
/// # Panics
///
/// Never: the file is part of the program and a test reads it.
#[must_use]
pub fn default_limits() -> Limits {
    serde_json::from_str(include_str!("../../../assets/limits.json"))
        .expect("the limits that ship with the program can be read")
}
