//! The parts of a case in words, as two desks may have changed them apart.

use super::{Formatter, KitFormatter, begin};
use crate::case::{Apart, Part, SleeveFace};
use crate::dentition::ToothPosition;

/// A value that differs, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ValueText {
    /// Its name in the part; empty where the part is one value.
    pub name: String,
    /// As it is here; a dash where it is not there.
    pub here: String,
    /// As it is there; a dash where it is not there.
    pub there: String,
}

impl Formatter<'_> {
    /// The name of a part of a case: "lower right first molar (46)", "guide".
    #[must_use]
    pub fn part(&self, part: &Part) -> String {
        let keys: Vec<&str> = part.keys().iter().map(String::as_str).collect();
        match keys[..] {
            ["sites", id] => self.site(&id.into()),
            ["teeth", at] => match at.parse::<ToothPosition>() {
                Ok(position) => self.tooth(position),
                Err(_) => at.to_owned(),
            },
            ["judgements", finding] => self.text("part-decision", &[("finding", finding)]),
            ["kit", key] => {
                let id = format!("kit-list-{key}");
                let key = if self.texts.has(&id) {
                    self.word(&id)
                } else {
                    bare(key)
                };
                self.text("part-kit", &[("key", &key)])
            }
            ["kit", list, id] => {
                let kit = self.kit_words();
                let args = [("id", &*kit.entry(list, id)), ("list", &*kit.list(list))];
                self.text("part-kit-entry", &args)
            }
            [key] => self.word(&format!("part-{}", key.replace('_', "-"))),
            _ => keys.join(" "),
        }
    }

    /// The values of a part that differ, in the words of the forms.
    #[must_use]
    pub fn values_apart(&self, apart: &Apart) -> Vec<ValueText> {
        let of_kit = apart.part.keys().first().is_some_and(|key| key == "kit");
        let one = |value: &crate::case::ValueApart| {
            let keys = &value.keys;
            let said = |value: &Option<String>| match value {
                None => self.word("part-not-there"),
                Some(ids) if apart.part.keys() == ["sites"] => {
                    let sites = ids.split(", ").map(|id| self.site(&id.into()));
                    sites.collect::<Vec<_>>().join(", ")
                }
                Some(value) if of_kit => self.kit_words().value(keys, value),
                Some(value) => self.value_at(keys, value),
            };
            ValueText {
                name: if of_kit {
                    self.kit_words().field(keys)
                } else {
                    self.name_at(keys)
                },
                here: said(&value.here),
                there: said(&value.there),
            }
        };
        apart.values.iter().map(one).collect()
    }

    const fn kit_words(&self) -> KitFormatter<'_> {
        KitFormatter {
            texts: self.texts,
            kit: &self.case.kit,
        }
    }

    /// The name of a value by the keys that lead to it: labels of forms where there are such, else the keys as words.
    fn name_at(&self, keys: &[String]) -> String {
        let mut said: Vec<String> = Vec::new();
        let (mut rest, mut list) = (keys, "");
        while let Some(key) = rest.first() {
            let (number, before) = (key.parse::<u32>().is_ok(), said.len());
            if number && before > 0 {
                let args = [("what", said[before - 1].as_str()), ("number", key)];
                said[before - 1] = self.text("kit-field-numbered", &args);
                rest = &rest[1..];
                continue;
            }
            let chunk = rest.iter().take_while(|key| key.parse::<u32>().is_err());
            let chunk: Vec<&str> = chunk.map(String::as_str).collect();
            let label = (1..=chunk.len()).rev().find_map(|n| {
                let path = chunk[..n].join(".");
                label(list, &path).map(|id| (id, n))
            });
            let (word, taken) = match label {
                Some((id, n)) => (begin(&self.word(id)), n),
                None => (begin(&bare(key)), 1),
            };
            said.push(word);
            list = key;
            rest = &rest[taken.max(1)..];
        }
        said.join(" › ")
    }

    /// A value as the forms say it: a number with its unit and the minus of people, the name of what it leads to.
    fn value_at(&self, keys: &[String], value: &str) -> String {
        let mut named = keys.iter().rev().filter(|key| key.parse::<u32>().is_err());
        let key = named.next().map_or("", String::as_str);
        let within = named.next().map_or("", String::as_str);
        let kit = self.kit_words();
        let said = match (within, key) {
            (_, "tooth" | "position") | ("placement" | "measured_at" | "pins", "at") => {
                read(value).map(|tooth| self.tooth(tooth))
            }
            (_, "site") => Some(self.site(&value.into())),
            (_, "implant") => Some(kit.entry("implants", value)),
            (_, "carrier") => Some(kit.entry("carriers", value)),
            (_, "master_sleeve") => Some(kit.entry("master_sleeves", value)),
            (_, "pin") => Some(kit.entry("pins", value)),
            (_, "gauge") => Some(kit.entry("gauges", value)),
            (_, "head") => Some(kit.entry("heads", value)),
            (_, "tray") => Some(kit.entry("trays", value)),
            (_, "protocol") => Some(kit.entry("protocols", value)),
            (_, "guided_extent") => read(value).map(|extent| self.extent(extent)),
            (_, "support") => read(value).map(|support| self.support(support)),
            (_, "access") => read(value).map(|access| self.access(access)),
            (_, "use_order") => read(value).map(|order| self.use_order(order)),
            ("platform_to_sleeve", "to") => read(value).map(|face| match face {
                SleeveFace::Apical => self.word("face-apical"),
                SleeveFace::Coronal => self.word("face-coronal"),
            }),
            ("walls" | "distances", "at") => read(value).map(|height| self.height(height)),
            ("walls", "side") => read(value).map(|side| self.wall_side(side)),
            ("structures", "kind") => read(value).map(|kind| self.structure(kind)),
            ("placement" | "measured_at", "by") => Some(value.replace('_', " ")),
            _ if WORDS.contains(&key) => Some(value.replace('_', " ")),
            _ if value == "true" => Some(self.word("part-yes")),
            _ if value == "false" => Some(self.word("part-no")),
            _ if key.ends_with("_mm") || key.ends_with("_deg") => None,
            // A number without a unit.
            _ => (value.parse::<f64>().is_ok()).then(|| value.replace('-', "\u{2212}")),
        };
        said.unwrap_or_else(|| kit.value(keys, value))
    }

    /// The names of several parts, in one line.
    #[must_use]
    pub fn parts(&self, apart: &[Apart]) -> String {
        let names = apart.iter().map(|one| self.part(&one.part));
        names.collect::<Vec<_>>().join(", ")
    }
}

