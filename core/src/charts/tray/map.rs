//! The map of a tray: where each slot is, for a page in the hand. It bears no setting.
//!
//! From left to right it is to scale. From far to near slots are only as deep as they need, with room before
//! each row for the name that its slots share: of "Crane 1" to "Crane 9" the word stands once and each slot has
//! its number, so that both can be large.

use super::marked::{Marked, line, marked};
use super::{SlotLook, TrayOptions, Unmarked, to_scale};
use crate::case::ValidCase;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Rect, Stroke, TextStyle, at, pt,
};
use crate::kit::{TraySlot, TrayTemplate};
use crate::measure::Length;
use crate::plan::Worksheet;
use crate::text::Texts;
use std::collections::BTreeMap;

/// The type of names and numbers.
pub(super) const NAME: TextStyle = TextStyle::STRONG.sized(pt(9.0));
/// Room before each row for the name that its slots share, mm.
const ROW: f64 = 3.9;
/// The least depth of a slot, mm.
const LEAST: f64 = 4.0;
/// From a slot's edge to what is in it, mm.
pub(super) const EDGE: f64 = 0.4;

/// Draws the map of the case's tray, its far left corner at the origin; nothing where the case has none. A tray of
/// which the names do not fit so is drawn to scale ([`tray`]).
///
/// A filled slot shows its number in strong type on white with a firm edge, and the letter and shape of what lies in it,
/// for which it is as deep as that needs; an empty one its number alone, pale. The groups have the ids `slot:NAME`. Where a
/// tray is drawn to scale and a marking has no room, that is said below it.
#[must_use]
pub fn tray_map(
    case: &ValidCase,
    worksheet: &Worksheet,
    texts: &Texts,
    width_mm: f64,
) -> Option<Drawing> {
    let id = case.setup.tray.as_ref()?;
    let template = case.kit.tray(id)?;
    let mut map = Map::new(template, width_mm);
    let marked = map.deepened(worksheet);
    let groups = map.groups().filter(|_| marked.is_some());
    let Some((groups, marked)) = groups.zip(marked) else {
        let options = TrayOptions {
            width_mm,
            texts,
            setting: None,
            look: &|_| SlotLook::Waiting,
        };
        return to_scale(case, worksheet, &options, Unmarked::Said);
    };
    let mut drawing = Drawing::new();
    let plate = Rect::new(
        at(0.0, 0.0),
        width_mm,
        map.down(template.depth_mm, Edge::Near),
    );
    drawing.rect(
        plate,
        Paint::outline(Stroke::new(Ink::Soft, LineWeight::Thin)),
    );
    for group in &groups {
        let first = map.area(group.slots[0]);
        drawing.text(
            at(first.left, first.top - 1.0),
            (Across::Start, Along::Baseline),
            NAME,
            group.name.clone(),
        );
        for slot in &group.slots {
            let item = worksheet
                .loading
                .iter()
                .find(|item| item.slot.as_ref() == Some(&slot.name));
            let words = item.map_or_else(
                || texts.get("chart-slot-empty", &[]),
                |item| item.name.to_string(),
            );
            let what = slot.name.as_str();
            let name = texts.get("chart-part", &[("what", what), ("words", &words)]);
            let part = drawn(
                map.area(slot),
                number(slot, &group.name),
                item.and_then(|_| marked.get(slot.name.as_str())),
            );
            drawing.add_group(format!("slot:{what}"), &name, part);
        }
    }
    Some(drawing)
}

/// Slots beside each other that share a name.
struct SlotGroup<'a> {
    name: String,
    slots: Vec<&'a TraySlot>,
}

/// What of a slot's name its group does not say.
fn number<'a>(slot: &'a TraySlot, group: &str) -> &'a str {
    let name = slot.name.as_str();
    name.strip_prefix(group).unwrap_or(name).trim_start()
}

/// The name of a slot that ends in a number, without it; of any other the whole.
fn shared(slot: &TraySlot) -> &str {
    let name = slot.name.as_str();
    match name.rsplit_once(' ') {
        Some((before, last)) if last.chars().all(|one| one.is_ascii_digit()) => before,
        _ => name,
    }
}

/// An edge of a slot, or of the plate.
#[derive(Clone, Copy)]
enum Edge {
    Far,
    Near,
}

/// Places on the plate as places on the page.
struct Map<'a> {
    tray: &'a TrayTemplate,
    /// Of what is beside each other.
    across: f64,
    /// Of what is behind each other.
    deep: f64,
    /// Where rows begin, from far to near.
    rows: Vec<Length>,
    /// Room at the near edge of slots that are not deep enough for their markings, mm.
    deeper: Vec<(Length, f64)>,
}

impl<'a> Map<'a> {
    fn new(tray: &'a TrayTemplate, width_mm: f64) -> Self {
        let mut rows: Vec<Length> = tray.slots.iter().map(|slot| slot.far_mm).collect();
        rows.sort_unstable();
        rows.dedup();
        let depths = tray.slots.iter().map(|slot| slot.depth_mm.mm());
        let least = depths.fold(f64::INFINITY, f64::min);
        let across = width_mm / tray.width_mm.mm();
        let deep = if least.is_finite() && least > 0.0 {
            f64::min(LEAST / least, across)
        } else {
            across
        };
        Self {
            tray,
            across,
            deep,
            rows,
            deeper: Vec::new(),
        }
    }

