//! Insertion of the implant itself.

use crate::case::{LimitId, Place, Rule, SitePlace};
use crate::kit::{Carrier, CarrierId, DrillSleeve, DrillSleeveId, Label, usual_allowances};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, seat_above_rim};
use crate::plan::depth::steps::seat_through;
use crate::plan::figure::{Figure, Known, Reason, Sign, Term, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Allowed, Finding, Verdict};
use crate::plan::fit::sleeves::check_sleeve;
use crate::plan::fit::stop::of_clearance;
use crate::plan::term_name::TermName;

/// The carrier's depth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InsertionSheet {
    /// The carrier.
    pub carrier: Option<CarrierId>,
    /// The sleeve that it passes; absent: the master sleeve.
    pub sleeve: Option<DrillSleeveId>,
    /// From the platform up to the face that the carrier's line must meet.
    pub seat: Figure,
    /// The carrier's line to use: the longest not above the seat.
    pub line: Option<Label>,
    /// Seat less that line: how far short of its planned depth the implant stays.
    pub shallow: Figure,
}

fn sleeve_of<'a>(site: &SiteContext<'a>) -> Option<&'a DrillSleeve> {
    let id = site.site.insertion.sleeve.as_ref()?;
    site.kit.drill_sleeve(id)
}

fn carrier_of<'a>(site: &SiteContext<'a>) -> Option<&'a Carrier> {
    let id = site.site.insertion.carrier.as_ref()?;
    site.kit.carrier(id)
}

/// The carrier's depth at a site; nothing where the implant goes in freehand.
pub(in crate::plan) fn insertion(site: &SiteContext<'_>) -> Option<InsertionSheet> {
    if !site.site.leads_implant() {
        return None;
    }
    let sleeve = sleeve_of(site);
    let above_rim = sleeve.map(seat_above_rim);
    let seat = seat_through(site, above_rim, site.field("insertion.seat_mm"));
    let carrier = carrier_of(site);
    let line = carrier.zip(seat.length()).and_then(|(carrier, seat)| {
        carrier
            .lines
            .iter()
            .filter(|line| line.above_platform_mm <= seat)
            .max_by_key(|line| line.above_platform_mm)
    });
    let id = site.field("insertion.shallow_mm");
    let mut terms = vec![seat.as_term(TermName::Seat, Sign::Plus)];
    let shallow = match (carrier, line) {
        (None, _) => {
            let missing = Known::missing(site.at(SitePlace::Carrier));
            Figure::of_length(id, FigureRule::Carrier, missing, terms)
        }
        (Some(carrier), Some(line)) => {
            terms.push(
                Term::kit(
                    TermName::CarrierLine,
                    "carriers",
                    &carrier.id,
                    "lines",
                    line.above_platform_mm,
                )
                .minus(),
            );
            terms.extend(site.receipt_excess_term());
            sum(id, FigureRule::Carrier, terms)
        }
        (Some(_), None) => {
            let value = match seat.known_length() {
                Known::Is(_) => Known::Unknown(vec![Reason::NothingFits]),
                Known::Unknown(reasons) => Known::Unknown(reasons),
            };
            Figure::of_length(id, FigureRule::Carrier, value, terms)
        }
    };
    Some(InsertionSheet {
        carrier: carrier.map(|carrier| carrier.id.clone()),
        sleeve: sleeve.map(|sleeve| sleeve.id.clone()),
        line: line.map(|line| line.name.clone()),
        seat,
        shallow,
    })
}

