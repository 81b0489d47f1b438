//! The fields of what is being entered: Enter goes from one to the next, and behind the last one it is recorded.

use super::fields::{given, is_whole, parts, read};
use super::{Context, ENTRY, Place, WHO, Where, give_up, who};
use crate::action::Action;
use crate::field::{fault_ui, field_id};
use crate::look::{caption, fault, words};
use egui::{Key, TextEdit, Ui};
use traywright_core::record::{Identified, ImplantRecord, by_its_label, identify, read_label};
use traywright_core::sign::{
    Compared, Entry, EntryKind, Event, EventKind, Names, PlacedImplant, Purpose, RecordCorrected,
    Recorded, Who,
};
use traywright_core::wording::mm;

/// The field for why something is corrected.
const REASON: &str = "record.entry.reason";
/// The field for why another implant was placed.
const BECAUSE: &str = "record.entry.because";
/// The field for who held a label against the kit.
const SECOND: &str = "record.entry.second";

/// Shows the fields, and records what they hold.
pub(super) fn ui(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    place: &Place,
    implant: Option<&ImplantRecord<'_>>,
) {
    if let Some(asked) = cx.own.asked.clone() {
        return question(ui, cx, place, (&asked, implant));
    }
    let parts = parts(place.kind);
    let mut entered = None;
    for (index, label) in parts.iter().enumerate() {
        let label = cx.word(label);
        if field(ui, cx, &key(index), label) {
            entered = Some(index);
        }
    }
    let corrects = !place.corrects.is_empty();
    if corrects && field(ui, cx, REASON, cx.word("view-record-reason")) {
        entered = Some(parts.len());
    }
    caption(ui, cx.word(hint(place.kind)));
    let mut submits = false;
    ui.horizontal(|ui| {
        submits = ui.button(cx.word("view-record-do")).clicked();
        if corrects && ui.button(cx.word("view-record-nothing")).clicked() {
            take_away(cx, place);
        }
        let cancel = ui.button(cx.word("view-record-leave")).clicked();
        if cancel {
            give_up(cx);
            cx.own.at = Where::Nowhere;
        }
    });
    if let Some(index) = entered {
        if place.kind == EntryKind::Implant && take_label(cx, index) {
            return;
        }
        let whole = index == 0 && is_whole(place.kind, &typed(cx, 0));
        let next = if whole { parts.len() } else { index + 1 };
        if next < parts.len() {
            cx.state.drafts.lead_to(key(next));
        } else if index < parts.len() && corrects {
            cx.state.drafts.lead_to(REASON.to_owned());
        } else {
            submits = true;
        }
    }
    if submits {
        submit(cx, place, implant);
    }
}

const fn hint(kind: EntryKind) -> &'static str {
    match kind {
        EntryKind::Implant => "view-record-hint-implant",
        EntryKind::Depth => "view-record-hint-depth",
        EntryKind::Graft | EntryKind::Healing | EntryKind::Deviation => "view-record-hint-none",
        _ => "view-record-hint",
    }
}

fn key(index: usize) -> String {
    format!("{ENTRY}{index}")
}

fn typed(cx: &Context<'_>, index: usize) -> String {
    let draft = cx.state.drafts.draft(&key(index));
    draft.unwrap_or_default().to_owned()
}

/// A field with its label; true if Enter was pressed in it.
pub(super) fn field(ui: &mut Ui, cx: &mut Context<'_>, key: &str, label: String) -> bool {
    let named = ui.label(label).id;
    let drafts = &mut cx.shared.state.drafts;
    let mut text = drafts.draft(key).unwrap_or_default().to_owned();
    let width = ui.available_width().min(420.0);
    let edit = TextEdit::singleline(&mut text)
        .id(field_id(key))
        .desired_width(width);
    let response = ui.add(edit).labelled_by(named);
    drafts.follow_lead(key, &response);
    if response.changed() {
        drafts.keep(key, text);
    }
    fault_ui(ui, drafts, key);
    response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter))
}

