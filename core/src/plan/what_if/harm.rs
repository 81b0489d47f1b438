//! The harm that a cut that was not planned would do at a site: the limit that it breaks, or that
//! nobody knows.

use crate::case::{
    Clearance, DistanceTo, Height, MeasuredAt, Place, SitePlace, StructureExtent, StructureKind,
    WallSide,
};
use crate::dentition::ToothPosition;
use crate::kit::SiteId;
use crate::measure::Length;
use crate::plan::depth::cuts::{Bore, SiteCuts};
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Known, Quantity};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Verdict};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// The thing that a cut comes too close to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Endangered {
    /// A deep structure.
    Structure(StructureKind),
    /// A wall.
    Wall(WallSide),
    /// The tooth or implant at a tooth position.
    Tooth(ToothPosition),
    /// Another planned implant.
    Site(SiteId),
}

impl Endangered {
    /// Its name in files.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::Structure(kind) => kind.key().to_owned(),
            Self::Wall(side) => format!("{}_wall", side.key()),
            Self::Tooth(position) => format!("tooth {position}"),
            Self::Site(site) => format!("site {site}"),
        }
    }

    /// The order in which two that are equally near come.
    fn rank(&self) -> (u8, &str, Option<ToothPosition>) {
        match self {
            Self::Structure(kind) => (0, kind.key(), None),
            Self::Wall(side) => (1, side.key(), None),
            Self::Tooth(position) => (2, "", Some(*position)),
            Self::Site(site) => (3, site.as_str(), None),
        }
    }
}

impl Ord for Endangered {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}

impl PartialOrd for Endangered {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The measure that a cut exceeds: the deepest planned at the site, the width, or its own step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Exceeded {
    /// Deeper than all that is planned at the site.
    Site,
    /// No deeper, but wider than the site's last drill.
    Width,
    /// Only deeper than its step is planned to cut, which is not full depth.
    Step,
}

impl Exceeded {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Site => "site",
            Self::Width => "width",
            Self::Step => "step",
        }
    }
}

/// The harm of a cut.
pub(super) struct CutHarm {
    pub(in crate::plan) exceeded: Exceeded,
    /// Excess in depth, zero where no deeper.
    pub(in crate::plan) deeper: Length,
    /// Excess in width over the site's last drill.
    pub(in crate::plan) wider: Option<Length>,
    pub(in crate::plan) endangered: Option<Endangered>,
}

/// A clearance as planned.
struct Margin {
    what: Endangered,
    side: Side,
    /// Growth of the cut up to which the limit holds, at most; below zero where it is broken as
    /// planned, nothing where nobody knows.
    left: Option<Length>,
    /// True if that much is left indeed.
    is_known: bool,
}

/// The way in which a cut has to grow to come nearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// Deeper: each millimetre along the axis takes at most one.
    Below,
    /// Wider; below what was measured, nobody knows.
    Beside,
    /// Wider, or deeper along a measured axis, each millimetre at most one.
    Axes,
    /// Wider only: at the platform or another height that every cut passes.
    Height,
}

/// The margins around a site, to hold unplanned cuts against.
pub(super) struct SiteMargins {
    /// The planned cuts.
    bores: Vec<Bore>,
    /// The deepest of the implant and the planned cuts.
    deepest: Length,
    /// The widest cut to full depth, or of all where none goes there.
    last_diameter: Length,
    /// Depth down to which everything beside the axis was measured.
    measured_to: Length,
    margins: Vec<Margin>,
}

impl SiteMargins {
    /// Nothing where the planned cuts are not known themselves.
    pub(in crate::plan) fn of(cut: &SiteCuts<'_>, findings: &[Finding]) -> Option<Self> {
        let deepest = cut.deepest().known().get()?;
        let Known::Is(bores) = cut.bores().known() else {
            return None;
        };
        let widest = |wanted: fn(&StepSheet) -> bool| {
            let wanted = cut.steps.iter().filter(|sheet| wanted(sheet));
            wanted.map(|sheet| sheet.diameter).max()
        };
        let last_diameter = widest(StepSheet::is_full_depth).or_else(|| widest(|_| true))?;
        Some(Self {
            bores,
            deepest,
            last_diameter,
            measured_to: measured_to(cut),
            margins: margins(cut, findings),
        })
    }

