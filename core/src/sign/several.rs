//! Signatures of more than one person, or of one for another.

use super::Who;

/// Words between two names (common practice, no source).
const BETWEEN: [&str; 14] = [
    "and", "und", "et", "og", "och", "u", "for", "für", "with", "mit", "per", "pp", "p.p", "by",
];

impl Who {
    /// True if it names two people: joined by a sign or a word. One person signs, so that it is refused.
    #[must_use]
    pub fn joins_people(&self) -> bool {
        let text = self.as_str();
        if text.contains(['/', '&', '+', ';', '|']) {
            return true;
        }
        let bare = |word: &str| {
            let word = word.trim_matches(|c: char| !c.is_alphanumeric());
            word.to_lowercase()
        };
        let words: Vec<String> = text.split_whitespace().map(bare).collect();
        let behind_first = words.get(1..).unwrap_or_default();
        let between = behind_first
            .split_last()
            .map_or(&[][..], |(_, between)| between);
        between.iter().any(|word| BETWEEN.contains(&word.as_str()))
    }

    /// True if it may name two people, so that it tells of no two other signatures that they are one person's: joined, or
    /// initials beside initials, or name beside name behind a comma.
    #[must_use]
    pub fn is_of_several(&self) -> bool {
        if self.joins_people() {
            return true;
        }
        let text = self.as_str();
        let are_initials = |part: &str| {
            let count = part.chars().count();
            let all = |is: fn(char) -> bool| part.chars().all(is);
            (2..=4).contains(&count)
                && (all(char::is_uppercase) || all(char::is_lowercase))
                && !is_degree(part)
        };
        let parts: Vec<&str> = text
            .split([',', ' '])
            .map(str::trim)
            .filter(|part| !part.is_empty())
            .collect();
        let names: Vec<&str> = text.split(',').map(str::trim).collect();
        let is_whole = |name: &&str| name.split_whitespace().count() > 1;
        parts.len() > 1 && parts.iter().all(|part| are_initials(part))
            || names.len() > 1 && names.iter().all(is_whole)
    }
}

/// Degrees and callings that are written as initials are (common practice, no source).
fn is_degree(part: &str) -> bool {
    let part = part.to_uppercase();
    let degrees = [
        "MD", "DDS", "DMD", "PHD", "BDS", "MSC", "BSC", "RN", "RDH", "RDA",
    ];
    degrees.contains(&part.as_str())
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
            "KE & OW",
            "KE+OW",
            "KE and OW",
            "KE for OW",
            "KE AND OW",
            "KE p.p. OW",
            "KE (for OW)",
            "KE u. OW",
            "KE mit OW",
            "Anna Berg und Berta Lund",
            "ANNA BERG AND BERTA LUND",
        ] {
            assert!(Who::new(several).unwrap().is_of_several(), "{several}");
            assert_eq!(Who::signing(several), Err(NameFault::Several), "{several}");
        }
        // These may be one person's name; whatever they are, they join nobody.
        for either in [
            "KE, OW",
            "KE OW",
            "ke, ow",
            "LI, NA",
            "Anna Berg, Berta Lund",
        ] {
            assert!(Who::new(either).unwrap().is_of_several(), "{either}");
            assert!(Who::signing(either).is_ok(), "{either}");
        }
        for calling in ["nurse", "Surgeon", "dental nurse", "team"] {
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
            "Anna Berg, DDS",
            "Anna and",
            "E. Y.",
            "Jo En Lai",
            "Rita O'Neil",
            "AB (nurse)",
            "Ana Pinto e Silva",
            "Juan Ortega y Casas",
            "Berg, Anna Maria",
        ] {
            assert!(!Who::new(one).unwrap().is_of_several(), "{one}");
            assert!(Who::signing(one).is_ok(), "{one}");
        }
    }
}
