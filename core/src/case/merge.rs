//! Two changes of one case that were made apart, brought together.

use super::edit::guide_stays;
use super::{Case, EditRefused, GuideState, ValidCase, read_case};
use crate::document::leaves;
use crate::kit::{LISTS, SiteId};
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};

/// A part of a case that is changed as a whole, by the keys that lead to it: `guide`; of a list the
/// item, as `sites`, `p46` or `kit`, `drills`, `d20`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Part(Vec<String>);

/// A part that differs between two cases, value by value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// The part.
    pub part: Part,
    /// Its values that differ, in the order of the file; those of one side alone come last.
    pub values: Vec<ValueApart>,
}

/// A single value that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ValueApart {
    /// The keys that lead to it from its part; none where the part is one value.
    pub keys: Vec<String>,
    /// As written here; nothing where it is not there.
    pub here: Option<String>,
    /// As written there; nothing where it is not there.
    pub there: Option<String>,
}

/// One of two cases.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The one that is open.
    Here,
    /// The one that was found on the disk.
    There,
}

/// Two changes of one case, held against each other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Together {
    /// Both fit into one case.
    Merged {
        /// With the changes of both.
        case: Box<ValidCase>,
        /// The parts that differ from the case that is open.
        taken: Vec<Apart>,
    },
    /// A person has to choose: the same part was changed on both sides, or what is left of both
    /// makes no valid case.
    Undecided(Vec<Apart>),
}

/// Brings two changes of `base` together: each part from the side that changed it, or that was
/// chosen for it.
///
/// A part is taken whole. Where one side says that the guide is made and the other changed what is built into
/// it, or for which sites it is, guide and site are undecided although each was changed on one side alone. With an
/// instrument that is of an invented kit alone the kit is invented, whatever the other side or a person says of it.
#[must_use]
pub fn bring_together(
    base: &ValidCase,
    here: &ValidCase,
    there: &ValidCase,
    chosen: &BTreeMap<Part, Side>,
) -> Together {
    let [b, h, t] = [base, here, there].map(|case| Parts::of(case));
    if h.values.get(&Part::key("jaw")) != t.values.get(&Part::key("jaw")) {
        return Together::Undecided(differing(here, there));
    }
    let mut merged = Parts::default();
    let mut undecided = BTreeSet::new();
    let all: BTreeSet<&Part> = [&b, &h, &t].iter().flat_map(|p| p.values.keys()).collect();
    for part in all {
        let [was, is, other] = [&b, &h, &t].map(|parts| parts.values.get(part));
        let value = match chosen.get(part) {
            Some(Side::Here) => is,
            Some(Side::There) => other,
            None if is == other || was == other => is,
            None if was == is => other,
            None => {
                undecided.insert(part.clone());
                continue;
            }
        };
        if let Some(value) = value {
            merged.values.insert(part.clone(), value.clone());
        }
    }
    let apart = |of: &dyn Fn(&Part) -> bool| -> Vec<Apart> {
        let all = differing(here, there);
        let chosen: Vec<Apart> = all.iter().filter(|a| of(&a.part)).cloned().collect();
        // Nothing to choose from would be no question.
        if chosen.is_empty() { all } else { chosen }
    };
    if !undecided.is_empty() {
        return Together::Undecided(apart(&|part| undecided.contains(part)));
    }
    merged.lists = order(&b, &h, &t);
    let merged = merged.with_invented_told([&h, &t]);
    let revision = here.revision.max(there.revision);
    let Ok(case) = merged.case(revision).or_else(|_| {
        let both = merged.with_kit_of([&h, &t]);
        both.with_invented_told([&h, &t]).case(revision)
    }) else {
        return Together::Undecided(apart(&|_| true));
    };
    let case = case.with_readings_of([here, there]);
    let case = case.with_cuts_of(base, [here, there]);
    for (side, other) in [(here, there), (there, here)] {
        let mut sites = not_of_guide(side, other, &case);
        if let Err(EditRefused::GuideIsMade { site, .. }) = guide_stays(side, &case) {
            sites.push(site);
        }
        if !sites.is_empty() {
            let site = |id: SiteId| Part(vec!["sites".to_owned(), id.to_string()]);
            let sites: Vec<Part> = sites.into_iter().map(site).collect();
            return Together::Undecided(apart(&|part| sites.contains(part) || part.is_of_guide()));
        }
    }
    let case = case.with_saved(here.saved_figures.clone());
    let case = case.with_not_at_hand([here, there]);
    let taken = differing(here, &case);
    Together::Merged {
        case: Box::new(case),
        taken,
    }
}

