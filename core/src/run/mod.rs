//! The run order of a case: what [`crate::order`] knows as sites, steps, tools and sleeves, named by
//! the case, and back.
//!
//! Above [`crate::plan`]: the worksheet is there at once and follows the order that was accepted,
//! or the plain rule; the best order is slow and looked for beside it ([`run_order`]).
//!
//! **Deliberately absent:** anything clinical. A drill's setting is taken from the worksheet; where
//! one is not known there is no problem to solve ([`NoRun::Unknown`]).

mod by_hand;
mod chains;
mod copies;
mod inputs;
mod remedies;
mod rules;
mod solve;

pub use by_hand::{MoveRefused, broken, moved};
pub use chains::{NoRun, RunProblem, run_problem};
pub use inputs::RunInputs;
pub use remedies::{StockChange, StockRemedy, stock_remedies};
pub use rules::holding;
pub use solve::{
    Adherence, BestOrder, PricedOrder, RunOrder, RunStep, Wish, WishCost, run_order, why,
};
