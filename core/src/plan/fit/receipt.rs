//! The guide as it came against the guide as planned.

use crate::case::{GuideState, LimitId, Place, Receipt, ReceiptOf, Rule, SitePlace, SleeveMadeBy};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;
use crate::plan::figure::{Basis, Change, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::finding::{Finding, Verdict};
use crate::plan::fit::made_by::of_other_plan;
use crate::plan::term_name::TermName;

impl SiteContext<'_> {
    /// The last measurement of this on the guide at this site, where it was taken on the guide as planned.
    fn received(&self, of: ReceiptOf) -> Option<Length> {
        self.case.received(self.site, of)
    }

    /// The sleeve of this site as it is recorded that the guide at hand was made with it.
    fn made_with(&self) -> Option<&SleeveMadeBy> {
        let guide = &self.case.guide;
        let made = guide.made_by.as_deref();
        let made = made.filter(|_| guide.state == GuideState::Made)?;
        made.site(&self.site.id)?.sleeve.as_ref()
    }

    /// Height of the master sleeve in the guide at hand: as measured, else as that was made.
    fn height_at_hand(&self) -> Option<Length> {
        let measured = self.received(ReceiptOf::MasterSleeveHeight);
        measured.or_else(|| Some(self.made_with()?.height_mm))
    }

    /// Distance from the platform to the master sleeve's apical face in the guide at hand: as measured, else as that was made.
    fn distance_at_hand(&self) -> Option<Length> {
        let measured = self.received(ReceiptOf::PlatformToSleeve);
        measured.or_else(|| {
            let made = self.made_with()?;
            Some(made.offset?.to_apical_face(made.height_mm))
        })
    }

    /// Height of the master sleeve's coronal rim above the planned one, by distance and sleeve of the guide at hand; what
    /// is not known of it counts as planned. Below zero every guided cut is that much deeper.
    fn seat_off(&self) -> Length {
        let off = |at_hand: Option<Length>, planned: Option<Length>| {
            let both = at_hand.zip(planned);
            both.map_or(Length::ZERO, |(at_hand, planned)| at_hand - planned)
        };
        let height = off(self.height_at_hand(), Some(self.master.height_mm));
        height + off(self.distance_at_hand(), self.distance())
    }

    /// True if distance or sleeve was measured on the guide.
    fn is_seat_measured(&self) -> bool {
        let measured = [ReceiptOf::MasterSleeveHeight, ReceiptOf::PlatformToSleeve];
        measured.iter().any(|of| self.received(*of).is_some())
    }

    /// The basis of [`Self::seat_off`].
    fn basis_of_seat(&self) -> Basis {
        if self.is_seat_measured() {
            Basis::Measured
        } else {
            Basis::Entered
        }
    }

    /// Height of the master sleeve in the guide at hand, as a term: as measured, else by the kit.
    pub(in crate::plan) fn master_height_at_hand(&self) -> Term {
        let Some(measured) = self.received(ReceiptOf::MasterSleeveHeight) else {
            return self.master_height();
        };
        Term {
            name: TermName::ReceiptMasterHeight,
            sign: Sign::Plus,
            from: Origin::Case(Place::Receipts.into()),
            value: Known::Is(Quantity::Length(measured)),
            basis: Basis::Measured,
        }
    }

    /// Bore of the master sleeve in the guide at hand: as measured, else by the kit.
    pub(in crate::plan) fn master_bore_at_hand(&self) -> Length {
        let measured = self.received(ReceiptOf::MasterSleeveBore);
        measured.unwrap_or(self.master.bore_mm)
    }

    /// A finding on what runs in that bore; where it was measured it says so.
    pub(in crate::plan) fn by_master_bore(&self, finding: Finding) -> Finding {
        Finding {
            measured_bore: self.received(ReceiptOf::MasterSleeveBore),
            ..finding
        }
    }

    /// The same as a term for what it leads; nothing where it was not measured.
    pub(in crate::plan) fn measured_bore_term(&self) -> Option<Term> {
        let measured = self.received(ReceiptOf::MasterSleeveBore)?;
        Some(Term {
            name: TermName::ReceiptMasterBore,
            sign: Sign::With,
            from: Origin::Case(Place::Receipts.into()),
            value: Known::Is(Quantity::Length(measured)),
            basis: Basis::Measured,
        })
    }

    /// Depth of the master sleeve's apical face below the planned one, by the distance on the guide at hand,
    /// as a term to take off the room under it; nothing where it is no deeper.
    pub(in crate::plan) fn lower_face_term(&self) -> Option<Term> {
        let at_hand = self.distance_at_hand()?;
        let lower = self.distance()? - at_hand;
        (lower > Length::ZERO).then(|| Term {
            name: TermName::ReceiptLowerFace,
            sign: Sign::Minus,
            from: Origin::Case(Place::Receipts.into()),
            value: Known::Is(Quantity::Length(lower)),
            basis: self.basis_of_seat(),
        })
    }

    /// Depth below the planned one to which everything guided goes with the guide at hand; zero where that is as planned,
    /// higher, or nobody knows.
    pub(in crate::plan) fn receipt_deficit(&self) -> Length {
        (-self.seat_off()).max(Length::ZERO)
    }

    /// Height above the planned depth at which everything guided ends, as a term; nothing where it
    /// does not.
    pub(in crate::plan) fn receipt_excess_term(&self) -> Option<Term> {
        let excess = self.seat_off();
        (excess > Length::ZERO).then(|| Term {
            name: TermName::ReceiptExcess,
            sign: Sign::Plus,
            from: Origin::Case(Place::Receipts.into()),
            value: Known::Is(Quantity::Length(excess)),
            basis: self.basis_of_seat(),
        })
    }

    /// [`Self::receipt_deficit`] as a term; nothing where it is zero.
    pub(in crate::plan) fn receipt_deficit_term(&self) -> Option<Term> {
        let deficit = self.receipt_deficit();
        (deficit > Length::ZERO).then(|| Term {
            name: TermName::ReceiptDeficit,
            sign: Sign::Plus,
            from: Origin::Case(Place::Receipts.into()),
            value: Known::Is(Quantity::Length(deficit)),
            basis: self.basis_of_seat(),
        })
    }
}

