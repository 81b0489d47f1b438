//! A hand at the window: it finds things by their names, clicks, types and presses keys.

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2, vec2};
use egui_kittest::kittest::Queryable as _;
use egui_kittest::{Harness, Node};
use std::path::{Path, PathBuf};
use tempfile::TempDir;
use traywright::outside::{Outside, Purpose};
use traywright::window::{Notice, Program, View};

/// The smallest window that the views are made for.
pub(crate) const DESK: Vec2 = vec2(1280.0, 800.0);

/// A world with a clock that stands still, no dialogs and settings in a folder of its own.
struct World {
    settings: PathBuf,
}

impl Outside for World {
    fn now(&self) -> jiff::Timestamp {
        "2026-11-25T08:00:00Z".parse().expect("a time")
    }

    fn choose(&mut self, _: Purpose, _: &str, _: Box<dyn Fn() + Send>) {}

    fn chosen(&mut self) -> Option<(Purpose, Option<PathBuf>)> {
        None
    }

    fn view(&mut self, file: &Path) -> Result<(), String> {
        Err(format!("{}: no viewer here", file.display()))
    }

    fn settings_file(&self) -> Option<PathBuf> {
        Some(self.settings.clone())
    }
}

/// A hand at the window.
pub(crate) struct Hand {
    pub(crate) harness: Harness<'static, Program>,
    pub(crate) folder: TempDir,
}

impl Hand {
    /// At a window of the smallest size, with nothing open.
    pub(crate) fn new() -> Self {
        Self::at(DESK, 1.0)
    }

    /// At a window of this size, in points at this scale.
    pub(crate) fn at(size: Vec2, scale: f32) -> Self {
        let folder = TempDir::new().expect("a folder");
        let settings = folder.path().join("settings.json");
        let program = Program::new(Box::new(World { settings }));
        let harness = Harness::builder()
            .with_size(size)
            .with_pixels_per_point(scale)
            .with_max_steps(12)
            .with_context_setup(|ctx| Program::dress_as(ctx, traywright::look::Mode::Light))
            .build_ui_state(|ui, program: &mut Program| program.frame(ui), program);
        let mut hand = Self { harness, folder };
        hand.harness.run();
        hand
    }

    /// The same with a copy of an invented case open.
    pub(crate) fn with_demo(mut self, name: &str) -> Self {
        let demo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
        let copy = self.folder.path().join(format!("{name}.json"));
        std::fs::copy(demo.join(format!("{name}.json")), &copy).expect("a copy");
        self.harness.state_mut().open(&copy);
        self.harness.run();
        self
    }

    pub(crate) fn program(&self) -> &Program {
        self.harness.state()
    }

    /// The one thing of this name.
    pub(crate) fn find<'a>(&'a self, name: &'a str) -> Node<'a> {
        self.harness.get_by_label(name)
    }

    /// Clicks the button of this name; of two the one that lies above, in a question.
    pub(crate) fn click(&mut self, name: &str) {
        self.button(name).click();
        self.harness.run();
    }

    fn button<'a>(&'a self, name: &'a str) -> Node<'a> {
        let found = self.harness.query_all_by(|node| {
            node.role() == Role::Button && node.label().as_deref() == Some(name)
        });
        found.last().unwrap_or_else(|| panic!("no button {name}"))
    }

    /// Clicks the link of this name.
    pub(crate) fn follow(&mut self, name: &str) {
        self.harness.get_by_role_and_label(Role::Link, name).click();
        self.harness.run();
    }

    /// Puts this text into the field of this name in place of what stands there, and goes on.
    pub(crate) fn enter(&mut self, name: &str, text: &str) {
        self.harness
            .get_by_role_and_label(Role::TextInput, name)
            .focus();
        self.harness.run();
        self.press(Modifiers::COMMAND, Key::A);
        self.harness
            .get_by_role_and_label(Role::TextInput, name)
            .type_text(text);
        self.harness.run();
        self.press(Modifiers::NONE, Key::Tab);
    }

    /// Chooses among what the field of this name offers.
    pub(crate) fn choose(&mut self, name: &str, offer: &str) {
        self.harness
            .get_by_role_and_label(Role::ComboBox, name)
            .click();
        self.harness.run();
        // Of a long list it may lie out of sight.
        self.button(offer).scroll_to_me();
        self.harness.run();
        self.click(offer);
    }

    /// Presses a key.
    pub(crate) fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.harness.run();
    }

    /// Goes to a view by its key.
    pub(crate) fn go(&mut self, view: View) {
        self.press(Modifiers::COMMAND, view.key());
        assert_eq!(self.program().sight().view, view);
    }

    /// Whether anything of this name is there.
    pub(crate) fn sees(&self, name: &str) -> bool {
        self.harness
            .query_all_by_label_contains(name)
            .next()
            .is_some()
    }

    /// What was refused last.
    pub(crate) fn refused(&self) -> Option<&str> {
        match &self.program().sight().notice {
            Some(Notice::Refused(text)) => Some(text),
            _ => None,
        }
    }
}
