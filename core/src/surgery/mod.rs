//! The day of surgery: what is done one step after the other, and how far it is by the record.
//!
//! Pure: no clock, no file, no state. The steps follow from the worksheet, their state from what was recorded of them
//! ([`Standing::day`]), what speaks against a step from how its drill stands. Nothing is kept: after an end of the program,
//! whatever it was, the day is where its last event left it.
//!
//! A step counts as done only where what was recorded is that very step, with its drill, its sleeve and its setting. The same
//! work as another plan had it is told beside it ([`DayStep::otherwise`]), and the step is open.

mod alike;
mod count;
mod cut_before;
mod guide;
mod held;
mod list;
mod older;
mod piece;
mod reached;
mod ready;
mod state;
mod without_guide;

#[cfg(test)]
mod tests;

pub use crate::sign::CountKind;
pub use alike::{LookAlike, OtherSetting};
pub use count::{CountWanted, wanted_by};
pub use cut_before::{cut_without_site, what_was_cut};
pub use held::Held;
pub use piece::piece;
pub use reached::{DepthOff, TorqueAgainst, depth_off, torque_against};
pub use ready::NotReady;
pub use without_guide::{Afterwards, afterwards, tray_stays, without_guide};

use crate::case::{LimitId, ValidCase};
use crate::kit::{DrillSleeveId, Kit, Label, SiteId};
use crate::measure::Length;
use crate::plan::{LoadItem, PinSheet, Reset, SiteSheet, StepSheet, Worksheet};
use crate::sign::{
    DayEvent, DrillKey, EventKind, Fall, Inserted, InsertionWay, ItemStanding, Led, PlanView,
    PlannedItem, SiteKey, Standing, StepKey,
};

/// The day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day<'a> {
    /// Its steps, in the order of use.
    pub steps: Vec<DayStep<'a>>,
    /// The first time that it was begun; none before that.
    pub begun: Option<&'a DayEvent>,
    /// The last time that it was begun or gone on with.
    pub gone_on: Option<&'a DayEvent>,
    /// What is in the guide now, by what was recorded.
    pub held: Held,
    /// The word that the guide is abandoned, as long as it stands.
    pub abandoned: Option<&'a DayEvent>,
    /// The last fall of the guide after which nobody said which guide goes in.
    pub guide_fell: Option<&'a Fall>,
    /// What was recorded of steps that this plan does not have.
    pub of_no_step: Vec<&'a DayEvent>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct DayStep<'a> {
    /// Its identity; what was recorded of it bears the same.
    pub key: StepKey,
    /// What is done.
    pub work: Work<'a>,
    /// How far it is.
    pub state: State<'a>,
    /// The same work as it was recorded under another plan, done before all; of a step that is left out nothing else. None where it
    /// was not, or this one is done.
    pub otherwise: Option<&'a DayEvent>,
    /// What keeps it from being ready, the worst first; nothing of what is done.
    pub not_ready: Vec<NotReady>,
    /// Everything that was recorded of it and not taken back, in order.
    pub recorded: Vec<&'a DayEvent>,
    /// True for a count after which something fell: it is counted anew.
    pub fell_since: bool,
}

