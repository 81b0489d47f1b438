//! A site with everything that it refers to, looked up once.

use crate::case::{
    BoneThen, Case, CutBefore, Field, Place, Placement, Site, SiteHeight, SitePlace, SleeveFace,
    Step,
};
use crate::kit::{Drill, DrillSleeve, Gauge, Implant, Kit, MasterSleeve, Stop};
use crate::measure::Length;
use crate::plan::figure::{Basis, Change, Known, Origin, Quantity, Reason, Sign, Since, Term};
use crate::plan::term_name::TermName;
use jiff::civil::Date;

/// The guidance of a step's drill.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepPath {
    /// Through a drill sleeve in the master sleeve.
    DrillSleeve,
    /// Directly through the master sleeve.
    MasterSleeve,
    /// Without the guide.
    Freehand,
}

impl StepPath {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::DrillSleeve => "drill_sleeve",
            Self::MasterSleeve => "master_sleeve",
            Self::Freehand => "freehand",
        }
    }
}

/// A site with everything that it refers to.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct SiteContext<'a> {
    pub(in crate::plan) case: &'a Case,
    pub(in crate::plan) kit: &'a Kit,
    pub(in crate::plan) site: &'a Site,
    /// The placement that its heights are asked for: the site's, save where a value that was measured
    /// before it moved is worked out as it was then.
    placement: Placement,
    pub(in crate::plan) implant: &'a Implant,
    pub(in crate::plan) master: &'a MasterSleeve,
    pub(in crate::plan) gauge: Option<&'a Gauge>,
}

/// A step with everything that it refers to.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct StepContext<'a> {
    pub(in crate::plan) step: &'a Step,
    pub(in crate::plan) drill: &'a Drill,
    pub(in crate::plan) sleeve: Option<&'a DrillSleeve>,
    pub(in crate::plan) stop: Option<&'a Stop>,
    pub(in crate::plan) path: StepPath,
}

/// The key of the crest in the heights of a site.
const CREST: SiteHeight = SiteHeight::PlatformBelowCrest;

const CHECKED: &str = "a valid case has no dangling reference";

impl<'a> SiteContext<'a> {
    pub(in crate::plan) fn new(case: &'a Case, site: &'a Site) -> Self {
        let kit = &case.kit;
        Self {
            case,
            kit,
            site,
            placement: site.placement,
            implant: kit.implant(&site.implant).expect(CHECKED),
            master: kit.master_sleeve(&site.master_sleeve).expect(CHECKED),
            gauge: case
                .setup
                .gauge
                .as_ref()
                .map(|id| kit.gauge(id).expect(CHECKED)),
        }
    }

    /// The same site with another implant.
    pub(in crate::plan) fn with_implant(self, implant: &'a Implant) -> Self {
        Self { implant, ..self }
    }

