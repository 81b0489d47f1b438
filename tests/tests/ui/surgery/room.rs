//! The room of a day of surgery: a loaded tray, two people and their keys.

use super::tray::{case_in, load, read, record};
use crate::hand::{DESK, Hand};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::path::{Path, PathBuf};
use traywright::action::View;
use traywright_core::case::Case;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, Purpose, StepDone, StepKey};
use traywright_core::store::read_events;
use traywright_core::surgery::{Day, DayStep, Work, day};

pub(super) const WHO: &str = "Who records? Initials";

pub(super) const SECOND: &str = "Who counted with you? Initials";

/// At the surgery view of a case.
pub(super) struct Room {
    pub(super) hand: Hand,
    pub(super) file: PathBuf,
}

impl Room {
    pub(super) fn of(demo: &str) -> Self {
        Self::with(demo, DESK, |_| {}, load)
    }

    /// After the first person gave her initials.
    pub(super) fn begun(demo: &str) -> Self {
        let mut room = Self::of(demo);
        room.begin("KE");
        room
    }

    /// Where these words are there for the first time.
    pub(super) fn at(demo: &str, words: &str) -> Self {
        let mut room = Self::begun(demo);
        room.until(words);
        room
    }

    pub(super) fn with(
        demo: &str,
        size: Vec2,
        change: impl FnOnce(&mut Case),
        before: impl FnOnce(&Path),
    ) -> Self {
        let mut hand = Hand::at(size, 1.0);
        let file = case_in(hand.folder.path(), demo, change);
        before(&file);
        hand.harness.state_mut().open(&file);
        hand.wait();
        hand.go(View::Surgery);
        Self { hand, file }
    }

    /// The program died, and is begun anew.
    pub(super) fn killed(self) -> Self {
        let Self { hand, file } = self;
        let mut hand = hand.again(Some(&file));
        hand.go(View::Surgery);
        Self { hand, file }
    }

    pub(super) fn told(&self) -> Vec<String> {
        let all = self.hand.harness.query_all_by(|_| true);
        all.flat_map(|node| {
            let node = node.accesskit_node();
            [node.label(), node.value()]
        })
        .flatten()
        .collect()
    }

    pub(super) fn tells(&self, words: &str) -> bool {
        self.told().iter().any(|text| text.contains(words))
    }

    #[track_caller]
    pub(super) fn expect(&self, words: &str) {
        assert!(self.tells(words), "no “{words}” among {:#?}", self.told());
    }

    pub(super) fn key(&mut self, key: Key) {
        self.hand.press(Modifiers::NONE, key);
    }

    /// Presses keys, none of which records anything.
    #[track_caller]
    pub(super) fn records_nothing(&mut self, keys: &[Key]) {
        let kinds = self.kinds();
        for key in keys {
            self.key(*key);
        }
        assert_eq!(self.kinds(), kinds, "{keys:?}");
    }

    pub(super) fn figure(&mut self, figure: &str) {
        for letter in figure.chars() {
            self.hand.harness.event(Event::Text(letter.to_string()));
            self.hand.harness.run();
        }
    }

    /// Gives a text in the field that is asked for.
    pub(super) fn give(&mut self, field: &str, text: &str) {
        self.hand.enter(field, text);
        self.hand.click("Enter");
        if self.tells("New here: ") {
            self.hand.click("Enter");
        }
    }

    pub(super) fn begin(&mut self, who: &str) {
        self.give(WHO, who);
    }

    /// The same where the view asks for it once more.
    pub(super) fn begin_again(&mut self) {
        if self.tells(WHO) {
            self.begin("KE");
        }
    }

    /// What was recorded of the day.
    pub(super) fn kinds(&self) -> Vec<EventKind> {
        let case = read(&self.file);
        let beside = read_events(&self.file, &case_jaw(&case)).expect("a record");
        let events = beside.events.in_order().into_iter();
        events.map(|event| event.kind.clone()).collect()
    }

    pub(super) fn last(&self) -> EventKind {
        self.kinds().pop().expect("an event")
    }