/// What is done in a step.
#[derive(Debug, Clone, PartialEq)]
pub enum Work<'a> {
    /// Everything is counted, before the first cut or before closing.
    Count(Vec<CountWanted>),
    /// A pin is drilled for and set.
    Pin {
        /// Its figures.
        sheet: &'a PinSheet,
        /// Its drill.
        drill: Option<SetDrill<'a>>,
    },
    /// Tissue is punched.
    Punch(Vec<&'a SiteSheet>),
    /// The guide is seated again without the plugs.
    Reseat,
    /// The guide is seated and looked at.
    Seat,
    /// A site is sounded.
    Sound(Sounding<'a>),
    /// A drill is set anew in the sterile field.
    SetAnew {
        /// The setting before and after.
        reset: &'a Reset,
        /// The drill as it is afterwards.
        drill: SetDrill<'a>,
    },
    /// A site is drilled.
    Drill(Box<Drilling<'a>>),
    /// What follows a step before the next.
    Look {
        /// The site.
        site: &'a SiteSheet,
        /// What is done.
        what: &'a Label,
    },
    /// An implant is turned in.
    Insert {
        /// The site.
        site: &'a SiteSheet,
        /// The implant on the tray.
        item: Option<&'a LoadItem>,
        /// Drill sleeves that come out before, each with the site that it is in.
        out: Vec<(&'a SiteSheet, DrillSleeveId)>,
    },
    /// An implant that was begun through its sleeve is turned to its depth by hand.
    Finish {
        /// The site.
        site: &'a SiteSheet,
    },
    /// The guide is taken off with every guided stop.
    GuideOff {
        /// The drills that carry a guided stop, each once.
        stops: Vec<GuidedStop>,
    },
}

/// A drill with a stop that counts from a sleeve in the guide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GuidedStop {
    /// The drill.
    pub drill: DrillKey,
    /// Its slot; none where it is in none.
    pub slot: Option<String>,
}

/// A drill with its setting, and how it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetDrill<'a> {
    /// As it is set for the step.
    pub item: &'a LoadItem,
    /// The setting that readings are held against; none where it is not known.
    pub planned: Option<&'a PlannedItem>,
    /// What of the record counts for it.
    pub standing: Option<&'a ItemStanding>,
}

/// Drilling at a site.
#[derive(Debug, Clone, PartialEq)]
pub struct Drilling<'a> {
    /// The site.
    pub site: &'a SiteSheet,
    /// The step.
    pub step: &'a StepSheet,
    /// Its drill.
    pub drill: Option<SetDrill<'a>>,
    /// Drill sleeves that come out before, each with the site that it is in.
    pub out: Vec<(&'a SiteSheet, DrillSleeveId)>,
    /// The drill sleeve that goes in; none where it is in, or none is used.
    pub in_: Option<DrillSleeveId>,
    /// What a hand could take for its drill.
    pub alike: Vec<LookAlike<'a>>,
}

/// The sounding of a site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sounding<'a> {
    /// The site.
    pub site: &'a SiteSheet,
    /// The figure of the plan; none where it is not known.
    pub planned: Option<Length>,
    /// The greatest difference before one stops; none where the case has no limit for it.
    pub limit: Option<Length>,
}

/// How far a step is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum State<'a> {
    /// It is to be done.
    Open,
    /// It was done.
    Done(&'a DayEvent),
    /// A drill was set anew, and its setting is verified or gone on from.
    Set,
    /// It was left out, with a reason.
    Skipped(&'a DayEvent),
    /// The probe showed another figure than the plan, by this much more; negative: less. It stops here.
    Off(&'a DayEvent, Length),
    /// What lacks by a count, or is too many, was told and nothing settles it. It stops here.
    Amiss(&'a DayEvent),
}

impl State<'_> {
    /// True if nothing more is to be done in it.
    #[must_use]
    pub const fn is_over(&self) -> bool {
        matches!(self, Self::Done(_) | Self::Set | Self::Skipped(_))
    }

    /// True if it was done.
    #[must_use]
    pub const fn is_done(&self) -> bool {
        matches!(self, Self::Done(_) | Self::Set)
    }
}

/// The day of a plan by what was recorded.
///
/// `view` has to be the plan view of this worksheet, `standing` what counts under it.
#[must_use]
pub fn day<'a>(
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    (view, standing): (&'a PlanView, &'a Standing),
) -> Day<'a> {
    let mut steps = list::steps(case, worksheet, (view, standing));
    let begun_by_sleeve = begun_through_sleeve(&standing.day);
    list::finish_by_hand(&mut steps, worksheet, &begun_by_sleeve);
    let abandoned = abandoned(&standing.day);
    let reported: Vec<&Fall> = guide::reported(standing).collect();
    for step in &mut steps {
        state::put(step, &standing.day, &reported);
        if let Some(abandoned) = abandoned {
            state::leave_out(step, abandoned);
        }
    }
    let room = count::Room {
        worksheet,
        view,
        standing,
    };
    older::count_out(&mut steps, case, room);
    count::anew_since_a_fall(&mut steps, standing);
    let held = Held::of((&standing.day, &standing.fallen), case);
    held::sleeves(&mut steps, worksheet, held.clone());
    ready::mark(&mut steps, (case, worksheet), (standing, abandoned));
    let of_no_step = state::of_no_step(&steps, &standing.day);
    let mut begun = standing.day.iter().filter(|one| is_begun(one));
    let first = begun.next();
    Day {
        of_no_step,
        abandoned,
        guide_fell: guide::fell(standing),
        begun: first,
        gone_on: begun.next_back().or(first),
        steps,
        held,
    }
}

