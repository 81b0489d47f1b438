//! Source of the sequence, and another one from the kit's protocols or as a proposal.

use crate::look::{Font, caption};
use crate::view::form::FormSubject;
use crate::view::site::Context;
use crate::view::site::here::Here;
use egui::{Button, Ui};
use traywright_core::case::{Site, Step};
use traywright_core::kit::Protocol;
use traywright_core::plan::{Rule, propose, protocols_for, steps_of_protocol};

/// Shows where it comes from.
pub(super) fn said_ui(ui: &mut Ui, cx: &Context<'_>, here: &Here<'_>) {
    let proposal = propose(here.kit, here.implant, here.master, here.site.density);
    if let Some(said) = said(cx, here, proposal.as_deref().ok()) {
        let said = Font::Caption.text(said).weak();
        ui.add(egui::Label::new(said).wrap());
    }
}

/// Shows what it can be taken from.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>, here: &Here<'_>) {
    let site = here.site;
    let proposal = propose(here.kit, here.implant, here.master, site.density);
    ui.horizontal_wrapped(|ui| {
        for protocol in protocols_for(here.kit, here.implant, site.density) {
            let name = protocol.name.as_str();
            let text = cx.text("site-from-protocol", &[("protocol", name)]);
            let steps = steps_of_protocol(here.kit, protocol);
            let same = site.protocol.as_ref() == Some(&protocol.id)
                && follows(&site.steps, &steps)
                && site.insertion.sleeve == protocol.insertion_sleeve;
            if offer(ui, cx, &text, same) {
                here.change(cx, "site-what-protocol", "steps", |site| {
                    take_protocol(site, protocol, steps);
                });
            }
        }
        if let Ok(steps) = &proposal {
            let same = site.protocol.is_none() && follows(&site.steps, steps);
            let text = cx.word("site-propose");
            if offer(ui, cx, &text, same) {
                here.change(cx, "site-what-proposal", "steps", |site| {
                    site.steps.clone_from(steps);
                    site.protocol = None;
                });
            }
        }
    });
    if let Err(why) = &proposal {
        let why = here.formatter.no_proposal(why);
        caption(ui, why);
    }
    crate::field::fault_ui(ui, &cx.state.drafts, &here.key("steps"));
}

fn take_protocol(site: &mut Site, protocol: &Protocol, steps: Vec<Step>) {
    site.steps = steps;
    site.insertion.sleeve.clone_from(&protocol.insertion_sleeve);
    site.protocol = Some(protocol.id.clone());
}

/// A button that takes a sequence, or says that it is the one that is there.
fn offer(ui: &mut Ui, cx: &Context<'_>, text: &str, same: bool) -> bool {
    ui.add_enabled(!same, Button::new(text))
        .on_disabled_hover_text(cx.word("site-same-sequence"))
        .clicked()
}

/// True if two sequences ask for the same, whatever their steps are called.
fn follows(steps: &[Step], others: &[Step]) -> bool {
    steps.len() == others.len()
        && steps.iter().zip(others).all(|(one, other)| {
            let other = Step {
                id: one.id.clone(),
                then: one.then.clone(),
                ..other.clone()
            };
            *one == other
        })
}

/// Source of the sequence; nothing where there is none.
fn said(cx: &Context<'_>, here: &Here<'_>, proposal: Option<&[Step]>) -> Option<String> {
    let site = here.site;
    if site.steps.is_empty() {
        return None;
    }
    let Some(id) = &site.protocol else {
        let proposed = proposal.is_some_and(|steps| follows(&site.steps, steps));
        return Some(if proposed {
            here.formatter.proposed()
        } else {
            cx.word("site-by-hand")
        });
    };
    let protocol = here.document.case().kit.protocol(id)?;
    let differs = here.document.worksheet().findings.iter().any(|finding| {
        finding.site.as_ref() == Some(&site.id) && finding.rule == Rule::DiffersFromProtocol
    });
    let text = if differs {
        "site-protocol-changed"
    } else {
        "site-protocol"
    };
    let name = protocol.name.as_str();
    Some(cx.text(text, &[("protocol", name)]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};

    #[test]
    fn names_and_checks_between_make_no_other_sequence() {
        let site = demo_case(DEMOS[0].1).sites[0].clone();
        let mut other = site.steps.clone();
        other[0].id = "another".into();
        other[0].then = Some("check radiograph".into());
        assert!(follows(&site.steps, &other));
        other[0].stop = None;
        assert!(!follows(&site.steps, &other));
        assert!(!follows(&site.steps, &site.steps[1..]));
    }
}
