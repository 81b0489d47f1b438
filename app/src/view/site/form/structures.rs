//! Deep structures near the site.

use super::common::{
    down_to, field_of, hint, length, length_of, pick_of, pick_open, remove, stale, title,
};
use crate::field::{self, Bounds, New};
use crate::view::site::here::Here;
use crate::view::site::state::{Lies, StructureBegun};
use crate::window::ViewContext;
use egui::{RichText, Ui};
use traywright_core::case::{Direction, HeightDatum, Structure, StructureExtent, StructureKind};
use traywright_core::dentition::Jaw;
use traywright_core::measure::Length;

fn below() -> Bounds<Length> {
    Bounds::needed(Length::from_mm(-10), Length::from_mm(60))
}

fn beside() -> Bounds<Length> {
    Bounds::needed(Length::ZERO, Length::from_mm(60))
}

/// Shows the part. `stale` says for each structure whether it is.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, stale: &[bool]) {
    title(ui, &cx.word("site-structures-title"));
    for (n, structure) in here.site.structures.iter().enumerate() {
        one(ui, cx, here, n, structure, stale.get(n) == Some(&true));
    }
    add(ui, cx, here);
}

fn one(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    structure: &Structure,
    is_stale: bool,
) {
    let what = here.formatter.structure_word(structure.kind);
    ui.horizontal(|ui| {
        ui.label(RichText::new(&what).strong());
        if remove(ui, cx, &what) {
            here.change(cx, "site-what-structure-removed", "structures", |site| {
                site.structures.remove(n);
            });
        }
    });
    match structure.extent {
        StructureExtent::Below {
            height_mm,
            from,
            direction,
        } => {
            let set = |cx: &mut ViewContext<'_>, field: &str, extent, measured| {
                change_extent(cx, here, n, field, extent, measured);
            };
            let label = cx.word("site-structure-height");
            let field = format!("structure.{n}.height");
            let value = Some(height_mm);
            if let Some(New(Some(height_mm))) =
                length_of(ui, cx, here, &what, (&label, &field), value, below())
            {
                let extent = StructureExtent::Below {
                    height_mm,
                    from,
                    direction,
                };
                set(cx, &field, extent, Measured::Now);
            }
            let field = format!("structure.{n}.from");
            let texts = ("site-structure-from", field.as_str());
            if let Some(from) = pick_of(ui, cx, here, &what, texts, &from, &datums(cx)) {
                let extent = StructureExtent::Below {
                    height_mm,
                    from,
                    direction,
                };
                set(cx, &field, extent, Measured::Then);
            }
            let field = format!("structure.{n}.direction");
            let texts = ("site-structure-direction", field.as_str());
            if let Some(direction) =
                pick_of(ui, cx, here, &what, texts, &direction, &directions(cx))
            {
                let extent = StructureExtent::Below {
                    height_mm,
                    from,
                    direction,
                };
                set(cx, &field, extent, Measured::Then);
            }
        }
        StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        } => beside_ui(
            ui,
            cx,
            here,
            n,
            structure.kind,
            from_axis_mm,
            anterior_loop_mm,
        ),
    }
    if matches!(structure.extent, StructureExtent::Beside { .. }) {
        let field = format!("structure.{n}.down_to");
        if let Some(then) = down_to(ui, cx, here, (&what, &field), structure.measured_at) {
            here.change(cx, "site-what-structure", &field, |site| {
                site.structures[n].measured_at = then;
            });
        }
    }
    source_ui(ui, cx, here, n, structure);
    if is_stale && stale(ui, cx, &what) {
        let now = here.still(&structure.measured_at);
        here.change(cx, "site-what-confirmed", "structures", |site| {
            site.structures[n].measured_at = now;
        });
    }
}

/// The source of its measurement.
fn source_ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    structure: &Structure,
) {
    let what = here.formatter.structure_word(structure.kind);
    let field = format!("structure.{n}.source");
    let key = here.key(&field);
    let source = structure.source.as_ref();
    let label = cx.word("site-structure-source");
    let name = field_of(cx, &what, &label);
    let new = field::row(ui, &label, |ui, _| {
        let named = field::unseen_name(ui, &key, &name);
        field::label(ui, &mut cx.state.drafts, &key, named, source)
    });
    if let Some(New(new)) = new {
        here.change(cx, "site-what-structure", &field, |site| {
            site.structures[n].source = new;
        });
    }
}

/// The meaning of a change of an entry: a new measurement, or a correction of the old one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measured {
    Now,
    Then,
}

fn change_extent(
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    field: &str,
    extent: StructureExtent,
    measured: Measured,
) {
    let now = here.now();
    here.change(cx, "site-what-structure", field, |site| {
        let structure = &mut site.structures[n];
        structure.extent = extent;
        if measured == Measured::Now {
            structure.measured_at = now;
        }
    });
}

