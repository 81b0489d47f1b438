//! Rules for a case beyond the schema: ids given once, references that lead somewhere, one jaw.

use super::{
    Case, DistanceTo, Guide, GuideState, MeasuredAt, Placement, Site, SleeveFace, StructureKind,
};
use crate::dentition::{Jaw, ToothPosition};
use crate::document::{Checks, Fault, Path, Rule};
use crate::kit::{DepthRule, check_kit};
use crate::measure::Length;

/// Checks a case.
#[must_use]
pub fn check_case(case: &Case) -> Vec<Fault> {
    let root = Path::root();
    let mut checks = Checks::default();
    checks.unique(&root.key("sites"), "id", case.sites.iter().map(|s| &s.id));
    checks.unique(
        &root.key("teeth"),
        "position",
        case.teeth.iter().map(|t| t.position),
    );
    let judged = case.judgements.iter().map(|j| &j.finding);
    checks.unique(&root.key("judgements"), "finding", judged);
    checks.unique(
        &root.key("guide").key("pins"),
        "name",
        case.guide.pins.iter().map(|p| &p.name),
    );
    for (n, tooth) in case.teeth.iter().enumerate() {
        let at = root.key("teeth").item(n).key("position");
        in_jaw(case.jaw, tooth.position, at, &mut checks);
    }
    setup_and_guide(case, &root, &mut checks);
    super::tray::check(case, &root, &mut checks);
    run_wishes(case, &root.key("run"), &mut checks);
    for (n, site) in case.sites.iter().enumerate() {
        let at = root.key("sites").item(n);
        in_jaw(case.jaw, site.tooth, at.key("tooth"), &mut checks);
        let before = case.sites[..n]
            .iter()
            .find(|other| other.tooth == site.tooth);
        if let Some(before) = before {
            let fault = Fault::new(at.key("tooth"), Rule::SameTooth)
                .with("position", site.tooth.to_string())
                .with("first", before.id.as_str());
            checks.push(fault);
        }
        check_site(case, site, &at, &mut checks);
    }
    let mut faults = checks.into_faults();
    faults.extend(check_kit(&case.kit, &root.key("kit")));
    faults
}

fn in_jaw(jaw: Jaw, position: ToothPosition, at: Path, checks: &mut Checks) {
    if position.jaw() != jaw {
        checks.push(Fault::new(at, Rule::OtherJaw).with("position", position.to_string()));
    }
}

fn setup_and_guide(case: &Case, root: &Path, checks: &mut Checks) {
    let kit = &case.kit;
    let setup = root.key("setup");
    if let Some(id) = &case.setup.gauge {
        let known = kit.gauges.iter().map(|e| e.id.as_str());
        checks.reference(setup.key("gauge"), "gauge", id.as_str(), known);
    }
    if let Some(id) = &case.setup.head {
        let known = kit.heads.iter().map(|e| e.id.as_str());
        checks.reference(setup.key("head"), "head", id.as_str(), known);
    }
    if let Some(id) = &case.setup.tray {
        let known = kit.trays.iter().map(|e| e.id.as_str());
        checks.reference(setup.key("tray"), "tray", id.as_str(), known);
    }
    let guide = root.key("guide");
    made_by(&case.guide, &guide, checks);
    for (n, pin) in case.guide.pins.iter().enumerate() {
        let at = guide.key("pins").item(n);
        let known = kit.pins.iter().map(|e| e.id.as_str());
        checks.reference(at.key("pin"), "pin", pin.pin.as_str(), known);
        in_jaw(case.jaw, pin.at, at.key("at"), checks);
    }
    for (n, receipt) in case.guide.receipt.iter().enumerate() {
        let at = guide.key("receipt").item(n);
        let known = case.sites.iter().map(|e| e.id.as_str());
        checks.reference(at.key("site"), "site", receipt.site.as_str(), known);
        if let Some(then) = &receipt.taken_on {
            let at = at.key("taken_on").key("placement");
            check_placement(case.jaw, then.placement, &at, checks);
        }
    }
}

/// What a guide was made by, which is of each site once, and that nobody recorded it, which is of a guide that was set back
/// and of which nothing is recorded.
fn made_by(guide: &Guide, at: &Path, checks: &mut Checks) {
    let made = guide.made_by.iter().flat_map(|made| &made.sites);
    let sites = at.key("made_by").key("sites");
    checks.unique(&sites, "site", made.map(|one| &one.site));
    if guide.is_made_unrecorded {
        let others = [
            ("made_by", guide.made_by.is_some()),
            ("state", guide.state == GuideState::Made),
        ];
        for (key, _) in others.into_iter().filter(|(_, is_so)| *is_so) {
            let fault = Fault::new(at.key("is_made_unrecorded"), Rule::AgainstOther);
            checks.push(fault.with("other", at.key(key).to_string()));
        }
    }
}

