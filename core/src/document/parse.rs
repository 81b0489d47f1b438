//! Strict JSON: from a text to nodes, or to the one fault that hides what follows.
//!
//! A parser of our own, because the usual ones silently keep the last of two equal keys, round
//! numbers while reading and cannot give the position of a value.

use super::lex::Cursor;
use super::node::{Member, Node, Shape};
use super::{Fault, Path, Rule};
use std::collections::BTreeMap;

/// The most levels of brackets; a document of this program has fewer than twenty.
pub const DEEPEST: usize = 64;

/// The most values in a document; a large case has some thousands.
pub const MOST_VALUES: usize = 200_000;

/// A key that occurs in an object again.
#[derive(Debug)]
pub(super) struct Duplicate {
    pub(super) path: Path,
    /// The byte at which the key begins.
    pub(super) start: usize,
    /// The byte at which the same key begins for the first time.
    pub(super) first: usize,
}

/// The values of a text, and the keys that occur in it twice.
pub(super) fn parse(text: &str) -> Result<(Node, Vec<Duplicate>), Fault> {
    let mut parser = Parser {
        cursor: Cursor { text, at: 0 },
        path: Path::root(),
        values: 0,
        duplicates: Vec::new(),
    };
    let root = parser.value(0).and_then(|root| {
        parser.cursor.skip_blanks();
        match parser.cursor.peek() {
            None => Ok(root),
            Some('/' | '#') => Err(parser.cursor.found_here(Rule::Comment)),
            Some(_) => Err(parser.cursor.found_here(Rule::TrailingText)),
        }
    });
    match root {
        Ok(root) => Ok((root, parser.duplicates)),
        Err(fault) => Err(Fault {
            path: parser.path,
            ..fault
        }),
    }
}

struct Parser<'a> {
    cursor: Cursor<'a>,
    /// The parser's place; after a fault, the place of the fault.
    path: Path,
    values: usize,
    duplicates: Vec<Duplicate>,
}

