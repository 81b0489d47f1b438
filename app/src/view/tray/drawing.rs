//! The drawing, and over it what is looked at, what is in hand and where that may go.

use super::carried::{DropOutcome, drop_outcome};
use super::{place_of, pointer};
use crate::canvas::{Camera, mark};
use crate::desk::Document;
use crate::look::Theme;
use crate::view::tray::Context;
use egui::{Rect, Sense, Stroke, StrokeKind, Ui, pos2, vec2};
use traywright_core::charts::{SlotLook, TrayOptions, tray};
use traywright_core::drawing::{Drawing, Ink};
use traywright_core::plan::{Actionable, Known, LoadItem, Severity, side_by_side};

/// Points of the screen for a millimetre of the drawing: type in a slot is then as large as small
/// type elsewhere.
const PER_MM: f32 = 4.2;

/// At this width a common tray still says all, points. Where the room is lower, one scrolls.
pub(super) const LEAST: f32 = 760.0;

/// Shows it whole where that is large enough to be read, else as wide as there is room for.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    // The scroll bar floats over the edge.
    let room = (ui.available_width() - 12.0).max(200.0);
    let whole = whole(cx, ui.clip_rect().height());
    let width = whole.clamp(LEAST.min(room), room);
    let width_mm = f64::from(width / PER_MM);
    let name = cx.word("tray-drawing");
    let (notation, texts) = (cx.desk.settings.notation, cx.desk.texts);
    let drawn = || draw(notation, document, width_mm, texts);
    let state = (document.generation(), width_mm.to_bits(), notation);
    let cached = cx.state.drawings.drawing("tray", state, drawn);
    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    let height = cached.bounds.height() as f32 * PER_MM;
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click_and_drag());
    let camera = Camera {
        origin: rect.min,
        per_mm: PER_MM,
    };
    cached.paint(ui, camera);
    cached.describe(ui, response.id, rect, &name);
    let slots = cached.parts.iter().filter_map(|part| {
        let slot = part.id.strip_prefix("slot:")?;
        // Its outline is its first part; words never leave it.
        Some((slot.to_owned(), camera.rect(part.bounds)))
    });
    cx.own.slots = slots.collect();
    overlay(ui, cx, document);
    pointer::handle(ui, cx, document, &response);
}

/// Width at which the drawing is seen whole in a room so high; 0 without a tray.
pub(super) fn whole(cx: &Context<'_>, height: f32) -> f32 {
    let case = cx.document.case();
    let tray = case
        .setup
        .tray
        .as_ref()
        .and_then(|tray| case.kit.tray(tray));
    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    let shape = tray.map_or(0.0, |tray| (tray.width_mm.mm() / tray.depth_mm.mm()) as f32);
    (height - 8.0).max(0.0) * shape
}

fn draw(
    notation: traywright_core::dentition::Notation,
    document: &Document,
    width_mm: f64,
    texts: &traywright_core::text::Texts,
) -> Drawing {
    let (case, worksheet) = (document.case(), document.worksheet());
    let formatter = document.formatter(notation);
    let setting = |item: &LoadItem| {
        let figure = Actionable::of_item(item)?.figure(&case.kit).large()?;
        Some(formatter.set_length(&Known::Is(figure)))
    };
    let options = TrayOptions {
        width_mm,
        texts,
        setting: Some(&setting),
        look: &|_| SlotLook::Filled,
    };
    tray(case, worksheet, &options).unwrap_or_default()
}

fn overlay(ui: &Ui, cx: &Context<'_>, document: &Document) {
    let theme = Theme::of(ui);
    let state = &cx.own;
    let loading = &document.worksheet().loading;
    let rect_of = |item: &LoadItem| {
        let slot = item.slot.as_ref()?;
        let found = state.slots.iter().find(|(name, _)| name == slot.as_str());
        found.map(|(_, rect)| *rect)
    };
    let outline = |rect: Rect, width: f32, ink: Ink| {
        let stroke = Stroke::new(width, theme.fill(ink));
        ui.painter()
            .rect_stroke(rect, 2.0, stroke, StrokeKind::Middle);
    };
    for rect in loading
        .iter()
        .filter(|item| item.is_by_hand())
        .filter_map(rect_of)
    {
        let bar = Rect::from_min_max(pos2(rect.left(), rect.bottom() - 4.0), rect.max);
        ui.painter().rect_filled(bar, 0.0, theme.fill(Ink::Strong));
    }
    let carried = state.carried.as_ref();
    let thing = carried.and_then(|carried| place_of(loading, &carried.thing));
    if let (Some(carried), Some(thing)) = (carried, thing) {
        for slot in document.case().tray_slots() {
            let found = state
                .slots
                .iter()
                .find(|(name, _)| name == slot.name.as_str());
            let Some((_, rect)) = found else { continue };
            let over = carried.over.as_ref() == Some(&slot.name);
            match drop_outcome(document, thing, &slot.name) {
                DropOutcome::Moves(..) => outline(*rect, if over { 4.0 } else { 1.5 }, Ink::Accent),
                DropOutcome::Stays => outline(*rect, 2.0, Ink::Strong),
                DropOutcome::OtherKind(_) | DropOutcome::NotThere => {
                    let veil = theme.fill(Ink::Ground).gamma_multiply(0.72);
                    ui.painter().rect_filled(*rect, 0.0, veil);
                    if over {
                        let square = Rect::from_center_size(rect.center(), vec2(18.0, 18.0));
                        mark(ui, square, Severity::Short);
                    }
                }
            }
        }
    } else if let Some(item) = state.chosen.as_ref().and_then(|c| place_of(loading, c))
        && let Some(rect) = rect_of(&loading[item])
    {
        outline(rect, 2.5, Ink::Accent);
    }
    for pair in side_by_side(document.case(), loading) {
        let (one, other) = (rect_of(&loading[pair.one]), rect_of(&loading[pair.other]));
        let (Some(one), Some(other)) = (one, other) else {
            continue;
        };
        let middle = one.center() + (other.center() - one.center()) / 2.0;
        let square = Rect::from_center_size(middle, vec2(16.0, 16.0));
        ui.painter()
            .circle_filled(middle, 10.0, theme.fill(Ink::Ground));
        mark(ui, square, Severity::Note);
    }
}
