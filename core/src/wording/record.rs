//! The record of a case in words.

use super::{Formatter, begin, mm};
use crate::kit::ImplantId;
use crate::measure::Torque;
use crate::record::{Answer, CaseRecord, FieldRecord, ImplantRecord, Line, Missing, Said, Told};
use crate::sign::{
    DayEvent, Entry, EntryKind, EventKind, Fall, Given, PlacedImplant, Purpose, RecordCorrected,
    RecordEvent, SiteKey, StabilityMethod,
};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;

/// What is recorded of one thing, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordFieldText {
    /// Its name.
    pub name: String,
    /// What stands, each by itself; that nothing is recorded where nothing is.
    pub stands: Vec<String>,
    /// What stood before, sentences.
    pub before: Vec<String>,
    /// True if nothing is recorded, or desks differ.
    pub is_open: bool,
}

impl Formatter<'_> {
    /// The name of what is asked for.
    #[must_use]
    pub fn entry_kind(&self, kind: EntryKind) -> String {
        self.word(match kind {
            EntryKind::Implant => "record-implant",
            EntryKind::Torque => "record-torque",
            EntryKind::Depth => "record-depth",
            EntryKind::Stability => "record-stability",
            EntryKind::Graft => "record-graft",
            EntryKind::Closure => "record-closure",
            EntryKind::Healing => "record-healing",
            EntryKind::Deviation => "record-deviation",
            EntryKind::Discarded => "record-discarded",
        })
    }

    /// The way in which stability is measured.
    #[must_use]
    pub fn stability_method(&self, method: StabilityMethod) -> String {
        self.word(match method {
            StabilityMethod::Resonance => "record-resonance",
            StabilityMethod::Damping => "record-damping",
        })
    }

    /// What was entered.
    #[must_use]
    pub fn record_entry(&self, entry: &Entry) -> String {
        match entry {
            Entry::Implant(placed) => self.placed(placed),
            Entry::Torque { torque_ncm, .. } => self.torque_reached(Some(*torque_ncm)),
            Entry::Depth {
                coronal_of_plan_mm, ..
            } => self.depth_reached(Some(*coronal_of_plan_mm)),
            Entry::Stability { method, value, .. } => {
                let (method, value) = (self.stability_method(*method), value.to_string());
                let args = [("method", method.as_str()), ("value", &value)];
                self.text("record-stability-of", &args)
            }
            Entry::Graft { material: None, .. } => self.word("record-graft-none"),
            Entry::Graft {
                material: Some(material),
                ..
            } => {
                let lot = self.told_or_not(material.lot.as_deref());
                let expiry = self.day_or_not(material.expiry);
                let args = [
                    ("what", material.what.as_str()),
                    ("lot", &lot),
                    ("expiry", &expiry),
                ];
                self.text("record-graft-of", &args)
            }
            Entry::Closure { how, .. } => how.clone(),
            Entry::Healing { part: None, .. } => self.word("record-healing-none"),
            Entry::Healing {
                part: Some(part), ..
            } => {
                let lot = self.told_or_not(part.lot.as_deref());
                let torque = self.torque_or_not(part.torque_ncm);
                let args = [
                    ("what", part.what.as_str()),
                    ("lot", &lot),
                    ("torque", &torque),
                ];
                self.text("record-healing-of", &args)
            }
            Entry::Deviation {
                departure: None, ..
            } => self.word("record-deviation-none"),
            Entry::Deviation {
                departure: Some(departure),
                ..
            } => {
                let args = [
                    ("what", departure.what.as_str()),
                    ("reason", &departure.reason),
                ];
                self.text("record-deviation-of", &args)
            }
            Entry::Discarded { what, reason } => {
                let args = [("what", what.as_str()), ("reason", reason)];
                self.text("record-discarded-of", &args)
            }
        }
    }

    fn placed(&self, placed: &PlacedImplant) -> String {
        let name = |id: &str| self.implant(&ImplantId::from(id));
        let implant = placed
            .implant
            .as_deref()
            .map_or_else(|| self.word("record-implant-unknown"), name);
        let given = match placed.given {
            Given::Scanned => "scanned",
            Given::Typed => "typed",
        };
        let lot = self.told_or_not(placed.lot.as_deref());
        let expiry = self.day_or_not(placed.expiry);
        let args = [
            ("implant", implant.as_str()),
            ("code", &placed.code),
            ("lot", &lot),
            ("expiry", &expiry),
            ("given", given),
        ];
        let mut said = self.text("record-implant-of", &args);
        if let Some(compared) = &placed.compared {
            let (diameter, length) = (mm(compared.diameter_mm), mm(compared.length_mm));
            let args = [
                ("said", said.as_str()),
                ("name", &compared.name),
                ("diameter", &diameter),
                ("length", &length),
                ("second", compared.second.as_str()),
            ];
            said = self.text("record-implant-compared", &args);
        }
        let Some(because) = &placed.because else {
            return said;
        };
        let planned = placed.planned.as_deref();
        let planned = planned.map_or_else(|| self.word("record-no-plan"), name);
        let args = [
            ("said", said.as_str()),
            ("planned", &planned),
            ("reason", because),
        ];
        self.text("record-implant-because", &args)
    }

    fn told_or_not(&self, told: Option<&str>) -> String {
        told.map_or_else(|| self.word("record-not-recorded"), str::to_owned)
    }

    fn day_or_not(&self, day: Option<Date>) -> String {
        day.map_or_else(|| self.word("record-not-recorded"), |day| day.to_string())
    }

    fn torque_or_not(&self, torque: Option<Torque>) -> String {
        match torque {
            None => self.word("record-not-recorded"),
            Some(torque) => self.torque_reached(Some(torque)),
        }
    }

    /// What is recorded of one thing. Of a time on `day`, which then stands beside it, the time of the day is enough.
    #[must_use]
    pub fn record_field(
        &self,
        record: &CaseRecord<'_>,
        (kind, lines): (EntryKind, &[Line<'_>]),
        day: Option<Date>,
    ) -> RecordFieldText {
        let field = FieldRecord {
            kind,
            lines: lines.to_vec(),
            not_placed: false,
        };
        self.record_field_of(record, (&field, None), day)
    }

    /// The same of an implant: where none was placed that, with who recorded it and why beside the implant itself.
    #[must_use]
    pub fn record_field_of(
        &self,
        record: &CaseRecord<'_>,
        (field, implant): (&FieldRecord<'_>, Option<&ImplantRecord<'_>>),
        day: Option<Date>,
    ) -> RecordFieldText {
        let (kind, lines) = (field.kind, &field.lines[..]);
        if field.is_empty() && field.not_placed {
            let before = lines.iter().flat_map(|line| self.before(line, day));
            let why = implant.filter(|_| kind == EntryKind::Implant);
            let why = why.and_then(|implant| self.not_placed(implant.not_placed?));
            return RecordFieldText {
                name: self.entry_kind(kind),
                is_open: false,
                stands: vec![why.unwrap_or_else(|| self.word("record-not-placed"))],
                before: before.collect(),
            };
        }
        let answers = field.answers();
        let open = |answer: &Answer<'_, '_>| !matches!(answer, Answer::Recorded(_));
        let before = lines.iter().flat_map(|line| self.before(line, day));
        let answer = |answer| self.answer(record, answer, day);
        RecordFieldText {
            name: self.entry_kind(kind),
            is_open: answers.iter().any(open),
            stands: answers.iter().map(answer).collect(),
            before: before.collect(),
        }
    }

    /// That no implant was placed, by whom that was recorded and why.
    #[must_use]
    pub fn not_placed(&self, one: &DayEvent) -> Option<String> {
        let EventKind::StepSkipped(skipped) = &one.kind else {
            return None;
        };
        let at = minute(one.at);
        let args = [
            ("who", one.who.as_str()),
            ("at", &*at),
            ("reason", &skipped.reason),
        ];
        Some(self.text("record-not-placed-because", &args))
    }

    fn answer(
        &self,
        record: &CaseRecord<'_>,
        answer: &Answer<'_, '_>,
        day: Option<Date>,
    ) -> String {
        match answer {
            Answer::NotRecorded => self.word("record-not-recorded"),
            Answer::Recorded(said) => {
                let told = self.said(said, day);
                if record.is_since(&said.id) {
                    self.text("record-since", &[("said", &told)])
                } else {
                    told
                }
            }
            Answer::Differs(all) => {
                let all = all.iter().map(|said| self.said(said, day));
                let all = all.collect::<Vec<_>>().join("; ");
                self.text("record-differs", &[("all", &all)])
            }
        }
    }

    /// What was said, by whom and when.
    fn said(&self, said: &Said<'_>, day: Option<Date>) -> String {
        let what = said.entry.as_ref().map_or_else(
            || self.word("record-taken-away"),
            |entry| self.record_entry(entry),
        );
        let at = minute_on(said.at, day);
        let args = [("what", &*what), ("who", said.who.as_str()), ("at", &at)];
        self.text("record-said", &args)
    }

    /// What stood before, and why it does not any more.
    fn before(&self, line: &Line<'_>, day: Option<Date>) -> Vec<String> {
        let reason = |said: &Said<'_>| {
            let all = line.before.iter().chain(&line.last);
            let mut by = all.filter_map(|other| {
                let (of, reason) = other.corrects?;
                (*of == said.id).then(|| {
                    let args = [
                        ("who", other.who.as_str()),
                        ("at", &*minute_on(other.at, day)),
                        ("reason", reason),
                    ];
                    self.text("record-corrected-by", &args)
                })
            });
            by.next().unwrap_or_default()
        };
        let all = line.before.iter().map(|said| {
            let args = [("said", &*self.said(said, day)), ("why", &*reason(said))];
            self.text("record-before", &args)
        });
        let taken = line.last.iter().filter(|said| said.entry.is_none());
        let taken = taken.filter(|said| said.corrects.is_some()).map(|said| {
            let reason = said.corrects.map_or("", |(_, reason)| reason);
            let args = [("said", &*self.said(said, day)), ("reason", reason)];
            self.text("record-taken-because", &args)
        });
        all.chain(taken).collect()
    }

    /// A site as the record names it.
    #[must_use]
    pub fn record_site(&self, site: &SiteKey) -> String {
        self.tooth(site.tooth)
    }

    /// What is not recorded: a line for each site, and one for the case.
    #[must_use]
    pub fn record_missing(&self, record: &CaseRecord<'_>) -> Vec<String> {
        let of_site = |one: &ImplantRecord<'_>| {
            let here = record.missing.iter().filter_map(|missing| {
                let (site, what) = self.missing(missing);
                (site?.site == one.site.site).then_some(what)
            });
            let what = self.joined("load-list", here)?;
            let args = [("site", &*self.record_site(&one.site)), ("what", &*what)];
            Some(begin(&self.text("record-missing-at", &args)))
        };
        let sites = record.implants.iter().filter_map(of_site);
        let others = record.missing.iter().filter_map(|missing| {
            let (site, what) = self.missing(missing);
            site.is_none().then_some(what)
        });
        let others = self.joined("load-list", others);
        let others = others.map(|what| self.text("record-missing", &[("what", &what)]));
        sites.chain(others.map(|said| begin(&said))).collect()
    }

    fn missing<'m>(&self, missing: &'m Missing) -> (Option<&'m SiteKey>, String) {
        match missing {
            Missing::Field(site, kind) => (Some(site), self.entry_kind(*kind)),
            Missing::Lot(site) => (Some(site), self.word("record-lot")),
            Missing::Expiry(site) => (Some(site), self.word("record-expiry")),
            Missing::GraftLot(site) => (Some(site), self.word("record-graft-lot")),
            Missing::HealingTorque(site) => (Some(site), self.word("record-healing-torque")),
            Missing::CountIn => (None, self.word("surgery-step-count-in")),
            Missing::CountOut => (None, self.word("surgery-step-count-out")),
        }
    }

    /// Something that is to be seen before all else, a sentence.
    #[must_use]
    pub fn record_told(&self, record: &CaseRecord<'_>, told: &Told) -> String {
        let placed = |site: &SiteKey| {
            let mut implants = record.implants.iter();
            let of = implants.find(|one| one.site == *site)?;
            let said = of.field(EntryKind::Implant)?.one()?;
            match said.entry.as_ref()? {
                Entry::Implant(placed) => Some((of.planned(), placed)),
                _ => None,
            }
        };
        match told {
            Told::NotPlaced {
                site,
                who,
                at,
                reason,
            } => {
                let args = [
                    ("site", &*begin(&self.record_site(site))),
                    ("who", who.as_str()),
                    ("at", &*minute(*at)),
                    ("reason", reason.as_str()),
                ];
                self.text("record-told-not-placed", &args)
            }
            Told::OtherImplant(site) => {
                let (planned, placed) = placed(site).unzip();
                let planned = planned.flatten();
                let planned =
                    planned.map_or_else(|| self.word("record-no-plan"), |id| self.implant(id));
                let id = placed.and_then(|placed| placed.implant.as_deref());
                let id = id.map_or_else(String::new, |id| self.implant(&ImplantId::from(id)));
                let site = begin(&self.record_site(site));
                let args = [("site", &*site), ("placed", &*id), ("planned", &*planned)];
                self.text("record-told-other", &args)
            }
            Told::UnknownImplant(site) => {
                let code = placed(site).map_or_else(String::new, |(_, one)| one.code.clone());
                let site = begin(&self.record_site(site));
                self.text("record-told-unknown", &[("site", &*site), ("code", &*code)])
            }
            Told::Expired {
                site,
                kind,
                expiry,
                on,
            } => {
                let args = [
                    ("site", &*begin(&self.record_site(site))),
                    ("what", &*self.entry_kind(*kind)),
                    ("expiry", &*expiry.to_string()),
                    ("on", &*on.to_string()),
                ];
                self.text("record-told-expired", &args)
            }
            Told::Differs(site, kind) => {
                let what = self.entry_kind(*kind);
                match site {
                    None => self.text("record-told-differs", &[("what", &*begin(&what))]),
                    Some(site) => {
                        let site = begin(&self.record_site(site));
                        let args = [("site", &*site), ("what", &*what)];
                        self.text("record-told-differs-at", &args)
                    }
                }
            }
            Told::Torque {
                site,
                torque,
                limit,
            } => {
                let args = [
                    ("torque", &*torque.to_string()),
                    ("limit", &*limit.to_string()),
                ];
                let said = self.text("surgery-torque-above", &args);
                self.told_at_site(site, &said)
            }
            Told::Depth { site, coronal } => {
                let said = self.depth_off(*coronal).unwrap_or_default();
                self.told_at_site(site, &said)
            }
            Told::CountOut => self.word("record-told-count"),
            Told::GuideAbandoned { who, at, reason } => {
                let args = [("who", who.as_str()), ("at", &*minute(*at))];
                let said = self.text("record-told-abandoned", &args);
                self.because(said, reason.as_deref())
            }
            Told::Changed { .. } => self.told_changed(told).unwrap_or_default(),
            Told::NotPlanned(site) => {
                let site = begin(&self.record_site(site));
                self.text("record-told-not-planned", &[("site", &site)])
            }
        }
    }

    /// A change on the table; nothing of anything else.
    fn told_changed(&self, told: &Told) -> Option<String> {
        let Told::Changed {
            site,
            who,
            at,
            step,
            reason,
            kept,
        } = told
        else {
            return None;
        };
        let args = [
            ("what", &*begin(&self.day_step(step))),
            ("who", who.as_str()),
            ("at", &*minute(*at)),
        ];
        let said = self.text("record-told-changed", &args);
        let said = self.because(said, reason.as_deref());
        if *kept == 0 {
            return Some(said);
        }
        let site = self.record_site(site);
        let args = [("said", &*said), ("site", &*site)];
        Some(self.counted("record-told-changed-kept", &[("count", *kept)], &args))
    }

    fn told_at_site(&self, site: &SiteKey, said: &str) -> String {
        let site = begin(&self.record_site(site));
        self.text("record-at", &[("site", &*site), ("said", said)])
    }

    /// How the record stands: for practice, broken, signed by whom, and what came since. Sentences.
    #[must_use]
    pub fn record_state(&self, record: &CaseRecord<'_>) -> Vec<String> {
        let mut said = Vec::new();
        if record.purpose == Purpose::Practice {
            said.push(self.word("record-practice"));
        }
        if record.broken {
            said.push(self.word("record-broken"));
            return said;
        }
        let Some(last) = record.signature() else {
            said.push(self.word("record-unsigned"));
            return said;
        };
        let at = minute(last.at);
        let args = [("who", last.who.as_str()), ("at", &at)];
        said.push(self.counted("record-signed", &[("open", last.signed.open)], &args));
        if record.is_signed_otherwise() {
            let (then, now) = (
                last.signed.fingerprint.to_string(),
                record.fingerprint.to_string(),
            );
            let args = [("then", then.as_str()), ("now", &now)];
            said.push(self.text("record-signed-otherwise", &args));
        }
        let since = record.since().len();
        if since > 0 {
            said.push(self.counted("record-added-since", &[("count", since)], &[]));
        }
        said
    }

    /// What came since the record was signed, a line each.
    #[must_use]
    pub fn record_since(&self, record: &CaseRecord<'_>) -> Vec<String> {
        let all = record.since().iter();
        let lines = all.map(|one| {
            let what = self.since_signed(record, one);
            self.record_line(one.at, one.who.as_str(), &what)
        });
        lines.collect()
    }

    /// The same in few words, where date and person stand before it.
    #[must_use]
    pub fn record_since_at(&self, record: &CaseRecord<'_>) -> Vec<String> {
        let all = record.since().iter();
        let lines = all.map(|one| {
            let what = self.since_signed(record, one);
            let at = one.at.strftime("%H:%M").to_string();
            self.text("record-at-time", &[("at", &at), ("what", &what)])
        });
        lines.collect()
    }

    fn since_signed(&self, record: &CaseRecord<'_>, one: &RecordEvent) -> String {
        match &one.kind {
            EventKind::StepTakenBack(back) => {
                let of = record.run.iter().find(|run| run.id == back.event);
                self.happened_back(back, of.map(|run| &run.kind))
            }
            kind => match record.run.iter().find(|run| run.id == one.id) {
                Some(run) => self.happened_of(record, run),
                None => self.happened_since(kind),
            },
        }
    }

    fn happened_since(&self, kind: &EventKind) -> String {
        match kind {
            EventKind::Dropped { piece, .. } => {
                self.text("history-dropped", &[("what", &self.piece(piece))])
            }
            EventKind::FallTakenBack { piece, .. } => {
                self.text("history-fall-taken-back", &[("what", &self.piece(piece))])
            }
            kind if kind.is_of_record() => self.happened_in_record(kind),
            kind => self.happened_in_surgery(kind),
        }
    }

    /// One event of the run: when, who, what; that it was said to have been recorded by mistake.
    #[must_use]
    pub fn record_run(&self, one: &DayEvent) -> String {
        let what = self.happened_on_day(one);
        self.record_ran(one, &what)
    }

    /// The same in its record: of a count after which something fell that is told with it.
    #[must_use]
    pub fn record_run_of(&self, record: &CaseRecord<'_>, one: &DayEvent) -> String {
        self.record_ran(one, &self.happened_of(record, one))
    }

    /// What happened, as the record has it now.
    fn happened_of(&self, record: &CaseRecord<'_>, one: &DayEvent) -> String {
        match &one.kind {
            EventKind::Counted(counted) if record.is_reopened(one) => {
                let said = self.happened_count(counted, true);
                self.text("record-count-reopened", &[("said", &said)])
            }
            _ => {
                let said = self.happened_among(record.run, one);
                self.planned_then(record, one, said)
            }
        }
    }

    /// The same with the implant that its site was planned for, where that was changed on the table since.
    fn planned_then(&self, record: &CaseRecord<'_>, one: &DayEvent, said: String) -> String {
        let Some(then) = record.planned_then(one) else {
            return said;
        };
        let then = self.implant(&ImplantId::from(then));
        let args = [("said", &*said), ("implant", &*then)];
        self.text("record-planned-then", &args)
    }

    fn record_ran(&self, one: &DayEvent, what: &str) -> String {
        let line = self.record_line(one.at, one.who.as_str(), what);
        self.taken_back(line, one)
    }

    /// The same in few words, where date and person stand before it: the time and what was done.
    #[must_use]
    pub fn record_run_at(&self, record: &CaseRecord<'_>, one: &DayEvent) -> String {
        let what = match &one.kind {
            // In its turn and ready: the step says it all.
            EventKind::StepDone(done) if done.due.is_none() && done.despite.is_none() => {
                let step = self.step_with(one, done);
                self.planned_then(record, one, step)
            }
            _ => self.happened_of(record, one),
        };
        let at = one.at.strftime("%H:%M").to_string();
        let line = self.text("record-at-time", &[("at", &at), ("what", &what)]);
        self.taken_back(line, one)
    }

    /// Steps that were left out at once for one reason, in few words.
    #[must_use]
    pub fn record_skipped_at(&self, all: &[DayEvent]) -> String {
        let (mut steps, mut said) = (Vec::new(), ("", String::new()));
        for one in all {
            if let EventKind::StepSkipped(skipped) = &one.kind {
                steps.push(self.day_step(&skipped.step));
                said = (&skipped.reason, one.at.strftime("%H:%M").to_string());
            }
        }
        let (reason, at) = said;
        let args = [("step", &*steps.join("; ")), ("reason", reason)];
        let what = self.text("history-step-skipped", &args);
        self.text("record-at-time", &[("at", &at), ("what", &what)])
    }

    /// The same with who said that it was recorded by mistake, when, and why.
    fn taken_back(&self, line: String, one: &DayEvent) -> String {
        let Some((by, back)) = one.taken_back.as_ref().zip(one.back.as_ref()) else {
            return line;
        };
        let at = minute(back.at);
        let args = [("line", &*line), ("by", by.as_str()), ("at", &at)];
        let said = self.text("record-run-taken", &args);
        self.because(said, back.reason.as_deref())
    }

    /// Something that fell.
    #[must_use]
    pub fn record_fall(&self, fall: &Fall) -> String {
        let what = self.text("history-dropped", &[("what", &self.piece(&fall.piece))]);
        let line = self.record_line(fall.at, fall.who.as_str(), &what);
        if fall.counts() {
            line
        } else {
            self.text("record-fall-mistake", &[("line", &line)])
        }
    }

    /// The same in few words, where date and person stand before it.
    #[must_use]
    pub fn record_fall_at(&self, fall: &Fall) -> String {
        let what = self.text("history-dropped", &[("what", &self.piece(&fall.piece))]);
        let at = fall.at.strftime("%H:%M").to_string();
        let line = self.text("record-at-time", &[("at", &at), ("what", &what)]);
        if fall.counts() {
            line
        } else {
            self.text("record-fall-mistake", &[("line", &line)])
        }
    }

    /// A correction that corrects nothing that stands.
    #[must_use]
    pub fn record_astray(&self, one: &crate::sign::RecordEvent) -> String {
        let what = self.happened_in_record(&one.kind);
        let line = self.record_line(one.at, one.who.as_str(), &what);
        self.text("record-astray", &[("line", &line)])
    }

    fn record_line(&self, at: Timestamp, who: &str, what: &str) -> String {
        let at = minute(at);
        self.text("record-line", &[("at", &*at), ("who", who), ("what", what)])
    }

    /// A count in words: with whom, and what was amiss; that it was not recorded.
    #[must_use]
    pub fn record_count(&self, record: &CaseRecord<'_>, count: Option<&DayEvent>) -> String {
        match count {
            None => self.word("record-not-recorded"),
            Some(one) => self.record_run_of(record, one),
        }
    }

    /// Something that was entered, corrected or signed, as a sentence without full stop.
    #[must_use]
    pub fn happened_in_record(&self, kind: &EventKind) -> String {
        match kind {
            EventKind::Recorded(recorded) => {
                let what = self.entry_named(&recorded.entry);
                self.text("history-recorded", &[("what", &what)])
            }
            EventKind::RecordCorrected(corrected) => self.happened_correction(corrected),
            EventKind::RecordSigned(signed) => {
                let fingerprint = signed.fingerprint.to_string();
                let args = [("fingerprint", fingerprint.as_str())];
                self.counted("history-record-signed", &[("open", signed.open)], &args)
            }
            _ => String::new(),
        }
    }

    fn happened_correction(&self, corrected: &RecordCorrected) -> String {
        let what = if let Some(entry) = &corrected.to {
            self.entry_named(entry)
        } else {
            let kind = self.entry_kind(corrected.field);
            self.text("record-nothing-of", &[("what", &kind)])
        };
        let event = corrected.event.to_string();
        let args = [
            ("what", what.as_str()),
            ("event", &event),
            ("reason", &corrected.reason),
        ];
        self.text("history-record-corrected", &args)
    }

    /// What was entered, with its site and its name.
    fn entry_named(&self, entry: &Entry) -> String {
        let (kind, what) = (self.entry_kind(entry.kind()), self.record_entry(entry));
        match entry.site() {
            None => self.text("record-named", &[("kind", &*kind), ("what", &*what)]),
            Some(site) => {
                let site = self.record_site(site);
                let args = [("site", &*site), ("kind", &*kind), ("what", &*what)];
                self.text("record-named-at", &args)
            }
        }
    }

    /// The depth that the plan has for an implant, in words; that there is none where it has none.
    #[must_use]
    pub fn record_planned(&self, implant: &ImplantRecord<'_>) -> String {
        match implant.planned() {
            None => self.word("record-no-plan"),
            Some(id) => self.implant(id),
        }
    }
}

/// The same without the date, where that is this day's.
fn minute_on(at: Timestamp, day: Option<Date>) -> String {
    if day == Some(Offset::UTC.to_datetime(at).date()) {
        at.strftime("%H:%M").to_string()
    } else {
        minute(at)
    }
}

/// A time to the minute, UTC.
fn minute(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d %H:%M").to_string()
}
