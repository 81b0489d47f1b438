//! The view in the whole window, without a display: what is painted and read out.

use egui::accesskit::{Node, Role};
use egui::epaint::text::ByteRangeExt as _;
use egui::{Event, Key, Modifiers, RawInput, Rect, Shape, Vec2, pos2, vec2};
use std::path::PathBuf;
use std::time::Duration;
use tempfile::TempDir;
use traywright::action::View;
use traywright::desk::DEMOS;
use traywright::look::Mode;
use traywright::window::Program;
use traywright_core::case::{Case, ValidCase, read_case};
use traywright_core::document::print;
use traywright_core::drawing::TextStyle;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Turn};
use traywright_tests::Still;

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// A window of a size, worked by keys.
struct Screen {
    program: Program,
    ctx: egui::Context,
    size: Vec2,
    file: PathBuf,
    /// Texts of the last frame, each with its size in points.
    painted: Vec<(String, f32)>,
    nodes: Vec<Node>,
    repaint: Duration,
    /// The window's clock, seconds.
    now: f64,
    _folder: TempDir,
}

fn text_of(demo: &str) -> String {
    let (_, bytes) = DEMOS.iter().find(|(name, _)| *name == demo).unwrap();
    String::from_utf8(bytes.to_vec()).unwrap()
}

impl Screen {
    /// Presses a key until these words appear.
    fn go_to(&mut self, key: Key, words: &str) {
        for _ in 0..60 {
            if self.says(words) {
                return;
            }
            self.key(key);
        }
        panic!("{words}: {:?}", self.said());
    }

    /// With a copy of an invented case open, at the loading view.
    fn new(size: Vec2, demo: &str) -> Self {
        Self::with_case(size, &text_of(demo))
    }

    /// The same as if it were a patient's.
    fn for_a_patient(size: Vec2, demo: &str) -> Self {
        let real = text_of(demo).replace("\"demonstration\": true", "\"demonstration\": false");
        Self::with_case(size, &real)
    }

    fn with_case(size: Vec2, text: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("case.json");
        std::fs::write(&file, text).unwrap();
        let mut screen = Self::empty(size, folder, file.clone());
        screen.program.open(&file);
        screen.press(Modifiers::COMMAND, View::Loading.key());
        screen
    }

