//! A hand at the window: it finds things by their names, clicks, types and presses keys.

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use std::path::Path;
use tempfile::TempDir;
use traywright::action::View;
use traywright::context::Notice;
use traywright::window::Program;
use traywright_tests::Still;

/// The smallest window that the views are made for.
pub(crate) const DESK: Vec2 = vec2(1280.0, 800.0);

/// A frame in the whole window: the harness would leave a margin around it that the window has not.
fn frame(ui: &mut egui::Ui, program: &mut Program) {
    let whole = ui.ctx().content_rect();
    let whole = egui::UiBuilder::new().max_rect(whole);
    ui.scope_builder(whole, |ui| {
        ui.set_clip_rect(ui.max_rect());
        program.frame(ui);
    });
}

/// The means by which the hand works.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum By {
    /// The pointer; the keyboard for what is typed.
    Pointer,
    /// The keyboard alone: Tab until the control has the keyboard, then Space.
    Keys,
}

/// After so many a control is not to be reached by Tab.
const MOST_TABS: usize = 400;

/// A hand at the window.
pub(crate) struct Hand {
    pub(crate) harness: Harness<'static, Program>,
    pub(crate) folder: TempDir,
    by: By,
}

impl Hand {
    /// At a window of the smallest size, with nothing open.
    pub(crate) fn new() -> Self {
        Self::at(DESK, 1.0)
    }

    /// At a window of this size, in points at this scale.
    pub(crate) fn at(size: Vec2, scale: f32) -> Self {
        Self::within(TempDir::new().expect("a folder"), size, scale)
    }

    /// The same with files written into its folder before it is begun.
    pub(crate) fn with_files(write: impl FnOnce(&Path)) -> Self {
        let folder = TempDir::new().expect("a folder");
        write(folder.path());
        Self::within(folder, DESK, 1.0)
    }

    /// The same window's program begun anew in its folder, as after it died; with this file open.
    pub(crate) fn again(self, file: Option<&Path>) -> Self {
        let Self {
            harness, folder, ..
        } = self;
        drop(harness);
        until_nobody_writes(folder.path());
        let mut hand = Self::within(folder, DESK, 1.0);
        if let Some(file) = file {
            hand.harness.state_mut().open(file);
        }
        hand.wait();
        hand
    }

    fn within(folder: TempDir, size: Vec2, scale: f32) -> Self {
        let settings = folder.path().join("settings.json");
        let still = Still::stopped().with_settings(settings);
        let program = Program::new(Box::new(still));
        let harness = Harness::builder()
            .with_size(size)
            .with_pixels_per_point(scale)
            .with_max_steps(12)
            .with_context_setup(|ctx| Program::dress_as(ctx, traywright::look::Mode::Light))
            .build_ui_state(frame, program);
        let by = By::Pointer;
        let mut hand = Self {
            harness,
            folder,
            by,
        };
        hand.wait();
        hand
    }

    /// The same without a pointer.
    pub(crate) fn by_keys(mut self) -> Self {
        self.by = By::Keys;
        self
    }

    /// The same with a copy of an invented case open.
    pub(crate) fn with_demo(mut self, name: &str) -> Self {
        let demo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
        let copy = self.folder.path().join(format!("{name}.json"));
        std::fs::copy(demo.join(format!("{name}.json")), &copy).expect("a copy");
        self.harness.state_mut().open(&copy);
        self.wait();
        self
    }

    pub(crate) fn program(&self) -> &Program {
        self.harness.state()
    }

    /// The one thing of this name.
    pub(crate) fn find<'a>(&'a self, name: &'a str) -> Node<'a> {
        self.harness.get_by_label(name)
    }

    /// Presses the button of this name; of two the one on top, in a question.
    pub(crate) fn click(&mut self, name: &str) {
        self.press_on(Role::Button, name);
    }

    /// Follows the link of this name.
    pub(crate) fn follow(&mut self, name: &str) {
        self.press_on(Role::Link, name);
    }

    /// Picks one of several that exclude each other, of this name.
    pub(crate) fn pick(&mut self, name: &str) {
        self.press_on(Role::RadioButton, name);
    }

    pub(crate) fn press_on(&mut self, role: Role, name: &str) {
        match self.by {
            By::Pointer => {
                // It may lie out of sight.
                self.named(role, name).scroll_to_me();
                self.harness.run();
                self.named(role, name).click();
                self.harness.run();
            }
            By::Keys => {
                self.reach(role, name);
                self.press(Modifiers::NONE, Key::Space);
            }
        }
    }

