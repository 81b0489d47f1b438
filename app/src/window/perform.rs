//! Carries actions out: the only place that changes the case and the settings.

use super::{Program, views::Views};
use crate::action::{Action, Ask, Change, Command, ThenView, View};
use crate::context::{Notice, ViewState};
use crate::desk::{
    Answer, DEMOS, Document, Followed, NewCase, NotSaved, RunWork, demo_case, demo_kit, new_case,
    policy, read_case_file, read_kit_file, refused_by_disk, refused_change, worn_out,
};
use crate::look::{Mode, Theme};
use crate::platform::Purpose;
use crate::view::start::REFERENCE;
use egui::{Context, ViewportCommand};
use std::path::{Path, PathBuf};
use traywright_core::case::SavedAt;
use traywright_core::kit::SiteId;
use traywright_core::record::record;
use traywright_core::sheet::checklist::{Printing, Signed, checklist, pdf_of, record_pdf};
use traywright_core::sign::{ApprovalStanding, EventKind, WriterId, pass_cut_off};
use traywright_core::store::{Private, behind_links, shown, write_pdf};
use traywright_core::wording::{begin, faults};

/// The whole path of a file that is there, whatever folder the program was started in.
fn whole(file: &Path) -> PathBuf {
    std::fs::canonicalize(file).unwrap_or_else(|_| file.to_owned())
}

/// The sites of a case.
fn ids(document: &Document) -> Vec<SiteId> {
    let sites = document.case().sites.iter();
    sites.map(|site| site.id.clone()).collect()
}

impl Program {
    /// Carries one action out. Without a context nothing is drawn yet.
    pub(super) fn perform(&mut self, ctx: Option<&Context>, action: Action) {
        match action {
            Action::Do(command) => self.command(ctx, command),
            Action::Ask(ask) => {
                // The question that it takes the place of is not answered, nor what waits for it.
                self.state.after_save = None;
                self.state.ask = Some(ask);
            }
            Action::Tell(told) => {
                if !matches!(self.state.notice, Some(Notice::Refused(_))) {
                    self.state.notice = Some(Notice::Done(told));
                }
            }
            Action::OnceSaved(action) => {
                let typed = !self.state.drafts.not_taken().is_empty();
                if !typed && self.document().is_some_and(|d| !d.is_changed()) {
                    self.perform(ctx, *action);
                } else if self.state.ask.as_ref().is_some_and(Ask::is_saving) {
                    self.state.after_save = Some(action);
                }
            }
            Action::Regardless(action) => self.regardless(ctx, *action),
            Action::New(new) => self.start(&new),
            Action::Open(file) => self.open_file(&file),
            Action::OpenDemo(index) => {
                if let Some((_, bytes)) = DEMOS.get(index) {
                    if self.desk.live_kit.is_none() {
                        self.desk.live_kit = Some(demo_kit());
                    }
                    self.look_at(Document::built_in(demo_case(bytes)));
                }
            }
            Action::SaveTo(file) => self.save(ctx, &file, None),
            Action::SaveOver(file, answer) => self.save(ctx, &file, Some(&answer)),
            Action::Pack(to, passphrase) => self.pack(&to, passphrase.as_deref()),
            Action::Unpack(pack, passphrase) => {
                self.read_pack(&pack, passphrase.as_deref());
            }
            Action::OpenCopy(pack, read) => self.open_copy(&pack, &read),
            Action::TakeUnsaved(unsaved) => self.take_unsaved(unsaved),
            Action::GiveUpUnsaved(unsaved) => {
                unsaved.remove();
                let file = unsaved.file().map(Path::to_owned);
                self.ask_unsaved(file.as_deref());
            }
            Action::SetUnsavedAside(journal) => self.set_unsaved_aside(&journal),
            Action::UseKit(file) => self.use_kit(&file),
            Action::UseDemoKit => {
                self.desk.run.forget_remedies();
                self.desk.live_kit = Some(demo_kit());
                self.desk.settings.kit = None;
                self.keep_settings();
            }
            Action::Browse(purpose) => self.browse(ctx, purpose),
            // A change that follows from what could not be recorded is none.
            Action::Edit(_) if self.views.surgery.is_halted() => {}
            Action::Edit(change) => self.edit(change),
            Action::EndGesture => self.state.gesture += 1,
            Action::LookAgain => self.desk.run.again(),
            Action::Choose(site) => {
                self.views.arch.pick = crate::view::arch::Pick::Site;
                self.state.site = site;
                self.state.step = None;
            }
            Action::ChooseStep(step) => self.state.step = step,
            Action::LookAtFinding(key) => {
                self.views.findings.look_at(key);
                self.command(ctx, Command::Show(View::Findings));
            }
            Action::LookAtOpen => {
                self.views.findings.look_at_open();
                self.command(ctx, Command::Show(View::Findings));
            }
            Action::Sign { who, kind } => self.sign(who, kind),
            Action::ReadInField(thing) => {
                let who = self.views.surgery.who().cloned();
                self.views.loading.begin_in_field(thing, who);
                self.command(ctx, Command::Show(View::Loading));
            }
            Action::PutRecordAside(who) => {
                let now = self.platform.now();
                let desk = self.desk.settings.desk.clone();
                let document = self.desk.document.as_mut();
                self.state.notice = document.and_then(|document| {
                    match document.put_record_aside(now, &desk, &who) {
                        Ok(told) => told.map(Notice::Done),
                        Err(refused) => Some(Notice::Refused(refused)),
                    }
                });
            }
            Action::WriteRecord(to) => self.write_record(&to),
            Action::WriteSheet { to, printing, view } => self.write_sheet(&to, printing, view),
        }
    }

