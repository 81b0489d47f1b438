//! The day of surgery in words.

use super::{Formatter, begin, mm};
use crate::kit::{Direction, Drill, DrillId, DrillSleeveId, ImplantId};
use crate::measure::{Length, Torque};
use crate::plan::{Actionable, ActionableFigure, Known, Mistake, MixUp};
use crate::sign::{
    Approved, Counted, DayEvent, DrillUse, EventKind, Inserted, InsertionWay, Led, Sounded,
    StepDone, StepKey, StepTakenBack, WhichGuide,
};
use crate::surgery::{
    CountKind, DayStep, DepthOff, LookAlike, NotReady, State, TorqueAgainst, depth_off,
    done_before, torque_against,
};

/// Something that a hand could take by mistake, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookAlikeText {
    /// What it is and where it lies.
    pub what: String,
    /// What it would do.
    pub harm: String,
}

/// What bears the number of a drill in an event.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bears {
    /// The drill itself.
    Itself,
    /// What took the place of the drill, which fell.
    NumberOfWhatFell,
}

impl Bears {
    const fn of(one: &DayEvent) -> Self {
        match one.spare_since {
            None => Self::Itself,
            Some(_) => Self::NumberOfWhatFell,
        }
    }
}

impl Formatter<'_> {
    /// A step of the day without its setting: "lower right first molar (46): twist 3.1".
    #[must_use]
    pub fn day_step(&self, step: &StepKey) -> String {
        match step {
            StepKey::CountIn { .. } => self.word("surgery-step-count-in"),
            StepKey::CountOut { .. } => self.word("surgery-step-count-out"),
            StepKey::Reseat {} => self.word("surgery-step-reseat"),
            StepKey::Lifted {} => self.word("surgery-step-lifted"),
            StepKey::Abandoned {} => self.word("surgery-step-abandoned"),
            StepKey::SeatAgain {
                guide: WhichGuide::Same,
            } => self.word("surgery-step-same-guide"),
            StepKey::SeatAgain {
                guide: WhichGuide::Another,
            } => self.word("surgery-step-another-guide"),
            StepKey::ImplantChanged {
                site,
                implant,
                from,
            } => {
                let implant = self.implant(&ImplantId::from(implant.as_str()));
                let args = [("site", &*self.tooth(site.tooth)), ("implant", &*implant)];
                let Some(from) = from else {
                    return self.text("surgery-step-implant-changed", &args);
                };
                let from = self.implant(&ImplantId::from(from.as_str()));
                let args = [args[0], args[1], ("from", &*from)];
                self.text("surgery-step-implant-changed-from", &args)
            }
            StepKey::ProfileDropped { site } => {
                let args = [("site", &*self.tooth(site.tooth))];
                self.text("surgery-step-profile-dropped", &args)
            }
            StepKey::GuideLeft { site } => {
                let args = [("site", &*self.tooth(site.tooth))];
                self.text("surgery-step-guide-left", &args)
            }
            StepKey::Seat { .. } => self.word("surgery-step-seat"),
            StepKey::GuideOff {} => self.word("surgery-step-guide-off"),
            StepKey::Pin { pin, with } => {
                let drill = self.drill(&DrillId::from(with.drill.as_str()));
                self.text("surgery-step-pin", &[("name", pin), ("drill", &drill)])
            }
            StepKey::Punch { sites } => {
                let sites = sites.iter().map(|site| self.tooth(site.tooth));
                let sites = self.joined("load-list", sites).unwrap_or_default();
                self.text("surgery-step-punch", &[("sites", &sites)])
            }
            StepKey::Sound { site, .. } => {
                self.text("surgery-step-sound", &[("site", &self.tooth(site.tooth))])
            }
            StepKey::SetAnew { with, .. } => {
                let drill = self.drill(&DrillId::from(with.drill.as_str()));
                self.text("surgery-step-set-anew", &[("drill", &drill)])
            }
            StepKey::Drill { site, with, .. } => {
                let drill = self.drill(&DrillId::from(with.drill.as_str()));
                let args = [("site", &*self.tooth(site.tooth)), ("drill", &*drill)];
                self.text("surgery-step-drill", &args)
            }
            StepKey::Look { site, what, .. } => {
                let args = [("site", &*self.tooth(site.tooth)), ("what", what)];
                self.text("surgery-step-look", &args)
            }
            StepKey::Insert { site, implant, .. } => {
                let implant = self.implant(&ImplantId::from(implant.as_str()));
                let args = [("site", &*self.tooth(site.tooth)), ("implant", &*implant)];
                self.text("surgery-step-insert", &args)
            }
            StepKey::Finish { site, implant } => {
                let implant = self.implant(&ImplantId::from(implant.as_str()));
                let args = [("site", &*self.tooth(site.tooth)), ("implant", &*implant)];
                self.text("surgery-step-finish", &args)
            }
        }
    }

    /// The same with its setting and sleeve, where it has them.
    #[must_use]
    pub fn day_step_in_full(&self, step: &StepKey) -> String {
        let said = self.day_step(step);
        let with = |with: &DrillUse| {
            let set = with.set_mm.map_or_else(|| self.word("setting-none"), mm);
            self.text("surgery-step-at", &[("step", &said), ("set", &set)])
        };
        match step {
            StepKey::Pin { with: used, .. } | StepKey::SetAnew { with: used, .. } => with(used),
            StepKey::Drill {
                with: used, sleeve, ..
            } => {
                let set = with(used);
                let Some(sleeve) = sleeve else { return set };
                let sleeve = self.drill_sleeve(&DrillSleeveId::from(sleeve.as_str()));
                let args = [("step", &*set), ("sleeve", &*sleeve)];
                self.text("surgery-step-in", &args)
            }
            _ => said,
        }
    }

    /// A step of the plan with its setting and sleeve, as far as they hold: a setting that is void or not known is not named, and
    /// how its drill is set otherwise by the record is. What was done is told as it was.
    #[must_use]
    pub fn day_step_planned(&self, step: &DayStep<'_>) -> String {
        let figure = step.drill().map(|drill| {
            let actionable = Actionable::of_item(drill.item);
            actionable.map_or(ActionableFigure::Nothing, |one| one.figure(&self.case.kit))
        });
        let done = match step.state {
            State::Done(one) => Some(one),
            // It is in the bone, by whatever plan.
            State::Skipped(_) => step.done_before(),
            _ => None,
        };
        if let Some(EventKind::StepDone(done)) = done.map(|one| &one.kind) {
            return self.step_done(done);
        }
        let void = match figure {
            _ if step.state.is_done() => None,
            Some(ActionableFigure::DoesNotFit) => Some("surgery-step-void"),
            Some(ActionableFigure::Nothing | ActionableFigure::NotOnGauge { .. }) => {
                Some("surgery-step-unknown")
            }
            _ => None,
        };
        if let Some(id) = void {
            return self.text(id, &[("step", &self.day_step(&step.key))]);
        }
        let said = self.day_step_in_full(&step.key);
        let otherwise = step.not_ready.iter().find_map(|why| match why {
            NotReady::SetOtherwise { set, .. } => Some(mm(*set)),
            _ => None,
        });
        match otherwise {
            None => said,
            Some(set) => {
                let args = [("step", said.as_str()), ("set", &set)];
                self.text("surgery-step-set-otherwise", &args)
            }
        }
    }

    /// A step as it was done: one by hand without the setting that was not used.
    #[must_use]
    pub fn step_done(&self, done: &StepDone) -> String {
        let Some(by_hand) = &done.by_hand else {
            return self.day_step_in_full(&done.step);
        };
        let step = self.day_step(&done.step);
        let depth = by_hand.aimed_mm.map_or_else(
            || self.word("surgery-aimed-none"),
            |aimed| self.text("surgery-aimed", &[("depth", &mm(aimed))]),
        );
        let args = [("step", step.as_str()), ("depth", &depth)];
        self.text("surgery-step-by-hand", &args)
    }

    /// What became of a step by the plan that there was then, as a sentence without full stop.
    #[must_use]
    pub fn recorded_then(&self, kind: &EventKind) -> String {
        match kind {
            EventKind::StepDone(done) if !done.step.is_of_no_plan() => {
                self.text("surgery-then-done", &[("step", &self.step_done(done))])
            }
            // Its setting was not used, and may hold no more.
            EventKind::StepSkipped(skipped) => {
                let step = self.day_step(&skipped.step);
                self.text("surgery-then-left-out", &[("step", &step)])
            }
            kind => begin(&self.happened_in_surgery(kind)),
        }
    }

    /// Something that happened in surgery, as a sentence without full stop.
    #[must_use]
    pub fn happened_in_surgery(&self, kind: &EventKind) -> String {
        match kind {
            EventKind::SurgeryBegun(begun) => {
                let approved = match begun.approval {
                    Approved::Approved => "yes",
                    Approved::Open => "no",
                };
                let fingerprint = begun.fingerprint.to_string();
                let args = [
                    ("fingerprint", fingerprint.as_str()),
                    ("approved", approved),
                    ("anew", if begun.anew { "yes" } else { "no" }),
                ];
                let count = [("count", begun.lies_wrong.len())];
                let said = self.counted("history-surgery-begun", &count, &args);
                self.despite(said, begun.despite.as_deref())
            }
            EventKind::StepDone(done) => self.happened_step(done, Bears::Itself),
            EventKind::StepSkipped(skipped) => {
                let step = self.day_step_in_full(&skipped.step);
                let args = [("step", step.as_str()), ("reason", &skipped.reason)];
                self.text("history-step-skipped", &args)
            }
            EventKind::StepTakenBack(back) => self.happened_back(back, None),
            EventKind::Sounded(sounded) => self.happened_sounding(sounded),
            EventKind::Inserted(inserted) => self.happened_insertion(inserted),
            EventKind::Counted(counted) => self.happened_count(counted, false),
            _ => String::new(),
        }
    }

    /// The same of an event among those of the day: of what was left out though it was done that it was done, and how.
    #[must_use]
    pub fn happened_among(&self, day: &[DayEvent], one: &DayEvent) -> String {
        match (&one.kind, done_before(day, one)) {
            (EventKind::StepSkipped(skipped), Some(done)) => {
                let step = match &done.kind {
                    EventKind::StepDone(done) => self.step_done(done),
                    kind => self.happened_on(done, kind),
                };
                let at = done.at.strftime("%H:%M").to_string();
                let args = [
                    ("step", step.as_str()),
                    ("who", done.who.as_str()),
                    ("at", &at),
                    ("reason", &skipped.reason),
                ];
                self.text("history-step-skipped-done", &args)
            }
            (kind, _) => self.happened_on(one, kind),
        }
    }

    /// The same of an event of the day by itself: what a spare did in the place of what fell is told as that.
    #[must_use]
    pub fn happened_on_day(&self, one: &DayEvent) -> String {
        self.happened_on(one, &one.kind)
    }

    fn happened_on(&self, one: &DayEvent, kind: &EventKind) -> String {
        match kind {
            EventKind::StepDone(done) => self.happened_step(done, Bears::of(one)),
            kind => self.happened_in_surgery(kind),
        }
    }

    /// A step with the drill that it was done with, in its turn and ready.
    pub(super) fn step_with(&self, one: &DayEvent, done: &StepDone) -> String {
        let step = self.step_done(done);
        let Some(piece) = &done.piece else {
            return step;
        };
        let copy = piece.copy.to_string();
        let args = [("step", step.as_str()), ("copy", &copy)];
        match Bears::of(one) {
            Bears::Itself => self.text("record-step-with", &args),
            Bears::NumberOfWhatFell => self.text("record-step-with-spare", &args),
        }
    }

    /// That something was recorded by mistake, as it was recorded, where that is at hand. Where it is not, a step without the guide is
    /// told without its setting: it may have been done by hand.
    pub(super) fn happened_back(&self, back: &StepTakenBack, of: Option<&EventKind>) -> String {
        let freehand = matches!(
            back.step,
            StepKey::Drill {
                led: Led::Freehand,
                ..
            }
        );
        let step = match of {
            Some(EventKind::StepDone(done)) => self.step_done(done),
            None if freehand => self.day_step(&back.step),
            _ => self.day_step_in_full(&back.step),
        };
        let event = back.event.to_string();
        let args = [("step", step.as_str()), ("event", &event)];
        let said = self.text("history-step-taken-back", &args);
        self.because(said, back.reason.as_deref())
    }

    /// That the guide is abandoned by the record while the plan still leads through it, with who said so and why; a sentence.
    #[must_use]
    pub fn abandoned_while_led(&self, one: &DayEvent) -> String {
        let line = self.record_run(one);
        self.text("guide-abandoned-led", &[("line", &line)])
    }

    fn happened_step(&self, done: &StepDone, bears: Bears) -> String {
        let step = self.step_done(done);
        if done.step.is_of_no_plan() {
            return self.because(begin(&step), done.despite.as_deref());
        }
        let said = match &done.piece {
            None => self.text("history-step-done", &[("step", &step)]),
            Some(piece) => {
                let copy = piece.copy.to_string();
                let args = [("step", step.as_str()), ("copy", &copy)];
                match bears {
                    Bears::Itself => self.text("history-step-done-with", &args),
                    Bears::NumberOfWhatFell => self.text("history-step-done-with-spare", &args),
                }
            }
        };
        let said = self.out_of_turn(said, done.due.as_deref());
        self.despite(said, done.despite.as_deref())
    }

    fn happened_sounding(&self, sounded: &Sounded) -> String {
        let (step, found) = (self.day_step(&sounded.step), mm(sounded.found_mm));
        let planned = match &sounded.step {
            StepKey::Sound { planned_mm, .. } => *planned_mm,
            _ => None,
        };
        let args = [("step", step.as_str()), ("found", &found)];
        let said = match planned {
            None => self.text("history-sounded-no-plan", &args),
            Some(planned) => {
                let planned = mm(planned);
                let args = [args[0], args[1], ("planned", &planned)];
                self.text("history-sounded", &args)
            }
        };
        self.out_of_turn(said, sounded.due.as_deref())
    }

    fn happened_insertion(&self, inserted: &Inserted) -> String {
        let way = match inserted.way {
            InsertionWay::Guided => "guided",
            InsertionWay::Begun => "begun",
            InsertionWay::Ended => "ended",
            InsertionWay::Freehand => "freehand",
        };
        let step = self.day_step(&inserted.step);
        let torque = self.torque_reached(inserted.torque_ncm);
        let depth = self.depth_reached(inserted.coronal_of_plan_mm);
        let args = [
            ("step", step.as_str()),
            ("way", way),
            ("torque", &torque),
            ("depth", &depth),
        ];
        let said = match inserted.way {
            // Nothing was reached yet.
            InsertionWay::Begun => self.text("history-inserted-begun", &args[..1]),
            _ => self.text("history-inserted", &args),
        };
        let notes = self.reached(inserted);
        let said = notes.into_iter().fold(said, |said, note| {
            let args = [("said", &*said), ("note", &*note)];
            self.text("history-reached", &args)
        });
        let said = self.out_of_turn(said, inserted.due.as_deref());
        self.despite(said, inserted.despite.as_deref())
    }

    /// A count in words; where something fell since, what was found then is no more than that.
    pub(super) fn happened_count(&self, counted: &Counted, fell_since: bool) -> String {
        let step = self.day_step(&counted.step);
        let args = [("step", step.as_str()), ("second", counted.second.as_str())];
        let said = match self.joined("load-list", counted.amiss().map(|line| self.amiss(line))) {
            None if fell_since => self.text("history-counted-then", &args),
            None => self.text("history-counted", &args),
            Some(amiss) => {
                let args = [args[0], args[1], ("amiss", &amiss)];
                self.text("history-counted-amiss", &args)
            }
        };
        let said = self.out_of_turn(said, counted.due.as_deref());
        self.despite(said, counted.despite.as_deref())
    }

    /// A line of a count that is not as it should be: "drill sleeves 2 instead of 3".
    #[must_use]
    pub fn amiss(&self, line: &crate::sign::CountLine) -> String {
        let (found, wanted) = (line.found.to_string(), line.wanted.to_string());
        let args = [
            ("what", line.what.as_str()),
            ("found", &found),
            ("wanted", &wanted),
        ];
        self.text("surgery-amiss", &args)
    }

    /// A torque above its limit, or one without a limit, as a sentence; nothing within it.
    #[must_use]
    pub fn torque_off(&self, step: &StepKey, torque: Torque) -> Option<String> {
        let (StepKey::Insert { implant, .. } | StepKey::Finish { implant, .. }) = step else {
            return None;
        };
        let implant = ImplantId::from(implant.as_str());
        match torque_against(&self.case.kit, &implant, torque) {
            TorqueAgainst::Within => None,
            TorqueAgainst::NoLimit => Some(self.word("surgery-torque-no-limit")),
            TorqueAgainst::Above(limit) => {
                let (torque, limit) = (torque.to_string(), limit.to_string());
                let args = [("torque", torque.as_str()), ("limit", &limit)];
                Some(self.text("surgery-torque-above", &args))
            }
        }
    }

    /// A depth far off its plan, as a sentence; nothing near it.
    #[must_use]
    pub fn depth_off(&self, coronal: Length) -> Option<String> {
        let (id, limit) = match depth_off(coronal)? {
            DepthOff::Apical(limit) => ("surgery-depth-too-apical", limit),
            DepthOff::Coronal(limit) => ("surgery-depth-too-coronal", limit),
        };
        let (by, limit) = (mm(coronal.abs()), mm(limit));
        Some(self.text(id, &[("by", &by), ("limit", &limit)]))
    }

    /// What an implant reached off its limits, sentences.
    #[must_use]
    pub fn reached(&self, inserted: &Inserted) -> Vec<String> {
        let torque = inserted.torque_ncm;
        let torque = torque.and_then(|torque| self.torque_off(&inserted.step, torque));
        let depth = inserted.coronal_of_plan_mm;
        let depth = depth.and_then(|coronal| self.depth_off(coronal));
        torque.into_iter().chain(depth).collect()
    }

    /// The torque that an implant was turned in with, or that it was not recorded.
    #[must_use]
    pub fn torque_reached(&self, torque: Option<Torque>) -> String {
        match torque {
            None => self.word("surgery-torque-none"),
            Some(torque) => self.text("sheet-ncm", &[("torque", &torque.to_string())]),
        }
    }

    /// Where an implant stopped against its plan, or that it was not recorded.
    #[must_use]
    pub fn depth_reached(&self, coronal: Option<Length>) -> String {
        match coronal {
            None => self.word("surgery-depth-none"),
            Some(Length::ZERO) => self.word("surgery-depth-planned"),
            Some(by) => {
                let id = if by > Length::ZERO {
                    "surgery-depth-coronal"
                } else {
                    "surgery-depth-apical"
                };
                self.text(id, &[("by", &mm(by.abs()))])
            }
        }
    }

    fn out_of_turn(&self, said: String, due: Option<&StepKey>) -> String {
        let Some(due) = due else { return said };
        let due = self.day_step(due);
        self.text("history-step-due", &[("said", &said), ("due", &due)])
    }

    pub(crate) fn because(&self, said: String, reason: Option<&str>) -> String {
        let Some(reason) = reason else { return said };
        self.text("history-because", &[("said", &said), ("reason", reason)])
    }

    fn despite(&self, said: String, reason: Option<&str>) -> String {
        let Some(reason) = reason else { return said };
        self.text("history-despite", &[("said", &said), ("reason", reason)])
    }

    /// What keeps a step from being ready, sentences: what may not be done with its drill, and nothing that speaks against what
    /// is still possible by hand ([`DayStep::may_be_by_hand`]).
    #[must_use]
    pub fn not_ready(&self, why: &NotReady, may_be_by_hand: bool) -> Vec<String> {
        let hand = ("hand", if may_be_by_hand { "yes" } else { "no" });
        let id = match why {
            NotReady::NoFigure => return vec![self.text("surgery-not-no-figure", &[hand])],
            NotReady::DoesNotFit => return vec![self.text("surgery-not-fit", &[hand])],
            NotReady::NotOnGauge => return vec![self.text("surgery-not-on-gauge", &[hand])],
            NotReady::NotSoundable => "surgery-not-soundable",
            NotReady::SetAnewFirst => return vec![self.text("surgery-not-set-anew", &[hand])],
            NotReady::SetSince => return vec![self.text("surgery-not-set-since", &[hand])],
            NotReady::NotLaid => "surgery-not-laid",
            NotReady::LiesUnset { slot, sealed } => {
                let slot = self.in_slot(Some(slot));
                let args = [("slot", slot.as_str())];
                return vec![if *sealed {
                    self.text("surgery-not-opened", &args)
                } else {
                    self.text("surgery-not-set", &args)
                }];
            }
            NotReady::Fell => "surgery-not-fell",
            NotReady::Told => "surgery-not-told",
            NotReady::NotSounded => "surgery-not-sounded",
            NotReady::LeftUnsounded => "surgery-left-unsounded",
            NotReady::DrillsLeftOut(count) => {
                let counts = &[("count", *count)];
                return vec![self.counted("surgery-drills-left-out", counts, &[])];
            }
            NotReady::SetOtherwise { set, slot } => {
                let (set, slot) = (mm(*set), self.in_slot(slot.as_deref()));
                let args = [("set", set.as_str()), ("slot", &slot), hand];
                return vec![self.text("surgery-not-set-otherwise", &args)];
            }
            NotReady::GuideFell => "surgery-not-guide-fell",
            NotReady::GuideOff => "surgery-not-guide-off",
            NotReady::GuideLeft => "surgery-not-guide-left",
            NotReady::GuideAbandoned => "surgery-not-guide-abandoned",
            NotReady::ThingNotLaid(thing) => {
                let args = [("thing", &*begin(&self.thing(thing)))];
                return vec![self.text("surgery-not-thing-laid", &args)];
            }
            NotReady::ThingFell(thing) => {
                let args = [("thing", &*begin(&self.thing(thing)))];
                return vec![self.text("surgery-not-thing-fell", &args)];
            }
            NotReady::NotRead(objections) => {
                let mut said = vec![self.word("surgery-not-read")];
                said.extend(objections.iter().map(|one| self.message(&one.message())));
                return said;
            }
        };
        vec![self.word(id)]
    }

    /// Something that a hand could take by mistake.
    #[must_use]
    pub fn look_alike(&self, alike: &LookAlike<'_>) -> LookAlikeText {
        match alike {
            LookAlike::MixUp(one) => {
                let said = self.mix_up(one);
                if let Some(what) = self.same_drill(one) {
                    let by = mm(one.deeper);
                    let args = [("by", by.as_str()), ("harm", &said.harm)];
                    let harm = self.text("surgery-alike-harm", &args);
                    return LookAlikeText { what, harm };
                }
                LookAlikeText {
                    what: said.mistake,
                    harm: said.harm,
                }
            }
            LookAlike::OtherSetting(other) => {
                let set = self.length_or_none(other.set);
                let slot = self.in_slot(other.slot.as_deref());
                let args = [("set", set.as_str()), ("slot", &slot)];
                let harm = match &other.by {
                    None => self.word("surgery-alike-unknown"),
                    Some(by) => {
                        let id = if *by > Length::ZERO {
                            "surgery-alike-deeper"
                        } else {
                            "surgery-alike-shallower"
                        };
                        self.text(id, &[("by", &mm(by.abs()))])
                    }
                };
                LookAlikeText {
                    what: self.text("surgery-alike", &args),
                    harm,
                }
            }
        }
    }

    /// The same drill at another setting, where the figure alone tells it from the step's: "the same drill at 21.3 mm,
    /// slot Dove 2".
    fn same_drill(&self, one: &MixUp) -> Option<String> {
        let Mistake::OtherSetting { set, .. } = &one.mistake else {
            return None;
        };
        let slot = one.slot.as_ref().filter(|_| one.only_setting)?;
        let set = self.set_to_use_with_unit(&Known::Is(*set), one.fits);
        let slot = self.text("load-slot", &[("slot", slot.as_str())]);
        let args = [("set", set.as_str()), ("slot", &slot)];
        Some(self.text("surgery-alike", &args))
    }

    /// How a drill runs: its greatest speed, torque, direction and irrigation, each from the kit or said to be missing.
    #[must_use]
    pub fn running(&self, drill: &Drill) -> Vec<String> {
        let speed = drill.greatest_speed_rpm.map_or_else(
            || self.word("sheet-no-speed"),
            |speed| self.counted("surgery-speed", &[("speed", speed.rpm())], &[]),
        );
        let torque = drill
            .torque_limit_ncm
            .map(|torque| self.text("surgery-torque-most", &[("torque", &torque.to_string())]));
        let direction = match drill.direction {
            Some(Direction::Forward) => None,
            Some(Direction::Reverse) => Some(self.word("sheet-reverse")),
            None => Some(self.word("sheet-no-direction")),
        };
        let irrigation = drill
            .irrigation
            .as_ref()
            .map_or_else(|| self.word("sheet-no-irrigation"), ToString::to_string);
        [Some(speed), torque, direction, Some(irrigation)]
            .into_iter()
            .flatten()
            .collect()
    }

    /// The greatest torque of an implant, or that the kit does not give one.
    #[must_use]
    pub fn implant_torque(&self, implant: &ImplantId) -> String {
        let torque = self.case.kit.implant(implant);
        let torque = torque.and_then(|implant| implant.torque_limit_ncm);
        let torque = torque.map_or_else(
            || self.word("sheet-not-in-kit"),
            |torque| self.text("sheet-ncm", &[("torque", &torque.to_string())]),
        );
        self.text("sheet-implant-torque", &[("value", &torque)])
    }

    /// A slot by its name, or that there is none.
    #[must_use]
    pub fn in_slot(&self, slot: Option<&str>) -> String {
        slot.map_or_else(
            || self.word("surgery-no-slot"),
            |slot| self.text("load-slot", &[("slot", slot)]),
        )
    }

    /// A sort of things that are counted.
    #[must_use]
    pub fn counted_kind(&self, kind: &CountKind) -> String {
        let id = match kind {
            CountKind::Guide => "count-guide",
            CountKind::Gauge => "count-gauge",
            CountKind::Stops => "count-stops",
            CountKind::StopsAgain => "surgery-count-stops-again",
            CountKind::Drills => "surgery-count-drills",
            CountKind::Sleeves => "count-sleeves",
            CountKind::Pins => "count-pins",
            CountKind::Carriers => "count-carriers",
            CountKind::Drivers => "count-drivers",
            CountKind::Implants => "surgery-count-implants",
            CountKind::LockKeys => "count-key",
            CountKind::Tethers => "count-tethers",
            CountKind::ThroatPacks => "count-throat-pack",
            CountKind::Other(name) => return name.to_string(),
        };
        self.word(id)
    }

    /// A length with its unit, or that there is no figure.
    #[must_use]
    pub fn length_or_none(&self, length: Option<Length>) -> String {
        length.map_or_else(
            || self.word("setting-none"),
            |length| self.set_length_with_unit(&Known::Is(length)),
        )
    }
}
