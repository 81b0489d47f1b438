//! The plan that a person entered: one jaw, one guide, one tray.
//!
//! A case is a value. It holds nothing that can be derived, no clock and no state of any screen.
//! Approvals and readings are events beside it (see [`crate::sign`]).

mod bone_then;
mod check;
mod confirmed;
mod cut_before;
mod days;
mod depth_then;
mod edit;
mod finding_key;
mod guide;
mod heights;
mod keys;
mod kit_copy;
mod limits;
mod measured;
mod merge;
mod run;
mod saved;
mod set_back;
mod site;
mod teeth;
mod tray;
mod valid;
mod whole_site;

pub use bone_then::{BoneState, BoneThen};
pub use check::check_case;
pub use confirmed::Confirmed;
pub(crate) use confirmed::{as_confirmed, site_as_confirmed};
pub use cut_before::{CutBefore, PlatformThen};
pub use days::{Dated, DoubtfulScan, day_of};
pub use edit::{Edit, EditRefused, apply, to_save};
pub use finding_key::{Clearance, Field, FindingKey, Place, Rule, SiteHeight, SitePlace, Subject};
pub use guide::{
    Access, CasePin, Guide, GuideState, GuideThen, HeldByGuide, MadeBy, Receipt, ReceiptOf,
    SiteMadeBy, SleeveMadeBy, Support,
};
pub use heights::{CrestDepth, CrestRead, Heights, MeasuredApart};
pub(crate) use keys::keyed;
pub use kit_copy::{Difference, DifferenceKind, KitNotAtHand, kit_differences, supplied, taking};
pub use limits::{AngleLimit, Limit, LimitId, Limits, default_limits};
pub use measured::{
    Direction, Distance, DistanceTo, Height, HeightDatum, MeasuredAt, Obstacle, Structure,
    StructureExtent, StructureKind, Wall, WallSide,
};
pub use merge::{Apart, Part, Side, Together, ValueApart, bring_together, differing};
pub use run::{OrderedUse, RunWishes, SiteBefore};
pub use saved::{Save, SavedAt, SavedFigures, SavedFinding, SavedStep};
pub use site::{
    GapMeasuredAt, GuidedExtent, Insertion, LedBy, Placement, PlatformToSleeve, PointMm, Setting,
    Site, SiteState, SleeveFace, Socket, Step, StepThrough, Vector, WithoutGuide,
};
pub use teeth::{ArchSize, NeighbourKind, Tooth, ToothState};
pub use tray::{Held, TrayPlace};
pub use valid::{CASE_KIND, KINDS, KIT_KIND, PLAN_CODE_COVERS, ValidCase, read_case, read_kit};
pub use whole_site::{NewSite, at_another_tooth, removal};

use crate::dentition::Jaw;
use crate::kit::{Gauge, GaugeId, HeadId, Kit, Label, TrayId};
use crate::measure::Length;
use crate::sign::{Purpose, Who, is_seen_letter};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The newest version of the case file that this program reads and the one that it writes.
pub const CASE_VERSION: u32 = 1;

/// The version of the arithmetic: a case says by which rules its figures came about. It rises whenever a rule, a
/// limit or a verdict changes, with a text on what is new (`rules-6`).
pub const RULES_VERSION: u32 = 11;

/// A case: the plan for one jaw, with a copy of the kit entries that it uses.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Version of this file's form.
    #[schemars(range(min = 1, max = 1))]
    pub traywright_case: u32,
    /// Version of the arithmetic.
    #[schemars(range(min = 1, max = RULES_VERSION))]
    pub rules_version: u32,
    /// A code for the case. Not a patient's name.
    pub reference: Label,
    /// Invented, for practice: everything on screen and paper says so, and no approval or reading
    /// of it ever counts.
    #[serde(default)]
    pub demonstration: bool,
    /// The jaw.
    pub jaw: Jaw,
    /// Reference of the other jaw's case, where both are done in one sitting.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_jaw_case: Option<Label>,
    /// Rises by one whenever a save changes the fingerprint.
    #[schemars(range(min = 0, max = 1_000_000))]
    pub revision: u32,
    /// The guide.
    pub guide: Guide,
    /// The people who treat this case.
    #[serde(default)]
    pub team: Team,
    /// Size of the arch; absent: no distance is taken from the arch model.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub arch: Option<ArchSize>,
    /// Teeth, pontics and existing implants of this jaw. A position not listed is unknown.
    #[serde(default)]
    #[schemars(length(max = 32))]
    pub teeth: Vec<Tooth>,
    /// Choices for the whole case.
    pub setup: Setup,
    /// The planned implants.
    #[serde(default)]
    #[schemars(length(max = 16))]
    pub sites: Vec<Site>,
    /// Limits of the clearances, each with its source.
    pub limits: Limits,
    /// Findings that the surgeon accepted or intends, each with a reason.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub judgements: Vec<Decision>,
    /// Wishes for the run order.
    #[serde(default, skip_serializing_if = "RunWishes::is_default")]
    pub run: RunWishes,
    /// The order that was accepted; empty: none, and the plain rule of the setup holds. It is followed
    /// as long as it does everything that is to be done, each in its turn.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 1500))]
    pub accepted_order: Vec<OrderedUse>,
    /// Places on the tray that a person chose; empty: everything lies where the program lays it.
    /// One for a thing that the plan has no more is not followed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 500))]
    pub tray_places: Vec<TrayPlace>,
    /// Anything worth saying; no figure depends on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// What was worked out when it was last saved; no figure is read from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub saved_figures: Option<SavedFigures>,
    /// The times that it was saved, the oldest first; no figure depends on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 500))]
    pub saves: Vec<Save>,
    /// Implants that were chosen where no kit was at hand: whether the kit has more for them than the copy, protocols
    /// above all, nobody knows until it is.
    #[serde(default, skip_serializing_if = "KitNotAtHand::is_none")]
    pub kit_not_at_hand: KitNotAtHand,
    /// Copy of the kit entries that the case uses.
    pub kit: Kit,
}

