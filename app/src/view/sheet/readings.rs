//! Progress of the verification of settings: in numbers, and what is missing.

use crate::look::{Font, aside, part_heading, words};
use crate::view::sheet::Context;
use egui::Ui;
use traywright_core::kit::DrillId;
use traywright_core::plan::Worksheet;
use traywright_core::sign::{ItemStanding, Objection, SettingState, Stage};
use traywright_core::wording::Formatter;
use traywright_core::wording::mm;

/// The stages that are shown here, each with the id of its line.
const STAGES: [(Stage, &str); 2] = [
    (Stage::Bench, "sheet-view-read-bench"),
    (Stage::SterileField, "sheet-view-read-sterile"),
];

/// Shows how many settings are verified, and for each what is missing.
pub(super) fn ui(ui: &mut Ui, cx: &Context<'_>) {
    let document = cx.document;
    part_heading(ui, cx.word("sheet-view-readings"));
    let items: Vec<&ItemStanding> = document
        .record
        .standing
        .items
        .iter()
        .filter(|item| is_set(item))
        .collect();
    let unknown = without_figure(document.worksheet());
    if items.is_empty() && unknown == 0 {
        aside(ui, cx.word("sheet-view-read-none"));
        return;
    }
    for (at, id) in STAGES {
        let (done, all) = counted(&items, at);
        let counts = &[("done", done), ("all", all)];
        words(ui, cx.counted(id, counts, &[]));
    }
    if unknown > 0 {
        words(
            ui,
            cx.counted("sheet-view-read-unknown", &[("count", unknown)], &[]),
        );
    }
    let formatter = cx.formatter();
    for item in items {
        let Some((id, missing)) = told(item, &formatter) else {
            continue;
        };
        let drill = formatter.drill(&DrillId::from(item.item.drill.as_str()));
        let set = mm(item.item.setting_mm);
        let args = [
            ("drill", drill.as_str()),
            ("set", &set),
            ("missing", &missing),
        ];
        ui.label(Font::Caption.text(cx.text(id, &args)));
    }
}

/// True for a setting of a stop: a drill that is used by its mark is read on no gauge.
const fn is_set(item: &ItemStanding) -> bool {
    item.item.stop.is_some()
}

/// Number of drills whose stop has no known setting, so that there is nothing to read.
fn without_figure(worksheet: &Worksheet) -> usize {
    let set = worksheet
        .loading
        .iter()
        .filter_map(|item| item.set.as_ref());
    let unknown = set.filter(|on| on.stop.is_some() && on.set.value().is_none());
    unknown.count()
}

/// Numbers of settings read at a cx and of all: those that the drills are at now.
fn counted(items: &[&ItemStanding], at: Stage) -> (usize, usize) {
    let now = || items.iter().filter(|item| item.state == SettingState::Now);
    let done = now().filter(|item| is_read(item, at)).count();
    (done, now().count())
}

/// The id of the words on a setting, with what is missing on the bench; nothing where nothing is.
fn told(item: &ItemStanding, formatter: &Formatter<'_>) -> Option<(&'static str, String)> {
    match item.state {
        SettingState::Later => return Some(("sheet-view-read-later", String::new())),
        SettingState::NoMore => return Some(("sheet-view-read-no-more", String::new())),
        SettingState::Now => {}
    }
    let missing: Vec<String> = item
        .checks
        .get(&Stage::Bench)
        .into_iter()
        .filter(|_| !is_read(item, Stage::Bench))
        .flat_map(|check| &check.objections)
        .filter(|objection| **objection != Objection::Practice)
        .map(|objection| formatter.message(&objection.message()))
        .collect();
    (!missing.is_empty()).then(|| ("sheet-view-read-missing", missing.join(" ")))
}

/// True if both readings of a setting count at a cx, be it for practice.
fn is_read(item: &ItemStanding, at: Stage) -> bool {
    let check = item.checks.get(&at);
    check.is_some_and(|check| check.is_verified() || check.is_practised())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, Document, demo_case};
    use traywright_core::case::{Case, ValidCase};
    use traywright_core::dentition::Notation;

    /// One tip drill for two settings: the second is set anew in surgery, and on the bench nothing of it
    /// is missing.
    #[test]
    fn what_is_set_anew_in_surgery_is_not_missing_on_the_bench() {
        let (_, bytes) = DEMOS
            .iter()
            .find(|(name, _)| *name == "two-molars")
            .unwrap();
        let enough: Case = (*demo_case(bytes)).clone();
        let mut short = enough.clone();
        let mut drills = short.kit.drills.iter_mut();
        let tip = drills.find(|drill| drill.id.as_str() == "tip-257");
        tip.unwrap().quantity = 1;
        let document = |case: &Case| Document::unsaved(ValidCase::checked(case).unwrap());
        let (enough, short) = (document(&enough), document(&short));
        let bench = |document: &Document| {
            let items: Vec<&ItemStanding> = document.record.standing.items.iter().collect();
            counted(&items, Stage::Bench)
        };
        let (_, all) = bench(&enough);
        assert_eq!(bench(&short), (0, all - 1));
        let formatter = short.formatter(Notation::Iso);
        let items = short.record.standing.items.iter();
        let ids: Vec<&str> = items
            .map(|item| told(item, &formatter).unwrap().0)
            .collect();
        let is = |id: &str| ids.iter().filter(|one| **one == id).count();
        assert_eq!(is("sheet-view-read-missing"), all - 1);
        assert_eq!(is("sheet-view-read-later"), 1);
    }
}
