//! Deep structures near the site.

use super::SiteForm;
use super::common::begun;
use super::list::{ItemForm, Listed};
use crate::field::{InCase, New};
use crate::look::caption;
use crate::view::form::{FormSubject, Number, entry};
use crate::view::site::Context;
use crate::view::site::here::Here;
use crate::view::site::state::{StructureBegun, StructurePlace};
use traywright_core::case::{
    Direction, HeightDatum, MeasuredAt, Site, Structure, StructureExtent, StructureKind,
};
use traywright_core::measure::Length;

const BELOW: InCase = InCase("sites[].structures[].extent.height_mm");
const BESIDE: InCase = InCase("sites[].structures[].extent.from_axis_mm");

/// How far the canal loops forward of the mental foramen.
const LOOP: Number<Structure, Length> = Number {
    entry: entry("site-structure-loop", "loop", Structure::CHANGED),
    place: InCase("sites[].structures[].extent.anterior_loop_mm"),
    get: |structure| match structure.extent {
        StructureExtent::Beside {
            anterior_loop_mm, ..
        } => anterior_loop_mm,
        StructureExtent::Below { .. } => None,
    },
    set: |structure, new| {
        if let StructureExtent::Beside {
            anterior_loop_mm, ..
        } = &mut structure.extent
        {
            *anterior_loop_mm = new;
        }
    },
};

impl Listed for Structure {
    const TITLE: &'static str = "site-structures-title";
    const ABOUT: Option<&'static str> = None;
    const KEY: &'static str = "structure";
    const HEAD: Option<&'static str> = Some("structures");
    const CHANGED: &'static str = "site-what-structure";
    const REMOVED: &'static str = "site-what-structure-removed";

    fn list(site: &Site) -> &[Self] {
        &site.structures
    }

    fn list_mut(site: &mut Site) -> &mut Vec<Self> {
        &mut site.structures
    }

    fn name(&self, here: &Here<'_>) -> String {
        here.formatter.structure(self.kind)
    }

    fn measured_at(&mut self) -> &mut MeasuredAt {
        &mut self.measured_at
    }

    fn fields(form: &mut ItemForm<'_, '_, '_, '_, Self>) {
        let structure = form.thing();
        match structure.extent {
            StructureExtent::Below {
                height_mm,
                from,
                direction,
            } => below(form, height_mm, from, direction),
            StructureExtent::Beside { from_axis_mm, .. } => {
                form.measured(
                    "site-structure-beside",
                    "beside",
                    (from_axis_mm, BESIDE),
                    |structure, new| {
                        if let StructureExtent::Beside { from_axis_mm, .. } = &mut structure.extent
                        {
                            *from_axis_mm = new;
                        }
                    },
                );
                if structure.kind == StructureKind::MentalForamen {
                    form.declared(&LOOP);
                }
                form.down_to(&structure.measured_at);
            }
        }
        let source = entry("site-structure-source", "source", Self::CHANGED);
        form.label(source, structure.source.as_ref(), |structure, new| {
            structure.source = new;
        });
    }
}

fn below(
    form: &mut ItemForm<'_, '_, '_, '_, Structure>,
    height_mm: Length,
    from: HeightDatum,
    direction: Direction,
) {
    form.measured(
        "site-structure-height",
        "height",
        (height_mm, BELOW),
        |structure, new| {
            if let StructureExtent::Below { height_mm, .. } = &mut structure.extent {
                *height_mm = new;
            }
        },
    );
    let (datums, directions) = (datums(form.cx), directions(form.cx));
    let asked = entry("site-structure-from", "from", Structure::CHANGED);
    form.pick(asked, &from, &datums, |structure, new| {
        if let StructureExtent::Below { from, .. } = &mut structure.extent {
            *from = new;
        }
    });
    let asked = entry("site-structure-direction", "direction", Structure::CHANGED);
    form.pick(asked, &direction, &directions, |structure, new| {
        if let StructureExtent::Below { direction, .. } = &mut structure.extent {
            *direction = new;
        }
    });
}

fn datums(cx: &Context<'_>) -> [(HeightDatum, String); 2] {
    [
        (HeightDatum::Platform, "site-from-platform"),
        (HeightDatum::Crest, "site-from-crest"),
    ]
    .map(|(datum, id)| (datum, cx.word(id)))
}

