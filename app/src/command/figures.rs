//! `traywright figures`: the worksheet as JSON, with the run order, for which it waits.

use super::best::budget;
use super::open::open;
use super::{Outcome, Ran};
use crate::desk::Refusal;
use std::io::Write;
use std::ops::ControlFlow;
use std::path::Path;
use traywright_core::document::print;
use traywright_core::figures::{Detail, figures as as_data};
use traywright_core::run::{run_order, stock_remedies, why};

pub(super) fn figures(file: &Path, explain: bool, out: &mut dyn Write) -> Ran {
    let opened = open(file)?;
    let detail = if explain {
        Detail::Explained
    } else {
        Detail::Values
    };
    let budget = budget();
    let (case, worksheet) = (&opened.case, &opened.worksheet);
    let run = run_order(case, worksheet, &budget, &mut |_| ControlFlow::Continue(()));
    let why = run.as_ref().map(|run| {
        why(case, worksheet, &run.best, &budget, &mut |_| {
            ControlFlow::Continue(())
        })
    });
    let data = as_data(&opened.formatter(), worksheet, detail).with_run(
        case,
        &run,
        why.as_deref().unwrap_or_default(),
    );
    // There is no live kit here: what is offered is in the case.
    let keep_on = &mut || ControlFlow::Continue(());
    let data = data.with_remedies(&stock_remedies(case, worksheet, &case.kit, keep_on));
    let text = print(&data).map_err(|error| Refusal(error.to_string()))?;
    out.write_all(text.as_bytes())?;
    Ok(Outcome::Done)
}
