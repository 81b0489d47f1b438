//! The type on the desk: every size and weight that words are set in.

use super::bold;
use egui::{FontId, RichText};

/// A size of type with its weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Font {
    /// Labels of the title block.
    Fine,
    /// Labels of fields and columns.
    Caption,
    /// The same where they must not be overlooked.
    StrongCaption,
    /// Words that explain.
    Remark,
    /// The same where they must not be overlooked.
    StrongRemark,
    /// Lines of a dense list.
    Line,
    /// Figures and choices among them.
    StrongLine,
    /// Running text.
    Body,
    /// Names of parts within running text.
    StrongBody,
    /// Headings within a view.
    Heading,
    /// A setting in a table.
    Setting,
    /// The title of a view.
    Title,
    /// A setting that a row is about.
    LargeSetting,
}

impl Font {
    /// The size, points.
    #[must_use]
    pub const fn size(self) -> f32 {
        match self {
            Self::Fine => 10.5,
            Self::Caption | Self::StrongCaption => 11.5,
            Self::Remark | Self::StrongRemark => 12.5,
            Self::Line | Self::StrongLine => 13.0,
            Self::Body | Self::StrongBody => 14.0,
            Self::Heading => 15.0,
            Self::Setting => 17.0,
            Self::Title => 19.0,
            Self::LargeSetting => 24.0,
        }
    }

    /// The font, for words that are painted.
    #[must_use]
    pub fn id(self) -> FontId {
        match self {
            Self::Fine | Self::Caption | Self::Remark | Self::Line | Self::Body => {
                FontId::proportional(self.size())
            }
            _ => FontId::new(self.size(), bold()),
        }
    }

    /// Words in this type.
    pub fn text(self, text: impl Into<String>) -> RichText {
        RichText::new(text).font(self.id())
    }
}
