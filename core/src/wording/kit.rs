//! Kit entries in words: lists, fields and their values.

use super::{degrees, mm};
use crate::kit::{Kit, LISTS};
use crate::measure::{Angle, Length};
use crate::text::Texts;

/// Kit entries in words. A kit is in a case or on the desk, so this needs no case.
#[derive(Clone, Copy)]
pub struct KitFormatter<'a> {
    /// The words.
    pub texts: &'static Texts,
    /// The kit in which the names of what an entry refers to are looked up.
    pub kit: &'a Kit,
}

impl KitFormatter<'_> {
    /// The name of a list: "drill sleeves"; also of what names the kit, and of the rules of
    /// combining.
    #[must_use]
    pub fn list(&self, list: &str) -> String {
        self.texts.get(&format!("kit-list-{list}"), &[])
    }

    /// The name of an entry, or its id where the kit lacks it; that of the list where it has no
    /// entries.
    #[must_use]
    pub fn entry(&self, list: &str, id: &str) -> String {
        if !LISTS.contains(&list) {
            return self.list(list);
        }
        let fields = self.kit.fields(list, id);
        let name = fields.into_iter().find(|field| field.keys == ["name"]);
        name.map_or_else(|| id.to_owned(), |field| field.value)
    }

    /// The name of a field: "clamping length, from", "depth mark 2, name".
    #[must_use]
    pub fn field(&self, keys: &[String]) -> String {
        let mut said: Vec<String> = Vec::new();
        let mut within = "";
        for key in keys {
            match (key.parse::<u32>(), said.pop()) {
                // A number stands with what it numbers.
                (Ok(_), Some(before)) => {
                    let args = [("what", before.as_str()), ("number", key.as_str())];
                    said.push(self.texts.get("kit-field-numbered", &args));
                }
                (_, before) => {
                    said.extend(before);
                    let own = format!("kit-field-{within}-{key}");
                    said.push(if self.texts.has(&own) {
                        self.texts.get(&own, &[])
                    } else {
                        self.texts.get(&format!("kit-field-{key}"), &[])
                    });
                    within = key;
                }
            }
        }
        said.join(", ")
    }

    /// The value of a field with its unit: "2.66 mm", "counted to the tip". A reference is given by
    /// the name of what it leads to.
    #[must_use]
    pub fn value(&self, keys: &[String], value: &str) -> String {
        let named = keys.iter().rev().find(|key| key.parse::<u32>().is_err());
        let key = named.map_or("", String::as_str);
        if key.ends_with("_mm")
            && let Ok(length) = Length::parse_mm(value)
        {
            return mm(length);
        }
        if key.ends_with("_deg")
            && let Ok(angle) = Angle::parse_deg(value)
        {
            return degrees(angle);
        }
        if key.ends_with("_rpm") {
            return self.texts.get("sheet-rpm", &[("speed", value)]);
        }
        if key.ends_with("_ncm") {
            return self.texts.get("sheet-ncm", &[("torque", value)]);
        }
        if let Some(list) = list_of(key) {
            return self.entry(list, value);
        }
        let word = format!("kit-word-{value}");
        if WORDS.contains(&key) && self.texts.has(&word) {
            return self.texts.get(&word, &[]);
        }
        value.to_owned()
    }
}

/// Fields whose value is a word of the file's own.
const WORDS: &[&str] = &[
    "kind",
    "counted_to",
    "given_by",
    "rule",
    "direction",
    "reads",
    "shape",
    "density",
    "densities",
    "single_use",
];

