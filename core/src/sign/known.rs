//! Everybody whom a case knows, and signatures that one of them may have given: alike to nobody who holds them side by side,
//! and short for one name all the same.

use super::Who;
use super::alike::{Digits, Umlauts};
use std::collections::BTreeSet;

/// Words of a name up to which each way is tried in which those of another may be of it (no source): the ways grow with the
/// factorial.
const MOST_WORDS: usize = 6;

/// Everybody whom the team or the record names, each once.
#[derive(Debug)]
pub struct Names<'a> {
    team: BTreeSet<&'a Who>,
    all: BTreeSet<&'a Who>,
}

impl<'a> Names<'a> {
    /// Those of a team, each another person, and those of the record.
    #[must_use]
    pub fn of(team: &'a [Who], recorded: impl Iterator<Item = &'a Who>) -> Self {
        Self {
            team: team.iter().collect(),
            all: team.iter().chain(recorded).collect(),
        }
    }

    /// True if two signatures may be one person's, by themselves or since both may be short for a name here: `Berg` and `AB`
    /// where there is an `Anna Berg`. Two of the team are two, and so are two whose numbers tell them apart.
    #[must_use]
    pub fn may_be_same(&self, one: &Who, other: &Who) -> bool {
        let of_team = |who: &Who| self.team.iter().any(|name| name.is_same(who));
        if of_team(one) && of_team(other) {
            return one.is_written_alike(other);
        }
        if one.may_be_same(other) {
            return true;
        }
        if one.has_digits() && other.has_digits() {
            return false;
        }
        // Of a name that joins several each is one by itself.
        let mut names = self.all.iter().flat_map(|name| name.each_joined());
        names.any(|name| {
            let both = name.may_be_same(one) && name.may_be_same(other);
            both && (is_whole(&name, one, other) || are_parts(&name, one, other))
        })
    }

    /// Those that may be a person's, signatures of the record among them.
    #[must_use]
    pub fn of_person(&self, who: &Who) -> BTreeSet<&'a Who> {
        let all = self.all.iter().copied();
        all.filter(|one| self.may_be_same(one, who)).collect()
    }
}

/// True if a name says more than either of the two.
fn is_whole(name: &Who, one: &Who, other: &Who) -> bool {
    let letters = |who: &Who| {
        let words = words(who);
        words.iter().map(|word| word.chars().count()).sum::<usize>()
    };
    letters(name) > letters(one).max(letters(other))
}

/// True if the words of both are words of a name of several, whole or cut off here or there, and one name could have them
/// all: `Katrin E.` and `Ebert` beside `K. Ebert`, but not `Anna Berg` and `Arne Berg` beside `A. Berg`.
fn are_parts(name: &Who, one: &Who, other: &Who) -> bool {
    let name = words(name);
    // Of names with more words than any nobody can say.
    if [&name, &words(one), &words(other)]
        .iter()
        .any(|name| name.len() > MOST_WORDS)
    {
        return true;
    }
    name.len() > 1 && {
        let of_each: Vec<Vec<String>> = name.into_iter().map(|word| vec![word]).collect();
        each_way(&of_each, &words(one))
            .iter()
            .any(|with_one| !each_way(with_one, &words(other)).is_empty())
    }
}

/// What is known of each word of a name, in each way in which these words can be of it too: each is another one's, and
/// how it begins or goes on.
fn each_way(of_each: &[Vec<String>], words: &[String]) -> Vec<Vec<Vec<String>>> {
    let mut ways = vec![(of_each.to_vec(), BTreeSet::new())];
    for word in words {
        let of_word = |(way, taken): &(Vec<Vec<String>>, BTreeSet<usize>)| {
            let free = (0..way.len()).filter(|at| !taken.contains(at));
            let fits = free.filter(|at| way[*at].iter().all(|one| begins(one, word)));
            let with = fits.map(|at| {
                let (mut way, mut taken) = (way.clone(), taken.clone());
                way[at].push(word.clone());
                taken.insert(at);
                (way, taken)
            });
            with.collect::<Vec<_>>()
        };
        ways = ways.iter().flat_map(of_word).collect();
    }
    ways.into_iter().map(|(way, _)| way).collect()
}

/// True if one of two words is how the other begins.
fn begins(one: &str, other: &str) -> bool {
    one.starts_with(other) || other.starts_with(one)
}

