//! The parts of a case in words, as two desks may have changed them apart.

use super::Formatter;
use crate::case::{Apart, Part};
use crate::dentition::ToothPosition;
use crate::number::key_in_words;

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
            ["kit", key] => self.text("part-kit", &[("key", &key_in_words(key))]),
            ["kit", list, id] => {
                let args = [("id", id), ("list", &*key_in_words(list))];
                self.text("part-kit-entry", &args)
            }
            [key] => self.word(&format!("part-{}", key.replace('_', "-"))),
            _ => keys.join(" "),
        }
    }

    /// The values of a part that differ, in words.
    #[must_use]
    pub fn values_apart(&self, apart: &Apart) -> Vec<ValueText> {
        let said = |value: &Option<String>| match value {
            Some(text) => text.clone(),
            None => self.word("part-not-there"),
        };
        let one = |value: &crate::case::ValueApart| ValueText {
            name: value
                .keys
                .iter()
                .map(|key| key_in_words(key))
                .collect::<Vec<_>>()
                .join(" › "),
            here: said(&value.here),
            there: said(&value.there),
        };
        apart.values.iter().map(one).collect()
    }

    /// The names of several parts, in one line.
    #[must_use]
    pub fn parts(&self, apart: &[Apart]) -> String {
        let names = apart.iter().map(|one| self.part(&one.part));
        names.collect::<Vec<_>>().join(", ")
    }
}