/// The word that the guide is abandoned, where a plan still leads through it what is open; none where nobody abandoned it, or the
/// plan follows.
///
/// `view` has to be the plan view of this worksheet, `standing` what counts under it.
#[must_use]
pub fn abandoned_while_led<'a>(
    case: &'a ValidCase,
    worksheet: &'a Worksheet,
    (view, standing): (&'a PlanView, &'a Standing),
) -> Option<&'a DayEvent> {
    // Without it nothing is to be worked out.
    abandoned(&standing.day)?;
    day(case, worksheet, (view, standing)).abandoned_while_led()
}

/// What was recorded of the day after something, up to when that was said to have been a mistake; the steps alone.
#[must_use]
pub fn recorded_since<'a>(day: &'a [DayEvent], of: &DayEvent) -> Vec<&'a DayEvent> {
    let until = of.back.as_ref().map_or(usize::MAX, |back| back.place);
    let here = day.iter().filter(|one| {
        one.counts() && one.step().is_some() && of.place < one.place && one.place < until
    });
    here.collect()
}

/// The last time that the guide was said to have come off before its time, as long as that stands; none where it did not.
#[must_use]
pub fn lifted(day: &[DayEvent]) -> Option<&DayEvent> {
    last_of(day, &StepKey::Lifted {})
}

/// The last word on the guide, as long as it stands: that it came off before its time, or which one goes in after it fell.
#[must_use]
pub fn guide_word(day: &[DayEvent]) -> Option<&DayEvent> {
    let mut day = day.iter().rev();
    day.find(|one| {
        let says = matches!(
            one.step(),
            Some(StepKey::Lifted {} | StepKey::SeatAgain { .. })
        );
        says && one.counts() && matches!(one.kind, EventKind::StepDone(_))
    })
}

/// The last word that the guide is abandoned, as long as it stands.
#[must_use]
pub fn abandoned(day: &[DayEvent]) -> Option<&DayEvent> {
    last_of(day, &StepKey::Abandoned {})
}

/// By what was done that this says was left out, under whatever plan; none where it was not done, or this says something else.
#[must_use]
pub fn done_before<'a>(day: &'a [DayEvent], one: &DayEvent) -> Option<&'a DayEvent> {
    let left_out = matches!(one.kind, EventKind::StepSkipped(_));
    let step = one.step().filter(|_| left_out)?;
    let mut before = day.iter().rev();
    before.find(|other| {
        let same = other.step().is_some_and(|of| of.is_same_work(step));
        let here = other.of_earlier_sitting == one.of_earlier_sitting;
        same && here && other.stands() && other.kind.is_done() && !one.is_clearly_before(other)
    })
}

fn last_of<'a>(day: &'a [DayEvent], step: &StepKey) -> Option<&'a DayEvent> {
    let mut day = day.iter().rev();
    day.find(|one| {
        one.counts() && matches!(one.kind, EventKind::StepDone(_)) && one.step() == Some(step)
    })
}

fn is_begun(one: &DayEvent) -> bool {
    one.counts() && matches!(one.kind, EventKind::SurgeryBegun(_))
}

/// The sites whose implant was begun through its sleeve, each with the implant that it was.
fn begun_through_sleeve(day: &[DayEvent]) -> Vec<(SiteKey, String)> {
    let begun = day.iter().filter(|one| one.stands()).filter_map(|one| {
        let EventKind::Inserted(inserted) = &one.kind else {
            return None;
        };
        match &inserted.step {
            StepKey::Insert { site, implant, .. } if inserted.way == InsertionWay::Begun => {
                Some((site.clone(), implant.clone()))
            }
            _ => None,
        }
    });
    begun.collect()
}

/// No probe reaches farther from the seat of a guide to the bone. Common practice, no source.
const LONGEST_SOUNDING: Length = Length::from_um(40_000);

