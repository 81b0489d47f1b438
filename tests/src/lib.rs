//! The world around a window that no person sits at, for tests and benchmarks.

pub mod tray;

use std::cell::Cell;
use std::path::{Path, PathBuf};
use traywright::platform::{Platform, Purpose};

/// A platform without dialogs and viewers, whose clock is stopped or goes on by a second each time
/// that it is looked at.
pub struct Still {
    settings: Option<PathBuf>,
    now: Cell<jiff::Timestamp>,
    seconds: i64,
}

impl Still {
    /// With a stopped clock.
    ///
    /// # Panics
    ///
    /// Never: the time is one.
    #[must_use]
    pub fn stopped() -> Self {
        let now: jiff::Timestamp = "2026-11-25T08:00:00Z".parse().expect("a time");
        Self {
            settings: None,
            now: Cell::new(now),
            seconds: 0,
        }
    }

    /// The same with settings in this file; without one they are not kept.
    #[must_use]
    pub fn with_settings(self, file: PathBuf) -> Self {
        Self {
            settings: Some(file),
            ..self
        }
    }

    /// With a clock that goes on.
    #[must_use]
    pub fn ticking() -> Self {
        Self {
            seconds: 1,
            ..Self::stopped()
        }
    }
}

impl Platform for Still {
    fn now(&self) -> jiff::Timestamp {
        let now = self.now.get() + jiff::SignedDuration::from_secs(self.seconds);
        self.now.set(now);
        now
    }

    fn choose(&mut self, _: Purpose, _: &str, _: Box<dyn Fn() + Send>) {}

    fn chosen(&mut self) -> Option<(Purpose, Option<PathBuf>)> {
        None
    }

    fn view(&mut self, file: &Path) -> Result<(), String> {
        Err(format!("{}: no viewer here", file.display()))
    }

    fn new_desk(&self) -> String {
        "desk".to_owned()
    }

    fn settings_file(&self) -> Option<PathBuf> {
        self.settings.clone()
    }
}
