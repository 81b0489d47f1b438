//! Opening a session: its pass, who sets and reads, the gauge on its check piece.

use super::blind::in_doubt;
use super::keys::{self, Pressed};
use super::reading::{keypad, typed_box};
use super::refusal::{ask_piece, at_the_gauge, refused};
use super::scale::{Weight, line, strong, target};
use super::scene::{Brush, Scene};
use super::session::{Input, Phase, Refused};
use super::short;
use crate::action::{Command, View};
use crate::desk::{readers, session_hours};
use egui::{Align, Event, FontId, Key, Layout, TextEdit, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::measure::Length;
use traywright_core::plan::Known;
use traywright_core::sign::{Pass, Stage, Who};

/// A state of the case's file that keeps a session from being begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::view) enum Gate {
    /// It has no file.
    NoFile,
    /// It has changes that are not saved.
    Unsaved,
    /// It is gone.
    Gone,
    /// It holds another plan, or nothing that can be read.
    Other,
    /// Its record has a break: nothing that is read now would count.
    RecordBroken,
}

impl Gate {
    /// The ids of why it keeps one and of the way out, and that way.
    pub(in crate::view) const fn told(self) -> (&'static str, &'static str, Command) {
        match self {
            Self::NoFile => ("loading-no-file", "command-save-as", Command::Save),
            Self::Unsaved => ("loading-unsaved", "command-save", Command::Save),
            Self::Gone => ("loading-file-gone", "command-save", Command::Save),
            Self::Other => ("loading-file-other", "command-save", Command::Save),
            Self::RecordBroken => (
                "loading-record-broken",
                "view-sheet",
                Command::Show(View::Sheet),
            ),
        }
    }
}

/// Shows what is asked.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    gate: Option<Gate>,
    initials: &mut String,
    out: &mut Vec<Pressed>,
) -> WindowRequest {
    let mut wanted = WindowRequest::Nothing;
    match scene.session.phase {
        _ if gate == Some(Gate::RecordBroken) => wanted = stage_ui(ui, scene, gate, out),
        Phase::Stage => wanted = stage_ui(ui, scene, gate, out),
        Phase::Person => person_ui(ui, scene, initials, out),
        Phase::Gauge => gauge_ui(ui, scene, out),
        Phase::Load => {}
    }
    wanted
}

/// A request to the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WindowRequest {
    /// Nothing.
    Nothing,
    /// That this is done.
    Do(Command),
}

fn stage_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    gate: Option<Gate>,
    out: &mut Vec<Pressed>,
) -> WindowRequest {
    let (scale, theme) = (scene.scale, scene.theme);
    let strong_ink = theme.fill(Ink::Strong);
    ui.horizontal(|ui| {
        strong(ui, scene.word("loading-title"), scale.big(), strong_ink);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let (leave, key) = (
                scene.word("loading-leave"),
                scene.word("loading-key-escape"),
            );
            if target(ui, scale, (&leave, &key), Weight::Other, 0.0).clicked() {
                out.push(Pressed::Leave);
            }
        });
    });
    let words = scene.word("loading-who-works");
    line(ui, words, scale.text(), strong_ink);
    ui.add_space(scale.px(12.0));
    let mut wanted = WindowRequest::Nothing;
    if let Some(gate) = gate {
        let (why, verb, command) = gate.told();
        strong(ui, scene.word(why), scale.px(44.0), theme.fault());
        let verb = scene.word(verb);
        let key = ui.ctx().format_shortcut(&command.key());
        if target(ui, scale, (&verb, &key), Weight::Main, scale.px(420.0)).clicked() {
            wanted = WindowRequest::Do(command);
        }
        ui.add_space(scale.px(20.0));
    } else {
        passes_ui(ui, scene, out);
        readers_ui(ui, scene);
        let rule = scene.word("sheet-bench-rule-none");
        line(ui, rule, scale.text(), theme.fill(Ink::Soft));
        ui.add_space(scale.px(20.0));
    }
    for words in &scene.document.record.problems {
        line(ui, words, scale.text(), theme.fault());
    }
    let gauge = scene.board.gauge.as_ref();
    if gauge.is_some_and(|gauge| gauge.stands_asked_back().is_some()) {
        let words = scene.word("loading-gauge-open");
        strong(ui, words, scale.text(), theme.fault());
    }
    for words in gauge_stands(scene) {
        strong(ui, words, scale.text(), theme.fault());
    }
    for words in scene.not_approved() {
        strong(ui, words, scale.text(), theme.fault());
    }
    short::ui(ui, scene);
    wanted
}

