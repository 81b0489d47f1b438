//! The arch chart: the teeth of a jaw with everything that is planned there, as the clinician faces
//! the patient.
//!
//! Sites and pins are named in columns beside the arch, each at the end of a thin line. The arch is
//! scaled to what the columns leave of the width; sleeves, implants, pins and teeth are to that
//! scale, words are not.

mod afar;
mod column;
mod frame;
mod furniture;
mod label;
mod layout;
mod lean;
mod number;
mod outline;
mod place;
mod pointer;
mod screen_layout;
mod small;
mod space;
mod tilt;

#[cfg(test)]
mod tests;

pub use afar::{SiteLook, arch_from_afar};
pub use frame::{ArchFrame, PinFrame, SiteFrame, ToothFrame};
pub use lean::{LeanWords, lean};
pub use pointer::{ArchSpot, Arrow};
pub use small::arch_small;

use crate::case::{Case, ValidCase};
use crate::dentition::{self, Jaw, Notation, Side, ToothPosition};
use crate::drawing::{
    Across, Along, Dash, Drawing, Ink, Item, LineWeight, Paint, Point, Rect, Stroke, Text,
    TextStyle, at,
};
use crate::kit::SiteId;
use crate::plan::{Finding, Worksheet};
use crate::text::Texts;
use label::{Label, LabelSubject};
use layout::{AROUND, Columns, View};
use outline::ToothLook;
use place::{Fidelity, Scene};
use screen_layout::ScreenLayout;
use space::Occupied;

/// The jaws that are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Arches {
    /// The case's jaw.
    Own,
    /// The case's jaw, and facing it, faint, a mean arch of the other one for orientation.
    Both,
}

impl Arches {
    /// Whose arch it is, of a case of this jaw, and how it is looked at.
    #[must_use]
    pub fn caption(self, jaw: Jaw, texts: &Texts) -> String {
        let jaw = match self {
            Self::Own => jaw.key(),
            Self::Both => "both",
        };
        texts.get("chart-arch-caption", &[("jaw", jaw)])
    }
}

/// A thing on the chart, as it is chosen or pointed at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArchSelection<'a> {
    /// A site.
    Site(&'a SiteId),
    /// A tooth position.
    Tooth(ToothPosition),
    /// The pin of this name.
    Pin(&'a str),
}

impl ArchSelection<'_> {
    /// The id of its group in the drawing.
    fn group_id(self) -> String {
        match self {
            Self::Site(id) => format!("site:{id}"),
            Self::Tooth(position) => format!("tooth:{position}"),
            Self::Pin(name) => format!("pin:{name}"),
        }
    }
}

/// Options of an arch chart.
#[derive(Clone, Copy)]
pub struct ArchOptions<'a> {
    /// Its width, mm; one below [`ArchOptions::LEAST_WIDTH_MM`] counts as that.
    pub width_mm: f64,
    /// The height that it has to fit, mm, for a screen: the arch is as large as fits, and does not
    /// move whatever is planned and written on it, so that a hand can move things there. Nothing on
    /// paper, where the height follows from the width.
    pub height_mm: Option<f64>,
    /// The numbering of teeth.
    pub notation: Notation,
    /// The language.
    pub texts: &'a Texts,
    /// A few words on a finding, without its verdict, which is written before them; empty to leave
    /// it at the verdict.
    pub headline: &'a dyn Fn(&Finding) -> String,
    /// The jaws that are drawn.
    pub arches: Arches,
    /// The choice on screen; nothing on paper.
    pub chosen: Option<ArchSelection<'a>>,
}

impl ArchOptions<'_> {
    /// The least width of a chart, mm: below it there would be no room for words beside an arch.
    pub const LEAST_WIDTH_MM: f64 = 90.0;

    /// The least height that a chart can fit, mm.
    pub const LEAST_HEIGHT_MM: f64 = 50.0;
}

/// Radius of the dot where a line begins, mm.
const DOT: f64 = 0.4;
/// Radius of the ring at an apex, mm.
const APEX: f64 = 0.55;

/// Draws the arch chart of a case, its top left corner at the origin.
///
/// The groups in it have the ids `tooth:46`, `site:ID` and `pin:NAME`, each with a name that says
/// what the group shows. A site shows the mark and word of its worst finding; one of which nothing
/// was looked at is shown as unknown.
///
/// The worksheet must be the case's: a site's findings are found by its id.
#[must_use]
pub fn arch(case: &ValidCase, worksheet: &Worksheet, options: &ArchOptions<'_>) -> Drawing {
    arch_frame(case, worksheet, options).drawing
}

