//! The fit of a step's instruments with each other and the plan.

use super::{sleeves, stop as stop_fit};
use crate::case::{Rule, SitePlace};
use crate::kit::{Datum, DepthRule, usual_allowances};
use crate::measure::Length;
use crate::plan::depth::context::{SiteContext, StepContext, StepPath};
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::{Known, Reason};
use crate::plan::finding::{Allowed, Finding, RoundedTo, Verdict};

/// Height above the apex beyond which the full diameter of the last drill ends too far from it. Common practice, no
/// source: the point of a wide twist drill is 1.5 mm long, and a setting may give away 0.5 mm.
const MOST_ABOVE_APEX: Length = Length::from_mm(2);

/// Depth that a gauge's graduation alone may take, where none is chosen (common practice, no source).
const GRADUATION: Length = Length::from_um(100);

/// The most that rounding to a graduation takes, however coarse it is. Common practice, no source.
const BY_ROUNDING: Length = Length::from_um(500);

/// Checks one step; what fits leaves no finding.
pub(in crate::plan) fn check_step(
    site: &SiteContext<'_>,
    step: &StepContext<'_>,
    sheet: &StepSheet,
    out: &mut Vec<Finding>,
) {
    let checks = StepChecks { site, step, sheet };
    out.extend(checks.setting());
    out.extend(checks.gauge_face());
    out.extend(checks.fixed_stop_on_gauge());
    out.extend(checks.clamp());
    out.extend(checks.landing());
    out.extend(checks.stop_bore());
    out.extend(checks.guided_diameter());
    out.extend(checks.drill_sleeve());
    out.extend(checks.flute());
    out.extend(checks.free_length());
    out.extend(checks.above_platform());
    out.extend(checks.full_diameter_above_apex());
    out.extend(checks.both_deepen());
}

struct StepChecks<'a> {
    site: &'a SiteContext<'a>,
    step: &'a StepContext<'a>,
    sheet: &'a StepSheet,
}

