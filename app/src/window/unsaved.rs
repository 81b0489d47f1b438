//! Changes that were never saved, found when a case is opened or the program begins.

use super::Program;
use crate::action::{Action, Ask};
use crate::context::{Notice, ViewContext};
use crate::desk::{Document, LeftBehind, OfFolder, Unsaved, refused_by_disk};
use crate::look::{aside, fault};
use egui::Ui;
use std::path::Path;
use traywright_core::case::Apart;
use traywright_core::store::{set_journal_aside, shown};
use traywright_core::wording::Formatter;

impl Program {
    /// Has what was left of the open case, or of cases without a file, looked for beside the window; it is asked about
    /// once it is found.
    pub(super) fn ask_unsaved(&mut self, file: Option<&Path>) {
        let open = self.document();
        let of = file.and_then(|file| Some((file.to_owned(), open?.shared_case())));
        // Of a case that is not open nothing is offered.
        if file.is_none() || of.is_some() {
            self.desk.left.ask(of);
        }
    }

    /// Asks about what was found, as long as nothing else is asked.
    pub(super) fn ask_found(&mut self) {
        while self.state.ask.is_none()
            && let Some((of, left)) = self.desk.left.take()
        {
            let file = of.map(|(file, _)| file);
            let open = self.document().and_then(Document::file);
            // Whoever opened another case meanwhile is asked when this one is opened again.
            if file.is_none() || file.as_deref() == open {
                self.ask_about(file.as_deref(), left);
            }
        }
    }

    /// Asks about what was left of a case file, or of cases without one. What says nothing new is put away.
    fn ask_about(&mut self, file: Option<&Path>, left: LeftBehind) {
        let texts = self.desk.texts;
        for (id, files) in [
            ("unsaved-unread", &left.unread),
            ("unsaved-unanswered", &left.unanswered),
        ] {
            if files.is_empty() {
                continue;
            }
            let files = files.iter().map(|path| shown(path));
            let files = files.collect::<Vec<_>>().join(", ");
            let mut told = texts.get(id, &[("files", &files)]);
            if let Some(Notice::Refused(before)) = self.state.notice.take() {
                told = format!("{before}\n{told}");
            }
            self.state.notice = Some(Notice::Refused(told));
        }
        let taken = |unsaved: &Unsaved| {
            let open = self.document();
            open.is_some_and(|document| document.has_taken(unsaved))
        };
        let all = left.unsaved.into_iter();
        let left: Vec<Unsaved> = all.filter(|one| !taken(one)).collect();
        for unsaved in left {
            let beside = match self.document() {
                Some(document) if file.is_some() => unsaved.beside(document.case()),
                _ => unsaved.beside(unsaved.base()),
            };
            // One that is damaged says of what it lost nothing, and goes only where a person says so.
            if beside.is_empty() && !unsaved.is_cut {
                unsaved.remove();
            } else {
                let unsaved = Box::new(unsaved);
                self.state.ask = Some(Ask::Unsaved { unsaved, beside });
                return;
            }
        }
    }

    /// Takes unsaved changes into the case that is open, or opens them as a case of their own.
    pub(super) fn take_unsaved(&mut self, unsaved: Box<Unsaved>) {
        let texts = self.desk.texts;
        let own = unsaved.file().map(Path::to_owned);
        let was_open = self.document().and_then(Document::file).map(Path::to_owned);
        let open = self.desk.document.as_mut();
        if let Some(document) = open.filter(|open| own.is_some() && open.file() == own.as_deref())
            && let Some(case) = unsaved.onto(document.case())
        {
            document.take_unsaved(case, unsaved);
            self.state.drafts.clear();
            let told = texts.get("unsaved-taken", &[]);
            self.state.notice = Some(Notice::Done(told));
            self.ask_unsaved(own.as_deref());
            return;
        }
        let mut document = Document::unsaved(unsaved.case.clone());
        document.taken_from(unsaved);
        self.look_at(document);
        if let Some(own) = own {
            let id = if was_open.as_deref() == Some(&*own) {
                "unsaved-apart"
            } else {
                "unsaved-own"
            };
            self.state.notice = Some(Notice::Refused(texts.get(id, &[])));
        }
    }

    /// Sets a journal aside: nobody is asked about it any more, and nothing of it is thrown away.
    pub(super) fn set_unsaved_aside(&mut self, journal: &Path) {
        self.state.notice = Some(match set_journal_aside(journal) {
            Ok(aside) => {
                let args = [("file", &*shown(&aside))];
                Notice::Done(self.desk.texts.get("unsaved-aside", &args))
            }
            Err(error) => Notice::Refused(refused_by_disk(&error).0),
        });
        // It is read anew.
        self.desk.astray = OfFolder::default();
    }
}

/// Gives back whether the question is settled.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    unsaved: &Unsaved,
    beside: &[Apart],
) -> bool {
    ui.heading(cx.word("unsaved-title"));
    let reference = unsaved.case.reference.to_string();
    let at = unsaved
        .at
        .map(|at| at.strftime("%Y-%m-%d %H:%M UTC").to_string());
    let args = [
        ("reference", reference.as_str()),
        ("at", at.as_deref().unwrap_or("?")),
    ];
    aside(ui, cx.text("unsaved-what", &args));
    if unsaved.is_cut {
        fault(ui, cx.word("unsaved-cut"));
    }
    if let Some(before) = unsaved.moved_from() {
        let id = if before.is_sibling {
            "unsaved-sibling"
        } else {
            "unsaved-moved"
        };
        fault(ui, cx.text(id, &[("file", &shown(&before.file))]));
    }
    let open = cx.desk.document.as_ref();
    let open = open.filter(|open| unsaved.file().is_some() && open.file() == unsaved.file());
    if let Some(case) = open
        .map(Document::case)
        .filter(|case| !unsaved.begins_from(case))
    {
        let id = if unsaved.is_of_other(case) {
            "unsaved-of-other"
        } else {
            "unsaved-not-from-this"
        };
        fault(ui, cx.text(id, &[("reference", case.reference.as_str())]));
    }
    let formatter = Formatter::english(&unsaved.case, cx.desk.settings.notation);
    super::apart::ui(ui, &formatter, beside, |ui, _, _| {
        for word in ["unsaved-in-file", "unsaved-unsaved"] {
            ui.label(cx.word(word));
        }
    });
    ui.horizontal(|ui| {
        let unsaved = || Box::new(unsaved.clone());
        if ui.button(cx.word("unsaved-take")).clicked() {
            // What cannot go into the open case becomes one of its own in its place.
            let fits = open.is_some_and(|open| unsaved().onto(open.case()).is_some());
            let take = Action::TakeUnsaved(unsaved());
            let take = if fits {
                take
            } else {
                cx.state.guarded(cx.desk, take)
            };
            cx.act(take);
            return true;
        }
        if ui.button(cx.word("unsaved-give-up")).clicked() {
            cx.act(Action::GiveUpUnsaved(unsaved()));
            return true;
        }
        ui.button(cx.word("unsaved-later")).clicked()
    })
    .inner
}