/// Checks what was measured on the guide at a site against the plan.
pub(in crate::plan) fn check(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    out.extend(not_measured(site));
    check_seat(site, out);
    out.extend(lower(site));
    for receipt in &site.case.guide.receipt {
        if receipt.site != site.site.id {
            continue;
        }
        let planned = match receipt.of {
            ReceiptOf::MasterSleeveHeight => Some(site.master.height_mm),
            ReceiptOf::MasterSleeveBore => Some(site.master.bore_mm),
            ReceiptOf::PlatformToSleeve => site.distance(),
        };
        let path = Place::ReceiptOf(site.site.id.clone(), receipt.of);
        let finding = Finding::new(Rule::Receipt, path.clone())
            .arg("of", receipt.of.key())
            .arg("measured", receipt.measured_mm);
        if let Some(change) = since(site, receipt) {
            let mut finding = finding.verdict(Verdict::Unknown);
            finding.value = Known::Unknown(vec![Reason::Stale(path, site.since(change))]);
            let cause = of_other_plan(site.case, site.site, Some(receipt));
            out.push(finding.hanging_on(cause.filter(|_| change == Change::GuidePlan)));
            continue;
        }
        let limit = site.case.limits.get(LimitId::Receipt);
        let (Some(planned), Some(limit)) = (planned, limit) else {
            let mut finding = finding.verdict(Verdict::Unknown);
            finding.value = Known::missing(if limit.is_none() {
                Place::Limit(LimitId::Receipt)
            } else {
                site.at(SitePlace::PlatformToSleeve)
            });
            out.push(finding);
            continue;
        };
        let off = receipt.measured_mm - planned;
        let finding = finding
            .verdict(if off.abs() > limit.limit_mm {
                Verdict::Short
            } else {
                Verdict::Clear
            })
            .length(off)
            .held_to(&site.case.limits, LimitId::Receipt)
            .arg("planned", planned);
        out.push(finding);
    }
}

/// What is otherwise than on the guide that something was measured on; nothing where it is this one.
fn since(site: &SiteContext<'_>, receipt: &Receipt) -> Option<Change> {
    let now = site.case.guide_at(site.site)?;
    let Some(then) = &receipt.taken_on else {
        return Some(Change::UnrecordedGuide);
    };
    match then.is(&now) {
        true => None,
        false if then.code == now.code => Some(Change::GuidePlan),
        false => Some(Change::GuideCode),
    }
}

/// What was not measured on a guide that was made, as one finding: all of it, or what is left. What was
/// measured on another guide is told by its own.
fn not_measured(site: &SiteContext<'_>) -> Option<Finding> {
    if site.case.guide.state != GuideState::Made {
        return None;
    }
    let receipts = &site.case.guide.receipt;
    let lacks = |of| {
        let mut here = receipts.iter().filter(|this| this.site == site.site.id);
        !here.any(|receipt| receipt.of == of)
    };
    let missing = match (
        lacks(ReceiptOf::PlatformToSleeve),
        lacks(ReceiptOf::MasterSleeveHeight),
        lacks(ReceiptOf::MasterSleeveBore),
    ) {
        (false, false, false) => return None,
        (true, true, true) => "all",
        (true, true, false) => "distance_height",
        (true, false, true) => "distance_bore",
        (false, true, true) => "height_bore",
        (true, false, false) => "distance",
        (false, true, false) => "height",
        (false, false, true) => "bore",
    };
    let path = Place::Receipt(site.site.id.clone());
    Some(
        Finding::new(Rule::NoReceipt, path)
            .verdict(Verdict::Unknown)
            .arg("missing", missing),
    )
}

/// Distance and sleeve together: each may be within the limit and their sum not.
fn check_seat(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    let path = Place::Receipt(site.site.id.clone());
    let measured = [ReceiptOf::PlatformToSleeve, ReceiptOf::MasterSleeveHeight]
        .map(|of| site.received(of).is_some());
    // One alone is held against the limit by itself; what is not known is told there too.
    let (Some(limit), Some(_), [true, true]) = (
        site.case.limits.get(LimitId::Receipt),
        site.distance(),
        measured,
    ) else {
        return;
    };
    let off = site.seat_off();
    let finding = Finding::new(Rule::ReceiptSeat, path)
        .verdict(if off.abs() > limit.limit_mm {
            Verdict::Short
        } else {
            Verdict::Clear
        })
        .length(off)
        .held_to(&site.case.limits, LimitId::Receipt);
    out.push(finding);
}

/// A guide that seats lower than planned, though within the limit: the settings stay as planned, so
/// every guided cut is deeper by as much.
fn lower(site: &SiteContext<'_>) -> Option<Finding> {
    let deficit = site.receipt_deficit();
    // By its record alone it is told as another guide.
    if !site.is_seat_measured() {
        return None;
    }
    let limit = site.case.limits.get(LimitId::Receipt)?.limit_mm;
    (deficit > Length::ZERO && deficit <= limit).then(|| {
        let path = Place::Receipt(site.site.id.clone());
        Finding::new(Rule::GuideSeatsLower, path)
            .verdict(Verdict::Note)
            .length(deficit)
    })
}
