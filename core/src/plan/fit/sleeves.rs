//! The fit of sleeves with each other and with what runs in them: the drill sleeve in the master
//! sleeve, its flange in the recess, the drill's guided part in its bore.
//!
//! The flange rests on the master sleeve's rim, or on the floor of a recess that takes it. So the
//! kit says the same thing twice: the seat above the rim, measured assembled, is the flange's height
//! less the depth of such a recess. Where the two disagree, nobody knows how deep a drill goes.

use crate::case::{Place, Rule};
use crate::kit::{DrillSleeve, MasterSleeve, Recess, Stop, usual_allowances};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepContext, StepPath};
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Known, Reason};
use crate::plan::finding::{Allowed, Finding, Verdict};
use crate::plan::fit::stop::of_clearance;

/// A stretch along the axis in which something runs in something else.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Engagement {
    /// Its length; not above zero where nothing is led.
    pub(in crate::plan) length: Length,
    /// From the drill's tip up to its lower end.
    pub(super) above_tip: Length,
}

/// The part of a drill sleeve's barrel that runs in the master sleeve's bore, with the stop landed
/// at `set`.
pub(super) fn barrel_in_master(
    sleeve: &DrillSleeve,
    master: &MasterSleeve,
    set: Length,
) -> Engagement {
    // Both ends counted from the rim down. The bore begins at the rim, or at the floor of the
    // recess that the flange lies in.
    let top = sleeve.flange_below_rim().max(Length::ZERO);
    let bottom = (sleeve.length_mm - sleeve.seat_above_rim_mm).min(master.height_mm);
    Engagement {
        length: bottom - top,
        above_tip: set - sleeve.seat_above_rim_mm - bottom,
    }
}

/// The part of a drill's guided part that runs in the bore that leads it, with the stop landed at
/// `set`.
///
/// Nothing for a freehand step. Unknown where the kit does not say where that part begins.
pub(super) fn drill_in_bore(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    set: Length,
) -> Option<Known<Engagement>> {
    let length = match (step.path, step.sleeve) {
        (StepPath::Freehand, _) => return None,
        (StepPath::DrillSleeve, Some(sleeve)) => sleeve.length_mm,
        _ => site.master.height_mm,
    };
    let Some(from) = step.drill.guided_from() else {
        let path = Place::GuidedFrom(step.drill.id.clone());
        return Some(Known::Unknown(vec![Reason::Missing(path)]));
    };
    let lower = (set - length).max(from);
    Some(Known::Is(Engagement {
        length: set - lower,
        above_tip: lower,
    }))
}

/// Findings on a misfit of a drill sleeve in the site's master sleeve, whether a drill passes it or
/// the implant. `finding` gives a finding of a rule at the place in question.
pub(in crate::plan) fn check_sleeve(
    site: &SiteContext<'_>,
    sleeve: &DrillSleeve,
    finding: impl Fn(Rule) -> Finding,
    out: &mut Vec<Finding>,
) {
    let master = site.master;
    let about = |rule| finding(rule).arg("sleeve", &sleeve.name);
    if !sleeve.fits.contains(&master.id) {
        out.push(
            about(Rule::SleeveNotForMaster)
                .verdict(Verdict::Short)
                .arg("master", &master.name),
        );
    }
    let allowed = site.kit.allowances.sleeve_clearance;
    let clearance = site.master_bore_at_hand() - sleeve.barrel_diameter_mm;
    let usual = usual_allowances().sleeve_clearance;
    let by = Allowed::clearance("sleeve_clearance", allowed, usual, clearance);
    let finding = || {
        let finding = of_clearance(allowed, clearance, about(Rule::SleeveClearance));
        site.by_master_bore(finding)
    };
    out.extend(by.told(finding, Verdict::Short));
    let engaged = barrel_in_master(sleeve, master, Length::ZERO).length;
    if engaged <= Length::ZERO {
        out.push(
            about(Rule::SleeveNotInMaster)
                .verdict(Verdict::Short)
                .length(engaged)
                .limit(Length::ZERO)
                .arg("master", &master.name),
        );
    }
    out.extend(flange(master, sleeve, about));
}