fn directions(cx: &Context<'_>) -> [(Direction, String); 2] {
    [
        (Direction::AlongAxis, "site-along-axis"),
        (Direction::Vertical, "site-vertical"),
    ]
    .map(|(direction, id)| (direction, cx.word(id)))
}

/// A new structure. Nothing of where its height starts and how it was measured is taken for
/// granted; it is taken once all is there. Its fields have their places from the first.
pub(super) fn add(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let there = |kind: &StructureKind| here.site.structures.iter().any(|s| s.kind == *kind);
    let offered: Vec<_> = StructureKind::of_jaw(here.document.case().jaw)
        .iter()
        .filter(|kind| !there(kind))
        .map(|kind| (*kind, here.formatter.structure(*kind)))
        .collect();
    let begun_kind = form.cx.own.structure.kind;
    let texts = ("site-structure-add", "structures", "site-structure-which");
    if let Some(New(kind)) = form.open_choice(texts, begun_kind.as_ref(), &offered) {
        form.cx.own.structure = StructureBegun {
            kind,
            ..StructureBegun::default()
        };
    }
    let sides = [
        (StructurePlace::Below, "site-lies-below"),
        (StructurePlace::Beside, "site-lies-beside"),
    ]
    .map(|(lies, id)| (lies, form.word(id)));
    // Only beside the site does the foramen have its loop, and what runs beside an implant is told by nothing else.
    let is_beside = begun_kind.is_some_and(|kind| match kind {
        StructureKind::MentalForamen
        | StructureKind::NasopalatineCanal
        | StructureKind::SinusAnteriorWall => true,
        StructureKind::MandibularCanal
        | StructureKind::IncisiveCanal
        | StructureKind::SinusFloor
        | StructureKind::NasalFloor => false,
    });
    let sides = &sides[usize::from(is_beside)..];
    let texts = ("site-structure-lies", "structure-lies", "site-lies-which");
    let lies = form.enabled(begun_kind.is_some(), |form| {
        begun(form, texts, |state| &mut state.structure.side, sides)
    });
    let extent = extent(form, lies.filter(|_| begun_kind.is_some()));
    if let Some((kind, extent)) = begun_kind.zip(extent) {
        let first = match extent {
            StructureExtent::Below { .. } => "height",
            StructureExtent::Beside { .. } => "beside",
        };
        let first = format!("structure.{}.{first}", here.site.structures.len());
        form.cx.state.drafts.lead_to(here.key(&first));
        let structure = Structure {
            kind,
            extent,
            measured_at: here.now(),
            source: None,
        };
        form.cx.own.structure = StructureBegun::default();
        form.change("site-what-structure-added", "structure-new", |site| {
            site.structures.push(structure);
        });
    }
}

/// Where a new structure is, once that is known: from where and in which direction is asked for below the site
/// only, the length for both.
fn extent(
    form: &mut SiteForm<'_, '_, '_>,
    lies: Option<StructurePlace>,
) -> Option<StructureExtent> {
    let below = lies == Some(StructurePlace::Below);
    let (datums, directions) = (datums(form.cx), directions(form.cx));
    let (from, direction) = form.enabled(below, |form| {
        let texts = ("site-structure-from", "structure-from", "site-from-which");
        let from = begun(form, texts, |state| &mut state.structure.from, &datums);
        let texts = (
            "site-structure-direction",
            "structure-direction",
            "site-direction-which",
        );
        let direction = begun(
            form,
            texts,
            |state| &mut state.structure.direction,
            &directions,
        );
        (from, direction)
    });
    let measured = from.zip(direction).filter(|_| below);
    let (label, place) = if lies == Some(StructurePlace::Beside) {
        ("site-structure-beside", BESIDE)
    } else {
        ("site-structure-height", BELOW)
    };
    let (label, known) = (form.word(label), !below || measured.is_some());
    let new = form.enabled(lies.is_some() && known, |form| {
        form.needed(&label, "structure-new", None, place)
    });
    caption(form.ui, form.cx.word("site-structure-first"));
    match (new?, measured) {
        (height_mm, Some((from, direction))) => Some(StructureExtent::Below {
            height_mm,
            from,
            direction,
        }),
        (from_axis_mm, None) => Some(StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm: None,
        }),
    }
}
