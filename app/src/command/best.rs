//! The best order of a case, for which a command waits.

use std::ops::ControlFlow;
use traywright_core::case::ValidCase;
use traywright_core::order::{Budget, Progress};
use traywright_core::plan::Worksheet;
use traywright_core::run::{BestOrder, run_problem};

/// Work that the run order may take, and each question why: a second or two at the most.
const WORK: u64 = 500_000;

/// The work that a command waits for.
pub(super) fn budget() -> Budget {
    Budget {
        work: WORK,
        ..Budget::default()
    }
}

/// The best order, as far as that work goes; nothing where there is none.
pub(super) fn best_order(case: &ValidCase, worksheet: &Worksheet) -> Option<BestOrder> {
    let run = run_problem(case, worksheet).ok()?;
    let on = &mut |_: &Progress<'_>| ControlFlow::Continue(());
    Some(run.best(&worksheet.order, &budget(), on))
}
