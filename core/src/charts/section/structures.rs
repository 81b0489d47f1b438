//! The deep structures of a site: where each is drawn, and its finding.

use super::Section;
use super::tilt::Tilt;
use crate::case::{
    Direction, HeightDatum, Site, Structure as Entered, StructureExtent, StructureKind,
};
use crate::charts::mark_of;
use crate::charts::words;
use crate::drawing::Mark;
use crate::number::exact;
use crate::plan::{Finding, Quantity, Reason, Rule, Severity, SitePlace};
use crate::wording::{readable, structure};

/// A structure with its finding.
pub(super) struct Structure<'a> {
    /// Its name.
    pub(super) name: String,
    /// The place where it is drawn.
    pub(super) place: Place,
    /// The finding about it.
    pub(super) finding: &'a Finding,
}

/// The place where a structure is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Place {
    /// A round thing below the site.
    Canal(NearSurface),
    /// A floor below the site, with the hollow beyond it.
    Floor(NearSurface),
    /// Something beside the site.
    Beside {
        /// From the axis to its near surface, mm.
        from_axis: f64,
        /// From the axis to the canal's loop, which is nearer, mm, where it was measured.
        loop_mm: Option<f64>,
    },
    /// Nothing says where it is now.
    Nowhere,
}

/// The near surface of something below the site, in the plane of the section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct NearSurface {
    /// Its height above the platform on the axis, mm: below zero for what is below.
    pub(super) on_axis: f64,
    /// Its drop for each millimetre towards the side that the apex leans to.
    pub(super) slope: f64,
    /// The cosine of the angle between axis and vertical where the height is a vertical one.
    pub(super) cos: f64,
}

impl NearSurface {
    /// Its height above the platform so far to the right of the axis, mm.
    pub(super) const fn at(self, aside: f64) -> f64 {
        self.on_axis - aside * self.slope
    }
}

/// All structures of a site that the worksheet says something of.
pub(super) fn structures<'a>(
    section: &Section<'a>,
    site: &Site,
    tilt: Option<&Tilt>,
) -> Vec<Structure<'a>> {
    let findings = section.worksheet.findings.iter().filter(|finding| {
        finding.rule == Rule::DeepStructure && finding.site.as_ref() == Some(&site.id)
    });
    findings
        .filter_map(|finding| {
            let Some(&SitePlace::Structure(kind)) = finding.place.site_place() else {
                return None;
            };
            let entered = site.structures.iter().find(|one| one.kind == kind);
            let name = structure(kind, section.texts);
            let place = entered.map_or(Place::Nowhere, |entered| {
                place(entered, finding, site, tilt)
            });
            Some(Structure {
                name: match place {
                    Place::Beside { .. } => section
                        .texts
                        .get("chart-structure-beside", &[("structure", &name)]),
                    _ => name,
                },
                place,
                finding,
            })
        })
        .collect()
}

fn place(entered: &Entered, finding: &Finding, site: &Site, tilt: Option<&Tilt>) -> Place {
    let mut reasons = finding.value.reasons().iter();
    // Measured elsewhere: even where the margin is known at least, nothing can be drawn.
    if finding.is_at_least() || reasons.any(|reason| matches!(reason, Reason::Stale(..))) {
        return Place::Nowhere;
    }
    match entered.extent {
        StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        } => Place::Beside {
            from_axis: from_axis_mm.mm(),
            loop_mm: anterior_loop_mm.map(crate::measure::Length::mm),
        },
        StructureExtent::Below {
            height_mm,
            from,
            direction,
        } => {
            let datum = match from {
                HeightDatum::Platform => 0.0,
                HeightDatum::Crest => match site.heights_now().platform_below_crest {
                    Some(crest) => crest.highest_mm.mm(),
                    None => return Place::Nowhere,
                },
            };
            // A level plane at a vertical height cuts the axis farther away than that height, and
            // lies nearer on the side that the apex leans away from.
            let near = match (direction, tilt) {
                (Direction::Vertical, Some(tilt)) => {
                    let (sin, cos) = libm::sincos(tilt.radians);
                    NearSurface {
                        on_axis: datum - height_mm.mm() / cos,
                        slope: sin / cos,
                        cos,
                    }
                }
                // Taken for level at a small tilt, where its margin is known.
                (Direction::AlongAxis, Some(tilt)) if finding.length_value().is_some() => {
                    NearSurface {
                        on_axis: datum - height_mm.mm(),
                        slope: libm::tan(tilt.radians),
                        cos: 1.0,
                    }
                }
                _ => NearSurface {
                    on_axis: datum - height_mm.mm(),
                    slope: 0.0,
                    cos: 1.0,
                },
            };
            match entered.kind {
                StructureKind::SinusFloor
                | StructureKind::SinusAnteriorWall
                | StructureKind::NasalFloor => Place::Floor(near),
                StructureKind::MandibularCanal
                | StructureKind::MentalForamen
                | StructureKind::IncisiveCanal
                | StructureKind::NasopalatineCanal => Place::Canal(near),
            }
        }
    }
}

impl Structure<'_> {
    /// Its verdict with figure and limit, or why there is none.
    pub(super) fn words(&self, section: &Section<'_>) -> String {
        let texts = section.texts;
        let limit = self.finding.limit.and_then(Quantity::length);
        let severity = self.finding.severity();
        let verdict = words::severity(severity, texts);
        if let Some((value, limit)) = self.finding.length_value().zip(limit) {
            let value = exact(readable(self.finding, value));
            let limit = exact(limit);
            let args = [
                ("verdict", verdict.as_str()),
                ("value", &value),
                ("limit", &limit),
            ];
            let id = if self.finding.is_at_least() {
                "chart-margin-at-least"
            } else if self.finding.is_at_most() {
                "chart-margin-at-most"
            } else {
                "chart-margin"
            };
            let margin = texts.get(id, &args);
            let by = self.finding.confirmed_by().into_iter().map(str::to_owned);
            let by = by.reduce(|first, rest| {
                texts.get("reasons-joined", &[("first", &first), ("rest", &rest)])
            });
            return match by {
                Some(by) => texts.get("chart-confirmed", &[("what", &margin), ("by", &by)]),
                None => margin,
            };
        }
        let reason = words::reason(self.finding.value.reasons(), texts);
        match severity {
            Severity::Unknown => texts.get("chart-unknown-because", &[("reason", &reason)]),
            _ => texts.get(
                "chart-judged-unknown",
                &[("verdict", &verdict), ("reason", &reason)],
            ),
        }
    }

    /// Its verdict's mark.
    pub(super) fn mark(&self) -> Mark {
        mark_of(self.finding.severity())
    }
}
