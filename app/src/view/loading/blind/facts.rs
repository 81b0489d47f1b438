//! Everything that the screen of a pass without figures shows, as words. Nothing here is a setting, a
//! gauge figure or a reading of another person: what is not in it cannot be drawn.

use super::{BlindPass, BlindPhase, BlindState, is_read_first, is_readable, unlaid};
use crate::view::loading::refusal::{ask_piece, at_the_gauge, other_code, refused_words};
use crate::view::loading::scene::{Scene, sites};
use crate::view::loading::session::{Refused, must_set_anew};
use crate::view::loading::short::why_blocked;
use crate::view::loading::start::gauge_stands;
use crate::view::loading::task::{ReadingState, Task, Verified, Work};
use traywright_core::charts::marking;
use traywright_core::drawing::{Drawing, TextStyle};
use traywright_core::kit::Label;
use traywright_core::plan::Known;
use traywright_core::sign::{SettingState, Stage, Who};

/// Everything that the screen of a pass without figures shows.
pub(in crate::view::loading) struct Facts {
    /// The pass and its stage.
    pub(super) title: String,
    /// The case and its jaw.
    pub(super) case: String,
    /// That it is practice, or that the plan is not approved.
    pub(super) warnings: Vec<String>,
    /// The persons of the pass.
    pub(super) people: Vec<String>,
    /// The drills of the pass with their state.
    pub(super) drills: Vec<String>,
    /// Number of drills that were found as planned, of those set aside, and of all, in words.
    pub(super) progress: Vec<String>,
    /// Drills that this person may not read, in words.
    pub(super) left_out: Option<String>,
    /// What is asked for.
    pub(super) asked: Asked,
    /// The text typed.
    pub(super) typed: String,
    /// The words on the last input, and whether it was taken.
    pub(super) last: (Taken, Vec<String>),
}

/// The outcome of the last input.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Taken {
    Yes,
    No,
}

/// The thing that is asked for now.
pub(super) enum Asked {
    /// Initials.
    Initials(String),
    /// What the gauge shows of its check piece.
    Gauge(Vec<String>),
    /// What the gauge shows of a drill.
    Drill(Box<Drill>),
    /// Nothing: it is over.
    Nothing(Vec<String>),
    /// Nothing: the plan changed, or its file is not what it was; in words.
    Stopped(String),
}

/// A drill in hand, without its setting.
pub(super) struct Drill {
    pub(super) name: String,
    pub(super) marking: Option<(Drawing, f64)>,
    pub(super) marked: String,
    pub(super) sites: Vec<String>,
    /// What to do with it.
    pub(super) action: String,
}

impl Facts {
    /// Of a pass; `stopped` is why it ends where it stands, the id of the words.
    pub(in crate::view::loading) fn of(
        scene: &Scene<'_>,
        pass: &BlindPass,
        stopped: Option<&str>,
    ) -> Self {
        let bench = pass.stage == Stage::Bench;
        let id = if bench {
            "loading-blind-title-bench"
        } else {
            "loading-blind-title-sterile"
        };
        let worksheet = scene.worksheet();
        let args = [
            ("jaw", &*scene.formatter.jaw()),
            ("case", worksheet.reference.as_str()),
        ];
        let mut warnings = Vec::new();
        if worksheet.demonstration {
            warnings.push(scene.word("loading-practice"));
        } else if !scene.is_approved() {
            warnings.push(scene.word("loading-not-approved"));
        }
        let states = pass
            .order
            .iter()
            .map(|key| BlindPass::state(key, scene.board));
        let states: Vec<BlindState> = states.collect();
        let count = |wanted| states.iter().filter(|state| **state == wanted).count();
        let (read, aside) = (count(BlindState::Agreed), count(BlindState::SetAnew));
        let progress = [
            ("loading-blind-progress", !states.is_empty()),
            ("loading-blind-progress-aside", aside > 0),
        ];
        let counts = &[("read", read), ("aside", aside), ("all", states.len())];
        let progress = progress.into_iter().filter(|(_, said)| *said);
        let left_out = pass.is_running().then(|| pass.left_to_others(scene.board));
        let left_out = left_out
            .filter(|count| *count > 0)
            .map(|count| scene.counted("loading-blind-left-out", &[("count", count)], &[]));
        Self {
            title: scene.word(id),
            case: scene.text("loading-blind-case", &args),
            warnings,
            people: people(scene, pass),
            drills: pass
                .order
                .iter()
                .filter_map(|key| line(scene, pass, key))
                .collect(),
            progress: progress
                .map(|(id, _)| scene.counted(id, counts, &[]))
                .collect(),
            left_out,
            asked: match stopped {
                Some(id) => Asked::Stopped(scene.word(id)),
                None => match other_code(scene, &pass.entry, pass.in_hand(scene.board)) {
                    Some(words) => Asked::Stopped(words),
                    None => asked(scene, pass),
                },
            },
            typed: pass.entry.typed.as_str().to_owned(),
            last: last(scene, pass),
        }
    }
}

