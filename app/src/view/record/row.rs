//! One row: what is recorded of a thing, what stood before, and the way to enter or correct it.

use super::{Context, Place, Where, entry, give_up};
use crate::look::{caption, fault, words};
use egui::Ui;
use traywright_core::record::{CaseRecord, ImplantRecord, Line};
use traywright_core::sign::{EntryKind, EventId};

/// A thing of the record: its implant, where it is of one, and what was said of it.
type Of<'r, 'a> = (Option<&'r ImplantRecord<'a>>, EntryKind, &'r [Line<'a>]);

/// Shows it.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    (record, place): (&CaseRecord<'_>, Option<&Place>),
    (implant, kind, lines): Of<'_, '_>,
) {
    let formatter = cx.formatter();
    let field = implant.and_then(|implant| Some((implant.field(kind)?, Some(implant))));
    let text = match field {
        Some(of) => formatter.record_field_of(record, of, None),
        None => formatter.record_field(record, (kind, lines), None),
    };
    let site = implant.map(|implant| &implant.site);
    let is_here = |place: &&Place| place.kind == kind && place.site.as_ref() == site;
    let (last, others) = text
        .stands
        .split_last()
        .map_or(("", &[][..]), |(last, others)| (last.as_str(), others));
    let line = |cx: &Context<'_>, said: &str| {
        cx.text("view-record-line", &[("what", &*text.name), ("said", said)])
    };
    let tell = |ui: &mut Ui, said: String| {
        if text.is_open {
            fault(ui, said);
        } else {
            words(ui, said);
        }
    };
    for said in others {
        tell(ui, line(cx, said));
    }
    let here = place.filter(is_here);
    let last = line(cx, last);
    ui.horizontal_wrapped(|ui| {
        tell(ui, last);
        if here.is_none() && super::stops(cx).is_none() {
            buttons(ui, cx, &text.name, (implant, kind, lines));
        }
    });
    for before in &text.before {
        caption(ui, before);
    }
    if let Some(place) = here {
        ui.indent(
            ("record entry", kind, site.map(|site| site.site.clone())),
            |ui| {
                entry::ui(ui, cx, place, implant);
            },
        );
    }
}

/// The ways to enter and to correct it.
fn buttons(ui: &mut Ui, cx: &mut Context<'_>, name: &str, (implant, kind, lines): Of<'_, '_>) {
    let formatter = cx.formatter();
    let site = implant.map(|implant| &implant.site);
    let named = site.map_or_else(
        || name.to_owned(),
        |site| {
            let site = formatter.record_site(site);
            cx.text("view-record-of", &[("what", name), ("site", &site)])
        },
    );
    let none = lines.iter().all(|line| stand(line).is_empty());
    if none || kind.is_several() {
        let id = if none {
            "view-record-enter"
        } else {
            "view-record-add"
        };
        if ui.button(cx.text(id, &[("what", &named)])).clicked() {
            open(cx, (implant, kind), Vec::new());
        }
    }
    for (index, line) in lines.iter().enumerate() {
        let corrects = stand(line);
        if corrects.is_empty() {
            continue;
        }
        let name = if index == 0 {
            cx.text("view-record-correct", &[("what", &named)])
        } else {
            let numbers = [("number", index + 1)];
            cx.counted("view-record-correct-of", &numbers, &[("what", &named)])
        };
        if ui.button(name).clicked() {
            open(cx, (implant, kind), corrects);
        }
    }
}

/// What stands of a line, or differs: all of it is corrected at once. What an insertion did not tell is not corrected.
fn stand(line: &Line<'_>) -> Vec<EventId> {
    if matches!(line.answer(), traywright_core::record::Answer::NotRecorded) {
        return Vec::new();
    }
    let last = line.last.iter();
    let last = last.filter(|said| said.entry.is_some() || said.corrects.is_some());
    last.map(|said| said.id.clone()).collect()
}

fn open(
    cx: &mut Context<'_>,
    (implant, kind): (Option<&ImplantRecord<'_>>, EntryKind),
    corrects: Vec<EventId>,
) {
    give_up(cx);
    cx.own.at = Where::At(Place {
        site: implant.map(|implant| implant.site.clone()),
        kind,
        corrects,
    });
    cx.state.drafts.lead_to(format!("{}0", super::ENTRY));
}
