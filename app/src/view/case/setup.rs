//! Gauge, head, tray, and the order of use.

use super::{edit, heading, remark};
use crate::field::{self, New};
use crate::view::offer::{edit_with_kit, offered};
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::{Edit, Setup, UseOrder};

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let setup = &document.case().setup;
    let speaker = document.speaker(stage.desk.settings.notation());
    heading(ui, &stage.word("case-setup"));
    let gauges: Vec<_> = offered(stage, |kit| &kit.gauges, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(gauge)) = chosen(ui, stage, "gauge", setup.gauge.as_ref(), &gauges) {
        set(
            stage,
            Setup {
                gauge,
                ..setup.clone()
            },
            "case.gauge",
        );
    }
    if setup.gauge.is_none() {
        remark(ui, &stage.word("case-no-gauge"));
    }
    let heads: Vec<_> = offered(stage, |kit| &kit.heads, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(head)) = chosen(ui, stage, "head", setup.head.as_ref(), &heads) {
        set(
            stage,
            Setup {
                head,
                ..setup.clone()
            },
            "case.head",
        );
    }
    let trays: Vec<_> = offered(stage, |kit| &kit.trays, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(tray)) = chosen(ui, stage, "tray", setup.tray.as_ref(), &trays) {
        set(
            stage,
            Setup {
                tray,
                ..setup.clone()
            },
            "case.tray",
        );
    }
    if !document.case().tray_places.is_empty() {
        remark(ui, &stage.word("case-tray-by-hand"));
    }
    let orders =
        [UseOrder::SiteBySite, UseOrder::ByDiameter].map(|order| (order, speaker.use_order(order)));
    let label = stage.word("case-order");
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &stage.sight.drafts;
        field::choice_known(ui, drafts, "case.order", &label, &setup.use_order, &orders)
    });
    if let Some(use_order) = new {
        let setup = Setup {
            use_order,
            ..setup.clone()
        };
        edit(stage, "case-setup-set", Edit::SetSetup(setup), "case.order");
    }
}

fn chosen<T: PartialEq + Clone>(
    ui: &mut Ui,
    stage: &Stage<'_>,
    what: &str,
    value: Option<&T>,
    offered: &[(T, String)],
) -> Option<New<Option<T>>> {
    let (label, open) = (
        stage.word(&format!("case-{what}")),
        stage.word("case-not-chosen"),
    );
    let key = format!("case.{what}");
    field::row(ui, &label, |ui, _| {
        field::choice(ui, &stage.sight.drafts, &key, &label, &open, value, offered)
    })
}

fn set(stage: &mut Stage<'_>, setup: Setup, field: &str) {
    let name = stage.word("case-setup-set");
    edit_with_kit(
        stage,
        name,
        vec![Edit::SetSetup(setup)],
        Some(field.to_owned()),
    );
}
