//! Which piece of the stock the drill in hand is, and what its wear is to that: told before it is set, where the kit gives
//! it a limit.

use super::keys::{Pressed, shown};
use super::scale::{Weight, line, strong, target};
use super::scene::{Scene, item_of};
use super::session::{Effect, Session};
use super::start::field_ui;
use super::task::{Board, Task};
use super::typed::Given;
use crate::canvas::mark;
use crate::desk::{Desk, Document, Ledger};
use egui::{Sense, Ui, vec2};
use std::collections::BTreeSet;
use traywright_core::drawing::Ink;
use traywright_core::kit::{DrillId, DrillWear, Kit, SlotKind, mark_key};
use traywright_core::plan::{Severity, Worksheet};
use traywright_core::sign::{DrillKey, EventKind};
use traywright_core::text::Texts;
use traywright_core::wear::{NamedFor, WearVerdict, name_piece, named_piece, piece_wear};
use traywright_core::wording::KitFormatter;

/// The kit at hand, where it is the case's, with what was counted of its drills: the case's copy has no limits.
#[derive(Clone, Copy)]
pub(super) struct WearAtHand<'a> {
    pub(super) kit: &'a Kit,
    ledger: &'a Ledger,
}

impl<'a> WearAtHand<'a> {
    /// Nothing where no kit is at hand, or another one.
    pub(super) fn of(desk: &'a Desk, document: &Document) -> Option<Self> {
        let own = &document.case().kit.id;
        let kit = desk.live_kit.as_ref().filter(|kit| kit.id == *own)?;
        Some(Self {
            kit,
            ledger: desk.wear.ledger.found(),
        })
    }
}

/// What is typed to say which piece the drill in hand is.
#[derive(Debug, Default)]
pub(super) struct Naming {
    text: String,
    /// Why what was given was not taken.
    pub(super) refused: Option<String>,
}

/// The drill that a task is about, and what the kit says of its wear; nothing where it says nothing.
fn of_task<'a>(wear: Option<WearAtHand<'a>>, task: &Task) -> Option<(&'a DrillWear, DrillKey)> {
    let thing = Some(&task.thing).filter(|thing| thing.of == SlotKind::Drill)?;
    let said = wear?.kit.wear.of(&thing.entry)?;
    let key = DrillKey {
        drill: thing.entry.clone(),
        copy: thing.copy,
    };
    Some((said, key))
}

/// Number of places that the plan has a thing drill: those of all its settings, each once.
fn planned(worksheet: &Worksheet, board: &Board, item: usize) -> u64 {
    let turns = board.of_item(item);
    let items = turns.filter_map(|task| item_of(worksheet, task));
    let places: BTreeSet<_> = items
        .flat_map(|item| {
            let sites = item.serves.iter().filter_map(|one| one.site.as_ref());
            let sites = sites.map(|site| (Some(site), None));
            sites.chain(item.pins.iter().map(|pin| (None, Some(pin))))
        })
        .collect();
    places.len() as u64
}

/// Tells of the wear of a drill what its limit makes worth telling, nothing where the kit gives none; and lets its piece be
/// named where the kit lists some.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, task: &Task, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let told = told(scene, task);
    let names = can_name(scene.wear, scene.board, scene.session);
    if told.is_none() && !names {
        return;
    }
    let size = scale.px(32.0);
    ui.horizontal_top(|ui| {
        if names {
            let words = scene.word("loading-piece");
            let words = (words.as_str(), shown(&Pressed::Piece));
            if target(ui, scale, words, Weight::Small, scale.px(240.0)).clicked() {
                out.push(Pressed::Piece);
            }
        }
        let Some((words, verdict)) = told else {
            return;
        };
        let (severity, ink) = match verdict {
            WearVerdict::NoLimit | WearVerdict::Within => (None, theme.fill(Ink::Soft)),
            WearVerdict::Unknown => (Some(Severity::Unknown), theme.fill(Ink::Strong)),
            WearVerdict::Near => (Some(Severity::Tight), theme.fill(Ink::Strong)),
            WearVerdict::Beyond | WearVerdict::Reached => (None, theme.fault()),
        };
        if let Some(severity) = severity {
            let (square, _) = ui.allocate_exact_size(vec2(size, size), Sense::hover());
            mark(ui, square, severity);
        }
        ui.vertical(|ui| {
            // Clear of the bar that it is scrolled by.
            ui.set_max_width(ui.available_width() - scale.px(14.0));
            strong(ui, words, size, ink);
        });
    });
}

/// What is told of the piece in hand, and what its limit says; of one within its limit, or without one, its mark alone.
fn told(scene: &Scene<'_>, task: &Task) -> Option<(String, WearVerdict)> {
    let wear = scene.wear?;
    let (_, key) = of_task(scene.wear, task)?;
    let named = named_piece(
        &scene.document.record.events,
        scene.board.purpose,
        &key,
        NamedFor::Now(scene.now),
    );
    let drill = DrillId::from(key.drill.as_str());
    let piece = piece_wear(wear.kit, wear.ledger.counted(), (&drill, named.as_deref()));
    let uses = planned(scene.worksheet(), scene.board, task.item);
    let say = KitFormatter {
        texts: scene.formatter.texts,
        kit: wear.kit,
    };
    let warned = say.wear_warning(&piece, uses, wear.ledger.source());
    let is = || {
        let mark = piece.mark.as_ref()?;
        Some(scene.text("loading-piece-is", &[("mark", mark.as_str())]))
    };
    let words = warned.or_else(is)?;
    Some((words, piece.verdict(uses)))
}