/// The same chart with what a hand on it points at.
#[must_use]
pub fn arch_frame(case: &ValidCase, worksheet: &Worksheet, options: &ArchOptions<'_>) -> ArchFrame {
    let case: &Case = case;
    let width = options.width_mm.max(ArchOptions::LEAST_WIDTH_MM);
    let scene = match options.arches {
        Arches::Own => Scene::of(case),
        Arches::Both => Scene::of(case).with_other_jaw(),
    };
    let labels = label::labels(case, worksheet, &scene, options);
    let captions = captions(case, &scene, options);
    let mut drawing = Drawing::new();
    let view = if let Some(height) = options.height_mm {
        let height = height.max(ArchOptions::LEAST_HEIGHT_MM);
        let size = (width, height);
        let screen = ScreenLayout::drawn(&mut drawing, &scene, options, &captions, size);
        let chosen = |label: &Label| is_chosen(case, label.about, options);
        let columns = screen.columns(&labels, chosen);
        draw_arch(&mut drawing, case, &scene, &columns, &screen.view, options);
        screen.view
    } else {
        let columns = Columns::of(labels, width);
        let arch = columns.right_mm..width - columns.left_mm;
        let top = furniture::head(&mut drawing, &captions, options.texts, arch, width);
        let view = View::fit(&scene, options, &columns, width, top);
        let bottom = draw_arch(&mut drawing, case, &scene, &columns, &view, options);
        foot(&mut drawing, &scene, &view, bottom, width, options);
        view
    };
    ArchFrame::of(drawing, case, scene, view, options.chosen)
}

/// True if the subject of a label is chosen.
fn is_chosen(case: &Case, about: LabelSubject, options: &ArchOptions<'_>) -> bool {
    match about {
        LabelSubject::Site(index) => {
            options.chosen == Some(ArchSelection::Site(&case.sites[index].id))
        }
        LabelSubject::Pin(index) => {
            let name = case.guide.pins[index].name.as_str();
            options.chosen == Some(ArchSelection::Pin(name))
        }
    }
}

/// Whose arch it is, and what is to be known before anything is read from it.
fn captions(case: &Case, scene: &Scene, options: &ArchOptions<'_>) -> Vec<(String, TextStyle)> {
    let texts = options.texts;
    let caption = options.arches.caption(case.jaw, texts);
    let mut captions = vec![(caption, TextStyle::BODY.inked(Ink::Soft))];
    if scene.fidelity == Fidelity::Schematic {
        let warning = texts.get("chart-arch-schematic", &[]);
        captions.push((warning, TextStyle::STRONG));
    }
    captions
}

/// Draws teeth, pins and sites with their labels; gives back where the lowest of them ends.
fn draw_arch(
    drawing: &mut Drawing,
    case: &Case,
    scene: &Scene,
    columns: &Columns,
    view: &View,
    options: &ArchOptions<'_>,
) -> f64 {
    let targets: Vec<(Point, f64)> = columns
        .labels
        .iter()
        .map(|label| match label.about {
            LabelSubject::Site(index) => {
                let site = &scene.sites[index];
                let radius = site.sleeve_radius.max(site.implant_radius);
                (view.point(site.platform), radius * view.scale)
            }
            LabelSubject::Pin(index) => {
                let pin = &scene.pins[index];
                (view.point(pin.centre), pin.radius * view.scale + PIN_ARM)
            }
        })
        .collect();
    let ports = ports(columns, &targets, view);
    let mut taken = Occupied {
        // The dot where a line begins stands on the edge.
        discs: targets.iter().map(|&(at, r)| (at, r + DOT)).collect(),
        lines: targets
            .iter()
            .zip(&ports)
            .map(|((target, _), port)| (*target, *port))
            .collect(),
        rings: scene
            .teeth
            .iter()
            .map(|tooth| view.ring(&tooth.ring))
            .collect(),
        ..Occupied::default()
    };
    for site in &scene.sites {
        let (platform, apex) = (view.point(site.platform), view.point(site.apex));
        taken.lines.push((platform, apex));
        taken.discs.push((apex, APEX));
    }
    for (site, place) in case.sites.iter().zip(&scene.sites) {
        let chosen = options.chosen == Some(ArchSelection::Site(&site.id));
        if let Some(handle) = frame::handle(case, site, place, view).filter(|_| chosen) {
            taken.lines.push((view.point(place.apex), handle));
            // The ring with its word below it.
            taken.discs.push((handle + at(0.0, HANDLE), 4.0 * HANDLE));
        }
    }
    draw_teeth(drawing, scene, view, &mut taken, options);
    for ((label, port), (target, radius)) in columns.labels.iter().zip(ports).zip(targets) {
        let mut part = Drawing::new();
        leader(&mut part, target, radius, port);
        let id = match label.about {
            LabelSubject::Site(index) => {
                let site = &case.sites[index];
                site_symbol(&mut part, &scene.sites[index], view);
                if options.chosen == Some(ArchSelection::Site(&site.id)) {
                    part.circle(target, radius + 0.7, Paint::outline(CHOSEN));
                    if let Some(handle) = frame::handle(case, site, &scene.sites[index], view) {
                        let apex = view.point(scene.sites[index].apex);
                        handle_symbol(&mut part, apex, handle, options.texts);
                    }
                }
                ArchSelection::Site(&site.id).group_id()
            }
            LabelSubject::Pin(index) => {
                let name = &case.guide.pins[index].name;
                pin_symbol(&mut part, target, radius);
                if options.chosen == Some(ArchSelection::Pin(name.as_str())) {
                    part.circle(target, radius + 0.7, Paint::outline(CHOSEN));
                }
                ArchSelection::Pin(name.as_str()).group_id()
            }
        };
        label.draw(&mut part, port);
        drawing.add_group(id, &label.name, part);
    }
    drawing
        .bounds()
        .map_or(view.room.bottom, |drawn| drawn.bottom.max(view.room.bottom))
}