impl Sounding<'_> {
    /// True if what was typed looks like a slip: it is farther than any probe reaches, or near the planned figure only with
    /// its decimal mark elsewhere ([`Length::is_slip_near`]).
    #[must_use]
    pub fn is_mistyped(&self, found: Length) -> bool {
        let slipped = self
            .planned
            .is_some_and(|planned| found.is_slip_near(planned));
        found > LONGEST_SOUNDING || slipped
    }

    /// Excess of what the probe showed over the plan, where that is more than the limit, to either side; zero within it;
    /// none where nobody can say.
    #[must_use]
    pub fn off(&self, found: Length) -> Option<Length> {
        let by = found - self.planned?;
        let within = by.abs() <= self.limit?;
        Some(if within { Length::ZERO } else { by })
    }
}

impl<'a> Day<'a> {
    /// The step that is due: the first that is not over.
    #[must_use]
    pub fn next(&self) -> Option<usize> {
        self.steps.iter().position(|step| !step.state.is_over())
    }

    /// The steps that are not over, from one on.
    pub fn open_from(&self, from: usize) -> impl Iterator<Item = (usize, &DayStep<'a>)> {
        let steps = self.steps.iter().enumerate().skip(from);
        steps.filter(|(_, step)| !step.state.is_over())
    }

    /// The steps that are passed over where this one is done now.
    pub fn passed_over(&self, at: usize) -> impl Iterator<Item = &DayStep<'a>> {
        let before = self.steps.iter().take(at);
        before.filter(|step| !step.state.is_over())
    }

    /// Number of steps that are over, and of all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        let over = self.steps.iter().filter(|step| step.state.is_over());
        (over.count(), self.steps.len())
    }

    /// The place of the step of this key.
    #[must_use]
    pub fn place_of(&self, key: &StepKey) -> Option<usize> {
        self.steps.iter().position(|step| step.key == *key)
    }

    /// True if the guide is off, by what was recorded.
    #[must_use]
    pub fn is_guide_off(&self) -> bool {
        is_guide_off(&self.steps)
    }

    /// The word that the guide is abandoned, where the plan still leads through it what is open.
    #[must_use]
    pub fn abandoned_while_led(&self) -> Option<&'a DayEvent> {
        let mut open = self.open_from(0);
        self.abandoned
            .filter(|_| open.any(|(_, step)| step.is_led()))
    }

    /// The first barrier before a step that is not over: until it is, nobody goes on to that step.
    #[must_use]
    pub fn waits_for(&self, at: usize) -> Option<&DayStep<'a>> {
        self.passed_over(at).find(|step| step.is_barrier())
    }
}

/// True if an implant that was to go in through the guide did not go to its depth so.
const fn is_otherwise(inserted: &Inserted) -> bool {
    let led = matches!(
        inserted.step,
        StepKey::Insert {
            led: Led::Guide,
            ..
        }
    );
    led && !matches!(inserted.way, InsertionWay::Guided)
}

