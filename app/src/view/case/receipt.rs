//! Measurements of the guide on receipt, beside what was planned.

use super::{edit, guide, heading};
use crate::canvas::mark_in;
use crate::field::{self, InCase, New};
use crate::look::{Font, remark};
use crate::view::case::Context;
use egui::{RichText, Ui, vec2};
use traywright_core::case::{Edit, ReceiptOf, Site};
use traywright_core::plan::{Finding, SiteSheet, Subject};
use traywright_core::wording::mm;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    heading(ui, &cx.word("case-receipt"));
    if document.case().sites.is_empty() {
        remark(ui, cx.word("case-receipt-no-sites"));
        return;
    }
    remark(ui, cx.word("case-receipt-what"));
    let sheets = &document.worksheet().sites;
    for site in &document.case().sites {
        let Some(sheet) = sheets.iter().find(|sheet| sheet.id == site.id) else {
            continue;
        };
        ui.push_id(&site.id, |ui| site_ui(ui, cx, site, sheet));
    }
}

fn site_ui(ui: &mut Ui, cx: &mut Context<'_>, site: &Site, sheet: &SiteSheet) {
    let (document, formatter) = (cx.document, cx.formatter());
    let case = document.case();
    let tooth = formatter.tooth(site.tooth);
    ui.add_space(2.0);
    ui.label(RichText::new(&tooth).strong());
    let master = case.kit.master_sleeve(&site.master_sleeve);
    for (of, id, planned) in [
        (
            ReceiptOf::PlatformToSleeve,
            "case-receipt-distance",
            sheet.distance.length(),
        ),
        (
            ReceiptOf::MasterSleeveHeight,
            "case-receipt-height",
            master.map(|master| master.height_mm),
        ),
        (
            ReceiptOf::MasterSleeveBore,
            "case-receipt-bore",
            master.map(|master| master.bore_mm),
        ),
    ] {
        // What was measured on another guide is told below, and asked anew here.
        let now = case.received(site, of);
        let key = format!("case.receipt.{}.{id}", site.id);
        let planned_mm = planned;
        let planned = planned.map_or_else(
            || cx.word("case-receipt-unplanned"),
            |planned| cx.text("case-receipt-planned", &[("planned", &mm(planned))]),
        );
        let label = cx.word(id);
        let args = [("what", label.as_str()), ("site", tooth.as_str())];
        let name = cx.text("case-receipt-of", &args);
        let drafts = &mut cx.state.drafts;
        let new = field::row(ui, &label, |ui, _| {
            ui.horizontal_wrapped(|ui| {
                let named = field::unseen_name(ui, &key, &name);
                let place = InCase("guide.receipt[].measured_mm");
                let new = field::number(ui, drafts, &key, &named, now, place);
                ui.label(Font::Remark.text(planned).weak());
                new
            })
            .inner
        });
        if let Some(New(Some(measured))) = new
            && let Some(planned) = planned_mm.filter(|planned| measured.is_slip_near(*planned))
        {
            let args = [("measured", &*mm(measured)), ("planned", &*mm(planned))];
            let told = cx.text("case-receipt-mistyped", &args);
            cx.state.drafts.refuse(&key, told);
        } else if let Some(New(measured)) = new {
            let mut changed = case.guide.clone();
            changed
                .receipt
                .retain(|receipt| receipt.site != site.id || receipt.of != of);
            let new = measured.map(|measured_mm| case.receipt(site, of, measured_mm));
            changed.receipt.extend(new);
            edit(cx, guide::SET, Edit::SetGuide(Box::new(changed)), &key);
        }
    }
    let findings = document.worksheet().findings.iter();
    let here = |f: &&Finding| f.subject() == Subject::Guide && f.site.as_ref() == Some(&site.id);
    for finding in findings.filter(here) {
        let said = formatter.finding(finding);
        ui.horizontal_top(|ui| {
            mark_in(ui, vec2(16.0, 18.0), 14.0, said.severity);
            let text = format!("{}: {}", said.word, said.headline);
            ui.add(egui::Label::new(Font::Remark.text(text)).wrap());
        });
    }
}
