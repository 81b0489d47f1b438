//! Settings that are set anew in surgery.

use super::Formatter;
use crate::plan::{DrillSetup, Fits, Operation, Reset, Worksheet};

/// A stop that is set anew in surgery, in words. Parts that give no setting may be shown at a
/// second reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ResetText {
    /// The drill: "twist 3.1, slot A2". No setting.
    pub drill: String,
    /// The settings before and after: "from 22.6 mm to 22.1 mm"; where the one before is not to be used, the one after
    /// alone, and where that is not, that it does not fit.
    pub change: String,
    /// The figure that the gauge then shows, where it is another one than the setting.
    pub gauge: Option<String>,
    /// After and before what: "after twist 3.1, lower right first molar (46); before …", before what alone where nothing is
    /// done with it until then. No setting.
    pub when: String,
    /// Before what alone. No setting.
    pub before: String,
}

impl Formatter<'_> {
    /// One thing that is set anew in surgery.
    #[must_use]
    pub fn reset(&self, reset: &Reset, worksheet: &Worksheet) -> ResetText {
        let slot = self.slot(&reset.to);
        let use_at = |place: usize| {
            let one = worksheet.order.get(place);
            one.map_or_else(String::new, |one| self.use_name(one))
        };
        let before = use_at(reset.before);
        let before = self.text("reset-before", &[("before", &before)]);
        let set = reset.to.set.as_ref();
        let set = set.filter(|on| on.fits == Fits::AsFarAsKnown);
        let gauge = set.map(|set| &set.gauge).filter(|gauge| {
            let shown = gauge.get();
            shown.is_some() && shown != set.and_then(|set| set.set.get())
        });
        ResetText {
            drill: self.text(
                "load-one-of",
                &[("name", reset.to.name.as_str()), ("slot", &slot)],
            ),
            change: self.change(reset),
            gauge: gauge.map(|gauge| {
                let gauge = self.set_length_with_unit(gauge);
                self.text("reset-gauge", &[("gauge", &gauge)])
            }),
            when: match last_before(reset, worksheet) {
                None => before.clone(),
                Some(after) => {
                    let args = [
                        ("after", &*use_at(after)),
                        ("before", &*use_at(reset.before)),
                    ];
                    self.text("reset-when", &args)
                }
            },
            before,
        }
    }

    /// That a drill is to be set anew, in one line: "Set anew twist 3.1, slot A2, from …".
    #[must_use]
    pub fn reset_line(&self, reset: &Reset, worksheet: &Worksheet) -> String {
        let said = self.reset(reset, worksheet);
        if is_refused(reset) {
            return self.text("reset-line-does-not-fit", &[("drill", &said.drill)]);
        }
        let args = [("drill", &*said.drill), ("change", &*said.change)];
        match &said.gauge {
            Some(gauge) => {
                let [drill, change] = args;
                self.text("reset-line-gauge", &[drill, change, ("gauge", gauge)])
            }
            None => self.text("reset-line", &args),
        }
    }

    /// The next setting of a drill in surgery, beside its first one: "in surgery it is set anew …".
    #[must_use]
    pub fn reset_ahead(&self, reset: &Reset, worksheet: &Worksheet) -> String {
        let said = self.reset(reset, worksheet);
        if is_refused(reset) {
            return self.text("reset-ahead-does-not-fit", &[("when", &said.when)]);
        }
        let args = [("change", &*said.change), ("when", &*said.when)];
        self.text("reset-ahead", &args)
    }

    /// The settings before and after, with the stop where it is another one.
    fn change(&self, reset: &Reset) -> String {
        let from = self.set_to_use_with_unit(&reset.from.set, reset.from.fits);
        let Some(to) = &reset.to.set else {
            return from;
        };
        let set = self.set_to_use_with_unit(&to.set, to.fits);
        if to.fits == Fits::No {
            return set;
        }
        if reset.from.fits == Fits::No {
            return self.text("reset-change-to", &[("to", &set)]);
        }
        let args = [("from", &*from), ("to", &*set)];
        match (&reset.from.stop, &to.stop) {
            (Some(was), Some(is)) if was != is => {
                let (was, is) = (self.stop(was), self.stop(is));
                let [from, to] = args;
                self.text("reset-change-stop", &[from, to, ("was", &was), ("is", &is)])
            }
            _ => match self.groove(to) {
                Some(groove) => {
                    let [from, to] = args;
                    self.text("reset-change-groove", &[from, to, ("groove", &groove)])
                }
                None => self.text("reset-change", &args),
            },
        }
    }

    /// The place of a setting among a fixed stop's lengths.
    fn groove(&self, on: &DrillSetup) -> Option<String> {
        self.fixed_place(on.stop.as_ref()?, &on.drill, on.set.get()?)
    }

    /// Something to do in a few words, without any setting: "twist 3.1, lower right first molar (46)".
    #[must_use]
    pub fn use_name(&self, one: &Operation) -> String {
        match one {
            Operation::Drill { site, step } => {
                let (step, place) = (self.step(site, step), self.site(site));
                self.text("load-serves-step", &[("step", &step), ("site", &place)])
            }
            Operation::Pin { name } => self.text("use-name-pin", &[("name", name.as_str())]),
            // No drill is set for these.
            Operation::Insert { site } => self.site(site),
            Operation::Punch { .. }
            | Operation::Reseat
            | Operation::Sound { .. }
            | Operation::GuideOff => self.word("load-whole-case"),
        }
    }
}

/// The last thing that is really done with a drill before it is set anew, by its place in the order of use: where a setting
/// does not fit nothing is done with it.
fn last_before(reset: &Reset, worksheet: &Worksheet) -> Option<usize> {
    let of_drill: Vec<&Reset> = worksheet.resets_of(reset.item).collect();
    let this = of_drill
        .iter()
        .rposition(|one| one.before == reset.before)?;
    let mut back = of_drill[..=this].iter().rev();
    let done = back.find(|one| one.from.fits == Fits::AsFarAsKnown);
    done.map(|one| one.after)
}

/// True if the setting after is known and not to be used.
fn is_refused(reset: &Reset) -> bool {
    let to = reset.to.set.as_ref();
    to.is_some_and(|on| on.fits == Fits::No && on.set.value().is_some())
}
