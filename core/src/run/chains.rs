//! A case as a problem of the run order.

use super::copies::DrillTools;
use super::rules;
use crate::case::{Case, Site, ValidCase};
use crate::kit::{Drill, DrillId, DrillKind, StopId};
use crate::measure::Length;
use crate::order::{
    self, Chain, Id, Instrument, ORDER_VERSION, Problem, Refused, Sleeve, SleeveUse, ValidProblem,
};
use crate::plan::{Operation, PinSheet, Reason, StepPath, StepSheet, Worksheet};
use std::collections::BTreeMap;

/// A reason why a case has no run order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoRun {
    /// There is nothing to do.
    Nothing,
    /// Settings that are not known: two of them may or may not be one.
    Unknown(Vec<Reason>),
    /// No order can obey the rules with what there is.
    Refused(Refused),
}

/// A case as a problem of the run order.
///
/// - A chain of the problem is a site as far as the guide leads, a site after it is off, or a pin.
///   Pins and guide are barriers: rules between chains. What is done for the whole jaw comes
///   between them and costs nothing here.
/// - The motor is taken to be turned to the speed that the kit gives as a drill's greatest.
/// - An implant is turned in with its carrier, or with a driver, of which one is assumed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunProblem {
    /// The problem.
    pub problem: ValidProblem,
    /// The steps of each of its chains.
    pub uses: Vec<Vec<Operation>>,
    /// The setting that each of them wants of its drill; nothing for what is no drill.
    pub(super) sets: Vec<Vec<Option<DrillSetting>>>,
    /// The phase of each chain.
    pub(super) phases: Vec<Phase>,
    /// Everything that is done for the whole jaw before the first guided step.
    pub(super) before_guided: Vec<Operation>,
}

/// A drill with what is set on it, or with a mark that is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct DrillSetting {
    pub(super) drill: DrillId,
    pub(super) stop: Option<StopId>,
    pub(super) set: Option<Length>,
}

/// A phase that has to be finished before the next begins, for the whole jaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Phase {
    Pins,
    Guided,
    Freehand,
}

/// A chain while the problem is made.
pub(super) struct ChainDraft {
    pub(super) id: Id,
    pub(super) phase: Phase,
    /// The site's or the pin's place in the case.
    place: usize,
    pub(super) steps: Vec<(Operation, order::Operation)>,
}

impl ChainDraft {
    /// What is done by hand goes on where the guide led.
    fn continues(&self, all: &[Self]) -> Option<Id> {
        let guided = |one: &&Self| one.phase == Phase::Guided && one.place == self.place;
        let freehand = self.phase == Phase::Freehand;
        let before = all.iter().find(guided).filter(|_| freehand);
        before.map(|one| one.id.clone())
    }
}

/// The tool with which an implant is turned in that has no carrier.
pub(super) const DRIVER: &str = "driver";

/// The case as a problem. `worksheet` is the one worked out from it.
///
/// # Errors
///
/// The reason why there is none.
pub fn run_problem(case: &ValidCase, worksheet: &Worksheet) -> Result<RunProblem, NoRun> {
    let drills = DrillTools::of(case, worksheet);
    let drafts = drafts(case, worksheet, &drills)?;
    if drafts.is_empty() {
        return Err(NoRun::Nothing);
    }
    let chains = drafts.iter().map(|one| Chain {
        id: one.id.clone(),
        continues: one.continues(&drafts),
        steps: one.steps.iter().map(|(_, step)| step.clone()).collect(),
    });
    let problem = Problem {
        traywright_order: ORDER_VERSION,
        objective: case.run.objective,
        weights: case.run.weights,
        tools: drills.tools(case, &drafts),
        sleeves: sleeves(case, &drafts),
        rules: rules::rules(case, &drafts),
        sites: chains.collect(),
    };
    let sets = drafts.iter().map(|one| {
        let steps = one.steps.iter();
        steps
            .map(|(what, _)| drill_setting(worksheet, what))
            .collect()
    });
    let sets = sets.collect();
    let what = |one: ChainDraft| one.steps.into_iter().map(|(what, _)| what).collect();
    Ok(RunProblem {
        problem: ValidProblem::try_from(problem).map_err(NoRun::Refused)?,
        sets,
        phases: drafts.iter().map(|one| one.phase).collect(),
        before_guided: worksheet
            .order
            .iter()
            .filter(|one| one.ordered().is_none() && **one != Operation::GuideOff)
            .cloned()
            .collect(),
        uses: drafts.into_iter().map(what).collect(),
    })
}

