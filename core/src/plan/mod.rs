//! Everything that follows from a case: one [`Worksheet`].
//!
//! Pure: no clock, no files, no state. The same case gives the same worksheet on every machine.
//! A value travels as a [`Figure`] that keeps what it came from; whatever cannot be worked out is
//! unknown with its reasons, never a default.

mod changed;
mod clearance;
mod depth;
mod fallen;
mod figure;
mod figure_rule;
mod finding;
mod fit;
mod kit_codes;
mod order;
mod rules;
mod site;
mod stock;
mod term_name;
mod tray;
mod trial;
mod view;
mod what_if;
mod worksheet;

use crate::case::Case;

pub use crate::case::{Field, FindingKey, Place, Rule, SiteHeight, SitePlace, Subject};
pub use changed::{ChangedSetting, changed_settings};
pub use depth::context::StepPath;
pub use depth::final_depth::{FinalDepth, final_depth_by_hand};
pub use depth::fits::Fits;
pub use depth::setting::{Edge, MarkEdge};
pub use depth::stale::{StaleValues, rim_now, stale_values};
pub use depth::steps::StepSheet;
pub use fallen::{fallen, is_same, left_of, none_left, stock_of};
pub use figure::{Basis, Change, Figure, Known, Origin, Quantity, Reason, Sign, Since, Term};
pub use figure_rule::FigureRule;
pub use finding::argument::Argument;
pub(crate) use finding::confirmed_by;
pub use finding::{
    AppliedDecision, CommonCause, Finding, FindingLine, LapsedDecision, Loosened, RoundedTo,
    Severity, Verdict, WhyLapsed, by_cause, margin_verdict, may_be_accepted, may_be_intended,
    parse_acceptance,
};
pub use fit::insertion::InsertionSheet;
pub use fit::pins::PinSheet;
pub use fit::play::Play;
pub use order::accepted::OrderBy;
pub use order::holding::holding_by_default;
pub use order::operations::Operation;
pub use order::sequence::{NoProposal, propose, protocols_for, step_with, steps_of_protocol};
pub use rules::{
    KeptFigures, OlderRules, RulesChange, older_rules, saved_figures, with_saved_figures,
};
pub use site::SiteSheet;
pub use stock::actionable::{Actionable, ActionableFigure};
pub use stock::lines::StockLine;
pub use stock::loading::{DrillSetup, LoadItem, Reset, ServedPlace};
pub(crate) use stock::pools::{AskedSetting, Pools};
pub use term_name::TermName;
pub use tray::{PlaceRefused, SideBySide, moved, side_by_side};
pub use trial::{TrialResult, edits_for_implant, try_edits};
pub use view::{case_jaw, plan_view, with_planned, with_planned_resets};
pub use what_if::alternatives::{FittingDistance, NextImplants, ShorterImplant, next_implants};
pub use what_if::harm::{Endangered, Exceeded};
pub use what_if::mix_ups::{Mistake, MixUp, NotTried};
pub use worksheet::misfit::{is_laid_unset, misfit, misfit_elsewhere};
pub use worksheet::{Worksheet, work_out};

/// Checks that this version of the program does not make. They are named on screen and paper, so
/// that silence is not taken for clearance.
pub const NOT_ASSESSED: &[&str] = &[
    "sleeve-room",
    "pins",
    "slope",
    "socket",
    "carriers",
    "mouth-room",
    "accuracy",
];

/// Those of [`NOT_ASSESSED`] that concern a case: that of sockets only where there is one.
#[must_use]
pub fn not_assessed(case: &Case) -> Vec<&'static str> {
    let mut sites = case.sites.iter();
    let sockets = sites.any(|site| site.state.socket().is_some());
    let all = NOT_ASSESSED.iter().copied();
    all.filter(|check| *check != "socket" || sockets).collect()
}
