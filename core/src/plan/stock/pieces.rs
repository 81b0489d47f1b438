//! The settings of each piece of a drill, and the re-sets of its stop in surgery.
//!
//! Each setting has a drill of its own as long as there are enough. Where there are fewer, but
//! re-sets do, the settings are laid on those that there are, along the order that is followed
//! ([`assign_pieces`]). Where re-sets do not help every setting is laid as if it had a drill, and the stock says
//! that they are missing.

use crate::case::Case;
use crate::kit::{Drill, DrillId, Label, PinId, StopId};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::fit::pins::PinSheet;
use crate::plan::order::operations::Operation;
use crate::plan::stock::assign::assign_pieces;
use crate::plan::stock::loading::{DrillSetup, ServedPlace, WHOLE_CASE};
use crate::plan::stock::share::{Demand, Pool, shares};
use std::collections::{BTreeMap, BTreeSet};

/// A drill with everything that is set on it, one after the other.
#[derive(Debug)]
pub(in crate::plan) struct Piece<'a> {
    pub(in crate::plan) drill: &'a Drill,
    /// Its settings; never empty. Those after the first are set anew in surgery.
    pub(in crate::plan) settings: Vec<PieceSetting>,
}

/// A setting of a piece, as long as it stays.
#[derive(Debug)]
pub(in crate::plan) struct PieceSetting {
    pub(in crate::plan) set: DrillSetup,
    pub(in crate::plan) serves: Vec<ServedPlace>,
    /// Names of the pins that it is for.
    pub(in crate::plan) pins: Vec<Label>,
    /// Its first and last use, by their place in the order.
    pub(in crate::plan) first: usize,
    pub(in crate::plan) last: usize,
    setting_id: SettingId,
}

/// The pieces of all drills, by their first use, with what was asked for.
pub(in crate::plan) struct Pieces<'a> {
    pub(in crate::plan) pieces: Vec<Piece<'a>>,
    /// Drill and stop of each setting, each setting once.
    pub(in crate::plan) settings: Vec<(DrillId, Option<StopId>)>,
}

/// A drill in use.
struct Used<'a> {
    at: usize,
    drill: &'a Drill,
    set: DrillSetup,
    serves: ServedPlace,
    pin: Option<Label>,
    setting_id: SettingId,
}

/// The identity of a setting that uses ask for. Two settings that nobody knows are never the same,
/// but equal pins have one depth, known or not.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum SettingId {
    Known(DrillId, Option<StopId>, crate::measure::Length),
    Pin(PinId),
    Alone(usize),
}

/// Lays every use of a drill on a piece.
pub(in crate::plan) fn pieces<'a>(
    case: &'a Case,
    cuts: &[SiteCuts<'a>],
    pins: &[PinSheet],
    order: &[Operation],
) -> Pieces<'a> {
    let uses = uses(case, cuts, pins, order);
    let mut known: BTreeSet<&SettingId> = BTreeSet::new();
    let asked = uses.iter().filter(|used| known.insert(&used.setting_id));
    let settings: Vec<_> = asked
        .map(|used| (used.set.drill.clone(), used.set.stop.clone()))
        .collect();
    let mut wanted = Demand::new();
    for key in &settings {
        *wanted.entry(key.clone()).or_default() += 1;
    }
    let shares = shares(&case.kit, &wanted);
    let shares_with_resets = shares_with_resets(case, &uses, &wanted, &shares);
    let mut pieces: Vec<Piece<'a>> = Vec::new();
    let mut places: BTreeMap<(Option<usize>, usize), usize> = BTreeMap::new();
    for (used, on) in uses.iter().zip(assign(&uses, &shares, &shares_with_resets)) {
        let setting = PieceSetting {
            set: used.set.clone(),
            serves: vec![used.serves.clone()],
            pins: used.pin.iter().cloned().collect(),
            first: used.at,
            last: used.at,
            setting_id: used.setting_id.clone(),
        };
        match places.get(&on) {
            Some(place) if pieces[*place].is_set_to(&used.setting_id) => pieces[*place].serve(used),
            Some(place) => pieces[*place].settings.push(setting),
            None => {
                places.insert(on, pieces.len());
                pieces.push(Piece {
                    drill: used.drill,
                    settings: vec![setting],
                });
            }
        }
    }
    Pieces { pieces, settings }
}

