//! Meanings of the things on a drawing. Their looks are decided where it is shown: the sheet has a
//! theme for paper, the window one for each of its modes.

/// The meaning of a line, a surface or a text. No colour is named here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// Outlines, figures and words that matter.
    Strong,
    /// Words and lines that explain.
    Soft,
    /// Words and lines that may be overlooked.
    Faint,
    /// The finest rules and extension lines.
    Hairline,
    /// The one accent: what is chosen or planned.
    Accent,
    /// The bare ground, to cover what is below.
    Ground,
    /// A ground a little darker than the bare one, behind a head or a box.
    Shade,
    /// A tooth, its crown or root.
    Tooth,
    /// Bone.
    Bone,
    /// Soft tissue above the bone.
    Tissue,
    /// The body of the surgical guide.
    Guide,
    /// Sleeves, drills and other metal.
    Metal,
    /// The bone that a drill removes.
    Cut,
    /// An implant.
    Implant,
    /// A structure that must not be touched: a canal, a sinus, a vessel.
    Danger,
    /// Ground of the mark *clear*.
    Clear,
    /// Ground of the mark *tight*.
    Tight,
    /// Ground of the mark *short*.
    Short,
    /// Ground of the mark *unknown*.
    Unknown,
    /// Ground of the mark *accepted*.
    Accepted,
    /// Ground of the mark *intended*.
    Intended,
    /// Words across a page that everything else is read over.
    Watermark,
}

/// Weight of a line. The theme says how many millimetres or points that is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineWeight {
    /// The finest line that prints.
    Hair,
    /// Dimension lines and edges that recede.
    Thin,
    /// Outlines.
    Medium,
    /// Outlines that the eye should find first.
    Heavy,
}

/// Pattern in which a line is interrupted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dash {
    /// Not at all.
    Solid,
    /// Equal dashes: hidden or planned edges.
    Dashed,
    /// Dots: what was computed from a schematic.
    Dotted,
    /// Long and short: axes.
    Chain,
}

/// A line's meaning, weight and interruption.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Stroke {
    /// Its meaning.
    pub ink: Ink,
    /// Its weight.
    pub weight: LineWeight,
    /// Its dash pattern.
    pub dash: Dash,
}

impl Stroke {
    /// An outline.
    pub const OUTLINE: Self = Self::new(Ink::Strong, LineWeight::Medium);
    /// A thin line in strong ink, as for dimensions.
    pub const THIN: Self = Self::new(Ink::Strong, LineWeight::Thin);
    /// The finest rule.
    pub const HAIRLINE: Self = Self::new(Ink::Hairline, LineWeight::Hair);

    /// A solid line.
    #[must_use]
    pub const fn new(ink: Ink, weight: LineWeight) -> Self {
        Self {
            ink,
            weight,
            dash: Dash::Solid,
        }
    }

    /// The same line with another interruption.
    #[must_use]
    pub const fn dashed(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }
}

/// Fill and outline of a closed shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Paint {
    /// Meaning of its surface, if it has one.
    pub fill: Option<Ink>,
    /// Its outline, if it has one.
    pub stroke: Option<Stroke>,
}

impl Paint {
    /// A surface without an outline.
    #[must_use]
    pub const fn fill(ink: Ink) -> Self {
        Self {
            fill: Some(ink),
            stroke: None,
        }
    }

    /// An outline without a surface.
    #[must_use]
    pub const fn outline(stroke: Stroke) -> Self {
        Self {
            fill: None,
            stroke: Some(stroke),
        }
    }

    /// A surface with an outline.
    #[must_use]
    pub const fn both(ink: Ink, stroke: Stroke) -> Self {
        Self {
            fill: Some(ink),
            stroke: Some(stroke),
        }
    }
}
