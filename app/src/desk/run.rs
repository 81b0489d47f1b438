//! The best run order and what would settle shortages: slow, so worked out beside the window and kept
//! for as long as what they depend on is the same.

use super::Document;
use super::job::{Job, Reporter, Wake};
use std::ops::ControlFlow;
use std::sync::Arc;
use std::task::Poll;
use traywright_core::case::ValidCase;
use traywright_core::kit::Kit;
use traywright_core::order::{self, Budget, Cost};
use traywright_core::plan::Worksheet;
use traywright_core::run::{
    BestOrder, NoRun, RunInputs, RunOrder, RunProblem, StockRemedy, WishCost, stock_remedies, why,
};

/// Work that each question why may take: a second or two at the most.
const WHY_WORK: u64 = 500_000;

/// Progress of the search for the best order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunProgress {
    /// States that were looked at.
    pub states: u64,
    /// Cost of the best order so far.
    pub best: Cost,
    /// No order is better than this.
    pub bound: Cost,
}

impl From<&order::Progress<'_>> for RunProgress {
    fn from(progress: &order::Progress<'_>) -> Self {
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
    Going(Job<T, RunProgress>),
    /// Here it is.
    Done(T),
    /// It failed, or was stopped before there was anything.
    Failed,
}

impl<T: Send + 'static> Work<T> {
    /// The result, once there is one.
    #[must_use]
    pub const fn done(&self) -> Option<&T> {
        match self {
            Self::Done(found) => Some(found),
            _ => None,
        }
    }

    /// True if it is being worked out.
    #[must_use]
    pub const fn is_going(&self) -> bool {
        matches!(self, Self::Going(_))
    }

    fn can_be_stopped(&self) -> bool {
        matches!(self, Self::Going(job) if !job.is_stopping())
    }

    fn stop(&self) {
        if let Self::Going(job) = self {
            job.stop();
        }
    }

    /// Takes the answer where it is there.
    fn look(&mut self) {
        if let Self::Going(job) = self
            && let Poll::Ready(ended) = job.ended()
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
        work: impl FnOnce(&mut Reporter<RunProgress>) -> T + Send + 'static,
    ) {
        let job = Job::begin(name, Arc::clone(wake), work);
        *self = job.map_or(Self::Failed, Self::Going);
    }
}

/// The work that is asked for now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// The best order, its reasons, and what would settle shortages.
    Order,
    /// The best order alone.
    Best,
    /// Remedies of shortages.
    Remedies,
    /// Nothing. What goes on goes on for as long as it is not old.
    Nothing,
}

/// The run order of the open case and what belongs to it.
#[derive(Debug, Default)]
pub struct RunWork {
    inputs: Option<RunInputs>,
    /// The change of the case for which `inputs` and `against` hold.
    generation: Option<u64>,
    best: Work<BestOrder>,
    reasons: Work<Vec<WishCost>>,
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

    /// The cost of each wish.
    #[must_use]
    pub const fn reasons(&self) -> &Work<Vec<WishCost>> {
        &self.reasons
    }

    /// Remedies of shortages.
    #[must_use]
    pub const fn remedies(&self) -> &Work<Vec<StockRemedy>> {
        &self.remedies
    }

    /// True if anything goes on that can be stopped.
    #[must_use]
    pub fn can_be_stopped(&self) -> bool {
        self.best.can_be_stopped() || self.reasons.can_be_stopped()
    }

