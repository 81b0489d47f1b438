//! Everything that follows from a case: one [`Worksheet`].
//!
//! Pure: no clock, no files, no state. The same case gives the same worksheet on every machine.
//! A value travels as a [`Figure`] that keeps what it came from; whatever cannot be worked out is
//! unknown with its reasons, never a default.

mod accepted;
mod alternatives;
mod changed;
mod clearance;
mod context;
mod depth;
mod figure;
mod final_depth;
mod finding;
mod fit;
mod hand;
mod harm;
mod holding;
mod insertion;
mod lay;
mod loading;
mod look_alikes;
mod neighbours;
mod order;
mod partial;
mod pieces;
mod pins;
mod play;
mod receipt;
mod room;
mod sequence;
mod sequence_rules;
mod setting;
mod share;
mod shortfall;
mod sleeves;
mod space;
mod stale;
mod stock;
mod stop_fit;
mod structures;
mod support;
mod token;
mod tray;
mod trial;
mod view;
mod walls;

pub use accepted::OrderBy;
pub use alternatives::{FittingDistance, NextImplants, Shorter, next_implants};
pub use changed::{ChangedSetting, changed_settings};
pub use context::StepPath;
pub use depth::StepSheet;
pub use figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
pub use final_depth::FinalDepth;
pub use finding::{
    Finding, Loosened, Severity, Subject, Verdict, Word, margin_verdict, may_be_intended,
};
pub use hand::{ActsOn, Hand};
pub use harm::{Broken, Than};
pub use holding::holding_by_default;
pub use insertion::InsertionSheet;
pub(crate) use lay::lay;
pub use loading::{LoadItem, Reset, Serves, SetOn};
pub use look_alikes::{LookAlike, Mistake};
pub use order::Operation;
pub use pins::PinSheet;
pub use play::Play;
pub use sequence::{NoProposal, propose, protocols_for, step_with, steps_of_protocol};
pub use setting::{Edge, MarkEdge};
pub(crate) use share::{Share, Wanted, shares};
pub use stale::{StaleValues, rim_now, stale_values};
pub use stock::StockLine;
pub use tray::{CannotLay, SideBySide, moved, side_by_side};
pub use trial::{Tried, edits_for_implant, tried};
pub use view::{case_jaw, plan_view, with_planned, with_planned_resets};

use crate::case::{Case, SiteState, ValidCase};
use crate::dentition::{Jaw, ToothPosition};
use crate::kit::{ImplantId, SiteId, StepId};
use crate::sign::Fingerprint;
use clearance::SiteCuts;
use context::SiteContext;
use figure::{sum, weakest};
use neighbours::Placed;

/// Everything that follows from a case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Worksheet {
    /// The case's reference.
    pub reference: String,
    /// The jaw.
    pub jaw: Jaw,
    /// The case's revision.
    pub revision: u32,
    /// Invented, for practice.
    pub demonstration: bool,
    /// Short name of all that determines a figure.
    pub fingerprint: Fingerprint,
    /// The sites, in the order of the case.
    pub sites: Vec<SiteSheet>,
    /// The fixation pins, in the order of the case.
    pub pins: Vec<PinSheet>,
    /// All findings, worst first.
    pub findings: Vec<Finding>,
    /// What to do, in order.
    pub order: Vec<Operation>,
    /// What decides that order.
    pub order_by: OrderBy,
    /// What goes on the tray, in the order of loading.
    pub loading: Vec<LoadItem>,
    /// What is set anew in surgery, in the order of use.
    pub resets: Vec<Reset>,
    /// How many of each thing are needed, and how many there are.
    pub stock: Vec<StockLine>,
    /// Mix-ups that would cut too deep or too wide.
    pub look_alikes: Vec<LookAlike>,
}

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
    /// How the implant goes in; nothing where it goes in freehand.
    pub insertion: Option<InsertionSheet>,
    /// Where its platform is to end; nothing where the guide leads it.
    pub final_depth: Option<FinalDepth>,
    /// The next shorter implant's settings, where the kit has one.
    pub shorter: Option<Shorter>,
    /// Distances at which fixed stops fit exactly, the best first.
    pub fitting_distances: Vec<FittingDistance>,
    /// Why some mix-ups here could not be reckoned; empty where all were.
    pub mix_ups_not_tried: Vec<Reason>,
    /// The worst severity of its findings.
    pub worst: Severity,
}

