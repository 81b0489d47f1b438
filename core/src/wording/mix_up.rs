//! Mix-ups in words, and what is not looked at.

use super::Formatter;
use crate::measure::Length;
use crate::number::mm;
use crate::plan::{Endangered, Exceeded, Known, Mistake, MixUp, NotTried, StepPath, not_assessed};

/// A mix-up in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixUpText {
    /// The site where it would happen.
    pub site: String,
    /// The mistake, the step in which it would happen and how much deeper it would cut.
    pub mistake: String,
    /// Depth that it would cut below the platform.
    pub cut: String,
    /// The harm that it would do, or that the anatomy is unknown.
    pub harm: String,
}

impl Formatter<'_> {
    /// The effect of something else on the tray taken by mistake.
    #[must_use]
    pub fn mix_up(&self, one: &MixUp) -> MixUpText {
        MixUpText {
            site: self.site(&one.site),
            mistake: self.mistake(one),
            cut: self.cut_at(one.cut),
            harm: self.harm(one),
        }
    }

    /// What could not be tried at a site, and by what: sentences.
    #[must_use]
    pub fn not_tried(&self, not_tried: &NotTried) -> Vec<String> {
        let here = self.reasons(&not_tried.here);
        let here = here.map(|reasons| self.text("not-tried-here", &[("reasons", &reasons)]));
        let sites = not_tried.sites.iter().map(|site| self.site(site));
        let pins = not_tried.pins.iter();
        let pins = pins.map(|pin| self.text("not-tried-pin", &[("pin", pin.as_str())]));
        let others = self.joined("marking-joined", sites.chain(pins));
        let others = others.map(|others| self.text("not-tried-others", &[("others", &others)]));
        here.into_iter().chain(others).collect()
    }

    fn harm(&self, one: &MixUp) -> String {
        let broken = one.breaks.iter().map(|broken| self.broken(broken));
        let breaks = self
            .joined("mix-up-list", broken)
            .map(|what| self.text("mix-up-breaks", &[("what", &what)]));
        let harm = match (breaks, one.exceeded) {
            (Some(breaks), _) => breaks,
            (None, Exceeded::Step) => self.word("mix-up-deeper-than-step"),
            (None, Exceeded::Width) => self.word("mix-up-too-wide"),
            (None, Exceeded::Site) => return self.word("mix-up-anatomy-unknown"),
        };
        if one.unknown {
            self.text("mix-up-unknown-besides", &[("harm", &harm)])
        } else {
            harm
        }
    }

    /// The thing that a mix-up would come too close to.
    fn broken(&self, broken: &Endangered) -> String {
        match broken {
            Endangered::Structure(kind) => self.structure(*kind),
            Endangered::Wall(side) => self.text("mix-up-wall", &[("side", &self.wall_side(*side))]),
            Endangered::Tooth(position) => self.tooth(*position),
            Endangered::Site(site) => self.text("mix-up-implant", &[("site", &self.site(site))]),
        }
    }

    /// Excess of its cut in depth over anything planned at the site, or over its step, and in width
    /// over the site's last drill.
    fn too_much(&self, one: &MixUp) -> String {
        let deeper = mm(one.deeper);
        match (one.wider.map(mm), one.deeper > Length::ZERO) {
            (None, _) => {
                let id = match one.exceeded {
                    Exceeded::Step => "mix-up-deeper-at-step",
                    Exceeded::Site | Exceeded::Width => "mix-up-deeper",
                };
                self.text(id, &[("deeper", &deeper)])
            }
            (Some(wider), false) => self.text("mix-up-wider", &[("wider", &wider)]),
            (Some(wider), true) => self.text(
                "mix-up-deeper-and-wider",
                &[("deeper", &deeper), ("wider", &wider)],
            ),
        }
    }

    fn cut_at(&self, cut: Length) -> String {
        let below = cut >= Length::ZERO;
        let id = if below { "cut-below" } else { "cut-above" };
        self.text(id, &[("size", &mm(cut.abs()))])
    }

    fn mistake(&self, one: &MixUp) -> String {
        let at = self.taken_at(one);
        let cuts = self.too_much(one);
        let common = [("at", at.as_str()), ("cuts", cuts.as_str())];
        let text = |id: &str, args: &[(&str, &str)]| {
            let all: Vec<(&str, &str)> = args.iter().chain(&common).copied().collect();
            self.text(id, &all)
        };
        match &one.mistake {
            Mistake::OtherSetting { drill, set, of, .. } => {
                let drill = self.lying(self.drill(drill), one);
                let set = self.set_to_use_with_unit(&Known::Is(*set), one.fits);
                let (drill, set) = (("drill", drill.as_str()), ("set", set.as_str()));
                if *of == one.site {
                    return text("mix-up-same-site", &[drill, set]);
                }
                text("mix-up-other-site", &[drill, set, ("of", &self.site(of))])
            }
            Mistake::OtherSet {
                drill,
                sleeve,
                set,
                of,
                ..
            } => {
                let drill = self.lying(self.drill(drill), one);
                let (sleeve, of) = (self.sleeve(sleeve), self.site(of));
                let set = self.set_to_use_with_unit(&Known::Is(*set), one.fits);
                text(
                    "mix-up-other-set",
                    &[
                        ("drill", drill.as_str()),
                        ("sleeve", &sleeve),
                        ("set", &set),
                        ("of", &of),
                    ],
                )
            }
            Mistake::WithoutSleeve { drill } => {
                text("mix-up-without-sleeve", &[("drill", &self.drill(drill))])
            }
            Mistake::OtherSleeve { drill, sleeve } => {
                let sleeve = self.lying(self.sleeve(sleeve), one);
                let args = [("drill", self.drill(drill)), ("sleeve", sleeve)];
                text(
                    "mix-up-other-sleeve",
                    &args.each_ref().map(|(name, value)| (*name, value.as_str())),
                )
            }
            Mistake::PinDrill { drill, set, pin } => {
                let drill = self.lying(self.drill(drill), one);
                let set = self.set_to_use_with_unit(&Known::Is(*set), one.fits);
                let (drill, set) = (("drill", drill.as_str()), ("set", set.as_str()));
                text("mix-up-pin-drill", &[drill, set, ("pin", pin.as_str())])
            }
            Mistake::WithoutGuide { drill, before_move } => {
                let site = self.case.site(one.site.as_str());
                let mut steps = site.iter().flat_map(|site| &site.steps);
                let by_mark = steps.any(|step| step.id == one.step && step.stop.is_none());
                let id = if by_mark {
                    "mix-up-without-guide-mark"
                } else {
                    "mix-up-without-guide"
                };
                let mistake = text(id, &[("drill", &self.drill(drill))]);
                if *before_move {
                    self.text("mix-up-before-move", &[("mistake", &mistake)])
                } else {
                    mistake
                }
            }
        }
    }

    /// The name with its slot.
    fn lying(&self, name: String, one: &MixUp) -> String {
        match &one.slot {
            Some(slot) => self.text("mix-up-lying", &[("name", &name), ("slot", slot.as_str())]),
            None => name,
        }
    }

    /// The step in which it would be taken, and how that step is led.
    fn taken_at(&self, one: &MixUp) -> String {
        let site = self.case.site(one.site.as_str());
        let place = site.and_then(|site| site.steps.iter().position(|step| step.id == one.step));
        let step = place.map_or_else(|| one.step.to_string(), |n| (n + 1).to_string());
        let path = match (&one.sleeve, one.path) {
            (Some(sleeve), StepPath::DrillSleeve) => {
                self.text("path-named", &[("sleeve", &self.sleeve(sleeve))])
            }
            (_, path) => self.path(path),
        };
        let id = match one.mistake {
            // There the step's own path is the mistake.
            Mistake::OtherSetting { .. } | Mistake::PinDrill { .. } => "mix-up-taken-at",
            Mistake::OtherSet { .. }
            | Mistake::WithoutSleeve { .. }
            | Mistake::OtherSleeve { .. }
            | Mistake::WithoutGuide { .. } => "mix-up-at-step",
        };
        self.text(id, &[("step", &step), ("path", &path)])
    }

    /// Checks that this program does not make, so that silence is not taken for clearance.
    #[must_use]
    pub fn not_assessed(&self) -> Vec<String> {
        let checks = not_assessed(self.case).into_iter();
        checks
            .map(|id| self.word(&format!("not-assessed-{id}")))
            .collect()
    }

    /// The head over [`Self::not_assessed`].
    #[must_use]
    pub fn not_assessed_heading(&self) -> String {
        self.word("not-assessed-heading")
    }
}
