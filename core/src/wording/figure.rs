//! Derivation of a figure, in one line and term by term.

use super::Formatter;
use super::sum::sum;
use crate::number::{degrees, mm};
use crate::plan::confirmed_by;
use crate::plan::{
    Basis, Figure, FigureRule, Fits, Known, Quantity, Sign, StepSheet, Term, TermName,
};

/// One term of a figure, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermText {
    /// Its name: "seat above the platform".
    pub name: String,
    /// Its use: added, taken away or otherwise.
    pub sign: Sign,
    /// Its value with its unit, or that there is no figure and why.
    pub value: String,
    /// Its origin.
    pub origin: String,
    /// Its basis.
    pub basis: String,
    /// True if it was confirmed after a change, and not measured anew.
    pub is_confirmed: bool,
}

impl Formatter<'_> {
    /// Derivation of a figure, in one line: "10.8 mm = 22.1 − 11.3".
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
        let of = |name| figure.terms.iter().find(|term| term.name == name);
        let shown = |name| of(name).map(|term| self.known_quantity(&term.value));
        match figure.rule {
            FigureRule::SetGauge | FigureRule::SetFixed | FigureRule::SetMark => {
                let exact = of(TermName::Exact).map(|term| &term.value);
                if exact == Some(&figure.value) {
                    return self.text("line-same", &[value]);
                }
                let id = match figure.rule {
                    FigureRule::SetGauge => "line-rounded",
                    FigureRule::SetFixed => "line-fixed",
                    _ => "line-mark",
                };
                let exact = shown(TermName::Exact).unwrap_or_default();
                self.text(id, &[value, ("exact", &exact)])
            }
            FigureRule::SetOneFigure => {
                let own = shown(TermName::OwnSetting).unwrap_or_default();
                self.text("line-one-figure", &[value, ("own", &own)])
            }
            FigureRule::PlayTilt | FigureRule::PlayAtTip => self.text("line-at-most", &[value]),
            FigureRule::DeepestCut => {
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
            let (name, shown) = (self.word(term.name.key()), self.known_quantity(&term.value));
            self.text("line-term", &[("name", &name), ("value", &shown)])
        });
        match self.joined("list-separator", list) {
            Some(list) => self.text("line-from-terms", &[value, ("list", &list)]),
            None => self.text(
                "line-by-rule",
                &[value, ("rule", &self.word(figure.rule.key()))],
            ),
        }
    }

    /// Derivation of a step's setting from what was entered and what is in the kit: "22.1 mm,
    /// rounded down from 22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35". Zeros are left out. Of what does not fit it says that.
    #[must_use]
    pub fn setting_line(&self, sheet: &StepSheet) -> String {
        if does_not_fit(sheet) {
            return self.setting(sheet);
        }
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
            FigureRule::SetOneFigure => {
                let own = sheet
                    .set
                    .terms
                    .iter()
                    .find(|t| t.name == TermName::OwnSetting);
                let own = own.map(|term| self.known_quantity(&term.value));
                let own = own.unwrap_or_default();
                self.text("sum-one-figure", &[value, ("own", &own), exact_arg, sum])
            }
            _ if set == exact => self.text("sum-line", &[value, sum]),
            FigureRule::SetFixed => self.text("sum-fixed", &[value, exact_arg, sum]),
            FigureRule::SetMark => self.text("sum-mark", &[value, exact_arg, sum]),
            _ => self.text("sum-rounded", &[value, exact_arg, sum]),
        }
    }

    /// The terms of a step's exact length as they were entered or are in the kit; none of what does not fit.
    #[must_use]
    pub fn setting_terms(&self, sheet: &StepSheet) -> Vec<TermText> {
        if does_not_fit(sheet) {
            return Vec::new();
        }
        expanded(sheet).into_iter().map(|t| self.term(t)).collect()
    }

    /// The terms of a figure.
    #[must_use]
    pub fn figure_terms(&self, figure: &Figure) -> Vec<TermText> {
        figure.terms.iter().map(|term| self.term(term)).collect()
    }

    /// The rule by which a figure came about.
    #[must_use]
    pub fn rule(&self, figure: &Figure) -> String {
        self.word(figure.rule.key())
    }

    /// What was said of figures, and that a value which they count on was confirmed and not measured anew, where
    /// one was.
    pub(super) fn with_confirmed<'f>(
        &self,
        said: String,
        figures: impl IntoIterator<Item = &'f Figure>,
    ) -> String {
        let by = confirmed_by(figures, self.case);
        let by = by.into_iter().map(str::to_owned);
        match self.joined("reasons-joined", by) {
            Some(by) => self.text("told-confirmed", &[("what", &said), ("by", &by)]),
            None => said,
        }
    }

    fn term(&self, term: &Term) -> TermText {
        TermText {
            name: self.word(term.name.key()),
            sign: term.sign,
            value: self.known_quantity(&term.value),
            origin: self.origin(&term.from),
            basis: self.basis(term.basis),
            is_confirmed: term.basis == Basis::Confirmed,
        }
    }

    /// The basis of a value.
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
}

/// True if a step has a setting that is not to be used.
fn does_not_fit(sheet: &StepSheet) -> bool {
    sheet.fits == Fits::No && sheet.set.length().is_some()
}

/// The terms of a step's exact length, its seat and depth taken apart.
fn expanded(sheet: &StepSheet) -> Vec<&Term> {
    let mut terms: Vec<&Term> = sheet.seat.terms.iter().chain(&sheet.prep.terms).collect();
    let rest = sheet.exact.terms.iter();
    terms.extend(rest.filter(|term| !matches!(term.name, TermName::Seat | TermName::Preparation)));
    terms
}
