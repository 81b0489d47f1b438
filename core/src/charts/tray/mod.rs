//! The tray drawing: the slots of the case's tray and their contents, in the order of loading.

mod map;
mod marked;
mod slot;

#[cfg(test)]
mod tests;

use crate::case::ValidCase;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Rect, Stroke, TextStyle, at, fonts,
};
use crate::kit::{SlotKind, TraySlot};
use crate::measure::Length;
use crate::number::{exact_to, in_mm};
use crate::plan::{LoadItem, Worksheet};
use crate::text::Texts;
pub use map::tray_map;
use slot::{Known, Level, SlotContent, SlotSetting};

/// The look of a slot with something planned in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SlotLook {
    /// Filled, or to be filled: its content is written in it.
    Filled,
    /// The next one to be filled: the same, in the accent.
    Next,
    /// Not yet filled: the same on the bare ground.
    Waiting,
}

/// Options of a tray drawing.
#[derive(Clone, Copy)]
pub struct TrayOptions<'a> {
    /// Width of the whole plate on the page, mm; its depth follows.
    pub width_mm: f64,
    /// The language.
    pub texts: &'a Texts,
    /// A drill's setting as it is to be read, without a unit; nothing where it is not known, which
    /// is then said. Asked only for what carries a stop or a mark. Without it no setting is shown
    /// or said: a second reading is taken without sight of any.
    pub setting: Option<&'a dyn Fn(&LoadItem) -> Option<String>>,
    /// The look of a slot with this in it.
    pub look: &'a dyn Fn(&LoadItem) -> SlotLook,
}

/// Draws the case's tray, its far left corner at the origin; nothing where the case has none.
///
/// A filled slot shows its call-out name, the number of its thing in the order of loading in a
/// ring, the thing's name with its cutting diameter, its letter and shape, and its setting. Words
/// grow smaller and break between words to stay in their slot. Where they do not fit, first the
/// thing's name is left out, then all but the slot's name and the number, then all but the number;
/// a slot too small for that has no words. The loading list has the rest. The groups have the ids
/// `slot:NAME`.
#[must_use]
pub fn tray(case: &ValidCase, worksheet: &Worksheet, options: &TrayOptions<'_>) -> Option<Drawing> {
    to_scale(case, worksheet, options, Unmarked::Quiet)
}

/// What becomes of markings that have no room.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Unmarked {
    /// They are counted below the drawing.
    Said,
    /// The list beside the drawing has them.
    Quiet,
}

fn to_scale(
    case: &ValidCase,
    worksheet: &Worksheet,
    options: &TrayOptions<'_>,
    unmarked: Unmarked,
) -> Option<Drawing> {
    let id = case.setup.tray.as_ref()?;
    let tray = case.kit.tray(id)?;
    let scale = options.width_mm / tray.width_mm.mm();
    let depth = tray.depth_mm.mm() * scale;
    let mut drawing = Drawing::new();
    let plate = Rect::new(at(0.0, 0.0), options.width_mm, depth);
    drawing.rect(
        plate,
        Paint::outline(Stroke::new(Ink::Soft, LineWeight::Thin)),
    );
    let slot_contents = slot_contents(case, worksheet, &tray.slots, scale, options);
    for well in &slot_contents {
        let size = slot_contents
            .iter()
            .filter(|other| other.shape() == well.shape())
            .filter_map(|other| other.best_size)
            .fold(f64::INFINITY, f64::min);
        let part = well.drawn(size);
        drawing.add_group(format!("slot:{}", well.slot.name), &well.name, part);
    }
    let without = worksheet.loading.iter().filter(|item| item.slot.is_none());
    let quiet = slot_contents.iter().filter(|well| well.is_unmarked());
    let quiet = quiet.filter(|_| unmarked == Unmarked::Said);
    let style = TextStyle::NOTE.inked(Ink::Strong);
    let mut y = depth + 1.0;
    for (id, count) in [
        ("chart-tray-no-slot", without.count()),
        ("chart-tray-unmarked", quiet.count()),
    ] {
        if count == 0 {
            continue;
        }
        let note = options.texts.counted(id, &[("count", count)], &[]);
        for line in fonts::wrap(&note, style.face, style.size_mm, options.width_mm) {
            let place = at(0.0, y + style.ascent());
            drawing.text(place, (Across::Start, Along::Baseline), style, line);
            y += style.line_height();
        }
    }
    Some(drawing)
}

/// A slot with its content.
struct Well<'a> {
    slot: &'a TraySlot,
    area: Rect,
    /// Its content and its look; nothing for an empty one.
    content: Option<(SlotContent, SlotLook)>,
    /// The part of that which fits.
    level: Option<Level>,
    /// The largest type in which that fits.
    best_size: Option<f64>,
    /// Its description for those who cannot see it.
    name: String,
}

