//! The view that a finding leads to.

use crate::action::View;
use crate::action::{Action, Command};
use crate::view::findings::Context;
use traywright_core::case::{
    Case, Distance, DistanceTo, Height, Place, ReceiptOf, SiteHeight, SitePlace, StructureExtent,
};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::SiteId;
use traywright_core::plan::{Finding, Reason, Rule};

/// The place of what is to be entered: where a value is unknown that of the first thing that lacks, else its
/// own.
fn about(finding: &Finding) -> &Place {
    let mut reasons = finding.value.reasons().iter();
    let lacks = reasons.find_map(|reason| match reason {
        Reason::Missing(place) | Reason::Stale(place, _) => Some(place),
        _ => None,
    });
    lacks.unwrap_or(&finding.place)
}

/// The tooth of which nothing lacks but its kind.
fn without_kind(finding: &Finding) -> Option<ToothPosition> {
    let mut reasons = finding.value.reasons().iter();
    reasons.find_map(|reason| match reason {
        Reason::KindNotEntered { tooth, .. } => Some(*tooth),
        _ => None,
    })
}

/// True if the date of the scan would settle it.
fn lacks_scan_date(finding: &Finding) -> bool {
    let mut reasons = finding.value.reasons().iter();
    let of_scan = finding.rule == Rule::ScanBeforeGraft;
    of_scan || reasons.any(|reason| matches!(reason, Reason::ScanUndated(_)))
}

/// The view in which what a finding is about was entered.
pub(super) fn view(finding: &Finding) -> View {
    if lacks_scan_date(finding) {
        return View::Case;
    }
    if finding.rule == Rule::RulesOlder {
        return View::Case;
    }
    if finding.rule == Rule::KitNotAtHand {
        return View::Kit;
    }
    if without_kind(finding).is_some() {
        return View::Case;
    }
    match about(finding) {
        Place::SideBySide(..) | Place::TrayPlace(_) => View::Tray,
        // Tray, gauge and receipt are entered there.
        Place::Limit(_)
        | Place::Convergence
        | Place::Gauge
        | Place::Head
        | Place::Tray
        | Place::Pins
        | Place::Pin(_)
        | Place::Receipts
        | Place::Receipt(_)
        | Place::ReceiptOf(..)
        | Place::Loading { .. } => View::Case,
        Place::Sites | Place::Tooth(_) | Place::Arch | Place::Site(_, SitePlace::Placement) => {
            View::Arch
        }
        Place::Kit
        | Place::KitEntry { .. }
        | Place::GaugeFace(_)
        | Place::GaugeConstant(_)
        | Place::GuidedFrom(_) => View::Kit,
        Place::AcceptedOrder => View::Order,
        Place::Site(..) => View::Site,
    }
}

/// The key of the field in which it was entered, or is to be; nothing where that is no field of a form.
pub(super) fn field(case: &Case, finding: &Finding) -> Option<String> {
    if finding.rule == Rule::KitNotAtHand {
        return None;
    }
    if lacks_scan_date(finding) {
        return Some("case.scan".to_owned());
    }
    if let Some(tooth) = without_kind(finding) {
        // Without its status it has no kind.
        let is_entered = case.teeth.iter().any(|one| one.position == tooth);
        let part = if is_entered { "kind" } else { "state" };
        return Some(format!("case.tooth.{tooth}.{part}"));
    }
    let receipt = |site: &SiteId, of: ReceiptOf| {
        let of = match of {
            ReceiptOf::PlatformToSleeve => "case-receipt-distance",
            ReceiptOf::MasterSleeveHeight => "case-receipt-height",
            ReceiptOf::MasterSleeveBore => "case-receipt-bore",
        };
        format!("case.receipt.{site}.{of}")
    };
    let key = match about(finding) {
        Place::Gauge => "case.gauge".to_owned(),
        Place::Head => "case.head".to_owned(),
        Place::Tray | Place::Loading { .. } => "case.tray".to_owned(),
        Place::Pins => "case.support".to_owned(),
        Place::Limit(id) => format!("case.limit.{}.limit", id.key()),
        Place::Convergence => "case.limit.convergence".to_owned(),
        Place::Receipts => receipt(&case.sites.first()?.id, ReceiptOf::PlatformToSleeve),
        Place::Receipt(site) => receipt(site, ReceiptOf::PlatformToSleeve),
        Place::ReceiptOf(site, of) => receipt(site, *of),
        Place::Site(site, part) => format!("site.{site}.{}", of_site(case, site, part)?),
        _ => return None,
    };
    Some(key)
}

