//! The best run order and what would settle shortages: slow, so worked out beside the window and kept
//! for as long as what they depend on is the same.

use super::Document;
use super::job::{Job, Teller, Wake};
use std::ops::ControlFlow;
use std::sync::Arc;
use traywright_core::case::SoundCase;
use traywright_core::kit::Kit;
use traywright_core::order::{Budget, Cost, Progress};
use traywright_core::plan::Worksheet;
use traywright_core::run::{
    BestOrder, NoRun, RunInputs, RunOrder, RunProblem, StockRemedy, Why, stock_remedies, why,
};

/// States that each question why may take: a second or two at the most.
const WHY_STATES: u64 = 200_000;

/// How far the search for the best order is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HowFar {
    /// States that were looked at.
    pub states: u64,
    /// What the best order so far costs.
    pub best: Cost,
    /// No order is better than this.
    pub bound: Cost,
}

impl From<&Progress<'_>> for HowFar {
    fn from(progress: &Progress<'_>) -> Self {
        Self {
            states: progress.states_expanded,
            best: progress.best.cost,
            bound: progress.bound,
        }
    }
}

/// Something slow.
#[derive(Debug, Default)]
pub enum Work<T> {
    /// Nobody asked for it yet, or it was old.
    #[default]
    Open,
    /// It is being worked out.
    Going(Job<T, HowFar>),
    /// Here it is.
    Done(T),
    /// It failed, or was stopped before there was anything.
    Failed,
}

impl<T: Send + 'static> Work<T> {
    /// What was found.
    #[must_use]
    pub const fn done(&self) -> Option<&T> {
        match self {
            Self::Done(found) => Some(found),
            _ => None,
        }
    }

    /// Whether it is being worked out.
    #[must_use]
    pub const fn is_going(&self) -> bool {
        matches!(self, Self::Going(_))
    }

    /// Takes the answer where it is there.
    fn look(&mut self) {
        if let Self::Going(job) = self
            && let Some(ended) = job.ended()
        {
            *self = ended.map_or(Self::Failed, Self::Done);
        }
    }

    /// Waits for the answer. Gives back whether there was anything to wait for.
    fn wait(&mut self) -> bool {
        let Self::Going(job) = self else {
            return false;
        };
        let answer = job.answer();
        *self = answer.map_or(Self::Failed, Self::Done);
        true
    }

    fn begin(
        &mut self,
        name: &str,
        wake: &Wake,
        work: impl FnOnce(&mut Teller<HowFar>) -> T + Send + 'static,
    ) {
        let job = Job::begin(name, Arc::clone(wake), work);
        *self = job.map_or(Self::Failed, Self::Going);
    }
}

/// What is asked for now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// The best order, its reasons, and what would settle shortages.
    Order,
    /// The best order alone.
    Best,
    /// What would settle shortages.
    Remedies,
    /// Nothing. What goes on goes on for as long as it is not old.
    Nothing,
}

/// The run order of the open case and what belongs to it.
#[derive(Debug, Default)]
pub struct RunWork {
    inputs: Option<RunInputs>,
    /// For which change of the case `inputs` and `against` hold.
    generation: Option<u64>,
    best: Work<BestOrder>,
    reasons: Work<Vec<Why>>,
    against: Option<RunOrder>,
    remedies: Work<Vec<StockRemedy>>,
    remedies_of: Option<u64>,
}

impl RunWork {
    /// The problem, or why there is none; nothing where nobody asked yet.
    #[must_use]
    pub fn problem(&self) -> Option<Result<&RunProblem, &NoRun>> {
        Some(self.inputs.as_ref()?.run.as_ref())
    }

    /// The order that is followed held against the best one, once that was looked for.
    #[must_use]
    pub const fn order(&self) -> Option<&RunOrder> {
        self.against.as_ref()
    }

    /// The search for the best order.
    #[must_use]
    pub const fn best(&self) -> &Work<BestOrder> {
        &self.best
    }

    /// The best order of a case as it is now; nothing where it was not looked for, or is old.
    #[must_use]
    pub fn best_of(&self, document: &Document) -> Option<&BestOrder> {
        let is_now = self.generation == Some(document.generation());
        self.best.done().filter(|_| is_now)
    }

    /// What each wish costs.
    #[must_use]
    pub const fn reasons(&self) -> &Work<Vec<Why>> {
        &self.reasons
    }

    /// What would settle shortages.
    #[must_use]
    pub const fn remedies(&self) -> &Work<Vec<StockRemedy>> {
        &self.remedies
    }

