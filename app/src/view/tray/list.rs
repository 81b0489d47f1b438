//! The same as a list, in the order of use, numbered as in the loading view; the keyboard's way to lay something elsewhere.

use super::{hand, keys, lay, place_of};
use crate::desk::Document;
use crate::look::{Theme, bold, size};
use crate::window::Stage;
use egui::{EventFilter, FontId, Id, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::LoadItem;
use traywright_core::say::{Speaker, begin};

/// Width of the column with the slots' names, points.
const SLOT: f32 = 92.0;

/// Shows the rows.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let loading = &document.worksheet().loading;
    ui.add_space(6.0);
    let font = FontId::new(size::HEADING, bold());
    ui.label(egui::RichText::new(stage.word("tray-list")).font(font));
    let chosen = stage.sight.tray.chosen.clone();
    let focused = chosen.as_ref().and_then(|chosen| {
        let at = place_of(loading, chosen)?;
        ui.memory(|memory| memory.has_focus(id_of(at)))
            .then_some(())
    });
    let asked = stage.sight.ask.is_some();
    if focused.is_some() && !asked {
        keys::listen(ui, stage, document);
    }
    let speaker = document.speaker(stage.desk.settings.notation());
    for (n, item) in loading.iter().enumerate() {
        row(ui, stage, document, &speaker, (n, item));
    }
}

fn id_of(n: usize) -> Id {
    Id::unique(("tray thing", n))
}

/// The sites that a thing serves, each once; nothing for what serves the whole case.
fn sites(speaker: &Speaker<'_>, item: &LoadItem) -> Option<String> {
    let mut sites: Vec<String> = Vec::new();
    for site in item.serves.iter().filter_map(|one| one.site.as_ref()) {
        let site = speaker.site(site);
        if !sites.contains(&site) {
            sites.push(site);
        }
    }
    (!sites.is_empty()).then(|| sites.join(", "))
}

/// What stands below a thing's name.
fn below(stage: &Stage<'_>, document: &Document, speaker: &Speaker<'_>, item: &LoadItem) -> String {
    let said = speaker.load(item, document.worksheet());
    let by_hand = item.is_by_hand().then(|| match &item.own_slot {
        Some(slot) => stage.text("tray-by-hand", &[("slot", slot.as_str())]),
        None => stage.word("tray-by-hand-no-slot"),
    });
    // Where it lies apart by hand comes first: it is not to be overlooked.
    let parts = [by_hand, said.marking, sites(speaker, item)];
    let parts: Vec<String> = parts
        .into_iter()
        .flatten()
        .filter(|p| !p.is_empty())
        .collect();
    parts.join(" · ")
}

fn row(
    ui: &mut Ui,
    stage: &mut Stage<'_>,
    document: &Document,
    speaker: &Speaker<'_>,
    (n, item): (usize, &LoadItem),
) {
    let theme = Theme::of(ui);
    let state = &stage.sight.tray;
    let chosen = state.chosen.as_ref().is_some_and(|held| item.is_held(held));
    let carried = state
        .carried
        .as_ref()
        .is_some_and(|c| item.is_held(&c.thing));
    let title = lay::named(stage, speaker, (n, item));
    let slot = item
        .slot
        .as_ref()
        .map_or_else(|| begin(&stage.word("load-no-slot")), ToString::to_string);
    let under = begin(&below(stage, document, speaker, item));
    let width = ui.available_width();
    let words = (width - SLOT - 18.0).max(80.0);
    let (strong, soft) = (theme.fill(Ink::Strong), theme.fill(Ink::Soft));
    let lay_out =
        |text: &str, font, colour, wide| ui.painter().layout(text.to_owned(), font, colour, wide);
    let bold_body = FontId::new(size::BODY, bold());
    let place = lay_out(&slot, bold_body, strong, SLOT - 8.0);
    let head = lay_out(&title, FontId::proportional(size::BODY), strong, words);
    let foot = lay_out(&under, FontId::proportional(size::CAPTION), soft, words);
    let height = (head.size().y + foot.size().y + 14.0).max(place.size().y + 12.0);
    // Only the row that is looked at can be reached by Tab; arrows lead on from there.
    let sense = if chosen {
        Sense::click_and_drag()
    } else {
        Sense::CLICK | Sense::DRAG
    };
    let (_, rect) = ui.allocate_space(vec2(width, height));
    let response = ui.interact(rect, id_of(n), sense);
    let said = stage.text(
        "tray-row",
        &[("thing", &title), ("slot", &slot), ("more", &under)],
    );
    response.widget_info(|| WidgetInfo::selected(egui::Role::ListItem, true, chosen, &said));
    if chosen && stage.sight.tray.focus {
        stage.sight.tray.focus = false;
        response.request_focus();
        response.scroll_to_me(None);
    }
    if response.clicked() {
        stage.sight.tray.chosen = Some(item.held());
        stage.sight.tray.focus = true;
    }
    if response.drag_started()
        && let Some(place) = response.interact_pointer_pos()
    {
        hand::take(stage, item.held(), place);
    }
    if response.has_focus() {
        let filter = EventFilter {
            horizontal_arrows: carried,
            vertical_arrows: true,
            escape: carried,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    } else if carried
        && matches!(
            stage.sight.tray.carried,
            Some(lay::Carried {
                by: lay::By::Keys,
                ..
            })
        )
    {
        // Whoever goes elsewhere with the keyboard has put it down.
        stage.sight.tray.carried = None;
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    ground(ui, rect, (chosen, carried), &response);
    let painter = ui.painter();
    painter.galley(pos2(rect.left() + 8.0, rect.top() + 6.0), place, strong);
    let at = pos2(rect.left() + SLOT + 8.0, rect.top() + 6.0);
    let low = pos2(at.x, at.y + head.size().y + 1.0);
    painter.galley(at, head, strong);
    painter.galley(low, foot, soft);
}

/// What lies under a row: nothing, unless it is looked at, in hand or pointed at.
fn ground(ui: &Ui, rect: Rect, (chosen, carried): (bool, bool), response: &egui::Response) {
    let theme = Theme::of(ui);
    let painter = ui.painter();
    if chosen || carried {
        painter.rect_filled(rect, 3.0, ui.visuals().selection.bg_fill);
    } else if response.hovered() {
        painter.rect_filled(rect, 3.0, theme.fill(Ink::Shade));
    }
    if response.has_focus() {
        let accent = Stroke::new(2.0, theme.fill(Ink::Accent));
        painter.rect_stroke(rect, 3.0, accent, StrokeKind::Inside);
    } else {
        let hair = Stroke::new(1.0, theme.fill(Ink::Hairline));
        painter.hline(rect.x_range(), rect.bottom(), hair);
    }
}
