//! Change on the table: what the surgeon may want otherwise at a site once the day goes on.
//!
//! Each is an edit of the case, worked out at once as any; what it makes of the day and the tray tells the STOP that follows,
//! where who decided is recorded.

use super::scene::Scene;
use crate::action::Change;
use traywright_core::case::{Edit, Site};
use traywright_core::kit::{DrillKind, Implant};
use traywright_core::plan::{edits_for_implant, next_implants};
use traywright_core::sign::DayEvent;
use traywright_core::surgery::{DayStep, Work, lifted as lifted_by, without_guide};

/// A change that is offered.
pub(super) struct Offered {
    /// In words.
    pub(super) name: String,
    /// What it does.
    pub(super) what: What,
}

/// What a change does.
pub(super) enum What {
    /// It edits the case; what lies on the tray stays where it is.
    Edit(Change),
    /// All steps of the site that are open are left out.
    StopHere,
    /// The guide came off: it is seated, and each site sounded, anew.
    Lifted,
    /// It did not: that was recorded by mistake.
    NotLifted,
    /// From here everything of all sites is without the guide.
    Abandon,
    /// It is not abandoned: that was recorded by mistake.
    NotAbandoned,
}

/// The changes that there are at the site of a step; none for what is done for the whole jaw.
pub(super) fn offered(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<Offered> {
    let case = scene.document.case();
    let site = step.site().and_then(|id| case.site(id.as_str()));
    let lifted = lifted(scene).into_iter().chain(mistakes(scene));
    let lifted = lifted.chain(abandon(scene));
    let Some(site) = site else {
        return lifted.collect();
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

/// What was recorded of the guide by mistake, as long as that stands.
fn mistakes(scene: &Scene<'_>) -> impl Iterator<Item = Offered> {
    let of = |one: Option<&DayEvent>, id: &str, what| {
        let one = one?;
        let at = one.at.strftime("%H:%M").to_string();
        let args = [("who", one.who.as_str()), ("at", at.as_str())];
        let name = match id {
            "lifted" => scene.text("surgery-change-not-lifted", &args),
            _ => scene.text("surgery-change-not-abandoned", &args),
        };
        Some(Offered { name, what })
    };
    let day = &scene.document.record.standing.day;
    let lifted = of(lifted_by(day), "lifted", What::NotLifted);
    let abandoned = of(scene.day.abandoned, "abandoned", What::NotAbandoned);
    lifted.into_iter().chain(abandoned)
}

/// The guide is abandoned, as long as anything is still to be done through it; once the record has that, the plan follows.
fn abandon(scene: &Scene<'_>) -> Option<Offered> {
    if scene.day.abandoned.is_some() {
        let edits = without_guide(scene.document.case(), scene.day, None);
        let name = scene.word("surgery-change-abandoned-plan");
        return (!edits.is_empty()).then(|| offer(name, edits));
    }
    let mut open = scene.day.open_from(0).map(|(_, step)| step);
    let any = open.any(|step| {
        let of_guide = matches!(
            step.work,
            Work::Pin { .. } | Work::Reseat | Work::Seat | Work::Sound(_)
        );
        of_guide || step.is_led()
    });
    (any && !scene.day.is_guide_off()).then(|| Offered {
        name: scene.word("surgery-change-abandon"),
        what: What::Abandon,
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
        offer(name, edits_for_implant(case, site, &implant.id, live))
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
    let edit = Edit::ChangeSite(Box::new(other));
    drops.then(|| offer(name, vec![edit]))
}

/// The site without the guide from the step that is due on, as long as the guide leads anything there.
fn freehand(scene: &Scene<'_>, site: &Site) -> Option<Offered> {
    let edits = without_guide(scene.document.case(), scene.day, Some(&site.id));
    (!edits.is_empty()).then(|| offer(scene.word("surgery-change-freehand"), edits))
}

fn offer(name: String, edits: Vec<Edit>) -> Offered {
    Offered {
        what: What::Edit(Change::of(name.clone(), edits)),
        name,
    }
}
