//! `traywright order`: solves a bare problem of the run order and prints the answer as JSON.

use super::{Outcome, Ran};
use crate::desk::{Refusal, refused_by_disk, refused_document};
use signal_hook::consts::SIGINT;
use signal_hook::flag::{register, register_conditional_shutdown};
use std::io::Write;
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use traywright_core::document::{MOST_BYTES, print};
use traywright_core::order::{
    Budget, Refused, Unsolvable, ValidProblem, answer, read_problem, solve,
};
use traywright_core::store::{read_file, shown};
use traywright_core::text::Texts;
use traywright_core::wording::CostWords;

/// How often it is said how far the search is.
const SAY_EVERY: Duration = Duration::from_secs(2);

/// The work that is allowed.
pub(super) fn budget(work: Option<u64>, memory_mib: Option<usize>) -> Budget {
    let usual = Budget::default();
    Budget {
        work: work.unwrap_or(usual.work),
        bytes: memory_mib.map_or(usual.bytes, |mib| mib.saturating_mul(1 << 20)),
    }
}

pub(super) fn order(file: &Path, budget: &Budget, out: &mut dyn Write, err: &mut dyn Write) -> Ran {
    let problem = open(file)?;
    let interrupted = interrupt();
    let words = CostWords {
        texts: Texts::english(),
        objective: problem.objective,
    };
    let mut said = Instant::now();
    let outcome = solve(&problem, budget, &[], &mut |progress| {
        if interrupted.load(Ordering::Relaxed) {
            return ControlFlow::Break(());
        }
        if said.elapsed() >= SAY_EVERY {
            said = Instant::now();
            let (best, bound) = (progress.best.cost, progress.bound);
            let line = words.how_far(progress.states_expanded, best, bound);
            // Where nobody can read it the search goes on.
            writeln!(err, "{line}").unwrap_or_default();
        }
        ControlFlow::Continue(())
    });
    let answer = answer(&problem, &outcome).map_err(|error| Refusal(error.to_string()))?;
    let text = print(&answer).map_err(|error| Refusal(error.to_string()))?;
    out.write_all(text.as_bytes())?;
    Ok(Outcome::Done)
}

/// Set by the first Ctrl+C; the second ends the program. Where the system lets nobody listen, the first
/// does.
fn interrupt() -> Arc<AtomicBool> {
    let asked = Arc::new(AtomicBool::new(false));
    let (first, second) = (Arc::clone(&asked), Arc::clone(&asked));
    // In this order: the second is looked at before the first is set.
    let listens = register_conditional_shutdown(SIGINT, 130, second);
    drop(listens.and_then(|_| register(SIGINT, first)));
    asked
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
    let file = shown(file);
    let lines: Vec<String> = std::iter::once(file).chain(lines).collect();
    Refusal(lines.join("\n"))
}
