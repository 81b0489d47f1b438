//! A site: its entries, its place, its findings and its settings.

use super::super::Pick;
use super::super::sided;
use super::choose::titled;
use super::{heading, title};
use crate::action::{Action, Change, Command, REMOVE, View, key_name};
use crate::canvas::{Camera, mark_in, shapes};
use crate::field::InCase;
use crate::look::{Font, Theme, remark};
use crate::view::arch::Context;
use crate::view::form::{Form, FormSubject, entry};
use egui::{Align, Grid, Layout, RichText, Sense, Ui, WidgetInfo, vec2};
use traywright_core::case::{Edit, Placement, Site, removal};
use traywright_core::charts::{LeanWords, lean, marking};
use traywright_core::drawing::{self, Ink};
use traywright_core::plan::{Fits, SiteSheet, StepSheet};
use traywright_core::wording::Formatter;

/// Number of findings shown here; the rest is in the findings.
const MOST_FINDINGS: usize = 5;

/// Shows a site.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, site: &Site, sheet: &SiteSheet) {
    let (document, formatter) = (cx.document, cx.formatter());
    let guide = &document.case().guide;
    title(ui, &titled(&formatter, site.tooth));
    let facts = [
        formatter.bone(&site.state),
        formatter.access(guide.access),
        formatter.extent_at(site),
    ];
    remark(ui, facts.join(" · "));
    rows(ui, cx, &formatter, site);
    sequence(ui, cx, &formatter, sheet);
    place(ui, cx, site);
    findings(ui, cx, &formatter, site);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(cx.word("arch-site-view")).clicked() {
            cx.act(Action::Do(Command::Show(View::Site)));
        }
        let button = ui.button(cx.word("arch-site-remove"));
        if button.on_hover_text(key_name(REMOVE)).clicked() {
            remove(cx, site);
        }
    });
}

fn rows(ui: &mut Ui, cx: &Context<'_>, formatter: &Formatter<'_>, site: &Site) {
    ui.add_space(4.0);
    let rows = [
        ("arch-new-implant", formatter.implant(&site.implant)),
        (
            "arch-new-master",
            formatter.master_sleeve(&site.master_sleeve),
        ),
        ("arch-distance", formatter.sleeve_offset(site)),
        ("arch-density", formatter.density(site.density)),
    ];
    let soft = Theme::of(ui).fill(Ink::Soft);
    Grid::new("site-facts")
        .num_columns(2)
        .spacing([12.0, 3.0])
        .min_col_width(130.0)
        .min_row_height(19.0)
        .show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 19.0;
            for (id, value) in rows {
                ui.label(RichText::new(cx.word(id)).color(soft));
                ui.add(egui::Label::new(&value).wrap());
                ui.end_row();
            }
        });
}

/// The findings here, worst first, as many as there is room for.
fn findings(ui: &mut Ui, cx: &mut Context<'_>, formatter: &Formatter<'_>, site: &Site) {
    let here: Vec<_> = cx.document.worksheet().findings_of(&site.id).collect();
    heading(ui, &cx.word("arch-findings"));
    if here.is_empty() {
        remark(ui, cx.word("arch-nothing-found"));
    }
    for finding in here.iter().take(MOST_FINDINGS) {
        let said = formatter.finding(finding);
        ui.horizontal_top(|ui| {
            mark_in(ui, vec2(16.0, 18.0), 14.0, said.severity);
            let word = Font::StrongLine.text(&said.word);
            ui.label(word);
            let text = Font::Line.text(&said.headline);
            ui.add(egui::Label::new(text).wrap());
        });
    }
    remark(ui, cx.word("arch-accuracy"));
    if here.len() > MOST_FINDINGS {
        let count = &[("count", here.len() - MOST_FINDINGS)];
        let text = cx.counted("arch-more-findings", count, &[]);
        if ui.link(text).clicked() {
            cx.act(Action::Do(Command::Show(View::Findings)));
        }
    }
}

/// Place and tilt, by numbers with their sides and in a picture.
fn place(ui: &mut Ui, cx: &mut Context<'_>, site: &Site) {
    let (document, formatter) = (cx.document, cx.formatter());
    heading(ui, &cx.word("arch-stands"));
    let held = document.case().held_by_guide(site).axis;
    if held {
        remark(ui, cx.word("arch-guide-made"));
    }
    if let Placement::Measured { .. } = site.placement {
        remark(ui, cx.word("arch-measured-stays"));
        let button = egui::Button::new(cx.word("arch-onto-arch"));
        let frame = cx.own.frame.clone();
        if ui.add_enabled(!held, button).clicked()
            && let Some(placement) =
                frame.and_then(|(_, frame)| frame.on_arch(site.placement, site.tooth))
        {
            let moved = Placed(site).moved(cx, "arch-moved", |now| *now = placement);
            cx.edit(moved);
        }
        return;
    }
    remark(ui, formatter.place(site));
    picture(ui, cx, &formatter, site);
    ui.add_enabled_ui(!held, |ui| fields(ui, cx, site));
}

