//! The run order of a case: what of it becomes a problem, and the order that was accepted.

mod accepted;
mod by_hand;
mod hold;
mod offered;
mod problem;
mod remedies;
mod resets;
mod stock;

use crate::demo;
use std::ops::ControlFlow;
use traywright_core::case::{Case, ValidCase};
use traywright_core::order::Budget;
use traywright_core::plan::{Operation, Worksheet, work_out};
use traywright_core::run::{NoRun, RunOrder, run_order};

/// A demonstration case after a change that leaves it sound, with its worksheet.
fn changed(name: &str, change: impl FnOnce(&mut Case)) -> (ValidCase, Worksheet) {
    let mut case = demo::valid(name).into_case();
    change(&mut case);
    let case = ValidCase::try_from(case).unwrap();
    let sheet = work_out(&case);
    (case, sheet)
}

/// Of whoever waits until the end.
const fn go_on() -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn solved(case: &ValidCase, sheet: &Worksheet) -> Result<RunOrder, NoRun> {
    let budget = Budget {
        work: 20_000,
        ..Budget::default()
    };
    run_order(case, sheet, &budget, &mut |_| ControlFlow::Continue(()))
}

/// The operations in their order.
fn done(run: &RunOrder) -> Vec<Operation> {
    let steps = run.best.steps.iter();
    steps.map(|step| step.what.clone()).collect()
}

fn drill(site: &str, step: &str) -> Operation {
    Operation::Drill {
        site: site.into(),
        step: step.into(),
    }
}
