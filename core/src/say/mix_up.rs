//! Mix-ups in words, and what is not looked at.

use super::Speaker;
use super::number::mm;
use crate::measure::Length;
use crate::plan::{Known, LookAlike, Mistake, NOT_ASSESSED};

/// A mix-up in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixUpSaid {
    /// The site where it would happen.
    pub site: String,
    /// The mistake and how much deeper it would cut.
    pub mistake: String,
    /// How deep it would cut below the platform.
    pub cut: String,
    /// What it would break, or that the anatomy is unknown.
    pub harm: String,
}

impl Speaker<'_> {
    /// What something else on the tray would do if it were taken by mistake.
    #[must_use]
    pub fn mix_up(&self, one: &LookAlike) -> MixUpSaid {
        MixUpSaid {
            site: self.site(&one.site),
            mistake: self.mistake(one),
            cut: self.cut_at(one.cut),
            harm: match &one.breaks {
                None => self.word("mix-up-anatomy-unknown"),
                Some(key) => {
                    let structure = self.structure(key);
                    self.text("mix-up-breaks", &[("structure", &structure)])
                }
            },
        }
    }

    fn cut_at(&self, cut: Length) -> String {
        let below = cut >= Length::ZERO;
        let id = if below { "cut-below" } else { "cut-above" };
        self.text(id, &[("size", &mm(cut.abs()))])
    }

    fn mistake(&self, one: &LookAlike) -> String {
        let deeper = mm(one.deeper);
        let deeper = ("deeper", deeper.as_str());
        match &one.mistake {
            Mistake::OtherSetting { drill, set, of, .. } => {
                let drill = self.drill(drill);
                let set = self.set_length_with_unit(&Known::Is(*set));
                let (drill, set) = (("drill", drill.as_str()), ("set", set.as_str()));
                if *of == one.site {
                    return self.text("mix-up-same-site", &[drill, set, deeper]);
                }
                let of = self.site(of);
                self.text("mix-up-other-site", &[drill, set, ("of", &of), deeper])
            }
            Mistake::WithoutSleeve { drill } => {
                let drill = self.drill(drill);
                self.text("mix-up-without-sleeve", &[("drill", &drill), deeper])
            }
            Mistake::OtherSleeve { drill, sleeve } => {
                let (drill, sleeve) = (self.drill(drill), self.sleeve(sleeve));
                let args = [("drill", drill.as_str()), ("sleeve", &sleeve), deeper];
                self.text("mix-up-other-sleeve", &args)
            }
            Mistake::WithoutGuide { drill } => {
                let drill = self.drill(drill);
                self.text("mix-up-without-guide", &[("drill", &drill), deeper])
            }
        }
    }

    /// What this program does not look at, so that silence is not taken for clearance.
    #[must_use]
    pub fn not_assessed(&self) -> Vec<String> {
        NOT_ASSESSED
            .iter()
            .map(|id| self.word(&format!("not-assessed-{id}")))
            .collect()
    }

    /// The head over [`Self::not_assessed`].
    #[must_use]
    pub fn not_assessed_heading(&self) -> String {
        self.word("not-assessed-heading")
    }
}
