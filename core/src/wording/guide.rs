//! The guide and the site in words: support, access, extent, tilt, bone.

use super::Formatter;
use crate::case::{
    Access, CutBefore, GuideState, GuidedExtent, Placement, Site, SiteState, Socket, Support,
    UseOrder,
};
use crate::dentition::Jaw;
use crate::kit::Density;
use crate::measure::{Angle, Length};
use crate::number::{degrees, mm};
use crate::plan::{NoProposal, OrderBy};

impl Formatter<'_> {
    /// The support of the guide.
    #[must_use]
    pub fn support(&self, support: Support) -> String {
        self.word(match support {
            Support::Teeth => "support-teeth",
            Support::TeethAndMucosa => "support-teeth_and_mucosa",
            Support::Mucosa => "support-mucosa",
            Support::Bone => "support-bone",
        })
    }

    /// The access to the bone.
    #[must_use]
    pub fn access(&self, access: Access) -> String {
        self.word(match access {
            Access::Flap => "access-flap",
            Access::Punch => "access-punch",
        })
    }

    /// The state of the guide: planned or made.
    #[must_use]
    pub fn guide_state(&self, state: GuideState) -> String {
        self.word(match state {
            GuideState::Planned => "guide-planned",
            GuideState::Made => "guide-made",
        })
    }

    /// The extent of the guidance.
    #[must_use]
    pub fn extent(&self, extent: GuidedExtent) -> String {
        self.word(match extent {
            GuidedExtent::PilotOnly => "extent-pilot_only",
            GuidedExtent::AllDrilling => "extent-all_drilling",
            GuidedExtent::DrillingAndImplant => "extent-drilling_and_implant",
        })
    }

    /// The extent of the guidance at a site, with that the guide was left there.
    #[must_use]
    pub fn extent_at(&self, site: &Site) -> String {
        let extent = self.extent(site.guided_extent);
        let Some(left) = &site.without_guide else {
            return extent;
        };
        let count = left.through.len() + usize::from(left.implant);
        let args = [("extent", extent.as_str())];
        self.counted("extent-left", &[("count", count)], &args)
    }

    /// What is in the bone of a site already, by a plan that was changed since: what, how wide, and how deep below the platform.
    #[must_use]
    pub fn cut_before(&self, site: &Site, one: &CutBefore) -> String {
        let wide = mm(one.diameter_mm);
        let args = [("name", one.name.as_str()), ("wide", &wide)];
        if one.out {
            return self.text("cut-before-out", &args);
        }
        match one.tip(site, self.case) {
            Some(tip) => {
                let tip = mm(tip);
                let [name, wide] = args;
                self.text("cut-before-to", &[name, wide, ("tip", &tip)])
            }
            None => self.text("cut-before-unknown", &args),
        }
    }

    /// That this is not in the bone, or is after all.
    #[must_use]
    pub fn cut_or_not(&self, one: &CutBefore, out: bool) -> String {
        let id = if out {
            "cut-before-not"
        } else {
            "cut-before-after-all"
        };
        self.text(id, &[("name", one.name.as_str())])
    }

    /// The order in which the instruments are used.
    #[must_use]
    pub fn use_order(&self, order: UseOrder) -> String {
        self.word(match order {
            UseOrder::SiteBySite => "order-site_by_site",
            UseOrder::ByDiameter => "order-by_diameter",
        })
    }

    /// The source of the order that is followed: the plain rule, or an order that was accepted.
    #[must_use]
    pub fn order_by(&self, by: OrderBy) -> String {
        let rule = self.use_order(self.case.setup.use_order);
        match by {
            OrderBy::Rule => rule,
            OrderBy::Accepted => self.word("order-accepted"),
            OrderBy::Fallback => self.text("order-fallback", &[("rule", &rule)]),
        }
    }

    /// The jaw in words: "lower jaw".
    #[must_use]
    pub fn jaw(&self) -> String {
        self.word(self.case.jaw.text_id())
    }

    /// A site's tilt: "apex 32° to mesial", "upright"; never a bare sign.
    #[must_use]
    pub fn tilt(&self, site: &Site) -> String {
        let (distal, buccal) = match site.placement {
            Placement::OnArch {
                apex_to_distal_deg,
                apex_to_buccal_deg,
                ..
            } => (apex_to_distal_deg, apex_to_buccal_deg),
            Placement::Measured { direction, .. } => {
                let upright = direction.x == Length::ZERO && direction.y == Length::ZERO;
                return self.word(if upright { "upright" } else { "tilt-measured" });
            }
        };
        let oral = match self.case.jaw {
            Jaw::Upper => "tilt-oral-upper",
            Jaw::Lower => "tilt-oral-lower",
        };
        let first = self.towards(distal, "tilt-distal", "tilt-mesial");
        let second = self.towards(buccal, "tilt-buccal", oral);
        match (first, second) {
            (None, None) => self.word("upright"),
            (Some(one), None) | (None, Some(one)) => one,
            (Some(first), Some(second)) => {
                self.text("tilt-both", &[("first", &first), ("second", &second)])
            }
        }
    }

    fn towards(&self, angle: Angle, positive: &str, negative: &str) -> Option<String> {
        let id = match angle.millideg() {
            0 => return None,
            1.. => positive,
            _ => negative,
        };
        Some(self.text(id, &[("angle", &degrees(angle.abs()))]))
    }

    /// State of the bone at a site.
    #[must_use]
    pub fn bone(&self, state: &SiteState) -> String {
        match state {
            SiteState::Healed {} => self.word("bone-healed"),
            SiteState::Grafted { on } => self.text("bone-grafted", &[("date", &on.to_string())]),
            SiteState::FreshSocket(socket) => self.socket(self.word("bone-fresh"), socket),
            SiteState::ImplantToRemove(socket) => self.socket(self.word("bone-implant"), socket),
        }
    }

    fn socket(&self, of: String, socket: &Socket) -> String {
        match (socket.gap_mm.map(mm), socket.slope_deg.map(degrees)) {
            (None, None) => of,
            (Some(gap), None) => self.text("bone-gap", &[("of", &of), ("gap", &gap)]),
            (None, Some(slope)) => self.text("bone-slope", &[("of", &of), ("slope", &slope)]),
            (Some(gap), Some(slope)) => self.text(
                "bone-gap-slope",
                &[("of", &of), ("gap", &gap), ("slope", &slope)],
            ),
        }
    }

    /// Bone density by Misch's classes, or that it was not entered.
    #[must_use]
    pub fn density(&self, density: Option<Density>) -> String {
        match density {
            None => self.word("density-unknown"),
            Some(density) => self.word(&format!("density-{}", density.key())),
        }
    }

    /// The reason why no sequence can be proposed, with its remedy.
    #[must_use]
    pub fn no_proposal(&self, why: &NoProposal) -> String {
        match why {
            NoProposal::DensityUnknown => self.word("proposal-density"),
            NoProposal::NoFinalDiameter => self.word("proposal-final-diameter"),
            NoProposal::NoPilot => self.word("proposal-no-pilot"),
            NoProposal::Gap { after } => self.text("proposal-gap", &[("after", &mm(*after))]),
            NoProposal::NothingSmallEnough { wanted } => {
                self.text("proposal-too-wide", &[("wanted", &mm(*wanted))])
            }
        }
    }

    /// The note on every proposed sequence.
    #[must_use]
    pub fn proposed(&self) -> String {
        self.word("proposal-note")
    }
}