/// The sites that a guide made on one side is not for, and those that it is for and that are gone, where the other
/// side took it for one still to be made. Where both know that it is made, each is as a person left it.
fn not_of_guide(made: &Case, other: &Case, merged: &Case) -> Vec<SiteId> {
    let is_made = |case: &Case| case.guide.state == GuideState::Made;
    if !is_made(made) || !is_made(merged) || is_made(other) {
        return Vec::new();
    }
    let ids = |case: &Case| -> BTreeSet<SiteId> {
        let ids = case.sites.iter().map(|site| site.id.clone());
        ids.collect()
    };
    let (of_guide, now) = (ids(made), ids(merged));
    let gone = of_guide.symmetric_difference(&now).cloned();
    // Set to another depth for a guide still to be made, the platform is not where this one leads to.
    let depths = |case: &Case, id: &SiteId| {
        let site = case.sites.iter().find(|site| site.id == *id);
        site.map(|site| site.heights.depths())
    };
    let both = of_guide.intersection(&now);
    let elsewhere = both.filter(|id| depths(made, id) != depths(merged, id));
    gone.chain(elsewhere.cloned()).collect()
}

/// The parts in which two cases differ. Revision and versions are none: they are not entered.
#[must_use]
pub fn differing(here: &Case, there: &Case) -> Vec<Apart> {
    let [h, t] = [here, there].map(Parts::of);
    let all: BTreeSet<&Part> = h.values.keys().chain(t.values.keys()).collect();
    let mut apart: Vec<Apart> = all
        .into_iter()
        .filter(|part| h.values.get(*part) != t.values.get(*part))
        .map(|part| Apart {
            part: part.clone(),
            values: values_apart(h.values.get(part), t.values.get(part)),
        })
        .collect();
    for (list, ids) in &h.lists {
        if t.lists
            .get(list)
            .is_some_and(|other| is_reordered(ids, other))
        {
            let told = |ids: &[String]| Some(ids.join(", "));
            apart.push(Apart {
                part: Part(list.clone()),
                values: vec![ValueApart {
                    keys: Vec::new(),
                    here: told(ids),
                    there: t.lists.get(list).and_then(|ids| told(ids)),
                }],
            });
        }
    }
    apart
}

/// True if what both lists have stands in another order.
fn is_reordered(one: &[String], other: &[String]) -> bool {
    let common = |a: &[String], b: &[String]| -> Vec<String> {
        a.iter().filter(|id| b.contains(id)).cloned().collect()
    };
    common(one, other) != common(other, one)
}

fn values_apart(here: Option<&Value>, there: Option<&Value>) -> Vec<ValueApart> {
    let all = |value: Option<&Value>| value.map(leaves).unwrap_or_default();
    let (here_whole, there_whole) = (here, there);
    let (here, there) = (all(here), all(there));
    let find = |leaves: &[(Vec<String>, String)], keys: &[String]| {
        let leaf = leaves.iter().find(|(other, _)| other == keys);
        leaf.map(|(_, text)| text.clone())
    };
    let here_or_both = here.iter().map(|(keys, text)| ValueApart {
        keys: keys.clone(),
        here: Some(text.clone()),
        there: find(&there, keys),
    });
    let there_alone = there
        .iter()
        .filter(|(keys, _)| find(&here, keys).is_none())
        .map(|(keys, text)| ValueApart {
            keys: keys.clone(),
            here: None,
            there: Some(text.clone()),
        });
    let mut found: Vec<ValueApart> = here_or_both
        .filter(|value| value.here != value.there)
        .chain(there_alone)
        .collect();
    found.extend(empty_apart((here_whole, there_whole), &found));
    found
}

/// Members that are on one side alone and have no value in them: that they are there is what differs.
fn empty_apart(
    (here, there): (Option<&Value>, Option<&Value>),
    told: &[ValueApart],
) -> Vec<ValueApart> {
    let (Some(Value::Object(here)), Some(Value::Object(there))) = (here, there) else {
        return Vec::new();
    };
    let keys: BTreeSet<&String> = here.keys().chain(there.keys()).collect();
    let one = |key: &String| {
        let is_told = told.iter().any(|value| value.keys.first() == Some(key));
        let is_there = |side: &Map<String, Value>| {
            let value = side.get(key).filter(|value| !value.is_null());
            value.map(|_| true.to_string())
        };
        let (here, there) = (is_there(here), is_there(there));
        (!is_told && here != there).then(|| ValueApart {
            keys: vec![key.clone()],
            here,
            there,
        })
    };
    keys.into_iter().filter_map(one).collect()
}

/// The order of each list: of the side that changed it, with what the other added at its end.
fn order(base: &Parts, here: &Parts, there: &Parts) -> BTreeMap<Vec<String>, Vec<String>> {
    let none = Vec::new();
    let keys: BTreeSet<&Vec<String>> = here.lists.keys().chain(there.lists.keys()).collect();
    let one = |list: &Vec<String>| {
        let [b, h, t] = [base, here, there].map(|parts| parts.lists.get(list).unwrap_or(&none));
        let (first, second) = if is_reordered(b, t) { (t, h) } else { (h, t) };
        let mut ids = first.clone();
        ids.extend(second.iter().filter(|id| !first.contains(id)).cloned());
        (list.clone(), ids)
    };
    keys.into_iter().map(one).collect()
}

/// A case taken apart.
#[derive(Clone, Default)]
struct Parts {
    values: BTreeMap<Part, Value>,
    /// The ids of each list that is taken apart, in its order.
    lists: BTreeMap<Vec<String>, Vec<String>>,
}

/// Keys that nobody enters.
const NOT_ENTERED: [&str; 5] = [
    "traywright_case",
    "revision",
    "saved_figures",
    "saves",
    "kit_not_at_hand",
];

