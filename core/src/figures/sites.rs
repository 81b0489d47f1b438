//! Sites and steps as plain data.

use super::explain::{Explained, explained};
use super::{Detail, Unknown, take};
use crate::kit::DepthRule;
use crate::measure::{Angle, Length};
use crate::plan::{
    Edge, Figure, Fits, InsertionSheet, Known, MarkEdge, Play, Quantity, SiteSheet, StepSheet,
};
use crate::wording::Formatter;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// One site.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SiteFigures {
    /// Its id.
    pub id: String,
    /// The tooth that it replaces, by ISO 3950.
    pub tooth: String,
    /// Its implant.
    pub implant: String,
    /// The worst severity of its findings.
    pub worst: String,
    /// From the platform to the master sleeve's apical face.
    pub distance_mm: Option<Length>,
    /// Deepest point of all cuts below the platform, tips included.
    pub deepest_cut_mm: Option<Length>,
    /// From the first guided step's seat down to the crest; also null where there is nothing to
    /// sound.
    pub sounding_mm: Option<Length>,
    /// Its steps, in order.
    pub steps: Vec<StepFigures>,
    /// The way in which the implant goes in; null where it goes in freehand.
    pub insertion: Option<InsertionFigures>,
    /// Depth at which the platform of an implant that goes in freehand is to end: apical of the
    /// most coronal point of the crest, negative coronal of it; also null where the guide leads it.
    pub final_below_coronal_mm: Option<Length>,
    /// The same from the most apical point of the crest.
    pub final_below_apical_mm: Option<Length>,
    /// The next shorter implant's settings.
    pub next_shorter: Option<ShorterFigures>,
    /// Distances at which fixed stops fit exactly, the best first.
    pub fitting_distances: Vec<FittingFigures>,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
    /// Derivation of the site's own figures, by key, where that was asked for.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(default)]
    pub explain: BTreeMap<String, Explained>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepFigures {
    /// Its id.
    pub id: String,
    /// Its drill.
    pub drill: String,
    /// Its drill sleeve.
    pub sleeve: Option<String>,
    /// Its stop.
    pub stop: Option<String>,
    /// `drill_sleeve`, `master_sleeve` or `freehand`.
    pub path: String,
    /// The depth to go to.
    pub depth: DepthRule,
    /// From the platform up to the face that the stop lands on.
    pub seat_mm: Option<Length>,
    /// Depth below the platform, at the drill's datum.
    pub prep_mm: Option<Length>,
    /// From tip to landing face, before any graduation.
    pub exact_mm: Option<Length>,
    /// From tip to landing face, as it can be set.
    pub set_mm: Option<Length>,
    /// The setting as screen and paper show it.
    pub set_shown: String,
    /// The gauge's figure; also null where the drill's marks are read.
    pub gauge_mm: Option<Length>,
    /// Deepest point below the platform, tip included.
    pub cut_mm: Option<Length>,
    /// Depth given away by rounding, a fixed stop or one common figure.
    pub shortfall_mm: Option<Length>,
    /// With the stop landed or the mark level with its rim, the tip beyond the master sleeve's
    /// apical face; also null where nothing is guided.
    pub bench_mm: Option<Length>,
    /// The mark to read, where no stop is used.
    pub mark: Option<MarkFigures>,
    /// Greatest tilt in the sleeve; also null where nothing is guided.
    pub play_deg: Option<Angle>,
    /// Greatest lateral error at the tip; also null where nothing is guided.
    pub play_at_tip_mm: Option<Length>,
    /// True if it does not fit and nobody accepted that, so that it is not to be set or used; absent where not. What says
    /// how it would be set is null then.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub does_not_fit: bool,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
    /// Derivation of the figures, by key, where that was asked for.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(default)]
    pub explain: BTreeMap<String, Explained>,
}

/// The mark that gives a depth.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MarkFigures {
    /// Its name on the drill.
    pub name: String,
    /// `line`, `lower` or `upper` edge.
    pub edge: String,
}

