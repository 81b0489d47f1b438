//! Everything of the world outside that the window reaches for: the clock, dialogs, the viewer of
//! the system. Tests put a world of their own in its place.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};

/// The purpose for which a file is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A case to open.
    OpenCase,
    /// A kit to take entries from.
    OpenKit,
    /// The place where the case is to be saved.
    SaveCase,
    /// The place where the printed sheet is to be written.
    SaveSheet,
    /// The place where the record is to be written.
    SaveRecord,
    /// The place where the pack is to be written.
    SavePack,
    /// A pack to take a case out of.
    OpenPack,
}

impl Purpose {
    /// The ending of the files that are asked for.
    #[must_use]
    pub const fn ending(self) -> &'static str {
        match self {
            Self::OpenCase | Self::OpenKit | Self::SaveCase => "json",
            Self::SaveSheet | Self::SaveRecord => "pdf",
            Self::SavePack | Self::OpenPack => "pack",
        }
    }
}

/// The world outside.
pub trait Platform {
    /// The time now.
    fn now(&self) -> jiff::Timestamp;

    /// Shows the system's dialog for a file; the answer comes later by [`Platform::chosen`].
    /// `repaint` wakes the window when it is there.
    fn choose(&mut self, purpose: Purpose, name: &str, repaint: Box<dyn Fn() + Send>);

    /// An answer of a dialog, once: for what it was asked and which file, or nothing where the
    /// person cancelled or the desktop offers no dialog.
    fn chosen(&mut self) -> Option<(Purpose, Option<PathBuf>)>;

    /// Opens a file in the viewer of the system.
    ///
    /// # Errors
    ///
    /// The error of the system.
    fn view(&mut self, file: &Path) -> Result<(), String>;

    /// The file that keeps this user's settings; nothing keeps none.
    fn settings_file(&self) -> Option<PathBuf>;

    /// A name for a desk that has none yet: its own, whatever other desks are there.
    fn new_desk(&self) -> String {
        random_desk()
    }

    /// The folder of what is shown in the viewer of the system; nothing where there is none.
    fn shown_folder(&self) -> Option<PathBuf> {
        Some(self.unsaved_folder()?.with_file_name("shown"))
    }

    /// The folder that keeps what this user has not saved yet; nothing keeps none.
    fn unsaved_folder(&self) -> Option<PathBuf> {
        Some(self.settings_file()?.parent()?.join("unsaved"))
    }
}

/// The day of a time where days begin first, at UTC+14: what is of a later one has come nowhere.
#[must_use]
pub(crate) fn day_of(now: jiff::Timestamp) -> jiff::civil::Date {
    traywright_core::case::day_of(now)
}

/// The time by the clock of this machine; where that is beyond what a time can be, the last that can.
#[must_use]
pub(crate) fn now() -> jiff::Timestamp {
    of_clock(std::time::SystemTime::now())
}

fn of_clock(clock: std::time::SystemTime) -> jiff::Timestamp {
    clock.try_into().unwrap_or(jiff::Timestamp::MAX)
}

/// A name by chance: of 36⁷ there are 8·10¹⁰, so that a practice of 100 desks has two alike once in ten million.
fn random_desk() -> String {
    use std::hash::{BuildHasher as _, RandomState};
    const LETTERS: &[u8; 36] = b"abcdefghijklmnopqrstuvwxyz0123456789";
    let mut chance = RandomState::new().hash_one(std::process::id());
    let mut name = "desk-".to_owned();
    for _ in 0..7 {
        let at = usize::try_from(chance % 36).unwrap_or(0);
        name.push(char::from(LETTERS[at]));
        chance /= 36;
    }
    name
}

/// The real one.
pub struct Desktop {
    answers: Receiver<(Purpose, Option<PathBuf>)>,
    answer: Sender<(Purpose, Option<PathBuf>)>,
}

impl Default for Desktop {
    fn default() -> Self {
        let (answer, answers) = channel();
        Self { answers, answer }
    }
}

impl Platform for Desktop {
    fn now(&self) -> jiff::Timestamp {
        now()
    }

    fn choose(&mut self, purpose: Purpose, name: &str, repaint: Box<dyn Fn() + Send>) {
        let ending = purpose.ending();
        let dialog = rfd::AsyncFileDialog::new()
            .add_filter(ending.to_uppercase(), &[ending])
            .set_file_name(name);
        let answer = self.answer.clone();
        let wait = move || {
            let chosen = match purpose {
                Purpose::OpenCase | Purpose::OpenKit | Purpose::OpenPack => {
                    pollster::block_on(dialog.pick_file())
                }
                Purpose::SaveCase
                | Purpose::SaveSheet
                | Purpose::SaveRecord
                | Purpose::SavePack => pollster::block_on(dialog.save_file()),
            };
            let path = chosen.map(|file| file.path().to_owned());
            // The window may be closed by now; then nobody waits for the answer.
            let _ = answer.send((purpose, path));
            repaint();
        };
        let thread = std::thread::Builder::new().name("file dialog".to_owned());
        if thread.spawn(wait).is_err() {
            let _ = self.answer.send((purpose, None));
        }
    }

    fn chosen(&mut self) -> Option<(Purpose, Option<PathBuf>)> {
        self.answers.try_recv().ok()
    }

    fn view(&mut self, file: &Path) -> Result<(), String> {
        open::that_detached(file).map_err(|error| error.to_string())
    }

    fn settings_file(&self) -> Option<PathBuf> {
        let places = directories::ProjectDirs::from("", "", "traywright")?;
        Some(places.config_dir().join("settings.json"))
    }

    fn unsaved_folder(&self) -> Option<PathBuf> {
        let folders = directories::ProjectDirs::from("", "", "traywright")?;
        let state = folders.state_dir().unwrap_or(folders.data_local_dir());
        Some(state.join("unsaved"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, SystemTime};

    #[test]
    fn a_clock_beyond_every_year_is_a_time_all_the_same() {
        let year_20_000 = SystemTime::UNIX_EPOCH + Duration::from_secs(569_000_000_000);
        assert_eq!(of_clock(year_20_000), jiff::Timestamp::MAX);
        assert_eq!(of_clock(SystemTime::UNIX_EPOCH).as_second(), 0);
    }
}
