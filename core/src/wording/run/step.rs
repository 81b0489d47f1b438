//! A step of a run order, and what happens before it.

use super::super::Formatter;
use crate::measure::Length;
use crate::order::{Change, Tally};
use crate::plan::{Fits, Known, Operation, PinSheet, StepSheet, Worksheet};
use crate::run::RunStep;

/// A step of a run order in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunStepText {
    /// The site or pin: "lower right first molar (46)"; nothing for what is done for the whole jaw.
    pub place: Option<String>,
    /// The instrument: "Tip drill 2.57"; for the whole jaw what is done, in a word or two.
    pub instrument: String,
    /// The setting without unit: "20.7"; nothing for what is not set.
    pub set: Option<String>,
    /// The slot of a drill: it distinguishes drills of one name.
    pub slot: Option<String>,
    /// Each change before it, in words that say what becomes of it.
    pub changes: Vec<(Change, String)>,
    /// The operation, as in the order of use.
    pub line: String,
}

impl Tally {
    /// Number of times that a change happens.
    #[must_use]
    pub const fn of(&self, change: Change) -> u32 {
        match change {
            Change::Mount => self.mounts,
            Change::Reset => self.resets,
            Change::Move => self.moves,
            Change::Sleeve => self.sleeves,
            Change::Speed => self.speeds,
        }
    }
}

impl Formatter<'_> {
    /// A step with the changes before it.
    #[must_use]
    pub fn run_step(&self, step: &RunStep, worksheet: &Worksheet) -> RunStepText {
        let changes = Change::ALL.into_iter();
        let changes = changes.filter(|change| step.changes.of(*change) > 0);
        RunStepText {
            place: self.run_place(&step.what),
            instrument: self.run_instrument(&step.what, worksheet),
            set: self.run_setting(&step.what, worksheet),
            slot: run_slot(&step.what, worksheet),
            changes: changes
                .map(|change| (change, self.run_event(change, &step.what, worksheet)))
                .collect(),
            line: self.use_line(&step.what, worksheet),
        }
    }

    /// A change before a step: "re-set its stop to 19.1 mm".
    #[must_use]
    pub fn run_event(&self, change: Change, what: &Operation, worksheet: &Worksheet) -> String {
        match change {
            Change::Mount => {
                let instrument = self.run_instrument(what, worksheet);
                match run_slot(what, worksheet) {
                    Some(slot) => {
                        let args = [("instrument", instrument.as_str()), ("slot", &slot)];
                        self.text("run-event-mount-from", &args)
                    }
                    None => self.text("run-event-mount", &[("instrument", &instrument)]),
                }
            }
            Change::Reset => match stop_setting(what, worksheet) {
                Some((Known::Is(_), Fits::No)) => self.word("run-event-reset-does-not-fit"),
                Some((set, _)) => {
                    let set = self.set_length_with_unit(&set);
                    self.text("run-event-reset", &[("set", &set)])
                }
                None => self.word("run-event-stop-off"),
            },
            Change::Move => {
                let place = self.run_place(what).unwrap_or_default();
                self.text("run-event-move", &[("place", &place)])
            }
            Change::Sleeve => match self.run_sleeve(what, worksheet) {
                Some(sleeve) => self.text("run-event-sleeve", &[("sleeve", &sleeve)]),
                None => self.run_change_in_full(change),
            },
            Change::Speed => match self.run_speed(what, worksheet) {
                Some(speed) => self.text("run-event-speed", &[("speed", &speed)]),
                None => self.run_change_in_full(change),
            },
        }
    }

    /// The site or pin.
    fn run_place(&self, what: &Operation) -> Option<String> {
        match what {
            Operation::Pin { name } => Some(self.text("run-pin", &[("name", name.as_str())])),
            Operation::Drill { site, .. } | Operation::Insert { site } => Some(self.site(site)),
            Operation::Punch { .. }
            | Operation::Reseat
            | Operation::Sound { .. }
            | Operation::GuideOff => None,
        }
    }

    /// The instrument in the handpiece; for the whole jaw the operation.
    #[must_use]
    pub fn run_instrument(&self, what: &Operation, worksheet: &Worksheet) -> String {
        let word = |id: &str| self.word(id);
        match what {
            Operation::Pin { .. } => pin(what, worksheet).map(|pin| self.drill(&pin.drill)),
            Operation::Drill { .. } => step(what, worksheet).map(|step| self.drill(&step.drill)),
            Operation::Insert { site } => self.case.site(site.as_str()).map(|site| {
                let guided = site.leads_implant();
                let carrier = site.insertion.carrier.as_ref().filter(|_| guided);
                carrier.map_or_else(|| word("run-driver"), |carrier| self.carrier(carrier))
            }),
            Operation::Punch { .. } => Some(word("run-jaw-punch")),
            Operation::Reseat => Some(word("run-jaw-reseat")),
            Operation::Sound { .. } => Some(word("run-jaw-sound")),
            Operation::GuideOff => Some(word("run-jaw-guide-off")),
        }
        .unwrap_or_default()
    }

    fn run_setting(&self, what: &Operation, worksheet: &Worksheet) -> Option<String> {
        match what {
            Operation::Pin { .. } => {
                let pin = pin(what, worksheet)?;
                Some(self.set_to_use(&pin.set.known_length(), pin.fits))
            }
            Operation::Drill { .. } => Some(self.setting(step(what, worksheet)?)),
            _ => None,
        }
    }

    fn run_sleeve(&self, what: &Operation, worksheet: &Worksheet) -> Option<String> {
        match what {
            Operation::Insert { site } => {
                let site = self.case.site(site.as_str())?;
                Some(self.sleeve(site.insertion.sleeve.as_ref()?))
            }
            _ => Some(self.sleeve(step(what, worksheet)?.sleeve.as_ref()?)),
        }
    }

    fn run_speed(&self, what: &Operation, worksheet: &Worksheet) -> Option<String> {
        let drill = match what {
            Operation::Pin { .. } => &pin(what, worksheet)?.drill,
            _ => &step(what, worksheet)?.drill,
        };
        let speed = self.case.kit.drill(drill)?.greatest_speed_rpm?;
        Some(self.counted("sheet-rpm", &[("speed", speed.rpm())], &[]))
    }
}

/// The setting, where a stop carries it, and if it may be used.
fn stop_setting(what: &Operation, worksheet: &Worksheet) -> Option<(Known<Length>, Fits)> {
    if let Some(pin) = pin(what, worksheet) {
        pin.stop.as_ref()?;
        return Some((pin.set.known_length(), pin.fits));
    }
    let step = step(what, worksheet)?;
    step.stop.as_ref()?;
    Some((step.set.known_length(), step.fits))
}

/// The slot of a step's drill, which distinguishes it from others of its name.
fn run_slot(what: &Operation, worksheet: &Worksheet) -> Option<String> {
    let Operation::Drill { site, step } = what else {
        return None;
    };
    let slot = worksheet.drill_of(site, step)?.slot.as_ref()?;
    Some(slot.to_string())
}

fn step<'w>(what: &Operation, worksheet: &'w Worksheet) -> Option<&'w StepSheet> {
    let Operation::Drill { site, step } = what else {
        return None;
    };
    let sheet = worksheet.sites.iter().find(|sheet| sheet.id == *site)?;
    sheet.steps.iter().find(|one| one.id == *step)
}

fn pin<'w>(what: &Operation, worksheet: &'w Worksheet) -> Option<&'w PinSheet> {
    let Operation::Pin { name } = what else {
        return None;
    };
    worksheet.pins.iter().find(|pin| pin.name == *name)
}
