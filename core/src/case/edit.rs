//! Changes of a case, as data: the unit of undo and of a journal.

use super::{
    ArchSize, Case, Decision, Guide, GuideState, HeldByGuide, KitNotAtHand, Limits, OrderedUse,
    RULES_VERSION, RunWishes, Setup, Site, Team, Tooth, TrayPlace, ValidCase,
};
use crate::dentition::ToothPosition;
use crate::document::Faults;
use crate::kit::{Kit, Label, SiteId};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One change of a case. Each carries the whole new value of the part that it changes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "edit", content = "to", rename_all = "snake_case")]
pub enum Edit {
    /// Adds a site at the end.
    AddSite(Box<Site>),
    /// Gives the site of the same id these values; what was entered remembers the bone ([`super::BoneThen`]). Another depth
    /// below the crest is another plan; over a made guide it is another reading of the crest, which moves no platform.
    ChangeSite(Box<Site>),
    /// Takes a site away.
    RemoveSite(SiteId),
    /// Says what stands at a tooth position.
    SetTooth(Tooth),
    /// Takes back what was said of a tooth position: it is unknown again.
    ForgetTooth(ToothPosition),
    /// Sets the arch's size, or takes it back.
    SetArch(Option<ArchSize>),
    /// Sets the guide. With another date of the scan, what says none was measured on the scan of before. With one that was made and is planned again goes what was measured on it; one that is made remembers what it is made by, also while it is set back to planned, until an edit of one that is planned takes that away: another is made.
    SetGuide(Box<Guide>),
    /// Sets gauge, head, tray and order of use. With another tray the places that were chosen on the
    /// old one go: they name its slots.
    SetSetup(Setup),
    /// Sets the limits.
    SetLimits(Box<Limits>),
    /// Says what is wanted of the run order.
    SetRun(Box<RunWishes>),
    /// Accepts an order, or none: then the plain rule holds.
    AcceptOrder(Vec<OrderedUse>),
    /// Sets the places on the tray that a person chose; with none the program lays everything.
    SetTrayPlaces(Vec<TrayPlace>),
    /// Names the people.
    SetTeam(Team),
    /// Gives the case another reference.
    SetReference(Label),
    /// Says that the case is for practice, or for surgery.
    SetDemonstration(bool),
    /// Names the other jaw's case, or no longer.
    SetOtherJawCase(Option<Label>),
    /// Accepts or intends a finding, in place of an earlier decision on it.
    Judge(Decision),
    /// Takes back the decision on a finding.
    Unjudge(String),
    /// Takes these kit entries in place of the old ones.
    TakeKit(Box<Kit>),
    /// The same, where they are all that a kit at hand has for the case: none of its implants was chosen without.
    TakeWholeKit(Box<Kit>),
    /// Sets the note, or takes it away.
    SetNote(Option<String>),
    /// Takes the rules of this program in place of older ones.
    TakeRules,
}

/// The reason why an edit is not carried out. The case stays as it was.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EditRefused {
    /// The edit names a site that is not there.
    #[error("there is no site {0}")]
    NoSuchSite(SiteId),
    /// The guide is made: distance, axis and sleeve of its sites do not change any more.
    #[error("site {site}: the guide is made and does not change; its {part} stays")]
    GuideIsMade {
        /// The site.
        site: SiteId,
        /// The part that the edit would have changed: `distance`, `axis` or `sleeve`.
        part: &'static str,
    },
    /// Something was drilled at a site of a patient: its hole goes with no edit.
    #[error("something was drilled at site {0}: it stays")]
    WasCut(SiteId),
    /// The case would not be sound afterwards.
    #[error("the case would not be sound:\n{0}")]
    Invalid(Faults),
}

/// Carries out edits on a case, all or none.
///
/// # Errors
///
/// The first edit that names what is not there, what of a made guide they would change, or what
/// would be wrong with the case after them.
pub fn apply(case: &ValidCase, edits: &[Edit]) -> Result<ValidCase, EditRefused> {
    let mut changed: Case = (**case).clone();
    for edit in edits {
        carry_out(&mut changed, edit)?;
    }
    let has_whole_kit = |edit: &Edit| matches!(edit, Edit::TakeWholeKit(_));
    if !edits.iter().any(has_whole_kit) {
        changed.implants_chosen_since(case);
    }
    guide_stays(case, &changed)?;
    ValidCase::checked(&changed).map_err(EditRefused::Invalid)
}

