//! Costs of the wishes.

use super::super::{Formatter, begin};
use crate::order::Group;
use crate::run::{RunOrder, Wish, WishCost};

impl Formatter<'_> {
    /// A wish in words: "lower right first molar (46) before …", "site by site".
    #[must_use]
    pub fn run_wish(&self, wish: Wish) -> String {
        match wish {
            Wish::Before(n) => match self.case.run.before.get(n) {
                Some(rule) => {
                    let (first, then) = (self.site(&rule.first), self.site(&rule.then));
                    let args = [("first", first.as_str()), ("then", &then)];
                    self.text("run-wish-before", &args)
                }
                None => String::new(),
            },
            Wish::Group(group) => self.run_group(group),
            Wish::HoldGuide => self.word("run-wish-hold_guide"),
            Wish::Weight(change) => self.run_change_in_full(change),
        }
    }

    /// A rule about what stays together.
    #[must_use]
    pub fn run_group(&self, group: Group) -> String {
        self.word(match group {
            Group::SiteBySite => "run-wish-site_by_site",
            Group::ByDiameter => "run-wish-by_diameter",
        })
    }

    /// Cost of the best order without a wish, and the saving.
    #[must_use]
    pub fn run_why(&self, why: &WishCost, run: &RunOrder) -> String {
        let (wish, cost) = (begin(&self.run_wish(why.without)), self.run_cost(why.cost));
        let less = if why.cost == run.best.cost {
            self.word("run-why-same")
        } else {
            let less = self.run_above(run.best.cost, why.cost);
            self.text("run-why-less", &[("less", &less)])
        };
        let id = match why.without {
            Wish::Weight(_) => "run-why-weight",
            _ => "run-why-rule",
        };
        let args = [("wish", wish.as_str()), ("less", &less), ("cost", &cost)];
        let told = self.text(id, &args);
        let sure = if why.proved && run.proved {
            "run-why"
        } else {
            "run-why-found"
        };
        self.text(sure, &[("told", &told)])
    }
}
