//! What else there is of a case elsewhere: another name of its file, the case that it was packed from.

use super::place::{content, is_none, is_other};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use traywright_core::case::{ValidCase, read_case};
use traywright_core::document::legible;
use traywright_core::store::{Packed, from_pack, has_other_names};
use traywright_core::text::Texts;

/// What the places that packs name have answered since a case was opened: one that is slow costs its time once, and not at
/// each step.
#[derive(Debug, Default)]
pub(crate) struct Answers(BTreeMap<String, bool>);

impl Answers {
    /// The answer of a place, which is asked until it gives one.
    fn of(&mut self, place: &str, ask: impl FnOnce() -> Option<bool>) -> Option<bool> {
        if let Some(known) = self.0.get(place) {
            return Some(*known);
        }
        let answer = ask()?;
        self.0.insert(place.to_owned(), answer);
        Some(answer)
    }
}

/// What is told of a case file wherever it is opened, signed or printed: that something else takes it for its own.
pub(crate) fn said_elsewhere(file: &Path, case: &ValidCase, answers: &mut Answers) -> Vec<String> {
    let texts = Texts::english();
    let mut told = Vec::new();
    if has_other_names(file) {
        told.push(texts.get("store-other-name", &[]));
    }
    if let Some(from) = from_pack(file) {
        let id = if from.is_named {
            "pack-is-copy"
        } else {
            "pack-may-be-copy"
        };
        told.push(texts.get(id, &[]));
        told.extend(said_packed(from.packed.as_ref(), case, Some(file), answers));
        told.push(texts.get("pack-is-copy-no-more", &[]));
    }
    told
}

/// When and where a case was packed, and whether it lies there still, seen from a copy of it.
pub(crate) fn said_packed(
    packed: Option<&Packed>,
    case: &ValidCase,
    copy: Option<&Path>,
    answers: &mut Answers,
) -> Vec<String> {
    let texts = Texts::english();
    let Some(packed) = packed else {
        return vec![texts.get("pack-from-unknown", &[])];
    };
    let at = packed.at.strftime("%Y-%m-%d %H:%M UTC").to_string();
    let desk = packed.desk.as_deref().map_or_else(
        || texts.get("pack-from-no-desk", &[]),
        |desk| texts.get("pack-from-desk", &[("desk", &legible(desk))]),
    );
    let file = legible(&packed.file);
    let args = [("at", &*at), ("file", &*file), ("desk", &*desk)];
    let mut told = vec![texts.get("pack-from", &args)];
    let lies = || lies_there(&packed.file, case, copy);
    match answers.of(&packed.file, lies) {
        Some(true) => told.push(texts.get("pack-from-there", &[])),
        Some(false) => {}
        None => told.push(texts.get("pack-from-unanswered", &[])),
    }
    told
}

/// True if the same case lies at a path that a pack names; nothing where the system does not tell. No other machine is asked
/// by its name.
fn lies_there(path: &str, case: &ValidCase, copy: Option<&Path>) -> Option<bool> {
    let file = PathBuf::from(path);
    let is_of_share = path.starts_with("\\\\") || path.starts_with("//");
    let is_copy = copy.and_then(|copy| std::fs::canonicalize(copy).ok()) == Some(file.clone());
    if is_of_share || !file.is_absolute() || is_copy {
        return Some(false);
    }
    match content(&file)? {
        Ok(bytes) => {
            let is_same =
                |there: ValidCase| (&there.reference, there.jaw) == (&case.reference, case.jaw);
            Some(read_case(&bytes).is_ok_and(is_same))
        }
        Err(error) if is_none(&error.fault) || is_other(&error.fault) => Some(false),
        Err(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_asked_until_it_answers_and_then_no_more() {
        let mut answers = Answers::default();
        let mut asked = 0;
        for answer in [None, None, Some(true), None, Some(false)] {
            let told = answers.of("/there/case.json", || {
                asked += 1;
                answer
            });
            assert_eq!(told, (asked > 2).then_some(true));
        }
        assert_eq!(asked, 3);
        assert_eq!(answers.of("/other/case.json", || Some(false)), Some(false));
    }
}