fn people(scene: &Scene<'_>, pass: &BlindPass) -> Vec<String> {
    let one = |id: &str, who: &Option<Who>| {
        let who = who.as_ref()?;
        Some(scene.text(id, &[("who", who.as_str())]))
    };
    let read = if pass.stage == Stage::Bench {
        "loading-blind-reads"
    } else {
        "loading-blind-reads-aloud"
    };
    [
        one(read, &pass.reader),
        one("loading-blind-enters", &pass.enterer),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn asked(scene: &Scene<'_>, pass: &BlindPass) -> Asked {
    match pass.phase {
        BlindPhase::Reader if pass.stage == Stage::Bench => {
            Asked::Initials(scene.word("loading-blind-ask-reader"))
        }
        BlindPhase::Reader => Asked::Initials(scene.word("loading-blind-ask-aloud")),
        BlindPhase::Enterer => Asked::Initials(scene.word("loading-blind-ask-enters")),
        BlindPhase::Gauge => Asked::Gauge(gauge(scene, pass)),
        BlindPhase::Read => match pass
            .in_hand(scene.board)
            .and_then(|task| drill(scene, task))
        {
            Some(drill) => Asked::Drill(Box::new(drill)),
            None => Asked::Nothing(over(scene, pass)),
        },
        BlindPhase::AllRead => Asked::Nothing(over(scene, pass)),
        BlindPhase::Over => Asked::Nothing(Vec::new()),
    }
}

fn gauge(scene: &Scene<'_>, pass: &BlindPass) -> Vec<String> {
    let Some(gauge) = &scene.board.gauge else {
        return Vec::new();
    };
    let name = scene.formatter.gauge(&gauge.id.as_str().into());
    let ask = match gauge.piece.or(pass.entry.gauge.piece) {
        None => vec![scene.word("loading-gauge-no-piece")],
        Some(piece) => ask_piece(scene, gauge, piece),
    };
    let off = matches!(pass.entry.refused, Some(Refused::GaugeOff(_)));
    let stands = if off { Vec::new() } else { gauge_stands(scene) };
    std::iter::once(name).chain(stands).chain(ask).collect()
}

fn drill(scene: &Scene<'_>, task: &Task) -> Option<Drill> {
    let item = scene.item(task)?;
    let said = scene.formatter.load(item, scene.worksheet());
    // Where it belongs is no place to take it from.
    let action = match task.lies() {
        Some(slot) => scene.text("loading-blind-take-from", &[("slot", slot)]),
        None => scene.word("loading-blind-take"),
    };
    Some(Drill {
        name: item.name.to_string(),
        marking: marking(&item.marking, TextStyle::STRONG),
        marked: said.marking.unwrap_or_default(),
        sites: sites(item)
            .into_iter()
            .map(|site| scene.formatter.site(site))
            .collect(),
        action,
    })
}

/// A drill of the pass with its state, in a line.
fn line(
    scene: &Scene<'_>,
    pass: &BlindPass,
    key: &crate::view::loading::task::Key,
) -> Option<String> {
    let task = scene.board.tasks.iter().find(|task| task.key() == *key)?;
    let item = scene.item(task)?;
    let here = pass
        .in_hand(scene.board)
        .is_some_and(|one| one.index == task.index);
    let id = match BlindPass::state(key, scene.board) {
        BlindState::Open if here => "loading-blind-now",
        BlindState::Open => "loading-blind-open",
        BlindState::Agreed => "loading-blind-agreed",
        BlindState::SetAnew => "loading-blind-set-anew",
        BlindState::Gone => "loading-blind-gone",
    };
    let args = [
        ("name", item.name.as_str()),
        ("slot", &*scene.formatter.slot(item)),
        ("state", &*scene.word(id)),
    ];
    Some(scene.text("loading-blind-row", &args))
}

/// The words on the last input: the reason why it was not taken, or what became of the reading. It
/// says what was typed, and nothing of what was looked for.
fn last(scene: &Scene<'_>, pass: &BlindPass) -> (Taken, Vec<String>) {
    if pass.phase == BlindPhase::Gauge && !matches!(pass.entry.refused, Some(Refused::GaugeOff(_)))
    {
        let words = at_the_gauge(scene, &pass.entry);
        if !words.is_empty() {
            return (Taken::No, words);
        }
    }
    if let Some(refused) = &pass.entry.refused {
        let in_doubt = matches!(refused, Refused::GaugeOff(_)).then(|| in_doubt(scene));
        let words = std::iter::once(refused_words(scene, refused)).chain(in_doubt.flatten());
        return (Taken::No, words.collect());
    }
    let last = pass.last.as_ref();
    let task = last.and_then(|key| scene.board.tasks.iter().find(|task| task.key() == *key));
    let Some((task, item)) = task.and_then(|task| Some((task, scene.item(task)?))) else {
        return (Taken::Yes, Vec::new());
    };
    let (name, slot) = (item.name.as_str(), &*scene.formatter.slot(item));
    let lay = match &item.slot {
        Some(slot) => scene.text(
            "loading-wrong-in",
            &[("name", name), ("slot", slot.as_str())],
        ),
        None => name.to_owned(),
    };
    let anew = BlindPass::state(&task.key(), scene.board) == BlindState::SetAnew;
    let confirmed = matches!(task.record.second, ReadingState::Confirmed { .. }) && !anew;
    let words = match &task.record.second {
        ReadingState::Refused { value, times, .. } => {
            let value = scene.formatter.set_length_with_unit(&Known::Is(*value));
            let id = match (BlindPass::state(&task.key(), scene.board), times) {
                (BlindState::SetAnew, _) => "loading-blind-aside",
                (_, 0) => "loading-blind-mistyped",
                _ => "loading-blind-refused",
            };
            let args = [("name", &*lay), ("value", &*value)];
            vec![scene.text(id, &args)]
        }
        // Another person read it otherwise.
        ReadingState::Confirmed { .. } if anew => {
            vec![scene.text("loading-blind-disagree", &[("name", &lay)])]
        }
        ReadingState::Unsound { .. } if scene.gauge_is_sound(task) => {
            vec![scene.word("loading-blind-gauge-sound")]
        }
        ReadingState::Unsound { .. } => vec![scene.word("loading-blind-gauge")],
        ReadingState::Confirmed { .. } if task.record.lies.is_some() => {
            vec![scene.text("loading-blind-back", &[("name", name), ("slot", slot)])]
        }
        ReadingState::Confirmed { .. } => {
            vec![scene.text("loading-blind-agrees", &[("name", name)])]
        }
        ReadingState::Open => Vec::new(),
    };
    (if confirmed { Taken::Yes } else { Taken::No }, words)
}

/// The drills whose readings a gauge that was found off puts in doubt, in words.
pub(in crate::view::loading) fn in_doubt(scene: &Scene<'_>) -> Option<String> {
    let doubted = scene.board.tasks.iter().filter(|task| task.record.in_doubt);
    let names: Vec<String> = doubted
        .filter_map(|task| {
            let name = scene.item(task)?.name.as_str();
            let in_slot = |slot| scene.text("loading-wrong-in", &[("name", name), ("slot", slot)]);
            Some(task.lies().map_or_else(|| name.to_owned(), in_slot))
        })
        .collect();
    let doubt = scene.text("loading-gauge-in-doubt", &[("drills", &names.join(", "))]);
    (!names.is_empty()).then_some(doubt)
}

/// The words at the end of a pass.
fn over(scene: &Scene<'_>, pass: &BlindPass) -> Vec<String> {
    let not_read: Vec<String> = not_read(scene).into_iter().chain(in_doubt(scene)).collect();
    if pass.order.is_empty() {
        let left = pass.left_to_others(scene.board);
        if left > 0 {
            let left = scene.counted("loading-blind-left-out", &[("count", left)], &[]);
            return std::iter::once(left).chain(not_read).collect();
        }
        if to_set_anew(scene) > 0 {
            return not_read;
        }
        let mut here = scene.board.tasks.iter().filter(|task| is_readable(task));
        let any = here.clone().next().is_some();
        let twice = any && here.all(|task| task.record.verified == Verified::Yes);
        let nothing = scene.word(match twice {
            true if not_read.is_empty() => "loading-blind-all-twice",
            true => "loading-blind-readable-twice",
            false => "loading-blind-nothing",
        });
        return std::iter::once(nothing).chain(not_read).collect();
    }
    let is = |wanted: BlindState| {
        let states = pass
            .order
            .iter()
            .map(|key| BlindPass::state(key, scene.board));
        states.filter(|state| *state == wanted).count()
    };
    let agreed = scene.counted(
        "loading-blind-all-read",
        &[("count", is(BlindState::Agreed))],
        &[],
    );
    let counted =
        |id: &str, count: usize| (count > 0).then(|| scene.counted(id, &[("count", count)], &[]));
    let open = counted("loading-blind-open-again", is(BlindState::Open));
    let gone = counted("loading-blind-no-longer", is(BlindState::Gone));
    let others = counted("loading-blind-left-out", pass.left_to_others(scene.board));
    let all = [Some(agreed), open, gone, others];
    all.into_iter().flatten().chain(not_read).collect()
}

/// Number of drills that were set aside to be set anew, in this pass or before.
fn to_set_anew(scene: &Scene<'_>) -> usize {
    let tasks = scene.board.tasks.iter();
    tasks
        .filter(|task| is_readable(task) && must_set_anew(task))
        .count()
}

/// The drills that no pass of this stage reads as they are, by why, a sentence each.
fn not_read(scene: &Scene<'_>) -> Vec<String> {
    let laid = || scene.board.tasks.iter().filter(|task| !task.is_anew());
    let blocked = laid().filter_map(|task| {
        let item = scene.item(task)?;
        let id = match task.work {
            Work::Blocked(block) => why_blocked(block, item),
            Work::LayUnset if task.state() == SettingState::Now => "loading-short-unset",
            _ => return None,
        };
        let name = item.name.as_str();
        let in_slot = |slot: &Label| {
            scene.text(
                "loading-wrong-in",
                &[("name", name), ("slot", slot.as_str())],
            )
        };
        let name = item.slot.as_ref().map_or_else(|| name.to_owned(), in_slot);
        Some(scene.text(id, &[("name", &name)]))
    });
    let reads = || laid().filter(|task| task.work == Work::SetAndRead);
    let sealed = reads().filter(|task| task.is_sealed());
    let now = reads().filter(|task| is_readable(task) && !must_set_anew(task));
    let open = now.filter(|task| {
        !is_read_first(task, scene.board.stage) && task.record.verified == Verified::No
    });
    let all = [
        ("loading-blind-to-set", to_set_anew(scene)),
        ("loading-blind-sealed", sealed.count()),
        ("loading-blind-unset", open.count()),
        ("loading-blind-unlaid", unlaid(scene.board)),
    ];
    let some = all.into_iter().filter(|(_, count)| *count > 0);
    some.map(|(id, count)| scene.counted(id, &[("count", count)], &[]))
        .chain(blocked)
        .collect()
}