/// What this version of the program does not look at. It is said on screen and paper, so that
/// silence is not taken for clearance.
pub const NOT_ASSESSED: &[&str] = &["sleeve-room", "pins", "slope", "mouth-room", "accuracy"];

/// Works out everything that follows from a case.
#[must_use]
pub fn work_out(case: &ValidCase) -> Worksheet {
    let fingerprint = case.fingerprint();
    let case: &Case = case;
    let contexts: Vec<SiteContext<'_>> = case
        .sites
        .iter()
        .map(|site| SiteContext::new(case, site))
        .collect();
    let steps: Vec<Vec<StepSheet>> = contexts.iter().map(depth::work_out_steps).collect();
    let cuts: Vec<SiteCuts<'_>> = contexts
        .iter()
        .zip(&steps)
        .map(|(site, steps)| SiteCuts { site: *site, steps })
        .collect();
    let arch = space::arch_of(case);

    let mut findings = Vec::new();
    let mut sites: Vec<SiteSheet> = cuts
        .iter()
        .map(|cut| site_sheet(cut, &mut findings))
        .collect();
    let placed: Vec<Placed<'_>> = cuts
        .iter()
        .map(|cut| Placed {
            cut: *cut,
            axis: space::axis_of(cut.site.site, case.jaw, arch.as_ref()),
        })
        .collect();
    neighbours::check(&placed, arch.as_ref(), &mut findings);

    let soundable = sites.iter().filter(|site| site.sounding.is_some());
    let to_sound = soundable.map(|site| site.id.clone()).collect();
    let plain = order::use_order(case, &cuts, to_sound);
    let (order, order_by) = accepted::order_to_follow(case, plain);
    findings.extend(accepted::check(order_by));
    let pins = pins::work_out(case);
    pins::check(case, &pins, &mut findings);
    let pieces = pieces::pieces(case, &cuts, &pins, &order);
    let loaded = loading::loading(case, &cuts, &pieces.pieces, &order);
    let stock = stock::stock(case, &loaded.items, &pieces);
    check_tray(case, &loaded.items, &stock, &mut findings);
    if case.kit.demonstration && !case.demonstration {
        findings.push(
            Finding::new(Subject::Instrument, "kit-is-invented", "kit")
                .verdict(Verdict::Short)
                .arg("kit", &case.kit.name),
        );
    }
    findings.extend(support::check(case));
    if case.sites.is_empty() {
        findings
            .push(Finding::new(Subject::Sequence, "no-sites", "sites").verdict(Verdict::Unknown));
    }
    finding::attach_judgements(&mut findings, &case.judgements);
    finding::sort_worst_first(&mut findings);
    for sheet in &mut sites {
        let here = findings
            .iter()
            .filter(|f| f.site.as_ref() == Some(&sheet.id));
        sheet.worst = here.map(Finding::severity).min().unwrap_or(Severity::Clear);
    }
    Worksheet {
        reference: case.reference.to_string(),
        jaw: case.jaw,
        revision: case.revision,
        demonstration: case.demonstration,
        fingerprint,
        look_alikes: look_alikes::look_alikes(&cuts, &pins, &loaded, &findings),
        sites,
        pins,
        findings,
        order,
        order_by,
        loading: loaded.items,
        resets: loaded.resets,
        stock,
    }
}

impl Worksheet {
    /// The drill of a step as it is set for it, on the tray or by then set anew in surgery.
    #[must_use]
    pub fn drill_of(&self, site: &SiteId, step: &StepId) -> Option<&LoadItem> {
        drill_of(&self.loading, &self.resets, site, step)
    }

    /// What is set anew right before a thing in the order of use, by its place there, from 0.
    pub fn resets_before(&self, place: usize) -> impl Iterator<Item = &Reset> {
        self.resets.iter().filter(move |one| one.before == place)
    }

    /// What is set anew in surgery on a thing of the loading list, by its place there, from 0.
    pub fn resets_of(&self, item: usize) -> impl Iterator<Item = &Reset> {
        self.resets.iter().filter(move |one| one.item == item)
    }
}

