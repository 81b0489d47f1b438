//! Sites that hold the guide and so come first.

use super::set;
use crate::field;
use crate::look::{aside, words};
use crate::view::order::Context;
use egui::Ui;
use traywright_core::case::{RunWishes, Support};
use traywright_core::kit::SiteId;
use traywright_core::run::holding;
use traywright_core::wording::begin;

/// The source of the choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum HoldSource {
    /// The program proposes some on mucosa.
    Proposed,
    /// They are named.
    Named,
}

/// Shows it: on mucosa, and wherever they are named.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, run: &RunWishes) {
    let (document, formatter) = (cx.document, cx.formatter());
    let case = document.case();
    if case.guide.support != Support::Mucosa && run.hold_guide.is_none() {
        return;
    }
    ui.add_space(6.0);
    let label = cx.word("order-hold");
    words(ui, label.clone());
    let held = holding(case);
    let whose = match run.hold_guide {
        None => HoldSource::Proposed,
        Some(_) => HoldSource::Named,
    };
    let offers = [
        (HoldSource::Proposed, cx.word("order-hold-proposed")),
        (HoldSource::Named, cx.word("order-hold-named")),
    ];
    let drafts = &cx.state.drafts;
    if let Some(new) = field::choice_known(ui, drafts, "order.hold", &label, &whose, &offers) {
        let hold_guide = match new {
            HoldSource::Proposed => None,
            HoldSource::Named => Some(held.iter().cloned().collect()),
        };
        let field = Some("order.hold".to_owned());
        set(cx, &label, field, |run| run.hold_guide = hold_guide);
    }
    let Some(named) = &run.hold_guide else {
        let names: Vec<String> = held.iter().map(|site| formatter.site(site)).collect();
        let none = || cx.word("order-hold-none");
        let names = if names.is_empty() {
            none()
        } else {
            names.join("; ")
        };
        return aside(ui, names);
    };
    for site in &case.sites {
        let name = formatter.site(&site.id);
        let mut is = named.contains(&site.id);
        if ui.checkbox(&mut is, begin(&name)).changed() {
            let mut ids: Vec<SiteId> = named.clone();
            ids.retain(|id| *id != site.id);
            if is {
                ids.push(site.id.clone());
            }
            set(cx, &label, None, |run| run.hold_guide = Some(ids));
        }
    }
}