/// Every use of a drill, in order.
fn uses<'a>(
    case: &'a Case,
    cuts: &[SiteCuts<'a>],
    pins: &[PinSheet],
    order: &[Operation],
) -> Vec<Used<'a>> {
    let used = |(at, one): (usize, &Operation)| {
        let (drill, set, serves) = match one {
            Operation::Pin { name } => {
                let sheet = pins.iter().find(|pin| pin.name == *name)?;
                let drill = case.kit.drill(&sheet.drill)?;
                (drill, DrillSetup::of_pin(sheet), WHOLE_CASE)
            }
            Operation::Drill { site, step } => {
                let cut = cuts.iter().find(|cut| cut.site.site.id == *site)?;
                let mut both = cut.site.steps().zip(cut.steps);
                let (context, sheet) = both.find(|(context, _)| context.step.id == *step)?;
                let serves = ServedPlace {
                    site: Some(site.clone()),
                    step: Some(step.clone()),
                };
                (context.drill, DrillSetup::of_step(sheet), serves)
            }
            _ => return None,
        };
        let setting_id = match (set.set.get(), one) {
            (Some(length), _) => SettingId::Known(set.drill.clone(), set.stop.clone(), length),
            (None, Operation::Pin { name }) => {
                let sheet = pins.iter().find(|pin| pin.name == *name)?;
                SettingId::Pin(sheet.pin.clone())
            }
            (None, _) => SettingId::Alone(at),
        };
        let pin = match one {
            Operation::Pin { name } => Some(name.clone()),
            _ => None,
        };
        Some(Used {
            at,
            drill,
            set,
            serves,
            pin,
            setting_id,
        })
    };
    order.iter().enumerate().filter_map(used).collect()
}

/// The shares of the drills for which re-sets do, by their places: every setting is known and on a stop, there is a
/// piece for each of its shares, and a stop for each drill that takes one.
fn shares_with_resets(
    case: &Case,
    uses: &[Used<'_>],
    wanted: &Demand,
    shares: &[Pool],
) -> BTreeSet<usize> {
    let settable = |drill: &DrillId| {
        let mut own = uses.iter().filter(|used| used.set.drill == *drill);
        own.all(|used| used.set.stop.is_some() && used.set.set.value().is_some())
    };
    let goes_round = |stop: &Option<StopId>| {
        let takers = wanted.keys().filter(|(_, other)| other == stop).count();
        let entry = stop.as_ref().and_then(|id| case.kit.stop(id));
        entry.is_some_and(|entry| entry.quantity as usize >= takers)
    };
    let does = |drill: &DrillId| {
        let mut own = shares.iter().filter(|share| share.drill == *drill);
        own.all(|share| share.pieces > 0 && share.stops.iter().all(goes_round)) && settable(drill)
    };
    let places = (0..shares.len()).filter(|n| does(&shares[*n].drill));
    places.collect()
}

/// The piece for each use: its share, by its place, and its place among the pieces of that share.
/// Without a share each setting has a piece of its own.
fn assign(
    uses: &[Used<'_>],
    shares: &[Pool],
    shares_with_resets: &BTreeSet<usize>,
) -> Vec<(Option<usize>, usize)> {
    let of: Vec<Option<usize>> = uses
        .iter()
        .map(|used| {
            let own = |n: &usize| {
                let share = &shares[*n];
                share.drill == used.set.drill && share.stops.contains(&used.set.stop)
            };
            shares_with_resets.iter().copied().find(own)
        })
        .collect();
    let mut assign = vec![(None, 0); uses.len()];
    for group in shares_with_resets.iter().copied().map(Some).chain([None]) {
        let own: Vec<usize> = (0..uses.len()).filter(|n| of[*n] == group).collect();
        let asked: Vec<&SettingId> = own.iter().map(|n| &uses[*n].setting_id).collect();
        let most = group.map_or(usize::MAX, |n| shares[n].pieces as usize);
        for (n, piece) in own.into_iter().zip(assign_pieces(&asked, most)) {
            assign[n] = (group, piece);
        }
    }
    assign
}

impl Piece<'_> {
    /// The setting that it is at.
    fn now(&self) -> &PieceSetting {
        &self.settings[self.settings.len() - 1]
    }

    fn is_set_to(&self, setting_id: &SettingId) -> bool {
        self.now().setting_id == *setting_id
    }

    /// One more use of the setting that it is at.
    fn serve(&mut self, used: &Used<'_>) {
        let Some(setting) = self.settings.last_mut() else {
            return;
        };
        setting.last = used.at;
        setting.set.bench.extend(used.set.bench.iter().cloned());
        setting.pins.extend(used.pin.clone());
        // Pins serve the whole case, which is said once.
        if used.serves != WHOLE_CASE || !setting.serves.contains(&WHOLE_CASE) {
            setting.serves.push(used.serves.clone());
        }
    }

    /// True if a stop of this sort is on it at any time.
    pub(in crate::plan) fn takes(&self, stop: &StopId) -> bool {
        let mut settings = self.settings.iter();
        settings.any(|setting| setting.set.stop.as_ref() == Some(stop))
    }

    /// Number of re-sets of its stop in surgery.
    pub(in crate::plan) fn resets(&self) -> usize {
        self.settings.len() - 1
    }
}