/// The field of a part of a site: that of what was entered, else the first with which it is added.
fn of_site(case: &Case, id: &SiteId, part: &SitePlace) -> Option<String> {
    let site = case.site(id.as_str())?;
    let distance = |to: &DistanceTo, at: Option<Height>| {
        let is = |one: &Distance| one.to == *to && at.is_none_or(|at| at == one.at);
        let entered = site.distances.iter().position(is);
        entered.map_or_else(|| "distance-to".to_owned(), |n| format!("distance.{n}"))
    };
    Some(match part {
        SitePlace::Whole => "tooth".to_owned(),
        SitePlace::PlatformToSleeve => "distance".to_owned(),
        SitePlace::Heights | SitePlace::Height(SiteHeight::PlatformBelowCrest) => {
            "crest-highest".to_owned()
        }
        SitePlace::Height(SiteHeight::TissueThickness | SiteHeight::MeasuredAt) => {
            "tissue".to_owned()
        }
        SitePlace::SocketGap => "gap".to_owned(),
        SitePlace::Density => "density".to_owned(),
        SitePlace::Height(SiteHeight::SocketRim) => "socket-rim".to_owned(),
        SitePlace::Height(SiteHeight::CrestBelowOcclusal) => "occlusal".to_owned(),
        SitePlace::WallSide(side) => format!("wall.{side:?}.{:?}", Height::Crest),
        SitePlace::Wall(side, at) => format!("wall.{side:?}.{at:?}"),
        SitePlace::ToTooth(position, at) => {
            let position = *position;
            distance(&DistanceTo::Tooth { position }, *at)
        }
        SitePlace::ToSite(site, at) => distance(&DistanceTo::Site { site: site.clone() }, *at),
        SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind) => {
            let entered = site.structures.iter().position(|one| one.kind == *kind);
            let field = |n: usize| match (part, &site.structures[n].extent) {
                (SitePlace::AnteriorLoop(_), StructureExtent::Beside { .. }) => {
                    format!("structure.{n}.loop")
                }
                (_, StructureExtent::Below { .. }) => format!("structure.{n}.height"),
                (_, StructureExtent::Beside { .. }) => format!("structure.{n}.beside"),
            };
            entered.map_or_else(|| "structures".to_owned(), field)
        }
        SitePlace::Obstacle(n) | SitePlace::ObstacleRim(n) => format!("obstacle.{n}.above"),
        SitePlace::Obstacles | SitePlace::Crown(_) => "obstacle-name".to_owned(),
        SitePlace::Insertion => "insertion-sleeve".to_owned(),
        SitePlace::Carrier => "carrier".to_owned(),
        SitePlace::Placement | SitePlace::Steps | SitePlace::Step(_) => return None,
    })
}

