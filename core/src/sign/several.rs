//! Signatures of more than one person, or of one for another.

use super::Who;

/// Signs between two names.
const SIGNS: [char; 7] = ['/', '&', '+', ';', '|', '\\', '\u{b7}'];

/// Words between two names, which are none of a name (common practice, no source).
const BETWEEN: [&str; 9] = ["and", "und", "og", "och", "for", "für", "with", "mit", "pp"];

impl Who {
    /// True if it names two people: joined by a sign or a word, or initials with anything between. One person signs, so that
    /// it is refused, and tells of no two other signatures that they are one person's. Names side by side join nobody: they
    /// may be one person's.
    #[must_use]
    pub fn joins_people(&self) -> bool {
        let text = self.as_str();
        let words: Vec<&str> = text.split_whitespace().collect();
        is_for_another(&words)
            || by_sign(text)
            || by_dash(&words)
            || by_word(&words)
            || are_initials_apart(&words)
    }
}

/// True if a sign stands between names.
fn by_sign(text: &str) -> bool {
    let sides: Vec<&str> = text.split(SIGNS).collect();
    sides.iter().filter(|side| has_name(side)).count() > 1
}

/// Words before the name of another for whom somebody signs (common practice, no source).
const FOR: [&str; 6] = ["for", "für", "iv", "pp", "ppa", "obo"];

/// True if it begins by saying that it is for another.
fn is_for_another(words: &[&str]) -> bool {
    let Some((first, named)) = words.split_first() else {
        return false;
    };
    FOR.contains(&bare(first).as_str()) && has_name(&named.join(" "))
}

/// A word in small letters, without what is no letter or digit.
fn bare(word: &str) -> String {
    let word = word.chars().filter(|c| c.is_alphanumeric());
    word.flat_map(char::to_lowercase).collect()
}

/// True if a dash stands by itself between names.
fn by_dash(words: &[&str]) -> bool {
    between(words).any(|(before, word, behind)| {
        let is_dash = |c: char| matches!(c, '-' | '\u{2010}'..='\u{2015}');
        word.chars().all(is_dash) && sides_have_names(before, behind)
    })
}

/// True if a word stands between names that joins them.
fn by_word(words: &[&str]) -> bool {
    between(words).any(|(before, word, behind)| {
        BETWEEN.contains(&bare(word).as_str()) && sides_have_names(before, behind)
    })
}

/// True if the first word is initials, and the last, and something else lies between: `KE p. p. OW`, `KE u. OW`.
fn are_initials_apart(words: &[&str]) -> bool {
    let are_initials = |word: &&str| {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric());
        let count = bare.chars().count();
        (2..=3).contains(&count) && bare.chars().all(char::is_uppercase)
    };
    let is_one = |word: &&str| are_initials(word) && !Who::is_beside_a_name(word);
    let ([first, .., last], [_, between @ .., _]) = (words, words) else {
        return false;
    };
    is_one(first) && is_one(last) && between.iter().any(|word| !are_initials(word))
}

/// The words that have others on both sides, with those.
fn between<'a>(
    words: &'a [&'a str],
) -> impl Iterator<Item = (&'a [&'a str], &'a str, &'a [&'a str])> {
    (1..words.len().saturating_sub(1)).map(|at| (&words[..at], words[at], &words[at + 1..]))
}

fn sides_have_names(before: &[&str], behind: &[&str]) -> bool {
    has_name(&before.join(" ")) && has_name(&behind.join(" "))
}

/// True if a part of a signature is more than a title, a degree or a calling.
fn has_name(part: &str) -> bool {
    part.chars().any(char::is_alphanumeric) && !Who::is_beside_a_name(part)
}

#[cfg(test)]
mod tests {
    use super::super::NameFault;
    use super::*;

    #[test]
    fn one_person_signs() {
        for several in [
            "KE / OW",
            "KE/OW",
            "KE\\OW",
            "KE & OW",
            "KE\u{b7}OW",
            "for KE",
            "i.V. KE",
            "KE+OW",
            "KE - OW",
            "K. Ebert \u{2013} O. Wolf",
            "KE and OW",
            "KE for OW",
            "KE AND OW",
            "KE p.p. OW",
            "KE p. p. OW",
            "KE i.V. OW",
            "KE ppa OW",
            "KE o.b.o. OW",
            "KE per OW",
            "KE (for OW)",
            "KE u. OW",
            "KE mit OW",
            "Anna Berg und Berta Lund",
            "ANNA BERG AND BERTA LUND",
            "Anna Berg (nurse) / Berta Lund (surgeon)",
        ] {
            assert!(Who::new(several).unwrap().joins_people(), "{several}");
            assert_eq!(Who::signing(several), Err(NameFault::Several), "{several}");
        }
        for calling in [
            "nurse",
            "Surgeon",
            "dental nurse",
            "team",
            "scrub nurse",
            "Circulating nurse",
            "theatre nurse",
            "scrub",
            "OR nurse",
            "the nurse",
            "Op-Schwester",
            "doctor",
            "self",
            "same",
        ] {
            assert_eq!(Who::signing(calling), Err(NameFault::Calling), "{calling}");
        }
        for one in [
            "DR",
            "RN",
            "Nurse Anna",
            "KE",
            "K. E.",
            "Berg, Anna",
            "Berg, A.",
            "Anna Berg-Lind",
            "KE, RN",
            "KE - RN",
            "KATRIN EBERT / RN",
            "Dr. Anna Berg/surgeon",
            "Anna Berg, DDS",
            "Anna and",
            "E. Y.",
            "Jo En Lai",
            "Rita O'Neil",
            "AB (nurse)",
            "Ana Pinto e Silva",
            "Juan Ortega y Casas",
            "Berg, Anna Maria",
            "van Berg, Anna Maria",
            "Dr. Per Hansen",
            "Jan Per Olsen",
            "A. U. Berg",
            "K U Ebert",
            "Anna By Lund",
            "Marie et Silva",
            "JAN KOCH",
            "DR ANNA BERG",
            "DR Anna LI",
            // These may be one person's name; whatever they are, they join nobody.
            "KE, OW",
            "KE OW",
            "ke, ow",
            "LI, NA",
            "Anna Berg, Berta Lund",
        ] {
            assert!(!Who::new(one).unwrap().joins_people(), "{one}");
            assert!(Who::signing(one).is_ok(), "{one}");
        }
    }
}
