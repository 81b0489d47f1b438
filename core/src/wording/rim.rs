//! The edge that a mark or a carrier's line has to be level with.

use super::Formatter;
use crate::kit::DrillSleeveId;
use crate::plan::{Edge, InsertionSheet, StepPath, StepSheet, TermName};

impl Formatter<'_> {
    /// The rim, or the point of the crest, with which a step's mark has to be level.
    pub(super) fn rim_of_step(&self, sheet: &StepSheet) -> String {
        match (sheet.path, &sheet.sleeve) {
            (StepPath::Freehand, _) => self.word(if is_in_socket(sheet) {
                "rim-socket"
            } else {
                "rim-crest"
            }),
            (StepPath::DrillSleeve, Some(sleeve)) => self.rim_of_sleeve(sleeve),
            (StepPath::DrillSleeve | StepPath::MasterSleeve, _) => self.word("rim-master-sleeve"),
        }
    }

    /// The rim with which the carrier's line has to be level.
    pub(super) fn rim_of_insertion(&self, sheet: &InsertionSheet) -> String {
        match &sheet.sleeve {
            Some(sleeve) => self.rim_of_sleeve(sleeve),
            None => self.word("rim-master-sleeve"),
        }
    }

    fn rim_of_sleeve(&self, sleeve: &DrillSleeveId) -> String {
        self.text(
            "rim-drill-sleeve",
            &[("sleeve", &self.drill_sleeve(sleeve))],
        )
    }

    /// Until when a step that has no stop is drilled: its mark level with a rim, or with the crest.
    /// Nothing where a stop is used, or no mark fits.
    #[must_use]
    pub fn until_level(&self, sheet: &StepSheet) -> Option<String> {
        let mark = sheet.mark.as_ref()?;
        let id = match mark.edge {
            Edge::Line => "until-level-line",
            Edge::Lower => "until-level-lower",
            Edge::Upper => "until-level-upper",
        };
        let rim = self.rim_of_step(sheet);
        Some(self.text(id, &[("mark", mark.name.as_str()), ("rim", &rim)]))
    }
}

/// True if a freehand step counts from the rim of a fresh socket.
fn is_in_socket(sheet: &StepSheet) -> bool {
    let mut terms = sheet.seat.terms.iter();
    terms.any(|term| term.name == TermName::SocketRimAbovePlatform)
}