/// Goes there.
pub(super) fn go(cx: &mut Context<'_>, finding: &Finding) {
    let own = match about(finding) {
        Place::Site(site, _) => Some(site),
        _ => finding.site.as_ref(),
    };
    if let Some(site) = own {
        cx.act(Action::Choose(Some(site.clone())));
        let step = finding
            .step
            .clone()
            .filter(|_| finding.site.as_ref() == own);
        cx.act(Action::ChooseStep(step));
    }
    if let Some(key) = field(cx.document.case(), finding) {
        cx.state.drafts.lead_to(key);
    }
    cx.act(Action::Do(Command::Show(view(finding))));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use traywright_core::case::{Support, ValidCase};
    use traywright_core::plan::work_out;

    /// A finding by a part of its key, after a change of the first invented case that brings it
    /// about, and the view in which a person finds what to enter.
    type Row = (&'static str, fn(&mut Case), View);

    const ROWS: &[Row] = &[
        ("wall", |_| (), View::Site),
        ("deep-structure", |_| (), View::Site),
        ("receipt", |_| (), View::Case),
        ("no-tray", |case| case.setup.tray = None, View::Case),
        ("guide-not-held", not_held, View::Case),
        ("no-sites", without_sites, View::Arch),
        (
            "stock-short",
            |case| {
                case.kit
                    .drills
                    .iter_mut()
                    .for_each(|drill| drill.quantity = 0);
            },
            View::Kit,
        ),
    ];

    fn not_held(case: &mut Case) {
        case.guide.support = Support::Mucosa;
        case.guide.pins.clear();
    }

    fn without_sites(case: &mut Case) {
        case.sites.clear();
        case.guide.receipt.clear();
        case.judgements.clear();
        case.accepted_order.clear();
    }

    #[test]
    fn a_finding_leads_to_where_it_is_entered() {
        for (key, change, expected) in ROWS {
            let mut case = (*demo_case(DEMOS[0].1)).clone();
            change(&mut case);
            let sheet = work_out(&ValidCase::checked(&case).unwrap());
            let mut found = sheet.findings.iter().filter(|f| f.key().contains(key));
            let first = found.next().unwrap_or_else(|| panic!("no finding {key}"));
            assert_eq!(view(first), *expected, "{}", first.key());
            assert!(found.all(|finding| view(finding) == *expected), "{key}");
        }
    }

    /// A neighbour of which nothing lacks but its kind leads to that, with the keyboard on it.
    #[test]
    fn a_neighbour_without_its_kind_leads_to_it() {
        let (_, bytes) = DEMOS
            .iter()
            .find(|(name, _)| *name == "one-premolar")
            .unwrap();
        let mut case = (*demo_case(bytes)).clone();
        let mut teeth = case.teeth.iter_mut();
        let beside = teeth.find(|tooth| tooth.position.to_string() == "34");
        beside.unwrap().kind = None;
        let sheet = work_out(&ValidCase::checked(&case).unwrap());
        let mut found = sheet.findings.iter();
        let found = found.find(|one| without_kind(one).is_some()).unwrap();
        assert_eq!(view(found), View::Case);
        assert_eq!(field(&case, found).unwrap(), "case.tooth.34.kind");
    }

    /// Every finding of the invented cases, as they are and with much taken away: its field is one of the view
    /// that it leads to, and of a place in a form there is one.
    #[test]
    fn a_finding_leads_to_a_field_of_its_view() {
        let strip = |case: &mut Case| {
            case.setup.gauge = None;
            case.setup.head = None;
            case.setup.tray = None;
            case.guide.receipt.clear();
            for site in &mut case.sites {
                site.walls.clear();
                site.distances.clear();
                site.structures.clear();
                site.obstacles.clear();
                site.platform_to_sleeve = None;
            }
        };
        let mut with = 0;
        for (_, bytes) in DEMOS {
            for change in [(|_: &mut Case| ()) as fn(&mut Case), strip] {
                let mut case = (*demo_case(bytes)).clone();
                change(&mut case);
                let sheet = work_out(&ValidCase::checked(&case).unwrap());
                for finding in &sheet.findings {
                    let Some(key) = field(&case, finding) else {
                        continue;
                    };
                    with += 1;
                    let of = match view(finding) {
                        View::Case => "case.",
                        View::Site => "site.",
                        other => panic!("{key} in {other:?}"),
                    };
                    assert!(key.starts_with(of), "{key}: {}", finding.key());
                }
            }
        }
        assert!(with > 50, "{with}");
    }
}
