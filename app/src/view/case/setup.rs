//! Gauge, head, tray, and the order of use.

use super::{CasePart, heading};
use crate::look::{remark, reserved};
use crate::view::case::Context;
use crate::view::form::{Form, entry};
use crate::view::offer::{choices, no_kit_ui};
use egui::Ui;
use traywright_core::case::{Edit, UseOrder};

/// The id of a change of the set-up.
const SET: &str = "case-setup-set";
/// The id of what an open choice is called.
const OPEN: &str = "case-not-chosen";

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let setup = &document.case().setup;
    heading(ui, &cx.word("case-setup"));
    let gauges = choices(cx, |kit| &kit.gauges, |entry| (&entry.id, &entry.name));
    let heads = choices(cx, |kit| &kit.heads, |entry| (&entry.id, &entry.name));
    let trays = choices(cx, |kit| &kit.trays, |entry| (&entry.id, &entry.name));
    let orders = [UseOrder::SiteBySite, UseOrder::ByDiameter]
        .map(|order| (order, formatter.use_order(order)));
    let part = CasePart {
        value: setup,
        edit: Edit::SetSetup,
    };
    let form = &mut Form { ui, cx, on: &part };
    no_kit_ui(form.ui, form.cx, &gauges);
    let (asked, now) = (entry("case-gauge", "gauge", SET), setup.gauge.as_ref());
    form.pick_open(asked, OPEN, now, &gauges, |setup, new| setup.gauge = new);
    reserved(form.ui, 1, |ui| {
        if setup.gauge.is_none() {
            remark(ui, form.cx.word("case-no-gauge"));
        }
    });
    let (asked, now) = (entry("case-head", "head", SET), setup.head.as_ref());
    form.pick_open(asked, OPEN, now, &heads, |setup, new| setup.head = new);
    let (asked, now) = (entry("case-tray", "tray", SET), setup.tray.as_ref());
    form.pick_open(asked, OPEN, now, &trays, |setup, new| setup.tray = new);
    let asked = entry("case-order", "order", SET);
    form.pick(asked, &setup.use_order, &orders, |setup, new| {
        setup.use_order = new;
    });
    if !document.case().tray_places.is_empty() {
        remark(form.ui, form.cx.word("case-tray-by-hand"));
    }
}
