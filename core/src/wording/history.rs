//! What was recorded of a case, in words.

use super::{Formatter, KitFormatter, mm};
use crate::kit::{DrillId, GaugeId, SlotKind};
use crate::measure::Length;
use crate::plan::Worksheet;
use crate::sign::{
    DayEvent, DrillKey, EventKind, EventStanding, HandStep, HeadCode, Holds, ItemKey, JudgedEvent,
    Lapse, Merged, Pass, PassEnd, Piece, PlanView, Reading, Stage, Standing, ThingKey, ToldWork,
    Turn, gauge_off, is_on_graduation, judged_events,
};

/// All that was recorded of a case, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HistoryText {
    /// What is to be known of the whole, sentences; a break first.
    pub top: Vec<String>,
    /// The events in the order of the record.
    pub events: Vec<EventText>,
    /// The saves of the case, under their heading.
    pub saves: Vec<String>,
}

impl HistoryText {
    /// All of it, a line each.
    pub fn lines(&self) -> impl Iterator<Item = String> {
        let events = self.events.iter().flat_map(EventText::lines);
        let saves = self.saves.iter().cloned();
        self.top.iter().cloned().chain(events).chain(saves)
    }
}

/// One event in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EventText {
    /// When, who, which event of which desk, and what.
    pub line: String,
    /// What it counts for now: "counts".
    pub standing: String,
    /// True if it does not count for what it says.
    pub lapsed: bool,
    /// Why not, sentences.
    pub why: Vec<String>,
}

impl EventText {
    /// All of it, a line each.
    pub fn lines(&self) -> impl Iterator<Item = String> {
        let standing = format!("    {}", self.standing);
        let why = self.why.iter().map(|why| format!("    {why}"));
        [self.line.clone(), standing].into_iter().chain(why)
    }
}

