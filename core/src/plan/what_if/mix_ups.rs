//! Mix-ups: what something else on the tray would do at a site if it were taken by mistake.

use crate::kit::{
    Drill, DrillId, DrillSleeve, DrillSleeveId, Label, SiteId, SlotKind, StepId, Stop,
};
use crate::measure::Length;
use crate::plan::clearance::neighbours::PlacedSite;
use crate::plan::depth::context::{StepContext, StepPath};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::depth::fits::Fits;
use crate::plan::depth::steps::StepSheet;
use crate::plan::figure::Reason;
use crate::plan::finding::Finding;
use crate::plan::fit::pins::PinSheet;
use crate::plan::fit::sleeves;
use crate::plan::stock::loading::{LoadItem, Loading};
use crate::plan::what_if::harm::{Endangered, Exceeded, SiteMargins};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// A mistake that would cut too deep or too wide at a site.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixUp {
    /// The site where it would happen.
    pub site: SiteId,
    /// The step in which it would happen.
    pub step: StepId,
    /// The guidance of that step's drill.
    pub path: StepPath,
    /// The drill sleeve of that step.
    pub sleeve: Option<DrillSleeveId>,
    /// The mistake.
    pub mistake: Mistake,
    /// True if drill and sleeve are the step's own and only the setting is another's: nothing but
    /// the figure tells the two apart.
    pub only_setting: bool,
    /// The slot of the thing taken by mistake; nothing where it has none or is left out.
    pub slot: Option<Label>,
    /// Whether the thing taken may be used as the plan sets it: where not, nobody sets it so, and its setting is named
    /// nowhere.
    pub fits: Fits,
    /// The measure that it exceeds, or that it is only wider.
    pub exceeded: Exceeded,
    /// Excess of its cut in depth over that; zero where it is only wider.
    pub deeper: Length,
    /// Excess of its cut in width over the site's last drill; nothing where no wider.
    pub wider: Option<Length>,
    /// Depth of its cut below the platform.
    pub cut: Length,
    /// Everything that it would come too close to, closest first; nothing where nobody knows, or where
    /// it is only wider, or deeper than its step only.
    pub breaks: Vec<Endangered>,
    /// True if there is anatomy there, besides, that nobody knows.
    pub unknown: bool,
}

/// Something taken by mistake.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mistake {
    /// Another instrument of the tray: a drill at the setting of another step.
    OtherSetting {
        /// The drill.
        drill: DrillId,
        /// Its setting.
        set: Length,
        /// The site that it belongs to.
        of: SiteId,
        /// The step that it belongs to.
        step: StepId,
    },
    /// The drill of a fixation pin.
    PinDrill {
        /// The drill.
        drill: DrillId,
        /// Its setting, or where its mark is.
        set: Length,
        /// The pin's name in the case.
        pin: Label,
    },
    /// Another site's drill with its sleeve and its setting, all three together.
    OtherSet {
        /// The drill.
        drill: DrillId,
        /// Its sleeve.
        sleeve: DrillSleeveId,
        /// Its setting.
        set: Length,
        /// The site that it belongs to.
        of: SiteId,
        /// The step that it belongs to.
        step: StepId,
    },
    /// The right drill without its drill sleeve.
    WithoutSleeve {
        /// The drill.
        drill: DrillId,
    },
    /// The right drill in another drill sleeve.
    OtherSleeve {
        /// The drill.
        drill: DrillId,
        /// The sleeve.
        sleeve: DrillSleeveId,
    },
    /// A guided stop used without the guide.
    WithoutGuide {
        /// The drill.
        drill: DrillId,
        /// True if its depth counts from the crest as it was measured before the site was moved.
        before_move: bool,
    },
}

/// Mistakes of which only the deepest is worth listing at one site.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
enum MistakeGroup {
    OnlySetting(StepId),
    OtherSetting(DrillId, Length),
    PinDrill(DrillId, Length),
    OtherSet(DrillId, DrillSleeveId, Length),
    WithoutSleeve,
    OtherSleeve(DrillSleeveId),
    WithoutGuide,
}

