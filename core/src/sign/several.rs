//! Signatures of more than one person, or of one for another.

use super::Who;
use unicode_normalization::char::is_combining_mark;

/// Signs that stand in one name, or round what is said beside it, but for dashes (common practice, no source). Any other joins
/// what is on its sides: `KE / OW`, `KE: OW`, `KE⇒OW`.
const IN_A_NAME: [char; 24] = [
    '.', ',', '\'', '"', '`', '_', '@', '(', ')', '[', ']', '{', '}', '\u{ab}', '\u{bb}', '\u{b4}',
    '\u{2018}', '\u{2019}', '\u{201a}', '\u{201c}', '\u{201d}', '\u{201e}', '\u{30fb}', '\u{ff65}',
];

/// Not seen within a word.
const SOFT_HYPHEN: char = '\u{ad}';

/// Words for another, wherever they stand (common practice, no source).
const ON_BEHALF: [&[&str]; 9] = [
    &["on", "behalf", "of"],
    &["in", "place", "of"],
    &["in", "lieu", "of"],
    &["instead", "of"],
    &["im", "auftrag"],
    &["im", "namen"],
    &["in", "vertretung"],
    &["an", "stelle"],
    &["anstelle"],
];

/// Words between two names, which are none of a name (common practice, no source).
const BETWEEN: [&str; 8] = ["and", "und", "og", "och", "for", "für", "with", "mit"];

/// The same in small letters: `P.P.` are initials.
const BETWEEN_SMALL: [&str; 3] = ["pp", "ppa", "obo"];

/// The same in small letters, where a whole name stands on both sides: one of them may be a name elsewhere.
const BETWEEN_WHOLE: [&str; 4] = ["u", "et", "by", "per"];

/// Words before the name of another for whom somebody signs (common practice, no source).
const FOR: [&str; 2] = ["for", "für"];

/// The same with dots, and a small letter first: else they may be initials, or a name.
const FOR_SHORT: [&str; 5] = ["iv", "ia", "pp", "ppa", "obo"];

/// Those that behind a name need no dots.
const FOR_SHORT_BEHIND: [&str; 2] = ["ppa", "obo"];

/// Letters of a word that joins initials, at most (no source).
const LONGEST_BETWEEN: usize = 4;

impl Who {
    /// True if it names two people: joined by a sign or a word, or initials with anything between. One person signs, so that
    /// it is refused. Names side by side join nobody: they may be one person's.
    #[must_use]
    pub fn joins_people(&self) -> bool {
        let words: Vec<&str> = self.as_str().split_whitespace().collect();
        let named = self.sides();
        is_for_another(&words)
            || are_joining_alone(&words)
            || self.has_others_in_brackets()
            || named.iter().filter(|side| has_name(side)).count() > 1
    }

    /// True if it is initials with those of another in brackets: `KE (OW)`. Beside a name they may be its own, or a department's.
    fn has_others_in_brackets(&self) -> bool {
        let is_bracket = |c: char| "()[]{}".contains(c);
        let parts = self.as_str().split(is_bracket).map(str::trim);
        let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
        let [own, other] = parts[..] else {
            return false;
        };
        are_initials(own) && are_initials(other) && bare(own) != bare(other)
    }

    /// Each name that it joins; itself where it joins none.
    pub(super) fn each_joined(&self) -> Vec<Self> {
        let sides = self.sides().into_iter().filter(|side| has_name(side));
        sides.filter_map(|side| Self::new(&side).ok()).collect()
    }

    /// What stands on each side of all that joins names.
    fn sides(&self) -> Vec<String> {
        let by_sign = self.as_str().split(is_sign);
        by_sign.flat_map(by_words).collect()
    }
}

/// True for a sign between two names, of those that are seen.
fn is_sign(c: char) -> bool {
    let is_seen = c.is_ascii_punctuation()
        || matches!(c, '\u{a1}'..='\u{bf}' | '\u{d7}' | '\u{f7}' | '\u{2016}'..='\u{2027}'
            | '\u{2030}'..='\u{205e}' | '\u{2190}'..='\u{2bff}' | '\u{2e00}'..='\u{2e7f}'
            | '\u{3001}'..='\u{303f}' | '\u{30fb}' | '\u{ff01}'..='\u{ff65}' | '\u{1f000}'..='\u{1faff}');
    let is_letter = c.is_alphanumeric() || is_combining_mark(c);
    is_seen && c != SOFT_HYPHEN && !is_letter && !is_dash(c) && !IN_A_NAME.contains(&c)
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2015}')
}