fn fields(ui: &mut Ui, cx: &mut Context<'_>, site: &Site) {
    let Placement::OnArch {
        along_mm,
        buccal_mm,
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = site.placement
    else {
        return;
    };
    let formatter = cx.formatter();
    let (along, across) = (formatter.ways_along(), formatter.ways_across());
    let form = &mut Form {
        ui,
        cx,
        on: &Placed(site),
    };
    let asked = entry("arch-along", "along", "arch-moved");
    let value = (along_mm, InCase("sites[].placement.along_mm"));
    sided::row(form, asked, value, &along, |placement, new| {
        if let Placement::OnArch { along_mm, .. } = placement {
            *along_mm = new;
        }
    });
    let asked = entry("arch-across", "buccal", "arch-moved");
    let value = (buccal_mm, InCase("sites[].placement.buccal_mm"));
    sided::row(form, asked, value, &across, |placement, new| {
        if let Placement::OnArch { buccal_mm, .. } = placement {
            *buccal_mm = new;
        }
    });
    let asked = entry("arch-lean-along", "distal", "arch-tilted");
    let place = InCase("sites[].placement.apex_to_distal_deg");
    let value = (apex_to_distal_deg, place);
    sided::row(form, asked, value, &along, |placement, new| {
        if let Placement::OnArch {
            apex_to_distal_deg, ..
        } = placement
        {
            *apex_to_distal_deg = new;
        }
    });
    let asked = entry("arch-lean-across", "out", "arch-tilted");
    let place = InCase("sites[].placement.apex_to_buccal_deg");
    let value = (apex_to_buccal_deg, place);
    sided::row(form, asked, value, &across, |placement, new| {
        if let Placement::OnArch {
            apex_to_buccal_deg, ..
        } = placement
        {
            *apex_to_buccal_deg = new;
        }
    });
}

/// A site by the place where it stands.
struct Placed<'p>(&'p Site);

impl FormSubject for Placed<'_> {
    type Value = Placement;
    type State = crate::view::arch::State;

    fn value(&self) -> &Placement {
        &self.0.placement
    }

    fn key(&self, field: &str) -> String {
        format!("arch.site.{}.{field}", self.0.id)
    }

    fn change(
        &self,
        cx: &mut Context<'_>,
        what: &str,
        field: &str,
        change: impl FnOnce(&mut Placement),
    ) {
        let moved = self.moved(cx, what, change).at(self.key(field));
        cx.edit(moved);
    }
}

impl Placed<'_> {
    /// The change that moves it.
    fn moved(&self, cx: &Context<'_>, what: &str, change: impl FnOnce(&mut Placement)) -> Change {
        let name = cx.text(what, &[("site", &cx.formatter().tooth(self.0.tooth))]);
        let mut moved = self.0.clone();
        change(&mut moved.placement);
        Change::new(name, Edit::ChangeSite(Box::new(moved)))
    }
}

