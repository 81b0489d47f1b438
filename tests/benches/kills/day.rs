//! A day of surgery under kills: the tray is loaded by a desk and the day worked in the window by its keys, by a program that is killed
//! at random moments. After each kill all that it had shown as recorded is there once, no step, reading or count is there twice, and the
//! next program goes on at the step at which the record is.
//!
//! What the window shows is read from it as a screen reader would, so that nothing is pressed that is not asked for.

use super::child::{case_file, opened};
use super::{Chance, Done, killed_after};
use egui::{Event, Key, Modifiers, RawInput, Rect, pos2, vec2};
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};
use traywright::action::View;
use traywright::desk::Document;
use traywright::look::Mode;
use traywright::window::Program;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, StepKey, Who, WriterId};
use traywright_core::store::{events_folder, mend_torn};
use traywright_core::surgery::{CountKind, Work, day};
use traywright_tests::Still;
use traywright_tests::tray::loaded;

/// The longest life of a program at first, µs.
const LONGEST_US: u64 = 2_500_000;
/// The longest that it grows to, µs.
const MOST_US: u64 = 5_000_000;
/// So many frames settle what a press did.
const SETTLES: usize = 3;

/// The window of a day, without a screen.
struct Window {
    ctx: egui::Context,
    program: Program,
    /// The window's own clock, s.
    time: f64,
    /// Every name and value of the frame before.
    told: Vec<String>,
}

impl Window {
    fn at_surgery(folder: &Path) -> Self {
        let ctx = egui::Context::default();
        ctx.enable_accesskit();
        Program::dress_as(&ctx, Mode::Light);
        let still = Still::stopped().with_settings(folder.join("settings.json"));
        let mut program = Program::new(Box::new(still));
        program.open(&case_file(folder));
        let mut window = Self {
            ctx,
            program,
            time: 0.0,
            told: Vec::new(),
        };
        window.press(Modifiers::COMMAND, View::Surgery.key());
        window
    }

    fn frame(&mut self, events: Vec<Event>) {
        // Each press is one of its own.
        self.time += 0.5;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 800.0))),
            time: Some(self.time),
            events,
            focused: true,
            ..RawInput::default()
        };
        let program = &mut self.program;
        let mut output = self.ctx.run_ui(input, |ui| program.frame(ui));
        output.textures_delta.clear();
        let Some(update) = output.platform_output.accesskit_update else {
            return;
        };
        let named = update.nodes.iter().flat_map(|(_, node)| {
            let [label, value] = [node.label(), node.value()];
            [label.map(ToOwned::to_owned), value.map(ToOwned::to_owned)]
        });
        self.told = named.flatten().collect();
    }

    fn settle(&mut self) {
        for _ in 0..SETTLES {
            self.frame(Vec::new());
        }
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        let event = |pressed| Event::Key {
            key,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers,
        };
        self.frame(vec![event(true), event(false)]);
        self.settle();
    }

    fn key(&mut self, key: Key) {
        self.press(Modifiers::NONE, key);
    }

    fn text(&mut self, text: &str) {
        self.frame(vec![Event::Text(text.to_owned())]);
        self.settle();
    }

    /// A figure, sign by sign.
    fn figure(&mut self, figure: &str) {
        for sign in figure.chars() {
            self.text(&sign.to_string());
        }
    }

    /// Gives a text in the field that has the keyboard; a name that is new is said twice.
    fn give(&mut self, text: &str) {
        self.text(text);
        self.key(Key::Enter);
        if self.tells("New here: ") {
            self.key(Key::Enter);
        }
    }

    fn tells(&self, words: &str) -> bool {
        self.told.iter().any(|text| text.contains(words))
    }

    fn has(&self, name: &str) -> bool {
        self.told.iter().any(|text| text == name)
    }

    fn document(&self) -> Done<&Document> {
        self.program
            .document()
            .ok_or_else(|| "no case is open".into())
    }

    /// What the due step asks for: what is counted, or the planned figure.
    fn asked(&self) -> Done<Vec<String>> {
        let document = self.document()?;
        let record = &document.record;
        let day = day(
            document.case(),
            document.worksheet(),
            (&record.view, &record.standing),
        );
        let step = day.next().and_then(|at| day.steps.get(at));
        Ok(match step.map(|step| &step.work) {
            Some(Work::Count(list)) => {
                // No stop was used again.
                let again = |kind: &CountKind| matches!(kind, CountKind::StopsAgain);
                let wanted = list.iter();
                wanted
                    .map(|line| if again(&line.kind) { 0 } else { line.wanted })
                    .map(|wanted| wanted.to_string())
                    .collect()
            }
            Some(Work::Sound(sounding)) => {
                let planned = sounding.planned.ok_or("no figure")?;
                vec![planned.to_string()]
            }
            _ => Vec::new(),
        })
    }
}

/// An event as it is said: which one, and what it is.
fn said_as(id: &str, kind: &EventKind) -> Done<String> {
    Ok(format!("{id} {}", serde_json::to_string(kind)?))
}