/// Who cannot read without figures in this session, while something can be done about it.
fn readers_ui(ui: &mut Ui, scene: &Scene<'_>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let readers = readers(scene.document, scene.now, None);
    if scene.board.gauge.is_none() || readers.saw.is_empty() {
        return;
    }
    let who: Vec<&str> = readers.saw.iter().map(|(who, _)| who.as_str()).collect();
    let hours = &[("hours", session_hours())];
    let args = [("who", &*who.join(", "))];
    let words = scene.counted("loading-cannot-read", hours, &args);
    strong(ui, words, scale.px(32.0), theme.fill(Ink::Strong));
    let left: Vec<&str> = readers.left.iter().map(Who::as_str).collect();
    if !left.is_empty() {
        let words = scene.text("loading-left-to-read", &[("who", &*left.join(", "))]);
        line(ui, words, scale.px(30.0), theme.fill(Ink::Strong));
    } else if readers.has_team {
        let words = scene.word("loading-nobody-left-to-read");
        strong(ui, words, scale.px(32.0), theme.fault());
    }
}

/// That the gauge was found off and is still, and what is in doubt for it, by the record.
pub(super) fn gauge_stands(scene: &Scene<'_>) -> Vec<String> {
    let off = scene.board.gauge.as_ref().and_then(|gauge| gauge.off);
    let off = off.map(|off| {
        let id = if off > Length::ZERO {
            "loading-gauge-was-more"
        } else {
            "loading-gauge-was-less"
        };
        let by = scene.formatter.set_length_with_unit(&Known::Is(off.abs()));
        scene.text(id, &[("by", &by)])
    });
    let contradicted = scene.board.contradicted.as_ref().map(|gauge| {
        let gauge = scene.formatter.gauge(gauge);
        scene.text("loading-gauge-contradicted", &[("gauge", &gauge)])
    });
    let off = off.into_iter().chain(contradicted);
    off.chain(in_doubt(scene)).collect()
}

/// The passes, each with what it protects against and what not.
fn passes_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    const PASSES: [(Stage, Pass, &str, &str); 4] = [
        (
            Stage::Bench,
            Pass::Setting,
            "loading-pass-set",
            "loading-pass-set-what",
        ),
        (
            Stage::Bench,
            Pass::Blind,
            "loading-pass-again",
            "loading-pass-again-what",
        ),
        (
            Stage::SterileField,
            Pass::Setting,
            "loading-pass-sterile",
            "loading-pass-sterile-what",
        ),
        (
            Stage::SterileField,
            Pass::Blind,
            "loading-pass-aloud",
            "loading-pass-aloud-what",
        ),
    ];
    let (scale, theme) = (scene.scale, scene.theme);
    let width = scale.px(760.0);
    for stage in [Stage::Bench, Stage::SterileField] {
        let id = match stage {
            Stage::SterileField => "loading-stage-sterile",
            _ => "loading-stage-bench",
        };
        strong(ui, scene.word(id), scale.px(44.0), theme.fill(Ink::Strong));
        ui.horizontal_top(|ui| {
            let here = PASSES.iter().filter(|(of, ..)| *of == stage);
            for (stage, pass, name, what) in here {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    let pressed = Pressed::Input(Input::Begin(*stage, *pass));
                    let name = scene.word(name);
                    let words = (name.as_str(), keys::shown(&pressed));
                    if target(ui, scale, words, Weight::Main, width).clicked() {
                        out.push(pressed);
                    }
                    line(
                        ui,
                        scene.word(what),
                        scale.px(30.0),
                        theme.fill(Ink::Strong),
                    );
                });
            }
        });
    }
}

fn person_ui(ui: &mut Ui, scene: &Scene<'_>, initials: &mut String, out: &mut Vec<Pressed>) {
    let ask = scene.word("loading-ask-person");
    initials_ui(ui, scene.brush(), &ask, refused(scene), initials, out);
    if let Some(who) = scene.session.suggested() {
        let words = scene.text("loading-ask-suggested", &[("who", who.as_str())]);
        line(
            ui,
            words,
            scene.scale.px(44.0),
            scene.theme.fill(Ink::Strong),
        );
    }
    back_ui(ui, scene, out);
}