/// The picture of both tilts.
fn picture(ui: &mut Ui, cx: &mut Context<'_>, formatter: &Formatter<'_>, site: &Site) {
    let Placement::OnArch {
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = site.placement
    else {
        return;
    };
    let (along, across) = (formatter.ways_along(), formatter.ways_across());
    let said = [
        formatter.lean(apex_to_distal_deg, &along),
        formatter.lean(apex_to_buccal_deg, &across),
    ];
    let words = LeanWords {
        along: &along,
        across: &across,
        lean_along: &said[0],
        lean_across: &said[1],
    };
    let state = (&said, site.tooth, &site.id);
    let name = formatter.tilt(site);
    let cached = cx.state.drawings.drawing("arch-lean", state, || {
        lean(site, site.tooth.jaw(), &words).unwrap_or_default()
    });
    let per_mm = 4.6;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    let size = vec2(cached.bounds.width() as f32, cached.bounds.height() as f32) * per_mm;
    let (room, response) = ui.allocate_exact_size(size, Sense::hover());
    cached.paint(ui, Camera::fitting(cached.bounds, room, per_mm));
    cached.describe(ui, response.id, room, &name);
}

/// The sequence with its settings, as they are shown everywhere.
fn sequence(ui: &mut Ui, cx: &Context<'_>, formatter: &Formatter<'_>, sheet: &SiteSheet) {
    heading(ui, &cx.word("arch-sequence"));
    if sheet.steps.is_empty() {
        remark(ui, cx.word("arch-no-steps"));
        return;
    }
    let soft = Theme::of(ui).fill(Ink::Soft);
    let small = |text: String| Font::Caption.text(text).color(soft);
    Grid::new("sequence")
        .num_columns(4)
        .spacing([10.0, 1.0])
        .min_row_height(20.0)
        .show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 18.0;
            for id in ["step", "sleeve", "depth", "set"] {
                ui.label(small(cx.word(&format!("arch-col-{id}"))));
            }
            ui.end_row();
            for step in &sheet.steps {
                cell(ui, &formatter.drill(&step.drill), 102.0);
                sleeve_cell(ui, formatter, step);
                cell(ui, &formatter.depth_rule(&step.depth), 123.0);
                set_cell(ui, formatter, step);
                ui.end_row();
            }
        });
    let fits = |step: &&StepSheet| step.is_full_depth() && step.fits == Fits::AsFarAsKnown;
    let full = sheet.telling_step().filter(fits);
    if let Some(step) = full {
        remark(ui, formatter.setting_line(step));
    }
}

/// Text in a column of this width, on several lines where it is longer.
fn cell(ui: &mut Ui, text: &str, width: f32) {
    let layout = Layout::top_down(Align::Min);
    let soft = Theme::of(ui).fill(Ink::Soft);
    // A row of the grid is as high as what its cells ask for.
    let galley = ui
        .painter()
        .layout(text.to_owned(), Font::Remark.id(), soft, width);
    let height = galley.size().y.max(20.0);
    ui.allocate_ui_with_layout(vec2(width, height), layout, |ui| {
        ui.set_min_width(width);
        let label = egui::Label::new(Font::Remark.text(text)).wrap();
        ui.add(label);
    });
}

/// A setting; where there is none to use, why in words, on several lines: the column is as wide as a figure.
fn set_cell(ui: &mut Ui, formatter: &Formatter<'_>, step: &StepSheet) {
    const WIDTH: f32 = 50.0;
    let said = formatter.setting(step);
    let is_figure = step.fits == Fits::AsFarAsKnown && step.set.length().is_some();
    let font = if is_figure {
        Font::Setting
    } else {
        Font::StrongCaption
    };
    let label = egui::Label::new(font.text(&said));
    let told = formatter.setting_line(step);
    if is_figure {
        ui.add(label).on_hover_text(told);
        return;
    }
    let ink = Theme::of(ui).fill(Ink::Strong);
    let galley = ui.painter().layout(said, font.id(), ink, WIDTH);
    let size = vec2(WIDTH, galley.size().y.max(20.0));
    ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
        ui.set_min_width(WIDTH);
        ui.add(label.wrap()).on_hover_text(told);
    });
}

/// The marking of a step's drill sleeve as it is engraved, or how the drill is led without one.
fn sleeve_cell(ui: &mut Ui, formatter: &Formatter<'_>, step: &StepSheet) {
    const WIDTH: f32 = 94.0;
    let sleeve = step.sleeve.as_ref();
    let entry = sleeve.and_then(|id| formatter.case.kit.drill_sleeve(id));
    let drawn = entry.and_then(|entry| marking(&entry.marking, drawing::TextStyle::STRONG));
    let led = formatter.guidance(step);
    let Some((drawing, _)) = drawn else {
        cell(ui, &led, WIDTH);
        return;
    };
    let (room, response) = ui.allocate_exact_size(vec2(WIDTH, 20.0), Sense::hover());
    let camera = Camera {
        origin: room.left_center(),
        per_mm: 4.2,
    };
    let shapes = shapes(&drawing, camera, Theme::of(ui), ui.painter());
    ui.painter().extend(shapes);
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, &led));
    response.on_hover_text(led);
}

/// Takes a site away with all that refers to it.
pub(in super::super) fn remove(cx: &mut Context<'_>, site: &Site) {
    let (document, formatter) = (cx.document, cx.formatter());
    let name = cx.text("arch-removed", &[("site", &formatter.tooth(site.tooth))]);
    cx.edit(Change::of(name, removal(document.case(), &site.id)));
    let (tooth, site) = (site.tooth, formatter.site(&site.id));
    let told = cx.text("arch-removed-told", &[("site", &site)]);
    cx.act(Action::Tell(told));
    cx.own.pick = Pick::Tooth(tooth);
}
