//! A day step by step, by what is recorded of it.

mod anew;
mod count;
mod cut_before;
mod insertion;
mod ready;
mod room;
mod sleeves;
mod sounding;
mod steps;
mod without_guide;