/// True if nothing is there but words that join names. In capitals they may be initials.
fn are_joining_alone(words: &[&str]) -> bool {
    let joins = |word: &&str| {
        let is_joining = BETWEEN.contains(&bare(word).as_str());
        is_joining && word.chars().any(char::is_lowercase)
            || is_dotted(word) && FOR_SHORT.contains(&bare(word).as_str())
    };
    !words.is_empty() && (words.iter().all(joins) || joins(&&*words.concat()))
}

/// The sides of a part without signs.
fn by_words(part: &str) -> Vec<String> {
    let words: Vec<&str> = part.split_whitespace().collect();
    if are_initials_apart(&words)
        && let (Some(first), Some(last)) = (words.first(), words.last())
    {
        return vec![(*first).to_owned(), (*last).to_owned()];
    }
    let mut sides = vec![Vec::new()];
    for (at, word) in words.iter().enumerate() {
        let (before, behind) = (&words[..at], &words[at + 1..]);
        let is_joining = joins(word, before, behind) && at > 0 && !behind.is_empty();
        match sides.last_mut() {
            Some(side) if !is_joining => side.push(*word),
            _ => sides.push(Vec::new()),
        }
    }
    sides.into_iter().map(|side| side.join(" ")).collect()
}

/// True if a word joins what stands before and behind it.
fn joins(word: &str, before: &[&str], behind: &[&str]) -> bool {
    let are_whole = before.len() > 1 && behind.len() > 1;
    // `Meier - Lund` is a double name, `Ebert - OW` none.
    let are_two = match (before, behind) {
        ([], _) | (_, []) => false,
        ([one], [other]) => {
            has_name(one) && has_name(other) && (are_initials(one) || are_initials(other))
        }
        _ => true,
    };
    word.chars().all(is_dash) && are_two
        || BETWEEN.contains(&bare(word).as_str())
        || is_small(word) && BETWEEN_SMALL.contains(&bare(word).as_str())
        || is_dotted(word) && FOR_SHORT.contains(&bare(word).as_str())
        || are_whole && is_small(word) && BETWEEN_WHOLE.contains(&bare(word).as_str())
}

/// True if it says, at its beginning or its end, that it is for another.
fn is_for_another(words: &[&str]) -> bool {
    let Some((first, named)) = words.split_first() else {
        return false;
    };
    // `i. V.` is two words, `F. Or` a name.
    let both = named.first().map(|second| format!("{first}{second}"));
    // `I. A. Berg` is a name.
    let is_short = |word: &str| is_dotted(word) && FOR_SHORT.contains(&bare(word).as_str());
    let is_for = |word: &str| FOR.contains(&bare(word).as_str()) || is_short(word);
    let ends_so = (1..=2).any(|of| {
        let Some((before, last)) = words.len().checked_sub(of).map(|at| words.split_at(at)) else {
            return false;
        };
        let last = last.concat();
        // Without dots in small letters alone: in capitals they may be initials.
        let is_short = is_short(&last) || FOR_SHORT_BEHIND.contains(&last.as_str());
        is_short && has_name(&before.join(" "))
    });
    is_for(first) && has_name(&named.join(" "))
        || ends_so
        || says_behalf(words)
        || both.as_deref().is_some_and(is_short) && has_name(&named[1..].join(" "))
}

/// True if somebody signs on behalf of another.
fn says_behalf(words: &[&str]) -> bool {
    let words: Vec<String> = words.iter().map(|word| bare(word)).collect();
    let says = |phrase: &&[&str]| words.windows(phrase.len()).any(|some| some == *phrase);
    ON_BEHALF.iter().any(says)
}

/// True if it is short for words, and no initials: `i.V.`.
fn is_dotted(word: &str) -> bool {
    let begins = word.trim_start_matches(|c: char| !c.is_alphanumeric());
    begins.starts_with(char::is_lowercase) && word.contains('.')
}

fn is_small(word: &str) -> bool {
    !word.chars().any(char::is_uppercase)
}

/// A word in small letters, without what is no letter or digit.
fn bare(word: &str) -> String {
    let word = word.chars().filter(|c| c.is_alphanumeric());
    word.flat_map(char::to_lowercase).collect()
}

/// True for a word of two or three capitals that are no degree.
fn are_initials(word: &str) -> bool {
    let letters: Vec<char> = word.chars().filter(|c| c.is_alphanumeric()).collect();
    let is_word = (2..=3).contains(&letters.len()) && !word.contains('.');
    is_word && letters.iter().all(|c| c.is_uppercase()) && has_name(word)
}

