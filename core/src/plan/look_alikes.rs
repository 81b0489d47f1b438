//! Mix-ups: what something else on the tray would do at a site if it were taken by mistake.

use super::clearance::Cut;
use super::context::{StepContext, StepPath};
use super::figure::{Known, Reason};
use super::finding::Finding;
use super::loading::LoadItem;
use crate::kit::{Drill, DrillId, DrillSleeve, DrillSleeveId, Label, SiteId, SlotKind, StepId};
use crate::measure::Length;
use std::collections::BTreeMap;

/// A mistake that would cut too deep at a site.
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
    /// What it cuts deeper than.
    pub than: Than,
    /// How much deeper it would cut than that.
    pub deeper: Length,
    /// How deep it would cut below the platform.
    pub cut: Length,
    /// What it would break; nothing where the anatomy there is unknown, or where it is deeper than
    /// its step only.
    pub breaks: Option<String>,
}

/// What a mistake cuts deeper than.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Than {
    /// All that is planned at the site.
    Site,
    /// Only what its step is planned to cut, which is not full depth.
    Step,
}

impl Than {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Site => "site",
            Self::Step => "step",
        }
    }
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

/// The mix-ups at all sites that would break a limit, or might since the anatomy is unknown, and
/// those that cut deeper than a step that is not to full depth; the deepest of each kind at each
/// site, deepest first.
pub(super) fn look_alikes(cuts: &[Cut<'_>], loading: &[LoadItem]) -> Vec<LookAlike> {
    let mut out = Vec::new();
    for cut in cuts {
        let Known::Is(planned) = cut.deepest() else {
            continue;
        };
        let room = room_below(cut);
        let mut worst: BTreeMap<MistakeGroup, LookAlike> = BTreeMap::new();
        for (step, sheet) in cut.site.steps().zip(cut.steps) {
            for (mistake, depth) in mistakes(cut, cuts, &step, sheet) {
                let Some(harm) = harm(cut, sheet, depth, planned, room.as_ref()) else {
                    continue;
                };
                let one = LookAlike {
                    site: cut.site.site.id.clone(),
                    step: step.step.id.clone(),
                    path: sheet.path,
                    sleeve: sheet.sleeve.clone(),
                    slot: slot_of(&mistake, loading),
                    mistake: mistake.clone(),
                    than: harm.than,
                    deeper: harm.deeper,
                    cut: depth,
                    breaks: harm.breaks,
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

/// Why some mistakes at a site cannot be reckoned: what of its settings, seats and heights is not
/// known. Empty where all were.
pub(super) fn not_tried(cut: &Cut<'_>) -> Vec<Reason> {
    let mut all = cut.deepest().map(|_| ());
    for (step, sheet) in cut.site.steps().zip(cut.steps) {
        all = all
            .and(sheet.seat.known_length())
            .and(sheet.set.known_length())
            .map(|_| ());
        if step.path != StepPath::Freehand && cut.site.highest_crest().is_none() {
            // How deep it would cut without the guide.
            let crest = cut.site.field("heights.platform_below_crest");
            all = all.and(Known::<()>::missing(crest)).map(|_| ());
        }
    }
    all.reasons().to_vec()
}

struct Harm {
    than: Than,
    deeper: Length,
    breaks: Option<String>,
}

/// What a cut of this depth would do in a step; nothing where it goes no deeper than planned, or
/// at full depth breaks nothing.
fn harm(
    cut: &Cut<'_>,
    sheet: &super::StepSheet,
    depth: Length,
    planned: Length,
    room: Option<&(Length, String)>,
) -> Option<Harm> {
    let deeper = depth - planned;
    let breaks = room.map(|(_, what)| what.clone());
    if deeper > Length::ZERO && room.is_none_or(|(left, _)| deeper > *left) {
        return Some(Harm {
            than: Than::Site,
            deeper,
            breaks,
        });
    }
    // A pass that is meant to stop short, as before a control radiograph, or a profile.
    let deeper = depth - (sheet.cut.length()? + cut.deficit(sheet));
    let too_deep = !sheet.is_full_depth() && deeper > Length::ZERO;
    too_deep.then_some(Harm {
        than: Than::Step,
        deeper,
        breaks: None,
    })
}

/// Where what is taken by mistake lies.
fn slot_of(mistake: &Mistake, loading: &[LoadItem]) -> Option<Label> {
    let found = match mistake {
        Mistake::OtherSetting { of, step, .. } => loading.iter().find(|item| {
            let mut served = item.serves.iter();
            item.set.is_some()
                && served
                    .any(|one| (one.site.as_ref(), one.step.as_ref()) == (Some(of), Some(step)))
        }),
        Mistake::OtherSleeve { sleeve, .. } => loading
            .iter()
            .find(|item| item.kind == SlotKind::Sleeve && item.entry == sleeve.as_str()),
        Mistake::WithoutSleeve { .. } | Mistake::WithoutGuide { .. } => None,
    };
    found.and_then(|item| item.slot.clone())
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
    let Some(seat) = sheet.seat.length() else {
        return out;
    };
    // By the guide as it was measured.
    let seat = seat - cut.deficit(sheet);
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
                out.push((mistake, set - seat));
            }
        }
    }
    let Some(set) = sheet.set.length() else {
        return out;
    };
    if sheet.path == StepPath::Freehand {
        return out;
    }
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
        let fits =
            sleeve.fits.contains(&cut.site.master.id) && sleeve.bore_mm >= widest(step.drill);
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
