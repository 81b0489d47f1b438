//! The run order as plain data.

use super::tray::{RemedyFigures, UseFigures, use_of};
use super::{Unknown, reason};
use crate::case::ValidCase;
use crate::order::{Change, Cost, Group, Refused};
use crate::plan::Worksheet;
use crate::run::{
    Adherence, NoRun, PricedOrder, RunOrder, RunStep, StockChange, StockRemedy, Wish, WishCost,
};
use schemars::JsonSchema;
use serde::Serialize;

/// The run order: what the order that is followed costs, how good it is, and why.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunOrderFigures {
    /// Origin of the order that is followed: `rule`, `accepted`, or `fallback` where the accepted
    /// one does not fit the plan any more.
    pub by: String,
    /// True if that order keeps the rules that are wished.
    pub keeps_rules: Option<bool>,
    /// Time of all its changes, in seconds by the user's weights.
    pub cost_s: Option<f64>,
    /// Its re-sets during surgery.
    pub resets: Option<u32>,
    /// No order that keeps the rules takes less, of those with the fewest re-sets where they come first.
    pub bound_s: Option<f64>,
    /// No order that keeps the rules has fewer re-sets; null where only time counts.
    pub bound_resets: Option<u32>,
    /// The order that is followed is the least possible.
    pub proved: bool,
    /// Its steps.
    pub steps: Vec<RunStepFigures>,
    /// The best order found.
    pub best: Option<BestFigures>,
    /// The best order without each wish.
    pub without: Vec<WithoutFigures>,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
}

/// The best order found.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BestFigures {
    /// Time of all its changes, in seconds.
    pub cost_s: f64,
    /// Its re-sets during surgery.
    pub resets: u32,
    /// It is the least possible.
    pub proved: bool,
    /// States that were looked at.
    pub states_expanded: u64,
    /// Its steps.
    pub steps: Vec<RunStepFigures>,
}

/// A step of a run order.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunStepFigures {
    /// The operation.
    pub what: UseFigures,
    /// Ordinal of the drill or carrier that is taken among the equal ones, from 1.
    pub copy: Option<usize>,
    /// Another instrument is taken into the handpiece.
    pub mounts: u32,
    /// A stop is set anew.
    pub resets: u32,
    /// It is another site than before.
    pub moves: u32,
    /// A sleeve is put in.
    pub sleeves: u32,
    /// The speed is another one than before.
    pub speeds: u32,
}

/// The best order without one wish.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WithoutFigures {
    /// The wish left out: `before[n]`, `site_by_site`, `by_diameter`, `hold_guide`, or the weight
    /// of `mount`, `reset`, `move`, `sleeve` or `speed`.
    pub without: String,
    /// Time of all changes of the best order without it, in seconds.
    pub cost_s: f64,
    /// Its re-sets.
    pub resets: u32,
    /// It is the least possible.
    pub proved: bool,
}

impl super::Figures {
    /// The same with the run order, for which one has to wait.
    #[must_use]
    pub fn with_run(
        self,
        case: &ValidCase,
        run: &Result<RunOrder, NoRun>,
        why: &[WishCost],
    ) -> Self {
        let by = self.run_order.by.clone();
        let run_order = match run {
            Ok(run) => known(case, run, why),
            Err(none) => unknown(&by, &no_run(none)),
        };
        Self { run_order, ..self }
    }
}

/// Before it was worked out.
pub(super) fn pending(worksheet: &Worksheet) -> RunOrderFigures {
    unknown(
        worksheet.order_by.key(),
        &["being_computed run_order".to_owned()],
    )
}

fn unknown(by: &str, why: &[String]) -> RunOrderFigures {
    let keys = [
        "keeps_rules",
        "cost_s",
        "resets",
        "bound_s",
        "bound_resets",
        "best",
    ];
    let unknown = keys.map(|key| (key.to_owned(), why.to_vec()));
    RunOrderFigures {
        by: by.to_owned(),
        keeps_rules: None,
        cost_s: None,
        resets: None,
        bound_s: None,
        bound_resets: None,
        proved: false,
        steps: Vec::new(),
        best: None,
        without: Vec::new(),
        unknown: Unknown::from(unknown),
    }
}

