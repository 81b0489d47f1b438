//! The places that findings, reasons and figures name: typed, each with its path as files write it.

use crate::case::{Height, LimitId, ReceiptOf, StructureKind, WallSide};
use crate::dentition::ToothPosition;
use crate::kit::{DrillId, GaugeId, Label, SiteId, StepId};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;
use std::fmt;

/// A place in the case, in its kit or on the tray. Its path is how it is displayed.
#[derive(Debug, Clone, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Place {
    /// All sites.
    Sites,
    /// A site, or a part of it.
    Site(SiteId, SitePlace),
    Tooth(ToothPosition),
    Arch,
    AcceptedOrder,
    /// A limit of the case.
    Limit(LimitId),
    /// The limit of the angle between two axes.
    Convergence,
    /// The gauge that was chosen.
    Gauge,
    /// The handpiece head that was chosen.
    Head,
    /// The tray that was chosen.
    Tray,
    /// All fixation pins.
    Pins,
    /// A fixation pin, by its place in the case.
    Pin(usize),
    /// All that was measured on the guide as it came.
    Receipts,
    /// The measurements on the guide at a site.
    Receipt(SiteId),
    ReceiptOf(SiteId, ReceiptOf),
    /// The kit as a whole.
    Kit,
    /// An entry of one of the kit's lists.
    KitEntry {
        list: &'static str,
        entry: String,
    },
    /// The face that a gauge of the kit reads.
    GaugeFace(GaugeId),
    /// What a gauge of the kit adds to the length that it measures.
    GaugeConstant(GaugeId),
    /// The beginning of the guided part of a drill of the kit.
    GuidedFrom(DrillId),
    /// A thing of the loading list.
    Loading {
        entry: String,
        copy: u32,
    },
    /// Two slots of the tray.
    SideBySide(Label, Label),
    /// The thing chosen by hand for a slot.
    TrayPlace(Label),
}

/// A part of a site.
#[derive(Debug, Clone, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum SitePlace {
    Whole,
    Placement,
    PlatformToSleeve,
    Heights,
    Height(SiteHeight),
    /// The gap of a fresh socket.
    SocketGap,
    /// How dense its bone is.
    Density,
    /// A wall of which nothing was measured, or not enough.
    WallSide(WallSide),
    Wall(WallSide, Height),
    /// The distance measured to a tooth, at one height or at all.
    ToTooth(ToothPosition, Option<Height>),
    /// The distance measured to another site, at one height or at all.
    ToSite(SiteId, Option<Height>),
    Structure(StructureKind),
    AnteriorLoop(StructureKind),
    /// All that stands beside the sleeve.
    Obstacles,
    /// One of them, by its place in the case.
    Obstacle(usize),
    /// The height of the rim when it was measured.
    ObstacleRim(usize),
    /// A crown beside the site of which no obstacle was entered.
    Crown(ToothPosition),
    /// The whole sequence.
    Steps,
    Step(StepId),
    Insertion,
    Carrier,
}

/// A height that is measured at a site.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[expect(missing_docs, reason = "the names say it")]
pub enum SiteHeight {
    #[serde(rename = "platform_below_crest")]
    PlatformBelowCrest,
    #[serde(rename = "platform_below_socket_rim_mm")]
    SocketRim,
    #[serde(rename = "tissue_thickness_mm")]
    TissueThickness,
    #[serde(rename = "crest_below_occlusal_mm")]
    CrestBelowOcclusal,
    /// The placement at which the heights were measured.
    #[serde(skip)]
    MeasuredAt,
}

/// A field at a place, by which a figure or an entered value is named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Field {
    /// The place.
    pub at: Place,
    /// The field there; empty for the place itself.
    pub name: &'static str,
}

impl SiteHeight {
    /// Those that are measured.
    pub(in crate::case) const MEASURED: [Self; 4] = [
        Self::PlatformBelowCrest,
        Self::SocketRim,
        Self::TissueThickness,
        Self::CrestBelowOcclusal,
    ];

    /// Its key in the case file.
    pub(in crate::case) const fn key(self) -> &'static str {
        match self {
            Self::PlatformBelowCrest => "platform_below_crest",
            Self::SocketRim => "platform_below_socket_rim_mm",
            Self::TissueThickness => "tissue_thickness_mm",
            Self::CrestBelowOcclusal => "crest_below_occlusal_mm",
            Self::MeasuredAt => "measured_at",
        }
    }
}

impl Place {
    /// The site that it belongs to.
    #[must_use]
    pub const fn site(&self) -> Option<&SiteId> {
        match self {
            Self::Site(site, _) => Some(site),
            _ => None,
        }
    }

    /// The site at which a finding here is told: also one about the guide as it came.
    pub(crate) const fn told_at(&self) -> Option<&SiteId> {
        match self {
            Self::Site(site, _) | Self::Receipt(site) | Self::ReceiptOf(site, _) => Some(site),
            _ => None,
        }
    }

    /// The part of a site that it is; nothing for what belongs to no site.
    #[must_use]
    pub const fn site_place(&self) -> Option<&SitePlace> {
        match self {
            Self::Site(_, place) => Some(place),
            _ => None,
        }
    }

    /// The path, as files write it.
    #[must_use]
    pub fn key(&self) -> String {
        self.to_string()
    }

    /// A field here.
    #[must_use]
    pub const fn field(self, name: &'static str) -> Field {
        Field { at: self, name }
    }

