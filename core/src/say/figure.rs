//! How a figure came about, in one line and term by term.

use super::Speaker;
use super::number::{bare, degrees, mm};
use super::place::parts;
use crate::kit::{SiteId, StepId};
use crate::measure::Length;
use crate::plan::{Basis, Figure, Known, Origin, Quantity, Sign, StepSheet, Term};

/// One term of a figure, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermSaid {
    /// What it is: "seat above the platform".
    pub name: String,
    /// Whether it is added, taken away or used otherwise.
    pub sign: Sign,
    /// Its value with its unit, or that there is no figure and why.
    pub value: String,
    /// Where it comes from.
    pub origin: String,
    /// What it rests on.
    pub basis: String,
}

impl Speaker<'_> {
    /// How a figure came about, in one line: "10.8 mm = 22.1 − 11.3".
    #[must_use]
    pub fn figure_line(&self, figure: &Figure) -> String {
        let terms: Vec<&Term> = figure.terms.iter().collect();
        let value = match &figure.value {
            Known::Is(value) => self.quantity(*value),
            Known::Unknown(reasons) => {
                let reasons = self.reasons(reasons).unwrap_or_default();
                return self.text("line-unknown", &[("reasons", &reasons)]);
            }
        };
        let value = ("value", value.as_str());
        let of = |name: &str| figure.terms.iter().find(|term| term.name == name);
        let shown = |name: &str| of(name).map(|term| self.known_quantity(&term.value));
        match figure.rule {
            "rule-set-gauge" | "rule-set-fixed" | "rule-set-mark" => {
                let exact = of("term-exact").map(|term| &term.value);
                if exact == Some(&figure.value) {
                    return self.text("line-same", &[value]);
                }
                let id = match figure.rule {
                    "rule-set-gauge" => "line-rounded",
                    "rule-set-fixed" => "line-fixed",
                    _ => "line-mark",
                };
                let exact = shown("term-exact").unwrap_or_default();
                self.text(id, &[value, ("exact", &exact)])
            }
            "rule-set-one-figure" => {
                let own = shown("term-own-setting").unwrap_or_default();
                self.text("line-one-figure", &[value, ("own", &own)])
            }
            "rule-play-tilt" | "rule-play-at-tip" => self.text("line-at-most", &[value]),
            "rule-deepest-cut" => {
                let list = figure.terms.iter().map(|t| self.known_quantity(&t.value));
                let list = self.joined("list-separator", list).unwrap_or_default();
                self.text("line-deepest", &[value, ("list", &list)])
            }
            _ => self.sum_or_list(figure, &terms, value),
        }
    }

    fn sum_or_list(&self, figure: &Figure, terms: &[&Term], value: (&str, &str)) -> String {
        let total = sum(terms);
        if total.as_ref().map(|total| total.length) == figure.length()
            && let Some(total) = total.filter(|total| total.parts > 1)
        {
            return self.text("sum-line", &[value, ("sum", &total.text)]);
        }
        let list = terms.iter().map(|term| {
            let (name, shown) = (self.word(term.name), self.known_quantity(&term.value));
            self.text("line-term", &[("name", &name), ("value", &shown)])
        });
        match self.joined("list-separator", list) {
            Some(list) => self.text("line-from-terms", &[value, ("list", &list)]),
            None => self.text("line-by-rule", &[value, ("rule", &self.word(figure.rule))]),
        }
    }

    /// How a step's setting came about from what was entered and what is in the kit: "22.1 mm,
    /// rounded down from 22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35". Zeros are left out.
    #[must_use]
    pub fn setting_line(&self, sheet: &StepSheet) -> String {
        let terms = expanded(sheet);
        let (Some(set), Some(exact), Some(total)) =
            (sheet.set.length(), sheet.exact.length(), sum(&terms))
        else {
            return self.figure_line(&sheet.set);
        };
        let (value, shown) = (mm(set), mm(exact));
        let value = ("value", value.as_str());
        let exact_arg = ("exact", shown.as_str());
        let sum = ("sum", total.text.as_str());
        match sheet.set.rule {
            "rule-set-one-figure" => {
                let own = sheet
                    .set
                    .terms
                    .iter()
                    .find(|t| t.name == "term-own-setting");
                let own = own.map(|term| self.known_quantity(&term.value));
                let own = own.unwrap_or_default();
                self.text("sum-one-figure", &[value, ("own", &own), exact_arg, sum])
            }
            _ if set == exact => self.text("sum-line", &[value, sum]),
            "rule-set-fixed" => self.text("sum-fixed", &[value, exact_arg, sum]),
            "rule-set-mark" => self.text("sum-mark", &[value, exact_arg, sum]),
            _ => self.text("sum-rounded", &[value, exact_arg, sum]),
        }
    }

    /// The terms of a step's exact length as they were entered or stand in the kit.
    #[must_use]
    pub fn setting_terms(&self, sheet: &StepSheet) -> Vec<TermSaid> {
        expanded(sheet).into_iter().map(|t| self.term(t)).collect()
    }

    /// The terms of a figure.
    #[must_use]
    pub fn figure_terms(&self, figure: &Figure) -> Vec<TermSaid> {
        figure.terms.iter().map(|term| self.term(term)).collect()
    }

    /// The rule by which a figure came about.
    #[must_use]
    pub fn rule(&self, figure: &Figure) -> String {
        self.word(figure.rule)
    }

    fn term(&self, term: &Term) -> TermSaid {
        TermSaid {
            name: self.word(term.name),
            sign: term.sign,
            value: self.known_quantity(&term.value),
            origin: self.origin(&term.from),
            basis: self.basis(term.basis),
        }
    }

    /// What a value rests on.
    #[must_use]
    pub fn basis(&self, basis: Basis) -> String {
        self.word(&format!("basis-{}", basis.key()))
    }

    /// A value with its unit.
    #[must_use]
    pub fn quantity(&self, quantity: Quantity) -> String {
        match quantity {
            Quantity::Length(length) => mm(length),
            Quantity::Angle(angle) => degrees(angle),
            Quantity::Count(count) => count.to_string(),
        }
    }

    /// A value with its unit, or that there is no figure and why.
    pub(super) fn known_quantity(&self, value: &Known<Quantity>) -> String {
        match value {
            Known::Is(value) => self.quantity(*value),
            Known::Unknown(reasons) => {
                let reasons = self.reasons(reasons).unwrap_or_default();
                self.text("line-unknown", &[("reasons", &reasons)])
            }
        }
    }

    /// Where a term comes from.
    #[must_use]
    pub fn origin(&self, origin: &Origin) -> String {
        match origin {
            Origin::Case(path) => match (parts(path).first(), self.meant(path).site) {
                (_, Some(site)) => self.text("origin-site", &[("site", &self.site(&site))]),
                (Some(first), None) if first.name == "limits" => self.limit_origin(path),
                _ => self.word("origin-case"),
            },
            Origin::Kit(path) => self.text("origin-kit", &[("entry", &self.kit_entry(path))]),
            Origin::Limit(key) => self.limit_origin(&format!("limits.{key}")),
            Origin::Figure(path) => self.figure_origin(path),
            Origin::Rule(_) => self.word("origin-worked-out"),
        }
    }

    fn limit_origin(&self, path: &str) -> String {
        let key = parts(path).get(1).map_or("", |part| part.name);
        self.text("origin-limit", &[("limit", &self.limit_name(key))])
    }

    fn figure_origin(&self, path: &str) -> String {
        let parts = parts(path);
        let item = |n: usize, name: &str| {
            let part = parts.get(n).filter(|part| part.name == name)?;
            part.item
        };
        let Some(site) = item(0, "sites").map(SiteId::from) else {
            return self.word("origin-worked-out");
        };
        let place = self.site(&site);
        match item(1, "steps") {
            None => self.text("origin-figure-site", &[("site", &place)]),
            Some(step) => {
                let step = self.step(&site, &StepId::from(step));
                self.text("origin-figure-step", &[("step", &step), ("site", &place)])
            }
        }
    }

    /// The name of an entry of the kit by a path such as `drills[t31].point`.
    fn kit_entry(&self, path: &str) -> String {
        let parts = parts(path);
        let (list, id) = parts
            .first()
            .map_or(("", ""), |part| (part.name, part.item.unwrap_or("")));
        match list {
            "implants" => self.implant(&id.into()),
            "drills" => self.drill(&id.into()),
            "drill_sleeves" => self.drill_sleeve(&id.into()),
            "master_sleeves" => self.master_sleeve(&id.into()),
            "stops" => self.name_or_id(self.case.kit.stop(&id.into()).map(|s| &s.name), id),
            "gauges" => self.gauge(&id.into()),
            "carriers" => self.carrier(&id.into()),
            _ => self.name_or_id(None, path),
        }
    }
}

