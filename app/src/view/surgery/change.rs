//! Change on the table: what the surgeon may want otherwise at a site once the day goes on.
//!
//! Each has a number that is its own at every step: what is not possible now stands in its place and says why. None acts by that number
//! alone. An edit of the case is worked out at once as any; what it makes of the day and the tray tells the STOP that follows, where
//! who decided is recorded.

use super::scene::Scene;
use crate::action::Change;
use traywright_core::case::{Edit, Site};
use traywright_core::kit::{DrillKind, Implant};
use traywright_core::plan::{edits_for_implant, next_implants};
use traywright_core::sign::{DayEvent, SiteKey, StepKey};
use traywright_core::surgery::{Day, DayStep, Work, afterwards, guide_word, without_guide};

/// A change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The guide is abandoned by the record: the plan follows.
    PlanAbandoned,
    /// The next shorter implant.
    Shorter,
    /// The next narrower one.
    Narrower,
    /// The site without its profile drills that are to come.
    NoProfile,
    /// The site without the guide from the step that is due on.
    Freehand,
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

impl Kind {
    /// Every change, each at the place of its number.
    const ALL: [Self; 10] = [
        Self::PlanAbandoned,
        Self::Shorter,
        Self::Narrower,
        Self::NoProfile,
        Self::Freehand,
        Self::StopHere,
        Self::Lifted,
        Self::NotLifted,
        Self::Abandon,
        Self::NotAbandoned,
    ];

    /// The change of a number.
    pub(super) fn of(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number)).copied()
    }
}

/// A change with its number.
pub(super) struct Offered {
    pub(super) number: u8,
    pub(super) kind: Kind,
    /// In words.
    pub(super) name: String,
    /// What it does; in words why it is not possible now.
    pub(super) what: Result<What, String>,
}

/// What a change does.
pub(super) enum What {
    /// It edits the case; what lies on the tray stays where it is.
    Edit(Vec<Edit>),
    /// It is recorded, for a reason.
    Record,
}

/// The changes at a step in the order of their keys: 0 is the last.
pub(super) fn offered(scene: &Scene<'_>, step: &DayStep<'_>) -> Vec<Offered> {
    let mut numbers = (1..).zip(&Kind::ALL[1..]).chain([(0, &Kind::ALL[0])]);
    let mut found = Vec::new();
    for (number, kind) in &mut numbers {
        found.push(offer(scene, step, (number, *kind)));
    }
    found
}

/// One of them.
pub(super) fn one(scene: &Scene<'_>, step: &DayStep<'_>, kind: Kind) -> Option<Offered> {
    let number = Kind::ALL.iter().position(|one| *one == kind)?;
    let number = u8::try_from(number).ok()?;
    Some(offer(scene, step, (number, kind)))
}

fn offer(scene: &Scene<'_>, step: &DayStep<'_>, (number, kind): (u8, Kind)) -> Offered {
    let case = scene.document.case();
    let site = step.site().and_then(|id| case.site(id.as_str()));
    let name = name(scene, site, kind);
    let what = match (kind, site) {
        (Kind::Shorter | Kind::Narrower, Some(site)) => implant(scene, site, kind),
        (Kind::NoProfile, Some(site)) => without_profile(scene, site),
        (Kind::Freehand, Some(site)) => freehand(scene, site),
        (Kind::StopHere, Some(_)) => stop_here(scene.day, step),
        (
            Kind::Shorter | Kind::Narrower | Kind::NoProfile | Kind::Freehand | Kind::StopHere,
            None,
        ) => Err("surgery-not-now-no-site"),
        (Kind::Lifted, _) => lifted(scene.day),
        (Kind::NotLifted, _) => recorded(guide_word(&scene.document.record.standing.day)),
        (Kind::Abandon, _) => abandon(scene.day),
        (Kind::NotAbandoned, _) => recorded(scene.day.abandoned),
        (Kind::PlanAbandoned, _) => plan_abandoned(scene),
    };
    Offered {
        number,
        kind,
        name,
        what: what.map_err(|why| why_not(scene, why)),
    }
}

fn why_not(scene: &Scene<'_>, why: &str) -> String {
    match why {
        "surgery-not-now-no-site" => scene.word("surgery-not-now-no-site"),
        "surgery-not-now-is-in" => scene.word("surgery-not-now-is-in"),
        "surgery-not-now-no-implant" => scene.word("surgery-not-now-no-implant"),
        "surgery-not-now-no-profile" => scene.word("surgery-not-now-no-profile"),
        "surgery-not-now-not-led" => scene.word("surgery-not-now-not-led"),
        "surgery-not-now-nothing-open" => scene.word("surgery-not-now-nothing-open"),
        "surgery-not-now-not-seated" => scene.word("surgery-not-now-not-seated"),
        "surgery-not-now-is-off" => scene.word("surgery-not-now-is-off"),
        "surgery-not-now-is-abandoned" => scene.word("surgery-not-now-is-abandoned"),
        "surgery-not-now-not-abandoned" => scene.word("surgery-not-now-not-abandoned"),
        _ => scene.word("surgery-not-now-not-recorded"),
    }
}