/// The point at which the line of each label meets its column.
fn ports(columns: &Columns, targets: &[(Point, f64)], view: &View) -> Vec<Point> {
    let mut ports = vec![view.room.centre(); targets.len()];
    let [right, left] = view.lanes;
    for (side, x, lane) in [
        (Side::Right, view.room.left, right),
        (Side::Left, view.room.right, left),
    ] {
        let here: Vec<usize> = (0..targets.len())
            .filter(|&index| columns.labels[index].side == side)
            .collect();
        let blocks: Vec<column::Block> = here
            .iter()
            .map(|&index| columns.labels[index].block(targets[index].0))
            .collect();
        let tops = column::arrange(&blocks, x, lane.top, lane.bottom);
        for ((index, block), top) in here.into_iter().zip(blocks).zip(tops) {
            ports[index] = at(x, top + block.port);
        }
    }
    ports
}

fn draw_teeth(
    drawing: &mut Drawing,
    scene: &Scene,
    view: &View,
    taken: &mut Occupied,
    options: &ArchOptions<'_>,
) {
    draw_other_jaw(drawing, scene, view, taken, options.texts);
    for tooth in &scene.teeth {
        let looks = ToothLook::of(tooth.tooth);
        let mut part = Drawing::new();
        outline::draw(&mut part, &view.ring(&tooth.ring), &looks);
        if options.chosen == Some(ArchSelection::Tooth(tooth.position)) {
            part.polygon(view.ring(&tooth.ring), Paint::outline(CHOSEN));
        }
        let number = options.notation.show(tooth.position);
        let centre = view.point(tooth.centre);
        if let Some(text) = number::place(tooth, &number, centre, view.scale, view.room, taken) {
            taken.words.push(text.bounds().grown(0.3));
            part.push(Item::Text(text));
        }
        let words = if looks.is_empty() {
            options.texts.get("chart-tooth-present", &[])
        } else {
            let each = looks
                .iter()
                .map(|look| options.texts.get(look.text_id(), &[]));
            each.collect::<Vec<_>>().join(", ")
        };
        let what = dentition::label(tooth.position, options.notation, options.texts);
        let name = options
            .texts
            .get("chart-part", &[("what", &what), ("words", &words)]);
        let id = ArchSelection::Tooth(tooth.position).group_id();
        drawing.add_group(id, name, part);
    }
}

/// The other jaw, faint, each jaw's name within its arch.
fn draw_other_jaw(
    drawing: &mut Drawing,
    scene: &Scene,
    view: &View,
    taken: &mut Occupied,
    texts: &Texts,
) {
    if scene.other.is_empty() {
        return;
    }
    let faint = Stroke::new(Ink::Hairline, LineWeight::Hair);
    let rings: Vec<Vec<Point>> = scene.other.iter().map(|ring| view.ring(ring)).collect();
    let mut other = Drawing::new();
    for ring in &rings {
        other.polygon(ring.iter().copied(), Paint::outline(faint));
    }
    taken.rings.extend(rings.iter().cloned());
    let jaw = scene.model.jaw();
    let own = scene.teeth.iter().flat_map(|tooth| view.ring(&tooth.ring));
    for (points, jaw, drawing) in [
        (own.collect::<Vec<_>>(), jaw, &mut *drawing),
        (rings.concat(), place::other(jaw), &mut other),
    ] {
        let name = Text {
            place: Rect::around(points).map_or(view.room.centre(), Rect::centre),
            anchor: (Across::Middle, Along::Middle),
            content: texts.get(jaw.text_id(), &[]),
            style: TextStyle::NOTE.inked(Ink::Faint),
            turn_deg: 0.0,
        };
        let bounds = name.bounds().grown(0.3);
        if taken.leaves_free(bounds) {
            taken.words.push(bounds);
            drawing.push(Item::Text(name));
        }
    }
    let name = texts.get("chart-arch-other-jaw", &[]);
    drawing.add_group("other-jaw", name, other);
}