    fn empty(size: Vec2, folder: TempDir, file: PathBuf) -> Self {
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
            _folder: folder,
        };
        screen.frames(Vec::new());
        screen
    }

    /// A second later: one frame with input and two without, in which what was done shows.
    fn frames(&mut self, events: Vec<Event>) {
        self.now += 1.0;
        self.at_once(events);
    }

    /// The same without any time between.
    fn at_once(&mut self, events: Vec<Event>) {
        let mut events = Some(events);
        for _ in 0..3 {
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

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.frames(press_of(key, modifiers));
    }

    fn key(&mut self, key: Key) {
        self.press(Modifiers::NONE, key);
    }

    fn write(&mut self, text: &str) {
        for letter in text.chars() {
            self.frames(vec![Event::Text(letter.to_string())]);
        }
    }

    fn type_in(&mut self, text: &str) {
        self.write(text);
        self.key(Key::Enter);
    }

    /// Clicks what has this name.
    fn click(&mut self, name: &str) {
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

    /// Opens the session on the bench by MK and goes to the second drill that is in no wrapping: the
    /// sealed ones come after them.
    fn begin(&mut self) {
        self.key(Key::B);
        self.type_in("MK");
        self.type_in("21,7");
        self.key(Key::ArrowRight);
    }

    /// Takes, sets, locks and tugs.
    fn set(&mut self) {
        for _ in 0..4 {
            self.key(Key::Space);
        }
    }

    /// Everything that is painted or told.
    fn said(&self) -> Vec<String> {
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

    fn says(&self, words: &str) -> bool {
        self.said().iter().any(|said| said.contains(words))
    }

    /// Height of the capitals of a text that is painted, points.
    fn capitals(&self, words: &str) -> f64 {
        let found = self.painted.iter().filter(|(text, _)| text.contains(words));
        let size = found.map(|(_, size)| *size).fold(0.0, f32::max);
        // As the font file itself has it.
        TextStyle::BODY.sized(f64::from(size)).cap_height()
    }

    /// Place of the first text that a screen reader reads out with these words.
    fn place_of(&self, words: &str) -> Rect {
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

    /// Asserts that all of this is between the figure and the foot, left of the tray.
    fn is_whole(&self, moment: &str, words: &[&str]) {
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

    fn is_left_of_tray(&self, rect: &Rect, foot: f32) {
        let done = self.buttons().into_iter().find(|(name, _)| name == "Done");
        let left = done.unwrap().1.left();
        let inside = rect.right() <= left && rect.bottom() <= foot;
        assert!(inside, "{} {rect:?}: {left} {foot}", self.size);
    }

    fn buttons(&self) -> Vec<(String, Rect)> {
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

    fn recorded(&self) -> Vec<EventKind> {
        let events = &self.program.document().unwrap().record.events;
        events
            .in_order()
            .into_iter()
            .map(|event| event.kind.clone())
            .collect()
    }

    /// Another desk saves the plan with every sleeve half a millimetre closer.
    fn save_elsewhere(&self) {
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
fn press_of(key: Key, modifiers: Modifiers) -> Vec<Event> {
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

const STANDING: Vec2 = vec2(1920.0, 1080.0);

#[test]
fn at_a_second_reading_neither_target_nor_first_reading_stands_anywhere() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    let figures = ["19.1", "19.0"];
    for figure in figures {
        assert!(screen.says(figure), "{figure} stands at the first reading");
    }
    screen.type_in("19,0");
    let mut moments = vec![("initials", screen.said())];
    screen.type_in("JH");
    moments.push(("reading", screen.said()));
    screen.type_in("19.4");
    moments.push(("refused", screen.said()));
    screen.key(Key::L);
    moments.push(("list", screen.said()));
    screen.key(Key::L);
    screen.type_in("19.5");
    moments.push(("refused again", screen.said()));
    for (moment, said) in moments {
        for figure in figures {
            let shown: Vec<&String> = said.iter().filter(|said| said.contains(figure)).collect();
            assert!(shown.is_empty(), "{moment}: {shown:?}");
        }
    }
    assert!(screen.says("Not accepted") && screen.says("Re-set"));
}

/// One tip drill 2.57 for two settings: 20.7 at the first molar, then 19.1 at the second.
fn one_drill_for_two() -> String {
    let mut case: serde_json::Value = serde_json::from_str(&text_of("two-molars")).unwrap();
    for drill in case["kit"]["drills"].as_array_mut().unwrap() {
        if drill["id"] == "tip-257" {
            drill["quantity"] = 1.into();
        }
    }
    case.to_string()
}

#[test]
fn what_is_set_anew_in_surgery_is_told_at_its_drill_and_read_blind_when_it_is_made() {
    let mut screen = Screen::with_case(STANDING, &one_drill_for_two());
    screen.key(Key::S);
    screen.type_in("MK");
    screen.type_in("21,7");
    // At the drill it is told, and only the first setting is asked for.
    screen.go_to(
        Key::ArrowRight,
        "To be re-set during surgery from 20.7 mm to 19.1 mm",
    );
    assert!(screen.says("Tip drill 2.57") && screen.says("for lower right first molar (46)"));
    screen.set();
    screen.type_in("20.7");
    screen.type_in("JH");
    for figure in ["20.7", "19.1"] {
        assert!(!screen.says(figure), "blind: {figure}");
    }
    screen.type_in("20.7");
    screen.key(Key::Space);
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    assert!(screen.says("Re-set Tip drill 2.57, slot Crane 6, from 20.7 mm to 19.1 mm."));
    // It takes away what was read: pressed twice.
    let before = screen.recorded().len();
    screen.key(Key::O);
    assert!(screen.says("Is the step before it done?"));
    assert_eq!(screen.recorded().len(), before);
    screen.key(Key::O);
    assert!(matches!(
        screen.recorded().last(),
        Some(EventKind::Reset { .. })
    ));
    assert!(screen.says("Take it from Crane 6") && screen.says("from 20.7 mm to 19.1 mm"));
    screen.set();
    assert!(screen.says("19.1"));
    screen.type_in("19.1");
    let mut moments = vec![screen.said()];
    screen.key(Key::L);
    moments.push(screen.said());
    screen.key(Key::L);
    screen.type_in("JH");
    moments.push(screen.said());
    for said in moments {
        for figure in ["20.7", "19.1"] {
            let shown: Vec<&String> = said.iter().filter(|said| said.contains(figure)).collect();
            assert!(shown.is_empty(), "{shown:?}");
        }
    }
    screen.type_in("19.1");
    screen.key(Key::Space);
    assert!(
        matches!(screen.recorded().last(), Some(EventKind::Placed { item, .. }) if item.setting_mm == mm("19.1"))
    );
}

#[test]
fn what_matters_is_read_from_two_metres_and_hit_by_a_thumb() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.write("19.1");
    // 0.0064 of the distance, 12.8 mm at 2 m, is 48 points at 96 to the inch (design's own figure,
    // common practice, no source).
    for words in [
        "Tip drill 2.57",
        "for lower right second molar (47)",
        "→ Crane 8",
        "Read the gauge",
        "19.1",
        "mm",
        "7",
        "0",
        ".",
    ] {
        let height = screen.capitals(words);
        assert!(height >= 47.99, "{words}: {height}");
    }
    let buttons = screen.buttons();
    assert!(buttons.len() > 15, "{buttons:?}");
    for (name, rect) in buttons {
        assert!(
            rect.height() >= 75.0 && rect.width() >= 75.0,
            "{name}: {rect:?}"
        );
    }
}

/// The words on a refused reading are whole below the text typed, not scrolled away or cut.
#[test]
fn why_a_reading_was_refused_stands_whole_below_the_figure() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin();
        screen.set();
        screen.type_in("191");
        screen.is_whole("mistyped", &["Mistyped?", "It is recorded."]);
        screen.type_in("19.2");
        let deep = "Too deep by 0.1 mm. Do not use the drill";
        screen.is_whole("deep", &[deep, "It is recorded."]);
        if size == STANDING {
            let height = screen.capitals(deep);
            assert!(height >= 47.99, "{height}");
        }
        assert!(!screen.says("Look-alikes"));
    }
}

/// Set anew before anything was used: the tray is not loaded as its first use wants it, and what sets
/// it back is named and does so.
#[test]
fn a_drill_that_stands_at_a_later_setting_is_open_and_can_be_set_back() {
    let mut screen = Screen::with_case(STANDING, &one_drill_for_two());
    screen.key(Key::S);
    screen.type_in("MK");
    screen.type_in("21,7");
    screen.go_to(Key::ArrowRight, "Not now: in surgery");
    screen.key(Key::O);
    screen.key(Key::O);
    screen.set();
    screen.type_in("19.1");
    screen.type_in("JH");
    screen.type_in("19.1");
    screen.key(Key::Space);
    assert!(
        screen.says("0 of ") && screen.says("At a later setting: 1."),
        "{:?}",
        screen.said()
    );
    screen.go_to(Key::ArrowLeft, "Its stop was re-set since");
    assert!(screen.says("is at 19.1 mm, a later setting, not at 20.7 mm"));
    assert!(screen.says("Press R and set it back to 20.7 mm."));
    screen.key(Key::R);
    assert!(screen.says("Set the stop on the gauge") && !screen.says("At a later setting"));
}

/// The other setting of a drill that is set anew in surgery, typed from memory.
#[test]
fn why_the_setting_before_is_refused_after_setting_anew_stands_whole() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::with_case(size, &one_drill_for_two());
        screen.key(Key::S);
        screen.type_in("MK");
        screen.type_in("21,7");
        screen.go_to(Key::ArrowRight, "Not now: in surgery");
        screen.key(Key::O);
        screen.key(Key::O);
        screen.set();
        screen.type_in("20.7");
        let deep = "Too deep by 1.6 mm. Do not use the drill";
        screen.is_whole("20.7", &[deep, "It is recorded."]);
        if size == STANDING {
            let height = screen.capitals(deep);
            assert!(height >= 47.99, "{height}");
        }
    }
}

#[test]
fn nothing_hangs_over_the_edge_in_any_window() {
    for size in [STANDING, vec2(1280.0, 800.0), vec2(640.0, 400.0)] {
        let mut screen = Screen::new(size, "two-molars");
        let room = Rect::from_min_size(pos2(0.0, 0.0), size).expand(1.0);
        let check = |screen: &Screen, moment: &str| {
            for (name, rect) in screen.buttons() {
                assert!(room.contains_rect(rect), "{size} {moment} {name}: {rect:?}");
            }
        };
        check(&screen, "stage");
        screen.begin();
        check(&screen, "take");
        screen.set();
        check(&screen, "read");
        screen.type_in("191");
        check(&screen, "mistyped");
        screen.type_in("19.1");
        check(&screen, "initials");
        screen.type_in("JH");
        check(&screen, "second");
        screen.type_in("19.1");
        check(&screen, "place");
    }
}

#[test]
fn a_drill_is_loaded_by_keys_and_recorded_beside_the_case() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.type_in("mk");
    assert!(screen.says("enter other initials"));
    screen.type_in("JH");
    screen.type_in("19,1");
    screen.key(Key::Space);
    let kinds = screen.recorded();
    let [
        EventKind::GaugeChecked { .. },
        EventKind::Reading(first),
        EventKind::Reading(second),
        EventKind::Placed { slot, .. },
    ] = &kinds[..]
    else {
        panic!("{kinds:?}")
    };
    assert_eq!((first.turn, second.turn), (Turn::First, Turn::Second));
    assert_eq!((first.value_mm, second.value_mm), (mm("19.1"), mm("19.1")));
    assert_eq!(slot, "Crane 8");
    assert!(screen.says("1 of 31 in the tray"));
}

/// A plan for a patient that nobody approved says so on every page, and its readings verify
/// nothing; the open findings of a site are beside it.
#[test]
fn a_plan_that_is_not_approved_says_so_all_along() {
    let mut screen = Screen::for_a_patient(STANDING, "two-molars");
    screen.begin();
    assert!(screen.says("NOT APPROVED") && screen.says("The plan itself: 1 short, 2 unknown"));
    assert!(screen.says("unknown") && !screen.says("DEMONSTRATION"));
    screen.set();
    screen.type_in("19.1");
    screen.type_in("JH");
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.key(Key::ArrowLeft);
    assert!(screen.says("NOT APPROVED"));
    assert!(
        screen.says("nothing counts as verified"),
        "{:?}",
        screen.said()
    );
    assert!(!screen.says("Verified:"));
}

#[test]
fn a_case_that_lies_in_no_file_is_saved_first() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("none.json");
    let mut screen = Screen::empty(STANDING, folder, file);
    let name = traywright_core::text::Texts::english().get("demo-two-molars", &[]);
    screen.click(&name);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    assert!(screen.says("Save it first") && screen.says("Save as…"));
    screen.key(Key::B);
    assert!(!screen.says("Initials"));
}