impl StepChecks<'_> {
    fn finding(&self, rule: Rule) -> Finding {
        self.bare(rule).arg("drill", &self.step.drill.name)
    }

    /// The same of a rule that says nothing of the drill.
    fn bare(&self, rule: Rule) -> Finding {
        let id = &self.step.step.id;
        Finding::new(rule, self.site.at(SitePlace::Step(id.clone())))
    }

    /// A step without a setting.
    fn setting(&self) -> Option<Finding> {
        let Known::Unknown(reasons) = &self.sheet.set.value else {
            return None;
        };
        let wanted = reasons.iter().find_map(|reason| match reason {
            Reason::OutsideGauge(shown) => Some(*shown),
            _ => None,
        });
        let gauge = self.site.gauge;
        Some(if let (Some(wanted), Some(gauge)) = (wanted, gauge) {
            self.finding(Rule::OutsideGauge)
                .verdict(Verdict::Short)
                .length(wanted)
                .limit(if wanted < gauge.from_mm {
                    gauge.from_mm
                } else {
                    gauge.to_mm
                })
                .arg("gauge", &gauge.name)
                .arg("from", gauge.from_mm)
                .arg("to", gauge.to_mm)
        } else if reasons.contains(&Reason::NothingFits) {
            let rule = if self.step.stop.is_some() {
                Rule::NoFixedLengthFits
            } else {
                Rule::NoMarkFits
            };
            let finding = self.finding(rule).verdict(Verdict::Short);
            match self.sheet.exact.length() {
                Some(exact) => finding.limit(exact),
                None => finding,
            }
        } else {
            self.finding(Rule::SettingUnknown)
                .verdict(Verdict::Unknown)
                .figure(self.sheet.set.clone())
        })
    }

    fn gauge_face(&self) -> Option<Finding> {
        self.step.stop?;
        stop_fit::gauge_face(self.site.gauge?, |rule| self.finding(rule))
    }

    /// A fixed stop whose length the chosen gauge cannot show: it has to be measured otherwise.
    fn fixed_stop_on_gauge(&self) -> Option<Finding> {
        let stop = self.step.stop?;
        let shown = self.sheet.gauge.as_ref()?;
        let off = shown.value.reasons().iter().any(|reason| {
            matches!(
                reason,
                Reason::OutsideGauge(_) | Reason::BetweenGraduations(_)
            )
        });
        // Without a setting the reason is the setting's and told there.
        (off && self.sheet.set.length().is_some()).then(|| {
            self.finding(Rule::FixedStopOffGauge)
                .verdict(Verdict::Unknown)
                .figure(shown.clone())
                .arg("stop", &stop.name)
        })
    }

    fn clamp(&self) -> Option<Finding> {
        let set = self.sheet.set.length();
        let about = |rule| self.finding(rule);
        stop_fit::clamp(self.step.drill, self.step.stop?, set, about)
    }

    /// The stop's landing face over the bore, in the drill sleeve and in the empty master sleeve.
    fn landing(&self) -> Vec<Finding> {
        let Some(stop) = self.step.stop else {
            return Vec::new();
        };
        let (master, bore) = (self.site.master, self.site.master_bore_at_hand());
        let bores = match (self.step.path, self.step.sleeve) {
            (StepPath::Freehand, _) => vec![],
            (StepPath::DrillSleeve, Some(sleeve)) => vec![
                (Rule::LandingOnDrillSleeve, sleeve.bore_mm, &sleeve.name),
                (Rule::LandingOnMasterSleeve, bore, &master.name),
            ],
            // A recess leaves only what stands beyond it to land on.
            _ => {
                let inside = match sleeves::sinks_into(master, stop) {
                    Some(_) => bore,
                    None => master.recess.map_or(bore, |recess| recess.diameter_mm),
                };
                vec![(Rule::LandingOnMasterSleeve, inside, &master.name)]
            }
        };
        bores
            .into_iter()
            .filter_map(|(rule, bore, sleeve)| {
                let overlap = (stop.landing_diameter_mm - bore).half_floor();
                let finding = || {
                    let finding = self.finding(rule).arg("stop", &stop.name);
                    let finding = finding.arg("sleeve", sleeve);
                    match rule {
                        Rule::LandingOnMasterSleeve => self.site.by_master_bore(finding),
                        _ => finding,
                    }
                };
                stop_fit::landing(&self.site.kit.allowances, overlap, finding)
            })
            .collect()
    }

    fn stop_bore(&self) -> Option<Finding> {
        let allowances = &self.site.kit.allowances;
        let about = |rule| self.finding(rule);
        stop_fit::stop_bore(self.step.drill, self.step.stop?, allowances, about)
    }

    fn guided_diameter(&self) -> Option<Finding> {
        let bore = self.step.bore(self.site)?;
        let about = |rule| match self.step.path {
            StepPath::MasterSleeve => self.site.by_master_bore(self.finding(rule)),
            StepPath::DrillSleeve | StepPath::Freehand => self.finding(rule),
        };
        stop_fit::guided(self.step.drill, bore, &self.site.kit.allowances, about)
    }

    fn drill_sleeve(&self) -> Vec<Finding> {
        let mut out = Vec::new();
        if let Some(sleeve) = self.step.sleeve {
            if self.step.path == StepPath::Freehand {
                out.push(
                    self.finding(Rule::SleeveWithoutGuide)
                        .verdict(Verdict::Note)
                        .arg("sleeve", &sleeve.name),
                );
                return out;
            }
            sleeves::check_sleeve(self.site, sleeve, |rule| self.bare(rule), &mut out);
        }
        let about = |rule| self.finding(rule);
        sleeves::check_led(self.site, self.step, self.sheet, about, &mut out);
        out
    }

    /// Enough flute for the cut, the bone above the platform and the reserve.
    fn flute(&self) -> Option<Finding> {
        let cut = self.sheet.cut.length()?;
        // An unknown crest is reported once for the site, with the room under the sleeve.
        let crest = self.site.highest_crest().get()?;
        let in_bone = cut + crest.max(Length::ZERO);
        let flute = self.step.drill.flute_to_mm;
        let reserve = self.site.kit.allowances.flute_reserve_mm;
        let usual = usual_allowances().flute_reserve_mm;
        let allowed = Allowed::least("flute_reserve_mm", reserve, usual, flute - in_bone);
        let finding = || {
            let finding = self.finding(Rule::FluteShort).length(flute);
            finding.limit(in_bone + reserve)
        };
        allowed.told(finding, Verdict::Short)
    }

    /// Enough drill out of the handpiece for the setting and the stop above it.
    fn free_length(&self) -> Option<Finding> {
        let set = self.sheet.set.length()?;
        let body = self
            .step
            .stop
            .map_or(Length::ZERO, |stop| stop.body_height_mm);
        let free = self.step.drill.free_length_mm;
        (free < set + body).then(|| {
            self.finding(Rule::FreeLengthShort)
                .verdict(Verdict::Short)
                .length(free)
                .limit(set + body)
        })
    }

    /// A setting with which the tip does not even come down to the platform.
    fn above_platform(&self) -> Option<Finding> {
        let cut = self.sheet.cut.length()?;
        (cut < Length::ZERO).then(|| {
            self.finding(Rule::EndsAbovePlatform)
                .verdict(Verdict::Short)
                .length(-cut)
        })
    }

    /// A drill counted at its tip, or at a line on its cone, leaves its full diameter above the
    /// apex, as one does that a stop or mark holds back by more than a graduation, and below it a bore that is narrower than the implant: beyond what is usual that stops above its
    /// depth, or presses on the bone there, also where the maker's protocol is followed: a point's length is no part of it. What another lacks there it lacks in depth, which is told as such.
    fn full_diameter_above_apex(&self) -> Option<Finding> {
        // Of several only the widest matters: the others are widened by it.
        let full_depth = |rule| matches!(rule, DepthRule::Full {});
        let widest = self
            .site
            .steps()
            .filter(|other| full_depth(other.step.depth))
            .map(|other| other.drill.cutting_diameter_mm)
            .max();
        if !self.sheet.is_full_depth() || widest != Some(self.step.drill.cutting_diameter_mm) {
            return None;
        }
        let above = self.site.implant_end() - (self.sheet.cut.length()? - self.sheet.point);
        // Of one that is counted there rounding alone is no news.
        let counted_there = self.step.drill.datum_from_tip() >= self.sheet.point;
        let graduation = self
            .site
            .gauge
            .map_or(GRADUATION, |gauge| gauge.graduation_mm)
            .min(BY_ROUNDING);
        if counted_there && above <= graduation {
            return None;
        }
        let verdict = if above > MOST_ABOVE_APEX {
            Verdict::Short
        } else {
            Verdict::Note
        };
        (above > Length::ZERO).then(|| {
            self.finding(Rule::FullDiameterAboveApex)
                .verdict(verdict)
                .arg("far", if above > MOST_ABOVE_APEX { "yes" } else { "no" })
                .length(above)
                .rounded_to(RoundedTo::More)
        })
    }

    /// An apical allowance and full-diameter counting on one drill both deepen, told from the apex as planned, from which
    /// the cut counts.
    fn both_deepen(&self) -> Option<Finding> {
        let full = matches!(self.step.drill.datum, Datum::FullDiameter {});
        let allowance = self.site.implant.apical_allowance_mm;
        // Where the cut is not known, as deep as it can be.
        let end = self.sheet.cut.length();
        let below = end.map(|end| end - self.site.implant.platform_to_apex_mm);
        let below = below.unwrap_or(allowance + self.sheet.point);
        let both = self.sheet.is_full_depth() && full && allowance > Length::ZERO;
        (both && below > Length::ZERO).then(|| {
            self.finding(Rule::BothDeepen)
                .verdict(Verdict::Note)
                .length(below)
                .rounded_to(RoundedTo::More)
        })
    }
}
