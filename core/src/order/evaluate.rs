//! The cost of a schedule, step by step as the run order is stated; a check that it is one at all.

use super::valid::{Contiguity, SleeveOp};
use super::{ValidProblem, Weights};

/// One step of a schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// The site whose next step is done, from 0.
    pub site: usize,
    /// The copy of the tool that is used, from 0; none where the step has no instrument.
    pub copy: Option<usize>,
    /// The site from which a sleeve is taken because no piece of it is free.
    pub victim: Option<usize>,
}

/// The number of times that each change happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Another instrument is taken into the handpiece; the first counts.
    pub mounts: u32,
    /// A stop is set anew during surgery; the first setting of a copy does not count.
    pub resets: u32,
    /// Another site; the first does not count.
    pub moves: u32,
    /// A sleeve is put in.
    pub sleeves: u32,
    /// Another speed; the first does not count.
    pub speeds: u32,
}

/// The changes at one step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Event {
    /// The step's place in its site, from 0.
    pub step: usize,
    /// The changes before the step.
    pub changes: Tally,
}

/// The cost of a schedule. Which of two is better depends on the objective.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cost {
    /// Re-sets during surgery.
    pub resets: u32,
    /// Time of all changes, re-sets among them, in tenths of a second.
    pub time_ds: u64,
}

/// A fault that makes something no schedule of a problem: the entry and what is wrong with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("entry {entry}: {why}")]
pub struct ScheduleError {
    /// The entry, from 0; the count of entries where they end too early.
    pub entry: usize,
    /// The fault.
    pub why: Breach,
}

/// A fault of a schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Breach {
    /// There is no such site, or it is finished.
    #[error("the site has no step left")]
    NoStep,
    /// A rule wants another step first.
    #[error("another step has to come before")]
    TooEarly,
    /// Another site was begun and has to be finished first.
    #[error("another site was begun")]
    Interrupts,
    /// There is no such copy, or one is named for a step without an instrument, or none is.
    #[error("the copy is none of those that there are")]
    Copy,
    /// A sleeve is taken where none need be, or from a site that does not hold it, or none is taken.
    #[error("the sleeve is taken from the wrong place")]
    Victim,
    /// Some step is not done.
    #[error("steps are left")]
    Unfinished,
}

impl Tally {
    /// The time of these changes in tenths of a second.
    #[must_use]
    pub fn time_ds(&self, weights: &Weights) -> u64 {
        [
            (self.mounts, weights.mount_ds),
            (self.resets, weights.reset_ds),
            (self.moves, weights.move_ds),
            (self.sleeves, weights.sleeve_ds),
            (self.speeds, weights.speed_ds),
        ]
        .iter()
        .map(|(count, weight)| u64::from(*count) * u64::from(*weight))
        .sum()
    }

    /// The cost of these changes.
    #[must_use]
    pub fn cost(&self, weights: &Weights) -> Cost {
        Cost {
            resets: self.resets,
            time_ds: self.time_ds(weights),
        }
    }

    /// Adds other changes.
    pub const fn add(&mut self, other: &Self) {
        self.mounts += other.mounts;
        self.resets += other.resets;
        self.moves += other.moves;
        self.sleeves += other.sleeves;
        self.speeds += other.speeds;
    }
}

/// The cost of a schedule.
///
/// # Errors
///
/// The first entry that breaks the statement of the problem.
pub fn evaluate(problem: &ValidProblem, schedule: &[Entry]) -> Result<Cost, ScheduleError> {
    let mut tally = Tally::default();
    for event in events(problem, schedule)? {
        tally.add(&event.changes);
    }
    Ok(tally.cost(&problem.weights))
}

