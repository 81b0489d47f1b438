//! The run order of a case: what of it becomes a problem, and the order that was accepted.

mod accepted;
mod by_hand;
mod offered;
mod problem;
mod remedies;
mod resets;
mod stock;

use crate::demo;
use std::ops::ControlFlow;
use traywright_core::case::{Case, SoundCase};
use traywright_core::order::Budget;
use traywright_core::plan::{Use, Worksheet, work_out};
use traywright_core::run::{NoRun, RunOrder, run_order};

/// A demonstration case after a change that leaves it sound, with its worksheet.
fn changed(name: &str, change: impl FnOnce(&mut Case)) -> (SoundCase, Worksheet) {
    let mut case = demo::sound(name).into_case();
    change(&mut case);
    let case = SoundCase::try_from(case).unwrap();
    let sheet = work_out(&case);
    (case, sheet)
}

/// Of whoever waits until the end.
const fn go_on() -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn solved(case: &SoundCase, sheet: &Worksheet) -> Result<RunOrder, NoRun> {
    let budget = Budget {
        states: 20_000,
        ..Budget::default()
    };
    run_order(case, sheet, &budget, &mut |_| ControlFlow::Continue(()))
}

/// What is done, in order.
fn done(run: &RunOrder) -> Vec<Use> {
    let steps = run.best.steps.iter();
    steps.map(|step| step.what.clone()).collect()
}

fn drill(site: &str, step: &str) -> Use {
    Use::Drill {
        site: site.into(),
        step: step.into(),
    }
}
