//! Mix-ups: what something else on the tray would do at a site if it were taken by mistake.

use super::clearance::Cut;
use super::context::{StepContext, StepPath};
use super::figure::Reason;
use super::finding::Finding;
use super::harm::{Around, Broken, Than};
use super::loading::LoadItem;
use crate::kit::{Drill, DrillId, DrillSleeve, DrillSleeveId, Label, SiteId, SlotKind, StepId};
use crate::measure::Length;
use std::collections::BTreeMap;

/// A mistake that would cut too deep or too wide at a site.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookAlike {
    /// The site where it would happen.
    pub site: SiteId,
    /// The step in which it would happen.
    pub step: StepId,
    /// How that step's drill is led.
    pub path: StepPath,
    /// The drill sleeve of that step.
    pub sleeve: Option<DrillSleeveId>,
    /// The mistake.
    pub mistake: Mistake,
    /// The slot in which what is taken by mistake lies; nothing where it has none or is left out.
    pub slot: Option<Label>,
    /// What it cuts deeper than, or that it is only wider.
    pub than: Than,
    /// How much deeper it would cut than that; zero where it is only wider.
    pub deeper: Length,
    /// How much wider it would cut than the site's last drill; nothing where no wider.
    pub wider: Option<Length>,
    /// How deep it would cut below the platform.
    pub cut: Length,
    /// What it would come too close to; nothing where nobody knows, or where it is only wider, or
    /// deeper than its step only.
    pub breaks: Option<Broken>,
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
    /// Another site's drill with its sleeve and its setting, all three together.
    OtherSet {
        /// The drill.
        drill: DrillId,
        /// Its sleeve.
        sleeve: DrillSleeveId,
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
    OtherSet(DrillId, DrillSleeveId, Length),
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
            Self::OtherSet {
                drill, sleeve, set, ..
            } => MistakeGroup::OtherSet(drill.clone(), sleeve.clone(), *set),
            Self::WithoutSleeve { .. } => MistakeGroup::WithoutSleeve,
            Self::OtherSleeve { sleeve, .. } => MistakeGroup::OtherSleeve(sleeve.clone()),
            Self::WithoutGuide { .. } => MistakeGroup::WithoutGuide,
        }
    }
}