/// Checks that the flange rests where the measured seat says that it does.
fn flange(
    master: &MasterSleeve,
    sleeve: &DrillSleeve,
    about: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    let below = sleeve.flange_below_rim();
    let recess = master.recess_for(sleeve.flange_diameter_mm);
    let rests_at = recess.map_or(Length::ZERO, |recess| recess.depth_mm);
    if below == rests_at {
        return None;
    }
    Some(match (master.recess, recess) {
        (None, _) if below > Length::ZERO => about(Rule::RecessUnknown)
            .verdict(Verdict::Unknown)
            .length(below)
            .arg("master", &master.name),
        (Some(given), None) if below > Length::ZERO => about(Rule::FlangeNotInRecess)
            .verdict(Verdict::Short)
            .length(given.diameter_mm)
            .limit(sleeve.flange_diameter_mm)
            .arg("master", &master.name),
        // How much higher than measured the landing face would stand by flange and recess.
        _ => about(Rule::SeatAgainstFlange)
            .verdict(Verdict::Unknown)
            .length(below - rests_at)
            .arg("master", &master.name),
    })
}

/// Findings on how a step's drill and stop sit in its sleeves.
pub(super) fn check_led(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    sheet: &StepSheet,
    finding: impl Fn(Rule) -> Finding,
    out: &mut Vec<Finding>,
) {
    if let Some(set) = sheet.set.length() {
        match drill_in_bore(site, step, set) {
            Some(Known::Unknown(_)) => {
                out.push(finding(Rule::GuidedPartUnknown).verdict(Verdict::Unknown));
            }
            Some(Known::Is(engaged)) if engaged.length <= Length::ZERO => out.push(
                finding(Rule::DrillNotLed)
                    .verdict(Verdict::Short)
                    .length(engaged.length)
                    .limit(Length::ZERO),
            ),
            _ => {}
        }
    }
    if let Some(stop) = step.stop {
        out.extend(stop_and_recess(site, step, stop, finding));
    }
}

/// The recess of an empty master sleeve, where a stop lands on its floor instead of the rim.
pub(super) fn sinks_into(master: &MasterSleeve, stop: &Stop) -> Option<Recess> {
    master.recess_for(stop.landing_diameter_mm)
}

/// Depth below its rim at which a stop lands on a master sleeve without the drill sleeve that
/// belongs in it; without a stop a mark is read at the rim.
///
/// If the kit gives no recess, but a drill sleeve lies below the rim, there is one: as deep as that
/// flange lies.
pub(in crate::plan) fn lands_below_rim(
    master: &MasterSleeve,
    without: Option<&DrillSleeve>,
    stop: Option<&Stop>,
) -> Length {
    let Some(stop) = stop else {
        return Length::ZERO;
    };
    match (master.recess, without) {
        (Some(_), _) => sinks_into(master, stop).map_or(Length::ZERO, |recess| recess.depth_mm),
        (None, Some(sleeve)) => sleeve.flange_below_rim().max(Length::ZERO),
        (None, None) => Length::ZERO,
    }
}

/// Checks that a stop lands on the face that the seat is counted to, and neither sinks into the
/// master sleeve's recess nor is held up by its rim.
fn stop_and_recess(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    stop: &Stop,
    finding: impl Fn(Rule) -> Finding,
) -> Option<Finding> {
    let recess = site.master.recess?;
    match (step.path, step.sleeve) {
        (StepPath::Freehand, _) => None,
        (StepPath::DrillSleeve, Some(sleeve)) => {
            let below = -sleeve.seat_above_rim_mm;
            (below > Length::ZERO && stop.body_diameter_mm > recess.diameter_mm).then(|| {
                finding(Rule::StopHeldByRim)
                    .verdict(Verdict::Short)
                    .length(below)
                    .arg("stop", &stop.name)
                    .arg("master", &site.master.name)
            })
        }
        _ => sinks_into(site.master, stop).map(|recess| {
            finding(Rule::StopSinksIntoRecess)
                .verdict(Verdict::Short)
                .length(recess.depth_mm)
                .arg("stop", &stop.name)
                .arg("master", &site.master.name)
        }),
    }
}