    /// The control of this kind and name; of two the one on top, in a question. One that cannot be used
    /// is none where another can.
    fn named<'a>(&'a self, role: Role, name: &'a str) -> Node<'a> {
        let found = self
            .harness
            .query_all_by(move |node| node.role() == role && node.label().as_deref() == Some(name));
        let (off, on): (Vec<_>, Vec<_>) =
            found.partition(|node| node.accesskit_node().is_disabled());
        let found = off.into_iter().chain(on);
        let is = || format!("no {role:?} “{name}” among {:#?}", self.names(role));
        found.last().unwrap_or_else(|| panic!("{}", is()))
    }

    /// The names of all controls of a kind.
    pub(crate) fn names(&self, role: Role) -> Vec<String> {
        let found = self.harness.query_all_by(move |node| node.role() == role);
        found
            .map(|node| node.accesskit_node().label().unwrap_or_default())
            .collect()
    }

    /// Goes with Tab until the control has the keyboard, and looks whether it can be seen then.
    pub(crate) fn reach(&mut self, role: Role, name: &str) {
        for _ in 0..MOST_TABS {
            if self.named(role, name).is_focused() {
                let room = self.harness.ctx.content_rect().expand(1.0);
                let seen = self.harness.ctx.memory(|memory| memory.focused());
                let seen = seen.and_then(|id| self.harness.ctx.read_response(id));
                let seen = seen.expect("what has the keyboard is there").interact_rect;
                assert!(
                    seen.is_positive() && room.intersects(seen),
                    "{name} has the keyboard and cannot be seen: {seen:?}"
                );
                return;
            }
            self.press(Modifiers::NONE, Key::Tab);
        }
        panic!("{role:?} “{name}” is not reached by Tab");
    }

    /// Puts this text into the field of this name in place of its text, and goes on.
    pub(crate) fn enter(&mut self, name: &str, text: &str) {
        let unseen = Role::PasswordInput;
        let role = if self.names(unseen).iter().any(|one| one == name) {
            unseen
        } else {
            Role::TextInput
        };
        match self.by {
            By::Pointer => self.named(role, name).focus(),
            By::Keys => self.reach(role, name),
        }
        self.harness.run();
        self.press(Modifiers::COMMAND, Key::A);
        self.harness.event(egui::Event::Text(text.to_owned()));
        self.harness.run();
        self.press(Modifiers::NONE, Key::Tab);
    }

    /// Chooses among what the field of this name offers.
    pub(crate) fn choose(&mut self, name: &str, offer: &str) {
        self.press_on(Role::ComboBox, name);
        self.click(offer);
    }

    /// Presses a key.
    pub(crate) fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.harness.run();
    }

    /// Waits for what is worked out beside the window.
    pub(crate) fn wait(&mut self) {
        self.harness.run();
        self.harness.state_mut().wait_for_work();
        self.harness.run();
    }

    /// Goes to a view by its key.
    pub(crate) fn go(&mut self, view: View) {
        self.press(Modifiers::COMMAND, view.key());
        assert_eq!(self.program().view_state().view, view);
    }

    /// True if anything of this name is there.
    pub(crate) fn sees(&self, name: &str) -> bool {
        self.harness
            .query_all_by_label_contains(name)
            .next()
            .is_some()
    }

    /// The last refusal.
    pub(crate) fn refused(&self) -> Option<&str> {
        match &self.program().view_state().notice {
            Some(Notice::Refused(text)) => Some(text),
            _ => None,
        }
    }
}

/// Waits until the threads of a program that is gone have let go of what they wrote; what another one has goes on.
fn until_nobody_writes(folder: &Path) {
    let short = std::time::Duration::from_millis(50);
    // A thread that had something to write still may not have begun.
    std::thread::sleep(10 * short);
    for _ in 0..200 {
        if files(folder).iter().all(|file| is_free(file)) {
            return;
        }
        std::thread::sleep(short);
    }
}

/// True if nobody holds a lock on a file, or it is gone.
fn is_free(file: &Path) -> bool {
    std::fs::File::open(file).is_ok_and(|open| open.try_lock().is_ok()) || !file.exists()
}

/// All files below a folder.
fn files(folder: &Path) -> Vec<std::path::PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let paths = entries.map(|entry| entry.path());
    paths
        .flat_map(|path| {
            if path.is_dir() {
                files(&path)
            } else {
                vec![path]
            }
        })
        .collect()
}
