//! Everything in one list: how far each thing is, with the way to it.

use super::keys::Pressed;
use super::scale::strong;
use super::scene::{Scene, sites};
use super::session::{Input, Now, Step, must_set_anew};
use super::short;
use super::task::{Task, Unasked, Verified, Work};
use egui::{Button, RichText, ScrollArea, Stroke, Ui, vec2};
use traywright_core::drawing::Ink;
use traywright_core::plan::LoadItem;

/// Shows it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Pressed>) {
    let (scale, theme) = (scene.scale, scene.theme);
    strong(
        ui,
        scene.word("loading-list-title"),
        scale.big(),
        theme.fill(Ink::Strong),
    );
    ScrollArea::vertical()
        .id_salt("loading list")
        .show(ui, |ui| {
            short::ui(ui, scene);
            ui.add_space(scale.px(12.0));
            for task in &scene.board.tasks {
                let Some(item) = scene.item(task) else {
                    continue;
                };
                let number = (task.item + 1).to_string();
                let slot = task.slot.as_ref().map_or_else(
                    || scene.formatter.without_slot(),
                    |slot| scene.text("load-slot", &[("slot", slot.as_str())]),
                );
                let sites: Vec<String> = sites(item)
                    .into_iter()
                    .map(|site| scene.formatter.site(site))
                    .collect();
                let args = [
                    ("number", number.as_str()),
                    ("name", item.name.as_str()),
                    ("slot", &slot),
                    ("state", &state(scene, task)),
                ];
                let mut words = match scene.reset(task) {
                    None => scene.text("loading-list-row", &args),
                    Some(reset) => {
                        let said = scene.formatter.reset(reset, scene.worksheet());
                        let args = [
                            ("drill", &*said.drill),
                            ("when", &said.when),
                            ("state", &state(scene, task)),
                        ];
                        scene.text("loading-list-anew", &args)
                    }
                };
                if !sites.is_empty() {
                    words = format!("{words}\n{}", sites.join(", "));
                }
                let here = task.index == scene.session.at;
                let edge = if here { Ink::Accent } else { Ink::Hairline };
                let text = RichText::new(words)
                    .size(scale.text())
                    .color(theme.fill(Ink::Strong));
                let width = ui.available_width();
                let row = Button::new(text)
                    .fill(theme.fill(Ink::Tooth))
                    .stroke(Stroke::new(if here { 3.0 } else { 1.0 }, theme.fill(edge)))
                    .wrap()
                    .min_size(vec2(width, scale.target()));
                if ui.add(row).clicked() {
                    out.push(Pressed::Input(Input::Go(task.index)));
                }
            }
        });
}

/// State of a thing, in words.
fn state(scene: &Scene<'_>, task: &Task) -> String {
    let verified = task.record.verified == Verified::Yes;
    let id = match scene.session.now(task) {
        Now::Done if verified => "loading-state-verified",
        Now::Done | Now::NoSlot if scene.session.awaits_second(task) => "loading-state-second",
        Now::Done if task.is_sealed() => "loading-state-sealed",
        Now::Done | Now::Passed if task.work == Work::LayUnset => "loading-state-unset",
        Now::Done => "loading-state-laid",
        Now::NoSlot => return scene.formatter.without_slot(),
        Now::NoneLeft => "loading-state-none-left",
        Now::Unasked(Unasked::TookAPlace) => "loading-state-took-a-place",
        Now::Unasked(Unasked::StepsOver) if task.record.set_otherwise.is_some() => {
            "loading-state-over-otherwise"
        }
        Now::Unasked(Unasked::StepsOver) => "loading-state-over",
        Now::Passed if task.record.passed_over.is_some() && task.work != Work::LayUnset => {
            "loading-state-passed-over"
        }
        Now::Blocked if scene.item(task).is_some_and(LoadItem::is_by_mark) => {
            "loading-state-no-mark"
        }
        Now::Blocked => "loading-state-blocked",
        Now::Later => "loading-state-later",
        Now::Passed => "loading-state-passed",
        Now::Do(Step::Take | Step::Set) if must_set_anew(task) && task.lies().is_some() => {
            "loading-state-refused-there"
        }
        Now::Do(Step::Take | Step::Set) if must_set_anew(task) => "loading-state-refused",
        Now::Do(Step::Take) if task.is_anew() => "loading-state-anew",
        Now::Do(Step::Take) if task.record.set_otherwise.is_some() => {
            if scene.item(task).is_some_and(LoadItem::is_by_mark) {
                "loading-state-wrong-mark"
            } else {
                "loading-state-wrong"
            }
        }
        Now::Do(Step::Take) if task.record.lies.is_some() => "loading-state-again",
        Now::Do(Step::Take | Step::SetAndRead | Step::Lay) => "loading-state-open",
        Now::Do(Step::Place) => "loading-state-to-lay",
        Now::Do(Step::Read) if task.lies().is_some() => "loading-state-read-there",
        Now::Do(_) if task.lies().is_some() => "loading-state-again",
        Now::Do(_) => "loading-state-begun",
    };
    scene.word(id)
}