/// Everything that the record of a document has, as it is said.
fn events(document: &Document) -> Done<Vec<String>> {
    let all = document.record.events.in_order().into_iter();
    all.map(|event| said_as(&event.id().to_string(), &event.kind))
        .collect()
}

/// The place of the step that is due and the number of those that are over.
fn place(document: &Document) -> (Option<usize>, usize) {
    let record = &document.record;
    let day = day(
        document.case(),
        document.worksheet(),
        (&record.view, &record.standing),
    );
    (day.next(), day.progress().0)
}

/// Loads the tray and works the day from where its record is, until it is killed.
pub(super) fn write(folder: &Path, mut say: impl FnMut(&str) -> Done<()>) -> Done<()> {
    let mut document = opened(folder)?;
    let mut known = events(&document)?;
    let load = loaded(document.case());
    let laid = known.len().min(load.len());
    let window = (laid == load.len()).then(|| Window::at_surgery(folder));
    say("ready")?;
    let mut tell = |document: &Document, known: &mut Vec<String>| -> Done<()> {
        let now = events(document)?;
        for one in now.iter().skip(known.len()) {
            say(&format!("there {one}."))?;
        }
        *known = now;
        Ok(())
    };
    for (who, kind) in load.into_iter().skip(laid) {
        document
            .sign(jiff::Timestamp::now(), "tray", who, kind)
            .map_err(|why| format!("not recorded: {why}"))?;
        tell(&document, &mut known)?;
    }
    drop(document);
    let mut window = window.unwrap_or_else(|| Window::at_surgery(folder));
    let (due, over) = place(window.document()?);
    let goes_on = due.map(|at| format!("It goes on at step {} of ", at + 1));
    // Before anything was begun nothing is gone on with.
    if over > 0 && goes_on.is_some_and(|words| !window.tells(&words)) {
        return Err(format!("it goes on elsewhere than at {due:?}: {:?}", window.told).into());
    }
    say(&format!("due {due:?} {over}."))?;
    let mut tell = |document: &Document, known: &mut Vec<String>| -> Done<()> {
        let now = events(document)?;
        for one in now.iter().skip(known.len()) {
            say(&format!("there {one}."))?;
        }
        *known = now;
        Ok(())
    };
    loop {
        one_step(&mut window)?;
        let document = window.document()?;
        tell(document, &mut known)?;
        if place(document).0.is_none() && !drops(document) {
            break;
        }
    }
    say("over.")?;
    // Nothing more is done.
    loop {
        std::thread::sleep(Duration::from_secs(1));
    }
}

/// True if something is to be dropped still: once, when all is over, so that everything is counted anew.
fn drops(document: &Document) -> bool {
    let all = document.record.events.in_order();
    !all.iter()
        .any(|event| matches!(event.kind, EventKind::Dropped { .. }))
}

/// Does what the window asks for.
fn one_step(window: &mut Window) -> Done<()> {
    let over = place(window.document()?).0.is_none();
    let asked = window.asked()?;
    if window.tells("Who records? Initials") {
        window.give("KE");
    } else if window.tells("Who counted with you? Initials") {
        window.give("JH");
    } else if window.tells("Left out, why?") {
        window.give("only looked at");
    } else if window.tells("Torque reached") {
        window.figure("35");
        window.key(Key::Enter);
    } else if window.tells("How far from its planned depth did it stop?") {
        window.key(Key::Space);
    } else if window.tells("What was dropped?") {
        window.figure("1");
        window.key(Key::Enter);
    } else if over {
        window.key(Key::F);
    } else if window.tells("Count together, aloud.") {
        for found in asked {
            window.figure(&found);
            window.key(Key::Enter);
        }
    } else if window.tells("What the probe shows") {
        window.figure(&asked.concat());
        window.key(Key::Enter);
    } else if window.has("By its carrier, to its line") {
        window.key(Key::G);
    } else if window.has("By hand") {
        window.key(Key::H);
    } else if window.has("Done") {
        window.key(Key::Space);
    } else {
        return Err(format!("nothing to do: {:?}", window.told).into());
    }
    Ok(())
}

/// What was found after the kills.
#[derive(Default)]
struct Found {
    /// What the record had after the kill before.
    before: Vec<String>,
    /// The place after the kill before; none before the tray is loaded.
    place: Option<String>,
    days: usize,
    loading: usize,
    torn: usize,
    told: usize,
    unsaid: usize,
    resumed: usize,
}

/// Lays out the first moment of a day.
fn begin(folder: &Path) -> Done<()> {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo/two-molars.json");
    let signed = events_folder(&case_file(folder));
    if signed.exists() {
        fs::remove_dir_all(signed)?;
    }
    fs::copy(demo, case_file(folder))?;
    Ok(())
}

