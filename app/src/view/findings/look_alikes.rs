//! Look-alikes, and what this program does not look at.

use crate::look::{Font, aside, part_heading};
use crate::view::findings::Context;
use egui::{Label, RichText, Ui};
use traywright_core::wording::begin;

/// Shows both lists.
pub(super) fn ui(ui: &mut Ui, cx: &Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    let worksheet = document.worksheet();
    ui.add_space(10.0);
    part_heading(ui, begin(&formatter.not_assessed_heading()));
    for line in formatter.not_assessed() {
        ui.add(Label::new(begin(&line)).wrap());
    }
    ui.add_space(10.0);
    part_heading(ui, cx.word("findings-look-alikes"));
    // What could not be tried says nothing.
    let all_tried = worksheet
        .sites
        .iter()
        .all(|s| s.mix_ups_not_tried.is_none());
    if worksheet.mix_ups.is_empty() && all_tried {
        aside(ui, cx.word("findings-look-alikes-none"));
    } else {
        aside(ui, cx.word("findings-look-alikes-what"));
    }
    for site in &worksheet.sites {
        let of_it = worksheet.mix_ups.iter().filter(|one| one.site == site.id);
        let said: Vec<_> = of_it.map(|one| formatter.mix_up(one)).collect();
        let not_tried = formatter.not_tried(&site.mix_ups_not_tried);
        if said.is_empty() && not_tried.is_empty() {
            continue;
        }
        ui.add_space(4.0);
        ui.label(RichText::new(begin(&formatter.site(&site.id))).strong());
        for text in not_tried {
            ui.add(Label::new(text).wrap());
        }
        for one in said {
            ui.add(Label::new(begin(&one.mistake)).wrap());
            let then = format!("{} · {}", one.cut, one.harm);
            ui.add(Label::new(Font::Caption.text(then).weak()).wrap());
        }
    }
}
