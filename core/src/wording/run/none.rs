//! Reasons why there is no run order, and why a step stays in its place.

use super::super::{Formatter, begin, fault};
use crate::kit::{CarrierId, DrillId, DrillSleeveId, SiteId};
use crate::order::{Id, Link, LinkReason, Refused, StepName, Unsolvable};
use crate::plan::Worksheet;
use crate::run::{MoveRefused, NoRun};

impl Formatter<'_> {
    /// The reason why a case has no run order, and its remedy: a sentence each.
    #[must_use]
    pub fn no_run(&self, none: &NoRun) -> Vec<String> {
        match none {
            NoRun::Nothing => vec![self.word("run-none-nothing")],
            NoRun::Unknown(reasons) => {
                let why = self.reasons(reasons).unwrap_or_default();
                vec![self.text("run-none-unknown", &[("reasons", &why)])]
            }
            NoRun::Refused(Refused::Faults(faults)) => {
                faults.iter().map(|one| fault(one, self.texts)).collect()
            }
            NoRun::Refused(Refused::Unsolvable(reasons)) => reasons
                .iter()
                .map(|reason| self.unsolvable(reason))
                .collect(),
        }
    }

    fn unsolvable(&self, reason: &Unsolvable) -> String {
        let at = |step: &StepName| ([("step", step.step)], self.chain(&step.site));
        match reason {
            Unsolvable::NoCopy { tool, at: step } => {
                let (tool, (step, place)) = (self.tool(tool), at(step));
                let args = [("tool", tool.as_str()), ("place", &place)];
                self.counted("run-none-no-copy", &step, &args)
            }
            Unsolvable::NoPiece { sleeve, at: step } => {
                let sleeve = self.sleeve(&DrillSleeveId::from(sleeve.as_str()));
                let (step, place) = at(step);
                let args = [("sleeve", sleeve.as_str()), ("place", &place)];
                self.counted("run-none-no-piece", &step, &args)
            }
            Unsolvable::Falling { at: step } => {
                let (step, place) = at(step);
                self.counted("run-none-falling", &step, &[("place", &place)])
            }
            Unsolvable::Contradiction { circle } => {
                let links = circle.iter().filter_map(|link| self.link(link));
                let circle = self.joined("load-list", links).unwrap_or_default();
                self.text("run-none-contradiction", &[("circle", &circle)])
            }
            Unsolvable::TooLarge { .. } => {
                let (id, args) = reason.message();
                let args: Vec<(&str, &str)> = args.iter().map(|(k, v)| (*k, v.as_str())).collect();
                begin(&self.text(id, &args))
            }
        }
    }

    /// A rule of a circle: "46 before 47, as wished"; nothing for what follows at one site by itself.
    fn link(&self, link: &Link) -> Option<String> {
        let id = match link.reason {
            LinkReason::Sequence => return None,
            LinkReason::Before(_) => "run-link-before",
            LinkReason::Diameter => "run-link-diameter",
        };
        let (first, then) = (self.chain(&link.first.site), self.chain(&link.then.site));
        Some(self.text(id, &[("first", &first), ("then", &then)]))
    }

    /// A chain of a problem that was made from a case: its site or pin.
    fn chain(&self, id: &Id) -> String {
        let id = id.as_str();
        if let Some((_, site)) = id.split_once('.').filter(|(kind, _)| *kind != "pin") {
            return self.site(&SiteId::from(site));
        }
        let place = id
            .strip_prefix("pin.")
            .and_then(|n| n.parse::<usize>().ok());
        let pin = place.and_then(|place| self.case.guide.pins.get(place.checked_sub(1)?));
        pin.map_or_else(
            || id.to_owned(),
            |pin| self.text("run-pin", &[("name", pin.name.as_str())]),
        )
    }

    /// A tool of a problem that was made from a case. Of a drill that takes several sorts of stops, and
    /// so is several tools, it is the drill's name: with which stop it is wanted depends on the step.
    fn tool(&self, id: &Id) -> String {
        match id.as_str().split_once('.') {
            Some(("drill", rest)) => {
                let drills = self.case.kit.drills.iter().map(|drill| drill.id.as_str());
                let of = |id: &&str| {
                    let sort = rest.strip_prefix(id);
                    sort.is_some_and(|sort| sort.is_empty() || sort.starts_with('.'))
                };
                let drill = drills.filter(of).max_by_key(|id| id.len());
                self.drill(&DrillId::from(drill.unwrap_or(rest)))
            }
            Some(("carrier", carrier)) => self.carrier(&CarrierId::from(carrier)),
            _ => self.word("run-driver"),
        }
    }

    /// The reason why a step stays in its place.
    #[must_use]
    pub fn stays(&self, stays: &MoveRefused, worksheet: &Worksheet) -> String {
        match stays {
            MoveRefused::WholeJaw => self.word("run-stays-whole-jaw"),
            MoveRefused::Sequence(other) => {
                let other = self.run_instrument(other, worksheet);
                self.text("run-stays-sequence", &[("other", &other)])
            }
            MoveRefused::Barrier(other) => {
                let other = self.run_instrument(other, worksheet);
                self.text("run-stays-barrier", &[("other", &other)])
            }
            MoveRefused::Wish(wish) => {
                self.text("run-stays-wish", &[("wish", &self.run_wish(*wish))])
            }
            MoveRefused::End => self.word("run-stays-end"),
        }
    }
}