    /// Asks what goes on to stop. The best order so far stays.
    pub fn stop(&self) {
        self.best.stop();
        self.reasons.stop();
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
    pub(crate) fn poll(
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
        self.poll_order(document, asked, wake);
        self.poll_remedies(document, live, asked, wake);
    }

    /// Waits for all that goes on. Gives back whether there was anything.
    pub(crate) fn wait(&mut self) -> bool {
        // Each is waited for, whatever the others say.
        self.best.wait() | self.reasons.wait() | self.remedies.wait()
    }

    fn poll_order(&mut self, document: &Document, asked: Asked, wake: &Wake) {
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
            self.best.begin("best order", wake, move |reporter| {
                let watch =
                    &mut |progress: &order::Progress<'_>| reporter.report(|| progress.into());
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
            self.reasons.begin("why this order", wake, move |reporter| {
                reasons(&case, &worksheet, &best, reporter)
            });
        }
    }

    fn poll_remedies(
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
            .begin("what settles shortages", wake, move |reporter| {
                // Nobody is told how far it is; it stops where the case is another by then.
                stock_remedies(&case, &worksheet, &live, &mut || reporter.goes_on())
            });
    }
}

/// The cost of each wish; nothing if the work was stopped meanwhile.
fn reasons(
    case: &ValidCase,
    worksheet: &Worksheet,
    best: &BestOrder,
    reporter: &mut Reporter<RunProgress>,
) -> Vec<WishCost> {
    let budget = Budget {
        work: WHY_WORK,
        ..Budget::default()
    };
    let mut stopped = ControlFlow::Continue(());
    let all = why(case, worksheet, &best.order, &budget, &mut |progress| {
        stopped = reporter.report(|| progress.into());
        stopped
    });
    if stopped.is_break() { Vec::new() } else { all }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use std::sync::mpsc::{Receiver, channel};
    use std::time::Duration;
    use traywright_core::case::{Edit, RunWishes};
    use traywright_core::order::Objective;

    fn nobody() -> Wake {
        Arc::new(|| {})
    }

    fn two_molars() -> Document {
        let demo = DEMOS.iter().find(|(name, _)| *name == "two-molars");
        Document::unsaved(demo_case(demo.unwrap().1))
    }

    /// Polls until nothing is left to wait for.
    fn settle(work: &mut RunWork, document: &Document, asked: Asked) {
        loop {
            work.poll(Some(document), None, asked, &nobody());
            if !work.wait() {
                return;
            }
        }
    }

    fn edit(document: &mut Document, edit: Edit) {
        document.edit("edit".to_owned(), &[edit], None).unwrap();
    }

    fn other_wishes() -> Edit {
        Edit::SetRun(Box::new(RunWishes {
            objective: Objective::LeastTime,
            ..RunWishes::default()
        }))
    }

    /// A search that ends only when it is asked to, and reports when it did.
    fn endless(best: BestOrder) -> (Work<BestOrder>, Receiver<()>) {
        let (ended, end) = channel();
        let mut work = Work::Open;
        work.begin("endless", &nobody(), move |reporter| {
            let cost = best.order.cost;
            let progress = RunProgress {
                states: 0,
                best: cost,
                bound: cost,
            };
            while reporter.report(|| progress).is_continue() {}
            ended.send(()).unwrap_or_default();
            BestOrder {
                cancelled: true,
                ..best
            }
        });
        (work, end)
    }

    const LONG: Duration = Duration::from_secs(20);

    #[test]
    fn nothing_is_looked_for_that_nobody_asked_for() {
        let (document, mut work) = (two_molars(), RunWork::default());
        settle(&mut work, &document, Asked::Nothing);
        assert!(work.problem().is_none() && matches!(work.best(), Work::Open));
        settle(&mut work, &document, Asked::Remedies);
        assert!(matches!(work.best(), Work::Open) && work.remedies().done().is_some());
        settle(&mut work, &document, Asked::Order);
        assert!(work.order().is_some() && !work.reasons().done().unwrap().is_empty());
    }

    #[test]
    fn what_was_found_is_kept_for_as_long_as_what_it_depends_on_is_the_same() {
        let (mut document, mut work) = (two_molars(), RunWork::default());
        settle(&mut work, &document, Asked::Order);
        let found = work.order().unwrap().clone();
        edit(&mut document, Edit::SetNote(Some("a note".to_owned())));
        work.poll(Some(&document), None, Asked::Order, &nobody());
        assert_eq!(work.order(), Some(&found));
        // Another order that is followed is held against the same best one, at once.
        let order = found.best.steps.iter();
        let order = order.filter_map(|step| step.what.ordered()).collect();
        edit(&mut document, Edit::AcceptOrder(order));
        work.poll(Some(&document), None, Asked::Order, &nobody());
        assert!(work.order().unwrap().followed_is_least);
        edit(&mut document, other_wishes());
        work.poll(Some(&document), None, Asked::Order, &nobody());
        assert!(work.order().is_none() && work.best().done().is_none());
        settle(&mut work, &document, Asked::Order);
        assert!(work.order().is_some());
        work.poll(None, None, Asked::Order, &nobody());
        assert!(work.problem().is_none());
    }

    #[test]
    fn a_search_is_stopped_when_what_it_depends_on_changes() {
        let (mut document, mut work) = (two_molars(), RunWork::default());
        settle(&mut work, &document, Asked::Order);
        let (best, end) = endless(work.best().done().unwrap().clone());
        (work.best, work.against) = (best, None);
        // Even where its view is no longer looked at.
        edit(&mut document, Edit::SetNote(Some("a note".to_owned())));
        work.poll(Some(&document), None, Asked::Nothing, &nobody());
        assert!(work.best().is_going() && end.try_recv().is_err());
        edit(&mut document, other_wishes());
        work.poll(Some(&document), None, Asked::Nothing, &nobody());
        end.recv_timeout(LONG).unwrap();
        assert!(matches!(work.best(), Work::Open));
    }

    #[test]
    fn what_would_settle_shortages_is_no_longer_tried_once_the_case_is_another() {
        let (mut document, mut work) = (two_molars(), RunWork::default());
        settle(&mut work, &document, Asked::Remedies);
        let (ended, end) = channel();
        work.remedies.begin("endless", &nobody(), move |reporter| {
            while reporter.goes_on().is_continue() {}
            ended.send(()).unwrap_or_default();
            Vec::new()
        });
        work.poll(Some(&document), None, Asked::Nothing, &nobody());
        assert!(work.remedies().is_going() && end.try_recv().is_err());
        edit(&mut document, Edit::SetNote(Some("a note".to_owned())));
        work.poll(Some(&document), None, Asked::Nothing, &nobody());
        end.recv_timeout(LONG).unwrap();
        assert!(matches!(work.remedies(), Work::Open));
    }

    #[test]
    fn a_search_is_stopped_by_hand_and_the_best_so_far_stays_until_one_looks_again() {
        let (document, mut work) = (two_molars(), RunWork::default());
        settle(&mut work, &document, Asked::Order);
        let (best, end) = endless(work.best().done().unwrap().clone());
        (work.best, work.against) = (best, None);
        assert!(work.can_be_stopped());
        work.stop();
        assert!(!work.can_be_stopped());
        end.recv_timeout(LONG).unwrap();
        settle(&mut work, &document, Asked::Order);
        assert!(work.order().unwrap().cancelled);
        work.again();
        settle(&mut work, &document, Asked::Order);
        assert!(!work.order().unwrap().cancelled);
    }
}
