//! Charts of a case: what a person looks at, as [`Drawing`](crate::drawing::Drawing)s.
//!
//! A chart takes entered lengths and finished figures, puts them to scale and names them. It works
//! out no clinical number; what is unknown is drawn as unknown. Words come from the texts,
//! sentences about findings from the caller.

mod arch;
#[cfg(test)]
mod arch_samples;
mod instrument;
mod lines;
mod marking;
mod run;
#[cfg(test)]
mod samples;
mod section;
mod strip;
mod tray;
mod verdict;
mod words;

pub use arch::{
    ArchFrame, ArchOptions, ArchSelection, ArchSpot, Arches, Arrow, LeanWords, PinFrame, SiteFrame,
    SiteLook, ToothFrame, arch, arch_frame, arch_from_afar, arch_small, lean,
};
pub use marking::{marking, shape};
pub use run::{RunStrip, RunStripOptions, run_strip};
pub use section::{NoSection, Room, Section};
pub use strip::{TrueScale, true_scale};
pub use tray::{SlotLook, TrayOptions, tray, tray_map};
pub use verdict::mark_of;