/// A thin line from the edge of a disc to a port, a dot where it begins.
fn leader(part: &mut Drawing, target: Point, radius: f64, port: Point) {
    let way = (port - target).unit();
    let start = target + way * radius;
    part.line(start, port, Stroke::new(Ink::Strong, LineWeight::Hair));
    part.circle(start, DOT, Paint::fill(Ink::Strong));
}

/// Sleeve and implant as circles, a cross on the axis at the platform, and a line from there to the
/// apex.
fn site_symbol(part: &mut Drawing, site: &place::SitePlace, view: &View) {
    let platform = view.point(site.platform);
    let implant = site.implant_radius * view.scale;
    part.circle(
        platform,
        site.sleeve_radius * view.scale,
        Paint::outline(Stroke::THIN),
    );
    part.circle(
        platform,
        implant,
        Paint::both(Ink::Implant, Stroke::OUTLINE),
    );
    let arm = (implant * 0.45).min(1.6);
    let hair = Stroke::new(Ink::Strong, LineWeight::Thin);
    part.line(platform - at(arm, 0.0), platform + at(arm, 0.0), hair);
    part.line(platform - at(0.0, arm), platform + at(0.0, arm), hair);
    let apex = view.point(site.apex);
    // What leans less than this would blot the cross; the words tell it all the same.
    if (apex - platform).length() > 1.2 {
        part.line(platform, apex, Stroke::OUTLINE);
        part.circle(apex, APEX, Paint::both(Ink::Ground, Stroke::OUTLINE));
    }
}

/// The outline of what is chosen.
const CHOSEN: Stroke = Stroke::new(Ink::Accent, LineWeight::Heavy);

/// Radius of the ring by which a hand tilts the chosen axis, mm.
const HANDLE: f64 = 1.2;

/// The ring by which a hand moves the apex of the chosen site, beside the sleeve, where an upright
/// axis too can be taken hold of.
fn handle_symbol(part: &mut Drawing, apex: Point, handle: Point, texts: &Texts) {
    let thin = Stroke::new(Ink::Accent, LineWeight::Thin);
    let way = (handle - apex).unit();
    part.line(apex, handle - way * HANDLE, thin.dashed(Dash::Dotted));
    let ring = Stroke::new(Ink::Accent, LineWeight::Medium);
    part.circle(handle, HANDLE, Paint::both(Ink::Ground, ring));
    let place = handle + at(0.0, HANDLE + 1.0);
    let style = TextStyle::CAPTION.inked(Ink::Accent);
    let word = texts.get("chart-apex-handle", &[]);
    part.text(place, (Across::Middle, Along::Top), style, word);
}

/// Reach of a pin's cross beyond its disc, mm.
const PIN_ARM: f64 = 0.9;

/// A pin as a disc with a cross through it that reaches to `radius`.
fn pin_symbol(part: &mut Drawing, centre: Point, radius: f64) {
    let disc = Paint::both(Ink::Metal, Stroke::OUTLINE);
    part.circle(centre, radius - PIN_ARM, disc);
    for way in [at(radius, 0.0), at(0.0, radius)] {
        part.line(centre - way, centre + way, Stroke::THIN);
    }
}

/// Scale, key and remarks under the arch.
fn foot(
    drawing: &mut Drawing,
    scene: &Scene,
    view: &View,
    bottom: f64,
    width: f64,
    options: &ArchOptions<'_>,
) {
    let texts = options.texts;
    let mut y = bottom + AROUND;
    if scene.fidelity == Fidelity::ToScale {
        let middle = view.room.centre().x;
        y += furniture::scale_bar(drawing, 10, view.scale, middle, y) + AROUND;
    }
    let looks = ToothLook::of_all(scene);
    y += furniture::key(drawing, texts, &looks, y, view.room.left, width);
    if options.arches == Arches::Both {
        let remark = texts.get("chart-arch-other-jaw", &[]);
        furniture::remark(drawing, &remark, y, view.room.left, width);
    }
}