/// The people who treat a case: a name or initials each.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Team {
    /// The person who plans and operates.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub surgeon: Option<Label>,
    /// The person who loads the tray.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nurse: Option<Label>,
    /// The person who reads every stop a second time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second_checker: Option<Label>,
}

/// Choices for the whole case.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Setup {
    /// The gauge that stops are set on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gauge: Option<GaugeId>,
    /// The handpiece head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<HeadId>,
    /// The tray.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tray: Option<TrayId>,
    /// The order in which the instruments are used.
    pub use_order: UseOrder,
}

/// The order in which the instruments are used.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum UseOrder {
    /// All steps of one site, then the next site.
    SiteBySite,
    /// Each diameter through all sites, then the next diameter.
    ByDiameter,
}

/// The surgeon's decision on a finding. It holds as long as the finding shows the same: verdict, value,
/// limit, reasons and all that its sentence says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Decision {
    /// Key of the finding: its rule and its place.
    #[schemars(length(min = 1, max = 200))]
    pub finding: String,
    /// The kind of decision.
    pub judged: DecisionKind,
    /// The digest of the finding when it was decided on, as the figures print it beside its key.
    #[schemars(length(min = 1, max = 120))]
    pub shown: String,
    /// The reason.
    #[schemars(length(min = 1, max = 1000))]
    pub reason: String,
    /// Name or initials of the person who decided.
    pub by: Label,
}

/// True for a name or initials that somebody could sign with. A decision or a confirmation by another is not
/// refused, but does not count.
#[must_use]
pub fn is_name(by: &str) -> bool {
    Who::may_sign(by)
}

/// Letters and digits that a reason needs at least. Source: common practice, no source.
const LEAST_OF_REASON: usize = 10;

impl Decision {
    /// True if a reason says anything: two words at least, of ten letters or digits together.
    ///
    /// A file or a journal with another one is not refused, but the decision does not count.
    #[must_use]
    pub fn is_reason(reason: &str) -> bool {
        let letters = |word: &str| word.chars().filter(|c| is_seen_letter(*c)).count();
        let words = reason.split_whitespace().map(letters).filter(|n| *n > 0);
        let (words, all) = words.fold((0, 0), |(words, all), n| (words + 1, all + n));
        words >= 2 && all >= LEAST_OF_REASON
    }

    /// A new decision on a finding that shows this now; nothing where its reason says nothing
    /// ([`Self::is_reason`]) or nobody is named ([`is_name`]).
    #[must_use]
    pub fn new(
        (finding, shown): (String, String),
        judged: DecisionKind,
        reason: &str,
        by: &str,
    ) -> Option<Self> {
        let (reason, by) = (reason.trim(), by.trim());
        (Self::is_reason(reason) && is_name(by)).then(|| Self {
            finding,
            judged,
            shown,
            reason: reason.to_owned(),
            by: Label::from(by),
        })
    }
}

/// The kind of decision of the surgeon on a finding.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum DecisionKind {
    /// Seen and accepted with a reason.
    Accepted,
    /// A planned contact, such as a sinus elevation.
    Intended,
}

impl Case {
    /// What the case is for.
    #[must_use]
    pub const fn purpose(&self) -> Purpose {
        if self.demonstration {
            Purpose::Practice
        } else {
            Purpose::Patient
        }
    }

    /// The site of this id.
    #[must_use]
    pub fn site(&self, id: &str) -> Option<&Site> {
        self.sites.iter().find(|site| site.id.as_str() == id)
    }

    /// The gauge that was chosen.
    #[must_use]
    pub fn gauge(&self) -> Option<&Gauge> {
        self.kit.gauge(self.setup.gauge.as_ref()?)
    }

    /// The graduation of that gauge, to which settings are written.
    #[must_use]
    pub(crate) fn graduation(&self) -> Option<Length> {
        self.gauge().map(|gauge| gauge.graduation_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_made_only_with_a_reason_that_tells_something() {
        for (reason, by, made) in [
            ("", "RT", false),
            ("x", "RT", false),
            ("x x x x", "RT", false),
            ("unavoidable", "RT", false),
            ("accepted . - !", "RT", false),
            (
                "\u{3164}\u{3164}\u{3164}\u{3164}\u{3164} \u{3164}\u{3164}\u{3164}\u{3164}\u{3164}",
                "RT",
                false,
            ),
            ("seen on CT", "RT", false),
            ("seen on CT 12", "RT", true),
            (" short implant refused ", "RT", true),
            ("höhe geprüft am bild", "RT", true),
            ("short implant refused", " ", false),
            ("short implant refused", "-", false),
            // Nobody who could sign.
            ("short implant refused", "24.3", false),
            ("short implant refused", "nurse", false),
            ("short implant refused", "KE / OW", false),
            ("short implant refused", "A. U. Berg", true),
        ] {
            let shown = ("a b".to_owned(), "t".to_owned());
            let word = Decision::new(shown, DecisionKind::Accepted, reason, by);
            assert_eq!(word.is_some(), made, "{reason} {by}");
            let kept = word.is_none_or(|word| word.reason == reason.trim());
            assert!(kept, "{reason}");
        }
    }
}