/// All chains, phase by phase, those of sites in the order of the case.
fn drafts(
    case: &Case,
    worksheet: &Worksheet,
    drills: &DrillTools,
) -> Result<Vec<ChainDraft>, NoRun> {
    let mut chains: BTreeMap<(Phase, usize), Vec<(Operation, order::Operation)>> = BTreeMap::new();
    let mut unknown: Vec<Reason> = Vec::new();
    for one in &worksheet.order {
        match operation(case, (worksheet, drills), one) {
            Ok(Some((key, step))) => chains.entry(key).or_default().push((one.clone(), step)),
            Ok(None) => {}
            Err(reasons) => unknown.extend(reasons),
        }
    }
    if !unknown.is_empty() {
        unknown.sort();
        unknown.dedup();
        return Err(NoRun::Unknown(unknown));
    }
    let named = chains
        .into_iter()
        .map(|((phase, place), steps)| ChainDraft {
            id: chain_id(case, phase, place),
            phase,
            place,
            steps,
        });
    Ok(named.collect())
}

/// The name of a chain. Each phase has a word of its own, so that no two are alike.
fn chain_id(case: &Case, phase: Phase, place: usize) -> Id {
    let site = case.sites.get(place).map_or("", |site| site.id.as_str());
    Id::from(
        match phase {
            Phase::Pins => format!("pin.{}", place + 1),
            Phase::Guided => format!("site.{site}"),
            Phase::Freehand => format!("freehand.{site}"),
        }
        .as_str(),
    )
}

/// The chain that something belongs to and what it is there; nothing for what is no step.
type Step = Option<((Phase, usize), order::Operation)>;

fn operation(
    case: &Case,
    (worksheet, drills): (&Worksheet, &DrillTools),
    one: &Operation,
) -> Result<Step, Vec<Reason>> {
    let site = |id: &crate::kit::SiteId| case.sites.iter().position(|site| site.id == *id);
    let step = match one {
        Operation::Punch { .. }
        | Operation::Reseat
        | Operation::Sound { .. }
        | Operation::GuideOff => None,
        Operation::Pin { name } => match worksheet.pins.iter().position(|pin| pin.name == *name) {
            Some(n) => Some(((Phase::Pins, n), pin(case, drills, &worksheet.pins[n])?)),
            None => None,
        },
        Operation::Insert { site: id } => site(id).map(|n| {
            let site = &case.sites[n];
            ((phase_of_insertion(site), n), insertion(site))
        }),
        Operation::Drill { site: id, step } => {
            let sheet = worksheet.sites.iter().find(|sheet| sheet.id == *id);
            let sheet = sheet.and_then(|sheet| sheet.steps.iter().find(|s| s.id == *step));
            match (site(id), sheet) {
                (Some(n), Some(sheet)) => {
                    Some(((phase_of(sheet), n), drilling(case, drills, sheet)?))
                }
                _ => None,
            }
        }
    };
    Ok(step)
}

fn drill_setting(worksheet: &Worksheet, one: &Operation) -> Option<DrillSetting> {
    let (drill, stop, set) = match one {
        Operation::Pin { name } => {
            let sheet = worksheet.pins.iter().find(|pin| pin.name == *name)?;
            (&sheet.drill, &sheet.stop, &sheet.set)
        }
        Operation::Drill { site, step } => {
            let sheet = worksheet.sites.iter().find(|sheet| sheet.id == *site)?;
            let sheet = sheet.steps.iter().find(|sheet| sheet.id == *step)?;
            (&sheet.drill, &sheet.stop, &sheet.set)
        }
        _ => return None,
    };
    Some(DrillSetting {
        drill: drill.clone(),
        stop: stop.clone(),
        set: set.known_length().get(),
    })
}