impl Mistake {
    fn group(&self, step: &StepId, only_setting: bool) -> MistakeGroup {
        match self {
            _ if only_setting => MistakeGroup::OnlySetting(step.clone()),
            Self::OtherSetting { drill, set, .. } => {
                MistakeGroup::OtherSetting(drill.clone(), *set)
            }
            Self::PinDrill { drill, set, .. } => MistakeGroup::PinDrill(drill.clone(), *set),
            Self::OtherSet {
                drill, sleeve, set, ..
            } => MistakeGroup::OtherSet(drill.clone(), sleeve.clone(), *set),
            Self::WithoutSleeve { .. } => MistakeGroup::WithoutSleeve,
            Self::OtherSleeve { sleeve, .. } => MistakeGroup::OtherSleeve(sleeve.clone()),
            Self::WithoutGuide { .. } => MistakeGroup::WithoutGuide,
        }
    }
}

/// The mix-ups at all sites that would break a limit, or might since nobody knows the anatomy
/// there, those that cut wider than a site's last drill and those that cut deeper than a step that
/// is not to full depth; the deepest of each kind at each site, deepest first. `findings` are those
/// of all clearances as planned.
pub(in crate::plan) fn mix_ups(
    placed: &[PlacedSite<'_>],
    pins: &[PinSheet],
    loaded: &Loading,
    findings: &[Finding],
) -> Vec<MixUp> {
    let cuts: Vec<SiteCuts<'_>> = placed.iter().map(|one| one.cut).collect();
    let cuts = cuts.as_slice();
    // Looked up once: each step is held against every other.
    let all: Vec<PlannedStep<'_>> = cuts.iter().flat_map(planned).collect();
    let mut out = Vec::new();
    for one in placed {
        let cut = &one.cut;
        let Some(margins) = SiteMargins::of(one, placed, findings) else {
            continue;
        };
        let mut worst: BTreeMap<MistakeGroup, Taken<'_>> = BTreeMap::new();
        for (step, sheet) in cut.site.steps().zip(cut.steps) {
            for taken in mistakes(cut, (&all, cuts, pins), step, (sheet, &margins)) {
                let group = taken.mistake.group(&step.step.id, taken.only_setting);
                match worst.entry(group) {
                    Entry::Occupied(kept) if kept.get().depth >= taken.depth => {}
                    Entry::Occupied(mut kept) => *kept.get_mut() = taken,
                    Entry::Vacant(place) => {
                        place.insert(taken);
                    }
                }
            }
        }
        let worst = worst.into_values();
        let worst = worst.filter_map(|taken| taken.mix_up(cut, &margins));
        let mut list: Vec<MixUp> = worst.collect();
        list.sort_by(|a, b| {
            (b.only_setting, b.cut)
                .cmp(&(a.only_setting, a.cut))
                .then_with(|| a.mistake.cmp(&b.mistake))
        });
        let likelier: Vec<(Mistake, Length)> = list
            .iter()
            .filter(|one| one.only_setting)
            .map(|one| (one.mistake.clone(), one.cut))
            .collect();
        // The same instrument at another step, and no deeper there.
        list.retain(|one| {
            one.only_setting
                || !likelier
                    .iter()
                    .any(|(mistake, cut)| *mistake == one.mistake && *cut >= one.cut)
        });
        for one in &mut list {
            let taken = taken(&one.mistake, loaded);
            one.slot = taken.and_then(|item| item.slot.clone());
            let set = taken.and_then(|item| item.set.as_ref());
            one.fits = set.map_or(Fits::AsFarAsKnown, |on| on.fits);
        }
        out.extend(list);
    }
    out
}

/// A step of any site, looked up.
type PlannedStep<'a> = (&'a SiteCuts<'a>, StepContext<'a>, &'a StepSheet);

fn planned<'a>(cut: &'a SiteCuts<'a>) -> impl Iterator<Item = PlannedStep<'a>> {
    let steps = cut.site.steps().zip(cut.steps);
    steps.map(move |(step, sheet)| (cut, step, sheet))
}

/// What has no figure, so that some mistakes at a site cannot be worked out.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NotTried {
    /// What of the settings, seats and heights of the site itself is not known.
    pub here: Vec<Reason>,
    /// The other sites of whose drills one may be taken here and has no setting.
    pub sites: Vec<SiteId>,
    /// The pins whose drill may be taken here and has no setting.
    pub pins: Vec<Label>,
}

impl NotTried {
    /// True if all were tried.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.here.is_empty() && self.sites.is_empty() && self.pins.is_empty()
    }
}

