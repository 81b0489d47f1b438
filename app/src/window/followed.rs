//! What the disk said, told to the user.

use super::Program;
use crate::action::View;
use crate::context::Notice;
use crate::desk::{Document, Followed, Saved};
use std::path::Path;
use traywright_core::case::Apart;
use traywright_core::store::shown;

impl Program {
    /// Tells what was found on the disk.
    pub(super) fn tell_followed(&mut self, followed: &Followed) {
        let Some(document) = &self.desk.document else {
            return;
        };
        let texts = self.desk.texts;
        let notice = match followed {
            Followed::Same => return,
            // These views stop and say it in their own words.
            _ if matches!(self.state.view, View::Loading | View::Surgery) => return,
            Followed::Taken(apart) => {
                let parts = self.parts(document, apart);
                Notice::Done(texts.get("window-taken-over", &[("parts", &parts)]))
            }
            Followed::Waits(apart) => {
                let parts = self.parts(document, apart);
                Notice::Refused(texts.get("window-saved-elsewhere", &[("parts", &parts)]))
            }
            Followed::OtherCase(name) => {
                Notice::Refused(texts.get("window-other-case", &[("name", name)]))
            }
            Followed::Unread(why) => Notice::Refused(why.clone()),
            Followed::Gone => {
                let file = document.file().map(shown);
                let file = file.unwrap_or_default();
                Notice::Refused(texts.get("window-gone", &[("file", &file)]))
            }
        };
        self.state.notice = Some(notice);
    }

    /// Looks at the disk anew; true if the plan is the one that lies there. Else it is told.
    pub(super) fn is_as_on_disk(&mut self) -> bool {
        let Some(document) = &mut self.desk.document else {
            return false;
        };
        let followed = document.read_anew();
        let Some(document) = &self.desk.document else {
            return false;
        };
        match &followed {
            Followed::Same => return true,
            Followed::Taken(apart) | Followed::Waits(apart) => {
                let parts = self.parts(document, apart);
                let told = (self.desk.texts).get("window-changed-meanwhile", &[("parts", &parts)]);
                self.state.notice = Some(Notice::Refused(told));
            }
            Followed::OtherCase(_) | Followed::Unread(_) | Followed::Gone => {
                self.tell_followed(&followed);
            }
        }
        false
    }

    /// What became of the file, in words.
    pub(super) fn told_saved(&self, saved: &Saved, file: &Path) -> String {
        let texts = self.desk.texts;
        let path = shown(file);
        let parted = (self.document()).filter(|open| open.has_parted());
        let parted = parted.map(|_| texts.get("window-parted", &[]));
        let told = match (saved, &self.desk.document) {
            (Saved::Together(apart), Some(document)) if !apart.is_empty() => {
                let parts = self.parts(document, apart);
                let args = [("parts", parts.as_str()), ("file", &path)];
                texts.get("window-saved-together", &args)
            }
            (Saved::Anew, _) => texts.get("window-saved-anew", &[("file", &path)]),
            (Saved::Aside(aside), _) => {
                let aside = shown(aside);
                let args = [("file", path.as_str()), ("aside", &aside)];
                texts.get("window-saved-aside", &args)
            }
            _ => texts.get("window-saved", &[("file", &path)]),
        };
        [Some(told), parted]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join("\n")
    }

    fn parts(&self, document: &Document, apart: &[Apart]) -> String {
        if apart.is_empty() {
            return self.desk.texts.get("window-taken-over-nothing", &[]);
        }
        document.formatter(self.desk.settings.notation).parts(apart)
    }
}