    /// True if another place is this one or a part of it.
    #[must_use]
    pub fn holds(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Site(site, place), Self::Site(other, part)) => {
                site == other && place.holds(part)
            }
            _ => self == other,
        }
    }

    /// True if the place names a site: lies in it, or tells of something else in relation to it.
    #[must_use]
    pub fn names(&self, site: &SiteId) -> bool {
        match self {
            Self::Site(at, SitePlace::ToSite(to, _)) => at == site || to == site,
            _ => self.told_at() == Some(site),
        }
    }
}

impl SitePlace {
    fn holds(&self, part: &Self) -> bool {
        match (self, part) {
            (Self::Whole, _)
            | (Self::Heights, Self::Height(_))
            | (Self::Insertion, Self::Carrier)
            | (Self::Steps, Self::Step(_))
            | (Self::Obstacles, Self::Obstacle(_) | Self::ObstacleRim(_) | Self::Crown(_)) => true,
            (Self::ToTooth(of, None), Self::ToTooth(to, _)) => of == to,
            (Self::ToSite(of, None), Self::ToSite(to, _)) => of == to,
            (Self::Structure(of), Self::AnteriorLoop(kind)) => of == kind,
            (Self::Obstacle(of), Self::ObstacleRim(n)) => of == n,
            _ => self == part,
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sites => f.write_str("sites"),
            Self::Site(site, SitePlace::Whole) => write!(f, "sites[{site}]"),
            Self::Site(site, place) => write!(f, "sites[{site}].{place}"),
            Self::Tooth(position) => write!(f, "teeth[{position}]"),
            Self::Arch => f.write_str("arch"),
            Self::AcceptedOrder => f.write_str("accepted_order"),
            Self::Limit(limit) => write!(f, "limits.{}", limit.key()),
            Self::Convergence => f.write_str("limits.convergence"),
            Self::Gauge => f.write_str("setup.gauge"),
            Self::Head => f.write_str("setup.head"),
            Self::Tray => f.write_str("setup.tray"),
            Self::Pins => f.write_str("guide.pins"),
            Self::Pin(n) => write!(f, "guide.pins[{n}]"),
            Self::Receipts => f.write_str("guide.receipt"),
            Self::Receipt(site) => write!(f, "guide.receipt[{site}]"),
            Self::ReceiptOf(site, of) => write!(f, "guide.receipt[{site} {}]", of.key()),
            Self::Kit => f.write_str("kit"),
            Self::KitEntry { list, entry } => write!(f, "kit.{list}[{entry}]"),
            Self::GaugeFace(gauge) => write!(f, "kit.gauges[{gauge}].reads"),
            Self::GaugeConstant(gauge) => write!(f, "kit.gauges[{gauge}].constant_mm"),
            Self::GuidedFrom(drill) => write!(f, "kit.drills[{drill}].guided_from_mm"),
            Self::Loading { entry, copy } => write!(f, "loading[{entry} {copy}]"),
            Self::SideBySide(one, other) => write!(f, "tray[{one}][{other}]"),
            Self::TrayPlace(slot) => write!(f, "tray_places[{slot}]"),
        }
    }
}

impl fmt::Display for SitePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let at = |f: &mut fmt::Formatter<'_>, height: &Option<Height>| match height {
            None => Ok(()),
            Some(height) => write!(f, "[{}]", height.key()),
        };
        match self {
            Self::Whole => Ok(()),
            Self::Placement => f.write_str("placement"),
            Self::PlatformToSleeve => f.write_str("platform_to_sleeve"),
            Self::Heights => f.write_str("heights"),
            Self::Height(height) => write!(f, "heights.{}", height.key()),
            Self::SocketGap => f.write_str("state.gap_mm"),
            Self::Density => f.write_str("density"),
            Self::WallSide(side) => write!(f, "walls[{}]", side.key()),
            Self::Wall(side, height) => write!(f, "walls[{} {}]", side.key(), height.key()),
            Self::ToTooth(position, height) => {
                write!(f, "distances[{position}]")?;
                at(f, height)
            }
            Self::ToSite(site, height) => {
                write!(f, "distances[{site}]")?;
                at(f, height)
            }
            Self::Structure(kind) => write!(f, "structures[{}]", kind.key()),
            Self::AnteriorLoop(kind) => {
                write!(f, "structures[{}].anterior_loop_mm", kind.key())
            }
            Self::Obstacles => f.write_str("obstacles"),
            Self::Obstacle(n) => write!(f, "obstacles[{n}]"),
            Self::ObstacleRim(n) => write!(f, "obstacles[{n}].rim_above_platform_mm"),
            Self::Crown(position) => write!(f, "obstacles[{position}]"),
            Self::Steps => f.write_str("steps"),
            Self::Step(step) => write!(f, "steps[{step}]"),
            Self::Insertion => f.write_str("insertion"),
            Self::Carrier => f.write_str("insertion.carrier"),
        }
    }
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.name {
            "" => write!(f, "{}", self.at),
            name => write!(f, "{}.{name}", self.at),
        }
    }
}

impl From<Place> for Field {
    fn from(at: Place) -> Self {
        Self { at, name: "" }
    }
}

/// By the path, in which reasons are told. Where a site is called like a tooth, the tooth comes first.
impl Ord for Place {
    fn cmp(&self, other: &Self) -> Ordering {
        let of_site = |place: &Self| matches!(place.site_place(), Some(SitePlace::ToSite(..)));
        let paths = self.key().cmp(&other.key());
        paths.then_with(|| of_site(self).cmp(&of_site(other)))
    }
}

impl PartialOrd for Place {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
