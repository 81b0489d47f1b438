//! What is not recorded, and what is to be seen before all else.

use super::{Answer, CaseRecord, ImplantRecord, is_settled};
use crate::kit::{ImplantId, Kit};
use crate::measure::{Length, Torque};
use crate::sign::{DayEvent, Entry, EntryKind, EventKind, SiteKey, StepKey};
use crate::surgery::{Day, TorqueAgainst, depth_off, torque_against};
use jiff::Timestamp;
use jiff::civil::Date;

/// Something that nobody recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Missing {
    /// One of what is asked for of each implant.
    Field(SiteKey, EntryKind),
    /// The lot of the implant that was placed.
    Lot(SiteKey),
    /// The last day of use of that implant.
    Expiry(SiteKey),
    /// The lot of the graft.
    GraftLot(SiteKey),
    /// The torque of the part that it heals under.
    HealingTorque(SiteKey),
    /// The count before the first cut.
    CountIn,
    /// The count before closing.
    CountOut,
}

/// Something that is to be seen before all else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Told {
    /// No implant was placed: that was decided.
    NotPlaced {
        /// The site.
        site: SiteKey,
        /// The person who recorded it.
        who: String,
        /// The time.
        at: Timestamp,
        /// Why, and who decided.
        reason: String,
    },
    /// The implant that was placed is another than the plan has.
    OtherImplant(SiteKey),
    /// Nobody can say whether the implant that was placed is the planned one.
    UnknownImplant(SiteKey),
    /// What was put in could be used to this day, and was put in on that one.
    Expired {
        /// The site.
        site: SiteKey,
        /// The implant or the graft.
        kind: EntryKind,
        /// The last day of its use.
        expiry: Date,
        /// The day on which it was put in.
        on: Date,
    },
    /// Desks that did not know of each other said otherwise.
    Differs(Option<SiteKey>, EntryKind),
    /// The torque is above the kit's limit for the implant.
    Torque {
        /// The site.
        site: SiteKey,
        /// The torque.
        torque: Torque,
        /// The limit.
        limit: Torque,
    },
    /// The implant stopped far off its plan.
    Depth {
        /// The site.
        site: SiteKey,
        /// How far coronal of it; negative: apical.
        coronal: Length,
    },
    /// The count before closing did not find everything as it should be, or found it so by another list than is due.
    CountOut,
    /// A site was changed on the table.
    Changed {
        /// The site.
        site: SiteKey,
        /// The change.
        step: StepKey,
        /// The person who recorded it.
        who: String,
        /// The time.
        at: Timestamp,
        /// Why, and who decided; none where nothing was said.
        reason: Option<String>,
        /// Number of drillings that were done there before by the plan that it changed: they stand.
        kept: usize,
    },
    /// The guide was abandoned.
    GuideAbandoned {
        /// The person who recorded it.
        who: String,
        /// The time.
        at: Timestamp,
        /// Why, and who decided; none where nothing was said.
        reason: Option<String>,
    },
    /// A site that the plan does not have any more.
    NotPlanned(SiteKey),
}

pub(super) fn missing(record: &CaseRecord<'_>, day: &Day<'_>) -> Vec<Missing> {
    let mut missing: Vec<Missing> = record.implants.iter().flat_map(of_implant).collect();
    let is_asked = |is: fn(&StepKey) -> bool| day.steps.iter().any(|step| is(&step.key));
    if record.count_in.is_none() && is_asked(|step| matches!(step, StepKey::CountIn { .. })) {
        missing.push(Missing::CountIn);
    }
    if record.count_out.is_none() {
        missing.push(Missing::CountOut);
    }
    missing
}

fn of_implant(implant: &ImplantRecord<'_>) -> Vec<Missing> {
    let site = || implant.site.clone();
    let mut missing = Vec::new();
    for field in &implant.fields {
        if field.is_missing() {
            missing.push(Missing::Field(site(), field.kind));
        }
        let entry = field.one().and_then(|said| said.entry.as_ref());
        match entry {
            Some(Entry::Implant(placed)) => {
                missing.extend(placed.lot.is_none().then(|| Missing::Lot(site())));
                missing.extend(placed.expiry.is_none().then(|| Missing::Expiry(site())));
            }
            Some(Entry::Graft {
                material: Some(material),
                ..
            }) => missing.extend(material.lot.is_none().then(|| Missing::GraftLot(site()))),
            Some(Entry::Healing {
                part: Some(part), ..
            }) => {
                let none = part.torque_ncm.is_none();
                missing.extend(none.then(|| Missing::HealingTorque(site())));
            }
            _ => {}
        }
    }
    missing
}

