//! The same as a list, in the order of use, numbered as in the loading view; the keyboard's way to lay something elsewhere.

use super::{carried, keys, place_of, pointer};
use crate::desk::Document;
use crate::look::{Font, Theme, heading, row};
use crate::view::tray::Context;
use egui::{EventFilter, Id, Sense, Ui, pos2};
use traywright_core::drawing::Ink;
use traywright_core::plan::LoadItem;
use traywright_core::wording::{Formatter, begin};

/// Width of the column with the slots' names, points.
const SLOT: f32 = 92.0;

/// Shows the rows.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let loading = &document.worksheet().loading;
    ui.add_space(6.0);
    heading(ui, cx.word("tray-list"));
    let chosen = cx.own.chosen.clone();
    let focused = chosen.as_ref().and_then(|chosen| {
        let at = place_of(loading, chosen)?;
        ui.memory(|memory| memory.has_focus(id_of(at)))
            .then_some(())
    });
    let asked = cx.state.ask.is_some();
    if focused.is_some() && !asked {
        keys::handle(ui, cx, document);
    }
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
    cx: &Context<'_>,
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
    cx: &mut Context<'_>,
    document: &Document,
    formatter: &Formatter<'_>,
    (n, item): (usize, &LoadItem),
) {
    let theme = Theme::of(ui);
    let state = &cx.own;
    let chosen = state.chosen.as_ref().is_some_and(|held| item.is_held(held));
    let carried = state
        .carried
        .as_ref()
        .is_some_and(|c| item.is_held(&c.thing));
    let title = carried::named(cx, formatter, (n, item));
    let slot = item
        .slot
        .as_ref()
        .map_or_else(|| begin(&formatter.without_slot()), ToString::to_string);
    let under = begin(&below(cx, document, formatter, item));
    let width = ui.available_width();
    let words = (width - SLOT - 18.0).max(80.0);
    let (strong, soft) = (theme.fill(Ink::Strong), theme.fill(Ink::Soft));
    let lay_out =
        |text: &str, font, colour, wide| ui.painter().layout(text.to_owned(), font, colour, wide);
    let bold_body = Font::StrongBody.id();
    let place = lay_out(&slot, bold_body, strong, SLOT - 8.0);
    let head = lay_out(&title, Font::Body.id(), strong, words);
    let foot = lay_out(&under, Font::Caption.id(), soft, words);
    let height = (head.size().y + foot.size().y + 14.0).max(place.size().y + 12.0);
    let said = cx.text(
        "tray-row",
        &[("thing", &title), ("slot", &slot), ("more", &under)],
    );
    let sense = Sense::CLICK | Sense::DRAG;
    let to_it = cx.own.focus;
    let (rect, response) = row::row(ui, (height, id_of(n)), sense, (chosen, to_it), &said);
    if chosen {
        cx.own.focus = false;
    }
    if response.clicked() {
        cx.own.chosen = Some(item.held());
        cx.own.focus = true;
    }
    if response.drag_started()
        && let Some(place) = response.interact_pointer_pos()
    {
        pointer::take(cx, item.held(), place);
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
            cx.own.carried,
            Some(carried::Carried {
                by: carried::CarriedBy::Keys,
                ..
            })
        )
    {
        // Whoever goes elsewhere with the keyboard has put it down.
        cx.own.carried = None;
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    row::ground(ui, rect, 3.0, chosen || carried, &response);
    let painter = ui.painter();
    painter.galley(pos2(rect.left() + 8.0, rect.top() + 6.0), place, strong);
    let at = pos2(rect.left() + SLOT + 8.0, rect.top() + 6.0);
    let low = pos2(at.x, at.y + head.size().y + 1.0);
    painter.galley(at, head, strong);
    painter.galley(low, foot, soft);
}
