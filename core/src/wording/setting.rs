//! Settings: the one place where a stop's setting becomes text.

use super::Formatter;
use crate::kit::{DrillId, StopId, StopKind};
use crate::measure::Length;
use crate::number::{self, in_mm, mm};
use crate::plan::{Edge, Fits, Known, MarkEdge, SiteSheet, StepSheet};
use std::collections::BTreeSet;

impl Formatter<'_> {
    /// A step's setting without unit: "21.7"; "no figure" where there is none, and "does not fit" where it is not to be
    /// used, never a number.
    ///
    /// Screen, print and command line all show this text. It has at least one decimal, and as many
    /// as the gauge's graduation.
    #[must_use]
    pub fn setting(&self, sheet: &StepSheet) -> String {
        self.set_to_use(&sheet.set.known_length(), sheet.fits)
    }

    /// The least and the greatest setting of a site with their unit, and how many steps have none:
    /// "20.7 to 21.3 mm".
    #[must_use]
    pub fn site_settings(&self, sheet: &SiteSheet) -> String {
        let fits = |step: &&StepSheet| step.fits == Fits::AsFarAsKnown;
        let steps = sheet.steps.iter();
        let sets = steps.map(|step| Some(step).filter(fits)?.set.length());
        let known: Vec<Length> = sets.clone().flatten().collect();
        let missing = sets.filter(Option::is_none).count();
        let (Some(least), Some(most)) = (known.iter().min(), known.iter().max()) else {
            return self.word("setting-none");
        };
        let least = self.set_length(&Known::Is(*least));
        let most = self.set_length(&Known::Is(*most));
        let range = if least == most {
            in_mm(&most)
        } else {
            let args = [("least", least.as_str()), ("most", &in_mm(&most))];
            self.text("sheet-setting-range", &args)
        };
        if missing == 0 {
            return range;
        }
        self.counted(
            "sheet-setting-some-unknown",
            &[("missing", missing)],
            &[("range", &range)],
        )
    }

    /// The gauge's figure for a step's setting, without unit; nothing where no stop is set, or it is not to be.
    #[must_use]
    pub fn gauge_figure(&self, sheet: &StepSheet) -> Option<String> {
        let fits = sheet.fits == Fits::AsFarAsKnown;
        let gauge = sheet.gauge.as_ref().filter(|_| fits)?;
        Some(self.set_length(&gauge.known_length()))
    }

    /// Any length that is set or read on the gauge, as [`Self::setting`] shows it.
    #[must_use]
    pub fn set_length(&self, set: &Known<Length>) -> String {
        match set.get() {
            Some(set) => number::setting(set, self.case.graduation()),
            None => self.word("setting-none"),
        }
    }

    /// A setting of the plan as a hand may use it: "does not fit" in place of what is not to be used.
    #[must_use]
    pub fn set_to_use(&self, set: &Known<Length>, fits: Fits) -> String {
        match (set, fits) {
            (Known::Is(_), Fits::No) => self.word("setting-does-not-fit"),
            _ => self.set_length(set),
        }
    }

    /// The same with its unit; words stay alone.
    #[must_use]
    pub fn set_to_use_with_unit(&self, set: &Known<Length>, fits: Fits) -> String {
        let said = self.set_to_use(set, fits);
        match (set, fits) {
            (Known::Is(_), Fits::AsFarAsKnown) => in_mm(&said),
            _ => said,
        }
    }

    /// The same with its unit: "21.7 mm"; "no figure" stays alone.
    #[must_use]
    pub fn set_length_with_unit(&self, set: &Known<Length>) -> String {
        let said = self.set_length(set);
        match set {
            Known::Is(_) => in_mm(&said),
            Known::Unknown(_) => said,
        }
    }

    /// A step's setting with its unit, or why there is none.
    #[must_use]
    pub fn setting_in_full(&self, sheet: &StepSheet) -> String {
        match self.reasons(sheet.set.value.reasons()) {
            Some(reasons) => self.text("setting-unknown", &[("reasons", &reasons)]),
            None => self.set_to_use_with_unit(&sheet.set.known_length(), sheet.fits),
        }
    }

    /// The reasons why a step has no setting; nothing where it has one.
    #[must_use]
    pub fn setting_reasons(&self, sheet: &StepSheet) -> Option<String> {
        self.reasons(sheet.set.value.reasons())
    }

    /// The mark to drill to; nothing where a stop is used, no mark fits, or the drill is not to be used.
    #[must_use]
    pub fn mark(&self, sheet: &StepSheet) -> Option<String> {
        let fits = sheet.fits == Fits::AsFarAsKnown;
        Some(self.mark_edge(sheet.mark.as_ref().filter(|_| fits)?))
    }

    /// A mark of a drill with the edge to read: "lower edge of mark II".
    #[must_use]
    pub fn mark_edge(&self, mark: &MarkEdge) -> String {
        let id = match mark.edge {
            Edge::Line => "mark-line",
            Edge::Lower => "mark-lower",
            Edge::Upper => "mark-upper",
        };
        self.text(id, &[("mark", mark.name.as_str())])
    }

    /// Place of a setting among the lengths of a fixed stop on a drill, the shortest first; nothing
    /// where the stop is adjustable or has no such length.
    #[must_use]
    pub fn fixed_place(&self, stop: &StopId, drill: &DrillId, set: Length) -> Option<String> {
        let (place, count) = self.fixed_place_of(stop, drill, set)?;
        Some(self.counted("fixed-place", &[("place", place), ("count", count)], &[]))
    }

    /// The same as numbers: its place from 1, and how many there are.
    #[must_use]
    pub fn fixed_place_of(
        &self,
        stop: &StopId,
        drill: &DrillId,
        set: Length,
    ) -> Option<(usize, usize)> {
        let StopKind::Fixed { lengths } = &self.case.kit.stop(stop)?.depth else {
            return None;
        };
        let on_drill = lengths.iter().filter(|length| length.drill == *drill);
        let all: BTreeSet<Length> = on_drill.map(|length| length.tip_to_landing_mm).collect();
        let place = all.iter().position(|length| *length == set)? + 1;
        Some((place, all.len()))
    }

    /// Depth lost to rounding, a fixed stop or one common figure, and what is left of it where the guide
    /// as it was measured seats nearer the bone.
    #[must_use]
    pub fn shortfall(&self, sheet: &StepSheet) -> String {
        let Known::Is(short) = sheet.shortfall.known_length() else {
            return self.word("setting-none");
        };
        let deeper = sheet.deeper_by_guide();
        match short - deeper {
            Length::ZERO if deeper > Length::ZERO => self.word("shortfall-taken-by-guide"),
            Length::ZERO => self.word("shortfall-none"),
            above if above > Length::ZERO && deeper > Length::ZERO => self.text(
                "shortfall-less-guide",
                &[("size", &mm(short)), ("left", &mm(above))],
            ),
            above if above > Length::ZERO => self.text("shortfall", &[("size", &mm(above))]),
            below => self.text("shortfall-deeper", &[("size", &mm(-below))]),
        }
    }
}