    /// Has an event recorded; where that cannot be, says which step does not count, and why.
    fn sign(&mut self, who: String, kind: EventKind) {
        if self.views.loading.is_halted() || self.views.surgery.is_halted() {
            return;
        }
        let approves = matches!(
            kind,
            EventKind::Approval(_) | EventKind::ApprovalWithdrawn { .. }
        );
        if approves && !self.is_as_on_disk() {
            return;
        }
        let now = self.platform.now();
        let desk = self.desk.settings.desk.clone();
        let notation = self.desk.settings.notation;
        let signed = self.desk.document.as_mut().map(|document| {
            let step = document.formatter(notation).unrecorded(&kind);
            let signed = document.sign(now, &desk, &who, kind);
            signed.map_err(|reason| {
                let args = [("step", &*step), ("reason", &*begin(&reason))];
                self.desk.texts.get("unrecorded", &args)
            })
        });
        match signed {
            Some(Err(refused)) => {
                self.views.loading.not_written(&refused);
                self.views.surgery.not_written(&refused);
                // These views say it in their own letters.
                if !matches!(self.state.view, View::Loading | View::Surgery) {
                    self.state.notice = Some(Notice::Refused(refused));
                }
            }
            Some(Ok(mended)) => {
                self.views.loading.written();
                self.views.surgery.written();
                self.desk.count_wear();
                if let Some(mended) = mended {
                    self.state.notice = Some(Notice::Refused(mended));
                }
            }
            None => {}
        }
        // Whoever reads a stop at the tray is not the person at the desk.
        if approves {
            self.desk.settings.person = who;
            self.keep_settings();
        }
    }

    fn command(&mut self, ctx: Option<&Context>, command: Command) {
        match command {
            // Nothing is lost by looking at what one can begin with, or by asking for a file.
            Command::New => {
                self.command(ctx, Command::Show(View::Start));
                self.state.drafts.lead_to(REFERENCE.to_owned());
            }
            Command::Open => {
                let path = self.last_folder();
                self.perform(ctx, Action::Ask(Ask::file(Purpose::OpenCase, path)));
            }
            Command::Save => match self.document().and_then(Document::file).map(Path::to_owned) {
                Some(file) if self.document().is_some_and(Document::is_changed) => {
                    self.save(ctx, &file, None);
                }
                Some(_) => {
                    self.state.notice = self.state.not_taken(self.desk.texts).map(Notice::Refused);
                }
                None => self.command(ctx, Command::SaveAs),
            },
            Command::SaveAs => {
                let Some(document) = self.document() else {
                    return;
                };
                let path = document.file().map_or_else(
                    || format!("{}.json", document.case().reference),
                    |file| file.display().to_string(),
                );
                self.state.ask = Some(Ask::file(Purpose::SaveCase, path));
            }
            Command::Pack => {
                let file = self.document().and_then(Document::file);
                let path = file.map(|file| file.with_extension("pack").display().to_string());
                let ask = Ask::file(Purpose::SavePack, path.unwrap_or_default());
                self.perform(ctx, Action::Ask(ask));
            }
            Command::Unpack => {
                let path = self.last_folder();
                self.perform(ctx, Action::Ask(Ask::file(Purpose::OpenPack, path)));
            }
            Command::Close => {
                if self.state.would_lose(&self.desk) {
                    self.state.ask = Some(Ask::leaving(Action::Do(Command::Close)));
                } else {
                    self.put_away();
                }
            }
            Command::Undo => self.step_through(Document::undo),
            Command::Redo => self.step_through(Document::redo),
            Command::Show(view) if view != View::Loading && !self.leaves_loading(ctx) => {}
            Command::Show(view) => {
                self.state.view = view;
                self.state.notice = None;
                // Another desk may have counted meanwhile.
                self.desk.wear.ledger.look_again();
                self.follow_now();
            }
            Command::StopLooking => self.desk.run.stop(),
            Command::NextSite => self.move_on(1),
            Command::PreviousSite => self.move_on(-1),
            Command::Mode => {
                let mode = match self.desk.settings.mode {
                    Mode::Light => Mode::Dark,
                    Mode::Dark => Mode::Light,
                };
                self.desk.settings.mode = mode;
                self.keep_settings();
                if let Some(ctx) = ctx {
                    Theme::new(mode).install(ctx);
                }
            }
            Command::Help => self.state.ask = Some(Ask::Help),
            Command::Quit => {
                if self.state.would_lose(&self.desk) {
                    self.state.ask = Some(Ask::leaving(Action::Do(Command::Quit)));
                } else if let Some(ctx) = ctx {
                    ctx.send_viewport_cmd(ViewportCommand::Close);
                }
            }
        }
    }

