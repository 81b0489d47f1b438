//! The arch chart by hand and for every case.

mod drawn;
mod properties;
mod screen;

use super::*;
use crate::case::{DecisionKind, NeighbourKind, Tooth, ToothState};
use crate::charts::arch_samples::{
    any_case, bare, measured, mirrored, on_arch, present, site, tooth, with_arch,
};
use crate::dentition::{Jaw, ToothPosition};
use crate::drawing::{Dash, Group, Text};
use crate::measure::Length;
use crate::plan::{AppliedDecision, Severity, Verdict, work_out};
use crate::samples::valid;
use proptest::prelude::*;

fn say(finding: &Finding) -> String {
    format!("{} below the limit of this clearance", finding.rule)
}

fn options(width_mm: f64) -> ArchOptions<'static> {
    ArchOptions {
        width_mm,
        height_mm: None,
        notation: Notation::Iso,
        texts: Texts::english(),
        headline: &say,
        arches: Arches::Own,
        chosen: None,
    }
}

fn chart(case: &Case, options: &ArchOptions<'_>) -> Drawing {
    let case = valid(case.clone());
    arch(&case, &work_out(&case), options)
}

fn groups(drawing: &Drawing) -> Vec<&Group> {
    let each = drawing.items().iter().filter_map(|item| match item {
        Item::Group(group) => Some(group),
        _ => None,
    });
    each.collect()
}

fn group<'a>(drawing: &'a Drawing, id: &str) -> &'a Group {
    let found = groups(drawing).into_iter().find(|group| group.id == id);
    found.unwrap_or_else(|| panic!("no group {id}"))
}

fn bounds(group: &Group) -> Rect {
    Item::Group(group.clone()).bounds().unwrap()
}

/// The outline of a tooth.
fn outline_of(drawing: &Drawing, position: ToothPosition) -> (Rect, Paint) {
    let group = group(drawing, &format!("tooth:{position}"));
    match &group.items[0] {
        Item::Polygon { rings, paint } => (Rect::around(rings[0].iter().copied()).unwrap(), *paint),
        other => panic!("{other:?}"),
    }
}

/// Circles of a group: centre, radius, paint.
fn circles(group: &Group) -> Vec<(Point, f64, Paint)> {
    let each = group.items.iter().filter_map(|item| match item {
        Item::Circle {
            centre,
            radius,
            paint,
        } => Some((*centre, *radius, *paint)),
        _ => None,
    });
    each.collect()
}

/// Centre of a site's implant circle.
fn platform(drawing: &Drawing, id: &str) -> Point {
    let circles = circles(group(drawing, &format!("site:{id}")));
    let implant = circles
        .iter()
        .find(|(.., paint)| paint.fill == Some(Ink::Implant));
    implant.unwrap().0
}

fn scale_of(drawing: &Drawing) -> f64 {
    bounds(group(drawing, "scale-bar")).width() / 10.0
}

fn all_present(jaw: Jaw) -> Case {
    let mut case = with_arch(bare(jaw));
    case.teeth = ToothPosition::all_of(jaw).map(present).collect();
    case
}

fn has_mark(group: &Group, ink: Ink) -> bool {
    let mut found = false;
    let mut drawing = Drawing::new();
    drawing.push(Item::Group(group.clone()));
    drawing.visit(&mut |item, _| {
        let paint = match item {
            Item::Circle { paint, .. } | Item::Polygon { paint, .. } => Some(paint),
            _ => None,
        };
        found |= paint.is_some_and(|paint| paint.fill == Some(ink));
    });
    found
}
