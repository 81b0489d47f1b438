//! The distances between the cuts and what must not be hurt: structures, walls, neighbours, crowns.

pub(super) mod crest;
pub(super) mod neighbours;
pub(super) mod room;
pub(super) mod space;
pub(super) mod structures;
pub(super) mod walls;
