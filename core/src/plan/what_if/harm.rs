//! The harm that a cut that was not planned would do at a site: the limit that it breaks, or that
//! nobody knows.

use crate::case::{
    Clearance, DistanceTo, Height, MeasuredAt, Place, SitePlace, StructureExtent, StructureKind,
    WallSide,
};
use crate::dentition::ToothPosition;
use crate::kit::SiteId;
use crate::measure::Length;
use crate::plan::clearance::neighbours::PlacedSite;
use crate::plan::clearance::space::{self, Axis};
use crate::plan::depth::cuts::{Bore, SiteCuts};
use crate::plan::depth::stale::deeper_since;
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
    /// Everything whose limit it breaks, what it breaks by most first.
    pub(in crate::plan) breaks: Vec<Endangered>,
    /// True if there is anatomy there, besides, that nobody knows.
    pub(in crate::plan) unknown: bool,
}

/// A clearance as planned.
struct Margin {
    what: Endangered,
    side: Side,
    /// Growth of the cut up to which the limit holds, at most; below zero where it is broken as
    /// planned, nothing where nobody knows.
    left: Option<Length>,
    limit: Length,
    /// True if that much is left indeed.
    is_known: bool,
}

/// The way in which a cut has to grow to come nearer.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Side {
    /// Deeper: each millimetre along the axis takes at most one.
    Below,
    /// Wider; below what was measured, nobody knows.
    Beside,
    /// Wider, or deeper by what the other axis comes nearer there.
    Axes(AxesApart),
    /// Wider only: at the platform or another height that every cut passes.
    Height,
}

/// Two axes, as they were measured or as the arch model has them.
#[derive(Debug, Clone, Copy, PartialEq)]
struct AxesApart {
    own: Axis,
    other: Axis,
    /// Depth of the deepest cut along the other.
    other_end: Length,
    other_radius: Length,
}

impl AxesApart {
    fn of(own: &PlacedSite<'_>, other: &PlacedSite<'_>) -> Option<Self> {
        let (a, b) = own.axis.zip(other.axis)?;
        let (a, b) = if a.measured && b.measured {
            (a, b)
        } else {
            (a.levelled(), b.levelled())
        };
        Some(Self {
            own: a,
            other: b,
            other_end: other.cut.deepest().known().get()?,
            other_radius: other.cut.widest_radius().known().get()?,
        })
    }

    /// Bone that a cut to this depth of this width leaves.
    fn left(&self, depth: Length, wide: Length) -> Length {
        let (depth, end) = (depth.max(Length::ZERO).mm(), self.other_end.mm());
        let apart = space::segment_distance(&self.own, depth, &self.other, end);
        Length::floor_mm(apart) - wide.half_ceil() - self.other_radius
    }
}

/// A cut that was not planned.
#[derive(Debug, Clone, Copy)]
struct Unplanned {
    depth: Length,
    wide: Length,
    /// Excess over the deepest that is planned.
    deeper: Length,
    /// Excess in width over the last drill.
    wider: Option<Length>,
    /// Excess over the radius of the last drill.
    aside: Length,
}

