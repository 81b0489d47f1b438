//! `traywright order`: solves a bare problem of the run order and prints the answer as JSON.

use super::{Outcome, Ran};
use crate::desk::{Refusal, refused_by_disk, refused_document};
use std::io::Write;
use std::ops::ControlFlow;
use std::path::Path;
use traywright_core::document::{MOST_BYTES, print};
use traywright_core::order::{
    Budget, Refused, Unsolvable, ValidProblem, answer, read_problem, solve,
};
use traywright_core::store::read_file;
use traywright_core::text::Texts;

pub(super) fn order(file: &Path, states: Option<u64>, out: &mut dyn Write) -> Ran {
    let problem = open(file)?;
    let mut budget = Budget::default();
    if let Some(states) = states {
        budget.states = states;
    }
    let outcome = solve(&problem, &budget, &[], &mut |_| ControlFlow::Continue(()));
    let answer = answer(&problem, &outcome).map_err(|error| Refusal(error.to_string()))?;
    let text = print(&answer).map_err(|error| Refusal(error.to_string()))?;
    out.write_all(text.as_bytes())?;
    Ok(Outcome::Done)
}

fn open(file: &Path) -> Result<ValidProblem, Refusal> {
    let bytes = read_file(file, MOST_BYTES as u64).map_err(|error| refused_by_disk(&error))?;
    read_problem(&bytes).map_err(|refused| match refused {
        Refused::Faults(faults) => refused_document(file, &faults),
        Refused::Unsolvable(reasons) => refused_problem(file, &reasons),
    })
}

/// The reasons why no order is possible, a line each.
fn refused_problem(file: &Path, reasons: &[Unsolvable]) -> Refusal {
    let texts = Texts::english();
    let lines = reasons.iter().map(|reason| {
        let (id, args) = reason.message();
        let args: Vec<(&str, &str)> = args.iter().map(|(k, v)| (*k, v.as_str())).collect();
        texts.get(id, &args)
    });
    let file = file.display().to_string();
    let lines: Vec<String> = std::iter::once(file).chain(lines).collect();
    Refusal(lines.join("\n"))
}
