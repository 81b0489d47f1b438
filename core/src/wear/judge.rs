//! What was counted of a piece, held against its limit.

use super::{Counted, WornPiece};
use crate::kit::{DrillId, Kit, Label, WearLimit, mark_key};
use std::collections::BTreeSet;

/// A number that was counted, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Count {
    /// It is at least this.
    pub least: u64,
    /// It is at most this; none: nobody knows.
    pub most: Option<u64>,
}

/// A piece of a drill with its wear and its limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceWear {
    /// The drill.
    pub drill: DrillId,
    /// The mark of the piece, as the kit writes it, or as it was counted where the kit does not list it; none: nobody named it.
    pub mark: Option<Label>,
    /// True if the kit lists a piece with this mark.
    pub is_listed: bool,
    /// Its uses.
    pub uses: Count,
    /// Its sterilisations.
    pub sterilisations: Count,
    /// Its uses, by what is recorded so far, in sittings whose day is not closed: they are in no count yet.
    pub open_uses: u64,
    /// Why its counts are not known; none where they are.
    pub lacks: Vec<WearLack>,
    /// How long it may be used; none where nobody gave a limit.
    pub limit: Option<WearLimit>,
}

/// The pieces of a drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrillPieces {
    /// The drill.
    pub drill: DrillId,
    /// How long a piece may be used; none where nobody gave a limit.
    pub limit: Option<WearLimit>,
    /// Its pieces: those that the kit lists, in its order, then others that were named, by their marks.
    pub pieces: Vec<PieceWear>,
    /// Uses of pieces that nobody named.
    pub unnamed_uses: u64,
    /// Sterilisations of pieces that nobody named.
    pub unnamed_sterilisations: u64,
    /// Uses of pieces that nobody named in sittings whose day is not closed.
    pub unnamed_open_uses: u64,
}

/// Why a count is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WearLack {
    /// Nothing was counted.
    NoCount,
    /// A part of the record of a case was damaged and put aside.
    PutAside,
    /// It was used, or may have been, in a sitting whose day is not closed.
    OpenDay,
    /// Nobody said what it was used for before it was counted.
    Before,
    /// Pieces of its drill were used that nobody named.
    Unnamed,
}

/// What a limit says to the wear of a piece, worst last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WearVerdict {
    /// Nobody gave a limit.
    NoLimit,
    /// It is not near its limit.
    Within,
    /// Not known: it may have reached it.
    Unknown,
    /// It comes near its limit, or to it, with the uses of the day.
    Near,
    /// It would be used beyond its limit on the day.
    Beyond,
    /// It has reached its limit: it is not to be used again.
    Reached,
}

impl Count {
    const fn plus(self, more: u64) -> Self {
        Self {
            least: self.least + more,
            most: match self.most {
                Some(most) => Some(most + more),
                None => None,
            },
        }
    }

    /// The number, where it is known.
    #[must_use]
    pub fn known(self) -> Option<u64> {
        self.most.filter(|most| *most == self.least)
    }
}

impl PieceWear {
    /// What its limit says where so many more uses are planned on the day, and one more sterilisation if any is.
    #[must_use]
    pub fn verdict(&self, planned: u64) -> WearVerdict {
        let Some(limit) = &self.limit else {
            return WearVerdict::NoLimit;
        };
        let left = limit.warn_uses_left.map_or(0, u64::from);
        let of_uses = against(
            (self.uses, self.open_uses),
            u64::from(limit.uses),
            planned,
            left,
        );
        let of_sterilisations = limit.sterilisations.map(|most| {
            let more = u64::from(planned > 0);
            against((self.sterilisations, 0), u64::from(most), more, 0)
        });
        of_sterilisations.map_or(of_uses, |other| of_uses.max(other))
    }
}

/// A count held against a limit, with so many more to come, and near it with so many left after them. What was used on a day
/// that is not closed may be of those to come.
fn against((count, open): (Count, u64), limit: u64, more: u64, left: u64) -> WearVerdict {
    let after = count.plus(more);
    let used = count.least + open;
    let least = after.least.max(used);
    let may = |most: Option<u64>| most.is_none_or(|most| most.max(used) + left >= limit);
    if count.least >= limit || (more == 0 && used >= limit) {
        WearVerdict::Reached
    } else if least > limit {
        WearVerdict::Beyond
    } else if least + left >= limit {
        WearVerdict::Near
    } else if may(after.most) {
        WearVerdict::Unknown
    } else {
        WearVerdict::Within
    }
}