impl Margin {
    /// The length by which a cut breaks the limit; nothing where it takes nothing from it, or not
    /// enough.
    fn broken_by(&self, cut: Unplanned) -> Option<Length> {
        let left = self.left?;
        let taken = match self.side {
            Side::Below => cut.deeper,
            Side::Beside | Side::Height => cut.aside,
            Side::Axes(axes) => {
                let leaves = axes.left(cut.depth, cut.wide) - self.limit;
                (left - leaves).max(Length::ZERO)
            }
        };
        (taken > left.max(Length::ZERO)).then(|| taken - left)
    }
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
    /// Those of one of the sites; nothing where its planned cuts are not known themselves.
    pub(in crate::plan) fn of(
        one: &PlacedSite<'_>,
        all: &[PlacedSite<'_>],
        findings: &[Finding],
    ) -> Option<Self> {
        let cut = &one.cut;
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
            margins: margins(one, all, findings),
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
        let cut = self.unplanned(depth, wide);
        let exceeded = self.exceeded(sheet, cut)?;
        let (deeper, wider, breaks, unknown) = match exceeded {
            Exceeded::Site => {
                let unknown = !self.is_known_down_to(depth);
                (cut.deeper, cut.wider, self.broken(cut), unknown)
            }
            Exceeded::Width => {
                let unknown = !self.is_known_beside(depth);
                (Length::ZERO, cut.wider, self.broken(cut), unknown)
            }
            Exceeded::Step => (depth - sheet.cut.length()?, None, Vec::new(), false),
        };
        Some(CutHarm {
            exceeded,
            deeper,
            wider,
            breaks,
            unknown,
        })
    }

    /// True if a cut of this depth and diameter would do harm in a step.
    pub(in crate::plan) fn is_harmed(
        &self,
        sheet: &StepSheet,
        depth: Length,
        wide: Length,
    ) -> bool {
        self.exceeded(sheet, self.unplanned(depth, wide)).is_some()
    }

    fn unplanned(&self, depth: Length, wide: Length) -> Unplanned {
        let wider = self.wider(depth, wide);
        Unplanned {
            depth,
            wide,
            deeper: (depth - self.deepest).max(Length::ZERO),
            wider,
            aside: wider.unwrap_or_default().half_ceil(),
        }
    }

    /// The measure by which a cut does harm in a step.
    fn exceeded(&self, sheet: &StepSheet, cut: Unplanned) -> Option<Exceeded> {
        let is_wider = cut.wider.is_some();
        if cut.deeper > Length::ZERO
            && (is_wider || !self.is_known_down_to(cut.depth) || self.breaks_any(cut))
        {
            return Some(Exceeded::Site);
        }
        if is_wider {
            return Some(Exceeded::Width);
        }
        // A pass that is meant to stop short, as before a control radiograph, or a profile.
        let is_deeper = cut.depth > sheet.cut.length()?;
        (!sheet.is_full_depth() && is_deeper).then_some(Exceeded::Step)
    }

    fn breaks_any(&self, cut: Unplanned) -> bool {
        let mut margins = self.margins.iter();
        margins.any(|margin| margin.broken_by(cut).is_some())
    }

    /// Everything whose limit a cut breaks, what it breaks by most first.
    fn broken(&self, cut: Unplanned) -> Vec<Endangered> {
        let mut by: BTreeMap<&Endangered, Length> = BTreeMap::new();
        for margin in &self.margins {
            if let Some(broken) = margin.broken_by(cut) {
                let most = by.entry(&margin.what).or_insert(broken);
                *most = (*most).max(broken);
            }
        }
        let mut broken: Vec<_> = by.into_iter().collect();
        broken.sort_by_key(|(_, by)| std::cmp::Reverse(*by));
        broken.into_iter().map(|(what, _)| what.clone()).collect()
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
        below && self.all_known_down_to(depth, |_| true)
    }

    /// The same of what only a wider cut comes nearer to.
    fn is_known_beside(&self, depth: Length) -> bool {
        self.all_known_down_to(depth, |side| side != Side::Below)
    }

    fn all_known_down_to(&self, depth: Length, counts: impl Fn(Side) -> bool) -> bool {
        let mut margins = self.margins.iter().filter(|margin| counts(margin.side));
        margins.all(|margin| {
            margin.is_known && (margin.side != Side::Beside || depth <= self.measured_to)
        })
    }
}

/// Depth down to which everything beside the axis was measured: the least over walls, neighbours
/// and structures; each as deep as the deepest measure of it, less what any cut was carried deeper since.
fn measured_to(cut: &SiteCuts<'_>) -> Length {
    let site = cut.site.site;
    let reaches = |at: Height| matches!(at, Height::Apex | Height::Least);
    let mut each: BTreeMap<Endangered, Length> = BTreeMap::new();
    let drills = cut.site.kit.drills.iter();
    let widest = drills.map(|drill| drill.cutting_diameter_mm).max();
    let widest = widest.unwrap_or_default().half_ceil();
    let mut take = |what: Endangered, then: &MeasuredAt| {
        let deeper = deeper_since(&cut.site, then, widest);
        let depth = each.entry(what).or_insert(Length::ZERO);
        *depth = deeper.map_or(*depth, |deeper| (*depth).max(then.depth() - deeper));
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
fn margins(one: &PlacedSite<'_>, all: &[PlacedSite<'_>], findings: &[Finding]) -> Vec<Margin> {
    let here = &one.cut.site.site.id;
    let margin = |finding: &Finding| {
        let what = near(&finding.place, here)?;
        let axes = || match &what {
            Endangered::Site(id) => {
                let mut others = all.iter().filter(|other| other.cut.site.site.id == *id);
                others.next().and_then(|other| AxesApart::of(one, other))
            }
            _ => None,
        };
        let side = side(finding, axes)?;
        let limit = finding.limit.and_then(Quantity::length);
        let left = finding
            .judged_length()
            .zip(limit)
            .map(|(is, limit)| is - limit);
        Some(Margin {
            what,
            side,
            left,
            limit: limit.unwrap_or_default(),
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
        | SitePlace::SocketGap
        | SitePlace::Density
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
fn side(finding: &Finding, axes: impl FnOnce() -> Option<AxesApart>) -> Option<Side> {
    let rule_of_figure = finding.figure.as_ref().map(|figure| figure.rule);
    Some(match finding.rule.clearance()? {
        Clearance::DeepStructure => match rule_of_figure {
            Some(FigureRule::StructureBeside) => Side::Beside,
            _ => Side::Below,
        },
        Clearance::StructureBelowNotMeasured => Side::Below,
        Clearance::Wall => match finding.place.site_place() {
            Some(SitePlace::Wall(_, Height::Crest | Height::Mid)) => Side::Height,
            _ => Side::Beside,
        },
        Clearance::WallNotMeasured
        | Clearance::StructureBesideNotMeasured
        | Clearance::OralProfileNotMeasured
        | Clearance::NeighbourRoot
        | Clearance::NeighbourOldImplant
        | Clearance::NeighbourNotEntered
        | Clearance::BoneTowardsSocket => Side::Beside,
        Clearance::NeighbourImplant => Side::Height,
        Clearance::NeighbourImplantBody => match rule_of_figure {
            Some(FigureRule::PairAxes) => axes().map_or(Side::Beside, Side::Axes),
            _ => Side::Beside,
        },
        // Room, angles and contradictions of what was entered: no margin that a cut takes from.
        Clearance::DrillSleeveRoom
        | Clearance::TissueRoom
        | Clearance::Convergence
        | Clearance::DistanceToNoRoot
        | Clearance::DistancesDisagree
        | Clearance::RootDistancesDisagree
        | Clearance::MeasuredDownTooFar
        | Clearance::MeasuredTooFar
        | Clearance::SitesMeasuredTooFar
        | Clearance::PlacesDisagree
        | Clearance::PlatformAboveCrest
        | Clearance::SiteAwayFromItsTooth
        | Clearance::SocketGapUnusual
        | Clearance::SocketNotEntered
        | Clearance::SocketWithoutTooth
        | Clearance::ToothAtSite
        | Clearance::MeasuredTooNear
        | Clearance::AxisTiltedFar
        | Clearance::WallsDisagree
        | Clearance::ConfirmedDisagree => return None,
    })
}