/// The mix-ups at all sites that would break a limit, or might since nobody knows what lies there,
/// those that cut wider than a site's last drill and those that cut deeper than a step that is not
/// to full depth; the deepest of each kind at each site, deepest first. `findings` are those of all
/// clearances as planned.
pub(super) fn look_alikes(
    cuts: &[Cut<'_>],
    loading: &[LoadItem],
    findings: &[Finding],
) -> Vec<LookAlike> {
    let mut out = Vec::new();
    for cut in cuts {
        let Some(around) = Around::of(cut, findings) else {
            continue;
        };
        let mut worst: BTreeMap<MistakeGroup, LookAlike> = BTreeMap::new();
        for (step, sheet) in cut.site.steps().zip(cut.steps) {
            for taken in mistakes(cut, cuts, &step, sheet) {
                let Some(harm) = around.harm(sheet, taken.depth, taken.diameter) else {
                    continue;
                };
                let one = LookAlike {
                    site: cut.site.site.id.clone(),
                    step: step.step.id.clone(),
                    path: sheet.path,
                    sleeve: sheet.sleeve.clone(),
                    slot: slot_of(&taken.mistake, loading),
                    mistake: taken.mistake.clone(),
                    than: harm.than,
                    deeper: harm.deeper,
                    wider: harm.wider,
                    cut: taken.depth,
                    breaks: harm.broken,
                };
                let kept = worst
                    .entry(taken.mistake.group())
                    .or_insert_with(|| one.clone());
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

/// Why some mistakes at a site cannot be reckoned: what of its settings, seats and heights is not
/// known. Empty where all were.
pub(super) fn not_tried(cut: &Cut<'_>) -> Vec<Reason> {
    let mut all = cut.deepest().known().map(|_| ());
    for (step, sheet) in cut.site.steps().zip(cut.steps) {
        all = all
            .and(sheet.seat.known_length())
            .and(sheet.set.known_length())
            .map(|_| ());
        if step.path != StepPath::Freehand {
            // How deep it would cut without the guide.
            all = all.and(cut.site.lowest_crest()).map(|_| ());
        }
    }
    all.reasons().to_vec()
}

/// Where what is taken by mistake lies.
fn slot_of(mistake: &Mistake, loading: &[LoadItem]) -> Option<Label> {
    let found = match mistake {
        Mistake::OtherSetting { of, step, .. } | Mistake::OtherSet { of, step, .. } => {
            loading.iter().find(|item| {
                let mut served = item.serves.iter();
                item.set.is_some()
                    && served
                        .any(|one| (one.site.as_ref(), one.step.as_ref()) == (Some(of), Some(step)))
            })
        }
        Mistake::OtherSleeve { sleeve, .. } => loading
            .iter()
            .find(|item| item.kind == SlotKind::Sleeve && item.entry == sleeve.as_str()),
        Mistake::WithoutSleeve { .. } | Mistake::WithoutGuide { .. } => None,
    };
    found.and_then(|item| item.slot.clone())
}

/// A mistake with the cut that it would make.
struct Taken {
    mistake: Mistake,
    depth: Length,
    diameter: Length,
}

fn mistakes(
    cut: &Cut<'_>,
    cuts: &[Cut<'_>],
    step: &StepContext<'_>,
    sheet: &super::StepSheet,
) -> Vec<Taken> {
    let mut out = Vec::new();
    let mut take = |mistake: Mistake, depth: Length, drill: &Drill| {
        out.push(Taken {
            mistake,
            depth,
            diameter: drill.cutting_diameter_mm,
        });
    };
    let Some(seat) = sheet.seat.length() else {
        return out;
    };
    // By the guide as it was measured.
    let seat = match step.path {
        StepPath::Freehand => seat,
        StepPath::DrillSleeve | StepPath::MasterSleeve => seat - cut.site.receipt_deficit(),
    };
    let above_rim = step
        .sleeve
        .map_or(Length::ZERO, |sleeve| sleeve.seat_above_rim_mm);
    let rim = (sheet.path != StepPath::Freehand).then_some(seat - above_rim);
    // Freehand nothing holds back a drill that is too wide.
    let bore = step.bore(&cut.site);
    for other in cuts {
        for (theirs, their_sheet) in other.site.steps().zip(other.steps) {
            let Some(set) = their_sheet.set.length() else {
                continue;
            };
            let own = other.site.site.id == cut.site.site.id && theirs.step.id == step.step.id;
            let widest = widest(theirs.drill);
            if !own && bore.is_none_or(|bore| widest <= bore) {
                let mistake = Mistake::OtherSetting {
                    drill: theirs.drill.id.clone(),
                    set,
                    of: other.site.site.id.clone(),
                    step: theirs.step.id.clone(),
                };
                take(mistake, set - seat, theirs.drill);
            }
            let sleeve = theirs
                .sleeve
                .filter(|_| theirs.path == StepPath::DrillSleeve);
            if other.site.site.id != cut.site.site.id
                && let (Some(sleeve), Some(rim)) = (sleeve, rim)
                && sleeve.fits.contains(&cut.site.master.id)
                && widest <= sleeve.bore_mm
            {
                let mistake = Mistake::OtherSet {
                    drill: theirs.drill.id.clone(),
                    sleeve: sleeve.id.clone(),
                    set,
                    of: other.site.site.id.clone(),
                    step: theirs.step.id.clone(),
                };
                take(
                    mistake,
                    set - (rim + sleeve.seat_above_rim_mm),
                    theirs.drill,
                );
            }
        }
    }
    let Some(set) = sheet.set.length() else {
        return out;
    };
    let Some(rim) = rim else {
        return out;
    };
    let drill = || step.drill.id.clone();
    if step.sleeve.is_some() {
        let mistake = Mistake::WithoutSleeve { drill: drill() };
        take(mistake, set - rim, step.drill);
    }
    for sleeve in &cut.site.kit.drill_sleeves {
        let other = step.sleeve.is_none_or(|own| own.id != sleeve.id);
        if !on_tray(sleeve, cuts) {
            continue;
        }
        let fits =
            sleeve.fits.contains(&cut.site.master.id) && sleeve.bore_mm >= widest(step.drill);
        if other && fits {
            let mistake = Mistake::OtherSleeve {
                drill: drill(),
                sleeve: sleeve.id.clone(),
            };
            take(mistake, set - (rim + sleeve.seat_above_rim_mm), step.drill);
        }
    }
    if let Some(crest) = cut.site.lowest_crest().get() {
        let mistake = Mistake::WithoutGuide { drill: drill() };
        take(mistake, set - crest, step.drill);
    }
    out
}

/// The widest part that has to pass a bore.
fn widest(drill: &Drill) -> Length {
    drill.guided_diameter_mm.max(drill.cutting_diameter_mm)
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
