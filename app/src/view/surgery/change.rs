//! Change on the table: what the surgeon may want otherwise at a site once the day goes on.
//!
//! Each is an edit of the case, worked out at once as any; what it makes of the day and the tray tells the STOP that follows,
//! where who decided is recorded.

use super::scene::Scene;
use crate::action::Change;
use traywright_core::case::{Edit, GuidedExtent, Site};
use traywright_core::kit::{DrillId, DrillKind, Implant};
use traywright_core::plan::{edits_for_implant, next_implants};
use traywright_core::sign::{EventKind, Led, StepKey};
use traywright_core::surgery::{DayStep, Work};

/// A change that is offered.
pub(super) struct Offered {
    /// In words.
    pub(super) name: String,
    /// What it does.
    pub(super) what: What,
}

/// What a change does.
pub(super) enum What {
    /// It edits the case.
    Edit(Change),
    /// All steps of the site that are open are left out.
    StopHere,
    /// The guide came off: it is seated, and each site sounded, anew.
    Lifted,
}

/// The changes that there are at the site of a step; none for what is done for the whole jaw.
pub(super) fn offered(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<Offered> {
    let case = scene.document.case();
    let site = step.site().and_then(|id| case.site(id.as_str()));
    let lifted = lifted(scene);
    let Some(site) = site else {
        return lifted.into_iter().collect();
    };
    let mut found = implants(scene, site);
    found.extend(without_profile(scene, site));
    found.extend(freehand(scene, site));
    let mut open = scene.day.open_from(0);
    if open.any(|(_, open)| open.site() == step.site() && !open.serves_others()) {
        found.push(Offered {
            name: scene.word("surgery-change-stop-here"),
            what: What::StopHere,
        });
    }
    found.extend(lifted);
    found
}

/// The guide came off before its time, as long as it is in.
fn lifted(scene: &Scene<'_>) -> Option<Offered> {
    let mut steps = scene.day.steps.iter();
    let seated = steps.any(|step| matches!(step.work, Work::Seat) && step.state.is_done());
    (seated && !scene.day.is_guide_off()).then(|| Offered {
        name: scene.word("surgery-change-lifted"),
        what: What::Lifted,
    })
}

/// The next shorter and the next narrower implant, as long as this one is not in.
fn implants(scene: &Scene<'_>, site: &Site) -> Vec<Offered> {
    let case = scene.document.case();
    let is_in = scene.day.steps.iter().any(|step| {
        let here = step.site() == Some(&site.id) && step.state.is_over();
        here && matches!(step.work, Work::Insert { .. } | Work::Finish { .. })
    });
    let (offered, live) = scene.kits;
    let implant = offered.implant(&site.implant).filter(|_| !is_in);
    let Some(implant) = implant else {
        return Vec::new();
    };
    let next = next_implants(offered, implant);
    let one = |implant: &Implant| {
        let named = scene.formatter.implant_measured(implant);
        let name = scene.text("surgery-change-implant", &[("implant", &named)]);
        let edits = edits_for_implant(case, site, &implant.id, live);
        Offered {
            what: What::Edit(Change::of(name.clone(), edits)),
            name,
        }
    };
    let next = [next.shorter, next.narrower];
    next.into_iter().flatten().map(one).collect()
}

/// The site without its profile drills that are still to come.
fn without_profile(scene: &Scene<'_>, site: &Site) -> Option<Offered> {
    let kit = &scene.document.case().kit;
    let open = |id: &str| {
        let mut open = scene.day.open_from(0);
        open.any(|(_, step)| match &step.work {
            Work::Drill(drilling) => drilling.site.id == site.id && drilling.step.id.as_str() == id,
            _ => false,
        })
    };
    let mut other = site.clone();
    other.steps.retain(|step| {
        let drill = kit.drill(&step.drill);
        let profile = drill.is_some_and(|drill| drill.kind == DrillKind::Profile);
        !(profile && open(step.id.as_str()))
    });
    let name = scene.word("surgery-change-profile");
    let drops = other.steps.len() < site.steps.len();
    drops.then(|| offer(name, other))
}

/// The site without the guide but for its pilot, as long as no other drill went through the guide there.
fn freehand(scene: &Scene<'_>, site: &Site) -> Option<Offered> {
    let kit = &scene.document.case().kit;
    let is_pilot = |drill: &str| {
        let drill = kit.drill(&DrillId::from(drill));
        drill.is_some_and(|drill| drill.kind == DrillKind::Pilot)
    };
    // Whatever plan it went through the guide by.
    let day = scene.document.record.standing.day.iter();
    let used = day.filter(|one| one.counts() && matches!(one.kind, EventKind::StepDone(_)));
    let led: Vec<&str> = used
        .filter_map(|one| match one.step()? {
            StepKey::Drill {
                site: at,
                with,
                led: Led::Guide,
                ..
            } if at.site == site.id.as_str() => Some(with.drill.as_str()),
            _ => None,
        })
        .collect();
    // The pilot stays guided: it went before.
    let may = site.guided_extent != GuidedExtent::PilotOnly
        && led.iter().any(|drill| is_pilot(drill))
        && led.iter().all(|drill| is_pilot(drill));
    may.then(|| {
        let other = Site {
            guided_extent: GuidedExtent::PilotOnly,
            ..site.clone()
        };
        offer(scene.word("surgery-change-freehand"), other)
    })
}

fn offer(name: String, site: Site) -> Offered {
    let edit = Edit::ChangeSite(Box::new(site));
    Offered {
        what: What::Edit(Change::new(name.clone(), edit)),
        name,
    }
}
