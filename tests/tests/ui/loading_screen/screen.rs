//! A window of a size without a display, worked by keys: what is painted and read out in it.

use egui::accesskit::{Node, Role};
use egui::epaint::text::ByteRangeExt as _;
use egui::{Event, Key, Modifiers, RawInput, Rect, Shape, Vec2, pos2, vec2};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::Duration;
use tempfile::TempDir;
use traywright::action::View;
use traywright::desk::{DEMOS, Record};
use traywright::look::Mode;
use traywright::window::Program;
use traywright_core::case::{Case, ValidCase, read_case};
use traywright_core::document::print;
use traywright_core::drawing::TextStyle;
use traywright_core::kit::SlotKind;
use traywright_core::measure::Length;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, Who, WriterId};
use traywright_core::store::{append_event, events_folder};
use traywright_tests::Still;

pub(super) fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// A window of a size, worked by keys.
pub(super) struct Screen {
    pub(super) program: Program,
    ctx: egui::Context,
    size: Vec2,
    file: PathBuf,
    /// Texts of the last frame, each with its size in points.
    painted: Vec<(String, f32)>,
    nodes: Vec<Node>,
    pub(super) repaint: Duration,
    /// The window's clock, seconds.
    now: f64,
    /// The number of keys that were pressed.
    pub(super) keys: usize,
    _folder: TempDir,
}

pub(super) fn text_of(demo: &str) -> String {
    let (_, bytes) = DEMOS.iter().find(|(name, _)| *name == demo).unwrap();
    String::from_utf8(bytes.to_vec()).unwrap()
}

impl Screen {
    /// Presses a key until these words appear.
    pub(super) fn go_to(&mut self, key: Key, words: &str) {
        for _ in 0..60 {
            if self.says(words) {
                return;
            }
            self.key(key);
        }
        panic!("{words}: {:?}", self.said());
    }

    /// With a copy of an invented case open, at the loading view.
    pub(super) fn new(size: Vec2, demo: &str) -> Self {
        Self::with_case(size, &text_of(demo))
    }

    /// The same as if it were a patient's.
    pub(super) fn for_a_patient(size: Vec2, demo: &str) -> Self {
        let real = text_of(demo).replace("\"demonstration\": true", "\"demonstration\": false");
        Self::with_case(size, &real)
    }

    pub(super) fn with_case(size: Vec2, text: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("case.json");
        std::fs::write(&file, text).unwrap();
        let mut screen = Self::empty(size, folder, file.clone());
        screen.program.open(&file);
        screen.press(Modifiers::COMMAND, View::Loading.key());
        screen
    }

    pub(super) fn empty(size: Vec2, folder: TempDir, file: PathBuf) -> Self {
        let program = Program::new(Box::new(Still::ticking()));
        let ctx = egui::Context::default();
        ctx.enable_accesskit();
        Program::dress_as(&ctx, Mode::Light);
        let mut screen = Self {
            program,
            ctx,
            size,
            file,
            painted: Vec::new(),
            nodes: Vec::new(),
            repaint: Duration::ZERO,
            now: 0.0,
            keys: 0,
            _folder: folder,
        };
        screen.frames(Vec::new());
        screen
    }

    /// A second later: one frame with input and three without, in which what was done shows.
    pub(super) fn frames(&mut self, events: Vec<Event>) {
        self.now += 1.0;
        self.at_once(events);
    }

