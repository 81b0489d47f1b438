//! The wear of drills in words.

use super::KitFormatter;
use crate::kit::{LimitGiver, WearLimit};
use crate::text::Texts;
use crate::wear::{Count, Counted, DrillPieces, PieceWear, WearLack, WearVerdict, pieces_of};

/// Where a count comes from, or why there is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WearSource {
    /// The ledger was read.
    Counted,
    /// It is being read.
    BeingRead,
    /// There is none.
    NotThere,
    /// It could not be read.
    Unread,
}

/// The wear of a kit's drills in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WearText {
    /// What is to be known of the whole, sentences.
    pub top: Vec<String>,
    /// Drill by drill.
    pub drills: Vec<WearDrillText>,
    /// True if anything of a drill with a limit is near it, at it, or not known.
    pub is_open: bool,
}

/// The wear of a drill's pieces in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WearDrillText {
    /// The drill and its limit.
    pub line: String,
    /// Its pieces, each with what its limit says.
    pub pieces: Vec<(String, WearVerdict)>,
    /// What is to be known besides: uses of pieces that nobody named.
    pub besides: Vec<String>,
}

impl KitFormatter<'_> {
    /// The wear of all drills of which anything is known. `counted` is none where nothing was counted: then it is what the
    /// kit says, and no count is known.
    #[must_use]
    pub fn wear(&self, counted: Option<&Counted>) -> WearText {
        let kit = self.kit;
        let args = [("kit", kit.name.as_str())];
        let top = counted.map(|all| {
            let count = &[("count", all.closings)];
            self.texts.counted("wear-top", count, &args)
        });
        let practice = kit
            .demonstration
            .then(|| self.texts.get("wear-practice", &[]));
        let partial = counted.iter().flat_map(|all| &all.partial).map(|case| {
            let args = [("case", case.case.as_str())];
            self.texts.get("wear-partial", &args)
        });
        let open = counted.filter(|all| !all.open.is_empty()).map(|all| {
            let cases: Vec<&str> = all.open.keys().map(|case| case.case.as_str()).collect();
            self.texts.get("wear-open", &[("list", &cases.join(", "))])
        });
        let pieces = pieces_of(kit, counted);
        let none = pieces.is_empty().then(|| self.texts.get("wear-none", &[]));
        WearText {
            top: (top.into_iter().chain(practice))
                .chain(partial)
                .chain(open)
                .chain(none)
                .collect(),
            drills: (pieces.iter()).map(|one| self.wear_of(one)).collect(),
            is_open: pieces.iter().any(is_open),
        }
    }

    fn wear_of(&self, drill: &DrillPieces) -> WearDrillText {
        let name = self.entry("drills", drill.drill.as_str());
        let limit = match &drill.limit {
            Some(limit) => self.wear_limit(limit),
            None => self.texts.get("wear-limit-none", &[]),
        };
        let args = [("drill", name.as_str()), ("limit", &limit)];
        let pieces = drill.pieces.iter();
        let unnamed = drill.unnamed_uses + drill.unnamed_sterilisations;
        let mut besides = Vec::new();
        if unnamed > 0 {
            let uses = wear_number(self.texts, "uses", drill.unnamed_uses);
            let more = wear_number(self.texts, "sterilisations", drill.unnamed_sterilisations);
            let args = [("uses", uses.as_str()), ("sterilisations", &more)];
            besides.push(self.texts.get("wear-unnamed", &args));
        }
        if drill.unnamed_open_uses > 0 {
            let uses = wear_number(self.texts, "uses", drill.unnamed_open_uses);
            let args = [("uses", uses.as_str())];
            besides.push(self.texts.get("wear-unnamed-open", &args));
        }
        if besides.is_empty() && drill.pieces.is_empty() {
            besides.push(self.texts.get("wear-no-pieces", &[]));
        }
        WearDrillText {
            line: self.texts.get("wear-drill", &args),
            pieces: pieces
                .map(|piece| (self.wear_piece(piece), piece.verdict(0)))
                .collect(),
            besides,
        }
    }

    /// A piece with its counts and what its limit says, and why a count is not known.
    fn wear_piece(&self, piece: &PieceWear) -> String {
        let uses = wear_count(self.texts, "uses", piece.uses);
        let more = wear_count(self.texts, "sterilisations", piece.sterilisations);
        let verdict = wear_verdict(self.texts, piece.verdict(0));
        let mark = piece.mark.as_ref().map_or("", |mark| mark.as_str());
        let args = [
            ("mark", mark),
            ("uses", &uses),
            ("sterilisations", &more),
            ("verdict", &verdict),
        ];
        let said = self.texts.get("wear-piece", &args);
        let why: Vec<String> = (piece.lacks.iter())
            .map(|lack| self.wear_lack(piece, *lack))
            .collect();
        if why.is_empty() {
            return said;
        }
        let args = [("piece", said.as_str()), ("why", &why.join("; "))];
        self.texts.get("wear-piece-why", &args)
    }

    /// Why a count is not known.
    fn wear_lack(&self, piece: &PieceWear, lack: WearLack) -> String {
        let id = match lack {
            WearLack::NoCount => "wear-why-uncounted",
            WearLack::PutAside => "wear-why-put-aside",
            WearLack::OpenDay if piece.open_uses > 0 => {
                let uses = wear_number(self.texts, "uses", piece.open_uses);
                return self.texts.get("wear-why-open", &[("uses", &uses)]);
            }
            WearLack::OpenDay => "wear-why-open-unnamed",
            WearLack::Before => "wear-why-before",
            WearLack::Unnamed => "wear-why-unnamed",
        };
        self.texts.get(id, &[])
    }

    /// A limit with whose it is and where it stands.
    #[must_use]
    pub fn wear_limit(&self, limit: &WearLimit) -> String {
        let most = self.wear_most(limit);
        let by = match limit.given_by {
            LimitGiver::Maker => "maker",
            LimitGiver::User => "user",
        };
        let args = [
            ("most", most.as_str()),
            ("by", by),
            ("source", limit.source.as_str()),
        ];
        self.texts.get("wear-limit", &args)
    }

    /// How long a piece may be used.
    fn wear_most(&self, limit: &WearLimit) -> String {
        let uses = wear_number(self.texts, "uses", u64::from(limit.uses));
        let more = limit.sterilisations.map(u64::from);
        let more = more.map(|most| wear_number(self.texts, "sterilisations", most));
        self.wear_both(uses, more)
    }

    /// Uses, and sterilisations where they are limited.
    fn wear_both(&self, uses: String, more: Option<String>) -> String {
        let Some(more) = more else {
            return uses;
        };
        let args = [("uses", uses.as_str()), ("sterilisations", &more)];
        self.texts.get("wear-limit-both", &args)
    }

    /// What is to be seen of a drill's wear before it is used so often on the day; nothing where it is within its limit, or
    /// nobody gave one.
    #[must_use]
    pub fn wear_warning(
        &self,
        piece: &PieceWear,
        planned: u64,
        source: WearSource,
    ) -> Option<String> {
        let verdict = piece.verdict(planned);
        let limit = piece.limit.as_ref()?;
        if verdict <= WearVerdict::Within {
            return None;
        }
        let Some(mark) = &piece.mark else {
            return Some(self.texts.get("wear-loading-unnamed", &[]));
        };
        let unread = match source {
            WearSource::Counted => None,
            WearSource::BeingRead => Some("wear-loading-being-read"),
            WearSource::NotThere => Some("wear-loading-not-there"),
            WearSource::Unread => Some("wear-loading-unread"),
        };
        if let Some(unread) = unread.filter(|_| verdict == WearVerdict::Unknown) {
            return Some(self.texts.get(unread, &[("mark", mark.as_str())]));
        }
        let uses = wear_count(self.texts, "uses", piece.uses);
        let more = limit.sterilisations;
        let more = more.map(|_| wear_count(self.texts, "sterilisations", piece.sterilisations));
        let uses = self.wear_both(uses, more);
        let verdict = wear_verdict(self.texts, verdict);
        let limit = self.wear_most(limit);
        let args = [
            ("mark", mark.as_str()),
            ("uses", &uses),
            ("limit", &limit),
            ("verdict", &verdict),
        ];
        Some(self.texts.get("wear-loading", &args))
    }
}