/// Findings on a misfit in the insertion.
pub(in crate::plan) fn check(
    site: &SiteContext<'_>,
    sheet: &InsertionSheet,
    out: &mut Vec<Finding>,
) {
    let path = site.at(SitePlace::Insertion);
    let finding = |rule| Finding::new(rule, path.clone());
    let sleeve = sleeve_of(site);
    let in_bore = |rule| match sleeve {
        Some(_) => finding(rule),
        None => site.by_master_bore(finding(rule)),
    };
    let bore = sleeve.map_or(site.master_bore_at_hand(), |sleeve| sleeve.bore_mm);
    let widest = site
        .implant
        .largest_diameter_mm
        .max(site.implant.diameter_mm);
    let does_not = || in_bore(Rule::ImplantDoesNotPass);
    out.extend(passes(site, bore, widest, does_not));
    if let Some(sleeve) = sleeve {
        check_sleeve(site, sleeve, finding, out);
    }
    let Some(carrier) = carrier_of(site) else {
        out.push(finding(Rule::CarrierMissing).verdict(Verdict::Unknown));
        return;
    };
    if !carrier.families.contains(&site.implant.family) {
        out.push(
            finding(Rule::CarrierNotForImplant)
                .verdict(Verdict::Short)
                .arg("carrier", &carrier.name)
                .arg("implant", &site.implant.name),
        );
    }
    let clearance = bore - carrier.guided_diameter_mm;
    let allowed = site.kit.allowances.guided_clearance;
    let runs = || {
        let runs = in_bore(Rule::CarrierClearance).arg("carrier", &carrier.name);
        of_clearance(allowed, clearance, runs)
    };
    out.extend(Allowed::guided(allowed, clearance).told(runs, Verdict::Short));
    match &sheet.shallow.value {
        Known::Unknown(reasons) if reasons.contains(&Reason::NothingFits) => out.push(
            finding(Rule::CarrierTooLong)
                .verdict(Verdict::Short)
                .arg("carrier", &carrier.name),
        ),
        Known::Unknown(_) => out.push(
            finding(Rule::CarrierDepth)
                .verdict(Verdict::Unknown)
                .figure(sheet.shallow.clone()),
        ),
        Known::Is(_) => {
            let shallow = sheet.shallow.length().filter(|s| s.um() > 0);
            out.extend(shallow.map(|shallow| {
                let finding = finding(Rule::CarrierLineShort)
                    .figure(sheet.shallow.clone())
                    .arg("carrier", &carrier.name)
                    .arg("line", sheet.line.as_ref().map_or("", Label::as_str));
                held_to_limit(finding, site, shallow)
            }));
        }
    }
}

/// That the implant does not pass the bore, or only with less play than what is to run in a bore has: it may jam
/// there, and its torque is then not that in the bone.
fn passes(
    site: &SiteContext<'_>,
    bore: Length,
    widest: Length,
    finding: impl FnOnce() -> Finding,
) -> Option<Finding> {
    let play = bore - widest;
    let least = site.kit.allowances.guided_clearance.least_mm;
    let usual = usual_allowances().guided_clearance.least_mm;
    // A body as wide as the bore does not pass it, whatever the kit allows.
    let does = play > Length::ZERO;
    let allowed = Allowed {
        by_kit: does && play >= least,
        ..Allowed::least("guided_clearance", least, usual, play)
    };
    let finding = || {
        finding()
            .length(bore)
            .limit(widest)
            .arg("implant", &site.implant.name)
            .arg("passes", if does { "tight" } else { "no" })
            .arg("play", play)
            .arg("least", least)
    };
    allowed.told(finding, Verdict::Short)
}

/// Height by which the implant stays above its planned depth: short above the limit, worth knowing
/// below it, unknown where the case has none.
fn held_to_limit(finding: Finding, site: &SiteContext<'_>, shallow: Length) -> Finding {
    let Some(limit) = site.case.limits.get(LimitId::CarrierDepth) else {
        let mut finding = finding.verdict(Verdict::Unknown);
        finding.value = Known::missing(Place::Limit(LimitId::CarrierDepth));
        return finding;
    };
    let verdict = if shallow > limit.limit_mm {
        Verdict::Short
    } else {
        Verdict::Note
    };
    finding
        .verdict(verdict)
        .held_to(&site.case.limits, LimitId::CarrierDepth)
}
