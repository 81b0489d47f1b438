//! Places put into words: what is meant, and at which site.

use super::Formatter;
use crate::case::{Height, StructureKind, WallSide, keyed};
use crate::dentition::Jaw;
use crate::kit::SiteId;
use crate::plan::{Place, SiteHeight, SitePlace};
use crate::text::Texts;

keyed! {
    /// The kind of a place by which it is put into words; its key ends the ids of its texts.
    PlaceKey {
        AnteriorLoop = "anterior_loop_mm",
        Arch = "arch",
        Carrier = "carrier",
        CrestBelowOcclusal = "crest_below_occlusal_mm",
        Density = "density",
        Distance = "distance",
        Gauge = "gauge",
        GaugeConstant = "gauge-constant",
        GaugeFace = "gauge-face",
        Head = "head",
        HeightsMeasuredAt = "heights-measured_at",
        Limit = "limit",
        Obstacle = "obstacle",
        Other = "other",
        PlatformBelowCrest = "platform_below_crest",
        PlatformToSleeve = "platform_to_sleeve",
        SocketGap = "gap_mm",
        SocketRim = "platform_below_socket_rim_mm",
        Steps = "steps",
        Structure = "structure",
        TissueThickness = "tissue_thickness_mm",
        Tooth = "tooth",
        Tray = "tray",
        Wall = "wall",
    }
}

/// The meaning of a place: the key of its texts with their arguments.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct PlaceMeaning {
    pub(super) key: PlaceKey,
    pub(super) args: Vec<(&'static str, String)>,
}

impl Formatter<'_> {
    /// The meaning of a place.
    pub(super) fn meant(&self, place: &Place) -> PlaceMeaning {
        let meant = |key, args: &[(&'static str, String)]| PlaceMeaning {
            key,
            args: args.to_vec(),
        };
        match place {
            Place::Site(site, part) => self.meant_at_site(place, site, part),
            Place::Tooth(position) => meant(PlaceKey::Tooth, &[("tooth", self.tooth(*position))]),
            Place::Limit(limit) => {
                meant(PlaceKey::Limit, &[("limit", self.limit_name(limit.key()))])
            }
            Place::Convergence => meant(
                PlaceKey::Limit,
                &[("limit", self.limit_name("convergence"))],
            ),
            Place::Gauge => meant(PlaceKey::Gauge, &[]),
            Place::Head => meant(PlaceKey::Head, &[]),
            Place::Tray => meant(PlaceKey::Tray, &[]),
            Place::GaugeFace(gauge) => meant(PlaceKey::GaugeFace, &[("gauge", self.gauge(gauge))]),
            Place::GaugeConstant(gauge) => {
                meant(PlaceKey::GaugeConstant, &[("gauge", self.gauge(gauge))])
            }
            Place::Arch => meant(PlaceKey::Arch, &[]),
            Place::Sites
            | Place::AcceptedOrder
            | Place::Pins
            | Place::Pin(_)
            | Place::Receipts
            | Place::Receipt(_)
            | Place::ReceiptOf(..)
            | Place::Kit
            | Place::KitEntry { .. }
            | Place::GuidedFrom(_)
            | Place::Loading { .. }
            | Place::SideBySide(..)
            | Place::TrayPlace(_) => by_path(place),
        }
    }

    fn meant_at_site(&self, place: &Place, site: &SiteId, part: &SitePlace) -> PlaceMeaning {
        let plain = |key| PlaceMeaning {
            key,
            args: Vec::new(),
        };
        let wall = |side: WallSide, height: String| PlaceMeaning {
            key: PlaceKey::Wall,
            args: vec![("side", self.wall_side(side)), ("height", height)],
        };
        let distance = |to: String, at: &Option<Height>| PlaceMeaning {
            key: PlaceKey::Distance,
            args: vec![
                ("to", to),
                ("height", at.map(|at| self.height(at)).unwrap_or_default()),
            ],
        };
        match part {
            SitePlace::PlatformToSleeve => plain(PlaceKey::PlatformToSleeve),
            SitePlace::Height(height) => plain(match height {
                SiteHeight::PlatformBelowCrest => PlaceKey::PlatformBelowCrest,
                SiteHeight::SocketRim => PlaceKey::SocketRim,
                SiteHeight::TissueThickness => PlaceKey::TissueThickness,
                SiteHeight::CrestBelowOcclusal => PlaceKey::CrestBelowOcclusal,
                SiteHeight::MeasuredAt => PlaceKey::HeightsMeasuredAt,
            }),
            SitePlace::SocketGap => plain(PlaceKey::SocketGap),
            SitePlace::Density => plain(PlaceKey::Density),
            SitePlace::Carrier => plain(PlaceKey::Carrier),
            SitePlace::Steps => plain(PlaceKey::Steps),
            SitePlace::AnteriorLoop(_) => plain(PlaceKey::AnteriorLoop),
            SitePlace::Structure(kind) => PlaceMeaning {
                key: PlaceKey::Structure,
                args: vec![("structure", self.structure(*kind))],
            },
            SitePlace::WallSide(side) => wall(*side, "none".to_owned()),
            SitePlace::Wall(side, height) => wall(*side, self.height(*height)),
            SitePlace::ToTooth(position, at) => distance(self.tooth(*position), at),
            SitePlace::ToSite(to, at) => distance(self.site(to), at),
            SitePlace::Obstacle(n) | SitePlace::ObstacleRim(n) => PlaceMeaning {
                key: PlaceKey::Obstacle,
                args: vec![("obstacle", self.obstacle(site, *n))],
            },
            SitePlace::Whole
            | SitePlace::Placement
            | SitePlace::Heights
            | SitePlace::Obstacles
            | SitePlace::Crown(_)
            | SitePlace::Step(_)
            | SitePlace::Insertion => by_path(place),
        }
    }

    /// A structure: "mandibular canal".
    #[must_use]
    pub fn structure(&self, kind: StructureKind) -> String {
        structure(kind, self.texts)
    }

    /// A limit by its key: "implant to implant at the platform".
    pub(super) fn limit_name(&self, key: &str) -> String {
        self.word(&format!("limit-{key}"))
    }

    /// A height along the implant: "at the crest".
    #[must_use]
    pub fn height(&self, height: Height) -> String {
        self.word(&format!("height-{}", height.key()))
    }

    /// A wall, in the words of the case's jaw.
    pub(super) fn wall_side(&self, side: WallSide) -> String {
        self.word(match (side, self.case.jaw) {
            (WallSide::Oral, Jaw::Upper) => "wall-side-oral-upper",
            (WallSide::Oral, Jaw::Lower) => "wall-side-oral-lower",
            (WallSide::Buccal, _) => "wall-side-buccal",
        })
    }

    fn obstacle(&self, site: &SiteId, n: usize) -> String {
        let site = self.case.site(site.as_str());
        let obstacle = site.and_then(|site| site.obstacles.get(n));
        self.name_or_id(obstacle.map(|obstacle| &obstacle.name), &n.to_string())
    }
}

/// A structure, as charts name it too.
pub(crate) fn structure(kind: StructureKind, texts: &Texts) -> String {
    texts.get(&format!("structure-{}", kind.key()), &[])
}

/// A place without words of its own, told by its path.
fn by_path(place: &Place) -> PlaceMeaning {
    PlaceMeaning {
        key: PlaceKey::Other,
        args: vec![("path", place.key())],
    }
}
