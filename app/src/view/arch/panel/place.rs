//! A new site: everything that it cannot begin without is chosen, nothing is taken for granted.

use super::heading;
use crate::action::Action;
use crate::field::{self, New};
use crate::look::remark;
use crate::view::arch::Context;
use crate::view::offer::{edit_with_kit, extents, no_kit_ui};
use egui::{Button, Ui};
use traywright_core::case::{GuidedExtent, NeighbourKind, NewSite, SiteState, ToothState};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::{ImplantId, MasterSleeveId};

/// State of the bone, as far as a word can give it; the rest is entered at the site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bone {
    Healed,
    Fresh,
    OldImplant,
}

impl Bone {
    const fn state(self) -> SiteState {
        match self {
            Self::Healed => SiteState::Healed {},
            Self::Fresh => SiteState::FRESH_SOCKET,
            Self::OldImplant => SiteState::IMPLANT_TO_REMOVE,
        }
    }
}

/// A site that is being thought of.
#[derive(Debug, Default)]
pub(in super::super) struct Draft {
    tooth: Option<ToothPosition>,
    bone: Option<Bone>,
    implant: Option<ImplantId>,
    master: Option<MasterSleeveId>,
    extent: Option<GuidedExtent>,
}

impl Draft {
    fn whole(&self) -> Option<NewSite> {
        Some(NewSite {
            tooth: self.tooth?,
            state: self.bone?.state(),
            implant: self.implant.clone()?,
            master_sleeve: self.master.clone()?,
            guided_extent: self.extent?,
        })
    }
}

/// The bone that is to be expected by the tooth there; nothing where the tooth was not entered.
fn expected(cx: &Context<'_>, position: ToothPosition) -> Option<Bone> {
    let teeth = &cx.document.case().teeth;
    let tooth = teeth.iter().find(|tooth| tooth.position == position)?;
    match tooth.state {
        _ if tooth.kind == Some(NeighbourKind::Implant) => None,
        ToothState::Missing => Some(Bone::Healed),
        ToothState::ToExtract => Some(Bone::Fresh),
        ToothState::Present => None,
    }
}

/// Shows the form for a new site at a position.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, position: ToothPosition) {
    let (document, formatter) = (cx.document, cx.formatter());
    if cx.own.new.tooth != Some(position) {
        let kept = cx.own.new.extent;
        cx.own.new = Draft {
            tooth: Some(position),
            bone: expected(cx, position),
            extent: kept,
            ..Draft::default()
        };
    }
    heading(ui, &cx.word("arch-place"));
    remark(ui, cx.word("arch-place-where"));
    let open = cx.word("arch-pick");
    let bones = [
        (Bone::Healed, SiteState::Healed {}),
        (Bone::Fresh, Bone::Fresh.state()),
        (Bone::OldImplant, Bone::OldImplant.state()),
    ]
    .map(|(bone, state)| (bone, formatter.bone(&state)));
    let implants = cx.offered_kit();
    let implants = implants.implants.iter();
    let implants: Vec<_> = implants
        .map(|implant| (implant.id.clone(), formatter.implant_measured(implant)))
        .collect();
    let masters = masters(cx);
    let extents = extents(&formatter);
    no_kit_ui(ui, cx, &implants);
    if let Some(New(new)) = ask(ui, cx, "bone", &open, |d| d.bone.as_ref(), &bones) {
        cx.own.new.bone = new;
    }
    if let Some(New(new)) = ask(ui, cx, "implant", &open, |d| d.implant.as_ref(), &implants) {
        cx.own.new.master = new.as_ref().and_then(|id| only_master(cx, id));
        cx.own.new.implant = new;
    }
    if let Some(New(new)) = ask(ui, cx, "master", &open, |d| d.master.as_ref(), &masters) {
        cx.own.new.master = new;
    }
    if let Some(New(new)) = ask(ui, cx, "extent", &open, |d| d.extent.as_ref(), &extents) {
        cx.own.new.extent = new;
    }
    ui.add_space(4.0);
    let whole = cx.own.new.whole();
    let button = Button::new(cx.word("arch-place-it"));
    let button = ui.add_enabled(whole.is_some(), button);
    let why = cx.word("arch-place-fill");
    if button.on_disabled_hover_text(&why).clicked()
        && let Some(new) = &whole
    {
        let (id, edits) = new.edits(document.case());
        let name = cx.text("arch-placed", &[("site", &formatter.tooth(position))]);
        edit_with_kit(cx, name, edits, None);
        cx.act(Action::Choose(Some(id)));
    }
    if whole.is_none() {
        remark(ui, &why);
    }
}

/// One question of the form.
fn ask<T: PartialEq + Clone>(
    ui: &mut Ui,
    cx: &Context<'_>,
    about: &str,
    open: &str,
    value: impl Fn(&Draft) -> Option<&T>,
    offered: &[(T, String)],
) -> Option<New<Option<T>>> {
    let label = cx.word(&format!("arch-new-{about}"));
    let key = format!("arch.new.{about}");
    field::row(ui, &label, |ui, _| {
        let (drafts, value) = (&cx.state.drafts, value(&cx.own.new));
        field::choice(ui, drafts, &key, &label, open, value, offered)
    })
}

/// The master sleeves, those that fit the implant's protocols first and marked as fitting.
fn masters(cx: &Context<'_>) -> Vec<(MasterSleeveId, String)> {
    let implant = cx.own.new.implant.as_ref();
    let kit = cx.offered_kit();
    let fitting: Vec<&MasterSleeveId> = implant
        .map(|id| kit.master_sleeves_for(id))
        .unwrap_or_default()
        .into_iter()
        .map(|master| &master.id)
        .collect();
    let mut all: Vec<_> = kit.master_sleeves.iter().collect();
    all.sort_by_key(|master| !fitting.contains(&&master.id));
    let named = all.into_iter().map(|master| {
        let name = if fitting.contains(&&master.id) {
            cx.text("arch-master-fits", &[("name", master.name.as_str())])
        } else {
            master.name.to_string()
        };
        (master.id.clone(), name)
    });
    named.collect()
}

/// The one master sleeve that fits an implant's protocols.
fn only_master(cx: &Context<'_>, implant: &ImplantId) -> Option<MasterSleeveId> {
    match cx.offered_kit().master_sleeves_for(implant)[..] {
        [only] => Some(only.id.clone()),
        _ => None,
    }
}
