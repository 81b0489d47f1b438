//! The start page: what one can begin with.

mod astray;
mod beside;

use crate::action::Ask;
use crate::action::{Action, Command};
use crate::context::ViewContext;
use crate::desk::{DEMOS, NewCase};
use crate::field::{self, Drafts, New};
use crate::look::{Font, aside, heading};
use crate::platform::Purpose;
use egui::{RichText, ScrollArea, Ui};
use std::path::PathBuf;
use traywright_core::case::{Access, Support};
use traywright_core::dentition::Jaw;
use traywright_core::text::Texts;
use traywright_core::wording::cautions;

/// The key of the reference's field.
pub(crate) const REFERENCE: &str = "start.reference";

/// State of the start page.
#[derive(Debug, Default)]
pub struct State {
    reference: String,
    jaw: Option<Jaw>,
    support: Option<Support>,
    access: Option<Access>,
    /// The words that a case of the folder is looked for by.
    find: String,
    /// The file of the case that was last reached in the folder.
    chosen: Option<PathBuf>,
    /// True if its row is to have the keyboard.
    to_row: bool,
}

/// Shows the start page.
pub fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, own: &mut State) {
    ScrollArea::vertical().show(ui, |ui| {
        ui.heading(cx.word("start-title"));
        ui.label(cx.word("start-job"));
        ui.add_space(12.0);
        ui.columns(3, |columns| {
            let [new, open, practise] = columns else {
                return;
            };
            new_ui(new, cx, own);
            open_ui(open, cx);
            practise_ui(practise, cx);
        });
        astray::ui(ui, cx);
        beside::ui(ui, cx, own);
        ui.add_space(16.0);
        for caution in cautions(cx.desk.texts) {
            aside(ui, caution);
        }
    });
}

fn new_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, own: &mut State) {
    heading(ui, cx.word("start-new"));
    let named = ui.label(cx.word("start-reference")).id;
    let reference = ui.text_edit_singleline(&mut own.reference);
    cx.state
        .drafts
        .follow_lead(REFERENCE, &reference.labelled_by(named));
    let texts = cx.desk.texts;
    let word = |id: String| texts.get(&id, &[]);
    let jaws = Jaw::ALL.map(|jaw| (jaw, word(jaw.text_id().to_owned())));
    let supports = [
        Support::Teeth,
        Support::TeethAndMucosa,
        Support::Mucosa,
        Support::Bone,
    ]
    .map(|support| (support, word(format!("start-support-{}", key(&support)))));
    let accesses = [Access::Flap, Access::Punch]
        .map(|access| (access, word(format!("start-access-{}", key(&access)))));
    let drafts = &cx.state.drafts;
    let ids = ("start-jaw", "start.jaw");
    ask(ui, drafts, texts, ids, &mut own.jaw, &jaws);
    let ids = ("start-support", "start.support");
    ask(ui, drafts, texts, ids, &mut own.support, &supports);
    let ids = ("start-access", "start.access");
    ask(ui, drafts, texts, ids, &mut own.access, &accesses);
    let (kit, invented) = match &cx.desk.live_kit {
        Some(kit) => (kit.name.to_string(), kit.demonstration),
        None => (texts.get("start-invented-kit", &[]), true),
    };
    ui.label(texts.get("start-kit", &[("kit", &kit)]));
    if invented {
        let told = RichText::new(texts.get("start-practice", &[])).weak();
        ui.vertical(|ui| ui.label(told));
    }
    if ui.button(texts.get("start-choose-kit", &[])).clicked() {
        cx.act(Action::Ask(Ask::file(Purpose::OpenKit, "")));
    }
    ui.add_space(8.0);
    begin_ui(ui, cx, own, invented);
}

/// A choice below its label; `ids` are that of the label's text and the field's key.
fn ask<T: PartialEq + Clone>(
    ui: &mut Ui,
    drafts: &Drafts,
    texts: &Texts,
    ids: (&str, &str),
    value: &mut Option<T>,
    offered: &[(T, String)],
) {
    let (label, open) = (texts.get(ids.0, &[]), texts.get("start-pick", &[]));
    ui.label(&label);
    let new = field::choice(ui, drafts, ids.1, &label, &open, value.as_ref(), offered);
    if let Some(New(new)) = new {
        *value = new;
    }
}

/// The button that begins, and what is still needed for it.
fn begin_ui(ui: &mut Ui, cx: &mut ViewContext<'_>, start: &State, invented: bool) {
    let texts = cx.desk.texts;
    let filled = !start.reference.trim().is_empty();
    let new = match (start.jaw, start.support, start.access) {
        (Some(jaw), Some(support), Some(access)) if filled => Some(NewCase {
            reference: start.reference.clone(),
            jaw,
            support,
            access,
            demonstration: invented,
        }),
        _ => None,
    };
    let missing = missing(start);
    let button = ui.add_enabled(
        new.is_some(),
        egui::Button::new(texts.get("start-begin", &[])),
    );
    if !missing.is_empty() {
        let list: Vec<String> = missing.iter().map(|id| texts.get(id, &[])).collect();
        let told = texts.get("start-fill", &[("list", &list.join("; "))]);
        ui.vertical(|ui| aside(ui, told));
    }
    if button.clicked()
        && let Some(new) = new
    {
        let action = cx.state.guarded(cx.desk, Action::New(new));
        cx.act(action);
    }
}

/// The entries that a new case still lacks: ids of texts.
fn missing(start: &State) -> Vec<&'static str> {
    let lacks = [
        (start.reference.trim().is_empty(), "start-fill-code"),
        (start.jaw.is_none(), "start-fill-jaw"),
        (start.support.is_none(), "start-fill-support"),
        (start.access.is_none(), "start-fill-access"),
    ];
    let lacks = lacks.into_iter().filter(|(lacks, _)| *lacks);
    lacks.map(|(_, id)| id).collect()
}

/// The name of a choice in files, which its text id ends in.
fn key(value: &impl serde::Serialize) -> String {
    let value = serde_json::to_value(value).unwrap_or_default();
    value.as_str().unwrap_or_default().replace('_', "-")
}

fn open_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    heading(ui, cx.word("start-open"));
    if ui.button(cx.word("start-choose-file")).clicked() {
        cx.act(Action::Do(Command::Open));
    }
    if ui.button(cx.word(Command::Unpack.text_id())).clicked() {
        cx.act(Action::Do(Command::Unpack));
    }
    aside(ui, cx.word("start-drop"));
    let recent = cx.desk.settings.recent.clone();
    if !recent.is_empty() {
        ui.add_space(6.0);
        ui.label(cx.word("start-recent"));
    }
    for file in recent {
        let file_folder = file.parent().map(|folder| folder.display().to_string());
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let link = ui
            .link(name.as_ref())
            .on_hover_text(file.display().to_string());
        if link.clicked() {
            let action = cx.state.guarded(cx.desk, Action::Open(file));
            cx.act(action);
        }
        // Two files of one name are told apart by where they lie.
        if let Some(folder) = file_folder {
            ui.add(egui::Label::new(Font::Remark.text(folder).weak()).wrap());
        }
    }
}

fn practise_ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    heading(ui, cx.word("start-practise"));
    aside(ui, cx.word("start-practise-what"));
    for (index, (name, _)) in DEMOS.iter().enumerate() {
        if ui.link(cx.word(&format!("demo-{name}"))).clicked() {
            let action = cx.state.guarded(cx.desk, Action::OpenDemo(index));
            cx.act(action);
        }
    }
}