/// The reason why there is none, in words that do not change.
fn no_run(none: &NoRun) -> Vec<String> {
    match none {
        NoRun::Nothing => vec!["nothing_to_do".to_owned()],
        NoRun::Unknown(reasons) => reasons.iter().map(reason).collect(),
        NoRun::Refused(Refused::Faults(faults)) => faults.iter().map(ToString::to_string).collect(),
        NoRun::Refused(Refused::Unsolvable(reasons)) => reasons
            .iter()
            .map(|reason| {
                let (id, args) = reason.message();
                let args = args
                    .into_iter()
                    .map(|(key, value)| format!(" {key} {value}"));
                format!("{id}{}", args.collect::<String>())
            })
            .collect(),
    }
}

fn known(case: &ValidCase, run: &RunOrder, why: &[WishCost]) -> RunOrderFigures {
    let resets_first = case.run.objective == crate::order::Objective::FewestResets;
    RunOrderFigures {
        by: run.by.key().to_owned(),
        keeps_rules: Some(run.adherence == Adherence::Full),
        cost_s: Some(seconds(run.followed.cost)),
        resets: Some(run.followed.cost.resets),
        bound_s: Some(seconds(run.bound)),
        bound_resets: resets_first.then_some(run.bound.resets),
        proved: run.followed_is_least,
        steps: steps(&run.followed),
        best: Some(BestFigures {
            cost_s: seconds(run.best.cost),
            resets: run.best.cost.resets,
            proved: run.proved,
            states_expanded: run.states_expanded,
            steps: steps(&run.best),
        }),
        without: why.iter().map(without).collect(),
        unknown: Unknown::new(),
    }
}

/// Tenths of a second as seconds: exact in print, as a decimal of one place.
#[expect(
    clippy::cast_precision_loss,
    reason = "times of an operation are small"
)]
fn seconds(cost: Cost) -> f64 {
    cost.time_ds as f64 / 10.0
}

fn steps(priced: &PricedOrder) -> Vec<RunStepFigures> {
    let step = |step: &RunStep| RunStepFigures {
        what: use_of(&step.what),
        copy: step.copy,
        mounts: step.changes.mounts,
        resets: step.changes.resets,
        moves: step.changes.moves,
        sleeves: step.changes.sleeves,
        speeds: step.changes.speeds,
    };
    priced.steps.iter().map(step).collect()
}

fn without(why: &WishCost) -> WithoutFigures {
    let name = match why.without {
        Wish::Before(n) => format!("before[{n}]"),
        Wish::Group(Group::SiteBySite) => "site_by_site".to_owned(),
        Wish::Group(Group::ByDiameter) => "by_diameter".to_owned(),
        Wish::HoldGuide => "hold_guide".to_owned(),
        Wish::Weight(change) => match change {
            Change::Mount => "mount",
            Change::Reset => "reset",
            Change::Move => "move",
            Change::Sleeve => "sleeve",
            Change::Speed => "speed",
        }
        .to_owned(),
    };
    WithoutFigures {
        without: name,
        cost_s: seconds(why.cost),
        resets: why.cost.resets,
        proved: why.proved,
    }
}

impl super::Figures {
    /// The same with what would settle each shortage.
    #[must_use]
    pub fn with_remedies(mut self, remedies: &[StockRemedy]) -> Self {
        for line in &mut self.stock {
            let own = remedies
                .iter()
                .filter(|r| r.list == line.list && r.entry == line.entry);
            line.remedies = own.map(remedy).collect();
        }
        self
    }
}

fn remedy(remedy: &StockRemedy) -> RemedyFigures {
    let (change, sites, stop, entered_mm) = match &remedy.change {
        StockChange::OtherStop { stop, sites } => ("other_stop", sites.clone(), Some(stop), None),
        StockChange::FixedStop { stop, sites } => ("fixed_stop", sites.clone(), Some(stop), None),
        StockChange::OneFigure { sites } => ("one_figure", sites.clone(), None, None),
        StockChange::Distance { site, entered_mm } => {
            ("distance", vec![site.clone()], None, Some(*entered_mm))
        }
    };
    RemedyFigures {
        change: change.to_owned(),
        sites: sites.iter().map(ToString::to_string).collect(),
        stop: stop.map(ToString::to_string),
        entered_mm,
        notes: remedy.notes,
    }
}
