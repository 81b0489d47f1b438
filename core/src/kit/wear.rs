//! What the drills of a kit may wear, and which pieces of them there are.
//!
//! It is of the kit alone: no case copies it, no figure depends on it. What the pieces were used for is no part of it
//! either: that is counted from the cases (`wear`).

use super::{DrillId, Kit, Label};
use crate::document::{Checks, Path};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The wear of the kit's drills.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wear {
    /// Drill by drill.
    #[serde(default)]
    pub drills: Vec<DrillWear>,
}

/// What a drill may wear, and its pieces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrillWear {
    /// The drill.
    pub drill: DrillId,
    /// How long a piece of it may be used; absent: nobody gave a limit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<WearLimit>,
    /// Its pieces that can be told apart by what stands on them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<StockPiece>,
}

/// How long one piece of a drill may be used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WearLimit {
    /// Greatest number of uses; one osteotomy is one.
    #[schemars(range(min = 1, max = 9999))]
    pub uses: u32,
    /// Greatest number of sterilisations; absent: nobody gave one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 9999))]
    pub sterilisations: Option<u32>,
    /// It is warned as soon as no more uses than these are left after the day; absent: none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 9999))]
    pub warn_uses_left: Option<u32>,
    /// Whose limit it is.
    pub given_by: LimitGiver,
    /// Where it stands.
    pub source: Label,
}

/// Whose limit it is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum LimitGiver {
    /// The maker's.
    Maker,
    /// The user's own.
    User,
}

/// One piece of a drill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockPiece {
    /// What stands on it or hangs on it, by which people tell it from the others.
    pub mark: Label,
    /// What it was used for before its uses were counted, 0 for a new one; absent: nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before: Option<WornBefore>,
}

/// Wear from before it was counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WornBefore {
    /// Uses.
    #[schemars(range(min = 0, max = 9999))]
    pub uses: u32,
    /// Sterilisations.
    #[schemars(range(min = 0, max = 9999))]
    pub sterilisations: u32,
}

impl Wear {
    /// True if nothing is said of any drill.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.drills.is_empty()
    }

    /// What is said of a drill.
    #[must_use]
    pub fn of(&self, drill: &str) -> Option<&DrillWear> {
        self.drills.iter().find(|one| one.drill.as_str() == drill)
    }

    /// The drills that have a piece with this mark.
    pub fn with_mark<'a>(&'a self, mark: &'a str) -> impl Iterator<Item = &'a DrillWear> {
        let has = move |one: &&DrillWear| one.piece(mark).is_some();
        self.drills.iter().filter(has)
    }
}

impl DrillWear {
    /// The piece with this mark, however it is typed.
    #[must_use]
    pub fn piece(&self, mark: &str) -> Option<&StockPiece> {
        let key = mark_key(mark);
        self.pieces
            .iter()
            .find(|piece| mark_key(piece.mark.as_str()) == key)
    }
}

/// A mark as it is compared: hands and scanners differ in which of its letters are large, and where they put blanks.
#[must_use]
pub fn mark_key(mark: &str) -> String {
    mark.split_whitespace().collect::<String>().to_uppercase()
}

/// Each drill once, each mark of a drill once.
pub(super) fn check(kit: &Kit, root: &Path, checks: &mut Checks) {
    let at = root.key("wear").key("drills");
    checks.unique(&at, "drill", kit.wear.drills.iter().map(|one| &one.drill));
    for (n, one) in kit.wear.drills.iter().enumerate() {
        let at = at.item(n);
        let drills = kit.drills.iter().map(|drill| drill.id.as_str());
        checks.reference(at.key("drill"), "drill", one.drill.as_str(), drills);
        let marks = one.pieces.iter().map(|piece| mark_key(piece.mark.as_str()));
        checks.unique(&at.key("pieces"), "mark", marks);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::read_kit;
    use crate::samples::{demo, demo_case, demo_kit};
    use serde_json::{Value, json};

    fn with(wear: &Value) -> Result<Kit, String> {
        let mut kit: Value = serde_json::from_slice(demo::KIT).unwrap();
        kit["wear"] = wear.clone();
        read_kit(&serde_json::to_vec(&kit).unwrap()).map_err(|faults| format!("{faults:?}"))
    }

    fn of(pieces: &Value) -> Value {
        json!({ "drills": [{
            "drill": "tip-257",
            "limit": { "uses": 20, "given_by": "user", "source": "house rule" },
            "pieces": pieces,
        }]})
    }

    #[test]
    fn a_mark_is_found_however_it_is_typed_and_stands_once() {
        let kit = with(&of(&json!([{ "mark": "A 3" }, { "mark": "a4" }]))).unwrap();
        let drill = kit.wear.of("tip-257").unwrap();
        assert_eq!(drill.piece("a3"), Some(&drill.pieces[0]));
        assert_eq!(drill.piece(" A4 "), Some(&drill.pieces[1]));
        assert_eq!(drill.piece("A5"), None);
        assert_eq!(kit.wear.with_mark("A4").count(), 1);
        let twice = with(&of(&json!([{ "mark": "A 3" }, { "mark": "a3" }])));
        assert!(twice.unwrap_err().contains("DuplicateId"));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let mut other = of(&json!([]));
        other["drills"][0]["drill"] = json!("nowhere");
        assert!(with(&other).unwrap_err().contains("nowhere"));
        let mut none = of(&json!([]));
        none["drills"][0]["limit"]["uses"] = json!(0);
        assert!(with(&none).is_err(), "a limit of no use");
        let mut unsaid = of(&json!([]));
        let limit = unsaid["drills"][0]["limit"].as_object_mut().unwrap();
        limit.remove("source");
        assert!(with(&unsaid).is_err(), "a limit without its source");
    }

    #[test]
    fn no_case_copies_it_and_no_difference_is_told() {
        let case = demo_case(demo::ONE_PREMOLAR);
        let plain = demo_kit();
        let kit = with(&of(&json!([{ "mark": "A3" }]))).unwrap();
        assert!(!kit.wear.is_empty());
        let (own, without) = (
            kit.for_case(&case),
            Kit {
                wear: Wear::default(),
                ..kit.clone()
            },
        );
        assert!(own.wear.is_empty());
        assert_eq!(own, without.for_case(&case));
        assert_eq!(
            crate::case::kit_differences(&case, &kit),
            crate::case::kit_differences(&case, &plain)
        );
    }

    #[test]
    fn a_case_that_holds_it_by_hand_has_the_same_plan_code() {
        let case = demo_case(demo::ONE_PREMOLAR);
        let mut by_hand = case.clone().into_case();
        let kit = with(&json!({ "drills": [{ "drill": by_hand.kit.drills[0].id.as_str() }] }));
        by_hand.kit.wear = kit.unwrap().wear;
        let by_hand = crate::case::ValidCase::checked(&by_hand).unwrap();
        assert!(!by_hand.kit.wear.is_empty());
        assert_eq!(by_hand.fingerprint(), case.fingerprint());
    }
}
