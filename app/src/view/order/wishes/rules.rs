//! Rules: what stays together, and one site before another.

use super::set;
use crate::field::{self, New, fault_ui};
use crate::look::{self, words};
use crate::view::order::Context;
use egui::Ui;
use traywright_core::case::{RunWishes, SiteBefore};
use traywright_core::kit::SiteId;
use traywright_core::order::Group;
use traywright_core::run::{NoRun, Wish};
use traywright_core::wording::begin;

const ADD: &str = "order.before";

/// Shows them.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, run: &RunWishes) {
    let (document, formatter) = (cx.document, cx.formatter());
    ui.add_space(6.0);
    for group in [Group::SiteBySite, Group::ByDiameter] {
        let name = begin(&formatter.run_group(group));
        let mut is = run.groups.contains(&group);
        if ui.checkbox(&mut is, &name).changed() {
            set(cx, &name, None, |run| {
                if is {
                    run.groups.insert(group);
                } else {
                    run.groups.remove(&group);
                }
            });
        }
    }
    for n in 0..run.before.len() {
        let rule = formatter.run_wish(Wish::Before(n));
        ui.horizontal_wrapped(|ui| {
            words(ui, begin(&rule));
            let back = cx.word("order-rule-back");
            let named = cx.text("order-rule-back-of", &[("rule", &rule)]);
            if ui.button(back).accessible_name(&named).clicked() {
                set(cx, &named, None, |run| {
                    run.before.remove(n);
                });
            }
        });
    }
    if document.case().sites.len() > 1 {
        add_ui(ui, cx);
    }
    if let Some(Err(none @ NoRun::Refused(_))) = cx.desk.run.problem() {
        for sentence in formatter.no_run(none) {
            look::fault(ui, sentence);
        }
    }
}

/// A new rule: one site before another.
fn add_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let sites = document.case().sites.iter();
    let sites: Vec<(SiteId, String)> = sites
        .map(|site| (site.id.clone(), formatter.site(&site.id)))
        .collect();
    let open = cx.word("order-site-open");
    for (id, key) in [("order-first", "first"), ("order-then", "then")] {
        let label = cx.word(id);
        let now = match key {
            "first" => cx.own.first.clone(),
            _ => cx.own.then.clone(),
        };
        let drafts = &cx.state.drafts;
        let key_of_field = format!("{ADD}.{key}");
        let new = field::row(ui, &label, |ui, _| {
            field::choice(
                ui,
                drafts,
                &key_of_field,
                &label,
                &open,
                now.as_ref(),
                &sites,
            )
        });
        if let Some(New(site)) = new {
            cx.state.drafts.settle(ADD);
            match key {
                "first" => cx.own.first = site,
                _ => cx.own.then = site,
            }
        }
    }
    fault_ui(ui, &cx.state.drafts, ADD);
    let picked = cx.own.first.clone().zip(cx.own.then.clone());
    let add = egui::Button::new(cx.word("order-rule-add"));
    let why = cx.word("order-rule-add-why");
    let add = ui
        .add_enabled(picked.is_some(), add)
        .on_disabled_hover_text(why);
    if let Some((first, then)) = picked.filter(|_| add.clicked()) {
        let what = cx.word("order-rule-add");
        set(cx, &what, Some(ADD.to_owned()), |run| {
            run.before.push(SiteBefore { first, then });
        });
    }
}