fn words(who: &Who) -> Vec<String> {
    who.words(Digits::AsDrawn, Umlauts::Bare)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(name: &str) -> Who {
        Who::new(name).unwrap()
    }

    fn may_be_same((a, b): (&str, &str), team: &[&str], recorded: &[&str]) -> bool {
        let [team, recorded] =
            [team, recorded].map(|names| names.iter().copied().map(of).collect::<Vec<Who>>());
        let names = Names::of(&team, recorded.iter());
        let (a, b) = (of(a), of(b));
        let same = names.may_be_same(&a, &b);
        assert_eq!(names.may_be_same(&b, &a), same, "{a} {b}");
        same
    }

    /// What one person signs in two ways is hers where somebody is known whom both may be short for.
    #[test]
    fn two_ways_to_shorten_one_name_are_not_two_people() {
        for (a, b, names, same) in [
            ("Berg", "AB", &["Anna Berg"][..], true),
            ("Berg", "Anna", &["OW", "Anna Berg"], true),
            ("Maria", "A. Berg", &["Anna Maria Berg"], true),
            ("Berg", "AB", &["OW", "Berta Berg"], false),
            ("Berg", "AB", &[], false),
            // Whole names are two people, though a third may be either.
            ("Anna Berg", "Anna Lund", &["Anna"], false),
            ("Anna Berg", "Berta Berg", &["Berg", "AB"], false),
            ("Anna Berg", "Arne Berg", &["A. Berg"], false),
            ("OW", "KE", &["Olga Wolf", "Karl Ender"], false),
            // The known name is not longer than what is short for it.
            ("Katrin E.", "Ebert", &["K. Ebert"], true),
            ("Anna Maria", "Berg", &["A. M. Berg"], true),
            ("Anna", "Berg", &["A. Berg"], true),
            ("Anna", "Lund", &["A. Berg"], false),
            ("Anna B.", "Berg", &["AB"], true),
            ("Katrin", "K", &["Katrin Ebert"], true),
            ("Katrin", "Eb", &["Katrin Ebert"], true),
            ("K", "KE", &["Katrin Ebert"], true),
            ("K", "E", &["Katrin Ebert"], true),
            ("Katrin", "Dr. E.", &["Dr. Katrin Ebert"], true),
            // In capitals, in small letters, with what may stand between two names or beside one.
            ("Berg", "AB", &["ANNA BERG"], true),
            ("Berg", "AB", &["anna berg"], true),
            ("Jan", "Koch", &["JAN KOCH"], true),
            ("Anna", "Berg", &["DR ANNA BERG"], true),
            ("Berg", "AU", &["A. U. Berg"], true),
            ("Jan", "Olsen", &["Dr. Jan Per Olsen"], true),
            ("van Berg", "Anna Maria", &["van Berg, Anna Maria"], true),
            ("Katrin", "Ebert", &["KATRIN EBERT / RN"], true),
            ("Anna", "Berg", &["Dr. Anna Berg/surgeon"], true),
            ("Katrin", "Ebert", &["Katrin Ebert - scrub nurse"], true),
            ("Katrin", "Ebert", &["Katrin Ebert / ZFA"], true),
            ("Katrin", "Ebert", &["Katrin Ebert; OP"], true),
            ("Katrin", "Ebert", &["Katrin Ebert / room 2"], true),
            ("Katrin", "Ebert", &["Katrin Ebert for RT"], true),
            ("Katrin", "Ebert", &["Katrin Ebert / Olga Lind"], true),
            ("DA", "Silva", &["DA Silva MA"], true),
            // Names side by side may be one person's: who is not that is named in the team.
            ("KE", "OW", &["KE, OW"], true),
            ("Karl Engel", "Katrin Ebert", &["KE"], false),
            ("Karl Engel", "Katrin Ebert", &["K. E."], false),
        ] {
            assert_eq!(may_be_same((a, b), names, &[]), same, "{a} {b}");
            assert_eq!(may_be_same((a, b), &[], names), same, "{a} {b}");
        }
    }

    /// Numbers are how two who share their letters tell themselves apart.
    #[test]
    fn numbers_tell_two_apart_whoever_is_known() {
        let team = ["Katrin Ebert", "Karl Engel"];
        assert!(!may_be_same(("KE1", "KE2"), &team, &[]));
        assert!(may_be_same(("KE", "Katrin Ebert"), &team, &[]));
    }

    /// Whoever the team names by themselves are two, though a third name has both of theirs.
    #[test]
    fn two_of_the_team_are_two() {
        let team = ["Dr. Anna Maria Berg", "Anna", "Maria"];
        assert!(!may_be_same(("Anna", "Maria"), &team, &[]));
        assert!(may_be_same(("Anna", "Maria"), &team[..2], &[]));
        assert!(may_be_same(("Anna", "Maria"), &[], &team));
        assert!(!may_be_same(("KE", "OW"), &["KE", "OW"], &["KE, OW"]));
        for (one, other) in [
            ("KE", "Kevin"),
            ("MA", "Maria"),
            ("K", "KE"),
            ("Jo", "Joanna"),
            ("ke", "kevin"),
        ] {
            assert!(
                !may_be_same((one, other), &[one, other], &[]),
                "{one} {other}"
            );
            assert!(may_be_same((one, other), &[], &[]), "{one} {other}");
        }
        // One who is written twice is one.
        assert!(may_be_same(("Anna Berg", "AB"), &["Anna Berg", "AB"], &[]));
    }

    /// A name of more words than any takes no time to speak of: the ways to share them grow with the factorial. That they
    /// may be one is said without them.
    #[test]
    fn a_name_of_many_words_is_not_shared_out() {
        let many = "A A A A A A A A A A A A Lund";
        assert!(may_be_same(
            ("Aaaaaaa A A A A A A A A A", "Lund"),
            &[many],
            &[]
        ));
    }

    /// A signature of two people makes no one person of them.
    #[test]
    fn a_name_of_several_joins_nobody() {
        for several in [
            "KE / OW",
            "KE & OW",
            "KE+OW",
            "KE and OW",
            "KE for OW",
            "KE p.p. OW",
            "KE i.V. OW",
            "K. Ebert - O. Wolf",
        ] {
            assert!(!may_be_same(("KE", "OW"), &["MK"], &[several]), "{several}");
            assert!(!may_be_same(("KE", "OW"), &[several], &[]), "{several}");
        }
        let lund = "Anna Berg and Berta Lund";
        assert!(!may_be_same(("Anna Berg", "Berta Lund"), &[], &[lund]));
    }
}