/// Takes a scanned label apart into the fields of the implant; false where what was typed is none.
fn take_label(cx: &mut Context<'_>, index: usize) -> bool {
    let Some(label) = read_label(&typed(cx, index)) else {
        return false;
    };
    let drafts = &mut cx.shared.state.drafts;
    let expiry = label.expiry.map_or_else(String::new, |day| day.to_string());
    let lot = label.lot.clone().unwrap_or_default();
    for (at, text) in [(0, label.code.clone()), (1, lot), (2, expiry)] {
        drafts.keep(&key(at), text);
    }
    // What is on the screen is held against the label before it is recorded; what it lacks is typed.
    let to = if label.lot.is_none() { 1 } else { 2 };
    drafts.lead_to(key(to));
    cx.own.scanned = Some(label);
    true
}

/// What may be recorded by whom, or the field that lacks.
fn signs(cx: &mut Context<'_>) -> Option<Who> {
    let who = who(cx);
    if who.is_none() {
        let fault = cx.word("view-record-no-who");
        cx.state.drafts.refuse(WHO, fault);
        cx.state.drafts.lead_to(WHO.to_owned());
    }
    who
}

fn submit(cx: &mut Context<'_>, place: &Place, implant: Option<&ImplantRecord<'_>>) {
    let count = parts(place.kind).len();
    let texts: Vec<String> = (0..count).map(|index| typed(cx, index)).collect();
    let entry = match read(cx, (place.site.as_ref(), place.kind), &texts) {
        Ok(entry) => entry,
        Err((index, fault)) => {
            cx.state.drafts.refuse(&key(index), fault);
            cx.state.drafts.lead_to(key(index));
            return;
        }
    };
    if !has_reason(cx, place) {
        return;
    }
    let Entry::Implant(mut placed) = entry else {
        return send(cx, place, Some(entry));
    };
    placed.given = given(cx.own.scanned.as_ref(), &placed);
    let planned = implant.and_then(ImplantRecord::planned);
    placed.planned = planned.map(ToString::to_string);
    let kit = cx.offered_kit();
    let found = identify(kit, planned, &placed.code);
    placed.implant = found.implant().map(|one| one.id.to_string());
    match found {
        Identified::Planned(_) => send(cx, place, Some(Entry::Implant(placed))),
        Identified::Other(_) | Identified::Unknown => {
            let compares = placed.implant.is_none() && by_its_label(kit, planned).is_some();
            cx.own.asked = Some(placed);
            let field = if compares { SECOND } else { BECAUSE };
            cx.state.drafts.lead_to(field.to_owned());
        }
    }
}

/// True if a correction says why.
fn has_reason(cx: &mut Context<'_>, place: &Place) -> bool {
    let given = cx.state.drafts.draft(REASON).unwrap_or_default();
    if place.corrects.is_empty() || !given.trim().is_empty() {
        return true;
    }
    let fault = cx.word("view-record-needed");
    cx.state.drafts.refuse(REASON, fault);
    cx.state.drafts.lead_to(REASON.to_owned());
    false
}

