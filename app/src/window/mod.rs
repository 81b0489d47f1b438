//! The window: its frame, the views in it, and what is looked at.

mod apart;
mod ask;
mod fault;
mod follow;
mod followed;
mod help;
mod notice;
mod pack;
mod perform;
mod replace;
mod strip;
mod title_block;
mod top;
mod unsaved;
mod views;
mod watch;

pub use views::Views;

use crate::action::{Action, Ask, Command, View};
use crate::context::{Notice, ViewContext, ViewState};
use crate::desk::{Asked, Astray, Desk, Document, Settings, Wake};
use crate::look::{Mode, Theme, install_fonts};
use crate::platform::{Desktop, Platform, Purpose};
use eframe::egui;
use std::cell::OnceCell;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use traywright_core::store::{cases_in, entries_in};

/// The program with a window.
pub struct Program {
    desk: Desk,
    state: ViewState,
    views: Views,
    platform: Box<dyn Platform>,
    follow: follow::Follow,
    /// Dialogs of the system that were asked for while this case was open.
    browsing: Vec<Purpose>,
    /// Over the files of the open case.
    watch: Option<watch::Watch>,
    /// The program itself had a fault.
    faulty: bool,
}

impl Program {
    /// The program with this world around it.
    #[must_use]
    pub fn new(platform: Box<dyn Platform>) -> Self {
        let settings = platform.settings_file();
        let new = platform.new_desk();
        let (settings, unread) = match settings {
            Some(file) => Settings::read(&file, new.clone()),
            None => (Settings::new(new.clone()), None),
        };
        if let Some(folder) = platform.shown_folder() {
            // What the last window showed is over.
            let _ = std::fs::remove_dir_all(folder);
        }
        let mut program = Self {
            desk: Desk::new(settings),
            state: ViewState::default(),
            views: Views::default(),
            platform,
            follow: follow::Follow::default(),
            browsing: Vec::new(),
            watch: None,
            faulty: false,
        };
        if let Some(kit) = program.desk.settings.kit.clone() {
            program.perform(None, Action::UseKit(kit));
        }
        if program.desk.settings.desk == new {
            program.keep_settings();
        }
        program.state.notice = unread.map(Notice::Refused).or(program.state.notice);
        program.ask_unsaved(None);
        program
    }

    /// Gives a context the program's fonts and the colours that this user likes.
    pub fn dress(&self, ctx: &egui::Context) {
        Self::dress_as(ctx, self.desk.settings.mode);
    }

    /// Gives a context the program's fonts and the colours of a mode.
    pub fn dress_as(ctx: &egui::Context, mode: Mode) {
        install_fonts(ctx);
        Theme::new(mode).install(ctx);
    }

    /// Opens a case file. What was told before, such as settings that could not be read, stays told.
    pub fn open(&mut self, file: &Path) {
        let before = self.state.notice.take();
        self.perform(None, Action::Open(file.to_owned()));
        let after = self.state.notice.take();
        self.state.notice = match (before, after) {
            (Some(Notice::Refused(before)), Some(Notice::Refused(after))) => {
                Some(Notice::Refused(format!("{before}\n{after}")))
            }
            (Some(Notice::Refused(before)), _) => Some(Notice::Refused(before)),
            (_, after) => after,
        };
    }

    /// The desk.
    #[must_use]
    pub fn desk(&self) -> &Desk {
        &self.desk
    }

    /// The open case.
    #[must_use]
    pub fn document(&self) -> Option<&Document> {
        self.desk.document.as_ref()
    }

    /// The state that all views share.
    #[must_use]
    pub fn view_state(&self) -> &ViewState {
        &self.state
    }

    /// The state of each view.
    #[must_use]
    pub fn views(&self) -> &Views {
        &self.views
    }

