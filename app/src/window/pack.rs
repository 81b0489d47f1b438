//! A case packed into one file, and taken out of one.

use super::Program;
use crate::context::Notice;
use crate::desk::refused_pack;
use std::path::{Path, PathBuf};
use traywright_core::store::{self, PackFault};

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
        let there = kit.filter(|kit| kit.exists());
        let lacks = kit.filter(|_| there.is_none());
        let lacks = lacks.map(|_| texts.get("pack-no-kit", &[]));
        let packed = if document.record.standing.broken {
            Err(PackFault::Broken)
        } else {
            store::pack(file, there, to, passphrase)
        };
        let id = match passphrase {
            Some(_) => "pack-done-sealed",
            None => "pack-done",
        };
        let path = to.display().to_string();
        self.state.notice = Some(match packed {
            Ok(parts) => {
                let done = texts.counted(id, &[("parts", parts)], &[("file", &path)]);
                let told: Vec<String> = std::iter::once(done).chain(lacks).collect();
                Notice::Done(told.join(".\n"))
            }
            Err(fault) => Notice::Refused(refused_pack(&fault, to).0),
        });
    }

    /// Takes a case out of a pack into a folder of the pack's name beside it, and opens it.
    pub(super) fn unpack(&mut self, pack: &Path, passphrase: Option<&str>) {
        self.state.notice = None;
        match store::unpack(pack, &folder_for(pack), passphrase) {
            Ok(case) => {
                self.open(&case);
                let done = [("file", &*case.display().to_string())];
                let done = self.desk.texts.get("pack-undone", &done);
                self.state.notice = Some(match self.state.notice.take() {
                    Some(Notice::Refused(told)) => Notice::Refused([done, told].join("\n")),
                    _ => Notice::Done(done),
                });
            }
            Err(fault) => self.state.notice = Some(Notice::Refused(refused_pack(&fault, pack).0)),
        }
    }
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