/// An implant that is not the planned one, or that nobody can say to be.
fn question(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    place: &Place,
    (asked, implant): (&PlacedImplant, Option<&ImplantRecord<'_>>),
) {
    let formatter = cx.formatter();
    let planned = implant.map_or_else(String::new, |one| formatter.record_planned(one));
    let name = |id: &String| formatter.implant(&id.as_str().into());
    let named = asked.implant.as_ref().map(name);
    let said = if let Some(placed) = &named {
        let args = [
            ("placed", placed.as_str()),
            ("code", &asked.code),
            ("planned", &planned),
        ];
        cx.text("view-record-stop-other", &args)
    } else {
        let args = [("code", asked.code.as_str()), ("planned", &planned)];
        cx.text("view-record-stop-unknown", &args)
    };
    fault(ui, said);
    if named.is_none() && compare(ui, cx, place, (asked, implant)) {
        return;
    }
    let label = match named {
        Some(_) => "view-record-because",
        None => "view-record-because-unknown",
    };
    let mut entered = field(ui, cx, BECAUSE, cx.word(label));
    ui.horizontal(|ui| {
        entered |= ui.button(cx.word("view-record-placed")).clicked();
        if ui.button(cx.word("view-record-back")).clicked() {
            cx.own.asked = None;
            cx.state.drafts.settle(BECAUSE);
            cx.state.drafts.lead_to(key(0));
        }
    });
    if !entered || cx.own.asked.is_none() {
        return;
    }
    let because = cx.state.drafts.draft(BECAUSE).unwrap_or_default().trim();
    if because.is_empty() {
        let fault = cx.word("view-record-needed");
        cx.state.drafts.refuse(BECAUSE, fault);
        cx.state.drafts.lead_to(BECAUSE.to_owned());
        return;
    }
    let placed = PlacedImplant {
        because: Some(because.to_owned()),
        ..asked.clone()
    };
    send(cx, place, Some(Entry::Implant(placed)));
}

/// Has the label held against the kit by what the kit has, where it has no code for the planned implant; true once that is sent.
fn compare(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    place: &Place,
    (asked, implant): (&PlacedImplant, Option<&ImplantRecord<'_>>),
) -> bool {
    let planned = implant.and_then(ImplantRecord::planned);
    let Some(one) = by_its_label(cx.offered_kit(), planned).cloned() else {
        return false;
    };
    let shown = |length| mm(length);
    let (diameter, length) = (shown(one.diameter_mm), shown(one.nominal_length_mm));
    let args = [
        ("name", one.name.as_str()),
        ("diameter", &diameter),
        ("length", &length),
    ];
    words(ui, cx.text("view-record-compare", &args));
    let mut entered = field(ui, cx, SECOND, cx.word("view-record-compared-by"));
    entered |= ui.button(cx.word("view-record-compared")).clicked();
    if !entered {
        return false;
    }
    let typed = cx.state.drafts.draft(SECOND).unwrap_or_default().trim();
    let second = Who::signing(typed).ok();
    let Some(first) = signs(cx) else { return true };
    let events = cx.document.record.events.in_order();
    let team = &cx.document.case().team;
    let team = [&team.surgeon, &team.nurse, &team.second_checker];
    let team = team.into_iter().flatten();
    let team: Vec<Who> = team
        .filter_map(|name| Who::new(name.as_str()).ok())
        .collect();
    let names = Names::of(&team, events.iter().copied().flat_map(Event::people));
    let Some(second) = second.filter(|second| !names.may_be_same(&first, second)) else {
        let fault = cx.word("view-record-no-second");
        cx.state.drafts.refuse(SECOND, fault);
        cx.state.drafts.lead_to(SECOND.to_owned());
        return true;
    };
    let placed = PlacedImplant {
        implant: Some(one.id.to_string()),
        compared: Some(Compared {
            name: one.name.to_string(),
            diameter_mm: one.diameter_mm,
            length_mm: one.nominal_length_mm,
            second,
        }),
        ..asked.clone()
    };
    send(cx, place, Some(Entry::Implant(placed)));
    true
}

/// What was entered by mistake is taken away: nothing stands there.
fn take_away(cx: &mut Context<'_>, place: &Place) {
    if has_reason(cx, place) {
        send(cx, place, None);
    }
}

/// Has it recorded. What was typed stays until it is.
fn send(cx: &mut Context<'_>, place: &Place, entry: Option<Entry>) {
    let Some(who) = signs(cx) else { return };
    let purpose = cx.document.record.view.purpose;
    let kinds = kinds(cx, place, entry, purpose);
    cx.own.sent = Some(cx.document.record.standing.entries.len());
    for kind in kinds {
        let who = who.to_string();
        cx.act(Action::Sign { who, kind });
    }
}

fn kinds(
    cx: &Context<'_>,
    place: &Place,
    entry: Option<Entry>,
    purpose: Purpose,
) -> Vec<EventKind> {
    let reason = cx.state.drafts.draft(REASON).unwrap_or_default().trim();
    if place.corrects.is_empty() {
        let recorded = entry.map(|entry| EventKind::Recorded(Recorded { entry, purpose }));
        return recorded.into_iter().collect();
    }
    let corrected = place.corrects.iter().map(|event| {
        EventKind::RecordCorrected(RecordCorrected {
            event: event.clone(),
            field: place.kind,
            to: entry.clone(),
            reason: reason.to_owned(),
            purpose,
        })
    });
    corrected.collect()
}
