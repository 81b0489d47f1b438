//! Sequences: from a maker's protocol, or proposed from the kit's drills.

use crate::case::Step;
use crate::kit::{
    Density, DepthRule, Drill, DrillKind, DrillSleeve, Implant, Kit, MasterSleeve, Protocol,
    ProtocolStep, StepId, Stop, StopKind,
};
use crate::measure::Length;
use crate::plan::order::shaping::shapes;

/// A reason why no sequence can be proposed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoProposal {
    /// The bone's density was not entered.
    #[error("bone density unknown: enter it, the final diameter depends on it")]
    DensityUnknown,
    /// The kit does not say how far below the implant the last drill ends in this density.
    #[error("kit gives no final diameter for this density: enter it in the kit's allowances")]
    NoFinalDiameter,
    /// The kit has no pilot drill.
    #[error("kit has no pilot drill: add one or enter the sequence by hand")]
    NoPilot,
    /// No drill comes near enough to the one before.
    #[error(
        "no drill of the kit follows {after} mm within its largest step: add one or enter the sequence by hand"
    )]
    Gap {
        /// The diameter after which nothing follows.
        after: Length,
    },
    /// No drill of the kit is small enough for the implant.
    #[error("no twist drill ends at or below {wanted} mm: add one or enter the sequence by hand")]
    NothingSmallEnough {
        /// The wanted final diameter.
        wanted: Length,
    },
}

/// The protocols of a kit for an implant in a density; all for the implant where it is unknown.
pub fn protocols_for<'a>(
    kit: &'a Kit,
    implant: &'a Implant,
    density: Option<Density>,
) -> impl Iterator<Item = &'a Protocol> {
    kit.protocols.iter().filter(move |protocol| {
        protocol.implants.contains(&implant.id)
            && density.is_none_or(|density| protocol.densities.contains(&density))
    })
}

/// The steps of a protocol, each with the first adjustable stop that fits its drill.
#[must_use]
pub fn steps_of_protocol(kit: &Kit, protocol: &Protocol) -> Vec<Step> {
    let steps = protocol.steps.iter();
    steps
        .enumerate()
        .map(|(n, step)| Step {
            id: step_id(n),
            drill: step.drill.clone(),
            sleeve: step.sleeve.clone(),
            stop: kit
                .drill(&step.drill)
                .and_then(|drill| stop_for(kit, drill))
                .map(|stop| stop.id.clone()),
            depth: step.depth,
            then: None,
        })
        .collect()
}