fn slot_contents<'a>(
    case: &ValidCase,
    worksheet: &Worksheet,
    slots: &'a [TraySlot],
    scale: f64,
    options: &TrayOptions<'_>,
) -> Vec<Well<'a>> {
    let texts = options.texts;
    let well = |slot: &'a TraySlot| {
        let area = Rect::new(
            at(slot.left_mm.mm(), slot.far_mm.mm()) * scale,
            slot.width_mm.mm() * scale,
            slot.depth_mm.mm() * scale,
        );
        let found = worksheet
            .loading
            .iter()
            .enumerate()
            .find(|(_, item)| item.slot.as_ref() == Some(&slot.name));
        let (content, words) = match found {
            Some((index, item)) => {
                let look = (options.look)(item);
                let content = content(case, slot, index + 1, item, options);
                let words = slot_in_words(&content, item, look, texts);
                (Some((content, look)), words)
            }
            None => (None, texts.get("chart-slot-empty", &[])),
        };
        let best = content
            .as_ref()
            .map(|(content, _)| slot::best(content, area));
        let (level, best_size) = match best {
            Some(best) => best.unzip(),
            None => (None, slot::best_name(slot.name.as_str(), area)),
        };
        let what = slot.name.as_str();
        Well {
            slot,
            area,
            content,
            level,
            best_size,
            name: texts.get("chart-part", &[("what", what), ("words", &words)]),
        }
    };
    slots.iter().map(well).collect()
}

impl Well<'_> {
    /// Slots of one kind and shape are set in one size of type.
    fn shape(&self) -> (SlotKind, Length, Length) {
        (self.slot.kind, self.slot.width_mm, self.slot.depth_mm)
    }

    /// True if what lies in it bears a marking that has no room.
    fn is_unmarked(&self) -> bool {
        let marking = self.content.as_ref().map(|(content, _)| &content.marking);
        let bears = marking.is_some_and(|one| one.letter.is_some() || one.shape.is_some());
        bears && !matches!(self.level, Some(Level::Whole | Level::Unnamed))
    }

    fn drawn(&self, size: f64) -> Drawing {
        let soft = Stroke::new(Ink::Soft, LineWeight::Thin);
        let accent = Stroke::new(Ink::Accent, LineWeight::Heavy);
        let paint = match self.content.as_ref().map(|(_, look)| look) {
            None => Paint::outline(Stroke::HAIRLINE),
            Some(SlotLook::Filled) => Paint::both(Ink::Shade, soft),
            Some(SlotLook::Waiting) => Paint::both(Ink::Ground, soft),
            Some(SlotLook::Next) => Paint::both(Ink::Ground, accent),
        };
        let mut part = Drawing::new();
        part.rect(self.area, paint);
        match (&self.content, self.level) {
            (Some((content, _)), Some(level)) => {
                slot::draw(&mut part, content, (level, size), self.area);
            }
            (None, _) if self.best_size.is_some() => {
                slot::draw_name(&mut part, self.slot.name.as_str(), size, self.area);
            }
            _ => {}
        }
        part
    }
}

fn content(
    case: &ValidCase,
    slot: &TraySlot,
    number: usize,
    item: &LoadItem,
    options: &TrayOptions<'_>,
) -> SlotContent {
    let texts = options.texts;
    let set = |shown, known| SlotSetting {
        label: texts.get(
            if item.is_by_mark() {
                "chart-slot-to-mark"
            } else {
                "chart-slot-set"
            },
            &[],
        ),
        shown,
        known,
    };
    let asked = item.set.as_ref().and(options.setting);
    let setting = asked.map(|setting| match setting(item) {
        Some(setting) => set(setting, Known::Yes),
        None => set(texts.get("chart-slot-set-unknown", &[]), Known::No),
    });
    SlotContent {
        slot: slot.name.to_string(),
        number: number.to_string(),
        thing: thing(case, item, texts),
        marking: item.marking.clone(),
        setting,
    }
}

/// Name of a thing, with its cutting diameter where that is a drill's and not already in the name.
fn thing(case: &ValidCase, item: &LoadItem, texts: &Texts) -> String {
    let name = item.name.as_str();
    let drill = case
        .kit
        .drills
        .iter()
        .find(|drill| item.kind == SlotKind::Drill && drill.id.as_str() == item.entry);
    let diameter = drill.map(|drill| exact_to(drill.cutting_diameter_mm, 0));
    match diameter.filter(|diameter| !name.contains(diameter.as_str())) {
        Some(diameter) => {
            let shown = texts.get("chart-diameter", &[("diameter", &diameter)]);
            format!("{name} {shown}")
        }
        None => name.to_owned(),
    }
}

/// The content of a slot in words.
fn slot_in_words(content: &SlotContent, item: &LoadItem, look: SlotLook, texts: &Texts) -> String {
    let mut words = Vec::new();
    if look == SlotLook::Next {
        words.push(texts.get("chart-slot-next", &[]));
    }
    words.push(texts.get("chart-slot-number", &[("number", &content.number)]));
    words.push(content.thing.clone());
    words.extend(item.marking.letter.clone());
    words.extend(item.marking.colour.clone());
    words.extend(content.setting.as_ref().map(|set| match set.known {
        Known::Yes if item.is_by_mark() => {
            texts.get("chart-slot-mark", &[("mark", &in_mm(&set.shown))])
        }
        Known::No if item.is_by_mark() => texts.get("chart-slot-mark-unknown", &[]),
        Known::Yes => texts.get("chart-slot-setting", &[("setting", &in_mm(&set.shown))]),
        Known::No => texts.get("chart-slot-setting-unknown", &[]),
    }));
    words.join(", ")
}