/// A change in words.
fn name(scene: &Scene<'_>, site: Option<&Site>, kind: Kind) -> String {
    let by = |one: Option<&DayEvent>| {
        one.map(|one| (one.who.to_string(), one.at.strftime("%H:%M").to_string()))
    };
    let implant = |kind| {
        let next = site.and_then(|site| next(scene, site, kind));
        next.map(|implant| {
            let named = scene.formatter.implant_measured(implant);
            scene.text("surgery-change-implant", &[("implant", &named)])
        })
    };
    match kind {
        Kind::Shorter => {
            let named = implant(kind);
            named.unwrap_or_else(|| scene.word("surgery-change-shorter"))
        }
        Kind::Narrower => {
            let named = implant(kind);
            named.unwrap_or_else(|| scene.word("surgery-change-narrower"))
        }
        Kind::NoProfile => scene.word("surgery-change-profile"),
        Kind::Freehand => scene.word("surgery-change-freehand"),
        Kind::StopHere => scene.word("surgery-change-stop-here"),
        Kind::Lifted => scene.word("surgery-change-lifted"),
        Kind::NotLifted => {
            let word = guide_word(&scene.document.record.standing.day);
            let fell = word.and_then(|one| one.step());
            let fell = matches!(fell, Some(StepKey::SeatAgain { .. }));
            match by(word) {
                None => scene.word("surgery-change-not-lifted"),
                Some((who, at)) => {
                    let args = [("who", who.as_str()), ("at", at.as_str())];
                    let id = if fell {
                        "surgery-change-not-that-guide-by"
                    } else {
                        "surgery-change-not-lifted-by"
                    };
                    scene.text(id, &args)
                }
            }
        }
        Kind::Abandon => scene.word("surgery-change-abandon"),
        Kind::NotAbandoned => match by(scene.day.abandoned) {
            None => scene.word("surgery-change-not-abandoned"),
            Some((who, at)) => {
                let args = [("who", who.as_str()), ("at", at.as_str())];
                scene.text("surgery-change-not-abandoned-by", &args)
            }
        },
        Kind::PlanAbandoned => scene.word("surgery-change-abandoned-plan"),
    }
}

type May = Result<What, &'static str>;

fn edits(edits: Vec<Edit>, none: &'static str) -> May {
    if edits.is_empty() {
        Err(none)
    } else {
        Ok(What::Edit(edits))
    }
}

/// The guide came off before its time, as long as it is in.
fn lifted(day: &Day<'_>) -> May {
    let mut steps = day.steps.iter();
    let seated = steps.any(|step| matches!(step.work, Work::Seat) && step.state.is_done());
    if !seated {
        Err("surgery-not-now-not-seated")
    } else if day.is_guide_off() {
        Err("surgery-not-now-is-off")
    } else {
        Ok(What::Record)
    }
}

/// What was recorded of the guide by mistake, as long as that stands.
fn recorded(one: Option<&DayEvent>) -> May {
    one.map(|_| What::Record)
        .ok_or("surgery-not-now-not-recorded")
}

/// The guide is abandoned, as long as anything is still to be done through it.
fn abandon(day: &Day<'_>) -> May {
    let mut open = day.open_from(0).map(|(_, step)| step);
    let any = open.any(|step| {
        let of_guide = matches!(
            step.work,
            Work::Pin { .. } | Work::Reseat | Work::Seat | Work::Sound(_)
        );
        of_guide || step.is_led()
    });
    if day.abandoned.is_some() {
        Err("surgery-not-now-is-abandoned")
    } else if day.is_guide_off() {
        Err("surgery-not-now-is-off")
    } else if any {
        Ok(What::Record)
    } else {
        Err("surgery-not-now-not-led")
    }
}

/// The plan follows, once the record has it that the guide is abandoned.
fn plan_abandoned(scene: &Scene<'_>) -> May {
    if scene.day.abandoned.is_none() {
        return Err("surgery-not-now-not-abandoned");
    }
    let left = without_guide(scene.document.case(), (scene.day, scene.recorded().1), None);
    edits(left, "surgery-not-now-not-led")
}

