//! Places put into words: what is meant, and at which site.

use super::Formatter;
use crate::case::{Height, StructureKind, WallSide};
use crate::dentition::Jaw;
use crate::kit::SiteId;
use crate::plan::{Place, SiteHeight, SitePlace};
use crate::text::Texts;

/// The meaning of a place: the key of its texts with their arguments.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct PlaceMeaning {
    pub(super) key: &'static str,
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
            Place::Tooth(position) => meant("tooth", &[("tooth", self.tooth(*position))]),
            Place::Limit(limit) => meant("limit", &[("limit", self.limit_name(limit.key()))]),
            Place::Convergence => meant("limit", &[("limit", self.limit_name("convergence"))]),
            Place::Gauge => meant("gauge", &[]),
            Place::Head => meant("head", &[]),
            Place::Tray => meant("tray", &[]),
            Place::GaugeFace(gauge) => meant("gauge-face", &[("gauge", self.gauge(gauge))]),
            Place::Arch => meant("arch", &[]),
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
            key: "wall",
            args: vec![("side", self.wall_side(side)), ("height", height)],
        };
        let distance = |to: String, at: &Option<Height>| PlaceMeaning {
            key: "distance",
            args: vec![
                ("to", to),
                ("height", at.map(|at| self.height(at)).unwrap_or_default()),
            ],
        };
        match part {
            SitePlace::PlatformToSleeve => plain("platform_to_sleeve"),
            SitePlace::Height(height) => plain(match height {
                SiteHeight::PlatformBelowCrest => "platform_below_crest",
                SiteHeight::TissueThickness => "tissue_thickness_mm",
                SiteHeight::CrestBelowOcclusal => "crest_below_occlusal_mm",
                SiteHeight::MeasuredAt => "heights-measured_at",
            }),
            SitePlace::Carrier => plain("carrier"),
            SitePlace::Steps => plain("steps"),
            SitePlace::AnteriorLoop(_) => plain("anterior_loop_mm"),
            SitePlace::Structure(kind) => PlaceMeaning {
                key: "structure",
                args: vec![("structure", self.structure(*kind))],
            },
            SitePlace::WallSide(side) => wall(*side, String::new()),
            SitePlace::Wall(side, height) => wall(*side, self.height(*height)),
            SitePlace::ToTooth(position, at) => distance(self.tooth(*position), at),
            SitePlace::ToSite(to, at) => distance(self.site(to), at),
            SitePlace::Obstacle(n) | SitePlace::ObstacleRim(n) => PlaceMeaning {
                key: "obstacle",
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
    pub(super) fn structure(&self, kind: StructureKind) -> String {
        structure(kind, self.texts)
    }

    /// A limit by its key: "implant to implant at the platform".
    pub(super) fn limit_name(&self, key: &str) -> String {
        self.word(&format!("limit-{key}"))
    }

    /// A height along the implant.
    pub(super) fn height(&self, height: Height) -> String {
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
        key: "other",
        args: vec![("path", place.key())],
    }
}
