//! The views, each with its own state, and the body of the window: the one that is looked at.

use crate::action::View;
use crate::context::ViewContext;
use crate::view::{
    arch, case, findings, history, kit, loading, order, record, sheet, site, start, surgery, tray,
};
use egui::{CentralPanel, Frame, Margin, Ui};
use traywright_core::drawing::Ink;

/// The state of each view.
#[derive(Default)]
pub struct Views {
    /// Of the start page.
    pub start: start::State,
    /// Of the case view.
    pub case: case::State,
    /// Of the arch view.
    pub arch: arch::State,
    /// Of the site view.
    pub site: site::State,
    /// Of the findings.
    pub findings: findings::State,
    /// Of the order of use.
    pub order: order::State,
    /// Of the tray.
    pub tray: tray::State,
    /// Of the loading view.
    pub loading: loading::State,
    /// Of the surgery view.
    pub surgery: surgery::State,
    /// Of the record.
    pub record: record::State,
    /// Of the sheet.
    pub sheet: sheet::State,
    /// Of the history.
    pub history: history::State,
    /// Of the kit.
    pub kit: kit::State,
}

impl Views {
    /// Shows the view that is looked at, within the body of the window.
    pub(super) fn ui(&mut self, ui: &mut Ui, cx: &mut ViewContext<'_>) {
        let ground = crate::look::Theme::of(ui).fill(Ink::Ground);
        let frame = Frame::NONE
            .fill(ground)
            .inner_margin(Margin::symmetric(20, 12));
        CentralPanel::default().frame(frame).show(ui, |ui| {
            let Some(document) = cx.document() else {
                return start::ui(ui, cx, &mut self.start);
            };
            match cx.state.view {
                View::Start => start::ui(ui, cx, &mut self.start),
                View::Case => case::ui(ui, &mut cx.on_case(document, &mut self.case)),
                View::Arch => arch::ui(ui, &mut cx.on_case(document, &mut self.arch)),
                View::Site => site::ui(ui, &mut cx.on_case(document, &mut self.site)),
                View::Findings => {
                    findings::ui(ui, &mut cx.on_case(document, &mut self.findings));
                }
                View::Order => order::ui(ui, &mut cx.on_case(document, &mut self.order)),
                View::Tray => tray::ui(ui, &mut cx.on_case(document, &mut self.tray)),
                View::Record => record::ui(ui, &mut cx.on_case(document, &mut self.record)),
                View::Sheet => sheet::ui(ui, &mut cx.on_case(document, &mut self.sheet)),
                View::History => history::ui(ui, &mut cx.on_case(document, &mut self.history)),
                View::Kit => kit::ui(ui, &mut cx.on_case(document, &mut self.kit)),
                // These have the whole window.
                View::Loading | View::Surgery => {}
            }
        });
    }
}