/// What could not be tried at a site.
pub(in crate::plan) fn not_tried(
    cut: &SiteCuts<'_>,
    (cuts, pins): (&[SiteCuts<'_>], &[PinSheet]),
) -> NotTried {
    let mut here = cut.deepest().known().map(|_| ());
    for (step, sheet) in cut.site.steps().zip(cut.steps) {
        here = here
            .and(sheet.seat.known_length())
            .and(sheet.set.known_length())
            .map(|_| ());
        if step.path != StepPath::Freehand {
            // How deep it would cut without the guide.
            here = here.and(cut.site.freehand_datum()).map(|_| ());
        }
    }
    let passes = |drill: &Drill| {
        let mut steps = cut.site.steps();
        steps.any(|step| passes(step.bore(&cut.site), drill))
    };
    let unset = |other: &SiteCuts<'_>| {
        planned(other).any(|(_, theirs, sheet)| {
            let with_sleeve = theirs
                .sleeve
                .filter(|sleeve| goes_in(cut, sleeve, theirs.drill));
            let may_be_taken = passes(theirs.drill) || with_sleeve.is_some();
            sheet.set.length().is_none() && may_be_taken
        })
    };
    let others = cuts.iter().map(|other| (&other.site.site.id, other));
    let others = others.filter(|(id, other)| **id != cut.site.site.id && unset(other));
    let unset_pin = |pin: &&PinSheet| {
        let drill = cut.site.kit.drill(&pin.drill);
        pin.set.length().is_none() && drill.is_some_and(passes)
    };
    NotTried {
        here: here.reasons().to_vec(),
        sites: others.map(|(id, _)| id.clone()).collect(),
        pins: pins
            .iter()
            .filter(unset_pin)
            .map(|pin| pin.name.clone())
            .collect(),
    }
}

/// The thing taken by mistake, as it lies or is set anew.
fn taken<'a>(mistake: &Mistake, loaded: &'a Loading) -> Option<&'a LoadItem> {
    match mistake {
        Mistake::OtherSetting { of, step, .. } | Mistake::OtherSet { of, step, .. } => {
            crate::plan::stock::loading::drill_of(&loaded.items, &loaded.resets, of, step)
        }
        Mistake::PinDrill { pin, .. } => {
            let set_anew = loaded.resets.iter().map(|reset| &reset.to);
            let mut all = loaded.items.iter().chain(set_anew);
            all.find(|item| item.pins.contains(pin))
        }
        Mistake::OtherSleeve { sleeve, .. } => loaded
            .items
            .iter()
            .find(|item| item.kind == SlotKind::Sleeve && item.entry == sleeve.as_str()),
        Mistake::WithoutSleeve { .. } | Mistake::WithoutGuide { .. } => None,
    }
}

/// A mistake with the step that it happens in and the cut that it would make.
struct Taken<'a> {
    mistake: Mistake,
    only_setting: bool,
    sheet: &'a StepSheet,
    depth: Length,
    wide: Length,
}

impl Taken<'_> {
    /// It with the harm that it does at a site.
    fn mix_up(self, cut: &SiteCuts<'_>, margins: &SiteMargins) -> Option<MixUp> {
        let harm = margins.harm(self.sheet, self.depth, self.wide)?;
        Some(MixUp {
            site: cut.site.site.id.clone(),
            step: self.sheet.id.clone(),
            path: self.sheet.path,
            sleeve: self.sheet.sleeve.clone(),
            slot: None,
            fits: Fits::AsFarAsKnown,
            mistake: self.mistake,
            only_setting: self.only_setting,
            exceeded: harm.exceeded,
            deeper: harm.deeper,
            wider: harm.wider,
            cut: self.depth,
            breaks: harm.breaks,
            unknown: harm.unknown,
        })
    }
}

/// The mistakes at a step that do harm there.
struct Harmful<'a> {
    margins: &'a SiteMargins,
    sheet: &'a StepSheet,
    all: Vec<Taken<'a>>,
}

impl Harmful<'_> {
    /// Adds a cut to this depth, where it does harm. `mistake` is told with whether only the setting
    /// is another's.
    fn add(&mut self, depth: Length, drill: &Drill, mistake: impl FnOnce() -> (Mistake, bool)) {
        let wide = drill.cutting_diameter_mm;
        if self.margins.is_harmed(self.sheet, depth, wide) {
            let (mistake, only_setting) = mistake();
            self.all.push(Taken {
                mistake,
                only_setting,
                sheet: self.sheet,
                depth,
                wide,
            });
        }
    }
}

