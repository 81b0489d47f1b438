//! The question for a file.

use super::{path, seal};
use crate::action::{Action, PathField, Seal, ThenView};
use crate::context::ViewContext;
use crate::look::{aside, fault};
use crate::platform::Purpose;
use egui::{Key, Ui};
use std::path::PathBuf;
use traywright_core::sheet::checklist::Printing;

/// Gives back whether the question is settled.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    (purpose, printing): (Purpose, Printing),
    field: &mut PathField,
    (sealing, refused): (&mut Seal, Option<&str>),
) -> bool {
    let (title, verb) = match purpose {
        Purpose::OpenCase => ("ask-open-case", "ask-open"),
        Purpose::OpenKit => ("ask-open-kit", "ask-open"),
        Purpose::SaveCase => ("ask-save-case", "ask-save"),
        Purpose::SaveSheet => ("ask-save-sheet", "ask-save"),
        Purpose::SaveRecord => ("ask-save-record", "ask-save"),
        Purpose::SavePack => ("ask-pack", "ask-pack-do"),
        Purpose::OpenPack => ("ask-unpack", "ask-unpack-do"),
    };
    ui.heading(cx.word(title));
    let mut entered = path::ui(ui, cx, purpose.ending(), field);
    let wanted = match purpose {
        Purpose::SavePack => seal::new_ui(ui, cx, sealing, &mut entered),
        Purpose::OpenPack => Ok(seal::known_ui(ui, cx, sealing, &mut entered)),
        _ => Ok(None),
    };
    if let Some(refused) = refused {
        fault(ui, refused);
    }
    let given = !field.text.trim().is_empty() && !field.parts().1.trim().is_empty();
    let lacks = wanted.as_ref().err().filter(|_| given).copied();
    if let Some(lacks) = lacks {
        aside(ui, cx.word(lacks));
    }
    ui.horizontal(|ui| {
        let may = given && wanted.is_ok();
        let go = ui.add_enabled(may, egui::Button::new(cx.word(verb)));
        if (go.clicked() || (entered && may))
            && let Ok(passphrase) = wanted
        {
            let file = PathBuf::from(field.text.trim());
            let action = match purpose {
                Purpose::OpenCase => cx.state.guarded(cx.desk, Action::Open(file)),
                Purpose::OpenKit => Action::UseKit(file),
                Purpose::SaveCase => Action::SaveTo(with_ending(file, purpose)),
                Purpose::SaveSheet => Action::WriteSheet {
                    to: with_ending(file, purpose),
                    printing,
                    view: ThenView::Leave,
                },
                Purpose::SaveRecord => Action::WriteRecord(with_ending(file, purpose)),
                Purpose::SavePack => Action::Pack(with_ending(file, purpose), passphrase),
                Purpose::OpenPack => (cx.state).guarded(cx.desk, Action::Unpack(file, passphrase)),
            };
            cx.act(action);
            return true;
        }
        if ui.button(cx.word("ask-browse")).clicked() {
            cx.act(Action::Browse(purpose));
        }
        let cancelled = ui.button(cx.word("ask-cancel")).clicked();
        if cancelled {
            cx.state.after_save = None;
        }
        cancelled
    })
    .inner
}

/// True if a field was left by the key that goes on.
pub(super) fn is_entered(ui: &Ui, field: &egui::Response) -> bool {
    field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter))
}

fn with_ending(file: PathBuf, purpose: Purpose) -> PathBuf {
    if file.extension().is_none() {
        file.with_extension(purpose.ending())
    } else {
        file
    }
}
