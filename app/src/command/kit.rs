//! `traywright take-kit`: takes the entries that a case uses over from a kit.

use super::Changed;
use super::open::{Opened, open};
use crate::desk::{Refusal, read_kit_file, refused_by_disk, refused_edit};
use std::path::Path;
use traywright_core::case::{SavedAt, ValidCase, apply, taking, to_save};
use traywright_core::document::{MOST_BYTES, print};
use traywright_core::plan::{with_saved_figures, work_out};
use traywright_core::store::{Content, NotReplaced, Private, Replaced, replace, shown};
use traywright_core::text::Texts;

pub(super) fn take(file: &Path, kit_file: &Path) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let live = read_kit_file(kit_file)?;
    let taken = live.for_case(&opened.case);
    let changed = apply(&opened.case, &[taking(&opened.case, taken, &live)])
        .map_err(|refused| Refusal(refused_edit(&opened.formatter(), &refused)))?;
    let (saved, replaced) = write(&opened, file, &changed)?;
    let id = if saved.fingerprint() == opened.case.fingerprint() {
        "cli-kit-same"
    } else {
        "cli-kit-taken"
    };
    let revision = saved.revision.to_string();
    let fingerprint = saved.fingerprint().to_string();
    let args = [
        ("kit", live.name.as_str()),
        ("revision", revision.as_str()),
        ("fingerprint", fingerprint.as_str()),
    ];
    let parted = replaced.parted.then(|| texts.get("window-parted", &[]));
    let told = std::iter::once(texts.get(id, &args)).chain(parted);
    Ok(told.collect::<Vec<_>>().join("\n"))
}

/// Writes a changed case into its file, unless another desk wrote it meanwhile.
pub(super) fn write(
    opened: &Opened,
    file: &Path,
    changed: &ValidCase,
) -> Result<(ValidCase, Replaced), Refusal> {
    let before = Some(&opened.case);
    let saved = to_save(changed, before);
    let saved = if *changed == opened.case {
        saved
    } else {
        let desk = Texts::english().get("cli-desk-command", &[]);
        let by = SavedAt {
            at: crate::platform::now(),
            desk: desk.as_str().into(),
        };
        with_saved_figures(saved.saved_at(&by, before), &work_out(changed))
    };
    let text = print(&*saved).map_err(|error| Refusal(error.to_string()))?;
    let content = Content {
        bytes: text.as_bytes(),
        private: Private::like(&opened.file),
        over_protection: false,
    };
    let limit = MOST_BYTES as u64;
    let replaced =
        replace(&opened.file, opened.version, limit, content).map_err(|error| match error {
            NotReplaced::Store(error) => refused_by_disk(&error),
            NotReplaced::Changed(_) => {
                let args = [("file", &*shown(file))];
                Refusal(Texts::english().get("cli-changed-meanwhile", &args))
            }
        })?;
    Ok((saved, replaced))
}
