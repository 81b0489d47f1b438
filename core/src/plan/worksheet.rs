//! All that follows from a case, gathered from the parts.

pub(super) mod misfit;

use super::clearance::neighbours::{self, PlacedSite};
use super::clearance::{space, with_any_gauge};
use super::depth::body;
use super::depth::context::SiteContext;
use super::depth::cuts::SiteCuts;
use super::depth::steps::{self, StepSheet};
use super::finding::{self, Finding, Severity, Verdict};
use super::fit::pins::{self, PinSheet};
use super::fit::{figures, made_by, running, support};
use super::order::accepted::{self, OrderBy};
use super::order::operations::{self, Operation};
use super::site::{Around, SiteSheet, site_sheet};
use super::stock::lines::{self, StockLine};
use super::stock::loading::{self, LoadItem, Reset};
use super::stock::pieces;
use super::tray;
use super::what_if::mix_ups::{self, MixUp};
use crate::case::{Case, Place, RULES_VERSION, Rule, ValidCase, as_confirmed};
use crate::dentition::{ArchModel, Jaw};
use crate::kit::{SiteId, StepId};
use crate::sign::Fingerprint;
use std::borrow::Cow;

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
    /// The operations, in order.
    pub order: Vec<Operation>,
    /// The source of that order.
    pub order_by: OrderBy,
    /// The items for the tray, in the order of loading.
    pub loading: Vec<LoadItem>,
    /// The settings set anew in surgery, in the order of use.
    pub resets: Vec<Reset>,
    /// The number of each thing needed, and the number there is.
    pub stock: Vec<StockLine>,
    /// Mix-ups that would cut too deep or too wide.
    pub mix_ups: Vec<MixUp>,
}