/// The changes at each entry of a schedule.
///
/// # Errors
///
/// The first entry that breaks the statement of the problem.
pub fn events(problem: &ValidProblem, schedule: &[Entry]) -> Result<Vec<Event>, ScheduleError> {
    let mut room = Room::new(problem);
    let mut events = Vec::with_capacity(schedule.len());
    for (n, entry) in schedule.iter().enumerate() {
        let event = room.carry_out(entry);
        events.push(event.map_err(|why| ScheduleError { entry: n, why })?);
    }
    if events.len() < problem.step_count() {
        let (entry, why) = (events.len(), Breach::Unfinished);
        return Err(ScheduleError { entry, why });
    }
    Ok(events)
}

/// The operating room: the state of every site and the tool in the handpiece.
struct Room<'a> {
    problem: &'a ValidProblem,
    done: Vec<usize>,
    hand: Option<(usize, usize)>,
    site: Option<usize>,
    speed: Option<u32>,
    carried: Vec<Vec<Option<usize>>>,
    holds: Vec<Option<usize>>,
}

impl<'a> Room<'a> {
    fn new(problem: &'a ValidProblem) -> Self {
        let tools = problem.tools.iter();
        Self {
            problem,
            done: vec![0; problem.ops.len()],
            hand: None,
            site: None,
            speed: None,
            carried: tools.map(|tool| vec![None; tool.copies as usize]).collect(),
            holds: vec![None; problem.ops.len()],
        }
    }

    fn carry_out(&mut self, entry: &Entry) -> Result<Event, Breach> {
        let Entry { site, copy, victim } = *entry;
        let chain = self.problem.ops.get(site).ok_or(Breach::NoStep)?;
        let step = self.done[site];
        let op = chain.get(step).ok_or(Breach::NoStep)?;
        let needs = &self.problem.needs[site][step];
        if needs.iter().any(|(other, step)| self.done[*other] <= *step) {
            return Err(Breach::TooEarly);
        }
        let mut changes = Tally::default();
        if let Some(before) = self.site.filter(|before| *before != site) {
            let unfinished = self.done[before] < self.problem.ops[before].len();
            if unfinished && self.problem.contiguity == Contiguity::SiteBySite {
                return Err(Breach::Interrupts);
            }
            let goes_on = step == 0 && self.problem.continues[site] == Some(before);
            changes.moves = u32::from(!goes_on);
        }
        self.site = Some(site);
        self.done[site] += 1;
        match (op.tool, copy) {
            (Some((tool, setting)), Some(copy)) => {
                let carried = self.carried[tool].get_mut(copy).ok_or(Breach::Copy)?;
                changes.mounts = u32::from(self.hand != Some((tool, copy)));
                self.hand = Some((tool, copy));
                changes.resets = u32::from(carried.is_some_and(|before| before != setting));
                *carried = Some(setting);
            }
            (None, None) => {}
            _ => return Err(Breach::Copy),
        }
        changes.sleeves = self.sleeve(site, op.sleeve, victim)?;
        if let Some(speed) = op.speed {
            changes.speeds = u32::from(self.speed.is_some_and(|before| before != speed));
            self.speed = Some(speed);
        }
        Ok(Event { step, changes })
    }

    /// Carries out what a step does with the sleeve; gives the number put in.
    fn sleeve(&mut self, site: usize, op: SleeveOp, victim: Option<usize>) -> Result<u32, Breach> {
        let SleeveOp::Place(sleeve) = op else {
            if op == SleeveOp::Out {
                self.holds[site] = None;
            }
            return victim.map_or(Ok(0), |_| Err(Breach::Victim));
        };
        if self.holds[site] == Some(sleeve) {
            return victim.map_or(Ok(0), |_| Err(Breach::Victim));
        }
        let out = self.holds.iter().filter(|held| **held == Some(sleeve));
        let all_out = out.count() == self.problem.sleeves[sleeve].pieces as usize;
        match victim {
            Some(from) if all_out && self.holds.get(from) == Some(&Some(sleeve)) => {
                self.holds[from] = None;
            }
            None if !all_out => {}
            _ => return Err(Breach::Victim),
        }
        self.holds[site] = Some(sleeve);
        Ok(1)
    }
}