pub(super) fn told(record: &CaseRecord<'_>, day: &Day<'_>, kit: &Kit) -> Vec<Told> {
    let implants = record.implants.iter();
    let mut told: Vec<Told> = implants.flat_map(|one| stands_out(one, kit)).collect();
    told.extend(day.abandoned.map(|one| Told::GuideAbandoned {
        who: one.who.to_string(),
        at: one.at,
        reason: match &one.kind {
            EventKind::StepDone(done) => done.despite.clone(),
            _ => None,
        },
    }));
    told.extend(record.run.iter().filter_map(|one| changed(record, one)));
    let differ = record.discarded.iter().filter(|line| line.differs());
    told.extend(differ.map(|_| Told::Differs(None, EntryKind::Discarded)));
    let out = |step: &StepKey| matches!(step, StepKey::CountOut { .. });
    if record.count_out.is_some() && !is_settled(day, out) {
        told.push(Told::CountOut);
    }
    told
}

/// A change on the table.
fn changed(record: &CaseRecord<'_>, one: &DayEvent) -> Option<Told> {
    let EventKind::StepDone(done) = &one.kind else {
        return None;
    };
    let is_change = matches!(
        done.step,
        StepKey::ImplantChanged { .. } | StepKey::ProfileDropped { .. } | StepKey::GuideLeft { .. }
    );
    let site = done.step.site().filter(|_| is_change && one.stands())?;
    let before = record.run.iter().take_while(|other| other.id != one.id);
    let kept = before.filter(|other| {
        let drilled =
            matches!(other.step(), Some(StepKey::Drill { site: at, .. }) if at.site == site.site);
        drilled && other.stands() && other.kind.is_done()
    });
    Some(Told::Changed {
        site: site.clone(),
        kept: kept.count(),
        step: done.step.clone(),
        who: one.who.to_string(),
        at: one.at,
        reason: done.despite.clone(),
    })
}

/// The implant that a torque is held against: the one that was placed, or where nobody recorded that, the planned one.
fn turned_in(implant: &ImplantRecord<'_>) -> Option<ImplantId> {
    let said = implant
        .field(EntryKind::Implant)
        .and_then(|field| field.one());
    match said.and_then(|said| said.entry.as_ref()) {
        Some(Entry::Implant(placed)) => placed.implant.as_deref().map(ImplantId::from),
        _ => implant.planned().cloned(),
    }
}

/// What was reached off a limit.
fn off_limit(entry: &Entry, implant: &ImplantRecord<'_>, kit: &Kit) -> Option<Told> {
    let site = implant.site.clone();
    match entry {
        Entry::Torque { torque_ncm, .. } => {
            let torque = *torque_ncm;
            match torque_against(kit, &turned_in(implant)?, torque) {
                TorqueAgainst::Above(limit) => Some(Told::Torque {
                    site,
                    torque,
                    limit,
                }),
                TorqueAgainst::Within | TorqueAgainst::NoLimit => None,
            }
        }
        Entry::Depth {
            coronal_of_plan_mm, ..
        } => depth_off(*coronal_of_plan_mm).map(|_| Told::Depth {
            site,
            coronal: *coronal_of_plan_mm,
        }),
        _ => None,
    }
}

fn stands_out(implant: &ImplantRecord<'_>, kit: &Kit) -> Vec<Told> {
    let site = || implant.site.clone();
    let mut told = Vec::new();
    if implant.sheet.is_none() {
        told.push(Told::NotPlanned(site()));
    }
    if let Some(one) = implant.not_placed
        && let EventKind::StepSkipped(skipped) = &one.kind
    {
        told.push(Told::NotPlaced {
            site: site(),
            who: one.who.to_string(),
            at: one.at,
            reason: skipped.reason.clone(),
        });
    }
    for field in &implant.fields {
        for answer in field.answers() {
            let entry = match answer {
                Answer::NotRecorded => None,
                Answer::Differs(_) => {
                    told.push(Told::Differs(Some(site()), field.kind));
                    None
                }
                Answer::Recorded(said) => said.entry.as_ref(),
            };
            told.extend(entry.and_then(|entry| off_limit(entry, implant, kit)));
            let expiry = match entry {
                Some(Entry::Implant(placed)) => {
                    match (&placed.implant, implant.planned()) {
                        (None, _) => told.push(Told::UnknownImplant(site())),
                        (Some(one), Some(planned)) if one == planned.as_str() => {}
                        (Some(_), _) => told.push(Told::OtherImplant(site())),
                    }
                    placed.expiry
                }
                Some(Entry::Graft {
                    material: Some(material),
                    ..
                }) => material.expiry,
                _ => None,
            };
            let on = implant.on.or_else(|| answer_day(field));
            if let (Some(expiry), Some(on)) = (expiry, on)
                && expiry < on
            {
                told.push(Told::Expired {
                    site: site(),
                    kind: field.kind,
                    expiry,
                    on,
                });
            }
        }
    }
    told
}

/// The day on which what stands was recorded.
fn answer_day(field: &super::FieldRecord<'_>) -> Option<Date> {
    let at = field.one()?.at;
    Some(jiff::tz::Offset::UTC.to_datetime(at).date())
}
