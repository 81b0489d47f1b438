//! A language's texts, found by id and filled with arguments.

use super::arguments::Needs;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentError, FluentResource, FluentValue};
use std::collections::{BTreeMap, BTreeSet};
use unic_langid::LanguageIdentifier;

/// A whole number as an argument of a text.
pub trait Whole: Copy + Into<FluentValue<'static>> {}

impl Whole for u32 {}
impl Whole for u64 {}
impl Whole for usize {}

/// The texts of one language.
pub struct Texts {
    bundle: FluentBundle<FluentResource>,
    /// Every id with the names of all the arguments that its text may use.
    arguments: BTreeMap<String, BTreeSet<String>>,
}

/// A reason why a text cannot be shown.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TextError {
    /// No text has this id.
    #[error("no text has the id {id:?}")]
    NoSuchText {
        /// The id asked for.
        id: String,
    },
    /// The text uses arguments that were not given.
    #[error("text {id:?} also needs {}", .names.join(", "))]
    MissingArguments {
        /// The text's id.
        id: String,
        /// The names of the arguments it lacks, sorted.
        names: Vec<String>,
    },
    /// The text refers to itself, or is too long to be put together.
    #[error("text {id:?} cannot be put together: {reason}")]
    Unresolved {
        /// The text's id.
        id: String,
        /// The fault.
        reason: String,
    },
}

/// A reason why a language's files cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TextFault {
    /// The name of the language is no language tag.
    #[error("no language tag: {0:?}")]
    Language(String),
    /// A part of the file is not Fluent.
    #[error("{file}: cannot be read: {reason}")]
    Syntax {
        /// The file's name.
        file: String,
        /// The fault.
        reason: String,
    },
    /// An id occurs twice, in this file or in an earlier one.
    #[error("{file}: the id {id:?} stands twice")]
    Twice {
        /// The file with its second occurrence.
        file: String,
        /// The id.
        id: String,
    },
    /// An id has attributes but no text.
    #[error("the id {id:?} has no text")]
    NoWords {
        /// The id.
        id: String,
    },
    /// A text refers to one that does not exist.
    #[error("the text {id:?} refers to {to:?}, which does not exist")]
    Dangling {
        /// The text that refers.
        id: String,
        /// The id referred to; a term's id begins with `-`.
        to: String,
    },
}

impl Texts {
    /// Reads a language's files, each given by name and content.
    ///
    /// # Errors
    ///
    /// The first fault found: a syntax error, an id that occurs twice, a reference to nothing.
    pub fn read(language: &str, files: &[(&str, &str)]) -> Result<Self, TextFault> {
        let tag: LanguageIdentifier = language
            .parse()
            .map_err(|_| TextFault::Language(language.to_owned()))?;
        let mut bundle = FluentBundle::new_concurrent(vec![tag]);
        // Isolation marks are invisible characters: they would stand in files and on paper.
        bundle.set_use_isolating(false);
        let mut needs = Needs::default();
        for &(name, content) in files {
            let syntax = |reason: String| TextFault::Syntax {
                file: name.to_owned(),
                reason,
            };
            let resource = FluentResource::try_new(content.to_owned()).map_err(|(_, errors)| {
                let reasons: Vec<_> = errors.iter().map(ToString::to_string).collect();
                syntax(reasons.join("; "))
            })?;
            needs.read(&resource)?;
            bundle
                .add_resource(resource)
                .map_err(|errors| match errors.into_iter().next() {
                    Some(FluentError::Overriding { id, .. }) => TextFault::Twice {
                        file: name.to_owned(),
                        id,
                    },
                    other => syntax(format!("{other:?}")),
                })?;
        }
        let arguments = needs.arguments_by_id()?;
        Ok(Self { bundle, arguments })
    }

    /// The text with its arguments filled in.
    ///
    /// # Errors
    ///
    /// An id without a text, or an argument that the text uses and `args` lacks. An argument too
    /// many is no error: another language may need it.
    pub fn try_get(&self, id: &str, args: &[(&str, &str)]) -> Result<String, TextError> {
        self.fill(id, &args.iter().copied().collect())
    }

