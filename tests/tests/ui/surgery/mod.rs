//! A day of surgery by two people, worked by keys: every step, what stops it, and a program that is killed in the middle.

mod abandoned;
mod begin;
mod by_hand;
mod change;
mod count;
mod day;
mod fell;
mod insertion;
mod left;
mod list;
mod offers;
mod overlay;
mod reset;
mod room;
mod sight;
mod sounding;
mod stops;
mod tray;
mod turn;
mod worn;
