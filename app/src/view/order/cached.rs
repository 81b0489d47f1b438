//! The order that is followed in words and drawn, made anew only where the case changed.

use crate::view::order::Context;
use std::rc::Rc;
use traywright_core::charts::{RunStrip, RunStripOptions, run_strip};
use traywright_core::dentition::Notation;
use traywright_core::order::{Change, Tally};
use traywright_core::run::{Adherence, PricedOrder, RunProblem, Wish, broken};
use traywright_core::wording::RunStepText;

/// The order that is followed.
#[derive(Debug)]
pub(super) struct CachedOrder {
    of: (u64, Notation),
    /// With its best copies, and what it costs.
    pub(super) priced: PricedOrder,
    /// Its steps in words.
    pub(super) said: Vec<RunStepText>,
    /// The rule that is wished and that it breaks.
    pub(super) breaks: Option<Wish>,
    /// Drawn.
    pub(super) strip: RunStrip,
}

impl CachedOrder {
    /// The state that its drawings were made for.
    pub(super) const fn key(&self) -> (u64, Notation) {
        self.of
    }
}

/// Width of the names beside the strip, mm.
pub(super) const NAMES: f64 = 43.0;

/// The order that is followed, as it is now; nothing where it has no cost.
pub(super) fn now(cx: &mut Context<'_>) -> Option<Rc<CachedOrder>> {
    let document = cx.document;
    let Some(Ok(run)) = cx.desk.run.problem() else {
        cx.own.told = None;
        return None;
    };
    let of = (document.generation(), cx.desk.settings.notation);
    let kept = cx.own.told.take();
    let told = match kept.filter(|told| told.of == of) {
        Some(told) => Some(told),
        None => make(cx, run, of).map(Rc::new),
    };
    let steps = told.as_ref().map_or(0, |told| told.said.len());
    let chosen = cx.own.chosen.unwrap_or_default();
    cx.own.chosen = (steps > 0).then(|| chosen.min(steps - 1));
    cx.own.told.clone_from(&told);
    told
}

fn make(cx: &Context<'_>, run: &RunProblem, of: (u64, Notation)) -> Option<CachedOrder> {
    let document = cx.document;
    let worksheet = document.worksheet();
    let priced = run.price(&worksheet.order).ok()?;
    let formatter = document.formatter(of.1);
    let steps = priced.steps.iter();
    let said: Vec<RunStepText> = steps
        .map(|step| formatter.run_step(step, worksheet))
        .collect();
    let mut all = Tally::default();
    for step in &priced.steps {
        all.add(&step.changes);
    }
    let weights = document.case().run.weights;
    let sum = |change: Change| {
        let count = u64::from(all.of(change));
        if count == 0 {
            return cx.word("order-sum-none");
        }
        let time = count * u64::from(*change.weight_in(&mut weights.clone()));
        let time = formatter.run_time(time);
        cx.counted("order-sum", &[("count", count)], &[("time", &time)])
    };
    let options = RunStripOptions {
        case: document.case(),
        said: &said,
        first: 1,
        word: &|change| formatter.run_change(change),
        sum: &sum,
        step: &cx.word("order-step"),
        names_mm: NAMES,
    };
    let strip = run_strip(&priced.steps, &options);
    let breaks = (run.adherence(&worksheet.order) == Adherence::Partial)
        .then(|| broken(document.case(), worksheet, &worksheet.order));
    Some(CachedOrder {
        of,
        breaks: breaks.flatten(),
        priced,
        said,
        strip,
    })
}
