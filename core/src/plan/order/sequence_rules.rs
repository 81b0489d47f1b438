//! Departures of a chosen sequence from its protocol, the kit's limits, and what holds for any.
//!
//! The verdict on a departure goes by what it can do to a person:
//!
//! | departure | verdict |
//! | --- | --- |
//! | wider than the implant where it cuts, deeper than the implant | short, also where a protocol says so |
//! | a step in diameter or in depth that only a drill leaves which its stop, its mark, an uneven crest or a guide that seats higher holds short, also on top of one that is planned | short |
//! | a pass kept short after one as wide that goes deeper, a step in diameter above the kit's limit, no pilot first, deeper than any step before, a tap or profile drill below the bore, below where its widest drill ends or before it is as wide as it will be, the widest drill not to full depth, a protocol for another implant or density | short; a note where the maker's protocol for this implant and density is followed to the letter |
//! | the last drill thinner than the kit's protocols for this implant end in dense bone, or than any of them where the bone is softer, or wider than they do in the softest bone | short; nothing where the maker's protocol is followed to the letter; of a density that was not entered unknown, unless it is so in any bone |
//! | a tap in the softest bone, where the kit's protocols for it take none, or there are none | short; of a density that was not entered unknown |
//! | a profile drill deeper than the kit's protocols for this implant take it | short |
//! | a profile drill wider than the implant's body, where neither outline nor protocol says how deep its collar reaches | unknown |
//! | a profile drill or tap of the protocol, or of all that the kit has for this implant and bone, left out or kept shallower, unless the bone is soft | unknown |
//! | a protocol for some bone alone, where no density is entered | unknown |
//! | an implant that was chosen where no kit was at hand: the copy may lack its protocols | unknown |
//! | the kit gives no limit for a step in diameter, and no protocol is followed | unknown |
//! | other steps than the protocol's, no protocol, a narrower drill after a wider one, unknown density | note: each danger that may lie in it has a rule above |
//!
//! Speeds are not entered, so none can be above a drill's greatest: paper and screen give the kit's.

use crate::case::{Rule, SitePlace};
use crate::kit::{
    Datum, Density, DepthRule, Drill, DrillKind, ImplantId, Kit, Protocol, usual_allowances,
};
use crate::measure::Length;
use crate::plan::depth::as_written::{as_written, departure, follows};
use crate::plan::depth::context::StepContext;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::shortfall::lost;
use crate::plan::figure::{Known, Quantity};
use crate::plan::finding::{Allowed, Finding, Loosened, Verdict};
use crate::plan::order::differences::Differences;
use crate::plan::order::shaping::{lacking, shapes};
use std::cell::OnceCell;

/// Difference in diameter between an implant and the last drill in dense bone beyond which it is
/// remarked, where no protocol of the kit is for it. Common practice, no source.
const MOST_BELOW_IMPLANT: Length = Length::from_mm(1);

/// The same where the bone is softer: there one or two drills of a sequence are left out. Common practice, no source.
const MOST_BELOW_IN_ANY_BONE: Length = Length::from_um(1_500);

/// The least such difference in the softest bone, where no protocol or figure of the kit is for it: without it the
/// implant's thread finds no hold. Common practice, no source.
const LEAST_BELOW_IN_SOFTEST_BONE: Length = Length::from_um(300);

/// Depth that a setting may take of one drill and not of another at most, by rounding or by one figure for all, however long
/// the point of the deeper one ([`Rules::by_setting`]). Common practice, no source.
const BY_SETTING: Length = Length::from_um(1_500);

/// Depth that rounding to a graduation may take of one drill and not of another. Common practice, no source.
const BY_ROUNDING: Length = Length::from_um(500);

const DENSITIES: [Density; 4] = [Density::D1, Density::D2, Density::D3, Density::D4];

/// Departures of a site's sequence from its protocol and from what is safe. Nothing is forbidden.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    let path = site.at(SitePlace::Steps);
    let finding = |rule| Finding::new(rule, path.clone());
    let steps: Vec<_> = site.steps().collect();
    if site.case.kit_not_at_hand.chosen.contains(&site.implant.id) {
        let told = Finding::new(Rule::KitNotAtHand, site.at(SitePlace::Whole));
        let told = told.verdict(Verdict::Unknown);
        out.push(told.arg("implant", &site.implant.name));
    }
    if steps.is_empty() {
        out.push(finding(Rule::NoSequence).verdict(Verdict::Unknown));
        return;
    }
    let rules = Rules {
        cut,
        lost: OnceCell::new(),
        departure: departure(site),
        steps,
        finding: &finding,
    };
    rules.protocol(out);
    out.extend(rules.shaping());
    if site.site.density.is_none() {
        out.push(finding(Rule::DensityUnknown).verdict(Verdict::Note));
    }
    rules.whole(out);
    out.extend(rules.last_drill());
    for n in 0..rules.steps.len() {
        out.extend(rules.too_wide(n));
        out.extend(rules.collar(n));
        out.extend(rules.too_deep(n));
        out.extend(rules.deeper_than_before(n));
        out.extend(rules.growth(n));
        out.extend(rules.shapes_too_early(n));
        out.extend(rules.cuts_nothing(n));
        out.extend(rules.tap_in_soft_bone(n));
    }
}

