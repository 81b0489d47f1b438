//! Places of sites and pins, and states of tooth positions, in words: never a bare sign.

use super::Formatter;
use crate::case::{CasePin, NeighbourKind, Placement, Site, SleeveFace, Tooth, ToothState};
use crate::dentition::Jaw;
use crate::measure::{Angle, Length};
use crate::number::{degrees, mm};

impl Formatter<'_> {
    /// Place of a site: "0.2 mm to mesial, 0.3 mm to buccal", "in the middle of its tooth".
    #[must_use]
    pub fn place(&self, site: &Site) -> String {
        let Placement::OnArch {
            at,
            along_mm,
            buccal_mm,
            ..
        } = site.placement
        else {
            return self.word("place-measured");
        };
        let place = self.offsets(along_mm, buccal_mm);
        if at == site.tooth {
            place
        } else {
            let from = self.tooth(at);
            self.text("place-from", &[("place", &place), ("from", &from)])
        }
    }

    /// Place of a pin: "lower right canine (43), 6.0 mm to buccal".
    #[must_use]
    pub fn pin_place(&self, pin: &CasePin) -> String {
        let place = self.offsets(pin.along_mm, pin.buccal_mm);
        let tooth = self.tooth(pin.at);
        self.text("place-of-pin", &[("tooth", &tooth), ("place", &place)])
    }

    /// Offsets along the arch and square to it.
    fn offsets(&self, along: Length, buccal: Length) -> String {
        let part = |length: Length, plus: String, minus: String| {
            let way = if length > Length::ZERO { plus } else { minus };
            let size = mm(length.abs());
            (length != Length::ZERO)
                .then(|| self.text("place-part", &[("size", &size), ("way", &way)]))
        };
        let [mesial, distal] = self.ways_along();
        let [oral, out] = self.ways_across();
        let parts = [part(along, distal, mesial), part(buccal, out, oral)];
        self.joined("place-both", parts.into_iter().flatten())
            .unwrap_or_else(|| self.word("place-middle"))
    }

    /// The two ways along the arch: "mesial", "distal". The second counts up.
    #[must_use]
    pub fn ways_along(&self) -> [String; 2] {
        ["chart-towards-mesial", "chart-towards-distal"].map(|id| self.word(id))
    }

    /// The two ways square to the arch: "lingual" or "palatal", "buccal". The second counts up.
    #[must_use]
    pub fn ways_across(&self) -> [String; 2] {
        let oral = match self.case.jaw {
            Jaw::Upper => "chart-towards-palatal",
            Jaw::Lower => "chart-towards-lingual",
        };
        [oral, "chart-towards-buccal"].map(|id| self.word(id))
    }

    /// One tilt of an apex: "4° to mesial", "upright". `ways` are the two it can lean to, the
    /// second counting up.
    #[must_use]
    pub fn lean(&self, angle: Angle, [minus, plus]: &[String; 2]) -> String {
        if angle == Angle::ZERO {
            return self.word("upright");
        }
        let way = if angle > Angle::ZERO { plus } else { minus };
        let size = degrees(angle.abs());
        self.text("place-part", &[("size", &size), ("way", way)])
    }

    /// The distance from platform to sleeve with the face it was given to, as entered:
    /// "5.8 mm to the master sleeve's apical face".
    #[must_use]
    pub fn distance_entered(&self, site: &Site) -> String {
        let Some(distance) = site.platform_to_sleeve else {
            return self.word("distance-not-entered");
        };
        let face = self.word(match distance.to {
            SleeveFace::Apical => "face-apical",
            SleeveFace::Coronal => "face-coronal",
        });
        let size = mm(distance.entered_mm);
        self.text("distance-entered", &[("size", &size), ("face", &face)])
    }

    /// The sleeve offset as entered in few words, with its face: "5.8 mm, apical face".
    #[must_use]
    pub fn sleeve_offset(&self, site: &Site) -> String {
        let Some(offset) = site.platform_to_sleeve else {
            return self.word("distance-not-entered");
        };
        let id = match offset.to {
            SleeveFace::Apical => "sleeve-offset-apical",
            SleeveFace::Coronal => "sleeve-offset-coronal",
        };
        self.text(id, &[("size", &mm(offset.entered_mm))])
    }

    /// State of a tooth position: "missing", "present, root-filled", "not entered".
    #[must_use]
    pub fn tooth_state(&self, tooth: Option<Tooth>) -> String {
        let Some(tooth) = tooth else {
            return self.word("chart-tooth-not-entered");
        };
        let state = self.word(match tooth.state {
            ToothState::Present => "chart-tooth-present",
            ToothState::Missing => "chart-tooth-missing",
            ToothState::ToExtract => "chart-tooth-to-extract",
        });
        match tooth.kind {
            None => state,
            Some(kind) => {
                let rest = self.neighbour_kind(kind);
                self.text("place-both", &[("first", &state), ("rest", &rest)])
            }
        }
    }

    /// Kind of neighbour at a position: "natural", "root-filled".
    #[must_use]
    pub fn neighbour_kind(&self, kind: NeighbourKind) -> String {
        self.word(match kind {
            NeighbourKind::Natural => "neighbour-natural",
            NeighbourKind::RootFilled => "chart-tooth-root-filled",
            NeighbourKind::Implant => "chart-tooth-implant",
            NeighbourKind::Pontic => "chart-tooth-pontic",
            NeighbourKind::Impacted => "chart-tooth-impacted",
            NeighbourKind::Remnant => "chart-tooth-remnant",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::PlatformToSleeve;
    use crate::dentition::Notation;
    use crate::samples::{demo, demo_case};

    fn with(
        change: impl FnOnce(&mut Site),
        say: impl FnOnce(&Formatter<'_>, &Site) -> String,
    ) -> String {
        let case = demo_case(demo::TWO_MOLARS);
        let mut site = case.sites[0].clone();
        change(&mut site);
        say(&Formatter::english(&case, Notation::Iso), &site)
    }

    fn placed(along: i64, buccal: i64, at: &str) -> Placement {
        Placement::OnArch {
            at: at.parse().unwrap(),
            along_mm: Length::from_um(along),
            buccal_mm: Length::from_um(buccal),
            apex_to_distal_deg: Angle::ZERO,
            apex_to_buccal_deg: Angle::ZERO,
        }
    }

    #[test]
    fn a_place_is_told_by_its_sides() {
        for (placement, want) in [
            (
                placed(-200, 300, "46"),
                "0.2 mm to mesial, 0.3 mm to buccal",
            ),
            (placed(1_500, 0, "46"), "1.5 mm to distal"),
            (placed(0, -50, "46"), "0.05 mm to lingual"),
            (placed(0, 0, "46"), "centred in its position"),
            (
                placed(100, 0, "47"),
                "0.1 mm to distal, measured from lower right second molar (47)",
            ),
        ] {
            let said = with(|site| site.placement = placement, |s, site| s.place(site));
            assert_eq!(said, want);
        }
    }

    #[test]
    fn a_lean_has_a_side_and_no_sign() {
        let said = |deg| {
            with(
                |_| {},
                |formatter, _| formatter.lean(Angle::from_deg(deg), &formatter.ways_along()),
            )
        };
        assert_eq!(said(-4), "4° to mesial");
        assert_eq!(said(32), "32° to distal");
        assert_eq!(said(0), "upright");
    }

    #[test]
    fn a_distance_names_the_face_that_it_was_given_to() {
        let said = |entered: Option<PlatformToSleeve>| {
            with(
                |site| site.platform_to_sleeve = entered,
                |formatter, site| formatter.distance_entered(site),
            )
        };
        let entered = |to| {
            Some(PlatformToSleeve {
                entered_mm: Length::from_um(5_800),
                to,
            })
        };
        assert_eq!(
            said(entered(SleeveFace::Apical)),
            "5.8 mm to the master sleeve's apical face"
        );
        assert_eq!(
            said(entered(SleeveFace::Coronal)),
            "5.8 mm to the master sleeve's coronal rim"
        );
        assert_eq!(said(None), "not entered");
    }

    #[test]
    fn a_tooth_that_was_not_entered_is_said_to_be_so() {
        let said = |tooth| with(|_| {}, |formatter, _| formatter.tooth_state(tooth));
        let tooth = |state, kind| {
            let position = "46".parse().unwrap();
            Some(Tooth {
                position,
                state,
                kind,
            })
        };
        assert_eq!(said(None), "not entered");
        assert_eq!(said(tooth(ToothState::Missing, None)), "missing");
        assert_eq!(
            said(tooth(
                ToothState::ToExtract,
                Some(NeighbourKind::RootFilled)
            )),
            "to extract, root-filled"
        );
    }
}
