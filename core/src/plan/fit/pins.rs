//! Fixation pins: how deep their drills go, and the pins on the tray.
//!
//! A pin's head rests on the rim of its sleeve in the guide, so its drill is counted from that rim:
//! with its very tip to the pin's tip, and never deeper, wherever its depth is counted to
//! otherwise.

use crate::case::{Case, CasePin, LimitId, Place, Rule};
use crate::kit::{Drill, DrillId, Label, Pin, PinId, Stop, StopId};
use crate::measure::Length;
use crate::plan::depth::fits::Fits;
use crate::plan::depth::setting::{DepthControl, MarkEdge};
use crate::plan::figure::{Figure, Reason, Term, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::fit::stop as stop_fit;
use crate::plan::term_name::TermName;

/// One fixation pin of the case with the depth of its drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PinSheet {
    /// Its name in the case.
    pub name: Label,
    /// The pin.
    pub pin: PinId,
    /// The drill that prepares it.
    pub drill: DrillId,
    /// The stop on that drill.
    pub stop: Option<StopId>,
    /// From the drill's tip to the rim of the pin's sleeve, before any graduation.
    pub exact: Figure,
    /// The same, as it can be set or read.
    pub set: Figure,
    /// The gauge's figure; nothing where the drill's marks are read.
    pub gauge: Option<Figure>,
    /// The mark to read at the rim, where no stop is used.
    pub mark: Option<MarkEdge>,
    /// Its drill and stop may be used so, or not.
    pub fits: Fits,
}

/// A pin of the case with everything that it refers to.
struct PlacedPin<'a> {
    named: &'a CasePin,
    pin: &'a Pin,
    drill: &'a Drill,
    stop: Option<&'a Stop>,
}

fn placed(case: &Case) -> impl Iterator<Item = PlacedPin<'_>> {
    case.guide.pins.iter().filter_map(|named| {
        let pin = case.kit.pin(&named.pin)?;
        Some(PlacedPin {
            named,
            pin,
            drill: case.kit.drill(&pin.drill)?,
            stop: pin.stop.as_ref().and_then(|id| case.kit.stop(id)),
        })
    })
}

/// The pins of a case, in its order.
pub(in crate::plan) fn work_out(case: &Case) -> Vec<PinSheet> {
    let gauge = case.gauge();
    placed(case)
        .enumerate()
        .map(|(n, one)| {
            let at = |name| Place::Pin(n).field(name);
            let terms = vec![Term::kit(
                TermName::PinLength,
                "pins",
                &one.pin.id,
                "length_mm",
                one.pin.length_mm,
            )];
            let exact = sum(at("exact_mm"), FigureRule::ExactPin, terms);
            let chosen = DepthControl::on(one.drill, one.stop, gauge).choose(&exact, &at);
            PinSheet {
                name: one.named.name.clone(),
                pin: one.pin.id.clone(),
                drill: one.drill.id.clone(),
                stop: one.stop.map(|stop| stop.id.clone()),
                exact,
                set: chosen.set,
                gauge: chosen.gauge,
                mark: chosen.mark,
                fits: Fits::AsFarAsKnown,
            }
        })
        .collect()
}

/// Checks that a pin's drill has a depth and reaches it.
pub(in crate::plan) fn check(case: &Case, pins: &[PinSheet], out: &mut Vec<Finding>) {
    for (n, (one, sheet)) in placed(case).zip(pins).enumerate() {
        // Its place in the list may be another's: a decision is of the pin.
        let of_drill = |rule| {
            let mut finding = Finding::new(rule, Place::Pin(n)).arg("drill", &one.drill.name);
            finding.bodies.push(format!("pin {}", one.named.name));
            finding
        };
        let finding = |rule| of_drill(rule).arg("name", &one.named.name);
        out.extend(fit(case, &one, sheet, &of_drill));
        let Some(set) = sheet.set.length() else {
            let nothing_fits = sheet.set.value.reasons().contains(&Reason::NothingFits);
            out.push(if nothing_fits {
                finding(Rule::PinDepthNotGiven)
                    .verdict(Verdict::Unknown)
                    .arg("from", one.pin.length_mm)
            } else {
                finding(Rule::PinDepthUnknown)
                    .verdict(Verdict::Unknown)
                    .figure(sheet.set.clone())
            });
            continue;
        };
        if let Some(exact) = sheet.exact.length() {
            let finding = finding(Rule::PinEndsShort).length(exact - set);
            out.extend(finding.above(&case.limits, LimitId::Shortfall, exact - set));
        }
        let body = one.stop.map_or(Length::ZERO, |stop| stop.body_height_mm);
        let needed = set + body;
        if one.drill.free_length_mm < needed {
            out.push(
                finding(Rule::PinDrillShort)
                    .verdict(Verdict::Short)
                    .length(one.drill.free_length_mm)
                    .limit(needed),
            );
        }
    }
}

/// Checks that the drill runs in the pin's sleeve, and its stop holds on it and lands on that
/// sleeve.
fn fit(
    case: &Case,
    one: &PlacedPin<'_>,
    sheet: &PinSheet,
    finding: &impl Fn(Rule) -> Finding,
) -> Vec<Finding> {
    let allowances = &case.kit.allowances;
    let bore = one.pin.sleeve.bore_mm;
    let mut out = Vec::new();
    out.extend(stop_fit::guided(one.drill, bore, allowances, finding));
    let Some(stop) = one.stop else {
        return out;
    };
    let gauge = case.gauge();
    out.extend(gauge.and_then(|gauge| stop_fit::gauge_face(gauge, finding)));
    out.extend(stop_fit::clamp(
        one.drill,
        stop,
        sheet.set.length(),
        finding,
    ));
    out.extend(stop_fit::stop_bore(one.drill, stop, allowances, finding));
    let overlap = (stop.landing_diameter_mm - bore).half_floor();
    let landing = || {
        finding(Rule::LandingOnPinSleeve)
            .arg("name", &one.named.name)
            .arg("stop", &stop.name)
    };
    out.extend(stop_fit::landing(allowances, overlap, landing));
    out
}

/// The pins that are set, in the order of the case.
pub(in crate::plan) fn pins_of(case: &Case) -> impl Iterator<Item = &Pin> {
    placed(case).map(|one| one.pin)
}
