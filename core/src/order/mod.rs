//! The run order: in which order the steps of all sites are done, so that stops are set anew in
//! surgery as seldom as can be and least time goes into changes.
//!
//! A room of its own: it knows sites, steps, tools and sleeves of a bare [`Problem`], no case and no kit.
//!
//! - A problem is read or made, and checked ([`ValidProblem`]): references, stock, rules that contradict
//!   each other.
//! - [`evaluate`] says what a schedule costs, word for word as the order is stated; everything else is
//!   held against it.
//! - [`cost_of_order`] costs an order that somebody made by hand, with its best copies and victims.
//! - [`solve`] looks for the best order and says how good it is: proved, or within a bound.
//! - [`solve_without`] finds what a rule or a weight costs.
//!
//! The answer depends on the problem and the work allowed alone: no clock, no thread, no hash decides.

mod answer;
mod assign_copies;
mod bound;
mod bounds;
mod change;
mod copies;
mod dominance;
mod evaluate;
mod expand;
mod id;
mod kinds;
mod lay;
mod layer;
mod model;
mod plain;
mod problem;
mod read;
mod rules;
mod search;
mod solve;
mod split;
mod state;
mod unsolvable;
mod valid;

pub use answer::{Answer, Bound, Done, Sum, answer};
pub use assign_copies::{CostedOrder, cost_of_order};
pub use change::Change;
pub use evaluate::{Breach, Cost, Entry, Event, ScheduleError, Tally, evaluate, events};
pub use id::Id;
pub(crate) use lay::{PieceRates, PieceUse, lay};
pub use plain::{PlainRule, plain_order};
pub use problem::{
    Before, Chain, Group, Instrument, ORDER_VERSION, Objective, Operation, Problem, Rules, Sleeve,
    SleeveUse, Tool, Weights,
};
pub use read::{ORDER_KIND, Refused, check_problem, read_problem};
pub use solve::{Budget, Outcome, Progress, Watch, first_order, solve};
pub use unsolvable::{Link, LinkReason, StepName, Unsolvable};
pub use valid::{MOST_SITES, MOST_STEPS, ValidProblem};
