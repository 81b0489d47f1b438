//! The texts that the sources ask for, held against `assets/text/en`: each is there with the arguments
//! that it is given, and each that is there is asked for.

use crate::hazards::sources;
use Keys::{Any, Places, Schema, These};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use traywright_core::plan::NOT_ASSESSED;
use traywright_core::text::Texts;
use traywright_core::wording::PlaceKey;

/// The tokens of a source that matter here: texts in quotes, and signs and words between them.
#[derive(Debug, PartialEq, Clone)]
enum Token {
    Quoted(String),
    Word(String),
    Sign(char),
}

/// The tokens of a source, without its comments and without the tests at its end.
fn tokens(source: &str) -> Vec<Token> {
    let source = source.split("#[cfg(test)]\nmod tests {").next().unwrap();
    let mut rest = source.chars().peekable();
    let mut found = Vec::new();
    while let Some(c) = rest.next() {
        match c {
            '/' if rest.peek() == Some(&'/') => while rest.next_if(|c| *c != '\n').is_some() {},
            '"' => {
                let mut text = String::new();
                while let Some(c) = rest.next_if(|c| *c != '"') {
                    text.push(if c == '\\' { rest.next().unwrap() } else { c });
                }
                rest.next();
                found.push(Token::Quoted(text));
            }
            // A quote, or the backslash before one, as a character; lifetimes bear neither.
            '\'' if matches!(rest.peek(), Some('"' | '\\')) => {
                if rest.next() == Some('\\') {
                    rest.next();
                }
                while rest.next_if(|c| *c != '\'').is_some() {}
                rest.next();
            }
            c if c.is_alphanumeric() || c == '_' => {
                let mut word = c.to_string();
                while let Some(c) = rest.next_if(|c| c.is_alphanumeric() || *c == '_') {
                    word.push(c);
                }
                found.push(Token::Word(word));
            }
            c if c.is_whitespace() => {}
            c => found.push(Token::Sign(c)),
        }
    }
    found
}

/// One text asked for by its id: `word("id")`, `text("id", &[("name", …), …])`, `counted("id", &[…], &[…])`.
#[derive(Debug, PartialEq)]
struct Asked {
    id: String,
    /// The names of its arguments as far as they stand in the call, and whether that is all.
    args: (BTreeSet<String>, bool),
}

fn asked(tokens: &[Token]) -> Vec<Asked> {
    let sign = |at: usize, c: char| tokens.get(at) == Some(&Token::Sign(c));
    let list_at = |at: usize| {
        let found = (sign(at, '&') && sign(at + 1, '[')).then(|| names(&tokens[at + 2..]));
        found.map(|(names, all, length)| (names, all, at + 2 + length))
    };
    let call = |(at, token): (usize, &Token)| {
        let Token::Word(called) = token else {
            return None;
        };
        let Some(Token::Quoted(id)) = tokens.get(at + 2).filter(|_| sign(at + 1, '(')) else {
            return None;
        };
        let has_args = sign(at + 3, ',');
        let args = match called.as_str() {
            "word" if !has_args => (BTreeSet::new(), true),
            "text" | "get" | "try_get" if has_args => {
                let (names, all, _) = list_at(at + 4).unwrap_or_default();
                // A closure of that name may add arguments of its own.
                (names, all && at > 0 && sign(at - 1, '.'))
            }
            "counted" if has_args => match list_at(at + 4) {
                None => Default::default(),
                Some((numbers, all, end)) => {
                    let (mut names, all_of_rest, _) = list_at(end + 2).unwrap_or_default();
                    names.extend(numbers);
                    (names, all && all_of_rest)
                }
            },
            _ => return None,
        };
        let id = id.clone();
        Some(Asked { id, args })
    };
    tokens.iter().enumerate().filter_map(call).collect()
}

/// The names in a list of pairs, up to the bracket that closes it; whether that is all of them, and
/// where that bracket stands.
fn names(list: &[Token]) -> (BTreeSet<String>, bool, usize) {
    let (mut names, mut all, mut depth) = (BTreeSet::new(), true, 0);
    let mut begins = true;
    for (at, pair) in list.windows(2).enumerate() {
        match pair {
            [Token::Sign(']'), _] if depth == 0 => return (names, all, at),
            [Token::Sign('('), Token::Quoted(name)] if begins => {
                names.insert(name.clone());
                depth += 1;
            }
            [token, _] => {
                all &= !begins;
                match token {
                    Token::Sign('(' | '[' | '{') => depth += 1,
                    Token::Sign(')' | ']' | '}') => depth -= 1,
                    _ => {}
                }
            }
            _ => {}
        }
        begins = depth == 0 && pair[0] == Token::Sign(',');
    }
    (names, false, list.len())
}

