//! The limits of the clearances, each with its floor and its source. One that was changed says so,
//! and can be set back.

use super::heading;
use crate::action::Change;
use crate::field::{self, InCase, Named};
use crate::look::{Font, Theme, remark};
use crate::view::case::Context;
use egui::{Align, Grid, Layout, Ui, vec2};
use traywright_core::case::{AngleLimit, Edit, Limit, LimitId, Limits, default_limits};
use traywright_core::drawing::Ink;
use traywright_core::measure::Length;
use traywright_core::plan::Quantity;
use traywright_core::wording::mm;

/// Width of what is told below a number, points: no more than the number with its unit takes.
const CELL: f32 = 90.0;

/// After so many limits the heads of the columns are repeated.
const ROWS_BELOW_A_HEAD: usize = 5;

/// Shows this part.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let limits = &document.case().limits;
    let own = default_limits();
    heading(ui, &cx.word("case-limits"));
    remark(ui, cx.word("case-limits-what"));
    ui.add_space(4.0);
    let source_width = (ui.available_width() - 800.0).clamp(120.0, 640.0);
    let soft = Theme::of(ui).fill(Ink::Soft);
    Grid::new("limits")
        .num_columns(5)
        .spacing([14.0, 4.0])
        .show(ui, |ui| {
            for (n, id) in LimitId::ALL.iter().enumerate() {
                if n % ROWS_BELOW_A_HEAD == 0 {
                    head(ui, cx, soft);
                }
                row(ui, cx, limits, &own, *id, source_width);
                ui.end_row();
            }
            angle_row(ui, cx, limits, &own, source_width);
            ui.end_row();
        });
}

/// The heads of the columns; they are repeated further down, since the first scroll out of sight.
fn head(ui: &mut Ui, cx: &Context<'_>, soft: egui::Color32) {
    for id in ["of", "limit", "floor", "source", "own"] {
        let text = cx.word(&format!("case-limit-{id}"));
        ui.label(Font::Caption.text(text).color(soft));
    }
    ui.end_row();
}

fn row(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    limits: &Limits,
    own: &Limits,
    id: LimitId,
    source_width: f32,
) {
    let name = cx.word(&format!("limit-{}", id.key()));
    let key = |part: &str| format!("case.limit.{}.{part}", id.key());
    name_ui(ui, &name);
    let (now, default) = (limits.get(id), own.get(id));
    let named = |ui: &Ui, cx: &Context<'_>, part: &str| {
        let column = cx.word(&format!("case-limit-{part}"));
        let args = [("limit", name.as_str()), ("column", column.as_str())];
        field::unseen_name(ui, &key(part), &cx.text("case-limit-cell", &args))
    };
    let set = |cx: &mut Context<'_>, limit: Limit, field: String| {
        let limit = resourced(cx, limit, default);
        let new = limits.clone().with(id, Some(limit));
        change(cx, &name, new, Some(field));
    };
    if let Some(now) = now {
        let mut length = |ui: &mut Ui, part: &str, value: Length, place: InCase| {
            let named = named(ui, cx, part);
            let drafts = &mut cx.state.drafts;
            cell(ui, |ui| {
                field::needed(ui, drafts, &key(part), &named, Some(value), place)
            })
        };
        // All limits in millimetres are of one type.
        let place = InCase("limits.buccal_wall.limit_mm");
        let limit = length(ui, "limit", now.limit_mm, place);
        let place = InCase("limits.buccal_wall.floor_mm");
        let floor = length(ui, "floor", now.floor_mm, place);
        let whose = named(ui, cx, "source");
        let loosened = limits.own_if_stricter(id).map(Quantity::Length);
        let shown = (&*now.source, loosened);
        let source = source_field(ui, cx, &key("source"), &whose, shown, source_width);
        if let Some(limit_mm) = limit {
            // What must remain is never more than the limit: it follows one that is lowered.
            let new = Limit {
                limit_mm,
                floor_mm: now.floor_mm.min(limit_mm),
                ..now.clone()
            };
            set(cx, new, key("limit"));
        }
        if let Some(floor_mm) = floor.filter(|floor| *floor > now.limit_mm) {
            let args = [("floor", &*mm(floor_mm)), ("limit", &*mm(now.limit_mm))];
            let told = cx.text("case-limit-floor-above", &args);
            cx.state.drafts.refuse(&key("floor"), told);
        } else if let Some(floor_mm) = floor {
            let new = Limit {
                floor_mm,
                ..now.clone()
            };
            set(cx, new, key("floor"));
        }
        if let Some(source) = source {
            let new = Limit {
                source,
                ..now.clone()
            };
            let new = limits.clone().with(id, Some(new));
            change(cx, &name, new, Some(key("source")));
        }
    } else {
        ui.label(cx.word("case-limit-not-set"));
        ui.label("");
        ui.label("");
    }
    if default.is_some() && own_ui(ui, cx, &name, &now, &default) {
        let new = limits.clone().with(id, default.cloned());
        change(cx, &name, new, None);
    }
}