/// A sequence from the kit's drills: pilot first, no step in diameter above the kit's limit, with
/// the fewest drills, ending where the density asks; then what shapes the bore as the kit's protocol for this implant and
/// density does, and without one in dense bone a profile drill and a tap where the kit has them. It is a proposal to be
/// checked against the maker's instructions.
///
/// # Errors
///
/// Fails if the density is unknown or the kit's drills do not reach.
pub fn propose(
    kit: &Kit,
    implant: &Implant,
    master: &MasterSleeve,
    density: Option<Density>,
) -> Result<Vec<Step>, NoProposal> {
    let density = density.ok_or(NoProposal::DensityUnknown)?;
    let rule = kit
        .allowances
        .final_diameter
        .iter()
        .find(|rule| rule.density == density)
        .ok_or(NoProposal::NoFinalDiameter)?;
    let wanted = implant.diameter_mm - rule.below_implant_mm;
    let of_kind = |kind: DrillKind| {
        let mut drills: Vec<&Drill> = kit.drills.iter().filter(|d| d.kind == kind).collect();
        drills.sort_by_key(|drill| (drill.cutting_diameter_mm, drill.id.clone()));
        drills
    };
    let pilot = *of_kind(DrillKind::Pilot)
        .first()
        .ok_or(NoProposal::NoPilot)?;
    let twists: Vec<&Drill> = of_kind(DrillKind::Twist)
        .into_iter()
        .filter(|drill| drill.cutting_diameter_mm <= wanted)
        .collect();
    let last = twists
        .last()
        .ok_or(NoProposal::NothingSmallEnough { wanted })?
        .cutting_diameter_mm;
    let largest = kit.allowances.largest_step_mm;
    let mut chosen = vec![pilot];
    let mut at = pilot.cutting_diameter_mm;
    while at < last {
        // The widest that may follow leads there with the fewest drills.
        let next = twists
            .iter()
            .filter(|drill| drill.cutting_diameter_mm > at)
            .rfind(|drill| largest.is_none_or(|most| drill.cutting_diameter_mm - at <= most))
            .ok_or(NoProposal::Gap { after: at })?;
        chosen.push(next);
        at = next.cutting_diameter_mm;
    }
    let mut maker = protocols_for(kit, implant, Some(density)).peekable();
    let has_protocol = maker.peek().is_some();
    let given: Vec<(&Drill, &ProtocolStep)> = maker
        .map(|protocol| shaping_of(kit, protocol))
        .min_by_key(Vec::len)
        .unwrap_or_default();
    if density == Density::D1 && !has_protocol {
        let near = |kind, most: Length| {
            let fits = |drill: &&Drill| drill.cutting_diameter_mm <= most;
            of_kind(kind).into_iter().rfind(fits)
        };
        chosen.extend(near(DrillKind::Profile, implant.largest_diameter_mm));
        chosen.extend(near(DrillKind::Tap, implant.diameter_mm));
    }
    let beyond = |drill: &&Drill| drill.datum_from_tip();
    let bore_beyond = chosen.iter().filter(|drill| drill.kind.makes_the_bore());
    let bore_beyond = bore_beyond.map(beyond).max().unwrap_or_default();
    let own = chosen.len();
    let steps = chosen.iter().enumerate().map(|(n, drill)| {
        let mut step = step_with(kit, master, step_id(n), drill);
        // A tap must not cut ahead of the bore with its tip.
        let ahead = beyond(drill) - bore_beyond;
        if drill.kind == DrillKind::Tap && ahead > Length::ZERO {
            step.depth = DepthRule::ShortOfFull { by_mm: ahead };
        }
        step
    });
    let shaping = given.iter().enumerate().map(|(n, (drill, given))| Step {
        depth: given.depth,
        ..step_with(kit, master, step_id(own + n), drill)
    });
    Ok(steps.chain(shaping).collect())
}

/// The steps of a protocol that shape the bore, in its order.
fn shaping_of<'a>(kit: &'a Kit, protocol: &'a Protocol) -> Vec<(&'a Drill, &'a ProtocolStep)> {
    let steps = protocol.steps.iter();
    let steps = steps.filter_map(|step| Some((kit.drill(&step.drill)?, step)));
    steps.filter(|(drill, _)| shapes(drill.kind)).collect()
}

/// A step with a drill: in the first drill sleeve and with the first adjustable stop that fit it,
/// to full depth; a profile drill just to the platform, since how far it goes is for a person to
/// say.
#[must_use]
pub fn step_with(kit: &Kit, master: &MasterSleeve, id: StepId, drill: &Drill) -> Step {
    let depth = match drill.kind {
        DrillKind::Profile => DepthRule::BelowPlatform {
            depth_mm: Length::ZERO,
        },
        _ => DepthRule::Full {},
    };
    Step {
        id,
        drill: drill.id.clone(),
        sleeve: sleeve_for(kit, drill, master).map(|sleeve| sleeve.id.clone()),
        stop: stop_for(kit, drill).map(|stop| stop.id.clone()),
        depth,
        then: None,
    }
}

fn step_id(n: usize) -> StepId {
    format!("s{}", n + 1).as_str().into()
}

/// The first drill sleeve that fits a master sleeve and leads a drill within the kit's allowance.
fn sleeve_for<'a>(kit: &'a Kit, drill: &Drill, master: &MasterSleeve) -> Option<&'a DrillSleeve> {
    kit.drill_sleeves.iter().find(|sleeve| {
        sleeve.fits.contains(&master.id)
            && kit
                .allowances
                .guided_clearance
                .allows(sleeve.bore_mm - drill.guided_diameter_mm)
    })
}

/// The first adjustable stop whose bore fits a drill within the kit's allowance.
fn stop_for<'a>(kit: &'a Kit, drill: &Drill) -> Option<&'a Stop> {
    let seat = drill.stop_seat_diameter_mm?;
    kit.stops.iter().find(|stop| {
        stop.depth == StopKind::Adjustable {}
            && kit.allowances.stop_clearance.allows(stop.bore_mm - seat)
    })
}
