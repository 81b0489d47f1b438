//! Instruments, implants, protocols and the tray template, as data.
//!
//! No instrument is known to the program itself: whatever it works with is in a kit file. A case
//! keeps a copy of the entries that it uses (see [`Kit::for_case`]), so that it can be read years
//! later.

mod carrier;
mod check;
mod check_instruments;
mod check_tray;
mod codes;
mod drill;
mod extras;
mod fields;
mod fitting;
mod gauge;
mod ids;
mod implant;
mod protocol;
mod sleeve;
mod stop;
mod tray;
mod usual;
mod wear;

pub use carrier::{Carrier, CarrierLine};
pub use check::check_kit;
pub use codes::Coded;
pub use drill::{Datum, Direction, Drill, DrillKind, DrillMark, Point, Span};
pub use extras::{Accessory, AccessoryKind, Driver, Head, Pin, PinSleeve};
pub use fields::{Field, FieldChange, LISTS};
pub use gauge::{Gauge, GaugeFace};
pub use ids::*;
pub use implant::{Implant, ProfilePoint};
pub use protocol::{Density, DepthRule, FinalDiameter, Protocol, ProtocolStep};
pub use sleeve::{DrillSleeve, MasterSleeve, Recess};
pub use stop::{FixedLength, Stop, StopKind};
pub use tray::{SlotKind, TraySlot, TrayTemplate};
pub use usual::usual_allowances;
pub use wear::{DrillWear, LimitGiver, StockPiece, Wear, WearLimit, WornBefore, mark_key};

use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The newest version of the kit file that this program reads and the one that it writes.
pub const KIT_VERSION: u32 = 1;

/// A kit: everything that may lie on the tray, with the rules for combining it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Kit {
    /// Version of this file's form.
    #[schemars(range(min = 1, max = 1))]
    pub traywright_kit: u32,
    /// Short name for references.
    pub id: KitId,
    /// Name for people.
    pub name: Label,
    /// The state of the kit, in the words of whoever keeps it.
    pub revision: Label,
    /// Invented, for practice: no case of a patient may be worked out with it.
    #[serde(default, skip_serializing_if = "is_not")]
    pub demonstration: bool,
    /// Requirements for the combination of instruments.
    pub allowances: Allowances,
    /// Implants.
    #[serde(default)]
    pub implants: Vec<Implant>,
    /// Rotary instruments: pilot, twist, profile and pin drills, bone taps.
    #[serde(default)]
    pub drills: Vec<Drill>,
    /// Removable sleeves that guide one drill each.
    #[serde(default)]
    pub drill_sleeves: Vec<DrillSleeve>,
    /// Sleeves fixed in the guide.
    #[serde(default)]
    pub master_sleeves: Vec<MasterSleeve>,
    /// Depth stops.
    #[serde(default)]
    pub stops: Vec<Stop>,
    /// Depth gauges on which stops are set.
    #[serde(default)]
    pub gauges: Vec<Gauge>,
    /// Carriers that hold an implant while it is turned in.
    #[serde(default)]
    pub carriers: Vec<Carrier>,
    /// Handpiece heads.
    #[serde(default)]
    pub heads: Vec<Head>,
    /// Drivers.
    #[serde(default)]
    pub drivers: Vec<Driver>,
    /// Fixation pins.
    #[serde(default)]
    pub pins: Vec<Pin>,
    /// Other things for the tray: torque wrench, lock key, irrigant.
    #[serde(default)]
    pub accessories: Vec<Accessory>,
    /// Sequences of the maker, by implant and bone density.
    #[serde(default)]
    pub protocols: Vec<Protocol>,
    /// The trays that the kit is laid out on.
    #[serde(default)]
    pub trays: Vec<TrayTemplate>,
    /// What its drills may wear, and their pieces. No case copies it.
    #[serde(default, skip_serializing_if = "Wear::is_empty")]
    pub wear: Wear,
    /// Anything worth saying; no figure depends on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// True if a mark is not set, so that files without it stay as they are.
#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks for a function of a reference"
)]
const fn is_not(mark: &bool) -> bool {
    !*mark
}