/// Sites that the run order names. An accepted order is not among them: where it fits no more the
/// worksheet says so, and an edit elsewhere is not refused for it.
fn run_wishes(case: &Case, at: &Path, checks: &mut Checks) {
    let known = || case.sites.iter().map(|site| site.id.as_str());
    for (n, rule) in case.run.before.iter().enumerate() {
        let at = at.key("before").item(n);
        checks.reference(at.key("first"), "site", rule.first.as_str(), known());
        checks.reference(at.key("then"), "site", rule.then.as_str(), known());
        if rule.first == rule.then {
            let fault = Fault::new(at.key("then"), Rule::RefersToItself);
            checks.push(fault.with("id", rule.then.as_str()));
        }
    }
    let held = case.run.hold_guide.iter().flatten();
    for (n, site) in held.enumerate() {
        let at = at.key("hold_guide").item(n);
        checks.reference(at, "site", site.as_str(), known());
    }
}

fn check_site(case: &Case, site: &Site, at: &Path, checks: &mut Checks) {
    let kit = &case.kit;
    let sleeves = || kit.drill_sleeves.iter().map(|e| e.id.as_str());
    let implants = kit.implants.iter().map(|e| e.id.as_str());
    checks.reference(
        at.key("implant"),
        "implant",
        site.implant.as_str(),
        implants,
    );
    let masters = kit.master_sleeves.iter().map(|e| e.id.as_str());
    let master = site.master_sleeve.as_str();
    checks.reference(at.key("master_sleeve"), "master-sleeve", master, masters);
    if let Some(id) = &site.protocol {
        let known = kit.protocols.iter().map(|e| e.id.as_str());
        checks.reference(at.key("protocol"), "protocol", id.as_str(), known);
    }
    let insertion = at.key("insertion");
    if let Some(id) = &site.insertion.carrier {
        let known = kit.carriers.iter().map(|e| e.id.as_str());
        checks.reference(insertion.key("carrier"), "carrier", id.as_str(), known);
    }
    if let Some(id) = &site.insertion.sleeve {
        checks.reference(
            insertion.key("sleeve"),
            "drill-sleeve",
            id.as_str(),
            sleeves(),
        );
    }
    checks.unique(&at.key("steps"), "id", site.steps.iter().map(|s| &s.id));
    for (n, step) in site.steps.iter().enumerate() {
        let at = at.key("steps").item(n);
        let drills = kit.drills.iter().map(|e| e.id.as_str());
        checks.reference(at.key("drill"), "drill", step.drill.as_str(), drills);
        if let Some(id) = &step.sleeve {
            checks.reference(at.key("sleeve"), "drill-sleeve", id.as_str(), sleeves());
        }
        if let Some(id) = &step.stop {
            let stops = kit.stops.iter().map(|e| e.id.as_str());
            checks.reference(at.key("stop"), "stop", id.as_str(), stops);
        }
    }
    if let Some(crest) = &site.heights.platform_below_crest {
        let at = at
            .key("heights")
            .key("platform_below_crest")
            .key("highest_mm");
        checks.at_least(at, &crest.highest_mm, &crest.lowest_mm, "lowest_mm");
    }
    let heights = &site.heights;
    // A rim that was measured while the platform was at another depth is held against that.
    let crest = heights.rim_measured_at.or(heights.recorded_depth());
    if let (Some(rim), Some(crest)) = (heights.platform_below_socket_rim_mm, crest) {
        let at = at.key("heights").key("platform_below_socket_rim_mm");
        checks.at_most(at, &rim, &crest.lowest_mm, "lowest_mm");
    }
    depths(case, site, at, checks);
    check_placement(case.jaw, site.placement, &at.key("placement"), checks);
    if let Some(then) = site.heights.measured_at {
        let at = at.key("heights").key("measured_at");
        check_placement(case.jaw, then, &at, checks);
    }
    let apart = at.key("heights").key("apart");
    let named = heights.apart.iter().map(|one| one.height.key());
    checks.unique(&apart, "height", named);
    for (n, one) in heights.apart.iter().enumerate() {
        let at = apart.item(n).key("measured_at");
        check_placement(case.jaw, one.measured_at, &at, checks);
    }
    measured(case, site, at, checks);
}