/// The terms of a step's exact length, its seat and depth taken apart.
fn expanded(sheet: &StepSheet) -> Vec<&Term> {
    let mut terms: Vec<&Term> = sheet.seat.terms.iter().chain(&sheet.prep.terms).collect();
    let rest = sheet.exact.terms.iter();
    terms.extend(rest.filter(|term| !matches!(term.name, "term-seat" | "term-preparation")));
    terms
}

/// A sum as it is written.
struct Sum {
    length: Length,
    text: String,
    /// How many terms are written.
    parts: usize,
}

/// The sum of the terms that are added or taken away; nothing where one of them is unknown or no
/// length. Zeros are left out unless there is nothing else.
fn sum(terms: &[&Term]) -> Option<Sum> {
    let mut sum = Sum {
        length: Length::ZERO,
        text: String::new(),
        parts: 0,
    };
    for term in terms {
        let Known::Is(Quantity::Length(length)) = term.value else {
            if term.sign == Sign::With {
                continue;
            }
            return None;
        };
        let part = match term.sign {
            Sign::Plus => length,
            Sign::Minus => -length,
            Sign::With => continue,
        };
        if part == Length::ZERO {
            continue;
        }
        sum.length += part;
        let sign = match (sum.parts, part < Length::ZERO) {
            (0, false) => "",
            (0, true) => "\u{2212}",
            (_, false) => " + ",
            (_, true) => " \u{2212} ",
        };
        sum.text.push_str(sign);
        sum.text.push_str(&bare(part.abs(), 1));
        sum.parts += 1;
    }
    if sum.parts == 0 {
        sum.text = bare(Length::ZERO, 1);
    }
    Some(sum)
}