/// The wear of one piece of a drill; without a mark of one that nobody named, of which nothing is known. `counted` is none
/// where nothing was counted: then nothing is known beyond what the kit says of the time before.
#[must_use]
pub fn piece_wear(
    kit: &Kit,
    counted: Option<&Counted>,
    (drill, mark): (&DrillId, Option<&str>),
) -> PieceWear {
    let of_drill = kit.wear.of(drill.as_str());
    let limit = of_drill.and_then(|one| one.limit.clone());
    let Some(mark) = mark else {
        let nothing = Count {
            least: 0,
            most: None,
        };
        return PieceWear {
            drill: drill.clone(),
            mark: None,
            is_listed: false,
            uses: nothing,
            sterilisations: nothing,
            open_uses: 0,
            lacks: vec![WearLack::Unnamed],
            limit,
        };
    };
    let listed = of_drill.and_then(|one| one.piece(mark));
    let before = listed.and_then(|piece| piece.before);
    let of = |mark: Option<String>| WornPiece {
        drill: drill.to_string(),
        mark,
    };
    let of_mark = of(Some(mark_key(mark)));
    let own = counted.map_or_else(Default::default, |all| all.worn(&of_mark));
    let any = counted.map_or_else(Default::default, |all| all.worn(&of(None)));
    let mut lacks = Vec::new();
    match counted {
        None => lacks.push(WearLack::NoCount),
        Some(all) => {
            lacks.extend((!all.partial.is_empty()).then_some(WearLack::PutAside));
            let is_open = all.is_in_open_day(drill.as_str(), mark);
            lacks.extend(is_open.then_some(WearLack::OpenDay));
        }
    }
    let is_whole = lacks.is_empty();
    lacks.extend(before.is_none().then_some(WearLack::Before));
    let is_unnamed = any.uses + any.sterilisations > 0;
    lacks.extend((lacks.is_empty() && is_unnamed).then_some(WearLack::Unnamed));
    let count = |before: Option<u32>, own: u64, any: u64| {
        let least = u64::from(before.unwrap_or(0)) + own;
        Count {
            least,
            most: before.filter(|_| is_whole).map(|_| least + any),
        }
    };
    PieceWear {
        drill: drill.clone(),
        mark: Some(listed.map_or_else(|| Label::from(mark), |piece| piece.mark.clone())),
        is_listed: listed.is_some(),
        uses: count(before.map(|one| one.uses), own.uses, any.uses),
        sterilisations: count(
            before.map(|one| one.sterilisations),
            own.sterilisations,
            any.sterilisations,
        ),
        open_uses: counted.map_or(0, |all| all.open_uses(&of_mark)),
        lacks,
        limit,
    }
}

/// The pieces of every drill of which anything is known: those of the kit in its order, then others by their names. Drills for
/// one patient are left out.
#[must_use]
pub fn pieces_of<'a>(kit: &Kit, counted: Option<&'a Counted>) -> Vec<DrillPieces> {
    // What was used on a day that is not closed is told with the rest.
    let worn = || {
        let open = |all: &'a Counted| all.open.values().flat_map(|tally| tally.keys());
        let all = counted.into_iter();
        all.flat_map(move |all| all.worn.keys().chain(open(all)))
    };
    let is_reused = |id: &str| {
        !kit.drills
            .iter()
            .any(|one| one.id.as_str() == id && one.single_use)
    };
    let of_kit = kit.drills.iter().map(|one| one.id.clone());
    let others: BTreeSet<&str> = worn()
        .map(|piece| piece.drill.as_str())
        .filter(|id| !kit.drills.iter().any(|one| one.id.as_str() == *id))
        .collect();
    let all = of_kit.chain(others.into_iter().map(DrillId::from));
    let pieces = all.filter(|id| is_reused(id.as_str())).map(|drill| {
        let of_drill = kit.wear.of(drill.as_str());
        let listed = of_drill.iter().flat_map(|one| &one.pieces);
        let mut marks: Vec<String> = listed.map(|piece| piece.mark.to_string()).collect();
        let known: BTreeSet<String> = marks.iter().map(|mark| mark_key(mark)).collect();
        let named = worn().filter(|piece| piece.drill == drill.as_str());
        let named: BTreeSet<String> = named.filter_map(|piece| piece.mark.clone()).collect();
        marks.extend(named.into_iter().filter(|mark| !known.contains(mark)));
        let unnamed = counted.map_or_else(Default::default, |all| {
            all.worn(&WornPiece {
                drill: drill.to_string(),
                mark: None,
            })
        });
        let open_uses = counted.map_or(0, |all| {
            all.open_uses(&WornPiece {
                drill: drill.to_string(),
                mark: None,
            })
        });
        DrillPieces {
            unnamed_open_uses: open_uses,
            pieces: marks
                .iter()
                .map(|mark| piece_wear(kit, counted, (&drill, Some(mark))))
                .collect(),
            limit: of_drill.and_then(|one| one.limit.clone()),
            unnamed_uses: unnamed.uses,
            unnamed_sterilisations: unnamed.sterilisations,
            drill,
        }
    });
    let is_known = |one: &DrillPieces| {
        one.limit.is_some()
            || !one.pieces.is_empty()
            || one.unnamed_uses + one.unnamed_sterilisations + one.unnamed_open_uses > 0
    };
    pieces.filter(is_known).collect()
}