/// The source of the keys of a family of texts: `density-` and one of the densities.
#[derive(Clone, Copy)]
enum Keys {
    /// These, and no others.
    These(&'static [&'static str]),
    /// The words of this type in the schema of the case.
    Schema(&'static str),
    /// Every kind of place but these, which are told by their path.
    Places(&'static [PlaceKey]),
    /// Whatever stands in quotes in the code or is a key or a word of the schema: the tests of the
    /// room that asks say more.
    Any,
}

const CHANGES: &[&str] = &["mount", "reset", "move", "sleeve", "speed"];

/// The kinds of places that are no measured values.
const NEVER_STALE: &[PlaceKey] = &[
    PlaceKey::AnteriorLoop,
    PlaceKey::Arch,
    PlaceKey::Carrier,
    PlaceKey::Density,
    PlaceKey::Gauge,
    PlaceKey::GaugeConstant,
    PlaceKey::GaugeFace,
    PlaceKey::Head,
    PlaceKey::HeightsMeasuredAt,
    PlaceKey::Limit,
    PlaceKey::PlatformToSleeve,
    PlaceKey::Steps,
    PlaceKey::Tooth,
    PlaceKey::Tray,
];

/// Every family that is asked for by an id put together.
const FAMILIES: &[(&str, Keys)] = &[
    ("arch-col-", These(&["step", "sleeve", "depth", "set"])),
    ("arch-new-", These(&["implant", "master", "bone", "extent"])),
    ("basis-", Any),
    (
        "case-",
        These(&["support", "access", "state", "gauge", "head", "tray"]),
    ),
    (
        "case-limit-",
        These(&["of", "limit", "floor", "source", "own"]),
    ),
    ("demo-", These(crate::demo::CASES)),
    ("density-", Schema("Density")),
    ("final-depth-", These(&["apical", "coronal", "level"])),
    (
        "final-depth-point-",
        These(&["coronal", "apical", "socket"]),
    ),
    ("finding-", Any),
    ("findings-subject-", Any),
    ("height-", Schema("Height")),
    ("kind-", Schema("SlotKind")),
    ("kit-field-", Any),
    ("kit-field-depth-", Any),
    ("kit-field-recess-", Any),
    ("kit-list-", Any),
    ("kit-word-", Any),
    ("limit-", Any),
    ("missing-", Places(&[])),
    ("missing-here-", These(&["structure", "distance"])),
    ("not-assessed-", These(NOT_ASSESSED)),
    ("path-", Any),
    ("remedy-", Any),
    ("remedy-unknown-", Any),
    ("run-change-", These(CHANGES)),
    ("run-change-full-", These(CHANGES)),
    ("severity-meaning-", Any),
    ("shape-", Schema("Shape")),
    ("stale-", Places(NEVER_STALE)),
    (
        "stale-since-",
        These(&[
            "moved",
            "depth",
            "depth-missing",
            "off-guide",
            "implant",
            "sleeve",
            "bone",
            "guide-code",
            "guide-plan",
            "unrecorded-guide",
            "unrecorded",
        ]),
    ),
    ("start-access-", Schema("Access")),
    ("start-support-", Schema("Support")),
    ("structure-", Schema("StructureKind")),
    ("supply-", Places(&[])),
    ("wall-side-", These(&["buccal"])),
    (
        "part-",
        These(&[
            "rules_version",
            "reference",
            "demonstration",
            "jaw",
            "other_jaw_case",
            "guide",
            "team",
            "arch",
            "setup",
            "sites",
            "teeth",
            "judgements",
            "limits",
            "run",
            "accepted_order",
            "tray_places",
            "note",
        ]),
    ),
];

/// The sources of the program without its tests, by name.
fn code() -> BTreeMap<String, Vec<Token>> {
    let tests = ["tests", "samples", "arch_samples", "malformed"];
    sources()
        .into_iter()
        .filter(|(name, _)| name.starts_with("core/") || name.starts_with("app/"))
        // Where ids are taken apart, not asked for.
        .filter(|(name, _)| !name.starts_with("core/text/"))
        .filter(|(name, _)| !name.split('/').any(|part| tests.contains(&part)))
        .map(|(name, source)| (name, tokens(&source)))
        .collect()
}

/// The texts in quotes in the code.
fn quoted(code: &BTreeMap<String, Vec<Token>>) -> BTreeSet<&str> {
    let all = code.values().flatten();
    all.filter_map(|token| match token {
        Token::Quoted(text) => Some(text.as_str()),
        _ => None,
    })
    .collect()
}

fn schema() -> Value {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../assets/schema/case.schema.json"
    );
    serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap()
}