/// Requirements for the combination of instruments. Each figure is the kit's, none is the
/// program's.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Allowances {
    /// Least and greatest difference between a bore and the guided diameter in it.
    pub guided_clearance: Clearance,
    /// Least and greatest difference between a master sleeve's bore and a drill sleeve's barrel.
    pub sleeve_clearance: Clearance,
    /// Least and greatest difference between a stop's bore and the diameter that it sits on.
    pub stop_clearance: Clearance,
    /// Least overlap, on each side, of a stop's landing face over the bore that it lands on.
    #[schemars(range(min = 0, max = 10))]
    pub least_landing_mm: Length,
    /// Length of flute that must stay above the bone for chips to leave.
    #[schemars(range(min = 0, max = 50))]
    pub flute_reserve_mm: Length,
    /// Largest growth in diameter from one drill to the next; absent where the maker gives none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.001, max = 10))]
    pub largest_step_mm: Option<Length>,
    /// Difference between the diameters of implant and last drill, by density: used only to propose
    /// a sequence where no protocol applies.
    #[serde(default)]
    pub final_diameter: Vec<FinalDiameter>,
    /// Source of these figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
}

/// A least and a greatest difference between two diameters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Clearance {
    /// Least difference.
    #[schemars(range(min = 0, max = 5))]
    pub least_mm: Length,
    /// Greatest difference.
    #[schemars(range(min = 0, max = 5))]
    pub most_mm: Length,
}

impl Clearance {
    /// True if a difference between two diameters is within the two bounds, both included.
    #[must_use]
    pub fn allows(self, difference: Length) -> bool {
        self.least_mm <= difference && difference <= self.most_mm
    }

    /// The bound that a difference outside of the two breaks.
    #[must_use]
    pub fn nearest(self, difference: Length) -> Length {
        if difference < self.least_mm {
            self.least_mm
        } else {
            self.most_mm
        }
    }
}

/// A sign by which an instrument can be told from its neighbours: anything printed or painted on
/// it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Marking {
    /// Colour in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 40))]
    pub colour: Option<String>,
    /// A letter or short sign engraved on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(min = 1, max = 6))]
    pub letter: Option<String>,
    /// A shape engraved or painted on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shape: Option<Shape>,
}

/// Shapes that the drawings know how to show.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names say it")]
pub enum Shape {
    Dot,
    HalfDot,
    Ring,
    Bar,
    Triangle,
    Diamond,
    Square,
    Cross,
}

#[cfg(test)]
impl Shape {
    /// Every shape.
    pub(crate) const ALL: [Self; 8] = [
        Self::Dot,
        Self::HalfDot,
        Self::Ring,
        Self::Bar,
        Self::Triangle,
        Self::Diamond,
        Self::Square,
        Self::Cross,
    ];
}

/// Gives the names of all lists of a kit to a macro.
macro_rules! in_every_list {
    ($macro:ident) => {
        $macro!(
            implants,
            drills,
            drill_sleeves,
            master_sleeves,
            stops,
            gauges,
            carriers,
            heads,
            drivers,
            pins,
            accessories,
            protocols,
            trays
        )
    };
}
pub(crate) use in_every_list;

macro_rules! finders {
    ($($(#[$doc:meta])* $name:ident($list:ident: $id:ty) -> $entry:ty;)*) => {
        impl Kit {
            $($(#[$doc])*
            #[must_use]
            pub fn $name(&self, id: &$id) -> Option<&$entry> {
                self.$list.iter().find(|entry| entry.id == *id)
            })*
        }
    };
}

finders! {
    /// The implant of this id.
    implant(implants: ImplantId) -> Implant;
    /// The drill of this id.
    drill(drills: DrillId) -> Drill;
    /// The drill sleeve of this id.
    drill_sleeve(drill_sleeves: DrillSleeveId) -> DrillSleeve;
    /// The master sleeve of this id.
    master_sleeve(master_sleeves: MasterSleeveId) -> MasterSleeve;
    /// The stop of this id.
    stop(stops: StopId) -> Stop;
    /// The gauge of this id.
    gauge(gauges: GaugeId) -> Gauge;
    /// The carrier of this id.
    carrier(carriers: CarrierId) -> Carrier;
    /// The handpiece head of this id.
    head(heads: HeadId) -> Head;
    /// The pin of this id.
    pin(pins: PinId) -> Pin;
    /// The protocol of this id.
    protocol(protocols: ProtocolId) -> Protocol;
    /// The tray of this id.
    tray(trays: TrayId) -> TrayTemplate;
}