impl Formatter<'_> {
    /// All that was recorded, with the case as it is.
    #[must_use]
    pub fn history(
        &self,
        worksheet: &Worksheet,
        events: &Merged,
        (plan, standing): (&PlanView, &Standing),
    ) -> HistoryText {
        let judged = judged_events(events, plan, standing);
        let fingerprint = worksheet.fingerprint.to_string();
        let args = [("fingerprint", fingerprint.as_str())];
        let revision = [("revision", worksheet.revision)];
        let broken = standing.broken.then(|| self.word("history-broken"));
        let now = self.counted("history-now", &revision, &args);
        let order = if judged.is_empty() {
            self.word("history-empty")
        } else {
            self.word("history-order")
        };
        let heads: Vec<String> = events
            .head_codes()
            .iter()
            .map(ToString::to_string)
            .collect();
        let heads = (!heads.is_empty() && !standing.broken).then(|| {
            let list = heads.join("; ");
            self.text("history-heads", &[("list", &list)])
        });
        let top = broken.into_iter().chain([now, order]).chain(heads);
        HistoryText {
            top: top.collect(),
            events: judged
                .iter()
                .map(|one| self.event(one, (&judged, &standing.day), worksheet))
                .collect(),
            saves: self.saves(),
        }
    }

    /// The saves that the case tells of, the newest first, under their heading; nothing where it tells of none.
    fn saves(&self) -> Vec<String> {
        let saves = self.case.saves.iter().rev();
        let lines = saves.map(|save| {
            let at = save.at.strftime("%Y-%m-%d %H:%M").to_string();
            let fingerprint = save.plan_code.to_string();
            let args = [
                ("at", &*at),
                ("desk", save.desk.as_str()),
                ("fingerprint", &fingerprint),
            ];
            self.counted("history-save", &[("revision", save.revision)], &args)
        });
        let mut lines: Vec<String> = lines.collect();
        if !lines.is_empty() {
            lines.insert(0, self.word("history-saves"));
        }
        lines
    }

    /// Whether a record holds an end of a log that is on paper, as a sentence.
    #[must_use]
    pub fn on_paper(&self, head: &HeadCode, holds: Holds) -> String {
        let said = head.to_string();
        match holds {
            Holds::Yes => self.text("history-paper", &[("head", &said)]),
            Holds::EndsAt(has) => {
                self.counted("history-paper-ends", &[("has", has)], &[("head", &said)])
            }
            Holds::Apart => self.text("history-paper-apart", &[("head", &said)]),
            Holds::Unread(has) => {
                self.counted("history-paper-unread", &[("has", has)], &[("head", &said)])
            }
            Holds::PutAside => self.text("history-paper-put-aside", &[("head", &said)]),
            Holds::Other => {
                let seq = head.seq.to_string();
                self.text("history-paper-other", &[("head", &said), ("seq", &seq)])
            }
        }
    }

    /// One event: when, who, what, and what of it counts now.
    fn event(
        &self,
        judged: &JudgedEvent<'_>,
        (all, day): (&[JudgedEvent<'_>], &[DayEvent]),
        worksheet: &Worksheet,
    ) -> EventText {
        let event = judged.event;
        let at = event.at.strftime("%Y-%m-%d %H:%M").to_string();
        let what = match &event.kind {
            // As it was recorded: what was done by hand was not done as the plan had it.
            EventKind::StepTakenBack(back) => {
                let mut all = all.iter().map(|one| one.event);
                let of = all.find(|one| one.id() == back.event);
                self.happened_back(back, of.map(|one| &one.kind))
            }
            kind => match day.iter().find(|one| one.id == event.id()) {
                Some(one) if matches!(kind, EventKind::StepSkipped(_) | EventKind::StepDone(_)) => {
                    self.happened_among(day, one)
                }
                _ => self.happened(kind),
            },
        };
        let id = event.id().to_string();
        let args = [
            ("at", at.as_str()),
            ("who", event.who.as_str()),
            ("event", &id),
            ("what", &what),
        ];
        let practised = match &judged.standing {
            EventStanding::Practice => true,
            EventStanding::Approval(approval) => approval.is_practised(),
            EventStanding::Reading(reading, _) => reading.lapses == [Lapse::Practice],
            EventStanding::Void(_) | EventStanding::Unsaid | EventStanding::Happened => false,
        };
        let standing = match &judged.standing {
            _ if practised => self.word("history-practice"),
            EventStanding::Happened => self.word("history-happened"),
            standing if standing.counts() => self.word("history-counts"),
            EventStanding::Reading(reading, _) if reading.counts() => {
                self.word("history-reading-open")
            }
            _ => self.word("history-not"),
        };
        let why = match &judged.standing {
            EventStanding::Approval(approval) => {
                let lapses = approval.lapses.iter();
                lapses
                    .map(|lapse| self.approval_lapse(lapse, worksheet))
                    .collect()
            }
            standing => standing
                .why_not()
                .iter()
                .map(|why| self.message(why))
                .collect(),
        };
        EventText {
            line: self.text("history-line", &args),
            standing,
            lapsed: !judged.standing.counts(),
            why,
        }
    }

    /// What an event says, as a sentence without full stop.
    #[expect(clippy::too_many_lines, reason = "one arm for each kind")]
    fn happened(&self, kind: &EventKind) -> String {
        match kind {
            EventKind::Approval(approval) => {
                let fingerprint = approval.fingerprint.to_string();
                let revision = approval.revision.to_string();
                let args = [
                    ("revision", revision.as_str()),
                    ("fingerprint", &fingerprint),
                ];
                let count = [("count", approval.accepted.len())];
                self.counted("history-approval", &count, &args)
            }
            EventKind::ApprovalWithdrawn {
                fingerprint,
                reason,
            } => {
                let fingerprint = fingerprint.to_string();
                let args = [("fingerprint", fingerprint.as_str()), ("reason", reason)];
                self.text("history-approval-withdrawn", &args)
            }
            EventKind::Reading(reading) => self.happened_reading(reading),
            EventKind::Handled { item, step, .. } => {
                let step = match step {
                    HandStep::Set => "set",
                    HandStep::Locked => "locked",
                    HandStep::Tugged => "tugged",
                };
                let set = mm(item.setting_mm);
                let more = [("step", step), ("set", set.as_str())];
                self.of_drill("history-handled", &item.drill_key(), &more)
            }
            EventKind::Reset {
                drill, passed_over, ..
            } => {
                let reset = self.of_drill("history-reset", drill, &[]);
                let Some(over) = passed_over else {
                    return reset;
                };
                let set = mm(over.setting_mm);
                self.text("history-reset-over", &[("reset", &reset), ("set", &set)])
            }
            EventKind::Dropped { piece, .. } => {
                self.text("history-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::FallTakenBack { piece, .. } => {
                let args = [("what", &*self.piece(piece))];
                match piece {
                    Piece::Guide(_) => self.text("history-guide-did-not-fall", &args),
                    _ => self.text("history-fall-taken-back", &args),
                }
            }
            EventKind::Landed { drill, times, .. } => {
                let name = self.drill(&DrillId::from(drill.drill.as_str()));
                let copy = drill.copy.to_string();
                let args = [("drill", name.as_str()), ("copy", &copy)];
                self.counted("history-landed", &[("count", times.get())], &args)
            }
            EventKind::Placed { item, slot, .. } => self.happened_placed(item, slot),
            EventKind::ThingPlaced { thing, slot, .. } => match slot {
                Some(slot) => self.of_thing("history-laid", thing, &[("slot", slot)]),
                None => self.of_thing("history-taken-off", thing, &[]),
            },
            EventKind::Told { thing, work, .. } => {
                let work = match work {
                    ToldWork::Take => "take",
                    ToldWork::SetAnew => "set-anew",
                };
                self.of_thing("history-told", thing, &[("work", work)])
            }
            EventKind::Opened { thing, .. } => self.of_thing("history-opened", thing, &[]),
            EventKind::Beside { what, .. } => self.text("history-beside", &[("what", what)]),
            EventKind::PassBegun { stage, pass } => {
                let pass = match pass {
                    Pass::Setting => "setting",
                    Pass::Blind => "blind",
                };
                let args = [("pass", pass), ("stage", stage_key(*stage))];
                self.text("history-pass-begun", &args)
            }
            EventKind::PassEnded { end, .. } => {
                let end = match end {
                    PassEnd::Unseen => "unseen",
                    PassEnd::Left => "left",
                };
                self.text("history-pass-ended", &[("end", end)])
            }
            EventKind::GaugeChecked {
                gauge,
                piece_mm,
                value_mm,
                asked_back_mm,
                ..
            } => self.gauge_checked(gauge, *piece_mm, (*value_mm, asked_back_mm)),
            EventKind::GaugeAskedBack {
                gauge,
                piece_mm,
                value_mm,
                ..
            } => self.gauge_doubt(gauge, *piece_mm, *value_mm),
            EventKind::SurgeryBegun(_)
            | EventKind::StepDone(_)
            | EventKind::StepSkipped(_)
            | EventKind::StepTakenBack(_)
            | EventKind::Sounded(_)
            | EventKind::Inserted(_)
            | EventKind::Counted(_) => self.happened_in_surgery(kind),
            EventKind::Recorded(_) | EventKind::RecordCorrected(_) | EventKind::RecordSigned(_) => {
                self.happened_in_record(kind)
            }
            EventKind::PieceNamed(named) => {
                let id = match named.mark {
                    Some(_) => "history-piece-named",
                    None => "history-piece-unknown",
                };
                let mark = named.mark.as_deref().unwrap_or_default();
                self.of_drill(id, &named.drill, &[("mark", mark)])
            }
            EventKind::SetAside { of, file, .. } => {
                let args = [("desk", of.as_str()), ("file", file)];
                self.text("history-set-aside", &args)
            }
            EventKind::Note { text } => self.text("history-note", &[("text", text)]),
            EventKind::LineLost { file, lost, by, .. } => {
                let args = [
                    ("file", file.as_str()),
                    ("lost", lost.key()),
                    ("by", by.as_str()),
                ];
                self.text("history-line-lost", &args)
            }
        }
    }

    fn happened_placed(&self, item: &ItemKey, slot: &str) -> String {
        let set = mm(item.setting_mm);
        let more = [("set", set.as_str()), ("slot", slot)];
        let id = match item.stop {
            Some(_) => "history-placed",
            None => "history-placed-mark",
        };
        self.of_drill(id, &item.drill_key(), &more)
    }

    fn gauge_doubt(&self, gauge: &str, piece_mm: Length, value_mm: Length) -> String {
        let name = self.gauge(&GaugeId::from(gauge));
        let (piece, value) = (mm(piece_mm), mm(value_mm));
        let args = [
            ("gauge", name.as_str()),
            ("piece", &piece),
            ("value", &value),
        ];
        self.text("history-gauge-doubt", &args)
    }

    fn gauge_checked(
        &self,
        gauge: &str,
        piece_mm: Length,
        (value_mm, asked_back): (Length, &[Length]),
    ) -> String {
        let id = GaugeId::from(gauge);
        let known = self.case.kit.gauge(&id);
        let graduation = known.map(|gauge| gauge.graduation_mm);
        // Of a gauge that is in the kit no more, its check piece says it; of one without its constant nobody knows.
        let should = known.map_or(Some(piece_mm), |gauge| gauge.shows_of(piece_mm));
        let (name, piece, value) = (self.gauge(&id), mm(piece_mm), mm(value_mm));
        let args = [
            ("gauge", name.as_str()),
            ("piece", &piece),
            ("value", &value),
        ];
        let off = should.map(|should| gauge_off(should, value_mm, graduation));
        let is_shown = graduation.is_none_or(|graduation| is_on_graduation(value_mm, graduation));
        let check = match off {
            Some(None) if !is_shown => self.text("history-gauge-no-figure", &args),
            Some(Some(_)) => self.text("history-gauge-off", &args),
            Some(None) => self.text("history-gauge", &args),
            None => self.text("history-gauge-unknown", &args),
        };
        let asked = asked_back.iter().map(|value| mm(*value));
        let Some(figures) = self.joined("history-figures", asked) else {
            return check;
        };
        let args = [("check", &*check), ("figures", &*figures)];
        self.text("history-gauge-asked-back", &args)
    }

    fn happened_reading(&self, reading: &Reading) -> String {
        let turn = match reading.turn {
            Turn::First => "first",
            Turn::Second => "second",
        };
        let (set, value) = (mm(reading.item.setting_mm), mm(reading.value_mm));
        let gauge = self.gauge(&GaugeId::from(reading.gauge.as_str()));
        let more = [
            ("turn", turn),
            ("stage", stage_key(reading.stage)),
            ("set", &set),
            ("value", &value),
            ("gauge", &gauge),
        ];
        let said = self.of_drill("history-reading", &reading.item.drill_key(), &more);
        match &reading.entered_by {
            None => said,
            Some(by) => {
                let args = [("reading", said.as_str()), ("by", by.as_str())];
                self.text("history-reading-aloud", &args)
            }
        }
    }

    /// The thing that fell.
    #[must_use]
    pub fn piece(&self, piece: &Piece) -> String {
        match piece {
            Piece::Drill(drill) => self.of_drill("history-drill", drill, &[]),
            Piece::Gauge(gauge) => self.gauge(&GaugeId::from(gauge.as_str())),
            Piece::Guide(guide) => match &guide.code {
                Some(code) => self.text("history-guide", &[("code", code)]),
                None => self.word("history-guide-no-code"),
            },
            Piece::Thing(thing) => self.kit().entry(thing.of.list(), &thing.entry),
            Piece::Other(other) => self.entry(other),
        }
    }

    /// A text about a drill, which has `$drill` and `$copy` besides.
    pub(super) fn of_drill(&self, id: &str, drill: &DrillKey, more: &[(&str, &str)]) -> String {
        let name = self.drill(&DrillId::from(drill.drill.as_str()));
        let copy = drill.copy.to_string();
        let mut args = vec![("drill", name.as_str()), ("copy", copy.as_str())];
        args.extend(more);
        self.texts.get(id, &args)
    }

    /// The name of something that a slot can hold, by its id alone; the id where the kit lacks it.
    fn entry(&self, id: &str) -> String {
        let kit = &self.case.kit;
        let lists = SlotKind::ALL.map(SlotKind::list);
        let list = lists
            .into_iter()
            .find(|list| !kit.fields(list, id).is_empty());
        list.map_or_else(|| id.to_owned(), |list| self.kit().entry(list, id))
    }

    /// The name of a thing in the kit.
    #[must_use]
    pub fn thing(&self, thing: &ThingKey) -> String {
        self.kit().entry(thing.of.list(), &thing.entry)
    }

    const fn kit(&self) -> KitFormatter<'_> {
        KitFormatter {
            texts: self.texts,
            kit: &self.case.kit,
        }
    }

    /// A text about a thing, which has `$thing` and `$copy` besides.
    fn of_thing(&self, id: &str, thing: &ThingKey, more: &[(&str, &str)]) -> String {
        let name = self.thing(thing);
        let copy = thing.copy.to_string();
        let mut args = vec![("thing", name.as_str()), ("copy", copy.as_str())];
        args.extend(more);
        self.texts.get(id, &args)
    }
}

const fn stage_key(stage: Stage) -> &'static str {
    match stage {
        Stage::Bench => "bench",
        Stage::SterileField => "sterile_field",
        Stage::AfterUse => "after_use",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Case, ValidCase};
    use crate::dentition::Notation;
    use crate::samples::mm;
    use crate::wording::tests::sample::valid;

    /// Of a gauge without its constant nobody knows what it should have shown: its check reads neither sound nor off.
    #[test]
    fn a_check_is_no_sound_one_where_nobody_knows_what_the_gauge_should_show() {
        let mut case: Case = (*valid(&[])).clone();
        let id = case.kit.gauges[0].id.to_string();
        let constant = case.kit.gauges[0].constant_mm.unwrap();
        let said = |case: &Case, value_mm| {
            let case = ValidCase::checked(case).unwrap();
            Formatter::english(&case, Notation::Iso).gauge_checked(&id, mm("20"), (value_mm, &[]))
        };
        let should = mm("20") + constant;
        let (sound, off) = (said(&case, should), said(&case, should + mm("1")));
        assert!(off.contains("OFF") && !sound.contains("OFF"));
        case.kit.gauges[0].constant_mm = None;
        for value in [should, should + mm("1")] {
            let unknown = said(&case, value);
            assert!(unknown.contains("nobody can say"), "{unknown}");
        }
    }
}
