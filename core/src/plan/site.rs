//! One site with all its figures and findings.

use super::clearance::{confirmed, crest, plausible, room, structures, walls, with_any_gauge};
use super::depth::context::StepPath;
use super::depth::cuts::SiteCuts;
use super::depth::final_depth::{self, FinalDepth};
use super::depth::shortfall;
use super::depth::steps::StepSheet;
use super::figure::{Basis, Figure, Sign, Term, sum, weakest};
use super::finding::{Finding, Severity};
use super::fit::insertion::{self, InsertionSheet};
use super::fit::pins::PinSheet;
use super::fit::play::{self, Play};
use super::fit::{label, receipt, steps as fit};
use super::order::{cut_before, sequence_rules};
use super::what_if::alternatives::{self, FittingDistance, ShorterImplant};
use super::what_if::mix_ups::{self, NotTried};
use crate::case::SitePlace;
use crate::dentition::{ArchModel, ToothPosition};
use crate::kit::{ImplantId, SiteId, StepId};
use crate::measure::Length;
use crate::plan::figure_rule::FigureRule;
use crate::plan::term_name::TermName;

/// One site's figures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SiteSheet {
    /// The site.
    pub id: SiteId,
    /// The tooth that it replaces.
    pub tooth: ToothPosition,
    /// Its implant.
    pub implant: ImplantId,
    /// Its steps, in order.
    pub steps: Vec<StepSheet>,
    /// The play of each step; nothing for a freehand one.
    pub play: Vec<Option<Play>>,
    /// Deepest point of all cuts below the platform, tips included.
    pub deepest_cut: Figure,
    /// From the platform to the master sleeve's apical face.
    pub distance: Figure,
    /// With the guide seated, from the first guided step's seat down to the crest; nothing where
    /// nothing is guided or there is no crest to sound against.
    pub sounding: Option<Figure>,
    /// The insertion of the implant; nothing where it goes in freehand.
    pub insertion: Option<InsertionSheet>,
    /// The final depth of its platform; nothing where the guide leads it.
    pub final_depth: Option<FinalDepth>,
    /// From the planned platform to the implant's end; deeper by as much as a guide that leads it seats lower than planned.
    pub implant_end: Length,
    /// The next shorter implant's settings, where the kit has one.
    pub shorter: Option<ShorterImplant>,
    /// Distances at which fixed stops fit exactly, the best first.
    pub fitting_distances: Vec<FittingDistance>,
    /// The steps that a plan before cut here already.
    pub cut_before: Vec<StepId>,
    /// What has no figure, so that some mix-ups here could not be worked out.
    pub mix_ups_not_tried: NotTried,
    /// The worst severity of its findings.
    pub worst: Severity,
}

impl SiteSheet {
    /// The step that speaks for the site: of those of full depth the one that cuts deepest, the last
    /// of equals; where none goes to full depth, of all. Unknown counts as less than any depth.
    #[must_use]
    pub fn telling_step(&self) -> Option<&StepSheet> {
        let by_cut = |step: &&StepSheet| step.cut.length();
        let full = self.steps.iter().filter(|step| step.is_full_depth());
        full.max_by_key(by_cut)
            .or_else(|| self.steps.iter().max_by_key(by_cut))
    }
}

/// The case around a site.
pub(super) struct Around<'a> {
    /// The arch model, where its size is known.
    pub(super) arch: Option<&'a ArchModel>,
    /// What is drilled at all sites.
    pub(super) cuts: &'a [SiteCuts<'a>],
    /// And for all pins.
    pub(super) pins: &'a [PinSheet],
}

/// The figures of a site; its findings are added to `findings`.
/// `deepest` are the cuts as deep as any gauge could let them be, where there is none.
pub(super) fn site_sheet(
    cut: &SiteCuts<'_>,
    deepest: Option<&SiteCuts<'_>>,
    around: &Around<'_>,
    findings: &mut Vec<Finding>,
) -> SiteSheet {
    let site = &cut.site;
    let insertion = insertion::insertion(site);
    sequence_rules::check(cut, findings);
    cut_before::check(cut, findings);
    shortfall::check(cut, findings);
    label::check(site, findings);
    for (step, sheet) in site.steps().zip(cut.steps) {
        fit::check_step(site, &step, sheet, findings);
    }
    if let Some(insertion) = &insertion {
        insertion::check(site, insertion, findings);
    }
    let structures = |cut: &_, out: &mut _| structures::check(cut, around.arch, out);
    with_any_gauge(cut, deepest, structures, findings);
    with_any_gauge(cut, deepest, walls::check, findings);
    confirmed::check(cut, around.arch, findings);
    plausible::check(site, around.arch, findings);
    crest::check(cut, findings);
    room::check_tissue(cut, findings);
    room::check_drill_sleeve(cut, findings);
    with_any_gauge(cut, deepest, room::check_stop, findings);
    receipt::check(site, findings);
    let plays: Vec<Option<Play>> = site
        .steps()
        .zip(cut.steps)
        .map(|(step, sheet)| play::play(site, &step, sheet))
        .collect();
    play::check(site, &plays, findings);
    SiteSheet {
        id: site.site.id.clone(),
        tooth: site.site.tooth,
        implant: site.implant.id.clone(),
        steps: cut.steps.to_vec(),
        play: plays,
        deepest_cut: deepest_cut(cut),
        distance: sum(
            site.at(SitePlace::PlatformToSleeve).field("apical_mm"),
            FigureRule::Distance,
            site.distance_terms(),
        ),
        sounding: sounding(cut),
        insertion,
        final_depth: final_depth::final_depth(site),
        implant_end: site.implant_end(),
        shorter: alternatives::shorter(site),
        fitting_distances: alternatives::fitting_distances(cut),
        cut_before: (cut.site.cut_before())
            .filter_map(|one| one.step.clone())
            .collect(),
        mix_ups_not_tried: mix_ups::not_tried(cut, (around.cuts, around.pins)),
        worst: Severity::Clear,
    }
}

fn deepest_cut(cut: &SiteCuts<'_>) -> Figure {
    let terms: Vec<Term> = cut
        .steps
        .iter()
        .map(|step| step.cut.as_term(TermName::Cut, Sign::With))
        .chain(cut.site.cut_before().map(|one| {
            let place = cut.site.field("cut_before");
            let tip = one.tip(cut.site.site, cut.site.case);
            Term::case(TermName::CutBefore, place, tip, Basis::Entered).with()
        }))
        .collect();
    let id = cut.site.field("deepest_cut_mm");
    let value = cut.bores().known().map(|bores| {
        let depths = bores.iter().map(|bore| bore.depth);
        depths.max().unwrap_or_default()
    });
    Figure {
        basis: weakest(&terms),
        ..Figure::of_length(id, FigureRule::DeepestCut, value, terms)
    }
}

/// From the seat of the first guided step down to the crest, to be sounded with a probe through the
/// guide at hand.
fn sounding(cut: &SiteCuts<'_>) -> Option<Figure> {
    let first = cut
        .steps
        .iter()
        .find(|step| step.path != StepPath::Freehand)?;
    if cut.site.is_socket() {
        return None;
    }
    let mut terms = vec![
        first.seat.as_term(TermName::Seat, Sign::Plus),
        cut.site.crest().minus(),
    ];
    terms.extend(cut.site.receipt_deficit_term().map(Term::minus));
    terms.extend(cut.site.receipt_excess_term());
    Some(sum(
        cut.site.field("sounding_mm"),
        FigureRule::Sounding,
        terms,
    ))
}
