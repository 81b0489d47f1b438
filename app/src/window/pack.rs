//! A case packed into one file, and taken out of one.

use super::Program;
use crate::context::Notice;
use crate::desk::{Document, refused_pack};
use std::path::Path;
use traywright_core::store;

impl Program {
    /// Packs the case as it is on the disk, with the live kit.
    pub(super) fn pack(&mut self, to: &Path, passphrase: Option<&str>) {
        let Some(file) = self.document().and_then(Document::file) else {
            return;
        };
        let kit = self.desk.settings.kit.as_deref();
        let texts = self.desk.texts;
        let path = to.display().to_string();
        let id = match passphrase {
            Some(_) => "pack-done-sealed",
            None => "pack-done",
        };
        self.state.notice = Some(match store::pack(file, kit, to, passphrase) {
            Ok(parts) => Notice::Done(texts.counted(id, &[("parts", parts)], &[("file", &path)])),
            Err(fault) => Notice::Refused(refused_pack(&fault, to).0),
        });
    }

    /// Takes a case out of a pack into a folder of the pack's name beside it, and opens it.
    pub(super) fn unpack(&mut self, pack: &Path, passphrase: Option<&str>) {
        match store::unpack(pack, &pack.with_extension(""), passphrase) {
            Ok(case) => {
                self.open(&case);
                let done = [("file", &*case.display().to_string())];
                let done = self.desk.texts.get("pack-undone", &done);
                self.state.notice = Some(match self.state.notice.take() {
                    Some(Notice::Refused(told)) => Notice::Refused(format!("{done}\n{told}")),
                    _ => Notice::Done(done),
                });
            }
            Err(fault) => self.state.notice = Some(Notice::Refused(refused_pack(&fault, pack).0)),
        }
    }
}