/// Depths that no guide and no implant can have: a sleeve reaching below the platform, a pass that
/// is short of full by more than all of it, an implant that is above the bone.
fn depths(case: &Case, site: &Site, at: &Path, checks: &mut Checks) {
    let master = case.kit.master_sleeve(&site.master_sleeve);
    if let (Some(entry), Some(master)) = (&site.platform_to_sleeve, master)
        && entry.to == SleeveFace::Coronal
    {
        checks.at_least(
            at.key("platform_to_sleeve").key("entered_mm"),
            &entry.entered_mm,
            &master.height_mm,
            "master-sleeve-height",
        );
    }
    let Some(implant) = case.kit.implant(&site.implant) else {
        return;
    };
    let full = implant.full_depth();
    for (n, step) in site.steps.iter().enumerate() {
        if let DepthRule::ShortOfFull { by_mm } = step.depth {
            let at = at.key("steps").item(n).key("depth").key("by_mm");
            checks.at_most(at, &by_mm, &full, "full-depth");
        }
    }
    if let Some(crest) = &site.heights.platform_below_crest {
        let at = at.key("heights").key("platform_below_crest");
        checks.at_least(
            at.key("highest_mm"),
            &crest.highest_mm,
            &-implant.platform_to_apex_mm,
            "apex",
        );
    }
}

fn check_placement(jaw: Jaw, placement: Placement, at: &Path, checks: &mut Checks) {
    match placement {
        Placement::OnArch { at: position, .. } => in_jaw(jaw, position, at.key("at"), checks),
        Placement::Measured { direction, .. } => {
            let parts = [direction.x, direction.y, direction.z];
            let at = at.key("direction");
            let apical = match jaw {
                Jaw::Upper => direction.z,
                Jaw::Lower => -direction.z,
            };
            if parts.iter().all(|part| *part == Length::ZERO) {
                checks.push(Fault::new(at, Rule::NoDirection));
            } else if apical <= Length::ZERO {
                checks.push(Fault::new(at, Rule::AxisPointsBack).with("jaw", jaw.to_string()));
            }
        }
    }
}

fn measured(case: &Case, site: &Site, at: &Path, checks: &mut Checks) {
    let mut then = |list: &str, n: usize, key: &str, measured: &MeasuredAt| {
        let at = at.key(list).item(n).key(key).key("placement");
        check_placement(case.jaw, measured.placement, &at, checks);
    };
    for (n, wall) in site.walls.iter().enumerate() {
        then("walls", n, "measured_at", &wall.measured_at);
    }
    for (n, structure) in site.structures.iter().enumerate() {
        then("structures", n, "measured_at", &structure.measured_at);
    }
    for (n, obstacle) in site.obstacles.iter().enumerate() {
        then("obstacles", n, "measured_at", &obstacle.measured_at);
    }
    for (n, distance) in site.distances.iter().enumerate() {
        then("distances", n, "measured_at", &distance.measured_at);
        if let Some(other) = &distance.other_measured_at {
            then("distances", n, "other_measured_at", other);
        }
    }
    let walls = site
        .walls
        .iter()
        .map(|w| format!("{:?} {:?}", w.side, w.at).to_lowercase());
    checks.unique(&at.key("walls"), "at", walls);
    for (n, structure) in site.structures.iter().enumerate() {
        if !StructureKind::of_jaw(case.jaw).contains(&structure.kind) {
            let at = at.key("structures").item(n).key("kind");
            let fault = Fault::new(at, Rule::StructureOfOtherJaw)
                .with("structure", structure.kind.key())
                .with("jaw", case.jaw.to_string());
            checks.push(fault);
        }
    }
    let kinds = site.structures.iter().map(|s| s.kind.key());
    checks.unique(&at.key("structures"), "kind", kinds);
    for (n, distance) in site.distances.iter().enumerate() {
        let at = at.key("distances").item(n).key("to");
        match &distance.to {
            DistanceTo::Tooth { position } => {
                in_jaw(case.jaw, *position, at.key("position"), checks);
                let known = case.teeth.iter().any(|tooth| tooth.position == *position);
                if !known && position.jaw() == case.jaw {
                    let fault = Fault::new(at.key("position"), Rule::DanglingReference)
                        .with("id", position.to_string())
                        .with("noun", "tooth");
                    checks.push(fault);
                }
            }
            DistanceTo::Site { site: other } if *other == site.id => {
                checks.push(
                    Fault::new(at.key("site"), Rule::RefersToItself).with("id", other.as_str()),
                );
            }
            DistanceTo::Site { site: other } => {
                let known = case.sites.iter().map(|s| s.id.as_str());
                checks.reference(at.key("site"), "site", other.as_str(), known);
            }
        }
    }
}
