//! Things that are missing, or enough only with re-sets, and the remedies.

use crate::action::Change;
use crate::context::CaseContext;
use crate::desk::Work;
use crate::look::{aside, heading, words};
use egui::{Button, Ui};
use traywright_core::plan::{Finding, Rule, StockLine};
use traywright_core::run::StockRemedy;

/// Shows all that is missing; nothing where nothing is.
pub(super) fn ui<S>(ui: &mut Ui, cx: &mut CaseContext<'_, S>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let short: Vec<&StockLine> = document
        .worksheet()
        .stock
        .iter()
        .filter(|line| line.needed > line.have)
        .collect();
    if short.is_empty() {
        return;
    }
    ui.add_space(10.0);
    heading(ui, cx.word("order-short"));
    for line in short {
        let of = |finding: &&Finding| is_about(finding, line);
        let finding = document.worksheet().findings.iter().find(of);
        let told = finding.map_or_else(
            || formatter.stock(line),
            |finding| formatter.finding(finding).headline,
        );
        words(ui, told);
        offers_ui(ui, cx, line);
        ui.add_space(2.0);
    }
    none_ui(ui, cx);
}

/// Advice where nothing was found, once for all of them.
fn none_ui<S>(ui: &mut Ui, cx: &CaseContext<'_, S>) {
    let Work::Done(all) = cx.desk.run.remedies() else {
        return;
    };
    let mut short = cx.document.worksheet().stock.iter();
    let none = |line: &StockLine| !all.iter().any(|remedy| settles(remedy, line));
    if short.any(|line| line.needed > line.have && none(line)) {
        aside(ui, cx.word("order-remedies-none"));
    }
}

fn settles(remedy: &StockRemedy, line: &StockLine) -> bool {
    remedy.list == line.list && remedy.entry == line.entry
}

/// The shortage that a finding is about.
#[must_use]
pub fn line_of<'a>(finding: &Finding, stock: &'a [StockLine]) -> Option<&'a StockLine> {
    stock.iter().find(|line| is_about(finding, line))
}

fn is_about(finding: &Finding, line: &StockLine) -> bool {
    finding.rule == Rule::StockShort && finding.place == line.place()
}

/// The remedies of a shortage, each with a button that carries it out; without any, advice.
pub fn remedies_ui<S>(ui: &mut Ui, cx: &mut CaseContext<'_, S>, line: &StockLine) {
    offers_ui(ui, cx, line);
    if let Work::Done(all) = cx.desk.run.remedies()
        && !all.iter().any(|remedy| settles(remedy, line))
    {
        aside(ui, cx.word("order-remedies-none"));
    }
}

fn offers_ui<S>(ui: &mut Ui, cx: &mut CaseContext<'_, S>, line: &StockLine) {
    let kit = cx.offered_kit();
    let formatter = cx.formatter();
    let remedies = match cx.desk.run.remedies() {
        Work::Done(all) => all.iter().filter(|remedy| settles(remedy, line)),
        Work::Going(_) => return aside(ui, cx.word("order-remedies-going")),
        // It is not that nothing helps: nobody knows.
        Work::Failed => return aside(ui, cx.word("order-remedies-failed")),
        Work::Open => return,
    };
    for remedy in remedies {
        let told = formatter.stock_remedy(remedy, kit);
        if ui.add(Button::new(&told).wrap()).clicked() {
            let name = cx.text("order-undo-remedy", &[("remedy", &told)]);
            cx.edit(Change::of(name, remedy.edits.clone()));
        }
        if remedy.notes > 0 {
            let notes = &[("notes", remedy.notes)];
            aside(ui, cx.counted("order-remedy-notes", notes, &[]));
        }
    }
}