    /// The folder that was worked in last, to begin a path with; empty where there is none.
    fn last_folder(&self) -> String {
        let recent = self.desk.settings.recent.first();
        let folder = recent.and_then(|file| file.parent());
        folder.map_or(String::new(), |folder| {
            folder.join("").display().to_string()
        })
    }

    /// Leaves the loading view, if it is shown; false if what is to be recorded of that cannot be: then
    /// nobody goes to figures.
    fn leaves_loading(&mut self, ctx: Option<&Context>) -> bool {
        if self.state.view != View::Loading || self.desk.document.is_none() {
            return true;
        }
        for effect in self.views.loading.leave() {
            let who = effect.who.to_string();
            let kind = effect.kind;
            self.perform(ctx, Action::Sign { who, kind });
        }
        !self.views.loading.is_halted()
    }

    /// Carries out what leaves a case that is not saved. What puts another one in its place does so
    /// once that is there: if it is not, the case stays.
    fn regardless(&mut self, ctx: Option<&Context>, action: Action) {
        if let Action::Do(Command::Close | Command::Quit) = action {
            self.put_away();
        }
        self.perform(ctx, action);
    }

    fn put_away(&mut self) {
        if let Some(mut left) = self.desk.document.take() {
            left.drop_journal();
        }
        self.state.view = View::Start;
        self.forget();
    }

    /// What was typed and is no value of the case is taken back first, the last of it first: the case stays.
    fn step_through(&mut self, way: impl FnOnce(&mut Document)) {
        if let Some(last) = self.state.drafts.not_taken().pop() {
            self.state.drafts.settle(&last.key);
            let args = [("text", &*last.text), ("field", &*last.name)];
            let told = self.desk.texts.get("window-taken-back", &args);
            self.state.notice = Some(Notice::Done(told));
            return;
        }
        if let Some(document) = &mut self.desk.document {
            way(document);
        }
        self.state.drafts.clear();
        self.state.gesture += 1;
    }

    fn move_on(&mut self, by: isize) {
        let Some(document) = self.document() else {
            return;
        };
        let sites = &document.case().sites;
        let now = self.state.site.as_ref();
        let at = sites.iter().position(|site| now == Some(&site.id));
        let count = isize::try_from(sites.len()).unwrap_or(1).max(1);
        let at = at.and_then(|at| isize::try_from(at).ok());
        let next = at.map_or(0, |at| (at + by).rem_euclid(count));
        let next = usize::try_from(next).ok().and_then(|next| sites.get(next));
        self.state.site = next.map(|site| site.id.clone());
        self.views.arch.pick = crate::view::arch::Pick::Site;
        self.state.step = None;
    }

    fn start(&mut self, new: &NewCase) {
        let kit = self.desk.live_kit.get_or_insert_with(demo_kit);
        match new_case(new, kit) {
            Ok(case) => {
                self.look_at(Document::unsaved(case));
                self.state.view = View::Arch;
            }
            Err(found) => {
                let told = faults(&found, self.desk.texts).join("\n");
                self.state.notice = Some(Notice::Refused(told));
            }
        }
    }

    fn open_file(&mut self, file: &Path) {
        match read_case_file(file) {
            Ok(read) => {
                // A record lies beside what a link leads to: where that cannot be told nothing is known of it.
                let full = match behind_links(file) {
                    Ok(full) => full,
                    Err(error) => {
                        self.state.notice = Some(Notice::Refused(refused_by_disk(&error).0));
                        return;
                    }
                };
                self.desk.settings.remember(&full);
                self.keep_settings();
                let document = Document::opened(read, full);
                let file = document.file().map(Path::to_owned);
                self.look_at(document);
                self.ask_unsaved(file.as_deref());
            }
            Err(refused) => self.state.notice = Some(Notice::Refused(refused.0)),
        }
    }