    /// Makes each filled slot as deep as its marking needs. The markings by slot; nothing where one has no room however
    /// deep its slot is.
    fn deepened(&mut self, worksheet: &Worksheet) -> Option<BTreeMap<&'a str, Marked>> {
        let mut slots: Vec<&TraySlot> = self.tray.slots.iter().collect();
        slots.sort_by_key(|slot| slot.far_mm + slot.depth_mm);
        let mut all = BTreeMap::new();
        for slot in slots {
            let mut items = worksheet.loading.iter();
            let Some(item) = items.find(|item| item.slot.as_ref() == Some(&slot.name)) else {
                continue;
            };
            let area = self.area(slot);
            let one = marked(&item.marking, number(slot, shared(slot)), area.width())?;
            let lacking = one.depth - area.height();
            if lacking > 0.0 {
                self.deeper.push((slot.far_mm + slot.depth_mm, lacking));
            }
            all.insert(slot.name.as_str(), one);
        }
        Some(all)
    }

    /// How far down the page an edge is, mm.
    fn down(&self, place: Length, edge: Edge) -> f64 {
        let begun = self.rows.iter().filter(|row| match edge {
            Edge::Far => **row <= place,
            Edge::Near => **row < place,
        });
        let room: f64 = begun.map(|_| ROW).sum();
        let deeper = self.deeper.iter().filter(|(near, _)| *near <= place);
        let deeper: f64 = deeper.map(|(_, more)| more).sum();
        place.mm() * self.deep + room + deeper
    }

    fn area(&self, slot: &TraySlot) -> Rect {
        let top = self.down(slot.far_mm, Edge::Far);
        let bottom = self.down(slot.far_mm + slot.depth_mm, Edge::Near);
        Rect::new(
            at(slot.left_mm.mm() * self.across, top),
            slot.width_mm.mm() * self.across,
            bottom - top,
        )
    }

    /// The slots by the names that they share; nothing where a name or a number does not fit.
    fn groups(&self) -> Option<Vec<SlotGroup<'a>>> {
        let mut slots: Vec<&TraySlot> = self.tray.slots.iter().collect();
        slots.sort_by_key(|slot| (slot.far_mm, slot.left_mm));
        let alike = |a: &&TraySlot, b: &&TraySlot| a.far_mm == b.far_mm && shared(a) == shared(b);
        let groups: Vec<SlotGroup<'_>> = slots
            .chunk_by(alike)
            .map(|slots| SlotGroup {
                name: shared(slots[0]).to_owned(),
                slots: slots.to_vec(),
            })
            .collect();
        let right = |index: usize, group: &SlotGroup<'_>| {
            let next = groups.get(index + 1);
            let next = next.filter(|next| next.slots[0].far_mm == group.slots[0].far_mm);
            let plate = self.tray.width_mm;
            next.map_or(plate, |next| next.slots[0].left_mm).mm() * self.across
        };
        let fits = |(index, group): (usize, &SlotGroup<'_>)| {
            let left = self.area(group.slots[0]).left;
            let named = left + NAME.width(&group.name) + EDGE <= right(index, group);
            let mut slots = group.slots.iter();
            named
                && slots.all(|slot| {
                    let area = self.area(slot);
                    let wide = NAME.width(number(slot, &group.name)) + 2.0 * EDGE;
                    wide <= area.width() && area.height() >= NAME.cap_height() + EDGE
                })
        };
        let clear = self.rows_are_clear() && groups.iter().enumerate().all(fits);
        clear.then_some(groups)
    }

    /// True if no slot lies where another's row has its name.
    fn rows_are_clear(&self) -> bool {
        let slots = &self.tray.slots;
        slots.iter().all(|slot| {
            let here = self.area(slot);
            let name = Rect {
                left: here.left,
                top: here.top - ROW,
                right: here.right,
                bottom: here.top,
            };
            slots.iter().all(|other| {
                let other = self.area(other);
                let beside = other.right <= name.left || name.right <= other.left;
                let apart = other.bottom <= name.top + 1e-6 || name.bottom <= other.top + 1e-6;
                beside || apart
            })
        })
    }
}

/// A slot with its number, and the marking of what lies in it.
fn drawn(area: Rect, number: &str, filled: Option<&Marked>) -> Drawing {
    let mut part = Drawing::new();
    let (paint, style) = match filled {
        Some(_) => (
            Paint::both(Ink::Ground, Stroke::new(Ink::Strong, LineWeight::Medium)),
            NAME,
        ),
        None => (
            Paint::outline(Stroke::HAIRLINE),
            TextStyle::BODY.sized(NAME.size_mm).inked(Ink::Faint),
        ),
    };
    part.rect(area, paint);
    if !number.is_empty() {
        let place = at(area.left + EDGE, area.top + line() / 2.0);
        part.text(place, (Across::Start, Along::Middle), style, number);
    }
    if let Some(marked) = filled {
        part.add_at(at(area.left, area.top), marked.drawing.clone());
    }
    part
}
