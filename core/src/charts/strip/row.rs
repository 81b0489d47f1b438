//! One row of the strip: name, picture, figure.

use super::picture::{self, Picture};
use super::{Columns, TIP_LINE};
use crate::case::ValidCase;
use crate::charts::lines::Lines;
use crate::charts::words;
use crate::drawing::{Across, Drawing, Ink, Mark, Stroke, TextStyle, at};
use crate::kit::{Drill, SiteId, Stop};
use crate::number::{self, in_mm};
use crate::plan::{DrillSetup, Edge, Fits, Known, LoadItem, MarkEdge, Reset, Worksheet};
use crate::text::Texts;

/// Above and below the content of a row, mm.
const PADDING: f64 = 1.7;
/// Least height of a row, mm.
const LEAST: f64 = 12.0;
const UNKNOWN: TextStyle = TextStyle::NOTE.bold().inked(Ink::Strong);

/// A drill of the loading list.
pub(super) struct Row<'a> {
    case: &'a ValidCase,
    item: &'a LoadItem,
    set: &'a DrillSetup,
    drill: &'a Drill,
    stop: Option<&'a Stop>,
    mark: Option<&'a MarkEdge>,
    /// Number of pieces of this drill on the list.
    pieces: usize,
    /// The time at which its stop is set so.
    when: When,
}

/// The time at which a stop is set.
#[derive(Clone, Copy, PartialEq, Eq)]
enum When {
    /// As it is laid on the tray.
    OnTray,
    /// Anew in surgery.
    InSurgery,
}

impl<'a> Row<'a> {
    /// The row of an item; nothing for one on which no depth is set.
    pub(super) fn of(
        case: &'a ValidCase,
        worksheet: &'a Worksheet,
        item: &'a LoadItem,
    ) -> Option<Self> {
        let set = item.set.as_ref()?;
        let same = |other: &&LoadItem| (other.kind, &other.entry) == (item.kind, &item.entry);
        Some(Self {
            case,
            item,
            set,
            drill: case.kit.drill(&set.drill)?,
            stop: set.stop.as_ref().and_then(|id| case.kit.stop(id)),
            mark: set.mark.as_ref(),
            pieces: worksheet.loading.iter().filter(same).count(),
            when: When::OnTray,
        })
    }

    /// The row of a drill as it is set anew in surgery.
    pub(super) fn set_anew(
        case: &'a ValidCase,
        worksheet: &'a Worksheet,
        reset: &'a Reset,
    ) -> Option<Self> {
        let row = Self::of(case, worksheet, &reset.to)?;
        let when = When::InSurgery;
        Some(Self { when, ..row })
    }

    /// Length of its drill, mm.
    pub(super) fn length(&self) -> f64 {
        self.drill.overall_length_mm.mm()
    }

    /// The row, from the origin down, as wide as the strip.
    pub(super) fn draw(
        &self,
        columns: Columns,
        site_name: &dyn Fn(&SiteId) -> String,
        texts: &Texts,
    ) -> Drawing {
        let name = self.name(texts);
        let names = self.names(&name, columns, site_name, texts);
        let (state, figures, picture) = self.content(columns, texts);
        let thick = picture.as_ref().map_or(0.0, Picture::thickness);
        let height = [thick, names.height(), figures.height()]
            .into_iter()
            .fold(LEAST - 2.0 * PADDING, f64::max)
            + 2.0 * PADDING;
        let middle = height / 2.0;
        let mut row = Drawing::new();
        let top = middle - names.height() / 2.0;
        row.add(names.draw(columns.names, top, Across::End));
        let figures_left = if picture.is_some() {
            columns.figures
        } else {
            columns.tip
        };
        let top = middle - figures.height() / 2.0;
        row.add(figures.draw(figures_left, top, Across::Start));
        if let Some(picture) = picture {
            row.line(at(columns.tip, 0.0), at(columns.tip, height), TIP_LINE);
            row.add(picture.draw(at(columns.tip, middle)));
        }
        row.line(at(0.0, height), at(columns.width, height), Stroke::HAIRLINE);
        // A row hangs from the origin whatever stands in it.
        row.line(at(0.0, 0.0), at(0.0, 0.0), Stroke::HAIRLINE);
        let mut drawing = Drawing::new();
        let id = match self.when {
            When::OnTray => format!("loading[{} {}]", self.item.entry, self.item.copy),
            When::InSurgery => format!(
                "resets[{} {} {figure}]",
                self.item.entry,
                self.item.copy,
                figure = self
                    .set
                    .set
                    .get()
                    .map_or_else(String::new, |set| set.to_string())
            ),
        };
        let words = texts.get("strip-row", &[("name", &name), ("state", &state)]);
        drawing.add_group(id, words, row);
        drawing
    }