/// The way in which the implant goes in.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InsertionFigures {
    /// The carrier.
    pub carrier: Option<String>,
    /// The sleeve that it passes; null for the master sleeve.
    pub sleeve: Option<String>,
    /// From the platform up to the face that the carrier's line must meet.
    pub seat_mm: Option<Length>,
    /// The carrier's line to use.
    pub line: Option<String>,
    /// How much shallower than planned the implant stays.
    pub shallow_mm: Option<Length>,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
}

/// The next shorter implant's settings.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShorterFigures {
    /// The implant.
    pub implant: String,
    /// Its settings, in the order of the site's steps.
    pub set_mm: Vec<Option<Length>>,
    /// The findings about things that do not fit with it, or are not known to; the steps concerned
    /// have no setting.
    pub unfit: Vec<String>,
}

/// A distance at which fixed stops fit exactly.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FittingFigures {
    /// The distance to the master sleeve's apical face.
    pub apical_mm: Length,
    /// The same in the way in which the site's distance was entered.
    pub as_entered_mm: Length,
    /// Number of steps with fixed stops that fit exactly there.
    pub exact_steps: usize,
    /// Sum of the depths by which the others fall short.
    pub shortfall_mm: Length,
}

/// Gathers values, reasons and explanations under their keys.
pub(super) struct Keyed {
    detail: Detail,
    pub(super) unknown: Unknown,
    pub(super) explain: BTreeMap<String, Explained>,
}

impl Keyed {
    pub(super) const fn new(detail: Detail) -> Self {
        Self {
            detail,
            unknown: Unknown::new(),
            explain: BTreeMap::new(),
        }
    }

    fn quantity(&mut self, key: &str, figure: &Figure) -> Option<Quantity> {
        if self.detail == Detail::Explained {
            self.explain.insert(key.to_owned(), explained(figure));
        }
        take(&figure.value, key, &mut self.unknown)
    }

    pub(super) fn length(&mut self, key: &str, figure: &Figure) -> Option<Length> {
        self.quantity(key, figure).and_then(Quantity::length)
    }

    /// The same of what says how a step's drill is set: nothing where that does not fit.
    pub(super) fn length_to_use(
        &mut self,
        fits: Fits,
        key: &str,
        figure: &Figure,
    ) -> Option<Length> {
        if fits == Fits::No && figure.length().is_some() {
            return None;
        }
        self.length(key, figure)
    }

    /// The length of a figure that counts on the setting, without the derivation that names it where that does not fit.
    fn length_from_setting(&mut self, fits: Fits, key: &str, figure: &Figure) -> Option<Length> {
        match fits {
            Fits::AsFarAsKnown => self.length(key, figure),
            Fits::No => take(&figure.value, key, &mut self.unknown).and_then(Quantity::length),
        }
    }

    fn angle(&mut self, key: &str, figure: &Figure) -> Option<Angle> {
        match self.quantity(key, figure) {
            Some(Quantity::Angle(angle)) => Some(angle),
            _ => None,
        }
    }
}

