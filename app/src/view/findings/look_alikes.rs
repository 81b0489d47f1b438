//! Look-alikes, and what this program does not look at.

use super::{aside, heading};
use crate::look::size;
use crate::window::Stage;
use egui::{Label, RichText, Ui};
use traywright_core::say::begin;

/// Shows both lists.
pub(super) fn ui(ui: &mut Ui, stage: &Stage<'_>) {
    let Some(document) = stage.document() else {
        return;
    };
    let worksheet = document.worksheet();
    let speaker = document.speaker(stage.desk.settings.notation());
    ui.add_space(10.0);
    heading(ui, begin(&speaker.not_assessed_heading()));
    for line in speaker.not_assessed() {
        ui.add(Label::new(begin(&line)).wrap());
    }
    ui.add_space(10.0);
    heading(ui, stage.word("findings-look-alikes"));
    if worksheet.look_alikes.is_empty() {
        aside(ui, stage.word("findings-look-alikes-none"));
    } else {
        aside(ui, stage.word("findings-look-alikes-what"));
    }
    for site in &worksheet.sites {
        let of_it = worksheet
            .look_alikes
            .iter()
            .filter(|one| one.site == site.id);
        let said: Vec<_> = of_it.map(|one| speaker.mix_up(one)).collect();
        let not_tried = speaker.reasons(&site.mix_ups_not_tried);
        if said.is_empty() && not_tried.is_none() {
            continue;
        }
        ui.add_space(4.0);
        ui.label(RichText::new(begin(&speaker.site(&site.id))).strong());
        if let Some(reasons) = not_tried {
            let text = stage.text("findings-look-alikes-unknown", &[("reasons", &reasons)]);
            ui.add(Label::new(text).wrap());
        }
        for one in said {
            ui.add(Label::new(begin(&one.mistake)).wrap());
            let then = format!("{} · {}", one.cut, one.harm);
            ui.add(Label::new(RichText::new(then).weak().size(size::CAPTION)).wrap());
        }
    }
}