fn beside_ui(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    kind: StructureKind,
    from_axis_mm: Length,
    anterior_loop_mm: Option<Length>,
) {
    let what = here.formatter.structure_word(kind);
    let label = cx.word("site-structure-beside");
    let field = format!("structure.{n}.beside");
    let value = Some(from_axis_mm);
    if let Some(New(Some(from_axis_mm))) =
        length_of(ui, cx, here, &what, (&label, &field), value, beside())
    {
        let extent = StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        };
        change_extent(cx, here, n, &field, extent, Measured::Now);
    }
    if kind != StructureKind::MentalForamen {
        return;
    }
    let label = cx.word("site-structure-loop");
    let field = format!("structure.{n}.loop");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(20));
    let new = length_of(
        ui,
        cx,
        here,
        &what,
        (&label, &field),
        anterior_loop_mm,
        bounds,
    );
    if let Some(New(anterior_loop_mm)) = new {
        let extent = StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        };
        change_extent(cx, here, n, &field, extent, Measured::Then);
    }
}

fn datums(cx: &ViewContext<'_>) -> [(HeightDatum, String); 2] {
    [
        (HeightDatum::Platform, "site-from-platform"),
        (HeightDatum::Crest, "site-from-crest"),
    ]
    .map(|(datum, id)| (datum, cx.word(id)))
}

fn directions(cx: &ViewContext<'_>) -> [(Direction, String); 2] {
    [
        (Direction::AlongAxis, "site-along-axis"),
        (Direction::Vertical, "site-vertical"),
    ]
    .map(|(direction, id)| (direction, cx.word(id)))
}

/// Structures of a jaw.
const fn kinds(jaw: Jaw) -> &'static [StructureKind] {
    match jaw {
        Jaw::Lower => &[
            StructureKind::MandibularCanal,
            StructureKind::MentalForamen,
            StructureKind::IncisiveCanal,
        ],
        Jaw::Upper => &[
            StructureKind::SinusFloor,
            StructureKind::SinusAnteriorWall,
            StructureKind::NasalFloor,
            StructureKind::NasopalatineCanal,
        ],
    }
}

/// A new structure. Nothing of where its height starts and how it was measured is taken for
/// granted; it is taken once all is there.
fn add(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let there = |kind: &StructureKind| here.site.structures.iter().any(|s| s.kind == *kind);
    let offered: Vec<_> = kinds(here.document.case().jaw)
        .iter()
        .filter(|kind| !there(kind))
        .map(|kind| (*kind, here.formatter.structure_word(*kind)))
        .collect();
    let begun = cx.state.site_view.structure;
    let texts = ("site-structure-add", "structures", "site-structure-which");
    if let Some(New(new)) = pick_open(ui, cx, here, texts, begun.kind.as_ref(), &offered) {
        cx.state.site_view.structure = StructureBegun {
            kind: new,
            ..StructureBegun::default()
        };
    }
    let Some(kind) = begun.kind else { return };
    let sides = [
        (Lies::Below, "site-lies-below"),
        (Lies::Beside, "site-lies-beside"),
    ]
    .map(|(lies, id)| (lies, cx.word(id)));
    let texts = ("site-structure-lies", "structure-lies", "site-lies-which");
    if let Some(New(new)) = pick_open(ui, cx, here, texts, begun.side.as_ref(), &sides) {
        cx.state.site_view.structure.side = new;
    }
    let extent = match begun.side {
        None => return,
        Some(Lies::Below) => new_below(ui, cx, here, begun),
        Some(Lies::Beside) => {
            let label = cx.word("site-structure-beside");
            let texts = (label.as_str(), "structure-new");
            let new = length(ui, cx, here, texts, None, beside());
            new.and_then(|New(new)| new)
                .map(|from_axis_mm| StructureExtent::Beside {
                    from_axis_mm,
                    anterior_loop_mm: None,
                })
        }
    };
    if let Some(extent) = extent {
        let structure = Structure {
            kind,
            extent,
            measured_at: here.now(),
            source: None,
        };
        cx.state.site_view.structure = StructureBegun::default();
        here.change(cx, "site-what-structure-added", "structure-new", |site| {
            site.structures.push(structure);
        });
    }
}

fn new_below(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    begun: StructureBegun,
) -> Option<StructureExtent> {
    let texts = ("site-structure-from", "structure-from", "site-from-which");
    let offered = datums(cx);
    if let Some(New(new)) = pick_open(ui, cx, here, texts, begun.from.as_ref(), &offered) {
        cx.state.site_view.structure.from = new;
    }
    let texts = (
        "site-structure-direction",
        "structure-direction",
        "site-direction-which",
    );
    let offered = directions(cx);
    if let Some(New(new)) = pick_open(ui, cx, here, texts, begun.direction.as_ref(), &offered) {
        cx.state.site_view.structure.direction = new;
    }
    let (Some(from), Some(direction)) = (begun.from, begun.direction) else {
        hint(ui, &cx.word("site-structure-first"));
        return None;
    };
    let label = cx.word("site-structure-height");
    let texts = (label.as_str(), "structure-new");
    let new = length(ui, cx, here, texts, None, below());
    new.and_then(|New(new)| new)
        .map(|height_mm| StructureExtent::Below {
            height_mm,
            from,
            direction,
        })
}
