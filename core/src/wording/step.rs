//! Steps: how deep, how led, how far off, and what to check on the bench.

use super::Formatter;
use crate::case::LimitId;
use crate::kit::{DepthRule, SiteId};
use crate::measure::Length;
use crate::number::{at_most, at_most_angle, degrees, mm};
use crate::plan::{Figure, Known, MarkEdge, Play, Quantity, StepPath, StepSheet};

impl Formatter<'_> {
    /// Depth to which a rule lets a step go: "full depth", "2.4 mm below the platform".
    #[must_use]
    pub fn depth_rule(&self, rule: &DepthRule) -> String {
        match rule {
            DepthRule::Full {} => self.word("depth-full"),
            DepthRule::BelowPlatform { depth_mm } => {
                self.text("depth-below_platform", &[("depth", &mm(*depth_mm))])
            }
            DepthRule::ShortOfFull { by_mm } => {
                self.text("depth-short_of_full", &[("by", &mm(*by_mm))])
            }
        }
    }

    /// Depth of a step and what follows it: "partial depth, full less 3.0 mm, then check radiograph".
    #[must_use]
    pub fn depth(&self, site: &SiteId, sheet: &StepSheet) -> String {
        let depth = self.depth_rule(&sheet.depth);
        let step = self
            .case
            .site(site.as_str())
            .and_then(|site| site.steps.iter().find(|step| step.id == sheet.id));
        match step.and_then(|step| step.then.as_ref()) {
            None => depth,
            Some(then) => self.text("depth-then", &[("depth", &depth), ("then", then.as_str())]),
        }
    }

    /// Guidance of a drill: "through its drill sleeve", "freehand".
    #[must_use]
    pub fn path(&self, path: StepPath) -> String {
        self.word(&format!("path-{}", path.key()))
    }

    /// Guidance of a step's drill, the drill sleeve by its name and marking.
    #[must_use]
    pub fn guidance(&self, sheet: &StepSheet) -> String {
        match (sheet.path, &sheet.sleeve) {
            (StepPath::DrillSleeve, Some(sleeve)) => {
                self.text("path-named", &[("sleeve", &self.sleeve(sleeve))])
            }
            (path, _) => self.path(path),
        }
    }

    /// Place of the tip in the guide, with the stop landed or, where a mark is read, with that
    /// level with its rim: the bench check.
    #[must_use]
    pub fn bench(&self, tip_beyond: &Known<Length>, mark: Option<&MarkEdge>) -> String {
        let (beyond, short_of) = match mark {
            None => ("bench-below", "bench-above"),
            Some(_) => ("bench-mark-below", "bench-mark-above"),
        };
        self.signed(tip_beyond, beyond, short_of, "bench-none")
    }

    /// Depth of a step's cut below the platform, tip included.
    #[must_use]
    pub fn cut(&self, sheet: &StepSheet) -> String {
        let cut = sheet.cut.known_length();
        self.signed(&cut, "cut-below", "cut-above", "cut-none")
    }

    fn signed(&self, length: &Known<Length>, below: &str, above: &str, none: &str) -> String {
        match length.get() {
            Some(length) if length < Length::ZERO => {
                self.text(above, &[("size", &mm(length.abs()))])
            }
            Some(length) => self.text(below, &[("size", &mm(length))]),
            None => self.word(none),
        }
    }

    /// The figure that a probe through the seated guide must show, and its tolerance.
    #[must_use]
    pub fn sounding(&self, sounding: &Figure) -> String {
        if let Some(reasons) = self.reasons(sounding.value.reasons()) {
            return self.text("sounding-none", &[("reasons", &reasons)]);
        }
        let size = sounding.length().map(mm).unwrap_or_default();
        let said = match self.case.limits.get(LimitId::Sounding) {
            None => self.text("sounding-no-limit", &[("size", &size)]),
            Some(limit) => {
                let limit = mm(limit.limit_mm);
                let said = self.text("sounding", &[("size", &size), ("limit", &limit)]);
                match self.case.limits.own_if_stricter(LimitId::Sounding) {
                    None => said,
                    Some(own) => {
                        let args = [("said", said.as_str()), ("own", &mm(own))];
                        self.text("sounding-loosened", &args)
                    }
                }
            }
        };
        self.with_confirmed(said, [sounding])
    }

    /// Lean that a drill can have in its sleeve, rounded up: "leans up to 1.4°, off by up to 0.6 mm
    /// at the tip".
    #[must_use]
    pub fn play(&self, play: &Play) -> String {
        match (&play.tilt.value, &play.at_tip.value) {
            (Known::Is(Quantity::Angle(tilt)), Known::Is(Quantity::Length(tip))) => {
                let (tilt, tip) = (degrees(at_most_angle(*tilt)), mm(at_most(*tip)));
                self.text("play", &[("tilt", &tilt), ("tip", &tip)])
            }
            (tilt, _) => {
                let reasons = self.reasons(tilt.reasons()).unwrap_or_default();
                self.text("play-unknown", &[("reasons", &reasons)])
            }
        }
    }
}