fn is_guide_off(steps: &[DayStep<'_>]) -> bool {
    let mut steps = steps.iter();
    steps.any(|step| matches!(step.work, Work::GuideOff { .. }) && step.state.is_done())
}

impl<'a> DayStep<'a> {
    /// The records of it as over, where there is more than one: two desks may have had it at the same time. A site is
    /// sounded and things are counted as often as it takes.
    #[must_use]
    pub fn doubled(&self) -> Vec<&'a DayEvent> {
        let over = |one: &&&DayEvent| {
            matches!(
                one.kind,
                EventKind::StepDone(_) | EventKind::Inserted(_) | EventKind::StepSkipped(_)
            )
        };
        let found: Vec<&DayEvent> = self.recorded.iter().filter(over).copied().collect();
        if found.len() > 1 { found } else { Vec::new() }
    }

    /// By what the same work was done, where this step is open or left out.
    #[must_use]
    pub fn done_before(&self) -> Option<&'a DayEvent> {
        self.otherwise.filter(|one| one.kind.is_done())
    }

    /// Soundings that were off and are not what the step is over by.
    pub fn off_before(&self) -> impl Iterator<Item = &'a DayEvent> + '_ {
        let is_last = |one: &DayEvent| match self.state {
            State::Done(last) | State::Skipped(last) | State::Off(last, _) => last.id == one.id,
            _ => false,
        };
        let off = move |one: &&&DayEvent| match (&one.kind, &self.work) {
            (EventKind::Sounded(sounded), Work::Sound(sounding)) => {
                sounding.off(sounded.found_mm) != Some(Length::ZERO) && !is_last(one)
            }
            _ => false,
        };
        self.recorded.iter().filter(off).copied()
    }

    /// True if it is over otherwise than planned: left out, out of turn, despite something, with another count, or with
    /// what an implant reached off its limit or not recorded.
    #[must_use]
    pub fn stands_out(&self, kit: &Kit) -> bool {
        let last = match self.state {
            State::Done(one) => &one.kind,
            State::Skipped(_) => return true,
            State::Set | State::Open | State::Off(..) | State::Amiss(_) => return false,
        };
        let otherwise = match last {
            EventKind::StepDone(done) => done.due.is_some() || done.despite.is_some(),
            EventKind::Sounded(sounded) => sounded.due.is_some(),
            EventKind::Counted(counted) => {
                counted.due.is_some()
                    || counted.despite.is_some()
                    || counted.amiss().next().is_some()
            }
            EventKind::Inserted(inserted) => {
                inserted.due.is_some()
                    || inserted.despite.is_some()
                    || is_otherwise(inserted)
                    || reached::stands_out(kit, inserted)
            }
            _ => false,
        };
        otherwise || !self.doubled().is_empty()
    }

    /// True if the whole screen is given to it: nobody goes on past it by the way.
    #[must_use]
    pub const fn is_barrier(&self) -> bool {
        matches!(
            self.work,
            Work::Count(_)
                | Work::Punch(_)
                | Work::Reseat
                | Work::Seat
                | Work::Sound(_)
                | Work::Look { .. }
                | Work::GuideOff { .. }
        )
    }

    /// True if nothing keeps it from being done by one press; what is only told does not.
    #[must_use]
    pub fn is_ready(&self) -> bool {
        self.not_ready.iter().all(NotReady::is_only_told)
    }

    /// True if the guide leads a drill or an implant in it.
    #[must_use]
    pub fn is_led(&self) -> bool {
        matches!(
            &self.key,
            StepKey::Drill {
                led: Led::Guide,
                ..
            } | StepKey::Insert {
                led: Led::Guide,
                ..
            }
        )
    }

    /// True if its drill may be used by a mark or by eye alone, for a reason: no guide leads it, and it is not ready as it is set.
    #[must_use]
    pub fn may_be_by_hand(&self) -> bool {
        let freehand = matches!(
            self.key,
            StepKey::Drill {
                led: Led::Freehand,
                ..
            }
        );
        freehand && !self.state.is_over() && !self.is_ready()
    }

    /// True for a re-set that steps of more than one site wait for.
    #[must_use]
    pub fn serves_others(&self) -> bool {
        let Work::SetAnew { reset, .. } = &self.work else {
            return false;
        };
        let own = self.site();
        reset.to.serves.iter().any(|one| one.site.as_ref() != own)
    }

    /// The site that it is done at.
    #[must_use]
    pub fn site(&self) -> Option<&SiteId> {
        match &self.work {
            Work::Sound(sounding) => Some(&sounding.site.id),
            Work::Drill(drilling) => Some(&drilling.site.id),
            Work::Look { site, .. } | Work::Insert { site, .. } | Work::Finish { site } => {
                Some(&site.id)
            }
            Work::SetAnew { reset, .. } => {
                let serves = reset.to.serves.first();
                serves.and_then(|serves| serves.site.as_ref())
            }
            Work::Count(_)
            | Work::Pin { .. }
            | Work::Punch(_)
            | Work::Reseat
            | Work::Seat
            | Work::GuideOff { .. } => None,
        }
    }

    /// The drill that it is done with.
    #[must_use]
    pub fn drill(&self) -> Option<SetDrill<'_>> {
        match &self.work {
            Work::Drill(drilling) => drilling.drill,
            Work::Pin { drill, .. } => *drill,
            Work::SetAnew { drill, .. } => Some(*drill),
            _ => None,
        }
    }
}

/// The greatest difference of a sounding before one stops: that of the case, or the program's own where the case's is
/// looser.
pub(crate) fn sounding_limit(case: &ValidCase) -> Option<Length> {
    let of_case = case.limits.get(LimitId::Sounding)?.limit_mm;
    let own = case.limits.own_if_stricter(LimitId::Sounding);
    Some(own.unwrap_or(of_case))
}
