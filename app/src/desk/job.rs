//! Work beside the window: a thread that answers once, reports how far it is, and can be stopped.

use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::task::Poll;
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// Shortest time between two wakings of the window while the work goes on.
const EVERY: Duration = Duration::from_millis(300);

/// Wakes the window; called from the thread.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// Work that goes on: it answers with a `T` and reports a `P` meanwhile.
#[derive(Debug)]
pub struct Job<T, P> {
    answer: Receiver<T>,
    thread: Option<JoinHandle<()>>,
    reported: Arc<Mutex<Option<P>>>,
    stop: Arc<AtomicBool>,
}

/// The work's link to the window: a place to report how far it is, and to hear that it is to stop.
pub struct Reporter<P> {
    reported: Arc<Mutex<Option<P>>>,
    stop: Arc<AtomicBool>,
    wake: Wake,
    last: Option<Instant>,
}

impl<T: Send + 'static, P: Send + 'static> Job<T, P> {
    /// Begins work on a thread of this name. Nothing where the system gives no thread.
    pub fn begin(
        name: &str,
        wake: Wake,
        work: impl FnOnce(&mut Reporter<P>) -> T + Send + 'static,
    ) -> Option<Self> {
        let (reported, stop) = (Arc::new(Mutex::new(None)), Arc::new(AtomicBool::new(false)));
        let mut reporter = Reporter {
            reported: Arc::clone(&reported),
            stop: Arc::clone(&stop),
            wake: Arc::clone(&wake),
            last: None,
        };
        let (send, answer) = channel();
        let work = move || {
            // Woken whichever way it ends, and only after the answer is there or known not to come:
            // what was made last is dropped first.
            let _woken = WakeAtEnd(wake);
            let send = send;
            let done = work(&mut reporter);
            // Nobody may wait for it any more.
            send.send(done).unwrap_or_default();
        };
        let thread = std::thread::Builder::new().name(name.to_owned());
        Some(Self {
            thread: Some(thread.spawn(work).ok()?),
            answer,
            reported,
            stop,
        })
    }

    /// Asks it to stop; its answer comes soon after.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// True if it was asked to stop.
    #[must_use]
    pub fn is_stopping(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }

    /// The last report.
    pub fn last_report(&self) -> Option<P>
    where
        P: Clone,
    {
        let told = self.reported.lock();
        told.unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// The answer where the work has ended: nothing within where it failed.
    pub fn ended(&mut self) -> Poll<Option<T>> {
        let answer = match self.answer.try_recv() {
            Ok(answer) => Some(answer),
            Err(TryRecvError::Disconnected) => None,
            Err(TryRecvError::Empty) => return Poll::Pending,
        };
        self.join();
        Poll::Ready(answer)
    }

    /// Waits for the answer. Nothing where the work failed.
    #[must_use]
    pub fn answer(&mut self) -> Option<T> {
        let answer = self.answer.recv().ok();
        self.join();
        answer
    }

    /// Waits until the window was woken, which is all that is left to do, so that it is not woken
    /// again for an answer that was taken.
    fn join(&mut self) {
        if let Some(thread) = self.thread.take() {
            // Work that failed was told by the answer that is missing.
            drop(thread.join());
        }
    }
}

impl<T, P> Drop for Job<T, P> {
    /// Work that nobody waits for any more stops.
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl<P> Reporter<P> {
    /// Says whether the work goes on, for work that reports nothing meanwhile.
    pub fn goes_on(&self) -> ControlFlow<()> {
        if self.stop.load(Ordering::Relaxed) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }

    /// Reports how far the work is, a few times a second at most, and hears whether it goes on.
    pub fn report(&mut self, progress: impl FnOnce() -> P) -> ControlFlow<()> {
        self.report_at(Instant::now(), progress)
    }

    fn report_at(&mut self, now: Instant, progress: impl FnOnce() -> P) -> ControlFlow<()> {
        self.goes_on()?;
        if self.last.is_none_or(|last| now - last >= EVERY) {
            self.last = Some(now);
            let progress = Some(progress());
            *self.reported.lock().unwrap_or_else(PoisonError::into_inner) = progress;
            (self.wake)();
        }
        ControlFlow::Continue(())
    }
}

struct WakeAtEnd(Wake);

impl Drop for WakeAtEnd {
    fn drop(&mut self) {
        (self.0)();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::mpsc::channel;

    const LONG: Duration = Duration::from_secs(20);

    #[test]
    fn work_tells_how_far_it_is_and_stops_when_asked() {
        let (woken, wakes) = channel();
        let wake: Wake = Arc::new(move || woken.send(()).unwrap_or_default());
        let count = |reporter: &mut Reporter<u32>| {
            let mut n = 0;
            while reporter.report(|| n).is_continue() {
                n += 1;
            }
            n
        };
        let mut job = Job::begin("count", wake, count).unwrap();
        wakes.recv_timeout(LONG).unwrap();
        assert!(job.last_report().is_some() && job.ended().is_pending());
        wakes.recv_timeout(LONG).unwrap();
        job.stop();
        assert!(job.answer().unwrap() > 0);
    }

    #[test]
    fn the_window_is_woken_only_after_a_while_however_often_it_is_told() {
        let (woken, wakes) = channel();
        let mut reporter = Reporter {
            reported: Arc::new(Mutex::new(None)),
            stop: Arc::new(AtomicBool::new(false)),
            wake: Arc::new(move || woken.send(()).unwrap_or_default()),
            last: None,
        };
        let begun = Instant::now();
        let short = EVERY / 10;
        for n in 0..=30_u32 {
            assert!(reporter.report_at(begun + short * n, || n).is_continue());
        }
        // At the first, and at every tenth after it.
        assert_eq!(wakes.try_iter().count(), 4);
        assert_eq!(*reporter.reported.lock().unwrap(), Some(30));
        reporter.stop.store(true, Ordering::Relaxed);
        assert!(reporter.report_at(begun + EVERY * 9, || 9).is_break());
        assert_eq!(wakes.try_iter().count(), 0);
    }

    #[test]
    fn work_that_fails_wakes_the_window_and_gives_no_answer() {
        let (woken, wakes) = channel();
        let wake: Wake = Arc::new(move || woken.send(()).unwrap_or_default());
        let fails = |_: &mut Reporter<()>| -> u32 { std::panic::resume_unwind(Box::new(())) };
        let mut job = Job::begin("fail", wake, fails).unwrap();
        wakes.recv_timeout(LONG).unwrap();
        assert_eq!(job.answer(), None);
    }

    #[test]
    fn work_that_nobody_waits_for_stops() {
        let (ended, end) = channel();
        let work = move |reporter: &mut Reporter<()>| {
            while reporter.report(|| ()).is_continue() {}
            ended.send(()).unwrap_or_default();
        };
        drop(Job::begin("forgotten", Arc::new(|| {}), work).unwrap());
        end.recv_timeout(LONG).unwrap();
    }
}