impl Parser<'_> {
    fn value(&mut self, depth: usize) -> Result<Node, Fault> {
        self.cursor.skip_blanks();
        self.values += 1;
        if self.values > MOST_VALUES {
            return Err(self.limit(Rule::TooManyValues, MOST_VALUES));
        }
        let start = self.cursor.at;
        let shape = match self.cursor.peek() {
            Some('{' | '[') if depth == DEEPEST => return Err(self.limit(Rule::TooDeep, DEEPEST)),
            Some('{') => self.object(depth + 1)?,
            Some('[') => self.list(depth + 1)?,
            Some('"') => Shape::Text(self.cursor.quoted_text()?),
            Some('-' | '+' | '.' | '0'..='9') => Shape::Number(self.cursor.number()?),
            _ => self.name()?,
        };
        Ok(Node { start, shape })
    }

    fn limit(&self, rule: Rule, limit: usize) -> Fault {
        self.cursor
            .fault_at(self.cursor.at, rule)
            .with("limit", limit)
    }

    fn name(&mut self) -> Result<Shape, Fault> {
        let rest = self.cursor.rest();
        let names = [
            ("true", Shape::Bool(true)),
            ("false", Shape::Bool(false)),
            ("null", Shape::Null),
        ];
        for (name, shape) in names {
            if let Some(behind) = rest.strip_prefix(name)
                && !behind.starts_with(|c: char| c.is_alphanumeric() || c == '_')
            {
                self.cursor.at += name.len();
                return Ok(shape);
            }
        }
        Err(self.cursor.no_value())
    }

    fn list(&mut self, depth: usize) -> Result<Shape, Fault> {
        let (start, here) = (self.cursor.at, self.path.clone());
        self.cursor.take('[');
        self.cursor.skip_blanks();
        let mut items = Vec::new();
        if self.cursor.take(']') {
            return Ok(Shape::List(items));
        }
        loop {
            self.path = here.item(items.len());
            self.must_begin("list", start)?;
            items.push(self.value(depth)?);
            if !self.goes_on(']', "list", start)? {
                self.path = here;
                return Ok(Shape::List(items));
            }
        }
    }

    fn object(&mut self, depth: usize) -> Result<Shape, Fault> {
        let (start, here) = (self.cursor.at, self.path.clone());
        self.cursor.take('{');
        self.cursor.skip_blanks();
        let mut members = Vec::new();
        let mut first_of: BTreeMap<String, usize> = BTreeMap::new();
        if self.cursor.take('}') {
            return Ok(Shape::Object(members));
        }
        loop {
            self.must_begin("object", start)?;
            let at = self.cursor.at;
            let key = self.key()?;
            self.path = here.key(&key);
            if let Some(&first) = first_of.get(&key) {
                self.duplicates.push(Duplicate {
                    path: self.path.clone(),
                    start: at,
                    first,
                });
            } else {
                first_of.insert(key.clone(), at);
            }
            self.cursor.skip_blanks();
            if !self.cursor.take(':') {
                return Err(self.expected(Rule::ExpectedColon, "object", start));
            }
            let node = self.value(depth)?;
            members.push(Member {
                start: at,
                key,
                node,
            });
            if !self.goes_on('}', "object", start)? {
                self.path = here;
                return Ok(Shape::Object(members));
            }
            self.path = here.clone();
        }
    }

    fn key(&mut self) -> Result<String, Fault> {
        if self.cursor.peek() == Some('"') {
            return self.cursor.quoted_text();
        }
        let fault = self.cursor.no_value();
        Err(match fault.rule {
            Rule::Comment | Rule::OtherQuotes => fault,
            _ => self.cursor.found_here(Rule::ExpectedKey),
        })
    }

    /// A member or item must begin here: no comma without one, no end of the text.
    fn must_begin(&mut self, open: &'static str, start: usize) -> Result<(), Fault> {
        self.cursor.skip_blanks();
        match self.cursor.peek() {
            None => Err(self.cursor.unfinished(open, start)),
            Some(',' | ']' | '}') => Err(self.cursor.found_here(Rule::StrayComma)),
            Some(_) => Ok(()),
        }
    }

    /// True if a comma follows, and not the closing bracket.
    fn goes_on(&mut self, close: char, open: &'static str, start: usize) -> Result<bool, Fault> {
        self.cursor.skip_blanks();
        if self.cursor.take(close) {
            return Ok(false);
        }
        if self.cursor.take(',') {
            return match self.decimal_comma(open) {
                Some(fault) => Err(fault),
                None => Ok(true),
            };
        }
        Err(self.expected(Rule::ExpectedComma, open, start))
    }

    /// `12,5` in an object: after the comma would have to come a key.
    fn decimal_comma(&self, open: &'static str) -> Option<Fault> {
        let text = self.cursor.text;
        let is_digit = |c: &char| c.is_ascii_digit();
        let behind: String = self.cursor.rest().chars().take_while(is_digit).collect();
        let before = &text[..self.cursor.at - 1];
        let digits = before.len() - before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        if open != "object" || behind.is_empty() || digits == 0 {
            return None;
        }
        let whole = &before[before.len() - digits..];
        let fault = self.cursor.fault_at(self.cursor.at - 1, Rule::DecimalComma);
        let fault = fault.with("found", super::fault::clipped(&format!("{whole},{behind}")));
        Some(fault.with(
            "instead",
            super::fault::clipped(&format!("{whole}.{behind}")),
        ))
    }

    fn expected(&self, rule: Rule, open: &'static str, start: usize) -> Fault {
        match self.cursor.peek() {
            None => self.cursor.unfinished(open, start),
            Some('/' | '#') => self.cursor.found_here(Rule::Comment),
            Some(_) => self.cursor.found_here(rule).with("open", open),
        }
    }
}