/// Works out everything that follows from a case.
#[must_use]
pub fn work_out(case: &ValidCase) -> Worksheet {
    let fingerprint = case.fingerprint();
    let standing = as_confirmed(case);
    let case: &Case = &standing;
    let contexts: Vec<SiteContext<'_>> = case
        .sites
        .iter()
        .map(|site| SiteContext::new(case, site))
        .collect();
    let steps: Vec<Vec<StepSheet>> = contexts.iter().map(steps::work_out_steps).collect();
    let cuts: Vec<SiteCuts<'_>> = contexts
        .iter()
        .zip(&steps)
        .map(|(site, steps)| SiteCuts { site: *site, steps })
        .collect();
    let deepest: Vec<Option<Vec<StepSheet>>> = contexts
        .iter()
        .zip(&steps)
        .map(|(site, steps)| steps::without_gauge(site, steps))
        .collect();
    let deepest: Vec<Option<SiteCuts<'_>>> = contexts
        .iter()
        .zip(&deepest)
        .map(|(site, steps)| {
            Some(SiteCuts {
                site: *site,
                steps: steps.as_ref()?,
            })
        })
        .collect();
    let arch = space::arch_of(case);

    let mut pins = pins::work_out(case);
    let around = Around {
        arch: arch.as_ref(),
        cuts: &cuts,
        pins: &pins,
    };
    let mut findings = Vec::new();
    let mut sites: Vec<SiteSheet> = cuts
        .iter()
        .zip(&deepest)
        .map(|(cut, deepest)| site_sheet(cut, deepest.as_ref(), &around, &mut findings))
        .collect();
    let placed: Vec<PlacedSite<'_>> = cuts.iter().map(|cut| place(cut, arch.as_ref())).collect();
    let any = deepest.iter().any(Option::is_some);
    let deepest = cuts.iter().zip(&deepest);
    let deepest =
        deepest.map(|(cut, deepest)| place(deepest.as_ref().unwrap_or(cut), arch.as_ref()));
    let deepest = any.then(|| deepest.collect::<Vec<_>>());
    with_any_gauge(
        &placed,
        deepest.as_ref(),
        |placed, out| neighbours::check(placed, arch.as_ref(), out),
        &mut findings,
    );

    let soundable = sites.iter().filter(|site| site.sounding.is_some());
    let to_sound = soundable.map(|site| site.id.clone()).collect();
    let plain = operations::use_order(case, &cuts, to_sound);
    let (order, order_by) = accepted::order_to_follow(case, plain);
    findings.extend(accepted::check(order_by));
    pins::check(case, &pins, &mut findings);
    let pieces = pieces::pieces(case, &cuts, &pins, &order);
    let mut loaded = loading::loading(case, &cuts, &pieces.pieces, &order);
    tray::lay(case, &mut loaded);
    let stock = lines::stock(case, &loaded.items, &pieces);
    lines::check(case, &loaded.items, &stock, &mut findings);
    tray::check(case, &loaded.items, &mut findings);
    of_whole_case(case, &mut findings);
    support::check(case, arch.as_ref(), &mut findings);
    running::check(case, &cuts, &pins, &mut findings);
    findings.extend(running::gauge(case));
    figures::check(case, &cuts, &mut findings);
    made_by::check(case, &mut findings);
    finding::attach_confirmations(&mut findings, case);
    body::attach_bodies(&mut findings, case, &cuts);
    finding::attach_decisions(&mut findings, &case.judgements);
    finding::sort_worst_first(&mut findings);
    for sheet in &mut sites {
        let here = findings.iter().filter(|f| f.is_of(&sheet.id));
        sheet.worst = here.map(Finding::severity).min().unwrap_or(Severity::Clear);
    }
    misfit::mark(&findings, &mut sites, &mut pins, &mut loaded);
    Worksheet {
        reference: case.reference.to_string(),
        jaw: case.jaw,
        revision: case.revision,
        demonstration: case.demonstration,
        fingerprint,
        mix_ups: mix_ups::mix_ups(&placed, &pins, &loaded, &findings),
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

/// What is told of the case itself, whatever its sites are like.
fn of_whole_case(case: &Case, out: &mut Vec<Finding>) {
    out.extend(invented_kit(case));
    out.extend(older_rules(case));
    if case.sites.is_empty() {
        out.push(Finding::new(Rule::NoSites, Place::Sites).verdict(Verdict::Unknown));
    }
}

/// That the kit is invented and the case is not.
fn invented_kit(case: &Case) -> Option<Finding> {
    (case.kit.demonstration && !case.demonstration).then(|| {
        Finding::new(Rule::KitIsInvented, Place::Kit)
            .verdict(Verdict::Short)
            .arg("kit", &case.kit.name)
    })
}

/// That the case is of older rules than it was worked out by.
fn older_rules(case: &Case) -> Option<Finding> {
    (case.rules_version < RULES_VERSION).then(|| {
        Finding::new(Rule::RulesOlder, Place::Sites)
            .verdict(Verdict::Unknown)
            .arg("before", case.rules_version)
            .arg("now", RULES_VERSION)
    })
}

fn place<'a>(cut: &SiteCuts<'a>, arch: Option<&ArchModel>) -> PlacedSite<'a> {
    PlacedSite {
        cut: *cut,
        axis: space::axis_of(cut.site.site.placement, cut.site.case.jaw, arch),
    }
}

impl Worksheet {
    /// The drill of a step as it is set for it, on the tray or by then set anew in surgery.
    #[must_use]
    pub fn drill_of(&self, site: &SiteId, step: &StepId) -> Option<&LoadItem> {
        loading::drill_of(&self.loading, &self.resets, site, step)
    }

    /// The findings of a site, worst first, as they are told there; what lies between two sites is
    /// among those of both.
    pub fn findings_of<'a>(&'a self, site: &'a SiteId) -> impl Iterator<Item = Cow<'a, Finding>> {
        let here = self.findings.iter().filter(|f| f.is_of(site));
        here.map(|f| f.seen_from(site))
    }

    /// The re-sets right before a thing in the order of use, by its place there, from 0.
    pub fn resets_before(&self, place: usize) -> impl Iterator<Item = &Reset> {
        self.resets.iter().filter(move |one| one.before == place)
    }

    /// The re-sets in surgery of a thing of the loading list, by its place there, from 0.
    pub fn resets_of(&self, item: usize) -> impl Iterator<Item = &Reset> {
        self.resets.iter().filter(move |one| one.item == item)
    }
}