/// The key by which the items of a list are told apart; nothing where a list is one part.
fn identified_by(list: &[String]) -> Option<&'static str> {
    match list.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["sites"] | ["kit", _] => Some("id"),
        ["teeth"] => Some("position"),
        ["judgements"] => Some("finding"),
        _ => None,
    }
}

impl Parts {
    fn of(case: &Case) -> Self {
        let mut parts = Self::default();
        let value = serde_json::to_value(case);
        let value = value.unwrap_or_else(|e| unreachable!("plain data becomes JSON: {e}"));
        if let Value::Object(members) = value {
            for (key, value) in members {
                match value {
                    _ if NOT_ENTERED.contains(&key.as_str()) => {}
                    Value::Object(kit) if key == "kit" => {
                        for (inner, value) in kit {
                            parts.take(vec![key.clone(), inner], value);
                        }
                    }
                    value => parts.take(vec![key], value),
                }
            }
        }
        parts
    }

    fn take(&mut self, keys: Vec<String>, value: Value) {
        let (by, items) = match (identified_by(&keys), value) {
            (Some(by), Value::Array(items)) => (by, items),
            (_, value) => {
                self.values.insert(Part(keys), value);
                return;
            }
        };
        let mut ids = Vec::new();
        for item in items {
            let id = match item.get(by) {
                Some(Value::String(id)) => id.clone(),
                other => other.map(Value::to_string).unwrap_or_default(),
            };
            let mut part = keys.clone();
            part.push(id.clone());
            ids.push(id);
            self.values.insert(Part(part), item);
        }
        self.lists.insert(keys, ids);
    }

    /// The same with every instrument that one of these has: what one side no longer used the other may use.
    fn with_kit_of(&self, sides: [&Self; 2]) -> Self {
        let mut parts = self.clone();
        for side in sides {
            let kit = |keys: &[String]| keys.first().is_some_and(|key| key == "kit");
            for (part, value) in side.values.iter().filter(|(part, _)| kit(&part.0)) {
                parts
                    .values
                    .entry(part.clone())
                    .or_insert_with(|| value.clone());
            }
        }
        parts
    }

    /// The same, with a kit that is said to be invented where an instrument in it, or its allowances, are as no real
    /// kit of these has them.
    fn with_invented_told(mut self, sides: [&Self; 2]) -> Self {
        let mark = Part(vec!["kit".to_owned(), "demonstration".to_owned()]);
        let is_real = |parts: &Self| parts.values.get(&mark) != Some(&Value::Bool(true));
        let is_entry = |part: &Part| match part.0.as_slice() {
            [kit, list, ..] => {
                kit == "kit" && (list == "allowances" || LISTS.contains(&list.as_str()))
            }
            _ => false,
        };
        let real: Vec<&Self> = sides.into_iter().filter(|side| is_real(side)).collect();
        let is_invented = self.values.iter().any(|(part, value)| {
            let mut real = real.iter();
            is_entry(part) && !real.any(|side| side.values.get(part) == Some(value))
        });
        if is_real(&self) && is_invented {
            self.values.insert(mark, Value::Bool(true));
        }
        self
    }

    /// The case again, checked as a file is.
    fn case(&self, revision: u32) -> Result<ValidCase, crate::document::Faults> {
        let mut case = Map::new();
        for key in NOT_ENTERED {
            let value = match key {
                "revision" => revision,
                "traywright_case" => super::CASE_VERSION,
                _ => continue,
            };
            case.insert(key.to_owned(), value.into());
        }
        for (list, ids) in &self.lists {
            let item = |id: &String| {
                let mut keys = list.clone();
                keys.push(id.clone());
                self.values.get(&Part(keys)).cloned()
            };
            put(&mut case, list, ids.iter().filter_map(item).collect());
        }
        for (Part(keys), value) in &self.values {
            let is_item = keys
                .split_last()
                .is_some_and(|(_, list)| self.lists.contains_key(list));
            if !is_item {
                put(&mut case, keys, value.clone());
            }
        }
        read_case(Value::Object(case).to_string().as_bytes())
    }
}

/// Puts a value where its keys lead.
fn put(case: &mut Map<String, Value>, keys: &[String], value: Value) {
    match keys {
        [] => {}
        [key] => {
            case.insert(key.clone(), value);
        }
        [key, below @ ..] => {
            let inner = case.entry(key.clone()).or_insert_with(|| Map::new().into());
            if let Value::Object(inner) = inner {
                put(inner, below, value);
            }
        }
    }
}

impl Part {
    fn key(key: &str) -> Self {
        Self(vec![key.to_owned()])
    }

    /// The keys that lead to it from the case.
    #[must_use]
    pub fn keys(&self) -> &[String] {
        &self.0
    }

    /// True if it says what is built into the guide, a site's own placing apart.
    fn is_of_guide(&self) -> bool {
        let keys: Vec<&str> = self.0.iter().map(String::as_str).collect();
        matches!(keys[..], ["guide"] | ["kit", "master_sleeves", _])
    }
}

#[cfg(test)]
mod tests;
