//! The size of the arch with the landmark that it was measured at: all three or none.

use super::{edit, heading};
use crate::field::{self, InCase, New};
use crate::look::{remark, reserved};
use crate::view::case::Context;
use egui::{Button, Ui};
use traywright_core::case::{ArchSize, Edit};
use traywright_core::dentition::ArchLandmark;
use traywright_core::measure::Length;

/// A size that is not whole yet.
#[derive(Debug, Default)]
pub(super) struct Draft {
    landmark: Option<ArchLandmark>,
    width: Option<Length>,
    depth: Option<Length>,
}

impl Draft {
    fn of(size: &ArchSize) -> Self {
        Self {
            landmark: Some(size.landmark),
            width: Some(size.width_mm),
            depth: Some(size.depth_mm),
        }
    }

    fn whole(&self) -> Option<ArchSize> {
        Some(ArchSize {
            landmark: self.landmark?,
            width_mm: self.width?,
            depth_mm: self.depth?,
        })
    }

    fn is_begun(&self) -> bool {
        self.landmark.is_some() || self.width.is_some() || self.depth.is_some()
    }
}

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let entered = document.case().arch;
    heading(ui, &cx.word("case-arch"));
    let mut size = match &entered {
        Some(size) => Draft::of(size),
        None => std::mem::take(&mut cx.own.arch),
    };
    let landmarks = [ArchLandmark::FirstMolars, ArchLandmark::SecondMolars]
        .map(|landmark| (landmark, cx.word(landmark.text_id())));
    let (label, open) = (cx.word("case-arch-landmark"), cx.word("case-not-chosen"));
    let mut touched = None;
    let new = field::row(ui, &label, |ui, _| {
        let (key, drafts) = ("case.arch.landmark", &cx.state.drafts);
        let value = size.landmark.as_ref();
        field::choice(ui, drafts, key, &label, &open, value, &landmarks)
    });
    if let Some(New(landmark)) = new {
        size.landmark = landmark.or(size.landmark);
        touched = Some("case.arch.landmark");
    }
    for (key, id, place) in [
        (
            "case.arch.width",
            "case-arch-width",
            InCase("arch.width_mm"),
        ),
        (
            "case.arch.depth",
            "case-arch-depth",
            InCase("arch.depth_mm"),
        ),
    ] {
        let label = cx.word(id);
        let value = if id == "case-arch-width" {
            &mut size.width
        } else {
            &mut size.depth
        };
        let drafts = &mut cx.state.drafts;
        let new = field::row(ui, &label, |ui, named| {
            field::number(ui, drafts, key, &named, *value, place)
        });
        if let Some(New(length)) = new {
            *value = length;
            touched = Some(key);
        }
    }
    match (touched, size.whole(), entered) {
        (Some(key), Some(whole), _) => {
            edit(cx, "case-arch-set", Edit::SetArch(Some(whole)), key);
        }
        // A part that was taken away takes the size away; the rest is kept to go on from.
        (Some(key), None, Some(_)) => {
            edit(cx, "case-arch-set", Edit::SetArch(None), key);
        }
        (Some(key), None, None) => cx.state.drafts.settle(key),
        (None, ..) => {}
    }
    let whole = size.whole().is_some();
    let told = match (whole, size.is_begun()) {
        (true, _) => "case-arch-what",
        (false, true) => "case-arch-part",
        (false, false) => "case-arch-none",
    };
    reserved(ui, 2, |ui| remark(ui, cx.word(told)));
    let forget = Button::new(cx.word("case-arch-forget"));
    if ui.add_enabled(whole, forget).clicked() {
        edit(cx, "case-arch-set", Edit::SetArch(None), "case.arch.width");
    }
    if !whole {
        cx.own.arch = size;
    }
}