/// A step at which something may be taken by mistake.
struct Here<'a> {
    cut: &'a SiteCuts<'a>,
    step: StepContext<'a>,
    /// From the platform to where its own stop lands, by the guide as it was measured.
    seat: Length,
    /// The same to the master sleeve's rim; nothing freehand.
    rim: Option<Length>,
}

impl<'a> Here<'a> {
    /// Nothing where the seat is not known.
    fn of(cut: &'a SiteCuts<'a>, step: StepContext<'a>, sheet: &StepSheet) -> Option<Self> {
        let seat = sheet.seat.length()?;
        let above_rim = step
            .sleeve
            .map_or(Length::ZERO, |sleeve| sleeve.seat_above_rim_mm);
        let (seat, rim) = match step.path {
            StepPath::Freehand => (seat, None),
            StepPath::DrillSleeve | StepPath::MasterSleeve => {
                let seat = seat - cut.site.receipt_deficit();
                (seat, Some(seat - above_rim))
            }
        };
        Some(Self {
            cut,
            step,
            seat,
            rim,
        })
    }

    /// The seat of another stop that is taken at this step: on an empty master sleeve it may sink.
    fn seat_of(&self, stop: Option<&Stop>) -> Length {
        match self.step.path {
            StepPath::MasterSleeve => {
                self.seat - sleeves::lands_below_rim(self.cut.site.master, None, stop)
            }
            StepPath::DrillSleeve | StepPath::Freehand => self.seat,
        }
    }

    /// The depth below the platform that a drill of another stop reaches at this step.
    fn reach(&self, drill: &Drill, set: Length, stop: Option<&Stop>) -> Length {
        let tip = match self.step.path {
            StepPath::MasterSleeve => self.held(drill, set, stop),
            StepPath::DrillSleeve | StepPath::Freehand => set,
        };
        tip - self.seat_of(stop)
    }

    /// The length from tip to what lands on the empty master sleeve. A stop no wider than its bore falls through:
    /// nothing holds the drill then before its shank does.
    fn held(&self, drill: &Drill, set: Length, stop: Option<&Stop>) -> Length {
        let bore = self.cut.site.master_bore_at_hand();
        if stop.is_some_and(|stop| stop.landing_diameter_mm <= bore) {
            set.max(drill.free_length_mm)
        } else {
            set
        }
    }

