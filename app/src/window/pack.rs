//! A case packed into one file, and taken out of one.

use super::Program;
use crate::action::{Action, Ask};
use crate::context::{Notice, ViewContext};
use crate::desk::{Answers, refused_document, refused_pack, said_packed};
use crate::look::words;
use egui::Ui;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use traywright_core::case::read_case;
use traywright_core::store::{self, PackFault, ReadPack, shown};

impl Program {
    /// Packs the case as it is on the disk, with the live kit.
    pub(super) fn pack(&mut self, to: &Path, passphrase: Option<&str>) {
        // By what this window has read before: a log that is gone since is missed by nobody else.
        if let Some(document) = &mut self.desk.document {
            document.read_record();
        }
        let Some(document) = self.document() else {
            return;
        };
        let Some(file) = document.file() else {
            return;
        };
        let texts = self.desk.texts;
        let kit = self.desk.settings.kit.as_deref();
        // One of which the system does not answer is not left out in silence.
        let is_gone = |kit: &Path| {
            let about = std::fs::metadata(kit);
            about.is_err_and(|error| error.kind() == std::io::ErrorKind::NotFound)
        };
        let there = kit.filter(|kit| !is_gone(kit));
        let lacks = kit.filter(|_| there.is_none());
        let lacks = lacks.map(|_| texts.get("pack-no-kit", &[]));
        let packed = if document.record.standing.broken {
            Err(PackFault::Broken)
        } else {
            let now = (self.platform.now(), Some(&*self.desk.settings.desk));
            store::pack(file, there, to, passphrase, now)
        };
        let id = match passphrase {
            Some(_) => "pack-done-sealed",
            None => "pack-done",
        };
        let path = shown(to);
        self.state.notice = Some(match packed {
            Ok(parts) => {
                let done = texts.counted(id, &[("parts", parts)], &[("file", &path)]);
                let told: Vec<String> = std::iter::once(done).chain(lacks).collect();
                Notice::Done(told.join(".\n"))
            }
            Err(fault) => Notice::Refused(refused_pack(&fault, to).0),
        });
    }

    /// Reads a pack and asks whether the copy in it is to be opened. Where the passphrase is missing or wrong the question
    /// for it stays.
    pub(super) fn read_pack(&mut self, pack: &Path, passphrase: Option<&str>) {
        self.state.notice = None;
        let refused = match store::read_pack(pack, passphrase) {
            Ok(read) => {
                let told = match read_case(read.case()) {
                    Ok(case) => said_packed(read.packed(), &case, None, &mut Answers::default()),
                    Err(faults) => vec![refused_document(pack, &faults).0],
                };
                let (pack, read) = (pack.to_owned(), Arc::new(read));
                self.state.ask = Some(Ask::Copy { pack, read, told });
                return;
            }
            Err(PackFault::Passphrase) if passphrase.is_none() => {
                self.desk.texts.get("ask-unpack-sealed", &[])
            }
            Err(PackFault::Passphrase) => refused_pack(&PackFault::Passphrase, pack).0,
            Err(fault) => {
                self.state.notice = Some(Notice::Refused(refused_pack(&fault, pack).0));
                return;
            }
        };
        self.state.ask = Some(Ask::passphrase(pack, refused));
    }

    /// Takes the case out of a pack that was read into a folder of the pack's name beside it, and opens it.
    pub(super) fn open_copy(&mut self, pack: &Path, read: &ReadPack) {
        match read.unpack(&folder_for(pack)) {
            Ok(case) => {
                self.open(&case);
                let done = self
                    .desk
                    .texts
                    .get("pack-undone", &[("file", &shown(&case))]);
                self.state.notice = Some(match self.state.notice.take() {
                    Some(Notice::Refused(told)) => Notice::Refused([done, told].join("\n")),
                    _ => Notice::Done(done),
                });
            }
            Err(fault) => self.state.notice = Some(Notice::Refused(refused_pack(&fault, pack).0)),
        }
    }
}

/// Tells that a copy is opened, and of what. Gives back whether the question is settled.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    (pack, read): (&Path, &Arc<ReadPack>),
    told: &[String],
) -> bool {
    ui.heading(cx.word("ask-copy"));
    words(ui, cx.word("ask-copy-what"));
    for told in told {
        words(ui, told);
    }
    ui.horizontal(|ui| {
        if ui.button(cx.word("ask-copy-open")).clicked() {
            cx.act(Action::OpenCopy(pack.to_owned(), Arc::clone(read)));
            return true;
        }
        ui.button(cx.word("ask-cancel")).clicked()
    })
    .inner
}

/// The folder for what a pack holds: of its name without the ending, with a number where that is taken.
fn folder_for(pack: &Path) -> PathBuf {
    let plain = pack.with_extension("");
    let name = plain.file_name().unwrap_or_default().to_os_string();
    let numbered = (2..).map(|n| {
        let mut name = name.clone();
        name.push("-");
        name.push(n.to_string());
        plain.with_file_name(name)
    });
    let is_free = |path: &PathBuf| path.symlink_metadata().is_err();
    let mut all = std::iter::once(plain.clone()).chain(numbered);
    all.find(is_free).unwrap_or(plain)
}
