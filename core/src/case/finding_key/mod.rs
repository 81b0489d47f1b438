//! The key by which a decision names its finding: the rule that was checked and the place.

mod place;
mod rule;

pub use place::{Field, Place, SiteHeight, SitePlace};
pub use rule::{Clearance, Rule};

use super::{Height, ReceiptOf, StructureKind, WallSide};
use std::fmt;

/// The subject of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// Distance to anatomy or to a neighbour.
    Clearance,
    /// The fit of instruments to each other and to the plan.
    Instrument,
    /// The number of instruments there are, and their places on the tray.
    Stock,
    /// The order and choice of drills.
    Sequence,
    /// The guide as it came.
    Guide,
}

impl Subject {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Clearance => "clearance",
            Self::Instrument => "instrument",
            Self::Stock => "stock",
            Self::Sequence => "sequence",
            Self::Guide => "guide",
        }
    }
}

/// The key by which a decision names its finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingKey {
    /// The rule.
    pub rule: Rule,
    /// The place.
    pub place: Place,
}

impl fmt::Display for FindingKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.rule, self.place)
    }
}

impl FindingKey {
    /// The key that was written so; nothing where no finding of today has it.
    ///
    /// The rule says what is meant where a path alone does not: `distances[45]` is that to another
    /// site for the rules of two planned implants, and `obstacles[11]` a crown for its own rule.
    #[must_use]
    pub fn parse(written: &str) -> Option<Self> {
        let (rule, path) = written.split_once(' ')?;
        let rule = Rule::of_key(rule)?;
        let place = Self::place(rule, path)?;
        Some(Self { rule, place })
    }

    fn place(rule: Rule, path: &str) -> Option<Place> {
        let inside = |before: &str| path.strip_prefix(before)?.strip_suffix(']');
        let plain = [
            Place::Sites,
            Place::Arch,
            Place::AcceptedOrder,
            Place::Tray,
            Place::Pins,
            Place::Kit,
        ];
        if let Some(place) = plain.into_iter().find(|place| place.key() == path) {
            return Some(place);
        }
        if let Some(rest) = path.strip_prefix("sites[") {
            return Some(match rest.split_once("].") {
                Some((site, part)) => Place::Site(site.into(), site_place(rule, part)?),
                None => Place::Site(rest.strip_suffix(']')?.into(), SitePlace::Whole),
            });
        }
        if let Some(n) = inside("guide.pins[") {
            return Some(Place::Pin(n.parse().ok()?));
        }
        if let Some(receipt) = inside("guide.receipt[") {
            return Some(match receipt.split_once(' ') {
                None => Place::Receipt(receipt.into()),
                Some((site, of)) => {
                    let of = ReceiptOf::of_key(of)?;
                    Place::ReceiptOf(site.into(), of)
                }
            });
        }
        if let Some(thing) = inside("loading[") {
            let (entry, copy) = thing.rsplit_once(' ')?;
            let (entry, copy) = (entry.to_owned(), copy.parse().ok()?);
            return Some(Place::Loading { entry, copy });
        }
        if let Some(slots) = inside("tray[") {
            let (one, other) = slots.split_once("][")?;
            return Some(Place::SideBySide(one.into(), other.into()));
        }
        if let Some(slot) = inside("tray_places[") {
            return Some(Place::TrayPlace(slot.into()));
        }
        let (list, entry) = inside("kit.")?.split_once('[')?;
        let mut lists = crate::kit::LISTS.iter();
        let list = lists.find(|one| **one == list)?;
        let entry = entry.to_owned();
        Some(Place::KitEntry { list, entry })
    }
}

fn site_place(rule: Rule, part: &str) -> Option<SitePlace> {
    let inside = |before: &str| part.strip_prefix(before)?.strip_suffix(']');
    let plain = [
        SitePlace::Placement,
        SitePlace::PlatformToSleeve,
        SitePlace::Heights,
        SitePlace::Height(SiteHeight::PlatformBelowCrest),
        SitePlace::Height(SiteHeight::TissueThickness),
        SitePlace::Height(SiteHeight::CrestBelowOcclusal),
        SitePlace::SocketGap,
        SitePlace::Obstacles,
        SitePlace::Steps,
        SitePlace::Insertion,
    ];
    if let Some(place) = plain.into_iter().find(|place| place.to_string() == part) {
        return Some(place);
    }
    if let Some(wall) = inside("walls[") {
        return Some(match wall.split_once(' ') {
            None => SitePlace::WallSide(WallSide::of_key(wall)?),
            Some((side, at)) => SitePlace::Wall(WallSide::of_key(side)?, Height::of_key(at)?),
        });
    }
    if let Some(to) = inside("distances[") {
        return Some(if rule.is_of_two_sites() || rule == Rule::GuideLeft {
            SitePlace::ToSite(to.into(), None)
        } else {
            SitePlace::ToTooth(to.parse().ok()?, None)
        });
    }
    if let Some(kind) = inside("structures[") {
        return StructureKind::of_key(kind).map(SitePlace::Structure);
    }
    if let Some(obstacle) = inside("obstacles[") {
        return match rule {
            Rule::CrownNotMeasured | Rule::CrownOfNoTooth => {
                obstacle.parse().ok().map(SitePlace::Crown)
            }
            _ => obstacle.parse().ok().map(SitePlace::Obstacle),
        };
    }
    inside("steps[").map(|step| SitePlace::Step(step.into()))
}

#[cfg(test)]
mod tests;
