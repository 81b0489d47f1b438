//! All findings, worst first: where each leads, and the surgeon's word on it.

mod cached;
mod filter;
mod judge;
mod lead;
mod list;
mod look_alikes;
mod one;

use crate::action::{Action, Command, View};
use crate::context::CaseContext;
use crate::look::pane;
use cached::CachedFindings;
use egui::{Panel, Ui};
use filter::Filter;
use std::collections::BTreeSet;
use std::rc::Rc;
use traywright_core::plan::CommonCause;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    filter: Filter,
    /// Key of the finding that is looked at.
    chosen: Option<String>,
    clear: ClearFindings,
    /// The causes beneath which what hangs on them is listed.
    unfolded: BTreeSet<CommonCause>,
    told: Option<Rc<CachedFindings>>,
    /// Set where the keyboard is to go next.
    focus: Option<Focus>,
    /// Surgery led here, and is led back to.
    back: bool,
}

impl State {
    /// Looks at the finding of this key, whatever was filtered before.
    pub fn look_at(&mut self, key: String) {
        self.filter = Filter::default();
        self.chosen = Some(key);
        self.focus = Some(Focus::Row);
        self.back = false;
    }

    /// Looks at what is open, from surgery.
    pub fn look_at_open(&mut self) {
        self.filter = Filter {
            standing: filter::Standing::Open,
            ..Filter::default()
        };
        self.chosen = None;
        self.focus = Some(Focus::Row);
        self.back = true;
    }
}

/// The clear findings: listed one by one, or counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum ClearFindings {
    Listed,
    #[default]
    Counted,
}

/// The next place of the keyboard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Focus {
    Row,
    Reason,
}

/// Width of the pane with the one finding that is looked at, points.
const ONE: f32 = 430.0;

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let notation = cx.desk.settings.notation;
    let told = match cx.own.told.take() {
        Some(told) if told.is_of(document, notation) => told,
        _ => Rc::new(CachedFindings::of(document, notation)),
    };
    cx.own.told = Some(Rc::clone(&told));
    let rows = filter::shown(document, cx.own.filter.clone());
    let state = &mut *cx.own;
    let listed = |n: &&usize| state.chosen.as_ref() == Some(&told.rows[**n].key);
    let at = rows.iter().find(listed).or(rows.first()).copied();
    state.chosen = at.map(|n| told.rows[n].key.clone());

    let width = ONE.min(ui.available_width() * 0.48);
    pane::side(ui, Panel::right("findings-one"), width, (20, 0), |ui| {
        if let Some(at) = at {
            one::ui(ui, cx, &told, at);
        }
    });
    pane::middle(ui, (0, 12), |ui| {
        if cx.own.back {
            let command = Command::Show(View::Surgery);
            let key = ui.ctx().format_shortcut(&command.key());
            let words = cx.text("findings-back-to-surgery", &[("key", &key)]);
            if ui.button(words).clicked() {
                cx.own.back = false;
                cx.act(Action::Do(command));
            }
        }
        filter::ui(ui, cx);
        pane::scroll(ui, "findings-list", |ui| {
            list::ui(ui, cx, &told, &rows);
            look_alikes::ui(ui, cx);
        });
    });
}
