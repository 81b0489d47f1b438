//! Gauge, head, tray, and the order of use.

use super::{edit, heading};
use crate::field::{self, New};
use crate::look::remark;
use crate::view::offer::{edit_with_kit, offered};
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{Edit, Setup, UseOrder};

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let setup = &document.case().setup;
    let formatter = document.formatter(cx.desk.settings.notation());
    heading(ui, &cx.word("case-setup"));
    let gauges: Vec<_> = offered(cx, |kit| &kit.gauges, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(gauge)) = chosen(ui, cx, "gauge", setup.gauge.as_ref(), &gauges) {
        set(
            cx,
            Setup {
                gauge,
                ..setup.clone()
            },
            "case.gauge",
        );
    }
    if setup.gauge.is_none() {
        remark(ui, &cx.word("case-no-gauge"));
    }
    let heads: Vec<_> = offered(cx, |kit| &kit.heads, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(head)) = chosen(ui, cx, "head", setup.head.as_ref(), &heads) {
        set(
            cx,
            Setup {
                head,
                ..setup.clone()
            },
            "case.head",
        );
    }
    let trays: Vec<_> = offered(cx, |kit| &kit.trays, |entry| entry.id.as_str())
        .into_iter()
        .map(|entry| (entry.id.clone(), entry.name.to_string()))
        .collect();
    if let Some(New(tray)) = chosen(ui, cx, "tray", setup.tray.as_ref(), &trays) {
        set(
            cx,
            Setup {
                tray,
                ..setup.clone()
            },
            "case.tray",
        );
    }
    if !document.case().tray_places.is_empty() {
        remark(ui, &cx.word("case-tray-by-hand"));
    }
    let orders = [UseOrder::SiteBySite, UseOrder::ByDiameter]
        .map(|order| (order, formatter.use_order(order)));
    let label = cx.word("case-order");
    let new = field::row(ui, &label, |ui, _| {
        let drafts = &cx.state.drafts;
        field::choice_known(ui, drafts, "case.order", &label, &setup.use_order, &orders)
    });
    if let Some(use_order) = new {
        let setup = Setup {
            use_order,
            ..setup.clone()
        };
        edit(cx, "case-setup-set", Edit::SetSetup(setup), "case.order");
    }
}

fn chosen<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &ViewContext<'_>,
    what: &str,
    value: Option<&T>,
    offered: &[(T, String)],
) -> Option<New<Option<T>>> {
    let (label, open) = (cx.word(&format!("case-{what}")), cx.word("case-not-chosen"));
    let key = format!("case.{what}");
    field::row(ui, &label, |ui, _| {
        field::choice(ui, &cx.state.drafts, &key, &label, &open, value, offered)
    })
}

fn set(cx: &mut ViewContext<'_>, setup: Setup, field: &str) {
    let name = cx.word("case-setup-set");
    edit_with_kit(
        cx,
        name,
        vec![Edit::SetSetup(setup)],
        Some(field.to_owned()),
    );
}