    /// Whether anything goes on that can be stopped.
    #[must_use]
    pub fn can_be_stopped(&self) -> bool {
        let stopping = |is: bool, going: bool| going && !is;
        let best = matches!(&self.best, Work::Going(job) if stopping(job.is_stopping(), true));
        let why = matches!(&self.reasons, Work::Going(job) if stopping(job.is_stopping(), true));
        best || why
    }

    /// Asks what goes on to stop. The best order so far stays.
    pub fn stop(&self) {
        if let Work::Going(job) = &self.best {
            job.stop();
        }
        if let Work::Going(job) = &self.reasons {
            job.stop();
        }
    }

    /// Looks anew from the beginning.
    pub fn again(&mut self) {
        (self.best, self.reasons) = (Work::Open, Work::Open);
        (self.against, self.generation) = (None, None);
    }

    /// Forgets what was offered from the live kit.
    pub fn forget_remedies(&mut self) {
        (self.remedies, self.remedies_of) = (Work::Open, None);
    }

    /// Once a frame: takes answers, drops what is old, begins what is asked for.
    pub(crate) fn attend(
        &mut self,
        document: Option<&Document>,
        live: Option<&Kit>,
        asked: Asked,
        wake: &Wake,
    ) {
        let Some(document) = document else {
            *self = Self::default();
            return;
        };
        self.best.look();
        self.reasons.look();
        self.remedies.look();
        self.attend_order(document, asked, wake);
        self.attend_remedies(document, live, asked, wake);
    }

    /// Waits for all that goes on. Gives back whether there was anything.
    pub(crate) fn wait(&mut self) -> bool {
        // Each is waited for, whatever the others say.
        self.best.wait() | self.reasons.wait() | self.remedies.wait()
    }

    fn attend_order(&mut self, document: &Document, asked: Asked, wake: &Wake) {
        let (case, worksheet) = (document.case(), document.worksheet());
        let is_new = self.generation != Some(document.generation());
        let wants_best = matches!(asked, Asked::Order | Asked::Best);
        if is_new && (wants_best || self.best.is_going() || self.reasons.is_going()) {
            self.generation = Some(document.generation());
            self.against = None;
            let inputs = RunInputs::of(case, worksheet);
            if self.inputs.as_ref() != Some(&inputs) {
                self.inputs = Some(inputs);
                (self.best, self.reasons) = (Work::Open, Work::Open);
            }
        }
        if self.generation != Some(document.generation()) {
            self.against = None;
            return;
        }
        let Some(Ok(run)) = self.inputs.as_ref().map(|inputs| &inputs.run) else {
            return;
        };
        if matches!(self.best, Work::Open) && wants_best {
            let (run, order) = (run.clone(), worksheet.order.clone());
            self.best.begin("best order", wake, move |teller| {
                let watch = &mut |progress: &Progress<'_>| teller.tell(|| progress.into());
                run.best(&order, &Budget::default(), watch)
            });
        }
        let Some(best) = self.best.done() else {
            return;
        };
        if self.against.is_none() {
            self.against = run.against(worksheet, best).ok();
        }
        if matches!(self.reasons, Work::Open) && asked == Asked::Order {
            let (case, worksheet) = (document.shared_case(), document.shared_worksheet());
            let best = best.clone();
            self.reasons.begin("why this order", wake, move |teller| {
                reasons(&case, &worksheet, &best, teller)
            });
        }
    }

    fn attend_remedies(
        &mut self,
        document: &Document,
        live: Option<&Kit>,
        asked: Asked,
        wake: &Wake,
    ) {
        let generation = Some(document.generation());
        if self.remedies_of != generation {
            self.forget_remedies();
        }
        if matches!(asked, Asked::Nothing | Asked::Best) || !matches!(self.remedies, Work::Open) {
            return;
        }
        self.remedies_of = generation;
        let mut lines = document.worksheet().stock.iter();
        if !lines.any(|line| line.needed > line.have) {
            self.remedies = Work::Done(Vec::new());
            return;
        }
        let (case, worksheet) = (document.shared_case(), document.shared_worksheet());
        let live = live.unwrap_or(&document.case().kit).clone();
        self.remedies
            .begin("what settles shortages", wake, move |_| {
                stock_remedies(&case, &worksheet, &live)
            });
    }
}

/// What each wish costs, as far as nobody stops it: what was asked for then is left out.
fn reasons(
    case: &SoundCase,
    worksheet: &Worksheet,
    best: &BestOrder,
    teller: &mut Teller<HowFar>,
) -> Vec<Why> {
    let budget = Budget {
        states: WHY_STATES,
        ..Budget::default()
    };
    let mut stopped = ControlFlow::Continue(());
    let all = why(case, worksheet, &best.order, &budget, &mut |progress| {
        stopped = teller.tell(|| progress.into());
        stopped
    });
    if stopped.is_break() { Vec::new() } else { all }
}
