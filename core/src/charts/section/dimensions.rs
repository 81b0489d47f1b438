//! The chain of lengths that leads to the setting, to the left of the picture.

use super::picture::Picture;
use super::structures::Place;
use crate::drawing::{DimensionStack, Drawing, Side, Span, TextStyle};
use crate::measure::Length;
use crate::number::exact;
use crate::plan::StepPath;
use crate::wording::readable;

/// Collects the dimensions of a picture.
struct Chain<'p, 'a, 'c> {
    picture: &'p Picture<'a, 'c>,
    stack: DimensionStack,
}

/// All dimensions but the setting. What is not known has none.
pub(super) fn dimensions(picture: &Picture<'_, '_>) -> Drawing {
    let mut chain = Chain {
        picture,
        stack: DimensionStack::new(Side::Left, picture.body().left),
    };
    chain.above_platform();
    chain.below_platform();
    chain.stack.draw()
}

impl Chain<'_, '_, '_> {
    /// A dimension between two heights, each with the half width of what it belongs to.
    fn add(&mut self, ends: [(f64, f64); 2], label: String, note: &str) {
        let frame = self.picture.frame;
        let mut ends = ends.map(|(above, half)| (frame.y(above), frame.x(-half)));
        if ends[0].0 > ends[1].0 {
            ends.swap(0, 1);
        }
        let span = Span::new(ends[0].0, ends[1].0, label, TextStyle::BODY);
        self.stack.add(Span {
            reach: [Some(ends[0].1), Some(ends[1].1)],
            ..span.noted(self.picture.facts.word(note))
        });
    }

    fn above_platform(&mut self) {
        let picture = self.picture;
        let facts = picture.facts;
        let levels = &picture.levels;
        let left = picture.left;
        let step = facts.step;
        if let Some((low, rim)) = levels.sleeve.zip(levels.rim) {
            let outer = facts.master.outer_diameter_mm.mm() / 2.0;
            if let Some(sleeve) = step.and_then(|step| step.sleeve) {
                let above = sleeve.seat_above_rim_mm;
                let flange = sleeve.flange_diameter_mm.mm() / 2.0;
                if above != Length::ZERO {
                    self.add(
                        [(rim, outer), (rim + above.mm(), flange)],
                        exact(above),
                        "section-seat",
                    );
                }
            }
            let height = exact(facts.master.height_mm);
            self.add([(low, outer), (rim, outer)], height, "section-master");
            if let Some(distance) = facts.section.site.distance.length() {
                let label = exact(distance);
                self.add([(0.0, left), (low, outer)], label, "section-distance");
            }
        }
        let freehand = step.filter(|step| step.sheet.path == StepPath::Freehand);
        if let Some(crest) = freehand.and_then(|step| step.sheet.seat.length())
            && crest != Length::ZERO
        {
            let label = exact(crest);
            self.add(
                [(0.0, left), (crest.mm(), left)],
                label,
                "section-crest-height",
            );
        }
    }

    fn below_platform(&mut self) {
        let picture = self.picture;
        let left = picture.left;
        let step = picture.facts.step;
        if let (Some(tip), Some(cut)) = (
            picture.levels.tip,
            step.and_then(|step| step.sheet.cut.length()),
        ) && cut != Length::ZERO
        {
            self.add([(0.0, left), (tip, 0.0)], exact(cut), "section-cut");
        }
        for structure in &picture.facts.structures {
            // A floor is drawn up to the edge; an extension line over it would hide it.
            let (near, reach) = match structure.place {
                Place::Canal(near) => (near, 0.0),
                Place::Floor(near) => (near, left),
                Place::Beside { .. } | Place::Nowhere => continue,
            };
            // On a tilted site the margin is not a length along the axis.
            let upright = picture.facts.tilt.is_none() && picture.shows(structure.place);
            let margin = structure.finding.length_value();
            if let (true, Some(margin), Some(deepest)) = (upright, margin, picture.levels.deepest) {
                let label = exact(readable(structure.finding, margin));
                self.add(
                    [(deepest, 0.0), (near.on_axis, reach)],
                    label,
                    "section-margin",
                );
            }
        }
    }
}