    /// The drill's name, with the piece's number where there are several.
    fn name(&self, texts: &Texts) -> String {
        let name = self.item.name.as_str();
        if self.pieces > 1 {
            texts.counted("strip-copy", &[("copy", self.item.copy)], &[("name", name)])
        } else {
            name.to_owned()
        }
    }

    fn names(
        &self,
        name: &str,
        columns: Columns,
        site_name: &dyn Fn(&SiteId) -> String,
        texts: &Texts,
    ) -> Lines {
        let mut lines = Lines::new().text(name, TextStyle::STRONG, columns.names);
        if self.when == When::InSurgery {
            let words = texts.get("strip-set-anew", &[]);
            lines = lines.text(&words, TextStyle::CAPTION.bold(), columns.names);
        }
        let mut sites: Vec<String> = Vec::new();
        for site in self.item.serves.iter().filter_map(|one| one.site.as_ref()) {
            let name = site_name(site);
            if !sites.contains(&name) {
                sites.push(name);
            }
        }
        lines = lines.text(&sites.join(" · "), TextStyle::CAPTION, columns.names);
        if let Some(stop) = self.stop {
            let stop = texts.get("strip-stop", &[("name", stop.name.as_str())]);
            lines = lines.text(&stop, TextStyle::CAPTION, columns.names);
        }
        lines
    }

    /// A sentence about the setting, the words beside the picture, and the picture.
    fn content(&self, columns: Columns, texts: &Texts) -> (String, Lines, Option<Picture<'a>>) {
        let words_width = columns.width - columns.tip;
        if self.set.set.value().is_some() && self.set.fits == Fits::No {
            let state = texts.get("strip-does-not-fit", &[]);
            let lines = Lines::new().marked(Mark::Short, &state, UNKNOWN, words_width);
            return (state, lines, None);
        }
        let set = match &self.set.set {
            Known::Is(set) => *set,
            Known::Unknown(reasons) => {
                let reason = words::reason(reasons, texts);
                let state = texts.get("strip-no-setting", &[("reason", &reason)]);
                let lines = Lines::new().marked(Mark::Unknown, &state, UNKNOWN, words_width);
                return (state, lines, None);
            }
        };
        let figure = number::setting(set, self.case.graduation());
        let state = texts.get("strip-row-set", &[("figure", &in_mm(&figure))]);
        let picture = picture::picture(self.drill, self.stop, set.mm(), columns.picture());
        let width = if picture.is_some() {
            columns.width - columns.figures
        } else {
            words_width
        };
        let gauge = self.gauge(texts);
        // A hand would set a large figure on the gauge, whatever the gauge must show.
        let style = match gauge {
            None => TextStyle::FIGURE,
            Some(_) => TextStyle::HEADING,
        };
        let mut lines = Lines::new().text(&figure, style, width).text(
            &self.unit(texts),
            TextStyle::CAPTION,
            width,
        );
        if let Some(gauge) = gauge {
            lines = lines.text(&gauge, TextStyle::STRONG, width);
        }
        if picture.is_none() {
            lines = lines.text(&texts.get("strip-too-long", &[]), TextStyle::NOTE, width);
        }
        (state, lines, picture)
    }

    /// Meaning of the figure: tip to stop, or the depth at a mark.
    fn unit(&self, texts: &Texts) -> String {
        let Some(mark) = self.mark else {
            return texts.get("strip-unit", &[]);
        };
        let id = match mark.edge {
            Edge::Line => "section-mark-line",
            Edge::Lower => "section-mark-lower",
            Edge::Upper => "section-mark-upper",
        };
        let mark = texts.get(id, &[("name", mark.name.as_str())]);
        texts.get("strip-mark", &[("mark", &mark)])
    }

    /// The figure on the gauge, where it is another one or not known.
    fn gauge(&self, texts: &Texts) -> Option<String> {
        self.stop?;
        match &self.set.gauge {
            Known::Is(shown) if self.set.set.get() == Some(*shown) => None,
            Known::Is(shown) => {
                let figure = number::setting(*shown, self.case.graduation());
                Some(texts.get("section-gauge", &[("figure", &figure)]))
            }
            Known::Unknown(reasons) => {
                let reason = words::reason(reasons, texts);
                Some(texts.get("section-gauge-unknown", &[("reason", &reason)]))
            }
        }
    }
}
