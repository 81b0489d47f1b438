//! The worksheet as plain data for other programs and for tests: stable keys, documented by
//! `assets/schema/figures.schema.json`.
//!
//! A value that is not known is `null`, and `unknown` beside it says why, by key.

mod explain;
mod findings;
mod pins;
mod record;
mod run;
mod sites;
mod tray;

pub use explain::{Explained, ExplainedTerm};
pub use findings::{CauseFigures, DecisionFigures, FindingFigures, LoosenedFigures};
pub use pins::PinFigures;
pub use record::{
    CountFigures, EventFigures, FallFigures, FieldFigures, FieldState, ImplantFigures, LineFigures,
    NotPlacedFigures, RECORD_VERSION, RecordFigures, RunFigures, SaidFigures, SignatureFigures,
    record_figures,
};
pub use run::{BestFigures, RunOrderFigures, RunStepFigures, WithoutFigures};
pub use sites::{
    FittingFigures, InsertionFigures, MarkFigures, ShorterFigures, SiteFigures, StepFigures,
};
pub use tray::{
    LoadFigures, LookAlikeFigures, RemedyFigures, ResetFigures, ServesFigures, StockFigures,
    UseFigures,
};

use crate::case::RULES_VERSION;
use crate::dentition::Jaw;
use crate::plan::{Known, Reason, Worksheet, not_assessed};
use crate::wording::Formatter;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// The version of this form.
pub const FIGURES_VERSION: u32 = 1;

/// The reasons why values are not known, by the keys that they would have.
pub type Unknown = BTreeMap<String, Vec<String>>;

/// Everything that was worked out for a case.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Figures {
    /// Version of this form.
    pub traywright_figures: u32,
    /// Version of the arithmetic.
    pub rules_version: u32,
    /// The case's reference.
    pub reference: String,
    /// The jaw.
    pub jaw: Jaw,
    /// The case's revision.
    pub revision: u32,
    /// Invented, for practice.
    pub demonstration: bool,
    /// Short name of all that determines a figure.
    pub fingerprint: String,
    /// The sites, in the order of the case.
    pub sites: Vec<SiteFigures>,
    /// The fixation pins, in the order of the case.
    pub pins: Vec<PinFigures>,
    /// All findings, worst first.
    pub findings: Vec<FindingFigures>,
    /// The causes on which several unknown findings hang.
    pub causes: Vec<CauseFigures>,
    /// The operations in order.
    pub order: Vec<UseFigures>,
    /// The things that go on the tray, in the order of loading.
    pub loading: Vec<LoadFigures>,
    /// The stops that are set anew in surgery, in the order of use.
    pub resets: Vec<ResetFigures>,
    /// Number of each thing that is needed, and that there is.
    pub stock: Vec<StockFigures>,
    /// The run order.
    pub run_order: RunOrderFigures,
    /// Mix-ups that would cut too deep.
    pub look_alikes: Vec<LookAlikeFigures>,
    /// Subjects that this version does not look at.
    pub not_assessed: Vec<String>,
}

/// The detail with which each figure is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Its value.
    Values,
    /// Its value and what it came from.
    Explained,
}

/// A case's worksheet as plain data.
#[must_use]
pub fn figures(formatter: &Formatter<'_>, worksheet: &Worksheet, detail: Detail) -> Figures {
    Figures {
        traywright_figures: FIGURES_VERSION,
        rules_version: RULES_VERSION,
        reference: worksheet.reference.clone(),
        jaw: worksheet.jaw,
        revision: worksheet.revision,
        demonstration: worksheet.demonstration,
        fingerprint: worksheet.fingerprint.to_string(),
        sites: worksheet
            .sites
            .iter()
            .map(|site| sites::site(formatter, site, detail))
            .collect(),
        pins: worksheet
            .pins
            .iter()
            .map(|sheet| pins::pin(sheet, detail))
            .collect(),
        findings: worksheet
            .findings
            .iter()
            .map(|finding| findings::finding(formatter, finding, detail))
            .collect(),
        causes: findings::causes(formatter, worksheet),
        order: worksheet.order.iter().map(tray::use_of).collect(),
        loading: tray::loading(&worksheet.loading),
        resets: worksheet.resets.iter().map(tray::reset).collect(),
        stock: worksheet.stock.iter().map(tray::stock).collect(),
        run_order: run::pending(worksheet),
        look_alikes: worksheet.mix_ups.iter().map(tray::look_alike).collect(),
        not_assessed: not_assessed(formatter.case)
            .into_iter()
            .map(str::to_owned)
            .collect(),
    }
}

/// A reason in one word and its place or value.
fn reason(reason: &Reason) -> String {
    match reason {
        Reason::Missing(path) => format!("missing {path}"),
        Reason::Stale(path, since) => {
            let (site, change) = (&since.site, since.change.key());
            format!("measured before the site was changed {path} ({change} {site})")
        }
        Reason::ScanUndated(path) => format!("measured on a scan without a date {path}"),
        Reason::BeforeGraft(path) => format!("measured before the graft {path}"),
        Reason::ArchModelOnly(value) => format!("arch_model_only {value}"),
        Reason::AgainstModel { measured, model } => {
            format!("measured {measured} against_arch_model {model}")
        }
        Reason::MeasuredLessDeep(value, _) => format!("measured_less_deep {value}"),
        Reason::AtMost(value) => format!("at_most {value}"),
        Reason::Between { least, most } => format!("at_least {least} at_most {most}"),
        Reason::BetweenHeights { least, measured } => {
            format!("between_heights {least} {measured}")
        }
        Reason::SomeHeightsOnly(value) => format!("some_heights_only {value}"),
        Reason::NotTheLeast(value) => format!("not_the_least {value}"),
        Reason::ArchAngleOnly(value) => format!("arch_angle_only {value}"),
        Reason::AlongTiltedAxis(value) => format!("along_tilted_axis {value}"),
        Reason::CrestOfSocket(value) => format!("crest_of_socket {value}"),
        Reason::OutsideGauge(value) => format!("outside_gauge {value}"),
        Reason::BetweenGraduations(value) => format!("between_graduations {value}"),
        Reason::KindNotEntered { tooth, left: None } => format!("kind_not_entered {tooth}"),
        Reason::KindNotEntered {
            tooth,
            left: Some((left, needed)),
        } => {
            format!("kind_not_entered {tooth} leaves {left} needs {needed}")
        }
        Reason::CutThroughGuide(_) => "cut_through_guide".to_owned(),
        Reason::CutBefore(_) => "cut_before".to_owned(),
        Reason::NothingFits => "nothing_fits".to_owned(),
        Reason::Unfit => "instruments_do_not_fit".to_owned(),
        Reason::Pending(job) => format!("being_computed {job}"),
        Reason::NoAccuracy => "no_accuracy_figure".to_owned(),
    }
}

/// A value, its reasons gathered where there is none.
fn take<T: Copy>(known: &Known<T>, key: &str, unknown: &mut Unknown) -> Option<T> {
    if let Known::Unknown(reasons) = known {
        unknown.insert(key.to_owned(), reasons.iter().map(reason).collect());
    }
    known.get()
}