/// Keys whose value is a word of the file's own.
const WORDS: [&str; 12] = [
    "bone",
    "density",
    "direction",
    "from",
    "kind",
    "landmark",
    "measured",
    "neighbour",
    "of",
    "rule",
    "setting",
    "state",
];

/// A word of the file as what it stands for.
fn read<T: serde::de::DeserializeOwned>(value: &str) -> Option<T> {
    serde_json::from_value(value.into()).ok()
}

/// A key as words, its unit left to the value.
fn bare(key: &str) -> String {
    let units = ["_mm", "_deg"];
    let key = units
        .iter()
        .find_map(|unit| key.strip_suffix(unit))
        .unwrap_or(key);
    key.replace('_', " ")
}

/// The id of the label under which the forms ask for what lies there, within this list.
fn label(list: &str, path: &str) -> Option<&'static str> {
    Some(match (list, path) {
        ("", "tooth") => "site-tooth",
        ("", "implant") => "site-implant",
        ("", "master_sleeve") => "site-master",
        ("", "guided_extent") => "site-extent",
        ("", "platform_to_sleeve.entered_mm") => "site-distance-title",
        ("", "platform_to_sleeve.to") => "site-what-face",
        ("", "state.bone") => "site-what-bone",
        ("", "state.gap_mm") => "site-gap",
        ("", "state.slope_deg") => "site-slope",
        ("", "density") => "site-what-density",
        (_, "heights.platform_below_crest.highest_mm" | "platform_below_crest.highest_mm") => {
            "site-crest-highest"
        }
        (_, "heights.platform_below_crest.lowest_mm" | "platform_below_crest.lowest_mm") => {
            "site-crest-lowest"
        }
        ("", "heights.platform_below_socket_rim_mm") => "site-socket-rim",
        ("", "heights.tissue_thickness_mm") => "site-tissue",
        ("", "heights.crest_below_occlusal_mm") => "site-occlusal",
        ("", "walls") => "site-walls-title",
        ("", "distances") => "site-neighbours-title",
        ("", "structures") => "site-structures-title",
        ("", "obstacles") => "site-obstacles-title",
        ("distances", "at") => "site-neighbour-height",
        ("distances", "from_axis_mm") => "site-neighbour-distance",
        ("structures", "extent.height_mm") => "site-structure-height",
        ("structures", "extent.from") => "site-structure-from",
        ("structures", "extent.direction") => "site-structure-direction",
        ("structures", "extent.from_axis_mm") => "site-structure-beside",
        ("structures", "extent.anterior_loop_mm") => "site-structure-loop",
        ("structures", "source") => "site-structure-source",
        ("obstacles", "above_rim_mm") => "site-obstacle-above",
        ("obstacles", "from_axis_mm") => "site-obstacle-beside",
        ("obstacles", "tooth") => "site-obstacle-tooth",
        ("steps", "drill") => "site-drill",
        ("steps", "sleeve") => "site-sleeve",
        ("steps", "stop") => "site-stop",
        ("steps", "depth.rule") => "site-depth",
        ("steps", "depth.depth_mm") => "site-depth-below-by",
        ("steps", "depth.by_mm") => "site-depth-short-by",
        ("steps", "then") => "site-then",
        ("", "insertion.carrier") => "site-carrier",
        ("", "insertion.sleeve") => "site-what-insertion-sleeve",
        ("", "setting") => "site-setting",
        ("", "note") => "site-note",
        ("", "support") => "case-support",
        ("", "access") => "case-access",
        _ => return None,
    })
}