/// True if anything of a drill with a limit is near it, at it, or not known.
fn is_open(drill: &DrillPieces) -> bool {
    let worst = drill.pieces.iter().map(|piece| piece.verdict(0)).max();
    drill.limit.is_some()
        && (worst.is_none_or(|worst| worst > WearVerdict::Within)
            || drill.unnamed_uses + drill.unnamed_open_uses > 0)
}

fn wear_number(texts: &Texts, of: &str, count: u64) -> String {
    texts.counted("wear-count", &[("count", count)], &[("of", of)])
}

/// A count as far as it is known: "at least 9 uses".
fn wear_count(texts: &Texts, of: &str, count: Count) -> String {
    match count.most {
        Some(most) if most == count.least => wear_number(texts, of, most),
        Some(most) => {
            let said = wear_number(texts, of, most);
            let least = [("least", count.least)];
            texts.counted("wear-count-between", &least, &[("said", &said)])
        }
        None => {
            let said = wear_number(texts, of, count.least);
            texts.get("wear-count-least", &[("said", &said)])
        }
    }
}

fn wear_verdict(texts: &Texts, verdict: WearVerdict) -> String {
    let verdict = match verdict {
        WearVerdict::NoLimit => "no-limit",
        WearVerdict::Within => "within",
        WearVerdict::Unknown => "unknown",
        WearVerdict::Near => "near",
        WearVerdict::Beyond => "beyond",
        WearVerdict::Reached => "reached",
    };
    texts.get("wear-verdict", &[("verdict", verdict)])
}
