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

    /// The folder that keeps what this user has not saved yet; nothing keeps none.
    fn unsaved_folder(&self) -> Option<PathBuf> {
        Some(self.settings_file()?.parent()?.join("unsaved"))
    }
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
        jiff::Timestamp::now()
    }

    fn choose(&mut self, purpose: Purpose, name: &str, repaint: Box<dyn Fn() + Send>) {
        let kind = match purpose {
            Purpose::SaveSheet => ("PDF", "pdf"),
            _ => ("JSON", "json"),
        };
        let dialog = rfd::AsyncFileDialog::new()
            .add_filter(kind.0, &[kind.1])
            .set_file_name(name);
        let answer = self.answer.clone();
        let wait = move || {
            let chosen = match purpose {
                Purpose::OpenCase | Purpose::OpenKit => pollster::block_on(dialog.pick_file()),
                Purpose::SaveCase | Purpose::SaveSheet => pollster::block_on(dialog.save_file()),
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
}