/// The steps of a site that go deeper than its implant, alone.
pub(in crate::plan) fn depths(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let finding = |rule| Finding::new(rule, cut.site.at(SitePlace::Steps));
    let rules = Rules {
        cut,
        lost: OnceCell::new(),
        departure: Verdict::Short,
        steps: cut.site.steps().collect(),
        finding: &finding,
    };
    out.extend((0..rules.steps.len()).filter_map(|n| rules.too_deep(n)));
}

/// What is wrong with the last drill in some bone.
#[derive(Clone, Copy)]
struct LastDrill {
    rule: Rule,
    limit: Length,
    by: &'static str,
    /// The usual difference, where the kit's greater one lets it pass.
    loosened: Option<Loosened>,
}

/// How a drill goes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum AsGoes {
    /// To its depth.
    Planned,
    /// As its stop, its mark, the crest and the guide let it.
    Set,
}

const fn usual_below(density: Density) -> Length {
    if density.is_dense() {
        MOST_BELOW_IMPLANT
    } else {
        MOST_BELOW_IN_ANY_BONE
    }
}

struct Rules<'a, F> {
    cut: &'a SiteCuts<'a>,
    steps: Vec<StepContext<'a>>,
    /// What of each step's depth is not drilled, once it was asked for: [`Self::lost`].
    lost: OnceCell<Vec<Length>>,
    /// Verdict on a departure that the maker may have meant.
    departure: Verdict,
    finding: &'a F,
}