/// True if the first word is initials, and the last, and words that may join them lie between: `KE p. p. OW`, `KE u. OW`.
fn are_initials_apart(words: &[&str]) -> bool {
    let may_join = |word: &&str| {
        let is_short = bare(word).chars().count() <= LONGEST_BETWEEN;
        is_short && (is_small(word) || word.contains('.'))
    };
    let [first, between @ .., last] = words else {
        return false;
    };
    let is_apart = !between.is_empty() && between.iter().all(may_join);
    is_apart && are_initials(first) && are_initials(last)
}

/// True if a part of a signature is more than a title, a degree or a calling.
fn has_name(part: &str) -> bool {
    part.chars().any(char::is_alphabetic) && !Who::is_beside_a_name(part)
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
            "i. A. Berg, Anna",
            "A. Berg u. B. Lund",
            "Anna Berg et Berta Lund",
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
            "Katrin Ebert by Olga Wolf",
            "K. Ebert per O. Wolf",
            "Berta Lund per pro Anna Berg",
            "KE\u{2215}OW",
            "KE\u{2044}OW",
            "KE\u{2192}OW",
            "KE=OW",
            "KE i.V.",
            "KE i. A.",
            "Dr. Katrin Ebert i. V.",
            "Dr. K. Ebert p.p.",
            "Nurse Ebert i.A.",
            "Ebert i.V. Wolf",
            "Ebert (i.V.)",
            "KE obo",
            "KE\u{2217}OW",
            "KE on behalf of OW",
            "on behalf of KE",
            "KE (for OW)",
            "KE u. OW",
            "KE mit OW",
            "Anna Berg und Berta Lund",
            "ANNA BERG AND BERTA LUND",
            "Anna Berg (nurse) / Berta Lund (surgeon)",
            "Ebert - OW",
            "KE \u{2013} Wolf",
            "KE (OW)",
            "KE [OW]",
            "KE: OW",
            "Katrin Ebert: Olga Wolf",
            "KE\u{21d2}OW",
            "KE > OW",
            "KE~OW",
            "Katrin Ebert im Auftrag",
            "KE im Auftrag von OW",
            "im Auftrag",
            "KE in place of OW",
            "in Vertretung KE",
            "for",
            "For",
            "und",
            "i.V.",
            "i. A.",
        ] {
            assert!(Who::new(several).unwrap().joins_people(), "{several}");
            assert_eq!(Who::signing(several), Err(NameFault::Several), "{several}");
        }
    }

    #[test]
    fn a_calling_is_nobody() {
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
            "Mr Zahnarzt",
            "chirurg",
            "oral surgeon",
            "Assistenz",
            "self",
            "same",
            "Dr.",
            "Dr",
            "dr.",
            "Dr. med.",
            "Ms",
            "Mr.",
        ] {
            assert_eq!(Who::signing(calling), Err(NameFault::Calling), "{calling}");
        }
    }

    #[test]
    fn one_name_joins_nobody() {
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
            // A sign at an edge joins nothing; each of these is typed before the rest of it.
            "KE -",
            "- KE",
            "KE \u{2014}",
            "KE/-",
            "KE - ",
            "- Katrin Ebert",
            "Katrin Ebert -",
            "KE and",
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
            "JR Smith II",
            "LI Wei MA",
            "NG Mei LI",
            "DA Silva MA",
            "IV Petrov",
            "ia Lundqvist",
            "Meier - Lund",
            "Anna P.P. Lund",
            "Anna Berg / Raum 2",
            "Katrin Ebert / MKG",
            "KE + 1",
            "Dr. Arzt",
            "Reader",
            // Initials, and what the same letters would say in small ones.
            "OG",
            "FOR",
            "I. V.",
            "Dana F. Or",
            "F. Or Berg",
            "KE (KE)",
            "KE (RN)",
            "Anna Berg (AB)",
            "Katrin Ebert (MKG)",
            "Nurse: KE",
            "KE #2",
            "KE 10:30",
            "Rita O\u{b4}Neil",
            "Anna \u{201e}Anni\u{201c} Berg",
            "anna_berg",
            "Ebert - RN",
            "Dr. RN",
            "I. A. Berg",
            "P. P. Lund",
            "Pp Lund",
            "Katrin Ebert - scrub nurse",
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
