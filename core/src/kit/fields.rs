//! The entries of a kit field by field, as plain data: what a table shows and where two entries
//! differ.
//!
//! Fields are read off the entry as it is written to a file, so that none can be forgotten.

use super::{Kit, in_every_list};
use crate::document::{Leaf, leaves};

/// The lists of a kit file, in its order.
pub const LISTS: [&str; 13] = {
    macro_rules! names {
        ($($name:ident),*) => { [$(stringify!($name)),*] };
    }
    in_every_list!(names)
};

/// One field of an entry.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Field {
    /// The keys that lead to it; a place in a list is its number from 1.
    pub keys: Vec<String>,
    /// The value as it stands in the file: a number without its unit, which the last key
    /// names, words, or `true` and `false`.
    pub value: String,
}

/// A field that is not the same in two entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldChange {
    /// The keys that lead to it.
    pub keys: Vec<String>,
    /// The value in the case's copy; nothing where the field is not.
    pub old: Option<String>,
    /// The value in the live kit; nothing where the field is not.
    pub new: Option<String>,
}

impl Kit {
    /// Ids of a list's entries, in its order; none for a list that no kit has.
    #[must_use]
    pub fn ids(&self, list: &str) -> Vec<String> {
        macro_rules! ids {
            ($($name:ident),*) => {
                match list {
                    $(stringify!($name) => {
                        self.$name.iter().map(|entry| entry.id.to_string()).collect()
                    })*
                    _ => Vec::new(),
                }
            };
        }
        in_every_list!(ids)
    }

    /// The fields of an entry, in the order of the file; none where there is no such entry.
    ///
    /// `list` is a list of the kit file, or `allowances` for the rules of combining and `kit` for
    /// what names the kit.
    #[must_use]
    pub fn fields(&self, list: &str, id: &str) -> Vec<Field> {
        macro_rules! of_entry {
            ($($name:ident),*) => {
                match list {
                    "allowances" => leaves(&self.allowances),
                    "kit" => self.names(),
                    $(stringify!($name) => {
                        let mut entries = self.$name.iter();
                        let found = entries.find(|entry| entry.id.as_str() == id);
                        found.map_or_else(Vec::new, leaves)
                    })*
                    _ => Vec::new(),
                }
            };
        }
        let found = in_every_list!(of_entry).into_iter();
        found.map(|(keys, value)| Field { keys, value }).collect()
    }

    /// Differences between an entry of this copy and of the live kit, field by field, in the order
    /// of the copy, then the fields that only the live kit has.
    #[must_use]
    pub fn field_changes(&self, list: &str, id: &str, live: &Self) -> Vec<FieldChange> {
        let (old, new) = (self.fields(list, id), live.fields(list, id));
        let find = |list: &[Field], keys: &[String]| {
            let mut list = list.iter();
            list.find(|field| field.keys == keys)
                .map(|field| field.value.clone())
        };
        let of_old = old.iter().map(|field| FieldChange {
            keys: field.keys.clone(),
            old: Some(field.value.clone()),
            new: find(&new, &field.keys),
        });
        let only_new = new.iter().filter(|field| find(&old, &field.keys).is_none());
        let only_new = only_new.map(|field| FieldChange {
            keys: field.keys.clone(),
            old: None,
            new: Some(field.value.clone()),
        });
        of_old
            .chain(only_new)
            .filter(|change| change.old != change.new)
            .collect()
    }

    /// The names of the kit.
    fn names(&self) -> Vec<Leaf> {
        let named = [
            ("id", Some(self.id.to_string())),
            ("name", Some(self.name.to_string())),
            ("revision", Some(self.revision.to_string())),
            ("note", self.note.clone()),
        ];
        named
            .into_iter()
            .filter_map(|(key, value)| Some((vec![key.to_owned()], value?)))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Length;
    use crate::samples::demo_kit;

    #[test]
    fn every_list_of_the_file_is_among_the_lists_and_every_entry_has_its_fields() {
        let kit = demo_kit();
        let written = serde_json::to_value(&kit).unwrap();
        let lists = written.as_object().unwrap().iter();
        let lists: Vec<&str> = lists
            .filter(|(_, value)| value.is_array())
            .map(|(key, _)| key.as_str())
            .collect();
        assert_eq!(
            lists.len(),
            LISTS.len(),
            "the invented kit has something of each kind"
        );
        for list in lists {
            assert!(LISTS.contains(&list), "{list}");
            for id in kit.ids(list) {
                let fields = kit.fields(list, &id);
                assert_eq!((fields[0].keys[0].as_str(), &fields[0].value), ("id", &id));
                assert!(fields.len() > 2, "{list} {id}");
            }
        }
    }

    #[test]
    fn a_field_is_found_by_its_keys_with_all_its_digits() {
        let kit = demo_kit();
        let fields = kit.fields("drills", "tip-257");
        let value = |keys: &[&str]| {
            let found = fields.iter().find(|field| field.keys == keys);
            found.map(|field| field.value.as_str())
        };
        assert_eq!(value(&["cutting_diameter_mm"]), Some("2.57"));
        assert_eq!(value(&["clamp", "nowhere"]), None);
        assert_eq!(kit.fields("drills", "none"), []);
        assert_eq!(kit.fields("nothing", "tip-257"), []);
    }

    #[test]
    fn changes_are_told_field_by_field() {
        let copy = demo_kit();
        let mut live = demo_kit();
        let at = live.stops.iter().position(|s| s.id.as_str() == "stop-257");
        let stop = &mut live.stops[at.unwrap()];
        stop.body_height_mm = Length::from_um(4250);
        stop.marking.colour = None;
        stop.source = Some("measured anew".to_owned());
        let changes = copy.field_changes("stops", "stop-257", &live);
        let told: Vec<String> = changes
            .iter()
            .map(|change| {
                let or_none = |text: &Option<String>| text.clone().unwrap_or("none".to_owned());
                let keys = change.keys.join(".");
                format!("{keys}: {} {}", or_none(&change.old), or_none(&change.new))
            })
            .collect();
        let old = |keys: &str| {
            let fields = copy.fields("stops", "stop-257");
            let found = fields.iter().find(|field| field.keys.join(".") == keys);
            found.map_or("none".to_owned(), |field| field.value.clone())
        };
        let mut expected = vec![
            format!("body_height_mm: {} 4.25", old("body_height_mm")),
            format!("marking.colour: {} none", old("marking.colour")),
            format!("source: {} measured anew", old("source")),
        ];
        let mut told_sorted = told.clone();
        told_sorted.sort();
        expected.sort();
        assert_eq!(told_sorted, expected);
        assert_ne!(old("body_height_mm"), "4.25");
    }
}