    /// The harm that a cut of this depth and diameter would do in a step; nothing where it is no
    /// deeper and no wider than planned, or breaks nothing.
    pub(in crate::plan) fn harm(
        &self,
        sheet: &StepSheet,
        depth: Length,
        wide: Length,
    ) -> Option<CutHarm> {
        let deeper = (depth - self.deepest).max(Length::ZERO);
        let wider = self.wider(depth, wide);
        let aside = wider.unwrap_or_default().half_ceil();
        let endangered = || {
            let endangered = self.margins.iter().filter(|margin| {
                let taken = match margin.side {
                    Side::Below => deeper,
                    Side::Axes => deeper + aside,
                    Side::Beside | Side::Height => aside,
                };
                let left = margin.left.map(|left| left.max(Length::ZERO));
                left.is_some_and(|left| taken > left)
            });
            let nearest = endangered.min_by_key(|margin| (margin.left, margin.what.clone()));
            nearest.map(|margin| margin.what.clone())
        };
        if deeper > Length::ZERO {
            let endangered = endangered();
            if endangered.is_some() || wider.is_some() || !self.is_known_down_to(depth) {
                return Some(CutHarm {
                    exceeded: Exceeded::Site,
                    deeper,
                    wider,
                    endangered,
                });
            }
        }
        if wider.is_some() {
            return Some(CutHarm {
                exceeded: Exceeded::Width,
                deeper: Length::ZERO,
                wider,
                endangered: endangered(),
            });
        }
        // A pass that is meant to stop short, as before a control radiograph, or a profile.
        let deeper = depth - sheet.cut.length()?;
        let too_deep = !sheet.is_full_depth() && deeper > Length::ZERO;
        too_deep.then_some(CutHarm {
            exceeded: Exceeded::Step,
            deeper,
            wider: None,
            endangered: None,
        })
    }

    /// Excess in width of a cut over the site's last drill; nothing where a planned one is as wide
    /// and as deep, as that of a profile drill.
    fn wider(&self, depth: Length, wide: Length) -> Option<Length> {
        let covers = |bore: &Bore| bore.diameter >= wide && bore.depth >= depth;
        let planned = self.bores.iter().any(covers);
        let wider = wide - self.last_diameter;
        (depth > Length::ZERO && !planned && wider > Length::ZERO).then_some(wider)
    }

    /// True if all margins are known for a cut that goes to this depth.
    fn is_known_down_to(&self, depth: Length) -> bool {
        let below = self.margins.iter().any(|margin| margin.side == Side::Below);
        below
            && self.margins.iter().all(|margin| {
                margin.is_known && (margin.side != Side::Beside || depth <= self.measured_to)
            })
    }
}

/// Depth down to which everything beside the axis was measured: the least over walls, neighbours
/// and structures; each as deep as the deepest measure of it.
fn measured_to(cut: &SiteCuts<'_>) -> Length {
    let site = cut.site.site;
    let reaches = |at: Height| matches!(at, Height::Apex | Height::Least);
    let mut each: BTreeMap<Endangered, Length> = BTreeMap::new();
    let mut take = |what: Endangered, then: &MeasuredAt| {
        let depth = each.entry(what).or_insert(Length::ZERO);
        *depth = (*depth).max(then.depth());
    };
    for wall in site.walls.iter().filter(|wall| reaches(wall.at)) {
        take(Endangered::Wall(wall.side), &wall.measured_at);
    }
    for distance in site.distances.iter().filter(|d| reaches(d.at)) {
        let to = match &distance.to {
            DistanceTo::Tooth { position } => Endangered::Tooth(*position),
            DistanceTo::Site { site } => Endangered::Site(site.clone()),
        };
        take(to, &distance.measured_at);
    }
    for structure in &site.structures {
        if matches!(structure.extent, StructureExtent::Beside { .. }) {
            take(
                Endangered::Structure(structure.kind),
                &structure.measured_at,
            );
        }
    }
    // Of a distance that was entered at the other site only, that site knows.
    for other in cut
        .site
        .case
        .sites
        .iter()
        .filter(|other| other.id != site.id)
    {
        let to_here = |d: &&crate::case::Distance| {
            reaches(d.at) && matches!(&d.to, DistanceTo::Site { site: to } if *to == site.id)
        };
        for distance in other.distances.iter().filter(to_here) {
            if let Some(then) = &distance.other_measured_at {
                take(Endangered::Site(other.id.clone()), then);
            }
        }
    }
    each.into_values().min().unwrap_or_default()
}