pub(super) fn site(formatter: &Formatter<'_>, site: &SiteSheet, detail: Detail) -> SiteFigures {
    let mut keyed = Keyed::new(detail);
    SiteFigures {
        id: site.id.to_string(),
        tooth: site.tooth.to_string(),
        implant: site.implant.to_string(),
        worst: site.worst.key().to_owned(),
        distance_mm: keyed.length("distance_mm", &site.distance),
        deepest_cut_mm: keyed.length("deepest_cut_mm", &site.deepest_cut),
        sounding_mm: site
            .sounding
            .as_ref()
            .and_then(|figure| keyed.length("sounding_mm", figure)),
        steps: site
            .steps
            .iter()
            .zip(&site.play)
            .map(|(step_sheet, play)| step(formatter, step_sheet, play.as_ref(), detail))
            .collect(),
        insertion: site.insertion.as_ref().map(insertion),
        final_below_coronal_mm: site.final_depth.as_ref().and_then(|depth| {
            keyed.length("final_below_coronal_mm", depth.below_coronal.as_ref()?)
        }),
        final_below_apical_mm: site
            .final_depth
            .as_ref()
            .and_then(|depth| keyed.length("final_below_apical_mm", &depth.below_apical)),
        next_shorter: site.shorter.as_ref().map(|shorter| ShorterFigures {
            implant: shorter.implant.to_string(),
            set_mm: shorter.steps.iter().map(|s| s.set.length()).collect(),
            unfit: shorter
                .findings
                .iter()
                .map(|finding| formatter.finding(finding).headline)
                .collect(),
        }),
        fitting_distances: site
            .fitting_distances
            .iter()
            .map(|offer| FittingFigures {
                apical_mm: offer.apical_mm,
                as_entered_mm: offer.as_entered_mm,
                exact_steps: offer.exact_steps,
                shortfall_mm: offer.shortfall,
            })
            .collect(),
        unknown: keyed.unknown,
        explain: keyed.explain,
    }
}

fn step(
    formatter: &Formatter<'_>,
    sheet: &StepSheet,
    play: Option<&Play>,
    detail: Detail,
) -> StepFigures {
    let mut keyed = Keyed::new(detail);
    let fits = sheet.fits;
    StepFigures {
        id: sheet.id.to_string(),
        drill: sheet.drill.to_string(),
        sleeve: sheet.sleeve.as_ref().map(ToString::to_string),
        stop: sheet.stop.as_ref().map(ToString::to_string),
        path: sheet.path.key().to_owned(),
        depth: sheet.depth,
        seat_mm: keyed.length("seat_mm", &sheet.seat),
        prep_mm: keyed.length("prep_mm", &sheet.prep),
        exact_mm: keyed.length_to_use(fits, "exact_mm", &sheet.exact),
        set_mm: keyed.length_to_use(fits, "set_mm", &sheet.set),
        set_shown: formatter.setting(sheet),
        gauge_mm: sheet
            .gauge
            .as_ref()
            .and_then(|figure| keyed.length_to_use(fits, "gauge_mm", figure)),
        cut_mm: keyed.length_from_setting(fits, "cut_mm", &sheet.cut),
        shortfall_mm: keyed.length_to_use(fits, "shortfall_mm", &sheet.shortfall),
        bench_mm: sheet
            .bench
            .as_ref()
            .and_then(|figure| keyed.length_to_use(fits, "bench_mm", figure)),
        mark: sheet.mark.as_ref().filter(|_| fits != Fits::No).map(mark),
        play_deg: play.and_then(|play| keyed.angle("play_deg", &play.tilt)),
        play_at_tip_mm: play.and_then(|play| keyed.length("play_at_tip_mm", &play.at_tip)),
        does_not_fit: sheet.fits == Fits::No,
        unknown: keyed.unknown,
        explain: keyed.explain,
    }
}

pub(super) fn mark(mark: &MarkEdge) -> MarkFigures {
    MarkFigures {
        name: mark.name.to_string(),
        edge: match mark.edge {
            Edge::Line => "line",
            Edge::Lower => "lower",
            Edge::Upper => "upper",
        }
        .to_owned(),
    }
}

fn insertion(sheet: &InsertionSheet) -> InsertionFigures {
    let mut unknown = Unknown::new();
    let mut length = |key: &str, known: &Known<Length>| take(known, key, &mut unknown);
    let seat_mm = length("seat_mm", &sheet.seat.known_length());
    let shallow_mm = length("shallow_mm", &sheet.shallow.known_length());
    InsertionFigures {
        carrier: sheet.carrier.as_ref().map(ToString::to_string),
        sleeve: sheet.sleeve.as_ref().map(ToString::to_string),
        seat_mm,
        line: sheet.line.as_ref().map(ToString::to_string),
        shallow_mm,
        unknown,
    }
}