    pub(super) fn look_at(&mut self, mut document: Document) {
        // Whoever comes here has saved what was open, or gave it up.
        if let Some(mut left) = self.desk.document.take() {
            left.drop_journal();
        }
        document.keep_journal(self.platform.unsaved_folder());
        self.forget();
        self.state.site = document.case().sites.first().map(|site| site.id.clone());
        let problems = document.record.problems.join("\n");
        self.state.notice = (!problems.is_empty()).then_some(Notice::Refused(problems));
        self.state.view = View::Arch;
        let desk = WriterId::new(&self.desk.settings.desk);
        let now = self.platform.now();
        let cut_off = desk.ok().and_then(|desk| {
            let (who, stage) = pass_cut_off(&desk, &document.record.events, now, &policy())?;
            Some((stage, (who, desk)))
        });
        if let Some((stage, cut_off)) = cut_off {
            self.state.view = View::Loading;
            self.views.loading.take_up(stage, cut_off);
        }
        self.desk.document = Some(document);
        self.desk.count_wear();
    }

    /// Forgets what was typed and looked at in a case that is put away.
    fn forget(&mut self) {
        self.desk.run = RunWork::default();
        let kept = (self.state.view, self.state.gesture);
        self.state = ViewState::default();
        self.views = Views::default();
        self.browsing.clear();
        (self.state.view, self.state.gesture) = (kept.0, kept.1 + 1);
    }

    fn save(&mut self, ctx: Option<&Context>, file: &Path, answer: Option<&Answer>) {
        let by = SavedAt {
            at: self.platform.now(),
            desk: self.desk.settings.desk.as_str().into(),
        };
        let Some(document) = &mut self.desk.document else {
            return;
        };
        let saved = match document.save(file, answer, &by) {
            Ok(saved) => saved,
            Err(NotSaved::Asks(question)) => {
                self.state.ask = Some(Ask::replace(question));
                return;
            }
            Err(NotSaved::Refused(told)) => {
                self.state.after_save = None;
                self.state.notice = Some(Notice::Refused(told));
                return;
            }
        };
        let file = document.file().unwrap_or(file).to_owned();
        let told = self.told_saved(&saved, &file);
        self.desk.settings.remember(&file);
        self.keep_settings();
        let next = self.state.after_save.take();
        if let Some(lacks) = self.state.not_taken(self.desk.texts) {
            // Whoever leaves now would lose it.
            self.state.notice = Some(Notice::Refused(format!("{told}\n{lacks}")));
            return;
        }
        self.state.notice = Some(Notice::Done(told));
        if let Some(next) = next {
            self.perform(ctx, *next);
        }
    }

    fn use_kit(&mut self, file: &Path) {
        match read_kit_file(file) {
            Ok(kit) => {
                self.desk.run.forget_remedies();
                self.desk.live_kit = Some(kit);
                self.desk.settings.kit = Some(whole(file));
                self.keep_settings();
                self.desk.count_wear();
            }
            Err(refused) => self.state.notice = Some(Notice::Refused(refused.0)),
        }
    }

    fn browse(&mut self, ctx: Option<&Context>, purpose: Purpose) {
        let Some(ctx) = ctx.cloned() else { return };
        let reference = self.document().map(|d| d.case().reference.to_string());
        let name = match (purpose, reference) {
            (Purpose::SaveCase, Some(reference)) => format!("{reference}.json"),
            (Purpose::SaveSheet, Some(reference)) => format!("{reference}.pdf"),
            (Purpose::SaveRecord, Some(reference)) => format!("{reference}.record.pdf"),
            (Purpose::SavePack, Some(reference)) => format!("{reference}.pack"),
            _ => String::new(),
        };
        let wake = Box::new(move || ctx.request_repaint());
        self.browsing.push(purpose);
        self.platform.choose(purpose, &name, wake);
    }