/// The clearances of a site by what was found.
fn margins(cut: &SiteCuts<'_>, findings: &[Finding]) -> Vec<Margin> {
    let here = &cut.site.site.id;
    let margin = |finding: &Finding| {
        let what = near(&finding.place, here)?;
        let side = side(finding)?;
        let limit = finding.limit.and_then(Quantity::length);
        let left = finding
            .judged_length()
            .zip(limit)
            .map(|(is, limit)| is - limit);
        Some(Margin {
            what,
            side,
            left,
            is_known: finding.verdict != Verdict::Unknown && finding.length_value().is_some(),
        })
    };
    findings.iter().filter_map(margin).collect()
}

/// The anatomy near the place of a clearance, seen from a site; nothing for the clearances of
/// others.
fn near(place: &Place, here: &SiteId) -> Option<Endangered> {
    let Place::Site(at, part) = place else {
        return None;
    };
    // A pair of sites is told at one of them.
    if let SitePlace::ToSite(to, _) = part
        && to == here
    {
        return Some(Endangered::Site(at.clone()));
    }
    if at != here {
        return None;
    }
    match part {
        SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind) => {
            Some(Endangered::Structure(*kind))
        }
        SitePlace::WallSide(side) | SitePlace::Wall(side, _) => Some(Endangered::Wall(*side)),
        SitePlace::ToTooth(position, _) => Some(Endangered::Tooth(*position)),
        SitePlace::ToSite(to, _) => Some(Endangered::Site(to.clone())),
        SitePlace::Whole
        | SitePlace::Placement
        | SitePlace::PlatformToSleeve
        | SitePlace::Heights
        | SitePlace::Height(_)
        | SitePlace::Obstacles
        | SitePlace::Obstacle(_)
        | SitePlace::ObstacleRim(_)
        | SitePlace::Crown(_)
        | SitePlace::Steps
        | SitePlace::Step(_)
        | SitePlace::Insertion
        | SitePlace::Carrier => None,
    }
}

/// The way in which a cut has to grow to come nearer; nothing for a finding that no cut makes
/// worse.
fn side(finding: &Finding) -> Option<Side> {
    let rule_of_figure = finding.figure.as_ref().map(|figure| figure.rule);
    Some(match finding.rule.clearance()? {
        Clearance::DeepStructure => match rule_of_figure {
            Some(FigureRule::StructureBeside) => Side::Beside,
            _ => Side::Below,
        },
        Clearance::Wall => match finding.place.site_place() {
            Some(SitePlace::Wall(_, Height::Crest | Height::Mid)) => Side::Height,
            _ => Side::Beside,
        },
        Clearance::WallNotMeasured
        | Clearance::OralProfileNotMeasured
        | Clearance::NeighbourRoot
        | Clearance::NeighbourOldImplant
        | Clearance::NeighbourNotEntered => Side::Beside,
        Clearance::NeighbourImplant => Side::Height,
        Clearance::NeighbourImplantBody => match rule_of_figure {
            Some(FigureRule::PairAxes) => Side::Axes,
            _ => Side::Beside,
        },
        // Room, angles and contradictions of what was entered: no margin that a cut takes from.
        Clearance::TissueRoom
        | Clearance::Convergence
        | Clearance::DistanceToNoRoot
        | Clearance::DistancesDisagree
        | Clearance::SiteAwayFromItsTooth
        | Clearance::ToothAtSite => return None,
    })
}