    /// One frame: a table of contents.
    fn guarded_frame(&mut self, ui: &mut egui::Ui) {
        let mut actions = Vec::new();
        self.follow.before(ui.ctx());
        let ctx = ui.ctx().clone();
        self.poll(&(Arc::new(move || ctx.request_repaint()) as Wake));
        self.follow_files(ui.ctx());
        let asked = self.read_input(ui, &mut actions);
        let typing = self.take_typed(ui.ctx(), &asked);
        if self.state.view != View::Loading || self.desk.document.is_none() {
            let effects = self.views.loading.look_away().into_iter();
            actions.extend(effects.map(|effect| Action::Sign {
                who: effect.who.to_string(),
                kind: effect.kind,
            }));
        }
        if self.state.view != View::Surgery || self.desk.document.is_none() {
            self.views.surgery.look_away();
        }
        let offered = OnceCell::new();
        let mut cx = ViewContext {
            desk: &self.desk,
            state: &mut self.state,
            actions: &mut actions,
            now: self.platform.now(),
            offered: &offered,
        };
        match cx.document() {
            Some(document) if cx.state.view == View::Loading => {
                notice::ui(ui, &mut cx);
                let mut cx = cx.on_case(document, &mut self.views.loading);
                crate::view::loading::ui(ui, &mut cx);
            }
            Some(document) if cx.state.view == View::Surgery => {
                notice::ui(ui, &mut cx);
                let mut cx = cx.on_case(document, &mut self.views.surgery);
                crate::view::surgery::ui(ui, &mut cx);
            }
            _ => {
                top::ui(ui, &mut cx);
                strip::ui(ui, &mut cx);
                notice::ui(ui, &mut cx);
                self.views.ui(ui, &mut cx);
            }
        }
        ask::ui(ui, &mut cx, self.views.sheet.printing);
        cx.state.drafts.frame();
        let ctx = ui.ctx().clone();
        if let Some(field) = typing {
            ctx.memory_mut(|memory| memory.request_focus(field));
        }
        self.follow.after(&ctx);
        let asked = asked.into_iter().map(Action::Do);
        for action in actions.into_iter().chain(asked) {
            self.perform(Some(&ctx), action);
        }
        if self.desk.left.has_work() && self.state.ask.is_none() {
            ctx.request_repaint();
        }
    }

    /// Waits for everything that is worked out beside the window.
    pub fn wait_for_work(&mut self) {
        let nobody: Wake = Arc::new(|| {});
        loop {
            self.poll(&nobody);
            let folders =
                self.desk.beside.wait() | self.desk.names.wait() | self.desk.astray.wait();
            let journals = self.platform.unsaved_folder();
            let left = self.desk.left.wait(journals.as_deref());
            let run = self.desk.run.wait();
            let wear = self.wait_for_wear();
            if !run && !folders && !left && !wear {
                return;
            }
        }
    }

    /// Waits until the wear is counted; false where nothing was.
    fn wait_for_wear(&mut self) -> bool {
        let goes_on = self.desk.wear.goes_on();
        if goes_on {
            std::thread::yield_now();
        }
        goes_on
    }

    /// Takes what was worked out beside the window, and has worked out what the view asks for.
    fn poll(&mut self, wake: &Wake) {
        let asked = match self.state.view {
            View::Order => Asked::Order,
            // The pages say how good the order is.
            View::Sheet => Asked::Best,
            View::Findings => Asked::Remedies,
            _ => Asked::Nothing,
        };
        let Desk {
            run,
            beside,
            astray,
            left,
            names,
            document,
            live_kit,
            settings,
            wear,
            ..
        } = &mut self.desk;
        let is_start = document.is_none() || self.state.view == View::Start;
        let recent = settings.recent.first();
        let folder = recent.and_then(|file| file.parent());
        beside.poll(folder.filter(|_| is_start), cases_in, wake);
        let unsaved = self.platform.unsaved_folder();
        astray.poll(
            unsaved.as_deref().filter(|_| is_start),
            Astray::in_folder,
            wake,
        );
        let folder = self.state.ask.as_ref().and_then(Ask::folder);
        names.poll(folder.as_deref(), entries_in, wake);
        left.poll(unsaved.as_deref(), wake);
        run.poll(document.as_ref(), live_kit.as_ref(), asked, wake);
        if let Some(told) = wear.poll(wake) {
            self.state.notice = Some(Notice::Refused(told));
        }
        let reads = matches!(
            self.state.view,
            View::Loading | View::Surgery | View::Record | View::Kit
        );
        if reads || wear.ledger.goes_on() {
            let file = settings.kit.as_deref();
            wear.ledger.poll(file.zip(live_kit.as_ref()), wake);
        }
        self.ask_found();
    }

    /// Takes the answer of a dialog into the field of the question that it was asked for. One that
    /// comes when the question is gone, or another case is there, says nothing.
    fn answer(&mut self, answered: Purpose, file: Option<PathBuf>) {
        let asked = self.browsing.iter().position(|asked| *asked == answered);
        let asked = asked.map(|at| self.browsing.swap_remove(at));
        if let (Some(ask), Some(asked), Some(file)) = (&mut self.state.ask, asked, file)
            && let Ask::File { purpose, path, .. } = ask
            && *purpose == asked
        {
            path.put(file.display().to_string());
        }
    }

