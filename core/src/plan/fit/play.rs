//! Lean that a drill can have in its sleeve.
//!
//! With a diametral clearance c over a guided length g, the axis tilts by at most atan(c / g) and
//! is off by at most c/2 + z·c/g at a depth z below the sleeve's lower end. The drill sleeve has
//! play of its own in the master sleeve; the two add. (The exact two-point contact of a cylinder in
//! a bore tilts less: atan(c / g) bounds it from above.)

use crate::case::{LimitId, Rule, SitePlace};
use crate::measure::{Angle, Length};
use crate::plan::depth::context::{SiteContext, StepContext, StepPath};
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Figure, Known, Quantity, Sign, Term};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, RoundedTo};
use crate::plan::fit::sleeves::{Engagement, barrel_in_master, drill_in_bore};
use crate::plan::term_name::TermName;

/// The greatest play of a guided step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Play {
    /// Greatest tilt of the drill, its sleeve's own tilt included.
    pub tilt: Figure,
    /// Greatest lateral error at the tip.
    pub at_tip: Figure,
}

/// One loose fit: a clearance over a length, and the distance of the tip below it.
#[derive(Debug, Clone, Copy)]
struct Fit {
    clearance: Length,
    length: Length,
    /// From the tip up to the lower end of the guided length.
    tip_below: Length,
}

/// The play of a guided step; nothing for a freehand one or where the drill does not pass.
pub(in crate::plan) fn play(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    sheet: &StepSheet,
) -> Option<Play> {
    let at = |name| site.at(SitePlace::Step(step.step.id.clone())).field(name);
    let guided = step.drill.guided_diameter_mm;
    let mut terms = vec![
        Term::kit(
            TermName::GuidedDiameter,
            "drills",
            &step.drill.id,
            "guided_diameter_mm",
            guided,
        )
        .with(),
        sheet.set.as_term(TermName::Set, Sign::With),
    ];
    terms.extend(site.measured_bore_term());
    let figure = |id, rule, value: Known<Quantity>| Figure {
        id,
        value,
        basis: crate::plan::figure::weakest(&terms),
        rule,
        terms: terms.clone(),
    };
    let (tilt_id, tip_id) = (at("play_deg"), at("play_at_tip_mm"));
    let set = match sheet.set.known_length() {
        Known::Is(set) => set,
        Known::Unknown(reasons) => {
            (step.path != StepPath::Freehand).then_some(())?;
            return Some(Play {
                tilt: figure(
                    tilt_id,
                    FigureRule::PlayTilt,
                    Known::Unknown(reasons.clone()),
                ),
                at_tip: figure(tip_id, FigureRule::PlayAtTip, Known::Unknown(reasons)),
            });
        }
    };
    let fits = match fits(site, step, set)? {
        Known::Is(fits) => fits,
        Known::Unknown(reasons) => {
            return Some(Play {
                tilt: figure(
                    tilt_id,
                    FigureRule::PlayTilt,
                    Known::Unknown(reasons.clone()),
                ),
                at_tip: figure(tip_id, FigureRule::PlayAtTip, Known::Unknown(reasons)),
            });
        }
    };
    let sum = |part: fn(&Fit) -> f64| fits.iter().map(part).sum::<f64>();
    let tilt = sum(|fit| libm::atan2(fit.clearance.mm(), fit.length.mm()));
    let lateral = sum(|fit| {
        let c = fit.clearance.mm();
        c / 2.0 + fit.tip_below.mm().max(0.0) * c / fit.length.mm()
    });
    Some(Play {
        tilt: figure(
            tilt_id,
            FigureRule::PlayTilt,
            Known::Is(Quantity::Angle(Angle::ceil_radians(tilt))),
        ),
        at_tip: figure(
            tip_id,
            FigureRule::PlayAtTip,
            Known::Is(Quantity::Length(Length::ceil_mm(lateral))),
        ),
    })
}

/// The step whose tip play lets go farthest off, where that is more than the limit allows; unknown where
/// there is none. Play that is not known itself is told with what it lacks.
pub(in crate::plan) fn check(
    site: &SiteContext<'_>,
    plays: &[Option<Play>],
    out: &mut Vec<Finding>,
) {
    let of_steps = site.steps().zip(plays);
    let known = of_steps.filter_map(|(step, play)| {
        let play = play.as_ref()?;
        Some((play.at_tip.length()?, step, play))
    });
    let Some((at_tip, step, play)) = known.max_by_key(|(at_tip, ..)| *at_tip) else {
        return;
    };
    let tilt = play.tilt.value.get().and_then(Quantity::angle);
    let place = site.at(SitePlace::Step(step.step.id.clone()));
    let finding = Finding::new(Rule::PlayAtTip, place)
        .arg("drill", &step.drill.name)
        .arg("tilt", tilt.unwrap_or_default())
        .figure(play.at_tip.clone())
        .rounded_to(RoundedTo::More);
    out.extend(finding.above(&site.case.limits, LimitId::Play, at_tip));
}

/// The loose fits that lead a step; nothing for a freehand one, or where something is too thick or
/// not led at all, for which there is a finding.
fn fits(site: &SiteContext<'_>, step: &StepContext<'_>, set: Length) -> Option<Known<Vec<Fit>>> {
    let master = site.master;
    let engaged = match drill_in_bore(site, step, set)? {
        Known::Is(engaged) => engaged,
        Known::Unknown(reasons) => return Some(Known::Unknown(reasons)),
    };
    let of = |clearance, engaged: Engagement| Fit {
        clearance,
        length: engaged.length,
        tip_below: engaged.above_tip,
    };
    let mut fits = vec![of(
        step.bore(site)? - step.drill.guided_diameter_mm,
        engaged,
    )];
    if let (StepPath::DrillSleeve, Some(sleeve)) = (step.path, step.sleeve) {
        fits.push(of(
            site.master_bore_at_hand() - sleeve.barrel_diameter_mm,
            barrel_in_master(sleeve, master, set),
        ));
    }
    fits.iter()
        .all(|fit| fit.clearance >= Length::ZERO && fit.length > Length::ZERO)
        .then_some(Known::Is(fits))
}