pub(super) fn carry_out(case: &mut Case, edit: &Edit) -> Result<(), EditRefused> {
    match edit.clone() {
        Edit::AddSite(site) => case.sites.push(*site),
        Edit::ChangeSite(mut site) => {
            let old = case
                .sites
                .iter_mut()
                .find(|old| old.id == site.id)
                .ok_or_else(|| EditRefused::NoSuchSite(site.id.clone()))?;
            site.remember_bone(old, case.guide.scan_date);
            site.heights.crest_taken_away = old.heights.crest_taken_away;
            site.heights.guide_leads_to = old.heights.guide_leads_to;
            let word = site.heights.crest_read.take();
            site.heights.crest_read.clone_from(&old.heights.crest_read);
            let before = old.heights.platform_below_crest;
            let now = site.heights.platform_below_crest;
            let id = site.id.clone();
            *old = *site;
            case.depth_entered(&id, before, now);
            if let Some(word) = word {
                case.crest_is_read(&id, word);
            }
        }
        Edit::RemoveSite(id) => {
            let before = case.sites.len();
            case.sites.retain(|site| site.id != id);
            if case.sites.len() == before {
                return Err(EditRefused::NoSuchSite(id));
            }
        }
        Edit::SetTooth(tooth) => {
            case.teeth.retain(|old| old.position != tooth.position);
            let at = case
                .teeth
                .partition_point(|old| old.position < tooth.position);
            case.teeth.insert(at, tooth);
        }
        Edit::ForgetTooth(position) => case.teeth.retain(|old| old.position != position),
        Edit::SetArch(arch) => case.arch = arch,
        Edit::SetGuide(guide) => {
            if let Some(before) = case.guide.scan_date
                && guide.scan_date != Some(before)
            {
                let sites = case.sites.iter_mut();
                sites.for_each(|site| site.was_scanned(before));
            }
            case.set_guide(*guide);
        }
        Edit::SetSetup(setup) => {
            if setup.tray != case.setup.tray {
                case.tray_places.clear();
            }
            case.setup = setup;
        }
        Edit::SetLimits(limits) => case.limits = *limits,
        Edit::SetRun(run) => case.run = *run,
        Edit::AcceptOrder(order) => case.accepted_order = order,
        Edit::SetTrayPlaces(places) => case.tray_places = places,
        Edit::SetTeam(team) => case.team = team,
        Edit::SetReference(reference) => case.reference = reference,
        Edit::SetDemonstration(is) => case.demonstration = is,
        Edit::SetOtherJawCase(other) => case.other_jaw_case = other,
        Edit::Judge(decision) => {
            let of = |old: &Decision| old.finding == decision.finding;
            match case.judgements.iter_mut().find(|old| of(old)) {
                Some(old) => *old = decision,
                None => case.judgements.push(decision),
            }
        }
        Edit::Unjudge(finding) => case.judgements.retain(|old| old.finding != finding),
        Edit::TakeKit(kit) => case.kit = *kit,
        Edit::TakeWholeKit(kit) => {
            case.kit = *kit;
            case.kit_not_at_hand = KitNotAtHand::default();
        }
        Edit::SetNote(note) => case.note = note,
        Edit::TakeRules => case.rules_version = RULES_VERSION,
    }
    Ok(())
}

/// Refuses a case whose guide is made and stays made with another distance, axis or sleeve, by
/// whichever edit: of the site, a site taken out and put in again, or the kit.
pub(super) fn guide_stays(before: &Case, after: &Case) -> Result<(), EditRefused> {
    let made = |case: &Case| case.guide.state == GuideState::Made;
    if !made(before) || !made(after) {
        return Ok(());
    }
    for old in &before.sites {
        let new = after.sites.iter().find(|new| new.id == old.id);
        let part = new.and_then(|new| {
            let held = before.held_by_guide(old);
            part_of_guide(old, new, held).or_else(|| {
                let others = sleeve_measures(before, old) != sleeve_measures(after, new);
                (held.axis && others).then_some("sleeve")
            })
        });
        if let Some(part) = part {
            let site = old.id.clone();
            return Err(EditRefused::GuideIsMade { site, part });
        }
    }
    Ok(())
}

/// The part of the guide that a change of a site would change.
fn part_of_guide(old: &Site, new: &Site, held: HeldByGuide) -> Option<&'static str> {
    if held.distance && old.platform_to_sleeve != new.platform_to_sleeve {
        Some("distance")
    } else if held.axis && old.placement != new.placement {
        Some("axis")
    } else if held.axis && old.master_sleeve != new.master_sleeve {
        Some("sleeve")
    } else {
        None
    }
}

/// Measures built into the guide: height, bore and outer diameter of a site's master sleeve.
fn sleeve_measures(case: &Case, site: &Site) -> Option<[Length; 3]> {
    let sleeve = case.kit.master_sleeve(&site.master_sleeve)?;
    Some([sleeve.height_mm, sleeve.bore_mm, sleeve.outer_diameter_mm])
}

/// The case as it is to be saved: with the revision raised by one where its fingerprint is not the
/// one that was last saved.
#[must_use]
pub fn to_save(case: &ValidCase, last_saved: Option<&ValidCase>) -> ValidCase {
    let mut raised = case.clone();
    if let Some(before) = last_saved {
        let revision = if before.fingerprint() == case.fingerprint() {
            before.revision
        } else {
            before.revision.saturating_add(1)
        };
        raised.set_revision(revision);
    }
    raised
}