/// The next implant of a kind.
pub(super) fn next<'a>(scene: &Scene<'a>, site: &Site, kind: Kind) -> Option<&'a Implant> {
    let (offered, _) = scene.kits;
    let next = next_implants(offered, offered.implant(&site.implant)?);
    match kind {
        Kind::Shorter => next.shorter,
        _ => next.narrower,
    }
}

/// Another implant, as long as this one is not in.
fn implant(scene: &Scene<'_>, site: &Site, kind: Kind) -> May {
    let is_in = scene.day.steps.iter().any(|step| {
        let here = step.site() == Some(&site.id) && step.state.is_over();
        here && matches!(step.work, Work::Insert { .. } | Work::Finish { .. })
    });
    if is_in {
        return Err("surgery-not-now-is-in");
    }
    let Some(implant) = next(scene, site, kind) else {
        return Err("surgery-not-now-no-implant");
    };
    let (_, live) = scene.kits;
    let case = scene.document.case();
    let other = edits_for_implant(case, site, &implant.id, live);
    edits(other, "surgery-not-now-no-implant")
}

/// The site without its profile drills that are still to come.
fn without_profile(scene: &Scene<'_>, site: &Site) -> May {
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
    if other.steps.len() < site.steps.len() {
        Ok(What::Edit(vec![Edit::ChangeSite(Box::new(other))]))
    } else {
        Err("surgery-not-now-no-profile")
    }
}

/// The site without the guide from the step that is due on, as long as the guide leads anything there.
fn freehand(scene: &Scene<'_>, site: &Site) -> May {
    let left = without_guide(
        scene.document.case(),
        (scene.day, scene.recorded().1),
        Some(&site.id),
    );
    edits(left, "surgery-not-now-not-led")
}

fn stop_here(day: &Day<'_>, step: &DayStep<'_>) -> May {
    let mut open = day.open_from(0);
    let any = open.any(|(_, open)| open.site() == step.site() && !open.serves_others());
    any.then_some(What::Record)
        .ok_or("surgery-not-now-nothing-open")
}

/// What a change of the case is called there.
pub(super) fn named(name: &str, edits: Vec<Edit>) -> Change {
    Change::of(name.to_owned(), edits)
}

/// So many steps are named each by itself.
const FEW: usize = 4;

/// What leaving the guide makes possible and impossible, sentences; nothing for another change.
pub(super) fn foretold(scene: &Scene<'_>, kind: Kind, edits: &[Edit]) -> Vec<String> {
    if !matches!(kind, Kind::Freehand | Kind::Abandon | Kind::PlanAbandoned) {
        return Vec::new();
    }
    let after = afterwards(scene.document.case(), scene.day, edits);
    let names = |steps: &[StepKey]| {
        if steps.len() <= FEW {
            let names = steps.iter().map(|step| scene.formatter.day_step(step));
            return names.collect::<Vec<_>>().join("; ");
        }
        // Of many, how many there are at each site: the question stays in sight.
        let mut sites: Vec<(&SiteKey, usize)> = Vec::new();
        for site in steps.iter().filter_map(StepKey::site) {
            match sites.iter_mut().find(|(one, _)| *one == site) {
                Some((_, count)) => *count += 1,
                None => sites.push((site, 1)),
            }
        }
        let sites = sites.into_iter().map(|(site, count)| {
            let tooth = scene.formatter.tooth(site.tooth);
            scene.counted(
                "surgery-after-site",
                &[("count", count)],
                &[("site", &tooth)],
            )
        });
        sites.collect::<Vec<_>>().join("; ")
    };
    let mut said = vec![scene.word("surgery-after-none")];
    for (id, steps) in [
        ("surgery-after-set", &after.set_anew),
        ("surgery-after-mark", &after.by_mark),
        ("surgery-after-by-hand", &after.by_hand),
    ] {
        if steps.is_empty() {
            continue;
        }
        let (count, names) = ([("count", steps.len())], names(steps));
        let args = [("names", names.as_str())];
        said.push(match id {
            "surgery-after-set" => scene.counted("surgery-after-set", &count, &args),
            "surgery-after-mark" => scene.counted("surgery-after-mark", &count, &args),
            _ => scene.counted("surgery-after-by-hand", &count, &args),
        });
    }
    said.push(scene.word("surgery-after-any"));
    if after.implants > 0 {
        let count = [("count", after.implants)];
        said.push(scene.counted("surgery-after-implants", &count, &[]));
    }
    said.push(match kind {
        Kind::Freehand => scene.word("surgery-after-back-site"),
        _ => scene.word("surgery-after-back"),
    });
    said
}