fn drill_of<'a>(
    loading: &'a [LoadItem],
    resets: &'a [Reset],
    site: &SiteId,
    step: &StepId,
) -> Option<&'a LoadItem> {
    let mut all = loading.iter().chain(resets.iter().map(|one| &one.to));
    all.find(|item| item.set.is_some() && item.serves.iter().any(|one| one.is_step(site, step)))
}

fn site_sheet(cut: &SiteCuts<'_>, findings: &mut Vec<Finding>) -> SiteSheet {
    let site = &cut.site;
    let insertion = insertion::insertion(site);
    sequence_rules::check(cut, findings);
    shortfall::check(cut, findings);
    for (step, sheet) in site.steps().zip(cut.steps) {
        fit::check_step(site, &step, sheet, findings);
    }
    if let Some(insertion) = &insertion {
        insertion::check(site, insertion, findings);
    }
    structures::check(cut, findings);
    walls::check(cut, findings);
    room::check_tissue(cut, findings);
    room::check_stop(cut, findings);
    receipt::check(site, findings);
    SiteSheet {
        id: site.site.id.clone(),
        tooth: site.site.tooth,
        implant: site.implant.id.clone(),
        steps: cut.steps.to_vec(),
        play: site
            .steps()
            .zip(cut.steps)
            .map(|(step, sheet)| play::play(site, &step, sheet))
            .collect(),
        deepest_cut: deepest_cut(cut),
        distance: sum(
            site.field("platform_to_sleeve.apical_mm"),
            "rule-distance",
            site.distance_terms(),
        ),
        sounding: sounding(cut),
        insertion,
        final_depth: final_depth::final_depth(site),
        shorter: alternatives::shorter(site),
        fitting_distances: alternatives::fitting_distances(cut),
        mix_ups_not_tried: look_alikes::not_tried(cut),
        worst: Severity::Clear,
    }
}

fn deepest_cut(cut: &SiteCuts<'_>) -> Figure {
    let terms: Vec<Term> = cut
        .steps
        .iter()
        .map(|step| step.cut.as_term("term-cut", Sign::With))
        .collect();
    let id = cut.site.field("deepest_cut_mm");
    let value = cut.bores().known().map(|bores| {
        let depths = bores.iter().map(|bore| bore.depth);
        depths.max().unwrap_or_default()
    });
    Figure {
        basis: weakest(&terms),
        ..Figure::of_length(id, "rule-deepest-cut", value, terms)
    }
}

/// From the seat of the first guided step down to the crest, to be sounded with a probe.
fn sounding(cut: &SiteCuts<'_>) -> Option<Figure> {
    let first = cut
        .steps
        .iter()
        .find(|step| step.path != StepPath::Freehand)?;
    if matches!(cut.site.site.state, SiteState::FreshSocket { .. }) {
        return None;
    }
    let terms = vec![
        first.seat.as_term("term-seat", Sign::Plus),
        cut.site.crest().minus(),
    ];
    Some(sum(cut.site.field("sounding_mm"), "rule-sounding", terms))
}

fn check_tray(case: &Case, loading: &[LoadItem], stock: &[StockLine], findings: &mut Vec<Finding>) {
    for line in stock.iter().filter(|line| line.needed > line.have) {
        let path = format!("kit.{}[{}]", line.list, line.entry);
        let mut finding = Finding::new(Subject::Stock, "stock-short", path)
            .verdict(Verdict::Short)
            .arg("name", &line.name)
            .arg("needed", line.needed)
            .arg("have", line.have)
            .arg("short", line.needed - line.have)
            .arg(
                "resets",
                line.with_resets
                    .map_or_else(|| "none".to_owned(), |n| n.to_string()),
            );
        finding.value = Known::Is(Quantity::Count(line.have));
        finding.limit = Some(Quantity::Count(line.needed));
        findings.push(finding);
    }
    if case.setup.tray.is_none() {
        findings
            .push(Finding::new(Subject::Stock, "no-tray", "setup.tray").verdict(Verdict::Unknown));
        return;
    }
    for item in loading.iter().filter(|item| item.slot.is_none()) {
        findings.push(
            Finding::new(
                Subject::Stock,
                "no-slot",
                format!("loading[{} {}]", item.entry, item.copy),
            )
            .verdict(Verdict::Short)
            .arg("name", &item.name),
        );
    }
    tray::check(case, loading, findings);
}
