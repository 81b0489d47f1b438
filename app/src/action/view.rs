//! The views, by name.

use egui::Key;

/// A view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum View {
    /// The start page.
    #[default]
    Start,
    /// The case as a whole: guide, people, limits.
    Case,
    /// The arch with its sites.
    Arch,
    /// One site.
    Site,
    /// All findings.
    Findings,
    /// The order of use: what it costs, and the best one.
    Order,
    /// The tray: the contents of its slots.
    Tray,
    /// Loading the tray.
    Loading,
    /// Surgery, one step after the other.
    Surgery,
    /// The record: what was placed and what became of it.
    Record,
    /// The printed sheet and who approved it.
    Sheet,
    /// All that was recorded of the case, and what of it counts.
    History,
    /// The kit and where the case's copy differs.
    Kit,
}

impl View {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 13] = [
        Self::Start,
        Self::Case,
        Self::Arch,
        Self::Site,
        Self::Findings,
        Self::Order,
        Self::Tray,
        Self::Loading,
        Self::Surgery,
        Self::Record,
        Self::Sheet,
        Self::History,
        Self::Kit,
    ];

    /// The id of its name.
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::Start => "view-start",
            Self::Case => "view-case",
            Self::Arch => "view-arch",
            Self::Site => "view-site",
            Self::Findings => "view-findings",
            Self::Order => "view-order",
            Self::Tray => "view-tray",
            Self::Loading => "view-loading",
            Self::Surgery => "view-surgery",
            Self::Record => "view-record",
            Self::Sheet => "view-sheet",
            Self::History => "view-history",
            Self::Kit => "view-kit",
        }
    }

    /// Its key, with the command key held.
    #[must_use]
    pub const fn key(self) -> Key {
        match self {
            Self::Start => Key::Num0,
            Self::Case => Key::Num1,
            Self::Arch => Key::Num2,
            Self::Site => Key::Num3,
            Self::Findings => Key::Num4,
            Self::Order => Key::Num5,
            Self::Tray => Key::Num6,
            Self::Loading => Key::Num7,
            Self::Surgery => Key::R,
            Self::Record => Key::E,
            Self::Sheet => Key::Num8,
            Self::History => Key::H,
            Self::Kit => Key::Num9,
        }
    }
}
