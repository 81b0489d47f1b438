//! Signatures of more than one person, or of one for another.

use super::Who;

/// Words between two names (common practice, no source).
const BETWEEN: [&str; 14] = [
    "and", "und", "et", "og", "och", "en", "e", "y", "for", "für", "per", "pro", "pp", "p.p.",
];

impl Who {
    /// True if it names two people: joined by a sign or a word, or initials beside initials.
    #[must_use]
    pub fn is_of_several(&self) -> bool {
        let text = self.as_str();
        if text.contains(['/', '&', '+', ';', '|']) {
            return true;
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        let behind_first = words.get(1..).unwrap_or_default();
        let (_, between) = behind_first.split_last().unwrap_or((&"", &[]));
        if between.iter().any(|word| BETWEEN.contains(word)) {
            return true;
        }
        let mut parts = text.split(',').map(str::trim);
        let are_initials = |part: &str| {
            let count = part.chars().count();
            (2..=4).contains(&count) && part.chars().all(char::is_uppercase)
        };
        let first = parts.next().is_some_and(are_initials);
        first
            && parts.clone().count() > 0
            && parts.all(|part| are_initials(part) && !is_degree(part))
    }
}

/// Degrees and callings that are written as initials are (common practice, no source).
fn is_degree(part: &str) -> bool {
    matches!(
        part,
        "MD" | "DDS" | "DMD" | "PHD" | "BDS" | "MSC" | "BSC" | "RN" | "RDH" | "RDA"
    )
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
            "KE, OW",
            "KE p.p. OW",
            "Anna Berg und Berta Lund",
        ] {
            assert!(Who::new(several).unwrap().is_of_several(), "{several}");
            assert_eq!(Who::signing(several), Err(NameFault::Several), "{several}");
        }
        for one in [
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
        ] {
            assert!(!Who::new(one).unwrap().is_of_several(), "{one}");
            assert!(Who::signing(one).is_ok(), "{one}");
        }
    }
}
