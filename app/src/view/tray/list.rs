//! The same as a list, in the order of use, numbered as in the loading view; the keyboard's way to lay something elsewhere.

use super::{hand, keys, lay, place_of};
use crate::desk::Document;
use crate::look::{Theme, bold, size};
use crate::window::ViewContext;
use egui::{EventFilter, FontId, Id, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::LoadItem;
use traywright_core::wording::{Formatter, begin};

/// Width of the column with the slots' names, points.
const SLOT: f32 = 92.0;

/// Shows the rows.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>) {
    let Some(document) = cx.document() else {
        return;
    };
    let loading = &document.worksheet().loading;
    ui.add_space(6.0);
    let font = FontId::new(size::HEADING, bold());
    ui.label(egui::RichText::new(cx.word("tray-list")).font(font));
    let chosen = cx.state.tray.chosen.clone();
    let focused = chosen.as_ref().and_then(|chosen| {
        let at = place_of(loading, chosen)?;
        ui.memory(|memory| memory.has_focus(id_of(at)))
            .then_some(())
    });
    let asked = cx.state.ask.is_some();
    if focused.is_some() && !asked {
        keys::listen(ui, cx, document);
    }
    let formatter = document.formatter(cx.desk.settings.notation());
    for (n, item) in loading.iter().enumerate() {
        row(ui, cx, document, &formatter, (n, item));
    }
}

fn id_of(n: usize) -> Id {
    Id::unique(("tray thing", n))
}

/// The sites that a thing serves, each once; nothing for what serves the whole case.
fn sites(formatter: &Formatter<'_>, item: &LoadItem) -> Option<String> {
    let mut sites: Vec<String> = Vec::new();
    for site in item.serves.iter().filter_map(|one| one.site.as_ref()) {
        let site = formatter.site(site);
        if !sites.contains(&site) {
            sites.push(site);
        }
    }
    (!sites.is_empty()).then(|| sites.join(", "))
}

/// The words below a thing's name.
fn below(
    cx: &ViewContext<'_>,
    document: &Document,
    formatter: &Formatter<'_>,
    item: &LoadItem,
) -> String {
    let said = formatter.load(item, document.worksheet());
    let by_hand = item.is_by_hand().then(|| match &item.own_slot {
        Some(slot) => cx.text("tray-by-hand", &[("slot", slot.as_str())]),
        None => cx.word("tray-by-hand-no-slot"),
    });
    // Where it lies apart by hand comes first: it is not to be overlooked.
    let parts = [by_hand, said.marking, sites(formatter, item)];
    let parts: Vec<String> = parts
        .into_iter()
        .flatten()
        .filter(|p| !p.is_empty())
        .collect();
    parts.join(" · ")
}

fn row(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    document: &Document,
    formatter: &Formatter<'_>,
    (n, item): (usize, &LoadItem),
) {
    let theme = Theme::of(ui);
    let state = &cx.state.tray;
    let chosen = state.chosen.as_ref().is_some_and(|held| item.is_held(held));
    let carried = state
        .carried
        .as_ref()
        .is_some_and(|c| item.is_held(&c.thing));
    let title = lay::named(cx, formatter, (n, item));
    let slot = item
        .slot
        .as_ref()
        .map_or_else(|| begin(&cx.word("load-no-slot")), ToString::to_string);
    let under = begin(&below(cx, document, formatter, item));
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
    let said = cx.text(
        "tray-row",
        &[("thing", &title), ("slot", &slot), ("more", &under)],
    );
    response.widget_info(|| WidgetInfo::selected(egui::Role::ListItem, true, chosen, &said));
    if chosen && cx.state.tray.focus {
        cx.state.tray.focus = false;
        response.request_focus();
        response.scroll_to_me(None);
    }
    if response.clicked() {
        cx.state.tray.chosen = Some(item.held());
        cx.state.tray.focus = true;
    }
    if response.drag_started()
        && let Some(place) = response.interact_pointer_pos()
    {
        hand::take(cx, item.held(), place);
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
            cx.state.tray.carried,
            Some(lay::Carried {
                by: lay::By::Keys,
                ..
            })
        )
    {
        // Whoever goes elsewhere with the keyboard has put it down.
        cx.state.tray.carried = None;
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

/// The ground of a row: nothing, unless it is looked at, in hand or pointed at.
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