fn angle_row(ui: &mut Ui, cx: &mut Context<'_>, limits: &Limits, own: &Limits, source_width: f32) {
    const KEY: &str = "case.limit.convergence";
    let name = cx.word("limit-convergence");
    name_ui(ui, &name);
    let named = |ui: &Ui, cx: &Context<'_>, part: &str| {
        let column = cx.word(&format!("case-limit-{part}"));
        let args = [("limit", name.as_str()), ("column", column.as_str())];
        let key = format!("{KEY}.{part}");
        field::unseen_name(ui, &key, &cx.text("case-limit-cell", &args))
    };
    let with = |convergence: Option<AngleLimit>| Limits {
        convergence,
        ..limits.clone()
    };
    if let Some(now) = &limits.convergence {
        let whose = named(ui, cx, "limit");
        let drafts = &mut cx.state.drafts;
        let place = InCase("limits.convergence.limit_deg");
        let limit = cell(ui, |ui| {
            field::needed(ui, drafts, KEY, &whose, Some(now.limit_deg), place)
        });
        ui.label("");
        let key = format!("{KEY}.source");
        let whose = named(ui, cx, "source");
        let loosened = limits.own_angle_if_stricter().map(Quantity::Angle);
        let shown = (&*now.source, loosened);
        let source = source_field(ui, cx, &key, &whose, shown, source_width);
        if let Some(limit_deg) = limit {
            let default = own.convergence.as_ref();
            let source = match default {
                Some(own) if own.source == now.source && own.limit_deg != limit_deg => {
                    cx.word("case-own-source")
                }
                _ => now.source.clone(),
            };
            let new = with(Some(AngleLimit { limit_deg, source }));
            change(cx, &name, new, Some(KEY.to_owned()));
        }
        if let Some(source) = source {
            let new = with(Some(AngleLimit {
                source,
                ..now.clone()
            }));
            change(cx, &name, new, Some(key));
        }
    } else {
        ui.label(cx.word("case-limit-not-set"));
        ui.label("");
        ui.label("");
    }
    let (now, default) = (&limits.convergence, &own.convergence);
    if own_ui(ui, cx, &name, &now, &default) {
        change(cx, &name, with(own.convergence.clone()), None);
    }
}

/// A field and below it what is wrong with it, in one cell of the grid.
fn cell<R>(ui: &mut Ui, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.vertical(|ui| {
        ui.set_max_width(CELL);
        add(ui)
    })
    .inner
}

/// The name of a row, wrapped where the window is narrow.
fn name_ui(ui: &mut Ui, name: &str) {
    let narrow = ui.ctx().content_rect().width() < 900.0;
    let width = if narrow { 140.0 } else { f32::INFINITY };
    ui.scope(|ui| {
        ui.set_max_width(width);
        ui.add(egui::Label::new(name).wrap_mode(if narrow {
            egui::TextWrapMode::Wrap
        } else {
            egui::TextWrapMode::Extend
        }));
    });
}

/// A limit of other figures no longer has the source of the old ones.
fn resourced(cx: &Context<'_>, mut limit: Limit, default: Option<&Limit>) -> Limit {
    if let Some(default) = default
        && limit.source == default.source
        && limit != *default
    {
        limit.source = cx.word("case-own-source");
    }
    limit
}

/// A field for a source; below it what the program itself would set, where that is stricter.
fn source_field(
    ui: &mut Ui,
    cx: &mut Context<'_>,
    key: &str,
    named: &Named,
    (source, stricter): (&str, Option<Quantity>),
    width: f32,
) -> Option<String> {
    let stricter = stricter.map(|own| {
        let source = cx.formatter().limit_source("", Some(own));
        source.trim().to_owned()
    });
    let drafts = &mut cx.state.drafts;
    let layout = Layout::top_down(Align::Min);
    let asked = ui.allocate_ui_with_layout(vec2(width, 26.0), layout, |ui| {
        let taken = field::wide_text(ui, drafts, key, named, source, width);
        if let Some(stricter) = stricter {
            let fault = Theme::of(ui).fault();
            ui.label(Font::Remark.text(stricter).color(fault));
        }
        taken
    });
    asked.response.on_hover_text(source);
    let taken = asked.inner?;
    let taken = taken.trim().to_owned();
    if taken.is_empty() {
        let needed = cx.word("field-empty");
        cx.state.drafts.refuse(key, needed);
        return None;
    }
    Some(taken)
}

/// Says where the limit is not the program's own; gives back whether it is to be set back.
fn own_ui<T: PartialEq>(ui: &mut Ui, cx: &Context<'_>, name: &str, now: &T, default: &T) -> bool {
    if now == default {
        ui.label("");
        return false;
    }
    ui.horizontal(|ui| {
        ui.label(Font::StrongRemark.text(cx.word("case-limit-own-value")));
        let back = ui.button(cx.word("case-limit-back"));
        let args = [("limit", name)];
        back.accessible_name(cx.text("case-limit-back-of", &args))
            .clicked()
    })
    .inner
}

fn change(cx: &mut Context<'_>, name: &str, limits: Limits, field: Option<String>) {
    let name = cx.text("case-limit-set", &[("limit", name)]);
    cx.edit(Change {
        field,
        ..Change::new(name, Edit::SetLimits(Box::new(limits)))
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use traywright_core::case::Case;
    use traywright_core::document::range_at;

    #[test]
    fn all_limits_have_the_range_of_the_one_that_is_named() {
        for part in ["limit_mm", "floor_mm"] {
            let range = |limit: &str| range_at::<Case>(&format!("limits.{limit}.{part}")).unwrap();
            for id in LimitId::ALL {
                assert_eq!(range(id.key()), range("buccal_wall"), "{id:?}");
            }
        }
    }
}