    /// The same with no more time between than it takes to know a hand from a scanner.
    pub(super) fn at_once(&mut self, events: Vec<Event>) {
        let mut events = Some(events);
        for n in 0..4 {
            if n == 1 {
                self.now += 0.06;
            }
            let input = RawInput {
                screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), self.size)),
                events: events.take().unwrap_or_default(),
                time: Some(self.now),
                ..RawInput::default()
            };
            let program = &mut self.program;
            let mut output = self.ctx.run_ui(input, |ui| program.frame(ui));
            // Nothing is drawn, so no texture is needed.
            output.textures_delta.clear();
            self.painted.clear();
            for clipped in &output.shapes {
                texts(&clipped.shape, &mut self.painted);
            }
            let update = output.platform_output.accesskit_update;
            self.nodes = update
                .into_iter()
                .flat_map(|one| one.nodes)
                .map(|(_, node)| node)
                .collect();
            let delays = output.viewport_output.values().map(|one| one.repaint_delay);
            self.repaint = delays.min().unwrap();
        }
    }

    pub(super) fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.keys += 1;
        self.frames(press_of(key, modifiers));
    }

    pub(super) fn key(&mut self, key: Key) {
        self.press(Modifiers::NONE, key);
    }

    pub(super) fn write(&mut self, text: &str) {
        for letter in text.chars() {
            self.keys += 1;
            self.frames(vec![Event::Text(letter.to_string())]);
        }
    }

    pub(super) fn type_in(&mut self, text: &str) {
        self.write(text);
        self.key(Key::Enter);
    }

    /// Gives initials, once more where they are new to the case.
    pub(super) fn name(&mut self, who: &str) {
        self.type_in(who);
        if self.says("New here: ") {
            self.key(Key::Enter);
        }
    }

    /// The program is ended from outside, and begun again with the same case.
    pub(super) fn cut_off(&mut self) {
        self.program = Program::new(Box::new(Still::ticking()));
        self.program.open(&self.file);
        self.frames(Vec::new());
    }

    /// From now on nothing can be recorded, or again everything.
    pub(super) fn block_record(&self, blocked: bool) {
        let folder = events_folder(&self.file);
        let lock = folder.join(format!("{}.lock", self.program.desk().settings.desk));
        // A folder in the place of the file by which a desk holds its record.
        if blocked {
            let _ = std::fs::remove_file(&lock);
            std::fs::create_dir_all(&lock).unwrap();
        } else {
            std::fs::remove_dir(&lock).unwrap();
        }
    }

    /// Clicks what has this name.
    pub(super) fn click(&mut self, name: &str) {
        let mut found = self.nodes.iter().filter(|node| node.label() == Some(name));
        let bounds = found.find_map(Node::bounds).unwrap();
        #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
        let place = pos2((bounds.x0 + 4.0) as f32, (bounds.y0 + 4.0) as f32);
        let button = |pressed| Event::PointerButton {
            pos: place,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        self.frames(vec![Event::PointerMoved(place), button(true)]);
        self.at_once(vec![button(false)]);
    }

    /// Opens the session on the bench by MK and goes to the second drill that is in no wrapping, to be set step by step.
    pub(super) fn begin(&mut self) {
        self.begin_at_once();
        self.key(Key::I);
    }

    /// The same, with all of a drill recorded at once.
    pub(super) fn begin_at_once(&mut self) {
        self.key(Key::B);
        self.name("MK");
        self.type_in("21,7");
        // Past what drills are tested with.
        let worksheet = self.program.document().unwrap().worksheet();
        let before = worksheet
            .loading
            .iter()
            .filter(|item| item.kind == SlotKind::Sleeve || item.entry == "lock-key");
        for _ in 0..=before.count() {
            self.key(Key::ArrowRight);
        }
    }

    /// JH reads again on the bench what waits for it, as these figures; then MK sets again.
    pub(super) fn read_again(&mut self, figures: &[&str]) {
        self.begin_again("JH");
        for figure in figures {
            self.type_in(figure);
        }
        self.key(Key::E);
        self.key(Key::B);
        self.name("MK");
        self.type_in("21,7");
    }

    /// Begins the pass in which the drills are read again on the bench by this person.
    pub(super) fn begin_again(&mut self, who: &str) {
        self.key(Key::T);
        self.key(Key::T);
        self.key(Key::A);
        self.name(who);
        self.type_in("21,7");
    }

    /// Every setting of the plan and every figure that the gauge is to show, as it is written.
    pub(super) fn settings(&self) -> BTreeSet<String> {
        let worksheet = self.program.document().unwrap().worksheet();
        let laid = worksheet
            .loading
            .iter()
            .filter_map(|item| item.set.as_ref());
        let again = worksheet
            .resets
            .iter()
            .filter_map(|reset| reset.to.set.as_ref());
        let lengths = laid
            .chain(again)
            .flat_map(|on| [on.set.get(), on.gauge.get()]);
        lengths
            .flatten()
            .map(|length| format!("{:.1}", length.mm()))
            .collect()
    }

    /// The settings of the plan that are painted or told as numbers of their own.
    pub(super) fn settings_shown(&self) -> Vec<String> {
        let settings = self.settings();
        let said = self.said().into_iter();
        let shows = |said: &String| {
            let number = |c: char| !c.is_ascii_digit() && c != '.';
            let mut numbers = said.split(number).map(|one| one.trim_end_matches('.'));
            numbers.any(|one| settings.contains(one))
        };
        said.filter(shows).collect()
    }

    /// Takes, sets, locks and tugs.
    pub(super) fn set(&mut self) {
        for _ in 0..4 {
            self.key(Key::Space);
        }
    }

    /// Everything that is painted or told.
    pub(super) fn said(&self) -> Vec<String> {
        let mut said: Vec<String> = self.painted.iter().map(|(text, _)| text.clone()).collect();
        for node in &self.nodes {
            let told = [
                node.label(),
                node.value(),
                node.description(),
                node.tooltip(),
            ];
            said.extend(told.into_iter().flatten().map(str::to_owned));
        }
        said
    }

    pub(super) fn says(&self, words: &str) -> bool {
        self.said().iter().any(|said| said.contains(words))
    }

    /// Height of the capitals of a text that is painted, points.
    pub(super) fn capitals(&self, words: &str) -> f64 {
        let found = self.painted.iter().filter(|(text, _)| text.contains(words));
        let size = found.map(|(_, size)| *size).fold(0.0, f32::max);
        // As the font file itself has it.
        TextStyle::BODY.sized(f64::from(size)).cap_height()
    }

    /// Place of the first text that a screen reader reads out with these words.
    pub(super) fn place_of(&self, words: &str) -> Rect {
        let told = |node: &&Node| {
            let mut told = [node.label(), node.value()].into_iter().flatten();
            told.any(|said| said.contains(words))
        };
        let found = self.nodes.iter().find(told).and_then(Node::bounds);
        let bounds = found.unwrap_or_else(|| panic!("{words}: {:?}", self.said()));
        #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
        let at = |x: f64, y: f64| pos2(x as f32, y as f32);
        Rect::from_min_max(at(bounds.x0, bounds.y0), at(bounds.x1, bounds.y1))
    }

    /// Place of the lowest text that a screen reader reads out as exactly this.
    pub(super) fn place_of_exactly(&self, words: &str) -> Rect {
        let told = |node: &&Node| [node.label(), node.value()].contains(&Some(words));
        let bounds = self.nodes.iter().filter(told).filter_map(Node::bounds);
        let lowest = bounds.max_by(|a, b| a.y1.total_cmp(&b.y1)).unwrap();
        #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
        let at = |x: f64, y: f64| pos2(x as f32, y as f32);
        Rect::from_min_max(at(lowest.x0, lowest.y0), at(lowest.x1, lowest.y1))
    }

    /// Asserts that all of this is between the figure and the foot, left of the tray.
    pub(super) fn is_whole(&self, moment: &str, words: &[&str]) {
        let right = |name: &str| {
            let mut buttons = self.buttons().into_iter();
            buttons
                .find(|(one, _)| one == name)
                .map(|(_, rect)| rect.left())
        };
        let right = right("7").or_else(|| right("Done")).unwrap();
        let foot = self.place_of("Left: ").top();
        let typed = self
            .nodes
            .iter()
            .find(|node| node.role() == Role::TextInput);
        #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
        let typed = typed.and_then(Node::bounds).map(|bounds| bounds.y1 as f32);
        let top = typed.unwrap_or_else(|| self.place_of("Set the stop on the gauge").bottom());
        for words in words {
            let rect = self.place_of(words);
            let room = Rect::from_min_max(pos2(0.0, top), pos2(right, foot));
            assert!(
                room.contains_rect(rect),
                "{} {moment} {words}: {rect:?} in {room:?}",
                self.size
            );
        }
    }

    pub(super) fn is_left_of_tray(&self, rect: &Rect, foot: f32) {
        let done = self.buttons().into_iter().find(|(name, _)| name == "Done");
        let left = done.unwrap().1.left();
        let inside = rect.right() <= left && rect.bottom() <= foot;
        assert!(inside, "{} {rect:?}: {left} {foot}", self.size);
    }

    pub(super) fn buttons(&self) -> Vec<(String, Rect)> {
        let buttons = self.nodes.iter().filter(|node| node.role() == Role::Button);
        let found = buttons.filter_map(|node| {
            let bounds = node.bounds()?;
            #[expect(clippy::cast_possible_truncation, reason = "points of a screen")]
            let at = |x: f64, y: f64| pos2(x as f32, y as f32);
            let rect = Rect::from_min_max(at(bounds.x0, bounds.y0), at(bounds.x1, bounds.y1));
            Some((node.label().unwrap_or_default().to_owned(), rect))
        });
        found.collect()
    }

    pub(super) fn recorded(&self) -> Vec<EventKind> {
        let events = &self.program.document().unwrap().record.events;
        events
            .in_order()
            .into_iter()
            .map(|event| event.kind.clone())
            .collect()
    }

    /// Lets the watch over the case's files look at them.
    pub(super) fn disk_is_looked_at(&mut self) {
        self.looks_until(|screen| screen.says("STOP"));
    }

    /// Lets the watch look at the case's files until this shows; false if it does not.
    pub(super) fn looks_until(&mut self, shows: impl Fn(&Self) -> bool) -> bool {
        for _ in 0..100 {
            self.frames(Vec::new());
            if shows(self) {
                return true;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        false
    }

    /// The file of the case.
    pub(super) fn file(&self) -> &Path {
        &self.file
    }

    /// The signatures, and what of them counts.
    pub(super) fn record(&self) -> &Record {
        &self.program.document().unwrap().record
    }

    /// Something is recorded at another desk, or in another window of this one, a minute after the last
    /// event that is known here.
    pub(super) fn record_elsewhere(&self, desk: Option<&str>, who: &str, kind: EventKind) {
        let document = self.program.document().unwrap();
        let writer = desk.unwrap_or(&self.program.desk().settings.desk);
        let writer = WriterId::new(writer).unwrap();
        let last = document.record.events.in_order().last().unwrap().at;
        let at = last + jiff::SignedDuration::from_secs(60);
        let case_jaw = case_jaw(document.case());
        let who = Who::new(who).unwrap();
        append_event(&self.file, &case_jaw, &writer, at, who, kind).unwrap();
    }

    /// Another desk saves the plan with every sleeve half a millimetre closer.
    pub(super) fn save_elsewhere(&self) {
        let case = read_case(&std::fs::read(&self.file).unwrap()).unwrap();
        let mut case: Case = (*case).clone();
        for site in &mut case.sites {
            let distance = site.platform_to_sleeve.as_mut().unwrap();
            distance.entered_mm = distance.entered_mm - Length::from_um(500);
        }
        let case = ValidCase::checked(&case).unwrap();
        std::fs::write(&self.file, print(&*case).unwrap()).unwrap();
    }
}

/// A key pressed and let go: one that is never let go would be held down at its next press.
pub(super) fn press_of(key: Key, modifiers: Modifiers) -> Vec<Event> {
    let event = |pressed| Event::Key {
        key,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers,
    };
    vec![event(true), event(false)]
}

fn texts(shape: &Shape, found: &mut Vec<(String, f32)>) {
    match shape {
        Shape::Text(text) => {
            let job = &text.galley.job;
            for section in &job.sections {
                let words = job
                    .text
                    .get(section.byte_range.as_usize())
                    .unwrap_or_default();
                found.push((words.to_owned(), section.format.font_id.size));
            }
        }
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| texts(shape, found)),
        _ => {}
    }
}

pub(super) const STANDING: Vec2 = vec2(1920.0, 1080.0);