/// True if somebody can say now which piece the drill in hand is: the kit lists pieces of it.
pub(super) fn can_name(wear: Option<WearAtHand<'_>>, board: &Board, session: &Session) -> bool {
    let asks = session.asks_who(board) || session.asks_first(board).is_some();
    let task = session.task(board).filter(|_| !asks);
    let said = task.and_then(|task| of_task(wear, task));
    session.first.is_some() && said.is_some_and(|(said, _)| !said.pieces.is_empty())
}

/// Asks which piece the drill in hand is.
pub(super) fn naming_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    naming: &mut Naming,
    out: &mut Vec<Pressed>,
) {
    let (scale, theme) = (scene.scale, scene.theme);
    let Some((task, item)) = scene.in_hand() else {
        return;
    };
    let Some((said, key)) = of_task(scene.wear, task) else {
        return;
    };
    let copy = key.copy.to_string();
    let args = [("drill", item.name.as_str()), ("copy", &copy)];
    let name = scene.text("loading-piece-drill", &args);
    strong(ui, name, scale.big(), theme.fill(Ink::Strong));
    if let Some(slot) = &task.slot {
        let words = scene.text("loading-to-slot", &[("slot", slot.as_str())]);
        strong(ui, words, scale.told(), theme.fill(Ink::Accent));
    }
    ui.add_space(scale.px(14.0));
    let ask = scene.word("loading-piece-ask");
    let asked = (ask.as_str(), scale.px(520.0));
    let refused = naming.refused.clone();
    if field_ui(ui, scene.brush(), asked, refused, &mut naming.text) {
        out.push(Pressed::Marked(naming.text.clone()));
    }
    ui.add_space(scale.px(20.0));
    line(
        ui,
        scene.word("loading-piece-listed"),
        scale.text(),
        theme.fill(Ink::Strong),
    );
    ui.horizontal_wrapped(|ui| {
        for piece in &said.pieces {
            let mark = piece.mark.as_str();
            if target(ui, scale, (mark, ""), Weight::Other, 0.0).clicked() {
                out.push(Pressed::Marked(mark.to_owned()));
            }
        }
    });
}

/// The mark that was scanned where a figure or a code of the kit is typed, if it is one of a piece.
pub(super) fn scanned(
    wear: Option<WearAtHand<'_>>,
    board: &Board,
    session: &Session,
) -> Option<String> {
    let Given::Code(code) = session.entry.typed.given() else {
        return None;
    };
    let is_mark = wear?.kit.wear.with_mark(&code).next().is_some();
    let is_one = is_mark && board.of_code(&code).is_none();
    Some(code).filter(|_| is_one && can_name(wear, board, session))
}

/// What is recorded where the drill in hand is the piece with this mark; nothing where that is recorded already.
///
/// # Errors
///
/// Why it is not taken, in words.
pub(super) fn name(
    (texts, now): (&'static Texts, jiff::Timestamp),
    (wear, document): (Option<WearAtHand<'_>>, &Document),
    (board, session): (&Board, &Session),
    text: &str,
) -> Result<Option<Effect>, String> {
    let task = session.task(board);
    let (Some(wear), Some(who)) = (wear, &session.first) else {
        return Ok(None);
    };
    let Some((said, key)) = task.and_then(|task| of_task(Some(wear), task)) else {
        return Ok(None);
    };
    let say = KitFormatter {
        texts,
        kit: wear.kit,
    };
    let drill = say.entry("drills", &key.drill);
    if mark_key(text).is_empty() {
        return Err(texts.get("loading-piece-none", &[]));
    }
    let Some(piece) = said.piece(text) else {
        let list: Vec<&str> = said.pieces.iter().map(|one| one.mark.as_str()).collect();
        let args = [
            ("mark", text.trim()),
            ("drill", &drill),
            ("list", &list.join(", ")),
        ];
        return Err(texts.get("loading-piece-not-listed", &args));
    };
    let mark = piece.mark.as_str();
    let of = NamedFor::Now(now);
    let events = &document.record.events;
    let is_it = |key: &DrillKey| {
        let named = named_piece(events, board.purpose, key, of);
        named.is_some_and(|named| mark_key(&named) == mark_key(mark))
    };
    let tasks = board.tasks.iter();
    let others = tasks.filter_map(|task| of_task(Some(wear), task).map(|(_, key)| key));
    let mut others = others.filter(|other| other.drill == key.drill && other.copy != key.copy);
    if let Some(other) = others.find(is_it) {
        let copy = other.copy.to_string();
        let args = [("mark", mark), ("drill", &drill), ("copy", &copy)];
        return Err(texts.get("loading-piece-elsewhere", &args));
    }
    if is_it(&key) {
        return Ok(None);
    }
    let named = (key, Some(mark.to_owned()));
    let kind = EventKind::PieceNamed(name_piece(events, board.purpose, named, of));
    Ok(Some(Effect {
        who: who.clone(),
        kind,
    }))
}
