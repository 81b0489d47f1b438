//! The real window, worked by accessible names, in a world of its own.

#[cfg(test)]
mod arch;
#[cfg(test)]
mod case;
#[cfg(test)]
mod desks;
#[cfg(test)]
mod fields;
#[cfg(test)]
mod files;
#[cfg(test)]
mod flow;
#[cfg(test)]
mod forms;
#[cfg(test)]
mod hand;
#[cfg(test)]
mod hands;
#[cfg(test)]
mod idle;
#[cfg(test)]
mod loading;
#[cfg(test)]
mod loading_screen;
#[cfg(test)]
mod names;
#[cfg(test)]
mod order;
#[cfg(test)]
mod pairs;
#[cfg(test)]
#[cfg(feature = "pictures")]
mod pictures;
#[cfg(test)]
mod plan;
#[cfg(test)]
mod record;
#[cfg(test)]
mod room;
#[cfg(test)]
mod settings;
#[cfg(test)]
mod start;
#[cfg(test)]
mod still;
#[cfg(test)]
mod surgery;
#[cfg(test)]
#[path = "../paper/text.rs"]
mod text;
#[cfg(test)]
mod tray;
#[cfg(test)]
mod typed;
#[cfg(test)]
mod wear;
