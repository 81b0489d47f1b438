//! Time of one frame of the window, laid out and cut into triangles: of each view with the case of
//! six sites, the pointer moving over it; and of the arch while a site is moved, in which
//! everything is worked out and drawn anew; and of surgery at a drill of a loaded tray, with nothing pressed and with another step
//! looked at in each.

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Event, Key, Modifiers, RawInput, Rect, pos2, vec2};
use std::hint::black_box;
use std::path::Path;
use traywright::action::View;
use traywright::look::Mode;
use traywright::window::Program;
use traywright_core::case::read_case;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{Who, WriterId};
use traywright_core::store::append_event;
use traywright_tests::Still;
use traywright_tests::tray::loaded;

/// The window, without a screen.
struct Window {
    ctx: egui::Context,
    program: Program,
    frames: u16,
}

impl Window {
    fn at(view: View) -> Self {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo/full-arch-upper.json");
        Self::with(&demo, view)
    }

    fn with(file: &Path, view: View) -> Self {
        let ctx = egui::Context::default();
        Program::dress_as(&ctx, Mode::Light);
        let mut program = Program::new(Box::new(Still::stopped()));
        program.open(file);
        let mut window = Self {
            ctx,
            program,
            frames: 0,
        };
        window.press(Modifiers::COMMAND, view.key());
        for _ in 0..8 {
            window.frame(Vec::new());
        }
        assert_eq!(window.program.view_state().view, view);
        window
    }

    /// One frame with the pointer elsewhere than in the one before; how many triangles it has.
    fn frame(&mut self, mut events: Vec<Event>) -> usize {
        let place = pos2(f32::from(self.frames % 1_200), f32::from(self.frames % 700));
        events.push(Event::PointerMoved(place));
        self.events(events)
    }

    /// One frame with this input; how many triangles it has.
    fn events(&mut self, events: Vec<Event>) -> usize {
        self.frames = self.frames.wrapping_add(1);
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 800.0))),
            time: Some(f64::from(self.frames) / 60.0),
            events,
            focused: true,
            ..RawInput::default()
        };
        let program = &mut self.program;
        let mut output = self.ctx.run_ui(input, |ui| program.frame(ui));
        // Nothing is drawn, so no texture is needed.
        output.textures_delta.clear();
        let shapes = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        shapes
            .iter()
            .map(|shape| match &shape.primitive {
                egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
                egui::epaint::Primitive::Callback(_) => 0,
            })
            .sum()
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) -> usize {
        let event = |pressed| Event::Key {
            key,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers,
        };
        self.frame(vec![event(true), event(false)])
    }
}

fn frames(c: &mut Criterion) {
    for view in View::ALL {
        let mut window = Window::at(view);
        c.bench_function(&format!("frame of {view:?}"), |b| {
            b.iter(|| black_box(window.frame(Vec::new())));
        });
    }
}

/// A day of six sites on a loaded tray, at its first drill.
fn surgery(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("case.json");
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo/full-arch-upper.json");
    std::fs::copy(demo, &file).expect("a copy");
    let bytes = std::fs::read(&file).expect("a file");
    let case = read_case(&bytes).expect("a case");
    let desk = WriterId::new("tray").expect("a name");
    let at = "2026-11-25T07:00:00Z".parse().expect("a time");
    for (who, kind) in loaded(&case) {
        let who = Who::new(who).expect("a name");
        append_event(&file, &case_jaw(&case), &desk, at, who, kind).expect("recorded");
    }
    let mut window = Window::with(&file, View::Surgery);
    // The field has the keyboard; a name that is new is given twice.
    window.frame(vec![Event::Text("KE".to_owned())]);
    for key in [Key::Enter, Key::Enter] {
        for _ in 0..40 {
            window.frame(Vec::new());
        }
        window.press(Modifiers::NONE, key);
    }
    let document = window.program.document().expect("a case");
    assert!(!document.record.standing.day.is_empty(), "it was not begun");
    // What comes before is looked past.
    for _ in 0..12 {
        window.press(Modifiers::NONE, Key::ArrowRight);
        window.frame(Vec::new());
    }
    c.bench_function("frame of Surgery, a day that was begun", |b| {
        b.iter(|| black_box(window.frame(Vec::new())));
    });
    let mut on = false;
    c.bench_function("frame of Surgery, another step looked at", |b| {
        b.iter(|| {
            on = !on;
            let key = if on { Key::ArrowRight } else { Key::ArrowLeft };
            black_box(window.press(Modifiers::NONE, key))
        });
    });
}

/// There and back, so that the site stays on its arch: undone by the next key.
fn moved(c: &mut Criterion) {
    let mut window = Window::at(View::Arch);
    // A click at the first site chooses it and gives the chart the keyboard.
    let document = window.program.document().expect("a case");
    let site = document.case().sites[0].id.clone();
    let place = window.program.views().arch.on_screen(&site);
    let place = place.expect("on the chart");
    for pressed in [true, false] {
        let button = Event::PointerButton {
            pos: place,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        window.events(vec![Event::PointerMoved(place), button]);
    }
    // Only then are the arrows the chart's own.
    window.frame(Vec::new());
    window.press(Modifiers::NONE, Key::ArrowUp);
    window.frame(Vec::new());
    let document = window.program.document().expect("a case");
    assert_eq!(document.steps(), 1, "the site was not moved");
    let mut up = false;
    c.bench_function("frame of Arch, a site moved by a key", |b| {
        b.iter(|| {
            up = !up;
            let key = if up { Key::ArrowUp } else { Key::ArrowDown };
            window.press(Modifiers::NONE, key);
            // What was changed shows in the next one.
            black_box(window.frame(Vec::new()))
        });
    });
    // A key that does nothing would be quick.
    let document = window.program.document().expect("a case");
    assert!(document.steps() > 2, "{} steps", document.steps());
}

criterion_group!(benches, frames, surgery, moved);
criterion_main!(benches);
