//! Mix-ups: what something else on the tray would do at a site if it were taken by mistake.

use super::clearance::Cut;
use super::context::{StepContext, StepPath};
use super::figure::Known;
use super::finding::Finding;
use crate::kit::{DrillId, DrillSleeve, DrillSleeveId, SiteId, StepId};
use crate::measure::Length;
use std::collections::BTreeMap;

/// A mistake that would cut too deep at a site.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookAlike {
    /// The site where it would happen.
    pub site: SiteId,
    /// The step in which it would happen.
    pub step: StepId,
    /// The mistake.
    pub mistake: Mistake,
    /// How much deeper it would cut than the site's deepest cut.
    pub deeper: Length,
    /// How deep it would cut below the platform.
    pub cut: Length,
    /// What it would break; nothing where the anatomy there is unknown.
    pub breaks: Option<String>,
}

/// Something taken by mistake.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mistake {
    /// Another instrument of the tray: a drill at the setting of another step.
    OtherSetting {
        /// The drill.
        drill: DrillId,
        /// Its setting.
        set: Length,
        /// The site that it belongs to.
        of: SiteId,
        /// The step that it belongs to.
        step: StepId,
    },
    /// The right drill without its drill sleeve.
    WithoutSleeve {
        /// The drill.
        drill: DrillId,
    },
    /// The right drill in another drill sleeve.
    OtherSleeve {
        /// The drill.
        drill: DrillId,
        /// The sleeve.
        sleeve: DrillSleeveId,
    },
    /// A guided stop used without the guide.
    WithoutGuide {
        /// The drill.
        drill: DrillId,
    },
}

/// Mistakes of which only the deepest is worth listing at one site.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
enum MistakeGroup {
    OtherSetting(DrillId, Length),
    WithoutSleeve,
    OtherSleeve(DrillSleeveId),
    WithoutGuide,
}

impl Mistake {
    fn group(&self) -> MistakeGroup {
        match self {
            Self::OtherSetting { drill, set, .. } => {
                MistakeGroup::OtherSetting(drill.clone(), *set)
            }
            Self::WithoutSleeve { .. } => MistakeGroup::WithoutSleeve,
            Self::OtherSleeve { sleeve, .. } => MistakeGroup::OtherSleeve(sleeve.clone()),
            Self::WithoutGuide { .. } => MistakeGroup::WithoutGuide,
        }
    }
}

/// The mix-ups at all sites that would break a limit, or might since the anatomy is unknown; the
/// deepest of each kind at each site, deepest first.
pub(super) fn look_alikes(cuts: &[Cut<'_>]) -> Vec<LookAlike> {
    let mut out = Vec::new();
    for cut in cuts {
        let Known::Is(planned) = cut.deepest() else {
            continue;
        };
        let room = room_below(cut);
        let mut worst: BTreeMap<MistakeGroup, LookAlike> = BTreeMap::new();
        for (step, sheet) in cut.site.steps().zip(cut.steps) {
            for (mistake, depth) in mistakes(cut, cuts, &step, sheet) {
                let deeper = depth - planned;
                if deeper <= Length::ZERO {
                    continue;
                }
                let breaks = match &room {
                    Some((left, _)) if deeper <= *left => continue,
                    Some((_, what)) => Some(what.clone()),
                    None => None,
                };
                let one = LookAlike {
                    site: cut.site.site.id.clone(),
                    step: step.step.id.clone(),
                    mistake: mistake.clone(),
                    deeper,
                    cut: depth,
                    breaks,
                };
                let kept = worst.entry(mistake.group()).or_insert_with(|| one.clone());
                if kept.cut < one.cut {
                    *kept = one;
                }
            }
        }
        let mut list: Vec<LookAlike> = worst.into_values().collect();
        list.sort_by(|a, b| b.cut.cmp(&a.cut).then_with(|| a.mistake.cmp(&b.mistake)));
        out.extend(list);
    }
    out
}

/// How much deeper the site may be cut before the nearest known structure's limit breaks, and
/// which one that is. Nothing where a structure's margin is not known, or none was entered.
fn room_below(cut: &Cut<'_>) -> Option<(Length, String)> {
    let mut findings: Vec<Finding> = Vec::new();
    super::structures::check(cut, &mut findings);
    let mut least: Option<(Length, String)> = None;
    for finding in findings {
        let limit = finding.limit.and_then(super::figure::Quantity::length)?;
        // Every further millimetre along the axis takes at most one from a margin.
        let left = finding.length_value()? - limit;
        let what = finding.args.get("structure").cloned().unwrap_or_default();
        if least.as_ref().is_none_or(|(known, _)| left < *known) {
            least = Some((left.max(Length::ZERO), what));
        }
    }
    least
}

fn mistakes(
    cut: &Cut<'_>,
    cuts: &[Cut<'_>],
    step: &StepContext<'_>,
    sheet: &super::StepSheet,
) -> Vec<(Mistake, Length)> {
    let mut out = Vec::new();
    let (Some(seat), Some(bore)) = (sheet.seat.length(), step.bore(&cut.site)) else {
        return out;
    };
    for other in cuts {
        for (theirs, their_sheet) in other.site.steps().zip(other.steps) {
            let Some(set) = their_sheet.set.length() else {
                continue;
            };
            let own = other.site.site.id == cut.site.site.id && theirs.step.id == step.step.id;
            let passes = theirs
                .drill
                .guided_diameter_mm
                .max(theirs.drill.cutting_diameter_mm)
                <= bore;
            if !own && passes && their_sheet.path != StepPath::Freehand {
                let mistake = Mistake::OtherSetting {
                    drill: theirs.drill.id.clone(),
                    set,
                    of: other.site.site.id.clone(),
                    step: theirs.step.id.clone(),
                };
                out.push((mistake, set - seat));
            }
        }
    }
    let Some(set) = sheet.set.length() else {
        return out;
    };
    let drill = || step.drill.id.clone();
    let rim = seat
        - step
            .sleeve
            .map_or(Length::ZERO, |sleeve| sleeve.seat_above_rim_mm);
    if step.sleeve.is_some() {
        out.push((Mistake::WithoutSleeve { drill: drill() }, set - rim));
    }
    for sleeve in &cut.site.kit.drill_sleeves {
        let other = step.sleeve.is_none_or(|own| own.id != sleeve.id);
        if !on_tray(sleeve, cuts) {
            continue;
        }
        let fits = sleeve.fits.contains(&cut.site.master.id)
            && sleeve.bore_mm >= step.drill.guided_diameter_mm;
        if other && fits {
            let mistake = Mistake::OtherSleeve {
                drill: drill(),
                sleeve: sleeve.id.clone(),
            };
            out.push((mistake, set - (rim + sleeve.seat_above_rim_mm)));
        }
    }
    if let Some(crest) = cut.site.highest_crest() {
        out.push((Mistake::WithoutGuide { drill: drill() }, set - crest));
    }
    out
}

/// Whether some site of the case uses a drill sleeve, for a step or for its implant.
fn on_tray(sleeve: &DrillSleeve, cuts: &[Cut<'_>]) -> bool {
    cuts.iter().any(|cut| {
        let of_steps = cut.site.site.steps.iter().map(|step| &step.sleeve);
        let inserts = std::iter::once(&cut.site.site.insertion.sleeve);
        of_steps
            .chain(inserts)
            .any(|used| used.as_ref() == Some(&sleeve.id))
    })
}