/// The list that a reference leads to.
fn list_of(key: &str) -> Option<&'static str> {
    Some(match key {
        "drill" => "drills",
        "stop" => "stops",
        "fits" => "master_sleeves",
        "implants" => "implants",
        "sleeve" | "insertion_sleeve" => "drill_sleeves",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::demo_kit;
    use serde_json::Value;
    use std::collections::BTreeSet;

    fn keys(of: &[&str]) -> Vec<String> {
        of.iter().map(|&key| key.to_owned()).collect()
    }

    /// Keys of all properties and all words of the file's own in a schema.
    fn collect(schema: &Value, names: &mut BTreeSet<String>, words: &mut BTreeSet<String>) {
        let word = |value: &Value, words: &mut BTreeSet<String>| {
            words.extend(value.as_str().map(str::to_owned));
        };
        match schema {
            Value::Object(map) => {
                if let Some(Value::Object(properties)) = map.get("properties") {
                    names.extend(properties.keys().cloned());
                }
                if let Some(value) = map.get("const") {
                    word(value, words);
                }
                for value in map
                    .get("enum")
                    .and_then(Value::as_array)
                    .into_iter()
                    .flatten()
                {
                    word(value, words);
                }
                map.values().for_each(|value| collect(value, names, words));
            }
            Value::Array(list) => list.iter().for_each(|value| collect(value, names, words)),
            _ => {}
        }
    }

    #[test]
    fn every_key_and_word_of_the_kit_file_has_a_text() {
        let schema = include_str!("../../../assets/schema/kit.schema.json");
        let (mut names, mut words) = (BTreeSet::new(), BTreeSet::new());
        let schema: Value = serde_json::from_str(schema).unwrap();
        collect(&schema, &mut names, &mut words);
        assert!(names.len() > 70 && words.len() > 30, "{}", names.len());
        let texts = Texts::english();
        let of_the_whole: Vec<&str> = LISTS
            .into_iter()
            .chain(["allowances", "traywright_kit"])
            .collect();
        for list in LISTS.into_iter().chain(["allowances", "kit"]) {
            assert!(texts.has(&format!("kit-list-{list}")), "{list}");
        }
        for name in names {
            let known = of_the_whole.contains(&name.as_str()) && name != "implants";
            assert!(known || texts.has(&format!("kit-field-{name}")), "{name}");
        }
        // What a slot of a tray is for is told by the kind of the slot.
        for word in words {
            assert!(texts.has(&format!("kit-word-{word}")), "{word}");
        }
    }

    #[test]
    fn every_word_of_the_invented_kit_is_told_in_words() {
        let kit = demo_kit();
        let say = KitFormatter {
            texts: Texts::english(),
            kit: &kit,
        };
        for list in LISTS {
            for id in kit.ids(list) {
                for field in kit.fields(list, &id) {
                    let said = say.value(&field.keys, &field.value);
                    let free = ["id", "name", "source", "irrigation", "family", "families"];
                    let key = field.keys.first().map_or("", String::as_str);
                    if !free.contains(&key) {
                        assert!(!said.contains('_'), "{list} {id} {:?}: {said}", field.keys);
                    }
                }
            }
        }
    }

    #[test]
    fn fields_are_told_with_what_they_belong_to_and_their_unit() {
        let kit = demo_kit();
        let say = KitFormatter {
            texts: Texts::english(),
            kit: &kit,
        };
        assert_eq!(
            say.field(&keys(&["clamp", "from_mm"])),
            "clamping length, from"
        );
        let mark = keys(&["marks", "2", "lower_edge_mm"]);
        assert_eq!(say.field(&mark), "depth mark 2, edge nearer the tip");
        let depth = |of: &[&str]| say.field(&keys(of));
        assert_eq!(depth(&["depth_mm"]), "depth");
        assert_eq!(
            depth(&["steps", "2", "depth", "depth_mm"]),
            "step 2, depth, below the platform"
        );
        assert_eq!(
            depth(&["recess", "depth_mm"]),
            "recess in the rim, from the rim to its floor"
        );
        assert_eq!(say.value(&mark, "8.5"), "8.5 mm");
        assert_eq!(
            say.value(&keys(&["fits", "1"]), "narrow"),
            say.entry("master_sleeves", "narrow")
        );
        assert_eq!(say.value(&keys(&["greatest_speed_rpm"]), "800"), "800 rpm");
        assert_eq!(say.entry("drills", "none-such"), "none-such");
    }
}
