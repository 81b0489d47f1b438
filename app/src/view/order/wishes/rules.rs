//! Rules: what stays together, and one site before another.

use super::super::words;
use super::set;
use crate::field::{self, New, fault_ui};
use crate::look::Theme;
use crate::window::Stage;
use egui::{Label, RichText, Ui};
use traywright_core::case::{RunWishes, SiteBefore};
use traywright_core::kit::SiteId;
use traywright_core::order::Group;
use traywright_core::run::{NoRun, Wish};
use traywright_core::say::begin;

const ADD: &str = "order.before";

/// Shows them.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, run: &RunWishes) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    ui.add_space(6.0);
    for group in [Group::SiteBySite, Group::ByDiameter] {
        let name = begin(&speaker.run_group(group));
        let mut is = run.groups.contains(&group);
        if ui.checkbox(&mut is, &name).changed() {
            let mut new = run.clone();
            if is {
                new.groups.insert(group);
            } else {
                new.groups.remove(&group);
            }
            set(stage, name, new, None);
        }
    }
    for n in 0..run.before.len() {
        let rule = speaker.run_wish(Wish::Before(n));
        ui.horizontal_wrapped(|ui| {
            words(ui, begin(&rule));
            let back = stage.word("order-rule-back");
            let named = stage.text("order-rule-back-of", &[("rule", &rule)]);
            if ui.button(back).accessible_name(&named).clicked() {
                let mut new = run.clone();
                new.before.remove(n);
                set(stage, named, new, None);
            }
        });
    }
    if document.case().sites.len() > 1 {
        add_ui(ui, stage, run);
    }
    if let Some(Err(none @ NoRun::Refused(_))) = stage.desk.run.problem() {
        let fault = Theme::of(ui).fault();
        for sentence in speaker.no_run(none) {
            ui.add(Label::new(RichText::new(sentence).color(fault)).wrap());
        }
    }
}

/// A new rule: one site before another.
fn add_ui(ui: &mut Ui, stage: &mut Stage<'_>, run: &RunWishes) {
    let Some(document) = stage.document() else {
        return;
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let sites = document.case().sites.iter();
    let sites: Vec<(SiteId, String)> = sites
        .map(|site| (site.id.clone(), speaker.site(&site.id)))
        .collect();
    let open = stage.word("order-site-open");
    for (id, key) in [("order-first", "first"), ("order-then", "then")] {
        let label = stage.word(id);
        let now = match key {
            "first" => stage.sight.order.first.clone(),
            _ => stage.sight.order.then.clone(),
        };
        let drafts = &stage.sight.drafts;
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
            stage.sight.drafts.settle(ADD);
            match key {
                "first" => stage.sight.order.first = site,
                _ => stage.sight.order.then = site,
            }
        }
    }
    fault_ui(ui, &stage.sight.drafts, ADD);
    let picked = stage
        .sight
        .order
        .first
        .clone()
        .zip(stage.sight.order.then.clone());
    let add = egui::Button::new(stage.word("order-rule-add"));
    let why = stage.word("order-rule-add-why");
    let add = ui
        .add_enabled(picked.is_some(), add)
        .on_disabled_hover_text(why);
    if let Some((first, then)) = picked.filter(|_| add.clicked()) {
        let mut new = run.clone();
        new.before.push(SiteBefore { first, then });
        set(
            stage,
            stage.word("order-rule-add"),
            new,
            Some(ADD.to_owned()),
        );
    }
}