fn phase_of(sheet: &StepSheet) -> Phase {
    match sheet.path {
        StepPath::Freehand => Phase::Freehand,
        StepPath::DrillSleeve | StepPath::MasterSleeve => Phase::Guided,
    }
}

fn phase_of_insertion(site: &Site) -> Phase {
    if site.leads_implant() {
        Phase::Guided
    } else {
        Phase::Freehand
    }
}

fn pin(
    case: &Case,
    drills: &DrillTools,
    sheet: &PinSheet,
) -> Result<order::Operation, Vec<Reason>> {
    let set = sheet.set.known_length();
    let set = set.get().ok_or_else(|| set.reasons().to_vec())?;
    Ok(order::Operation {
        instrument: Some(Instrument {
            tool: drills.tool(&sheet.drill, sheet.stop.as_ref(), set),
            setting: sheet.stop.as_ref().map(|stop| setting(stop.as_str(), set)),
        }),
        sleeve: SleeveUse::Keep,
        speed_rpm: case.kit.drill(&sheet.drill).and_then(speed),
    })
}

fn drilling(
    case: &Case,
    drills: &DrillTools,
    sheet: &StepSheet,
) -> Result<order::Operation, Vec<Reason>> {
    let set = sheet.set.known_length();
    let set = set.get().ok_or_else(|| set.reasons().to_vec())?;
    let sleeve = match (sheet.path, &sheet.sleeve) {
        (StepPath::Freehand, _) => SleeveUse::Keep,
        (_, Some(sleeve)) => SleeveUse::Place(Id::from(sleeve.as_str())),
        (_, None) => SleeveUse::Out,
    };
    Ok(order::Operation {
        instrument: Some(Instrument {
            tool: drills.tool(&sheet.drill, sheet.stop.as_ref(), set),
            setting: sheet.stop.as_ref().map(|stop| setting(stop.as_str(), set)),
        }),
        sleeve,
        speed_rpm: case.kit.drill(&sheet.drill).and_then(speed),
    })
}

fn insertion(site: &Site) -> order::Operation {
    let guided = phase_of_insertion(site) == Phase::Guided;
    let carrier = site.insertion.carrier.as_ref().filter(|_| guided);
    let tool = carrier.map_or_else(|| Id::from(DRIVER), |id| carrier_id(id.as_str()));
    let sleeve = match &site.insertion.sleeve {
        _ if !guided => SleeveUse::Keep,
        Some(sleeve) => SleeveUse::Place(Id::from(sleeve.as_str())),
        None => SleeveUse::Out,
    };
    order::Operation {
        instrument: Some(Instrument {
            tool,
            setting: None,
        }),
        sleeve,
        speed_rpm: None,
    }
}

pub(super) fn carrier_id(id: &str) -> Id {
    Id::from(format!("carrier.{id}").as_str())
}

/// A stop at a length: another stop on the same drill is another setting.
fn setting(stop: &str, set: Length) -> Id {
    Id::from(format!("{stop}.{}", set.um()).as_str())
}

fn speed(drill: &Drill) -> Option<u32> {
    drill.greatest_speed_rpm.map(crate::measure::Speed::rpm)
}

/// True if the rule by diameter applies to a drill: profile drills, taps and pin drills are not in
/// the row of diameters.
pub(super) const fn is_in_row(kind: DrillKind) -> bool {
    matches!(kind, DrillKind::Pilot | DrillKind::Twist)
}

fn sleeves(case: &Case, drafts: &[ChainDraft]) -> Vec<Sleeve> {
    let steps = || drafts.iter().flat_map(|one| &one.steps);
    let used = |id: &str| {
        steps().any(|(_, step)| matches!(&step.sleeve, SleeveUse::Place(s) if s.as_str() == id))
    };
    let sleeves = case.kit.drill_sleeves.iter();
    sleeves
        .filter(|sleeve| used(sleeve.id.as_str()))
        .map(|sleeve| Sleeve {
            id: Id::from(sleeve.id.as_str()),
            pieces: sleeve.quantity.min(MOST_PIECES),
        })
        .collect()
}

/// More pieces than a problem may have are as good as that many.
pub(super) const MOST_PIECES: u32 = 100;