    pub(in crate::plan) fn steps(self) -> impl Iterator<Item = StepContext<'a>> {
        self.site.steps.iter().map(move |step| self.step(step))
    }

    fn step(self, step: &'a Step) -> StepContext<'a> {
        let drill = self.kit.drill(&step.drill).expect(CHECKED);
        let guided = self.site.leads_step(step, drill.kind);
        let sleeve = step
            .sleeve
            .as_ref()
            .map(|id| self.kit.drill_sleeve(id).expect(CHECKED));
        StepContext {
            step,
            drill,
            sleeve,
            stop: step
                .stop
                .as_ref()
                .map(|id| self.kit.stop(id).expect(CHECKED)),
            path: match (guided, sleeve) {
                (false, _) => StepPath::Freehand,
                (true, Some(_)) => StepPath::DrillSleeve,
                (true, None) => StepPath::MasterSleeve,
            },
        }
    }

    /// What is in the bone here already, by a plan that was changed since; what was practised is in nobody's.
    pub(in crate::plan) fn cut_before(self) -> impl Iterator<Item = &'a CutBefore> {
        let purpose = self.case.purpose();
        let all = self.site.cut_before.iter();
        all.filter(move |one| one.purpose == purpose && !one.out)
    }

    /// The drill sleeve that the implant passes; nothing where it passes none or goes in freehand.
    pub(in crate::plan) fn insertion_sleeve(self) -> Option<&'a DrillSleeve> {
        let guided = self.site.leads_implant();
        let id = self.site.insertion.sleeve.as_ref().filter(|_| guided)?;
        self.kit.drill_sleeve(id)
    }

    /// A part of this site.
    pub(in crate::plan) fn at(self, place: SitePlace) -> Place {
        Place::Site(self.site.id.clone(), place)
    }

    /// A field of this site.
    pub(in crate::plan) fn field(self, field: &'static str) -> Field {
        self.at(SitePlace::Whole).field(field)
    }

    /// From the platform to the master sleeve's apical face, with the terms that it came from.
    pub(in crate::plan) fn distance_terms(self) -> Vec<Term> {
        let entered = self.site.platform_to_sleeve;
        let mut terms = vec![Term::case(
            TermName::PlatformToSleeve,
            self.at(SitePlace::PlatformToSleeve).into(),
            entered.map(|entry| entry.entered_mm),
            Basis::Entered,
        )];
        if entered.is_some_and(|entry| entry.to == SleeveFace::Coronal) {
            terms.push(self.master_height().minus());
        }
        terms
    }

    /// From the platform to the master sleeve's apical face.
    pub(in crate::plan) fn distance(self) -> Option<Length> {
        let entered = self.site.platform_to_sleeve;
        entered.map(|entry| entry.to_apical_face(self.master.height_mm))
    }

    /// From the platform to the master sleeve's coronal rim.
    pub(in crate::plan) fn rim(self) -> Option<Length> {
        let distance = self.distance()?;
        Some(distance + self.master.height_mm)
    }

    pub(in crate::plan) fn master_height(self) -> Term {
        Term::kit(
            TermName::MasterSleeveHeight,
            "master_sleeves",
            &self.master.id,
            "height_mm",
            self.master.height_mm,
        )
    }

    /// The dates of graft and scan where what was measured in that bone is not of after the graft.
    pub(in crate::plan) fn before_graft(self, then: BoneThen) -> Option<(Date, Date)> {
        then.before_graft(&self.site.state, self.case.guide.scan_date)
    }

    /// True if the bone was grafted, and nobody entered of which day the scan is that showed it.
    pub(in crate::plan) fn is_undated(self, then: BoneThen) -> bool {
        let grafted = matches!(self.site.state, crate::case::SiteState::Grafted { .. });
        grafted && then.scan_date.or(self.case.guide.scan_date).is_none()
    }

    /// True if the bone is another since then.
    pub(in crate::plan) fn is_other_bone(self, then: BoneThen) -> bool {
        then.is_other(&self.site.state, self.case.guide.scan_date)
    }

    /// Depth by which the implant goes deeper than planned with the guide at hand; zero
    /// where the guide does not lead it.
    pub(in crate::plan) fn implant_deficit(self) -> Length {
        if self.site.leads_implant() {
            self.receipt_deficit()
        } else {
            Length::ZERO
        }
    }

    /// From the platform as planned to the implant's end as it is measured and as the guide leads it.
    pub(in crate::plan) fn implant_end(self) -> Length {
        self.implant.platform_to_apex_mm + self.implant_deficit()
    }

    /// A change of this site, after which something is stale.
    pub(in crate::plan) fn since(self, change: Change) -> Since {
        let site = self.site.id.clone();
        // Measuring anew gives nothing that holds for both depths.
        let change = match change {
            Change::Depth if self.site.heights.is_off_guide() => Change::OffGuide,
            change => change,
        };
        Since { site, change }
    }

    /// The same site with its heights as they were at another placement.
    pub(in crate::plan) fn as_placed(self, placement: Placement) -> Self {
        Self { placement, ..self }
    }

    /// A height measured at the site, unknown once the site was moved or tilted, or grafted since the
    /// scan, or its bone is in another state.
    pub(in crate::plan) fn height(
        self,
        field: SiteHeight,
        measured: Option<Length>,
    ) -> Known<Length> {
        let place = self.at(SitePlace::Height(field));
        let bone = self.site.heights.bone_then(field);
        match (measured, self.site.heights.measured_at(field)) {
            (None, _) => Known::missing(place),
            (Some(_), None) => Known::missing(self.at(SitePlace::Height(SiteHeight::MeasuredAt))),
            (Some(_), Some(_)) if self.before_graft(bone).is_some() => {
                Known::Unknown(vec![Reason::BeforeGraft(place)])
            }
            (Some(_), Some(_)) if self.is_other_bone(bone) => {
                Known::Unknown(vec![Reason::Stale(place, self.since(Change::Bone))])
            }
            (Some(_), Some(_)) if self.is_undated(bone) => {
                Known::Unknown(vec![Reason::ScanUndated(place)])
            }
            (Some(_), Some(then)) if then == self.placement && self.is_of_other_depth(field) => {
                Known::Unknown(vec![Reason::Stale(place, self.since(Change::Depth))])
            }
            (Some(height), Some(then)) if then == self.placement => Known::Is(height),
            (Some(_), Some(_)) => {
                Known::Unknown(vec![Reason::Stale(place, self.since(Change::Moved))])
            }
        }
    }

    /// True if a height is of the platform at another depth than it is planned at, or led to by a guide that was made.
    fn is_of_other_depth(self, field: SiteHeight) -> bool {
        let heights = &self.site.heights;
        match field {
            SiteHeight::SocketRim => heights.rim_is_old(),
            SiteHeight::PlatformBelowCrest => heights.is_off_guide(),
            _ => false,
        }
    }

    /// The same as a term.
    pub(in crate::plan) fn height_term(
        self,
        name: TermName,
        field: SiteHeight,
        measured: Option<Length>,
    ) -> Term {
        Term {
            name,
            sign: Sign::Plus,
            from: Origin::Case(self.at(SitePlace::Height(field)).into()),
            value: self.height(field, measured).map(Quantity::Length),
            basis: Basis::of(self.site.heights.word_on(field)),
        }
    }

    /// The most coronal crest above the platform, as a term.
    pub(in crate::plan) fn crest(self) -> Term {
        let crest = self.site.heights.platform_below_crest;
        let highest = crest.map(|crest| crest.highest_mm);
        self.height_term(TermName::CrestAbovePlatform, CREST, highest)
    }

    /// What freehand depth counts from, above the platform, as a term: the most apical crest, or in a
    /// fresh socket its rim.
    pub(super) fn freehand_datum_term(self) -> Term {
        let (name, field, height) = self.freehand_height();
        self.height_term(name, field, height)
    }

    fn freehand_height(self) -> (TermName, SiteHeight, Option<Length>) {
        let heights = &self.site.heights;
        if self.is_socket() {
            let rim = heights.platform_below_socket_rim_mm;
            return (TermName::SocketRimAbovePlatform, SiteHeight::SocketRim, rim);
        }
        let lowest = heights.platform_below_crest.map(|crest| crest.lowest_mm);
        (TermName::LowestCrestAbovePlatform, CREST, lowest)
    }

    /// True where a tooth or an implant comes out right before: within its socket there is no crest.
    pub(in crate::plan) fn is_socket(self) -> bool {
        self.site.state.socket().is_some()
    }

    /// The most coronal crest above the platform.
    pub(in crate::plan) fn highest_crest(self) -> Known<Length> {
        let crest = self.site.heights.platform_below_crest;
        self.height(CREST, crest.map(|crest| crest.highest_mm))
    }

    /// The same as it was measured, wherever the site was moved since.
    pub(in crate::plan) fn freehand_datum_then(self) -> Known<Length> {
        let (_, field, _) = self.freehand_height();
        let then = self.site.heights.measured_at(field);
        self.as_placed(then.unwrap_or(self.placement))
            .freehand_datum()
    }

    /// What freehand depth counts from, above the platform.
    pub(in crate::plan) fn freehand_datum(self) -> Known<Length> {
        let (_, field, height) = self.freehand_height();
        self.height(field, height)
    }
}

/// A drill sleeve's seat above the rim.
pub(in crate::plan) fn seat_above_rim(sleeve: &DrillSleeve) -> Term {
    Term::kit(
        TermName::SeatAboveRim,
        "drill_sleeves",
        &sleeve.id,
        "seat_above_rim_mm",
        sleeve.seat_above_rim_mm,
    )
}

impl StepContext<'_> {
    /// The drill sleeve's seat above the rim; nothing where there is none.
    pub(in crate::plan) fn seat_above_rim(&self) -> Option<Term> {
        self.sleeve.map(seat_above_rim)
    }

    /// Bore that leads the drill, in the guide at hand.
    pub(in crate::plan) fn bore(&self, site: &SiteContext<'_>) -> Option<Length> {
        match self.path {
            StepPath::DrillSleeve => self.sleeve.map(|sleeve| sleeve.bore_mm),
            StepPath::MasterSleeve => Some(site.master_bore_at_hand()),
            StepPath::Freehand => None,
        }
    }
}
