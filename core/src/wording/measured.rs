//! Measured values by name: walls, neighbours, structures and the heights they are measured at.

use super::Formatter;
use crate::case::{DistanceTo, Height, WallSide};

impl Formatter<'_> {
    /// A wall at a height, in the words of the case's jaw: "lingual, at the crest".
    #[must_use]
    pub fn wall_at(&self, side: WallSide, height: Height) -> String {
        let side = self.wall_side(side);
        let height = self.height(height);
        self.text("measured-at", &[("what", &side), ("height", &height)])
    }

    /// The end of a distance: a tooth, or "implant at" another site.
    #[must_use]
    pub fn distance_neighbour(&self, to: &DistanceTo) -> String {
        match to {
            DistanceTo::Tooth { position } => self.tooth(*position),
            DistanceTo::Site { site } => {
                self.text("measured-to-site", &[("site", &self.site(site))])
            }
        }
    }

    /// A distance by what it leads to and its height: "lower right second premolar (45), at the
    /// crest".
    #[must_use]
    pub fn distance_to(&self, to: &DistanceTo, height: Height) -> String {
        let what = self.distance_neighbour(to);
        let height = self.height(height);
        self.text("measured-at", &[("what", &what), ("height", &height)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::StructureKind;
    use crate::dentition::Notation;
    use crate::samples::{demo, demo_case};

    #[test]
    fn measured_values_are_named_in_the_words_of_the_jaw() {
        let lower = demo_case(demo::TWO_MOLARS);
        let formatter = Formatter::english(&lower, Notation::Iso);
        let wall = formatter.wall_at(WallSide::Oral, Height::Apex);
        assert_eq!(wall, "lingual, at the apex");
        let tooth = DistanceTo::Tooth {
            position: "45".parse().unwrap(),
        };
        assert_eq!(
            formatter.distance_to(&tooth, Height::Crest),
            "lower right second premolar (45), at the crest"
        );
        let site = DistanceTo::Site {
            site: lower.sites[0].id.clone(),
        };
        let named = formatter.distance_neighbour(&site);
        assert_eq!(
            named,
            format!("implant at {}", formatter.site(&lower.sites[0].id))
        );
        let canal = formatter.structure(StructureKind::MandibularCanal);
        assert_eq!(canal, "mandibular canal");
    }
}