/// The way back to the choice of the pass, while nothing of it was shown.
fn back_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    if !scene.session.is_only_chosen() {
        return;
    }
    let scale = scene.scale;
    ui.add_space(scale.px(20.0));
    let (back, key) = (scene.word("loading-back"), scene.word("loading-key-escape"));
    if target(ui, scale, (&back, &key), Weight::Other, 0.0).clicked() {
        out.push(Pressed::Leave);
    }
}

/// Asks for initials; why those that were given were not taken is below.
pub(super) fn initials_ui(
    ui: &mut Ui,
    brush: Brush,
    ask: &str,
    refused: Option<String>,
    initials: &mut String,
    out: &mut Vec<Pressed>,
) {
    let width = brush.scale.px(520.0);
    if field_ui(ui, brush, (ask, width), refused, initials) {
        out.push(Pressed::Input(Input::Initials(initials.clone())));
    }
}

/// Asks for a text in a field so wide; why what was given was not taken is below. True if it is given now.
pub(in crate::view) fn field_ui(
    ui: &mut Ui,
    brush: Brush,
    (ask, width): (&str, f32),
    refused: Option<String>,
    text: &mut String,
) -> bool {
    let (scale, theme) = (brush.scale, brush.theme);
    let named = strong(ui, ask, scale.big(), theme.fill(Ink::Strong)).id;
    ui.add_space(scale.px(12.0));
    let mut given = false;
    ui.horizontal(|ui| {
        let edit = TextEdit::singleline(text)
            .font(FontId::proportional(scale.big()))
            .desired_width(width)
            .margin(vec2(scale.px(16.0), scale.px(12.0)));
        let field = ui.add(edit).labelled_by(named);
        let entered = field.lost_focus() && ui.input(|input| input.events.iter().any(is_enter));
        let verb = brush.word("loading-enter");
        let go = target(ui, scale, (&verb, ""), Weight::Main, scale.px(260.0));
        if entered || go.clicked() {
            given = true;
        } else if !field.has_focus() && ui.memory(|memory| memory.focused().is_none()) {
            field.request_focus();
        }
    });
    if let Some(words) = refused.filter(|_| !given) {
        strong(ui, words, scale.px(44.0), theme.fault());
    }
    given
}

/// A press of Enter of its own: one that is held says nothing twice.
const fn is_enter(event: &Event) -> bool {
    let key = matches!(
        event,
        Event::Key {
            key: Key::Enter,
            ..
        }
    );
    key && matches!(
        event,
        Event::Key {
            pressed: true,
            repeat: false,
            ..
        }
    )
}

fn gauge_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    let strong_ink = theme.fill(Ink::Strong);
    let Some(gauge) = &scene.board.gauge else {
        return;
    };
    let name = scene.formatter.gauge(&gauge.id.as_str().into());
    ui.horizontal_top(|ui| {
        let width = ui.available_width() - scale.px(700.0);
        ui.vertical(|ui| {
            ui.set_width(width);
            strong(
                ui,
                scene.word("loading-gauge-title"),
                scale.big(),
                strong_ink,
            );
            line(ui, name, scale.px(44.0), strong_ink);
            let off = matches!(scene.session.entry.refused, Some(Refused::GaugeOff(_)));
            let stands = if off { Vec::new() } else { gauge_stands(scene) };
            for words in stands {
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            ui.add_space(scale.px(20.0));
            match gauge.piece.or(scene.session.entry.gauge.piece) {
                None => {
                    let words = scene.word("loading-gauge-no-piece");
                    strong(ui, words, scale.big(), strong_ink);
                }
                Some(piece) => {
                    for words in ask_piece(scene, gauge, piece) {
                        strong(ui, words, scale.big(), strong_ink);
                    }
                    line(
                        ui,
                        scene.word("loading-gauge-what"),
                        scale.told(),
                        theme.fill(Ink::Soft),
                    );
                }
            }
            ui.add_space(scale.px(20.0));
            typed_box(ui, scene.brush(), scene.session.entry.typed.as_str());
            for words in at_the_gauge(scene, &scene.session.entry) {
                strong(ui, words, scale.px(50.0), theme.fault());
            }
            if let Some(words) = off.then(|| in_doubt(scene)).flatten() {
                strong(ui, words, scale.px(44.0), theme.fault());
            }
            back_ui(ui, scene, out);
        });
        ui.vertical(|ui| keypad(ui, scene.brush(), scale.px(640.0), out));
    });
}