    /// Has what is being typed taken before one of these commands is carried out: the field that takes it,
    /// which gets the keyboard back. Undo takes it back instead.
    fn take_typed(&self, ctx: &egui::Context, asked: &[Command]) -> Option<egui::Id> {
        let takes = |command: &Command| !matches!(command, Command::Undo | Command::Redo);
        asked.iter().find(|command| takes(command))?;
        let focused = ctx.memory(|memory| memory.focused());
        let field = self.state.drafts.being_typed(focused)?;
        ctx.memory_mut(|memory| memory.surrender_focus(field));
        Some(field)
    }

    /// Input from outside the views: keys, dialogs, dropped files, the wish to close. Gives the commands
    /// whose keys were pressed: they come after what the views give.
    fn read_input(&mut self, ui: &egui::Ui, actions: &mut Vec<Action>) -> Vec<Command> {
        let ctx = ui.ctx();
        while let Some((purpose, file)) = self.platform.chosen() {
            self.answer(purpose, file);
        }
        let mut asked = Vec::new();
        if self.state.ask.is_none() {
            // What was typed and is not in the case can be taken, told and taken back.
            let typed = !self.state.drafts.not_taken().is_empty();
            let of_typed = |command: &Command| {
                typed && matches!(command, Command::Save | Command::Undo | Command::Redo)
            };
            asked = keys(ctx);
            if asked.contains(&Command::Pack)
                && let Some(why) = Command::Pack.why_not(&self.desk)
            {
                actions.push(Action::Tell(self.desk.texts.get(why, &[])));
            }
            asked.retain(|command| command.why_not(&self.desk).is_none() || of_typed(command));
            if matches!(self.state.view, View::Loading | View::Surgery) {
                // No step of the plan is taken back from where stops are set, or drills used.
                asked.retain(|command| !matches!(command, Command::Undo | Command::Redo));
                // A slip of the hand does not end readings without figures: what leaves them is asked twice.
                let leaves = |command: &Command| {
                    matches!(command, Command::Show(view) if *view != View::Loading)
                        || *command == Command::Close
                };
                if self.views.loading.reads_blind() && asked.iter().any(leaves) {
                    asked.retain(|command| !leaves(command));
                    actions.push(Action::Tell(self.desk.texts.get("loading-blind-held", &[])));
                }
            }
        }
        let dropped = ctx.input(|input| {
            let files = input.raw.dropped_files.iter();
            files.map(|file| file.path().to_owned()).next_back()
        });
        actions.extend(dropped.map(|file| self.state.guarded(&self.desk, Action::Open(file))));
        let closing = ctx.input(|input| input.viewport().close_requested());
        if closing && self.state.would_lose(&self.desk) {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            actions.push(Action::Ask(Ask::leaving(Action::Do(Command::Quit))));
        }
        asked
    }
}

/// The commands whose keys were pressed; those with more modifiers are looked for first, since a
/// shortcut does not mind others that are held too.
fn keys(ctx: &egui::Context) -> Vec<Command> {
    let mut commands: Vec<Command> = Command::all().collect();
    commands.sort_by_key(|command| std::cmp::Reverse(command.key().modifiers.shift));
    ctx.input_mut(|input| {
        commands.retain(|command| {
            let other = command.other_key();
            input.consume_shortcut(&command.key())
                || other.is_some_and(|key| input.consume_shortcut(&key))
        });
    });
    commands
}

impl eframe::App for Program {
    fn ui(&mut self, ui: &mut egui::Ui, _: &mut eframe::Frame) {
        self.frame(ui);
    }
}

/// The reason why no window could be opened.
#[derive(Debug)]
pub enum NoWindow {
    /// There is no display.
    Display,
    /// The system refused, in its words.
    System(String),
}

/// Opens the window and stays until it is closed.
///
/// # Errors
///
/// There is no display, or the system refuses.
pub fn show(case: Option<&Path>) -> Result<(), NoWindow> {
    let named = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    if cfg!(all(unix, not(target_os = "macos")))
        && !named("DISPLAY")
        && !named("WAYLAND_DISPLAY")
        && !named("WAYLAND_SOCKET")
    {
        return Err(NoWindow::Display);
    }
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("Traywright")
            .with_inner_size([1280.0, 800.0])
            .with_min_inner_size([800.0, 560.0])
            .with_drag_and_drop(true),
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    let case = case.map(Path::to_owned);
    let create: eframe::AppCreator<'_> = Box::new(move |context| {
        let mut program = Program::new(Box::new(Desktop::default()));
        program.dress(&context.egui_ctx);
        if let Some(case) = case {
            program.open(&case);
        }
        Ok(Box::new(program))
    });
    eframe::run_native("traywright", options, create)
        .map_err(|error| NoWindow::System(error.to_string()))
}