    /// What a look at the day gives.
    pub(super) fn of_day<T>(&self, look: impl FnOnce(&Day<'_>) -> T) -> T {
        let document = self.hand.program().document().expect("a case");
        let record = &document.record;
        look(&day(
            document.case(),
            document.worksheet(),
            (&record.view, &record.standing),
        ))
    }

    /// The place of the step that is due, of all.
    pub(super) fn due(&self) -> (Option<usize>, usize) {
        self.of_day(|day| (day.next(), day.steps.len()))
    }

    /// What a look at the step that is due gives.
    pub(super) fn of_due<T>(&self, look: impl FnOnce(&DayStep<'_>) -> T) -> T {
        self.of_day(|day| look(&day.steps[day.next().expect("a step is due")]))
    }

    /// What the step that is due is, by its title or its site.
    pub(super) fn is_due(&self, words: &str) -> bool {
        self.tells(words)
    }

    /// The step that is shown, by its place at the head; none where none is.
    pub(super) fn shown(&self) -> Option<StepKey> {
        let told = self.told();
        let place = told.iter().find_map(|text| {
            let (_, after) = text.split_once("step ")?;
            let (at, _) = after.split_once(" of ")?;
            at.parse::<usize>().ok()
        })?;
        self.of_day(|day| Some(day.steps.get(place.checked_sub(1)?)?.key.clone()))
    }

    /// What is due, by its key and what is counted there.
    pub(super) fn step(&self) -> (StepKey, Vec<u32>) {
        self.of_due(|step| {
            let wanted = match &step.work {
                Work::Count(list) => list.iter().map(|line| line.wanted).collect(),
                _ => Vec::new(),
            };
            (step.key.clone(), wanted)
        })
    }

    /// Counts everything as it should be, with JH; the first line otherwise, where that is said.
    pub(super) fn count(&mut self, first: Option<u32>) {
        let (_, mut wanted) = self.step();
        if let Some(first) = first {
            wanted[0] = first;
        }
        for found in wanted {
            self.figure(&found.to_string());
            self.key(Key::Enter);
        }
    }

    /// Another desk records something, and this one looks at the disk.
    pub(super) fn elsewhere(&mut self, kind: EventKind) {
        let case = read(&self.file);
        record(&self.file, &case, "RT", kind);
        self.hand.press(Modifiers::COMMAND, View::Surgery.key());
        self.hand.harness.run();
    }

    /// The planned figure of the sounding that is shown.
    pub(super) fn planned(&self) -> String {
        self.of_due(|step| match &step.work {
            Work::Sound(sounding) => sounding.planned.expect("a figure").to_string(),
            work => panic!("{work:?}"),
        })
    }

    /// Goes on through everything that is due, as it should be done, until these words are there.
    pub(super) fn until(&mut self, words: &str) {
        for _ in 0..200 {
            if self.is_due(words) {
                return;
            }
            let buttons = self.hand.names(Role::Button);
            let has = |name: &str| buttons.iter().any(|one| one == name);
            if self.tells("Count together, aloud.") {
                self.count(None);
                self.give(SECOND, "JH");
            } else if self.tells("What the probe shows") {
                let planned = self.planned();
                self.figure(&planned);
                self.key(Key::Enter);
            } else if has("By its carrier, to its line") {
                self.key(Key::G);
                self.reached("35");
            } else if has("By hand") {
                self.key(Key::H);
                self.reached("30");
            } else {
                assert!(has("Done"), "{words}: {:#?}", self.told());
                self.key(Key::Space);
            }
        }
        panic!("never “{words}”");
    }

    /// Torque and where it stopped: at its depth.
    pub(super) fn reached(&mut self, torque: &str) {
        self.expect("Torque reached");
        self.figure(torque);
        self.key(Key::Enter);
        self.expect("How far from its planned depth did it stop?");
        self.key(Key::Space);
    }
}

/// A step as it was done for practice, and nothing else said of it.
pub(super) fn practised(step: StepKey) -> EventKind {
    EventKind::StepDone(StepDone {
        step,
        piece: None,
        due: None,
        despite: None,
        by_hand: None,
        purpose: Purpose::Practice,
    })
}