#[test]
fn a_plan_saved_elsewhere_stops_the_loading_until_it_was_read() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.1");
    screen.type_in("JH");
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.save_elsewhere();
    // Coming back to the view looks at the files at once; otherwise the watch wakes it.
    screen.key(Key::Escape);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    let wrong = "Tip drill 2.57 for lower right second molar (47) in Crane 8: set to 19.1 mm, now planned at 18.6 mm";
    assert!(
        screen.says("STOP") && screen.says(wrong),
        "{:?}",
        screen.said()
    );
    for key in [Key::Space, Key::Enter, Key::ArrowRight, Key::R] {
        screen.key(key);
        assert!(screen.says("STOP"), "{key:?}");
    }
    screen.key(Key::U);
    assert!(!screen.says("STOP") && screen.says("0 of 31 in the tray"));
    let noted = screen.recorded();
    let Some(EventKind::Note { text }) = noted.last() else {
        panic!("{noted:?}")
    };
    assert!(text.contains(wrong), "{text}");
}

#[test]
fn a_key_that_takes_readings_away_is_pressed_twice() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    screen.key(Key::F);
    assert!(screen.says("Press F again"));
    screen.key(Key::ArrowRight);
    screen.key(Key::F);
    assert_eq!(
        screen.recorded().len(),
        before,
        "another key between disarms it"
    );
    screen.key(Key::F);
    assert!(matches!(
        screen.recorded().last(),
        Some(EventKind::Dropped { .. })
    ));
    assert!(screen.says("dropped: set it aside"));
}