impl<F: Fn(Rule) -> Finding> Rules<'_, F> {
    /// A finding about step `n`.
    fn at_step(&self, n: usize, rule: Rule) -> Finding {
        let step = &self.steps[n];
        let place = self.cut.site.at(SitePlace::Step(step.step.id.clone()));
        Finding::new(rule, place).arg("drill", &step.drill.name)
    }

    fn protocol(&self, out: &mut Vec<Finding>) {
        let site = &self.cut.site;
        let id = site.site.protocol.as_ref();
        let Some(protocol) = id.and_then(|id| site.kit.protocol(id)) else {
            out.push((self.finding)(Rule::SequenceWithoutProtocol).verdict(Verdict::Note));
            return;
        };
        let about = |rule, verdict| {
            (self.finding)(rule)
                .verdict(verdict)
                .arg("protocol", &protocol.name)
        };
        if !follows(site.steps(), protocol) {
            let differs = Differences::of(site.kit, &self.steps, protocol);
            let named = |drills: Option<String>| drills.unwrap_or_else(|| "none".to_owned());
            out.push(
                about(Rule::DiffersFromProtocol, Verdict::Note)
                    .arg("missing", named(differs.missing))
                    .arg("added", named(differs.added))
                    .arg("depths", named(differs.depths))
                    .arg("order", differs.order),
            );
        }
        if !protocol.implants.contains(&site.implant.id) {
            out.push(
                about(Rule::ProtocolForAnotherImplant, Verdict::Short)
                    .arg("implant", &site.implant.name),
            );
        }
        let is_for = |density: &Density| protocol.densities.contains(density);
        let about = |verdict| about(Rule::ProtocolForAnotherDensity, verdict);
        match site.site.density {
            Some(density) if is_for(&density) => {}
            Some(_) => out.push(about(Verdict::Short).arg("entered", "yes")),
            // In some bone alone: that may be another one than this.
            None if DENSITIES.iter().all(is_for) => {}
            None => {
                let mut finding = about(Verdict::Unknown).arg("entered", "no");
                finding.value = Known::missing(site.at(SitePlace::Density));
                out.push(finding);
            }
        }
    }

    /// Profile drills and taps that dense bone needs by the protocol, and without one by all that the kit has for this
    /// implant in such bone: left out, or kept shallower than they take them. Of a density that was not entered, what
    /// any dense bone may need.
    fn shaping(&self) -> Option<Finding> {
        let site = &self.cut.site;
        let mut dense = DENSITIES.into_iter().filter(|density| {
            density.is_dense() && site.site.density.is_none_or(|own| own == *density)
        });
        dense.find_map(|density| self.shaping_in(density))
    }

    /// The same in bone of this density.
    fn shaping_in(&self, density: Density) -> Option<Finding> {
        let site = &self.cut.site;
        let linked = site.site.protocol.as_ref();
        let of_kit = |protocol: &&Protocol| {
            protocol.implants.contains(&site.implant.id) && protocol.densities.contains(&density)
        };
        let held_against: Vec<&Protocol> = match linked.and_then(|id| site.kit.protocol(id)) {
            Some(linked) => vec![linked],
            None => site.kit.protocols.iter().filter(of_kit).collect(),
        };
        // Each of them has to lack something: what one maker's protocol does without is not needed.
        let each: Option<Vec<_>> = held_against
            .iter()
            .map(|protocol| Some((protocol, lacking(site, &self.steps, protocol)?)))
            .collect();
        let (protocol, lacks) = each?.into_iter().next()?;
        let finding = (self.finding)(Rule::ProtocolStepLeftOut).verdict(Verdict::Unknown);
        let named = |drills: Option<String>| drills.unwrap_or_else(|| "none".to_owned());
        let finding = finding.arg("protocol", &protocol.name);
        let finding = finding.arg("drills", named(lacks.left_out));
        Some(finding.arg("shallower", named(lacks.shallower)))
    }

    /// Findings on what the sequence as a whole lacks.
    fn whole(&self, out: &mut Vec<Finding>) {
        let first = self.steps[0].drill;
        if first.kind != DrillKind::Pilot {
            out.push(
                (self.finding)(Rule::NoPilotFirst)
                    .verdict(self.departure)
                    .arg("drill", &first.name),
            );
        }
        if !self
            .cut
            .steps
            .iter()
            .any(crate::plan::depth::steps::StepSheet::is_full_depth)
        {
            out.push((self.finding)(Rule::NoFullDepth).verdict(self.departure));
        } else if let Some(drill) = self.widest_kept_short() {
            out.push(
                (self.finding)(Rule::WidestNotToFullDepth)
                    .verdict(self.departure)
                    .arg("drill", &drill.name),
            );
        }
        let no_limit = self.cut.site.kit.allowances.largest_step_mm.is_none();
        let widens = (1..self.steps.len()).any(|n| {
            let wide = self.steps[n].drill.cutting_diameter_mm;
            let before = self.followed(n);
            before.is_some_and(|before| wide > before.cutting_diameter_mm)
        });
        if no_limit && widens && self.departure == Verdict::Short {
            out.push((self.finding)(Rule::StepLimitUnknown).verdict(Verdict::Unknown));
        }
    }

    /// The widest drill of the bore, where no step takes it, or one as wide, to full depth.
    fn widest_kept_short(&self) -> Option<&Drill> {
        let bores = self.steps.iter().zip(self.cut.steps);
        let bores = bores.filter(|(step, _)| step.drill.kind.makes_the_bore());
        let rank = |(step, sheet): &(&StepContext<'_>, &crate::plan::depth::steps::StepSheet)| {
            (step.drill.cutting_diameter_mm, sheet.is_full_depth())
        };
        let (step, sheet) = bores.max_by_key(rank)?;
        (!sheet.is_full_depth()).then_some(step.drill)
    }

    /// The last drill of the bore against what the bone needs: one too thin leaves the implant short
    /// of its depth or presses on the bone, in soft bone one too wide leaves it no hold. Of a density that was not
    /// entered, what is so in some bone alone is unknown.
    fn last_drill(&self) -> Vec<Finding> {
        let steps = self.steps.iter().map(|step| (step.drill, step.step.depth));
        let Some(n) = last_of_bore(steps) else {
            return Vec::new();
        };
        let last = self.steps[n].drill.cutting_diameter_mm;
        let told = |broken: LastDrill| {
            self.at_step(n, broken.rule)
                .verdict(Verdict::Short)
                .length(last)
                .limit(broken.limit)
                .arg("wide", last)
                .arg("entered", "yes")
                .arg("by", broken.by)
        };
        let allowed = |broken: LastDrill| match broken.loosened {
            None => told(broken),
            Some(loosened) => Finding {
                loosened: Some(loosened),
                ..told(broken).verdict(Verdict::Note)
            },
        };
        let site = self.cut.site.site;
        if let Some(density) = site.density {
            return self
                .last_drill_in(density, last)
                .map(allowed)
                .into_iter()
                .collect();
        }
        let in_each = DENSITIES.map(|density| self.last_drill_in(density, last));
        let mut out = Vec::new();
        for rule in [Rule::LastDrillThin, Rule::LastDrillWide] {
            let of_rule = in_each.iter().flatten().filter(|one| one.rule == rule);
            let broken: Vec<LastDrill> = of_rule.copied().collect();
            let hard = broken.iter().filter(|one| one.loosened.is_none());
            let strictest = hard.clone().max_by_key(|one| match rule {
                Rule::LastDrillThin => one.limit,
                _ => -one.limit,
            });
            match strictest {
                // In any bone, by what holds in the softest too.
                _ if hard.count() == DENSITIES.len() => {
                    out.extend(broken.last().copied().map(allowed));
                }
                Some(strictest) => {
                    let mut finding = told(*strictest)
                        .verdict(Verdict::Unknown)
                        .arg("entered", "no");
                    finding.value = Known::missing(self.cut.site.at(SitePlace::Density));
                    out.push(finding);
                }
                None => {
                    let open = broken.last().copied().map(allowed);
                    out.extend(open.map(|one| one.arg("entered", "open")));
                }
            }
        }
        out
    }

    /// What of the last drill would be told in bone of this density; nothing where the maker's protocol for it is
    /// followed to the letter.
    fn last_drill_in(&self, density: Density, last: Length) -> Option<LastDrill> {
        if as_written(&self.cut.site, Some(density)) {
            return None;
        }
        let (least, by) = self.thinnest(density);
        let thin = |limit, by, loosened| LastDrill {
            rule: Rule::LastDrillThin,
            limit,
            by,
            loosened,
        };
        if last < least {
            return Some(thin(least, by, None));
        }
        let usual = self.cut.site.implant.diameter_mm - usual_below(density);
        if by.starts_with("usual") && last < usual {
            let own = Quantity::Length(usual_below(density));
            let limit = "final_diameter";
            return Some(thin(least, by, Some(Loosened { limit, own })));
        }
        self.too_wide_for_soft(density, last)
    }

    /// The thinnest last drill in bone of this density, and by what. In dense bone by the kit's protocols for it;
    /// where the bone is softer by all for this implant; without any, by what is usual.
    fn thinnest(&self, density: Density) -> (Length, &'static str) {
        let is_for = |protocol: &Protocol| protocol.is_held_against(density);
        let implant = self.cut.site.implant;
        let of_kit = &self.cut.site.kit.allowances.final_diameter;
        let of_kit = of_kit
            .iter()
            .filter(|rule| !density.is_dense() || rule.density == density);
        let (by_protocol, by_usage, by_kit) = if density.is_dense() {
            ("protocol", "usual", "kit")
        } else {
            ("any_protocol", "usual_anywhere", "kit_soft")
        };
        if let Some(least) = final_diameters(self.cut.site.kit, &implant.id, is_for).min() {
            return (least, by_protocol);
        }
        let Some(below) = self.kit_below(density) else {
            let below = of_kit.map(|rule| rule.below_implant_mm);
            let below = below.fold(usual_below(density), Length::max);
            return (implant.diameter_mm - below, by_usage);
        };
        let usual = implant.diameter_mm - below.max(usual_below(density));
        // The drill that the kit's difference leads to.
        let last = self.cut.site.kit.last_drill(implant.diameter_mm - below);
        let last = last.map(|drill| drill.cutting_diameter_mm);
        match last.filter(|last| *last > usual) {
            Some(last) => (last, by_kit),
            None => (usual, by_usage),
        }
    }

    /// The kit's own difference between implant and last drill in bone of this density.
    fn kit_below(&self, density: Density) -> Option<Length> {
        let rules = &self.cut.site.kit.allowances.final_diameter;
        let own = rules.iter().find(|rule| rule.density == density);
        own.map(|rule| rule.below_implant_mm)
    }

    /// That a last drill is too wide for the softest bone: by the kit's protocols for it, its own difference, or what is
    /// usual. A wider one is told as such, by whatever it goes.
    fn too_wide_for_soft(&self, density: Density, last: Length) -> Option<LastDrill> {
        if density != Density::D4 {
            return None;
        }
        let implant = self.cut.site.implant;
        let is_for = |protocol: &Protocol| protocol.densities.contains(&Density::D4);
        let by_protocol = final_diameters(self.cut.site.kit, &implant.id, is_for).max();
        let by_kit = self
            .kit_below(density)
            .filter(|below| *below > Length::ZERO);
        let usual = implant.diameter_mm - LEAST_BELOW_IN_SOFTEST_BONE;
        let (limit, by) = match (by_protocol, by_kit) {
            (Some(most), _) => (most, "protocol"),
            (None, Some(below)) => (implant.diameter_mm - below, "kit"),
            (None, None) => (usual, "usual"),
        };
        let wide = |limit, by, loosened| LastDrill {
            rule: Rule::LastDrillWide,
            limit,
            by,
            loosened,
        };
        if last > implant.diameter_mm {
            return None;
        }
        if last > limit {
            return Some(wide(limit, by, None));
        }
        // What only the kit's smaller difference lets pass.
        (by == "kit" && last > usual).then(|| {
            let own = Quantity::Length(LEAST_BELOW_IN_SOFTEST_BONE);
            let limit_of = "final_diameter";
            wide(
                limit,
                by,
                Some(Loosened {
                    limit: limit_of,
                    own,
                }),
            )
        })
    }

    /// A drill or tap wider than the implant leaves nothing for the thread to hold in. A profile drill
    /// makes room for what of the implant is widest down where it cuts, and for no more.
    fn too_wide(&self, n: usize) -> Option<Finding> {
        let drill = self.steps[n].drill;
        let implant = self.cut.site.implant;
        let limit = match drill.kind {
            DrillKind::Profile => match self.cut_of(n) {
                Some(cut) if !implant.profile.is_empty() => implant
                    .widest_from((cut - drill.point_length()).max(Length::ZERO))
                    .max(implant.diameter_mm),
                // Nobody says how far down the widest part reaches ([`Self::collar`]).
                _ => implant.largest_diameter_mm,
            },
            _ => implant.diameter_mm,
        };
        (drill.cutting_diameter_mm > limit).then(|| {
            self.at_step(n, Rule::WiderThanImplant)
                .verdict(Verdict::Short)
                .length(drill.cutting_diameter_mm)
                .limit(limit)
        })
    }

    /// A profile drill deeper than the kit's protocols for this implant take it, or wider than the implant's body where
    /// neither they nor an outline say how deep its wider part reaches.
    fn collar(&self, n: usize) -> Option<Finding> {
        let StepContext { step, drill, .. } = &self.steps[n];
        if drill.kind != DrillKind::Profile {
            return None;
        }
        let implant = self.cut.site.implant;
        let protocols = self.cut.site.kit.protocols.iter();
        let of_implant = protocols.filter(|protocol| protocol.implants.contains(&implant.id));
        let given = of_implant.flat_map(|protocol| &protocol.steps);
        let given = given.filter(|given| given.drill == step.drill);
        let Some(deepest) = given.map(|given| implant.depth_by(given.depth)).max() else {
            let (wide, body) = (drill.cutting_diameter_mm, implant.diameter_mm);
            let is_collar = wide > body && wide <= implant.largest_diameter_mm;
            return (implant.profile.is_empty() && is_collar).then(|| {
                self.at_step(n, Rule::CollarReachUnknown)
                    .verdict(Verdict::Unknown)
                    .length(wide)
                    .limit(body)
            });
        };
        let depth = implant.depth_by(step.depth);
        (depth > deepest).then(|| {
            self.at_step(n, Rule::DeeperThanProtocol)
                .verdict(Verdict::Short)
                .length(depth)
                .limit(deepest)
        })
    }

    /// A depth below that of the implant, where the step says so: the drill's point comes on top.
    fn too_deep(&self, n: usize) -> Option<Finding> {
        let depth = self.depth(n)?;
        let limit = self.cut.site.implant.full_depth();
        (depth > limit).then(|| {
            self.at_step(n, Rule::DeeperThanImplant)
                .verdict(Verdict::Short)
                .length(depth)
                .limit(limit)
        })
    }

    /// A drill that goes deeper than all before it has no bore to follow there.
    fn deeper_than_before(&self, n: usize) -> Option<Finding> {
        let kind = self.steps[n].drill.kind;
        if n == 0 || kind == DrillKind::Pilot {
            return None;
        }
        let (how, verdict, by, before) = if kind.makes_the_bore() {
            self.bores_deeper(n)?
        } else {
            self.shapes_deeper(n)?
        };
        let finding = self.at_step(n, Rule::DeeperThanBefore).verdict(verdict);
        let before = &self.steps[before].drill.name;
        Some(finding.length(by).arg("how", how).arg("before", before))
    }

    /// The same of a drill of the bore: how, with which verdict, by how much, and the last one before it. What is told is how
    /// much deeper it goes as it is set, or is planned where it is held above that itself; what stop or mark take beyond what
    /// is planned is judged by itself.
    fn bores_deeper(&self, n: usize) -> Option<(&'static str, Verdict, Length, usize)> {
        let least = |by: &dyn Fn(usize) -> Option<Length>| {
            let all: Option<Vec<Length>> = (0..n).map(by).collect();
            all?.into_iter().min()
        };
        let planned = least(&|m| Some(self.depth(n)? - self.depth(m)?));
        let at_one_point = least(&|m| self.beyond(n, m, AsGoes::Planned));
        let set = least(&|m| self.beyond(n, m, AsGoes::Set));
        let as_planned = planned.max(at_one_point).unwrap_or_default();
        let of_depths = planned.unwrap_or_default().max(Length::ZERO);
        let of_tips = at_one_point.unwrap_or_default();
        // What the plan says of depths, of two datums no more than it comes to at the tips.
        let said = of_depths.min(of_tips.max(Length::ZERO));
        let is_lost = |by: Length| by - said > self.by_setting(n) && by - of_tips > BY_ROUNDING;
        let is_planned = of_depths > Length::ZERO || of_tips > self.by_setting(n);
        match set {
            // No protocol says so, whatever else it keeps shallow.
            Some(by) if is_lost(by) => Some(("set", Verdict::Short, by, n - 1)),
            Some(by) if is_planned && by > as_planned => Some(("set", self.departure, by, n - 1)),
            _ if is_planned => Some(("planned", self.departure, as_planned, n - 1)),
            _ => None,
        }
    }

    /// The same of one that shapes: it does not cut ahead of the bore even with its tip, nor where the widest drill of
    /// the bore has ended. There its point has cut ahead by more than rounding takes of the one and not of the other.
    fn shapes_deeper(&self, n: usize) -> Option<(&'static str, Verdict, Length, usize)> {
        let any = self.tip_beyond(n, &(0..n).collect::<Vec<usize>>());
        let any = any.and_then(|(planned, set)| {
            if planned.max(set) <= Length::ZERO {
                return None;
            }
            let how = if set > planned { "set" } else { "planned" };
            Some((how, self.as_lost(planned, set), planned.max(set), n - 1))
        });
        let wide = |m: usize| self.steps[m].drill.cutting_diameter_mm;
        let widest = self.bores_before(n).map(wide).max();
        let as_wide = self.bores_before(n).filter(|m| Some(wide(*m)) == widest);
        let as_wide: Vec<usize> = as_wide.collect();
        let last = as_wide.last().copied();
        let below = self.tip_beyond(n, &as_wide).zip(last);
        let below = below.and_then(|((planned, set), last)| {
            let by = planned.max(set);
            let verdict = if planned > BY_ROUNDING {
                self.as_lost(planned, set)
            } else {
                // No protocol says so.
                Verdict::Short
            };
            (by > BY_ROUNDING).then_some(("widest", verdict, by, last))
        });
        // The worse of the two; where the widest is the deepest, that it is the deepest.
        let told = [any, below].into_iter().flatten();
        told.min_by_key(|(_, verdict, by, _)| (*verdict, -*by))
    }

    /// Verdict on so much depth as planned and as set: what is lost on top of what is planned no protocol says.
    fn as_lost(&self, planned: Length, set: Length) -> Verdict {
        if set - planned.max(Length::ZERO) > BY_ROUNDING {
            Verdict::Short
        } else {
            self.departure
        }
    }

    /// How far the tip of step `n` goes beyond those of these steps, as planned and as set.
    fn tip_beyond(&self, n: usize, before: &[usize]) -> Option<(Length, Length)> {
        let beyond = |goes: &dyn Fn(usize) -> Option<Length>| {
            let before: Option<Vec<Length>> = before.iter().map(|m| goes(*m)).collect();
            Some(goes(n)? - before?.into_iter().max()?)
        };
        let planned = beyond(&|n| self.tip(n))?;
        let set = beyond(&|n| Some(self.tip(n)? - self.lost(n)?))?;
        Some((planned, set))
    }

    /// How much deeper step `n` goes than step `m`, at one point of both: where their depths are counted, or at their tips
    /// where the one is counted at another point than the other.
    fn beyond(&self, n: usize, m: usize, goes: AsGoes) -> Option<Length> {
        let counted = |n: usize| match self.steps[n].drill.datum {
            Datum::Tip {} => Some("tip"),
            Datum::FullDiameter {} => Some("full"),
            Datum::Line { .. } => None,
        };
        let at_one_point = counted(n).is_some() && counted(n) == counted(m);
        let depth = |n: usize| {
            let depth = if at_one_point {
                self.depth(n)?
            } else {
                self.tip(n)?
            };
            match goes {
                AsGoes::Planned => Some(depth),
                AsGoes::Set => Some(depth - self.lost(n)?),
            }
        };
        Some(depth(n)? - depth(m)?)
    }

    /// Too large a step in diameter, or one back.
    fn growth(&self, n: usize) -> Option<Finding> {
        let wide = self.steps[n].drill.cutting_diameter_mm;
        let before = self.followed(n)?;
        let growth = wide - before.cutting_diameter_mm;
        let planned = self.followed_as_planned(n);
        // A drill that is held above the depth that the protocol gives it is none of its own.
        let departure = match planned {
            Some(planned) if planned.cutting_diameter_mm > before.cutting_diameter_mm => {
                Verdict::Short
            }
            _ => self.departure,
        };
        let about = |rule| {
            self.at_step(n, rule)
                .length(growth)
                .arg("before", &before.name)
        };
        if growth < Length::ZERO {
            return Some(about(Rule::DiameterFalls).verdict(Verdict::Note));
        }
        let largest = self.cut.site.kit.allowances.largest_step_mm?;
        let usual = usual_allowances().largest_step_mm.unwrap_or(largest);
        let allowed = Allowed {
            key: "largest_step_mm",
            by_kit: growth <= largest,
            by_usual: growth <= usual,
            usual,
        };
        let finding = || about(Rule::StepTooLarge).limit(largest);
        // What the maker wrote to the letter is no departure where the kit allows it.
        let told = allowed.told(finding, departure);
        told.filter(|told| told.loosened.is_none() || departure == Verdict::Short)
    }

    /// The drill whose bore step `n` follows: the widest before it that goes as deep as it does, or where none comes near
    /// that, as the deepest; nothing for one that only shapes. What was kept shallower, or is held so by its stop or mark
    /// by more than rounding, widened nothing below.
    fn followed(&self, n: usize) -> Option<&Drill> {
        let planned = self.down_to(n)?;
        let beyond = |m: usize| self.beyond(n, m, AsGoes::Set);
        let deepest = self.bores_before(n).filter_map(beyond).min()?;
        let by_setting = self.by_setting(n);
        let most = if deepest <= by_setting {
            by_setting
        } else {
            deepest + by_setting
        };
        let leads = |m: usize| {
            let by = beyond(m)?;
            let planned = self.beyond(n, m, AsGoes::Planned)?;
            // Of two datums the tips differ as it is planned: rounding makes no more of that.
            let by_rounding = planned <= by_setting && by - planned <= BY_ROUNDING;
            Some(by <= most || by_rounding)
        };
        self.widest(n, |m| {
            self.depth(m) >= Some(planned) && leads(m) == Some(true)
        })
    }

    /// The same as it is planned.
    fn followed_as_planned(&self, n: usize) -> Option<&Drill> {
        let planned = self.down_to(n)?;
        self.widest(n, |m| self.depth(m) >= Some(planned))
    }

    /// Depth to which a drill has to be led as planned: its own, or that of the deepest before it; nothing for one that only
    /// shapes.
    fn down_to(&self, n: usize) -> Option<Length> {
        if shapes(self.steps[n].drill.kind) {
            return None;
        }
        let before = self.bores_before(n);
        let deepest = before.filter_map(|m| self.depth(m)).max()?;
        Some(self.depth(n)?.min(deepest))
    }

    /// The widest drill of the bore before step `n` of those that count.
    fn widest(&self, n: usize, counts: impl Fn(usize) -> bool) -> Option<&Drill> {
        let counting = self.bores_before(n).filter(|m| counts(*m));
        let counting = counting.map(|m| self.steps[m].drill);
        counting.max_by_key(|drill| drill.cutting_diameter_mm)
    }

    /// The steps before step `n` that do not only shape.
    fn bores_before(&self, n: usize) -> impl Iterator<Item = usize> {
        (0..n).filter(|m| !shapes(self.steps[*m].drill.kind))
    }

    /// A pass that is kept short where a drill as wide has gone as deep: it cuts nothing, and a radiograph after it shows
    /// what is drilled already.
    fn cuts_nothing(&self, n: usize) -> Option<Finding> {
        let StepContext { step, drill, .. } = &self.steps[n];
        if matches!(step.depth, DepthRule::Full {}) || !drill.kind.makes_the_bore() {
            return None;
        }
        let mut before = self.bores_before(n).map(|m| (m, self.steps[m].drill));
        let (_, before) = before.find(|(m, other)| {
            let beyond = self.beyond(n, *m, AsGoes::Set);
            let is_drilled = beyond.is_some_and(|by| by <= Length::ZERO);
            other.cutting_diameter_mm >= drill.cutting_diameter_mm && is_drilled
        })?;
        Some(
            self.at_step(n, Rule::PassCutsNothing)
                .verdict(self.departure)
                .arg("before", &before.name),
        )
    }

    /// A drill that shapes the bore before the bore is as wide as it will be where it shapes: it jams there, or a thread
    /// that it cut is drilled away, as by a profile drill after a tap.
    fn shapes_too_early(&self, n: usize) -> Option<Finding> {
        let kind = self.steps[n].drill.kind;
        if !shapes(kind) {
            return None;
        }
        let planned = self.depth(n)?;
        let before = self.widest(n, |m| {
            let beyond = self.beyond(n, m, AsGoes::Set);
            self.depth(m) >= Some(planned) && beyond.is_some_and(|by| by <= self.by_setting(n))
        });
        let before = before.map(|drill| drill.cutting_diameter_mm);
        let mut after = self.steps[n..].iter().map(|step| step.drill);
        let wider = after.find(|drill| {
            let widens = before.is_none_or(|most| drill.cutting_diameter_mm > most);
            let through_thread = kind == DrillKind::Tap && drill.kind == DrillKind::Profile;
            drill.kind.makes_the_bore() && widens || through_thread
        })?;
        Some(
            self.at_step(n, Rule::ShapingBeforeBore)
                .verdict(self.departure)
                .arg("after", &wider.name),
        )
    }

    /// A tap in the softest bone, where the thread that it cuts holds nothing, unless the kit's protocols for such bone take
    /// one themselves. Without any, no tap is usual there: common practice, no source.
    fn tap_in_soft_bone(&self, n: usize) -> Option<Finding> {
        let site = &self.cut.site;
        let (softest, density) = (Density::D4, site.site.density);
        let is_soft = density.is_none_or(|density| density == softest);
        if self.steps[n].drill.kind != DrillKind::Tap || !is_soft {
            return None;
        }
        let protocols = site.kit.protocols.iter().filter(|protocol| {
            protocol.implants.contains(&site.implant.id) && protocol.densities.contains(&softest)
        });
        let is_tap = |drill: Option<&Drill>| drill.is_some_and(|one| one.kind == DrillKind::Tap);
        let takes_one = |protocol: &Protocol| {
            let mut steps = protocol.steps.iter();
            steps.any(|step| is_tap(site.kit.drill(&step.drill)))
        };
        let mut taken = protocols.map(takes_one).peekable();
        let by = if taken.peek().is_some() {
            "protocol"
        } else {
            "usual"
        };
        if taken.any(|taken| taken) {
            return None;
        }
        let finding = self.at_step(n, Rule::TapInSoftBone).arg("by", by);
        if density.is_some() {
            return Some(finding.verdict(Verdict::Short).arg("entered", "yes"));
        }
        let mut finding = finding.verdict(Verdict::Unknown).arg("entered", "no");
        finding.value = Known::missing(site.at(SitePlace::Density));
        Some(finding)
    }

    /// How much deeper than those before it step `n` may go by its setting: its point, so that it cuts nowhere at its full
    /// diameter where none has drilled before; no less than rounding takes.
    fn by_setting(&self, n: usize) -> Length {
        let point = self.steps[n].drill.point_length();
        point.clamp(BY_ROUNDING, BY_SETTING)
    }

    /// Depth of step `n`'s cut below the platform as it is set.
    fn cut_of(&self, n: usize) -> Option<Length> {
        self.cut.steps.get(n)?.cut.length()
    }

    /// What of step `n`'s depth is not drilled.
    fn lost(&self, n: usize) -> Option<Length> {
        self.lost.get_or_init(|| lost(self.cut)).get(n).copied()
    }

    /// Depth of step `n`'s tip below the platform as planned.
    fn tip(&self, n: usize) -> Option<Length> {
        let sheet = self.cut.steps.get(n)?;
        Some(sheet.cut.length()? + sheet.shortfall.length().unwrap_or_default())
    }

    /// Depth to which step `n` is to go below the platform.
    fn depth(&self, n: usize) -> Option<Length> {
        self.cut.steps.get(n)?.prep.length()
    }
}

/// The widest drill of the bore that goes to full depth, by its place.
fn last_of_bore<'a>(steps: impl Iterator<Item = (&'a Drill, DepthRule)>) -> Option<usize> {
    steps
        .enumerate()
        .filter(|(_, (drill, depth))| {
            drill.kind.makes_the_bore() && matches!(depth, DepthRule::Full {})
        })
        .max_by_key(|(_, (drill, _))| drill.cutting_diameter_mm)
        .map(|(n, _)| n)
}

/// The diameters with which the kit's protocols for an implant, and for such bone, end the bore.
fn final_diameters(
    kit: &Kit,
    implant: &ImplantId,
    is_for: impl Fn(&Protocol) -> bool,
) -> impl Iterator<Item = Length> {
    let protocols = kit
        .protocols
        .iter()
        .filter(move |protocol| protocol.implants.contains(implant) && is_for(protocol));
    protocols.filter_map(|protocol| {
        let steps = protocol.steps.iter();
        let steps: Vec<(&Drill, DepthRule)> = steps
            .filter_map(|step| Some((kit.drill(&step.drill)?, step.depth)))
            .collect();
        let n = last_of_bore(steps.iter().copied())?;
        Some(steps[n].0.cutting_diameter_mm)
    })
}