    /// Drills on the tray set for other steps, alone or with their drill sleeves.
    fn others(&self, all: &[PlannedStep<'_>], out: &mut Harmful<'_>) {
        let (cut, step) = (self.cut, &self.step);
        // Freehand nothing holds back a drill that is too wide.
        let bore = step.bore(&cut.site);
        for (other, theirs, their_sheet) in all {
            let elsewhere = other.site.site.id != cut.site.site.id;
            let Some(set) = their_sheet.set.length() else {
                continue;
            };
            let of = || (other.site.site.id.clone(), theirs.step.id.clone());
            let is_other = elsewhere || theirs.step.id != step.step.id;
            if is_other && passes(bore, theirs.drill) {
                let depth = self.reach(theirs.drill, set, theirs.stop);
                out.add(depth, theirs.drill, || {
                    let (of, step_of) = of();
                    let mistake = Mistake::OtherSetting {
                        drill: theirs.drill.id.clone(),
                        set,
                        of,
                        step: step_of,
                    };
                    let only_setting = theirs.drill.id == step.drill.id
                        && theirs.path == step.path
                        && theirs.step.sleeve == step.step.sleeve;
                    (mistake, only_setting)
                });
            }
            let led = theirs.path == StepPath::DrillSleeve;
            if let (true, true, Some(sleeve), Some(rim)) = (elsewhere, led, theirs.sleeve, self.rim)
                && step.sleeve.is_none_or(|own| own.id != sleeve.id)
                && goes_in(cut, sleeve, theirs.drill)
            {
                let depth = set - (rim + sleeve.seat_above_rim_mm);
                out.add(depth, theirs.drill, || {
                    let (of, step_of) = of();
                    let mistake = Mistake::OtherSet {
                        drill: theirs.drill.id.clone(),
                        sleeve: sleeve.id.clone(),
                        set,
                        of,
                        step: step_of,
                    };
                    (mistake, false)
                });
            }
        }
    }

    /// Drills on the tray for the guide's pins.
    fn pin_drills(&self, pins: &[PinSheet], out: &mut Harmful<'_>) {
        let kit = self.cut.site.kit;
        let bore = self.step.bore(&self.cut.site);
        for pin in pins {
            let (Some(set), Some(drill)) = (pin.set.length(), kit.drill(&pin.drill)) else {
                continue;
            };
            if passes(bore, drill) {
                let stop = pin.stop.as_ref().and_then(|id| kit.stop(id));
                out.add(self.reach(drill, set, stop), drill, || {
                    let mistake = Mistake::PinDrill {
                        drill: drill.id.clone(),
                        set,
                        pin: pin.name.clone(),
                    };
                    (mistake, false)
                });
            }
        }
    }

    /// The step's own drill at its own setting, led otherwise.
    fn own(&self, set: Length, cuts: &[SiteCuts<'_>], out: &mut Harmful<'_>) {
        let (cut, step) = (self.cut, &self.step);
        let Some(rim) = self.rim else {
            return;
        };
        let drill = || step.drill.id.clone();
        if let Some(own) = step.sleeve {
            let sunk = sleeves::lands_below_rim(cut.site.master, Some(own), step.stop);
            let mistake = || (Mistake::WithoutSleeve { drill: drill() }, false);
            let held = self.held(step.drill, set, step.stop);
            out.add(held - (rim - sunk), step.drill, mistake);
        }
        for sleeve in &cut.site.kit.drill_sleeves {
            let other = step.sleeve.is_none_or(|own| own.id != sleeve.id);
            if other && goes_in(cut, sleeve, step.drill) && on_tray(sleeve, cuts) {
                let depth = set - (rim + sleeve.seat_above_rim_mm);
                out.add(depth, step.drill, || {
                    let mistake = Mistake::OtherSleeve {
                        drill: drill(),
                        sleeve: sleeve.id.clone(),
                    };
                    (mistake, false)
                });
            }
        }
        // A stop lands there, and a mark may be read there, though either is for the seat.
        let crest = cut.site.freehand_datum().get();
        let before_move = crest.is_none();
        // About as deep, once the site was moved: a warning for which an old crest is better than none.
        if let Some(crest) = crest.or_else(|| cut.site.freehand_datum_then().get()) {
            let drill = step.drill.id.clone();
            let mistake = || (Mistake::WithoutGuide { drill, before_move }, false);
            out.add(set - crest, step.drill, mistake);
        }
    }
}

fn mistakes<'a>(
    cut: &'a SiteCuts<'a>,
    (all, cuts, pins): (&[PlannedStep<'_>], &[SiteCuts<'_>], &[PinSheet]),
    step: StepContext<'a>,
    (sheet, margins): (&'a StepSheet, &'a SiteMargins),
) -> Vec<Taken<'a>> {
    let mut out = Harmful {
        margins,
        sheet,
        all: Vec::new(),
    };
    if let Some(here) = Here::of(cut, step, sheet) {
        here.others(all, &mut out);
        here.pin_drills(pins, &mut out);
        if let Some(set) = sheet.set.length() {
            here.own(set, cuts, &mut out);
        }
    }
    out.all
}

/// The widest part that has to pass a bore.
fn widest(drill: &Drill) -> Length {
    drill.guided_diameter_mm.max(drill.cutting_diameter_mm)
}

/// True if a drill passes a bore; freehand there is none.
fn passes(bore: Option<Length>, drill: &Drill) -> bool {
    bore.is_none_or(|bore| widest(drill) <= bore)
}

/// True if a drill sleeve fits the guide at a site, and the drill goes through it.
fn goes_in(cut: &SiteCuts<'_>, sleeve: &DrillSleeve, drill: &Drill) -> bool {
    sleeve.fits.contains(&cut.site.master.id) && passes(Some(sleeve.bore_mm), drill)
}

/// True if some site of the case uses a drill sleeve, for a step or for its implant.
fn on_tray(sleeve: &DrillSleeve, cuts: &[SiteCuts<'_>]) -> bool {
    cuts.iter().any(|cut| {
        let of_steps = cut.site.site.steps.iter().map(|step| &step.sleeve);
        let inserts = std::iter::once(&cut.site.site.insertion.sleeve);
        of_steps
            .chain(inserts)
            .any(|used| used.as_ref() == Some(&sleeve.id))
    })
}
