//! Everything about preparing guided implant surgery that is true without a screen.
//!
//! A number travels one way: a [`case::Case`] is worked out to a [`plan::Worksheet`], which is
//! drawn as [`drawing::Drawing`]s, which screen and paper show alike. Nothing flows back.
pub mod case;
pub mod charts;
pub mod dentition;
pub mod document;
pub mod drawing;
pub mod figures;
pub mod kit;
pub mod measure;
mod number;
pub mod order;
pub mod plan;
pub mod record;
pub mod run;
#[cfg(test)]
mod samples;
pub mod sheet;
pub mod sign;
pub mod store;
pub mod surgery;
pub mod text;
pub mod wear;
pub mod wording;
