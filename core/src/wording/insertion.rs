//! Insertion of the implant, and the results of neighbouring choices.

use super::Formatter;
use crate::case::SleeveFace;
use crate::kit::{CarrierId, Label, SiteId};
use crate::measure::Length;
use crate::number::mm;
use crate::plan::{FinalDepth, FittingDistance, InsertionSheet, Known, Reason, ShorterImplant};
use std::cmp::Ordering;

impl Formatter<'_> {
    /// The carrier's line to use and where it leaves the implant; without a sheet the implant goes
    /// in freehand.
    #[must_use]
    pub fn insertion(&self, sheet: Option<&InsertionSheet>) -> String {
        let Some(sheet) = sheet else {
            return self.word("insertion-freehand");
        };
        let ids = ["insertion-exact", "insertion-short", "insertion-not-to"];
        self.insertion_in(sheet, None, ids)
    }

    /// The same in fewer words; `carried` names carrier and sleeve with their slots, where they have such.
    #[must_use]
    pub fn insertion_by(&self, sheet: &InsertionSheet, carried: Option<String>) -> String {
        let ids = ["insertion-by", "insertion-by-short", "insertion-by-not-to"];
        self.insertion_in(sheet, carried, ids)
    }

    /// As planned, shallower, and the line that is not meant.
    fn insertion_in(
        &self,
        sheet: &InsertionSheet,
        carried: Option<String>,
        [exact, shallower, not_to]: [&str; 3],
    ) -> String {
        let (Some(carrier), Some(line), Some(shallow)) =
            (&sheet.carrier, &sheet.line, sheet.shallow.length())
        else {
            let reasons = self.reasons(sheet.shallow.value.reasons());
            let reasons = reasons.unwrap_or_default();
            return self.text("insertion-unknown", &[("reasons", &reasons)]);
        };
        let beware = self.deeper_line(carrier, line, not_to);
        let carrier = carried.unwrap_or_else(|| self.carrier(carrier));
        let rim = self.rim_of_insertion(sheet);
        let args = [
            ("carrier", carrier.as_str()),
            ("line", line.as_str()),
            ("rim", &rim),
        ];
        let said = if shallow == Length::ZERO {
            self.text(exact, &args)
        } else {
            let [carrier, line, rim] = args;
            let size = mm(shallow);
            self.text(shallower, &[carrier, line, rim, ("size", &size)])
        };
        match beware {
            Some(beware) => format!("{said} {beware}"),
            None => said,
        }
    }

    /// The carrier's next line that would let the implant go deeper, and by how much.
    fn deeper_line(&self, carrier: &CarrierId, line: &Label, id: &str) -> Option<String> {
        let lines = &self.case.kit.carrier(carrier)?.lines;
        let own = lines.iter().find(|one| one.name == *line)?;
        let deeper = lines
            .iter()
            .filter(|one| one.above_platform_mm > own.above_platform_mm)
            .min_by_key(|one| one.above_platform_mm)?;
        let size = mm(deeper.above_platform_mm - own.above_platform_mm);
        let args = [("line", deeper.name.as_str()), ("size", &*size)];
        Some(self.text(id, &args))
    }

    /// Final depth of the platform of an implant that goes in freehand.
    #[must_use]
    pub fn final_depth(&self, depth: &FinalDepth) -> String {
        let Some(coronal) = &depth.below_coronal else {
            return match depth.below_apical.known_length() {
                Known::Unknown(reasons) => self.final_depth_unknown(&reasons),
                Known::Is(below) => {
                    let against = self.against_crest(below, "socket");
                    let said = self.text("final-depth-socket", &[("against", &against)]);
                    self.with_confirmed(said, [&depth.below_apical])
                }
            };
        };
        let figures = [coronal, &depth.below_apical];
        let coronal = coronal.known_length();
        match coronal.and(depth.below_apical.known_length()) {
            Known::Unknown(reasons) => self.final_depth_unknown(&reasons),
            Known::Is((coronal, apical)) => {
                let coronal = self.against_crest(coronal, "coronal");
                let apical = self.against_crest(apical, "apical");
                let args = [("coronal", coronal.as_str()), ("apical", &apical)];
                self.with_confirmed(self.text("final-depth", &args), figures)
            }
        }
    }

    fn final_depth_unknown(&self, reasons: &[Reason]) -> String {
        let reasons = self.reasons(reasons).unwrap_or_default();
        self.text("final-depth-unknown", &[("reasons", &reasons)])
    }

    /// Height of the platform against one point of the crest, or the rim of a socket.
    fn against_crest(&self, below: Length, point: &str) -> String {
        let way = match below.cmp(&Length::ZERO) {
            Ordering::Less => "coronal",
            Ordering::Equal => "level",
            Ordering::Greater => "apical",
        };
        let point = self.word(&format!("final-depth-point-{point}"));
        let id = format!("final-depth-{way}");
        let size = mm(below.abs());
        if way == "level" {
            return self.text(&id, &[("point", &point)]);
        }
        self.text(&id, &[("size", &size), ("point", &point)])
    }

    /// The head over the next shorter implant's settings.
    #[must_use]
    pub fn shorter(&self, shorter: &ShorterImplant) -> String {
        let implant = self.implant(&shorter.implant);
        self.text("shorter", &[("implant", &implant)])
    }

    /// A distance at which fixed stops fit, counted to the face that the site's own was given to.
    #[must_use]
    pub fn fitting_distance(&self, site: &SiteId, offer: &FittingDistance) -> String {
        let entered = self
            .case
            .site(site.as_str())
            .and_then(|site| site.platform_to_sleeve);
        let (distance, face) = match entered.map(|entry| entry.to) {
            Some(SleeveFace::Coronal) => (offer.as_entered_mm, "face-coronal"),
            Some(SleeveFace::Apical) | None => (offer.apical_mm, "face-apical"),
        };
        let (distance, face) = (mm(distance), self.word(face));
        if offer.shortfall == Length::ZERO {
            return self.text("fitting-all", &[("distance", &distance), ("face", &face)]);
        }
        self.counted(
            "fitting-some",
            &[("exact", offer.exact_steps)],
            &[
                ("distance", &distance),
                ("face", &face),
                ("shortfall", &mm(offer.shortfall)),
            ],
        )
    }
}