    fn fill(&self, id: &str, args: &FluentArgs<'_>) -> Result<String, TextError> {
        let names = self
            .arguments(id)
            .ok_or_else(|| TextError::NoSuchText { id: id.to_owned() })?;
        let lacks = |name: &&String| args.get(name.as_str()).is_none();
        let missing: Vec<_> = names.iter().filter(lacks).cloned().collect();
        if !missing.is_empty() {
            return Err(TextError::MissingArguments {
                id: id.to_owned(),
                names: missing,
            });
        }
        let pattern = self
            .bundle
            .get_message(id)
            .and_then(|message| message.value())
            .ok_or_else(|| TextError::NoSuchText { id: id.to_owned() })?;
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(args), &mut errors);
        match errors.first() {
            None => Ok(text.into_owned()),
            Some(error) => Err(TextError::Unresolved {
                id: id.to_owned(),
                reason: error.to_string(),
            }),
        }
    }

    /// The text with its arguments filled in; where that fails, the id in marks that no text
    /// uses, `⟨id⟩`, so that the gap is seen and never read as a sentence.
    #[must_use]
    pub fn get(&self, id: &str, args: &[(&str, &str)]) -> String {
        self.shown(id, &args.iter().copied().collect())
    }

    /// The text with whole numbers in it, which stay numbers so that the language counts with them
    /// (`{ $count -> [one] … *[other] … }`), and its other arguments, as in [`Self::get`].
    #[must_use]
    pub fn counted(
        &self,
        id: &str,
        numbers: &[(&str, impl Whole)],
        args: &[(&str, &str)],
    ) -> String {
        let mut all: FluentArgs<'_> = args.iter().copied().collect();
        for &(name, number) in numbers {
            let number: FluentValue<'static> = number.into();
            all.set(name, number);
        }
        self.shown(id, &all)
    }

    fn shown(&self, id: &str, args: &FluentArgs<'_>) -> String {
        self.fill(id, args).unwrap_or_else(|_| format!("⟨{id}⟩"))
    }

    /// True if a text has this id.
    #[must_use]
    pub fn has(&self, id: &str) -> bool {
        self.arguments.contains_key(id)
    }

    /// All ids, sorted.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.arguments.keys().map(String::as_str)
    }

    /// The names of all the arguments that a text may use; `None` for an id without a text.
    #[must_use]
    pub fn arguments(&self, id: &str) -> Option<&BTreeSet<String>> {
        self.arguments.get(id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(content: &str) -> Result<Texts, TextFault> {
        Texts::read("en", &[("a.ftl", content)])
    }

    const SAMPLE: &str = "\
plain = depth
room = { $site } has { $room } mm left
wrap = { room }, { $kind ->
    [tooth] beside { $name }
   *[none] alone
}
";

    #[test]
    fn arguments_are_filled_in_as_they_were_given() {
        let texts = texts(SAMPLE).unwrap();
        let args = [
            ("site", "36"),
            ("room", "14.0"),
            ("kind", "tooth"),
            ("name", "35"),
        ];
        for (id, want) in [
            ("plain", "depth"),
            ("room", "36 has 14.0 mm left"),
            ("wrap", "36 has 14.0 mm left, beside 35"),
        ] {
            assert_eq!(texts.try_get(id, &args), Ok(want.to_owned()));
        }
    }

    #[test]
    fn a_language_counts_with_numbers_and_not_with_their_digits() {
        let text = "n = { $count ->\n    [0] no { $what }\n    [one] one { $what }\n   *[other] { $count } { $what }s\n}\n";
        let texts = texts(text).unwrap();
        let what = ("what", "stop");
        for (count, want) in [(0_u32, "no stop"), (1, "one stop"), (21, "21 stops")] {
            assert_eq!(texts.counted("n", &[("count", count)], &[what]), want);
        }
        assert_eq!(texts.get("n", &[("count", "1"), what]), "1 stops");
        let most = u32::MAX;
        assert_eq!(
            texts.counted("n", &[("count", most)], &[what]),
            format!("{most} stops")
        );
        assert_eq!(texts.counted("n", &[("other", 1_u32)], &[what]), "⟨n⟩");
    }

    #[test]
    fn what_is_missing_is_named_and_shown_as_missing() {
        let texts = texts(SAMPLE).unwrap();
        let missing = TextError::MissingArguments {
            id: "wrap".to_owned(),
            names: vec!["name".to_owned(), "room".to_owned()],
        };
        // `name` is needed although this kind does not show it: what a text needs is one list.
        let args = [("site", "36"), ("kind", "none")];
        assert_eq!(texts.try_get("wrap", &args), Err(missing));
        assert_eq!(texts.get("wrap", &args), "⟨wrap⟩");
        assert!(texts.try_get("absent", &[]).is_err());
        assert_eq!(texts.get("absent", &[]), "⟨absent⟩");
    }

    #[test]
    fn ids_are_listed_with_what_they_need() {
        let texts = texts(SAMPLE).unwrap();
        assert_eq!(texts.ids().collect::<Vec<_>>(), ["plain", "room", "wrap"]);
        assert!(texts.has("room") && !texts.has("ro"));
        let names: Vec<_> = texts.arguments("wrap").unwrap().iter().collect();
        assert_eq!(names, ["kind", "name", "room", "site"]);
        assert!(texts.arguments("absent").is_none());
    }

    #[test]
    fn faulty_files_are_refused_by_name() {
        for (content, says) in [
            ("a = x\na = y\n", "a.ftl: the id \"a\" stands twice"),
            ("a = { $x\n", "a.ftl: cannot be read"),
            ("only words\n", "a.ftl: cannot be read"),
            ("a = see { b }\n", "\"a\" refers to \"b\""),
            ("a = see { -b }\n", "\"a\" refers to \"-b\""),
            ("a =\n    .hint = no text of its own\n", "\"a\" has no text"),
        ] {
            let fault = texts(content).map(|_| ()).unwrap_err().to_string();
            assert!(fault.contains(says), "{content:?}: {fault}");
        }
        assert!(Texts::read("not a tag", &[]).is_err());
    }

    #[test]
    fn a_text_that_refers_to_itself_is_not_shown() {
        let texts = texts("a = { b }\nb = { a }\n").unwrap();
        assert!(matches!(
            texts.try_get("a", &[]),
            Err(TextError::Unresolved { .. })
        ));
    }
}
