//! The record: what was placed at each site and what became of it, entered row by row, and signed.
//!
//! What is recorded and what is not says [`traywright_core::record`], which follows from the events alone; here is only what is
//! being typed and where. Any field that has the keyboard takes what a scanner types, and Enter goes on; what was entered is
//! there once it is written, and the next thing that is not recorded is asked for.

mod entry;
mod fields;
mod row;
mod sign;

use crate::context::CaseContext;
use crate::desk::{OnDisk, said_ahead, worn_out};
use crate::look::{aside, caption, fault, heading, pane, part_heading, words};
use egui::Ui;
use traywright_core::record::{CaseRecord, Label, record};
use traywright_core::sign::{EntryKind, EventId, PlacedImplant, SiteKey, Who};
use traywright_core::wording::begin;

/// The context of this view.
type Context<'a> = CaseContext<'a, State>;

/// State of the view.
#[derive(Debug, Default)]
pub struct State {
    /// What is being entered.
    at: Where,
    /// The label that was scanned for it, as long as nothing of it was changed by hand.
    scanned: Option<Label>,
    /// An implant that is not the planned one, or that nobody can say to be: why it was placed is asked.
    asked: Option<PlacedImplant>,
    /// Number of entries of the record before what was sent to be written; none where nothing was.
    sent: Option<usize>,
    /// The last pass in which the view was drawn.
    drawn: Option<u64>,
}

/// What is being entered.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
enum Where {
    /// The first that is not recorded.
    #[default]
    First,
    /// This.
    At(Place),
    /// Nothing.
    Nowhere,
}

/// A thing at a site, or of the case.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Place {
    site: Option<SiteKey>,
    kind: EntryKind,
    /// What is corrected by it; nothing where it is entered for the first time.
    corrects: Vec<EventId>,
}

/// Every field of what is being entered begins so.
const ENTRY: &str = "record.entry.";
/// The field for the person who records.
const WHO: &str = "record.who";

/// Shows the view.
pub fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    lead_in(ui, cx);
    pane::middle(ui, (0, 0), |ui| {
        pane::scroll(ui, "record", |ui| whole(ui, cx));
    });
}

/// Where one comes to the view, the keyboard is where the next thing is asked for, so that the first scan goes there.
fn lead_in(ui: &Ui, cx: &mut Context<'_>) {
    let pass = ui.ctx().cumulative_pass_nr();
    let before = cx.own.drawn.replace(pass);
    if before.is_some_and(|before| before + 1 >= pass) {
        return;
    }
    let field = match who(cx) {
        None => WHO.to_owned(),
        Some(_) => format!("{ENTRY}0"),
    };
    cx.state.drafts.lead_to(field);
}

fn whole(ui: &mut Ui, cx: &mut Context<'_>) {
    heading(ui, cx.word("view-record"));
    let document = cx.document;
    if document.file().is_none() {
        aside(ui, cx.word("view-record-unsaved"));
        return;
    }
    let of = &document.record;
    let standing = (&of.view, &of.standing);
    let record = record(document.case(), document.worksheet(), standing);
    take_written(cx);
    let formatter = cx.formatter();
    let unsigned = record.signature().is_none() || !record.since().is_empty();
    for said in formatter.record_state(&record) {
        if record.broken || unsigned || record.is_signed_otherwise() {
            fault(ui, said);
        } else {
            words(ui, said);
        }
    }
    for problem in &of.problems {
        fault(ui, problem);
    }
    for ahead in said_ahead(&of.events, cx.now) {
        fault(ui, ahead);
    }
    for told in &record.told {
        fault(ui, formatter.record_told(&record, told));
    }
    for one in &record.astray {
        fault(ui, formatter.record_astray(one));
    }
    for said in formatter.record_missing(&record) {
        words(ui, said);
    }
    let stops = stops(cx);
    if let Some(stops) = stops {
        ui.add_space(6.0);
        fault(ui, cx.word(stops));
    } else {
        who_ui(ui, cx);
    }
    let place = place(cx, &record).filter(|_| stops.is_none());
    for implant in &record.implants {
        let site = begin(&formatter.record_site(&implant.site));
        let planned = formatter.record_planned(implant);
        let args = [("site", &*site), ("planned", &*planned)];
        part_heading(ui, cx.text("view-record-site", &args));
        for field in &implant.fields {
            let of = (Some(implant), field.kind, &field.lines[..]);
            row::ui(ui, cx, (&record, place.as_ref()), of);
        }
    }
    part_heading(ui, cx.word("view-record-case"));
    for (name, count) in [
        ("surgery-step-count-in", record.count_in),
        ("surgery-step-count-out", record.count_out),
    ] {
        let args = [
            ("what", &*cx.word(name)),
            ("said", &*formatter.record_count(&record, count)),
        ];
        words(ui, cx.text("view-record-line", &args));
    }
    let of = (None, EntryKind::Discarded, &record.discarded[..]);
    row::ui(ui, cx, (&record, place.as_ref()), of);
    let worn = worn_out(cx.shared.desk, document);
    if !worn.is_empty() {
        words(ui, cx.word("wear-after"));
    }
    for one in worn {
        words(ui, one);
    }
    for fall in record.fallen {
        words(ui, formatter.record_fall(fall));
    }
    sign::ui(ui, cx, &record, stops.is_none());
    let since = formatter.record_since(&record);
    if !since.is_empty() {
        part_heading(ui, cx.word("view-record-since"));
        for said in since {
            words(ui, said);
        }
    }
    part_heading(ui, cx.word("view-record-run"));
    if record.run.is_empty() {
        aside(ui, cx.word("record-not-recorded"));
    }
    for one in record.run {
        caption(ui, formatter.record_run_of(&record, one));
    }
}