/// At the step at which it matters the other setting of the same drill is in sight, whole.
#[test]
fn a_look_alike_is_in_sight_while_the_stop_is_set() {
    for size in [STANDING, vec2(1280.0, 800.0)] {
        let mut screen = Screen::new(size, "two-molars");
        screen.begin();
        screen.is_left_of_tray(&screen.place_of("Look-alikes"), f32::INFINITY);
        screen.key(Key::Space);
        let foot = screen.place_of("Left: ").top();
        screen.is_left_of_tray(&screen.place_of("Look-alikes"), foot);
    }
}

/// The bench's session goes on in the sterile field without leaving the program.
#[test]
fn the_stage_is_chosen_anew_by_a_key() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    assert!(screen.capitals("Bench") >= 31.0);
    screen.key(Key::T);
    assert!(screen.says("Press T again"));
    screen.key(Key::T);
    screen.key(Key::S);
    screen.type_in("MK");
    screen.type_in("21,7");
    assert!(screen.capitals("Sterile field") >= 31.0);
    screen.key(Key::ArrowRight);
    assert!(screen.says("Take it"));
}

/// Undoing in the plan, leaving and looking elsewhere are other keys too.
#[test]
fn what_is_armed_is_disarmed_by_any_other_key() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    let before = screen.recorded().len();
    let leave = |screen: &mut Screen| {
        screen.key(Key::Escape);
        screen.press(Modifiers::COMMAND, View::Loading.key());
    };
    let undo = |screen: &mut Screen| screen.press(Modifiers::COMMAND, Key::Z);
    let list = |screen: &mut Screen| {
        screen.key(Key::L);
        screen.key(Key::L);
    };
    for other in [&leave as &dyn Fn(&mut Screen), &undo, &list] {
        screen.key(Key::F);
        assert!(screen.says("Press F again") && screen.says("Any other key: no."));
        other(&mut screen);
        assert!(!screen.says("Press F again"));
    }
    screen.key(Key::F);
    assert_eq!(screen.recorded().len(), before);
}

