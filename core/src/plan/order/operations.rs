//! The order in which things are done, by a plain rule: site by site, or each diameter through all
//! sites. Guide-on and guide-off are barriers for the whole jaw.

use crate::case::{Access, Case, UseOrder};
use crate::kit::{Label, SiteId, StepId};
use crate::plan::depth::context::StepPath;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::order::holding::holding_by_default;

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Operation {
    /// With the guide held in the bite, drill for a fixation pin and set it.
    Pin {
        /// Its name in the case.
        name: Label,
    },
    /// Punch the tissue through the guide, one site after the other.
    Punch {
        /// The sites with tissue to punch.
        sites: Vec<SiteId>,
    },
    /// Take the guide off, take every plug of tissue out, seat the guide again with its pins.
    Reseat,
    /// Before the first guided cut: seat the guide where nothing seated it before, look through its
    /// windows, rock it, sound.
    Sound {
        /// The sites with a crest to sound against.
        sites: Vec<SiteId>,
    },
    /// Drill a step.
    Drill {
        /// The site.
        site: SiteId,
        /// The step.
        step: StepId,
    },
    /// Turn in the implant.
    Insert {
        /// The site.
        site: SiteId,
    },
    /// Take the guide off; every guided stop comes off its drill and is confirmed so.
    GuideOff,
}

/// Everything to do, in order; `to_sound` are the sites with a crest to sound against.
pub(in crate::plan) fn use_order(
    case: &Case,
    cuts: &[SiteCuts<'_>],
    to_sound: Vec<SiteId>,
) -> Vec<Operation> {
    let mut out: Vec<Operation> = case
        .guide
        .pins
        .iter()
        .map(|pin| Operation::Pin {
            name: pin.name.clone(),
        })
        .collect();
    let sites = to_punch(case);
    if !sites.is_empty() {
        out.push(Operation::Punch { sites });
        out.push(Operation::Reseat);
    }
    // Seated again it was looked at as well.
    let is_looked_at = out.contains(&Operation::Reseat);
    if is_guided(cuts) && !(is_looked_at && to_sound.is_empty()) {
        out.push(Operation::Sound { sites: to_sound });
    }
    // What holds the guide is finished first.
    let held = holding_by_default(case);
    let (first, rest): (Vec<&SiteCuts<'_>>, Vec<&SiteCuts<'_>>) = cuts
        .iter()
        .partition(|cut| held.contains(&cut.site.site.id));
    phase(case, &first, Phase::Guided, &mut out);
    phase(case, &rest, Phase::Guided, &mut out);
    out.push(Operation::GuideOff);
    let all: Vec<&SiteCuts<'_>> = cuts.iter().collect();
    phase(case, &all, Phase::Freehand, &mut out);
    out
}

/// True if anything is drilled or turned in through the guide.
fn is_guided(cuts: &[SiteCuts<'_>]) -> bool {
    cuts.iter().any(|cut| {
        let mut steps = cut.site.steps();
        cut.site.site.leads_implant() || steps.any(|step| step.path != StepPath::Freehand)
    })
}

/// The sites at which tissue is punched: none under a flap, and no socket, which is open.
pub(in crate::plan) fn to_punch(case: &Case) -> Vec<SiteId> {
    if case.guide.access != Access::Punch {
        return Vec::new();
    }
    let covered = case
        .sites
        .iter()
        .filter(|site| site.state.socket().is_none());
    covered.map(|site| site.id.clone()).collect()
}

/// Before and after the guide comes off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Phase {
    Guided,
    Freehand,
}

fn phase(case: &Case, cuts: &[&SiteCuts<'_>], phase: Phase, out: &mut Vec<Operation>) {
    let mut chains: Vec<(SiteId, Vec<(StepId, crate::measure::Length)>)> = cuts
        .iter()
        .map(|cut| {
            let steps = cut
                .site
                .steps()
                .filter(|step| (step.path == StepPath::Freehand) == (phase == Phase::Freehand))
                .map(|step| (step.step.id.clone(), step.drill.cutting_diameter_mm))
                .collect();
            (cut.site.site.id.clone(), steps)
        })
        .collect();
    let inserts = |cut: &SiteCuts<'_>| {
        let guided = cut.site.site.leads_implant();
        guided == (phase == Phase::Guided)
    };
    match case.setup.use_order {
        UseOrder::SiteBySite => {
            for (cut, (site, steps)) in cuts.iter().zip(chains) {
                out.extend(steps.into_iter().map(|(step, _)| Operation::Drill {
                    site: site.clone(),
                    step,
                }));
                if inserts(cut) {
                    out.push(Operation::Insert { site });
                }
            }
        }
        UseOrder::ByDiameter => {
            // Of the next steps of all sites always the narrowest; within one site the order of
            // its sequence stays.
            while let Some((site, steps)) = chains
                .iter_mut()
                .filter(|(_, steps)| !steps.is_empty())
                .min_by_key(|(_, steps)| steps[0].1)
            {
                let (step, _) = steps.remove(0);
                out.push(Operation::Drill {
                    site: site.clone(),
                    step,
                });
            }
            out.extend(
                cuts.iter()
                    .filter(|cut| inserts(cut))
                    .map(|cut| Operation::Insert {
                        site: cut.site.site.id.clone(),
                    }),
            );
        }
    }
}