/// Why nothing can be recorded now: the id of a text.
fn stops(cx: &Context<'_>) -> Option<&'static str> {
    let document = cx.document;
    if document.record.standing.broken {
        Some("view-record-broken")
    } else if document.is_changed() || document.on_disk() != OnDisk::AsSaved {
        Some("view-record-not-saved")
    } else {
        None
    }
}

/// The person who records, who is asked for once.
fn who_ui(ui: &mut Ui, cx: &mut Context<'_>) {
    ui.add_space(6.0);
    let label = cx.word("view-record-who");
    if !entry::field(ui, cx, WHO, label) {
        return;
    }
    let typed = cx.state.drafts.draft(WHO).unwrap_or_default().to_owned();
    match Who::signing(typed.trim()) {
        Ok(_) => cx.state.drafts.lead_to(format!("{ENTRY}0")),
        Err(fault) => {
            // What was scanned there is no part of a name.
            let said = cx.formatter().message(&fault.message());
            cx.state.drafts.keep(WHO, String::new());
            cx.state.drafts.refuse(WHO, said);
            cx.state.drafts.lead_to(WHO.to_owned());
        }
    }
}

/// The person who records; none where no name was given.
fn who(cx: &Context<'_>) -> Option<Who> {
    let typed = cx.state.drafts.draft(WHO)?;
    Who::signing(typed.trim()).ok()
}

/// Once what was sent is there, what was typed for it goes, and the next thing that is not recorded is asked for.
fn take_written(cx: &mut Context<'_>) {
    let Some(before) = cx.own.sent.take() else {
        return;
    };
    if cx.document.record.standing.entries.len() > before {
        give_up(cx);
        cx.own.at = Where::First;
        cx.state.drafts.lead_to(format!("{ENTRY}0"));
    }
}

/// What was typed goes, with nothing recorded of it.
fn give_up(cx: &mut Context<'_>) {
    cx.own.scanned = None;
    cx.own.asked = None;
    cx.state.drafts.forget_under(ENTRY);
}

/// What is being entered; none where nothing is. What somebody else entered meanwhile is not entered once more.
fn place(cx: &mut Context<'_>, record: &CaseRecord<'_>) -> Option<Place> {
    match cx.own.at.clone() {
        Where::Nowhere => None,
        Where::At(place) if place.is_open(record) => Some(place),
        Where::At(_) => {
            give_up(cx);
            cx.own.at = Where::First;
            first(record)
        }
        Where::First => {
            let first = first(record)?;
            // It stays the one, whatever is entered elsewhere.
            cx.own.at = Where::At(first.clone());
            Some(first)
        }
    }
}

/// The first thing that is not recorded.
fn first(record: &CaseRecord<'_>) -> Option<Place> {
    record.implants.iter().find_map(|implant| {
        let field = implant.fields.iter().find(|field| field.is_missing())?;
        Some(Place {
            site: Some(implant.site.clone()),
            kind: field.kind,
            corrects: Vec::new(),
        })
    })
}

impl Place {
    /// True if it is still to be entered: what it corrects stands, and what is entered once is not recorded.
    fn is_open(&self, record: &CaseRecord<'_>) -> bool {
        let lines = match &self.site {
            None => &record.discarded,
            Some(site) => {
                let mut implants = record.implants.iter();
                let Some(implant) = implants.find(|one| one.site == *site) else {
                    return false;
                };
                match implant.field(self.kind) {
                    Some(field) if self.corrects.is_empty() && !self.kind.is_several() => {
                        return field.is_empty();
                    }
                    Some(field) => &field.lines,
                    None => return false,
                }
            }
        };
        let last: Vec<&EventId> = lines
            .iter()
            .flat_map(|line| line.last.iter().map(|said| &said.id))
            .collect();
        self.corrects.iter().all(|id| last.contains(&id))
    }
}