/// A refused reading is listed among what was read, marked.
#[test]
fn a_refused_reading_is_listed_and_marked() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.2");
    screen.key(Key::V);
    assert!(
        screen.says("not accepted: 19.2 mm by MK"),
        "{:?}",
        screen.said()
    );
}

/// The record has its figures, but is never shown while a second reading is due.
#[test]
fn the_list_of_what_was_read_has_its_figures_and_is_shut_at_a_second_reading() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.key(Key::V);
    assert!(screen.says("Nothing was read at this stage yet."));
    screen.key(Key::V);
    screen.set();
    screen.write("19.0");
    screen.key(Key::V);
    // The reading is accepted while the list is looked at: it is blind from then on.
    screen.key(Key::Enter);
    for key in [Key::V, Key::L, Key::V] {
        for figure in ["19.0", "19.1"] {
            assert!(!screen.says(figure), "{figure}: {:?}", screen.said());
        }
        screen.key(key);
    }
    screen.key(Key::Escape);
    screen.press(Modifiers::COMMAND, View::Loading.key());
    screen.type_in("JH");
    screen.type_in("19.1");
    screen.key(Key::Space);
    screen.key(Key::V);
    let row = "5. Tip drill 2.57, slot Crane 8: set 19.1 mm, the gauge is to show 19.1 mm; \
               read 19.0 mm by MK; read 19.1 mm by JH";
    assert!(screen.says(row), "{:?}", screen.said());
}

/// Words that are needed at a glance are there from the start: slot, sleeve, the stop of a sealed
/// drill, the spares when something falls.
#[test]
fn slot_sleeve_stop_and_spares_are_named() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    for words in [
        "→ Crane 8",
        "Drop it through Wide sleeve for 2.57 (letter A, half dot, moss), slot Finch 2",
    ] {
        assert!(screen.says(words), "{words}: {:?}", screen.said());
    }
    screen.key(Key::F);
    screen.key(Key::F);
    assert!(screen.says("Check its stop") && !screen.says("Its spare:"));
    for _ in 0..20 {
        if screen.says("Pilot drill 2.13") && screen.says("It stays sealed.") {
            break;
        }
        screen.key(Key::ArrowRight);
    }
    assert!(screen.says(
        "Its stop goes with it in the same slot, not set yet: Stop for 2.13 (letter P, slate)."
    ));
    screen.key(Key::F);
    screen.key(Key::F);
    let spare = "Its spare: Spare pilot drill 2.13, sealed, slot Martin 9.";
    assert!(screen.says(spare), "{:?}", screen.said());
}

/// Two presses in one burst, by key or by pointer, are one: the second would confirm what nobody has
/// looked at.
#[test]
fn a_double_press_does_not_confirm_the_next_thing() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    assert!(screen.says("Take it"));
    let space = || press_of(Key::Space, Modifiers::NONE);
    screen.frames([space(), space(), space()].concat());
    assert!(screen.says("Set the stop on the gauge"));
    for _ in 0..5 {
        screen.at_once(space());
    }
    assert!(screen.says("Set the stop on the gauge"));
    screen.frames(space());
    assert!(screen.says("Lock the stop"));
    // A double click, the pointer where it was.
    let mut buttons = screen.buttons().into_iter();
    let (_, done) = buttons.rfind(|(name, _)| name == "Done").unwrap();
    let click = |pressed| Event::PointerButton {
        pos: done.center(),
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    screen.frames(vec![Event::PointerMoved(done.center())]);
    screen.frames(vec![click(true)]);
    screen.at_once(vec![click(false)]);
    screen.at_once(vec![click(true)]);
    screen.at_once(vec![click(false)]);
    assert!(screen.says("Tug the stop"));
    screen.frames(space());
    assert!(screen.says("Read the gauge"));
}

#[test]
fn the_window_sleeps_until_something_happens() {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.frames(Vec::new());
    assert!(
        screen.repaint >= Duration::from_secs(10),
        "{:?}",
        screen.repaint
    );
}
