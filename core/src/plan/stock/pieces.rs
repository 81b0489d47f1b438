//! The settings of each piece of a drill, and the re-sets of its stop in surgery.
//!
//! Each setting has a drill of its own as long as there are enough. Where there are fewer, but
//! re-sets do ([`Pools`]), the settings are laid on those that there are, along the order that is followed,
//! so that it costs least ([`lay`]). Where re-sets do not help every setting is laid as if it had a drill,
//! and the stock says that they are missing.

use crate::case::Case;
use crate::kit::{Drill, DrillId, Label, PinId, StopId};
use crate::order::{PieceRates, PieceUse, lay};
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::fit::pins::PinSheet;
use crate::plan::order::operations::Operation;
use crate::plan::stock::loading::{DrillSetup, ServedPlace, WHOLE_CASE};
use crate::plan::stock::pools::{AskedSetting, Pools};
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
    /// Each setting once.
    pub(in crate::plan) settings: Vec<DrillSetup>,
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
    let each = uses.iter().filter(|used| known.insert(&used.setting_id));
    let settings: Vec<DrillSetup> = each.map(|used| used.set.clone()).collect();
    let asked: Vec<AskedSetting> = settings
        .iter()
        .map(|set| (set.drill.clone(), set.stop.clone(), set.set.get()))
        .collect();
    let pools = Pools::of(&case.kit, &asked);
    let mut pieces: Vec<Piece<'a>> = Vec::new();
    let mut places: BTreeMap<(Option<usize>, usize), usize> = BTreeMap::new();
    for (used, on) in uses.iter().zip(assign(case, order, &uses, &pools)) {
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

/// The piece for each use: its pool, by its place, where drills of that are set anew, and its place among
/// the pieces there. Everywhere else each setting has a piece of its own.
fn assign(
    case: &Case,
    order: &[Operation],
    uses: &[Used<'_>],
    pools: &Pools,
) -> Vec<(Option<usize>, usize)> {
    let pool_of = |used: &Used<'_>| {
        let pool = pools.of_drill(&used.set.drill, used.set.stop.as_ref());
        pool.filter(|pool| pools.has_resets(*pool))
    };
    let of: Vec<Option<usize>> = uses.iter().map(pool_of).collect();
    let mut numbers: BTreeMap<&SettingId, usize> = BTreeMap::new();
    let mut piece_uses: Vec<PieceUse> = Vec::with_capacity(uses.len());
    for (n, used) in uses.iter().enumerate() {
        let fresh = numbers.len();
        let before = n.checked_sub(1).filter(|before| of[*before] == of[n]);
        // An implant is turned in with an instrument of its own.
        let inserts = |one: &Operation| matches!(one, Operation::Insert { .. });
        piece_uses.push(PieceUse {
            setting: *numbers.entry(&used.setting_id).or_insert(fresh),
            in_hand: before.is_some_and(|n| !order[uses[n].at..used.at].iter().any(inserts)),
        });
    }
    let mut assign: Vec<_> = piece_uses.iter().map(|used| (None, used.setting)).collect();
    let rates = PieceRates::of(case.run.objective, &case.run.weights);
    for (pool, all) in pools.all.iter().enumerate() {
        let own: Vec<usize> = (0..uses.len()).filter(|n| of[*n] == Some(pool)).collect();
        let asked: Vec<PieceUse> = own.iter().map(|n| piece_uses[*n]).collect();
        for (n, piece) in own.into_iter().zip(lay(&asked, all.pieces as usize, rates)) {
            assign[n] = (Some(pool), piece);
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
