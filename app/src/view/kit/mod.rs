//! The case's copy of its kit: tables of what is in it, and where the live kit differs.

mod compare;
mod difference;
mod entry;
mod live;
mod table;
mod wear;

use crate::context::CaseContext;
use crate::look::pane;
use egui::{Panel, Ui};
use traywright_core::kit::LISTS;
use traywright_core::wording::{KitFormatter, begin};

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// The list that is looked at: its place among [`LISTS`], behind them the rules of combining and the wear.
    list: usize,
    /// Id of the entry that is looked at.
    entry: Option<String>,
    table: Option<table::CachedTable>,
    compared: Option<compare::Compared>,
}

/// The list of the rules of combining, which has no entries.
const RULES: &str = "allowances";

/// The place of the wear of drills, behind all lists and the rules.
const WEAR: usize = LISTS.len() + 1;

/// Widths of the list of lists and of the pane with the differences, points.
const WIDTHS: (f32, f32) = (148.0, 372.0);

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let width = WIDTHS.1.min(ui.available_width() * 0.4);
    pane::side(ui, Panel::right("kit-live"), width, (16, 0), |ui| {
        ui.set_max_width(width - 32.0);
        live::ui(ui, cx);
        difference::ui(ui, cx);
    });
    pane::side(ui, Panel::left("kit-lists"), WIDTHS.0, (0, 8), |ui| {
        lists_ui(ui, cx);
    });
    pane::middle(ui, (12, 12), |ui| {
        if cx.own.list == WEAR {
            wear::ui(ui, cx);
        } else {
            table::ui(ui, cx);
        }
    });
}

/// The lists, each with how many entries it has.
fn lists_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let kit = &document.case().kit;
    let say = formatter(cx, kit);
    ui.heading(cx.word("kit-view-title"));
    for (n, list) in LISTS.into_iter().chain([RULES]).enumerate() {
        let name = begin(&say.list(list));
        let count = kit.ids(list).len();
        let text = if list == RULES {
            name
        } else {
            cx.counted("kit-view-counted", &[("count", count)], &[("list", &name)])
        };
        let here = cx.own.list == n;
        if ui.selectable_label(here, text).clicked() {
            cx.own.list = n;
            cx.own.entry = None;
        }
    }
    let wear = cx.word("kit-view-wear");
    if ui.selectable_label(cx.own.list == WEAR, wear).clicked() {
        cx.own.list = WEAR;
        cx.own.entry = None;
    }
}

/// The formatter for a kit.
fn formatter<'k>(cx: &Context<'_>, kit: &'k traywright_core::kit::Kit) -> KitFormatter<'k> {
    KitFormatter {
        texts: cx.desk.texts,
        kit,
    }
}