/// The words and the keys in a part of a schema.
fn words_of(part: &Value, found: &mut BTreeSet<String>) {
    match part {
        Value::Object(map) => {
            let constant = map.get("const").into_iter();
            let listed = map.get("enum").and_then(Value::as_array);
            let words = constant.chain(listed.into_iter().flatten());
            found.extend(words.filter_map(Value::as_str).map(str::to_owned));
            if let Some(Value::Object(properties)) = map.get("properties") {
                found.extend(properties.keys().cloned());
            }
            map.values().for_each(|inner| words_of(inner, found));
        }
        Value::Array(list) => list.iter().for_each(|inner| words_of(inner, found)),
        _ => {}
    }
}

/// The keys of a family, where they can be told.
fn keys(of: Keys, schema: &Value) -> Option<BTreeSet<String>> {
    match of {
        Any => None,
        These(keys) => Some(keys.iter().map(|key| (*key).to_owned()).collect()),
        Places(but) => {
            let all = PlaceKey::ALL.iter().filter(|key| !but.contains(key));
            Some(all.map(ToString::to_string).collect())
        }
        Schema(name) => {
            let mut found = BTreeSet::new();
            words_of(&schema["$defs"][name], &mut found);
            assert!(!found.is_empty(), "{name}");
            Some(found)
        }
    }
}

#[test]
fn a_text_is_asked_for_with_the_arguments_of_both_lists() {
    let found = |source: &str| asked(&tokens(source)).pop().unwrap().args;
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
    let both = found(r#"x.counted("id", &[("n", of[1])], &[("m", &b(2))])"#);
    assert_eq!(both, (names(&["m", "n"]), true));
    let one = found(r#"x.counted("id", &[("n", 1)], args)"#);
    assert_eq!(one, (names(&["n"]), false));
    assert_eq!(found(r#"x.text("id", &[("m", b)])"#), (names(&["m"]), true));
}

#[test]
fn each_text_that_is_asked_for_exists_and_is_given_its_arguments() {
    let texts = Texts::english();
    let mut faults = Vec::new();
    let mut count = 0;
    for (name, tokens) in code() {
        for Asked { id, args } in asked(&tokens) {
            count += 1;
            let (given, all) = args;
            let Some(needed) = texts.arguments(&id) else {
                faults.push(format!("{name}: no text {id}"));
                continue;
            };
            if !given.is_subset(needed) || (all && given.len() < needed.len()) {
                faults.push(format!("{name}: {id} needs {needed:?}, given {given:?}"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(
        count > 800,
        "{count} found: are the calls still written so?"
    );
}

#[test]
fn each_family_that_is_asked_for_has_a_text_for_every_key() {
    let (code, schema, texts) = (code(), schema(), Texts::english());
    let known: BTreeSet<&str> = FAMILIES.iter().map(|(family, _)| *family).collect();
    for (name, tokens) in &code {
        for at in 2..tokens.len() {
            let Token::Quoted(text) = &tokens[at] else {
                continue;
            };
            let called = (tokens[at - 1] == Token::Sign('(')).then(|| match &tokens[at - 2..] {
                [Token::Word(word), ..] => word.as_str(),
                _ => "",
            });
            let family = match (called, text.split_once("-{")) {
                (Some("of_path" | "word_or_key"), _) => format!("{text}-"),
                (_, Some((family, _))) if texts.ids().any(|id| id.starts_with(family)) => {
                    format!(
                        "{}-",
                        family.split('{').next().unwrap().trim_end_matches('-')
                    )
                }
                _ => continue,
            };
            assert!(known.contains(family.as_str()), "{name}: family {family}");
        }
    }
    for (family, of) in FAMILIES {
        for key in keys(*of, &schema).into_iter().flatten() {
            let found = texts.has(&format!("{family}{key}"));
            let found = found || texts.has(&format!("{family}{}", key.replace('_', "-")));
            assert!(found, "{family}{key}");
        }
    }
}

#[test]
fn no_text_is_there_that_nobody_asks_for() {
    let (code, schema, texts) = (code(), schema(), Texts::english());
    let quoted = quoted(&code);
    let mut any = BTreeSet::new();
    words_of(&schema, &mut any);
    any.extend(quoted.iter().map(|text| (*text).to_owned()));
    // Texts that only other texts ask for.
    let faults = include_str!("../../../assets/text/en/faults.ftl");
    let families: Vec<_> = FAMILIES
        .iter()
        .map(|(family, of)| (family, keys(*of, &schema).unwrap_or_else(|| any.clone())))
        .collect();
    let of_a_family = |id: &str| {
        families.iter().any(|(family, keys)| {
            let key = id.strip_prefix(**family);
            key.is_some_and(|key| keys.contains(key) || keys.contains(&key.replace('-', "_")))
        })
    };
    let left: Vec<&str> = texts
        .ids()
        .filter(|id| {
            !quoted.contains(id) && !of_a_family(id) && !faults.contains(&format!("{{ {id} }}"))
        })
        .collect();
    assert!(left.is_empty(), "{left:#?}");
}
