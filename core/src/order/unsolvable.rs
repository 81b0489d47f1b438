//! Reasons why no order can obey a problem.

use super::valid::Place;
use super::{Id, Problem};
use std::fmt;

/// A reason for which no order is possible.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unsolvable {
    /// A step needs a tool of which there is none.
    NoCopy {
        /// The tool.
        tool: Id,
        /// The first step that needs it.
        at: StepName,
    },
    /// A step needs a sleeve of which there is no piece.
    NoPiece {
        /// The sleeve.
        sleeve: Id,
        /// The first step that needs it.
        at: StepName,
    },
    /// By diameter is asked for, and a site has a drilling step after a wider one.
    Falling {
        /// The narrower step that comes after a wider one.
        at: StepName,
    },
    /// Rules that lead in a circle, each with what has to come first and what then.
    Contradiction {
        /// The circle; the last leads to the first.
        circle: Vec<Link>,
    },
    /// More sites or steps than any problem has.
    TooLarge {
        /// The number of sites.
        sites: usize,
        /// The number of steps.
        steps: usize,
    },
}

/// A step by the name of its site.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct StepName {
    /// The site.
    pub site: Id,
    /// The step, counted from 1.
    pub step: usize,
}

/// One thing that has to come before another, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// The earlier step.
    pub first: StepName,
    /// The later step.
    pub then: StepName,
    /// The reason.
    pub reason: LinkReason,
}

/// The reason why one step has to come before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LinkReason {
    /// They follow each other at their site.
    Sequence,
    /// The rule with this index in `before`.
    Before(usize),
    /// The first is narrower, and drilling is by diameter.
    Diameter,
}

impl StepName {
    pub(super) fn of(problem: &Problem, (site, step): Place) -> Self {
        Self {
            site: problem.sites[site].id.clone(),
            step: step + 1,
        }
    }

    fn args(&self) -> Vec<(&'static str, String)> {
        vec![
            ("site", self.site.to_string()),
            ("step", self.step.to_string()),
        ]
    }
}

impl Unsolvable {
    /// The id of the text and its arguments.
    #[must_use]
    pub fn message(&self) -> (&'static str, Vec<(&'static str, String)>) {
        match self {
            Self::NoCopy { tool, at } => {
                let mut args = at.args();
                args.push(("tool", tool.to_string()));
                ("order-no-copy", args)
            }
            Self::NoPiece { sleeve, at } => {
                let mut args = at.args();
                args.push(("sleeve", sleeve.to_string()));
                ("order-no-piece", args)
            }
            Self::Falling { at } => ("order-falling", at.args()),
            Self::Contradiction { circle } => {
                let links: Vec<String> = circle.iter().map(ToString::to_string).collect();
                ("order-contradiction", vec![("circle", links.join(", "))])
            }
            Self::TooLarge { sites, steps } => {
                let args = vec![
                    ("sites", sites.to_string()),
                    ("steps", steps.to_string()),
                    ("most_sites", super::MOST_SITES.to_string()),
                    ("most_steps", super::MOST_STEPS.to_string()),
                ];
                ("order-too-large", args)
            }
        }
    }
}

impl fmt::Display for StepName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}#{}", self.site, self.step)
    }
}

impl fmt::Display for Link {
    /// In signs: `36#5 → 46#1 (before[2])`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} → {} (", self.first, self.then)?;
        match self.reason {
            LinkReason::Sequence => f.write_str("steps")?,
            LinkReason::Before(n) => write!(f, "before[{n}]")?,
            LinkReason::Diameter => f.write_str("by_diameter")?,
        }
        f.write_str(")")
    }
}