    fn edit(&mut self, change: Change) {
        let notation = self.desk.settings.notation;
        let Some(document) = &mut self.desk.document else {
            return;
        };
        let before: Vec<SiteId> = ids(document);
        let pins = |document: &Document| -> Vec<String> {
            let pins = document.case().guide.pins.iter();
            pins.map(|pin| pin.name.to_string()).collect()
        };
        let pins_before = pins(document);
        match document.edit(change.name, &change.edits, change.gesture) {
            Ok(()) => {
                let now = ids(document);
                for gone in before.iter().filter(|id| !now.contains(id)) {
                    for form in ["site", "arch.site", "case.receipt"] {
                        self.state.drafts.forget_under(&format!("{form}.{gone}."));
                    }
                }
                let pins_now = pins(document);
                for gone in pins_before.iter().filter(|name| !pins_now.contains(name)) {
                    self.state.drafts.forget_under(&format!("arch.pin.{gone}."));
                }
                if let Some(field) = change.field {
                    self.state.drafts.settle(&field);
                }
                self.state.drafts.forget_refusals();
                self.state.notice = None;
            }
            Err(refused) => {
                self.state.drafts.forget_refusals();
                let told = refused_change(&document.formatter(notation), &refused);
                match change.field {
                    Some(field) => self.state.drafts.refuse(&field, told),
                    None => self.state.notice = Some(Notice::Refused(told)),
                }
            }
        }
    }

    fn write_sheet(&mut self, to: &Path, printing: Printing, view: ThenView) {
        let notation = self.desk.settings.notation;
        let now = self.platform.now();
        let to = &match (view, self.platform.shown_folder()) {
            (ThenView::Show, Some(folder)) => {
                // Where this fails, so does the writing, and that says why.
                let _ = Private::OWN.folder_and_above(&folder);
                folder.join(to)
            }
            _ => to.to_owned(),
        };
        let Some(document) = &mut self.desk.document else {
            return;
        };
        // What another desk withdrew a moment ago is not printed as given.
        let followed = document.read_anew();
        let document = &*document;
        let (case, worksheet) = (document.case(), document.worksheet());
        let record = &document.record;
        let signed = Signed::of(case, (&record.events, &record.standing), &policy())
            .with_day((case, worksheet), (&record.view, &record.standing));
        let best = self.desk.run.best_of(document);
        let bytes = checklist(case, worksheet, &signed, best, printing, notation, now)
            .and_then(|pages| pdf_of(&pages, &document.formatter(notation), worksheet, now))
            .map_err(|error| error.words(self.desk.texts));
        let written = bytes.and_then(|bytes| {
            write_pdf(to, document.file(), &bytes).map_err(|error| refused_by_disk(&error).0)
        });
        let viewed = written.and_then(|()| match view {
            ThenView::Show => (self.platform.view(to))
                .map_err(|_| self.desk.texts.get("sheet-view-no-viewer", &[])),
            ThenView::Leave => Ok(()),
        });
        let path = shown(to);
        let approvals = &document.record.standing.approvals;
        let id = if approvals.iter().any(ApprovalStanding::is_valid) {
            "window-written"
        } else if approvals.iter().any(ApprovalStanding::is_practised) {
            "sheet-view-written-practice"
        } else {
            "sheet-view-written-open"
        };
        self.state.notice = Some(match viewed {
            Ok(()) => Notice::Done(self.desk.texts.get(id, &[("file", &path)])),
            Err(refused) => Notice::Refused(refused),
        });
        if followed != Followed::Same {
            self.tell_followed(&followed);
        }
    }

    fn write_record(&mut self, to: &Path) {
        let notation = self.desk.settings.notation;
        let now = self.platform.now();
        let Some(document) = &mut self.desk.document else {
            return;
        };
        // What another desk entered a moment ago is on it.
        let followed = document.read_anew();
        let Some(document) = &self.desk.document else {
            return;
        };
        let of = &document.record;
        let (case, worksheet) = (document.case(), document.worksheet());
        let signed = Signed::of(case, (&of.events, &of.standing), &policy());
        let mut record = record(case, worksheet, (&of.view, &of.standing));
        record.worn = worn_out(&self.desk, document);
        let on = (self.views.sheet.printing.paper, notation);
        let bytes = record_pdf((case, worksheet), &signed, &record, on, now)
            .map_err(|error| error.words(self.desk.texts));
        let written = bytes.and_then(|bytes| {
            write_pdf(to, document.file(), &bytes).map_err(|error| refused_by_disk(&error).0)
        });
        let file = shown(to);
        self.state.notice = Some(match written {
            Ok(()) => Notice::Done(
                self.desk
                    .texts
                    .get("view-record-written", &[("file", &file)]),
            ),
            Err(refused) => Notice::Refused(refused),
        });
        if followed != Followed::Same {
            self.tell_followed(&followed);
        }
    }

    pub(super) fn keep_settings(&mut self) {
        let Some(file) = self.platform.settings_file() else {
            return;
        };
        if let Err(error) = self.desk.settings.write(&file) {
            self.state.notice = Some(Notice::Refused(refused_by_disk(&error).0));
        }
    }
}
