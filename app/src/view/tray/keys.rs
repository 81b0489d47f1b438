//! The keyboard: through the list, a thing in hand, and with it through the slots that it may go in.

use super::carried::{Carried, CarriedBy, put_down};
use super::place_of;
use crate::desk::Document;
use crate::look::row::arrows;
use crate::view::tray::Context;
use egui::{Key, Modifiers, Ui};
use traywright_core::kit::{Label, SlotKind, TraySlot};

/// Ways to go with an arrow: right and towards the near edge count up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Left,
    Right,
    Far,
    Near,
}

const WAYS: [(Key, Way); 4] = [
    (Key::ArrowLeft, Way::Left),
    (Key::ArrowRight, Way::Right),
    (Key::ArrowUp, Way::Far),
    (Key::ArrowDown, Way::Near),
];

/// Acts on the keys while a row of the list has the keyboard.
pub(super) fn handle(ui: &Ui, cx: &mut Context<'_>, document: &Document) {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let loading = &document.worksheet().loading;
    let at = cx.own.chosen.as_ref();
    let Some(at) = at.and_then(|chosen| place_of(loading, chosen)) else {
        return;
    };
    if let Some(carried) = cx.own.carried.clone() {
        if pressed(Key::Escape) {
            cx.own.carried = None;
        } else if pressed(Key::Enter) || pressed(Key::Space) {
            put_down(cx);
            cx.own.focus = true;
        } else if let Some((_, way)) = WAYS.iter().find(|(key, _)| pressed(*key)) {
            let item = &loading[at];
            let from = carried.over.as_ref().or(item.slot.as_ref());
            let over = next(document.case().tray_slots(), item.kind, from, *way);
            cx.own.carried = Some(Carried { over, ..carried });
        }
        return;
    }
    if pressed(Key::Enter) || pressed(Key::Space) {
        cx.own.carried = Some(Carried {
            thing: loading[at].held(),
            over: None,
            by: CarriedBy::Keys,
        });
        return;
    }
    if let Some(to) = arrows(ui, Some(at), loading.len()) {
        cx.own.chosen = Some(loading[to].held());
        cx.own.focus = true;
    }
}

/// The slot for this kind of thing that is next that way: the nearest of those straight ahead, else
/// the nearest of those ahead at all. Where none is, the next or the last one in the order in which
/// slots are filled, round and round, so that each can be reached.
pub(super) fn next(
    slots: &[TraySlot],
    kind: SlotKind,
    from: Option<&Label>,
    way: Way,
) -> Option<Label> {
    let own: Vec<&TraySlot> = slots.iter().filter(|slot| slot.kind == kind).collect();
    let Some(at) = from.and_then(|from| own.iter().position(|slot| slot.name == *from)) else {
        return own.first().map(|slot| slot.name.clone());
    };
    // Twice the middle, in µm: whole.
    let middle = |slot: &TraySlot| {
        let x = slot.left_mm.um() * 2 + slot.width_mm.um();
        let y = slot.far_mm.um() * 2 + slot.depth_mm.um();
        match way {
            Way::Right => (x, y),
            Way::Left => (-x, y),
            Way::Near => (y, x),
            Way::Far => (-y, x),
        }
    };
    let here = middle(own[at]);
    let reach = |slot: &TraySlot| match way {
        Way::Left | Way::Right => slot.depth_mm.um(),
        Way::Far | Way::Near => slot.width_mm.um(),
    };
    let ahead = own.iter().filter_map(|slot| {
        let there = middle(slot);
        let (on, aside) = (there.0 - here.0, (there.1 - here.1).abs());
        let straight = aside < reach(slot) + reach(own[at]);
        // Ahead is more ahead than aside.
        (on > 0 && (straight || aside <= on)).then_some((!straight, on + aside, *slot))
    });
    let nearest = ahead.min_by_key(|(straight, way, _)| (*straight, *way));
    let found = nearest.map_or_else(
        || match way {
            Way::Right | Way::Near => own[(at + 1) % own.len()],
            Way::Left | Way::Far => own[(at + own.len() - 1) % own.len()],
        },
        |(_, _, slot)| slot,
    );
    Some(found.name.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo_kit;

    fn gone(from: &str, way: Way) -> String {
        let kit = demo_kit();
        let slots = &kit.trays[0].slots;
        let kind = slots.iter().find(|slot| slot.name.as_str() == from);
        let kind = kind.unwrap().kind;
        let next = next(slots, kind, Some(&from.into()), way);
        next.unwrap().to_string()
    }

    #[test]
    fn an_arrow_goes_to_the_slot_of_the_kind_that_lies_there() {
        for (from, way, to) in [
            ("Crane 1", Way::Right, "Crane 2"),
            ("Crane 2", Way::Left, "Crane 1"),
            ("Crane 4", Way::Near, "Dove 4"),
            ("Dove 4", Way::Far, "Crane 4"),
            // Nothing of the kind ahead: on in the order in which slots are filled.
            ("Crane 9", Way::Right, "Dove 1"),
            ("Dove 1", Way::Left, "Crane 9"),
            ("Dove 9", Way::Near, "Crane 1"),
            ("Finch 9", Way::Right, "Gull 1"),
            ("Lark 4", Way::Right, "Lark 1"),
        ] {
            assert_eq!(gone(from, way), to, "{from} {way:?}");
        }
    }

    #[test]
    fn every_slot_of_a_kind_is_reached_from_every_other() {
        let kit = demo_kit();
        let slots = &kit.trays[0].slots;
        for from in slots {
            let mut seen = vec![from.name.clone()];
            let mut at = 0;
            while at < seen.len() {
                for (_, way) in WAYS {
                    let to = next(slots, from.kind, Some(&seen[at]), way).unwrap();
                    if !seen.contains(&to) {
                        seen.push(to);
                    }
                }
                at += 1;
            }
            let of_kind = slots.iter().filter(|slot| slot.kind == from.kind).count();
            assert_eq!(seen.len(), of_kind, "from {}", from.name);
        }
    }

    #[test]
    fn what_has_no_slot_begins_at_the_first_of_its_kind() {
        let kit = demo_kit();
        let first = next(&kit.trays[0].slots, SlotKind::Pin, None, Way::Right);
        assert_eq!(first.unwrap().as_str(), "Lark 1");
    }
}