/// So many kills.
pub(super) fn series(kills: usize) -> Done<()> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let folder = folder.path();
    begin(folder)?;
    let begun = Instant::now();
    let mut chance = Chance(0x9e37_79b9_7f4a_7c15);
    let mut found = Found::default();
    let (mut longest, mut in_a_row) = (LONGEST_US, 0);
    for kill in 0..kills {
        let life = Duration::from_micros(chance.below(longest));
        let said = killed_after("day", folder, life)?;
        let none = !said.iter().any(|line| line.starts_with("there "));
        in_a_row = if none { in_a_row + 1 } else { 0 };
        if in_a_row == super::IN_A_ROW {
            (longest, in_a_row) = ((longest * 2).min(MOST_US), 0);
        }
        look(folder, &said, &mut found).map_err(|why| format!("kill {kill}: {why}"))?;
    }
    if found.told == 0 || found.resumed == 0 {
        return Err("no program came to its first step, so nothing is shown".into());
    }
    let took = begun.elapsed().as_secs();
    let Found {
        days,
        loading,
        torn,
        told,
        unsaid,
        resumed,
        ..
    } = found;
    super::tell(&format!(
        "day: {kills} kills in {took} s, {loading} while the tray was loaded; {days} days over; {told} events said to be recorded, \
         all there once, and {unsaid} more that were not said yet; {torn} torn lines mended; {resumed} times gone on at the step of \
         the record"
    ));
    Ok(())
}

/// Looks at what is there, beside what was there after the kill before.
fn look(folder: &Path, said: &[String], found: &mut Found) -> Done<()> {
    let file = case_file(folder);
    let jaw = case_jaw(opened(folder)?.case());
    for desk in ["tray", "desk"] {
        let (writer, who) = (WriterId::new(desk)?, Who::signing("KE")?);
        let mended = mend_torn(&file, &jaw, &writer, jiff::Timestamp::now(), &who)?;
        found.torn += usize::from(mended.is_some());
    }
    let document = opened(folder)?;
    if document.record.standing.broken {
        return Err(format!("broken: {:?}", document.record.problems).into());
    }
    let there = events(&document)?;
    // What was there is there, in its place; of what came since, all that was said.
    if !there.starts_with(&found.before) {
        return Err("what was there is not, or is another".into());
    }
    let since = &there[found.before.len()..];
    let told: Vec<&str> = said
        .iter()
        .filter_map(|line| line.strip_prefix("there "))
        .collect();
    for one in &told {
        let times = there.iter().filter(|event| event == one).count();
        if times != 1 {
            return Err(format!("said and {times} times there: {one}").into());
        }
    }
    found.told += told.len();
    let more = since.iter().filter(|event| !told.contains(&event.as_str()));
    found.unsaid += more.count();
    once(&document)?;
    // The program that was killed began where the record was.
    let due = said.iter().find_map(|line| line.strip_prefix("due "));
    if let (Some(due), Some(place)) = (due, &found.place) {
        if due != place {
            return Err(format!("it began at {due} and the record was at {place}").into());
        }
        found.resumed += 1;
    }
    let loaded = loaded(document.case()).len();
    found.loading += usize::from(there.len() < loaded);
    let (due, over) = place(&document);
    found.place = (there.len() >= loaded).then(|| format!("{due:?} {over}"));
    found.before = there;
    if said.iter().any(|line| line == "over") {
        found.days += 1;
        found.before.clear();
        found.place = None;
        begin(folder)?;
    }
    Ok(())
}

/// No reading, step or count is there twice.
fn once(document: &Document) -> Done<()> {
    let load = loaded(document.case());
    let all = document.record.events.in_order();
    let of_tray = all
        .iter()
        .filter(|event| event.id().writer.as_str() == "tray")
        .filter(|event| !is_mended(&event.kind));
    for (event, (_, kind)) in of_tray.clone().zip(&load) {
        if event.kind != *kind {
            return Err(format!("another than was to be recorded: {:?}", event.kind).into());
        }
    }
    if of_tray.count() > load.len() {
        return Err("the tray was loaded twice".into());
    }
    let record = &document.record;
    let day = day(
        document.case(),
        document.worksheet(),
        (&record.view, &record.standing),
    );
    if !day.of_no_step.is_empty() {
        return Err(format!("of no step: {:?}", day.of_no_step).into());
    }
    for step in &day.steps {
        // After something fell everything is counted once more.
        let most = match step.key {
            StepKey::CountOut { .. } => 2,
            _ => 1,
        };
        if step.recorded.len() > most {
            return Err(format!("recorded twice: {:?}", step.key).into());
        }
    }
    let begun = |kind: &EventKind| matches!(kind, EventKind::SurgeryBegun(_));
    let fell = |kind: &EventKind| matches!(kind, EventKind::Dropped { .. });
    for is in [begun, fell] {
        if all.iter().filter(|event| is(&event.kind)).count() > 1 {
            return Err("begun or dropped twice".into());
        }
    }
    Ok(())
}

const fn is_mended(kind: &EventKind) -> bool {
    matches!(
        kind,
        EventKind::LineLost { .. } | EventKind::SetAside { .. }
    )
}
